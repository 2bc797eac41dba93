/* The window from inside: a book on its bench, previews, undo in words, what others do to the
 * file. Needs a screen: the build runs it under a virtual one. */
#include <adwaita.h>
#include <glib/gstdio.h>
#include <sqlite3.h>
#include <string.h>

#include "cro-field.h"
#include "cro-edit.h"
#include "cro-focus.h"
#include "cro-here.h"
#include "cro-history-window.h"
#include "cro-input.h"
#include "cro-load.h"
#include "cro-number.h"
#include "cro-recent.h"
#include "cro-settings-window.h"
#include "cro-window-private.h"
#include "support/widgets.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>

typedef struct
{
  CroWindow      *window;
  char           *folder;
  char           *path;
} Fixture;

static AdwApplication *application;

/* --- Waiting ---------------------------------------------------------------------------------- */

typedef gboolean (*Condition) (Fixture    *f,
                               const char *text);

static void
wait_for (Fixture    *f,
          Condition   condition,
          const char *text)
{
  cro_test_wait_until (condition (f, text), "not in time: %s", text);
}

static gboolean
shows (Fixture    *f,
       const char *text)
{
  return cro_test_find_shown (GTK_WIDGET (f->window), text) != NULL;
}

static gboolean
shows_not (Fixture    *f,
           const char *text)
{
  return !shows (f, text);
}

/* --- A book with one plate ------------------------------------------------------------------------ */

static void
make_book (Fixture *f)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *desk = cro_here_dup_desk ();
  g_autoptr (CroBook) book = cro_book_create (f->path, desk, cro_here_today (), &error);
  CroNewLine line = { .item = CRO_NO_SLOT, .name = "Butter", .base = CRO_BASE_GRAM,
                      .amount = 25000000, .unit = CRO_UNIT_G, .has_price = TRUE,
                      .price = { 9200000, CRO_UNIT_KG, "Mill", cro_here_today (), 0 } };

  assert_non_null (book);
  assert_true (cro_edit_start (book, "first plate", "EUR", "Toast", 1000000, &line, NULL, &error));
}

/* With what the database keeps beside it. */
static void
remove_book (const char *path)
{
  static const char *const endings[] = { "", "-wal", "-shm" };

  for (gsize i = 0; i < G_N_ELEMENTS (endings); i++)
    {
      g_autofree char *file = g_strconcat (path, endings[i], NULL);

      g_unlink (file);
    }
}

static int
open_window (void **state)
{
  Fixture *f = g_new0 (Fixture, 1);
  g_autoptr (GError) error = NULL;

  f->folder = g_dir_make_tmp ("croustade-window-XXXXXX", &error);
  assert_non_null (f->folder);
  f->path = g_build_filename (f->folder, "kitchen.croustade", NULL);
  make_book (f);
  f->window = CRO_WINDOW (cro_window_new (application));
  gtk_window_present (GTK_WINDOW (f->window));
  cro_window_open_path (f->window, f->path);
  wait_for (f, shows, "Toast");
  *state = f;
  return 0;
}

static int
close_window (void **state)
{
  Fixture *f = *state;

  if (f->window != NULL)
    {
      gtk_window_destroy (GTK_WINDOW (f->window));
      cro_test_widgets_gone ();
    }
  remove_book (f->path);
  g_rmdir (f->folder);
  g_free (f->folder);
  g_free (f->path);
  g_free (f);
  return 0;
}

/* The first field of a part of the window. */
static GtkEditable *
field_of (Fixture    *f,
          const char *part)
{
  GtkWidget *place = cro_focus_find (GTK_WIDGET (f->window), part);
  GtkWidget *entry;

  assert_non_null (place);
  entry = cro_test_find_type (place, GTK_TYPE_ENTRY);
  assert_non_null (entry);
  return GTK_EDITABLE (entry);
}

/* The field of the amount of the first line. */
static GtkEditable *
amount_of (Fixture *f)
{
  return field_of (f, "lines");
}

/* --- Cases ------------------------------------------------------------------------------------------ */

static void
test_typing_previews (void **state)
{
  Fixture *f = *state;
  GtkEditable *amount = amount_of (f);

  assert_true (shows (f, "0.23"));
  gtk_editable_set_text (amount, "100");
  wait_for (f, shows, "0.92");
  wait_for (f, shows, "Undo first plate");
}

