/* Market and Months on the demo book: tables are sorted by their headings, searched and added up, and prices are
 * entered. */
#include "support/bench-tables.h"

#include "cro-breakdown.h"
#include "cro-columns.h"
#include "cro-focus.h"
#include "cro-months-bench.h"
#include "cro-packs-bench.h"

static int
open_market (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  return 0;
}

static int
open_months (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_MONTHS_BENCH, CRO_REF_NOWHERE);
  press (*state, "Till and Ledger");
  return 0;
}

/* --- Eyes and hands ---------------------------------------------------------------------------- */

static void
assert_cell (CroTestBench *test,
             guint         row,
             guint         column,
             const char   *text)
{
  g_autofree char *is = cell (test, row, column);

  assert_string_equal (is, text);
}

/* --- Sorting and searching --------------------------------------------------------------------- */

static void
assert_said (GtkWidget  *widget,
             const char *description)
{
  g_autofree char *other = gtk_test_accessible_check_property (
      GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, description);

  if (other != NULL)
    fail_msg ("it is said “%s”, not “%s”", other, description);
}

static void
test_a_heading_sorts (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *heading = named (test, "Change");

  assert_said (heading, "Press to sort by this column.");
  assert_cell (test, 0, 0, "Agar");
  choose_row (test, "Brown crab");
  click (heading);
  assert_said (heading, "Sorted, smallest first.");
  click (heading);
  assert_said (heading, "Sorted, largest first.");
  assert_cell (test, 0, 0, "Celery");
  assert_cell (test, 0, 7, "+6.1\u00a0%");
  assert_chosen (test, "Brown crab");
  click (named (test, "Supplier"));
  assert_said (heading, "Press to sort by this column.");
  click (heading);
  click (heading);
  click (heading);
  assert_cell (test, 0, 0, "Agar");
}

static void
test_a_table_is_searched (void **state)
{
  CroTestBench *test = *state;

  assert_shown (test, "90 rows");
  cro_records_view_set_search (table_of (test), "quay crab");
  cro_test_settle ();
  assert_shown (test, "1 of 90 rows");
  assert_cell (test, 0, 0, "Brown crab");
  cro_records_view_set_search (table_of (test), "kelp");
  cro_test_settle ();
  assert_shown (test, "No row contains “kelp”.");
}

static void
test_enter_leads_from_the_search_to_what_it_found (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *search = named (test, "Search this table");
  GtkWidget *focus;

  gtk_widget_grab_focus (search);
  cro_test_type (search, "kelp");
  cro_test_enter (search);
  focus = gtk_root_get_focus (gtk_widget_get_root (search));
  assert_true (gtk_widget_is_ancestor (focus, search));
  cro_test_type (search, "quay crab");
  cro_test_enter (search);
  focus = gtk_root_get_focus (gtk_widget_get_root (search));
  assert_false (gtk_widget_is_ancestor (focus, search));
  assert_non_null (gtk_widget_get_ancestor (focus, GTK_TYPE_LIST_VIEW));
  assert_chosen (test, "Brown crab");
}

/* Chestnut mushrooms fit from the first letter on, and stand before mussels. */
static void
test_the_start_of_a_name_fits_best (void **state)
{
  static const char *const typed[] = { "m", "mu", "mus" };
  CroTestBench *test = *state;
  GtkWidget *search = named (test, "Search this table");

  choose_row (test, "Chestnut mushrooms");
  for (gsize i = 0; i < G_N_ELEMENTS (typed); i++)
    {
      cro_test_type (search, typed[i]);
      g_signal_emit_by_name (search, "search-changed");
    }
  assert_cell (test, 0, 0, "Mussels");
  cro_test_enter (search);
  assert_chosen (test, "Mussels");
}

static void
test_a_row_opens_what_it_is_about (void **state)
{
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  choose_row (test, "Brown crab");
  assert_true (gtk_widget_activate_action (GTK_WIDGET (table_of (test)), "item.open", NULL));
  assert_int_equal (opened.kind, CRO_REF_OFFER);
  assert_string_equal (cro_ref_name (cro_book_get_model (test->book), opened), "Quay Shellfish");
}

/* --- Prices -------------------------------------------------------------------------------------- */

