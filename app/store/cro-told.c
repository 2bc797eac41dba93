/* What the journal tells of rows, beside what the file holds of them: who writes into the file past the
 * triggers leaves the journal as it was. Nothing is told of what came with a fill. */
#include "cro-history.h"
#include "cro-replayer.h"
#include "cro-store-private.h"

/* Of each column of the row ?1 of a table the newest value that a change gave it. */
#define TOLD \
  "(SELECT value.key AS name, value.atom AS told, max (change.id) FROM change," \
  " json_each (CASE WHEN json_valid (after) THEN after ELSE '{}' END) AS value" \
  " WHERE tbl = '%1$s' AND row = ?1 GROUP BY value.key)"

/* As its JSON; no row where nothing of it is told, or that it went. */
#define TOLD_OF_ROW \
  "SELECT json_group_object (name, told) FROM " TOLD " WHERE (SELECT after IS NOT NULL FROM change" \
  " WHERE tbl = '%1$s' AND row = ?1 ORDER BY id DESC LIMIT 1) HAVING count (*) > 0"

static sqlite3_stmt *
take_of_row (CroStore    *self,
             gint64       row,
             const char  *sql,
             GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (self, sql, error);

  if (stmt != NULL)
    sqlite3_bind_int64 (stmt, 1, row);
  return stmt;
}

gboolean
cro_store_is_told (CroStore    *self,
                   const char  *table,
                   gint64       row,
                   gboolean    *is_told,
                   GError     **error)
{
  g_auto (GStrv) columns = NULL;
  g_autoptr (GString) held = g_string_new (NULL);
  g_autofree char *sql = NULL;
  sqlite3_stmt *stmt;
  int status;

  g_return_val_if_fail (self != NULL && table != NULL, FALSE);

  columns = cro_journal_columns (self->db, table, error);
  for (gsize i = 0; columns != NULL && columns[i] != NULL; i++)
    g_string_append_printf (held, "%2$s'%1$s', \"%1$s\"", columns[i], i > 0 ? ", " : "");
  sql = g_strdup_printf ("SELECT 1 FROM " TOLD " JOIN json_each ((SELECT json_object (%2$s) FROM \"%1$s\""
                         " WHERE id = ?1)) AS held ON held.key = name"
                         " WHERE held.atom IS NOT told COLLATE BINARY LIMIT 1",
                         table, held->str);
  stmt = columns != NULL ? take_of_row (self, row, sql, error) : NULL;
  if (stmt == NULL)
    return FALSE;
  status = sqlite3_step (stmt);
  *is_told = status == SQLITE_DONE;
  if (status != SQLITE_DONE && status != SQLITE_ROW)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return status == SQLITE_DONE || status == SQLITE_ROW;
}

/* Rows that refer to another, as they stand or as they are told. */
#define NAMES_IT \
  "SELECT id FROM \"%1$s\" WHERE \"%2$s\" = ?1 UNION SELECT row FROM change WHERE tbl = '%1$s'" \
  " AND json_extract (CASE WHEN json_valid (after) THEN after END, '$.%2$s') = ?1"

static gboolean
list_rows (CroStore    *self,
           const char  *sql,
           gint64       named,
           GArray      *rows,
           GError     **error)
{
  sqlite3_stmt *stmt = take_of_row (self, named, sql, error);
  int status;

  if (stmt == NULL)
    return FALSE;
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    {
      gint64 row = sqlite3_column_int64 (stmt, 0);

      g_array_append_val (rows, row);
    }
  if (status != SQLITE_DONE)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return status == SQLITE_DONE;
}

/* Those that stand where they are told to be gone, or the other way round. */
#define STANDS_OTHERWISE \
  "SELECT id FROM (" NAMES_IT ") AS it WHERE EXISTS (SELECT 1 FROM \"%1$s\" WHERE id = it.id AND \"%2$s\" = ?1)" \
  " <> (SELECT after IS NOT NULL FROM change WHERE tbl = '%1$s' AND row = it.id ORDER BY id DESC LIMIT 1) LIMIT 1"

