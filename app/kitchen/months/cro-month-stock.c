/* Stock at the close of a day, purchases and adjustments: what a month really used. */
#include "cro-month-private.h"

#include <math.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-reach.h"

/* --- One amount of one item ----------------------------------------------------------------- */

typedef void (*TakeRaw) (CroMonthGathered *of, double quantity, double value);

/* An amount of something made is so much of what it is made of. */
static void
carry (CroMonthWork *self,
       CroBook      *book,
       guint32       item,
       double        quantity,
       TakeRaw       take)
{
  CroFigures *figures = cro_book_get_figures (book);
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item);
  guint32 row = graph->made_by[node];

  if (row == CRO_NO_ROW)
    {
      take (cro_month_gather (self, book, item), quantity,
            quantity * figures->layers[CRO_LAYER_FOOD].unit_cost[node]);
      return;
    }
  figures->row_effect[row] += quantity * figures->share[node];
  cro_dirty_add_row (figures->seen_rows, row);
  cro_effects_run (figures);
  for (guint32 raw = cro_effects_next_raw (figures, 0); raw < graph->n_raws;
       raw = cro_effects_next_raw (figures, raw + 1))
    if (figures->effect[raw] != 0)
      take (cro_month_gather (self, book, graph->item_of_node[raw]), figures->effect[raw],
            figures->effect[raw] * figures->layers[CRO_LAYER_FOOD].unit_cost[raw]);
  cro_effects_clear (figures);
}

/* Whether the food cost of an item is known whole; says what is missing. */
static gboolean
is_known (CroMonthWork *self,
          CroBook      *book,
          guint32       item)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autoptr (GArray) causes = NULL;

  if (!(figures->node_bits[cro_figures_node (figures, item)] & CRO_REACH_INCOMPLETE))
    return TRUE;
  causes = cro_causes_of_item (figures, item);
  return !cro_month_add_causes (self, figures->model, causes);
}

/* What of a made item goes into what it is made of: less what is lost before it is used. */
static double
kept (CroModel *model,
      guint32   item)
{
  return 1 - (double) cro_model_item (model, item)->output.lost / (double) CRO_WHOLE_PCT;
}

double
cro_month_stock_cost (CroFigures *figures,
                      guint32     item)
{
  double cost = figures->layers[CRO_LAYER_FOOD].unit_cost[cro_figures_node (figures, item)];

  return figures->model->maker[item] >= 0 ? cost * kept (figures->model, item) : cost;
}

/* --- Stock ---------------------------------------------------------------------------------- */

static void
take_opening (CroMonthGathered *of,
              double            quantity,
              double            value)
{
  of->opening_quantity += quantity;
  of->opening_value += value;
}

static void
take_closing (CroMonthGathered *of,
              double            quantity,
              double            value)
{
  of->closing_quantity += quantity;
  of->closing_value += value;
}

static void
note_count (CroMonthGathered *own,
            gboolean          is_opening,
            double            quantity,
            double            value)
{
  own->is_broken |= isnan (quantity);
  quantity = isnan (quantity) ? 0 : quantity;
  if (is_opening)
    {
      own->is_opening = TRUE;
      own->counted_at_opening += quantity;
      own->own_opening_value += value;
    }
  else
    {
      own->is_closing = TRUE;
      own->counted_at_closing += quantity;
    }
}

static gboolean
add_count (CroMonthWork   *self,
           CroMonthCount  *count,
           gboolean        is_opening,
           double         *sum,
           GError        **error)
{
  guint32 item;
  CroBook *book = cro_month_find_item (self, is_opening ? self->before_on : self->month->recipes_on,
                                       count->item, count->date, &item, error);
  gboolean *is_open = is_opening ? &self->stock_open : &self->actual_open;
  CroFigures *figures;
  double quantity, value;

  if (book == NULL)
    return FALSE;
  figures = cro_book_get_figures (book);
  if (item == CRO_NO_SLOT || cro_model_item (figures->model, item)->is_disposable)
    return TRUE;
  self->n_food[is_opening ? 0 : 1]++;
  quantity = cro_month_in_base (figures->model, item, count->amount, count->unit);
  if (isnan (quantity))
    {
      *is_open = TRUE;
      cro_month_add_lacks (self, figures->model, item, count->unit);
      note_count (cro_month_gather (self, book, item), is_opening, NAN, 0);
      return TRUE;
    }
  value = quantity * cro_month_stock_cost (figures, item);
  count->value = value;
  *sum += value;
  if (quantity > 0 && !is_known (self, book, item))
    *is_open = TRUE;
  note_count (cro_month_gather (self, book, item), is_opening, quantity, value);
  carry (self, book, item,
         figures->model->maker[item] >= 0 ? quantity * kept (figures->model, item) : quantity,
         is_opening ? take_opening : take_closing);
  return TRUE;
}

