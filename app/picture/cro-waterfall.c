#include "cro-waterfall.h"

#include <math.h>

/* In letters. */
#define ROW 2.0
#define BAR 1.2
#define GAP 0.8

/* Of what the bars are apart, how far below them the scale begins. */
#define BELOW 0.5

static void
clear_bar (gpointer data)
{
  CroWaterfallBar *bar = data;

  g_free (bar->name);
  g_free (bar->text);
}

CroWaterfall *
cro_waterfall_new (void)
{
  CroWaterfall *self = g_new0 (CroWaterfall, 1);

  self->bars = g_array_new (FALSE, FALSE, sizeof (CroWaterfallBar));
  g_array_set_clear_func (self->bars, clear_bar);
  return self;
}

void
cro_waterfall_free (CroWaterfall *self)
{
  g_array_unref (self->bars);
  g_free (self->begins);
  g_free (self);
}

void
cro_waterfall_add (CroWaterfall *self,
                   const char   *name,
                   const char   *text,
                   double        value,
                   gboolean      is_sum)
{
  CroWaterfallBar bar = { g_strdup (name), g_strdup (text), value, is_sum };

  g_array_append_val (self->bars, bar);
}

/* --- Where bars stand ----------------------------------------------------------------------- */

/* From what to what a bar leads. */
static void
ends_of (const CroWaterfall *self,
         guint               i,
         double             *from,
         double             *to)
{
  double sum = 0;

  for (guint at = 0; at <= i; at++)
    {
      const CroWaterfallBar *bar = &g_array_index (self->bars, CroWaterfallBar, at);

      *from = bar->is_sum ? self->low : sum;
      sum = bar->is_sum ? bar->value : sum + bar->value;
    }
  *to = sum;
}

/* What the bars come to at least and at most, without where the scale begins. */
static void
range_of (const CroWaterfall *self,
          double             *least,
          double             *most)
{
  double from, to;

  *least = INFINITY;
  *most = -INFINITY;
  for (guint i = 0; i < self->bars->len; i++)
    {
      ends_of (self, i, &from, &to);
      *least = fmin (*least, to);
      *most = fmax (*most, to);
    }
}

double
cro_waterfall_settle (CroWaterfall *self)
{
  double least, most;

  range_of (self, &least, &most);
  self->low = least - BELOW * (most - least);
  if (!(self->low > most - least) || !isfinite (self->low))
    self->low = fmin (0, least);
  return self->low;
}

/* --- Drawing -------------------------------------------------------------------------------- */

typedef struct
{
  double left, width;     /* of the bars */
  double least, most;     /* values at both ends */
  double names, texts;    /* widths of what stands before and behind them */
} Frame;

static double
x_of (const Frame *frame,
      double       value)
{
  double part = frame->most > frame->least ? (value - frame->least) / (frame->most - frame->least) : 1;

  return frame->left + part * frame->width;
}

static Frame
frame_of (const CroWaterfall *self,
          cairo_t            *cairo,
          const CroChartLook *look,
          double              width)
{
  Frame frame = { .least = self->low };

  for (guint i = 0; i < self->bars->len; i++)
    {
      const CroWaterfallBar *bar = &g_array_index (self->bars, CroWaterfallBar, i);

      frame.names = fmax (frame.names, cro_chart_text_width (cairo, look, bar->name));
      frame.texts = fmax (frame.texts, cro_chart_text_width (cairo, look, bar->text));
    }
  frame.names = fmin (frame.names, width / 3);
  range_of (self, &frame.least, &frame.most);
  frame.least = fmin (frame.least, self->low);
  frame.left = frame.names + GAP * look->font;
  frame.width = fmax (width - frame.left - frame.texts - GAP * look->font, look->font);
  return frame;
}

/* Mirrored where it runs from right to left: x and a width become what they are there. */
static double
turned (const CroChartLook *look,
        double              all,
        double              x,
        double              width)
{
  return look->is_rtl ? all - x - width : x;
}

static void
draw_bar (const CroWaterfall *self,
          guint               i,
          const Frame        *frame,
          cairo_t            *cairo,
          const CroChartLook *look,
          double              width)
{
  const CroWaterfallBar *bar = &g_array_index (self->bars, CroWaterfallBar, i);
  double y = (i + 0.5) * ROW * look->font, from, to, x, length;
  /* Mirrored, what rises leans the other way. */
  gboolean is_rising = (bar->value >= 0) != look->is_rtl;

  ends_of (self, i, &from, &to);
  x = x_of (frame, fmin (from, to));
  length = x_of (frame, fmax (from, to)) - x;
  cro_chart_box (cairo, look,
                 bar->is_sum ? CRO_CHART_PLAIN : is_rising ? CRO_CHART_RISING : CRO_CHART_FALLING,
                 turned (look, width, x, length), y - BAR * look->font / 2, length, BAR * look->font);
  cro_chart_ink (cairo, look, 1);
  cro_chart_text (cairo, look, bar->name, turned (look, width, 0, 0), y, look->is_rtl ? 1 : 0, frame->names);
  cro_chart_text (cairo, look, bar->text, turned (look, width, width, 0), y, look->is_rtl ? 0 : 1, 0);
  if (i + 1 == self->bars->len)
    return;
  /* Down to where the next begins. */
  cro_chart_ink (cairo, look, 0.5);
  x = turned (look, width, x_of (frame, to), 0);
  cairo_set_line_width (cairo, 0.06 * look->font);
  cairo_move_to (cairo, x, y + BAR * look->font / 2);
  cairo_line_to (cairo, x, y + (ROW - BAR / 2) * look->font);
  cairo_stroke (cairo);
}

double
cro_waterfall_height (const CroWaterfall *self,
                      const CroChartLook *look)
{
  return (self->bars->len + (self->begins != NULL)) * ROW * look->font;
}

void
cro_waterfall_draw (const CroWaterfall *self,
                    cairo_t            *cairo,
                    const CroChartLook *look,
                    double              width)
{
  Frame frame = frame_of (self, cairo, look, width);

  for (guint i = 0; i < self->bars->len; i++)
    draw_bar (self, i, &frame, cairo, look, width);
  if (self->begins == NULL)
    return;
  cro_chart_ink (cairo, look, 0.8);
  cro_chart_text (cairo, look, self->begins, turned (look, width, frame.left, 0),
                  (self->bars->len + 0.5) * ROW * look->font, look->is_rtl ? 1 : 0, 0);
}
