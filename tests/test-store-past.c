/* The book as it stood at the end of a day: the journal replayed backwards in a copy. */
#include "cro-history.h"
#include "cro-store-private.h"
#include "support/store-act.h"

#include <time.h>

#define N_ACTS 120

/* --- Days ------------------------------------------------------------------------------ */

static void
set_zone (const char *zone)
{
  g_setenv ("TZ", zone, TRUE);
  tzset ();
}

/* As if an act had been made at another time. */
static void
date_act (Fixture    *fixture,
          gint64      act,
          const char *at)
{
  sqlite3 *db = cro_test_raw (fixture->folder.path);
  char    *sql = g_strdup_printf ("UPDATE act SET at = '%s', day = NULL WHERE id = %" G_GINT64_FORMAT, at, act);

  cro_test_sql (db, sql);
  sqlite3_close (db);
  g_free (sql);
}

static char *
day_of (guint n)
{
  return g_strdup_printf ("2026-%02u-%02u", 1 + n / 28, 1 + n % 28);
}

static void
date_nth (Fixture *fixture,
          gint64   act)
{
  g_autofree char *day = day_of ((guint) act);
  g_autofree char *at = g_strdup_printf ("%sT12:00:00Z", day);

  date_act (fixture, act, at);
}

static CroStore *
open_past (CroStore   *store,
           const char *day)
{
  GError   *error = NULL;
  CroStore *past = cro_store_open_past (store, day, &error);

  cro_test_must (past != NULL, error);
  return past;
}

static char *
dump_past (CroStore   *store,
           const char *day)
{
  g_autoptr(CroStore) past = open_past (store, day);

  return cro_test_dump_of (past->db);
}

/* --- Random acts ----------------------------------------------------------------------- */

/* The nth row of a table, by id; 0: it has none. */
static gint64
any_row (Fixture    *fixture,
         GRand      *rand,
         const char *table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT id FROM %s ORDER BY (id * 7919 + %d) %% 1009"
                                          " LIMIT 1", table, g_rand_int_range (rand, 0, 1000));
  gint64           id = 0;

  if (!cro_store_number (fixture->store, sql, &id, NULL))
    return 0;
  return id;
}

static gint64
new_supplier (Fixture *fixture,
              GRand   *rand)
{
  static const char *const columns[] = { "name", "note", NULL };
  g_autofree char         *name = g_strdup_printf ("s%d", g_rand_int_range (rand, 0, G_MAXINT32));
  const CroCell            cells[] = { CRO_CELL_STR (name), CRO_CELL_STR ("“1,5” \\ é\n") };

  return insert (fixture->store, "supplier", columns, cells);
}

/* One change at random: rows come, move and go, and their names with them. */
static void
change (Fixture *fixture,
        GRand   *rand)
{
  gint64           id = any_row (fixture, rand, "supplier");
  g_autofree char *name = g_strdup_printf ("n%d", g_rand_int_range (rand, 0, G_MAXINT32));

  switch (g_rand_int_range (rand, 0, 5))
    {
    case 0:
      new_supplier (fixture, rand);
      break;
    case 1:
      if (id > 1)
        delete (fixture->store, "supplier", id);
      break;
    case 2:
      if (id != 0)
        set_cell (fixture->store, "supplier", id, "note", CRO_CELL_NONE);
      break;
    case 3:
      if (id != 0)
        set_cell (fixture->store, "supplier", id, "name", CRO_CELL_STR (name));
      break;
    default:
      set_cell (fixture->store, "plate", 1, "price_micro",
                CRO_CELL_INT (g_rand_int_range (rand, 0, 100000000)));
    }
}

