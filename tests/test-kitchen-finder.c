/* Looking up what a book holds by what is typed of its name. */
#include "cro-finder.h"
#include "cro-near-names.h"
#include "support/kitchen-book.h"

/* --- Folding ---------------------------------------------------------------------------------- */

/* Decompositions and case foldings: Unicode Standard, chapters 3.11 and 3.13. */
static void
test_fold (void **state)
{
  static const struct { const char *says, *text, *folded; } cases[] = {
    { "case goes", "Brown CRAB", "brown crab" },
    { "accents go", "Crème brûlée", "creme brulee" },
    { "whether a letter is composed or not", "Cre\xcc\x80me", "creme" },
    { "a ligature that nothing decomposes is spelt out", "Œuf de caille, Æ", "oeuf de caille ae" },
    { "a stroke through a letter goes", "Smørrebrød, łosoś", "smorrebrod losos" },
    { "sharp s is two letters", "Weißwurst", "weisswurst" },
    { "what is no letter and no digit separates words", "  d'œuf (3–4 kg) ", "d oeuf 3 4 kg" },
    { "Greek and Cyrillic letters are letters", "ΧΤΑΠΌΔΙ Кальмар", "χταποδι кальмар" },
    { "wide digits are digits", "７５ %", "75" },
    { "whether or not any letter needs it", " (2) Jars, SMALL! ", "2 jars small" },
    { "nothing is left of punctuation", "–!", "" },
    { "nor where all of it is plain", " -!", "" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *folded = cro_fold (cases[i].text);

      if (strcmp (folded, cases[i].folded) != 0)
        fail_msg ("%s: \"%s\" gives \"%s\"", cases[i].says, cases[i].text, folded);
    }
}

/* --- Looking up --------------------------------------------------------------------------------- */

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  CroFinder    *finder;
} Fixture;

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  cro_test_write_table (fixture->folder.folder, "ingredients",
                        "name,unit\nBrown crab,g\nCrab,g\nCrème fraîche,g\nButter,g\n"
                        "Buttermilk,ml\nUnsalted butter,g\nŒuf,each\nSoft-shell crab,each\n");
  cro_test_write_table (fixture->folder.folder, "preparations", "name\nCrab butter\n");
  cro_test_write_table (fixture->folder.folder, "outputs",
                        "item,preparation,role,amount,unit\nCrab butter,Crab butter,main,100,g\n");
  cro_test_write_table (fixture->folder.folder, "lines",
                        "into,parent,position,item,amount,unit\n"
                        "preparation,Crab butter,1,Butter,1,g\n");
  cro_test_write_table (fixture->folder.folder, "plates", "name,makes\nCrab croustade,24\n");
  cro_test_write_table (fixture->folder.folder, "menus", "name\nTide\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  fixture->finder = cro_finder_of (fixture->book);
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  g_object_unref (fixture->book);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

/* The names found, in order, with "|" between them. */
static char *
names_of (Fixture    *fixture,
          const char *text,
          guint       kinds,
          guint       most)
{
  g_autoptr (GArray) found = cro_finder_find (fixture->finder, text, kinds, most);
  GString *names = g_string_new (NULL);

  for (guint i = 0; i < found->len; i++)
    {
      const CroFound *one = &g_array_index (found, CroFound, i);

      g_string_append_printf (names, "%s%s", i > 0 ? "|" : "",
                              cro_kind_name (cro_book_get_model (fixture->book), one->kind,
                                             one->slot));
    }
  return g_string_free (names, FALSE);
}

static void
must_find (Fixture    *fixture,
           const char *says,
           const char *text,
           guint       kinds,
           guint       most,
           const char *expected)
{
  g_autofree char *names = names_of (fixture, text, kinds, most);

  if (strcmp (names, expected) != 0)
    fail_msg ("%s: \"%s\" finds \"%s\" and not \"%s\"", says, text, names, expected);
}

static void
test_found (void **state)
{
  const guint items = 1 << CRO_KIND_INGREDIENT | 1 << CRO_KIND_OUTPUT;
  const struct { const char *says, *text; guint kinds, most; const char *names; } cases[] = {
    { "the whole name first, then what begins so", "crab", items, 9,
      "Crab|Crab butter|Brown crab|Soft-shell crab" },
    { "what is typed as if of several", "crabs", items, 9, "Brown crab|Crab|Crab butter|Soft-shell crab" },
    { "and only as a whole word", "butters", items, 9, "Butter|Crab butter|Unsalted butter" },
    { "a name that begins so, whatever the alphabet says", "cr", items, 2, "Crab|Crab butter" },
    { "words in any order", "butter crab", items, 9, "Crab butter" },
    { "the beginning of words", "so cr", items, 9, "Soft-shell crab" },
    { "inside a word comes last", "rab", items, 9,
      "Brown crab|Crab|Crab butter|Soft-shell crab" },
    { "a word's beginning before its inside", "salt", items, 9, "Unsalted butter" },
    { "whole before begun", "butter", items, 9, "Butter|Buttermilk|Crab butter|Unsalted butter" },
    { "accents typed or not", "creme fraiche", items, 9, "Crème fraîche" },
    { "and typed where there are none", "brówn", items, 9, "Brown crab" },
    { "one letter", "œ", items, 9, "Œuf" },
    { "the kinds that are asked for", "crab", 1 << CRO_KIND_PLATE, 9, "Crab croustade" },
    { "all kinds, equals in the order of kinds", "crab bu", CRO_KINDS_ALL, 9,
      "Crab butter|Crab butter" },
    { "a menu", "tide", CRO_KINDS_ALL, 9, "Tide" },
    { "no more than asked, the best of them", "crab", items, 2, "Crab|Crab butter" },
    { "just one", "butter", items, 1, "Butter" },
    { "none", "crab", items, 0, "" },
    { "what is not there", "lobster", CRO_KINDS_ALL, 9, "" },
    { "all words must fit", "crab lobster", CRO_KINDS_ALL, 9, "" },
    { "no word finds nothing", " - ", CRO_KINDS_ALL, 9, "" },
    { "no match goes over the end of a name", "crab crab", items, 9,
      "Brown crab|Crab|Crab butter|Soft-shell crab" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    must_find (*state, cases[i].says, cases[i].text, cases[i].kinds, cases[i].most,
               cases[i].names);
}

/* The best of many, however few of them are asked for. */
static void
test_best_of_many (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  g_autoptr (GString) table = g_string_new ("name,unit\n");
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);
  g_autofree char *all = NULL;
  g_auto (GStrv) names = NULL;
  Fixture fixture = { 0 };

  for (int i = 0; i < 60; i++)
    g_string_append_printf (table, "%s%u %d,g\n", g_rand_boolean (rand) ? "shell" : "a-shell-b",
                            g_rand_int (rand) % 1000, i);
  cro_test_write_table (folder.folder, "ingredients", table->str);
  fixture.book = cro_test_book_load (&folder);
  fixture.finder = cro_finder_of (fixture.book);
  all = names_of (&fixture, "shell", CRO_KINDS_ALL, 1000);
  names = g_strsplit (all, "|", 0);
  assert_int_equal (g_strv_length (names), 60);
  for (guint most = 60; most > 0; most--)
    {
      g_autofree char *first = g_strjoinv ("|", names);

      must_find (&fixture, "the first of all", "shell", CRO_KINDS_ALL, most, first);
      g_clear_pointer (&names[most - 1], g_free);
    }
  g_object_unref (fixture.book);
  cro_test_folder_clear (&folder);
}

/* --- What may have been meant -------------------------------------------------------------------------- */

static void
test_near (void **state)
{
  static const char *const all[] = { "Crab croustade", NULL, "Brown crab on toast", "Oysters, half-dozen",
                                     "Single oyster, cucumber and juniper", "Tide", "Salted chocolate" };
  static const struct { const char *says, *text, *names; guint most; } cases[] = {
    { "what holds it, and the best of that first", "crab", "Crab croustade|Brown crab on toast", 9 },
    { "no more than asked", "crab", "Crab croustade", 1 },
    { "a word too many", "Brown crab croustade", "Crab croustade|Brown crab on toast", 9 },
    { "words too many, and what has none of them is none", "the oyster with lemon",
      "Oysters, half-dozen|Single oyster, cucumber and juniper", 9 },
    { "words in another order, one of them left out", "toast with crab", "Brown crab on toast|Crab croustade", 9 },
    { "a slip in the whole", "Saltedchocolate", "Salted chocolate", 9 },
    { "a slip in one word of several", "Brwn crab on a toast", "Brown crab on toast", 9 },
    { "and in a short one", "Tyde", "Tide", 9 },
    { "none that is like it", "lobster", "", 9 },
    { "no word at all", " - ", "", 9 },
  };
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  g_autoptr (CroNearNames) near_names = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    g_ptr_array_add (names, (gpointer) all[i]);
  near_names = cro_near_names_new (names);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GArray) found = cro_near_names_find (near_names, cases[i].text, cases[i].most);
      g_autoptr (GString) said = g_string_new (NULL);

      for (guint n = 0; n < found->len; n++)
        g_string_append_printf (said, "%s%s", n > 0 ? "|" : "", all[g_array_index (found, guint, n)]);
      if (strcmp (said->str, cases[i].names) != 0)
        fail_msg ("%s: “%s” gives “%s”", cases[i].says, cases[i].text, said->str);
    }
}

