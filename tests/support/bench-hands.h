/* bench-hands.h: what cases do with the bench on the screen, each step by what is seen of it. */
#pragma once

#include "support/bench-window.h"

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

static inline void
assert_shown (CroTestBench *test,
              const char   *text)
{
  if (cro_test_find_shown (GTK_WIDGET (test->bench), text) == NULL)
    fail_msg ("%s is not shown", text);
}

/* A button by what it says. */
static inline void
press (CroTestBench *test,
       const char   *text)
{
  GtkWidget *label = cro_test_find_shown (GTK_WIDGET (test->bench), text);
  GtkWidget *button = label != NULL ? gtk_widget_get_ancestor (label, GTK_TYPE_BUTTON) : NULL;

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

static inline void
undo (CroTestBench *test)
{
  GError *error = NULL;

  cro_test_must (cro_book_undo (test->book, NULL, &error), error);
  cro_test_settle ();
}
