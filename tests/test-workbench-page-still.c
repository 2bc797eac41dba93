/* Lines, covers, choices and first prices move nothing of the page that they come to. */
#include "support/bench-still.h"

#include "cro-all-plates.h"
#include "cro-decimal.h"
#include "cro-edit-service.h"
#include "cro-finder-entry.h"
#include "cro-footed.h"
#include "cro-menu-bench.h"
#include "cro-overview.h"
#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"
#include "cro-quick.h"
#include "cro-words.h"

/* Nor does a line that is added to a full plate, or is taken back, move the field that it was typed into. */
static void
test_a_line_more_or_less_moves_no_field (void **state)
{
  static const char line[] = "Next line";
  CroTestBench *test = *state;
  float before;

  show (test, CRO_TYPE_PLATE_BENCH, CRO_NAMES_THINGS, "Crab croustade", widths[0]);
  gtk_widget_grab_focus (named (test, line));
  before = y_of (test, line);
  enter (test, line, "25 g cobnuts");
  cro_test_wait_shown (GTK_WIDGET (test->bench), "cobnuts");
  cro_test_wait_until (y_of (test, line) == before, "a line more moves its field by %g", y_of (test, line) - before);
  undo (test);
  cro_test_wait_until (cro_test_find_shown (GTK_WIDGET (test->bench), "cobnuts") == NULL, "the line is still there");
  cro_test_wait_until (y_of (test, line) == before, "a line less moves its field by %g", y_of (test, line) - before);
}

/* The foot of a page that scrolls stands where it stood when the page is at its end, whose padding is not seen. */
static void
test_the_end_of_a_page_moves_no_foot (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *scroller = gtk_scrolled_window_new (), *all = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *footed = cro_footed_new (0), *rows = gtk_drawing_area_new (), *foot = gtk_drawing_area_new ();
  GtkAdjustment *scroll = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  graphene_rect_t before, after;

  test->window = gtk_window_new ();
  gtk_widget_set_size_request (rows, 100, 600);
  gtk_widget_set_size_request (foot, 100, 40);
  gtk_widget_set_margin_bottom (footed, 12);
  cro_footed_append (CRO_FOOTED (footed), rows);
  cro_footed_append_foot (CRO_FOOTED (footed), foot);
  gtk_box_append (GTK_BOX (all), footed);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), all);
  gtk_window_set_child (GTK_WINDOW (test->window), scroller);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 300, 300);
  gtk_window_present (GTK_WINDOW (test->window));
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (foot, test->window, &before));
  gtk_adjustment_set_value (scroll, 1000);
  cro_test_see (test->window);
  assert_true (gtk_adjustment_get_value (scroll) > 300);
  assert_true (gtk_widget_compute_bounds (foot, test->window, &after));
  assert_float_equal (after.origin.y, before.origin.y, 0);
  gtk_window_destroy (GTK_WINDOW (test->window));
}

static const char add_covers[] = "Add a plate or menu", slack_covers[] = "covers of Slack water";

/* The field that a plate or a menu is named in is as wide with the first covers as without, and they stand where they
 * were typed; how wide the field is. */
static int
assert_covers_still (CroTestBench *test,
                     int           width)
{
  CroRef menu = cro_test_find_ref (test, CRO_NAMES_THINGS, "Slack water");
  graphene_rect_t place, place_then;
  int field;
  float add_at;

  resize (test, width, 700);
  cro_test_wait_shown (GTK_WIDGET (test->bench), "No covers yet.");
  cro_test_see (test->window);
  field = gtk_widget_get_width (named (test, add_covers));
  g_signal_emit_by_name (gtk_widget_get_ancestor (named (test, add_covers), CRO_TYPE_FINDER_ENTRY), "chosen",
                         (int) CRO_KIND_MENU, menu.slot);
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (named (test, slack_covers), test->window, &place));
  add_at = y_of (test, add_covers);
  for (gsize i = 0; i < 2; i++)
    {
      if (i == 0)
        cro_test_type (named (test, slack_covers), "20");
      else
        enter (test, slack_covers, "20");
      cro_test_wait_shown (GTK_WIDGET (test->bench), "Make, in this order");
      cro_test_see (test->window);
      assert_true (gtk_widget_compute_bounds (named (test, slack_covers), test->window, &place_then));
      if (ABS (place_then.origin.x + place_then.size.width - place.origin.x - place.size.width) > 3
          || place_then.origin.y != place.origin.y || y_of (test, add_covers) != add_at)
        fail_msg ("%d px wide, %s moves covers by %g, %g and the field below by %g", width,
                  i == 0 ? "a number" : "Enter",
                  place_then.origin.x + place_then.size.width - place.origin.x - place.size.width,
                  place_then.origin.y - place.origin.y, y_of (test, add_covers) - add_at);
      assert_int_equal (gtk_widget_get_width (named (test, add_covers)), field);
    }
  return field;
}

