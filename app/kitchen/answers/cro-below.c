#include "cro-below.h"

#include <string.h>

#include "cro-breakdown.h"
#include "cro-reach.h"

struct _CroBelow
{
  CroFigures *figures;
  guint64    *ends;         /* bit sets: by row, by row, by node */
  guint64    *rows;
  guint64    *nodes;
};

static void
add_plate (CroBelow *self,
           guint32   plate)
{
  guint32 row = cro_figures_row (self->figures, plate);

  self->ends[row / 64] |= G_GUINT64_CONSTANT (1) << (row % 64);
}

static gboolean
is_plate (CroModel *model,
          guint32   slot)
{
  return !cro_model_recipe (model, slot)->is_dead && cro_model_recipe (model, slot)->is_plate;
}

static CroBelow *
begin (CroFigures *figures)
{
  CroBelow *self = g_new0 (CroBelow, 1);

  self->figures = figures;
  self->ends = g_new0 (guint64, figures->graph.n_rows / 64 + 1);
  self->rows = g_new0 (guint64, figures->graph.n_rows / 64 + 1);
  self->nodes = g_new0 (guint64, figures->graph.n_items / 64 + 1);
  return self;
}

static CroBelow *
end (CroBelow *self)
{
  cro_reach_down (&self->figures->graph, self->ends, self->rows, self->nodes);
  return self;
}

static void
add_plates_of_menu (CroBelow *self,
                    guint32   menu)
{
  CroModel *model = self->figures->model;

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->menu == menu)
        add_plate (self, entry->plate);
    }
}

CroBelow *
cro_below_over_target (CroFigures *figures)
{
  CroBelow *self = begin (figures);
  CroModel *model = figures->model;

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (is_plate (model, slot) && cro_figure_of_plate (figures, slot).is_over_target)
      add_plate (self, slot);
  for (guint32 slot = 0; slot < model->menus->len; slot++)
    if (!cro_model_menu (model, slot)->is_dead && cro_figure_of_menu (figures, slot).is_over_target)
      add_plates_of_menu (self, slot);
  return end (self);
}

CroBelow *
cro_below_course (CroFigures *figures,
                  const char *course)
{
  CroBelow *self = begin (figures);
  CroModel *model = figures->model;

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (is_plate (model, slot) && g_strcmp0 (cro_model_recipe (model, slot)->course, course) == 0)
      add_plate (self, slot);
  return end (self);
}

void
cro_below_free (CroBelow *self)
{
  g_free (self->ends);
  g_free (self->rows);
  g_free (self->nodes);
  g_free (self);
}

gboolean
cro_below_has_item (CroBelow *self,
                    guint32   item)
{
  guint32 node = cro_figures_node (self->figures, item);

  return self->nodes[node / 64] >> (node % 64) & 1;
}

gboolean
cro_below_has_recipe (CroBelow *self,
                      guint32   recipe)
{
  guint32 row = cro_figures_row (self->figures, recipe);

  return self->rows[row / 64] >> (row % 64) & 1;
}
