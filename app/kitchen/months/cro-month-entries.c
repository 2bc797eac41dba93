#include "cro-month-entries.h"

#include <string.h>

#include "cro-code.h"
#include "cro-here.h"
#include "cro-month-booked.h"
#include "cro-month-private.h"
#include "cro-not-set.h"
#include "cro-row-date.h"

CroDate
cro_month_first_of (CroDate day)
{
  int year, month, of_month;

  cro_date_to_civil (day, &year, &month, &of_month);
  return day - of_month + 1;
}

CroDate
cro_month_next (CroDate first)
{
  return cro_month_first_of (first + 31);
}

void
cro_month_format (CroDate first,
                  char    text[CRO_MONTH_CHARS])
{
  char day[CRO_DATE_CHARS];

  cro_date_format (first, day);
  memcpy (text, day, CRO_MONTH_CHARS - 1);
  text[CRO_MONTH_CHARS - 1] = '\0';
}

/* --- Rows of table months ------------------------------------------------------------------- */

static void
row_free (gpointer data)
{
  CroMonthRow *row = data;

  g_free (row->closed_at);
  g_free (row->hash);
  g_free (row);
}

static gboolean
take_row (CroRows   *rows,
          gpointer   user_data,
          GError   **error)
{
  CroMonthRow *row = g_new0 (CroMonthRow, 1);
  const char *month = cro_rows_get_text (rows, 1);

  row->id = cro_rows_get_int (rows, 0);
  row->first = CRO_NO_DAY;
  if (month != NULL)
    cro_month_parse (month, strlen (month), &row->first);
  row->till_net = cro_row_number (rows, 2);
  row->till_gross = cro_row_number (rows, 3);
  row->ledger = cro_row_number (rows, 4);
  row->recipes_on = cro_row_date (rows, 5);
  row->closing_stock = cro_row_number (rows, 6);
  row->estimate = cro_row_number (rows, 7);
  row->is_closed = !cro_rows_is_null (rows, 8);
  row->closed_at = g_strdup (cro_rows_get_text (rows, 8));
  row->hash = g_strdup (cro_rows_get_text (rows, 9));
  row->is_reopened = !row->is_closed && !cro_rows_is_null (rows, 10);
  g_ptr_array_add (user_data, row);
  return TRUE;
}

static int
compare_rows (gconstpointer a,
              gconstpointer b)
{
  const CroMonthRow *x = *(CroMonthRow *const *) a, *y = *(CroMonthRow *const *) b;

  return x->first < y->first ? -1 : x->first > y->first;
}

GPtrArray *
cro_month_rows_read (CroBook  *book,
                     GError  **error)
{
  static const char *const columns[] = {
    "id", "month", "till_net_revenue_micro", "till_gross_revenue_micro", "ledger_purchases_micro",
    "recipes_on", "closing_stock_value_micro", "late_estimate_micro", "closed_at", "hash",
    "reason", NULL
  };
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (row_free);

  if (!cro_store_read_each (cro_book_get_store (book), "month", columns, take_row, rows, error))
    return NULL;
  g_ptr_array_sort (rows, compare_rows);
  return g_steal_pointer (&rows);
}

CroMonthRow *
cro_month_rows_find (GPtrArray *rows,
                     CroDate    first)
{
  for (guint i = 0; i < rows->len; i++)
    if (((CroMonthRow *) rows->pdata[i])->first == first)
      return rows->pdata[i];
  return NULL;
}

gboolean
cro_month_rows_are_late (GPtrArray *rows,
                         CroDate    day)
{
  const CroMonthRow *row = cro_month_rows_find (rows, cro_month_first_of (day));

  return row != NULL && row->is_closed;
}

