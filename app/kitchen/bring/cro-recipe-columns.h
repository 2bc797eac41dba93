/* cro-recipe-columns.h: what "yield" and "price" mean over the lines of recipes: what the recipe makes and is
 * sold at, or what trimming leaves of each line's item and what that costs.
 *
 * A recipe's own stands once for it, beside its name, or is the same on each of its lines; a line's own differs
 * from line to line. Per cent is of lines.
 *
 * Of cro-brought.c alone. */
#pragma once

#include "cro-brought.h"

G_BEGIN_DECLS

void cro_recipe_columns_look (CroBrought *self);

G_END_DECLS
