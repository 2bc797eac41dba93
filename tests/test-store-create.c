/* A book is made beside its place and takes it when it is whole. What a name may lead to, what may
 * stand there, and what killed programs leave. */
#include "cro-store-private.h"
#include "cro-store.h"
#include "support/store-book.h"

#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* What hangs fails. */
#define LONGEST_SECONDS 60

static int
set_up (void **state)
{
  CroTestFolder *folder = g_new (CroTestFolder, 1);

  *folder = cro_test_folder_new ();
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

static char *
list_files (const char *folder)
{
  GDir       *dir = g_dir_open (folder, 0, NULL);
  GString    *names = g_string_new (NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    g_string_append_printf (names, "%s ", name);
  g_dir_close (dir);
  return g_string_free (names, FALSE);
}

static void
assert_files (CroTestFolder *folder,
              const char    *expected)
{
  char *names = list_files (folder->folder);

  assert_string_equal (names, expected);
  g_free (names);
}

static CroStore *
begin (CroTestFolder *folder)
{
  GError   *error = NULL;
  CroStore *store = cro_store_create_unfinished (folder->path, "cook", &error);

  cro_test_must (store != NULL, error);
  return store;
}

static void
assert_refused (const char        *path,
                CroStoreErrorCode  code)
{
  GError *error = NULL;

  assert_null (cro_store_create (path, "cook", &error));
  if (!g_error_matches (error, CRO_STORE_ERROR, code))
    fail_msg ("code %d instead of %d: %s", error->code, code, error->message);
  g_clear_error (&error);
}

/* --- In the making ----------------------------------------------------------------------------- */

static void
test_what_is_not_finished_leaves_nothing (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = begin (folder);

  assert_false (g_file_test (folder->path, G_FILE_TEST_EXISTS));
  cro_store_close (store);
  assert_files (folder, "");
}

static void
test_what_is_finished_has_its_name (void **state)
{
  CroTestFolder *folder = *state;
  GError        *error = NULL;

  cro_test_must (cro_store_finish (begin (folder), &error), error);
  assert_files (folder, "book.croustade ");
  cro_store_close (cro_test_open (folder->path, "cook"));
}

static void
test_what_somebody_else_made_meanwhile_stays (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = begin (folder);
  GError        *error = NULL;
  char          *text = NULL;

  assert_true (g_file_set_contents (folder->path, "mine", -1, NULL));
  assert_false (cro_store_finish (store, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_EXISTS));
  g_clear_error (&error);
  assert_files (folder, "book.croustade ");
  assert_true (g_file_get_contents (folder->path, &text, NULL, NULL));
  assert_string_equal (text, "mine");
  g_free (text);
}

static char *
beside (CroTestFolder *folder,
        const char    *ending)
{
  return g_strconcat (folder->path, ending, NULL);
}

static void
test_a_new_book_takes_no_log_over (void **state)
{
  static const char *const endings[] = { "-wal", "-journal" };
  CroTestFolder           *folder = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      char *log = beside (folder, endings[i]);

      assert_true (g_file_set_contents (log, "rows of a book that is gone", -1, NULL));
      assert_refused (folder->path, CRO_STORE_ERROR_LOG);
      assert_true (g_file_test (log, G_FILE_TEST_EXISTS));
      assert_true (g_file_set_contents (log, "", 0, NULL));
      cro_store_close (cro_test_make (folder->path));
      assert_files (folder, "book.croustade ");
      g_unlink (folder->path);
      g_free (log);
    }
}

/* --- Names --------------------------------------------------------------------------------------- */

static void
test_a_name_is_a_name_whatever_it_looks_like (void **state)
{
  static const char *const names[] = { "file:x#", "file:x?mode=memory", ":memory:", "a%20b",
                                       "it's \"here\"", "-w" };
  CroTestFolder           *folder = *state;
  char                    *was = g_get_current_dir ();

  assert_int_equal (g_chdir (folder->folder), 0);
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      char *expected = g_strconcat (names[i], " ", NULL);

      cro_store_close (cro_test_make (names[i]));
      assert_files (folder, expected);
      cro_store_close (cro_test_open (names[i], "cook"));
      assert_files (folder, expected);
      g_unlink (names[i]);
      g_free (expected);
    }
  assert_refused ("", CRO_STORE_ERROR_GONE);
  assert_refused ("Tides.croustade-wal", CRO_STORE_ERROR_RULE);
  assert_files (folder, "");
  assert_int_equal (g_chdir (was), 0);
  g_free (was);
}

