/* The list of a place with many things.
 *
 * Beside     A column view on a list of as many strings, with a column for the name and one for
 *            a figure, each a label: what a list of the place shows, without a book behind it.
 * Counted    What the main loop works from making the view, its model and, on our side, the
 *            order of the names, to the end of its first painted frame. Then, scrolled by five
 *            rows a frame, what it works for a frame; of that, what 95 of 100 frames do not
 *            exceed.
 *
 * Usage: bench-list [FOLDER]   (for the book; default: that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-place-list.h"
#include "frames.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#define N_THINGS 50000
#define N_ROUNDS 9
#define N_FRAMES 100
#define STEP_PIXELS 170

typedef struct
{
  CroBook   *book;
  GtkWidget *window;
  GtkWidget *view;
} Bench;

/* --- The two views ------------------------------------------------------------------------------- */

static void
show_ours (gpointer user_data)
{
  Bench *bench = user_data;

  bench->view = g_object_new (CRO_TYPE_PLACE_LIST, NULL);
  cro_place_list_set_place (CRO_PLACE_LIST (bench->view), CRO_PLACE_LARDER);
  cro_place_list_set_book (CRO_PLACE_LIST (bench->view), bench->book);
  adw_window_set_content (ADW_WINDOW (bench->window), bench->view);
}

static void
setup_cb (GtkSignalListItemFactory *factory,
          GtkListItem              *item)
{
  gtk_list_item_set_child (item, gtk_label_new (NULL));
}

static void
bind_cb (GtkSignalListItemFactory *factory,
         GtkListItem              *item)
{
  GtkStringObject *string = gtk_list_item_get_item (item);

  gtk_label_set_label (GTK_LABEL (gtk_list_item_get_child (item)),
                       gtk_string_object_get_string (string));
}

static void
show_bare (gpointer user_data)
{
  Bench *bench = user_data;
  g_autoptr (GPtrArray) names = g_ptr_array_new_full (N_THINGS + 1, g_free);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *view = gtk_column_view_new (NULL);
  g_autoptr (GtkSelectionModel) model = NULL;

  for (int i = 0; i < N_THINGS; i++)
    g_ptr_array_add (names, g_strdup_printf ("Kept aside %06d", i));
  g_ptr_array_add (names, NULL);
  model = GTK_SELECTION_MODEL (gtk_single_selection_new (
      G_LIST_MODEL (gtk_string_list_new ((const char *const *) names->pdata))));
  gtk_column_view_set_model (GTK_COLUMN_VIEW (view), model);
  for (int i = 0; i < 2; i++)
    {
      GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
      g_autoptr (GtkColumnViewColumn) column = gtk_column_view_column_new ("Column", factory);

      g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), NULL);
      g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
      gtk_column_view_append_column (GTK_COLUMN_VIEW (view), column);
    }
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), view);
  bench->view = scroller;
  adw_window_set_content (ADW_WINDOW (bench->window), scroller);
}

/* --- Measuring -------------------------------------------------------------------------------------- */

static void
scroll (gpointer user_data)
{
  GtkAdjustment *adjustment = user_data;

  gtk_adjustment_set_value (adjustment, gtk_adjustment_get_value (adjustment) + STEP_PIXELS);
}

static double
p95_of_scrolling (Bench *bench)
{
  GtkWidget *scroller = cro_frames_find (bench->view, GTK_TYPE_SCROLLED_WINDOW, 0);
  GtkAdjustment *adjustment
      = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  double seconds[N_FRAMES];

  for (int i = 0; i < N_FRAMES; i++)
    seconds[i] = cro_frames_do (bench->window, scroll, adjustment).work;
  cro_bench_median (seconds, N_FRAMES);
  return seconds[N_FRAMES * 95 / 100];
}

static void
measure (Bench       *bench,
         CroFramesDo  show,
         double      *first,
         double      *p95)
{
  *first = cro_frames_do (bench->window, show, bench).work;
  *p95 = p95_of_scrolling (bench);
  adw_window_set_content (ADW_WINDOW (bench->window), NULL);
}

static void
compare (Bench *bench)
{
  double first[3][N_ROUNDS], p95[3][N_ROUNDS];

  for (int i = -1; i < N_ROUNDS; i++)
    {
      int at = MAX (i, 0);

      measure (bench, show_ours, &first[0][at], &p95[0][at]);
      measure (bench, show_bare, &first[1][at], &p95[1][at]);
      first[2][at] = first[0][at] / first[1][at];
      p95[2][at] = p95[0][at] / p95[1][at];
    }
  cro_bench_head ("50 thousand things in a list");
  cro_bench_row ("first frame", cro_bench_median (first[0], N_ROUNDS), "column view of strings",
                 cro_bench_median (first[1], N_ROUNDS), cro_bench_median (first[2], N_ROUNDS), 1.1);
  cro_bench_row ("scrolled: 95 of 100 frames", cro_bench_median (p95[0], N_ROUNDS),
                 "column view of strings", cro_bench_median (p95[1], N_ROUNDS),
                 cro_bench_median (p95[2], N_ROUNDS), 1.3);
}

int
main (int    argc,
      char **argv)
{
  CroSyntheticMore more = { N_THINGS, 1 };
  g_autofree char *folder = cro_synthetic_make_larger (argc > 1 ? argv[1] : NULL, 100, more);
  g_autofree char *path = g_build_filename (folder, "list.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;
  Bench bench;

  adw_init ();
  cro_frames_init ();
  check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  bench.book = cro_book_open (path, "bench", CRO_STORE_WRITE, CRO_SYNTHETIC_DAY, &error);
  check (bench.book != NULL, error);
  bench.window = adw_window_new ();
  gtk_window_set_default_size (GTK_WINDOW (bench.window), 400, 700);
  cro_frames_show (bench.window);
  compare (&bench);
  gtk_window_destroy (GTK_WINDOW (bench.window));
  g_object_unref (bench.book);
  cro_synthetic_remove_folder (folder);
  return 0;
}
