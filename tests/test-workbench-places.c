/* Places: how they stand in little room, what is found in them, and how they are come back to. */
#include "cro-day-entry.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-headed.h"
#include "cro-new-prices.h"
#include "cro-reveal.h"
#include "cro-round-rows.h"
#include "cro-trial-bench.h"
#include "support/book-window.h"

/* --- Little room ------------------------------------------------------------------------------ */

static void
resize (CroTestWindow *test,
        int            width)
{
  gtk_window_set_default_size (GTK_WINDOW (test->window), width, 700);
  cro_test_wait_until (ABS (gtk_widget_get_width (GTK_WIDGET (test->window)) - width) < 60,
                       "the window is %d wide", gtk_widget_get_width (GTK_WIDGET (test->window)));
  cro_test_window_see (test);
}

static gboolean
is_listed (CroTestWindow *test)
{
  return gtk_widget_get_mapped (test->window->list_box);
}

static void
toggle_list (CroTestWindow *test)
{
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.toggle-list", NULL);
  cro_test_window_see (test);
}

/* It comes back with its room, and only where somebody wants it. */
static void
test_the_list_gives_way_in_little_room (void **state)
{
  CroTestWindow *test = *state;

  resize (test, 1200);
  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  /* The choice is remembered, whoever made it. */
  if (!test->window->is_list_shown)
    toggle_list (test);
  assert_true (is_listed (test));
  resize (test, 700);
  assert_false (is_listed (test));
  cro_test_window_focus (test, "the list went");
  resize (test, 1200);
  assert_true (is_listed (test));
  toggle_list (test);
  assert_false (is_listed (test));
  resize (test, 700);
  resize (test, 1200);
  assert_false (is_listed (test));
  toggle_list (test);
  assert_true (is_listed (test));
}

/* For one choice, and without room taken from the bench. */
static void
test_without_room_the_list_stands_over_the_bench (void **state)
{
  CroTestWindow *test = *state;
  int before;

  assert_false (gtk_widget_get_mapped (test->window->list_button));
  resize (test, 700);
  cro_test_window_go (test, CRO_PLACE_PLATES, 1);
  assert_true (gtk_widget_get_mapped (test->window->list_button));
  before = gtk_widget_get_width (GTK_WIDGET (test->window->bench));
  toggle_list (test);
  assert_true (is_listed (test));
  assert_int_equal (gtk_widget_get_width (GTK_WIDGET (test->window->bench)), before);
  assert_true (gtk_widget_is_ancestor (cro_test_window_focus (test, "F9"), test->window->list_box));
  g_signal_emit_by_name (test->window->list, "taken");
  cro_test_window_see (test);
  assert_false (is_listed (test));
  assert_false (gtk_widget_is_ancestor (cro_test_window_focus (test, "a choice"),
                                        test->window->list_box));
  /* Nor does a picture bring it back. */
  gtk_widget_activate_action (cro_test_window_bench (test), "bench.picture", "i", 4);
  cro_test_window_see (test);
  assert_false (is_listed (test));
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.search-list", NULL);
  cro_test_window_see (test);
  assert_true (is_listed (test));
  toggle_list (test);
  assert_false (is_listed (test));
}

static void
count_cb (guint *n)
{
  *n += 1;
}

static gboolean
over_cb (gboolean *is_over)
{
  *is_over = TRUE;
  return G_SOURCE_REMOVE;
}

/* Whether they have room may not hang on whether they are there: one layout would ask for the next, and nothing would
 * be drawn. */
static void
test_what_undo_says_settles_at_every_width (void **state)
{
  CroTestWindow *test = *state;

  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->window), "win.new-menu", NULL));
  cro_test_wait_shown (GTK_WIDGET (test->window), "Undo addition of New menu");
  for (int width = 900; width < 1140; width += 8)
    {
      GdkSurface *surface = gtk_native_get_surface (GTK_NATIVE (test->window));
      guint n = G_MAXUINT;
      gulong id;

      resize (test, width);
      id = g_signal_connect_swapped (surface, "layout", G_CALLBACK (count_cb), &n);
      /* What has the focus is brought into sight, and the like. */
      for (int i = 0; i < 20 && n > 2; i++)
        {
          gboolean is_over = FALSE;

          n = 0;
          g_timeout_add (100, G_SOURCE_FUNC (over_cb), &is_over);
          while (!is_over)
            g_main_context_iteration (NULL, TRUE);
        }
      g_signal_handler_disconnect (surface, id);
      if (n > 2)
        fail_msg ("%d px wide: laid out again and again", width);
    }
}

