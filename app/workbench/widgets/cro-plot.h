/* cro-plot.h: a small picture of values over days, beside the table that has them in full: prices
 * as steps that hold until the next, tests as points.
 *
 * Units      Values are the caller's own; days as CroDate. */
#pragma once

#include <gtk/gtk.h>

#include "cro-date.h"

G_BEGIN_DECLS

#define CRO_TYPE_PLOT (cro_plot_get_type ())
G_DECLARE_FINAL_TYPE (CroPlot, cro_plot, CRO, PLOT, GtkWidget)

typedef enum
{
  CRO_PLOT_STEPS,
  CRO_PLOT_POINTS,
} CroPlotShape;

/* Values that belong together have one series, and stand by rising day. Series 0 is drawn whole,
 * others are dashed. */
typedef struct
{
  guint   series;
  CroDate day;
  double  value;
} CroPlotValue;

GtkWidget *cro_plot_new       (CroPlotShape        shape);

/* n values are copied; last: the day up to which the last step holds, unless a value is later;
 * level: a value with a line across, NaN for none. */
void       cro_plot_set       (CroPlot            *self,
                               const CroPlotValue *values,
                               guint               n,
                               CroDate             last,
                               double              level);

/* The least and the greatest of values and level. */
void       cro_plot_get_range (CroPlot            *self,
                               double             *low,
                               double             *high);

/* What is written at the lower and the upper end of the scale, and what the picture shows, for
 * those who do not see it. */
void       cro_plot_tell      (CroPlot            *self,
                               const char         *low,
                               const char         *high,
                               const char         *says);

/* Values stand by counts, not by days: what is written at the first and the last. */
void       cro_plot_tell_ends (CroPlot            *self,
                               const char         *first,
                               const char         *last);

G_END_DECLS
