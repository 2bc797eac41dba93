/* The ingredient bench: prices, yield tests and allergens are entered, changed, removed, and come
 * back. */
#include "support/bench-ingredient.h"

#include "cro-decimal.h"
#include "cro-field.h"
#include "cro-input.h"
#include "cro-new-offer-view.h"
#include "cro-pane-box.h"
#include "cro-reveal.h"
#include "cro-row-grid.h"
#include "cro-words.h"
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

/* A boat that lands no crab: the last price stays in use, and says so. */
static void
test_what_is_not_to_be_had_says_so (void **state)
{
  CroTestBench *test = *state;
  const char *price = "price of Brown crab from Quay Shellfish";

  show_crab (test);
  enter (test, price, "-");
  assert_shown (test, "13.20/kg");
  assert_shown (test, "last price, not to be had since 2026-11-25\nQuay Shellfish");
  assert_shown (test, "not to be had");
  enter (test, "price of Brown crab from 2026-11-25", "70");
  assert_shown (test, "14.00/kg");
  enter (test, "price of Brown crab from 2026-11-25", "-");
  assert_shown (test, "13.20/kg");
  undo (test);
  undo (test);
  undo (test);
  cro_test_type (named (test, "New price per pack"), "-");
  cro_test_enter (named (test, "New price per pack"));
  assert_shown (test, "not to be had");
}

static void
test_a_price_that_is_none_is_asked_about (void **state)
{
  /* In the head, which leads to the field; and there, where it moves no field beside it. */
  static const char question[] = "? 6600.00 from 2026-11-25 is far from the price before. Is 66.00 meant?";
  CroTestBench *test = *state;
  GtkWidget *head, *beside, *price, *scroller, *answer;
  graphene_rect_t before, after;

  show_crab (test);
  beside = named (test, "items per pack of Brown crab from Quay Shellfish");
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (beside, test->window, &before));
  enter (test, "price of Brown crab from Quay Shellfish", "6600");
  assert_shown (test, question);
  assert_shown (test, "Is 66.00 meant?");
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (beside, test->window, &after));
  assert_float_equal (after.origin.x, before.origin.x, 0.5);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Nothing is missing"));
  head = gtk_widget_get_ancestor (cro_test_find_shown (GTK_WIDGET (test->bench), question), GTK_TYPE_BUTTON);
  g_signal_emit_by_name (head, "clicked");
  assert_non_null (gtk_widget_get_focus_child (named (test, "price of Brown crab from Quay Shellfish")));
  /* Whoever says that it is right is not asked again, until that is undone. */
  press (test, "6600.00 Is Right");
  assert_shown (test, "Nothing is missing");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "6600.00 Is Right"));
  assert_non_null (gtk_widget_get_focus_child (named (test, "price of Brown crab from Quay Shellfish")));
  undo (test);
  assert_shown (test, question);
  assert_shown (test, "6600.00 Is Right");
  /* Nor whoever takes the price that is asked for. */
  press (test, "Set 66.00");
  assert_shown (test, "Nothing is missing");
  assert_shown (test, "66.00");
  undo (test);
  assert_shown (test, "6600.00 Is Right");
  /* Low down on the page it comes into sight with the field. */
  price = named (test, "price of Brown crab from Quay Shellfish");
  scroller = gtk_widget_get_ancestor (price, GTK_TYPE_SCROLLED_WINDOW);
  gtk_window_set_focus (GTK_WINDOW (test->window), NULL);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 900, 300);
  cro_test_settle ();
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)), 0);
  cro_test_settle ();
  gtk_widget_grab_focus (price);
  cro_test_wait_until ((answer = cro_test_find_shown (GTK_WIDGET (test->bench), "6600.00 Is Right")) != NULL
                         && gtk_widget_get_mapped (answer) && cro_reveal_is_seen (price),
                       "the price and its answer are not in sight");
  undo (test);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  assert_shown (test, "Nothing is missing");
}

