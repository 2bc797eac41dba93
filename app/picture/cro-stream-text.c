/* Lines of text of a stream. */
#include "cro-stream-drawing.h"

#include <math.h>

PangoLayout *
cro_stream_layout_new (PangoContext        *context,
                       const CroStreamLook *look)
{
  PangoLayout *layout;
  cairo_font_options_t *options = cairo_font_options_create ();

  /* Letters stand between two rows of pixels, where cairo 1.18 cuts the tops of those that it fitted to them. */
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
  layout = pango_layout_new (context);
  g_object_unref (context);
  pango_layout_set_font_description (layout, look->font);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  return layout;
}

double
cro_stream_text_width (PangoLayout *layout,
                       const char  *text)
{
  int width;

  pango_layout_set_width (layout, -1);
  pango_layout_set_text (layout, text != NULL ? text : "", -1);
  pango_layout_get_size (layout, &width, NULL);
  return (double) width / PANGO_SCALE;
}


void
cro_stream_show_text (Drawing    *d,
                      const char *text,
                      double      x,
                      double      middle,
                      double      width,
                      double      strength)
{
  int of_text, height;

  pango_layout_set_width (d->layout, -1);
  pango_layout_set_text (d->layout, text, -1);
  pango_layout_get_size (d->layout, &of_text, &height);
  if (of_text > width * PANGO_SCALE)
    {
      pango_layout_set_width (d->layout, (int) (fmax (width, 1) * PANGO_SCALE));
      pango_layout_get_size (d->layout, &of_text, &height);
    }
  cairo_move_to (d->cr,
                 d->self->is_mirrored ? d->self->width - x - (double) of_text / PANGO_SCALE : x,
                 middle - (double) height / PANGO_SCALE / 2);
  cro_stream_ink_set (d->cr, d->ink.text, strength);
  pango_cairo_show_layout (d->cr, d->layout);
}

double
cro_stream_line_height (PangoLayout *layout)
{
  int height;

  pango_layout_set_text (layout, "Xg", -1);
  pango_layout_get_size (layout, NULL, &height);
  return (double) height / PANGO_SCALE;
}
