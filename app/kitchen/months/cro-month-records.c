/* The rows that a month is made of, as closing freezes them and as they are shown. */
#include "cro-month-private.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-edit.h"

int
cro_month_compare_records (gconstpointer a,
                           gconstpointer b)
{
  const CroMonthRecord *x = a, *y = b;

  return x->number < y->number ? -1 : x->number > y->number;
}

static const char *
name_of (CroMonthWork *self,
         gint64        item)
{
  return cro_month_keep (self, cro_month_item_name (self->book, item));
}

static const char *
supplier_name (CroMonthWork *self,
               gint64        id)
{
  CroModel *model = cro_book_get_model (self->book);
  guint32 slot = cro_slots_get (&model->supplier_slots, id);

  return slot != CRO_NO_SLOT
             ? cro_month_keep (self, g_array_index (model->suppliers, CroSupplier, slot).name)
             : NULL;
}

static void
add_counts (CroMonthWork *self)
{
  GArray *counts = self->entries->closing;

  for (guint i = 0; i < counts->len; i++)
    {
      const CroMonthCount *count = &g_array_index (counts, CroMonthCount, i);
      CroMonthRecord record = {
        .number = i + 1, .name = name_of (self, count->item), .day = count->date, .has_amount = TRUE,
        .amount = count->amount, .unit = count->unit, .money = count->value,
        .known = cro_month_known_worth (count->known, count->value),
        .note = cro_month_keep (self, count->place)
      };

      g_array_append_val (self->month->counts, record);
    }
}

static void
add_purchase (CroMonthWork           *self,
              const CroMonthPurchase *purchase,
              GArray                 *records)
{
  CroMonthRecord record = {
    .number = records->len + 1, .name = name_of (self, purchase->ingredient), .day = purchase->date,
    .kind = purchase->kind, .has_amount = purchase->has_amount, .amount = purchase->amount,
    .unit = purchase->unit, .money = cro_decimal_to_double (purchase->value),
    .supplier = supplier_name (self, purchase->supplier),
    .document = cro_month_keep (self, purchase->document),
    .document_date = cro_month_keep (self, purchase->document_date),
    .category = cro_month_keep (self, purchase->category)
  };

  g_array_append_val (records, record);
}

static void
add_purchases (CroMonthWork *self)
{
  GArray *purchases = self->entries->purchases;

  for (guint i = 0; i < purchases->len; i++)
    add_purchase (self, &g_array_index (purchases, CroMonthPurchase, i), self->month->bought);
}

/* --- What came late ------------------------------------------------------------------------- */

/* What tells purchases apart whatever was renamed since: day, kind, money, amount, document. */
static char *
purchase_key (CroDate     day,
              guint       kind,
              gint64      value,
              gint64      amount,
              const char *document)
{
  return g_strdup_printf ("%d %u %" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %s", day, kind, value, amount,
                          document != NULL ? document : "");
}

/* What closed months were closed with: a key to how often. */
static gboolean
count_frozen (CroMonthWork  *self,
              GHashTable    *known,
              GError       **error)
{
  CroDate earliest = cro_month_first_of (g_array_index (self->entries->before_that, CroMonthPurchase, 0).date);
  g_autoptr (GPtrArray) rows = cro_month_rows_read (self->book, error);

  for (guint r = 0; rows != NULL && r < rows->len; r++)
    {
      const CroMonthRow *row = rows->pdata[r];
      g_autoptr (CroMonth) month = NULL;

      if (row->first >= self->month->first || row->first < earliest)
        continue;
      month = cro_month_thaw (self->book, row, NULL, error);
      if (month == NULL)
        return FALSE;
      for (guint i = 0; i < month->bought->len; i++)
        {
          const CroMonthRecord *record = &g_array_index (month->bought, CroMonthRecord, i);
          char *key = purchase_key (record->day, record->kind, llround (record->money * CRO_MICRO), record->amount,
                                    record->document);
          guint n = GPOINTER_TO_UINT (g_hash_table_lookup (known, key));

          g_hash_table_replace (known, key, GUINT_TO_POINTER (n + 1));
        }
    }
  return rows != NULL;
}

