/* The ingredient bench: yield tests and allergens are entered, changed, removed, and come back. */
#include "support/bench-ingredient.h"

#include "cro-field.h"
#include "cro-new-offer-view.h"
#include "cro-pane-box.h"
#include "cro-yield-test.h"
#include "cro-yield-words.h"

/* Anywhere in what the yield's tests come to. */
static void
assert_has (CroTestBench *test,
            const char   *question)
{
  GArray *tests = cro_yield_tests_new (test->book, cro_bench_get_slot (test->bench), NULL);
  g_autofree char *asks = cro_words_yield_question (tests, FALSE);

  assert_non_null (asks);
  assert_string_equal (asks, question);
  g_array_unref (tests);
}

/* Why a yield that is entered divides nothing; and that of another is said as it was typed. */
static void
test_a_yield_of_what_is_counted_is_not_used (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH, cro_test_find_ref (test, CRO_NAMES_ITEMS, "Lemon"));
  assert_shown (test, "no trim yield");
  enter (test, "Trim yield %", "88");
  assert_shown (test, "trim yield 88 % not used: costed by the piece");
  gtk_window_destroy (GTK_WINDOW (test->window));
  show_crab (test);
  enter (test, "Trim yield %", "0.85");
  assert_shown (test, "trim yield 0.85 %");
}

/* A wheel turned up or down over a wide table is the page's: the table's own hand takes it sideways. */
static void
test_a_wheel_over_a_table_is_the_pages (void **state)
{
  GtkWidget *wide = g_object_ref_sink (cro_wide_new (gtk_label_new ("")));
  GListModel *hands = gtk_widget_observe_controllers (wide);
  guint n_sideways = 0;

  for (guint i = 0; i < g_list_model_get_n_items (hands); i++)
    {
      g_autoptr (GtkEventController) hand = g_list_model_get_item (hands, i);
      GtkEventControllerScrollFlags flags
          = GTK_IS_EVENT_CONTROLLER_SCROLL (hand)
                ? gtk_event_controller_scroll_get_flags (GTK_EVENT_CONTROLLER_SCROLL (hand))
                : GTK_EVENT_CONTROLLER_SCROLL_NONE;

      if ((flags & GTK_EVENT_CONTROLLER_SCROLL_HORIZONTAL) == 0)
        continue;
      n_sideways++;
      assert_int_equal (flags & GTK_EVENT_CONTROLLER_SCROLL_VERTICAL, 0);
    }
  assert_true (n_sideways > 0);
  g_object_unref (hands);
  g_object_unref (wide);
}

static gboolean
takes_up_and_down (GtkWidget *scroller,
                   double     by)
{
  GListModel *hands = gtk_widget_observe_controllers (scroller);
  gboolean takes = FALSE, is_stopped;

  for (int before = 1; before >= 0; before--)
    for (guint i = 0; i < g_list_model_get_n_items (hands); i++)
      {
        g_autoptr (GtkEventController) hand = g_list_model_get_item (hands, i);

        if (!GTK_IS_EVENT_CONTROLLER_SCROLL (hand)
            || (g_strcmp0 (gtk_event_controller_get_name (hand), "shares") == 0) != before)
          continue;
        if (before)
          g_signal_emit_by_name (hand, "scroll", 0.0, by, &is_stopped);
        else
          takes |= (gtk_event_controller_scroll_get_flags (GTK_EVENT_CONTROLLER_SCROLL (hand))
                    & GTK_EVENT_CONTROLLER_SCROLL_VERTICAL)
                   != 0;
      }
  g_object_unref (hands);
  return takes;
}