static CroMonthRow *
dup_row (GPtrArray *rows,
         CroDate    first)
{
  const CroMonthRow *found = cro_month_rows_find (rows, first);
  CroMonthRow *row = g_new0 (CroMonthRow, 1);

  *row = found != NULL ? *found
                       : (CroMonthRow){ .first = first, .till_net = CRO_NOT_SET,
                                        .till_gross = CRO_NOT_SET, .ledger = CRO_NOT_SET,
                                        .recipes_on = CRO_NO_DAY, .closing_stock = CRO_NOT_SET,
                                        .estimate = CRO_NOT_SET };
  row->closed_at = g_strdup (row->closed_at);
  row->hash = g_strdup (row->hash);
  return row;
}

/* --- Records -------------------------------------------------------------------------------- */

typedef struct
{
  CroMonthEntries *entries;
  CroMonthBooked  *booked;
  GHashTable      *counted_on;  /* days at the end of months before, GINT_TO_POINTER */
} Reading;

static gboolean
is_within (Reading *self,
           CroDate  date)
{
  return date >= self->entries->first && date <= self->entries->last;
}

static const char *
keep_text (Reading *self,
           CroRows *rows,
           int      column)
{
  const char *text = cro_rows_get_text (rows, column);

  return text != NULL ? g_string_chunk_insert_const (self->entries->texts, text) : NULL;
}

gboolean
cro_month_read_unit (CroRows  *rows,
                     int       column,
                     CroUnit  *unit,
                     GError  **error)
{
  const char *text = cro_rows_get_text (rows, column);

  *unit = CRO_UNIT_G;
  if (text == NULL || cro_unit_parse (text, strlen (text), unit))
    return TRUE;
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED, "“%s” is no unit", text);
  return FALSE;
}

gboolean
cro_month_read_kind (const char *const  *codes,
                     const char         *text,
                     guint              *kind,
                     GError            **error)
{
  if (cro_code_find (codes, text, kind))
    return TRUE;
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED, "“%s” is no kind of %s", text != NULL ? text : "",
               codes == cro_purchase_kind_codes ? "purchase" : "adjustment");
  return FALSE;
}

static gboolean
take_sale (CroRows   *rows,
           gpointer   user_data,
           GError   **error)
{
  Reading *self = user_data;
  CroMonthSale sale = { .date = cro_row_date (rows, 0) };

  if (!is_within (self, sale.date))
    return TRUE;
  sale.thing = cro_rows_is_null (rows, 1) ? 0 : cro_rows_get_int (rows, 1);
  sale.other = keep_text (self, rows, 2);
  sale.sold = cro_rows_get_int (rows, 3);
  sale.has_revenue = !cro_rows_is_null (rows, 4);
  sale.revenue = sale.has_revenue ? cro_rows_get_int (rows, 4) : 0;
  g_array_append_val (self->entries->sales, sale);
  return TRUE;
}

static gboolean
ends_month (CroDate day)
{
  return cro_month_first_of (day + 1) == day + 1;
}

/* That of the opening, too. CRO_NO_DAY: it never was. */
static CroDate
last_counted (const CroMonthEntries *self,
              gint64                 item)
{
  gpointer day;

  return g_hash_table_lookup_extended (self->last_counted, &item, NULL, &day) ? GPOINTER_TO_INT (day) : CRO_NO_DAY;
}

static void
note_counted (Reading *self,
              gint64   item,
              CroDate  day)
{
  g_hash_table_add (self->counted_on, GINT_TO_POINTER (day));
  if (day > last_counted (self->entries, item))
    g_hash_table_insert (self->entries->last_counted, g_memdup2 (&item, sizeof item), GINT_TO_POINTER (day));
}

/* Where a count of that day goes; NULL: nowhere. */
static GArray *
counts_of (CroMonthEntries *self,
           CroDate          day)
{
  const CroDate ends[] = { self->first - 1, self->last };

  if (day == self->last || day == self->first - 1)
    return day == self->last ? self->closing : self->opening;
  for (gsize i = 0; i < G_N_ELEMENTS (ends); i++)
    if (day > ends[i] && day <= ends[i] + CRO_MONTH_MORNINGS)
      return self->counted_after[i];
  return day < self->first && ends_month (day) ? self->was_counted : NULL;
}

