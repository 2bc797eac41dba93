/* cro-month-list.h: the months of a book beside their page, newest first, under a row for all of them.
 *
 * Signals    "chosen" (guint slot): a row is selected; CRO_NO_SLOT: that of all. "taken": by Enter or a click,
 *            with which one is done here. */
#pragma once

#include "cro-bench.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_LIST (cro_month_list_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthList, cro_month_list, CRO, MONTH_LIST, GtkWidget)

/* NULL: empty. */
void cro_month_list_set_book (CroMonthList *self,
                              CroBook      *book);

/* Shows which row stands on the bench, without choosing it anew: slot as of CRO_REF_MONTH, CRO_NO_SLOT: all. */
void cro_month_list_select   (CroMonthList *self,
                              guint32       slot);

/* The row that is selected. */
void cro_month_list_focus    (CroMonthList *self);

G_END_DECLS
