#include "cro-unit.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define N(array) (sizeof (array) / sizeof *(array))

/* Base units in one unit, exactly. */
static const struct
{
  const char *source;
  CroUnit     unit;
  const char *factor;
} exact[] = {
  { "NIST SP 811 App. B.8", CRO_UNIT_LB, "453.59237" },
  { "NIST SP 811 App. B.8", CRO_UNIT_OZ, "28.349523125" },
  { "NIST SP 811 App. B.8 (gallon = 231 cubic inches)", CRO_UNIT_US_GAL, "3785.411784" },
  { "NIST SP 811 App. B.8", CRO_UNIT_US_QT, "946.352946" },
  { "NIST SP 811 App. B.8", CRO_UNIT_US_PT, "473.176473" },
  { "NIST SP 811 App. B.8", CRO_UNIT_US_CUP, "236.5882365" },
  { "NIST SP 811 App. B.8", CRO_UNIT_US_FL_OZ, "29.5735295625" },
  { "NIST SP 811 App. B.8", CRO_UNIT_US_TBSP, "14.78676478125" },
  { "NIST SP 811 App. B.8", CRO_UNIT_US_TSP, "4.92892159375" },
  { "Weights and Measures Act 1985 Sch. 1, from memory", CRO_UNIT_IMP_GAL, "4546.09" },
  { "Weights and Measures Act 1985 Sch. 1, from memory", CRO_UNIT_IMP_QT, "1136.5225" },
  { "Weights and Measures Act 1985 Sch. 1, from memory", CRO_UNIT_IMP_PT, "568.26125" },
  { "Weights and Measures Act 1985 Sch. 1, from memory", CRO_UNIT_IMP_FL_OZ, "28.4130625" },
  { "the SI's prefixes", CRO_UNIT_MG, "0.001" },
  { "the SI's prefixes", CRO_UNIT_G, "1" },
  { "the SI's prefixes", CRO_UNIT_KG, "1000" },
  { "the SI's prefixes", CRO_UNIT_ML, "1" },
  { "the SI's prefixes", CRO_UNIT_CL, "10" },
  { "the SI's prefixes", CRO_UNIT_DL, "100" },
  { "the SI's prefixes", CRO_UNIT_L, "1000" },
  { "metric spoons: common practice, no source", CRO_UNIT_TSP, "5" },
  { "metric spoons: common practice, no source", CRO_UNIT_TBSP, "15" },
  { "metriccup of GNU units 2.22", CRO_UNIT_METRIC_CUP, "250" },
  { "a count", CRO_UNIT_EACH, "1" },
  { "a count", CRO_UNIT_DOZEN, "12" },
};

static const char *const no_units[] = {
  "", "G", "gram", "k", "kgs", " g", "g ", "cup", "fl-oz", "gal", "pt", "us-", "dozens", "#10",
};

/* numerator / denominator = digits / 10^places, without rounding. */
static bool
is_exactly (const CroUnitInfo *info,
            const char        *text)
{
  __int128 digits = 0, scale = 1;
  bool after_point = false;

  for (; *text != '\0'; text++)
    {
      if (*text == '.')
        after_point = true;
      else
        {
          digits = digits * 10 + (*text - '0');
          scale *= after_point ? 10 : 1;
        }
    }
  return info->numerator * scale == digits * info->denominator;
}

static void
test_factors_are_exact (void **state)
{
  assert_int_equal (N (exact), CRO_N_UNITS);
  for (size_t i = 0; i < N (exact); i++)
    if (!is_exactly (cro_unit_get (exact[i].unit), exact[i].factor))
      fail_msg ("%s: %s", exact[i].source, cro_unit_get (exact[i].unit)->code);
}

static void
test_a_pound_is_sixteen_ounces (void **state)
{
  const CroUnitInfo *lb = cro_unit_get (CRO_UNIT_LB);
  const CroUnitInfo *oz = cro_unit_get (CRO_UNIT_OZ);

  assert_true ((__int128) lb->numerator * oz->denominator
               == (__int128) 16 * oz->numerator * lb->denominator);
}

static void
test_ratios (void **state)
{
  double imp_pt = cro_unit_factor (CRO_UNIT_IMP_PT), us_pt = cro_unit_factor (CRO_UNIT_US_PT);
  double us_fl_oz = cro_unit_factor (CRO_UNIT_US_FL_OZ);
  double imp_fl_oz = cro_unit_factor (CRO_UNIT_IMP_FL_OZ);

  /* From the two gallons above. */
  assert_true (fabs (imp_pt / us_pt - 1.2009499255) < 5e-11);
  /* GNU units 2.22: 12 usfloz in brfloz. */
  assert_true (fabs (12 * us_fl_oz / imp_fl_oz - 12.4901127694348) < 5e-13);
  /* GNU units 2.22: 2 lb + 3 oz in g. */
  assert_true (fabs (2 * cro_unit_factor (CRO_UNIT_LB) + 3 * cro_unit_factor (CRO_UNIT_OZ)
                     - 992.233309375)
               < 1e-12);
}

static void
test_codes_read_back (void **state)
{
  for (int i = 0; i < CRO_N_UNITS; i++)
    {
      const char *code = cro_unit_get ((CroUnit) i)->code;
      CroUnit unit = CRO_N_UNITS;

      assert_true (cro_unit_parse (code, strlen (code), &unit));
      assert_int_equal (unit, i);
    }
}

static void
test_what_is_no_unit (void **state)
{
  CroUnit unit;

  for (size_t i = 0; i < N (no_units); i++)
    if (cro_unit_parse (no_units[i], strlen (no_units[i]), &unit))
      fail_msg ("\"%s\" is no unit", no_units[i]);
}

static void
test_base_units_are_one (void **state)
{
  for (int base = CRO_BASE_GRAM; base <= CRO_BASE_EACH; base++)
    {
      CroUnit unit = cro_base_unit ((CroBase) base);

      assert_int_equal (cro_unit_get (unit)->base, base);
      assert_true (cro_unit_factor (unit) == 1);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_factors_are_exact),
    cmocka_unit_test (test_a_pound_is_sixteen_ounces),
    cmocka_unit_test (test_ratios),
    cmocka_unit_test (test_codes_read_back),
    cmocka_unit_test (test_what_is_no_unit),
    cmocka_unit_test (test_base_units_are_one),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
