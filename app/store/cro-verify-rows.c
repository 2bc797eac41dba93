/* What the rows of a book must hold beyond what its schema asks of each: texts, days, kinds, numbers, and a journal
 * that leads to them. */
#include "cro-verify-private.h"

#include "cro-currency.h"
#include "cro-date.h"
#include "cro-journal-check.h"
#include "cro-unit.h"

/* --- Texts -------------------------------------------------------------------------------- */

static void
is_sound_text (sqlite3_context *context,
               int              n_values,
               sqlite3_value  **values)
{
  sqlite3_result_int (context,
                      sqlite3_value_type (values[0]) != SQLITE_TEXT
                          || cro_text_is_sound ((const char *) sqlite3_value_text (values[0]),
                                                sqlite3_value_bytes (values[0])));
}

static void
told_of_text (CroVerify    *self,
              sqlite3_stmt *stmt)
{
  cro_verify_tell_row (self, CRO_FINDING_TEXT, CRO_VERIFY_ROW (stmt), cro_verify_text (stmt, 2),
                       "row %s of %s has a text that is not UTF-8: %s", cro_verify_text (stmt, 1),
                       cro_verify_text (stmt, 0), cro_verify_text (stmt, 2));
}

static void
told_of_stray (CroVerify    *self,
               sqlite3_stmt *stmt)
{
  cro_verify_tell_row (self, CRO_FINDING_STRAY, CRO_VERIFY_ROW (stmt), cro_verify_text (stmt, 3),
                       "row %s of %s has a name with %s: %s", cro_verify_text (stmt, 1), cro_verify_text (stmt, 0),
                       cro_verify_text (stmt, 3), cro_verify_text (stmt, 2));
}

/* Labels of acts have isolates around names. */
static gboolean
verify_names_in (CroVerify  *self,
                 const char *table,
                 const char *column,
                 GError    **error)
{
  g_autofree char *sql = NULL;

  if (g_str_equal (table, "act") || g_str_equal (table, "change"))
    return TRUE;
  sql = g_strdup_printf ("SELECT '%1$s', id, '%2$s', stray_in (\"%2$s\", '%2$s') FROM \"%1$s\""
                         " WHERE stray_in (\"%2$s\", '%2$s') IS NOT NULL",
                         table, column);
  return cro_verify_each (self, sql, told_of_stray, error);
}

/* Columns that hold a day of the calendar; a month is its first day. */
static const char *const day_columns[] = {
  "date", "day", "document_date", "from_date", "month", "recipes_on", "until", NULL
};

/* The rules of the schema know of a year 0, which the calendar of this program has not. */
static void
is_day (sqlite3_context *context,
        int              n_values,
        sqlite3_value  **values)
{
  const char *text = (const char *) sqlite3_value_text (values[0]);
  size_t      length = (size_t) sqlite3_value_bytes (values[0]);
  CroDate     day;

  sqlite3_result_int (context, text == NULL || cro_date_parse (text, length, &day)
                                   || cro_month_parse (text, length, &day));
}

static void
told_of_day (CroVerify    *self,
             sqlite3_stmt *stmt)
{
  cro_verify_tell_row (self, CRO_FINDING_DAY, CRO_VERIFY_ROW (stmt), cro_verify_text (stmt, 3),
                       "row %s of %s has a date that is none of the years " CRO_FIRST_YEAR " to " CRO_LAST_YEAR
                       ": %s, %s", cro_verify_text (stmt, 1), cro_verify_text (stmt, 0), cro_verify_text (stmt, 2),
                       cro_verify_text (stmt, 3));
}

static gboolean
verify_days_in (CroVerify  *self,
                const char *table,
                const char *column,
                GError    **error)
{
  g_autofree char *sql = NULL;

  if (!g_strv_contains (day_columns, column))
    return TRUE;
  sql = g_strdup_printf ("SELECT '%1$s', id, '%2$s', \"%2$s\" FROM \"%1$s\" WHERE NOT is_day (\"%2$s\")",
                         table, column);
  return cro_verify_each (self, sql, told_of_day, error);
}

