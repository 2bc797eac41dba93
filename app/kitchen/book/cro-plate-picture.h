/* cro-plate-picture.h: the picture of a plate or a preparation, as the book keeps it. */
#pragma once

#include <cairo.h>

#include "cro-book.h"

G_BEGIN_DECLS

/* The name under which the picture of a row is kept, owned; NULL: it has none. table: "plate" or
 * "preparation". */
char            *cro_plate_picture_dup_name (CroBook     *book,
                                             const char  *table,
                                             gint64       id);

/* To be drawn (cro-photo.h). CRO_STORE_ERROR, CRO_PHOTO_ERROR. */
cairo_surface_t *cro_plate_picture_open     (CroBook     *book,
                                             const char  *name,
                                             GError     **error);

G_END_DECLS
