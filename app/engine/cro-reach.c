#include "cro-reach.h"

void
cro_reach_sweep (const CroGraph *graph,
                 uint32_t       *node_bits,
                 uint32_t       *row_bits)
{
  for (size_t row = 0; row < graph->n_rows; row++)
    {
      uint32_t bits = row_bits[row];

      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        bits |= node_bits[graph->part[l]];
      row_bits[row] = bits;
      for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
        node_bits[node] |= bits;
    }
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

void
cro_reach_walk (const CroGraph *graph,
                const uint32_t *node_bits,
                const uint32_t *row_bits,
                uint32_t        bits,
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