/* Two rows swap what is unique, which goes over a third value. */
static void
swap_names (Fixture *fixture,
            GRand   *rand)
{
  gint64           a = any_row (fixture, rand, "supplier"), b = new_supplier (fixture, rand);
  g_autofree char *x = text_of (fixture->store, "supplier", a, "name");
  g_autofree char *y = text_of (fixture->store, "supplier", b, "name");

  set_cell (fixture->store, "supplier", a, "name", CRO_CELL_STR ("between"));
  set_cell (fixture->store, "supplier", b, "name", CRO_CELL_STR (x));
  set_cell (fixture->store, "supplier", a, "name", CRO_CELL_STR (y));
}

/* Returns the act, 0 where none came about. */
static gint64
act_at_random (Fixture *fixture,
               GRand   *rand)
{
  gint64 act = 0;
  int    kind = g_rand_int_range (rand, 0, 10);

  if (kind == 0)
    return cro_store_undo (fixture->store, &act, NULL, NULL) ? act : 0;
  if (kind == 1)
    return cro_store_redo (fixture->store, &act, NULL, NULL) ? act : 0;
  begin (fixture->store, "at random");
  if (kind == 2)
    swap_names (fixture, rand);
  for (int n = g_rand_int_range (rand, 1, 6); n > 0; n--)
    change (fixture, rand);
  return end (fixture->store);
}

/* --- Tests ----------------------------------------------------------------------------- */

static void
test_every_act_of_many (void **state)
{
  Fixture *fixture = *state;
  GRand   *rand = g_rand_new_with_seed (20260301);
  char    *stood[N_ACTS + 2] = { NULL };
  gint64   last = 1;

  set_zone ("UTC");
  date_nth (fixture, 1);
  stood[1] = cro_test_dump (fixture->folder.path);
  while (last < N_ACTS)
    {
      gint64 act = act_at_random (fixture, rand);

      if (act == 0)
        continue;
      assert_int_equal (act, last + 1);
      last = act;
      date_nth (fixture, act);
      stood[act] = cro_test_dump (fixture->folder.path);
    }
  for (gint64 act = 1; act <= N_ACTS; act++)
    {
      g_autofree char *day = day_of ((guint) act);
      g_autofree char *past = dump_past (fixture->store, day);

      if (!g_str_equal (past, stood[act]))
        fail_msg ("the book of act %d is otherwise: %s\n%s", (int) act, past, stood[act]);
      g_free (stood[act]);
    }
  g_rand_free (rand);
}

/* Schema, journal, and what SQLite counts. */
static char *
dump_rest (CroStore *store)
{
  g_auto(GStrv) texts = cro_sql_texts (store->db,
                                       "SELECT type || name || ifnull (sql, '') FROM sqlite_schema"
                                       " UNION ALL SELECT name || ' ' || seq FROM sqlite_sequence"
                                       " UNION ALL SELECT 'v' || user_version FROM pragma_user_version"
                                       " UNION ALL SELECT label || at || desk FROM act"
                                       " UNION ALL SELECT id || tbl || ifnull (after, '') FROM change"
                                       " ORDER BY 1",
                                       NULL, NULL);

  return g_strjoinv ("\n", texts);
}

/* Rows, with no pictures among them. */
static char *
dump_rows (CroStore *store)
{
  assert_true (cro_sql_exec (store->db, "PRAGMA foreign_keys = OFF", NULL));
  assert_true (cro_journal_disarm (store->db, NULL));
  assert_true (cro_sql_exec (store->db, "DELETE FROM picture", NULL));
  return cro_test_dump_of (store->db);
}

