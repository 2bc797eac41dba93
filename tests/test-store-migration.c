/* Books of an older version, brought up to date by steps that exist only here. */
#include "cro-fill.h"
#include "cro-history.h"
#include "cro-store-private.h"
#include "support/store-book.h"

#include <unistd.h>

/* A column of another name, one more table, one more column, and an index that becomes another. */
static const CroMigrationRename renames[] = {
  { "plate", "price_micro", "menu_price_micro" },
  { "supplier", "contact", "reached_at" },
};

static const struct { const char *from, *to; } later_words[] = {
  { "makes_micro > 0),\n  per_guest_micro INTEGER CHECK (per_guest_micro > 0),\n  price_micro INTEGER"
    " CHECK (price_micro",
    "makes_micro > 0),\n  per_guest_micro INTEGER CHECK (per_guest_micro > 0),\n"
    "  menu_price_micro INTEGER CHECK (menu_price_micro" },
  { "contact TEXT CHECK (contact", "reached_at TEXT CHECK (reached_at" },
  { "CREATE TABLE thing (\n  id INTEGER PRIMARY KEY AUTOINCREMENT,",
    "CREATE TABLE shelf (id INTEGER PRIMARY KEY AUTOINCREMENT, name TEXT NOT NULL) STRICT;\n"
    "CREATE TABLE thing (\n  id INTEGER PRIMARY KEY AUTOINCREMENT,\n  shelf INTEGER," },
  { "INDEX sale_by_thing ON sale (thing)", "INDEX sale_by_thing ON sale (thing, date)" },
};

static const char failing_sql[] = "DELETE FROM sale; DELETE FROM thing WHERE id = 1;";

enum { SOUND, FAILS_IN_SQL, LOSES_A_REFERENCE };

/* What there is of version 1 stands beside the tests as it was. */
static char *
schema_1 (void)
{
  char *path = g_build_filename (g_getenv ("CROUSTADE_SOURCE"), "tests", "support", "schema-1.sql",
                                 NULL);
  char *text;

  assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_free (path);
  return text;
}

/* The schema of a later program: this one's in some other words. */
static char *
later_schema (void)
{
  GString *text = g_string_new (cro_migration_get ()->schema);

  for (gsize i = 0; i < G_N_ELEMENTS (later_words); i++)
    assert_int_equal (g_string_replace (text, later_words[i].from, later_words[i].to, 0), 1);
  return g_string_free (text, FALSE);
}

static CroStore *
open_later (const char   *path,
            CroStoreMode  mode,
            int           kind,
            GError      **error)
{
  int              version = cro_migration_get ()->version;
  CroMigrationStep steps[9];
  char            *schema = later_schema ();
  CroMigration     later = { schema, steps, version + 2, NULL };
  CroStore        *store;

  for (int i = 0; i < version; i++)
    steps[i] = cro_migration_get ()->steps[i];
  steps[version] = (CroMigrationStep){ NULL, renames, G_N_ELEMENTS (renames) };
  steps[version + 1] = (CroMigrationStep){ kind == FAILS_IN_SQL ? "DROP TABLE nothing"
                                           : kind == LOSES_A_REFERENCE ? failing_sql : NULL,
                                           NULL, 0 };
  store = cro_store_open_with (path, "cook", mode, &later, error);
  g_free (schema);
  return store;
}

static int
set_up (void **state)
{
  CroTestFolder *folder = g_new (CroTestFolder, 1);
  CroStore      *store;
  CroCell        price = CRO_CELL_INT (9900000);
  CroCell        contact = CRO_CELL_NONE;

  *folder = cro_test_folder_new ();
  store = cro_test_create (folder->path);
  cro_test_add_rows (folder->path);
  assert_true (cro_store_begin_act (store, "new price", NULL));
  assert_true (cro_store_update (store, "plate", 1, (const char *const[]){ "price_micro", NULL },
                                 &price, NULL));
  assert_true (cro_store_update (store, "supplier", 1, (const char *const[]){ "contact", NULL },
                                 &contact, NULL));
  assert_true (cro_store_end_act (store, NULL, NULL));
  cro_store_close (store);
  *state = folder;
  return 0;
}

static int
tear_down (void **state)
{
  cro_test_folder_clear (*state);
  g_free (*state);
  return 0;
}

