/* The bars of a stream's nodes, and what is written beside them. */
#include "cro-stream-drawing.h"

#include <math.h>

static double
strength_of (const Drawing *d,
             guint          node)
{
  return d->is_lit == NULL || d->is_lit[node] ? 1 : 0.45;
}

static void
draw_bar (Drawing *d,
          guint    i)
{
  const Spot *spot = spot_at (d->self, i);
  double x = cro_stream_column_x (d->self, spot->column);

  cro_stream_ink_set (d->cr, d->ink.bar, strength_of (d, i));
  cairo_rectangle (d->cr, d->self->is_mirrored ? d->self->width - x - CRO_STREAM_BAR : x, spot->y,
                   CRO_STREAM_BAR, fmax (spot->height, 1));
  cairo_fill (d->cr);
}

/* Before the near end, with its figure next to the band. */
static void
draw_near_name (Drawing *d,
                guint    i)
{
  const Node *node = node_at (d->self, i);
  const Spot *spot = spot_at (d->self, i);
  double middle = spot->y + spot->height / 2, end = d->self->near_x - NAME_SPACE;
  double figure = node->figure != NULL ? cro_stream_text_width (d->layout, node->figure) : 0;
  double room = end - (figure > 0 ? figure + NAME_SPACE : 0);
  double name = fmin (cro_stream_text_width (d->layout, node->name), room);

  if (figure > 0)
    cro_stream_show_text (d, node->figure, end - figure, middle, figure + 1, strength_of (d, i));
  cro_stream_show_text (d, node->name, room - name, middle, name + 1, strength_of (d, i));
}

static void
draw_far_name (Drawing *d,
               guint    i)
{
  const Node *node = node_at (d->self, i);
  const Spot *spot = spot_at (d->self, i);
  double middle = spot->y + spot->height / 2;
  double x = d->self->far_x + CRO_STREAM_BAR + NAME_SPACE;
  double figure = node->figure != NULL ? cro_stream_text_width (d->layout, node->figure) : 0;
  double name = fmin (cro_stream_text_width (d->layout, node->name),
                      d->self->width - x - (figure > 0 ? figure + NAME_SPACE : 0));

  cro_stream_show_text (d, node->name, x, middle, name + 1, strength_of (d, i));
  if (figure > 0)
    cro_stream_show_text (d, node->figure, x + name + NAME_SPACE, middle, figure + 1, strength_of (d, i));
}

/* How high all bands between two columns stand at a place: whether a rectangle is free of them. */
static gboolean
is_free (CroStream *self,
         guint      column,
         double     x,
         double     width,
         double     y,
         double     height)
{
  double from = cro_stream_column_x (self, column) + CRO_STREAM_BAR;
  double to = cro_stream_column_x (self, column + 1);

  for (guint s = self->first[column]; s < self->first[column + 1]; s++)
    for (guint j = self->far_at[self->order[s]]; j < self->far_at[self->order[s] + 1]; j++)
      {
        const Segment *segment = segment_at (self, self->far[j]);

        for (int k = 0; k <= 4; k++)
          {
            double t = CLAMP ((x + width * k / 4 - from) / (to - from), 0, 1);
            double at = segment->y_near + t * t * (3 - 2 * t) * (segment->y_far - segment->y_near);

            if (at < y + height && at + segment->width * self->scale > y)
              return FALSE;
          }
      }
  return TRUE;
}

static gboolean
is_inside (const CroStream *self,
           const Spot      *spot)
{
  return spot->height >= self->size + 2;
}

/* Of the name of a step that is so wide: inside its own band if that is high enough, else above or below it where
 * nothing passes. FALSE: nowhere. */
static gboolean
find_middle (CroStream  *self,
             const Spot *spot,
             double      x,
             double      width,
             double     *middle)
{
  if (is_inside (self, spot))
    *middle = spot->y + spot->height / 2;
  else if (is_free (self, spot->column, x, width, spot->y - self->size - 1, self->size))
    *middle = spot->y - self->size / 2 - 1;
  else if (is_free (self, spot->column, x, width, spot->y + spot->height + 1, self->size))
    *middle = spot->y + spot->height + self->size / 2 + 1;
  else
    return FALSE;
  return TRUE;
}

