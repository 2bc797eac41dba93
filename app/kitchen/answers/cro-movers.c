#include "cro-movers.h"

#include <math.h>

#include "cro-batch-change.h"
#include "cro-decimal.h"
#include "cro-effects.h"
#include "cro-reach.h"
#include "cro-rule.h"

#define STEP 0.1

/* What divides a cost changes it by as much, when it is a step less and more. */
#define LESS (1 / (1 - STEP) - 1)
#define MORE (1 / (1 + STEP) - 1)

/* What is less of what a line costs is no change, but how doubles end: twice as much in, and out. */
#define DUST 1e-12

/* One of very many: what is needed to tell which ones are the largest. */
typedef struct
{
  double       down;
  double       up;
  double       cost;
  guint32      index;   /* slot of an item; of a line its position in the graph */
  guint32      row;     /* of a line, or of an output */
  CroMoverKind kind;
  gboolean     is_shared_anew;  /* an amount of a batch that has a yield % */
} Candidate;

typedef struct
{
  CroFigures     *figures;
  GArray         *found;      /* Candidate: in order, as many as are asked for; or all, in none */
  guint           most;
  double          least;      /* effect of the last of these; below 0 while there is room */
  CroBatchChange  batch;
  GArray         *all;        /* CroCostPart: n_all of them, and room for one more of each that is looked at */
  guint           n_all;
  CroOtherMovers  prices;     /* that make a part of the cost; of all, until some are told apart */
  CroOtherMovers  values;
} Movers;

static inline double
effect_of (const Candidate *candidate)
{
  return MAX (fabs (candidate->down), fabs (candidate->up));
}

static guint32
item_of (CroFigures      *figures,
         const Candidate *candidate)
{
  return candidate->kind == CRO_MOVER_AMOUNT || candidate->kind == CRO_MOVER_YIELD
             ? figures->graph.item_of_node[figures->graph.part[candidate->index]]
             : candidate->index;
}

static int
compare (gconstpointer a,
         gconstpointer b,
         gpointer      figures)
{
  const Candidate *x = a, *y = b;
  guint32 of_x, of_y;

  if (effect_of (x) != effect_of (y))
    return effect_of (x) > effect_of (y) ? -1 : 1;
  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  of_x = item_of (figures, x);
  of_y = item_of (figures, y);
  if (of_x != of_y)
    return of_x < of_y ? -1 : 1;
  return x->index < y->index ? -1 : x->index > y->index;
}

/* --- The first ones ------------------------------------------------------------------------------- */

static inline Candidate *
at (Movers *self,
    guint   i)
{
  return &g_array_index (self->found, Candidate, i);
}

/* Whether what moves the cost by that much at most may be among the first ones: what cannot be is not
 * looked at. */
static inline gboolean
may_be (Movers *self,
        double  effect)
{
  return effect >= self->least;
}

static void
add (Movers   *self,
     Candidate candidate)
{
  guint i;

  if ((candidate.down == 0 && candidate.up == 0) || !may_be (self, effect_of (&candidate)))
    return;
  if (self->most == G_MAXUINT)
    {
      g_array_append_val (self->found, candidate);
      return;
    }
  if (self->found->len < self->most)
    g_array_set_size (self->found, self->found->len + 1);
  else if (compare (&candidate, at (self, self->most - 1), self->figures) >= 0)
    return;
  for (i = self->found->len - 1;
       i > 0 && compare (&candidate, at (self, i - 1), self->figures) < 0; i--)
    *at (self, i) = *at (self, i - 1);
  *at (self, i) = candidate;
  if (self->found->len == self->most)
    self->least = effect_of (at (self, self->most - 1));
}

/* Of what the cost is proportional to. */
static inline Candidate
proportional (CroMoverKind kind,
              guint32      index,
              guint32      row,
              double       charged)
{
  return (Candidate){ .down = -STEP * charged, .up = STEP * charged, .index = index, .row = row,
                      .kind = kind };
}

/* Of what divides it. */
static inline Candidate
dividing (CroMoverKind kind,
          guint32      index,
          guint32      row,
          double       charged)
{
  return (Candidate){ .down = charged * LESS, .up = charged * MORE, .index = index, .row = row,
                      .kind = kind };
}

