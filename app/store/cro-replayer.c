#include "cro-replayer.h"

#include <string.h>

#include "cro-store-private.h"

/* More sets of columns are no more than all columns may be: a journal could name any. */
#define MOST_SETS 64

typedef struct
{
  sqlite3      *db; /* borrowed */
  char         *table;
  char        **columns;
  sqlite3_stmt *update; /* NULL until they are asked for */
  sqlite3_stmt *insert;
  sqlite3_stmt *remove;
  GHashTable   *of_columns; /* names with commas between → the update of these alone */
} Replayer;

static void
finalize_statement (gpointer stmt)
{
  sqlite3_finalize (stmt);
}

static void
replayer_free (gpointer data)
{
  Replayer *self = data;

  sqlite3_finalize (self->update);
  sqlite3_finalize (self->insert);
  sqlite3_finalize (self->remove);
  g_hash_table_unref (self->of_columns);
  g_strfreev (self->columns);
  g_free (self->table);
  g_free (self);
}

GHashTable *
cro_replayers_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, NULL, replayer_free);
}

/* --- Statements: ?1 is the row, ?2 what it becomes, ?3 what it has to be ---------------- */

/* Whatever columns the JSON names. */
static char *
update_sql (const Replayer *self)
{
  GString           *sql = g_string_new (NULL);
  g_autoptr(GString) expected = g_string_new (NULL);

  g_string_printf (sql, "UPDATE \"%s\" SET ", self->table);
  for (gsize i = 0; self->columns[i] != NULL; i++)
    {
      g_string_append_printf (sql, "%2$s\"%1$s\" = iif (json_type (?2, '$.%1$s') IS NULL,"
                              " \"%1$s\", json_extract (?2, '$.%1$s'))",
                              self->columns[i], i == 0 ? "" : ", ");
      g_string_append_printf (expected, " AND (json_type (?3, '$.%1$s') IS NULL OR"
                              " \"%1$s\" IS json_extract (?3, '$.%1$s') COLLATE BINARY)",
                              self->columns[i]);
    }
  g_string_append_printf (sql, " WHERE id = ?1%s", expected->str);
  return g_string_free (sql, FALSE);
}

/* No other column is written, nor an index of it. */
static char *
update_of_sql (const Replayer *self,
               char          **columns)
{
  GString           *sql = g_string_new (NULL);
  g_autoptr(GString) expected = g_string_new (NULL);

  g_string_printf (sql, "UPDATE \"%s\" SET ", self->table);
  for (gsize i = 0; columns[i] != NULL; i++)
    {
      g_string_append_printf (sql, "%2$s\"%1$s\" = json_extract (?2, '$.%1$s')", columns[i],
                              i == 0 ? "" : ", ");
      g_string_append_printf (expected, " AND \"%1$s\" IS json_extract (?3, '$.%1$s') COLLATE BINARY",
                              columns[i]);
    }
  g_string_append_printf (sql, " WHERE id = ?1%s", expected->str);
  return g_string_free (sql, FALSE);
}

static char *
insert_sql (const Replayer *self)
{
  GString           *sql = g_string_new (NULL);
  g_autoptr(GString) values = g_string_new (NULL);

  g_string_printf (sql, "INSERT INTO \"%s\" (id", self->table);
  for (gsize i = 0; self->columns[i] != NULL; i++)
    {
      g_string_append_printf (sql, ", \"%s\"", self->columns[i]);
      g_string_append_printf (values, ", json_extract (?2, '$.%s')", self->columns[i]);
    }
  g_string_append_printf (sql, ") VALUES (?1%s)", values->str);
  return g_string_free (sql, FALSE);
}

static char *
remove_sql (const Replayer *self)
{
  GString *sql = g_string_new (NULL);

  g_string_printf (sql, "DELETE FROM \"%s\" WHERE id = ?1", self->table);
  for (gsize i = 0; self->columns[i] != NULL; i++)
    g_string_append_printf (sql, " AND \"%1$s\" IS json_extract (?3, '$.%1$s') COLLATE BINARY",
                            self->columns[i]);
  return g_string_free (sql, FALSE);
}

/* Takes over sql. */
static sqlite3_stmt *
prepare (const Replayer  *self,
         char            *sql,
         GError         **error)
{
  sqlite3_stmt *stmt = cro_sql_prepare (self->db, sql, error);

  g_free (sql);
  return stmt;
}

/* --- Which columns a change names ------------------------------------------------------- */

/* Behind the quote that ends a text; NULL where none does. */
static const char *
skip_text (const char *at)
{
  for (at++; *at != '"'; at++)
    if (*at == '\0' || (*at == '\\' && *++at == '\0'))
      return NULL;
  return at + 1;
}

/* The names in an object as the journal writes it, without blanks or depth; FALSE of any other,
 * whatever it is. */
static gboolean
read_names (const char *json,
            GString    *names)
{
  const char *at = json;

  if (*at++ != '{')
    return FALSE;
  do
    {
      const char *name = at + 1;

      if (*at != '"' || (at = skip_text (at)) == NULL || *at++ != ':')
        return FALSE;
      g_string_append_len (names, name, at - name - 2);
      g_string_append_c (names, ',');
      at = *at == '"' ? skip_text (at) : at + strspn (at, "+-.0123456789eEnul");
    }
  while (at != NULL && *at++ == ',');
  return at != NULL && at[-1] == '}' && *at == '\0';
}

