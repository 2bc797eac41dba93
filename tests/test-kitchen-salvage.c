/* What can be saved of a damaged book, and its newest whole copy. */
#include <stdio.h>

#include "cro-copy.h"
#include "cro-dump.h"
#include "cro-left-out-words.h"
#include "cro-number.h"
#include "cro-salvage.h"
#include "support/kitchen-book.h"
#include "support/kitchen-tables.h"

typedef struct
{
  CroTestFolder folder;
  char *saved;
} Place;

static int
set_up (void **state)
{
  Place *place = g_new0 (Place, 1);

  place->folder = cro_test_folder_new ();
  cro_test_write_tables (place->folder.folder, NULL, NULL);
  g_object_unref (cro_test_book_load (&place->folder));
  place->saved = g_build_filename (place->folder.folder, "saved", NULL);
  *state = place;
  return 0;
}

static int
tear_down (void **state)
{
  Place *place = *state;

  cro_test_folder_clear (&place->folder);
  g_free (place->saved);
  g_free (place);
  return 0;
}

static void
write_raw (const char *path,
           const char *sql)
{
  sqlite3 *db = cro_test_raw (path);

  cro_test_sql (db, "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON");
  cro_test_begin_raw_act (db);
  cro_test_sql (db, sql);
  cro_test_end_raw_act (db);
  sqlite3_close (db);
}

static CroSalvage *
salvage (Place *place)
{
  GError *error = NULL;
  CroSalvage *salvage = cro_salvage (place->folder.path, place->saved, NULL, NULL, &error);

  if (salvage == NULL)
    fail_msg ("%s", error->message);
  return salvage;
}

