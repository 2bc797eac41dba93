/* The window on another day: prices of then, the book as it stood, days that are refused. */
#include "support/window-hands.h"

#include "cro-edit.h"
#include "cro-here.h"
#include "cro-number.h"
#include "cro-settings-window.h"

static char *
dup_day (const char *words,
         CroDate     day)
{
  g_autofree char *text = cro_date_to_text (day);

  return g_strdup_printf ("%s %s", words, text);
}

static void
choose_day (CroTestWindow *f,
            CroDate        day)
{
  g_autoptr (GDateTime) noon = NULL;
  int year, month, day_of_month;

  cro_date_to_civil (day, &year, &month, &day_of_month);
  noon = g_date_time_new_local (year, month, day_of_month, 12, 0, 0);
  cro_window_need_calendar (f->window);
  gtk_calendar_select_day (f->window->calendar, noon);
}

static void
show_yesterdays_prices (CroTestWindow *f)
{
  g_autofree char *button = dup_day ("Prices of", cro_here_today () - 1);

  assert_true (shows (f, "Prices of today"));
  assert_false (gtk_widget_get_visible (f->window->date_banner));
  choose_day (f, cro_here_today () - 1);
  wait_for (f, shows, button);
  assert_true (gtk_widget_get_visible (f->window->date_banner));
}

static void
test_a_past_date_goes_with_the_price_that_was_entered (void **state)
{
  CroTestWindow *f = *state;
  g_autoptr (GError) error = NULL;

  show_yesterdays_prices (f);
  assert_true (cro_edit_set_price (cro_window_get_book (f->window), "price", 0,
                                   cro_here_today () - 1, 8000000, &error));
  wait_for (f, shows, "Prices of today");
  assert_false (gtk_widget_get_visible (f->window->date_banner));
}

static void
test_a_past_date_goes_with_its_place (void **state)
{
  CroTestWindow *f = *state;
  CroCell cell = CRO_CELL_INT (50000000);
  g_autoptr (GError) error = NULL;

  show_yesterdays_prices (f);
  /* An amount is no price: the day stays. */
  assert_true (cro_book_set (cro_window_get_book (f->window), "amount", "recipe_line", 1,
                             "amount_micro", &cell, &error));
  cro_test_settle ();
  assert_true (shows_not (f, "Prices of today"));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", 2));
  wait_for (f, shows, "Prices of today");
}

static void
test_a_past_date_goes_with_its_window (void **state)
{
  CroTestWindow *f = *state;

  show_yesterdays_prices (f);
  gtk_window_close (GTK_WINDOW (f->window));
  cro_test_widgets_gone ();
  f->window = CRO_WINDOW (cro_window_new (ADW_APPLICATION (g_application_get_default ())));
  gtk_window_present (GTK_WINDOW (f->window));
  cro_window_open_path (f->window, f->folder.path);
  wait_for (f, shows, "Prices of today");
}

/* It comes first of what is chosen there: as grey as all else. */
static gboolean
currency_is_grey (CroTestWindow *f)
{
  GtkWidget *settings = cro_settings_window_new (GTK_WINDOW (f->window), cro_window_get_book (f->window));
  gboolean is_grey;

  gtk_window_present (GTK_WINDOW (settings));
  cro_test_wait_until (cro_test_find_type (settings, GTK_TYPE_DROP_DOWN) != NULL, "no settings");
  is_grey = !gtk_widget_is_sensitive (cro_test_find_type (settings, GTK_TYPE_DROP_DOWN));
  gtk_window_destroy (GTK_WINDOW (settings));
  return is_grey;
}

