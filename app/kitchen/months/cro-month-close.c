#include "config.h"

#include "cro-month-close.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-edit-private.h"
#include "cro-frozen-hash.h"
#include "cro-here.h"
#include "cro-history.h"
#include "cro-isolate.h"
#include "cro-month-private.h"
#include "cro-month-words.h"
#include "cro-not-set.h"

G_DEFINE_QUARK (cro-month-error-quark, cro_month_error)

static gboolean
refuse (CroMonthErrorCode   code,
        CroDate             first,
        GError            **error)
{
  char text[CRO_MONTH_CHARS];

  cro_month_format (first, text);
  g_set_error_literal (error, CRO_MONTH_ERROR, code, text);
  return FALSE;
}

/* --- Acts ----------------------------------------------------------------------------------- */

static char *
dup_now (void)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();

  return g_date_time_format (now, "%Y-%m-%dT%H:%M:%SZ");
}

/* Frozen rows of a month go. */
static gboolean
remove_rows (CroBook  *book,
             gint64    month,
             GError  **error)
{
  g_autoptr (GArray) rows = cro_edit_list_rows (book, "month_row", "month", month, error);

  for (guint i = 0; rows != NULL && i < rows->len; i++)
    if (!cro_store_delete (cro_book_get_store (book), "month_row", g_array_index (rows, gint64, i),
                           error))
      return FALSE;
  return rows != NULL;
}

/* The row of table month, which is made where it is not there. */
static gint64
make_row (CroBook            *book,
          const CroMonthRow  *row,
          GError            **error)
{
  static const char *const columns[] = { "month", NULL };
  char text[CRO_MONTH_CHARS];
  CroCell cell;

  if (row->id != 0)
    return row->id;
  cro_month_format (row->first, text);
  cell = CRO_CELL_STR (text);
  return cro_edit_insert (book, "month", columns, &cell, error);
}

/* What a check of the book would find is found before the month is closed. */
static gboolean
verify_kept (CroBook         *book,
             const CroMonth  *month,
             gint64           id,
             const char      *hash,
             GError         **error)
{
  gboolean is_kept;

  if (!cro_frozen_is_kept (cro_book_get_store (book), id, hash, &is_kept, error))
    return FALSE;
  return is_kept || refuse (CRO_MONTH_ERROR_RANGE, month->first, error);
}

static gboolean
write_closing (CroBook         *book,
               const CroMonth  *month,
               gint64           id,
               gint64           estimate,
               GError         **error)
{
  static const char *const columns[] = { "recipes_on", "late_estimate_micro", "closed_at", "reason",
                                         "hash", NULL };
  g_autofree char *now = dup_now ();
  g_autofree char *hash = cro_frozen_hash (cro_book_get_store (book), id, error);
  char day[CRO_DATE_CHARS];
  CroCell cells[5];

  if (hash == NULL)
    return FALSE;
  cro_date_format (month->recipes_on, day);
  cells[0] = CRO_CELL_STR (day);
  cells[1] = cro_number_cell (estimate);
  cells[2] = CRO_CELL_STR (now);
  cells[3] = CRO_CELL_NONE;
  cells[4] = CRO_CELL_STR (hash);
  return cro_edit_update_row (book, "month", id, columns, cells, error) && verify_kept (book, month, id, hash, error);
}

/* What was changed in the file of the row of an open month is what the statement shows: closing takes it into the
 * journal, and from there on it is told. */
static gboolean
take_into_journal (CroBook            *book,
                   const CroMonthRow  *row,
                   gint64              id,
                   GError            **error)
{
  static const char *const columns[] = { "till_net_revenue_micro", "till_gross_revenue_micro",
                                         "ledger_purchases_micro", "closing_stock_value_micro", NULL };
  const CroCell cells[] = { cro_number_cell (row->till_net), cro_number_cell (row->till_gross),
                            cro_number_cell (row->ledger), cro_number_cell (row->closing_stock) };
  CroStore *store = cro_book_get_store (book);
  gboolean is_told;

  if (!cro_store_is_told (store, "month", id, &is_told, error))
    return FALSE;
  return is_told
         || (cro_store_put_back (store, "month", id, "month_row", "month", error)
             && cro_edit_update_row (book, "month", id, columns, cells, error));
}

