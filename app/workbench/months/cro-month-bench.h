/* cro-month-bench.h: one month: its statement as a page that is filled in, why it changed, its matrix; closed
 * and opened again.
 *
 * Rows of the statement open to sheets in the same page; Escape leads back to the row. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_BENCH (cro_month_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthBench, cro_month_bench, CRO, MONTH_BENCH, CroBench)

G_END_DECLS
