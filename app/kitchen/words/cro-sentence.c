#include "config.h"

#include "cro-sentence.h"

#include <string.h>

/* One that begins with what was typed begins with a quotation mark. */
char *
cro_sentence_alone (const char *text)
{
  GString *sentence;

  if (text == NULL || *text == '\0')
    return g_strdup (text);
  sentence = g_string_new (NULL);
  g_string_append_unichar (sentence, g_unichar_totitle (g_utf8_get_char (text)));
  g_string_append (sentence, g_utf8_next_char (text));
  if (memchr (".?!", text[strlen (text) - 1], 3) == NULL)
    g_string_append_c (sentence, '.');
  return g_string_free (sentence, FALSE);
}
