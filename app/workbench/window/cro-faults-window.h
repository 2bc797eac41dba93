/* cro-faults-window.h: what is wrong in a folder of tables: file:line: column: what. */
#pragma once

#include <adwaita.h>

#include "cro-fault.h"

G_BEGIN_DECLS

/* The faults are read during the call only. */
GtkWidget *cro_faults_window_new (GtkWindow *parent,
                                  CroFaults *faults);

G_END_DECLS
