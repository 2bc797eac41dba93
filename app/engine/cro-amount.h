/* cro-amount.h: an amount as it was written, in base units of the item.
 *
 * Units  Millionths of unit; the result in g, ml or each, as the item is costed. */
#pragma once

#include "cro-line.h"

/* NaN where the item lacks what that takes (cro_measure_lacks). */
double cro_amount_in_base (const CroMeasure *measure,
                           int64_t           amount,
                           CroUnit           unit);
