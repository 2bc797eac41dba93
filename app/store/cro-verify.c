/* Whether a book is what this program would have made: its schema first, and only where nothing in
 * that is a stranger's the rest, as testing a rule means running it: pages, rules and references as
 * SQLite checks them, then what the rows themselves must hold. */
#include "cro-verify-private.h"

#include "cro-broken-rows.h"

static char *
dup_valid (const char *text)
{
  return text != NULL ? g_utf8_make_valid (text, -1) : NULL;
}

/* what may be NULL. */
G_GNUC_PRINTF (6, 0)
static void
tell_all (CroVerify     *self,
          CroFindingKind kind,
          const char    *table,
          gint64         row,
          const char    *what,
          const char    *format,
          va_list        arguments)
{
  g_autofree char *text = g_strdup_vprintf (format, arguments);
  g_autofree char *shown = dup_valid (text);
  g_autofree char *more = dup_valid (what);
  gboolean         is_own = FALSE;
  g_autofree char *name = table != NULL ? cro_row_dup_name (self->store->db, table, row, &is_own) : NULL;
  CroFinding       finding = { kind, table, row, name, is_own, more, shown };

  self->n_found++;
  self->found (&finding, self->user_data);
}

void
cro_verify_tell (CroVerify  *self,
                 const char *format,
                 ...)
{
  va_list arguments;

  va_start (arguments, format);
  tell_all (self, CRO_FINDING_DAMAGE, NULL, 0, NULL, format, arguments);
  va_end (arguments);
}

void
cro_verify_tell_row (CroVerify     *self,
                     CroFindingKind kind,
                     const char    *table,
                     gint64         row,
                     const char    *what,
                     const char    *format,
                     ...)
{
  va_list arguments;

  va_start (arguments, format);
  tell_all (self, kind, table, row, what, format, arguments);
  va_end (arguments);
}

/* part: "table “sale”". */
G_GNUC_PRINTF (3, 4)
static void
tell_of_schema (CroVerify  *self,
                const char *part,
                const char *format,
                ...)
{
  va_list arguments;

  va_start (arguments, format);
  tell_all (self, CRO_FINDING_SCHEMA, NULL, 0, part, format, arguments);
  va_end (arguments);
}

gboolean
cro_verify_each (CroVerify    *self,
                 const char   *sql,
                 CroVerifyTold told,
                 GError      **error)
{
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (self->store->db, sql, error);
  int                     status;

  if (stmt == NULL)
    return FALSE;
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    told (self, stmt);
  return status == SQLITE_DONE || cro_sql_fail (self->store->db, error);
}

const char *
cro_verify_text (sqlite3_stmt *stmt,
                 int           column)
{
  const char *text = (const char *) sqlite3_column_text (stmt, column);

  return text != NULL ? text : "";
}

/* --- The schema --------------------------------------------------------------------------- */

#define SCHEMA "SELECT type, name, tbl_name, sql FROM sqlite_schema"

/* "type name" → its text, "" where it has none. */
static GHashTable *
read_schema (sqlite3 *db,
             GError **error)
{
  g_autoptr(GHashTable)   parts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (db, SCHEMA, error);
  int                     status;

  if (stmt == NULL)
    return NULL;
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    g_hash_table_insert (parts,
                         g_strdup_printf ("%s “%s”", cro_verify_text (stmt, 0), cro_verify_text (stmt, 1)),
                         g_strdup_printf ("%s\n%s", cro_verify_text (stmt, 2), cro_verify_text (stmt, 3)));
  if (status == SQLITE_DONE)
    return g_steal_pointer (&parts);
  cro_sql_fail (db, error);
  return NULL;
}

static GHashTable *
newest_schema (GError **error)
{
  g_autoptr(sqlite3) db = NULL;

  if (sqlite3_open_v2 (":memory:", &db, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL)
          != SQLITE_OK)
    {
      cro_sql_fail (db, error);
      return NULL;
    }
  if (!cro_sql_configure (db, error) || !cro_migration_run (db, cro_migration_get (), error))
    return NULL;
  return read_schema (db, error);
}

/* How an older version's was in detail nobody knows any more. */
static gboolean
verify_older (CroVerify *self,
              int        version,
              GError   **error)
{
  g_autofree char *digest = cro_schema_digest (self->store->db, error);

  if (digest == NULL)
    return FALSE;
  if (g_str_equal (digest, cro_migration_get ()->digests[version - 1]))
    return TRUE;
  self->n_strange++;
  cro_verify_tell (self, "the tables are not those of version %d", version);
  return TRUE;
}

static void
compare_schemas (CroVerify  *self,
                 GHashTable *there,
                 GHashTable *expected)
{
  GHashTableIter iter;
  gpointer       part, text;

  g_hash_table_iter_init (&iter, expected);
  while (g_hash_table_iter_next (&iter, &part, &text))
    {
      const char *found = g_hash_table_lookup (there, part);

      if (found == NULL)
        {
          self->n_missing++;
          tell_of_schema (self, part, "%s is missing", (const char *) part);
        }
      else if (!g_str_equal (found, text))
        {
          self->n_strange++;
          tell_of_schema (self, part, "%s is not as it was made", (const char *) part);
        }
    }
  g_hash_table_iter_init (&iter, there);
  while (g_hash_table_iter_next (&iter, &part, NULL))
    if (!g_hash_table_contains (expected, part))
      {
        self->n_strange++;
        tell_of_schema (self, part, "%s is not a book's", (const char *) part);
      }
}

