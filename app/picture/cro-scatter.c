#include "cro-scatter.h"

#include <math.h>

/* In letters: of a mark, and around the field. */
#define MARK 0.38
#define EDGE 1.8

/* Above and below all points, for the words in the corners. */
#define ABOVE 2.8
#define BELOW 2.0

CroScatter *
cro_scatter_new (void)
{
  CroScatter *self = g_new0 (CroScatter, 1);

  self->points = g_array_new (FALSE, FALSE, sizeof (CroScatterPoint));
  return self;
}

void
cro_scatter_free (CroScatter *self)
{
  g_array_unref (self->points);
  g_free (self->x_title);
  g_free (self->y_title);
  g_free (self->x_limit);
  g_free (self->y_limit);
  for (guint i = 0; i < G_N_ELEMENTS (self->corners); i++)
    g_free (self->corners[i]);
  g_free (self);
}

typedef struct
{
  double left, top, right, bottom;
  double x_low, x_high, y_low, y_high;
  double highest, lowest; /* where y_high and y_low are */
  gboolean is_rtl;
} Frame;

static Frame
frame_of (const CroScatter   *self,
          const CroChartLook *look,
          double              width,
          double              height)
{
  double edge = EDGE * look->font;
  Frame frame = { edge, edge, width - edge, height - edge, fmin (0, self->x), self->x, fmin (0, self->y), self->y,
                  edge + ABOVE * look->font, height - edge - BELOW * look->font, look->is_rtl };

  for (guint i = 0; i < self->points->len; i++)
    {
      const CroScatterPoint *point = &g_array_index (self->points, CroScatterPoint, i);

      frame.x_low = fmin (frame.x_low, point->x);
      frame.x_high = fmax (frame.x_high, point->x);
      frame.y_low = fmin (frame.y_low, point->y);
      frame.y_high = fmax (frame.y_high, point->y);
    }
  /* Room for the number of the outermost. */
  frame.x_high += (frame.x_high - frame.x_low) * 0.08;
  return frame;
}

static double
x_of (const Frame *frame,
      double       value)
{
  double part = frame->x_high > frame->x_low ? (value - frame->x_low) / (frame->x_high - frame->x_low) : 0.5;

  return frame->is_rtl ? frame->right - part * (frame->right - frame->left)
                       : frame->left + part * (frame->right - frame->left);
}

static double
y_of (const Frame *frame,
      double       value)
{
  double part = frame->y_high > frame->y_low ? (value - frame->y_low) / (frame->y_high - frame->y_low) : 0.5;

  return frame->lowest - part * (frame->lowest - frame->highest);
}

static void
draw_frame (const CroScatter   *self,
            const Frame        *frame,
            cairo_t            *cairo,
            const CroChartLook *look)
{
  double x = x_of (frame, self->x), y = y_of (frame, self->y), middle = look->font * 0.8;
  double starts = frame->is_rtl ? 1 : 0, ends = 1 - starts;
  double start = frame->is_rtl ? frame->right : frame->left, end = frame->is_rtl ? frame->left : frame->right;

  cro_chart_ink (cairo, look, 0.5);
  cairo_set_line_width (cairo, 0.06 * look->font);
  cairo_rectangle (cairo, frame->left, frame->top, frame->right - frame->left, frame->bottom - frame->top);
  cairo_stroke (cairo);
  cairo_set_dash (cairo, (const double[]){ 0.4 * look->font, 0.3 * look->font }, 2, 0);
  cairo_move_to (cairo, x, frame->top);
  cairo_line_to (cairo, x, frame->bottom);
  cairo_move_to (cairo, frame->left, y);
  cairo_line_to (cairo, frame->right, y);
  cairo_stroke (cairo);
  cairo_set_dash (cairo, NULL, 0, 0);
  cro_chart_ink (cairo, look, 0.75);
  cro_chart_text (cairo, look, self->corners[0], start + (starts > 0 ? -middle : middle), frame->top + middle,
                  starts, 0);
  cro_chart_text (cairo, look, self->corners[1], end + (ends > 0 ? -middle : middle), frame->top + middle, ends, 0);
  cro_chart_text (cairo, look, self->corners[2], start + (starts > 0 ? -middle : middle), frame->bottom - middle,
                  starts, 0);
  cro_chart_text (cairo, look, self->corners[3], end + (ends > 0 ? -middle : middle), frame->bottom - middle, ends,
                  0);
  cro_chart_ink (cairo, look, 1);
  cro_chart_text (cairo, look, self->y_title, start, frame->top - middle, starts, 0);
  cro_chart_text (cairo, look, self->x_title, end, frame->bottom + middle, ends, 0);
  cro_chart_text (cairo, look, self->x_limit, x, frame->top - middle, 0.5, 0);
  cro_chart_text (cairo, look, self->y_limit, end - (ends > 0 ? 1 : -1) * middle, y - middle, ends, 0);
}

/* Round above, square below; full at the right. */
static void
draw_mark (const CroScatterPoint *point,
           double                 x,
           double                 y,
           cairo_t               *cairo,
           const CroChartLook    *look)
{
  double half = MARK * look->font;

  cairo_new_path (cairo);
  if (point->is_above)
    cairo_arc (cairo, x, y, half, 0, 2 * G_PI);
  else
    cairo_rectangle (cairo, x - half, y - half, 2 * half, 2 * half);
  cro_chart_ink (cairo, look, 1);
  if (point->is_right)
    cairo_fill_preserve (cairo);
  cairo_set_line_width (cairo, 0.1 * look->font);
  cairo_stroke (cairo);
}

void
cro_scatter_draw (const CroScatter   *self,
                  cairo_t            *cairo,
                  const CroChartLook *look,
                  double              width,
                  double              height)
{
  Frame frame = frame_of (self, look, width, height);
  CroChartLook small = *look;

  small.font *= 0.85;
  draw_frame (self, &frame, cairo, look);
  for (guint i = 0; i < self->points->len; i++)
    {
      const CroScatterPoint *point = &g_array_index (self->points, CroScatterPoint, i);
      double x = x_of (&frame, point->x), y = y_of (&frame, point->y);
      g_autofree char *number = g_strdup_printf ("%u", i + 1);

      draw_mark (point, x, y, cairo, look);
      cro_chart_text (cairo, &small, number, look->is_rtl ? x - look->font * 0.6 : x + look->font * 0.6,
                      y - look->font * 0.5, look->is_rtl ? 1 : 0, 0);
    }
}
