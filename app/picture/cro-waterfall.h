/* cro-waterfall.h: from one sum to another by steps, a bar for each below the other: what rises is hatched
 * one way, what falls the other, so that neither needs a colour.
 *
 * The scale begins near the smallest sum, not at 0: steps would not be seen. The picture says so.
 *
 * Units      Values in whatever the caller counts; sizes in units of the cairo context. */
#pragma once

#include "cro-chart.h"

G_BEGIN_DECLS

typedef struct
{
  char     *name;
  char     *text;       /* its value, as it is read */
  double    value;      /* of a sum, or what a step changes it by */
  gboolean  is_sum;
} CroWaterfallBar;

typedef struct
{
  GArray *bars;         /* CroWaterfallBar: a sum, steps, a sum */
  char   *begins;       /* "The scale begins at 12,800": NULL: at 0 */
  double  low;          /* where it begins */
} CroWaterfall;

CroWaterfall *cro_waterfall_new    (void);
void          cro_waterfall_free   (CroWaterfall       *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroWaterfall, cro_waterfall_free)

/* Texts are copied. */
void          cro_waterfall_add    (CroWaterfall       *self,
                                    const char         *name,
                                    const char         *text,
                                    double              value,
                                    gboolean            is_sum);

/* Sets low below all that the bars come to; 0 where that is no further than they are apart. Returns it. */
double        cro_waterfall_settle (CroWaterfall       *self);

/* How high it wants to be. */
double        cro_waterfall_height (const CroWaterfall *self,
                                    const CroChartLook *look);

void          cro_waterfall_draw   (const CroWaterfall *self,
                                    cairo_t            *cairo,
                                    const CroChartLook *look,
                                    double              width);

G_END_DECLS
