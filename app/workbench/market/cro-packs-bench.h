/* cro-packs-bench.h: packs of all suppliers side by side, per base unit after net weight, tax and
 * currency; a new price for the one that is selected. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_PACKS_BENCH (cro_packs_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroPacksBench, cro_packs_bench, CRO, PACKS_BENCH, CroBench)

G_END_DECLS
