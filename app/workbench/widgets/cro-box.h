/* cro-box.h: a box whose children are made anew, and any widget that lets go of its own. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Takes all children out of it. */
void cro_box_clear  (GtkWidget *box);

/* The same of a widget that lays out its children itself, as it has to when it is disposed of. */
void cro_box_let_go (GtkWidget *widget);

G_END_DECLS
