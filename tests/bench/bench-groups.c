/* Plates under headings of their courses, folded and unfolded.
 *
 * Counted    What the main loop works from the key to the end of its painted frame: the median of
 *            the rounds. 10 thousand plates in nine courses, in the list of their place.
 * Goal       A frame of a screen that shows 60 a second.
 *
 * Usage: bench-groups [FOLDER]   (for the book; default: that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-place-list.h"
#include "frames.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#include <glib/gstdio.h>

#define N_PLATES 10000
#define N_COURSES 9
#define N_ROUNDS 9
#define FRAME_SECONDS (1 / 60.0)

typedef struct
{
  CroBook   *book;
  GtkWidget *window;
  GtkWidget *list;
} Bench;

static void
write_table (const char *folder,
             const char *name,
             const char *text)
{
  g_autofree char *file = g_strconcat (name, ".csv", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  GError *error = NULL;

  check (g_file_set_contents (path, text, -1, &error), error);
}

static char *
make_folder (const char *parent)
{
  char *folder = g_build_filename (parent != NULL ? parent : g_get_tmp_dir (), "groups-XXXXXX", NULL);
  g_autoptr (GString) plates = g_string_new ("name,course,makes,price\n");
  g_autoptr (GString) lines = g_string_new ("into,parent,position,item,amount,unit\n");

  g_assert_nonnull (g_mkdtemp (folder));
  for (int i = 0; i < N_PLATES; i++)
    {
      g_string_append_printf (plates, "Plate %05d,Course %d,1,20\n", i, i % N_COURSES);
      g_string_append_printf (lines, "plate,Plate %05d,1,Leek,%d,g\n", i, 10 + i % 300);
    }
  write_table (folder, "ingredients", "name,unit\nLeek,g\n");
  write_table (folder, "plates", plates->str);
  write_table (folder, "lines", lines->str);
  return folder;
}

static void
show (gpointer user_data)
{
  Bench *bench = user_data;

  cro_place_list_set_place (CRO_PLACE_LIST (bench->list), CRO_PLACE_PLATES);
  cro_place_list_set_book (CRO_PLACE_LIST (bench->list), bench->book);
}

/* As Enter does on the first heading. */
static void
turn (gpointer user_data)
{
  Bench *bench = user_data;

  gtk_widget_activate_action (cro_frames_find (bench->list, GTK_TYPE_LIST_VIEW, 0),
                              "list.activate-item", "u", 0);
}

static void
say (const char *what,
     double     *seconds)
{
  double median = cro_bench_median (seconds, N_ROUNDS);

  cro_bench_row (what, median, "a frame", FRAME_SECONDS, median / FRAME_SECONDS, 1);
}

static void
measure (Bench *bench)
{
  double unfolded[N_ROUNDS], folded[N_ROUNDS];

  cro_frames_do (bench->window, show, bench);
  for (int i = 0; i < N_ROUNDS; i++)
    {
      unfolded[i] = cro_frames_do (bench->window, turn, bench).work;
      folded[i] = cro_frames_do (bench->window, turn, bench).work;
    }
  cro_bench_head ("10 thousand plates under their courses");
  say ("a heading unfolded", unfolded);
  say ("and folded", folded);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = make_folder (argc > 1 ? argv[1] : NULL);
  g_autofree char *path = g_build_filename (folder, "groups.croustade", NULL);
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
  bench.list = g_object_new (CRO_TYPE_PLACE_LIST, NULL);
  adw_window_set_content (ADW_WINDOW (bench.window), bench.list);
  cro_frames_show (bench.window);
  measure (&bench);
  gtk_window_destroy (GTK_WINDOW (bench.window));
  g_object_unref (bench.book);
  cro_synthetic_remove_folder (folder);
  return 0;
}
