/* cro-spoken.h: what a screen reader says of a widget that shows no text of its own.
 *
 * GTK 4.8 hands a name neither to the button within a menu button or a drop-down, which has the
 * focus, nor to the row that a list makes around what its factory puts in. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* name: as it is spoken, without a mnemonic's underline. */
void cro_spoken_set      (GtkWidget  *widget,
                          const char *name);

/* The row, or the cell, that a list has made around child; nothing before child stands in one. */
void cro_spoken_set_item (GtkWidget  *child,
                          const char *name);

G_END_DECLS
