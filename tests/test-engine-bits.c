/* What is recomputed after a change equals a full sweep bit for bit, at no more than 1.2 times
 * its lines, on thousands of generated books. */
#include "near.h"
#include "random-book.h"

#include "cro-decimal.h"

#include <stdlib.h>
#include <string.h>

#define N_BOOKS 2000
#define N_ROUNDS 12

static const RandomSize small_size = { 8, 12, 4, 6, false };
static const RandomSize wide_size = { 40, 150, 3, 12, false };

/* Marks and lines visited of each layer. */
typedef struct
{
  uint64_t *dirty[N_LAYERS];
  size_t    visited[N_LAYERS];
} Marks;

static void
change_price (Book     *book,
              uint64_t *state,
              Marks    *marks)
{
  uint32_t node = (uint32_t) random_below (state, book->graph.n_raws);
  double price = (double) random_below (state, 2000000) / 1e6;

  for (int layer = FOOD; layer <= DISPOSABLES; layer++)
    if (book->measure[book->graph.item_of_node[node]].is_food == (layer == FOOD))
      {
        book->unit_cost[layer][node] = price;
        marks->visited[layer] = cro_dirty_add_users (&book->graph, marks->dirty[layer], node,
                                                     marks->visited[layer]);
      }
}

/* A changed line changes the batch's mass too, and so the shares of outputs by yield. */
static void
change_line (Book     *book,
             uint64_t *state,
             Marks    *marks)
{
  size_t l = random_below (state, book->graph.n_lines);
  uint32_t i = book->graph.line_slot[l];
  CroLines *lines = &book->lines;
  uint32_t row = book->graph.row_of_slot[lines->row[i]];

  switch (random_below (state, 3))
    {
    case 0:
      lines->amount[i] = 1 + (int64_t) random_below (state, 3000000000);
      break;
    case 1:
      lines->yield[i] = 1 + (int32_t) random_below (state, 900000000);
      break;
    default:
      lines->recovered[i] = (int32_t) random_below (state, CRO_WHOLE_PCT);
    }
  book->graph.quantity[l] = cro_line_charged (lines, i, &book->measure[lines->item[i]]);
  book_share_row (book, row);
  for (int layer = 0; layer < N_LAYERS; layer++)
    cro_dirty_add_row (marks->dirty[layer], row);
}

static void
change_share (Book     *book,
              uint64_t *state,
              Marks    *marks)
{
  uint32_t row = (uint32_t) random_below (state, book->graph.n_rows);
  uint32_t slot = book->graph.slot_of_row[row];

  book->rule[slot] = (CroRule) random_below (state, 4);
  for (uint32_t node = book->graph.made[row]; node < book->graph.made[row + 1]; node++)
    {
      CroOutput *output = book_output (book, node);

      output->value = (int64_t) random_below (state, 30000000);
      if (output->amount > 0)
        output->amount = 1 + (int64_t) random_below (state, 5000000000);
    }
  book_share_row (book, row);
  for (int layer = 0; layer < N_LAYERS; layer++)
    cro_dirty_add_row (marks->dirty[layer], row);
}

static void
change_minutes (Book     *book,
                uint64_t *state,
                Marks    *marks)
{
  uint32_t row = (uint32_t) random_below (state, book->graph.n_rows);

  book->own[row] = (double) random_below (state, 60000000) / 7e5;
  cro_dirty_add_row (marks->dirty[LABOUR], row);
}

static const struct
{
  const char *says;
  void      (*change) (Book *book, uint64_t *state, Marks *marks);
  size_t      most;
} cases[] = {
  { "one price", change_price, 1 },
  { "a round of prices", change_price, 40 },
  { "a line's amount, yield or recovered part", change_line, 1 },
  { "several lines", change_line, 20 },
  { "a by-product rule, its amounts and values", change_share, 3 },
  { "the minutes of a batch", change_minutes, 2 },
};

static bool
is_clear (const uint64_t *dirty,
          size_t          words)
{
  for (size_t i = 0; i < words; i++)
    if (dirty[i] != 0)
      return false;
  return true;
}