static void
assert_head_is_whole (CroTestWindow *test,
                      int            place)
{
  GtkWidget *headed = cro_test_find_type (cro_test_window_bench (test), CRO_TYPE_HEADED);
  GtkAdjustment *far;

  if (headed == NULL)
    return;
  far = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (gtk_widget_get_last_child (headed)));
  if (gtk_adjustment_get_upper (far) > gtk_adjustment_get_page_size (far))
    fail_msg ("place %d shows %.0f of its head's %.0f", place, gtk_adjustment_get_page_size (far),
              gtk_adjustment_get_upper (far));
}

/* With text of twice the size every place fits a screen of 1024: nothing is cut at its edge, nor any row of
 * its figures. */
static void
test_large_text_fits_a_small_screen (void **state)
{
  CroTestWindow *test = *state;
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi, least, height;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  resize (test, 1024);
  for (CroPlace place = 0; place < CRO_N_PLACES; place++)
    {
      cro_test_window_go (test, place, 0);
      cro_test_window_see (test);
      gtk_widget_measure (GTK_WIDGET (test->window), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL,
                          NULL);
      gtk_widget_measure (GTK_WIDGET (test->window), GTK_ORIENTATION_VERTICAL, 1024, &height, NULL, NULL,
                          NULL);
      if (least > 1024 || height > 700)
        fail_msg ("place %d needs %d × %d", (int) place, least, height);
      assert_head_is_whole (test, (int) place);
    }
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  cro_test_window_see (test);
}

static void
try_price (CroBook *tried,
           gint64   price)
{
  CroRef tide = cro_edit_find_name (cro_book_get_model (tried), CRO_NAMES_THINGS, "Tide");
  GError *error = NULL;

  cro_test_must (cro_edit_set_selling_price (tried, "price", tide, cro_book_get_figures (tried)->date, price,
                                             &error), error);
}

/* Ctrl+T leads into a trial of a menu, out of it and back, and its row of the list says so. */
static void
test_a_trial_of_a_menu_is_found_again (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = test->window->book;
  CroRef tide = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, "Tide");
  GtkWidget *list = test->window->list_box;

  cro_window_open_ref (test->window, tide);
  cro_test_window_see (test);
  assert_null (cro_test_find_shown (list, "trial open"));
  for (int i = 0; i < 3; i++)
    {
      assert_true (gtk_widget_activate_action (GTK_WIDGET (test->window), "win.trial", NULL));
      cro_test_window_see (test);
      assert_true (CRO_IS_TRIAL_BENCH (cro_test_window_bench (test)) == (i % 2 == 0));
      /* One in which nothing was tried is none. */
      if (i == 0)
        try_price (cro_trial_bench_get_tried (CRO_TRIAL_BENCH (cro_test_window_bench (test))), 90 * CRO_MICRO);
      cro_test_wait_shown (list, "trial open");
    }
  assert_non_null (cro_test_find_shown (cro_test_window_bench (test), "at most 56.47"));
}

/* Ctrl+K finds what is no thing of the book too: a supplier, a month, a section of the window. */
static void
test_suppliers_months_and_sections_are_found (void **state)
{
  static const struct { const char *typed; CroRefKind kind; gboolean has_slot; } cases[] = {
    { "quay", CRO_REF_SUPPLIER, TRUE },
    { "october 26", CRO_REF_MONTH, TRUE },
    { "larder", CRO_REF_ITEM, FALSE },
    { "crab butter", CRO_REF_RECIPE, TRUE },
  };
  CroTestWindow *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GtkWidget *entry;

      assert_true (gtk_widget_activate_action (GTK_WIDGET (test->window), "win.search", NULL));
      cro_test_settle ();
      entry = cro_test_find_type (test->window->finder, GTK_TYPE_ENTRY);
      gtk_editable_set_text (GTK_EDITABLE (entry), cases[i].typed);
      g_signal_emit_by_name (entry, "activate");
      cro_test_window_see (test);
      if (test->window->now.kind != cases[i].kind || (test->window->now.slot != CRO_NO_SLOT) != cases[i].has_slot)
        fail_msg ("%s is not found", cases[i].typed);
      cro_test_window_focus (test, cases[i].typed);
    }
}

/* --- Coming back ------------------------------------------------------------------------------ */

static void
open_named (CroTestWindow *test,
            CroNames       names,
            const char    *name)
{
  CroRef ref = cro_edit_find_name (cro_book_get_model (cro_window_get_book (test->window)), names, name);

  assert_int_not_equal (ref.kind, CRO_REF_NONE);
  cro_window_open_ref (test->window, ref);
  cro_test_window_see (test);
}

static gboolean
is_focus_in_row (CroTestWindow *test,
                 const char    *name)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (test->window));

  return focus != NULL && cro_test_find_shown (focus, name) != NULL;
}

