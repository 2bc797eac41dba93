/* cro-market-bench.h: what is bought: every pack with its price, suppliers, exchange rates. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MARKET_BENCH (cro_market_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroMarketBench, cro_market_bench, CRO, MARKET_BENCH, CroBench)

G_END_DECLS
