/* Acts, their history, and taking them back. */
#include "cro-history.h"
#include "cro-store.h"
#include "support/store-book.h"

#include <stdlib.h>

typedef struct
{
  CroTestFolder folder;
  CroStore     *store; /* of the desk "cook" */
} Fixture;

static int
set_up_empty (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  fixture->store = cro_test_create (fixture->folder.path);
  *state = fixture;
  return 0;
}

static int
set_up (void **state)
{
  set_up_empty (state);
  cro_test_add_rows (((Fixture *) *state)->folder.path);
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  cro_store_close (fixture->store);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static void
begin (CroStore   *store,
       const char *label)
{
  GError *error = NULL;

  cro_test_must (cro_store_begin_act (store, label, &error), error);
}

static gint64
end (CroStore *store)
{
  GError *error = NULL;
  gint64  act = -1;

  cro_test_must (cro_store_end_act (store, &act, &error), error);
  return act;
}

static void
set_cell (CroStore   *store,
          const char *table,
          gint64      id,
          const char *column,
          CroCell     cell)
{
  const char *const columns[] = { column, NULL };
  GError           *error = NULL;

  cro_test_must (cro_store_update (store, table, id, columns, &cell, &error), error);
}

/* An act of one update. */
static gint64
act_of_cell (CroStore   *store,
             const char *table,
             gint64      id,
             const char *column,
             CroCell     cell)
{
  begin (store, column);
  set_cell (store, table, id, column, cell);
  return end (store);
}

static gint64
insert (CroStore          *store,
        const char        *table,
        const char *const *columns,
        const CroCell     *cells)
{
  GError    *error = NULL;
  CroWriter *writer = cro_writer_new (store, table, columns, &error);
  gint64     id = 0;

  cro_test_must (writer != NULL, error);
  cro_test_must (cro_writer_insert (writer, cells, &id, &error), error);
  cro_writer_free (writer);
  return id;
}

static gint64
insert_item (CroStore   *store,
             const char *name)
{
  static const char *const columns[] = { "name", NULL };
  CroCell                  cell = CRO_CELL_STR (name);

  return insert (store, "item", columns, &cell);
}

static void
delete (CroStore   *store,
        const char *table,
        gint64      id)
{
  GError *error = NULL;

  cro_test_must (cro_store_delete (store, table, id, &error), error);
}

static void
undo (CroStore *store)
{
  GError *error = NULL;

  cro_test_must (cro_store_undo (store, NULL, NULL, &error), error);
}

static void
redo (CroStore *store)
{
  GError *error = NULL;

  cro_test_must (cro_store_redo (store, NULL, NULL, &error), error);
}

typedef gboolean (*Replay) (CroStore *, gint64 *, CroConflict *, GError **);

/* The replay is refused with the code, and the book and its history stay as they were. */
static void
assert_refused (Fixture           *fixture,
                Replay             replay,
                CroStoreErrorCode  code)
{
  GError *error = NULL;
  char   *before = cro_test_dump (fixture->folder.path);
  gint64  last = cro_store_last_change (fixture->store);
  char   *after;

  assert_false (replay (fixture->store, NULL, NULL, &error));
  if (!g_error_matches (error, CRO_STORE_ERROR, code))
    fail_msg ("code %d instead of %d: %s", error->code, code, error->message);
  g_clear_error (&error);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  assert_int_equal (cro_store_last_change (fixture->store), last);
  g_free (before);
  g_free (after);
}

static void
assert_conflict (CroStore   *store,
                 gint64      act,
                 const char *table,
                 gint64      row)
{
  GError     *error = NULL;
  CroConflict conflict = { 0 };

  assert_false (cro_store_undo (store, NULL, &conflict, &error));
  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED))
    fail_msg ("%s", error->message);
  assert_string_equal (conflict.table, table);
  assert_int_equal (conflict.row, row);
  assert_int_equal (conflict.act, act);
  g_clear_error (&error);
  cro_conflict_clear (&conflict);
}

