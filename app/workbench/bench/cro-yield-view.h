/* cro-yield-view.h: the yield tests of an item: their weights, what they come to together, and
 * taking that over: on the bench of an ingredient as its trim yield, on that of a preparation
 * as the yields of what the batch gives. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_YIELD_VIEW (cro_yield_view_get_type ())
G_DECLARE_FINAL_TYPE (CroYieldView, cro_yield_view, CRO, YIELD_VIEW, GtkWidget)

GtkWidget *cro_yield_view_new     (CroBench     *bench);

/* Another item, or bench. */
void       cro_yield_view_put     (CroYieldView *self,
                                   guint32       item);

void       cro_yield_view_refresh (CroYieldView *self);

G_END_DECLS
