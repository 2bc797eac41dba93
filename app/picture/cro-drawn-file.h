/* cro-drawn-file.h: where a drawing goes that is written as a file, and why it could not be: Cairo says
 * only that it could not.
 *
 * Errors     G_FILE_ERROR. */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

typedef struct _CroDrawnFile CroDrawnFile;

/* In place of what stands at path. A file that cannot be opened is told by finishing. */
CroDrawnFile   *cro_drawn_file_new    (const char           *path);

/* One that is not finished is of no use. */
void            cro_drawn_file_free   (CroDrawnFile         *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroDrawnFile, cro_drawn_file_free)

/* A cairo_write_func_t; self is a CroDrawnFile, which outlives the surface's finish. */
cairo_status_t  cro_drawn_file_write  (void                 *self,
                                       const unsigned char  *bytes,
                                       unsigned              length);

/* The time that a PDF says it was made, in seconds since 1970: Cairo's is the clock's, and a file made again is to be
 * the same file. */
void            cro_drawn_file_date   (cairo_surface_t      *pdf,
                                       gint64                created);

/* Once, when the surface is finished: status is how the drawing went. The file is closed. */
gboolean        cro_drawn_file_finish (CroDrawnFile         *self,
                                       cairo_status_t        status,
                                       GError              **error);

G_END_DECLS
