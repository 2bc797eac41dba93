/* cro-headings.h: the headings of a table. Pressing one sorts by its column: smallest first, then
 * largest first, then as it was; what the table is sorted by is shown by an arrow and said.
 *
 * Signals    "sorted" (guint column, gboolean falling) when that changes; G_MAXUINT: by none. */
#pragma once

#include "cro-columns.h"

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_HEADINGS (cro_headings_get_type ())
G_DECLARE_FINAL_TYPE (CroHeadings, cro_headings, CRO, HEADINGS, GtkWidget)

GtkWidget *cro_headings_new     (CroColumns   *columns);

/* Of the next column. */
void       cro_headings_append  (CroHeadings  *self,
                                 const char   *title);

/* Sorts as if pressed until it stands so. */
void       cro_headings_sort    (CroHeadings  *self,
                                 guint         column,
                                 gboolean      falling);

/* Tells the columns how wide they are. */
void       cro_headings_measure (CroHeadings  *self);

G_END_DECLS