/* A line charged alone, as an edit does, and all of them folded at once. */
static void
expect_same_quantities (const char *says,
                        const Book *book)
{
  CroGraph folded = book->graph;
  size_t size = folded.n_lines * sizeof *folded.quantity;

  folded.quantity = malloc (size);
  cro_lines_charged (&book->lines, folded.line_slot, folded.n_lines, book->measure, folded.quantity);
  if (memcmp (folded.quantity, book->graph.quantity, size) != 0)
    fail_msg ("after a change of %s quantities differ from folding all lines", says);
  free (folded.quantity);
}

/* Compares each layer as recomputed with a sweep of copies. */
static void
expect_same_bits (const char *says,
                  const Book *book)
{
  const CroGraph *graph = &book->graph;
  double *unit_cost = malloc (graph->n_items * sizeof *unit_cost);
  double *row_cost = malloc (graph->n_rows * sizeof *row_cost);

  for (int layer = 0; layer < N_LAYERS; layer++)
    {
      CroLayer full = book->layer[layer];

      /* Sweeps must not lean on what stood there: outputs start from garbage. */
      memset (unit_cost, 0xa5, graph->n_items * sizeof *unit_cost);
      memcpy (unit_cost, book->unit_cost[layer], graph->n_raws * sizeof *unit_cost);
      full.unit_cost = unit_cost;
      full.row_cost = row_cost;
      cro_sweep (graph, &full);
      if (memcmp (unit_cost, book->unit_cost[layer], graph->n_items * sizeof *unit_cost) != 0
          || memcmp (row_cost, book->row_cost[layer], graph->n_rows * sizeof *row_cost) != 0)
        fail_msg ("after a change of %s layer %d differs from a full sweep", says, layer);
    }
  free (unit_cost);
  free (row_cost);
}

static void
recompute (const char *says,
           Book       *book,
           Marks      *marks)
{
  size_t words = cro_dirty_words (&book->graph);

  for (int layer = 0; layer < N_LAYERS; layer++)
    {
      size_t visited = cro_sweep_dirty (&book->graph, &book->layer[layer], marks->dirty[layer],
                                        marks->visited[layer]);

      if (5 * visited > 6 * book->graph.n_lines)
        fail_msg ("after a change of %s %zu lines were visited; a sweep has %zu", says, visited,
                  book->graph.n_lines);
      expect ("no mark is left", is_clear (marks->dirty[layer], words));
      marks->visited[layer] = 0;
    }
}

static void
change_and_compare (Book     *book,
                    uint64_t *state)
{
  Marks marks = { .visited = { 0 } };

  for (int layer = 0; layer < N_LAYERS; layer++)
    marks.dirty[layer] = calloc (cro_dirty_words (&book->graph), sizeof (uint64_t));
  for (int round = 0; round < N_ROUNDS; round++)
    {
      size_t c = random_below (state, N_CASES (cases));

      for (size_t n = 1 + random_below (state, cases[c].most); n > 0; n--)
        cases[c].change (book, state, &marks);
      recompute (cases[c].says, book, &marks);
      expect_same_quantities (cases[c].says, book);
      expect_same_bits (cases[c].says, book);
    }
  for (int layer = 0; layer < N_LAYERS; layer++)
    free (marks.dirty[layer]);
}

static void
on_books (const RandomSize *size,
          size_t            n)
{
  for (uint64_t seed = 1; seed <= n; seed++)
    {
      uint64_t state = seed * UINT64_C (0xd1342543de82ef95);
      Book *book = random_book_new (&state, size, NULL);

      change_and_compare (book, &state);
      book_free (book);
    }
}

static void
test_small_books (void **state)
{
  on_books (&small_size, N_BOOKS);
}

static void
test_wide_books (void **state)
{
  on_books (&wide_size, N_BOOKS / 10);
}

/* Salt: every batch takes it, and every batch moves. */
static Book *
salted_book_new (size_t n_rows)
{
  Book *book = book_new (2 * n_rows, n_rows, 2 * n_rows);

  for (uint32_t r = 0; r < n_rows; r++)
    {
      book_set_output (book, r, (int32_t) r, CRO_UNIT_KG, CRO_MICRO);
      book_add_line (book, (int32_t) r, (uint32_t) n_rows, 5 * CRO_MICRO, CRO_UNIT_G);
      book_add_line (book, (int32_t) r, r > 0 ? r - 1 : (uint32_t) n_rows + 1,
                     700 * CRO_MICRO, CRO_UNIT_G);
    }
  book_order (book, NULL);
  book_settle (book);
  return book;
}

