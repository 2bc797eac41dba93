/* What stands before a line of a message and is none of it: bullets, numbers, days of a conversation, quotations. */
#include "cro-price-list-private.h"

#include "cro-fold.h"

#include <stdlib.h>
#include <string.h>

/* "[24/11, 06:12] Upriver: ", as what was copied out of a conversation has it: bytes; 0: it is not there. */
static gsize
scan_stamp (const char *line)
{
  gsize end = *line == '[' ? strcspn (line, "]") : 0, name;

  if (end == 0 || line[end] == '\0' || memchr (line, ':', end) == NULL
      || strspn (line + 1, "0123456789/.,:- APMapm") != end - 1)
    return 0;
  end += 1 + strspn (line + end + 1, " ");
  name = strcspn (line + end, ":0123456789");
  return line[end + name] == ':' ? end + name + 1 + strspn (line + end + name + 1, " ") : end;
}

const char *
cro_list_find_mark (const char *text)
{
  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      gunichar c = g_utf8_get_char (text);

      if ((g_unichar_type (c) == G_UNICODE_OTHER_SYMBOL && c != 0xb0) || c == '~' || c == 0x335 || c == 0x336
          || c == 0x2030 || c == 0xff05)
        return text;
    }
  return NULL;
}

const char *
cro_list_skip_bullet (const char *line)
{
  static const char *const bullets[] = { "- ", "* ", "• ", "· ", "> " };

  line += strspn (line, " \t");
  line += scan_stamp (line);
  for (guint i = 0; i < G_N_ELEMENTS (bullets); i++)
    if (g_str_has_prefix (line, bullets[i]))
      return line + strlen (bullets[i]);
  return line;
}

gsize
cro_list_scan_ordinal (guint       n_listed,
                       const char *line)
{
  gsize digits = strspn (line, "0123456789");

  return digits > 0 && digits < 4 && (line[digits] == '.' || line[digits] == ')') && line[digits + 1] == ' '
                 && strtoul (line, NULL, 10) == n_listed + 1
             ? digits + 2 : 0;
}

gboolean
cro_list_begins_reply (const char *line)
{
  g_autofree char *folded = cro_fold (line);

  return g_str_has_suffix (folded, " wrote") || g_str_has_suffix (folded, " a ecrit")
         || strstr (folded, "original message") != NULL || strstr (folded, "message d origine") != NULL;
}

gboolean
cro_list_is_reply (char **lines)
{
  gboolean has_own = FALSE, has_quoted = FALSE;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      const char *at = lines[i] + strspn (lines[i], " \t\r");

      has_quoted |= *at == '>';
      has_own |= *at != '>' && *at != '\0';
    }
  return has_own && has_quoted;
}
