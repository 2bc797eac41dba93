/* Books small enough to follow by hand. Those of thousands of generated ones are in
 * test-engine-exact, -bits and -solver. */
#include "near.h"
#include "book.h"

#include "cro-decimal.h"

#define M(x) ((int64_t) ((x) * 1e6 + 0.5))

enum
{
  MAX_ROWS = 3,
  MAX_ITEMS = 6,
  MAX_LINES = 6,
};

typedef struct
{
  int32_t row;
  CroUnit unit;
  double  amount;
  double  yield;    /* per cent; 0 = not set */
  double  value;    /* per unit; negative = not set */
} Makes;

typedef struct
{
  int32_t  row;
  uint32_t item;
  double   amount;
  CroUnit  unit;
  double   yield;   /* per cent; 0 = not set */
  double   recovered;
} Takes;

/* Items are numbered: outputs first, of one row main first; then raws, with prices per base
 * unit. The last row is the plate. */
typedef struct
{
  const char *says;
  Makes       outputs[MAX_ITEMS];
  size_t      n_outputs;
  double      prices[MAX_ITEMS];
  size_t      n_raws;
  CroRule     rules[MAX_ROWS];
  double      minutes[MAX_ROWS];
  size_t      n_rows;
  Takes       lines[MAX_LINES];
  size_t      n_lines;
  uint32_t    disposable;          /* item; 0: none */
  double      plate[N_LAYERS];     /* what it costs */
  double      charged[MAX_ITEMS];  /* quantity of each raw charged to it, by item */
} Example;

#define G CRO_UNIT_G
#define KG CRO_UNIT_KG
#define EACH CRO_UNIT_EACH

