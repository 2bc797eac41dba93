/* The bands of a stream, and its outline. */
#include "cro-stream-drawing.h"

#include <math.h>

/* Bands from this height on are hatched, their parts from that one on drawn. */
#define LEAST_HATCHED 2.5
#define LEAST_PART 0.4

/* One edge of a band, nearest first or back. */
static void
add_edge (CroStream  *self,
          cairo_t    *cr,
          const Band *band,
          double      offset,
          gboolean    is_back)
{
  for (guint k = 0; k < band->n_segments; k++)
    {
      guint i = band->first_segment + (is_back ? band->n_segments - 1 - k : k);
      const Segment *segment = segment_at (self, i);
      double a = cro_stream_column_x (self, spot_at (self, segment->nearer)->column) + CRO_STREAM_BAR;
      double b = cro_stream_column_x (self, spot_at (self, segment->farther)->column);
      double from = x_of (self, is_back ? b : a), to = x_of (self, is_back ? a : b);
      double y_from = offset + (is_back ? segment->y_far : segment->y_near);
      double y_to = offset + (is_back ? segment->y_near : segment->y_far);

      if (k == 0 && !is_back)
        cairo_move_to (cr, from, y_from);
      else
        cairo_line_to (cr, from, y_from);
      cairo_curve_to (cr, (from + to) / 2, y_from, (from + to) / 2, y_to, to, y_to);
    }
}

static void
add_outline (CroStream  *self,
             cairo_t    *cr,
             const Band *band,
             double      offset,
             double      height)
{
  add_edge (self, cr, band, offset, FALSE);
  add_edge (self, cr, band, offset + height, TRUE);
  cairo_close_path (cr);
}

/* What has no width is a dotted line, what is not known a dashed one. */
static void
draw_hairline (Drawing    *d,
               const Band *band,
               double      strength)
{
  static const double dotted[] = { 1, 3 }, dashed[] = { 5, 3 };

  cairo_save (d->cr);
  cairo_set_dash (d->cr, band->is_missing ? dashed : dotted, 2, 0);
  cairo_set_line_width (d->cr, band->is_missing ? 1.5 : 1);
  cro_stream_ink_set (d->cr, d->ink.soft, strength);
  add_edge (d->self, d->cr, band, 0, FALSE);
  cairo_stroke (d->cr);
  cairo_restore (d->cr);
}

static void
fill_part (Drawing *d,
           guint    rank,
           double   height,
           double   strength)
{
  if (d->ink.hatched[rank] != NULL && height >= LEAST_HATCHED)
    {
      cairo_set_source (d->cr, d->ink.hatched[rank]);
      if (strength == 1)
        cairo_fill (d->cr);
      else
        {
          cairo_save (d->cr);
          cairo_clip (d->cr);
          cairo_paint_with_alpha (d->cr, strength);
          cairo_restore (d->cr);
        }
      return;
    }
  cro_stream_ink_set (d->cr, d->ink.plain[rank], strength);
  cairo_fill (d->cr);
}

static void
draw_band (Drawing    *d,
           const Band *band)
{
  double strength = is_lit (d, band) ? 1 : DIM, offset = 0, left = 0;
  const Node *far = node_at (d->self, band->farther);

  if (band->width <= 0)
    {
      draw_hairline (d, band, strength);
      return;
    }
  if (band->is_apart)
    {
      cro_stream_ink_set (d->cr, d->ink.soft, strength);
      cairo_set_line_width (d->cr, 1);
      add_outline (d->self, d->cr, band, 0, fmax (band->width * d->self->scale, 1));
      cairo_stroke (d->cr);
      return;
    }
  for (guint rank = 0; rank < N_PARTS; rank++)
    {
      double height = (band->width * far->part[rank] + left) * d->self->scale;
      gboolean is_last = rank + 1 == N_PARTS;

      /* What cannot be told apart goes with the next; a hairline is seen, whatever it stands for. */
      if (height < LEAST_PART && !is_last)
        {
          left += band->width * far->part[rank];
          continue;
        }
      left = 0;
      if (height <= 0 || (is_last && offset > 0 && height < LEAST_PART))
        continue;
      add_outline (d->self, d->cr, band, offset, fmax (height, 0.6));
      fill_part (d, rank, height, strength);
      offset += height;
    }
  if (d->ink.is_print)
    {
      cro_stream_ink_set (d->cr, d->ink.soft, 1);
      cairo_set_line_width (d->cr, 0.3);
      add_outline (d->self, d->cr, band, 0, fmax (band->width * d->self->scale, 0.6));
      cairo_stroke (d->cr);
    }
}

/* Ticks across a band, one for each step that nothing joins. */
static void
draw_notches (Drawing *d)
{
  CroStream *self = d->self;
  guint before = NONE, n = 0;

  for (guint i = 0; i < self->notches->len; i++)
    {
      const Notch *notch = &g_array_index (self->notches, Notch, i);
      const Band *band;
      const Segment *segment;
      double x;

      if (notch->band == NONE)
        continue;
      n = notch->band == before ? n + 1 : 0;
      before = notch->band;
      band = band_at (self, notch->band);
      segment = segment_at (self, band->first_segment);
      x = cro_stream_column_x (self, spot_at (self, segment->nearer)->column) + CRO_STREAM_BAR + 6
          + 5 * n;
      cro_stream_ink_set (d->cr, d->ink.soft, is_lit (d, band) ? 1 : DIM);
      cairo_set_line_width (d->cr, 1.5);
      cairo_move_to (d->cr, x_of (self, x), segment->y_near - 2);
      cairo_line_to (d->cr, x_of (self, x), segment->y_near + band->width * self->scale + 2);
      cairo_stroke (d->cr);
    }
}

/* What is lit over what is not. */
void
cro_stream_draw_bands (Drawing *d)
{
  for (int lit = 0; lit < 2; lit++)
    for (guint i = 0; i < d->self->n_bands; i++)
      if (is_lit (d, band_at (d->self, i)) == (lit == 1))
        draw_band (d, band_at (d->self, i));
  draw_notches (d);
}

void
cro_stream_draw_outline (CroStream           *self,
                         cairo_t             *cr,
                         const CroStreamLook *look)
{
  CroStreamInk ink;

  cro_stream_ink_init (&ink, look->palette, cairo_get_target (cr));
  cairo_save (cr);
  cro_stream_ink_set (cr, ink.soft, 0.8);
  cairo_set_line_width (cr, 1);
  for (guint i = 0; i < self->n_bands; i++)
    if (band_at (self, i)->width * self->scale >= 1)
      {
        add_outline (self, cr, band_at (self, i), 0, band_at (self, i)->width * self->scale);
        cairo_stroke (cr);
      }
  cairo_restore (cr);
  cro_stream_ink_clear (&ink);
}
