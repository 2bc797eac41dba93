/* cro-new-offer-view.h: where a pack of an ingredient is entered: who sells it, what is in it, what
 * it costs. One act makes all of it, the supplier too. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_NEW_OFFER_VIEW (cro_new_offer_view_get_type ())
G_DECLARE_FINAL_TYPE (CroNewOfferView, cro_new_offer_view, CRO, NEW_OFFER_VIEW, GtkWidget)

/* Of the ingredient on the bench. */
GtkWidget *cro_new_offer_view_new   (CroBench         *bench);

/* Empties it for another ingredient; packs are then in this unit until another is chosen. */
void       cro_new_offer_view_put   (CroNewOfferView  *self,
                                     CroUnit           unit);

/* Whether the ingredient has no pack yet. */
void       cro_new_offer_view_set_cure (CroNewOfferView *self,
                                     gboolean          is_cure);

void       cro_new_offer_view_focus (CroNewOfferView  *self);

G_END_DECLS