static guint
count_items (GArray *counts)
{
  g_autoptr (GHashTable) items = g_hash_table_new (g_int64_hash, g_int64_equal);

  for (guint i = 0; i < counts->len; i++)
    g_hash_table_add (items, &g_array_index (counts, CroMonthCount, i).item);
  return g_hash_table_size (items);
}

/* A stock entered as one sum takes the place of what was counted. */
static gboolean
add_counts (CroMonthWork  *self,
            GArray        *counts,
            gboolean       is_opening,
            gint64         entered,
            double        *stock,
            GError       **error)
{
  double sum = 0;

  for (guint i = 0; i < counts->len && entered == CRO_NOT_SET; i++)
    if (!add_count (self, &g_array_index (counts, CroMonthCount, i), is_opening, &sum, error))
      return FALSE;
  if (entered != CRO_NOT_SET)
    *stock = cro_decimal_to_double (entered);
  else
    *stock = counts->len > 0 ? sum : NAN;
  return TRUE;
}

/* The opening stock is what the month before closed with, if it is closed. */
static gboolean
take_frozen_stock (CroMonthWork  *self,
                   GError       **error)
{
  const CroMonthRow *before = self->entries->before;
  g_autoptr (CroMonth) frozen = NULL;
  gboolean is_frozen;

  if (!before->is_closed)
    return TRUE;
  frozen = cro_month_thaw (self->book, before, &is_frozen, error);
  if (frozen == NULL)
    return FALSE;
  if (!is_frozen)
    return TRUE;
  self->month->opening = frozen->closing;
  self->month->n_opening = frozen->n_closing;
  return TRUE;
}

gboolean
cro_month_add_stock (CroMonthWork  *self,
                     GError       **error)
{
  CroMonthEntries *entries = self->entries;
  CroMonth *month = self->month;

  month->is_entered = entries->row->closing_stock != CRO_NOT_SET;
  month->n_opening = entries->before->closing_stock == CRO_NOT_SET ? count_items (entries->opening) : 0;
  month->n_closing = month->is_entered ? 0 : count_items (entries->closing);
  return add_counts (self, entries->opening, TRUE, entries->before->closing_stock, &month->opening,
                     error)
         && add_counts (self, entries->closing, FALSE, entries->row->closing_stock, &month->closing,
                        error)
         && take_frozen_stock (self, error);
}

/* --- Purchases ------------------------------------------------------------------------------ */

static gboolean
add_bought (CroMonthWork            *self,
            const CroMonthPurchase  *purchase,
            GError                 **error)
{
  guint32 item;
  CroBook *book = cro_month_find_item (self, self->month->recipes_on, purchase->ingredient,
                                       CRO_NO_DAY, &item, error);
  CroMonthGathered *of;

  if (book == NULL)
    return FALSE;
  if (item == CRO_NO_SLOT)
    return TRUE;
  of = cro_month_gather (self, book, item);
  of->was_bought = TRUE;
  of->bought_value += cro_decimal_to_double (purchase->value);
  of->bought_quantity += purchase->has_amount
                             ? cro_month_in_base (cro_book_get_model (book), item, purchase->amount,
                                                  purchase->unit)
                             : NAN;
  return TRUE;
}

