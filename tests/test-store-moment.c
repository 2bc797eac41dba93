/* Reading in one moment, and acts that are refused before they are committed. */
#include "cro-history.h"
#include "cro-store.h"
#include "support/store-book.h"

typedef struct
{
  CroTestFolder folder;
  CroStore     *store;
  CroStore     *other;
} Fixture;

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  fixture->store = cro_test_create (fixture->folder.path);
  cro_test_add_rows (fixture->folder.path);
  fixture->other = cro_test_open (fixture->folder.path, "pass");
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  cro_store_close (fixture->store);
  cro_store_close (fixture->other);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static void
write_price (CroStore *store,
             gint64    price)
{
  static const char *const columns[] = { "price_micro", NULL };
  CroCell                  cell = CRO_CELL_INT (price);
  GError                  *error = NULL;

  cro_test_must (cro_store_begin_act (store, "price", &error), error);
  cro_test_must (cro_store_update (store, "price", 1, columns, &cell, &error), error);
}

static void
set_price (CroStore *store,
           gint64    price)
{
  GError *error = NULL;

  write_price (store, price);
  cro_test_must (cro_store_end_act (store, NULL, &error), error);
}

/* The price in force of an offer, or of the first of all; -1: none. */
static gint64
price_on (CroStore   *store,
          const char *date,
          gint64      offer)
{
  GError            *error = NULL;
  g_autoptr(CroRows) rows = cro_store_read_prices (store, date, offer, &error);
  gint64             price;

  cro_test_must (rows != NULL, error);
  price = cro_rows_next (rows, &error) ? cro_rows_get_int (rows, 3) : -1;
  assert_null (error);
  return price;
}

static void
test_moment (void **state)
{
  Fixture *fixture = *state;
  GError  *error = NULL;

  cro_test_must (cro_store_begin_read (fixture->store, &error), error);
  cro_test_must (cro_store_begin_read (fixture->store, &error), error);
  set_price (fixture->other, 11000000);
  if (price_on (fixture->store, "2026-02-01", 0) != 9500000)
    fail_msg ("what another commits is not seen within the moment");
  cro_store_end_read (fixture->store);
  if (price_on (fixture->store, "2026-02-01", 0) != 9500000)
    fail_msg ("the moment lasts until the outermost of two has ended");
  cro_store_end_read (fixture->store);
  if (price_on (fixture->store, "2026-02-01", 0) != 11000000)
    fail_msg ("after the moment the newest stands there");
}

static void
test_moment_in_act (void **state)
{
  Fixture *fixture = *state;
  GError  *error = NULL;

  write_price (fixture->store, 12000000);
  cro_test_must (cro_store_begin_read (fixture->store, &error), error);
  if (price_on (fixture->store, "2026-02-01", 0) != 12000000)
    fail_msg ("within an act its own rows are read");
  cro_store_end_read (fixture->store);
  cro_test_must (cro_store_end_act (fixture->store, NULL, &error), error);
  if (price_on (fixture->other, "2026-02-01", 0) != 12000000)
    fail_msg ("the end of a moment within an act neither ends nor cancels the act");
}

static void
test_prices_of_one (void **state)
{
  Fixture *fixture = *state;

  if (price_on (fixture->store, "2026-02-01", 1) != 9500000)
    fail_msg ("an offer has its price");
  if (price_on (fixture->store, "2026-01-04", 1) != -1)
    fail_msg ("a price of a later day is not in force");
  if (price_on (fixture->store, "2026-02-01", 2) != -1)
    fail_msg ("another offer's price is not this one's");
}

static gboolean
refuse_cb (gpointer   user_data,
           GError   **error)
{
  int *asked = user_data;

  (*asked)++;
  g_set_error_literal (error, G_FILE_ERROR, G_FILE_ERROR_PERM, "no");
  return FALSE;
}

static void
test_refused_act (void **state)
{
  Fixture *fixture = *state;
  int      asked = 0;
  GError  *error = NULL;

  cro_store_set_check (fixture->store, refuse_cb, &asked);
  write_price (fixture->store, 13000000);
  if (cro_store_end_act (fixture->store, NULL, &error) || asked != 1)
    fail_msg ("an act that the check refuses is not committed");
  assert_true (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_PERM));
  g_clear_error (&error);
  cro_store_cancel_act (fixture->store);
  if (price_on (fixture->other, "2026-02-01", 1) != 9500000)
    fail_msg ("nothing of a refused act is there");

  cro_test_must (cro_store_begin_act (fixture->store, "nothing", &error), error);
  cro_test_must (cro_store_end_act (fixture->store, NULL, &error), error);
  if (asked != 1)
    fail_msg ("an act that changed nothing needs no check");
}

static void
test_refused_undo (void **state)
{
  Fixture *fixture = *state;
  int      asked = 0;
  GError  *error = NULL;

  set_price (fixture->store, 14000000);
  cro_store_set_check (fixture->store, refuse_cb, &asked);
  if (cro_store_undo (fixture->store, NULL, NULL, &error) || asked != 1)
    fail_msg ("an undo that the check refuses is not committed");
  assert_true (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_PERM));
  g_clear_error (&error);
  if (price_on (fixture->other, "2026-02-01", 1) != 14000000)
    fail_msg ("nothing of a refused undo is there");
  cro_store_set_check (fixture->store, NULL, NULL);
  cro_test_must (cro_store_undo (fixture->store, NULL, NULL, &error), error);
  if (price_on (fixture->other, "2026-02-01", 1) != 9500000)
    fail_msg ("what was refused can be undone when nothing stands against it");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_moment, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_moment_in_act, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_prices_of_one, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_refused_act, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_refused_undo, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
