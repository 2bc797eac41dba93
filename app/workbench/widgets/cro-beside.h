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

/* The page is so many characters wide where both stand beside each other, and the rest is for what belongs to it: of
 * what either holds nothing changes where it stands. */
void       cro_beside_set_page_chars (CroBeside *self,
                                      int        chars);

G_END_DECLS
