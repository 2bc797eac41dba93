#include "cro-model-prices.h"

#include "cro-model-rows-private.h"
#include "cro-model-selling.h"
#include "cro-price-rows.h"

/* --- Rates ------------------------------------------------------------------------------------ */

/* Columns as cro_store_read_rates gives them. */
static const CroModelColumn rate_columns[] = {
  { "currency", CRO_OF_TEXT },
  { "from_date", CRO_OF_TEXT },
  { "rate_micro", CRO_ABOVE_0 },
  { "per_micro", CRO_ABOVE_0 },
  { NULL, 0, 0 },
};

static gboolean
take_rate (CroModel  *self,
           CroRows   *rows,
           GError   **error)
{
  CroModelRow record;
  double rate;

  if (!cro_model_row_read (&record, rate_columns, rows, 0, error))
    return FALSE;
  rate = (double) cro_model_row_get_int (&record, 2)
         / (double) cro_model_row_get_int_or (&record, 3, CRO_MICRO);
  g_hash_table_insert (self->rates, g_strdup (cro_model_row_get_currency (&record, 0)),
                       g_memdup2 (&rate, sizeof rate));
  return !record.is_damaged || cro_rows_is_damaged (rows, record.bad, error);
}

/* Hands each row to take, until it fails. */
static gboolean
take_rows (CroModel  *self,
           CroRows   *rows,
           gboolean (*take_row) (CroModel *, CroRows *, GError **),
           GError   **error)
{
  GError *failed = NULL;

  while (cro_rows_next (rows, &failed))
    if (!take_row (self, rows, error))
      return FALSE;
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

static gboolean
load_rates (CroModel    *self,
            CroStore    *store,
            const char  *date,
            GError     **error)
{
  g_autoptr (CroRows) rows = cro_store_read_rates (store, date, error);

  if (rows == NULL)
    return FALSE;
  g_hash_table_remove_all (self->rates);
  return take_rows (self, rows, take_rate, error);
}

/* --- Prices ------------------------------------------------------------------------------------- */

gboolean
cro_model_load_price (CroModel  *self,
                      CroStore  *store,
                      CroDate    date,
                      guint32    slot,
                      GError   **error)
{
  g_autoptr (GArray) rows = cro_price_rows_new (self, store, slot, error);

  if (rows == NULL)
    return FALSE;
  cro_price_rows_serve (rows, NULL, self, slot, date);
  return TRUE;
}

/* The newest of each offer; the history of one is read only where that does not serve. */
static gboolean
read_newest (CroModel  *self,
             CroStore  *store,
             CroDate    date,
             GError   **error)
{
  char on[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;
  CroPriceRow row;
  guint32 slot;

  cro_date_format (date, on);
  rows = cro_store_read_prices (store, on, 0, error);
  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    {
      if (!cro_price_row_read (self, rows, &slot, &row, error))
        return FALSE;
      cro_model_serve_price (self, slot, &row, date);
    }
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

gboolean
cro_model_load_prices (CroModel  *self,
                       CroStore  *store,
                       CroDate    date,
                       GError   **error)
{
  char on[CRO_DATE_CHARS];

  cro_date_format (date, on);
  if (!load_rates (self, store, on, error))
    return FALSE;
  for (guint32 i = 0; i < self->offers->len; i++)
    cro_model_forget_price (self, cro_model_offer (self, i));
  if (!read_newest (self, store, date, error))
    return FALSE;
  for (guint32 i = 0; i < self->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (self, i);

      if (!entry->is_dead && entry->price_id != 0 && !entry->offer.had_price
          && !cro_model_load_price (self, store, date, i, error))
        return FALSE;
    }
  return cro_model_load_selling (self, store, date, error);
}

/* --- One row -------------------------------------------------------------------------------------- */

gboolean
cro_model_find_price (CroModel  *self,
                      CroStore  *store,
                      gint64     price,
                      guint32   *slot,
                      GError   **error)
{
  static const char *const columns[] = { "offer", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (store, "price", price, columns, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  *slot = cro_rows_next (rows, &failed)
              ? cro_slots_get (&self->offer_slots, cro_rows_get_int (rows, 0))
              : CRO_NO_SLOT;
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

/* Whether anything may be at its last price. A row that is gone and was not the newest is of nobody
 * knows which offer, and may have been the one that serves, or have ended it. */
static gboolean
does_older_serve (CroModel *self)
{
  for (guint32 i = 0; i < self->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (self, i);

      if (!entry->is_dead && entry->price_id != 0
          && (!entry->offer.has_price || entry->offer.has_until))
        return TRUE;
    }
  return FALSE;
}

gboolean
cro_model_take_price (CroModel       *self,
                      CroStore       *store,
                      CroDate         date,
                      gint64          id,
                      CroTouched     *touched,
                      GError        **error)
{
  guint32 was = cro_slots_get (&self->price_slots, id);
  guint32 is;

  if (!cro_model_find_price (self, store, id, &is, error)
      || (was != CRO_NO_SLOT && was != is && !cro_model_load_price (self, store, date, was, error))
      || (is != CRO_NO_SLOT && !cro_model_load_price (self, store, date, is, error)))
    return FALSE;

  if (was != CRO_NO_SLOT && is != CRO_NO_SLOT && is != was)
    *touched = (CroTouched){ CRO_TOUCHED_ALL, 0 };
  else if (was == CRO_NO_SLOT && is == CRO_NO_SLOT && does_older_serve (self))
    *touched = (CroTouched){ CRO_TOUCHED_ALL, 0 };
  else if (was != CRO_NO_SLOT || is != CRO_NO_SLOT)
    *touched = (CroTouched){
      CRO_TOUCHED_PRICE, cro_model_offer (self, is != CRO_NO_SLOT ? is : was)->item
    };
  return TRUE;
}