static void
test_the_book_of_a_day_is_only_read (void **state)
{
  CroTestWindow *f = *state;
  CroDate day = cro_here_today () - 2;
  char text[CRO_DATE_CHARS];
  g_autofree char *button = dup_day ("The book of", day), *sql = NULL;
  GtkEditable *amount = amount_of (f);
  CroCell cell = CRO_CELL_INT (50000000);
  g_autoptr (GError) error = NULL;

  cro_date_format (day, text);
  sql = g_strdup_printf ("UPDATE act SET at = '%sT12:00:00Z', day = '%s'", text, text);
  run_sql (f->folder.path, sql, NULL);
  assert_true (cro_book_set (cro_window_get_book (f->window), "amount", "recipe_line", 1,
                             "amount_micro", &cell, &error));
  cro_book_tell (cro_window_get_book (f->window));
  assert_string_equal (gtk_editable_get_text (amount), "50 g");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->window->book_of_day), TRUE);
  choose_day (f, day);
  wait_for (f, shows, button);
  amount = amount_of (f);
  assert_string_equal (gtk_editable_get_text (amount), "25 g");
  assert_false (gtk_editable_get_editable (amount));
  assert_true (shows (f, "This is the book as it stood; it can only be read"));
  assert_true (gtk_widget_get_visible (f->window->date_banner));
  assert_true (currency_is_grey (f));
  /* It stays as one looks around in it. */
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", 2));
  wait_for (f, shows, button);
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.place", "i", 0));
  assert_true (gtk_widget_activate_action (GTK_WIDGET (f->window), "win.today", NULL));
  wait_for (f, shows, "Prices of today");
  amount = amount_of (f);
  assert_string_equal (gtk_editable_get_text (amount), "50 g");
  assert_true (gtk_editable_get_editable (amount));
}

static void
test_a_day_before_the_book_began_is_refused (void **state)
{
  CroTestWindow *f = *state;

  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->window->book_of_day), TRUE);
  gtk_menu_button_popup (GTK_MENU_BUTTON (f->window->date_button));
  cro_test_settle ();
  choose_day (f, cro_here_today () - 400);
  wait_for (f, shows, "Prices of today");
  wait_for (f, shows, "Toast");
  assert_false (cro_book_is_past (cro_window_get_book (f->window), NULL));
  /* Another day answers the same question, until the popover goes. */
  assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (f->window->book_of_day)));
  gtk_menu_button_popdown (GTK_MENU_BUTTON (f->window->date_button));
  cro_test_settle ();
  assert_false (gtk_check_button_get_active (GTK_CHECK_BUTTON (f->window->book_of_day)));
}

/* The book has stood on no day to come: refused, and the calendar goes back to the day in sight. */
static void
test_a_day_to_come_is_refused (void **state)
{
  CroTestWindow *f = *state;
  g_autoptr (GDateTime) shown = NULL;
  int year, month, day;

  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->window->book_of_day), TRUE);
  choose_day (f, cro_here_today () + 300);
  cro_test_settle ();
  assert_true (shows (f, "Prices of today"));
  assert_int_equal (cro_book_get_figures (cro_window_get_book (f->window))->date, cro_here_today ());
  shown = gtk_calendar_get_date (f->window->calendar);
  cro_date_to_civil (cro_here_today (), &year, &month, &day);
  assert_int_equal (g_date_time_get_day_of_month (shown), day);
  assert_int_equal (g_date_time_get_year (shown), year);
  /* Its prices may be asked for. */
  gtk_check_button_set_active (GTK_CHECK_BUTTON (f->window->prices_of_day), TRUE);
  choose_day (f, cro_here_today () + 300);
  assert_false (shows (f, "Prices of today"));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, cro_test_window_open_plate, cro_test_window_close)
  const struct CMUnitTest tests[] = {
    CASE (test_a_day_to_come_is_refused),
    CASE (test_a_past_date_goes_with_the_price_that_was_entered),
    CASE (test_a_past_date_goes_with_its_place),
    CASE (test_a_past_date_goes_with_its_window),
    CASE (test_the_book_of_a_day_is_only_read),
    CASE (test_a_day_before_the_book_began_is_refused),
  };

  return cro_test_window_run (tests);
}
