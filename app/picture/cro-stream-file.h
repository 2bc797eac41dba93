/* cro-stream-file.h: a stream as a file, by the drawing of the screen.
 *
 * Units      Of an SVG or PDF points, of a PNG half pixels: it is drawn at twice the size. created: when a PDF says
 *            that it was made, in seconds since 1970, so that a file made again is the same file.
 * Errors     G_FILE_ERROR_FAILED with what cairo says. The file is not complete then. */
#pragma once

#include "cro-stream.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_STREAM_SVG,
  CRO_STREAM_PDF,
  CRO_STREAM_PNG,
} CroStreamFile;

gboolean cro_stream_write (CroStream            *self,
                           const CroStreamLook  *look,
                           CroStreamFile         format,
                           const char           *path,
                           double                width,
                           double                height,
                           gint64                created,
                           GError              **error);

G_END_DECLS
