#include "cro-month-edit.h"

#include <string.h>

#include "cro-code.h"
#include "cro-edit-private.h"
#include "cro-month-words.h"
#include "cro-not-set.h"
#include "cro-refusal.h"

/* --- What is closed ------------------------------------------------------------------------- */

static gboolean
is_open (CroBook  *book,
         CroDate   date,
         GError  **error)
{
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  const CroMonthRow *row = rows != NULL ? cro_month_rows_find (rows, cro_month_first_of (date)) : NULL;
  g_autofree char *text = NULL;

  if (rows == NULL || row == NULL || !row->is_closed)
    return rows != NULL;
  text = cro_month_to_text (row->first);
  g_set_error_literal (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_CLOSED, text);
  return FALSE;
}

/* Where the row is now, before it goes or moves. */
static gboolean
is_row_open (CroBook     *book,
             const char  *table,
             gint64       id,
             GError     **error)
{
  static const char *const columns[] = { "date", NULL };
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (book), table, id, columns, error);
  GError *failed = NULL;
  const char *text;
  CroDate date;

  if (rows == NULL)
    return FALSE;
  if (!cro_rows_next (rows, &failed))
    {
      if (failed != NULL)
        g_propagate_error (error, failed);
      return failed == NULL;
    }
  text = cro_rows_get_text (rows, 0);
  return text == NULL || !cro_date_parse (text, strlen (text), &date) || is_open (book, date, error);
}

/* --- Rows ------------------------------------------------------------------------------------- */

/* The cells of one row, and what their texts stand in. */
typedef struct
{
  CroCell cells[10];
  char    dates[2][CRO_DATE_CHARS];
} Cells;

typedef void (*Fill) (CroModel     *model,
                      gconstpointer entry,
                      Cells        *row);

typedef struct
{
  const char        *table;
  const char *const *columns;
  guint              size;      /* of an entry, which begins with its id and its date */
  Fill               fill;
} Kind;

typedef struct
{
  gint64  id;
  CroDate date;
} Begin;

static CroCell
day_cell (Cells  *row,
          guint   which,
          CroDate date)
{
  if (date == CRO_NO_DAY)
    return CRO_CELL_NONE;
  cro_date_format (date, row->dates[which]);
  return CRO_CELL_STR (row->dates[which]);
}

