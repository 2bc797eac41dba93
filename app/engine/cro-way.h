/* cro-way.h: the choices of a menu, and the ways through them.
 *
 * Plates of a menu that share a choice are alternatives of which a guest takes one. How often
 * each is taken is its share; those without one have equal parts of what the others leave of 100
 * per cent. A way takes one plate of each choice and all plates that stand in none.
 *
 * Units      Shares in millionths of a per cent, parts as fractions of 1; costs as the caller has
 *            them, per serving.
 * Ownership  Every array is the caller's. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define CRO_NO_CHOICE (-1)
#define CRO_NO_SHARE INT64_C (-1)

typedef struct
{
  int32_t choice;     /* the same number for alternatives; CRO_NO_CHOICE: every guest has it */
  int64_t share;      /* CRO_NO_SHARE: an equal part of what is left */
} CroWayPlate;

/* part[i]: how often a guest takes plate i, 1 where it stands in no choice. Returns the number of
 * plates, or of the first one whose choice does not come to 100 per cent; parts are then those
 * that were given, and none where nothing is left. */
size_t cro_way_parts    (const CroWayPlate *plates,
                         size_t             n,
                         double            *part);

/* The cheapest and the dearest way. False, with both at the only way, if there is no choice. */
bool   cro_way_range    (const CroWayPlate *plates,
                         const double      *cost,
                         size_t             n,
                         double            *cheapest,
                         double            *dearest);
