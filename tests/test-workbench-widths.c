/* What a page shows in much room and in little: names that are whole, and nothing to be scrolled to sideways. */
#include "support/bench-looks.h"

#include <glib/gstdio.h>

#include "cro-all-plates.h"
#include "cro-beside.h"
#include "cro-bring-columns.h"
#include "cro-brought.h"
#include "cro-edit.h"
#include "cro-field.h"
#include "cro-ingredient-bench.h"
#include "cro-lines-total.h"
#include "cro-lines-view.h"
#include "cro-menu-bench.h"
#include "cro-preparation-bench.h"
#include "cro-records-table.h"
#include "cro-row-grid.h"

static void
test_a_wide_window_is_used (void **state)
{
  CroTestBench *test = *state;
  graphene_rect_t page, aside;
  GtkWidget *beside;

  cro_test_bench_show (test, CRO_TYPE_INGREDIENT_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab"));
  resize (test, 1340, 700);
  beside = of_type (test, CRO_TYPE_BESIDE);
  page = place_of (test, gtk_widget_get_first_child (beside));
  aside = place_of (test, gtk_widget_get_last_child (beside));
  assert_true (aside.origin.x >= page.origin.x + page.size.width);
  assert_true (aside.origin.y == page.origin.y);
  assert_true (aside.origin.x + aside.size.width > 1250);
  resize (test, 800, 700);
  page = place_of (test, gtk_widget_get_first_child (beside));
  aside = place_of (test, gtk_widget_get_last_child (beside));
  assert_true (aside.origin.y >= page.origin.y + page.size.height);
}

/* What is left of 1366 pixels beside the list: nothing of an output is to be scrolled to sideways. */
static void
test_an_output_is_seen_whole_on_a_small_screen (void **state)
{
  CroTestBench *test = *state;
  GtkAdjustment *sideways;
  GtkWidget *scroller;

  cro_test_bench_show (test, CRO_TYPE_PREPARATION_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_PREPARATIONS,
                                          "Brown crab, cooked and picked"));
  resize (test, 984, 700);
  scroller = gtk_widget_get_first_child (of_type (test, CRO_TYPE_ROW_GRID));
  sideways = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (scroller));
  cro_test_wait_until (gtk_adjustment_get_page_size (sideways) < 700, "the page has no aside");
  if (gtk_adjustment_get_upper (sideways) > gtk_adjustment_get_page_size (sideways))
    fail_msg ("%g of %g are seen", gtk_adjustment_get_page_size (sideways), gtk_adjustment_get_upper (sideways));
}

static void
test_a_line_has_its_whole_name_in_little_room (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *label, *scroller;
  GtkAdjustment *sideways;

  show_plate (test, "Crab croustade");
  /* What a window of 1024 leaves beside the rail and the list. */
  resize (test, 640, 700);
  label = cro_test_find_shown (of_type (test, CRO_TYPE_LINES_VIEW), "Cucumber-juniper gel");
  assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))));
  scroller = gtk_widget_get_ancestor (label, GTK_TYPE_SCROLLED_WINDOW);
  sideways = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (scroller));
  if (gtk_adjustment_get_upper (sideways) > gtk_adjustment_get_page_size (sideways))
    fail_msg ("%g of %g are seen", gtk_adjustment_get_page_size (sideways), gtk_adjustment_get_upper (sideways));
}

/* The menu that a plate is given with stands among numbers, and has a name as long as one likes: it turns. */
static void
test_costs_have_room_on_a_small_screen (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *label, *scroller;
  GtkAdjustment *sideways;
  GError *error = NULL;

  cro_test_must (cro_edit_rename (test->book, "a", cro_test_find_ref (test, CRO_NAMES_THINGS, "Slack water"),
                                  "Slack water of the long evenings in late autumn", &error),
                 error);
  cro_test_bench_show (test, CRO_TYPE_ALL_PLATES, CRO_REF_NOWHERE);
  resize (test, 640, 700);
  label = cro_test_find_containing (GTK_WIDGET (test->bench), "late autumn");
  scroller = gtk_widget_get_first_child (gtk_widget_get_ancestor (label, CRO_TYPE_RECORDS_TABLE));
  sideways = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (scroller));
  if (gtk_adjustment_get_upper (sideways) > gtk_adjustment_get_page_size (sideways))
    fail_msg ("%g of %g are seen", gtk_adjustment_get_page_size (sideways), gtk_adjustment_get_upper (sideways));
}

static void
test_a_plate_of_a_menu_has_its_name_in_little_room (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *label, *more;

  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
  /* What a window of 1366 leaves: no figure stands off the page either. */
  resize (test, 980, 700);
  label = cro_test_find_shown (GTK_WIDGET (test->bench), "Crab croustade");
  assert_non_null (label);
  assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))));
  more = named (test, "More for Crab croustade");
  assert_true (place_of (test, more).origin.x + place_of (test, more).size.width <= 980);
  resize (test, 560, 700);
  assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))));
}

static void
assert_whole (CroTestBench *test,
              const char   *text)
{
  GtkWidget *label = cro_test_find_shown (GTK_WIDGET (test->bench), text);

  assert_non_null (label);
  cro_test_wait_until (!pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))),
                       "“%s” is cut", text);
}

