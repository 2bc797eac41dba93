#include "cro-chart-area.h"

#include "cro-ink.h"
#include "cro-spoken.h"

/* In pixels of letters that nobody made larger. */
static double
font_of (GtkWidget *area)
{
  PangoContext *context = gtk_widget_get_pango_context (area);
  PangoFontDescription *font = pango_context_get_font_description (context);
  double size = (double) pango_font_description_get_size (font) / PANGO_SCALE;

  /* Letters in points are as large as the desktop has them. */
  if (!pango_font_description_get_size_is_absolute (font))
    size *= pango_cairo_context_get_resolution (context) / 72;
  return size > 0 ? size : 13;
}

static void
draw_cb (GtkDrawingArea *area,
         cairo_t        *cairo,
         int             width,
         int             height,
         gpointer        draw)
{
  gpointer data = g_object_get_data (G_OBJECT (area), "chart");
  GdkRGBA ink = cro_ink_of (GTK_WIDGET (area));
  CroChartLook look = { ink.red, ink.green, ink.blue, font_of (GTK_WIDGET (area)),
                        gtk_widget_get_direction (GTK_WIDGET (area)) == GTK_TEXT_DIR_RTL };

  if (data != NULL)
    ((CroChartDraw) draw) (data, cairo, &look, width, height);
}

GtkWidget *
cro_chart_area_new (const char   *name,
                    CroChartDraw  draw)
{
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role", GTK_ACCESSIBLE_ROLE_IMG, NULL);

  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_cb, draw, NULL);
  cro_spoken_set (area, name);
  return area;
}

void
cro_chart_area_take (GtkWidget      *area,
                     gpointer        data,
                     GDestroyNotify  destroy,
                     double          lines)
{
  g_object_set_data_full (G_OBJECT (area), "chart", data, destroy);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), (int) (lines * font_of (area)));
  gtk_widget_queue_draw (area);
}
