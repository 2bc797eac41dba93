/* Stock at the close of a day, purchases and adjustments: what a month really used. */
#include "cro-month-private.h"

#include <math.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-reach.h"
#include "cro-service.h"

/* --- One amount of one item ----------------------------------------------------------------- */

/* Of what an ingredient costs: what is lacking of a value that was frozen was lacking then. */
static CroKnown
known_of_raw (CroFigures *figures,
              guint32     node,
              gboolean    is_whole)
{
  return !is_whole && (figures->own_node_bits[node] & CRO_REACH_INCOMPLETE) ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE;
}

void
cro_month_carry (CroMonthWork *self,
                 CroBook      *book,
                 guint32       item,
                 double        quantity,
                 double        value,
                 CroKnown      known,
                 CroMonthTake  take)
{
  CroFigures *figures = cro_book_get_figures (book);
  const CroGraph *graph = &figures->graph;
  guint32 node = cro_figures_node (figures, item);
  guint32 row = graph->made_by[node];
  double cost = quantity * figures->layers[CRO_LAYER_FOOD].unit_cost[node];
  double scale = isnan (value) || cost == 0 ? 1 : value / cost;

  if (quantity == 0)
    return;
  if (row == CRO_NO_ROW)
    {
      take (cro_month_gather (self, book, item), quantity, isnan (value) ? cost : value, known);
      return;
    }
  if (known != CRO_KNOWN_WHOLE)
    cro_month_take_uncounted (self, book, CRO_REF (CRO_REF_ITEM, item), take);
  figures->row_effect[row] += quantity * figures->share[node];
  cro_dirty_add_row (figures->seen_rows, row);
  cro_effects_run (figures);
  for (guint32 raw = cro_effects_next_raw (figures, 0); raw < graph->n_raws;
       raw = cro_effects_next_raw (figures, raw + 1))
    if (figures->effect[raw] != 0)
      take (cro_month_gather (self, book, graph->item_of_node[raw]), figures->effect[raw],
            scale * figures->effect[raw] * figures->layers[CRO_LAYER_FOOD].unit_cost[raw],
            known_of_raw (figures, raw, known == CRO_KNOWN_WHOLE));
  cro_effects_clear (figures);
}

/* How much is known of the food cost of an item, as a part of a sum; is_said: says what is missing. */
static CroKnown
known_of (CroMonthWork *self,
          CroBook      *book,
          guint32       item,
          gboolean      is_said)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autoptr (GArray) causes = NULL;

  if (!(figures->node_bits[cro_figures_node (figures, item)] & CRO_REACH_INCOMPLETE))
    return CRO_KNOWN_WHOLE;
  causes = cro_causes_of_item (figures, item);
  if (!cro_month_has_causes (figures->model, causes))
    return CRO_KNOWN_WHOLE;
  if (is_said)
    cro_month_add_causes (self, figures->model, causes);
  return cro_known_of_item (figures, item) == CRO_KNOWN_IN_PART ? CRO_KNOWN_IN_PART : CRO_KNOWN_AT_LEAST;
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
              double            value,
              CroKnown          known)
{
  cro_month_lower (&of->known_opening, known);
  of->opening_quantity += quantity;
  of->opening_value += value;
}

