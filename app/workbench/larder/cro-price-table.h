/* cro-price-table.h: what an ingredient has cost: date, pack, price, per base unit, change; and a
 * new price from a date. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_PRICE_TABLE (cro_price_table_get_type ())
G_DECLARE_FINAL_TYPE (CroPriceTable, cro_price_table, CRO, PRICE_TABLE, GtkWidget)

/* Of the ingredient on the bench. */
GtkWidget *cro_price_table_new     (CroBench       *bench);

/* Another ingredient: its newest prices. */
void       cro_price_table_put     (CroPriceTable  *self);

/* history: as cro_price_history_new gives it. */
void       cro_price_table_refresh (CroPriceTable  *self,
                                    GArray         *history);

G_END_DECLS
