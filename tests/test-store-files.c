/* Books whose files or folders cannot be read or written: each has an error of its own, and none is touched. */
#include "cro-own-file.h"
#include "cro-store-private.h"
#include "cro-store.h"
#include "support/store-file.h"
#include "support/store-folder.h"

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define NOBODY 65534

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
main (void)
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
    CASE (test_a_full_disk),
    CASE (test_reading_leaves_nothing_beside),
    CASE (test_another_s_open_book_can_be_read),
    CASE (test_only_what_was_made_is_taken_back),
    cmocka_unit_test (test_a_disk_is_no_network),
  };

  return cmocka_run_group_tests_name ("files and media", tests, NULL, NULL);
}
