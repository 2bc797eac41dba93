/* cro-moved-plates.h: what new prices do to plates and menus.
 *
 * Units      Per cent of food cost; NaN where there is none. */
#pragma once

#include "cro-breakdown.h"

G_BEGIN_DECLS

typedef struct
{
  gboolean  is_menu;
  CroFigure before;      /* its name is of the book before */
  CroFigure after;
  gboolean  goes_over;   /* at or below its target before, over it after */
  double    size;        /* by how much of its cost it moved, 0.1 for a tenth; endless where it cost nothing before */
} CroMovedPlate;

CroMovedPlate cro_moved_plate_make (gboolean         is_menu,
                                    const CroFigure *before,
                                    const CroFigure *after);

/* Whether its cost moved, beyond rounding, or what is missing of it. */
gboolean cro_moved_plate_has (const CroMovedPlate *moved);

/* Plates and menus that both have and whose cost moved: those that go over their targets first, then by
 * how much of their cost moved. Elements CroMovedPlate. */
GArray  *cro_moved_plates_new (CroFigures *before,
                               CroFigures *after);

G_END_DECLS
