/* cro-moves-bench.h: how prices moved over a period, what that does to plates and menus, and an index of
 * each category.
 *
 * Action  "moves.old": shows those ingredients alone whose price is old, the oldest first. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MOVES_BENCH (cro_moves_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroMovesBench, cro_moves_bench, CRO, MOVES_BENCH, CroBench)

G_END_DECLS
