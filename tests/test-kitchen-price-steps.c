/* What a plate leaves at each price: against fractions worked by hand from the model's formulas
 * (net = gross / (1 + tax), % = food / net, left = net - food, coefficient = net / food, prime =
 * (food + labour) / net), and sales by the price that was in force. */
#include "cro-price-steps.h"
#include "cro-rate-steps.h"
#include "cro-selling-steps.h"
#include "support/kitchen-book.h"
#include "support/kitchen-random.h"

#include <math.h>

#include "cro-edit.h"

/* 100 g of samphire at 10.00 a kilo are 1.00 of food, two minutes at 18.00 an hour 0.60 of labour; tax
 * 10 %, target 30 %: 1.00 / 0.3 x 1.1 = 3.666... holds it, rounded up 3.67. */
#define BOOK                                                                                        \
  "INSERT INTO book (id, currency, wage_per_hour_micro, tax_pct_micro, target_pct_micro)"           \
  " VALUES (1, 'EUR', 18000000, 10000000, 30000000);"                                               \
  "INSERT INTO item VALUES (1, 'samphire'); INSERT INTO ingredient (id, unit) VALUES (1, 'g');"     \
  "INSERT INTO supplier (id, name) VALUES (1, 'Estuary Greens');"                                   \
  "INSERT INTO offer (id, ingredient, supplier, pack_count_micro, pack_size_micro, pack_unit)"      \
  " VALUES (1, 1, 1, 1000000, 1000000, 'kg');"                                                      \
  "INSERT INTO price (offer, from_date, price_micro) VALUES (1, '2026-01-05', 10000000);"           \
  "INSERT INTO rate (currency, from_date, rate_micro) VALUES ('GBP', '2026-01-05', 1250000);"       \
  "INSERT INTO thing VALUES (1, 'salad'), (2, 'menu');"                                             \
  "INSERT INTO plate (id, makes_micro, active_minutes_micro, price_micro)"                          \
  " VALUES (1, 1000000, 2000000, 4000000);"                                                         \
  "INSERT INTO menu (id, price_micro) VALUES (2, 9500000);"                                         \
  "INSERT INTO menu_plate (menu, plate, servings_micro) VALUES (2, 1, 2000000);"                    \
  "INSERT INTO recipe_line (plate, position_micro, item, amount_micro, unit)"                       \
  " VALUES (1, 1000000, 1, 100000000, 'g');"

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
plate (void)
{
  return CRO_REF (CRO_REF_RECIPE, cro_slots_get (&cro_book_get_model (book)->plate_slots, 1));
}

static CroRef
menu (void)
{
  return CRO_REF (CRO_REF_MENU, cro_slots_get (&cro_book_get_model (book)->menu_slots, 2));
}

static GArray *
steps_of (CroRef        thing,
          CroPriceHabit habit)
{
  return cro_price_steps_new (cro_book_get_figures (book), thing, habit, NULL);
}

/* Whether a figure is over / under, to the last bits of a double. */
static void
expect (const char *says,
        double      figure,
        double      over,
        double      under)
{
  if (fabs (figure * under - over) > 1e-13 * fabs (over))
    fail_msg ("%s: %.17g is not %g / %g", says, figure, over, under);
}

/* --- Figures -------------------------------------------------------------------------------------- */

/* Price, in cents; its figures in fractions of whole numbers. */
static void
expect_step (const CroPriceStep *step,
             int                 cents,
             int                 food_cents,
             int                 labour_cents)
{
  if (step->price != (gint64) cents * 10000)
    fail_msg ("%" G_GINT64_FORMAT " stands where %d is due", step->price, cents);
  expect ("without tax", step->net, cents * 100.0, 100 * 110.0);
  expect ("food cost", step->food_cost_pct, food_cents * 110.0, cents);
  expect ("left", step->left, cents * 100.0 - food_cents * 110.0, 100 * 110.0);
  expect ("coefficient", step->coefficient, cents * 100.0, food_cents * 110.0);
  expect ("prime cost", step->prime_cost_pct, (food_cents + labour_cents) * 110.0, cents);
}

static void
test_every_figure_is_that_of_its_formula (void **state)
{
  static const int cents[] = { 250, 300, 350, 367, 400, 450, 500, 550 };
  g_autoptr (GArray) steps = steps_of (plate (), CRO_PRICES_HALF);

  assert_int_equal (steps->len, G_N_ELEMENTS (cents));
  for (guint i = 0; i < steps->len; i++)
    {
      const CroPriceStep *step = &g_array_index (steps, CroPriceStep, i);

      expect_step (step, cents[i], 100, 60);
      assert_int_equal (step->is_now, cents[i] == 400);
      assert_int_equal (step->holds, cents[i] == 367);
      assert_int_equal (step->is_over, cents[i] < 367);
      assert_true (step->sold == CRO_NOT_SET);
    }
}

