#include "cro-remains.h"

#include <string.h>

#include "cro-path.h"
#include "cro-store-private.h"

#define MOST_COLUMNS 32

/* Instructions of SQLite's machine for one row: pages that lead to one another may have no end. */
#define MOST_FOR_A_ROW 5000000

/* Ids that are tried one by one after a row that cannot be read; then in steps that double. */
#define MOST_ONE_BY_ONE 4096

struct _CroRemains
{
  sqlite3     *db;
  char        *path;
  CroSqlLimit  limit;     /* since the last row */
  int          version;
};

typedef struct
{
  CroRemains    *remains;
  sqlite3_stmt  *stmt;      /* rows from an id on */
  int            n;
  CroRemainsRow  row;
  CroRemainsGap  gap;
  gpointer       user_data;
  gint64         next;      /* the least id that may come */
  gint64         most;      /* the largest id that was ever given; G_MAXINT64: nobody knows */
} Reading;

/* --- Opening ------------------------------------------------------------------------------------ */

/* A file whose end is missing is read up to there, and tables are found though the text of another is
 * not: SQLite calls that a schema that may be written, which query_only forbids again. A log is not
 * folded into what is damaged. */
static gboolean
configure (CroRemains  *self,
           GError     **error)
{
  sqlite3_extended_result_codes (self->db, 1);
  if (!cro_sql_harden (self->db, error))
    return FALSE;
  self->limit.most = MOST_FOR_A_ROW;
  cro_sql_limit (self->db, &self->limit);
  sqlite3_db_config (self->db, SQLITE_DBCONFIG_DEFENSIVE, 0, NULL);
  sqlite3_db_config (self->db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, NULL);
  return cro_sql_exec (self->db,
                       "PRAGMA writable_schema = ON; PRAGMA query_only = ON;"
                       "PRAGMA temp_store = MEMORY",
                       error);
}

static gboolean
try_to_open (CroRemains  *self,
             const char  *name,
             int          flags,
             const char  *before,
             GError     **error)
{
  gint64 is_there;

  g_clear_pointer (&self->db, sqlite3_close);
  if (sqlite3_open_v2 (name, &self->db, flags | SQLITE_OPEN_NOMUTEX, NULL) != SQLITE_OK)
    return cro_sql_fail (self->db, error);
  return configure (self, error) && cro_sql_exec (self->db, before, error) &&
         cro_sql_number (self->db, "SELECT 1 FROM sqlite_schema LIMIT 1", &is_there, error);
}

static gboolean
open_alone (CroRemains  *self,
            GError     **error)
{
  g_autofree char *escaped = g_uri_escape_string (self->path, "/", FALSE);
  g_autofree char *uri = g_strconcat ("file:", escaped, "?immutable=1", NULL);

  return try_to_open (self, uri, SQLITE_OPEN_READONLY | SQLITE_OPEN_URI, "", error);
}

static gboolean
has_log (CroRemains *self)
{
  g_autofree char *log = g_strconcat (self->path, "-wal", NULL);

  return g_file_test (log, G_FILE_TEST_EXISTS);
}

/* What is in a log counts; whoever has the book to himself needs no index of it beside the file. */
static gboolean
open_with_log (CroRemains  *self,
               GError     **error)
{
  return try_to_open (self, self->path, SQLITE_OPEN_READWRITE, "PRAGMA locking_mode = EXCLUSIVE",
                      NULL) ||
         try_to_open (self, self->path, SQLITE_OPEN_READONLY, "", NULL) || open_alone (self, error);
}

CroRemains *
cro_remains_open (const char  *path,
                  GError     **error)
{
  g_autoptr(CroRemains) self = g_new0 (CroRemains, 1);
  g_autoptr(GError)     failed = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  self->path = cro_path_dup_real (path);
  if (self->path == NULL)
    {
      g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_GONE, "the empty name");
      return NULL;
    }
  if (!cro_store_check_kind (self->path, error))
    return NULL;
  if (!(has_log (self) ? open_with_log (self, error) : open_alone (self, error)))
    return NULL;
  if (!cro_migration_get_version (self->db, &self->version, &failed))
    self->version = 0;
  return g_steal_pointer (&self);
}

