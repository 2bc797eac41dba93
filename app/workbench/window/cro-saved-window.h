/* cro-saved-window.h: what was saved of a damaged book, where it is, and what was left out. */
#pragma once

#include <adwaita.h>

#include "cro-salvage.h"

G_BEGIN_DECLS

#define CRO_TYPE_SAVED_WINDOW (cro_saved_window_get_type ())
G_DECLARE_FINAL_TYPE (CroSavedWindow, cro_saved_window, CRO, SAVED_WINDOW, AdwWindow)

/* parent has the action win.make-from, which makes a book of a folder of tables. */
GtkWidget *cro_saved_window_new (GtkWindow        *parent,
                                 const char       *folder,
                                 const CroSalvage *salvage);

G_END_DECLS
