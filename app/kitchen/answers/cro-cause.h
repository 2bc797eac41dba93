/* cro-cause.h: why a figure is incomplete. */
#pragma once

#include <glib.h>

#include "cro-figures.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_CAUSE_PRICE,
  CRO_CAUSE_RATE,
  CRO_CAUSE_DENSITY,
  CRO_CAUSE_PIECE,
  CRO_CAUSE_AMOUNT,
  CRO_CAUSE_VALUE,
  CRO_CAUSE_WAGE,
  CRO_CAUSE_LINES,
  CRO_CAUSE_PLATES,  /* a menu without any: told as its lines */
  CRO_CAUSE_CREDIT,
} CroCauseKind;

typedef struct
{
  CroCauseKind kind;
  const char  *name;     /* of the item, preparation, plate, menu or currency; NULL: wage. Borrowed */
} CroCause;

/* As tables and scripts write it: "price Sea purslane", "wage". Free with g_free. */
char   *cro_cause_to_text  (const CroCause   *cause);

/* Everything missing below what stands in figures->seen_rows (marked by the caller), in order
 * of kind and name, each once. Leaves the marks of what was walked. Elements CroCause. */
GArray *cro_causes_below   (CroFigures       *figures);

/* Whether something is empty, so that nobody can say what it contains. */
gboolean cro_causes_lack_contents (GArray     *causes);

/* Whether a cost below 0 is one: nothing but a credit is the matter, so that what is missing would not raise it. */
gboolean cro_causes_are_of_credit (GArray     *causes);

/* Everything missing for one item. */
GArray *cro_causes_of_item (CroFigures       *figures,
                            guint32           item);

G_END_DECLS
