/* A copy of a book in memory: nothing that is done to it reaches the file. */
#include "cro-history.h"

#include "cro-store-private.h"

/* --- Row by row ------------------------------------------------------------------------- */

/* Where pictures take more than this, a copy that never shows them goes without: page by page, which is faster,
 * would take them along. */
#define MOST_PICTURES (1024 * 1024)

#define TABLES "SELECT name FROM sqlite_schema WHERE type = 'table' AND sql IS NOT NULL" \
               " AND name <> 'picture' AND name NOT GLOB 'sqlite_*' ORDER BY rowid"

static gboolean
copy_schema (sqlite3     *from,
             sqlite3     *to,
             const char  *sql,
             GError     **error)
{
  g_auto(GStrv) texts = cro_sql_texts (from, sql, NULL, error);

  for (gsize i = 0; texts != NULL && texts[i] != NULL; i++)
    if (!cro_sql_exec (to, texts[i], error))
      return FALSE;
  return texts != NULL;
}

static gboolean
copy_row (sqlite3       *to,
          sqlite3_stmt  *row,
          sqlite3_stmt  *into,
          GError       **error)
{
  for (int i = 0; i < sqlite3_column_count (row); i++)
    sqlite3_bind_value (into, i + 1, sqlite3_column_value (row, i));
  if (sqlite3_step (into) != SQLITE_DONE)
    return cro_sql_fail (to, error);
  sqlite3_reset (into);
  return TRUE;
}

static gboolean
copy_rows (sqlite3     *from,
           sqlite3     *to,
           const char  *table,
           GError     **error)
{
  g_autoptr(GString)      select = g_string_new ("SELECT * FROM ");
  g_autoptr(GString)      insert = g_string_new ("INSERT INTO ");
  g_autoptr(sqlite3_stmt) row = NULL;
  g_autoptr(sqlite3_stmt) into = NULL;
  int                     status;

  cro_sql_append_name (select, table);
  row = cro_sql_prepare (from, select->str, error);
  if (row == NULL)
    return FALSE;
  cro_sql_append_name (insert, table);
  g_string_append (insert, " VALUES (");
  for (int i = 0; i < sqlite3_column_count (row); i++)
    g_string_append (insert, i == 0 ? "?" : ", ?");
  g_string_append (insert, ")");
  into = cro_sql_prepare (to, insert->str, error);
  if (into == NULL)
    return FALSE;
  while ((status = sqlite3_step (row)) == SQLITE_ROW)
    if (!copy_row (to, row, into, error))
      return FALSE;
  return status == SQLITE_DONE || cro_sql_fail (from, error);
}

/* The numbers that SQLite keeps of a file, and of its tables. */
static gboolean
copy_numbers (sqlite3  *from,
              sqlite3  *to,
              GError  **error)
{
  static const char *const names[] = { "application_id", "user_version" };

  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *ask = g_strdup_printf ("PRAGMA %s", names[i]);
      g_autofree char *set = NULL;
      gint64           number;

      if (!cro_sql_number (from, ask, &number, error))
        return FALSE;
      set = g_strdup_printf ("PRAGMA %s = %" G_GINT64_FORMAT, names[i], number);
      if (!cro_sql_exec (to, set, error))
        return FALSE;
    }
  return cro_sql_exec (to, "DELETE FROM sqlite_sequence", error) &&
         copy_rows (from, to, "sqlite_sequence", error);
}

/* Triggers would write what is copied into the journal, and what a version checks an older one did not. */
static gboolean
copy_all (sqlite3  *from,
          sqlite3  *to,
          GError  **error)
{
  g_auto(GStrv) tables = cro_sql_texts (from, TABLES, NULL, error);

  if (tables == NULL ||
      !copy_schema (from, to,
                    "SELECT sql FROM sqlite_schema WHERE type = 'table' AND name NOT GLOB 'sqlite_*'"
                    " ORDER BY rowid",
                    error))
    return FALSE;
  for (gsize i = 0; tables[i] != NULL; i++)
    if (!copy_rows (from, to, tables[i], error))
      return FALSE;
  return copy_schema (from, to,
                      "SELECT sql FROM sqlite_schema WHERE type <> 'table' AND sql IS NOT NULL ORDER BY rowid",
                      error) &&
         copy_numbers (from, to, error);
}

static gboolean
copy_without_pictures (sqlite3  *from,
                       sqlite3  *to,
                       GError  **error)
{
  gboolean done;

  if (!cro_sql_exec (from, "SAVEPOINT copying", error))
    return FALSE;
  done = cro_sql_exec (to, "PRAGMA ignore_check_constraints = ON; BEGIN", error) &&
         copy_all (from, to, error) &&
         cro_sql_exec (to, "COMMIT; PRAGMA ignore_check_constraints = OFF", error);
  return cro_sql_exec (from, "RELEASE copying", done ? error : NULL) && done;
}

static gboolean
copy (CroStore  *self,
      sqlite3   *to,
      gboolean   with_pictures,
      GError   **error)
{
  gint64 n_bytes = 0;

  if (!with_pictures &&
      !cro_sql_number (self->db, "SELECT ifnull (sum (length (data)), 0) FROM picture", &n_bytes, error))
    return FALSE;
  return n_bytes > MOST_PICTURES ? copy_without_pictures (self->db, to, error)
                                 : cro_sql_copy (self->db, to, error);
}

/* --- The copy --------------------------------------------------------------------------- */

CroStore *
cro_store_copy_to_memory (CroStore  *self,
                          gboolean   with_pictures,
                          GError   **error)
{
  g_autoptr(CroStore) made = g_new0 (CroStore, 1);

  made->path = g_strdup (self->path);
  made->mode = CRO_STORE_READ;
  made->is_in_memory = TRUE;
  made->idle = cro_store_idle_new ();
  if (sqlite3_open_v2 (":memory:", &made->db,
                       SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX,
                       NULL) != SQLITE_OK)
    cro_sql_fail (made->db, error);
  else if (copy (self, made->db, with_pictures, error) && cro_sql_configure (made->db, error) &&
           cro_rows_configure (made->db, error) &&
           cro_sql_exec (made->db, "PRAGMA journal_mode = MEMORY; PRAGMA synchronous = OFF;", error))
    return g_steal_pointer (&made);
  return NULL;
}

CroStore *
cro_store_open_trial (CroStore  *self,
                      GError   **error)
{
  CroStore *trial;

  g_return_val_if_fail (self != NULL && self->act == 0, NULL);

  trial = cro_store_copy_to_memory (self, TRUE, error);
  if (trial == NULL)
    return NULL;
  trial->mode = CRO_STORE_WRITE;
  trial->desk = g_strdup ("trial");
  return trial;
}
