/* What reaches a plate. Nothing here is a statement about food that is served: the tests hold
 * the engine to what the sources say of recorded ingredients. */
#include "near.h"
#include "random-book.h"

#include "cro-decimal.h"
#include "cro-reach.h"

#include <stdlib.h>
#include <string.h>

#define M(x) ((int64_t) ((x) * 1e6 + 0.5))
#define MAX 6

/* Bits of the Annex's order; see test-engine-allergen for the codes. */
enum
{
  CRUSTACEANS = 1 << 1,
  FISH = 1 << 3,
  MILK = 1 << 6,
  MOLLUSCS = 1 << 13,
  NOT_KNOWN = CRO_ALLERGENS_NOT_KNOWN,
};

/* Items below n_rows - 1 are made by the row of that number; the last row is the plate. */
static const struct
{
  const char *says;
  size_t      n_rows, n_raws;
  struct { int32_t row; uint32_t item; double recovered; } lines[MAX];
  size_t      n_lines;
  uint64_t    own[MAX];       /* of each item */
  uint64_t    rows[2];        /* of the first rows themselves */
  uint64_t    plate;          /* wanted */
} cases[] = {
  { "a plate has what its ingredients have", 1, 2, { { 0, 0, 0 }, { 0, 1, 0 } }, 2,
    { MILK, FISH }, { 0 }, MILK | FISH },
  { "none is none", 1, 1, { { 0, 0, 0 } }, 1, { 0 }, { 0 }, 0 },
  { "and what is not taken does not count", 1, 2, { { 0, 0, 0 } }, 1, { MILK, FISH }, { 0 }, MILK },
  { "an oil that comes back leaves what was fried in it", 1, 1, { { 0, 0, 99.999999 } }, 1,
    { FISH }, { 0 }, FISH },
  { "what an output has of itself counts", 2, 1, { { 0, 1, 0 }, { 1, 0, 0 } }, 2,
    { MILK, FISH }, { 0 }, MILK | FISH },
  { "so does what a batch has of itself", 2, 1, { { 0, 1, 0 }, { 1, 0, 0 } }, 2,
    { 0, FISH }, { CRO_REACH_INCOMPLETE }, FISH | CRO_REACH_INCOMPLETE },
  /* A3: EU molluscs, from Regulation (EU) 1169/2011 Annex II. */
  { "A3: a plate of scallops has molluscs", 1, 1, { { 0, 0, 0 } }, 1,
    { MOLLUSCS }, { 0 }, MOLLUSCS },
  /* A5: "still present ... even if in an altered form", 1169/2011 Art. 9(1)(c). */
  { "A5: butter infused from lobster shells and strained has crustaceans and milk",
    3, 2, { { 0, 3, 0 }, { 0, 4, 0 }, { 1, 0, 0 }, { 2, 1, 0 } }, 4,
    { 0, 0, 0, MILK, CRUSTACEANS }, { 0 }, MILK | CRUSTACEANS },
  /* A7: rule of the checks; unknown is not absent. */
  { "A7: one ingredient of which nobody has said makes the plate not known",
    2, 2, { { 0, 1, 0 }, { 0, 2, 0 }, { 1, 0, 0 } }, 3, { 0, MILK, NOT_KNOWN }, { 0 },
    MILK | NOT_KNOWN },
};

static void
test_plates (void **state)
{
  for (size_t i = 0; i < N_CASES (cases); i++)
    {
      size_t n_rows = cases[i].n_rows, n_items = n_rows + cases[i].n_raws;
      uint64_t node_bits[MAX + 2] = { 0 }, row_bits[MAX] = { 0 };
      Book *book = book_new (n_items, n_rows, MAX);
      bool has_outputs = n_rows > 1;

      for (uint32_t r = 0; has_outputs && r + 1 < n_rows; r++)
        book_set_output (book, r, (int32_t) r, CRO_UNIT_G, M (1));
      for (size_t l = 0; l < cases[i].n_lines; l++)
        {
          book_add_line (book, cases[i].lines[l].row, cases[i].lines[l].item, M (1), CRO_UNIT_G);
          book->lines.recovered[l] = (int32_t) M (cases[i].lines[l].recovered);
        }
      book_order (book, NULL);
      for (uint32_t k = 0; k < n_items && k < MAX; k++)
        node_bits[book->graph.node_of_item[k]] = cases[i].own[k];
      for (uint32_t r = 0; r < 2 && r < n_rows; r++)
        row_bits[book->graph.row_of_slot[r]] = cases[i].rows[r];
      cro_reach_sweep (&book->graph, node_bits, row_bits);
      expect (cases[i].says,
              row_bits[book->graph.row_of_slot[n_rows - 1]] == cases[i].plate);
      book_free (book);
    }
}

