/* Packs of an ingredient on its bench: they are entered, change and go, and say whose prices are of them. */
#include "support/bench-ingredient.h"

#include "cro-decimal.h"
#include "cro-offer-card.h"
#include "cro-price-table.h"
#include "cro-row-grid.h"
#include "cro-words.h"

#define DAY 20782 /* 2026-11-25, the demo's */

/* A book that was begun in French has its packs without a supplier under one name in English too. */
static void
test_no_supplier_is_one_in_all_languages (void **state)
{
  CroTestBench *test = *state;
  GError *error = NULL;

  assert_string_equal (cro_words_no_supplier (model_of (test)), "No supplier named");
  cro_test_must (cro_edit_rename (test->book, "name", cro_test_find_ref (test, CRO_NAMES_SUPPLIERS, "Quay Shellfish"),
                                  "Aucun fournisseur indiqué", &error),
                 error);
  assert_string_equal (cro_words_no_supplier (model_of (test)), "Aucun fournisseur indiqué");
}

static void
test_a_pack_is_entered_in_one_act (void **state)
{
  CroTestBench *test = *state;
  guint n;

  show_crab (test);
  n = item_of (test)->n_offers;
  cro_test_type (named (test, "Supplier"), "Creek Boats");
  cro_test_type (named (test, "times"), "10 kg");
  cro_test_type (named (test, "Price per pack"), "120");
  press (test, "Add Pack");
  assert_int_equal (item_of (test)->n_offers, n + 1);
  assert_shown (test, "Creek Boats");
  assert_shown (test, "12.00/kg");
  gtk_widget_grab_focus (named (test, "price of Brown crab from Creek Boats"));
  undo (test);
  /* The focus does not go with what is taken away: it stays among the packs. */
  assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)),
                                       named (test, "Supplier")));
  assert_int_equal (item_of (test)->n_offers, n);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Creek Boats"));
}

/* The pack that a supplier has of the ingredient; NULL: none. */
static const CroOfferEntry *
pack_from (CroTestBench *test,
           const char   *supplier)
{
  CroModel *model = model_of (test);

  for (guint32 i = 0; i < model->offers->len; i++)
    {
      const CroOfferEntry *entry = cro_model_offer (model, i);

      if (!entry->is_dead && cro_model_item (model, entry->item) == item_of (test)
          && strcmp (g_array_index (model->suppliers, CroSupplier, entry->supplier).name, supplier) == 0)
        return entry;
    }
  return NULL;
}

/* What the price is for is the pack where that is left empty: it is what is bought. */
static void
test_a_price_says_its_pack (void **state)
{
  static const struct { const char *price, *per_kg; double size; CroUnit unit; double pays; } cases[] = {
    { "31/500 g", "62.00/kg", 500, CRO_UNIT_G, 31 },
    { "10 per 3 kg", "3.33/kg", 3, CRO_UNIT_KG, 10 },
    { "120/kg", "120.00/kg", 1, CRO_UNIT_KG, 120 },
  };
  CroTestBench *test = *state;

  show_crab (test);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const CroOfferEntry *entry;

      cro_test_type (named (test, "Supplier"), "Creek Boats");
      cro_test_type (named (test, "Price per pack"), cases[i].price);
      press (test, "Add Pack");
      entry = pack_from (test, "Creek Boats");
      assert_non_null (entry);
      assert_int_equal (entry->pack_count, CRO_MICRO);
      assert_int_equal (entry->pack_size, (gint64) (cases[i].size * CRO_MICRO));
      assert_int_equal (entry->pack_unit, cases[i].unit);
      assert_int_equal (entry->offer.price, (gint64) (cases[i].pays * CRO_MICRO));
      assert_shown (test, cases[i].per_kg);
      undo (test);
    }
}

