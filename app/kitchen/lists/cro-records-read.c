#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-plate.h"
#include "cro-price-answers.h"
#include "cro-rate-doubt.h"
#include "cro-words-price.h"
#include "cro-words.h"

/* --- Cells ----------------------------------------------------------------------------------------- */

static const CroValue open_value = { .number = NAN };

CroValue
cro_reading_text (CroReading *self,
                  const char *text)
{
  return CRO_VALUE (NAN, text != NULL && *text != '\0'
                             ? g_string_chunk_insert_const (self->texts, text)
                             : NULL);
}

CroValue
cro_reading_number (double number)
{
  return CRO_VALUE (number, NULL);
}

CroValue
cro_reading_micro (CroRows *rows,
                   int      column)
{
  return cro_rows_is_null (rows, column)
             ? open_value
             : cro_reading_number ((double) cro_rows_get_int (rows, column));
}

CroValue
cro_reading_money (CroRows *rows,
                   int      column)
{
  return cro_rows_is_null (rows, column)
             ? open_value
             : cro_reading_number (cro_decimal_to_double (cro_rows_get_int (rows, column)));
}

static CroValue
text_cell (CroReading *self,
           CroRows    *rows,
           int         column)
{
  return cro_reading_text (self, cro_rows_get_text (rows, column));
}

static CroValue
amount_cell (CroReading *self,
             CroRows    *rows,
             int         amount,
             int         unit)
{
  CroValue value = cro_reading_micro (rows, amount);

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
date_cell (CroReading *self,
           CroRows    *rows,
           int         column)
{
  const char *text = cro_rows_get_text (rows, column);
  CroDate date;

  if (text == NULL || !cro_date_parse (text, strlen (text), &date))
    return open_value;
  self->row.month = month_of (date);
  return cro_reading_number (date);
}

static CroValue
item_cell (CroReading *self,
           CroRows    *rows,
           int         column)
{
  guint32 slot = cro_rows_is_null (rows, column)
                     ? CRO_NO_SLOT
                     : cro_slots_get (&self->model->item_slots, cro_rows_get_int (rows, column));

  if (slot == CRO_NO_SLOT)
    return open_value;
  self->row.ref = CRO_REF (CRO_REF_ITEM, slot);
  return cro_reading_text (self, cro_model_item (self->model, slot)->name);
}

static CroValue
supplier_cell (CroReading *self,
               CroRows    *rows,
               int         column)
{
  guint32 slot = cro_rows_is_null (rows, column)
                     ? CRO_NO_SLOT
                     : cro_slots_get (&self->model->supplier_slots, cro_rows_get_int (rows, column));

  return slot == CRO_NO_SLOT
             ? open_value
             : cro_reading_text (self, g_array_index (self->model->suppliers, CroSupplier, slot).name);
}

static CroValue
thing_cell (CroReading *self,
            CroRows    *rows,
            int         column)
{
  gint64 id = cro_rows_get_int (rows, column);
  guint32 plate = cro_slots_get (&self->model->plate_slots, id);
  guint32 menu = cro_slots_get (&self->model->menu_slots, id);

  if (plate != CRO_NO_SLOT)
    self->row.ref = CRO_REF (CRO_REF_RECIPE, plate);
  else if (menu != CRO_NO_SLOT)
    self->row.ref = CRO_REF (CRO_REF_MENU, menu);
  return cro_reading_text (self, cro_ref_name (self->model, self->row.ref));
}

/* --- Rows of one table ---------------------------------------------------------------------------- */

void
cro_reading_begin (CroReading *self,
                   gint64      id)
{
  self->row = (CroRecordRow){ .id = id, .ref = CRO_REF_NOWHERE, .month = G_MININT32 };
  for (guint i = 0; i < CRO_RECORD_MOST; i++)
    self->row.values[i] = open_value;
}

gboolean
cro_reading_table (CroReading         *self,
                   const char         *table,
                   const char *const  *columns,
                   CroFillRow          fill,
                   GError            **error)
{
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), table, columns, error);
  g_autoptr (GError) failure = NULL;

  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failure))
    {
      cro_reading_begin (self, cro_rows_get_int (rows, 0));
      fill (self, rows);
      g_array_append_val (self->rows, self->row);
    }
  if (failure != NULL)
    g_propagate_error (error, g_steal_pointer (&failure));
  return failure == NULL;
}

