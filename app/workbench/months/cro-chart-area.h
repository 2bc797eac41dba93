/* cro-chart-area.h: a chart on the screen, in the ink and the letters of the text around it. */
#pragma once

#include <gtk/gtk.h>

#include "cro-chart.h"

G_BEGIN_DECLS

/* Draws what was handed in. */
typedef void (*CroChartDraw) (gpointer            data,
                              cairo_t            *cairo,
                              const CroChartLook *look,
                              double              width,
                              double              height);

/* name: what it is, for those who do not see it. */
GtkWidget *cro_chart_area_new  (const char     *name,
                                CroChartDraw    draw);

/* Takes data; lines: how many lines of text it is high. */
void       cro_chart_area_take (GtkWidget      *area,
                                gpointer        data,
                                GDestroyNotify  destroy,
                                double          lines);

G_END_DECLS
