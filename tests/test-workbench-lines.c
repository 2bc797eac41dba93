/* The lines of a plate and of a preparation: amounts with their units, a bite of them, what a row
 * says and opens, and where the focus is after each thing done. */
#include "support/bench-lines.h"

#include "cro-line-row.h"
#include "cro-lines-view.h"
#include "cro-preparation-bench.h"

/* --- Amounts ---------------------------------------------------------------------------------- */

static const struct
{
  const char *says, *field, *typed, *amount, *unit, *shown, *bite;
} kept[] = {
  { "a number keeps the unit", "amount of Trout roe per batch", "60", "60000000", "g", "60 g",
    "2.5 g" },
  { "a unit takes its place", "amount of Trout roe per batch", "0.06 kg", "60000", "kg",
    "0.06 kg", "2.5 g" },
  { "a bite sets the batch", "amount of Trout roe per bite", "3", "72000000", "g", "72 g", "3 g" },
  { "a bite leaves the line's unit", "amount of Trout roe per bite", "0.003 kg", "72000000", "g",
    "72 g", "3 g" },
};

static void
test_amounts_are_kept_with_their_unit (void **state)
{
  CroTestBench *test = *state;
  guint32 line = line_of (test, "Trout roe");
  gint64 id = model_of (test)->line_ids[line];

  for (gsize i = 0; i < G_N_ELEMENTS (kept); i++)
    {
      GtkWidget *entry = named (test, kept[i].field);
      g_autofree char *amount = NULL, *unit = NULL, *act = NULL;

      cro_test_type (entry, kept[i].typed);
      cro_test_enter (entry);
      amount = cro_test_stored (test, "recipe_line", id, "amount_micro");
      unit = cro_test_stored (test, "recipe_line", id, "unit");
      act = dup_last_act (test);
      if (strcmp (amount, kept[i].amount) != 0 || strcmp (unit, kept[i].unit) != 0
          || strcmp (text_of (named (test, "amount of Trout roe per batch")), kept[i].shown) != 0
          || strcmp (text_of (named (test, "amount of Trout roe per bite")), kept[i].bite) != 0
          || strcmp (act, "amount of Trout roe") != 0)
        fail_msg ("%s: %s %s, %s", kept[i].says, amount, unit, act);
      /* One act. */
      undo (test);
      assert_string_equal (text_of (named (test, "amount of Trout roe per batch")), "48 g");
    }
}

static void
test_typing_a_bite_previews_the_batch (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *bite = named (test, "amount of Trout roe per bite");
  double before = guest_of (test);
  g_autofree char *last = dup_last_act (test), *now = NULL;

  cro_test_type (bite, "4");
  assert_string_equal (text_of (named (test, "amount of Trout roe per batch")), "96 g");
  assert_string_equal (text_of (bite), "4");
  assert_true (guest_of (test) > before);
  cro_test_type (bite, "2 each");
  cro_test_type (bite, "4 g");
  assert_string_equal (text_of (bite), "4 g");
  cro_test_escape (bite);
  assert_string_equal (text_of (bite), "2 g");
  assert_string_equal (text_of (named (test, "amount of Trout roe per batch")), "48 g");
  assert_true (guest_of (test) == before);
  now = dup_last_act (test);
  assert_true (g_strcmp0 (now, last) == 0);
}

static void
test_a_wrong_unit_is_told_the_right_ones (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "amount of Trout roe per batch");
  GtkWidget *reason;
  double before = guest_of (test);

  cro_test_type (entry, "3 dollops");
  reason = cro_test_find_shown (GTK_WIDGET (test->bench),
                                "“dollops” is not a unit. Type one such as g, kg, oz, lb, ml, cl, l, pc, "
                                "dozen.");
  assert_non_null (reason);
  assert_string_equal (text_of (entry), "3 dollops");
  assert_true (guest_of (test) == before);
  cro_test_escape (entry);
  assert_string_equal (text_of (entry), "48 g");
}

/* --- What a row says and opens ---------------------------------------------------------------- */

static void
open_details (CroTestBench *test,
              const char   *name)
{
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (named (test, name)), TRUE);
  cro_test_settle ();
}

