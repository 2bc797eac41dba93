/* bench-ingredient.h: the demo's crab on the bench of an ingredient. */
#pragma once

#include "bench-hands.h"

#include "cro-ingredient-bench.h"

static inline void
show_crab (CroTestBench *test)
{
  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab"));
}

static inline CroItem *
item_of (CroTestBench *test)
{
  return cro_model_item (model_of (test), cro_bench_get_slot (test->bench));
}
