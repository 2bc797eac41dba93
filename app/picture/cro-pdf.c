#include "cro-pdf.h"

#include <cairo-pdf.h>

#include "cro-drawn-file.h"

struct _CroPdf
{
  CroDrawnFile    *file;
  cairo_surface_t *surface;
  cairo_t         *cairo;
  CroPaperSize     size;
};

CroPdf *
cro_pdf_new (const char         *path,
             const CroPaperSize *size,
             const char         *title,
             gint64              created)
{
  CroPdf *self = g_new0 (CroPdf, 1);

  self->size = *size;
  self->file = cro_drawn_file_new (path);
  self->surface = cairo_pdf_surface_create_for_stream (cro_drawn_file_write, self->file, size->width, size->height);
  cairo_pdf_surface_set_metadata (self->surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (self->surface, CAIRO_PDF_METADATA_CREATOR, "Croustade");
  cro_drawn_file_date (self->surface, created);
  self->cairo = cairo_create (self->surface);
  return self;
}

void
cro_pdf_free (CroPdf *self)
{
  cairo_destroy (self->cairo);
  cairo_surface_finish (self->surface);
  cairo_surface_destroy (self->surface);
  cro_drawn_file_free (self->file);
  g_free (self);
}

void
cro_pdf_add (CroPdf   *self,
             CroPaper *paper)
{
  double around = 2 * self->size.margin;
  guint n = cro_paper_set_out (paper, self->size.width - around, self->size.height - around);

  for (guint page = 0; page < n; page++)
    {
      cairo_save (self->cairo);
      cairo_translate (self->cairo, self->size.margin, self->size.margin);
      cro_paper_draw (paper, page, self->cairo);
      cairo_restore (self->cairo);
      cairo_show_page (self->cairo);
    }
}

gboolean
cro_pdf_finish (CroPdf  *self,
                GError **error)
{
  cairo_status_t drawn = cairo_status (self->cairo), written;

  cairo_surface_finish (self->surface);
  written = cairo_surface_status (self->surface);
  return cro_drawn_file_finish (self->file, drawn != CAIRO_STATUS_SUCCESS ? drawn : written, error);
}
