#include "cro-movers.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-mass.h"
#include "cro-plate.h"

#define STEP 0.1

typedef struct
{
  CroFigures *figures;
  GArray     *movers;
  double     *trimmed;    /* by item slot: what lines charge that its trim yield divides */
} Movers;

static void
add (Movers   *self,
     CroMover  mover)
{
  mover.ceiling.unit_cost = mover.ceiling.pack = mover.ceiling.next_offer = NAN;
  if (mover.down != 0 || mover.up != 0)
    g_array_append_val (self->movers, mover);
}

/* --- Prices ------------------------------------------------------------------------------------ */

static void
add_prices (Movers       *self,
            guint32       plate,
            CroBreakdown *breakdown)
{
  g_autoptr (GArray) ceilings = cro_ceilings_of_plate (self->figures, plate, breakdown);

  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->ingredients, CroShareOfCost, i);
      CroMover mover = {
        .kind = CRO_MOVER_PRICE, .item = share->item, .line = CRO_NO_SLOT, .recipe = CRO_NO_SLOT,
        .value = share->unit_cost, .down = -STEP * share->cost, .up = STEP * share->cost,
        .cost = share->cost, .ceiling = g_array_index (ceilings, CroCeiling, i),
      };

      if (share->cost != 0)
        g_array_append_val (self->movers, mover);
    }
}

static void
add_values (Movers             *self,
            const CroBreakdown *breakdown)
{
  for (guint i = 0; i < breakdown->by_products->len; i++)
    {
      const CroShareOfCost *share = &g_array_index (breakdown->by_products, CroShareOfCost, i);

      add (self, (CroMover){
        .kind = CRO_MOVER_VALUE, .item = share->item, .line = CRO_NO_SLOT, .recipe = CRO_NO_SLOT,
        .value = share->unit_cost, .down = -STEP * share->cost, .up = STEP * share->cost,
        .cost = share->cost,
      });
    }
}

/* --- Batches shared anew -------------------------------------------------------------------------- */

/* What a batch becomes when something in it changes. */
typedef struct
{
  double  cost;           /* added to the batch's cost */
  double  grams;          /* added to what goes in */
  guint32 output;         /* slot of an output whose finished amount changes; CRO_NO_SLOT: none */
  double  factor;         /* of that */
} Change;

/* What the figure changes by: as it is affine in what the outputs of a batch cost, their effects
 * tell. */
static double
share_anew (CroFigures   *figures,
            guint32       row,
            const Change *change)
{
  CroModel *model = figures->model;
  const guint32 *slots;
  guint32 recipe = figures->graph.slot_of_row[row];
  guint32 n = cro_figures_outputs (figures, recipe, &slots);
  g_autofree CroOutput *outputs = g_new (CroOutput, n + 1);
  g_autofree CroMeasure *measures = g_new (CroMeasure, n + 1);
  const CroLayer *food = &figures->layers[CRO_LAYER_FOOD];
  double grams = cro_mass_input (&figures->graph, row, &model->lines, model->measures, NULL, NULL);
  double moved = 0;

  for (guint32 i = 0; i < n; i++)
    {
      outputs[i] = cro_model_item (model, slots[i])->output;
      measures[i] = model->measures[slots[i]];
      if (slots[i] == change->output)
        {
          outputs[i].amount = llround ((double) outputs[i].amount * change->factor);
          outputs[i].yield = llround ((double) outputs[i].yield * change->factor);
        }
    }
  cro_batch_share ((CroRule) cro_model_recipe (model, recipe)->rule,
                   grams < 0 ? grams : grams + change->grams, outputs, measures, n);
  for (guint32 i = 0; i < n; i++)
    {
      guint32 node = cro_figures_node (figures, slots[i]);
      double unit_cost = outputs[i].share * (food->row_cost[row] + change->cost) + outputs[i].fixed;

      moved += figures->effect[node] * (unit_cost - food->unit_cost[node]);
    }
  return moved;
}

static gboolean
gives_by_yield (CroFigures *figures,
                guint32     row)
{
  const guint32 *slots;
  guint32 n = cro_figures_outputs (figures, figures->graph.slot_of_row[row], &slots);

  for (guint32 i = 0; i < n; i++)
    if (cro_model_item (figures->model, slots[i])->output.yield > 0)
      return TRUE;
  return FALSE;
}

static void
add_finished (Movers  *self,
              guint32  row)
{
  CroModel *model = self->figures->model;
  guint32 recipe = self->figures->graph.slot_of_row[row];
  const guint32 *slots;
  guint32 n = cro_figures_outputs (self->figures, recipe, &slots);

  for (guint32 i = 0; i < n; i++)
    {
      const CroOutput *output = &cro_model_item (model, slots[i])->output;
      Change less = { .output = slots[i], .factor = 1 - STEP };
      Change more = { .output = slots[i], .factor = 1 + STEP };
      CroMover mover = {
        .kind = CRO_MOVER_FINISHED, .item = slots[i], .line = CRO_NO_SLOT, .recipe = recipe,
        .value = cro_decimal_to_double (output->amount > 0 ? output->amount : output->yield),
      };

      if (output->amount == 0 && output->yield == 0)
        continue;
      mover.down = share_anew (self->figures, row, &less);
      mover.up = share_anew (self->figures, row, &more);
      add (self, mover);
    }
}

/* --- Lines ------------------------------------------------------------------------------------------- */

