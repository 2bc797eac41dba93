/* A big book in the program's window: how long it answers nobody, at each thing that people do.
 *
 * Counted    The longest time that the main loop works without a break, from what is done until
 *            all that follows from it is on the screen; the median of the rounds. The book has
 *            100 thousand lines, 60 thousand ingredients that no recipe takes with a pack each,
 *            and 180 thousand prices.
 * Goal       A frame of a screen that shows 60 a second, where a key is typed or a view scrolled;
 *            elsewhere a tenth of a second, which is felt as at once (common practice, no source).
 *
 * Usage: bench-big-book [FOLDER]   (for the book; default: that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-bench.h"
#include "cro-input.h"
#include "cro-line-row.h"
#include "cro-place-list.h"
#include "cro-quick-line.h"
#include "cro-records-view.h"
#include "cro-window.h"
#include "frames.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#include <stdio.h>

#define N_ROUNDS 5
#define FRAME_SECONDS (1 / 60.0)
#define AT_ONCE_SECONDS 0.1

typedef struct
{
  GtkWidget     *window;
  GtkWidget     *widget;      /* what is acted on */
  GtkAdjustment *adjustment;
  int            round;
  int            place;
} Bench;

/* --- What people do -------------------------------------------------------------------------------- */

static void
go_to (Bench *bench,
       int    place)
{
  gtk_widget_activate_action (bench->window, "win.place", "i", place);
}

static void
choose_place (gpointer user_data)
{
  Bench *bench = user_data;

  go_to (bench, bench->place);
}

static void
choose_row (gpointer user_data)
{
  Bench *bench = user_data;
  GtkSelectionModel *model = gtk_list_view_get_model (GTK_LIST_VIEW (bench->widget));

  gtk_selection_model_select_item (model, (guint) (7 + bench->round), TRUE);
}

static void
search (gpointer user_data)
{
  static const char *const texts[] = { "a", "as", "asi 9", "asi 99", "5" };
  Bench *bench = user_data;

  gtk_editable_set_text (GTK_EDITABLE (bench->widget), texts[bench->round % 5]);
}

static void
clear_search (gpointer user_data)
{
  gtk_editable_set_text (GTK_EDITABLE (((Bench *) user_data)->widget), "");
}

static void
scroll (gpointer user_data)
{
  Bench *bench = user_data;

  gtk_adjustment_set_value (bench->adjustment, gtk_adjustment_get_value (bench->adjustment) + 170);
}

static void
scroll_far (gpointer user_data)
{
  Bench *bench = user_data;

  gtk_adjustment_set_value (bench->adjustment,
                            gtk_adjustment_get_upper (bench->adjustment) / (2 + bench->round));
}

static void
sort (gpointer user_data)
{
  Bench *bench = user_data;

  cro_records_view_sort (CRO_RECORDS_VIEW (bench->widget), (guint) bench->round, TRUE);
}

static void
type (gpointer user_data)
{
  Bench *bench = user_data;
  char text[16];

  g_snprintf (text, sizeof text, "%d", 100 + bench->round);
  gtk_editable_set_text (GTK_EDITABLE (bench->widget), text);
}

static void
enter (gpointer user_data)
{
  g_signal_emit_by_name (((Bench *) user_data)->widget, "activate");
}

static void
undo (gpointer user_data)
{
  gtk_widget_activate_action (((Bench *) user_data)->window, "win.undo", NULL);
}

static void
redo (gpointer user_data)
{
  gtk_widget_activate_action (((Bench *) user_data)->window, "win.redo", NULL);
}

static void
look_up (gpointer user_data)
{
  static const char *const texts[] = { "25 g k", "25 g kept", "25 g kept 99", "25 g a", "25 g p" };
  Bench *bench = user_data;

  gtk_editable_set_text (GTK_EDITABLE (bench->widget), texts[bench->round % 5]);
}

static void
do_nothing (gpointer user_data)
{
}

/* --- Measuring ----------------------------------------------------------------------------------------- */

static void
say (const char *what,
     double     *seconds,
     double      goal)
{
  double median = cro_bench_median (seconds, N_ROUNDS);

  cro_bench_row (what, median, goal < AT_ONCE_SECONDS ? "a frame" : "at once", goal,
                 median / goal, 1);
}

/* between comes before each round but the first, and is not counted. */
static void
measure (Bench       *bench,
         const char  *what,
         CroFramesDo  act,
         CroFramesDo  between,
         double       goal)
{
  double seconds[N_ROUNDS];

  for (bench->round = 0; bench->round < N_ROUNDS; bench->round++)
    {
      if (bench->round > 0 && between != NULL)
        cro_frames_until (bench->window, between, NULL, bench);
      seconds[bench->round] = cro_frames_until (bench->window, act, NULL, bench).longest;
    }
  say (what, seconds, goal);
}

