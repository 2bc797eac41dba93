/* The history in people's words: each act by its label, what it moved from what to what, whose
 * acts are a thing's, and the way back. */
#include "cro-edit.h"
#include "cro-past.h"
#include "support/kitchen-book.h"

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
} Fixture;

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);
  const char *folder;

  fixture->folder = cro_test_folder_new ();
  folder = fixture->folder.folder;
  cro_test_write_table (folder, "book", "key,value\ncurrency,EUR\n");
  cro_test_write_table (folder, "ingredients", "name,unit,trim_yield_pct\nCrab,g,62\nSalt,g,\n");
  cro_test_write_table (folder, "suppliers", "name,quotes\nQuay,pack\n");
  cro_test_write_table (folder, "offers",
                        "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,5,kg\n");
  cro_test_write_table (folder, "prices", "ingredient,supplier,from,price\nCrab,Quay,2026-02-10,66\n");
  cro_test_write_table (folder, "plates", "name,makes\nCroustade,24\nTartlet,10\n");
  cro_test_write_table (folder, "menus", "name\nTide\n");
  cro_test_write_table (folder, "lines",
                        "into,parent,position,item,amount,unit\nplate,Croustade,1,Crab,600,g\n"
                        "plate,Tartlet,1,Salt,1,g\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  g_assert_finalize_object (fixture->book);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

/* --- Acts --------------------------------------------------------------------------------------- */

static CroRef
find (Fixture    *fixture,
      CroNames    names,
      const char *name)
{
  CroRef ref = cro_edit_find_name (cro_book_get_model (fixture->book), names, name);

  assert_true (ref.kind != CRO_REF_NONE);
  return ref;
}

static void
set (Fixture    *fixture,
     CroRef      ref,
     const char *column,
     CroCell     cell)
{
  const char *table;
  gint64 id = cro_edit_row (cro_book_get_model (fixture->book), ref, &table);
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, "act", table, id, column, &cell, &error), error);
}

static void
set_crab_price (Fixture *fixture)
{
  CroModel *model = cro_book_get_model (fixture->book);
  const CroItem *crab = cro_model_item (model, find (fixture, CRO_NAMES_ITEMS, "Crab").slot);
  GError *error = NULL;

  cro_test_must (cro_edit_set_price (fixture->book, "act",
                                     g_array_index (model->offer_order, guint32, crab->first_offer),
                                     CRO_TEST_DAY - 6, INT64_C (69500000), &error),
                 error);
}

static void
set_amount (Fixture *fixture)
{
  CroCell cell = CRO_CELL_INT (INT64_C (612500000));
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, "act", "recipe_line",
                               cro_book_get_model (fixture->book)->line_ids[0], "amount_micro", &cell,
                               &error),
                 error);
}

static void
set_yield (Fixture *fixture)
{
  set (fixture, find (fixture, CRO_NAMES_ITEMS, "Crab"), "trim_yield_pct_micro",
       CRO_CELL_INT (INT64_C (58500000)));
}

static void
set_quotes (Fixture *fixture)
{
  set (fixture, find (fixture, CRO_NAMES_SUPPLIERS, "Quay"), "quotes", CRO_CELL_STR ("base unit"));
}

static void
clear_quotes (Fixture *fixture)
{
  set (fixture, find (fixture, CRO_NAMES_SUPPLIERS, "Quay"), "quotes", CRO_CELL_NONE);
}

static void
set_allergens (Fixture *fixture)
{
  set (fixture, find (fixture, CRO_NAMES_ITEMS, "Crab"), "allergens", CRO_CELL_INT (1 << 1));
}

static void
add_rate (Fixture *fixture)
{
  GError *error = NULL;

  cro_test_must (cro_edit_set_rate (fixture->book, "act", "GBP", CRO_TEST_DAY, INT64_C (1150000),
                                    INT64_C (1000000), &error),
                 error);
}

static void
add_to_menu (Fixture *fixture)
{
  GError *error = NULL;

  cro_test_must (cro_edit_add_to_menu (fixture->book, "act",
                                       find (fixture, CRO_NAMES_THINGS, "Tide").slot,
                                       find (fixture, CRO_NAMES_THINGS, "Croustade").slot,
                                       INT64_C (2000000), NULL, &error),
                 error);
}

/* Its line goes with it, and is still known by what it was. */
static void
remove_tartlet (Fixture *fixture)
{
  GError *error = NULL;

  cro_test_must (cro_edit_remove (fixture->book, "act", find (fixture, CRO_NAMES_THINGS, "Tartlet"),
                                  &error),
                 error);
}

