/* cro-column.h: where each column stands in its table's fields.
 *
 * A comment lists the choices of a column in the order of their indices, and what a column
 * that is not set counts as. */
#pragma once

enum
{
  CRO_BOOK_KEY,
  CRO_BOOK_VALUE,
  CRO_N_BOOK,
};

enum
{
  CRO_INGREDIENTS_NAME,
  CRO_INGREDIENTS_CATEGORY,
  CRO_INGREDIENTS_KIND,               /* food, disposable; default food */
  CRO_INGREDIENTS_UNIT,               /* g, ml, each: the index is a CroBase */
  CRO_INGREDIENTS_DENSITY_G_PER_ML,
  CRO_INGREDIENTS_PIECE_G,
  CRO_INGREDIENTS_TRIM_YIELD_PCT,
  CRO_INGREDIENTS_ALLERGENS,          /* not set: CRO_ALLERGENS_NOT_KNOWN */
  CRO_INGREDIENTS_MAY_CONTAIN,        /* not set: CRO_ALLERGENS_NOT_KNOWN */
  CRO_INGREDIENTS_NOTE,
  CRO_N_INGREDIENTS,
};

enum
{
  CRO_SUPPLIERS_NAME,
  CRO_SUPPLIERS_CONTACT,
  CRO_SUPPLIERS_QUOTES,               /* pack, base unit */
  CRO_SUPPLIERS_MINIMUM_ORDER,
  CRO_SUPPLIERS_DELIVERY_CHARGE,
  CRO_SUPPLIERS_NOTE,
  CRO_N_SUPPLIERS,
};

enum
{
  CRO_OFFERS_INGREDIENT,
  CRO_OFFERS_SUPPLIER,
  CRO_OFFERS_CODE,                    /* in the key, and may be empty */
  CRO_OFFERS_PACK_COUNT,
  CRO_OFFERS_PACK_SIZE,
  CRO_OFFERS_PACK_UNIT,
  CRO_OFFERS_NET_PCT,                 /* default 100 */
  CRO_OFFERS_CURRENCY,
  CRO_OFFERS_PREFERRED,               /* yes, no; default no */
  CRO_OFFERS_UNTIL,
  CRO_OFFERS_GTIN,
  CRO_OFFERS_POSITION,
  CRO_N_OFFERS,
};

enum
{
  CRO_PRICES_INGREDIENT,
  CRO_PRICES_SUPPLIER,
  CRO_PRICES_CODE,                    /* in the key, and may be empty */
  CRO_PRICES_FROM,
  CRO_PRICES_PRICE,                   /* not set: not to be had from then on */
  CRO_PRICES_TAX_INCLUDED_PCT,
  CRO_PRICES_PACK_COUNT,
  CRO_PRICES_PACK_SIZE,
  CRO_PRICES_PACK_UNIT,
  CRO_N_PRICES,
};

/* Its pack and its day stand where those of a price do. */
enum
{
  CRO_PRICE_ANSWERS_INGREDIENT,
  CRO_PRICE_ANSWERS_SUPPLIER,
  CRO_PRICE_ANSWERS_CODE,
  CRO_PRICE_ANSWERS_FROM,
  CRO_PRICE_ANSWERS_PRICE,            /* the one that is right: another of that day is not answered for */
  CRO_PRICE_ANSWERS_ANSWERED_ON,
  CRO_PRICE_ANSWERS_PACK_COUNT,       /* what it is right for; of what is not set, the offer's */
  CRO_PRICE_ANSWERS_PACK_SIZE,
  CRO_PRICE_ANSWERS_PACK_UNIT,
  CRO_PRICE_ANSWERS_CURRENCY,
  CRO_N_PRICE_ANSWERS,
};

enum
{
  CRO_RATES_CURRENCY,
  CRO_RATES_FROM,
  CRO_RATES_RATE,
  CRO_RATES_PER,                      /* default 1 */
  CRO_N_RATES,
};

enum
{
  CRO_PREPARATIONS_NAME,
  CRO_PREPARATIONS_BY_PRODUCTS,       /* free, weight, value, credit; default free */
  CRO_PREPARATIONS_ACTIVE_MINUTES,
  CRO_PREPARATIONS_SMALLEST_PART,     /* default 0 */
  CRO_PREPARATIONS_NOTE,
  CRO_PREPARATIONS_PICTURE,           /* the name of a file in the folder “pictures” */
  CRO_N_PREPARATIONS,
};

