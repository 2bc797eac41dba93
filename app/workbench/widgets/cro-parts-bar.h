/* cro-parts-bar.h: parts of a whole side by side in one bar, that add up. A part below 0 stands
 * before the beginning, and the others then go as far beyond the end.
 *
 * Units      Per cent of the whole. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_PARTS_BAR (cro_parts_bar_get_type ())
G_DECLARE_FINAL_TYPE (CroPartsBar, cro_parts_bar, CRO, PARTS_BAR, GtkWidget)

GtkWidget *cro_parts_bar_new (void);

/* parts are copied; n 0 hides it. says: the same in words, for who does not see it. */
void       cro_parts_bar_set (CroPartsBar  *self,
                              const double *parts,
                              guint         n,
                              const char   *says);

G_END_DECLS