/* Whether the trim yield of the item divides a line. */
static gboolean
is_trimmed (const CroLines   *lines,
            guint32           line,
            const CroMeasure *item)
{
  return lines->yield[line] == 0 && cro_line_yield (lines, line, item) != CRO_WHOLE_PCT;
}

static double
change_of_amount (CroFigures *figures,
                  guint32     row,
                  guint32     line,
                  double      cost,
                  double      step)
{
  const CroMeasure *item = &figures->model->measures[figures->model->lines.item[line]];
  CroLack lack;
  Change change = { .cost = step * cost, .output = CRO_NO_SLOT };

  if (item->is_food)
    change.grams = step * cro_line_grams (&figures->model->lines, line, item, &lack);
  return share_anew (figures, row, &change);
}

static void
add_line (Movers   *self,
          guint32   row,
          uint32_t  l,
          gboolean  by_yield)
{
  CroFigures *figures = self->figures;
  const CroLines *lines = &figures->model->lines;
  guint32 line = figures->graph.line_slot[l];
  double cost = figures->graph.quantity[l]
                * figures->layers[CRO_LAYER_FOOD].unit_cost[figures->graph.part[l]];
  double charged = figures->row_effect[row] * cost;
  CroMover mover = {
    .kind = CRO_MOVER_AMOUNT, .item = lines->item[line], .line = line,
    .recipe = figures->graph.slot_of_row[row],
    .value = cro_decimal_to_double (lines->amount[line]), .down = -STEP * charged,
    .up = STEP * charged,
  };

  if (by_yield)
    {
      mover.down = change_of_amount (figures, row, line, cost, -STEP);
      mover.up = change_of_amount (figures, row, line, cost, STEP);
    }
  add (self, mover);
  if (is_trimmed (lines, line, &figures->model->measures[mover.item]))
    self->trimmed[mover.item] += charged;
  if (lines->yield[line] == 0)
    return;
  mover.kind = CRO_MOVER_YIELD;
  mover.value = cro_decimal_to_double (lines->yield[line]);
  mover.down = charged * (1 / (1 - STEP) - 1);
  mover.up = charged * (1 / (1 + STEP) - 1);
  add (self, mover);
}

static void
add_row (Movers  *self,
         guint32  row)
{
  const CroGraph *graph = &self->figures->graph;
  gboolean by_yield = gives_by_yield (self->figures, row);

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    add_line (self, row, l, by_yield);
  add_finished (self, row);
}

static void
add_trim_yields (Movers             *self,
                 const CroBreakdown *breakdown)
{
  for (guint i = 0; i < breakdown->ingredients->len; i++)
    {
      guint32 slot = g_array_index (breakdown->ingredients, CroShareOfCost, i).item;
      double charged = self->trimmed[slot];

      add (self, (CroMover){
        .kind = CRO_MOVER_TRIM_YIELD, .item = slot, .line = CRO_NO_SLOT, .recipe = CRO_NO_SLOT,
        .value = cro_decimal_to_double (self->figures->model->measures[slot].trim_yield),
        .down = charged * (1 / (1 - STEP) - 1), .up = charged * (1 / (1 + STEP) - 1),
      });
    }
}

/* --- Plates -------------------------------------------------------------------------------------------- */

/* One trace from the plate tells what a batch's cost and an item's unit cost count in it. */
static void
add_below (Movers  *self,
           guint32  plate)
{
  CroFigures *figures = self->figures;
  const CroGraph *graph = &figures->graph;
  const CroRecipe *recipe = cro_model_recipe (figures->model, plate);
  guint32 top = cro_figures_row (figures, plate);

  figures->row_effect[top] = cro_plate_share (recipe->makes, recipe->per_guest, recipe->allowance);
  cro_dirty_add_row (figures->seen_rows, top);
  cro_trace (graph, figures->share, figures->row_effect, figures->effect, figures->seen_rows);
  for (guint32 row = 0; row < graph->n_rows; row++)
    if (figures->seen_rows[row / 64] == 0)
      row |= 63;
    else if (figures->seen_rows[row / 64] >> (row % 64) & 1)
      add_row (self, row);
  cro_trace_clear (graph, figures->row_effect, figures->effect, figures->seen_rows);
}

static double
effect_of (const CroMover *mover)
{
  return MAX (fabs (mover->down), fabs (mover->up));
}

static int
compare_movers (gconstpointer a,
                gconstpointer b)
{
  const CroMover *x = a, *y = b;

  if (effect_of (x) != effect_of (y))
    return effect_of (x) > effect_of (y) ? -1 : 1;
  if (x->kind != y->kind)
    return x->kind < y->kind ? -1 : 1;
  if (x->item != y->item)
    return x->item < y->item ? -1 : 1;
  return x->line < y->line ? -1 : x->line > y->line;
}

GArray *
cro_movers_of_plate (CroFigures *figures,
                     guint32     plate)
{
  g_autoptr (CroBreakdown) breakdown = cro_breakdown_of_plate (figures, plate);
  g_autofree double *trimmed = g_new0 (double, figures->model->items->len + 1);
  Movers self = { figures, g_array_new (FALSE, FALSE, sizeof (CroMover)), trimmed };

  add_prices (&self, plate, breakdown);
  add_values (&self, breakdown);
  add_below (&self, plate);
  add_trim_yields (&self, breakdown);
  g_array_sort (self.movers, compare_movers);
  return self.movers;
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