/* Asked of the rate in force alone, as of a price. */
static void
show_rate_in_force (CroReading *self,
                    CroRows    *rows)
{
  const char *currency = cro_rows_get_text (rows, 1), *from = cro_rows_get_text (rows, 2);
  g_autofree char *question = NULL, *both = NULL;
  CroDoubt doubt;

  if (g_strcmp0 (g_hash_table_lookup (self->in_force, currency), from) != 0)
    return;
  if (cro_doubt_of_rate (self->book, currency, &doubt))
    question = doubt.is_past ? cro_words_doubt (self->model, &doubt) : cro_words_doubt_at (self->model, &doubt);
  if (question != NULL)
    both = g_strdup_printf ("%s · %s", _("in force"), question);
  /* Translators: of an exchange rate. */
  self->row.values[4] = cro_reading_text (self, both != NULL ? both : _("in force"));
}

static void
fill_rate (CroReading *self,
           CroRows    *rows)
{
  self->row.values[0] = text_cell (self, rows, 1);
  self->row.values[1] = date_cell (self, rows, 2);
  self->row.values[2] = cro_reading_micro (rows, 3);
  self->row.values[3] = cro_rows_is_null (rows, 4) ? cro_reading_number (CRO_MICRO)
                                                   : cro_reading_micro (rows, 4);
  show_rate_in_force (self, rows);
}

/* What one of a plate or a menu brought, without tax, at the price of that day. */
static double
net_price_on (CroReading *self,
              CroRef      thing,
              gint64      id,
              CroDate     date)
{
  CroSellingTerms terms = cro_selling_terms_on (self->model, g_hash_table_lookup (self->selling, &id), thing, date);

  return cro_net_price (terms.price != CRO_NOT_SET, terms.price, terms.tax);
}

/* What nobody entered, and nobody knows a price for. */
static void
price_sale (CroReading *self,
            CroRows    *rows)
{
  gint64 sold = cro_rows_get_int (rows, 3);
  CroValue *net_sales = &self->row.values[3];

  net_sales->number = cro_decimal_to_double (sold)
                      * net_price_on (self, self->row.ref, cro_rows_get_int (rows, 2),
                                      (CroDate) self->row.values[0].number);
  if (isnan (net_sales->number))
    net_sales->known = sold > 0   ? CRO_KNOWN_AT_LEAST
                       : sold < 0 ? CRO_KNOWN_AT_MOST
                                  : CRO_KNOWN_WHOLE;
}

/* What was sold below 0 was rung up by mistake; nothing sold and money given back was eaten. */
static const char *
sale_kind (const CroReading *self,
           CroRows          *rows)
{
  gint64 sold = cro_rows_get_int (rows, 3);

  if (cro_rows_is_null (rows, 2))
    /* Translators: a kind of sale: neither a plate nor a menu, as wine or service. */
    return C_("sale", "other");
  if (sold < 0)
    /* Translators: a kind of sale: taken back before it was made. */
    return C_("sale", "void");
  if (sold == 0)
    /* Translators: a kind of sale: money given back for what was eaten. */
    return C_("sale", "refund");
  return self->row.ref.kind == CRO_REF_MENU ? C_("sale", "menu") : C_("sale", "plate");
}