/* Names of tables and columns are those of the schema, which was compared. */
static gboolean
verify_texts_of (CroVerify  *self,
                 const char *table,
                 GError    **error)
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

      if (!cro_verify_each (self, sql, told_of_text, error) ||
          !verify_names_in (self, table, columns[i], error) ||
          !verify_days_in (self, table, columns[i], error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
verify_texts (CroVerify *self,
              GError   **error)
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
told_in_words (CroVerify    *self,
               sqlite3_stmt *stmt)
{
  cro_verify_tell (self, "%s", cro_verify_text (stmt, 0));
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
verify_kinds (CroVerify *self,
              GError   **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (never); i++)
    if (!cro_verify_each (self, never[i], told_in_words, error))
      return FALSE;
  return TRUE;
}

static void
told_of_picture (CroVerify    *self,
                 sqlite3_stmt *stmt)
{
  const char *name = (const char *) sqlite3_column_text (stmt, 2);
  g_autoptr(GBytes) data = name != NULL ? cro_picture_take (stmt, name) : NULL;

  if (data == NULL)
    cro_verify_tell (self, "row %s of picture is not what its name says", cro_verify_text (stmt, 1));
}

/* A book of an older version may have none. */
static gboolean
verify_pictures (CroVerify *self,
                 GError   **error)
{
  gint64 n_tables;

  if (!cro_store_number (self->store, "SELECT count(*) FROM sqlite_schema WHERE name = 'picture'", &n_tables,
                         error))
    return FALSE;
  return n_tables == 0
         || cro_verify_each (self, "SELECT data, id, name FROM picture", told_of_picture, error);
}

static void
told_of_journal (const char *finding,
                 gpointer    user_data)
{
  cro_verify_tell (user_data, "%s", finding);
}

/* A journal that could be replayed is replayed: its rows may still not be those of the book. */
static gboolean
verify_journal (CroVerify *self,
                GError   **error)
{
  guint             n_found = self->n_found;
  g_autoptr(GError) failed = NULL;

  if (!cro_journal_check_all (self->store, told_of_journal, self, error))
    return FALSE;
  if (self->n_found > n_found || cro_past_check (self->store, &failed))
    return TRUE;
  if (g_error_matches (failed, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    {
      cro_verify_tell (self, "%s", failed->message);
      return TRUE;
    }
  g_propagate_error (error, g_steal_pointer (&failed));
  return FALSE;
}

/* Ids that were given once must not be given again: the journal speaks of rows by their ids. */
static gboolean
verify_counters (CroVerify *self,
                 GError   **error)
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

      if (!cro_verify_each (self, sql, told_in_words, error))
        return FALSE;
    }
  return TRUE;
}

static void
told_of_unit (CroVerify    *self,
              sqlite3_stmt *stmt)
{
  const char *code = cro_verify_text (stmt, 0);
  CroUnit     unit;

  if (!cro_unit_parse (code, strlen (code), &unit))
    cro_verify_tell (self, "the unit %s is not a book's", code);
}

static gboolean
verify_units (CroVerify *self,
              GError   **error)
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
        cro_verify_tell (self, "the unit %s is missing", info->code);
    }
  return cro_verify_each (self, "SELECT code FROM unit ORDER BY code", told_of_unit, error);
}

static void
told_of_currency (CroVerify    *self,
                  sqlite3_stmt *stmt)
{
  const char *code = cro_verify_text (stmt, 2);
  int         digits;

  if (!cro_currency_find (code, strlen (code), &digits))
    cro_verify_tell_row (self, CRO_FINDING_CURRENCY, CRO_VERIFY_ROW (stmt), code,
                         "row %s of %s has a currency that is not of ISO 4217: %s", cro_verify_text (stmt, 1),
                         cro_verify_text (stmt, 0), code);
}

static gboolean
verify_currencies (CroVerify *self,
                   GError   **error)
{
  return cro_verify_each (self,
                          "SELECT 'book', id, currency FROM book WHERE currency IS NOT NULL UNION ALL"
                          " SELECT 'offer', id, currency FROM offer WHERE currency IS NOT NULL UNION ALL"
                          " SELECT 'rate', id, currency FROM rate",
                          told_of_currency, error);
}

gboolean
cro_verify_rows (CroVerify *self,
                 GError   **error)
{
  return verify_texts (self, error) && verify_pictures (self, error) && verify_kinds (self, error) &&
         verify_counters (self, error) && verify_units (self, error) && verify_currencies (self, error) &&
         verify_journal (self, error);
}
