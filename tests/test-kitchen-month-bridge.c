/* The bridge between two closed months as it is shown (costing.md, section 12): of thousands of generated pairs, cells
 * that are rounded add up to effects, those to the change, and that is the difference of what both statements show;
 * and what sentences name is among the rows. */
#include <glib.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>
#include <cmocka.h>

#include "cro-money.h"
#include "cro-month-bridge-words.h"
#include "cro-month-bridge.h"

#define N_PAIRS 2000
#define THINGS 10
#define PARTS 7
#define MOST_ROWS 4

static const char *const things[THINGS] = { "A", "B", "C", "D", "E", "F", "G", "H", "I", "J" };
static const char *const items[PARTS] = { "Butter", "Crab", "Flour", "Leek", "Salt", "Shells", "Stock" };

/* As a month is frozen: 0, or a figure in millionths. */
static double
any (GRand  *rand,
     int     one_in,
     double  low,
     double  high)
{
  return g_rand_int_range (rand, 0, one_in) == 0 ? 0 : round (g_rand_double_range (rand, low, high) * 1e6) / 1e6;
}

static void
clear_thing (gpointer thing)
{
  g_array_unref (((CroMonthThing *) thing)->parts);
}

/* Some of the things, each of some of the parts: food, assigned values, which are credited, and disposables, which
 * are no part of it. What one unit cost is frozen per 1000 of it. */
static CroMonth *
month_new (GRand *rand)
{
  CroMonth *self = g_new0 (CroMonth, 1);

  self->actual = self->over = self->opening = self->closing = self->estimate = NAN;
  self->things = g_array_new (FALSE, TRUE, sizeof (CroMonthThing));
  self->items = g_array_new (FALSE, TRUE, sizeof (CroMonthItem));
  self->by_products = g_array_new (FALSE, TRUE, sizeof (CroMonthByProduct));
  self->missing = g_ptr_array_new ();
  g_array_set_clear_func (self->things, clear_thing);
  for (guint i = 0; i < THINGS; i++)
    {
      CroMonthThing thing = { .name = things[i], .kind = i < 7 ? CRO_MONTH_PLATE : CRO_MONTH_MENU,
                              .sold = any (rand, 5, -3, i % 3 == 0 ? 40000 : 300) };

      if (g_rand_int_range (rand, 0, 4) == 0)
        continue;
      thing.parts = g_array_new (FALSE, TRUE, sizeof (CroMonthPart));
      for (guint k = 0; k < PARTS; k++)
        {
          CroMonthPart part = { .name = items[k], .kind = k == PARTS - 1 ? 1 : k == PARTS - 2 ? 2 : 0,
                                .quantity = any (rand, 6, k == PARTS - 2 ? -60 : 0, 400),
                                .unit_cost = any (rand, 9, 0, 200) / 1000 };

          if (g_rand_int_range (rand, 0, 3) == 0)
            continue;
          g_array_append_val (thing.parts, part);
          if (part.kind != 1)
            self->theoretical += thing.sold * part.quantity * part.unit_cost;
        }
      g_array_append_val (self->things, thing);
    }
  return self;
}

static void
month_free (CroMonth *self)
{
  g_array_unref (self->things);
  g_array_unref (self->items);
  g_array_unref (self->by_products);
  g_ptr_array_unref (self->missing);
  g_free (self);
}

static void
expect_shown (const CroMonthBridge *bridge,
              GArray               *rows,
              int                   digits)
{
  g_autofree gint64 *minor = g_new0 (gint64, rows->len * CRO_N_BRIDGE_EFFECTS + 1);
  gint64 effects[CRO_N_BRIDGE_STEPS] = { 0 }, sum = 0;
  double unit = pow (10, -digits);
  gint64 change = cro_month_bridge_round (bridge, rows, digits, effects, minor);

  assert_int_equal (change, cro_money_round (bridge->to->theoretical, digits)
                                - cro_money_round (bridge->from->theoretical, digits));
  for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
    {
      gint64 column = 0;

      sum += effects[e];
      /* Rounding moves no effect and no cell by more than two units: one for itself, one for its total. */
      assert_true (fabs ((double) effects[e] * unit - bridge->effects[e]) < 2 * unit);
      for (guint i = 0; i < rows->len; i++)
        {
          gint64 cell = minor[i * CRO_N_BRIDGE_EFFECTS + e];

          column += cell;
          assert_true (fabs ((double) cell * unit - g_array_index (rows, CroMonthBridgeRow, i).effects[e]) < 2 * unit);
        }
      if (rows->len > 0)
        assert_int_equal (column, effects[e]);
    }
  assert_int_equal (effects[CRO_N_BRIDGE_EFFECTS], 0);
  assert_int_equal (sum, change);
}