static void
test_kept_text_is_an_act (void **state)
{
  Fixture *f = *state;
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
  Fixture *f = *state;
  GtkEditable *amount = amount_of (f);
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;

  assert_true (gtk_widget_grab_focus (GTK_WIDGET (amount)));
  gtk_editable_set_text (amount, "100");
  wait_for (f, shows, "0.92");
  gtk_window_destroy (GTK_WINDOW (f->window));
  f->window = NULL;
  cro_test_widgets_gone ();
  book = cro_book_open (f->path, "other", CRO_STORE_WRITE, cro_here_today (), &error);
  assert_non_null (book);
  assert_true (cro_book_get_model (book)->lines.amount[0] == 100000000);
}

static void
test_a_wrong_entry_stays (void **state)
{
  Fixture *f = *state;
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
  Fixture *f = *state;
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBook) other = cro_book_open (f->path, "other", CRO_STORE_WRITE, cro_here_today (),
                                             &error);
  CroCell cell = CRO_CELL_INT (50000000);

  assert_non_null (other);
  assert_true (cro_book_set (other, "amount", "recipe_line", 1, "amount_micro", &cell, &error));
  wait_for (f, shows, "0.46");
}

static void
test_a_file_that_is_gone_is_said (void **state)
{
  Fixture *f = *state;
  g_autofree char *away = g_strconcat (f->path, ".away", NULL);

  assert_int_equal (g_rename (f->path, away), 0);
  wait_for (f, shows, "The book’s file is gone");
  assert_int_equal (g_rename (away, f->path), 0);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.retry", NULL));
  wait_for (f, shows, "0.23");
}

/* --- Files that are no book to write into ------------------------------------------------------------ */

static void
run_sql (const char  *path,
         const char  *sql,
         sqlite3    **open)
{
  sqlite3 *db;

  assert_int_equal (sqlite3_open (path, &db), SQLITE_OK);
  assert_int_equal (sqlite3_exec (db, sql, NULL, NULL, NULL), SQLITE_OK);
  if (open != NULL)
    *open = db;
  else
    sqlite3_close (db);
}

static void
make_foreign (const char  *path,
              sqlite3    **open)
{
  assert_true (g_file_set_contents (path, "a letter to the forager", -1, NULL));
}

static void
make_newer (const char  *path,
            sqlite3    **open)
{
  run_sql (path, "PRAGMA user_version = 9999", NULL);
}

static void
make_damaged (const char  *path,
              sqlite3    **open)
{
  g_autofree char *bytes = NULL;
  gsize length;

  assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  memset (bytes + 4096, 0x5a, length - 4096);
  assert_true (g_file_set_contents (path, bytes, (gssize) length, NULL));
}

static void
make_altered (const char  *path,
              sqlite3    **open)
{
  run_sql (path, "DROP INDEX change_by_row", NULL);
}

static void
make_held (const char  *path,
           sqlite3    **open)
{
  run_sql (path, "PRAGMA locking_mode = EXCLUSIVE; BEGIN IMMEDIATE; COMMIT", open);
}

static const struct
{
  const char *says;
  void      (*make) (const char *path, sqlite3 **open);
  const char *title;
  gboolean    can_bring_in_tables;
  const char *why;   /* how the sentence below begins; NULL: it is not asked */
} no_books[] = {
  { "what another program made leads to bringing in tables", make_foreign, "This is not a book", TRUE, NULL },
  { "a newer book is left to a newer program", make_newer, "This book is newer than the program",
    FALSE, NULL },
  { "a damaged book is kept as it is", make_damaged, "The book is damaged", FALSE, NULL },
  { "why a book is not opened is a sentence of its own", make_altered,
    "The book cannot be opened", FALSE, "Another program changed" },
  { "a book that nobody else can read is in use", make_held, "The book is in use", FALSE, NULL },
};

