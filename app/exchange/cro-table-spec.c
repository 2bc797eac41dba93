#include "cro-table.h"

#include "cro-allergen.h"
#include "cro-code.h"
#include "cro-column.h"
#include "cro-decimal.h"

/* Ranges of the contract. */
#define ABOVE_0 .low = 0, .low_excluded = TRUE, .high = G_MAXINT64
#define AT_LEAST_0 .low = 0, .high = G_MAXINT64
#define ANY_SIGN .low = G_MININT64, .high = G_MAXINT64
#define YIELD .low = 0, .low_excluded = TRUE, .high = 1000 * CRO_MICRO
#define FROM_0_TO_100 .low = 0, .high = 100 * CRO_MICRO
#define PART_OF_100 .low = 0, .low_excluded = TRUE, .high = 100 * CRO_MICRO
#define LESS_THAN_100 .low = 0, .high = 100 * CRO_MICRO, .high_excluded = TRUE
#define PART_OF_1 .low = 0, .high = CRO_MICRO

#define REQUIRED .required = TRUE
#define KEY .required = TRUE, .key = TRUE

static const char *const yes_no[] = { "yes", "no", NULL };
static const char *const parents[] = { "preparation", "plate", NULL };

static const CroColumn book[CRO_N_BOOK] = {
  [CRO_BOOK_KEY] = { "key", CRO_FIELD_NAME, KEY },
  [CRO_BOOK_VALUE] = { "value", CRO_FIELD_TEXT, REQUIRED },
};

static const CroColumn ingredients[CRO_N_INGREDIENTS] = {
  [CRO_INGREDIENTS_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_INGREDIENTS_CATEGORY] = { "category", CRO_FIELD_NAME },
  [CRO_INGREDIENTS_KIND] = { "kind", CRO_FIELD_CHOICE, .choices = cro_ingredient_kind_codes },
  [CRO_INGREDIENTS_UNIT] = { "unit", CRO_FIELD_CHOICE, REQUIRED, .choices = cro_base_codes },
  [CRO_INGREDIENTS_DENSITY_G_PER_ML] = { "density_g_per_ml", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_INGREDIENTS_PIECE_G] = { "piece_g", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_INGREDIENTS_TRIM_YIELD_PCT] = { "trim_yield_pct", CRO_FIELD_DECIMAL, YIELD },
  [CRO_INGREDIENTS_ALLERGENS] = { "allergens", CRO_FIELD_ALLERGENS,
                                  .fallback = CRO_ALLERGENS_NOT_KNOWN },
  [CRO_INGREDIENTS_MAY_CONTAIN] = { "may_contain", CRO_FIELD_ALLERGENS,
                                    .fallback = CRO_ALLERGENS_NOT_KNOWN },
  [CRO_INGREDIENTS_NOTE] = { "note", CRO_FIELD_TEXT },
};

static const CroColumn suppliers[CRO_N_SUPPLIERS] = {
  [CRO_SUPPLIERS_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_SUPPLIERS_CONTACT] = { "contact", CRO_FIELD_TEXT },
  [CRO_SUPPLIERS_QUOTES] = { "quotes", CRO_FIELD_CHOICE, .choices = cro_quote_codes },
  [CRO_SUPPLIERS_MINIMUM_ORDER] = { "minimum_order", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_SUPPLIERS_DELIVERY_CHARGE] = { "delivery_charge", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_SUPPLIERS_NOTE] = { "note", CRO_FIELD_TEXT },
};

