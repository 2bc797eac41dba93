/* bench-window.h: a bench on the demo book in a window, and a person's hands in it.
 *
 * Widgets are found by the name that the accessibility bus gives them, so that what is found here
 * is named there. */
#pragma once

#include <adwaita.h>

#include "cro-bench.h"
#include "cro-edit.h"
#include "support/kitchen-book.h"
#include "support/widgets.h"

typedef struct
{
  CroTestFolder  folder;
  CroBook       *book;
  GtkWidget     *window;
  CroBench      *bench;
  GString       *said;      /* what the bench asked the window to say, a line each */
} CroTestBench;

/* To be called before GTK is initialized: accessible names can be read then. */
void       cro_test_bench_init    (void);

/* The demo book on a day of its own, without a bench yet. */
void       cro_test_bench_open    (CroTestBench *test);

/* Puts the thing of that name on a new bench, on the screen. */
void       cro_test_bench_show    (CroTestBench *test,
                                   GType         type,
                                   CroRef        ref);

/* Takes the bench away, and fails if anything still holds it. */
void       cro_test_bench_close   (CroTestBench *test);

CroRef     cro_test_find_ref      (CroTestBench *test,
                                   CroNames      names,
                                   const char   *name);

/* A control below widget by its accessible name, once it is in sight; fails if none comes. */
GtkWidget *cro_test_find_named    (GtkWidget    *widget,
                                   const char   *name);

/* Types into a field; Enter. */
void       cro_test_type          (GtkWidget    *entry,
                                   const char   *text);
void       cro_test_enter         (GtkWidget    *entry);

/* The value of one column of one row, as text; NULL: not set. Owned. */
char      *cro_test_stored        (CroTestBench *test,
                                   const char   *table,
                                   gint64        id,
                                   const char   *column);
