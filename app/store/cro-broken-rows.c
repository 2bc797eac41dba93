#include "cro-broken-rows.h"

#include <string.h>

/* --- Rules -------------------------------------------------------------------------------------- */

/* Tables as a new book has them, where any row may stand alone. */
static sqlite3 *
new_tables (GError **error)
{
  g_autoptr (sqlite3) db = NULL;

  if (sqlite3_open_v2 (":memory:", &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL) != SQLITE_OK)
    {
      cro_sql_fail (db, error);
      return NULL;
    }
  if (!cro_sql_configure (db, error) || !cro_migration_run (db, cro_migration_get (), error))
    return NULL;
  if (sqlite3_db_config (db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL) == SQLITE_OK
      && sqlite3_db_config (db, SQLITE_DBCONFIG_ENABLE_FKEY, 0, NULL) == SQLITE_OK)
    return g_steal_pointer (&db);
  cro_sql_fail (db, error);
  return NULL;
}

static sqlite3_stmt *
prepare_insert (sqlite3     *db,
                const char  *table,
                int          n_columns,
                GError     **error)
{
  g_autoptr (GString) sql = g_string_new (NULL);

  g_string_printf (sql, "INSERT INTO \"%s\" VALUES (?1", table);
  for (int i = 2; i <= n_columns; i++)
    g_string_append_printf (sql, ", ?%d", i);
  g_string_append (sql, ")");
  return cro_sql_prepare (db, sql->str, error);
}

/* Whether a rule of a column, and none of several rows, refuses the values of a row: the database's message says
 * which. */
static gboolean
is_refused (sqlite3_stmt *insert,
            sqlite3_stmt *rows)
{
  int code;

  for (int i = 0; i < sqlite3_column_count (rows); i++)
    sqlite3_bind_value (insert, i + 1, sqlite3_column_value (rows, i));
  sqlite3_step (insert);
  code = sqlite3_extended_errcode (sqlite3_db_handle (insert));
  sqlite3_reset (insert);
  return code == SQLITE_CONSTRAINT_CHECK || code == SQLITE_CONSTRAINT_NOTNULL || code == SQLITE_CONSTRAINT_DATATYPE;
}

gboolean
cro_broken_rows (sqlite3       *db,
                 const char    *table,
                 CroBrokenRow   broken,
                 gpointer       user_data,
                 GError       **error)
{
  g_autofree char *select = g_strdup_printf ("SELECT * FROM \"%s\"", table);
  g_autofree char *clear = g_strdup_printf ("DELETE FROM \"%s\"", table);
  g_autoptr (sqlite3) fresh = new_tables (error);
  g_autoptr (sqlite3_stmt) rows = fresh != NULL ? cro_sql_prepare (db, select, error) : NULL;
  g_autoptr (sqlite3_stmt) insert
      = rows != NULL ? prepare_insert (fresh, table, sqlite3_column_count (rows), error) : NULL;
  int status, id = 0;

  if (insert == NULL)
    return FALSE;
  while (id < sqlite3_column_count (rows) && strcmp (sqlite3_column_name (rows, id), "id") != 0)
    id++;
  while ((status = sqlite3_step (rows)) == SQLITE_ROW)
    {
      if (is_refused (insert, rows) && id < sqlite3_column_count (rows))
        broken (sqlite3_column_int64 (rows, id), sqlite3_errmsg (fresh), user_data);
      if (sqlite3_exec (fresh, clear, NULL, NULL, NULL) != SQLITE_OK)
        return cro_sql_fail (fresh, error);
    }
  return status == SQLITE_DONE || cro_sql_fail (db, error);
}

/* --- Names -------------------------------------------------------------------------------------- */

/* A price names a pack, and that an ingredient and a supplier. */
#define DEEPEST 3

static char *
text_of (sqlite3    *db,
         const char *sql,
         gint64      row)
{
  sqlite3_stmt *stmt = NULL;
  char *text = NULL;

  if (sqlite3_prepare_v2 (db, sql, -1, &stmt, NULL) == SQLITE_OK && sqlite3_bind_int64 (stmt, 1, row) == SQLITE_OK
      && sqlite3_step (stmt) == SQLITE_ROW && sqlite3_column_type (stmt, 0) != SQLITE_NULL)
    text = g_utf8_make_valid ((const char *) sqlite3_column_text (stmt, 0), -1);
  sqlite3_finalize (stmt);
  return text;
}

/* Days of a row that is named by others; which of two prices of a pack it is. */
static void
add_day (GString    *names,
         sqlite3    *db,
         const char *table,
         gint64      row)
{
  static const char *const columns[] = { "from_date", "date" };

  for (gsize i = 0; i < G_N_ELEMENTS (columns); i++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT \"%s\" FROM \"%s\" WHERE id = ?1", columns[i], table);
      g_autofree char *day = text_of (db, sql, row);

      if (day != NULL)
        g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", day);
    }
}

static void
add_name (GString    *names,
          sqlite3    *db,
          const char *table,
          gint64      row,
          int         depth)
{
  g_autofree char *own = g_strdup_printf ("SELECT name FROM \"%s\" WHERE id = ?1", table);
  g_autofree char *name = text_of (db, own, row);
  g_autofree char *named = g_strdup_printf ("SELECT \"table\", \"from\" FROM pragma_foreign_key_list ('%s')"
                                            " ORDER BY id DESC", table);
  g_autoptr (sqlite3_stmt) stmt = NULL;

  if (name != NULL)
    {
      g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", name);
      return;
    }
  stmt = depth < DEEPEST ? cro_sql_prepare (db, named, NULL) : NULL;
  while (stmt != NULL && sqlite3_step (stmt) == SQLITE_ROW)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT \"%s\" FROM \"%s\" WHERE id = ?1", sqlite3_column_text (stmt, 1),
                                              table);
      g_autofree char *id = text_of (db, sql, row);

      if (id != NULL)
        add_name (names, db, (const char *) sqlite3_column_text (stmt, 0), g_ascii_strtoll (id, NULL, 10), depth + 1);
    }
}

/* Names are unique in the table, or in the one that a row of it says more of under the same id. */
#define ONE_OF_A_NAME \
  "SELECT ?1 WHERE EXISTS (SELECT 1 FROM pragma_index_list ('%1$s') AS i WHERE i.\"unique\" AND 'name' =" \
  " (SELECT group_concat (name) FROM pragma_index_info (i.name)))" \
  " OR EXISTS (SELECT 1 FROM pragma_foreign_key_list ('%1$s') WHERE \"from\" = 'id')"

char *
cro_row_dup_name (sqlite3    *db,
                  const char *table,
                  gint64      row,
                  gboolean   *is_own)
{
  g_autofree char *sql = g_strdup_printf (ONE_OF_A_NAME, table);
  g_autofree char *found = text_of (db, sql, row);
  g_autoptr (GString) names = g_string_new (NULL);

  *is_own = found != NULL;
  add_name (names, db, table, row, 0);
  if (!*is_own)
    add_day (names, db, table, row);
  return names->len > 0 ? g_strdup (names->str) : NULL;
}
