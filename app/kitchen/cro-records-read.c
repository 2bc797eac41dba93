#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-words.h"

typedef struct
{
  CroBook      *book;
  CroModel     *model;
  GArray       *rows;
  GStringChunk *texts;
  CroRecordRow  row;          /* the one being made */
} Reading;

/* --- Cells ----------------------------------------------------------------------------------------- */

static const CroValue open_value = { NAN, NULL };

static CroValue
text_value (Reading    *self,
            const char *text)
{
  return (CroValue){ NAN, text != NULL && *text != '\0'
                              ? g_string_chunk_insert_const (self->texts, text)
                              : NULL };
}

static CroValue
number_value (double number)
{
  return (CroValue){ number, NULL };
}

static CroValue
micro_cell (CroRows *rows,
            int      column)
{
  return cro_rows_is_null (rows, column) ? open_value
                                         : number_value ((double) cro_rows_get_int (rows, column));
}

static CroValue
money_cell (CroRows *rows,
            int      column)
{
  return cro_rows_is_null (rows, column)
             ? open_value
             : number_value (cro_decimal_to_double (cro_rows_get_int (rows, column)));
}

static CroValue
text_cell (Reading *self,
           CroRows *rows,
           int      column)
{
  return text_value (self, cro_rows_get_text (rows, column));
}

static CroValue
amount_cell (Reading *self,
             CroRows *rows,
             int      amount,
             int      unit)
{
  CroValue value = micro_cell (rows, amount);

  value.text = text_cell (self, rows, unit).text;
  return value;
}

static gint32
month_of (CroDate date)
{
  int year, month, day;

  cro_date_to_civil (date, &year, &month, &day);
  return cro_date_from_civil (year, month, 1);
}

static CroValue
date_cell (Reading *self,
           CroRows *rows,
           int      column)
{
  const char *text = cro_rows_get_text (rows, column);
  CroDate date;

  if (text == NULL || !cro_date_parse (text, strlen (text), &date))
    return open_value;
  self->row.month = month_of (date);
  return number_value (date);
}

static CroValue
item_cell (Reading *self,
           CroRows *rows,
           int      column)
{
  guint32 slot = cro_rows_is_null (rows, column)
                     ? CRO_NO_SLOT
                     : cro_slots_get (&self->model->item_slots, cro_rows_get_int (rows, column));

  if (slot == CRO_NO_SLOT)
    return open_value;
  self->row.ref = CRO_REF (CRO_REF_ITEM, slot);
  return text_value (self, cro_model_item (self->model, slot)->name);
}

static CroValue
supplier_cell (Reading *self,
               CroRows *rows,
               int      column)
{
  guint32 slot = cro_rows_is_null (rows, column)
                     ? CRO_NO_SLOT
                     : cro_slots_get (&self->model->supplier_slots, cro_rows_get_int (rows, column));

  return slot == CRO_NO_SLOT
             ? open_value
             : text_value (self, g_array_index (self->model->suppliers, CroSupplier, slot).name);
}

static CroValue
thing_cell (Reading *self,
            CroRows *rows,
            int      column)
{
  gint64 id = cro_rows_get_int (rows, column);
  guint32 plate = cro_slots_get (&self->model->plate_slots, id);
  guint32 menu = cro_slots_get (&self->model->menu_slots, id);

  if (plate != CRO_NO_SLOT)
    self->row.ref = CRO_REF (CRO_REF_RECIPE, plate);
  else if (menu != CRO_NO_SLOT)
    self->row.ref = CRO_REF (CRO_REF_MENU, menu);
  return text_value (self, cro_ref_name (self->model, self->row.ref));
}

/* The words for the kinds that the store keeps as codes. */
static const char *
kind_word (const char *code)
{
  static const struct { const char *code, *word; } words[] = {
    { "food", N_("food") },
    { "disposable", N_("disposable") },
    /* Translators: a kind of purchase or adjustment. */
    { "other", N_("other") },
    { "staff-meal", N_("staff meal") },
    { "promotion", N_("promotion") },
    { "waste", N_("waste") },
    { "transfer-in", N_("transfer in") },
    { "transfer-out", N_("transfer out") },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    if (g_str_equal (words[i].code, code))
      return _(words[i].word);
  return code;
}

/* --- Rows of one table ---------------------------------------------------------------------------- */

typedef void (*FillRow) (Reading *self,
                         CroRows *rows);

/* The first column is the id. */
static gboolean
read_table (Reading            *self,
            const char         *table,
            const char *const  *columns,
            FillRow             fill,
            GError            **error)
{
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), table, columns, error);
  g_autoptr (GError) failure = NULL;

  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failure))
    {
      self->row = (CroRecordRow){ .id = cro_rows_get_int (rows, 0), .ref = CRO_REF_NOWHERE,
                                  .month = G_MININT32 };
      for (guint i = 0; i < CRO_RECORD_MOST; i++)
        self->row.values[i] = open_value;
      fill (self, rows);
      g_array_append_val (self->rows, self->row);
    }
  if (failure != NULL)
    g_propagate_error (error, g_steal_pointer (&failure));
  return failure == NULL;
}

