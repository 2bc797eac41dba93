#include "config.h"

#include "cro-flow-figures.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-known.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

double
cro_flow_total (const CroFlow  *flow,
                CroFlowMeasure  measure)
{
  const CroFlowNode *whole = cro_flow_node (flow, 0);

  return measure == CRO_FLOW_MONEY ? whole->money : whole->grams;
}

double
cro_flow_size (const CroFlowShown *shown,
               guint               node)
{
  const CroFlowNode *of = cro_flow_node (shown->flow, node);

  return (shown->measure == CRO_FLOW_MONEY ? of->money : of->grams)
         * (shown->part != NULL ? shown->part[node] : 1);
}

gboolean
cro_flow_makes_up_cost (CroFlowKind kind)
{
  return kind == CRO_FLOW_BOUGHT || kind == CRO_FLOW_ELSEWHERE || kind == CRO_FLOW_TO_OTHERS;
}

void
cro_flow_apportion (const CroFlow *flow,
                    int            digits,
                    gint64        *minor)
{
  guint n = flow->nodes->len;
  g_autofree double *parts = g_new0 (double, n + 1);
  g_autofree guint64 *order = g_new (guint64, n + 1);

  for (guint i = 0; i < n; i++)
    if (cro_flow_makes_up_cost (cro_flow_node (flow, i)->kind))
      parts[i] = cro_flow_node (flow, i)->kind == CRO_FLOW_TO_OTHERS ? -cro_flow_node (flow, i)->money
                                                               : cro_flow_node (flow, i)->money;
  cro_money_apportion (cro_money_round (cro_flow_node (flow, 0)->money, digits), parts, n, digits, order,
                       minor);
}

char *
cro_flow_amount_text (const CroFlowShown *shown,
                      double              amount)
{
  return shown->measure == CRO_FLOW_MONEY ? cro_words_money (shown->model, amount)
                                      : cro_words_amount (CRO_BASE_GRAM, amount);
}

char *
cro_flow_money_text (const CroFlowShown *shown,
                     gint64              minor,
                     double              money)
{
  int digits = cro_currency_digits (shown->model->currency);
  g_autofree char *text = cro_money_to_text (minor != 0 || !(money > 0) ? minor : 1, digits);

  /* Translators: less than the least amount of money, "< 0.01". */
  return minor != 0 || !(money > 0) ? g_steal_pointer (&text) : g_strdup_printf (_("< %s"), text);
}

CroKnown
cro_flow_node_known (const CroFlowShown *shown,
                     guint               node)
{
  const CroFlowNode *of = cro_flow_node (shown->flow, node);

  if (shown->measure == CRO_FLOW_WEIGHT)
    return of->is_weighed ? CRO_KNOWN_WHOLE : of->grams > 0 ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_NOTHING;
  if (of->is_missing && of->kind == CRO_FLOW_BOUGHT)
    return of->money > 0 ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_NOTHING;
  return of->is_missing && of->kind == CRO_FLOW_ELSEWHERE && !(of->money > 0) ? CRO_KNOWN_NOTHING : CRO_KNOWN_WHOLE;
}

char *
cro_flow_node_plain (const CroFlowShown *shown,
                     guint               node)
{
  const CroFlowNode *of = cro_flow_node (shown->flow, node);

  if (shown->measure == CRO_FLOW_MONEY && cro_flow_makes_up_cost (of->kind) && shown->minor != NULL)
    return cro_flow_money_text (shown, ABS (shown->minor[node]), fabs (of->money));
  return cro_flow_amount_text (shown, cro_flow_size (shown, node));
}

char *
cro_flow_node_text (const CroFlowShown *shown,
                    guint               node)
{
  return cro_words_take_short (cro_flow_node_known (shown, node), cro_flow_node_plain (shown, node));
}
