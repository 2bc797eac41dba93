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

/* Source: Regulation (EU) No 1169/2011 Annex II, its fourteen headings in their order, each by its
 * first word or two. */
static void
test_order_of_the_annex (void **state)
{
  static const struct { const char *heading, *code; } annex[CRO_N_ALLERGENS] = {
    { "1. Cereals containing gluten", "gluten" }, { "2. Crustaceans", "crustaceans" },
    { "3. Eggs", "eggs" }, { "4. Fish", "fish" }, { "5. Peanuts", "peanuts" },
    { "6. Soybeans", "soybeans" }, { "7. Milk", "milk" }, { "8. Nuts", "nuts" },
    { "9. Celery", "celery" }, { "10. Mustard", "mustard" }, { "11. Sesame seeds", "sesame" },
    { "12. Sulphur dioxide and sulphites", "sulphites" }, { "13. Lupin", "lupin" },
    { "14. Molluscs", "molluscs" },
  };

  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    if (strcmp (cro_allergen_code (i), annex[i].code) != 0)
      fail_msg ("%s is %s", annex[i].heading, cro_allergen_code (i));
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
