/* cro-card-window.h: the card of what stands on a bench, to be looked at, printed and saved. */
#pragma once

#include <adwaita.h>

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_CARD_WINDOW (cro_card_window_get_type ())
G_DECLARE_FINAL_TYPE (CroCardWindow, cro_card_window, CRO, CARD_WINDOW, AdwWindow)

/* Whether there are cards of a thing: of plates, menus and preparations. */
gboolean   cro_card_window_can_show (CroRef    thing);

/* Of such a thing. Shows what stands on the bench as long as it is open. */
GtkWidget *cro_card_window_new      (CroBench *bench);

G_END_DECLS
