#include "cro-figures.h"

#include <math.h>
#include <string.h>

#include "cro-both.h"
#include "cro-decimal.h"
#include "cro-mass.h"
#include "cro-reach.h"
#include "cro-rule.h"

CroFigures *
cro_figures_new (CroModel *model,
                 CroDate   date)
{
  CroFigures *self = g_new0 (CroFigures, 1);

  self->model = model;
  self->date = date;
  return self;
}

/* One list of all arrays keeps what is allocated and what is freed in step. */
#define ITEM_ARRAYS(DO)                                                                          \
  DO (graph.made_by) DO (graph.node_of_item) DO (graph.item_of_node) DO (share) DO (fixed)       \
  DO (layers[0].unit_cost) DO (layers[1].unit_cost) DO (layers[2].unit_cost)                     \
  DO (own_node_bits) DO (node_bits) DO (offer_in_use) DO (offer_lacks) DO (last_price) DO (effect)               \
  DO (graph.used_first) DO (seen_nodes) DO (served_nodes)
#define ROW_ARRAYS(DO)                                                                           \
  DO (graph.first) DO (graph.made) DO (graph.row_of_slot) DO (graph.slot_of_row) DO (labour)     \
  DO (layers[0].row_cost) DO (layers[1].row_cost) DO (layers[2].row_cost)                        \
  DO (own_row_bits) DO (row_bits) DO (dirty[0]) DO (dirty[1]) DO (dirty[2]) DO (row_effect)      \
  DO (seen_rows) DO (served_rows) DO (credits) DO (summed)
#define LINE_ARRAYS(DO)                                                                          \
  DO (graph.part) DO (graph.quantity) DO (graph.line_slot) DO (graph.used_in)

#define FREE(array) g_clear_pointer (&self->array, g_free);
#define RESIZE(array) self->array = g_realloc_n (self->array, n, sizeof *self->array);

void
cro_figures_free (CroFigures *self)
{
  ITEM_ARRAYS (FREE)
  ROW_ARRAYS (FREE)
  LINE_ARRAYS (FREE)
  g_free (self);
}

CroFigures *
cro_figures_new_twin (const CroFigures *of)
{
  CroFigures *self = g_memdup2 (of, sizeof *of);

  self->effect = g_new0 (double, of->graph.n_items + 1);
  self->row_effect = g_new0 (double, of->graph.n_rows + 1);
  self->seen_rows = g_new0 (guint64, of->graph.n_rows / 64 + 1);
  self->seen_nodes = g_new0 (guint64, of->graph.n_items / 64 + 1);
  return self;
}

void
cro_figures_free_twin (CroFigures *self)
{
  g_free (self->effect);
  g_free (self->row_effect);
  g_free (self->seen_rows);
  g_free (self->seen_nodes);
  g_free (self);
}

static gsize
with_room (gsize n)
{
  return n + n / 4 + 16;
}

/* What must be zero between calls is zeroed here once. */
static void
allocate (CroFigures *self)
{
  CroModel *model = self->model;
  gsize n;

  if (model->items->len >= self->allocated_items)
    {
      self->allocated_items = n = with_room (model->items->len);
      ITEM_ARRAYS (RESIZE)
      memset (self->effect, 0, n * sizeof *self->effect);
      memset (self->seen_nodes, 0, n * sizeof *self->seen_nodes);
    }
  if (model->recipes->len >= self->allocated_rows)
    {
      self->allocated_rows = n = with_room (model->recipes->len);
      ROW_ARRAYS (RESIZE)
      memset (self->row_effect, 0, n * sizeof *self->row_effect);
      memset (self->seen_rows, 0, n * sizeof *self->seen_rows);
      memset (self->credits, 0, n * sizeof *self->credits);
    }
  if (model->lines.n >= self->allocated_lines)
    {
      self->allocated_lines = n = with_room (model->lines.n);
      LINE_ARRAYS (RESIZE)
    }
  for (int i = 0; i < CRO_N_LAYERS; i++)
    self->layers[i].share = self->share;
  self->layers[CRO_LAYER_FOOD].fixed = self->fixed;
  self->layers[CRO_LAYER_FOOD].summed = self->summed;
  self->layers[CRO_LAYER_LABOUR].own = self->labour;
}

