/* The history in people's words: each act by its label, what it moved from what to what, whose
 * acts are a thing's, and the way back. */
#include "cro-edit.h"
#include "cro-past-words.h"
#include "cro-past.h"
#include "support/kitchen-book.h"

static int
set_up (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\n" },
    { "ingredients", "name,unit,trim_yield_pct\nCrab,g,62\nSalt,g,\n" },
    { "suppliers", "name,quotes\nQuay,pack\n" },
    { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,5,kg\n" },
    { "prices", "ingredient,supplier,from,price\nCrab,Quay,2026-02-10,66\n" },
    { "plates", "name,makes\nCroustade,24\nTartlet,10\n" },
    { "menus", "name\nTide\n" },
    { "lines", "into,parent,position,item,amount,unit\nplate,Croustade,1,Crab,600,g\n"
               "plate,Tartlet,1,Salt,1,g\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

/* --- Acts --------------------------------------------------------------------------------------- */

static CroRef
find (CroTestKitchen *kitchen,
      CroNames        names,
      const char     *name)
{
  CroRef ref = cro_edit_find_name (cro_book_get_model (kitchen->book), names, name);

  assert_true (ref.kind != CRO_REF_NONE);
  return ref;
}

static void
set (CroTestKitchen *kitchen,
     CroRef          ref,
     const char     *column,
     CroCell         cell)
{
  const char *table;
  gint64 id = cro_edit_row (cro_book_get_model (kitchen->book), ref, &table);
  GError *error = NULL;

  cro_test_must (cro_book_set (kitchen->book, "act", table, id, column, &cell, &error), error);
}

static void
set_crab_price (CroTestKitchen *kitchen)
{
  CroModel *model = cro_book_get_model (kitchen->book);
  const CroItem *crab = cro_model_item (model, find (kitchen, CRO_NAMES_ITEMS, "Crab").slot);
  GError *error = NULL;

  cro_test_must (cro_edit_set_price (kitchen->book, "act",
                                     g_array_index (model->offer_order, guint32, crab->first_offer),
                                     CRO_TEST_DAY - 6, INT64_C (69500000), &error),
                 error);
}

static void
set_amount (CroTestKitchen *kitchen)
{
  CroCell cell = CRO_CELL_INT (INT64_C (612500000));
  GError *error = NULL;

  cro_test_must (cro_book_set (kitchen->book, "act", "recipe_line",
                               cro_book_get_model (kitchen->book)->line_ids[0], "amount_micro", &cell,
                               &error),
                 error);
}

static void
set_yield (CroTestKitchen *kitchen)
{
  set (kitchen, find (kitchen, CRO_NAMES_ITEMS, "Crab"), "trim_yield_pct_micro",
       CRO_CELL_INT (INT64_C (58500000)));
}

static void
set_quotes (CroTestKitchen *kitchen)
{
  set (kitchen, find (kitchen, CRO_NAMES_SUPPLIERS, "Quay"), "quotes", CRO_CELL_STR ("base unit"));
}

static void
clear_quotes (CroTestKitchen *kitchen)
{
  set (kitchen, find (kitchen, CRO_NAMES_SUPPLIERS, "Quay"), "quotes", CRO_CELL_NONE);
}

static void
set_allergens (CroTestKitchen *kitchen)
{
  set (kitchen, find (kitchen, CRO_NAMES_ITEMS, "Crab"), "allergens", CRO_CELL_INT (1 << 1));
}

static void
add_rate (CroTestKitchen *kitchen)
{
  GError *error = NULL;

  cro_test_must (cro_edit_set_rate (kitchen->book, "act", "GBP", CRO_TEST_DAY, INT64_C (1150000),
                                    INT64_C (1000000), &error),
                 error);
}

static void
add_to_menu (CroTestKitchen *kitchen)
{
  GError *error = NULL;

  cro_test_must (cro_edit_add_to_menu (kitchen->book, "act",
                                       find (kitchen, CRO_NAMES_THINGS, "Tide").slot,
                                       find (kitchen, CRO_NAMES_THINGS, "Croustade").slot,
                                       INT64_C (2000000), NULL, &error),
                 error);
}

/* Its line goes with it, and is still known by what it was. */
static void
remove_tartlet (CroTestKitchen *kitchen)
{
  GError *error = NULL;

  cro_test_must (cro_edit_remove (kitchen->book, "act", find (kitchen, CRO_NAMES_THINGS, "Tartlet"),
                                  &error),
                 error);
}

static void
rename_crab (CroTestKitchen *kitchen)
{
  GError *error = NULL;

  cro_test_must (cro_edit_rename (kitchen->book, "act", find (kitchen, CRO_NAMES_ITEMS, "Crab"),
                                  "Brown crab", &error),
                 error);
}

/* A word that is a code in other columns. */
static void
note_menu (CroTestKitchen *kitchen)
{
  set (kitchen, find (kitchen, CRO_NAMES_THINGS, "Tide"), "note", CRO_CELL_STR ("weight"));
}

/* --- What an act moved --------------------------------------------------------------------------- */

static const struct
{
  const char *says;
  void      (*act) (CroTestKitchen *kitchen);
  const char *moves;
} acts[] = {
  { "an amount is a number of its unit", set_amount, "Crab in Croustade: amount 600 > 612.5\n" },
  { "a yield is per cent", set_yield, "Crab: trim yield 62 % > 58.5 %\n" },
  { "a price names its ingredient and supplier", set_crab_price,
    "price of Crab, Quay: price 66 > 69.5\n" },
  { "a code is a word", set_quotes, "Quay: price unit per pack > per kg, l or pc\n" },
  { "what is not set any more is a dash", clear_quotes, "Quay: price unit per pack > –\n" },
  { "allergens are named", set_allergens, "Crab: allergens – > crustaceans\n" },
  { "a row that came says what is in it", add_rate,
    "rate of GBP:  – > currency GBP, since 2026-02-16, rate 1.15\n" },
  { "a plate in a menu names both", add_to_menu, "Croustade in Tide:  – > servings 2\n" },
  { "a note is what was written", note_menu, "Tide: note – > weight\n" },
  { "a name is one value", rename_crab, "Brown crab: name Crab > Brown crab\n" },
};

static char *
moves_text (CroTestKitchen *kitchen,
            guint           most)
{
  GString *text = g_string_new (NULL);
  GError *error = NULL;
  g_autoptr (GPtrArray) pasts = cro_past_list (kitchen->book, CRO_REF_NOWHERE, 0, 1, NULL, &error);
  g_autoptr (GPtrArray) moves = NULL;

  cro_test_must (pasts != NULL && pasts->len == 1, error);
  moves = cro_past_list_moves (kitchen->book, ((CroPast *) pasts->pdata[0])->act, most, &error);
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
      cro_test_kitchen_tear_down (state);
    }
}

static void
test_what_is_gone_is_known_by_what_it_was (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *moves = NULL, *few = NULL;

  remove_tartlet (kitchen);
  moves = moves_text (kitchen, 10);
  if (strstr (moves, "Salt in Tartlet:  amount 1, unit g, weighing trimmed > removed\n") == NULL
      || strstr (moves, "Tartlet:  bites made 10 > removed\n") == NULL)
    fail_msg ("%s", moves);
  few = moves_text (kitchen, 1);
  assert_ptr_equal (strchr (few, '\n'), few + strlen (few) - 1);
}

/* --- The whole schema ----------------------------------------------------------------------------- */

/* Words for people: no name of a column, no mask, no id, no code. */
static void
check_column (CroBook    *book,
              const char *table,
              const char *column,
              const char *value)
{
  const char *word = cro_past_column (table, column);
  g_autofree char *act = cro_past_dup_act (table, column, "Samphire");
  g_autofree char *words = cro_past_value (book, table, column, value);

  if (word == column || strchr (word, '_') != NULL)
    fail_msg ("%s.%s has no words", table, column);
  if (strstr (act, word) == NULL || !g_ascii_islower (*act))
    fail_msg ("%s.%s: no entry to be read behind “Undo”: %s", table, column, act);
  if (g_str_has_suffix (column, "_micro") && g_strcmp0 (words, value) == 0)
    fail_msg ("%s.%s is told in millionths: %s", table, column, words);
  if (!cro_past_is_value (table, column))
    return;
  if (strchr (words, '?') != NULL || strchr (words, '_') != NULL)
    fail_msg ("%s.%s leads nowhere: %s", table, column, words);
}

static void
check_row (CroBook      *book,
           const char   *table,
           sqlite3_stmt *row)
{
  g_autofree char *subject = cro_past_subject (book, table, sqlite3_column_int64 (row, 0));

  if (subject == NULL || *subject == '\0' || strchr (subject, '?') != NULL)
    fail_msg ("nobody knows what a row of %s is about: %s", table, subject);
  for (int i = 1; i < sqlite3_column_count (row); i++)
    check_column (book, table, sqlite3_column_name (row, i),
                  (const char *) sqlite3_column_text (row, i));
}

/* The rows set every column that there is: one that comes to the schema without words fails here. */
static void
test_all_the_schema_has_words (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  CroBook *book = cro_test_book_create (folder.path);
  sqlite3_stmt *tables, *row;
  sqlite3 *db;
  guint n = 0;

  cro_test_add_rows (folder.path);
  db = cro_test_raw (folder.path);
  assert_int_equal (sqlite3_prepare_v2 (db,
                                        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name"
                                        " NOT IN ('unit', 'act', 'change', 'picture', 'sqlite_sequence')",
                                        -1, &tables, NULL),
                    SQLITE_OK);
  for (; sqlite3_step (tables) == SQLITE_ROW; n++)
    {
      const char *table = (const char *) sqlite3_column_text (tables, 0);
      g_autofree char *sql = g_strdup_printf ("SELECT * FROM \"%s\"", table);

      assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &row, NULL), SQLITE_OK);
      while (sqlite3_step (row) == SQLITE_ROW)
        check_row (book, table, row);
      sqlite3_finalize (row);
    }
  assert_true (n > 20);
  sqlite3_finalize (tables);
  sqlite3_close (db);
  g_assert_finalize_object (book);
  cro_test_folder_clear (&folder);
}