static gboolean
freeze (CroBook            *book,
        CroMonth           *month,
        const CroMonthRow  *row,
        gint64              estimate,
        GError            **error)
{
  gint64 id = make_row (book, row, error);

  return id != 0 && take_into_journal (book, row, id, error) && remove_rows (book, id, error)
         && cro_month_freeze (book, month, id, error)
         && write_closing (book, month, id, estimate, error);
}

/* Sums of millionths end where a column does: what stands there may be more, and is no sum. */
#define MOST_MONEY 9.2e12

static gboolean
is_within (const double *money,
           guint         n)
{
  for (guint i = 0; i < n; i++)
    if (!isnan (money[i]) && !(fabs (money[i]) < MOST_MONEY))
      return FALSE;
  return TRUE;
}

static gboolean
can_be_kept (const CroMonth *month)
{
  const double sums[] = { month->net_sales, month->net_sales_costed, month->opening,  month->closing, month->actual,
                          month->theoretical, month->over, month->reversed, cro_month_all_purchases (month) };

  return is_within (sums, G_N_ELEMENTS (sums)) && is_within (month->purchases, CRO_N_PURCHASE_KINDS)
         && is_within (month->earlier, CRO_N_PURCHASE_KINDS)
         && is_within (month->adjustments, CRO_N_ADJUSTMENT_KINDS);
}

gboolean
cro_month_may_close (const CroMonth  *month,
                     GError         **error)
{
  if (month->is_closed)
    return refuse (CRO_MONTH_ERROR_CLOSED, month->first, error);
  if (!cro_month_has_begun (month))
    return refuse (CRO_MONTH_ERROR_AHEAD, month->first, error);
  if (cro_month_next (month->first) > cro_here_today () + 1)
    return refuse (CRO_MONTH_ERROR_RUNS, month->first, error);
  if (month->entries != NULL && cro_month_entries_are_empty (month->entries))
    return refuse (CRO_MONTH_ERROR_EMPTY, month->first, error);
  return can_be_kept (month) || refuse (CRO_MONTH_ERROR_RANGE, month->first, error);
}

gboolean
cro_month_may_reopen (const CroMonth *month)
{
  return month->is_closed || (month->altered == month->first && !month->is_gone);
}

static void
ask_order (CroMonth             *month,
           CroMonthQuestionKind  kind,
           CroDate               other)
{
  CroMonthQuestion question = { kind, NULL, CRO_NO_DAY, NULL, NAN };
  char text[CRO_MONTH_CHARS];

  cro_month_format (other, text);
  question.about = g_string_chunk_insert_const (month->texts, text);
  g_array_append_val (month->questions, question);
}

/* Whether nothing but a stock is recorded in a month: there is nothing to close in it. */
static gboolean
is_count_alone (const CroMonthEntries *entries)
{
  return entries->sales->len + entries->purchases->len + entries->adjustments->len == 0
         && !cro_month_entries_have_late (entries);
}

gboolean
cro_month_out_of_order (CroBook  *book,
                        CroDate   first,
                        CroDate  *earlier,
                        CroDate  *later,
                        GError  **error)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  g_autoptr (GArray) months = rows != NULL ? cro_months_list (book, error) : NULL;

  *earlier = *later = CRO_NO_DAY;
  for (guint i = 0; months != NULL && i < months->len && *earlier == CRO_NO_DAY; i++)
    {
      CroDate other = g_array_index (months, CroDate, i);
      const CroMonthRow *row = cro_month_rows_find (rows, other);
      gboolean is_closed = row != NULL && row->is_closed;
      g_autoptr (CroMonthEntries) entries = NULL;

      if (other > first && is_closed)
        *later = other;
      if (other >= first || is_closed)
        continue;
      entries = cro_month_entries_new (book, other, error);
      if (entries == NULL)
        return FALSE;
      if (!is_count_alone (entries))
        *earlier = other;
    }
  return months != NULL;
}