/* Where it is never shown, a photograph is not copied; all else is the same. */
static void
test_a_copy_may_leave_pictures_out (void **state)
{
  Fixture           *fixture = *state;
  GRand             *rand = g_rand_new_with_seed (20261129);
  gsize              length = 2 * 1024 * 1024;
  g_autofree char   *photograph = g_strnfill (length, 'p');
  g_autofree char   *sum = g_compute_checksum_for_data (G_CHECKSUM_SHA256, (guchar *) photograph, length);
  g_autofree char   *name = g_strconcat (sum, ".jpg", NULL);
  g_autoptr(GBytes)  data = g_bytes_new_static (photograph, length);
  g_autoptr(CroStore) with = NULL, without = NULL;
  g_autofree char   *all = NULL, *left = NULL, *rest = NULL, *rest_left = NULL;
  GError            *error = NULL;
  gint64             n = -1;

  for (int i = 0; i < 20; i++)
    act_at_random (fixture, rand);
  g_rand_free (rand);
  begin (fixture->store, "a photograph");
  cro_test_must (cro_store_keep_picture (fixture->store, name, data, &error), error);
  set_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (7000000));
  end (fixture->store);
  with = cro_store_copy_to_memory (fixture->store, TRUE, &error);
  cro_test_must (with != NULL, error);
  without = cro_store_copy_to_memory (fixture->store, FALSE, &error);
  cro_test_must (without != NULL, error);
  assert_true (cro_store_number (with, "SELECT count(*) FROM picture", &n, NULL));
  assert_true (n > 0);
  assert_true (cro_store_number (without, "SELECT count(*) FROM picture", &n, NULL));
  assert_int_equal (n, 0);
  rest = dump_rest (with);
  rest_left = dump_rest (without);
  assert_string_equal (rest, rest_left);
  all = dump_rows (with);
  left = dump_rows (without);
  assert_string_equal (all, left);
}

static void
test_a_fill_begins_in_emptiness (void **state)
{
  Fixture         *fixture = *state;
  g_autofree char *nothing = cro_test_dump (fixture->folder.path);
  g_autofree char *filled = NULL;
  g_autofree char *before = NULL, *after = NULL;
  GError          *error = NULL;

  set_zone ("UTC");
  begin (fixture->store, "an item that goes again");
  insert_item (fixture->store, "samphire");
  date_act (fixture, end (fixture->store), "2026-02-01T12:00:00Z");
  undo (fixture->store);
  date_act (fixture, 2, "2026-02-02T12:00:00Z");
  cro_test_must (cro_store_begin_fill (fixture->store, "fill", &error), error);
  insert_item (fixture->store, "purslane");
  date_act (fixture, end (fixture->store), "2026-02-03T12:00:00Z");
  filled = cro_test_dump (fixture->folder.path);

  before = dump_past (fixture->store, "2026-02-02");
  after = dump_past (fixture->store, "2026-02-03");
  if (!g_str_equal (before, nothing))
    fail_msg ("before a fill the book was empty: %s", before);
  if (!g_str_equal (after, filled))
    fail_msg ("the day of the fill holds what it filled in: %s", after);
}

static void
assert_before (CroStore   *store,
               const char *day,
               const char *first)
{
  GError *error = NULL;

  assert_null (cro_store_open_past (store, day, &error));
  if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_BEFORE)
      || !g_str_equal (error->message, first))
    fail_msg ("%s: the refusal of a day before the first act names the first", error->message);
  g_clear_error (&error);
}

static void
test_no_day_before_the_first (void **state)
{
  Fixture  *fixture = *state;
  CroStore *today;

  set_zone ("UTC");
  date_act (fixture, 1, "2026-02-01T12:00:00Z");
  assert_before (fixture->store, "2026-01-31", "2026-02-01");
  today = open_past (fixture->store, "2026-02-01");
  cro_store_close (today);
}

static void
test_an_empty_book_has_any_day (void **state)
{
  Fixture  *fixture = *state;
  CroStore *past = open_past (fixture->store, "1999-12-31");

  cro_store_close (past);
}

