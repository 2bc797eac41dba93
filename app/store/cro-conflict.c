#include "cro-replay.h"

#include <string.h>

void
cro_conflict_clear (CroConflict *conflict)
{
  g_clear_pointer (&conflict->table, g_free);
  conflict->act = 0;
  conflict->row = 0;
}

static gboolean
conflict_at (CroReplay   *self,
             gint64       act,
             const char  *table,
             gint64       row,
             GError     **error)
{
  cro_conflict_clear (self->conflict);
  self->conflict->act = act;
  self->conflict->table = g_strdup (table);
  self->conflict->row = row;
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED,
               "row %" G_GINT64_FORMAT " of %s was changed by act %" G_GINT64_FORMAT, row, table,
               act);
  return FALSE;
}

gboolean
cro_conflict_in_row (CroReplay   *self,
                     const char  *table,
                     gint64       row,
                     const char  *columns,
                     GError     **error)
{
  sqlite3_stmt *stmt;
  gint64        act;

  stmt = cro_store_take (self->store,
                         "SELECT ifnull ((SELECT act FROM change WHERE tbl = ?1 AND row = ?2"
                         " AND act > ?3 AND act < ?4"
                         " AND act NOT IN (SELECT id FROM act WHERE of = ?3)"
                         " AND (?5 IS NULL OR before IS NULL OR after IS NULL OR EXISTS"
                         " (SELECT 1 FROM json_each (?5) AS moved"
                         " WHERE json_type (change.after, '$.' || moved.key) IS NOT NULL))"
                         /* What was undone since does not stand in the way, nor what undid it, where anything does. */
                         " ORDER BY (SELECT ifnull (a.of, a.id) > ?3 AND 'undo' IS"
                         " (SELECT verb FROM act AS b WHERE b.of = ifnull (a.of, a.id) ORDER BY b.id DESC LIMIT 1)"
                         " FROM act AS a WHERE a.id = change.act), id DESC LIMIT 1),"
                         /* A fill keeps no rows. */
                         " (SELECT act FROM change WHERE tbl = '*' AND act > ?3 AND act < ?4))",
                         error);
  if (stmt == NULL)
    return FALSE;
  cro_sql_bind_text (stmt, 1, table);
  sqlite3_bind_int64 (stmt, 2, row);
  sqlite3_bind_int64 (stmt, 3, self->base);
  sqlite3_bind_int64 (stmt, 4, self->store->act);
  cro_sql_bind_text (stmt, 5, columns);
  act = sqlite3_step (stmt) == SQLITE_ROW ? sqlite3_column_int64 (stmt, 0) : 0;
  cro_store_give (self->store, stmt);
  return conflict_at (self, act, table, row, error);
}

/* SQL that finds another row with the key of a unique index which the move would give its own. */
static char *
twin_sql (sqlite3     *db,
          const char  *table,
          const char  *index,
          GError     **error)
{
  GString      *sql = g_string_new (NULL);
  g_auto(GStrv) columns = cro_sql_texts (db, "SELECT ifnull (name, '') FROM pragma_index_info (?1)",
                                         index, error);
  g_auto(GStrv) text = cro_sql_texts (db, "SELECT ifnull (sql, '') FROM sqlite_schema"
                                          " WHERE name = ?1", index, error);
  const char   *where = text != NULL && text[0] != NULL ? strstr (text[0], " WHERE ") : NULL;

  g_string_printf (sql, "SELECT id FROM \"%s\" WHERE id <> ?1", table);
  for (gsize i = 0; columns != NULL && columns[i] != NULL; i++)
    if (columns[i][0] != '\0')
      g_string_append_printf (sql, " AND \"%1$s\" IS iif (json_type (?2, '$.%1$s') IS NULL,"
                              " (SELECT \"%1$s\" FROM \"%2$s\" WHERE id = ?1),"
                              " json_extract (?2, '$.%1$s'))",
                              columns[i], table);
  if (where != NULL)
    g_string_append_printf (sql, " AND (%s)", where + strlen (" WHERE "));
  return g_string_free (sql, FALSE);
}

