/* Acts that put lines and plates into an order. */
#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "support/kitchen-rows.h"

/* "lines" as the names of what they take. */
static char *
order_of (Fixture *fixture)
{
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (fixture->book),
                                                  fixture->plate);
  GString *order = g_string_new (NULL);

  for (guint i = 0; i < lines->len; i++)
    g_string_append_printf (order, "%" G_GINT64_FORMAT " ",
                            fixture->model->lines.amount[g_array_index (lines, guint32, i)]
                                / CRO_MICRO);
  return g_string_free (order, FALSE);
}

static void
expect_order (const char *says,
              Fixture    *fixture,
              const char *wanted)
{
  g_autofree char *order = order_of (fixture);

  if (strcmp (order, wanted) != 0)
    fail_msg ("%s: %s and not %s", says, order, wanted);
}

static guint32
add_amount (Fixture *fixture,
            guint32  after,
            int      amount)
{
  CroNewLine line = { .item = fixture->ingredient, .amount = M (amount), .unit = CRO_UNIT_G };
  GError *error = NULL;

  cro_test_must (cro_test_add_lines (fixture->book, fixture->plate, after, &line, 1, NULL, &error), error);
  return (guint32) cro_book_get_model (fixture->book)->lines.n - 1;
}

static void
test_order (void **state)
{
  Fixture *fixture = *state;
  guint32 two, last;
  GError *error = NULL;

  two = add_amount (fixture, CRO_NO_SLOT, 2);
  last = add_amount (fixture, CRO_NO_SLOT, 3);
  expect_order ("lines are added at the end", fixture, "120 2 3 ");
  add_amount (fixture, two, 4);
  expect_order ("or behind a line", fixture, "120 2 4 3 ");
  cro_test_must (cro_edit_move_line (fixture->book, "m", last, CRO_NO_SLOT, &error), error);
  expect_order ("one is moved to the top", fixture, "3 120 2 4 ");
  cro_test_must (cro_edit_move_line (fixture->book, "m", last, two, &error), error);
  expect_order ("and behind another", fixture, "120 2 3 4 ");
  cro_test_must (cro_edit_duplicate_line (fixture->book, "d", two, NULL, &error), error);
  expect_order ("a copy stands behind its line", fixture, "120 2 2 3 4 ");
}

/* Sixty halvings of a millionfold gap leave no room many times over. */
static void
test_no_room (void **state)
{
  Fixture *fixture = *state;
  g_autoptr (GString) wanted = g_string_new ("120 ");
  guint32 first = fixture->line_of_plate;

  add_amount (fixture, CRO_NO_SLOT, 1);
  for (int i = 2; i <= 60; i++)
    add_amount (fixture, first, i);
  for (int i = 60; i >= 1; i--)
    g_string_append_printf (wanted, "%d ", i);
  expect_order ("there is always room behind a line", fixture, wanted->str);
  expect_figures ("figures are those of the book opened anew", "no room", fixture->book);
}

static void
test_menu_order (void **state)
{
  Fixture *fixture = *state;
  guint32 plate, entry;
  g_autoptr (GPtrArray) plates = NULL;
  GError *error = NULL;

  cro_test_must (cro_edit_add_plate (fixture->book, "a", "bun", M (12), &plate, &error), error);
  cro_test_must (cro_edit_add_to_menu (fixture->book, "a", fixture->menu, plate, M (2), &entry,
                                       &error), error);
  plates = cro_menu_dup_plates (fixture->model, fixture->menu);
  assert_int_equal (((CroMenuPlate *) plates->pdata[1])->plate, plate);
  assert_int_equal (((CroMenuPlate *) plates->pdata[1])->servings, M (2));
  cro_test_must (cro_edit_move_in_menu (fixture->book, "m", entry, CRO_NO_SLOT, &error), error);
  g_ptr_array_unref (plates);
  plates = cro_menu_dup_plates (fixture->model, fixture->menu);
  assert_int_equal (((CroMenuPlate *) plates->pdata[0])->plate, plate);
}

/* An act is of the book as it stands, whatever another desk did meanwhile. */
static void
test_other_desk (void **state)
{
  Fixture *fixture = *state;
  g_autoptr (CroBook) other = cro_test_book_open (fixture->folder.path, "pass");
  CroModel *model = cro_book_get_model (other);
  CroNewLine line = { .item = cro_slots_get (&model->item_slots, 1), .amount = M (7),
                      .unit = CRO_UNIT_G };
  GError *error = NULL;

  cro_test_must (cro_test_add_lines (other, cro_slots_get (&model->plate_slots, 1), CRO_NO_SLOT, &line, 1, NULL,
                                     &error), error);
  add_amount (fixture, CRO_NO_SLOT, 8);
  expect_order ("two desks add lines to one plate", fixture, "120 7 8 ");
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup_teardown (name, setup, teardown)
  const struct CMUnitTest tests[] = {
    TEST (test_order),
    TEST (test_no_room),
    TEST (test_menu_order),
    TEST (test_other_desk),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
