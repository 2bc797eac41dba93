/* A key pressed in the amount of a line, until the figures that it moves are painted.
 *
 * Counted    What the main loop works from the changed text to the end of the frame that shows
 *            it: in the first line of a plate, and of a preparation that others take, of as many
 *            lines in each book, as what is on the screen costs time whatever the book's size. In
 *            one round a digit is typed, in the next it goes again, each one change of the text,
 *            as a key's is; the median of all.
 * Beside     A frame of a screen that shows 60 a second, and the same key in a book of 10 thousand
 *            lines: a key walks no list of all that there is.
 *
 * Usage: bench-key [FOLDER]   (for the book; default: that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-input.h"
#include "cro-line-row.h"
#include "cro-window.h"
#include "frames.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#include <stdio.h>

#define N_KEYS 101
#define N_LINES 8
#define FRAME_SECONDS (1 / 60.0)

typedef struct
{
  GtkWidget  *window;
  GtkWidget  *entry;
  guint       n;
} Bench;

static void
do_nothing (gpointer user_data)
{
}

static void
press (gpointer user_data)
{
  Bench *bench = user_data;
  GtkEditable *entry = GTK_EDITABLE (bench->entry);
  int end = (int) g_utf8_strlen (gtk_editable_get_text (entry), -1);
  char digit = (char) ('1' + bench->n / 2 % 9);

  if (bench->n++ % 2 == 0)
    gtk_editable_insert_text (entry, &digit, 1, &end);
  else
    gtk_editable_delete_text (entry, end - 1, end);
}

static guint32
count_lines (CroModel *model,
             guint32   recipe)
{
  guint32 n = 0;

  for (guint i = 0; i < model->lines.n; i++)
    n += (guint32) model->lines.row[i] == recipe;
  return n;
}

/* The slot of a preparation that is used, or of a plate: the first with N_LINES. */
static guint32
find_recipe (CroModel *model,
             gboolean  is_plate)
{
  guint32 last = CRO_NO_SLOT;

  for (guint32 i = 0; i < model->lines.n; i++)
    {
      guint32 row = (guint32) model->lines.row[i];
      gint32 maker = model->maker[model->lines.item[i]];
      guint32 found = is_plate && cro_model_recipe (model, row)->is_plate ? row
                      : !is_plate && maker >= 0                           ? (guint32) maker
                                                                          : CRO_NO_SLOT;

      if (found != CRO_NO_SLOT && found != last && count_lines (model, found) == N_LINES)
        return found;
      last = found != CRO_NO_SLOT ? found : last;
    }
  g_error ("the book has no such recipe");
}

static void
tell (const char *what,
      double      work,
      double      of_95,
      double     *in_smallest)
{
  cro_bench_row (what, work, "a frame", FRAME_SECONDS, work / FRAME_SECONDS, 1);
  cro_bench_row ("  95 of 100 within", of_95, "a frame", FRAME_SECONDS, of_95 / FRAME_SECONDS, 1);
  if (*in_smallest > 0)
    cro_bench_row ("  the same key", work, "10 thousand lines", *in_smallest, work / *in_smallest,
                   1.2);
  else
    *in_smallest = work;
}

/* in_smallest: the work of this key in the smallest book; 0 while it is not known. */
static void
type (Bench      *bench,
      gboolean    is_plate,
      const char *what,
      double     *in_smallest)
{
  CroModel *model = cro_book_get_model (cro_window_get_book (CRO_WINDOW (bench->window)));
  double seconds[N_KEYS], longest = 0, work;
  GtkWidget *row, *input;

  cro_window_open_ref (CRO_WINDOW (bench->window),
                       CRO_REF (CRO_REF_RECIPE, find_recipe (model, is_plate)));
  cro_frames_until (bench->window, do_nothing, NULL, NULL);
  row = cro_frames_find (bench->window, CRO_TYPE_LINE_ROW, 0);
  input = cro_frames_find (row, CRO_TYPE_INPUT, 0);
  bench->entry = cro_frames_find (input, GTK_TYPE_ENTRY, 0);
  gtk_widget_grab_focus (bench->entry);
  gtk_editable_set_text (GTK_EDITABLE (bench->entry), "10");
  cro_frames_until (bench->window, do_nothing, NULL, NULL);
  bench->n = 0;
  for (int i = 0; i < N_KEYS; i++)
    {
      seconds[i] = cro_frames_do (bench->window, press, bench).work;
      longest = MAX (longest, seconds[i]);
    }
  work = cro_bench_median (seconds, N_KEYS);
  tell (what, work, seconds[N_KEYS * 95 / 100], in_smallest);
  printf ("the longest %.1f ms\n", 1e3 * longest);
}

static const struct
{
  const char *title;
  size_t      n_lines;
} sizes[] = {
  { "10 thousand lines", 10000 },
  { "100 thousand lines", 100000 },
  { "1 million lines", 1000000 },
};

static void
run (AdwApplication *application,
     const char     *parent,
     int             size,
     double          in_smallest[2])
{
  g_autofree char *folder = cro_synthetic_make_folder (parent, sizes[size].n_lines);
  g_autofree char *path = g_build_filename (folder, "key.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  Bench bench = { .window = cro_window_new (application) };
  GError *error = NULL;

  check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  cro_frames_show (bench.window);
  cro_frames_open (bench.window, path);
  cro_bench_head (sizes[size].title);
  type (&bench, TRUE, "a key in a plate", &in_smallest[0]);
  type (&bench, FALSE, "a key in a preparation", &in_smallest[1]);
  gtk_window_destroy (GTK_WINDOW (bench.window));
  cro_synthetic_remove_folder (folder);
}

int
main (int    argc,
      char **argv)
{
  g_autoptr (AdwApplication) application
      = adw_application_new ("org.croustade.Bench", G_APPLICATION_NON_UNIQUE);
  double in_smallest[2] = { 0, 0 };
  GError *error = NULL;

  check (g_application_register (G_APPLICATION (application), NULL, &error), error);
  cro_frames_init ();
  for (int i = 0; i < (int) G_N_ELEMENTS (sizes); i++)
    run (application, argc > 1 ? argv[1] : NULL, i, in_smallest);
  return 0;
}
