/* bench-lines.h: a plate of the demo on its bench, and its lines. */
#pragma once

#include "bench-hands.h"

#include "cro-breakdown.h"
#include "cro-line-row.h"
#include "cro-plate-bench.h"

#define PLATE "Crab croustade"

static inline int
open_plate (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (*state, CRO_NAMES_THINGS, PLATE));
  return 0;
}

static inline const char *
text_of (GtkWidget *entry)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry));
}

static inline GArray *
list_lines (CroTestBench *test)
{
  return cro_edit_list_lines (cro_book_get_figures (test->book), cro_bench_get_slot (test->bench));
}

/* The slot of the line that takes an item. */
static inline guint32
line_of (CroTestBench *test,
         const char   *item)
{
  g_autoptr (GArray) lines = list_lines (test);

  for (guint i = 0; i < lines->len; i++)
    {
      guint32 line = g_array_index (lines, guint32, i);

      if (strcmp (cro_model_item (model_of (test), model_of (test)->lines.item[line])->name, item)
          == 0)
        return line;
    }
  fail_msg ("no line takes %s", item);
  return 0;
}

static inline int
place_of (CroTestBench *test,
          guint32       line)
{
  g_autoptr (GArray) lines = list_lines (test);

  for (guint i = 0; i < lines->len; i++)
    if (g_array_index (lines, guint32, i) == line)
      return (int) i;
  return -1;
}

static inline double
guest_of (CroTestBench *test)
{
  return cro_figure_of_plate (cro_book_get_figures (test->book),
                              cro_bench_get_slot (test->bench)).cost;
}

static inline void
act_on (CroTestBench *test,
        guint32       line,
        const char   *action)
{
  GtkWidget *row = gtk_widget_get_ancestor (
      named (test, "amount of Trout roe per batch"), CRO_TYPE_LINE_ROW);

  assert_true (gtk_widget_activate_action (row, action, "u", line));
  cro_test_settle ();
}

static inline void
assert_focused (CroTestBench *test,
                const char   *name)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (test->window));
  GtkWidget *wanted = named (test, name);

  if (focus == NULL || (focus != wanted && !gtk_widget_is_ancestor (focus, wanted)))
    fail_msg ("the focus is not on %s", name);
}
