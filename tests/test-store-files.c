/* Books whose files or folders cannot be read or written, or change underneath: each has an error of its own, and none
 * is touched. */
#include "cro-history.h"
#include "cro-own-file.h"
#include "cro-store-private.h"
#include "cro-store.h"
#include "support/store-file.h"

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define NOBODY 65534

static int
set_up (void **state)
{
  CroTestFolder *folder = g_new (CroTestFolder, 1);

  *folder = cro_test_folder_new ();
  cro_store_close (cro_test_create (folder->path));
  cro_test_add_rows (folder->path);
  *state = folder;
  return 0;
}

static int
tear_down (void **state)
{
  g_chmod (((CroTestFolder *) *state)->folder, 0755);
  cro_test_folder_clear (*state);
  g_free (*state);
  return 0;
}

static void
assert_open_fails (const char        *path,
                   CroStoreErrorCode  code)
{
  GError *error = NULL;

  assert_null (cro_store_open (path, "cook", CRO_STORE_WRITE, &error));
  if (!g_error_matches (error, CRO_STORE_ERROR, code))
    fail_msg ("code %d instead of %d: %s", error->code, code, error->message);
  g_clear_error (&error);
}

static void
test_no_file (void **state)
{
  CroTestFolder *folder = *state;
  char          *missing = g_build_filename (folder->folder, "missing.croustade", NULL);

  assert_open_fails (missing, CRO_STORE_ERROR_GONE);
  assert_false (g_file_test (missing, G_FILE_TEST_EXISTS));
  assert_open_fails (folder->folder, CRO_STORE_ERROR_FOLDER);
  g_free (missing);
}

/* --- Making a book --------------------------------------------------------------------- */

static void
test_create_takes_no_name_that_exists (void **state)
{
  CroTestFolder *folder = *state;
  GError        *error = NULL;
  gsize          before_length, after_length;
  char          *before = read_bytes (folder->path, &before_length);
  char          *after;

  assert_null (cro_store_create (folder->path, "cook", &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_EXISTS));
  g_clear_error (&error);
  after = read_bytes (folder->path, &after_length);
  assert_int_equal (after_length, before_length);
  assert_memory_equal (after, before, after_length);
  assert_int_equal (count_files (folder->folder), 1);
  g_free (before);
  g_free (after);
}

static void
test_create_in_no_folder (void **state)
{
  CroTestFolder *folder = *state;
  GError        *error = NULL;
  char          *path = g_build_filename (folder->folder, "no", "book.croustade", NULL);

  assert_null (cro_store_create (path, "cook", &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE));
  g_clear_error (&error);
  g_free (path);
}

/* --- Media that cannot be written ------------------------------------------------------ */

/* Runs check in a child for whom permission bits count, which they do not for root. */
static void
run_without_privileges (CroTestFolder *folder,
                        int          (*check) (const char *path))
{
  pid_t child = fork ();
  int   status;

  assert_true (child >= 0);
  if (child == 0)
    {
      if (geteuid () == 0 && (setgid (NOBODY) != 0 || setuid (NOBODY) != 0))
        _exit (77);
      _exit (check (folder->path));
    }
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (WIFEXITED (status));
  if (WEXITSTATUS (status) == 77)
    {
      print_message ("skipped: privileges cannot be dropped here\n");
      skip ();
    }
  assert_int_equal (WEXITSTATUS (status), 0);
}

static gboolean
reads_a_row (CroStore *store)
{
  static const char *const columns[] = { "name", NULL };
  CroRows                 *rows = cro_store_read_one (store, "item", 1, columns, NULL);
  gboolean                 reads = rows != NULL && cro_rows_next (rows, NULL) &&
                                   g_str_equal (cro_rows_get_text (rows, 0), "samphire");

  cro_rows_free (rows);
  return reads;
}

static int
check_read_only (const char *path)
{
  GError   *error = NULL;
  CroStore *store = cro_store_open (path, "cook", CRO_STORE_WRITE, &error);

  if (store != NULL || !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY))
    return 1;
  g_clear_error (&error);
  store = cro_store_open (path, "cook", CRO_STORE_READ, &error);
  if (store == NULL)
    return 2;
  if (!reads_a_row (store))
    return 3;
  if (cro_store_begin_act (store, "no", &error) ||
      !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY))
    return 4;
  g_clear_error (&error);
  cro_store_close (store);
  return 0;
}

