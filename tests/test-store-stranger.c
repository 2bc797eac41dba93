/* Books that somebody else wrote into: nothing of theirs is run, what no book can hold is told as
 * damage, and the verification names it. */
#include "cro-history.h"
#include "cro-store-private.h"
#include "cro-store.h"
#include "support/store-folder.h"

#include <unistd.h>

/* What never ends fails. */
#define LONGEST_SECONDS 120

/* --- Its schema ----------------------------------------------------------------------------------- */

#define ENDLESS "WITH RECURSIVE r (x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM r) SELECT x FROM r"

static const struct
{
  const char *says;
  const char *sql;
  const char *finding;
} altered[] = {
  { "a view", "CREATE VIEW v AS SELECT 1", "view “v” is not a book's" },
  { "a view that never ends, in the place of a table",
    "DROP TABLE sale; CREATE VIEW sale AS " ENDLESS, "table “sale” is missing" },
  { "a trigger that never ends", "CREATE TRIGGER t AFTER INSERT ON act BEGIN"
    " SELECT count(*) FROM (" ENDLESS "); END", "trigger “t” is not a book's" },
  { "a trigger of the journal dropped", "DROP TRIGGER journal_item_UPDATE",
    "trigger “journal_item_UPDATE” is missing" },
  { "a trigger of the journal that does something else",
    "DROP TRIGGER journal_item_UPDATE; CREATE TRIGGER journal_item_UPDATE AFTER UPDATE ON item"
    " BEGIN DELETE FROM price; END", "trigger “journal_item_UPDATE” is not as it was made" },
  { "an index dropped", "DROP INDEX offer_by_code", "index “offer_by_code” is missing" },
  { "an index of the same name on less", "DROP INDEX price_by_date;"
    " CREATE INDEX price_by_date ON price (offer)", "index “price_by_date” is not as it was made" },
  { "the journal dropped", "DROP TABLE change", "table “change” is missing" },
  { "a column more", "ALTER TABLE sale ADD COLUMN tip INTEGER", "table “sale” is not as it was made" },
  { "a table more whose name is SQL", "CREATE TABLE \"x\"\" SET name = 1 --\" (id INTEGER)",
    "is not a book's" },
};

static void
found_cb (const char *finding,
          gpointer    user_data)
{
  g_ptr_array_add (user_data, g_strdup (finding));
}

static GPtrArray *
verify (const char *path)
{
  GPtrArray *findings = g_ptr_array_new_with_free_func (g_free);
  GError    *error = NULL;
  CroStore  *store = cro_store_open (path, NULL, CRO_STORE_INSPECT, &error);

  cro_test_must (store != NULL, error);
  if (!cro_store_verify (store, found_cb, findings, &error))
    fail_msg ("%s", error->message);
  cro_store_close (store);
  return findings;
}

static gboolean
is_found (GPtrArray  *findings,
          const char *finding)
{
  for (guint i = 0; i < findings->len; i++)
    if (strstr (findings->pdata[i], finding) != NULL)
      return TRUE;
  return FALSE;
}

static void
assert_found (const char *path,
              const char *says,
              const char *finding)
{
  GPtrArray *findings = verify (path);

  if (!is_found (findings, finding))
    fail_msg ("%s is not found, but %u others: %s", says, findings->len,
              findings->len > 0 ? (char *) findings->pdata[0] : "-");
  g_ptr_array_unref (findings);
}

static void
write_raw (const char *path,
           const char *sql)
{
  sqlite3 *db = cro_test_raw (path);

  cro_test_sql (db, "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON");
  cro_test_sql (db, sql);
  sqlite3_close (db);
}

static void
test_an_altered_schema_is_not_opened (void **state)
{
  static const CroStoreMode modes[] = { CRO_STORE_READ, CRO_STORE_WRITE };

  alarm (LONGEST_SECONDS);
  for (gsize i = 0; i < G_N_ELEMENTS (altered); i++)
    {
      CroTestFolder *folder;

      set_up ((void **) &folder);
      write_raw (folder->path, altered[i].sql);
      for (gsize m = 0; m < G_N_ELEMENTS (modes); m++)
        {
          GError *error = NULL;

          if (cro_store_open (folder->path, "cook", modes[m], &error) != NULL)
            fail_msg ("%s was opened", altered[i].says);
          if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_ALTERED))
            fail_msg ("%s: code %d: %s", altered[i].says, error->code, error->message);
          g_clear_error (&error);
        }
      assert_found (folder->path, altered[i].says, altered[i].finding);
      tear_down ((void **) &folder);
    }
  alarm (0);
}

