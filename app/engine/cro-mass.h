/* cro-mass.h: the weight that flows beside the money, and where it is lost.
 *
 *   trim loss of a line    q - a (1 - k)         bought, and cut away
 *   process loss of a batch    sum a (1 - k) - sum Q    evaporated, left in the pan, thrown
 *                                                away; negative: a gain (soaked pulses)
 *   lost of an output    l Q                     finished, and thrown away before it is used: a
 *                                                flow of its own, no part of the process loss
 *
 * Units      Grams. Only food is weighed.
 * Errors     What cannot be weighed has no mass: a negative input, a loss of NaN. */
#pragma once

#include "cro-batch.h"
#include "cro-graph.h"

typedef void (*CroMassLacking) (uint32_t line_slot, CroLack lack, void *user_data);

/* What a batch's food lines weigh, less what is recovered. lacking() is told each line that
 * cannot be weighed and why; NULL: nobody asks. Returns a negative value if there is one. */
double cro_mass_input        (const CroGraph   *graph,
                              uint32_t          row,
                              const CroLines   *lines,
                              const CroMeasure *measures,
                              CroMassLacking    lacking,
                              void             *user_data);

double cro_mass_trim_loss    (const CroLines   *lines,
                              size_t            line,
                              const CroMeasure *item);

double cro_mass_lost         (const CroOutput  *output,
                              const CroMeasure *measure);

double cro_mass_process_loss (double            input_grams,
                              const CroOutput  *outputs,
                              const CroMeasure *measures,
                              size_t            n);
