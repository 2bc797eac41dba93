#include "cro-breakdown.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-effect.h"
#include "cro-effects.h"
#include "cro-menu-ways.h"
#include "cro-money.h"
#include "cro-plate.h"
#include "cro-reach.h"
#include "cro-rule.h"
#include "cro-sold-as.h"
#include "cro-text-order.h"

/* --- Head figures ------------------------------------------------------------------------------- */

static double
fraction_of_pct (gint64 own,
                 gint64 of_book)
{
  gint64 pct = own != CRO_NOT_SET ? own : of_book;

  return pct != CRO_NOT_SET ? (double) pct / (double) CRO_WHOLE_PCT : NAN;
}

static void
set_price (CroFigure *figure,
           CroModel  *model,
           CroRef     thing,
           gint64     target)
{
  gint64 price = cro_sold_price (model, thing), tax_pct = cro_sold_tax (model, thing, NULL);

  figure->net_price = cro_net_price (price != CRO_NOT_SET, price, tax_pct);
  figure->is_untaxed = !cro_sold_has_tax (model, thing);
  figure->target_pct = 100 * fraction_of_pct (target, model->target);
  figure->food_cost_pct = cro_food_cost_pct (figure->cost, figure->net_price);
  figure->is_over_target = cro_is_over_target (figure->cost, figure->net_price,
                                               figure->target_pct / 100);
  figure->price_for_target = cro_price_for_target (figure->cost, figure->target_pct / 100,
                                                   (double) tax_pct / (double) CRO_WHOLE_PCT);
}

static void
add_guest (CroFigures *figures,
           guint32     plate,
           double      servings,
           CroFigure  *figure)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);
  guint32 row = cro_figures_row (figures, plate);
  double share = servings * cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance);
  double labour = servings * cro_plate_share (recipe->makes, recipe->per_guest, 0);

  figure->cost += share * figures->layers[CRO_LAYER_FOOD].row_cost[row];
  figure->disposables += share * figures->layers[CRO_LAYER_DISPOSABLES].row_cost[row];
  figure->labour += labour * figures->layers[CRO_LAYER_LABOUR].row_cost[row];
  figure->is_incomplete |= (figures->row_bits[row] & CRO_REACH_INCOMPLETE) != 0;
  figure->has_credit |= (figures->row_bits[row] & CRO_REACH_CREDIT) != 0;
}

CroFigure
cro_figure_of_plate (CroFigures *figures,
                     guint32     plate)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);
  CroFigure figure = { .name = recipe->name, .cheapest = NAN, .dearest = NAN };

  add_guest (figures, plate, 1, &figure);
  figure.bite = figure.cost / cro_decimal_to_double (recipe->per_guest);
  set_price (&figure, figures->model, CRO_REF (CRO_REF_RECIPE, plate), recipe->target);
  return figure;
}

/* What costs at least as much as an alternative that is known costs no less than that. */
static gboolean
may_be_cheapest (const CroMenuWays *ways,
                 const double      *cost,
                 const gboolean    *is_open,
                 guint              of)
{
  if (ways->ways[of].choice == CRO_NO_CHOICE)
    return TRUE;
  for (guint i = 0; i < ways->plates->len; i++)
    if (ways->ways[i].choice == ways->ways[of].choice && !is_open[i] && cost[i] <= cost[of])
      return FALSE;
  return TRUE;
}