static gboolean
find_twin (CroReplay      *self,
           const CroMove  *move,
           gint64         *twin,
           GError        **error)
{
  sqlite3      *db = self->store->db;
  g_auto(GStrv) indexes = cro_sql_texts (db, "SELECT name FROM pragma_index_list (?1)"
                                             " WHERE \"unique\"", move->table, error);

  for (gsize i = 0; indexes != NULL && indexes[i] != NULL; i++)
    {
      g_autofree char        *sql = twin_sql (db, move->table, indexes[i], error);
      g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (db, sql, error);

      if (stmt == NULL)
        return FALSE;
      sqlite3_bind_int64 (stmt, 1, move->row);
      cro_sql_bind_text (stmt, 2, move->to);
      if (sqlite3_step (stmt) == SQLITE_ROW)
        {
          *twin = sqlite3_column_int64 (stmt, 0);
          return TRUE;
        }
    }
  *twin = move->row;
  return indexes != NULL;
}

gboolean
cro_conflict_of_rule (CroReplay      *self,
                      const CroMove  *move,
                      int             status,
                      GError        **error)
{
  gint64 row = move->row;

  if (status == SQLITE_CONSTRAINT_UNIQUE && !find_twin (self, move, &row, error))
    return FALSE;
  return cro_conflict_in_row (self, move->table, row, NULL, error);
}

/* The act that removed the row which a column of another refers to, where that was gone before the
 * replay; 0: it was not. */
static gint64
act_that_removed (CroReplay   *self,
                  const char  *table,
                  gint64       row)
{
  sqlite3_stmt *stmt = cro_store_take (self->store,
                                       "SELECT iif (after IS NULL, act, 0) FROM change"
                                       " WHERE tbl = ?1 AND row = ?2 AND act < ?3"
                                       " ORDER BY id DESC LIMIT 1",
                                       NULL);
  gint64        act;

  if (stmt == NULL)
    return 0;
  cro_sql_bind_text (stmt, 1, table);
  sqlite3_bind_int64 (stmt, 2, row);
  sqlite3_bind_int64 (stmt, 3, self->store->act);
  act = sqlite3_step (stmt) == SQLITE_ROW ? sqlite3_column_int64 (stmt, 0) : 0;
  cro_store_give (self->store, stmt);
  return act;
}

/* What the key of that number in the table refers to from a row; FALSE: nothing. */
static gboolean
find_parent (CroReplay   *self,
             const char  *table,
             gint64       row,
             int          key,
             gint64      *parent)
{
  g_autofree char        *sql = NULL;
  g_auto(GStrv)           columns = NULL;
  g_autoptr(sqlite3_stmt) stmt = NULL;

  sql = g_strdup_printf ("SELECT \"from\" FROM pragma_foreign_key_list (?1) WHERE id = %d", key);
  columns = cro_sql_texts (self->store->db, sql, table, NULL);
  if (columns == NULL || columns[0] == NULL)
    return FALSE;
  g_free (sql);
  sql = g_strdup_printf ("SELECT \"%s\" FROM \"%s\" WHERE id = ?1", columns[0], table);
  stmt = cro_sql_prepare (self->store->db, sql, NULL);
  if (stmt == NULL)
    return FALSE;
  sqlite3_bind_int64 (stmt, 1, row);
  if (sqlite3_step (stmt) != SQLITE_ROW || sqlite3_column_type (stmt, 0) != SQLITE_INTEGER)
    return FALSE;
  *parent = sqlite3_column_int64 (stmt, 0);
  return TRUE;
}

gboolean
cro_conflict_of_reference (CroReplay  *self,
                           GError    **error)
{
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (self->store->db, "PRAGMA foreign_key_check",
                                                  error);
  const char             *table, *of;
  gint64                  row, parent, act;

  if (stmt == NULL)
    return FALSE;
  if (sqlite3_step (stmt) != SQLITE_ROW)
    return FALSE;
  table = (const char *) sqlite3_column_text (stmt, 0);
  row = sqlite3_column_int64 (stmt, 1);
  of = (const char *) sqlite3_column_text (stmt, 2);
  if (find_parent (self, table, row, sqlite3_column_int (stmt, 3), &parent))
    {
      act = act_that_removed (self, of, parent);
      if (act != 0)
        return conflict_at (self, act, of, parent, error);
    }
  return cro_conflict_in_row (self, table, row, NULL, error);
}
