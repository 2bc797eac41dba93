/* synthetic.h: a made-up book of any size, the same on every machine and in every run.
 *
 * Shape      A row has 4 to 28 lines, 16 on average. There is an ingredient to every three
 *            rows, taken about as often as its rank is low (Zipf). Three rows in five are
 *            preparations, every tenth with a by-product; the rest are plates. Preparations
 *            stand in six layers: half of them use ingredients alone, half of the rest an
 *            output of those, and so on, with a line in four an output of any layer below;
 *            of a plate's lines every second is one. Lines stand by row and position, as a
 *            store keeps them; numbers of rows and items have nothing to do with who uses
 *            whom.
 * Ownership  The functions allocate; cro_synthetic_clear and cro_roll_clear free. Without
 *            memory they abort. */
#pragma once

#include "cro-graph.h"
#include "cro-sweep.h"

typedef struct
{
  size_t      n_items;
  size_t      n_ingredients;
  size_t      n_rows;
  int32_t    *maker;      /* [n_items] as CroGraphSource has it */
  CroLines    lines;
  CroMeasure *measures;   /* [n_items] */
  double     *unit_cost;  /* [n_items] of ingredients, per base unit */
  double     *share;      /* [n_items] of outputs */
  double     *fixed;      /* [n_items] of outputs */
} CroSynthetic;

/* The book in the order of the sweep, with its food layer. */
typedef struct
{
  CroGraph  graph;
  CroLayer  food;
  double   *share;        /* what food.share and food.fixed point at */
  double   *fixed;
  void     *workspace;
  uint32_t *cycle;
} CroRoll;

/* About n_lines lines. */
void cro_synthetic_make  (CroSynthetic       *book,
                          size_t              n_lines);
void cro_synthetic_clear (CroSynthetic       *book);

/* Room for every array of a graph, and for what ordering it needs. */
void cro_roll_alloc      (CroRoll            *roll,
                          const CroSynthetic *book);
void cro_roll_order      (CroRoll            *roll,
                          const CroSynthetic *book);
void cro_roll_clear      (CroRoll            *roll);

/* Allocates, orders and fills in the food layer; nothing is swept yet. */
void cro_roll_make       (CroRoll            *roll,
                          const CroSynthetic *book);