/* Alternatives are compared in what their takers get, however often they are taken. */
static void
set_range (CroFigures        *figures,
           const CroMenuWays *ways,
           CroFigure         *figure)
{
  guint n = ways->plates->len;
  g_autofree double *cost = g_new (double, n + 1);
  g_autofree gboolean *is_open = g_new (gboolean, n + 1);

  for (guint i = 0; i < n; i++)
    {
      const CroMenuPlate *entry = ways->plates->pdata[i];
      CroFigure taker = { 0 };

      add_guest (figures, entry->plate, cro_decimal_to_double (entry->servings), &taker);
      cost[i] = taker.cost;
      is_open[i] = taker.is_incomplete;
      figure->is_cheapest_open |= taker.is_incomplete && taker.has_credit;
      figure->is_dearest_open |= taker.is_incomplete;
    }
  for (guint i = 0; i < n; i++)
    figure->is_cheapest_open |= is_open[i] && may_be_cheapest (ways, cost, is_open, i);
  if (!cro_way_range (ways->ways, cost, n, &figure->cheapest, &figure->dearest))
    figure->cheapest = figure->dearest = NAN;
}

static CroFigure
figure_of_ways (CroFigures        *figures,
                guint32            menu,
                const CroMenuWays *ways)
{
  const CroMenu *of = cro_model_menu (figures->model, menu);
  CroFigure figure = { .name = of->name, .bite = NAN };

  for (guint i = 0; i < ways->plates->len; i++)
    add_guest (figures, ((const CroMenuPlate *) ways->plates->pdata[i])->plate, ways->taken[i],
               &figure);
  figure.is_incomplete |= ways->plates->len == 0;
  set_range (figures, ways, &figure);
  set_price (&figure, figures->model, CRO_REF (CRO_REF_MENU, menu), of->target);
  return figure;
}

CroFigure
cro_figure_of_menu (CroFigures *figures,
                    guint32     menu)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (figures->model, menu);

  return figure_of_ways (figures, menu, ways);
}

CroPartOfMenu
cro_part_of_menu (CroFigures         *figures,
                  const CroMenuPlate *entry,
                  const CroFigure    *plate)
{
  CroPartOfMenu part = { .menu = cro_figure_of_menu (figures, entry->menu) };
  double cost = plate->cost * cro_menu_taken (figures->model, entry);

  part.of_price_pct = cro_food_cost_pct (cost, part.menu.net_price);
  part.of_cost_pct = cro_food_cost_pct (cost, part.menu.cost);
  return part;
}

double
cro_to_spare (const CroFigure *figure)
{
  return figure->target_pct / 100 * figure->net_price - figure->cost;
}

guint32
cro_tightest_menu (CroFigures *figures,
                   guint32     plate)
{
  GArray *entries = figures->model->menu_plates;
  guint32 tightest = CRO_NO_SLOT;
  double least = INFINITY;

  for (guint32 i = 0; i < entries->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (entries, CroMenuPlate, i);
      CroFigure menu;
      double room;

      if (entry->is_dead || entry->plate != plate)
        continue;
      menu = cro_figure_of_menu (figures, entry->menu);
      room = menu.target_pct - menu.food_cost_pct;
      if (tightest == CRO_NO_SLOT || room < least)
        {
          tightest = i;
          least = isnan (room) ? INFINITY : room;
        }
    }
  return tightest;
}

/* --- What it is made of ----------------------------------------------------------------------------- */

static int
compare_shares (gconstpointer a,
                gconstpointer b)
{
  const CroShareOfCost *x = a, *y = b;

  if (x->cost != y->cost)
    return x->cost > y->cost ? -1 : 1;
  return x->item < y->item ? -1 : x->item > y->item;
}

static void
add_ingredient (CroBreakdown *self,
                CroFigures   *figures,
                guint32       node)
{
  guint32 slot = figures->graph.item_of_node[node];
  double unit_cost = figures->layers[CRO_LAYER_FOOD].unit_cost[node];
  CroShareOfCost share = {
    .item = slot, .quantity = figures->effect[node], .unit_cost = unit_cost
  };

  if (share.quantity == 0 || cro_model_item (figures->model, slot)->is_disposable)
    return;
  share.cost = share.quantity * unit_cost;
  share.elasticity = cro_elasticity (share.quantity, unit_cost, self->figure.cost);
  share.ceiling = cro_ceiling (unit_cost, share.quantity, self->figure.cost,
                               self->figure.net_price, self->figure.target_pct / 100);
  g_array_append_val (self->ingredients, share);
}

