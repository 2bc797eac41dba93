/* cro-effects.h: what the cost of a guest of a plate or a menu, or of a batch of a preparation, hangs on:
 * one reverse sweep of what stands below it.
 *
 * Between the two calls figures->row_effect tells what a batch's cost counts in it, figures->effect
 * what a unit cost does, figures->seen_rows which rows stand below, and figures->seen_nodes what
 * these take. */
#pragma once

#include "cro-figures.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* thing is a plate or a preparation (CRO_REF_RECIPE), or a menu. */
void     cro_effects_trace (CroFigures *figures,
                            CroRef      thing);
void     cro_effects_clear (CroFigures *figures);

/* The same of many guests of many things: each is added so many times, then all are run at once. */
void     cro_effects_add   (CroFigures *figures,
                            CroRef      thing,
                            double      times);
void     cro_effects_run   (CroFigures *figures);

/* The next mark from i on; n: there is none before it. */
static inline guint32
cro_effects_next_of (const guint64 *marks,
                     guint32        i,
                     gsize          n)
{
  gsize word = i / 64;
  guint64 left = i < n ? marks[word] >> (i % 64) << (i % 64) : 0;

  while (left == 0 && (word + 1) * 64 < n)
    left = marks[++word];
  return left != 0 ? (guint32) MIN (word * 64 + (gsize) __builtin_ctzll (left), n) : (guint32) n;
}

/* The next row below, from row on; graph.n_rows: there is none. */
static inline guint32
cro_effects_next (const CroFigures *figures,
                  guint32           row)
{
  return cro_effects_next_of (figures->seen_rows, row, figures->graph.n_rows);
}

/* The node of the next ingredient that is taken below; graph.n_raws: there is none. */
static inline guint32
cro_effects_next_raw (const CroFigures *figures,
                      guint32           node)
{
  return cro_effects_next_of (figures->seen_nodes, node, figures->graph.n_raws);
}

/* The next row of a plate below that the traced cost counts in, from row on, and its slot. FALSE: there
 * is none. */
static inline gboolean
cro_effects_next_plate (const CroFigures *figures,
                        guint32          *row,
                        guint32          *slot)
{
  for (*row = cro_effects_next (figures, *row); *row < figures->graph.n_rows;
       *row = cro_effects_next (figures, *row + 1))
    {
      *slot = figures->graph.slot_of_row[*row];
      if (cro_model_recipe (figures->model, *slot)->is_plate && figures->row_effect[*row] != 0)
        return TRUE;
    }
  return FALSE;
}

/* What an assigned value of an output of a credited batch counts, its main output's slot known. */
double   cro_effects_of_value (const CroFigures *figures,
                               guint32           main_output,
                               guint32           by_product);

G_END_DECLS
