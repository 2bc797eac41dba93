/* Taking acts back and doing them again. */
#include "support/n-books.h"
#include "support/store-act.h"

static const struct
{
  const char *says;
  const char *before;
  const char *after;
  gboolean    is_note; /* else the name of an item */
} texts[] = {
  { "only the case moves", "samphire", "Samphire", FALSE },
  { "quotes and backslashes", "samphire", "\"sea\\asparagus\" 'x'", FALSE },
  { "letters beyond ASCII", "samphire", "Queller – 海篷子 🌿", FALSE },
  { "digits that stay a text", "samphire", "007", FALSE },
  { "a text that looks like JSON", "samphire", "{\"name\":null}", FALSE },
  { "accents that fold alike", "samphire", "sámphire", FALSE },
  { "a line break and a tab inside", "samphire", "sea\nasparagus\twild", TRUE },
};

static void
test_texts_come_back (void **state)
{
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      const char *table = texts[i].is_note ? "ingredient" : "item";
      const char *column = texts[i].is_note ? "note" : "name";
      char       *text;

      if (texts[i].is_note)
        act_of_cell (fixture->store, table, 1, column, CRO_CELL_STR (texts[i].before));
      act_of_cell (fixture->store, table, 1, column, CRO_CELL_STR (texts[i].after));
      undo (fixture->store);
      text = text_of (fixture->store, table, 1, column);
      if (!g_str_equal (text, texts[i].before))
        fail_msg ("undo, %s: %s", texts[i].says, text);
      g_free (text);
      redo (fixture->store);
      text = text_of (fixture->store, table, 1, column);
      if (!g_str_equal (text, texts[i].after))
        fail_msg ("redo, %s: %s", texts[i].says, text);
      g_free (text);
      undo (fixture->store);
    }
}

