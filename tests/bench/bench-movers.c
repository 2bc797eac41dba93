/* What moves the cost of one plate: its first ten rows, of all prices, yields and amounts below it.
 *
 * Beside     One reverse sweep of what the plate reaches, which has to be made for it.
 * Counted    Both in a book that is open and warm; the plate that reaches most lines of the first
 *            thousand, and one in the middle. Limits, against the plate's own target, sweep again.
 *
 * Usage: bench-movers [FOLDER]   (for the book; default: that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-book.h"
#include "cro-effects.h"
#include "cro-limits.h"
#include "cro-load.h"
#include "synthetic-tables.h"

#include <stdio.h>

#define N_ROWS 10
#define N_PLATES 1000

typedef struct
{
  CroFigures *figures;
  CroRef      plate;
} Bench;

static void
find_movers (void *user_data)
{
  Bench *bench = user_data;

  cro_movers_free (cro_movers_new (bench->figures, bench->plate, N_ROWS));
}

static void
find_limits (void *user_data)
{
  Bench *bench = user_data;
  CroMovers *movers = cro_movers_new (bench->figures, bench->plate, N_ROWS);

  g_array_unref (cro_limits_new (bench->figures, bench->plate, movers->movers));
  cro_movers_free (movers);
}

static void
sweep_back (void *user_data)
{
  Bench *bench = user_data;

  cro_effects_trace (bench->figures, bench->plate);
  cro_effects_clear (bench->figures);
}

static guint
lines_below (const Bench *bench)
{
  const CroGraph *graph = &bench->figures->graph;
  guint n = 0;

  cro_effects_trace (bench->figures, bench->plate);
  for (guint32 row = cro_effects_next (bench->figures, 0); row < graph->n_rows;
       row = cro_effects_next (bench->figures, row + 1))
    n += graph->first[row + 1] - graph->first[row];
  cro_effects_clear (bench->figures);
  return n;
}

typedef struct
{
  guint32 plate;
  guint   lines;
} Reach;

static int
by_lines (gconstpointer a,
          gconstpointer b)
{
  guint x = ((const Reach *) a)->lines, y = ((const Reach *) b)->lines;

  return x < y ? -1 : x > y;
}

/* The plates, by how much they reach. */
static GArray *
reaches (Bench *bench)
{
  CroModel *model = bench->figures->model;
  GArray *found = g_array_new (FALSE, FALSE, sizeof (Reach));

  for (guint32 slot = 0; slot < model->recipes->len && found->len < N_PLATES; slot++)
    if (cro_model_recipe (model, slot)->is_plate)
      {
        Reach reach = { slot, 0 };

        bench->plate = CRO_REF (CRO_REF_RECIPE, slot);
        reach.lines = lines_below (bench);
        g_array_append_val (found, reach);
      }
  g_array_sort (found, by_lines);
  return found;
}

static void
compare (Bench       *bench,
         const Reach *reach)
{
  CroBenchPair pair;

  bench->plate = CRO_REF (CRO_REF_RECIPE, reach->plate);
  printf ("a plate over %u lines\n", reach->lines);
  pair = cro_bench_pair (find_movers, sweep_back, bench, 41, 20);
  cro_bench_row_of ("what moves it", "reverse sweep", &pair, 1.5);
  pair = cro_bench_pair (find_limits, sweep_back, bench, 41, 20);
  cro_bench_row_of ("with its limits", "reverse sweep", &pair, 0);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = cro_synthetic_make_folder (argc > 1 ? argv[1] : NULL, 1000000);
  g_autofree char *path = g_build_filename (folder, "movers.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;
  CroBook *book;
  Bench bench;
  GArray *found;

  check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  book = cro_book_open (path, "bench", CRO_STORE_READ, CRO_SYNTHETIC_DAY, &error);
  check (book != NULL, error);
  bench.figures = cro_book_get_figures (book);
  found = reaches (&bench);
  cro_bench_head ("1 million lines");
  compare (&bench, &g_array_index (found, Reach, found->len / 2));
  compare (&bench, &g_array_index (found, Reach, found->len - 1));
  g_array_unref (found);
  g_object_unref (book);
  cro_synthetic_remove_folder (folder);
  return 0;
}
