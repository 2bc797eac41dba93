/* cro-selling-doubt.h: a selling price against the one before it, asked about by the rule for prices: a slip
 * moves every sale of its plate or menu.
 *
 * Units  Prices are gross, in the book's currency. */
#pragma once

#include "cro-doubt.h"
#include "cro-selling-steps.h"

G_BEGIN_DECLS

/* Of the price that a plate or a menu has on a day; steps: its own (cro_selling_steps_new), or NULL. */
gboolean cro_doubt_of_selling (CroBook      *book,
                               CroRef        thing,
                               GArray       *steps,
                               CroDate       date,
                               CroDoubt     *doubt);

/* That the price which is asked about is right: this book asks no more, as long as it is open. No table holds that, so
 * it is no act. */
void     cro_selling_say_right (CroBook     *book,
                               const CroDoubt *doubt);

G_END_DECLS