static void
test_what_cannot_be_opened_is_said_and_left_alone (void **state)
{
  Fixture *f = *state;
  g_autofree char *path = g_build_filename (f->folder, "other.croustade", NULL);
  g_autofree char *whole = NULL;
  gsize length;

  assert_true (g_file_get_contents (f->path, &whole, &length, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (no_books); i++)
    {
      g_autofree char *before = NULL, *after = NULL;
      gsize length_before, length_after;
      sqlite3 *open = NULL;

      assert_true (g_file_set_contents (path, whole, (gssize) length, NULL));
      no_books[i].make (path, &open);
      assert_true (g_file_get_contents (path, &before, &length_before, NULL));
      cro_window_open_path (f->window, path);
      wait_for (f, shows, no_books[i].title);
      if (gtk_widget_get_mapped (f->window->tables_button) != no_books[i].can_bring_in_tables)
        fail_msg ("%s", no_books[i].says);
      if (no_books[i].why != NULL && cro_test_find_containing (GTK_WIDGET (f->window), no_books[i].why) == NULL)
        fail_msg ("%s", no_books[i].says);
      assert_true (g_file_get_contents (path, &after, &length_after, NULL));
      if (length_before != length_after || memcmp (before, after, length_before) != 0)
        fail_msg ("%s, byte for byte", no_books[i].says);
      sqlite3_close (open);
      remove_book (path);
    }
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.retry", NULL));
  wait_for (f, shows, "The book’s file is gone");
  cro_window_open_path (f->window, f->folder);
  wait_for (f, shows, "This is a folder, not a book");
  assert_true (gtk_widget_get_mapped (f->window->tables_button));
}

/* --- Tables brought in --------------------------------------------------------------------------------- */

static GtkWindow *
window_called (const char *title)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (g_strcmp0 (gtk_window_get_title (window), title) == 0)
        return window;
    }
  return NULL;
}

static gboolean
is_window (Fixture    *f,
           const char *title)
{
  return window_called (title) != NULL;
}

static void
test_faults_of_tables_are_listed_and_no_book_is_made (void **state)
{
  Fixture *f = *state;
  g_autofree char *table = g_build_filename (f->folder, "rates.csv", NULL);
  g_autofree char *path = g_build_filename (f->folder, "loaded.croustade", NULL);
  g_autofree char *text = NULL;
  GtkTextBuffer *buffer;
  GtkWindow *window;

  assert_true (g_file_set_contents (table, "currency,from,rate\nGBP,yesterday,1\nUSD,2026-01-01,0\n",
                                    -1, NULL));
  cro_window_begin_work (f->window, path, f->folder);
  wait_for (f, is_window, "Errors in the Tables");
  window = window_called ("Errors in the Tables");
  buffer = gtk_text_view_get_buffer (
      GTK_TEXT_VIEW (cro_test_find_type (GTK_WIDGET (window), GTK_TYPE_TEXT_VIEW)));
  g_object_get (buffer, "text", &text, NULL);
  assert_non_null (strstr (text, "rates.csv:2: from: “yesterday”"));
  assert_non_null (strstr (text, "rates.csv:3: rate: “0”"));
  assert_false (g_file_test (path, G_FILE_TEST_EXISTS));
  gtk_window_destroy (window);
  wait_for (f, shows, "Toast");
  g_unlink (table);
}

/* --- Several windows ------------------------------------------------------------------------------------- */

static guint
n_windows (void)
{
  return g_list_length (gtk_application_get_windows (GTK_APPLICATION (application)));
}

static void
test_a_book_that_is_open_comes_to_the_front (void **state)
{
  Fixture *f = *state;
  guint n = n_windows ();

  cro_window_open_in (GTK_APPLICATION (application), f->path);
  assert_int_equal (n_windows (), n);
}

