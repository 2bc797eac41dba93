/* The amount of a quick line: before its name, and behind it. */
#include "cro-quick-private.h"

#include <string.h>

#include "cro-expression.h"
#include "cro-name.h"
#include "cro-unit-words.h"
#include "cro-written.h"

/* --- Amounts -------------------------------------------------------------------------------------- */

static gboolean
set_amount (CroQuick *quick,
            CroEntry *entry,
            gsize     start,
            gsize     end)
{
  if (entry->micro <= 0)
    {
      quick->status = CRO_ENTRY_OUT_OF_RANGE;
      return cro_quick_fail (quick, CRO_QUICK_AMOUNT, start, end);
    }
  quick->has_amount = TRUE;
  quick->amount = entry->micro;
  if (quick->understood == NULL)
    quick->understood = g_steal_pointer (&entry->understood);
  return TRUE;
}

/* "of", "d'", with the space behind it. */
static gsize
scan_join (const char          *text,
           const CroEntryWords *words)
{
  gsize space = cro_expression_space (text);

  for (gsize i = 0; words != NULL && words->joins != NULL && words->joins[i] != NULL; i++)
    {
      const char *join = words->joins[i];
      gsize bytes = cro_expression_starts (text + space, join);
      gsize behind = bytes > 0 ? cro_expression_space (text + space + bytes) : 0;

      if (bytes > 0 && (behind > 0 || !g_ascii_isalpha (join[strlen (join) - 1])))
        return space + bytes + behind;
    }
  return space;
}

/* The sign of "2 x eggs". */
static gsize
scan_times (const char *text)
{
  gsize space = cro_expression_space (text);
  gsize bytes = text[space] == 'x' || text[space] == '*' ? 1
                : g_str_has_prefix (text + space, "×")   ? strlen ("×")
                                                         : 0;

  return bytes > 0 && cro_expression_space (text + space + bytes) > 0 ? space + bytes : 0;
}

/* Whether what stands at a place asks back: "cup" is one of several units, "bunch" is none. A
 * name of the book that begins so goes first. */
static gboolean
asks_for_unit (CroQuickRest *rest,
               CroQuick     *quick,
               gsize         at)
{
  CroUnitMeaning meaning;
  gsize bytes = cro_unit_words_scan (rest->text + at, rest->words, &meaning);
  g_autofree char *name = cro_quick_rest_dup (rest, MIN (at, rest->end));

  if (meaning.kind < CRO_UNIT_WORD_WHICH || at + bytes > rest->end
      || cro_quick_find_item (rest->model, name) != CRO_NO_SLOT)
    return FALSE;
  memcpy (quick->choices, meaning.units, sizeof quick->choices);
  cro_quick_fail (quick, meaning.kind == CRO_UNIT_WORD_WHICH ? CRO_QUICK_WHICH_UNIT : CRO_QUICK_NO_SIZE, at,
                  at + bytes);
  return TRUE;
}

/* Whether the number and what stands between its parts leaves no doubt that parts may follow:
 * "2 x 1 lb 4 oz" could be twice of both. */
static gboolean
is_one_number (const char *text,
               gsize       bytes)
{
  for (gsize i = 0; i < bytes; i++)
    if (scan_times (text + i) > 0 || strchr ("*+", text[i]) != NULL)
      return FALSE;
  return TRUE;
}

/* The parts that follow an amount, where what stands there is no name of the book ("4 oz steak"). */
static gsize
take_parts (CroQuickRest *rest,
            CroQuick     *quick,
            gsize         at,
            gboolean      is_one)
{
  g_autofree char *text = cro_quick_rest_dup (rest, at);
  g_autofree char *name = cro_name_dup_tidy (text);

  if (!is_one || cro_quick_find_item (rest->model, name) != CRO_NO_SLOT)
    return 0;
  return cro_entry_scan_parts (text, quick->unit, rest->words, &quick->amount);
}

