#include "cro-scale.h"

#include <math.h>

#define FINE_BELOW 5.0
#define FINE 0.25

double
cro_scale_round (double grams)
{
  double step = grams < FINE_BELOW ? FINE : 1;
  double weighed = round (grams / step) * step;

  if (weighed > 0 || !(grams > 0))
    return weighed;
  step = pow (10, floor (log10 (grams)) - 1);
  return round (grams / step) * step;
}
