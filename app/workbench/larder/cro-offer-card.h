/* cro-offer-card.h: one supplier's pack of an ingredient, with its price per base unit first, as
 * that is what packs are compared by. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_OFFER_CARD (cro_offer_card_get_type ())
G_DECLARE_FINAL_TYPE (CroOfferCard, cro_offer_card, CRO, OFFER_CARD, GtkWidget)

/* history: of its ingredient (cro_price_history_new); NULL: it could not be read. */
GtkWidget *cro_offer_card_new     (CroBench     *bench,
                                   guint32       offer,
                                   GArray       *history);

guint32    cro_offer_card_get_offer (CroOfferCard *self);

/* The field of its price. */
GtkWidget *cro_offer_card_get_price (CroOfferCard *self);

void       cro_offer_card_refresh (CroOfferCard *self,
                                   GArray       *history);

G_END_DECLS
