#include "cro-allergen-list.h"

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

/* --- Lists of laws -------------------------------------------------------------------------------- */

/* Bits by the entries of a list. */
static const CroAllergenEntry *
entry_of (CroAllergenListId list,
          const char       *code)
{
  const CroAllergenList *of = cro_allergen_list (list);

  for (size_t i = 0; i < of->n; i++)
    if (strcmp (of->entries[i].code, code) == 0)
      return &of->entries[i];
  fail_msg ("no %s in %s", code, of->code);
  return NULL;
}

/* What the lists are: A1 and A2 of the checks. Sources: Regulation (EU) No 1169/2011 Annex II; 21 U.S.C.
 * 321(qq)(1). A3: scallops are molluscs to the EU and no major allergen to the US. */
static void
test_lists (void **state)
{
  static const char *const us[] = { "milk",  "eggs",    "fish",     "crustaceans", "tree-nuts",
                                    "wheat", "peanuts", "soybeans", "sesame" };
  const CroAllergenList *eu = cro_allergen_list (CRO_ALLERGEN_LIST_EU);
  const CroAllergenList *list = cro_allergen_list (CRO_ALLERGEN_LIST_US);

  assert_int_equal (eu->n, CRO_N_ALLERGENS);
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    {
      assert_string_equal (eu->entries[i].code, cro_allergen_code (i));
      assert_int_equal (eu->entries[i].same, 1 << i);
      assert_int_equal (eu->entries[i].part_of, 0);
    }
  assert_int_equal (list->n, N (us));
  for (size_t i = 0; i < N (us); i++)
    {
      assert_string_equal (list->entries[i].code, us[i]);
      assert_int_equal ((list->entries[i].same | list->entries[i].part_of) & NO (14), 0);
    }
}

static const struct
{
  const char       *says;
  CroAllergenListId list;
  const char       *code;
  uint32_t          contains, may;
  bool              not_known;
  unsigned          held;
} held[] = {
  { "what is entered is contained", CRO_ALLERGEN_LIST_EU, "milk", NO (7), 0, false, CRO_HELD_CONTAINS },
  { "and no other group is", CRO_ALLERGEN_LIST_EU, "milk", NO (6), 0, false, 0 },
  { "a label warns of its group", CRO_ALLERGEN_LIST_EU, "milk", 0, NO (7), false, CRO_HELD_MAY },
  { "what is contained is not only warned of", CRO_ALLERGEN_LIST_EU, "milk", NO (7), NO (7), true,
    CRO_HELD_CONTAINS },
  { "A7: unknown is not absent", CRO_ALLERGEN_LIST_EU, "milk", NO (6), 0, true, CRO_HELD_NOT_KNOWN },
  { "nor does a warning make it known", CRO_ALLERGEN_LIST_EU, "milk", 0, NO (7), true,
    CRO_HELD_MAY | CRO_HELD_NOT_KNOWN },
  { "gluten may be wheat or another cereal", CRO_ALLERGEN_LIST_US, "wheat", NO (1), 0, false,
    CRO_HELD_NOT_KNOWN },
  { "so may gluten that a label warns of", CRO_ALLERGEN_LIST_US, "wheat", 0, NO (1), false,
    CRO_HELD_NOT_KNOWN },
  { "wheat is a cereal with gluten: without any it was not entered", CRO_ALLERGEN_LIST_US, "wheat", NO (7),
    0, false, 0 },
  { "the nuts of the Annex are tree nuts", CRO_ALLERGEN_LIST_US, "tree-nuts", NO (8), 0, false,
    CRO_HELD_CONTAINS },
  { "pine nuts are tree nuts that nobody was asked for", CRO_ALLERGEN_LIST_US, "tree-nuts", 0, 0, false,
    CRO_HELD_NOT_KNOWN },
  { "A3: molluscs are no crustacean shellfish", CRO_ALLERGEN_LIST_US, "crustaceans", NO (14), 0, false, 0 },
};

static void
test_held (void **state)
{
  for (size_t i = 0; i < N (held); i++)
    if (cro_allergen_held (entry_of (held[i].list, held[i].code), held[i].contains, held[i].may,
                           held[i].not_known)
        != held[i].held)
      fail_msg ("%s", held[i].says);
}

/* The fields of a line by RFC 4180, cut in place. */
static size_t
cut (char  *line,
     char **fields,
     size_t most)
{
  size_t n = 0;

  for (char *at = line, *to; n < most && at != NULL; n++)
    {
      bool is_quoted = *at == '"';

      at += is_quoted ? 1 : 0;
      fields[n] = to = at;
      for (; *at != '\0' && *at != '\n' && *at != '\r' && (is_quoted || *at != ','); at++)
        if (*at == '"' && is_quoted)
          is_quoted = false;
        else
          *to++ = *at;
      at = *at == ',' ? at + 1 : NULL;
      *to = '\0';
    }
  return n;
}

/* Against a published table of both lists, where it is there: of each group of the Annex what the US names
 * of it, if anything. */
static void
test_published (void **state)
{
  const char *folder = getenv ("CROUSTADE_REFERENCE_DATA");
  char path[4096], line[4096], *fields[8];
  int n = 0;
  FILE *file;

  snprintf (path, sizeof path, "%s/allergens/allergens-eu14-us9.csv", folder != NULL ? folder : "");
  file = folder != NULL ? fopen (path, "r") : NULL;
  if (file == NULL)
    {
      puts ("skipped: no table of allergens");
      skip ();
    }
  assert_non_null (fgets (line, sizeof line, file));
  for (; fgets (line, sizeof line, file) != NULL; n++)
    {
      const CroAllergenList *us = cro_allergen_list (CRO_ALLERGEN_LIST_US);
      uint32_t same = 0, part = 0;

      assert_true (cut (line, fields, N (fields)) >= 4);
      assert_string_equal (fields[0], cro_allergen_code (n));
      for (size_t i = 0; i < us->n; i++)
        {
          same |= us->entries[i].same & NO (n + 1);
          part |= us->entries[i].part_of & NO (n + 1);
        }
      if ((*fields[3] != '\0') != ((same | part) != 0) || (strstr (fields[3], "only") != NULL) != (part != 0))
        fail_msg ("%s is %s to the US", fields[0], fields[3]);
    }
  fclose (file);
  assert_int_equal (n, CRO_N_ALLERGENS);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_sets),
    cmocka_unit_test (test_faults),
    cmocka_unit_test (test_every_set_reads_back),
    cmocka_unit_test (test_order_of_the_annex),
    cmocka_unit_test (test_lists),
    cmocka_unit_test (test_held),
    cmocka_unit_test (test_published),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
