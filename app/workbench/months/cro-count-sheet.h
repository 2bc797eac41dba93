/* cro-count-sheet.h: stock as it is counted: a row for each thing in each place, in the order in which one
 * walks through the larder.
 *
 * Enter in an amount keeps it as one act and leads to the next; any unit may be typed, and 0 is a count. An
 * empty amount was not counted. What is not listed is added below, and a place is typed beside its row. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_COUNT_SHEET (cro_count_sheet_get_type ())
G_DECLARE_FINAL_TYPE (CroCountSheet, cro_count_sheet, CRO, COUNT_SHEET, GtkWidget)

/* day: of the count, the last of a month. bench is borrowed. */
GtkWidget *cro_count_sheet_new     (CroBench       *bench,
                                    CroDate         day);

/* Shows what the book has; what is typed stays. */
void       cro_count_sheet_refresh (CroCountSheet  *self);

/* Whether anything can be entered: a closed month's counts are only read. */
void       cro_count_sheet_set_open (CroCountSheet *self,
                                    gboolean        is_open);

/* Whether anything is counted; *n_last is how many rows were when the month before ended and are not now. */
gboolean   cro_count_sheet_is_counted (CroCountSheet *self,
                                    guint          *n_last);

/* Those as they were then, as one act. */
void       cro_count_sheet_take_last (CroCountSheet *self);

G_END_DECLS
