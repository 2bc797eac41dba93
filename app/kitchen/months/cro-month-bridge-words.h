/* cro-month-bridge-words.h: why food cost changed from one closed month to another, in sentences and as
 * tables of texts. */
#pragma once

#include "cro-month-bridge.h"
#include "cro-month-table.h"

G_BEGIN_DECLS

/* "price", the name of a row. Borrowed. */
const char    *cro_bridge_effect_name  (CroBridgeEffect       effect);

/* What changed and what moved it most; then of each effect its greatest part. char *, freed with the
 * array. */
GPtrArray     *cro_month_bridge_words  (const CroMonthBridge *self);

/* From the cost of the one month through the effects to that of the other. */
CroMonthTable *cro_month_bridge_steps  (const CroMonthBridge *self);

/* What moved most, of self->items or self->things, the others as one row from most on (0: none; what the
 * sentences name is no other), and what they come to; sorted by one effect, or by all of them where it is
 * CRO_N_BRIDGE_EFFECTS. A row's line is its index in rows, -1 of a sum. Columns: the name, each effect, and all
 * of them together. */
CroMonthTable *cro_month_bridge_table  (const CroMonthBridge *self,
                                        GArray               *rows,
                                        CroBridgeEffect       by,
                                        guint                 most);

G_END_DECLS
