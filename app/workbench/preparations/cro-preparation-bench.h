/* cro-preparation-bench.h: a preparation: what goes in, what the batch gives, how its cost lands,
 * and where that is used. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_PREPARATION_BENCH (cro_preparation_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroPreparationBench, cro_preparation_bench, CRO, PREPARATION_BENCH, CroBench)

G_END_DECLS
