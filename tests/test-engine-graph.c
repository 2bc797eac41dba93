#include "near.h"
#include "random-book.h"

#include "cro-decimal.h"

#include <stdlib.h>
#include <string.h>

/* Rows are given by what each takes; item i is made by row i, items behind the rows are
 * bought. */
typedef struct
{
  int32_t  row;
  uint32_t item;
} Take;

#define END { -1, 0 }

static Book *
book_of (const Take *takes,
         size_t      n_rows,
         size_t      n_raws)
{
  Book *book = book_new (n_rows + n_raws, n_rows, 32);

  for (uint32_t r = 0; r < n_rows; r++)
    book_set_output (book, r, (int32_t) r, CRO_UNIT_G, CRO_MICRO);
  for (; takes->row >= 0; takes++)
    book_add_line (book, takes->row, takes->item, CRO_MICRO, CRO_UNIT_G);
  return book;
}

static const struct
{
  const char *says;
  size_t      n_rows;
  Take        takes[8];
  size_t      length;
  uint32_t    cycle[4];
} cycles[] = {
  { "raws only: no cycle", 2, { { 0, 2 }, { 1, 2 }, END }, 0, { 0 } },
  { "a chain is no cycle", 3, { { 2, 1 }, { 1, 0 }, { 0, 3 }, END }, 0, { 0 } },
  { "what two ways lead to is no cycle",
    3, { { 2, 1 }, { 2, 0 }, { 1, 0 }, { 0, 3 }, END }, 0, { 0 } },
  { "the same part twice is no cycle", 2, { { 1, 0 }, { 1, 0 }, { 0, 2 }, END }, 0, { 0 } },
  { "a batch that takes what it makes", 1, { { 0, 0 }, END }, 1, { 0 } },
  { "gel, infusion, gel", 2, { { 0, 1 }, { 1, 0 }, END }, 2, { 0, 1 } },
  { "a plate above a cycle is not on it",
    4, { { 0, 1 }, { 1, 2 }, { 2, 3 }, { 3, 1 }, END }, 3, { 1, 2, 3 } },
  { "a raw before it in the row does not hide it",
    2, { { 0, 2 }, { 0, 1 }, { 1, 2 }, { 1, 0 }, END }, 2, { 0, 1 } },
  { "settled parts do not hide it",
    4, { { 0, 4 }, { 1, 0 }, { 1, 2 }, { 2, 0 }, { 2, 3 }, { 3, 1 }, END }, 3, { 1, 2, 3 } },
};

static size_t
find_cycle (const Book *book,
            uint32_t   *cycle)
{
  CroGraphSource source = { book->n_items, book->n_rows, book->maker, &book->lines };
  void *workspace = malloc (cro_graph_workspace (book->n_items, book->n_rows, book->lines.n));
  size_t length = cro_graph_find_cycle (&source, workspace, cycle);

  free (workspace);
  return length;
}

static void
test_cycles (void **state)
{
  for (size_t i = 0; i < N_CASES (cycles); i++)
    {
      Book *book = book_of (cycles[i].takes, cycles[i].n_rows, 1);
      uint32_t cycle[4] = { 9, 9, 9, 9 }, found[4] = { 9, 9, 9, 9 };

      expect (cycles[i].says, book_order (book, cycle) == cycles[i].length);
      for (size_t k = 0; k < cycles[i].length; k++)
        expect (cycles[i].says, cycle[k] == cycles[i].cycle[k]);
      expect ("looking for a cycle alone finds the same",
              find_cycle (book, found) == cycles[i].length
                  && memcmp (found, cycle, sizeof found) == 0);
      book_free (book);
    }
}

/* Straining a butter gives shells, and the butter is infused with shells: one row that takes
 * its own by-product. */
static void
test_own_by_product (void **state)
{
  Book *book = book_new (3, 1, 2);
  uint32_t cycle[1] = { 9 };

  book_set_output (book, 0, 0, CRO_UNIT_G, CRO_MICRO);
  book_set_output (book, 1, 0, CRO_UNIT_G, CRO_MICRO);
  book_add_line (book, 0, 2, CRO_MICRO, CRO_UNIT_G);
  book_add_line (book, 0, 1, CRO_MICRO, CRO_UNIT_G);
  expect ("a row may not take its own by-product", book_order (book, cycle) == 1 && cycle[0] == 0);
  book_free (book);
}

