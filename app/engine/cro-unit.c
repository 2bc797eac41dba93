#include "cro-unit.h"

#include <string.h>

/* The rounded factor beside the exact one. */
#define UNIT(code, base, numerator, denominator) \
  { code, base, numerator, denominator, (double) (numerator) / ((double) (denominator) * 1e6) }

const CroUnitInfo cro_units[CRO_N_UNITS] = {
  [CRO_UNIT_MG] = UNIT ("mg", CRO_BASE_GRAM, 1, 1000),
  [CRO_UNIT_G] = UNIT ("g", CRO_BASE_GRAM, 1, 1),
  [CRO_UNIT_KG] = UNIT ("kg", CRO_BASE_GRAM, 1000, 1),
  [CRO_UNIT_OZ] = UNIT ("oz", CRO_BASE_GRAM, 28349523125, 1000000000),
  [CRO_UNIT_LB] = UNIT ("lb", CRO_BASE_GRAM, 45359237, 100000),
  [CRO_UNIT_ML] = UNIT ("ml", CRO_BASE_MILLILITRE, 1, 1),
  [CRO_UNIT_CL] = UNIT ("cl", CRO_BASE_MILLILITRE, 10, 1),
  [CRO_UNIT_DL] = UNIT ("dl", CRO_BASE_MILLILITRE, 100, 1),
  [CRO_UNIT_L] = UNIT ("l", CRO_BASE_MILLILITRE, 1000, 1),
  [CRO_UNIT_TSP] = UNIT ("tsp", CRO_BASE_MILLILITRE, 5, 1),
  [CRO_UNIT_TBSP] = UNIT ("tbsp", CRO_BASE_MILLILITRE, 15, 1),
  [CRO_UNIT_METRIC_CUP] = UNIT ("metric-cup", CRO_BASE_MILLILITRE, 250, 1),
  [CRO_UNIT_US_TSP] = UNIT ("us-tsp", CRO_BASE_MILLILITRE, 492892159375, 100000000000),
  [CRO_UNIT_US_TBSP] = UNIT ("us-tbsp", CRO_BASE_MILLILITRE, 1478676478125, 100000000000),
  [CRO_UNIT_US_FL_OZ] = UNIT ("us-fl-oz", CRO_BASE_MILLILITRE, 295735295625, 10000000000),
  [CRO_UNIT_US_CUP] = UNIT ("us-cup", CRO_BASE_MILLILITRE, 2365882365, 10000000),
  [CRO_UNIT_US_PT] = UNIT ("us-pt", CRO_BASE_MILLILITRE, 473176473, 1000000),
  [CRO_UNIT_US_QT] = UNIT ("us-qt", CRO_BASE_MILLILITRE, 946352946, 1000000),
  [CRO_UNIT_US_GAL] = UNIT ("us-gal", CRO_BASE_MILLILITRE, 3785411784, 1000000),
  [CRO_UNIT_IMP_FL_OZ] = UNIT ("imp-fl-oz", CRO_BASE_MILLILITRE, 284130625, 10000000),
  [CRO_UNIT_IMP_PT] = UNIT ("imp-pt", CRO_BASE_MILLILITRE, 56826125, 100000),
  [CRO_UNIT_IMP_QT] = UNIT ("imp-qt", CRO_BASE_MILLILITRE, 11365225, 10000),
  [CRO_UNIT_IMP_GAL] = UNIT ("imp-gal", CRO_BASE_MILLILITRE, 454609, 100),
  [CRO_UNIT_EACH] = UNIT ("each", CRO_BASE_EACH, 1, 1),
  [CRO_UNIT_DOZEN] = UNIT ("dozen", CRO_BASE_EACH, 12, 1),
};

bool
cro_unit_parse (const char *code,
                size_t      length,
                CroUnit    *unit)
{
  for (int i = 0; i < CRO_N_UNITS; i++)
    if (code[0] == cro_units[i].code[0] && strlen (cro_units[i].code) == length
        && memcmp (code, cro_units[i].code, length) == 0)
      {
        *unit = (CroUnit) i;
        return true;
      }
  return false;
}

CroUnit
cro_base_unit (CroBase base)
{
  static const CroUnit of_base[] = {
    [CRO_BASE_GRAM] = CRO_UNIT_G,
    [CRO_BASE_MILLILITRE] = CRO_UNIT_ML,
    [CRO_BASE_EACH] = CRO_UNIT_EACH,
  };

  return of_base[base];
}

double
cro_unit_factor (CroUnit unit)
{
  return (double) cro_units[unit].numerator / (double) cro_units[unit].denominator;
}