static gboolean
take_count (CroRows   *rows,
            gpointer   user_data,
            GError   **error)
{
  Reading *self = user_data;
  CroMonthEntries *entries = self->entries;
  CroMonthCount count = { .date = cro_row_date (rows, 0) };
  GArray *into = counts_of (entries, count.date);

  if (into == NULL)
    return TRUE;
  count.item = cro_rows_get_int (rows, 1);
  count.amount = cro_rows_get_int (rows, 2);
  if (!cro_month_read_unit (rows, 3, &count.unit, error))
    return FALSE;
  count.place = keep_text (self, rows, 4);
  g_array_append_val (into, count);
  if (into == entries->opening || into == entries->was_counted)
    note_counted (self, count.item, count.date);
  return TRUE;
}

static CroDate
settled_on (const CroMonthEntries *self)
{
  return self->settled != NULL ? cro_month_next (self->settled->first) - 1 : CRO_NO_DAY;
}

static int
compare_counts (gconstpointer a,
                gconstpointer b)
{
  const CroMonthCount *x = a, *y = b;

  return x->date < y->date ? -1 : x->date > y->date;
}

/* Once all counts are read. A stock that was entered as one sum tells of no item. */
static void
keep_last_counts (Reading   *self,
                  GPtrArray *rows)
{
  CroMonthEntries *entries = self->entries;
  guint n = 0;

  for (guint i = rows->len; i > 0 && entries->settled == NULL; i--)
    {
      const CroMonthRow *row = rows->pdata[i - 1];

      if (row->first < entries->first && row->is_closed && row->closing_stock == CRO_NOT_SET
          && g_hash_table_contains (self->counted_on, GINT_TO_POINTER (cro_month_next (row->first) - 1)))
        entries->settled = dup_row (rows, row->first);
    }
  for (guint i = 0; i < entries->was_counted->len; i++)
    {
      CroMonthCount *counts = (CroMonthCount *) (gpointer) entries->was_counted->data;

      if (counts[i].date >= settled_on (entries) && counts[i].date == last_counted (entries, counts[i].item))
        counts[n++] = counts[i];
    }
  g_array_set_size (entries->was_counted, n);
  g_array_sort (entries->was_counted, compare_counts);
}

/* Nothing that is asked when a closed month was closed is asked once more. */
static gboolean
is_since_counted (const CroMonthEntries *self,
                  gint64                 item,
                  CroDate                day)
{
  return day > settled_on (self) && day > last_counted (self, item);
}

void
cro_month_add_within (gint64 *sum,
                      gint64  number)
{
  if (__builtin_add_overflow (*sum, number, sum))
    *sum = number > 0 ? G_MAXINT64 : -G_MAXINT64;
}

gboolean
cro_month_purchase_came (gboolean has_amount,
                         gint64   amount,
                         gint64   value)
{
  return has_amount ? amount > 0 : value > 0;
}

/* Since it was counted last. */
static gboolean
note_bought (Reading  *self,
             CroRows  *rows,
             CroDate   date,
             GError  **error)
{
  CroMonthEntries *entries = self->entries;
  CroMonthWasBought *bought;
  gint64 item;
  guint kind;

  if (date >= entries->first || cro_rows_is_null (rows, 4)
      || !is_since_counted (entries, cro_rows_get_int (rows, 4), date))
    return TRUE;
  if (!cro_month_read_kind (cro_purchase_kind_codes, cro_rows_get_text (rows, 6), &kind, error))
    return FALSE;
  if (kind != 0)
    return TRUE;
  item = cro_rows_get_int (rows, 4);
  bought = g_hash_table_lookup (entries->was_bought, &item);
  if (bought == NULL)
    {
      bought = g_new0 (CroMonthWasBought, 1);
      g_hash_table_insert (entries->was_bought, g_memdup2 (&item, sizeof item), bought);
    }
  cro_month_add_within (&bought->money, cro_rows_get_int (rows, 9));
  bought->came |= cro_month_purchase_came (!cro_rows_is_null (rows, 7),
                                           cro_rows_is_null (rows, 7) ? 0 : cro_rows_get_int (rows, 7),
                                           cro_rows_get_int (rows, 9));
  return TRUE;
}