static void
test_the_widest_numbers_come_back (void **state)
{
  static const gint64 numbers[] = {
    G_MAXINT64, G_MININT64, 0, -1, G_GINT64_CONSTANT (9007199254740993),
  };
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

/* A desk was named in the user's language once. */
static void
test_a_desk_that_was_named_in_french_is_this_one (void **state)
{
  static const struct { const char *older; gboolean is_this; } desks[] = {
    { "Ann sur quay sur till", FALSE }, { "Ann sur till", FALSE }, { "Ben on quay sur till", FALSE },
    { "Ann on quay sur office", FALSE }, { "Ann on quay sur till", TRUE },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (desks); i++)
    {
      CroStore *older = cro_test_open (fixture->folder.path, desks[i].older);
      CroStore *now = cro_test_open (fixture->folder.path, "Ann on quay on till");
      CroAct   *act;

      act_of_cell (older, "item", 1, "name", CRO_CELL_STR (desks[i].older));
      act = cro_store_peek_undo (now, NULL);
      if ((act != NULL) != desks[i].is_this)
        fail_msg ("%s", desks[i].older);
      cro_act_free (act);
      undo (older);
      act = cro_store_peek_redo (now, NULL);
      if ((act != NULL) != desks[i].is_this)
        fail_msg ("%s, redo", desks[i].older);
      cro_act_free (act);
      cro_store_close (older);
      cro_store_close (now);
    }
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

/* What was undone since does not stand in the way, nor does its undoing: what stands there does. */
static void
test_what_is_undone_is_in_nobodys_way (void **state)
{
  Fixture  *fixture = *state;
  CroStore *office = cro_test_open (fixture->folder.path, "office");
  gint64    later;

  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (10000000));
  later = act_of_cell (office, "plate", 1, "price_micro", CRO_CELL_INT (11000000));
  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (12000000));
  undo (fixture->store);
  assert_conflict (fixture->store, later, "plate", 1);
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

/* What is redone may refer to what was removed since: that stands in the way, and never what took it
 * back, which is undone by redoing it. */
static void
test_a_row_whose_parent_is_gone_names_its_removal (void **state)
{
  Fixture     *fixture = *state;
  CroConflict  conflict = { 0 };
  GError      *error = NULL;
  gint64       id, first, second, undone, removed;

  begin (fixture->store, "new ingredient");
  id = insert_item (fixture->store, "kelp");
  insert (fixture->store, "ingredient", (const char *const[]){ "id", "unit", NULL },
          (CroCell[]){ CRO_CELL_INT (id), CRO_CELL_STR ("g") });
  first = end (fixture->store);
  begin (fixture->store, "new line");
  insert (fixture->store, "recipe_line",
          (const char *const[]){ "plate", "position_micro", "item", "amount_micro", "unit", NULL },
          (CroCell[]){ CRO_CELL_INT (1), CRO_CELL_INT (2000000), CRO_CELL_INT (id), CRO_CELL_INT (5),
                       CRO_CELL_STR ("g") });
  second = end (fixture->store);
  cro_test_must (cro_store_undo_act (fixture->store, second, &undone, NULL, &error), error);
  cro_test_must (cro_store_undo_act (fixture->store, first, &removed, NULL, &error), error);
  assert_false (cro_store_undo_act (fixture->store, undone, NULL, &conflict, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED));
  g_clear_error (&error);
  assert_int_equal (conflict.act, removed);
  assert_string_equal (conflict.table, "item");
  assert_int_equal (conflict.row, id);
  cro_conflict_clear (&conflict);
  cro_test_must (cro_store_undo_act (fixture->store, removed, NULL, NULL, &error), error);
  cro_test_must (cro_store_undo_act (fixture->store, undone, NULL, NULL, &error), error);
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
  assert_refused (fixture, cro_store_undo, CRO_STORE_ERROR_REOPENED);
}

/* A month that another act left open and filled, whose figures may be undone until it closes. */
static void
test_rows_of_a_closed_month_stay (void **state)
{
  static const struct { const char *table, *column; } dated[] = {
    { "sale", "sold_micro" }, { "stock_count", "amount_micro" },
    { "adjustment", "amount_micro" },
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

/* It is booked in the first open month. */
static void
test_a_late_purchase_is_undone (void **state)
{
  Fixture *fixture = *state;

  act_of_cell (fixture->store, "purchase", 1, "date", CRO_CELL_STR ("2026-01-31"));
  undo (fixture->store);
  redo (fixture->store);
  assert_text (fixture->store, "purchase", 1, "date", "2026-01-31");
}

/* --- Random acts ----------------------------------------------------------------------- */

#define N_RUNS CRO_TEST_N_BOOKS (30)
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
  const struct CMUnitTest tests[] = {
    CASE (test_texts_come_back),
    CASE (test_the_widest_numbers_come_back),
    CASE (test_the_order_of_undo_and_redo),
    CASE (test_undo_takes_this_desk_s_own_act),
    CASE (test_a_desk_that_was_named_in_french_is_this_one),
    CASE (test_a_later_edit_of_the_column_refuses),
    CASE (test_what_is_undone_is_in_nobodys_way), CASE (test_a_later_edit_of_another_column_stays),
    CASE (test_a_row_that_was_edited_since_is_not_removed),
    CASE (test_a_row_that_something_refers_to_since_is_not_removed),
    CASE (test_a_row_whose_parent_is_gone_names_its_removal),
    CASE (test_a_name_taken_since_refuses),
    CASE (test_a_main_role_taken_since_refuses),
    CASE (test_a_rule_across_columns_refuses),
    CASE (test_swapped_names_come_back),
    CASE (test_a_deleted_family_comes_back),
    CASE (test_undo_takes_no_later_row_along),
    CASE (test_redo_is_checked_too),
    CASE (test_undo_does_not_cross_a_closing),
    CASE (test_a_closing_and_a_reopening_are_not_undone),
    CASE (test_rows_of_a_closed_month_stay),
    CASE (test_a_late_purchase_is_undone),
    cmocka_unit_test (test_random_acts),
  };

  return cmocka_run_group_tests_name ("undo and redo", tests, NULL, NULL);
}
