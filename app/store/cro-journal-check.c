/* What no journal of this program holds. The verification names all of it, and an undo of such an act
 * is refused: both ask here. */
#include "cro-journal-check.h"

#include "cro-store-private.h"
#include "cro-stray.h"

/* Columns for whatever somebody has to say, where a line may end too; any other text is a name. */
const char *const cro_free_texts[] = {
  "closed_at", "contact", "document", "gtin", "hash", "note", "reason", NULL
};

/* The changes from ?3 to ?4 of the acts from ?1 to ?2, each of which gives a row for what must not be:
 * its sentence. */
#define THE_ACTS " id BETWEEN ?1 AND ?2"
#define THE_CHANGES " change.id BETWEEN ?3 AND ?4"

/* The columns of the journal's tables but for the id; and each value that a change tells of one. */
#define KNOWN "WITH known AS MATERIALIZED (SELECT part.name AS tbl, its.name AS col, its.type AS kind" \
              " FROM sqlite_schema AS part, pragma_table_info (part.name) AS its" \
              " WHERE part.type = 'table' AND its.name <> 'id')"
#define TOLD " FROM (SELECT id, tbl, before AS told FROM change WHERE" THE_CHANGES " UNION ALL" \
             " SELECT id, tbl, after FROM change WHERE" THE_CHANGES ") AS change," \
             " json_each (CASE WHEN json_valid (told) THEN told ELSE '{}' END) AS value"

/* What one side says and the other does not, or says alike: of an update both say what moved. */
#define ONE_SIDED(side, other) \
  "EXISTS (SELECT 1 FROM json_each (CASE WHEN json_valid (" side ") THEN " side " ELSE '{}' END)" \
  " AS value WHERE CASE WHEN json_valid (" other ") THEN" \
  " json_type (" other ", '$.' || value.key) IS NULL OR" \
  " json_extract (" other ", '$.' || value.key) IS value.atom END)"

static const char *const never[] = {
  "SELECT 'act ' || id || ' was never ended' FROM act WHERE" THE_ACTS " AND at IS NULL",
  "SELECT 'act ' || id || ' begins before the one before it' FROM act AS later WHERE" THE_ACTS
  " AND first_change < (SELECT first_change FROM act WHERE id < later.id ORDER BY id DESC LIMIT 1)",
  /* An undo takes back what was done and stands, a redo what was done and taken back. */
  "SELECT 'act ' || id || ' is the ' || verb || ' of what does not allow it' FROM act AS later"
  " WHERE" THE_ACTS
  " AND verb <> 'do' AND (of >= id OR (SELECT verb FROM act WHERE id = later.of) IS NOT 'do'"
  " OR verb IS iif ((SELECT verb FROM act WHERE of = later.of AND id < later.id"
  " ORDER BY id DESC LIMIT 1) IS 'undo', 'undo', 'redo'))",
  "SELECT 'act ' || id || ' has no time' FROM act WHERE" THE_ACTS " AND (at NOT GLOB"
  " '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]*Z'"
  " OR julianday (at) IS NULL OR day IS NOT NULL AND day IS NOT date (day, '+0 days'))",
  "SELECT 'act ' || id || ' changed nothing' FROM act AS this WHERE" THE_ACTS
  " AND NOT EXISTS (SELECT 1 FROM change WHERE id = this.first_change AND act = this.id)",
  "SELECT 'change ' || id || ' is of no table of a book' FROM change WHERE" THE_CHANGES
  " AND tbl <> '*' AND tbl NOT IN"
  " (SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT IN (" CRO_STORE_OWN_TABLES ")"
  " AND name NOT LIKE 'sqlite~_%' ESCAPE '~')",
  "SELECT 'change ' || id || ' cannot be read' FROM change WHERE" THE_CHANGES
  " AND (before IS NOT NULL AND CASE WHEN json_valid (before) THEN json_type (before) END"
  " IS NOT 'object'"
  " OR after IS NOT NULL AND CASE WHEN json_valid (after) THEN json_type (after) END IS NOT 'object'"
  " OR before IS NULL AND after IS NULL AND tbl <> '*')",
  /* Values are of the kinds of their columns. */
  KNOWN "SELECT DISTINCT 'change ' || change.id || ' tells what no column of ' || change.tbl || ' can hold'"
  TOLD " LEFT JOIN known ON known.tbl = change.tbl AND known.col = value.key"
  " WHERE change.tbl IN (SELECT tbl FROM known)"
  " AND CASE value.type WHEN 'null' THEN known.kind IS NULL WHEN 'text' THEN known.kind IS NOT 'TEXT'"
  " WHEN 'integer' THEN known.kind IS NOT 'INTEGER' ELSE 1 END",
  "SELECT 'change ' || id || ' tells of a column twice' FROM (SELECT DISTINCT change.id" TOLD
  " GROUP BY change.id, told, value.key HAVING count (*) > 1)",
  "SELECT 'change ' || id || ' tells a name of ' || tbl || ' that has ' || stray FROM"
  " (SELECT DISTINCT change.id, tbl, stray_in (value.atom, value.key) AS stray" TOLD
  " WHERE value.type = 'text') WHERE stray IS NOT NULL",
  "SELECT 'change ' || id || ' moves nothing' FROM change WHERE" THE_CHANGES
  " AND before IS NOT NULL AND after IS NOT NULL"
  " AND (before = '{}' OR " ONE_SIDED ("before", "after") " OR " ONE_SIDED ("after", "before") ")",
  "SELECT 'change ' || id || ' is of a row that ' || tbl || ' never had' FROM change"
  " JOIN sqlite_sequence ON name = tbl WHERE" THE_CHANGES " AND row NOT BETWEEN 1 AND seq",
  /* One more on each side: an act that begins too early or too late takes changes from another. An act reaches to
   * where the next begins, found by its id: nothing orders acts by where they begin. */
  "SELECT 'change ' || change.id || ' is not of its act' FROM change LEFT JOIN act ON act.id = change.act"
  " WHERE change.id BETWEEN ?3 - 1 AND ?4 + 1 AND (act.first_change <= change.id IS NOT TRUE OR change.id >="
  " (SELECT first_change FROM act AS later WHERE later.id > change.act ORDER BY later.id LIMIT 1))",
};

