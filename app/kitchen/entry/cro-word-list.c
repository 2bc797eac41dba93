#include "cro-word-list.h"

#include <string.h>

/* A letter as it is typed without its accent. */
static gunichar
bare (gunichar letter)
{
  gunichar apart[G_UNICHAR_MAX_DECOMPOSITION_LENGTH];

  if (letter < 0x80)
    return (gunichar) g_ascii_tolower ((char) letter);
  g_unichar_fully_decompose (g_unichar_tolower (letter), FALSE, apart, G_N_ELEMENTS (apart));
  return apart[0];
}

static const char *
skip_marks (const char *at)
{
  while ((guchar) *at >= 0x80 && g_unichar_ismark (g_utf8_get_char (at)))
    at = g_utf8_next_char (at);
  return at;
}

static const char *
skip_gap (const char *at)
{
  while (*at == '.' || g_unichar_isspace (g_utf8_get_char (at)))
    at = g_utf8_next_char (at);
  return at;
}

gboolean
cro_word_ends (const char *at)
{
  gunichar next = g_utf8_get_char (at);

  return !g_unichar_isalnum (next) && next != '-' && next != '\'' && next != 0x2019;
}

/* Bytes of a word of n letters that text begins with; 0 where it does not. */
static gsize
match (const char *text,
       const char *word,
       gsize       n)
{
  const char *at = text;

  for (gsize i = 0; i < n; i++)
    if (word[i] == ' ')
      at = skip_gap (at);
    else if (*at == '\0' || bare (g_utf8_get_char (at)) != (gunichar) word[i])
      return 0;
    else
      at = skip_marks (g_utf8_next_char (at));
  return cro_word_ends (at) ? (gsize) (at - text) : 0;
}

gsize
cro_word_list_scan (const char *text,
                    const char *words)
{
  /* Hardly any word of a list begins as the text does. */
  const gunichar first = *text != '\0' ? bare (g_utf8_get_char (text)) : 0;
  const char begins[] = { '|', (char) first, '\0' };
  const char *word = first > 0 && first < 0x80 ? words : NULL;
  gsize longest = 0;

  if (word != NULL && *word != begins[1])
    word = strstr (word, begins);
  for (; word != NULL; word = strstr (word, begins))
    {
      gsize bytes;

      word += *word == '|';
      bytes = match (text, word, strcspn (word, "|"));
      longest = MAX (longest, bytes);
    }
  return longest;
}

/* A bit for each letter, and one for all else. */
static guint32
initial_of (gunichar letter)
{
  return letter >= 'a' && letter <= 'z' ? 1u << (letter - 'a') : 1u << 31;
}

guint32
cro_word_initial (const char *text)
{
  return *text != '\0' ? initial_of (bare (g_utf8_get_char (text))) : 0;
}

guint32
cro_word_list_initials (const char *words)
{
  guint32 initials = 0;

  for (const char *word = words; word != NULL; word = strchr (word, '|') != NULL ? strchr (word, '|') + 1 : NULL)
    initials |= initial_of ((guchar) *word);
  return initials;
}
