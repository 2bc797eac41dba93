/* The tables' definitions against the contract, and what one field may hold. */
#include "cro-table.h"

#include "cro-allergen.h"
#include "cro-column.h"
#include "cro-date.h"
#include "cro-decimal.h"
#include "cro-name.h"
#include "cro-unit.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

/* The table of the contract: * required, + key. */
static const char *const contract[CRO_N_TABLES] = {
  "book: key*+ value*",
  "ingredients: name*+ category kind unit* density_g_per_ml piece_g trim_yield_pct allergens"
  " may_contain note",
  "suppliers: name*+ contact quotes minimum_order delivery_charge note",
  "offers: ingredient*+ supplier*+ code+ pack_count* pack_size* pack_unit* net_pct currency"
  " preferred until gtin position",
  "prices: ingredient*+ supplier*+ code+ from*+ price tax_included_pct pack_count pack_size"
  " pack_unit",
  "price_answers: ingredient*+ supplier*+ code+ from*+ price* answered_on"
  " pack_count pack_size pack_unit currency",
  "rates: currency*+ from*+ rate* per",
  "preparations: name*+ by_products active_minutes smallest_part note picture",
  "outputs: item*+ preparation* role* amount unit yield_pct value density_g_per_ml piece_g"
  " lost_pct",
  "lines: into*+ parent*+ position*+ item* amount* unit* weighed yield_pct recovered_pct note",
  "plates: name*+ course makes* per_guest price tax_pct target_pct allowance_pct active_minutes"
  " note picture",
  "menus: name*+ price tax_pct target_pct note",
  "menu_plates: menu*+ plate*+ choice+ servings position share_pct",
  "selling_prices: name*+ from*+ price tax_pct",
  "services: date*+ service*+ name*+ covers*",
  "service_stock: date*+ service*+ item*+ amount* unit*",
  "yield_tests: test*+ item* date* purchased_g* usable_g* note",
  "yield_test_parts: test*+ output*+ weight_g*",
  "sales: date* kind* name* sold* net_revenue",
  "till_names: name*+ kind* sold_as",
  "counts: date* item* amount* unit* place",
  "purchases: date* document_date supplier document ingredient category kind amount unit"
  " net_value*",
  "adjustments: date* kind* item amount unit net_value note",
  "months: month*+ till_net_revenue till_gross_revenue ledger_purchases recipes_on"
  " closing_stock_value late_estimate closed_at reason hash",
  "month_rows: month*+ kind*+ name*+ part_kind+ part+ number+ date sold net_revenue price unit"
  " quantity cost cost_per_1000 supplier document category row_kind note",
};

#define M CRO_MICRO

static const struct
{
  const char   *says;
  CroTableId    table;
  guint         column;
  const char   *text;
  gint64        number;
} good[] = {
  { "the smallest pack", CRO_TABLE_OFFERS, CRO_OFFERS_PACK_SIZE, "0.000001", 1 },
  { "all of it", CRO_TABLE_OFFERS, CRO_OFFERS_NET_PCT, "100", 100 * M },
  { "ten times the weight", CRO_TABLE_LINES, CRO_LINES_YIELD_PCT, "1000", 1000 * M },
  { "nothing comes back", CRO_TABLE_LINES, CRO_LINES_RECOVERED_PCT, "0", 0 },
  { "nearly all comes back", CRO_TABLE_LINES, CRO_LINES_RECOVERED_PCT, "99.999999", 99999999 },
  { "any part of a batch", CRO_TABLE_PREPARATIONS, CRO_PREPARATIONS_SMALLEST_PART, "0", 0 },
  { "whole batches", CRO_TABLE_PREPARATIONS, CRO_PREPARATIONS_SMALLEST_PART, "1", M },
  { "a gift", CRO_TABLE_PRICES, CRO_PRICES_PRICE, "0", 0 },
  { "a return", CRO_TABLE_PURCHASES, CRO_PURCHASES_AMOUNT, "-2.5", -2500000 },
  { "a credit note", CRO_TABLE_PURCHASES, CRO_PURCHASES_NET_VALUE, "-109.98", -109980000 },
  { "a credited part", CRO_TABLE_MONTH_ROWS, CRO_MONTH_ROWS_COST, "-1", -M },
  { "a leap day", CRO_TABLE_PRICES, CRO_PRICES_FROM, "2024-02-29", 19782 },
  { "a month", CRO_TABLE_MONTHS, CRO_MONTHS_MONTH, "1970-02", 31 },
  { "a base unit", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_UNIT, "each", CRO_BASE_EACH },
  { "a unit", CRO_TABLE_LINES, CRO_LINES_UNIT, "us-fl-oz", CRO_UNIT_US_FL_OZ },
  { "a choice with a space", CRO_TABLE_SUPPLIERS, CRO_SUPPLIERS_QUOTES, "base unit", 1 },
  { "a choice", CRO_TABLE_OUTPUTS, CRO_OUTPUTS_ROLE, "by-product", 1 },
  { "said to be none", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_ALLERGENS, "none", 0 },
  { "two codes", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_ALLERGENS, "milk gluten", 1 | 1 << 6 },
};

