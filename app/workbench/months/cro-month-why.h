/* cro-month-why.h: why a closed month's food cost is another than another's: in words, as tables, as bars. */
#pragma once

#include <gtk/gtk.h>

#include "cro-month.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_WHY (cro_month_why_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthWhy, cro_month_why, CRO, MONTH_WHY, GtkWidget)

GtkWidget *cro_month_why_new (void);

/* from: the month it is compared with; NULL: none is chosen. Only closed months are compared: it says so
 * of others. What is shown is its own: the months may go. */
void       cro_month_why_set (CroMonthWhy    *self,
                              const CroMonth *from,
                              const CroMonth *to);

G_END_DECLS
