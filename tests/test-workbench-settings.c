/* The settings of the house: each is entered, stands in the book, and nothing of the window outlives
 * it. */
#include "support/bench-hands.h"

#include "cro-settings-window.h"

static int
show_settings (CroTestBench *test)
{
  test->window = cro_settings_window_new (NULL, test->book);
  gtk_window_present (GTK_WINDOW (test->window));
  while (!gtk_widget_get_mapped (test->window))
    g_main_context_iteration (NULL, TRUE);
  cro_test_settle ();
  return 0;
}

static int
open_settings (void **state)
{
  open_book (state);
  return show_settings (*state);
}

/* Of a book in which nothing is set as yet. */
static int
open_settings_of_new (void **state)
{
  CroTestBench *test = g_new0 (CroTestBench, 1);
  GError *error = NULL;

  *test = (CroTestBench){ .folder = cro_test_folder_new (), .said = g_string_new (NULL) };
  test->book = cro_book_create (test->folder.path, "cook", cro_here_today (), &error);
  cro_test_must (test->book != NULL, error);
  *state = test;
  return show_settings (test);
}

static int
close_settings (void **state)
{
  CroTestBench *test = *state;

  gtk_window_destroy (GTK_WINDOW (test->window));
  cro_test_widgets_gone ();
  cro_test_settle ();
  return close_book (state);
}

static void
assert_stored (CroTestBench *test,
               const char   *column,
               const char   *value)
{
  g_autofree char *stored = cro_test_stored (test, "book", 1, column);

  assert_string_equal (stored, value);
}

static void
test_fields_are_kept (void **state)
{
  static const struct { const char *name, *typed, *column, *stored; } cases[] = {
    { "Name", "Saltmarsh Annexe", "name", "Saltmarsh Annexe" },
    { "Hourly labour cost", "21.30", "wage_per_hour_micro", "21300000" },
    { "Tax, %", "7.5", "tax_pct_micro", "7500000" },
    { "Target %", "28", "target_pct_micro", "28000000" },
    { "Days until a price is old", "45", "stale_after_days_micro", "45000000" },
  };
  CroTestBench *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GtkWidget *entry = cro_test_find_named (test->window, cases[i].name);

      cro_test_type (entry, cases[i].typed);
      cro_test_enter (entry);
      assert_stored (test, cases[i].column, cases[i].stored);
    }
  assert_string_equal (model_of (test)->name, "Saltmarsh Annexe");
  assert_true (model_of (test)->tax == 7500000);
}

static void
test_choices_are_kept (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *speaks = cro_test_find_named (test->window, "Results are given as");
  GtkWidget *till = cro_test_find_named (test->window, "Till totals");
  GtkWidget *currency = cro_test_find_named (test->window, "Currency");
  GtkWidget *target;

  gtk_drop_down_set_selected (GTK_DROP_DOWN (speaks), 1);
  cro_test_settle ();
  assert_stored (test, "speaks", "gross-profit");
  target = cro_test_find_named (test->window, "Target gross profit %");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (target)), "70");
  cro_test_type (target, "72");
  cro_test_enter (target);
  assert_stored (test, "target_pct_micro", "28000000");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (speaks), 2);
  cro_test_settle ();
  assert_stored (test, "speaks", "coefficient");
  target = cro_test_find_named (test->window, "Target coefficient");
  cro_test_type (target, "3.2");
  cro_test_enter (target);
  assert_stored (test, "target_pct_micro", "31250000");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (till), 1);
  cro_test_settle ();
  assert_stored (test, "till_with_tax", "0");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (till), 2);
  cro_test_settle ();
  assert_stored (test, "till_with_tax", "1");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (currency), 1);
  cro_test_settle ();
  assert_string_not_equal (model_of (test)->currency, "EUR");
}

static void
test_what_is_no_value_is_not_kept (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *target = cro_test_find_named (test->window, "Target %");

  cro_test_type (target, "130");
  cro_test_enter (target);
  assert_stored (test, "target_pct_micro", "30000000");
  cro_test_escape (target);
}

