#include "synthetic.h"

#include <math.h>
#include <stdlib.h>

#define LINES_PER_ROW 16
#define SHORTEST_ROW 4
#define LONGEST_ROW 28
#define LAYERS 6

/* A book in the making. Preparations have a rank, by layer, apart from their number. */
typedef struct
{
  CroSynthetic *book;
  uint64_t      random;
  size_t        n_preparations;
  uint32_t     *item;     /* [n_items] ingredients by use, main outputs by rank, by-products */
  uint32_t     *row;      /* [n_preparations] row slot by rank */
} Making;

static void *
allocate (size_t n,
          size_t size)
{
  void *memory = calloc (n + 1, size);

  if (memory == NULL)
    abort ();
  return memory;
}

/* A linear congruential step modulo 2^64, whose low bits are poor: the high ones are mixed
 * in. Good enough to shuffle a book. */
static uint32_t
next_random (Making *making)
{
  making->random = making->random * UINT64_C (6364136223846793005) + UINT64_C (1442695040888963407);
  return (uint32_t) ((making->random ^ (making->random >> 22)) >> 29);
}

static uint32_t
below (Making  *making,
       size_t   n)
{
  return (uint32_t) (((uint64_t) next_random (making) * n) >> 32);
}

static double
between (Making *making,
         double  low,
         double  high)
{
  return low + (high - low) * (double) next_random (making) / 0x1p32;
}

static uint32_t *
shuffled (Making *making,
          size_t  n)
{
  uint32_t *order = allocate (n, sizeof *order);

  for (size_t i = 0; i < n; i++)
    {
      uint32_t k = below (making, i + 1);

      order[i] = order[k];
      order[k] = (uint32_t) i;
    }
  return order;
}

/* Rank of the first preparation of a layer: half of them are made of ingredients alone, half of
 * the rest stands above those, and so on; the last layer is as large as the one below it. */
static size_t
layer_start (const Making *making,
             size_t        layer)
{
  return making->n_preparations - (layer < LAYERS ? making->n_preparations >> layer : 0);
}

/* Every tenth preparation has a by-product. */
static uint32_t
output_of_rank (Making *making,
                size_t  rank)
{
  size_t main_output = making->book->n_ingredients + rank;

  if (rank % 10 == 0 && below (making, 4) == 0)
    return making->item[making->book->n_ingredients + making->n_preparations + rank / 10];
  return making->item[main_output];
}

/* The logarithm of the rank is uniform: the n-th ingredient is taken about 1 / n as often as
 * the first. */
static uint32_t
some_ingredient (Making *making)
{
  double n = (double) making->book->n_ingredients;

  return making->item[(size_t) exp (between (making, 0, log (n + 1))) - 1];
}

static CroMeasure
some_measure (Making *making,
              bool    is_bought)
{
  CroMeasure measure = cro_measure_make ((CroBase) (below (making, 8) * 3 / 8),
                                         between (making, 0.8, 1.4), between (making, 5, 200));

  measure.is_bought = is_bought;
  measure.is_food = true;
  if (is_bought && below (making, 3) == 0)
    measure.trim_yield = (int32_t) between (making, 40e6, 100e6);
  return measure;
}

static void
make_items (Making *making)
{
  CroSynthetic *book = making->book;

  making->item = shuffled (making, book->n_items);
  for (size_t i = 0; i < book->n_ingredients; i++)
    {
      uint32_t item = making->item[i];

      book->maker[item] = -1;
      book->measures[item] = some_measure (making, true);
      book->unit_cost[item] = between (making, 0.001, 0.05);
    }
}

/* Half of the by-products take a part of the cost; the others are credited with a value. */
static void
make_outputs (Making *making)
{
  CroSynthetic *book = making->book;
  const uint32_t *mains = making->item + book->n_ingredients;
  const uint32_t *others = mains + making->n_preparations;

  for (size_t rank = 0; rank < making->n_preparations; rank++)
    {
      uint32_t item = mains[rank];
      double finished = between (making, 1000, 4000);

      book->maker[item] = (int32_t) making->row[rank];
      book->measures[item] = some_measure (making, false);
      book->share[item] = 1 / finished;
      if (rank % 10 != 0)
        continue;

      book->maker[others[rank / 10]] = (int32_t) making->row[rank];
      book->measures[others[rank / 10]] = some_measure (making, false);
      if (rank % 20 == 0)
        book->share[item] = book->share[others[rank / 10]] = 1 / (finished + 500);
      else
        {
          book->fixed[others[rank / 10]] = 0.002;
          book->fixed[item] = -0.002 * 500 / finished;
        }
    }
}

