/* The triggers that write every change of a row into the journal. They are made from the schema
 * itself, so that no table can be forgotten, and refuse a write while no act is open, whoever
 * makes it. */
#include "cro-store-private.h"

#define PREFIX "journal_"

char **
cro_journal_tables (sqlite3  *db,
                    GError  **error)
{
  return cro_sql_texts (db,
                        "SELECT name FROM sqlite_schema WHERE type = 'table'"
                        " AND name NOT IN (" CRO_STORE_OWN_TABLES ")"
                        " AND name NOT LIKE 'sqlite~_%' ESCAPE '~'"
                        " ORDER BY name",
                        NULL, error);
}

char **
cro_journal_columns (sqlite3     *db,
                     const char  *table,
                     GError     **error)
{
  return cro_sql_texts (db, "SELECT name FROM pragma_table_info (?1) WHERE name <> 'id'", table,
                        error);
}

/* A JSON object of the columns, of an update only of those that moved. Names of columns need no
 * escapes: they are those of the schema. */
static void
append_object (GString     *sql,
               char       **columns,
               const char  *side,
               gboolean     only_moved)
{
  g_string_append (sql, "'{' || substr (");
  for (gsize i = 0; columns[i] != NULL; i++)
    if (only_moved)
      g_string_append_printf (sql,
                              "%1$sCASE WHEN OLD.\"%2$s\" IS NOT NEW.\"%2$s\" COLLATE BINARY"
                              " THEN ',\"%2$s\":' || json_quote (%3$s.\"%2$s\") ELSE '' END",
                              i == 0 ? "" : " || ", columns[i], side);
    else
      g_string_append_printf (sql, "%s',\"%s\":' || json_quote (%s.\"%s\")", i == 0 ? "" : " || ",
                              columns[i], side, columns[i]);
  g_string_append (sql, ", 2) || '}'");
}

static void
append_condition (GString *sql,
                  char   **columns)
{
  g_string_append (sql, "WHEN OLD.id IS NOT NEW.id");
  for (gsize i = 0; columns[i] != NULL; i++)
    g_string_append_printf (sql, " OR OLD.\"%1$s\" IS NOT NEW.\"%1$s\" COLLATE BINARY", columns[i]);
  g_string_append_c (sql, '\n');
}

/* before and after name the row variables of a trigger, NULL for none. */
static char *
trigger_sql (const char  *table,
             char       **columns,
             const char  *verb,
             const char  *before,
             const char  *after)
{
  GString *sql = g_string_new (NULL);
  gboolean is_update = before != NULL && after != NULL;

  g_string_append_printf (sql, "CREATE TRIGGER \"" PREFIX "%s_%s\" AFTER %s ON \"%s\"\n", table,
                          verb, verb, table);
  if (is_update)
    append_condition (sql, columns);
  g_string_append_printf (sql,
                          "BEGIN\n"
                          "  INSERT INTO change (act, tbl, row, before, after) VALUES (\n"
                          "    ifnull ((SELECT CASE WHEN at IS NULL THEN id END FROM act"
                          " ORDER BY id DESC LIMIT 1), RAISE (ABORT, 'no act is open')),\n"
                          "    '%s', ",
                          table);
  g_string_append (sql, is_update ? "CASE WHEN OLD.id IS NEW.id THEN OLD.id"
                                    " ELSE RAISE (ABORT, 'an id never changes') END"
                                  : before != NULL ? "OLD.id" : "NEW.id");
  g_string_append (sql, ", ");
  if (before != NULL)
    append_object (sql, columns, before, is_update);
  else
    g_string_append (sql, "NULL");
  g_string_append (sql, ", ");
  if (after != NULL)
    append_object (sql, columns, after, is_update);
  else
    g_string_append (sql, "NULL");
  g_string_append (sql, ");\nEND");
  return g_string_free (sql, FALSE);
}

static gboolean
arm_table (sqlite3     *db,
           const char  *table,
           GError     **error)
{
  g_auto(GStrv)    columns = cro_journal_columns (db, table, error);
  g_autofree char *on_insert = NULL;
  g_autofree char *on_update = NULL;
  g_autofree char *on_delete = NULL;

  if (columns == NULL)
    return FALSE;
  on_insert = trigger_sql (table, columns, "INSERT", NULL, "NEW");
  on_update = trigger_sql (table, columns, "UPDATE", "OLD", "NEW");
  on_delete = trigger_sql (table, columns, "DELETE", "OLD", NULL);
  return cro_sql_exec (db, on_insert, error) && cro_sql_exec (db, on_update, error) &&
         cro_sql_exec (db, on_delete, error);
}

gboolean
cro_journal_arm (sqlite3  *db,
                 GError  **error)
{
  g_auto(GStrv) tables = cro_journal_tables (db, error);

  if (tables == NULL)
    return FALSE;
  for (gsize i = 0; tables[i] != NULL; i++)
    if (!arm_table (db, tables[i], error))
      return FALSE;
  return TRUE;
}

gboolean
cro_journal_disarm (sqlite3  *db,
                    GError  **error)
{
  g_auto(GStrv)      triggers = NULL;
  g_autoptr(GString) sql = g_string_new (NULL);

  triggers = cro_sql_texts (db,
                            "SELECT name FROM sqlite_schema WHERE type = 'trigger'"
                            " AND name LIKE '" PREFIX "%'",
                            NULL, error);
  if (triggers == NULL)
    return FALSE;
  for (gsize i = 0; triggers[i] != NULL; i++)
    {
      g_string_append (sql, "DROP TRIGGER ");
      cro_sql_append_name (sql, triggers[i]);
      g_string_append_c (sql, ';');
    }
  return cro_sql_exec (db, sql->str, error);
}
