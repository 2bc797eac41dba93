/* cro-batch-change.h: what a figure changes by when something in a batch does, and its cost is
 * shared anew: as the figure is affine in what the outputs of a batch cost, their effects tell.
 *
 * Effects    Those of cro_effects_trace, which is to be called before.
 * Ownership  cro_batch_change_clear frees; one may be begun again for another row. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

typedef struct
{
  CroFigures    *figures;
  guint32        row;
  guint32        n;           /* outputs */
  const guint32 *slots;
  gboolean       has_yield;   /* one of them is given as a yield % of what goes in */
  double         grams;       /* that go in; below 0: not known */
  CroOutput     *outputs;     /* workspace */
  CroMeasure    *measures;
  guint32        allocated;
} CroBatchChange;

void   cro_batch_change_begin     (CroBatchChange *self,
                                   CroFigures     *figures,
                                   guint32         row);
void   cro_batch_change_clear     (CroBatchChange *self);

/* When the amount of a line, by its position in the graph, becomes factor times itself. */
double cro_batch_change_of_amount (CroBatchChange *self,
                                   guint32         position,
                                   double          factor);

/* When the amount or the yield % of an output, by its number in the batch, does. */
double cro_batch_change_of_output (CroBatchChange *self,
                                   guint32         output,
                                   double          factor);

G_END_DECLS
