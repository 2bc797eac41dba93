/* cro-faults-window.h: what is wrong in a folder of tables: file:line: column: what. */
#pragma once

#include <adwaita.h>

#include "cro-fault.h"

G_BEGIN_DECLS

#define CRO_TYPE_FAULTS_WINDOW (cro_faults_window_get_type ())
G_DECLARE_FINAL_TYPE (CroFaultsWindow, cro_faults_window, CRO, FAULTS_WINDOW, AdwWindow)

/* The faults are read during the call only. */
GtkWidget *cro_faults_window_new (GtkWindow *parent,
                                  CroFaults *faults);

G_END_DECLS
