#include "cro-frozen-hash.h"

#include <string.h>

#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-frozen-gone.h"
#include "cro-history.h"
#include "cro-sheet-cells.h"
#include "cro-text-order.h"

#define MOST_COLUMNS 24

/* All that table month_rows has of a row, without its month; returns how many columns. */
static guint
list_columns (const char **columns)
{
  const CroSheetMap *map = cro_sheet_maps;
  guint n = 0;

  while (map->id != CRO_TABLE_MONTH_ROWS)
    map++;
  for (guint i = 1; map->columns[i].column != NULL && n < MOST_COLUMNS - 1; i++)
    columns[n++] = map->columns[i].column;
  columns[n] = NULL;
  return n;
}

static char *
hash_of (GPtrArray *texts)
{
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);

  g_ptr_array_sort (texts, cro_text_order);
  for (guint i = 0; i < texts->len; i++)
    g_checksum_update (sum, texts->pdata[i], -1);
  return g_strdup (g_checksum_get_string (sum));
}

char *
cro_frozen_hash (CroStore  *store,
                 gint64     month,
                 GError   **error)
{
  const char *columns[MOST_COLUMNS];
  guint n = list_columns (columns);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (CroRows) rows = cro_store_read_of (store, "month_row", "month", month, columns, error);
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GError) failure = NULL;

  while (rows != NULL && cro_rows_next (rows, &failure))
    {
      g_string_truncate (text, 0);
      for (guint i = 0; i < n; i++)
        {
          if (!cro_rows_is_null (rows, (int) i))
            g_string_append (text, cro_rows_get_text (rows, (int) i));
          g_string_append_c (text, '\x1f');
        }
      g_ptr_array_add (texts, g_strndup (text->str, text->len));
    }
  if (failure != NULL)
    g_propagate_error (error, g_steal_pointer (&failure));
  else if (rows != NULL)
    return hash_of (texts);
  return NULL;
}

/* --- What rows add up to -------------------------------------------------------------------- */

/* A figure of the statement, and the rows that it is the sum of. */
typedef struct
{
  gboolean is_stated;
  gint64   stated;
  gint64   n;
  __extension__ __int128 sum;   /* rows may come to more than a column holds */
} Total;

static Total *
total_of (GHashTable *totals,
          const char *name,
          const char *kind)
{
  g_autofree char *key = kind != NULL ? g_strdup_printf ("%s %s", name, kind) : g_strdup (name);
  Total *total = g_hash_table_lookup (totals, key);

  if (total == NULL)
    {
      total = g_new0 (Total, 1);
      g_hash_table_insert (totals, g_steal_pointer (&key), total);
    }
  return total;
}

static void
add_to (Total   *total,
        CroRows *rows,
        int      column)
{
  total->sum += cro_rows_is_null (rows, column) ? 0 : cro_rows_get_int (rows, column);
  total->n++;
}

enum
{
  OF_KIND,
  OF_NAME,
  OF_PART,
  OF_ROW_KIND,
  OF_NET_REVENUE,
  OF_COST,
  OF_NOTE,
  OF_DATE,
};

/* Whether what was counted, bought or adjusted is of a day of its month: whoever gives the month another name in the
 * file leaves these days. */
static gboolean
is_of_month (CroRows    *rows,
             const char *month)
{
  return cro_rows_is_null (rows, OF_DATE) || !cro_frozen_gone_is_dated (cro_rows_get_text (rows, OF_KIND))
         || g_str_has_prefix (cro_rows_get_text (rows, OF_DATE), month);
}

