#include "cro-bought.h"

#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-row-date.h"
#include "cro-service.h"

typedef struct
{
  CroModel *model;
  CroDate   first, last;
  GArray   *all;
} Reading;

static gboolean
is_within (CroRows *rows,
           CroDate  first,
           CroDate  last,
           CroDate *date)
{
  *date = cro_row_date (rows, 0);
  return *date >= first && *date <= last;
}

static guint32
slot_at (CroRows        *rows,
         int             column,
         const CroSlots *slots)
{
  return cro_rows_is_null (rows, column) ? CRO_NO_SLOT : cro_slots_get (slots, cro_rows_get_int (rows, column));
}

static double
amount_of (CroModel *model,
           CroRows  *rows,
           guint32   item)
{
  const char *code = cro_rows_get_text (rows, 5);
  CroUnit unit;

  if (item == CRO_NO_SLOT || cro_rows_is_null (rows, 4) || code == NULL
      || !cro_unit_parse (code, strlen (code), &unit))
    return NAN;
  return cro_service_in_base (model, item, cro_rows_get_int (rows, 4), unit, NULL);
}

static gboolean
add (CroRows   *rows,
     gpointer   user_data,
     GError   **error)
{
  Reading *self = user_data;
  CroBought bought;

  if (!is_within (rows, self->first, self->last, &bought.date)
      || g_strcmp0 (cro_rows_get_text (rows, 3), "other") == 0)
    return TRUE;
  bought.item = slot_at (rows, 1, &self->model->item_slots);
  bought.supplier = slot_at (rows, 2, &self->model->supplier_slots);
  bought.amount = amount_of (self->model, rows, bought.item);
  bought.net_value = cro_decimal_to_double (cro_rows_get_int (rows, 6));
  g_array_append_val (self->all, bought);
  return TRUE;
}

GArray *
cro_bought_between (CroBook  *book,
                    CroDate   first,
                    CroDate   last,
                    GError  **error)
{
  static const char *const columns[] = { "date", "ingredient", "supplier", "kind", "amount_micro", "unit",
                                         "net_value_micro", NULL };
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (CroBought));
  Reading self = { cro_book_get_model (book), first, last, all };

  if (!cro_store_read_each (cro_book_get_store (book), "purchase", columns, add, &self, error))
    return NULL;
  return g_steal_pointer (&all);
}

gboolean
cro_bought_of (CroBook  *book,
               guint32   supplier,
               CroDate   first,
               CroDate   last,
               guint    *n_documents,
               double   *net_value,
               GError  **error)
{
  static const char *const columns[] = { "date", "document", "net_value_micro", NULL };
  gint64 id = g_array_index (cro_book_get_model (book)->suppliers, CroSupplier, supplier).id;
  g_autoptr (CroRows) rows = cro_store_read_of (cro_book_get_store (book), "purchase", "supplier", id, columns,
                                                error);
  g_autoptr (GHashTable) documents = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GError *failed = NULL;

  *net_value = 0;
  while (rows != NULL && cro_rows_next (rows, &failed))
    {
      CroDate date;

      if (!is_within (rows, first, last, &date))
        continue;
      *net_value += cro_decimal_to_double (cro_rows_get_int (rows, 2));
      g_hash_table_add (documents, cro_rows_is_null (rows, 1)
                                       ? g_strdup_printf ("%d", date)
                                       : g_strdup_printf ("n %s", cro_rows_get_text (rows, 1)));
    }
  *n_documents = g_hash_table_size (documents);
  if (failed != NULL)
    g_propagate_error (error, failed);
  return rows != NULL && failed == NULL;
}
