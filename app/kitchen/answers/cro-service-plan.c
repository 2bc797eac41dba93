#include "cro-service-plan.h"

#include <math.h>
#include <string.h>

#include "cro-cause-order.h"
#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-own-pack.h"
#include "cro-plan.h"
#include "cro-plate.h"
#include "cro-service-orders.h"

/* What the engine takes and gives, by node and row of the graph. */
typedef struct
{
  CroFigures     *figures;
  double         *times;
  gint64         *smallest;
  double         *used;
  double         *in_house;
  double         *of_batch;
  CroPan         *pans;
  CroPlanSource   source;
  CroPlan         run;
  guint8         *row_marks;
  guint8         *node_marks;
  guint32        *depth;
  CroServicePlan *plan;
  gboolean        has_choice;
  gboolean        is_at_once;   /* what runs is made in one batch, however large */
} Planning;

static void
planning_init (Planning       *self,
               CroFigures     *figures,
               CroServicePlan *plan)
{
  gsize items = figures->graph.n_items + 1, rows = figures->graph.n_rows + 1;

  *self = (Planning){
    .figures = figures,
    .plan = plan,
    .times = g_new0 (double, rows),
    .smallest = g_new0 (gint64, rows),
    .used = g_new0 (double, items),
    .in_house = g_new0 (double, items),
    .of_batch = g_new0 (double, items),
    .run = { g_new (double, items), g_new (double, items), g_new (double, rows),
             g_new (double, rows) },
    .row_marks = g_new0 (guint8, rows),
    .node_marks = g_new0 (guint8, items),
    .depth = g_new (guint32, rows),
  };
}

static void
planning_clear (Planning *self)
{
  g_free (self->times);
  g_free (self->smallest);
  g_free (self->used);
  g_free (self->in_house);
  g_free (self->of_batch);
  g_free (self->pans);
  g_free (self->run.need);
  g_free (self->run.pan);
  g_free (self->run.runs);
  g_free (self->run.batches);
  g_free (self->row_marks);
  g_free (self->node_marks);
  g_free (self->depth);
}

/* --- What is asked ---------------------------------------------------------------------------------- */

static void
serve_plate (Planning *self,
             guint32   plate,
             double    guests)
{
  const CroRecipe *recipe = cro_model_recipe (self->figures->model, plate);

  self->times[cro_figures_row (self->figures, plate)]
      += guests * cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance);
}

/* What covers cost, and what they may cost by what guests choose. */
static void
add_theoretical (Planning *self,
                 double    covers,
                 double    cost,
                 double    cheapest,
                 double    dearest)
{
  self->plan->theoretical += covers * cost;
  self->plan->cheapest += covers * cheapest;
  self->plan->dearest += covers * dearest;
}

static double
cost_of (const CroFigure *figure)
{
  return figure->cost + figure->disposables;
}

static void
serve_menu (Planning *self,
            guint32   menu,
            double    covers)
{
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (self->figures->model, menu);
  CroFigure figure = cro_figure_of_menu (self->figures, menu);
  guint n = ways->plates->len;
  g_autofree double *costs = g_new (double, n + 1);
  double cheapest, dearest;

  for (guint i = 0; i < n; i++)
    {
      const CroMenuPlate *entry = ways->plates->pdata[i];
      CroFigure plate = cro_figure_of_plate (self->figures, entry->plate);

      costs[i] = cro_decimal_to_double (entry->servings) * cost_of (&plate);
      serve_plate (self, entry->plate, covers * ways->taken[i]);
    }
  if (cro_way_range (ways->ways, costs, n, &cheapest, &dearest) && covers > 0)
    self->has_choice = TRUE;
  add_theoretical (self, covers, cost_of (&figure), cheapest, dearest);
}

static void
serve (Planning        *self,
       const CroCovers *covers)
{
  double n = cro_decimal_to_double (covers->covers);
  CroFigure figure;

  if (covers->thing.kind == CRO_REF_MENU)
    {
      serve_menu (self, covers->thing.slot, n);
      return;
    }
  figure = cro_figure_of_plate (self->figures, covers->thing.slot);
  add_theoretical (self, n, cost_of (&figure), cost_of (&figure), cost_of (&figure));
  serve_plate (self, covers->thing.slot, n);
}

