#include "cro-decimal.h"

#include <gmp.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static const struct
{
  const char       *says;
  const char       *text;
  CroDecimalStatus  status;
  int64_t           micro;
} readings[] = {
  { "zero is a number", "0", CRO_DECIMAL_OK, 0 },
  { "a whole number is so many million", "12", CRO_DECIMAL_OK, 12000000 },
  { "one place is a tenth", "1.5", CRO_DECIMAL_OK, 1500000 },
  { "the sixth place is one", "0.000001", CRO_DECIMAL_OK, 1 },
  { "a minus belongs to the whole", "-1.000001", CRO_DECIMAL_OK, -1000001 },
  { "zeros in front and behind change nothing", "007.50", CRO_DECIMAL_OK, 7500000 },
  { "the largest", "9223372036854.775807", CRO_DECIMAL_OK, INT64_MAX },
  { "one more than the largest", "9223372036854.775808", CRO_DECIMAL_TOO_LARGE, 0 },
  { "more digits than any", "99999999999999999999", CRO_DECIMAL_TOO_LARGE, 0 },
  { "a seventh place, even a zero", "1.0000000", CRO_DECIMAL_TOO_MANY_PLACES, 0 },
  { "a seventh place", "1.0000001", CRO_DECIMAL_TOO_MANY_PLACES, 0 },
  { "an exponent", "1e3", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "a plus", "+1", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "no digit before the point", ".5", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "no digit after the point", "5.", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "infinity", "inf", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "not a number", "nan", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "a comma", "1,5", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "hexadecimal", "0x1", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "a space in front", " 1", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "a space behind", "1 ", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "grouping", "1 000", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "two points", "1.2.3", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "two signs", "--1", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "a sign alone", "-", CRO_DECIMAL_NOT_A_NUMBER, 0 },
  { "nothing", "", CRO_DECIMAL_NOT_A_NUMBER, 0 },
};

static const struct
{
  const char *text;
  int64_t     micro;
} writings[] = {
  { "0", 0 },
  { "0.000001", 1 },
  { "-0.5", -500000 },
  { "10", 10000000 },
  { "10.01", 10010000 },
  { "100.0203", 100020300 },
  { "9223372036854.775807", INT64_MAX },
  { "-9223372036854.775808", INT64_MIN },
};

static const struct
{
  const char *says;
  double      value;
  bool        fits;
  int64_t     micro;
} doubles[] = {
  { "the nearest millionth", 0.1, true, 100000 },
  { "exactly half a millionth goes up", 0x1p-7, true, 7813 },
  { "exactly half a millionth below 0 goes down", -0x1p-7, true, -7813 },
  { "just below half a millionth goes down", 0x1.fffffffffffffp-8, true, 7812 },
  { "the last double that fits", 9223372036854.775390625, true, INT64_C (9223372036854775391) },
  { "the first that does not", 9223372036854.77734375, false, 0 },
  { "nor does it below 0", -9223372036854.77734375, false, 0 },
  { "next to nothing", 0x1p-1074, true, 0 },
  { "infinity", 1.0 / 0.0, false, 0 },
  { "not a number", 0.0 / 0.0, false, 0 },
};

/* Of any magnitude: the number of bits is drawn first. */
static int64_t
draw (uint64_t *state)
{
  *state = *state * UINT64_C (6364136223846793005) + UINT64_C (1442695040888963407);
  return (int64_t) *state >> (*state >> 33) % 63;
}

static void
test_reading (void **state)
{
  for (size_t i = 0; i < sizeof readings / sizeof *readings; i++)
    {
      int64_t micro = 0;

      if (cro_decimal_parse (readings[i].text, strlen (readings[i].text), &micro)
              != readings[i].status
          || micro != readings[i].micro)
        fail_msg ("%s: %s", readings[i].says, readings[i].text);
    }
}

static void
test_reading_stops_at_its_length (void **state)
{
  int64_t micro;

  assert_int_equal (cro_decimal_parse ("12345", 2, &micro), CRO_DECIMAL_OK);
  assert_int_equal (micro, 12000000);
}