/* At no width a line ends between a figure and its unit, nor between a limit's sign and its figure. */
static void
test_a_price_is_not_broken (void **state)
{
  GtkWidget *text = g_object_ref_sink (cro_text_new (NULL, NULL));

  gtk_label_set_label (GTK_LABEL (text), "up to 15.73/kg at the quay · ≤ 62.17 per pack");
  for (int width = 20; width < 400; width += 4)
    {
      g_autoptr (PangoLayout) layout = pango_layout_copy (gtk_label_get_layout (GTK_LABEL (text)));

      pango_layout_set_width (layout, width * PANGO_SCALE);
      for (GSList *lines = pango_layout_get_lines_readonly (layout); lines != NULL; lines = lines->next)
        {
          const PangoLayoutLine *line = lines->data;
          g_autofree char *says = g_strndup (gtk_label_get_text (GTK_LABEL (text)) + line->start_index,
                                             (gsize) line->length);

          g_strchomp (says);
          assert_false (g_str_has_suffix (says, "/") || g_str_has_suffix (says, "≤"));
        }
    }
  g_object_unref (text);
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

static void
test_what_costs_nothing_is_told_so_once (void **state)
{
  CroTestBench *test = *state;
  graphene_rect_t place, place_then;
  GtkWidget *packs;
  guint32 offer;

  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Sea purslane"));
  assert_shown (test, "? no price for Sea purslane");
  cro_test_see (test->window);
  packs = cro_test_find_shown (GTK_WIDGET (test->bench), "Packs");
  assert_true (gtk_widget_compute_bounds (packs, test->window, &place));
  cro_test_type (named (test, "Price per pack"), "0");
  press (test, "Mark as Free");
  assert_shown (test, "costs nothing");
  /* By the kilogram, and what was begun by hand is done with it. */
  offer = model_of (test)->offers->len - 1;
  assert_true (cro_model_offer (model_of (test), offer)->offer.pack_size == CRO_MICRO);
  assert_int_equal (cro_model_offer (model_of (test), offer)->offer.pack_unit, CRO_UNIT_KG);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Price per pack"))), "");
  /* The like is had from there already. */
  assert_shown (test, "Own picking and tap");
  /* Nothing moves up under the hands. */
  assert_false (gtk_widget_is_sensitive (cro_test_find_shown (GTK_WIDGET (test->bench), "Mark as Free")));
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (packs, test->window, &place_then));
  assert_float_equal (place_then.origin.y, place.origin.y, 0);
  cro_bench_put (test->bench, cro_bench_get_slot (test->bench));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Mark as Free"));
}

/* The row of a price by the date that its fields are called by. */
static gint64
id_of_price (CroTestBench *test,
             const char   *date)
{
  g_autofree char *name = g_strdup_printf ("price of Brown crab from %s", date);
  GtkWidget *input = gtk_widget_get_ancestor (named (test, name), CRO_TYPE_INPUT);

  return cro_input_get_id (CRO_INPUT (input));
}

/* 68 for 4 × 1.25 kg is 13.60 a kilogram. */
static void
test_a_price_has_a_pack_of_its_own (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *count = NULL, *size = NULL, *unit = NULL, *gone = NULL;
  gint64 id;

  show_crab (test);
  id = id_of_price (test, "2026-11-24");
  enter (test, "price of Brown crab from 2026-11-24", "68");
  enter (test, "pack of Brown crab from 2026-11-24", "4 x 1.25 kg");
  count = cro_test_stored (test, "price", id, "pack_count_micro");
  size = cro_test_stored (test, "price", id, "pack_size_micro");
  unit = cro_test_stored (test, "price", id, "pack_unit");
  assert_string_equal (count, "4000000");
  assert_string_equal (size, "1250000");
  assert_string_equal (unit, "kg");
  assert_shown (test, "13.60/kg");
  enter (test, "pack of Brown crab from 2026-11-24", "");
  gone = cro_test_stored (test, "price", id, "pack_size_micro");
  assert_null (gone);
  undo (test);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (
                           named (test, "pack of Brown crab from 2026-11-24"))),
                       "4 × 1.25 kg");
}

/* Fields are called by their date, so the row gets other names, and the focus goes on in it. */
static void
test_a_price_moves_to_another_day (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;
  gint64 id;

  show_crab (test);
  id = id_of_price (test, "2026-11-24");
  entry = named (test, "date of Brown crab from 2026-11-24");
  gtk_widget_grab_focus (entry);
  cro_test_type (entry, "2026-11-23");
  cro_test_enter (entry);
  assert_true (id_of_price (test, "2026-11-23") == id);
  assert_focus (test, "price of Brown crab from 2026-11-23");
  assert_shown (test, "since 2026-11-23");
  undo (test);
  assert_true (id_of_price (test, "2026-11-24") == id);
}

static void
test_the_focus_stays_in_the_table_when_a_row_goes (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  g_signal_emit_by_name (named (test, "Remove the price from 2026-11-24"), "clicked");
  cro_test_settle ();
  assert_shown (test, "since 2026-11-17");
  assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)),
                                       named (test, "Remove the price from 2026-11-17"))
               || gtk_window_get_focus (GTK_WINDOW (test->window))
                      == named (test, "Remove the price from 2026-11-17"));
  undo (test);
  named (test, "Remove the price from 2026-11-24");
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