static gboolean
take_purchase (CroRows   *rows,
               gpointer   user_data,
               GError   **error)
{
  Reading *self = user_data;
  CroMonthEntries *entries = self->entries;
  CroMonthPurchase purchase = { .date = cro_row_date (rows, 0) };

  if (!note_bought (self, rows, purchase.date, error))
    return FALSE;
  if (!is_within (self, purchase.date) && !cro_month_booked_is_of (self->booked, purchase.date))
    return TRUE;
  if (!cro_month_read_kind (cro_purchase_kind_codes, cro_rows_get_text (rows, 6), &purchase.kind, error))
    return FALSE;
  purchase.value = cro_rows_get_int (rows, 9);
  if (!is_within (self, purchase.date))
    cro_month_booked_add (self->booked, purchase.date, purchase.kind, purchase.value);
  if (purchase.date > entries->last)
    return TRUE;
  purchase.document_date = keep_text (self, rows, 1);
  purchase.supplier = cro_rows_is_null (rows, 2) ? 0 : cro_rows_get_int (rows, 2);
  purchase.document = keep_text (self, rows, 3);
  purchase.ingredient = cro_rows_is_null (rows, 4) ? 0 : cro_rows_get_int (rows, 4);
  purchase.category = keep_text (self, rows, 5);
  purchase.has_amount = !cro_rows_is_null (rows, 7);
  purchase.amount = purchase.has_amount ? cro_rows_get_int (rows, 7) : 0;
  if (!cro_month_read_unit (rows, 8, &purchase.unit, error))
    return FALSE;
  g_array_append_val (purchase.date < entries->first ? entries->before_that : entries->purchases, purchase);
  return TRUE;
}

static gboolean
take_adjustment (CroRows   *rows,
                 gpointer   user_data,
                 GError   **error)
{
  Reading *self = user_data;
  CroMonthEntries *entries = self->entries;
  CroMonthAdjustment adjustment = { .date = cro_row_date (rows, 0) };
  gboolean is_before;

  adjustment.item = cro_rows_is_null (rows, 2) ? 0 : cro_rows_get_int (rows, 2);
  is_before = adjustment.date < entries->first && adjustment.item != 0
              && is_since_counted (entries, adjustment.item, adjustment.date);
  if (!is_within (self, adjustment.date) && !is_before)
    return TRUE;
  if (!cro_month_read_kind (cro_adjustment_kind_codes, cro_rows_get_text (rows, 1), &adjustment.kind, error))
    return FALSE;
  if (is_before && cro_month_sign_of (adjustment.kind) <= 0)
    return TRUE;
  adjustment.has_amount = !cro_rows_is_null (rows, 3);
  adjustment.amount = adjustment.has_amount ? cro_rows_get_int (rows, 3) : 0;
  if (!cro_month_read_unit (rows, 4, &adjustment.unit, error))
    return FALSE;
  adjustment.has_value = !cro_rows_is_null (rows, 5);
  adjustment.value = adjustment.has_value ? cro_rows_get_int (rows, 5) : 0;
  adjustment.note = keep_text (self, rows, 6);
  adjustment.id = cro_rows_get_int (rows, 7);
  g_array_append_val (is_before ? entries->came_in : entries->adjustments, adjustment);
  return TRUE;
}

static int
compare_purchases (gconstpointer a,
                   gconstpointer b)
{
  const CroMonthPurchase *x = a, *y = b;

  return x->date < y->date ? -1 : x->date > y->date;
}

static int
compare_adjustments (gconstpointer a,
                     gconstpointer b)
{
  const CroMonthAdjustment *x = a, *y = b;

  return x->date < y->date ? -1 : x->date > y->date;
}

static int
compare_sales (gconstpointer a,
               gconstpointer b)
{
  const CroMonthSale *x = a, *y = b;

  if (x->date != y->date)
    return x->date < y->date ? -1 : 1;
  return x->thing < y->thing ? -1 : x->thing > y->thing;
}

