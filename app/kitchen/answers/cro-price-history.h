/* cro-price-history.h: what an ingredient has cost over time, offer by offer.
 *
 * Units      Prices in millionths of the offer's currency per pack, tax included where said; unit
 *            costs net, per base unit, in the offer's own currency: no exchange rate is in them. */
#pragma once

#include "cro-book.h"
#include "cro-price-answers.h"

G_BEGIN_DECLS

typedef struct
{
  gint64    id;              /* of the row of table price */
  guint32   offer;
  CroOffer  offer_then;      /* with the price, tax and pack of that date */
  gboolean  has_own_pack;    /* the pack differs from the offer's: in its count, size or unit */
  gboolean  has_own_count, has_own_size, has_own_unit;
  gboolean  has_answer;      /* something was said of the price of that day */
  CroPriceAnswer answer;
  gboolean  is_answered;     /* that holds: it was asked about, and is right */
  double    unit_cost;       /* NaN where the pack cannot be converted */
  double    change_pct;      /* against the price before of the same offer; NaN: there is none */
} CroPastPrice;

/* Newest first; of one day in the order of the offers. Elements CroPastPrice; NULL on failure. */
GArray *cro_price_history_new (CroBook        *book,
                               guint32         ingredient,
                               GError        **error);

/* Computes unit costs and changes anew, of packs and measures as they are now: a preview moves them,
 * and no price. */
void    cro_price_history_cost (CroModel       *model,
                                GArray         *history);

/* The price in use and the one before it of the same pack; borrowed from history. FALSE where either is
 * not there, or the older is none that a change can be told of. */
gboolean cro_price_history_last_two (CroFigures          *figures,
                                     GArray              *history,
                                     guint32              ingredient,
                                     const CroPastPrice **price,
                                     const CroPastPrice **before);

/* By how many per cent the price in use differs from the one before it; NaN: there is none. */
double  cro_price_history_last_change (CroFigures *figures,
                                       GArray     *history,
                                       guint32     ingredient);

G_END_DECLS