gboolean
cro_store_are_told (CroStore    *self,
                    const char  *table,
                    const char  *column,
                    gint64       named,
                    gboolean    *are_told,
                    GError     **error)
{
  g_autofree char *otherwise = g_strdup_printf (STANDS_OTHERWISE, table, column);
  g_autofree char *names_it = g_strdup_printf (NAMES_IT, table, column);
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (gint64));

  g_return_val_if_fail (self != NULL && table != NULL && column != NULL, FALSE);

  if (!list_rows (self, otherwise, named, rows, error))
    return FALSE;
  *are_told = rows->len == 0;
  if (*are_told && !list_rows (self, names_it, named, rows, error))
    return FALSE;
  for (guint i = 0; *are_told && i < rows->len; i++)
    if (!cro_store_is_told (self, table, g_array_index (rows, gint64, i), are_told, error))
      return FALSE;
  return TRUE;
}

/* --- All that is told of a table ------------------------------------------------------------ */

#define MOST_TOLD 4

/* The newest value of a column of a row. */
#define TOLD_OF_COLUMN \
  ", (SELECT json_extract (after, '$.%2$s') FROM change WHERE tbl = '%1$s' AND row = it.row" \
  " AND json_type (CASE WHEN json_valid (after) THEN after END, '$.%2$s') IS NOT NULL ORDER BY id DESC LIMIT 1)"

gboolean
cro_store_each_told (CroStore           *self,
                     const char         *table,
                     const char *const  *columns,
                     CroStoreTold        told,
                     gpointer            user_data,
                     GError            **error)
{
  g_autoptr (GString) sql = g_string_new ("SELECT row");
  const char *texts[MOST_TOLD] = { NULL };
  sqlite3_stmt *stmt;
  int status;
  guint n = 0;

  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, FALSE);

  for (; columns[n] != NULL && n < MOST_TOLD; n++)
    g_string_append_printf (sql, TOLD_OF_COLUMN, table, columns[n]);
  g_string_append_printf (sql, " FROM (SELECT DISTINCT row FROM change WHERE tbl = '%1$s') AS it"
                          " WHERE (SELECT after IS NOT NULL FROM change WHERE tbl = '%1$s' AND row = it.row"
                          " ORDER BY id DESC LIMIT 1)", table);
  stmt = cro_store_take (self, sql->str, error);
  if (stmt == NULL)
    return FALSE;
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    {
      for (guint i = 0; i < n; i++)
        texts[i] = (const char *) sqlite3_column_text (stmt, (int) i + 1);
      told (sqlite3_column_int64 (stmt, 0), texts, user_data);
    }
  if (status != SQLITE_DONE)
    cro_sql_fail (self->db, error);
  cro_store_give (self, stmt);
  return status == SQLITE_DONE;
}

/* --- Back to what is told ------------------------------------------------------------------- */

typedef struct
{
  CroStore   *store;
  const char *table;
  GHashTable *replayers;
} Back;

/* NULL without error: nothing. */
static char *
dup_told (Back    *self,
          gint64   row,
          GError **error)
{
  g_autofree char *sql = g_strdup_printf (TOLD_OF_ROW, self->table);
  sqlite3_stmt *stmt = take_of_row (self->store, row, sql, error);
  char *told = NULL;
  int status;

  if (stmt == NULL)
    return NULL;
  status = sqlite3_step (stmt);
  if (status == SQLITE_ROW)
    told = g_strdup ((const char *) sqlite3_column_text (stmt, 0));
  else if (status != SQLITE_DONE)
    cro_sql_fail (self->store->db, error);
  cro_store_give (self->store, stmt);
  return told;
}

