/* cro-beside.h: what a page is about, and what belongs to it: beside it where the window is wide
 * enough to read both, below it elsewhere.
 *
 * The width that is needed grows with the size of the text. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_BESIDE (cro_beside_get_type ())
G_DECLARE_FINAL_TYPE (CroBeside, cro_beside, CRO, BESIDE, GtkWidget)

GtkWidget *cro_beside_new (GtkWidget *page,
                           GtkWidget *aside);

G_END_DECLS
