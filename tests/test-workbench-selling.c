/* Selling prices on the benches of plates and menus: each holds from a day, and moves no day before
 * it. */
#include "support/bench-hands.h"

#include "cro-focus.h"
#include "cro-breakdown.h"
#include "cro-draft.h"
#include "cro-figure-words.h"
#include "cro-menu-bench.h"
#include "cro-menu-plates-view.h"
#include "cro-plate-bench.h"
#include "cro-row-grid.h"
#include "cro-selling-steps.h"
#include "cro-words.h"

#define MICRO INT64_C (1000000)

static const char from_field[] = "First day of the price";

static void
show_plate (CroTestBench *test)
{
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Brown crab on toast"));
}

static void
show_menu (CroTestBench *test)
{
  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide"));
}

static double
net_price_on (CroTestBench *test,
              CroDate       day)
{
  CroRef ref = cro_bench_get_ref (test->bench);
  CroDate before = cro_book_get_figures (test->book)->date;
  GError *error = NULL;
  double net;

  cro_test_must (cro_book_set_date (test->book, day, &error), error);
  net = ref.kind == CRO_REF_MENU
            ? cro_figure_of_menu (cro_book_get_figures (test->book), ref.slot).net_price
            : cro_figure_of_plate (cro_book_get_figures (test->book), ref.slot).net_price;
  cro_test_must (cro_book_set_date (test->book, before, &error), error);
  cro_test_settle ();
  return net;
}

static void
assert_net_price (CroTestBench *test,
                  CroDate       day,
                  double        net)
{
  double found = net_price_on (test, day);

  if (!(fabs (found - net) < 1e-9))
    fail_msg ("net price %.9f, not %.9f", found, net);
}

static void
open_steps (CroTestBench *test)
{
  gtk_expander_set_expanded (
      GTK_EXPANDER (cro_test_find_type (GTK_WIDGET (test->bench), GTK_TYPE_EXPANDER)), TRUE);
  cro_test_settle ();
}

static const char *
text_of (CroTestBench *test,
         const char   *name)
{
  return gtk_editable_get_text (GTK_EDITABLE (named (test, name)));
}

/* The demo's crab is 15.00 with a tax of 10 %: 13.636… without. */
static void
test_a_price_entered_today_moves_no_past_day (void **state)
{
  CroTestBench *test = *state;
  CroDate today = cro_book_get_figures (test->book)->date;

  show_plate (test);
  assert_net_price (test, today, 15 / 1.1);
  cro_test_type (named (test, "Price with tax"), "22");
  assert_true (fabs (cro_figure_of_plate (cro_book_get_figures (test->book),
                                          cro_bench_get_slot (test->bench)).net_price - 20) < 1e-9);
  cro_test_enter (named (test, "Price with tax"));
  assert_net_price (test, today, 20);
  assert_net_price (test, today + 30, 20);
  assert_net_price (test, today - 1, 15 / 1.1);
  assert_shown (test, "Prices: 22.00 from 2026-11-25 · before 15.00");
  undo (test);
  assert_net_price (test, today, 15 / 1.1);
  /* Who passes on past the day that is not typed is not led back into the price, all of it selected. */
  gtk_widget_grab_focus (named (test, "First day of the price"));
  cro_test_enter (named (test, "First day of the price"));
  assert_false (cro_focus_is_in (named (test, "Price with tax")));
}

/* What was probably meant is asked over the field, and no more once that is typed. */
static void
test_a_price_that_jumped_is_asked_about (void **state)
{
  CroTestBench *test = *state;

  show_plate (test);
  enter (test, "Price with tax", "1615");
  assert_shown (test, "Is 16.15 meant?");
  press (test, "1615.00 Is Right");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Is 16.15 meant?"));
  assert_net_price (test, cro_book_get_figures (test->book)->date, 1615 / 1.1);
  /* Of another price that is not said. */
  enter (test, "Price with tax", "1616");
  assert_shown (test, "1616.00 Is Right");
  press (test, "Set 16.16");
  /* What is typed next is not put in front of it. */
  assert_focus (test, "Price with tax");
  cro_test_wait_until (gtk_editable_get_selection_bounds (GTK_EDITABLE (named (test, "Price with tax")), NULL, NULL),
                       "the price that was set is not selected");
  enter (test, "Price with tax", "16.15");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Is 16.16 meant?"));
  assert_shown (test, "Prices: 16.15 from 2026-11-25 · before 15.00");
}

