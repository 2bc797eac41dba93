#include "cro-price-link.h"

#include <math.h>

double
cro_price_link (const double *before,
                const double *after,
                const double *quantity,
                size_t        n)
{
  double then = 0, now = 0;

  for (size_t i = 0; i < n; i++)
    {
      /* NaN passes none of these. */
      if (!(before[i] > 0) || !(after[i] > 0) || !(quantity[i] > 0))
        continue;
      then += before[i] * quantity[i];
      now += after[i] * quantity[i];
    }
  return then > 0 ? now / then : NAN;
}
