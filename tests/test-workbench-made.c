/* The benches of preparations and of menus: outputs, rules and plates are entered, changed, removed,
 * and come back. */
#include "support/bench-hands.h"

#include "cro-breakdown.h"
#include "cro-focus.h"
#include "cro-input.h"
#include "cro-menu-bench.h"
#include "cro-menu-plates-view.h"
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
  /* Of its own kind it is converted, of another it takes the unit's place. */
  enter (test, "Amount of White crab meat", "1100 g");
  assert_true (meat->output.amount == INT64_C (1100000) && meat->output.unit == CRO_UNIT_KG);
  enter (test, "Amount of White crab meat", "1.4 l");
  assert_true (meat->output.amount == INT64_C (1400000) && meat->output.unit == CRO_UNIT_L);
  undo (test);
  undo (test);
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
  assert_shown (test, "How the cost is shared");
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

/* The output that was the main one keeps its amount, and by undo its role. */
static void
test_a_by_product_becomes_the_main_output (void **state)
{
  CroTestBench *test = *state;
  const CroItem *white, *brown;

  show_preparation (test, "Brown crab, cooked and picked");
  white = cro_model_item (model_of (test),
                          cro_test_find_ref (test, CRO_NAMES_ITEMS, "White crab meat").slot);
  brown = cro_model_item (model_of (test),
                          cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab meat").slot);
  g_signal_emit_by_name (named (test, "Make Brown crab meat the main output"), "clicked");
  cro_test_settle ();
  assert_true (brown->is_main && !white->is_main);
  named (test, "Remove White crab meat");
  undo (test);
  assert_true (white->is_main && !brown->is_main);
  assert_true (white->output.yield == INT64_C (20000000));
}

/* 1 kg at 60 and 0.75 kg at 20 are 80 % and 20 %, as 60 and 15 are of 75, by hand. */
static void
test_the_bar_says_parts_that_add_up (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Brown crab, cooked and picked");
  named (test, "White crab meat 80.0\u00a0%, Brown crab meat 20.0\u00a0%, Crab shells 0.0\u00a0%");
  assert_shown (test, "Each output carries cost in proportion to its value.");
}

/* Credited with 100 a kilogram, 0.75 kg are 75 of 66: the main output bears -9. */
static void
test_a_credit_beyond_the_cost_is_said (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Brown crab, cooked and picked");
  choose (test, "By-products", CRO_RULE_CREDIT);
  enter (test, "Value per unit of Brown crab meat", "100");
  assert_shown (test, "−9.00");
  /* What went in is known all the same. */
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "≥ 66.00"));
  assert_shown (test, "The by-products are credited with more than the batch costs: White crab "
                      "meat costs less than nothing.");
  undo (test);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "−9.00"));
}

/* As all prices, whatever unit it is typed for: 7 for a pound of 0.45359237 kg (NIST Handbook 44, App. C). */
static void
test_a_value_is_per_kilo (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *value;

  show_preparation (test, "Eggs, separated");
  value = named (test, "Value per unit of Egg white");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (value)), "1.20/kg");
  cro_test_type (value, "€7/lb");
  cro_test_enter (value);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (value)), "15.432/kg");
  cro_test_type (value, "1.3");
  cro_test_enter (value);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (value)), "1.30/kg");
}

static void
test_a_by_product_of_a_name_that_is_there_is_refused (void **state)
{
  static const char bought[] = "“Sea purslane” is an ingredient with suppliers’ packs; choose another name, then open "
                               "the ingredient in the larder, choose Replace or Merge… and put this in its place.";
  CroTestBench *test = *state;
  GError *error = NULL;
  guint n_windows;

  show_preparation (test, "Apple jelly");
  n_windows = g_list_model_get_n_items (gtk_window_get_toplevels ());
  enter (test, "Name of a new by-product", "Crab shells");
  assert_shown (test, "“Crab shells” is the name of something else already; choose another.");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (
                           named (test, "Name of a new by-product"))),
                       "Crab shells");
  /* What nobody buys may be meant: the way is named. */
  cro_test_must (cro_edit_add_ingredient (test->book, "add", "Apple cores", CRO_BASE_GRAM, NULL, NULL, &error), error);
  enter (test, "Name of a new by-product", "Apple cores");
  assert_shown (test, "“Apple cores” is an ingredient already; open it in the larder and choose Make It a "
                      "Preparation, or choose another name.");
  /* Of a name that is typed it is said at once: nothing is asked that has no yes. */
  cro_test_type (named (test, "Main output of Apple jelly"), "Sea purslane");
  assert_shown (test, bought);
  enter (test, "Main output of Apple jelly", "Sea purslane");
  assert_shown (test, bought);
  cro_test_escape (named (test, "Main output of Apple jelly"));
  /* Nor is the preparation put away for it. */
  cro_test_type (named (test, "Preparation"), "Sea purslane");
  assert_shown (test, bought);
  enter (test, "Preparation", "Sea purslane");
  assert_shown (test, bought);
  assert_int_equal (g_list_model_get_n_items (gtk_window_get_toplevels ()), n_windows);
}

