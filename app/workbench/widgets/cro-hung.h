/* cro-hung.h: a widget with another that hangs over what stands around it, such as the names that a field offers: it
 * comes and goes, and moves nothing.
 *
 * It stands above, where it is drawn over what comes before it, or below where it has no room above in what is seen of
 * the page. Tab leads from the widget to it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_HUNG (cro_hung_get_type ())
G_DECLARE_FINAL_TYPE (CroHung, cro_hung, CRO, HUNG, GtkWidget)

/* Both are its children; what hangs is shown and hidden by who made it. */
GtkWidget *cro_hung_new (GtkWidget *child,
                         GtkWidget *hanging);

G_END_DECLS
