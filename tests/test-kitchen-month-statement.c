/* How a month's lines are rounded (costing.md, section 12), of thousands of generated ones, and how one month stands
 * beside another. */
#include <glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "cro-here.h"
#include "cro-money.h"
#include "cro-month-close.h"
#include "cro-month-rounded.h"
#include "cro-month-statement.h"
#include "cro-months-table.h"
#include "cro-month-words.h"

#define N_MONTHS 5000
#define N_ITEMS 4
#define ADDED (CRO_N_ADJUSTMENT_KINDS)

static CroMonth *
month_new (double theoretical,
           double over)
{
  CroMonth *self = g_new0 (CroMonth, 1);
  CroMonthThing sold = { .name = "Croustade", .sold = 1, .net_revenue = 100, .theoretical = theoretical };

  self->first = cro_month_first_of (cro_here_today ());
  self->currency = "EUR";
  self->estimate = self->till = self->ledger = NAN;
  self->net_sales = self->net_sales_costed = 100;
  self->theoretical = theoretical;
  self->over = over;
  self->actual = theoretical + over;
  self->things = g_array_new (FALSE, TRUE, sizeof (CroMonthThing));
  g_array_append_val (self->things, sold);
  self->items = g_array_new (FALSE, TRUE, sizeof (CroMonthItem));
  self->by_products = g_array_new (FALSE, TRUE, sizeof (CroMonthByProduct));
  for (guint kind = 0; kind < CRO_N_PURCHASE_KINDS; kind++)
    {
      self->earlier_of[kind] = g_array_new (FALSE, TRUE, sizeof (CroDate));
      self->later_of[kind] = g_array_new (FALSE, TRUE, sizeof (CroDate));
    }
  return self;
}

static void
month_free (CroMonth *self)
{
  g_array_unref (self->things);
  g_array_unref (self->items);
  g_array_unref (self->by_products);
  for (guint kind = 0; kind < CRO_N_PURCHASE_KINDS; kind++)
    {
      g_array_unref (self->earlier_of[kind]);
      g_array_unref (self->later_of[kind]);
    }
  g_free (self);
}

/* --- Rounding ------------------------------------------------------------------------------- */

/* Cents as a document has them, or a cost as it is reckoned; often at a half of a cent. */
static double
any_money (GRand *rand,
           double most)
{
  double cents = floor (g_rand_double_range (rand, 0, most * 100));

  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      return 0;
    case 1:
      return cents / 100;
    case 2:
      return (cents + 0.5) / 100;
    default:
      return g_rand_double_range (rand, 0, most);
    }
}

static void
fill (CroMonth *self,
      GRand    *rand)
{
  self->opening = any_money (rand, 3000);
  self->closing = any_money (rand, 3000);
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      self->purchases[k] = any_money (rand, 20000);
      self->earlier[k] = any_money (rand, 100);
    }
  self->estimate = g_rand_boolean (rand) ? NAN : any_money (rand, 500);
  self->actual = self->opening + self->purchases[0] + self->earlier[0] - self->closing
                 + (isnan (self->estimate) ? 0 : self->estimate);
  for (guint i = 0; i < ADDED; i++)
    {
      self->adjustments[i] = any_money (rand, 200);
      self->actual += cro_month_sign_of (i) * self->adjustments[i];
    }
  self->theoretical = any_money (rand, 20000);
  self->over = self->actual - self->theoretical;
}

/* A line is what it is rounded to by itself, or a unit or two away where it was reckoned. */
static gboolean
is_line (gint64 minor,
         double money)
{
  double cents = money * 100;
  gboolean is_whole = fabs (cents - round (cents)) < 1e-6;

  return is_whole ? minor == cro_money_round (money, 2) : fabs ((double) minor - cents) < 2.5;
}

/* All purchases are their own rounding, once, and their parts add up to that. */
static void
expect_purchases (const CroMonth      *month,
                  const CroMonthMinor *got)
{
  gint64 sum = got->estimate;

  assert_int_equal (got->purchases, cro_money_round (cro_month_all_purchases (month), 2));
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      sum += got->of_kind[k] + got->earlier_of_kind[k];
      assert_true (is_line (got->of_kind[k], month->purchases[k]));
      assert_true (is_line (got->earlier_of_kind[k], month->earlier[k]));
    }
  assert_int_equal (sum, got->purchases);
  assert_int_equal (got->bought, got->of_kind[0]);
  assert_int_equal (got->earlier, got->earlier_of_kind[0]);
}

