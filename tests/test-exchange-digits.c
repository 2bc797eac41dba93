/* Digits of numbers, beside the C library's printf and strtod: what the standard asks of %.17g and
 * of reading a decimal (ISO C, 7.21.6.1 and 7.22.1.3) is the reference. */
#include "cro-digits.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static const struct
{
  double      value;
  const char *text;
} cases[] = {
  { 0, "0" },
  { -0.0, "-0" },
  { 1, "1" },
  { -1, "-1" },
  { 10, "10" },
  { 0.1, "0.1" },
  { -0.7, "-0.7" },
  { 1e15, "1000000000000000" },
  { 123456789012345678.0, "1.2345678901234568e+17" },
  { 0.1 + 0.2, "0.30000000000000004" },
  { 100, "100" },
  { 99.9, "99.9" },
  { 1e-4, "0.0001" },
  { 1e-5, "1e-05" },
  { 0.00012, "0.00012" },
  { 1.0 / 3, "0.33333333333333331" },
  { 2.0 / 3, "0.66666666666666663" },
  { 1e300, "1e+300" },
  { 8.7, "8.7" },
  { 9007199254740993.0, "9007199254740992" },
  { 0.5, "0.5" },
  { 16777216.03125, "16777216.03125" },
};

static void
test_cases (void **state)
{
  char text[CRO_DIGITS_CHARS];

  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    {
      gsize length = cro_digits_print (cases[i].value, text);

      assert_string_equal (text, cases[i].text);
      assert_int_equal (length, strlen (cases[i].text));
    }
}

/* printf's digits, or fewer that are the same number and are printf's own of 15. */
static void
must_be_printed (double value)
{
  char text[CRO_DIGITS_CHARS], most[64], typed[64];

  cro_digits_print (value, text);
  snprintf (most, sizeof most, "%.17g", value);
  snprintf (typed, sizeof typed, "%.15g", value);
  if (strtod (text, NULL) != value)
    fail_msg ("%s reads back as another number than %s", text, most);
  if (strcmp (text, most) != 0 && strcmp (text, typed) != 0)
    fail_msg ("%s is neither %s nor %s", text, most, typed);
}

static guint64
draw (guint64 *seed)
{
  *seed ^= *seed << 13;
  *seed ^= *seed >> 7;
  *seed ^= *seed << 17;
  return *seed;
}

static void
test_any (void **state)
{
  guint64 seed = UINT64_C (88172645463325252);

  for (int i = 0; i < 200000; i++)
    {
      guint64 bits = draw (&seed);
      double value;

      memcpy (&value, &bits, sizeof value);
      if (isfinite (value))
        must_be_printed (value);
    }
}

/* As figures are: of a few digits, quotients of such, and next to powers of ten. */
static void
test_usual (void **state)
{
  guint64 seed = UINT64_C (2463534242);

  for (int i = 0; i < 500000; i++)
    {
      double value = (double) (draw (&seed) % 100000000) / 1e6;
      double other = (double) (draw (&seed) % 9999 + 1);

      must_be_printed (value);
      must_be_printed (value / other);
      must_be_printed (-value * other);
    }
  for (int power = -6; power < 19; power++)
    {
      double at = pow (10, power), below = at, above = at;

      for (int i = 0; i < 200; i++)
        {
          must_be_printed (below);
          must_be_printed (above);
          below = nextafter (below, 0);
          above = nextafter (above, INFINITY);
        }
    }
}

/* Halves between two last digits go to the even one. */
static void
test_halves (void **state)
{
  for (int i = 1; i < 4000; i += 2)
    for (int shift = 0; shift < 30; shift++)
      must_be_printed (ldexp (9007199254740991.0 - 2.0 * i, -shift));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_cases),
    cmocka_unit_test (test_any),
    cmocka_unit_test (test_usual),
    cmocka_unit_test (test_halves),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
