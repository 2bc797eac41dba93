/* cro-plate-bench.h: a plate: its figures, its fields, its lines. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_PLATE_BENCH (cro_plate_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroPlateBench, cro_plate_bench, CRO, PLATE_BENCH, CroBench)

/* In a trial: without what is not tried, its name and course, and with the note and the minutes behind
 * "More". */
void cro_plate_bench_set_trial (CroPlateBench *self);

G_END_DECLS