static char *
table_of (const char *folder,
          const char *name)
{
  g_autofree char *file = g_strconcat (name, ".csv", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  char *text;

  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  return text;
}

/* The tables of what was saved make a book. */
static void
assert_loads (Place *place)
{
  g_autofree char *path = g_build_filename (place->folder.folder, "again.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;

  if (!cro_load (path, place->saved, "cook", "again", FALSE, NULL, NULL, faults, &error))
    fail_msg ("%s", error->message);
}

/* --- Whole -------------------------------------------------------------------------------------- */

static void
test_of_a_sound_book_all_is_saved (void **state)
{
  Place *place = *state;
  g_autofree char *dumped = g_build_filename (place->folder.folder, "dumped", NULL);
  CroStore *store = cro_test_open (place->folder.path, "cook");
  g_autoptr (CroSalvage) saved = salvage (place);

  assert_true (cro_dump (store, dumped, NULL, NULL, NULL));
  cro_store_close (store);
  assert_int_equal (saved->left_out->len, 0);
  for (CroTableId id = 0; id < CRO_N_TABLES; id++)
    {
      g_autofree char *a = table_of (dumped, cro_table_get (id)->name);
      g_autofree char *b = table_of (place->saved, cro_table_get (id)->name);

      assert_string_equal (a, b);
    }
}

/* --- Rows --------------------------------------------------------------------------------------- */

#define ID(name) "(SELECT id FROM item WHERE name = '" name "')"

static const struct
{
  const char *says;
  const char *sql;
  const char *told;      /* one of the sentences has all of it */
} cases[] = {
  { "a value that can be missed", "UPDATE ingredient SET trim_yield_pct_micro = 0 WHERE id = " ID ("Crab"),
    "ingredients: Crab: trim_yield_pct: this value cannot be read and was left empty" },
  { "a value that cannot", "UPDATE recipe_line SET unit = 'jar' WHERE id = 1",
    "unit: this value cannot be read, so the row was left out" },
  { "a price, as none would say that it is not to be had",
    "UPDATE price SET price_micro = -1 WHERE id = 1",
    "price: this value cannot be read, so the row was left out" },
  { "a name", "UPDATE item SET name = CAST (X'41FF' AS TEXT) WHERE id = " ID ("Crab"),
    "ingredients: row number 1: name: this value cannot be read, so the row was left out" },
  { "what names it", "UPDATE item SET name = CAST (X'41FF' AS TEXT) WHERE id = " ID ("Crab"),
    "item: this names something that is not there or was left out" },
  { "a reference that leads nowhere", "UPDATE recipe_line SET item = 77 WHERE id = 1",
    "item: this names something that is not there" },
  { "a price of what leads nowhere", "UPDATE offer SET supplier = 77 WHERE id = 1",
    "ingredient: this names something that is not there" },
  { "a day that is none", "UPDATE price SET from_date = '2026-01-99' WHERE id = 1",
    "from: this value cannot be read, so the row was left out" },
  { "a name that two have", "DROP INDEX item_by_name; UPDATE item SET name = 'Crab'",
    "Crab: another row has the same key, so this one was left out" },
  { "a setting of the book", "UPDATE book SET currency = 'euro'",
    "book: -: currency: this value cannot be read and was left empty" },
  { "a note, which no row hangs on", "UPDATE plate SET note = CAST (X'41FF' AS TEXT)",
    "plates: Croustade: note: this value cannot be read and was left empty" },
  { "an answer about a price that is none", "UPDATE price_answer SET price_micro = -1",
    "price: this value cannot be read, so the row was left out" },
  { "a table", "DROP TABLE service", "services: this table is not in the file" },
};

static gboolean
is_told (CroSalvage *salvage,
         const char *sentence)
{
  for (guint i = 0; i < salvage->left_out->len; i++)
    {
      g_autofree char *line = cro_words_left_out (salvage->left_out->pdata[i]);

      if (strstr (line, sentence) != NULL)
        return TRUE;
    }
  return FALSE;
}

static void
test_what_is_left_out_is_told (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Place *place;
      g_autoptr (CroSalvage) saved = NULL;
      g_autofree char *list = NULL;

      set_up ((void **) &place);
      write_raw (place->folder.path, cases[i].sql);
      saved = salvage (place);
      if (!is_told (saved, cases[i].told))
        fail_msg ("%s: not told: %s", cases[i].says, cases[i].told);
      assert_true (cro_left_out_write (saved, place->saved, NULL));
      list = g_build_filename (place->saved, "left-out.txt", NULL);
      assert_true (g_file_test (list, G_FILE_TEST_EXISTS));
      tear_down ((void **) &place);
    }
}

static void
test_what_is_saved_loads (void **state)
{
  Place *place = *state;
  g_autoptr (CroSalvage) saved = NULL;

  write_raw (place->folder.path,
             "UPDATE ingredient SET trim_yield_pct_micro = 0; UPDATE offer SET supplier = 77 WHERE id = 1;"
             "UPDATE recipe_line SET item = 77 WHERE id = 1; UPDATE price SET from_date = 'x' WHERE id = 2");
  saved = salvage (place);
  assert_true (cro_left_out_write (saved, place->saved, NULL));
  assert_loads (place);
}

/* --- Pages -------------------------------------------------------------------------------------- */

#define PAGE 4096
#define N_MANY 3000

/* Sales enough for many pages; each has its number as what was sold. */
static void
add_many (const char *path)
{
  g_autofree char *sql = g_strdup_printf (
      "DELETE FROM sale; WITH RECURSIVE n (x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n WHERE x < %d)"
      " INSERT INTO sale (id, date, thing, sold_micro, net_revenue_micro)"
      " SELECT x, '2026-01-01', (SELECT min (id) FROM plate), x * 1000000, 0 FROM n",
      N_MANY);

  write_raw (path, sql);
}

static gint64
page_of_row (const char *path,
             gint64      id)
{
  sqlite3 *db = cro_test_raw (path);
  g_autofree char *sql = g_strdup_printf (
      "SELECT pageno FROM dbstat WHERE name = 'sale' AND pagetype = 'leaf' ORDER BY path"
      " LIMIT 1 OFFSET %d", (int) id);
  sqlite3_stmt *stmt;
  gint64 page;

  assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  page = sqlite3_column_int64 (stmt, 0);
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  return page;
}

static void
clear_page (const char *path,
            gint64      page)
{
  static const char nothing[PAGE];
  FILE *file = fopen (path, "r+b");

  assert_non_null (file);
  assert_int_equal (fseek (file, (page - 1) * PAGE, SEEK_SET), 0);
  assert_int_equal (fwrite (nothing, 1, PAGE, file), PAGE);
  fclose (file);
}

/* The sentence counts rows, not the stretches in which they are told. */
static void
assert_left_out (CroSalvage *saved,
                 guint       n,
                 gboolean    is_most)
{
  g_autofree char *sentence = cro_words_salvaged (saved);
  g_autofree char *number = cro_number_to_text (n, 0, TRUE);
  g_autofree char *told = g_strdup_printf ("Rows left out: %s%s; values left empty: 0.",
                                           is_most ? "up to " : "", number);

  if (strstr (sentence, told) == NULL)
    fail_msg ("%s: not told: %s", sentence, told);
}

static void
test_rows_beside_a_lost_page_are_saved (void **state)
{
  Place *place = *state;
  g_autoptr (CroSalvage) saved = NULL;
  const CroLeftOut *gap;
  g_autofree char *before = NULL, *after = NULL;
  gsize length, length_after;

  add_many (place->folder.path);
  clear_page (place->folder.path, page_of_row (place->folder.path, 5));
  assert_true (g_file_get_contents (place->folder.path, &before, &length, NULL));
  saved = salvage (place);

  assert_int_equal (saved->left_out->len, 1);
  gap = saved->left_out->pdata[0];
  assert_int_equal (gap->kind, CRO_LEFT_OUT_GAP);
  assert_int_equal (gap->table, CRO_TABLE_SALES);
  assert_int_equal (saved->n_rows[CRO_TABLE_SALES] + (guint) (gap->last - gap->row + 1), N_MANY);
  assert_true (gap->row > 1 && gap->last < N_MANY);
  assert_left_out (saved, (guint) (gap->last - gap->row + 1), TRUE);
  assert_loads (place);

  /* The damaged book itself is as it was, and nothing is left beside it. */
  assert_true (g_file_get_contents (place->folder.path, &after, &length_after, NULL));
  assert_int_equal (length, length_after);
  assert_memory_equal (before, after, length);
}

/* What is left of a recipe need not be one: then the tables say what is to be done about it. */
static void
test_tables_that_do_not_load_say_what_to_do (void **state)
{
  Place *place = *state;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroSalvage) saved = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_build_filename (place->folder.folder, "again.croustade", NULL);
  g_autofree char *what_to_do = NULL, *said = NULL;

  saved = salvage (place);
  assert_null (cro_words_unloadable (saved));
  g_clear_pointer (&saved, cro_salvage_free);
  g_free (place->saved);
  place->saved = g_build_filename (place->folder.folder, "more", NULL);
  write_raw (place->folder.path, "DELETE FROM output");
  saved = salvage (place);
  what_to_do = cro_words_unloadable (saved);
  assert_non_null (what_to_do);
  assert_false (cro_load (path, place->saved, "cook", "again", FALSE, NULL, NULL, faults, &error));
  assert_int_equal (cro_faults_get_n (faults), cro_faults_get_n (saved->faults));
  said = g_strdup_printf ("%u error", cro_faults_get_n (faults));
  assert_true (g_str_has_prefix (what_to_do, said));
}

