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

/* --- Where it goes ------------------------------------------------------------------------------ */

void
cro_stream_settle (CroStream *self)
{
  g_clear_pointer (&self->settled_spots, g_free);
  g_clear_pointer (&self->settled_segments, g_free);
  g_clear_pointer (&self->settled_widths, g_free);
}

/* A frame on the way needs no layout: what was laid out is kept beside what is drawn. */
static void
unsettle (CroStream *self)
{
  if (self->settled_spots != NULL)
    return;
  self->settled_spots = g_memdup2 (self->spots->data, self->spots->len * sizeof (Spot));
  self->settled_segments = g_memdup2 (self->segments->data, self->segments->len * sizeof (Segment));
  self->settled_widths = g_new (double, self->n_bands + 1);
  for (guint i = 0; i < self->n_bands; i++)
    self->settled_widths[i] = band_at (self, i)->width;
}

static void
move_nodes (CroStream *self,
            CroStream *from,
            double     part)
{
  for (guint i = 0; i < self->nodes->len; i++)
    for (guint j = 0; j < from->nodes->len; j++)
      if (node_at (self, i)->id == node_at (from, j)->id
          && node_at (self, i)->kind == node_at (from, j)->kind)
        {
          Spot *spot = spot_at (self, i);
          const Spot *was = spot_at (from, j), *to = &self->settled_spots[i];

          spot->y = between (was->y, to->y, part);
          spot->height = between (was->height, to->height, part);
          break;
        }
}

/* Widths go along by the scale: they are true at the end of the way. */
static void
move_bands (CroStream *self,
            CroStream *from,
            double     part)
{
  for (guint i = 0; i < self->n_bands; i++)
    {
      Band *band = band_at (self, i);
      guint j;

      if (!find_band (from, node_at (self, band->nearer)->id, node_at (self, band->farther)->id, &j)
          || band_at (from, j)->n_segments != band->n_segments)
        continue;
      band->width = between (band_at (from, j)->width * from->scale / fmax (self->scale, 1e-9),
                             self->settled_widths[i], part);
      for (guint k = 0; k < band->n_segments; k++)
        {
          Segment *segment = segment_at (self, band->first_segment + k);
          const Segment *was = segment_at (from, band_at (from, j)->first_segment + k);
          const Segment *to = &self->settled_segments[band->first_segment + k];

          segment->y_near = between (was->y_near, to->y_near, part);
          segment->y_far = between (was->y_far, to->y_far, part);
        }
    }
}

/* What both hold, and cut as often, moves; what is new is where it belongs. */
void
cro_stream_move (CroStream *self,
                 CroStream *from,
                 double     part)
{
  if (self->nodes->len == 0)
    return;
  unsettle (self);
  move_nodes (self, from, part);
  move_bands (self, from, part);
}