/* The assigned values of one credited batch. */
static void
add_credits (CroBreakdown *self,
             CroFigures   *figures,
             guint32       row)
{
  CroModel *model = figures->model;
  const guint32 *slots;
  guint32 recipe = figures->graph.slot_of_row[row];
  guint32 n = cro_figures_outputs (figures, recipe, &slots);
  const CroOutput *main_output;
  double of_main;

  if (n < 2 || !cro_rule_credits ((CroRule) cro_model_recipe (model, recipe)->rule))
    return;
  main_output = &cro_model_item (model, slots[0])->output;
  of_main = figures->effect[cro_figures_node (figures, slots[0])];
  for (guint32 i = 1; i < n; i++)
    {
      const CroOutput *output = &cro_model_item (model, slots[i])->output;
      CroShareOfCost share = {
        .item = slots[i],
        .quantity = cro_effect_of_value (figures->effect[cro_figures_node (figures, slots[i])],
                                         of_main, output->used, main_output->used),
        .unit_cost = output->value_of_base,
      };

      share.cost = share.quantity * share.unit_cost;
      share.elasticity = share.ceiling = NAN;
      if (output->has_value && share.quantity != 0)
        g_array_append_val (self->by_products, share);
    }
}

/* One trace from the plates gives every quantity; effects are those of the food layer, and
 * the same for disposables and labour. */
static void
trace (CroBreakdown *self,
       CroFigures   *figures)
{
  const CroGraph *graph = &figures->graph;

  cro_trace (graph, figures->share, figures->row_effect, figures->effect, figures->seen_rows,
             figures->seen_nodes);
  for (guint32 row = cro_effects_next (figures, 0); row < graph->n_rows;
       row = cro_effects_next (figures, row + 1))
    add_credits (self, figures, row);
  for (guint32 node = cro_effects_next_raw (figures, 0); node < graph->n_raws;
       node = cro_effects_next_raw (figures, node + 1))
    {
      self->n_bought++;
      add_ingredient (self, figures, node);
    }
  cro_trace_clear (graph, figures->row_effect, figures->effect, figures->seen_rows,
                   figures->seen_nodes);
  g_array_sort (self->ingredients, compare_shares);
  g_array_sort (self->by_products, compare_shares);
}

/* --- What stands below --------------------------------------------------------------------------------- */

typedef struct
{
  CroFigures *figures;
  GPtrArray  *names;
} Names;

static void
note_unknown_allergens (uint32_t node,
                        void    *user_data)
{
  Names *walk = user_data;

  if (walk->figures->own_node_bits[node] & CRO_ALLERGENS_NOT_KNOWN)
    g_ptr_array_add (walk->names,
                     (gpointer) cro_model_item (walk->figures->model,
                                                walk->figures->graph.item_of_node[node])->name);
}

static void
note_assumed_lines (uint32_t row,
                    void    *user_data)
{
  Names *walk = user_data;
  CroModel *model = walk->figures->model;
  const CroGraph *graph = &walk->figures->graph;

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      uint32_t line = graph->line_slot[l];
      uint32_t item = model->lines.item[line];

      if (cro_line_is_assumed (&model->lines, line, &model->measures[item]))
        g_ptr_array_add (walk->names, (gpointer) cro_model_item (model, item)->name);
    }
}

static void
note_nothing (uint32_t index,
              void    *user_data)
{
}

static GPtrArray *
sorted_once (GPtrArray *names)
{
  guint n = 0;

  g_ptr_array_sort (names, cro_text_order);
  for (guint i = 0; i < names->len; i++)
    if (n == 0 || strcmp (names->pdata[n - 1], names->pdata[i]) != 0)
      names->pdata[n++] = names->pdata[i];
  g_ptr_array_set_size (names, (int) n);
  return names;
}