static void
stray_in (sqlite3_context  *context,
          int               n_values,
          sqlite3_value   **values)
{
  const char *text = (const char *) sqlite3_value_text (values[0]);
  const char *column = (const char *) sqlite3_value_text (values[1]);
  uint32_t    stray;
  char       *name;

  if (text == NULL || column == NULL || g_strv_contains (cro_free_texts, column) ||
      !cro_text_is_sound (text, sqlite3_value_bytes (values[0])))
    return;
  stray = cro_stray_find (text, NULL);
  if (stray == 0)
    return;
  name = sqlite3_mprintf ("U+%04X", stray);
  sqlite3_result_text (context, name, -1, sqlite3_free);
}

gboolean
cro_journal_check_configure (sqlite3  *db,
                             GError  **error)
{
  return sqlite3_create_function (db, "stray_in", 2,
                                  SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_DIRECTONLY, NULL,
                                  stray_in, NULL, NULL) == SQLITE_OK ||
         cro_sql_fail (db, error);
}

static gboolean
ask (CroStore         *store,
     const char       *sql,
     const gint64      range[4],
     CroStoreFound     found,
     gpointer          user_data,
     GError          **error)
{
  sqlite3_stmt *stmt = cro_store_take (store, sql, error);
  int           status;

  if (stmt == NULL)
    return FALSE;
  for (int i = 0; i < 4; i++)
    if (i < sqlite3_bind_parameter_count (stmt))
      sqlite3_bind_int64 (stmt, i + 1, range[i]);
  while ((status = sqlite3_step (stmt)) == SQLITE_ROW)
    found ((const char *) sqlite3_column_text (stmt, 0), user_data);
  if (status != SQLITE_DONE)
    cro_sql_fail (store->db, error);
  cro_store_give (store, stmt);
  return status == SQLITE_DONE;
}

static gboolean
ask_all (CroStore         *store,
         const gint64      range[4],
         CroStoreFound     found,
         gpointer          user_data,
         GError          **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (never); i++)
    if (!ask (store, never[i], range, found, user_data, error))
      return FALSE;
  return TRUE;
}

gboolean
cro_journal_check_all (CroStore         *store,
                       CroStoreFound     found,
                       gpointer          user_data,
                       GError          **error)
{
  const gint64 all[4] = { G_MININT64, G_MAXINT64, G_MININT64, G_MAXINT64 };

  return ask_all (store, all, found, user_data, error);
}

static void
keep_first (const char *finding,
            gpointer    user_data)
{
  char **first = user_data;

  if (*first == NULL)
    *first = g_strdup (finding);
}

/* The changes of an act are those up to the first of the next; the newest has all that follow. */
#define LAST_CHANGE "SELECT first_change - 1 FROM act WHERE id > ?1 ORDER BY id LIMIT 1"
#define FIRST_CHANGE "SELECT first_change FROM act WHERE id = ?1"

static gboolean
read_number (CroStore    *store,
             const char  *sql,
             gint64       act,
             gint64      *number,
             GError     **error)
{
  sqlite3_stmt *stmt = cro_store_take (store, sql, error);
  int           status;

  if (stmt == NULL)
    return FALSE;
  sqlite3_bind_int64 (stmt, 1, act);
  status = sqlite3_step (stmt);
  if (status == SQLITE_ROW)
    *number = sqlite3_column_int64 (stmt, 0);
  else if (status != SQLITE_DONE)
    cro_sql_fail (store->db, error);
  cro_store_give (store, stmt);
  return status == SQLITE_ROW || status == SQLITE_DONE;
}

gboolean
cro_journal_check_act (CroStore  *store,
                       gint64     act,
                       GError   **error)
{
  gint64           range[4] = { act, act, G_MININT64, G_MAXINT64 };
  g_autofree char *first = NULL;

  if (!read_number (store, FIRST_CHANGE, act, &range[2], error) ||
      !read_number (store, LAST_CHANGE, act, &range[3], error) ||
      !ask_all (store, range, keep_first, &first, error))
    return FALSE;
  if (first == NULL)
    return TRUE;
  g_set_error_literal (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED, first);
  return FALSE;
}
