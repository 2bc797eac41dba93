#include "cro-bridge.h"

#include <stdbool.h>

CroBridgeSold
cro_bridge_sold (const double all[2],
                 const double sold[2])
{
  CroBridgeSold of = { .all = { all[0], all[1] } };

  for (int i = 0; i < 2; i++)
    {
      bool is_empty = !(all[i] > 0) && !(all[i] < 0);
      int from = is_empty ? 1 - i : i;

      of.share[i] = all[from] > 0 || all[from] < 0 ? sold[from] / all[from] : 0;
    }
  return of;
}

static double
mean (const double of[2])
{
  return (of[0] + of[1]) / 2;
}

static double
difference (const double of[2])
{
  return of[1] - of[0];
}

void
cro_bridge_add (const CroBridgeSold *sold,
                const double         quantity[2],
                const double         price[2],
                double               effects[CRO_N_BRIDGE_EFFECTS])
{
  double cost[2] = { quantity[0] * price[0], quantity[1] * price[1] };
  double of_thing[2] = { sold->all[0] * sold->share[0], sold->all[1] * sold->share[1] };

  effects[CRO_BRIDGE_VOLUME] += mean (cost) * mean (sold->share) * difference (sold->all);
  effects[CRO_BRIDGE_MIX] += mean (cost) * mean (sold->all) * difference (sold->share);
  effects[CRO_BRIDGE_PRICE] += mean (of_thing) * mean (quantity) * difference (price);
  effects[CRO_BRIDGE_RECIPE] += mean (of_thing) * mean (price) * difference (quantity);
}
