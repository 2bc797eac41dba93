#include "cro-name.h"

#include <string.h>

/* They only say where a line may break. */
static gboolean
has_no_width (gunichar c)
{
  return c == 0x200B || c == 0x2060 || c == 0xFEFF;
}

static gboolean
is_wide_space (gunichar c)
{
  return g_unichar_isspace (c) || has_no_width (c);
}

static gboolean
is_space_at (const char *at)
{
  guchar first = (guchar) *at;

  return first < 0x80 ? g_ascii_isspace ((char) first) : is_wide_space (g_utf8_get_char (at));
}

char *
cro_name_trim (char  *text,
               gsize  length)
{
  char *end = text + length;

  while (text < end && is_space_at (text))
    text = g_utf8_next_char (text);
  while (text < end)
    {
      char *last = g_utf8_prev_char (end);

      if (!is_space_at (last))
        break;
      end = last;
    }
  *end = '\0';
  return text;
}

/* U+0300 is the first character that composes or decomposes away, and no character below it
 * needs a lead byte above 0xCB. */
gboolean
cro_name_is_composed (const char *text)
{
  for (; *text != '\0'; text++)
    if ((guchar) *text > 0xCB)
      return FALSE;
  return TRUE;
}

gboolean
cro_name_is_same_word (const char *a,
                       const char *b)
{
  while (*a != '\0' && g_unichar_tolower (g_utf8_get_char (a)) == g_unichar_tolower (g_utf8_get_char (b)))
    {
      a = g_utf8_next_char (a);
      b = g_utf8_next_char (b);
    }
  return *a == '\0' && *b == '\0';
}

char *
cro_name_dup_tidy (const char *text)
{
  g_autofree char *copy = g_strdup (text);
  const char *name = cro_name_trim (copy, strlen (copy));

  return g_utf8_normalize (name, -1, G_NORMALIZE_NFC);
}
