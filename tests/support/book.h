/* book.h: a small book for tests of the engine, as written and as computed.
 *
 * Units      Decimals as people write them, in millionths; money per base unit for raws.
 * Shapes     What is written goes by slot of item, row and line; what the graph numbers
 *            (share, fixed, unit costs, row costs) by node and row of the graph. The outputs
 *            of a row have rising slots, the main one first.
 * Ownership  A Book owns all its arrays. */
#pragma once

#include "cro-batch.h"
#include "cro-graph.h"
#include "cro-sweep.h"

enum
{
  FOOD,
  DISPOSABLES,
  LABOUR,
  N_LAYERS,
};

typedef struct
{
  size_t      n_items;
  size_t      n_rows;

  /* as written */
  int32_t    *maker;
  int64_t    *density;
  int64_t    *piece;
  int64_t    *price;      /* of raws; 0 of outputs */
  CroMeasure *measure;
  CroOutput  *output;
  CroRule    *rule;
  int64_t    *minutes;
  int64_t     wage;       /* per hour */
  CroLines    lines;

  /* as computed */
  CroGraph    graph;
  double     *share;
  double     *fixed;
  double     *own;
  double     *unit_cost[N_LAYERS];
  double     *row_cost[N_LAYERS];
  CroLayer    layer[N_LAYERS];
} Book;

Book     *book_new           (size_t      n_items,
                              size_t      n_rows,
                              size_t      room_for_lines);
void      book_free          (Book       *book);

/* Every item is food, bought and weighed in grams until something else is said. */
void      book_set_measure   (Book       *book,
                              uint32_t    item,
                              CroBase     base,
                              int64_t     density,
                              int64_t     piece);
void      book_set_output    (Book       *book,
                              uint32_t    item,
                              int32_t     row,
                              CroUnit     unit,
                              int64_t     amount);

/* Returns its slot. Its position is its slot; it is weighed trimmed. */
size_t    book_add_line      (Book       *book,
                              int32_t     row,
                              uint32_t    item,
                              int64_t     amount,
                              CroUnit     unit);

/* As cro_graph_order; cycle may be NULL where there is none. */
size_t    book_order         (Book       *book,
                              uint32_t   *cycle);

/* Shares out one row of the graph. */
void      book_share_row     (Book       *book,
                              uint32_t    row);

/* Folds the lines, shares every row, reads prices and minutes, sweeps all layers. */
void      book_settle        (Book       *book);

double    book_unit_cost     (const Book *book,
                              int         layer,
                              uint32_t    item);
double    book_row_cost      (const Book *book,
                              int         layer,
                              int32_t     row);

/* The output of a node, and whether all outputs of a row of the graph have a known cost. */
CroOutput *book_output        (const Book *book,
                               uint32_t    node);
bool       book_row_is_known  (const Book *book,
                               uint32_t    row);
