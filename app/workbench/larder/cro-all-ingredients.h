/* cro-all-ingredients.h: all ingredients: what they cost, from whom, and what is missing of them. */
#pragma once

#include "cro-overview.h"

G_BEGIN_DECLS

#define CRO_TYPE_ALL_INGREDIENTS (cro_all_ingredients_get_type ())
G_DECLARE_FINAL_TYPE (CroAllIngredients, cro_all_ingredients, CRO, ALL_INGREDIENTS, CroOverview)

G_END_DECLS
