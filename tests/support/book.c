#include "book.h"

#include "cro-decimal.h"
#include "cro-mass.h"

#include <stdio.h>
#include <stdlib.h>

/* No test can go on without memory. */
static void *
new_array (size_t n,
           size_t size)
{
  void *memory = calloc (n + 1, size);

  if (memory == NULL)
    {
      perror ("calloc");
      abort ();
    }
  return memory;
}

#define NEW(pointer, n) ((pointer) = new_array ((n), sizeof *(pointer)))

static void
new_lines (CroLines *lines,
           size_t    room)
{
  NEW (lines->row, room);
  NEW (lines->item, room);
  NEW (lines->position, room);
  NEW (lines->amount, room);
  NEW (lines->yield, room);
  NEW (lines->recovered, room);
  NEW (lines->unit, room);
  NEW (lines->whole, room);
}

static void
new_graph (CroGraph *graph,
           size_t    n_items,
           size_t    n_rows,
           size_t    n_lines)
{
  NEW (graph->first, n_rows + 1);
  NEW (graph->part, n_lines);
  NEW (graph->quantity, n_lines);
  NEW (graph->line_slot, n_lines);
  NEW (graph->made, n_rows + 1);
  NEW (graph->made_by, n_items);
  NEW (graph->used_first, n_items + 1);
  NEW (graph->used_in, n_lines);
  NEW (graph->node_of_item, n_items);
  NEW (graph->item_of_node, n_items);
  NEW (graph->row_of_slot, n_rows);
  NEW (graph->slot_of_row, n_rows);
}

Book *
book_new (size_t n_items,
          size_t n_rows,
          size_t room_for_lines)
{
  Book *book = new_array (1, sizeof *book);

  book->n_items = n_items;
  book->n_rows = n_rows;
  NEW (book->maker, n_items);
  NEW (book->density, n_items);
  NEW (book->piece, n_items);
  NEW (book->price, n_items);
  NEW (book->measure, n_items);
  NEW (book->output, n_items);
  NEW (book->rule, n_rows);
  NEW (book->minutes, n_rows);
  new_lines (&book->lines, room_for_lines);
  new_graph (&book->graph, n_items, n_rows, room_for_lines);
  NEW (book->share, n_items);
  NEW (book->fixed, n_items);
  NEW (book->own, n_rows);
  for (int i = 0; i < N_LAYERS; i++)
    {
      NEW (book->unit_cost[i], n_items);
      NEW (book->row_cost[i], n_rows);
      book->layer[i] = (CroLayer){ .share = book->share,
                                   .fixed = i == FOOD ? book->fixed : NULL,
                                   .own = i == LABOUR ? book->own : NULL,
                                   .unit_cost = book->unit_cost[i],
                                   .row_cost = book->row_cost[i] };
    }
  for (uint32_t i = 0; i < n_items; i++)
    {
      book->maker[i] = -1;
      book_set_measure (book, i, CRO_BASE_GRAM, 0, 0);
      book->measure[i].is_bought = book->measure[i].is_food = true;
    }
  return book;
}

static void
free_lines (CroLines *lines)
{
  free (lines->row);
  free (lines->item);
  free (lines->position);
  free (lines->amount);
  free (lines->yield);
  free (lines->recovered);
  free (lines->unit);
  free (lines->whole);
}

static void
free_graph (CroGraph *graph)
{
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
}

void
book_free (Book *book)
{
  free (book->maker);
  free (book->density);
  free (book->piece);
  free (book->price);
  free (book->measure);
  free (book->output);
  free (book->rule);
  free (book->minutes);
  free_lines (&book->lines);
  free_graph (&book->graph);
  free (book->share);
  free (book->fixed);
  free (book->own);
  for (int i = 0; i < N_LAYERS; i++)
    {
      free (book->unit_cost[i]);
      free (book->row_cost[i]);
    }
  free (book);
}

