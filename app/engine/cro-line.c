#include "cro-line.h"

/* a (1 - k) / y in base units of the item; 0 if it cannot be converted. */
static inline double
taken (const CroLines   *lines,
       size_t            i,
       const CroMeasure *item,
       int64_t           yield)
{
  const CroUnitInfo *unit = cro_unit_get ((CroUnit) lines->unit[i]);
  /* A gram weighs 1 g: where nothing is converted, as mostly, both factors are that. */
  int converted = unit->base != (CroBase) item->base;
  double from = item->grams[(int) unit->base * converted];
  double to = item->grams[item->base * converted];

  if (!(to > 0))
    return 0;
  return (double) lines->amount[i] * unit->per_micro * from
         * (double) (CRO_WHOLE_PCT - lines->recovered[i]) / (to * (double) yield);
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
  return taken (lines, i, item, CRO_WHOLE_PCT);
}

double
cro_line_charged (const CroLines   *lines,
                  size_t            i,
                  const CroMeasure *item)
{
  return taken (lines, i, item, cro_line_yield (lines, i, item));
}

void
cro_lines_charged (const CroLines   *lines,
                   const uint32_t   *slots,
                   size_t            n,
                   const CroMeasure *measures,
                   double           *quantity)
{
  for (size_t i = 0; i < n; i++)
    {
      const CroMeasure *item = &measures[lines->item[slots[i]]];

      quantity[i] = taken (lines, slots[i], item, cro_line_yield (lines, slots[i], item));
    }
}

double
cro_line_grams (const CroLines   *lines,
                size_t            i,
                const CroMeasure *item,
                CroLack          *lack)
{
  const CroUnitInfo *unit = cro_unit_get ((CroUnit) lines->unit[i]);

  *lack = cro_measure_lacks (item, unit->base, CRO_BASE_GRAM);
  if (*lack != CRO_LACKS_NOTHING)
    return 0;
  return (double) lines->amount[i] * unit->per_micro * item->grams[unit->base]
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
