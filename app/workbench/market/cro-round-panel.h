/* cro-round-panel.h: what a round of new prices does, beside its rows.
 *
 * Signals    "use" (offer, a slot of the round's copy): a cheaper pack is to be preferred. */
#pragma once

#include <gtk/gtk.h>

#include "cro-round-effect.h"

G_BEGIN_DECLS

#define CRO_TYPE_ROUND_PANEL (cro_round_panel_get_type ())
G_DECLARE_FINAL_TYPE (CroRoundPanel, cro_round_panel, CRO, ROUND_PANEL, GtkWidget)

GtkWidget *cro_round_panel_new  (void);

/* What is said now. is_posted: it is of what was posted, and not of what would be. */
void       cro_round_panel_show (CroRoundPanel        *self,
                                 CroRound             *round,
                                 const CroRoundEffect *effect,
                                 gboolean              is_posted);

/* A sentence in its place, with what was billed beside what was quoted (NULL: nothing). */
void       cro_round_panel_say  (CroRoundPanel        *self,
                                 const char           *text,
                                 const char           *billed);

/* One more below what is said. */
void       cro_round_panel_add  (CroRoundPanel        *self,
                                 const char           *text);

/* The cheaper pack that F4 takes, the first; CRO_NO_SLOT. */
guint32    cro_round_panel_get_cheaper (CroRoundPanel *self);

/* Plates that are shown one by one. */
#define CRO_ROUND_PANEL_MOST 8

G_END_DECLS
