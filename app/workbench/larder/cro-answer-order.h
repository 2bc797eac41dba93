/* cro-answer-order.h: ingredients in the order in which they are asked for their allergens: of which nobody has
 * said first, and of these what is used most.
 *
 * Ownership  The order is the caller's. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

/* Lines of recipes that take it. */
guint    cro_answer_order_uses     (CroFigures *figures,
                                    guint32     item);

/* Elements guint32: slots of items. */
GArray  *cro_answer_order_new      (CroFigures *figures);

/* Whether it has all ingredients and nothing else: an answer moves no row. */
gboolean cro_answer_order_is_whole (GArray     *order,
                                    CroModel   *model);

G_END_DECLS
