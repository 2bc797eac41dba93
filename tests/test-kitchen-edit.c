/* The acts that people make: what each does, and that undo gives back every byte. */
#include "cro-breakdown.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-selling-steps.h"
#include "support/kitchen-rows.h"

#include <math.h>

/* --- Every act --------------------------------------------------------------------------------- */

static CroUnitPrice
unit_price (double  price,
            CroUnit unit)
{
  return (CroUnitPrice){ M (price), unit, "Market", CRO_TEST_DAY, 0 };
}

static gboolean
rename_item (Fixture *f, GError **error)
{
  return cro_edit_rename (f->book, "act", CRO_REF (CRO_REF_ITEM, f->ingredient), " sea  beet ", error);
}

static gboolean
rename_preparation (Fixture *f, GError **error)
{
  return cro_edit_rename (f->book, "act", CRO_REF (CRO_REF_RECIPE, f->preparation), "marsh purée",
                          error);
}

static gboolean
rename_plate (Fixture *f, GError **error)
{
  return cro_edit_rename (f->book, "act", CRO_REF (CRO_REF_RECIPE, f->plate), "tartlet", error);
}

static gboolean
rename_menu (Fixture *f, GError **error)
{
  return cro_edit_rename (f->book, "act", CRO_REF (CRO_REF_MENU, f->menu), "ebb menu", error);
}

static gboolean
rename_supplier (Fixture *f, GError **error)
{
  return cro_edit_rename (f->book, "act", CRO_REF (CRO_REF_SUPPLIER, f->supplier), "Quay Greens",
                          error);
}

static gboolean
add_ingredient (Fixture *f, GError **error)
{
  return cro_edit_add_ingredient (f->book, "act", "dill", CRO_BASE_GRAM, NULL, NULL, error);
}

static gboolean
add_priced_ingredient (Fixture *f, GError **error)
{
  CroUnitPrice price = unit_price (9.2, CRO_UNIT_KG);

  return cro_edit_add_ingredient (f->book, "act", "butter", CRO_BASE_GRAM, &price, NULL, error);
}

static gboolean
price_ingredient (Fixture *f, GError **error)
{
  CroUnitPrice price = unit_price (0, CRO_UNIT_KG);

  return cro_edit_price_ingredient (f->book, "act", f->ingredient, &price, NULL, error);
}

static gboolean
add_supplier (Fixture *f, GError **error)
{
  return cro_edit_add_supplier (f->book, "act", "Quay Shellfish", NULL, error);
}

static gboolean
add_offer (Fixture *f, GError **error)
{
  CroNewOffer offer = { .item = f->ingredient, .supplier = f->supplier, .code = "S2",
                        .pack_count = M (2), .pack_size = M (5), .pack_unit = CRO_UNIT_KG };

  return cro_edit_add_offer (f->book, "act", &offer, NULL, error);
}

static gboolean
add_whole_offer (Fixture *f, GError **error)
{
  CroNewOffer offer = { .item = f->ingredient, .supplier = CRO_NO_SLOT,
                        .supplier_name = "Quay Shellfish", .pack_count = M (2),
                        .pack_size = M (5), .pack_unit = CRO_UNIT_KG, .has_price = TRUE,
                        .price = M (90), .from = CRO_TEST_DAY };

  return cro_edit_add_offer (f->book, "act", &offer, NULL, error);
}

static gboolean
set_price (Fixture *f, GError **error)
{
  return cro_edit_set_price (f->book, "act", f->offer, CRO_TEST_DAY, M (10), error);
}

static gboolean
set_pack (Fixture *f, GError **error)
{
  return cro_edit_set_pack (f->book, "act", f->offer, CRO_TEST_DAY, M (1), M (4), CRO_UNIT_KG, error);
}

static gboolean
set_price_of_same_day (Fixture *f, GError **error)
{
  return cro_edit_set_price (f->book, "act", f->offer, cro_date_from_civil (2026, 1, 5), M (10),
                             error);
}

static gboolean
set_rate (Fixture *f, GError **error)
{
  return cro_edit_set_rate (f->book, "act", "NOK", CRO_TEST_DAY, M (8.5), M (100), error);
}