static void
take_total (CroRows    *rows,
            GHashTable *totals)
{
  static const char *const sums[] = { "net-sales", "theoretical", "closing-stock", "purchases",
                                      "adjustments", NULL };
  const char *kind = cro_rows_get_text (rows, OF_KIND), *row_kind = cro_rows_get_text (rows, OF_ROW_KIND);

  if (!cro_rows_is_null (rows, OF_PART))
    return;
  if (strcmp (kind, "statement") == 0)
    {
      Total *total;

      if (!g_strv_contains (sums, cro_rows_get_text (rows, OF_NAME)))
        return;
      total = total_of (totals, cro_rows_get_text (rows, OF_NAME), row_kind);

      total->is_stated = !cro_rows_is_null (rows, OF_COST)
                         && g_strcmp0 (cro_rows_get_text (rows, OF_NOTE), "entered") != 0;
      total->stated = total->is_stated ? cro_rows_get_int (rows, OF_COST) : 0;
    }
  else if (strcmp (kind, "count") == 0)
    add_to (total_of (totals, "closing-stock", NULL), rows, OF_COST);
  else if (strcmp (kind, "purchase") == 0)
    add_to (total_of (totals, "purchases", row_kind), rows, OF_COST);
  else if (strcmp (kind, "adjustment") == 0)
    add_to (total_of (totals, "adjustments", row_kind), rows, OF_COST);
  else
    {
      add_to (total_of (totals, "net-sales", NULL), rows, OF_NET_REVENUE);
      add_to (total_of (totals, "theoretical", NULL), rows, OF_COST);
    }
}

/* Each row is rounded to a millionth, and so is what they add up to. */
static gboolean
is_sum (const Total *total)
{
  __extension__ __int128 apart = total->stated - total->sum;

  return apart >= -total->n && apart <= total->n;
}

static gboolean
adds_up (GHashTable *totals)
{
  GHashTableIter iter;
  gpointer value;

  g_hash_table_iter_init (&iter, totals);
  while (g_hash_table_iter_next (&iter, NULL, &value))
    {
      const Total *total = value;

      if (total->is_stated && !is_sum (total))
        return FALSE;
    }
  return TRUE;
}

/* name: of the month. */
static gboolean
verify_rows (CroStore    *store,
             gint64       month,
             const char  *name,
             gboolean    *are_sound,
             GError     **error)
{
  static const char *const columns[] = { "kind", "name", "part", "row_kind", "net_revenue_micro",
                                         "cost_micro", "note", "date", NULL };
  g_autoptr (GHashTable) totals = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr (CroRows) rows = cro_store_read_of (store, "month_row", "month", month, columns, error);
  gboolean are_of_month = TRUE;
  GError *failure = NULL;

  while (rows != NULL && cro_rows_next (rows, &failure))
    {
      take_total (rows, totals);
      are_of_month &= is_of_month (rows, name);
    }
  *are_sound = are_of_month && adds_up (totals);
  if (failure != NULL)
    g_propagate_error (error, failure);
  return rows != NULL && failure == NULL;
}

/* --- The row of the month itself ------------------------------------------------------------- */

/* What of its own columns closing froze in the statement too: beside the day of its recipes the money that a person
 * entered. */
static const struct
{
  const char *column, *name;
} entered[] = {
  { "till_net_revenue_micro", "till" },          { "till_gross_revenue_micro", "till-gross" },
  { "ledger_purchases_micro", "ledger" },        { "late_estimate_micro", "estimate" },
  { "closing_stock_value_micro", "closing-stock" },
};

#define N_ENTERED G_N_ELEMENTS (entered)

typedef struct
{
  char     *day;                    /* whose recipes it was costed by; NULL: it says none. Owned */
  gboolean  is_stated[N_ENTERED];   /* older months say nothing of what was not noted yet */
  gboolean  is_set[N_ENTERED];
  gint64    money[N_ENTERED];
} Stated;

static void
take_stated (Stated  *self,
             CroRows *rows)
{
  const char *name = cro_rows_get_text (rows, 1);

  if (strcmp (cro_rows_get_text (rows, 0), "statement") != 0)
    return;
  if (self->day == NULL && strcmp (name, "recipes-on") == 0)
    self->day = g_strdup (cro_rows_get_text (rows, 2));
  for (gsize i = 0; i < N_ENTERED; i++)
    if (strcmp (name, entered[i].name) == 0)
      {
        /* A closing stock that is the sum of its counts was not entered. */
        self->is_set[i] = !cro_rows_is_null (rows, 3)
                          && (strcmp (name, "closing-stock") != 0
                              || g_strcmp0 (cro_rows_get_text (rows, 4), "entered") == 0);
        self->money[i] = self->is_set[i] ? cro_rows_get_int (rows, 3) : 0;
        self->is_stated[i] = TRUE;
      }
}

