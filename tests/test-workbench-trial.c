/* A trial of a plate or a menu on the screen: both rows of figures, what is tried, kept, dropped. */
#include "support/bench-hands.h"

#include <string.h>

#include "cro-breakdown.h"
#include "cro-trial-bench.h"
#include "cro-trials.h"

static gint64
show_trial (CroTestBench *test,
            const char   *name)
{
  CroRef ref = cro_test_find_ref (test, CRO_NAMES_THINGS, name);
  const char *table;
  gint64 thing = cro_edit_row (model_of (test), ref, &table);
  GError *error = NULL;

  cro_test_must (cro_book_set_date (test->book, cro_date_from_civil (2026, 11, 28), &error), error);
  cro_trials_set (test->book, thing, 1, "[]");
  cro_trials_set_front (test->book, thing, 1);
  cro_test_bench_show (test, ref.kind == CRO_REF_MENU ? CRO_TYPE_MENU_TRIAL : CRO_TYPE_PLATE_TRIAL, ref);
  resize (test, 1340, 700);
  return thing;
}

static CroFigure
figure_of (CroTestBench *test,
           const char   *name)
{
  return cro_figure_of_plate (cro_book_get_figures (test->book),
                              cro_test_find_ref (test, CRO_NAMES_THINGS, name).slot);
}

/* What a label says that says that too; NULL: none does. */
static const char *
find_saying (GtkWidget  *widget,
             const char *part)
{
  const char *found = gtk_widget_get_mapped (widget) && GTK_IS_LABEL (widget)
                              && strstr (gtk_label_get_label (GTK_LABEL (widget)), part) != NULL
                          ? gtk_label_get_label (GTK_LABEL (widget))
                          : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_saying (child, part);
  return found;
}

/* Both figures in sight; no key on a line asks the store. */
static void
test_a_trial_stands_under_the_book (void **state)
{
  CroTestBench *test = *state;
  gint64 thing = show_trial (test, "Crab croustade");
  g_autofree char *text = NULL;

  assert_keys_ask_nothing (test, "amount of Dressed white crab per batch");
  enter (test, "amount of Dressed white crab per batch", "288");
  assert_shown (test, "at least 0.93");
  assert_shown (test, "at least 0.84");
  text = cro_trials_dup (test->book, thing, 1);
  assert_non_null (strstr (text, "288000000"));

  open_picture (test, CRO_PICTURE_MOVERS);
  assert_keys_ask_nothing (test, "price of Brown crab");
  enter (test, "price of Brown crab", "15.80");
  assert_shown (test, "at least 1.03");
  assert_shown (test, "at least 0.84");
}

/* As market sheets state a price, and as what changed: the field shows that of a kilogram. */
static void
test_a_price_is_tried_as_it_is_stated (void **state)
{
  static const struct { const char *typed, *kept; } prices[] = {
    { "79 per pack", "15.80" }, { "€15.50/kg", "15.50" }, { "31/2 kg ex VAT", "15.50" }, { "+10 %", "17.05" },
    { "-1.05", "16.00" },       { "75 € le colis", "15.00" },
  };
  static const struct { const char *typed, *says; } refused[] = {
    { "16/kg incl. VAT", "“16/kg incl. VAT” includes tax. Type the price without tax." },
    { "£80 per pack", "“£80 per pack” is in another currency. Type the price in EUR." },
    { "16/box of crab", "“16/box of crab” is not a price such as 9.20/kg." },
  };
  CroTestBench *test = *state;
  GtkWidget *price;

  show_trial (test, "Crab croustade");
  open_picture (test, CRO_PICTURE_MOVERS);
  price = named (test, "price of Brown crab");
  for (gsize i = 0; i < G_N_ELEMENTS (prices); i++)
    {
      enter (test, "price of Brown crab", prices[i].typed);
      assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (price)), prices[i].kept);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      enter (test, "price of Brown crab", refused[i].typed);
      assert_shown (test, refused[i].says);
      cro_test_escape (price);
    }
}

