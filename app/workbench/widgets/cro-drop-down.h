/* cro-drop-down.h: a choice from a list that opens with the focus on what is chosen: Enter keeps it, and
 * arrows go on from it. A list that is searched opens in its search.
 *
 * Ownership  Widgets are floating; model is taken, as by gtk_drop_down_new (). */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* words NULL-terminated, borrowed; name: its accessible name. */
GtkWidget *cro_drop_down_new       (const char *const *words,
                                    const char        *name);

/* Both may be NULL: given later. */
GtkWidget *cro_drop_down_new_model (GListModel        *model,
                                    const char        *name);

G_END_DECLS
