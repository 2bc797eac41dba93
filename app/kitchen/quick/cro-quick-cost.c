#include "cro-quick.h"

#include <math.h>

#include "cro-decimal.h"

static double
unit_cost_of (CroFigures     *figures,
              const CroQuick *quick,
              CroMeasure     *measure)
{
  const CroUnitInfo *unit = cro_unit_get (quick->price_unit);
  gboolean is_known = quick->match == CRO_QUICK_EXACT;

  *measure = is_known ? figures->model->measures[quick->item]
                      : cro_measure_make (cro_quick_base (quick), 0, 0);
  if (quick->has_price)
    return unit->base == (CroBase) measure->base
               ? cro_decimal_to_double (quick->price) / (unit->per_micro * CRO_MICRO)
               : NAN;
  return is_known ? cro_figures_unit_cost (figures, quick->item) : NAN;
}

double
cro_quick_unit_cost (CroFigures     *figures,
                     const CroQuick *quick)
{
  CroMeasure measure;

  return unit_cost_of (figures, quick, &measure);
}

/* The line as it would be charged. */
static CroLack
lacks (const CroQuick   *quick,
       const CroMeasure *measure,
       double           *charged)
{
  gint64 amount = quick->amount;
  gint32 yield = 0, recovered = 0;
  guint8 unit = (guint8) quick->unit, whole = quick->as_bought;
  CroLines line = { .n = 1, .amount = &amount, .yield = &yield, .recovered = &recovered, .unit = &unit,
                    .whole = &whole };
  CroLack lack = cro_line_lacks (&line, 0, measure);

  *charged = lack == CRO_LACKS_NOTHING ? cro_line_charged (&line, 0, measure) : NAN;
  return lack;
}

double
cro_quick_cost (CroFigures     *figures,
                const CroQuick *quick)
{
  CroMeasure measure;
  double cost, charged;

  if (quick->fault != CRO_QUICK_OK || !quick->has_amount)
    return NAN;
  cost = unit_cost_of (figures, quick, &measure);
  lacks (quick, &measure, &charged);
  return cost * charged;
}

CroLack
cro_quick_lacks (CroFigures     *figures,
                 const CroQuick *quick)
{
  double charged;

  if (quick->fault != CRO_QUICK_OK || !quick->has_amount || quick->match != CRO_QUICK_EXACT)
    return CRO_LACKS_NOTHING;
  return lacks (quick, &figures->model->measures[quick->item], &charged);
}
