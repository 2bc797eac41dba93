/* What stands before a line of a message and is none of it: bullets, numbers, days of a conversation, quotations. */
#include "cro-price-list-line.h"

#include "cro-fold.h"
#include "cro-price-note.h"
#include "cro-price-saying.h"
#include "cro-word-list.h"

#include <stdlib.h>
#include <string.h>

/* "[24/11, 06:12] Upriver: ", "24/11/2026, 06:12 - Upriver: ", "06:12 ", as what was copied out of a conversation has
 * it: bytes; 0: it is not there. */
static gsize
scan_stamp (const char *line)
{
  static GRegex *stamp;
  g_autoptr (GMatchInfo) match = NULL;
  int end = 0;

  if (g_once_init_enter (&stamp))
    g_once_init_leave (&stamp, g_regex_new ("^(?:\\[[0-9/.,: APMapm-]*:[0-9/.,: APMapm-]*\\] *(?:[^:0-9]*: *)?"
                                            "|[0-9]{1,4}[/.-][0-9]{1,2}[/.-][0-9]{2,4},? +[0-9]{1,2}:[0-9]{2}"
                                            "(?::[0-9]{2})?(?: ?[APap]\\.?[Mm]\\.?)? +[-–] +[^:0-9]*: *"
                                            "|(?:[01]?[0-9]|2[0-3]):[0-5][0-9] +(?=\\pL))",
                                            G_REGEX_DEFAULT, G_REGEX_MATCH_DEFAULT, NULL));
  if (g_regex_match (stamp, line, G_REGEX_MATCH_DEFAULT, &match))
    g_match_info_fetch_pos (match, 0, NULL, &end);
  return (gsize) end;
}

/* Plants, animals and food (Unicode blocks, from memory), which are of the goods: "🐟 Hake". */
static gboolean
is_picture (gunichar c)
{
  return (c >= 0x1f32d && c <= 0x1f37f) || (c >= 0x1f400 && c <= 0x1f43f) || (c >= 0x1f950 && c <= 0x1f96f)
         || (c >= 0x1f980 && c <= 0x1f9ae) || (c >= 0x1f9c0 && c <= 0x1f9cb) || (c >= 0x1fad0 && c <= 0x1fadb);
}

const char *
cro_list_skip_stamp (const char *line)
{
  line += strspn (line, " \t");
  return line + scan_stamp (line);
}

const char *
cro_list_find_mark (const char *text)
{
  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      gunichar c = g_utf8_get_char (text);

      if ((g_unichar_type (c) == G_UNICODE_OTHER_SYMBOL && c != 0xb0 && !is_picture (c)) || c == '~' || c == 0x335
          || c == 0x336 || c == 0x2030 || c == 0xff05)
        return text;
    }
  return NULL;
}

/* "PS ", "(edited) ", "NB: ", "*" before what is said once more: bytes; 0: it is not there. */
static gsize
scan_lead_in (const char *line)
{
  static GRegex *lead;
  g_autoptr (GMatchInfo) match = NULL;
  int end = 0;

  if (strchr ("(*PpNnEeMm", *line) == NULL || *line == '\0')
    return 0;
  if (g_once_init_enter (&lead))
    g_once_init_leave (&lead, g_regex_new ("^(?:\\(?(?:P\\.? ?S\\.?|N\\.? ?-?B\\.?|edit(?:ed)?|modifi[ée])\\)?"
                                           "[:,.]? *[-–:]? +(?=\\S)|\\*(?=[\\pL\\pN]))",
                                           G_REGEX_CASELESS, G_REGEX_MATCH_DEFAULT, NULL));
  if (g_regex_match (lead, line, G_REGEX_MATCH_DEFAULT, &match))
    g_match_info_fetch_pos (match, 0, NULL, &end);
  return (gsize) end;
}

const char *
cro_list_skip_bullet (const char *line)
{
  static const char *const bullets[] = { "- ", "* ", "• ", "· ", "> " };
  /* Ticks, arrows and what else heads a line, with the sign behind it that only colours it. */
  static const char signs[] = "✓✔✅☑→➔➜➤➡▶►▪■●○◦‣⁃", colour[] = "\uFE0F";

  line = cro_list_skip_stamp (line);
  while (*line != '\0' && g_utf8_strchr (signs, -1, g_utf8_get_char (line)) != NULL)
    {
      line = g_utf8_next_char (line);
      line += g_str_has_prefix (line, colour) ? strlen (colour) : 0;
      line += strspn (line, " ");
    }
  for (guint i = 0; i < G_N_ELEMENTS (bullets); i++)
    if (g_str_has_prefix (line, bullets[i]))
      return line + strlen (bullets[i]) + scan_lead_in (line + strlen (bullets[i]));
  return line + scan_lead_in (line);
}

/* --- Lists that count their lines --------------------------------------------------------------------------- */

