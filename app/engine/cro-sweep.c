#include "cro-sweep.h"

#include <string.h>

/* The one place where a row is summed. Four lines to a turn of the loop, in their order. */
static inline double
sum_row (const CroGraph *graph,
         const CroLayer *layer,
         size_t          row)
{
  size_t end = graph->first[row + 1];
  double cost = layer->own != NULL ? layer->own[row] : 0;

#pragma GCC unroll 4
  for (size_t l = graph->first[row]; l < end; l++)
    cost += graph->quantity[l] * layer->unit_cost[graph->part[l]];
  return cost;
}

static inline double
output_cost (const CroLayer *layer,
             uint32_t        node,
             double          row_cost)
{
  double cost = layer->share[node] * row_cost;

  return layer->fixed != NULL ? cost + layer->fixed[node] : cost;
}

/* Works on copies: a cost that is stored might else be one of the graph's pointers, for all
 * the compiler knows, and each would be read again for every row. */
static void
sweep_from (const CroGraph graph,
            const CroLayer layer,
            size_t         row)
{
  for (; row < graph.n_rows; row++)
    {
      double cost = sum_row (&graph, &layer, row);

      layer.row_cost[row] = cost;
      for (uint32_t node = graph.made[row]; node < graph.made[row + 1]; node++)
        layer.unit_cost[node] = output_cost (&layer, node, cost);
    }
}

void
cro_sweep (const CroGraph *graph,
           CroLayer       *layer)
{
  sweep_from (*graph, *layer, 0);
}

void
cro_dirty_add_row (uint64_t *dirty,
                   uint32_t  row)
{
  dirty[row / 64] |= UINT64_C (1) << (row % 64);
}

/* How many lines recomputing may visit before sweeping the rest is the better choice. */
static inline size_t
dirty_budget (const CroGraph *graph)
{
  return graph->n_lines / 5;
}

size_t
cro_dirty_add_users (const CroGraph *graph,
                     uint64_t       *dirty,
                     uint32_t        node,
                     size_t          visited)
{
  uint32_t first = graph->used_first[node];
  uint32_t end = graph->used_first[node + 1];

  if (first == end)
    return visited;
  /* The budget is spent: the rest will be swept from the first marked row on, so that the
   * users behind this one need no marks. */
  if (visited + end - first > dirty_budget (graph))
    {
      cro_dirty_add_row (dirty, graph->used_in[first]);
      return dirty_budget (graph);
    }
  for (uint32_t u = first; u < end; u++)
    cro_dirty_add_row (dirty, graph->used_in[u]);
  return visited + end - first;
}

static void
mark_all_from (uint64_t *marks,
               size_t    words,
               size_t    row)
{
  marks[row / 64] |= ~UINT64_C (0) << (row % 64);
  memset (marks + row / 64 + 1, 0xff, (words - row / 64 - 1) * sizeof *marks);
}

/* Sums one row; marks the users of the outputs whose cost moved. Returns visited with the
 * lines of this row and of those users. */
static size_t
sum_again (const CroGraph *graph,
           CroLayer       *layer,
           uint64_t       *dirty,
           size_t          row,
           size_t          visited)
{
  double row_cost = sum_row (graph, layer, row);

  visited += graph->first[row + 1] - graph->first[row];
  layer->row_cost[row] = row_cost;
  if (layer->summed != NULL)
    cro_dirty_add_row (layer->summed, (uint32_t) row);
  for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
    {
      double cost = output_cost (layer, node, row_cost);

      /* Bits, not values: -0 and 0 are equal and differ. */
      if (memcmp (&cost, &layer->unit_cost[node], sizeof cost) != 0)
        {
          layer->unit_cost[node] = cost;
          visited = cro_dirty_add_users (graph, dirty, node, visited);
        }
    }
  return visited;
}