static gint64
root_of (const char *path,
         const char *table)
{
  sqlite3 *db = cro_test_raw (path);
  g_autofree char *sql = g_strdup_printf ("SELECT rootpage FROM sqlite_schema WHERE name = '%s'", table);
  sqlite3_stmt *stmt;
  gint64 page;

  assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  page = sqlite3_column_int64 (stmt, 0);
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  return page;
}

/* The counter of its ids says how many rows a table had at most; one without a counter nobody knows of,
 * and it is not said to be missing. */
static void
test_of_a_table_that_is_lost_as_much_is_told_as_is_known (void **state)
{
  Place *place = *state;
  g_autoptr (CroSalvage) saved = NULL;
  g_autofree char *sentence = NULL;

  add_many (place->folder.path);
  clear_page (place->folder.path, root_of (place->folder.path, "sale"));
  saved = salvage (place);
  assert_true (is_told (saved, "sales: rows number 1 to 3000 cannot be read"));
  assert_left_out (saved, N_MANY, TRUE);

  clear_page (place->folder.path, root_of (place->folder.path, "ingredient"));
  cro_salvage_free (saved);
  g_free (place->saved);
  place->saved = g_build_filename (place->folder.folder, "more", NULL);
  saved = salvage (place);
  assert_true (is_told (saved, "ingredients: no row can be read"));
  sentence = cro_words_salvaged (saved);
  assert_non_null (strstr (sentence, "Rows left out: not known how many"));
}

static void
test_what_is_before_a_missing_end_is_saved (void **state)
{
  Place *place = *state;
  g_autoptr (CroSalvage) saved = NULL;
  g_autofree char *bytes = NULL;
  gsize length;

  add_many (place->folder.path);
  assert_true (g_file_get_contents (place->folder.path, &bytes, &length, NULL));
  assert_true (g_file_set_contents (place->folder.path, bytes, (gssize) (length / PAGE / 2 * PAGE),
                                    NULL));
  saved = salvage (place);
  assert_true (saved->left_out->len > 0);
  assert_true (saved->n_rows[CRO_TABLE_INGREDIENTS] > 0);
}