static void
find_adjustment (Bench     *bench,
                 GtkWidget *table)
{
  GtkWidget *view = cro_frames_find (table, GTK_TYPE_LIST_VIEW, 0);
  GtkWidget *scroller = gtk_widget_get_ancestor (view, GTK_TYPE_SCROLLED_WINDOW);

  bench->adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
}

static void
go_and_settle (Bench *bench,
               int    place)
{
  go_to (bench, place);
  cro_frames_until (bench->window, do_nothing, NULL, NULL);
}

static void
leave_place (gpointer user_data)
{
  go_to (user_data, CRO_PLACE_MONTHS);
}

static void
measure_places (Bench *bench)
{
  static const char *const names[CRO_N_PLACES] = { "to Plates", "to Preparations", "to Larder",
                                                   "to Market", "to Months" };

  for (bench->place = 0; bench->place < CRO_PLACE_MONTHS; bench->place++)
    {
      go_and_settle (bench, CRO_PLACE_MONTHS);
      measure (bench, names[bench->place], choose_place, leave_place, AT_ONCE_SECONDS);
    }
}

static void
measure_list (Bench *bench)
{
  GtkWidget *list;

  go_and_settle (bench, CRO_PLACE_LARDER);
  list = cro_frames_find (bench->window, CRO_TYPE_PLACE_LIST, 0);
  bench->widget = cro_frames_find (list, GTK_TYPE_LIST_VIEW, 0);
  measure (bench, "a row of the larder", choose_row, NULL, AT_ONCE_SECONDS);
  find_adjustment (bench, list);
  measure (bench, "the larder scrolled", scroll, NULL, FRAME_SECONDS);
  measure (bench, "the larder scrolled far", scroll_far, NULL, FRAME_SECONDS);
  bench->widget = cro_frames_find (list, GTK_TYPE_SEARCH_ENTRY, 0);
  measure (bench, "the larder searched", search, NULL, FRAME_SECONDS);
  measure (bench, "its search cleared", clear_search, search, FRAME_SECONDS);
}

static void
measure_table (Bench *bench)
{
  GtkWidget *table;

  go_and_settle (bench, CRO_PLACE_MARKET);
  table = cro_frames_find (bench->window, CRO_TYPE_RECORDS_VIEW, 0);
  find_adjustment (bench, table);
  measure (bench, "the packs scrolled", scroll, NULL, FRAME_SECONDS);
  bench->widget = table;
  measure (bench, "the packs sorted", sort, NULL, AT_ONCE_SECONDS);
  bench->widget = cro_frames_find (table, GTK_TYPE_SEARCH_ENTRY, 0);
  measure (bench, "the packs searched", search, NULL, FRAME_SECONDS);
}

static void
measure_lines (Bench *bench)
{
  GtkWidget *input;

  go_and_settle (bench, CRO_PLACE_PLATES);
  input = cro_frames_find (cro_frames_find (bench->window, CRO_TYPE_LINE_ROW, 0), CRO_TYPE_INPUT, 0);
  bench->widget = cro_frames_find (input, GTK_TYPE_ENTRY, 0);
  gtk_widget_grab_focus (bench->widget);
  measure (bench, "a key in an amount", type, NULL, FRAME_SECONDS);
  measure (bench, "the amount kept", enter, type, AT_ONCE_SECONDS);
  measure (bench, "undone", undo, redo, AT_ONCE_SECONDS);
  measure (bench, "redone", redo, undo, AT_ONCE_SECONDS);
  bench->widget = cro_frames_find (cro_frames_find (bench->window, CRO_TYPE_QUICK_LINE, 0),
                                   GTK_TYPE_ENTRY, 0);
  gtk_widget_grab_focus (bench->widget);
  measure (bench, "a name typed in the next line", look_up, NULL, FRAME_SECONDS);
}

static void
run (AdwApplication *application,
     const char     *path)
{
  Bench bench = { .window = cro_window_new (application) };
  double longest;

  cro_frames_show (bench.window);
  longest = cro_frames_open (bench.window, path).longest;
  cro_bench_head ("100 thousand lines, 60 thousand packs");
  cro_bench_row ("opened", longest, "at once", AT_ONCE_SECONDS, longest / AT_ONCE_SECONDS, 1);
  measure_lines (&bench);
  measure_places (&bench);
  measure_list (&bench);
  measure_table (&bench);
  gtk_window_destroy (GTK_WINDOW (bench.window));
}

int
main (int    argc,
      char **argv)
{
  CroSyntheticMore more = { 60000, 3 };
  g_autofree char *folder = cro_synthetic_make_larger (argc > 1 ? argv[1] : NULL, 100000, more);
  g_autofree char *path = g_build_filename (folder, "big.croustade", NULL);
  g_autoptr (AdwApplication) application
      = adw_application_new ("org.croustade.Bench", G_APPLICATION_NON_UNIQUE);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;

  check (g_application_register (G_APPLICATION (application), NULL, &error), error);
  cro_frames_init ();
  check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  run (application, path);
  cro_synthetic_remove_folder (folder);
  return 0;
}