/* A price, or an assigned value: those are what the cost is made of. There are very many: the room for them
 * is made beforehand. */
static inline void
add_part (Movers      *self,
          CroMoverKind kind,
          guint32      item,
          guint32      row,
          double       cost)
{
  CroOtherMovers *of = kind == CRO_MOVER_VALUE ? &self->values : &self->prices;
  Candidate part;

  if (cost != 0)
    g_array_index (self->all, CroCostPart, self->n_all++) = (CroCostPart){ item, cost };
  of->n += cost != 0;
  of->cost += cost;
  if (!may_be (self, STEP * fabs (cost)))
    return;
  part = proportional (kind, item, row, cost);
  part.cost = cost;
  add (self, part);
}

/* --- Prices and trim yields ----------------------------------------------------------------------- */

/* The marks of a word that are of ingredients. */
static inline guint64
marks_of_raws (const CroFigures *figures,
               gsize             word)
{
  gsize n = figures->graph.n_raws - word * 64;

  return n >= 64 ? figures->seen_nodes[word]
                 : figures->seen_nodes[word] & ((G_GUINT64_CONSTANT (1) << n) - 1);
}

static guint
count_raws (const CroFigures *figures)
{
  guint n = 0;

  for (gsize word = 0; word * 64 < figures->graph.n_raws; word++)
    for (guint64 left = marks_of_raws (figures, word); left != 0; left &= left - 1)
      n++;
  return n;
}

/* What is charged of it is its effect, and more than that its trim yield cannot divide: FALSE where that
 * cannot be among the first ones. */
static inline gboolean
add_price (Movers *self,
           guint32 node)
{
  CroFigures *figures = self->figures;
  guint32 item = figures->graph.item_of_node[node];
  double cost = figures->effect[node] * figures->layers[CRO_LAYER_FOOD].unit_cost[node];

  add_part (self, CRO_MOVER_PRICE, item, CRO_NO_SLOT, cost);
  return may_be (self, LESS * cost) && figures->model->measures[item].trim_yield != 0;
}

/* Those whose trim yield may be stay marked, and their effect makes room for what lines charge of them
 * trimmed. */
static void
add_prices (Movers *self)
{
  CroFigures *figures = self->figures;

  g_array_set_size (self->all, count_raws (figures));
  for (gsize word = 0; word * 64 < figures->graph.n_raws; word++)
    {
      guint64 marks = marks_of_raws (figures, word);

      for (guint64 left = marks; left != 0; left &= left - 1)
        {
          guint32 node = (guint32) (word * 64) + (guint32) __builtin_ctzll (left);

          if (add_price (self, node))
            marks &= ~(left & -left);
          figures->effect[node] = 0;
        }
      figures->seen_nodes[word] &= ~marks;
    }
}

/* Of those that are still marked. */
static void
sum_trimmed (CroFigures *figures,
             guint32     row)
{
  const CroGraph *graph = &figures->graph;
  const CroLines *lines = &figures->model->lines;

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      guint32 node = graph->part[l];

      if (node < graph->n_raws && (figures->seen_nodes[node / 64] >> (node % 64) & 1)
          && cro_line_is_trimmed (lines, graph->line_slot[l]))
        figures->effect[node] += figures->row_effect[row] * graph->quantity[l];
    }
}

/* What loses nothing to trim has no trim yield that could be another. */
static gboolean
is_whole (CroFigures *figures,
          guint32     item)
{
  return figures->model->measures[item].trim_yield == CRO_WHOLE_PCT;
}

static void
add_trim_yields (Movers *self)
{
  CroFigures *figures = self->figures;
  const CroGraph *graph = &figures->graph;

  if (cro_effects_next_raw (figures, 0) == graph->n_raws)
    return;
  for (guint32 row = cro_effects_next (figures, 0); row < graph->n_rows;
       row = cro_effects_next (figures, row + 1))
    sum_trimmed (figures, row);
  for (guint32 node = cro_effects_next_raw (figures, 0); node < graph->n_raws;
       node = cro_effects_next_raw (figures, node + 1))
    if (!is_whole (figures, graph->item_of_node[node]))
      add (self, dividing (CRO_MOVER_TRIM_YIELD, graph->item_of_node[node], CRO_NO_SLOT,
                           figures->effect[node]
                               * figures->layers[CRO_LAYER_FOOD].unit_cost[node]));
}

