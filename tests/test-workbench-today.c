/* The market's pages on the demo book: whose list is due, what went over its target since somebody last
 * looked, what moved and what has no price; how prices moved over a period; packs side by side. */
#include "support/bench-hands.h"

#include <string.h>

#include "cro-market-rows.h"
#include "cro-market-today.h"
#include "cro-moves-bench.h"
#include "cro-packs-bench.h"
#include "cro-page-list.h"
#include "cro-records-view.h"
#include "cro-reveal.h"
#include "cro-state.h"

static int
open_today (void **state)
{
  CroTestBench *test;

  open_book (state);
  test = *state;
  cro_test_bench_show (test, CRO_TYPE_MARKET_TODAY, CRO_REF_NOWHERE);
  return 0;
}

static int
open_moves (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_MOVES_BENCH, CRO_REF_NOWHERE);
  return 0;
}

static CroRecordsView *
table_of (CroTestBench *test)
{
  return CRO_RECORDS_VIEW (cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_RECORDS_VIEW));
}

static char *
cell_of (CroTestBench *test,
         guint         row,
         guint         column)
{
  CroRecords *records = cro_records_view_get_records (table_of (test));
  g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (records), row);

  return cro_record_dup_text (record, column);
}

static void
assert_cell_is (CroTestBench *test,
                guint         row,
                guint         column,
                const char   *wanted)
{
  g_autofree char *text = cell_of (test, row, column);

  if (strcmp (text, wanted) != 0)
    fail_msg ("row %u, column %u: %s", row, column, text);
}

/* --- Today --------------------------------------------------------------------------------------- */

/* On 25 November: lists of 16, 19, 23 and 24 November, every seven days. */
static void
test_it_says_whose_list_is_due (void **state)
{
  CroTestBench *test = *state;

  named (test, "Mill Lane Dry Goods, Last list 2026-11-16 · List due since 2026-11-23, every 7 days");
  named (test, "Far Bank Fish and Meat, Last list 2026-11-19 · Next list 2026-11-26, every 7 days");
  named (test, "Quay Shellfish, Last list 2026-11-24 · Next list 2026-12-01, every 7 days");
  assert_named (GTK_WIDGET (test->bench), "today");
}

static void
test_its_ways_lead_there (void **state)
{
  static const struct { const char *button; CroRefKind kind; gboolean has_slot; } ways[] = {
    { "New prices of Quay Shellfish", CRO_REF_SUPPLIER, TRUE },
    { "Sea purslane, set price", CRO_REF_ITEM, TRUE },
    { "Hake, potatoes and mussels, 30.2\u00a0%, target 30.0\u00a0%", CRO_REF_RECIPE, TRUE },
  };
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  for (gsize i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      opened = CRO_REF_NOWHERE;
      g_signal_emit_by_name (named (test, ways[i].button), "clicked");
      assert_int_equal (opened.kind, ways[i].kind);
      assert_true ((opened.slot != CRO_NO_SLOT) == ways[i].has_slot);
    }
  gtk_widget_activate_action (GTK_WIDGET (test->bench), "market.what-moved", NULL);
  assert_int_equal (opened.kind, CRO_REF_PRICES);
}

/* Pasted, of the seller that a document names, or with whose name a message begins, wherever the focus is. */
static void
test_a_pasted_list_is_of_its_seller (void **state)
{
  static const char invoice[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>F-20</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>GBP</b:DocumentCurrencyCode>"
      "<a:AccountingSupplierParty><a:Party><a:PartyName><b:Name>Far Bank Fish and Meat Ltd</b:Name></a:PartyName>"
      "</a:Party></a:AccountingSupplierParty>"
      "<a:InvoiceLine><b:ID>1</b:ID><b:InvoicedQuantity unitCode='KGM'>5</b:InvoicedQuantity>"
      "<b:LineExtensionAmount currencyID='GBP'>55.00</b:LineExtensionAmount><a:Item><b:Name>Hake</b:Name></a:Item>"
      "<a:Price><b:PriceAmount currencyID='GBP'>11.00</b:PriceAmount></a:Price></a:InvoiceLine></Invoice>";
  static const struct { const char *text, *supplier; } cases[] = {
    { "Quay Shellfish, 30 Nov\nbrown crab 69.50\n", "Quay Shellfish" },
    { invoice, "Far Bank Fish and Meat" },
  };
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      opened = CRO_REF_NOWHERE;
      gdk_clipboard_set_text (gtk_widget_get_clipboard (test->window), cases[i].text);
      gtk_widget_activate_action (GTK_WIDGET (test->bench), "market.paste", NULL);
      cro_test_wait_until (opened.kind == CRO_REF_SUPPLIER, "%s is not taken", cases[i].text);
      assert_int_equal (opened.slot, cro_test_find_ref (test, CRO_NAMES_SUPPLIERS, cases[i].supplier).slot);
    }
}

/* The supplier on the bench is in sight where a new name puts it. */
static void
test_the_list_follows_a_new_name (void **state)
{
  CroTestBench *test = *state;
  CroRef far = cro_test_find_ref (test, CRO_NAMES_SUPPLIERS, "Far Bank Fish and Meat");
  GtkWidget *window = gtk_window_new (), *list = cro_page_list_new (cro_market_rows_new, NULL), *row = NULL;
  GError *error = NULL;

  gtk_window_set_child (GTK_WINDOW (window), list);
  gtk_window_set_default_size (GTK_WINDOW (window), 300, 180);
  gtk_window_present (GTK_WINDOW (window));
  cro_page_list_set_book (CRO_PAGE_LIST (list), test->book);
  cro_page_list_select (CRO_PAGE_LIST (list), far);
  cro_test_wait_shown (list, "Far Bank Fish and Meat");
  cro_test_see (window);
  cro_test_must (cro_edit_rename (test->book, "name", far, "Zander and Sons", &error), error);
  cro_test_wait_until ((row = cro_test_find_shown (list, "Zander and Sons")) != NULL && cro_reveal_is_seen (row),
                       "the row of what has a new name is not in sight");
  gtk_window_destroy (GTK_WINDOW (window));
}