/* --- Keeping up ------------------------------------------------------------------------------------ */

static void
add_item (Fixture    *fixture,
          const char *name)
{
  static const char *const item[] = { "name", NULL };
  static const char *const ingredient[] = { "id", "unit", NULL };
  CroStore *store = cro_book_get_store (fixture->book);
  CroCell cells[2] = { CRO_CELL_STR (name), CRO_CELL_STR ("g") };
  GError *error = NULL;
  g_autoptr (CroWriter) items = NULL;
  g_autoptr (CroWriter) ingredients = NULL;
  gint64 id;

  cro_test_must (cro_book_begin_act (fixture->book, "new", &error), error);
  items = cro_writer_new (store, "item", item, &error);
  cro_test_must (cro_writer_insert (items, cells, &id, &error), error);
  cells[0] = CRO_CELL_INT (id);
  ingredients = cro_writer_new (store, "ingredient", ingredient, &error);
  cro_test_must (cro_writer_insert (ingredients, cells, NULL, &error), error);
  cro_test_must (cro_book_end_act (fixture->book, &error), error);
}

static void
rename_first (Fixture    *fixture,
              const char *name)
{
  CroCell cell = CRO_CELL_STR (name);
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, "rename", "item", 1, "name", &cell, &error), error);
}

/* The best of what may have been meant, of kinds; "" where there is none. */
static void
must_find_like (Fixture    *fixture,
                const char *text,
                guint       kinds,
                const char *expected)
{
  g_autoptr (GArray) found = cro_finder_find_like (fixture->finder, text, kinds, 1);
  const CroFound *best = found->len > 0 ? &g_array_index (found, CroFound, 0) : NULL;

  assert_string_equal (best != NULL ? cro_kind_name (cro_book_get_model (fixture->book), best->kind, best->slot) : "",
                       expected);
}