static char *
text_of (CroStore   *store,
         const char *table,
         gint64      id,
         const char *column)
{
  const char *const columns[] = { column, NULL };
  GError           *error = NULL;
  CroRows          *rows = cro_store_read_one (store, table, id, columns, &error);
  char             *text;

  cro_test_must (rows != NULL, error);
  assert_true (cro_rows_next (rows, &error));
  text = g_strdup (cro_rows_get_text (rows, 0));
  cro_rows_free (rows);
  return text;
}

static void
assert_text (CroStore   *store,
             const char *table,
             gint64      id,
             const char *column,
             const char *expected)
{
  char *text = text_of (store, table, id, column);

  assert_string_equal (text, expected);
  g_free (text);
}

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
                                            " AND name NOT IN ('act', 'change')"
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

static const struct
{
  const char *says;
  const char *before;
  const char *after;
} texts[] = {
  { "only the case moves", "samphire", "Samphire" },
  { "quotes and backslashes", "samphire", "\"sea\\asparagus\" 'x'" },
  { "a line break and a tab inside", "samphire", "sea\nasparagus\twild" },
  { "letters beyond ASCII", "samphire", "Queller – 海篷子 🌿" },
  { "digits that stay a text", "samphire", "007" },
  { "a text that looks like JSON", "samphire", "{\"name\":null}" },
  { "accents that fold alike", "samphire", "sámphire" },
};

static void
test_texts_come_back (void **state)
{
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      char *text;

      act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR (texts[i].after));
      undo (fixture->store);
      text = text_of (fixture->store, "item", 1, "name");
      if (!g_str_equal (text, texts[i].before))
        fail_msg ("undo, %s: %s", texts[i].says, text);
      g_free (text);
      redo (fixture->store);
      text = text_of (fixture->store, "item", 1, "name");
      if (!g_str_equal (text, texts[i].after))
        fail_msg ("redo, %s: %s", texts[i].says, text);
      g_free (text);
      undo (fixture->store);
    }
}

static void
test_the_widest_numbers_come_back (void **state)
{
  static const gint64 numbers[] = { G_MAXINT64, G_MININT64, 0, -1, G_GINT64_CONSTANT (9007199254740993) };
  Fixture            *fixture = *state;
  char               *before = cro_test_dump (fixture->folder.path);

  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      char *set, *again, *back;

      act_of_cell (fixture->store, "purchase", 1, "net_value_micro", CRO_CELL_INT (numbers[i]));
      set = cro_test_dump (fixture->folder.path);
      undo (fixture->store);
      back = cro_test_dump (fixture->folder.path);
      assert_string_equal (back, before);
      redo (fixture->store);
      again = cro_test_dump (fixture->folder.path);
      assert_string_equal (again, set);
      undo (fixture->store);
      g_free (set);
      g_free (again);
      g_free (back);
    }
  g_free (before);
}

/* --- Undo and redo --------------------------------------------------------------------- */

static void
test_the_order_of_undo_and_redo (void **state)
{
  Fixture *fixture = *state;
  CroAct  *act;

  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("a"));
  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("b"));
  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("c"));
  undo (fixture->store);
  undo (fixture->store);
  assert_text (fixture->store, "item", 1, "name", "a");
  redo (fixture->store);
  assert_text (fixture->store, "item", 1, "name", "b");
  undo (fixture->store);
  redo (fixture->store);
  redo (fixture->store);
  assert_text (fixture->store, "item", 1, "name", "c");
  assert_refused (fixture, cro_store_redo, CRO_STORE_ERROR_NOTHING);
  undo (fixture->store);
  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("d"));
  assert_refused (fixture, cro_store_redo, CRO_STORE_ERROR_NOTHING);
  undo (fixture->store);
  assert_text (fixture->store, "item", 1, "name", "b");
  undo (fixture->store);
  undo (fixture->store);
  assert_text (fixture->store, "item", 1, "name", "samphire");
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_NOTHING);
  act = cro_store_peek_redo (fixture->store, NULL);
  assert_string_equal (act->label, "name");
  assert_int_equal (act->verb, CRO_ACT_DO);
  cro_act_free (act);
}

