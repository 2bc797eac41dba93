#include "cro-text-width.h"

#include <string.h>

#include "cro-number.h"

struct _CroTextWidth
{
  GtkWidget   *widget;
  PangoLayout *layout;
  GHashTable  *known;    /* text → its width: heads and tails are few */
  char        *sign;     /* the decimal sign of the locale */
};

/* What stands between the digits of a half. */
static char *
dup_decimal_sign (void)
{
  g_autofree char *half = cro_number_to_text (0.5, 1, FALSE);
  const char *from = g_utf8_next_char (half);

  return g_strndup (from, (gsize) (g_utf8_prev_char (half + strlen (half)) - from));
}

CroTextWidth *
cro_text_width_new (GtkWidget *widget)
{
  CroTextWidth *self = g_new0 (CroTextWidth, 1);

  self->widget = widget;
  self->known = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  self->sign = dup_decimal_sign ();
  return self;
}

void
cro_text_width_forget (CroTextWidth *self)
{
  g_clear_object (&self->layout);
  g_hash_table_remove_all (self->known);
}

void
cro_text_width_free (CroTextWidth *self)
{
  g_clear_object (&self->layout);
  g_hash_table_unref (self->known);
  g_free (self->sign);
  g_free (self);
}

static void
make_layout (CroTextWidth *self)
{
  PangoAttrList *attributes = pango_attr_list_new ();

  self->layout = gtk_widget_create_pango_layout (self->widget, NULL);
  pango_attr_list_insert (attributes, pango_attr_font_features_new ("tnum=1"));
  pango_layout_set_attributes (self->layout, attributes);
  pango_attr_list_unref (attributes);
}

static int
width_of (CroTextWidth *self,
          const char   *text,
          gsize         length)
{
  g_autofree char *key = g_strndup (text, length);
  gpointer width;
  int pixels;

  if (g_hash_table_lookup_extended (self->known, key, NULL, &width))
    return GPOINTER_TO_INT (width);
  if (self->layout == NULL)
    make_layout (self);
  pango_layout_set_text (self->layout, key, -1);
  pango_layout_get_pixel_size (self->layout, &pixels, NULL);
  g_hash_table_insert (self->known, g_steal_pointer (&key), GINT_TO_POINTER (pixels));
  return pixels;
}

int
cro_text_width (CroTextWidth *self,
                const char   *text)
{
  return width_of (self, text, strlen (text));
}

void
cro_text_width_of_number (CroTextWidth *self,
                          const char   *text,
                          int          *head,
                          int          *tail)
{
  const char *at = strstr (text, self->sign);

  /* Some units have a point. Digits are grouped by other spaces. */
  while (at != NULL && !g_ascii_isdigit (at[strlen (self->sign)]))
    at = strstr (at + 1, self->sign);
  if (at == NULL)
    at = strchr (text, ' ');
  if (at == NULL)
    at = text + strlen (text);
  *head = width_of (self, text, (gsize) (at - text));
  *tail = width_of (self, at, strlen (at));
}
