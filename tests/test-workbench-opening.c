/* A book that is being opened is given up by Escape or a button, and the window is as it was. */
#include <fcntl.h>
#include <glib/gstdio.h>
#include <sys/file.h>

#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-here.h"
#include "cro-records-view.h"
#include "cro-state.h"
#include "support/book-window.h"

/* --- Giving up -------------------------------------------------------------------------------- */

static gboolean
press_escape (CroTestWindow *test)
{
  return cro_test_press_shortcut (GTK_WIDGET (test->window), "Escape");
}

static gboolean
is_page (CroTestWindow *test,
         const char    *name)
{
  return g_str_equal (gtk_stack_get_visible_child_name (test->window->stack), name);
}

static void
assert_opening (CroTestWindow *test)
{
  assert_true (is_page (test, "opening"));
  assert_ptr_equal (gtk_window_get_focus (GTK_WINDOW (test->window)), test->window->cancel_button);
}

/* The thread holds the window as long as it works; then the window hears of its end. */
static void
wait_for_thread (CroTestWindow *test,
                 guint          n_before)
{
  cro_test_wait_until (G_OBJECT (test->window)->ref_count <= n_before, "the thread does not end");
  cro_test_settle ();
}

/* --- Where a book is shown -------------------------------------------------------------------- */

static void
begin_yesterday (CroTestWindow *test)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (test->window->book_of_day), TRUE);
  cro_window_open_day (test->window, cro_here_today () - 2, TRUE);
  assert_opening (test);
}

static void
test_escape_gives_a_past_up (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  g_autofree char *path = g_strdup (test->window->path);
  GtkWidget *focus;
  guint n_refs;

  cro_test_window_go (test, CRO_PLACE_LARDER, 1);
  focus = cro_test_window_focus (test, "going to the larder");
  n_refs = G_OBJECT (test->window)->ref_count;
  begin_yesterday (test);
  assert_true (press_escape (test));
  assert_true (is_page (test, "book"));
  wait_for_thread (test, n_refs);
  assert_true (is_page (test, "book"));
  assert_ptr_equal (cro_window_get_book (test->window), book);
  assert_string_equal (test->window->path, path);
  assert_ptr_equal (cro_test_window_focus (test, "giving up"), focus);
  assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (test->window->prices_of_day)));
  assert_string_equal (gtk_menu_button_get_label (GTK_MENU_BUTTON (test->window->date_button)),
                       "Prices of today");
  /* It follows what others do again; and Escape is nobody's any longer. */
  assert_int_not_equal (test->window->poll_id, 0);
  assert_false (press_escape (test));
}

static void
test_what_was_given_up_can_be_asked_for_again (void **state)
{
  CroTestWindow *test = *state;
  guint n_refs = G_OBJECT (test->window)->ref_count;

  begin_yesterday (test);
  gtk_widget_activate_action (test->window->cancel_button, "win.cancel-work", NULL);
  begin_yesterday (test);
  /* The book began today: the day before is refused, in words, and the book stays. */
  wait_for_thread (test, n_refs);
  assert_true (is_page (test, "book"));
  assert_false (cro_book_is_past (cro_window_get_book (test->window), NULL));
}

/* --- Where none is ---------------------------------------------------------------------------- */

static void
test_a_window_without_a_book_is_for_none_again (void **state)
{
  CroTestWindow *test = *state;
  guint n_refs = G_OBJECT (test->window)->ref_count;

  cro_window_open_path (test->window, test->folder.path);
  assert_opening (test);
  assert_true (press_escape (test));
  wait_for_thread (test, n_refs);
  assert_true (is_page (test, "welcome"));
  assert_null (test->window->path);
  assert_null (cro_window_get_book (test->window));
}