/* --- Its rows ------------------------------------------------------------------------------------- */

#define ACT(sql) "BEGIN; INSERT INTO act (label, desk, verb, first_change)" \
                 " SELECT 'raw', 'raw', 'do', max (id) + 1 FROM change;" sql \
                 "; UPDATE act SET at = '2026-01-01T00:00:00Z' WHERE at IS NULL; COMMIT"

#define LATER(verb, of) "INSERT INTO act (label, desk, at, verb, of, first_change)" \
                        " SELECT 'raw', 'cook', '2026-01-01T00:00:00Z', " verb ", " of \
                        ", max (id) + 1 FROM change"

static const struct
{
  const char *says;
  const char *sql;
  const char *finding;
} broken[] = {
  /* Each row says which rule it is that it breaks. */
  { "a pack of less than nothing", ACT ("UPDATE offer SET pack_size_micro = -1 WHERE id = 1"),
    "row 1 of offer: CHECK constraint failed: pack_size_micro" },
  { "a kind of its own", ACT ("UPDATE ingredient SET kind = 'drink'"), "CHECK constraint failed: kind" },
  { "a reference that leads nowhere", ACT ("DELETE FROM supplier"), "refers to no supplier" },
  { "an item of no kind", ACT ("DELETE FROM ingredient"), "neither bought nor made" },
  { "a thing of no kind", ACT ("DELETE FROM plate"), "neither a plate nor a menu" },
  { "a text that is not UTF-8", ACT ("UPDATE ingredient SET note = CAST (X'41FF' AS TEXT)"),
    "not UTF-8: note" },
  { "a NUL in a text", ACT ("UPDATE ingredient SET note = 'a' || char (0) || 'b'"),
    "not UTF-8: note" },
  { "a unit gone", ACT ("DELETE FROM unit WHERE code = 'tbsp'"), "the unit tbsp is missing" },
  { "a unit of nobody's", ACT ("INSERT INTO unit (code, base) VALUES ('furlong', 'g')"),
    "the unit furlong is not a book's" },
  { "a currency of nobody's", ACT ("INSERT INTO rate (currency, from_date, rate_micro)"
    " VALUES ('ZZZ', '2026-01-01', 1)"), "has a currency that is not of ISO 4217: ZZZ" },
  { "a price from a day of the year 0", ACT ("UPDATE price SET from_date = '0000-01-01' WHERE id = 1"),
    "row 1 of price has a date that is none of the years 0001 to 9999: from_date, 0000-01-01" },
  { "a month of the year 0", ACT ("INSERT INTO month (month) VALUES ('0000-12')"),
    "of month has a date that is none of the years 0001 to 9999: month, 0000-12" },
  { "settings gone that were loaded", ACT ("DELETE FROM book; INSERT INTO change (act, tbl, row)"
    " SELECT max (id), '*', 0 FROM act"), "the row of the table book is missing" },
  { "an act that never ended", "INSERT INTO act (label, desk, verb, first_change)"
    " SELECT 'raw', 'raw', 'do', max (id) + 1 FROM change", "was never ended" },
  { "a change of SQL instead of a table", "INSERT INTO change (act, tbl, row, before) SELECT max (id),"
    " 'item\" SET name = ''x'' --', 1, '{}' FROM act", "of no table of a book" },
  { "a change that is no object", "UPDATE change SET after = '7' WHERE id = 2", "cannot be read" },
  { "an act that is its own undo", "UPDATE act SET verb = 'undo', of = id WHERE id = 1",
    "act 1 is the undo of" },
  { "acts that undo each other", LATER ("'undo'", "1") ";"
    " UPDATE act SET verb = 'undo', of = (SELECT max (id) FROM act) WHERE id = 1",
    "act 1 is the undo of" },
  { "a redo of what was never undone", LATER ("'redo'", "1"), "is the redo of" },
  { "an undo of what is undone", LATER ("'undo'", "1") ";" LATER ("'undo'", "1"), "is the undo of" },
  { "an act with the last number there is", "UPDATE act SET id = 9223372036854775807"
    " WHERE id = (SELECT max (id) FROM act)", "no numbers left" },
  { "a change that is no JSON", "UPDATE change SET after = '{' WHERE id = 2", "cannot be read" },
  { "a change of a column that is not there", "UPDATE change SET after = '{\"x\":1}' WHERE id = 2",
    "change 2 tells what no column" },
  { "a change of an id", "UPDATE change SET before = '{\"id\":1}' WHERE id = 2",
    "change 2 tells what no column" },
  { "a change of a text to a number", "UPDATE change SET tbl = 'item', after = '{\"name\":7}' WHERE id = 2",
    "change 2 tells what no column of item" },
  { "a change of a number to an object", "UPDATE change SET tbl = 'price',"
    " after = '{\"price_micro\":{}}' WHERE id = 2", "change 2 tells what no column of price" },
  { "a change that tells of a column twice", "UPDATE change SET tbl = 'item',"
    " after = '{\"name\":\"a\",\"name\":\"b\"}' WHERE id = 2", "change 2 tells of a column twice" },
  { "a change to a name that turns the text around it", "UPDATE change SET tbl = 'item',"
    " after = '{\"name\":\"a' || char (0x202E) || '\"}' WHERE id = 2",
    "change 2 tells a name of item that has U+202E" },
  { "a name that turns the text around it", ACT ("UPDATE item SET name = 'a' || char (0x202E)"
    " WHERE id = 1"), "row 1 of item has a name with U+202E: name" },
  { "a change that moves nothing", ACT ("UPDATE item SET name = 'a' WHERE id = 1") ";"
    " UPDATE change SET before = after WHERE id = (SELECT max (id) FROM change)", "moves nothing" },
  { "an act that changed nothing", "UPDATE act SET at = '2026-01-01T00:00:00Z', first_change = 9999"
    " WHERE id = (SELECT max (id) FROM act)", "changed nothing" },
  { "a row that is not what the journal says", "UPDATE change SET after = replace (after, 'samphire',"
    " 'dulse') WHERE tbl = 'item' AND row = 1", "row 1 of item is not what the journal says" },
  { "a row that could never have been", ACT ("UPDATE offer SET pack_size_micro = 7 WHERE id = 1") ";"
    " UPDATE change SET before = '{\"pack_size_micro\":-7}' WHERE id = (SELECT max (id) FROM change)",
    "row 1 of offer is not what the journal says" },
  { "a change of a row that never was", "UPDATE change SET row = 9223372036854775807 WHERE tbl = 'item'",
    "is of a row that item never had" },
  { "an act of no time", "UPDATE act SET at = 'soon'", "has no time" },
  { "an act of no day", "UPDATE act SET day = '2026-99-99'", "has no time" },
  { "a change of no act", "UPDATE change SET act = 77 WHERE id = 2", "refers to no act" },
  { "a change of the act before its own", ACT ("UPDATE item SET name = 'a' WHERE id = 1") ";"
    " UPDATE change SET act = act - 1 WHERE id = (SELECT max (id) FROM change)", "is not of its act" },
  { "a change of the act after its own", ACT ("UPDATE item SET name = 'a' WHERE id = 1") ";"
    " UPDATE change SET act = act + 1 WHERE id = (SELECT max (id) - 1 FROM change)", "is not of its act" },
  { "an act that begins too early", ACT ("UPDATE item SET name = 'a' WHERE id = 1") ";"
    " UPDATE act SET first_change = first_change - 1 WHERE id = (SELECT max (id) FROM act)", "is not of its act" },
  { "an id that would be given again", "UPDATE sqlite_sequence SET seq = 0 WHERE name = 'item'",
    "ids of item would be given twice" },
  { "no id left", "UPDATE sqlite_sequence SET seq = 9223372036854775807 WHERE name = 'item'",
    "the counter of the ids of item is broken" },
  { "a counter of words", "UPDATE sqlite_sequence SET seq = 'abc' WHERE name = 'item'",
    "the counter of the ids of item is broken" },
  { "two counters", "INSERT INTO sqlite_sequence SELECT name, seq FROM sqlite_sequence",
    "ids of item are counted twice" },
};

