#include "cro-way.h"

#include <math.h>

#include "cro-line.h"

/* Whether plate i is the first of its choice: the one at which the choice is settled. */
static bool
is_first (const CroWayPlate *plates,
          size_t             i)
{
  for (size_t k = 0; k < i; k++)
    if (plates[k].choice == plates[i].choice)
      return false;
  return true;
}

/* Sums in integers: whether shares come to 100 per cent is no question of rounding. A share is at
 * most 100 per cent, so that no menu that fits in memory overflows. */
static bool
settle (const CroWayPlate *plates,
        size_t             first,
        size_t             n,
        double            *part)
{
  int64_t left = CRO_WHOLE_PCT;
  size_t n_open = 0;

  for (size_t i = first; i < n; i++)
    if (plates[i].choice == plates[first].choice)
      {
        left -= plates[i].share != CRO_NO_SHARE ? plates[i].share : 0;
        n_open += plates[i].share == CRO_NO_SHARE ? 1 : 0;
      }
  for (size_t i = first; i < n; i++)
    if (plates[i].choice == plates[first].choice)
      part[i] = plates[i].share != CRO_NO_SHARE
                    ? (double) plates[i].share / (double) CRO_WHOLE_PCT
                    : fmax (0, (double) left) / (double) n_open / (double) CRO_WHOLE_PCT;
  return n_open > 0 ? left >= 0 : left == 0;
}

size_t
cro_way_parts (const CroWayPlate *plates,
               size_t             n,
               double            *part)
{
  size_t bad = n;

  for (size_t i = 0; i < n; i++)
    if (plates[i].choice == CRO_NO_CHOICE)
      part[i] = 1;
    else if (is_first (plates, i) && !settle (plates, i, n, part) && bad == n)
      bad = i;
  return bad;
}

bool
cro_way_range (const CroWayPlate *plates,
               const double      *cost,
               size_t             n,
               double            *cheapest,
               double            *dearest)
{
  bool has_choice = false;

  *cheapest = *dearest = 0;
  for (size_t i = 0; i < n; i++)
    {
      double low = cost[i], high = cost[i];

      if (plates[i].choice != CRO_NO_CHOICE && !is_first (plates, i))
        continue;
      has_choice |= plates[i].choice != CRO_NO_CHOICE;
      for (size_t k = i + 1; plates[i].choice != CRO_NO_CHOICE && k < n; k++)
        if (plates[k].choice == plates[i].choice)
          {
            low = fmin (low, cost[k]);
            high = fmax (high, cost[k]);
          }
      *cheapest += low;
      *dearest += high;
    }
  return has_choice;
}
