/* cro-yield-view.h: the yield tests of an ingredient: their weights, what they come to together,
 * and taking that over as its trim yield. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_YIELD_VIEW (cro_yield_view_get_type ())
G_DECLARE_FINAL_TYPE (CroYieldView, cro_yield_view, CRO, YIELD_VIEW, GtkWidget)

/* Of the ingredient on the bench. */
GtkWidget *cro_yield_view_new     (CroBench     *bench);

/* Another ingredient. */
void       cro_yield_view_put     (CroYieldView *self);

void       cro_yield_view_refresh (CroYieldView *self);

G_END_DECLS