static gint64
number (const char *path,
        const char *sql)
{
  sqlite3 *db = cro_test_raw (path);
  gint64   result = -1;
  GError  *error = NULL;

  cro_test_must (cro_sql_number (db, sql, &result, &error), error);
  sqlite3_close (db);
  return result;
}

static char *
backup_path (CroTestFolder *folder)
{
  char *name = g_strdup_printf ("book-before-v%d.croustade", cro_migration_get ()->version + 2);
  char *path = g_build_filename (folder->folder, name, NULL);

  g_free (name);
  return path;
}

static void
test_the_past_bears_the_new_names (void **state)
{
  CroTestFolder *folder = *state;
  GError        *error = NULL;
  CroStore      *store = open_later (folder->path, CRO_STORE_WRITE, SOUND, &error);
  GPtrArray     *changes;

  cro_test_must (store != NULL, error);
  changes = cro_store_list_changes_of_row (store, "plate", 1, &error);
  assert_int_equal (changes->len, 2);
  assert_string_equal (((CroChange *) changes->pdata[0])->before, "{\"menu_price_micro\":9000000}");
  assert_null (strstr (((CroChange *) changes->pdata[1])->after, "\"price_micro\""));
  g_ptr_array_unref (changes);
  /* What was set to nothing must not be taken for what did not move. */
  changes = cro_store_list_changes_of_row (store, "supplier", 1, &error);
  assert_string_equal (((CroChange *) changes->pdata[0])->after, "{\"reached_at\":null}");
  g_ptr_array_unref (changes);

  cro_test_must (cro_store_undo (store, NULL, NULL, &error), error);
  assert_int_equal (number (folder->path, "SELECT menu_price_micro FROM plate"), 9000000);
  assert_int_equal (number (folder->path, "SELECT reached_at = 'at the quay' FROM supplier"), 1);
  cro_test_must (cro_store_redo (store, NULL, NULL, &error), error);
  assert_int_equal (number (folder->path, "SELECT menu_price_micro FROM plate"), 9900000);
  assert_int_equal (number (folder->path, "SELECT reached_at IS NULL FROM supplier"), 1);
  cro_store_close (store);
}

static void
test_the_newest_version_is_as_sound_as_the_first (void **state)
{
  CroTestFolder *folder = *state;
  GError        *error = NULL;
  CroStore      *store = open_later (folder->path, CRO_STORE_WRITE, SOUND, &error);

  cro_test_must (store != NULL, error);
  cro_store_close (store);
  assert_int_equal (number (folder->path, "PRAGMA user_version"), cro_migration_get ()->version + 2);
  assert_int_equal (number (folder->path, "SELECT count(*) FROM thing"), 2);
  assert_int_equal (number (folder->path, "SELECT count(*) FROM pragma_foreign_key_check"), 0);
  assert_int_equal (number (folder->path, "SELECT count(*) FROM pragma_integrity_check"
                                          " WHERE integrity_check <> 'ok'"), 0);
  /* The new table is journalled, and those made anew are so again. */
  assert_int_equal (number (folder->path, "SELECT count(*) FROM sqlite_schema"
                                          " WHERE type = 'trigger'"
                                          " AND name LIKE 'journal%'"
                                          " AND tbl_name IN ('shelf', 'thing', 'plate')"), 9);
  /* Another opening has nothing to do. */
  store = open_later (folder->path, CRO_STORE_READ, SOUND, &error);
  cro_test_must (store != NULL, error);
  cro_store_close (store);
}

static void
test_the_older_book_is_kept (void **state)
{
  CroTestFolder *folder = *state;
  char          *before = cro_test_dump (folder->path);
  char          *taken = backup_path (folder);
  char          *there = g_strndup (taken, strlen (taken) - strlen (".croustade"));
  char          *backup = g_strconcat (there, "-2.croustade", NULL);
  char          *kept;
  GError        *error = NULL;
  CroStore      *store;

  /* What has that name already stays: a link of somebody, an older copy. */
  assert_int_equal (symlink ("elsewhere", taken), 0);
  store = open_later (folder->path, CRO_STORE_WRITE, SOUND, &error);
  cro_test_must (store != NULL, error);
  cro_store_close (store);
  assert_false (g_file_test (taken, G_FILE_TEST_EXISTS));
  kept = cro_test_dump (backup);
  assert_string_equal (kept, before);
  assert_int_equal (number (backup, "PRAGMA user_version"), cro_migration_get ()->version);
  cro_store_close (cro_test_open (backup, "cook"));
  g_free (kept);
  g_free (backup);
  g_free (there);
  g_free (taken);
  g_free (before);
}