static gboolean
read_all (CroBook          *book,
          CroMonthEntries  *self,
          GPtrArray        *rows,
          GError          **error)
{
  static const char *const sales[] = { "date", "thing", "other", "sold_micro", "net_revenue_micro",
                                       NULL };
  static const char *const counts[] = { "date", "item", "amount_micro", "unit", "place", NULL };
  static const char *const purchases[] = {
    "date", "document_date", "supplier", "document", "ingredient", "category", "kind",
    "amount_micro", "unit", "net_value_micro", NULL
  };
  static const char *const adjustments[] = { "date", "kind", "item", "amount_micro", "unit",
                                             "net_value_micro", "note", "id", NULL };
  CroStore *store = cro_book_get_store (book);
  g_autoptr (CroMonthBooked) booked = cro_month_booked_new (book, self, rows, error);
  g_autoptr (GHashTable) counted_on = g_hash_table_new (NULL, NULL);
  Reading reading = { self, booked, counted_on };

  if (booked == NULL || !cro_store_read_each (store, "sale", sales, take_sale, &reading, error)
      || !cro_store_read_each (store, "stock_count", counts, take_count, &reading, error))
    return FALSE;
  keep_last_counts (&reading, rows);
  if (!cro_store_read_each (store, "purchase", purchases, take_purchase, &reading, error)
      || !cro_store_read_each (store, "adjustment", adjustments, take_adjustment, &reading, error))
    return FALSE;
  cro_month_booked_settle (booked);
  return TRUE;
}

CroMonthEntries *
cro_month_entries_new (CroBook  *book,
                       CroDate   first,
                       GError  **error)
{
  g_autoptr (CroMonthEntries) self = g_new0 (CroMonthEntries, 1);
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);

  self->first = first;
  self->last = cro_month_next (first) - 1;
  self->texts = g_string_chunk_new (1024);
  self->sales = g_array_new (FALSE, FALSE, sizeof (CroMonthSale));
  self->opening = g_array_new (FALSE, FALSE, sizeof (CroMonthCount));
  self->closing = g_array_new (FALSE, FALSE, sizeof (CroMonthCount));
  self->was_counted = g_array_new (FALSE, FALSE, sizeof (CroMonthCount));
  self->came_in = g_array_new (FALSE, FALSE, sizeof (CroMonthAdjustment));
  self->was_bought = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  self->last_counted = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (self->counted_after); i++)
    self->counted_after[i] = g_array_new (FALSE, FALSE, sizeof (CroMonthCount));
  self->earlier_of = g_array_new (FALSE, FALSE, sizeof (CroMonthShare));
  self->later = g_array_new (FALSE, FALSE, sizeof (CroMonthShare));
  self->reversed_of = g_array_new (FALSE, FALSE, sizeof (CroMonthShare));
  self->taken = CRO_NOT_SET;
  self->gone = g_array_new (FALSE, FALSE, sizeof (CroDate));
  self->purchases = g_array_new (FALSE, FALSE, sizeof (CroMonthPurchase));
  self->before_that = g_array_new (FALSE, FALSE, sizeof (CroMonthPurchase));
  self->adjustments = g_array_new (FALSE, FALSE, sizeof (CroMonthAdjustment));
  if (rows == NULL)
    return NULL;
  self->row = dup_row (rows, first);
  self->before = dup_row (rows, cro_month_first_of (first - 1));
  if (!read_all (book, self, rows, error))
    return NULL;
  g_array_sort (self->sales, compare_sales);
  g_array_sort (self->purchases, compare_purchases);
  g_array_sort (self->before_that, compare_purchases);
  g_array_sort (self->adjustments, compare_adjustments);
  g_array_sort (self->came_in, compare_adjustments);
  return g_steal_pointer (&self);
}

/* --- Which months there are ----------------------------------------------------------------- */

static gboolean
take_month (CroRows   *rows,
            gpointer   user_data,
            GError   **error)
{
  CroDate date = cro_row_date (rows, 0);

  if (date != CRO_NO_DAY)
    g_hash_table_add (user_data, GINT_TO_POINTER (cro_month_first_of (date)));
  return TRUE;
}

