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
  { "no 7.44898 g", 7.44898, 7 },
  { "a half goes up", 6.5, 7 },
  { "five grams are whole ones", 5.2, 5 },
  { "below five there are quarters", 4.8, 4.75 },
  { "and five may be reached", 4.9, 5 },
  { "three quarters of a gram", 0.75, 0.75 },
  { "an eighth goes up to a quarter", 0.125, 0.25 },
  { "less than that is not nothing", 0.1234, 0.12 },
  { "nor is much less", 0.00678, 0.0068 },
  { "kilograms to the gram", 1791.4, 1791 },
};

/* 60 bites of 7.5 g are the 450 g of the batch. */
static void
test_bite (void **state)
{
  assert_true (cro_scale_round_bite (7.5) * 60 == 450);
  assert_true (cro_scale_round_bite (7.6) == 7.5);
  assert_true (cro_scale_round_bite (9.9) == 10);
  assert_true (cro_scale_round_bite (11.5) == 12);
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

int
main (void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test (test_scale), cmocka_unit_test (test_bite) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
