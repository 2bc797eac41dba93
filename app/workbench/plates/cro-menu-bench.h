/* cro-menu-bench.h: a menu: its price, and the plates that it carries. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MENU_BENCH (cro_menu_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroMenuBench, cro_menu_bench, CRO, MENU_BENCH, CroBench)

/* In a trial: without what is not tried, its name and note, and other days' prices. */
void cro_menu_bench_set_trial (CroMenuBench *self);

G_END_DECLS
