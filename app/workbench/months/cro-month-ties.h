/* cro-month-ties.h: what others have of a month, beside what was entered: the totals of a till, with tax or
 * without, of a ledger, or what a stock is worth that nobody counted; and whether they agree.
 *
 * Ownership  It borrows its bench, which holds it, and follows the bench's book when it is refreshed. */
#pragma once

#include "cro-month-sheet.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_TIES (cro_month_ties_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthTies, cro_month_ties, CRO, MONTH_TIES, GtkWidget)

/* first: the first day of the month. NULL: a sheet of that kind ties to nothing. */
GtkWidget *cro_month_ties_new      (CroBench          *bench,
                                    CroDate            first,
                                    CroMonthSheetKind  which);

/* Shows what the book has, unless something else is typed. */
void       cro_month_ties_refresh  (CroMonthTies      *self);

/* Whether totals can be typed. */
void       cro_month_ties_set_open (CroMonthTies      *self,
                                    gboolean           is_open);

/* Whether the first of the totals is kept. */
gboolean   cro_month_ties_is_set   (CroMonthTies      *self);

G_END_DECLS
