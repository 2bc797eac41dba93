/* cro-carry.h: how much of one item comes into everything that is made of it, through all preparations,
 * in one pass up from it.
 *
 * Between the two calls row_effect of the figures holds, by row, the base units of the item charged to
 * it, and seen_rows marks the rows that were passed. */
#pragma once

#include "cro-figures.h"

G_BEGIN_DECLS

void   cro_carry_up         (CroFigures *figures,
                             guint32     item);
void   cro_carry_clear      (CroFigures *figures,
                             guint32     item);

/* Base units of it that a guest of a plate, or of a menu, is charged. */
double cro_carried_to_plate (CroFigures *figures,
                             guint32     plate);
double cro_carried_to_menu  (CroFigures *figures,
                             guint32     menu);

G_END_DECLS
