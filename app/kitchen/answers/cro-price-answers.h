/* cro-price-answers.h: prices that were asked about, and that somebody said are right: they are not asked about again.
 *
 * What is answered is that a pack costs so much from a day on: another price in its place is asked about by its own
 * right.
 *
 * Units  Prices in millionths of the offer's currency per pack. */
#pragma once

#include "cro-date.h"
#include "cro-store.h"

G_BEGIN_DECLS

/* Of one offer, by its id; 0: of all. Owned; NULL on failure. */
GHashTable *cro_price_answers_new (CroStore    *store,
                                   gint64       offer,
                                   GError     **error);

gboolean    cro_price_answers_has (GHashTable  *answers,
                                   gint64       offer,
                                   CroDate      from,
                                   gint64       price);

G_END_DECLS
