/* The window from inside: what is typed and done in it, undo in words, its places and their keys, what others do to
 * its book. */
#include "support/window-hands.h"

#include "cro-edit.h"
#include "cro-field.h"
#include "cro-focus.h"
#include "cro-here.h"
#include "cro-history-window.h"
#include "cro-load.h"
#include "cro-recent.h"

#include <glib/gstdio.h>

static void
test_typing_previews (void **state)
{
  CroTestWindow *f = *state;
  GtkEditable *amount = amount_of (f);

  assert_true (shows (f, "0.23"));
  gtk_editable_set_text (amount, "100");
  wait_for (f, shows, "0.92");
  wait_for (f, shows, "Undo first plate");
}

static void
test_kept_text_is_an_act (void **state)
{
  CroTestWindow *f = *state;
  GtkEditable *amount = amount_of (f);

  gtk_editable_set_text (amount, "100");
  g_signal_emit_by_name (amount, "activate");
  wait_for (f, shows, "Undo amount of Butter");
  assert_true (shows (f, "0.92"));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.undo", NULL));
  wait_for (f, shows, "0.23");
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.redo", NULL));
  wait_for (f, shows, "0.92");
}

/* The field is left as its window goes. */
static void
test_a_window_goes_with_typed_text_and_keeps_it (void **state)
{
  CroTestWindow *f = *state;
  GtkEditable *amount = amount_of (f);
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (gtk_widget_grab_focus (GTK_WIDGET (amount)));
  gtk_editable_set_text (amount, "100");
  wait_for (f, shows, "0.92");
  gtk_window_destroy (GTK_WINDOW (f->window));
  f->window = NULL;
  cro_test_widgets_gone ();
  book = cro_book_open (f->folder.path, "other", CRO_STORE_WRITE, cro_here_today (), &error);
  assert_non_null (book);
  assert_true (cro_book_get_model (book)->lines.amount[0] == 100000000);
}

static void
test_a_wrong_entry_stays (void **state)
{
  CroTestWindow *f = *state;
  GtkEditable *amount = amount_of (f);

  gtk_editable_set_text (amount, "25 x");
  g_signal_emit_by_name (amount, "activate");
  assert_string_equal (gtk_editable_get_text (amount), "25 x");
  assert_true (shows (f, "0.23"));
  wait_for (f, shows, "Undo first plate");
}

static void
test_what_others_do_is_shown (void **state)
{
  CroTestWindow *f = *state;
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBook) other = cro_book_open (f->folder.path, "other", CRO_STORE_WRITE, cro_here_today (),
                                             &error);
  CroCell cell = CRO_CELL_INT (50000000);

  assert_non_null (other);
  assert_true (cro_book_set (other, "amount", "recipe_line", 1, "amount_micro", &cell, &error));
  wait_for (f, shows, "0.46");
}

static guint
n_windows (void)
{
  return g_list_length (gtk_application_get_windows (GTK_APPLICATION (g_application_get_default ())));
}

static void
test_a_book_that_is_open_comes_to_the_front (void **state)
{
  CroTestWindow *f = *state;
  guint n = n_windows ();

  cro_window_open_in (GTK_APPLICATION (g_application_get_default ()), f->folder.path);
  assert_int_equal (n_windows (), n);
}

static void
test_a_second_window_shows_what_the_first_does (void **state)
{
  CroTestWindow *f = *state;
  CroTestWindow second = { 0 };
  g_autoptr (GError) error = NULL;
  CroCell cell = CRO_CELL_INT (50000000);

  gtk_editable_set_text (field_of (f, "quick"), "3 unfinished");
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.new-window", NULL));
  for (GList *at = gtk_application_get_windows (GTK_APPLICATION (g_application_get_default ())); at != NULL;
       at = at->next)
    if (at->data != f->window)
      second.window = at->data;
  assert_non_null (second.window);
  wait_for (&second, shows, "0.23");
  assert_true (cro_book_set (cro_window_get_book (f->window), "amount", "recipe_line", 1,
                             "amount_micro", &cell, &error));
  wait_for (&second, shows, "0.46");

  /* What is being typed in one is of that one alone. */
  assert_string_equal (gtk_editable_get_text (field_of (&second, "quick")), "");
  gtk_window_destroy (GTK_WINDOW (second.window));
  wait_for (f, shows, "0.46");
}

