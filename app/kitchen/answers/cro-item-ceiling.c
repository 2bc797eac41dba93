#include "cro-item-ceiling.h"

#include <string.h>

#include "cro-effects.h"
#include "cro-plate.h"

/* --- Upwards ---------------------------------------------------------------------------------------- */

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
static void
carry_up (CroFigures *figures,
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

static void
clear (CroFigures *figures,
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

/* --- Holders ----------------------------------------------------------------------------------------- */

/* Base units of it that a guest of a plate is charged. */
static double
quantity_of_plate (CroFigures *figures,
                   guint32     plate)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);

  return cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance)
         * figures->row_effect[cro_figures_row (figures, plate)];
}

static void
hold_plates (CroFigures     *figures,
             const CroMover *price,
             CroLimit       *limit)
{
  for (guint32 row = cro_effects_next (figures, 0); row < figures->graph.n_rows;
       row = cro_effects_next (figures, row + 1))
    {
      guint32 slot = figures->graph.slot_of_row[row];
      CroFigure figure;

      if (!cro_model_recipe (figures->model, slot)->is_plate || figures->row_effect[row] == 0)
        continue;
      figure = cro_figure_of_plate (figures, slot);
      cro_limit_hold (limit, price, quantity_of_plate (figures, slot), &figure,
                      CRO_REF (CRO_REF_RECIPE, slot));
    }
}

static void
hold_menu (CroFigures     *figures,
           guint32         menu,
           const CroMover *price,
           CroLimit       *limit)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (figures->model, menu);
  CroFigure figure = cro_figure_of_menu (figures, menu);
  double quantity = 0;

  for (guint i = 0; i < ways->plates->len; i++)
    quantity += ways->taken[i]
                * quantity_of_plate (figures,
                                     ((const CroMenuPlate *) ways->plates->pdata[i])->plate);
  if (quantity != 0)
    cro_limit_hold (limit, price, quantity, &figure, CRO_REF (CRO_REF_MENU, menu));
}

/* Each once, whichever of its plates take it. */
static void
hold_menus (CroFigures     *figures,
            const CroMover *price,
            CroLimit       *limit)
{
  g_autoptr (GHashTable) held = g_hash_table_new (NULL, NULL);
  GArray *entries = figures->model->menu_plates;

  for (guint i = 0; i < entries->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (entries, CroMenuPlate, i);

      if (!entry->is_dead && figures->row_effect[cro_figures_row (figures, entry->plate)] != 0
          && g_hash_table_add (held, GUINT_TO_POINTER (entry->menu + 1)))
        hold_menu (figures, entry->menu, price, limit);
    }
}

CroLimit
cro_ceiling_of_item (CroFigures *figures,
                     guint32     item,
                     CroMover   *price)
{
  CroLimit limit = cro_limit_none (CRO_REF (CRO_REF_ITEM, item));

  *price = (CroMover){
    .kind = CRO_MOVER_PRICE, .item = item, .line = CRO_NO_SLOT, .recipe = CRO_NO_SLOT,
    .value = figures->layers[CRO_LAYER_FOOD].unit_cost[cro_figures_node (figures, item)],
  };
  if (cro_model_item (figures->model, item)->is_disposable)
    return limit;
  carry_up (figures, item);
  hold_plates (figures, price, &limit);
  hold_menus (figures, price, &limit);
  clear (figures, item);
  cro_limit_finish (figures, price, &limit);
  return limit;
}
