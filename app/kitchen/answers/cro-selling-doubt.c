#include "cro-selling-doubt.h"

#include <math.h>

#include "cro-decimal.h"

static gint64
own_price (CroModel *model,
           CroRef    thing)
{
  return thing.kind == CRO_REF_MENU ? cro_model_menu (model, thing.slot)->own_price
                                    : cro_model_recipe (model, thing.slot)->own_price;
}

/* The newest before a step: a change of tax repeats a price, and where none was asked for a while the one before
 * that counts. */
static gint64
price_before (CroModel *model,
              CroRef    thing,
              GArray   *steps,
              CroDate   from,
              gint64    price)
{
  for (guint i = 0; i < steps->len; i++)
    {
      const CroSellingStep *step = &g_array_index (steps, CroSellingStep, i);

      if (step->from < from && step->price != CRO_NOT_SET && step->price != price)
        return step->price;
    }
  return own_price (model, thing);
}

gboolean
cro_doubt_of_selling (CroModel *model,
                      CroRef    thing,
                      GArray   *steps,
                      CroDate   date,
                      CroDoubt *doubt)
{
  const CroSellingStep *step = cro_selling_step_on (steps, date);
  gint64 before;
  double ratio, factor;

  if (step == NULL || step->price == CRO_NOT_SET)
    return FALSE;
  before = price_before (model, thing, steps, step->from, step->price);
  if (before == CRO_NOT_SET || before == 0)
    return FALSE;
  ratio = (double) step->price / (double) before;
  factor = cro_doubt_slip (ratio);
  *doubt = (CroDoubt){ .kind = CRO_DOUBT_SELLING, .ref = thing, .column = "price_micro", .other = CRO_NO_SLOT,
                       .date = step->from, .is = cro_decimal_to_double (step->price) };
  doubt->meant = factor != 0 ? doubt->is / factor : NAN;
  return factor != 0 || cro_doubt_is_far (ratio);
}