static const struct
{
  const char   *says;
  CroTableId    table;
  guint         column;
  const char   *text;
  CroFaultKind  kind;
  const char   *detail;
} bad[] = {
  { "an exponent", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "1e3", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "a plus", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "+1", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "no digit in front", CRO_TABLE_LINES, CRO_LINES_AMOUNT, ".5", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "no digit behind", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "5.", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "a space", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "5 ", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "infinity", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "inf", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "not a number", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "nan", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "a comma", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "1,5", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "hexadecimal", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "0x1", CRO_FAULT_NOT_A_NUMBER, NULL },
  { "a seventh place", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "1.0000001",
    CRO_FAULT_TOO_MANY_PLACES, NULL },
  { "more than can be kept", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "9223372036855",
    CRO_FAULT_TOO_LARGE, NULL },
  { "a negative line", CRO_TABLE_LINES, CRO_LINES_AMOUNT, "-1", CRO_FAULT_OUT_OF_RANGE, "[0, ∞)" },
  { "an empty pack", CRO_TABLE_OFFERS, CRO_OFFERS_PACK_COUNT, "0",
    CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "an empty pack of a price", CRO_TABLE_PRICES, CRO_PRICES_PACK_SIZE, "0",
    CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "no density", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_DENSITY_G_PER_ML, "0",
    CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "no weight", CRO_TABLE_OUTPUTS, CRO_OUTPUTS_PIECE_G, "0", CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "an empty output", CRO_TABLE_OUTPUTS, CRO_OUTPUTS_AMOUNT, "0",
    CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "no bites", CRO_TABLE_PLATES, CRO_PLATES_MAKES, "0", CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "none for a guest", CRO_TABLE_PLATES, CRO_PLATES_PER_GUEST, "0",
    CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "a rate of 0", CRO_TABLE_RATES, CRO_RATES_RATE, "0", CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "for 0 units", CRO_TABLE_RATES, CRO_RATES_PER, "0", CRO_FAULT_OUT_OF_RANGE, "(0, ∞)" },
  { "no yield", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_TRIM_YIELD_PCT, "0",
    CRO_FAULT_OUT_OF_RANGE, "(0, 1000]" },
  { "beyond all yields", CRO_TABLE_OUTPUTS, CRO_OUTPUTS_YIELD_PCT, "1000.000001",
    CRO_FAULT_OUT_OF_RANGE, "(0, 1000]" },
  { "net above gross", CRO_TABLE_OFFERS, CRO_OFFERS_NET_PCT, "100.1",
    CRO_FAULT_OUT_OF_RANGE, "(0, 100]" },
  { "a target of 0", CRO_TABLE_MENUS, CRO_MENUS_TARGET_PCT, "0",
    CRO_FAULT_OUT_OF_RANGE, "(0, 100]" },
  { "all comes back", CRO_TABLE_LINES, CRO_LINES_RECOVERED_PCT, "100",
    CRO_FAULT_OUT_OF_RANGE, "[0, 100)" },
  { "more than a batch", CRO_TABLE_PREPARATIONS, CRO_PREPARATIONS_SMALLEST_PART, "1.5",
    CRO_FAULT_OUT_OF_RANGE, "[0, 1]" },
  { "no day", CRO_TABLE_SALES, CRO_SALES_DATE, "2026-02-29", CRO_FAULT_NOT_A_DATE, NULL },
  { "a day for a month", CRO_TABLE_MONTHS, CRO_MONTHS_MONTH, "2026-02-01",
    CRO_FAULT_NOT_A_MONTH, NULL },
  { "no choice", CRO_TABLE_LINES, CRO_LINES_WEIGHED, "Whole",
    CRO_FAULT_NOT_A_CHOICE, "whole, trimmed" },
  { "no base unit", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_UNIT, "kg",
    CRO_FAULT_NOT_A_CHOICE, "g, ml, each" },
  { "no unit", CRO_TABLE_LINES, CRO_LINES_UNIT, "cup", CRO_FAULT_NOT_A_UNIT, NULL },
  { "small letters", CRO_TABLE_RATES, CRO_RATES_CURRENCY, "eur", CRO_FAULT_NOT_A_CURRENCY, NULL },
  { "four letters", CRO_TABLE_RATES, CRO_RATES_CURRENCY, "EURO", CRO_FAULT_NOT_A_CURRENCY, NULL },
  { "three letters of no currency", CRO_TABLE_OFFERS, CRO_OFFERS_CURRENCY, "ABC",
    CRO_FAULT_NOT_A_CURRENCY, NULL },
  { "a name with a line break", CRO_TABLE_LINES, CRO_LINES_ITEM, "crab\nmeat",
    CRO_FAULT_STRAY_CHARACTER, "U+000A" },
  { "one that turns what follows", CRO_TABLE_LINES, CRO_LINES_ITEM, "crab\342\200\256",
    CRO_FAULT_STRAY_CHARACTER, "U+202E" },
  { "one that is none", CRO_TABLE_PLATES, CRO_PLATES_NAME, "crab\357\277\276",
    CRO_FAULT_STRAY_CHARACTER, "U+FFFE" },
  { "a note with an escape", CRO_TABLE_LINES, CRO_LINES_NOTE, "two\nlines\033[2J",
    CRO_FAULT_STRAY_IN_TEXT, "U+001B" },
  { "a reason on two lines", CRO_TABLE_MONTHS, CRO_MONTHS_REASON, "a late\ncount",
    CRO_FAULT_STRAY_IN_TEXT, "U+000A" },
  { "no allergen", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_ALLERGENS, "milk cream",
    CRO_FAULT_NOT_AN_ALLERGEN, "cream" },
  { "spaces, which say nothing", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_ALLERGENS, " ",
    CRO_FAULT_NOT_AN_ALLERGEN, " " },
  { "nothing", CRO_TABLE_LINES, CRO_LINES_ITEM, "", CRO_FAULT_MISSING_VALUE, NULL },
};

