#include "cro-sheet-map.h"

#define VALUE(column, from) { column, from, CRO_MAP_VALUE }
#define END { NULL, 0, CRO_MAP_VALUE }

static const CroMapColumn ingredients[] = {
  VALUE ("category", CRO_INGREDIENTS_CATEGORY),
  { "kind", CRO_INGREDIENTS_KIND, CRO_MAP_FALLBACK },
  VALUE ("unit", CRO_INGREDIENTS_UNIT),
  VALUE ("density_g_per_ml_micro", CRO_INGREDIENTS_DENSITY_G_PER_ML),
  VALUE ("piece_g_micro", CRO_INGREDIENTS_PIECE_G),
  VALUE ("trim_yield_pct_micro", CRO_INGREDIENTS_TRIM_YIELD_PCT),
  VALUE ("allergens", CRO_INGREDIENTS_ALLERGENS),
  VALUE ("may_contain", CRO_INGREDIENTS_MAY_CONTAIN),
  VALUE ("note", CRO_INGREDIENTS_NOTE),
  END
};

static const CroMapColumn suppliers[] = {
  VALUE ("name", CRO_SUPPLIERS_NAME),
  VALUE ("contact", CRO_SUPPLIERS_CONTACT),
  VALUE ("quotes", CRO_SUPPLIERS_QUOTES),
  VALUE ("minimum_order_micro", CRO_SUPPLIERS_MINIMUM_ORDER),
  VALUE ("delivery_charge_micro", CRO_SUPPLIERS_DELIVERY_CHARGE),
  VALUE ("note", CRO_SUPPLIERS_NOTE),
  END
};

static const CroMapColumn offers[] = {
  VALUE ("ingredient", CRO_OFFERS_INGREDIENT),
  VALUE ("supplier", CRO_OFFERS_SUPPLIER),
  { "code", CRO_OFFERS_CODE, CRO_MAP_EMPTY },
  VALUE ("pack_count_micro", CRO_OFFERS_PACK_COUNT),
  VALUE ("pack_size_micro", CRO_OFFERS_PACK_SIZE),
  VALUE ("pack_unit", CRO_OFFERS_PACK_UNIT),
  VALUE ("net_pct_micro", CRO_OFFERS_NET_PCT),
  VALUE ("currency", CRO_OFFERS_CURRENCY),
  { "preferred", CRO_OFFERS_PREFERRED, CRO_MAP_FALLBACK },
  VALUE ("until", CRO_OFFERS_UNTIL),
  VALUE ("gtin", CRO_OFFERS_GTIN),
  VALUE ("position_micro", CRO_OFFERS_POSITION),
  END
};

static const CroMapColumn prices[] = {
  VALUE ("offer", CRO_PRICES_OFFER),
  VALUE ("from_date", CRO_PRICES_FROM),
  VALUE ("price_micro", CRO_PRICES_PRICE),
  VALUE ("tax_included_pct_micro", CRO_PRICES_TAX_INCLUDED_PCT),
  VALUE ("pack_count_micro", CRO_PRICES_PACK_COUNT),
  VALUE ("pack_size_micro", CRO_PRICES_PACK_SIZE),
  VALUE ("pack_unit", CRO_PRICES_PACK_UNIT),
  END
};

static const CroMapColumn price_answers[] = {
  VALUE ("offer", CRO_PRICE_ANSWERS_OFFER),
  VALUE ("from_date", CRO_PRICE_ANSWERS_FROM),
  VALUE ("price_micro", CRO_PRICE_ANSWERS_PRICE),
  VALUE ("answered_on", CRO_PRICE_ANSWERS_ANSWERED_ON),
  VALUE ("pack_count_micro", CRO_PRICE_ANSWERS_PACK_COUNT),
  VALUE ("pack_size_micro", CRO_PRICE_ANSWERS_PACK_SIZE),
  VALUE ("pack_unit", CRO_PRICE_ANSWERS_PACK_UNIT),
  VALUE ("currency", CRO_PRICE_ANSWERS_CURRENCY),
  END
};

static const CroMapColumn rates[] = {
  VALUE ("currency", CRO_RATES_CURRENCY),
  VALUE ("from_date", CRO_RATES_FROM),
  VALUE ("rate_micro", CRO_RATES_RATE),
  VALUE ("per_micro", CRO_RATES_PER),
  END
};

static const CroMapColumn preparations[] = {
  VALUE ("name", CRO_PREPARATIONS_NAME),
  { "by_products", CRO_PREPARATIONS_BY_PRODUCTS, CRO_MAP_FALLBACK },
  VALUE ("active_minutes_micro", CRO_PREPARATIONS_ACTIVE_MINUTES),
  VALUE ("smallest_part_micro", CRO_PREPARATIONS_SMALLEST_PART),
  VALUE ("note", CRO_PREPARATIONS_NOTE),
  VALUE ("picture", CRO_PREPARATIONS_PICTURE),
  END
};

