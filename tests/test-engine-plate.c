#include "near.h"

#include "cro-decimal.h"
#include "cro-plate.h"

#define M(x) ((int64_t) ((x) * 1e6 + 0.5))

static const struct
{
  const char *says;
  double      makes, per_guest, allowance;
  double      share;
} shares[] = {
  { "a plate that makes one bite for one guest", 1, 1, 0, 1 },
  { "twelve bites, a guest gets three", 12, 3, 0, 0.25 },
  { "half a plate each", 1, 0.5, 0, 0.5 },
  { "an allowance comes on top", 10, 2, 5, 0.21 },
  { "bites need not be whole", 7.5, 1, 0, 1 / 7.5 },
};

static void
test_share (void **state)
{
  for (size_t i = 0; i < N_CASES (shares); i++)
    expect_near (shares[i].says,
                 cro_plate_share (M (shares[i].makes), M (shares[i].per_guest),
                                  M (shares[i].allowance)),
                 shares[i].share);
}

static const struct
{
  const char *says;
  bool        has_price;
  double      gross, tax;
  double      net;
} prices[] = {
  { "without tax the price is net", true, 12.5, 0, 12.5 },
  { "tax is taken off", true, 24, 20, 20 },
  { "rates have decimals", true, 21.1, 5.5, 20 },
  { "a gift is a price", true, 0, 20, 0 },
  { "no price, no net price", false, 24, 20, NAN },
};

static void
test_net_price (void **state)
{
  for (size_t i = 0; i < N_CASES (prices); i++)
    expect_near (prices[i].says,
                 cro_net_price (prices[i].has_price, M (prices[i].gross), M (prices[i].tax)),
                 prices[i].net);
}

static const struct
{
  const char *says;
  double      cost, net_price;
  double      pct;
  int         places;
} percentages[] = {
  /* FutureLearn menu step. */
  { "Y34: 4.62 of 21.00 is 22 %", 4.62, 21.00, 22.00, 6 },
  /* G. Wall, Trade Calculations, objective 8. */
  { "Y34: 2.13 of 5.95 is 35.80 %", 2.13, 5.95, 35.80, 2 },
  /* holt.blue MTH 81, ch. 11. */
  { "Y24: 1.15 of 3.66 is 31.42 %", 1.15, 3.66, 31.42, 2 },
  /* AHLEI, The Power of Menu Engineering, part 2. */
  { "M3: 1.00 of 3.00 is 33 %", 1.00, 3.00, 33, 0 },
  { "M3: 2.50 of 5.00 is 50 %", 2.50, 5.00, 50, 6 },
};

static void
test_food_cost_pct (void **state)
{
  for (size_t i = 0; i < N_CASES (percentages); i++)
    expect_printed (percentages[i].says,
                    cro_food_cost_pct (percentages[i].cost, percentages[i].net_price),
                    percentages[i].pct, percentages[i].places);
  expect_near ("nothing costs 0 %", cro_food_cost_pct (0, 8), 0);
  expect_near ("a credit above the cost is below 0 %", cro_food_cost_pct (-2, 8), -25);
  expect_near ("no percentage of a gift", cro_food_cost_pct (2, 0), NAN);
  expect_near ("nor without a price", cro_food_cost_pct (2, NAN), NAN);
}

static const struct
{
  const char *says;
  double      cost, target, tax;
  double      price;
  int         places;
} targets[] = {
  /* holt.blue MTH 81, ch. 11: 173.89 / 200 portions at 25 %. */
  { "Y23: 0.86945 at 25 % sells at 3.4778", 173.89 / 200, 0.25, 0, 3.4778, 6 },
  /* "Food cost percentages", ckbk 2014 (likely Gisslen, Professional Cooking). */
  { "Y34: 1.60 at 40 % sells at 4.00", 1.60, 0.40, 0, 4.00, 6 },
  { "tax comes on top", 1.60, 0.40, 0.2, 4.80, 6 },
};

