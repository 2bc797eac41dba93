/* A trial: its figures are those of a book in which the same was really changed, to the bit; dropped
 * it leaves nothing; kept it is one act, which undo takes back. */
#include <math.h>

#include "cro-replacement.h"
#include "cro-tried-private.h"
#include "cro-tried-words.h"
#include "support/kitchen-edits.h"
#include "support/kitchen-random.h"
#include "support/kitchen-trial.h"

#define N_BOOKS 6
#define N_EDITS 6

/* --- Random books ----------------------------------------------------------------------------- */

/* Values that both books take; what one refuses the other does too. */
static void
edit_both (CroBook *trial,
           CroBook *other,
           GRand   *rand)
{
  for (int i = 0; i < N_EDITS; i++)
    {
      CroTestEdit edit;
      gboolean is_tried, is_done;

      if (!cro_test_draw_edit (other, rand, &edit))
        continue;
      is_tried = cro_book_set (trial, "edit", edit.table, edit.id, edit.column, &edit.cell, NULL);
      is_done = cro_book_set (other, "edit", edit.table, edit.id, edit.column, &edit.cell, NULL);
      assert_int_equal (is_tried, is_done);
    }
}

static char *
figures_again (CroBook   *book,
               GPtrArray *tried)
{
  g_autofree char *text = cro_tried_to_text (tried);
  g_autoptr (GPtrArray) read = cro_tried_from_text (text);
  g_autoptr (CroTrial) again = cro_trial_new (book, read, "again", NULL);

  assert_non_null (read);
  assert_int_equal (read->len, tried->len);
  return cro_test_figures (cro_trial_get_book (again));
}

static guint
n_acts (CroBook *book)
{
  g_autoptr (GPtrArray) acts = cro_store_list_acts (cro_book_get_store (book), 0, 100, NULL);

  return acts->len;
}

static void
try_random (CroBook    *book,
            CroBook    *other,
            const char *path,
            GRand      *rand)
{
  g_autofree char *before = cro_test_figures (book), *rows = cro_test_dump (path);
  g_autofree char *left = NULL, *left_rows = NULL, *tried = NULL, *done = NULL, *again = NULL;
  g_autofree char *kept = NULL, *undone = NULL, *undone_rows = NULL;
  GError *error = NULL;
  CroTrial *trial = cro_trial_new (book, NULL, "trial", &error);
  g_autoptr (GPtrArray) list = NULL;
  guint acts = n_acts (book);

  cro_test_must (trial != NULL, error);
  edit_both (cro_trial_get_book (trial), other, rand);
  tried = cro_test_figures (cro_trial_get_book (trial));
  done = cro_test_figures (other);
  cro_test_same ("what is tried is as if done", done, tried);
  left = cro_test_figures (book);
  left_rows = cro_test_dump (path);
  cro_test_same ("the book beside a trial", before, left);
  assert_string_equal (left_rows, rows);

  list = cro_trial_list (trial, &error);
  cro_test_must (list != NULL, error);
  again = figures_again (book, list);
  cro_test_same ("a trial found again", tried, again);
  cro_test_must (cro_trial_keep (trial, "kept", CRO_TEST_DAY, &error), error);
  cro_trial_free (trial);
  kept = cro_test_figures (book);
  cro_test_same ("a trial kept", tried, kept);
  if (list->len == 0)
    return;
  assert_int_equal (n_acts (book), acts + 1);
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  undone = cro_test_figures (book);
  cro_test_same ("a trial undone", before, undone);
  undone_rows = cro_test_dump (path);
  assert_string_equal (undone_rows, rows);
}

static void
test_random_books (void **state)
{
  for (guint seed = 1; seed <= N_BOOKS; seed++)
    {
      GRand *rand = g_rand_new_with_seed (seed);
      g_autofree char *rows = cro_test_random_rows (rand);
      CroTestFolder folder, other_folder;
      CroBook *book = cro_test_book_with (&folder, rows);
      CroBook *other = cro_test_book_with (&other_folder, rows);

      try_random (book, other, folder.path, rand);
      g_object_unref (book);
      g_object_unref (other);
      cro_test_folder_clear (&folder);
      cro_test_folder_clear (&other_folder);
      g_rand_free (rand);
    }
}

/* --- Prices, lines, what cannot be tried ------------------------------------------------------- */

static CroFigure
figure_of (CroBook *book)
{
  return cro_figure_of_plate (cro_book_get_figures (book), plate_of (book).slot);
}

