/* cro-allergens-view.h: what an ingredient holds of the fourteen groups: nobody has said, none, or
 * these. Nothing is taken for absent because nobody ticked it. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_ALLERGENS_VIEW (cro_allergens_view_get_type ())
G_DECLARE_FINAL_TYPE (CroAllergensView, cro_allergens_view, CRO, ALLERGENS_VIEW, GtkWidget)

/* Of the ingredient on the bench. */
GtkWidget *cro_allergens_view_new     (CroBench          *bench);

void       cro_allergens_view_refresh (CroAllergensView  *self);

G_END_DECLS
