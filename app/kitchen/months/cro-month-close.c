#include "config.h"

#include "cro-month-close.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-code.h"
#include "cro-decimal.h"
#include "cro-edit-private.h"
#include "cro-frozen-hash.h"
#include "cro-here.h"
#include "cro-month-frozen.h"
#include "cro-month-private.h"

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

/* --- One row -------------------------------------------------------------------------------- */

/* A row of month_row; texts are read when it is written. */
typedef struct
{
  const char *kind;
  const char *name;
  const char *part_kind;
  const char *part;
  gint64      number;       /* CRO_NOT_SET */
  CroDate     day;          /* CRO_NO_DAY */
  double      sold, net_revenue, price;
  const char *unit;
  double      quantity, cost, cost_per_1000;
  const char *supplier, *document, *category, *row_kind, *note;
} Row;

#define ROW(of_kind, of_name) \
  ((Row){ .kind = (of_kind), .name = (of_name), .number = CRO_NOT_SET, .day = CRO_NO_DAY, \
          .sold = NAN, .net_revenue = NAN, .price = NAN, .quantity = NAN, .cost = NAN, \
          .cost_per_1000 = NAN })

typedef struct
{
  CroBook   *book;
  CroMonth  *month;
  gint64     id;            /* of the row of table month */
  CroWriter *writer;
  GError    *failed;        /* of the first row that was refused */
} Freezing;

static CroCell
decimal (double value)
{
  int64_t micro;

  return !isnan (value) && cro_decimal_from_double (value, &micro) ? CRO_CELL_INT (micro)
                                                                   : CRO_CELL_NONE;
}

static void
put (Freezing *self,
     Row       row)
{
  char day[CRO_DATE_CHARS];
  CroCell cells[] = {
    CRO_CELL_INT (self->id), CRO_CELL_STR (row.kind), CRO_CELL_STR (row.name),
    CRO_CELL_STR (row.part_kind), CRO_CELL_STR (row.part),
    row.number != CRO_NOT_SET ? CRO_CELL_INT (row.number * CRO_MICRO) : CRO_CELL_NONE,
    CRO_CELL_NONE, decimal (row.sold), decimal (row.net_revenue), decimal (row.price),
    CRO_CELL_STR (row.unit), decimal (row.quantity), decimal (row.cost), decimal (row.cost_per_1000),
    CRO_CELL_STR (row.supplier), CRO_CELL_STR (row.document), CRO_CELL_STR (row.category),
    CRO_CELL_STR (row.row_kind), CRO_CELL_STR (row.note)
  };

  if (self->failed != NULL)
    return;
  if (row.day != CRO_NO_DAY)
    {
      cro_date_format (row.day, day);
      cells[6] = CRO_CELL_STR (day);
    }
  cro_writer_insert (self->writer, cells, NULL, &self->failed);
}

static const char *
unit_code (CroBase base)
{
  return cro_unit_get (cro_base_unit (base))->code;
}

/* --- The statement -------------------------------------------------------------------------- */

static void
put_money (Freezing   *self,
           const char *name,
           double      money,
           const char *note,
           guint       n)
{
  Row row = ROW ("statement", name);

  row.cost = money;
  row.note = note;
  if (n > 0)
    row.quantity = n;
  put (self, row);
}

/* How much is known of a figure, where that is not all: older months say nothing. */
static const char *
known_note (CroKnown known)
{
  return known != CRO_KNOWN_WHOLE ? cro_month_known_codes[known] : NULL;
}

/* known: of each kind; NULL: all is. */
static void
put_kinds (Freezing          *self,
           const char        *name,
           const char *const *kinds,
           const double      *money,
           const CroKnown    *known)
{
  for (guint i = 0; kinds[i] != NULL; i++)
    {
      Row row = ROW ("statement", name);

      row.number = i + 1;
      row.row_kind = kinds[i];
      row.cost = money[i];
      row.note = known != NULL ? known_note (known[i]) : NULL;
      put (self, row);
    }
}

/* What is booked of purchases: later months compare with it what came late. */
static void
put_booked (Freezing *self)
{
  const CroMonth *month = self->month;
  double booked[CRO_MONTH_N_PURCHASE_KINDS];

  for (guint k = 0; k < CRO_MONTH_N_PURCHASE_KINDS; k++)
    booked[k] = month->purchases[k] + month->earlier[k];
  booked[0] += isnan (month->estimate) ? 0 : month->estimate;
  put_kinds (self, "booked", cro_purchase_kind_codes, booked, NULL);
}

