/* Suppliers and exchange rates on the demo book: entered, changed, merged, removed and undone. */
#include "support/bench-tables.h"

#include "cro-focus.h"
#include "cro-rates-bench.h"
#include "cro-supplier-bench.h"
#include "cro-words.h"

static int
open_rates (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_RATES_BENCH, CRO_REF_NOWHERE);
  return 0;
}

static int
open_supplier (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_SUPPLIER_BENCH,
                       cro_test_find_ref (*state, CRO_NAMES_SUPPLIERS, "Quay Shellfish"));
  return 0;
}

/* --- Suppliers and rates --------------------------------------------------------------------------- */

static void
test_a_supplier_changes_and_stays (void **state)
{
  CroTestBench *test = *state;

  cro_test_type (field (test, "Contact"), "at low water");
  cro_test_enter (field (test, "Contact"));
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (field (test, "Contact"))), "at low water");
  cro_test_type (field (test, "Supplier"), "Creek and Tide");
  cro_test_enter (field (test, "Supplier"));
  cro_test_find_ref (test, CRO_NAMES_SUPPLIERS, "Creek and Tide");
  /* The heading of the page, too. */
  assert_shown (test, "Creek and Tide");
  press (test, "Remove");
  assert_non_null (strstr (test->said->str,
                           "This supplier has packs or purchases and cannot be removed."));
}

/* The button of the window that asks; NULL: there is none. */
static GtkWidget *
find_merge (CroTestBench *test)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *at = windows; at != NULL; at = at->next)
    if (gtk_window_get_transient_for (at->data) == GTK_WINDOW (test->window))
      return cro_focus_find (at->data, "suggested-action");
  return NULL;
}

/* All that stands under one name is given to another in one act, and given back in one. */
static void
test_a_supplier_becomes_another (void **state)
{
  CroTestBench *test = *state;
  CroModel *model = cro_book_get_model (test->book);
  g_autofree char *before = cro_test_figures (test->book), *undone = NULL;
  guint32 of = cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, "Quay Shellfish").slot;
  guint32 into = cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, "Mill Lane Dry Goods").slot;
  guint n_packs = 0;
  GtkWidget *merge;

  cro_test_type (field (test, "Supplier"), "Mill Lane Dry Goods");
  assert_non_null (cro_test_find_containing (test->window, "it then also has "));
  cro_test_enter (field (test, "Supplier"));
  merge = find_merge (test);
  assert_non_null (merge);
  assert_true (cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, "Quay Shellfish").kind != CRO_REF_NONE);
  g_signal_emit_by_name (merge, "clicked");
  cro_test_settle ();
  for (guint32 i = 0; i < model->offers->len; i++)
    {
      assert_true (cro_model_offer (model, i)->is_dead || cro_model_offer (model, i)->supplier != of);
      n_packs += !cro_model_offer (model, i)->is_dead && cro_model_offer (model, i)->supplier == into;
    }
  assert_true (n_packs > 0);
  assert_int_equal (cro_edit_find_name (model, CRO_NAMES_SUPPLIERS, "Quay Shellfish").kind, CRO_REF_NONE);
  undo (test);
  undone = cro_test_figures (test->book);
  cro_test_same ("undo of a merge of suppliers", before, undone);
}

/* Their packs and no others; what was bought of them lately. */
static void
test_a_supplier_shows_what_is_bought (void **state)
{
  CroTestBench *test = *state;

  assert_shown (test, "7 of 90 rows");
  assert_shown (test, "Brown crab");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Agar"));
  assert_shown (test, "Bought in 28 days: 2272.95 net, 7 documents");
}

