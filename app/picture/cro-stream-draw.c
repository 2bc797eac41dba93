#include "cro-stream-drawing.h"

/* Of curves, in pixels: nobody sees a quarter of one, and it halves a frame. */
#define SCREEN_TOLERANCE 0.25

/* All that it is made of, and all that it goes into. */
static gboolean *
dup_lit (CroStream *self,
         guint      chosen)
{
  gboolean *far, *near;
  gboolean moved = TRUE;

  if (chosen >= self->nodes->len)
    return NULL;
  far = g_new0 (gboolean, self->nodes->len + 1);
  near = g_new0 (gboolean, self->nodes->len + 1);
  far[chosen] = near[chosen] = TRUE;
  while (moved)
    {
      moved = FALSE;
      for (guint i = 0; i < self->bands->len; i++)
        {
          const Band *band = band_at (self, i);

          if (far[band->nearer] && !far[band->farther])
            far[band->farther] = moved = TRUE;
          if (near[band->farther] && !near[band->nearer])
            near[band->nearer] = moved = TRUE;
        }
    }
  for (guint i = 0; i < self->nodes->len; i++)
    far[i] |= near[i];
  g_free (near);
  return far;
}

void
cro_stream_draw (CroStream           *self,
                 cairo_t             *cr,
                 const CroStreamLook *look,
                 guint                chosen)
{
  Drawing d = { .self = self, .cr = cr, .look = look };

  if (self->nodes->len == 0)
    return;
  cro_stream_ink_init (&d.ink, look->palette, cairo_get_target (cr));
  d.layout = cro_stream_layout_new (pango_cairo_create_context (cr), look);
  d.is_lit = dup_lit (self, chosen);
  cairo_save (cr);
  if (!d.ink.is_paper)
    {
      cairo_set_tolerance (cr, SCREEN_TOLERANCE);
      cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
    }
  cro_stream_draw_bands (&d);
  cro_stream_draw_leaving (&d);
  cro_stream_draw_names (&d);
  cairo_restore (cr);
  g_free (d.is_lit);
  g_object_unref (d.layout);
  cro_stream_ink_clear (&d.ink);
}

void
cro_stream_draw_in (CroStream           *self,
                    cairo_t             *cr,
                    const CroStreamLook *look,
                    double               x,
                    double               y,
                    double               width,
                    double               height)
{
  cro_stream_arrange (self, look, width, height);
  cairo_save (cr);
  cairo_translate (cr, x, y);
  cro_stream_draw (self, cr, look, CRO_STREAM_NOWHERE);
  cairo_restore (cr);
}

