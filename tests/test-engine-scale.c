#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "cro-scale.h"

static const struct
{
  const char *says;
  double      grams, weighed;
} cases[] = {
  { "nothing is nothing", 0, 0 },
  { "whole grams stay", 480, 480 },
  { "a half goes up", 26.5, 27 },
  { "twenty-five grams are whole ones", 25.2, 25 },
  { "below that there are tenths", 24.86, 24.9 },
  { "and twenty-five may be reached", 24.96, 25 },
  { "no 7.44898 g", 7.44898, 7.4 },
  { "two grams and a half have tenths", 2.5, 2.5 },
  { "saffron", 1.12, 1.12 },
  { "three quarters of a gram", 0.75, 0.75 },
  { "xanthan", 0.36, 0.36 },
  { "curing salt", 0.13, 0.13 },
  { "an eighth is no quarter", 0.125, 0.125 },
  { "less than that is not nothing", 0.12341, 0.123 },
  { "nor is much less", 0.00678, 0.0068 },
  { "kilograms to the gram", 1791.4, 1791 },
};

/* 60 bites of 7.5 g are the 450 g of the batch. */
static void
test_bite (void **state)
{
  assert_true (cro_scale_round_bite (7.5) * 60 == 450);
  assert_true (cro_scale_round_bite (3.75) * 60 == 225);
  assert_true (cro_scale_round_bite (7.62) == 7.6);
  assert_true (cro_scale_round_bite (11.52) == 11.5);
  assert_true (cro_scale_round_bite (0.75) == 0.75);
}

static void
test_scale (void **state)
{
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    if (fabs (cro_scale_round (cases[i].grams) - cases[i].weighed) > 1e-12)
      fail_msg ("%s: %g is weighed as %g", cases[i].says, cases[i].grams,
                cro_scale_round (cases[i].grams));
}

/* Whatever is weighed, what is printed is within 2 % of it. */
static void
test_within (void **state)
{
  for (double grams = 0.001; grams < 2000; grams *= 1.003)
    {
      assert_true (fabs (cro_scale_round (grams) - grams) <= 0.02 * grams * (1 + 1e-6));
      assert_true (fabs (cro_scale_round_bite (grams) - grams) <= 0.02 * grams * (1 + 1e-6));
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_scale), cmocka_unit_test (test_bite),
                                      cmocka_unit_test (test_within) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
