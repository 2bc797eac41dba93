/* Deep and large books under a small stack, on which all of this file runs: nothing recurses,
 * no time is quadratic. */
#include "near.h"
#include "book.h"

#include "cro-decimal.h"
#include "cro-reach.h"

#include <pthread.h>
#include <stdlib.h>

#define STACK (256 * 1024)
#define DEPTH 100000
#define LINES 3000000

/* Link r is made by row r out of a gram of link r - 1, link 0 out of a raw at 0.5 a gram; all
 * cost 0.5. Slots and lines stand in the order that `slot` says. */
static Book *
chain_new (uint32_t (*slot) (uint32_t r))
{
  Book *book = book_new (DEPTH + 1, DEPTH, DEPTH);

  book->price[DEPTH] = CRO_MICRO / 2;
  for (uint32_t r = 0; r < DEPTH; r++)
    book_set_output (book, slot (r), (int32_t) slot (r), CRO_UNIT_G, CRO_MICRO);
  for (uint32_t i = 0; i < DEPTH; i++)
    {
      uint32_t r = slot (i);

      book_add_line (book, (int32_t) slot (r), r > 0 ? slot (r - 1) : DEPTH, CRO_MICRO, CRO_UNIT_G);
    }
  return book;
}

static uint32_t
parts_first (uint32_t r)
{
  return r;
}

static uint32_t
parts_last (uint32_t r)
{
  return DEPTH - 1 - r;
}

/* 7919 is prime and no divisor of the depth: every slot once. */
static uint32_t
scattered (uint32_t r)
{
  return (uint32_t) ((uint64_t) r * 7919 % DEPTH);
}

static const struct
{
  const char *says;
  uint32_t  (*slot) (uint32_t r);
} chains[] = {
  { "a chain written parts first", parts_first },
  { "a chain written parts last", parts_last },
  { "a chain written anyhow", scattered },
};

static void
trace_chain (const Book *book,
             uint32_t    top)
{
  double *row_effect = calloc (DEPTH, sizeof *row_effect);
  double *effect = calloc (DEPTH + 1, sizeof *effect);
  uint64_t *touched = calloc (cro_dirty_words (&book->graph), sizeof *touched);
  uint64_t *touched_nodes = calloc ((DEPTH + 1) / 64 + 1, sizeof *touched_nodes);

  row_effect[top] = 1;
  cro_dirty_add_row (touched, top);
  cro_trace (&book->graph, book->share, row_effect, effect, touched, touched_nodes);
  expect ("the raw at its end is charged a gram", effect[book->graph.node_of_item[DEPTH]] == 1);
  free (row_effect);
  free (effect);
  free (touched);
  free (touched_nodes);
}

static void
reach_chain (const Book *book,
             uint32_t    top)
{
  uint64_t *node_bits = calloc (DEPTH + 1, sizeof *node_bits);
  uint64_t *row_bits = calloc (DEPTH, sizeof *row_bits);

  node_bits[book->graph.node_of_item[DEPTH]] = 1;
  cro_reach_sweep (&book->graph, node_bits, row_bits);
  expect ("and is reached from its top", row_bits[top] == 1);
  free (node_bits);
  free (row_bits);
}

static void
test_deep_book (void **state)
{
  for (size_t i = 0; i < N_CASES (chains); i++)
    {
      Book *book = chain_new (chains[i].slot);
      uint32_t top;

      expect (chains[i].says, book_order (book, NULL) == 0);
      book_settle (book);
      top = book->graph.row_of_slot[chains[i].slot (DEPTH - 1)];
      expect (chains[i].says, top == DEPTH - 1 && book->row_cost[FOOD][top] == 0.5);
      trace_chain (book, top);
      reach_chain (book, top);
      book_free (book);
    }
}

static void
test_deep_cycle (void **state)
{
  Book *book = chain_new (scattered);
  uint32_t *cycle = malloc (DEPTH * sizeof *cycle);

  for (size_t i = 0; i < book->lines.n; i++)
    if (book->lines.item[i] == DEPTH)
      book->lines.item[i] = scattered (DEPTH - 1);
  expect ("a cycle as long as the book is found whole", book_order (book, cycle) == DEPTH);
  free (cycle);
  book_free (book);
}

/* Three lines a row, falling rows and positions; every row takes its neighbour and raws. */
static void
test_large_book (void **state)
{
  enum { ROWS = LINES / 3, RAWS = 1000 };
  Book *book = book_new (ROWS + RAWS, ROWS, LINES);

  for (uint32_t r = 0; r < ROWS; r++)
    book_set_output (book, r, (int32_t) r, CRO_UNIT_G, 3 * CRO_MICRO);
  for (uint32_t i = 0; i < RAWS; i++)
    book->price[ROWS + i] = CRO_MICRO;
  for (uint32_t r = ROWS; r-- > 0;)
    for (uint32_t k = 0; k < 3; k++)
      {
        uint32_t item = k == 0 && r % 100 != 0 ? r - 1 : ROWS + (r + k) % RAWS;

        book_add_line (book, (int32_t) r, item, CRO_MICRO, CRO_UNIT_G);
      }
  for (size_t i = 0; i < LINES; i++)
    book->lines.position[i] = -book->lines.position[i];

  expect ("three million lines have an order", book_order (book, NULL) == 0);
  book_settle (book);
  expect ("all of them", book->graph.n_lines == LINES);
  /* Three grams at 1 make three grams at 1, all the way up. */
  expect_near ("and a cost", book_unit_cost (book, FOOD, ROWS - 1), 1);
  book_free (book);
}

/* One row as long as a book, its lines back to front. */
static void
test_long_row (void **state)
{
  Book *book = book_new (1, 1, LINES);

  book->price[0] = CRO_MICRO;
  for (size_t i = 0; i < LINES; i++)
    {
      book_add_line (book, 0, 0, CRO_MICRO, CRO_UNIT_G);
      book->lines.position[i] = (int64_t) (LINES - i);
    }
  expect ("a row of three million lines has an order", book_order (book, NULL) == 0);
  for (size_t l = 0; l < LINES; l++)
    expect ("by position", book->graph.line_slot[l] == LINES - 1 - l);
  book_settle (book);
  expect ("and a cost", book->row_cost[FOOD][0] == LINES);
  book_free (book);
}

static void *
run_all (void *failed)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_deep_book),
    cmocka_unit_test (test_deep_cycle),
    cmocka_unit_test (test_large_book),
    cmocka_unit_test (test_long_row),
  };

  *(int *) failed = cmocka_run_group_tests (tests, NULL, NULL);
  return NULL;
}

int
main (void)
{
  pthread_attr_t attributes;
  pthread_t thread;
  int failed = 1;

  if (pthread_attr_init (&attributes) != 0 || pthread_attr_setstacksize (&attributes, STACK) != 0
      || pthread_create (&thread, &attributes, run_all, &failed) != 0
      || pthread_join (thread, NULL) != 0)
    return 1;
  pthread_attr_destroy (&attributes);
  return failed;
}
