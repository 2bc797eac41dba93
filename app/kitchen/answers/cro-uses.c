#include "cro-uses.h"

#include <math.h>

#include "cro-breakdown.h"
#include "cro-carry.h"
#include "cro-effects.h"
#include "cro-landing.h"

static CroUse
use_of (CroFigures *figures,
        guint32     row,
        guint32     item)
{
  CroModel *model = figures->model;
  CroUse use = { .recipe = figures->graph.slot_of_row[row], .item = item };
  double total = cro_landing_total (figures, use.recipe)
                 + cro_landing_allowance (figures, use.recipe);
  double charged = 0;
  gboolean is_known = TRUE;

  for (guint32 i = figures->graph.first[row]; i < figures->graph.first[row + 1]; i++)
    {
      guint32 line = figures->graph.line_slot[i];

      if (model->lines.item[line] != item)
        continue;
      is_known &= cro_line_lacks (&model->lines, line, &model->measures[item])
                  == CRO_LACKS_NOTHING;
      use.net += cro_line_net (&model->lines, line, &model->measures[item]);
      charged += figures->graph.quantity[i];
    }
  /* An amount that cannot be converted is not 0. */
  use.cost = is_known ? charged * cro_item_cost_of_one (figures, item) : NAN;
  use.net = is_known ? use.net : NAN;
  use.part_pct = total > 0 ? use.cost / total * 100 : NAN;
  return use;
}

static void
collect (CroFigures *figures,
         guint32     item,
         GArray     *uses)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item);

  for (guint32 at = 0, row; cro_graph_next_user (graph, node, &at, &row);)
    {
      CroUse use = use_of (figures, row, item);

      g_array_append_val (uses, use);
    }
}

/* What has no part stands last; ties stay in the order of recipes. */
static int
compare (gconstpointer a,
         gconstpointer b)
{
  const CroUse *x = a, *y = b;

  if (isnan (x->part_pct) != isnan (y->part_pct))
    return isnan (x->part_pct) ? 1 : -1;
  if (x->part_pct > y->part_pct || x->part_pct < y->part_pct)
    return x->part_pct > y->part_pct ? -1 : 1;
  return x->recipe != y->recipe ? (x->recipe < y->recipe ? -1 : 1) : 0;
}

GArray *
cro_uses_new (CroFigures    *figures,
              const guint32 *items,
              guint          n)
{
  GArray *uses = g_array_new (FALSE, FALSE, sizeof (CroUse));

  for (guint i = 0; i < n; i++)
    collect (figures, items[i], uses);
  g_array_sort (uses, compare);
  return uses;
}

/* --- Through all preparations ----------------------------------------------------------------- */

static void
add_reached (CroFigures      *figures,
             CroRef           thing,
             guint32          item,
             double           quantity,
             const CroFigure *figure,
             GArray          *all)
{
  CroReached one = { .thing = thing, .item = item, .quantity = quantity };

  if (quantity == 0)
    return;
  one.cost = quantity * cro_figures_unit_cost (figures, item);
  one.part_pct = figure->cost > 0 ? one.cost / figure->cost * 100 : NAN;
  g_array_append_val (all, one);
}

static void
collect_plates (CroFigures *figures,
                guint32     item,
                GArray     *all)
{
  guint32 slot;

  for (guint32 row = 0; cro_effects_next_plate (figures, &row, &slot); row++)
    {
      CroFigure figure = cro_figure_of_plate (figures, slot);

      add_reached (figures, CRO_REF (CRO_REF_RECIPE, slot), item,
                   cro_carried_to_plate (figures, slot), &figure, all);
    }
}

/* Each once, whichever of its plates take it. */
static void
collect_menus (CroFigures *figures,
               guint32     item,
               GArray     *all)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (NULL, NULL);
  GArray *entries = figures->model->menu_plates;

  for (guint i = 0; i < entries->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (entries, CroMenuPlate, i);
      CroFigure figure;

      if (entry->is_dead || figures->row_effect[cro_figures_row (figures, entry->plate)] == 0
          || !g_hash_table_add (seen, GUINT_TO_POINTER (entry->menu + 1)))
        continue;
      figure = cro_figure_of_menu (figures, entry->menu);
      add_reached (figures, CRO_REF (CRO_REF_MENU, entry->menu), item,
                   cro_carried_to_menu (figures, entry->menu), &figure, all);
    }
}

static void
collect_reached (CroFigures *figures,
                 guint32     item,
                 GArray     *all)
{
  cro_carry_up (figures, item);
  collect_plates (figures, item, all);
  collect_menus (figures, item, all);
  cro_carry_clear (figures, item);
}

static int
compare_reached (gconstpointer a,
                 gconstpointer b)
{
  const CroReached *x = a, *y = b;

  if (isnan (x->part_pct) != isnan (y->part_pct))
    return isnan (x->part_pct) ? 1 : -1;
  return x->part_pct > y->part_pct ? -1 : x->part_pct < y->part_pct;
}

GArray *
cro_reached_new (CroFigures    *figures,
                 const guint32 *items,
                 guint          n)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (CroReached));

  for (guint i = 0; i < n; i++)
    if (!cro_model_item (figures->model, items[i])->is_disposable)
      collect_reached (figures, items[i], all);
  g_array_sort (all, compare_reached);
  return all;
}