/* What stands as a number or as a code elsewhere. */
static void
test_values_have_words (void **state)
{
  static const struct { const char *table, *column, *value, *words; } values[] = {
    { "ingredient", "may_contain", "2", "crustaceans" },
    { "book", "till_with_tax", "1", "with tax" },
    { "book", "speaks", "gross-profit", "gross profit %" },
    { "book", "price_steps", "ninety-five", "12.95" },
    { "yield_test", "usable_g_micro", "850000000", "850 g" },
    { "output", "density_g_per_ml_micro", "1050000", "1.05 g/ml" },
    { "menu_plate", "share_pct_micro", "60000000", "60 %" },
    { "adjustment", "kind", "staff-meal", "staff meal" },
    { "month_row", "supplier", "Estuary Greens", "Estuary Greens" },
    { "selling_price", "price_micro", NULL, "–" },
  };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_autofree char *words = cro_past_value (kitchen->book, values[i].table, values[i].column,
                                               values[i].value);

      assert_string_equal (words, values[i].words);
    }
}

/* --- The list ------------------------------------------------------------------------------------- */

static char *
labels (CroTestKitchen *kitchen,
        CroRef          thing,
        gint64          before,
        guint           limit,
        gint64         *last)
{
  GString *text = g_string_new (NULL);
  GError *error = NULL;
  g_autoptr (GPtrArray) pasts = cro_past_list (kitchen->book, thing, before, limit, last, &error);

  cro_test_must (pasts != NULL, error);
  for (guint i = 0; i < pasts->len; i++)
    g_string_append_printf (text, "%s/", ((CroPast *) pasts->pdata[i])->label);
  return g_string_free (text, FALSE);
}

