/* Files that are no sound book of this version: each has an error of its own, and none is touched. */
#include "cro-store.h"
#include "support/store-file.h"

static void
make_empty (const char *path)
{
  write_bytes (path, "", 0);
}

static void
make_text (const char *path)
{
  write_bytes (path, "name,unit\nsamphire,g\n", 21);
}

static void
make_short_text (const char *path)
{
  write_bytes (path, "SQL", 3);
}

static void
make_foreign (const char *path)
{
  sqlite3 *db;

  g_unlink (path);
  db = cro_test_raw (path);
  cro_test_sql (db, "CREATE TABLE item (id INTEGER PRIMARY KEY, name TEXT)");
  sqlite3_close (db);
}

/* Another program's database in the midst of its work: opening it would fold its log in. */
static void
make_foreign_with_log (const char *path)
{
  char    *log = g_strconcat (path, "-wal", NULL);
  char    *bytes, *log_bytes;
  gsize    length, log_length;
  sqlite3 *db;

  g_unlink (path);
  db = cro_test_raw (path);
  cro_test_sql (db, "PRAGMA journal_mode = WAL; CREATE TABLE a (b)");
  bytes = read_bytes (path, &length);
  log_bytes = read_bytes (log, &log_length);
  sqlite3_close (db);
  write_bytes (path, bytes, length);
  write_bytes (log, log_bytes, log_length);
  g_free (bytes);
  g_free (log_bytes);
  g_free (log);
}

static void
cut_to (const char *path,
        gsize       kept)
{
  gsize length;
  char *bytes = read_bytes (path, &length);

  assert_true (kept < length);
  write_bytes (path, bytes, kept);
  g_free (bytes);
}

static void
make_half (const char *path)
{
  gsize length;

  g_free (read_bytes (path, &length));
  cut_to (path, length / 2);
}

static void
make_without_last_byte (const char *path)
{
  gsize length;

  g_free (read_bytes (path, &length));
  cut_to (path, length - 1);
}

static void
make_stub (const char *path)
{
  cut_to (path, 60);
}

static void
make_scribbled (const char *path)
{
  gsize length;
  char *bytes = read_bytes (path, &length);

  memset (bytes + 100, 0x5a, 3000);
  write_bytes (path, bytes, length);
  g_free (bytes);
}

static void
make_newer (const char *path)
{
  sqlite3 *db = cro_test_raw (path);

  cro_test_sql (db, "PRAGMA user_version = 99");
  sqlite3_close (db);
}

static const struct
{
  const char       *says;
  void            (*make) (const char *path);
  CroStoreErrorCode code;
} refused[] = {
  { "an empty file is no book", make_empty, CRO_STORE_ERROR_NOT_A_BOOK },
  { "a text file is no book", make_text, CRO_STORE_ERROR_NOT_A_BOOK },
  { "a text of the first letters of a database is damaged at best", make_short_text,
    CRO_STORE_ERROR_DAMAGED },
  { "another program's database is no book", make_foreign, CRO_STORE_ERROR_NOT_A_BOOK },
  { "another program's database in use is no book", make_foreign_with_log,
    CRO_STORE_ERROR_NOT_A_BOOK },
  { "half a book is damaged", make_half, CRO_STORE_ERROR_DAMAGED },
  { "a book without its last byte is damaged", make_without_last_byte, CRO_STORE_ERROR_DAMAGED },
  { "the first bytes of a book are damaged", make_stub, CRO_STORE_ERROR_DAMAGED },
  { "a book with a scribble over its tables is damaged", make_scribbled, CRO_STORE_ERROR_DAMAGED },
  { "a book of a newer version is newer", make_newer, CRO_STORE_ERROR_NEWER },
};

/* Enough rows that the file ends with them and not with the schema. */
static void
add_items (CroStore *store)
{
  static const char *const columns[] = { "name", NULL };
  GError                  *error = NULL;
  CroWriter               *writer;

  cro_test_must (cro_store_begin_act (store, "load", &error), error);
  writer = cro_writer_new (store, "item", columns, &error);
  for (int i = 0; i < 1000; i++)
    {
      char   *name = g_strdup_printf ("item %d", i);
      CroCell cell = CRO_CELL_STR (name);

      cro_test_must (cro_writer_insert (writer, &cell, NULL, &error), error);
      g_free (name);
    }
  cro_writer_free (writer);
  cro_test_must (cro_store_end_act (store, NULL, &error), error);
}

static void
test_refused_files_stay_as_they_are (void **state)
{
  static const CroStoreMode modes[] = { CRO_STORE_READ, CRO_STORE_WRITE };

  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    for (gsize m = 0; m < G_N_ELEMENTS (modes); m++)
      {
        CroTestFolder folder = cro_test_folder_new ();
        CroStore     *store;
        GError       *error = NULL;
        gsize         before_length, after_length;
        char         *before, *after;
        guint         n_files;

        store = cro_test_create (folder.path);
        add_items (store);
        cro_store_close (store);
        refused[i].make (folder.path);
        before = read_bytes (folder.path, &before_length);
        n_files = count_files (folder.folder);
        assert_null (cro_store_open (folder.path, "cook", modes[m], &error));
        if (!g_error_matches (error, CRO_STORE_ERROR, refused[i].code))
          fail_msg ("%s: code %d: %s", refused[i].says, error->code, error->message);
        after = read_bytes (folder.path, &after_length);
        if (after_length != before_length || memcmp (after, before, after_length) != 0)
          fail_msg ("%s, and was changed", refused[i].says);
        if (modes[m] == CRO_STORE_WRITE && count_files (folder.folder) != n_files)
          fail_msg ("%s, and left something beside it", refused[i].says);
        g_clear_error (&error);
        g_free (before);
        g_free (after);
        cro_test_folder_clear (&folder);
      }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_refused_files_stay_as_they_are),
  };

  return cmocka_run_group_tests_name ("files that are no sound book", tests, NULL, NULL);
}