static void
take_closing (CroMonthGathered *of,
              double            quantity,
              double            value,
              CroKnown          known)
{
  cro_month_lower (&of->known_closing, known);
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

/* frozen: what it was worth when the month before was closed, NaN if it was not, and count->known how much was
 * known of that; else count->value is what it is worth. */
static gboolean
add_count (CroMonthWork   *self,
           CroMonthCount  *count,
           gboolean        is_opening,
           double          frozen,
           GError        **error)
{
  CroKnown *known = is_opening ? &self->month->known_opening : &self->month->known_closing;
  guint32 item;
  CroBook *book = cro_month_find_item (self, is_opening ? self->before_on : self->month->recipes_on,
                                       count->item, count->date, &item, error);
  CroFigures *figures;
  double quantity;

  if (book == NULL)
    return FALSE;
  figures = cro_book_get_figures (book);
  if (item == CRO_NO_SLOT || cro_model_item (figures->model, item)->is_disposable)
    return TRUE;
  count->is_food = TRUE;
  cro_month_gather (self, book, item)->was_there |= is_opening && count->amount > 0;
  self->n_food[is_opening ? 0 : 1]++;
  quantity = cro_service_in_base (figures->model, item, count->amount, count->unit, NULL);
  if (isnan (quantity))
    {
      count->known = CRO_KNOWN_AT_LEAST;
      cro_month_lower (known, count->known);
      cro_month_add_lacks (self, figures->model, item, count->unit);
      note_count (cro_month_gather (self, book, item), is_opening, NAN, 0);
      return TRUE;
    }
  count->value = isnan (frozen) ? quantity * cro_month_stock_cost (figures, item) : frozen;
  if (quantity > 0 && isnan (frozen))
    {
      count->known = known_of (self, book, item, TRUE);
      cro_month_lower (known, count->known);
    }
  note_count (cro_month_gather (self, book, item), is_opening, quantity, count->value);
  cro_month_carry (self, book, item,
                   figures->model->maker[item] >= 0 ? quantity * kept (figures->model, item) : quantity,
                   frozen, count->known, is_opening ? take_opening : take_closing);
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
    {
      CroMonthCount *count = &g_array_index (counts, CroMonthCount, i);

      if (!add_count (self, count, is_opening, NAN, error))
        return FALSE;
      sum += count->value;
    }
  if (entered != CRO_NOT_SET)
    *stock = cro_decimal_to_double (entered);
  else
    *stock = counts->len > 0 ? sum : NAN;
  return TRUE;
}

/* --- What the month before closed with ------------------------------------------------------ */

GHashTable *
cro_month_items_by_name (CroBook *book)
{
  CroModel *model = cro_book_get_model (book);
  GHashTable *items = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint32 slot = 0; slot < model->items->len; slot++)
    {
      const CroItem *item = cro_model_item (model, slot);

      if (!item->is_dead)
        g_hash_table_insert (items, (gpointer) item->name, (gpointer) &item->id);
    }
  return items;
}

/* The item of a frozen count: what bears its name, else that of the row it was made of, which may have
 * another name since. 0: nobody knows. */
static gint64
frozen_item (CroMonthWork         *self,
             GHashTable           *items,
             const CroMonthRecord *record)
{
  GArray *opening = self->entries->opening;
  const gint64 *id = record->name != NULL ? g_hash_table_lookup (items, record->name) : NULL;

  if (id == NULL && record->number >= 1 && record->number <= opening->len)
    {
      const CroMonthCount *row = &g_array_index (opening, CroMonthCount, record->number - 1);

      if (row->amount == record->amount && row->unit == record->unit)
        id = &row->item;
    }
  return id != NULL ? *id : 0;
}

/* --- The opening stock ---------------------------------------------------------------------- */

/* Its stock is the opening stock, each count at the value that closing froze. */
static gboolean
take_frozen_stock (CroMonthWork    *self,
                   const CroMonth  *frozen,
                   GError         **error)
{
  CroMonth *month = self->month;
  g_autoptr (GHashTable) items = cro_month_items_by_name (self->book);

  month->opening = frozen->closing;
  month->n_opening = frozen->n_closing;
  for (guint i = 0; i < frozen->counts->len && !frozen->is_entered; i++)
    {
      const CroMonthRecord *record = &g_array_index (frozen->counts, CroMonthRecord, i);
      /* As a part of a sum, which what is not known at all makes greater. */
      CroMonthCount count = { .date = record->day, .item = frozen_item (self, items, record),
                              .amount = record->amount, .unit = record->unit,
                              .known = cro_month_known_add (CRO_KNOWN_WHOLE, record->known) };

      if (count.item != 0 && !add_count (self, &count, TRUE, record->money, error))
        return FALSE;
    }
  month->known_opening = frozen->known_closing;
  return TRUE;
}

/* NULL of a month that is open, or was closed without rows. FALSE with error. */
static gboolean
thaw_before (CroMonthWork  *self,
             CroMonth     **frozen,
             GError       **error)
{
  gboolean is_frozen;

  *frozen = NULL;
  if (!self->entries->before->is_closed)
    return TRUE;
  *frozen = cro_month_thaw (self->book, self->entries->before, &is_frozen, error);
  if (*frozen == NULL)
    return FALSE;
  if (self->month->altered == CRO_NO_DAY)
    self->month->altered = (*frozen)->altered;
  if (!is_frozen)
    g_clear_pointer (frozen, cro_month_free);
  return TRUE;
}