static gboolean
set_rate_of_same_day (Fixture *f, GError **error)
{
  return cro_edit_set_rate (f->book, "act", "GBP", cro_date_from_civil (2026, 1, 1), M (1.2), M (1),
                            error);
}

static gboolean
remove_price (Fixture *f, GError **error)
{
  return cro_edit_remove_price (f->book, "act", 1, error);
}

static gboolean
remove_rate (Fixture *f, GError **error)
{
  return cro_edit_remove_rate (f->book, "act", 1, error);
}

static gboolean
add_preparation (Fixture *f, GError **error)
{
  return cro_edit_add_preparation (f->book, "act", "gel", M (500), CRO_UNIT_ML, NULL, NULL, error);
}

static gboolean
add_output (Fixture *f, GError **error)
{
  return cro_edit_add_output (f->book, "act", f->preparation, "stalks", 0, CRO_UNIT_G, NULL, error);
}

static gboolean
add_plate (Fixture *f, GError **error)
{
  return cro_edit_add_plate (f->book, "act", "bun", M (12), NULL, error);
}

static gboolean
add_menu (Fixture *f, GError **error)
{
  return cro_edit_add_menu (f->book, "act", "flood menu", NULL, error);
}

static gboolean
copy_ingredient (Fixture *f, GError **error)
{
  return cro_edit_duplicate (f->book, "act", CRO_REF (CRO_REF_ITEM, f->ingredient), "sea beet", NULL,
                             error);
}

static gboolean
copy_preparation (Fixture *f, GError **error)
{
  return cro_edit_duplicate (f->book, "act", CRO_REF (CRO_REF_RECIPE, f->preparation), "other purée",
                             NULL, error);
}

static gboolean
copy_plate (Fixture *f, GError **error)
{
  return cro_edit_duplicate (f->book, "act", CRO_REF (CRO_REF_RECIPE, f->plate), "other tartlet",
                             NULL, error);
}

static gboolean
copy_menu (Fixture *f, GError **error)
{
  return cro_edit_duplicate (f->book, "act", CRO_REF (CRO_REF_MENU, f->menu), "other menu", NULL,
                             error);
}

static gboolean
copy_supplier (Fixture *f, GError **error)
{
  return cro_edit_duplicate (f->book, "act", CRO_REF (CRO_REF_SUPPLIER, f->supplier), "other greens",
                             NULL, error);
}

static gboolean
copy_offer (Fixture *f, GError **error)
{
  return cro_edit_duplicate (f->book, "act", CRO_REF (CRO_REF_OFFER, f->offer), "S2", NULL, error);
}

static gboolean
scale_plate (Fixture *f, GError **error)
{
  return cro_edit_scale (f->book, "act", f->plate, M (36), error);
}

static gboolean
scale_preparation (Fixture *f, GError **error)
{
  return cro_edit_scale (f->book, "act", f->preparation, M (1200), error);
}

static gboolean
remove_line (Fixture *f, GError **error)
{
  return cro_edit_remove (f->book, "act", CRO_REF (CRO_REF_LINE, f->line_of_plate), error);
}

static gboolean
remove_offer (Fixture *f, GError **error)
{
  return cro_edit_remove (f->book, "act", CRO_REF (CRO_REF_OFFER, f->offer), error);
}

static gboolean
remove_menu (Fixture *f, GError **error)
{
  return cro_edit_remove (f->book, "act", CRO_REF (CRO_REF_MENU, f->menu), error);
}

static gboolean
remove_entry (Fixture *f, GError **error)
{
  return cro_edit_remove_from_menu (f->book, "act", f->entry, error);
}

static gboolean
add_lines (Fixture *f, GError **error)
{
  CroNewLine lines[] = {
    { .item = f->ingredient, .amount = M (12), .unit = CRO_UNIT_G },
    { .item = CRO_NO_SLOT, .name = "butter", .base = CRO_BASE_GRAM, .amount = M (25),
      .unit = CRO_UNIT_G, .has_price = TRUE, .price = unit_price (9.2, CRO_UNIT_KG) },
  };

  return cro_test_add_lines (f->book, f->plate, CRO_NO_SLOT, lines, 2, NULL, error);
}

