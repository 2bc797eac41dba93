#include "cro-replayer.h"

#include "cro-store-private.h"

static void
replayer_free (gpointer data)
{
  CroReplayer *replayer = data;

  g_free (replayer->update);
  g_free (replayer->insert);
  g_free (replayer->remove);
  g_free (replayer);
}

static CroReplayer *
replayer_new (const char  *table,
              char       **columns)
{
  CroReplayer *replayer = g_new (CroReplayer, 1);
  GString     *update = g_string_new (NULL);
  GString     *expected = g_string_new (NULL);
  GString     *insert = g_string_new (NULL);
  GString     *values = g_string_new (NULL);
  GString     *remove = g_string_new (NULL);

  g_string_printf (update, "UPDATE \"%s\" SET ", table);
  g_string_printf (insert, "INSERT INTO \"%s\" (id", table);
  g_string_printf (remove, "DELETE FROM \"%s\" WHERE id = ?1", table);
  for (gsize i = 0; columns[i] != NULL; i++)
    {
      g_string_append_printf (update, "%2$s\"%1$s\" = iif (json_type (?2, '$.%1$s') IS NULL,"
                              " \"%1$s\", json_extract (?2, '$.%1$s'))",
                              columns[i], i == 0 ? "" : ", ");
      g_string_append_printf (expected, " AND (json_type (?3, '$.%1$s') IS NULL OR"
                              " \"%1$s\" IS json_extract (?3, '$.%1$s') COLLATE BINARY)",
                              columns[i]);
      g_string_append_printf (insert, ", \"%s\"", columns[i]);
      g_string_append_printf (values, ", json_extract (?2, '$.%s')", columns[i]);
      g_string_append_printf (remove, " AND \"%1$s\" IS json_extract (?3, '$.%1$s') COLLATE BINARY",
                              columns[i]);
    }
  g_string_append_printf (update, " WHERE id = ?1%s", expected->str);
  g_string_append_printf (insert, ") VALUES (?1%s)", values->str);
  replayer->update = g_string_free (update, FALSE);
  replayer->insert = g_string_free (insert, FALSE);
  replayer->remove = g_string_free (remove, FALSE);
  g_string_free (expected, TRUE);
  g_string_free (values, TRUE);
  return replayer;
}

GHashTable *
cro_replayers_new (void)
{
  return g_hash_table_new_full (g_str_hash, g_str_equal, g_free, replayer_free);
}

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

const CroReplayer *
cro_replayers_get (GHashTable  *replayers,
                   sqlite3     *db,
                   const char  *table,
                   GError     **error)
{
  CroReplayer  *replayer = table != NULL ? g_hash_table_lookup (replayers, table) : NULL;
  g_auto(GStrv) columns = NULL;

  if (replayer != NULL)
    return replayer;
  columns = check_table (db, table, error) ? cro_journal_columns (db, table, error) : NULL;
  if (columns == NULL)
    return NULL;
  replayer = replayer_new (table, columns);
  g_hash_table_insert (replayers, g_strdup (table), replayer);
  return replayer;
}
