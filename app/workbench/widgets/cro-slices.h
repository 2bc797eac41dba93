/* cro-slices.h: the rows of a long list, a few more in every frame until all are there.
 *
 * A list view makes some two hundred rows before it shows the first twenty. Where all rows are
 * new, as after a search, that takes longer than a frame; what is seen comes in the first.
 *
 * Signal     "grown" after there were more rows, and at last all. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CRO_TYPE_SLICES (cro_slices_get_type ())
G_DECLARE_FINAL_TYPE (CroSlices, cro_slices, CRO, SLICES, GObject)

/* widget, whose frames they are, outlives it. */
CroSlices  *cro_slices_new       (GtkWidget  *widget);

/* What is shown: the first rows of the model, or all. Borrowed. */
GListModel *cro_slices_get_model (CroSlices  *self);

/* NULL: none. */
void        cro_slices_set_model (CroSlices  *self,
                                  GListModel *model);

/* To be called before rows are replaced. */
void        cro_slices_begin     (CroSlices  *self);

/* The same where rows move behind one, which stays with all before it. */
void        cro_slices_begin_behind (CroSlices *self,
                                  guint       position);

/* Whether a row at that position of the model is shown by now. */
gboolean    cro_slices_show      (CroSlices  *self,
                                  guint       position);

G_END_DECLS
