#include "cro-defined-name.h"

#include <string.h>

#define MOST_BYTES 120

/* Fowler, Noll and Vo's FNV-1a, 32 bits: short, and the same on every machine. */
static guint32
mark_of (const char *name)
{
  guint32 hash = 2166136261u;

  for (const guchar *p = (const guchar *) name; *p != '\0'; p++)
    hash = (hash ^ *p) * 16777619u;
  return hash;
}

/* Appends what may stand in a name; returns whether nothing was lost. */
static gboolean
append (GString    *text,
        const char *name,
        gsize       most)
{
  gboolean whole = TRUE;
  gboolean after_space = TRUE;

  for (const char *p = name; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);
      gboolean is_kept = g_unichar_isalnum (c) || g_unichar_ismark (c);

      if (text->len + 4 > most)
        return FALSE;
      whole &= is_kept || (c == ' ' && !after_space);
      after_space = c == ' ';
      if (is_kept)
        g_string_append_unichar (text, c);
      else if (text->str[text->len - 1] != '_')
        g_string_append_c (text, '_');
    }
  return whole;
}

static char *
make (const char *prefix,
      const char *name,
      gboolean    marked)
{
  g_autoptr (GString) text = g_string_new (prefix);

  g_string_append_c (text, '_');
  if (!append (text, name, MOST_BYTES - strlen ("_01234567")) || marked)
    g_string_append_printf (text, "_%08x", mark_of (name));
  return g_strdup (text->str);
}

char *
cro_defined_name_make (const char *prefix,
                       const char *name)
{
  return make (prefix, name, FALSE);
}

char *
cro_defined_name_mark (const char *prefix,
                       const char *name)
{
  return make (prefix, name, TRUE);
}
