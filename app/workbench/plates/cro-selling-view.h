/* cro-selling-view.h: what a plate or a menu was, is and will be sold for: a list of dated prices,
 * and the fields that begin one.
 *
 * A price or a tax that is entered holds from the day in the field beside it, the book's date where
 * that is empty: what was sold before keeps its price. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_SELLING_VIEW (cro_selling_view_get_type ())
G_DECLARE_FINAL_TYPE (CroSellingView, cro_selling_view, CRO, SELLING_VIEW, GtkWidget)

/* The list. from is an entry, price and tax are inputs, which the bench places; all borrowed. */
GtkWidget *cro_selling_view_new      (CroBench       *bench,
                                      GtkWidget      *from,
                                      GtkWidget      *price,
                                      GtkWidget      *tax);

/* Another thing stands on the bench. unpriced: what stands in the price where none is set; may be
 * NULL. */
void       cro_selling_view_put      (CroSellingView *self,
                                      const char     *unpriced);
void       cro_selling_view_refresh  (CroSellingView *self);

/* Whether it ever had a price of its own. */
gboolean   cro_selling_view_is_set   (CroSellingView *self);

G_END_DECLS
