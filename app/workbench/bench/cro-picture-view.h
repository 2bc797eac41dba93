/* cro-picture-view.h: the picture of the plate or preparation on a bench: chosen, pasted, dropped on the
 * window, taken away. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_PICTURE_VIEW (cro_picture_view_get_type ())
G_DECLARE_FINAL_TYPE (CroPictureView, cro_picture_view, CRO, PICTURE_VIEW, GtkWidget)

GtkWidget *cro_picture_view_new     (CroBench       *bench);

/* Reads the book only where it is another one, or another thing is on the bench. */
void       cro_picture_view_refresh (CroPictureView *self);

gboolean   cro_picture_view_is_set  (CroPictureView *self);

/* A file by its path, read and made smaller in a thread; what is wrong with it the bench says. */
void       cro_picture_view_take    (CroPictureView *self,
                                     const char     *path);

/* Whether a file's name is that of a picture. */
gboolean   cro_picture_view_is_for  (const char     *path);

G_END_DECLS
