/* cro-price-view.h: what a plate or a menu leaves at each price that the house would ask, and the way
 * to ask one from a day on: a picture of a pane. */
#pragma once

#include "cro-pane.h"

G_BEGIN_DECLS

#define CRO_TYPE_PRICE_VIEW (cro_price_view_get_type ())
G_DECLARE_FINAL_TYPE (CroPriceView, cro_price_view, CRO, PRICE_VIEW, GtkWidget)

extern const CroPicture cro_price_picture;

G_END_DECLS
