#include "cro-kind.h"

#include <math.h>

#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-reach.h"

/* Where the book does not say it. */
#define OLD_DAYS 30

guint32
cro_kind_n_slots (const CroModel *model,
                  CroKind         kind)
{
  switch (kind)
    {
    case CRO_KIND_INGREDIENT:
    case CRO_KIND_OUTPUT:
      return model->items->len;
    case CRO_KIND_PREPARATION:
    case CRO_KIND_PLATE:
      return model->recipes->len;
    default:
      return model->menus->len;
    }
}

const char *
cro_kind_name (CroModel *model,
               CroKind   kind,
               guint32   slot)
{
  const CroItem *item;
  const CroRecipe *recipe;

  switch (kind)
    {
    case CRO_KIND_INGREDIENT:
    case CRO_KIND_OUTPUT:
      item = cro_model_item (model, slot);
      if (item->is_dead || (kind == CRO_KIND_INGREDIENT ? !model->measures[slot].is_bought
                                                        : model->maker[slot] < 0))
        return NULL;
      return item->name;
    case CRO_KIND_PREPARATION:
    case CRO_KIND_PLATE:
      recipe = cro_model_recipe (model, slot);
      return recipe->is_dead || recipe->is_plate != (kind == CRO_KIND_PLATE) ? NULL : recipe->name;
    default:
      return cro_model_menu (model, slot)->is_dead ? NULL : cro_model_menu (model, slot)->name;
    }
}

/* The item that stands for a preparation; CRO_NO_SLOT: it has no output. */
static guint32
main_output (CroFigures *figures,
             guint32     recipe)
{
  const guint32 *outputs;

  return cro_figures_outputs (figures, recipe, &outputs) > 0 ? outputs[0] : CRO_NO_SLOT;
}

double
cro_kind_cost (CroFigures *figures,
               CroKind     kind,
               guint32     slot)
{
  switch (kind)
    {
    case CRO_KIND_INGREDIENT:
    case CRO_KIND_OUTPUT:
      return cro_figures_unit_cost (figures, slot);
    case CRO_KIND_PREPARATION:
      slot = main_output (figures, slot);
      return slot != CRO_NO_SLOT ? cro_figures_unit_cost (figures, slot) : NAN;
    case CRO_KIND_PLATE:
      return cro_figure_of_plate (figures, slot).cost;
    default:
      return cro_figure_of_menu (figures, slot).cost;
    }
}

double
cro_kind_food_cost_pct (CroFigures *figures,
                        CroKind     kind,
                        guint32     slot)
{
  if (kind == CRO_KIND_PLATE)
    return cro_figure_of_plate (figures, slot).food_cost_pct;
  return kind == CRO_KIND_MENU ? cro_figure_of_menu (figures, slot).food_cost_pct : NAN;
}

double
cro_kind_target_pct (CroFigures *figures,
                     CroKind     kind,
                     guint32     slot)
{
  if (kind == CRO_KIND_PLATE)
    return cro_figure_of_plate (figures, slot).target_pct;
  return kind == CRO_KIND_MENU ? cro_figure_of_menu (figures, slot).target_pct : NAN;
}

CroDate
cro_kind_price_from (CroFigures *figures,
                     CroKind     kind,
                     guint32     slot)
{
  if (kind != CRO_KIND_INGREDIENT || figures->offer_in_use[slot] == CRO_NO_SLOT)
    return CRO_NO_DATE;
  return cro_model_offer (figures->model, figures->offer_in_use[slot])->offer.from;
}

guint
cro_kind_old_days (const CroModel *model)
{
  return model->stale_after_days != CRO_NOT_SET ? (guint) (model->stale_after_days / CRO_MICRO) : OLD_DAYS;
}

gboolean
cro_kind_is_price_old (CroFigures *figures,
                       guint32     item,
                       guint       days)
{
  CroDate from = cro_kind_price_from (figures, CRO_KIND_INGREDIENT, item);

  return from != CRO_NO_DATE && from < figures->date - (CroDate) days
         && cro_kind_cost (figures, CRO_KIND_INGREDIENT, item) > 0;
}

gboolean
cro_kind_is_incomplete (CroFigures *figures,
                        CroKind     kind,
                        guint32     slot)
{
  switch (kind)
    {
    case CRO_KIND_INGREDIENT:
    case CRO_KIND_OUTPUT:
      return (figures->node_bits[cro_figures_node (figures, slot)] & CRO_REACH_INCOMPLETE) != 0;
    case CRO_KIND_PREPARATION:
    case CRO_KIND_PLATE:
      return (figures->row_bits[cro_figures_row (figures, slot)] & CRO_REACH_INCOMPLETE) != 0;
    default:
      return cro_figure_of_menu (figures, slot).is_incomplete;
    }
}

gboolean
cro_kind_is_over_target (CroFigures *figures,
                         CroKind     kind,
                         guint32     slot)
{
  if (kind == CRO_KIND_PLATE)
    return cro_figure_of_plate (figures, slot).is_over_target;
  return kind == CRO_KIND_MENU && cro_figure_of_menu (figures, slot).is_over_target;
}

static gboolean
is_taken (const CroFigures *figures,
          guint32           item)
{
  guint32 node = cro_figures_node (figures, item);

  return figures->graph.used_first[node + 1] > figures->graph.used_first[node];
}

static gboolean
is_carried (CroModel *model,
            guint32   plate)
{
  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->plate == plate)
        return TRUE;
    }
  return FALSE;
}

gboolean
cro_kind_is_used (CroFigures *figures,
                  CroKind     kind,
                  guint32     slot)
{
  const guint32 *outputs;
  guint32 n;

  switch (kind)
    {
    case CRO_KIND_INGREDIENT:
    case CRO_KIND_OUTPUT:
      return is_taken (figures, slot);
    case CRO_KIND_PREPARATION:
      n = cro_figures_outputs (figures, slot, &outputs);
      for (guint32 i = 0; i < n; i++)
        if (is_taken (figures, outputs[i]))
          return TRUE;
      return FALSE;
    case CRO_KIND_PLATE:
      return is_carried (figures->model, slot);
    default:
      return TRUE;
    }
}