/* Of a price that there was not nothing is said. */
static void
test_a_first_price_has_none_before_it (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Barley bread and cultured butter"));
  press (test, "More");
  enter (test, "Price with tax", "4 € HT");
  assert_shown (test, "“4 € HT” is without tax. Type the price with tax.");
  enter (test, "Price with tax", "4,00 € TTC");
  assert_shown (test, "Prices: 4.00 from 2026-11-25");
  undo (test);
}

/* A guest pays 95.00 for Tide: the month before keeps it, whatever is entered from a day on. */
static void
test_a_menu_is_dearer_from_a_day_that_was_typed (void **state)
{
  CroTestBench *test = *state;
  CroDate today = cro_book_get_figures (test->book)->date;
  g_autofree char *not_a_date = NULL;
  GtkWidget *line;
  int least, natural;

  show_menu (test);
  cro_test_type (named (test, from_field), "2026-11-20");
  enter (test, "Price with tax", "110");
  assert_string_equal (text_of (test, from_field), "");
  assert_net_price (test, today - 6, 95 / 1.1);
  assert_net_price (test, today - 5, 100);
  enter (test, "Tax %", "0");
  assert_net_price (test, today, 110);
  assert_net_price (test, today - 1, 100);
  assert_shown (test, "Prices: 110.00 from 2026-11-25 · 110.00 from 2026-11-20 · before 95.00");
  /* However many prices there are, the line asks for little room. */
  line = cro_test_find_shown (GTK_WIDGET (test->bench),
                              "Prices: 110.00 from 2026-11-25 · 110.00 from 2026-11-20 · before 95.00");
  gtk_widget_measure (line, GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
  assert_true (least < natural / 2);
  cro_test_type (named (test, from_field), "someday");
  enter (test, "Price with tax", "120");
  not_a_date = dup_not_a_date ();
  /* Where it can be mended, and the price is kept from there. */
  assert_focus (test, from_field);
  assert_shown (test, not_a_date);
  assert_null (cro_test_find_shown (gtk_widget_get_ancestor (named (test, "Price with tax"), CRO_TYPE_INPUT),
                                    not_a_date));
  assert_false (gtk_widget_has_css_class (named (test, "Price with tax"), "error"));
  cro_test_type (named (test, from_field), "2026-11-27");
  cro_test_enter (named (test, from_field));
  assert_net_price (test, today + 2, 120);
  assert_net_price (test, today + 1, 110);
}

/* Neither beside a price that begins today, nor for one that is typed later, does a day stay that nobody sees; and
 * what it did is said. */
static void
test_a_day_is_of_the_next_price_alone (void **state)
{
  CroTestBench *test = *state;
  CroDate today = cro_book_get_figures (test->book)->date;
  g_autoptr (GHashTable) texts = NULL;
  g_autofree char *not_a_date = dup_not_a_date ();

  show_menu (test);
  enter (test, "Price with tax", "110");
  cro_test_type (named (test, from_field), "2026-11-20");
  assert_shown (test, "next entry from 2026-11-20");
  assert_shown (test, "Prices: 110.00 from 2026-11-25 · before 95.00");
  texts = cro_draft_list (GTK_WIDGET (test->bench));
  assert_int_equal (g_hash_table_size (texts), 0);
  /* The price was kept on the way: what comes next is not meant for it. */
  cro_test_enter (named (test, from_field));
  assert_focus (test, "Tax %");
  assert_string_equal (text_of (test, from_field), "2026-11-20");
  assert_non_null (strstr (test->said->str, "Kept from 2026-11-25: price of Tide (110)"));
  /* Typed first it leads there. */
  gtk_widget_grab_focus (named (test, "Note"));
  cro_test_settle ();
  cro_test_type (named (test, from_field), "2026-11-20");
  cro_test_enter (named (test, from_field));
  assert_focus (test, "Price with tax");
  gtk_widget_grab_focus (named (test, "Note"));
  cro_test_settle ();
  assert_string_equal (text_of (test, from_field), "");
  assert_non_null (strstr (test->said->str, "Nothing was entered for 2026-11-20; nothing changed."));
  assert_shown (test, "Prices: 110.00 from 2026-11-25 · before 95.00");
  enter (test, "Price with tax", "99");
  assert_net_price (test, today - 1, 95 / 1.1);
  /* The price of today does not move with one of before. */
  cro_test_type (named (test, from_field), "2026-11-20");
  enter (test, "Price with tax", "88");
  assert_non_null (strstr (test->said->str, "Kept from 2026-11-20: price of Tide (88)"));
  assert_string_equal (text_of (test, "Price with tax"), "99.00");
  /* What is no day stays with its reason, whose field it is at. */
  cro_test_type (named (test, from_field), "someday");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), not_a_date));
  gtk_widget_grab_focus (named (test, "Note"));
  cro_test_settle ();
  assert_string_equal (text_of (test, from_field), "someday");
  /* Another thing has none of it. */
  cro_bench_put (test->bench, cro_bench_get_slot (test->bench));
  assert_string_equal (text_of (test, from_field), "");
}

