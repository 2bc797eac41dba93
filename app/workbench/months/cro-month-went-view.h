/* cro-month-went-view.h: where a month's food cost went, by ingredient, plate, course or category.
 *
 * A row opens through the action "month.went" (CroWentBy, its name) of the widgets around. */
#pragma once

#include <gtk/gtk.h>

#include "cro-month-went.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_WENT_VIEW (cro_month_went_view_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthWentView, cro_month_went_view, CRO, MONTH_WENT_VIEW, GtkWidget)

GtkWidget *cro_month_went_view_new (void);

void       cro_month_went_view_set (CroMonthWentView *self,
                                    CroModel         *model,
                                    const CroMonth   *month);

G_END_DECLS
