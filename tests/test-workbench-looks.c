/* What the window shows whatever its size: figures that stay, rooms that are kept, points under each other, and
 * examples in the numbers of the locale. */
#include "support/bench-looks.h"
#include "support/locales.h"

#include <math.h>

#include "cro-causes-view.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-example.h"
#include "cro-ingredient-bench.h"
#include "cro-line-row.h"
#include "cro-lines-total.h"
#include "cro-lines-view.h"
#include "cro-menu-bench.h"
#include "cro-packs-bench.h"
#include "cro-place-list.h"
#include "cro-quick-line.h"

/* --- Figures ---------------------------------------------------------------------------------- */

static void
test_figures_stay_while_lines_scroll (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *lines, *scroller, *causes;
  GtkAdjustment *adjustment;
  float before;

  show_plate (test, "Crab croustade");
  resize (test, 900, 420);
  lines = of_type (test, CRO_TYPE_LINES_VIEW);
  causes = of_type (test, CRO_TYPE_CAUSES_VIEW);
  scroller = gtk_widget_get_ancestor (lines, GTK_TYPE_SCROLLED_WINDOW);
  adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  before = place_of (test, lines).origin.y;
  gtk_adjustment_set_value (adjustment, 100);
  cro_test_wait_until (place_of (test, lines).origin.y < before - 50, "the lines do not scroll");
  assert_false (gtk_widget_is_ancestor (causes, scroller));
  /* What is worked on has the greater part of a low window. */
  assert_true (gtk_widget_get_height (scroller) * 5 >= gtk_widget_get_height (GTK_WIDGET (test->bench)) * 3 - 5);
}

static void
assert_in_sight (CroTestBench *test,
                 GtkWidget    *widget,
                 const char   *when)
{
  graphene_rect_t at = place_of (test, widget);

  if (at.origin.y < 0 || at.origin.y + at.size.height > (float) gtk_widget_get_height (GTK_WIDGET (test->bench)))
    fail_msg ("%s: a %s from %.0f to %.0f of %d", when, G_OBJECT_TYPE_NAME (widget), at.origin.y,
              at.origin.y + at.size.height, gtk_widget_get_height (GTK_WIDGET (test->bench)));
}

static void
assert_above_sum (CroTestBench *test,
                  GtkWidget    *widget)
{
  graphene_rect_t at, sum;

  cro_test_wait_until ((at = place_of (test, widget), sum = place_of (test, of_type (test, CRO_TYPE_LINES_TOTAL)),
                        at.size.height > 0 && at.origin.y + at.size.height <= sum.origin.y + 1),
                       "a line is behind the sum");
  assert_in_sight (test, widget, "above the sum");
}

/* Whatever stands beside the lines, and however few of them are seen: what is typed next stands below their sum, both
 * whole; and neither what has the focus above nor what was added there is behind them. */
static void
test_the_next_line_stays_in_sight (void **state)
{
  CroTestBench *test = *state;
  static const int heights[] = { 690, 520 };
  g_autoptr (GtkCssProvider) padding = gtk_css_provider_new ();
  g_autofree char *path = g_build_filename (test->folder.folder, "padding.css", NULL);
  GdkDisplay *display = gdk_display_get_default ();
  GtkWidget *last, *next;

  /* As the window's style has it, which benches by themselves are without. */
  assert_true (g_file_set_contents (path, ".bench { padding: 12px 18px; }", -1, NULL));
  gtk_css_provider_load_from_path (padding, path);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (padding),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  show_plate (test, "Crab croustade");
  resize (test, 985, heights[0]);
  cro_test_see (test->window);
  next = named (test, "Next line");
  gtk_widget_grab_focus (next);
  cro_test_type (next, "25 g crème fraîche");
  cro_test_enter (next);
  cro_test_see (test->window);
  last = gtk_widget_get_ancestor (named (test, "amount of Crème fraîche per batch"), CRO_TYPE_LINE_ROW);
  assert_above_sum (test, last);
  for (gsize i = 0; i < G_N_ELEMENTS (heights); i++)
    {
      resize (test, 985, heights[i]);
      for (int picture = CRO_PICTURE_MADE_OF; picture < CRO_N_PICTURES; picture++)
        {
          open_picture (test, (CroPictureId) picture);
          cro_test_see (test->window);
          assert_in_sight (test, of_type (test, CRO_TYPE_QUICK_LINE), "beside a picture");
          assert_in_sight (test, of_type (test, CRO_TYPE_LINES_TOTAL), "beside a picture");
        }
    }
  last = named (test, "amount of Paper cup per batch");
  gtk_widget_grab_focus (last);
  assert_above_sum (test, last);
  gtk_style_context_remove_provider_for_display (display, GTK_STYLE_PROVIDER (padding));
}