/* Documents of which the sum is not what came late were changed, or booked by a later month: those have one sum. */
static void
drop_unlike (CroMonthWork *self,
             GArray       *late)
{
  for (guint kind = 0; kind < CRO_N_PURCHASE_KINDS; kind++)
    {
      double sum = 0;

      for (guint i = 0; i < late->len; i++)
        if (g_array_index (late, CroMonthRecord, i).kind == kind)
          sum += g_array_index (late, CroMonthRecord, i).money;
      if (fabs (sum - cro_month_late (self->month, kind)) < 1e-6)
        continue;
      for (guint i = late->len; i-- > 0;)
        if (g_array_index (late, CroMonthRecord, i).kind == kind)
          g_array_remove_index (late, i);
    }
}

/* Whether documents of a kind from a day's month came late and were not booked by another month since. */
static gboolean
is_late (CroMonthWork           *self,
         const CroMonthPurchase *purchase)
{
  const GArray *months = self->month->earlier_of[purchase->kind];

  for (guint i = 0; i < months->len; i++)
    if (g_array_index (months, CroMonthOf, i).first == cro_month_first_of (purchase->date))
      return TRUE;
  return FALSE;
}

/* The purchases of closed months that they were not closed with. */
static gboolean
add_late (CroMonthWork  *self,
          GError       **error)
{
  const GArray *purchases = self->entries->before_that;
  g_autoptr (GHashTable) known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gboolean any = FALSE;

  for (guint kind = 0; kind < CRO_N_PURCHASE_KINDS; kind++)
    any |= cro_month_late (self->month, kind) != 0;
  if (!any || purchases->len == 0)
    return TRUE;
  if (!count_frozen (self, known, error))
    return FALSE;
  for (guint i = 0; i < purchases->len; i++)
    {
      const CroMonthPurchase *purchase = &g_array_index (purchases, CroMonthPurchase, i);
      g_autofree char *key = purchase_key (purchase->date, purchase->kind, purchase->value, purchase->amount,
                                           purchase->document);
      guint n = GPOINTER_TO_UINT (g_hash_table_lookup (known, key));

      if (!is_late (self, purchase))
        continue;
      if (n == 0)
        add_purchase (self, purchase, self->month->late_bought);
      else
        g_hash_table_replace (known, g_steal_pointer (&key), GUINT_TO_POINTER (n - 1));
    }
  drop_unlike (self, self->month->late_bought);
  return TRUE;
}

static void
add_adjustments (CroMonthWork *self)
{
  GArray *adjustments = self->entries->adjustments;

  for (guint i = 0; i < adjustments->len; i++)
    {
      const CroMonthAdjustment *adjustment = &g_array_index (adjustments, CroMonthAdjustment, i);
      CroMonthRecord record = {
        .number = i + 1, .name = name_of (self, adjustment->item), .day = adjustment->date,
        .kind = adjustment->kind, .has_amount = adjustment->has_amount, .amount = adjustment->amount,
        .unit = adjustment->unit, .money = adjustment->worth,
        .known = cro_month_known_worth (adjustment->known, adjustment->worth),
        .note = cro_month_keep (self, adjustment->note)
      };

      g_array_append_val (self->month->adjusted, record);
    }
}

gboolean
cro_month_add_records (CroMonthWork  *self,
                       GError       **error)
{
  add_counts (self);
  add_purchases (self);
  add_adjustments (self);
  return add_late (self, error);
}

gboolean
cro_month_record_is_beside (CroModel             *model,
                            const CroMonthRecord *record)
{
  CroRef item = record->money == 0 && record->name != NULL
                    ? cro_edit_find_name (model, CRO_NAMES_ITEMS, record->name)
                    : CRO_REF_NOWHERE;

  return item.kind == CRO_REF_ITEM && cro_model_item (model, item.slot)->is_disposable;
}

/* Records stand in the order of the entries, which are read anew of a closed month: its rows stay as they are. */
GHashTable *
cro_month_list_worths (const CroMonth  *self,
                       CroBook         *book,
                       GError         **error)
{
  g_autoptr (CroMonthEntries) entries = cro_month_entries_new (book, self->first, error);
  GHashTable *worths;

  if (entries == NULL)
    return NULL;
  worths = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  for (guint i = 0; i < self->adjusted->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (self->adjusted, CroMonthRecord, i);
      CroMonthWorth worth = { record->money, record->known };

      if (record->number > 0 && record->number <= entries->adjustments->len
          && !cro_month_record_is_beside (cro_book_get_model (book), record))
        g_hash_table_insert (worths,
                             g_memdup2 (&g_array_index (entries->adjustments, CroMonthAdjustment,
                                                        record->number - 1)
                                             .id,
                                        sizeof (gint64)),
                             g_memdup2 (&worth, sizeof worth));
    }
  return worths;
}