static void
set_makes (CroTestKitchen *kitchen,
           const char     *plate,
           const char     *label)
{
  CroRef ref = find (kitchen, CRO_NAMES_THINGS, plate);
  CroCell cell = CRO_CELL_INT (INT64_C (30000000));
  const char *table;
  gint64 id = cro_edit_row (cro_book_get_model (kitchen->book), ref, &table);
  GError *error = NULL;

  cro_test_must (cro_book_set (kitchen->book, label, table, id, "makes_micro", &cell, &error), error);
}

static void
test_acts_stand_newest_first (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *all = NULL, *first = NULL, *rest = NULL;
  gint64 last;
  GError *error = NULL;

  set_makes (kitchen, "Croustade", "one");
  set_makes (kitchen, "Tartlet", "two");
  cro_test_must (cro_book_undo (kitchen->book, NULL, &error), error);
  cro_test_must (cro_book_redo (kitchen->book, NULL, &error), error);
  first = labels (kitchen, CRO_REF_NOWHERE, 0, 2, &last);
  assert_string_equal (first, "redone: two/undone: two/");
  assert_true (last > 0);
  rest = labels (kitchen, CRO_REF_NOWHERE, last, 2, NULL);
  assert_string_equal (rest, "two/one/");
  all = labels (kitchen, CRO_REF_NOWHERE, 0, 100, &last);
  assert_true (g_str_has_prefix (all, "redone: two/undone: two/two/one/"));
  assert_int_equal (last, 0);
}

