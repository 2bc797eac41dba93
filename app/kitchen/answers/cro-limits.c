#include "cro-limits.h"

#include <math.h>
#include <string.h>

#include "cro-batch-change.h"
#include "cro-card.h"
#include "cro-effects.h"
#include "cro-plate.h"
#include "cro-sold-as.h"

/* What is beyond so many times what it is, or below that part of it, nobody has to watch. */
#define FAR 3

/* How a limit that has no formula is found: a bracket of these steps, halved so often. */
#define WIDEN 1.5
#define N_WIDEN 12
#define N_HALVE 60

typedef struct
{
  CroFigures     *figures;
  CroRef          thing;
  CroFigure       figure;
  double          spare;
  CroBatchChange  batch;
} Holder;

/* --- One limit -------------------------------------------------------------------------------------- */

/* How much of what it is may be added or lost: the least is the tightest. */
static double
tightness (const CroMover *mover,
           const CroLimit *limit)
{
  /* Of what costs nothing no part can be told. */
  if (limit->kind != CRO_LIMIT_NONE && mover->value == 0)
    return limit->value;
  switch (limit->kind)
    {
    case CRO_LIMIT_NONE:
      return INFINITY;
    case CRO_LIMIT_NEVER:
      return isnan (limit->value) || mover->kind != CRO_MOVER_PRICE ? -INFINITY
                                                                    : limit->value / mover->value;
    case CRO_LIMIT_DOWN_TO:
      return mover->value / limit->value;
    default:
      return limit->value / mover->value;
    }
}

/* charged: what the value makes of the holder's cost, which is proportional to it. */
static CroLimit
limit_of_proportion (const CroMover *mover,
                     double          charged,
                     double          spare)
{
  double value = mover->value * (1 + spare / charged);
  CroLimit limit = { .kind = charged > 0 ? CRO_LIMIT_UP_TO : CRO_LIMIT_DOWN_TO, .value = value };

  if (charged > 0 && value < 0)
    limit.kind = CRO_LIMIT_NEVER;
  if (charged < 0 && value <= 0)
    limit = (CroLimit){ .kind = CRO_LIMIT_NONE, .value = NAN };
  return limit;
}

/* The same of what divides it. */
static CroLimit
limit_of_division (const CroMover *mover,
                   double          charged,
                   double          spare)
{
  double inverse = 1 + spare / charged;
  CroLimit limit = { .kind = charged > 0 ? CRO_LIMIT_DOWN_TO : CRO_LIMIT_UP_TO,
                     .value = mover->value / inverse };

  if (inverse <= 0)
    limit = (CroLimit){ .kind = charged > 0 ? CRO_LIMIT_NEVER : CRO_LIMIT_NONE, .value = NAN };
  return limit;
}

typedef double (*Change) (CroBatchChange *batch, guint32 index, double factor);

/* Between two factors on both sides of what there is to spare. */
static double
halve (Holder  *holder,
       Change   change,
       guint32  index,
       double   within,
       double   beyond)
{
  for (int i = 0; i < N_HALVE; i++)
    {
      double middle = (within + beyond) / 2;

      if (change (&holder->batch, index, middle) <= holder->spare)
        within = middle;
      else
        beyond = middle;
    }
  return within;
}

static CroLimit
limit_by_bracket (Holder         *holder,
                  const CroMover *mover,
                  Change          change,
                  guint32         index)
{
  gboolean is_over = holder->spare < 0;
  /* Towards what costs more while there is something to spare, towards less where it is over. */
  gboolean goes_up = is_over ? mover->up < mover->down : mover->up > mover->down;
  double near = 1, far = 1;
  CroLimit limit = { .kind = is_over ? CRO_LIMIT_NEVER : CRO_LIMIT_NONE, .value = NAN };

  for (int i = 0; i < N_WIDEN; i++)
    {
      near = far;
      far = goes_up ? far * WIDEN : far / WIDEN;
      if ((change (&holder->batch, index, far) <= holder->spare) == is_over)
        {
          limit.kind = goes_up == is_over ? CRO_LIMIT_DOWN_TO : CRO_LIMIT_UP_TO;
          limit.value = mover->value * (is_over ? halve (holder, change, index, far, near)
                                                : halve (holder, change, index, near, far));
          break;
        }
    }
  return limit;
}

/* --- What a mover makes of a holder's cost ------------------------------------------------------------- */

/* Where a line stands in the graph. */
static guint32
position_of (CroFigures     *figures,
             const CroMover *mover)
{
  const CroGraph *graph = &figures->graph;
  guint32 row = cro_figures_row (figures, mover->recipe);

  for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
    if (graph->line_slot[l] == mover->line)
      return l;
  return 0;
}

