#include "cro-written.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-expression.h"

gsize
cro_written_scan_any (const char        *text,
                      const char *const *words)
{
  for (; *words != NULL; words++)
    {
      gsize bytes = cro_expression_starts (text, *words);
      gboolean is_letter = bytes > 0 && g_unichar_isalnum (g_utf8_get_char (g_utf8_prev_char (text + bytes)));

      if (bytes > 0 && (!is_letter || !g_unichar_isalnum (g_utf8_get_char (text + bytes))))
        return bytes;
    }
  return 0;
}

gboolean
cro_written_has_any (const char        *text,
                     const char *const *words)
{
  gunichar before = ' ';

  for (; *text != '\0'; text = g_utf8_next_char (text))
    {
      if (!g_unichar_isalnum (before) && cro_written_scan_any (text, words) > 0)
        return TRUE;
      before = g_utf8_get_char (text);
    }
  return FALSE;
}

gsize
cro_written_scan_clause (const char *text)
{
  gsize bytes = 0;

  while (text[bytes] != '\0'
         && (strchr (",;()", text[bytes]) == NULL
             || (text[bytes] == ',' && bytes > 0 && g_ascii_isdigit (text[bytes - 1])
                 && g_ascii_isdigit (text[bytes + 1]))))
    bytes++;
  return bytes;
}

/* --- Leaders ------------------------------------------------------------------------------------ */

/* How many of a sign in a row are a leader and no part of a text; 0: the sign is none. */
static guint
least_of_leader (gunichar sign)
{
  switch (sign)
    {
    case 0x2026: /* … */
    case '|':
      return 1;
    case '.':
    case 0xb7: /* · */
      return 2;
    case '_':
    case '-':
    case '=':
    case 0x2013:
    case 0x2014:
      return 3;
    default:
      return 0;
    }
}

/* ". . . ." */
static gboolean
stands_apart (const char *text,
              const char *at)
{
  return at > text && g_ascii_isspace (at[-1])
         && g_unichar_isspace (g_utf8_get_char (g_utf8_next_char (at)));
}

static gboolean
is_digit_before (const char *text,
                 const char *at)
{
  return at > text && g_ascii_isdigit (at[-1]);
}

/* The end of the row of one sign that begins at a place; at itself where it is no leader. */
static const char *
end_of_leader (const char *text,
               const char *at)
{
  gunichar sign = g_utf8_get_char (at);
  guint least = least_of_leader (sign), n = 0;
  const char *end = at;

  for (; *end != '\0' && g_utf8_get_char (end) == sign; n++)
    end = g_utf8_next_char (end);
  if (least == 2 && stands_apart (text, at))
    return end;
  if (least == 0 || n < least || (is_digit_before (text, at) && g_ascii_isdigit (*end)))
    return at;
  return end;
}

/* "butter:250 g": what leads to a number, but not within one or a time of day. */
static gboolean
is_colon (const char *text,
          const char *at)
{
  return *at == ':' && at > text && !is_digit_before (text, at)
         && g_ascii_isdigit (at[1 + cro_expression_space (at + 1)]);
}

char *
cro_written_dup_plain (const char *text)
{
  char *plain = g_strdup (text);

  for (const char *at = text; *at != '\0';)
    {
      const char *end = is_colon (text, at) ? at + 1 : end_of_leader (text, at);

      if (end > at)
        memset (plain + (at - text), CRO_WRITTEN_GAP, (gsize) (end - at));
      at = end > at ? end : g_utf8_next_char (at);
    }
  return plain;
}

gsize
cro_written_scan_dash (const char *text)
{
  static const char *const dashes[] = { "-", "–", "—", "−", "=", "→", NULL };

  for (const char *const *dash = dashes; *dash != NULL; dash++)
    if (g_str_has_prefix (text, *dash))
      return strlen (*dash);
  return 0;
}

/* --- Lists ---------------------------------------------------------------------------------------- */

/* A sign stands before a space, before the end, or close to the number that it begins. */
static gsize
scan_bullet (const char *text)
{
  static const char *const bullets[] = { "[ ]", "[x]", "[X]", "[]", "☐", "☑", "☒", "□", "■", "▢",
                                         "▪",   "▫",   "-",   "–",  "—", "•", "*", "·", "‣", "◦",
                                         "●",   "○",   "►",   "▶",  "→", "»", ">", "∙", "✓", "✔", NULL };

  for (const char *const *bullet = bullets; *bullet != NULL; bullet++)
    if (g_str_has_prefix (text, *bullet))
      {
        const char *behind = text + strlen (*bullet);
        gsize space = cro_expression_space (behind);

        return space > 0 || *behind == '\0' || g_ascii_isdigit (*behind) ? strlen (*bullet) + space : 0;
      }
  return 0;
}

/* "1. ", "(2) ", "a) " with more behind it. */
static gsize
scan_number (const char *text)
{
  gsize open = *text == '(', digits = strspn (text + open, "0123456789");
  gsize letters = digits == 0 && g_ascii_isalpha (text[open]) ? 1 : 0;
  gsize at = open + digits + letters;
  gsize space;

  if (digits > 2 || digits + letters == 0
      || !(text[at] == ')' || (text[at] == '.' && digits > 0 && open == 0)))
    return 0;
  space = cro_expression_space (text + at + 1);
  return space > 0 && text[at + 1 + space] != '\0' ? at + 1 + space : 0;
}

gsize
cro_written_scan_lead (const char *text)
{
  gsize lead = 0, bytes;

  while ((bytes = scan_bullet (text + lead)) > 0)
    lead += bytes;
  lead += scan_number (text + lead);
  while ((bytes = scan_bullet (text + lead)) > 0)
    lead += bytes;
  return lead;
}

/* --- Numbers -------------------------------------------------------------------------------------- */

