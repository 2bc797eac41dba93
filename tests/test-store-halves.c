/* A long table read by two threads: every row once, in the moment of the store. */
#define _GNU_SOURCE /* sched_setaffinity */
#include "cro-halves.h"
#include "cro-processors.h"
#include "support/store-book.h"

#include <sched.h>

#define N_ROWS 60

typedef struct
{
  CroTestFolder folder;
  CroStore     *store;
} Fixture;

static void
add_suppliers (const char *path,
               const char *sql)
{
  sqlite3 *db = cro_test_raw (path);

  cro_test_begin_raw_act (db);
  cro_test_sql (db, sql);
  cro_test_end_raw_act (db);
  sqlite3_close (db);
}

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  cro_store_close (cro_test_create (fixture->folder.path));
  add_suppliers (fixture->folder.path,
                 "WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 60)"
                 " INSERT INTO supplier (id, name) SELECT i, 'quay ' || i FROM n");
  fixture->store = cro_test_open (fixture->folder.path, "pass");
  *state = fixture;
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

/* The ids that one half was given. */
typedef struct
{
  gint64 ids[2 * N_ROWS];
  guint  n;
} Seen;

static gboolean
see_cb (CroRows  *rows,
        gpointer  user_data,
        GError  **error)
{
  Seen *seen = user_data;

  assert_true (seen->n < G_N_ELEMENTS (seen->ids));
  seen->ids[seen->n++] = cro_rows_get_int (rows, 0);
  cro_rows_get_text (rows, 1);
  return TRUE;
}

static gboolean
read_both (CroHalves  *halves,
           Seen       *lower,
           Seen       *upper,
           GError    **error)
{
  static const char *const columns[] = { "id", "name", NULL };

  lower->n = upper->n = 0;
  return cro_halves_read (halves, "supplier", columns, see_cb, lower, upper, error);
}

static void
assert_all_seen (const Seen *lower,
                 const Seen *upper)
{
  assert_int_equal (lower->n + upper->n, N_ROWS);
  for (guint i = 0; i < lower->n; i++)
    assert_int_equal (lower->ids[i], i + 1);
  for (guint i = 0; i < upper->n; i++)
    assert_int_equal (upper->ids[i], lower->n + i + 1);
  assert_int_equal (lower->n, N_ROWS / 2);
}

static void
begin (CroStore *store)
{
  GError *error = NULL;

  cro_test_must (cro_store_begin_read (store, &error), error);
}

static void
skip_alone (void)
{
  print_message ("skipped: there is one processor\n");
  skip ();
}

static void
test_every_row_once (void **state)
{
  Fixture *fixture = *state;
  CroHalves *halves;
  Seen lower, upper;
  GError *error = NULL;

  begin (fixture->store);
  halves = cro_halves_new (fixture->store, "supplier", 10);
  if (cro_processors () < 2)
    {
      assert_null (halves);
      skip_alone ();
    }
  assert_non_null (halves);
  cro_test_must (read_both (halves, &lower, &upper, &error), error);
  assert_non_null (halves->upper);
  assert_all_seen (&lower, &upper);
  cro_halves_free (halves);
  cro_store_end_read (fixture->store);
}

/* What is committed after the store's moment is in neither half. */
static void
test_one_moment (void **state)
{
  Fixture *fixture = *state;
  CroHalves *halves;
  Seen lower, upper;
  GError *error = NULL;

  begin (fixture->store);
  add_suppliers (fixture->folder.path,
                 "UPDATE supplier SET name = 'ferry' WHERE id = 50;"
                 "INSERT INTO supplier (id, name) VALUES (61, 'late')");
  halves = cro_halves_new (fixture->store, "supplier", 10);
  if (cro_processors () < 2)
    skip_alone ();
  assert_non_null (halves);
  cro_test_must (read_both (halves, &lower, &upper, &error), error);
  assert_null (halves->upper);
  assert_all_seen (&lower, &upper);
  cro_halves_free (halves);
  cro_store_end_read (fixture->store);
}

static void
test_not_worth_it (void **state)
{
  Fixture *fixture = *state;
  GError *error = NULL;

  assert_null (cro_halves_new (fixture->store, "supplier", 10));
  begin (fixture->store);
  assert_null (cro_halves_new (fixture->store, "supplier", N_ROWS));
  assert_null (cro_halves_new (fixture->store, "offer", 1));
  cro_store_end_read (fixture->store);
  cro_test_must (cro_store_begin_act (fixture->store, "greens", &error), error);
  assert_null (cro_halves_new (fixture->store, "supplier", 10));
  cro_store_cancel_act (fixture->store);
}

/* Of a machine with two, the program may have one alone. */
static void
test_one_processor (void **state)
{
  Fixture *fixture = *state;
  cpu_set_t before, one;

  assert_int_equal (sched_getaffinity (0, sizeof before, &before), 0);
  CPU_ZERO (&one);
  for (int i = 0; CPU_COUNT (&one) == 0; i++)
    if (CPU_ISSET (i, &before))
      CPU_SET (i, &one);
  assert_int_equal (sched_setaffinity (0, sizeof one, &one), 0);
  begin (fixture->store);
  assert_int_equal (cro_processors (), 1);
  assert_null (cro_halves_new (fixture->store, "supplier", 10));
  cro_store_end_read (fixture->store);
  assert_int_equal (sched_setaffinity (0, sizeof before, &before), 0);
  assert_int_equal (cro_processors (), CPU_COUNT (&before));
}

/* Ids may say far more rows than there are: nothing is to be reserved for them. */
static void
test_ids_far_apart (void **state)
{
  Fixture *fixture = *state;

  add_suppliers (fixture->folder.path,
                 "INSERT INTO supplier (id, name) VALUES (4000000000, 'far')");
  begin (fixture->store);
  assert_null (cro_halves_new (fixture->store, "supplier", 10));
  cro_store_end_read (fixture->store);
}

static void
spoil (const Fixture *fixture,
       const char    *id)
{
  g_autofree char *sql = g_strdup_printf ("UPDATE supplier SET name = CAST (x'ff%1$s' AS TEXT)"
                                          " WHERE id = %1$s", id);

  add_suppliers (fixture->folder.path, sql);
}

static void
test_damage (void **state)
{
  static const char *const damaged[] = { "45", "15" };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (damaged); i++)
    {
      g_autoptr (GError) error = NULL;
      CroHalves *halves;
      Seen lower, upper;

      spoil (fixture, damaged[i]);
      begin (fixture->store);
      halves = cro_halves_new (fixture->store, "supplier", 10);
      if (cro_processors () < 2)
        skip_alone ();
      assert_non_null (halves);
      assert_false (read_both (halves, &lower, &upper, &error));
      assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED));
      cro_halves_free (halves);
      cro_store_end_read (fixture->store);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_every_row_once, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_one_moment, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_not_worth_it, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_one_processor, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_ids_far_apart, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_damage, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
