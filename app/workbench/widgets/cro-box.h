/* cro-box.h: a box whose children are made anew. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Takes all children out of it. */
void cro_box_clear (GtkWidget *box);

G_END_DECLS