/* The figures of what is gone must not stay on the screen. */
static void
test_the_last_plate_leaves_nothing (void **state)
{
  CroTestWindow *f = *state;
  GtkWidget *line, *focus;
  CroBook *book = cro_window_get_book (f->window);
  g_autoptr (GError) error = NULL;

  wait_for (f, shows, "0.23");
  assert_true (cro_edit_remove (book, "removal", CRO_REF (CRO_REF_RECIPE, 0), &error));
  wait_for (f, shows, "No plate yet.");
  /* The first line makes the first plate, and the next is typed into that. */
  line = GTK_WIDGET (field_of (f, "quick"));
  assert_true (gtk_widget_grab_focus (line));
  gtk_editable_set_text (GTK_EDITABLE (line), "10 g lemon 3.60/kg");
  g_signal_emit_by_name (line, "activate");
  wait_for (f, shows_not, "No plate yet.");
  cro_test_settle ();
  focus = gtk_window_get_focus (GTK_WINDOW (f->window));
  assert_true (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (field_of (f, "quick"))));
  assert_true (cro_book_undo (book, NULL, &error));
  wait_for (f, shows, "No plate yet.");
  assert_true (cro_book_undo (book, NULL, &error));
  wait_for (f, shows, "0.23");
}

/* A book that was emptied is filled by another process, and has fewer rows than it had: what was visited before
 * stood at slots that there are no more. */
static void
test_a_book_that_is_read_anew_leads_back_to_nothing (void **state)
{
  CroTestWindow *f = *state;
  CroBook *book = cro_window_get_book (f->window);
  g_autofree char *file = g_build_filename (f->folder.folder, "suppliers.csv", NULL);
  CroFaults *faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;

  cro_window_open_ref (f->window, CRO_REF (CRO_REF_ITEM, 0));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", CRO_PLACE_MARKET));
  assert_int_equal (f->window->before->len, 2);
  assert_true (cro_book_undo (book, NULL, &error));
  assert_true (g_file_set_contents (file, "name\nQuay\n", -1, NULL));
  assert_true (cro_load (f->folder.path, f->folder.folder, "other", "load", FALSE, NULL, NULL, faults, &error));
  cro_faults_free (faults);
  assert_true (cro_book_refresh (book, NULL, &error));
  cro_book_tell (book);
  assert_int_equal (cro_book_get_model (book)->recipes->len, 0);
  assert_int_equal (f->window->before->len, 0);
  g_unlink (file);
}

static gboolean
is_of_late (CroTestWindow *f,
            const char    *path)
{
  g_auto (GStrv) paths = cro_recent_dup ();

  return g_strv_contains ((const char *const *) paths, path);
}

static void
test_a_book_that_was_opened_is_one_of_late (void **state)
{
  CroTestWindow *f = *state;

  wait_for (f, is_of_late, f->folder.path);
  assert_true (g_menu_model_get_n_items (G_MENU_MODEL (f->window->recent_menu)) >= 1);
}

static void
test_making_and_undoing_a_plate (void **state)
{
  CroTestWindow *f = *state;

  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.new-thing", NULL));
  wait_for (f, shows, "New plate");
  assert_true (GTK_IS_EDITABLE (gtk_window_get_focus (GTK_WINDOW (f->window))));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.undo", NULL));
  wait_for (f, shows_not, "New plate");
  wait_for (f, shows, "0.23");
}

/* However near to each other what is selected was given up and taken again: X cannot tell within a millisecond. */
static void
test_a_new_name_stays_selected (void **state)
{
  CroTestWindow *f = *state;

  for (int i = 0; i < 8; i++)
    {
      gint64 end;

      assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.new-thing", NULL));
      for (end = g_get_monotonic_time () + 120000; g_get_monotonic_time () < end;)
        g_main_context_iteration (NULL, FALSE);
      assert_true (gtk_editable_get_selection_bounds (GTK_EDITABLE (gtk_window_get_focus (GTK_WINDOW (f->window))),
                                                      NULL, NULL));
    }
}

