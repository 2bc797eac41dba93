#include "near.h"

#include "cro-yield.h"

#define MAX_LOTS 4

/* Errors follow the ratio estimator's of W. G. Cochran, Sampling Techniques (from memory);
 * each is worked out here by hand. */
static const struct
{
  const char *says;
  double      purchased[MAX_LOTS], usable[MAX_LOTS];
  size_t      n;
  double      yield, error;
} pools[] = {
  { "no test, no yield", { 0 }, { 0 }, 0, NAN, NAN },
  { "one test has no error", { 1000 }, { 800 }, 1, 0.8, NAN },
  { "lots that agree have none either", { 1000, 3000 }, { 800, 2400 }, 2, 0.8, 0 },
  /* Residuals of 2/3 g: sqrt (2 (4/9 + 4/9)) / 30. */
  { "a ratio of sums", { 10, 20 }, { 8, 14 }, 2, 22 / 30.0, 4 / 90.0 },
  /* Mean of ratios: 0.75. */
  { "is not the mean of ratios", { 1, 99 }, { 1, 49.5 }, 2, 0.505, 0.0099 },
  { "soaking yields more than 1", { 500, 500 }, { 1100, 1200 }, 2, 2.3, 0.1 },
  { "nothing usable is a yield of 0", { 10, 10 }, { 0, 0 }, 2, 0, 0 },
};

static void
test_pool (void **state)
{
  for (size_t i = 0; i < N_CASES (pools); i++)
    {
      CroPooledYield pooled = cro_yield_pool (pools[i].purchased, pools[i].usable, pools[i].n);

      expect_near (pools[i].says, pooled.yield, pools[i].yield);
      expect (pools[i].says, pooled.n == pools[i].n);
      /* Residuals are differences of near equals: 1e-12 of the yield, not of themselves. */
      expect_near (pools[i].says, pooled.error + 1, pools[i].error + 1);
    }
}

/* Yield in per cent, or loss = 100 - yield; weights in whatever unit the source has. */
static const struct
{
  const char *says;
  double      purchased, usable;
  bool        is_loss;
  double      pct;
  int         places;
} printed[] = {
  /* Basic Kitchen and Food Service Management (BCcampus 2015), Yield Testing, Example 12. */
  { "Y1: 1 kg of carrots, 800 g left: 80 %", 1000, 800, false, 80, 6 },
  { "Y2: tenderloin 2500 g less 750: 70 %", 2500, 1750, false, 70, 6 },
  { "Y3: salmon 7750 g less 2750: 64.516 %", 7750, 5000, false, 64.516, 3 },
  { "Y4: tuna 750 ml less 300: 60 % (prints 53.33: a misprint)", 750, 450, false, 60, 6 },
  /* Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost Controls, ch. 6. */
  { "Y7: rib of beef 22 lb of 38 lb 12 oz: 56.774 %", 38.75, 22, false, 56.774, 3 },
  /* Class slides, As Purchased and Edible Portion. */
  { "Y13: lamb rack 3.534 kg of 4: 88.35 %", 4, 4 * 0.95 * 0.93, false, 88.35, 6 },
  /* G. Wall, Trade Calculations, objective 4. */
  { "Y14: striploin 4.6 of 5.2 kg: 88.46 % (printed 88.5)", 5.2, 4.6, false, 88.46, 2 },
  /* B. Lowe, Experimental Cookery, table of average cooking losses: pounds and ounces. The
   * 28.0 printed for lamb is a mean of single losses. */
  { "Y28: veal roasts 107-2 to 76-1 lose 29.00 %", 107 + 2 / 16.0, 76 + 1 / 16.0, true, 29.00, 2 },
  { "Y28: lamb roasts 26-11 to 18-13 lose 29.51 %",
    26 + 11 / 16.0, 18 + 13 / 16.0, true, 29.51, 2 },
  /* US Army MD0711 ed. 100, Waterfoods. */
  { "Y29: 22 oz deglazed to 20 lose 9.1 %", 22, 20, true, 9.1, 1 },
  /* SeafoodSource handbook, Lobster: 1 lb of meat from 4 to 6 lobsters of 1 to 1.25 lb. */
  { "Y32: 1 lb of meat from six of 1.25 lb: 13.3 %", 7.5, 1, false, 13.3, 1 },
  { "Y32: from four of 1 lb: 25 %", 4, 1, false, 25, 6 },
};