static void
test_undo_takes_this_desk_s_own_act (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");

  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("kitchen's"));
  act_of_cell (office, "thing", 1, "name", CRO_CELL_STR ("office's"));
  undo (fixture->store);
  assert_text (fixture->store, "item", 1, "name", "samphire");
  assert_text (fixture->store, "thing", 1, "name", "office's");
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_NOTHING);
  act_of_cell (office, "plate", 1, "price_micro", CRO_CELL_INT (1));
  /* Another desk's act does not take away what this desk can redo. */
  redo (fixture->store);
  assert_text (fixture->store, "item", 1, "name", "kitchen's");
  cro_store_close (office);
}

static void
test_a_later_edit_of_the_column_refuses (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");
  gint64    later;

  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (10000000));
  act_of_cell (office, "plate", 1, "course", CRO_CELL_STR ("starter"));
  later = act_of_cell (office, "plate", 1, "price_micro", CRO_CELL_INT (11000000));
  act_of_cell (office, "plate", 1, "course", CRO_CELL_STR ("first"));
  assert_conflict (fixture->store, later, "plate", 1);
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_CHANGED);
  cro_store_close (office);
}

static void
test_a_later_edit_of_another_column_stays (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");

  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (10000000));
  act_of_cell (office, "plate", 1, "course", CRO_CELL_STR ("starter"));
  undo (fixture->store);
  assert_text (fixture->store, "plate", 1, "price_micro", "9000000");
  assert_text (fixture->store, "plate", 1, "course", "starter");
  redo (fixture->store);
  assert_text (fixture->store, "plate", 1, "price_micro", "10000000");
  assert_text (fixture->store, "plate", 1, "course", "starter");
  cro_store_close (office);
}

static void
test_a_row_that_was_edited_since_is_not_removed (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");
  gint64    id, later;

  begin (fixture->store, "new item");
  id = insert_item (fixture->store, "kelp");
  end (fixture->store);
  later = act_of_cell (office, "item", id, "name", CRO_CELL_STR ("sugar kelp"));
  assert_conflict (fixture->store, later, "item", id);
  cro_store_close (office);
}

static void
test_a_row_that_something_refers_to_since_is_not_removed (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");
  gint64    id, later, line;

  begin (fixture->store, "new ingredient");
  id = insert_item (fixture->store, "kelp");
  insert (fixture->store, "ingredient", (const char *const[]){ "id", "unit", NULL },
          (CroCell[]){ CRO_CELL_INT (id), CRO_CELL_STR ("g") });
  end (fixture->store);
  begin (office, "new line");
  line = insert (office, "recipe_line",
                 (const char *const[]){ "plate", "position_micro", "item", "amount_micro", "unit",
                                        NULL },
                 (CroCell[]){ CRO_CELL_INT (1), CRO_CELL_INT (2000000), CRO_CELL_INT (id),
                              CRO_CELL_INT (5), CRO_CELL_STR ("g") });
  later = end (office);
  assert_conflict (fixture->store, later, "recipe_line", line);
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_CHANGED);
  cro_store_close (office);
}

static void
test_a_name_taken_since_refuses (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");
  gint64    id, later;

  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("marsh samphire"));
  begin (office, "new item");
  id = insert_item (office, "samphire");
  later = end (office);
  assert_conflict (fixture->store, later, "item", id);
  cro_store_close (office);
}

/* The output's index of main roles covers some rows only; the one in the way is a main output. */
static void
test_a_main_role_taken_since_refuses (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");
  gint64    by_product, later;

  begin (fixture->store, "a by-product");
  by_product = insert_item (fixture->store, "pulp");
  insert (fixture->store, "output", (const char *const[]){ "id", "preparation", "role", NULL },
          (CroCell[]){ CRO_CELL_INT (by_product), CRO_CELL_INT (1), CRO_CELL_STR ("by-product") });
  end (fixture->store);
  act_of_cell (fixture->store, "output", 2, "role", CRO_CELL_STR ("by-product"));
  later = act_of_cell (office, "output", by_product, "role", CRO_CELL_STR ("main"));
  assert_conflict (fixture->store, later, "output", by_product);
  cro_store_close (office);
}

