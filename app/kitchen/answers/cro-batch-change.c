#include "cro-batch-change.h"

#include <math.h>

#include "cro-mass.h"
#include "cro-rule.h"

#define NO_OUTPUT G_MAXUINT32

void
cro_batch_change_begin (CroBatchChange *self,
                        CroFigures     *figures,
                        guint32         row)
{
  CroModel *model = figures->model;

  self->figures = figures;
  self->row = row;
  self->n = cro_figures_outputs (figures, figures->graph.slot_of_row[row], &self->slots);
  self->has_yield = FALSE;
  for (guint32 i = 0; i < self->n; i++)
    self->has_yield |= cro_model_item (model, self->slots[i])->output.yield > 0;
  /* Nothing else hangs on it. */
  self->grams = self->has_yield ? cro_mass_input (&figures->graph, row, &model->lines,
                                                  model->measures, NULL, NULL)
                                : -1;
  if (self->n <= self->allocated)
    return;
  self->allocated = MAX (self->n, 8);
  self->outputs = g_renew (CroOutput, self->outputs, self->allocated);
  self->measures = g_renew (CroMeasure, self->measures, self->allocated);
}

void
cro_batch_change_clear (CroBatchChange *self)
{
  g_free (self->outputs);
  g_free (self->measures);
}

/* cost and grams are what is added to those of the batch. */
static double
share_anew (CroBatchChange *self,
            double          cost,
            double          grams,
            guint32         output,
            double          factor)
{
  CroModel *model = self->figures->model;
  const CroLayer *food = &self->figures->layers[CRO_LAYER_FOOD];
  double moved = 0;

  for (guint32 i = 0; i < self->n; i++)
    {
      self->outputs[i] = cro_model_item (model, self->slots[i])->output;
      self->measures[i] = model->measures[self->slots[i]];
      if (i != output)
        continue;
      self->outputs[i].amount = llround ((double) self->outputs[i].amount * factor);
      self->outputs[i].yield = llround ((double) self->outputs[i].yield * factor);
    }
  cro_batch_share ((CroRule) cro_model_recipe (model, self->figures->graph.slot_of_row[self->row])->rule,
                   self->grams < 0 ? self->grams : self->grams + grams, self->outputs,
                   self->measures, self->n);
  for (guint32 i = 0; i < self->n; i++)
    {
      guint32 node = cro_figures_node (self->figures, self->slots[i]);
      double unit_cost = self->outputs[i].share * (food->row_cost[self->row] + cost)
                         + self->outputs[i].fixed;

      moved += self->figures->effect[node] * (unit_cost - food->unit_cost[node]);
    }
  return moved;
}

double
cro_batch_change_of_amount (CroBatchChange *self,
                            guint32         position,
                            double          factor)
{
  const CroGraph *graph = &self->figures->graph;
  CroModel *model = self->figures->model;
  double step = factor - 1;
  double cost = graph->quantity[position]
                * self->figures->layers[CRO_LAYER_FOOD].unit_cost[graph->part[position]];
  guint32 line = graph->line_slot[position];
  const CroMeasure *item = &model->measures[model->lines.item[line]];
  CroLack lack;

  if (!self->has_yield)
    return step * cost * self->figures->row_effect[self->row];
  return share_anew (self, step * cost,
                     item->is_food ? step * cro_line_grams (&model->lines, line, item, &lack) : 0,
                     NO_OUTPUT, 1);
}

/* A batch that its main output pays alone is divided by that, and nothing else moves. */
double
cro_batch_change_of_output (CroBatchChange *self,
                            guint32         output,
                            double          factor)
{
  CroFigures *figures = self->figures;
  guint32 recipe = figures->graph.slot_of_row[self->row];
  guint32 node = cro_figures_node (figures, self->slots[output]);

  if (cro_rule_frees ((CroRule) cro_model_recipe (figures->model, recipe)->rule))
    return output > 0 ? 0
                      : figures->effect[node] * figures->layers[CRO_LAYER_FOOD].unit_cost[node]
                            * (1 / factor - 1);
  return share_anew (self, 0, 0, output, factor);
}
