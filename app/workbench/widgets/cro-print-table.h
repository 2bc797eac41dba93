/* cro-print-table.h: a table of texts to a printer that the desktop asks for. */
#pragma once

#include <gtk/gtk.h>

#include "cro-table-paper.h"

G_BEGIN_DECLS

/* Takes paper. Errors as cro_print_run (). */
gboolean cro_print_table (GtkWindow      *window,
                          CroTablePaper  *paper,
                          GError        **error);

G_END_DECLS
