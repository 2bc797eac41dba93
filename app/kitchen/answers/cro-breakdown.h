/* cro-breakdown.h: what a guest of one plate or menu costs, and what that is made of.
 *
 * Units      Book currency per guest; quantities in base units per guest. Figures that do not
 *            exist are NaN.
 * Ownership  A breakdown owns its arrays; names are the model's. */
#pragma once

#include <glib.h>

#include "cro-cause.h"
#include "cro-figures.h"
#include "cro-menu-ways.h"
#include "cro-unserved.h"

G_BEGIN_DECLS

typedef struct
{
  guint32 item;
  double  quantity;       /* d cost / d unit cost; of an assigned value d cost / d value */
  double  unit_cost;      /* known sum: 0 of an ingredient without a price; or the value */
  double  cost;
  double  elasticity;
  double  ceiling;        /* per base unit */
} CroShareOfCost;

/* The head figures alone. */
typedef struct
{
  const char *name;
  double      cost;         /* food */
  double      labour;
  double      disposables;
  double      net_price;
  double      food_cost_pct;
  double      target_pct;
  double      price_for_target;  /* the gross price at which the target is met */
  double      bite;         /* a plate's cost per bite */
  double      cheapest;     /* of the ways through a menu's choices; NaN without a choice */
  double      dearest;
  gboolean    is_cheapest_open, is_dearest_open;  /* something is missing of that way, or of one that may be it */
  gboolean    is_over_target;
  gboolean    is_untaxed;   /* nobody has set a tax, of it or of the book: it counts as 0 */
  gboolean    is_incomplete;
  gboolean    has_credit;   /* a credit stands below: an incomplete cost is no lower bound */
} CroFigure;

/* An ingredient that is costed at its last price, and since when it is not to be had. */
typedef struct
{
  const char *name;
  CroDate     since;
} CroLastPrice;

typedef struct
{
  CroFigure   figure;
  guint32     allergens;
  guint32     may_contain;         /* as labels warn */
  GArray     *ingredients;         /* CroShareOfCost of food, dearest first */
  GArray     *by_products;         /* CroShareOfCost of assigned values */
  GArray     *missing;             /* CroCause */
  GArray     *doubts;              /* CroUnserved, by name */
  GArray     *last_prices;         /* CroLastPrice, by name */
  GPtrArray  *assumed;             /* names, sorted */
  GPtrArray  *allergens_not_known; /* names, sorted */
  guint       n_bought;            /* what is bought below it, disposables too: those are of it */
} CroBreakdown;

/* A plate, or a menu, by slot. */
CroFigure     cro_figure_of_plate    (CroFigures   *figures,
                                      guint32       plate);
CroFigure     cro_figure_of_menu     (CroFigures   *figures,
                                      guint32       menu);

CroBreakdown *cro_breakdown_of_plate (CroFigures   *figures,
                                      guint32       plate);
CroBreakdown *cro_breakdown_of_menu  (CroFigures   *figures,
                                      guint32       menu);
/* A batch of a preparation: its figures are those of the batch, where others are a guest's. */
CroBreakdown *cro_breakdown_of_batch (CroFigures   *figures,
                                      guint32       preparation);
void          cro_breakdown_free     (CroBreakdown *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroBreakdown, cro_breakdown_free)

/* What a plate takes of a menu that carries it, in all its servings, as often as it is taken. */
typedef struct
{
  CroFigure menu;
  double    of_price_pct;   /* its cost in the menu's net price */
  double    of_cost_pct;    /* its cost in the menu's */
} CroPartOfMenu;

CroPartOfMenu cro_part_of_menu       (CroFigures         *figures,
                                      const CroMenuPlate *entry,
                                      const CroFigure    *plate);

/* Outputs that nothing takes, of the batches below a plate or a menu. Elements CroUnserved. */
GArray       *cro_unserved_of_plate  (CroFigures   *figures,
                                      guint32       plate);
GArray       *cro_unserved_of_menu   (CroFigures   *figures,
                                      guint32       menu);

/* The menu that has least to spare against its target, of those that carry the plate: a slot of
 * model->menu_plates, or CRO_NO_SLOT. */
guint32       cro_tightest_menu      (CroFigures   *figures,
                                      guint32       plate);

/* Money that a guest may still cost before the target is passed, below 0 what it is over by; NaN
 * without a price or a target. */
double        cro_to_spare           (const CroFigure *figure);

/* Everything missing below a plate or a menu. Elements CroCause. */
GArray       *cro_causes_of_plate    (CroFigures   *figures,
                                      guint32       plate);
GArray       *cro_causes_of_menu     (CroFigures   *figures,
                                      guint32       menu);

G_END_DECLS