static void
fill_rate (Reading *self,
           CroRows *rows)
{
  self->row.values[0] = text_cell (self, rows, 1);
  self->row.values[1] = date_cell (self, rows, 2);
  self->row.values[2] = micro_cell (rows, 3);
  self->row.values[3] = cro_rows_is_null (rows, 4) ? number_value (CRO_MICRO) : micro_cell (rows, 4);
}

static void
fill_supplier (Reading *self,
               CroRows *rows)
{
  guint32 slot = cro_slots_get (&self->model->supplier_slots, cro_rows_get_int (rows, 0));
  guint n = 0;

  for (guint i = 0; i < self->model->offers->len; i++)
    n += cro_model_offer (self->model, i)->supplier == slot
         && !cro_model_offer (self->model, i)->is_dead;
  self->row.ref = CRO_REF (CRO_REF_SUPPLIER, slot);
  self->row.values[0] = text_cell (self, rows, 1);
  self->row.values[1] = text_cell (self, rows, 2);
  self->row.values[2] = number_value (n);
  self->row.values[3] = text_cell (self, rows, 3);
}

static void
fill_sale (Reading *self,
           CroRows *rows)
{
  self->row.values[0] = date_cell (self, rows, 1);
  self->row.values[1] = thing_cell (self, rows, 2);
  self->row.values[2] = micro_cell (rows, 3);
  self->row.values[3] = money_cell (rows, 4);
}

static void
fill_purchase (Reading *self,
               CroRows *rows)
{
  self->row.values[0] = date_cell (self, rows, 1);
  self->row.values[1] = supplier_cell (self, rows, 2);
  self->row.values[2] = text_cell (self, rows, 3);
  self->row.values[3] = item_cell (self, rows, 4);
  self->row.values[4] = text_cell (self, rows, 5);
  self->row.values[5] = text_value (self, kind_word (cro_rows_get_text (rows, 6)));
  self->row.values[6] = amount_cell (self, rows, 7, 8);
  self->row.values[7] = money_cell (rows, 9);
}

static void
fill_count (Reading *self,
            CroRows *rows)
{
  self->row.values[0] = date_cell (self, rows, 1);
  self->row.values[1] = item_cell (self, rows, 2);
  self->row.values[2] = amount_cell (self, rows, 3, 4);
  self->row.values[3] = text_cell (self, rows, 5);
}

static void
fill_adjustment (Reading *self,
                 CroRows *rows)
{
  self->row.values[0] = date_cell (self, rows, 1);
  self->row.values[1] = text_value (self, kind_word (cro_rows_get_text (rows, 2)));
  self->row.values[2] = item_cell (self, rows, 3);
  self->row.values[3] = amount_cell (self, rows, 4, 5);
  self->row.values[4] = money_cell (rows, 6);
  self->row.values[5] = text_cell (self, rows, 7);
}

/* --- Packs ------------------------------------------------------------------------------------------- */

/* The unit cost of every offer by the price before the one in force; NaN where there is none.
 * By slot of the offer. Owned. */
