#include "cro-price-list-purchase.h"

#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-number.h"

#include <math.h>

enum { FOOD, DISPOSABLE, OTHER };

gboolean
cro_list_is_foreign (const CroPriceList *self,
                     CroModel           *model)
{
  return self->currency != NULL && model->currency != NULL && !g_str_equal (self->currency, model->currency);
}

/* At the rate of the day of delivery, which is that of the purchase. */
static gboolean
in_book_currency (const CroPriceList *list,
                  CroModel           *model,
                  gint64             *net_value)
{
  int digits = cro_currency_digits (model->currency);

  if (!cro_list_is_foreign (list, model))
    return TRUE;
  if (isnan (list->rate))
    return FALSE;
  return cro_decimal_from_double ((double) cro_money_round (cro_decimal_to_double (*net_value) * list->rate, digits)
                                  / pow (10, digits), net_value);
}

gboolean
cro_list_purchase_of (const CroPriceList *list,
                      CroModel           *model,
                      const CroListRow   *row,
                      CroListPurchase    *purchase)
{
  *purchase = (CroListPurchase){ .item = row->item, .kind = OTHER, .net_value = row->net_value };
  if (row->item != CRO_NO_SLOT)
    {
      const CroPack *one = row->counted.size > 0 ? &row->counted : &row->pack;

      purchase->kind = cro_model_item (model, row->item)->is_disposable ? DISPOSABLE : FOOD;
      purchase->unit = one->unit;
      if (!cro_decimal_multiply (one->count, one->size, &purchase->amount)
          || !cro_decimal_multiply (purchase->amount, row->amount, &purchase->amount))
        return FALSE;
    }
  return in_book_currency (list, model, &purchase->net_value);
}

/* --- Documents that were booked ----------------------------------------------------------------------- */

static char *
key_of (guint32     item,
        gint64      amount,
        gint64      net_value)
{
  return g_strdup_printf ("%u %" G_GINT64_FORMAT " %" G_GINT64_FORMAT, item, amount, net_value);
}

static void
count_key (GHashTable *counts,
           char       *key,
           int         by)
{
  int n = GPOINTER_TO_INT (g_hash_table_lookup (counts, key)) + by;

  g_hash_table_insert (counts, key, GINT_TO_POINTER (n));
}

/* How often the book has each row of the document. */
static GHashTable *
read_booked (CroPriceList  *list,
             CroBook       *book,
             GError       **error)
{
  static const char *const columns[] = { "document", "ingredient", "amount_micro", "net_value_micro", NULL };
  CroModel *model = cro_book_get_model (book);
  gint64 id = g_array_index (model->suppliers, CroSupplier, list->supplier).id;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "purchase", "supplier", id, columns, error);
  g_autoptr (GHashTable) booked = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GError *failed = NULL;

  while (rows != NULL && cro_rows_next (rows, &failed))
    if (g_strcmp0 (cro_rows_get_text (rows, 0), list->document) == 0)
      count_key (booked, key_of (cro_rows_is_null (rows, 1)
                                     ? CRO_NO_SLOT
                                     : cro_slots_get (&model->item_slots, cro_rows_get_int (rows, 1)),
                                 cro_rows_get_int (rows, 2), cro_rows_get_int (rows, 3)), 1);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL ? g_steal_pointer (&booked) : NULL;
}

gboolean
cro_list_purchases_look (CroPriceList  *list,
                         CroBook       *book,
                         GError       **error)
{
  g_autoptr (GHashTable) booked = NULL;
  CroModel *model = cro_book_get_model (book);
  GHashTableIter iter;
  gpointer n;

  if (list->document == NULL || list->supplier == CRO_NO_SLOT)
    return TRUE;
  booked = read_booked (list, book, error);
  if (booked == NULL)
    return FALSE;
  list->is_booked_before = g_hash_table_size (booked) > 0;
  list->is_all_booked = list->is_booked_before;
  for (guint i = 0; list->is_booked_before && i < list->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (list->rows, CroListRow, i);
      CroListPurchase purchase;

      if (!row->is_booked || !cro_list_purchase_of (list, model, row, &purchase))
        continue;
      count_key (booked, key_of (purchase.item, purchase.amount, purchase.net_value), -1);
    }
  /* Below 0: the file has more of it than the book; above: less. */
  g_hash_table_iter_init (&iter, booked);
  while (g_hash_table_iter_next (&iter, NULL, &n))
    {
      list->is_all_booked &= GPOINTER_TO_INT (n) >= 0;
      list->is_booked_otherwise |= GPOINTER_TO_INT (n) > 0;
    }
  return TRUE;
}

gboolean
cro_list_purchases_find (const CroPriceList *list,
                         CroBook            *book,
                         guint32            *supplier,
                         GError            **error)
{
  static const char *const columns[] = { "document", "supplier", NULL };
  CroModel *model = cro_book_get_model (book);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "purchase", columns, error);
  g_autoptr (GHashTable) slots = g_hash_table_new (NULL, NULL);
  GError *failed = NULL;

  for (guint32 i = 0; i < model->suppliers->len; i++)
    if (i != list->supplier)
      g_hash_table_insert (slots, GINT_TO_POINTER ((int) g_array_index (model->suppliers, CroSupplier, i).id),
                           GUINT_TO_POINTER (i + 1));
  *supplier = CRO_NO_SLOT;
  while (rows != NULL && *supplier == CRO_NO_SLOT && cro_rows_next (rows, &failed))
    if (g_strcmp0 (cro_rows_get_text (rows, 0), list->document) == 0 && !cro_rows_is_null (rows, 1))
      *supplier = GPOINTER_TO_UINT (g_hash_table_lookup (slots, GINT_TO_POINTER ((int) cro_rows_get_int (rows, 1)))) - 1;
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}
