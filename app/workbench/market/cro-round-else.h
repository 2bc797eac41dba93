/* cro-round-else.h: a button with a popover in which a row that no ingredient was found for is said to be one, or of an
 * invoice to be none; what a box holds that an invoice counts; that a line of it is given back; and what a line gives
 * back, goods or their price.
 *
 * Signals    "called" (slot of the round's copy), "holds" (text), "sorted" (CroListGoods), "turned" (whether it is
 *            given back), "given-back" (CroListBack). */
#pragma once

#include <gtk/gtk.h>

#include "cro-round.h"

G_BEGIN_DECLS

#define CRO_TYPE_ROUND_ELSE (cro_round_else_get_type ())
G_DECLARE_FINAL_TYPE (CroRoundElse, cro_round_else, CRO, ROUND_ELSE, GtkWidget)

GtkWidget *cro_round_else_new  (void);

/* What of it can be said of a row, of whom. */
void       cro_round_else_show (CroRoundElse *self,
                                CroRound     *round,
                                guint         index);

/* Why what was typed holds nothing; or that it does. */
void       cro_round_else_refuse (CroRoundElse *self,
                                  const char   *reason);
void       cro_round_else_accept (CroRoundElse *self);

/* The row of which the popover asks is there no more. */
void       cro_round_else_close (CroRoundElse *self);

G_END_DECLS
