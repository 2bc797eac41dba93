/* cro-traces-view.h: groups of allergens of which an ingredient's label warns: "may contain". */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_TRACES_VIEW (cro_traces_view_get_type ())
G_DECLARE_FINAL_TYPE (CroTracesView, cro_traces_view, CRO, TRACES_VIEW, GtkWidget)

/* Of the ingredient on the bench. */
GtkWidget *cro_traces_view_new     (CroBench      *bench);

void       cro_traces_view_refresh (CroTracesView *self);

G_END_DECLS
