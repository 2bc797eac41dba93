#include "cro-variance.h"

#include <math.h>

CroVariance
cro_variance (double actual_quantity,
              double actual_cost,
              double standard_quantity,
              double standard_cost)
{
  double standard_price = standard_quantity != 0 ? standard_cost / standard_quantity : NAN;

  return (CroVariance){ .price = actual_cost - actual_quantity * standard_price,
                        .usage = actual_quantity * standard_price - standard_cost };
}

double
cro_variance_on_bought (double bought_quantity,
                        double bought_cost,
                        double standard_quantity,
                        double standard_cost)
{
  return cro_variance (bought_quantity, bought_cost, standard_quantity, standard_cost).price;
}

double
cro_weighted_average (double opening_quantity,
                      double opening_cost,
                      double bought_quantity,
                      double bought_cost)
{
  double quantity = opening_quantity + bought_quantity;

  return quantity > 0 ? (opening_cost + bought_cost) / quantity : NAN;
}