static void
test_a_read_only_folder_can_be_read (void **state)
{
  CroTestFolder *folder = *state;

  g_chmod (folder->path, 0444);
  g_chmod (folder->folder, 0555);
  run_without_privileges (folder, check_read_only);
  assert_int_equal (count_files (folder->folder), 1);
}

static int
check_create (const char *path)
{
  GError *error = NULL;
  char   *other = g_strconcat (path, ".other", NULL);

  if (cro_store_create (other, "cook", &error) != NULL)
    return 1;
  return !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY);
}

static void
test_create_in_a_read_only_folder (void **state)
{
  CroTestFolder *folder = *state;

  g_chmod (folder->folder, 0555);
  run_without_privileges (folder, check_create);
  assert_int_equal (count_files (folder->folder), 1);
}

static int
check_unreadable (const char *path)
{
  GError *error = NULL;

  if (cro_store_open (path, "cook", CRO_STORE_READ, &error) != NULL)
    return 1;
  return !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM);
}

static void
test_a_file_that_may_not_be_read (void **state)
{
  CroTestFolder *folder = *state;

  g_chmod (folder->folder, 0755);
  g_chmod (folder->path, 0);
  run_without_privileges (folder, check_unreadable);
}

static void
test_reading_writes_nothing (void **state)
{
  CroTestFolder *folder = *state;
  GError        *error = NULL;
  CroStore      *store = cro_store_open (folder->path, "cook", CRO_STORE_READ, &error);

  cro_test_must (store != NULL, error);
  assert_true (reads_a_row (store));
  assert_false (cro_store_begin_act (store, "no", &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_READ_ONLY));
  g_clear_error (&error);
  cro_store_close (store);
}

/* --- Others at the same book ----------------------------------------------------------- */

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

