#include "support/book-window.h"

#include "cro-edit.h"
#include "cro-here.h"
#include "cro-input.h"

static AdwApplication *application;

/* --- The application -------------------------------------------------------------------------- */

void
cro_test_window_begin (void)
{
  g_set_application_name ("Croustade");
  g_set_prgname ("croustade");
  application = adw_application_new ("org.croustade.Test", G_APPLICATION_NON_UNIQUE);
  g_application_register (G_APPLICATION (application), NULL, NULL);
  cro_test_widgets_watch ();
}

int
cro_test_window_end (int failed)
{
  g_clear_object (&application);
  return failed;
}

/* --- Books ------------------------------------------------------------------------------------ */

static void
load_demo (const char *path)
{
  g_autofree char *desk = cro_here_dup_desk ();

  cro_test_put_demo (path, desk);
}

static void
make_empty (const char *path)
{
  g_autofree char *desk = cro_here_dup_desk ();
  GError *error = NULL;
  g_autoptr (CroBook) book = cro_book_create (path, desk, cro_here_today (), &error);

  cro_test_must (book != NULL, error);
}

static void
make_plate (const char *path)
{
  g_autofree char *desk = cro_here_dup_desk ();
  GError *error = NULL;
  g_autoptr (CroBook) book = cro_book_create (path, desk, cro_here_today (), &error);
  CroNewLine line = { .item = CRO_NO_SLOT, .name = "Butter", .base = CRO_BASE_GRAM,
                      .amount = 25000000, .unit = CRO_UNIT_G, .has_price = TRUE,
                      .price = { 9200000, CRO_UNIT_KG, "Mill", cro_here_today (), 0 } };

  cro_test_must (book != NULL, error);
  cro_test_must (cro_edit_start (book, "first plate", "EUR", "Toast", 1000000, &line, NULL, &error), error);
}

void
cro_test_window_see (CroTestWindow *test)
{
  cro_test_see (GTK_WIDGET (test->window));
}

static int
open_on (void (*make) (const char *path),
         void  **state)
{
  CroTestWindow *test = g_new0 (CroTestWindow, 1);

  test->folder = cro_test_folder_new ();
  test->window = CRO_WINDOW (cro_window_new (application));
  /* It asks to be maximized where it is as wide as the screen. GTK 4.18 holds it to that where there is no
   * window manager to take it back, and no test could make it smaller. */
  gtk_window_unmaximize (GTK_WINDOW (test->window));
  gtk_window_present (GTK_WINDOW (test->window));
  if (make != NULL)
    {
      make (test->folder.path);
      cro_window_open_path (test->window, test->folder.path);
      cro_test_wait_until (cro_window_get_book (test->window) != NULL, "the book is not opened");
    }
  cro_test_window_see (test);
  *state = test;
  return 0;
}

int
cro_test_window_open_nothing (void **state)
{
  return open_on (NULL, state);
}

int
cro_test_window_open_empty (void **state)
{
  return open_on (make_empty, state);
}

int
cro_test_window_open_plate (void **state)
{
  CroTestWindow *test;

  open_on (make_plate, state);
  test = *state;
  cro_test_wait_shown (GTK_WIDGET (test->window), "Toast");
  return 0;
}

int
cro_test_window_open_demo (void **state)
{
  return open_on (load_demo, state);
}

int
cro_test_window_close (void **state)
{
  CroTestWindow *test = *state;

  if (test->window != NULL)
    {
      cro_test_window_close_others (test);
      gtk_window_destroy (GTK_WINDOW (test->window));
      cro_test_widgets_gone ();
    }
  cro_test_settle ();
  cro_test_folder_clear (&test->folder);
  g_free (test);
  return 0;
}

/* --- Going about ------------------------------------------------------------------------------ */

void
cro_test_window_go (CroTestWindow *test,
                    CroPlace       place,
                    guint          n_parts)
{
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.place", "i", (int) place);
  cro_test_window_see (test);
  for (guint i = 0; i < n_parts; i++)
    gtk_widget_activate_action (GTK_WIDGET (test->window), "win.next-part", NULL);
  cro_test_settle ();
}

GtkWidget *
cro_test_window_bench (CroTestWindow *test)
{
  return gtk_stack_get_visible_child (test->window->bench);
}

GtkWidget *
cro_test_window_focus (CroTestWindow *test,
                       const char    *after)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (test->window));

  if (focus == NULL || !gtk_widget_get_mapped (focus))
    fail_msg ("after %s in place %d the focus is nowhere", after, test->window->place);
  return focus;
}

GtkWidget *
cro_test_window_focused_input (CroTestWindow *test)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (test->window));

  return focus != NULL ? gtk_widget_get_ancestor (focus, CRO_TYPE_INPUT) : NULL;
}

/* --- Windows and menus ------------------------------------------------------------------------ */

static void
pop_down (GtkWidget *widget)
{
  if (GTK_IS_POPOVER (widget) && gtk_widget_get_mapped (widget))
    gtk_popover_popdown (GTK_POPOVER (widget));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    pop_down (child);
}

GtkWidget *
cro_test_window_find_other (CroTestWindow *test)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (at->data != (gpointer) test->window)
      return at->data;
  return NULL;
}

void
cro_test_window_close_others (CroTestWindow *test)
{
  for (GtkWidget *other; (other = cro_test_window_find_other (test)) != NULL;)
    gtk_window_destroy (GTK_WINDOW (other));
  pop_down (GTK_WIDGET (test->window));
  cro_test_settle ();
}

/* --- Fields ----------------------------------------------------------------------------------- */

static void
entry_free (gpointer data)
{
  GtkWidget **entry = data;

  g_clear_weak_pointer (entry);
  g_free (entry);
}

static void
add_entries (GPtrArray *entries,
             GtkWidget *widget)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (CRO_IS_INPUT (widget))
    {
      GtkWidget **entry = g_new0 (GtkWidget *, 1);

      g_set_weak_pointer (entry, cro_test_find_type (widget, GTK_TYPE_ENTRY));
      g_ptr_array_add (entries, entry);
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    add_entries (entries, child);
}

GPtrArray *
cro_test_window_list_entries (CroTestWindow *test)
{
  GPtrArray *entries = g_ptr_array_new_with_free_func (entry_free);

  add_entries (entries, cro_test_window_bench (test));
  return entries;
}
