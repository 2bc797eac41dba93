#include "cro-sum-private.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-landing.h"
#include "cro-money.h"
#include "cro-number.h"

/* What is not known is no 0. */
static void
add_line_of_batch (GPtrArray  *sum,
                   CroFigures *figures,
                   uint32_t    position)
{
  CroModel *model = figures->model;
  uint32_t line = figures->graph.line_slot[position];
  guint32 item = model->lines.item[line];
  double cost = cro_line_cost (figures, position);
  CroRef ref = CRO_REF (CRO_REF_LINE, line);

  if (isnan (cost))
    cro_sum_add_exact (sum, cro_words_known (CRO_KNOWN_NOTHING, ""), 0,
                       cro_model_item (model, item)->name, ref);
  else
    {
      cro_sum_add_money (sum, model, cost, cro_model_item (model, item)->name, ref);
      cro_sum_mark (sum, cro_known_of_taken (figures, item, cost));
    }
}

GPtrArray *
cro_sum_of_batch (CroFigures        *figures,
                  guint32            recipe,
                  const CroSumWords *words)
{
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, recipe);
  GPtrArray *sum;

  if (graph->first[row] == graph->first[row + 1])
    return NULL;
  sum = cro_sum_begin_money (figures->model, cro_landing_total (figures, recipe),
                             cro_known_of_recipe (figures, recipe),
                             CRO_REF (CRO_REF_RECIPE, recipe));
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      if (l > graph->first[row])
        cro_sum_add_sign (sum, "+");
      add_line_of_batch (sum, figures, l);
    }
  return cro_sum_settle (sum);
}

/* Food, and what disposables of its batch add to it. */
static void
add_unit_cost (GPtrArray         *sum,
               CroFigures        *figures,
               guint32            slot,
               const CroSumWords *words)
{
  CroModel *model = figures->model;
  CroBase base = (CroBase) model->measures[slot].base;
  CroRef item = CRO_REF (CRO_REF_ITEM, slot);
  const char *name = cro_model_item (model, slot)->name;
  double of_disposables
      = cro_model_item (model, slot)->is_disposable
            ? 0
            : figures->layers[CRO_LAYER_DISPOSABLES].unit_cost[cro_figures_node (figures, slot)];

  cro_sum_add_sign (sum, CRO_SUM_TIMES);
  if (of_disposables != 0)
    cro_sum_add_sign (sum, "(");
  cro_sum_add_price (sum, model, base, cro_figures_unit_cost (figures, slot), name, item);
  cro_sum_mark (sum, cro_known_of_item (figures, slot));
  if (of_disposables == 0)
    return;
  cro_sum_add_sign (sum, "+");
  cro_sum_add_price (sum, model, base, of_disposables, words->disposables, item);
  cro_sum_add_sign (sum, ")");
}

/* Lines are shown so that they add up to their batch (cro_landing_dup_lines): where that is not the
 * nearest minor unit, more digits say why. */
#define MORE_DIGITS 2

static double
cost_of_line (CroFigures *figures,
              guint32     line)
{
  guint32 slot = figures->model->lines.item[line];

  return cro_line_charged (&figures->model->lines, line, &figures->model->measures[slot])
         * cro_item_cost_of_one (figures, slot);
}

gboolean
cro_sum_line_is_shifted (CroFigures *figures,
                         guint32     line)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, figures->model->lines.item[line]);
  int digits = cro_currency_digits (figures->model->currency);

  for (guint32 u = graph->used_first[node]; u < graph->used_first[node + 1]; u++)
    for (guint32 row = graph->used_in[u], l = graph->first[row]; l < graph->first[row + 1]; l++)
      if (graph->line_slot[l] == line)
        {
          gint64 total;
          g_autofree gint64 *minor
              = cro_landing_dup_lines (figures, graph->slot_of_row[row], &total);

          return minor[l - graph->first[row]] != cro_money_round (cost_of_line (figures, line), digits);
        }
  return FALSE;
}

static int
digits_of_line (CroFigures *figures,
                guint32     line)
{
  return cro_currency_digits (figures->model->currency)
         + (cro_sum_line_is_shifted (figures, line) ? MORE_DIGITS : 0);
}

static GPtrArray *
begin_line (CroFigures *figures,
            guint32     line)
{
  guint32 slot = figures->model->lines.item[line];
  double cost = cost_of_line (figures, line);

  return cro_sum_begin (CRO_TERM_MONEY, cost, digits_of_line (figures, line), CRO_BASE_GRAM,
                        cro_known_of_taken (figures, slot, cost), CRO_REF (CRO_REF_LINE, line));
}

GPtrArray *
cro_sum_of_line (CroFigures        *figures,
                 guint32            line,
                 const CroSumWords *words)
{
  const CroSumWords *with = words != NULL ? words : &cro_sum_no_words;
  CroModel *model = figures->model;
  const CroLines *lines = &model->lines;
  guint32 slot = lines->item[line];
  const CroMeasure *measure = &model->measures[slot];
  CroUnit unit = (CroUnit) lines->unit[line];
  gint64 yield = cro_line_yield (lines, line, measure);
  double written = cro_decimal_to_double (lines->amount[line]) * cro_unit_factor (unit)
                   * (1 - (double) lines->recovered[line] / (double) CRO_WHOLE_PCT);
  CroRef ref = CRO_REF (CRO_REF_LINE, line);
  CroRef item = CRO_REF (CRO_REF_ITEM, slot);
  GPtrArray *sum;

  if (isnan (cro_figures_unit_cost (figures, slot))
      || cro_line_lacks (lines, line, measure) != CRO_LACKS_NOTHING)
    return NULL;
  sum = begin_line (figures, line);
  cro_sum_add_amount (sum, lines->amount[line], unit, ref);
  if (written > 0)
    cro_sum_add_conversion (sum, cro_unit_get (unit)->base, (CroBase) measure->base,
                            cro_line_net (lines, line, measure) / written, item);
  cro_sum_add_part_left (sum, lines->recovered[line], with->comes_back, ref);
  if (yield != CRO_WHOLE_PCT)
    {
      cro_sum_add_sign (sum, CRO_SUM_OVER);
      cro_sum_add_entered_pct (sum, yield, with->yield, lines->yield[line] != 0 ? ref : item);
    }
  add_unit_cost (sum, figures, slot, with);
  return cro_sum_settle (sum);
}
