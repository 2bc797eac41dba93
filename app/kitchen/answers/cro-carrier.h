/* cro-carrier.h: what a plate or a menu has of the groups of allergens, and who carries it in.
 *
 * A plate is taken apart in three steps: its lines are components; what carries something is a line of a
 * component ("crab butter, in dressed white crab and brown crab cream"), or a component that is bought;
 * below that stand the purchases whose labels say so ("butter"). Of a menu the plates are its components.
 *
 * Bits       CroReach: groups that are contained, those that may be, CRO_ALLERGENS_NOT_KNOWN.
 * Ownership  Names are borrowed from the model. */
#pragma once

#include "cro-figures.h"
#include "cro-reach.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* All of them that stand below a plate or a menu. One that is empty is not known: nobody said what goes in. */
guint64    cro_carried_bits   (CroFigures *figures,
                               CroRef      thing);

/* Those of a set of groups that may be contained, as bits of CroReach. */
static inline guint64
cro_carried_may (guint32 groups)
{
  return (guint64) groups << CRO_REACH_MAY_CONTAIN_SHIFT;
}

typedef struct
{
  const char *name;       /* of an item, or of what is empty */
  gboolean    is_direct;  /* a line of the thing itself takes it; of a menu: it is an empty plate */
  GPtrArray  *in;         /* const char *: components that take it, in the order of the lines */
  GPtrArray  *bought;     /* const char *: purchases below it of which it is told, and what is empty, by
                             name; empty where it is one itself */
} CroCarrier;

/* Who carries one of bits, in the order of the lines, each once. Elements CroCarrier *, owned. Costs what
 * is walked below them. */
GPtrArray *cro_carriers_new   (CroFigures *figures,
                               CroRef      thing,
                               guint64     bits);

G_END_DECLS
