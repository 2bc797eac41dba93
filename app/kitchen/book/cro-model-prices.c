#include "cro-model-prices.h"

#include "cro-model-selling.h"

#include <string.h>

#include "cro-decimal.h"

/* --- Rates ------------------------------------------------------------------------------------ */

static double
rate_of (CroModel            *self,
         const CroOfferEntry *entry)
{
  const double *rate;

  if (entry->currency == NULL || g_strcmp0 (entry->currency, self->currency) == 0)
    return 1;
  rate = g_hash_table_lookup (self->rates, entry->currency);
  return rate != NULL ? *rate : 0;
}

static gboolean
load_rates (CroModel    *self,
            CroStore    *store,
            const char  *date,
            GError     **error)
{
  g_autoptr (CroRows) rows = cro_store_read_rates (store, date, error);
  GError *failed = NULL;

  if (rows == NULL)
    return FALSE;
  g_hash_table_remove_all (self->rates);
  while (cro_rows_next (rows, &failed))
    {
      gint64 per = cro_rows_is_null (rows, 3) ? CRO_MICRO : cro_rows_get_int (rows, 3);
      double rate = (double) cro_rows_get_int (rows, 2) / (double) per;

      g_hash_table_insert (self->rates, g_strdup (cro_rows_get_text (rows, 0)),
                           g_memdup2 (&rate, sizeof rate));
    }
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

/* --- Prices ------------------------------------------------------------------------------------- */

static void
forget_price (CroModel      *self,
              CroOfferEntry *entry)
{
  if (entry->price_id != 0)
    cro_slots_set (&self->price_slots, entry->price_id, CRO_NO_SLOT);
  entry->price_id = 0;
  entry->offer.has_price = false;
  entry->offer.had_price = false;
  entry->offer.price = 0;
  entry->offer.from = 0;
  entry->offer.tax_included = 0;
  entry->offer.pack_count = entry->pack_count;
  entry->offer.pack_size = entry->pack_size;
  entry->offer.pack_unit = (CroUnit) entry->pack_unit;
  entry->offer.rate = rate_of (self, entry);
}

/* Columns as cro_store_read_prices gives them. A price may carry a pack of its own, and a row without
 * one says that the offer is not to be had from then on. */
static void
take_values (CroOfferEntry *entry,
             CroRows       *rows)
{
  const char *from = cro_rows_get_text (rows, 2);
  const char *unit = cro_rows_get_text (rows, 7);

  cro_date_parse (from, strlen (from), &entry->offer.from);
  entry->offer.price = cro_rows_get_int (rows, 3);
  entry->offer.tax_included = cro_rows_get_int (rows, 4);
  entry->offer.pack_count = cro_rows_is_null (rows, 5) ? entry->pack_count
                                                       : cro_rows_get_int (rows, 5);
  entry->offer.pack_size = cro_rows_is_null (rows, 6) ? entry->pack_size
                                                      : cro_rows_get_int (rows, 6);
  entry->offer.pack_unit = (CroUnit) entry->pack_unit;
  if (unit != NULL)
    cro_unit_parse (unit, strlen (unit), &entry->offer.pack_unit);
}

static void
take_price (CroModel *self,
            CroRows  *rows)
{
  guint32 slot = cro_slots_get (&self->offer_slots, cro_rows_get_int (rows, 0));
  CroOfferEntry *entry;

  if (slot == CRO_NO_SLOT)
    return;
  entry = cro_model_offer (self, slot);
  entry->price_id = cro_rows_get_int (rows, 1);
  cro_slots_set (&self->price_slots, entry->price_id, slot);
  take_values (entry, rows);
  entry->offer.has_price = !cro_rows_is_null (rows, 3);
}

/* The last day on which an offer had a price: the date itself, while it is to be had; else the day
 * before the row that says it is not, or its last, and price and pack are those of that day. */
static gboolean
find_last_day (CroOfferEntry  *entry,
               CroStore       *store,
               CroDate         date,
               GError        **error)
{
  CroOffer *offer = &entry->offer;
  gboolean has_left = offer->has_until && offer->until < date;
  char text[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;
  CroDate next;

  offer->had_price = offer->has_price && !has_left;
  offer->last_day = date;
  if (offer->had_price || entry->price_id == 0)
    return TRUE;
  offer->last_day = has_left ? offer->until : date;
  cro_date_format (offer->last_day, text);
  rows = cro_store_read_last_price (store, text, entry->id, error);
  if (rows == NULL)
    return FALSE;
  offer->had_price = cro_rows_next (rows, &failed);
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return FALSE;
    }
  if (!offer->had_price)
    return TRUE;
  take_values (entry, rows);
  if (!cro_rows_is_null (rows, 8)
      && cro_date_parse (cro_rows_get_text (rows, 8), strlen ("YYYY-MM-DD"), &next))
    offer->last_day = next - 1;
  return TRUE;
}

/* of: the id of an offer, or 0 for all. */
static gboolean
read_prices (CroModel  *self,
             CroStore  *store,
             CroDate    date,
             gint64     of,
             GError   **error)
{
  char on[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  cro_date_format (date, on);
  rows = cro_store_read_prices (store, on, of, error);
  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failed))
    take_price (self, rows);
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
    forget_price (self, cro_model_offer (self, i));
  if (!read_prices (self, store, date, 0, error))
    return FALSE;
  for (guint32 i = 0; i < self->offers->len; i++)
    if (!cro_model_offer (self, i)->is_dead
        && !find_last_day (cro_model_offer (self, i), store, date, error))
      return FALSE;
  return cro_model_load_selling (self, store, date, error);
}

