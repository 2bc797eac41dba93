#include "cro-effect.h"

double
cro_effect_of_value (double effect_of_by_product,
                     double effect_of_main,
                     double used_of_by_product,
                     double used_of_main)
{
  if (!(used_of_main > 0))
    return effect_of_by_product;
  return effect_of_by_product - effect_of_main * used_of_by_product / used_of_main;
}
