/* Price indices, against a published example and by hand. */
#include "near.h"

#include "cro-price-link.h"

#define N 6
#define PERIODS 5

/* The artificial data set of the Consumer Price Index Manual (ILO and others, 2004), chapter 19, tables
 * 19.1 and 19.2: from memory. Its chained Laspeyres indices, likewise, are printed with four decimals. */
static const double prices[PERIODS][N] = {
  { 1.0, 1.0, 1.0, 1.0, 1.0, 1.0 }, { 1.2, 3.0, 1.3, 0.7, 1.4, 0.8 }, { 1.0, 1.0, 1.5, 0.5, 1.7, 0.6 },
  { 0.8, 0.5, 1.6, 0.3, 1.9, 0.4 }, { 1.0, 1.0, 1.6, 0.1, 2.0, 0.2 },
};
static const double quantities[PERIODS][N] = {
  { 1.0, 1.0, 2.0, 1.0, 4.5, 0.5 }, { 0.8, 0.9, 1.9, 1.3, 4.7, 0.6 }, { 1.0, 1.1, 1.8, 3.0, 5.0, 0.8 },
  { 1.2, 1.2, 1.9, 6.0, 5.6, 1.3 }, { 0.9, 1.2, 2.0, 12.0, 6.5, 2.5 },
};
static const double fixed[PERIODS] = { 1.0000, 1.4200, 1.3450, 1.3550, 1.4400 };
static const double chained[PERIODS] = { 1.0000, 1.4200, 1.3646, 1.3351, 1.3306 };

static void
test_a_published_example (void **state)
{
  double chain = 1;

  for (int t = 1; t < PERIODS; t++)
    {
      chain *= cro_price_link (prices[t - 1], prices[t], quantities[t - 1], N);
      expect_printed ("chained Laspeyres", chain, chained[t], 4);
      expect_printed ("Laspeyres of a fixed base", cro_price_link (prices[0], prices[t], quantities[0], N), fixed[t],
                      4);
    }
}

/* What has no price on one of the days is in no basket: of 2 kg at 10 and 11 alone, 22 / 20. */
static void
test_what_is_not_matched_is_left_out (void **state)
{
  static const double before[] = { 10, NAN, 4, 0, 7 }, after[] = { 11, 5, NAN, 3, 70 }, quantity[] = { 2, 9, 9, 9, 0 };
  static const double none[] = { 0, 0, 0, 0, NAN };

  expect_near ("one of five", cro_price_link (before, after, quantity, 5), 1.1);
  expect ("an empty basket has no index", isnan (cro_price_link (before, after, none, 5)));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_a_published_example),
    cmocka_unit_test (test_what_is_not_matched_is_left_out),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
