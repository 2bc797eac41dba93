/* What falls away from a stream, below. */
#include "cro-stream-drawing.h"

#include <math.h>

/* So many have a name. */
#define MOST_LEAVING 5
#define FALL 12.0
#define LEAST_FALL 0.4
#define WIDE_PITCH 400.0

/* Places that touch are free of each other. */
#define HAIR 0.01

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
    cro_stream_show_text (d, name, name_x, self->bottom + 6 + self->size / 2, self->width - name_x, strength);
}

/* Room for a name beside those that have theirs, as near to where it falls as there is; below 0: none. taken:
 * where they begin and end. */
static double
free_place (const CroStream *self,
            double           wanted,
            double           width,
            double           taken[][2],
            guint            n)
{
  double best = -1;

  /* At its own place, or beside one of the others. */
  for (guint k = 0; k < 2 * n + 1; k++)
    {
      double at = k == 2 * n ? wanted : k % 2 == 0 ? taken[k / 2][1] : taken[k / 2][0] - width;
      gboolean fits = at >= 0 && at + width <= self->width;

      for (guint i = 0; fits && i < n; i++)
        fits = at > taken[i][1] - HAIR || at + width < taken[i][0] + HAIR;
      if (fits && (best < 0 || fabs (at - wanted) < fabs (best - wanted)))
        best = at;
    }
  return best;
}

/* Those that fall lower turn first. What finds no room beside others' names has none, and is told in the
 * table. */
void
cro_stream_draw_leaving (Drawing *d)
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
      double height = fmax (band->width * self->scale, leaving->is_named && band->width > 0 ? LEAST_FALL : 0);
      double width = cro_stream_text_width (d->layout, name) + NAME_SPACE;
      double wanted = fmax (fmin (fall_x (self, band->nearer, above[band->nearer], height), self->width - width), 0);
      double at = n_named < MOST_LEAVING ? free_place (self, wanted, width, taken, n_named) : -1;
      gboolean fits = at >= 0;

      if (height < LEAST_FALL)
        continue;
      draw_fall (d, band, above[band->nearer], fits ? name : NULL, at);
      above[band->nearer] += height;
      if (fits)
        {
          taken[n_named][0] = at;
          taken[n_named++][1] = at + width;
        }
    }
}