/* A day ends at four in the morning of where the desk stands. */
static void
test_the_night_belongs_to_the_day_before (void **state)
{
  static const struct { const char *zone, *at, *day; } cases[] = {
    { "UTC", "2026-02-01T03:59:59Z", "2026-01-31" },
    { "UTC", "2026-02-01T04:00:00Z", "2026-02-01" },
    { "XST-12", "2026-01-31T15:59:59Z", "2026-01-31" },
    { "XST-12", "2026-01-31T16:00:00Z", "2026-02-01" },
    { "XST+9", "2026-02-01T12:59:59Z", "2026-01-31" },
    { "XST+9", "2026-02-01T13:00:00Z", "2026-02-01" },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *day = NULL;

      set_zone (cases[i].zone);
      date_act (fixture, 1, cases[i].at);
      day = cro_store_dup_first_day (fixture->store, NULL);
      if (g_strcmp0 (day, cases[i].day) != 0)
        fail_msg ("%s of %s is %s, not %s", cases[i].at, cases[i].zone, day, cases[i].day);
    }
}

static gint64
number (Fixture    *fixture,
        const char *sql)
{
  sqlite3 *db = cro_test_raw (fixture->folder.path);
  gint64   result = -1;
  GError  *error = NULL;

  cro_test_must (cro_sql_number (db, sql, &result, &error), error);
  sqlite3_close (db);
  return result;
}

static void
test_an_act_keeps_its_local_day (void **state)
{
  Fixture *fixture = *state;

  set_zone ("XST-12");
  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (1));
  set_zone ("XST+11");
  if (number (fixture, "SELECT day = date (at, '+8 hours') FROM act WHERE id = 2") != 1)
    fail_msg ("the day is that of the desk which did it, wherever it is asked for");
}

static void
test_time_never_runs_backwards (void **state)
{
  Fixture *fixture = *state;

  set_zone ("UTC");
  date_act (fixture, 1, "2090-01-01T12:00:00Z");
  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (1));
  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (2));
  if (number (fixture, "SELECT count (*) FROM act WHERE at = '2090-01-01T12:00:00Z'"
                       " AND ifnull (day, '2090-01-01') = '2090-01-01'") != 3)
    fail_msg ("an act is never of an earlier time or day than the one before it");
}

static void
test_the_past_is_only_read (void **state)
{
  Fixture            *fixture = *state;
  g_autoptr(CroStore) past = NULL;
  gboolean            changed = TRUE;
  GError             *error = NULL;

  set_zone ("UTC");
  date_act (fixture, 1, "2026-02-01T12:00:00Z");
  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (1));
  past = open_past (fixture->store, "2026-02-01");
  assert_false (cro_store_begin_act (past, "no", &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_PAST));
  g_clear_error (&error);
  if (sqlite3_exec (past->db, "DELETE FROM sale", NULL, NULL, NULL) != SQLITE_READONLY)
    fail_msg ("nothing is written into the past");
  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (2));
  if (!cro_store_poll (past, &changed, &error) || changed)
    fail_msg ("what others do later does not reach the past");
  g_remove (fixture->folder.path);
  if (!cro_store_poll (past, &changed, &error))
    fail_msg ("the past needs no file: %s", error->message);
}

static void
test_history_ends_with_the_day (void **state)
{
  Fixture              *fixture = *state;
  g_autoptr(CroStore)   past = NULL;
  g_autoptr(GPtrArray)  acts = NULL;

  set_zone ("UTC");
  date_act (fixture, 1, "2026-02-01T12:00:00Z");
  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (1));
  past = open_past (fixture->store, "2026-02-01");
  acts = cro_store_list_acts (past, 0, 10, NULL);
  assert_int_equal (acts->len, 1);
  assert_int_equal (((CroAct *) acts->pdata[0])->id, 1);
  assert_true (cro_store_last_change (past) < cro_store_last_change (fixture->store));
}