/* A price that is set is missed no more, and undone it is again. */
static void
test_it_follows_the_book (void **state)
{
  CroTestBench *test = *state;
  CroUnitPrice price = { INT64_C (20000000), CRO_UNIT_KG, "Upriver Produce and Dairy", 20780, 0 };
  CroRef purslane = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Sea purslane");
  GError *error = NULL;

  assert_shown (test, "Sea purslane");
  cro_test_must (cro_edit_price_ingredient (test->book, "price", purslane.slot, &price, NULL, &error), error);
  cro_test_settle ();
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Sea purslane"));
  assert_shown (test, "All ingredients in use have a price.");
  undo (test);
  assert_shown (test, "Sea purslane");
}

/* The book began long ago, and somebody looked at it yesterday: lamb at ten times its price is new. What that
 * plate showed depends on prices of a day that no test knows. */
static char *
look_yesterday (CroTestBench *test)
{
  const char *path = cro_store_get_path (cro_book_get_store (test->book));
  CroDate yesterday = cro_here_day_of_acts () - 1;
  CroRef lamb = cro_test_find_ref (test, CRO_NAMES_ITEMS, "Lamb saddle");
  sqlite3 *db = cro_test_raw (path);
  char day[CRO_DATE_CHARS];
  g_autofree char *shown = cro_date_to_text (yesterday);
  GError *error = NULL;

  cro_test_sql (db, "UPDATE act SET at = '2000-01-01T12:00:00Z', day = '2000-01-01'");
  sqlite3_close (db);
  cro_date_format (yesterday, day);
  cro_state_set_text (path, "market-seen", day);
  cro_test_must (cro_edit_set_price (test->book, "price", cro_book_get_figures (test->book)->offer_in_use[lamb.slot],
                                     20780, INT64_C (4000000000), &error),
                 error);
  return g_strdup_printf ("Over target since you last looked, %s", shown);
}

static void
test_what_went_over_since_is_told_apart (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *title = look_yesterday (test);

  cro_test_bench_show (test, CRO_TYPE_MARKET_TODAY, CRO_REF_NOWHERE);
  assert_shown (test, title);
  assert_shown (test, "Salt-marsh lamb, celeriac and sea beet");
  /* The same day it goes on being told. */
  cro_bench_put (test->bench, CRO_NO_SLOT);
  assert_shown (test, title);
}

/* Price movements say it too, and lead there. */
static void
test_moves_tell_what_went_over_too (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *title = look_yesterday (test);

  cro_test_bench_show (test, CRO_TYPE_MOVES_BENCH, CRO_REF_NOWHERE);
  gtk_widget_activate_action (GTK_WIDGET (test->bench), "moves.over", NULL);
  assert_shown (test, title);
  assert_shown (test, "Salt-marsh lamb, celeriac and sea beet");
}

static void
test_without_a_look_before_all_is_told (void **state)
{
  CroTestBench *test = *state;

  assert_shown (test, "Over target");
  assert_shown (test, "Oysters, half-dozen");
}

/* --- Price movements ------------------------------------------------------------------------------ */

static void
test_moves_stand_by_their_effect (void **state)
{
  CroTestBench *test = *state;

  assert_shown (test, "Lamb saddle");
  assert_cell_is (test, 0, 0, "Lamb saddle");
  assert_named (GTK_WIDGET (test->bench), "price movements");
}

static void
test_a_period_is_typed (void **state)
{
  CroTestBench *test = *state;

  assert_shown (test, "Lamb saddle");
  enter (test, "Since", "2026-11-24");
  assert_shown (test, "Other day");
  /* From that day on nothing of the supplier of lamb has moved. */
  {
    g_autofree char *first = cell_of (test, 0, 0);

    assert_string_not_equal (first, "Lamb saddle");
  }
  enter (test, "Since", "2027-01-01");
  assert_shown (test, "Type a day before the day of the prices shown.");
  enter (test, "Since", "");
  assert_shown (test, "28 days");
  assert_shown (test, "Lamb saddle");
  assert_cell_is (test, 0, 0, "Lamb saddle");
}

static void
test_old_prices_alone (void **state)
{
  CroTestBench *test = *state;
  guint all, old;

  assert_shown (test, "Lamb saddle");
  all = cro_records_get_n_chosen (cro_records_view_get_records (table_of (test)));
  gtk_widget_activate_action (GTK_WIDGET (test->bench), "moves.old", NULL);
  cro_test_settle ();
  old = cro_records_get_n_chosen (cro_records_view_get_records (table_of (test)));
  assert_true (old > 0 && old < all);
}

int
main (void)
{
#define TODAY(test) cmocka_unit_test_setup_teardown (test, open_today, close_book)
#define MOVES(test) cmocka_unit_test_setup_teardown (test, open_moves, close_book)
  const struct CMUnitTest tests[] = {
    TODAY (test_it_says_whose_list_is_due),
    TODAY (test_its_ways_lead_there),
    TODAY (test_it_follows_the_book),
    TODAY (test_a_pasted_list_is_of_its_seller),
    TODAY (test_the_list_follows_a_new_name),
    TODAY (test_without_a_look_before_all_is_told),
    cmocka_unit_test_setup_teardown (test_what_went_over_since_is_told_apart, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_moves_tell_what_went_over_too, open_book, close_book),
    MOVES (test_moves_stand_by_their_effect),
    MOVES (test_a_period_is_typed),
    MOVES (test_old_prices_alone),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
