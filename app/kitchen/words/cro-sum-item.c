#include "cro-sum-private.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-rule.h"
#include "cro-words.h"

static gboolean
is_foreign (CroModel            *model,
            const CroOfferEntry *entry)
{
  return entry->currency != NULL && g_strcmp0 (entry->currency, model->currency) != 0;
}

/* P × r ÷ (1 + v). */
static void
add_price (GPtrArray         *sum,
           CroModel          *model,
           CroRef             ref,
           const CroSumWords *words)
{
  const CroOfferEntry *entry = cro_model_offer (model, ref.slot);
  const CroOffer *offer = &entry->offer;
  const char *currency = cro_model_currency_of (model, ref.slot);

  cro_sum_add_exact (sum, cro_words_price_in (currency, offer->price),
                     cro_decimal_to_double (offer->price),
                     is_foreign (model, entry) ? currency : NULL, ref);
  if (is_foreign (model, entry))
    {
      cro_sum_add_sign (sum, CRO_SUM_TIMES);
      cro_sum_add_plain (sum, offer->rate, words->rate, CRO_REF_NOWHERE);
    }
  if (offer->tax_included != 0)
    {
      cro_sum_add_sign (sum, CRO_SUM_OVER);
      cro_sum_add_plain (sum, 1 + (double) offer->tax_included / (double) CRO_WHOLE_PCT, words->tax,
                         ref);
    }
}

/* count × size × f, in parentheses where it is more than one number. */
static void
add_pack (GPtrArray         *sum,
          const CroOffer    *offer,
          const CroMeasure  *measure,
          CroRef             ref,
          CroRef             item,
          const CroSumWords *words)
{
  CroBase from = cro_unit_get (offer->pack_unit)->base;
  double written = cro_decimal_to_double (offer->pack_count)
                   * cro_decimal_to_double (offer->pack_size) * cro_unit_factor (offer->pack_unit);
  gboolean has_net = offer->net != 0 && offer->net != CRO_WHOLE_PCT;
  double net = has_net ? (double) offer->net / (double) CRO_WHOLE_PCT : 1;
  gboolean several = offer->pack_count != CRO_MICRO || has_net || from != (CroBase) measure->base
                     || !cro_sum_is_plain_unit (offer->pack_unit);

  cro_sum_add_sign (sum, CRO_SUM_OVER);
  if (several)
    cro_sum_add_sign (sum, "(");
  if (offer->pack_count != CRO_MICRO)
    {
      cro_sum_add_entered (sum, offer->pack_count, NULL, ref);
      cro_sum_add_sign (sum, CRO_SUM_TIMES);
    }
  cro_sum_add_amount (sum, offer->pack_size, offer->pack_unit, ref);
  cro_sum_add_conversion (sum, from, (CroBase) measure->base,
                          cro_offer_pack (offer, measure) / (written * net), item);
  if (has_net)
    {
      cro_sum_add_sign (sum, CRO_SUM_TIMES);
      cro_sum_add_entered_pct (sum, offer->net, words->net, ref);
    }
  if (several)
    cro_sum_add_sign (sum, ")");
}

static void
add_bought (GPtrArray         *sum,
            CroFigures        *figures,
            guint32            slot,
            const CroSumWords *words)
{
  guint32 used = figures->offer_in_use[slot];
  const CroOfferEntry *entry = cro_model_offer (figures->model, used);
  CroRef ref = CRO_REF (CRO_REF_OFFER, used);

  add_price (sum, figures->model, ref, words);
  add_pack (sum, &entry->offer, &figures->model->measures[slot], ref, CRO_REF (CRO_REF_ITEM, slot),
            words);
}

/* The food of a batch; said so where disposables stand beside it. */
static void
add_batch_cost (GPtrArray         *sum,
                CroFigures        *figures,
                guint32            recipe,
                const CroSumWords *words)
{
  guint32 row = cro_figures_row (figures, recipe);
  gboolean has_others = figures->layers[CRO_LAYER_DISPOSABLES].row_cost[row] != 0;

  cro_sum_add_money (sum, figures->model, figures->layers[CRO_LAYER_FOOD].row_cost[row],
                     has_others ? words->food : NULL, CRO_REF (CRO_REF_RECIPE, recipe));
  cro_sum_mark (sum, cro_known_of_recipe (figures, recipe));
}

/* C − Σ v Q (1 − ℓ), in parentheses where by-products are credited. */
static void
add_main_of_credit (GPtrArray         *sum,
                    CroFigures        *figures,
                    guint32            recipe,
                    const CroSumWords *words)
{
  CroModel *model = figures->model;
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (figures, recipe, &outputs);

  if (n > 1)
    cro_sum_add_sign (sum, "(");
  add_batch_cost (sum, figures, recipe, words);
  for (guint32 i = 1; i < n; i++)
    {
      const CroItem *item = cro_model_item (model, outputs[i]);

      cro_sum_add_sign (sum, CRO_SUM_MINUS);
      cro_sum_add_money (sum, model, item->output.value_of_base * item->output.used, item->name,
                         CRO_REF (CRO_REF_ITEM, outputs[i]));
      cro_sum_mark (sum, cro_known_of_credit (model, outputs[i]));
    }
  if (n > 1)
    cro_sum_add_sign (sum, ")");
}