/* Seven lines in eight are written in a unit of the item's own base. */
static CroUnit
some_unit (Making  *making,
           CroBase  base)
{
  static const CroUnit units[3][4] = {
    [CRO_BASE_GRAM] = { CRO_UNIT_G, CRO_UNIT_G, CRO_UNIT_KG, CRO_UNIT_OZ },
    [CRO_BASE_MILLILITRE] = { CRO_UNIT_ML, CRO_UNIT_ML, CRO_UNIT_L, CRO_UNIT_TBSP },
    [CRO_BASE_EACH] = { CRO_UNIT_EACH, CRO_UNIT_EACH, CRO_UNIT_EACH, CRO_UNIT_DOZEN },
  };

  if (below (making, 8) == 0)
    base = (CroBase) below (making, 3);
  return units[base][below (making, 4)];
}

static void
add_line (Making  *making,
          size_t   row,
          size_t   position,
          uint32_t item)
{
  CroLines *lines = &making->book->lines;
  size_t i = lines->n++;
  CroUnit unit = some_unit (making, (CroBase) making->book->measures[item].base);

  lines->row[i] = (int32_t) row;
  lines->item[i] = item;
  lines->position[i] = (int64_t) (position + 1) * 1000000;
  lines->unit[i] = (uint8_t) unit;
  lines->amount[i] = (int64_t) between (making, 0.2e6, 4e6);
  if (unit == CRO_UNIT_G || unit == CRO_UNIT_ML)
    lines->amount[i] *= 100;
  lines->yield[i] = below (making, 10) == 0 ? (int32_t) between (making, 50e6, 100e6) : 0;
  lines->recovered[i] = below (making, 20) == 0 ? (int32_t) between (making, 0, 90e6) : 0;
  lines->whole[i] = lines->yield[i] == 0 && below (making, 5) == 0;
}

/* A row that takes outputs of the ranks below end, about one line in `every`, and first of all
 * one from start on. */
static void
make_row (Making *making,
          size_t  row,
          size_t  start,
          size_t  end,
          size_t  every)
{
  size_t n = SHORTEST_ROW + below (making, LONGEST_ROW - SHORTEST_ROW + 1);

  for (size_t k = 0; k < n; k++)
    {
      if (k == 0 && end > 0)
        add_line (making, row, k, output_of_rank (making, start + below (making, end - start)));
      else if (end > 0 && below (making, every) == 0)
        add_line (making, row, k, output_of_rank (making, below (making, end)));
      else
        add_line (making, row, k, some_ingredient (making));
    }
}

static void
make_rows (Making *making)
{
  CroSynthetic *book = making->book;
  uint32_t *rank_of_row = allocate (making->n_preparations, sizeof *rank_of_row);

  for (size_t rank = 0; rank < making->n_preparations; rank++)
    rank_of_row[making->row[rank]] = (uint32_t) rank;
  for (size_t row = 0; row < making->n_preparations; row++)
    {
      size_t layer = 0;

      while (layer_start (making, layer + 1) <= rank_of_row[row])
        layer++;
      make_row (making, row, layer > 0 ? layer_start (making, layer - 1) : 0,
                layer_start (making, layer), 4);
    }
  for (size_t row = making->n_preparations; row < book->n_rows; row++)
    make_row (making, row, 0, making->n_preparations, 2);
  free (rank_of_row);
}

static void
allocate_lines (CroLines *lines,
                size_t    n)
{
  lines->n = 0;
  lines->row = allocate (n, sizeof *lines->row);
  lines->item = allocate (n, sizeof *lines->item);
  lines->position = allocate (n, sizeof *lines->position);
  lines->amount = allocate (n, sizeof *lines->amount);
  lines->yield = allocate (n, sizeof *lines->yield);
  lines->recovered = allocate (n, sizeof *lines->recovered);
  lines->unit = allocate (n, sizeof *lines->unit);
  lines->whole = allocate (n, sizeof *lines->whole);
}

void
cro_synthetic_make (CroSynthetic *book,
                    size_t        n_lines)
{
  Making making = { .book = book, .random = 20261125 };

  book->n_rows = n_lines / LINES_PER_ROW;
  book->n_ingredients = book->n_rows / 3;
  making.n_preparations = book->n_rows * 3 / 5;
  book->n_items = book->n_ingredients + making.n_preparations + (making.n_preparations + 9) / 10;

  book->maker = allocate (book->n_items, sizeof *book->maker);
  book->measures = allocate (book->n_items, sizeof *book->measures);
  book->unit_cost = allocate (book->n_items, sizeof *book->unit_cost);
  book->share = allocate (book->n_items, sizeof *book->share);
  book->fixed = allocate (book->n_items, sizeof *book->fixed);
  allocate_lines (&book->lines, book->n_rows * LONGEST_ROW);

  making.row = shuffled (&making, making.n_preparations);
  make_items (&making);
  make_outputs (&making);
  make_rows (&making);
  free (making.item);
  free (making.row);
}