static void
test_a_caption_says_what_differs (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *row = gtk_widget_get_ancestor (named (test, "amount of Dill per batch"),
                                            CRO_TYPE_LINE_ROW);
  GtkWidget *back, *note;

  assert_non_null (cro_test_find_shown (row, "yield 60\u00a0%"));
  open_details (test, "details of Dill");
  back = named (test, "part of Dill that comes back");
  cro_test_type (back, "20");
  cro_test_enter (back);
  note = named (test, "note on Dill");
  cro_test_type (note, "fronds only");
  cro_test_enter (note);
  assert_non_null (cro_test_find_shown (row, "yield 60\u00a0% · 20\u00a0% comes back · fronds only"));
  /* As bought there is no yield, not the line's own either. */
  cro_test_type (named (test, "yield of Dill"), "loss 30 %");
  cro_test_enter (named (test, "yield of Dill"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (named (test, "weighing of Dill")), 0);
  cro_test_settle ();
  assert_non_null (cro_test_find_shown (row, "as bought · 20\u00a0% comes back · fronds only"));
  undo (test);
  assert_non_null (cro_test_find_shown (row, "yield 70\u00a0% · 20\u00a0% comes back · fronds only"));
}

/* What is made has no trim, so nobody is asked how it is weighed. */
static void
test_only_what_has_a_trim_is_weighed_two_ways (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *row = gtk_widget_get_ancestor (named (test, "amount of Brown crab cream per batch"),
                                            CRO_TYPE_LINE_ROW);

  open_details (test, "details of Brown crab cream");
  assert_null (cro_test_find_shown (row, "Weighed"));
  row = gtk_widget_get_ancestor (named (test, "amount of Dill per batch"), CRO_TYPE_LINE_ROW);
  open_details (test, "details of Dill");
  assert_non_null (cro_test_find_shown (row, "Weighed"));
}

/* --- Focus ------------------------------------------------------------------------------------ */

static void
test_the_focus_stays_with_a_line_that_moves (void **state)
{
  CroTestBench *test = *state;
  guint32 line = line_of (test, "Trout roe");
  int place = place_of (test, line);

  gtk_widget_grab_focus (named (test, "amount of Trout roe per bite"));
  act_on (test, line, "line.move-up");
  assert_int_equal (place_of (test, line), place - 1);
  assert_focused (test, "amount of Trout roe per bite");
  undo (test);
  assert_int_equal (place_of (test, line), place);
  assert_focused (test, "amount of Trout roe per bite");
}

static void
test_a_copy_has_the_focus (void **state)
{
  CroTestBench *test = *state;
  guint32 line = line_of (test, "Trout roe");
  GtkWidget *focus;

  gtk_widget_grab_focus (named (test, "amount of Trout roe per bite"));
  act_on (test, line, "line.duplicate");
  focus = gtk_window_get_focus (GTK_WINDOW (test->window));
  assert_int_equal (place_of (test, cro_line_row_get_line (CRO_LINE_ROW (
                                        gtk_widget_get_ancestor (focus, CRO_TYPE_LINE_ROW)))),
                    place_of (test, line) + 1);
  /* With the copy gone it falls to no amount of another line. */
  undo (test);
  assert_focused (test, "Next line");
}

static void
test_the_focus_goes_to_the_next_line_when_one_is_removed (void **state)
{
  CroTestBench *test = *state;
  guint32 line = line_of (test, "Samphire");

  gtk_widget_grab_focus (named (test, "amount of Samphire per bite"));
  act_on (test, line, "line.remove");
  assert_int_equal (place_of (test, line), -1);
  assert_focused (test, "amount of Sea purslane per bite");
  undo (test);
  assert_true (place_of (test, line_of (test, "Samphire")) > 0);
  assert_focused (test, "amount of Sea purslane per bite");
}

static void
test_what_is_typed_stays_while_its_line_moves (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "amount of Trout roe per batch");
  GError *error = NULL;
  g_autoptr (CroBook) other = cro_book_open (test->folder.path, "other", CRO_STORE_WRITE,
                                             cro_book_get_figures (test->book)->date, &error);

  cro_test_must (other != NULL, error);
  cro_test_type (entry, "52");
  cro_test_must (cro_edit_move_line (other, "place", line_of (test, "Trout roe"), CRO_NO_SLOT,
                                     &error), error);
  cro_test_must (cro_book_refresh (test->book, NULL, &error), error);
  cro_test_settle ();
  assert_int_equal (place_of (test, line_of (test, "Trout roe")), 0);
  assert_string_equal (text_of (entry), "52");
  assert_focused (test, "amount of Trout roe per batch");
  cro_test_escape (entry);
}

/* Told, and what is typed on is no amount of the line that takes its place. */
static void
test_what_is_typed_into_a_line_that_goes_is_told (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry = named (test, "amount of Trout roe per batch");
  GError *error = NULL;
  g_autoptr (CroBook) other = cro_book_open (test->folder.path, "other", CRO_STORE_WRITE,
                                             cro_book_get_figures (test->book)->date, &error);

  cro_test_must (other != NULL, error);
  gtk_widget_grab_focus (entry);
  cro_test_type (entry, "1,5");
  cro_test_must (cro_edit_remove (other, "removal", CRO_REF (CRO_REF_LINE, line_of (test, "Trout roe")), &error),
                 error);
  cro_test_must (cro_book_refresh (test->book, NULL, &error), error);
  cro_test_settle ();
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Trout roe"));
  assert_string_equal (test->said->str,
                       "“1,5” was not entered for “amount of Trout roe”: this row was removed meanwhile.\n");
  assert_focused (test, "Next line");
  assert_string_equal (text_of (named (test, "Next line")), "");
}

/* --- Width ------------------------------------------------------------------------------------ */