/* Beside the stream and beside any other picture rows are as high. */
static void
test_no_row_moves_as_another_picture_comes (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *row;
  float before;

  show_plate (test, "Crab croustade");
  resize (test, 985, 690);
  row = named (test, "amount of Trout roe per batch");
  before = place_of (test, row).size.width;
  open_picture (test, CRO_PICTURE_MOVERS);
  cro_test_see (test->window);
  assert_null (cro_test_find_type (gtk_widget_get_ancestor (row, CRO_TYPE_LINE_ROW), GTK_TYPE_LEVEL_BAR));
  assert_true (place_of (test, row).size.width == before);
}

/* With a price missing and without: nothing below the figures moves. */
static void
test_what_is_missing_has_its_room (void **state)
{
  CroTestBench *test = *state;
  float with, without;

  show_plate (test, "Crab croustade");
  assert_shown (test, "? no price for Sea purslane");
  with = place_of (test, of_type (test, CRO_TYPE_LINES_VIEW)).origin.y;
  cro_bench_put (test->bench, cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade").slot);
  {
    GError *error = NULL;
    CroUnitPrice price = { 12000000, CRO_UNIT_KG, "Marsh",
                           cro_book_get_figures (test->book)->date, 0 };

    cro_test_must (cro_edit_price_ingredient (
                       test->book, "price",
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Sea purslane").slot, &price, NULL,
                       &error),
                   error);
  }
  cro_test_settle ();
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "? no price for Sea purslane"));
  without = place_of (test, of_type (test, CRO_TYPE_LINES_VIEW)).origin.y;
  assert_true (with == without);
}

static void
test_others_that_are_missing_come_up_from_a_button (void **state)
{
  CroTestBench *test = *state;
  CroRef plate = cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade");
  CroNewLine lines[4];
  const char *names[] = { "A weed of the saltings, picked young", "Weed B", "Weed C", "Weed D" };
  CroRef opened = CRO_REF_NOWHERE;
  GError *error = NULL;
  GtkWidget *others, *first;

  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    lines[i] = (CroNewLine){ .item = CRO_NO_SLOT, .name = names[i], .base = CRO_BASE_GRAM,
                             .amount = 1000000, .unit = CRO_UNIT_G };
  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      cro_test_add_lines (test->book, plate.slot, CRO_NO_SLOT, &lines[i], 1, NULL, &error);
      assert_null (error);
    }
  show_plate (test, "Crab croustade");
  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  /* Its name goes on two lines where the figures leave it little room. */
  resize (test, 984, 700);
  first = cro_test_find_shown (of_type (test, CRO_TYPE_CAUSES_VIEW),
                               "? no price for A weed of the saltings, picked young");
  assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (first))));
  others = named (test, "and 4 others");
  gtk_menu_button_popup (GTK_MENU_BUTTON (others));
  cro_test_wait_shown (GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (others))),
                       "? no price for Weed C");
  /* Nothing else names it: it is not cut, and has the width that it needs. */
  {
    GtkLabel *label = GTK_LABEL (cro_test_find_shown (GTK_WIDGET (test->bench), "? no price for Weed C"));

    assert_int_equal (gtk_label_get_ellipsize (label), PANGO_ELLIPSIZE_NONE);
    assert_int_equal (pango_layout_get_line_count (gtk_label_get_layout (label)), 1);
  }
  press (test, "? no price for Weed C");
  cro_test_wait_until (opened.kind == CRO_REF_ITEM, "nothing is opened");
  assert_string_equal (cro_model_item (model_of (test), opened.slot)->name, "Weed C");
}

/* --- Columns and fields --------------------------------------------------------------------------- */

/* Ten prices fill a window of 1366 by 768: what is said of them takes no row of its own below the fields. */
static void
test_what_is_said_of_prices_stands_beside_a_field (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *fields, *date;

  show_plate (test, "Oysters, half-dozen");
  resize (test, 960, 690);
  open_picture (test, CRO_PICTURE_PRICE);
  fields = gtk_widget_get_parent (cro_test_find_containing (GTK_WIDGET (test->bench),
                                                            "Press Enter on a price to set it."));
  cro_test_wait_until (gtk_widget_get_width (fields) > 0, "prices have no room");
  date = cro_test_find_named (fields, "The price holds from");
  if (gtk_widget_get_height (fields) >= 3 * gtk_widget_get_height (date))
    fail_msg ("fields of %d stand in %d", gtk_widget_get_height (date), gtk_widget_get_height (fields));
}

static float
left_of (CroTestBench *test,
         const char   *text)
{
  return place_of (test, cro_test_find_shown (of_type (test, CRO_TYPE_LINES_VIEW), text)).origin.x;
}

