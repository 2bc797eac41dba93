/* Whether a book is what this program would have made: its schema first, and only where nothing in
 * that is a stranger's the rest, as testing a rule means running it. */
#include "cro-store-private.h"

#include "cro-unit.h"

typedef struct
{
  CroStore     *store;
  CroStoreFound found;
  gpointer      user_data;
  guint         n_missing;  /* tables, indexes, triggers */
  guint         n_strange;  /* and what is not as it should be, or should not be at all */
} Verify;

G_GNUC_PRINTF (2, 3)
static void
tell (Verify     *self,
      const char *format,
      ...)
{
  va_list          arguments;
  g_autofree char *finding = NULL;
  g_autofree char *shown = NULL;

  va_start (arguments, format);
  finding = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  shown = g_utf8_make_valid (finding, -1);
  self->found (shown, self->user_data);
}

/* Calls told for each row of sql; what it is told is borrowed. */
typedef void (*Told) (Verify *self, sqlite3_stmt *stmt);

static gboolean
each_row (Verify      *self,
          const char  *sql,
          Told         told,
          GError     **error)
{
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (self->store->db, sql, error);
  int                     status;

  if (stmt == NULL)
    return FALSE;
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    told (self, stmt);
  return status == SQLITE_DONE || cro_sql_fail (self->store->db, error);
}

static const char *
text_at (sqlite3_stmt *stmt,
         int           column)
{
  const char *text = (const char *) sqlite3_column_text (stmt, column);

  return text != NULL ? text : "";
}

/* --- The schema --------------------------------------------------------------------------- */

#define SCHEMA "SELECT type, name, tbl_name, sql FROM sqlite_schema"

/* "type name" → its text, "" where it has none. */
static GHashTable *
read_schema (sqlite3  *db,
             GError  **error)
{
  g_autoptr(GHashTable)   parts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_autoptr(sqlite3_stmt) stmt = cro_sql_prepare (db, SCHEMA, error);
  int                     status;

  if (stmt == NULL)
    return NULL;
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    g_hash_table_insert (parts,
                         g_strdup_printf ("%s “%s”", text_at (stmt, 0), text_at (stmt, 1)),
                         g_strdup_printf ("%s\n%s", text_at (stmt, 2), text_at (stmt, 3)));
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
verify_older (Verify  *self,
              int      version,
              GError **error)
{
  g_autofree char *digest = cro_schema_digest (self->store->db, error);

  if (digest == NULL)
    return FALSE;
  if (g_str_equal (digest, cro_migration_get ()->digests[version - 1]))
    return TRUE;
  self->n_strange++;
  tell (self, "the tables are not those of version %d", version);
  return TRUE;
}

static void
compare_schemas (Verify     *self,
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
          tell (self, "%s is missing", (const char *) part);
        }
      else if (!g_str_equal (found, text))
        {
          self->n_strange++;
          tell (self, "%s is not as it was made", (const char *) part);
        }
    }
  g_hash_table_iter_init (&iter, there);
  while (g_hash_table_iter_next (&iter, &part, NULL))
    if (!g_hash_table_contains (expected, part))
      {
        self->n_strange++;
        tell (self, "%s is not a book's", (const char *) part);
      }
}