/* What stands behind an amount is not one more, but for a name of the book. */
static gboolean
check_second_amount (CroQuickRest *rest,
                     CroQuick     *quick)
{
  g_autofree char *text = cro_quick_rest_dup (rest, rest->start);
  g_autofree char *name = cro_name_dup_tidy (text);
  g_auto (CroEntry) entry = { 0 };
  gsize bytes = g_ascii_isdigit (*text) ? cro_entry_scan_number (text, &entry) : 0;
  gsize space = cro_expression_space (text + bytes);
  CroUnit unit;
  gsize of_unit = bytes > 0 ? cro_entry_scan_unit (text + bytes + space, rest->words, &unit) : 0;

  if (of_unit == 0 || cro_quick_find_item (rest->model, name) != CRO_NO_SLOT)
    return TRUE;
  return cro_quick_fail (quick, CRO_QUICK_TWO_AMOUNTS, rest->start, rest->start + bytes + space + of_unit);
}

/* About as much as before, as cooks round ounces; of another kind of unit, as of pieces, nobody knows. */
static gboolean
is_same_amount (const char          *text,
                const CroEntryWords *words,
                const CroQuick      *quick)
{
  g_auto (CroEntry) entry = { 0 };
  gsize bytes = cro_entry_scan_number (text, &entry), unit_bytes;
  CroUnit unit;
  double ratio;

  bytes += cro_expression_space (text + bytes);
  unit_bytes = cro_entry_scan_unit (text + bytes, words, &unit);
  if (entry.status != CRO_ENTRY_OK || unit_bytes == 0)
    return FALSE;
  bytes += unit_bytes;
  bytes += cro_entry_scan_parts (text + bytes, unit, words, &entry.micro);
  if (text[bytes] != '\0')
    return FALSE;
  if (cro_unit_get (unit)->base != cro_unit_get (quick->unit)->base)
    return TRUE;
  ratio = (double) entry.micro * cro_unit_factor (unit) / ((double) quick->amount * cro_unit_factor (quick->unit));
  return ratio > 0.85 && ratio < 1.15;
}

/* "250 g (9 oz) butter": the same once more, as it was written. */
static gboolean
take_other_amount (CroQuickRest *rest,
                   CroQuick     *quick)
{
  const char *at = rest->text + rest->start;
  const char *end = *at == '(' && g_ascii_isdigit (at[1]) ? strchr (at, ')') : NULL;
  g_autofree char *inner = NULL;

  if (end == NULL || (gsize) (end - rest->text) >= rest->end)
    return TRUE;
  inner = g_strndup (at + 1, (gsize) (end - at - 1));
  if (!is_same_amount (inner, rest->words, quick)
      && !cro_quick_check_remark (quick, cro_remark_read (inner, end + 1, cro_quick_is_of_pieces (quick)),
                                  rest->start + 1, (gsize) (end - rest->text)))
    return FALSE;
  cro_quick_add_note (quick, inner);
  rest->start = (gsize) (end + 1 - rest->text);
  rest->start += scan_join (rest->text + rest->start, rest->words);
  return TRUE;
}

/* "two eggs": only where no number stands in the line, and no name of the book begins so. */
static gsize
take_count (CroQuickRest *rest,
            CroQuick     *quick,
            CroEntry     *entry)
{
  g_autofree char *text = cro_quick_rest_dup (rest, rest->start);

  return strpbrk (text, "0123456789") == NULL && cro_quick_find_item (rest->model, text) == CRO_NO_SLOT
             ? cro_written_scan_count (text, &entry->micro)
             : 0;
}

/* "juice of 2 lemons" is of two lemons. */
static void
take_part (CroQuickRest *rest,
           CroQuick     *quick)
{
  const char *at = rest->text + rest->start;
  gsize bytes = cro_written_scan_part (at), join = scan_join (at + bytes, rest->words);
  g_autofree char *part = g_strndup (at, bytes);
  g_autofree char *text = cro_quick_rest_dup (rest, MIN (rest->start + bytes + join, rest->end));
  g_auto (CroEntry) number = { 0 };
  gint64 micro;

  if (bytes == 0 || join == cro_expression_space (at + bytes)
      || (cro_entry_scan_number (text, &number) == 0 && cro_written_scan_count (text, &micro) == 0))
    return;
  cro_quick_add_note (quick, part);
  rest->start += bytes + join;
}