/* What was said of a file stands as long as it holds. */
static void
test_trouble_is_said_again (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *letter = g_build_filename (test->folder.folder, "letter.croustade", NULL);
  guint n_refs;

  assert_true (g_file_set_contents (letter, "to the forager", -1, NULL));
  cro_window_open_path (test->window, letter);
  cro_test_wait_until (is_page (test, "trouble"), "nothing is said of a letter");
  n_refs = G_OBJECT (test->window)->ref_count;
  cro_window_open_path (test->window, test->folder.path);
  assert_true (press_escape (test));
  wait_for_thread (test, n_refs);
  assert_true (is_page (test, "trouble"));
  assert_string_equal (test->window->path, letter);
}

/* Nothing is left of a book that was not made. */
static void
test_making_a_book_is_given_up (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *demo = g_build_filename (g_getenv ("CROUSTADE_SOURCE"), "data", "demo", NULL);
  guint n_refs = G_OBJECT (test->window)->ref_count;

  cro_window_begin_work (test->window, test->folder.path, demo);
  assert_opening (test);
  assert_true (press_escape (test));
  wait_for_thread (test, n_refs);
  assert_true (is_page (test, "welcome"));
  assert_false (g_file_test (test->folder.path, G_FILE_TEST_EXISTS));
}

/* What was kept of a book may have been changed by anybody. */
static void
test_a_month_of_no_calendar_is_not_shown (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *desk = cro_here_dup_desk ();

  cro_test_put_demo (test->folder.path, desk);
  cro_state_set_text (test->folder.path, "table", "month");
  cro_state_set_int (test->folder.path, "id", 1);
  cro_window_open_path (test->window, test->folder.path);
  cro_test_wait_until (cro_window_get_book (test->window) != NULL, "the book is not opened");
  cro_test_settle ();
  assert_int_not_equal (test->window->place, CRO_PLACE_MONTHS);
}

/* Two sessions of one home: what the other wrote since this one read the file stays, but for what was set here. */
static void
test_another_session_keeps_what_it_remembers (void **state)
{
  g_autofree char *path = cro_state_dup_path ("state.ini");
  g_autoptr (GKeyFile) theirs = g_key_file_new (), after = g_key_file_new ();
  g_autofree char *ours = NULL, *taken = NULL, *set = NULL, *gone = NULL;

  cro_state_set_text ("two", "ours", "1");
  cro_state_set_text ("two", "theirs", "1");
  cro_state_set_text ("two", "gone", "1");
  assert_true (cro_state_write (NULL));

  assert_true (g_key_file_load_from_file (theirs, path, G_KEY_FILE_NONE, NULL));
  g_key_file_set_string (theirs, "two", "ours", "2");
  g_key_file_set_string (theirs, "two", "theirs", "2");
  g_key_file_set_string (theirs, "two", "new", "2");
  assert_true (g_key_file_save_to_file (theirs, path, NULL));

  cro_state_set_text ("two", "ours", "3");
  cro_state_set_text ("two", "gone", NULL);
  assert_true (cro_state_write (NULL));
  assert_true (g_key_file_load_from_file (after, path, G_KEY_FILE_NONE, NULL));
  ours = g_key_file_get_string (after, "two", "ours", NULL);
  taken = g_key_file_get_string (after, "two", "theirs", NULL);
  set = g_key_file_get_string (after, "two", "new", NULL);
  gone = g_key_file_get_string (after, "two", "gone", NULL);
  assert_string_equal (ours, "3");
  assert_string_equal (taken, "2");
  assert_string_equal (set, "2");
  assert_null (gone);
}

/* A session that was stopped between reading and writing keeps the lock. */
static void
test_a_lock_that_is_kept_stops_nobody (void **state)
{
  g_autofree char *path = cro_state_dup_path ("state.lock"), *written = cro_state_dup_path ("state.ini");
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_autofree char *kept = NULL;
  int held;

  cro_state_set_text ("test", "locked", "before");
  assert_true (cro_state_write (NULL));
  held = g_open (path, O_RDWR | O_CLOEXEC, 0600);
  assert_true (held >= 0);
  assert_int_equal (flock (held, LOCK_EX), 0);
  cro_state_set_text ("test", "locked", "after");
  assert_true (cro_state_write (NULL));
  assert_true (g_key_file_load_from_file (file, written, G_KEY_FILE_NONE, NULL));
  kept = g_key_file_get_string (file, "test", "locked", NULL);
  assert_string_equal (kept, "after");
  g_close (held, NULL);
}

