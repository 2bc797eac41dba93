/* The lines of a plate and of a preparation: amounts with their units, a bite of them, what a row
 * says and opens, and where the focus is after each thing done. */
#include "support/bench-lines.h"

#include "cro-last-price.h"
#include "cro-words.h"

#include "cro-breakdown.h"
#include "cro-ingredient-bench.h"
#include "cro-input.h"
#include "cro-line-row.h"
#include "cro-lines-view.h"
#include "cro-plate-bench.h"
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

/* --- Cents ------------------------------------------------------------------------------------- */

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
    CASE (test_a_cost_opens_as_its_sum),
    CASE (test_a_missing_cost_leads_to_its_cure),
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
    CASE (test_lines_add_up_to_the_total_shown),
    cmocka_unit_test_setup_teardown (test_a_cost_over_something_missing_is_a_bound, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_a_preparation_has_no_bites, open_book, close_book),
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