static void
test_price_for_target (void **state)
{
  for (size_t i = 0; i < N_CASES (targets); i++)
    expect_printed (targets[i].says,
                    cro_price_for_target (targets[i].cost, targets[i].target, targets[i].tax),
                    targets[i].price, targets[i].places);
  expect_near ("without a target there is none", cro_price_for_target (1, NAN, 0), NAN);
  expect_near ("nor with one of 0 %", cro_price_for_target (1, 0, 0), NAN);
  /* The same source as 1.60 / 40 %: 6.75 x 35 %. */
  expect_printed ("Y34: 6.75 at 35 % may cost 2.36 (a price for a target, read backwards)",
                  6.75 * cro_food_cost_pct (1, cro_price_for_target (1, 0.35, 0)) / 100, 2.36, 2);
}

static const struct
{
  const char *says;
  double      unit_cost, quantity, cost, net_price, target;
  double      ceiling;
} ceilings[] = {
  { "room of 1.00 over 50 g", 0.02, 50, 2, 10, 0.3, 0.04 },
  { "at its target a plate leaves no room", 0.02, 50, 3, 10, 0.3, 0.02 },
  { "over it the ceiling is below the price", 0.02, 50, 3.5, 10, 0.3, 0.01 },
  { "over it even as a gift: negative, as it is", 0.02, 50, 5, 10, 0.3, -0.02 },
  { "what is credited has a floor", 0.02, -50, 2, 10, 0.3, 0 },
  { "not taken, no ceiling", 0.02, 0, 2, 10, 0.3, NAN },
  { "no target, no ceiling", 0.02, 50, 2, 10, NAN, NAN },
  { "no price, no ceiling", 0.02, 50, 2, NAN, 0.3, NAN },
};

static void
test_ceiling (void **state)
{
  for (size_t i = 0; i < N_CASES (ceilings); i++)
    {
      double ceiling = cro_ceiling (ceilings[i].unit_cost, ceilings[i].quantity, ceilings[i].cost,
                                    ceilings[i].net_price, ceilings[i].target);

      expect_near (ceilings[i].says, ceiling + 1, ceilings[i].ceiling + 1);
      if (!isnan (ceiling))
        expect_near ("at the ceiling the target is met",
                     ceilings[i].cost + ceilings[i].quantity * (ceiling - ceilings[i].unit_cost),
                     ceilings[i].target * ceilings[i].net_price);
    }
}

static const struct
{
  const char *says;
  double      cost, net_price, target;
  bool        over;
} limits[] = {
  { "below its target", 2.9, 10, 0.3, false },
  { "at its target, where doubles say 30.000000000000004 %", 0.1 + 0.2, 1, 0.3, false },
  { "a millionth above it", 3.000001, 10, 0.3, true },
  { "above it", 3.5, 10, 0.3, true },
  { "a credit above the cost", -1, 10, 0.3, false },
  { "no price", 3, NAN, 0.3, false },
  { "sold for nothing, though it has no percentage", 3, 0, 0.3, true },
  { "sold for nothing, and costs nothing", 0, 0, 0.3, false },
  { "sold for nothing, and brings in a credit", -1, 0, 0.3, false },
  { "no target", 3, 10, NAN, false },
};

static void
test_limit (void **state)
{
  for (size_t i = 0; i < N_CASES (limits); i++)
    if (cro_is_over_target (limits[i].cost, limits[i].net_price, limits[i].target)
        != limits[i].over)
      fail_msg ("%s", limits[i].says);
}

static void
test_elasticity (void **state)
{
  expect_near ("an ingredient that is a quarter of the cost", cro_elasticity (50, 0.02, 4), 0.25);
  expect_near ("none where the cost is 0", cro_elasticity (50, 0.02, 0), NAN);
  expect_near ("0 where it is given", cro_elasticity (50, 0, 4), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_share),         cmocka_unit_test (test_net_price),
    cmocka_unit_test (test_food_cost_pct), cmocka_unit_test (test_price_for_target),
    cmocka_unit_test (test_ceiling),       cmocka_unit_test (test_limit),
    cmocka_unit_test (test_elasticity),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