/* One over a picture is the picture's as far as that goes on, and else the page's. */
static void
test_a_wheel_over_a_picture_is_shared (void **state)
{
  GtkWidget *rows = gtk_label_new (""), *picture = gtk_label_new ("");
  GtkWidget *box = g_object_ref_sink (cro_pane_box_new (NULL, rows, NULL, NULL, picture, NULL));
  GtkWidget *scroller = gtk_widget_get_last_child (box);
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));

  gtk_adjustment_configure (down, 0, 0, 300, 10, 100, 300);
  assert_false (takes_up_and_down (scroller, 1));
  assert_false (takes_up_and_down (scroller, -1));
  gtk_adjustment_configure (down, 0, 0, 300, 10, 100, 200);
  assert_true (takes_up_and_down (scroller, 1));
  assert_false (takes_up_and_down (scroller, -1));
  gtk_adjustment_set_value (down, 100);
  assert_false (takes_up_and_down (scroller, 1));
  assert_true (takes_up_and_down (scroller, -1));
  g_object_unref (box);
}

/* Grams beside kilograms weigh nothing in what tests come to, and more than all is usable of nothing. */
static void
test_a_doubtful_test_is_asked_about (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  cro_test_type (named (test, "Weighed as bought"), "2.5");
  cro_test_type (named (test, "Usable"), "0.5");
  press (test, "Enter Test");
  assert_non_null (strstr (test->said->str, "Test kept: 2.5 g bought, 0.5 g usable"));
  assert_has (test, "2.5 g in the test of 2026-11-25: is 2.5 kg meant?");
  undo (test);
  cro_test_type (named (test, "Weighed as bought"), "1 kg");
  cro_test_type (named (test, "Usable"), "1.2 kg");
  press (test, "Enter Test");
  assert_has (test, "1.2 kg usable of 1 kg in the test of 2026-11-25: is this right?");
}

/* 983 + 1003 + 1012 + 1049 + 983 of 4950 + 5060 + 4980 + 5120 + 5040 g, by hand: 5030 / 25150. */
static void
test_tests_are_taken_over_in_one_act (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *before = NULL, *after = NULL, *undone = NULL;

  show_crab (test);
  before = cro_test_stored (test, "ingredient", item_of (test)->id, "trim_yield_pct_micro");
  press (test, "Use This Yield");
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
      cro_test_find_shown (GTK_WIDGET (test->bench), "None of the 14 allergens"),
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

/* Of the demo's prices of crab: 55 and 72 for 5 kg, by hand. */
static void
test_pictures_say_what_they_show (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  named (test, "Lowest 11.00/kg from 2026-07-21, highest 14.40/kg from 2026-02-03.");
  named (test, "5 tests: 20 % usable, standard error 0.18.");
}

static void
test_a_test_gets_another_name (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  enter (test, "name of Crab 2026-11-19", "Crab, lot 31");
  named (test, "usable weight of Crab, lot 31");
  undo (test);
  named (test, "usable weight of Crab 2026-11-19");
}

static void
test_rare_columns_wait_behind_more (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *more;
  g_autofree char *net = NULL;

  show_crab (test);
  more = named (test, "More fields of Brown crab from Quay Shellfish");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Net weight %"));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (more), TRUE);
  cro_test_settle ();
  enter (test, "net weight of Brown crab from Quay Shellfish", "80");
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (more), FALSE);
  cro_test_settle ();
  /* What is set is shown; 66 for 4 kg net. */
  assert_shown (test, "Net weight %");
  assert_shown (test, "16.50/kg");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Position"));
}

/* Why no pack is added has its room too: neither its fields nor what follows move. */
static void
check_refusal_moves_nothing (CroTestBench *test,
                             int           width)
{
  static const char *const names[] = { "Supplier", "Currency", "Prices" };
  GtkWidget *form = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_NEW_OFFER_VIEW);
  GtkWidget *page = gtk_widget_get_ancestor (form, GTK_TYPE_VIEWPORT), *stay[G_N_ELEMENTS (names)];
  graphene_rect_t before[G_N_ELEMENTS (names)], after;

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      stay[i] = i < 2 ? cro_test_find_named (form, names[i])
                      : cro_test_find_shown (GTK_WIDGET (test->bench), names[i]);
      assert_true (gtk_widget_compute_bounds (stay[i], gtk_widget_get_first_child (page), &before[i]));
    }
  cro_test_type (stay[1], "bof");
  cro_test_enter (stay[1]);
  cro_test_see (test->window);
  assert_non_null (cro_test_find_containing (form, "is not a currency code"));
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      assert_true (gtk_widget_compute_bounds (stay[i], gtk_widget_get_first_child (page), &after));
      if (!graphene_rect_equal (&before[i], &after))
        fail_msg ("%d px wide, a refused pack: %s moves by %g, %g", width, names[i],
                  after.origin.x - before[i].origin.x, after.origin.y - before[i].origin.y);
    }
  cro_test_type (stay[1], "");
}

