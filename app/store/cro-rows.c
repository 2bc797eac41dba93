#include "cro-store-private.h"

struct _CroRows
{
  CroStore       *store; /* borrowed */
  sqlite3_stmt   *stmt;
  sqlite3_value **values; /* of the row in hand, in cro_store_read_each; else NULL */
};

/* The type of a pointer that is bound, by which SQLite knows it again. */
#define EACH "CroEach"

typedef struct
{
  CroRows      rows;
  CroStoreRow  row;
  gpointer     user_data;
} Each;

static CroRows *
rows_new (CroStore    *self,
          const char  *sql,
          GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (self, sql, error);
  CroRows      *rows;

  if (stmt == NULL)
    return NULL;
  rows = g_new0 (CroRows, 1);
  rows->store = self;
  rows->stmt = stmt;
  return rows;
}

static CroRows *
read_where (CroStore           *self,
            const char         *table,
            const char *const  *columns,
            const char         *tail,
            GError            **error)
{
  g_autoptr(GString) sql = g_string_new ("SELECT ");

  cro_sql_append_names (sql, columns, "");
  g_string_append (sql, " FROM ");
  cro_sql_append_name (sql, table);
  g_string_append (sql, tail);
  return rows_new (self, sql->str, error);
}

CroRows *
cro_store_read (CroStore           *self,
                const char         *table,
                const char *const  *columns,
                GError            **error)
{
  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, NULL);

  return read_where (self, table, columns, " ORDER BY id", error);
}

CroRows *
cro_store_read_one (CroStore           *self,
                    const char         *table,
                    gint64              id,
                    const char *const  *columns,
                    GError            **error)
{
  CroRows *rows;

  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, NULL);

  rows = read_where (self, table, columns, " WHERE id = ?1", error);
  if (rows != NULL)
    sqlite3_bind_int64 (rows->stmt, 1, id);
  return rows;
}

CroRows *
cro_store_read_of (CroStore           *self,
                   const char         *table,
                   const char         *column,
                   gint64              named,
                   const char *const  *columns,
                   GError            **error)
{
  g_autoptr(GString) tail = g_string_new (" WHERE ");
  CroRows *rows;

  g_return_val_if_fail (self != NULL && table != NULL && column != NULL, NULL);

  cro_sql_append_name (tail, column);
  g_string_append (tail, " = ?1 ORDER BY id");
  rows = read_where (self, table, columns, tail->str, error);
  if (rows != NULL)
    sqlite3_bind_int64 (rows->stmt, 1, named);
  return rows;
}

static CroRows *
read_on (CroStore    *self,
         const char  *sql,
         const char  *date,
         GError     **error)
{
  CroRows *rows = rows_new (self, sql, error);

  if (rows != NULL)
    sqlite3_bind_text (rows->stmt, 1, date, -1, SQLITE_TRANSIENT);
  return rows;
}

#define PRICE_COLUMNS "SELECT price.offer, price.id, price.from_date, price.price_micro," \
                      " price.tax_included_pct_micro, price.pack_count_micro," \
                      " price.pack_size_micro, price.pack_unit FROM "

/* One descent of the index per offer, however long its history. */
CroRows *
cro_store_read_prices (CroStore    *self,
                       const char  *date,
                       gint64       offer,
                       GError     **error)
{
  CroRows *rows;

  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  if (offer == 0)
    return read_on (self,
                    PRICE_COLUMNS "offer CROSS JOIN price ON price.id ="
                    " (SELECT id FROM price WHERE offer = offer.id AND from_date <= ?1"
                    " ORDER BY from_date DESC LIMIT 1) ORDER BY offer.id",
                    date, error);
  rows = read_on (self,
                  PRICE_COLUMNS "price WHERE offer = ?2 AND from_date <= ?1"
                  " ORDER BY from_date DESC LIMIT 1",
                  date, error);
  if (rows != NULL)
    sqlite3_bind_int64 (rows->stmt, 2, offer);
  return rows;
}

CroRows *
cro_store_read_last_price (CroStore    *self,
                           const char  *date,
                           gint64       offer,
                           GError     **error)
{
  CroRows *rows;

  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  rows = read_on (self,
                  "SELECT offer, id, from_date, price_micro, tax_included_pct_micro,"
                  " pack_count_micro, pack_size_micro, pack_unit,"
                  " (SELECT min (next.from_date) FROM price AS next WHERE next.offer = price.offer"
                  " AND next.from_date > price.from_date AND next.from_date <= ?1)"
                  " FROM price WHERE offer = ?2 AND from_date <= ?1 AND price_micro IS NOT NULL"
                  " ORDER BY from_date DESC LIMIT 1",
                  date, error);
  if (rows != NULL)
    sqlite3_bind_int64 (rows->stmt, 2, offer);
  return rows;
}

