/* One price edited: the costs that depend on it, beside a full sweep.
 *
 * Counted    From the new price to every cost: cro_dirty_add_users and cro_sweep_dirty. In each
 *            round ten ingredients, all of a book's in turn, get another price one after the
 *            other, as at a desk, and then the same arrays are swept in full. The median is
 *            over all edits, each beside the sweep of its round.
 * Fails      If what is recomputed differs from the full sweep in a bit, or if more lines were
 *            visited than 1.2 sweeps have. */
#include "bench.h"
#include "synthetic.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ROUNDS 201
#define EDITS 10

typedef struct
{
  CroSynthetic book;
  CroRoll      roll;
  uint64_t    *dirty;
  double      *unit_cost;   /* [n_items] as the edit left them */
  double      *row_cost;    /* [n_rows] */
  size_t       most_visited;
} Bench;

typedef struct
{
  double edit[ROUNDS * EDITS];
  double ratio[ROUNDS * EDITS];
  double sweep[ROUNDS];
} Times;

static double
edit (Bench    *bench,
      uint32_t  node)
{
  const CroGraph *graph = &bench->roll.graph;
  double start = cro_bench_now (), seconds;
  size_t visited;

  visited = cro_dirty_add_users (graph, bench->dirty, node, 0);
  visited = cro_sweep_dirty (graph, &bench->roll.food, bench->dirty, visited);
  seconds = cro_bench_now () - start;
  if (visited > bench->most_visited)
    bench->most_visited = visited;
  return seconds;
}

static double
sweep (Bench *bench)
{
  double start = cro_bench_now ();

  cro_sweep (&bench->roll.graph, &bench->roll.food);
  return cro_bench_now () - start;
}

static void
remember (Bench *bench)
{
  memcpy (bench->unit_cost, bench->roll.food.unit_cost, bench->book.n_items * sizeof (double));
  memcpy (bench->row_cost, bench->roll.food.row_cost, bench->book.n_rows * sizeof (double));
}

static bool
is_as_remembered (const Bench *bench)
{
  const CroLayer *food = &bench->roll.food;

  return memcmp (bench->unit_cost, food->unit_cost, bench->book.n_items * sizeof (double)) == 0
         && memcmp (bench->row_cost, food->row_cost, bench->book.n_rows * sizeof (double)) == 0;
}

/* Whether all rounds were right. */
static bool
run (Bench *bench,
     Times *times)
{
  const CroGraph *graph = &bench->roll.graph;

  for (size_t i = 0; i < ROUNDS; i++)
    {
      for (size_t k = i * EDITS; k < (i + 1) * EDITS; k++)
        {
          /* A prime's multiples pass through all of them. */
          uint32_t node = (uint32_t) (k * 7919 % graph->n_raws);

          bench->roll.food.unit_cost[node] *= k % 2 ? 1.1 : 0.9;
          times->edit[k] = edit (bench, node);
        }
      remember (bench);
      times->sweep[i] = sweep (bench);
      for (size_t k = i * EDITS; k < (i + 1) * EDITS; k++)
        times->ratio[k] = times->edit[k] / times->sweep[i];
      if (!is_as_remembered (bench))
        return false;
    }
  return (double) bench->most_visited <= 1.2 * (double) graph->n_lines;
}

static void
make (Bench  *bench,
      size_t  n_lines)
{
  *bench = (Bench){ 0 };
  cro_synthetic_make (&bench->book, n_lines);
  cro_roll_make (&bench->roll, &bench->book);
  cro_sweep (&bench->roll.graph, &bench->roll.food);
  bench->dirty = cro_bench_allocate (cro_dirty_words (&bench->roll.graph), sizeof *bench->dirty);
  bench->unit_cost = cro_bench_allocate (bench->book.n_items, sizeof *bench->unit_cost);
  bench->row_cost = cro_bench_allocate (bench->book.n_rows, sizeof *bench->row_cost);
}

static void
clear (Bench *bench)
{
  cro_roll_clear (&bench->roll);
  cro_synthetic_clear (&bench->book);
  free (bench->dirty);
  free (bench->unit_cost);
  free (bench->row_cost);
}

static const struct
{
  const char *title;
  size_t      n_lines;
  double      goal;
} sizes[] = {
  { "10 thousand lines", 10000, 0 },
  { "100 thousand lines", 100000, 0.25 },
  { "1 million lines", 1000000, 0.06 },
};

int
main (void)
{
  for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
    {
      static Times times;
      Bench bench;

      make (&bench, sizes[i].n_lines);
      cro_bench_head (sizes[i].title);
      if (!run (&bench, &times))
        {
          fprintf (stderr, "an edit's costs or lines are not those of a sweep\n");
          return 1;
        }
      cro_bench_row ("one price edited", cro_bench_median (times.edit, ROUNDS * EDITS),
                     "full sweep", cro_bench_median (times.sweep, ROUNDS),
                     cro_bench_median (times.ratio, ROUNDS * EDITS), sizes[i].goal);
      printf ("at most %.3f of a sweep's lines visited\n",
              (double) bench.most_visited / (double) bench.roll.graph.n_lines);
      clear (&bench);
    }
  return 0;
}
