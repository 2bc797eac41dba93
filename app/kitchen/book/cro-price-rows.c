#include "cro-price-rows.h"

#include <string.h>

#include "cro-model-rows-private.h"

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

/* --- One row ---------------------------------------------------------------------------------- */

gboolean
cro_price_row_read (CroModel     *model,
                    CroRows      *rows,
                    guint32      *offer,
                    CroPriceRow  *row,
                    GError      **error)
{
  CroModelRow record;

  if (!cro_model_row_read (&record, price_columns, rows, 0, error))
    return FALSE;
  *offer = cro_model_row_get_slot (&record, 0, &model->offer_slots);
  row->id = cro_model_row_get_int (&record, 1);
  cro_model_row_get_date (&record, 2, &row->from);
  row->price = cro_model_row_get_int_or (&record, 3, CRO_NOT_SET);
  row->tax = cro_model_row_get_int (&record, 4);
  row->own = (CroOwnPack){ cro_model_row_get_int (&record, 5), cro_model_row_get_int (&record, 6),
                           cro_model_row_is_null (&record, 7)
                               ? -1
                               : (gint) cro_model_row_get_unit (&record, 7) };
  return !record.is_damaged || cro_rows_is_damaged (rows, record.bad, error);
}

static gint
unit_of (const CroCell *cell)
{
  CroUnit unit;

  return cell->kind == CRO_CELL_TEXT && cro_unit_parse (cell->text, strlen (cell->text), &unit)
             ? (gint) unit
             : -1;
}

void
cro_price_row_show (CroPriceRow   *row,
                    const char    *column,
                    const CroCell *cell)
{
  gint64 number = cell->kind == CRO_CELL_INTEGER ? cell->integer : 0;

  if (strcmp (column, "price_micro") == 0)
    row->price = cell->kind == CRO_CELL_INTEGER ? number : CRO_NOT_SET;
  else if (strcmp (column, "tax_included_pct_micro") == 0)
    row->tax = number;
  else if (strcmp (column, "pack_count_micro") == 0)
    row->own.count = number;
  else if (strcmp (column, "pack_size_micro") == 0)
    row->own.size = number;
  else if (strcmp (column, "pack_unit") == 0)
    row->own.unit = unit_of (cell);
  else if (strcmp (column, "from_date") == 0 && cell->kind == CRO_CELL_TEXT)
    cro_date_parse (cell->text, strlen (cell->text), &row->from);
}

/* --- The offer -------------------------------------------------------------------------------- */

double
cro_model_rate (CroModel   *model,
                const char *currency)
{
  const double *rate;

  if (currency == NULL || g_strcmp0 (currency, model->currency) == 0)
    return 1;
  rate = g_hash_table_lookup (model->rates, currency);
  return rate != NULL ? *rate : 0;
}

static void
forget_values (CroOfferEntry *entry)
{
  entry->price_id = 0;
  entry->offer.has_price = false;
  entry->offer.had_price = false;
  entry->offer.price = 0;
  entry->offer.from = 0;
  entry->offer.tax_included = 0;
  entry->offer.pack_count = entry->pack_count;
  entry->offer.pack_size = entry->pack_size;
  entry->offer.pack_unit = (CroUnit) entry->pack_unit;
}

void
cro_model_forget_price (CroModel      *model,
                        CroOfferEntry *entry)
{
  if (entry->price_id != 0)
    cro_slots_set (&model->price_slots, entry->price_id, CRO_NO_SLOT);
  forget_values (entry);
  entry->offer.rate = cro_model_rate (model, entry->currency);
}

static void
take_values (CroOfferEntry     *entry,
             const CroPriceRow *row)
{
  CroOffer *offer = &entry->offer;

  offer->from = row->from;
  offer->price = row->price != CRO_NOT_SET ? row->price : 0;
  offer->tax_included = row->tax;
  offer->pack_count = row->own.count != 0 ? row->own.count : entry->pack_count;
  offer->pack_size = row->own.size != 0 ? row->own.size : entry->pack_size;
  offer->pack_unit = row->own.unit >= 0 ? (CroUnit) row->own.unit : (CroUnit) entry->pack_unit;
}

static void
serve (CroOfferEntry     *entry,
       const CroPriceRow *row,
       CroDate            date)
{
  CroOffer *offer = &entry->offer;

  entry->price_id = row->id;
  take_values (entry, row);
  offer->has_price = row->price != CRO_NOT_SET;
  offer->last_day = offer->has_until && offer->until < date ? offer->until : date;
  offer->had_price = offer->has_price && offer->from <= offer->last_day;
}

void
cro_model_serve_price (CroModel          *model,
                       guint32            slot,
                       const CroPriceRow *row,
                       CroDate            date)
{
  cro_slots_set (&model->price_slots, row->id, slot);
  serve (cro_model_offer (model, slot), row, date);
}

/* --- All rows --------------------------------------------------------------------------------- */

static int
by_date (gconstpointer a,
         gconstpointer b)
{
  CroDate x = ((const CroPriceRow *) a)->from, y = ((const CroPriceRow *) b)->from;

  return x < y ? -1 : x > y;
}

static void
name_columns (const char **columns)
{
  for (gsize i = 0; i < G_N_ELEMENTS (price_columns); i++)
    columns[i] = price_columns[i].name;
}

