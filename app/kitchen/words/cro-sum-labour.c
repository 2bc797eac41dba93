#include "cro-sum-private.h"

#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-words.h"

/* Without a wage it is not known what they cost. */
static void
add_minutes (GPtrArray         *sum,
             CroModel          *model,
             gint64             minutes,
             CroRef             recipe,
             const CroSumWords *words)
{
  gboolean has_wage = model->wage_per_hour != CRO_NOT_SET;

  cro_sum_add_entered (sum, minutes, words->minutes, recipe);
  cro_sum_add_sign (sum, CRO_SUM_TIMES);
  cro_sum_add_exact (sum,
                     has_wage ? cro_words_price (model, model->wage_per_hour)
                              : cro_words_known (CRO_KNOWN_NOTHING, ""),
                     has_wage ? cro_decimal_to_double (model->wage_per_hour) : 0, words->wage,
                     CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT));
  cro_sum_add_sign (sum, CRO_SUM_OVER);
  cro_sum_add_exact (sum, g_strdup ("60"), 60, NULL, CRO_REF_NOWHERE);
}

static CroKnown
known_of_labour (CroFigures *figures,
                 guint32     item,
                 double      labour)
{
  g_autoptr (GArray) causes = cro_causes_of_item (figures, item);

  return cro_known_of_labour (figures->model, &(CroFigure){ .labour = labour }, causes);
}

GPtrArray *
cro_sum_of_labour (CroFigures        *figures,
                   guint32            preparation,
                   const CroSumWords *words)
{
  CroModel *model = figures->model;
  const CroGraph *graph = &figures->graph;
  const CroLayer *layer = &figures->layers[CRO_LAYER_LABOUR];
  guint32 row = cro_figures_row (figures, preparation);
  gint64 minutes = cro_model_recipe (model, preparation)->active_minutes;
  CroRef ref = CRO_REF (CRO_REF_RECIPE, preparation);
  const guint32 *outputs;
  guint32 n_outputs = cro_figures_outputs (figures, preparation, &outputs);
  gboolean is_first = minutes <= 0;
  GPtrArray *sum
      = cro_sum_begin_money (model, layer->row_cost[row],
                             n_outputs > 0 ? known_of_labour (figures, outputs[0], layer->row_cost[row])
                                           : CRO_KNOWN_WHOLE,
                             ref);

  if (minutes > 0)
    add_minutes (sum, model, minutes, ref, words != NULL ? words : &cro_sum_no_words);
  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 item = model->lines.item[graph->line_slot[l]];
      double cost = graph->quantity[l] * layer->unit_cost[graph->part[l]];

      if (cost == 0)
        continue;
      if (!is_first)
        cro_sum_add_sign (sum, "+");
      is_first = FALSE;
      cro_sum_add_money (sum, model, cost, cro_model_item (model, item)->name,
                         CRO_REF (CRO_REF_ITEM, item));
      cro_sum_mark (sum, known_of_labour (figures, item, cost));
    }
  if (is_first)
    cro_sum_add_money (sum, model, 0, NULL, ref);
  return cro_sum_settle (sum);
}
