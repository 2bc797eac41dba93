/* cro-print.h: what is drawn in points goes to a printer, or into a PDF.
 *
 * Errors     Those of GtkPrintOperation and GFileError. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Runs an operation whose signals draw. margin: points, on all sides. path: a PDF is written there; NULL: the
 * desktop asks which printer. title: what the job is called. Returns when the choice is made or the file is
 * written. */
gboolean cro_print_run (GtkPrintOperation  *operation,
                        GtkWindow          *window,
                        const char         *title,
                        double              margin,
                        gboolean            is_landscape,
                        const char         *path,
                        GError            **error);

G_END_DECLS