static gboolean
copy_line (Fixture *f, GError **error)
{
  return cro_edit_duplicate_line (f->book, "act", f->line_of_preparation, NULL, error);
}

static gboolean
set_cells (Fixture *f, GError **error)
{
  static const char *const columns[] = { "amount_micro", "yield_pct_micro", NULL };
  CroCell cells[] = { CRO_CELL_NONE, CRO_CELL_INT (M (80)) };

  return cro_edit_set (f->book, "act", "output", 2, columns, cells, error);
}

static gboolean
start_plate (Fixture *f, GError **error)
{
  CroNewLine line = { .item = CRO_NO_SLOT, .name = "butter", .base = CRO_BASE_GRAM,
                      .amount = M (25), .unit = CRO_UNIT_G, .has_price = TRUE,
                      .price = unit_price (9.2, CRO_UNIT_KG) };

  return cro_edit_start (f->book, "act", "NOK", "first", M (1), &line, NULL, error);
}

static gboolean
no_price (Fixture *f, GError **error)
{
  return cro_edit_set_price (f->book, "act", f->offer, CRO_TEST_DAY, CRO_NOT_SET, error);
}

static gboolean
set_selling_price (Fixture *f, GError **error)
{
  return cro_edit_set_selling_price (f->book, "act", CRO_REF (CRO_REF_RECIPE, f->plate), CRO_TEST_DAY,
                                     M (12), error);
}

static gboolean
end_selling_price (Fixture *f, GError **error)
{
  return cro_edit_set_selling_price (f->book, "act", CRO_REF (CRO_REF_MENU, f->menu), CRO_TEST_DAY,
                                     CRO_NOT_SET, error);
}

static gboolean
remove_selling_price (Fixture *f, GError **error)
{
  return cro_edit_remove_selling_price (f->book, "act", 1, error);
}

#define ACT(name) { #name, name }

static const struct { const char *name; Act act; } acts[] = {
  ACT (rename_item),    ACT (rename_preparation), ACT (rename_plate),     ACT (rename_menu),
  ACT (rename_supplier), ACT (add_ingredient),    ACT (add_priced_ingredient),
  ACT (price_ingredient), ACT (add_supplier),     ACT (add_offer),        ACT (add_whole_offer),
  ACT (set_price),         ACT (set_pack),
  ACT (set_price_of_same_day), ACT (set_rate),    ACT (set_rate_of_same_day),
  ACT (remove_price),   ACT (remove_rate),        ACT (add_preparation),  ACT (add_output),
  ACT (add_plate),      ACT (add_menu),           ACT (copy_ingredient),  ACT (copy_preparation),
  ACT (copy_plate),     ACT (copy_menu),          ACT (copy_supplier),    ACT (copy_offer),
  ACT (scale_plate),    ACT (scale_preparation),  ACT (remove_line),      ACT (remove_offer),
  ACT (remove_menu),    ACT (remove_entry),       ACT (add_lines),        ACT (copy_line),
  ACT (set_cells),      ACT (start_plate),         ACT (no_price),
  ACT (set_selling_price), ACT (end_selling_price), ACT (remove_selling_price),
};

static void
test_every_act (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *before = cro_test_dump (fixture->folder.path);

  for (gsize i = 0; i < G_N_ELEMENTS (acts); i++)
    {
      g_autofree char *after = NULL;
      g_autofree char *undone = NULL;
      GError *error = NULL;

      if (!acts[i].act (fixture, &error))
        fail_msg ("%s: %s", acts[i].name, error->message);
      after = cro_test_dump (fixture->folder.path);
      if (strcmp (before, after) == 0)
        fail_msg ("%s changes something", acts[i].name);
      expect_figures ("figures are those of the book opened anew", acts[i].name, fixture->book);
      cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
      undone = cro_test_dump (fixture->folder.path);
      cro_test_same (acts[i].name, before, undone);
    }
}