static void
expect_rounded (const CroMonth *month)
{
  CroMonthMinor got;
  gint64 sum;

  cro_month_round (month, 2, &got);
  assert_true (got.adds_up);
  assert_int_equal (got.theoretical, cro_money_round (month->theoretical, 2));
  assert_int_equal (got.actual - got.theoretical, got.over);
  assert_true (fabs ((double) got.over - month->over * 100) < 2.5);
  assert_true (got.is_shifted || got.over == cro_money_round (month->over, 2));
  assert_int_equal (got.used, got.opening + got.bought + got.earlier + got.estimate + got.closing);
  sum = got.used;
  for (guint i = 0; i < ADDED; i++)
    {
      double money = cro_month_sign_of (i) * month->adjustments[i];

      sum += got.adjustments[i];
      assert_true (is_line (got.adjustments[i], money));
    }
  assert_int_equal (sum, got.actual);
  assert_true (fabs ((double) got.actual - month->actual * 100) < 2.5);
  /* A stock closes one month and opens the next: it is one figure in both. */
  assert_int_equal (got.opening, cro_money_round (month->opening, 2));
  assert_int_equal (-got.closing, cro_money_round (month->closing, 2));
  expect_purchases (month, &got);
}

/* Where all of the difference was measured, its rows come to that of the statement, whatever rounding the stocks
 * leaves; what was not measured is its own rounding beside them. */
static void
expect_measured (CroMonth *month,
                 GRand    *rand)
{
  double beside = g_rand_boolean (rand) ? 0 : g_rand_int_range (rand, 0, 5000) / 100.0;
  double left = month->over - month->earlier[0] - (isnan (month->estimate) ? 0 : month->estimate) - beside;
  g_autoptr (CroMonthRounded) got = NULL;
  gint64 sum = 0;

  for (guint i = 0; i < N_ITEMS; i++)
    {
      CroMonthItem item = { .name = "Leek", .actual_quantity = 1, .price_variance = any_money (rand, 20) };

      item.usage_variance = i < N_ITEMS - 1 ? any_money (rand, 20) : left - item.price_variance;
      left -= item.price_variance + item.usage_variance;
      g_array_append_val (month->items, item);
    }
  got = cro_month_rounded_new (month, 2);
  for (guint i = 0; i < N_ITEMS; i++)
    sum += got->price[i] + got->usage[i];
  sum += got->minor.earlier + got->minor.estimate + got->minor.later_of_kind[0];
  assert_int_equal (got->minor.over - sum, cro_money_round (beside, 2));
}

static void
test_lines_add_up (void **state)
{
  GRand *rand = g_rand_new_with_seed (20261130);

  for (guint i = 0; i < N_MONTHS; i++)
    {
      CroMonth *month = month_new (0, 0);

      fill (month, rand);
      expect_rounded (month);
      expect_measured (month, rand);
      month_free (month);
    }
  g_rand_free (rand);
}

/* --- Beside another month ------------------------------------------------------------------- */

static const struct { const char *says; double over, other; const char *name, *money, *beside; } pairs[] = {
  { "over beside over", 7.8, 5, "Over", "7.80", "5.00" },
  { "over beside under shows that by its sign", 7.8, -5, "Over", "7.80", "−5.00" },
  { "under beside over too", -7.8, 5, "Under", "7.80", "−5.00" },
  { "under beside under", -7.8, -5, "Under", "7.80", "5.00" },
};

static void
test_over_beside_under (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      CroMonth *month = month_new (50, pairs[i].over), *other = month_new (50, pairs[i].other);
      g_autoptr (CroMonthTable) table = cro_month_statement_beside (NULL, month, other, TRUE);
      const CroMonthTableRow *row = cro_month_table_find (table, CRO_STATEMENT_OVER);

      if (strcmp (row->cells[0], pairs[i].name) != 0 || strcmp (row->cells[2], pairs[i].money) != 0
          || strcmp (row->cells[5], pairs[i].beside) != 0)
        fail_msg ("%s: %s %s, %s", pairs[i].says, row->cells[0], row->cells[2], row->cells[5]);
      month_free (month);
      month_free (other);
    }
}

/* A month without an estimate says what its food came to beside one that has one. */
static void
test_food_beside_an_estimate (void **state)
{
  CroMonth *month = month_new (50, 0), *other = month_new (50, 0);
  g_autoptr (CroMonthTable) table = NULL, alone = NULL;

  month->purchases[0] = 30;
  month->estimate = 4.5;
  other->purchases[0] = 20;
  table = cro_month_statement_beside (NULL, month, other, TRUE);
  alone = cro_month_statement_beside (NULL, other, NULL, TRUE);
  assert_string_equal (cro_month_table_find (table, CRO_STATEMENT_FOOD)->cells[2], "34.50");
  assert_string_equal (cro_month_table_find (table, CRO_STATEMENT_FOOD)->cells[5], "20.00");
  assert_null (cro_month_table_find (alone, CRO_STATEMENT_FOOD));
  month_free (month);
  month_free (other);
}