static void
mark_plates (CroFigures *figures,
             GPtrArray  *plates,
             guint32     plate)
{
  if (plates == NULL)
    cro_dirty_add_row (figures->seen_rows, cro_figures_row (figures, plate));
  else
    for (guint i = 0; i < plates->len; i++)
      cro_dirty_add_row (figures->seen_rows,
                         cro_figures_row (figures, ((CroMenuPlate *) plates->pdata[i])->plate));
}

static GPtrArray *
names_below (CroFigures    *figures,
             GPtrArray     *plates,
             guint32        plate,
             guint64        bits,
             CroReachVisit  row,
             CroReachVisit  node)
{
  Names walk = { figures, g_ptr_array_new () };

  mark_plates (figures, plates, plate);
  cro_reach_walk (&figures->graph, figures->node_bits, figures->row_bits, bits,
                  figures->seen_rows, figures->seen_nodes, row, node, &walk);
  cro_figures_forget_seen (figures);
  return sorted_once (walk.names);
}

/* name is that of the menu that plates are of. */
static GArray *
causes_below (CroFigures *figures,
              GPtrArray  *plates,
              guint32     plate,
              const char *name)
{
  CroCause empty = { CRO_CAUSE_PLATES, name };
  GArray *causes;

  mark_plates (figures, plates, plate);
  causes = cro_causes_below (figures);
  cro_figures_forget_seen (figures);
  if (plates != NULL && plates->len == 0)
    g_array_append_val (causes, empty);
  return causes;
}

GArray *
cro_causes_of_plate (CroFigures *figures,
                     guint32     plate)
{
  return causes_below (figures, NULL, plate, NULL);
}

GArray *
cro_causes_of_menu (CroFigures *figures,
                    guint32     menu)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (figures->model, menu);

  return causes_below (figures, plates, 0, cro_model_menu (figures->model, menu)->name);
}

typedef struct
{
  CroFigures *figures;
  GArray     *found;       /* CroLastPrice */
} LastPrices;

static void
note_last_price (uint32_t node,
                 void    *user_data)
{
  LastPrices *walk = user_data;
  guint32 slot = walk->figures->graph.item_of_node[node];
  CroLastPrice entry = { cro_model_item (walk->figures->model, slot)->name, 0 };

  if (!(walk->figures->own_node_bits[node] & CRO_REACH_LAST_PRICE))
    return;
  entry.since = walk->figures->last_price[slot];
  g_array_append_val (walk->found, entry);
}

static int
compare_last_prices (gconstpointer a,
                     gconstpointer b)
{
  return strcmp (((const CroLastPrice *) a)->name, ((const CroLastPrice *) b)->name);
}

static GArray *
last_prices_below (CroFigures *figures,
                   GPtrArray  *plates,
                   guint32     plate)
{
  LastPrices walk = { figures, g_array_new (FALSE, FALSE, sizeof (CroLastPrice)) };

  mark_plates (figures, plates, plate);
  cro_reach_walk (&figures->graph, figures->node_bits, figures->row_bits, CRO_REACH_LAST_PRICE,
                  figures->seen_rows, figures->seen_nodes, note_nothing, note_last_price, &walk);
  cro_figures_forget_seen (figures);
  g_array_sort (walk.found, compare_last_prices);
  return walk.found;
}

static GArray *
doubts_below (CroFigures *figures,
              GPtrArray  *plates,
              guint32     plate)
{
  GArray *doubts;

  mark_plates (figures, plates, plate);
  doubts = cro_unserved_below (figures);
  cro_figures_forget_seen (figures);
  return doubts;
}

GArray *
cro_unserved_of_plate (CroFigures *figures,
                       guint32     plate)
{
  return doubts_below (figures, NULL, plate);
}

GArray *
cro_unserved_of_menu (CroFigures *figures,
                      guint32     menu)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (figures->model, menu);

  return doubts_below (figures, plates, 0);
}

