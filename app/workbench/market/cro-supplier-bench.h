/* cro-supplier-bench.h: a supplier, what is bought from them, and new prices of it. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_SUPPLIER_BENCH (cro_supplier_bench_get_type ())
G_DECLARE_FINAL_TYPE (CroSupplierBench, cro_supplier_bench, CRO, SUPPLIER_BENCH, CroBench)

G_END_DECLS
