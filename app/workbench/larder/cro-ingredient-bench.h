/* cro-ingredient-bench.h: an ingredient: who sells it in which packs, what it has cost, what is
 * left of it after trimming, and what it holds. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_INGREDIENT_BENCH (cro_ingredient_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroIngredientBench, cro_ingredient_bench, CRO, INGREDIENT_BENCH, CroBench)

G_END_DECLS
