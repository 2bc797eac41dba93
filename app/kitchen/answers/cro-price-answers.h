/* cro-price-answers.h: prices that were asked about, and that somebody said are right: they are not asked about again.
 *
 * What is answered is that a pack costs so much from a day on, in a currency: another price in its place is asked about
 * by its own right, and so is the same price once it is for another pack or in another currency.
 *
 * Units  Prices in millionths of the answer's currency per pack. */
#pragma once

#include "cro-model.h"
#include "cro-store.h"

G_BEGIN_DECLS

typedef struct
{
  gint64  price;
  gint64  pack_count, pack_size;   /* CRO_NOT_SET: what the offer has */
  CroUnit pack_unit;               /* CRO_N_UNITS: likewise */
  char    currency[4];             /* "": likewise */
} CroPriceAnswer;

/* Of one offer, by its id; 0: of all. Owned; NULL on failure. */
GHashTable           *cro_price_answers_new   (CroStore              *store,
                                               gint64                 offer,
                                               GError               **error);

/* What was said of the price that an offer, by its id, has from a day on. Borrowed; NULL: nothing. */
const CroPriceAnswer *cro_price_answers_find  (GHashTable            *answers,
                                               gint64                 offer,
                                               CroDate                from);

/* Whether it holds for a price of that offer and day: then has its price and its pack. answer may be NULL. */
gboolean              cro_price_answer_holds  (const CroPriceAnswer  *answer,
                                               CroModel              *model,
                                               guint32                offer,
                                               const CroOffer        *then);

G_END_DECLS
