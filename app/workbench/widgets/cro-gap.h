/* cro-gap.h: room before a widget, which gives way where the others of its row have none.
 *
 * A margin is part of the least width of a row; this is not. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_GAP (cro_gap_get_type ())
G_DECLARE_FINAL_TYPE (CroGap, cro_gap, CRO, GAP, GtkWidget)

GtkWidget *cro_gap_new (void);

/* In pixels, where there is room. */
void       cro_gap_set (CroGap *self,
                        int     width);

G_END_DECLS