/* As large text and long words leave it: names break into lines, and the table scrolls. */
static void
test_a_table_has_whole_names_in_little_room (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_ALL_PLATES, CRO_REF_NOWHERE);
  assert_shown (test, "Hake, potatoes and mussels");
  resize (test, 520, 700);
  assert_whole (test, "Hake, potatoes and mussels");
  assert_whole (test, "Oysters, half-dozen");
}

static void
test_what_a_figure_is_of_is_whole_in_little_room (void **state)
{
  CroTestBench *test = *state;

  show_plate (test, "Crab croustade");
  resize (test, 520, 700);
  assert_whole (test, "Tide, target 30.0\u00a0% at a price of ≥\u00a092.96");
  assert_whole (test, "prime cost");
}

/* Below the lines a language's words may be longer than the room under the names: they begin before it. */
static void
test_a_total_has_no_room_under_the_names_to_keep (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *total;
  int least, wanted, with_room;

  show_plate (test, "Crab croustade");
  total = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_LINES_TOTAL);
  gtk_widget_measure (total, GTK_ORIENTATION_HORIZONTAL, -1, &least, &wanted, NULL, NULL);
  cro_lines_total_set_columns (CRO_LINES_TOTAL (total), 3000, 60, 40);
  gtk_widget_measure (total, GTK_ORIENTATION_HORIZONTAL, -1, &with_room, &wanted, NULL, NULL);
  assert_true (least < 3000 && with_room < 3000 && wanted > 3000);
}

static int
height_of_columns (GtkWidget *columns,
                   int        width)
{
  int height;

  gtk_widget_measure (columns, GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  return height;
}

/* What scrolls asks for the height of one row alone. */
static void
test_columns_of_a_sheet_stand_on_all_their_rows (void **state)
{
  static const CroRole roles[] = { CRO_ROLE_NONE, CRO_ROLE_NAME, CRO_ROLE_PRICE };
  CroTestBench *test = *state;
  GtkWidget *columns = g_object_ref_sink (g_object_new (CRO_TYPE_BRING_COLUMNS, NULL));
  g_autofree char *path = g_build_filename (test->folder.folder, "sheet.csv", NULL);
  g_autoptr (CroBrought) brought = NULL;
  int one;

  assert_true (g_file_set_contents (path, "item,price,heading of the third,of the fourth,of the fifth\nHake,9,a,b,c\n",
                                    -1, NULL));
  brought = cro_brought_new (path, 0, NULL, NULL, NULL);
  assert_non_null (brought);
  g_unlink (path);
  cro_bring_columns_set (CRO_BRING_COLUMNS (columns), brought, roles, G_N_ELEMENTS (roles));
  one = height_of_columns (columns, 4000);
  assert_in_range (one, 20, 120);
  assert_in_range (height_of_columns (columns, 300), one + 20, 220);
  assert_in_range (height_of_columns (columns, 10), one + 20, 220);
  cro_bring_columns_set (CRO_BRING_COLUMNS (columns), NULL, roles, G_N_ELEMENTS (roles));
  g_object_unref (columns);
}

static int
least_width_of (const char *name)
{
  GtkWidget *button = g_object_ref_sink (cro_name_button_new ());
  int width;

  cro_name_button_set_first (button, name, 16);
  gtk_widget_measure (button, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
  g_object_unref (button);
  return width;
}

/* One long word breaks, too: no name takes the room of the figures beside it. */
static void
test_a_name_at_the_head_of_a_row_takes_no_more_than_it_is_to (void **state)
{
  int width = least_width_of ("Hake in brown butter with sea herbs");

  assert_int_equal (least_width_of ("HAKEINBROWNBUTTERWITHSEAHERBS"), width);
  assert_in_range (least_width_of ("Hake"), 1, width - 1);
}

/* In a field that is narrower it would be cut. */
static void
assert_whole_in_field (GtkWidget *field)
{
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (field)));
  g_autoptr (PangoLayout) layout
      = gtk_widget_create_pango_layout (text, gtk_editable_get_text (GTK_EDITABLE (field)));
  int width;

  pango_layout_get_pixel_size (layout, &width, NULL);
  if (width > gtk_widget_get_width (text))
    fail_msg ("“%s” is %d wide in %d", gtk_editable_get_text (GTK_EDITABLE (field)), width,
              gtk_widget_get_width (text));
}

static void
test_names_of_outputs_are_whole (void **state)
{
  CroTestBench *test = *state;
  static const int widths[] = { 985, 643 };

  cro_test_bench_show (test, CRO_TYPE_PREPARATION_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_PREPARATIONS, "Brown crab, cooked and picked"));
  for (gsize i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      resize (test, widths[i], 690);
      cro_test_see (test->window);
      assert_whole_in_field (named (test, "Main output of White crab meat"));
      assert_whole_in_field (named (test, "By-product of Brown crab meat"));
    }
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_names_of_outputs_are_whole),
    CASE (test_a_wide_window_is_used),
    CASE (test_an_output_is_seen_whole_on_a_small_screen),
    CASE (test_a_line_has_its_whole_name_in_little_room),
    CASE (test_costs_have_room_on_a_small_screen),
    CASE (test_a_plate_of_a_menu_has_its_name_in_little_room),
    CASE (test_a_table_has_whole_names_in_little_room),
    CASE (test_what_a_figure_is_of_is_whole_in_little_room),
    CASE (test_a_total_has_no_room_under_the_names_to_keep),
    CASE (test_columns_of_a_sheet_stand_on_all_their_rows),
    cmocka_unit_test (test_a_name_at_the_head_of_a_row_takes_no_more_than_it_is_to),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
