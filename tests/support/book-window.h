/* book-window.h: the whole window on a book, and what a person reaches in it by keys.
 *
 * Warnings and criticals end the test. */
#pragma once

#include "cro-window-private.h"
#include "support/kitchen-book.h"
#include "support/widgets.h"

typedef struct
{
  CroTestFolder  folder;
  CroWindow     *window;
} CroTestWindow;

/* Runs the group of tests, which follow, on an application of their own. */
#define cro_test_window_run(tests) \
  (cro_test_window_begin (), cro_test_window_end (cmocka_run_group_tests (tests, NULL, NULL)))

void       cro_test_window_begin        (void);
int        cro_test_window_end          (int            failed);

/* Set-ups of a test: without a book, on one that holds nothing, on one plate, Toast, of 25 g of butter, on the demo;
 * and what tears all of them down, and fails if anything outlives the window. A test that destroys the window itself
 * leaves NULL there. */
int        cro_test_window_open_nothing (void         **state);
int        cro_test_window_open_empty   (void         **state);
int        cro_test_window_open_plate   (void         **state);
int        cro_test_window_open_demo    (void         **state);
int        cro_test_window_close        (void         **state);

/* Once the window has painted what was changed. */
void       cro_test_window_see          (CroTestWindow *test);

/* To a place, and from its list so many parts on. */
void       cro_test_window_go           (CroTestWindow *test,
                                         CroPlace       place,
                                         guint          n_parts);

/* What stands on the bench. */
GtkWidget *cro_test_window_bench        (CroTestWindow *test);

/* What has the focus; fails, saying after what, where it is nowhere. */
GtkWidget *cro_test_window_focus        (CroTestWindow *test,
                                         const char    *after);

/* The CroInput around the focus. NULL: it is in none. */
GtkWidget *cro_test_window_focused_input (CroTestWindow *test);

/* A window that stands beside the book's. NULL: there is none. */
GtkWidget *cro_test_window_find_other   (CroTestWindow *test);

/* Closes menus, the search, and all windows but the book's. */
void       cro_test_window_close_others (CroTestWindow *test);

/* Every CroInput that is on the bench, as weak pointers to their entries: GtkWidget **. Owned. */
GPtrArray *cro_test_window_list_entries (CroTestWindow *test);