static void
assert_cost (CroBook *book,
             double   cost)
{
  double is = figure_of (book).cost;

  if (fabs (is - cost) > 1e-9)
    fail_msg ("a guest costs %.9f and not %.9f", is, cost);
}

/* 200 g at 16 a kg are 3.20, at 20 a kg 4.00. */
static void
test_a_price_holds_from_the_day_it_is_kept_from (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  g_autoptr (GPtrArray) list = NULL;
  g_autofree char *rows = cro_test_dump (self->folder.path), *undone = NULL;
  GError *error = NULL;

  cro_test_must (cro_edit_set_price (tried, "price",
                                     cro_book_get_figures (tried)->offer_in_use[item_of (tried, "Hake")],
                                     CRO_TEST_DAY, 20 * 1000000, &error), error);
  cro_test_must (cro_edit_set_selling_price (tried, "price", plate_of (tried), CRO_TEST_DAY,
                                             25 * 1000000, &error), error);
  assert_cost (tried, 4);
  assert_true (fabs (figure_of (tried).net_price - 25 / 1.1) < 1e-9);
  list = cro_trial_list (self->trial, &error);
  assert_int_equal (list->len, 2);
  assert_true (cro_tried_is_dated (list));

  cro_test_must (cro_trial_keep (self->trial, "kept", CRO_TEST_DAY + 3, &error), error);
  assert_cost (self->book, 3.2);
  assert_true (fabs (figure_of (self->book).net_price - 22 / 1.1) < 1e-9);
  cro_test_must (cro_book_set_date (self->book, CRO_TEST_DAY + 3, &error), error);
  assert_cost (self->book, 4);
  assert_true (fabs (figure_of (self->book).net_price - 25 / 1.1) < 1e-9);
  cro_test_must (cro_book_undo (self->book, NULL, &error), error);
  undone = cro_test_dump (self->folder.path);
  assert_string_equal (undone, rows);
}

static void
test_an_item_in_anothers_place_and_a_line_more (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  CroReplacement turbot = { item_of (tried, "Hake"), item_of (tried, "Turbot"), NULL, 0, FALSE, FALSE,
                            FALSE };
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (CroTrial) again = NULL;
  GError *error = NULL;

  cro_test_must (cro_edit_replace (tried, "turbot for hake", &turbot, &error), error);
  add_line (tried, "Hake", 10);
  assert_cost (tried, 6 + 0.16);
  list = cro_trial_list (self->trial, &error);
  assert_int_equal (list->len, 2);
  assert_false (cro_tried_is_dated (list));

  /* Another person has added a line meanwhile, which takes the number that the new one had. */
  add_line (self->book, "Turbot", 20);
  assert_true (cro_trial_is_behind (self->trial));
  again = cro_trial_new (self->book, list, "again", &error);
  cro_test_must (again != NULL, error);
  assert_false (cro_trial_is_behind (again));
  assert_cost (cro_trial_get_book (again), 6 + 0.16 + 0.6);
  cro_test_must (cro_trial_keep (again, "kept", CRO_TEST_DAY, &error), error);
  assert_cost (self->book, 6 + 0.16 + 0.6);
  cro_test_must (cro_book_undo (self->book, NULL, &error), error);
  assert_cost (self->book, 3.2 + 0.6);
}

static void
test_what_makes_things_is_refused (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  g_autofree char *before = cro_test_figures (tried), *after = NULL;
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (GError) error = NULL;

  assert_false (cro_edit_add_ingredient (tried, "new", "Sole", CRO_BASE_GRAM, NULL, NULL, &error));
  assert_true (g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_TRIAL));
  after = cro_test_figures (tried);
  cro_test_same ("what is refused in a trial", before, after);
  list = cro_trial_list (self->trial, NULL);
  assert_int_equal (list->len, 0);
}

/* The trial's own undo ends where it began. */
static void
test_undo_goes_no_further_than_the_trial (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  CroCell cell = CRO_CELL_INT (300 * 1000000);
  g_autoptr (GPtrArray) list = NULL;
  GError *error = NULL;

  cro_test_must (cro_book_set (tried, "amount", "recipe_line", 1, "amount_micro", &cell, &error), error);
  assert_cost (tried, 4.8);
  cro_test_must (cro_book_undo (tried, NULL, &error), error);
  assert_cost (tried, 3.2);
  list = cro_trial_list (self->trial, NULL);
  assert_int_equal (list->len, 0);
  assert_false (cro_book_undo (tried, NULL, NULL));
}

/* --- A menu ----------------------------------------------------------------------------------- */

