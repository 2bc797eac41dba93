/* cro-price-moves.h: how prices moved from one day to the day of the figures, and what that does to
 * plates and menus as they are made today.
 *
 * A cost is linear in the unit costs of ingredients, so that what all moves together do to a plate is the
 * sum of what each does: one sweep of the differences gives every plate, one reverse sweep of all that was
 * sold every ingredient. Of what has no price on one of both days, and of what is charged in an amount that is
 * not known (cro-moves-known.h), only a part or nothing is known.
 *
 * Units      Book currency per base unit, or per guest; percentages where a name says pct. What does not
 *            exist is NaN.
 * Ownership  Names are the model's. */
#pragma once

#include "cro-known.h"
#include "cro-price-past.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* As many points of equal distance from the first to the last day, 0 for the lowest cost among them to
 * CRO_COURSE_HIGH for the highest; CRO_COURSE_NONE where there was none. */
#define CRO_COURSE_POINTS 48
#define CRO_COURSE_HIGH 57
#define CRO_COURSE_NONE 255

typedef struct
{
  guint32 item;
  double  before, now;
  double  change_pct;
  gboolean is_rate_alone; /* prices of the first day at the exchange rates of the last make the same */
  double  bought;       /* net, behind the first day; NaN: no purchase of anything was booked */
  double  share_pct;    /* of all food and disposables that were bought */
  double  money;        /* what the move adds to the cost of what was sold lately (cro-sold.h); NaN: nothing was,
                           or nothing of it is known */
  CroKnown known;       /* of money */
  guint8  course[CRO_COURSE_POINTS];
} CroPriceMove;

/* A plate or a menu whose cost the moves change, or may. */
typedef struct
{
  CroRef    thing;
  CroFigure now;
  double    added;      /* to a guest's food cost since the first day; 0 where nothing of it is known */
  CroKnown  known;      /* of added */
  double    sold;       /* lately; NaN: nothing at all was */
  double    money;      /* sold times added */
  guint32   through;    /* the ingredient that adds or takes most */
} CroThingMove;

typedef struct
{
  CroDate from, to;
  GArray *items;        /* CroPriceMove: every ingredient, by slot */
  GArray *things;       /* CroThingMove: by money, or by what is added where nothing was sold */
} CroPriceMoves;

/* NULL with error. */
CroPriceMoves *cro_price_moves_new  (CroBook        *book,
                                     CroPricePast   *past,
                                     CroDate         from,
                                     GError        **error);
void           cro_price_moves_free (CroPriceMoves  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroPriceMoves, cro_price_moves_free)

G_END_DECLS
