/* Slopes in assigned values: as figures are affine in them, a slope times a step is the whole
 * difference, whatever the size of the step. */
#include "near.h"
#include "random-book.h"

#include "cro-effect.h"

#include <stdlib.h>

#define N_BOOKS 500

static const RandomSize size = { 8, 10, 3, 6, true };

/* The food cost of all rows that make nothing. */
static double
cost_of_plates (const Book *book,
                double     *weight)
{
  double cost = 0;

  for (size_t row = 0; row < book->graph.n_rows; row++)
    {
      weight[row] = book->graph.made[row] == book->graph.made[row + 1];
      cost += weight[row] * book->row_cost[FOOD][row];
    }
  return cost;
}

typedef struct
{
  double *weight, *row_effect, *effect;
} Slopes;

static void
find_slopes (Book   *book,
             Slopes *slopes)
{
  slopes->weight = calloc (book->graph.n_rows + 1, sizeof (double));
  slopes->row_effect = calloc (book->graph.n_rows + 1, sizeof (double));
  slopes->effect = calloc (book->graph.n_items + 1, sizeof (double));
  cost_of_plates (book, slopes->weight);
  cro_sweep_back (&book->graph, book->share, slopes->weight, slopes->row_effect, slopes->effect);
}

static void
free_slopes (Slopes *slopes)
{
  free (slopes->weight);
  free (slopes->row_effect);
  free (slopes->effect);
}

static bool
is_close (double a,
          double b,
          double scale)
{
  return fabs (a - b) <= 1e-10 * (fabs (scale) + fabs (a) + 1);
}

/* Moves the value of the first by-product of a row; says whether there is one. */
static bool
test_one_value (Book     *book,
                uint32_t  row,
                uint64_t *seed)
{
  const CroGraph *graph = &book->graph;
  uint32_t main_node = graph->made[row], node = main_node + 1;
  CroOutput *output;
  Slopes slopes;
  double before, value, slope, moved;

  if (graph->made[row + 1] - main_node < 2
      || book->rule[graph->slot_of_row[row]] != CRO_RULE_CREDIT)
    return false;
  find_slopes (book, &slopes);
  before = cost_of_plates (book, slopes.weight);
  output = book_output (book, node);
  value = output->value_of_base;
  slope = cro_effect_of_value (slopes.effect[node], slopes.effect[main_node], output->used,
                               book_output (book, main_node)->used);
  output->value = 1 + (int64_t) random_below (seed, 9000000);
  book_settle (book);
  moved = cost_of_plates (book, slopes.weight) - before;
  if (!is_close (moved, slope * (output->value_of_base - value), before))
    fail_msg ("an assigned value moves the plates by %.17g, its slope says %.17g", moved,
              slope * (output->value_of_base - value));
  free_slopes (&slopes);
  return true;
}

static void
test_values (void **state)
{
  uint64_t seed = 78;
  int tried = 0;

  for (int n = 0; n < N_BOOKS; n++)
    {
      Book *book = random_book_new (&seed, &size, NULL);

      for (uint32_t row = 0; row < book->graph.n_rows; row++)
        tried += test_one_value (book, row, &seed);
      book_free (book);
    }
  assert_true (tried > 100);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_values),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
