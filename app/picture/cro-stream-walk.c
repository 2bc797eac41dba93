#include <string.h>

#include "cro-stream-private.h"

guint
cro_stream_n_places (CroStream *self)
{
  return self->nodes->len;
}

CroStreamPlace
cro_stream_get_place (CroStream *self,
                      guint      place)
{
  const Node *node = node_at (self, place);
  const Spot *spot = spot_at (self, place);
  CroStreamPlace given = {
    .kind = node->kind, .id = node->id, .name = node->name, .figure = node->figure,
    .is_others = node->is_others, .is_missing = node->is_missing, .rank = node->rank,
    .y = spot->y, .width = CRO_STREAM_BAR, .height = spot->height,
  };

  if (spot->column != NONE)
    given.x = cro_stream_column_x (self, spot->column);
  if (self->is_mirrored)
    given.x = self->width - given.x - CRO_STREAM_BAR;
  return given;
}

guint64 *
cro_stream_dup_ids (CroStream *self,
                    guint      place)
{
  GArray *ids = g_array_new (TRUE, FALSE, sizeof (guint64));

  for (guint i = 0; i < self->things->len; i++)
    if (thing_at (self, i)->node == place)
      g_array_append_val (ids, thing_at (self, i)->id);
  return (guint64 *) g_array_free (ids, FALSE);
}

guint
cro_stream_find (CroStream *self,
                 guint64    id)
{
  for (guint i = 0; i < self->nodes->len; i++)
    if (node_at (self, i)->id == id)
      return i;
  for (guint i = 0; i < self->things->len; i++)
    if (thing_at (self, i)->id == id && thing_at (self, i)->node != NONE)
      return thing_at (self, i)->node;
  return CRO_STREAM_NOWHERE;
}

/* --- By pointer ------------------------------------------------------------------------------- */

/* How far a band's middle lies from a point, between two columns. */
static gboolean
covers (CroStream     *self,
        const Segment *segment,
        double         x,
        double         y)
{
  double from = cro_stream_column_x (self, spot_at (self, segment->nearer)->column) + CRO_STREAM_BAR;
  double to = cro_stream_column_x (self, spot_at (self, segment->farther)->column);
  double t = (x - from) / (to - from), at, height = segment->width * self->scale;

  if (t < 0 || t > 1)
    return FALSE;
  at = segment->y_near + t * t * (3 - 2 * t) * (segment->y_far - segment->y_near);
  return y >= at - 1 && y <= at + height + 1;
}

guint
cro_stream_at (CroStream *self,
               double     x,
               double     y)
{
  double from_left = self->is_mirrored ? self->width - x : x;

  for (guint i = 0; i < self->nodes->len; i++)
    {
      const Spot *spot = spot_at (self, i);
      double left, right, half = self->size / 2, middle = spot->y + spot->height / 2;

      if (spot->column == NONE)
        continue;
      left = cro_stream_column_x (self, spot->column) - 3;
      right = left + CRO_STREAM_BAR + 6;
      if (spot->column == 0)
        left = 0;
      if (spot->column + 1 == self->n_columns)
        right = self->width;
      half = MAX (half, spot->height / 2);
      if (from_left >= left && from_left <= right && y >= middle - half && y <= middle + half)
        return i;
    }
  for (guint i = 0; i < self->segments->len; i++)
    if (covers (self, segment_at (self, i), from_left, y))
      return band_at (self, segment_at (self, i)->band)->farther;
  return CRO_STREAM_NOWHERE;
}

/* --- By keys ---------------------------------------------------------------------------------- */

/* The next node in its column, over what only passes there. */
static guint
step_along (CroStream *self,
            guint      place,
            int        by)
{
  guint column = spot_at (self, place)->column;
  gint64 k = (gint64) self->first[column] + spot_at (self, place)->rank;

  for (k += by; k >= self->first[column] && k < self->first[column + 1]; k += by)
    if (self->order[k] < self->nodes->len)
      return self->order[k];
  return place;
}

guint
cro_stream_step (CroStream    *self,
                 guint         place,
                 CroStreamWay  way)
{
  double widest = -1;
  guint found = place;

  if (place >= self->nodes->len || spot_at (self, place)->column == NONE)
    return self->n_columns > 0 && self->first[1] > 0 ? self->order[0] : CRO_STREAM_NOWHERE;
  if (way == CRO_STREAM_UP || way == CRO_STREAM_DOWN)
    return step_along (self, place, way == CRO_STREAM_UP ? -1 : 1);
  for (guint i = 0; i < self->n_bands; i++)
    {
      const Band *band = band_at (self, i);
      guint from = way == CRO_STREAM_FARTHER ? band->nearer : band->farther;

      if (from != place || band->width <= widest)
        continue;
      widest = band->width;
      found = way == CRO_STREAM_FARTHER ? band->farther : band->nearer;
    }
  return found;
}

guint
cro_stream_seek (CroStream *self,
                 guint      place,
                 gunichar   letter)
{
  guint n = self->nodes->len;
  guint from = place < n ? place : n - 1;

  for (guint k = 1; n > 0 && k <= n; k++)
    {
      guint i = (from + k) % n;
      const char *name = node_at (self, i)->name;

      if (spot_at (self, i)->column != NONE && name != NULL && *name != '\0'
          && g_unichar_tolower (g_utf8_get_char (name)) == g_unichar_tolower (letter))
        return i;
    }
  return place;
}

GPtrArray *
cro_stream_notches (CroStream *self,
                    guint      place)
{
  GPtrArray *names = g_ptr_array_new ();

  for (guint i = 0; i < self->notches->len; i++)
    {
      const Notch *notch = &g_array_index (self->notches, Notch, i);
      gboolean is_here = notch->band != NONE ? band_at (self, notch->band)->nearer == place
                                                   || band_at (self, notch->band)->farther == place
                                             : notch->node == place;

      if (is_here && g_strcmp0 (thing_at (self, notch->thing)->name, node_at (self, place)->name) != 0)
        g_ptr_array_add (names, thing_at (self, notch->thing)->name);
    }
  g_ptr_array_add (names, NULL);
  return names;
}