static void
test_a_rate_comes_changes_and_goes (void **state)
{
  CroTestBench *test = *state;
  GListModel *rows;
  guint n;

  rows = G_LIST_MODEL (cro_records_view_get_records (table_of (test)));
  n = g_list_model_get_n_items (rows);
  /* From when it holds is in sight before anything is typed. */
  assert_string_equal (gtk_entry_get_placeholder_text (GTK_ENTRY (field (test, "Since"))), "2026-11-25");
  cro_test_type (field (test, "Currency"), "gpb");
  cro_test_type (field (test, "Rate"), "1.2");
  assert_shown (test, "“GPB” is not a currency code. Use one such as EUR or GBP.");
  press (test, "Set Rate");
  assert_shown (test, "“GPB” is not a currency code. Use one such as EUR or GBP.");
  cro_test_type (field (test, "Currency"), "chf");
  cro_test_type (field (test, "Rate"), "1.05 EUR");
  press (test, "Set Rate");
  assert_shown (test, "“1.05 EUR” is not a number. Type digits, or a sum as in 2 × 1.5.");
  cro_test_type (field (test, "Rate"), "1.05");
  cro_test_type (field (test, "For"), "");
  cro_test_type (field (test, "Since"), "");
  assert_shown (test, "1 CHF = 1.05 EUR, since 2026-11-25");
  cro_test_type (field (test, "Since"), "2026-11-24");
  assert_shown (test, "1 CHF = 1.05 EUR, since 2026-11-24");
  assert_false (gtk_widget_is_sensitive (button (test, "Remove")));
  press (test, "Set Rate");
  assert_int_equal (g_list_model_get_n_items (rows), n + 1);
  /* What was set is chosen, and the form says that and no more. */
  assert_chosen (test, "CHF");
  assert_shown (test, "1 CHF = 1.05 EUR, since 2026-11-24 · in force");
  assert_true (gtk_widget_is_sensitive (button (test, "Remove")));
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (field (test, "Since"))), "");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (field (test, "Rate"))), "1.0500");
  cro_test_type (field (test, "Rate"), "106");
  assert_shown (test, "1 CHF = 106 EUR, since 2026-11-25 · is 1.06 meant?");
  press (test, "Set Rate");
  assert_int_equal (g_list_model_get_n_items (rows), n + 1);
  assert_shown (test, "1 CHF = 106 EUR, since 2026-11-25 · Not set yet: is 1.06 meant? If the rate is right, set it "
                    "once more.");
  g_object_set (gtk_settings_get_default (), "gtk-double-click-time", 60000, NULL);
  press (test, "Set Rate");
  assert_int_equal (g_list_model_get_n_items (rows), n + 1);
  g_object_set (gtk_settings_get_default (), "gtk-double-click-time", 0, NULL);
  press (test, "Set Rate");
  assert_int_equal (g_list_model_get_n_items (rows), n + 2);
  assert_shown (test, "1 CHF = 106 EUR, since 2026-11-25 · in force · is 1.06 meant?");
  assert_shown (test, "in force · is 1.06 meant?");
  press (test, "Remove");
  assert_int_equal (g_list_model_get_n_items (rows), n + 1);
  /* One that is quoted the other way round, and what it would do to plates. */
  cro_test_type (field (test, "Currency"), "GBP");
  cro_test_type (field (test, "Rate"), "0.8711");
  assert_shown (test, "1 GBP = 0.8711 EUR, since 2026-11-25 · is 1.148 meant?");
  press (test, "Set Rate");
  assert_int_equal (g_list_model_get_n_items (rows), n + 1);
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "It moves: "));
  undo (test);
  undo (test);
  assert_shown (test, "1.0500");
}

/* A day that is typed and left without a rate is not at the next; the button is of the same fields. */
static void
test_a_day_is_of_the_next_rate_alone (void **state)
{
  CroTestBench *test = *state;

  choose_row (test, "GBP");
  cro_test_type (field (test, "Since"), "2026-11-20");
  gtk_widget_grab_focus (button (test, "Set Rate"));
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (field (test, "Since"))), "2026-11-20");
  cro_records_view_focus_rows (table_of (test));
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (field (test, "Since"))), "");
  assert_non_null (strstr (test->said->str, "Nothing was entered for 2026-11-20; nothing changed."));
}

