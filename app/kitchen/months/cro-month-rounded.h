/* cro-month-rounded.h: what every row of a month is in minor units of its currency, once for all places
 * that show it: tables, papers, workbooks.
 *
 * From the statement's total to its parts and from those to their rows (costing.md, section 12): net sales
 * and theoretical food cost to what was sold, the latter to ingredients and by-products as well; what was
 * measured less its theory to price and usage, and each of them to its ingredients. Categories, courses and
 * "others" are sums of rows. */
#pragma once

#include "cro-month-words.h"

G_BEGIN_DECLS

typedef struct
{
  CroMonthMinor minor;        /* of the statement */
  gint64       *revenue;      /* of things … */
  gint64       *cost;         /* … and their theoretical food cost; 0 of kind other */
  gint64       *theoretical;  /* of items */
  gint64       *price;        /* of items: their variances, 0 where they are not known */
  gint64       *usage;
  gint64       *actual;       /* of items; 0 where it is not known */
  gint64       *by_products;
} CroMonthRounded;

/* Arrays are in the order of the month's own. */
CroMonthRounded *cro_month_rounded_new      (const CroMonth     *month,
                                             int                 digits);
void             cro_month_rounded_free     (CroMonthRounded    *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMonthRounded, cro_month_rounded_free)

/* Indices of the items of which price and usage are known, what moved most money first: guint. Of what is on no plate
 * that was sold all is usage. */
GArray          *cro_month_list_measured    (const CroMonth     *month);

G_END_DECLS