gboolean
cro_month_leaves_estimate (gint64 taken,
                           gint64 estimate)
{
  return taken != CRO_NOT_SET && (estimate != CRO_NOT_SET ? estimate : 0) != taken;
}

/* A later month that is closed matters to an estimate alone that is not what it took off. */
static gboolean
ask_orders (CroBook   *book,
            CroMonth  *month,
            gint64     estimate,
            GError   **error)
{
  CroDate earlier, later;

  if (!cro_month_out_of_order (book, month->first, &earlier, &later, error))
    return FALSE;
  if (earlier != CRO_NO_DAY)
    ask_order (month, CRO_QUESTION_EARLIER_OPEN, earlier);
  if (later != CRO_NO_DAY && cro_month_leaves_estimate (month->entries->taken, estimate))
    ask_order (month, CRO_QUESTION_LATER_CLOSED, later);
  cro_month_sort (month);
  return TRUE;
}

/* Begins the act of closing. What other desks did since the statement was made is taken in by that: then
 * *is_stale is TRUE and nothing begins. FALSE with error. */
static gboolean
begin_closing (CroBook     *book,
               const char  *label,
               gboolean    *is_stale,
               GError     **error)
{
  guint64 edition = cro_book_get_edition (book);

  if (!cro_edit_begin (book, label, error))
    return FALSE;
  *is_stale = cro_book_get_edition (book) != edition;
  if (*is_stale)
    cro_book_cancel_act (book);
  return TRUE;
}

/* What a month is closed with; CRO_NOT_SET: none. estimate: as cro_month_close () has it. */
static gint64
estimate_of (const CroMonthRow *row,
             gint64             estimate)
{
  gint64 of = estimate != CRO_NOT_SET ? estimate : row->estimate;

  return of != 0 ? of : CRO_NOT_SET;
}

CroMonth *
cro_month_close (CroBook  *book,
                 CroDate   first,
                 gint64    estimate,
                 GError  **error)
{
  g_autoptr (CroMonth) month = cro_month_new (book, first, TRUE, error);
  g_autofree char *label = NULL, *text = NULL;
  const CroMonthRow *row;
  CroMonth *closed;
  gboolean done, is_stale;

  if (month == NULL || !cro_month_may_close (month, error))
    return NULL;
  row = month->entries->row;
  if (!ask_orders (book, month, estimate_of (row, estimate), error))
    return NULL;
  text = cro_month_to_text (first);
  label = cro_isolate_printf (_("Close %s"), text);
  if (!begin_closing (book, label, &is_stale, error))
    return NULL;
  if (is_stale)
    return cro_month_close (book, first, estimate, error);
  estimate = estimate_of (row, estimate);
  cro_month_estimate (month, estimate);
  done = freeze (book, month, row, estimate, error);
  /* Its rows have them. */
  g_array_set_size (month->things, 0);
  done = cro_edit_end (book, done, error);
  closed = done ? cro_month_new (book, first, FALSE, error) : NULL;
  /* It opened with a stock that is not what the month before was closed with. */
  if (closed != NULL && closed->altered == CRO_NO_DAY)
    {
      closed->altered = month->altered;
      closed->is_gone = month->is_gone;
    }
  return closed;
}

