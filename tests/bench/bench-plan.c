/* What a service of every plate of a book runs and takes.
 *
 * Beside     A full sweep of the food layer of the same book.
 * Counted    The run alone, in arrays that are there and warm; and the pans of the book, which hang
 *            on nothing that is planned, found anew.
 * Fails      If what is bought has no cost. */
#include "bench.h"
#include "cro-plan.h"
#include "synthetic.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

typedef struct
{
  CroSynthetic   book;
  CroRoll        roll;
  CroPlanSource  source;
  CroPlan        plan;
  CroPan        *pans;
  double        *of_batch;
} Bench;

static void
plan (void *user_data)
{
  Bench *bench = user_data;

  cro_plan_run (&bench->roll.graph, &bench->source, &bench->plan);
}

static void
find_pans (void *user_data)
{
  Bench *bench = user_data;

  cro_plan_find_pans (&bench->roll.graph, &bench->book.lines, bench->of_batch, bench->pans);
}

static void
sweep (void *user_data)
{
  Bench *bench = user_data;

  cro_sweep (&bench->roll.graph, &bench->roll.food);
}

/* Plates are served once; of a batch as much is used as its share of the cost says. */
static void
make (Bench  *bench,
      size_t  n_lines)
{
  double *times, *used;
  CroGraph *graph = &bench->roll.graph;

  cro_synthetic_make (&bench->book, n_lines);
  cro_roll_make (&bench->roll, &bench->book);
  times = cro_bench_allocate (graph->n_rows, sizeof *times);
  used = cro_bench_allocate (graph->n_items, sizeof *used);
  for (size_t row = 0; row < graph->n_rows; row++)
    {
      times[row] = graph->made[row] == graph->made[row + 1];
      for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
        used[node] = bench->roll.share[node] > 0 ? 1 / bench->roll.share[node] : 0;
    }
  bench->of_batch = cro_bench_allocate (graph->n_items, sizeof (double));
  bench->pans = cro_bench_allocate (bench->book.lines.n, sizeof *bench->pans);
  bench->source = (CroPlanSource){
    times, cro_bench_allocate (graph->n_rows, sizeof (int64_t)), used,
    cro_bench_allocate (graph->n_items, sizeof (double)), bench->pans,
    cro_plan_find_pans (graph, &bench->book.lines, bench->of_batch, bench->pans)
  };
  bench->plan = (CroPlan){ cro_bench_allocate (graph->n_items, sizeof (double)),
                           cro_bench_allocate (graph->n_items, sizeof (double)),
                           cro_bench_allocate (graph->n_rows, sizeof (double)),
                           cro_bench_allocate (graph->n_rows, sizeof (double)) };
}

static void
clear (Bench *bench)
{
  free ((void *) bench->source.times);
  free ((void *) bench->source.smallest);
  free ((void *) bench->source.used);
  free ((void *) bench->source.in_house);
  free (bench->plan.need);
  free (bench->plan.pan);
  free (bench->plan.runs);
  free (bench->plan.batches);
  free (bench->pans);
  free (bench->of_batch);
  cro_roll_clear (&bench->roll);
  cro_synthetic_clear (&bench->book);
}

static double
cost_of_bought (const Bench *bench)
{
  double bought = 0;

  for (size_t raw = 0; raw < bench->roll.graph.n_raws; raw++)
    bought += bench->plan.need[raw] * bench->roll.food.unit_cost[raw];
  return bought;
}

static const struct
{
  const char *title;
  size_t      n_lines, rounds, repeats;
  double      beside_sweep;
} sizes[] = {
  { "10 thousand lines", 10000, 41, 100, 0 },
  { "10 thousand plates, 400 thousand lines", 400000, 41, 5, 3 },
};

int
main (void)
{
  for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
    {
      Bench bench;
      CroBenchPair pair;

      make (&bench, sizes[i].n_lines);
      cro_bench_head (sizes[i].title);
      pair = cro_bench_pair (plan, sweep, &bench, sizes[i].rounds, sizes[i].repeats);
      cro_bench_row ("plan", pair.ours, "full sweep", pair.reference, pair.ratio,
                     sizes[i].beside_sweep);
      pair = cro_bench_pair (find_pans, sweep, &bench, sizes[i].rounds, sizes[i].repeats);
      cro_bench_row ("finding pans", pair.ours, "full sweep", pair.reference, pair.ratio, 0);
      if (!isfinite (cost_of_bought (&bench)) || !(cost_of_bought (&bench) > 0))
        {
          fprintf (stderr, "what is bought has no cost\n");
          return 1;
        }
      clear (&bench);
    }
  return 0;
}
