/* Others at the same book, and copies of it: locks, what is seen of their acts, a file that goes, what a copy holds. */
#include "cro-history.h"
#include "cro-store-private.h"
#include "cro-store.h"
#include "support/store-file.h"
#include "support/store-folder.h"

static void
test_a_lock_held_too_long (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");
  sqlite3       *other = cro_test_raw (folder->path);
  GError        *error = NULL;

  cro_test_sql (other, "BEGIN IMMEDIATE");
  sqlite3_busy_timeout (store->db, 20);
  assert_false (cro_store_begin_act (store, "no", &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_LOCKED));
  g_clear_error (&error);
  cro_test_sql (other, "ROLLBACK");
  cro_test_must (cro_store_begin_act (store, "yes", &error), error);
  cro_store_cancel_act (store);
  cro_store_close (store);

  cro_test_sql (other, "PRAGMA locking_mode = EXCLUSIVE; BEGIN IMMEDIATE; COMMIT");
  assert_open_fails (folder->path, CRO_STORE_ERROR_LOCKED);
  sqlite3_close (other);
}

/* What this program does when it is started with the path of a book. */
static int
commit_once (const char *path)
{
  static const char *const columns[] = { "name", NULL };
  CroStore                *store = cro_store_open (path, "office", CRO_STORE_WRITE, NULL);
  CroCell                  cell = CRO_CELL_STR ("sea asparagus");
  gboolean                 done = store != NULL && cro_store_begin_act (store, "rename", NULL) &&
                                  cro_store_update (store, "item", 1, columns, &cell, NULL) &&
                                  cro_store_end_act (store, NULL, NULL);

  cro_store_close (store);
  return !done;
}

/* A fork alone would not do: it would inherit what SQLite knows of its parent's locks. */
static void
commit_in_another_process (const char *path)
{
  char *arguments[] = { (char *) "/proc/self/exe", (char *) path, NULL };
  int   status;

  assert_true (g_spawn_sync (NULL, arguments, NULL, G_SPAWN_DEFAULT, NULL, NULL, NULL, NULL,
                             &status, NULL));
  assert_int_equal (status, 0);
}

static void
test_poll_sees_another_process (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");
  gint64         last = cro_store_last_change (store);
  gboolean       changed = TRUE;
  GError        *error = NULL;
  GPtrArray     *changes;

  cro_test_must (cro_store_poll (store, &changed, &error), error);
  assert_false (changed);
  cro_test_must (cro_store_begin_act (store, "own", &error), error);
  cro_test_must (cro_store_delete (store, "sale", 1, &error), error);
  cro_test_must (cro_store_end_act (store, NULL, &error), error);
  cro_test_must (cro_store_poll (store, &changed, &error), error);
  assert_false (changed);

  commit_in_another_process (folder->path);
  cro_test_must (cro_store_poll (store, &changed, &error), error);
  assert_true (changed);
  cro_test_must (cro_store_poll (store, &changed, &error), error);
  assert_false (changed);
  changes = cro_store_list_changes_after (store, last + 1, &error);
  assert_int_equal (changes->len, 1);
  assert_string_equal (((CroChange *) changes->pdata[0])->after, "{\"name\":\"sea asparagus\"}");
  g_ptr_array_unref (changes);
  cro_store_close (store);
}

/* SQLite goes on writing into a file that has lost its name, and nobody would find it again. */
static void
test_a_book_that_goes (void **state)
{
  static const char *const says[] = { "deleted", "moved", "replaced" };
  CroTestFolder           *folder = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (says); i++)
    {
      CroTestFolder own = cro_test_folder_new ();
      char         *elsewhere = g_strconcat (own.path, ".elsewhere", NULL);
      CroStore     *store = cro_test_create (own.path);
      GError       *error = NULL;
      gboolean      changed;
      char         *bytes;
      gsize         length;

      if (i == 0)
        g_unlink (own.path);
      else
        g_rename (own.path, elsewhere);
      if (i == 2)
        {
          bytes = read_bytes (folder->path, &length);
          write_bytes (own.path, bytes, length);
          g_free (bytes);
        }
      if (cro_store_begin_act (store, "no", &error))
        fail_msg ("an act began in a book that was %s", says[i]);
      assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE));
      g_clear_error (&error);
      assert_false (cro_store_poll (store, &changed, &error));
      assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE));
      g_clear_error (&error);
      cro_store_close (store);
      g_free (elsewhere);
      cro_test_folder_clear (&own);
    }
}