void
book_set_measure (Book    *book,
                  uint32_t item,
                  CroBase  base,
                  int64_t  density,
                  int64_t  piece)
{
  CroMeasure measure = cro_measure_make (base, cro_decimal_to_double (density),
                                         cro_decimal_to_double (piece));

  measure.is_bought = book->measure[item].is_bought;
  measure.is_food = book->measure[item].is_food;
  book->measure[item] = measure;
  book->density[item] = density;
  book->piece[item] = piece;
}

void
book_set_output (Book    *book,
                 uint32_t item,
                 int32_t  row,
                 CroUnit  unit,
                 int64_t  amount)
{
  book->maker[item] = row;
  book->measure[item].is_bought = false;
  book->output[item].unit = unit;
  book->output[item].amount = amount;
  book_set_measure (book, item, cro_unit_get (unit)->base, book->density[item],
                    book->piece[item]);
}

size_t
book_add_line (Book    *book,
               int32_t  row,
               uint32_t item,
               int64_t  amount,
               CroUnit  unit)
{
  CroLines *lines = &book->lines;
  size_t i = lines->n++;

  lines->row[i] = row;
  lines->item[i] = item;
  lines->position[i] = (int64_t) i * CRO_MICRO;
  lines->amount[i] = amount;
  lines->unit[i] = (uint8_t) unit;
  return i;
}

size_t
book_order (Book     *book,
            uint32_t *cycle)
{
  CroGraphSource source = { .n_items = book->n_items,
                            .n_rows = book->n_rows,
                            .maker = book->maker,
                            .lines = &book->lines };
  void *workspace = new_array (cro_graph_workspace (book->n_items, book->n_rows, book->lines.n), 1);
  size_t length = cro_graph_order (&source, &book->graph, workspace, cycle);

  free (workspace);
  return length;
}

void
book_share_row (Book    *book,
                uint32_t row)
{
  const CroGraph *graph = &book->graph;
  uint32_t first = graph->made[row];
  size_t n = graph->made[row + 1] - first;
  double grams;

  if (n == 0)
    return;
  grams = cro_mass_input (graph, row, &book->lines, book->measure, NULL, NULL);
  /* Outputs of a row have neighbouring slots. */
  cro_batch_share (book->rule[graph->slot_of_row[row]], grams, book_output (book, first),
                   &book->measure[graph->item_of_node[first]], n);
  for (uint32_t node = first; node < first + n; node++)
    {
      book->share[node] = book_output (book, node)->share;
      book->fixed[node] = book_output (book, node)->fixed;
    }
}

void
book_settle (Book *book)
{
  const CroGraph *graph = &book->graph;

  cro_lines_charged (&book->lines, graph->line_slot, graph->n_lines, book->measure, graph->quantity);
  for (uint32_t node = 0; node < graph->n_raws; node++)
    {
      uint32_t item = graph->item_of_node[node];
      double price = cro_decimal_to_double (book->price[item]);

      book->unit_cost[FOOD][node] = book->measure[item].is_food ? price : 0;
      book->unit_cost[DISPOSABLES][node] = book->measure[item].is_food ? 0 : price;
    }
  for (uint32_t row = 0; row < graph->n_rows; row++)
    {
      book_share_row (book, row);
      book->own[row] = cro_decimal_to_double (book->minutes[graph->slot_of_row[row]])
                       * cro_decimal_to_double (book->wage) / 60;
    }
  for (int i = 0; i < N_LAYERS; i++)
    cro_sweep (graph, &book->layer[i]);
}

double
book_unit_cost (const Book *book,
                int         layer,
                uint32_t    item)
{
  return book->unit_cost[layer][book->graph.node_of_item[item]];
}

double
book_row_cost (const Book *book,
               int         layer,
               int32_t     row)
{
  return book->row_cost[layer][book->graph.row_of_slot[row]];
}

CroOutput *
book_output (const Book *book,
             uint32_t    node)
{
  return &book->output[book->graph.item_of_node[node]];
}

bool
book_row_is_known (const Book *book,
                   uint32_t    row)
{
  for (uint32_t node = book->graph.made[row]; node < book->graph.made[row + 1]; node++)
    if (!book_output (book, node)->is_known || book_output (book, node)->lacks != 0)
      return false;
  return true;
}
