#include "cro-line.h"

/* Base units in a millionth of a unit. */
static double
per_micro (CroUnit unit)
{
  const CroUnitInfo *info = cro_unit_get (unit);

  return (double) info->numerator / ((double) info->denominator * 1e6);
}

/* The amount as written, in base units of the item; 0 if it cannot be converted. */
static double
gross (const CroLines   *lines,
       size_t            i,
       const CroMeasure *item)
{
  CroUnit unit = (CroUnit) lines->unit[i];
  CroBase from = cro_unit_get (unit)->base;
  double amount = (double) lines->amount[i] * per_micro (unit);

  if (from == (CroBase) item->base)
    return amount;
  if (!(item->grams[item->base] > 0))
    return 0;
  return amount * item->grams[from] / item->grams[item->base];
}

CroMeasure
cro_measure_make (CroBase base,
                  double  density,
                  double  piece)
{
  return (CroMeasure){ .base = (uint8_t) base, .grams = { 1, density, piece } };
}

CroLack
cro_measure_lacks (const CroMeasure *measure,
                   CroBase           from,
                   CroBase           to)
{
  bool volume = from == CRO_BASE_MILLILITRE || to == CRO_BASE_MILLILITRE;
  bool count = from == CRO_BASE_EACH || to == CRO_BASE_EACH;
  unsigned lacks = CRO_LACKS_NOTHING;

  if (from == to)
    return CRO_LACKS_NOTHING;
  if (volume && !(measure->grams[CRO_BASE_MILLILITRE] > 0))
    lacks |= CRO_LACKS_DENSITY;
  if (count && !(measure->grams[CRO_BASE_EACH] > 0))
    lacks |= CRO_LACKS_PIECE;
  return (CroLack) lacks;
}

double
cro_line_net (const CroLines   *lines,
              size_t            i,
              const CroMeasure *item)
{
  return gross (lines, i, item) * (double) (CRO_WHOLE_PCT - lines->recovered[i])
         / (double) CRO_WHOLE_PCT;
}

double
cro_line_charged (const CroLines   *lines,
                  size_t            i,
                  const CroMeasure *item)
{
  return gross (lines, i, item) * (double) (CRO_WHOLE_PCT - lines->recovered[i])
         / (double) cro_line_yield (lines, i, item);
}

double
cro_line_grams (const CroLines   *lines,
                size_t            i,
                const CroMeasure *item,
                CroLack          *lack)
{
  CroUnit unit = (CroUnit) lines->unit[i];
  CroBase base = cro_unit_get (unit)->base;

  *lack = cro_measure_lacks (item, base, CRO_BASE_GRAM);
  if (*lack != CRO_LACKS_NOTHING)
    return 0;
  return (double) lines->amount[i] * per_micro (unit) * item->grams[base]
         * (double) (CRO_WHOLE_PCT - lines->recovered[i]) / (double) CRO_WHOLE_PCT;
}

CroLack
cro_line_lacks (const CroLines   *lines,
                size_t            i,
                const CroMeasure *item)
{
  return cro_measure_lacks (item, cro_unit_get ((CroUnit) lines->unit[i])->base,
                            (CroBase) item->base);
}
