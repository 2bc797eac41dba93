#include "cro-selling-doubt.h"

#include <math.h>

#include "cro-decimal.h"

/* The newest before a day that is another: a change of tax repeats a price, and where none was asked for a while the
 * one before that counts. *from stays as it is where it is the undated one. */
static gint64
price_before (CroModel *model,
              CroRef    thing,
              GArray   *steps,
              gint64    price,
              CroDate  *from)
{
  for (guint i = 0; i < steps->len; i++)
    {
      const CroSellingStep *step = &g_array_index (steps, CroSellingStep, i);

      if (step->from < *from && step->price != CRO_NOT_SET && step->price != price)
        {
          *from = step->from;
          return step->price;
        }
    }
  return cro_selling_terms_on (model, NULL, thing, *from).price;
}

static double
to_double (gint64 price)
{
  return price != CRO_NOT_SET ? cro_decimal_to_double (price) : NAN;
}

gboolean
cro_doubt_of_selling (CroModel *model,
                      CroRef    thing,
                      GArray   *steps,
                      CroDate   date,
                      CroDoubt *doubt)
{
  const CroSellingStep *step = cro_selling_step_on (steps, date);
  double prices[CRO_DOUBT_PRICES], slip;
  CroDate since;
  gint64 before;
  int at;

  if (step == NULL || step->price == CRO_NOT_SET)
    return FALSE;
  since = step->from;
  before = price_before (model, thing, steps, step->price, &since);
  prices[0] = to_double (step->price);
  prices[1] = to_double (before);
  prices[2] = NAN;
  /* Nothing is before the undated one. */
  if (since < step->from)
    {
      CroDate older = since;

      prices[2] = to_double (price_before (model, thing, steps, before, &older));
    }
  at = cro_doubt_of_jump (prices, NULL, &slip);
  if (at < 0)
    return FALSE;
  *doubt = (CroDoubt){ .kind = CRO_DOUBT_SELLING, .ref = thing, .column = "price_micro", .other = CRO_NO_SLOT,
                       .date = at > 0 ? since : step->from, .is_past = at > 0, .is = prices[at] };
  doubt->meant = slip != 0 ? doubt->is / slip : NAN;
  return TRUE;
}