static int
compare_newest (gconstpointer a,
                gconstpointer b)
{
  CroDate x = *(const CroDate *) a, y = *(const CroDate *) b;

  return x > y ? -1 : x < y;
}

/* A house that was shut recorded nothing; what came late for the closed month before is booked then all the same. */
static gboolean
add_shut (CroBook     *book,
          GPtrArray   *rows,
          GHashTable  *firsts,
          GError     **error)
{
  for (guint i = 0; i < rows->len; i++)
    {
      const CroMonthRow *row = rows->pdata[i];
      CroDate next = cro_month_next (row->first);
      g_autoptr (CroMonthEntries) entries = NULL;

      if (!row->is_closed || next > cro_here_today () || g_hash_table_contains (firsts, GINT_TO_POINTER (next)))
        continue;
      entries = cro_month_entries_new (book, next, error);
      if (entries == NULL)
        return FALSE;
      if (cro_month_entries_have_late (entries))
        g_hash_table_add (firsts, GINT_TO_POINTER (next));
    }
  return TRUE;
}

GArray *
cro_months_list (CroBook  *book,
                 GError  **error)
{
  static const char *const tables[] = { "sale", "stock_count", "purchase", "adjustment" };
  static const char *const columns[] = { "date", NULL };
  g_autoptr (GHashTable) firsts = g_hash_table_new (NULL, NULL);
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  GArray *months;
  GHashTableIter iter;
  gpointer first;

  if (rows == NULL)
    return NULL;
  for (guint i = 0; i < rows->len; i++)
    g_hash_table_add (firsts, GINT_TO_POINTER (((const CroMonthRow *) rows->pdata[i])->first));
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    if (!cro_store_read_each (cro_book_get_store (book), tables[i], columns, take_month, firsts, error))
      return NULL;
  if (!add_shut (book, rows, firsts, error))
    return NULL;
  months = g_array_new (FALSE, FALSE, sizeof (CroDate));
  g_hash_table_iter_init (&iter, firsts);
  while (g_hash_table_iter_next (&iter, &first, NULL))
    {
      CroDate day = GPOINTER_TO_INT (first);

      g_array_append_val (months, day);
    }
  g_array_sort (months, compare_newest);
  return months;
}

static gboolean
is_any_money (const gint64 money[CRO_N_PURCHASE_KINDS])
{
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    if (money[k] != 0)
      return TRUE;
  return FALSE;
}

gboolean
cro_month_entries_have_late (const CroMonthEntries *self)
{
  for (guint i = 0; i < self->earlier_of->len; i++)
    if (is_any_money (g_array_index (self->earlier_of, CroMonthShare, i).money))
      return TRUE;
  return is_any_money (self->earlier) || self->reversed != 0;
}

gboolean
cro_month_entries_are_empty (const CroMonthEntries *self)
{
  return self->sales->len + self->closing->len + self->purchases->len
             + self->adjustments->len
             == 0
         && self->row->id == 0 && !cro_month_entries_have_late (self);
}

void
cro_month_entries_free (CroMonthEntries *self)
{
  g_clear_pointer (&self->row, row_free);
  g_clear_pointer (&self->before, row_free);
  g_array_unref (self->sales);
  g_array_unref (self->opening);
  g_array_unref (self->closing);
  g_array_unref (self->was_counted);
  g_hash_table_unref (self->was_bought);
  g_clear_pointer (&self->settled, row_free);
  g_hash_table_unref (self->last_counted);
  for (gsize i = 0; i < G_N_ELEMENTS (self->counted_after); i++)
    g_array_unref (self->counted_after[i]);
  g_array_unref (self->earlier_of);
  g_array_unref (self->later);
  g_array_unref (self->reversed_of);
  g_array_unref (self->gone);
  g_array_unref (self->purchases);
  g_array_unref (self->before_that);
  g_array_unref (self->adjustments);
  g_array_unref (self->came_in);
  g_string_chunk_free (self->texts);
  g_free (self);
}
