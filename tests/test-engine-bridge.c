#include "near.h"

#include <stdlib.h>

#include "cro-bridge.h"

static double
sum_of (const double *effects)
{
  double sum = 0;

  for (int e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    sum += effects[e];
  return sum;
}

/* Worked by hand from the formula: one thing of one part. */
static const struct
{
  const char *says;
  double      all[2], sold[2], quantity[2], price[2];
  double      effects[CRO_N_BRIDGE_EFFECTS];
} worked[] = {
  { "twice as much of the only thing is volume", { 10, 20 }, { 10, 20 }, { 2, 2 }, { 3, 3 }, { 60, 0, 0, 0 } },
  { "a dearer purchase is price", { 10, 10 }, { 10, 10 }, { 2, 2 }, { 3, 4 }, { 0, 0, 20, 0 } },
  { "a larger portion is recipe", { 10, 10 }, { 10, 10 }, { 2, 2.5 }, { 4, 4 }, { 0, 0, 0, 20 } },
  { "more of it among as many is mix", { 10, 10 }, { 5, 8 }, { 2, 2 }, { 3, 3 }, { 0, 18, 0, 0 } },
  { "price and recipe share what both moved", { 10, 10 }, { 10, 10 }, { 1, 2 }, { 1, 3 }, { 0, 0, 30, 20 } },
  { "from nothing sold all is volume", { 0, 10 }, { 0, 10 }, { 2, 2 }, { 3, 3 }, { 60, 0, 0, 0 } },
  { "to nothing sold too", { 10, 0 }, { 10, 0 }, { 2, 2 }, { 3, 3 }, { -60, 0, 0, 0 } },
  { "more came back than was sold: its share is as large", { -10, -10 }, { -10, -10 }, { 2, 2 }, { 3, 4 },
    { 0, 0, -20, 0 } },
  { "nothing in both is nothing", { 0, 0 }, { 0, 0 }, { 2, 3 }, { 3, 4 }, { 0, 0, 0, 0 } },
};

static void
test_worked (void **state)
{
  for (size_t i = 0; i < N_CASES (worked); i++)
    {
      CroBridgeSold of = cro_bridge_sold (worked[i].all, worked[i].sold);
      double effects[CRO_N_BRIDGE_EFFECTS] = { 0 };

      cro_bridge_add (&of, worked[i].quantity, worked[i].price, effects);
      for (int e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
        expect_near (worked[i].says, effects[e] + 1, worked[i].effects[e] + 1);
    }
}

static double
any (double low,
     double high)
{
  return low + (high - low) * rand () / RAND_MAX;
}

#define THINGS 12
#define PARTS 9

/* Thousands of pairs of months: the effects are the change, whatever is absent in one of them. */
static void
test_no_residue (void **state)
{
  srand (20261031);
  for (int pair = 0; pair < 3000; pair++)
    {
      double sold[THINGS][2], all[2] = { 0, 0 }, cost[2] = { 0, 0 }, scale = 1;
      double effects[CRO_N_BRIDGE_EFFECTS] = { 0 };

      for (int i = 0; i < THINGS; i++)
        for (int m = 0; m < 2; m++)
          all[m] += sold[i][m] = rand () % 5 == 0 ? 0 : any (0, 300);
      for (int i = 0; i < THINGS; i++)
        {
          CroBridgeSold of = cro_bridge_sold (all, sold[i]);

          for (int k = 0; k < PARTS; k++)
            {
              double quantity[2], price[2];

              for (int m = 0; m < 2; m++)
                {
                  quantity[m] = rand () % 6 == 0 ? 0 : any (-20, 400);
                  price[m] = any (0, 0.2);
                  cost[m] += sold[i][m] * quantity[m] * price[m];
                  scale += fabs (sold[i][m] * quantity[m] * price[m]);
                }
              cro_bridge_add (&of, quantity, price, effects);
            }
        }
      expect ("no residue", fabs (sum_of (effects) - (cost[1] - cost[0])) < 1e-12 * scale);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_worked),
    cmocka_unit_test (test_no_residue),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