/* A book that may not grow stands for a full disk. */
static void
test_a_full_disk (void **state)
{
  static const char *const columns[] = { "name", NULL };
  CroTestFolder           *folder = *state;
  CroStore                *store = cro_test_open (folder->path, "cook");
  char                    *before = cro_test_dump (folder->path);
  char                    *after;
  char                    *name = g_strnfill (4000, 'x');
  GError                  *error = NULL;
  CroWriter               *writer = cro_writer_new (store, "item", columns, &error);
  gboolean                 done = TRUE;

  cro_test_sql (store->db, "PRAGMA max_page_count = 1");
  cro_test_must (cro_store_begin_act (store, "too much", &error), error);
  for (int i = 0; i < 26 && done; i++)
    {
      CroCell cell = CRO_CELL_STR (name);

      name[0] = 'a' + i;
      done = cro_writer_insert (writer, &cell, NULL, &error);
    }
  assert_false (done);
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM));
  g_clear_error (&error);
  cro_store_cancel_act (store);
  after = cro_test_dump (folder->path);
  assert_string_equal (after, before);

  cro_test_sql (store->db, "PRAGMA max_page_count = 100000");
  cro_test_must (cro_store_begin_act (store, "room again", &error), error);
  cro_test_must (cro_writer_insert (writer, &CRO_CELL_STR (name), NULL, &error), error);
  cro_test_must (cro_store_end_act (store, NULL, &error), error);

  /* Whatever rolls the act back, nothing more is written in its name. */
  cro_test_must (cro_store_begin_act (store, "rolled back", &error), error);
  cro_test_sql (store->db, "ROLLBACK");
  assert_false (cro_store_delete (store, "sale", 1, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM));
  g_clear_error (&error);
  assert_false (cro_store_end_act (store, NULL, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_SYSTEM));
  g_clear_error (&error);
  cro_store_cancel_act (store);
  cro_writer_free (writer);
  cro_store_close (store);
  g_free (name);
  g_free (before);
  g_free (after);
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
rename_item (CroStore   *store,
             const char *name)
{
  static const char *const columns[] = { "name", NULL };
  GError                  *error = NULL;
  CroCell                  cell = CRO_CELL_STR (name);

  cro_test_must (cro_store_begin_act (store, "rename", &error), error);
  cro_test_must (cro_store_update (store, "item", 1, columns, &cell, &error), error);
  cro_test_must (cro_store_end_act (store, NULL, &error), error);
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

static void
test_reading_leaves_nothing_beside (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_store_open (folder->path, NULL, CRO_STORE_READ, NULL);

  assert_true (reads_a_row (store));
  cro_store_close (store);
  assert_int_equal (count_files (folder->folder), 1);
  /* Another's book, in a folder that anybody may write into. */
  g_chmod (folder->folder, 0777);
  g_chmod (folder->path, 0444);
  run_without_privileges (folder, check_read_only);
  assert_int_equal (count_files (folder->folder), 1);
}

static int
check_reads_what_is_open (const char *path)
{
  CroStore *store = cro_store_open (path, NULL, CRO_STORE_READ, NULL);
  gboolean  reads = store != NULL && reads_a_row (store);

  cro_store_close (store);
  return !reads;
}

/* While its owner writes, whoever may only read sees what was committed last. */
static void
test_another_s_open_book_can_be_read (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store;

  g_chmod (folder->folder, 0755);
  g_chmod (folder->path, 0644);
  store = cro_test_open (folder->path, "cook");
  rename_item (store, "sea beet");
  rename_item (store, "samphire");
  run_without_privileges (folder, check_reads_what_is_open);
  cro_store_close (store);
  assert_int_equal (count_files (folder->folder), 1);
}

static void
test_a_disk_is_no_network (void **state)
{
  assert_false (cro_store_is_on_network ("/proc"));
  assert_false (cro_store_is_on_network ("/no such place"));
}

/* --- Files that are taken back -------------------------------------------------------------- */

static void
test_only_what_was_made_is_taken_back (void **state)
{
  CroTestFolder *folder = *state;
  CroOwnFile made = cro_own_file_note (folder->path);
  CroOwnFile none = cro_own_file_note ("/nowhere/book.croustade");
  g_autofree char *aside = g_strconcat (folder->path, ".aside", NULL);
  g_autofree char *log = g_strconcat (folder->path, "-wal", NULL);

  assert_int_equal (g_rename (folder->path, aside), 0);
  assert_true (g_file_set_contents (folder->path, "somebody else's", -1, NULL));
  assert_true (g_file_set_contents (log, "theirs too", -1, NULL));
  assert_false (cro_own_file_remove (&made, folder->path));
  assert_false (cro_own_file_remove (&none, folder->path));
  assert_true (g_file_test (folder->path, G_FILE_TEST_EXISTS));
  assert_true (g_file_test (log, G_FILE_TEST_EXISTS));

  assert_int_equal (g_rename (aside, folder->path), 0);
  assert_true (cro_own_file_remove (&made, folder->path));
  assert_false (g_file_test (folder->path, G_FILE_TEST_EXISTS));
  assert_false (g_file_test (log, G_FILE_TEST_EXISTS));
}

int
main (int    argc,
      char **argv)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_no_file),
    CASE (test_create_takes_no_name_that_exists),
    CASE (test_create_in_no_folder),
    CASE (test_a_read_only_folder_can_be_read),
    CASE (test_create_in_a_read_only_folder),
    CASE (test_a_file_that_may_not_be_read),
    CASE (test_reading_writes_nothing),
    CASE (test_a_lock_held_too_long),
    CASE (test_poll_sees_another_process),
    CASE (test_a_book_that_goes),
    CASE (test_a_second_store_leaves_the_first_its_locks),
    CASE (test_a_full_disk),
    CASE (test_a_backup_is_the_book),
    CASE (test_a_copy_of_the_open_file_lacks_a_second_at_most),
    CASE (test_poll_sees_acts_alone),
    CASE (test_an_earlier_copy_over_a_book_that_was_killed),
    CASE (test_leaving_folds_the_log_in),
    CASE (test_reading_leaves_nothing_beside),
    CASE (test_another_s_open_book_can_be_read),
    CASE (test_verify_finds_a_lost_reference),
    CASE (test_verify_finds_a_wrong_page),
    CASE (test_only_what_was_made_is_taken_back),
    cmocka_unit_test (test_a_disk_is_no_network),
  };

  if (argc == 2)
    return commit_once (argv[1]);
  return cmocka_run_group_tests_name ("files and what befalls them", tests, NULL, NULL);
}
