#include "config.h"

#include "cro-records-private.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-month-booked.h"
#include "cro-month-edit.h"
#include "cro-month-entries.h"
#include "cro-months-table.h"
#include "cro-number.h"

/* The columns, as cro-records-columns.c has them. */
enum
{
  MONTH,
  STATE,
  SOLD,
  NET_SALES,
  TILL,
  TO_THE_TILL,
  PURCHASES,
  LEDGER,
  TO_THE_LEDGER,
};

/* The row of a month, which is made where the book has not entered anything about it yet. */
static CroRecordRow *
month_row (CroReading *self,
           gint32      month)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (g_array_index (self->rows, CroRecordRow, i).month == month)
      return &g_array_index (self->rows, CroRecordRow, i);
  cro_reading_begin (self, 0);
  self->row.month = month;
  self->row.values[MONTH] = cro_reading_number (month);
  /* Translators: of a month. */
  self->row.values[STATE] = cro_reading_text (self, _("open"));
  g_array_append_val (self->rows, self->row);
  return &g_array_index (self->rows, CroRecordRow, self->rows->len - 1);
}

/* Sums over the rows of another kind: column of them; none where that is 0, and the month alone is there. */
static gboolean
add_records (CroReading      *self,
             CroRecordsKind   kind,
             guint            column,
             guint            into,
             GError         **error)
{
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (CroRecordRow));

  if (!cro_records_read (self->book, kind, G_MININT32, rows, self->texts, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      const CroRecordRow *row = &g_array_index (rows, CroRecordRow, i);
      CroRecordRow *month = row->month != G_MININT32 ? month_row (self, row->month) : NULL;

      if (month != NULL && column > 0)
        cro_value_add (&month->values[into], &row->values[column]);
    }
  return TRUE;
}

static void
fill_month (CroReading *self,
            CroRows    *rows)
{
  const char *month = cro_rows_get_text (rows, 1);
  CroDate first_day = G_MININT32;

  cro_month_parse (month, strlen (month), &first_day);
  self->row.month = first_day;
  self->row.values[MONTH] = cro_reading_number (first_day);
  self->row.values[TILL] = cro_reading_money (rows, 2);
  self->row.values[LEDGER] = cro_reading_money (rows, 3);
  self->row.is_closed = !cro_rows_is_null (rows, 4);
  self->row.values[STATE] = cro_reading_text (self, self->row.is_closed ? _("closed") : _("open"));
}

static CroRecordRow *
closed_month (CroReading *self,
              gint64      id)
{
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRecordRow *row = &g_array_index (self->rows, CroRecordRow, i);

      if (row->id == id && row->is_closed)
        return row;
    }
  return NULL;
}

static void
add_frozen (CroRecordRow *row,
            CroRows      *rows)
{
  CroValue sold = cro_reading_micro (rows, 2), net_sales = cro_reading_money (rows, 3);

  if (isnan (net_sales.number) && !isnan (sold.number) && sold.number != 0)
    net_sales.known = sold.number > 0 ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_AT_MOST;
  cro_value_add (&row->values[SOLD], &sold);
  cro_value_add (&row->values[NET_SALES], &net_sales);
}

/* What closing froze takes the place of what would be computed today: a closed month stays, and what
 * comes late is not of it. */
static gboolean
take_frozen (CroReading  *self,
             GError     **error)
{
  static const char *const columns[] = { "month", "part", "sold_micro", "net_revenue_micro", "kind",
                                         "name", "cost_micro", NULL };
  g_autoptr (GHashTable) begun = g_hash_table_new (NULL, NULL), booked = g_hash_table_new (NULL, NULL);
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (self->book), "month_row", columns,
                                             error);
  g_autoptr (GError) failure = NULL;

  if (rows == NULL)
    return FALSE;
  while (cro_rows_next (rows, &failure))
    {
      CroRecordRow *row = closed_month (self, cro_rows_get_int (rows, 0));

      if (row == NULL || !cro_rows_is_null (rows, 1))
        continue;
      if (cro_month_row_is_booked (cro_rows_get_text (rows, 4), cro_rows_get_text (rows, 5)))
        {
          CroValue money = cro_reading_money (rows, 6);

          if (g_hash_table_add (booked, row))
            row->values[PURCHASES] = cro_reading_number (NAN);
          cro_value_add (&row->values[PURCHASES], &money);
        }
      if (g_strcmp0 (cro_rows_get_text (rows, 4), "statement") == 0
          && g_strcmp0 (cro_rows_get_text (rows, 5), "gross-sales") == 0)
        row->values[TO_THE_TILL] = cro_reading_money (rows, 6);
      if (g_hash_table_add (begun, row))
        row->values[SOLD] = row->values[NET_SALES] = cro_reading_number (NAN);
      add_frozen (row, rows);
    }
  if (failure != NULL)
    g_propagate_error (error, g_steal_pointer (&failure));
  return failure == NULL;
}

static void
add_purchases (CroReading *self,
               CroDate     first,
               gint64      micro)
{
  CroValue money = cro_reading_number (cro_decimal_to_double (micro));

  cro_value_add (&month_row (self, first)->values[PURCHASES], &money);
}

/* What is booked in an open month of others, or in others of it: closed ones stand around it. */
static gboolean
add_booked (CroReading  *self,
            GPtrArray   *months,
            CroDate      first,
            GError     **error)
{
  const CroMonthRow *row = cro_month_rows_find (months, first);
  g_autoptr (CroMonthEntries) entries = NULL;

  if (row != NULL && row->is_closed)
    return TRUE;
  entries = cro_month_entries_new (self->book, first, error);
  if (entries == NULL)
    return FALSE;
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    if (entries->earlier[k] != 0)
      add_purchases (self, first, entries->earlier[k]);
  return TRUE;
}

