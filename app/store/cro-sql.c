#include "cro-journal-check.h"
#include "cro-store-private.h"

#include <errno.h>
#include <string.h>

G_DEFINE_QUARK (cro-store-error-quark, cro_store_error)

static CroStoreErrorCode
error_code (int sqlite_code)
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
    case SQLITE_INTERRUPT:
      return CRO_STORE_ERROR_DAMAGED;
    case SQLITE_CONSTRAINT:
    case SQLITE_MISMATCH:
    case SQLITE_TOOBIG:
      return CRO_STORE_ERROR_RULE;
    default:
      return CRO_STORE_ERROR_SYSTEM;
    }
}

/* All the JSON that is ever read is the journal's, and SQLite has no code of its own for it. */
static gboolean
is_of_json (sqlite3 *db)
{
  return sqlite3_errcode (db) == SQLITE_ERROR && strcmp (sqlite3_errmsg (db), "malformed JSON") == 0;
}

/* SQLite says that the disk is full where a table has no ids left, too. */
static gboolean
is_of_ids (sqlite3 *db)
{
  g_autoptr(sqlite3_stmt) stmt = NULL;

  return (sqlite3_errcode (db) & 0xff) == SQLITE_FULL &&
         sqlite3_prepare_v2 (db,
                             "SELECT 1 FROM sqlite_sequence"
                             " WHERE typeof (seq) <> 'integer' OR seq = 9223372036854775807",
                             -1, &stmt, NULL) == SQLITE_OK &&
         sqlite3_step (stmt) == SQLITE_ROW;
}

/* Where its log cannot grow SQLite speaks of reading and writing, not of a full disk. */
static gboolean
is_of_disk (sqlite3 *db)
{
  int code = sqlite3_system_errno (db);

  return (sqlite3_errcode (db) & 0xff) == SQLITE_IOERR &&
         (code == ENOSPC || code == EDQUOT || code == EFBIG);
}

gboolean
cro_sql_fail (sqlite3  *db,
              GError  **error)
{
  g_autofree char  *message = g_strdup (is_of_disk (db) ? sqlite3_errstr (SQLITE_FULL)
                                                        : sqlite3_errmsg (db));
  CroStoreErrorCode code = error_code (sqlite3_extended_errcode (db));

  if (is_of_json (db) || is_of_ids (db))
    code = CRO_STORE_ERROR_DAMAGED;
  g_set_error_literal (error, CRO_STORE_ERROR, code, message);
  return FALSE;
}

gboolean
cro_sql_fail_file (GError  *file_error,
                   GError **error)
{
  CroStoreErrorCode code = CRO_STORE_ERROR_SYSTEM;

  switch ((GFileError) file_error->code)
    {
    case G_FILE_ERROR_EXIST:
      code = CRO_STORE_ERROR_EXISTS;
      break;
    case G_FILE_ERROR_NOENT:
    case G_FILE_ERROR_NOTDIR:
      code = CRO_STORE_ERROR_GONE;
      break;
    case G_FILE_ERROR_ROFS:
    case G_FILE_ERROR_ACCES:
    case G_FILE_ERROR_PERM:
      code = CRO_STORE_ERROR_READ_ONLY;
      break;
    default:
      break;
    }
  g_set_error_literal (error, CRO_STORE_ERROR, code, file_error->message);
  g_error_free (file_error);
  return FALSE;
}

gboolean
cro_sql_copy (sqlite3  *from,
              sqlite3  *to,
              GError  **error)
{
  sqlite3_backup *backup = sqlite3_backup_init (to, "main", from, "main");
  int             status;

  if (backup == NULL)
    return cro_sql_fail (to, error);
  status = sqlite3_backup_step (backup, -1);
  sqlite3_backup_finish (backup);
  if (status == SQLITE_DONE)
    return TRUE;
  g_set_error_literal (error, CRO_STORE_ERROR, error_code (status),
                       sqlite3_errstr (status));
  return FALSE;
}

/* How often a limit is looked at, in instructions. */
#define BETWEEN_QUESTIONS 1000

static int
has_run_long_cb (gpointer data)
{
  CroSqlLimit *limit = data;

  limit->run += BETWEEN_QUESTIONS;
  return limit->run > limit->most;
}