/* One number as it is written, without anything to reckon with but a fraction: its bytes. */
static gsize
scan_plain_number (const char *text)
{
  gsize bytes = strspn (text, "0123456789"), space;

  /* strchr () finds the end of a text in every string. */
  if (bytes > 0 && text[bytes] != '\0' && strchr (".,/", text[bytes]) != NULL && g_ascii_isdigit (text[bytes + 1]))
    bytes += 1 + strspn (text + bytes + 1, "0123456789");
  space = bytes > 0 ? cro_expression_space (text + bytes) : 0;
  /* The characters of halves, thirds and so on. */
  if (g_unichar_type (g_utf8_get_char (text + bytes + space)) == G_UNICODE_OTHER_NUMBER)
    bytes += space + (gsize) (g_utf8_next_char (text + bytes + space) - (text + bytes + space));
  return bytes;
}

static gsize
scan_from_to (const char *text)
{
  static const char *const between[] = { "to", "or", "à", "a", "ou", "-", "–", "—", NULL };
  gsize space = cro_expression_space (text), bytes = cro_written_scan_any (text + space, between);

  if (bytes == 0 || (space == 0 && cro_written_scan_dash (text) == 0))
    return 0;
  return space + bytes + cro_expression_space (text + space + bytes);
}

gsize
cro_written_scan_range (const char          *text,
                        const CroEntryWords *words)
{
  gsize at = scan_plain_number (text), space, bytes;
  CroUnit unit;

  if (at == 0)
    return 0;
  space = cro_expression_space (text + at);
  bytes = cro_entry_scan_unit (text + at + space, words, &unit);
  /* The "a" of "2 a 3" and the unit of "1 kg - 2 kg" are told apart by what follows. */
  if (bytes > 0 && scan_from_to (text + at + space + bytes) > 0)
    at += space + bytes;
  bytes = scan_from_to (text + at);
  if (bytes == 0)
    return 0;
  space = scan_plain_number (text + at + bytes);
  return space > 0 ? at + bytes + space : 0;
}

gsize
cro_written_scan_count (const char *text,
                        gint64     *micro)
{
  static const struct { const char *word; gint64 micro; } counts[] = {
    { "half an", CRO_MICRO / 2 }, { "half a", CRO_MICRO / 2 }, { "a half", CRO_MICRO / 2 },
    { "one half", CRO_MICRO / 2 }, { "un demi", CRO_MICRO / 2 },
    { "une demi-", CRO_MICRO / 2 }, { "une demie", CRO_MICRO / 2 }, { "une demi", CRO_MICRO / 2 },
    { "an", CRO_MICRO }, { "a", CRO_MICRO }, { "one", CRO_MICRO }, { "une", CRO_MICRO },
    { "un", CRO_MICRO }, { "two", 2 * CRO_MICRO }, { "deux", 2 * CRO_MICRO },
    { "three", 3 * CRO_MICRO }, { "trois", 3 * CRO_MICRO }, { "four", 4 * CRO_MICRO },
    { "quatre", 4 * CRO_MICRO }, { "five", 5 * CRO_MICRO }, { "cinq", 5 * CRO_MICRO },
    { "six", 6 * CRO_MICRO }, { "seven", 7 * CRO_MICRO }, { "sept", 7 * CRO_MICRO },
    { "eight", 8 * CRO_MICRO }, { "huit", 8 * CRO_MICRO }, { "nine", 9 * CRO_MICRO },
    { "neuf", 9 * CRO_MICRO }, { "ten", 10 * CRO_MICRO }, { "dix", 10 * CRO_MICRO },
    { "twelve", 12 * CRO_MICRO }, { "douze", 12 * CRO_MICRO },
  };
  /* So little that "a" is no count of it. */
  static const char *const littles[] = { "few", "little", "bit", "touch", "splash", "drizzle", "squeeze",
                                         "peu", "filet", "noisette", "nuage", "soupçon", NULL };

  for (gsize i = 0; i < G_N_ELEMENTS (counts); i++)
    {
      const char *const words[] = { counts[i].word, NULL };
      gsize bytes = cro_written_scan_any (text, words);
      gsize space = bytes > 0 ? cro_expression_space (text + bytes) : 0;

      if (bytes == 0 || (space == 0 && text[bytes - 1] != '-') || text[bytes + space] == '\0')
        continue;
      if (cro_written_scan_any (text + bytes + space, littles) > 0)
        return 0;
      *micro = counts[i].micro;
      return bytes + space;
    }
  return 0;
}

gsize
cro_written_scan_about (const char *text)
{
  static const char *const words[] = { "approximately", "approx.", "approx", "about", "around", "roughly",
                                       "environ", "env.", "env", "ca.", "ca", "circa", "~", "≈", NULL };
  gsize bytes = cro_written_scan_any (text, words), space = cro_expression_space (text + bytes);

  return bytes > 0 && scan_plain_number (text + bytes + space) > 0 ? bytes + space : 0;
}

gsize
cro_written_scan_part (const char *text)
{
  static const char *const parts[] = { "the juice", "juice", "the zest", "zest", "rind", "peel", "le jus",
                                       "jus", "le zeste", "les zestes", "zestes", "zeste", "écorce", "ecorce", NULL };

  return cro_written_scan_any (text, parts);
}

gsize
cro_written_find_to_price (const char *text)
{
  static const char *const words[] = { "at", "à", "@", "for", "pour", "=", "-", "–", "—", "−", "→", NULL };
  const char *word = text;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    if (g_unichar_isspace (g_utf8_get_char (at)))
      word = g_utf8_next_char (at);
  for (gsize i = 0; word > text && words[i] != NULL; i++)
    if (cro_expression_starts (word, words[i]) == strlen (word))
      return strlen (word);
  return 0;
}