static void
test_a_rule_across_columns_refuses (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");
  gint64    later;

  act_of_cell (fixture->store, "recipe_line", 1, "yield_pct_micro", CRO_CELL_NONE);
  later = act_of_cell (office, "recipe_line", 1, "weighed", CRO_CELL_STR ("whole"));
  assert_conflict (fixture->store, later, "recipe_line", 1);
  cro_store_close (office);
}

static void
test_swapped_names_come_back (void **state)
{
  Fixture *fixture = *state;
  char    *before = cro_test_dump (fixture->folder.path);
  char    *swapped, *after;

  begin (fixture->store, "swap");
  set_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("between"));
  set_cell (fixture->store, "item", 2, "name", CRO_CELL_STR ("samphire"));
  set_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("samphire purée"));
  end (fixture->store);
  swapped = cro_test_dump (fixture->folder.path);
  undo (fixture->store);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (after);
  redo (fixture->store);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, swapped);
  g_free (after);
  g_free (swapped);
  g_free (before);
}

/* Children go before and after their parents, and come back with their ids. */
static void
test_a_deleted_family_comes_back (void **state)
{
  Fixture *fixture = *state;
  char    *before = cro_test_dump (fixture->folder.path);
  char    *after;
  gint64   id;

  begin (fixture->store, "delete the plate");
  delete (fixture->store, "thing", 1);
  delete (fixture->store, "sale", 1);
  delete (fixture->store, "menu_plate", 1);
  delete (fixture->store, "plate", 1);
  delete (fixture->store, "recipe_line", 2);
  end (fixture->store);
  undo (fixture->store);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (after);
  redo (fixture->store);
  undo (fixture->store);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (after);
  g_free (before);

  /* An id that was given once is not given again, so that a redo finds its place free. */
  begin (fixture->store, "kelp");
  id = insert_item (fixture->store, "kelp");
  end (fixture->store);
  undo (fixture->store);
  begin (fixture->store, "dulse");
  assert_int_equal (insert_item (fixture->store, "dulse"), id + 1);
  end (fixture->store);
}

/* With references that delete by themselves, undoing an insert took later rows along in silence. */
static void
test_undo_takes_no_later_row_along (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");
  gint64    offer, price, later;

  begin (fixture->store, "new offer");
  offer = insert (fixture->store, "offer",
                  (const char *const[]){ "ingredient", "supplier", "code", "pack_count_micro",
                                         "pack_size_micro", "pack_unit", NULL },
                  (CroCell[]){ CRO_CELL_INT (1), CRO_CELL_INT (1), CRO_CELL_STR ("S2"),
                               CRO_CELL_INT (1000000), CRO_CELL_INT (1000000),
                               CRO_CELL_STR ("kg") });
  end (fixture->store);
  begin (office, "new price");
  price = insert (office, "price",
                  (const char *const[]){ "offer", "from_date", "price_micro", NULL },
                  (CroCell[]){ CRO_CELL_INT (offer), CRO_CELL_STR ("2026-03-01"),
                               CRO_CELL_INT (8000000) });
  later = end (office);
  assert_conflict (fixture->store, later, "price", price);
  assert_text (fixture->store, "price", price, "price_micro", "8000000");
  cro_store_close (office);
}

static void
test_redo_is_checked_too (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");

  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (10000000));
  undo (fixture->store);
  act_of_cell (office, "plate", 1, "price_micro", CRO_CELL_INT (8000000));
  assert_refused (fixture, cro_store_redo, CRO_STORE_ERROR_CHANGED);
  undo (office);
  redo (fixture->store);
  assert_text (fixture->store, "plate", 1, "price_micro", "10000000");
  cro_store_close (office);
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
  g_ptr_array_unref (changes);

  undo (fixture->store);
  after = cro_test_dump (fixture->folder.path);
  assert_string_equal (after, before);
  g_free (before);
  g_free (after);
}

