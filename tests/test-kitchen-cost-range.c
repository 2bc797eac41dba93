/* Between what a guest costs when prices and yields go as they went: the first-order variance against
 * 100,000 draws of whole costs.
 *
 * Tolerance  The variance of N draws has a standard error of variance x sqrt ((k - 1) / N), k their
 *            kurtosis: for k = 3 and N = 100,000 that is 0.45 %. The test allows four of them and
 *            what first order leaves out, the product of both relative variances: 2 % together. */
#include "cro-breakdown.h"
#include "cro-cost-range.h"
#include "cro-mover-words.h"
#include "support/kitchen-book.h"
#include "support/kitchen-random.h"
#include "support/statements.h"

#include <math.h>
#include <string.h>

#define N_DRAWS 100000
#define TOLERANCE 0.02
#define DAYS 365

typedef struct
{
  int    from;      /* days before the book's date */
  double price;     /* of a pack */
} Past;

/* The book's date is 2026-12-01; the first of each is older than a year and in force when it begins. */
static const Past crab[] = { { 400, 60 }, { 330, 66 }, { 290, 71 }, { 250, 69 }, { 200, 62 },
                             { 150, 58 }, { 100, 64 }, { 60, 68 },  { 20, 65 } };
static const Past butter[] = { { 380, 46 }, { 210, 52 }, { 90, 44 }, { 30, 47 } };
static const double purchased[] = { 5040, 5120, 4980, 5060, 4900 };
static const double usable[] = { 1983, 2149, 1912, 2103, 2010 };

#define CRAB_PACK 5000.0      /* g */
#define BUTTER_PACK 5000.0
#define CRAB_TAX 1.1
#define TRIM_YIELD 0.4

/* 100 g of crab trimmed and 50 g of butter give 140 g, of which 28 g make two bites, with 3 % for
 * seasoning. */
#define RECIPES                                                                                     \
  "INSERT INTO supplier (id, name) VALUES (1, 'Quay');"                                             \
  "INSERT INTO item VALUES (1, 'crab'), (2, 'butter'), (3, 'cream');"                               \
  "INSERT INTO ingredient (id, unit, trim_yield_pct_micro) VALUES (1, 'g', 40000000), (2, 'g', NULL);" \
  "INSERT INTO offer (id, ingredient, supplier, pack_count_micro, pack_size_micro, pack_unit) VALUES" \
  " (1, 1, 1, 1000000, 5000000, 'kg'), (2, 2, 1, 1000000, 5000000, 'kg');"                          \
  "INSERT INTO preparation (id, name) VALUES (1, 'cream');"                                         \
  "INSERT INTO output (id, preparation, role, amount_micro, unit)"                                  \
  " VALUES (3, 1, 'main', 140000000, 'g');"                                                         \
  "INSERT INTO thing VALUES (1, 'croustade');"                                                      \
  "INSERT INTO plate (id, makes_micro, allowance_pct_micro) VALUES (1, 2000000, 3000000);"          \
  "INSERT INTO recipe_line (preparation, plate, position_micro, item, amount_micro, unit) VALUES"   \
  " (1, NULL, 1000000, 1, 100000000, 'g'), (1, NULL, 2000000, 2, 50000000, 'g'),"                   \
  " (NULL, 1, 1000000, 3, 28000000, 'g');"

/* What a guest costs, worked by hand from unit costs and 1 / yield. */
static double
cost_of (double crab_cost,
         double inverse,
         double butter_cost)
{
  return 1.03 / 2 * 28 / 140 * (100 * inverse * crab_cost + 50 * butter_cost);
}

/* The same crab picked: 20 % white meat, worth three times the 15 % brown; a plate of both. */
#define PICKED                                                                                      \
  "INSERT INTO item VALUES (4, 'white'), (5, 'brown');"                                             \
  "INSERT INTO preparation (id, name, by_products) VALUES (2, 'picked', 'value');"                  \
  "INSERT INTO output (id, preparation, role, unit, yield_pct_micro, value_micro) VALUES"           \
  " (4, 2, 'main', 'kg', 20000000, 60000000), (5, 2, 'by-product', 'kg', 15000000, 20000000);"      \
  "INSERT INTO thing VALUES (2, 'toast');"                                                          \
  "INSERT INTO plate (id, makes_micro) VALUES (2, 1000000);"                                        \
  "INSERT INTO recipe_line (preparation, plate, position_micro, item, amount_micro, unit, weighed)" \
  " VALUES (2, NULL, 1000000, 1, 5000000000, 'g', 'whole'),"                                        \
  " (NULL, 2, 1000000, 4, 100000000, 'g', 'trimmed'), (NULL, 2, 2000000, 5, 30000000, 'g', 'trimmed');"

