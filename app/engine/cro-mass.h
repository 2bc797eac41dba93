/* cro-mass.h: what goes into a batch by weight: what its lines bring, sum a (1 - k).
 *
 * Units      Grams. Only food is weighed.
 * Errors     What cannot be weighed has no mass: it is negative. */
#pragma once

#include "cro-batch.h"
#include "cro-graph.h"

typedef void (*CroMassLacking) (uint32_t line_slot, CroLack lack, void *user_data);

/* What a batch's food lines weigh, less what is recovered. lacking() is told each line that
 * cannot be weighed and why; NULL: nobody asks. Returns a negative value if there is one. */
double cro_mass_input (const CroGraph   *graph,
                       uint32_t          row,
                       const CroLines   *lines,
                       const CroMeasure *measures,
                       CroMassLacking    lacking,
                       void             *user_data);