/* --- Dates ---------------------------------------------------------------------------------------- */

static double
net_price_on (Fixture *f, CroDate date)
{
  GError *error = NULL;

  cro_test_must (cro_book_set_date (f->book, date, &error), error);
  return cro_figure_of_plate (cro_book_get_figures (f->book), f->plate).net_price;
}

static double
unit_cost_on (Fixture *f, CroDate date, CroDate *since)
{
  GError *error = NULL;
  CroFigures *figures;

  cro_test_must (cro_book_set_date (f->book, date, &error), error);
  figures = cro_book_get_figures (f->book);
  *since = figures->last_price[f->ingredient];
  return cro_figures_unit_cost (figures, f->ingredient);
}

static void
test_a_selling_price_moves_nothing_before_it (void **state)
{
  Fixture *f = *state;
  CroRef plate = CRO_REF (CRO_REF_RECIPE, f->plate);
  double before = net_price_on (f, CRO_TEST_DAY);
  GError *error = NULL;
  GArray *steps;

  cro_test_must (cro_edit_set_selling_price (f->book, "dearer", plate, CRO_TEST_DAY + 10, M (12),
                                             &error), error);
  cro_test_must (cro_edit_set_selling_price (f->book, "no more", plate, CRO_TEST_DAY + 20,
                                             CRO_NOT_SET, &error), error);
  assert_true (before > 0);
  assert_true (net_price_on (f, CRO_TEST_DAY + 9) == before);
  assert_true (fabs (net_price_on (f, CRO_TEST_DAY + 10) - 12 / 1.1) < 1e-12);
  assert_true (isnan (net_price_on (f, CRO_TEST_DAY + 20)));
  steps = cro_selling_steps_new (f->book, plate, &error);
  assert_int_equal (steps->len, 2);
  assert_int_equal (g_array_index (steps, CroSellingStep, 0).from, CRO_TEST_DAY + 20);
  assert_int_equal (g_array_index (steps, CroSellingStep, 0).price, CRO_NOT_SET);
  assert_int_equal (g_array_index (steps, CroSellingStep, 1).price, M (12));
  g_array_unref (steps);
}

static void
test_what_is_not_to_be_had_keeps_its_last_price (void **state)
{
  Fixture *f = *state;
  CroDate since;
  double before = unit_cost_on (f, CRO_TEST_DAY, &since);
  GError *error = NULL;

  assert_int_equal (since, CRO_NO_DAY);
  cro_test_must (cro_edit_set_price (f->book, "gone", f->offer, CRO_TEST_DAY + 3, CRO_NOT_SET, &error),
                 error);
  assert_true (unit_cost_on (f, CRO_TEST_DAY + 2, &since) == before);
  assert_int_equal (since, CRO_NO_DAY);
  assert_true (unit_cost_on (f, CRO_TEST_DAY + 40, &since) == before);
  assert_int_equal (since, CRO_TEST_DAY + 3);
  /* The row that serves goes, which is not the newest. */
  cro_test_must (cro_book_begin_act (f->book, "no price", &error)
                 && cro_store_delete (cro_book_get_store (f->book), "price", 1, &error)
                 && cro_book_end_act (f->book, &error), error);
  expect_figures ("figures are those of the book opened anew", "no older price", f->book);
  cro_test_must (cro_book_undo (f->book, NULL, &error), error);
  expect_figures ("figures are those of the book opened anew", "the older price is back", f->book);
  cro_test_must (cro_edit_set_price (f->book, "back", f->offer, CRO_TEST_DAY + 30, M (1), &error),
                 error);
  unit_cost_on (f, CRO_TEST_DAY + 40, &since);
  assert_int_equal (since, CRO_NO_DAY);
}

static void
test_a_pack_moves_nothing_before_it (void **state)
{
  Fixture *f = *state;
  CroDate since;
  double before = unit_cost_on (f, CRO_TEST_DAY, &since);
  GError *error = NULL;

  /* The price's pack was 5 times 1 kg. */
  cro_test_must (cro_edit_set_pack (f->book, "smaller", f->offer, CRO_TEST_DAY + 3, M (1), M (4),
                                    CRO_UNIT_KG, &error), error);
  assert_true (unit_cost_on (f, CRO_TEST_DAY + 2, &since) == before);
  assert_true (fabs (unit_cost_on (f, CRO_TEST_DAY + 3, &since) / before - 5.0 / 4) < 1e-12);
}

