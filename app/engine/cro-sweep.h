/* cro-sweep.h: rolls unit costs up a graph, and effects back down.
 *
 * One layer (food, disposables or labour) at a time: a row's cost is C = own + sum (q u) over
 * its lines, an output's unit cost u = share C + fixed.
 *
 * Units      Costs in book currency, of a row for its whole batch, of a node per base unit.
 * Ownership  Every array is the caller's; nothing is allocated or kept, nothing recurses.
 *
 * Bit for bit: a row is always summed in the order of its lines by the same code, so what is
 * recomputed after a change equals a full sweep in every bit. */
#pragma once

#include "cro-graph.h"

typedef struct
{
  const double *share;      /* [n_items] of outputs; those of raws are not read */
  const double *fixed;      /* [n_items] likewise; NULL: 0 */
  const double *own;        /* [n_rows] a batch's own cost (labour); NULL: 0 */
  double       *unit_cost;  /* [n_items] in: raws; out: outputs */
  double       *row_cost;   /* [n_rows] out */
  uint64_t     *summed;     /* [cro_dirty_words] cro_sweep_dirty marks the rows that it summed, and
                               perhaps some behind the last; NULL: nobody asks */
} CroLayer;

void     cro_sweep            (const CroGraph *graph,
                               CroLayer       *layer);

/* Words of the bit set of rows that are to be summed anew. */
static inline size_t
cro_dirty_words (const CroGraph *graph)
{
  return graph->n_rows / 64 + 1;
}

/* Marks a row whose lines, own cost, shares or fixed parts changed; the rows that use a node
 * whose unit cost changed. dirty: [cro_dirty_words] of zeros at first. visited counts the
 * lines that marking has visited so far, 0 at first; returns it with those of this node. The
 * marks are only as good as that count: once it shows a sweep to be cheaper, rows that the
 * sweep will reach are no longer marked. */
void     cro_dirty_add_row    (uint64_t       *dirty,
                               uint32_t        row);
size_t   cro_dirty_add_users  (const CroGraph *graph,
                               uint64_t       *dirty,
                               uint32_t        node,
                               size_t          visited);

/* Sums the marked rows and whatever depends on a figure that moved, and clears the marks.
 * Where that would take a fifth of a sweep, it sweeps the rest instead: never more than 1.2
 * sweeps. visited is what cro_dirty_add_users last returned; returns the lines visited in all. */
size_t   cro_sweep_dirty      (const CroGraph *graph,
                               CroLayer       *layer,
                               uint64_t       *dirty,
                               size_t          visited);

/* Effects: given in weight[] what a row's cost counts in a figure (zeros elsewhere), adds up
 * in row_effect[] d figure / d C and in effect[] d figure / d u of every node. As a figure is
 * linear in unit costs, effect[] of a raw is the quantity charged to it. */
void     cro_sweep_back       (const CroGraph *graph,
                               const double   *share,
                               const double   *weight,
                               double         *row_effect,
                               double         *effect);

/* The same for few rows of a large book: effect[], row_effect[] (all zeros) and the bit sets
 * touched (of rows, cro_dirty_words) and touched_nodes ([n_items / 64 + 1] words), all zeros too,
 * are in and out. Start rows are added to row_effect[] and marked in touched by the caller. Only
 * what stands below them is visited: on return touched marks those rows, and touched_nodes what
 * they take. */
void     cro_trace            (const CroGraph *graph,
                               const double   *share,
                               double         *row_effect,
                               double         *effect,
                               uint64_t       *touched,
                               uint64_t       *touched_nodes);

/* Sets back to zero what cro_trace wrote, wherever it is still marked. */
void     cro_trace_clear      (const CroGraph *graph,
                               double         *row_effect,
                               double         *effect,
                               uint64_t       *touched,
                               uint64_t       *touched_nodes);
