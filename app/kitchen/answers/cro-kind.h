/* cro-kind.h: the kinds of things that lists and looking up show, each by its slot, and what
 * they show of them.
 *
 * Units      Costs in book currency: of an ingredient, an output or a preparation's main output
 *            per base unit, of a plate or a menu per guest. Figures that do not exist are NaN. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_KIND_INGREDIENT,    /* slot of an item */
  CRO_KIND_OUTPUT,        /* slot of an item */
  CRO_KIND_PREPARATION,   /* slot of a recipe */
  CRO_KIND_PLATE,         /* slot of a recipe */
  CRO_KIND_MENU,          /* slot of a menu */
  CRO_N_KINDS,
} CroKind;

#define CRO_KINDS_ALL ((1u << CRO_N_KINDS) - 1)

/* No price is in force. */
#define CRO_NO_DATE G_MININT32

/* Slots, dead ones and those of other kinds among them. */
guint32     cro_kind_n_slots       (const CroModel *model,
                                    CroKind         kind);

/* NULL: nothing of this kind stands there. The same pointer for as long as the name is the
 * same; the model's. */
const char *cro_kind_name          (CroModel       *model,
                                    CroKind         kind,
                                    guint32         slot);

double      cro_kind_cost          (CroFigures     *figures,
                                    CroKind         kind,
                                    guint32         slot);

/* Of a plate or a menu. */
double      cro_kind_food_cost_pct (CroFigures     *figures,
                                    CroKind         kind,
                                    guint32         slot);
double      cro_kind_target_pct    (CroFigures     *figures,
                                    CroKind         kind,
                                    guint32         slot);

/* The day from which the price in use of an ingredient is; CRO_NO_DATE without one. */
CroDate     cro_kind_price_from    (CroFigures     *figures,
                                    CroKind         kind,
                                    guint32         slot);

/* How old a price may be before it is called old: as the book says, else 30 days. */
guint       cro_kind_old_days      (const CroModel *model);

/* Whether the price in use of an ingredient is older than so many days, and not 0: what costs nothing
 * costs it for good. */
gboolean    cro_kind_is_price_old  (CroFigures     *figures,
                                    guint32         item,
                                    guint           days);

/* Whether its cost is known in part only, or not at all. */
gboolean    cro_kind_is_incomplete (CroFigures     *figures,
                                    CroKind         kind,
                                    guint32         slot);

/* Of a plate or a menu. */
gboolean    cro_kind_is_over_target (CroFigures    *figures,
                                    CroKind         kind,
                                    guint32         slot);

/* Whether a line takes it, or an output of it, or a menu carries it. Menus are what is sold. */
gboolean    cro_kind_is_used       (CroFigures     *figures,
                                    CroKind         kind,
                                    guint32         slot);

G_END_DECLS
