/* Published tables that are too large to carry, beside the program: currencies, units, allergens.
 * Skipped, and said so, where CROUSTADE_REFERENCE_DATA names no folder of them; an extract of each
 * stands in the test of its own unit. */
#include <glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cro-allergen.h"
#include "cro-number.h"
#include "cro-unit.h"

#define N(array) (sizeof (array) / sizeof *(array))

/* What meson takes for skipped. */
#define SKIPPED 77

static const char *folder;

/* --- Currencies ----------------------------------------------------------------------------------- */

/* ISO 4217 List One, 2024-06-25: the first, fourth and fifth column of the list give the code, the
 * standard's digits and those of local use. */
static void
test_currencies (void **state)
{
  g_autofree char *path = NULL;
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  guint n = 0;

  path = g_build_filename (folder, "currency", "iso4217-minor-units.csv", NULL);
  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", 0);
  for (guint i = 1; lines[i] != NULL && *lines[i] != '\0'; i++)
    {
      g_auto (GStrv) cells = g_strsplit (lines[i], ",", 0);
      guint at = 3;

      /* A comma in a quoted name. */
      if (cells[2][0] == '"')
        while (!g_str_has_suffix (cells[at - 1], "\""))
          at++;
      if (!g_ascii_isdigit (cells[at][0]))
        continue;
      n++;
      if (cro_currency_digits (cells[0]) != atoi (cells[at]))
        fail_msg ("%s has %s digits in the standard and %d here", cells[0], cells[at],
                  cro_currency_digits (cells[0]));
    }
  if (n < 160)
    fail_msg ("the whole list was read: %u currencies", n);
}

/* --- Units ---------------------------------------------------------------------------------------- */

/* The names of GNU units for ours. */
static const struct
{
  const char *gnu;
  CroUnit     unit;
} gnu_names[] = {
  { "mg", CRO_UNIT_MG },
  { "g", CRO_UNIT_G },
  { "kg", CRO_UNIT_KG },
  { "oz", CRO_UNIT_OZ },
  { "lb", CRO_UNIT_LB },
  { "ml", CRO_UNIT_ML },
  { "l", CRO_UNIT_L },
  { "brteaspoon", CRO_UNIT_TSP },
  { "brtablespoon", CRO_UNIT_TBSP },
  { "metriccup", CRO_UNIT_METRIC_CUP },
  { "usteaspoon", CRO_UNIT_US_TSP },
  { "ustablespoon", CRO_UNIT_US_TBSP },
  { "usfloz", CRO_UNIT_US_FL_OZ },
  { "uscup", CRO_UNIT_US_CUP },
  { "uspint", CRO_UNIT_US_PT },
  { "usquart", CRO_UNIT_US_QT },
  { "usgallon", CRO_UNIT_US_GAL },
  { "brfloz", CRO_UNIT_IMP_FL_OZ },
  { "brpint", CRO_UNIT_IMP_PT },
  { "brquart", CRO_UNIT_IMP_QT },
  { "brgallon", CRO_UNIT_IMP_GAL },
};

/* Rows of the reference whose two units are both ours. */
#define N_GNU_ROWS 22

static bool
find_gnu (const char *name,
          CroUnit    *unit)
{
  for (size_t i = 0; i < N (gnu_names); i++)
    if (strcmp (gnu_names[i].gnu, name) == 0)
      {
        *unit = gnu_names[i].unit;
        return true;
      }
  return false;
}

/* Source: GNU units 2.22 with 15 digits, as kept in units/gnu-units-2.22.csv of the reference
 * data. */
static void
test_conversions_agree_with_gnu_units (void **state)
{
  char path[4096], row[256];
  int n_rows = 0;
  FILE *file;

  snprintf (path, sizeof path, "%s/units/gnu-units-2.22.csv", folder);
  file = fopen (path, "r");
  assert_non_null (file);
  while (fgets (row, sizeof row, file) != NULL)
    {
      char from[64], to[64], printed[64];
      CroUnit one, other;

      if (sscanf (row, "\"%63[^\"]\",\"%63[^\"]\",\"%63[^\"]\"", from, to, printed) != 3
          || !find_gnu (from, &one) || !find_gnu (to, &other))
        continue;
      n_rows++;
      if (fabs (cro_unit_factor (one) / cro_unit_factor (other) / atof (printed) - 1) > 5e-15)
        fail_msg ("%s in %s is %s", from, to, printed);
    }
  fclose (file);
  assert_int_equal (n_rows, N_GNU_ROWS);
}

/* --- Allergens ------------------------------------------------------------------------------------ */

/* Source: Regulation (EU) No 1169/2011 Annex II, its numbers as kept in
 * allergens/allergens-eu14-us9.csv of the reference data. */
static void
test_allergens (void **state)
{
  char path[4096], row[512];
  int n_rows = 0;
  FILE *file;

  snprintf (path, sizeof path, "%s/allergens/allergens-eu14-us9.csv", folder);
  file = fopen (path, "r");
  assert_non_null (file);
  while (fgets (row, sizeof row, file) != NULL)
    {
      char code[64];
      int number;

      if (sscanf (row, "%63[^,],%d,", code, &number) != 2)
        continue;
      n_rows++;
      assert_in_range (number, 1, CRO_N_ALLERGENS);
      assert_string_equal (cro_allergen_code (number - 1), code);
    }
  fclose (file);
  assert_int_equal (n_rows, CRO_N_ALLERGENS);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_currencies),
    cmocka_unit_test (test_conversions_agree_with_gnu_units),
    cmocka_unit_test (test_allergens),
  };

  folder = g_getenv ("CROUSTADE_REFERENCE_DATA");
  if (folder == NULL)
    {
      printf ("skipped: CROUSTADE_REFERENCE_DATA names no folder of published tables\n");
      return SKIPPED;
    }
  return cmocka_run_group_tests (tests, NULL, NULL);
}