/* And what they ask for stays where it stands with more. */
static void
test_covers_move_nothing (void **state)
{
  CroTestBench *test = *state;
  CroRef menu = cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide");
  GError *error = NULL;
  GtkWidget *make;
  graphene_rect_t place, place_then;
  int width;

  cro_test_bench_show (test, CRO_TYPE_ALL_PLATES, CRO_REF_ALL_PLATES);
  assert_true (cro_overview_show_view (CRO_OVERVIEW (test->bench), CRO_VIEW_SERVICE));
  enter (test, "Date of the service", "2027-03-01");
  enter (test, "Service, for example lunch or dinner", "dinner");
  assert_covers_still (test, widths[1]);
  undo (test);
  width = assert_covers_still (test, widths[0]);
  make = cro_test_find_shown (GTK_WIDGET (test->bench), "Make, in this order");
  assert_true (gtk_widget_compute_bounds (make, test->window, &place));
  cro_test_must (cro_edit_set_covers (test->book, "covers", cro_date_from_civil (2027, 3, 1), "dinner", menu,
                                      10 * CRO_MICRO, &error), error);
  cro_test_wait_shown (GTK_WIDGET (test->bench), "Barley bread");
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (make, test->window, &place_then));
  assert_true (graphene_rect_equal (&place, &place_then));
  assert_true (place.origin.x > width);
}

/* Nor do the first choices of a menu: shares of guests come where bars stood. */
static void
test_choices_move_nothing (void **state)
{
  static const char *const chosen[] = { "choice of Hake, potatoes and mussels",
                                        "choice of Roasted apple, hay custard and cider caramel" };
  CroTestBench *test = *state;
  GError *error = NULL;

  for (gsize w = 0; w < G_N_ELEMENTS (widths); w++)
    {
      GtkWidget *bench, *plate;
      graphene_rect_t name, name_then;

      if (test->bench != NULL)
        gtk_window_destroy (GTK_WINDOW (test->window));
      show (test, CRO_TYPE_MENU_BENCH, CRO_NAMES_THINGS, "Slack water", widths[w]);
      bench = GTK_WIDGET (test->bench);
      plate = cro_test_find_shown (bench, "Beetroot, smoked curd and dulse");
      cro_test_see (test->window);
      assert_true (gtk_widget_compute_bounds (plate, test->window, &name));
      for (gsize i = 0; i < G_N_ELEMENTS (chosen); i++)
        {
          enter (test, chosen[i], "evening");
          cro_test_see (test->window);
          assert_true (gtk_widget_compute_bounds (plate, test->window, &name_then));
          /* Other figures beside it may be a digit shorter. */
          if (ABS (name_then.origin.x - name.origin.x) > 8 || ABS (name_then.size.width - name.size.width) > 8)
            fail_msg ("%d px wide, “%s” moves a plate by %g, and makes it wider by %g", widths[w], chosen[i],
                      name_then.origin.x - name.origin.x, name_then.size.width - name.size.width);
        }
      assert_shown (test, "taken equally");
      for (gsize i = 0; i < G_N_ELEMENTS (chosen); i++)
        cro_test_must (cro_book_undo (test->book, NULL, &error), error);
    }
}

/* Nor does the first price of all, with which what it leaves becomes known. */
static void
test_a_first_price_moves_nothing (void **state)
{
  CroTestBench *test = *state;
  CroRef plate, menu = CRO_REF (CRO_REF_MENU, CRO_NO_SLOT);
  GError *error = NULL;

  plate = cro_test_find_ref (test, CRO_NAMES_THINGS, "Hake, potatoes and mussels");
  cro_test_must (cro_edit_add_menu (test->book, "menu", "Neap tide", &menu.slot, &error), error);
  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, menu);
  resize (test, widths[0], 700);
  open_picture (test, CRO_PICTURE_MADE_OF);
  cro_test_wait_shown (GTK_WIDGET (test->bench), "Nothing in it yet. Add a plate.");
  cro_test_must (cro_edit_add_to_menu (test->book, "plate", menu.slot, plate.slot, CRO_MICRO, NULL, &error), error);
  for (gsize w = 0; w < G_N_ELEMENTS (widths); w++)
    {
      float before;

      if (test->bench != NULL)
        gtk_window_destroy (GTK_WINDOW (test->window));
      cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, menu);
      resize (test, widths[w], 700);
      assert_shown (test, "left per guest");
      before = y_of (test, "Target %");
      cro_test_type (named (test, "Price with tax"), "60");
      assert_float_equal (y_of (test, "Target %"), before, 0);
      cro_test_escape (named (test, "Price with tax"));
    }
}