/* The first open month has what came late for the closed ones before it, less what they had estimated; one that was
 * opened again has not what closed ones after it have booked. */
static gboolean
add_late (CroReading  *self,
          GError     **error)
{
  g_autoptr (GPtrArray) months = cro_month_rows_read (self->book, error);
  CroDate done = CRO_NO_DAY;

  for (guint i = 0; months != NULL && i < months->len; i++)
    {
      const CroMonthRow *month = months->pdata[i];
      CroDate before = cro_month_first_of (month->first - 1);

      if (!month->is_closed)
        {
          if (month->estimate != CRO_NOT_SET)
            add_purchases (self, month->first, month->estimate);
          continue;
        }
      if (before != done && !add_booked (self, months, before, error))
        return FALSE;
      done = cro_month_next (month->first);
      if (!add_booked (self, months, done, error))
        return FALSE;
    }
  return months != NULL;
}

/* As it is printed: the column adds up, to what the list of all months says of the same sales. */
static void
round_money (CroReading *self,
             CroValue   *value)
{
  int digits = cro_currency_digits (self->model->currency);

  if (!isnan (value->number))
    value->number = (double) cro_money_round (value->number, digits) / pow (10, digits);
}

/* Ours less theirs, compared as they are printed, in minor units. What is not known of ours may make
 * up for the difference, unless that lies on the other side already. */
static void
compare (CroReading   *self,
         CroRecordRow *row,
         guint         ours,
         guint         theirs,
         guint         into)
{
  int digits = cro_currency_digits (self->model->currency);
  CroKnown known = row->values[ours].known;
  double a = row->values[ours].number, b = row->values[theirs].number;
  gint64 apart;

  if (isnan (a) || isnan (b))
    return;
  apart = cro_money_round (a, digits) - cro_money_round (b, digits);
  row->values[into] = cro_reading_number ((double) apart / pow (10, digits));
  if (known == CRO_KNOWN_WHOLE)
    return;
  row->values[into].known = (known == CRO_KNOWN_AT_LEAST && apart > 0)
                                    || (known == CRO_KNOWN_AT_MOST && apart < 0)
                                ? known
                                : CRO_KNOWN_NOTHING;
}

/* A till that says its total with tax alone is compared with the sales with tax: those that closing froze stand in
 * the difference already. */
static gboolean
compare_with_tax (CroReading         *self,
                  CroRecordRow       *row,
                  const CroMonthRow  *month,
                  GError            **error)
{
  CroValue *apart = &row->values[TO_THE_TILL];
  gboolean is_with_tax = month != NULL && month->till_net == CRO_NOT_SET && month->till_gross != CRO_NOT_SET;
  gboolean is_whole = TRUE;
  double gross = apart->number;

  *apart = cro_reading_number (NAN);
  if (!is_with_tax)
    return TRUE;
  if (!row->is_closed && !cro_month_gross_sales (self->book, row->month, &gross, &is_whole, error))
    return FALSE;
  if (is_whole && !isnan (gross))
    {
      int digits = cro_currency_digits (self->model->currency);
      gint64 minor = cro_money_apart (gross, cro_decimal_to_double (month->till_gross), digits);

      *apart = cro_reading_number ((double) minor / pow (10, digits));
    }
  return TRUE;
}

static int
newest_first (gconstpointer a,
              gconstpointer b)
{
  gint32 x = ((const CroRecordRow *) a)->month, y = ((const CroRecordRow *) b)->month;

  return x < y ? 1 : x > y ? -1 : 0;
}

gboolean
cro_reading_months (CroReading  *self,
                    GError     **error)
{
  static const char *const columns[] = { "id", "month", "till_net_revenue_micro",
                                         "ledger_purchases_micro", "closed_at", NULL };
  static const guint printed[] = { NET_SALES, TILL, PURCHASES, LEDGER };
  g_autoptr (GPtrArray) months = cro_month_rows_read (self->book, error);

  if (months == NULL || !cro_reading_table (self, "month", columns, fill_month, error)
      || !add_records (self, CRO_RECORDS_SALES, 2, SOLD, error)
      || !add_records (self, CRO_RECORDS_SALES, 3, NET_SALES, error)
      || !add_records (self, CRO_RECORDS_PURCHASES, 7, PURCHASES, error)
      || !take_frozen (self, error) || !add_late (self, error)
      || !add_records (self, CRO_RECORDS_COUNTS, 0, 0, error)
      || !add_records (self, CRO_RECORDS_ADJUSTMENTS, 0, 0, error))
    return FALSE;
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroRecordRow *row = &g_array_index (self->rows, CroRecordRow, i);

      if (!row->is_closed && isnan (row->values[SOLD].number) && isnan (row->values[PURCHASES].number))
        row->values[STATE] = cro_reading_text (self, cro_months_count_only ());
      for (guint k = 0; k < G_N_ELEMENTS (printed); k++)
        round_money (self, &row->values[printed[k]]);
      if (!compare_with_tax (self, row, cro_month_rows_find (months, row->month), error))
        return FALSE;
      compare (self, row, NET_SALES, TILL, TO_THE_TILL);
      compare (self, row, PURCHASES, LEDGER, TO_THE_LEDGER);
    }
  g_array_sort (self->rows, newest_first);
  return TRUE;
}
