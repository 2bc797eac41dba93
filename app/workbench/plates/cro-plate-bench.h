/* cro-plate-bench.h: a plate: its figures, its fields, its lines. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_PLATE_BENCH (cro_plate_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroPlateBench, cro_plate_bench, CRO, PLATE_BENCH, CroBench)

G_END_DECLS
