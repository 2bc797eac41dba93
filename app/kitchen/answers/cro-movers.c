#include "cro-movers.h"

#include <math.h>

#include "cro-batch-change.h"
#include "cro-decimal.h"
#include "cro-effects.h"
#include "cro-rule.h"

#define STEP 0.1

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
} Candidate;

typedef struct
{
  CroFigures     *figures;
  GArray         *candidates;
  GArray         *raws;       /* guint32: nodes that were met */
  CroBatchChange  batch;
} Movers;

static inline double
effect_of (const Candidate *candidate)
{
  return MAX (fabs (candidate->down), fabs (candidate->up));
}

static inline void
add (Movers   *self,
     Candidate candidate)
{
  if (candidate.down != 0 || candidate.up != 0)
    g_array_append_val (self->candidates, candidate);
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
  return (Candidate){ .down = charged * (1 / (1 - STEP) - 1), .up = charged * (1 / (1 + STEP) - 1),
                      .index = index, .row = row, .kind = kind };
}

/* --- Prices and trim yields ----------------------------------------------------------------------- */

/* What is charged of it is its effect; where that stood, what its trim yield divides is summed from
 * then on. */
static void
meet_raw (Movers  *self,
          guint32  node)
{
  CroFigures *figures = self->figures;
  guint32 item = figures->graph.item_of_node[node];
  double cost = figures->effect[node] * figures->layers[CRO_LAYER_FOOD].unit_cost[node];
  Candidate price = proportional (CRO_MOVER_PRICE, item, CRO_NO_SLOT, cost);

  figures->seen_nodes[node / 64] |= G_GUINT64_CONSTANT (1) << (node % 64);
  figures->effect[node] = 0;
  price.cost = cost;
  if (!cro_model_item (figures->model, item)->is_disposable)
    add (self, price);
  g_array_append_val (self->raws, node);
}

static void
add_trim_yields (Movers *self)
{
  CroFigures *figures = self->figures;

  for (guint i = 0; i < self->raws->len; i++)
    {
      guint32 node = g_array_index (self->raws, guint32, i);

      add (self, dividing (CRO_MOVER_TRIM_YIELD, figures->graph.item_of_node[node], CRO_NO_SLOT,
                           figures->effect[node]));
      figures->seen_nodes[node / 64] = 0;
    }
}

/* --- Lines ------------------------------------------------------------------------------------------- */

gboolean
cro_mover_is_trimmed (CroModel *model,
                      guint32   line)
{
  return model->lines.yield[line] == 0
         && cro_line_yield (&model->lines, line, &model->measures[model->lines.item[line]])
                != CRO_WHOLE_PCT;
}

