#include "cro-store-private.h"

G_DEFINE_QUARK (cro-store-error-quark, cro_store_error)

CroStoreErrorCode
cro_sql_error_code (int sqlite_code)
{
  if (sqlite_code == SQLITE_READONLY_DBMOVED)
    return CRO_STORE_ERROR_GONE;
  switch (sqlite_code & 0xff)
    {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return CRO_STORE_ERROR_LOCKED;
    case SQLITE_READONLY:
      return CRO_STORE_ERROR_READ_ONLY;
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return CRO_STORE_ERROR_DAMAGED;
    case SQLITE_CONSTRAINT:
    case SQLITE_MISMATCH:
    case SQLITE_TOOBIG:
      return CRO_STORE_ERROR_RULE;
    default:
      return CRO_STORE_ERROR_SYSTEM;
    }
}

gboolean
cro_sql_fail (sqlite3  *db,
              GError  **error)
{
  g_set_error_literal (error, CRO_STORE_ERROR, cro_sql_error_code (sqlite3_extended_errcode (db)),
                       sqlite3_errmsg (db));
  return FALSE;
}

sqlite3_stmt *
cro_sql_prepare (sqlite3     *db,
                 const char  *sql,
                 GError     **error)
{
  sqlite3_stmt *stmt = NULL;

  if (sqlite3_prepare_v3 (db, sql, -1, SQLITE_PREPARE_PERSISTENT, &stmt, NULL) != SQLITE_OK)
    cro_sql_fail (db, error);
  return stmt;
}

gboolean
cro_sql_exec (sqlite3     *db,
              const char  *sql,
              GError     **error)
{
  if (sqlite3_exec (db, sql, NULL, NULL, NULL) != SQLITE_OK)
    return cro_sql_fail (db, error);
  return TRUE;
}

gboolean
cro_sql_number (sqlite3     *db,
                const char  *sql,
                gint64      *number,
                GError     **error)
{
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (db, sql, error);

  if (stmt == NULL)
    return FALSE;
  if (sqlite3_step (stmt) != SQLITE_ROW)
    return cro_sql_fail (db, error);
  *number = sqlite3_column_int64 (stmt, 0);
  return TRUE;
}

char **
cro_sql_texts (sqlite3     *db,
               const char  *sql,
               const char  *parameter,
               GError     **error)
{
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (db, sql, error);
  g_autoptr(GStrvBuilder) texts = g_strv_builder_new ();
  int                     status;

  if (stmt == NULL)
    return NULL;
  if (parameter != NULL)
    cro_sql_bind_text (stmt, 1, parameter);
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    g_strv_builder_add (texts, (const char *) sqlite3_column_text (stmt, 0));
  if (status != SQLITE_DONE)
    {
      cro_sql_fail (db, error);
      return NULL;
    }
  return g_strv_builder_end (texts);
}

void
cro_sql_append_name (GString    *sql,
                     const char *name)
{
  g_string_append_c (sql, '"');
  for (const char *c = name; *c != '\0'; c++)
    {
      if (*c == '"')
        g_string_append_c (sql, '"');
      g_string_append_c (sql, *c);
    }
  g_string_append_c (sql, '"');
}

void
cro_sql_append_names (GString           *sql,
                      const char *const *names,
                      const char        *after_each)
{
  for (gsize i = 0; names[i] != NULL; i++)
    {
      if (i > 0)
        g_string_append (sql, ", ");
      cro_sql_append_name (sql, names[i]);
      g_string_append (sql, after_each);
    }
}

void
cro_sql_bind_text (sqlite3_stmt *stmt,
                   int           parameter,
                   const char   *text)
{
  sqlite3_bind_text (stmt, parameter, text, -1, SQLITE_STATIC);
}

/* Recursive triggers make a REPLACE fire the delete trigger, so that not even it escapes the
 * journal. A misspelt column must fail rather than become a text, hence no double-quoted texts. The
 * schema stays trusted: SQLite 3.40 counts its own JSON functions, which the journal's triggers
 * call, among the unsafe ones. A log of 4000 pages (16 MB) is folded in by the writer himself;
 * before that it is cro_store_checkpoint's. */
gboolean
cro_sql_configure (sqlite3  *db,
                   GError  **error)
{
  sqlite3_extended_result_codes (db, 1);
  sqlite3_busy_timeout (db, CRO_STORE_TIME_OUT_MSEC);
  sqlite3_db_config (db, SQLITE_DBCONFIG_DQS_DML, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_DQS_DDL, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  return cro_sql_exec (db,
                       "PRAGMA foreign_keys = ON;"
                       "PRAGMA recursive_triggers = ON;"
                       "PRAGMA temp_store = MEMORY;"
                       "PRAGMA synchronous = NORMAL;"
                       "PRAGMA cache_size = -32768;"
                       "PRAGMA wal_autocheckpoint = 4000;",
                       error);
}
