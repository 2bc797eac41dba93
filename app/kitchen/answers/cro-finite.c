#include "cro-finite.h"

#include <math.h>

#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-plate.h"

/* Sums below this leave room for what divides by a net price, or by the value of a by-product. */
#define SAFE 1e280

/* Of so few, asking each one costs less than a sweep of the book. */
#define FEW 16

static gboolean
is_stated (double figure)
{
  return isnan (figure) || isfinite (figure);
}

static gboolean
are_shares_finite (GArray *shares)
{
  for (guint i = 0; i < shares->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (shares, CroShareOfCost, i);

      if (!isfinite (share->quantity) || !isfinite (share->unit_cost) || !isfinite (share->cost)
          || !is_stated (share->elasticity) || !is_stated (share->ceiling))
        return FALSE;
    }
  return TRUE;
}

static gboolean
is_money (double figure,
          double most)
{
  return isnan (figure) || fabs (figure) <= most;
}

static double
most_of (CroFigures *figures)
{
  return cro_money_most (cro_currency_digits (figures->model->currency));
}

static gboolean
is_finite (const CroBreakdown *breakdown,
           double              most)
{
  const CroFigure *figure = &breakdown->figure;

  return !isnan (figure->cost) && is_money (figure->cost, most)
         && is_money (figure->labour, most) && is_money (figure->disposables, most)
         && is_money (figure->net_price, most) && is_stated (figure->food_cost_pct)
         && is_money (figure->price_for_target, most) && is_money (figure->bite, most)
         && is_money (figure->cheapest, most) && is_money (figure->dearest, most)
         && are_shares_finite (breakdown->ingredients)
         && are_shares_finite (breakdown->by_products);
}

/* All bites of a plate, or a batch. */
static gboolean
is_recipe_finite (CroFigures *figures,
                  guint32     recipe,
                  double      most)
{
  guint32 row = cro_figures_row (figures, recipe);

  for (int layer = 0; layer < CRO_N_LAYERS; layer++)
    if (!is_money (figures->layers[layer].row_cost[row], most))
      return FALSE;
  return TRUE;
}

static const char *
ask_each (CroFigures *figures,
          GArray     *plates,
          GArray     *menus,
          double      most)
{
  for (guint i = 0; i < plates->len + menus->len; i++)
    {
      g_autoptr (CroBreakdown) breakdown
          = i < plates->len
                ? cro_breakdown_of_plate (figures, g_array_index (plates, guint32, i))
                : cro_breakdown_of_menu (figures, g_array_index (menus, guint32, i - plates->len));

      if (!is_finite (breakdown, most)
          || (i < plates->len
              && !is_recipe_finite (figures, g_array_index (plates, guint32, i), most)))
        return breakdown->figure.name;
    }
  return NULL;
}

static void
add_weight (CroFigures *figures,
            guint32     plate,
            double      servings,
            double     *weight)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);

  weight[cro_figures_row (figures, plate)]
      += servings * cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance);
}

/* All plates and menus as one figure: as no quantity and no share is below 0, none of theirs is
 * above what it takes of anything, and no sum of theirs above the sum of its terms. */
static double
sum_of_terms (CroFigures *figures)
{
  CroModel *model = figures->model;
  const CroGraph *graph = &figures->graph;
  g_autofree double *weight = g_new0 (double, graph->n_rows + 1);
  g_autofree double *row_effect = g_new (double, graph->n_rows + 1);
  g_autofree double *effect = g_new (double, graph->n_items + 1);
  double sum = 0;

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (cro_model_recipe (model, slot)->is_plate && !cro_model_recipe (model, slot)->is_dead)
      add_weight (figures, slot, 1, weight);
  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead)
        add_weight (figures, entry->plate, cro_decimal_to_double (entry->servings), weight);
    }
  cro_sweep_back (graph, figures->share, weight, row_effect, effect);
  for (guint32 row = 0; row < graph->n_rows; row++)
    for (int layer = 0; layer < CRO_N_LAYERS; layer++)
      sum += weight[row] * fabs (figures->layers[layer].row_cost[row]);
  for (guint32 node = 0; node < graph->n_items; node++)
    sum += effect[node]
           * (1 + fabs (figures->layers[CRO_LAYER_FOOD].unit_cost[node])
              + (node < graph->n_raws ? 0 : fabs (figures->fixed[node])));
  return sum;
}

const char *
cro_finite_find_plate (CroFigures *figures,
                       GArray     *plates,
                       GArray     *menus)
{
  double most = most_of (figures);

  if (plates->len + menus->len > FEW && sum_of_terms (figures) < MIN (SAFE, most))
    return NULL;
  return ask_each (figures, plates, menus, most);
}

const char *
cro_finite_find_any (CroFigures *figures)
{
  CroModel *model = figures->model;
  double most = most_of (figures);
  g_autoptr (GArray) plates = g_array_new (FALSE, FALSE, sizeof (guint32));
  g_autoptr (GArray) menus = g_array_new (FALSE, FALSE, sizeof (guint32));

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (!cro_model_recipe (model, i)->is_dead)
      {
        if (!is_recipe_finite (figures, i, most))
          return cro_model_recipe (model, i)->name;
        if (cro_model_recipe (model, i)->is_plate)
          g_array_append_val (plates, i);
      }
  for (guint32 i = 0; i < model->menus->len; i++)
    if (!cro_model_menu (model, i)->is_dead)
      g_array_append_val (menus, i);
  return sum_of_terms (figures) < MIN (SAFE, most)
             ? cro_finite_find_item (figures)
             : ask_each (figures, plates, menus, most);
}

const char *
cro_finite_find_item (CroFigures *figures)
{
  double most = most_of (figures);

  for (guint32 item = 0; item < figures->model->items->len; item++)
    if (!cro_model_item (figures->model, item)->is_dead
        && !is_money (cro_figures_unit_cost (figures, item), most))
      return cro_model_item (figures->model, item)->name;
  return NULL;
}

/* What a batch or a plate costs, or a unit of what it gives. */
static gboolean
is_row_finite (CroFigures *figures,
               guint32     row,
               double      most)
{
  const CroGraph *graph = &figures->graph;

  for (guint32 node = graph->made[row]; node < graph->made[row + 1]; node++)
    if (!is_money (figures->layers[CRO_LAYER_FOOD].unit_cost[node], most))
      return FALSE;
  return is_recipe_finite (figures, graph->slot_of_row[row], most);
}

const char *
cro_finite_find_first (CroFigures *figures,
                       guint      *n_more)
{
  const CroGraph *graph = &figures->graph;
  double most = most_of (figures);
  const char *first = NULL;
  guint n = 0;

  /* Of a graph parts stand before what uses them. */
  for (guint32 node = 0; node < graph->n_raws; node++)
    if (!is_money (figures->layers[CRO_LAYER_FOOD].unit_cost[node], most) && n++ == 0)
      first = cro_model_item (figures->model, graph->item_of_node[node])->name;
  for (guint32 row = 0; row < graph->n_rows; row++)
    if (!is_row_finite (figures, row, most) && n++ == 0)
      first = cro_model_recipe (figures->model, graph->slot_of_row[row])->name;
  *n_more = n > 0 ? n - 1 : 0;
  return first;
}
