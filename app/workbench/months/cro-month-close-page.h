/* cro-month-close-page.h: closing a month, and opening it again: in the page, where what it freezes is named
 * before anything happens.
 *
 * Signals    "done": it was done, or given up; the page takes the place again. */
#pragma once

#include "cro-bench.h"
#include "cro-month.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_CLOSE_PAGE (cro_month_close_page_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthClosePage, cro_month_close_page, CRO, MONTH_CLOSE_PAGE, GtkWidget)

/* To close an open month, with its parts; to reopen a closed one. bench is borrowed: it holds the page. */
GtkWidget *cro_month_close_page_new (CroBench       *bench,
                                     const CroMonth *month);

/* Says anew what it would be closed with; what is typed stays. */
void       cro_month_close_page_refresh (CroMonthClosePage *self,
                                         const CroMonth    *month);

G_END_DECLS