size_t
cro_sweep_dirty (const CroGraph *graph,
                 CroLayer       *layer,
                 uint64_t       *dirty,
                 size_t          visited)
{
  size_t words = cro_dirty_words (graph);

  for (size_t word = 0; word < words; word++)
    while (dirty[word] != 0)
      {
        size_t row = word * 64 + (size_t) __builtin_ctzll (dirty[word]);

        /* One more row may be as long as the book; what is left of a sweep is not. */
        if (visited + graph->first[row + 1] - graph->first[row] > dirty_budget (graph))
          {
            memset (dirty + word, 0, (words - word) * sizeof *dirty);
            sweep_from (*graph, *layer, row);
            if (layer->summed != NULL)
              mark_all_from (layer->summed, words, row);
            return visited + graph->n_lines - graph->first[row];
          }
        /* Marks that this row makes stand behind it: parts come first. */
        dirty[word] &= dirty[word] - 1;
        visited = sum_again (graph, layer, dirty, row, visited);
      }
  return visited;
}

/* What the outputs of a row hand on to its batch. */
static inline double
effect_of_outputs (const CroGraph *graph,
                   const double   *share,
                   const double   *effect,
                   size_t          row)
{
  double sum = 0;

  for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
    sum += share[node] * effect[node];
  return sum;
}

/* Hands a row's effect on to its parts, the last line first: rows are taken from the end too,
 * and memory is read in one direction. */
static inline void
hand_on (const CroGraph *graph,
         double         *effect,
         size_t          row,
         double          of_row)
{
  size_t first = graph->first[row];

#pragma GCC unroll 4
  for (size_t l = graph->first[row + 1]; l > first; l--)
    effect[graph->part[l - 1]] += graph->quantity[l - 1] * of_row;
}

void
cro_sweep_back (const CroGraph *graph,
                const double   *share,
                const double   *weight,
                double         *row_effect,
                double         *effect)
{
  const CroGraph copy = *graph;   /* for the reason given at sweep_from */

  memset (effect, 0, copy.n_items * sizeof *effect);
  for (size_t row = copy.n_rows; row-- > 0;)
    {
      double of_row = weight[row] + effect_of_outputs (&copy, share, effect, row);

      row_effect[row] = of_row;
      hand_on (&copy, effect, row, of_row);
    }
}

static inline void
mark_parts (const CroGraph *graph,
            uint64_t       *touched,
            uint64_t       *touched_nodes,
            size_t          row)
{
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      uint32_t node = graph->part[l];

      touched_nodes[node / 64] |= UINT64_C (1) << (node % 64);
      if (node >= graph->n_raws)
        cro_dirty_add_row (touched, graph->made_by[node]);
    }
}

void
cro_trace (const CroGraph *graph,
           const double   *share,
           double         *row_effect,
           double         *effect,
           uint64_t       *touched,
           uint64_t       *touched_nodes)
{
  const CroGraph copy = *graph;   /* for the reason given at sweep_from */

  for (size_t word = cro_dirty_words (&copy); word-- > 0;)
    {
      uint64_t left = touched[word];

      /* Parts stand before the row, perhaps in the same word. */
      while (left != 0)
        {
          size_t bit = 63 - (size_t) __builtin_clzll (left);
          size_t row = word * 64 + bit;

          row_effect[row] += effect_of_outputs (&copy, share, effect, row);
          hand_on (&copy, effect, row, row_effect[row]);
          mark_parts (&copy, touched, touched_nodes, row);
          left = touched[word] & ((UINT64_C (1) << bit) - 1);
        }
    }
}

static void
clear_marked (uint64_t *marks,
              size_t    words,
              double   *values)
{
  for (size_t word = 0; word < words; word++)
    for (; marks[word] != 0; marks[word] &= marks[word] - 1)
      values[word * 64 + (size_t) __builtin_ctzll (marks[word])] = 0;
}

void
cro_trace_clear (const CroGraph *graph,
                 double         *row_effect,
                 double         *effect,
                 uint64_t       *touched,
                 uint64_t       *touched_nodes)
{
  clear_marked (touched, cro_dirty_words (graph), row_effect);
  clear_marked (touched_nodes, graph->n_items / 64 + 1, effect);
}