static guint
count_shown (GtkWidget  *widget,
             const char *text)
{
  guint n = GTK_IS_LABEL (widget) && gtk_widget_get_mapped (widget)
            && g_str_equal (gtk_label_get_label (GTK_LABEL (widget)), text);

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_shown (child, text);
  return n;
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

/* 66 for 5 kg, and for 4 kg: every figure moves with the key, the row's own too. */
static void
test_a_pack_of_a_price_is_previewed (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *pack;

  show_crab (test);
  pack = named (test, "pack of Brown crab from 2026-11-24");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "16.50/kg"));
  cro_test_type (pack, "4 kg");
  cro_test_settle ();
  assert_int_equal (count_shown (GTK_WIDGET (test->bench), "16.50/kg"), 3);
  cro_test_escape (pack);
  cro_test_settle ();
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "16.50/kg"));
}

/* --- Nothing is freed under an event ------------------------------------------------------------ */

static void
test_tab_leaves_the_changed_date_of_a_price (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  cro_test_type (named (test, "date of Brown crab from 2026-11-24"), "2026-11-23");
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_focus (test, "price of Brown crab from 2026-11-23");
  /* Behind the one that was before it. */
  cro_test_type (named (test, "date of Brown crab from 2026-11-23"), "2026-11-16");
  gtk_widget_grab_focus (named (test, "price of Brown crab from 2026-11-17"));
  cro_test_settle ();
  assert_focus (test, "price of Brown crab from 2026-11-17");
  cro_test_type (named (test, "date of Brown crab from 2026-11-16"), "2026-11-24");
  tab (test, GTK_DIR_TAB_BACKWARD);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
  named (test, "price of Brown crab from 2026-11-24");
}

static void
test_a_price_goes_while_it_is_typed_into (void **state)
{
  CroTestBench *test = *state;
  GError *error = NULL;

  show_crab (test);
  cro_test_type (named (test, "price of Brown crab from 2026-11-24"), "70");
  cro_test_must (cro_edit_remove_price (test->book, "removal", id_of_price (test, "2026-11-24"),
                                        &error),
                 error);
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "since 2026-11-24"));
  assert_string_equal (test->said->str,
                       "“70” was not entered for “price of Brown crab”: this row was removed meanwhile.\n");
  undo (test);
  assert_shown (test, "since 2026-11-24");
  /* Where the window hears of it first, the focus falls to no price of another day. */
  gtk_widget_grab_focus (named (test, "price of Brown crab from 2026-11-24"));
  cro_test_type (named (test, "price of Brown crab from 2026-11-24"), "71");
  cro_test_must (cro_edit_remove_price (test->book, "removal", id_of_price (test, "2026-11-24"),
                                        &error),
                 error);
  cro_book_tell (test->book);
  cro_test_settle ();
  assert_non_null (strstr (test->said->str, "“71” was not entered"));
  assert_null (gtk_widget_get_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)), CRO_TYPE_ROW_GRID));
}

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

static void
test_a_key_on_a_price_asks_nothing (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  assert_keys_ask_nothing (test, "price of Brown crab from Quay Shellfish");
  assert_keys_ask_nothing (test, "pack size of Brown crab from Quay Shellfish");
  assert_keys_ask_nothing (test, "price of Brown crab from 2026-11-24");
  assert_keys_ask_nothing (test, "Trim yield %");
  assert_keys_ask_nothing (test, "Ingredient");
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_price_begins_on_the_books_date),
    CASE (test_a_yield_of_what_is_counted_is_not_used),
    CASE (test_a_doubtful_test_is_asked_about),
    CASE (test_a_wheel_over_a_table_is_the_pages),
    CASE (test_a_wheel_over_a_picture_is_shared),
    CASE (test_what_is_not_to_be_had_says_so),
    CASE (test_a_price_that_is_none_is_asked_about),
    CASE (test_a_price_is_not_broken),
    CASE (test_tests_are_taken_over_in_one_act),
    CASE (test_a_test_is_entered_as_weights),
    CASE (test_allergens_are_said_or_not_known),
    CASE (test_what_costs_nothing_is_told_so_once),
    CASE (test_a_price_has_a_pack_of_its_own),
    CASE (test_a_price_moves_to_another_day),
    CASE (test_the_focus_stays_in_the_table_when_a_row_goes),
    CASE (test_pictures_say_what_they_show),
    CASE (test_a_test_gets_another_name),
    CASE (test_rare_columns_wait_behind_more),
    CASE (test_a_reason_moves_nothing),
    CASE (test_a_pack_of_a_price_is_previewed),
    CASE (test_tab_leaves_the_changed_date_of_a_price),
    CASE (test_a_price_goes_while_it_is_typed_into),
    CASE (test_tab_leaves_the_new_name_of_a_test),
    CASE (test_a_key_on_a_price_asks_nothing),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
