/* cro-swing-bar.h: what a cost changes by when something is less, and when it is more: from the
 * middle to the one side what is saved, to the other what is added.
 *
 * What more of it does is filled, what less of it does has a frame: a price that rises costs more,
 * a yield that does costs less. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_SWING_BAR (cro_swing_bar_get_type ())
G_DECLARE_FINAL_TYPE (CroSwingBar, cro_swing_bar, CRO, SWING_BAR, GtkWidget)

GtkWidget *cro_swing_bar_new (void);

/* As parts of the largest, -1 to 1. The number stands beside it: it says nothing itself. */
void       cro_swing_bar_set (CroSwingBar *self,
                              double       less,
                              double       more);

G_END_DECLS