/* --- Ingredients ------------------------------------------------------------------------------- */

static void
price_item (CroFigures *self,
            guint32     slot)
{
  CroModel *model = self->model;
  const CroItem *item = cro_model_item (model, slot);
  guint32 node = cro_figures_node (self, slot);
  g_autofree CroOffer *offers = g_new (CroOffer, item->n_offers + 1);
  double stale_after = model->stale_after_days == CRO_NOT_SET
                           ? -1
                           : cro_decimal_to_double (model->stale_after_days);
  double unit_cost = 0;
  unsigned lacks = CRO_OFFER_PRICED;
  ptrdiff_t used;

  for (guint32 i = 0; i < item->n_offers; i++)
    offers[i] = cro_model_offer (model, g_array_index (model->offer_order, guint32,
                                                       item->first_offer + i))->offer;
  used = cro_offer_choose (offers, item->n_offers, &model->measures[slot], self->date,
                           stale_after, &unit_cost);
  self->last_price[slot] = CRO_NO_DAY;
  if (used < 0)
    {
      used = cro_offer_choose_last (offers, item->n_offers, &model->measures[slot], &unit_cost,
                                    &lacks);
      if (used >= 0)
        self->last_price[slot] = offers[used].last_day + 1;
    }
  self->offer_in_use[slot] = used < 0 ? CRO_NO_SLOT
                                      : g_array_index (model->offer_order, guint32,
                                                       item->first_offer + (guint32) used);
  self->offer_lacks[slot] = (guint8) lacks;
  self->layers[CRO_LAYER_FOOD].unit_cost[node] = item->is_disposable ? 0 : unit_cost;
  self->layers[CRO_LAYER_DISPOSABLES].unit_cost[node] = item->is_disposable ? unit_cost : 0;
  self->layers[CRO_LAYER_LABOUR].unit_cost[node] = 0;
}

/* A finished amount that only its own output needs: under weight and value the others' shares
 * hang on it too. A free by-product needs none unless something takes it. */
static gboolean
lacks_amount_alone (CroFigures *self,
                    guint32     slot)
{
  const CroItem *item = cro_model_item (self->model, slot);
  guint8 rule = cro_model_recipe (self->model, (guint32) self->model->maker[slot])->rule;
  guint32 node = cro_figures_node (self, slot);

  if (item->output.finished > 0)
    return FALSE;
  if (item->is_main)
    return !cro_rule_shares (rule);
  return cro_rule_frees (rule)
         && self->graph.used_first[node + 1] > self->graph.used_first[node];
}

static guint64
own_bits_of_item (CroFigures *self,
                  guint32     slot)
{
  const CroItem *item = cro_model_item (self->model, slot);
  guint64 bits = 0;

  if (self->model->maker[slot] < 0)
    {
      bits |= item->allergens < 0 ? CRO_ALLERGENS_NOT_KNOWN : (guint32) item->allergens;
      bits |= (guint64) item->may_contain << CRO_REACH_MAY_CONTAIN_SHIFT;
      if (self->offer_in_use[slot] == CRO_NO_SLOT)
        bits |= CRO_REACH_INCOMPLETE | CRO_REACH_FOOD_OPEN;
      if (self->last_price[slot] != CRO_NO_DAY)
        bits |= CRO_REACH_LAST_PRICE;
    }
  else if (lacks_amount_alone (self, slot))
    bits |= CRO_REACH_INCOMPLETE | CRO_REACH_FOOD_OPEN;
  return bits;
}

/* --- Rows ------------------------------------------------------------------------------------------ */

guint32
cro_figures_outputs (const CroFigures  *self,
                     guint32            recipe,
                     const guint32    **outputs)
{
  const CroRecipe *of = cro_model_recipe (self->model, recipe);

  *outputs = of->n_outputs > 0
                 ? &g_array_index (self->model->output_order, guint32, of->first_output)
                 : NULL;
  return of->n_outputs;
}