/* A box of 4 kg costs what one of 5 kg did: from a day on, and not for the year before. */
static void
test_a_pack_that_changed_begins_on_a_day (void **state)
{
  CroTestBench *test = *state;
  const char *size = "pack size of Brown crab from Quay Shellfish";
  const char *from = "first day of the change of Brown crab from Quay Shellfish";
  g_autofree char *not_a_date = NULL;
  CroDate day;
  GError *error = NULL;

  show_crab (test);
  assert_shown (test, "13.20/kg");
  cro_test_type (named (test, size), "4");
  assert_shown (test, "16.50/kg");
  cro_test_escape (named (test, size));
  assert_shown (test, "13.20/kg");
  cro_test_type (named (test, size), "4");
  cro_test_enter (named (test, size));
  assert_shown (test, "16.50/kg");
  assert_shown (test, "since 2026-11-25");
  day = cro_book_get_figures (test->book)->date;
  cro_test_must (cro_book_set_date (test->book, day - 1, &error), error);
  cro_test_settle ();
  assert_shown (test, "13.20/kg");
  cro_test_must (cro_book_set_date (test->book, day, &error), error);
  cro_test_settle ();
  undo (test);
  assert_shown (test, "13.20/kg");
  /* Another day is asked for once. */
  cro_test_type (named (test, from), "2026-11-25");
  cro_test_type (named (test, "price of Brown crab from Quay Shellfish"), "70");
  cro_test_enter (named (test, "price of Brown crab from Quay Shellfish"));
  assert_shown (test, "14.00/kg");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, from))), "");
  cro_test_type (named (test, from), "someday");
  cro_test_type (named (test, "price of Brown crab from Quay Shellfish"), "75");
  cro_test_enter (named (test, "price of Brown crab from Quay Shellfish"));
  not_a_date = dup_not_a_date ();
  assert_shown (test, not_a_date);
  cro_test_escape (named (test, "price of Brown crab from Quay Shellfish"));
  /* One that nothing followed is not at the next pack, and what was kept for another day is said. */
  cro_test_type (named (test, from), "2026-11-20");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "next entry from 2026-11-20"));
  cro_test_enter (named (test, from));
  assert_focus (test, "price of Brown crab from Quay Shellfish");
  gtk_widget_grab_focus (named (test, "Note"));
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, from))), "");
  cro_test_type (named (test, from), "2026-11-20");
  enter (test, size, "4");
  assert_non_null (strstr (test->said->str,
                           "Kept from 2026-11-20: pack size of Brown crab from Quay Shellfish (4)"));
}

static void
test_an_unfinished_pack_is_not_entered (void **state)
{
  CroTestBench *test = *state;
  guint n;

  show_crab (test);
  n = item_of (test)->n_offers;
  cro_test_type (named (test, "Supplier"), "Creek Boats");
  press (test, "Add Pack");
  assert_shown (test, "What is in a pack? For instance 5 kg.");
  assert_int_equal (item_of (test)->n_offers, n);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Supplier"))),
                       "Creek Boats");
  /* A supplier whose name is like another's is asked about once. */
  cro_test_type (named (test, "Supplier"), "Quay");
  cro_test_type (named (test, "times"), "10 kg");
  press (test, "Add Pack");
  assert_shown (test, "“Quay Shellfish” is in the book too. Are the two the same? Press Enter again to add “Quay”.");
  assert_int_equal (item_of (test)->n_offers, n);
  /* A double click is no answer. */
  g_object_set (gtk_settings_get_default (), "gtk-double-click-time", 60000, NULL);
  press (test, "Add Pack");
  assert_int_equal (item_of (test)->n_offers, n);
  g_object_set (gtk_settings_get_default (), "gtk-double-click-time", 0, NULL);
  press (test, "Add Pack");
  assert_int_equal (item_of (test)->n_offers, n + 1);
  assert_non_null (pack_from (test, "Quay"));
  undo (test);
}

static void
test_what_is_no_pack_is_refused_where_it_stands (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *entry;

  show_crab (test);
  entry = named (test, "pack of Brown crab from 2026-11-24");
  cro_test_type (entry, "a boxful");
  cro_test_enter (entry);
  assert_shown (test, "What is in a pack? For instance 5 kg.");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (entry)), "a boxful");
}