static void
test_printed (void **state)
{
  for (size_t i = 0; i < N_CASES (printed); i++)
    {
      double pct = 100 * cro_yield_pool (&printed[i].purchased, &printed[i].usable, 1).yield;

      expect_printed (printed[i].says, printed[i].is_loss ? 100 - pct : pct, printed[i].pct,
                      printed[i].places);
    }
}

/* Variance of purchased over usable between lots. */
static const struct
{
  const char *says;
  double      purchased[MAX_LOTS], usable[MAX_LOTS];
  size_t      n;
  double      variance;
} variances[] = {
  { "none of one lot", { 10 }, { 8 }, 1, NAN },
  { "0 of lots that agree", { 10, 5 }, { 8, 4 }, 2, 0 },
  { "of 2 and 4 it is 2", { 10, 20 }, { 5, 5 }, 2, 2 },
  { "lots count alike, whatever they weigh", { 1000, 20 }, { 500, 5 }, 2, 2 },
  { "of 1, 2, 3 it is 1", { 1, 2, 3 }, { 1, 1, 1 }, 3, 1 },
  { "none where a lot gave nothing", { 10, 10 }, { 8, 0 }, 2, NAN },
};

static void
test_yield_variance (void **state)
{
  for (size_t i = 0; i < N_CASES (variances); i++)
    expect_near (variances[i].says,
                 cro_yield_variance (variances[i].purchased, variances[i].usable, variances[i].n),
                 variances[i].variance);
}

/* Days 1 .. 365. */
static const struct
{
  const char *says;
  CroDate     from[3];
  double      price[3];
  size_t      n;
  double      variance;
} histories[] = {
  { "no price, no spread", { 0 }, { 0 }, 0, NAN },
  { "one price has a spread of 0", { -900 }, { 7 }, 1, 0 },
  { "a price that comes later does not count", { 366 }, { 7 }, 1, NAN },
  { "on the last day it does", { 365 }, { 7 }, 1, 0 },
  /* Mean 14. */
  { "10 for 73 days and 15 for 292", { -5, 74 }, { 10, 15 }, 2, 4 },
  { "days before the first price do not count", { 5, 185 }, { 10, 12 }, 2,
    /* 180 days and 181 */ 4.0 * 180 * 181 / (361.0 * 361) },
  { "what was replaced before the year does not count", { -90, -5, 74 }, { 99, 10, 15 }, 3, 4 },
  { "what comes after it does not either", { -5, 74, 366 }, { 10, 15, 99 }, 3, 4 },
  { "a price replaced on its own day does not count", { -5, 74, 74 }, { 10, 99, 15 }, 3, 4 },
};

static void
test_price_variance (void **state)
{
  for (size_t i = 0; i < N_CASES (histories); i++)
    expect_near (histories[i].says,
                 cro_price_variance (histories[i].from, histories[i].price, histories[i].n, 1, 365),
                 histories[i].variance);
}

static void
test_range (void **state)
{
  static const double slope[] = { 2, -3, 5 };
  static const double variance[] = { 0.25, 1, NAN };

  expect_near ("variances add up by the squares of slopes", cro_range_variance (slope, variance, 2),
               10);
  expect_near ("without a variance a term does not count", cro_range_variance (slope, variance, 3),
               10);
  expect_near ("nothing varies by nothing", cro_range_variance (slope, variance, 0), 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_pool),           cmocka_unit_test (test_printed),
    cmocka_unit_test (test_yield_variance), cmocka_unit_test (test_price_variance),
    cmocka_unit_test (test_range),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