void
cro_sql_limit (sqlite3     *db,
               CroSqlLimit *limit)
{
  sqlite3_progress_handler (db, BETWEEN_QUESTIONS, has_run_long_cb, limit);
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

/* --- A connection ------------------------------------------------------------------------- */

static gboolean
is_escaped (char c)
{
  return c == '"' || c == '\\' || (guchar) c < 0x20;
}

static void
append_escape (sqlite3_str *json,
               char         c)
{
  static const char names[] = "\"\"\\\\\bb\ff\nn\rr\tt";

  for (gsize i = 0; i + 1 < sizeof names; i += 2)
    if (names[i] == c)
      {
        sqlite3_str_appendf (json, "\\%c", names[i + 1]);
        return;
      }
  sqlite3_str_appendf (json, "\\u%04x", (guint) (guchar) c);
}

static void
append_quoted (sqlite3_str *json,
               const char  *text,
               int          length)
{
  int from = 0;

  sqlite3_str_appendchar (json, 1, '"');
  for (int i = 0; i < length; i++)
    if (is_escaped (text[i]))
      {
        sqlite3_str_append (json, text + from, i - from);
        append_escape (json, text[i]);
        from = i + 1;
      }
  sqlite3_str_append (json, text + from, length - from);
  sqlite3_str_appendchar (json, 1, '"');
}

/* SQLite's own function of the name is among those that no trigger may call in a schema that is
 * not trusted (3.40): this one is declared to do no harm. Its texts say the same. */
static void
json_quote (sqlite3_context  *context,
            int               n_values,
            sqlite3_value   **values)
{
  sqlite3_str *json;
  int          length;

  switch (sqlite3_value_type (values[0]))
    {
    case SQLITE_NULL:
      sqlite3_result_text (context, "null", 4, SQLITE_STATIC);
      return;
    case SQLITE_TEXT:
      json = sqlite3_str_new (sqlite3_context_db_handle (context));
      append_quoted (json, (const char *) sqlite3_value_text (values[0]),
                     sqlite3_value_bytes (values[0]));
      length = sqlite3_str_length (json);
      if (sqlite3_str_errcode (json) == SQLITE_OK)
        sqlite3_result_text (context, sqlite3_str_finish (json), length, sqlite3_free);
      else
        {
          sqlite3_result_error_code (context, sqlite3_str_errcode (json));
          sqlite3_free (sqlite3_str_finish (json));
        }
      return;
    case SQLITE_BLOB:
      sqlite3_result_error (context, "JSON cannot hold BLOB values", -1);
      return;
    default:
      sqlite3_result_value (context, values[0]);
    }
}

/* Longer than any row of a book, and short enough not to fill the memory. */
#define MOST_BYTES (64 * 1024 * 1024)

/* Nobody asks how much memory SQLite holds, and counting it takes a lock at each piece of it. It is told so before
 * its first use, wherever that is. */
static void __attribute__ ((constructor))
count_no_memory (void)
{
  sqlite3_config (SQLITE_CONFIG_MEMSTATUS, 0);
}

/* A book may come from a stranger: its schema calls nothing that does anything, and nothing
 * attaches another file to it. A misspelt column must fail rather than become a text, hence no
 * double-quoted texts. */
gboolean
cro_sql_harden (sqlite3  *db,
                GError  **error)
{
  sqlite3_db_config (db, SQLITE_DBCONFIG_DQS_DML, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_DQS_DDL, 0, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
  sqlite3_db_config (db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
  sqlite3_limit (db, SQLITE_LIMIT_ATTACHED, 0);
  sqlite3_limit (db, SQLITE_LIMIT_LENGTH, MOST_BYTES);
  return sqlite3_create_function (db, "json_quote", 1,
                                  SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS, NULL,
                                  json_quote, NULL, NULL) == SQLITE_OK ||
         cro_sql_fail (db, error);
}

/* Recursive triggers make a REPLACE fire the delete trigger, so that not even it escapes the
 * journal. A log of 4000 pages (16 MB) is folded in by the writer himself; before that it is
 * cro_store_checkpoint's. */
gboolean
cro_sql_configure (sqlite3  *db,
                   GError  **error)
{
  sqlite3_extended_result_codes (db, 1);
  sqlite3_busy_timeout (db, CRO_STORE_TIME_OUT_MSEC);
  return cro_sql_harden (db, error) && cro_journal_check_configure (db, error) &&
         cro_sql_exec (db,
                       "PRAGMA foreign_keys = ON;"
                       "PRAGMA recursive_triggers = ON;"
                       "PRAGMA temp_store = MEMORY;"
                       "PRAGMA synchronous = NORMAL;"
                       "PRAGMA cache_size = -32768;"
                       "PRAGMA cell_size_check = ON;"
                       "PRAGMA wal_autocheckpoint = 4000;",
                       error);
}