/* What was tried is one act, and there is no trial any more. */
static void
test_a_trial_is_kept_in_one_act (void **state)
{
  CroTestBench *test = *state;
  gint64 thing = show_trial (test, "Crab croustade");
  double before = figure_of (test, "Crab croustade").cost;
  g_autofree char *gone = NULL;

  enter (test, "amount of Dressed white crab per batch", "288");
  enter (test, "amount of Trout roe per batch", "40");
  assert_true (figure_of (test, "Crab croustade").cost == before);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "trial.keep", "i",
                                           (int) cro_book_get_figures (test->book)->date));
  assert_true (figure_of (test, "Crab croustade").cost > before);
  gone = cro_trials_dup (test->book, thing, 1);
  assert_null (gone);
  undo (test);
  assert_true (figure_of (test, "Crab croustade").cost == before);
}

/* Nothing gives a trial back: where something is tried it is asked for first. */
static void
test_a_trial_asks_before_it_is_dropped (void **state)
{
  CroTestBench *test = *state;
  gint64 thing = show_trial (test, "Crab croustade");
  g_autofree char *there = NULL, *gone = NULL;

  enter (test, "amount of Dressed white crab per batch", "288");
  press (test, "Drop");
  assert_shown (test, "1 change is lost.");
  there = cro_trials_dup (test->book, thing, 1);
  assert_non_null (strstr (there, "288000000"));
  press (test, "Drop Trial");
  gone = cro_trials_dup (test->book, thing, 1);
  assert_null (gone);
}

static void
test_a_past_day_says_what_it_means (void **state)
{
  static const char *const says
      = "This day is past. A price that begins later still holds from its own date.";
  CroTestBench *test = *state;

  show_trial (test, "Crab croustade");
  open_picture (test, CRO_PICTURE_MOVERS);
  enter (test, "price of Brown crab", "15.80");
  press (test, "Keep…");
  cro_test_type (named (test, "First day of the prices"), "2999-01-01");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), says));
  cro_test_type (named (test, "First day of the prices"), "2020-01-01");
  assert_shown (test, says);
  press (test, "Keep");
}

/* Somebody removes the line that it is about, and gives it back. */
static void
test_what_cannot_be_tried_stays_written_down (void **state)
{
  static const char *const says
      = "1 change waits, as it no longer fits the book: Dressed white crab in Crab croustade";
  CroTestBench *test = *state;
  gint64 thing = show_trial (test, "Crab croustade");
  CroFigures *figures = cro_book_get_figures (test->book);
  g_autoptr (GArray) lines = NULL;
  g_autofree char *there = NULL;
  GError *error = NULL;

  enter (test, "amount of Dressed white crab per batch", "288");
  lines = cro_edit_list_lines (figures, cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade").slot);
  cro_test_must (cro_edit_remove (test->book, "gone", CRO_REF (CRO_REF_LINE, g_array_index (lines, guint32, 1)),
                                  &error), error);
  cro_test_settle ();
  assert_shown (test, says);
  there = cro_trials_dup (test->book, thing, 1);
  assert_non_null (strstr (there, "288000000"));
  undo (test);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), says));
  assert_shown (test, "at least 0.93");
}

/* A window of 1024 by 700 leaves the bench so much. */
static void
test_four_lines_are_in_sight (void **state)
{
  static const char *const items[] = {
    "Rice-flour cup", "Dressed white crab", "Brown crab cream", "Cucumber-juniper gel",
  };
  CroTestBench *test = *state;

  show_trial (test, "Crab croustade");
  resize (test, 640, 585);
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_autofree char *name = g_strdup_printf ("amount of %s per batch", items[i]);
      graphene_rect_t at;

      assert_true (gtk_widget_compute_bounds (named (test, name), test->window, &at));
      if (at.origin.y + at.size.height > (float) gtk_widget_get_height (test->window))
        fail_msg ("%s ends at %.0f of %d", items[i], at.origin.y + at.size.height,
                  gtk_widget_get_height (test->window));
    }
}

/* A question about a slip is not hidden by what the trial changed. */
static void
test_a_question_stands_before_what_was (void **state)
{
  CroTestBench *test = *state;
  const char *says;

  show_trial (test, "Crab croustade");
  enter (test, "Seasoning and handling %", "0.03");
  says = find_saying (GTK_WIDGET (test->bench), "meant? · was ");
  assert_non_null (says);
}

