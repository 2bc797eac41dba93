/* cro-template.h: widgets whose children are known beforehand and stand in ui-definitions; C fills
 * in what depends on the book. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* From a class's init. name: of the file in ui-definitions, without its ending. */
void cro_template_set     (GtkWidgetClass *widget_class,
                           const char     *name);

/* From dispose: the children go, and what was bound to them is NULL. type: whose template it is. */
void cro_template_dispose (GObject        *widget,
                           GType           type);

G_END_DECLS
