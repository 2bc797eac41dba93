#include "cro-reach.h"

#include <string.h>

void
cro_reach_sweep (const CroGraph *graph,
                 uint64_t       *node_bits,
                 uint64_t       *row_bits)
{
  for (size_t row = 0; row < graph->n_rows; row++)
    {
      uint64_t bits = row_bits[row];

      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        bits |= node_bits[graph->part[l]];
      row_bits[row] = bits;
      for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
        node_bits[node] |= bits;
    }
}

static inline bool
has (const uint64_t *set,
     uint32_t        i)
{
  return set[i / 64] >> (i % 64) & 1;
}

static inline bool
see (uint64_t *seen,
     uint32_t  i)
{
  uint64_t bit = UINT64_C (1) << (i % 64);

  if (seen[i / 64] & bit)
    return false;
  seen[i / 64] |= bit;
  return true;
}

/* Rows are passed from the last: whatever uses an output of a row stands behind it. */
void
cro_reach_down (const CroGraph *graph,
                const uint64_t *ends,
                uint64_t       *row_set,
                uint64_t       *node_set)
{
  memcpy (row_set, ends, (graph->n_rows / 64 + 1) * sizeof *row_set);
  memset (node_set, 0, (graph->n_items / 64 + 1) * sizeof *node_set);
  for (uint32_t row = (uint32_t) graph->n_rows; row-- > 0;)
    {
      for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
        if (has (node_set, node))
          see (row_set, row);
      if (has (row_set, row))
        for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
          see (node_set, graph->part[l]);
    }
}

void
cro_reach_walk (const CroGraph *graph,
                const uint64_t *node_bits,
                const uint64_t *row_bits,
                uint64_t        bits,
                uint64_t       *seen_rows,
                uint64_t       *seen_nodes,
                CroReachVisit   visit_row,
                CroReachVisit   visit_node,
                void           *user_data)
{
  for (size_t word = graph->n_rows / 64 + 1; word-- > 0;)
    {
      uint64_t left = seen_rows[word];

      while (left != 0)
        {
          size_t bit = 63 - (size_t) __builtin_clzll (left);
          uint32_t row = (uint32_t) (word * 64 + bit);

          if (row_bits[row] & bits)
            visit_row (row, user_data);
          for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
            {
              uint32_t node = graph->part[l];

              if ((node_bits[node] & bits) == 0 || !see (seen_nodes, node))
                continue;
              visit_node (node, user_data);
              if (graph->made_by[node] != CRO_NO_ROW)
                see (seen_rows, graph->made_by[node]);
            }
          left = seen_rows[word] & ((UINT64_C (1) << bit) - 1);
        }
    }
}
