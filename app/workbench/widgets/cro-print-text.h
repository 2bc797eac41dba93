/* cro-print-text.h: plain texts on paper, each from a page of its own on.
 *
 * Errors     Those of GtkPrintOperation and GFileError. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* texts: NULL-terminated, copied. path: a PDF is written there; NULL: the desktop asks which printer.
 * title: what the job is called. Returns when the choice is made or the file is written. */
gboolean cro_print_text (GtkWindow          *window,
                         const char         *title,
                         const char *const  *texts,
                         const char         *path,
                         GError            **error);

G_END_DECLS