/* Away, and back: the same stands on the bench, and has the row with the focus. */
static void
assert_comes_back (CroTestWindow *test)
{
  CroPlace place = test->window->place;
  CroRef was = test->window->now;
  const char *name;

  cro_test_window_go (test, place == CRO_PLACE_MARKET ? CRO_PLACE_PLATES : CRO_PLACE_MARKET, 0);
  cro_test_window_go (test, place, 0);
  if (!cro_ref_equal (test->window->now, was))
    fail_msg ("place %d: %d %u, not %d %u", place, test->window->now.kind, test->window->now.slot, was.kind,
              was.slot);
  cro_test_window_focus (test, "coming back");
  name = was.slot != CRO_NO_SLOT ? cro_ref_name (cro_book_get_model (cro_window_get_book (test->window)), was) : NULL;
  /* Rows of a long list come in slices. */
  if (name != NULL && cro_window_is_list_seen (test->window))
    cro_test_wait_until (is_focus_in_row (test, name), "the row of %s has not the focus", name);
}

/* A sheet that had the list's room has it again, and the focus in its row. */
static void
assert_sheet_comes_back (CroTestWindow *test)
{
  GtkWidget *focus;

  cro_new_prices_open (CRO_BENCH (cro_test_window_bench (test)), test->window->now.slot);
  cro_test_window_see (test);
  cro_round_rows_focus (CRO_ROUND_ROWS (cro_test_find_type (cro_test_window_bench (test), CRO_TYPE_ROUND_ROWS)), 2);
  cro_test_window_see (test);
  focus = cro_test_window_focus (test, "a row");
  assert_false (cro_window_is_list_seen (test->window));
  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  assert_true (cro_window_is_list_seen (test->window));
  cro_test_window_go (test, CRO_PLACE_MARKET, 0);
  cro_test_window_see (test);
  assert_false (cro_window_is_list_seen (test->window));
  assert_ptr_equal (cro_test_window_focus (test, "coming back to a sheet"), focus);
  cro_bench_set_cover (CRO_BENCH (cro_test_window_bench (test)), NULL);
}

/* What was open in a place is open there again, for whoever comes back, however wide the window: a plate, and all
 * of them; of what was removed meanwhile nothing. */
static void
test_a_place_is_as_it_was_left (void **state)
{
  CroTestWindow *test = *state;
  CroRef made;
  g_autoptr (GError) error = NULL;

  for (int width = 1024; width <= 1366; width += 342)
    {
      gtk_window_set_default_size (GTK_WINDOW (test->window), width, 700);
      cro_test_window_see (test);
      open_named (test, CRO_NAMES_THINGS, "Slack water");
      assert_comes_back (test);
      open_named (test, CRO_NAMES_PREPARATIONS, "Beurre blanc");
      assert_comes_back (test);
      open_named (test, CRO_NAMES_ITEMS, "Samphire");
      assert_comes_back (test);
      open_named (test, CRO_NAMES_SUPPLIERS, "Quay Shellfish");
      assert_comes_back (test);
      assert_sheet_comes_back (test);
      cro_window_open_ref (test->window, CRO_REF (CRO_REF_RATES, CRO_NO_SLOT));
      assert_comes_back (test);
      cro_test_window_go (test, CRO_PLACE_MONTHS, 0);
      cro_window_open_ref (test->window, CRO_REF (CRO_REF_MONTH, 2026 * 12 + 8));
      assert_comes_back (test);
      cro_window_open_ref (test->window, CRO_REF (CRO_REF_MENU, CRO_NO_SLOT));
      assert_comes_back (test);
      /* Each place by itself. */
      cro_test_window_go (test, CRO_PLACE_LARDER, 0);
      assert_string_equal (cro_ref_name (cro_book_get_model (test->window->book), test->window->now), "Samphire");
    }
  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->window), "win.new-menu", NULL));
  cro_test_wait_shown (GTK_WIDGET (test->window), "Undo addition of New menu");
  made = test->window->now;
  cro_test_window_go (test, CRO_PLACE_MARKET, 0);
  assert_true (cro_edit_remove (cro_window_get_book (test->window), "removal", made, &error));
  cro_test_window_go (test, CRO_PLACE_PLATES, 0);
  assert_string_equal (cro_ref_name (cro_book_get_model (test->window->book), test->window->now),
                       "Barley bread and cultured butter");
}

/* Types a day into every field of the next value's, or asserts that none holds one; *n counts them. */
static void
walk_days (GtkWidget  *widget,
           const char *text,
           guint      *n)
{
  if (GTK_IS_ENTRY (widget) && cro_day_entry_is_fleeting (widget) && gtk_widget_get_mapped (widget))
    {
      *n += 1;
      if (text != NULL)
        gtk_editable_set_text (GTK_EDITABLE (widget), text);
      else
        assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (widget)), "");
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    walk_days (child, text, n);
}