static gboolean
move (Back        *self,
      gint64       row,
      const char  *to,
      const char  *from,
      GError     **error)
{
  int status = cro_replayers_move (self->replayers, self->store->db, self->table, row, to, from, error);

  if (status == SQLITE_DONE)
    return TRUE;
  if (status != SQLITE_ERROR)
    g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
                 "row %" G_GINT64_FORMAT " of %s is not what the journal says", row, self->table);
  return FALSE;
}

/* What its column never takes is no value: that would stand in the journal as what was, and be refused there. */
static gboolean
clear_refused (Back    *self,
               gint64   row,
               GError **error)
{
  g_auto (GStrv) columns = cro_journal_columns (self->store->db, self->table, error);

  for (gsize i = 0; columns != NULL && columns[i] != NULL; i++)
    {
      g_autofree char *same = g_strdup_printf ("UPDATE \"%1$s\" SET \"%2$s\" = \"%2$s\" WHERE id = ?1", self->table,
                                               columns[i]);
      g_autofree char *none = g_strdup_printf ("UPDATE \"%s\" SET \"%s\" = NULL WHERE id = ?1", self->table,
                                               columns[i]);
      g_autoptr (GError) refused = NULL;

      if (cro_store_run_with (self->store, same, row, &refused))
        continue;
      if (!g_error_matches (refused, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE))
        {
          g_propagate_error (error, g_steal_pointer (&refused));
          return FALSE;
        }
      if (!cro_store_run_with (self->store, none, row, error))
        return FALSE;
    }
  return columns != NULL;
}

static gboolean
put_back (Back    *self,
          gint64   row,
          GError **error)
{
  g_autoptr (GError) failed = NULL;
  g_autofree char *told = dup_told (self, row, &failed);

  if (failed != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failed));
      return FALSE;
    }
  return clear_refused (self, row, error) && (told == NULL || move (self, row, told, "{}", error));
}

static gboolean
put_back_of (Back        *self,
             const char  *column,
             gint64       named,
             GError     **error)
{
  g_autofree char *remove = g_strdup_printf ("DELETE FROM \"%s\" WHERE id = ?1", self->table);
  g_autofree char *names_it = g_strdup_printf (NAMES_IT, self->table, column);
  g_autoptr (GArray) rows = g_array_new (FALSE, FALSE, sizeof (gint64));

  if (!list_rows (self->store, names_it, named, rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    if (!cro_store_run_with (self->store, remove, g_array_index (rows, gint64, i), error))
      return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      gint64 row = g_array_index (rows, gint64, i);
      g_autoptr (GError) failed = NULL;
      g_autofree char *told = dup_told (self, row, &failed);

      if (failed == NULL && told != NULL)
        move (self, row, told, NULL, &failed);
      if (failed == NULL)
        continue;
      g_propagate_error (error, g_steal_pointer (&failed));
      return FALSE;
    }
  return TRUE;
}

static gboolean
set_triggers (CroStore  *self,
              gboolean   are_on,
              GError   **error)
{
  return sqlite3_db_config (self->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, are_on, NULL) == SQLITE_OK
         || cro_sql_fail (self->db, error);
}

gboolean
cro_store_put_back (CroStore    *self,
                    const char  *table,
                    gint64       row,
                    const char  *rows_table,
                    const char  *column,
                    GError     **error)
{
  Back of_row = { self, table, NULL }, of_rows = { self, rows_table, NULL };
  gboolean done;

  g_return_val_if_fail (self != NULL && table != NULL && (rows_table == NULL || column != NULL), FALSE);

  if (!cro_act_check_open (self, error) || !set_triggers (self, FALSE, error))
    return FALSE;
  of_row.replayers = of_rows.replayers = cro_replayers_new ();
  done = put_back (&of_row, row, error) && (rows_table == NULL || put_back_of (&of_rows, column, row, error));
  g_hash_table_unref (of_row.replayers);
  return set_triggers (self, TRUE, done ? error : NULL) && done;
}
