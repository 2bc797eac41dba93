#include "cro-sold.h"

#include "cro-row-date.h"

typedef struct
{
  CroDate     until;
  CroDate     last;         /* the newest sale until then; G_MININT32: none */
  CroDate     from;
  GHashTable *sold;
} Reading;

static gboolean
read_date (CroRows *rows,
           CroDate *date)
{
  *date = cro_row_date (rows, 1);
  return *date != CRO_NO_DAY;
}

static gboolean
find_last (CroRows   *rows,
           gpointer   user_data,
           GError   **error)
{
  Reading *self = user_data;
  CroDate date;

  if (!cro_rows_is_null (rows, 0) && read_date (rows, &date) && date <= self->until)
    self->last = MAX (self->last, date);
  return TRUE;
}

static gboolean
add_sale (CroRows   *rows,
          gpointer   user_data,
          GError   **error)
{
  Reading *self = user_data;
  gint64 id = cro_rows_get_int (rows, 0);
  CroSold *sold;
  CroDate date;

  if (cro_rows_is_null (rows, 0) || !read_date (rows, &date) || date > self->last
      || date < self->from)
    return TRUE;
  sold = g_hash_table_lookup (self->sold, &id);
  if (sold == NULL)
    {
      sold = g_new0 (CroSold, 1);
      sold->id = id;
      g_hash_table_insert (self->sold, &sold->id, sold);
    }
  sold->sold += cro_rows_get_int (rows, 2);
  return TRUE;
}

gboolean
cro_sold_last (CroBook  *book,
               CroDate  *last,
               GError  **error)
{
  static const char *const columns[] = { "thing", "date", NULL };
  Reading self = { .until = cro_book_get_figures (book)->date, .last = G_MININT32 };

  if (!cro_store_read_each (cro_book_get_store (book), "sale", columns, find_last, &self, error))
    return FALSE;
  *last = self.last;
  return TRUE;
}

GHashTable *
cro_sold_lately (CroBook  *book,
                 guint     days,
                 CroDate  *last,
                 GError  **error)
{
  static const char *const columns[] = { "thing", "date", "sold_micro", NULL };
  CroStore *store = cro_book_get_store (book);
  g_autoptr (GHashTable) sold = g_hash_table_new_full (g_int64_hash, g_int64_equal, NULL, g_free);
  Reading self = { .sold = sold };

  if (!cro_sold_last (book, &self.last, error))
    return NULL;
  if (last != NULL)
    *last = self.last;
  if (self.last == G_MININT32)
    return g_steal_pointer (&sold);
  self.from = self.last - (CroDate) days + 1;
  if (!cro_store_read_each (store, "sale", columns, add_sale, &self, error))
    return NULL;
  return g_steal_pointer (&sold);
}