/* What a sentence names stands among the few rows below it, of which there are no more than was asked for. */
static void
expect_named (const CroMonthBridge *bridge)
{
  g_autoptr (GPtrArray) words = cro_month_bridge_words (bridge);
  g_autoptr (CroMonthTable) table = cro_month_bridge_table (bridge, bridge->items, CRO_N_BRIDGE_EFFECTS, MOST_ROWS);

  assert_true (table->rows->len <= MOST_ROWS + 2);
  for (guint i = 1; i < words->len; i++)
    {
      gboolean is_there = FALSE;

      for (guint k = 0; k < table->rows->len && cro_month_table_get (table, k)->line >= 0; k++)
        is_there |= strstr (words->pdata[i], cro_month_table_get (table, k)->cells[0]) != NULL;
      if (!is_there)
        fail_msg ("not below: %s", (const char *) words->pdata[i]);
    }
}

static void
test_no_residue_is_shown (void **state)
{
  GRand *rand = g_rand_new_with_seed (20261031);

  for (guint pair = 0; pair < N_PAIRS; pair++)
    {
      CroMonth *from = month_new (rand), *to = month_new (rand);
      g_autoptr (CroMonthBridge) bridge = cro_month_bridge_new (from, to);
      double sum = 0, size = fabs (from->theoretical) + fabs (to->theoretical) + 1;

      for (guint e = 0; e < CRO_N_BRIDGE_EFFECTS; e++)
        {
          sum += bridge->effects[e];
          size += fabs (bridge->effects[e]);
        }
      assert_true (fabs (sum - (to->theoretical - from->theoretical)) < 1e-12 * size);
      for (int digits = 0; digits <= 3; digits++)
        {
          expect_shown (bridge, bridge->items, digits);
          expect_shown (bridge, bridge->things, digits);
        }
      if (pair % 20 == 0)
        expect_named (bridge);
      g_clear_pointer (&bridge, cro_month_bridge_free);
      month_free (from);
      month_free (to);
    }
  g_rand_free (rand);
}

/* A month in which so many were sold of A, which takes 2 crab at 3, leek at that, water that costs nothing, salt that
 * has no price, wine that has no rate, and lamb or, without a price of leek, hare, of which nobody knows how much; and
 * of B, which takes 1 crab. */
