/* The window on files: gone, no book, newer, damaged, in use, and tables with faults. */
#include "support/window-hands.h"

#include <glib/gstdio.h>

static void
test_a_file_that_is_gone_is_said (void **state)
{
  CroTestWindow *f = *state;
  g_autofree char *away = g_strconcat (f->folder.path, ".away", NULL);

  assert_int_equal (g_rename (f->folder.path, away), 0);
  wait_for (f, shows, "The book’s file is gone");
  assert_int_equal (g_rename (away, f->folder.path), 0);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.retry", NULL));
  wait_for (f, shows, "0.23");
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

static void
test_what_cannot_be_opened_is_said_and_left_alone (void **state)
{
  CroTestWindow *f = *state;
  g_autofree char *path = g_build_filename (f->folder.folder, "other.croustade", NULL);
  g_autofree char *whole = NULL;
  gsize length;

  assert_true (g_file_get_contents (f->folder.path, &whole, &length, NULL));
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
  cro_window_open_path (f->window, f->folder.folder);
  wait_for (f, shows, "This is a folder, not a book");
  assert_true (gtk_widget_get_mapped (f->window->tables_button));
}

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
is_window (CroTestWindow *f,
           const char    *title)
{
  return window_called (title) != NULL;
}

static void
test_faults_of_tables_are_listed_and_no_book_is_made (void **state)
{
  CroTestWindow *f = *state;
  g_autofree char *table = g_build_filename (f->folder.folder, "rates.csv", NULL);
  g_autofree char *path = g_build_filename (f->folder.folder, "loaded.croustade", NULL);
  g_autofree char *text = NULL;
  GtkTextBuffer *buffer;
  GtkWindow *window;

  assert_true (g_file_set_contents (table, "currency,from,rate\nGBP,yesterday,1\nUSD,2026-01-01,0\n",
                                    -1, NULL));
  cro_window_begin_work (f->window, path, f->folder.folder);
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

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, cro_test_window_open_plate, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    CASE (test_a_file_that_is_gone_is_said),
    CASE (test_what_cannot_be_opened_is_said_and_left_alone),
    CASE (test_faults_of_tables_are_listed_and_no_book_is_made),
  };

  return cro_test_window_run (tests);
}
