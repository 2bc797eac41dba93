/* Copies of things: what they have of what they are copied from. */
#include "cro-breakdown.h"
#include "cro-edit.h"
#include "cro-selling-steps.h"
#include "support/kitchen-rows.h"

static void
test_copies (void **state)
{
  Fixture *fixture = *state;
  CroFigures *figures = cro_book_get_figures (fixture->book);
  CroRef copy, plate;
  GError *error = NULL;
  const guint32 *outputs;

  cro_test_must (cro_edit_duplicate (fixture->book, "c", CRO_REF (CRO_REF_ITEM, fixture->ingredient),
                                     "sea beet", &copy, &error), error);
  assert_string_equal (cro_ref_name (fixture->model, copy), "sea beet");
  assert_true (cro_figures_unit_cost (figures, copy.slot)
               == cro_figures_unit_cost (figures, fixture->ingredient));
  cro_test_must (cro_edit_duplicate (fixture->book, "c", CRO_REF (CRO_REF_RECIPE, fixture->plate),
                                     "other tartlet", &plate, &error), error);
  assert_true (cro_figure_of_plate (figures, plate.slot).cost
               == cro_figure_of_plate (figures, fixture->plate).cost);
  cro_test_must (cro_edit_duplicate (fixture->book, "c",
                                     CRO_REF (CRO_REF_RECIPE, fixture->preparation), "other purée",
                                     &copy, &error), error);
  assert_int_equal (cro_figures_outputs (figures, copy.slot, &outputs), 1);
  assert_string_equal (cro_model_item (fixture->model, outputs[0])->name, "other purée");
}

/* A copy of what is sold for two prices, the second of which has a tax of its own. */
static void
expect_same_prices (Fixture    *f,
                    CroRef      of,
                    const char *name)
{
  GError *error = NULL;
  CroRef copy;
  g_autoptr (GArray) before = NULL;
  g_autoptr (GArray) after = NULL;

  cro_test_must (cro_edit_set_selling_price (f->book, "p", of, CRO_TEST_DAY - 30, M (12), &error),
                 error);
  cro_test_must (cro_edit_set_selling_price (f->book, "p", of, CRO_TEST_DAY + 30, CRO_NOT_SET,
                                             &error), error);
  cro_test_must (cro_edit_duplicate (f->book, "c", of, name, &copy, &error), error);
  before = cro_selling_steps_new (f->book, of, &error);
  after = cro_selling_steps_new (f->book, copy, &error);
  assert_true (before->len >= 2);
  assert_int_equal (after->len, before->len);
  for (guint i = 0; i < before->len; i++)
    {
      const CroSellingStep *a = &g_array_index (before, CroSellingStep, i);
      const CroSellingStep *b = &g_array_index (after, CroSellingStep, i);

      assert_true (a->from == b->from && a->price == b->price && a->tax == b->tax);
      assert_int_not_equal (a->id, b->id);
    }
  expect_figures ("figures are those of the book opened anew", name, f->book);
}

static void
test_copies_are_sold_for_as_much (void **state)
{
  Fixture *f = *state;

  expect_same_prices (f, CRO_REF (CRO_REF_RECIPE, f->plate), "other tartlet");
  expect_same_prices (f, CRO_REF (CRO_REF_MENU, f->menu), "other menu");
}

/* All that is entered of a supplier; its packs are not copied. */
static void
test_a_copied_supplier_delivers_alike (void **state)
{
  Fixture *f = *state;
  const char *columns[] = { "contact", "quotes", "minimum_order_micro", "delivery_charge_micro",
                            "note", NULL };
  CroCell cells[] = { CRO_CELL_STR ("quay"), CRO_CELL_STR ("pack"), CRO_CELL_INT (M (80)),
                      CRO_CELL_INT (M (9)), CRO_CELL_STR ("early") };
  CroRef supplier = CRO_REF (CRO_REF_SUPPLIER, f->supplier), copy;
  GError *error = NULL;
  g_autoptr (CroRows) rows = NULL;

  cro_test_must (cro_edit_set (f->book, "s", "supplier",
                               g_array_index (f->model->suppliers, CroSupplier, f->supplier).id,
                               columns, cells, &error), error);
  cro_test_must (cro_edit_duplicate (f->book, "c", supplier, "Other Greens", &copy, &error), error);
  rows = cro_store_read_one (cro_book_get_store (f->book), "supplier",
                             g_array_index (f->model->suppliers, CroSupplier, copy.slot).id,
                             columns, &error);
  cro_test_must (rows != NULL && cro_rows_next (rows, &error), error);
  assert_string_equal (cro_rows_get_text (rows, 0), "quay");
  assert_string_equal (cro_rows_get_text (rows, 1), "pack");
  assert_int_equal (cro_rows_get_int (rows, 2), M (80));
  assert_int_equal (cro_rows_get_int (rows, 3), M (9));
  assert_string_equal (cro_rows_get_text (rows, 4), "early");
}

int
main (void)
{
#define TEST(name) cmocka_unit_test_setup_teardown (name, setup, teardown)
  const struct CMUnitTest tests[] = {
    TEST (test_copies),
    TEST (test_copies_are_sold_for_as_much),
    TEST (test_a_copied_supplier_delivers_alike),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
