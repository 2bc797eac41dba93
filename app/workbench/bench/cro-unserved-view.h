/* cro-unserved-view.h: outputs that nothing takes: cost that no plate pays. Each is a button that
 * leads to where it is made. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_UNSERVED_VIEW (cro_unserved_view_get_type ())
G_DECLARE_FINAL_TYPE (CroUnservedView, cro_unserved_view, CRO, UNSERVED_VIEW, GtkWidget)

GtkWidget *cro_unserved_view_new (CroBench        *bench);

/* unserved: elements CroUnserved. */
void       cro_unserved_view_set (CroUnservedView *self,
                                  GArray          *unserved);

G_END_DECLS
