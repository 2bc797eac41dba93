#include "cro-isolate.h"

#include <unicode/uchar.h>
#include <unicode/uloc.h>

#include "cro-tongue.h"

#define FIRST_STRONG_ISOLATE "\342\201\250"
#define POP_DIRECTIONAL_ISOLATE "\342\201\251"

/* The ends of isolates, which a name must not have of its own. */
#define FIRST_ISOLATE 0x2066
#define LAST_ISOLATE 0x2069

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

/* The language of the sentences around it. */
static gboolean
is_right_to_left (void)
{
  return uloc_isRightToLeft (cro_tongue_language ());
}

char *
cro_isolate (const char *name)
{
  GString *text;

  if (!has_turning (name) && !is_right_to_left ())
    return g_strdup (name);
  text = g_string_new (FIRST_STRONG_ISOLATE);
  for (const char *at = name; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar sign = g_utf8_get_char (at);

      if (sign < FIRST_ISOLATE || sign > LAST_ISOLATE)
        g_string_append_unichar (text, sign);
    }
  g_string_append (text, POP_DIRECTIONAL_ISOLATE);
  return g_string_free (text, FALSE);
}
