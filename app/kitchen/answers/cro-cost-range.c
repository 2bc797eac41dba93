#include "cro-cost-range.h"

#include <math.h>

#include "cro-batch-change.h"
#include "cro-decimal.h"
#include "cro-effects.h"
#include "cro-movers.h"
#include "cro-price-history.h"
#include "cro-reach.h"
#include "cro-yield.h"

#define DAYS 365

/* Of a normal distribution: one value in twenty lies above so many deviations. */
#define NINE_OF_TEN 1.6448536269514722

typedef struct
{
  double   price;       /* variance of the unit cost; NaN: nothing is known of it */
  double   inverse;     /* of 1 / trim yield */
  gboolean has_past;    /* more than one price was in force */
} Spread;

struct _CroSpreads
{
  CroBook    *book;
  guint64     edition;
  GHashTable *spreads;  /* slot of an item + 1 → Spread * */
};

/* --- Reading -------------------------------------------------------------------------------------- */

/* Whether another price than the last was in force on the days from first on. */
static gboolean
has_past (GArray  *from,
          CroDate  first)
{
  return from->len > 1 && g_array_index (from, CroDate, from->len - 1) > first
         && g_array_index (from, CroDate, from->len - 1) > g_array_index (from, CroDate, 0);
}

static gboolean
read_prices (CroSpreads  *self,
             guint32      item,
             Spread      *spread,
             GError     **error)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  guint32 offer = figures->offer_in_use[item];
  g_autoptr (GArray) history = NULL;
  g_autoptr (GArray) from = g_array_new (FALSE, FALSE, sizeof (CroDate));
  g_autoptr (GArray) cost = g_array_new (FALSE, FALSE, sizeof (double));

  spread->price = NAN;
  spread->has_past = FALSE;
  if (offer == CRO_NO_SLOT)
    return TRUE;
  history = cro_price_history_new (self->book, item, error);
  if (history == NULL)
    return FALSE;
  /* Newest first; from[] rises. */
  for (guint i = history->len; i-- > 0;)
    {
      const CroPastPrice *price = &g_array_index (history, CroPastPrice, i);
      double unit_cost = price->unit_cost * cro_model_offer (figures->model, offer)->offer.rate;

      if (price->offer != offer || isnan (unit_cost) || price->offer_then.from > figures->date)
        continue;
      g_array_append_val (from, price->offer_then.from);
      g_array_append_val (cost, unit_cost);
    }
  spread->price = cro_price_variance ((const CroDate *) (void *) from->data,
                                      (const double *) (void *) cost->data, from->len,
                                      figures->date - (DAYS - 1), figures->date);
  spread->has_past = has_past (from, figures->date - (DAYS - 1));
  return TRUE;
}

static gboolean
read_yields (CroSpreads  *self,
             guint32      item,
             Spread      *spread,
             GError     **error)
{
  static const char *const columns[] = { "purchased_g_micro", "usable_g_micro", NULL };
  gint64 id = cro_model_item (cro_book_get_model (self->book), item)->id;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (self->book), "yield_test",
                                                "item", id, columns, error);
  g_autoptr (GArray) purchased = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) usable = g_array_new (FALSE, FALSE, sizeof (double));
  GError *failed = NULL;

  spread->inverse = NAN;
  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    {
      double bought = cro_decimal_to_double (cro_rows_get_int (rows, 0));
      double left = cro_decimal_to_double (cro_rows_get_int (rows, 1));

      if (!(bought > 0) || !(left > 0))
        continue;
      g_array_append_val (purchased, bought);
      g_array_append_val (usable, left);
    }
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  spread->inverse = cro_yield_variance ((const double *) (void *) purchased->data,
                                        (const double *) (void *) usable->data, purchased->len);
  return TRUE;
}

static gboolean
read_item (CroSpreads  *self,
           guint32      item,
           GError     **error)
{
  Spread spread;

  if (g_hash_table_contains (self->spreads, GUINT_TO_POINTER (item + 1)))
    return TRUE;
  if (!read_prices (self, item, &spread, error) || !read_yields (self, item, &spread, error))
    return FALSE;
  g_hash_table_insert (self->spreads, GUINT_TO_POINTER (item + 1),
                       g_memdup2 (&spread, sizeof spread));
  return TRUE;
}

/* --- What stands below --------------------------------------------------------------------------------- */

typedef struct
{
  guint32 item;
  double  of_price;     /* d cost / d unit cost */
  double  of_inverse;   /* d cost / d (1 / yield) */
} Slope;

static void
meet (CroFigures *figures,
      guint32     node,
      GArray     *slopes)
{
  Slope slope = { figures->graph.item_of_node[node], figures->effect[node], 0 };

  /* What a guest costs here is food. */
  if (cro_model_item (figures->model, slope.item)->is_disposable)
    return;
  if (figures->model->measures[slope.item].trim_yield != 0)
    slope.of_inverse = cro_mover_charged_by_trim (figures, slope.item)
                       * cro_decimal_to_double (figures->model->measures[slope.item].trim_yield)
                       / 100;
  g_array_append_val (slopes, slope);
}

/* How far a yield is moved to see what a cost does. */
#define STEP 1e-4