/* --- What they do ------------------------------------------------------------------------------------ */

static void
test_made_is_removed (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *before = cro_test_dump (fixture->folder.path);
  g_autofree char *after = NULL;
  CroUnitPrice price = unit_price (9.2, CRO_UNIT_KG);
  CroNewLine line = { .amount = M (25), .unit = CRO_UNIT_G };
  guint32 item, recipe, made, plate;
  GError *error = NULL;

  price.supplier = "Estuary Greens";
  cro_test_must (cro_edit_add_ingredient (fixture->book, "a", "butter", CRO_BASE_GRAM, &price, &item,
                                          &error), error);
  cro_test_must (cro_edit_add_preparation (fixture->book, "a", "brown butter", M (20), CRO_UNIT_G,
                                           &recipe, &made, &error), error);
  assert_string_equal (cro_model_item (fixture->model, made)->name, "brown butter");
  line.item = item;
  cro_test_must (cro_test_add_lines (fixture->book, recipe, CRO_NO_SLOT, &line, 1, NULL, &error), error);
  cro_test_must (cro_edit_add_plate (fixture->book, "a", "toast", M (1), &plate, &error), error);
  cro_test_must (cro_edit_remove (fixture->book, "r", CRO_REF (CRO_REF_RECIPE, plate), &error), error);
  cro_test_must (cro_edit_remove (fixture->book, "r", CRO_REF (CRO_REF_RECIPE, recipe), &error),
                 error);
  cro_test_must (cro_edit_remove (fixture->book, "r", CRO_REF (CRO_REF_ITEM, item), &error), error);
  after = cro_test_dump (fixture->folder.path);
  cro_test_same ("what is made and removed again leaves nothing", before, after);
}

/* An offer that brings its supplier and its price is one act. */
static void
test_whole_offer (void **state)
{
  Fixture *fixture = *state;
  guint32 offer = fixture->model->offers->len;
  GError *error = NULL;

  cro_test_must (add_whole_offer (fixture, &error), error);
  assert_string_equal (cro_ref_name (fixture->model, CRO_REF (CRO_REF_OFFER, offer)),
                       "Quay Shellfish");
  assert_true (cro_model_offer (fixture->model, offer)->offer.has_price);
  assert_int_equal (cro_model_offer (fixture->model, offer)->offer.price, M (90));
}

static void
test_unit_prices (void **state)
{
  static const struct { const char *says; double price; CroUnit unit; double per_gram; } cases[] = {
    { "the first makes the offer", 9.2, CRO_UNIT_KG, 0.0092 },
    { "the second, of the same day, takes its place", 9.4, CRO_UNIT_KG, 0.0094 },
    { "one for another unit has a pack of its own", 0.01, CRO_UNIT_G, 0.01 },
    { "and back", 9.6, CRO_UNIT_KG, 0.0096 },
    { "0 says that it costs nothing", 0, CRO_UNIT_KG, 0 },
  };
  Fixture *fixture = *state;
  GError *error = NULL;
  guint32 item, offer, first = CRO_NO_SLOT;

  cro_test_must (cro_edit_add_ingredient (fixture->book, "a", "butter", CRO_BASE_GRAM, NULL, &item,
                                          &error), error);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroUnitPrice price = unit_price (cases[i].price, cases[i].unit);
      double cost;

      cro_test_must (cro_edit_price_ingredient (fixture->book, "p", item, &price, &offer, &error),
                     error);
      if (i == 0)
        first = offer;
      assert_int_equal (offer, first);
      cost = cro_figures_unit_cost (cro_book_get_figures (fixture->book), item);
      if (ABS (cost - cases[i].per_gram) > 1e-12)
        fail_msg ("%s: %g", cases[i].says, cost);
    }
}