static double *
read_costs_before (Reading  *self,
                   GError  **error)
{
  static const char *const columns[] = { "offer", "from_date", "price_micro", "tax_included_pct_micro",
                                         "pack_count_micro", "pack_size_micro", "pack_unit", NULL };
  CroDate today = cro_book_get_figures (self->book)->date;
  guint n = self->model->offers->len;
  g_autofree double *costs = g_new (double, n + 1);
  g_autofree CroDate *dates = g_new0 (CroDate, n + 1);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), "price", columns, error);
  g_autoptr (GError) failure = NULL;

  for (guint i = 0; i < n; i++)
    {
      costs[i] = NAN;
      dates[i] = G_MININT32;
    }
  while (rows != NULL && cro_rows_next (rows, &failure))
    {
      guint32 slot = cro_slots_get (&self->model->offer_slots, cro_rows_get_int (rows, 0));
      const char *from = cro_rows_get_text (rows, 1);
      const CroOfferEntry *entry;
      CroOffer offer;
      CroDate date;

      if (slot == CRO_NO_SLOT || !cro_date_parse (from, strlen (from), &date) || date > today)
        continue;
      entry = cro_model_offer (self->model, slot);
      if (!entry->offer.has_price || date >= entry->offer.from || date < dates[slot])
        continue;
      offer = entry->offer;
      offer.price = cro_rows_get_int (rows, 2);
      offer.tax_included = cro_rows_get_int (rows, 3);
      offer.pack_count = cro_rows_is_null (rows, 4) ? entry->pack_count : cro_rows_get_int (rows, 4);
      offer.pack_size = cro_rows_is_null (rows, 5) ? entry->pack_size : cro_rows_get_int (rows, 5);
      offer.pack_unit = (CroUnit) entry->pack_unit;
      if (!cro_rows_is_null (rows, 6))
        cro_unit_parse (cro_rows_get_text (rows, 6), strlen (cro_rows_get_text (rows, 6)),
                        &offer.pack_unit);
      dates[slot] = date;
      costs[slot] = cro_offer_unit_cost (&offer, &self->model->measures[entry->item]);
    }
  if (rows == NULL || failure != NULL)
    {
      if (failure != NULL)
        g_propagate_error (error, g_steal_pointer (&failure));
      return NULL;
    }
  return g_steal_pointer (&costs);
}

static CroValue
pack_value (Reading        *self,
            const CroOffer *offer)
{
  g_autofree char *count = cro_words_decimal (offer->pack_count);
  g_autofree char *size = cro_words_decimal (offer->pack_size);
  const char *unit = cro_unit_get (offer->pack_unit)->code;
  g_autofree char *text = offer->pack_count == CRO_MICRO
                              ? g_strdup_printf ("%s %s", size, unit)
                              : g_strdup_printf ("%s × %s %s", count, size, unit);

  return text_value (self, text);
}

static void
fill_offer (Reading             *self,
            guint32              slot,
            const CroOfferEntry *entry,
            double               before)
{
  CroFigures *figures = cro_book_get_figures (self->book);
  const CroItem *item = cro_model_item (self->model, entry->item);
  const CroMeasure *measure = &self->model->measures[entry->item];
  gboolean is_priced = entry->offer.has_price && entry->offer.rate > 0
                       && cro_offer_pack (&entry->offer, measure) > 0;
  double cost = is_priced ? cro_offer_unit_cost (&entry->offer, measure) : NAN;
  CroValue *values = self->row.values;

  self->row.ref = CRO_REF (CRO_REF_OFFER, slot);
  values[0] = text_value (self, item->name);
  values[1] = text_value (self, g_array_index (self->model->suppliers, CroSupplier,
                                               entry->supplier).name);
  values[2] = text_value (self, entry->code);
  values[3] = pack_value (self, &entry->offer);
  if (entry->offer.has_price)
    {
      values[4] = number_value (cro_decimal_to_double (entry->offer.price));
      values[4].text = text_value (self, entry->currency).text;
      values[6] = number_value (entry->offer.from);
    }
  values[5] = number_value (cost);
  values[5].text = cro_unit_get (cro_base_unit ((CroBase) measure->base))->code;
  values[7] = number_value (before > 0 ? (cost / before - 1) * 100 : NAN);
  if (figures->offer_in_use[entry->item] == slot)
    /* Translators: of a pack: costs are taken from its price. */
    values[8] = text_value (self, _("in use"));
  else if (entry->offer.is_preferred)
    values[8] = text_value (self, _("preferred"));
}

static gboolean
read_offers (Reading  *self,
             GError  **error)
{
  g_autofree double *before = read_costs_before (self, error);

  if (before == NULL)
    return FALSE;
  for (guint32 slot = 0; slot < self->model->offers->len; slot++)
    {
      const CroOfferEntry *entry = cro_model_offer (self->model, slot);

      if (entry->is_dead)
        continue;
      self->row = (CroRecordRow){ .id = entry->id, .month = G_MININT32 };
      for (guint i = 0; i < CRO_RECORD_MOST; i++)
        self->row.values[i] = open_value;
      fill_offer (self, slot, entry, before[slot]);
      g_array_append_val (self->rows, self->row);
    }
  return TRUE;
}

/* --- Months -------------------------------------------------------------------------------------------- */

enum
{
  MONTH,
  SOLD,
  REVENUE,
  TILL,
  PURCHASES,
  LEDGER,
  COUNTED,
  ADJUSTED,
  CLOSED,
};

