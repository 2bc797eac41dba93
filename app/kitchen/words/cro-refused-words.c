#include "config.h"

#include "cro-refused-words.h"

#include <glib/gi18n.h>

#include "cro-sentence.h"
#include "cro-words.h"

static char *
refused (const GError *error,
         const char   *nothing)
{
  g_autofree char *text = NULL;

  text = cro_words_error (error);
  /* By a rule of ours, or by one of the store. */
  return g_str_equal (text, _("a value is needed here")) ? g_strdup (nothing) : cro_sentence_alone (text);
}

char *
cro_words_failed (const GError *error)
{
  g_autofree char *text = cro_words_error (error);

  return cro_sentence_alone (text);
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