/* Of its estimate there stays what closed months took off: over all months, what is booked is taken off once. */
static gboolean
write_estimate (CroBook            *book,
                const CroMonthRow  *row,
                GError            **error)
{
  static const char *const columns[] = { "late_estimate_micro", NULL };
  g_autoptr (CroMonthEntries) entries = cro_month_entries_new (book, row->first, error);
  gint64 left;
  CroCell cell;

  if (entries == NULL)
    return FALSE;
  left = entries->taken != CRO_NOT_SET ? MIN (entries->taken, row->estimate) : 0;
  cell = left > 0 ? CRO_CELL_INT (left) : CRO_CELL_NONE;
  return cro_edit_update_row (book, "month", row->id, columns, &cell, error);
}

static gboolean
write_reopening (CroBook            *book,
                 const CroMonthRow  *row,
                 const char         *reason,
                 GError            **error)
{
  static const char *const columns[] = { "closed_at", "reason", "hash", NULL };
  CroCell cells[] = { CRO_CELL_NONE, CRO_CELL_STR (reason), CRO_CELL_NONE };

  return remove_rows (book, row->id, error)
         && cro_edit_update_row (book, "month", row->id, columns, cells, error)
         && (row->estimate == CRO_NOT_SET || write_estimate (book, row, error));
}

/* What was changed in the file is no act: it goes first, so that what is journalled is what closing left. */
static gboolean
reopen (CroBook            *book,
        const CroMonthRow  *row,
        const char         *reason,
        GError            **error)
{
  g_autoptr (GPtrArray) rows = NULL;
  CroDate first = row->first;

  if (!cro_frozen_put_back (cro_book_get_store (book), row->id, row->hash, error))
    return FALSE;
  rows = cro_month_rows_read (book, error);
  row = rows != NULL ? cro_month_rows_find (rows, first) : NULL;
  if (rows == NULL || row == NULL)
    return rows != NULL && refuse (CRO_MONTH_ERROR_OPEN, first, error);
  return write_reopening (book, row, reason, error);
}

gboolean
cro_month_reopen (CroBook     *book,
                  CroDate      first,
                  const char  *reason,
                  GError     **error)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  g_autofree char *kept = g_strstrip (g_strdup (reason != NULL ? reason : ""));
  g_autofree char *label = NULL, *text = NULL;
  const CroMonthRow *row;

  if (rows == NULL)
    return FALSE;
  row = cro_month_rows_find (rows, first);
  if (row == NULL || (!row->is_closed && row->hash == NULL))
    return refuse (CRO_MONTH_ERROR_OPEN, first, error);
  if (kept[0] == '\0')
    return refuse (CRO_MONTH_ERROR_REASON, first, error);
  text = cro_month_to_text (first);
  label = cro_isolate_printf (_("Reopen %s"), text);
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, reopen (book, row, kept, error), error);
}

static gboolean
write_recipes_on (CroBook            *book,
                  const CroMonthRow  *row,
                  CroDate             day,
                  GError            **error)
{
  static const char *const columns[] = { "recipes_on", NULL };
  gint64 id = make_row (book, row, error);
  char text[CRO_DATE_CHARS];
  CroCell cell = CRO_CELL_NONE;

  if (day != CRO_NO_DAY)
    {
      cro_date_format (day, text);
      cell = CRO_CELL_STR (text);
    }
  return id != 0 && cro_edit_update_row (book, "month", id, columns, &cell, error);
}

gboolean
cro_month_set_recipes_on (CroBook  *book,
                          CroDate   first,
                          CroDate   day,
                          GError  **error)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  CroMonthRow none = { .first = first };
  g_autofree char *label = NULL, *text = NULL;
  const CroMonthRow *row;

  if (rows == NULL)
    return FALSE;
  row = cro_month_rows_find (rows, first);
  if (row != NULL && row->is_closed)
    return refuse (CRO_MONTH_ERROR_CLOSED, first, error);
  text = cro_month_to_text (first);
  /* Translators: an entry of the history; %s is a month, October 2026. */
  label = cro_isolate_printf (_("recipes’ day of %s"), text);
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, write_recipes_on (book, row != NULL ? row : &none, day, error), error);
}
