/* The benches on the demo book: what is entered reaches the book, what the book says is shown,
 * every control has a name, and nothing outlives its window. */
#include "support/bench-window.h"

#include "cro-breakdown.h"
#include "cro-ingredient-bench.h"
#include "cro-menu-bench.h"
#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"
#include "cro-yield-test.h"

static int
open_book (void **state)
{
  CroTestBench *test = g_new0 (CroTestBench, 1);

  cro_test_bench_open (test);
  *state = test;
  return 0;
}

static int
close_book (void **state)
{
  cro_test_bench_close (*state);
  g_free (*state);
  return 0;
}

static CroModel *
model_of (CroTestBench *test)
{
  return cro_book_get_model (test->book);
}

static GtkWidget *
named (CroTestBench *test,
       const char   *name)
{
  return cro_test_find_named (GTK_WIDGET (test->bench), name);
}

static void
assert_shown (CroTestBench *test,
              const char   *text)
{
  if (cro_test_find_shown (GTK_WIDGET (test->bench), text) == NULL)
    fail_msg ("%s is not shown", text);
}

/* A button by what it says. */
static void
press (CroTestBench *test,
       const char   *text)
{
  GtkWidget *label = cro_test_find_shown (GTK_WIDGET (test->bench), text);
  GtkWidget *button = label != NULL ? gtk_widget_get_ancestor (label, GTK_TYPE_BUTTON) : NULL;

  if (button == NULL)
    fail_msg ("no button says %s", text);
  g_signal_emit_by_name (button, "clicked");
  cro_test_settle ();
}

static void
enter (CroTestBench *test,
       const char   *name,
       const char   *text)
{
  GtkWidget *entry = named (test, name);

  cro_test_type (entry, text);
  cro_test_enter (entry);
}

static void
choose (CroTestBench *test,
        const char   *name,
        guint         position)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (named (test, name)), position);
  cro_test_settle ();
}

static void
undo (CroTestBench *test)
{
  GError *error = NULL;

  cro_test_must (cro_book_undo (test->book, NULL, &error), error);
  cro_test_settle ();
}

/* --- Every bench ------------------------------------------------------------------------------ */

typedef struct
{
  const char *name;
  CroNames    names;
  GType     (*type) (void);
  const char *shows;
} Bench;

static const Bench benches[] = {
  { "Crab croustade", CRO_NAMES_THINGS, cro_plate_bench_get_type, "Dressed white crab" },
  { "Barley bread", CRO_NAMES_PREPARATIONS, cro_preparation_bench_get_type, "the batch" },
  { "Brown crab", CRO_NAMES_ITEMS, cro_ingredient_bench_get_type, "Quay Shellfish" },
  { "Tide", CRO_NAMES_THINGS, cro_menu_bench_get_type, "Crab croustade" },
};

static gboolean
needs_name (GtkWidget *widget)
{
  if (!gtk_widget_get_mapped (widget))
    return FALSE;
  if (GTK_IS_ENTRY (widget) || GTK_IS_DROP_DOWN (widget) || GTK_IS_LEVEL_BAR (widget))
    return TRUE;
  /* One that says what it does in letters is named by them. */
  return (GTK_IS_BUTTON (widget) && gtk_button_get_icon_name (GTK_BUTTON (widget)) != NULL)
         || (GTK_IS_MENU_BUTTON (widget)
             && gtk_menu_button_get_icon_name (GTK_MENU_BUTTON (widget)) != NULL);
}

static void
assert_named (GtkWidget  *widget,
              const char *bench)
{
  if (needs_name (widget)
      && !gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget),
                                            GTK_ACCESSIBLE_PROPERTY_LABEL))
    fail_msg ("a %s on the bench of %s has no name", G_OBJECT_TYPE_NAME (widget), bench);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    assert_named (child, bench);
}