static const Example examples[] = {
  { .says = "a plate of two raws",
    .prices = { 0.02, 0.1 }, .n_raws = 2, .n_rows = 1,
    .lines = { { 0, 0, 50, G, 0, 0 }, { 0, 1, 5, G, 50, 0 } }, .n_lines = 2,
    .plate = { 2, 0, 0 }, .charged = { 50, 10 } },

  { .says = "a preparation hands its cost on by the gram",
    .outputs = { { 0, G, 400, 0, -1 } }, .n_outputs = 1,
    .prices = { 0.02 }, .n_raws = 1, .n_rows = 2,
    .lines = { { 0, 1, 1, KG, 0, 0 }, { 1, 0, 20, G, 0, 0 } }, .n_lines = 2,
    .plate = { 1, 0, 0 }, .charged = { 0, 50 } },

  { .says = "what is used twice is charged twice",
    .outputs = { { 0, G, 100, 0, -1 } }, .n_outputs = 1,
    .prices = { 0.03 }, .n_raws = 1, .n_rows = 2,
    .lines = { { 0, 1, 200, G, 0, 0 }, { 1, 0, 10, G, 0, 0 }, { 1, 1, 5, G, 0, 0 },
               { 1, 0, 10, G, 50, 0 } }, .n_lines = 4,
    .plate = { 1.95, 0, 0 }, .charged = { 0, 65 } },

  { .says = "a frying oil is charged for what does not come back",
    .prices = { 0.004 }, .n_raws = 1, .n_rows = 1,
    .lines = { { 0, 0, 5, KG, 0, 96 } }, .n_lines = 1,
    .plate = { 0.8, 0, 0 }, .charged = { 200 } },

  { .says = "shells credited against meat: a plate takes both, and is charged crab for meat alone",
    .outputs = { { 0, G, 250, 0, -1 }, { 0, G, 500, 0, 0.004 } }, .n_outputs = 2,
    .prices = { 0.022 }, .n_raws = 1, .n_rows = 2, .rules = { CRO_RULE_CREDIT },
    .lines = { { 0, 2, 1, KG, 0, 0 }, { 1, 0, 25, G, 0, 0 }, { 1, 1, 100, G, 0, 0 } },
    .n_lines = 3,
    /* 25 (22 - 2) / 250 + 100 x 0.004 */
    .plate = { 2.4, 0, 0 }, .charged = { 0, 0, 100 } },

  { .says = "minutes are paid by the hour, and by the guest below",
    .outputs = { { 0, EACH, 10, 0, -1 } }, .n_outputs = 1,
    .prices = { 0.5 }, .n_raws = 1, .n_rows = 2, .minutes = { 30, 6 },
    .lines = { { 0, 1, 20, EACH, 0, 0 }, { 1, 0, 2, EACH, 0, 0 } }, .n_lines = 2,
    /* at 24.00 an hour: 12.00 for 10, two of them, and 2.40 */
    .plate = { 2, 0, 4.8 }, .charged = { 0, 4 } },

  { .says = "a disposable is no food; by-products bear it by weight",
    .outputs = { { 0, KG, 1, 0, -1 }, { 0, KG, 3, 0, -1 } }, .n_outputs = 2,
    .prices = { 0.001, 0.4 }, .n_raws = 2, .n_rows = 2, .rules = { CRO_RULE_WEIGHT },
    .lines = { { 0, 2, 4, KG, 0, 0 }, { 0, 3, 2, EACH, 0, 0 }, { 1, 1, 100, G, 0, 0 } },
    .n_lines = 3, .disposable = 3,
    .plate = { 0.1, 0.02, 0 }, .charged = { 0, 0, 100, 0.05 } },

  /* Class slides, As Purchased and Edible Portion: lamb rack of 4 kg at 250 a kilogram, 5 %
   * trimmed, then 7 % of the rest lost in grilling; prints 3.52 kg and 282.96. */
  { .says = "Y13: losses multiply through two batches: 282.97 a kilogram",
    .outputs = { { 0, KG, 0, 95, -1 }, { 1, KG, 0, 93, -1 } }, .n_outputs = 2,
    .prices = { 0.25 }, .n_raws = 1, .n_rows = 3,
    .lines = { { 0, 2, 4, KG, 0, 0 }, { 1, 0, 3.8, KG, 0, 0 }, { 2, 1, 1, KG, 0, 0 } },
    .n_lines = 3,
    .plate = { 250 / (0.95 * 0.93), 0, 0 }, .charged = { 0, 0, 1000 / (0.95 * 0.93) } },
};

static Book *
book_of (const Example *e)
{
  Book *book = book_new (e->n_outputs + e->n_raws, e->n_rows, e->n_lines);

  book->wage = M (24);
  for (uint32_t i = 0; i < e->n_outputs; i++)
    {
      book_set_output (book, i, e->outputs[i].row, e->outputs[i].unit, M (e->outputs[i].amount));
      book->output[i].yield = M (e->outputs[i].yield);
      book->output[i].has_value = e->outputs[i].value >= 0;
      book->output[i].value = e->outputs[i].value >= 0 ? M (e->outputs[i].value) : 0;
    }
  for (uint32_t i = 0; i < e->n_raws; i++)
    book->price[e->n_outputs + i] = M (e->prices[i]);
  for (size_t r = 0; r < e->n_rows; r++)
    {
      book->rule[r] = e->rules[r];
      book->minutes[r] = M (e->minutes[r]);
    }
  for (size_t l = 0; l < e->n_lines; l++)
    {
      uint32_t item = e->lines[l].item;

      /* A raw is costed in what it is counted or weighed in. */
      if (item >= e->n_outputs)
        book_set_measure (book, item, cro_unit_get (e->lines[l].unit)->base, 0, 0);
      book_add_line (book, e->lines[l].row, item, M (e->lines[l].amount), e->lines[l].unit);
      book->lines.yield[l] = (int32_t) M (e->lines[l].yield);
      book->lines.recovered[l] = (int32_t) M (e->lines[l].recovered);
    }
  if (e->disposable > 0)
    book->measure[e->disposable].is_food = false;
  book_order (book, NULL);
  book_settle (book);
  return book;
}