static double
croustade_cost (CroTestBench *test)
{
  return cro_figure_of_plate (cro_book_get_figures (test->book),
                              cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade").slot).cost;
}

static void
test_a_price_is_previewed_and_kept (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *price = field (test, "New price per pack, EUR");
  double before = croustade_cost (test);

  choose_row (test, "Brown crab");
  assert_shown (test, "Brown crab from Quay Shellfish");
  cro_test_type (price, "+5 %");
  assert_shown (test, "13.86/kg, +5.0\u00a0%");
  assert_true (croustade_cost (test) > before);
  cro_test_escape (price);
  assert_true (croustade_cost (test) == before);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (price)), "");
  cro_test_type (price, "70");
  cro_test_enter (price);
  assert_true (croustade_cost (test) > before);
  assert_chosen (test, "Brown crab");
  assert_shown (test, "70.00");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (price)), "");
  undo (test);
  assert_true (croustade_cost (test) == before);
  assert_cell (test, 10, 4, "66.00");
}

static void
test_what_is_no_price_stays_and_is_said (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *price = field (test, "New price per pack, EUR");
  double before = croustade_cost (test);

  choose_row (test, "Brown crab");
  cro_test_type (price, "dear");
  cro_test_enter (price);
  assert_shown (test, "This is not a price. Type one, or a change: +5 %, −0.40.");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (price)), "dear");
  cro_test_type (price, "71 USD");
  assert_shown (test, "“71 USD” is in another currency. Type the price in EUR.");
  choose_row (test, "Agar");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (price)), "");
  assert_true (croustade_cost (test) == before);
}

static void
test_a_price_of_another_day_is_not_previewed (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *price = field (test, "New price per pack, EUR");
  double before = croustade_cost (test);

  choose_row (test, "Brown crab");
  cro_test_type (price, "70");
  cro_test_type (field (test, "Since"), "2026-12-01");
  assert_true (croustade_cost (test) == before);
  cro_test_enter (price);
  assert_true (croustade_cost (test) == before);
  assert_cell (test, 10, 4, "66.00");
}

/* Its last price serves on, so no figure moves. */
static void
test_a_dash_is_not_to_be_had (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *price = field (test, "New price per pack, EUR");
  double before = croustade_cost (test);

  choose_row (test, "Brown crab");
  cro_test_type (price, "-");
  assert_shown (test, "not to be had");
  assert_true (croustade_cost (test) == before);
  cro_test_enter (price);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (price)), "");
  assert_chosen (test, "Brown crab");
  assert_cell (test, 10, 4, "–");
  assert_cell (test, 10, 8, "not to be had");
  assert_true (croustade_cost (test) == before);
  cro_test_type (price, "+5 %");
  assert_shown (test, "13.86/kg, +5.0\u00a0%");
  cro_test_escape (price);
  undo (test);
  assert_cell (test, 10, 4, "66.00");
}

/* A question, for as long as the price stands, unless somebody says that it is right. */
static void
test_a_price_that_is_none_is_asked_about (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *price = field (test, "New price per pack, EUR");
  g_autofree char *question = NULL, *today = NULL;

  choose_row (test, "Brown crab");
  assert_keys_ask_nothing (test, "New price per pack, EUR");
  cro_test_type (price, "6600");
  cro_test_enter (price);
  today = cro_date_to_text (cro_book_get_figures (test->book)->date);
  question = g_strdup_printf ("6600.00 from %s is far from the price before. Is 66.00 meant?", today);
  assert_shown (test, question);
  assert_true (cro_focus_is_in (price));
  assert_cell (test, 10, 8, "Is 66.00 meant?");
  choose_row (test, "Agar");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  choose_row (test, "Brown crab");
  gtk_widget_grab_focus (price);
  cro_test_wait_shown (GTK_WIDGET (test->bench), question);
  assert_shown (test, "Set 66.00");
  cro_test_type (price, "2100");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "6600.00 Is Right"));
  cro_test_escape (price);
  assert_cell (test, 10, 8, "Is 66.00 meant?");
  gtk_widget_grab_focus (price);
  press (test, "6600.00 Is Right");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  assert_cell (test, 10, 8, "in use");
  assert_chosen (test, "Brown crab");
  undo (test);
  assert_cell (test, 10, 8, "Is 66.00 meant?");
  press (test, "Set 66.00");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  assert_cell (test, 10, 8, "in use");
  undo (test);
  assert_cell (test, 10, 8, "Is 66.00 meant?");
  undo (test);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  assert_cell (test, 10, 8, "in use");
}

