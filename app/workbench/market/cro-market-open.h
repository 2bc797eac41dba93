/* cro-market-open.h: the ways from a page of the market to a supplier's new prices. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

/* The sheet of new prices of a supplier, by slot, over their page. */
void  cro_market_new_prices   (CroBench    *from,
                               guint32      supplier);

/* The same with a file taken into it, and with a text as it was pasted. */
void  cro_market_take_file    (CroBench    *from,
                               guint32      supplier,
                               const char  *path);
void  cro_market_take_text    (CroBench    *from,
                               guint32      supplier,
                               const char  *text);

/* Asks for a file first. */
void  cro_market_ask_file     (CroBench    *from,
                               guint32      supplier);

G_END_DECLS
