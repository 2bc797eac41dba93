/* cro-limits.h: how far what moves a cost may go before a target is passed.
 *
 * All else equal, a value may become as much of itself as costs what the holder has to spare: of a
 * price u + (target net price - cost) / quantity; of an amount or an assigned value likewise; of a
 * yield, which the cost is affine in the inverse of, 1 / (1 / y + to spare / what it charges). What
 * feeds the mass of a batch is bracketed: there the batch is shared anew.
 *
 * Held against are the plate, where it has a price and a target, and every menu that carries it, as
 * the change moves all that the menu takes; the tightest counts.
 *
 * Units      Of the value as CroMover has it; not rounded. */
#pragma once

#include "cro-known.h"
#include "cro-movers.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_LIMIT_NONE,     /* nothing to hold it against, or no value of it goes over */
  CRO_LIMIT_UP_TO,
  CRO_LIMIT_DOWN_TO,
  CRO_LIMIT_NEVER,    /* over even at 0: as a gift; of a yield: at any, or at 100 % */
} CroLimitKind;

typedef struct
{
  CroLimitKind kind;
  gboolean     is_far;      /* beyond three times what it is, or below a third */
  double       value;       /* of a price that is NEVER: below 0; NaN where there is none */
  CroRef       thing;       /* whose movers these are */
  CroRef       holder;
  CroKnown     known;       /* of the value, where something is missing below the holder */
  double       pack;        /* of a price: per own pack of the offer in use, in its currency, with tax */
  double       next_offer;  /* of a price: unit cost at which another offer takes over before; NaN */
} CroLimit;

/* One for each of movers, which are those of thing. Elements CroLimit. */
GArray     *cro_limits_new    (CroFigures     *figures,
                               CroRef          thing,
                               GArray         *movers);


/* Parts of it, for who knows what a guest of a holder is charged of what is bought: a limit that is
 * none, for movers of thing; held against one more plate or menu, whose quantity is that per guest;
 * and what follows from the tightest. */
CroLimit    cro_limit_none    (CroRef          thing);
void        cro_limit_hold    (CroLimit       *tightest,
                               const CroMover *price,
                               double          quantity,
                               const CroFigure *figure,
                               CroRef          holder);
void        cro_limit_finish  (CroFigures     *figures,
                               const CroMover *mover,
                               CroLimit       *limit);

/* The holder's name. Borrowed. */
const char *cro_limit_holder  (CroModel       *model,
                               const CroLimit *limit);

G_END_DECLS