/* 500 g of brown crab meat at 17.60 a kilogram. */
static void
test_what_takes_it_says_its_weight_there (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Brown crab, cooked and picked");
  /* Over its figures no unit stands alone. */
  assert_shown (test, "Piece\nweight, g");
  assert_shown (test, "500 g Brown crab meat");
  assert_shown (test, "8.80");
}

/* The demo's tests of crab, by hand: usable 5030 of 25150; brown meat 771 + 722 + 752 + 763 + 764 =
 * 3772, shells 2254 + 2330 + 2226 + 2290 + 2215 = 11315, of the same. */
static void
test_a_cutting_test_says_all_yields_in_one_act (void **state)
{
  CroTestBench *test = *state;
  const CroItem *white, *brown, *shells;

  show_preparation (test, "Brown crab, cooked and picked");
  white = cro_model_item (model_of (test),
                          cro_test_find_ref (test, CRO_NAMES_ITEMS, "White crab meat").slot);
  brown = cro_model_item (model_of (test),
                          cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab meat").slot);
  shells = cro_model_item (model_of (test),
                           cro_test_find_ref (test, CRO_NAMES_ITEMS, "Crab shells").slot);
  press (test, "Use This Yield");
  assert_true (white->output.yield == INT64_C (20000000));
  assert_true (brown->output.yield == INT64_C (14998012));
  assert_true (shells->output.yield == INT64_C (44990060));
  undo (test);
  assert_true (brown->output.yield == INT64_C (15000000));
}

static void
test_a_cutting_test_needs_one_thing_that_is_cut (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Cultured butter");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Cutting Tests"));
}

/* The first amount of an output says its unit too. */
static void
test_an_output_without_a_unit_takes_an_amount (void **state)
{
  CroTestBench *test = *state;
  CroCell none = { .kind = CRO_CELL_NULL };
  GError *error = NULL;
  guint32 slot;
  CroRef made;

  cro_test_must (cro_edit_add_preparation (test->book, "brine", "Brine", 0, CRO_UNIT_G, &made.slot,
                                           &slot, &error),
                 error);
  cro_test_must (cro_book_set (test->book, "unit", "output",
                               cro_model_item (model_of (test), slot)->id, "unit", &none, &error),
                 error);
  show_preparation (test, "Brine");
  enter (test, "Amount of Brine", "900");
  assert_true (cro_model_item (model_of (test), slot)->output.amount == INT64_C (900000000));
}

/* Whoever comes to a preparation that was named only types what goes into it: of what is missing,
 * that stands first. */
static void
test_an_empty_preparation_asks_for_its_lines_first (void **state)
{
  CroTestBench *test = *state;
  GError *error = NULL;
  CroRef made;
  guint32 slot;

  cro_test_must (cro_edit_add_preparation (test->book, "brine", "Brine", 0, CRO_UNIT_G, &made.slot,
                                           &slot, &error),
                 error);
  show_preparation (test, "Brine");
  assert_true (gtk_widget_is_ancestor (named (test, "Next line"),
                                       cro_focus_find (GTK_WIDGET (test->bench), "cure")));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "≥ 0.00"));
  enter (test, "Next line", "1 kg sea salt");
  assert_ptr_equal (cro_focus_find (GTK_WIDGET (test->bench), "cure"),
                    gtk_widget_get_ancestor (named (test, "Amount of Brine"), CRO_TYPE_INPUT));
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

/* Order is a plate's place: moved up and back by undo; taken out and back. */
static void
test_plates_are_moved_and_taken_out (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *servings, *view;
  g_autoptr (GPtrArray) before = NULL, moved = NULL;
  guint32 slot;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
  servings = named (test, "servings of Single oyster, cucumber and juniper");
  view = gtk_widget_get_ancestor (servings, CRO_TYPE_MENU_PLATES_VIEW);
  before = cro_menu_dup_plates (model_of (test), cro_bench_get_slot (test->bench));
  slot = cro_slots_get (&model_of (test)->menu_plate_slots,
                        ((CroMenuPlate *) before->pdata[1])->id);
  gtk_widget_activate_action (view, "entry.move-up", "u", slot);
  cro_test_settle ();
  moved = cro_menu_dup_plates (model_of (test), cro_bench_get_slot (test->bench));
  assert_ptr_equal (moved->pdata[0], before->pdata[1]);
  undo (test);
  gtk_widget_activate_action (view, "entry.remove", "u", slot);
  cro_test_settle ();
  assert_int_equal (n_plates (test), before->len - 1);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
  undo (test);
  assert_int_equal (n_plates (test), before->len);
}

static void
test_an_empty_menu_says_so (void **state)
{
  CroTestBench *test = *state;
  GError *error = NULL;
  CroRef menu = { .kind = CRO_REF_MENU };

  cro_test_must (cro_edit_add_menu (test->book, "menu", "Ebb", &menu.slot, &error), error);
  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, menu);
  assert_shown (test, "No plates yet.");
}

/* --- Nothing is freed under an event ------------------------------------------------------------ */