static void
take_about (CroQuickRest *rest,
            CroQuick     *quick)
{
  gsize bytes = cro_written_scan_about (rest->text + rest->start);
  g_autofree char *about = g_strndup (rest->text + rest->start, bytes);

  if (rest->start + bytes > rest->end)
    return;
  cro_quick_add_note (quick, about);
  rest->start += bytes;
}

gboolean
cro_quick_take_leading_amount (CroQuickRest *rest,
                               CroQuick     *quick)
{
  g_autofree char *text = NULL;
  g_auto (CroEntry) entry = { 0 };
  gsize bytes, space, of_unit, range;
  gboolean is_one;

  take_part (rest, quick);
  take_about (rest, quick);
  text = cro_quick_rest_dup (rest, rest->start);
  range = cro_written_scan_range (text, rest->words);
  if (range > 0 && cro_quick_find_item (rest->model, text) == CRO_NO_SLOT)
    return cro_quick_fail (quick, CRO_QUICK_RANGE, rest->start, rest->start + range);
  bytes = cro_entry_scan_number (text, &entry);
  if (bytes == 0 && entry.status == CRO_ENTRY_NOT_A_NUMBER)
    bytes = take_count (rest, quick, &entry);
  /* No number, or a name that begins with one ("00 flour", "7up"). */
  if (bytes == 0 && (entry.status == CRO_ENTRY_NOT_A_NUMBER || entry.status == CRO_ENTRY_EMPTY))
    return TRUE;
  if (g_ascii_isdigit (*text) && cro_quick_find_item (rest->model, text) != CRO_NO_SLOT)
    return TRUE;
  if (bytes == 0)
    {
      quick->status = entry.status;
      return cro_quick_fail (quick, CRO_QUICK_AMOUNT, rest->start + entry.start, rest->start + entry.end);
    }
  space = cro_expression_space (text + bytes);
  of_unit = cro_entry_scan_unit (text + bytes + space, rest->words, &quick->unit);
  quick->has_unit = of_unit > 0;
  if (of_unit == 0 && asks_for_unit (rest, quick, rest->start + bytes + space))
    return FALSE;
  if (of_unit == 0 && space == 0 && g_ascii_isdigit (text[bytes - 1]) && scan_times (text + bytes) == 0
      && text[bytes] != '\0')
    return TRUE;
  if (!set_amount (quick, &entry, rest->start, rest->start + bytes))
    return FALSE;
  is_one = is_one_number (text, bytes);
  bytes += of_unit > 0 ? space + of_unit : scan_times (text + bytes);
  if (of_unit > 0)
    bytes += take_parts (rest, quick, rest->start + bytes, is_one);
  rest->start += bytes + scan_join (text + bytes, rest->words);
  if (!take_other_amount (rest, quick))
    return FALSE;
  return of_unit == 0 || check_second_amount (rest, quick);
}

/* --- Amounts behind a name --------------------------------------------------------------------- */

/* Whether what stands before a place led to it: the next cell, dots, a row of blanks. */
static gboolean
is_behind_gap (const CroQuickRest *rest,
               gsize               at)
{
  gsize n = 0;

  for (; at - n > rest->start && g_ascii_isspace (rest->text[at - n - 1]); n++)
    if (rest->text[at - n - 1] == CRO_WRITTEN_GAP)
      return TRUE;
  return n > 1;
}

