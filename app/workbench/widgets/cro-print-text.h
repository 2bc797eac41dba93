/* cro-print-text.h: plain texts on paper, each from a page of its own on.
 *
 * Errors     Those of GtkPrintOperation and G_FILE_ERROR. */
#pragma once

#include <gtk/gtk.h>

#include "cro-paper.h"

G_BEGIN_DECLS

/* texts: NULL-terminated. path: a PDF is written there, made at created, in seconds since 1970; NULL: the desktop
 * asks which printer. title: what the job is called. Returns when the job is done or the file is written. */
gboolean cro_print_text (GtkWindow           *window,
                         const char          *title,
                         const CroPaperSize  *size,
                         const char *const   *texts,
                         const char          *path,
                         gint64               created,
                         GError             **error);

G_END_DECLS
