/* cro-scatter.h: points in four quadrants, by number: the table beside it has their names.
 *
 * Each quadrant has a mark of its own, and its words in its corner.
 *
 * Units      Values in whatever the caller counts; sizes in units of the cairo context. */
#pragma once

#include "cro-chart.h"

G_BEGIN_DECLS

typedef struct
{
  double   x, y;
  gboolean is_right;      /* of x, as it was decided without rounding */
  gboolean is_above;
} CroScatterPoint;

typedef struct
{
  GArray     *points;     /* CroScatterPoint; numbered from 1 */
  double      x, y;       /* where the quadrants meet */
  char       *x_title;
  char       *y_title;
  char       *x_limit;    /* the same as text */
  char       *y_limit;
  char       *corners[4]; /* of upper left, upper right, lower left, lower right */
} CroScatter;

CroScatter *cro_scatter_new  (void);
void        cro_scatter_free (CroScatter         *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroScatter, cro_scatter_free)

void        cro_scatter_draw (const CroScatter   *self,
                              cairo_t            *cairo,
                              const CroChartLook *look,
                              double              width,
                              double              height);

G_END_DECLS
