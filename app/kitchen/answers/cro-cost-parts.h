/* cro-cost-parts.h: what each price and assigned value makes of a cost, in minor units that add up to it as
 * it is shown.
 *
 * All of them are apportioned (cro-money.h), whichever are shown: a picture of eight rows, one of all,
 * and a card that has ten say the same of each.
 *
 * Units  Book currency per guest; minor units of it. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  guint32 item;     /* at most one part is of an item */
  double  cost;
} CroCostPart;

/* Of shown, in its order, and then of the others together. all: elements CroCostPart, in any order, of which
 * shown are some, and may say 0 of what is none; it is put in order. Owned. */
gint64 *cro_cost_parts_dup_minor (GArray            *all,
                                  const CroCostPart *shown,
                                  guint              n,
                                  double             cost,
                                  int                digits);

G_END_DECLS
