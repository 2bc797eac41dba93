#include "cro-money.h"

#include <math.h>
#include <stdlib.h>

/* What rounding in doubles may have moved a figure by, relative to it, and the most that is
 * made of it: large figures must not be rounded up from nothing. */
#define NOISE 1e-12
#define MOST_NOISE 1e-3

/* What is allowed for before a figure is rounded up or down, or held against another. */
#define MOST_ALLOWED 0.5
#define MOST_DECIMALS 6

#define MOST_SHARED 0x1p53

static double
scale (int digits)
{
  static const double powers[] = { 1,   10,  100, 1000, 1e4,  1e5, 1e6,
                                   1e7, 1e8, 1e9, 1e10, 1e11, 1e12 };

  return powers[digits];
}

static double
noise_of (double minor)
{
  return fmin (NOISE * fabs (minor), MOST_NOISE);
}

static double
allowed_of (double minor)
{
  return fmin (CRO_ALLOWED * fabs (minor), MOST_ALLOWED);
}

static int64_t
saturate (double rounded)
{
  if (isnan (rounded))
    return 0;
  if (rounded >= 0x1p63)
    return INT64_MAX;
  if (rounded < -0x1p63)
    return INT64_MIN;
  return (int64_t) rounded;
}

int64_t
cro_money_round (double amount,
                 int    digits)
{
  double minor = amount * scale (digits);

  return saturate (round (minor + copysign (noise_of (minor), minor)));
}

int64_t
cro_money_apart (double ours,
                 double theirs,
                 int    digits)
{
  int64_t a = cro_money_round (ours, digits), b = cro_money_round (theirs, digits), apart;

  if (__builtin_sub_overflow (a, b, &apart))
    return a < 0 ? INT64_MIN : INT64_MAX;
  return apart;
}

int64_t
cro_money_round_up (double amount,
                    int    digits)
{
  double minor = amount * scale (digits);

  return saturate (ceil (minor - allowed_of (minor)));
}

int64_t
cro_money_round_down (double amount,
                      int    digits)
{
  double minor = amount * scale (digits);

  return saturate (floor (minor + allowed_of (minor)));
}

bool
cro_is_above (double figure,
              double limit)
{
  return figure - limit > CRO_ALLOWED * fabs (limit);
}

int
cro_decimals_apart (double figure,
                    double limit,
                    int    fewest)
{
  bool above = cro_is_above (figure, limit);

  if (!above && !cro_is_above (limit, figure))
    return fewest;
  for (int digits = fewest; digits < MOST_DECIMALS; digits++)
    {
      double shown = (double) cro_money_round (figure, digits) / scale (digits);

      if (above ? cro_is_above (shown, limit) : cro_is_above (limit, shown))
        return digits;
    }
  return MOST_DECIMALS;
}

int
cro_digits_of_price (double price,
                     int    fewest,
                     int    significant)
{
  double size = fabs (price);
  int digits = fewest;

  if (size > 0)
    while (digits < MOST_DECIMALS && size * scale (digits) < scale (significant - 1))
      digits++;
  return digits;
}

/* Floor that takes a value a hair under a whole number for that number. */
static double
floor_of (double minor)
{
  return floor (minor + noise_of (minor));
}

/* Sorts by falling fraction, then by rising index: both in one number. */
static uint64_t
turn_of (double minor,
         size_t i)
{
  double fraction = round (fmax (minor - floor_of (minor), 0) * 1e6);

  return (uint64_t) (1e6 - fraction) << 32 | i;
}

static int
compare_turns (const void *a,
               const void *b)
{
  uint64_t x = *(const uint64_t *) a, y = *(const uint64_t *) b;

  return (x > y) - (x < y);
}

/* Beyond what a double holds to the unit there is nothing to share out. */
static bool
is_held (int64_t       total,
         const double *parts,
         size_t        n,
         double        factor)
{
  double sum = fabs ((double) total);

  for (size_t i = 0; i < n; i++)
    sum += fabs (parts[i] * factor);
  return sum < MOST_SHARED;
}

void
cro_money_apportion (int64_t       total,
                     const double *parts,
                     size_t        n,
                     int           digits,
                     uint64_t     *order,
                     int64_t      *minor)
{
  double factor = scale (digits);
  int64_t left = total, each;

  if (n == 0)
    return;
  if (!is_held (total, parts, n, factor))
    {
      for (size_t i = 0; i < n; i++)
        minor[i] = cro_money_round (parts[i], digits);
      return;
    }
  for (size_t i = 0; i < n; i++)
    {
      minor[i] = (int64_t) floor_of (parts[i] * factor);
      left -= minor[i];
      order[i] = turn_of (parts[i] * factor, i);
    }
  qsort (order, n, sizeof *order, compare_turns);

  /* Division that leaves 0 <= left < n, for a total below its parts too. */
  each = left / (int64_t) n - (left % (int64_t) n < 0);
  left -= each * (int64_t) n;
  for (size_t turn = 0; turn < n; turn++)
    minor[order[turn] & UINT32_MAX] += each + ((int64_t) turn < left);
}
