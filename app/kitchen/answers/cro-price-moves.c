#include "cro-price-moves.h"

#include <math.h>

#include "cro-bought.h"
#include "cro-decimal.h"
#include "cro-effects.h"
#include "cro-kind.h"
#include "cro-money.h"
#include "cro-moves-known.h"
#include "cro-plate.h"
#include "cro-sold.h"

/* --- Ingredients ------------------------------------------------------------------------------ */

static void
draw_course (CroPriceMove *move,
             CroPricePast *past,
             CroDate       from,
             CroDate       to)
{
  double costs[CRO_COURSE_POINTS], low = INFINITY, high = -INFINITY;

  for (int i = 0; i < CRO_COURSE_POINTS; i++)
    {
      costs[i] = cro_price_past_cost (past, move->item,
                                      from + (CroDate) ((gint64) (to - from) * i / (CRO_COURSE_POINTS - 1)));
      low = fmin (low, costs[i]);
      high = fmax (high, costs[i]);
    }
  for (int i = 0; i < CRO_COURSE_POINTS; i++)
    move->course[i] = isnan (costs[i]) ? CRO_COURSE_NONE
                      : high > low     ? (guint8) lrint ((costs[i] - low) / (high - low) * CRO_COURSE_HIGH)
                                       : CRO_COURSE_HIGH / 2;
}

/* What differs by rounding alone has not moved; NaN without a price on one of both days. */
static double
added_of (const CroPriceMove *move)
{
  double added = move->now - move->before;

  return fabs (added) <= CRO_ALLOWED * fabs (move->before) ? 0 : added;
}

static gboolean
is_rate_alone (const CroPriceMoves *self,
               const CroPriceMove  *move,
               CroPricePast        *past)
{
  double at_rates = cro_price_past_cost_at (past, move->item, self->from, self->to);

  return added_of (move) != 0 && fabs (at_rates - move->now) <= CRO_ALLOWED * fabs (move->now);
}

static void
add_items (CroPriceMoves *self,
           CroModel      *model,
           CroPricePast  *past)
{
  for (guint32 slot = 0; slot < model->items->len; slot++)
    {
      CroPriceMove move = { .item = slot, .bought = NAN, .share_pct = NAN, .money = NAN };

      if (cro_kind_name (model, CRO_KIND_INGREDIENT, slot) == NULL)
        continue;
      move.before = cro_price_past_cost (past, slot, self->from);
      move.now = cro_price_past_cost (past, slot, self->to);
      move.change_pct = move.before > 0 ? (move.now / move.before - 1) * 100 : NAN;
      move.is_rate_alone = is_rate_alone (self, &move, past);
      draw_course (&move, past, self->from, self->to);
      g_array_append_val (self->items, move);
    }
}

/* --- What was bought --------------------------------------------------------------------------- */

static gboolean
add_bought (CroPriceMoves  *self,
            CroBook        *book,
            GError        **error)
{
  g_autoptr (GArray) bought = cro_bought_between (book, self->from + 1, self->to, error);
  g_autofree double *by_item = g_new0 (double, cro_book_get_model (book)->items->len + 1);
  double all = 0;

  if (bought == NULL)
    return FALSE;
  for (guint i = 0; i < bought->len; i++)
    {
      const CroBought *row = &g_array_index (bought, CroBought, i);

      all += row->net_value;
      if (row->item != CRO_NO_SLOT)
        by_item[row->item] += row->net_value;
    }
  for (guint i = 0; bought->len > 0 && i < self->items->len; i++)
    {
      CroPriceMove *move = &g_array_index (self->items, CroPriceMove, i);

      move->bought = by_item[move->item];
      move->share_pct = all > 0 ? 100 * move->bought / all : NAN;
    }
  return TRUE;
}

/* --- What was sold ----------------------------------------------------------------------------- */

static gint64
id_of (CroModel *model,
       CroRef    thing)
{
  return thing.kind == CRO_REF_MENU ? cro_model_menu (model, thing.slot)->id
                                    : cro_model_recipe (model, thing.slot)->id;
}

static double
sold_of (GHashTable *sold,
         gint64      id)
{
  const CroSold *one = g_hash_table_lookup (sold, &id);

  if (g_hash_table_size (sold) == 0)
    return NAN;
  return one != NULL ? cro_decimal_to_double (one->sold) : 0;
}

/* Of plates and menus alike. */
static CroRef
thing_of_id (CroModel *model,
             gint64    id)
{
  guint32 plate = cro_slots_get (&model->plate_slots, id), menu = cro_slots_get (&model->menu_slots, id);

  if (plate != CRO_NO_SLOT)
    return CRO_REF (CRO_REF_RECIPE, plate);
  return menu != CRO_NO_SLOT ? CRO_REF (CRO_REF_MENU, menu) : CRO_REF_NOWHERE;
}