static void
put_statement (Freezing *self)
{
  const CroMonth *month = self->month;
  Row recipes = ROW ("statement", "recipes-on"), currency = ROW ("statement", "currency");

  recipes.day = month->recipes_on;
  currency.note = month->currency;
  put (self, recipes);
  put (self, currency);
  put_money (self, "net-sales", month->net_sales, cro_month_known_codes[cro_month_known_sales (month)], 0);
  put_money (self, "net-sales-costed", month->net_sales_costed, NULL, 0);
  put_money (self, "till", month->till, NULL, 0);
  put_money (self, "till-gross", month->till_gross, NULL, 0);
  put_money (self, "ledger", month->ledger, NULL, 0);
  put_money (self, "estimate", month->estimate, NULL, 0);
  put_money (self, "reversed", month->reversed, NULL, 0);
  put_money (self, "opening-stock", month->opening, known_note (month->known_opening), month->n_opening);
  put_money (self, "closing-stock", month->closing,
             month->is_entered ? CRO_MONTH_ENTERED : known_note (month->known_closing),
             month->n_closing);
  put_kinds (self, "purchases", cro_purchase_kind_codes, month->purchases, NULL);
  put_kinds (self, "earlier", cro_purchase_kind_codes, month->earlier, NULL);
  put_booked (self);
  put_kinds (self, "adjustments", cro_adjustment_kind_codes, month->adjustments, month->known_adjustments);
  put_money (self, "actual", month->actual, cro_month_known_codes[month->known_actual], 0);
  put_money (self, "theoretical", month->theoretical,
             cro_month_known_codes[month->known_theoretical], 0);
  put_money (self, "over", month->over, cro_month_known_codes[month->known_over], 0);
}

static void
put_open_ends (Freezing *self)
{
  const CroMonth *month = self->month;

  for (guint i = 0; i < month->missing->len; i++)
    {
      Row row = ROW ("statement", "missing");

      row.number = i + 1;
      row.note = month->missing->pdata[i];
      put (self, row);
    }
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      Row row = ROW ("statement", "question");

      row.number = i + 1;
      row.row_kind = cro_month_question_codes[question->kind];
      row.category = question->about;
      row.day = question->day;
      row.note = question->detail;
      row.cost = question->explains;
      put (self, row);
    }
}

/* --- Ingredients ---------------------------------------------------------------------------- */

static Row
part_row (const char *name,
          const char *part_kind,
          const char *part,
          CroBase     base)
{
  Row row = ROW ("statement", name);

  row.part_kind = part_kind;
  row.part = part;
  row.unit = unit_code (base);
  return row;
}

static void
put_item (Freezing           *self,
          const CroMonthItem *item)
{
  Row standard = part_row ("item", "food", item->name, item->base);
  Row actual = part_row ("item-actual", "food", item->name, item->base);
  Row bought = part_row ("item-bought", "food", item->name, item->base);
  Row stock = part_row ("item-stock", "food", item->name, item->base);

  standard.quantity = item->theoretical_quantity;
  standard.cost = item->theoretical_cost;
  standard.category = item->category;
  put (self, standard);
  if (isnan (item->actual_quantity))
    return;
  actual.quantity = item->actual_quantity;
  actual.cost = item->actual_cost;
  put (self, actual);
  bought.cost = item->bought_variance;
  bought.net_revenue = item->bought;
  put (self, bought);
  stock.quantity = item->counted_quantity;
  stock.cost = item->counted_value;
  stock.cost_per_1000 = item->average_cost * 1000;
  put (self, stock);
}

static void
put_items (Freezing *self)
{
  const CroMonth *month = self->month;

  for (guint i = 0; i < month->items->len; i++)
    put_item (self, &g_array_index (month->items, CroMonthItem, i));
  for (guint i = 0; i < month->by_products->len; i++)
    {
      const CroMonthByProduct *of = &g_array_index (month->by_products, CroMonthByProduct, i);
      Row row = part_row ("by-product", "by-product", of->name, of->base);

      row.quantity = of->quantity;
      row.cost_per_1000 = of->value * 1000;
      row.cost = of->cost;
      put (self, row);
    }
}

/* --- Things sold ---------------------------------------------------------------------------- */