/* Row i takes the main output of row i + 1 or its by-product, the last one the first's. */
static void
test_long_cycle (void **state)
{
  enum { N = 1000 };
  Book *book = book_new (2 * N, N, N);
  uint32_t cycle[N];

  for (uint32_t r = 0; r < N; r++)
    {
      book_set_output (book, 2 * r, (int32_t) r, CRO_UNIT_G, CRO_MICRO);
      book_set_output (book, 2 * r + 1, (int32_t) r, CRO_UNIT_G, CRO_MICRO);
      book_add_line (book, (int32_t) r, 2 * ((r + 1) % N) + r % 2, CRO_MICRO, CRO_UNIT_G);
    }
  expect ("a cycle of a thousand rows is found whole", book_order (book, cycle) == N);
  for (uint32_t k = 0; k < N; k++)
    expect ("each row on it takes an output of the next", cycle[(k + 1) % N] == (cycle[k] + 1) % N);
  book_free (book);
}

static void
expect_renumbered (const Book *book)
{
  const CroGraph *graph = &book->graph;

  for (uint32_t i = 0; i < book->n_items; i++)
    {
      uint32_t node = graph->node_of_item[i];

      expect ("every item has a node of its own", node < book->n_items
                                                      && graph->item_of_node[node] == i);
      expect ("bought items stand first, made ones behind",
              (book->maker[i] < 0) == (node < graph->n_raws));
      expect ("a node knows its row",
              book->maker[i] < 0 ? graph->made_by[node] == CRO_NO_ROW
                                 : graph->made_by[node] == graph->row_of_slot[book->maker[i]]);
    }
  for (uint32_t r = 0; r < book->n_rows; r++)
    {
      expect ("every row has a number of its own",
              graph->row_of_slot[graph->slot_of_row[r]] == r);
      for (uint32_t node = graph->made[r]; node < graph->made[r + 1]; node++)
        expect ("outputs of a row stand together, by slot",
                graph->made_by[node] == r
                    && (node == graph->made[r]
                        || graph->item_of_node[node - 1] < graph->item_of_node[node]));
    }
  expect ("outputs cover all nodes behind the raws",
          graph->made[0] == graph->n_raws && graph->made[book->n_rows] == book->n_items);
}

static void
expect_lines_in_order (const Book *book)
{
  const CroGraph *graph = &book->graph;
  const CroLines *lines = &book->lines;
  size_t live = 0;

  for (size_t i = 0; i < lines->n; i++)
    live += lines->row[i] >= 0;
  expect ("every line that is not gone is there",
          graph->n_lines == live && graph->first[0] == 0 && graph->first[book->n_rows] == live);
  for (uint32_t r = 0; r < book->n_rows; r++)
    for (uint32_t l = graph->first[r]; l < graph->first[r + 1]; l++)
      {
        uint32_t line = graph->line_slot[l], part = graph->part[l];

        expect ("a line stands in its row and takes its item",
                lines->row[line] == (int32_t) graph->slot_of_row[r]
                    && lines->item[line] == graph->item_of_node[part]);
        expect ("lines of a row stand by position, then by slot",
                l == graph->first[r] || lines->position[graph->line_slot[l - 1]]
                                            < lines->position[line]
                    || (lines->position[graph->line_slot[l - 1]] == lines->position[line]
                        && graph->line_slot[l - 1] < line));
        expect ("parts come before what uses them",
                graph->made_by[part] == CRO_NO_ROW || graph->made_by[part] < r);
      }
}

static void
expect_uses_indexed (const Book *book)
{
  const CroGraph *graph = &book->graph;
  uint32_t *uses = calloc (book->n_items, sizeof *uses);

  for (size_t l = 0; l < graph->n_lines; l++)
    uses[graph->part[l]]++;
  for (uint32_t i = 0; i < book->n_items; i++)
    {
      expect ("every use of a node is indexed",
              graph->used_first[i + 1] - graph->used_first[i] == uses[i]);
      for (uint32_t u = graph->used_first[i]; u < graph->used_first[i + 1]; u++)
        {
          uint32_t row = graph->used_in[u], l = graph->first[row];

          while (l < graph->first[row + 1] && graph->part[l] != i)
            l++;
          expect ("a use names a row that takes the node", l < graph->first[row + 1]);
          expect ("uses rise", u == graph->used_first[i] || graph->used_in[u - 1] <= row);
        }
    }
  free (uses);
}