/* Shares a batch among its outputs; returns whether it has all that more than one needs. */
static gboolean
share_batch (CroFigures *self,
             guint32     recipe)
{
  CroModel *model = self->model;
  const guint32 *slots;
  guint32 n = cro_figures_outputs (self, recipe, &slots);
  g_autofree CroOutput *outputs = g_new (CroOutput, n + 1);
  g_autofree CroMeasure *measures = g_new (CroMeasure, n + 1);
  double grams = -1;
  gboolean sound = TRUE;

  for (guint32 i = 0; i < n; i++)
    {
      outputs[i] = cro_model_item (model, slots[i])->output;
      measures[i] = model->measures[slots[i]];
      if (outputs[i].yield > 0 && grams < 0)
        grams = cro_mass_input (&self->graph, cro_figures_row (self, recipe), &model->lines,
                                model->measures, NULL, NULL);
    }
  if (n > 0)
    cro_batch_share ((CroRule) cro_model_recipe (model, recipe)->rule, grams, outputs, measures, n);
  for (guint32 i = 0; i < n; i++)
    {
      guint32 node = cro_figures_node (self, slots[i]);

      cro_model_item (model, slots[i])->output = outputs[i];
      self->share[node] = outputs[i].share;
      self->fixed[node] = outputs[i].fixed;
      if (outputs[i].lacks != CRO_OUTPUT_LACKS_AMOUNT || !lacks_amount_alone (self, slots[i]))
        sound &= outputs[i].lacks == CRO_OUTPUT_SOUND;
    }
  return sound;
}

static double
labour_of (const CroModel  *model,
           const CroRecipe *recipe)
{
  if (model->wage_per_hour == CRO_NOT_SET)
    return 0;
  return cro_decimal_to_double (recipe->active_minutes) / 60
         * cro_decimal_to_double (model->wage_per_hour);
}

/* Whether a batch shares its cost with an output that nothing takes while another is served: what
 * that output bears no plate ever pays. */
static gboolean
is_doubtful (CroFigures      *self,
             guint32          slot,
             const CroRecipe *recipe)
{
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (self, slot, &outputs);
  guint32 n_served = 0;

  if (recipe->is_plate || cro_rule_frees ((CroRule) recipe->rule))
    return FALSE;
  for (guint32 i = 0; i < n; i++)
    n_served += cro_figures_is_served (self, outputs[i]) ? 1 : 0;
  return n_served > 0 && n_served < n;
}

static guint64
own_bits_of_row (CroFigures *self,
                 guint32     row)
{
  CroModel *model = self->model;
  const CroGraph *graph = &self->graph;
  const CroRecipe *recipe = cro_model_recipe (model, graph->slot_of_row[row]);
  guint64 bits = 0;

  if (recipe->is_dead)
    return 0;
  if (recipe->active_minutes > 0 && model->wage_per_hour == CRO_NOT_SET)
    bits |= CRO_REACH_INCOMPLETE;
  /* Of what is empty nobody can say what it contains. */
  if (graph->first[row] == graph->first[row + 1])
    bits |= CRO_REACH_INCOMPLETE | CRO_REACH_FOOD_OPEN | CRO_ALLERGENS_NOT_KNOWN;
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      uint32_t line = graph->line_slot[l];
      const CroMeasure *item = &model->measures[model->lines.item[line]];

      if (cro_line_lacks (&model->lines, line, item) != CRO_LACKS_NOTHING)
        bits |= CRO_REACH_INCOMPLETE | CRO_REACH_FOOD_OPEN;
      if (cro_line_is_assumed (&model->lines, line, item))
        bits |= CRO_REACH_ASSUMED;
    }
  if (!recipe->is_plate && cro_rule_credits ((CroRule) recipe->rule) && recipe->n_outputs > 1)
    bits |= CRO_REACH_CREDIT;
  if (is_doubtful (self, graph->slot_of_row[row], recipe))
    bits |= CRO_REACH_DOUBT;
  return bits;
}

static void
note_credit (CroFigures *self,
             guint32     row)
{
  guint64 bit = UINT64_C (1) << (row % 64);

  if (self->own_row_bits[row] & (CRO_REACH_CREDIT | CRO_REACH_EXCEEDED))
    self->credits[row / 64] |= bit;
  else
    self->credits[row / 64] &= ~bit;
}

