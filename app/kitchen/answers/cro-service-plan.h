/* cro-service-plan.h: what to make and to buy for a service, with today's recipes and the prices of
 * the book's date.
 *
 * What cannot be known is never 0 in silence: a row that rests on it is at least what it says (or
 * at most, or nothing is known of it), and the causes are listed.
 *
 * Units      Base units of each item; money in book currency, net; minutes.
 * Source     cro-plan.h.
 * Ownership  A plan owns its arrays; names are the model's, slots those of the model.
 * Errors     CRO_STORE_ERROR, where suppliers cannot be read. */
#pragma once

#include "cro-breakdown.h"
#include "cro-known.h"
#include "cro-service.h"

G_BEGIN_DECLS

/* An output of a preparation that runs. */
typedef struct
{
  guint32  item;
  double   made;           /* of Q (1 - l); NaN where the finished amount is not known */
  double   needed;         /* after what is in the house */
  double   left;           /* of what is made; NaN likewise */
  double   left_cost;      /* what that carries, food; NaN: not known */
  CroKnown known;          /* of needed */
  CroKnown known_left;     /* that of what is made, where needed is known; what is left of a bound has none */
} CroPlanOutput;

typedef struct
{
  guint32  recipe;
  double   runs;           /* batches needed */
  double   batches;        /* batches made: runs, in the smallest parts of it */
  double   minutes;        /* active ones of these batches */
  CroKnown known;          /* of runs and batches; NOTHING: both are 0 and stand for no figure */
  guint    first_output;   /* into outputs, main first */
  guint    n_outputs;
} CroPlanMake;

typedef struct
{
  guint32  item;
  guint32  offer;          /* in use; CRO_NO_SLOT: none can be had */
  CroDate  since;          /* from when on it is not to be had, where it has a last price; else
                              CRO_NO_DAY */
  double   needed;         /* after what is in the house */
  double   pack;           /* base units in a pack; NaN without an offer, and what follows too */
  double   packs;
  double   cost;
  double   left;           /* of the packs */
  CroKnown known;          /* of needed; NOTHING: it is 0 and stands for no figure */
} CroPlanBuy;

/* What is bought of one supplier. */
typedef struct
{
  guint32  supplier;
  guint    first_buy;      /* into buy */
  guint    n_buys;
  double   cost;           /* of the packs; the charge is beside it */
  gint64   minimum;        /* millionths of money; CRO_NOT_SET */
  gint64   charge;         /* of a delivery; likewise */
  CroKnown known;
} CroPlanOrder;

typedef struct
{
  CroFigures *figures;     /* borrowed: of the book's date */
  GArray     *make;        /* CroPlanMake in an order of making: parts first, then by name */
  GArray     *outputs;     /* CroPlanOutput */
  GArray     *buy;         /* CroPlanBuy by supplier, ingredient, code; without one last */
  GArray     *orders;      /* CroPlanOrder, by supplier */
  GArray     *missing;     /* CroCause: of what is planned; prices of what cannot be had */
  double      minutes;
  double      cost;        /* of all packs */
  double      theoretical; /* sum of covers times what a guest costs, food and disposables */
  double      cheapest;    /* the same with the cheapest, and the dearest, choices of all menus; */
  double      dearest;     /* NaN where none that is planned has a choice */
  CroKnown    known_minutes;
  CroKnown    known_cost;
  CroKnown    known_theoretical;
  gboolean    is_finite;   /* FALSE: some figure is too large to be stated */
} CroServicePlan;

CroServicePlan *cro_service_plan_new  (CroBook         *book,
                                       const CroService *service,
                                       GError         **error);
/* What a recipe takes as it is written, scaled: no seasoning and handling is added, no batch rounded up or made in
 * parts, so that a frying oil fills its whole batch, and nothing is in the house. n: bites of a plate, guests of a
 * menu, batches of a preparation. The theoretical cost is 0. */
CroServicePlan *cro_service_plan_of_recipe (CroBook    *book,
                                       CroRef           thing,
                                       double           n,
                                       GError         **error);
void            cro_service_plan_free (CroServicePlan  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroServicePlan, cro_service_plan_free)

/* Slots of the lines of what is made, in their order. Borrowed. */
const guint32  *cro_plan_make_lines   (CroServicePlan    *plan,
                                       const CroPlanMake *make,
                                       guint32           *n);

/* Whether its packs cost nothing, as of the house's own tap or picking: nobody is sent an order of them. */
gboolean        cro_plan_order_is_free (const CroPlanOrder *order);

/* By which the sum is below the supplier's minimum order; 0 where it is not, or there is none. */
double          cro_plan_order_short  (const CroPlanOrder *order);

G_END_DECLS