/* What the book has is told over the field, which has a sign; the rows below stay where they are. */
static void
test_what_was_moves_nothing (void **state)
{
  static const char amount[] = "amount of Dressed white crab per batch";
  CroTestBench *test = *state;
  graphene_rect_t before, after;
  GtkWidget *below;

  show_trial (test, "Crab croustade");
  below = named (test, "amount of Trout roe per batch");
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (below, test->window, &before));
  enter (test, amount, "288");
  assert_shown (test, "\342\211\240");
  gtk_widget_grab_focus (named (test, amount));
  cro_test_see (test->window);
  assert_shown (test, "was 240 g");
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (below, test->window, &after));
  assert_float_equal (after.origin.y, before.origin.y, 0);
}

/* --- A menu ----------------------------------------------------------------------------------- */

static void
wait_saying (CroTestBench *test,
             const char   *part)
{
  cro_test_wait_until (find_saying (GTK_WIDGET (test->bench), part) != NULL, "nothing says %s", part);
}

static void
kept_cb (GtkWidget   *bench,
         const char  *text,
         char       **kept)
{
  g_free (*kept);
  *kept = g_strdup (text);
}

/* From a later day only prices wait: what else is tried is said to hold at once, before and after. */
static void
test_a_later_day_is_of_prices_alone (void **state)
{
  CroTestBench *test = *state;
  CroDate later = cro_book_get_figures (test->book)->date + 14;
  g_autofree char *kept = NULL, *day = cro_date_to_text (later);

  show_trial (test, "Crab croustade");
  g_signal_connect (test->bench, "kept", G_CALLBACK (kept_cb), &kept);
  enter (test, "amount of Trout roe per batch", "40");
  open_picture (test, CRO_PICTURE_MOVERS);
  enter (test, "price of Brown crab", "15.80");
  press (test, "Keep…");
  wait_saying (test, "Changes at once, whatever the day: Trout roe");
  cro_test_type (named (test, "First day of the prices"), day);
  cro_test_enter (named (test, "First day of the prices"));
  assert_non_null (kept);
  assert_true (g_str_has_prefix (kept, "Kept. From "));
  assert_non_null (strstr (kept, "Changed at once: Trout roe"));
  assert_true (strstr (kept, "Brown crab") < strstr (kept, "Changed at once"));
}

static void
open_plate (CroTestBench *test,
            const char   *name)
{
  g_autofree char *servings = g_strdup_printf ("servings of %s", name);

  gtk_widget_grab_focus (named (test, servings));
  assert_true (gtk_widget_activate_action (named (test, servings), "item.open", NULL));
  cro_test_settle ();
}

/* 90.00 with 10 % tax are 81.82 net, of which 25.35 are food; 48 g of crab more for 24 are 0.09 a bite,
 * of which the menu's guest has one. */
static void
test_a_menu_and_its_plates_are_tried (void **state)
{
  CroTestBench *test = *state;
  gint64 thing = show_trial (test, "Tide");
  g_autofree char *text = NULL, *before = NULL, *gone = NULL;
  CroRef ref = cro_test_find_ref (test, CRO_NAMES_THINGS, "Tide");
  double cost = cro_figure_of_menu (cro_book_get_figures (test->book), ref.slot).cost;

  assert_keys_ask_nothing (test, "Price with tax");
  enter (test, "Price with tax", "90");
  assert_shown (test, "at most 56.47");
  assert_shown (test, "at most 61.01");
  open_plate (test, "Crab croustade");
  assert_focus (test, "amount of Rice-flour cup per batch");
  enter (test, "amount of Dressed white crab per batch", "288");
  assert_shown (test, "at least 0.93");
  wait_saying (test, "at least 25.44");
  wait_saying (test, "2 changes");
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "trial.back", NULL));
  cro_test_settle ();
  assert_focus (test, "servings of Crab croustade");
  assert_shown (test, "at least 25.44");
  assert_shown (test, "at least 25.35");

  text = cro_trials_dup (test->book, thing, 1);
  assert_non_null (strstr (text, "288000000"));
  assert_non_null (strstr (text, "90000000"));
  before = dup_last_act (test);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "trial.keep", "i",
                                           (int) cro_book_get_figures (test->book)->date));
  gone = cro_trials_dup (test->book, thing, 1);
  assert_null (gone);
  assert_true (cro_figure_of_menu (cro_book_get_figures (test->book), ref.slot).cost > cost);
  undo (test);
  assert_true (cro_figure_of_menu (cro_book_get_figures (test->book), ref.slot).cost == cost);
}

