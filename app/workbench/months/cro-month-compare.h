/* cro-month-compare.h: which month stands beside the one on the page.
 *
 * Signals    "changed": a person chose another. */
#pragma once

#include <gtk/gtk.h>

#include "cro-date.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_COMPARE (cro_month_compare_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthCompare, cro_month_compare, CRO, MONTH_COMPARE, GtkWidget)

GtkWidget *cro_month_compare_new   (void);

/* firsts: all months, CroDate. Another page's month before it is chosen; on the same page what was chosen
 * stays. */
void       cro_month_compare_fill  (CroMonthCompare *self,
                                    GArray          *firsts,
                                    CroDate          page);

/* CRO_NO_DAY: none is chosen. */
CroDate    cro_month_compare_get   (CroMonthCompare *self);

G_END_DECLS