static void
test_what_is_broken_is_found (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (broken); i++)
    {
      CroTestFolder *folder;
      GPtrArray     *findings;

      set_up ((void **) &folder);
      findings = verify (folder->path);
      if (findings->len != 0)
        fail_msg ("a sound book: %s", (char *) findings->pdata[0]);
      g_ptr_array_unref (findings);
      write_raw (folder->path, broken[i].sql);
      assert_found (folder->path, broken[i].says, broken[i].finding);
      tear_down ((void **) &folder);
    }
}

/* Types and what must be set hold by the words of the schema: they are changed and put back. */
#define SCHEMA(from, to, sql) \
  "PRAGMA writable_schema = ON;" \
  "UPDATE sqlite_schema SET sql = replace (sql, " from ", " to ") WHERE name = 'item';" \
  "PRAGMA writable_schema = RESET;" ACT (sql) ";" \
  "PRAGMA writable_schema = ON;" \
  "UPDATE sqlite_schema SET sql = replace (sql, " to ", " from ") WHERE name = 'item';" \
  "PRAGMA writable_schema = RESET"

static const struct
{
  const char *says;
  const char *sql;
} damaged[] = {
  { "a name that is not set", SCHEMA ("'name TEXT NOT NULL'", "'name TEXT'",
                                      "UPDATE item SET name = NULL WHERE id = 1") },
  { "a name that is a number", SCHEMA ("'name TEXT NOT NULL'", "'name INTEGER NOT NULL'",
                                       "UPDATE item SET name = 7 WHERE id = 1") },
  { "a name that is not UTF-8", ACT ("UPDATE item SET name = CAST (X'C3' AS TEXT) WHERE id = 1") },
  { "a name with a NUL", ACT ("UPDATE item SET name = 'a' || char (0) WHERE id = 1") },
};

