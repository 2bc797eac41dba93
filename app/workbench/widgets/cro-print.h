/* cro-print.h: papers to a printer.
 *
 * Errors     Those of GtkPrintOperation. */
#pragma once

#include <gtk/gtk.h>

#include "cro-paper.h"

G_BEGIN_DECLS

/* The paper of a number, from 0. Owned by the caller; NULL with error. */
typedef CroPaper *(*CroPrintMake) (gpointer user_data, guint number, GError **error);

/* The desktop asks which printer, shows what is done and lets it be cancelled. Papers are made when they are
 * due, and not kept: a thousand of them take no more memory than a few. Returns when the job is done or
 * not wanted. size: what is proposed. title: what the job is called. FALSE with
 * error. */
gboolean cro_print (GtkWindow           *window,
                    const char          *title,
                    const CroPaperSize  *size,
                    guint                n,
                    CroPrintMake         make,
                    gpointer             user_data,
                    GError             **error);

/* Runs an operation whose signals draw, as cro_print () does with papers. is_landscape: the sheet lies on its
 * side. */
gboolean cro_print_run (GtkPrintOperation   *operation,
                        GtkWindow           *window,
                        const char          *title,
                        const CroPaperSize  *size,
                        gboolean             is_landscape,
                        GError             **error);

G_END_DECLS