static void
take_stock (Planning         *self,
            const CroInHouse *entry)
{
  CroModel *model = self->figures->model;
  guint32 node = cro_figures_node (self->figures, entry->item);
  double amount = cro_service_in_base (model, entry->item, entry->amount, entry->unit, NULL);

  if (!isnan (amount))
    self->in_house[node] += amount;
  else
    self->node_marks[node] |= CRO_PLAN_AT_MOST;
}

/* What is in the house of an item that nothing planned takes makes no difference. */
static void
add_cause_of_stock (Planning         *self,
                    const CroInHouse *entry)
{
  CroModel *model = self->figures->model;
  unsigned lacks;

  cro_service_in_base (model, entry->item, entry->amount, entry->unit, &lacks);
  if (self->node_marks[cro_figures_node (self->figures, entry->item)] & CRO_PLAN_TAKEN)
    cro_causes_add_lacks (self->plan->missing, lacks, cro_model_item (model, entry->item)->name);
}

static void
read_smallest (Planning *self)
{
  CroModel *model = self->figures->model;

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (!cro_model_recipe (model, slot)->is_plate)
      self->smallest[cro_figures_row (self->figures, slot)]
          = cro_model_recipe (model, slot)->smallest_part;
}

static void
read_used (Planning *self)
{
  CroFigures *figures = self->figures;
  CroModel *model = figures->model;

  for (guint32 slot = 0; slot < model->items->len; slot++)
    if (model->maker[slot] >= 0)
      self->used[cro_figures_node (figures, slot)] = cro_model_item (model, slot)->output.used;
}

/* A card scales the batch itself, and its pan. */
static void
fill_pans_at_once (Planning *self)
{
  for (gsize i = 0; i < self->source.n_pans; i++)
    {
      const CroPan *pan = &self->pans[i];

      self->run.pan[pan->node] = fmax (self->run.pan[pan->node], self->run.runs[pan->row] * pan->filled);
    }
}

static void
run (Planning *self)
{
  const CroGraph *graph = &self->figures->graph;
  CroModel *model = self->figures->model;
  gsize n = cro_plan_find_pans (graph, &model->lines, self->of_batch, NULL);

  self->pans = g_new (CroPan, n + 1);
  self->source = (CroPlanSource){ self->times, self->smallest, self->used, self->in_house, self->pans,
                                  cro_plan_find_pans (graph, &model->lines, self->of_batch,
                                                      self->pans) };
  cro_plan_run (graph, &self->source, &self->run);
  if (self->is_at_once)
    fill_pans_at_once (self);
  cro_plan_mark (graph, &model->lines, model->measures, &self->source, self->row_marks,
                 self->node_marks);
  cro_plan_depths (graph, self->depth);
}

/* --- What is known of it ------------------------------------------------------------------------------ */

static CroKnown
known_of_marks (unsigned marks,
                double   figure)
{
  if (marks & CRO_PLAN_AT_LEAST)
    return marks & CRO_PLAN_AT_MOST ? CRO_KNOWN_IN_PART
           : figure > 0             ? CRO_KNOWN_AT_LEAST
                                    : CRO_KNOWN_NOTHING;
  return marks & CRO_PLAN_AT_MOST ? CRO_KNOWN_AT_MOST : CRO_KNOWN_WHOLE;
}

static gboolean
is_asked (unsigned marks,
          double   figure)
{
  return figure > 0 || ((marks & CRO_PLAN_TAKEN) && (marks & CRO_PLAN_AT_LEAST));
}

/* --- To make ------------------------------------------------------------------------------------------ */

static void
add_output (Planning *self,
            guint32   item,
            double    batches,
            CroKnown  known_batches)
{
  CroFigures *figures = self->figures;
  guint32 node = cro_figures_node (figures, item);
  double used = self->used[node] > 0 ? self->used[node] : NAN;
  CroPlanOutput output = {
    .item = item,
    .made = batches * used,
    .needed = cro_plan_needed (self->run.need[node], self->in_house[node]),
  };

  output.left = isnan (used) ? NAN : cro_plan_left (output.made, output.needed);
  output.left_cost = output.left * cro_figures_unit_cost (figures, item);
  output.known = known_of_marks (self->node_marks[node], output.needed);
  output.known_left = output.known == CRO_KNOWN_WHOLE     ? known_batches
                      : output.known == CRO_KNOWN_NOTHING ? CRO_KNOWN_NOTHING
                                                          : CRO_KNOWN_IN_PART;
  g_array_append_val (self->plan->outputs, output);
}