static const CroMapColumn outputs[] = {
  VALUE ("preparation", CRO_OUTPUTS_PREPARATION),
  VALUE ("role", CRO_OUTPUTS_ROLE),
  VALUE ("amount_micro", CRO_OUTPUTS_AMOUNT),
  VALUE ("unit", CRO_OUTPUTS_UNIT),
  VALUE ("yield_pct_micro", CRO_OUTPUTS_YIELD_PCT),
  VALUE ("value_micro", CRO_OUTPUTS_VALUE),
  VALUE ("density_g_per_ml_micro", CRO_OUTPUTS_DENSITY_G_PER_ML),
  VALUE ("piece_g_micro", CRO_OUTPUTS_PIECE_G),
  VALUE ("lost_pct_micro", CRO_OUTPUTS_LOST_PCT),
  END
};

static const CroMapColumn plates[] = {
  VALUE ("course", CRO_PLATES_COURSE),
  VALUE ("makes_micro", CRO_PLATES_MAKES),
  VALUE ("per_guest_micro", CRO_PLATES_PER_GUEST),
  VALUE ("price_micro", CRO_PLATES_PRICE),
  VALUE ("tax_pct_micro", CRO_PLATES_TAX_PCT),
  VALUE ("target_pct_micro", CRO_PLATES_TARGET_PCT),
  VALUE ("allowance_pct_micro", CRO_PLATES_ALLOWANCE_PCT),
  VALUE ("active_minutes_micro", CRO_PLATES_ACTIVE_MINUTES),
  VALUE ("note", CRO_PLATES_NOTE),
  VALUE ("picture", CRO_PLATES_PICTURE),
  END
};

static const CroMapColumn menus[] = {
  VALUE ("price_micro", CRO_MENUS_PRICE),
  VALUE ("tax_pct_micro", CRO_MENUS_TAX_PCT),
  VALUE ("target_pct_micro", CRO_MENUS_TARGET_PCT),
  VALUE ("note", CRO_MENUS_NOTE),
  END
};

static const CroMapColumn menu_plates[] = {
  VALUE ("menu", CRO_MENU_PLATES_MENU),
  VALUE ("plate", CRO_MENU_PLATES_PLATE),
  VALUE ("choice", CRO_MENU_PLATES_CHOICE),
  VALUE ("servings_micro", CRO_MENU_PLATES_SERVINGS),
  VALUE ("position_micro", CRO_MENU_PLATES_POSITION),
  VALUE ("share_pct_micro", CRO_MENU_PLATES_SHARE_PCT),
  END
};

static const CroMapColumn selling_prices[] = {
  VALUE ("thing", CRO_SELLING_PRICES_NAME),
  VALUE ("from_date", CRO_SELLING_PRICES_FROM),
  VALUE ("price_micro", CRO_SELLING_PRICES_PRICE),
  VALUE ("tax_pct_micro", CRO_SELLING_PRICES_TAX_PCT),
  END
};

static const CroMapColumn services[] = {
  VALUE ("date", CRO_SERVICES_DATE),
  VALUE ("service", CRO_SERVICES_SERVICE),
  VALUE ("thing", CRO_SERVICES_NAME),
  VALUE ("covers_micro", CRO_SERVICES_COVERS),
  END
};

static const CroMapColumn service_stock[] = {
  VALUE ("date", CRO_SERVICE_STOCK_DATE),
  VALUE ("service", CRO_SERVICE_STOCK_SERVICE),
  VALUE ("item", CRO_SERVICE_STOCK_ITEM),
  VALUE ("amount_micro", CRO_SERVICE_STOCK_AMOUNT),
  VALUE ("unit", CRO_SERVICE_STOCK_UNIT),
  END
};

static const CroMapColumn lines[] = {
  { "preparation", CRO_LINES_PARENT, CRO_MAP_PREPARATION },
  { "plate", CRO_LINES_PARENT, CRO_MAP_PLATE },
  VALUE ("position_micro", CRO_LINES_POSITION),
  VALUE ("item", CRO_LINES_ITEM),
  VALUE ("amount_micro", CRO_LINES_AMOUNT),
  VALUE ("unit", CRO_LINES_UNIT),
  { "weighed", CRO_LINES_WEIGHED, CRO_MAP_FALLBACK },
  VALUE ("yield_pct_micro", CRO_LINES_YIELD_PCT),
  VALUE ("recovered_pct_micro", CRO_LINES_RECOVERED_PCT),
  VALUE ("note", CRO_LINES_NOTE),
  END
};