/* One statement for all that are new: a till's year is many rows. */
static gboolean
put_rows (CroBook        *book,
          const Kind     *kind,
          gconstpointer   entries,
          guint           n,
          GError        **error)
{
  CroStore *store = cro_book_get_store (book);
  CroModel *model = cro_book_get_model (book);
  g_autoptr (CroWriter) writer = cro_writer_new (store, kind->table, kind->columns, error);
  CroDate open = CRO_NO_DAY;

  if (writer == NULL)
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      const Begin *entry = (gconstpointer) ((const char *) entries + (gsize) i * kind->size);
      g_auto (CroTidyCells) tidy = { 0 };
      Cells row;
      gint64 made;

      if (open != cro_month_first_of (entry->date) && !is_open (book, entry->date, error))
        return FALSE;
      open = cro_month_first_of (entry->date);
      kind->fill (model, entry, &row);
      if ((entry->id != 0 && !is_row_open (book, kind->table, entry->id, error))
          || !cro_tidy_cells (kind->table, kind->columns, row.cells, &tidy, error)
          || !(entry->id != 0 ? cro_store_update (store, kind->table, entry->id, kind->columns,
                                                  tidy.cells, error)
                              : cro_writer_insert (writer, tidy.cells, &made, error)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
put (CroBook        *book,
     const char     *label,
     const Kind     *kind,
     gconstpointer   entries,
     guint           n,
     GError        **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, put_rows (book, kind, entries, n, error), error);
}

/* --- Sales, counts, adjustments ------------------------------------------------------------------ */

static void
fill_sale (CroModel      *model,
           gconstpointer  data,
           Cells         *row)
{
  const CroSaleEntry *entry = data;
  const char *table;

  row->cells[0] = day_cell (row, 0, entry->date);
  row->cells[1] = entry->thing.kind != CRO_REF_NONE
                      ? CRO_CELL_INT (cro_edit_row (model, entry->thing, &table))
                      : CRO_CELL_NONE;
  row->cells[2] = entry->thing.kind != CRO_REF_NONE ? CRO_CELL_NONE : cro_edit_text_or_none (entry->other);
  row->cells[3] = CRO_CELL_INT (entry->sold);
  row->cells[4] = cro_number_cell (entry->revenue);
}

static const char *const sale_columns[] = { "date", "thing", "other", "sold_micro", "net_revenue_micro",
                                            NULL };
static const Kind sale = { "sale", sale_columns, sizeof (CroSaleEntry), fill_sale };

gboolean
cro_month_write_sales (CroBook             *book,
                       const CroSaleEntry  *entries,
                       guint                n,
                       GError             **error)
{
  return put_rows (book, &sale, entries, n, error);
}

gboolean
cro_month_put_sales (CroBook             *book,
                     const char          *label,
                     const CroSaleEntry  *entries,
                     guint                n,
                     GError             **error)
{
  return put (book, label, &sale, entries, n, error);
}

static void
fill_count (CroModel      *model,
            gconstpointer  data,
            Cells         *row)
{
  const CroCountEntry *entry = data;

  row->cells[0] = day_cell (row, 0, entry->date);
  row->cells[1] = CRO_CELL_INT (cro_model_item (model, entry->item)->id);
  row->cells[2] = CRO_CELL_INT (entry->amount);
  row->cells[3] = CRO_CELL_STR (cro_edit_unit_code (entry->unit));
  row->cells[4] = cro_edit_text_or_none (entry->place);
}

static const char *const count_columns[] = { "date", "item", "amount_micro", "unit", "place", NULL };
static const Kind count = { "stock_count", count_columns, sizeof (CroCountEntry), fill_count };

gboolean
cro_month_write_counts (CroBook              *book,
                        const CroCountEntry  *entries,
                        guint                 n,
                        GError              **error)
{
  return put_rows (book, &count, entries, n, error);
}

gboolean
cro_month_put_counts (CroBook              *book,
                      const char           *label,
                      const CroCountEntry  *entries,
                      guint                 n,
                      GError              **error)
{
  return put (book, label, &count, entries, n, error);
}

static void
fill_adjustment (CroModel      *model,
                 gconstpointer  data,
                 Cells         *row)
{
  const CroAdjustmentEntry *entry = data;
  gboolean has_amount = entry->amount != CRO_NOT_SET;

  row->cells[0] = day_cell (row, 0, entry->date);
  row->cells[1] = CRO_CELL_STR (cro_adjustment_kind_codes[entry->kind]);
  row->cells[2] = entry->item != CRO_NO_SLOT ? CRO_CELL_INT (cro_model_item (model, entry->item)->id)
                                             : CRO_CELL_NONE;
  row->cells[3] = cro_number_cell (entry->amount);
  row->cells[4] = has_amount ? CRO_CELL_STR (cro_edit_unit_code (entry->unit)) : CRO_CELL_NONE;
  row->cells[5] = cro_number_cell (entry->value);
  row->cells[6] = cro_edit_text_or_none (entry->note);
}

static const char *const adjustment_columns[] = { "date", "kind", "item", "amount_micro", "unit", "net_value_micro",
                                                  "note", NULL };
static const Kind adjustment = { "adjustment", adjustment_columns, sizeof (CroAdjustmentEntry), fill_adjustment };

gboolean
cro_month_write_adjustments (CroBook                   *book,
                             const CroAdjustmentEntry  *entries,
                             guint                      n,
                             GError                   **error)
{
  return put_rows (book, &adjustment, entries, n, error);
}

gboolean
cro_month_put_adjustment (CroBook                   *book,
                          const char                *label,
                          const CroAdjustmentEntry  *entry,
                          GError                   **error)
{
  return put (book, label, &adjustment, entry, 1, error);
}

/* --- Removing, and what ties ------------------------------------------------------------------ */

gboolean
cro_month_delete_rows (CroBook     *book,
                       const char  *table,
                       GArray      *ids,
                       GError     **error)
{
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);

      if ((strcmp (table, "purchase") != 0 && !is_row_open (book, table, id, error))
          || !cro_store_delete (cro_book_get_store (book), table, id, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
cro_month_remove (CroBook     *book,
                  const char  *label,
                  const char  *table,
                  GArray      *ids,
                  GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, cro_month_delete_rows (book, table, ids, error), error);
}

static gboolean
set (CroBook     *book,
     CroDate      first,
     const char  *column,
     gint64       value,
     GError     **error)
{
  const char *columns[] = { "month", column, NULL };
  g_autoptr (GPtrArray) rows = cro_month_rows_read (book, error);
  const CroMonthRow *row = rows != NULL ? cro_month_rows_find (rows, first) : NULL;
  char month[CRO_MONTH_CHARS];
  CroCell cells[] = { CRO_CELL_STR (month), cro_number_cell (value) };

  cro_month_format (first, month);
  if (rows == NULL || !is_open (book, first, error))
    return FALSE;
  return row != NULL ? cro_edit_update (book, "month", row->id, column, cells[1], error)
                     : cro_edit_insert (book, "month", columns, cells, error) != 0;
}

gboolean
cro_month_set (CroBook     *book,
               const char  *label,
               CroDate      first,
               const char  *column,
               gint64       value,
               GError     **error)
{
  return cro_edit_begin (book, label, error)
         && cro_edit_end (book, set (book, first, column, value, error), error);
}