static const CroColumn offers[CRO_N_OFFERS] = {
  [CRO_OFFERS_INGREDIENT] = { "ingredient", CRO_FIELD_NAME, KEY },
  [CRO_OFFERS_SUPPLIER] = { "supplier", CRO_FIELD_NAME, KEY },
  [CRO_OFFERS_CODE] = { "code", CRO_FIELD_NAME, .key = TRUE },
  [CRO_OFFERS_PACK_COUNT] = { "pack_count", CRO_FIELD_DECIMAL, REQUIRED, ABOVE_0 },
  [CRO_OFFERS_PACK_SIZE] = { "pack_size", CRO_FIELD_DECIMAL, REQUIRED, ABOVE_0 },
  [CRO_OFFERS_PACK_UNIT] = { "pack_unit", CRO_FIELD_UNIT, REQUIRED },
  [CRO_OFFERS_NET_PCT] = { "net_pct", CRO_FIELD_DECIMAL, PART_OF_100,
                           .fallback = 100 * CRO_MICRO },
  [CRO_OFFERS_CURRENCY] = { "currency", CRO_FIELD_CURRENCY },
  [CRO_OFFERS_PREFERRED] = { "preferred", CRO_FIELD_CHOICE, .choices = yes_no, .fallback = 1 },
  [CRO_OFFERS_UNTIL] = { "until", CRO_FIELD_DATE },
  [CRO_OFFERS_GTIN] = { "gtin", CRO_FIELD_TEXT },
  [CRO_OFFERS_POSITION] = { "position", CRO_FIELD_DECIMAL, AT_LEAST_0 },
};

static const CroColumn prices[CRO_N_PRICES] = {
  [CRO_PRICES_INGREDIENT] = { "ingredient", CRO_FIELD_NAME, KEY },
  [CRO_PRICES_SUPPLIER] = { "supplier", CRO_FIELD_NAME, KEY },
  [CRO_PRICES_CODE] = { "code", CRO_FIELD_NAME, .key = TRUE },
  [CRO_PRICES_FROM] = { "from", CRO_FIELD_DATE, KEY },
  [CRO_PRICES_PRICE] = { "price", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_PRICES_TAX_INCLUDED_PCT] = { "tax_included_pct", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_PRICES_PACK_COUNT] = { "pack_count", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_PRICES_PACK_SIZE] = { "pack_size", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_PRICES_PACK_UNIT] = { "pack_unit", CRO_FIELD_UNIT },
};

static const CroColumn price_answers[CRO_N_PRICE_ANSWERS] = {
  [CRO_PRICE_ANSWERS_INGREDIENT] = { "ingredient", CRO_FIELD_NAME, KEY },
  [CRO_PRICE_ANSWERS_SUPPLIER] = { "supplier", CRO_FIELD_NAME, KEY },
  [CRO_PRICE_ANSWERS_CODE] = { "code", CRO_FIELD_NAME, .key = TRUE },
  [CRO_PRICE_ANSWERS_FROM] = { "from", CRO_FIELD_DATE, KEY },
  [CRO_PRICE_ANSWERS_PRICE] = { "price", CRO_FIELD_DECIMAL, REQUIRED, AT_LEAST_0 },
  [CRO_PRICE_ANSWERS_ANSWERED_ON] = { "answered_on", CRO_FIELD_DATE },
  [CRO_PRICE_ANSWERS_PACK_COUNT] = { "pack_count", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_PRICE_ANSWERS_PACK_SIZE] = { "pack_size", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_PRICE_ANSWERS_PACK_UNIT] = { "pack_unit", CRO_FIELD_UNIT },
  [CRO_PRICE_ANSWERS_CURRENCY] = { "currency", CRO_FIELD_CURRENCY },
};

static const CroColumn rates[CRO_N_RATES] = {
  [CRO_RATES_CURRENCY] = { "currency", CRO_FIELD_CURRENCY, KEY },
  [CRO_RATES_FROM] = { "from", CRO_FIELD_DATE, KEY },
  [CRO_RATES_RATE] = { "rate", CRO_FIELD_DECIMAL, REQUIRED, ABOVE_0 },
  [CRO_RATES_PER] = { "per", CRO_FIELD_DECIMAL, ABOVE_0, .fallback = CRO_MICRO },
};

static const CroColumn preparations[CRO_N_PREPARATIONS] = {
  [CRO_PREPARATIONS_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_PREPARATIONS_BY_PRODUCTS] = { "by_products", CRO_FIELD_CHOICE, .choices = cro_rule_codes },
  [CRO_PREPARATIONS_ACTIVE_MINUTES] = { "active_minutes", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_PREPARATIONS_SMALLEST_PART] = { "smallest_part", CRO_FIELD_DECIMAL, PART_OF_1 },
  [CRO_PREPARATIONS_NOTE] = { "note", CRO_FIELD_TEXT },
  [CRO_PREPARATIONS_PICTURE] = { "picture", CRO_FIELD_NAME },
};

