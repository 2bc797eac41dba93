/* cro-months-bench.h: the months of the book, with what was sold, bought, counted, adjusted. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTHS_BENCH (cro_months_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthsBench, cro_months_bench, CRO, MONTHS_BENCH, CroBench)

G_END_DECLS
