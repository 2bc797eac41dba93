#include <math.h>
#include <string.h>

#include "cro-stream-ink.h"

/* Between an end and its name, and names of neighbours one under the other. */
#define NAME_SPACE 6.0
#define NAME_GAP 18.0

/* Of the height, what names may keep apart: the rest is for bands. */
#define MOST_GAPS 0.75

/* Of the width of the picture, what names at both ends may take. */
#define MOST_NAMES 0.74

/* Bands from this height on are hatched, their parts from that one on drawn; those that are not chosen
 * are drawn so strong. */
#define LEAST_HATCHED 2.5
#define LEAST_PART 0.4
#define DIM 0.16

/* Of curves, in pixels: nobody sees a quarter of one, and it halves a frame. */
#define SCREEN_TOLERANCE 0.25

/* What falls away below: so many have a name. */
#define MOST_LEAVING 5
#define FALL 12.0
#define LEAST_FALL 0.4
#define WIDE_PITCH 400.0

/* A name of a step is cut to no less than so many times its height. */
#define LEAST_CUT 5

static inline double
x_of (const CroStream *self,
      double           x)
{
  return self->is_mirrored ? self->width - x : x;
}

double
cro_stream_column_x (const CroStream *self,
                     guint            column)
{
  return self->near_x + (self->far_x - self->near_x) * column / (self->n_columns - 1);
}

/* --- Text ------------------------------------------------------------------------------------- */

typedef struct
{
  CroStream           *self;
  cairo_t             *cr;
  const CroStreamLook *look;
  CroStreamInk         ink;
  PangoLayout         *layout;
  gboolean            *is_lit;     /* by node; NULL: all */
} Drawing;

/* Takes the context. */
static PangoLayout *
layout_new (PangoContext        *context,
            const CroStreamLook *look)
{
  PangoLayout *layout = pango_layout_new (context);

  g_object_unref (context);
  pango_layout_set_font_description (layout, look->font);
  pango_layout_set_single_paragraph_mode (layout, TRUE);
  pango_layout_set_ellipsize (layout, PANGO_ELLIPSIZE_END);
  return layout;
}

static double
width_of_text (PangoLayout *layout,
               const char  *text)
{
  int width;

  pango_layout_set_width (layout, -1);
  pango_layout_set_text (layout, text != NULL ? text : "", -1);
  pango_layout_get_size (layout, &width, NULL);
  return (double) width / PANGO_SCALE;
}

/* A name and its figure behind it, with the space between. */
static double
width_of_name (PangoLayout *layout,
               const Node  *node)
{
  double figure = node->figure != NULL ? width_of_text (layout, node->figure) + NAME_SPACE : 0;

  return width_of_text (layout, node->name) + figure;
}