static void
assert_menu (CroBook *book,
             double   cost)
{
  double is = cro_figure_of_menu (cro_book_get_figures (book), menu_of (book).slot).cost;

  if (fabs (is - cost) > 1e-9)
    fail_msg ("a guest of the menu costs %.9f and not %.9f", is, cost);
}

/* Of the first plates of the menu. */
static gboolean
set_shares (CroBook       *book,
            const gint64  *pct,
            guint          n,
            GError       **error)
{
  guint32 entries[3] = { 0, 1, 2 };
  gint64 shares[3];

  for (guint i = 0; i < n; i++)
    shares[i] = pct[i] * 1000000;
  return cro_edit_set_shares (book, "shares", entries, shares, n, error);
}

/* 20 % of 3.20, 60 % of 6.00 and 20 % of 1.60 are 4.56; without the fritter the others share alike, as
 * their shares are no whole any more: 4.60; the raw turbot for all makes 1.50 more. Kept it is one act. */
static void
test_a_menu_is_tried (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  const gint64 shares[] = { 20, 60 };
  g_autofree char *rows = cro_test_dump (self->folder.path), *undone = NULL;
  g_autoptr (GPtrArray) list = NULL;
  guint acts = n_acts (self->book);
  GError *error = NULL;

  assert_menu (tried, 1.6 + 1.8 + 0.32);
  cro_test_must (set_shares (tried, shares, 2, &error), error);
  assert_menu (tried, 4.56);
  cro_test_must (cro_edit_remove_from_menu (tried, "without", 2, &error), error);
  assert_menu (tried, 4.6);
  cro_test_must (cro_edit_add_to_menu (tried, "with", menu_of (tried).slot, plate_named (tried, "Turbot raw"),
                                       1000000, NULL, &error), error);
  assert_menu (tried, 6.1);
  cro_test_must (cro_edit_set_selling_price (tried, "price", menu_of (tried), CRO_TEST_DAY, 33 * 1000000,
                                             &error), error);
  assert_menu (self->book, 3.72);
  list = cro_trial_list (self->trial, &error);
  cro_test_must (list != NULL, error);
  assert_true (cro_tried_is_dated (list));

  cro_test_must (cro_trial_keep (self->trial, "kept", CRO_TEST_DAY, &error), error);
  assert_menu (self->book, 6.1);
  assert_int_equal (n_acts (self->book), acts + 1);
  cro_test_must (cro_book_undo (self->book, NULL, &error), error);
  assert_menu (self->book, 3.72);
  undone = cro_test_dump (self->folder.path);
  assert_string_equal (undone, rows);
}

/* What is tried of one's shares stood with another's, which is another one by now. */
static void
test_shares_that_no_longer_add_up_wait (void **state)
{
  Fixture *self = *state;
  const gint64 tried[] = { 20, 60 }, meanwhile[] = { 55, 35, 10 };
  g_autoptr (GPtrArray) list = NULL;
  g_autoptr (CroTrial) again = NULL, back = NULL;
  g_autoptr (GError) refused = NULL;
  GError *error = NULL;

  cro_test_must (set_shares (cro_trial_get_book (self->trial), tried, 2, &error), error);
  list = cro_trial_list (self->trial, &error);
  assert_int_equal (list->len, 2);
  cro_test_must (set_shares (self->book, meanwhile, 3, &error), error);
  assert_false (cro_trial_keep (self->trial, "kept", CRO_TEST_DAY, &refused));
  assert_true (g_error_matches (refused, CRO_EDIT_ERROR, CRO_EDIT_ERROR_SHARES));
  again = cro_trial_new (self->book, list, "again", &error);
  assert_int_equal (cro_trial_get_left (again)->len, 2);
  assert_menu (cro_trial_get_book (again), 1.76 + 2.1 + 0.16);
  cro_test_must (cro_book_undo (self->book, NULL, &error), error);
  back = cro_trial_new (self->book, list, "again", &error);
  assert_int_equal (cro_trial_get_left (back)->len, 0);
  assert_menu (cro_trial_get_book (back), 4.56);
}

/* --- What is in the way ----------------------------------------------------------------------- */