static const CroMapColumn yield_tests[] = {
  VALUE ("test", CRO_YIELD_TESTS_TEST),
  VALUE ("item", CRO_YIELD_TESTS_ITEM),
  VALUE ("date", CRO_YIELD_TESTS_DATE),
  VALUE ("purchased_g_micro", CRO_YIELD_TESTS_PURCHASED_G),
  VALUE ("usable_g_micro", CRO_YIELD_TESTS_USABLE_G),
  VALUE ("note", CRO_YIELD_TESTS_NOTE),
  END
};

static const CroMapColumn yield_test_parts[] = {
  VALUE ("yield_test", CRO_YIELD_TEST_PARTS_TEST),
  VALUE ("output", CRO_YIELD_TEST_PARTS_OUTPUT),
  VALUE ("weight_g_micro", CRO_YIELD_TEST_PARTS_WEIGHT_G),
  END
};

static const CroMapColumn sales[] = {
  VALUE ("date", CRO_SALES_DATE),
  { "thing", CRO_SALES_NAME, CRO_MAP_THING },
  { "other", CRO_SALES_NAME, CRO_MAP_OTHER },
  VALUE ("sold_micro", CRO_SALES_SOLD),
  VALUE ("net_revenue_micro", CRO_SALES_NET_REVENUE),
  END
};

static const CroMapColumn till_names[] = {
  VALUE ("name", CRO_TILL_NAMES_NAME),
  VALUE ("kind", CRO_TILL_NAMES_KIND),
  VALUE ("sold_as", CRO_TILL_NAMES_SOLD_AS),
  END
};

static const CroMapColumn counts[] = {
  VALUE ("date", CRO_COUNTS_DATE),
  VALUE ("item", CRO_COUNTS_ITEM),
  VALUE ("amount_micro", CRO_COUNTS_AMOUNT),
  VALUE ("unit", CRO_COUNTS_UNIT),
  VALUE ("place", CRO_COUNTS_PLACE),
  END
};

static const CroMapColumn purchases[] = {
  VALUE ("date", CRO_PURCHASES_DATE),
  VALUE ("document_date", CRO_PURCHASES_DOCUMENT_DATE),
  VALUE ("supplier", CRO_PURCHASES_SUPPLIER),
  VALUE ("document", CRO_PURCHASES_DOCUMENT),
  VALUE ("ingredient", CRO_PURCHASES_INGREDIENT),
  VALUE ("category", CRO_PURCHASES_CATEGORY),
  { "kind", CRO_PURCHASES_KIND, CRO_MAP_FALLBACK },
  VALUE ("amount_micro", CRO_PURCHASES_AMOUNT),
  VALUE ("unit", CRO_PURCHASES_UNIT),
  VALUE ("net_value_micro", CRO_PURCHASES_NET_VALUE),
  END
};

static const CroMapColumn adjustments[] = {
  VALUE ("date", CRO_ADJUSTMENTS_DATE),
  VALUE ("kind", CRO_ADJUSTMENTS_KIND),
  VALUE ("item", CRO_ADJUSTMENTS_ITEM),
  VALUE ("amount_micro", CRO_ADJUSTMENTS_AMOUNT),
  VALUE ("unit", CRO_ADJUSTMENTS_UNIT),
  VALUE ("net_value_micro", CRO_ADJUSTMENTS_NET_VALUE),
  VALUE ("note", CRO_ADJUSTMENTS_NOTE),
  END
};

static const CroMapColumn months[] = {
  VALUE ("month", CRO_MONTHS_MONTH),
  VALUE ("till_net_revenue_micro", CRO_MONTHS_TILL_NET_REVENUE),
  VALUE ("till_gross_revenue_micro", CRO_MONTHS_TILL_GROSS_REVENUE),
  VALUE ("ledger_purchases_micro", CRO_MONTHS_LEDGER_PURCHASES),
  VALUE ("recipes_on", CRO_MONTHS_RECIPES_ON),
  VALUE ("closing_stock_value_micro", CRO_MONTHS_CLOSING_STOCK_VALUE),
  VALUE ("late_estimate_micro", CRO_MONTHS_LATE_ESTIMATE),
  VALUE ("closed_at", CRO_MONTHS_CLOSED_AT),
  VALUE ("reason", CRO_MONTHS_REASON),
  VALUE ("hash", CRO_MONTHS_HASH),
  END
};

