#include "cro-money.h"

#include <math.h>

/* What rounding in doubles may have moved a figure by, relative to it. */
#define NOISE 1e-12

static double
scale (int digits)
{
  static const double powers[] = { 1, 10, 100, 1000, 1e4, 1e5, 1e6 };

  return powers[digits];
}

int64_t
cro_money_round (double amount,
                 int    digits)
{
  double minor = amount * scale (digits);
  double rounded = round (minor * (1 + NOISE));

  if (rounded >= 0x1p63)
    return INT64_MAX;
  if (rounded < -0x1p63)
    return INT64_MIN;
  return (int64_t) rounded;
}

/* Floor that takes a value a hair under a whole number for that number. */
static double
floor_of (double minor)
{
  double nearest = round (minor);

  return fabs (minor - nearest) <= NOISE * fabs (minor) ? nearest : floor (minor);
}

/* The part with the largest fraction among those that have got fewer than `given` units, the
 * first of equals. */
static size_t
next_in_turn (const double  *parts,
              size_t         n,
              double         factor,
              const int64_t *minor,
              int64_t        given)
{
  size_t best = n;
  double largest = -1;

  for (size_t i = 0; i < n; i++)
    {
      double exact = parts[i] * factor;
      double whole = floor_of (exact);
      double fraction = exact > whole ? exact - whole : 0;

      if (minor[i] - (int64_t) whole < given && fraction > largest + NOISE)
        {
          largest = fraction;
          best = i;
        }
    }
  return best;
}

void
cro_money_apportion (int64_t       total,
                     const double *parts,
                     size_t        n,
                     int           digits,
                     int64_t      *minor)
{
  double factor = scale (digits);
  int64_t left = total;

  if (n == 0)
    return;
  for (size_t i = 0; i < n; i++)
    {
      minor[i] = (int64_t) floor_of (parts[i] * factor);
      left -= minor[i];
    }
  /* Rounding gives each part at most one unit; a total that is not the sum of its parts more. */
  for (int64_t given = 1; left > 0; given++)
    for (size_t i; left > 0 && (i = next_in_turn (parts, n, factor, minor, given)) < n; left--)
      minor[i]++;
  for (size_t i = 0; left < 0; i = (i + 1) % n, left++)
    minor[i]--;
}