void
cro_remains_free (CroRemains *self)
{
  if (self == NULL)
    return;
  sqlite3_close (self->db);
  g_free (self->path);
  g_free (self);
}

gboolean
cro_remains_is_newest (CroRemains *self)
{
  return self->version == cro_migration_get ()->version;
}

/* --- A row -------------------------------------------------------------------------------------- */

static gboolean
read_cell (sqlite3_stmt *stmt,
           int           column,
           CroCell      *cell)
{
  const char *text;

  *cell = CRO_CELL_NONE;
  switch (sqlite3_column_type (stmt, column))
    {
    case SQLITE_NULL:
      return TRUE;
    case SQLITE_INTEGER:
      *cell = CRO_CELL_INT (sqlite3_column_int64 (stmt, column));
      return TRUE;
    case SQLITE_TEXT:
      text = (const char *) sqlite3_column_text (stmt, column);
      if (text == NULL || !cro_text_is_sound (text, sqlite3_column_bytes (stmt, column)))
        return FALSE;
      *cell = CRO_CELL_STR (text);
      return TRUE;
    default:
      return FALSE;
    }
}

static gboolean
hand_on (Reading  *self,
         GError  **error)
{
  CroCell cells[MOST_COLUMNS];
  guint32 unreadable = 0;
  gint64  id = sqlite3_column_int64 (self->stmt, 0);

  for (int i = 0; i < self->n; i++)
    if (!read_cell (self->stmt, i + 1, &cells[i]))
      unreadable |= 1u << i;
  return self->row (id, cells, unreadable, self->user_data, error);
}

/* --- Rows and gaps ------------------------------------------------------------------------------ */

static int
step_from (Reading *self,
           gint64   from)
{
  sqlite3_reset (self->stmt);
  sqlite3_bind_int64 (self->stmt, 1, from);
  self->remains->limit.run = 0;
  return sqlite3_step (self->stmt);
}

/* Whether what stands from an id on can be read; that nothing stands there can be, too. */
static gboolean
is_readable (Reading *self,
             gint64   from)
{
  int status = step_from (self, from);

  return status == SQLITE_DONE ||
         (status == SQLITE_ROW && sqlite3_column_int64 (self->stmt, 0) >= from);
}

/* The least id above bad from which on rows can be read again, if those between good and bad are of
 * one stretch; good is such an id. */
static gint64
narrow (Reading *self,
        gint64   bad,
        gint64   good)
{
  while (good - bad > 1)
    {
      gint64 middle = bad + (good - bad) / 2;

      if (is_readable (self, middle))
        good = middle;
      else
        bad = middle;
    }
  return good;
}

/* From self->next on nothing can be read: finds where it can again, and tells the gap. */
static void
pass_over (Reading *self)
{
  gint64 first = MAX (self->next, 1);
  gint64 bad = first;
  gint64 good = first;
  gint64 step = 1;

  for (int tries = 0; good < G_MAXINT64 - step; tries++)
    {
      good += step;
      if (is_readable (self, good))
        break;
      bad = good;
      if (tries >= MOST_ONE_BY_ONE && step < G_MAXINT64 / 4)
        step *= 2;
    }
  good = good >= G_MAXINT64 - step ? G_MAXINT64 : narrow (self, bad, good);
  self->gap (first, good < G_MAXINT64 ? good - 1 : self->most < first ? good : self->most,
             self->user_data);
  self->next = good;
}

/* The last rows of a stretch are those that cannot be read if nothing comes after them. */
static gboolean
read_stretch (Reading   *self,
              gboolean  *is_over,
              GError   **error)
{
  int status = step_from (self, self->next);

  while (status == SQLITE_ROW)
    {
      gint64 id = sqlite3_column_int64 (self->stmt, 0);

      if (id < self->next)
        return TRUE;
      if (!hand_on (self, error))
        return FALSE;
      if (id == G_MAXINT64)
        break;
      self->next = id + 1;
      self->remains->limit.run = 0;
      status = sqlite3_step (self->stmt);
    }
  *is_over = status == SQLITE_DONE || status == SQLITE_ROW;
  return TRUE;
}

