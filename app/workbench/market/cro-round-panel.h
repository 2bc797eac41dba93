/* cro-round-panel.h: what a round of new prices does, beside its rows.
 *
 * Signals    "use" (offer, a slot of the round's copy): a cheaper pack is to be preferred; "more": more plates are
 *            to be shown. */
#pragma once

#include <gtk/gtk.h>

#include "cro-round-effect.h"

G_BEGIN_DECLS

#define CRO_TYPE_ROUND_PANEL (cro_round_panel_get_type ())
G_DECLARE_FINAL_TYPE (CroRoundPanel, cro_round_panel, CRO, ROUND_PANEL, GtkWidget)

GtkWidget *cro_round_panel_new  (void);

/* What is typed would do, with what is billed beside what was quoted, and below it what was posted did, with the packs
 * that are preferred by it; each may be NULL. */
void       cro_round_panel_show (CroRoundPanel        *self,
                                 CroRound             *round,
                                 const CroRoundEffect *does,
                                 const char           *billed,
                                 const CroRoundEffect *did,
                                 const char           *was_billed,
                                 const char           *preferred);

/* The cheaper pack that F4 takes, the first; CRO_NO_SLOT. */
guint32    cro_round_panel_get_cheaper (CroRoundPanel *self);

/* How many plates and menus are shown one by one. */
guint      cro_round_panel_get_most (CroRoundPanel *self);

G_END_DECLS