static void
test_a_second_window_shows_what_the_first_does (void **state)
{
  Fixture *f = *state;
  Fixture second = { 0 };
  g_autoptr (GError) error = NULL;
  CroCell cell = CRO_CELL_INT (50000000);

  gtk_editable_set_text (field_of (f, "quick"), "3 unfinished");
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.new-window", NULL));
  for (GList *at = gtk_application_get_windows (GTK_APPLICATION (application)); at != NULL;
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
  Fixture *f = *state;
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
  Fixture *f = *state;
  CroBook *book = cro_window_get_book (f->window);
  g_autofree char *file = g_build_filename (f->folder, "suppliers.csv", NULL);
  CroFaults *faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;

  cro_window_open_ref (f->window, CRO_REF (CRO_REF_ITEM, 0));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", CRO_PLACE_MARKET));
  assert_int_equal (f->window->before->len, 2);
  assert_true (cro_book_undo (book, NULL, &error));
  assert_true (g_file_set_contents (file, "name\nQuay\n", -1, NULL));
  assert_true (cro_load (f->path, f->folder, "other", "load", FALSE, NULL, NULL, faults, &error));
  cro_faults_free (faults);
  assert_true (cro_book_refresh (book, NULL, &error));
  cro_book_tell (book);
  assert_int_equal (cro_book_get_model (book)->recipes->len, 0);
  assert_int_equal (f->window->before->len, 0);
  g_unlink (file);
}

static gboolean
is_of_late (Fixture    *f,
            const char *path)
{
  g_auto (GStrv) paths = cro_recent_dup ();

  return g_strv_contains ((const char *const *) paths, path);
}

static void
test_a_book_that_was_opened_is_one_of_late (void **state)
{
  Fixture *f = *state;

  wait_for (f, is_of_late, f->path);
  assert_true (g_menu_model_get_n_items (G_MENU_MODEL (f->window->recent_menu)) >= 1);
}

static void
test_making_and_undoing_a_plate (void **state)
{
  Fixture *f = *state;

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
  Fixture *f = *state;

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
  Fixture *f = *state;
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
  Fixture *f = *state;
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
  Fixture *f = *state;

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
  Fixture *f = *state;
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
  Fixture *f = *state;
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

/* --- Another day ------------------------------------------------------------------------------- */

static char *
dup_day (const char *words,
         CroDate     day)
{
  g_autofree char *text = cro_date_to_text (day);

  return g_strdup_printf ("%s %s", words, text);
}

static void
choose_day (Fixture *f,
            CroDate  day)
{
  g_autoptr (GDateTime) noon = NULL;
  int year, month, day_of_month;

  cro_date_to_civil (day, &year, &month, &day_of_month);
  noon = g_date_time_new_local (year, month, day_of_month, 12, 0, 0);
  cro_window_need_calendar (f->window);
  gtk_calendar_select_day (f->window->calendar, noon);
}

static void
show_yesterdays_prices (Fixture *f)
{
  g_autofree char *button = dup_day ("Prices of", cro_here_today () - 1);

  assert_true (shows (f, "Prices of today"));
  assert_false (gtk_widget_get_visible (f->window->date_banner));
  choose_day (f, cro_here_today () - 1);
  wait_for (f, shows, button);
  assert_true (gtk_widget_get_visible (f->window->date_banner));
}

static void
test_a_past_date_goes_with_the_price_that_was_entered (void **state)
{
  Fixture *f = *state;
  g_autoptr (GError) error = NULL;

  show_yesterdays_prices (f);
  assert_true (cro_edit_set_price (cro_window_get_book (f->window), "price", 0,
                                   cro_here_today () - 1, 8000000, &error));
  wait_for (f, shows, "Prices of today");
  assert_false (gtk_widget_get_visible (f->window->date_banner));
}

static void
test_a_past_date_goes_with_its_place (void **state)
{
  Fixture *f = *state;
  CroCell cell = CRO_CELL_INT (50000000);
  g_autoptr (GError) error = NULL;

  show_yesterdays_prices (f);
  /* An amount is no price: the day stays. */
  assert_true (cro_book_set (cro_window_get_book (f->window), "amount", "recipe_line", 1,
                             "amount_micro", &cell, &error));
  cro_test_settle ();
  assert_true (shows_not (f, "Prices of today"));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", 2));
  wait_for (f, shows, "Prices of today");
}

static void
test_a_past_date_goes_with_its_window (void **state)
{
  Fixture *f = *state;

  show_yesterdays_prices (f);
  gtk_window_close (GTK_WINDOW (f->window));
  cro_test_widgets_gone ();
  f->window = CRO_WINDOW (cro_window_new (application));
  gtk_window_present (GTK_WINDOW (f->window));
  cro_window_open_path (f->window, f->path);
  wait_for (f, shows, "Prices of today");
}

/* It comes first of what is chosen there: as grey as all else. */
static gboolean
currency_is_grey (Fixture *f)
{
  GtkWidget *settings = cro_settings_window_new (GTK_WINDOW (f->window), cro_window_get_book (f->window));
  gboolean is_grey;

  gtk_window_present (GTK_WINDOW (settings));
  cro_test_wait_until (cro_test_find_type (settings, GTK_TYPE_DROP_DOWN) != NULL, "no settings");
  is_grey = !gtk_widget_is_sensitive (cro_test_find_type (settings, GTK_TYPE_DROP_DOWN));
  gtk_window_destroy (GTK_WINDOW (settings));
  return is_grey;
}

static void
test_the_book_of_a_day_is_only_read (void **state)
{
  Fixture *f = *state;
  CroDate day = cro_here_today () - 2;
  char text[CRO_DATE_CHARS];
  g_autofree char *button = dup_day ("The book of", day), *sql = NULL;
  GtkEditable *amount = amount_of (f);
  CroCell cell = CRO_CELL_INT (50000000);
  g_autoptr (GError) error = NULL;

  cro_date_format (day, text);
  sql = g_strdup_printf ("UPDATE act SET at = '%sT12:00:00Z', day = '%s'", text, text);
  run_sql (f->path, sql, NULL);
  assert_true (cro_book_set (cro_window_get_book (f->window), "amount", "recipe_line", 1,
                             "amount_micro", &cell, &error));
  cro_book_tell (cro_window_get_book (f->window));
  assert_string_equal (gtk_editable_get_text (amount), "50 g");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->window->book_of_day), TRUE);
  choose_day (f, day);
  wait_for (f, shows, button);
  amount = amount_of (f);
  assert_string_equal (gtk_editable_get_text (amount), "25 g");
  assert_false (gtk_editable_get_editable (amount));
  assert_true (shows (f, "This is the book as it stood; it can only be read"));
  assert_true (gtk_widget_get_visible (f->window->date_banner));
  assert_true (currency_is_grey (f));
  /* It stays as one looks around in it. */
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", 2));
  wait_for (f, shows, button);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", 0));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.today", NULL));
  wait_for (f, shows, "Prices of today");
  amount = amount_of (f);
  assert_string_equal (gtk_editable_get_text (amount), "50 g");
  assert_true (gtk_editable_get_editable (amount));
}