/* Nor does what makes a plate, to the last thing that is missing of it: all of it stands in one row. */
static void
test_a_new_plate_moves_nothing (void **state)
{
  static const char *const lines[] = { "200 g langoustine 48/kg", "30 g fennel bulb 4/kg", "2 g lemon zest" };
  CroTestBench *test = *state;
  CroDate today = cro_book_get_figures (test->book)->date;
  CroRef plate = CRO_REF (CRO_REF_RECIPE, CRO_NO_SLOT);
  GError *error = NULL;
  float before, line;

  cro_test_must (cro_edit_add_plate (test->book, "plate", "Langoustine and fennel", CRO_MICRO, &plate.slot, &error),
                 error);
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH, plate);
  resize (test, widths[0], 700);
  before = y_of (test, "Makes");
  for (gsize i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autofree char *left = NULL;
      guint n;

      cro_test_must (cro_quick_place (test->book, "line", plate.slot, CRO_NO_SLOT, lines[i], cro_words_entry (),
                                      "Market", today, CRO_QUICK_MAKE_PRICED | CRO_QUICK_MAKE_ALL, &left, &n, NULL,
                                      &error),
                     error);
      assert_int_equal (n, 1);
      assert_float_equal (y_of (test, "Makes"), before, 0);
    }
  line = y_of (test, "Next line");
  cro_test_must (cro_edit_set_selling_price (test->book, "price", plate, today, 34 * CRO_MICRO, &error), error);
  assert_float_equal (y_of (test, "Makes"), before, 0);
  /* Its row waits until the plate is opened again. */
  assert_float_equal (y_of (test, "Next line"), line, 0);
  cro_bench_put (test->bench, plate.slot);
  assert_true (gtk_widget_get_mapped (named (test, "Price with tax")));
  undo (test);
  cro_test_settle ();
  assert_true (gtk_widget_get_mapped (named (test, "Price with tax")));
}

/* Nor does the first line of a plate, or of a preparation, with which there is a picture of it: what is beside it is as
 * wide. */
static void
test_a_first_line_moves_no_split (void **state)
{
  static const char line[] = "Next line", nothing[] = "Nothing in it yet. Type a line.";
  CroTestBench *test = *state;
  CroRef things[] = { CRO_REF (CRO_REF_RECIPE, CRO_NO_SLOT), CRO_REF (CRO_REF_RECIPE, CRO_NO_SLOT) };
  GError *error = NULL;

  cro_test_must (cro_edit_add_plate (test->book, "plate", "Leek tart", CRO_MICRO, &things[0].slot, &error), error);
  cro_test_must (cro_edit_add_preparation (test->book, "preparation", "Leek purée", 0, CRO_UNIT_G, &things[1].slot,
                                           NULL, &error), error);
  for (gsize i = 0; i < G_N_ELEMENTS (things); i++)
    {
      int width;

      if (test->bench != NULL)
        gtk_window_destroy (GTK_WINDOW (test->window));
      cro_test_bench_show (test, i == 0 ? CRO_TYPE_PLATE_BENCH : CRO_TYPE_PREPARATION_BENCH, things[i]);
      resize (test, widths[0], 700);
      cro_test_see (test->window);
      width = gtk_widget_get_width (named (test, line));
      assert_shown (test, nothing);
      enter (test, line, "200 g leek");
      cro_test_wait_until (cro_test_find_shown (GTK_WIDGET (test->bench), nothing) == NULL,
                           "nothing is drawn of a line");
      cro_test_see (test->window);
      assert_int_equal (gtk_widget_get_width (named (test, line)), width);
    }
}

/* The focus goes to a picture that stands beside the lines, or another one takes its place, which in a trial would
 * leave the rows more room above. */
static void
test_a_picture_moves_no_line (void **state)
{
  static const CroPictureId pictures[] = { CRO_PICTURE_MADE_OF, CRO_PICTURE_MOVERS, CRO_PICTURE_MADE_OF };
  const char *name = "amount of Rice-flour cup per batch";
  CroTestBench *test = *state;
  float before;

  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH, cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade"));
  cro_plate_bench_set_trial (CRO_PLATE_BENCH (test->bench));
  resize (test, widths[0], 500);
  gtk_widget_grab_focus (named (test, name));
  before = y_of (test, name);
  for (gsize i = 0; i < G_N_ELEMENTS (pictures); i++)
    {
      open_picture (test, pictures[i]);
      assert_float_equal (y_of (test, name), before, 0);
    }
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_line_more_or_less_moves_no_field),
    CASE (test_the_end_of_a_page_moves_no_foot),
    CASE (test_covers_move_nothing),
    CASE (test_choices_move_nothing),
    CASE (test_a_first_price_moves_nothing),
    CASE (test_a_new_plate_moves_nothing),
    CASE (test_a_first_line_moves_no_split),
    CASE (test_a_picture_moves_no_line),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