/* The mark that opens all of what a new name changes has its room in the field. */
static void
check_new_name_moves_nothing (CroTestBench *test)
{
  GtkWidget *field = named (test, "Ingredient");
  int before = gtk_widget_get_width (field);

  cro_test_type (field, "Spider crab");
  cro_test_see (test->window);
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Press F2 for the whole list"));
  assert_int_equal (gtk_widget_get_width (field), before);
  cro_test_escape (field);
}

/* Whatever is wrong with what is typed into a field has its room: nothing below moves, whatever the width. */
static void
test_a_reason_moves_nothing (void **state)
{
  static const struct { const char *field, *text; } faults[] = {
    { "Density, g/ml", "88 pct" }, { "Trim yield %", "bof" }, { "Piece weight, g", "1 kg + 22" },
    { "Density, g/ml", "-1" },
  };
  CroTestBench *test = *state;

  show_crab (test);
  check_new_name_moves_nothing (test);
  for (int width = 640; width <= 1348; width += 236)
    {
      graphene_rect_t before, after;

      gtk_window_set_default_size (GTK_WINDOW (test->window), width, 800);
      cro_test_wait_until (ABS (gtk_widget_get_width (test->window) - width) < 60, "the window is not %d px wide",
                           width);
      cro_test_see (test->window);
      for (gsize i = 0; i < G_N_ELEMENTS (faults); i++)
        {
          GtkWidget *field = named (test, faults[i].field);
          GtkWidget *below = cro_test_find_shown (GTK_WIDGET (test->bench), "Packs");
          GtkWidget *page = gtk_widget_get_ancestor (below, GTK_TYPE_VIEWPORT);

          assert_true (gtk_widget_compute_bounds (below, gtk_widget_get_first_child (page), &before));
          enter (test, faults[i].field, faults[i].text);
          cro_test_see (test->window);
          assert_true (gtk_widget_has_css_class (field, "error")
                       || cro_test_find_containing (GTK_WIDGET (test->bench), faults[i].text) != NULL);
          assert_true (gtk_widget_compute_bounds (below, gtk_widget_get_first_child (page), &after));
          if (before.origin.y != after.origin.y)
            fail_msg ("%d px wide, %s: it moves by %g", width, faults[i].text, after.origin.y - before.origin.y);
          cro_test_escape (field);
          cro_test_see (test->window);
        }
      check_refusal_moves_nothing (test, width);
    }
}

/* --- Nothing is freed under an event ------------------------------------------------------------ */

static void
test_tab_leaves_the_new_name_of_a_test (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  cro_test_type (named (test, "name of Crab 2026-11-19"), "Crab, lot 31");
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_focus (test, "note of Crab, lot 31");
  /* The newest stands first: its row moves. */
  cro_test_type (named (test, "date of Crab, lot 31"), "2026-01-02");
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_focus (test, "weight as bought of Crab, lot 31");
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_yield_of_what_is_counted_is_not_used),
    CASE (test_a_doubtful_test_is_asked_about),
    CASE (test_a_wheel_over_a_table_is_the_pages),
    CASE (test_a_wheel_over_a_picture_is_shared),
    CASE (test_tests_are_taken_over_in_one_act),
    CASE (test_a_test_is_entered_as_weights),
    CASE (test_allergens_are_said_or_not_known),
    CASE (test_pictures_say_what_they_show),
    CASE (test_a_test_gets_another_name),
    CASE (test_rare_columns_wait_behind_more),
    CASE (test_a_reason_moves_nothing),
    CASE (test_tab_leaves_the_new_name_of_a_test),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
