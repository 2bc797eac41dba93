/* Market and Months on the demo book: tables are sorted by their headings, searched and added up;
 * prices, suppliers and rates are entered, changed, removed and undone. */
#include "support/bench-hands.h"

#include "cro-breakdown.h"
#include "cro-columns.h"
#include "cro-focus.h"
#include "cro-months-bench.h"
#include "cro-number.h"
#include "cro-pack-form.h"
#include "cro-packs-bench.h"
#include "cro-rate-form.h"
#include "cro-rates-bench.h"
#include "cro-records-view.h"
#include "cro-supplier-bench.h"
#include "cro-supplier-form.h"
#include "cro-words.h"

static int
open_market (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  return 0;
}

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
click (GtkWidget *button)
{
  g_signal_emit_by_name (button, "clicked");
  cro_test_settle ();
}

/* A field of the form below the table, whose headings have the same names. */
static GtkWidget *
field (CroTestBench *test,
       const char   *name)
{
  GType forms[] = { CRO_TYPE_SUPPLIER_FORM, CRO_TYPE_PACK_FORM, CRO_TYPE_RATE_FORM };

  for (gsize i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      GtkWidget *form = cro_test_find_type (GTK_WIDGET (test->bench), forms[i]);

      if (form != NULL)
        return cro_test_find_named (form, name);
    }
  fail_msg ("there is no form");
  return NULL;
}

static GtkWidget *
button (CroTestBench *test,
        const char   *label)
{
  return gtk_widget_get_ancestor (cro_test_find_shown (GTK_WIDGET (test->bench), label), GTK_TYPE_BUTTON);
}

static CroRecordsView *
table_of (CroTestBench *test)
{
  return CRO_RECORDS_VIEW (cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_RECORDS_VIEW));
}

static char *
cell (CroTestBench *test,
      guint         row,
      guint         column)
{
  g_autoptr (CroRecord) record = g_list_model_get_item (
      G_LIST_MODEL (cro_records_view_get_records (table_of (test))), row);

  assert_non_null (record);
  return cro_record_dup_text (record, column);
}

static void
assert_cell (CroTestBench *test,
             guint         row,
             guint         column,
             const char   *text)
{
  g_autofree char *is = cell (test, row, column);

  assert_string_equal (is, text);
}

/* Selects the row whose first column is text. */
static void
choose_row (CroTestBench *test,
            const char   *text)
{
  GListModel *rows = G_LIST_MODEL (cro_records_view_get_records (table_of (test)));

  for (guint i = 0; i < g_list_model_get_n_items (rows); i++)
    {
      g_autofree char *first = cell (test, i, 0);
      g_autoptr (CroRecord) record = g_list_model_get_item (rows, i);

      if (strcmp (first, text) != 0)
        continue;
      cro_records_view_select (table_of (test), record);
      cro_test_settle ();
      return;
    }
  fail_msg ("no row of %s", text);
}

static void
assert_chosen (CroTestBench *test,
               const char   *text)
{
  g_autoptr (CroRecord) record = cro_records_view_dup_selected (table_of (test));
  g_autofree char *first = cro_record_dup_text (record, 0);

  assert_string_equal (first, text);
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
  assert_cell (test, 10, 8, "is 66.00 meant?");
  choose_row (test, "Agar");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  choose_row (test, "Brown crab");
  gtk_widget_grab_focus (price);
  cro_test_wait_shown (GTK_WIDGET (test->bench), question);
  assert_shown (test, "Set 66.00");
  cro_test_type (price, "2100");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "6600.00 Is Right"));
  cro_test_escape (price);
  assert_cell (test, 10, 8, "is 66.00 meant?");
  gtk_widget_grab_focus (price);
  press (test, "6600.00 Is Right");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  assert_cell (test, 10, 8, "in use");
  assert_chosen (test, "Brown crab");
  undo (test);
  assert_cell (test, 10, 8, "is 66.00 meant?");
  press (test, "Set 66.00");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  assert_cell (test, 10, 8, "in use");
  undo (test);
  assert_cell (test, 10, 8, "is 66.00 meant?");
  undo (test);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), question));
  assert_cell (test, 10, 8, "in use");
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
#define MARKET(test) cmocka_unit_test_setup_teardown (test, open_market, close_book)
#define RATES(test) cmocka_unit_test_setup_teardown (test, open_rates, close_book)
#define SUPPLIER(test) cmocka_unit_test_setup_teardown (test, open_supplier, close_book)
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
    SUPPLIER (test_a_supplier_changes_and_stays),
    SUPPLIER (test_a_supplier_asks_a_minimum),
    SUPPLIER (test_a_supplier_becomes_another),
    SUPPLIER (test_a_supplier_shows_what_is_bought),
    SUPPLIER (test_controls_of_a_supplier_have_names),
    RATES (test_a_rate_comes_changes_and_goes),
    RATES (test_a_day_is_of_the_next_rate_alone),
    RATES (test_rates_of_the_book_as_it_stood_are_only_read),
    RATES (test_controls_of_rates_have_names),
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