/* A by-product that carries no cost is made of the same things. */
static void
test_free_by_product (void **state)
{
  Book *book = book_new (3, 2, 2);
  uint64_t node_bits[3] = { 0 }, row_bits[2] = { 0 };

  book_set_output (book, 0, 0, CRO_UNIT_G, M (100));
  book_set_output (book, 1, 0, CRO_UNIT_G, M (20));
  book_add_line (book, 0, 2, M (150), CRO_UNIT_G);
  book_add_line (book, 1, 1, M (5), CRO_UNIT_G);
  book_order (book, NULL);
  book_settle (book);
  node_bits[book->graph.node_of_item[2]] = CRUSTACEANS;
  cro_reach_sweep (&book->graph, node_bits, row_bits);
  expect ("the by-product costs nothing", book_row_cost (book, FOOD, 1) == 0);
  expect ("and is crustacean all the same", row_bits[book->graph.row_of_slot[1]] == CRUSTACEANS);
  book_free (book);
}

/* A walk, as it comes. */
typedef struct
{
  const CroGraph *graph;
  unsigned       *row_visits;
  unsigned       *node_visits;
  uint32_t        last_row;
} Walk;

static void
visit_row (uint32_t row,
           void    *user_data)
{
  Walk *walk = user_data;

  expect ("rows come from the last to the first", row < walk->last_row);
  walk->last_row = row;
  walk->row_visits[row]++;
}

static void
visit_node (uint32_t node,
            void    *user_data)
{
  Walk *walk = user_data;

  expect ("a part comes before the row that makes it",
          walk->graph->made_by[node] == CRO_NO_ROW
              || walk->row_visits[walk->graph->made_by[node]] == 0);
  walk->node_visits[node]++;
}

/* What stands below a row, found by asking every line of every row until nothing is added. */
static void
find_below (const CroGraph *graph,
            bool           *rows,
            bool           *nodes)
{
  bool grows = true;

  while (grows)
    {
      grows = false;
      for (uint32_t r = 0; r < graph->n_rows; r++)
        for (uint32_t l = graph->first[r]; rows[r] && l < graph->first[r + 1]; l++)
          {
            uint32_t node = graph->part[l];

            grows |= !nodes[node];
            nodes[node] = true;
            if (graph->made_by[node] != CRO_NO_ROW)
              rows[graph->made_by[node]] = true;
          }
    }
}

static void
walk_and_compare (const Book *book,
                  uint64_t   *random)
{
  enum { BIT = CRO_REACH_INCOMPLETE };
  const CroGraph *graph = &book->graph;
  uint64_t *node_bits = calloc (graph->n_items, sizeof *node_bits);
  uint64_t *row_bits = calloc (graph->n_rows, sizeof *row_bits);
  uint64_t *seen_rows = calloc (graph->n_rows / 64 + 1, sizeof *seen_rows);
  uint64_t *seen_nodes = calloc (graph->n_items / 64 + 1, sizeof *seen_nodes);
  bool *rows = calloc (graph->n_rows, sizeof *rows);
  bool *nodes = calloc (graph->n_items, sizeof *nodes);
  Walk walk = { .graph = graph,
                .row_visits = calloc (graph->n_rows, sizeof (unsigned)),
                .node_visits = calloc (graph->n_items, sizeof (unsigned)),
                .last_row = CRO_NO_ROW };

  for (size_t i = 0; i < graph->n_items; i++)
    node_bits[i] = random_below (random, 6) == 0 ? BIT : MILK;
  for (size_t r = 0; r < graph->n_rows; r++)
    row_bits[r] = random_below (random, 6) == 0 ? BIT : 0;
  cro_reach_sweep (graph, node_bits, row_bits);
  for (int i = 0; i < 2; i++)
    {
      uint32_t row = (uint32_t) random_below (random, graph->n_rows);

      rows[row] = true;
      seen_rows[row / 64] |= UINT64_C (1) << (row % 64);
    }
  find_below (graph, rows, nodes);
  cro_reach_walk (graph, node_bits, row_bits, BIT, seen_rows, seen_nodes, visit_row, visit_node,
                  &walk);

  for (size_t r = 0; r < graph->n_rows; r++)
    {
      expect ("a row is visited, once, where it is below and has the bit",
              walk.row_visits[r] == (rows[r] && (row_bits[r] & BIT)));
      expect ("what was visited is marked",
              walk.row_visits[r] == 0 || (seen_rows[r / 64] >> (r % 64) & 1));
    }
  for (size_t i = 0; i < graph->n_items; i++)
    {
      expect ("a node likewise", walk.node_visits[i] == (nodes[i] && (node_bits[i] & BIT)));
      expect ("and marked", walk.node_visits[i] == (seen_nodes[i / 64] >> (i % 64) & 1));
    }
  free (node_bits);
  free (row_bits);
  free (seen_rows);
  free (seen_nodes);
  free (rows);
  free (nodes);
  free (walk.row_visits);
  free (walk.node_visits);
}