static gboolean
look_cb (CroRows  *rows,
         gpointer  user_data,
         GError  **error)
{
  assert_true (cro_rows_get_text (rows, 1) == NULL
               || g_utf8_validate (cro_rows_get_text (rows, 1), -1, NULL));
  return TRUE;
}

static void
test_what_no_row_can_hold_is_damage (void **state)
{
  static const char *const columns[] = { "id", "name", NULL };

  for (gsize i = 0; i < G_N_ELEMENTS (damaged); i++)
    {
      CroTestFolder *folder;
      CroStore      *store;
      CroRows       *rows;
      GError        *error = NULL;

      set_up ((void **) &folder);
      write_raw (folder->path, damaged[i].sql);
      store = cro_test_open (folder->path, "cook");
      if (cro_store_read_each (store, "item", columns, look_cb, NULL, &error)
          || !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
        fail_msg ("%s, handed over: %s", damaged[i].says, error != NULL ? error->message : "taken");
      g_clear_error (&error);
      rows = cro_store_read (store, "item", columns, &error);
      while (cro_rows_next (rows, &error))
        look_cb (rows, NULL, NULL);
      if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
        fail_msg ("%s, stepped through: %s", damaged[i].says,
                  error != NULL ? error->message : "taken");
      g_clear_error (&error);
      cro_rows_free (rows);
      cro_store_close (store);
      tear_down ((void **) &folder);
    }
}

/* --- Its journal ---------------------------------------------------------------------------------- */

/* Types and what must be set hold by the words of the schema, which are put back. */
#define JOURNAL(table, change) \
  "PRAGMA writable_schema = ON;" \
  "UPDATE sqlite_schema SET sql = replace (sql, ' NOT NULL,', ' NULL,') WHERE name = '" table "';" \
  "PRAGMA writable_schema = RESET;" change ";" \
  "PRAGMA writable_schema = ON;" \
  "UPDATE sqlite_schema SET sql = replace (sql, ' NULL,', ' NOT NULL,') WHERE name = '" table "';" \
  "PRAGMA writable_schema = RESET"

/* The last act of the cook's desk puts a row into item. */
static const struct
{
  const char *says;
  const char *sql;
  gboolean    is_listed; /* though not undone */
} journals[] = {
  { "no table", JOURNAL ("change", "UPDATE change SET tbl = NULL"), FALSE },
  { "no row", JOURNAL ("change", "UPDATE change SET row = NULL"), FALSE },
  { "a row that is not UTF-8", "UPDATE change SET after = CAST (X'7B2241FF' AS TEXT)", FALSE },
  { "no label", JOURNAL ("act", "UPDATE act SET label = NULL"), FALSE },
  { "a label that is not UTF-8", "UPDATE act SET label = CAST (X'41FF' AS TEXT)", FALSE },
  { "no time", "UPDATE act SET at = NULL", FALSE },
  { "the last number there is", "UPDATE act SET id = 9223372036854775807 WHERE id ="
    " (SELECT max (id) FROM act)", TRUE },
  { "a last change of the last number", "UPDATE act SET first_change = 9223372036854775807 WHERE id ="
    " (SELECT max (id) FROM act)", TRUE },
  { "a number for a row", "UPDATE change SET before = '7', after = '8'", TRUE },
  { "an array for a row", "UPDATE change SET before = '[1]', after = '[2]'", TRUE },
  { "neither a row before nor after", "UPDATE change SET before = NULL, after = NULL", TRUE },
  { "no JSON", "UPDATE change SET after = '{' WHERE after IS NOT NULL", TRUE },
  { "no JSON of a month", "UPDATE change SET tbl = 'month', after = '{'", TRUE },
  { "a column that is not there", "UPDATE change SET before = '{\"x\":1}', after = '{\"x\":2}'",
    TRUE },
  { "its number as a column", "UPDATE change SET before = '{\"id\":1}', after = '{\"id\":2}'", TRUE },
  { "a row that never was", "UPDATE change SET row = 9223372036854775807", TRUE },
  { "a table of units", "UPDATE change SET tbl = 'unit'", TRUE },
  { "a number for a name", "UPDATE change SET after = '{\"name\":7}'", TRUE },
  { "a fraction for a name", "UPDATE change SET after = '{\"name\":7.5}'", TRUE },
  { "an object for a name", "UPDATE change SET after = '{\"name\":{}}'", TRUE },
  { "a name twice", "UPDATE change SET after = '{\"name\":\"dulse\",\"name\":\"dulse\"}'", TRUE },
  { "a name that turns the text around it", "UPDATE change SET after = '{\"name\":\"dulse'"
    " || char (0x202E) || '\"}'", TRUE },
  { "a name with a line break", "UPDATE change SET after = '{\"name\":\"dul\\nse\"}'", TRUE },
  { "another name", "UPDATE change SET after = '{\"name\":\"kelp\"}'", TRUE },
  { "a change that moves nothing", "UPDATE change SET before = after", TRUE },
  { "no change", "DELETE FROM change WHERE tbl = 'item' AND row = 77", TRUE },
  { "a time that is none", "UPDATE act SET at = 'soon'", TRUE },
};

static void
act_of_cook (CroTestFolder *folder)
{
  sqlite3 *db = cro_test_raw (folder->path);

  cro_test_sql (db, "BEGIN; INSERT INTO act (label, desk, verb, first_change)"
                    " SELECT 'dulse', 'cook', 'do', max (id) + 1 FROM change;"
                    "INSERT INTO item VALUES (77, 'dulse');"
                    "UPDATE act SET at = '2026-01-01T00:00:00Z' WHERE at IS NULL; COMMIT");
  sqlite3_close (db);
}

static gboolean
is_listed (CroStore  *store,
           GError   **error)
{
  GPtrArray *acts = cro_store_list_acts (store, 0, 99, error);
  gboolean   listed = acts != NULL;

  for (guint i = 0; listed && i < acts->len; i++)
    {
      GPtrArray *changes = cro_store_list_changes_of_act (store, ((CroAct *) acts->pdata[i])->id,
                                                          error);

      listed = changes != NULL;
      g_clear_pointer (&changes, g_ptr_array_unref);
    }
  g_clear_pointer (&acts, g_ptr_array_unref);
  return listed;
}

static void
assert_damaged (const char *says,
                const char *what,
                GError     *error)
{
  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
    fail_msg ("%s, %s: %s", says, what, error != NULL ? error->message : "taken");
  g_error_free (error);
}

/* And what is not replayed is named by the verification. */
static void
test_a_damaged_journal_is_told_and_not_replayed (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (journals); i++)
    {
      CroTestFolder *folder;
      CroStore      *store;
      GError        *error = NULL;
      gint64         last;

      set_up ((void **) &folder);
      act_of_cook (folder);
      write_raw (folder->path, journals[i].sql);
      store = cro_test_open (folder->path, "cook");
      if (!is_listed (store, &error))
        assert_damaged (journals[i].says, "listed", error);
      else if (!journals[i].is_listed)
        fail_msg ("%s, listed", journals[i].says);
      error = NULL;
      last = cro_store_last_change (store);
      cro_act_free (cro_store_peek_undo (store, NULL));
      if (cro_store_undo (store, NULL, NULL, &error))
        fail_msg ("%s, undone", journals[i].says);
      assert_damaged (journals[i].says, "undone", error);
      assert_int_equal (cro_store_last_change (store), last);
      cro_store_close (store);
      assert_found (folder->path, journals[i].says, "");
      tear_down ((void **) &folder);
    }
}

