/* cro-history-window.h: who changed what, when, from what to what; and going back. */
#pragma once

#include <adwaita.h>

#include "cro-book.h"
#include "cro-ref.h"

G_BEGIN_DECLS

#define CRO_TYPE_HISTORY_WINDOW (cro_history_window_get_type ())
G_DECLARE_FINAL_TYPE (CroHistoryWindow, cro_history_window, CRO, HISTORY_WINDOW, AdwWindow)

/* thing: what stands on the bench, to which the list can be narrowed; may be of kind NONE. */
GtkWidget *cro_history_window_new (GtkWindow *parent,
                                   CroBook   *book,
                                   CroRef     thing);

G_END_DECLS
