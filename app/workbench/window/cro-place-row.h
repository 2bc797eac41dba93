/* cro-place-row.h: a row of a place's list: name, figure, and what is to be known beside it. */
#pragma once

#include "cro-place-list.h"

G_BEGIN_DECLS

/* Makes the rows of the list and keeps them up to date. Owned. */
GtkListItemFactory *cro_place_row_factory_new (CroPlaceList *list);

G_END_DECLS