static void
add_make (Planning *self,
          guint32   recipe)
{
  CroFigures *figures = self->figures;
  guint32 row = cro_figures_row (figures, recipe);
  double batches = self->run.batches[row];
  CroPlanMake make = {
    .recipe = recipe,
    .runs = self->run.runs[row],
    .batches = batches,
    .minutes = batches * cro_decimal_to_double (cro_model_recipe (figures->model, recipe)->active_minutes),
    .known = known_of_marks (self->row_marks[row], self->run.runs[row]),
    .first_output = self->plan->outputs->len,
  };
  const guint32 *items;

  if (!is_asked (self->row_marks[row], make.runs))
    return;
  make.n_outputs = cro_figures_outputs (figures, recipe, &items);
  for (guint32 i = 0; i < make.n_outputs; i++)
    add_output (self, items[i], batches, make.known);
  self->plan->minutes += make.minutes;
  g_array_append_val (self->plan->make, make);
}

/* Batches that nothing is known of add 0 to what the others take; where nobody entered minutes they take none. */
static void
mark_minutes (CroServicePlan *plan)
{
  for (guint i = 0; i < plan->make->len; i++)
    {
      const CroPlanMake *make = &g_array_index (plan->make, CroPlanMake, i);
      CroKnown known = make->known == CRO_KNOWN_NOTHING ? CRO_KNOWN_AT_LEAST : make->known;

      if (cro_model_recipe (plan->figures->model, make->recipe)->active_minutes > 0)
        plan->known_minutes = cro_known_of_sum (plan->known_minutes, known);
    }
  if (plan->known_minutes != CRO_KNOWN_WHOLE && !(plan->minutes > 0))
    plan->known_minutes = CRO_KNOWN_NOTHING;
}

static int
compare_makes (gconstpointer a,
               gconstpointer b,
               gpointer      user_data)
{
  Planning *self = user_data;
  CroFigures *figures = self->figures;
  guint32 x = ((const CroPlanMake *) a)->recipe, y = ((const CroPlanMake *) b)->recipe;
  guint32 one = self->depth[cro_figures_row (figures, x)];
  guint32 other = self->depth[cro_figures_row (figures, y)];

  if (one != other)
    return one < other ? -1 : 1;
  return strcmp (cro_model_recipe (figures->model, x)->name,
                 cro_model_recipe (figures->model, y)->name);
}

static void
list_makes (Planning *self)
{
  CroModel *model = self->figures->model;

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (!cro_model_recipe (model, slot)->is_plate && !cro_model_recipe (model, slot)->is_dead)
      add_make (self, slot);
  g_array_sort_with_data (self->plan->make, compare_makes, self);
  mark_minutes (self->plan);
}

/* --- To buy ------------------------------------------------------------------------------------------- */

/* Whole packs of the offer in use, at its cost; nobody orders by the kilogram of a bill (cro-own-pack.h). A last price
 * is of what cannot be had. */
static void
pack_up (Planning   *self,
         CroPlanBuy *buy)
{
  CroModel *model = self->figures->model;
  const CroMeasure *measure = &model->measures[buy->item];
  CroOffer own;

  buy->offer = buy->since == CRO_NO_DAY ? self->figures->offer_in_use[buy->item] : CRO_NO_SLOT;
  if (buy->offer == CRO_NO_SLOT)
    return;
  own = cro_own_pack_in_force (model, buy->offer);
  buy->pack = cro_offer_pack (&own, measure);
  buy->packs = cro_plan_packs (buy->needed, buy->pack);
  buy->cost = buy->packs * buy->pack * cro_offer_unit_cost (&cro_model_offer (model, buy->offer)->offer, measure);
  buy->left = cro_plan_left (buy->packs * buy->pack, buy->needed);
}

