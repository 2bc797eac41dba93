/* Full roll-up and reverse sweep of the food layer.
 *
 * Beside     cs_utsolve of CXSparse, with int32 indices, on (I - A)^T of the same book in the
 *            order of the sweep, whose unknowns are all that a sweep settles: a column for
 *            every item and for every row. A row's column holds its lines, an output's its
 *            share of the row.
 *            A loop that streams quantities and parts, gathers unit costs and adds the
 *            products in four sums, so that it waits for memory and not for the adder.
 * Counted    The sweep or the solve alone, in arrays that are there and warm. utsolve works in
 *            place; setting its right-hand side up again is counted, as it is in a sweep.
 * Fails      If the two disagree by more than 1e-9 of a cost. */
#include "bench.h"
#include "synthetic.h"

#include <suitesparse/cs.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct
{
  CroSynthetic  book;
  CroRoll       roll;
  cs_di        *matrix;
  double       *right;      /* [matrix->n] */
  double       *solution;   /* [matrix->n] */
  int          *column;     /* [n_items] of a node */
  double       *weight;
  double       *row_effect;
  double       *effect;
  double        sink;       /* keeps the loop that only adds from being left out */
} Bench;

static void
put (cs_di  *matrix,
     int     row,
     double  value)
{
  int *end = &matrix->p[matrix->n + 1];

  matrix->i[*end] = row;
  matrix->x[(*end)++] = value;
}

/* Ends a column with its diagonal and tells its number. */
static void
end_column (Bench  *bench,
            int    *column,
            double  right)
{
  cs_di *matrix = bench->matrix;

  *column = (int) matrix->n;
  put (matrix, *column, 1);
  bench->right[matrix->n++] = right;
  matrix->p[matrix->n + 1] = matrix->p[matrix->n];
}

/* Raws stand first, as in the sweep; then each row, followed by what it makes. */
static void
make_matrix (Bench *bench)
{
  const CroGraph *graph = &bench->roll.graph;
  size_t n = graph->n_items + graph->n_rows;

  bench->matrix = cs_di_spalloc ((int) n, (int) n + 1, (int) (graph->n_lines + 2 * n), 1, 0);
  bench->right = cro_bench_allocate (n, sizeof (double));
  bench->solution = cro_bench_allocate (n, sizeof (double));
  bench->column = cro_bench_allocate (graph->n_items, sizeof *bench->column);
  bench->matrix->n = 0;
  bench->matrix->p[0] = bench->matrix->p[1] = 0;
  for (size_t raw = 0; raw < graph->n_raws; raw++)
    end_column (bench, &bench->column[raw], bench->roll.food.unit_cost[raw]);
  for (size_t row = 0; row < graph->n_rows; row++)
    {
      int of_row;

      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        put (bench->matrix, bench->column[graph->part[l]], -graph->quantity[l]);
      end_column (bench, &of_row, 0);
      for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
        {
          put (bench->matrix, of_row, -bench->roll.share[node]);
          end_column (bench, &bench->column[node], bench->roll.fixed[node]);
        }
    }
}

static void
sweep (void *user_data)
{
  Bench *bench = user_data;

  cro_sweep (&bench->roll.graph, &bench->roll.food);
}

static void
solve (void *user_data)
{
  Bench *bench = user_data;

  memcpy (bench->solution, bench->right, (size_t) bench->matrix->n * sizeof (double));
  cs_di_utsolve (bench->matrix, bench->solution);
}

static void
stream (void *user_data)
{
  Bench *bench = user_data;
  const CroGraph *graph = &bench->roll.graph;
  const uint32_t *part = graph->part;
  const double *quantity = graph->quantity, *unit_cost = bench->roll.food.unit_cost;
  double a = 0, b = 0, c = 0, d = 0;

  for (size_t l = 0; l + 4 <= graph->n_lines; l += 4)
    {
      a += quantity[l] * unit_cost[part[l]];
      b += quantity[l + 1] * unit_cost[part[l + 1]];
      c += quantity[l + 2] * unit_cost[part[l + 2]];
      d += quantity[l + 3] * unit_cost[part[l + 3]];
    }
  bench->sink = a + b + c + d;
}

static void
sweep_back (void *user_data)
{
  Bench *bench = user_data;

  cro_sweep_back (&bench->roll.graph, bench->roll.share, bench->weight, bench->row_effect,
                  bench->effect);
}

static double
difference (double a,
            double b)
{
  return fabs (a - b) / fmax (fabs (a), fabs (b));
}

static double
largest_difference (const Bench *bench)
{
  const CroGraph *graph = &bench->roll.graph;
  int column = (int) graph->n_raws;
  double largest = 0;

  for (size_t row = 0; row < graph->n_rows; row++)
    {
      largest = fmax (largest, difference (bench->solution[column++],
                                           bench->roll.food.row_cost[row]));
      for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
        largest = fmax (largest, difference (bench->solution[column++],
                                             bench->roll.food.unit_cost[node]));
    }
  return largest;
}

static void
make (Bench  *bench,
      size_t  n_lines)
{
  size_t n_rows, n_items;

  cro_synthetic_make (&bench->book, n_lines);
  cro_roll_make (&bench->roll, &bench->book);
  make_matrix (bench);
  n_rows = bench->book.n_rows;
  n_items = bench->book.n_items;
  bench->weight = cro_bench_allocate (n_rows, sizeof (double));
  bench->row_effect = cro_bench_allocate (n_rows, sizeof (double));
  bench->effect = cro_bench_allocate (n_items, sizeof (double));
  for (size_t row = 0; row < n_rows; row++)
    if (bench->roll.graph.made[row] == bench->roll.graph.made[row + 1])
      bench->weight[row] = 1;
}

static void
clear (Bench *bench)
{
  cro_roll_clear (&bench->roll);
  cro_synthetic_clear (&bench->book);
  cs_di_spfree (bench->matrix);
  free (bench->right);
  free (bench->solution);
  free (bench->column);
  free (bench->weight);
  free (bench->row_effect);
  free (bench->effect);
}

static const struct
{
  const char *title;
  size_t      n_lines, rounds, repeats;
  double      beside_solve, beside_stream, beside_sweep;   /* goals */
} sizes[] = {
  { "10 thousand lines", 10000, 41, 100, 0, 0, 0 },
  { "100 thousand lines", 100000, 41, 10, 0.8, 1.25, 1.5 },
  { "1 million lines", 1000000, 31, 1, 0.7, 1.15, 1.35 },
};

int
main (void)
{
  for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
    {
      size_t rounds = sizes[i].rounds, repeats = sizes[i].repeats;
      Bench bench;
      CroBenchPair pair;

      make (&bench, sizes[i].n_lines);
      cro_bench_head (sizes[i].title);
      pair = cro_bench_pair (sweep, solve, &bench, rounds, repeats);
      cro_bench_row ("full sweep", pair.ours, "cs_utsolve", pair.reference, pair.ratio,
                     sizes[i].beside_solve);
      if (!(largest_difference (&bench) < 1e-9))
        {
          fprintf (stderr, "sweep and cs_utsolve disagree\n");
          return 1;
        }
      pair = cro_bench_pair (sweep, stream, &bench, rounds, repeats);
      cro_bench_row ("full sweep", pair.ours, "streaming the arrays", pair.reference, pair.ratio,
                     sizes[i].beside_stream);
      pair = cro_bench_pair (sweep_back, sweep, &bench, rounds, repeats);
      cro_bench_row ("reverse sweep", pair.ours, "full sweep", pair.reference, pair.ratio,
                     sizes[i].beside_sweep);
      clear (&bench);
    }
  return 0;
}