/* Only the price: tax and pack are those of the price before it. */
/* What a book of before says it still says: the price goes on in the new pack from its day. */
static void
test_set_pack_leaves_what_was (void **state)
{
  Fixture *fixture = *state;
  GError *error = NULL;
  const CroOfferEntry *entry;
  gint64 count, size, own;

  entry = cro_model_offer (cro_book_get_model (fixture->book), fixture->offer);
  count = entry->offer.pack_count;
  size = entry->offer.pack_size;
  own = entry->pack_size;
  cro_test_must (set_pack (fixture, &error), error);
  entry = cro_model_offer (cro_book_get_model (fixture->book), fixture->offer);
  assert_int_equal (entry->offer.pack_count, M (1));
  assert_int_equal (entry->offer.pack_size, M (4));
  assert_int_equal (entry->offer.pack_unit, CRO_UNIT_KG);
  assert_int_equal (entry->offer.from, CRO_TEST_DAY);
  assert_int_equal (entry->pack_size, own);
  cro_test_must (cro_book_set_date (fixture->book, CRO_TEST_DAY - 1, &error), error);
  entry = cro_model_offer (cro_book_get_model (fixture->book), fixture->offer);
  assert_int_equal (entry->offer.pack_count, count);
  assert_int_equal (entry->offer.pack_size, size);
}

static void
test_set_price_carries (void **state)
{
  Fixture *fixture = *state;
  const CroOffer *offer = &cro_model_offer (fixture->model, fixture->offer)->offer;
  GError *error = NULL;

  cro_test_must (set_price (fixture, &error), error);
  assert_int_equal (offer->price, M (10));
  assert_int_equal (offer->from, CRO_TEST_DAY);
  assert_int_equal (offer->tax_included, M (20));
  assert_int_equal (offer->pack_count, M (5));
  assert_int_equal (offer->pack_unit, CRO_UNIT_KG);
}

static void
test_scale (void **state)
{
  Fixture *fixture = *state;
  GError *error = NULL;

  cro_test_must (scale_plate (fixture, &error), error);
  assert_int_equal (cro_model_recipe (fixture->model, fixture->plate)->makes, M (36));
  assert_int_equal (fixture->model->lines.amount[fixture->line_of_plate], M (180));
  cro_test_must (scale_preparation (fixture, &error), error);
  assert_int_equal (fixture->model->lines.amount[fixture->line_of_preparation], M (1500));
  assert_int_equal (cro_model_item (fixture->model, fixture->output)->output.amount, M (1200));
}

static void
test_names (void **state)
{
  Fixture *fixture = *state;
  CroRef found = cro_edit_find_name (fixture->model, CRO_NAMES_THINGS, " tide menu ");
  g_autofree char *same = cro_edit_dup_free_name (fixture->model, CRO_NAMES_ITEMS, "dill");
  g_autofree char *other = cro_edit_dup_free_name (fixture->model, CRO_NAMES_ITEMS, "samphire");
  g_autofree char *preparation = cro_edit_dup_free_name (fixture->model, CRO_NAMES_PREPARATIONS,
                                                         "samphire");
  GError *error = NULL;

  assert_int_equal (found.kind, CRO_REF_MENU);
  assert_int_equal (found.slot, fixture->menu);
  assert_string_equal (same, "dill");
  assert_string_equal (other, "samphire 2");
  assert_string_equal (preparation, "samphire 2");
  cro_test_must (rename_preparation (fixture, &error), error);
  assert_string_equal (cro_model_item (fixture->model, fixture->output)->name, "marsh purée");
}

#define TEST(name) cmocka_unit_test_setup_teardown (name, setup, teardown)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    TEST (test_every_act),
    TEST (test_a_selling_price_moves_nothing_before_it),
    TEST (test_what_is_not_to_be_had_keeps_its_last_price),
    TEST (test_a_pack_moves_nothing_before_it),
    TEST (test_made_is_removed),
    TEST (test_unit_prices),
    TEST (test_whole_offer),
    TEST (test_set_price_carries),
    TEST (test_scale),
    TEST (test_set_pack_leaves_what_was),
    TEST (test_names),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