/* --- Lines ------------------------------------------------------------------------------------------- */

double
cro_mover_charged_by_trim (CroFigures *figures,
                           guint32     item)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item), before = CRO_NO_ROW;
  double unit_cost = figures->layers[CRO_LAYER_FOOD].unit_cost[node], charged = 0;

  if (is_whole (figures, item))
    return 0;
  for (uint32_t use = graph->used_first[node]; use < graph->used_first[node + 1]; use++)
    {
      guint32 row = graph->used_in[use];

      if (row == before || !(figures->seen_rows[row / 64] >> (row % 64) & 1))
        continue;
      before = row;
      for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
        if (graph->part[l] == node && cro_line_is_trimmed (&figures->model->lines, graph->line_slot[l]))
          charged += figures->row_effect[row] * graph->quantity[l] * unit_cost;
    }
  return charged;
}

static void
add_line (Movers   *self,
          guint32   row,
          uint32_t  l,
          double    charged,
          gboolean  is_shared_anew)
{
  CroFigures *figures = self->figures;
  Candidate amount = proportional (CRO_MOVER_AMOUNT, l, row, charged);

  amount.is_shared_anew = is_shared_anew;
  if (is_shared_anew)
    {
      amount.down = cro_batch_change_of_amount (&self->batch, l, 1 - STEP);
      amount.up = cro_batch_change_of_amount (&self->batch, l, 1 + STEP);
    }
  if (effect_of (&amount) > DUST * fabs (charged))
    add (self, amount);
  if (figures->model->lines.yield[figures->graph.line_slot[l]] != 0)
    add (self, dividing (CRO_MOVER_YIELD, l, row, charged));
}

/* --- Batches ------------------------------------------------------------------------------------------ */

static void
add_finished (Movers  *self,
              guint32  row)
{
  CroModel *model = self->figures->model;

  for (guint32 i = 0; i < self->batch.n; i++)
    {
      const CroOutput *output = &cro_model_item (model, self->batch.slots[i])->output;
      Candidate finished = { .index = self->batch.slots[i], .row = row, .kind = CRO_MOVER_FINISHED };

      if (output->amount == 0 && output->yield == 0)
        continue;
      finished.down = cro_batch_change_of_output (&self->batch, i, 1 - STEP);
      finished.up = cro_batch_change_of_output (&self->batch, i, 1 + STEP);
      add (self, finished);
    }
}

/* What is credited is a part of the cost. */
static void
add_values (Movers  *self,
            guint32  row)
{
  CroFigures *figures = self->figures;
  const guint32 *slots;
  guint32 n;

  if (!(figures->own_row_bits[row] & CRO_REACH_CREDIT))
    return;
  n = cro_figures_outputs (figures, figures->graph.slot_of_row[row], &slots);
  g_array_set_size (self->all, self->n_all + n);
  for (guint32 i = 1; i < n; i++)
    {
      const CroOutput *output = &cro_model_item (figures->model, slots[i])->output;

      if (output->has_value)
        add_part (self, CRO_MOVER_VALUE, slots[i], row,
                  cro_effects_of_value (figures, slots[0], slots[i]) * output->value_of_base);
    }
}

/* Whether what stands in a row may be among the first ones. Its cost, and what is made of it, each go
 * up or down by a tenth, at worst against each other: a quarter of what it counts. That is no bound
 * where more is credited than a batch costs. */
static inline gboolean
may_move (Movers  *self,
          guint32  row)
{
  const CroFigures *figures = self->figures;

  return may_be (self, 2.5 * STEP * figures->row_effect[row]
                           * figures->layers[CRO_LAYER_FOOD].row_cost[row])
         || (figures->row_bits[row] & CRO_REACH_EXCEEDED) != 0;
}

