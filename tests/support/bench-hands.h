/* bench-hands.h: what cases do with the bench on the screen, each step by what is seen of it. */
#pragma once

#include "support/bench-window.h"
#include "support/statements.h"

#include "cro-here.h"
#include "cro-number.h"
#include "cro-pane.h"

static inline int
open_book (void **state)
{
  CroTestBench *test = g_new0 (CroTestBench, 1);

  cro_test_bench_open (test);
  *state = test;
  return 0;
}

static inline int
close_book (void **state)
{
  cro_test_bench_close (*state);
  g_free (*state);
  return 0;
}

static inline CroModel *
model_of (CroTestBench *test)
{
  return cro_book_get_model (test->book);
}

static inline GtkWidget *
named (CroTestBench *test,
       const char   *name)
{
  return cro_test_find_named (GTK_WIDGET (test->bench), name);
}

/* What is said of it, with today's date as the example. */
static inline char *
dup_not_a_date (void)
{
  g_autofree char *today = cro_date_to_text (cro_here_today ());

  return g_strdup_printf ("This is not a date. Type it as in %s.", today);
}

/* It waits: what stands in a row is in sight once that is laid out, and much has to be read or reckoned before.
 * What must be in sight at once is asked of cro_test_find_shown. */
static inline void
assert_shown (CroTestBench *test,
              const char   *text)
{
  cro_test_wait_shown (GTK_WIDGET (test->bench), text);
}

/* A button by what it says. */
static inline void
press (CroTestBench *test,
       const char   *text)
{
  GtkWidget *button;

  assert_shown (test, text);
  button = gtk_widget_get_ancestor (cro_test_find_shown (GTK_WIDGET (test->bench), text), GTK_TYPE_BUTTON);
  if (button == NULL)
    fail_msg ("no button says %s", text);
  g_signal_emit_by_name (button, "clicked");
  cro_test_settle ();
}

static inline void
enter (CroTestBench *test,
       const char   *name,
       const char   *text)
{
  GtkWidget *entry = named (test, name);

  cro_test_type (entry, text);
  cro_test_enter (entry);
}

static inline void
choose (CroTestBench *test,
        const char   *name,
        guint         position)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (named (test, name)), position);
  cro_test_settle ();
}

/* Tab, or Shift and Tab. */
static inline void
tab (CroTestBench     *test,
     GtkDirectionType  direction)
{
  gtk_widget_child_focus (test->window, direction);
  cro_test_settle ();
}

static inline void
assert_focus (CroTestBench *test,
              const char   *name)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (test->window));
  GtkWidget *control = named (test, name);

  if (focus == NULL || (focus != control && !gtk_widget_is_ancestor (focus, control)))
    fail_msg ("the focus is on a %s, not on %s",
              focus != NULL ? G_OBJECT_TYPE_NAME (focus) : "nothing", name);
}

/* What is typed moves figures in memory: no key asks the store, from the first one on. */
static inline void
assert_keys_ask_nothing (CroTestBench *test,
                         const char   *name)
{
  static const char *const texts[] = { "3", "31", "3", "", "x", "32" };
  GtkWidget *entry = named (test, name);
  guint before;

  gtk_widget_grab_focus (entry);
  cro_test_settle ();
  before = cro_test_statements ();
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      cro_test_type (entry, texts[i]);
      if (cro_test_statements () != before)
        fail_msg ("“%s” typed into %s runs %u statements", texts[i], name,
                  cro_test_statements () - before);
    }
  cro_test_escape (entry);
}

static inline void
undo (CroTestBench *test)
{
  GError *error = NULL;

  cro_test_must (cro_book_undo (test->book, NULL, &error), error);
  cro_test_settle ();
}

/* What could be undone now, as the history says it; NULL: nothing. Owned. */
static inline char *
dup_last_act (CroTestBench *test)
{
  g_autoptr (CroAct) act = cro_store_peek_undo (cro_book_get_store (test->book), NULL);

  return g_strdup (act != NULL ? act->label : NULL);
}

/* Keeps what the bench asks the window to open: for its signal "open-ref". */
static inline void
opened_cb (CroBench *bench,
           int       kind,
           guint     slot,
           int       cause,
           CroRef   *opened)
{
  *opened = CRO_REF ((CroRefKind) kind, slot);
}

/* Once the window is laid out in another size. */
static inline void
resize (CroTestBench *test,
        int           width,
        int           height)
{
  gtk_window_set_default_size (GTK_WINDOW (test->window), width, height);
  cro_test_wait_until (ABS (gtk_widget_get_width (test->window) - width) < 60,
                       "the window is %d wide", gtk_widget_get_width (test->window));
  cro_test_settle ();
}

/* What Ctrl+2 and the others ask of the bench. */
static inline void
open_picture (CroTestBench *test,
              CroPictureId  id)
{
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "bench.picture", "i", (int) id));
  cro_test_settle ();
}

static inline gboolean
needs_name (GtkWidget *widget)
{
  if (!gtk_widget_get_mapped (widget))
    return FALSE;
  if (GTK_IS_ENTRY (widget) || GTK_IS_DROP_DOWN (widget) || GTK_IS_LEVEL_BAR (widget))
    return TRUE;
  /* One that says what it does in letters is named by them. */
  return (GTK_IS_BUTTON (widget) && gtk_button_get_icon_name (GTK_BUTTON (widget)) != NULL)
         || (GTK_IS_MENU_BUTTON (widget)
             && gtk_menu_button_get_icon_name (GTK_MENU_BUTTON (widget)) != NULL);
}

/* Every control that is mapped, widget itself and below it. */
static inline void
assert_named (GtkWidget  *widget,
              const char *bench)
{
  if (needs_name (widget)
      && !gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget),
                                            GTK_ACCESSIBLE_PROPERTY_LABEL))
    fail_msg ("a %s on the bench of %s has no name", G_OBJECT_TYPE_NAME (widget), bench);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    assert_named (child, bench);
}