static void
test_a_day_before_the_book_began_is_refused (void **state)
{
  Fixture *f = *state;

  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->window->book_of_day), TRUE);
  gtk_menu_button_popup (GTK_MENU_BUTTON (f->window->date_button));
  cro_test_settle ();
  choose_day (f, cro_here_today () - 400);
  wait_for (f, shows, "Prices of today");
  wait_for (f, shows, "Toast");
  assert_false (cro_book_is_past (cro_window_get_book (f->window), NULL));
  /* Another day answers the same question, until the popover goes. */
  assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (f->window->book_of_day)));
  gtk_menu_button_popdown (GTK_MENU_BUTTON (f->window->date_button));
  cro_test_settle ();
  assert_false (gtk_check_button_get_active (GTK_CHECK_BUTTON (f->window->book_of_day)));
}

/* The book has stood on no day to come: refused, and the calendar goes back to the day in sight. */
static void
test_a_day_to_come_is_refused (void **state)
{
  Fixture *f = *state;
  g_autoptr (GDateTime) shown = NULL;
  int year, month, day;

  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->window->book_of_day), TRUE);
  choose_day (f, cro_here_today () + 300);
  cro_test_settle ();
  assert_true (shows (f, "Prices of today"));
  assert_int_equal (cro_book_get_figures (cro_window_get_book (f->window))->date, cro_here_today ());
  shown = gtk_calendar_get_date (f->window->calendar);
  cro_date_to_civil (cro_here_today (), &year, &month, &day);
  assert_int_equal (g_date_time_get_day_of_month (shown), day);
  assert_int_equal (g_date_time_get_year (shown), year);
  /* Its prices may be asked for. */
  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->window->prices_of_day), TRUE);
  choose_day (f, cro_here_today () + 300);
  assert_false (shows (f, "Prices of today"));
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
drop_file (Fixture    *f,
           const char *path)
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
  Fixture *f = *state;
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 40, 30);
  g_autofree char *picture = g_build_filename (f->folder, "toast.jpg", NULL);
  g_autofree char *words = g_build_filename (f->folder, "toast.odp", NULL);

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
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_window, close_window)
  const struct CMUnitTest tests[] = {
    CASE (test_a_day_to_come_is_refused),
    CASE (test_a_text_that_nobody_typed_is_not_undone),
    CASE (test_typing_previews),
    CASE (test_kept_text_is_an_act),
    CASE (test_a_window_goes_with_typed_text_and_keeps_it),
    CASE (test_a_wrong_entry_stays),
    CASE (test_what_others_do_is_shown),
    CASE (test_a_file_that_is_gone_is_said),
    CASE (test_what_cannot_be_opened_is_said_and_left_alone),
    CASE (test_faults_of_tables_are_listed_and_no_book_is_made),
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
    CASE (test_a_past_date_goes_with_the_price_that_was_entered),
    CASE (test_a_past_date_goes_with_its_place),
    CASE (test_a_past_date_goes_with_its_window),
    CASE (test_the_book_of_a_day_is_only_read),
    CASE (test_a_day_before_the_book_began_is_refused),
  };

  g_set_application_name ("Croustade");
  g_set_prgname ("croustade");
  application = adw_application_new ("org.croustade.Test", G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (application), NULL, NULL);
  cro_test_widgets_watch ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