static void
test_no_ids_left_is_no_full_disk (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store;
  GError        *error = NULL;

  write_raw (folder->path, "UPDATE sqlite_sequence SET seq = 9223372036854775807 WHERE name = 'item'");
  store = cro_test_open (folder->path, "cook");
  assert_true (cro_store_begin_act (store, "dulse", &error));
  assert_false (cro_sql_exec (store->db, "INSERT INTO item (name) VALUES ('dulse')", &error));
  assert_damaged ("no ids left", "inserted", error);
  cro_store_cancel_act (store);
  cro_store_close (store);
}

/* --- The connection ------------------------------------------------------------------------------ */

static gint64
number (CroStore   *store,
        const char *sql)
{
  GError *error = NULL;
  gint64  result = -1;

  if (!cro_store_number (store, sql, &result, &error))
    fail_msg ("%s", error->message);
  return result;
}

static const struct
{
  const char *says;
  const char *sql;
  gint64      value;
} settings[] = {
  { "a kill loses nothing, a power cut at most the last second: the log", /* WAL is 1 or a name */
    "SELECT journal_mode = 'wal' FROM pragma_journal_mode", 1 },
  { "and NORMAL", "PRAGMA synchronous", 1 },
  { "references are kept", "PRAGMA foreign_keys", 1 },
  { "not even REPLACE escapes the journal", "PRAGMA recursive_triggers", 1 },
  { "the schema is not trusted", "PRAGMA trusted_schema", 0 },
  { "constraints are kept", "PRAGMA ignore_check_constraints", 0 },
  { "the schema cannot be written", "PRAGMA writable_schema", 0 },
};