static const CroColumn outputs[CRO_N_OUTPUTS] = {
  [CRO_OUTPUTS_ITEM] = { "item", CRO_FIELD_NAME, KEY },
  [CRO_OUTPUTS_PREPARATION] = { "preparation", CRO_FIELD_NAME, REQUIRED },
  [CRO_OUTPUTS_ROLE] = { "role", CRO_FIELD_CHOICE, REQUIRED, .choices = cro_role_codes },
  [CRO_OUTPUTS_AMOUNT] = { "amount", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_OUTPUTS_UNIT] = { "unit", CRO_FIELD_UNIT },
  [CRO_OUTPUTS_YIELD_PCT] = { "yield_pct", CRO_FIELD_DECIMAL, YIELD },
  [CRO_OUTPUTS_VALUE] = { "value", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_OUTPUTS_DENSITY_G_PER_ML] = { "density_g_per_ml", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_OUTPUTS_PIECE_G] = { "piece_g", CRO_FIELD_DECIMAL, ABOVE_0 },
  [CRO_OUTPUTS_LOST_PCT] = { "lost_pct", CRO_FIELD_DECIMAL, LESS_THAN_100 },
};

static const CroColumn lines[CRO_N_LINES] = {
  [CRO_LINES_INTO] = { "into", CRO_FIELD_CHOICE, KEY, .choices = parents },
  [CRO_LINES_PARENT] = { "parent", CRO_FIELD_NAME, KEY },
  [CRO_LINES_POSITION] = { "position", CRO_FIELD_DECIMAL, KEY, AT_LEAST_0 },
  [CRO_LINES_ITEM] = { "item", CRO_FIELD_NAME, REQUIRED },
  [CRO_LINES_AMOUNT] = { "amount", CRO_FIELD_DECIMAL, REQUIRED, AT_LEAST_0 },
  [CRO_LINES_UNIT] = { "unit", CRO_FIELD_UNIT, REQUIRED },
  [CRO_LINES_WEIGHED] = { "weighed", CRO_FIELD_CHOICE, .choices = cro_weighing_codes, .fallback = 1 },
  [CRO_LINES_YIELD_PCT] = { "yield_pct", CRO_FIELD_DECIMAL, YIELD },
  [CRO_LINES_RECOVERED_PCT] = { "recovered_pct", CRO_FIELD_DECIMAL, LESS_THAN_100 },
  [CRO_LINES_NOTE] = { "note", CRO_FIELD_TEXT },
};

static const CroColumn plates[CRO_N_PLATES] = {
  [CRO_PLATES_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_PLATES_COURSE] = { "course", CRO_FIELD_NAME },
  [CRO_PLATES_MAKES] = { "makes", CRO_FIELD_DECIMAL, REQUIRED, ABOVE_0 },
  [CRO_PLATES_PER_GUEST] = { "per_guest", CRO_FIELD_DECIMAL, ABOVE_0, .fallback = CRO_MICRO },
  [CRO_PLATES_PRICE] = { "price", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_PLATES_TAX_PCT] = { "tax_pct", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_PLATES_TARGET_PCT] = { "target_pct", CRO_FIELD_DECIMAL, PART_OF_100 },
  [CRO_PLATES_ALLOWANCE_PCT] = { "allowance_pct", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_PLATES_ACTIVE_MINUTES] = { "active_minutes", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_PLATES_NOTE] = { "note", CRO_FIELD_TEXT },
  [CRO_PLATES_PICTURE] = { "picture", CRO_FIELD_NAME },
};

static const CroColumn menus[CRO_N_MENUS] = {
  [CRO_MENUS_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_MENUS_PRICE] = { "price", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MENUS_TAX_PCT] = { "tax_pct", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MENUS_TARGET_PCT] = { "target_pct", CRO_FIELD_DECIMAL, PART_OF_100 },
  [CRO_MENUS_NOTE] = { "note", CRO_FIELD_TEXT },
};