/* --- Closed months --------------------------------------------------------------------- */

static void
close_month (CroStore   *store,
             const char *month)
{
  begin (store, "close");
  insert (store, "month", (const char *const[]){ "month", "closed_at", NULL },
          (CroCell[]){ CRO_CELL_STR (month), CRO_CELL_STR ("2026-03-02T09:00:00Z") });
  end (store);
}

static void
test_undo_does_not_cross_a_closing (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");

  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("a"));
  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("b"));
  undo (fixture->store);
  close_month (office, "2026-02");
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_CLOSED);
  assert_refused (fixture, cro_store_redo, CRO_STORE_ERROR_CLOSED);
  act_of_cell (fixture->store, "item", 1, "name", CRO_CELL_STR ("c"));
  undo (fixture->store);
  assert_text (fixture->store, "item", 1, "name", "a");
  cro_store_close (office);
}

static void
test_a_closing_and_a_reopening_are_not_undone (void **state)
{
  Fixture *fixture = *state;

  close_month (fixture->store, "2026-02");
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_CLOSED);
  act_of_cell (fixture->store, "month", 1, "closed_at", CRO_CELL_NONE);
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_CLOSED);
}

/* A month that another act left open and filled, whose figures may be undone until it closes. */
static void
test_rows_of_a_closed_month_stay (void **state)
{
  static const struct { const char *table, *column; } dated[] = {
    { "sale", "sold_micro" }, { "stock_count", "amount_micro" },
    { "purchase", "net_value_micro" }, { "adjustment", "amount_micro" },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (dated); i++)
    {
      act_of_cell (fixture->store, dated[i].table, 1, dated[i].column, CRO_CELL_INT (1));
      undo (fixture->store);
      redo (fixture->store);
      act_of_cell (fixture->store, dated[i].table, 1, "date", CRO_CELL_STR ("2026-01-31"));
      assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_CLOSED);
    }
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

static void
test_a_fill_of_nothing_leaves_no_entry (void **state)
{
  Fixture *fixture = *state;
  GError  *error = NULL;

  cro_test_must (cro_store_begin_fill (fixture->store, "load", &error), error);
  assert_int_equal (end (fixture->store), 0);
  assert_int_equal (cro_store_last_change (fixture->store), 0);
}

/* --- Random acts ----------------------------------------------------------------------- */

#define N_RUNS 30
#define N_ACTS 12
#define N_WRITES 6

/* One write that may well be refused; then the act goes on without it. */
static void
random_write (CroStore *store,
              GRand    *rand)
{
  static const struct { const char *table, *column; } numbers[] = {
    { "plate", "price_micro" }, { "recipe_line", "amount_micro" }, { "offer", "net_pct_micro" },
    { "preparation", "active_minutes_micro" }, { "sale", "sold_micro" },
    { "recipe_line", "position_micro" },
  };
  static const char *const tables[] = {
    "item", "thing", "recipe_line", "sale", "offer", "price", "menu_plate", "plate",
  };
  static const char *const name_column[] = { "name", NULL };
  gint64                   id = g_rand_int_range (rand, 1, 8);
  guint                    i;
  char                    *name = g_strdup_printf ("name %d", g_rand_int_range (rand, 0, 6));
  CroCell                  cell = CRO_CELL_STR (name);

  switch (g_rand_int_range (rand, 0, 5))
    {
    case 0:
      cro_store_update (store, "item", id, name_column, &cell, NULL);
      break;
    case 1:
      i = g_rand_int_range (rand, 0, G_N_ELEMENTS (numbers));
      cell = g_rand_boolean (rand) ? CRO_CELL_INT (g_rand_int_range (rand, 0, 9)) : CRO_CELL_NONE;
      cro_store_update (store, numbers[i].table, id,
                        (const char *const[]){ numbers[i].column, NULL }, &cell, NULL);
      break;
    case 2:
      cro_store_delete (store, tables[g_rand_int_range (rand, 0, G_N_ELEMENTS (tables))], id, NULL);
      break;
    default:
      {
        CroWriter *writer = cro_writer_new (store, g_rand_boolean (rand) ? "item" : "thing",
                                            name_column, NULL);

        cro_writer_insert (writer, &cell, NULL, NULL);
        cro_writer_free (writer);
      }
    }
  g_free (name);
}