static void
rename_crab (Fixture *fixture)
{
  GError *error = NULL;

  cro_test_must (cro_edit_rename (fixture->book, "act", find (fixture, CRO_NAMES_ITEMS, "Crab"),
                                  "Brown crab", &error),
                 error);
}

/* A word that is a code in other columns. */
static void
note_menu (Fixture *fixture)
{
  set (fixture, find (fixture, CRO_NAMES_THINGS, "Tide"), "note", CRO_CELL_STR ("weight"));
}

/* --- What an act moved --------------------------------------------------------------------------- */

static const struct { const char *says; void (*act) (Fixture *fixture); const char *moves; } acts[] = {
  { "an amount is a number of its unit", set_amount, "Crab in Croustade: amount 600 > 612.5\n" },
  { "a yield is per cent", set_yield, "Crab: trim yield 62 % > 58.5 %\n" },
  { "a price names its ingredient and supplier", set_crab_price,
    "price of Crab, Quay: price 66 > 69.5\n" },
  { "a code is a word", set_quotes, "Quay: states prices per pack > per kg, l or piece\n" },
  { "what is not set any more is a dash", clear_quotes, "Quay: states prices per pack > –\n" },
  { "allergens are named", set_allergens, "Crab: allergens – > crustaceans\n" },
  { "a row that came says what is in it", add_rate,
    "rate of GBP:  – > currency GBP, since 2026-02-16, rate 1.15\n" },
  { "a plate in a menu names both", add_to_menu, "Croustade in Tide:  – > servings 2\n" },
  { "a note is what was written", note_menu, "Tide: note – > weight\n" },
  { "a name is one value", rename_crab, "Brown crab: name Crab > Brown crab\n" },
};

static char *
moves_text (Fixture *fixture,
            guint    most)
{
  GString *text = g_string_new (NULL);
  GError *error = NULL;
  g_autoptr (GPtrArray) pasts = cro_past_list (fixture->book, CRO_REF_NOWHERE, 0, 1, NULL, &error);
  g_autoptr (GPtrArray) moves = NULL;

  cro_test_must (pasts != NULL && pasts->len == 1, error);
  moves = cro_past_list_moves (fixture->book, ((CroPast *) pasts->pdata[0])->act, most, &error);
  cro_test_must (moves != NULL, error);
  for (guint i = 0; i < moves->len; i++)
    {
      const CroPastMove *move = moves->pdata[i];

      g_string_append_printf (text, "%s: %s %s > %s\n", move->of, move->what != NULL ? move->what : "",
                              move->from, move->to);
    }
  return g_string_free (text, FALSE);
}

static void
test_what_an_act_moved_is_said_in_words (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (acts); i++)
    {
      g_autofree char *moves = NULL;

      set_up (state);
      acts[i].act (*state);
      moves = moves_text (*state, 10);
      if (strcmp (moves, acts[i].moves) != 0)
        fail_msg ("%s:\n%s", acts[i].says, moves);
      tear_down (state);
    }
}

static void
test_what_is_gone_is_known_by_what_it_was (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *moves = NULL, *few = NULL;

  remove_tartlet (fixture);
  moves = moves_text (fixture, 10);
  if (strstr (moves, "Salt in Tartlet:  amount 1, unit g, weighed trimmed > removed\n") == NULL
      || strstr (moves, "Tartlet:  bites made 10 > removed\n") == NULL)
    fail_msg ("%s", moves);
  few = moves_text (fixture, 1);
  assert_ptr_equal (strchr (few, '\n'), few + strlen (few) - 1);
}

/* --- The list ------------------------------------------------------------------------------------- */

static char *
labels (Fixture *fixture,
        CroRef   thing,
        gint64   before,
        guint    limit,
        gint64  *last)
{
  GString *text = g_string_new (NULL);
  GError *error = NULL;
  g_autoptr (GPtrArray) pasts = cro_past_list (fixture->book, thing, before, limit, last, &error);

  cro_test_must (pasts != NULL, error);
  for (guint i = 0; i < pasts->len; i++)
    g_string_append_printf (text, "%s/", ((CroPast *) pasts->pdata[i])->label);
  return g_string_free (text, FALSE);
}