static void
test_writing (void **state)
{
  char text[CRO_DECIMAL_CHARS];

  for (size_t i = 0; i < sizeof writings / sizeof *writings; i++)
    {
      assert_int_equal (cro_decimal_format (writings[i].micro, text), strlen (writings[i].text));
      assert_string_equal (text, writings[i].text);
    }
}

static void
test_what_is_written_reads_back (void **state)
{
  uint64_t seed = 1;

  for (int i = 0; i < 100000; i++)
    {
      char text[CRO_DECIMAL_CHARS];
      int64_t micro = draw (&seed), back = 0;
      size_t length = cro_decimal_format (micro, text);

      assert_int_equal (cro_decimal_parse (text, length, &back), CRO_DECIMAL_OK);
      assert_true (back == micro);
    }
}

/* Source: GMP, integers of any length. |a b| + half, divided by a million towards zero, is half
 * away from zero. */
static void
test_products_agree_with_gmp (void **state)
{
  uint64_t seed = 2;
  int n_fit = 0;
  mpz_t product;

  mpz_init (product);
  for (int i = 0; i < 100000; i++)
    {
      int64_t a = draw (&seed), b = draw (&seed), result = 0;
      bool fits;

      mpz_set_si (product, a);
      mpz_mul_si (product, product, b);
      if (mpz_sgn (product) < 0)
        mpz_sub_ui (product, product, 500000);
      else
        mpz_add_ui (product, product, 500000);
      mpz_tdiv_q_ui (product, product, 1000000);

      fits = cro_decimal_multiply (a, b, &result);
      assert_int_equal (fits, mpz_fits_slong_p (product) != 0);
      if (fits)
        assert_true (result == mpz_get_si (product));
      n_fit += fits;
    }
  mpz_clear (product);
  assert_in_range (n_fit, 10000, 90000);
}

static void
test_from_double (void **state)
{
  for (size_t i = 0; i < sizeof doubles / sizeof *doubles; i++)
    {
      int64_t micro = 0;

      if (cro_decimal_from_double (doubles[i].value, &micro) != doubles[i].fits
          || micro != doubles[i].micro)
        fail_msg ("%s", doubles[i].says);
    }
}

/* Source: GMP, exact fractions. */
static void
test_nearest_millionths_agree_with_gmp (void **state)
{
  uint64_t seed = 3;
  mpq_t exact;
  mpz_t nearest;

  mpq_init (exact);
  mpz_init (nearest);
  for (int i = 0; i < 100000; i++)
    {
      double value = ldexp ((double) draw (&seed), (int) (draw (&seed) & 31) - 52);
      int64_t micro = 0;

      /* floor (|x| + 1/2) with the sign of x, as (2 |n| + d) / 2 d. */
      mpq_set_d (exact, value);
      mpz_mul_ui (mpq_numref (exact), mpq_numref (exact), 2000000);
      mpz_abs (nearest, mpq_numref (exact));
      mpz_add (nearest, nearest, mpq_denref (exact));
      mpz_mul_2exp (mpq_denref (exact), mpq_denref (exact), 1);
      mpz_tdiv_q (nearest, nearest, mpq_denref (exact));
      if (value < 0)
        mpz_neg (nearest, nearest);

      assert_int_equal (cro_decimal_from_double (value, &micro), mpz_fits_slong_p (nearest) != 0);
      if (mpz_fits_slong_p (nearest))
        assert_true (micro == mpz_get_si (nearest));
    }
  mpz_clear (nearest);
  mpq_clear (exact);
}

/* From there on doubles stand further apart than millionths. */
static void
test_doubles_hold_millionths_below_two_to_the_33_units (void **state)
{
  uint64_t seed = 4;

  for (int i = 0; i < 100000; i++)
    {
      int64_t micro = draw (&seed) % (CRO_MICRO << 33), back;

      assert_true (cro_decimal_from_double (cro_decimal_to_double (micro), &back));
      assert_true (back == micro);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_reading),
    cmocka_unit_test (test_reading_stops_at_its_length),
    cmocka_unit_test (test_writing),
    cmocka_unit_test (test_what_is_written_reads_back),
    cmocka_unit_test (test_products_agree_with_gmp),
    cmocka_unit_test (test_from_double),
    cmocka_unit_test (test_nearest_millionths_agree_with_gmp),
    cmocka_unit_test (test_doubles_hold_millionths_below_two_to_the_33_units),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