/* The dash that led to an amount is no part of the name before it. */
static void
cut_at (CroQuickRest *rest,
        gsize         at)
{
  rest->end = at;
  cro_quick_rest_trim (rest);
  for (const char *last; rest->end > rest->start; cro_quick_rest_trim (rest))
    {
      last = g_utf8_prev_char (rest->text + rest->end);
      if (*last != '('
          && (cro_written_scan_dash (last) == 0
              || !g_unichar_isspace (g_utf8_get_char (g_utf8_prev_char (last)))))
        return;
      rest->end = (gsize) (last - rest->text);
    }
}

/* An amount with its unit from the begin of a text to its end; its status says where it is none. */
static gboolean
read_amount (const CroQuickRest *rest,
             const char         *text,
             CroEntry           *entry,
             CroUnit            *unit)
{
  gsize bytes = cro_entry_scan_number (text, entry);
  gsize space = cro_expression_space (text + bytes);
  gsize of_unit = bytes > 0 ? cro_entry_scan_unit (text + bytes + space, rest->words, unit) : 0;

  if (of_unit == 0)
    return FALSE;
  bytes += space + of_unit;
  bytes += cro_entry_scan_parts (text + bytes, *unit, rest->words, &entry->micro);
  return text[bytes] == '\0';
}

/* "eggs \t 4", "eggs x 4": a count, which has no unit. */
static gboolean
read_count (const CroQuickRest *rest,
            gsize               at,
            CroEntry           *entry)
{
  g_autofree char *text = cro_quick_rest_dup (rest, at);
  gsize times = scan_times (text);
  const char *count = text + times + cro_expression_space (text + times);

  return (times > 0 || is_behind_gap (rest, at)) && *count != '\0'
         && cro_entry_scan_number (count, entry) == strlen (count);
}

/* "butter (250 g)": an amount in brackets at the end. Owned. */
static char *
dup_bracket (const CroQuickRest *rest,
             gsize               at)
{
  if (rest->text[at] != '(' || rest->text[rest->end - 1] != ')' || rest->end - at < 3)
    return NULL;
  return g_strndup (rest->text + at + 1, rest->end - at - 2);
}

/* Whether an amount stands from a place to the end; otherwise the fault says what is no amount. */
static gboolean
is_amount_at (CroQuickRest *rest,
              CroQuick     *quick,
              gsize         at,
              CroEntry     *entry)
{
  gsize dash = cro_written_scan_dash (rest->text + at);
  gsize from = MIN (at + dash + cro_expression_space (rest->text + at + dash), rest->end);
  g_autofree char *inner = dup_bracket (rest, at), *text = inner == NULL ? cro_quick_rest_dup (rest, from) : NULL;
  gsize range = text != NULL ? cro_written_scan_range (text, rest->words) : 0, bytes;

  if (range > 0)
    return cro_quick_fail (quick, CRO_QUICK_RANGE, from, from + range);
  if (read_amount (rest, inner != NULL ? inner : text, entry, &quick->unit))
    {
      quick->has_unit = TRUE;
      return TRUE;
    }
  cro_entry_clear (entry);
  bytes = text != NULL ? cro_entry_scan_number (text, entry) : 0;
  if (bytes > 0 && asks_for_unit (rest, quick, from + bytes + cro_expression_space (text + bytes)))
    return FALSE;
  cro_entry_clear (entry);
  quick->unit = CRO_UNIT_EACH;
  return read_count (rest, at, entry);
}

/* "White crab meat 600 g", and the cells of a sheet. */
gboolean
cro_quick_take_trailing_amount (CroQuickRest *rest,
                                CroQuick     *quick)
{
  for (gsize at = cro_quick_rest_next (rest, rest->start); at < rest->end; at = cro_quick_rest_next (rest, at))
    {
      g_auto (CroEntry) entry = { 0 };

      if (is_amount_at (rest, quick, at, &entry))
        {
          if (!set_amount (quick, &entry, at, rest->end))
            return FALSE;
          cut_at (rest, at);
          return TRUE;
        }
      if (quick->fault != CRO_QUICK_OK)
        return FALSE;
    }
  quick->unit = CRO_UNIT_EACH;
  return TRUE;
}
