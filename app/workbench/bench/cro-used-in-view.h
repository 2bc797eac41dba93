/* cro-used-in-view.h: where a thing is used, each a button that opens it and says what it takes. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_USED_IN_VIEW (cro_used_in_view_get_type ())
G_DECLARE_FINAL_TYPE (CroUsedInView, cro_used_in_view, CRO, USED_IN_VIEW, GtkWidget)

GtkWidget *cro_used_in_view_new (CroBench      *bench);

/* Shows who takes any of n items. */
void       cro_used_in_view_set (CroUsedInView *self,
                                 const guint32 *items,
                                 guint          n);

G_END_DECLS
