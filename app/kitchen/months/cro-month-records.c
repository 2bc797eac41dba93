/* The rows that a month is made of, as closing freezes them and as they are shown. */
#include "cro-month-private.h"

#include "cro-decimal.h"

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
        .note = cro_month_keep (self, count->place)
      };

      g_array_append_val (self->month->counts, record);
    }
}

static void
add_purchases (CroMonthWork *self)
{
  GArray *purchases = self->entries->purchases;

  for (guint i = 0; i < purchases->len; i++)
    {
      const CroMonthPurchase *purchase = &g_array_index (purchases, CroMonthPurchase, i);
      CroMonthRecord record = {
        .number = i + 1, .name = name_of (self, purchase->ingredient), .day = purchase->date,
        .kind = purchase->kind, .has_amount = purchase->has_amount, .amount = purchase->amount,
        .unit = purchase->unit, .money = cro_decimal_to_double (purchase->value),
        .supplier = supplier_name (self, purchase->supplier),
        .document = cro_month_keep (self, purchase->document),
        .document_date = cro_month_keep (self, purchase->document_date),
        .category = cro_month_keep (self, purchase->category)
      };

      g_array_append_val (self->month->bought, record);
    }
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
        .note = cro_month_keep (self, adjustment->note)
      };

      g_array_append_val (self->month->adjusted, record);
    }
}

void
cro_month_add_records (CroMonthWork *self)
{
  add_counts (self);
  add_purchases (self);
  add_adjustments (self);
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
      CroMonthWorth worth = { record->money, cro_month_known_of_item (self, record->name, record->money) };

      if (record->number > 0 && record->number <= entries->adjustments->len)
        g_hash_table_insert (worths,
                             g_memdup2 (&g_array_index (entries->adjustments, CroMonthAdjustment,
                                                        record->number - 1)
                                             .id,
                                        sizeof (gint64)),
                             g_memdup2 (&worth, sizeof worth));
    }
  return worths;
}
