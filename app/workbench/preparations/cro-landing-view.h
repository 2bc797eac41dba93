/* cro-landing-view.h: how a batch's cost lands on its outputs, and how it would under the other
 * rules: a table whose columns add up. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_LANDING_VIEW (cro_landing_view_get_type ())
G_DECLARE_FINAL_TYPE (CroLandingView, cro_landing_view, CRO, LANDING_VIEW, GtkWidget)

GtkWidget  *cro_landing_view_new     (CroBench        *bench);

/* Of the preparation on the bench. */
void        cro_landing_view_refresh (CroLandingView  *self);

G_END_DECLS