static const CroMapColumn month_rows[] = {
  VALUE ("month", CRO_MONTH_ROWS_MONTH),
  VALUE ("kind", CRO_MONTH_ROWS_KIND),
  VALUE ("name", CRO_MONTH_ROWS_NAME),
  VALUE ("part_kind", CRO_MONTH_ROWS_PART_KIND),
  VALUE ("part", CRO_MONTH_ROWS_PART),
  VALUE ("number_micro", CRO_MONTH_ROWS_NUMBER),
  VALUE ("date", CRO_MONTH_ROWS_DATE),
  VALUE ("sold_micro", CRO_MONTH_ROWS_SOLD),
  VALUE ("net_revenue_micro", CRO_MONTH_ROWS_NET_REVENUE),
  VALUE ("price_micro", CRO_MONTH_ROWS_PRICE),
  VALUE ("unit", CRO_MONTH_ROWS_UNIT),
  VALUE ("quantity_micro", CRO_MONTH_ROWS_QUANTITY),
  VALUE ("cost_micro", CRO_MONTH_ROWS_COST),
  VALUE ("cost_per_1000_micro", CRO_MONTH_ROWS_COST_PER_1000),
  VALUE ("supplier", CRO_MONTH_ROWS_SUPPLIER),
  VALUE ("document", CRO_MONTH_ROWS_DOCUMENT),
  VALUE ("category", CRO_MONTH_ROWS_CATEGORY),
  VALUE ("row_kind", CRO_MONTH_ROWS_ROW_KIND),
  VALUE ("note", CRO_MONTH_ROWS_NOTE),
  END
};

const char *const cro_book_columns[CRO_N_BOOK_KEYS + 1] = {
  [CRO_BOOK_KEY_NAME] = "name",
  [CRO_BOOK_KEY_CURRENCY] = "currency",
  [CRO_BOOK_KEY_WAGE_PER_HOUR] = "wage_per_hour_micro",
  [CRO_BOOK_KEY_TAX_PCT] = "tax_pct_micro",
  [CRO_BOOK_KEY_TARGET_PCT] = "target_pct_micro",
  [CRO_BOOK_KEY_STALE_AFTER_DAYS] = "stale_after_days_micro",
  [CRO_BOOK_KEY_SPEAKS] = "speaks",
  [CRO_BOOK_KEY_TILL_WITH_TAX] = "till_with_tax",
  [CRO_BOOK_KEY_PRICE_STEPS] = "price_steps",
};

const CroSheetMap cro_sheet_maps[] = {
  { CRO_TABLE_INGREDIENTS, "ingredient", "item", ingredients, 0, TRUE },
  { CRO_TABLE_SUPPLIERS, "supplier", NULL, suppliers, 1, TRUE },
  { CRO_TABLE_OFFERS, "offer", NULL, offers, 3, TRUE },
  { CRO_TABLE_PRICES, "price", NULL, prices, 2, TRUE },
  { CRO_TABLE_PRICE_ANSWERS, "price_answer", NULL, price_answers, 2, TRUE },
  { CRO_TABLE_RATES, "rate", NULL, rates, 2, TRUE },
  { CRO_TABLE_PREPARATIONS, "preparation", NULL, preparations, 1, TRUE },
  { CRO_TABLE_OUTPUTS, "output", "item", outputs, 0, TRUE },
  { CRO_TABLE_PLATES, "plate", "thing", plates, 0, TRUE },
  { CRO_TABLE_MENUS, "menu", "thing", menus, 0, TRUE },
  { CRO_TABLE_LINES, "recipe_line", NULL, lines, 3, TRUE },
  { CRO_TABLE_MENU_PLATES, "menu_plate", NULL, menu_plates, 3, TRUE },
  { CRO_TABLE_SELLING_PRICES, "selling_price", NULL, selling_prices, 2, TRUE },
  { CRO_TABLE_SERVICES, "service", NULL, services, 3, TRUE },
  { CRO_TABLE_SERVICE_STOCK, "service_stock", NULL, service_stock, 3, TRUE },
  { CRO_TABLE_YIELD_TESTS, "yield_test", NULL, yield_tests, 1, TRUE },
  { CRO_TABLE_YIELD_TEST_PARTS, "yield_test_part", NULL, yield_test_parts, 2, TRUE },
  { CRO_TABLE_SALES, "sale", NULL, sales, 5, FALSE },
  { CRO_TABLE_TILL_NAMES, "till_name", NULL, till_names, 1, TRUE },
  { CRO_TABLE_COUNTS, "stock_count", NULL, counts, 5, FALSE },
  { CRO_TABLE_PURCHASES, "purchase", NULL, purchases, 10, FALSE },
  { CRO_TABLE_ADJUSTMENTS, "adjustment", NULL, adjustments, 7, FALSE },
  { CRO_TABLE_MONTHS, "month", NULL, months, 1, TRUE },
  { CRO_TABLE_MONTH_ROWS, "month_row", NULL, month_rows, 6, TRUE },
  { CRO_N_TABLES, NULL, NULL, NULL, 0, FALSE },
};