static const CroColumn menu_plates[CRO_N_MENU_PLATES] = {
  [CRO_MENU_PLATES_MENU] = { "menu", CRO_FIELD_NAME, KEY },
  [CRO_MENU_PLATES_PLATE] = { "plate", CRO_FIELD_NAME, KEY },
  [CRO_MENU_PLATES_CHOICE] = { "choice", CRO_FIELD_NAME, .key = TRUE },
  [CRO_MENU_PLATES_SERVINGS] = { "servings", CRO_FIELD_DECIMAL, AT_LEAST_0,
                                 .fallback = CRO_MICRO },
  [CRO_MENU_PLATES_POSITION] = { "position", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MENU_PLATES_SHARE_PCT] = { "share_pct", CRO_FIELD_DECIMAL, FROM_0_TO_100 },
};

static const CroColumn selling_prices[CRO_N_SELLING_PRICES] = {
  [CRO_SELLING_PRICES_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_SELLING_PRICES_FROM] = { "from", CRO_FIELD_DATE, KEY },
  [CRO_SELLING_PRICES_PRICE] = { "price", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_SELLING_PRICES_TAX_PCT] = { "tax_pct", CRO_FIELD_DECIMAL, AT_LEAST_0 },
};

static const CroColumn services[CRO_N_SERVICES] = {
  [CRO_SERVICES_DATE] = { "date", CRO_FIELD_DATE, KEY },
  [CRO_SERVICES_SERVICE] = { "service", CRO_FIELD_NAME, KEY },
  [CRO_SERVICES_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_SERVICES_COVERS] = { "covers", CRO_FIELD_DECIMAL, REQUIRED, AT_LEAST_0 },
};

static const CroColumn service_stock[CRO_N_SERVICE_STOCK] = {
  [CRO_SERVICE_STOCK_DATE] = { "date", CRO_FIELD_DATE, KEY },
  [CRO_SERVICE_STOCK_SERVICE] = { "service", CRO_FIELD_NAME, KEY },
  [CRO_SERVICE_STOCK_ITEM] = { "item", CRO_FIELD_NAME, KEY },
  [CRO_SERVICE_STOCK_AMOUNT] = { "amount", CRO_FIELD_DECIMAL, REQUIRED, AT_LEAST_0 },
  [CRO_SERVICE_STOCK_UNIT] = { "unit", CRO_FIELD_UNIT, REQUIRED },
};

static const CroColumn yield_tests[CRO_N_YIELD_TESTS] = {
  [CRO_YIELD_TESTS_TEST] = { "test", CRO_FIELD_NAME, KEY },
  [CRO_YIELD_TESTS_ITEM] = { "item", CRO_FIELD_NAME, REQUIRED },
  [CRO_YIELD_TESTS_DATE] = { "date", CRO_FIELD_DATE, REQUIRED },
  [CRO_YIELD_TESTS_PURCHASED_G] = { "purchased_g", CRO_FIELD_DECIMAL, REQUIRED, AT_LEAST_0 },
  [CRO_YIELD_TESTS_USABLE_G] = { "usable_g", CRO_FIELD_DECIMAL, REQUIRED, AT_LEAST_0 },
  [CRO_YIELD_TESTS_NOTE] = { "note", CRO_FIELD_TEXT },
};

static const CroColumn yield_test_parts[CRO_N_YIELD_TEST_PARTS] = {
  [CRO_YIELD_TEST_PARTS_TEST] = { "test", CRO_FIELD_NAME, KEY },
  [CRO_YIELD_TEST_PARTS_OUTPUT] = { "output", CRO_FIELD_NAME, KEY },
  [CRO_YIELD_TEST_PARTS_WEIGHT_G] = { "weight_g", CRO_FIELD_DECIMAL, REQUIRED, AT_LEAST_0 },
};

