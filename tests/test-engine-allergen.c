#include "cro-allergen.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define N(array) (sizeof (array) / sizeof *(array))

/* Bits by the number of the Annex, from 1. */
#define NO(number) (UINT32_C (1) << ((number) - 1))

static const struct
{
  const char *says;
  const char *text;
  uint32_t    mask;
} sets[] = {
  { "none is the empty set", "none", 0 },
  { "one code", "milk", NO (7) },
  { "the order in which codes stand does not matter", "milk crustaceans", NO (2) | NO (7) },
  { "a code may stand twice", "fish fish", NO (4) },
  { "more than one space separates as well", " fish   nuts ", NO (4) | NO (8) },
  { "scallops are molluscs, and no crustaceans", "molluscs", NO (14) },
};

static const struct
{
  const char *says;
  const char *text;
  const char *bad;
} faults[] = {
  { "an unknown code is named", "milk cream", "cream" },
  { "codes are written in small letters", "Milk", "Milk" },
  { "a part of a code is none", "crustacean", "crustacean" },
  { "none does not go with a code", "none milk", "milk" },
  { "nor a code with none", "milk none", "none" },
  { "commas do not separate", "milk,fish", "milk,fish" },
  { "nothing is not none", "", "" },
  { "spaces are not none", "  ", "  " },
};

static void
test_sets (void **state)
{
  for (size_t i = 0; i < N (sets); i++)
    {
      uint32_t mask = CRO_ALLERGENS_NOT_KNOWN;
      const char *bad;
      size_t n;

      if (!cro_allergens_parse (sets[i].text, strlen (sets[i].text), &mask, &bad, &n)
          || mask != sets[i].mask)
        fail_msg ("%s: \"%s\"", sets[i].says, sets[i].text);
    }
}

static void
test_faults (void **state)
{
  for (size_t i = 0; i < N (faults); i++)
    {
      uint32_t mask;
      const char *bad = NULL;
      size_t n = 0;

      if (cro_allergens_parse (faults[i].text, strlen (faults[i].text), &mask, &bad, &n)
          || n != strlen (faults[i].bad) || memcmp (bad, faults[i].bad, n) != 0)
        fail_msg ("%s: \"%s\"", faults[i].says, faults[i].text);
    }
}

static void
test_every_set_reads_back (void **state)
{
  for (uint32_t mask = 0; mask <= CRO_ALLERGENS_ALL; mask++)
    {
      char text[CRO_ALLERGENS_CHARS];
      uint32_t back = CRO_ALLERGENS_NOT_KNOWN;
      const char *bad;
      size_t n;

      cro_allergens_format (mask, text);
      assert_true (cro_allergens_parse (text, strlen (text), &back, &bad, &n));
      assert_int_equal (back, mask);
    }
}

/* Source: Regulation (EU) No 1169/2011 Annex II, its numbers as kept in
 * allergens/allergens-eu14-us9.csv of the reference data. */
static void
test_order_of_the_annex (void **state)
{
  const char *folder = getenv ("CROUSTADE_REFERENCE_DATA");
  char path[4096], row[512];
  int n_rows = 0;
  FILE *file;

  if (folder == NULL)
    {
      print_message ("CROUSTADE_REFERENCE_DATA is not set: no Annex to compare with\n");
      skip ();
    }
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
    cmocka_unit_test (test_sets),
    cmocka_unit_test (test_faults),
    cmocka_unit_test (test_every_set_reads_back),
    cmocka_unit_test (test_order_of_the_annex),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
