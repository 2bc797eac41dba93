#include "cro-plate.h"

#include <math.h>

#include "cro-line.h"
#include "cro-money.h"

/* What divides by next to nothing may pass what a double holds: then there is no such figure. */
static double
stated (double figure)
{
  return isfinite (figure) ? figure : NAN;
}

double
cro_plate_share (int64_t makes,
                 int64_t per_guest,
                 int64_t allowance_pct)
{
  return (double) per_guest / (double) makes * (double) (CRO_WHOLE_PCT + allowance_pct)
         / (double) CRO_WHOLE_PCT;
}

double
cro_net_price (bool    has_price,
               int64_t gross,
               int64_t tax_pct)
{
  if (!has_price)
    return NAN;
  return (double) gross * ((double) CRO_WHOLE_PCT / 1e6) / (double) (CRO_WHOLE_PCT + tax_pct);
}

double
cro_food_cost_pct (double cost,
                   double net_price)
{
  return net_price > 0 ? 100 * cost / net_price : NAN;
}

double
cro_price_for_target (double cost,
                      double target,
                      double tax)
{
  return target > 0 ? cost / target * (1 + tax) : NAN;
}

bool
cro_is_over_target (double cost,
                    double net_price,
                    double target)
{
  return net_price >= 0 && cro_is_above (cost, target * net_price);
}

double
cro_elasticity (double quantity,
                double unit_cost,
                double cost)
{
  return cost != 0 ? stated (quantity * unit_cost / cost) : NAN;
}

double
cro_ceiling (double unit_cost,
             double quantity,
             double cost,
             double net_price,
             double target)
{
  if (quantity == 0 || isnan (target) || isnan (net_price))
    return NAN;
  return stated (unit_cost + (target * net_price - cost) / quantity);
}