static gboolean
verify_schema (CroVerify *self,
               GError   **error)
{
  g_autoptr(GHashTable) there = NULL;
  g_autoptr(GHashTable) expected = NULL;
  int                   version;

  if (!cro_migration_get_version (self->store->db, &version, error))
    return FALSE;
  if (version < 1 || version > cro_migration_get ()->version)
    {
      self->n_strange++;
      cro_verify_tell (self, "version %d is not one of a book", version);
      return TRUE;
    }
  if (version < cro_migration_get ()->version)
    return verify_older (self, version, error);
  there = read_schema (self->store->db, error);
  expected = there != NULL ? newest_schema (error) : NULL;
  if (expected == NULL)
    return FALSE;
  compare_schemas (self, there, expected);
  return TRUE;
}

/* --- Pages, constraints and references ---------------------------------------------------- */

/* Of a table one of whose rows breaks a rule, the table: it ends what is said, or the column's name does. */
static char *
dup_table_of (const char *said)
{
  const char *in = strstr (said, "constraint failed in ");

  if (in == NULL)
    in = strstr (said, " value in ");
  return in == NULL ? NULL : g_strndup (strstr (in, "in ") + 3, strcspn (strstr (in, "in ") + 3, "."));
}

typedef struct
{
  CroVerify  *verify;
  const char *table;
} Broken;

static void
told_of_rule (gint64      row,
              const char *why,
              gpointer    user_data)
{
  Broken *self = user_data;

  cro_verify_tell_row (self->verify, CRO_FINDING_RULE, self->table, row, NULL,
                       "row %" G_GINT64_FORMAT " of %s: %s", row, self->table, why);
}

/* What SQLite says of the pages, as far as it can read them: error is set where that is not to the end. The rows are
 * gathered first, as more is read for each. */
static GStrv
read_pages (sqlite3 *db,
            GError **error)
{
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (db, "SELECT integrity_check FROM pragma_integrity_check", error);
  g_autoptr(GStrvBuilder) texts = g_strv_builder_new ();
  int                     status = SQLITE_DONE;

  while (stmt != NULL && (status = sqlite3_step (stmt)) == SQLITE_ROW)
    g_strv_builder_add (texts, (const char *) sqlite3_column_text (stmt, 0));
  if (stmt != NULL && status != SQLITE_DONE)
    cro_sql_fail (db, error);
  return g_strv_builder_end (texts);
}

/* SQLite says one thing for each row that breaks a rule, and not which row: each is asked for its own. */
static gboolean
verify_pages (CroVerify *self,
              GError   **error)
{
  GError                 *failed = NULL;
  g_auto(GStrv)           said = read_pages (self->store->db, &failed);
  g_autoptr(GHashTable)   seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (gsize i = 0; said[i] != NULL; i++)
    {
      char  *table = dup_table_of (said[i]);
      Broken broken = { self, table };
      guint  n_found = self->n_found;

      if (table != NULL && g_hash_table_contains (seen, table))
        g_free (table);
      else if (table == NULL || !cro_broken_rows (self->store->db, table, told_of_rule, &broken, NULL)
               || self->n_found == n_found)
        {
          if (!g_str_equal (said[i], "ok"))
            cro_verify_tell (self, "%s", said[i]);
          g_free (table);
        }
      else
        g_hash_table_add (seen, table);
    }
  if (failed != NULL)
    g_propagate_error (error, failed);
  return failed == NULL;
}

static void
told_of_reference (CroVerify    *self,
                   sqlite3_stmt *stmt)
{
  cro_verify_tell_row (self, CRO_FINDING_REFERENCE, CRO_VERIFY_ROW (stmt), cro_verify_text (stmt, 2),
                       "row %s of %s refers to no %s", cro_verify_text (stmt, 1), cro_verify_text (stmt, 0),
                       cro_verify_text (stmt, 2));
}

static gboolean
verify_all (CroVerify *self,
            GError   **error)
{
  if (!verify_schema (self, error))
    return FALSE;
  if (self->n_strange > 0)
    return TRUE;
  sqlite3_progress_handler (self->store->db, 0, NULL, NULL);
  if (!verify_pages (self, error))
    return FALSE;
  if (self->n_missing > 0)
    return TRUE;
  return cro_verify_each (self, "PRAGMA foreign_key_check", told_of_reference, error) &&
         cro_verify_rows (self, error);
}

/* That it cannot be read to its end is what was to be found out. */
gboolean
cro_store_find (CroStore      *self,
                CroFindingTold found,
                gpointer       user_data,
                GError       **error)
{
  CroVerify             verify = { .store = self, .found = found, .user_data = user_data };
  g_autoptr (GError) failed = NULL;

  g_return_val_if_fail (self != NULL, FALSE);
  g_return_val_if_fail (found != NULL, FALSE);

  if (verify_all (&verify, &failed))
    return TRUE;
  if (g_error_matches (failed, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    {
      cro_verify_tell (&verify, "%s", failed->message);
      return TRUE;
    }
  g_propagate_error (error, g_steal_pointer (&failed));
  return FALSE;
}

/* Who takes findings as the store says them. */
typedef struct
{
  CroStoreFound found;
  gpointer      user_data;
} Plain;

static void
tell_text (const CroFinding *finding,
           gpointer          user_data)
{
  Plain *plain = user_data;

  plain->found (finding->text, plain->user_data);
}

gboolean
cro_store_verify (CroStore     *self,
                  CroStoreFound found,
                  gpointer      user_data,
                  GError      **error)
{
  Plain plain = { found, user_data };

  g_return_val_if_fail (found != NULL, FALSE);

  return cro_store_find (self, tell_text, &plain, error);
}