static void
test_a_menu_has_its_own (void **state)
{
  g_autoptr (GArray) steps = steps_of (menu (), CRO_PRICES_WHOLE);
  gboolean found = FALSE;

  for (guint i = 0; i < steps->len; i++)
    {
      const CroPriceStep *step = &g_array_index (steps, CroPriceStep, i);

      expect_step (step, (int) (step->price / 10000), 200, 120);
      found |= step->is_now && step->price == 9500000;
      assert_true (step->is_now || step->holds || step->price % 1000000 == 0);
    }
  assert_true (found);
}

/* --- Which prices ---------------------------------------------------------------------------------- */

static void
test_the_house_rounds_as_it_does (void **state)
{
  static const struct { const char *says; CroPriceHabit habit; int cents[9]; } cases[] = {
    { "half", CRO_PRICES_HALF, { 250, 300, 350, 367, 400, 450, 500, 550 } },
    { "ninety-five", CRO_PRICES_NINETY_FIVE, { 195, 295, 367, 395, 400, 495, 595, 695, 795 } },
    { "whole", CRO_PRICES_WHOLE, { 100, 200, 300, 367, 400, 500, 600, 700 } },
  };

  for (gsize c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autoptr (GArray) steps = steps_of (plate (), cases[c].habit);

      for (guint i = 0; i < steps->len; i++)
        if (i >= G_N_ELEMENTS (cases[c].cents)
            || g_array_index (steps, CroPriceStep, i).price != cases[c].cents[i] * INT64_C (10000))
          fail_msg ("%s: price %u is %" G_GINT64_FORMAT, cases[c].says, i,
                    g_array_index (steps, CroPriceStep, i).price);
    }
}

static void
test_where_there_is_no_price (void **state)
{
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;
  g_autoptr (GArray) steps = NULL, nothing = NULL;
  guint n_holding = 0;

  cro_test_must (cro_book_set (book, "p", "plate", 1, "price_micro", &none, &error), error);
  steps = steps_of (plate (), CRO_PRICES_HALF);
  assert_true (steps->len >= 4);
  for (guint i = 0; i < steps->len; i++)
    {
      assert_false (g_array_index (steps, CroPriceStep, i).is_now);
      n_holding += g_array_index (steps, CroPriceStep, i).holds;
    }
  assert_int_equal (n_holding, 1);
  /* Nothing says what it could be sold for. */
  cro_test_must (cro_book_set (book, "t", "book", 1, "target_pct_micro", &none, &error), error);
  nothing = steps_of (plate (), CRO_PRICES_HALF);
  assert_int_equal (nothing->len, 0);
}

/* A yen has no cents: what a house rounds to is of a hundred. */
static void
test_a_currency_without_cents (void **state)
{
  CroCell yen = CRO_CELL_STR ("JPY"), price = CRO_CELL_INT (INT64_C (2400000000));
  GError *error = NULL;
  g_autoptr (GArray) steps = NULL;

  cro_test_must (cro_book_set (book, "c", "book", 1, "currency", &yen, &error), error);
  cro_test_must (cro_book_set (book, "p", "plate", 1, "price_micro", &price, &error), error);
  steps = steps_of (plate (), CRO_PRICES_HALF);
  assert_int_equal (g_array_index (steps, CroPriceStep, steps->len - 1).price,
                    INT64_C (2550000000));
}

static void
test_the_habit_is_the_books (void **state)
{
  CroCell habit = CRO_CELL_STR ("ninety-five");
  GError *error = NULL;

  assert_int_equal (cro_price_habit_read (book), CRO_PRICES_HALF);
  cro_test_must (cro_book_set (book, "h", "book", 1, "price_steps", &habit, &error), error);
  assert_int_equal (cro_price_habit_read (book), CRO_PRICES_NINETY_FIVE);
}

/* The least cent that keeps the target: what is a cent less does not. */
static void
test_what_holds_is_the_least_that_does (void **state)
{
  for (guint32 seed = 0; seed < 20; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      CroCell amount = CRO_CELL_INT (g_rand_int_range (rand, 1000000, 900000000));
      GError *error = NULL;
      g_autoptr (GArray) steps = NULL;

      cro_test_must (cro_book_set (book, "a", "recipe_line", 1, "amount_micro", &amount, &error),
                     error);
      steps = steps_of (plate (), CRO_PRICES_HALF);
      for (guint i = 0; i < steps->len; i++)
        {
          const CroPriceStep *step = &g_array_index (steps, CroPriceStep, i);
          double food = (double) amount.integer / 1e8;

          /* Of the price in millionths, 30 % without the tax. */
          if (step->holds
              && (food * 110 > 0.3 * 100 * (double) step->price / 1e6 * (1 + 1e-9)
                  || food * 110 <= 0.3 * 100 * ((double) step->price / 1e6 - 0.01)))
            fail_msg ("%g does not hold %g", (double) step->price / 1e6, food);
        }
    }
}

/* --- Sold -------------------------------------------------------------------------------------------- */

#define SALES                                                                                       \
  "INSERT INTO selling_price (thing, from_date, price_micro) VALUES (1, '2026-03-10', 4500000);"    \
  "INSERT INTO sale (date, thing, sold_micro) VALUES"                                               \
  " ('2026-02-01', 1, 100000000), ('2026-03-09', 1, 7000000), ('2026-03-10', 1, 5000000),"          \
  " ('2026-03-20', 1, 3000000), ('2026-03-20', 1, -1000000), ('2026-03-31', 1, 90000000);"