static void
test_each_shows_its_thing_and_names_its_controls (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (benches); i++)
    {
      CroTestBench test;

      cro_test_bench_open (&test);
      cro_test_bench_show (&test, benches[i].type (),
                           cro_test_find_ref (&test, benches[i].names, benches[i].name));
      assert_shown (&test, benches[i].shows);
      assert_named (GTK_WIDGET (test.bench), benches[i].name);
      cro_test_bench_close (&test);
    }
}

/* Two things after each other on one bench: rows are made anew, and undone removals come back. */
static void
test_each_shows_another_thing (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (benches); i++)
    {
      CroTestBench test;
      CroRef ref, copy;
      GError *error = NULL;

      cro_test_bench_open (&test);
      ref = cro_test_find_ref (&test, benches[i].names, benches[i].name);
      cro_test_must (cro_edit_duplicate (test.book, "copy", ref, "A copy", &copy, &error), error);
      cro_test_bench_show (&test, benches[i].type (), ref);
      cro_bench_put (test.bench, copy.slot);
      cro_test_must (cro_edit_remove (test.book, "removal", copy, &error), error);
      cro_test_settle ();
      undo (&test);
      cro_bench_put (test.bench, copy.slot);
      assert_shown (&test, benches[i].shows);
      cro_test_bench_close (&test);
    }
}

static void
test_what_is_in_use_is_not_removed (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Agar"));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "bench.remove", NULL));
  if (strstr (test->said->str, "Agar is used by ") == NULL
      || strstr (test->said->str, "Cucumber-juniper gel") == NULL)
    fail_msg ("it is not said who uses it: %s", test->said->str);
  assert_false (cro_model_item (model_of (test), cro_bench_get_slot (test->bench))->is_dead);
}

/* --- Ingredients ------------------------------------------------------------------------------ */

static void
show_crab (CroTestBench *test)
{
  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab"));
}

static CroItem *
item_of (CroTestBench *test)
{
  return cro_model_item (model_of (test), cro_bench_get_slot (test->bench));
}

static void
test_a_price_begins_on_the_books_date (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;

  show_crab (test);
  assert_shown (test, "13.20/kg");
  entry = named (test, "price of Brown crab from Quay Shellfish");
  cro_test_type (entry, "70");
  assert_shown (test, "14.00/kg");
  cro_test_escape (entry);
  assert_shown (test, "13.20/kg");
  assert_shown (test, "since 2026-11-24");
  cro_test_type (entry, "70");
  cro_test_enter (entry);
  assert_shown (test, "14.00/kg");
  assert_shown (test, "since 2026-11-25");
  assert_shown (test, "+6.1\u00a0%");
  undo (test);
  assert_shown (test, "13.20/kg");
  assert_shown (test, "since 2026-11-24");
}

static void
test_a_pack_is_entered_in_one_act (void **state)
{
  CroTestBench *test = *state;
  guint n;

  show_crab (test);
  n = item_of (test)->n_offers;
  cro_test_type (named (test, "Supplier"), "Creek Boats");
  cro_test_type (named (test, "times"), "10 kg");
  cro_test_type (named (test, "Price of a pack"), "120");
  press (test, "Add Pack");
  assert_int_equal (item_of (test)->n_offers, n + 1);
  assert_shown (test, "Creek Boats");
  assert_shown (test, "12.00/kg");
  gtk_widget_grab_focus (named (test, "price of Brown crab from Creek Boats"));
  undo (test);
  /* The focus does not go with what is taken away: it stays among the packs. */
  assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)),
                                       named (test, "Supplier")));
  assert_int_equal (item_of (test)->n_offers, n);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Creek Boats"));
}

static void
test_an_unfinished_pack_is_not_entered (void **state)
{
  CroTestBench *test = *state;
  guint n;

  show_crab (test);
  n = item_of (test)->n_offers;
  cro_test_type (named (test, "Supplier"), "Creek Boats");
  press (test, "Add Pack");
  assert_shown (test, "What is in a pack? For instance 5 kg.");
  assert_int_equal (item_of (test)->n_offers, n);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Supplier"))),
                       "Creek Boats");
}