/* --- Suppliers and rates --------------------------------------------------------------------------- */

/* A day that the header does not show: what holds then, what takes its place, and what is in force. */
static void
test_a_price_of_another_day_says_so (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *price = field (test, "New price per pack, EUR"), *since = field (test, "Since");

  choose_row (test, "Brown crab");
  assert_string_equal (gtk_entry_get_placeholder_text (GTK_ENTRY (since)), "2026-11-25");
  cro_test_type (since, "2026-11-20");
  cro_test_type (price, "69");
  assert_shown (test, "13.80/kg, +5.3\u00a0%");
  cro_test_enter (price);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (since)), "");
  assert_non_null (strstr (test->said->str, "69.00 kept from 2026-11-20; 66.00 from 2026-11-24 is in force"));
  cro_test_type (since, "2026-11-20");
  cro_test_type (price, "+10 %");
  assert_shown (test, "15.18/kg, +10.0\u00a0% · replaces 69.00 of 2026-11-20");
  cro_test_escape (price);
  undo (test);
}

/* --- Months ------------------------------------------------------------------------------------------ */

static void
test_months_are_tied_to_till_and_ledger (void **state)
{
  CroTestBench *test = *state;

  assert_cell (test, 1, 0, "Oct 2026");
  assert_cell (test, 1, CRO_RECORDS_MONTHS_TO_THE_TILL, "agrees");
  assert_cell (test, 1, CRO_RECORDS_MONTHS_TO_THE_LEDGER, "agrees");
  assert_cell (test, 2, CRO_RECORDS_MONTHS_TO_THE_TILL, "−12.00");
  assert_shown (test, "Total");
}

/* A month as a slot: so many of them since the year 0. */
#define OCTOBER (2026 * 12 + 9)

/* 45919.09 are the till's of October. */
static void
test_a_month_opens_its_page_and_its_entries_have_totals (void **state)
{
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  choose_row (test, "Oct 2026");
  press (test, "Open This Month");
  assert_true (cro_ref_equal (opened, CRO_REF (CRO_REF_MONTH, OCTOBER)));
  press (test, "Sales");
  choose (test, "Month", 2);
  assert_shown (test, "45919.09");
  press (test, "Purchases");
  assert_shown (test, "13535.13");
}

static void
test_what_was_entered_last_stands_first (void **state)
{
  CroTestBench *test = *state;

  press (test, "Sales");
  assert_cell (test, 0, 0, "2026-11-22");
  press (test, "Purchases");
  assert_cell (test, 0, 0, "2026-11-21");
  press (test, "Counts");
  assert_cell (test, 0, 0, "2026-10-31");
}

static void
test_a_closed_month_looks_closed (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *row;
  CroCell cell = CRO_CELL_STR ("2026-09-03T08:00:00Z");
  g_autoptr (CroRecord) record = NULL;
  GError *error = NULL;

  choose_row (test, "Aug 2026");
  record = cro_records_view_dup_selected (table_of (test));
  cro_test_must (cro_book_set (test->book, "close of August", "month", cro_record_get_id (record),
                               "closed_at", &cell, &error), error);
  cro_test_settle ();
  assert_shown (test, "closed");
  row = gtk_widget_get_parent (cro_test_find_shown (GTK_WIDGET (test->bench), "closed"));
  assert_true (gtk_widget_has_css_class (row, "closed"));
  row = gtk_widget_get_parent (cro_test_find_shown (GTK_WIDGET (test->bench), "open"));
  assert_false (gtk_widget_has_css_class (row, "closed"));
}

/* What the notes of the demo lead to. */
static void
test_one_press_leads_to_the_last_month_that_is_tied (void **state)
{
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  gtk_widget_activate_action (GTK_WIDGET (test->bench), "months.last", NULL);
  assert_true (cro_ref_equal (opened, CRO_REF (CRO_REF_MONTH, OCTOBER)));
}

/* --- Columns ------------------------------------------------------------------------------------------ */