/* Sold below 0 is a void, 0 a refund, which is revenue alone. */
static const CroColumn sales[CRO_N_SALES] = {
  [CRO_SALES_DATE] = { "date", CRO_FIELD_DATE, REQUIRED },
  [CRO_SALES_KIND] = { "kind", CRO_FIELD_CHOICE, REQUIRED, .choices = cro_sale_kind_codes },
  [CRO_SALES_NAME] = { "name", CRO_FIELD_NAME, REQUIRED },
  [CRO_SALES_SOLD] = { "sold", CRO_FIELD_DECIMAL, REQUIRED, ANY_SIGN },
  [CRO_SALES_NET_REVENUE] = { "net_revenue", CRO_FIELD_DECIMAL, ANY_SIGN },
};

static const CroColumn till_names[CRO_N_TILL_NAMES] = {
  [CRO_TILL_NAMES_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_TILL_NAMES_KIND] = { "kind", CRO_FIELD_CHOICE, REQUIRED, .choices = cro_till_kind_codes },
  [CRO_TILL_NAMES_SOLD_AS] = { "sold_as", CRO_FIELD_NAME },
};

static const CroColumn counts[CRO_N_COUNTS] = {
  [CRO_COUNTS_DATE] = { "date", CRO_FIELD_DATE, REQUIRED },
  [CRO_COUNTS_ITEM] = { "item", CRO_FIELD_NAME, REQUIRED },
  [CRO_COUNTS_AMOUNT] = { "amount", CRO_FIELD_DECIMAL, REQUIRED, AT_LEAST_0 },
  [CRO_COUNTS_UNIT] = { "unit", CRO_FIELD_UNIT, REQUIRED },
  [CRO_COUNTS_PLACE] = { "place", CRO_FIELD_NAME },
};

/* Amounts and values below 0 are returns and credit notes. */
static const CroColumn purchases[CRO_N_PURCHASES] = {
  [CRO_PURCHASES_DATE] = { "date", CRO_FIELD_DATE, REQUIRED },
  [CRO_PURCHASES_DOCUMENT_DATE] = { "document_date", CRO_FIELD_DATE },
  [CRO_PURCHASES_SUPPLIER] = { "supplier", CRO_FIELD_NAME },
  [CRO_PURCHASES_DOCUMENT] = { "document", CRO_FIELD_TEXT },
  [CRO_PURCHASES_INGREDIENT] = { "ingredient", CRO_FIELD_NAME },
  [CRO_PURCHASES_CATEGORY] = { "category", CRO_FIELD_NAME },
  [CRO_PURCHASES_KIND] = { "kind", CRO_FIELD_CHOICE, .choices = cro_purchase_kind_codes },
  [CRO_PURCHASES_AMOUNT] = { "amount", CRO_FIELD_DECIMAL, ANY_SIGN },
  [CRO_PURCHASES_UNIT] = { "unit", CRO_FIELD_UNIT },
  [CRO_PURCHASES_NET_VALUE] = { "net_value", CRO_FIELD_DECIMAL, REQUIRED, ANY_SIGN },
};

static const CroColumn adjustments[CRO_N_ADJUSTMENTS] = {
  [CRO_ADJUSTMENTS_DATE] = { "date", CRO_FIELD_DATE, REQUIRED },
  [CRO_ADJUSTMENTS_KIND] = { "kind", CRO_FIELD_CHOICE, REQUIRED, .choices = cro_adjustment_kind_codes },
  [CRO_ADJUSTMENTS_ITEM] = { "item", CRO_FIELD_NAME },
  [CRO_ADJUSTMENTS_AMOUNT] = { "amount", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_ADJUSTMENTS_UNIT] = { "unit", CRO_FIELD_UNIT },
  [CRO_ADJUSTMENTS_NET_VALUE] = { "net_value", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_ADJUSTMENTS_NOTE] = { "note", CRO_FIELD_TEXT },
};

