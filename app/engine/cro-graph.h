/* cro-graph.h: a book's preparations and plates as flat arrays, parts before what uses them.
 *
 * A row is a batch of a preparation or a plate; an item is bought (raw) or an output that some
 * row makes. Items are renumbered as nodes: raws first, then outputs in the order of their
 * rows. So one pass over the rows settles every cost. Within that order, numbers are chosen
 * for the cache: raws by falling use, rows of one depth by their number of lines.
 *
 * Units      first, made and used_first are offsets; part and used_in are numbers of nodes
 *            and rows; "slot" is the caller's own number of an item, a row or a line.
 * Ownership  The caller owns every array and the workspace; nothing is allocated or kept.
 * Errors     A cycle is refused with the rows on it. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "cro-line.h"

#define CRO_NO_ROW UINT32_MAX

typedef struct
{
  size_t          n_items;
  size_t          n_rows;
  const int32_t  *maker;      /* [n_items] row slot whose batch gives the item; -1: it is bought */
  const CroLines *lines;      /* in any order; lines of one row by their position */
} CroGraphSource;

typedef struct
{
  size_t    n_items;
  size_t    n_raws;
  size_t    n_rows;
  size_t    n_lines;

  uint32_t *first;            /* [n_rows + 1] lines of row r: first[r] .. first[r + 1] - 1 */
  uint32_t *part;             /* [lines->n] node taken */
  double   *quantity;         /* [lines->n] base units charged: cro_lines_charged () fills it */
  uint32_t *line_slot;        /* [lines->n] */

  uint32_t *made;             /* [n_rows + 1] outputs of row r: nodes made[r] .. made[r + 1] - 1 */
  uint32_t *made_by;          /* [n_items] row of a node; CRO_NO_ROW of a raw */

  uint32_t *used_first;       /* [n_items + 1] uses of node i: used_first[i] .. - 1 */
  uint32_t *used_in;          /* [lines->n] row of each use, rising */

  uint32_t *node_of_item;     /* [n_items] */
  uint32_t *item_of_node;     /* [n_items] */
  uint32_t *row_of_slot;      /* [n_rows] */
  uint32_t *slot_of_row;      /* [n_rows] */
} CroGraph;

/* Bytes of workspace for cro_graph_order. */
size_t cro_graph_workspace   (size_t                n_items,
                              size_t                n_rows,
                              size_t                n_lines);

/* Orders, renumbers and indexes. Returns 0, or on a cycle the number of rows on it, their
 * slots in cycle[] (room for n_rows): each uses an output of the next, the last one of the
 * first. The arrays are then undefined. */
size_t cro_graph_order       (const CroGraphSource *source,
                              CroGraph             *graph,
                              void                 *workspace,
                              uint32_t             *cycle);

/* Looks for a cycle alone: returns as cro_graph_order does. */
size_t cro_graph_find_cycle  (const CroGraphSource *source,
                              void                 *workspace,
                              uint32_t             *cycle);

/* The rows that use a node, each once though it takes it twice: *at is 0 before the first and moved behind the
 * row that is told. false: there are no more. */
bool   cro_graph_next_user   (const CroGraph       *graph,
                              uint32_t              node,
                              uint32_t             *at,
                              uint32_t             *row);