static CroMonth *
lacking_new (double sold,
             double leek)
{
  CroMonth *self = g_new0 (CroMonth, 1);
  const CroMonthPart parts[] = { { .name = "Crab", .quantity = 2, .unit_cost = 3 },
                                 { .name = "Leek", .quantity = 1, .unit_cost = leek },
                                 { .name = "Salt", .quantity = 5 },
                                 { .name = "Water", .quantity = 50 },
                                 { .name = "Wine", .quantity = 7 } };
  const CroMonthItem wine = { .name = "Wine", .known_theoretical = CRO_KNOWN_NOTHING },
                     lamb = { .name = leek == 0 ? "Hare" : "Lamb", .known_theoretical = CRO_KNOWN_NOTHING };
  CroMonthThing thing = { .name = "A", .sold = sold, .is_incomplete = TRUE },
                whole = { .name = "B", .sold = sold, .theoretical = 3 * sold };

  self->actual = self->over = self->opening = self->closing = self->estimate = NAN;
  self->things = g_array_new (FALSE, TRUE, sizeof (CroMonthThing));
  g_array_set_clear_func (self->things, clear_thing);
  self->items = g_array_new (FALSE, TRUE, sizeof (CroMonthItem));
  self->by_products = g_array_new (FALSE, TRUE, sizeof (CroMonthByProduct));
  g_array_append_val (self->items, wine);
  g_array_append_val (self->items, lamb);
  self->missing = g_ptr_array_new ();
  g_ptr_array_add (self->missing, (gpointer) "price Salt");
  g_ptr_array_add (self->missing, (gpointer) "rate USD");
  if (leek == 0)
    g_ptr_array_add (self->missing, (gpointer) "price Leek");
  thing.theoretical = sold * (6 + leek);
  self->theoretical = thing.theoretical + whole.theoretical;
  self->known_theoretical = CRO_KNOWN_AT_LEAST;
  thing.parts = g_array_new (FALSE, TRUE, sizeof (CroMonthPart));
  g_array_append_vals (thing.parts, parts, G_N_ELEMENTS (parts));
  whole.parts = g_array_new (FALSE, TRUE, sizeof (CroMonthPart));
  g_array_append_val (whole.parts, parts[0]);
  g_array_index (whole.parts, CroMonthPart, 0).quantity = 1;
  g_array_append_val (self->things, thing);
  g_array_append_val (self->things, whole);
  return self;
}

static void
expect_row (const CroMonthTable *table,
            const char          *name,
            const char          *volume,
            const char          *together)
{
  for (guint i = 0; i < table->rows->len; i++)
    if (strcmp (cro_month_table_get (table, i)->cells[0], name) == 0)
      {
        assert_string_equal (cro_month_table_get (table, i)->cells[1 + CRO_BRIDGE_VOLUME], volume);
        assert_string_equal (cro_month_table_get (table, i)->cells[1 + CRO_N_BRIDGE_EFFECTS], together);
        return;
      }
  fail_msg ("no row %s", name);
}

/* Of salt, wine, lamb and hare nothing is known, and no 0 stands for it, nor are they lost among others; of leek, which
 * had a price in one month, a part; crab and water are known. */
static void
test_what_is_missing_shows_no_zero (void **state)
{
  CroMonth *from = lacking_new (10, 4), *to = lacking_new (20, 0);
  g_autoptr (CroMonthBridge) bridge = cro_month_bridge_new (from, to);
  g_autoptr (CroMonthTable) of_items = cro_month_bridge_table (bridge, bridge->items, CRO_N_BRIDGE_EFFECTS, 0);
  g_autoptr (CroMonthTable) of_things = cro_month_bridge_table (bridge, bridge->things, CRO_N_BRIDGE_EFFECTS, 0);
  g_autoptr (CroMonthTable) few = cro_month_bridge_table (bridge, bridge->items, CRO_N_BRIDGE_EFFECTS, 1);
  g_autoptr (CroMonthTable) four = cro_month_bridge_table (bridge, bridge->items, CRO_N_BRIDGE_EFFECTS, 4);
  g_autoptr (GPtrArray) words = cro_month_bridge_words (bridge);

  expect_row (of_items, "Crab", "+90.00", "+90.00");
  expect_row (of_items, "Leek", "? +20.00", "? \342\210\22240.00");
  expect_row (of_items, "Salt", "?", "?");
  expect_row (of_items, "Water", "0.00", "0.00");
  expect_row (of_items, "Wine", "?", "?");
  expect_row (of_items, "Lamb", "?", "?");
  expect_row (of_items, "Hare", "?", "?");
  expect_row (of_items, "Total", "? +110.00", "? +50.00");
  expect_row (of_things, "A", "? +80.00", "? +20.00");
  expect_row (of_things, "B", "+30.00", "+30.00");
  expect_row (few, "others", "? +20.00", "? \342\210\22240.00");
  assert_non_null (strstr (words->pdata[1], "Volume ?\302\240+110.00, of what is known most in Crab +90.00."));
  expect_row (four, "Hare", "?", "?");
  g_clear_pointer (&bridge, cro_month_bridge_free);
  month_free (from);
  month_free (to);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_no_residue_is_shown),
    cmocka_unit_test (test_what_is_missing_shows_no_zero),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