static void
test_a_failing_step_changes_nothing (void **state)
{
  static const int kinds[] = { FAILS_IN_SQL, LOSES_A_REFERENCE };
  CroTestFolder   *folder = *state;
  char            *backup = backup_path (folder);
  char            *before = cro_test_dump (folder->path);

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      GError *error = NULL;
      char   *after;

      assert_null (open_later (folder->path, CRO_STORE_WRITE, kinds[i], &error));
      assert_non_null (error);
      g_clear_error (&error);
      after = cro_test_dump (folder->path);
      assert_string_equal (after, before);
      assert_int_equal (number (folder->path, "PRAGMA user_version"), cro_migration_get ()->version);
      assert_false (g_file_test (backup, G_FILE_TEST_EXISTS));
      g_free (after);
      cro_store_close (cro_test_open (folder->path, "cook"));
    }
  g_free (backup);
  g_free (before);
}

static void
test_reading_does_not_migrate (void **state)
{
  CroTestFolder *folder = *state;
  char          *backup = backup_path (folder);
  GError        *error = NULL;

  assert_null (open_later (folder->path, CRO_STORE_READ, SOUND, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_OLDER));
  g_clear_error (&error);
  assert_int_equal (number (folder->path, "PRAGMA user_version"), cro_migration_get ()->version);
  assert_false (g_file_test (backup, G_FILE_TEST_EXISTS));
  g_free (backup);
}

static void
test_an_older_program_refuses_what_a_newer_made (void **state)
{
  CroTestFolder *folder = *state;
  GError        *error = NULL;
  CroStore      *store = open_later (folder->path, CRO_STORE_WRITE, SOUND, &error);

  cro_test_must (store != NULL, error);
  assert_null (cro_store_open (folder->path, "cook", CRO_STORE_WRITE, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NEWER));
  g_clear_error (&error);
  cro_store_close (store);
}

/* --- Version 1 ------------------------------------------------------------------------- */

#define ROWS_1                                                                                    \
  "INSERT INTO book VALUES (1, 'Saltmarsh Rooms', 'EUR', 18000000, 10000000, 28000000, 90000000);"\
  "INSERT INTO item VALUES (1, 'samphire'), (2, 'samphire purée'), (3, 'kelp');"                  \
  "INSERT INTO ingredient VALUES (1, 'greens', 'food', 'g', 600000, 2000000, 85000000, 0, 'n');"  \
  "INSERT INTO supplier VALUES (1, 'Estuary Greens', 'at the quay', 'pack', 'n');"                \
  "INSERT INTO offer VALUES (1, 1, 1, 'S1', 6000000, 1000000, 'kg', 98000000, 'GBP', 1,"          \
  " '2027-01-31', '6291041500213', 1000000);"                                                     \
  "INSERT INTO price VALUES (1, 1, '2026-01-05', 9500000, 20000000, 5000000, 1000000, 'kg');"     \
  "INSERT INTO rate VALUES (1, 'GBP', '2026-01-01', 1150000, 1000000);"                           \
  "INSERT INTO preparation VALUES (1, 'samphire purée', 'weight', 12000000, 500000, 'n');"        \
  "INSERT INTO output VALUES (2, 1, 'main', 800000000, 'g', NULL, 4000000, 1050000, 30000000);"   \
  "INSERT INTO thing VALUES (1, 'marsh tartlet'), (2, 'tide menu');"                              \
  "INSERT INTO plate VALUES (1, 'snacks', 24000000, 2000000, 9000000, 10000000, 25000000,"        \
  " 3000000, 20000000, 'n');"                                                                     \
  "INSERT INTO menu VALUES (2, 90000000, 10000000, 27000000, 'n');"                               \
  "INSERT INTO menu_plate VALUES (1, 2, 1, 1000000, 1000000);"                                    \
  "INSERT INTO recipe_line VALUES (1, 1, NULL, 1000000, 1, 1000000000, 'g', 'trimmed', 85000000," \
  " 5000000, 'n'), (2, NULL, 1, 1000000, 2, 120000000, 'g', 'whole', NULL, NULL, NULL);"          \
  "INSERT INTO sale VALUES (1, '2026-02-03', 1, 12000000, 98000000), (2, '2026-02-04', 2, 0, NULL);" \
  "INSERT INTO purchase VALUES (1, '2026-02-04', 1, 'D-1', 1, 'greens', 'food', -1000000, 'kg',"  \
  " -9500000);"                                                                                   \
  "INSERT INTO month VALUES (1, '2025-12', 1000000, 2000000, '2026-01-01T08:00:00Z', 'r', 'h');"  \
  "INSERT INTO month_row VALUES (1, 1, 'plate', 'marsh tartlet', 'food', 'samphire', 12000000,"   \
  " 98000000, 9000000, 'g', 10000000, 9500);"