gboolean
cro_month_add_purchases (CroMonthWork  *self,
                         GError       **error)
{
  GArray *purchases = self->entries->purchases;
  gint64 sums[CRO_MONTH_N_PURCHASE_KINDS] = { 0 };

  for (guint i = 0; i < purchases->len; i++)
    {
      const CroMonthPurchase *purchase = &g_array_index (purchases, CroMonthPurchase, i);

      sums[purchase->kind] += purchase->value;
      if (purchase->kind == 0 && purchase->ingredient != 0 && !add_bought (self, purchase, error))
        return FALSE;
    }
  for (guint k = 0; k < CRO_MONTH_N_PURCHASE_KINDS; k++)
    {
      self->month->purchases[k] = cro_decimal_to_double (sums[k]);
      self->month->earlier[k] = cro_decimal_to_double (self->entries->earlier[k]);
    }
  return TRUE;
}

/* --- Adjustments ---------------------------------------------------------------------------- */

static void
take_adjusted (CroMonthGathered *of,
               double            quantity,
               double            value)
{
  of->adjusted_quantity += quantity;
  of->adjusted_value += value;
}

static void
take_given_in (CroMonthGathered *of,
               double            quantity,
               double            value)
{
  take_adjusted (of, -quantity, -value);
}

static gboolean
is_waste (guint kind)
{
  return g_str_equal (cro_adjustment_kind_codes[kind], "waste");
}

static gboolean
comes_in (guint kind)
{
  return g_str_equal (cro_adjustment_kind_codes[kind], "transfer-in");
}

/* Money of an adjustment that has its own, and that of its amount where it has none. */
static void
adjust_item (CroMonthWork             *self,
             CroBook                  *book,
             guint32                   item,
             const CroMonthAdjustment *adjustment,
             double                    quantity,
             double                   *value)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroMonthGathered *of = cro_month_gather (self, book, item);
  TakeRaw take = comes_in (adjustment->kind) ? take_given_in : take_adjusted;
  double cost = figures->layers[CRO_LAYER_FOOD].unit_cost[cro_figures_node (figures, item)];

  if (!adjustment->has_value && !isnan (quantity))
    {
      *value = quantity * cost;
      if (quantity > 0 && !is_known (self, book, item))
        self->adjust_open = TRUE;
    }
  if (is_waste (adjustment->kind))
    return;
  if (isnan (quantity) || (of->is_bought && adjustment->has_value))
    take (of, quantity, *value);
  else
    carry (self, book, item, quantity, take);
}

static gboolean
add_adjustment (CroMonthWork        *self,
                CroMonthAdjustment  *adjustment,
                GError             **error)
{
  double value = adjustment->has_value ? cro_decimal_to_double (adjustment->value) : 0;
  double quantity = NAN;
  CroBook *book = NULL;
  guint32 item = CRO_NO_SLOT;

  if (adjustment->item != 0)
    {
      book = cro_month_find_item (self, self->month->recipes_on, adjustment->item, adjustment->date,
                                  &item, error);
      if (book == NULL)
        return FALSE;
    }
  if (item != CRO_NO_SLOT && cro_model_item (cro_book_get_model (book), item)->is_disposable)
    return TRUE;
  if (item != CRO_NO_SLOT && adjustment->has_amount)
    quantity = cro_month_in_base (cro_book_get_model (book), item, adjustment->amount,
                                  adjustment->unit);
  if (item != CRO_NO_SLOT)
    adjust_item (self, book, item, adjustment, quantity, &value);
  if (!adjustment->has_value && (item == CRO_NO_SLOT || isnan (quantity)))
    {
      self->adjust_open = TRUE;
      if (item != CRO_NO_SLOT && adjustment->has_amount)
        cro_month_add_lacks (self, cro_book_get_model (book), item, adjustment->unit);
      cro_month_ask (self, CRO_QUESTION_NO_VALUE,
                     item != CRO_NO_SLOT ? cro_model_item (cro_book_get_model (book), item)->name
                                         : cro_adjustment_kind_codes[adjustment->kind],
                     adjustment->date, NULL, NAN);
    }
  adjustment->worth = value;
  self->month->adjustments[adjustment->kind] += value;
  return TRUE;
}

gboolean
cro_month_add_adjustments (CroMonthWork  *self,
                           GError       **error)
{
  GArray *adjustments = self->entries->adjustments;

  for (guint i = 0; i < adjustments->len; i++)
    if (!add_adjustment (self, &g_array_index (adjustments, CroMonthAdjustment, i), error))
      return FALSE;
  return TRUE;
}