/* What a row's cost counts in the figure: of a batch all of it. */
static void
add_effect (CroFigures *figures,
            guint32     plate,
            double      servings)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);

  figures->row_effect[cro_figures_row (figures, plate)]
      += servings * (recipe->is_plate ? cro_plate_share (recipe->makes, recipe->per_guest,
                                                         recipe->allowance)
                                      : 1);
}

static CroBreakdown *
breakdown (CroFigures  *figures,
           CroFigure    figure,
           CroMenuWays *ways,
           guint32      plate)
{
  GPtrArray *plates = ways != NULL ? ways->plates : NULL;
  CroBreakdown *self = g_new0 (CroBreakdown, 1);
  guint64 bits = 0;

  self->figure = figure;
  self->ingredients = g_array_new (FALSE, FALSE, sizeof (CroShareOfCost));
  self->by_products = g_array_new (FALSE, FALSE, sizeof (CroShareOfCost));
  for (guint i = 0; i < (plates != NULL ? plates->len : 1); i++)
    {
      guint32 slot = plates != NULL ? ((CroMenuPlate *) plates->pdata[i])->plate : plate;

      add_effect (figures, slot, ways != NULL ? ways->taken[i] : 1);
      bits |= figures->row_bits[cro_figures_row (figures, slot)];
    }
  mark_plates (figures, plates, plate);
  trace (self, figures);

  self->allergens = bits & CRO_ALLERGENS_ALL;
  self->may_contain = (guint32) (bits >> CRO_REACH_MAY_CONTAIN_SHIFT) & CRO_ALLERGENS_ALL;
  self->assumed = names_below (figures, plates, plate, CRO_REACH_ASSUMED, note_assumed_lines,
                               note_nothing);
  self->allergens_not_known = names_below (figures, plates, plate, CRO_ALLERGENS_NOT_KNOWN,
                                           note_nothing, note_unknown_allergens);
  self->missing = causes_below (figures, plates, plate, figure.name);
  self->doubts = doubts_below (figures, plates, plate);
  self->last_prices = last_prices_below (figures, plates, plate);
  return self;
}

CroBreakdown *
cro_breakdown_of_plate (CroFigures *figures,
                        guint32     plate)
{
  return breakdown (figures, cro_figure_of_plate (figures, plate), NULL, plate);
}

CroBreakdown *
cro_breakdown_of_menu (CroFigures *figures,
                       guint32     menu)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (figures->model, menu);

  return breakdown (figures, figure_of_ways (figures, menu, ways), ways, 0);
}

CroBreakdown *
cro_breakdown_of_batch (CroFigures *figures,
                        guint32     preparation)
{
  guint32 row = cro_figures_row (figures, preparation);
  CroFigure figure = {
    .name = cro_model_recipe (figures->model, preparation)->name,
    .cost = figures->layers[CRO_LAYER_FOOD].row_cost[row],
    .disposables = figures->layers[CRO_LAYER_DISPOSABLES].row_cost[row],
    .labour = figures->layers[CRO_LAYER_LABOUR].row_cost[row],
    .net_price = NAN,
    .food_cost_pct = NAN,
    .target_pct = NAN,
    .price_for_target = NAN,
    .bite = NAN,
    .cheapest = NAN,
    .dearest = NAN,
    .is_incomplete = (figures->row_bits[row] & CRO_REACH_INCOMPLETE) != 0,
    .has_credit = (figures->row_bits[row] & CRO_REACH_CREDIT) != 0,
  };

  return breakdown (figures, figure, NULL, preparation);
}

void
cro_breakdown_free (CroBreakdown *self)
{
  g_array_unref (self->ingredients);
  g_array_unref (self->by_products);
  g_array_unref (self->missing);
  g_array_unref (self->doubts);
  g_array_unref (self->last_prices);
  g_ptr_array_unref (self->assumed);
  g_ptr_array_unref (self->allergens_not_known);
  g_free (self);
}
