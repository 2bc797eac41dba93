/* cro-month-close.h: closing a month, and opening it again.
 *
 * Closing freezes the statement with every row that it is made of (tables months and month_rows), the
 * day of its recipes among them. A closed month never changes, whatever happens to prices, recipes and
 * records after; undo does not cross it.
 *
 * Errors     CRO_MONTH_ERROR, CRO_REFUSAL (of a reason), and those of the store. */
#pragma once

#include "cro-month.h"

G_BEGIN_DECLS

#define CRO_MONTH_ERROR (cro_month_error_quark ())

typedef enum
{
  CRO_MONTH_ERROR_CLOSED,     /* it is closed already */
  CRO_MONTH_ERROR_OPEN,       /* it is not closed */
  CRO_MONTH_ERROR_AHEAD,      /* it has not begun */
  CRO_MONTH_ERROR_RUNS,       /* it is not over */
  CRO_MONTH_ERROR_EMPTY,      /* nothing is recorded in it */
  CRO_MONTH_ERROR_RANGE,      /* an amount or money of it is more than a book can freeze */
  CRO_MONTH_ERROR_REASON,     /* reopening needs a reason */
} CroMonthErrorCode;

GQuark    cro_month_error_quark (void);

/* Whether its turn has come, there is something to close and its sums can be kept: FALSE with CRO_MONTH_ERROR. */
gboolean  cro_month_may_close   (const CroMonth *month,
                                 GError      **error);

/* Whether there is a closing to take back: of a month whose time of closing was taken out of the file too. */
gboolean  cro_month_may_reopen  (const CroMonth *month);

/* One act. estimate: money of food that was delivered and whose documents are still to come, in
 * millionths; CRO_NOT_SET leaves what the month has. What was closed is returned. */
CroMonth *cro_month_close       (CroBook      *book,
                                 CroDate       first,
                                 gint64        estimate,
                                 GError      **error);

/* What a month would be closed out of its order with: the nearest earlier month that is open and holds more than
 * a stock, the nearest later one that is closed; CRO_NO_DAY. Closing asks about both. */
gboolean  cro_month_out_of_order (CroBook     *book,
                                 CroDate      first,
                                 CroDate     *earlier,
                                 CroDate     *later,
                                 GError     **error);

/* Whether the first open month is left with a difference to settle: the closed ones right after a month took off
 * another estimate than that (CRO_NOT_SET: none). taken: as its entries have it. */
gboolean  cro_month_leaves_estimate (gint64   taken,
                                 gint64       estimate);

/* One act: what was frozen goes, the day of its recipes stays. */
gboolean  cro_month_reopen      (CroBook      *book,
                                 CroDate       first,
                                 const char   *reason,
                                 GError      **error);

/* One act: the day of its recipes; CRO_NO_DAY: its last. Not of a closed one. */
gboolean  cro_month_set_recipes_on (CroBook   *book,
                                 CroDate      first,
                                 CroDate      day,
                                 GError     **error);

G_END_DECLS