static void
fill_sale (CroReading *self,
           CroRows    *rows)
{
  self->row.values[0] = date_cell (self, rows, 1);
  self->row.values[1] = cro_rows_is_null (rows, 2) ? text_cell (self, rows, 5)
                                                   : thing_cell (self, rows, 2);
  self->row.values[2] = cro_reading_micro (rows, 3);
  self->row.values[3] = cro_reading_money (rows, 4);
  self->row.values[4] = cro_reading_text (self, sale_kind (self, rows));
  if (cro_rows_is_null (rows, 4))
    price_sale (self, rows);
  self->row.marks = cro_rows_is_null (rows, 2) ? CRO_RECORD_NOT_COSTED : CRO_RECORD_COSTED;
}

static void
fill_purchase (CroReading *self,
               CroRows    *rows)
{
  self->row.values[0] = date_cell (self, rows, 1);
  self->row.values[1] = supplier_cell (self, rows, 2);
  self->row.values[2] = text_cell (self, rows, 3);
  self->row.values[3] = item_cell (self, rows, 4);
  self->row.values[4] = text_cell (self, rows, 5);
  self->row.values[5] = cro_reading_text (self, cro_code_word (cro_rows_get_text (rows, 6)));
  self->row.values[6] = amount_cell (self, rows, 7, 8);
  self->row.values[7] = cro_reading_money (rows, 9);
}

/* --- Documents: rows of purchases that are of one day, supplier, number and date stand together ------ */

enum
{
  NUMBER = 2,
  DATED,
  FIRST_KIND,
  TOTAL = FIRST_KIND + 3,
  LINES,
};

static guint
hash_document (gconstpointer data)
{
  const CroRecordRow *row = data;

  return (guint) row->month * 31 + (guint) row->values[0].number
         + GPOINTER_TO_UINT (row->values[1].text) * 7 + GPOINTER_TO_UINT (row->values[NUMBER].text) * 13;
}

/* Texts are interned. */
static gboolean
same_document (gconstpointer a,
               gconstpointer b)
{
  const CroValue *x = ((const CroRecordRow *) a)->values, *y = ((const CroRecordRow *) b)->values;

  return x[0].number == y[0].number && x[1].text == y[1].text && x[NUMBER].text == y[NUMBER].text
         && (x[DATED].number == y[DATED].number
             || (isnan (x[DATED].number) && isnan (y[DATED].number)));
}

static void
fill_document (CroReading *self,
               CroRows    *rows)
{
  CroValue money = cro_reading_money (rows, 9);
  gint32 month;
  guint kind;

  self->row.values[0] = date_cell (self, rows, 1);
  month = self->row.month;
  self->row.values[1] = supplier_cell (self, rows, 2);
  self->row.values[NUMBER] = text_cell (self, rows, 3);
  self->row.values[DATED] = date_cell (self, rows, 10);
  self->row.month = month;
  if (cro_code_find (cro_purchase_kind_codes, cro_rows_get_text (rows, 6), &kind))
    self->row.values[FIRST_KIND + kind] = money;
  self->row.values[TOTAL] = money;
  self->row.values[LINES] = cro_reading_number (1);
}

/* Sums stand in the first row of each; *rows are those that were read last. */
static void
join_documents (CroReading *self)
{
  g_autoptr (GHashTable) seen = g_hash_table_new (hash_document, same_document);
  g_autofree CroRecordRow *all = g_memdup2 (self->rows->data, self->rows->len * sizeof *all);
  guint n = 0;

  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRecordRow *first = g_hash_table_lookup (seen, &all[i]);

      if (first == NULL)
        {
          all[n] = all[i];
          g_hash_table_add (seen, &all[n++]);
          continue;
        }
      for (guint column = FIRST_KIND; column <= LINES; column++)
        cro_value_add (&first->values[column], &all[i].values[column]);
    }
  memcpy (self->rows->data, all, n * sizeof *all);
  g_array_set_size (self->rows, n);
}

static void
fill_count (CroReading *self,
            CroRows    *rows)
{
  self->row.values[0] = date_cell (self, rows, 1);
  self->row.values[1] = item_cell (self, rows, 2);
  self->row.values[2] = amount_cell (self, rows, 3, 4);
  self->row.values[3] = text_cell (self, rows, 5);
}