static void
set_makes (Fixture    *fixture,
           const char *plate,
           const char *label)
{
  CroRef ref = find (fixture, CRO_NAMES_THINGS, plate);
  CroCell cell = CRO_CELL_INT (INT64_C (30000000));
  const char *table;
  gint64 id = cro_edit_row (cro_book_get_model (fixture->book), ref, &table);
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, label, table, id, "makes_micro", &cell, &error), error);
}

static void
test_acts_stand_newest_first (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *all = NULL, *first = NULL, *rest = NULL;
  gint64 last;
  GError *error = NULL;

  set_makes (fixture, "Croustade", "one");
  set_makes (fixture, "Tartlet", "two");
  cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
  cro_test_must (cro_book_redo (fixture->book, NULL, &error), error);
  first = labels (fixture, CRO_REF_NOWHERE, 0, 2, &last);
  assert_string_equal (first, "redone: two/undone: two/");
  assert_true (last > 0);
  rest = labels (fixture, CRO_REF_NOWHERE, last, 2, NULL);
  assert_string_equal (rest, "two/one/");
  all = labels (fixture, CRO_REF_NOWHERE, 0, 100, &last);
  assert_true (g_str_has_prefix (all, "redone: two/undone: two/two/one/"));
  assert_int_equal (last, 0);
}

/* The lines of a plate are its own, and so are the prices of an ingredient. */
static void
test_a_thing_has_its_own_acts (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *of_plate = NULL, *of_crab = NULL, *of_tide = NULL;

  set_amount (fixture);
  set_crab_price (fixture);
  set_makes (fixture, "Tartlet", "tartlet");
  add_to_menu (fixture);
  of_plate = labels (fixture, find (fixture, CRO_NAMES_THINGS, "Croustade"), 0, 4, NULL);
  of_crab = labels (fixture, find (fixture, CRO_NAMES_ITEMS, "Crab"), 0, 4, NULL);
  of_tide = labels (fixture, find (fixture, CRO_NAMES_THINGS, "Tide"), 0, 4, NULL);
  assert_string_equal (of_plate, "act/");
  assert_string_equal (of_crab, "act/");
  assert_string_equal (of_tide, "act/");
  g_free (of_plate);
  of_plate = labels (fixture, find (fixture, CRO_NAMES_THINGS, "Tartlet"), 0, 4, NULL);
  assert_string_equal (of_plate, "tartlet/");
}

/* --- The way back --------------------------------------------------------------------------------- */

static void
test_all_after_an_act_is_taken_back (void **state)
{
  Fixture *fixture = *state;
  GError *error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (GPtrArray) pasts = NULL;
  guint n;

  set_makes (fixture, "Croustade", "one");
  before = cro_test_figures (fixture->book);
  pasts = cro_past_list (fixture->book, CRO_REF_NOWHERE, 0, 1, NULL, &error);
  set_amount (fixture);
  set_crab_price (fixture);
  set_yield (fixture);
  cro_test_must (cro_past_go_back (fixture->book, ((CroPast *) pasts->pdata[0])->act, &n, &error),
                 error);
  assert_int_equal (n, 3);
  after = cro_test_figures (fixture->book);
  cro_test_same ("as it was after that act", before, after);
}

/* Another desk has changed the same amount since: what stood behind it stays. */
static void
test_the_way_back_ends_where_another_desk_stands (void **state)
{
  Fixture *fixture = *state;
  CroBook *other = cro_test_book_open (fixture->folder.path, "office");
  CroCell cell = CRO_CELL_INT (INT64_C (700000000));
  GError *error = NULL;
  guint n;

  set_makes (fixture, "Croustade", "one");
  set_amount (fixture);
  set_yield (fixture);
  cro_test_must (cro_book_refresh (other, NULL, &error), error);
  cro_test_must (cro_book_set (other, "theirs", "recipe_line",
                               cro_book_get_model (other)->line_ids[0], "amount_micro", &cell,
                               &error),
                 error);
  cro_test_must (cro_book_refresh (fixture->book, NULL, &error), error);
  assert_false (cro_past_go_back (fixture->book, 0, &n, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED));
  assert_int_equal (n, 1);
  g_clear_error (&error);
  g_assert_finalize_object (other);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_what_an_act_moved_is_said_in_words),
    CASE (test_what_is_gone_is_known_by_what_it_was),
    CASE (test_acts_stand_newest_first),
    CASE (test_a_thing_has_its_own_acts),
    CASE (test_all_after_an_act_is_taken_back),
    CASE (test_the_way_back_ends_where_another_desk_stands),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