static CroRecordRow *
month_row (Reading *self,
           gint32   month)
{
  CroRecordRow row = { .ref = CRO_REF_NOWHERE, .month = month };

  for (guint i = 0; i < self->rows->len; i++)
    if (g_array_index (self->rows, CroRecordRow, i).month == month)
      return &g_array_index (self->rows, CroRecordRow, i);
  for (guint i = 0; i < CRO_RECORD_MOST; i++)
    row.values[i] = open_value;
  row.values[MONTH] = number_value (month);
  g_array_append_val (self->rows, row);
  return &g_array_index (self->rows, CroRecordRow, self->rows->len - 1);
}

static void
add_to (CroRecordRow *row,
        guint         column,
        double        number)
{
  if (!isnan (number))
    row->values[column].number = (isnan (row->values[column].number)
                                      ? 0
                                      : row->values[column].number) + number;
}

/* Sums over the rows of another kind: column of them, or their number where it is 0. */
static gboolean
add_records (Reading         *self,
             CroRecordsKind   kind,
             guint            column,
             guint            into,
             GError         **error)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (CroRecordRow));

  if (!cro_records_read (self->book, kind, rows, self->texts, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const CroRecordRow *row = &g_array_index (rows, CroRecordRow, i);

      if (row->month != G_MININT32)
        add_to (month_row (self, row->month), into,
                column > 0 ? row->values[column].number : 1);
    }
  return TRUE;
}

static void
fill_month (Reading *self,
            CroRows *rows)
{
  const char *month = cro_rows_get_text (rows, 1);
  CroDate first_day = G_MININT32;

  cro_month_parse (month, strlen (month), &first_day);
  self->row.month = first_day;
  self->row.values[MONTH] = number_value (first_day);
  self->row.values[TILL] = money_cell (rows, 2);
  self->row.values[LEDGER] = money_cell (rows, 3);
  self->row.values[CLOSED] = text_value (self, cro_rows_is_null (rows, 4)
                                                   /* Translators: of a month. */
                                                   ? _("open")
                                                   : _("closed"));
}

static int
newest_first (gconstpointer a,
              gconstpointer b)
{
  gint32 x = ((const CroRecordRow *) a)->month, y = ((const CroRecordRow *) b)->month;

  return x < y ? 1 : x > y ? -1 : 0;
}

static gboolean
read_months (Reading  *self,
             GError  **error)
{
  static const char *const columns[] = { "id", "month", "till_net_revenue_micro",
                                         "ledger_purchases_micro", "closed_at", NULL };

  if (!read_table (self, "month", columns, fill_month, error)
      || !add_records (self, CRO_RECORDS_SALES, 2, SOLD, error)
      || !add_records (self, CRO_RECORDS_SALES, 3, REVENUE, error)
      || !add_records (self, CRO_RECORDS_PURCHASES, 7, PURCHASES, error)
      || !add_records (self, CRO_RECORDS_COUNTS, 0, COUNTED, error)
      || !add_records (self, CRO_RECORDS_ADJUSTMENTS, 0, ADJUSTED, error))
    return FALSE;
  g_array_sort (self->rows, newest_first);
  return TRUE;
}

/* --- All kinds ------------------------------------------------------------------------------------------ */

gboolean
cro_records_read (CroBook         *book,
                  CroRecordsKind   kind,
                  GArray          *rows,
                  GStringChunk    *texts,
                  GError         **error)
{
  static const struct { const char *table; FillRow fill; const char *columns[12]; } tables[CRO_N_RECORDS]
      = {
    [CRO_RECORDS_SUPPLIERS] = { "supplier", fill_supplier, { "id", "name", "contact", "note" } },
    [CRO_RECORDS_RATES] = { "rate", fill_rate,
                            { "id", "currency", "from_date", "rate_micro", "per_micro" } },
    [CRO_RECORDS_SALES] = { "sale", fill_sale,
                            { "id", "date", "thing", "sold_micro", "net_revenue_micro" } },
    [CRO_RECORDS_PURCHASES] = { "purchase", fill_purchase,
                                { "id", "date", "supplier", "document", "ingredient", "category",
                                  "kind", "amount_micro", "unit", "net_value_micro" } },
    [CRO_RECORDS_COUNTS] = { "stock_count", fill_count,
                             { "id", "date", "item", "amount_micro", "unit", "place" } },
    [CRO_RECORDS_ADJUSTMENTS] = { "adjustment", fill_adjustment,
                                  { "id", "date", "kind", "item", "amount_micro", "unit",
                                    "net_value_micro", "note" } },
  };
  Reading self = { book, cro_book_get_model (book), rows, texts, { 0 } };

  if (kind == CRO_RECORDS_OFFERS)
    return read_offers (&self, error);
  if (kind == CRO_RECORDS_MONTHS)
    return read_months (&self, error);
  return read_table (&self, tables[kind].table, tables[kind].columns, tables[kind].fill, error);
}