/* Where in the picture a text begins whose near end, not mirrored, is at x. */
static void
show_text (Drawing    *d,
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

/* --- Bands ------------------------------------------------------------------------------------ */

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

static gboolean
is_lit (const Drawing *d,
        const Band    *band)
{
  return d->is_lit == NULL || (d->is_lit[band->nearer] && d->is_lit[band->farther]);
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

/* --- What falls away --------------------------------------------------------------------------- */

static int
compare_leaving (gconstpointer a,
                 gconstpointer b,
                 gpointer      stream)
{
  const Band *x = band_at (stream, *(const guint *) a), *y = band_at (stream, *(const guint *) b);

  return x->width != y->width ? (x->width > y->width ? -1 : 1)
                              : (x->farther < y->farther ? -1 : x->farther > y->farther);
}

/* Where what falls from a node turns down: before it, outside of what falls lower; beside names nothing
 * falls, there it turns behind the node. Its near edge. */
static double
fall_x (CroStream *self,
        guint      node,
        double     above,
        double     height)
{
  const Spot *spot = spot_at (self, node);
  double x = cro_stream_column_x (self, spot->column);

  return spot->column > 0 ? x - FALL - above - height : x + CRO_STREAM_BAR + FALL + above;
}

/* A part of it that bends from the node's side, between two heights, to its way down. */
static void
add_fall (CroStream *self,
          cairo_t   *cr,
          double     from,
          double     upper,
          double     lower,
          double     outer,
          double     inner)
{
  double end = self->bottom + 4;

  cairo_move_to (cr, x_of (self, from), upper);
  cairo_curve_to (cr, x_of (self, outer), upper, x_of (self, outer), upper, x_of (self, outer), end);
  cairo_line_to (cr, x_of (self, inner), end);
  cairo_curve_to (cr, x_of (self, inner), lower, x_of (self, inner), lower, x_of (self, from), lower);
  cairo_close_path (cr);
}

/* Where columns stand close it lies over most of what flows, and is drawn the fainter. */
static double
fall_strength (const CroStream *self)
{
  double pitch = (self->far_x - self->near_x) / (self->n_columns - 1);

  return CLAMP (pitch / WIDE_PITCH, 0.15, 0.5);
}

/* A band that bends down from a node, under what goes on from there. */
static void
draw_fall (Drawing    *d,
           const Band *band,
           double      above,
           const char *name,
           double      name_x)
{
  CroStream *self = d->self;
  const Node *node = node_at (self, band->nearer);
  const Spot *spot = spot_at (self, band->nearer);
  double height = band->width * self->scale, offset = 0;
  double y = spot->y + node->near_width * self->scale - above - height;
  double x = cro_stream_column_x (self, spot->column), at = fall_x (self, band->nearer, above, height);
  double strength = d->is_lit == NULL || d->is_lit[band->nearer] ? 1 : DIM;

  for (guint rank = 0; rank < N_PARTS; rank++)
    {
      double part = node->part[rank] * height;

      if (part <= 0)
        continue;
      if (spot->column > 0)
        add_fall (self, d->cr, x, y + offset, y + offset + part, at + offset, at + offset + part);
      else
        add_fall (self, d->cr, x + CRO_STREAM_BAR, y + offset, y + offset + part, at + height - offset,
                  at + height - offset - part);
      cro_stream_ink_set (d->cr, d->ink.plain[rank], strength * fall_strength (self));
      cairo_fill (d->cr);
      offset += part;
    }
  if (name != NULL)
    show_text (d, name, name_x, self->bottom + 6 + self->size / 2, self->width - name_x, strength);
}

/* Those that fall lower turn first. What would stand on another's name has none, and is told in the
 * table. */
static void
draw_leaving (Drawing *d)
{
  CroStream *self = d->self;
  guint n = self->bands->len - self->n_bands;
  g_autofree guint *order = g_new (guint, n + 1);
  g_autofree double *above = g_new0 (double, self->nodes->len + 1);
  double taken[MOST_LEAVING][2];
  guint n_named = 0;

  for (guint i = 0; i < n; i++)
    order[i] = self->n_bands + i;
  g_qsort_with_data (order, (int) n, sizeof (guint), compare_leaving, self);
  for (guint k = 0; k < n; k++)
    {
      const Band *band = band_at (self, order[k]);
      const Node *leaving = node_at (self, band->farther);
      g_autofree char *name = g_strdup_printf ("%s %s", leaving->name,
                                               leaving->figure != NULL ? leaving->figure : "");
      double height = band->width * self->scale;
      double width = width_of_text (d->layout, name) + NAME_SPACE;
      double at = fmin (fall_x (self, band->nearer, above[band->nearer], height), self->width - width);
      gboolean fits = n_named < MOST_LEAVING && at >= 0;

      if (height < LEAST_FALL)
        continue;
      for (guint i = 0; fits && i < n_named; i++)
        fits = at > taken[i][1] || at + width < taken[i][0];
      draw_fall (d, band, above[band->nearer], fits ? name : NULL, at);
      above[band->nearer] += height;
      if (fits)
        {
          taken[n_named][0] = at;
          taken[n_named++][1] = at + width;
        }
    }
}

/* --- Bars and names ----------------------------------------------------------------------------- */

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
  double figure = node->figure != NULL ? width_of_text (d->layout, node->figure) : 0;
  double room = end - (figure > 0 ? figure + NAME_SPACE : 0);
  double name = fmin (width_of_text (d->layout, node->name), room);

  if (figure > 0)
    show_text (d, node->figure, end - figure, middle, figure + 1, strength_of (d, i));
  show_text (d, node->name, room - name, middle, name + 1, strength_of (d, i));
}

static void
draw_far_name (Drawing *d,
               guint    i)
{
  const Node *node = node_at (d->self, i);
  const Spot *spot = spot_at (d->self, i);
  double middle = spot->y + spot->height / 2;
  double x = d->self->far_x + CRO_STREAM_BAR + NAME_SPACE;
  double figure = node->figure != NULL ? width_of_text (d->layout, node->figure) : 0;
  double name = fmin (width_of_text (d->layout, node->name),
                      d->self->width - x - (figure > 0 ? figure + NAME_SPACE : 0));

  show_text (d, node->name, x, middle, name + 1, strength_of (d, i));
  if (figure > 0)
    show_text (d, node->figure, x + name + NAME_SPACE, middle, figure + 1, strength_of (d, i));
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

/* Of a step: inside its own band if that is wide enough, else above it where nothing passes. */
static void
draw_step_name (Drawing *d,
                guint    i)
{
  CroStream *self = d->self;
  const Node *node = node_at (self, i);
  const Spot *spot = spot_at (self, i);
  double x = cro_stream_column_x (self, spot->column) + CRO_STREAM_BAR + 4;
  double room = cro_stream_column_x (self, spot->column + 1) - x - 4;
  double width = fmin (width_of_text (d->layout, node->name), room), middle;

  if (width_of_text (d->layout, node->name) > room && room < LEAST_CUT * self->size)
    return;
  if (spot->height >= self->size + 2)
    {
      double y = spot->y + spot->height / 2 - self->size / 2;

      cro_stream_ink_set (d->cr, d->ink.ground, strength_of (d, i));
      cairo_rectangle (d->cr, self->is_mirrored ? self->width - x - width - 2 : x - 2, y, width + 4,
                       self->size);
      cairo_fill (d->cr);
      middle = spot->y + spot->height / 2;
    }
  else if (is_free (self, spot->column, x, width, spot->y - self->size - 1, self->size))
    middle = spot->y - self->size / 2 - 1;
  else if (is_free (self, spot->column, x, width, spot->y + spot->height + 1, self->size))
    middle = spot->y + spot->height + self->size / 2 + 1;
  else
    return;
  show_text (d, node->name, x, middle, width + 1, strength_of (d, i));
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
      if (column == 0)
        draw_near_name (d, i);
      else if (column + 1 == self->n_columns)
        draw_far_name (d, i);
      else
        draw_step_name (d, i);
    }
}

static void
draw_titles (Drawing *d)
{
  CroStream *self = d->self;
  double middle = self->size / 2;

  if (d->look->near_title != NULL)
    {
      double width = width_of_text (d->layout, d->look->near_title);

      show_text (d, d->look->near_title, fmax (self->near_x - NAME_SPACE - width, 0), middle,
                 self->near_x, 0.7);
    }
  if (d->look->far_title != NULL)
    show_text (d, d->look->far_title, self->far_x + CRO_STREAM_BAR + NAME_SPACE, middle,
               self->width - self->far_x, 0.7);
}

static void
draw_scale (Drawing *d)
{
  CroStream *self = d->self;
  double height = d->look->scale_width * self->scale, y = self->height - self->size / 2 - 1;

  if (d->look->scale == NULL || !(height >= 1) || height > 2 * self->size)
    return;
  cro_stream_ink_set (d->cr, d->ink.bar, 1);
  cairo_rectangle (d->cr, self->is_mirrored ? self->width - self->near_x - CRO_STREAM_BAR : self->near_x,
                   self->height - height - 1, CRO_STREAM_BAR, height);
  cairo_fill (d->cr);
  show_text (d, d->look->scale, self->near_x + CRO_STREAM_BAR + NAME_SPACE, y, self->width, 0.7);
}

/* --- What is chosen ----------------------------------------------------------------------------- */

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

/* --- All of it ---------------------------------------------------------------------------------- */

static double
line_height (PangoLayout *layout)
{
  int height;

  pango_layout_set_text (layout, "Xg", -1);
  pango_layout_get_size (layout, NULL, &height);
  return (double) height / PANGO_SCALE;
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
  *below = size / 2 + (look->scale != NULL ? size + 4 : 0) + (has_leaving (self) ? size + 8 : 0);
}

double
cro_stream_least_height (CroStream           *self,
                         const CroStreamLook *look)
{
  g_autoptr (PangoLayout) layout = layout_new (context_new (), look);
  double size = line_height (layout), above, below;
  guint n = 0;

  for (guint i = 0; i < self->things->len; i++)
    n += thing_at (self, i)->kind == CRO_STREAM_COMPONENT;
  if (look->most_components > 0)
    n = MIN (n, look->most_components);
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

void
cro_stream_arrange (CroStream           *self,
                    const CroStreamLook *look,
                    double               width,
                    double               height)
{
  g_autoptr (PangoLayout) layout = layout_new (context_new (), look);
  double above, below, gap;

  self->size = line_height (layout);
  gap = name_gap_of (self->size);
  measure (self, look, self->size, &above, &below);
  self->width = width;
  self->height = height;
  self->is_mirrored = look->is_mirrored;
  self->top = above;
  self->bottom = fmax (height - below, above + 1);
  cro_stream_reduce (self, look, (guint) fmax (MOST_GAPS * (self->bottom - self->top) / gap, 2));
  set_ends_of_names (self, layout);
  cro_stream_order (self);
  cro_stream_place (self, gap);
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
  d.layout = layout_new (pango_cairo_create_context (cr), look);
  d.is_lit = dup_lit (self, chosen);
  cairo_save (cr);
  if (!d.ink.is_paper)
    {
      cairo_set_tolerance (cr, SCREEN_TOLERANCE);
      cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
    }
  for (int lit = 0; lit < 2; lit++)
    for (guint i = 0; i < self->n_bands; i++)
      if (is_lit (&d, band_at (self, i)) == (lit == 1))
        draw_band (&d, band_at (self, i));
  draw_leaving (&d);
  draw_notches (&d);
  draw_nodes (&d);
  draw_titles (&d);
  draw_scale (&d);
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
