#include "cro-measure.h"

/* English ones: what is typical of a language moves with it, and a limit that a screen just has would not be
 * one any more. */
int
cro_measure_chars (GtkWidget *widget,
                   int        chars)
{
  PangoContext *context = gtk_widget_get_pango_context (widget);
  PangoFontMetrics *metrics = pango_context_get_metrics (context, NULL, pango_language_from_string ("en"));
  int width = chars * pango_font_metrics_get_approximate_char_width (metrics);

  pango_font_metrics_unref (metrics);
  return PANGO_PIXELS_CEIL (width);
}

int
cro_measure_least (GtkWidget *child)
{
  int least;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

int
cro_measure_height (GtkWidget *child,
                    int        width)
{
  int height;

  if (!gtk_widget_should_layout (child))
    return 0;
  gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  return height;
}