static void
test_examples (void **state)
{
  for (size_t i = 0; i < N_CASES (examples); i++)
    {
      Book *book = book_of (&examples[i]);

      for (int layer = 0; layer < N_LAYERS; layer++)
        expect_near (examples[i].says,
                     book_row_cost (book, layer, (int32_t) examples[i].n_rows - 1),
                     examples[i].plate[layer]);
      book_free (book);
    }
}

static void
test_effects (void **state)
{
  for (size_t i = 0; i < N_CASES (examples); i++)
    {
      Book *book = book_of (&examples[i]);
      double weight[MAX_ROWS] = { 0 }, row_effect[MAX_ROWS], effect[MAX_ITEMS];
      double none[MAX_ITEMS] = { 0 };

      weight[book->graph.row_of_slot[examples[i].n_rows - 1]] = 1;
      cro_sweep_back (&book->graph, book->share, weight, row_effect, effect);
      for (uint32_t item = (uint32_t) examples[i].n_outputs; item < book->n_items; item++)
        expect_near (examples[i].says, effect[book->graph.node_of_item[item]],
                     examples[i].charged[item]);

      cro_sweep_back (&book->graph, book->share, none, row_effect, effect);
      for (size_t node = 0; node < book->n_items; node++)
        expect ("a figure that counts no row depends on nothing", effect[node] == 0);
      book_free (book);
    }
}

/* A culinary textbook, Converting Portion Sizes (title not shown): 4 portions of 8 fl oz made
 * into 40 of 6. */
static void
test_batches_needed (void **state)
{
  Book *book = book_new (2, 2, 2);
  double weight[2] = { 0 }, row_effect[2], effect[2];

  book_set_measure (book, 1, CRO_BASE_MILLILITRE, 0, 0);
  book_set_output (book, 0, 0, CRO_UNIT_US_FL_OZ, M (4 * 8));
  book_add_line (book, 0, 1, M (1), CRO_UNIT_L);
  book_add_line (book, 1, 0, M (40 * 6), CRO_UNIT_US_FL_OZ);
  book_order (book, NULL);
  book_settle (book);
  weight[book->graph.row_of_slot[1]] = 1;
  cro_sweep_back (&book->graph, book->share, weight, row_effect, effect);
  expect_near ("Y36: 40 x 6 fl oz take 7.5 batches of 4 x 8, not 10",
               row_effect[book->graph.row_of_slot[0]], 7.5);
  book_free (book);
}

static void
test_line_order (void **state)
{
  Book *book = book_of (&examples[2]);
  double before = book_row_cost (book, FOOD, 1);

  for (size_t l = 0; l < book->lines.n; l++)
    book->lines.position[l] = -book->lines.position[l];
  book_order (book, NULL);
  book_settle (book);
  expect_near ("a plate costs the same in whatever order its lines are written",
               book_row_cost (book, FOOD, 1), before);
  book_free (book);
}

static void
test_nothing_known (void **state)
{
  Book *book = book_new (2, 2, 2);

  /* Neither price nor finished amount. */
  book_set_output (book, 0, 0, G, 0);
  book_add_line (book, 0, 1, M (1), KG);
  book_add_line (book, 1, 0, M (1), KG);
  book_order (book, NULL);
  book_settle (book);
  expect ("what is not known adds 0", book_row_cost (book, FOOD, 1) == 0
                                          && book_unit_cost (book, FOOD, 0) == 0);
  book->price[1] = M (0.01);
  book_settle (book);
  expect_near ("the batch is known where its output is not", book_row_cost (book, FOOD, 0), 10);
  expect ("which still adds 0", book_row_cost (book, FOOD, 1) == 0);
  book_free (book);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_examples),       cmocka_unit_test (test_effects),
    cmocka_unit_test (test_batches_needed), cmocka_unit_test (test_line_order),
    cmocka_unit_test (test_nothing_known),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
