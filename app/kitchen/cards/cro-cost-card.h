/* cro-cost-card.h: the office's card of a plate, a menu or a preparation: what it costs, what that is
 * made of, and what keeps the figure from being whole.
 *
 * Its figures are those of cost (cro-breakdown.h), apportioned as on every card (cro-card.h). */
#pragma once

#include "cro-book.h"
#include "cro-paper.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* rtl: it is written in a language that runs from right to left. */
CroPaper *cro_cost_card_new (CroBook  *book,
                             CroRef    thing,
                             gboolean  rtl);

G_END_DECLS
