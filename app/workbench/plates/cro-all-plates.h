/* cro-all-plates.h: all plates and menus: what they cost against their targets. */
#pragma once

#include "cro-overview.h"

G_BEGIN_DECLS

#define CRO_TYPE_ALL_PLATES (cro_all_plates_get_type ())
G_DECLARE_FINAL_TYPE (CroAllPlates, cro_all_plates, CRO, ALL_PLATES, CroOverview)

G_END_DECLS
