/* cro-all-preparations.h: all preparations: what their batches cost, and who takes them. */
#pragma once

#include "cro-overview.h"

G_BEGIN_DECLS

#define CRO_TYPE_ALL_PREPARATIONS (cro_all_preparations_get_type ())
G_DECLARE_FINAL_TYPE (CroAllPreparations, cro_all_preparations, CRO, ALL_PREPARATIONS, CroOverview)

G_END_DECLS
