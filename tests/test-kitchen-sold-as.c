/* What a plate or a menu is sold with: its own price and tax before those of others, and of a plate
 * without a price the menu that has least to spare. */
#include "cro-sold-as.h"

#include <math.h>

#include "support/kitchen-book.h"
#include "support/kitchen-random.h"

/* 100 g at 10.00 a kilo are 1.00. Of the plates, "own" has price and tax, "given" neither and stands on
 * two menus, "alone" nothing at all. Against 30 % the long menu has less to spare than the short one. */
#define BOOK                                                                                        \
  "INSERT INTO book (id, currency, tax_pct_micro, target_pct_micro)"                                \
  " VALUES (1, 'EUR', 10000000, 30000000);"                                                         \
  "INSERT INTO item VALUES (1, 'samphire'); INSERT INTO ingredient (id, unit) VALUES (1, 'g');"     \
  "INSERT INTO supplier (id, name) VALUES (1, 'Estuary Greens');"                                   \
  "INSERT INTO offer (id, ingredient, supplier, pack_count_micro, pack_size_micro, pack_unit)"      \
  " VALUES (1, 1, 1, 1000000, 1000000, 'kg');"                                                      \
  "INSERT INTO price (offer, from_date, price_micro) VALUES (1, '2026-01-05', 10000000);"           \
  "INSERT INTO thing VALUES (1, 'own'), (2, 'given'), (3, 'alone'), (4, 'short'), (5, 'long');"     \
  "INSERT INTO plate (id, makes_micro, price_micro, tax_pct_micro) VALUES (1, 1000000, 4000000, 5000000);" \
  "INSERT INTO plate (id, makes_micro) VALUES (2, 1000000), (3, 1000000);"                          \
  "INSERT INTO menu (id, price_micro) VALUES (4, 20000000), (5, 9500000);"                          \
  "INSERT INTO menu_plate (menu, plate, servings_micro) VALUES (4, 2, 1000000), (5, 2, 2000000);"   \
  "INSERT INTO recipe_line (plate, position_micro, item, amount_micro, unit)"                       \
  " VALUES (1, 1000000, 1, 100000000, 'g'), (2, 1000000, 1, 100000000, 'g'), (3, 1000000, 1, 100000000, 'g');"

static CroTestFolder folder;
static CroBook *book;

static int
set_up (void **state)
{
  book = cro_test_book_with (&folder, BOOK);
  return 0;
}

static int
tear_down (void **state)
{
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
  return 0;
}

static CroRef
plate (gint64 id)
{
  return CRO_REF (CRO_REF_RECIPE, cro_slots_get (&cro_book_get_model (book)->plate_slots, id));
}

static CroRef
menu (gint64 id)
{
  return CRO_REF (CRO_REF_MENU, cro_slots_get (&cro_book_get_model (book)->menu_slots, id));
}

static void
test_who_is_held_against_whom (void **state)
{
  CroFigures *figures = cro_book_get_figures (book);

  assert_true (cro_ref_equal (cro_sold_as (figures, plate (1)), plate (1)));
  assert_true (cro_ref_equal (cro_sold_as (figures, plate (2)), menu (5)));
  assert_true (cro_ref_equal (cro_sold_as (figures, plate (3)), plate (3)));
  assert_true (cro_ref_equal (cro_sold_as (figures, menu (4)), menu (4)));
}

static void
test_price_and_tax (void **state)
{
  CroModel *model = cro_book_get_model (book);
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;
  CroRef whose;

  assert_int_equal (cro_sold_price (model, plate (1)), 4000000);
  assert_true (cro_sold_price (model, plate (2)) == CRO_NOT_SET);
  assert_int_equal (cro_sold_price (model, menu (5)), 9500000);
  assert_int_equal (cro_sold_tax (model, plate (1), &whose), 5000000);
  assert_true (cro_ref_equal (whose, plate (1)));
  assert_int_equal (cro_sold_tax (model, menu (4), &whose), 10000000);
  assert_int_equal (whose.kind, CRO_REF_HOUSE);
  cro_test_must (cro_book_set (book, "tax", "book", 1, "tax_pct_micro", &none, &error), error);
  assert_int_equal (cro_sold_tax (model, menu (4), NULL), 0);
}

/* Servings of 2 x 1.00; net 9.50 / 1.1. */
static void
test_figure (void **state)
{
  CroFigure figure = cro_figure_of (cro_book_get_figures (book), menu (5));
  CroFigure own = cro_figure_of (cro_book_get_figures (book), plate (1));

  assert_true (fabs (figure.cost - 2) < 1e-12);
  assert_true (fabs (figure.net_price - 9.5 / 1.1) < 1e-12);
  assert_string_equal (own.name, "own");
  assert_true (fabs (own.net_price - 4 / 1.05) < 1e-12);
}

#define CASE(name) cmocka_unit_test_setup_teardown (name, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    CASE (test_figure),
    CASE (test_price_and_tax),
    CASE (test_who_is_held_against_whom),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
