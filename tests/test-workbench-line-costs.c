/* What the lines of a plate and of a preparation say of their costs: sums that add up, bounds, last prices, and what
 * is asked about. */
#include "support/bench-lines.h"

#include <math.h>

#include "cro-ingredient-bench.h"
#include "cro-last-price.h"
#include "cro-line-row.h"
#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"
#include "cro-words.h"

static GtkWidget *
popover_below (GtkWidget *widget)
{
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child) && gtk_widget_get_visible (child))
      return child;
  return NULL;
}

static void
test_a_cost_opens_as_its_sum (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *amount = named (test, "amount of Trout roe per batch");
  GtkWidget *row = gtk_widget_get_ancestor (amount, CRO_TYPE_LINE_ROW);
  GtkWidget *popover;

  gtk_widget_grab_focus (amount);
  assert_true (gtk_widget_activate_action (amount, "figure.sum", NULL));
  cro_test_settle ();
  popover = popover_below (row);
  assert_non_null (popover);
  assert_non_null (cro_test_find_shown (popover, "48\u00a0g"));
  assert_non_null (cro_test_find_shown (popover, "="));
  gtk_popover_popdown (GTK_POPOVER (popover));
  cro_test_settle ();
  assert_focused (test, "amount of Trout roe per batch");
}

static void
test_a_missing_cost_leads_to_its_cure (void **state)
{
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  g_signal_emit_by_name (named (test, "cost of Sea purslane: ? set price"), "clicked");
  assert_int_equal (opened.kind, CRO_REF_ITEM);
  assert_string_equal (cro_model_item (model_of (test), opened.slot)->name, "Sea purslane");
}

static void
set (CroTestBench *test,
     const char   *table,
     gint64        id,
     const char   *column,
     CroCell       cell)
{
  GError *error = NULL;

  cro_test_must (cro_book_set (test->book, "change", table, id, column, &cell, &error), error);
  cro_test_settle ();
}

/* Nothing is missing where a by-product is worth more than its batch costs, and no cost is right. */
static void
test_a_credit_over_the_cost_is_called_so (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *bench;
  CroRef buttermilk = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Buttermilk");

  set (test, "output", cro_model_item (model_of (test), buttermilk.slot)->id, "value_micro",
       CRO_CELL_INT (30000000));
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS,
                                          "Barley bread and cultured butter"));
  bench = GTK_WIDGET (test->bench);
  assert_non_null (cro_test_find_shown (bench, "credited more than it costs"));
  assert_null (cro_test_find_shown (bench, "incomplete"));
  assert_null (cro_test_find_shown (bench, "cost incomplete"));
}

static void
test_a_last_price_is_told_on_its_line (void **state)
{
  CroTestBench *test = *state;
  CroModel *model = model_of (test);
  CroRef crab = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab");
  const CroItem *item = cro_model_item (model, crab.slot);
  GError *error = NULL;

  for (guint32 i = 0; i < item->n_offers; i++)
    cro_test_must (cro_edit_set_price (test->book, "gone",
                                       g_array_index (model->offer_order, guint32,
                                                      item->first_offer + i),
                                       cro_book_get_figures (test->book)->date, CRO_NOT_SET, &error),
                   error);
  cro_test_bench_show (test, CRO_TYPE_PREPARATION_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_PREPARATIONS,
                                          "Brown crab, cooked and picked"));
  assert_shown (test, "last price, not to be had since 2026-11-25 · one box");
  /* What is made has no price of its own. */
  assert_null (cro_words_last_price (cro_book_get_figures (test->book),
                                     cro_test_find_ref (test, CRO_NAMES_ITEMS,
                                                        "White crab meat").slot));
}

/* On its pack too, which serves on and is not called lacking. */
static void
test_a_last_price_is_told_on_its_pack (void **state)
{
  CroTestBench *test = *state;
  CroModel *model = model_of (test);
  CroRef crab = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab");
  const CroItem *item = cro_model_item (model, crab.slot);
  g_autofree char *cost = NULL;
  GError *error = NULL;

  for (guint32 i = 0; i < item->n_offers; i++)
    cro_test_must (cro_edit_set_price (test->book, "gone",
                                       g_array_index (model->offer_order, guint32,
                                                      item->first_offer + i),
                                       cro_book_get_figures (test->book)->date, CRO_NOT_SET, &error),
                   error);
  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH, crab);
  assert_shown (test, "in use: last price, not to be had since 2026-11-25");
  cost = cro_words_costs (model, CRO_BASE_GRAM,
                          cro_figures_unit_cost (cro_book_get_figures (test->book), crab.slot));
  assert_shown (test, cost);
}

