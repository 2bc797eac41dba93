#include "cro-item-ceiling.h"

#include "cro-carry.h"
#include "cro-effects.h"

/* --- Holders ----------------------------------------------------------------------------------------- */

static void
hold_plates (CroFigures     *figures,
             const CroMover *price,
             CroLimit       *limit)
{
  guint32 slot;

  for (guint32 row = 0; cro_effects_next_plate (figures, &row, &slot); row++)
    {
      CroFigure figure = cro_figure_of_plate (figures, slot);

      cro_limit_hold (limit, price, cro_carried_to_plate (figures, slot), &figure,
                      CRO_REF (CRO_REF_RECIPE, slot));
    }
}

static void
hold_menu (CroFigures     *figures,
           guint32         menu,
           const CroMover *price,
           CroLimit       *limit)
{
  CroFigure figure = cro_figure_of_menu (figures, menu);
  double quantity = cro_carried_to_menu (figures, menu);

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
  cro_carry_up (figures, item);
  hold_plates (figures, price, &limit);
  hold_menus (figures, price, &limit);
  cro_carry_clear (figures, item);
  cro_limit_finish (figures, price, &limit);
  return limit;
}
