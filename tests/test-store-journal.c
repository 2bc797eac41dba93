/* Acts: what is written in them, and what the history keeps of it. */
#include "cro-store-private.h"

#include "support/store-act.h"

/* --- Writing --------------------------------------------------------------------------- */

static void
test_no_write_outside_an_act (void **state)
{
  Fixture                 *fixture = *state;
  static const char *const columns[] = { "name", NULL };
  CroCell                  cell = CRO_CELL_STR ("kelp");
  GError                  *error = NULL;
  CroWriter               *writer = cro_writer_new (fixture->store, "item", columns, &error);

  assert_false (cro_store_update (fixture->store, "item", 1, columns, &cell, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NO_ACT));
  g_clear_error (&error);
  assert_false (cro_store_delete (fixture->store, "sale", 1, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NO_ACT));
  g_clear_error (&error);
  assert_false (cro_writer_insert (writer, &cell, NULL, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NO_ACT));
  g_clear_error (&error);
  cro_writer_free (writer);
}

/* Whoever writes: another program's connection, with references and recursive triggers off. */
static void
test_no_raw_write_outside_an_act (void **state)
{
  static const char *const writes[] = {
    "UPDATE %s SET id = id + 100",
    "DELETE FROM %s",
    "REPLACE INTO %s SELECT * FROM %s LIMIT 1",
  };
  Fixture      *fixture = *state;
  char         *before = cro_test_dump (fixture->folder.path);
  char         *after;
  sqlite3      *db;
  sqlite3_stmt *tables;

  assert_int_equal (sqlite3_open (fixture->folder.path, &db), SQLITE_OK);
  assert_int_equal (sqlite3_prepare_v2 (db, "SELECT name FROM sqlite_schema WHERE type = 'table'"
                                            " AND name NOT IN ('act', 'change', 'picture')"
                                            " AND name NOT LIKE 'sqlite%'", -1, &tables, NULL),
                    SQLITE_OK);
  while (sqlite3_step (tables) == SQLITE_ROW)
    for (gsize i = 0; i < G_N_ELEMENTS (writes); i++)
      {
        const char *table = (const char *) sqlite3_column_text (tables, 0);
        GString    *sql = g_string_new (writes[i]);

        g_string_replace (sql, "%s", table, 0);
        assert_int_not_equal (sqlite3_exec (db, sql->str, NULL, NULL, NULL), SQLITE_OK);
        if (!g_str_equal (sqlite3_errmsg (db), "no act is open") &&
            !(g_str_equal (table, "book") && i == 0)) /* its id is fixed anyway */
          fail_msg ("%s: %s", sql->str, sqlite3_errmsg (db));
        g_string_free (sql, TRUE);
      }
  sqlite3_finalize (tables);
  sqlite3_close (db);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (before);
  g_free (after);
}