static const struct
{
  const char *says;
  CroTableId  table;
  guint       column;
  gint64      number;
} defaults[] = {
  { "food", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_KIND, 0 },
  { "allergens nobody has said", CRO_TABLE_INGREDIENTS, CRO_INGREDIENTS_ALLERGENS,
    CRO_ALLERGENS_NOT_KNOWN },
  { "the whole pack is net", CRO_TABLE_OFFERS, CRO_OFFERS_NET_PCT, 100 * M },
  { "not preferred", CRO_TABLE_OFFERS, CRO_OFFERS_PREFERRED, 1 },
  { "a rate for one unit", CRO_TABLE_RATES, CRO_RATES_PER, M },
  { "free by-products", CRO_TABLE_PREPARATIONS, CRO_PREPARATIONS_BY_PRODUCTS, 0 },
  { "any part of a batch", CRO_TABLE_PREPARATIONS, CRO_PREPARATIONS_SMALLEST_PART, 0 },
  { "trimmed", CRO_TABLE_LINES, CRO_LINES_WEIGHED, 1 },
  { "nothing comes back", CRO_TABLE_LINES, CRO_LINES_RECOVERED_PCT, 0 },
  { "one for a guest", CRO_TABLE_PLATES, CRO_PLATES_PER_GUEST, M },
  { "one serving", CRO_TABLE_MENU_PLATES, CRO_MENU_PLATES_SERVINGS, M },
  { "food is bought", CRO_TABLE_PURCHASES, CRO_PURCHASES_KIND, 0 },
};

static const struct
{
  const char *key;
  const char *good;
  const char *bad;
} book_values[] = {
  { "name", "Saltmarsh Rooms", NULL },      { "currency", "EUR", "euro" },
  { "wage_per_hour", "0", "-1" },           { "tax_pct", "13.5", "13,5" },
  { "target_pct", "100", "0" },             { "stale_after_days", "90", "-1" },
  { "speaks", "gross-profit", "margin" },   { "till_with_tax", "no", "1" },
  { "price_steps", "half", "0.50" },
};

static const struct
{
  const char *says;
  const char *written;
  const char *kept;
} names[] = {
  { "what is tidy stays", "Brown butter", "Brown butter" },
  { "spaces around go", "  Brown butter\t", "Brown butter" },
  { "spaces inside stay", "Brown  butter", "Brown  butter" },
  { "a no-break space around goes", "\u00A0Brown butter\u00A0", "Brown butter" },
  { "spaces alone are no name", " \u2003 ", "" },
  { "what has no width goes around", "\uFEFFBrown butter\u200B", "Brown butter" },
  { "and stays inside", "th\u200Bin", "th\u200Bin" },
  { "and alone it is no name", "\u200B\u2060", "" },
  { "what joins letters stays", "\u0646\u200C\u0645", "\u0646\u200C\u0645" },
  { "case and accents stay", "CRÈME", "CRÈME" },
  { "a letter and its accent become one", "Cre\u0300me", "Crème" },
  /* Source: Unicode Standard Annex 15, figure 3, from memory. */
  { "the angstrom sign is the letter", "\u212B", "\u00C5" },
  { "the ohm sign is the letter", "\u2126", "\u03A9" },
};

