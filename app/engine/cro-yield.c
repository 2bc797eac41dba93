#include "cro-yield.h"

#include <math.h>

CroPooledYield
cro_yield_pool (const double *purchased,
                const double *usable,
                size_t        n)
{
  double sum_purchased = 0, sum_usable = 0, squares = 0;
  CroPooledYield pooled = { .yield = NAN, .error = NAN, .n = n };

  if (n == 0)
    return pooled;
  for (size_t i = 0; i < n; i++)
    {
      sum_purchased += purchased[i];
      sum_usable += usable[i];
    }
  pooled.yield = sum_usable / sum_purchased;
  if (n == 1)
    return pooled;

  for (size_t i = 0; i < n; i++)
    {
      double residual = usable[i] - pooled.yield * purchased[i];

      squares += residual * residual;
    }
  pooled.error = sqrt ((double) n / (double) (n - 1) * squares) / sum_purchased;
  return pooled;
}

double
cro_yield_variance (const double *purchased,
                    const double *usable,
                    size_t        n)
{
  double mean = 0, squares = 0;

  if (n < 2)
    return NAN;
  for (size_t i = 0; i < n; i++)
    mean += purchased[i] / usable[i] / (double) n;
  for (size_t i = 0; i < n; i++)
    {
      double residual = purchased[i] / usable[i] - mean;

      squares += residual * residual;
    }
  return squares / (double) (n - 1);
}

/* Days of first .. last on which price i is in force. */
static double
days_in_force (const CroDate *from,
               size_t         n,
               size_t         i,
               CroDate        first,
               CroDate        last)
{
  CroDate begin = from[i] > first ? from[i] : first;
  CroDate end = i + 1 < n && from[i + 1] <= last ? from[i + 1] - 1 : last;

  return end >= begin ? end - begin + 1 : 0;
}

double
cro_price_variance (const CroDate *from,
                    const double  *price,
                    size_t         n,
                    CroDate        first,
                    CroDate        last)
{
  double days = 0, mean = 0, squares = 0;

  for (size_t i = 0; i < n; i++)
    {
      double d = days_in_force (from, n, i, first, last);

      days += d;
      mean += d * price[i];
    }
  if (!(days > 0))
    return NAN;
  mean /= days;
  for (size_t i = 0; i < n; i++)
    squares += days_in_force (from, n, i, first, last) * (price[i] - mean) * (price[i] - mean);
  return squares / days;
}

double
cro_range_variance (const double *slope,
                    const double *variance,
                    size_t        n)
{
  double sum = 0;

  for (size_t i = 0; i < n; i++)
    if (!isnan (variance[i]))
      sum += slope[i] * slope[i] * variance[i];
  return sum;
}
