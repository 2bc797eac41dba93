#include "cro-store-private.h"

struct _CroWriter
{
  CroStore     *store; /* borrowed */
  sqlite3_stmt *stmt;
  int           n_columns;
};

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
  cro_sql_append_names (sql, columns, "");
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
  cro_sql_append_names (sql, columns, " = ?");
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
