/* cro-kitchen-card.h: the card on the kitchen's wall: what to weigh, for as many bites as are made.
 *
 * Amounts are those of the recipe, scaled and as scales weigh them (cro-scale.h): no seasoning and
 * handling is added, no batch is rounded up, and there is no money unless it is asked for. What is to
 * be ordered first are the ingredients that make up four fifths of the cost, the dearest first, and
 * all that nobody delivers. */
#pragma once

#include "cro-book.h"
#include "cro-paper.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* bites: millionths, of a plate's bites, a menu's guests, a preparation's batches; 0: as many as the
 * plate makes, one guest, one batch. NULL where an amount is too large, without an error, or with one
 * where the book cannot be read. */
CroPaper *cro_kitchen_card_new (CroBook  *book,
                                CroRef    thing,
                                gint64    bites,
                                gboolean  with_money,
                                gboolean  rtl,
                                GError  **error);

G_END_DECLS
