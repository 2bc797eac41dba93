/* cro-workbook-text.h: the words in a workbook, which are handed in, as only those who show text
 * know the user's language. */
#pragma once

#include "cro-code.h"

typedef enum
{
  /* Names of sheets. */
  CRO_WT_SUMMARY,
  CRO_WT_CARDS,
  CRO_WT_PREPARATIONS,
  CRO_WT_INGREDIENTS,
  CRO_WT_PRICES,
  CRO_WT_UNITS,
  CRO_WT_TOTALS,
  CRO_WT_NOTES,

  /* What stands under a sheet's title. */
  CRO_WT_ABOUT_SUMMARY,        /* before the date of the prices */
  CRO_WT_ABOUT_PREPARATIONS,
  CRO_WT_ABOUT_INGREDIENTS,
  CRO_WT_ABOUT_PRICES,
  CRO_WT_NOT_PRINTED,
  CRO_WT_ABOUT_UNITS,
  CRO_WT_ABOUT_TOTALS,
  CRO_WT_SUBJECT,              /* of the document */

  /* Heads of columns, and labels. */
  CRO_WT_WAGE,
  CRO_WT_TAX,
  CRO_WT_TARGET,
  CRO_WT_PLATE,
  CRO_WT_MENU,
  CRO_WT_COURSE,
  CRO_WT_SERVINGS,
  CRO_WT_TAKEN,
  CRO_WT_CHOICE,
  CRO_WT_COLON,        /* between a label and what it is of */
  CRO_WT_CHEAPEST,
  CRO_WT_DEAREST,
  CRO_WT_BITE,
  CRO_WT_GUEST,
  CRO_WT_LABOUR,
  CRO_WT_DISPOSABLES,
  CRO_WT_PRIME,
  CRO_WT_PRICE,
  CRO_WT_NET_PRICE,
  CRO_WT_FOOD_COST_PCT,
  CRO_WT_GROSS_PROFIT_PCT,
  CRO_WT_COEFFICIENT,
  CRO_WT_TARGET_FOOD_COST,     /* of a house that speaks otherwise */
  CRO_WT_TARGET_GROSS_PROFIT,
  CRO_WT_TARGET_COEFFICIENT,
  CRO_WT_TO_SPARE,
  CRO_WT_PRICE_FOR_TARGET,
  CRO_WT_VERDICT,
  CRO_WT_MISSING,
  CRO_WT_ALLERGENS,
  CRO_WT_MAKES,
  CRO_WT_PER_GUEST,
  CRO_WT_ALLOWANCE,
  CRO_WT_MINUTES,
  CRO_WT_ITEM,
  CRO_WT_AMOUNT,
  CRO_WT_UNIT,
  CRO_WT_FACTOR,
  CRO_WT_YIELD,
  CRO_WT_RECOVERED,
  CRO_WT_BACK_OR_LOST,
  CRO_WT_CHARGED,
  CRO_WT_BASE,
  CRO_WT_UNIT_COST_FOOD,
  CRO_WT_UNIT_COST_DISPOSABLES,
  CRO_WT_UNIT_COST_LABOUR,
  CRO_WT_COST_FOOD,
  CRO_WT_COST_DISPOSABLES,
  CRO_WT_COST_LABOUR,
  CRO_WT_OF_BITE,
  CRO_WT_PART,
  CRO_WT_NOTE,
  CRO_WT_PRINTED,
  CRO_WT_PRINTED_FOOD,
  CRO_WT_FRACTION,
  CRO_WT_WHOLE_UNITS,
  CRO_WT_MINOR_UNITS,
  CRO_WT_GRAMS,
  CRO_WT_LACKS,
  CRO_WT_VALUE,
  CRO_WT_DENSITY,
  CRO_WT_PIECE,
  CRO_WT_VALUE_OF_BASE,
  CRO_WT_WEIGHT,
  CRO_WT_SHARE,
  CRO_WT_LEFT_FOOD,
  CRO_WT_LEFT_DISPOSABLES,
  CRO_WT_LEFT_LABOUR,
  CRO_WT_USED_IN,
  CRO_WT_KIND,
  CRO_WT_TRIM,
  CRO_WT_UNIT_COST,
  CRO_WT_READABLE_COST,
  CRO_WT_SUPPLIER,
  CRO_WT_CODE,
  CRO_WT_PACK_COUNT,
  CRO_WT_PACK_SIZE,
  CRO_WT_NET_PART,
  CRO_WT_PACK_PRICE,
  CRO_WT_TAX_INCLUDED,
  CRO_WT_CURRENCY,
  CRO_WT_RATE,
  CRO_WT_CONTENT,
  CRO_WT_FROM,
  CRO_WT_STATE,
  CRO_WT_IN_FORCE,
  CRO_WT_CHECK,
  CRO_WT_ONE_SIDE,
  CRO_WT_OTHER_SIDE,
  CRO_WT_DIFFERENCE,
  CRO_WT_TIES,
  CRO_WT_FAILS,                /* 1 if it did not tie */
  CRO_WT_OTHER_WAY,            /* what was written, reckoned otherwise */
  CRO_WT_MOVED,                /* 1 if it was changed since */
  CRO_WT_WORDS,                /* that formulas say */

  /* In rows. */
  CRO_WT_ACTIVE_TIME,
  CRO_WT_ALL_BITES,
  CRO_WT_A_BITE,
  CRO_WT_A_GUEST,
  CRO_WT_THE_BATCH,
  CRO_WT_MIN,                  /* minutes, as a unit */
  CRO_WT_RULE_FIRST,           /* in the order of CroRule */
  CRO_WT_RULE_LAST = CRO_WT_RULE_FIRST + CRO_N_RULES - 1,
  CRO_WT_MAIN,
  CRO_WT_BY_PRODUCT,
  CRO_WT_IS_FOOD,
  CRO_WT_IS_DISPOSABLE,
  CRO_WT_CHEAPER,              /* another offer is cheaper now */
  CRO_WT_OVER,
  CRO_WT_WITHIN,
  CRO_WT_NO_TARGET,
  CRO_WT_NO_PRICE,
  CRO_WT_OPEN,                 /* what is missing decides whether it is over its target */
  CRO_WT_COMPLETE,
  CRO_WT_AT_LEAST,             /* before a number */
  CRO_WT_AT_MOST,              /* before a number */
  CRO_WT_INCOMPLETE,           /* before a number */
  CRO_WT_DOES_TIE,
  CRO_WT_DOES_NOT_TIE,
  CRO_WT_ALL_TIE,
  CRO_WT_NOT_ALL_TIE,
  CRO_WT_CHANGED,              /* since it was written */
  CRO_WT_AS_WRITTEN,           /* nothing was changed since */
  CRO_WT_NOT_AS_WRITTEN,
  CRO_WT_CHART,                /* title of a card's chart */

  /* Control totals. */
  CRO_WT_CHECK_FOOD,
  CRO_WT_CHECK_DISPOSABLES,
  CRO_WT_CHECK_LABOUR,
  CRO_WT_CHECK_ATTRIBUTED,
  CRO_WT_CHECK_PRINTED,
  CRO_WT_CHECK_N_INGREDIENTS,
  CRO_WT_CHECK_N_OFFERS,
  CRO_WT_CHECK_N_PRICES,
  CRO_WT_CHECK_N_LINES,
  CRO_WT_CHECK_N_PLATES,

  /* Notes: sentences, a row each; those about limits stand only where one was met. */
  CRO_WT_NOTE_FIRST,
  CRO_WT_NOTE_LAST = CRO_WT_NOTE_FIRST + 18,
  CRO_WT_LIMIT_CARDS,          /* %u: how many cards have a sheet of their own */
  CRO_WT_LIMIT_LINKS,          /* %u: how many lines are linked */
  CRO_WT_LIMIT_NAMES,          /* %u: how many plates and menus have names */
  CRO_WT_LIMIT_TEXTS,          /* %u: how many texts were cut at 32,767 characters */
  CRO_WT_LIMIT_PRICES,         /* %u: how many rows there are for them */

  CRO_N_WORKBOOK_TEXTS,
} CroWorkbookTextId;
