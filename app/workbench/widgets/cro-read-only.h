/* cro-read-only.h: what would change the book does nothing on the book as it stood, and says why before it is
 * tried. */
#pragma once

#include <gtk/gtk.h>

#include "cro-book.h"

G_BEGIN_DECLS

/* All entries and buttons at or below a widget, anew with every book that is shown: an entry can still be read and
 * copied from, and a button cannot be pressed. */
void cro_read_only_show (GtkWidget *widget,
                         CroBook   *book);

G_END_DECLS
