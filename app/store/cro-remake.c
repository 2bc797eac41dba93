#include "cro-remake.h"

#include "cro-store-private.h"

#include <string.h>

/* The newest schema is made once in memory, and SQLite itself takes its text apart. */
typedef struct
{
  sqlite3            *db;
  sqlite3            *fresh;
  const CroMigration *to;
  int                 version;
} Remake;

#define TEXT_OF "SELECT sql FROM sqlite_schema WHERE name = ?1"

static sqlite3 *
make_fresh (const char  *schema,
            GError     **error)
{
  g_autoptr(sqlite3) fresh = NULL;

  if (sqlite3_open (":memory:", &fresh) != SQLITE_OK)
    {
      cro_sql_fail (fresh, error);
      return NULL;
    }
  return cro_sql_exec (fresh, schema, error) ? g_steal_pointer (&fresh) : NULL;
}

/* Names of what has a text of its own: all but the indexes that come with a table. */
static char **
names_of (sqlite3     *db,
          const char  *type,
          GError     **error)
{
  return cro_sql_texts (db,
                        "SELECT name FROM sqlite_schema WHERE type = ?1 AND sql IS NOT NULL"
                        " AND name NOT LIKE 'sqlite~_%' ESCAPE '~' ORDER BY rowid",
                        type, error);
}

/* NULL without an error: there is none of that name. */
static char *
text_of (sqlite3     *db,
         const char  *name,
         GError     **error)
{
  g_auto(GStrv) texts = cro_sql_texts (db, TEXT_OF, name, error);

  return texts != NULL ? g_strdup (texts[0]) : NULL;
}

static gboolean
exec_named (sqlite3     *db,
            const char  *before,
            const char  *name,
            GError     **error)
{
  g_autoptr(GString) sql = g_string_new (before);

  cro_sql_append_name (sql, name);
  return cro_sql_exec (db, sql->str, error);
}

/* The column of the table as it was: its own name, or that before it was renamed. */
static const char *
source_of (Remake      *self,
           const char  *table,
           const char  *column,
           char       **columns)
{
  for (int i = self->to->version - 1; i >= self->version; i--)
    for (int k = 0; k < self->to->steps[i].n_renames; k++)
      {
        const CroMigrationRename *rename = &self->to->steps[i].renames[k];

        if (strcmp (rename->table, table) == 0 && strcmp (rename->to, column) == 0)
          column = rename->from;
      }
  return g_strv_contains ((const char *const *) columns, column) ? column : NULL;
}

static char **
columns_of (sqlite3     *db,
            const char  *table,
            GError     **error)
{
  return cro_sql_texts (db, "SELECT name FROM pragma_table_info (?1)", table, error);
}

static char *
copying_sql (Remake      *self,
             const char  *table,
             char       **columns,
             char       **columns_before)
{
  g_autoptr(GString) sql = g_string_new ("INSERT INTO ");
  g_autoptr(GString) sources = g_string_new (NULL);

  cro_sql_append_name (sql, table);
  for (gsize i = 0; columns[i] != NULL; i++)
    {
      const char *source = source_of (self, table, columns[i], columns_before);

      if (source == NULL)
        continue;
      g_string_append (sql, sources->len == 0 ? " (" : ", ");
      cro_sql_append_name (sql, columns[i]);
      if (sources->len > 0)
        g_string_append (sources, ", ");
      cro_sql_append_name (sources, source);
    }
  g_string_append_printf (sql, ") SELECT %s FROM temp.kept", sources->str);
  return g_string_free (g_steal_pointer (&sql), FALSE);
}

/* Dropping a table forgets which ids it has given away, and they must not come back. */
static gboolean
keep_counter (sqlite3     *db,
              const char  *table,
              gint64      *counter,
              GError     **error)
{
  g_auto(GStrv) texts = cro_sql_texts (db, "SELECT seq FROM sqlite_sequence WHERE name = ?1", table,
                                       error);

  *counter = texts != NULL && texts[0] != NULL ? g_ascii_strtoll (texts[0], NULL, 10) : 0;
  return texts != NULL;
}

