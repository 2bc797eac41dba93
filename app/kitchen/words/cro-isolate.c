#include "config.h"

#include "cro-isolate.h"

#include <glib/gi18n.h>
#include <stdlib.h>
#include <string.h>
#include <unicode/uchar.h>
#include <unicode/uloc.h>

#include "cro-fold.h"
#include "cro-tongue.h"

#define FIRST_STRONG_ISOLATE "\342\201\250"
#define POP_DIRECTIONAL_ISOLATE "\342\201\251"

/* What begins an isolate, and what ends one. */
#define FIRST_ISOLATE 0x2066
#define LAST_ISOLATE 0x2069

/* Arguments of a sentence, at most. */
#define MOST_PARTS 8

static gboolean
turns (gunichar sign)
{
  switch (u_charDirection ((UChar32) sign))
    {
    case U_RIGHT_TO_LEFT:
    case U_RIGHT_TO_LEFT_ARABIC:
    case U_RIGHT_TO_LEFT_EMBEDDING:
    case U_RIGHT_TO_LEFT_OVERRIDE:
    case U_LEFT_TO_RIGHT_EMBEDDING:
    case U_LEFT_TO_RIGHT_OVERRIDE:
    case U_POP_DIRECTIONAL_FORMAT:
      return TRUE;
    default:
      return sign >= FIRST_ISOLATE && sign <= LAST_ISOLATE;
    }
}

static gboolean
has_turning (const char *name)
{
  for (const char *at = name; *at != '\0'; at = g_utf8_next_char (at))
    if (turns (g_utf8_get_char (at)))
      return TRUE;
  return FALSE;
}

/* The language of the sentences around it. Looking it up takes longer than copying a name, and it is
 * asked for each name of a long list. */
static gboolean
is_right_to_left (void)
{
  static _Thread_local char asked[ULOC_FULLNAME_CAPACITY];
  static _Thread_local gboolean answer;
  const char *language = cro_tongue_language ();

  if (strcmp (asked, language) != 0)
    {
      answer = uloc_isRightToLeft (language);
      g_strlcpy (asked, language, sizeof asked);
    }
  return answer;
}

/* Ends a paragraph, and with it every isolate (Annex 9, P1 and X8). A line break is the sentence's own. */
static gboolean
is_separator (gunichar sign)
{
  return sign != '\n' && u_charDirection ((UChar32) sign) == U_BLOCK_SEPARATOR;
}

/* A text may hold isolates, as a sentence does that stands in another, but it closes its own ones and
 * no others. */
static void
append_closed (GString    *text,
               const char *name)
{
  guint n_open = 0;

  for (const char *at = name; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar sign = g_utf8_get_char (at);

      if (sign == LAST_ISOLATE && n_open == 0)
        continue;
      if (sign == LAST_ISOLATE)
        n_open--;
      else if (sign >= FIRST_ISOLATE && sign < LAST_ISOLATE)
        n_open++;
      g_string_append_unichar (text, is_separator (sign) ? ' ' : sign);
    }
  for (; n_open > 0; n_open--)
    g_string_append (text, POP_DIRECTIONAL_ISOLATE);
}

char *
cro_isolate (const char *name)
{
  GString *text;

  if (!has_turning (name) && !is_right_to_left ())
    return g_strdup (name);
  text = g_string_new (FIRST_STRONG_ISOLATE);
  append_closed (text, name);
  g_string_append (text, POP_DIRECTIONAL_ISOLATE);
  return g_string_free (text, FALSE);
}

/* Copies what stands before the next argument. Returns its place: a translation may turn their order
 * ("%2$s"). MOST_PARTS: there is none. */
static guint
copy_text (const char **at,
           guint       *n_read,
           GString     *text)
{
  for (; **at != '\0'; (*at)++)
    {
      guint place = *n_read;
      char *end;

      if (**at == '%' && (*at)[1] != '%')
        {
          if (g_ascii_isdigit ((*at)[1]))
            {
              place = (guint) strtoul (*at + 1, &end, 10) - 1;
              *at = end;
            }
          g_assert ((*at)[1] == 's' && place < MOST_PARTS);
          *at += 2;
          (*n_read)++;
          return place;
        }
      *at += **at == '%';
      g_string_append_c (text, **at);
    }
  return MOST_PARTS;
}

void
cro_isolate_shorten (GString    *text,
                     const char *name,
                     const char *words)
{
  g_autofree char *folded = strcmp (words, "none") != 0 ? cro_fold (name) : NULL;
  g_auto (GStrv) pairs = folded != NULL && *folded != '\0' && strchr ("aeiou", *folded) != NULL
                             ? g_strsplit (words, " ", -1) : NULL;

  for (guint i = 0; pairs != NULL && pairs[i] != NULL && pairs[i + 1] != NULL; i += 2)
    {
      gsize n = strlen (pairs[i]);
      gsize at = text->len > n ? text->len - n - 1 : text->len;

      if (text->len <= n || text->str[text->len - 1] != ' ' || strncmp (text->str + at, pairs[i], n) != 0
          || (at > 0 && text->str[at - 1] != ' '))
        continue;
      g_string_truncate (text, at);
      g_string_append (text, pairs[i + 1]);
      return;
    }
}

char *
cro_isolate_printf (const char *format,
                    ...)
{
  g_autoptr (GString) counted = g_string_new (NULL);
  GString *text = g_string_new (NULL);
  const char *parts[MOST_PARTS] = { NULL };
  guint n_parts = 0, n_read = 0, place;
  va_list arguments;

  for (const char *at = format; (place = copy_text (&at, &n_read, counted)) < MOST_PARTS;)
    n_parts = MAX (n_parts, place + 1);
  va_start (arguments, format);
  for (guint i = 0; i < n_parts; i++)
    parts[i] = va_arg (arguments, const char *);
  va_end (arguments);

  n_read = 0;
  for (const char *at = format; (place = copy_text (&at, &n_read, text)) < MOST_PARTS;)
    {
      g_autofree char *part = cro_isolate (parts[place]);

      /* Translators: words that are shortened before a name that begins with a vowel, each with its short form: in
       * French “de d’ que qu’”. “none” where there are no such words. */
      cro_isolate_shorten (text, parts[place], C_("shortened", "none"));
      g_string_append (text, part);
    }
  return g_string_free (text, FALSE);
}

void
cro_isolate_append (GString    *list,
                    const char *name)
{
  g_autofree char *text = cro_isolate (name);

  g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", text);
}