static gboolean
random_act (CroStore *store,
            GRand    *rand)
{
  gint64 act = 0;

  begin (store, "random");
  for (int i = 0; i < N_WRITES; i++)
    random_write (store, rand);
  if (cro_store_end_act (store, &act, NULL))
    return act != 0;
  cro_store_cancel_act (store);
  return FALSE;
}

/* dumps holds the book before the first act and after each. */
static void
assert_walks_back_and_forth (Fixture   *fixture,
                             GPtrArray *dumps,
                             guint32    seed)
{
  for (guint i = dumps->len - 1; i > 0; i--)
    {
      char *dump;

      undo (fixture->store);
      dump = cro_test_dump (fixture->folder.path);
      if (!g_str_equal (dump, dumps->pdata[i - 1]))
        fail_msg ("seed %u: undoing act %u does not give the book before it", seed, i);
      g_free (dump);
    }
  for (guint i = 1; i < dumps->len; i++)
    {
      char *dump;

      redo (fixture->store);
      dump = cro_test_dump (fixture->folder.path);
      if (!g_str_equal (dump, dumps->pdata[i]))
        fail_msg ("seed %u: redoing act %u does not give the book after it", seed, i);
      g_free (dump);
    }
}

static void
test_random_acts (void **state)
{
  for (guint32 seed = 1; seed <= N_RUNS; seed++)
    {
      void      *own_state;
      Fixture   *fixture;
      GPtrArray *dumps = g_ptr_array_new_with_free_func (g_free);
      GRand     *rand = g_rand_new_with_seed (seed);

      set_up (&own_state);
      fixture = own_state;
      g_ptr_array_add (dumps, cro_test_dump (fixture->folder.path));
      for (int i = 0; i < N_ACTS; i++)
        if (random_act (fixture->store, rand))
          g_ptr_array_add (dumps, cro_test_dump (fixture->folder.path));
      assert_true (dumps->len > 1);
      assert_walks_back_and_forth (fixture, dumps, seed);
      g_rand_free (rand);
      g_ptr_array_unref (dumps);
      tear_down (&own_state);
    }
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
    CASE (test_a_change_holds_what_moved),
    CASE (test_texts_come_back),
    CASE (test_the_widest_numbers_come_back),
    CASE (test_the_order_of_undo_and_redo),
    CASE (test_undo_takes_this_desk_s_own_act),
    CASE (test_a_later_edit_of_the_column_refuses),
    CASE (test_a_later_edit_of_another_column_stays),
    CASE (test_a_row_that_was_edited_since_is_not_removed),
    CASE (test_a_row_that_something_refers_to_since_is_not_removed),
    CASE (test_a_name_taken_since_refuses),
    CASE (test_a_main_role_taken_since_refuses),
    CASE (test_a_rule_across_columns_refuses),
    CASE (test_swapped_names_come_back),
    CASE (test_a_deleted_family_comes_back),
    CASE (test_undo_takes_no_later_row_along),
    CASE (test_redo_is_checked_too),
    CASE (test_history_after_reopening),
    CASE (test_undo_does_not_cross_a_closing),
    CASE (test_a_closing_and_a_reopening_are_not_undone),
    CASE (test_rows_of_a_closed_month_stay),
    EMPTY (test_a_fill_is_one_entry_without_rows),
    EMPTY (test_a_fill_is_checked_at_its_end),
    EMPTY (test_a_fill_of_nothing_leaves_no_entry),
    cmocka_unit_test (test_random_acts),
  };

  return cmocka_run_group_tests_name ("acts and their history", tests, NULL, NULL);
}