CroRows *
cro_store_read_selling_prices (CroStore    *self,
                               const char  *date,
                               GError     **error)
{
  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  return read_on (self,
                  "SELECT thing, id, price_micro, tax_pct_micro FROM selling_price AS newest"
                  " WHERE from_date = (SELECT max (from_date) FROM selling_price"
                  " WHERE thing = newest.thing AND from_date <= ?1)",
                  date, error);
}

CroRows *
cro_store_read_rates (CroStore    *self,
                      const char  *date,
                      GError     **error)
{
  g_return_val_if_fail (self != NULL && date != NULL, NULL);

  return read_on (self,
                  "SELECT currency, from_date, rate_micro, per_micro FROM rate AS newest"
                  " WHERE from_date = (SELECT max (from_date) FROM rate"
                  " WHERE currency = newest.currency AND from_date <= ?1) ORDER BY currency",
                  date, error);
}

gboolean
cro_rows_next (CroRows  *rows,
               GError  **error)
{
  int status = sqlite3_step (rows->stmt);

  if (G_LIKELY (status == SQLITE_ROW))
    return TRUE;
  if (status != SQLITE_DONE)
    cro_sql_fail (rows->store->db, error);
  return FALSE;
}

static int
type_of (CroRows *rows,
         int      column)
{
  return rows->values != NULL ? sqlite3_value_type (rows->values[column])
                              : sqlite3_column_type (rows->stmt, column);
}

gboolean
cro_rows_is_null (CroRows *rows,
                  int      column)
{
  return type_of (rows, column) == SQLITE_NULL;
}

gboolean
cro_rows_is_text (CroRows *rows,
                  int      column)
{
  return type_of (rows, column) == SQLITE_TEXT;
}

gint64
cro_rows_get_int (CroRows *rows,
                  int      column)
{
  return rows->values != NULL ? sqlite3_value_int64 (rows->values[column])
                              : sqlite3_column_int64 (rows->stmt, column);
}

const char *
cro_rows_get_text (CroRows *rows,
                   int      column)
{
  return (const char *) (rows->values != NULL ? sqlite3_value_text (rows->values[column])
                                              : sqlite3_column_text (rows->stmt, column));
}

void
cro_rows_free (CroRows *rows)
{
  if (rows == NULL)
    return;
  cro_store_give (rows->store, rows->stmt);
  g_free (rows);
}

/* --- Each row ---------------------------------------------------------------------------- */

static void
each_step (sqlite3_context  *context,
           int               n_values,
           sqlite3_value   **values)
{
  Each *each = sqlite3_value_pointer (values[0], EACH);

  each->rows.values = values + 1;
  each->row (&each->rows, each->user_data);
}

static void
each_final (sqlite3_context *context)
{
}

gboolean
cro_rows_configure (sqlite3  *db,
                    GError  **error)
{
  return sqlite3_create_function (db, "each", -1, SQLITE_UTF8 | SQLITE_DIRECTONLY, NULL, NULL,
                                  each_step, each_final) == SQLITE_OK ||
         cro_sql_fail (db, error);
}

/* An aggregate function is handed its values as they are, where every sqlite3_column_ call finds
 * its statement and locks it anew: a third of the time that a wide row takes. Without an index a
 * table is scanned by rising id. */
gboolean
cro_store_read_each (CroStore           *self,
                     const char         *table,
                     const char *const  *columns,
                     CroStoreRow         row,
                     gpointer            user_data,
                     GError            **error)
{
  g_autoptr(GString) sql = g_string_new ("SELECT each (?1, ");
  Each               each = { .rows.store = self, .row = row, .user_data = user_data };
  sqlite3_stmt      *stmt;
  gboolean           done;

  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, FALSE);

  cro_sql_append_names (sql, columns, "");
  g_string_append (sql, ") FROM ");
  cro_sql_append_name (sql, table);
  g_string_append (sql, " NOT INDEXED");
  stmt = cro_store_take (self, sql->str, error);
  if (stmt == NULL)
    return FALSE;
  sqlite3_bind_pointer (stmt, 1, &each, EACH, NULL);
  done = sqlite3_step (stmt) == SQLITE_ROW || cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return done;
}