static void
fold_row (CroFigures *self,
          guint32     row)
{
  CroModel *model = self->model;
  CroGraph *graph = &self->graph;
  guint32 recipe = graph->slot_of_row[row];
  uint32_t first = graph->first[row];

  cro_lines_charged (&model->lines, graph->line_slot + first, graph->first[row + 1] - first,
                     model->measures, graph->quantity + first);
  self->labour[row] = labour_of (model, cro_model_recipe (model, recipe));
  self->own_row_bits[row] = own_bits_of_row (self, row);
  if (!share_batch (self, recipe))
    self->own_row_bits[row] |= CRO_REACH_INCOMPLETE | CRO_REACH_FOOD_OPEN;
}

/* Whether what a batch costs is known, whatever its outputs lack. */
static gboolean
is_cost_known (const CroFigures *self,
               guint32           row)
{
  const CroGraph *graph = &self->graph;
  const CroModel *model = self->model;

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      uint32_t line = graph->line_slot[l];

      if (self->node_bits[graph->part[l]] & CRO_REACH_FOOD_OPEN
          || cro_line_lacks (&model->lines, line, &model->measures[model->lines.item[line]])
                 != CRO_LACKS_NOTHING)
        return FALSE;
    }
  return graph->first[row] < graph->first[row + 1];
}

gboolean
cro_figures_credit_exceeds (const CroFigures *self,
                            guint32           row)
{
  return self->own_row_bits[row] & CRO_REACH_EXCEEDED && is_cost_known (self, row);
}

static gboolean
is_exceeded (const CroFigures *self,
             guint32           row)
{
  const guint32 *outputs;
  guint32 n;
  double left = self->layers[CRO_LAYER_FOOD].row_cost[row];

  if (!(self->own_row_bits[row] & CRO_REACH_CREDIT))
    return FALSE;
  n = cro_figures_outputs (self, self->graph.slot_of_row[row], &outputs);
  for (guint32 i = 1; i < n; i++)
    {
      const CroOutput *output = &cro_model_item (self->model, outputs[i])->output;

      left -= output->value_of_base * output->used;
    }
  return left < 0;
}

/* Known only once the batch is summed. */
static void
compare_credit (CroFigures *self,
                guint32     row)
{
  guint64 bits = self->own_row_bits[row] & ~(guint64) CRO_REACH_EXCEEDED;

  if (is_exceeded (self, row))
    bits |= CRO_REACH_EXCEEDED;
  self->bits_moved |= bits != self->own_row_bits[row];
  self->own_row_bits[row] = bits;
  note_credit (self, row);
}

/* A batch that was not summed anew costs what it did, and credits as much. */
static void
compare_credits (CroFigures *self)
{
  for (gsize word = 0; word < cro_dirty_words (&self->graph); word++)
    {
      for (guint64 left = self->credits[word] & self->summed[word]; left != 0; left &= left - 1)
        compare_credit (self, (guint32) (word * 64 + (gsize) __builtin_ctzll (left)));
      self->summed[word] = 0;
    }
}

/* Adds a bit to the rows that credit something and fulfil a condition; whether there was any. */
static gboolean
add_to_credits (CroFigures *self,
                guint64     bit,
                gboolean  (*is_so) (const CroFigures *self, guint32 row))
{
  gboolean is_any = FALSE;

  for (gsize word = 0; word <= self->graph.n_rows / 64; word++)
    for (guint64 left = self->credits[word]; left != 0; left &= left - 1)
      {
        guint32 row = (guint32) (word * 64 + (gsize) __builtin_ctzll (left));

        if (is_so (self, row))
          {
            self->row_bits[row] |= bit;
            is_any = TRUE;
          }
      }
  return is_any;
}

/* Known once the bits of its parts are. */
static gboolean
credits_incomplete (const CroFigures *self,
                    guint32           row)
{
  guint64 bits = self->row_bits[row];

  for (uint32_t node = self->graph.made[row]; node < self->graph.made[row + 1]; node++)
    bits |= self->own_node_bits[node];
  return bits & CRO_REACH_INCOMPLETE && self->own_row_bits[row] & CRO_REACH_CREDIT;
}

