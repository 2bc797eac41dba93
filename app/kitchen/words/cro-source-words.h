/* cro-source-words.h: where a figure's factors come from, as people read it.
 *
 * Ownership  Texts are the caller's to free. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

/* Of what is bought: "Estuary Fish, 6 × 1 kg for 66.00, since 2 Nov 2026 (18 days)", and what is to
 * be said of it: a preferred pack that is no longer available, a price that is stale. */
char *cro_words_price_source (CroFigures *figures,
                              guint32     item);

/* What keeps the price of a pack, or all packs of an ingredient, from being one, of the bits of CroOfferLack; NULL:
 * nothing. Borrowed. */
const char *cro_words_offer_lacks (unsigned lacks);

/* What a line is reckoned with: "entered as 2 tbsp · density 0.92 g/ml · as bought · yield 62 % ·
 * 90 % comes back", or what it cannot be converted by; NULL: nothing but its amount. is_scaled: the
 * amount beside it is not that of one batch. */
char *cro_words_line_factors (CroFigures *figures,
                              guint32     line,
                              gboolean    is_scaled);

G_END_DECLS
