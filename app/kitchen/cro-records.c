#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-words.h"

struct _CroRecords
{
  GObject         parent_instance;

  CroBook        *book;
  CroRecordsKind  kind;
  GArray         *rows;       /* CroRecordRow */
  GStringChunk   *texts;
  GArray         *shown;      /* guint32: indices of rows, as the list has them */
  guint           serial;     /* of these rows */
  guint           column;     /* it is sorted by; G_MAXUINT: by none */
  gboolean        falling;
  CroQuery       *query;
  gint32          month;      /* G_MININT32: all */

  /* What the rows were read of: they are read anew when one of these has moved. */
  gint64          change;
  CroDate         date;
  guint           model;
};

struct _CroRecord
{
  GObject     parent_instance;

  CroRecords *records;
  guint       serial;
  guint32     index;
};

static void cro_records_list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (CroRecords, cro_records, G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL,
                                                      cro_records_list_model_init))
G_DEFINE_FINAL_TYPE (CroRecord, cro_record, G_TYPE_OBJECT)

/* --- Columns -------------------------------------------------------------------------------------- */

static const struct { const char *title; CroValueKind kind; } columns[CRO_N_RECORDS][CRO_RECORD_MOST]
    = {
  [CRO_RECORDS_OFFERS] = {
    { N_("Ingredient"), CRO_VALUE_TEXT },
    { N_("Supplier"), CRO_VALUE_TEXT },
    /* Translators: a supplier's number for a pack. */
    { N_("Code"), CRO_VALUE_TEXT },
    { N_("Pack"), CRO_VALUE_TEXT },
    { N_("Price of the pack"), CRO_VALUE_MONEY },
    { N_("Per kg, l or piece"), CRO_VALUE_UNIT_COST },
    /* Translators: the day from which a price holds. */
    { N_("Since"), CRO_VALUE_DATE },
    { N_("Change"), CRO_VALUE_PCT },
    /* Translators: whether a pack is the one that costs are taken from. */
    { N_("Counts"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_SUPPLIERS] = {
    { N_("Supplier"), CRO_VALUE_TEXT },
    { N_("Contact"), CRO_VALUE_TEXT },
    { N_("Packs"), CRO_VALUE_COUNT },
    { N_("Note"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_RATES] = {
    { N_("Currency"), CRO_VALUE_TEXT },
    { N_("Since"), CRO_VALUE_DATE },
    { N_("Rate"), CRO_VALUE_DECIMAL },
    /* Translators: for how many units of the currency the rate is. */
    { N_("For"), CRO_VALUE_DECIMAL },
  },
  [CRO_RECORDS_MONTHS] = {
    { N_("Month"), CRO_VALUE_MONTH },
    { N_("Things sold"), CRO_VALUE_DECIMAL },
    { N_("Net sales entered"), CRO_VALUE_MONEY },
    { N_("Till says"), CRO_VALUE_MONEY },
    { N_("Purchases, net"), CRO_VALUE_MONEY },
    { N_("Ledger says"), CRO_VALUE_MONEY },
    { N_("Lines counted"), CRO_VALUE_COUNT },
    { N_("Adjustments"), CRO_VALUE_COUNT },
    { N_("Closed"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_SALES] = {
    { N_("Date"), CRO_VALUE_DATE },
    { N_("Plate or menu"), CRO_VALUE_TEXT },
    { N_("Sold"), CRO_VALUE_DECIMAL },
    { N_("Net revenue"), CRO_VALUE_MONEY },
  },
  [CRO_RECORDS_PURCHASES] = {
    { N_("Date"), CRO_VALUE_DATE },
    { N_("Supplier"), CRO_VALUE_TEXT },
    /* Translators: the number of an invoice or a delivery note. */
    { N_("Document"), CRO_VALUE_TEXT },
    { N_("Ingredient"), CRO_VALUE_TEXT },
    { N_("Category"), CRO_VALUE_TEXT },
    { N_("Kind"), CRO_VALUE_TEXT },
    { N_("Amount"), CRO_VALUE_AMOUNT },
    { N_("Net value"), CRO_VALUE_MONEY },
  },
  [CRO_RECORDS_COUNTS] = {
    { N_("Date"), CRO_VALUE_DATE },
    { N_("Item"), CRO_VALUE_TEXT },
    { N_("Amount"), CRO_VALUE_AMOUNT },
    { N_("Where"), CRO_VALUE_TEXT },
  },
  [CRO_RECORDS_ADJUSTMENTS] = {
    { N_("Date"), CRO_VALUE_DATE },
    { N_("Kind"), CRO_VALUE_TEXT },
    { N_("Item"), CRO_VALUE_TEXT },
    { N_("Amount"), CRO_VALUE_AMOUNT },
    { N_("Net value"), CRO_VALUE_MONEY },
    { N_("Note"), CRO_VALUE_TEXT },
  },
};

guint
cro_records_n_columns (CroRecordsKind kind)
{
  guint n = 0;

  while (n < CRO_RECORD_MOST && columns[kind][n].title != NULL)
    n++;
  return n;
}

const char *
cro_records_title (CroRecordsKind kind,
                   guint          column)
{
  return _(columns[kind][column].title);
}

gboolean
cro_records_is_number (CroRecordsKind kind,
                       guint          column)
{
  CroValueKind value = columns[kind][column].kind;

  return value != CRO_VALUE_TEXT && value != CRO_VALUE_DATE && value != CRO_VALUE_MONTH;
}

/* --- Texts ------------------------------------------------------------------------------------------ */

static char *
money_in (CroModel   *model,
          double      number,
          const char *currency)
{
  int digits = cro_currency_digits (currency);
  g_autofree char *text = NULL;

  if (currency == NULL)
    return cro_words_money (model, number);
  text = cro_money_to_text (cro_money_round (number, digits), digits);
  return g_strdup_printf ("%s %s", text, currency);
}

static char *
signed_pct (double pct)
{
  g_autofree char *text = cro_pct_to_text (fabs (pct), 1);

  return g_strdup_printf ("%s%s", pct > 0 ? "+" : pct < 0 ? "−" : "", text);
}

static CroBase
base_of (const char *code)
{
  CroUnit unit = CRO_UNIT_G;

  cro_unit_parse (code, strlen (code), &unit);
  return cro_unit_get (unit)->base;
}

static char *
month_text (CroDate first_day)
{
  int year, month, day;
  g_autoptr (GDateTime) moment = NULL;

  cro_date_to_civil (first_day, &year, &month, &day);
  moment = g_date_time_new_utc (year, month, day, 0, 0, 0);
  /* Translators: a month and its year, as strftime takes it. */
  return g_date_time_format (moment, _("%B %Y"));
}

static char *
value_text (CroModel       *model,
            CroValueKind    kind,
            const CroValue *value)
{
  g_autofree char *number = NULL;

  if (kind == CRO_VALUE_TEXT)
    return g_strdup (value->text != NULL ? value->text : "");
  if (isnan (value->number))
    return g_strdup ("–");
  switch (kind)
    {
    case CRO_VALUE_DATE:
      return cro_date_to_text ((CroDate) value->number);
    case CRO_VALUE_MONTH:
      return month_text ((CroDate) value->number);
    case CRO_VALUE_MONEY:
      return money_in (model, value->number, value->text);
    case CRO_VALUE_DECIMAL:
      return cro_words_decimal ((gint64) value->number);
    case CRO_VALUE_COUNT:
      return cro_number_to_text (value->number, 0, TRUE);
    case CRO_VALUE_PCT:
      return signed_pct (value->number);
    case CRO_VALUE_UNIT_COST:
      return cro_words_unit_cost (model, base_of (value->text), value->number);
    default:
      number = cro_words_decimal ((gint64) value->number);
      return g_strdup_printf ("%s %s", number, value->text);
    }
}

/* --- Order ------------------------------------------------------------------------------------------- */

typedef struct
{
  const CroRecordRow *rows;
  char              **keys;     /* of a column of texts, by row */
  guint               column;
  int                 sign;
} Sorting;

static int
compare_rows (gconstpointer a,
              gconstpointer b,
              gpointer      user_data)
{
  const Sorting *sorting = user_data;
  guint32 x = *(const guint32 *) a, y = *(const guint32 *) b;
  double p, q;
  int order;

  if (sorting->keys != NULL)
    {
      const char *k = sorting->keys[x], *l = sorting->keys[y];

      if ((k == NULL) != (l == NULL))
        return k == NULL ? 1 : -1;
      order = k != NULL ? strcmp (k, l) : 0;
    }
  else
    {
      p = sorting->rows[x].values[sorting->column].number;
      q = sorting->rows[y].values[sorting->column].number;
      if (isnan (p) != isnan (q))
        return isnan (p) ? 1 : -1;
      order = p < q ? -1 : p > q;
    }
  return order != 0 ? order * sorting->sign : x < y ? -1 : x > y;
}

static void
sort (CroRecords *self)
{
  Sorting sorting = { (const CroRecordRow *) self->rows->data, NULL, self->column,
                      self->falling ? -1 : 1 };

  if (self->column == G_MAXUINT)
    return;
  if (columns[self->kind][self->column].kind == CRO_VALUE_TEXT)
    {
      sorting.keys = g_new0 (char *, self->rows->len + 1);
      for (guint i = 0; i < self->rows->len; i++)
        if (sorting.rows[i].values[self->column].text != NULL)
          sorting.keys[i] = g_utf8_collate_key (sorting.rows[i].values[self->column].text, -1);
    }
  g_array_sort_with_data (self->shown, compare_rows, &sorting);
  for (guint i = 0; sorting.keys != NULL && i < self->rows->len; i++)
    g_free (sorting.keys[i]);
  g_free (sorting.keys);
}

static gboolean
is_shown (CroRecords         *self,
          const CroRecordRow *row)
{
  g_autoptr (GString) all = NULL;
  g_autofree char *folded = NULL;

  if (self->month != G_MININT32 && row->month != self->month)
    return FALSE;
  if (self->query == NULL)
    return TRUE;
  all = g_string_new (NULL);
  for (guint c = 0; c < cro_records_n_columns (self->kind); c++)
    if (columns[self->kind][c].kind == CRO_VALUE_TEXT && row->values[c].text != NULL)
      g_string_append_printf (all, " %s", row->values[c].text);
  folded = cro_fold (all->str);
  return cro_query_match (self->query, folded) != CRO_MATCH_NONE;
}

static void
choose (CroRecords *self)
{
  guint before = self->shown->len;

  g_array_set_size (self->shown, 0);
  for (guint32 i = 0; i < self->rows->len; i++)
    if (is_shown (self, &g_array_index (self->rows, CroRecordRow, i)))
      g_array_append_val (self->shown, i);
  sort (self);
  g_list_model_items_changed (G_LIST_MODEL (self), 0, before, self->shown->len);
}

/* --- Reading ------------------------------------------------------------------------------------------- */

static void
read_anew (CroRecords *self)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (CroRecordRow));
  GStringChunk *texts = g_string_chunk_new (4096);

  if (!cro_records_read (self->book, self->kind, rows, texts, NULL))
    {
      g_string_chunk_free (texts);
      return;
    }
  g_array_unref (self->rows);
  g_string_chunk_free (self->texts);
  self->rows = g_steal_pointer (&rows);
  self->texts = texts;
  self->serial++;
  choose (self);
}

static void
book_changed_cb (CroRecords *self)
{
  gint64 change = cro_store_last_change (cro_book_get_store (self->book));
  CroDate date = cro_book_get_figures (self->book)->date;
  guint model = cro_book_get_model (self->book)->serial;

  if (change == self->change && date == self->date && model == self->model)
    return;
  self->change = change;
  self->date = date;
  self->model = model;
  read_anew (self);
}

/* --- The list --------------------------------------------------------------------------------------------- */

static GType
get_item_type (GListModel *model)
{
  return CRO_TYPE_RECORD;
}

static guint
get_n_items (GListModel *model)
{
  return CRO_RECORDS (model)->shown->len;
}

static gpointer
get_item (GListModel *model,
          guint       position)
{
  CroRecords *self = CRO_RECORDS (model);
  CroRecord *record;

  if (position >= self->shown->len)
    return NULL;
  record = g_object_new (CRO_TYPE_RECORD, NULL);
  record->records = g_object_ref (self);
  record->serial = self->serial;
  record->index = g_array_index (self->shown, guint32, position);
  return record;
}

static void
cro_records_list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

static void
cro_records_finalize (GObject *object)
{
  CroRecords *self = CRO_RECORDS (object);

  g_object_unref (self->book);
  g_array_unref (self->rows);
  g_array_unref (self->shown);
  g_string_chunk_free (self->texts);
  g_clear_pointer (&self->query, cro_query_free);
  G_OBJECT_CLASS (cro_records_parent_class)->finalize (object);
}

static void
cro_records_class_init (CroRecordsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cro_records_finalize;
}

static void
cro_records_init (CroRecords *self)
{
  self->rows = g_array_new (FALSE, FALSE, sizeof (CroRecordRow));
  self->shown = g_array_new (FALSE, FALSE, sizeof (guint32));
  self->texts = g_string_chunk_new (16);
  self->column = G_MAXUINT;
  self->month = G_MININT32;
  self->change = -1;
}

CroRecords *
cro_records_new (CroBook        *book,
                 CroRecordsKind  kind)
{
  CroRecords *self = g_object_new (CRO_TYPE_RECORDS, NULL);

  self->book = g_object_ref (book);
  self->kind = kind;
  g_signal_connect_object (book, "changed", G_CALLBACK (book_changed_cb), self, G_CONNECT_SWAPPED);
  book_changed_cb (self);
  return self;
}

void
cro_records_set_order (CroRecords *self,
                       guint       column,
                       gboolean    falling)
{
  self->column = column;
  self->falling = falling;
  choose (self);
}

void
cro_records_set_search (CroRecords *self,
                        const char *text)
{
  g_clear_pointer (&self->query, cro_query_free);
  self->query = text != NULL ? cro_query_new (text) : NULL;
  choose (self);
}

void
cro_records_set_month (CroRecords *self,
                       const char *month)
{
  CroDate first_day = G_MININT32;

  if (month != NULL)
    cro_month_parse (month, strlen (month), &first_day);
  self->month = first_day;
  choose (self);
}

/* --- One record ------------------------------------------------------------------------------------------ */

static void
cro_record_finalize (GObject *object)
{
  g_object_unref (CRO_RECORD (object)->records);
  G_OBJECT_CLASS (cro_record_parent_class)->finalize (object);
}

static void
cro_record_class_init (CroRecordClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cro_record_finalize;
}

static void
cro_record_init (CroRecord *self)
{
}

/* NULL: the rows were read anew since, and whoever still shows this one is told at once. */
static const CroRecordRow *
row_of (CroRecord *self)
{
  return self->serial == self->records->serial
             ? &g_array_index (self->records->rows, CroRecordRow, self->index)
             : NULL;
}

gint64
cro_record_get_id (CroRecord *self)
{
  const CroRecordRow *row = row_of (self);

  return row != NULL ? row->id : 0;
}

CroRef
cro_record_get_ref (CroRecord *self)
{
  const CroRecordRow *row = row_of (self);

  return row != NULL ? row->ref : CRO_REF_NOWHERE;
}

char *
cro_record_dup_month (CroRecord *self)
{
  const CroRecordRow *row = row_of (self);
  char text[CRO_DATE_CHARS];

  if (row == NULL || row->month == G_MININT32)
    return NULL;
  cro_date_format (row->month, text);
  text[7] = '\0';
  return g_strdup (text);
}

char *
cro_record_dup_text (CroRecord *self,
                     guint      column)
{
  const CroRecordRow *row = row_of (self);
  CroRecords *records = self->records;

  if (row == NULL)
    return g_strdup ("");
  return value_text (cro_book_get_model (records->book), columns[records->kind][column].kind,
                     &row->values[column]);
}