typedef enum
{
  OF_SIGN,    /* "1. Leek", "1.Leek", "(1) Leek", "1: Leek", "#1 Leek" and "1 - Leek" */
  OF_BLANK,   /* "1 Leek" */
  N_ORDINALS,
} Ordinal;

/* A number that may count a line: its bytes with what parts it; 0: none begins text, or nothing with a number
 * follows. */
static gsize
scan_ordinal (const CroListBook *of,
              const char        *text,
              Ordinal            kind,
              guint             *number)
{
  gsize sign = kind == OF_SIGN && (*text == '(' || *text == '#'), digits = strspn (text + sign, "0123456789"),
        n = sign + digits;
  g_autofree char *code = g_strndup (text + sign, digits);
  CroUnit ignored;

  if (digits == 0 || digits > 3 || g_hash_table_contains (of->codes, code) || (*text == '(' && text[n] != ')'))
    return 0;
  *number = (guint) strtoul (text + sign, NULL, 10);
  if (kind == OF_SIGN && strchr (*text == '#' ? " " : ".):", text[n]) != NULL && text[n] != '\0')
    n++;
  else if (kind == OF_SIGN && g_str_has_prefix (text + n, " - "))
    n += strlen (" -");
  else if (kind == OF_SIGN || text[n] != ' ' || cro_list_scan_unit (text + n, &ignored) > 0)
    return 0;
  n += strspn (text + n, " ");
  return g_unichar_isalpha (g_utf8_get_char (text + n)) && strpbrk (text + n, "0123456789") != NULL ? n : 0;
}

/* Whether lines that begin so count up: by signs in any steps, as one may be left out, and from 1 again; by blanks each
 * from 1, as "2 Lemons" may be how many. */
static gboolean
counts_up (const CroListBook *of,
           char             **lines,
           Ordinal            kind)
{
  guint last = 0, n = 0, number;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      const char *at = cro_list_skip_bullet (lines[i]);

      if (scan_ordinal (of, at, kind, &number) == 0)
        {
          if (kind == OF_BLANK && n > 0 && strpbrk (at, "0123456789") != NULL)
            return FALSE;
          continue;
        }
      if ((number <= last && (kind == OF_BLANK || number > 1)) || (kind == OF_BLANK && number != last + 1))
        return FALSE;
      last = number;
      n++;
    }
  return n >= (kind == OF_BLANK ? 3 : last == 1 ? 1 : 2);
}

void
cro_list_strip_ordinals (const CroListBook *of,
                         char             **lines)
{
  for (Ordinal kind = OF_SIGN; kind < N_ORDINALS; kind++)
    for (guint i = counts_up (of, lines, kind) ? 0 : G_MAXUINT; i != G_MAXUINT && lines[i] != NULL; i++)
      {
        const char *at = cro_list_skip_bullet (lines[i]);
        guint number;
        gsize n = scan_ordinal (of, at, kind, &number);

        if (n > 0)
          memmove ((char *) at, at + n, strlen (at + n) + 1);
      }
}

/* --- Replies ------------------------------------------------------------------------------------------------ */

#define HEAD_WORDS "sent|to|date|subject|cc|envoye|a|objet|gesendet|an|betreff"

/* "Sent:", "Objet :" of the head of a mail. */
static gboolean
is_of_head (const char *line,
            const char *words)
{
  const char *at = line + strspn (line, " *");
  gsize n = cro_word_list_scan (at, words);

  return n > 0 && at[n + strspn (at + n, " *\u00a0")] == ':';
}

/* "Pia, [24 Mar 2025 06:12]", "Pia (24/03/2025)", "sent from Pia on 24.03.2025" */
static gboolean
is_stamp_alone (const char *line)
{
  static GRegex *stamp;

  if (strpbrk (line, "0123456789") == NULL)
    return FALSE;
  if (g_once_init_enter (&stamp))
    g_once_init_leave (&stamp, g_regex_new ("^[\\pL .'-]{0,40},?:? *[\\[(]?(?:\\pL{2,9}\\.?,? )?"
                                            "[0-9]{1,4}(?:[./-][0-9]{1,2}[./-]|\\.? \\pL{3,10}\\.?,? )[0-9]{1,10}"
                                            "(?:,? (?:at |à )?[0-9]{1,2}[:h][0-9]{2}(?::[0-9]{2})?)?[\\])]?:?\\s*$",
                                            G_REGEX_DEFAULT, G_REGEX_MATCH_DEFAULT, NULL));
  return g_regex_match (stamp, line, G_REGEX_MATCH_DEFAULT, NULL)
         && !cro_price_saying_of (line, NULL).speaks_of_prices;
}