static void
test_keeps_up (void **state)
{
  Fixture *fixture = *state;
  const guint all = CRO_KINDS_ALL;
  GError *error = NULL;

  must_find (fixture, "as loaded", "brown", all, 9, "Brown crab");
  must_find_like (fixture, "Brwn crab of ours", all, "Brown crab");
  must_find_like (fixture, "Brwn crab of ours", 1u << CRO_KIND_MENU, "");
  must_find_like (fixture, "Brwn crab of ours", all, "Brown crab");
  add_item (fixture, "Brown shrimp");
  must_find (fixture, "what is new is found", "brown", all, 9, "Brown crab|Brown shrimp");
  rename_first (fixture, "Spider crab");
  must_find (fixture, "the old name is not found", "brown", all, 9, "Brown shrimp");
  must_find (fixture, "the new name is", "spider", all, 9, "Spider crab");
  must_find_like (fixture, "Spidr crab of ours", all, "Spider crab");
  must_find_like (fixture, "Brwn shrimp of ours", all, "Brown shrimp");
  cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
  must_find (fixture, "undone, the name is back", "brown", all, 9, "Brown crab|Brown shrimp");
  cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
  must_find (fixture, "undone, what was new is gone", "brown", all, 9, "Brown crab");
  must_find_like (fixture, "Brwn shrimp of ours", all, "Brown crab");
  for (int i = 0; i < 400; i++)
    {
      g_autofree char *name = g_strdup_printf ("Spider crab %d", i);

      rename_first (fixture, name);
      must_find (fixture, "however often it is renamed", "spider", all, 9, name);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_fold),
    cmocka_unit_test_setup_teardown (test_found, set_up, tear_down),
    cmocka_unit_test (test_best_of_many),
    cmocka_unit_test (test_near),
    cmocka_unit_test_setup_teardown (test_keeps_up, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
