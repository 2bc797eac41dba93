#include "cro-result.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-line.h"

/* A coefficient of so much is a food cost of 5 %. Common practice, no source: kitchens have 2.5 to 5. */
#define HIGH 20.0

double
cro_result_of_pct (CroSpeaks speaks,
                   double    pct)
{
  switch (speaks)
    {
    case CRO_SPEAKS_GROSS_PROFIT:
      return 100 - pct;
    case CRO_SPEAKS_COEFFICIENT:
      return pct > 0 ? 100 / pct : NAN;
    default:
      return pct;
    }
}

gboolean
cro_result_to_target (CroSpeaks  speaks,
                      gint64     typed,
                      gint64    *target)
{
  double coefficient = cro_decimal_to_double (typed);

  switch (speaks)
    {
    case CRO_SPEAKS_GROSS_PROFIT:
      if (typed < 0)
        return FALSE;
      *target = CRO_WHOLE_PCT - typed;
      break;
    case CRO_SPEAKS_COEFFICIENT:
      if (typed < CRO_MICRO)
        return FALSE;
      *target = (gint64) round ((double) CRO_WHOLE_PCT / coefficient);
      break;
    default:
      *target = typed;
    }
  return *target > 0 && *target <= CRO_WHOLE_PCT;
}

CroKnown
cro_known_of_result (CroSpeaks        speaks,
                     const CroFigure *figure)
{
  CroKnown known = cro_known_of_cost (figure);

  return speaks == CRO_SPEAKS_FOOD_COST ? known : cro_known_turned (known);
}

gboolean
cro_result_is_slip (CroSpeaks  speaks,
                    double     pct,
                    double    *meant)
{
  double typed = cro_result_of_pct (speaks, pct);

  if (!(typed > 0) || (speaks == CRO_SPEAKS_COEFFICIENT ? typed < HIGH : typed >= 1))
    return FALSE;
  if (speaks != CRO_SPEAKS_COEFFICIENT)
    typed *= 100;
  while (speaks == CRO_SPEAKS_COEFFICIENT && typed >= HIGH)
    typed /= 10;
  *meant = cro_result_of_pct (speaks, typed);
  return TRUE;
}
