#include "cro-stream-private.h"

#include <math.h>

static void
clear_thing (gpointer data)
{
  Thing *thing = data;

  g_free (thing->name);
  g_free (thing->figure);
}

PangoFontDescription *
cro_stream_font_new (double height)
{
  PangoFontDescription *font = pango_font_description_from_string ("Sans");

  pango_font_description_set_absolute_size (font, height * PANGO_SCALE);
  return font;
}

void
cro_stream_font_free (PangoFontDescription *font)
{
  pango_font_description_free (font);
}

CroStream *
cro_stream_new (void)
{
  CroStream *self = g_new0 (CroStream, 1);

  self->things = g_array_new (FALSE, TRUE, sizeof (Thing));
  g_array_set_clear_func (self->things, clear_thing);
  self->ties = g_array_new (FALSE, FALSE, sizeof (Tie));
  self->nodes = g_array_new (FALSE, TRUE, sizeof (Node));
  self->bands = g_array_new (FALSE, TRUE, sizeof (Band));
  self->notches = g_array_new (FALSE, FALSE, sizeof (Notch));
  self->texts = g_ptr_array_new_with_free_func (g_free);
  self->spots = g_array_new (FALSE, TRUE, sizeof (Spot));
  self->segments = g_array_new (FALSE, TRUE, sizeof (Segment));
  return self;
}

void
cro_stream_free (CroStream *self)
{
  if (self->free_words != NULL)
    self->free_words (self->words_data);
  g_free (self->scale_text);
  g_array_unref (self->things);
  g_array_unref (self->ties);
  g_array_unref (self->nodes);
  g_array_unref (self->bands);
  g_array_unref (self->notches);
  g_ptr_array_unref (self->texts);
  g_array_unref (self->spots);
  g_array_unref (self->segments);
  cro_stream_settle (self);
  g_free (self->first);
  g_free (self->order);
  g_free (self->far_at);
  g_free (self->far);
  g_free (self->near_at);
  g_free (self->near);
  g_free (self);
}

guint
cro_stream_add (CroStream            *self,
                const CroStreamThing *thing)
{
  Thing added = {
    .kind = thing->kind, .id = thing->id, .name = g_strdup (thing->name),
    .figure = g_strdup (thing->figure), .rank = MIN (thing->rank, CRO_STREAM_N_RANKS),
    .is_missing = thing->is_missing, .is_apart = thing->is_apart,
    .is_named = thing->is_named, .node = NONE,
  };

  g_array_append_val (self->things, added);
  return self->things->len - 1;
}

void
cro_stream_link (CroStream *self,
                 guint      nearer,
                 guint      farther,
                 double     width)
{
  Tie tie = { nearer, farther, width };

  g_return_if_fail (nearer < self->things->len && farther < self->things->len);
  g_return_if_fail (width >= 0 && isfinite (width));
  g_array_append_val (self->ties, tie);
}

void
cro_stream_set_words (CroStream       *self,
                      CroStreamOthers  others,
                      CroStreamScale   scale,
                      gpointer         user_data,
                      GDestroyNotify   free_data)
{
  self->others = others;
  self->say_scale = scale;
  self->free_words = free_data;
  self->words_data = user_data;
}