static void
test_an_amount_fits_its_field (void **state)
{
  GtkEditable *field = GTK_EDITABLE (named (*state, "amount of Trout roe per batch"));
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (field));
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (text, NULL);
  int width;

  cro_test_type (GTK_WIDGET (field), "2000 ml");
  cro_test_escape (GTK_WIDGET (field));
  cro_test_settle ();
  pango_layout_set_text (layout, gtk_editable_get_text (field), -1);
  pango_layout_get_pixel_size (layout, &width, NULL);
  if (gtk_widget_get_width (text) < width)
    fail_msg ("“%s” needs %d pixels of %d", gtk_editable_get_text (field), width, gtk_widget_get_width (text));
}

static void
test_lines_fit_beside_a_picture (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *lines = gtk_widget_get_ancestor (named (test, "Next line"), CRO_TYPE_LINES_VIEW);
  int least;

  open_details (test, "details of Dill");
  gtk_widget_measure (lines, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  if (least > 484)
    fail_msg ("the lines need %d pixels: of 520 the bench has 36 for its margins", least);
  gtk_widget_measure (GTK_WIDGET (test->bench), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL,
                      NULL);
  assert_true (least <= 520);
}

/* --- Figures ---------------------------------------------------------------------------------- */

static void
test_a_menus_target_is_said_in_words (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *bench = GTK_WIDGET (test->bench);
  CroRef tide = cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide");
  CroCell cell = CRO_CELL_INT (29000000);
  GError *error = NULL;

  assert_non_null (cro_test_find_shown (bench, "Tide, target 30.0\u00a0% at a price of ≥\u00a092.96"));
  assert_non_null (cro_test_find_shown (bench, "at most 0.55 under target"));
  assert_null (cro_test_find_shown (bench, "–"));
  cro_test_must (cro_book_set (test->book, "target", "menu",
                               cro_model_menu (model_of (test), tide.slot)->id, "target_pct_micro",
                               &cell, &error), error);
  cro_test_settle ();
  /* Tide costs 25.35 of 95 / 1.1 = 86.36, of which 29 % are 25.05. */
  assert_non_null (cro_test_find_shown (bench, "at least 0.31 over target"));
}

/* Ctrl+I where nothing nearer has a sum: the figure that the field goes into. */
static void
test_a_field_opens_the_figure_it_goes_into (void **state)
{
  static const struct { const char *field, *says; } cases[] = {
    { "Seasoning and handling %", "bites" },
    { "Target %", "food" },
  };
  CroTestBench *test = *state;
  GtkWidget *bench = GTK_WIDGET (test->bench);

  gtk_toggle_button_set_active (
      GTK_TOGGLE_BUTTON (gtk_widget_get_ancestor (cro_test_find_shown (bench, "More"),
                                                  GTK_TYPE_TOGGLE_BUTTON)), TRUE);
  cro_test_settle ();
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GtkWidget *field = named (test, cases[i].field);

      gtk_widget_grab_focus (field);
      assert_true (gtk_widget_activate_action (field, "figure.sum", NULL));
      cro_test_settle ();
      if (cro_test_find_shown (bench, cases[i].says) == NULL)
        fail_msg ("\"%s\" opens no sum with \"%s\"", cases[i].field, cases[i].says);
    }
}

/* --- Preparations ----------------------------------------------------------------------------- */

static void
test_a_preparation_has_no_bites (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;

  cro_test_bench_show (test, CRO_TYPE_PREPARATION_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_PREPARATIONS, "Brown crab cream"));
  entry = named (test, "amount of Brown crab meat per batch");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "per bite"));
  cro_test_type (entry, "0.5 kg");
  cro_test_enter (entry);
  assert_string_equal (text_of (entry), "0.5 kg");
  /* Its last field leads to what it is made of. */
  enter (test, "Note", "Sieved twice.");
  assert_focus (test, "Next line");
}

/* --- Keys -------------------------------------------------------------------------------------- */

static void
test_a_key_on_a_line_asks_nothing (void **state)
{
  assert_keys_ask_nothing (*state, "amount of Trout roe per batch");
  assert_keys_ask_nothing (*state, "amount of Trout roe per bite");
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_plate, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_amounts_are_kept_with_their_unit),
    CASE (test_typing_a_bite_previews_the_batch),
    CASE (test_a_wrong_unit_is_told_the_right_ones),
    CASE (test_a_caption_says_what_differs),
    CASE (test_only_what_has_a_trim_is_weighed_two_ways),
    CASE (test_the_focus_stays_with_a_line_that_moves),
    CASE (test_a_copy_has_the_focus),
    CASE (test_the_focus_goes_to_the_next_line_when_one_is_removed),
    CASE (test_what_is_typed_stays_while_its_line_moves),
    CASE (test_what_is_typed_into_a_line_that_goes_is_told),
    CASE (test_a_field_opens_the_figure_it_goes_into),
    CASE (test_a_key_on_a_line_asks_nothing),
    CASE (test_an_amount_fits_its_field),
    CASE (test_lines_fit_beside_a_picture),
    CASE (test_a_menus_target_is_said_in_words),
    cmocka_unit_test_setup_teardown (test_a_preparation_has_no_bites, open_book, close_book),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
