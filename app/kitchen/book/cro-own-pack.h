/* cro-own-pack.h: prices told of the pack that a supplier sells.
 *
 * A price whose pack is one of a unit, 1 kg or 1 l or 1 piece, is a price per unit: what an invoice that
 * counts kilograms leaves, or a line of a recipe priced per kg. Costs are taken from it as it stands
 * (cro-offer.h); nobody orders by it. People speak of the offer's own pack, so where packs are compared,
 * prices typed and ceilings told, the price is that of the offer's own pack. Any other pack of a price is
 * what is sold since then, and is told as it is.
 *
 * Units      Prices in millionths per pack, in the offer's currency.
 * Errors     A pack that cannot be converted, for want of a density or of a piece's weight, stays. */
#pragma once

#include "cro-entry.h"
#include "cro-model.h"

G_BEGIN_DECLS

/* What an offer, or a price of it, is for. */
CroPack  cro_pack_of          (const CroOffer   *offer);

/* An offer as of some price of its own, in the pack that is spoken of. */
CroOffer cro_own_pack_of      (CroModel         *model,
                               guint32           offer,
                               const CroOffer   *then);

/* That of the price in force. */
CroOffer cro_own_pack_in_force (CroModel        *model,
                               guint32           offer);

/* What last costs in the pack, with the tax and at the rate of then, whose own price is above 0; exactly,
 * but for the last millionth, where both packs are of one base. FALSE: it cannot be converted. */
gboolean cro_own_pack_convert (const CroOffer   *last,
                               const CroOffer   *then,
                               const CroMeasure *measure,
                               gint64           *price);

G_END_DECLS