/* A tenth of the lines is gone before the books are ordered again. */
static void
test_order (void **state)
{
  static const RandomSize sizes[] = { { 8, 12, 4, 6, false }, { 60, 300, 3, 40, false } };

  for (size_t s = 0; s < N_CASES (sizes); s++)
    for (uint64_t seed = 1; seed <= (s == 0 ? 500 : 20); seed++)
      {
        uint64_t random = seed * UINT64_C (0x94d049bb133111eb);
        Book *book = random_book_new (&random, &sizes[s], NULL);

        for (size_t i = 0; i < book->lines.n; i++)
          if (random_below (&random, 10) == 0)
            book->lines.row[i] = -1;
        expect ("what is left is no cycle", book_order (book, NULL) == 0);
        expect_renumbered (book);
        expect_lines_in_order (book);
        expect_uses_indexed (book);
        book_free (book);
      }
}

static void
test_empty (void **state)
{
  static const Take nothing[] = { END };
  Book *book = book_of (nothing, 0, 0);

  expect ("an empty book has an order", book_order (book, NULL) == 0);
  expect ("of nothing", book->graph.n_lines == 0 && book->graph.n_raws == 0);
  book_settle (book);
  book_free (book);

  book = book_of (nothing, 1, 0);
  expect ("so has a preparation without lines", book_order (book, NULL) == 0);
  book_settle (book);
  expect ("which costs nothing", book_row_cost (book, FOOD, 0) == 0);
  book_free (book);
}

/* Renumbering is for the cache only, but it is promised. */
static void
test_numbering (void **state)
{
  static const Take takes[] = { { 0, 4 }, { 0, 5 }, { 0, 3 }, { 1, 5 }, { 2, 5 }, { 2, 4 }, END };
  Book *book = book_of (takes, 3, 3);

  book_order (book, NULL);
  expect ("raws are numbered by falling use", book->graph.item_of_node[0] == 5
                                                  && book->graph.item_of_node[1] == 4
                                                  && book->graph.item_of_node[2] == 3);
  expect ("rows of one depth by their number of lines", book->graph.slot_of_row[0] == 1
                                                            && book->graph.slot_of_row[1] == 2
                                                            && book->graph.slot_of_row[2] == 0);
  book_free (book);
}

/* Row i makes item i; item 3 is bought. Rows 0 and 2 take item 3, row 0 twice; row 2 takes what row 1 makes, that what
 * row 0 makes. */
static void
test_users (void **state)
{
  static const Take takes[] = { { 0, 3 }, { 0, 3 }, { 1, 0 }, { 2, 3 }, { 2, 1 }, END };
  static const struct { const char *says; uint32_t item; size_t n; uint32_t users[2]; } cases[] = {
    { "each row once, though it takes the item twice", 3, 2, { 0, 2 } },
    { "one row that takes what another makes", 0, 1, { 1 } },
    { "the row before the last", 1, 1, { 2 } },
    { "nothing takes what the last one makes", 2, 0, { 0 } },
  };
  Book *book = book_of (takes, 3, 1);
  const CroGraph *graph = &book->graph;

  assert_int_equal (book_order (book, NULL), 0);
  for (size_t i = 0; i < N_CASES (cases); i++)
    {
      uint32_t at = 0, row, node = graph->node_of_item[cases[i].item];
      bool is_told[3] = { false, false, false };
      size_t n = 0;

      while (cro_graph_next_user (graph, node, &at, &row))
        {
          expect (cases[i].says, n < cases[i].n && !is_told[graph->slot_of_row[row]]);
          is_told[graph->slot_of_row[row]] = true;
          n++;
        }
      expect (cases[i].says, n == cases[i].n);
      for (size_t k = 0; k < n; k++)
        expect (cases[i].says, is_told[cases[i].users[k]]);
      expect ("behind the last there is none, however often one asks", !cro_graph_next_user (graph, node, &at, &row));
    }
  book_free (book);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_cycles),     cmocka_unit_test (test_own_by_product),
    cmocka_unit_test (test_long_cycle), cmocka_unit_test (test_order),
    cmocka_unit_test (test_empty),      cmocka_unit_test (test_numbering),
    cmocka_unit_test (test_users),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