static void
sweep_bits (CroFigures *self)
{
  compare_credits (self);
  if (!self->bits_moved)
    return;

  for (guint32 row = 0; row < self->graph.n_rows; row++)
    self->row_bits[row] = self->own_row_bits[row] & ~(guint64) CRO_REACH_CREDIT;
  memcpy (self->node_bits, self->own_node_bits, self->graph.n_items * sizeof *self->node_bits);
  cro_reach_sweep (&self->graph, self->node_bits, self->row_bits);
  if (add_to_credits (self, CRO_REACH_INCOMPLETE, cro_figures_credit_exceeds))
    cro_reach_sweep (&self->graph, self->node_bits, self->row_bits);
  if (add_to_credits (self, CRO_REACH_CREDIT, credits_incomplete))
    cro_reach_sweep (&self->graph, self->node_bits, self->row_bits);
  self->bits_moved = FALSE;
}

/* --- Everything ----------------------------------------------------------------------------------------- */

static GPtrArray *
names_of_cycle (CroFigures     *self,
                const uint32_t *cycle,
                gsize           length)
{
  GPtrArray *names = g_ptr_array_new ();

  for (gsize i = 0; i <= length; i++)
    g_ptr_array_add (names, (gpointer) cro_model_recipe (self->model, cycle[i % length])->name);
  return names;
}

static void
sweep_all (CroFigures *self)
{
  for (int i = 0; i < CRO_N_LAYERS; i++)
    {
      memset (self->dirty[i], 0, cro_dirty_words (&self->graph) * sizeof *self->dirty[i]);
      cro_sweep (&self->graph, &self->layers[i]);
    }
  memset (self->visited, 0, sizeof self->visited);
  memset (self->summed, 0xff, cro_dirty_words (&self->graph) * sizeof *self->summed);
  self->bits_moved = TRUE;
  sweep_bits (self);
}

/* Fewer rows, or items, are done before a thread has begun. */
#define LEAST_FOR_BOTH 4000

/* As the recipes stand in memory, and with them their lines and outputs; rows need no order. */
static void
fold_some (guint32  from,
           guint32  to,
           gpointer user_data)
{
  for (guint32 slot = from; slot < to; slot++)
    fold_row (user_data, cro_figures_row (user_data, slot));
}

static void
fold_all (CroFigures *self)
{
  cro_both_run (self->model->recipes->len, LEAST_FOR_BOTH, fold_some, self);
  for (guint32 row = 0; row < self->graph.n_rows; row++)
    note_credit (self, row);
}

static void
price_some (guint32  from,
            guint32  to,
            gpointer user_data)
{
  CroFigures *self = user_data;

  for (guint32 slot = from; slot < to; slot++)
    {
      if (self->model->maker[slot] < 0)
        price_item (self, slot);
      self->own_node_bits[cro_figures_node (self, slot)] = own_bits_of_item (self, slot);
    }
}

static void
price_all (CroFigures *self)
{
  cro_both_run (self->model->items->len, LEAST_FOR_BOTH, price_some, self);
}

static void
find_served (CroFigures *self)
{
  CroModel *model = self->model;
  g_autofree guint64 *plates = g_new0 (guint64, self->graph.n_rows / 64 + 1);

  for (guint32 slot = 0; slot < model->recipes->len; slot++)
    if (cro_model_recipe (model, slot)->is_plate && !cro_model_recipe (model, slot)->is_dead)
      cro_dirty_add_row (plates, cro_figures_row (self, slot));
  cro_reach_down (&self->graph, plates, self->served_rows, self->served_nodes);
}

GPtrArray *
cro_figures_compile (CroFigures *self)
{
  CroModel *model = self->model;
  gsize n_items = model->items->len, n_rows = model->recipes->len;
  CroGraphSource source = { n_items, n_rows, model->maker, &model->lines };
  g_autofree guint32 *cycle = g_new (guint32, n_rows + 1);
  g_autofree void *workspace = NULL;
  gsize length;

  allocate (self);
  workspace = g_malloc (cro_graph_workspace (n_items, n_rows, model->lines.n));
  length = cro_graph_order (&source, &self->graph, workspace, cycle);
  if (length > 0)
    return names_of_cycle (self, cycle, length);
  find_served (self);

  fold_all (self);
  price_all (self);
  sweep_all (self);
  return NULL;
}

