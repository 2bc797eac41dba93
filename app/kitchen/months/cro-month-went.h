/* cro-month-went.h: where a month's food cost went, as tables of texts: by ingredient (price and usage of
 * what was counted and bought in amounts), by course, by category, by plate and menu.
 *
 * Sorted by money. Columns add up to totals that are rounded first (costing.md, section 12), and lead to the
 * costs of the statement. A row's line is -1 where it is a sum. */
#pragma once

#include "cro-month-table.h"
#include "cro-month.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_WENT_BY_INGREDIENT,
  CRO_WENT_BY_THING,
  CRO_WENT_BY_COURSE,
  CRO_WENT_BY_CATEGORY,
  CRO_N_WENT_BY,
} CroWentBy;

/* most: rows at most, and the others as one (of ingredients); 0: all of them. of: those of a course or a
 * category alone, by its name in a table of them, without sums; NULL: all. NULL: nothing is to be told. */
CroMonthTable *cro_month_went_new   (const CroMonth *month,
                                     CroWentBy       by,
                                     const char     *of,
                                     guint           most);

/* "Ingredients". Borrowed. */
const char    *cro_month_went_title (CroWentBy       by);

/* What is beside the food of the month itself, as a row is called: late documents, and an estimate. Borrowed. */
const char    *cro_month_went_apart (void);

/* What leads from measured ingredients to the statement's costs, as a row is called. The value of by-products within
 * counted preparations is of no ingredient either, and moves with the stock. Borrowed. */
const char    *cro_month_went_rest  (const CroMonth *month);

G_END_DECLS
