/* cro-spoken.h: what a screen reader says of a widget whose own text, if any, says too little.
 *
 * GTK 4.8 hands a name neither to the button within a menu button or a drop-down, which has the
 * focus, nor to the row that a list makes around what its factory puts in. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* name: as it is spoken, without a mnemonic's underline. */
void cro_spoken_set      (GtkWidget   *widget,
                          const char  *name);

/* A row or cell of a list, once it is bound. */
void cro_spoken_set_item (GtkListItem *item,
                          const char  *name);

G_END_DECLS