static void
test_sold_at_each_price (void **state)
{
  CroTestFolder sold_folder;
  g_autoptr (CroBook) sold_book = cro_test_book_with (&sold_folder, BOOK SALES);
  CroRef thing = CRO_REF (CRO_REF_RECIPE,
                          cro_slots_get (&cro_book_get_model (sold_book)->plate_slots, 1));
  gint64 before = 4000000, after = 4500000;
  g_autoptr (GHashTable) sold = NULL, none = NULL;
  g_autoptr (GArray) steps = NULL;
  GError *error = NULL;
  CroDate last;

  cro_test_must (cro_book_set_date (sold_book, cro_date_from_civil (2026, 3, 25), &error), error);
  sold = cro_sold_by_price_new (sold_book, thing, &last, &error);
  /* Sales are there up to the 20th: 28 days to it begin on the 21st of February. */
  assert_int_equal (last, cro_date_from_civil (2026, 3, 20));
  assert_int_equal (g_hash_table_size (sold), 2);
  assert_int_equal (*(gint64 *) g_hash_table_lookup (sold, &before), 7000000);
  assert_int_equal (*(gint64 *) g_hash_table_lookup (sold, &after), 7000000);
  steps = cro_price_steps_new (cro_book_get_figures (sold_book), thing, CRO_PRICES_WHOLE, sold);
  for (guint i = 0; i < steps->len; i++)
    {
      const CroPriceStep *step = &g_array_index (steps, CroPriceStep, i);

      assert_int_equal (step->sold,
                        step->price == before || step->price == after ? 7000000 : CRO_NOT_SET);
    }
  /* Where nothing was ever sold no 0 says that it was tried. */
  none = cro_sold_by_price_new (sold_book,
                                CRO_REF (CRO_REF_MENU,
                                         cro_slots_get (&cro_book_get_model (sold_book)->menu_slots,
                                                        2)),
                                &last, &error);
  assert_int_equal (g_hash_table_size (none), 0);
  /* Months later the days are still those of the newest sale, as wherever else what was sold is told. */
  cro_test_must (cro_book_set_date (sold_book, cro_date_from_civil (2026, 9, 1), &error), error);
  g_clear_pointer (&sold, g_hash_table_unref);
  sold = cro_sold_by_price_new (sold_book, thing, &last, &error);
  assert_int_equal (last, cro_date_from_civil (2026, 3, 31));
  assert_int_equal (*(gint64 *) g_hash_table_lookup (sold, &after), 97000000);
  g_clear_object (&sold_book);
  cro_test_folder_clear (&sold_folder);
}

/* Without a target and a price the one that holds what is asked about: 1.00 / 0.25 x 1.1 = 4.40. */
static void
test_asked_target (void **state)
{
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;
  g_autoptr (GArray) nothing = NULL, asked = NULL;
  guint n = 0;

  cro_test_must (cro_book_set (book, "a", "book", 1, "target_pct_micro", &none, &error), error);
  cro_test_must (cro_book_set (book, "a", "plate", 1, "price_micro", &none, &error), error);
  nothing = cro_price_steps_new (cro_book_get_figures (book), plate (), CRO_PRICES_HALF, NULL);
  asked = cro_price_steps_for (cro_book_get_figures (book), plate (), CRO_PRICES_HALF, NULL, 25);
  assert_int_equal (nothing->len, 0);
  for (guint i = 0; i < asked->len; i++)
    if (g_array_index (asked, CroPriceStep, i).holds)
      {
        n++;
        assert_int_equal (g_array_index (asked, CroPriceStep, i).price, 4400000);
      }
  assert_int_equal (n, 1);
}

/* From its day on, and not before. */
static void
test_prices_and_rates_serve_from_their_day (void **state)
{
  CroDate day = cro_date_from_civil (2026, 1, 5);
  g_autoptr (GArray) steps = g_array_new (FALSE, FALSE, sizeof (CroSellingStep));
  CroSellingStep step = { 1, day, 4000000, CRO_NOT_SET };
  CroRateSteps *rates = cro_rate_steps_new (cro_book_get_store (book), NULL);

  g_array_append_val (steps, step);
  assert_non_null (cro_selling_step_on (steps, day));
  assert_null (cro_selling_step_on (steps, day - 1));
  assert_true (cro_rate_steps_on (rates, "GBP", day) == 1.25);
  assert_true (cro_rate_steps_on (rates, "GBP", day - 1) == 0);
  cro_rate_steps_free (rates);
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_a_currency_without_cents),
    CASE (test_asked_target),
    CASE (test_a_menu_has_its_own),
    CASE (test_every_figure_is_that_of_its_formula),
    CASE (test_prices_and_rates_serve_from_their_day),
    CASE (test_sold_at_each_price),
    CASE (test_the_habit_is_the_books),
    CASE (test_the_house_rounds_as_it_does),
    CASE (test_what_holds_is_the_least_that_does),
    CASE (test_where_there_is_no_price),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