static void
add_row (Movers  *self,
         guint32  row)
{
  CroFigures *figures = self->figures;
  const CroGraph *graph = &figures->graph;
  const double *unit_cost = figures->layers[CRO_LAYER_FOOD].unit_cost;

  cro_batch_change_begin (&self->batch, figures, row);
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    {
      double charged = figures->row_effect[row] * graph->quantity[l] * unit_cost[graph->part[l]];

      if (self->batch.has_yield || may_be (self, LESS * fabs (charged)))
        add_line (self, row, l, charged, self->batch.has_yield);
    }
  add_finished (self, row);
}

/* --- In order ------------------------------------------------------------------------------------------- */

static double
value_of (CroModel       *model,
          const CroMover *mover,
          double          unit_cost)
{
  const CroOutput *output = &cro_model_item (model, mover->item)->output;

  switch (mover->kind)
    {
    case CRO_MOVER_VALUE:
      return output->value_of_base;
    case CRO_MOVER_TRIM_YIELD:
      return cro_decimal_to_double (model->measures[mover->item].trim_yield);
    case CRO_MOVER_YIELD:
      return cro_decimal_to_double (model->lines.yield[mover->line]);
    case CRO_MOVER_AMOUNT:
      return cro_decimal_to_double (model->lines.amount[mover->line]);
    case CRO_MOVER_FINISHED:
      return cro_decimal_to_double (output->amount > 0 ? output->amount : output->yield);
    default:
      return unit_cost;
    }
}

/* What is credited grows with its batch, and falls with what is taken of it: where a part of either cannot be counted
 * the value may move the cost either way. All that goes into a batch is uncounted where the batch is. */
static CroKnown
known_of_value (CroFigures    *figures,
                const guint64 *uncounted,
                guint32        item)
{
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item), row = graph->made_by[node];
  gboolean is_counted = FALSE;

  if (uncounted[node / 64] >> node % 64 & 1)
    return CRO_KNOWN_IN_PART;
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    is_counted |= !(uncounted[graph->part[l] / 64] >> graph->part[l] % 64 & 1);
  return is_counted ? CRO_KNOWN_WHOLE : CRO_KNOWN_IN_PART;
}

/* A price, and what is trimmed of an item, move all lines of it: one that cannot be counted is moved too. */
static CroKnown
known_of_item (CroFigures     *figures,
               const guint64  *uncounted,
               const CroMover *mover)
{
  switch (mover->kind)
    {
    case CRO_MOVER_VALUE:
      return known_of_value (figures, uncounted, mover->item);
    case CRO_MOVER_PRICE:
    case CRO_MOVER_TRIM_YIELD:
      return cro_known_of_share_of (figures, uncounted, mover->item);
    default:
      return cro_known_of_item (figures, mover->item);
    }
}

/* What is shared anew takes from what others of the batch cost, whatever that is. */
static CroKnown
known_of (CroFigures      *figures,
          const guint64   *uncounted,
          const Candidate *candidate,
          const CroMover  *mover)
{
  CroKnown of_item = known_of_item (figures, uncounted, mover);
  CroKnown of_batch;
  const guint32 *outputs;

  if (of_item == CRO_KNOWN_NOTHING || (mover->kind != CRO_MOVER_FINISHED && !candidate->is_shared_anew))
    return of_item;
  of_batch = cro_known_of_recipe (figures, mover->recipe);
  return of_batch == CRO_KNOWN_WHOLE || (mover->kind == CRO_MOVER_FINISHED
                                         && cro_figures_outputs (figures, mover->recipe, &outputs) == 1)
             ? of_batch
             : CRO_KNOWN_IN_PART;
}

static CroMover
mover_of (CroFigures      *figures,
          const guint64   *uncounted,
          const Candidate *candidate)
{
  CroMover mover = {
    .kind = candidate->kind, .item = item_of (figures, candidate), .line = CRO_NO_SLOT,
    .recipe = CRO_NO_SLOT, .down = candidate->down, .up = candidate->up, .cost = candidate->cost,
  };

  if (mover.kind == CRO_MOVER_AMOUNT || mover.kind == CRO_MOVER_YIELD)
    mover.line = figures->graph.line_slot[candidate->index];
  if (candidate->row != CRO_NO_SLOT && mover.kind != CRO_MOVER_VALUE)
    mover.recipe = figures->graph.slot_of_row[candidate->row];
  mover.value = value_of (figures->model, &mover,
                          figures->layers[CRO_LAYER_FOOD].unit_cost[cro_figures_node (figures,
                                                                                      mover.item)]);
  mover.known = known_of (figures, uncounted, candidate, &mover);
  return mover;
}