static void
test_a_false_journal_is_told (void **state)
{
  static const char *const falsehoods[] = {
    "UPDATE change SET tbl = 'item\" SET name = ''x'' --' WHERE act = 2",
    "UPDATE change SET after = '{\"price_micro\":77}' WHERE act = 2",
    "UPDATE change SET row = 77 WHERE act = 2",
  };
  Fixture *fixture = *state;

  set_zone ("UTC");
  date_act (fixture, 1, "2026-02-01T12:00:00Z");
  for (gsize i = 0; i < G_N_ELEMENTS (falsehoods); i++)
    {
      GError  *error = NULL;
      sqlite3 *db;

      if (i == 0)
        act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (1));
      db = cro_test_raw (fixture->folder.path);
      cro_test_sql (db, "UPDATE change SET tbl = 'plate' WHERE act = 2");
      cro_test_sql (db, falsehoods[i]);
      sqlite3_close (db);
      assert_null (cro_store_open_past (fixture->store, "2026-02-01", &error));
      if (!g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED))
        fail_msg ("%s: %s", falsehoods[i], error->message);
      g_clear_error (&error);
    }
}

/* Names between quotes, which say more than their columns: as text they would be SQL. */
static void
test_a_journal_of_another_hand (void **state)
{
  static const struct { const char *before, *after; gboolean is_sound; } hands[] = {
    { "{\"price_micro\":9000000}", "{\"price_micro\":1}", TRUE },
    { "{ \"price_micro\" : 9000000 }", "{ \"price_micro\" : 1 }", TRUE },
    { "{\"price_micro\":9000000,\"tide\":1}", "{\"price_micro\":1,\"tide\":1}", TRUE },
    { "{\"price_micro\":9000000,\"price_micro\":5}", "{\"price_micro\":1,\"price_micro\":5}", TRUE },
    { "{\"price_micro\":9000000,\"note\":\"n\"}", "{\"note\":\"n\",\"price_micro\":1}", TRUE },
    { "{\"price_micro\":9000000}", "{\"note\":\"n\",\"price_micro\":1}", TRUE },
    { "{\"price_micro\":9000000,\"note\\\" = 'x' --\":1}", "{\"price_micro\":1}", TRUE },
    { "{\"price_micro\":9000000,\"id = 7, note\":1}", "{\"price_micro\":1}", TRUE },
    { "{\"price_micro\":9000000}", "{\"price_micro\":2}", FALSE },
    { "{\"price_micro\":9000000,\"note\":1", "{\"price_micro\":1,\"note\":1", FALSE },
    { "{\"price_micro\":}", "{\"price_micro\":}", FALSE },
    { "", "", FALSE },
  };
  Fixture *fixture = *state;
  g_autofree char *stood = NULL;

  set_zone ("UTC");
  date_act (fixture, 1, "2026-02-01T12:00:00Z");
  stood = cro_test_dump (fixture->folder.path);
  act_of_cell (fixture->store, "plate", 1, "price_micro", CRO_CELL_INT (1));
  for (gsize i = 0; i < G_N_ELEMENTS (hands); i++)
    {
      char *sql = sqlite3_mprintf ("UPDATE change SET before = %Q, after = %Q WHERE act = 2",
                                   hands[i].before, hands[i].after);
      sqlite3 *db = cro_test_raw (fixture->folder.path);
      g_autoptr (CroStore) past = NULL;
      g_autofree char *is = NULL;

      cro_test_sql (db, sql);
      sqlite3_close (db);
      sqlite3_free (sql);
      past = cro_store_open_past (fixture->store, "2026-02-01", NULL);
      is = past != NULL ? cro_test_dump_of (past->db) : NULL;
      if (hands[i].is_sound ? g_strcmp0 (is, stood) != 0 : is != NULL)
        fail_msg ("%s after %s: %s", hands[i].before, hands[i].after, is != NULL ? is : "refused");
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_every_act_of_many, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_a_copy_may_leave_pictures_out, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_a_fill_begins_in_emptiness, set_up_empty, tear_down),
    cmocka_unit_test_setup_teardown (test_no_day_before_the_first, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_an_empty_book_has_any_day, set_up_empty, tear_down),
    cmocka_unit_test_setup_teardown (test_the_night_belongs_to_the_day_before, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_an_act_keeps_its_local_day, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_time_never_runs_backwards, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_the_past_is_only_read, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_history_ends_with_the_day, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_a_false_journal_is_told, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_a_journal_of_another_hand, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