static void
test_steps_are_changed_and_removed (void **state)
{
  CroTestBench *test = *state;
  CroDate today = cro_book_get_figures (test->book)->date;

  show_menu (test);
  enter (test, "Price with tax", "110");
  open_steps (test);
  enter (test, "price of Tide from 2026-11-25", "99");
  assert_net_price (test, today, 90);
  assert_string_equal (text_of (test, "Price with tax"), "99.00");
  enter (test, "tax of Tide from 2026-11-25", "0");
  assert_net_price (test, today, 99);
  enter (test, "date of Tide from 2026-11-25", "2026-11-10");
  assert_net_price (test, today - 15, 99);
  enter (test, "price of Tide before the first date", "88");
  assert_net_price (test, today - 16, 80);
  enter (test, "price of Tide from 2026-11-10", "");
  assert_true (isnan (net_price_on (test, today)));
  assert_string_equal (text_of (test, "tax of Tide from 2026-11-10"), "");
  enter (test, "tax of Tide from 2026-11-10", "5");
  assert_non_null (cro_test_find_shown (GTK_WIDGET (test->bench),
                                        "There is no price of its own from that date; enter the "
                                        "price first."));
  cro_test_escape (named (test, "tax of Tide from 2026-11-10"));
  g_signal_emit_by_name (named (test, "Remove the price from 2026-11-10"), "clicked");
  cro_test_settle ();
  assert_net_price (test, today, 80);
}

/* No day can be wrong where nothing was ever sold by itself: the tax has none either. */
static void
test_a_tax_without_a_price (void **state)
{
  CroTestBench *test = *state;
  CroRef plate = cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade");
  CroDate today = cro_book_get_figures (test->book)->date;
  GError *error = NULL;

  cro_test_must (cro_edit_set_selling_tax (test->book, "tax", plate, today, 5 * MICRO, &error), error);
  assert_int_equal (cro_model_recipe (model_of (test), plate.slot)->own_tax, 5 * MICRO);
  cro_test_must (cro_edit_set_selling_price (test->book, "price", plate, today, 6 * MICRO, &error),
                 error);
  assert_false (cro_edit_set_selling_tax (test->book, "tax", plate, today - 1, 7 * MICRO, &error));
  assert_true (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_NO_PRICE));
  g_clear_error (&error);
  assert_int_equal (cro_model_recipe (model_of (test), plate.slot)->own_tax, 5 * MICRO);
}