/* The locks of one process on a file go when it closes any descriptor of it by itself. */
static void
test_a_second_store_leaves_the_first_its_locks (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");
  char          *log = g_strconcat (folder->path, "-wal", NULL);
  GError        *error = NULL;

  cro_test_must (cro_store_begin_act (store, "own", &error), error);
  cro_test_must (cro_store_delete (store, "sale", 1, &error), error);
  cro_store_close (cro_test_open (folder->path, "cook"));
  cro_test_must (cro_store_end_act (store, NULL, &error), error);
  cro_store_close (cro_test_open (folder->path, "cook"));
  /* Were the lock lost, the other process would take itself for the last and remove the log. */
  commit_in_another_process (folder->path);
  assert_true (g_file_test (log, G_FILE_TEST_EXISTS));
  cro_store_close (store);
  g_free (log);
}

/* One who folds the log empties it, which is no change to those who look on. */
static void
test_poll_sees_acts_alone (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");
  CroStore      *other = cro_test_open (folder->path, "office");
  GError        *error = NULL;
  gboolean       changed;
  gint64         version;

  rename_item (other, "sea beet");
  rename_item (store, "orache");
  cro_test_must (cro_store_poll (store, &changed, &error), error);
  assert_true (changed);

  rename_item (store, "sea kale");
  cro_test_must (cro_store_checkpoint (other, &error), error);
  cro_test_must (cro_store_poll (store, &changed, &error), error);
  assert_false (changed);

  /* Nothing is left to fold, and whoever else has the book open has nothing to look at. */
  cro_test_must (cro_store_poll (other, &changed, &error), error);
  version = other->data_version;
  cro_test_must (cro_store_checkpoint (store, &error), error);
  cro_test_must (cro_store_poll (other, &changed, &error), error);
  assert_true (other->data_version == version);
  cro_store_close (other);
  cro_store_close (store);
}

/* --- Copies and checks ----------------------------------------------------------------- */

static void
test_a_backup_is_the_book (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");
  char          *path = g_build_filename (folder->folder, "backup.croustade", NULL);
  char          *book = cro_test_dump (folder->path);
  char          *backup;
  GError        *error = NULL;

  write_bytes (path, "old", 3); /* an older file of that name gives way */
  cro_test_must (cro_store_backup (store, path, &error), error);
  backup = cro_test_dump (path);
  assert_string_equal (backup, book);
  cro_store_close (cro_test_open (path, "cook"));
  assert_false (cro_store_backup (store, folder->path, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_EXISTS));
  g_clear_error (&error);
  cro_store_close (store);
  assert_int_equal (count_files (folder->folder), 2);
  g_free (path);
  g_free (book);
  g_free (backup);
}

static void
count_cb (const char *finding,
          gpointer    user_data)
{
  ++*(int *) user_data;
}

static int
count_findings (const char *path)
{
  CroStore *store = cro_test_open (path, "cook");
  GError   *error = NULL;
  int       n = 0;

  cro_test_must (cro_store_verify (store, count_cb, &n, &error), error);
  cro_store_close (store);
  return n;
}

static void
test_verify_finds_a_lost_reference (void **state)
{
  CroTestFolder *folder = *state;
  sqlite3       *db = cro_test_raw (folder->path);

  assert_int_equal (count_findings (folder->path), 0);
  cro_test_sql (db, "PRAGMA foreign_keys = OFF");
  cro_test_begin_raw_act (db);
  cro_test_sql (db, "DELETE FROM supplier");
  cro_test_end_raw_act (db);
  sqlite3_close (db);
  assert_int_equal (count_findings (folder->path), 2); /* its offer and its purchase */
}