/* What is asked of a pack that a plate leads to is asked on the plate, until it is answered. */
static void
test_a_doubt_below_is_asked_on_the_plate (void **state)
{
  CroTestBench *test = *state;
  CroModel *model = model_of (test);
  CroRef crab = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab");
  guint32 offer = cro_book_get_figures (test->book)->offer_in_use[crab.slot];
  const char *columns[] = { "preferred", "until", NULL };
  CroCell over[] = { CRO_CELL_INT (1), CRO_CELL_STR ("2026-11-20") };
  const char *question = "please check: Brown crab from %s: This pack is preferred, but it ended on "
                         "2026-11-20, and there is no other. Is it still sold?";
  g_autoptr (GString) words = g_string_new (question);
  GError *error = NULL;

  g_string_replace (words, "%s", g_array_index (model->suppliers, CroSupplier,
                                                cro_model_offer (model, offer)->supplier).name, 1);
  cro_test_must (cro_edit_set (test->book, "over", "offer", cro_model_offer (model, offer)->id,
                               columns, over, &error), error);
  cro_test_settle ();
  assert_shown (test, words->str);
  cro_test_must (cro_book_undo (test->book, NULL, &error), error);
  cro_test_settle ();
  cro_test_wait_until (cro_test_find_shown (GTK_WIDGET (test->bench), words->str) == NULL,
                       "%s is still asked", words->str);
}

/* A price has the minor units of its currency (ISO 4217: two for the euro), and more only where
 * it was entered with more. */
static void
test_a_price_shows_its_minor_units (void **state)
{
  static const struct { const char *typed, *shown; } cases[] = {
    { "2.5", "2.50" }, { "3", "3.00" }, { "1.255", "1.255" },
  };
  CroTestBench *test = *state;
  GtkWidget *price;

  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Brown crab on toast"));
  price = named (test, "Price with tax");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      cro_test_type (price, cases[i].typed);
      cro_test_enter (price);
      assert_string_equal (text_of (price), cases[i].shown);
    }
}

/* The demo's crab is weighed as bought: its shells are weighed with it, and lost once. */
static void
test_a_loss_counted_twice_is_asked_about (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *bench;
  CroRef meat = cro_test_find_ref (test, CRO_NAMES_ITEMS, "White crab meat");
  CroRef crab = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab");
  const char *const columns[] = { "amount_micro", "yield_pct_micro", NULL };
  CroCell cells[] = { CRO_CELL_INT (900000), CRO_CELL_NONE };
  GError *error = NULL;
  gint64 line;

  cro_test_bench_show (test, CRO_TYPE_PREPARATION_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_PREPARATIONS,
                                          "Brown crab, cooked and picked"));
  bench = GTK_WIDGET (test->bench);
  line = model_of (test)->line_ids[line_of (test, "Brown crab")];
  set (test, "recipe_line", line, "amount_micro", CRO_CELL_INT (5000000));
  set (test, "recipe_line", line, "unit", CRO_CELL_STR ("kg"));
  set (test, "ingredient", cro_model_item (model_of (test), crab.slot)->id, "trim_yield_pct_micro",
       CRO_CELL_INT (20000000));
  cro_test_must (cro_edit_set (test->book, "change", "output",
                               cro_model_item (model_of (test), meat.slot)->id, columns, cells,
                               &error), error);
  cro_test_settle ();
  assert_non_null (cro_test_find_shown (bench, "as bought · one box"));
  set (test, "recipe_line", line, "weighed", CRO_CELL_STR ("trimmed"));
  assert_non_null (cro_test_find_shown (
      bench, "5 kg trimmed means buying 25 kg. Weigh as bought? · yield 20\u00a0% · one box"));
  /* With four kilograms of meat the shells were not in the five. */
  set (test, "output", cro_model_item (model_of (test), meat.slot)->id, "amount_micro",
       CRO_CELL_INT (4000000));
  assert_non_null (cro_test_find_shown (bench, "yield 20\u00a0% · one box"));
}

static GtkWidget *
find_classed (GtkWidget  *widget,
              const char *name)
{
  GtkWidget *found = gtk_widget_has_css_class (widget, name) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); found == NULL && child != NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_classed (child, name);
  return found;
}