static const CroColumn months[CRO_N_MONTHS] = {
  [CRO_MONTHS_MONTH] = { "month", CRO_FIELD_MONTH, KEY },
  [CRO_MONTHS_TILL_NET_REVENUE] = { "till_net_revenue", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MONTHS_TILL_GROSS_REVENUE] = { "till_gross_revenue", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MONTHS_LEDGER_PURCHASES] = { "ledger_purchases", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MONTHS_RECIPES_ON] = { "recipes_on", CRO_FIELD_DATE },
  [CRO_MONTHS_CLOSING_STOCK_VALUE] = { "closing_stock_value", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MONTHS_LATE_ESTIMATE] = { "late_estimate", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MONTHS_CLOSED_AT] = { "closed_at", CRO_FIELD_TEXT },
  [CRO_MONTHS_REASON] = { "reason", CRO_FIELD_TEXT, .is_line = TRUE },
  [CRO_MONTHS_HASH] = { "hash", CRO_FIELD_TEXT },
};

/* A credited by-product can be charged below 0. */
static const CroColumn month_rows[CRO_N_MONTH_ROWS] = {
  [CRO_MONTH_ROWS_MONTH] = { "month", CRO_FIELD_MONTH, KEY },
  [CRO_MONTH_ROWS_KIND] = { "kind", CRO_FIELD_CHOICE, KEY, .choices = cro_frozen_kind_codes },
  [CRO_MONTH_ROWS_NAME] = { "name", CRO_FIELD_NAME, KEY },
  [CRO_MONTH_ROWS_PART_KIND] = { "part_kind", CRO_FIELD_CHOICE, .key = TRUE,
                                 .choices = cro_frozen_part_codes },
  [CRO_MONTH_ROWS_PART] = { "part", CRO_FIELD_NAME, .key = TRUE },
  [CRO_MONTH_ROWS_NUMBER] = { "number", CRO_FIELD_DECIMAL, AT_LEAST_0, .key = TRUE },
  [CRO_MONTH_ROWS_DATE] = { "date", CRO_FIELD_DATE },
  [CRO_MONTH_ROWS_SOLD] = { "sold", CRO_FIELD_DECIMAL, ANY_SIGN },
  [CRO_MONTH_ROWS_NET_REVENUE] = { "net_revenue", CRO_FIELD_DECIMAL, ANY_SIGN },
  [CRO_MONTH_ROWS_PRICE] = { "price", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_MONTH_ROWS_UNIT] = { "unit", CRO_FIELD_UNIT },
  [CRO_MONTH_ROWS_QUANTITY] = { "quantity", CRO_FIELD_DECIMAL, ANY_SIGN },
  [CRO_MONTH_ROWS_COST] = { "cost", CRO_FIELD_DECIMAL, ANY_SIGN },
  [CRO_MONTH_ROWS_COST_PER_1000] = { "cost_per_1000", CRO_FIELD_DECIMAL, ANY_SIGN },
  [CRO_MONTH_ROWS_SUPPLIER] = { "supplier", CRO_FIELD_NAME },
  [CRO_MONTH_ROWS_DOCUMENT] = { "document", CRO_FIELD_TEXT },
  [CRO_MONTH_ROWS_CATEGORY] = { "category", CRO_FIELD_NAME },
  [CRO_MONTH_ROWS_ROW_KIND] = { "row_kind", CRO_FIELD_NAME },
  [CRO_MONTH_ROWS_NOTE] = { "note", CRO_FIELD_TEXT },
};

