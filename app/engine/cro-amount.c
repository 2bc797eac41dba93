#include "cro-amount.h"

#include <math.h>

double
cro_amount_in_base (const CroMeasure *measure,
                    int64_t           amount,
                    CroUnit           unit)
{
  CroBase from = cro_unit_get (unit)->base, to = (CroBase) measure->base;
  double base = (double) amount * cro_unit_get (unit)->per_micro;

  if (cro_measure_lacks (measure, from, to) != CRO_LACKS_NOTHING)
    return NAN;
  return from == to ? base : base * measure->grams[from] / measure->grams[to];
}
