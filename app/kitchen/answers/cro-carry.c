#include "cro-carry.h"

#include <string.h>

#include "cro-effects.h"
#include "cro-menu-ways.h"
#include "cro-plate.h"

/* What a row is charged of the ingredient, and with it its outputs; and who uses these. */
static void
carry_row (CroFigures *figures,
           guint32     row)
{
  const CroGraph *graph = &figures->graph;
  double charged = 0;

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    charged += graph->quantity[l] * figures->effect[graph->part[l]];
  figures->row_effect[row] = charged;
  for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
    {
      figures->effect[node] = figures->share[node] * charged;
      if (figures->effect[node] != 0)
        for (uint32_t use = graph->used_first[node]; use < graph->used_first[node + 1]; use++)
          cro_dirty_add_row (figures->seen_rows, graph->used_in[use]);
    }
}

/* Parts stand before what uses them: one pass, in which rows are still added ahead. */
void
cro_carry_up (CroFigures *figures,
              guint32     item)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item);

  figures->effect[node] = 1;
  for (uint32_t use = graph->used_first[node]; use < graph->used_first[node + 1]; use++)
    cro_dirty_add_row (figures->seen_rows, graph->used_in[use]);
  for (guint32 row = cro_effects_next (figures, 0); row < graph->n_rows;
       row = cro_effects_next (figures, row + 1))
    carry_row (figures, row);
}

void
cro_carry_clear (CroFigures *figures,
                 guint32     item)
{
  const CroGraph *graph = &figures->graph;

  figures->effect[cro_figures_node (figures, item)] = 0;
  for (guint32 row = cro_effects_next (figures, 0); row < graph->n_rows;
       row = cro_effects_next (figures, row + 1))
    {
      figures->row_effect[row] = 0;
      for (uint32_t node = graph->made[row]; node < graph->made[row + 1]; node++)
        figures->effect[node] = 0;
    }
  memset (figures->seen_rows, 0, cro_dirty_words (graph) * sizeof *figures->seen_rows);
}

double
cro_carried_to_plate (CroFigures *figures,
                      guint32     plate)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);

  return cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance)
         * figures->row_effect[cro_figures_row (figures, plate)];
}

double
cro_carried_to_menu (CroFigures *figures,
                     guint32     menu)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (figures->model, menu);
  double quantity = 0;

  for (guint i = 0; i < ways->plates->len; i++)
    quantity += ways->taken[i]
                * cro_carried_to_plate (figures, ((const CroMenuPlate *) ways->plates->pdata[i])->plate);
  return quantity;
}