static void
test_an_act_is_all_or_nothing (void **state)
{
  Fixture *fixture = *state;
  char    *before = cro_test_dump (fixture->folder.path);
  char    *after;
  GError  *error = NULL;

  begin (fixture->store, "half done");
  insert_item (fixture->store, "kelp");
  cro_store_cancel_act (fixture->store);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (after);

  begin (fixture->store, "a reference that leads nowhere");
  insert_item (fixture->store, "dulse");
  delete (fixture->store, "thing", 1);
  assert_false (cro_store_end_act (fixture->store, NULL, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  g_clear_error (&error);
  /* The act is still open and can be put right. */
  insert (fixture->store, "thing", (const char *const[]){ "id", "name", NULL },
          (CroCell[]){ CRO_CELL_INT (1), CRO_CELL_STR ("marsh tartlet") });
  assert_int_not_equal (end (fixture->store), 0);
  undo (fixture->store);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (after);
  g_free (before);
}

static void
test_an_act_without_a_change_leaves_no_entry (void **state)
{
  Fixture *fixture = *state;
  gint64   last = cro_store_last_change (fixture->store);
  CroAct  *act;

  assert_int_equal (act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("samphire")), 0);
  begin (fixture->store, "nothing");
  assert_int_equal (end (fixture->store), 0);
  assert_int_equal (cro_store_last_change (fixture->store), last);
  act = cro_store_peek_undo (fixture->store, NULL);
  assert_null (act);
}

static void
test_a_refused_write_leaves_the_act_open (void **state)
{
  Fixture                 *fixture = *state;
  static const char *const columns[] = { "name", NULL };
  CroCell                  taken = CRO_CELL_STR ("samphire purée");
  GError                  *error = NULL;

  begin (fixture->store, "rename");
  assert_false (cro_store_update (fixture->store, "item", 1, columns, &taken, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  g_clear_error (&error);
  assert_false (cro_store_delete (fixture->store, "item", 99, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  g_clear_error (&error);
  set_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("marsh samphire"));
  assert_int_not_equal (end (fixture->store), 0);
  assert_text (fixture->store, "item", 1, "name", "marsh samphire");
}

/* Rows 0 to CRO_WRITER_BLOCK - 1; every name is another but that of row `twin`, which is row 0's. */
static gboolean
insert_block (CroStore  *store,
              int        twin,
              gint64    *ids,
              GError   **error)
{
  static const char *const columns[] = { "name", NULL };
  CroWriter *writer = cro_writer_new (store, "supplier", columns, error);
  CroCell    cells[CRO_WRITER_BLOCK];
  char       names[CRO_WRITER_BLOCK][16];
  gboolean   done;

  for (int i = 0; i < CRO_WRITER_BLOCK; i++)
    {
      g_snprintf (names[i], sizeof names[i], "boat %d", i == twin ? 0 : i);
      cells[i] = CRO_CELL_STR (names[i]);
    }
  done = cro_writer_insert_block (writer, cells, ids, error);
  cro_writer_free (writer);
  return done;
}

static void
test_a_block_is_its_rows_one_by_one (void **state)
{
  Fixture   *fixture = *state;
  GError    *error = NULL;
  gint64     ids[CRO_WRITER_BLOCK];
  gint64     act;
  GPtrArray *changes;
  char      *before;
  char      *after;

  begin (fixture->store, "boats");
  cro_test_must (insert_block (fixture->store, 0, ids, &error), error);
  act = end (fixture->store);
  for (int i = 0; i < CRO_WRITER_BLOCK; i++)
    {
      g_autofree char *name = g_strdup_printf ("boat %d", i);

      assert_text (fixture->store, "supplier", ids[i], "name", name);
    }
  changes = cro_store_list_changes_of_act (fixture->store, act, &error);
  assert_int_equal (changes->len, CRO_WRITER_BLOCK);
  g_ptr_array_unref (changes);
  undo (fixture->store);

  before = cro_test_dump (fixture->folder.path);
  begin (fixture->store, "two of one name");
  assert_false (insert_block (fixture->store, CRO_WRITER_BLOCK - 1, ids, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  g_clear_error (&error);
  assert_int_equal (end (fixture->store), 0);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (after);
  g_free (before);
}

static void
test_a_change_holds_what_moved (void **state)
{
  Fixture   *fixture = *state;
  gint64     act = act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (9500000));
  GPtrArray *changes = cro_store_list_changes_of_act (fixture->store, act, NULL);
  CroChange *change;

  assert_int_equal (changes->len, 1);
  change = changes->pdata[0];
  assert_string_equal (change->table, "plate");
  assert_int_equal (change->row, 1);
  assert_int_equal (change->act, act);
  assert_string_equal (change->before, "{\"price_micro\":9000000}");
  assert_string_equal (change->after, "{\"price_micro\":9500000}");
  g_ptr_array_unref (changes);
}

/* Column, before and after of all that moved in the only change of an act. */
static char *
moved_text (CroStore *store,
            gint64    act)
{
  GPtrArray *changes = cro_store_list_changes_of_act (store, act, NULL);
  GString   *text = g_string_new (NULL);
  GError    *error = NULL;
  GPtrArray *moved;

  assert_int_equal (changes->len, 1);
  moved = cro_store_list_moved (store, ((CroChange *) changes->pdata[0])->id, &error);
  cro_test_must (moved != NULL, error);
  for (guint i = 0; i < moved->len; i++)
    {
      const CroMoved *at = moved->pdata[i];

      g_string_append_printf (text, "%s:%s>%s ", at->column, at->before != NULL ? at->before : "-",
                              at->after != NULL ? at->after : "-");
    }
  g_ptr_array_unref (moved);
  g_ptr_array_unref (changes);
  return g_string_free (text, FALSE);
}

static void
test_what_moved_is_told_column_by_column (void **state)
{
  static const char *const columns[] = { "note", "price_micro", NULL };
  static const char *const of_rate[] = { "currency", "from_date", "rate_micro", NULL };
  Fixture *fixture = *state;
  CroCell  cells[] = { CRO_CELL_NONE, CRO_CELL_INT (9500000) };
  CroCell  rate[] = { CRO_CELL_STR ("CHF"), CRO_CELL_STR ("2026-03-01"), CRO_CELL_INT (1050000) };
  GError  *error = NULL;
  char    *text;

  begin (fixture->store, "two of many");
  cro_test_must (cro_store_update (fixture->store, "plate", 1, columns, cells, &error), error);
  text = moved_text (fixture->store, end (fixture->store));
  assert_string_equal (text, "price_micro:9000000>9500000 note:n>- ");
  g_free (text);
  begin (fixture->store, "a row that came");
  insert (fixture->store, "rate", of_rate, rate);
  text = moved_text (fixture->store, end (fixture->store));
  if (strstr (text, "currency:->CHF from_date:->2026-03-01 rate_micro:->1050000 ") == NULL)
    fail_msg ("%s", text);
  g_free (text);
  begin (fixture->store, "a row that went");
  delete (fixture->store, "yield_test_part", 1);
  text = moved_text (fixture->store, end (fixture->store));
  if (strstr (text, "weight_g_micro:90000000>- ") == NULL)
    fail_msg ("%s", text);
  g_free (text);
}

static void
test_nothing_moved_in_what_is_no_change (void **state)
{
  Fixture   *fixture = *state;
  GError    *error = NULL;
  GPtrArray *moved = cro_store_list_moved (fixture->store, 4711, &error);

  cro_test_must (moved != NULL, error);
  assert_int_equal (moved->len, 0);
  g_ptr_array_unref (moved);
}

/* --- History --------------------------------------------------------------------------- */

static void
test_history_after_reopening (void **state)
{
  Fixture   *fixture = *state;
  char      *before = cro_test_dump (fixture->folder.path);
  char      *after;
  GPtrArray *acts, *changes;
  CroAct    *act;
  gint64     id = act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("a"));

  undo (fixture->store);
  redo (fixture->store);
  cro_store_close (fixture->store);
  fixture->store = cro_test_open (fixture->folder.path, "cook");

  acts = cro_store_list_acts (fixture->store, 0, 3, NULL);
  assert_int_equal (acts->len, 3);
  act = acts->pdata[0];
  assert_int_equal (act->verb, CRO_ACT_REDO);
  assert_int_equal (act->of, id);
  assert_string_equal (act->label, "name");
  assert_string_equal (act->desk, "cook");
  assert_int_equal (strlen (act->at), strlen ("2026-03-01T10:00:00Z"));
  act = acts->pdata[1];
  assert_int_equal (act->verb, CRO_ACT_UNDO);
  act = acts->pdata[2];
  assert_int_equal (act->verb, CRO_ACT_DO);
  assert_int_equal (act->of, 0);
  g_ptr_array_unref (acts);

  acts = cro_store_list_acts (fixture->store, id, 10, NULL);
  assert_int_equal (acts->len, 1); /* the rows of the fixture */
  g_ptr_array_unref (acts);

  changes = cro_store_list_changes_of_row (fixture->store, "item", 1, NULL);
  assert_int_equal (changes->len, 4);
  assert_null (((CroChange *) changes->pdata[3])->before);
  assert_string_equal (((CroChange *) changes->pdata[0])->after, "{\"name\":\"a\"}");
  assert_string_equal (((CroChange *) changes->pdata[1])->after, "{\"name\":\"samphire\"}");
  g_ptr_array_unref (changes);

  changes = cro_store_list_changes_after (fixture->store,
                                          cro_store_last_change (fixture->store) - 2, NULL);
  assert_int_equal (changes->len, 2);
  assert_string_equal (((CroChange *) changes->pdata[1])->before, "");
  assert_string_equal (((CroChange *) changes->pdata[1])->after, "{\"name\":\"a\"}");
  g_ptr_array_unref (changes);

  undo (fixture->store);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (before);
  g_free (after);
}

/* --- Filling --------------------------------------------------------------------------- */

static void
fill_items (CroStore *store,
            guint     n)
{
  for (guint i = 0; i < n; i++)
    {
      char *name = g_strdup_printf ("item %u", i);

      insert_item (store, name);
      g_free (name);
    }
}

static char *
dump_schema (const char *path)
{
  sqlite3      *db = cro_test_raw (path);
  GString      *dump = g_string_new (NULL);
  sqlite3_stmt *stmt;

  assert_int_equal (sqlite3_prepare_v2 (db, "SELECT type || name || ifnull (sql, '')"
                                            " FROM sqlite_schema ORDER BY type, name", -1, &stmt,
                                        NULL), SQLITE_OK);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    g_string_append (dump, (const char *) sqlite3_column_text (stmt, 0));
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  return g_string_free (dump, FALSE);
}

static void
test_a_fill_is_one_entry_without_rows (void **state)
{
  Fixture   *fixture = *state;
  GError    *error = NULL;
  GPtrArray *changes;
  char      *schema = dump_schema (fixture->folder.path);
  char      *after;
  gint64     act;

  cro_test_must (cro_store_begin_fill (fixture->store, "load", &error), error);
  fill_items (fixture->store, 500);
  act = end (fixture->store);
  changes = cro_store_list_changes_of_act (fixture->store, act, &error);
  assert_int_equal (changes->len, 1);
  assert_string_equal (((CroChange *) changes->pdata[0])->table, "*");
  assert_int_equal (cro_store_last_change (fixture->store), 1);
  g_ptr_array_unref (changes);
  after = dump_schema (fixture->folder.path);
  assert_string_equal (after, schema);
  g_free (after);
  g_free (schema);
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_NO_ROWS);

  /* The journal is armed again, and references are checked again. */
  act_of_cell (fixture->store, "item", 7, "name", CRO_CELL_STR ("kelp"));
  undo (fixture->store);
  assert_text (fixture->store, "item", 7, "name", "item 6");
  begin (fixture->store, "a reference that leads nowhere");
  insert (fixture->store, "ingredient", (const char *const[]){ "id", "unit", NULL },
          (CroCell[]){ CRO_CELL_INT (10000), CRO_CELL_STR ("g") });
  assert_false (cro_store_end_act (fixture->store, NULL, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  g_clear_error (&error);
  cro_store_cancel_act (fixture->store);

  assert_false (cro_store_begin_fill (fixture->store, "again", &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  g_clear_error (&error);
}

static void
test_a_fill_is_checked_at_its_end (void **state)
{
  Fixture *fixture = *state;
  GError  *error = NULL;
  char    *schema = dump_schema (fixture->folder.path);
  char    *before = cro_test_dump (fixture->folder.path);
  char    *after;
  gint64   twin;

  cro_test_must (cro_store_begin_fill (fixture->store, "load", &error), error);
  fill_items (fixture->store, 5);
  twin = insert_item (fixture->store, "item 3");
  assert_false (cro_store_end_act (fixture->store, NULL, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  g_clear_error (&error);

  /* Put right, the next thing wrong is found. */
  delete (fixture->store, "item", twin);
  insert (fixture->store, "ingredient", (const char *const[]){ "id", "unit", NULL },
          (CroCell[]){ CRO_CELL_INT (99), CRO_CELL_STR ("g") });
  assert_false (cro_store_end_act (fixture->store, NULL, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
  g_clear_error (&error);
  cro_store_cancel_act (fixture->store);

  after = dump_schema (fixture->folder.path);
  assert_string_equal (after, schema);
  g_free (after);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (after);
  g_free (before);
  g_free (schema);
  begin (fixture->store, "the journal is armed");
  insert_item (fixture->store, "kelp");
  assert_int_not_equal (end (fixture->store), 0);
  undo (fixture->store);
}

/* What triggers refuse row by row outside a fill. */
static void
test_a_fill_keeps_the_rules (void **state)
{
  static const struct
  {
    const char *says;
    const char *once, *twice;
  } cases[] = {
    { "an item is an ingredient or an output, not both",
      "INSERT INTO item (id, name) VALUES (1, 'dulse'); INSERT INTO ingredient (id, unit) VALUES (1, 'g');"
      "INSERT INTO preparation (id, name) VALUES (1, 'dulse, dried')",
      "INSERT INTO output (id, preparation, role) VALUES (1, 1, 'main')" },
    { "a thing is a plate or a menu, not both",
      "INSERT INTO thing (id, name) VALUES (1, 'oysters'); INSERT INTO plate (id, makes_micro) VALUES (1, 1)",
      "INSERT INTO menu (id) VALUES (1)" },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GError *error = NULL;

      cro_test_must (cro_store_begin_fill (fixture->store, "load", &error), error);
      cro_test_sql (fixture->store->db, cases[i].once);
      cro_test_sql (fixture->store->db, cases[i].twice);
      assert_false (cro_store_end_act (fixture->store, NULL, &error));
      assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_RULE));
      assert_string_equal (error->message, cases[i].says);
      g_clear_error (&error);
      cro_store_cancel_act (fixture->store);

      /* Afterwards the triggers say so. */
      begin (fixture->store, "rows");
      cro_test_sql (fixture->store->db, cases[i].once);
      assert_int_not_equal (sqlite3_exec (fixture->store->db, cases[i].twice, NULL, NULL, NULL), SQLITE_OK);
      assert_string_equal (sqlite3_errmsg (fixture->store->db), cases[i].says);
      cro_store_cancel_act (fixture->store);
    }
}

static void
test_a_fill_of_nothing_leaves_no_entry (void **state)
{
  Fixture *fixture = *state;
  GError  *error = NULL;

  cro_test_must (cro_store_begin_fill (fixture->store, "load", &error), error);
  assert_int_equal (end (fixture->store), 0);
  assert_int_equal (cro_store_last_change (fixture->store), 0);
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, set_up, tear_down)
#define EMPTY(function) cmocka_unit_test_setup_teardown (function, set_up_empty, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_no_write_outside_an_act),
    CASE (test_no_raw_write_outside_an_act),
    CASE (test_an_act_is_all_or_nothing),
    CASE (test_an_act_without_a_change_leaves_no_entry),
    CASE (test_a_refused_write_leaves_the_act_open),
    CASE (test_a_block_is_its_rows_one_by_one),
    CASE (test_a_change_holds_what_moved),
    CASE (test_what_moved_is_told_column_by_column),
    CASE (test_nothing_moved_in_what_is_no_change),
    CASE (test_history_after_reopening),
    EMPTY (test_a_fill_is_one_entry_without_rows),
    EMPTY (test_a_fill_is_checked_at_its_end),
    EMPTY (test_a_fill_keeps_the_rules),
    EMPTY (test_a_fill_of_nothing_leaves_no_entry),
  };

  return cmocka_run_group_tests_name ("acts and their history", tests, NULL, NULL);
}
