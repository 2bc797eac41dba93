#include "cro-scale.h"

#include <math.h>

#define FINE_BELOW 5.0
#define FINE_BELOW_BITE 10.0
#define FINE 0.25

static double
weigh (double grams,
       double fine_below)
{
  double step = grams < fine_below ? FINE : 1;
  double weighed = round (grams / step) * step;

  if (weighed > 0 || !(grams > 0))
    return weighed;
  step = pow (10, floor (log10 (grams)) - 1);
  return round (grams / step) * step;
}

double
cro_scale_round (double grams)
{
  return weigh (grams, FINE_BELOW);
}

double
cro_scale_round_bite (double grams)
{
  return weigh (grams, FINE_BELOW_BITE);
}
