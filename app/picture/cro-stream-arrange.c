/* A stream laid out for a size: room for text first, then what stands between. */
#include "cro-stream-drawing.h"

#include <math.h>

/* Names of neighbours one under the other. */
#define NAME_GAP 18.0

/* Of the height, what names may keep apart: the rest is for bands. */
#define MOST_GAPS 0.75

/* Of the width of the picture, what names at both ends may take. */
#define MOST_NAMES 0.74
#define MOST_FAR_NAMES 0.55
#define MOST_WHOLE_FAR_NAMES 0.68   /* where all of them are whole then */

/* Of a line of text, how high the bar is that shows the scale; at most two and a half times that. */
#define LEAST_SCALE_BAR 0.5

/* Of names, so many have room below the last row. */
#define MOST_GAPS_BELOW 3

double
cro_stream_column_x (const CroStream *self,
                     guint            column)
{
  return self->near_x + (self->far_x - self->near_x) * column / (self->n_columns - 1);
}

/* A name and its figure behind it, with the space between. */
static double
width_of_name (PangoLayout *layout,
               const Node  *node)
{
  double figure = node->figure != NULL ? cro_stream_text_width (layout, node->figure) + NAME_SPACE : 0;

  return cro_stream_text_width (layout, node->name) + figure;
}

static PangoContext *
context_new (void)
{
  return pango_font_map_create_context (pango_cairo_font_map_get_default ());
}

static double
name_gap_of (double size)
{
  return fmax (size + 1, fmin (NAME_GAP, 1.25 * size));
}

static gboolean
has_leaving (CroStream *self)
{
  for (guint i = 0; i < self->things->len; i++)
    if (thing_at (self, i)->kind == CRO_STREAM_LEAVING)
      return TRUE;
  return FALSE;
}

/* Above and below the bands. */
static void
measure (CroStream           *self,
         const CroStreamLook *look,
         double               size,
         double              *above,
         double              *below)
{
  *above = look->near_title != NULL || look->far_title != NULL ? size + 6 : size / 2;
  *below = size / 2 + (self->say_scale != NULL ? size + 4 : 0) + (has_leaving (self) ? size + 8 : 0);
}

double
cro_stream_least_height (CroStream           *self,
                         const CroStreamLook *look)
{
  g_autoptr (PangoLayout) layout = cro_stream_layout_new (context_new (), look);
  double size = cro_stream_line_height (layout), above, below;
  guint n = 0;

  for (guint i = 0; i < self->things->len; i++)
    n += thing_at (self, i)->kind == CRO_STREAM_COMPONENT;
  if (look->most_components > 0)
    n = MIN (n, look->most_components);
  /* Beside rows it is these that keep them apart. */
  if (look->n_ends > 0)
    n = 0;
  measure (self, look, size, &above, &below);
  return above + below + MAX (n + 1, 5) * name_gap_of (size) / MOST_GAPS;
}

static void
set_ends_of_names (CroStream   *self,
                   PangoLayout *layout)
{
  double near = 0, far = 0, room = MOST_NAMES * self->width;

  for (guint i = 0; i < self->nodes->len; i++)
    {
      const Node *node = node_at (self, i);

      if (node->kind == CRO_STREAM_COMPONENT)
        near = fmax (near, width_of_name (layout, node));
      else if (node->kind == CRO_STREAM_BOUGHT)
        far = fmax (far, width_of_name (layout, node));
    }
  if (self->is_tied)
    {
      self->near_x = 0;
      far = far <= MOST_WHOLE_FAR_NAMES * self->width ? far : MOST_FAR_NAMES * self->width;
      self->far_x = self->width - far - 1 - NAME_SPACE - CRO_STREAM_BAR;
      return;
    }
  /* What one end leaves is the other's. */
  if (near + far + 2 > room)
    {
      double of_near = fmax (room / 2, room - far);

      near = fmin (near, of_near);
      far = fmin (far, room - near);
    }
  self->near_x = near + 1 + NAME_SPACE;
  self->far_x = self->width - far - 1 - NAME_SPACE - CRO_STREAM_BAR;
}

/* Beside rows the picture may be much higher than these are: it ends where they do, or where names need it. */
static double
tied_bottom (const CroStream *self,
             double           gap)
{
  double end = self->top;
  guint n = 0;

  for (guint i = 0; i < self->nodes->len; i++)
    {
      const Node *node = node_at (self, i);

      n += node->kind == CRO_STREAM_BOUGHT || (node->kind == CRO_STREAM_COMPONENT && isnan (node->end));
      if (node->kind == CRO_STREAM_COMPONENT && !isnan (node->end))
        end = fmax (end, node->end);
    }
  return fmax (end + MOST_GAPS_BELOW * gap, self->top + n * gap / MOST_GAPS);
}

/* About as high as a letter, whatever the scale is. */
static void
choose_scale_bar (CroStream *self)
{
  g_clear_pointer (&self->scale_text, g_free);
  if (self->say_scale != NULL && self->scale > 0)
    self->scale_text = self->say_scale (LEAST_SCALE_BAR * self->size / self->scale, &self->scale_width,
                                        self->words_data);
}

void
cro_stream_arrange (CroStream           *self,
                    const CroStreamLook *look,
                    double               width,
                    double               height)
{
  g_autoptr (PangoLayout) layout = cro_stream_layout_new (context_new (), look);
  double above, below, gap;

  cro_stream_settle (self);
  self->size = cro_stream_line_height (layout);
  gap = name_gap_of (self->size);
  measure (self, look, self->size, &above, &below);
  self->width = width;
  self->height = height;
  self->is_mirrored = look->is_mirrored;
  self->top = above;
  self->bottom = fmax (height - below, above + 1);
  cro_stream_reduce (self, look, (guint) fmax (MOST_GAPS * (self->bottom - self->top) / gap, 2));
  if (self->is_tied)
    {
      self->bottom = fmin (self->bottom, tied_bottom (self, gap));
      self->height = self->bottom + below;
    }
  set_ends_of_names (self, layout);
  cro_stream_order (self);
  cro_stream_place (self, gap, look->most_scale);
  choose_scale_bar (self);
}

double
cro_stream_get_scale (CroStream *self)
{
  return self->scale;
}