static void
test_of_nothing_that_can_be_read_no_folder_is_made (void **state)
{
  Place *place = *state;
  GError *error = NULL;
  static const char junk[PAGE] = "SQLite format 3";

  assert_true (g_file_set_contents (place->folder.path, junk, sizeof junk, NULL));
  assert_null (cro_salvage (place->folder.path, place->saved, NULL, NULL, &error));
  assert_true (error->domain == CRO_STORE_ERROR);
  assert_false (g_file_test (place->saved, G_FILE_TEST_EXISTS));
  g_error_free (error);
}

/* --- Where to ----------------------------------------------------------------------------------- */

/* Hidden files are nobody's tables. */
static void
test_a_folder_that_holds_something_stays_as_it_is (void **state)
{
  Place *place = *state;
  g_autofree char *lines = g_build_filename (place->saved, "lines.csv", NULL);
  g_autofree char *hidden = g_build_filename (place->saved, ".hidden", NULL);
  g_autofree char *text = NULL;
  g_autoptr (CroSalvage) saved = NULL;
  GError *error = NULL;

  assert_int_equal (g_mkdir (place->saved, 0777), 0);
  assert_true (g_file_set_contents (hidden, "", 0, NULL));
  assert_true (g_file_set_contents (lines, "kept", -1, NULL));
  assert_null (cro_salvage (place->folder.path, place->saved, NULL, NULL, &error));
  assert_true (g_error_matches (error, CRO_LOAD_ERROR, CRO_LOAD_ERROR_HOLDS));
  g_error_free (error);
  text = table_of (place->saved, "lines");
  assert_string_equal (text, "kept");

  assert_int_equal (g_unlink (lines), 0);
  saved = salvage (place);
  assert_true (g_file_test (lines, G_FILE_TEST_EXISTS));
}

/* --- Copies ------------------------------------------------------------------------------------- */

static char *
copy_as (Place      *place,
         const char *name)
{
  char *path = g_build_filename (place->folder.folder, name, NULL);
  CroStore *store = cro_test_open (place->folder.path, "cook");
  GError *error = NULL;

  if (!cro_store_backup (store, path, &error))
    fail_msg ("%s", error->message);
  cro_store_close (store);
  return path;
}

static void
test_the_newest_whole_copy_is_found (void **state)
{
  Place *place = *state;
  g_autofree char *old = copy_as (place, "of last week.croustade");
  g_autofree char *newer = NULL, *newest = NULL, *strange = NULL;
  CroCopy *copy;

  write_raw (place->folder.path, "UPDATE book SET name = 'B'; UPDATE act SET at ="
                                 " '2099-01-01T00:00:00Z' WHERE at IS NULL");
  newer = copy_as (place, "of today.croustade");
  newest = copy_as (place, "of now.croustade");
  write_raw (newest, "UPDATE recipe_line SET item = 77");
  strange = g_build_filename (place->folder.folder, "another.croustade", NULL);
  g_object_unref (cro_test_book_create (strange));
  clear_page (place->folder.path, 9);

  copy = cro_copy_find_newest (place->folder.path);
  assert_non_null (copy);
  assert_string_equal (copy->path, newer);
  assert_non_null (copy->day);
  cro_copy_free (copy);

  g_unlink (newer);
  copy = cro_copy_find_newest (place->folder.path);
  assert_non_null (copy);
  assert_string_equal (copy->path, old);
  cro_copy_free (copy);

  g_unlink (old);
  assert_null (cro_copy_find_newest (place->folder.path));
}

int
main (void)
{
#define WITH_PLACE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    WITH_PLACE (test_of_a_sound_book_all_is_saved),
    cmocka_unit_test (test_what_is_left_out_is_told),
    WITH_PLACE (test_tables_that_do_not_load_say_what_to_do),
    WITH_PLACE (test_what_is_saved_loads),
    WITH_PLACE (test_rows_beside_a_lost_page_are_saved),
    WITH_PLACE (test_of_a_table_that_is_lost_as_much_is_told_as_is_known),
    WITH_PLACE (test_what_is_before_a_missing_end_is_saved),
    WITH_PLACE (test_of_nothing_that_can_be_read_no_folder_is_made),
    WITH_PLACE (test_a_folder_that_holds_something_stays_as_it_is),
    WITH_PLACE (test_the_newest_whole_copy_is_found),
  };

  return cmocka_run_group_tests_name ("what can be saved", tests, NULL, NULL);
}