/* The lines of a plate are its own, and so are the prices of an ingredient. */
static void
test_a_thing_has_its_own_acts (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *of_plate = NULL, *of_crab = NULL, *of_tide = NULL;

  set_amount (kitchen);
  set_crab_price (kitchen);
  set_makes (kitchen, "Tartlet", "tartlet");
  add_to_menu (kitchen);
  of_plate = labels (kitchen, find (kitchen, CRO_NAMES_THINGS, "Croustade"), 0, 4, NULL);
  of_crab = labels (kitchen, find (kitchen, CRO_NAMES_ITEMS, "Crab"), 0, 4, NULL);
  of_tide = labels (kitchen, find (kitchen, CRO_NAMES_THINGS, "Tide"), 0, 4, NULL);
  assert_string_equal (of_plate, "act/");
  assert_string_equal (of_crab, "act/");
  assert_string_equal (of_tide, "act/");
  g_free (of_plate);
  of_plate = labels (kitchen, find (kitchen, CRO_NAMES_THINGS, "Tartlet"), 0, 4, NULL);
  assert_string_equal (of_plate, "tartlet/");
}

/* --- The way back --------------------------------------------------------------------------------- */

static void
test_all_after_an_act_is_taken_back (void **state)
{
  CroTestKitchen *kitchen = *state;
  GError *error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (GPtrArray) pasts = NULL;
  guint n;

  set_makes (kitchen, "Croustade", "one");
  before = cro_test_figures (kitchen->book);
  pasts = cro_past_list (kitchen->book, CRO_REF_NOWHERE, 0, 1, NULL, &error);
  set_amount (kitchen);
  set_crab_price (kitchen);
  set_yield (kitchen);
  cro_test_must (cro_past_go_back (kitchen->book, ((CroPast *) pasts->pdata[0])->act, &n, NULL, &error),
                 error);
  assert_int_equal (n, 3);
  after = cro_test_figures (kitchen->book);
  cro_test_same ("as it was after that act", before, after);
}

/* Another desk has changed the same amount since: what stood behind it stays. */
static void
test_the_way_back_ends_where_another_desk_stands (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroBook *other = cro_test_book_open (kitchen->folder.path, "office");
  CroCell cell = CRO_CELL_INT (INT64_C (700000000));
  GError *error = NULL;
  guint n;

  set_makes (kitchen, "Croustade", "one");
  set_amount (kitchen);
  set_yield (kitchen);
  cro_test_must (cro_book_refresh (other, NULL, &error), error);
  cro_test_must (cro_book_set (other, "theirs", "recipe_line",
                               cro_book_get_model (other)->line_ids[0], "amount_micro", &cell,
                               &error),
                 error);
  cro_test_must (cro_book_refresh (kitchen->book, NULL, &error), error);
  assert_false (cro_past_go_back (kitchen->book, 0, &n, NULL, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED));
  assert_int_equal (n, 1);
  g_clear_error (&error);
  g_assert_finalize_object (other);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_what_an_act_moved_is_said_in_words),
    CASE (test_what_is_gone_is_known_by_what_it_was),
    cmocka_unit_test (test_all_the_schema_has_words),
    CASE (test_values_have_words),
    CASE (test_acts_stand_newest_first),
    CASE (test_a_thing_has_its_own_acts),
    CASE (test_all_after_an_act_is_taken_back),
    CASE (test_the_way_back_ends_where_another_desk_stands),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