/* What a move does where more may be charged of the ingredient than is known. */
static guint
bits_of (const CroPriceMove *move)
{
  double added = added_of (move);

  return isnan (added) ? CRO_MOVES_NOT_KNOWN : added > 0 ? CRO_MOVES_ROSE : added < 0 ? CRO_MOVES_FELL : 0;
}

static void
value_move (CroPriceMove *move,
            double        quantity,
            gboolean      is_open)
{
  double added = added_of (move);

  if (is_open || (isnan (added) && quantity != 0))
    move->known = cro_moves_known (bits_of (move));
  move->money = quantity == 0 ? 0 : quantity * added;
  if (quantity == 0 && move->known != CRO_KNOWN_WHOLE)
    move->money = NAN;
}

static void
add_money (CroPriceMoves *self,
           CroFigures    *figures,
           GHashTable    *sold)
{
  g_autofree guint8 *open = NULL;
  GHashTableIter iter;
  gpointer one;

  if (g_hash_table_size (sold) == 0)
    return;
  g_hash_table_iter_init (&iter, sold);
  while (g_hash_table_iter_next (&iter, NULL, &one))
    {
      CroRef thing = thing_of_id (figures->model, ((const CroSold *) one)->id);

      if (thing.kind != CRO_REF_NONE)
        cro_effects_add (figures, thing, cro_decimal_to_double (((const CroSold *) one)->sold));
    }
  cro_effects_run (figures);
  open = cro_moves_open_nodes (figures);
  for (guint i = 0; i < self->items->len; i++)
    {
      CroPriceMove *move = &g_array_index (self->items, CroPriceMove, i);
      guint32 node = cro_figures_node (figures, move->item);

      if (!cro_model_item (figures->model, move->item)->is_disposable)
        value_move (move, figures->effect[node], open[node]);
    }
  cro_effects_clear (figures);
}

/* --- Plates and menus -------------------------------------------------------------------------- */

/* What every row costs more than on the first day. Owned. */
static double *
sweep_added (CroPriceMoves *self,
             CroFigures    *figures)
{
  const CroGraph *graph = &figures->graph;
  g_autofree double *unit = g_new0 (double, graph->n_items + 1);
  double *row = g_new0 (double, graph->n_rows + 1);
  CroLayer layer = { .share = figures->share, .unit_cost = unit, .row_cost = row };

  for (guint i = 0; i < self->items->len; i++)
    {
      const CroPriceMove *move = &g_array_index (self->items, CroPriceMove, i);

      if (!isnan (move->now - move->before) && !cro_model_item (figures->model, move->item)->is_disposable)
        unit[cro_figures_node (figures, move->item)] = added_of (move);
    }
  cro_sweep (graph, &layer);
  return row;
}

/* What moved of what each row is charged an unknown amount of: CroMovesBits. Owned. */
static guint8 *
sweep_open (CroPriceMoves *self,
            CroFigures    *figures)
{
  g_autofree guint8 *moved = g_new0 (guint8, figures->graph.n_items + 1);

  for (guint i = 0; i < self->items->len; i++)
    {
      const CroPriceMove *move = &g_array_index (self->items, CroPriceMove, i);

      if (!cro_model_item (figures->model, move->item)->is_disposable)
        moved[cro_figures_node (figures, move->item)] = (guint8) bits_of (move);
    }
  return cro_moves_open_rows (figures, moved);
}

static double
added_to_plate (CroFigures   *figures,
                const double *row,
                guint32       plate)
{
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);

  return cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance)
         * row[cro_figures_row (figures, plate)];
}

/* *open: the bits of its plates. */
static double
added_to_menu (CroFigures   *figures,
               const double *row,
               const guint8 *open_rows,
               guint32       menu,
               guint        *open)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (figures->model, menu);
  double added = 0;

  *open = 0;
  for (guint i = 0; i < ways->plates->len; i++)
    {
      guint32 plate = ((const CroMenuPlate *) ways->plates->pdata[i])->plate;

      added += ways->taken[i] * added_to_plate (figures, row, plate);
      if (ways->taken[i] > 0)
        *open |= open_rows[cro_figures_row (figures, plate)];
    }
  return added;
}

