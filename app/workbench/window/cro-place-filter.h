/* cro-place-filter.h: the drop-down over a place's list that leaves some of its rows. */
#pragma once

#include "cro-bench.h"
#include "cro-list.h"

G_BEGIN_DECLS

/* Signal "notify::selected", as of every drop-down. */
GtkWidget     *cro_place_filter_new       (void);

/* What a place offers. book may be NULL. */
void           cro_place_filter_set_place (GtkWidget *filter,
                                           CroPlace   place,
                                           CroBook   *book);

/* What is chosen of it. */
CroListFilter  cro_place_filter_get       (GtkWidget *filter,
                                           CroPlace   place);

G_END_DECLS