static void
fill_adjustment (CroReading *self,
                 CroRows    *rows)
{
  self->row.values[0] = date_cell (self, rows, 1);
  self->row.came_in = g_strcmp0 (cro_rows_get_text (rows, 2), "transfer-in") == 0;
  self->row.values[1] = cro_reading_text (self, cro_code_word (cro_rows_get_text (rows, 2)));
  self->row.values[2] = item_cell (self, rows, 3);
  self->row.values[3] = amount_cell (self, rows, 4, 5);
  self->row.values[4] = cro_reading_money (rows, 6);
  self->row.values[5] = text_cell (self, rows, 7);
}

/* --- All kinds ------------------------------------------------------------------------------------------ */

gboolean
cro_records_read (CroBook         *book,
                  CroRecordsKind   kind,
                  CroDate          since,
                  GArray          *rows,
                  GStringChunk    *texts,
                  GError         **error)
{
  static const struct { const char *table; CroFillRow fill; const char *columns[12]; }
  tables[CRO_N_RECORDS] = {
    [CRO_RECORDS_RATES] = { "rate", fill_rate,
                            { "id", "currency", "from_date", "rate_micro", "per_micro" } },
    [CRO_RECORDS_SALES] = { "sale", fill_sale,
                            { "id", "date", "thing", "sold_micro", "net_revenue_micro",
                              "other" } },
    [CRO_RECORDS_PURCHASES] = { "purchase", fill_purchase,
                                { "id", "date", "supplier", "document", "ingredient", "category",
                                  "kind", "amount_micro", "unit", "net_value_micro" } },
    [CRO_RECORDS_DOCUMENTS] = { "purchase", fill_document,
                                { "id", "date", "supplier", "document", "ingredient", "category",
                                  "kind", "amount_micro", "unit", "net_value_micro",
                                  "document_date" } },
    [CRO_RECORDS_COUNTS] = { "stock_count", fill_count,
                             { "id", "date", "item", "amount_micro", "unit", "place" } },
    [CRO_RECORDS_ADJUSTMENTS] = { "adjustment", fill_adjustment,
                                  { "id", "date", "kind", "item", "amount_micro", "unit",
                                    "net_value_micro", "note" } },
  };
  g_autoptr (GHashTable) selling = NULL, in_force = NULL, answers = NULL;
  CroReading self = { .book = book, .model = cro_book_get_model (book), .rows = rows, .texts = texts, .since = since };

  if (kind == CRO_RECORDS_SALES)
    {
      self.selling = selling = cro_selling_steps_all (book, error);
      if (selling == NULL)
        return FALSE;
    }
  if (kind == CRO_RECORDS_RATES)
    {
      self.in_force = in_force = cro_rates_in_force (book, error);
      if (in_force == NULL)
        return FALSE;
    }
  if (kind == CRO_RECORDS_OFFERS)
    {
      self.answers = answers = cro_price_answers_new (cro_book_get_store (book), 0, error);
      return answers != NULL && cro_reading_offers (&self, error);
    }
  if (kind == CRO_RECORDS_MONTHS)
    return cro_reading_months (&self, error);
  if (kind == CRO_RECORDS_PLATES)
    return cro_reading_plates (&self, error);
  if (kind == CRO_RECORDS_PREPARATIONS)
    return cro_reading_preparations (&self, error);
  if (kind == CRO_RECORDS_INGREDIENTS)
    return cro_reading_ingredients (&self, error);
  if (kind == CRO_RECORDS_MOVES)
    return cro_reading_moves (&self, error);
  if (kind == CRO_RECORDS_MOVED)
    return cro_reading_moved (&self, error);
  if (kind == CRO_RECORDS_INDICES)
    return cro_reading_indices (&self, error);
  if (!cro_reading_table (&self, tables[kind].table, tables[kind].columns, tables[kind].fill, error))
    return FALSE;
  if (kind == CRO_RECORDS_DOCUMENTS)
    join_documents (&self);
  return TRUE;
}