static void
test_settings (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");

  for (gsize i = 0; i < G_N_ELEMENTS (settings); i++)
    if (number (store, settings[i].sql) != settings[i].value)
      fail_msg ("%s", settings[i].says);
  cro_store_close (store);
}

static void
test_nothing_is_attached (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");

  assert_false (cro_sql_exec (store->db, "ATTACH ':memory:' AS other", NULL));
  cro_store_close (store);
}

/* A row that another takes the place of is gone: its end stands in the journal as well. */
static void
test_not_even_a_replacement_escapes_the_journal (void **state)
{
  CroTestFolder *folder = *state;
  CroStore      *store = cro_test_open (folder->path, "cook");
  GError        *error = NULL;
  gint64         last = cro_store_last_change (store);
  char          *sql;

  cro_test_must (cro_store_begin_act (store, "replace", &error), error);
  cro_test_must (cro_sql_exec (store->db, "REPLACE INTO rate (currency, from_date, rate_micro)"
                                          " VALUES ('GBP', '2026-01-01', 1200000)", &error), error);
  cro_test_must (cro_store_end_act (store, NULL, &error), error);
  sql = g_strdup_printf ("SELECT count(*) FROM change WHERE id > %" G_GINT64_FORMAT
                         " AND tbl = 'rate' AND row = 1 AND after IS NULL", last);
  assert_int_equal (number (store, sql), 1);
  g_free (sql);
  cro_store_close (store);
}

/* What the journal writes must be read as JSON by anybody. */
static void
test_the_journal_s_texts_are_json (void **state)
{
  static const char *const texts[] = { "plain", "\"quoted\"", "back\\slash", "line\nfeed\ttab\r",
                                       "\001\037\b\f", "é ≤ 🦀", "/" };
  CroTestFolder           *folder = *state;
  CroStore                *store = cro_test_open (folder->path, "cook");

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      static const char *const column[] = { "note", NULL };
      CroCell                  cell = CRO_CELL_STR (texts[i]);
      GError                  *error = NULL;
      g_auto(GStrv)            read = NULL;

      cro_test_must (cro_store_begin_act (store, "note", &error), error);
      cro_test_must (cro_store_update (store, "ingredient", 1, column, &cell, &error), error);
      cro_test_must (cro_store_end_act (store, NULL, &error), error);
      read = cro_sql_texts (store->db, "SELECT after ->> 'note' FROM change ORDER BY id DESC LIMIT 1",
                            NULL, &error);
      assert_string_equal (read[0], texts[i]);
    }
  cro_store_close (store);
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_an_altered_schema_is_not_opened),
    cmocka_unit_test (test_what_is_broken_is_found),
    cmocka_unit_test (test_what_no_row_can_hold_is_damage),
    cmocka_unit_test (test_a_damaged_journal_is_told_and_not_replayed),
    CASE (test_no_ids_left_is_no_full_disk),
    CASE (test_settings),
    CASE (test_nothing_is_attached),
    CASE (test_not_even_a_replacement_escapes_the_journal),
    CASE (test_the_journal_s_texts_are_json),
  };

  return cmocka_run_group_tests_name ("books of strangers", tests, NULL, NULL);
}