/* A stranger's names never become SQL: each has to be that of a column, and once. */
static gboolean
are_columns (const Replayer  *self,
             char           **names)
{
  for (gsize i = 0; names[i] != NULL; i++)
    {
      if (!g_strv_contains ((const char *const *) self->columns, names[i]))
        return FALSE;
      for (gsize k = 0; k < i; k++)
        if (strcmp (names[i], names[k]) == 0)
          return FALSE;
    }
  return names[0] != NULL;
}

static sqlite3_stmt *
make_update_of (Replayer    *self,
                const char  *names,
                GError     **error)
{
  g_autofree char *without_end = g_strndup (names, strlen (names) - 1);
  g_auto(GStrv)    columns = g_strsplit (without_end, ",", -1);
  sqlite3_stmt    *stmt;

  if (g_hash_table_size (self->of_columns) >= MOST_SETS || !are_columns (self, columns))
    return NULL;
  stmt = prepare (self, update_of_sql (self, columns), error);
  if (stmt != NULL)
    g_hash_table_insert (self->of_columns, g_strdup (names), stmt);
  return stmt;
}

/* NULL without an error: the one of all columns has to do. */
static sqlite3_stmt *
find_update_of (Replayer    *self,
                const char  *to,
                const char  *from,
                GError     **error)
{
  g_autoptr(GString) names = g_string_new (NULL);
  g_autoptr(GString) expected = g_string_new (NULL);
  sqlite3_stmt      *stmt;

  if (!read_names (to, names) || !read_names (from, expected) || !g_string_equal (names, expected))
    return NULL;
  stmt = g_hash_table_lookup (self->of_columns, names->str);
  return stmt != NULL ? stmt : make_update_of (self, names->str, error);
}

/* --- Moves ------------------------------------------------------------------------------ */

/* The name of a table in the journal is a stranger's text, if any, which never becomes SQL: it is
 * looked up among the tables that there are. */
static gboolean
check_table (sqlite3     *db,
             const char  *table,
             GError     **error)
{
  g_auto(GStrv) tables = cro_journal_tables (db, error);

  if (tables == NULL)
    return FALSE;
  if (table != NULL && g_strv_contains ((const char *const *) tables, table))
    return TRUE;
  g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED,
               "the journal names a table that is not there: %s",
               table != NULL ? table : "none");
  return FALSE;
}

static Replayer *
get_replayer (GHashTable  *replayers,
              sqlite3     *db,
              const char  *table,
              GError     **error)
{
  Replayer *self = table != NULL ? g_hash_table_lookup (replayers, table) : NULL;
  char    **columns;

  if (self != NULL)
    return self;
  columns = check_table (db, table, error) ? cro_journal_columns (db, table, error) : NULL;
  if (columns == NULL)
    return NULL;
  self = g_new0 (Replayer, 1);
  self->db = db;
  self->table = g_strdup (table);
  self->columns = columns;
  self->of_columns = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, finalize_statement);
  g_hash_table_insert (replayers, self->table, self);
  return self;
}

gboolean
cro_replayers_know (GHashTable  *replayers,
                    sqlite3     *db,
                    const char  *table,
                    GError     **error)
{
  return get_replayer (replayers, db, table, error) != NULL;
}

static sqlite3_stmt *
get_statement (Replayer    *self,
               const char  *to,
               const char  *from,
               GError     **error)
{
  g_autoptr(GError) failed = NULL;
  sqlite3_stmt     *stmt = NULL;

  if (from == NULL)
    return self->insert != NULL ? self->insert
                                : (self->insert = prepare (self, insert_sql (self), error));
  if (to == NULL)
    return self->remove != NULL ? self->remove
                                : (self->remove = prepare (self, remove_sql (self), error));
  stmt = find_update_of (self, to, from, &failed);
  if (stmt != NULL)
    return stmt;
  if (failed != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failed));
      return NULL;
    }
  return self->update != NULL ? self->update
                              : (self->update = prepare (self, update_sql (self), error));
}

int
cro_replayers_move (GHashTable   *replayers,
                    sqlite3      *db,
                    const char   *table,
                    gint64        row,
                    const char   *to,
                    const char   *from,
                    GError      **error)
{
  Replayer     *self = get_replayer (replayers, db, table, error);
  sqlite3_stmt *stmt = self != NULL ? get_statement (self, to, from, error) : NULL;
  int           status;

  if (stmt == NULL)
    return SQLITE_ERROR;
  sqlite3_bind_int64 (stmt, 1, row);
  if (to != NULL)
    cro_sql_bind_text (stmt, 2, to);
  if (from != NULL)
    cro_sql_bind_text (stmt, 3, from);
  status = sqlite3_step (stmt);
  if (status != SQLITE_DONE)
    status = sqlite3_extended_errcode (db);
  if (status != SQLITE_DONE && (status & 0xff) != SQLITE_CONSTRAINT)
    {
      cro_sql_fail (db, error);
      status = SQLITE_ERROR;
    }
  sqlite3_reset (stmt);
  sqlite3_clear_bindings (stmt);
  return status;
}
