#include "cro-landing.h"

#include <math.h>

#include "cro-mass.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-rule.h"

double
cro_landing_total (CroFigures *figures,
                   guint32     recipe)
{
  guint32 row = cro_figures_row (figures, recipe);

  return figures->layers[CRO_LAYER_FOOD].row_cost[row]
         + figures->layers[CRO_LAYER_DISPOSABLES].row_cost[row];
}

double
cro_landing_allowance (CroFigures *figures,
                       guint32     recipe)
{
  gint64 allowance = cro_model_recipe (figures->model, recipe)->allowance;

  return allowance > 0
             ? (double) allowance / (double) CRO_WHOLE_PCT * cro_landing_total (figures, recipe)
             : 0;
}

double
cro_item_cost_of_one (CroFigures *figures,
                      guint32     item)
{
  guint32 node = cro_figures_node (figures, item);

  return isnan (cro_figures_unit_cost (figures, item))
             ? NAN
             : figures->layers[CRO_LAYER_FOOD].unit_cost[node]
                   + figures->layers[CRO_LAYER_DISPOSABLES].unit_cost[node];
}

gboolean
cro_line_is_known (CroFigures *figures,
                   guint32     line)
{
  const CroModel *model = figures->model;
  guint32 item = model->lines.item[line];

  return !isnan (cro_figures_unit_cost (figures, item))
         && cro_line_lacks (&model->lines, line, &model->measures[item]) == CRO_LACKS_NOTHING;
}

double
cro_line_cost (CroFigures *figures,
               guint32     position)
{
  guint32 line = figures->graph.line_slot[position];

  return cro_line_is_known (figures, line)
             ? figures->graph.quantity[position]
                   * cro_item_cost_of_one (figures, figures->model->lines.item[line])
             : NAN;
}

/* Minor units of all lines, of one more behind them and of the seasoning; *n: how many lines there are. */
static gint64 *
dup_lines (CroFigures *figures,
           guint32     recipe,
           double      added,
           guint32    *n,
           gint64     *total)
{
  guint32 row = cro_figures_row (figures, recipe);
  guint32 first = figures->graph.first[row];
  int digits = cro_currency_digits (figures->model->currency);
  double all = cro_landing_total (figures, recipe) + added;
  double seasoning = (double) cro_model_recipe (figures->model, recipe)->allowance;
  g_autofree double *parts = NULL;
  g_autofree guint64 *order = NULL;
  guint32 n_parts;
  gint64 *minor;

  *n = figures->graph.first[row + 1] - first;
  parts = g_new (double, *n + 2);
  order = g_new (guint64, *n + 2);
  minor = g_new0 (gint64, *n + 2);
  /* Of what is not known the total has what is known, a credit for one. */
  for (guint32 i = 0; i < *n; i++)
    {
      guint32 node = figures->graph.part[first + i];

      parts[i] = figures->graph.quantity[first + i]
                 * (figures->layers[CRO_LAYER_FOOD].unit_cost[node]
                    + figures->layers[CRO_LAYER_DISPOSABLES].unit_cost[node]);
    }
  n_parts = *n;
  if (added != 0)
    parts[n_parts++] = added;
  if (seasoning > 0)
    parts[n_parts++] = seasoning / (double) CRO_WHOLE_PCT * all;
  *total = cro_money_round (all + (seasoning > 0 ? parts[n_parts - 1] : 0), digits);
  cro_money_apportion (*total, parts, n_parts, digits, order, minor);
  return minor;
}

gint64 *
cro_landing_dup_lines (CroFigures *figures,
                       guint32     recipe,
                       gint64     *total)
{
  guint32 n;

  return dup_lines (figures, recipe, 0, &n, total);
}

gint64
cro_landing_of_added (CroFigures *figures,
                      guint32     recipe,
                      double      cost)
{
  guint32 n;
  gint64 total;
  g_autofree gint64 *minor = dup_lines (figures, recipe, cost, &n, &total);

  return cost != 0 ? minor[n] : 0;
}

/* What each output bears; NaN where that is not known. Owned; *n is how many. */
static double *
dup_money (CroFigures *figures,
           guint32     preparation,
           CroRule     rule,
           guint32    *n)
{
  CroModel *model = figures->model;
  guint32 row = cro_figures_row (figures, preparation);
  double all = cro_landing_total (figures, preparation);
  const guint32 *slots;
  guint32 count = cro_figures_outputs (figures, preparation, &slots);
  g_autofree CroOutput *outputs = g_new (CroOutput, count + 1);
  g_autofree CroMeasure *measures = g_new (CroMeasure, count + 1);
  double *money = g_new (double, count + 1);

  for (guint32 i = 0; i < count; i++)
    {
      outputs[i] = cro_model_item (model, slots[i])->output;
      measures[i] = model->measures[slots[i]];
    }
  if (count > 0)
    cro_batch_share (rule,
                     cro_mass_input (&figures->graph, row, &model->lines, model->measures, NULL,
                                     NULL),
                     outputs, measures, count);
  for (guint32 i = 0; i < count; i++)
    /* What carries no cost needs no amount to carry none of it. */
    if (cro_rule_frees (rule))
      money[i] = i == 0 ? all : 0;
    else
      money[i] = outputs[i].is_known && outputs[i].finished > 0
                     ? (outputs[i].share * all + outputs[i].fixed) * outputs[i].used
                     : NAN;
  *n = count;
  return money;
}

char **
cro_landing_dup_texts (CroFigures *figures,
                       guint32     preparation,
                       CroRule     rule)
{
  int digits = cro_currency_digits (figures->model->currency);
  guint32 n;
  g_autofree double *money = dup_money (figures, preparation, rule, &n);
  g_autofree guint64 *order = g_new (guint64, n + 1);
  g_autofree gint64 *minor = g_new (gint64, n + 1);
  char **texts = g_new0 (char *, n + 1);
  gboolean is_known = TRUE;

  for (guint32 i = 0; i < n; i++)
    is_known &= !isnan (money[i]);
  if (is_known)
    cro_money_apportion (cro_money_round (cro_landing_total (figures, preparation), digits), money,
                         n, digits, order, minor);
  for (guint32 i = 0; i < n; i++)
    texts[i] = is_known          ? cro_money_to_text (minor[i], digits)
               : isnan (money[i]) ? g_strdup (CRO_LANDING_NOWHERE)
                                  : cro_money_to_text (cro_money_round (money[i], digits), digits);
  return texts;
}

double *
cro_landing_dup_parts (CroFigures *figures,
                       guint32     preparation,
                       CroRule     rule,
                       guint32    *n)
{
  double total = cro_landing_total (figures, preparation);
  g_autofree double *parts = dup_money (figures, preparation, rule, n);
  g_autofree guint64 *order = g_new (guint64, *n + 1);
  g_autofree gint64 *tenths = g_new (gint64, *n + 1);
  gboolean is_known = total > 0;

  for (guint32 i = 0; i < *n; i++)
    {
      is_known &= !isnan (parts[i]);
      parts[i] *= 100 / total;
    }
  if (!is_known || *n == 0)
    return NULL;
  cro_money_apportion (1000, parts, *n, 1, order, tenths);
  for (guint32 i = 0; i < *n; i++)
    parts[i] = (double) tenths[i] / 10;
  return g_steal_pointer (&parts);
}
