/* bench-looks.h: what stands on a bench, and where. */
#pragma once

#include "bench-hands.h"

#include "cro-plate-bench.h"

static inline void
show_plate (CroTestBench *test,
            const char   *name)
{
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, name));
}

static inline GtkWidget *
of_type (CroTestBench *test,
         GType         type)
{
  GtkWidget *found = cro_test_find_type (GTK_WIDGET (test->bench), type);

  if (found == NULL)
    fail_msg ("there is no %s", g_type_name (type));
  return found;
}

static inline graphene_rect_t
place_of (CroTestBench *test,
          GtkWidget    *widget)
{
  graphene_rect_t place;

  assert_true (gtk_widget_compute_bounds (widget, GTK_WIDGET (test->bench), &place));
  return place;
}