static void
add_buy (Planning *self,
         guint32   item)
{
  CroFigures *figures = self->figures;
  guint32 node = cro_figures_node (figures, item);
  double cover = fmax (self->run.need[node], self->run.pan[node]);
  CroPlanBuy buy = {
    .item = item,
    .since = figures->last_price[item],
    .needed = cro_plan_needed (cover, self->in_house[node]),
    .pack = NAN,
    .packs = NAN,
    .cost = NAN,
    .left = NAN,
  };
  CroCause price = { CRO_CAUSE_PRICE, cro_model_item (figures->model, item)->name };

  buy.known = known_of_marks (self->node_marks[node], buy.needed);
  if (!is_asked (self->node_marks[node], buy.needed))
    return;
  pack_up (self, &buy);
  if (buy.since != CRO_NO_DAY && buy.needed > 0)
    g_array_append_val (self->plan->missing, price);
  g_array_append_val (self->plan->buy, buy);
}

static int
compare_buys (gconstpointer a,
              gconstpointer b,
              gpointer      user_data)
{
  const CroServicePlan *plan = user_data;
  CroModel *model = plan->figures->model;
  const CroPlanBuy *x = a, *y = b;
  guint32 one = cro_plan_buy_supplier (plan, x), other = cro_plan_buy_supplier (plan, y);

  if (one != other)
    {
      if (one == CRO_NO_SLOT || other == CRO_NO_SLOT)
        return one == CRO_NO_SLOT ? 1 : -1;
      return strcmp (g_array_index (model->suppliers, CroSupplier, one).name,
                     g_array_index (model->suppliers, CroSupplier, other).name);
    }
  return strcmp (cro_model_item (model, x->item)->name, cro_model_item (model, y->item)->name);
}

static void
list_buys (Planning *self)
{
  CroModel *model = self->figures->model;

  for (guint32 slot = 0; slot < model->items->len; slot++)
    if (model->maker[slot] < 0 && !cro_model_item (model, slot)->is_dead)
      add_buy (self, slot);
  g_array_sort_with_data (self->plan->buy, compare_buys, self->plan);
}

/* --- All of it ---------------------------------------------------------------------------------------- */

/* Causes of every plate that is served, whatever they are causes of. */
static void
list_causes (Planning *self)
{
  CroFigures *figures = self->figures;
  CroServicePlan *plan = self->plan;
  g_autoptr (GArray) causes = NULL;
  guint64 bits = 0;

  for (guint32 row = 0; row < figures->graph.n_rows; row++)
    if (self->times[row] > 0)
      {
        cro_dirty_add_row (figures->seen_rows, row);
        bits |= figures->row_bits[row];
      }
  causes = cro_causes_below (figures);
  cro_figures_forget_seen (figures);
  g_array_append_vals (plan->missing, causes->data, causes->len);
  cro_causes_sort_once (plan->missing);
  plan->known_theoretical = cro_known_of_bits (bits, plan->theoretical);
}

/* --- Whether it can be stated ----------------------------------------------------------------------- */

/* The same limit as that of costs (cro-finite.h), for amounts too; what is not known is NaN. */
static gboolean
is_stated (double figure,
           double most)
{
  return isnan (figure) || fabs (figure) <= most;
}

static gboolean
can_be_stated (const CroServicePlan *plan)
{
  double most = cro_money_most (cro_currency_digits (plan->figures->model->currency));
  gboolean is = fabs (plan->theoretical) <= most && fabs (plan->cost) <= most
                && is_stated (plan->cheapest, most) && is_stated (plan->dearest, most);

  for (guint i = 0; i < plan->make->len; i++)
    {
      const CroPlanMake *make = &g_array_index (plan->make, CroPlanMake, i);

      is &= fabs (make->batches) <= most && fabs (make->minutes) <= most;
    }
  for (guint i = 0; i < plan->outputs->len; i++)
    {
      const CroPlanOutput *output = &g_array_index (plan->outputs, CroPlanOutput, i);

      is &= is_stated (output->made, most) && is_stated (output->needed, most)
            && is_stated (output->left_cost, most);
    }
  for (guint i = 0; i < plan->buy->len; i++)
    {
      const CroPlanBuy *buy = &g_array_index (plan->buy, CroPlanBuy, i);

      is &= fabs (buy->needed) <= most && is_stated (buy->packs, most) && is_stated (buy->cost, most);
    }
  return is;
}

