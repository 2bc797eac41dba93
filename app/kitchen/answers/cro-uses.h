/* cro-uses.h: which preparations and plates take an item, and what it weighs in each.
 *
 * Units      Base units of the item and book currency, for a batch or for all bites of a plate. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

/* What one recipe takes of one item, in all its lines. */
typedef struct
{
  guint32 recipe;
  guint32 item;
  double  net;         /* that go in, less what comes back; NaN where one cannot be converted */
  double  cost;        /* of food and disposables; NaN where it is not known */
  double  part_pct;    /* of all that the recipe takes; NaN where there is none */
} CroUse;

/* Of n items; those that weigh most in what takes them first. Elements CroUse. */
GArray *cro_uses_new (CroFigures    *figures,
                      const guint32 *items,
                      guint          n);

G_END_DECLS