static void
add_past (GString    *sql,
          int         offer,
          const Past *past,
          gsize       n,
          gboolean    has_tax)
{
  for (gsize i = 0; i < n; i++)
    {
      char date[CRO_DATE_CHARS];

      cro_date_format (cro_date_from_civil (2026, 12, 1) - past[i].from, date);
      g_string_append_printf (sql, "INSERT INTO price (offer, from_date, price_micro,"
                                   " tax_included_pct_micro) VALUES (%d, '%s', %d000000, %s);",
                              offer, date, (int) past[i].price, has_tax ? "10000000" : "NULL");
    }
}

static char *
rows (void)
{
  GString *sql = g_string_new (RECIPES PICKED);

  add_past (sql, 1, crab, G_N_ELEMENTS (crab), TRUE);
  add_past (sql, 2, butter, G_N_ELEMENTS (butter), FALSE);
  for (gsize i = 0; i < G_N_ELEMENTS (purchased); i++)
    g_string_append_printf (sql, "INSERT INTO yield_test (test, item, date, purchased_g_micro,"
                                 " usable_g_micro) VALUES ('lot %zu', 1, '2026-06-0%zu', %d000000,"
                                 " %d000000);",
                            i, i + 1, (int) purchased[i], (int) usable[i]);
  return g_string_free (sql, FALSE);
}

/* --- Drawn ------------------------------------------------------------------------------------------- */

static double
price_on (const Past *past,
          gsize       n,
          int         days_before)
{
  double price = 0;

  for (gsize i = 0; i < n && past[i].from >= days_before; i++)
    price = past[i].price;
  return price;
}

static double
mean_of_year (const Past *past,
              gsize       n)
{
  double sum = 0;

  for (int day = 0; day < DAYS; day++)
    sum += price_on (past, n, day);
  return sum / DAYS;
}

/* By Box and Muller, of a mean of 0 and a deviation of 1. */
static double
draw_normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

static double
deviation_of_lots (void)
{
  gsize n = G_N_ELEMENTS (purchased);
  double mean = 0, squares = 0;

  for (gsize i = 0; i < n; i++)
    mean += purchased[i] / usable[i] / (double) n;
  for (gsize i = 0; i < n; i++)
    squares += pow (purchased[i] / usable[i] - mean, 2);
  return sqrt (squares / (double) (n - 1));
}

/* Today's cost, moved by what a day of the year was from its mean, and by a lot. */
static double
draw_cost (GRand *rand)
{
  double of_crab = price_on (crab, G_N_ELEMENTS (crab), g_rand_int_range (rand, 0, DAYS))
                   - mean_of_year (crab, G_N_ELEMENTS (crab)) + price_on (crab, G_N_ELEMENTS (crab), 0);
  double of_butter = price_on (butter, G_N_ELEMENTS (butter), g_rand_int_range (rand, 0, DAYS))
                     - mean_of_year (butter, G_N_ELEMENTS (butter))
                     + price_on (butter, G_N_ELEMENTS (butter), 0);
  double inverse = 1 / TRIM_YIELD + deviation_of_lots () * draw_normal (rand);

  return cost_of (of_crab / CRAB_TAX / CRAB_PACK, inverse, of_butter / BUTTER_PACK);
}

static double
drawn_variance (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (20261201);
  double sum = 0, squares = 0, first = draw_cost (rand);

  for (int i = 0; i < N_DRAWS; i++)
    {
      double cost = draw_cost (rand) - first;

      sum += cost;
      squares += cost * cost;
    }
  return squares / N_DRAWS - pow (sum / N_DRAWS, 2);
}

/* --- Cases ------------------------------------------------------------------------------------------- */

typedef struct
{
  CroTestFolder  folder;
  CroBook       *book;
  CroRef         plate;
  CroSpreads    *spreads;
} Fixture;

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);
  g_autofree char *sql = rows ();
  GError *error = NULL;

  fixture->book = cro_test_book_with (&fixture->folder, sql);
  cro_test_must (cro_book_set_date (fixture->book, cro_date_from_civil (2026, 12, 1), &error), error);
  fixture->plate = CRO_REF (CRO_REF_RECIPE,
                            cro_slots_get (&cro_book_get_model (fixture->book)->plate_slots, 1));
  fixture->spreads = cro_spreads_new (fixture->book);
  cro_test_must (cro_spreads_read (fixture->spreads, fixture->plate, &error), error);
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  cro_spreads_free (fixture->spreads);
  g_clear_object (&fixture->book);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static CroCostRange
