#include "cro-drawn-file.h"

#include <cairo-pdf.h>
#include <errno.h>
#include <glib/gstdio.h>
#include <stdio.h>

struct _CroDrawnFile
{
  FILE *file;
  int   code;     /* errno of what failed first; 0: nothing did */
};

CroDrawnFile *
cro_drawn_file_new (const char *path)
{
  CroDrawnFile *self = g_new0 (CroDrawnFile, 1);

  self->file = g_fopen (path, "wbe");
  self->code = self->file == NULL ? errno : 0;
  return self;
}

void
cro_drawn_file_free (CroDrawnFile *self)
{
  if (self->file != NULL)
    fclose (self->file);
  g_free (self);
}

void
cro_drawn_file_date (cairo_surface_t *pdf,
                     gint64           created)
{
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_utc (created);
  g_autofree char *text = time != NULL ? g_date_time_format_iso8601 (time) : NULL;

  if (text != NULL)
    cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_CREATE_DATE, text);
}

cairo_status_t
cro_drawn_file_write (void                *self,
                      const unsigned char *bytes,
                      unsigned             length)
{
  CroDrawnFile *to = self;

  if (to->code == 0 && fwrite (bytes, 1, length, to->file) != length)
    to->code = errno;
  return to->code == 0 ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_WRITE_ERROR;
}

gboolean
cro_drawn_file_finish (CroDrawnFile    *self,
                       cairo_status_t   status,
                       GError         **error)
{
  FILE *file = g_steal_pointer (&self->file);

  /* Closing writes what is left, and tells what the disk says only then. */
  if (file != NULL && fclose (file) != 0 && self->code == 0)
    self->code = errno;
  if (self->code != 0)
    g_set_error_literal (error, G_FILE_ERROR, (int) g_file_error_from_errno (self->code),
                         g_strerror (self->code));
  else if (status != CAIRO_STATUS_SUCCESS)
    g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_FAILED, cairo_status_to_string (status));
  return self->code == 0 && status == CAIRO_STATUS_SUCCESS;
}
