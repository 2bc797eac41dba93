/* A process that is killed at any moment loses no act that was reported done, and leaves none
 * half done. (A kill is no power cut: what the kernel holds is still written.) */
#include "cro-history.h"
#include "cro-store.h"
#include "support/n-books.h"
#include "support/store-book.h"

#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#define N_KILLS CRO_TEST_N_BOOKS (40)
#define N_KILLS_OF_CREATE CRO_TEST_N_BOOKS (20)
#define MOST_REPORTS 6
#define LONGEST_USEC 1000
#define LONGEST_CREATE_USEC 30000

/* Act n sets the plate's price to n and adds the supplier "act n": both or neither. */
static gboolean
commit_act (CroStore *store,
            gint64    n)
{
  static const char *const price[] = { "price_micro", NULL };
  static const char *const name[] = { "name", NULL };
  CroCell                  price_cell = CRO_CELL_INT (n);
  char                    *text = g_strdup_printf ("act %" G_GINT64_FORMAT, n);
  CroCell                  name_cell = CRO_CELL_STR (text);
  CroWriter               *writer;
  gboolean                 done;

  done = cro_store_begin_act (store, text, NULL) &&
         cro_store_update (store, "plate", 1, price, &price_cell, NULL);
  writer = done ? cro_writer_new (store, "supplier", name, NULL) : NULL;
  done = writer != NULL && cro_writer_insert (writer, &name_cell, NULL, NULL);
  cro_writer_free (writer);
  g_free (text);
  return done && cro_store_end_act (store, NULL, NULL);
}

static void
commit_until_killed (const char *path,
                     gint64      first,
                     int         report)
{
  CroStore *store = cro_store_open (path, "killed", CRO_STORE_WRITE, NULL);

  if (store == NULL)
    _exit (1);
  for (gint64 n = first;; n++)
    {
      if (!commit_act (store, n) || write (report, &n, sizeof n) != sizeof n)
        _exit (2);
      if (n % 37 == 0 && !cro_store_checkpoint (store, NULL))
        _exit (3);
    }
}

/* Lets a child report some acts, kills it at any moment of those that follow, and returns what it reported
 * last. It is by reports that it is let work: by time alone a quick disk makes so many acts that verifying them
 * takes minutes. */
static gint64
run_and_kill (const char *path,
              gint64      first,
              GRand      *rand)
{
  int    ends[2];
  pid_t  child;
  int    n_reports = g_rand_int_range (rand, 1, MOST_REPORTS + 1);
  gint64 last = first - 1;
  gint64 n;
  int    status;

  assert_int_equal (pipe (ends), 0);
  child = fork ();
  assert_true (child >= 0);
  if (child == 0)
    {
      close (ends[0]);
      commit_until_killed (path, first, ends[1]);
    }
  close (ends[1]);
  for (int i = 0; i < n_reports && read (ends[0], &n, sizeof n) == sizeof n; i++)
    last = n;
  g_usleep (g_rand_int_range (rand, 0, LONGEST_USEC));
  kill (child, SIGKILL);
  while (read (ends[0], &n, sizeof n) == sizeof n)
    last = n;
  close (ends[0]);
  assert_int_equal (waitpid (child, &status, 0), child);
  if (!WIFSIGNALED (status))
    fail_msg ("the child gave up by itself: %d", WEXITSTATUS (status));
  return last;
}

static gint64
number (const char *path,
        const char *sql)
{
  sqlite3      *db = cro_test_raw (path);
  sqlite3_stmt *stmt;
  gint64        result;

  assert_int_equal (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  result = sqlite3_column_int64 (stmt, 0);
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  return result;
}

static void
found_cb (const char *finding,
          gpointer    user_data)
{
  fail_msg ("%s", finding);
}

static gint64
assert_sound (const char *path,
              gint64      reported)
{
  GError   *error = NULL;
  CroStore *store = cro_test_open (path, "inspector");
  gint64    done = number (path, "SELECT price_micro FROM plate");

  cro_test_must (cro_store_verify (store, found_cb, NULL, &error), error);
  if (done < reported)
    fail_msg ("act %" G_GINT64_FORMAT " was reported done and is lost", reported);
  assert_int_equal (number (path, "SELECT count(*) FROM supplier WHERE name LIKE 'act %'"), done);
  assert_int_equal (number (path, "SELECT count(*) FROM act WHERE desk = 'killed'"), done);
  assert_int_equal (number (path, "SELECT count(*) FROM change WHERE act IN"
                                         " (SELECT id FROM act WHERE desk = 'killed')"), 2 * done);
  assert_int_equal (number (path, "SELECT count(*) FROM act WHERE at IS NULL"), 0);
  cro_store_close (store);
  return done;
}

static void
test_no_act_is_lost_or_half_done (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  GRand        *rand = g_rand_new_with_seed (20261125);
  gint64        done = 0;

  cro_store_close (cro_test_create (folder.path));
  cro_test_add_rows (folder.path);
  {
    CroStore *store = cro_test_open (folder.path, "start");
    CroCell   zero = CRO_CELL_INT (0);

    assert_true (cro_store_begin_act (store, "start", NULL));
    assert_true (cro_store_update (store, "plate", 1, (const char *const[]){ "price_micro", NULL },
                                   &zero, NULL));
    assert_true (cro_store_end_act (store, NULL, NULL));
    cro_store_close (store);
  }
  for (int i = 0; i < N_KILLS; i++)
    done = assert_sound (folder.path, run_and_kill (folder.path, done + 1, rand));
  if (done <= N_KILLS)
    fail_msg ("too few acts were done to say anything");
  g_rand_free (rand);
  cro_test_folder_clear (&folder);
}

static void
create_until_killed (const char *folder)
{
  for (int n = 0;; n++)
    {
      char     *path = g_strdup_printf ("%s/%d.croustade", folder, n);
      CroStore *store = cro_store_create (path, "killed", NULL);

      if (store == NULL)
        _exit (1);
      cro_store_close (store);
      g_free (path);
    }
}

static void
assert_books_are_whole (const char *folder)
{
  GDir       *dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".croustade"))
      {
        char *path = g_build_filename (folder, name, NULL);

        cro_store_close (cro_test_open (path, "inspector"));
        g_free (path);
      }
  g_dir_close (dir);
}

static void
test_no_half_made_book_bears_its_name (void **state)
{
  GRand *rand = g_rand_new_with_seed (1);

  for (int i = 0; i < N_KILLS_OF_CREATE; i++)
    {
      CroTestFolder folder = cro_test_folder_new ();
      pid_t         child = fork ();

      assert_true (child >= 0);
      if (child == 0)
        create_until_killed (folder.folder);
      g_usleep (g_rand_int_range (rand, 0, LONGEST_CREATE_USEC));
      kill (child, SIGKILL);
      waitpid (child, NULL, 0);
      assert_books_are_whole (folder.folder);
      cro_test_folder_clear (&folder);
    }
  g_rand_free (rand);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_no_act_is_lost_or_half_done),
    cmocka_unit_test (test_no_half_made_book_bears_its_name),
  };

  return cmocka_run_group_tests_name ("a process that is killed", tests, NULL, NULL);
}
