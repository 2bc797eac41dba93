/* A sweep solves (I - A) x = b: the same system handed to a general sparse solver (CXSparse:
 * minimum degree ordering and LU), which knows nothing of batches or of parts that come first.
 *
 * Pivots stay on the diagonal: everything off it is of one sign, so that elimination cancels
 * nothing in whatever order, while rows of grams and of pieces differ by many powers of ten. */
#include "near.h"
#include "random-book.h"

#include <stdlib.h>
#include <suitesparse/cs.h>

#define MINIMUM_DEGREE 1
#define ON_DIAGONAL 0

static const struct
{
  const char *says;
  RandomSize  size;
  size_t      n;
} cases[] = {
  { "small books", { 8, 12, 4, 6, false }, 1000 },
  { "books of some hundred items", { 60, 150, 3, 10, false }, 40 },
  { "wide books of long rows", { 200, 40, 2, 60, true }, 40 },
};

/* Unknowns are the unit costs of all items, then the costs of all rows, by slot:
 *   u_raw = price     C_row - sum (q u) = own     u_out - share C_row = fixed */
static cs_di *
system_of (const Book *book,
           int         layer,
           double     *b)
{
  const CroGraph *graph = &book->graph;
  int n_items = (int) book->n_items, n = n_items + (int) book->n_rows;
  cs_di *triplets = cs_di_spalloc (n, n, 4 * n, 1, 1);
  cs_di *matrix;

  for (int i = 0; i < n; i++)
    cs_di_entry (triplets, i, i, 1);
  for (size_t l = 0; l < book->lines.n; l++)
    {
      uint32_t item = book->lines.item[l];

      cs_di_entry (triplets, n_items + book->lines.row[l], (int) item,
                   -cro_line_charged (&book->lines, l, &book->measure[item]));
    }
  for (int i = 0; i < n_items; i++)
    {
      uint32_t node = graph->node_of_item[i];

      b[i] = book->unit_cost[layer][node];
      if (book->maker[i] < 0)
        continue;
      b[i] = layer == FOOD ? book->output[i].fixed : 0;
      cs_di_entry (triplets, i, n_items + book->maker[i], -book->output[i].share);
    }
  for (int r = 0; r < (int) book->n_rows; r++)
    b[n_items + r] = layer == LABOUR ? book->own[graph->row_of_slot[r]] : 0;

  matrix = cs_di_compress (triplets);
  cs_di_dupl (matrix);
  cs_di_spfree (triplets);
  return matrix;
}

/* The largest term that enters each figure: the sweep with every term made positive. */
static void
sweep_terms (const Book *book,
             int         layer,
             double     *unit_term,
             double     *row_term)
{
  double *fixed = calloc (book->n_items, sizeof *fixed);
  CroLayer terms = book->layer[layer];

  for (size_t i = 0; i < book->n_items; i++)
    {
      fixed[i] = layer == FOOD ? fabs (book->fixed[i]) : 0;
      unit_term[i] = i < book->graph.n_raws ? book->unit_cost[layer][i] : 0;
    }
  terms.fixed = fixed;
  terms.unit_cost = unit_term;
  terms.row_cost = row_term;
  cro_sweep (&book->graph, &terms);
  free (fixed);
}

static void
compare (const char *says,
         const Book *book,
         int         layer)
{
  size_t n = book->n_items + book->n_rows;
  double *b = malloc (n * sizeof *b), *term = malloc (n * sizeof *term);
  cs_di *matrix = system_of (book, layer, b);

  expect ("the system of a book has a solution",
          cs_di_lusol (MINIMUM_DEGREE, matrix, b, ON_DIAGONAL));
  sweep_terms (book, layer, term, term + book->n_items);
  for (uint32_t i = 0; i < book->n_items; i++)
    if (fabs (b[i] - book_unit_cost (book, layer, i))
        > 1e-11 * term[book->graph.node_of_item[i]])
      fail_msg ("%s: unit cost %u is %.17g, solved %.17g", says, i,
                book_unit_cost (book, layer, i), b[i]);
  for (int32_t r = 0; r < (int32_t) book->n_rows; r++)
    if (fabs (b[book->n_items + (size_t) r] - book_row_cost (book, layer, r))
        > 1e-11 * term[book->n_items + book->graph.row_of_slot[r]])
      fail_msg ("%s: row cost %d is %.17g, solved %.17g", says, r,
                book_row_cost (book, layer, r), b[book->n_items + (size_t) r]);
  cs_di_spfree (matrix);
  free (b);
  free (term);
}

static void
test_solver_agrees (void **state)
{
  for (size_t c = 0; c < N_CASES (cases); c++)
    for (uint64_t seed = 1; seed <= cases[c].n; seed++)
      {
        uint64_t random = seed * UINT64_C (0x9e6c63d0876a9a35);
        Book *book = random_book_new (&random, &cases[c].size, NULL);

        for (int layer = 0; layer < N_LAYERS; layer++)
          compare (cases[c].says, book, layer);
        book_free (book);
      }
}

/* The reverse sweep solves the transposed system: d figure / d u for a figure that counts one
 * row. */
static void
test_transposed_agrees (void **state)
{
  for (uint64_t seed = 1; seed <= 500; seed++)
    {
      uint64_t random = seed * UINT64_C (0xbf58476d1ce4e5b9);
      Book *book = random_book_new (&random, &cases[0].size, NULL);
      size_t n = book->n_items + book->n_rows;
      double *b = calloc (n, sizeof *b), *weight = calloc (book->n_rows, sizeof *weight);
      double *effect = malloc (n * sizeof *effect);
      cs_di *matrix = system_of (book, FOOD, b);
      cs_di *transposed = cs_di_transpose (matrix, 1);
      uint32_t row = (uint32_t) random_below (&random, book->n_rows);

      for (size_t i = 0; i < n; i++)
        b[i] = i == book->n_items + book->graph.slot_of_row[row];
      weight[row] = 1;
      expect ("the transposed system has a solution",
              cs_di_lusol (MINIMUM_DEGREE, transposed, b, ON_DIAGONAL));
      cro_sweep_back (&book->graph, book->share, weight, effect + book->n_items, effect);
      for (size_t i = 0; i < book->n_items; i++)
        {
          double got = effect[book->graph.node_of_item[i]];

          if (fabs (got - b[i]) > 1e-11 * fabs (got))
            fail_msg ("effect of item %zu is %.17g, solved %.17g", i, got, b[i]);
        }
      cs_di_spfree (transposed);
      cs_di_spfree (matrix);
      free (effect);
      free (weight);
      free (b);
      book_free (book);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_solver_agrees),
    cmocka_unit_test (test_transposed_agrees),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