/* An act as version 1 wrote it: this program's own acts keep a day, which that had no room for. */
static void
act_1 (sqlite3    *db,
       const char *label,
       const char *sql)
{
  char *begin = g_strdup_printf ("BEGIN IMMEDIATE; INSERT INTO act (label, desk, verb, first_change)"
                                 " SELECT '%s', 'cook', 'do', ifnull (max (id), 0) + 1 FROM change",
                                 label);

  cro_test_sql (db, begin);
  cro_test_sql (db, sql);
  cro_test_end_raw_act (db);
  g_free (begin);
}

/* An empty book as version 1 made it. */
static sqlite3 *
empty_book_1 (const char *path)
{
  static const CroMigrationStep none[1];
  char        *schema = schema_1 ();
  CroMigration first = { schema, none, 1, NULL };
  sqlite3     *db = cro_test_raw (path);
  GError      *error = NULL;

  cro_test_must (cro_migration_run (db, &first, &error), error);
  cro_test_sql (db, "PRAGMA journal_mode = WAL");
  g_free (schema);
  return db;
}

/* With a past: what was set, what was removed, and an id given away. */
static void
make_book_1 (const char *path)
{
  sqlite3 *db = empty_book_1 (path);

  cro_test_begin_raw_act (db);
  cro_test_sql (db, ROWS_1);
  cro_test_end_raw_act (db);
  act_1 (db, "kelp goes", "DELETE FROM item WHERE id = 3");
  act_1 (db, "dearer", "UPDATE price SET price_micro = 9900000 WHERE id = 1");
  act_1 (db, "off the menu", "DELETE FROM menu_plate WHERE id = 1; DELETE FROM sale WHERE id = 1;"
                             "DELETE FROM purchase WHERE id = 1");
  sqlite3_close (db);
}

/* Everything that a schema says, in its words. */
static char *
schema_texts (const char *path)
{
  sqlite3 *db = cro_test_raw (path);
  GError  *error = NULL;
  char   **texts = cro_sql_texts (db, "SELECT type || ' ' || name || ' ' || tbl_name || char (10)"
                                      " || sql FROM sqlite_schema WHERE sql IS NOT NULL"
                                      " ORDER BY type, name", NULL, &error);
  char    *all;

  cro_test_must (texts != NULL, error);
  all = g_strjoinv ("\n", texts);
  g_strfreev (texts);
  sqlite3_close (db);
  return all;
}

static int
set_up_1 (void **state)
{
  CroTestFolder *folder = g_new (CroTestFolder, 1);

  *folder = cro_test_folder_new ();
  make_book_1 (folder->path);
  *state = folder;
  return 0;
}

static void
test_a_first_book_becomes_as_one_of_today (void **state)
{
  CroTestFolder *folder = *state;
  char          *path = g_build_filename (folder->folder, "fresh.croustade", NULL);
  char          *migrated;
  char          *fresh;

  cro_store_close (cro_test_open (folder->path, "cook"));
  cro_store_close (cro_test_create (path));
  migrated = schema_texts (folder->path);
  fresh = schema_texts (path);
  assert_string_equal (migrated, fresh);
  assert_int_equal (number (folder->path, "PRAGMA user_version"), cro_migration_get ()->version);
  assert_int_equal (number (folder->path, "SELECT count(*) FROM pragma_foreign_key_check"), 0);
  g_free (migrated);
  g_free (fresh);
  g_free (path);
}

