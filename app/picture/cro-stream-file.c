#include "cro-stream-file.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <math.h>

#include "cro-drawn-file.h"

#define MARGIN 12.0
#define PNG_SCALE 2

static cairo_surface_t *
surface_new (CroStreamFile  format,
             CroDrawnFile  *file,
             double         width,
             double         height)
{
  cairo_surface_t *surface;

  switch (format)
    {
    case CRO_STREAM_SVG:
      return cairo_svg_surface_create_for_stream (cro_drawn_file_write, file, width, height);
    case CRO_STREAM_PDF:
      return cairo_pdf_surface_create_for_stream (cro_drawn_file_write, file, width, height);
    default:
      surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int) ceil (width * PNG_SCALE),
                                            (int) ceil (height * PNG_SCALE));
      cairo_surface_set_device_scale (surface, PNG_SCALE, PNG_SCALE);
      return surface;
    }
}

gboolean
cro_stream_write (CroStream            *self,
                  const CroStreamLook  *look,
                  CroStreamFile         format,
                  const char           *path,
                  double                width,
                  double                height,
                  gint64                created,
                  GError              **error)
{
  g_autoptr (CroDrawnFile) file = cro_drawn_file_new (path);
  cairo_surface_t *surface = surface_new (format, file, width, height);
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  if (format == CRO_STREAM_PDF)
    cro_drawn_file_date (surface, created);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cro_stream_draw_in (self, cr, look, MARGIN, MARGIN, width - 2 * MARGIN, height - 2 * MARGIN);
  cairo_destroy (cr);
  if (format == CRO_STREAM_PNG && cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, cro_drawn_file_write, file);
  else
    {
      cairo_surface_finish (surface);
      status = cairo_surface_status (surface);
    }
  cairo_surface_destroy (surface);
  return cro_drawn_file_finish (file, status, error);
}