static void
test_walk (void **state)
{
  static const RandomSize sizes[] = { { 8, 12, 4, 6, false }, { 60, 300, 3, 12, false } };

  for (size_t s = 0; s < N_CASES (sizes); s++)
    for (uint64_t seed = 1; seed <= (s == 0 ? 500 : 20); seed++)
      {
        uint64_t random = seed * UINT64_C (0x9fb21c651e98df25);
        Book *book = random_book_new (&random, &sizes[s], NULL);

        walk_and_compare (book, &random);
        book_free (book);
      }
}

/* Item 0 and 1 are of one batch, 2 of another that takes 1; 3 is bought. Row 2 is the plate. */
static const struct
{
  const char *says;
  struct { int32_t row; uint32_t item; } lines[4];
  size_t      n_lines;
  bool        items[4];       /* wanted: what reaches the plate */
  bool        rows[3];
} served[] = {
  { "what nothing takes reaches no plate", { { 0, 3 }, { 2, 0 } }, 2,
    { true, false, false, true }, { true, false, true } },
  { "what only goes into what nothing takes does not either", { { 0, 3 }, { 1, 1 }, { 2, 0 } }, 3,
    { true, false, false, true }, { true, false, true } },
  { "what is taken by a part of a plate does", { { 0, 3 }, { 1, 1 }, { 2, 2 } }, 3,
    { false, true, true, true }, { true, true, true } },
  { "a plate without lines is reached by nothing", { { 0, 3 }, { 1, 1 } }, 2,
    { false, false, false, false }, { false, false, true } },
};

static void
test_served (void **state)
{
  for (size_t i = 0; i < N_CASES (served); i++)
    {
      Book *book = book_new (4, 3, 4);
      const CroGraph *graph = &book->graph;
      uint64_t ends = 0, rows = ~UINT64_C (0), nodes = ~UINT64_C (0);

      book_set_output (book, 0, 0, CRO_UNIT_G, M (1));
      book_set_output (book, 1, 0, CRO_UNIT_G, M (1));
      book_set_output (book, 2, 1, CRO_UNIT_G, M (1));
      for (size_t l = 0; l < served[i].n_lines; l++)
        book_add_line (book, served[i].lines[l].row, served[i].lines[l].item, M (1), CRO_UNIT_G);
      book_order (book, NULL);
      ends = UINT64_C (1) << graph->row_of_slot[2];
      cro_reach_down (graph, &ends, &rows, &nodes);
      for (uint32_t k = 0; k < 4; k++)
        expect (served[i].says, (nodes >> graph->node_of_item[k] & 1) == served[i].items[k]);
      for (uint32_t r = 0; r < 3; r++)
        expect (served[i].says, (rows >> graph->row_of_slot[r] & 1) == served[i].rows[r]);
      book_free (book);
    }
}

/* Swept bits are those of all that stands below, found the slow way. */
static void
test_sweep (void **state)
{
  static const RandomSize size = { 8, 12, 4, 6, false };

  for (uint64_t seed = 1; seed <= 500; seed++)
    {
      uint64_t random = seed * UINT64_C (0xa0761d6478bd642f);
      Book *book = random_book_new (&random, &size, NULL);
      uint64_t own_node[64] = { 0 }, own_row[16] = { 0 }, node_bits[64], row_bits[16], wanted;
      bool rows[16] = { false }, nodes[64] = { false };
      uint32_t row = (uint32_t) random_below (&random, book->n_rows);

      for (size_t i = 0; i < book->n_items; i++)
        own_node[i] = UINT64_C (1) << random_below (&random, 46);
      for (size_t r = 0; r < book->n_rows; r++)
        own_row[r] = UINT64_C (1) << random_below (&random, 46);
      memcpy (node_bits, own_node, sizeof node_bits);
      memcpy (row_bits, own_row, sizeof row_bits);
      cro_reach_sweep (&book->graph, node_bits, row_bits);

      rows[row] = true;
      find_below (&book->graph, rows, nodes);
      wanted = 0;
      for (size_t i = 0; i < book->n_items; i++)
        wanted |= nodes[i] ? own_node[i] : 0;
      for (size_t r = 0; r < book->n_rows; r++)
        wanted |= rows[r] ? own_row[r] : 0;
      expect ("a row has what all that stands below it has", row_bits[row] == wanted);
      book_free (book);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_plates), cmocka_unit_test (test_free_by_product),
    cmocka_unit_test (test_walk),   cmocka_unit_test (test_sweep),
    cmocka_unit_test (test_served),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