static gboolean
restore_counter (sqlite3     *db,
                 const char  *table,
                 gint64       counter,
                 GError     **error)
{
  static const char *const sql[] = { "DELETE FROM sqlite_sequence WHERE name = ?1",
                                     "INSERT INTO sqlite_sequence (name, seq) VALUES (?1, ?2)" };

  for (gsize i = 0; counter > 0 && i < G_N_ELEMENTS (sql); i++)
    {
      g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (db, sql[i], error);

      if (stmt == NULL)
        return FALSE;
      cro_sql_bind_text (stmt, 1, table);
      if (i == 1)
        sqlite3_bind_int64 (stmt, 2, counter);
      if (sqlite3_step (stmt) != SQLITE_DONE)
        return cro_sql_fail (db, error);
    }
  return TRUE;
}

static gboolean
remake_table (Remake      *self,
              const char  *table,
              const char  *text,
              GError     **error)
{
  g_auto(GStrv)    columns_before = columns_of (self->db, table, error);
  g_auto(GStrv)    columns = columns_of (self->fresh, table, error);
  g_autofree char *copying = NULL;
  gint64           counter;

  if (columns_before == NULL || columns == NULL)
    return FALSE;
  copying = copying_sql (self, table, columns, columns_before);
  return keep_counter (self->db, table, &counter, error) &&
         exec_named (self->db, "CREATE TEMP TABLE kept AS SELECT * FROM main.", table, error) &&
         exec_named (self->db, "DROP TABLE main.", table, error) &&
         cro_sql_exec (self->db, text, error) && cro_sql_exec (self->db, copying, error) &&
         cro_sql_exec (self->db, "DROP TABLE temp.kept", error) &&
         restore_counter (self->db, table, counter, error);
}

/* What the schema does not have; what it has in other words only where that holds no rows. */
static gboolean
drop_all (Remake      *self,
          const char  *type,
          const char  *drop,
          gboolean     holds_rows,
          GError     **error)
{
  g_auto(GStrv) names = names_of (self->db, type, error);

  if (names == NULL)
    return FALSE;
  for (gsize i = 0; names[i] != NULL; i++)
    {
      g_autofree char *is = text_of (self->db, names[i], error);
      g_autofree char *should_be = text_of (self->fresh, names[i], error);

      if ((should_be == NULL || (!holds_rows && g_strcmp0 (is, should_be) != 0))
          && !exec_named (self->db, drop, names[i], error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
make_all (Remake      *self,
          const char  *type,
          GError     **error)
{
  g_auto(GStrv) names = names_of (self->fresh, type, error);

  if (names == NULL)
    return FALSE;
  for (gsize i = 0; names[i] != NULL; i++)
    {
      g_autofree char *is = text_of (self->db, names[i], error);
      g_autofree char *should_be = text_of (self->fresh, names[i], error);

      if (is == NULL ? !cro_sql_exec (self->db, should_be, error)
                     : strcmp (is, should_be) != 0
                           && !remake_table (self, names[i], should_be, error))
        return FALSE;
    }
  return TRUE;
}

/* Triggers go before rows are copied, as they would judge them one by one. */
gboolean
cro_remake_tables (sqlite3             *db,
                   const CroMigration  *to,
                   int                  version,
                   GError             **error)
{
  g_autoptr(sqlite3) fresh = make_fresh (to->schema, error);
  Remake             self = { db, fresh, to, version };

  return fresh != NULL && drop_all (&self, "trigger", "DROP TRIGGER ", FALSE, error) &&
         drop_all (&self, "index", "DROP INDEX ", FALSE, error) &&
         drop_all (&self, "table", "DROP TABLE ", TRUE, error) &&
         make_all (&self, "table", error) && make_all (&self, "index", error) &&
         make_all (&self, "trigger", error);
}
