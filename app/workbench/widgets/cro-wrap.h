/* cro-wrap.h: children in a row that breaks where the width ends, as words do.
 *
 * Children have their natural width, or the whole row where that is less; what is left of a row
 * goes to those that expand. Unlike a flow box it puts no focus stop around a child.
 *
 * Properties    "column-spacing", "row-spacing": pixels; a template gives it children, too. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_WRAP (cro_wrap_get_type ())
G_DECLARE_FINAL_TYPE (CroWrap, cro_wrap, CRO, WRAP, GtkWidget)

GtkWidget *cro_wrap_new    (int        column_spacing,
                            int        row_spacing);

void       cro_wrap_append (CroWrap   *self,
                            GtkWidget *child);

/* Puts a child, which may be one already, behind another; NULL: before all. */
void       cro_wrap_insert_after (CroWrap   *self,
                                  GtkWidget *child,
                                  GtkWidget *after);

/* Removes all children. */
void       cro_wrap_clear  (CroWrap   *self);

G_END_DECLS
