#include "near.h"

#include "cro-matrix.h"

#define N 8

/* George's Restaurant exercise (checks M4, M5): sold, cost, price. */
static const double sold[N] = { 73, 90, 55, 92, 85, 92, 77, 65 };
static const double cost[N] = { 6.50, 3.90, 7.00, 5.90, 4.50, 3.00, 6.70, 6.50 };
static const double price[N] = { 18.90, 12.75, 20.35, 18.50, 15.65, 12.00, 18.50, 18.75 };

static void
fill (double *contribution)
{
  for (int i = 0; i < N; i++)
    contribution[i] = price[i] - cost[i];
}

static void
test_limits (void **state)
{
  double contribution[N];
  CroMatrixLimits limits;

  fill (contribution);
  limits = cro_matrix_limits (sold, contribution, N);
  expect_near ("M4: 70 % of an eighth of 629", limits.sold, 55.0375);
  expect_near ("M4: the mean of what was left", limits.contribution, 7075.75 / 629);
}

/* The third would be popular if the threshold were rounded to 55. */
static void
test_classes (void **state)
{
  static const bool is_popular[N] = { true, true, false, true, true, true, true, true };
  static const bool earns[N] = { true, false, true, true, false, false, true, true };
  double contribution[N];
  CroMatrixLimits limits;

  fill (contribution);
  limits = cro_matrix_limits (sold, contribution, N);
  for (int i = 0; i < N; i++)
    {
      expect ("M5: popular", cro_matrix_is_popular (&limits, sold[i]) == is_popular[i]);
      expect ("M5: earns", cro_matrix_earns (&limits, contribution[i]) == earns[i]);
    }
}

/* Kasavana, The Power of Menu Engineering: greater than or equal to (M2). */
static void
test_ties (void **state)
{
  static const double few[2] = { 35, 65 }, same[2] = { 2.5, 2.5 };
  CroMatrixLimits limits = cro_matrix_limits (few, same, 2);

  expect_near ("70 % of a half", limits.sold, 35);
  expect ("a tie is popular", cro_matrix_is_popular (&limits, 35));
  expect ("a tie earns", cro_matrix_earns (&limits, 2.5));
  expect ("less does not", !cro_matrix_is_popular (&limits, 34.99));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_limits),
    cmocka_unit_test (test_classes),
    cmocka_unit_test (test_ties),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
