/* Reading tables: each row handed to a function is what stepping through them gives. */
#include "support/store-act.h"

static gboolean
append_row (CroRows  *rows,
            gpointer  user_data,
            GError  **error)
{
  GString *text = user_data;

  g_string_append_printf (text, "%" G_GINT64_FORMAT, cro_rows_get_int (rows, 0));
  g_string_append_printf (text, "|%d:%d:%s", cro_rows_is_null (rows, 1),
                          cro_rows_is_text (rows, 1), cro_rows_get_text (rows, 1));
  g_string_append_printf (text, "|%d:%" G_GINT64_FORMAT "\n", cro_rows_is_null (rows, 2),
                          cro_rows_get_int (rows, 2));
  return TRUE;
}

static char *
step_through (CroStore          *store,
              const char        *table,
              const char *const *columns)
{
  GError  *error = NULL;
  CroRows *rows = cro_store_read (store, table, columns, &error);
  GString *text = g_string_new (NULL);

  cro_test_must (rows != NULL, error);
  while (cro_rows_next (rows, &error))
    append_row (rows, text, NULL);
  assert_null (error);
  cro_rows_free (rows);
  return g_string_free (text, FALSE);
}

static char *
hand_over (CroStore          *store,
           const char        *table,
           const char *const *columns)
{
  GError  *error = NULL;
  GString *text = g_string_new (NULL);

  cro_test_must (cro_store_read_each (store, table, columns, append_row, text, &error), error);
  return g_string_free (text, FALSE);
}

static const struct
{
  const char *says;
  const char *table;
  const char *columns[4];
} cases[] = {
  { "rows come by id, though an index has them all by item", "recipe_line",
    { "id", "item", "item" } },
  { "values that are set and values that are not", "recipe_line",
    { "id", "note", "yield_pct_micro" } },
  { "a number asked for as text", "recipe_line", { "id", "amount_micro", "amount_micro" } },
  { "a table without rows", "month", { "id", "reason", "till_net_revenue_micro" } },
};

/* Their order by item is not that by id. */
static void
add_lines (CroStore *store)
{
  static const char *const columns[] = { "preparation", "position_micro", "item", "amount_micro",
                                         "unit", NULL };

  begin (store, "lines");
  for (gint64 i = 2; i <= 4; i++)
    insert (store, "recipe_line", columns,
            (CroCell[]){ CRO_CELL_INT (1), CRO_CELL_INT (i * 1000000),
                         CRO_CELL_INT (i % 2 == 0 ? 2 : 1), CRO_CELL_INT (5), CRO_CELL_STR ("g") });
  end (store);
}

static void
test_each_is_what_stepping_gives (void **state)
{
  Fixture *fixture = *state;

  add_lines (fixture->store);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    /* Twice, as a statement is used again. */
    for (int time = 0; time < 2; time++)
      {
        char *stepped = step_through (fixture->store, cases[i].table, cases[i].columns);
        char *handed = hand_over (fixture->store, cases[i].table, cases[i].columns);

        if (!g_str_equal (stepped, handed))
          fail_msg ("%s:\n%s\n%s", cases[i].says, stepped, handed);
        g_free (stepped);
        g_free (handed);
      }
}

static void
test_each_of_no_such_table (void **state)
{
  Fixture *fixture = *state;
  GError  *error = NULL;
  GString *text = g_string_new (NULL);

  assert_false (cro_store_read_each (fixture->store, "kelp", cases[0].columns, append_row, text,
                                     &error));
  assert_non_null (error);
  g_clear_error (&error);
  assert_int_equal (text->len, 0);
  g_string_free (text, TRUE);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_each_is_what_stepping_gives, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_each_of_no_such_table, set_up, tear_down),
  };

  return cmocka_run_group_tests_name ("reading tables", tests, NULL, NULL);
}