/* What is looked for is not chosen by that alone. */
static void
test_enter_on_a_row_that_was_found_shows_it (void **state)
{
  CroTestWindow *f = *state;
  GtkWidget *list = GTK_WIDGET (f->window->list);
  GtkWidget *search = cro_test_find_type (list, GTK_TYPE_SEARCH_ENTRY);
  CroRef toast = f->window->now;

  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.new-thing", NULL));
  wait_for (f, shows, "New plate");
  assert_false (cro_ref_equal (f->window->now, toast));
  gtk_editable_set_text (GTK_EDITABLE (search), "toast");
  g_signal_emit_by_name (search, "search-changed");
  g_signal_emit_by_name (cro_test_find_type (list, GTK_TYPE_LIST_VIEW), "activate", 0);
  assert_true (cro_ref_equal (f->window->now, toast));
}

static void
test_the_history_is_searched_to_its_end (void **state)
{
  CroTestWindow *f = *state;
  GtkWidget *history, *search;
  g_autoptr (GError) error = NULL;

  for (int i = 0; i < 250; i++)
    {
      CroCell cell = CRO_CELL_INT (50000000 + i);

      assert_true (cro_book_set (cro_window_get_book (f->window), "amount", "recipe_line", 1,
                                 "amount_micro", &cell, &error));
    }
  history = cro_history_window_new (GTK_WINDOW (f->window), cro_window_get_book (f->window),
                                    CRO_REF_NOWHERE);
  gtk_window_present (GTK_WINDOW (history));
  assert_null (cro_test_find_shown (history, "first plate"));
  search = cro_test_find_type (history, GTK_TYPE_SEARCH_ENTRY);
  gtk_editable_set_text (GTK_EDITABLE (search), "plate first");
  g_signal_emit_by_name (search, "search-changed");
  cro_test_settle ();
  assert_non_null (cro_test_find_shown (history, "first plate"));
  assert_null (cro_test_find_shown (history, "amount"));
  gtk_window_destroy (GTK_WINDOW (history));
}

static void
test_every_place_can_be_shown (void **state)
{
  CroTestWindow *f = *state;

  for (int place = 0; place < 5; place++)
    {
      assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", place));
      for (int i = 0; i < 50; i++)
        g_main_context_iteration (NULL, FALSE);
    }
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", 3));
  wait_for (f, shows, "Moved most in 28 days");
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.back", NULL));
}

/* A press on the rail leaves the focus on its row, where no letter says anything. */
static void
test_a_place_is_typed_into_however_it_was_opened (void **state)
{
  CroTestWindow *f = *state;
  GtkWidget *rail = cro_focus_find (GTK_WIDGET (f->window), "rail");

  for (int place = 4; place >= 0; place--)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (rail), place);
      GtkWidget *focus;

      assert_true (gtk_widget_grab_focus (GTK_WIDGET (row)));
      g_signal_emit_by_name (rail, "row-activated", row);
      for (int i = 0; i < 50; i++)
        g_main_context_iteration (NULL, FALSE);
      focus = gtk_window_get_focus (GTK_WINDOW (f->window));
      if (focus == NULL || gtk_widget_is_ancestor (focus, rail))
        fail_msg ("place %d: the focus is on its button", place);
      if (place > 2)
        assert_true (GTK_IS_BUTTON (focus) || GTK_IS_LIST_BOX_ROW (focus)
                     || gtk_widget_get_ancestor (focus, GTK_TYPE_SEARCH_ENTRY) != NULL);
      if (place == 4)
        wait_for (f, shows, "No sales, purchases or counts yet.");
    }
}

