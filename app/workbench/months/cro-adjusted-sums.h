/* cro-adjusted-sums.h: what a month's adjustments are in money: each row's, and a line of what the kinds come to.
 *
 * Ownership  It borrows its bench and the view of the rows, which stand around it. */
#pragma once

#include "cro-bench.h"
#include "cro-records-view.h"

G_BEGIN_DECLS

/* A label under the rows. */
GtkWidget *cro_adjusted_sums_new     (void);

/* Reckons the month of that first day where it is not of today's book, and tells the rows and the label. */
void       cro_adjusted_sums_refresh (GtkWidget       *label,
                                      CroBench        *bench,
                                      CroDate          first,
                                      CroRecordsView  *view);

G_END_DECLS