/* Of a step, where all of it has room. Most have none where they would begin, and are not measured. */
static void
draw_step_name (Drawing *d,
                guint    i)
{
  CroStream *self = d->self;
  const Node *node = node_at (self, i);
  const Spot *spot = spot_at (self, i);
  double x = cro_stream_column_x (self, spot->column) + CRO_STREAM_BAR + 4;
  double room = cro_stream_column_x (self, spot->column + 1) - x - 4;
  double width, middle;

  if (!find_middle (self, spot, x, 0, &middle))
    return;
  width = cro_stream_text_width (d->layout, node->name);
  if (width > room || !find_middle (self, spot, x, width, &middle))
    return;
  if (is_inside (self, spot))
    {
      cro_stream_ink_set (d->cr, d->ink.ground, strength_of (d, i));
      cairo_rectangle (d->cr, self->is_mirrored ? self->width - x - width - 2 : x - 2, middle - self->size / 2,
                       width + 4, self->size);
      cairo_fill (d->cr);
    }
  cro_stream_show_text (d, node->name, x, middle, width + 1, strength_of (d, i));
}

static void
draw_nodes (Drawing *d)
{
  CroStream *self = d->self;

  for (guint i = 0; i < self->nodes->len; i++)
    {
      guint column = spot_at (self, i)->column;

      if (column == NONE)
        continue;
      draw_bar (d, i);
      if (column == 0 && !self->is_tied)
        draw_near_name (d, i);
      else if (column > 0 && column + 1 == self->n_columns)
        draw_far_name (d, i);
      else if (column > 0)
        draw_step_name (d, i);
    }
}

/* Beside rows the ends may stand far below the picture's edge: right over the first one. */
static double
far_title_middle (const CroStream *self)
{
  guint last = self->n_columns - 1;
  double top = self->top;

  if (self->is_tied && self->first[last + 1] > self->first[last])
    {
      const Spot *spot = spot_at (self, self->order[self->first[last]]);

      top = fmax (top, fmin (spot->y, spot->y + spot->height / 2 - self->size / 2));
    }
  return top - self->top + self->size / 2;
}

static void
draw_titles (Drawing *d)
{
  CroStream *self = d->self;
  double middle = self->size / 2;

  if (d->look->near_title != NULL && !self->is_tied)
    {
      double width = cro_stream_text_width (d->layout, d->look->near_title);

      cro_stream_show_text (d, d->look->near_title, fmax (self->near_x - NAME_SPACE - width, 0), middle,
                            self->near_x, 0.7);
    }
  if (d->look->far_title != NULL)
    cro_stream_show_text (d, d->look->far_title, self->far_x + CRO_STREAM_BAR + NAME_SPACE,
                          far_title_middle (self), self->width - self->far_x, 0.7);
}

static void
draw_scale (Drawing *d)
{
  CroStream *self = d->self;
  double height = self->scale_width * self->scale, y = self->height - self->size / 2 - 1;

  /* The least money that there is may be much. */
  if (self->scale_text == NULL || height > 2 * self->size)
    return;
  cro_stream_ink_set (d->cr, d->ink.bar, 1);
  cairo_rectangle (d->cr, self->is_mirrored ? self->width - self->near_x - CRO_STREAM_BAR : self->near_x,
                   self->height - height - 1, CRO_STREAM_BAR, height);
  cairo_fill (d->cr);
  cro_stream_show_text (d, self->scale_text, self->near_x + CRO_STREAM_BAR + NAME_SPACE, y, self->width, 0.7);
}

void
cro_stream_draw_names (Drawing *d)
{
  draw_nodes (d);
  draw_titles (d);
  draw_scale (d);
}
