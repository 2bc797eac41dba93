/* Filling an empty book: the rows are not journalled one by one, as their past is emptiness, so this
 * connection does without triggers meanwhile; what those of the schema forbid is looked for as a
 * whole at the end. Indexes are made once, then, too. All of it is one transaction. */
#include "cro-fill.h"
#include "cro-store-private.h"

/* An empty book holds the units and nothing else. */
gboolean
cro_store_check_empty (CroStore  *self,
                       GError   **error)
{
  g_auto(GStrv) tables = cro_journal_tables (self->db, error);

  if (tables == NULL)
    return FALSE;
  for (gsize i = 0; tables[i] != NULL; i++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT EXISTS (SELECT 1 FROM \"%s\")", tables[i]);
      gint64           holds;

      if (g_str_equal (tables[i], "unit"))
        continue;
      if (!cro_sql_number (self->db, sql, &holds, error))
        return FALSE;
      if (holds)
        {
          g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE,
                       CRO_STORE_NOT_EMPTY ": it holds rows of %s", tables[i]);
          return FALSE;
        }
    }
  return TRUE;
}

static char **
index_texts (CroStore    *self,
             const char  *column,
             GError     **error)
{
  g_autofree char *sql = g_strdup_printf ("SELECT %s FROM sqlite_schema WHERE type = 'index'"
                                          " AND sql IS NOT NULL"
                                          " AND tbl_name NOT IN (" CRO_STORE_OWN_TABLES ")",
                                          column);

  return cro_sql_texts (self->db, sql, NULL, error);
}

static gboolean
exec_all (sqlite3  *db,
          char    **texts,
          GError  **error)
{
  for (gsize i = 0; texts[i] != NULL; i++)
    if (!cro_sql_exec (db, texts[i], error))
      return FALSE;
  return TRUE;
}

static gboolean
strip (CroStore  *self,
       GError   **error)
{
  g_auto(GStrv) drops = NULL;

  self->indexes = index_texts (self, "sql", error);
  if (self->indexes == NULL)
    return FALSE;
  drops = index_texts (self, "'DROP INDEX ' || name", error);
  return drops != NULL && exec_all (self->db, drops, error);
}

/* References are off, as looking up each one while their indexes are gone would be slow, and
 * checked as a whole at the end. SQLite sorts an index in one piece of memory, twice as fast, only
 * where it may go on in a file. */
static gboolean
tune (CroStore  *self,
      GError   **error)
{
  sqlite3_db_config (self->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
  return cro_sql_exec (self->db, "PRAGMA foreign_keys = OFF; PRAGMA temp_store = FILE", error);
}

static void
tune_back (CroStore *self)
{
  cro_sql_exec (self->db, "PRAGMA foreign_keys = ON; PRAGMA temp_store = MEMORY", NULL);
  sqlite3_db_config (self->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 1, NULL);
}

gboolean
cro_store_begin_fill (CroStore    *self,
                      const char  *label,
                      GError     **error)
{
  g_return_val_if_fail (self != NULL && self->act == 0, FALSE);
  g_return_val_if_fail (label != NULL, FALSE);

  if (tune (self, error) && cro_act_begin (self, label, "do", 0, error))
    {
      self->changes_before = sqlite3_total_changes64 (self->db);
      if (cro_store_check_empty (self, error) && strip (self, error))
        return TRUE;
      cro_store_cancel_act (self);
    }
  tune_back (self);
  return FALSE;
}

static gboolean
check_references (CroStore  *self,
                  GError   **error)
{
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (self->db, "PRAGMA foreign_key_check", error);

  if (stmt == NULL)
    return FALSE;
  switch (sqlite3_step (stmt))
    {
    case SQLITE_DONE:
      return TRUE;
    case SQLITE_ROW:
      g_set_error (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE, "row %s of %s refers to no %s",
                   sqlite3_column_text (stmt, 1), sqlite3_column_text (stmt, 0),
                   sqlite3_column_text (stmt, 2));
      return FALSE;
    default:
      return cro_sql_fail (self->db, error);
    }
}

/* What triggers of the schema see to, row by row, everywhere else. */
static gboolean
check_rules (CroStore  *self,
             GError   **error)
{
  static const char *const rules[][2] = {
    { "SELECT EXISTS (SELECT 1 FROM ingredient JOIN output USING (id))",
      "an item is an ingredient or an output, not both" },
    { "SELECT EXISTS (SELECT 1 FROM plate JOIN menu USING (id))",
      "a thing is a plate or a menu, not both" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    {
      gint64 is_broken;

      if (!cro_sql_number (self->db, rules[i][0], &is_broken, error))
        return FALSE;
      if (is_broken)
        {
          g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE, rules[i][1]);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
dress (CroStore  *self,
       GError   **error)
{
  if (!exec_all (self->db, self->indexes, error) || !check_references (self, error) ||
      !check_rules (self, error))
    return FALSE;
  if (sqlite3_total_changes64 (self->db) == self->changes_before)
    return TRUE;
  return cro_store_run_with (self, "INSERT INTO change (act, tbl, row) VALUES (?1, '*', 0)",
                             self->act, error);
}

gboolean
cro_fill_finish (CroStore  *self,
                 GError   **error)
{
  if (!cro_sql_exec (self->db, "SAVEPOINT fill", error))
    return FALSE;
  if (dress (self, error))
    return cro_sql_exec (self->db, "RELEASE fill", error);
  cro_sql_exec (self->db, "ROLLBACK TO fill; RELEASE fill", NULL);
  return FALSE;
}

void
cro_fill_leave (CroStore *self)
{
  g_clear_pointer (&self->indexes, g_strfreev);
  tune_back (self);
}