void
cro_figures_reprice (CroFigures *self,
                     CroDate     date)
{
  self->date = date;
  fold_all (self);
  price_all (self);
  sweep_all (self);
}

/* --- After a change ---------------------------------------------------------------------------------------- */

static void
mark_row (CroFigures *self,
          guint32     row)
{
  for (int i = 0; i < CRO_N_LAYERS; i++)
    cro_dirty_add_row (self->dirty[i], row);
}

void
cro_figures_touch_recipe (CroFigures *self,
                          guint32     recipe)
{
  guint32 row = cro_figures_row (self, recipe);
  guint64 before = self->own_row_bits[row];
  const guint32 *outputs;
  guint32 n = cro_figures_outputs (self, recipe, &outputs);

  fold_row (self, row);
  self->own_row_bits[row] |= before & CRO_REACH_EXCEEDED;
  note_credit (self, row);
  self->bits_moved |= before != self->own_row_bits[row];
  for (guint32 i = 0; i < n; i++)
    {
      guint32 node = cro_figures_node (self, outputs[i]);
      guint64 bits = own_bits_of_item (self, outputs[i]);

      self->bits_moved |= bits != self->own_node_bits[node];
      self->own_node_bits[node] = bits;
    }
  mark_row (self, row);
}

void
cro_figures_touch_price (CroFigures *self,
                         guint32     slot)
{
  guint32 node = cro_figures_node (self, slot);
  guint64 bits;

  for (int i = 0; i < CRO_LAYER_LABOUR; i++)
    self->visited[i] = cro_dirty_add_users (&self->graph, self->dirty[i], node,
                                            self->visited[i]);
  price_item (self, slot);
  bits = own_bits_of_item (self, slot);
  self->bits_moved |= bits != self->own_node_bits[node];
  self->own_node_bits[node] = bits;
}

void
cro_figures_touch_item (CroFigures *self,
                        guint32     slot)
{
  const CroGraph *graph = &self->graph;
  guint32 node = cro_figures_node (self, slot);
  guint64 bits;

  if (self->model->maker[slot] >= 0)
    cro_figures_touch_recipe (self, (guint32) self->model->maker[slot]);
  else
    price_item (self, slot);

  bits = own_bits_of_item (self, slot);
  self->bits_moved |= bits != self->own_node_bits[node];
  self->own_node_bits[node] = bits;
  /* Its measure may have moved: what its lines charge, and the mass of their batches. */
  for (guint32 at = 0, row; cro_graph_next_user (graph, node, &at, &row);)
    cro_figures_touch_recipe (self, graph->slot_of_row[row]);
}

gsize
cro_figures_settle (CroFigures *self)
{
  gsize visited = 0;

  for (int i = 0; i < CRO_N_LAYERS; i++)
    visited += cro_sweep_dirty (&self->graph, &self->layers[i], self->dirty[i],
                                self->visited[i]);
  memset (self->visited, 0, sizeof self->visited);
  sweep_bits (self);
  return visited;
}

double
cro_figures_unit_cost (const CroFigures *self,
                       guint32           slot)
{
  const CroItem *item = cro_model_item (self->model, slot);
  guint32 node = cro_figures_node (self, slot);

  if (self->model->maker[slot] < 0)
    return self->offer_in_use[slot] == CRO_NO_SLOT
               ? NAN
               : self->layers[item->is_disposable ? CRO_LAYER_DISPOSABLES : CRO_LAYER_FOOD]
                     .unit_cost[node];
  return item->output.is_known ? self->layers[CRO_LAYER_FOOD].unit_cost[node] : NAN;
}

void
cro_figures_forget_seen (CroFigures *self)
{
  memset (self->seen_rows, 0, (self->graph.n_rows / 64 + 1) * sizeof *self->seen_rows);
  memset (self->seen_nodes, 0, (self->graph.n_items / 64 + 1) * sizeof *self->seen_nodes);
}