enum
{
  CRO_OUTPUTS_ITEM,
  CRO_OUTPUTS_PREPARATION,
  CRO_OUTPUTS_ROLE,                   /* main, by-product */
  CRO_OUTPUTS_AMOUNT,
  CRO_OUTPUTS_UNIT,
  CRO_OUTPUTS_YIELD_PCT,
  CRO_OUTPUTS_VALUE,
  CRO_OUTPUTS_DENSITY_G_PER_ML,
  CRO_OUTPUTS_PIECE_G,
  CRO_OUTPUTS_LOST_PCT,
  CRO_N_OUTPUTS,
};

enum
{
  CRO_LINES_INTO,                     /* preparation, plate */
  CRO_LINES_PARENT,
  CRO_LINES_POSITION,
  CRO_LINES_ITEM,
  CRO_LINES_AMOUNT,
  CRO_LINES_UNIT,
  CRO_LINES_WEIGHED,                  /* whole, trimmed; default trimmed */
  CRO_LINES_YIELD_PCT,
  CRO_LINES_RECOVERED_PCT,
  CRO_LINES_NOTE,
  CRO_N_LINES,
};

enum
{
  CRO_PLATES_NAME,
  CRO_PLATES_COURSE,
  CRO_PLATES_MAKES,
  CRO_PLATES_PER_GUEST,               /* default 1 */
  CRO_PLATES_PRICE,
  CRO_PLATES_TAX_PCT,
  CRO_PLATES_TARGET_PCT,
  CRO_PLATES_ALLOWANCE_PCT,
  CRO_PLATES_ACTIVE_MINUTES,
  CRO_PLATES_NOTE,
  CRO_PLATES_PICTURE,                 /* the name of a file in the folder “pictures” */
  CRO_N_PLATES,
};

enum
{
  CRO_MENUS_NAME,
  CRO_MENUS_PRICE,
  CRO_MENUS_TAX_PCT,
  CRO_MENUS_TARGET_PCT,
  CRO_MENUS_NOTE,
  CRO_N_MENUS,
};

enum
{
  CRO_MENU_PLATES_MENU,
  CRO_MENU_PLATES_PLATE,
  CRO_MENU_PLATES_CHOICE,             /* in the key, and may be empty */
  CRO_MENU_PLATES_SERVINGS,           /* default 1 */
  CRO_MENU_PLATES_POSITION,
  CRO_MENU_PLATES_SHARE_PCT,
  CRO_N_MENU_PLATES,
};

enum
{
  CRO_SELLING_PRICES_NAME,
  CRO_SELLING_PRICES_FROM,
  CRO_SELLING_PRICES_PRICE,           /* not set: none of its own from then on */
  CRO_SELLING_PRICES_TAX_PCT,
  CRO_N_SELLING_PRICES,
};

enum
{
  CRO_SERVICES_DATE,
  CRO_SERVICES_SERVICE,
  CRO_SERVICES_NAME,
  CRO_SERVICES_COVERS,
  CRO_N_SERVICES,
};

enum
{
  CRO_SERVICE_STOCK_DATE,
  CRO_SERVICE_STOCK_SERVICE,
  CRO_SERVICE_STOCK_ITEM,
  CRO_SERVICE_STOCK_AMOUNT,
  CRO_SERVICE_STOCK_UNIT,
  CRO_N_SERVICE_STOCK,
};

enum
{
  CRO_YIELD_TESTS_TEST,
  CRO_YIELD_TESTS_ITEM,
  CRO_YIELD_TESTS_DATE,
  CRO_YIELD_TESTS_PURCHASED_G,
  CRO_YIELD_TESTS_USABLE_G,
  CRO_YIELD_TESTS_NOTE,
  CRO_N_YIELD_TESTS,
};

enum
{
  CRO_YIELD_TEST_PARTS_TEST,
  CRO_YIELD_TEST_PARTS_OUTPUT,
  CRO_YIELD_TEST_PARTS_WEIGHT_G,
  CRO_N_YIELD_TEST_PARTS,
};

/* What CRO_SALES_KIND counts. */
enum
{
  CRO_SALE_PLATE,
  CRO_SALE_MENU,
  CRO_SALE_OTHER,                     /* sold without a plate */
};

