#include "cro-line-doubt.h"

/* Of 100 per cent in millionths: trims above it lose so little that a batch says nothing of them. */
#define MOST_YIELD (CRO_WHOLE_PCT * 7 / 10)

/* What a weighed output may have more than the trim leaves: salt, a sauce, another hand. */
#define TOLERANCE 1.2

/* The mass that goes into a recipe, in grams; 0 if a line of it cannot be weighed. */
static double
input_grams (CroFigures *figures,
             guint32     recipe)
{
  const CroGraph *graph = &figures->graph;
  CroModel *model = figures->model;
  guint32 row = cro_figures_row (figures, recipe);
  double grams = 0;

  for (guint32 l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 line = graph->line_slot[l];
      const CroMeasure *measure = &model->measures[model->lines.item[line]];
      CroLack lack;

      if (!measure->is_food)
        continue;
      grams += cro_line_grams (&model->lines, line, measure, &lack);
      if (lack != CRO_LACKS_NOTHING)
        return 0;
    }
  return grams;
}

/* Of the main output, as weighed or as its yield of what goes in; 0: it cannot be had in grams. */
static double
output_grams (CroFigures *figures,
              guint32     recipe)
{
  const guint32 *outputs;
  const CroOutput *output;

  if (cro_figures_outputs (figures, recipe, &outputs) == 0)
    return 0;
  output = &cro_model_item (figures->model, outputs[0])->output;
  return output->finished * figures->model->measures[outputs[0]].grams[cro_unit_get (output->unit)->base];
}

gboolean
cro_line_loses_twice (CroFigures *figures,
                      guint32     line,
                      double     *net,
                      double     *bought)
{
  CroModel *model = figures->model;
  const CroMeasure *measure = &model->measures[model->lines.item[line]];
  guint32 recipe = (guint32) model->lines.row[line];
  gint64 yield = cro_line_yield (&model->lines, line, measure);
  double of_all, given, own;
  CroLack lack;

  /* A yield of the line's own buys as much as a trim yield does. Of what is made it is asked about by itself. */
  if (yield > MOST_YIELD || cro_model_recipe (model, recipe)->is_plate
      || (model->lines.yield[line] != 0 && model->maker[model->lines.item[line]] >= 0))
    return FALSE;
  of_all = input_grams (figures, recipe);
  given = output_grams (figures, recipe);
  own = cro_line_grams (&model->lines, line, measure, &lack);
  *net = cro_line_net (&model->lines, line, measure);
  *bought = cro_line_charged (&model->lines, line, measure);
  return given > 0 && own >= of_all / 2
         && given <= TOLERANCE * of_all * (double) yield / (double) CRO_WHOLE_PCT;
}