static void
test_keys_lead_backwards_out_of_every_field (void **state)
{
  CroTestWindow *f = *state;
  GtkWidget *quick = cro_focus_find (GTK_WIDGET (f->window), "quick");
  GtkWidget *first = NULL;

  /* The order of the fields is that of their places. */
  cro_test_wait_until (gtk_widget_get_width (quick) > 0, "the window has no places yet");
  assert_true (gtk_widget_grab_focus (quick));
  for (int i = 0; i < 60 && first != cro_focus_find (GTK_WIDGET (f->window), "rail"); i++)
    {
      GtkWidget *before = gtk_window_get_focus (GTK_WINDOW (f->window));

      assert_true (gtk_widget_child_focus (GTK_WIDGET (f->window), GTK_DIR_TAB_BACKWARD));
      if (gtk_window_get_focus (GTK_WINDOW (f->window)) == before)
        fail_msg ("the focus stays on a %s", G_OBJECT_TYPE_NAME (before));
      first = gtk_widget_get_parent (gtk_window_get_focus (GTK_WINDOW (f->window)));
    }
  assert_ptr_equal (first, cro_focus_find (GTK_WIDGET (f->window), "rail"));
}

/* Ctrl+Z is the book's where a field holds what the program put there. */
static void
test_a_text_that_nobody_typed_is_not_undone (void **state)
{
  GtkWidget *entry = g_object_ref_sink (cro_entry_new ("covers", 5));
  GtkEditable *text = gtk_editable_get_delegate (GTK_EDITABLE (entry));

  cro_entry_put (entry, "20");
  assert_true (cro_entry_is_put (entry));
  gtk_widget_activate_action (GTK_WIDGET (text), "text.undo", NULL);
  assert_string_equal (gtk_editable_get_text (text), "20");
  gtk_editable_set_text (text, "45");
  assert_false (cro_entry_is_put (entry));
  g_object_unref (entry);
}

static GtkDropTarget *
drop_target_of (GtkWidget *widget)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GObject) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_DROP_TARGET (controller))
        return GTK_DROP_TARGET (controller);
    }
  return NULL;
}

/* As the toolkit tells of it: one file lets go over the window. */
static gboolean
drop_file (CroTestWindow *f,
           const char    *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_auto (GValue) value = G_VALUE_INIT;
  gboolean is_taken = FALSE;

  g_value_init (&value, G_TYPE_FILE);
  g_value_set_object (&value, file);
  g_signal_emit_by_name (drop_target_of (GTK_WIDGET (f->window)), "drop", &value, 10.0, 10.0, &is_taken);
  return is_taken;
}

static void
test_a_picture_that_is_dropped_is_the_plates (void **state)
{
  CroTestWindow *f = *state;
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 40, 30);
  g_autofree char *picture = g_build_filename (f->folder.folder, "toast.jpg", NULL);
  g_autofree char *words = g_build_filename (f->folder.folder, "toast.odp", NULL);

  gdk_pixbuf_fill (pixbuf, 0xC08040FF);
  assert_true (gdk_pixbuf_save (pixbuf, picture, "jpeg", NULL, NULL));
  assert_true (g_file_set_contents (words, "toast", -1, NULL));
  assert_false (drop_file (f, words));
  assert_true (drop_file (f, picture));
  wait_for (f, shows, "Remove Picture");
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.undo", NULL));
  wait_for (f, shows_not, "Remove Picture");
  g_unlink (picture);
  g_unlink (words);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, cro_test_window_open_plate, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    CASE (test_a_text_that_nobody_typed_is_not_undone),
    CASE (test_typing_previews),
    CASE (test_kept_text_is_an_act),
    CASE (test_a_window_goes_with_typed_text_and_keeps_it),
    CASE (test_a_wrong_entry_stays),
    CASE (test_what_others_do_is_shown),
    CASE (test_a_book_that_is_open_comes_to_the_front),
    CASE (test_a_second_window_shows_what_the_first_does),
    CASE (test_the_last_plate_leaves_nothing),
    CASE (test_a_book_that_is_read_anew_leads_back_to_nothing),
    CASE (test_a_book_that_was_opened_is_one_of_late),
    CASE (test_making_and_undoing_a_plate),
    CASE (test_a_new_name_stays_selected),
    CASE (test_a_picture_that_is_dropped_is_the_plates),
    CASE (test_every_place_can_be_shown),
    CASE (test_enter_on_a_row_that_was_found_shows_it),
    CASE (test_the_history_is_searched_to_its_end),
    CASE (test_a_place_is_typed_into_however_it_was_opened),
    CASE (test_keys_lead_backwards_out_of_every_field),
  };

  return cro_test_window_run (tests);
}