static void
assert_read_only (CroTestBench *test,
                  const char   *name)
{
  GtkWidget *entry = field (test, name);

  if (gtk_editable_get_editable (GTK_EDITABLE (entry))
      || g_strcmp0 (gtk_widget_get_tooltip_text (entry), cro_words_past ()) != 0)
    fail_msg ("%s can be typed into in the book as it stood", name);
}

/* As all fields of it, before anything is typed. */
static void
test_rates_of_the_book_as_it_stood_are_only_read (void **state)
{
  CroTestBench *test = *state;
  CroBook *now = test->book;
  CroDate today = cro_here_today ();
  GError *error = NULL;

  choose_row (test, "GBP");
  cro_test_type (field (test, "Rate"), "2");
  test->book = cro_book_open_past (test->folder.path, today, cro_date_from_civil (2026, 11, 3), &error);
  cro_test_must (test->book != NULL, error);
  cro_bench_set_book (test->bench, test->book);
  cro_bench_put (test->bench, CRO_NO_SLOT);
  cro_test_settle ();
  /* Not what is newest, but what is in force that day. */
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "since 2026-11-02 · in force"));
  assert_read_only (test, "Currency");
  assert_read_only (test, "Rate");
  assert_read_only (test, "For");
  assert_read_only (test, "Since");
  assert_false (gtk_widget_is_sensitive (button (test, "Set Rate")));
  assert_false (gtk_widget_is_sensitive (button (test, "Remove")));
  assert_string_not_equal (gtk_editable_get_text (GTK_EDITABLE (field (test, "Rate"))), "2");
  cro_bench_set_book (test->bench, now);
  cro_bench_put (test->bench, CRO_NO_SLOT);
  cro_test_settle ();
  assert_true (gtk_editable_get_editable (GTK_EDITABLE (field (test, "Rate"))));
  assert_true (gtk_widget_is_sensitive (button (test, "Set Rate")));
  g_object_unref (test->book);
  test->book = now;
}

/* Without a table to bring. */
static void
test_a_supplier_asks_a_minimum (void **state)
{
  CroTestBench *test = *state;

  cro_test_type (field (test, "Minimum order"), "250");
  cro_test_enter (field (test, "Minimum order"));
  cro_test_type (field (test, "Delivery charge"), "12.5");
  cro_test_enter (field (test, "Delivery charge"));
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (field (test, "Minimum order"))), "250.00");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (field (test, "Delivery charge"))), "12.50");
  undo (test);
  undo (test);
}

/* --- Every table names what can be pressed ----------------------------------------------------------- */

static void
test_controls_of_a_supplier_have_names (void **state)
{
  assert_named (GTK_WIDGET (((CroTestBench *) *state)->bench), "a supplier");
}

static void
test_controls_of_rates_have_names (void **state)
{
  assert_named (GTK_WIDGET (((CroTestBench *) *state)->bench), "the exchange rates");
}

int
main (void)
{
#define RATES(test) cmocka_unit_test_setup_teardown (test, open_rates, close_book)
#define SUPPLIER(test) cmocka_unit_test_setup_teardown (test, open_supplier, close_book)
  const struct CMUnitTest tests[] = {
    SUPPLIER (test_a_supplier_changes_and_stays),
    SUPPLIER (test_a_supplier_asks_a_minimum),
    SUPPLIER (test_a_supplier_becomes_another),
    SUPPLIER (test_a_supplier_shows_what_is_bought),
    SUPPLIER (test_controls_of_a_supplier_have_names),
    RATES (test_a_rate_comes_changes_and_goes),
    RATES (test_a_day_is_of_the_next_rate_alone),
    RATES (test_rates_of_the_book_as_it_stood_are_only_read),
    RATES (test_controls_of_rates_have_names),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
