/* cro-market-rows.h: the pages of the market, as its list has them. */
#pragma once

#include "cro-page-list.h"

G_BEGIN_DECLS

/* Elements CroPageRow; the caller's. */
GArray *cro_market_rows_new (CroBook *book);

G_END_DECLS
