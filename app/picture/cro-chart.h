/* cro-chart.h: what charts are drawn with, on the screen and on paper alike: ink of one colour, texts,
 * hatchings that are told apart without any.
 *
 * Units      Of the cairo context; the top left corner is its origin. */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double   red, green, blue;
  double   font;          /* the height of its letters */
  gboolean is_rtl;        /* it runs from right to left */
} CroChartLook;

/* Black, for paper. */
CroChartLook cro_chart_look_of_paper (double              font,
                                      gboolean            is_rtl);

/* strength: 0 to 1 of the ink. */
void   cro_chart_ink        (cairo_t            *cairo,
                             const CroChartLook *look,
                             double              strength);

double cro_chart_text_width (cairo_t            *cairo,
                             const CroChartLook *look,
                             const char         *text);

/* A line of text whose part align (0: its left end, 1: its right) stands at x, and whose middle at y; cut
 * to most where that is above 0. */
void   cro_chart_text       (cairo_t            *cairo,
                             const CroChartLook *look,
                             const char         *text,
                             double              x,
                             double              y,
                             double              align,
                             double              most);

typedef enum
{
  CRO_CHART_PLAIN,
  CRO_CHART_RISING,       /* lines from the lower left to the upper right */
  CRO_CHART_FALLING,
} CroChartHatch;

/* A framed box, hatched. */
void   cro_chart_box        (cairo_t            *cairo,
                             const CroChartLook *look,
                             CroChartHatch       hatch,
                             double              x,
                             double              y,
                             double              width,
                             double              height);

G_END_DECLS