static gboolean
verify_schema (Verify  *self,
               GError **error)
{
  g_autoptr(GHashTable) there = NULL;
  g_autoptr(GHashTable) expected = NULL;
  int                   version;

  if (!cro_migration_get_version (self->store->db, &version, error))
    return FALSE;
  if (version < 1 || version > cro_migration_get ()->version)
    {
      self->n_strange++;
      tell (self, "version %d is not one of a book", version);
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

static void
told_of_pages (Verify       *self,
               sqlite3_stmt *stmt)
{
  if (g_strcmp0 (text_at (stmt, 0), "ok") != 0)
    tell (self, "%s", text_at (stmt, 0));
}

static void
told_of_reference (Verify       *self,
                   sqlite3_stmt *stmt)
{
  tell (self, "row %s of %s refers to no %s", text_at (stmt, 1), text_at (stmt, 0),
        text_at (stmt, 2));
}

/* --- Texts -------------------------------------------------------------------------------- */

static void
is_sound_text (sqlite3_context  *context,
               int               n_values,
               sqlite3_value   **values)
{
  sqlite3_result_int (context,
                      sqlite3_value_type (values[0]) != SQLITE_TEXT
                          || cro_text_is_sound ((const char *) sqlite3_value_text (values[0]),
                                                sqlite3_value_bytes (values[0])));
}

static void
told_of_text (Verify       *self,
              sqlite3_stmt *stmt)
{
  tell (self, "row %s of %s has a text that is not UTF-8: %s", text_at (stmt, 1),
        text_at (stmt, 0), text_at (stmt, 2));
}

/* Names of tables and columns are those of the schema, which was compared. */
static gboolean
verify_texts_of (Verify      *self,
                 const char  *table,
                 GError     **error)
{
  g_auto(GStrv) columns = cro_sql_texts (self->store->db,
                                         "SELECT name FROM pragma_table_info (?1)"
                                         " WHERE type = 'TEXT'",
                                         table, error);

  if (columns == NULL)
    return FALSE;
  for (gsize i = 0; columns[i] != NULL; i++)
    {
      g_autofree char *sql = g_strdup_printf ("SELECT '%1$s', id, '%2$s' FROM \"%1$s\""
                                              " WHERE NOT is_sound_text (\"%2$s\")",
                                              table, columns[i]);

      if (!each_row (self, sql, told_of_text, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
verify_texts (Verify  *self,
              GError **error)
{
  sqlite3      *db = self->store->db;
  g_auto(GStrv) tables = cro_sql_texts (db,
                                        "SELECT name FROM sqlite_schema WHERE type = 'table'"
                                        " AND name NOT LIKE 'sqlite~_%' ESCAPE '~'",
                                        NULL, error);

  if (tables == NULL)
    return FALSE;
  if (sqlite3_create_function (db, "is_sound_text", 1, SQLITE_UTF8 | SQLITE_DIRECTONLY, NULL,
                               is_sound_text, NULL, NULL) != SQLITE_OK)
    return cro_sql_fail (db, error);
  for (gsize i = 0; tables[i] != NULL; i++)
    if (!verify_texts_of (self, tables[i], error))
      return FALSE;
  return TRUE;
}

/* --- What the program keeps to itself ----------------------------------------------------- */

static void
told_in_words (Verify       *self,
               sqlite3_stmt *stmt)
{
  tell (self, "%s", text_at (stmt, 0));
}

/* Each gives a row for what must not be. An item that is neither bought nor made, or a thing that
 * is neither plate nor menu, is nothing that anybody could open. */
static const char *const never[] = {
  "SELECT 'act ' || id || ' was never ended' FROM act WHERE at IS NULL",
  "SELECT 'act ' || id || ' begins before the one before it' FROM act AS later"
  " WHERE first_change < (SELECT first_change FROM act WHERE id < later.id ORDER BY id DESC"
  " LIMIT 1)",
  "SELECT 'the journal has no numbers left' WHERE 9223372036854775807 IN"
  " ((SELECT max (id) FROM act), (SELECT max (id) FROM change), (SELECT max (first_change) FROM act))",
  /* An undo takes back what was done and stands, a redo what was done and taken back. */
  "SELECT 'act ' || id || ' is the ' || verb || ' of what does not allow it' FROM act AS later"
  " WHERE verb <> 'do' AND (of >= id OR (SELECT verb FROM act WHERE id = later.of) IS NOT 'do'"
  " OR verb IS iif ((SELECT verb FROM act WHERE of = later.of AND id < later.id"
  " ORDER BY id DESC LIMIT 1) IS 'undo', 'undo', 'redo'))",
  "SELECT 'change ' || id || ' is of no table of a book' FROM change WHERE tbl <> '*' AND tbl NOT IN"
  " (SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT IN ('act', 'change')"
  " AND name NOT LIKE 'sqlite~_%' ESCAPE '~')",
  "SELECT 'change ' || id || ' cannot be read' FROM change"
  " WHERE before IS NOT NULL AND CASE WHEN json_valid (before) THEN json_type (before) END"
  " IS NOT 'object'"
  " OR after IS NOT NULL AND CASE WHEN json_valid (after) THEN json_type (after) END IS NOT 'object'"
  " OR before IS NULL AND after IS NULL AND tbl <> '*'",
  /* Keys of the journal are the columns of its tables, but for the id, and values are of their kinds. */
  "WITH known AS MATERIALIZED (SELECT part.name AS tbl, its.name AS col, its.type AS kind"
  " FROM sqlite_schema AS part, pragma_table_info (part.name) AS its"
  " WHERE part.type = 'table' AND its.name <> 'id')"
  " SELECT DISTINCT 'change ' || change.id || ' tells what no column of ' || change.tbl || ' can hold'"
  " FROM (SELECT id, tbl, before AS told FROM change UNION ALL SELECT id, tbl, after FROM change)"
  " AS change, json_each (CASE WHEN json_valid (told) THEN told ELSE '{}' END) AS value"
  " LEFT JOIN known ON known.tbl = change.tbl AND known.col = value.key"
  " WHERE change.tbl IN (SELECT tbl FROM known)"
  " AND CASE value.type WHEN 'null' THEN known.kind IS NULL WHEN 'text' THEN known.kind IS NOT 'TEXT'"
  " WHEN 'integer' THEN known.kind IS NOT 'INTEGER' ELSE 1 END",
  "SELECT 'change ' || change.id || ' is of a row that ' || tbl || ' never had' FROM change"
  " JOIN sqlite_sequence ON name = tbl WHERE row NOT BETWEEN 1 AND seq",
  "SELECT 'act ' || id || ' has no time' FROM act WHERE at NOT GLOB"
  " '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]*Z'"
  " OR julianday (at) IS NULL OR day IS NOT NULL AND day IS NOT date (day, '+0 days')",
  "SELECT 'change ' || id || ' is not of its act' FROM change WHERE act IS NOT"
  " (SELECT id FROM act WHERE first_change <= change.id ORDER BY first_change DESC, id DESC LIMIT 1)",
  "SELECT 'item ' || id || ' is neither bought nor made' FROM item"
  " WHERE id NOT IN (SELECT id FROM ingredient) AND id NOT IN (SELECT id FROM output)",
  "SELECT 'thing ' || id || ' is neither a plate nor a menu' FROM thing"
  " WHERE id NOT IN (SELECT id FROM plate) AND id NOT IN (SELECT id FROM menu)",
  "SELECT 'item ' || id || ' is bought and made' FROM ingredient JOIN output USING (id)",
  "SELECT 'thing ' || id || ' is a plate and a menu' FROM plate JOIN menu USING (id)",
};

static gboolean
verify_journal (Verify  *self,
                GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (never); i++)
    if (!each_row (self, never[i], told_in_words, error))
      return FALSE;
  return TRUE;
}

/* Ids that were given once must not be given again: the journal speaks of rows by their ids. */
static gboolean
verify_counters (Verify  *self,
                 GError **error)
{
  g_auto(GStrv) tables = cro_sql_texts (self->store->db,
                                        "SELECT name FROM sqlite_schema WHERE type = 'table'"
                                        " AND sql LIKE '%AUTOINCREMENT%'",
                                        NULL, error);

  if (tables == NULL)
    return FALSE;
  for (gsize i = 0; tables[i] != NULL; i++)
    {
      g_autofree char *sql = g_strdup_printf (
          "SELECT 'ids of %1$s would be given twice' FROM (SELECT max (id) AS largest FROM \"%1$s\")"
          " WHERE largest > ifnull ((SELECT seq FROM sqlite_sequence WHERE name = '%1$s'), 0)"
          " UNION ALL SELECT 'the counter of the ids of %1$s is broken' FROM sqlite_sequence"
          " WHERE name = '%1$s' AND (typeof (seq) <> 'integer' OR seq NOT BETWEEN 0 AND"
          " 9223372036854775806) UNION ALL"
          " SELECT 'ids of %1$s are counted twice' FROM sqlite_sequence WHERE name = '%1$s'"
          " GROUP BY name HAVING count (*) > 1",
          tables[i]);

      if (!each_row (self, sql, told_in_words, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
verify_units (Verify  *self,
              GError **error)
{
  static const char *const bases[] = {
    [CRO_BASE_GRAM] = "g", [CRO_BASE_MILLILITRE] = "ml", [CRO_BASE_EACH] = "each",
  };

  for (CroUnit unit = 0; unit < CRO_N_UNITS; unit++)
    {
      const CroUnitInfo *info = cro_unit_get (unit);
      g_autofree char   *sql = g_strdup_printf (
            "SELECT 1 WHERE NOT EXISTS (SELECT 1 FROM unit WHERE code = '%s' AND base = '%s')",
            info->code, bases[info->base]);
      gint64             missing = 0;

      if (!cro_store_number (self->store, sql, &missing, error))
        return FALSE;
      if (missing)
        tell (self, "the unit %s is missing", info->code);
    }
  return TRUE;
}

static gboolean
verify_all (Verify  *self,
            GError **error)
{
  if (!verify_schema (self, error))
    return FALSE;
  if (self->n_strange > 0)
    return TRUE;
  sqlite3_progress_handler (self->store->db, 0, NULL, NULL);
  if (!each_row (self, "PRAGMA integrity_check", told_of_pages, error))
    return FALSE;
  if (self->n_missing > 0)
    return TRUE;
  return each_row (self, "PRAGMA foreign_key_check", told_of_reference, error) &&
         verify_texts (self, error) && verify_journal (self, error) &&
         verify_counters (self, error) && verify_units (self, error);
}

/* That it cannot be read to its end is what was to be found out. */
gboolean
cro_store_verify (CroStore       *self,
                  CroStoreFound   found,
                  gpointer        user_data,
                  GError        **error)
{
  Verify             verify = { .store = self, .found = found, .user_data = user_data };
  g_autoptr (GError) failed = NULL;

  g_return_val_if_fail (self != NULL, FALSE);
  g_return_val_if_fail (found != NULL, FALSE);

  if (verify_all (&verify, &failed))
    return TRUE;
  if (g_error_matches (failed, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    {
      tell (&verify, "%s", failed->message);
      return TRUE;
    }
  g_propagate_error (error, g_steal_pointer (&failed));
  return FALSE;
}
