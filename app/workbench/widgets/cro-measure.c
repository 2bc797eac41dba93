#include "cro-measure.h"

/* Of an English text: what is typical of a language moves with it, and a limit that a screen just has would not be
 * one any more. Its fonts are those that are shown, as another language's would be sought anew. Each layout asks many
 * times: it is kept for as long as the context, and with it the font, stays as it is. */
static int
char_width (PangoContext *context)
{
  GQuark serial_of = g_quark_from_static_string ("cro-char-serial");
  GQuark width_of = g_quark_from_static_string ("cro-char-width");
  guint serial = pango_context_get_serial (context);
  const char *text = pango_language_get_sample_string (pango_language_from_string ("en"));
  PangoLayout *layout;
  int width;

  if (GPOINTER_TO_UINT (g_object_get_qdata (G_OBJECT (context), serial_of)) == serial)
    return GPOINTER_TO_INT (g_object_get_qdata (G_OBJECT (context), width_of));
  layout = pango_layout_new (context);
  pango_layout_set_text (layout, text, -1);
  pango_layout_get_size (layout, &width, NULL);
  width /= (int) g_utf8_strlen (text, -1);
  g_object_unref (layout);
  g_object_set_qdata (G_OBJECT (context), serial_of, GUINT_TO_POINTER (serial));
  g_object_set_qdata (G_OBJECT (context), width_of, GINT_TO_POINTER (width));
  return width;
}

int
cro_measure_chars (GtkWidget *widget,
                   int        chars)
{
  return PANGO_PIXELS_CEIL (chars * char_width (gtk_widget_get_pango_context (widget)));
}

GtkWidget *
cro_measure_shown (GtkWidget *child)
{
  while (child != NULL && !gtk_widget_should_layout (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

int
cro_measure_least (GtkWidget *child)
{
  int least;

  gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  return least;
}

void
cro_measure_row (GtkWidget *parent,
                 int        spacing,
                 int       *minimum,
                 int       *natural)
{
  GtkWidget *child = cro_measure_shown (gtk_widget_get_first_child (parent));

  *minimum = *natural = 0;
  for (; child != NULL; child = cro_measure_shown (gtk_widget_get_next_sibling (child)))
    {
      int least, wanted;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, &wanted, NULL, NULL);
      *minimum = MAX (*minimum, least);
      *natural += wanted + (*natural > 0 ? spacing : 0);
    }
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

/* A text of narrow letters alone is as wide as two fifths as many others. */
#define LEAST_BROKEN 12

int
cro_measure_least_chars (const char *text,
                         int         most)
{
  int n = (int) g_utf8_strlen (text, -1);

  return n < LEAST_BROKEN ? -1 : MIN (most, n * 2 / 5);
}