static void
test_a_book_behind_a_link (void **state)
{
  CroTestFolder *folder = *state;
  CroTestFolder  elsewhere = cro_test_folder_new ();
  CroStore      *store;
  GError        *error = NULL;
  gboolean       changed;

  cro_store_close (cro_test_make (folder->path));
  assert_int_equal (symlink (folder->path, elsewhere.path), 0);
  store = cro_test_open (elsewhere.path, "cook");
  assert_string_equal (cro_store_get_path (store), folder->path);
  cro_test_must (cro_store_begin_act (store, "act", &error), error);
  cro_store_cancel_act (store);
  cro_test_must (cro_store_poll (store, &changed, &error), error);
  cro_store_close (store);
  assert_refused (elsewhere.path, CRO_STORE_ERROR_EXISTS);
  assert_files (&elsewhere, "book.croustade ");
  assert_files (folder, "book.croustade ");
  cro_test_folder_clear (&elsewhere);
}

/* --- What is no file ------------------------------------------------------------------------------ */

static void
test_a_pipe_and_a_device_are_no_books (void **state)
{
  static const CroStoreMode modes[] = { CRO_STORE_READ, CRO_STORE_WRITE, CRO_STORE_INSPECT };
  CroTestFolder            *folder = *state;
  const char               *paths[] = { folder->path, "/dev/zero", "/dev/null" };

  assert_int_equal (mkfifo (folder->path, 0600), 0);
  alarm (LONGEST_SECONDS);
  for (gsize i = 0; i < G_N_ELEMENTS (paths); i++)
    for (gsize m = 0; m < G_N_ELEMENTS (modes); m++)
      {
        GError *error = NULL;

        assert_null (cro_store_open (paths[i], "cook", modes[m], &error));
        assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOT_A_BOOK));
        g_clear_error (&error);
      }
  alarm (0);
}

/* --- What a kill leaves --------------------------------------------------------------------------- */

/* Runs a child that begins a book, says so, and waits to be killed. */
static pid_t
begin_in_a_child (CroTestFolder *folder)
{
  int   ends[2];
  char  said;
  pid_t child;

  assert_int_equal (pipe (ends), 0);
  child = fork ();
  assert_true (child >= 0);
  if (child == 0)
    {
      if (cro_store_create_unfinished (folder->path, "killed", NULL) != NULL
          && write (ends[1], "!", 1) == 1)
        pause ();
      _exit (1);
    }
  close (ends[1]);
  assert_int_equal (read (ends[0], &said, 1), 1);
  close (ends[0]);
  return child;
}

static guint
count_files (const char *folder)
{
  char         *names = list_files (folder);
  g_auto(GStrv) all = g_strsplit (names, " ", -1);

  g_free (names);
  return g_strv_length (all) - 1;
}

static void
test_what_a_killed_program_left_goes (void **state)
{
  CroTestFolder *folder = *state;
  char          *other = g_build_filename (folder->folder, ".croustade-unfinished.mine", NULL);
  pid_t          child = begin_in_a_child (folder);
  int            status;

  /* As long as it lives nobody takes its file away, and what is called otherwise is another's. */
  assert_true (g_file_set_contents (other, "mine", -1, NULL));
  assert_true (count_files (folder->folder) > 1);
  cro_store_close (begin (folder));
  assert_true (count_files (folder->folder) > 1);
  kill (child, SIGKILL);
  assert_int_equal (waitpid (child, &status, 0), child);
  assert_true (count_files (folder->folder) > 1);
  cro_store_close (begin (folder));
  assert_files (folder, ".croustade-unfinished.mine ");
  g_free (other);
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_what_is_not_finished_leaves_nothing),
    CASE (test_what_is_finished_has_its_name),
    CASE (test_what_somebody_else_made_meanwhile_stays),
    CASE (test_a_new_book_takes_no_log_over),
    CASE (test_a_name_is_a_name_whatever_it_looks_like),
    CASE (test_a_book_behind_a_link),
    CASE (test_a_pipe_and_a_device_are_no_books),
    CASE (test_what_a_killed_program_left_goes),
  };

  return cmocka_run_group_tests_name ("how a book is made", tests, NULL, NULL);
}