static CroServicePlan *
plan_new (CroBook *book)
{
  CroServicePlan *plan = g_new0 (CroServicePlan, 1);

  plan->figures = cro_book_get_figures (book);
  plan->make = g_array_new (FALSE, FALSE, sizeof (CroPlanMake));
  plan->outputs = g_array_new (FALSE, FALSE, sizeof (CroPlanOutput));
  plan->buy = g_array_new (FALSE, FALSE, sizeof (CroPlanBuy));
  plan->orders = g_array_new (FALSE, FALSE, sizeof (CroPlanOrder));
  plan->missing = g_array_new (FALSE, FALSE, sizeof (CroCause));
  return plan;
}

/* Lists what is asked, which has run. */
static gboolean
finish (Planning  *self,
        CroBook   *book,
        GError   **error)
{
  if (!self->has_choice)
    self->plan->cheapest = self->plan->dearest = NAN;
  list_makes (self);
  list_buys (self);
  list_causes (self);
  planning_clear (self);
  if (!cro_service_plan_order (self->plan, book, error))
    return FALSE;
  self->plan->is_finite = can_be_stated (self->plan);
  return TRUE;
}

CroServicePlan *
cro_service_plan_new (CroBook           *book,
                      const CroService  *service,
                      GError           **error)
{
  g_autoptr (CroServicePlan) plan = plan_new (book);
  Planning self;

  planning_init (&self, plan->figures, plan);
  for (guint i = 0; i < service->covers->len; i++)
    serve (&self, &g_array_index (service->covers, CroCovers, i));
  for (guint i = 0; i < service->in_house->len; i++)
    take_stock (&self, &g_array_index (service->in_house, CroInHouse, i));
  read_smallest (&self);
  read_used (&self);
  run (&self);
  for (guint i = 0; i < service->in_house->len; i++)
    add_cause_of_stock (&self, &g_array_index (service->in_house, CroInHouse, i));
  return finish (&self, book, error) ? g_steal_pointer (&plan) : NULL;
}

static void
ask_for_plate (Planning *self,
               guint32   plate,
               double    bites)
{
  self->times[cro_figures_row (self->figures, plate)]
      += bites / cro_decimal_to_double (cro_model_recipe (self->figures->model, plate)->makes);
}

static void
ask_for_menu (Planning *self,
              guint32   menu,
              double    guests)
{
  CroModel *model = self->figures->model;
  g_autoptr (CroMenuWays) ways = cro_menu_ways_new (model, menu);

  for (guint i = 0; i < ways->plates->len; i++)
    {
      guint32 plate = ((const CroMenuPlate *) ways->plates->pdata[i])->plate;

      ask_for_plate (self, plate, guests * ways->taken[i]
                                      * cro_decimal_to_double (
                                          cro_model_recipe (model, plate)->per_guest));
    }
}

/* A batch of which no plate takes anything is asked for as what the house lacks of it. */
static void
ask_for_batches (Planning *self,
                 guint32   preparation,
                 double    batches)
{
  const guint32 *outputs;

  if (cro_figures_outputs (self->figures, preparation, &outputs) > 0)
    {
      guint32 node = cro_figures_node (self->figures, outputs[0]);

      self->in_house[node] = -batches * self->used[node];
    }
}

CroServicePlan *
cro_service_plan_of_recipe (CroBook  *book,
                            CroRef    thing,
                            double    n,
                            GError  **error)
{
  g_autoptr (CroServicePlan) plan = plan_new (book);
  Planning self;

  planning_init (&self, plan->figures, plan);
  self.is_at_once = TRUE;
  read_used (&self);
  if (thing.kind == CRO_REF_MENU)
    ask_for_menu (&self, thing.slot, n);
  else if (cro_model_recipe (plan->figures->model, thing.slot)->is_plate)
    ask_for_plate (&self, thing.slot, n);
  else
    ask_for_batches (&self, thing.slot, n);
  run (&self);
  return finish (&self, book, error) ? g_steal_pointer (&plan) : NULL;
}

void
cro_service_plan_free (CroServicePlan *self)
{
  g_array_unref (self->make);
  g_array_unref (self->outputs);
  g_array_unref (self->buy);
  g_array_unref (self->orders);
  g_array_unref (self->missing);
  g_free (self);
}

const guint32 *
cro_plan_make_lines (CroServicePlan    *plan,
                     const CroPlanMake *make,
                     guint32           *n)
{
  const CroGraph *graph = &plan->figures->graph;
  guint32 row = cro_figures_row (plan->figures, make->recipe);

  *n = graph->first[row + 1] - graph->first[row];
  return graph->line_slot + graph->first[row];
}
