#include "cro-effects.h"

#include "cro-effect.h"
#include "cro-menu-ways.h"
#include "cro-plate.h"

/* A guest of a plate, a batch of a preparation. */
static void
add_recipe (CroFigures *figures,
            guint32     slot,
            double      servings)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, slot);
  guint32 row = cro_figures_row (figures, slot);

  figures->row_effect[row]
      += recipe->is_plate
             ? servings * cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance)
             : servings;
  cro_dirty_add_row (figures->seen_rows, row);
}

static void
add_menu (CroFigures *figures,
          guint32     menu,
          double      times)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (figures->model, menu);

  for (guint i = 0; i < ways->plates->len; i++)
    add_recipe (figures, ((const CroMenuPlate *) ways->plates->pdata[i])->plate, times * ways->taken[i]);
}

void
cro_effects_add (CroFigures *figures,
                 CroRef      thing,
                 double      times)
{
  if (thing.kind == CRO_REF_MENU)
    add_menu (figures, thing.slot, times);
  else
    add_recipe (figures, thing.slot, times);
}

void
cro_effects_trace (CroFigures *figures,
                   CroRef      thing)
{
  cro_effects_add (figures, thing, 1);
  cro_effects_run (figures);
}

void
cro_effects_run (CroFigures *figures)
{
  cro_trace (&figures->graph, figures->share, figures->row_effect, figures->effect,
             figures->seen_rows, figures->seen_nodes);
}

void
cro_effects_clear (CroFigures *figures)
{
  cro_trace_clear (&figures->graph, figures->row_effect, figures->effect, figures->seen_rows,
                   figures->seen_nodes);
}

double
cro_effects_of_value (const CroFigures *figures,
                      guint32           main_output,
                      guint32           by_product)
{
  CroModel *model = figures->model;

  return cro_effect_of_value (figures->effect[cro_figures_node (figures, by_product)],
                              figures->effect[cro_figures_node (figures, main_output)],
                              cro_model_item (model, by_product)->output.used,
                              cro_model_item (model, main_output)->output.used);
}
