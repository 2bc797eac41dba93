/* cro-outputs-view.h: what a batch gives: its main output and by-products, each weighed or as a
 * yield, with what a unit of it costs; and new by-products. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_OUTPUTS_VIEW (cro_outputs_view_get_type ())
G_DECLARE_FINAL_TYPE (CroOutputsView, cro_outputs_view, CRO, OUTPUTS_VIEW, GtkWidget)

/* Of the preparation on the bench. */
GtkWidget *cro_outputs_view_new     (CroBench       *bench);

/* Another preparation. */
void       cro_outputs_view_put     (CroOutputsView *self);

void       cro_outputs_view_refresh (CroOutputsView *self);

G_END_DECLS
