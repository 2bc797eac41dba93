/* A stream on its way from what it was to what it is. */
#include <math.h>

#include "cro-stream-private.h"

static gboolean
find_band (CroStream  *self,
           guint64     nearer,
           guint64     farther,
           guint      *found)
{
  for (guint i = 0; i < self->n_bands; i++)
    if (node_at (self, band_at (self, i)->nearer)->id == nearer
        && node_at (self, band_at (self, i)->farther)->id == farther)
      {
        *found = i;
        return TRUE;
      }
  return FALSE;
}

static double
between (double from,
         double to,
         double part)
{
  return from + (to - from) * part;
}

/* What both hold, and cut as often, moves; what is new is where it belongs. Widths go along by the
 * scale: they are true at the end of the way. */
void
cro_stream_move (CroStream *self,
                 CroStream *from,
                 double     part)
{
  for (guint i = 0; i < self->nodes->len; i++)
    for (guint j = 0; j < from->nodes->len; j++)
      if (node_at (self, i)->id == node_at (from, j)->id
          && node_at (self, i)->kind == node_at (from, j)->kind)
        {
          Spot *to = spot_at (self, i);

          to->y = between (spot_at (from, j)->y, to->y, part);
          to->height = between (spot_at (from, j)->height, to->height, part);
          break;
        }
  for (guint i = 0; i < self->n_bands; i++)
    {
      Band *band = band_at (self, i);
      guint j;

      if (!find_band (from, node_at (self, band->nearer)->id, node_at (self, band->farther)->id, &j)
          || band_at (from, j)->n_segments != band->n_segments)
        continue;
      band->width = between (band_at (from, j)->width * from->scale / fmax (self->scale, 1e-9),
                             band->width, part);
      for (guint k = 0; k < band->n_segments; k++)
        {
          Segment *to = segment_at (self, band->first_segment + k);
          const Segment *was = segment_at (from, band_at (from, j)->first_segment + k);

          to->y_near = between (was->y_near, to->y_near, part);
          to->y_far = between (was->y_far, to->y_far, part);
        }
    }
}