/* The day of stated is freed by the caller. */
static gboolean
read_stated (CroStore  *store,
             gint64     month,
             Stated    *stated,
             GError   **error)
{
  static const char *const columns[] = { "kind", "name", "date", "cost_micro", "note", NULL };
  g_autoptr (CroRows) rows = cro_store_read_of (store, "month_row", "month", month, columns, error);
  GError *failure = NULL;

  while (rows != NULL && cro_rows_next (rows, &failure))
    take_stated (stated, rows);
  if (failure != NULL)
    g_propagate_error (error, failure);
  return rows != NULL && failure == NULL;
}

/* Whether a column holds what closing froze of it: that was a figure in between, which of very much money has not
 * each millionth. */
static gboolean
is_as_stated (const Stated *stated,
              gsize         i,
              CroRows      *rows,
              int           column)
{
  int64_t micro;

  if (!stated->is_stated[i] || cro_rows_is_null (rows, column) || !stated->is_set[i])
    return !stated->is_stated[i] || cro_rows_is_null (rows, column) == !stated->is_set[i];
  return cro_decimal_from_double (cro_decimal_to_double (cro_rows_get_int (rows, column)), &micro)
         && micro == stated->money[i];
}

static gboolean
is_moment (const char *closed_at)
{
  CroDate day;

  return strlen (closed_at) >= CRO_DATE_CHARS - 1 && cro_date_parse (closed_at, CRO_DATE_CHARS - 1, &day);
}

/* The hash is over the rows alone, so its own columns are held against what else tells of them. name: of the month;
 * owned. */
static gboolean
verify_row (CroStore  *store,
            gint64     month,
            char     **name,
            gboolean  *is_kept,
            GError   **error)
{
  const char *columns[5 + N_ENTERED] = { "recipes_on", "closed_at", "hash", "month" };
  g_autoptr (CroRows) rows = NULL;
  g_autofree char *day = NULL;
  Stated stated = { NULL };
  GError *failure = NULL;
  gboolean is_read;

  for (gsize i = 0; i < N_ENTERED; i++)
    columns[4 + i] = entered[i].column;
  rows = cro_store_read_one (store, "month", month, columns, error);
  is_read = rows != NULL && read_stated (store, month, &stated, error);
  day = stated.day;
  if (!is_read || !cro_store_is_told (store, "month", month, is_kept, error))
    return FALSE;
  if (cro_rows_next (rows, &failure))
    {
      const char *recipes_on = cro_rows_get_text (rows, 0), *closed_at = cro_rows_get_text (rows, 1);

      *name = g_strdup (cro_rows_get_text (rows, 3));
      *is_kept &= (recipes_on == NULL || day == NULL || strcmp (recipes_on, day) == 0)
                  && (closed_at != NULL ? is_moment (closed_at) : cro_rows_is_null (rows, 2));
      for (gsize i = 0; i < N_ENTERED; i++)
        *is_kept &= is_as_stated (&stated, i, rows, 4 + (int) i);
    }
  if (failure != NULL)
    g_propagate_error (error, failure);
  return failure == NULL;
}

/* --- Closed months -------------------------------------------------------------------------- */

typedef struct
{
  gint64  id;
  char   *month;
  char   *hash;
} Closed;

static void
closed_free (gpointer data)
{
  Closed *closed = data;

  g_free (closed->month);
  g_free (closed->hash);
  g_free (closed);
}

static gboolean
take_closed (CroRows   *rows,
             gpointer   user_data,
             GError   **error)
{
  Closed *closed;

  /* Reopening takes the hash away with the time: one alone is what was changed in the file. */
  if (cro_rows_is_null (rows, 2) && cro_rows_is_null (rows, 3))
    return TRUE;
  closed = g_new0 (Closed, 1);
  closed->id = cro_rows_get_int (rows, 0);
  closed->month = g_strdup (cro_rows_get_text (rows, 1));
  closed->hash = g_strdup (cro_rows_get_text (rows, 3));
  g_ptr_array_add (user_data, closed);
  return TRUE;
}

gboolean
cro_frozen_is_kept (CroStore    *store,
                    gint64       month,
                    const char  *hash,
                    gboolean    *is_kept,
                    GError     **error)
{
  g_autofree char *found = NULL, *name = NULL;
  gboolean are_sound;

  if (!verify_row (store, month, &name, is_kept, error))
    return FALSE;
  if (hash == NULL || name == NULL)
    return TRUE;
  found = cro_frozen_hash (store, month, error);
  if (found == NULL || !verify_rows (store, month, name, &are_sound, error))
    return FALSE;
  *is_kept &= are_sound && strcmp (found, hash) == 0;
  return TRUE;
}