/* 983 + 1003 + 1012 + 1049 + 983 of 4950 + 5060 + 4980 + 5120 + 5040 g, by hand: 5030 / 25150. */
static void
test_tests_are_taken_over_in_one_act (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *before = NULL, *after = NULL, *undone = NULL;

  show_crab (test);
  before = cro_test_stored (test, "ingredient", item_of (test)->id, "trim_yield_pct_micro");
  press (test, "Take It Over");
  after = cro_test_stored (test, "ingredient", item_of (test)->id, "trim_yield_pct_micro");
  assert_string_equal (after, "20000000");
  undo (test);
  undone = cro_test_stored (test, "ingredient", item_of (test)->id, "trim_yield_pct_micro");
  assert_true (g_strcmp0 (before, undone) == 0);
}

static void
test_a_test_is_entered_as_weights (void **state)
{
  CroTestBench *test = *state;
  GError *error = NULL;
  g_autoptr (GArray) tests = NULL;

  show_crab (test);
  cro_test_type (named (test, "Weighed as bought"), "2 * 2.5 kg");
  cro_test_type (named (test, "Usable"), "1 kg");
  press (test, "Enter Test");
  tests = cro_yield_tests_new (test->book, cro_bench_get_slot (test->bench), &error);
  cro_test_must (tests != NULL, error);
  assert_int_equal (tests->len, 6);
  assert_true (g_array_index (tests, CroYieldTest, 0).purchased == INT64_C (5000000000));
  assert_true (g_array_index (tests, CroYieldTest, 0).usable == INT64_C (1000000000));
  enter (test, "Crab shells of Brown crab 2026-11-25", "2200");
  {
    g_autoptr (GArray) parts = cro_yield_test_parts_new (
        test->book, g_array_index (tests, CroYieldTest, 0).id, &error);

    assert_int_equal (parts->len, 1);
    assert_true (g_array_index (parts, CroYieldTestPart, 0).weight == INT64_C (2200000000));
  }
}

/* With the last tick gone nobody has said that there are none. */
static void
test_allergens_are_said_or_not_known (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *crustaceans, *none;

  show_crab (test);
  assert_int_equal (item_of (test)->allergens, 1 << 1);
  crustaceans = gtk_widget_get_ancestor (
      cro_test_find_shown (GTK_WIDGET (test->bench), "crustaceans"), GTK_TYPE_CHECK_BUTTON);
  none = gtk_widget_get_ancestor (
      cro_test_find_shown (GTK_WIDGET (test->bench), "None of the fourteen"),
      GTK_TYPE_CHECK_BUTTON);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (crustaceans), FALSE);
  assert_int_equal (item_of (test)->allergens, -1);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (none), TRUE);
  assert_int_equal (item_of (test)->allergens, 0);
  undo (test);
  undo (test);
  assert_int_equal (item_of (test)->allergens, 1 << 1);
  assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (crustaceans)));
}

static void
test_what_costs_nothing_is_told_so_once (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Sea purslane"));
  assert_shown (test, "? no price for Sea purslane");
  press (test, "Costs Nothing");
  assert_shown (test, "costs nothing");
  /* The like is had from there already. */
  assert_shown (test, "Own picking and tap");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Costs Nothing"));
}

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
    cmocka_unit_test (test_each_shows_its_thing_and_names_its_controls),
    cmocka_unit_test (test_each_shows_another_thing),
    CASE (test_what_is_in_use_is_not_removed),
    CASE (test_a_price_begins_on_the_books_date),
    CASE (test_a_pack_is_entered_in_one_act),
    CASE (test_an_unfinished_pack_is_not_entered),
    CASE (test_tests_are_taken_over_in_one_act),
    CASE (test_a_test_is_entered_as_weights),
    CASE (test_allergens_are_said_or_not_known),
    CASE (test_what_costs_nothing_is_told_so_once),
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