static const CroTable tables[CRO_N_TABLES] = {
  [CRO_TABLE_BOOK] = { "book", book, CRO_N_BOOK },
  [CRO_TABLE_INGREDIENTS] = { "ingredients", ingredients, CRO_N_INGREDIENTS },
  [CRO_TABLE_SUPPLIERS] = { "suppliers", suppliers, CRO_N_SUPPLIERS },
  [CRO_TABLE_OFFERS] = { "offers", offers, CRO_N_OFFERS },
  [CRO_TABLE_PRICES] = { "prices", prices, CRO_N_PRICES },
  [CRO_TABLE_PRICE_ANSWERS] = { "price_answers", price_answers, CRO_N_PRICE_ANSWERS,
                                .is_seldom = TRUE },
  [CRO_TABLE_RATES] = { "rates", rates, CRO_N_RATES },
  [CRO_TABLE_PREPARATIONS] = { "preparations", preparations, CRO_N_PREPARATIONS },
  [CRO_TABLE_OUTPUTS] = { "outputs", outputs, CRO_N_OUTPUTS },
  [CRO_TABLE_LINES] = { "lines", lines, CRO_N_LINES },
  [CRO_TABLE_PLATES] = { "plates", plates, CRO_N_PLATES },
  [CRO_TABLE_MENUS] = { "menus", menus, CRO_N_MENUS },
  [CRO_TABLE_MENU_PLATES] = { "menu_plates", menu_plates, CRO_N_MENU_PLATES },
  [CRO_TABLE_SELLING_PRICES] = { "selling_prices", selling_prices, CRO_N_SELLING_PRICES },
  [CRO_TABLE_SERVICES] = { "services", services, CRO_N_SERVICES },
  [CRO_TABLE_SERVICE_STOCK] = { "service_stock", service_stock, CRO_N_SERVICE_STOCK },
  [CRO_TABLE_YIELD_TESTS] = { "yield_tests", yield_tests, CRO_N_YIELD_TESTS },
  [CRO_TABLE_YIELD_TEST_PARTS] = { "yield_test_parts", yield_test_parts,
                                   CRO_N_YIELD_TEST_PARTS },
  [CRO_TABLE_SALES] = { "sales", sales, CRO_N_SALES },
  [CRO_TABLE_TILL_NAMES] = { "till_names", till_names, CRO_N_TILL_NAMES },
  [CRO_TABLE_COUNTS] = { "counts", counts, CRO_N_COUNTS },
  [CRO_TABLE_PURCHASES] = { "purchases", purchases, CRO_N_PURCHASES },
  [CRO_TABLE_ADJUSTMENTS] = { "adjustments", adjustments, CRO_N_ADJUSTMENTS },
  [CRO_TABLE_MONTHS] = { "months", months, CRO_N_MONTHS },
  [CRO_TABLE_MONTH_ROWS] = { "month_rows", month_rows, CRO_N_MONTH_ROWS },
};

static const CroColumn book_keys[CRO_N_BOOK_KEYS] = {
  [CRO_BOOK_KEY_NAME] = { "name", CRO_FIELD_NAME },
  [CRO_BOOK_KEY_CURRENCY] = { "currency", CRO_FIELD_CURRENCY },
  [CRO_BOOK_KEY_WAGE_PER_HOUR] = { "wage_per_hour", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_BOOK_KEY_TAX_PCT] = { "tax_pct", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_BOOK_KEY_TARGET_PCT] = { "target_pct", CRO_FIELD_DECIMAL, PART_OF_100 },
  [CRO_BOOK_KEY_STALE_AFTER_DAYS] = { "stale_after_days", CRO_FIELD_DECIMAL, AT_LEAST_0 },
  [CRO_BOOK_KEY_SPEAKS] = { "speaks", CRO_FIELD_CHOICE, .choices = cro_speaks_codes },
  [CRO_BOOK_KEY_TILL_WITH_TAX] = { "till_with_tax", CRO_FIELD_CHOICE, .choices = yes_no },
  [CRO_BOOK_KEY_PRICE_STEPS] = { "price_steps", CRO_FIELD_CHOICE, .choices = cro_price_habit_codes },
};

const CroTable *
cro_table_get (CroTableId id)
{
  g_return_val_if_fail (id < CRO_N_TABLES, NULL);

  return &tables[id];
}

const CroColumn *
cro_book_key_get (CroBookKey key)
{
  g_return_val_if_fail (key < CRO_N_BOOK_KEYS, NULL);

  return &book_keys[key];
}

gboolean
cro_book_key_find (const char *name,
                   CroBookKey *key)
{
  for (guint i = 0; i < CRO_N_BOOK_KEYS; i++)
    if (g_str_equal (book_keys[i].name, name))
      {
        *key = (CroBookKey) i;
        return TRUE;
      }
  return FALSE;
}