static double
charged_by_line (CroFigures *figures,
                 guint32     row,
                 guint32     position)
{
  const CroGraph *graph = &figures->graph;

  return figures->row_effect[row] * graph->quantity[position]
         * figures->layers[CRO_LAYER_FOOD].unit_cost[graph->part[position]];
}

/* Also of what costs nothing yet. */
static CroLimit
limit_of_price (const CroMover  *mover,
                double           quantity,
                const CroFigure *figure)
{
  double value = cro_ceiling (mover->value, quantity, figure->cost, figure->net_price,
                              figure->target_pct / 100);
  CroLimit limit = { .kind = quantity > 0 ? CRO_LIMIT_UP_TO : CRO_LIMIT_DOWN_TO, .value = value };

  if (isnan (value) || (quantity < 0 && value <= 0))
    limit = (CroLimit){ .kind = CRO_LIMIT_NONE, .value = NAN };
  else if (quantity > 0 && value < 0)
    limit.kind = CRO_LIMIT_NEVER;
  return limit;
}

static CroLimit
limit_of_value (Holder         *holder,
                const CroMover *mover)
{
  CroFigures *figures = holder->figures;
  const guint32 *slots;

  cro_figures_outputs (figures, (guint32) figures->model->maker[mover->item], &slots);
  return limit_of_proportion (mover,
                              cro_effects_of_value (figures, slots[0], mover->item) * mover->value,
                              holder->spare);
}

static CroLimit
limit_of_amount (Holder         *holder,
                 const CroMover *mover)
{
  guint32 row = cro_figures_row (holder->figures, mover->recipe);
  guint32 position = position_of (holder->figures, mover);

  cro_batch_change_begin (&holder->batch, holder->figures, row);
  if (holder->batch.has_yield)
    return limit_by_bracket (holder, mover, cro_batch_change_of_amount, position);
  return limit_of_proportion (mover, charged_by_line (holder->figures, row, position),
                              holder->spare);
}

static CroLimit
limit_of_finished (Holder         *holder,
                   const CroMover *mover)
{
  guint32 output = 0;

  cro_batch_change_begin (&holder->batch, holder->figures,
                          cro_figures_row (holder->figures, mover->recipe));
  while (output < holder->batch.n && holder->batch.slots[output] != mover->item)
    output++;
  return limit_by_bracket (holder, mover, cro_batch_change_of_output, output);
}

/* A trim that leaves more than there was is no way out. */
static CroLimit
within_whole (const CroMover *mover,
              CroLimit        limit)
{
  if (limit.kind == CRO_LIMIT_DOWN_TO && limit.value > 100 && mover->value <= 100)
    limit.kind = CRO_LIMIT_NEVER;
  return limit;
}

static CroLimit
limit_of (Holder         *holder,
          const CroMover *mover)
{
  CroFigures *figures = holder->figures;

  switch (mover->kind)
    {
    case CRO_MOVER_PRICE:
      return limit_of_price (mover, figures->effect[cro_figures_node (figures, mover->item)],
                             &holder->figure);
    case CRO_MOVER_VALUE:
      return limit_of_value (holder, mover);
    case CRO_MOVER_AMOUNT:
      return limit_of_amount (holder, mover);
    case CRO_MOVER_FINISHED:
      return limit_of_finished (holder, mover);
    case CRO_MOVER_TRIM_YIELD:
      return within_whole (mover,
                           limit_of_division (mover, cro_mover_charged_by_trim (figures, mover->item),
                                              holder->spare));
    default:
      return within_whole (
          mover, limit_of_division (mover,
                                    charged_by_line (figures,
                                                     cro_figures_row (figures, mover->recipe),
                                                     position_of (figures, mover)),
                                    holder->spare));
    }
}

/* --- Holders ------------------------------------------------------------------------------------------- */

/* FALSE: there is nothing to hold a cost against. */
static gboolean
begin_holder (Holder     *holder,
              CroFigures *figures,
              CroRef      thing)
{
  holder->figures = figures;
  holder->thing = thing;
  holder->figure = cro_figure_of (figures, thing);
  holder->spare = cro_to_spare (&holder->figure);
  return !isnan (holder->spare);
}

/* A limit from below is not known while the cost is at least so much; one from above is at most. */
static CroKnown
known_of (const CroFigure *figure,
          CroLimitKind     kind)
{
  CroKnown of_cost = cro_known_of_cost (figure);

  if (kind == CRO_LIMIT_DOWN_TO)
    return of_cost == CRO_KNOWN_NOTHING ? CRO_KNOWN_AT_LEAST : of_cost;
  return of_cost == CRO_KNOWN_NOTHING ? CRO_KNOWN_AT_MOST : cro_known_turned (of_cost);
}