/* A text of 40 to 100 under a heading of 60 to 80, and a number of 50 under one of 30 to 70. */
static const struct { const char *says; int width, text, number; } allotments[] = {
  { "what is left over goes to both", 190, 110, 80 },
  { "but not without end", 1000, 220, 190 },
  { "as wide as they like", 170, 100, 70 },
  { "headings break first", 160, 100, 60 },
  { "until none is wider than its column", 150, 100, 50 },
  { "then texts are cut", 130, 80, 50 },
  { "but for the heading's longest word", 110, 60, 50 },
  { "and nothing beyond that", 20, 60, 50 },
};

static void
test_columns_share_the_width (void **state)
{
  CroColumns *columns = cro_columns_new (2);

  cro_columns_take (columns, 0, 60, 60, 80);
  cro_columns_take (columns, 0, 40, 100, 100);
  cro_columns_take (columns, 1, 30, 30, 70);
  cro_columns_take (columns, 1, 50, 50, 50);
  for (gsize i = 0; i < G_N_ELEMENTS (allotments); i++)
    {
      int widths[2];

      cro_columns_allot (columns, allotments[i].width, widths);
      if (widths[0] != allotments[i].text || widths[1] != allotments[i].number)
        fail_msg ("%s: %d and %d", allotments[i].says, widths[0], widths[1]);
    }
  g_assert_finalize_object (columns);
}

/* The one that may be spared goes where both have no room, and is told; what stays has its width. */
static void
test_columns_without_room_are_left_out (void **state)
{
  CroColumns *columns = cro_columns_new (2);
  int widths[2], min, natural;

  cro_columns_take (columns, 0, 60, 60, 80);
  cro_columns_take (columns, 1, 50, 50, 70);
  cro_columns_set_rank (columns, 1, 1);
  cro_columns_measure (columns, &min, &natural);
  assert_int_equal (min, 60);
  assert_int_equal (natural, 150);
  cro_columns_allot (columns, 110, widths);
  assert_int_equal (widths[0] + widths[1], 110);
  cro_columns_allot (columns, 109, widths);
  assert_int_equal (widths[0], 109);
  assert_int_equal (widths[1], 0);
  assert_false (cro_columns_is_left_out (columns, 1));
  cro_columns_show (columns, 109);
  assert_true (cro_columns_is_left_out (columns, 1));
  assert_false (cro_columns_is_left_out (columns, 0));
  cro_columns_show (columns, 110);
  assert_false (cro_columns_is_left_out (columns, 1));
  g_assert_finalize_object (columns);
}

/* --- Every table names what can be pressed ----------------------------------------------------------- */

static void
test_controls_and_rows_have_names (void **state)
{
  CroTestBench *test = *state;

  named (test, "Agar, Mill Lane Dry Goods, D16, 500 g, Price per pack 31.00, "
               "Net per kg, l or pc 62.00/kg, 2026-11-16, Change −0.8\u00a0%, in use");
  assert_named (GTK_WIDGET (test->bench), "the prices");
}

int
main (void)
{
#define MARKET(test) cmocka_unit_test_setup_teardown (test, open_market, close_book)
#define MONTHS(test) cmocka_unit_test_setup_teardown (test, open_months, close_book)
  const struct CMUnitTest tests[] = {
    MARKET (test_a_heading_sorts),
    MARKET (test_a_table_is_searched),
    MARKET (test_enter_leads_from_the_search_to_what_it_found),
    MARKET (test_the_start_of_a_name_fits_best),
    MARKET (test_a_row_opens_what_it_is_about),
    MARKET (test_a_price_is_previewed_and_kept),
    MARKET (test_what_is_no_price_stays_and_is_said),
    MARKET (test_a_price_of_another_day_is_not_previewed),
    MARKET (test_a_dash_is_not_to_be_had),
    MARKET (test_a_price_that_is_none_is_asked_about),
    MARKET (test_a_price_of_another_day_says_so),
    MARKET (test_controls_and_rows_have_names),
    MONTHS (test_one_press_leads_to_the_last_month_that_is_tied),
    MONTHS (test_months_are_tied_to_till_and_ledger),
    MONTHS (test_a_month_opens_its_page_and_its_entries_have_totals),
    MONTHS (test_what_was_entered_last_stands_first),
    MONTHS (test_a_closed_month_looks_closed),
    cmocka_unit_test (test_columns_share_the_width),
    cmocka_unit_test (test_columns_without_room_are_left_out),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