static void
test_a_pack_changes_its_supplier (void **state)
{
  CroTestBench *test = *state;

  show_crab (test);
  gtk_toggle_button_set_active (
      GTK_TOGGLE_BUTTON (named (test, "More fields of Brown crab from Quay Shellfish")), TRUE);
  cro_test_settle ();
  enter (test, "supplier of Brown crab from Quay Shellfish", "Creek Boats");
  assert_shown (test, "Creek Boats");
  /* Fields are called by it. */
  named (test, "price of Brown crab from Creek Boats");
  undo (test);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Creek Boats"));
  gtk_toggle_button_set_active (
      GTK_TOGGLE_BUTTON (named (test, "More fields of Brown crab from Quay Shellfish")), TRUE);
  cro_test_settle ();
  enter (test, "supplier of Brown crab from Quay Shellfish", "");
  assert_shown (test, "This cannot be empty. Type a value; Escape gives back the one of before.");
}

/* Whose pack a price is of stands there whole beside the list of a window of 1366. */
static void
test_whose_pack_a_price_is_of_is_whole (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *table, *label;

  show_crab (test);
  gtk_window_set_default_size (GTK_WINDOW (test->window), 984, 700);
  cro_test_settle ();
  table = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_PRICE_TABLE);
  label = cro_test_find_shown (cro_test_find_type (table, CRO_TYPE_ROW_GRID), "Quay Shellfish · 101");
  assert_non_null (label);
  assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))));
  assert_int_equal (gtk_label_get_ellipsize (GTK_LABEL (label)), PANGO_ELLIPSIZE_NONE);
}

static void
test_tab_leaves_a_pack_that_changed_its_supplier (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *more, *card;

  show_crab (test);
  more = named (test, "More fields of Brown crab from Quay Shellfish");
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (more), TRUE);
  cro_test_settle ();
  card = gtk_widget_get_ancestor (more, CRO_TYPE_OFFER_CARD);
  cro_test_type (named (test, "supplier of Brown crab from Quay Shellfish"), "Creek Boats");
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)), card));
  cro_test_type (named (test, "supplier of Brown crab from Creek Boats"), "Tide Boats");
  gtk_widget_grab_focus (named (test, "price of Brown crab from Creek Boats"));
  cro_test_settle ();
  assert_focus (test, "price of Brown crab from Tide Boats");
}

static void
test_a_pack_goes_while_it_is_typed_into (void **state)
{
  CroTestBench *test = *state;
  CroUnitPrice price = { INT64_C (12000000), CRO_UNIT_KG, "Creek Boats", DAY, 0 };
  GError *error = NULL;
  GtkWidget *entry;

  cro_test_must (cro_edit_price_ingredient (
                     test->book, "price",
                     cro_test_find_ref (test, CRO_NAMES_ITEMS, "Brown crab").slot, &price, NULL,
                     &error),
                 error);
  show_crab (test);
  entry = named (test, "price of Brown crab from Creek Boats");
  cro_test_type (entry, "70");
  cro_test_must (cro_book_undo (test->book, NULL, &error), error);
  /* Before the window hears of it. */
  gtk_editable_set_text (GTK_EDITABLE (entry), "71");
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_non_null (gtk_window_get_focus (GTK_WINDOW (test->window)));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_pack_is_entered_in_one_act),
    CASE (test_a_price_says_its_pack),
    CASE (test_no_supplier_is_one_in_all_languages),
    CASE (test_a_pack_that_changed_begins_on_a_day),
    CASE (test_an_unfinished_pack_is_not_entered),
    CASE (test_what_is_no_pack_is_refused_where_it_stands),
    CASE (test_a_pack_changes_its_supplier),
    CASE (test_whose_pack_a_price_is_of_is_whole),
    CASE (test_tab_leaves_a_pack_that_changed_its_supplier),
    CASE (test_a_pack_goes_while_it_is_typed_into),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