void
cro_synthetic_clear (CroSynthetic *book)
{
  free (book->maker);
  free (book->measures);
  free (book->unit_cost);
  free (book->share);
  free (book->fixed);
  free (book->lines.row);
  free (book->lines.item);
  free (book->lines.position);
  free (book->lines.amount);
  free (book->lines.yield);
  free (book->lines.recovered);
  free (book->lines.unit);
  free (book->lines.whole);
}

static void *
room (size_t n,
      size_t size)
{
  void *memory = malloc ((n + 1) * size);

  if (memory == NULL)
    abort ();
  return memory;
}

void
cro_roll_alloc (CroRoll            *roll,
                const CroSynthetic *book)
{
  CroGraph *graph = &roll->graph;
  size_t n_lines = book->lines.n;

  *roll = (CroRoll){ 0 };
  graph->first = room (book->n_rows, sizeof *graph->first);
  graph->part = room (n_lines, sizeof *graph->part);
  graph->quantity = room (n_lines, sizeof *graph->quantity);
  graph->line_slot = room (n_lines, sizeof *graph->line_slot);
  graph->made = room (book->n_rows, sizeof *graph->made);
  graph->made_by = room (book->n_items, sizeof *graph->made_by);
  graph->used_first = room (book->n_items, sizeof *graph->used_first);
  graph->used_in = room (n_lines, sizeof *graph->used_in);
  graph->node_of_item = room (book->n_items, sizeof *graph->node_of_item);
  graph->item_of_node = room (book->n_items, sizeof *graph->item_of_node);
  graph->row_of_slot = room (book->n_rows, sizeof *graph->row_of_slot);
  graph->slot_of_row = room (book->n_rows, sizeof *graph->slot_of_row);
  roll->workspace = room (cro_graph_workspace (book->n_items, book->n_rows, n_lines), 1);
  roll->cycle = room (book->n_rows, sizeof *roll->cycle);
}

void
cro_roll_order (CroRoll            *roll,
                const CroSynthetic *book)
{
  CroGraphSource source = { book->n_items, book->n_rows, book->maker, &book->lines };
  CroGraph *graph = &roll->graph;

  if (cro_graph_order (&source, graph, roll->workspace, roll->cycle) != 0)
    abort ();
  /* As a book does: in the order of the slots, in which the store's lines are read from end to end. */
  for (size_t slot = 0; slot < graph->n_rows; slot++)
    {
      uint32_t row = graph->row_of_slot[slot], first = graph->first[row];

      cro_lines_charged (&book->lines, graph->line_slot + first, graph->first[row + 1] - first, book->measures,
                         graph->quantity + first);
    }
}

void
cro_roll_make (CroRoll            *roll,
               const CroSynthetic *book)
{
  size_t n = book->n_items;

  cro_roll_alloc (roll, book);
  cro_roll_order (roll, book);
  roll->share = allocate (n, sizeof *roll->share);
  roll->fixed = allocate (n, sizeof *roll->fixed);
  roll->food = (CroLayer){ .share = roll->share,
                           .fixed = roll->fixed,
                           .unit_cost = allocate (n, sizeof (double)),
                           .row_cost = allocate (book->n_rows, sizeof (double)) };
  for (size_t node = 0; node < n; node++)
    {
      uint32_t item = roll->graph.item_of_node[node];

      roll->share[node] = book->share[item];
      roll->fixed[node] = book->fixed[item];
      roll->food.unit_cost[node] = book->unit_cost[item];
    }
}

void
cro_roll_clear (CroRoll *roll)
{
  CroGraph *graph = &roll->graph;

  free (graph->first);
  free (graph->part);
  free (graph->quantity);
  free (graph->line_slot);
  free (graph->made);
  free (graph->made_by);
  free (graph->used_first);
  free (graph->used_in);
  free (graph->node_of_item);
  free (graph->item_of_node);
  free (graph->row_of_slot);
  free (graph->slot_of_row);
  free (roll->workspace);
  free (roll->cycle);
  free (roll->share);
  free (roll->fixed);
  free (roll->food.unit_cost);
  free (roll->food.row_cost);
}
