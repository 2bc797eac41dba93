#include "near.h"

#include "cro-variance.h"

/* SP is what a unit should cost: standard cost is SQ SP. Above 0 is unfavourable. */
static const struct
{
  const char *says;
  double      actual_quantity, actual_cost, standard_quantity, standard_price;
  double      price, usage;
} worked[] = {
  /* An exercise of the type of Warren, Exercise 23-5. */
  { "V1: 450 used for 2,925; 430 at 6.90", 450, 2925, 430, 6.90, -180, 138 },
  /* Textbook exercise. */
  { "V2: 183,200 at 5.80; 185,000 at 6.00", 183200, 183200 * 5.80, 185000, 6.00, -36640, -10800 },
  /* Case 11-55 (cookie): three materials; of two only the difference is given, which is what counts. */
  { "V5: the first, 1,330,000 at .20 against .15", 1330000, 1330000 * .20, 1125000, .15, 66500, 30750 },
  { "V5: the second, 75,000 more than due at .02", 575000, 575000 * .02, 500000, .02, 0, 1500 },
  { "V5: the third, 15,000 more than due at .50", 215000, 215000 * .50, 200000, .50, 0, 7500 },
  /* Lecture example, Mix and Yield. */
  { "V6: 600 for 500 at 2", 600, 1200, 500, 2, 0, 200 },
  { "V6: 900 for 500 at 4", 900, 3600, 500, 4, 0, 1600 },
  /* CollegeHive, management accounting notes: a sweet of three, 630 due, 738.50 paid, together and the one that is
   * dearer alone, with quantities at the prices that fit; usage is the source's mix 36.75 and yield 47.25. */
  { "V8: 2.1 kg of sugar for 2 at 40", 2.1, 84, 2, 40, 0, 4 },
  { "V8: 1.2 kg of ghee for 1 at 400, 24.50 dearer", 1.2, 504.5, 1, 400, 24.5, 80 },
  /* All three at the mean of the recipe: only the yield is left in usage, and the mix is in the price. */
  { "V8: 4.3 kg for 4 at 157.50", 4.3, 738.5, 4, 157.5, 24.5 + 36.75, 47.25 },
  { "nothing moved", 10, 25, 10, 2.5, 0, 0 },
};

static void
test_worked (void **state)
{
  for (size_t i = 0; i < N_CASES (worked); i++)
    {
      double standard = worked[i].standard_quantity * worked[i].standard_price;
      CroVariance got = cro_variance (worked[i].actual_quantity, worked[i].actual_cost,
                                      worked[i].standard_quantity, standard);

      /* Differences of near equals: to a millionth of the cost. */
      expect_near (worked[i].says, got.price + 1e6, worked[i].price + 1e6);
      expect_near (worked[i].says, got.usage + 1e6, worked[i].usage + 1e6);
      expect_near (worked[i].says, got.price + got.usage + 1e6,
                   worked[i].actual_cost - standard + 1e6);
    }
}

/* Jake's Cheese exercise (V4): bought 160,000 at 7.50, used 145,000 where 135,000 were due at 8. */
static void
test_on_bought (void **state)
{
  double price = cro_variance_on_bought (160000, 160000 * 7.5, 135000, 135000 * 8.0);
  CroVariance used = cro_variance (145000, 145000 * 8.0, 135000, 135000 * 8.0);

  expect_near ("V4: price on what was bought", price, -80000);
  expect_near ("V4: usage on what was used", used.usage, 80000);
  expect_near ("the average of 2 at 3 and 4 at 6", cro_weighted_average (2, 6, 4, 24), 5);
  expect ("of nothing there is none, though it cost money", isnan (cro_weighted_average (0, 6, 0, 0)));
}

static void
test_nothing_due (void **state)
{
  expect ("no standard price", isnan (cro_variance (5, 10, 0, 0).price));
  expect ("and no usage", isnan (cro_variance (5, 10, 0, 0).usage));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_worked),
    cmocka_unit_test (test_on_bought),
    cmocka_unit_test (test_nothing_due),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