/* As its own menu has it. */
static void
take_off (CroTestBench *test,
          const char   *menu,
          const char   *plate)
{
  GArray *entries = model_of (test)->menu_plates;
  CroRef on = cro_test_find_ref (test, CRO_NAMES_THINGS, menu);
  CroRef off = cro_test_find_ref (test, CRO_NAMES_THINGS, plate);
  g_autofree char *servings = g_strdup_printf ("servings of %s", plate);

  for (guint i = 0; i < entries->len; i++)
    if (g_array_index (entries, CroMenuPlate, i).menu == on.slot
        && g_array_index (entries, CroMenuPlate, i).plate == off.slot)
      assert_true (gtk_widget_activate_action (named (test, servings), "entry.remove", "u", i));
  cro_test_settle ();
}

/* Of the menu that is open. */
static void
choose_row (CroTestBench *test,
            const char   *text)
{
  GtkWidget *popover = cro_test_find_type (GTK_WIDGET (test->bench), GTK_TYPE_POPOVER);

  assert_non_null (popover);
  cro_test_wait_shown (popover, text);
  g_signal_emit_by_name (gtk_widget_get_ancestor (cro_test_find_shown (popover, text), GTK_TYPE_BUTTON),
                         "clicked");
  cro_test_settle ();
}

/* Half a croustade of 0.84 is served in one trial, none in the other: 25.35 are 24.93 and 24.51. */
static void
test_two_trials_of_a_menu_stand_side_by_side (void **state)
{
  CroTestBench *test = *state;
  gint64 thing = show_trial (test, "Tide");
  g_autofree char *first = NULL;

  enter (test, "servings of Crab croustade", "0.5");
  wait_saying (test, "1 change");
  assert_shown (test, "at least 24.93");
  cro_trials_set (test->book, thing, 2, "[]");
  cro_trials_set_front (test->book, thing, 2);
  cro_bench_put (test->bench, cro_bench_get_slot (test->bench));
  assert_shown (test, "Trial 2");
  take_off (test, "Tide", "Crab croustade");
  press (test, "Compare");
  choose_row (test, "Trial 1");
  assert_shown (test, "The book");
  wait_saying (test, "Crab croustade in Tide: removed");
  assert_shown (test, "at least 24.93");
  assert_shown (test, "24.51");
  press (test, "Replace");
  assert_shown (test, "Lamb saddle");
  assert_shown (test, "Salt-marsh lamb, celeriac and sea beet");
  gtk_popover_popdown (GTK_POPOVER (cro_test_find_type (GTK_WIDGET (test->bench), GTK_TYPE_POPOVER)));
  cro_test_settle ();
}

/* The curve is reckoned while nothing else happens: it ends with the trial, whose book goes. */
static void
test_covers_are_left_while_they_are_reckoned (void **state)
{
  CroTestBench *test = *state;
  gint64 thing = show_trial (test, "Crab croustade");

  open_picture (test, CRO_PICTURE_COVERS);
  gtk_editable_set_text (GTK_EDITABLE (named (test, "covers")), "40");
  cro_trial_bench_leave (CRO_TRIAL_BENCH (test->bench));
  cro_test_settle ();
  cro_trials_set (test->book, thing, 1, "[]");
  cro_trials_set_front (test->book, thing, 1);
  cro_bench_put (test->bench, cro_bench_get_slot (test->bench));
  cro_test_settle ();
  wait_saying (test, "40 covers:");
}

int
main (void)
{
#define CASE(function) cmocka_unit_test_setup_teardown (function, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_trial_is_kept_in_one_act),
    CASE (test_a_trial_stands_under_the_book),
    CASE (test_a_menu_and_its_plates_are_tried),
    CASE (test_a_past_day_says_what_it_means),
    CASE (test_a_question_stands_before_what_was),
    CASE (test_what_was_moves_nothing),
    CASE (test_a_trial_asks_before_it_is_dropped),
    CASE (test_covers_are_left_while_they_are_reckoned),
    CASE (test_four_lines_are_in_sight),
    CASE (test_two_trials_of_a_menu_stand_side_by_side),
    CASE (test_what_cannot_be_tried_stays_written_down),
    CASE (test_a_later_day_is_of_prices_alone),
    CASE (test_a_price_is_tried_as_it_is_stated),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