static void
add_line (Movers   *self,
          guint32   row,
          uint32_t  l)
{
  CroFigures *figures = self->figures;
  const CroGraph *graph = &figures->graph;
  guint32 node = graph->part[l], line = graph->line_slot[l];
  double charged = figures->row_effect[row] * graph->quantity[l]
                   * figures->layers[CRO_LAYER_FOOD].unit_cost[node];
  Candidate amount = proportional (CRO_MOVER_AMOUNT, l, row, charged);

  if (graph->made_by[node] == CRO_NO_ROW
      && !(figures->seen_nodes[node / 64] >> (node % 64) & 1))
    meet_raw (self, node);
  if (self->batch.has_yield)
    {
      amount.down = cro_batch_change_of_amount (&self->batch, l, 1 - STEP);
      amount.up = cro_batch_change_of_amount (&self->batch, l, 1 + STEP);
    }
  if (effect_of (&amount) > DUST * fabs (charged))
    add (self, amount);
  if (figures->model->lines.yield[line] != 0)
    add (self, dividing (CRO_MOVER_YIELD, l, row, charged));
  else if (graph->made_by[node] == CRO_NO_ROW && cro_mover_is_trimmed (figures->model, line))
    figures->effect[node] += charged;
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

static void
add_values (Movers  *self,
            guint32  row)
{
  CroModel *model = self->figures->model;
  const CroRecipe *recipe = cro_model_recipe (model, self->figures->graph.slot_of_row[row]);

  if (self->batch.n < 2 || !cro_rule_credits ((CroRule) recipe->rule))
    return;
  for (guint32 i = 1; i < self->batch.n; i++)
    {
      guint32 slot = self->batch.slots[i];
      const CroOutput *output = &cro_model_item (model, slot)->output;
      double cost = cro_effects_of_value (self->figures, self->batch.slots[0], slot)
                    * output->value_of_base;
      Candidate value = proportional (CRO_MOVER_VALUE, slot, row, cost);

      value.cost = cost;
      if (output->has_value)
        add (self, value);
    }
}

static void
add_row (Movers  *self,
         guint32  row)
{
  const CroGraph *graph = &self->figures->graph;

  cro_batch_change_begin (&self->batch, self->figures, row);
  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    add_line (self, row, l);
  add_finished (self, row);
  add_values (self, row);
}

/* --- In order ------------------------------------------------------------------------------------------- */

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

/* The first ones to the front, the largest of them first: each of the rest is held against the
 * smallest that was taken, and few take its place. */
static void
take_first (Movers *self,
            guint   most)
{
  Candidate *all = (Candidate *) (void *) self->candidates->data;
  guint n = self->candidates->len;

  if (most >= n)
    {
      g_array_sort_with_data (self->candidates, compare, self->figures);
      return;
    }
  g_qsort_with_data (all, (int) most, sizeof *all, compare, self->figures);
  for (guint i = most; most > 0 && i < n; i++)
    {
      Candidate candidate = all[i];
      guint at = most - 1;

      if (effect_of (&candidate) < effect_of (&all[at])
          || compare (&candidate, &all[at], self->figures) >= 0)
        continue;
      all[i] = all[at];
      for (; at > 0 && compare (&candidate, &all[at - 1], self->figures) < 0; at--)
        all[at] = all[at - 1];
      all[at] = candidate;
    }
}

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

static CroMover
mover_of (CroFigures      *figures,
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
  return mover;
}

static CroMovers *
finish (Movers *self,
        guint   most)
{
  CroMovers *movers = g_new0 (CroMovers, 1);

  take_first (self, most);
  movers->movers = g_array_new (FALSE, FALSE, sizeof (CroMover));
  for (guint i = 0; i < self->candidates->len; i++)
    {
      const Candidate *candidate = &g_array_index (self->candidates, Candidate, i);

      if (i < most)
        {
          CroMover mover = mover_of (self->figures, candidate);

          g_array_append_val (movers->movers, mover);
          continue;
        }
      movers->n_others++;
      movers->others += effect_of (candidate);
      movers->cost_of_others += candidate->cost;
    }
  return movers;
}

CroMovers *
cro_movers_new (CroFigures *figures,
                CroRef      thing,
                guint       most)
{
  Movers self = { figures, g_array_new (FALSE, FALSE, sizeof (Candidate)),
                  g_array_new (FALSE, FALSE, sizeof (guint32)), { 0 } };
  CroMovers *movers;

  cro_effects_trace (figures, thing);
  for (guint32 row = cro_effects_next (figures, 0); row < figures->graph.n_rows;
       row = cro_effects_next (figures, row + 1))
    add_row (&self, row);
  add_trim_yields (&self);
  cro_effects_clear (figures);
  movers = finish (&self, most);
  cro_batch_change_clear (&self.batch);
  g_array_unref (self.candidates);
  g_array_unref (self.raws);
  return movers;
}

void
cro_movers_free (CroMovers *self)
{
  g_array_unref (self->movers);
  g_free (self);
}

double
cro_mover_effect (const CroMover *mover)
{
  return MAX (fabs (mover->down), fabs (mover->up));
}

CroMadeOf
cro_made_of (CroFigures *figures,
             guint32     plate)
{
  g_autoptr (CroBreakdown) breakdown = cro_breakdown_of_plate (figures, plate);
  CroMadeOf made = {
    .total = breakdown->figure.cost, .is_incomplete = breakdown->figure.is_incomplete,
    .others = breakdown->figure.cost,
  };

  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, i);

      if (share->cost <= 0)
        break;
      if (made.n == G_N_ELEMENTS (made.item))
        {
          made.n_others++;
          continue;
        }
      made.item[made.n] = share->item;
      made.cost[made.n++] = share->cost;
      made.others -= share->cost;
    }
  return made;
}
