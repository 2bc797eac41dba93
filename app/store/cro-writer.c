#include "cro-store-private.h"

struct _CroWriter
{
  CroStore     *store; /* borrowed */
  char         *insert; /* SQL up to the values */
  sqlite3_stmt *one;    /* of one row; NULL until the first */
  sqlite3_stmt *block;  /* of CRO_WRITER_BLOCK rows; NULL until the first */
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

static gboolean
prepare (CroWriter     *writer,
         sqlite3_stmt **stmt,
         int            n_rows,
         GError       **error)
{
  g_autoptr(GString) sql = NULL;

  if (*stmt != NULL)
    return TRUE;
  sql = g_string_new (writer->insert);
  for (int i = 0; i < n_rows; i++)
    for (int k = 0; k < writer->n_columns; k++)
      g_string_append (sql, k > 0 ? ", ?" : i > 0 ? "), (?" : "(?");
  g_string_append_c (sql, ')');
  *stmt = cro_store_take (writer->store, sql->str, error);
  return *stmt != NULL;
}

CroWriter *
cro_writer_new (CroStore           *self,
                const char         *table,
                const char *const  *columns,
                GError            **error)
{
  GString              *sql = g_string_new ("INSERT INTO ");
  g_autoptr (CroWriter) writer = NULL;

  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, NULL);

  cro_sql_append_name (sql, table);
  g_string_append (sql, " (");
  cro_sql_append_names (sql, columns, "");
  g_string_append (sql, ") VALUES ");
  writer = g_new0 (CroWriter, 1);
  writer->store = self;
  writer->insert = g_string_free (sql, FALSE);
  writer->n_columns = (int) g_strv_length ((char **) columns);
  return prepare (writer, &writer->one, 1, error) ? g_steal_pointer (&writer) : NULL;
}

static gboolean
insert (CroWriter      *writer,
        sqlite3_stmt   *stmt,
        int             n_rows,
        const CroCell  *cells,
        GError        **error)
{
  gboolean done;

  if (!cro_act_check_open (writer->store, error))
    return FALSE;
  for (int i = 0; i < n_rows * writer->n_columns; i++)
    bind_cell (stmt, i + 1, &cells[i]);
  done = sqlite3_step (stmt) == SQLITE_DONE || cro_sql_fail (writer->store->db, error);
  sqlite3_reset (stmt);
  return done;
}

gboolean
cro_writer_insert (CroWriter      *writer,
                   const CroCell  *cells,
                   gint64         *id,
                   GError        **error)
{
  if (!insert (writer, writer->one, 1, cells, error))
    return FALSE;
  if (id != NULL)
    *id = sqlite3_last_insert_rowid (writer->store->db);
  return TRUE;
}

/* What a statement costs beside its rows is paid once a block, above all the counter of ids. Those
 * that it gives to one statement follow one another. */
gboolean
cro_writer_insert_block (CroWriter      *writer,
                         const CroCell  *cells,
                         gint64         *ids,
                         GError        **error)
{
  gint64 first;

  if (!prepare (writer, &writer->block, CRO_WRITER_BLOCK, error)
      || !insert (writer, writer->block, CRO_WRITER_BLOCK, cells, error))
    return FALSE;
  first = sqlite3_last_insert_rowid (writer->store->db) - CRO_WRITER_BLOCK + 1;
  for (int i = 0; ids != NULL && i < CRO_WRITER_BLOCK; i++)
    ids[i] = first + i;
  return TRUE;
}

void
cro_writer_free (CroWriter *writer)
{
  if (writer == NULL)
    return;
  if (writer->one != NULL)
    cro_store_give (writer->store, writer->one);
  if (writer->block != NULL)
    cro_store_give (writer->store, writer->block);
  g_free (writer->insert);
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
