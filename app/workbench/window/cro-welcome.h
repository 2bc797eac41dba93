/* cro-welcome.h: what an empty window asks: what does one bite cost?
 *
 * One line typed makes a book, a plate, an ingredient with its price, and a figure. Of several that are
 * pasted those that are understood are placed, and the others wait at the plate's next line. Beside it:
 * the demo, a folder of tables, a book to open, and the books of late. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_WELCOME (cro_welcome_get_type ())
G_DECLARE_FINAL_TYPE (CroWelcome, cro_welcome, CRO, WELCOME, GtkWidget)

/* Signal "made" (path): a book was made there and is to be opened. Other ways in are actions of
 * the window: win.open-demo, win.open-book, win.load-tables, win.open-path (s). */

void cro_welcome_focus (CroWelcome *self);

/* A file in the user's documents that is not there yet: "Name.croustade", "Name 2.croustade".
 * Owned. */
char *cro_welcome_dup_free_path (const char *name);

G_END_DECLS