range_of (Fixture *fixture)
{
  CroFigures *figures = cro_book_get_figures (fixture->book);

  return cro_cost_range (fixture->spreads, fixture->plate,
                         cro_figure_of_plate (figures, fixture->plate.slot).cost);
}

static void
test_it_is_that_of_draws (void **state)
{
  Fixture *fixture = *state;
  CroCostRange range = range_of (fixture);
  double drawn = drawn_variance ();

  if (fabs (range.variance / drawn - 1) > TOLERANCE)
    fail_msg ("a variance of %g, that of draws is %g", range.variance, drawn);
  assert_int_equal (range.n_prices, 2);
  assert_int_equal (range.n_yields, 1);
}

static void
test_the_band_is_around_the_cost (void **state)
{
  Fixture *fixture = *state;
  CroCostRange range = range_of (fixture);
  double cost = cost_of (65 / CRAB_TAX / CRAB_PACK, 1 / TRIM_YIELD, 47 / BUTTER_PACK);

  assert_true (fabs ((range.low + range.high) / 2 - cost) < 1e-12);
  /* Nine of ten of a normal distribution. */
  assert_true (fabs ((range.high - range.low) / 2 / range.deviation - 1.6448536) < 1e-6);
}

/* The same batch taken twice as much varies four times as much, and nothing is read for it. */
static void
test_a_key_asks_nothing (void **state)
{
  Fixture *fixture = *state;
  double before = range_of (fixture).variance;
  CroCell twice = CRO_CELL_INT (56000000);
  GError *error = NULL;
  guint n;

  cro_test_must (cro_book_look_at (fixture->book, "recipe_line", 3, &error), error);
  n = cro_test_statements ();
  cro_test_must (cro_book_preview (fixture->book, "recipe_line", 3, "amount_micro", &twice, &error),
                 error);
  assert_true (fabs (range_of (fixture).variance / before - 4) < 1e-9);
  assert_int_equal (cro_test_statements (), n);
  cro_book_restore (fixture->book, NULL);
}

/* A price that never moved, and a yield without tests, have no part in it. */
static void
test_what_did_not_move_has_no_part (void **state)
{
  Fixture *fixture = *state;
  double before = range_of (fixture).variance;
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;
  CroCostRange after;

  cro_test_must (cro_book_set (fixture->book, "y", "ingredient", 1, "trim_yield_pct_micro", &none,
                               &error),
                 error);
  cro_test_must (cro_spreads_read (fixture->spreads, fixture->plate, &error), error);
  after = range_of (fixture);
  assert_int_equal (after.n_yields, 0);
  assert_true (after.variance < before && after.variance > 0);
}

/* All prices of the crab but its first, 60, are years old: of its cost, 100 / 0.4 × 60 / 1.1 / 5000 beside
 * 50 × 47 / 5000 of the butter's, nobody knows how it moves. */
static void
test_a_range_says_what_it_rests_on (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  CroFigure figure = cro_figure_of_plate (cro_book_get_figures (fixture->book), fixture->plate.slot);
  CroCostRange range = range_of (fixture);
  g_autofree char *told = cro_words_cost_range (model, &figure, &range), *why = NULL, *expected = NULL;
  double crab_part = 100 / TRIM_YIELD * crab[0].price / CRAB_TAX / CRAB_PACK, butter_part = 50 * 47 / BUTTER_PACK;
  GError *error = NULL;

  assert_true (range.with_past == 1 && range.n_bought == 2 && range.n_missing == 0);
  assert_true (cro_cost_range_is_told (&figure, &range));
  assert_non_null (strstr (told, "in nine weeks of ten"));
  assert_null (strstr (told, "taken as it is"));
  for (gint64 id = 2; id <= (gint64) G_N_ELEMENTS (crab); id++)
    {
      char date[CRO_DATE_CHARS];
      CroCell old;

      cro_date_format (cro_date_from_civil (2020, 1, 1) + (CroDate) id, date);
      old = CRO_CELL_STR (date);
      cro_test_must (cro_book_set (fixture->book, "p", "price", id, "from_date", &old, &error), error);
    }
  cro_test_must (cro_spreads_read (fixture->spreads, fixture->plate, &error), error);
  range = cro_cost_range (fixture->spreads, fixture->plate, figure.cost);
  assert_true (range.deviation > 0);
  assert_false (cro_cost_range_is_told (&figure, &range));
  why = cro_words_cost_range (model, &figure, &range);
  expected = g_strdup_printf ("No range: only %.1f\302\240%% of the cost had more than one price of the pack in use in "
                              "the last year.",
                              100 * butter_part / (crab_part + butter_part));
  assert_string_equal (why, expected);
}