static void
put_thing (Freezing            *self,
           const CroMonthThing *thing)
{
  const char *kind = cro_sale_kind_codes[thing->kind];
  g_autofree char *note = g_strdup_printf ("%s %s %s",
                                           thing->lacks_revenue ? CRO_MONTH_LACKS_REVENUE : "",
                                           thing->is_incomplete ? CRO_MONTH_INCOMPLETE : "",
                                           thing->has_credit ? CRO_MONTH_HAS_CREDIT : "");
  Row row = ROW (kind, thing->name);

  g_strstrip (note);
  row.sold = thing->sold;
  row.net_revenue = thing->net_revenue;
  row.price = thing->price;
  row.cost = thing->theoretical;
  row.category = thing->course;
  row.note = note[0] != '\0' ? note : NULL;
  put (self, row);
  for (guint i = 0; thing->parts != NULL && i < thing->parts->len; i++)
    {
      const CroMonthPart *part = &g_array_index (thing->parts, CroMonthPart, i);

      row = ROW (kind, thing->name);
      row.part_kind = cro_frozen_part_codes[part->kind];
      row.part = part->name;
      row.unit = unit_code (part->base);
      row.quantity = part->quantity;
      row.cost_per_1000 = part->unit_cost * 1000;
      put (self, row);
    }
}

/* --- What it is made of --------------------------------------------------------------------- */

static Row
record_row (const CroMonthRecord *record,
            const char           *kind,
            const char           *row_kind)
{
  Row row = ROW (kind, record->name != NULL ? record->name : row_kind);

  row.number = record->number;
  row.day = record->day;
  row.cost = record->money;
  if (record->has_amount)
    {
      row.quantity = cro_decimal_to_double (record->amount);
      row.unit = cro_unit_get (record->unit)->code;
    }
  return row;
}

static void
put_counts (Freezing *self)
{
  GArray *counts = self->month->counts;

  for (guint i = 0; i < counts->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (counts, CroMonthRecord, i);
      Row row = record_row (record, "count", "?");

      row.note = record->note;
      put (self, row);
    }
}

static void
put_purchases (Freezing *self)
{
  GArray *bought = self->month->bought;

  for (guint i = 0; i < bought->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (bought, CroMonthRecord, i);
      const char *kind = cro_purchase_kind_codes[record->kind];
      Row row = record_row (record, "purchase", kind);

      row.supplier = record->supplier;
      row.document = record->document;
      row.category = record->category;
      row.row_kind = kind;
      row.note = record->document_date;
      put (self, row);
    }
}

static void
put_adjustments (Freezing *self)
{
  GArray *adjusted = self->month->adjusted;

  for (guint i = 0; i < adjusted->len; i++)
    {
      const CroMonthRecord *record = &g_array_index (adjusted, CroMonthRecord, i);
      const char *kind = cro_adjustment_kind_codes[record->kind];
      Row row = record_row (record, "adjustment", kind);

      row.row_kind = kind;
      row.note = record->note;
      put (self, row);
    }
}

static gboolean
put_all (Freezing  *self,
         GError   **error)
{
  put_statement (self);
  put_open_ends (self);
  put_items (self);
  for (guint i = 0; i < self->month->things->len; i++)
    put_thing (self, &g_array_index (self->month->things, CroMonthThing, i));
  put_counts (self);
  put_purchases (self);
  put_adjustments (self);
  if (self->failed == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&self->failed));
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

static gboolean
write_closing (Freezing  *self,
               gint64     estimate,
               GError   **error)
{
  static const char *const columns[] = { "recipes_on", "late_estimate_micro", "closed_at", "reason",
                                         "hash", NULL };
  g_autofree char *now = dup_now ();
  g_autofree char *hash = cro_frozen_hash (cro_book_get_store (self->book), self->id, error);
  char day[CRO_DATE_CHARS];
  CroCell cells[5];

  if (hash == NULL)
    return FALSE;
  cro_date_format (self->month->recipes_on, day);
  cells[0] = CRO_CELL_STR (day);
  cells[1] = estimate != CRO_NOT_SET ? CRO_CELL_INT (estimate) : CRO_CELL_NONE;
  cells[2] = CRO_CELL_STR (now);
  cells[3] = CRO_CELL_NONE;
  cells[4] = CRO_CELL_STR (hash);
  return cro_edit_update_row (self->book, "month", self->id, columns, cells, error);
}

