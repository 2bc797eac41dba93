/* cro-market-today.h: what a purchasing manager has before them today: whose list is due, what has gone
 * over its target since they last looked, what moved most, what has no price or an old one. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MARKET_TODAY (cro_market_today_get_type ())
G_DECLARE_FINAL_TYPE (CroMarketToday, cro_market_today, CRO, MARKET_TODAY, CroBench)

G_END_DECLS