/* "24/03/2026" of a line of a conversation, "Tue 24 March 2026 06:12" of a head; NULL: it has none. Owned. */
static char *
dup_stamp (const char *line,
           CroDate     from)
{
  static GRegex *day;
  g_autofree char *stamp = NULL;
  g_autoptr (GMatchInfo) match = NULL;

  line += strspn (line, " \t");
  if (is_of_head (line, "sent|date|envoye|gesendet|datum"))
    return g_strstrip (g_strdup (strchr (line, ':') + 1));
  if (g_once_init_enter (&day))
    g_once_init_leave (&day, g_regex_new ("(?<![0-9])[0-9]{1,4}[/.-][0-9]{1,2}(?:[/.-][0-9]{2,4})?(?![0-9])",
                                          G_REGEX_DEFAULT, G_REGEX_MATCH_DEFAULT, NULL));
  stamp = g_strndup (line, scan_stamp (line));
  if (*stamp == '\0' && is_stamp_alone (line)
      && (strpbrk (line, "[(") != NULL || cro_price_stamp_is_of_other_day (line, from)))
    return g_strdup (line);
  return g_regex_match (day, stamp, G_REGEX_MATCH_DEFAULT, &match) ? g_match_info_fetch (match, 0) : NULL;
}

void
cro_list_line_take_stamp (CroListLine *self,
                          const char  *line)
{
  g_autofree char *sent = dup_stamp (line, self->list->from);

  if (sent == NULL)
    return;
  self->sent = cro_price_stamp_is_of_other_day (sent, self->list->from) ? cro_price_list_keep (self->list, sent) : NULL;
}

/* "-----Original-----" */
static gboolean
is_rule_of_original (const char *line,
                     const char *folded)
{
  return g_str_has_prefix (line + strspn (line, " "), "--")
         && (cro_list_find_words (folded, "original") != NULL || cro_list_find_words (folded, "origine") != NULL);
}

/* "24 Nov 2026, The quay:", "The quay, le 24/11/2026 :" */
static gboolean
names_day_of_other (const char *line)
{
  static GRegex *head;
  g_autofree char *folded = NULL;

  if (strchr (line, ':') == NULL || strpbrk (line, "0123456789") == NULL)
    return FALSE;
  if (g_once_init_enter (&head))
    g_once_init_leave (&head, g_regex_new ("(?<![0-9])[0-9]{1,2}(?:[./-][0-9]{1,2}[./-]"
                                           "|(?:st|nd|rd|th|er)?\\.? \\pL{3,10}\\.?,? )[0-9]{2,4}(?![0-9]).*:\\s*$",
                                           G_REGEX_DEFAULT, G_REGEX_MATCH_DEFAULT, NULL));
  folded = cro_fold (line);
  return g_regex_match (head, line, G_REGEX_MATCH_DEFAULT, NULL)
         && !cro_price_saying_of (folded, NULL).speaks_of_prices;
}

gboolean
cro_list_begins_reply (char **lines,
                       guint  i)
{
  g_autofree char *folded = cro_fold (lines[i]);
  gboolean is_behind = FALSE;

  if (g_str_has_suffix (folded, " wrote") || strcmp (folded, "wrote") == 0 || g_str_has_suffix (folded, "a ecrit")
      || strstr (folded, "original message") != NULL || strstr (folded, "message d origine") != NULL
      || cro_list_find_words (folded, "schrieb") != NULL || is_rule_of_original (lines[i], folded)
      || strcmp (folded, "previous message") == 0 || strcmp (folded, "message precedent") == 0)
    return TRUE;
  /* A mail that begins with its head is no reply. */
  for (guint k = 0; k < i && !is_behind; k++)
    is_behind = lines[k][strspn (lines[k], " \t\r")] != '\0' && !is_of_head (lines[k], "from|de|von|" HEAD_WORDS);
  if (!is_behind)
    return FALSE;
  if (names_day_of_other (lines[i]))
    return TRUE;
  if (strstr (folded, "forwarded message") != NULL || strstr (folded, "message transfere") != NULL)
    return TRUE;
  for (guint k = i + 1; is_of_head (lines[i], "from|de|von") && lines[k] != NULL && k <= i + 4; k++)
    if (is_of_head (lines[k], HEAD_WORDS))
      return TRUE;
  return FALSE;
}

gboolean
cro_list_is_quoted (const char *line)
{
  line += strspn (line, " \t\r");
  /* A row of a table has more than one stroke. */
  return *line == '>' || (*line == '|' && strchr (line + 1, '|') == NULL);
}

gboolean
cro_list_is_reply (char **lines)
{
  gboolean has_own = FALSE, has_quoted = FALSE;

  for (guint i = 0; lines[i] != NULL; i++)
    {
      has_quoted |= cro_list_is_quoted (lines[i]);
      has_own |= !cro_list_is_quoted (lines[i]) && lines[i][strspn (lines[i], " \t\r")] != '\0';
    }
  return has_own && has_quoted;
}