gboolean
cro_model_load_price (CroModel  *self,
                      CroStore  *store,
                      CroDate    date,
                      guint32    slot,
                      GError   **error)
{
  CroOfferEntry *entry = cro_model_offer (self, slot);

  forget_price (self, entry);
  return read_prices (self, store, date, entry->id, error)
         && find_last_day (entry, store, date, error);
}

/* --- One row -------------------------------------------------------------------------------------- */

/* The offer that a row of prices is of now; CRO_NO_SLOT if the row is gone. */
static gboolean
find_offer (CroModel  *self,
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

/* One value of the price in force as a preview has it. */
static void
show_cell (CroOfferEntry *entry,
           const char    *column,
           const CroCell *cell)
{
  gint64 number = cell->kind == CRO_CELL_INTEGER ? cell->integer : 0;

  if (strcmp (column, "price_micro") == 0)
    {
      entry->offer.has_price = entry->offer.had_price = cell->kind != CRO_CELL_NULL;
      entry->offer.price = number;
    }
  else if (strcmp (column, "tax_included_pct_micro") == 0)
    entry->offer.tax_included = number;
  else if (strcmp (column, "pack_count_micro") == 0)
    entry->offer.pack_count = number != 0 ? number : entry->pack_count;
  else if (strcmp (column, "pack_size_micro") == 0)
    entry->offer.pack_size = number != 0 ? number : entry->pack_size;
  else if (strcmp (column, "pack_unit") == 0)
    {
      entry->offer.pack_unit = (CroUnit) entry->pack_unit;
      if (cell->kind == CRO_CELL_TEXT)
        cro_unit_parse (cell->text, strlen (cell->text), &entry->offer.pack_unit);
    }
}

gboolean
cro_model_take_price (CroModel       *self,
                      CroStore       *store,
                      CroDate         date,
                      gint64          id,
                      const char     *column,
                      const CroCell  *cell,
                      CroTouched     *touched,
                      GError        **error)
{
  guint32 was = cro_slots_get (&self->price_slots, id);
  guint32 is;

  if (!find_offer (self, store, id, &is, error)
      || (was != CRO_NO_SLOT && !cro_model_load_price (self, store, date, was, error))
      || (is != CRO_NO_SLOT && is != was && !cro_model_load_price (self, store, date, is, error)))
    return FALSE;
  if (is != CRO_NO_SLOT && column != NULL && cro_model_offer (self, is)->price_id == id)
    show_cell (cro_model_offer (self, is), column, cell);

  if (was != CRO_NO_SLOT && is != CRO_NO_SLOT && is != was)
    *touched = (CroTouched){ CRO_TOUCHED_ALL, 0 };
  else if (was != CRO_NO_SLOT || is != CRO_NO_SLOT)
    *touched = (CroTouched){
      CRO_TOUCHED_PRICE, cro_model_offer (self, is != CRO_NO_SLOT ? is : was)->item
    };
  return TRUE;
}