/* The fields of a row are called by the name that is typed there. */
static void
test_tab_leaves_the_new_name_of_an_output (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Apple jelly");
  cro_test_type (named (test, "Main output of Apple jelly"), "Crab-apple jelly");
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_focus (test, "Amount of Crab-apple jelly");
  cro_test_type (named (test, "Main output of Crab-apple jelly"), "Medlar jelly");
  tab (test, GTK_DIR_TAB_BACKWARD);
  cro_test_find_ref (test, CRO_NAMES_ITEMS, "Medlar jelly");
  undo (test);
  undo (test);
  named (test, "Amount of Apple jelly");
}

static void
test_another_field_takes_the_focus_of_a_new_name (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Brown crab, cooked and picked");
  cro_test_type (named (test, "By-product of Crab shells"), "Shells");
  gtk_widget_grab_focus (named (test, "Amount of Brown crab meat"));
  cro_test_settle ();
  assert_focus (test, "Amount of Brown crab meat");
  named (test, "Amount of Shells");
}

static void
test_an_output_goes_while_it_is_typed_into (void **state)
{
  CroTestBench *test = *state;
  GError *error = NULL;
  CroRef shells;

  show_preparation (test, "Apple jelly");
  enter (test, "Name of a new by-product", "Peel");
  cro_test_type (named (test, "Amount of Peel"), "12");
  shells = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Peel");
  cro_test_must (cro_edit_remove (test->book, "removal of Peel", shells, &error), error);
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
  undo (test);
  named (test, "Amount of Peel");
}

static void
test_undo_while_an_output_is_typed_into (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Apple jelly");
  enter (test, "Name of a new by-product", "Peel");
  gtk_widget_grab_focus (named (test, "By-product of Peel"));
  undo (test);
  assert_focus (test, "Name of a new by-product");
}

static void
test_a_plate_goes_from_its_menu_while_it_is_typed_into (void **state)
{
  CroTestBench *test = *state;
  g_autoptr (GPtrArray) plates = NULL;
  GError *error = NULL;
  guint32 slot;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
  plates = cro_menu_dup_plates (model_of (test), cro_bench_get_slot (test->bench));
  slot = cro_slots_get (&model_of (test)->menu_plate_slots,
                        ((CroMenuPlate *) plates->pdata[0])->id);
  cro_test_type (named (test, "servings of Crab croustade"), "3");
  cro_test_must (cro_edit_remove_from_menu (test->book, "removal", slot, &error), error);
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
  assert_int_equal (n_plates (test), plates->len - 1);
}

/* A plate that moves keeps the focus, and what is typed into another. */
static void
test_a_plate_that_moves_keeps_its_fields (void **state)
{
  CroTestBench *test = *state;
  g_autoptr (GPtrArray) plates = NULL;
  GtkWidget *typed, *view;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
  plates = cro_menu_dup_plates (model_of (test), cro_bench_get_slot (test->bench));
  typed = named (test, "servings of Crab croustade");
  view = gtk_widget_get_ancestor (typed, CRO_TYPE_MENU_PLATES_VIEW);
  cro_test_type (typed, "3");
  gtk_widget_activate_action (view, "entry.move-down", "u",
                              cro_slots_get (&model_of (test)->menu_plate_slots,
                                             ((CroMenuPlate *) plates->pdata[1])->id));
  cro_test_settle ();
  assert_ptr_equal (named (test, "servings of Crab croustade"), typed);
}

static void
test_a_key_on_a_batch_asks_nothing (void **state)
{
  CroTestBench *test = *state;

  show_preparation (test, "Brown crab, cooked and picked");
  assert_keys_ask_nothing (test, "Amount of White crab meat");
  assert_keys_ask_nothing (test, "Minutes");
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
    CASE (test_a_by_product_becomes_the_main_output),
    CASE (test_the_bar_says_parts_that_add_up),
    CASE (test_a_credit_beyond_the_cost_is_said),
    CASE (test_a_value_is_per_kilo),
    CASE (test_a_by_product_of_a_name_that_is_there_is_refused),
    CASE (test_what_takes_it_says_its_weight_there),
    CASE (test_a_cutting_test_says_all_yields_in_one_act),
    CASE (test_a_cutting_test_needs_one_thing_that_is_cut),
    CASE (test_an_output_without_a_unit_takes_an_amount),
    CASE (test_an_empty_preparation_asks_for_its_lines_first),
    CASE (test_tab_leaves_the_new_name_of_an_output),
    CASE (test_another_field_takes_the_focus_of_a_new_name),
    CASE (test_an_output_goes_while_it_is_typed_into),
    CASE (test_undo_while_an_output_is_typed_into),
    CASE (test_a_plate_goes_from_its_menu_while_it_is_typed_into),
    CASE (test_a_plate_that_moves_keeps_its_fields),
    CASE (test_a_plate_is_found_and_added),
    CASE (test_servings_are_previewed),
    CASE (test_plates_are_moved_and_taken_out),
    CASE (test_an_empty_menu_says_so),
    CASE (test_a_key_on_a_batch_asks_nothing),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
