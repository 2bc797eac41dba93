/* cro-effects.h: what the cost of a guest of a plate or a menu hangs on: one reverse sweep of what
 * stands below it.
 *
 * Between the two calls figures->row_effect tells what a batch's cost counts in it, figures->effect
 * what a unit cost does, and figures->seen_rows which rows stand below. */
#pragma once

#include "cro-figures.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* thing is a plate (CRO_REF_RECIPE) or a menu. */
void     cro_effects_trace (CroFigures *figures,
                            CroRef      thing);
void     cro_effects_clear (CroFigures *figures);

/* The next row below, from row on; graph.n_rows: there is none. */
static inline guint32
cro_effects_next (const CroFigures *figures,
                  guint32           row)
{
  while (row < figures->graph.n_rows && !(figures->seen_rows[row / 64] >> (row % 64) & 1))
    row = figures->seen_rows[row / 64] >> (row % 64) == 0 ? (row / 64 + 1) * 64 : row + 1;
  return MIN (row, (guint32) figures->graph.n_rows);
}

/* What an assigned value of an output of a credited batch counts, its main output's slot known. */
double   cro_effects_of_value (const CroFigures *figures,
                               guint32           main_output,
                               guint32           by_product);

G_END_DECLS
