/* cro-month-table-view.h: a table of a month on the screen (cro-month-table.h): figures under each other,
 * rows that arrows walk and Enter opens.
 *
 * Rows that stay keep the focus, whatever they show then.
 *
 * Signals    "opened" (int line, const char *name): Enter on a row, or a click, of those that open. */
#pragma once

#include <gtk/gtk.h>

#include "cro-month-table.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_TABLE_VIEW (cro_month_table_view_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthTableView, cro_month_table_view, CRO, MONTH_TABLE_VIEW, GtkWidget)

/* Whether a row of a line opens. */
typedef gboolean (*CroMonthOpens) (int line);

/* name: what the rows are, for those who hear them. opens: NULL: those of no sum. */
GtkWidget *cro_month_table_view_new   (const char          *name,
                                       CroMonthOpens        opens);

/* table is read; NULL: nothing is shown. */
void       cro_month_table_view_set   (CroMonthTableView   *self,
                                       const CroMonthTable *table);

/* The line of the row with the focus; -1: none has it. And the row, to point at. */
int        cro_month_table_view_get_line (CroMonthTableView *self,
                                       GtkWidget          **row);

/* What the row with the focus is called; NULL: none has it. Borrowed. */
const char *cro_month_table_view_get_name (CroMonthTableView *self);

/* The row that the focus comes to first, from then on; of a line that there is not, the first. */
void       cro_month_table_view_begin_at (CroMonthTableView *self,
                                       int                  line);

G_END_DECLS