static void
test_a_key_on_a_selling_price_asks_nothing (void **state)
{
  CroTestBench *test = *state;

  show_menu (test);
  assert_keys_ask_nothing (test, "Price with tax");
  enter (test, "Price with tax", "110");
  assert_keys_ask_nothing (test, "Price with tax");
  assert_keys_ask_nothing (test, "Tax %");
}

/* --- Choices -------------------------------------------------------------------------------------- */

static guint32
add_plate (CroTestBench *test,
           CroRef        menu,
           const char   *plate)
{
  GError *error = NULL;
  guint32 entry;

  cro_test_must (cro_edit_add_to_menu (test->book, "p", menu.slot,
                                       cro_test_find_ref (test, CRO_NAMES_THINGS, plate).slot, MICRO,
                                       &entry, &error),
                 error);
  cro_test_settle ();
  return entry;
}

static gint64
share_of (CroTestBench *test,
          guint32       entry)
{
  return g_array_index (model_of (test)->menu_plates, CroMenuPlate, entry).share;
}

/* Row by row, as they are read: the share of the first waits for the second plate, and what is
 * changed later for the other's. */
static void
test_a_choice_is_typed_row_by_row (void **state)
{
  CroTestBench *test = *state;
  CroRef menu = { .kind = CRO_REF_MENU };
  GError *error = NULL;
  g_autofree char *before = NULL, *typed = NULL;
  guint32 crab, hake;
  graphene_rect_t place, place_then;

  cro_test_must (cro_edit_add_menu (test->book, "m", "Neap tide", &menu.slot, &error), error);
  crab = add_plate (test, menu, "Crab croustade");
  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, menu);
  /* While it is typed nothing comes between the field and what stands over it. */
  cro_test_type (named (test, "choice of Crab croustade"), "m");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "a choice of 1:"));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "guests %"));
  cro_test_escape (named (test, "choice of Crab croustade"));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "a choice of 1:"));
  /* Nor once it is kept: the row of the next plate is where it was. */
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (named (test, "choice of Crab croustade"), test->window, &place));
  enter (test, "choice of Crab croustade", "main");
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (named (test, "choice of Crab croustade"), test->window, &place_then));
  assert_float_equal (place_then.origin.y, place.origin.y, 0);
  enter (test, "share of guests, % of Crab croustade", "60");
  assert_shown (test, "a choice of 1:");
  assert_shown (test, "Choice “main”: 40\u00a0% still open. Figures change once its shares come to 100\u00a0%.");
  /* Over the plates of the choice, where a long menu has it in sight. */
  assert_non_null (gtk_widget_get_ancestor (cro_test_find_containing (GTK_WIDGET (test->bench), "40\u00a0% still open"),
                                            CRO_TYPE_ROW_GRID));
  assert_string_equal (text_of (test, "share of guests, % of Crab croustade"), "60");
  assert_true (share_of (test, crab) == CRO_NO_SHARE);
  hake = add_plate (test, menu, "Hake, potatoes and mussels");
  assert_shown (test, "Choice “main”: 40\u00a0% still open. Figures change once its shares come to 100\u00a0%.");
  enter (test, "choice of Hake, potatoes and mussels", "main");
  assert_true (share_of (test, crab) == 60 * MICRO && share_of (test, hake) == CRO_NO_SHARE);
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "still open"));
  before = cro_test_figures (test->book);
  cro_test_type (named (test, "share of guests, % of Crab croustade"), "120");
  typed = cro_test_figures (test->book);
  cro_test_same ("shares that are no whole", before, typed);
  cro_test_escape (named (test, "share of guests, % of Crab croustade"));
  enter (test, "share of guests, % of Hake, potatoes and mussels", "40");
  assert_true (share_of (test, hake) == 40 * MICRO);
  enter (test, "share of guests, % of Crab croustade", "75");
  assert_shown (test, "Choice “main”: 15\u00a0% too much. Figures change once its shares come to 100\u00a0%.");
  assert_true (share_of (test, crab) == 60 * MICRO);
  enter (test, "share of guests, % of Hake, potatoes and mussels", "25");
  assert_true (share_of (test, crab) == 75 * MICRO && share_of (test, hake) == 25 * MICRO);
  undo (test);
  assert_true (share_of (test, crab) == 60 * MICRO && share_of (test, hake) == 40 * MICRO);
  assert_string_equal (text_of (test, "share of guests, % of Crab croustade"), "60");
}

