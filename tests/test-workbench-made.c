/* The benches of preparations and of menus: outputs, rules and plates are entered, changed, removed,
 * and come back. */
#include "support/bench-hands.h"

#include "cro-breakdown.h"
#include "cro-menu-bench.h"
#include "cro-preparation-bench.h"

/* --- Preparations ----------------------------------------------------------------------------- */

static void
show_preparation (CroTestBench *test,
                  const char   *name)
{
  cro_test_bench_show (test, CRO_TYPE_PREPARATION_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_PREPARATIONS, name));
}

static const CroRecipe *
recipe_of (CroTestBench *test)
{
  return cro_model_recipe (model_of (test), cro_bench_get_slot (test->bench));
}

static void
test_a_rule_is_chosen_in_words (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Brown crab, cooked and picked");
  assert_shown (test, "by value (now)");
  choose (test, "By-products", CRO_RULE_WEIGHT);
  assert_int_equal (recipe_of (test)->rule, CRO_RULE_WEIGHT);
  assert_shown (test, "by weight (now)");
  undo (test);
  assert_shown (test, "by value (now)");
}

static void
test_a_weighed_amount_takes_the_yields_place (void **state)
{
  CroTestBench *test = *state;
  const CroItem *meat;

  show_preparation (test, "Brown crab, cooked and picked");
  enter (test, "Amount of White crab meat", "1.1");
  meat = cro_model_item (model_of (test), cro_test_find_ref (test, CRO_NAMES_ITEMS,
                                                             "White crab meat").slot);
  assert_true (meat->output.amount == INT64_C (1100000));
  assert_true (meat->output.yield == 0);
  undo (test);
  assert_true (meat->output.amount == 0);
  assert_true (meat->output.yield == INT64_C (20000000));
}

static void
test_a_by_product_comes_and_goes (void **state)
{
  CroTestBench *test = *state;
  guint n;

  show_preparation (test, "Apple jelly");
  n = recipe_of (test)->n_outputs;
  enter (test, "Name of a new by-product", "Apple peel");
  assert_int_equal (recipe_of (test)->n_outputs, n + 1);
  assert_shown (test, "How its cost lands");
  g_signal_emit_by_name (named (test, "Remove Apple peel"), "clicked");
  cro_test_settle ();
  assert_int_equal (recipe_of (test)->n_outputs, n);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
}

static void
test_a_new_name_is_the_outputs_too (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Apple jelly");
  enter (test, "Preparation", "Crab-apple jelly");
  assert_string_equal (recipe_of (test)->name, "Crab-apple jelly");
  cro_test_find_ref (test, CRO_NAMES_ITEMS, "Crab-apple jelly");
}

/* --- Menus ------------------------------------------------------------------------------------ */

static guint
n_plates (CroTestBench *test)
{
  g_autoptr (GPtrArray) plates = cro_menu_dup_plates (model_of (test),
                                                      cro_bench_get_slot (test->bench));

  return plates->len;
}

static void
test_a_plate_is_found_and_added (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;
  guint n;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
  n = n_plates (test);
  entry = named (test, "Add a plate");
  cro_test_type (entry, "skew praw");
  cro_test_enter (entry);
  assert_int_equal (n_plates (test), n + 1);
  assert_shown (test, "Prawn skewers, aïoli");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "");
  undo (test);
  assert_int_equal (n_plates (test), n);
}

static void
test_servings_are_previewed (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;
  double before, twice;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
  before = cro_figure_of_menu (cro_book_get_figures (test->book),
                               cro_bench_get_slot (test->bench)).cost;
  entry = named (test, "servings of Crab croustade");
  cro_test_type (entry, "2");
  twice = cro_figure_of_menu (cro_book_get_figures (test->book),
                              cro_bench_get_slot (test->bench)).cost;
  assert_true (twice > before);
  cro_test_escape (entry);
  assert_true (cro_figure_of_menu (cro_book_get_figures (test->book),
                                   cro_bench_get_slot (test->bench)).cost == before);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_rule_is_chosen_in_words),
    CASE (test_a_weighed_amount_takes_the_yields_place),
    CASE (test_a_by_product_comes_and_goes),
    CASE (test_a_new_name_is_the_outputs_too),
    CASE (test_a_plate_is_found_and_added),
    CASE (test_servings_are_previewed),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
