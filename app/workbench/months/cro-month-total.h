/* cro-month-total.h: a field for a sum of money that table months has of a month: what the till or the
 * ledger says, or stock that was valued and not counted.
 *
 * Enter, or leaving the field, keeps it as one act; Escape gives back what was; empty clears it. The row of
 * the month is made where it is not there. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_TOTAL (cro_month_total_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthTotal, cro_month_total, CRO, MONTH_TOTAL, GtkWidget)

/* first: the first day of the month. column: of the store, static. bench is borrowed. */
GtkWidget *cro_month_total_new     (CroBench       *bench,
                                    CroDate         first,
                                    const char     *column,
                                    const char     *caption);

/* Shows what the book has, unless something else is typed. */
void       cro_month_total_refresh (CroMonthTotal  *self);

/* Whether anything is kept. */
gboolean   cro_month_total_is_set  (CroMonthTotal  *self);

G_END_DECLS
