#include "cro-model-prices.h"

#include "cro-model-selling.h"

#include <string.h>

#include "cro-model-rows-private.h"

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
static const CroModelColumn price_columns[] = {
  { "offer", CRO_OF_ID },
  { "id", CRO_OF_ID },
  { "from_date", CRO_OF_TEXT },
  { "price_micro", CRO_FROM_0 },
  { "tax_included_pct_micro", CRO_FROM_0 },
  { "pack_count_micro", CRO_ABOVE_0 },
  { "pack_size_micro", CRO_ABOVE_0 },
  { "pack_unit", CRO_OF_TEXT },
  { NULL, 0, 0 },
};

static gboolean
read_record (CroModelRow  *record,
             CroRows      *rows,
             GError      **error)
{
  CroDate from;

  if (!cro_model_row_read (record, price_columns, rows, 0, error))
    return FALSE;
  cro_model_row_get_unit (record, 7);
  cro_model_row_get_date (record, 2, &from);
  return !record->is_damaged || cro_rows_is_damaged (rows, record->bad, error);
}

static CroOwnPack
own_pack_of (CroModelRow *record)
{
  return (CroOwnPack){ cro_model_row_get_int (record, 5), cro_model_row_get_int (record, 6),
                       cro_model_row_is_null (record, 7) ? -1
                                                         : (gint) cro_model_row_get_unit (record, 7) };
}

static void
set_pack (CroOfferEntry *entry,
          CroOwnPack     own)
{
  entry->offer.pack_count = own.count != 0 ? own.count : entry->pack_count;
  entry->offer.pack_size = own.size != 0 ? own.size : entry->pack_size;
  entry->offer.pack_unit = own.unit >= 0 ? (CroUnit) own.unit : (CroUnit) entry->pack_unit;
}

static void
take_values (CroOfferEntry *entry,
             CroModelRow   *record)
{
  cro_model_row_get_date (record, 2, &entry->offer.from);
  entry->offer.price = cro_model_row_get_int (record, 3);
  entry->offer.tax_included = cro_model_row_get_int (record, 4);
  set_pack (entry, own_pack_of (record));
}

static gboolean
take_price (CroModel  *self,
            CroRows   *rows,
            GError   **error)
{
  CroModelRow record;
  CroOfferEntry *entry;
  guint32 slot;

  if (!read_record (&record, rows, error))
    return FALSE;
  slot = cro_model_row_get_slot (&record, 0, &self->offer_slots);
  if (record.is_damaged)
    return cro_rows_is_damaged (rows, record.bad, error);
  entry = cro_model_offer (self, slot);
  entry->price_id = cro_model_row_get_int (&record, 1);
  cro_slots_set (&self->price_slots, entry->price_id, slot);
  take_values (entry, &record);
  entry->offer.has_price = !cro_model_row_is_null (&record, 3);
  return TRUE;
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
  CroModelRow record;
  const char *next_text;
  CroDate next;

  offer->last_day = has_left ? offer->until : date;
  offer->had_price = offer->has_price && offer->from <= offer->last_day;
  if (offer->had_price || entry->price_id == 0)
    return TRUE;
  /* The newest row does not serve, so an older one may. */
  offer->last_day = MIN (offer->last_day, offer->from - 1);
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
  if (!read_record (&record, rows, error))
    return FALSE;
  take_values (entry, &record);
  next_text = cro_rows_get_text (rows, 8);
  if (next_text != NULL && cro_date_parse (next_text, strlen (next_text), &next))
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

  cro_date_format (date, on);
  rows = cro_store_read_prices (store, on, of, error);
  return rows != NULL && take_rows (self, rows, take_price, error);
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

void
cro_model_show_price (CroOfferEntry *entry,
                      const char    *column,
                      const CroCell *cell)
{
  gint64 number = cell->kind == CRO_CELL_INTEGER ? cell->integer : 0;

  if (strcmp (column, "price_micro") == 0)
    {
      entry->offer.has_price = cell->kind != CRO_CELL_NULL;
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

/* The price in force of an offer, one value of its row id as a preview has it; column NULL: none. */
static gboolean
load_shown (CroModel       *self,
            CroStore       *store,
            CroDate         date,
            guint32         slot,
            gint64          id,
            const char     *column,
            const CroCell  *cell,
            GError        **error)
{
  CroOfferEntry *entry = cro_model_offer (self, slot);

  forget_price (self, entry);
  if (!read_prices (self, store, date, entry->id, error))
    return FALSE;
  if (column != NULL && entry->price_id == id)
    cro_model_show_price (entry, column, cell);
  return find_last_day (entry, store, date, error);
}

gboolean
cro_model_load_price (CroModel  *self,
                      CroStore  *store,
                      CroDate    date,
                      guint32    slot,
                      GError   **error)
{
  return load_shown (self, store, date, slot, 0, NULL, NULL, error);
}

gboolean
cro_model_find_own_pack (CroModel    *self,
                         CroStore    *store,
                         CroDate      date,
                         guint32      slot,
                         CroOwnPack  *own,
                         gboolean    *serves,
                         GError     **error)
{
  const CroOfferEntry *entry = cro_model_offer (self, slot);
  char on[CRO_DATE_CHARS];
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;
  CroModelRow record;

  *own = (CroOwnPack){ 0, 0, -1 };
  *serves = FALSE;
  cro_date_format (date, on);
  rows = cro_store_read_prices (store, on, entry->id, error);
  if (rows == NULL)
    return FALSE;
  if (cro_rows_next (rows, &failed))
    {
      if (!read_record (&record, rows, error))
        return FALSE;
      *own = own_pack_of (&record);
      *serves = !cro_model_row_is_null (&record, 3)
                && !(entry->offer.has_until && entry->offer.until < date);
    }
  if (failed == NULL)
    return TRUE;
  g_propagate_error (error, failed);
  return FALSE;
}

void
cro_model_repack (CroModel   *self,
                  guint32     slot,
                  CroOwnPack  own)
{
  CroOfferEntry *entry = cro_model_offer (self, slot);

  set_pack (entry, own);
  entry->offer.rate = rate_of (self, entry);
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
                      const char     *column,
                      const CroCell  *cell,
                      CroTouched     *touched,
                      GError        **error)
{
  guint32 was = cro_slots_get (&self->price_slots, id);
  guint32 is;

  if (!find_offer (self, store, id, &is, error)
      || (was != CRO_NO_SLOT && was != is && !cro_model_load_price (self, store, date, was, error))
      || (is != CRO_NO_SLOT && !load_shown (self, store, date, is, id, column, cell, error)))
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
