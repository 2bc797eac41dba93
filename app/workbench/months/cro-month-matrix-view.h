/* cro-month-matrix-view.h: a month's plates and menus by how often they were sold and what one leaves: a table
 * first, and a picture of it.
 *
 * A row opens through the action "month.went" (CRO_WENT_BY_THING, its name) of the widgets around. */
#pragma once

#include <gtk/gtk.h>

#include "cro-month.h"

G_BEGIN_DECLS

#define CRO_TYPE_MONTH_MATRIX_VIEW (cro_month_matrix_view_get_type ())
G_DECLARE_FINAL_TYPE (CroMonthMatrixView, cro_month_matrix_view, CRO, MONTH_MATRIX_VIEW, GtkWidget)

GtkWidget *cro_month_matrix_view_new (void);

void       cro_month_matrix_view_set (CroMonthMatrixView *self,
                                      CroModel           *model,
                                      const CroMonth     *month);

G_END_DECLS