/* The rows are those of before, and what is new is not set. */
/* A job that only reads goes on after an upgrade. */
static void
test_a_first_book_is_read (void **state)
{
  CroTestFolder *folder = *state;
  GError        *error = NULL;
  CroStore      *store = cro_store_open (folder->path, NULL, CRO_STORE_READ, &error);

  cro_test_must (store != NULL, error);
  cro_store_close (store);
  assert_int_equal (number (folder->path, "PRAGMA user_version"), cro_migration_get ()->version);
  assert_int_equal (number (folder->path, "SELECT count(*) FROM plate"), 1);
}

/* What is to be filled and holds something is refused as it was. */
static void
test_a_first_book_is_not_filled (void **state)
{
  CroTestFolder *folder = *state;
  char          *before = cro_test_dump (folder->path), *after;
  GError        *error = NULL;

  assert_null (cro_store_open_to_fill (folder->path, "cook", &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  assert_int_equal (number (folder->path, "PRAGMA user_version"), 1);
  after = cro_test_dump (folder->path);
  assert_string_equal (after, before);
  g_clear_error (&error);
  g_free (after);
  g_free (before);
}

static void
test_a_first_book_keeps_its_rows (void **state)
{
  static const char *const same[] = {
    "SELECT count(*) = 1 FROM price WHERE id = 1 AND price_micro = 9900000 AND pack_unit = 'kg'",
    "SELECT count(*) = 1 FROM sale WHERE id = 2 AND thing = 2 AND other IS NULL"
    " AND sold_micro = 0 AND net_revenue_micro IS NULL",
    "SELECT count(*) = 1 FROM month WHERE id = 1 AND month = '2025-12' AND recipes_on IS NULL"
    " AND ledger_purchases_micro = 2000000 AND hash = 'h'",
    "SELECT count(*) = 1 FROM month_row WHERE part = 'samphire' AND cost_micro = 9500",
    "SELECT count(*) = 1 FROM ingredient WHERE allergens = 0 AND may_contain IS NULL",
    "SELECT count(*) = 1 FROM book WHERE name = 'Saltmarsh Rooms' AND speaks IS NULL"
    " AND price_steps IS NULL",
    "SELECT count(*) = 0 FROM selling_price",
    "SELECT count(*) = 0 FROM price_answer",
  };
  CroTestFolder *folder = *state;

  cro_store_close (cro_test_open (folder->path, "cook"));
  for (gsize i = 0; i < G_N_ELEMENTS (same); i++)
    if (number (folder->path, same[i]) != 1)
      fail_msg ("%s", same[i]);
}

static void
test_a_first_book_is_undone_beyond_its_age (void **state)
{
  static const char *const name_column[] = { "name", NULL };
  CroTestFolder *folder = *state;
  GError        *error = NULL;
  CroStore      *store = cro_test_open (folder->path, "cook");
  CroCell        dulse = CRO_CELL_STR ("dulse");
  CroWriter     *writer;
  gint64         id;

  cro_test_must (cro_store_undo (store, NULL, NULL, &error), error);
  assert_int_equal (number (folder->path, "SELECT count(*) FROM menu_plate WHERE id = 1 AND menu = 2"
                                          " AND plate = 1 AND choice IS NULL"), 1);
  assert_int_equal (number (folder->path, "SELECT net_revenue_micro FROM sale WHERE id = 1"),
                    98000000);
  assert_int_equal (number (folder->path, "SELECT net_value_micro FROM purchase WHERE id = 1"),
                    -9500000);
  cro_test_must (cro_store_undo (store, NULL, NULL, &error), error);
  assert_int_equal (number (folder->path, "SELECT price_micro FROM price"), 9500000);
  assert_true (cro_store_begin_act (store, "dulse", NULL));
  writer = cro_writer_new (store, "item", name_column, &error);
  cro_test_must (cro_writer_insert (writer, &dulse, &id, &error), error);
  cro_writer_free (writer);
  assert_true (cro_store_end_act (store, NULL, NULL));
  /* The third was given away once. */
  assert_int_equal (id, 4);
  cro_store_close (store);
}

static void
assert_stood (CroStore   *store,
              const char *day,
              const char *rows)
{
  GError *error = NULL;
  g_autoptr(CroStore) past = cro_store_open_past (store, day, &error);
  g_autofree char *stood = NULL;

  cro_test_must (past != NULL, error);
  stood = cro_test_dump_of (past->db);
  if (!g_str_equal (stood, rows))
    fail_msg ("%s: %s", day, stood);
}

/* All of its acts are replayed in the tables of today, the first of them as well. */
static void
test_a_first_book_stood_empty_on_its_first_day (void **state)
{
  CroTestFolder *folder = *state;
  char *path = g_build_filename (folder->folder, "older.croustade", NULL);
  char *fresh_path = g_build_filename (folder->folder, "fresh.croustade", NULL);
  sqlite3 *db = empty_book_1 (path);
  g_autofree char *nothing = NULL, *rows = NULL, *now = NULL;
  CroStore *store;

  act_1 (db, "nothing stays", "INSERT INTO item VALUES (9, 'dulse'); DELETE FROM item WHERE id = 9");
  act_1 (db, "rows", ROWS_1);
  cro_test_sql (db, "UPDATE act SET at = '2026-01-0' || id || 'T12:00:00Z'");
  sqlite3_close (db);
  store = cro_test_open (path, "cook");
  rows = cro_test_dump (path);
  assert_true (cro_store_begin_act (store, "samphire goes dear", NULL));
  cro_test_sql (store->db, "UPDATE price SET price_micro = 1; UPDATE item SET name = 'glasswort'"
                           " WHERE id = 1; DELETE FROM recipe_line");
  assert_true (cro_store_end_act (store, NULL, NULL));
  now = cro_test_dump (path);
  cro_store_close (cro_test_create (fresh_path));
  nothing = cro_test_dump (fresh_path);
  assert_string_not_equal (now, rows);
  assert_stood (store, "2026-01-01", nothing);
  assert_stood (store, "2026-01-02", rows);
  cro_store_close (store);
  g_free (path);
  g_free (fresh_path);
}

/* Whoever changes a table or a trigger makes a new version: books of the old one are known by its
 * digest, which never changes again. */
static void
assert_digest (const CroMigration *migration)
{
  GError  *error = NULL;
  sqlite3 *db;
  char    *digest;

  assert_int_equal (sqlite3_open (":memory:", &db), SQLITE_OK);
  cro_test_must (cro_sql_configure (db, &error), error);
  cro_test_must (cro_migration_run (db, migration, &error), error);
  digest = cro_schema_digest (db, &error);
  cro_test_must (digest != NULL, error);
  if (g_strcmp0 (digest, cro_migration_get ()->digests[migration->version - 1]) != 0)
    fail_msg ("the schema of version %d is another one. If the version is new, its line in the "
              "digests of cro-migration.c is\n  \"%s\",\nIf books of it exist, what changed "
              "belongs into a new version.", migration->version, digest);
  g_free (digest);
  sqlite3_close (db);
}

static void
test_every_version_has_its_digest (void **state)
{
  static const CroMigrationStep none[1];
  char                         *schema = schema_1 ();
  CroMigration                  first = { schema, none, 1, NULL };

  assert_digest (&first);
  assert_digest (cro_migration_get ());
  g_free (schema);
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_the_past_bears_the_new_names),
    CASE (test_the_newest_version_is_as_sound_as_the_first),
    CASE (test_the_older_book_is_kept),
    CASE (test_a_failing_step_changes_nothing),
    CASE (test_reading_does_not_migrate),
    CASE (test_an_older_program_refuses_what_a_newer_made),
    cmocka_unit_test (test_every_version_has_its_digest),
#define CASE_1(function) cmocka_unit_test_setup_teardown (function, set_up_1, tear_down)
    CASE_1 (test_a_first_book_becomes_as_one_of_today),
    CASE_1 (test_a_first_book_stood_empty_on_its_first_day),
    CASE_1 (test_a_first_book_is_read),
    CASE_1 (test_a_first_book_is_not_filled),
    CASE_1 (test_a_first_book_keeps_its_rows),
    CASE_1 (test_a_first_book_is_undone_beyond_its_age),
  };

  return cmocka_run_group_tests_name ("books of an older version", tests, NULL, NULL);
}