static void
test_a_key_moves_no_column_of_the_lines (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;
  float before;

  show_plate (test, "Crab croustade");
  resize (test, 1000, 700);
  entry = named (test, "amount of Trout roe per batch");
  before = left_of (test, "Dill");
  cro_test_type (entry, "1234567.891 g");
  cro_test_settle ();
  assert_true (left_of (test, "Dill") == before);
  cro_test_escape (entry);
  cro_test_settle ();
  assert_true (left_of (test, "Dill") == before);
}

/* Allergens come with it, and the fields stay where they are. */
static void
test_the_first_plate_of_a_menu_moves_no_field (void **state)
{
  CroTestBench *test = *state;
  CroRef menu = { .kind = CRO_REF_MENU };
  GError *error = NULL;
  float before;

  cro_test_must (cro_edit_add_menu (test->book, "m", "Neap tide", &menu.slot, &error), error);
  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, menu);
  resize (test, 1000, 700);
  before = place_of (test, named (test, "Note")).origin.y;
  cro_test_must (cro_edit_add_to_menu (test->book, "p", menu.slot,
                                       cro_test_find_ref (test, CRO_NAMES_THINGS,
                                                          "Crab croustade").slot,
                                       CRO_MICRO, NULL, &error),
                 error);
  cro_test_wait_shown (GTK_WIDGET (test->bench), "Crab croustade");
  cro_test_settle ();
  assert_true (place_of (test, named (test, "Note")).origin.y == before);
}

/* Where the decimal sign of a cell stands, from the side where the table begins. */
static float
sign_at (CroTestBench *test,
         const char   *text)
{
  GtkWidget *label = cro_test_find_shown (GTK_WIDGET (test->bench), text);
  PangoRectangle sign;
  int x, y;

  assert_non_null (label);
  pango_layout_index_to_pos (gtk_label_get_layout (GTK_LABEL (label)),
                             (int) (strchr (text, '.') - text), &sign);
  gtk_label_get_layout_offsets (GTK_LABEL (label), &x, &y);
  return place_of (test, label).origin.x + (float) x + (float) sign.x / PANGO_SCALE;
}

static void
test_prices_stand_with_their_points_under_each_other (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  assert_shown (test, "62.00/kg");
  assert_shown (test, "0.0115 each");
  /* What stands behind the digits is longer of a piece than of a kilogram. */
  cro_test_wait_until (fabsf (sign_at (test, "62.00/kg") - sign_at (test, "0.0115 each")) <= 1.5f,
                       "the points of 62.00/kg and 0.0115 each are apart");
  assert_true (fabsf (sign_at (test, "62.00/kg") - sign_at (test, "31.00")) > 20);
}

/* --- Lists ------------------------------------------------------------------------------------ */

static void
test_menus_are_told_from_plates (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *list = g_object_new (CRO_TYPE_PLACE_LIST, NULL);
  int least, wanted;

  test->window = adw_window_new ();
  adw_window_set_content (ADW_WINDOW (test->window), list);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 300, 1200);
  gtk_window_present (GTK_WINDOW (test->window));
  cro_place_list_set_book (CRO_PLACE_LIST (list), test->book);
  cro_test_wait_shown (list, "Tide");
  /* Longer words on its buttons take nothing from the bench. */
  gtk_widget_measure (list, GTK_ORIENTATION_HORIZONTAL, -1, &least, &wanted, NULL, NULL);
  assert_int_equal (least, wanted);
  assert_non_null (cro_test_find_named (list, "Tide, menu, 29.4\u00a0%, incomplete"));
  assert_non_null (cro_test_find_named (list, "Hake, potatoes and mussels, 30.2\u00a0%"));
  assert_non_null (cro_test_find_shown (list, "Add Plate"));
  assert_non_null (cro_test_find_shown (list, "Add Menu"));
  cro_place_list_set_place (CRO_PLACE_LIST (list), CRO_PLACE_PREPARATIONS);
  cro_test_wait_shown (list, "Add Preparation");
  assert_null (cro_test_find_shown (list, "Add Plate"));
  cro_place_list_set_place (CRO_PLACE_LIST (list), CRO_PLACE_LARDER);
  cro_test_wait_shown (list, "Add Ingredient");
  gtk_window_destroy (GTK_WINDOW (test->window));
  cro_test_wait_until (G_OBJECT (test->book)->ref_count == 1, "rows that are gone hold the book");
}

/* --- Entering --------------------------------------------------------------------------------- */

static void
test_what_is_wrong_with_a_line_is_an_error (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry, *hint;

  show_plate (test, "Crab croustade");
  entry = named (test, "Next line");
  cro_test_type (entry, "25 g butter 9.20/kg best there is");
  assert_true (gtk_widget_has_css_class (entry, "error"));
  hint = gtk_widget_get_next_sibling (entry);
  assert_true (gtk_widget_has_css_class (hint, "reason"));
  assert_false (gtk_widget_has_css_class (hint, "dim-label"));
  cro_test_type (entry, "25 g butter");
  assert_false (gtk_widget_has_css_class (hint, "reason"));
  assert_true (gtk_widget_has_css_class (hint, "dim-label"));
}