static void
assert_days_are_left (CroTestWindow *test,
                      const char    *what)
{
  guint n_typed = 0, n_left = 0;

  walk_days (cro_test_window_bench (test), "2026-11-10", &n_typed);
  if (n_typed == 0)
    fail_msg ("%s asks for no day", what);
  assert_comes_back (test);
  walk_days (cro_test_window_bench (test), NULL, &n_left);
  assert_int_equal (n_left, n_typed);
}

/* A past day is of the next value alone, of whatever that is: whoever comes back finds the book's. */
static void
test_a_day_is_left_with_its_place (void **state)
{
  CroTestWindow *test = *state;

  gtk_window_set_default_size (GTK_WINDOW (test->window), 1024, 700);
  open_named (test, CRO_NAMES_THINGS, "Fish soup, rouille and toast");
  assert_days_are_left (test, "a plate");
  open_named (test, CRO_NAMES_THINGS, "Slack water");
  assert_days_are_left (test, "a menu");
  open_named (test, CRO_NAMES_ITEMS, "Samphire");
  assert_days_are_left (test, "a pack");
  open_named (test, CRO_NAMES_SUPPLIERS, "Quay Shellfish");
  assert_days_are_left (test, "a supplier's pack");
  cro_window_open_ref (test->window, CRO_REF (CRO_REF_RATES, CRO_NO_SLOT));
  cro_test_window_see (test);
  assert_days_are_left (test, "a rate");
}

/* --- Out of sight ----------------------------------------------------------------------------- */

/* Whether the window itself takes a key before what has the focus. */
static gboolean
window_takes (CroTestWindow *test,
              guint          keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (GTK_WIDGET (test->window));
  gboolean is_taken = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (controllers) && !is_taken; i++)
    {
      g_autoptr (GtkEventController) one = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (one) && gtk_event_controller_get_propagation_phase (one) == GTK_PHASE_CAPTURE)
        g_signal_emit_by_name (one, "key-pressed", keyval, 0, 0, &is_taken);
    }
  return is_taken;
}

/* A choice that was scrolled away is brought back by the key that would open it, and opened by the next. */
static void
test_what_is_out_of_sight_is_not_pressed (void **state)
{
  CroTestWindow *test = *state;
  GtkWidget *choice, *headed, *focus;
  GtkAdjustment *page;

  gtk_window_set_default_size (GTK_WINDOW (test->window), 1024, 700);
  open_named (test, CRO_NAMES_ITEMS, "Samphire");
  headed = cro_test_find_type (cro_test_window_bench (test), CRO_TYPE_HEADED);
  choice = cro_test_find_type (headed, GTK_TYPE_DROP_DOWN);
  gtk_widget_child_focus (choice, GTK_DIR_TAB_FORWARD);
  focus = cro_test_window_focus (test, "a choice");
  assert_true (GTK_IS_BUTTON (focus) && gtk_widget_is_ancestor (focus, choice));
  cro_test_window_see (test);
  assert_false (window_takes (test, GDK_KEY_space));
  page = gtk_scrolled_window_get_vadjustment (
      GTK_SCROLLED_WINDOW (gtk_widget_get_ancestor (choice, GTK_TYPE_SCROLLED_WINDOW)));
  gtk_adjustment_set_value (page, gtk_adjustment_get_upper (page));
  cro_test_window_see (test);
  assert_true (cro_reveal_is_lost (focus));
  /* Letters go where they are typed. */
  assert_false (window_takes (test, GDK_KEY_a));
  assert_true (window_takes (test, GDK_KEY_space));
  cro_test_wait_until (!cro_reveal_is_lost (focus), "what has the focus is not brought back");
  assert_false (window_takes (test, GDK_KEY_space));
}

int
main (void)
{
#define CASE(test, open) cmocka_unit_test_setup_teardown (test, open, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    CASE (test_a_trial_of_a_menu_is_found_again, cro_test_window_open_demo),
    CASE (test_suppliers_months_and_sections_are_found, cro_test_window_open_demo),
    CASE (test_what_is_out_of_sight_is_not_pressed, cro_test_window_open_demo),
    CASE (test_a_place_is_as_it_was_left, cro_test_window_open_demo),
    CASE (test_a_day_is_left_with_its_place, cro_test_window_open_demo),
    CASE (test_the_list_gives_way_in_little_room, cro_test_window_open_demo),
    CASE (test_without_room_the_list_stands_over_the_bench, cro_test_window_open_demo),
    CASE (test_what_undo_says_settles_at_every_width, cro_test_window_open_demo),
    CASE (test_large_text_fits_a_small_screen, cro_test_window_open_demo),
  };

  return cro_test_window_run (tests);
}