static void
test_used_by_everything (void **state)
{
  Book *book = salted_book_new (1000);
  uint64_t *dirty = calloc (cro_dirty_words (&book->graph), sizeof *dirty);
  uint32_t salt = book->graph.node_of_item[1000];
  size_t visited;

  book->unit_cost[FOOD][salt] = 0.002;
  visited = cro_dirty_add_users (&book->graph, dirty, salt, 0);
  visited = cro_sweep_dirty (&book->graph, &book->layer[FOOD], dirty, visited);
  expect ("salt that everything takes costs at most 1.2 sweeps",
          visited <= book->graph.n_lines * 6 / 5);
  expect ("and leaves no mark", is_clear (dirty, cro_dirty_words (&book->graph)));
  expect_same_bits ("salt", book);
  free (dirty);
  book_free (book);
}

/* Five ingredients of a fifth of the lines each: none of them alone is a reason to sweep. */
static void
test_all_prices_at_once (void **state)
{
  enum { N = 500 };
  Book *book = book_new (5, N, N);
  uint64_t *dirty;
  size_t visited = 0;

  for (int32_t r = 0; r < N; r++)
    book_add_line (book, r, (uint32_t) r % 5, CRO_MICRO, CRO_UNIT_G);
  book_order (book, NULL);
  book_settle (book);
  dirty = calloc (cro_dirty_words (&book->graph), sizeof *dirty);
  for (uint32_t node = 0; node < 5; node++)
    {
      book->unit_cost[FOOD][node] = 1 + node;
      visited = cro_dirty_add_users (&book->graph, dirty, node, visited);
    }
  visited = cro_sweep_dirty (&book->graph, &book->layer[FOOD], dirty, visited);
  expect ("a round that moves every price costs at most 1.2 sweeps", visited <= N * 6 / 5);
  expect_same_bits ("all prices", book);
  free (dirty);
  book_free (book);
}

static bool
is_marked (const uint64_t *marks,
           size_t          row)
{
  return marks[row / 64] >> (row % 64) & 1;
}

/* A change that dies out is not carried on. */
static void
test_only_what_moves (void **state)
{
  Book *book = salted_book_new (1000);
  uint64_t *dirty = calloc (cro_dirty_words (&book->graph), sizeof *dirty);
  uint64_t *summed = calloc (cro_dirty_words (&book->graph), sizeof *summed);
  uint32_t first = book->graph.row_of_slot[0], last = book->graph.row_of_slot[999];
  bool are_marked = true;

  book->layer[FOOD].summed = summed;
  cro_dirty_add_row (dirty, first);
  expect ("a row that comes out the same hands nothing on",
          cro_sweep_dirty (&book->graph, &book->layer[FOOD], dirty, 0) == 2);
  for (uint32_t row = 0; row < 1000; row++)
    are_marked &= is_marked (summed, row) == (row == first);
  expect ("it is told, and no other", are_marked);
  book->graph.quantity[book->graph.first[last]] *= 2;
  cro_dirty_add_row (dirty, last);
  expect ("a change at the top visits one row",
          cro_sweep_dirty (&book->graph, &book->layer[FOOD], dirty, 0) == 2);
  expect_same_bits ("the top row", book);
  memset (summed, 0, cro_dirty_words (&book->graph) * sizeof *summed);
  cro_dirty_add_row (dirty, 70);
  cro_sweep_dirty (&book->graph, &book->layer[FOOD], dirty, book->graph.n_lines);
  for (uint32_t row = 0; row < 1000; row++)
    are_marked &= is_marked (summed, row) == (row >= 70);
  expect ("what is swept is told to the last", are_marked);
  book->layer[FOOD].summed = NULL;
  free (summed);
  free (dirty);
  book_free (book);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_small_books),
    cmocka_unit_test (test_wide_books),
    cmocka_unit_test (test_used_by_everything),
    cmocka_unit_test (test_all_prices_at_once),
    cmocka_unit_test (test_only_what_moves),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
