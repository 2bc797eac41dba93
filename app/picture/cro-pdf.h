/* cro-pdf.h: papers as pages of a PDF, with text that can be searched and copied.
 *
 * Errors     G_FILE_ERROR. */
#pragma once

#include "cro-paper.h"

G_BEGIN_DECLS

typedef struct _CroPdf CroPdf;

/* title: of the document. created: seconds since 1970, so that a file made again is the same file. */
CroPdf  *cro_pdf_new    (const char          *path,
                         const CroPaperSize  *size,
                         const char          *title,
                         gint64               created);

/* Closes what is unfinished; the file is then of no use. */
void     cro_pdf_free   (CroPdf              *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroPdf, cro_pdf_free)

/* Sets a paper out for the pages of the document and adds them. */
void     cro_pdf_add    (CroPdf              *self,
                         CroPaper            *paper);

/* FALSE with error where something could not be written, now or before. */
gboolean cro_pdf_finish (CroPdf              *self,
                         GError             **error);

G_END_DECLS