/* Of its own row what its frozen rows say, where the journal does not know it. */
static gboolean
put_back_stated (CroStore      *store,
                 gint64         month,
                 const Stated  *stated,
                 GError       **error)
{
  const char *held[1 + N_ENTERED], *columns[2 + N_ENTERED];
  g_autoptr (CroRows) rows = NULL;
  CroCell cells[1 + N_ENTERED];
  GError *failure = NULL;
  guint n = 0;

  for (gsize i = 0; i < N_ENTERED; i++)
    held[i] = entered[i].column;
  held[N_ENTERED] = NULL;
  rows = cro_store_read_one (store, "month", month, held, error);
  if (rows == NULL)
    return FALSE;
  if (stated->day != NULL)
    {
      columns[n] = "recipes_on";
      cells[n++] = CRO_CELL_STR (stated->day);
    }
  if (cro_rows_next (rows, &failure))
    for (gsize i = 0; i < N_ENTERED; i++)
      if (!is_as_stated (stated, i, rows, (int) i))
        {
          columns[n] = entered[i].column;
          cells[n++] = stated->is_set[i] ? CRO_CELL_INT (stated->money[i]) : CRO_CELL_NONE;
        }
  g_clear_pointer (&rows, cro_rows_free);
  columns[n] = NULL;
  if (failure != NULL)
    g_propagate_error (error, failure);
  return failure == NULL && (n == 0 || cro_store_update (store, "month", month, columns, cells, error));
}

gboolean
cro_frozen_put_back (CroStore    *store,
                     gint64       month,
                     const char  *hash,
                     GError     **error)
{
  g_autofree char *found = cro_frozen_hash (store, month, error);
  g_autofree char *day = NULL;
  gboolean is_kept, are_rows_kept, is_done;
  Stated stated = { NULL };

  /* Rows that changed places have the hash that they had. */
  if (found == NULL || !cro_frozen_is_kept (store, month, hash, &is_kept, error)
      || !cro_store_are_told (store, "month_row", "month", month, &are_rows_kept, error))
    return FALSE;
  if (is_kept && are_rows_kept)
    return TRUE;
  are_rows_kept &= g_strcmp0 (found, hash) == 0;
  /* The rows that stand there then are those that closing froze. */
  is_done = cro_store_put_back (store, "month", month, are_rows_kept ? NULL : "month_row", "month", error)
            && read_stated (store, month, &stated, error);
  day = stated.day;
  return is_done && put_back_stated (store, month, &stated, error);
}

static gboolean
take_dated (CroRows   *rows,
            gpointer   user_data,
            GError   **error)
{
  cro_frozen_gone_add (user_data, cro_rows_get_int (rows, 0), cro_rows_get_text (rows, 1), cro_rows_get_text (rows, 2));
  return TRUE;
}

/* Those that the file has as closed no more. */
static gboolean
verify_gone (CroStore        *store,
             CroFrozenFound   found,
             gpointer         user_data,
             GError         **error)
{
  static const char *const columns[] = { "month", "kind", "date", NULL };
  g_autoptr (CroFrozenGone) gone = cro_frozen_gone_new ();

  return cro_store_read_each (store, "month_row", columns, take_dated, gone, error)
         && cro_frozen_gone_find (gone, store, found, user_data, error);
}

gboolean
cro_frozen_verify (CroStore        *store,
                   CroFrozenFound   found,
                   gpointer         user_data,
                   guint64         *n_tried,
                   GError         **error)
{
  static const char *const columns[] = { "id", "month", "closed_at", "hash", NULL };
  g_autoptr (GPtrArray) months = g_ptr_array_new_with_free_func (closed_free);

  if (!cro_store_read_each (store, "month", columns, take_closed, months, error))
    return FALSE;
  for (guint i = 0; i < months->len; i++)
    {
      const Closed *closed = months->pdata[i];
      gboolean is_kept;

      if (!cro_frozen_is_kept (store, closed->id, closed->hash, &is_kept, error))
        return FALSE;
      if (!is_kept)
        found (closed->month, user_data);
    }
  if (n_tried != NULL)
    *n_tried += months->len;
  return verify_gone (store, found, user_data, error);
}