static char *
dup_definition (const CroTable *table)
{
  GString *text = g_string_new (table->name);

  g_string_append_c (text, ':');
  for (guint i = 0; i < table->n_columns; i++)
    g_string_append_printf (text,
                            " %s%s%s",
                            table->columns[i].name,
                            table->columns[i].required ? "*" : "",
                            table->columns[i].key ? "+" : "");
  return g_string_free (text, FALSE);
}

static void
test_tables_are_those_of_the_contract (void **state)
{
  for (guint i = 0; i < CRO_N_TABLES; i++)
    {
      g_autofree char *definition = dup_definition (cro_table_get ((CroTableId) i));

      assert_string_equal (definition, contract[i]);
      assert_true (cro_table_get ((CroTableId) i)->n_columns <= CRO_MAX_COLUMNS);
    }
}

static void
test_good_fields (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    {
      const CroColumn *column = &cro_table_get (good[i].table)->columns[good[i].column];
      g_autofree char *detail = NULL;
      CroFaultKind kind;
      CroField field;

      if (!cro_table_parse_field (column, good[i].text, &field, &kind, &detail) || !field.is_set
          || field.number != good[i].number || field.text != good[i].text)
        fail_msg ("%s: %s \"%s\"", good[i].says, column->name, good[i].text);
    }
}

static void
test_bad_fields (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      const CroColumn *column = &cro_table_get (bad[i].table)->columns[bad[i].column];
      g_autofree char *detail = NULL;
      CroFaultKind kind;
      CroField field;

      if (cro_table_parse_field (column, bad[i].text, &field, &kind, &detail) || field.is_set
          || kind != bad[i].kind || g_strcmp0 (detail, bad[i].detail) != 0)
        fail_msg ("%s: %s \"%s\" (%s)", bad[i].says, column->name, bad[i].text, detail);
    }
}

static void
test_defaults (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (defaults); i++)
    {
      const CroColumn *column = &cro_table_get (defaults[i].table)->columns[defaults[i].column];
      g_autofree char *detail = NULL;
      CroFaultKind kind;
      CroField field;

      if (!cro_table_parse_field (column, "", &field, &kind, &detail) || field.is_set
          || field.text != NULL || field.number != defaults[i].number)
        fail_msg ("%s", defaults[i].says);
    }
}

static void
test_values_of_the_book (void **state)
{
  assert_int_equal (G_N_ELEMENTS (book_values), CRO_N_BOOK_KEYS);
  for (gsize i = 0; i < G_N_ELEMENTS (book_values); i++)
    {
      const char *of_key = book_values[i].key;
      const CroColumn *column;
      g_autofree char *detail = NULL;
      CroBookKey key;
      CroFaultKind kind;
      CroField field;

      assert_true (cro_book_key_find (of_key, &key));
      column = cro_book_key_get (key);
      assert_true (cro_table_parse_field (column, book_values[i].good, &field, &kind, &detail));
      if (book_values[i].bad != NULL)
        assert_false (cro_table_parse_field (column, book_values[i].bad, &field, &kind, &detail));
    }
}

static void
test_no_other_key (void **state)
{
  CroBookKey key;

  assert_false (cro_book_key_find ("Name", &key));
  assert_false (cro_book_key_find ("", &key));
}

static void
test_names (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *tidy = cro_name_dup_tidy (names[i].written);

      if (!g_str_equal (tidy, names[i].kept))
        fail_msg ("%s: \"%s\" became \"%s\"", names[i].says, names[i].written, tidy);
    }
}

/* Source: GLib's own normalisation. Below U+0300 every character is its own composed form, and
 * a text taken for composed has to be. */
static void
test_what_is_taken_for_composed_is (void **state)
{
  guint n_taken = 0;

  for (gunichar c = 1; c < 0x30000; c++)
    {
      char text[8] = "";
      g_autofree char *composed = NULL;

      if (!g_unichar_validate (c))
        continue;
      g_unichar_to_utf8 (c, text);
      if (!cro_name_is_composed (text))
        continue;
      composed = g_utf8_normalize (text, -1, G_NORMALIZE_NFC);
      assert_string_equal (composed, text);
      n_taken++;
    }
  assert_int_equal (n_taken, 0x2FF);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_tables_are_those_of_the_contract),
    cmocka_unit_test (test_good_fields),
    cmocka_unit_test (test_bad_fields),
    cmocka_unit_test (test_defaults),
    cmocka_unit_test (test_values_of_the_book),
    cmocka_unit_test (test_no_other_key),
    cmocka_unit_test (test_names),
    cmocka_unit_test (test_what_is_taken_for_composed_is),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