/* What the rows beside each other show for their cost; what is not known counts as nothing. */
static gint64
sum_of_rows (GtkWidget *bench)
{
  GtkWidget *rows = find_classed (bench, "lines");
  gint64 sum = 0;

  for (GtkWidget *row = gtk_widget_get_first_child (rows); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      const char *cost = cro_line_row_get_text (CRO_LINE_ROW (row), CRO_LINE_COST);

      cost += g_str_has_prefix (cost, "≥ ") ? strlen ("≥ ") : 0;
      sum += g_ascii_isdigit (*cost) ? (gint64) round (g_ascii_strtod (cost, NULL) * 100) : 0;
    }
  return sum;
}

/* Hay by the piece, which has no weight, leaves the cost of its custard open: so much of it at least. */
static void
test_a_cost_over_something_missing_is_a_bound (void **state)
{
  CroTestBench *test = *state;
  CroModel *model = model_of (test);
  guint32 custard = cro_test_find_ref (test, CRO_NAMES_PREPARATIONS, "Hay custard").slot;
  guint32 hay = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Hay").slot;
  guint n_open = 0;

  for (guint32 line = 0; line < model->lines.n; line++)
    if (model->lines.row[line] == (gint32) custard && model->lines.item[line] == hay)
      set (test, "recipe_line", model->line_ids[line], "unit", CRO_CELL_STR ("each"));
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Roasted apple, hay custard and cider caramel"));
  assert_non_null (cro_test_find_shown (GTK_WIDGET (test->bench), "cost incomplete"));
  for (GtkWidget *row = gtk_widget_get_first_child (find_classed (GTK_WIDGET (test->bench), "lines")); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    n_open += g_str_has_prefix (cro_line_row_get_text (CRO_LINE_ROW (row), CRO_LINE_COST), "≥ ");
  assert_int_equal (n_open, 1);
}

/* The first number of a text, "21.22" of "at least 21.22", in minor units. */
static gint64
minor_of (const char *text)
{
  return (gint64) round (g_ascii_strtod (strpbrk (text, "0123456789"), NULL) * 100);
}

/* What stands behind words in a row under the lines; NULL: no such row. */
static const char *
text_behind (GtkWidget  *total,
             const char *words)
{
  for (GtkWidget *row = gtk_widget_get_first_child (total); row != NULL;
       row = gtk_widget_get_next_sibling (row))
    {
      GtkWidget *before = GTK_IS_BOX (row) ? gtk_widget_get_first_child (row) : NULL;
      GtkWidget *label = before != NULL ? gtk_widget_get_next_sibling (before) : NULL;

      if (label != NULL && gtk_widget_get_visible (row)
          && g_str_has_prefix (gtk_label_get_label (GTK_LABEL (label)), words))
        return gtk_label_get_label (GTK_LABEL (gtk_widget_get_next_sibling (label)));
    }
  return NULL;
}

/* Every plate's lines as they stand on the screen, with a pocket calculator. */
static void
test_lines_add_up_to_the_total_shown (void **state)
{
  CroTestBench *test = *state;
  CroModel *model = model_of (test);
  guint n_plates = 0;

  for (guint32 recipe = 0; recipe < model->recipes->len; recipe++)
    {
      GtkWidget *total, *kinds;
      gint64 sum;

      if (cro_model_recipe (model, recipe)->is_dead || !cro_model_recipe (model, recipe)->is_plate)
        continue;
      cro_bench_put (test->bench, recipe);
      cro_test_settle ();
      total = find_classed (GTK_WIDGET (test->bench), "lines-total");
      kinds = gtk_widget_get_last_child (total);
      sum = sum_of_rows (GTK_WIDGET (test->bench));
      if (text_behind (total, "seasoning") != NULL)
        sum += minor_of (text_behind (total, "seasoning"));
      assert_int_equal (sum, minor_of (text_behind (total, "for ")));
      if (gtk_widget_get_visible (kinds))
        {
          const char *text = gtk_label_get_label (GTK_LABEL (kinds));

          assert_int_equal (minor_of (text) + minor_of (strstr (text, " + ")), sum);
        }
      n_plates++;
    }
  assert_true (n_plates > 10);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_plate, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_cost_opens_as_its_sum),
    CASE (test_a_missing_cost_leads_to_its_cure),
    CASE (test_lines_add_up_to_the_total_shown),
    cmocka_unit_test_setup_teardown (test_a_cost_over_something_missing_is_a_bound, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_a_credit_over_the_cost_is_called_so, open_book,
                                     close_book),
    cmocka_unit_test_setup_teardown (test_a_last_price_is_told_on_its_line, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_a_last_price_is_told_on_its_pack, open_book, close_book),
    CASE (test_a_doubt_below_is_asked_on_the_plate),
    cmocka_unit_test_setup_teardown (test_a_price_shows_its_minor_units, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_a_loss_counted_twice_is_asked_about, open_book,
                                     close_book),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
