/* Sales as a till says them: with tax. */
#include "cro-month-edit.h"

#include "cro-decimal.h"
#include "cro-row-date.h"
#include "cro-selling-steps.h"

typedef struct
{
  CroModel   *model;
  GHashTable *selling;    /* cro_selling_steps_all */
  CroDate     first;
  CroDate     last;
  double      money;
  gboolean    is_whole;
} Sum;

static CroRef
thing_of (CroModel *model,
          gint64    id)
{
  guint32 plate = cro_slots_get (&model->plate_slots, id), menu = cro_slots_get (&model->menu_slots, id);

  return plate != CRO_NO_SLOT  ? CRO_REF (CRO_REF_RECIPE, plate)
         : menu != CRO_NO_SLOT ? CRO_REF (CRO_REF_MENU, menu)
                               : CRO_REF_NOWHERE;
}

static gboolean
take_sale (CroRows   *rows,
           gpointer   user_data,
           GError   **error)
{
  Sum *self = user_data;
  CroDate day = cro_row_date (rows, 0);
  gint64 id = cro_rows_is_null (rows, 1) ? 0 : cro_rows_get_int (rows, 1);
  CroSellingTerms terms;

  if (day < self->first || day > self->last)
    return TRUE;
  terms = cro_selling_terms_on (self->model, g_hash_table_lookup (self->selling, &id), thing_of (self->model, id),
                                day);
  if (!cro_rows_is_null (rows, 3))
    self->money += cro_decimal_to_double (cro_rows_get_int (rows, 3))
                   * (1 + cro_decimal_to_double (terms.tax) / 100);
  else if (terms.price != CRO_NOT_SET)
    self->money += cro_decimal_to_double (cro_rows_get_int (rows, 2)) * cro_decimal_to_double (terms.price);
  else
    self->is_whole = FALSE;
  return TRUE;
}

gboolean
cro_month_gross_sales (CroBook   *book,
                       CroDate    first,
                       double    *gross,
                       gboolean  *is_whole,
                       GError   **error)
{
  static const char *const columns[] = { "date", "thing", "sold_micro", "net_revenue_micro", NULL };
  g_autoptr (GHashTable) selling = cro_selling_steps_all (book, error);
  Sum sum = { cro_book_get_model (book), selling, first, cro_month_next (first) - 1, 0, TRUE };

  if (selling == NULL
      || !cro_store_read_each (cro_book_get_store (book), "sale", columns, take_sale, &sum, error))
    return FALSE;
  *gross = sum.money;
  *is_whole = sum.is_whole;
  return TRUE;
}