static gboolean
freeze (Freezing           *self,
        const CroMonthRow  *row,
        gint64              estimate,
        GError            **error)
{
  const char *columns[24] = { "month" };
  gboolean done;

  for (gsize i = 0; cro_month_row_columns[i] != NULL; i++)
    columns[i + 1] = cro_month_row_columns[i];
  self->id = make_row (self->book, row, error);
  if (self->id == 0 || !remove_rows (self->book, self->id, error))
    return FALSE;
  self->writer = cro_writer_new (cro_book_get_store (self->book), "month_row", columns, error);
  if (self->writer == NULL)
    return FALSE;
  done = put_all (self, error);
  g_clear_pointer (&self->writer, cro_writer_free);
  return done && write_closing (self, estimate, error);
}

gboolean
cro_month_may_close (const CroMonth  *month,
                     GError         **error)
{
  if (month->is_closed)
    return refuse (CRO_MONTH_ERROR_CLOSED, month->first, error);
  if (cro_month_next (month->first) > cro_here_today () + 1)
    return refuse (CRO_MONTH_ERROR_RUNS, month->first, error);
  return month->entries == NULL || !cro_month_entries_are_empty (month->entries)
         || refuse (CRO_MONTH_ERROR_EMPTY, month->first, error);
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
  return entries->sales->len + entries->purchases->len + entries->adjustments->len == 0;
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

static gboolean
ask_orders (CroBook   *book,
            CroMonth  *month,
            GError   **error)
{
  CroDate earlier, later;

  if (!cro_month_out_of_order (book, month->first, &earlier, &later, error))
    return FALSE;
  if (earlier != CRO_NO_DAY)
    ask_order (month, CRO_QUESTION_EARLIER_OPEN, earlier);
  if (later != CRO_NO_DAY)
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

CroMonth *
cro_month_close (CroBook  *book,
                 CroDate   first,
                 gint64    estimate,
                 GError  **error)
{
  g_autoptr (CroMonth) month = cro_month_new (book, first, TRUE, error);
  Freezing self = { .book = book, .month = month };
  g_autofree char *label = NULL;
  char text[CRO_MONTH_CHARS];
  const CroMonthRow *row;
  gboolean done, is_stale;

  if (month == NULL || !cro_month_may_close (month, error) || !ask_orders (book, month, error))
    return NULL;
  row = month->entries->row;
  cro_month_format (first, text);
  /* Translators: %s is a month, 2026-10. */
  label = g_strdup_printf (_("Close %s"), text);
  if (!begin_closing (book, label, &is_stale, error))
    return NULL;
  if (is_stale)
    return cro_month_close (book, first, estimate, error);
  if (estimate == CRO_NOT_SET)
    estimate = row->estimate;
  cro_month_estimate (month, estimate);
  done = cro_edit_end (book, freeze (&self, row, estimate, error), error);
  return done ? cro_month_new (book, first, FALSE, error) : NULL;
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
         && cro_edit_update_row (book, "month", row->id, columns, cells, error);
}

gboolean
cro_month_reopen (CroBook     *book,
                  CroDate      first,
                  const char  *reason,
                  GError     **error)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  g_autofree char *kept = g_strstrip (g_strdup (reason != NULL ? reason : ""));
  g_autofree char *label = NULL;
  char text[CRO_MONTH_CHARS];
  const CroMonthRow *row;

  if (rows == NULL)
    return FALSE;
  row = cro_month_rows_find (rows, first);
  if (row == NULL || !row->is_closed)
    return refuse (CRO_MONTH_ERROR_OPEN, first, error);
  if (kept[0] == '\0')
    return refuse (CRO_MONTH_ERROR_REASON, first, error);
  cro_month_format (first, text);
  /* Translators: %s is a month, 2026-10. */
  label = g_strdup_printf (_("Reopen %s"), text);
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, write_reopening (book, row, kept, error), error);
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
  g_autofree char *label = NULL;
  char text[CRO_MONTH_CHARS];
  const CroMonthRow *row;

  if (rows == NULL)
    return FALSE;
  row = cro_month_rows_find (rows, first);
  if (row != NULL && row->is_closed)
    return refuse (CRO_MONTH_ERROR_CLOSED, first, error);
  cro_month_format (first, text);
  /* Translators: an entry of the history; %s is a month, 2026-10. */
  label = g_strdup_printf (_("recipes’ day of %s"), text);
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, write_recipes_on (book, row != NULL ? row : &none, day, error), error);
}
