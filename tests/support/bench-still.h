/* bench-still.h: things on a bench as wide as people's windows, and where they stand on it. */
#pragma once

#include "bench-hands.h"

/* What 1366 and 1024 pixels leave beside the rail and the list, lower than a window with room to spare. */
static const int widths[] = { 984, 640 };

static inline void
show (CroTestBench *test,
      GType         type,
      CroNames      names,
      const char   *name,
      int           width)
{
  cro_test_bench_show (test, type, cro_test_find_ref (test, names, name));
  resize (test, width, 700);
}

/* In its window, once that is painted. */
static inline float
y_of (CroTestBench *test,
      const char   *name)
{
  graphene_rect_t place;

  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (named (test, name), test->window, &place));
  return place.origin.y;
}
