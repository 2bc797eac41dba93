/* A damaged book in the window: told in words, with ways on. */
#include "cro-saved-window.h"
#include "support/book-window.h"
#include "support/kitchen-tables.h"

/* --- A damaged book --------------------------------------------------------------------------- */

static gboolean
is_page (CroTestWindow *test,
         const char    *name)
{
  return g_str_equal (gtk_stack_get_visible_child_name (test->window->stack), name);
}

static char *
dup_copy (CroTestWindow *test)
{
  return g_strconcat (test->folder.path, ".bak", NULL);
}

/* A line of nothing, as only somebody else can write it; a copy of before where one is wanted. */
static void
open_damaged (CroTestWindow *test,
              gboolean       has_copy)
{
  g_autofree char *copy = dup_copy (test);
  g_autofree char *bytes = NULL;
  gsize length;
  sqlite3 *db;

  cro_test_write_tables (test->folder.folder, NULL, NULL);
  g_object_unref (cro_test_book_load (&test->folder));
  assert_true (g_file_get_contents (test->folder.path, &bytes, &length, NULL));
  assert_true (!has_copy || g_file_set_contents (copy, bytes, (gssize) length, NULL));
  db = cro_test_raw (test->folder.path);
  cro_test_sql (db, "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON");
  cro_test_begin_raw_act (db);
  cro_test_sql (db, "UPDATE recipe_line SET item = 77 WHERE id = 1");
  cro_test_end_raw_act (db);
  sqlite3_close (db);
  cro_window_open_path (test->window, test->folder.path);
  cro_test_wait_until (is_page (test, "trouble"), "nothing is said of the damage");
  cro_test_wait_shown (GTK_WIDGET (test->window), "The book is damaged");
  assert_ptr_equal (gtk_window_get_focus (GTK_WINDOW (test->window)), test->window->copy_button);
}

/* --- Ways on ---------------------------------------------------------------------------------- */

static void
test_the_newest_whole_copy_is_opened (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *copy = dup_copy (test);

  open_damaged (test, TRUE);
  gtk_widget_activate (test->window->copy_button);
  cro_test_wait_until (cro_window_get_book (test->window) != NULL, "the copy is not opened");
  assert_string_equal (test->window->path, copy);
  assert_true (is_page (test, "book"));
}

static void
test_where_there_is_no_copy_it_is_said (void **state)
{
  CroTestWindow *test = *state;

  open_damaged (test, FALSE);
  gtk_widget_activate (test->window->copy_button);
  cro_test_wait_shown (GTK_WIDGET (test->window),
                       "There is no whole copy of this book in its folder.");
  assert_true (is_page (test, "trouble"));
  assert_true (gtk_widget_get_sensitive (test->window->salvage_button));
}

static void
test_what_can_be_read_is_saved_and_becomes_a_book (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *folder = g_build_filename (g_get_home_dir (), "book, saved", NULL);
  g_autofree char *lines = g_build_filename (folder, "lines.csv", NULL);
  g_autofree char *list = g_build_filename (folder, "left-out.txt", NULL);
  GtkWidget *saved, *make;

  open_damaged (test, FALSE);
  gtk_widget_activate (test->window->salvage_button);
  cro_test_wait_until ((saved = cro_test_window_find_other (test)) != NULL, "nothing is saved");
  assert_true (CRO_IS_SAVED_WINDOW (saved));
  cro_test_wait_shown (saved, folder);
  assert_true (g_file_test (lines, G_FILE_TEST_EXISTS));
  assert_true (g_file_test (list, G_FILE_TEST_EXISTS));
  assert_non_null (cro_test_find_type (saved, GTK_TYPE_TEXT_VIEW));
  make = gtk_window_get_focus (GTK_WINDOW (saved));
  assert_true (GTK_IS_BUTTON (make));
  gtk_widget_activate (make);
  cro_test_wait_until (cro_window_get_book (test->window) != NULL, "no book is made of it");
  assert_true (g_str_has_suffix (test->window->path, "book, saved.croustade"));
  assert_true (cro_book_get_model (cro_window_get_book (test->window))->items->len > 0);
}

/* Of a file in which nothing is sound nothing is made, and the page stays. */
static void
test_where_nothing_can_be_read_it_is_said (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *bytes = NULL;
  gsize length;

  open_damaged (test, FALSE);
  assert_true (g_file_get_contents (test->folder.path, &bytes, &length, NULL));
  memset (bytes + 100, 0x5a, length - 100);
  assert_true (g_file_set_contents (test->folder.path, bytes, (gssize) length, NULL));
  gtk_widget_activate (test->window->salvage_button);
  cro_test_wait_shown (GTK_WIDGET (test->window), "Nothing of this book can be read.");
  assert_true (is_page (test, "trouble"));
  assert_null (cro_test_window_find_other (test));
}

int
main (void)
{
#define CASE(test) \
  cmocka_unit_test_setup_teardown (test, cro_test_window_open_nothing, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    CASE (test_the_newest_whole_copy_is_opened),
    CASE (test_where_there_is_no_copy_it_is_said),
    CASE (test_what_can_be_read_is_saved_and_becomes_a_book),
    CASE (test_where_nothing_can_be_read_it_is_said),
  };

  return cro_test_window_run (tests);
}