/* On a plate, how often it is taken does not run into what the menu comes to. */
static void
test_a_choice_is_told_apart_from_its_menu (void **state)
{
  CroTestBench *test = *state;
  CroRef menu = { .kind = CRO_REF_MENU };
  const CroCell main_course = CRO_CELL_STR ("main");
  GError *error = NULL;
  guint32 crab;

  cro_test_must (cro_edit_add_menu (test->book, "m", "Neap tide", &menu.slot, &error), error);
  crab = add_plate (test, menu, "Crab croustade");
  cro_test_must (cro_edit_set_choice (test->book, "c", crab, &main_course, &error), error);
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH, cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade"));
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "taken by 100.0\u00a0%: "));
}

static const char *
choice_of (CroTestBench *test,
           guint32       entry)
{
  return g_array_index (model_of (test)->menu_plates, CroMenuPlate, entry).choice;
}

static void
act (CroTestBench *test,
     const char   *action,
     guint32       entry)
{
  GtkWidget *view = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_MENU_PLATES_VIEW);

  assert_true (gtk_widget_activate_action (view, action, "u", entry));
  cro_test_settle ();
}

/* Of a menu with a course over each plate; a choice is made, named, renamed and dissolved as a whole,
 * each one act that keeps what guests take. */
static void
test_a_choice_is_made_named_and_dissolved (void **state)
{
  CroTestBench *test = *state;
  CroRef menu = { .kind = CRO_REF_MENU };
  GError *error = NULL;
  guint32 mullet, hake, lamb;

  cro_test_must (cro_edit_add_menu (test->book, "m", "Neap tide", &menu.slot, &error), error);
  mullet = add_plate (test, menu, "Grey mullet, beurre blanc and samphire");
  hake = add_plate (test, menu, "Hake, potatoes and mussels");
  lamb = add_plate (test, menu, "Salt-marsh lamb, celeriac and sea beet");
  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, menu);
  assert_shown (test, "Fish");
  assert_shown (test, "Meat");
  act (test, "entry.choose", mullet);
  assert_shown (test, "one of 2:");
  assert_shown (test, "taken equally");
  assert_string_equal (choice_of (test, mullet), "fish");
  assert_ptr_equal (choice_of (test, mullet), choice_of (test, hake));
  assert_null (choice_of (test, lamb));
  enter (test, "share of guests, % of Hake, potatoes and mussels", "30");
  assert_shown (test, "70\u00a0% left for 1 other");
  enter (test, "name of the choice", "main");
  assert_string_equal (choice_of (test, hake), "main");
  assert_true (share_of (test, hake) == 30 * MICRO);
  act (test, "entry.choose", hake);
  assert_string_equal (choice_of (test, lamb), "main");
  assert_shown (test, "one of 3:");
  undo (test);
  act (test, "entry.move-up", hake);
  assert_shown (test, "one of 2:");
  act (test, "entry.dissolve", hake);
  assert_null (choice_of (test, mullet));
  assert_null (choice_of (test, hake));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "one of 2:"));
  undo (test);
  assert_string_equal (choice_of (test, mullet), "main");
  enter (test, "name of the choice", "");
  assert_null (choice_of (test, mullet));
  assert_null (choice_of (test, hake));
}