static gboolean
read_all (Reading  *self,
          GError  **error)
{
  gboolean is_over = FALSE;

  for (;;)
    {
      if (!read_stretch (self, &is_over, error))
        return FALSE;
      if (is_over)
        return TRUE;
      pass_over (self);
      if (self->next == G_MAXINT64)
        return TRUE;
    }
}

/* --- A table ------------------------------------------------------------------------------------ */

/* A view or a virtual table is another program's. */
#define IS_TABLE "SELECT name FROM sqlite_schema WHERE type = 'table' AND name = ?1" \
                 " AND sql NOT LIKE 'CREATE VIRTUAL%' LIMIT 1"
#define ITS_COLUMNS "SELECT name FROM pragma_table_info (?1)"

static gboolean
is_there (CroRemains *self,
          const char *table)
{
  g_auto(GStrv) found = cro_sql_texts (self->db, IS_TABLE, table, NULL);

  return found != NULL && found[0] != NULL;
}

static sqlite3_stmt *
prepare (CroRemains         *self,
         const char         *table,
         const char *const  *columns,
         int                *n)
{
  g_autoptr(GString) sql = g_string_new ("SELECT id");
  g_auto(GStrv)      known = NULL;

  self->limit.run = 0;
  if (!is_there (self, table))
    return NULL;
  known = cro_sql_texts (self->db, ITS_COLUMNS, table, NULL);
  if (known == NULL)
    return NULL;
  for (*n = 0; columns[*n] != NULL && *n < MOST_COLUMNS; ++*n)
    {
      g_string_append (sql, ", ");
      if (g_strv_contains ((const char *const *) known, columns[*n]))
        cro_sql_append_name (sql, columns[*n]);
      else
        g_string_append (sql, "NULL");
    }
  g_string_append (sql, " FROM ");
  cro_sql_append_name (sql, table);
  g_string_append (sql, " NOT INDEXED WHERE id >= ?1 ORDER BY id");
  return cro_sql_prepare (self->db, sql->str, NULL);
}

/* What the counter of its ids says, where it has one that can be read. */
static gint64
read_most (CroRemains *self,
           const char *table)
{
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (
      self->db, "SELECT seq FROM sqlite_sequence WHERE name = ?1 AND typeof (seq) = 'integer'", NULL);
  gint64                  most = G_MAXINT64;

  self->limit.run = 0;
  if (stmt == NULL)
    return most;
  cro_sql_bind_text (stmt, 1, table);
  if (sqlite3_step (stmt) == SQLITE_ROW)
    most = sqlite3_column_int64 (stmt, 0);
  return most;
}

gboolean
cro_remains_read (CroRemains         *self,
                  const char         *table,
                  const char *const  *columns,
                  CroRemainsRow       row,
                  CroRemainsGap       gap,
                  gpointer            user_data,
                  GError            **error)
{
  Reading                 reading = { self, NULL, 0, row, gap, user_data, G_MININT64, G_MAXINT64 };
  g_autoptr(sqlite3_stmt) stmt = NULL;

  g_return_val_if_fail (self != NULL && table != NULL && columns != NULL, FALSE);

  stmt = prepare (self, table, columns, &reading.n);
  if (stmt == NULL)
    {
      gap (G_MININT64, G_MAXINT64, user_data);
      return TRUE;
    }
  reading.stmt = stmt;
  reading.most = read_most (self, table);
  return read_all (&reading, error);
}

/* Its index may be damaged where it is not. */
GBytes *
cro_remains_read_picture (CroRemains *self,
                          const char *name)
{
  g_autoptr(sqlite3_stmt) stmt = NULL;

  g_return_val_if_fail (self != NULL && name != NULL, NULL);

  self->limit.run = 0;
  if (!is_there (self, "picture"))
    return NULL;
  stmt = cro_sql_prepare (self->db, "SELECT data FROM picture NOT INDEXED WHERE name = ?1", NULL);
  if (stmt == NULL)
    return NULL;
  cro_sql_bind_text (stmt, 1, name);
  return sqlite3_step (stmt) == SQLITE_ROW ? cro_picture_take (stmt, name) : NULL;
}