/* A total with tax stands apart from one without, and one that nobody entered nowhere. */
static void
test_tills_beside_each_other (void **state)
{
  static const struct { double gross, net, other_net; const char *rows; } cases[] = {
    { 1200, NAN, NAN, " till, with tax 1200.00 –" },
    { NAN, NAN, NAN, " till – –" },
    { NAN, 1000, NAN, " till 1000.00 –" },
    { 1200, NAN, 900, " till, with tax 1200.00 – till – 900.00" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroMonth *month = month_new (50, 0), *other = month_new (50, 0);
      g_autoptr (CroMonthTable) table = NULL;
      g_autoptr (GString) rows = g_string_new (NULL);

      month->till_gross = cases[i].gross;
      month->till = cases[i].net;
      other->till_gross = NAN;
      other->till = cases[i].other_net;
      table = cro_month_statement_beside (NULL, month, other, TRUE);
      for (guint r = 0; r < table->rows->len; r++)
        {
          const CroMonthTableRow *row = cro_month_table_get (table, r);

          if (row->line == CRO_STATEMENT_TILL)
            g_string_append_printf (rows, " %s %s %s", row->cells[0], row->cells[2] != NULL ? row->cells[2] : "–",
                                    row->cells[5] != NULL ? row->cells[5] : "–");
        }
      assert_string_equal (rows->str, cases[i].rows);
      month_free (month);
      month_free (other);
    }
}

/* What is shown as nothing has no part of the net sales, and 0.01 has. */
static void
test_nothing_over_is_no_part (void **state)
{
  static const struct { double over; const char *money, *pct; } cases[]
      = { { 0.004, "0.00", "0.0\302\240%" }, { 0.01, "0.01", "< 0.1\302\240%" }, { 0.1, "0.10", "0.1\302\240%" } };
  CroDate first = cro_date_from_civil (2026, 10, 1);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GArray) firsts = g_array_new (FALSE, FALSE, sizeof (CroDate));
      g_autoptr (GPtrArray) months = g_ptr_array_new ();
      g_autoptr (GArray) questions = g_array_new (FALSE, FALSE, sizeof (CroMonthQuestion));
      g_autoptr (CroMonthTable) table = NULL;
      CroMonth *month = month_new (140.94, cases[i].over);

      month->questions = questions;
      g_array_append_val (firsts, first);
      g_ptr_array_add (months, month);
      table = cro_months_table_new (firsts, months);
      assert_string_equal (cro_month_table_get (table, 0)->cells[5], cases[i].money);
      assert_string_equal (cro_month_table_get (table, 0)->cells[6], cases[i].pct);
      month_free (month);
    }
}

/* Two months of 2026 and one of 2025, the newest first, and one that has not begun: a year of one month, or with one
 * not reckoned, has no sum. */
static void
test_years_add_up (void **state)
{
  const CroDate days[] = { cro_date_from_civil (2026, 12, 1), cro_date_from_civil (2026, 11, 1),
                           cro_date_from_civil (2026, 10, 1), cro_date_from_civil (2025, 12, 1) };
  g_autoptr (GArray) firsts = g_array_new (FALSE, FALSE, sizeof (CroDate)), none = g_array_ref (firsts);
  g_autoptr (GPtrArray) months = g_ptr_array_new (), nothing = g_ptr_array_new ();
  g_autoptr (CroMonthTable) table = cro_months_table_new (none, nothing);
  g_autoptr (CroMonthTable) waiting = cro_months_table_new (none, nothing);
  CroMonth *all[] = { month_new (20, 1), month_new (50, 7.8), month_new (40, -5), month_new (30, 1) };
  g_autoptr (GError) error = NULL;
  const CroMonthTableRow *row;

  all[0]->first = cro_month_next (cro_here_today ());
  assert_string_equal (cro_month_state_words (all[0]), "not begun");
  assert_false (cro_month_may_close (all[0], &error));
  assert_true (g_error_matches (error, CRO_MONTH_ERROR, CRO_MONTH_ERROR_AHEAD));

  g_array_append_vals (firsts, days, G_N_ELEMENTS (days));
  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    g_ptr_array_add (months, all[i]);
  cro_months_table_add_years (table, firsts, months);
  assert_int_equal (table->rows->len, 1);
  row = cro_month_table_get (table, 0);
  assert_string_equal (row->cells[0], "Total of 2026");
  assert_string_equal (row->cells[2], "200.00");
  assert_string_equal (row->cells[4], "92.80");
  assert_string_equal (row->cells[5], "2.80");
  months->pdata[2] = NULL;
  cro_months_table_add_years (waiting, firsts, months);
  assert_int_equal (waiting->rows->len, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (all); i++)
    month_free (all[i]);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_lines_add_up),
    cmocka_unit_test (test_over_beside_under),
    cmocka_unit_test (test_food_beside_an_estimate),
    cmocka_unit_test (test_tills_beside_each_other),
    cmocka_unit_test (test_nothing_over_is_no_part),
    cmocka_unit_test (test_years_add_up),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
