#include "cro-store-private.h"

struct _CroRows
{
  CroStore     *store; /* borrowed */
  sqlite3_stmt *stmt;
};

struct _CroWriter
{
  CroStore     *store; /* borrowed */
  sqlite3_stmt *stmt;
  int           n_columns;
};

static CroRows *
rows_new (CroStore    *self,
          const char  *sql,
          GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (self, sql, error);
  CroRows      *rows;

  if (stmt == NULL)
    return NULL;
  rows = g_new (CroRows, 1);
  rows->store = self;
  rows->stmt = stmt;
  return rows;
}

static void
append_columns (GString           *sql,
                const char *const *columns,
                const char        *after_each)
{
  for (gsize i = 0; columns[i] != NULL; i++)
    {
      if (i > 0)
        g_string_append (sql, ", ");
      cro_sql_append_name (sql, columns[i]);
      g_string_append (sql, after_each);
    }
}

static CroRows *
read_where (CroStore           *self,
            const char         *table,
            const char *const  *columns,
            const char         *tail,
            GError            **error)
{
  g_autoptr(GString) sql = g_string_new ("SELECT ");

  append_columns (sql, columns, "");
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

gboolean
cro_rows_is_null (CroRows *rows,
                  int      column)
{
  return sqlite3_column_type (rows->stmt, column) == SQLITE_NULL;
}

gboolean
cro_rows_is_text (CroRows *rows,
                  int      column)
{
  return sqlite3_column_type (rows->stmt, column) == SQLITE_TEXT;
}

gint64
cro_rows_get_int (CroRows *rows,
                  int      column)
{
  return sqlite3_column_int64 (rows->stmt, column);
}

const char *
cro_rows_get_text (CroRows *rows,
                   int      column)
{
  return (const char *) sqlite3_column_text (rows->stmt, column);
}

void
cro_rows_free (CroRows *rows)
{
  if (rows == NULL)
    return;
  cro_store_give (rows->store, rows->stmt);
  g_free (rows);
}

static void
bind_cell (sqlite3_stmt  *stmt,
           int            parameter,
           const CroCell *cell)
{
  switch (cell->kind)
    {
    case CRO_CELL_NULL:
      sqlite3_bind_null (stmt, parameter);
      break;
    case CRO_CELL_INTEGER:
      sqlite3_bind_int64 (stmt, parameter, cell->integer);
      break;
    case CRO_CELL_TEXT:
      cro_sql_bind_text (stmt, parameter, cell->text);
      break;
    default:
      g_assert_not_reached ();
    }
}

CroWriter *
cro_writer_new (CroStore           *self,
                const char         *table,
                const char *const  *columns,
                GError            **error)
{
  g_autoptr(GString) sql = g_string_new ("INSERT INTO ");
  sqlite3_stmt      *stmt;
  CroWriter         *writer;
  int                n_columns = 0;

  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, NULL);

  cro_sql_append_name (sql, table);
  g_string_append (sql, " (");
  append_columns (sql, columns, "");
  g_string_append (sql, ") VALUES (");
  for (; columns[n_columns] != NULL; n_columns++)
    g_string_append (sql, n_columns == 0 ? "?" : ", ?");
  g_string_append_c (sql, ')');
  stmt = cro_store_take (self, sql->str, error);
  if (stmt == NULL)
    return NULL;
  writer = g_new (CroWriter, 1);
  writer->store = self;
  writer->stmt = stmt;
  writer->n_columns = n_columns;
  return writer;
}

gboolean
cro_writer_insert (CroWriter      *writer,
                   const CroCell  *cells,
                   gint64         *id,
                   GError        **error)
{
  sqlite3 *db = writer->store->db;
  gboolean done;

  if (!cro_act_check_open (writer->store, error))
    return FALSE;
  for (int i = 0; i < writer->n_columns; i++)
    bind_cell (writer->stmt, i + 1, &cells[i]);
  done = sqlite3_step (writer->stmt) == SQLITE_DONE || cro_sql_fail (db, error);
  sqlite3_reset (writer->stmt);
  if (done && id != NULL)
    *id = sqlite3_last_insert_rowid (db);
  return done;
}

void
cro_writer_free (CroWriter *writer)
{
  if (writer == NULL)
    return;
  cro_store_give (writer->store, writer->stmt);
  g_free (writer);
}

/* Steps a statement that has to meet the one row id, and gives it back. */
static gboolean
write_one (CroStore      *self,
           sqlite3_stmt  *stmt,
           const char    *table,
           gint64         id,
           GError       **error)
{
  gboolean done = sqlite3_step (stmt) == SQLITE_DONE || cro_sql_fail (self->db, error);

  cro_store_give (self, stmt);
  if (done && sqlite3_changes (self->db) == 0)
    {
      g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE,
                   "%s has no row %" G_GINT64_FORMAT, table, id);
      return FALSE;
    }
  return done;
}

gboolean
cro_store_update (CroStore           *self,
                  const char         *table,
                  gint64              id,
                  const char *const  *columns,
                  const CroCell      *cells,
                  GError            **error)
{
  g_autoptr(GString) sql = NULL;
  sqlite3_stmt      *stmt;
  int                n_columns = 0;

  g_return_val_if_fail (self != NULL && table != NULL, FALSE);
  g_return_val_if_fail (columns != NULL && columns[0] != NULL && cells != NULL, FALSE);

  if (!cro_act_check_open (self, error))
    return FALSE;
  sql = g_string_new ("UPDATE ");
  cro_sql_append_name (sql, table);
  g_string_append (sql, " SET ");
  append_columns (sql, columns, " = ?");
  g_string_append (sql, " WHERE id = ?");
  stmt = cro_store_take (self, sql->str, error);
  if (stmt == NULL)
    return FALSE;
  for (; columns[n_columns] != NULL; n_columns++)
    bind_cell (stmt, n_columns + 1, &cells[n_columns]);
  sqlite3_bind_int64 (stmt, n_columns + 1, id);
  return write_one (self, stmt, table, id, error);
}

gboolean
cro_store_delete (CroStore    *self,
                  const char  *table,
                  gint64       id,
                  GError     **error)
{
  g_autoptr(GString) sql = NULL;
  sqlite3_stmt      *stmt;

  g_return_val_if_fail (self != NULL && table != NULL, FALSE);

  if (!cro_act_check_open (self, error))
    return FALSE;
  sql = g_string_new ("DELETE FROM ");
  cro_sql_append_name (sql, table);
  g_string_append (sql, " WHERE id = ?1");
  stmt = cro_store_take (self, sql->str, error);
  if (stmt == NULL)
    return FALSE;
  sqlite3_bind_int64 (stmt, 1, id);
  return write_one (self, stmt, table, id, error);
}