/* Of the parts of the cost that are not among the movers. */
static void
know_others (Movers        *self,
             CroMovers     *movers,
             const guint64 *uncounted)
{
  const CroGraph *graph = &self->figures->graph;
  g_autoptr (GHashTable) shown = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < movers->movers->len; i++)
    {
      const CroMover *mover = &g_array_index (movers->movers, CroMover, i);

      if (mover->cost != 0)
        g_hash_table_add (shown, GUINT_TO_POINTER (mover->item));
    }
  for (guint i = 0; i < movers->parts->len; i++)
    {
      guint32 item = g_array_index (movers->parts, CroCostPart, i).item;
      gboolean is_made = graph->made_by[cro_figures_node (self->figures, item)] != CRO_NO_ROW;
      CroOtherMovers *of = is_made ? &movers->values : &movers->prices;
      CroKnown known = is_made ? known_of_value (self->figures, uncounted, item)
                               : cro_known_of_share_of (self->figures, uncounted, item);

      if (!g_hash_table_contains (shown, GUINT_TO_POINTER (item)))
        of->known = cro_known_of_sum (of->known, known);
    }
}

static CroMovers *
finish (Movers *self,
        CroRef  thing)
{
  g_autofree guint64 *uncounted = cro_known_list_uncounted (self->figures, thing);
  CroMovers *movers = g_new0 (CroMovers, 1);

  if (self->most == G_MAXUINT)
    g_array_sort_with_data (self->found, compare, self->figures);
  movers->movers = g_array_sized_new (FALSE, FALSE, sizeof (CroMover), self->found->len);
  movers->parts = g_array_set_size (self->all, self->n_all);
  movers->prices = self->prices;
  movers->values = self->values;
  for (guint i = 0; i < self->found->len; i++)
    {
      CroMover mover = mover_of (self->figures, uncounted, at (self, i));
      CroOtherMovers *of = mover.kind == CRO_MOVER_VALUE ? &movers->values : &movers->prices;

      g_array_append_val (movers->movers, mover);
      of->n -= mover.cost != 0;
      of->cost -= mover.cost;
    }
  movers->prices.up = movers->prices.n > 0 ? STEP * movers->prices.cost : 0;
  movers->values.up = movers->values.n > 0 ? STEP * movers->values.cost : 0;
  know_others (self, movers, uncounted);
  return movers;
}

CroMovers *
cro_movers_new (CroFigures *figures,
                CroRef      thing,
                guint       most)
{
  Movers self = { .figures = figures, .most = most, .least = -1,
                  .found = g_array_new (FALSE, FALSE, sizeof (Candidate)),
                  .all = g_array_new (FALSE, FALSE, sizeof (CroCostPart)) };
  CroMovers *movers;

  cro_effects_trace (figures, thing);
  add_prices (&self);
  add_trim_yields (&self);
  for (guint32 row = cro_effects_next (figures, 0); row < figures->graph.n_rows;
       row = cro_effects_next (figures, row + 1))
    {
      add_values (&self, row);
      if (may_move (&self, row))
        add_row (&self, row);
    }
  cro_effects_clear (figures);
  movers = finish (&self, thing);
  cro_batch_change_clear (&self.batch);
  g_array_unref (self.found);
  return movers;
}

void
cro_movers_free (CroMovers *self)
{
  g_array_unref (self->movers);
  g_array_unref (self->parts);
  g_free (self);
}

double
cro_mover_effect (const CroMover *mover)
{
  return MAX (fabs (mover->down), fabs (mover->up));
}

gboolean
cro_mover_is_bounded (const CroMover *mover)
{
  return mover->known == CRO_KNOWN_WHOLE || mover->known == CRO_KNOWN_AT_LEAST;
}
