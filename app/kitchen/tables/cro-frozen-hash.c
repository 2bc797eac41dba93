#include "cro-frozen-hash.h"

#include <string.h>

#include "cro-sheet-cells.h"

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

static int
compare_texts (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static char *
hash_of (GPtrArray *texts)
{
  g_autoptr (GChecksum) sum = g_checksum_new (G_CHECKSUM_SHA256);

  g_ptr_array_sort (texts, compare_texts);
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
  g_autoptr (GError) failure = NULL;

  while (rows != NULL && cro_rows_next (rows, &failure))
    {
      GString *text = g_string_new (NULL);

      for (guint i = 0; i < n; i++)
        {
          if (!cro_rows_is_null (rows, (int) i))
            g_string_append (text, cro_rows_get_text (rows, (int) i));
          g_string_append_c (text, '\x1f');
        }
      g_ptr_array_add (texts, g_string_free (text, FALSE));
    }
  if (failure != NULL)
    g_propagate_error (error, g_steal_pointer (&failure));
  else if (rows != NULL)
    return hash_of (texts);
  return NULL;
}

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

  if (cro_rows_is_null (rows, 2) || cro_rows_is_null (rows, 3))
    return TRUE;
  closed = g_new0 (Closed, 1);
  closed->id = cro_rows_get_int (rows, 0);
  closed->month = g_strdup (cro_rows_get_text (rows, 1));
  closed->hash = g_strdup (cro_rows_get_text (rows, 3));
  g_ptr_array_add (user_data, closed);
  return TRUE;
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
      g_autofree char *hash = cro_frozen_hash (store, closed->id, error);

      if (hash == NULL)
        return FALSE;
      if (strcmp (hash, closed->hash) != 0)
        found (closed->month, user_data);
    }
  if (n_tried != NULL)
    *n_tried += months->len;
  return TRUE;
}