/* The ingredient that counts most in it, in the direction of the whole. by_node: moves by node. */
static guint32
find_through (CroFigures           *figures,
              CroRef                thing,
              double                added,
              const CroPriceMove  **by_node)
{
  guint32 through = CRO_NO_SLOT;
  double most = 0;

  cro_effects_trace (figures, thing);
  for (guint32 node = cro_effects_next_raw (figures, 0); node < figures->graph.n_raws;
       node = cro_effects_next_raw (figures, node + 1))
    {
      const CroPriceMove *move = by_node[node];
      double part = move != NULL ? figures->effect[node] * added_of (move) : 0;

      part = added < 0 ? -part : part;
      if (part > most)
        {
          most = part;
          through = move->item;
        }
    }
  cro_effects_clear (figures);
  return through;
}

static int
compare (gconstpointer a,
         gconstpointer b)
{
  const CroThingMove *x = a, *y = b;
  double one = isnan (x->money) ? x->added : x->money, other = isnan (y->money) ? y->added : y->money;

  if (fabs (one) > fabs (other) || fabs (one) < fabs (other))
    return fabs (one) > fabs (other) ? -1 : 1;
  return g_strcmp0 (x->now.name, y->now.name);
}

static void
add_thing (CroPriceMoves        *self,
           CroFigures           *figures,
           GHashTable           *sold,
           const CroPriceMove  **by_node,
           CroRef                thing,
           double                added,
           guint                 open)
{
  CroThingMove move = { .thing = thing, .added = added, .known = cro_moves_known (open) };

  move.now = thing.kind == CRO_REF_MENU ? cro_figure_of_menu (figures, thing.slot)
                                        : cro_figure_of_plate (figures, thing.slot);
  if (!(fabs (added) > CRO_ALLOWED * fabs (move.now.cost)))
    move.added = 0;
  if (move.added == 0 && move.known == CRO_KNOWN_WHOLE)
    return;
  move.sold = sold_of (sold, id_of (figures->model, thing));
  move.money = move.sold * move.added;
  move.through = find_through (figures, thing, move.added, by_node);
  g_array_append_val (self->things, move);
}

/* Disposables are no part of a food cost. */
static const CroPriceMove **
by_node_new (CroPriceMoves *self,
             CroFigures    *figures)
{
  const CroPriceMove **by_node = g_new0 (const CroPriceMove *, figures->graph.n_items + 1);

  for (guint i = 0; i < self->items->len; i++)
    {
      const CroPriceMove *move = &g_array_index (self->items, CroPriceMove, i);

      if (!isnan (move->now - move->before) && !cro_model_item (figures->model, move->item)->is_disposable)
        by_node[cro_figures_node (figures, move->item)] = move;
    }
  return by_node;
}

static void
add_things (CroPriceMoves *self,
            CroFigures    *figures,
            GHashTable    *sold)
{
  CroModel *model = figures->model;
  g_autofree double *row = sweep_added (self, figures);
  g_autofree guint8 *open_rows = sweep_open (self, figures);
  g_autofree const CroPriceMove **by_node = by_node_new (self, figures);
  guint open;

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (cro_kind_name (model, CRO_KIND_PLATE, slot) != NULL)
      add_thing (self, figures, sold, by_node, CRO_REF (CRO_REF_RECIPE, slot),
                 added_to_plate (figures, row, slot), open_rows[cro_figures_row (figures, slot)]);
  for (guint32 slot = 0; slot < model->menus->len; slot++)
    if (cro_kind_name (model, CRO_KIND_MENU, slot) != NULL)
      {
        double added = added_to_menu (figures, row, open_rows, slot, &open);

        add_thing (self, figures, sold, by_node, CRO_REF (CRO_REF_MENU, slot), added, open);
      }
  g_array_sort (self->things, compare);
}

/* --- All of it --------------------------------------------------------------------------------- */

CroPriceMoves *
cro_price_moves_new (CroBook       *book,
                     CroPricePast  *past,
                     CroDate        from,
                     GError       **error)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autoptr (CroPriceMoves) self = g_new0 (CroPriceMoves, 1);
  g_autoptr (GHashTable) sold = cro_sold_lately (book, CRO_SOLD_DAYS, NULL, error);

  self->from = MIN (from, figures->date);
  self->to = figures->date;
  self->items = g_array_new (FALSE, FALSE, sizeof (CroPriceMove));
  self->things = g_array_new (FALSE, FALSE, sizeof (CroThingMove));
  if (sold == NULL)
    return NULL;
  add_items (self, figures->model, past);
  if (!add_bought (self, book, error))
    return NULL;
  add_money (self, figures, sold);
  add_things (self, figures, sold);
  return g_steal_pointer (&self);
}

void
cro_price_moves_free (CroPriceMoves *self)
{
  g_array_unref (self->items);
  g_array_unref (self->things);
  g_free (self);
}