static void
add_share (GPtrArray  *sum,
           double      share,
           CroRef      ref,
           const char *says)
{
  cro_sum_add_sign (sum, CRO_SUM_TIMES);
  cro_sum_add (sum, CRO_TERM_PCT, share, 1, CRO_BASE_GRAM, says, ref);
}

/* Q (1 − ℓ). */
static void
add_used (GPtrArray         *sum,
          const CroOutput   *output,
          CroBase            base,
          CroRef             ref,
          const CroSumWords *words)
{
  if (output->lost != 0)
    cro_sum_add_sign (sum, "(");
  cro_sum_add (sum, CRO_TERM_AMOUNT, output->finished, output->amount > 0 ? CRO_SUM_ALL_DIGITS : 0,
               base, NULL, ref);
  cro_sum_add_part_left (sum, output->lost, words->lost, ref);
  if (output->lost != 0)
    cro_sum_add_sign (sum, ")");
}

static void
add_made (GPtrArray         *sum,
          CroFigures        *figures,
          guint32            slot,
          const CroSumWords *words)
{
  CroModel *model = figures->model;
  const CroItem *item = cro_model_item (model, slot);
  guint32 recipe = (guint32) model->maker[slot];
  guint8 rule = cro_model_recipe (model, recipe)->rule;
  CroBase base = (CroBase) model->measures[slot].base;
  CroRef ref = CRO_REF (CRO_REF_ITEM, slot);
  gboolean in_proportion = cro_rule_shares (rule);

  if (cro_rule_credits (rule) && !item->is_main)
    {
      cro_sum_add_price (sum, model, base, item->output.value_of_base, NULL, ref);
      return;
    }
  if (cro_rule_credits (rule))
    add_main_of_credit (sum, figures, recipe, words);
  else
    add_batch_cost (sum, figures, recipe, words);
  if (cro_rule_frees (rule) && !item->is_main)
    {
      add_share (sum, 0, ref, words->share);
      return;
    }
  if (in_proportion && cro_model_recipe (model, recipe)->n_outputs > 1)
    add_share (sum, item->output.share * item->output.used, ref, words->share);
  cro_sum_add_sign (sum, CRO_SUM_OVER);
  add_used (sum, &item->output, base, ref, words);
}

GPtrArray *
cro_sum_of_item (CroFigures        *figures,
                 guint32            slot,
                 const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &cro_sum_no_words;
  CroModel *model = figures->model;
  double unit_cost = cro_figures_unit_cost (figures, slot);
  GPtrArray *sum;

  if (isnan (unit_cost))
    return NULL;
  sum = cro_sum_begin (CRO_TERM_PRICE, unit_cost, cro_currency_digits (model->currency),
                       (CroBase) model->measures[slot].base, cro_known_of_item (figures, slot),
                       CRO_REF (CRO_REF_ITEM, slot));
  if (model->maker[slot] < 0)
    add_bought (sum, figures, slot, with);
  else
    add_made (sum, figures, slot, with);
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_share (CroFigures           *figures,
                  const CroShareOfCost *share)
{
  CroModel *model = figures->model;
  CroBase base = (CroBase) model->measures[share->item].base;
  CroRef ref = CRO_REF (CRO_REF_ITEM, share->item);
  GPtrArray *sum = cro_sum_begin_money (model, share->cost, CRO_KNOWN_WHOLE, ref);

  cro_sum_add (sum, CRO_TERM_AMOUNT, share->quantity, 0, base, NULL, ref);
  cro_sum_add_sign (sum, CRO_SUM_TIMES);
  cro_sum_add_price (sum, model, base, share->unit_cost, NULL, ref);
  return cro_sum_settle (sum);
}

GPtrArray *
cro_sum_of_trimmed (CroFigures        *figures,
                    guint32            slot,
                    const CroSumWords *words)
{
  CroModel *model = figures->model;
  const CroMeasure *measure = &model->measures[slot];
  CroBase base = (CroBase) measure->base;
  int digits = cro_currency_digits (model->currency);
  double unit_cost = cro_figures_unit_cost (figures, slot);
  CroRef ref = CRO_REF (CRO_REF_ITEM, slot);
  GPtrArray *sum;

  if (isnan (unit_cost) || measure->trim_yield == 0 || base == CRO_BASE_EACH)
    return NULL;
  sum = cro_sum_begin (CRO_TERM_PRICE,
                       unit_cost / ((double) measure->trim_yield / (double) CRO_WHOLE_PCT), digits,
                       base, cro_known_of_item (figures, slot), ref);
  cro_sum_add_price (sum, model, base, unit_cost, NULL, ref);
  cro_sum_mark (sum, cro_known_of_item (figures, slot));
  cro_sum_add_sign (sum, CRO_SUM_OVER);
  cro_sum_add_entered_pct (sum, measure->trim_yield,
                           (words != NULL ? words : &cro_sum_no_words)->yield, ref);
  return cro_sum_settle (sum);
}
