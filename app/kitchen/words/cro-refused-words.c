#include "config.h"

#include "cro-refused-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-words.h"

/* A sentence that begins with what was typed begins with a quotation mark. */
static char *
dup_sentence (const char *text)
{
  g_autoptr (GString) sentence = g_string_new (NULL);
  const char *last = *text != '\0' ? g_utf8_prev_char (text + strlen (text)) : text;

  if (*text == '\0')
    return g_strdup ("");
  g_string_append_unichar (sentence, g_unichar_totitle (g_utf8_get_char (text)));
  g_string_append (sentence, g_utf8_next_char (text));
  if (memchr (".?!", *last, 3) == NULL)
    g_string_append_c (sentence, '.');
  return g_strdup (sentence->str);
}

static char *
refused (const GError *error,
         const char   *nothing)
{
  g_autofree char *text = NULL;

  text = cro_words_error (error);
  /* By a rule of ours, or by one of the store. */
  return g_str_equal (text, _("a value is needed here")) ? g_strdup (nothing) : dup_sentence (text);
}

char *
cro_words_failed (const GError *error)
{
  g_autofree char *text = cro_words_error (error);

  return dup_sentence (text);
}

char *
cro_words_refused (const GError *error)
{
  return refused (error, _("This cannot be empty. Type a value; Escape gives back the one of before."));
}

char *
cro_words_refused_name (const GError *error)
{
  return refused (error, _("Type a name."));
}
