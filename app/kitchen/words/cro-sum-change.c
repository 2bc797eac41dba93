#include "cro-sum-change.h"

#include "cro-number.h"
#include "cro-sum-private.h"

static void
add_price (GPtrArray          *sum,
           CroModel           *model,
           const CroPastPrice *price)
{
  const char *currency = cro_model_currency_of (model, price->offer);
  g_autofree char *since = cro_date_to_text (price->offer_then.from);

  cro_sum_add (sum, CRO_TERM_PRICE, price->unit_cost, cro_currency_digits (currency),
               (CroBase) model->measures[cro_model_offer (model, price->offer)->item].base, since,
               CRO_REF (CRO_REF_OFFER, price->offer));
}

GPtrArray *
cro_sum_of_change (CroFigures *figures,
                   GArray     *history,
                   guint32     ingredient)
{
  CroModel *model = figures->model;
  const CroPastPrice *price, *before;
  GPtrArray *sum;

  if (!cro_price_history_last_two (figures, history, ingredient, &price, &before))
    return NULL;
  sum = cro_sum_begin (CRO_TERM_PCT, price->unit_cost / before->unit_cost - 1, 1, CRO_BASE_GRAM,
                       CRO_KNOWN_WHOLE, CRO_REF (CRO_REF_ITEM, ingredient));
  cro_sum_add_sign (sum, "(");
  add_price (sum, model, price);
  cro_sum_add_sign (sum, CRO_SUM_MINUS);
  add_price (sum, model, before);
  cro_sum_add_sign (sum, ")");
  cro_sum_add_sign (sum, CRO_SUM_OVER);
  add_price (sum, model, before);
  return cro_sum_settle (sum);
}