static gboolean
add_opening (CroMonthWork  *self,
             GError       **error)
{
  CroMonthEntries *entries = self->entries;
  gint64 entered = entries->before->closing_stock;
  g_autoptr (CroMonth) frozen = NULL;

  if (!thaw_before (self, &frozen, error))
    return FALSE;
  if (frozen != NULL)
    return take_frozen_stock (self, frozen, error) && cro_month_doubt_opening (self, frozen, error);
  self->month->n_opening = entered == CRO_NOT_SET ? count_items (entries->opening) : 0;
  return add_counts (self, entries->opening, TRUE, entered, &self->month->opening, error)
         && cro_month_doubt_opening (self, NULL, error);
}

gboolean
cro_month_counted_worth (CroMonthWork  *self,
                         double        *worth,
                         CroKnown      *known,
                         GError       **error)
{
  GArray *counts = self->entries->closing;

  *worth = NAN;
  *known = CRO_KNOWN_WHOLE;
  for (guint i = 0; i < counts->len; i++)
    {
      const CroMonthCount *count = &g_array_index (counts, CroMonthCount, i);
      guint32 item;
      CroBook *book = cro_month_find_item (self, self->month->recipes_on, count->item, count->date, &item, error);
      CroFigures *figures;
      double quantity;

      if (book == NULL)
        return FALSE;
      figures = cro_book_get_figures (book);
      if (item == CRO_NO_SLOT || cro_model_item (figures->model, item)->is_disposable)
        continue;
      *worth = isnan (*worth) ? 0 : *worth;
      quantity = cro_service_in_base (figures->model, item, count->amount, count->unit, NULL);
      if (isnan (quantity))
        cro_month_lower (known, CRO_KNOWN_AT_LEAST);
      else if (quantity > 0)
        {
          *worth += quantity * cro_month_stock_cost (figures, item);
          cro_month_lower (known, known_of (self, book, item, FALSE));
        }
    }
  *known = isnan (*worth) ? CRO_KNOWN_NOTHING : cro_month_known_worth (*known, *worth);
  return TRUE;
}

gboolean
cro_month_add_stock (CroMonthWork  *self,
                     GError       **error)
{
  CroMonthEntries *entries = self->entries;
  CroMonth *month = self->month;

  month->is_entered = entries->row->closing_stock != CRO_NOT_SET;
  month->n_closing = month->is_entered ? 0 : count_items (entries->closing);
  return add_opening (self, error)
         && add_counts (self, entries->closing, FALSE, entries->row->closing_stock, &month->closing,
                        error);
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
  of->was_bought |= cro_month_purchase_came (purchase->has_amount, purchase->amount, purchase->value);
  of->bought_value += cro_decimal_to_double (purchase->value);
  of->bought_quantity += purchase->has_amount
                             ? cro_service_in_base (cro_book_get_model (book), item, purchase->amount,
                                                    purchase->unit, NULL)
                             : NAN;
  return TRUE;
}

/* What is more than a column holds is shown as it is, though no month is closed with it. */
static double
sum_of (const GArray *purchases,
        guint         kind)
{
  gint64 sum = 0;
  double all = 0;
  gboolean is_beyond = FALSE;

  for (guint i = 0; i < purchases->len; i++)
    {
      const CroMonthPurchase *purchase = &g_array_index (purchases, CroMonthPurchase, i);

      if (purchase->kind != kind)
        continue;
      is_beyond |= __builtin_add_overflow (sum, purchase->value, &sum);
      all += cro_decimal_to_double (purchase->value);
    }
  return is_beyond ? all : cro_decimal_to_double (sum);
}

static void
take_shares (const GArray  *shares,
             GArray       **into)
{
  for (guint i = 0; i < shares->len; i++)
    for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
      {
        const CroMonthShare *share = &g_array_index (shares, CroMonthShare, i);
        CroMonthOf of = { share->first, cro_decimal_to_double (share->money[k]) };

        if (share->money[k] != 0)
          g_array_append_val (into[k], of);
      }
}