enum
{
  CRO_SALES_DATE,
  CRO_SALES_KIND,                     /* plate, menu, other */
  CRO_SALES_NAME,                     /* of the kind other any words */
  CRO_SALES_SOLD,
  CRO_SALES_NET_REVENUE,
  CRO_N_SALES,
};

/* What CRO_TILL_NAMES_KIND counts. */
typedef enum
{
  CRO_TILL_KIND_PLATE,
  CRO_TILL_KIND_MENU,
  CRO_TILL_KIND_OTHER,                /* revenue without a plate */
  CRO_TILL_KIND_NONE,                 /* left out */
} CroTillKind;

enum
{
  CRO_TILL_NAMES_NAME,                /* as the till has it */
  CRO_TILL_NAMES_KIND,
  CRO_TILL_NAMES_SOLD_AS,             /* a plate or a menu, by its name here */
  CRO_N_TILL_NAMES,
};

enum
{
  CRO_COUNTS_DATE,
  CRO_COUNTS_ITEM,
  CRO_COUNTS_AMOUNT,
  CRO_COUNTS_UNIT,
  CRO_COUNTS_PLACE,
  CRO_N_COUNTS,
};

enum
{
  CRO_PURCHASES_DATE,                 /* of the delivery */
  CRO_PURCHASES_DOCUMENT_DATE,
  CRO_PURCHASES_SUPPLIER,
  CRO_PURCHASES_DOCUMENT,
  CRO_PURCHASES_INGREDIENT,
  CRO_PURCHASES_CATEGORY,
  CRO_PURCHASES_KIND,                 /* food, disposable, other; default food */
  CRO_PURCHASES_AMOUNT,
  CRO_PURCHASES_UNIT,
  CRO_PURCHASES_NET_VALUE,
  CRO_N_PURCHASES,
};

enum
{
  CRO_ADJUSTMENTS_DATE,
  CRO_ADJUSTMENTS_KIND,               /* staff-meal, promotion, waste, transfer-in,
                                         transfer-out, other */
  CRO_ADJUSTMENTS_ITEM,
  CRO_ADJUSTMENTS_AMOUNT,
  CRO_ADJUSTMENTS_UNIT,
  CRO_ADJUSTMENTS_NET_VALUE,
  CRO_ADJUSTMENTS_NOTE,
  CRO_N_ADJUSTMENTS,
};

enum
{
  CRO_MONTHS_MONTH,
  CRO_MONTHS_TILL_NET_REVENUE,
  CRO_MONTHS_TILL_GROSS_REVENUE,
  CRO_MONTHS_LEDGER_PURCHASES,
  CRO_MONTHS_RECIPES_ON,
  CRO_MONTHS_CLOSING_STOCK_VALUE,
  CRO_MONTHS_LATE_ESTIMATE,
  CRO_MONTHS_CLOSED_AT,
  CRO_MONTHS_REASON,
  CRO_MONTHS_HASH,
  CRO_N_MONTHS,
};

enum
{
  CRO_MONTH_ROWS_MONTH,
  CRO_MONTH_ROWS_KIND,                /* plate, menu, other, statement, count, purchase,
                                         adjustment */
  CRO_MONTH_ROWS_NAME,
  CRO_MONTH_ROWS_PART_KIND,           /* food, disposable, by-product, plate; not set for the
                                         thing itself */
  CRO_MONTH_ROWS_PART,
  CRO_MONTH_ROWS_NUMBER,              /* in the key, and may be empty */
  CRO_MONTH_ROWS_DATE,
  CRO_MONTH_ROWS_SOLD,
  CRO_MONTH_ROWS_NET_REVENUE,
  CRO_MONTH_ROWS_PRICE,
  CRO_MONTH_ROWS_UNIT,
  CRO_MONTH_ROWS_QUANTITY,
  CRO_MONTH_ROWS_COST,
  CRO_MONTH_ROWS_COST_PER_1000,
  CRO_MONTH_ROWS_SUPPLIER,
  CRO_MONTH_ROWS_DOCUMENT,
  CRO_MONTH_ROWS_CATEGORY,
  CRO_MONTH_ROWS_ROW_KIND,
  CRO_MONTH_ROWS_NOTE,
  CRO_N_MONTH_ROWS,
};

/* The most columns of any table. */
#define CRO_MAX_COLUMNS 20