static void
keep_tightest (CroLimit        *tightest,
               const CroMover  *mover,
               CroLimit         limit,
               const CroFigure *figure,
               CroRef           holder)
{
  if (!(tightness (mover, &limit) < tightness (mover, tightest)))
    return;
  limit.thing = tightest->thing;
  *tightest = limit;
  tightest->holder = holder;
  tightest->known = known_of (figure, limit.kind);
}

void
cro_limit_hold (CroLimit        *tightest,
                const CroMover  *price,
                double           quantity,
                const CroFigure *figure,
                CroRef           holder)
{
  keep_tightest (tightest, price, limit_of_price (price, quantity, figure), figure, holder);
}

static void
hold_all (CroFigures *figures,
          CroRef      thing,
          GArray     *movers,
          GArray     *limits)
{
  Holder holder = { 0 };

  if (!begin_holder (&holder, figures, thing))
    return;
  cro_effects_trace (figures, thing);
  for (guint i = 0; i < movers->len; i++)
    {
      const CroMover *mover = &g_array_index (movers, CroMover, i);

      keep_tightest (&g_array_index (limits, CroLimit, i), mover, limit_of (&holder, mover),
                     &holder.figure, thing);
    }
  cro_effects_clear (figures);
  cro_batch_change_clear (&holder.batch);
}

/* Menus that carry a plate, each once. */
static void
hold_to_menus (CroFigures *figures,
               guint32     plate,
               GArray     *movers,
               GArray     *limits)
{
  g_autoptr (GHashTable) held = g_hash_table_new (NULL, NULL);
  GArray *entries = figures->model->menu_plates;

  for (guint i = 0; i < entries->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (entries, CroMenuPlate, i);

      if (!entry->is_dead && entry->plate == plate
          && g_hash_table_add (held, GUINT_TO_POINTER (entry->menu + 1)))
        hold_all (figures, CRO_REF (CRO_REF_MENU, entry->menu), movers, limits);
    }
}

/* Whether a holder's cost lacks nothing but the price itself: what may be paid is known then. */
static gboolean
lacks_price_alone (CroFigures *figures,
                   guint32     item,
                   CroRef      holder)
{
  const char *name = cro_model_item (figures->model, item)->name;
  g_autoptr (GArray) causes = NULL;

  if (figures->model->maker[item] >= 0 || figures->offer_in_use[item] != CRO_NO_SLOT)
    return FALSE;
  causes = cro_causes_of (figures, holder);
  return causes->len == 1 && g_array_index (causes, CroCause, 0).kind == CRO_CAUSE_PRICE
         && strcmp (g_array_index (causes, CroCause, 0).name, name) == 0;
}

void
cro_limit_finish (CroFigures     *figures,
                  const CroMover *mover,
                  CroLimit       *limit)
{
  limit->pack = limit->next_offer = NAN;
  limit->is_far = (limit->kind == CRO_LIMIT_UP_TO && mover->value > 0 && limit->value > FAR * mover->value)
                  || (limit->kind == CRO_LIMIT_DOWN_TO && limit->value * FAR < mover->value);
  if (mover->kind == CRO_MOVER_PRICE && limit->known != CRO_KNOWN_WHOLE
      && lacks_price_alone (figures, mover->item, limit->holder))
    limit->known = CRO_KNOWN_WHOLE;
  if (mover->kind == CRO_MOVER_PRICE && limit->kind != CRO_LIMIT_NONE)
    cro_ceiling_in_packs (figures, mover->item, limit->value, &limit->pack, &limit->next_offer);
}

CroLimit
cro_limit_none (CroRef thing)
{
  return (CroLimit){ CRO_LIMIT_NONE, FALSE, NAN, thing, CRO_REF_NOWHERE, CRO_KNOWN_WHOLE, NAN, NAN };
}

GArray *
cro_limits_new (CroFigures *figures,
                CroRef      thing,
                GArray     *movers)
{
  GArray *limits = g_array_sized_new (FALSE, FALSE, sizeof (CroLimit), movers->len);

  for (guint i = 0; i < movers->len; i++)
    {
      CroLimit limit = cro_limit_none (thing);

      g_array_append_val (limits, limit);
    }
  hold_all (figures, thing, movers, limits);
  if (thing.kind == CRO_REF_RECIPE)
    hold_to_menus (figures, thing.slot, movers, limits);
  for (guint i = 0; i < movers->len; i++)
    cro_limit_finish (figures, &g_array_index (movers, CroMover, i), &g_array_index (limits, CroLimit, i));
  return limits;
}

const char *
cro_limit_holder (CroModel       *model,
                  const CroLimit *limit)
{
  return limit->kind != CRO_LIMIT_NONE ? cro_ref_name (model, limit->holder) : NULL;
}