double
cro_month_sum (double of_decimals)
{
  return round (of_decimals * CRO_MICRO) / CRO_MICRO;
}

void
cro_month_take_late (CroMonth              *month,
                     const CroMonthEntries *entries)
{
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      month->late[k] = cro_month_sum (sum_of (entries->purchases, k) - month->purchases[k]);
      month->awaited[k] = cro_month_sum (month->late[k] + cro_decimal_to_double (entries->awaited[k]));
    }
  take_shares (entries->later, month->booked_in);
}

gboolean
cro_month_add_purchases (CroMonthWork  *self,
                         GError       **error)
{
  GArray *purchases = self->entries->purchases;

  for (guint i = 0; i < purchases->len; i++)
    {
      const CroMonthPurchase *purchase = &g_array_index (purchases, CroMonthPurchase, i);

      if (purchase->kind == 0 && purchase->ingredient != 0 && !add_bought (self, purchase, error))
        return FALSE;
    }
  self->month->reversed = cro_decimal_to_double (self->entries->reversed);
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      self->month->purchases[k] = sum_of (purchases, k);
      self->month->earlier[k] = cro_decimal_to_double (self->entries->earlier[k]);
    }
  take_shares (self->entries->earlier_of, self->month->earlier_of);
  take_shares (self->entries->later, self->month->later_of);
  take_shares (self->entries->reversed_of, self->month->reversed_of);
  cro_month_add_later (self->month);
  return TRUE;
}

/* --- Adjustments ---------------------------------------------------------------------------- */

static void
take_adjusted (CroMonthGathered *of,
               double            quantity,
               double            value,
               CroKnown          known)
{
  cro_month_lower (&of->known_adjusted, known);
  of->adjusted_quantity += quantity;
  of->adjusted_value += value;
}

static void
take_given_in (CroMonthGathered *of,
               double            quantity,
               double            value,
               CroKnown          known)
{
  take_adjusted (of, -quantity, -value, cro_known_turned (known));
}

/* Money of an adjustment that has its own, and that of its amount where it has none. */
static void
adjust_item (CroMonthWork             *self,
             CroBook                  *book,
             guint32                   item,
             CroMonthAdjustment       *adjustment,
             double                    quantity,
             double                   *value)
{
  CroFigures *figures = cro_book_get_figures (book);
  CroMonthGathered *of = cro_month_gather (self, book, item);
  gboolean is_in = cro_month_sign_of (adjustment->kind) > 0;
  CroMonthTake take = is_in ? take_given_in : take_adjusted;
  double cost = figures->layers[CRO_LAYER_FOOD].unit_cost[cro_figures_node (figures, item)];

  of->came_in |= is_in;
  if (!adjustment->has_value && !isnan (quantity))
    {
      *value = quantity * cost;
      if (quantity > 0)
        adjustment->known = known_of (self, book, item, TRUE);
      cro_month_lower (&self->month->known_adjustments[adjustment->kind], adjustment->known);
    }
  of->came_value += is_in ? *value : 0;
  if (cro_month_sign_of (adjustment->kind) == 0)
    return;
  if (isnan (quantity) || (of->is_bought && adjustment->has_value))
    take (of, quantity, *value, CRO_KNOWN_WHOLE);
  else
    cro_month_carry (self, book, item, quantity, NAN,
                     figures->node_bits[cro_figures_node (figures, item)] & CRO_REACH_INCOMPLETE ? CRO_KNOWN_AT_LEAST
                                                                                                  : CRO_KNOWN_WHOLE,
                     take);
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
    quantity = cro_service_in_base (cro_book_get_model (book), item, adjustment->amount,
                                    adjustment->unit, NULL);
  if (item != CRO_NO_SLOT)
    adjust_item (self, book, item, adjustment, quantity, &value);
  if (!adjustment->has_value && (item == CRO_NO_SLOT || isnan (quantity)))
    {
      adjustment->known = CRO_KNOWN_AT_LEAST;
      cro_month_lower (&self->month->known_adjustments[adjustment->kind], adjustment->known);
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
