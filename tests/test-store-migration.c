/* Books of an older version, brought up to date by steps that exist only here. */
#include "cro-history.h"
#include "cro-store-private.h"
#include "support/store-book.h"

/* A column of another name, one more table, and a table made anew as SQLite cannot alter it. */
static const CroMigrationRename renames[] = {
  { "plate", "price_micro", "menu_price_micro" },
  { "supplier", "contact", "reached_at" },
};

static const char step_1_sql[] =
  "ALTER TABLE plate RENAME COLUMN price_micro TO menu_price_micro;"
  "ALTER TABLE supplier RENAME COLUMN contact TO reached_at;"
  "CREATE TABLE shelf (id INTEGER PRIMARY KEY AUTOINCREMENT, name TEXT NOT NULL) STRICT;";

static const char step_2_sql[] =
  "CREATE TABLE new_thing (id INTEGER PRIMARY KEY AUTOINCREMENT, name TEXT NOT NULL) STRICT;"
  "INSERT INTO new_thing SELECT id, name FROM thing;"
  "DROP TABLE thing;"
  "ALTER TABLE new_thing RENAME TO thing;"
  "CREATE UNIQUE INDEX thing_by_name ON thing (name);";

static const char failing_sql[] = "DELETE FROM sale; DELETE FROM thing WHERE id = 1;";

enum { SOUND, FAILS_IN_SQL, LOSES_A_REFERENCE };

/* The program's own first step, and then the steps of a later program. */
static int
later_steps (CroMigrationStep  steps[3],
             int               kind)
{
  int n_steps;

  steps[0] = cro_migration_get_steps (&n_steps)[0];
  assert_int_equal (n_steps, 1);
  steps[1] = (CroMigrationStep){ step_1_sql, renames, G_N_ELEMENTS (renames) };
  steps[2] = (CroMigrationStep){ kind == FAILS_IN_SQL ? "DROP TABLE nothing"
                                 : kind == LOSES_A_REFERENCE ? failing_sql
                                                             : step_2_sql, NULL, 0 };
  return 3;
}

static CroStore *
open_later (const char   *path,
            CroStoreMode  mode,
            int           kind,
            GError      **error)
{
  CroMigrationStep steps[3];
  int              n_steps = later_steps (steps, kind);

  return cro_store_open_with (path, "cook", mode, steps, n_steps, error);
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
  return g_build_filename (folder->folder, "book-before-v3.croustade", NULL);
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
  assert_int_equal (number (folder->path, "PRAGMA user_version"), 3);
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
  char          *backup = backup_path (folder);
  char          *kept;
  GError        *error = NULL;
  CroStore      *store = open_later (folder->path, CRO_STORE_WRITE, SOUND, &error);

  cro_test_must (store != NULL, error);
  cro_store_close (store);
  kept = cro_test_dump (backup);
  assert_string_equal (kept, before);
  assert_int_equal (number (backup, "PRAGMA user_version"), 1);
  cro_store_close (cro_test_open (backup, "cook"));
  g_free (kept);
  g_free (backup);
  g_free (before);
}

static void
test_a_failing_step_changes_nothing (void **state)
{
  static const int kinds[] = { FAILS_IN_SQL, LOSES_A_REFERENCE };
  CroTestFolder   *folder = *state;
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
      assert_int_equal (number (folder->path, "PRAGMA user_version"), 1);
      g_free (after);
      cro_store_close (cro_test_open (folder->path, "cook"));
    }
  g_free (before);
}

static void
test_reading_does_not_migrate (void **state)
{
  CroTestFolder *folder = *state;
  char          *backup = backup_path (folder);
  GError        *error = NULL;

  assert_null (open_later (folder->path, CRO_STORE_READ, SOUND, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY));
  g_clear_error (&error);
  assert_int_equal (number (folder->path, "PRAGMA user_version"), 1);
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
  };

  return cmocka_run_group_tests_name ("books of an older version", tests, NULL, NULL);
}
