#include "cro-chart.h"

#include <math.h>
#include <pango/pangocairo.h>

/* Between two lines of a hatching, and their thickness, in letters. */
#define HATCH_STEP 0.5
#define HATCH_LINE 0.08

CroChartLook
cro_chart_look_of_paper (double   font,
                         gboolean is_rtl)
{
  return (CroChartLook){ 0, 0, 0, font, is_rtl };
}

void
cro_chart_ink (cairo_t            *cairo,
               const CroChartLook *look,
               double              strength)
{
  cairo_set_source_rgba (cairo, look->red, look->green, look->blue, strength);
}

static PangoLayout *
layout_new (cairo_t            *cairo,
            const CroChartLook *look,
            const char         *text)
{
  PangoLayout *layout = pango_cairo_create_layout (cairo);
  PangoFontDescription *font = pango_font_description_from_string ("Sans");

  pango_font_description_set_absolute_size (font, look->font * PANGO_SCALE);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  pango_layout_set_text (layout, text, -1);
  return layout;
}

double
cro_chart_text_width (cairo_t            *cairo,
                      const CroChartLook *look,
                      const char         *text)
{
  g_autoptr (PangoLayout) layout = layout_new (cairo, look, text);
  int width;

  pango_layout_get_size (layout, &width, NULL);
  return (double) width / PANGO_SCALE;
}

void
cro_chart_text (cairo_t            *cairo,
                const CroChartLook *look,
                const char         *text,
                double              x,
                double              y,
                double              align,
                double              most)
{
  g_autoptr (PangoLayout) layout = layout_new (cairo, look, text);
  int width, height;

  pango_layout_get_size (layout, &width, &height);
  if (most > 0 && width > most * PANGO_SCALE)
    {
      width = (int) (most * PANGO_SCALE);
      pango_layout_set_width (layout, width);
      pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
    }
  cairo_move_to (cairo, x - align * width / PANGO_SCALE, y - (double) height / PANGO_SCALE / 2);
  pango_cairo_show_layout (cairo, layout);
}

void
cro_chart_box (cairo_t            *cairo,
               const CroChartLook *look,
               CroChartHatch       hatch,
               double              x,
               double              y,
               double              width,
               double              height)
{
  double step = HATCH_STEP * look->font;

  cairo_save (cairo);
  cairo_rectangle (cairo, x, y, width, height);
  cro_chart_ink (cairo, look, hatch == CRO_CHART_PLAIN ? 0.35 : 0.1);
  cairo_fill_preserve (cairo);
  cairo_clip (cairo);
  cro_chart_ink (cairo, look, 0.8);
  cairo_set_line_width (cairo, HATCH_LINE * look->font);
  for (double at = -height; hatch != CRO_CHART_PLAIN && at < width; at += step)
    {
      cairo_move_to (cairo, x + at, hatch == CRO_CHART_RISING ? y + height : y);
      cairo_line_to (cairo, x + at + height, hatch == CRO_CHART_RISING ? y : y + height);
      cairo_stroke (cairo);
    }
  cairo_restore (cairo);
  cairo_set_line_width (cairo, HATCH_LINE * look->font);
  cro_chart_ink (cairo, look, 1);
  cairo_rectangle (cairo, x, y, width, height);
  cairo_stroke (cairo);
}
