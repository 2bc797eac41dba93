/* cro-causes-view.h: what is missing, each a button that leads to its cure. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_CAUSES_VIEW (cro_causes_view_get_type ())
G_DECLARE_FINAL_TYPE (CroCausesView, cro_causes_view, CRO, CAUSES_VIEW, GtkWidget)

GtkWidget *cro_causes_view_new (CroBench      *bench);

/* causes: elements CroCause; known: what is said where there are none, NULL: that nothing is
 * missing. */
void       cro_causes_view_set (CroCausesView *self,
                                GArray        *causes,
                                const char    *known);

G_END_DECLS