static void
show_crab (CroTestBench *test)
{
  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab"));
}

static void
test_a_new_pack_has_a_supplier_that_is_there_and_a_currency (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *button;
  guint n;

  show_crab (test);
  n = cro_model_item (model_of (test), cro_bench_get_slot (test->bench))->n_offers;
  button = named (test, "Choose a supplier");
  gtk_menu_button_popup (GTK_MENU_BUTTON (button));
  assert_shown (test, "Upriver Produce and Dairy");
  {
    GtkWidget *label = cro_test_find_shown (
        GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (button))), "Upriver Produce and Dairy");

    g_signal_emit_by_name (gtk_widget_get_ancestor (label, GTK_TYPE_LIST_BOX), "row-activated",
                           gtk_widget_get_ancestor (label, GTK_TYPE_LIST_BOX_ROW));
  }
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Supplier"))),
                       "Upriver Produce and Dairy");
  cro_test_type (named (test, "times"), "10 kg");
  cro_test_type (named (test, "Price per pack"), "120");
  cro_test_type (named (test, "Currency"), "quid");
  press (test, "Add Pack");
  assert_shown (test, "“QUID” is not a currency code. Use one such as EUR or GBP.");
  cro_test_type (named (test, "Currency"), "gbp");
  press (test, "Add Pack");
  assert_int_equal (cro_model_item (model_of (test), cro_bench_get_slot (test->bench))->n_offers,
                    n + 1);
  assert_non_null (named (test, "currency of Brown crab from Upriver Produce and Dairy"));
}

static void
test_a_list_of_units_opens_on_the_chosen_one (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *choice, *toggle;

  show_crab (test);
  choice = named (test, "pack unit of Brown crab from Quay Shellfish");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), 22);
  cro_test_settle ();
  toggle = gtk_widget_get_first_child (choice);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (toggle), TRUE);
  cro_test_settle ();
  {
    GtkWidget *popover = cro_test_find_type (choice, GTK_TYPE_POPOVER);
    GtkWidget *list = cro_test_find_type (popover, GTK_TYPE_LIST_VIEW);
    GtkAdjustment *at = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (list));

    cro_test_wait_until (gtk_adjustment_get_value (at) > 0
                             || gtk_adjustment_get_upper (at) <= gtk_adjustment_get_page_size (at),
                         "the list of units stands at its top");
    /* Arrows go on from there, and Enter keeps it. */
    cro_test_wait_until (gtk_window_get_focus (GTK_WINDOW (test->window)) != NULL
                             && gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)), list)
                             && (gtk_widget_get_state_flags (gtk_window_get_focus (GTK_WINDOW (test->window)))
                                 & GTK_STATE_FLAG_SELECTED),
                         "the focus is not on the chosen unit");
  }
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (toggle), FALSE);
  cro_test_settle ();
}

static void
test_examples_speak_the_locales_numbers (void **state)
{
  static const struct { const char *locale, *line; } examples[] = {
    { "en_US.UTF-8", "25 g butter 9.20/kg" },
    { "de_DE.UTF-8", "25 g butter 9,20/kg" },
    { "fr_FR.UTF-8", "25 g butter 9,20/kg" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (examples); i++)
    {
      g_autofree char *line = NULL;

      if (!cro_test_enter_locale (examples[i].locale))
        continue;
      line = cro_example_dup_line ();
      assert_string_equal (line, examples[i].line);
    }
  setlocale (LC_ALL, "C.UTF-8");
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_figures_stay_while_lines_scroll),
    CASE (test_the_next_line_stays_in_sight),
    CASE (test_no_row_moves_as_another_picture_comes),
    CASE (test_what_is_missing_has_its_room),
    CASE (test_others_that_are_missing_come_up_from_a_button),
    CASE (test_what_is_said_of_prices_stands_beside_a_field),
    CASE (test_a_key_moves_no_column_of_the_lines),
    CASE (test_the_first_plate_of_a_menu_moves_no_field),
    CASE (test_prices_stand_with_their_points_under_each_other),
    CASE (test_menus_are_told_from_plates),
    CASE (test_what_is_wrong_with_a_line_is_an_error),
    CASE (test_a_new_pack_has_a_supplier_that_is_there_and_a_currency),
    CASE (test_a_list_of_units_opens_on_the_chosen_one),
    cmocka_unit_test (test_examples_speak_the_locales_numbers),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, cro_test_find_locales, cro_test_leave_locales);
}
