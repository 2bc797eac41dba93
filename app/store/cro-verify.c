/* Whether a book is what this program would have made: its schema first, and only where nothing in
 * that is a stranger's the rest, as testing a rule means running it. */
#include "cro-store-private.h"

#include "cro-broken-rows.h"
#include "cro-currency.h"
#include "cro-date.h"
#include "cro-finding.h"
#include "cro-journal-check.h"
#include "cro-unit.h"

typedef struct
{
  CroStore      *store;
  CroFindingTold found;
  gpointer       user_data;
  guint          n_missing;  /* tables, indexes, triggers */
  guint          n_strange;  /* and what is not as it should be, or should not be at all */
  guint          n_found;    /* all that was told */
} Verify;

static char *
dup_valid (const char *text)
{
  return text != NULL ? g_utf8_make_valid (text, -1) : NULL;
}

/* what may be NULL. */
G_GNUC_PRINTF (6, 0)
static void
tell_all (Verify         *self,
          CroFindingKind  kind,
          const char     *table,
          gint64          row,
          const char     *what,
          const char     *format,
          va_list         arguments)
{
  g_autofree char *text = g_strdup_vprintf (format, arguments);
  g_autofree char *shown = dup_valid (text);
  g_autofree char *more = dup_valid (what);
  g_autofree char *name = table != NULL ? cro_row_dup_name (self->store->db, table, row) : NULL;
  CroFinding       finding = { kind, table, row, name, more, shown };

  self->n_found++;
  self->found (&finding, self->user_data);
}

/* Of no row. */
G_GNUC_PRINTF (2, 3)
static void
tell (Verify     *self,
      const char *format,
      ...)
{
  va_list arguments;

  va_start (arguments, format);
  tell_all (self, CRO_FINDING_DAMAGE, NULL, 0, NULL, format, arguments);
  va_end (arguments);
}

/* The table and the id that a row of a finding begins with. */
#define ROW_OF(stmt) (const char *) sqlite3_column_text (stmt, 0), sqlite3_column_int64 (stmt, 1)