/* A batch of one thing gives its main output as a yield of that: the lots that were tested are its. */
static void
walk_batch (CroBatchChange *batch,
            guint32         row,
            GArray         *slopes)
{
  CroFigures *figures = batch->figures;
  const CroGraph *graph = &figures->graph;
  guint32 l = graph->first[row], item;
  gint64 yield;
  double moved;

  if (graph->first[row + 1] != l + 1 || graph->made_by[graph->part[l]] != CRO_NO_ROW
      || batch->n == 0)
    return;
  item = graph->item_of_node[graph->part[l]];
  yield = cro_model_item (figures->model, batch->slots[0])->output.yield;
  if (yield == 0)
    return;
  moved = (cro_batch_change_of_output (batch, 0, 1 + STEP)
           - cro_batch_change_of_output (batch, 0, 1 - STEP))
          / (2 * STEP);
  for (guint i = 0; i < slopes->len; i++)
    if (g_array_index (slopes, Slope, i).item == item)
      g_array_index (slopes, Slope, i).of_inverse -= moved * cro_decimal_to_double (yield) / 100;
}

/* What values that are assigned to by-products make of the cost: they are a part of it that has no past. What
 * is credited is none. */
static double
values_of (const CroFigures *figures,
           guint32           row)
{
  const guint32 *slots;
  guint32 n = cro_figures_outputs (figures, figures->graph.slot_of_row[row], &slots);
  double sum = 0;

  if (!(figures->own_row_bits[row] & CRO_REACH_CREDIT))
    return 0;
  for (guint32 i = 1; i < n; i++)
    {
      const CroOutput *output = &cro_model_item (figures->model, slots[i])->output;

      if (output->has_value)
        sum += MAX (cro_effects_of_value (figures, slots[0], slots[i]) * output->value_of_base, 0);
    }
  return sum;
}

/* Elements Slope, of all that is bought for it. values: what assigned values make of its cost. */
static GArray *
slopes_of (CroFigures *figures,
           CroRef      thing,
           double     *values)
{
  GArray *slopes = g_array_new (FALSE, FALSE, sizeof (Slope));
  CroBatchChange batch = { 0 };

  *values = 0;
  cro_effects_trace (figures, thing);
  for (guint32 node = cro_effects_next_raw (figures, 0); node < figures->graph.n_raws;
       node = cro_effects_next_raw (figures, node + 1))
    meet (figures, node, slopes);
  for (guint32 row = cro_effects_next (figures, 0); row < figures->graph.n_rows;
       row = cro_effects_next (figures, row + 1))
    {
      *values += values_of (figures, row);
      cro_batch_change_begin (&batch, figures, row);
      if (batch.has_yield)
        walk_batch (&batch, row, slopes);
    }
  cro_batch_change_clear (&batch);
  cro_effects_clear (figures);
  return slopes;
}

gboolean
cro_spreads_read (CroSpreads  *self,
                  CroRef       thing,
                  GError     **error)
{
  guint64 edition = cro_book_get_edition (self->book);
  double values;
  g_autoptr (GArray) slopes = slopes_of (cro_book_get_figures (self->book), thing, &values);

  if (edition != self->edition)
    g_hash_table_remove_all (self->spreads);
  self->edition = edition;
  for (guint i = 0; i < slopes->len; i++)
    if (!read_item (self, g_array_index (slopes, Slope, i).item, error))
      return FALSE;
  return TRUE;
}

/* --- The range ------------------------------------------------------------------------------------- */

CroCostRange
cro_cost_range (CroSpreads *self,
                CroRef      thing,
                double      cost)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  double sum;
  g_autoptr (GArray) slopes = slopes_of (figures, thing, &sum);
  g_autofree double *slope = g_new (double, 2 * slopes->len + 1);
  g_autofree double *variance = g_new (double, 2 * slopes->len + 1);
  CroCostRange range = { 0 };
  gsize n = 0;

  for (guint i = 0; i < slopes->len; i++)
    {
      const Slope *of = &g_array_index (slopes, Slope, i);
      const Spread *spread = g_hash_table_lookup (self->spreads, GUINT_TO_POINTER (of->item + 1));

      double part = fabs (of->of_price) * cro_figures_unit_cost (figures, of->item);

      range.n_bought += of->of_price != 0;
      range.n_missing += of->of_price != 0 && isnan (part);
      sum += isnan (part) ? 0 : part;
      if (spread == NULL)
        continue;
      range.with_past += spread->has_past && !isnan (part) ? part : 0;
      range.n_prices += of->of_price != 0 && spread->price > 0;
      range.n_yields += of->of_inverse != 0 && spread->inverse > 0;
      slope[n] = of->of_price;
      variance[n++] = spread->price;
      slope[n] = of->of_inverse;
      variance[n++] = spread->inverse;
    }
  range.variance = cro_range_variance (slope, variance, n);
  range.deviation = sqrt (range.variance);
  range.with_past = sum > 0 ? range.with_past / sum : 0;
  range.low = MAX (cost - NINE_OF_TEN * range.deviation, MIN (cost, 0));
  range.high = cost + NINE_OF_TEN * range.deviation;
  return range;
}

/* --- The spreads ------------------------------------------------------------------------------------ */

CroSpreads *
cro_spreads_new (CroBook *book)
{
  CroSpreads *self = g_new0 (CroSpreads, 1);

  self->book = g_object_ref (book);
  self->spreads = g_hash_table_new_full (NULL, NULL, NULL, g_free);
  return self;
}

void
cro_spreads_free (CroSpreads *self)
{
  g_object_unref (self->book);
  g_hash_table_unref (self->spreads);
  g_free (self);
}