/* What a plate costs with the yield of the white meat that many times what it is, by a preview. */
static double
cost_at (Fixture *fixture,
         guint32  plate,
         double   factor)
{
  CroCell yield = CRO_CELL_INT (llround (20e6 * factor));
  GError *error = NULL;
  double cost;

  cro_test_must (cro_book_preview (fixture->book, "output", 4, "yield_pct_micro", &yield, &error),
                 error);
  cost = cro_figure_of_plate (cro_book_get_figures (fixture->book), plate).cost;
  cro_book_restore (fixture->book, NULL);
  return cost;
}

/* Into the batch goes crab alone, so that its lots are those of the white meat. */
static void
test_lots_move_the_yield_of_a_batch (void **state)
{
  Fixture *fixture = *state;
  guint32 plate = cro_slots_get (&cro_book_get_model (fixture->book)->plate_slots, 2);
  CroRef toast = CRO_REF (CRO_REF_RECIPE, plate);
  double slope, of_lots;
  CroCell old;
  GError *error = NULL;
  CroCostRange range;
  g_autoptr (CroSpreads) spreads = NULL;

  /* One price of the crab alone stands in the year: then all that moves it are the lots. */
  for (gint64 id = 2; id <= (gint64) G_N_ELEMENTS (crab); id++)
    {
      char date[CRO_DATE_CHARS];

      cro_date_format (cro_date_from_civil (2020, 1, 1) + (CroDate) id, date);
      old = CRO_CELL_STR (date);
      cro_test_must (cro_book_set (fixture->book, "p", "price", id, "from_date", &old, &error), error);
    }
  /* d (1 / y), of a thousandth more of y = 0.2 to a thousandth less. */
  slope = (cost_at (fixture, plate, 1.001) - cost_at (fixture, plate, 0.999))
          / (1 / (0.2 * 1.001) - 1 / (0.2 * 0.999));
  of_lots = pow (slope * deviation_of_lots (), 2);
  spreads = cro_spreads_new (fixture->book);
  cro_test_must (cro_spreads_read (spreads, toast, &error), error);
  range = cro_cost_range (spreads, toast, 1);
  assert_int_equal (range.n_yields, 1);
  assert_true (slope > 0);
  if (fabs (range.variance / of_lots - 1) > 1e-4)
    fail_msg ("lots make a variance of %g, by previews %g", range.variance, of_lots);
}

/* Crab is picked at credit, its brown meat at 20/kg: of a toast of 100 g white and 30 g brown all that is bought
 * had more than one price, and the value that is assigned to the brown none. The white is credited with 150 g of
 * brown a kg of 200 g. */
static void
test_an_assigned_value_is_a_part_of_the_cost (void **state)
{
  Fixture *fixture = *state;
  CroFigures *figures = cro_book_get_figures (fixture->book);
  guint32 plate = cro_slots_get (&cro_book_get_model (fixture->book)->plate_slots, 2);
  CroRef toast = CRO_REF (CRO_REF_RECIPE, plate);
  CroCell credit = CRO_CELL_STR ("credit"), brown = CRO_CELL_INT (90000000);
  double bought = 100 / 0.2 * 65 / CRAB_TAX / CRAB_PACK, value = (90 - 100 * 0.15 / 0.2) * 20 / 1000;
  GError *error = NULL;
  CroCostRange range;
  g_autoptr (CroSpreads) spreads = NULL;

  cro_test_must (cro_book_set (fixture->book, "c", "preparation", 2, "by_products", &credit, &error), error);
  spreads = cro_spreads_new (fixture->book);
  cro_test_must (cro_spreads_read (spreads, toast, &error), error);
  range = cro_cost_range (spreads, toast, cro_figure_of_plate (figures, plate).cost);
  assert_true (range.with_past == 1);
  cro_test_must (cro_book_set (fixture->book, "b", "recipe_line", 6, "amount_micro", &brown, &error), error);
  cro_test_must (cro_spreads_read (spreads, toast, &error), error);
  range = cro_cost_range (spreads, toast, cro_figure_of_plate (figures, plate).cost);
  assert_true (fabs (bought + value - cro_figure_of_plate (figures, plate).cost) < 1e-9);
  assert_true (fabs (range.with_past - bought / (bought + value)) < 1e-9);
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_a_key_asks_nothing),
    CASE (test_a_range_says_what_it_rests_on),
    CASE (test_an_assigned_value_is_a_part_of_the_cost),
    CASE (test_it_is_that_of_draws),
    CASE (test_lots_move_the_yield_of_a_batch),
    CASE (test_the_band_is_around_the_cost),
    CASE (test_what_did_not_move_has_no_part),
  };

  cro_test_statements_watch ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
