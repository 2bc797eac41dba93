/* cro-menu-plates-view.h: the plates of a menu in their order: servings, cost, and the part of the
 * menu's cost and price that each takes. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MENU_PLATES_VIEW (cro_menu_plates_view_get_type ())
G_DECLARE_FINAL_TYPE (CroMenuPlatesView, cro_menu_plates_view, CRO, MENU_PLATES_VIEW, GtkWidget)

/* Of the menu on the bench. */
GtkWidget *cro_menu_plates_view_new     (CroBench           *bench);

void       cro_menu_plates_view_put     (CroMenuPlatesView  *self);
void       cro_menu_plates_view_refresh (CroMenuPlatesView  *self);

G_END_DECLS