static void
test_verify_finds_a_wrong_page (void **state)
{
  CroTestFolder *folder = *state;
  sqlite3       *db = cro_test_raw (folder->path);
  sqlite3_stmt  *stmt;
  gsize          page, length;
  char          *bytes;

  cro_test_sql (db, "PRAGMA wal_checkpoint (TRUNCATE)");
  assert_int_equal (sqlite3_prepare_v2 (db, "SELECT rootpage * page_size FROM sqlite_schema,"
                                            " pragma_page_size WHERE name = 'offer_by_code'", -1,
                                        &stmt, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  page = sqlite3_column_int64 (stmt, 0);
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  bytes = read_bytes (folder->path, &length);
  memset (bytes + page - 64, 0x5a, 64); /* the cells stand at the end of their page */
  write_bytes (folder->path, bytes, length);
  g_free (bytes);
  assert_true (count_findings (folder->path) > 0);
}

/* A row of a copy of the file alone, as somebody makes who copies the open book. */
static gboolean
is_in_a_copy (const char *path,
              const char *name)
{
  CroTestFolder copy = cro_test_folder_new ();
  gsize         length;
  char         *bytes = read_bytes (path, &length);
  char         *dump;
  gboolean      is_there;

  write_bytes (copy.path, bytes, length);
  dump = cro_test_dump (copy.path);
  is_there = strstr (dump, name) != NULL;
  g_free (dump);
  g_free (bytes);
  cro_test_folder_clear (&copy);
  return is_there;
}

static void
test_a_copy_of_the_open_file_lacks_a_second_at_most (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");
  GError        *error = NULL;
  gboolean       changed;

  rename_item (store, "sea beet");
  cro_store_tend (store);
  assert_false (is_in_a_copy (folder->path, "sea beet"));
  store->unfolded -= G_USEC_PER_SEC / 2;
  cro_store_tend (store);
  assert_true (is_in_a_copy (folder->path, "sea beet"));
  assert_int_equal (store->unfolded, 0);

  /* What another process wrote, and left to whoever still has the book open. */
  commit_in_another_process (folder->path);
  cro_test_must (cro_store_poll (store, &changed, &error), error);
  assert_true (changed);
  store->unfolded -= G_USEC_PER_SEC / 2;
  cro_store_tend (store);
  assert_true (is_in_a_copy (folder->path, "sea asparagus"));
  cro_store_close (store);
}

static void
copy_bytes (const char *from,
            const char *to)
{
  gsize length;
  char *bytes = read_bytes (from, &length);

  write_bytes (to, bytes, length);
  g_free (bytes);
}

/* As a kill leaves it: the log is what it is at that time, and nobody folds it in at the end. */
static void
test_an_earlier_copy_over_a_book_that_was_killed (void **state)
{
  CroTestFolder *folder = *state, after = cro_test_folder_new ();
  char          *log = g_strconcat (folder->path, "-wal", NULL);
  char          *log_after = g_strconcat (after.path, "-wal", NULL);
  CroStore      *store = cro_test_open (folder->path, "cook");
  char          *dump;

  rename_item (store, "sea beet");
  copy_bytes (folder->path, after.path);
  store->unfolded -= G_USEC_PER_SEC / 2;
  cro_store_tend (store);
  copy_bytes (log, log_after);
  cro_store_close (store);

  assert_int_equal (count_findings (after.path), 0);
  dump = cro_test_dump (after.path);
  assert_null (strstr (dump, "sea beet"));
  g_free (dump);
  g_free (log_after);
  g_free (log);
  cro_test_folder_clear (&after);
}

static void
test_leaving_folds_the_log_in (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *stays = cro_test_open (folder->path, "office");
  CroStore      *store = cro_test_open (folder->path, "cook");

  rename_item (store, "sea beet");
  cro_store_close (store);
  assert_true (is_in_a_copy (folder->path, "sea beet"));
  cro_store_close (stays);
  assert_int_equal (count_files (folder->folder), 1);
}

int
main (int    argc,
      char **argv)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_a_lock_held_too_long),
    CASE (test_poll_sees_another_process),
    CASE (test_a_book_that_goes),
    CASE (test_a_second_store_leaves_the_first_its_locks),
    CASE (test_a_backup_is_the_book),
    CASE (test_a_copy_of_the_open_file_lacks_a_second_at_most),
    CASE (test_poll_sees_acts_alone),
    CASE (test_an_earlier_copy_over_a_book_that_was_killed),
    CASE (test_leaving_folds_the_log_in),
    CASE (test_verify_finds_a_lost_reference),
    CASE (test_verify_finds_a_wrong_page),
  };

  if (argc == 2)
    return commit_once (argv[1]);
  return cmocka_run_group_tests_name ("others at the same book", tests, NULL, NULL);
}