static void
count_cb (const GError *error,
          gpointer      n_told)
{
  ++*(guint *) n_told;
}

/* The state's folder is a file: a window that is closed says once what is lost, and then goes. */
static void
test_what_is_lost_is_said_before_a_window_goes (void **state)
{
  CroTestWindow *test = *state;
  g_autofree char *file = cro_state_dup_path ("state.ini"), *folder = g_path_get_dirname (file);
  g_autofree char *away = g_strconcat (folder, "-away", NULL);
  gboolean stays = FALSE;
  guint n_told = 0;

  cro_state_set_text ("test", "of", test->folder.path);
  assert_true (cro_state_write (NULL));
  g_rename (folder, away);
  assert_true (g_file_set_contents (folder, "", 0, NULL));
  cro_state_set_failed (count_cb, &n_told);
  cro_state_set_text ("test", "of", "typed");
  g_signal_emit_by_name (test->window, "close-request", &stays);
  assert_true (stays);
  assert_int_equal (n_told, 1);
  assert_false (cro_state_tell (NULL));
  g_unlink (folder);
  g_rename (away, folder);
  assert_true (cro_state_write (NULL));
  cro_state_set_failed (NULL, NULL);
}

/* --- What no first frame shows ------------------------------------------------------------------ */

/* By the name of its type, which newer toolkits would rather not have asked for. */
static GtkWidget *
find_help (void)
{
  g_autoptr (GList) all = gtk_window_list_toplevels ();

  for (GList *one = all; one != NULL; one = one->next)
    if (strcmp (G_OBJECT_TYPE_NAME (one->data), "GtkShortcutsWindow") == 0)
      return one->data;
  return NULL;
}

static void
test_what_an_empty_book_does_not_show_is_made_later (void **state)
{
  CroTestWindow *test = *state;
  CroRef plate = { .kind = CRO_REF_RECIPE };
  GError *error = NULL;

  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  assert_null (cro_test_find_type (cro_test_window_bench (test), CRO_TYPE_RECORDS_VIEW));
  assert_null (find_help ());
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.show-help-overlay", NULL);
  assert_non_null (find_help ());
  assert_true (gtk_widget_get_visible (find_help ()));
  cro_test_window_close_others (test);
  cro_test_must (cro_edit_add_plate (cro_window_get_book (test->window), "plate", "Toast", CRO_MICRO,
                                     &plate.slot, &error),
                 error);
  cro_test_settle ();
  assert_non_null (cro_test_find_type (cro_test_window_bench (test), CRO_TYPE_RECORDS_VIEW));
  cro_test_wait_shown (cro_test_window_bench (test), "Toast");
}

int
main (void)
{
#define CASE(test, set_up) cmocka_unit_test_setup_teardown (test, set_up, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    CASE (test_another_session_keeps_what_it_remembers, cro_test_window_open_nothing),
    CASE (test_a_lock_that_is_kept_stops_nobody, cro_test_window_open_nothing),
    CASE (test_what_is_lost_is_said_before_a_window_goes, cro_test_window_open_nothing),
    CASE (test_escape_gives_a_past_up, cro_test_window_open_demo),
    CASE (test_what_was_given_up_can_be_asked_for_again, cro_test_window_open_demo),
    CASE (test_a_window_without_a_book_is_for_none_again, cro_test_window_open_nothing),
    CASE (test_trouble_is_said_again, cro_test_window_open_nothing),
    CASE (test_making_a_book_is_given_up, cro_test_window_open_nothing),
    CASE (test_a_month_of_no_calendar_is_not_shown, cro_test_window_open_nothing),
    CASE (test_what_an_empty_book_does_not_show_is_made_later, cro_test_window_open_empty),
  };

  return cro_test_window_run (tests);
}
