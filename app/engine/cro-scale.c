#include "cro-scale.h"

#include <math.h>

/* A step of this part is at most half of it off. */
#define STEP 0.04
/* Powers of ten are not told from what a logarithm makes of them. */
#define DUST 1e-9
#define FINE_BELOW_BITE 10.0
#define FINE 0.25

double
cro_scale_round (double grams)
{
  int digits;
  double parts;

  if (!(grams > 0))
    return 0;
  digits = (int) -floor (log10 (grams * STEP) + DUST);
  if (digits <= 0)
    return round (grams);
  parts = pow (10, digits);
  return round (grams * parts) / parts;
}

double
cro_scale_round_bite (double grams)
{
  double quarters = round (grams / FINE);

  return grams < FINE_BELOW_BITE && fabs (grams / FINE - quarters) < DUST ? quarters * FINE : cro_scale_round (grams);
}