/* What is typed is looked at before it is kept, and gone again with Escape. */
static void
test_typing_previews (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *wage = cro_test_find_named (test->window, "Hourly labour cost");
  gint64 before = model_of (test)->wage_per_hour;

  cro_test_type (wage, "99");
  assert_true (model_of (test)->wage_per_hour == 99000000);
  cro_test_escape (wage);
  assert_true (model_of (test)->wage_per_hour == before);
}

/* What it chooses from is as the book has it: no book goes without its currency again, and undo is seen. */
static void
test_the_currency_follows_the_book (void **state)
{
  CroTestBench *test = *state;
  GtkDropDown *currency = GTK_DROP_DOWN (cro_test_find_named (test->window, "Currency"));
  guint before = gtk_drop_down_get_selected (currency);

  gtk_drop_down_set_selected (currency, 0);
  cro_test_settle ();
  assert_int_equal (gtk_drop_down_get_selected (currency), before);
  assert_stored (test, "currency", "EUR");
  gtk_drop_down_set_selected (currency, before + 1);
  cro_test_settle ();
  assert_string_not_equal (model_of (test)->currency, "EUR");
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_int_equal (gtk_drop_down_get_selected (currency), before);
}

/* What is typed once the list is open searches, and Enter takes the first that it leaves. */
static void
test_a_currency_is_typed (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *currency = cro_test_find_named (test->window, "Currency"), *search;

  gtk_widget_grab_focus (currency);
  g_signal_emit_by_name (cro_test_find_type (currency, GTK_TYPE_TOGGLE_BUTTON), "clicked");
  search = cro_test_find_type (currency, GTK_TYPE_SEARCH_ENTRY);
  cro_test_wait_until (gtk_widget_get_state_flags (search) & GTK_STATE_FLAG_FOCUS_WITHIN, "letters do not search");
  /* At once, while the list still waits for more to be typed. */
  gtk_editable_set_text (GTK_EDITABLE (search), "CHF");
  g_signal_emit_by_name (search, "activate");
  cro_test_settle ();
  assert_stored (test, "currency", "CHF");
}

/* A list that is closed before its first frames have come leaves the focus where keys are heard. */
static void
test_a_list_closed_at_once_keeps_no_focus (void **state)
{
  static const char *const names[] = { "Currency", "Till totals" };
  CroTestBench *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      GtkWidget *choice = cro_test_find_named (test->window, names[i]);

      gtk_widget_grab_focus (choice);
      g_signal_emit_by_name (cro_test_find_type (choice, GTK_TYPE_TOGGLE_BUTTON), "clicked");
      gtk_popover_popdown (GTK_POPOVER (cro_test_find_type (choice, GTK_TYPE_POPOVER)));
      for (guint frame = 0; frame < 3; frame++)
        cro_test_see (test->window);
      assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
      assert_true (gtk_widget_get_mapped (gtk_window_get_focus (GTK_WINDOW (test->window))));
    }
}

static void
test_escape_closes (void **state)
{
  CroTestBench *test = *state;

  g_object_ref (test->window);
  assert_true (cro_test_press_shortcut (test->window, "Escape"));
  cro_test_settle ();
  assert_false (gtk_widget_get_visible (test->window));
  g_object_unref (test->window);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_settings, close_settings)
  const struct CMUnitTest tests[] = {
    CASE (test_fields_are_kept),
    cmocka_unit_test_setup_teardown (test_fields_are_kept, open_settings_of_new, close_settings),
    CASE (test_choices_are_kept),
    CASE (test_what_is_no_value_is_not_kept),
    CASE (test_typing_previews),
    CASE (test_the_currency_follows_the_book),
    CASE (test_a_currency_is_typed),
    CASE (test_a_list_closed_at_once_keeps_no_focus),
    cmocka_unit_test_setup_teardown (test_escape_closes, open_settings, close_book),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
