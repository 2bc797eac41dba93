/* cro-uses.h: which preparations and plates take an item, and what it weighs in each.
 *
 * Units      Base units of the item and book currency, for a batch or for all bites of a plate. */
#pragma once

#include "cro-figures.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* What one recipe takes of one item, in all its lines. */
typedef struct
{
  guint32 recipe;
  guint32 item;
  double  net;         /* that go in, less what comes back; NaN where one cannot be converted */
  double  cost;        /* of food and disposables; NaN where it is not known */
  double  part_pct;    /* of all that the recipe costs, seasoning and disposables too, as its card
                        * has it (cro-card.h); NaN where there is none */
} CroUse;

/* Of n items; those that weigh most in what takes them first. Elements CroUse. */
GArray *cro_uses_new (CroFigures    *figures,
                      const guint32 *items,
                      guint          n);

/* What a guest of a plate or a menu is charged of one item, through all preparations. */
typedef struct
{
  CroRef  thing;
  guint32 item;
  double  quantity;    /* base units */
  double  cost;        /* food; NaN where it is not known */
  double  part_pct;    /* of the food cost; NaN where there is none */
} CroReached;

/* Of n items; what takes the largest part of a cost first. Elements CroReached. */
GArray *cro_reached_new (CroFigures    *figures,
                         const guint32 *items,
                         guint          n);

G_END_DECLS
