/* cro-rates-bench.h: exchange rates with the days since which they hold. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_RATES_BENCH (cro_rates_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroRatesBench, cro_rates_bench, CRO, RATES_BENCH, CroBench)

G_END_DECLS