/* What was removed meanwhile is told, and nothing of the trial is kept. */
static void
test_a_line_that_is_gone_keeps_nothing (void **state)
{
  Fixture *self = *state;
  CroCell cell = CRO_CELL_INT (300 * 1000000);
  g_autofree char *before = NULL, *after = NULL;
  g_autoptr (GError) refused = NULL;
  GError *error = NULL;

  cro_test_must (cro_book_set (cro_trial_get_book (self->trial), "amount", "recipe_line", 1,
                               "amount_micro", &cell, &error), error);
  cro_test_must (cro_edit_remove (self->book, "gone", CRO_REF (CRO_REF_LINE, 0), &error), error);
  before = cro_test_dump (self->folder.path);
  assert_false (cro_trial_keep (self->trial, "kept", CRO_TEST_DAY, &refused));
  assert_true (g_error_matches (refused, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED));
  after = cro_test_dump (self->folder.path);
  assert_string_equal (after, before);
}

/* Another person takes away the line that was tried, and gives it back. */
static void
test_what_cannot_be_tried_waits (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  CroCell cell = CRO_CELL_INT (300 * 1000000);
  g_autoptr (GPtrArray) list = NULL, none = NULL, all = NULL, read = NULL;
  g_autoptr (CroTrial) without = NULL, again = NULL;
  g_autofree char *text = NULL, *words = NULL;
  GError *error = NULL;

  cro_test_must (cro_book_set (tried, "amount", "recipe_line", 1, "amount_micro", &cell, &error), error);
  add_line (tried, "Turbot", 10);
  list = cro_trial_list (self->trial, &error);
  assert_int_equal (list->len, 2);
  cro_test_must (cro_edit_remove (self->book, "gone", CRO_REF (CRO_REF_LINE, 0), &error), error);

  without = cro_trial_new (self->book, list, "again", &error);
  none = cro_trial_list (without, &error);
  assert_int_equal (none->len, 1);
  assert_int_equal (cro_trial_get_left (without)->len, 1);
  words = cro_tried_left_words (self->book, cro_trial_get_left (without)->pdata[0]);
  assert_non_null (strstr (words, "Hake"));
  all = cro_trial_list_all (without, &error);
  text = cro_tried_to_text (all);

  cro_test_must (cro_book_undo (self->book, NULL, &error), error);
  read = cro_tried_from_text (text);
  again = cro_trial_new (self->book, read, "again", &error);
  assert_int_equal (cro_trial_get_left (again)->len, 0);
  assert_cost (cro_trial_get_book (again), 4.8 + 0.3);
}

/* A price that is tried goes as a whole: all that a row of it says, besides whose it is and since when. A
 * rate has dates too, but is of no row. */
static void
test_all_of_a_dated_price_is_tried (void **state)
{
  Fixture *self = *state;
  sqlite3 *db = cro_test_raw (self->folder.path);
  sqlite3_stmt *stmt;
  guint n = 0;

  assert_int_equal (sqlite3_prepare_v2 (
      db,
      "SELECT t.name, c.name FROM sqlite_schema AS t, pragma_table_info (t.name) AS c"
      " WHERE t.type = 'table' AND t.name <> 'rate'"
      " AND 'from_date' IN (SELECT name FROM pragma_table_info (t.name))"
      " AND c.name NOT IN ('id', 'from_date', 'offer', 'thing')",
      -1, &stmt, NULL), SQLITE_OK);
  for (; sqlite3_step (stmt) == SQLITE_ROW; n++)
    {
      const char *table = (const char *) sqlite3_column_text (stmt, 0);
      const char *column = (const char *) sqlite3_column_text (stmt, 1);
      const CroTriedDated *dated = cro_tried_dated (table);

      if (dated == NULL || !g_strv_contains (dated->columns, column))
        fail_msg ("a trial loses %s of %s", column, table);
    }
  assert_true (n >= 7);
  sqlite3_finalize (stmt);
  sqlite3_close (db);
}

static void
test_no_text_but_its_own_is_read (void **state)
{
  assert_null (cro_tried_from_text (""));
  assert_null (cro_tried_from_text ("[(0, 'recipe_line')]"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_random_books),
    cmocka_unit_test_setup_teardown (test_a_price_holds_from_the_day_it_is_kept_from, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_an_item_in_anothers_place_and_a_line_more, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_what_makes_things_is_refused, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_undo_goes_no_further_than_the_trial, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_a_menu_is_tried, set_up_menu, tear_down),
    cmocka_unit_test_setup_teardown (test_shares_that_no_longer_add_up_wait, set_up_menu, tear_down),
    cmocka_unit_test_setup_teardown (test_a_line_that_is_gone_keeps_nothing, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_what_cannot_be_tried_waits, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_all_of_a_dated_price_is_tried, set_up, tear_down),
    cmocka_unit_test (test_no_text_but_its_own_is_read),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