GArray *
cro_price_rows_new (CroModel  *model,
                    CroStore  *store,
                    guint32    offer,
                    GError   **error)
{
  const char *columns[G_N_ELEMENTS (price_columns)];
  g_autoptr (GArray) prices = g_array_new (FALSE, FALSE, sizeof (CroPriceRow));
  g_autoptr (CroRows) rows = NULL;
  GError *failed = NULL;

  name_columns (columns);
  rows = cro_store_read_of (store, "price", "offer", cro_model_offer (model, offer)->id, columns,
                            error);
  if (rows == NULL)
    return NULL;
  while (cro_rows_next (rows, &failed))
    {
      CroPriceRow price;
      guint32 of;

      if (!cro_price_row_read (model, rows, &of, &price, error))
        return NULL;
      g_array_append_val (prices, price);
    }
  if (failed != NULL)
    {
      g_propagate_error (error, failed);
      return NULL;
    }
  g_array_sort (prices, by_date);
  return g_steal_pointer (&prices);
}

typedef struct
{
  CroModel  *model;
  GPtrArray *all;
} ReadingAll;

static gboolean
add_row (CroRows   *rows,
         gpointer   user_data,
         GError   **error)
{
  ReadingAll *self = user_data;
  CroPriceRow price;
  guint32 offer;

  if (!cro_price_row_read (self->model, rows, &offer, &price, error))
    return FALSE;
  /* What another process has only just made the model does not know yet. */
  if (offer >= self->all->len)
    return TRUE;
  if (self->all->pdata[offer] == NULL)
    self->all->pdata[offer] = g_array_new (FALSE, FALSE, sizeof (CroPriceRow));
  g_array_append_val ((GArray *) self->all->pdata[offer], price);
  return TRUE;
}

static void
free_rows (gpointer rows)
{
  if (rows != NULL)
    g_array_unref (rows);
}

GPtrArray *
cro_price_rows_all (CroModel  *model,
                    CroStore  *store,
                    GError   **error)
{
  const char *columns[G_N_ELEMENTS (price_columns)];
  g_autoptr (GPtrArray) all = g_ptr_array_new_full (model->offers->len, free_rows);
  ReadingAll reading = { model, all };

  g_ptr_array_set_size (all, (int) model->offers->len);
  name_columns (columns);
  if (!cro_store_read_each (store, "price", columns, add_row, &reading, error))
    return NULL;
  for (guint i = 0; i < all->len; i++)
    if (all->pdata[i] != NULL)
      g_array_sort (all->pdata[i], by_date);
  return g_steal_pointer (&all);
}

static const CroPriceRow *
row_at (GArray            *rows,
        guint              i,
        const CroPriceRow *shown)
{
  const CroPriceRow *row = &g_array_index (rows, CroPriceRow, i);

  return shown != NULL && shown->id == row->id ? shown : row;
}

/* The newest on or before a date, of those with a price if need be; NULL: none. What is shown may be
 * of another date than that by which the rows stand in their order. */
static const CroPriceRow *
newest_on (GArray            *rows,
           const CroPriceRow *shown,
           CroDate            date,
           gboolean           is_priced)
{
  const CroPriceRow *newest = NULL;

  for (guint i = 0; i < rows->len; i++)
    {
      const CroPriceRow *row = row_at (rows, i, shown);

      if (row->from <= date && (!is_priced || row->price != CRO_NOT_SET)
          && (newest == NULL || row->from >= newest->from))
        newest = row;
    }
  return newest;
}

/* The day before the first row behind one, if that is no later than day. */
static CroDate
last_day_of (GArray            *rows,
             const CroPriceRow *shown,
             const CroPriceRow *of,
             CroDate            day)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const CroPriceRow *row = row_at (rows, i, shown);

      if (row->from > of->from)
        day = MIN (day, row->from - 1);
    }
  return day;
}

/* The newest row does not serve: an older one may, with its pack. */
static void
serve_older (GArray            *rows,
             const CroPriceRow *shown,
             CroOfferEntry     *entry)
{
  CroOffer *offer = &entry->offer;
  const CroPriceRow *older;

  offer->last_day = MIN (offer->last_day, offer->from - 1);
  older = newest_on (rows, shown, offer->last_day, TRUE);
  if (older == NULL)
    return;
  offer->had_price = true;
  take_values (entry, older);
  offer->last_day = last_day_of (rows, shown, older, offer->last_day);
}

void
cro_price_rows_serve (GArray            *rows,
                      const CroPriceRow *shown,
                      CroModel          *model,
                      guint32            slot,
                      CroDate            date)
{
  CroOfferEntry *entry = cro_model_offer (model, slot);
  const CroPriceRow *newest = newest_on (rows, shown, date, FALSE);

  cro_model_forget_price (model, entry);
  if (newest == NULL)
    return;
  cro_model_serve_price (model, slot, newest, date);
  if (!entry->offer.had_price)
    serve_older (rows, shown, entry);
}

void
cro_price_rows_offer_on (GArray              *rows,
                         const CroOfferEntry *entry,
                         CroDate              date,
                         CroOffer            *offer)
{
  CroOfferEntry then = *entry;
  const CroPriceRow *newest = newest_on (rows, NULL, date, FALSE);

  forget_values (&then);
  if (newest != NULL)
    {
      serve (&then, newest, date);
      if (!then.offer.had_price)
        serve_older (rows, NULL, &then);
    }
  *offer = then.offer;
}