/* Neither a cost of 0 nor a price for a target that is not set. */
static void
test_a_menu_without_plates_costs_nothing_yet (void **state)
{
  CroTestBench *test = *state;
  CroRef menu = { .kind = CRO_REF_MENU };
  g_autofree char *listed = NULL;
  GError *error = NULL;

  cro_test_must (cro_edit_add_menu (test->book, "m", "Neap tide", &menu.slot, &error), error);
  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, menu);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "0.00"));
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Nothing is missing"));
  assert_shown (test, "No plates yet.");
  listed = cro_words_list_figure (cro_book_get_figures (test->book), CRO_KIND_MENU, menu.slot);
  assert_string_equal (listed, "–");
}

/* guest / target · (1 + tax), rounded up: the price is the way round of the percentage. */
static void
test_a_plate_says_the_price_that_meets_its_target (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *price = NULL, *note = NULL;
  CroFigure figure;

  show_plate (test);
  figure = cro_figure_of_plate (cro_book_get_figures (test->book), cro_bench_get_slot (test->bench));
  price = g_strdup_printf ("%.2f", ceil (figure.cost / figure.target_pct * 100 * 1.1 * 100 - 1e-9) / 100);
  note = isnan (figure.net_price)
             ? g_strdup_printf ("? set price · on target at %s", price)
             : g_strdup_printf ("food cost, target %.1f\u00a0%% at a price of %s", figure.target_pct, price);
  assert_shown (test, note);
}

/* Of a choice of one plate both ends are the same figure. */
static void
test_ends_that_are_alike_are_one_figure (void **state)
{
  CroTestBench *test = *state;
  CroRef menu = { .kind = CRO_REF_MENU };
  g_autofree char *cost = NULL, *range = NULL;
  GError *error = NULL;
  CroFigure figure;

  cro_test_must (cro_edit_add_menu (test->book, "m", "Neap tide", &menu.slot, &error), error);
  add_plate (test, menu, "Hake, potatoes and mussels");
  cro_test_bench_show (test, CRO_TYPE_MENU_BENCH, menu);
  enter (test, "choice of Hake, potatoes and mussels", "main");
  figure = cro_figure_of_menu (cro_book_get_figures (test->book), menu.slot);
  cost = cro_words_money (model_of (test), figure.cost);
  range = cro_words_range (model_of (test), &figure);
  assert_string_equal (range, cost);
}

/* A price with a tax that nobody has set: said at the figure, and its field stands there to be filled. */
static void
test_a_tax_that_is_not_set_is_said (void **state)
{
  CroTestBench *test = *state;
  CroCell none = CRO_CELL_NONE;
  GError *error = NULL;

  show_plate (test);
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "tax not set"));
  cro_test_must (cro_book_set (test->book, "tax", "book", 1, "tax_pct_micro", &none, &error), error);
  cro_test_settle ();
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "food cost, target 30.0\u00a0%, tax not set"));
  assert_true (gtk_widget_get_mapped (named (test, "Tax %")));
  enter (test, "Tax %", "0");
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "tax not set"));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_price_entered_today_moves_no_past_day),
    CASE (test_a_first_price_has_none_before_it),
    CASE (test_a_menu_is_dearer_from_a_day_that_was_typed),
    CASE (test_a_price_that_jumped_is_asked_about),
    CASE (test_a_day_is_of_the_next_price_alone),
    CASE (test_steps_are_changed_and_removed),
    CASE (test_a_tax_without_a_price),
    CASE (test_a_choice_is_typed_row_by_row),
    CASE (test_a_choice_is_told_apart_from_its_menu),
    CASE (test_a_choice_is_made_named_and_dissolved),
    CASE (test_ends_that_are_alike_are_one_figure),
    CASE (test_a_menu_without_plates_costs_nothing_yet),
    CASE (test_a_plate_says_the_price_that_meets_its_target),
    CASE (test_a_tax_that_is_not_set_is_said),
    CASE (test_a_key_on_a_selling_price_asks_nothing),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