G_GNUC_PRINTF (6, 7)
static void
tell_of_row (Verify         *self,
             CroFindingKind  kind,
             const char     *table,
             gint64          row,
             const char     *what,
             const char     *format,
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
tell_of_schema (Verify     *self,
                const char *part,
                const char *format,
                ...)
{
  va_list arguments;

  va_start (arguments, format);
  tell_all (self, CRO_FINDING_SCHEMA, NULL, 0, part, format, arguments);
  va_end (arguments);
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
  Verify     *verify;
  const char *table;
  const char *said;
} Broken;

static void
told_of_rule (gint64   row,
              gpointer user_data)
{
  Broken *self = user_data;

  tell_of_row (self->verify, CRO_FINDING_RULE, self->table, row, NULL, "row %" G_GINT64_FORMAT " of %s: %s", row,
               self->table, self->said);
}

/* What SQLite says of the pages, as far as it can read them: error is set where that is not to the end. The rows are
 * gathered first, as more is read for each. */
static GStrv
read_pages (sqlite3  *db,
            GError  **error)
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

/* SQLite says one thing for each row that breaks a rule, and not which row. */
static gboolean
verify_pages (Verify  *self,
              GError **error)
{
  GError                 *failed = NULL;
  g_auto(GStrv)           said = read_pages (self->store->db, &failed);
  g_autoptr(GHashTable)   seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (gsize i = 0; said[i] != NULL; i++)
    {
      char  *table = dup_table_of (said[i]);
      Broken broken = { self, table, said[i] };
      guint  n_found = self->n_found;

      if (table != NULL && g_hash_table_contains (seen, table))
        g_free (table);
      else if (table == NULL || !cro_broken_rows (self->store->db, table, told_of_rule, &broken, NULL)
               || self->n_found == n_found)
        {
          if (!g_str_equal (said[i], "ok"))
            tell (self, "%s", said[i]);
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
told_of_reference (Verify       *self,
                   sqlite3_stmt *stmt)
{
  tell_of_row (self, CRO_FINDING_REFERENCE, ROW_OF (stmt), text_at (stmt, 2), "row %s of %s refers to no %s",
               text_at (stmt, 1), text_at (stmt, 0), text_at (stmt, 2));
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
  tell_of_row (self, CRO_FINDING_TEXT, ROW_OF (stmt), text_at (stmt, 2),
               "row %s of %s has a text that is not UTF-8: %s", text_at (stmt, 1), text_at (stmt, 0),
               text_at (stmt, 2));
}

static void
told_of_stray (Verify       *self,
               sqlite3_stmt *stmt)
{
  tell_of_row (self, CRO_FINDING_STRAY, ROW_OF (stmt), text_at (stmt, 3), "row %s of %s has a name with %s: %s",
               text_at (stmt, 1), text_at (stmt, 0), text_at (stmt, 3), text_at (stmt, 2));
}

/* Labels of acts have isolates around names. */
static gboolean
verify_names_in (Verify      *self,
                 const char  *table,
                 const char  *column,
                 GError     **error)
{
  g_autofree char *sql = NULL;

  if (g_str_equal (table, "act") || g_str_equal (table, "change"))
    return TRUE;
  sql = g_strdup_printf ("SELECT '%1$s', id, '%2$s', stray_in (\"%2$s\", '%2$s') FROM \"%1$s\""
                         " WHERE stray_in (\"%2$s\", '%2$s') IS NOT NULL",
                         table, column);
  return each_row (self, sql, told_of_stray, error);
}

/* Columns that hold a day of the calendar; a month is its first day. */
static const char *const day_columns[] = {
  "date", "day", "document_date", "from_date", "month", "recipes_on", "until", NULL
};

/* The rules of the schema know of a year 0, which the calendar of this program has not. */
static void
is_day (sqlite3_context  *context,
        int               n_values,
        sqlite3_value   **values)
{
  const char *text = (const char *) sqlite3_value_text (values[0]);
  size_t      length = (size_t) sqlite3_value_bytes (values[0]);
  CroDate     day;

  sqlite3_result_int (context, text == NULL || cro_date_parse (text, length, &day)
                                   || cro_month_parse (text, length, &day));
}

static void
told_of_day (Verify       *self,
             sqlite3_stmt *stmt)
{
  tell_of_row (self, CRO_FINDING_DAY, ROW_OF (stmt), text_at (stmt, 3),
               "row %s of %s has a date that is none of the years " CRO_FIRST_YEAR " to " CRO_LAST_YEAR ": %s, %s",
               text_at (stmt, 1), text_at (stmt, 0), text_at (stmt, 2), text_at (stmt, 3));
}

static gboolean
verify_days_in (Verify      *self,
                const char  *table,
                const char  *column,
                GError     **error)
{
  g_autofree char *sql = NULL;

  if (!g_strv_contains (day_columns, column))
    return TRUE;
  sql = g_strdup_printf ("SELECT '%1$s', id, '%2$s', \"%2$s\" FROM \"%1$s\" WHERE NOT is_day (\"%2$s\")",
                         table, column);
  return each_row (self, sql, told_of_day, error);
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

      if (!each_row (self, sql, told_of_text, error) ||
          !verify_names_in (self, table, columns[i], error) ||
          !verify_days_in (self, table, columns[i], error))
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
                               is_sound_text, NULL, NULL) != SQLITE_OK ||
      sqlite3_create_function (db, "is_day", 1, SQLITE_UTF8 | SQLITE_DIRECTONLY, NULL, is_day, NULL, NULL)
          != SQLITE_OK)
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
  "SELECT 'the journal has no numbers left' WHERE 9223372036854775807 IN"
  " ((SELECT max (id) FROM act), (SELECT max (id) FROM change), (SELECT max (first_change) FROM act))",
  "SELECT 'item ' || id || ' is neither bought nor made' FROM item"
  " WHERE id NOT IN (SELECT id FROM ingredient) AND id NOT IN (SELECT id FROM output)",
  "SELECT 'thing ' || id || ' is neither a plate nor a menu' FROM thing"
  " WHERE id NOT IN (SELECT id FROM plate) AND id NOT IN (SELECT id FROM menu)",
  "SELECT 'item ' || id || ' is bought and made' FROM ingredient JOIN output USING (id)",
  "SELECT 'thing ' || id || ' is a plate and a menu' FROM plate JOIN menu USING (id)",
  /* Loading always writes it; a book that was never loaded may not have it yet. */
  "SELECT 'the row of the table book is missing' WHERE NOT EXISTS (SELECT 1 FROM book)"
  " AND EXISTS (SELECT 1 FROM change WHERE tbl = '*')",
};

static gboolean
verify_kinds (Verify  *self,
              GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (never); i++)
    if (!each_row (self, never[i], told_in_words, error))
      return FALSE;
  return TRUE;
}

static void
told_of_picture (Verify       *self,
                 sqlite3_stmt *stmt)
{
  const char *name = (const char *) sqlite3_column_text (stmt, 2);
  g_autoptr(GBytes) data = name != NULL ? cro_picture_take (stmt, name) : NULL;

  if (data == NULL)
    tell (self, "row %s of picture is not what its name says", text_at (stmt, 1));
}

/* A book of an older version may have none. */
static gboolean
verify_pictures (Verify  *self,
                 GError **error)
{
  gint64 n_tables;

  if (!cro_store_number (self->store, "SELECT count(*) FROM sqlite_schema WHERE name = 'picture'", &n_tables,
                         error))
    return FALSE;
  return n_tables == 0
         || each_row (self, "SELECT data, id, name FROM picture", told_of_picture, error);
}

static void
told_of_journal (const char *finding,
                 gpointer    user_data)
{
  tell (user_data, "%s", finding);
}

/* A journal that could be replayed is replayed: its rows may still not be those of the book. */
static gboolean
verify_journal (Verify  *self,
                GError **error)
{
  guint             n_found = self->n_found;
  g_autoptr(GError) failed = NULL;

  if (!cro_journal_check_all (self->store, told_of_journal, self, error))
    return FALSE;
  if (self->n_found > n_found || cro_past_check (self->store, &failed))
    return TRUE;
  if (g_error_matches (failed, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    {
      tell (self, "%s", failed->message);
      return TRUE;
    }
  g_propagate_error (error, g_steal_pointer (&failed));
  return FALSE;
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

static void
told_of_unit (Verify       *self,
              sqlite3_stmt *stmt)
{
  const char *code = text_at (stmt, 0);
  CroUnit     unit;

  if (!cro_unit_parse (code, strlen (code), &unit))
    tell (self, "the unit %s is not a book's", code);
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
  return each_row (self, "SELECT code FROM unit ORDER BY code", told_of_unit, error);
}

static void
told_of_currency (Verify       *self,
                  sqlite3_stmt *stmt)
{
  const char *code = text_at (stmt, 2);
  int         digits;

  if (!cro_currency_find (code, strlen (code), &digits))
    tell_of_row (self, CRO_FINDING_CURRENCY, ROW_OF (stmt), code,
                 "row %s of %s has a currency that is not of ISO 4217: %s", text_at (stmt, 1), text_at (stmt, 0), code);
}

static gboolean
verify_currencies (Verify  *self,
                   GError **error)
{
  return each_row (self,
                   "SELECT 'book', id, currency FROM book WHERE currency IS NOT NULL UNION ALL"
                   " SELECT 'offer', id, currency FROM offer WHERE currency IS NOT NULL UNION ALL"
                   " SELECT 'rate', id, currency FROM rate",
                   told_of_currency, error);
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
  if (!verify_pages (self, error))
    return FALSE;
  if (self->n_missing > 0)
    return TRUE;
  return each_row (self, "PRAGMA foreign_key_check", told_of_reference, error) &&
         verify_texts (self, error) && verify_pictures (self, error) && verify_kinds (self, error) &&
         verify_counters (self, error) && verify_units (self, error) && verify_currencies (self, error) &&
         verify_journal (self, error);
}

/* That it cannot be read to its end is what was to be found out. */
gboolean
cro_store_find (CroStore        *self,
                CroFindingTold   found,
                gpointer         user_data,
                GError         **error)
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
cro_store_verify (CroStore       *self,
                  CroStoreFound   found,
                  gpointer        user_data,
                  GError        **error)
{
  Plain plain = { found, user_data };

  g_return_val_if_fail (found != NULL, FALSE);

  return cro_store_find (self, tell_text, &plain, error);
}
