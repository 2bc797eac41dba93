#include "cro-quick.h"

#include <string.h>

#include "cro-expression.h"
#include "cro-name.h"
#include "cro-stray.h"
#include "cro-unit-words.h"
#include "cro-written.h"

void
cro_quick_clear (CroQuick *quick)
{
  g_clear_pointer (&quick->name, g_free);
  g_clear_pointer (&quick->note, g_free);
  g_clear_pointer (&quick->understood, g_free);
}

static gboolean
fail (CroQuick      *quick,
      CroQuickFault  fault,
      gsize          start,
      gsize          end)
{
  quick->fault = fault;
  quick->start = start;
  quick->end = end;
  return FALSE;
}

/* The line while it is taken apart from both ends: what is left of it is the name. */
typedef struct
{
  CroModel            *model;
  const CroEntryWords *words;
  const char          *text;
  gsize                start;
  gsize                end;
} Rest;

static void
trim (Rest *rest)
{
  rest->start += cro_expression_space (rest->text + rest->start);
  /* Space may go on behind an end that was drawn before. */
  rest->start = MIN (rest->start, rest->end);
  while (rest->end > rest->start)
    {
      const char *last = g_utf8_prev_char (rest->text + rest->end);

      if (!g_unichar_isspace (g_utf8_get_char (last)) && strchr (",;:", *last) == NULL)
        break;
      rest->end = (gsize) (last - rest->text);
    }
}

static void
skip_lead (Rest *rest)
{
  rest->start = MIN (rest->start + cro_written_scan_lead (rest->text + rest->start), rest->end);
}

/* What is set aside of a line stands behind its name, in the order in which it was written. */
static void
add_note (CroQuick   *quick,
          const char *text)
{
  g_autofree char *tidy = cro_name_dup_tidy (text);
  g_autofree char *before = g_steal_pointer (&quick->note);

  if (*tidy == '\0')
    quick->note = g_steal_pointer (&before);
  else
    quick->note = before != NULL ? g_strconcat (before, "; ", tidy, NULL) : g_steal_pointer (&tidy);
}

/* A text of its own, as what follows its end must not be read. */
static char *
dup_from (const Rest *rest,
          gsize       at)
{
  return g_strndup (rest->text + at, rest->end - at);
}

/* The next begin of a word behind at; the end where there is none. */
static gsize
next_word (const Rest *rest,
           gsize       at)
{
  const char *c = rest->text + at;
  const char *end = rest->text + rest->end;

  while (c < end && !g_unichar_isspace (g_utf8_get_char (c)))
    c = g_utf8_next_char (c);
  while (c < end && g_unichar_isspace (g_utf8_get_char (c)))
    c = g_utf8_next_char (c);
  return (gsize) (c - rest->text);
}

/* --- Prices ------------------------------------------------------------------------------------------ */

/* A price from the begin of text to its end. */
static gboolean
read_price (const Rest    *rest,
            const char    *text,
            CroPriceEntry *price)
{
  gsize bytes = cro_entry_scan_price (text, rest->model->currency, rest->words, price);

  return bytes > 0 && text[bytes] == '\0' && (price->has_unit || price->has_currency);
}

/* Whether it is a price and not an amount. Without a stroke it is one of pieces, and that only
 * where it is written "each", or the line has its amount already; so is "69.50/4 kg", a fraction
 * with its unit. */
static gboolean
is_price (const char          *text,
          const CroPriceEntry *price,
          const CroQuick      *quick)
{
  if (!price->has_unit || price->has_stroke)
    return TRUE;
  if (price->unit == CRO_UNIT_EACH && g_str_has_suffix (text, "each"))
    return TRUE;
  return quick->has_amount && (price->unit == CRO_UNIT_EACH || strchr (text, '/') != NULL);
}

/* --- Names ------------------------------------------------------------------------------------- */

/* The one item whose name differs in number alone: "eggs" is "Egg". Two that do are asked about. */
static guint32
find_in_number (CroModel   *model,
                const char *folded)
{
  g_autofree char *one = cro_fold_number (folded);
  guint32 found = CRO_NO_SLOT;

  for (guint32 i = 0; i < model->items->len; i++)
    {
      const char *name = cro_model_item (model, i)->name;
      g_autofree char *other = NULL, *other_one = NULL;

      /* Most begin with another letter, and are not folded. */
      if (cro_model_item (model, i)->is_dead
          || ((guchar) *name < 0x80 && g_ascii_tolower (*name) != *folded))
        continue;
      other = cro_fold (name);
      other_one = cro_fold_number (other);
      if (!g_str_equal (one, other_one))
        continue;
      if (found != CRO_NO_SLOT)
        return CRO_NO_SLOT;
      found = i;
    }
  return found;
}

static guint32
find_item (CroModel   *model,
           const char *name)
{
  CroRef exact = cro_edit_find_name (model, CRO_NAMES_ITEMS, name);
  g_autofree char *folded = cro_fold (name);

  if (exact.kind == CRO_REF_ITEM)
    return exact.slot;
  for (guint32 i = 0; i < model->items->len; i++)
    if (!cro_model_item (model, i)->is_dead && cro_folds_to (cro_model_item (model, i)->name, folded))
      return i;
  return *folded != '\0' ? find_in_number (model, folded) : CRO_NO_SLOT;
}

static gboolean
has_letters (const char *name)
{
  for (; *name != '\0'; name = g_utf8_next_char (name))
    if (g_unichar_isalpha (g_utf8_get_char (name)))
      return TRUE;
  return FALSE;
}

/* What stands in a name like an amount or a price that was not understood: "9.20", "9.20/kgg",
 * "9 €". A whole number may be part of a name. */
static gboolean
looks_like_price (const char *word)
{
  gboolean digit = FALSE, sign = FALSE;

  for (; *word != '\0' && !g_unichar_isspace (g_utf8_get_char (word));
       word = g_utf8_next_char (word))
    {
      gunichar c = g_utf8_get_char (word);

      if (g_unichar_type (c) == G_UNICODE_CURRENCY_SYMBOL)
        return TRUE;
      if (digit && strchr ("/.,", *word) != NULL && (*word == '/' || g_ascii_isdigit (word[1])))
        sign = TRUE;
      digit |= g_unichar_isdigit (c);
    }
  return sign;
}

/* Where the price ends that begins at a place and has more behind it; 0: none does. */
static gsize
price_end (const Rest     *rest,
           gsize           at,
           const CroQuick *quick)
{
  for (gsize end = next_word (rest, at); end < rest->end; end = next_word (rest, end))
    {
      g_autofree char *text = g_strchomp (g_strndup (rest->text + at, end - at));
      g_auto (CroPriceEntry) price = { 0 };

      if (read_price (rest, text, &price) && price.has_unit && is_price (text, &price, quick))
        return end;
    }
  return 0;
}

static gboolean
fail_price (Rest     *rest,
            CroQuick *quick,
            gsize     at)
{
  gsize end = price_end (rest, at, quick);

  return end != 0 ? fail (quick, CRO_QUICK_BEHIND_PRICE, end, rest->end)
                  : fail (quick, CRO_QUICK_PRICE, at, rest->end);
}

/* What follows a comma is a note, but for the comma of a number. */
static const char *
find_note (const char *name)
{
  for (const char *comma = strchr (name, ','); comma != NULL; comma = strchr (comma + 1, ','))
    if (comma > name && !(g_ascii_isdigit (comma[-1]) && g_ascii_isdigit (comma[1])))
      return comma + 1;
  return NULL;
}

/* Takes the note from the end of what is left, where the whole is no name of the book. */
static void
take_note (Rest     *rest,
           CroQuick *quick)
{
  g_autofree char *left = dup_from (rest, rest->start);
  const char *note = find_note (left);

  if (note == NULL || find_item (rest->model, left) != CRO_NO_SLOT)
    return;
  add_note (quick, note);
  rest->end = rest->start + (gsize) (note - left);
  trim (rest);
}

/* "1 lemon (juice)" is of one lemon: what comes of it is no name of its own where pieces are taken. */
static void
take_bracketed_part (Rest     *rest,
                     CroQuick *quick)
{
  g_autofree char *left = dup_from (rest, rest->start);
  const char *bracket = strrchr (left, '(');
  g_autofree char *part = bracket != NULL && g_str_has_suffix (bracket, ")")
                              ? g_strndup (bracket + 1, strlen (bracket) - 2) : NULL;

  if (part == NULL || *part == '\0' || bracket == left || quick->has_unit
      || cro_written_scan_part (part) != strlen (part) || find_item (rest->model, left) != CRO_NO_SLOT)
    return;
  add_note (quick, part);
  rest->end = rest->start + (gsize) (bracket - left);
  trim (rest);
}

static gboolean
fail_name (Rest       *rest,
           CroQuick   *quick,
           const char *name)
{
  if (!has_letters (name))
    return fail (quick, CRO_QUICK_NO_NAME, rest->start, rest->end);
  if (strchr ("+*/", *name) != NULL)
    return fail (quick, CRO_QUICK_AMOUNT, rest->start, rest->end);
  for (gsize at = rest->start; at < rest->end; at = next_word (rest, at))
    if (looks_like_price (rest->text + at))
      return fail_price (rest, quick, at);
  if (cro_stray_find (name, NULL) != 0)
    return fail (quick, CRO_QUICK_STRAY, rest->start, rest->end);
  return TRUE;
}

static gboolean
take_name (Rest     *rest,
           CroQuick *quick)
{
  g_autofree char *left = NULL;
  g_autofree char *name = NULL;

  trim (rest);
  take_note (rest, quick);
  take_bracketed_part (rest, quick);
  left = dup_from (rest, rest->start);
  name = cro_name_dup_tidy (left);
  quick->item = find_item (rest->model, name);
  quick->match = quick->item != CRO_NO_SLOT ? CRO_QUICK_EXACT : CRO_QUICK_UNKNOWN;
  if (quick->match == CRO_QUICK_UNKNOWN && !fail_name (rest, quick, name))
    return FALSE;
  quick->name = g_steal_pointer (&name);
  return TRUE;
}

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
      return fail (quick, CRO_QUICK_AMOUNT, start, end);
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
asks_for_unit (Rest     *rest,
               CroQuick *quick,
               gsize     at)
{
  CroUnitMeaning meaning;
  gsize bytes = cro_unit_words_scan (rest->text + at, rest->words, &meaning);
  g_autofree char *name = dup_from (rest, MIN (at, rest->end));

  if (meaning.kind < CRO_UNIT_WORD_WHICH || at + bytes > rest->end
      || find_item (rest->model, name) != CRO_NO_SLOT)
    return FALSE;
  memcpy (quick->choices, meaning.units, sizeof quick->choices);
  fail (quick, meaning.kind == CRO_UNIT_WORD_WHICH ? CRO_QUICK_WHICH_UNIT : CRO_QUICK_NO_SIZE, at,
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
take_parts (Rest     *rest,
            CroQuick *quick,
            gsize     at,
            gboolean  is_one)
{
  g_autofree char *text = dup_from (rest, at);
  g_autofree char *name = cro_name_dup_tidy (text);

  if (!is_one || find_item (rest->model, name) != CRO_NO_SLOT)
    return 0;
  return cro_entry_scan_parts (text, quick->unit, rest->words, &quick->amount);
}

/* What stands behind an amount is not one more, but for a name of the book. */
static gboolean
check_second_amount (Rest     *rest,
                     CroQuick *quick)
{
  g_autofree char *text = dup_from (rest, rest->start);
  g_autofree char *name = cro_name_dup_tidy (text);
  g_auto (CroEntry) entry = { 0 };
  gsize bytes = g_ascii_isdigit (*text) ? cro_entry_scan_number (text, &entry) : 0;
  gsize space = cro_expression_space (text + bytes);
  CroUnit unit;
  gsize of_unit = bytes > 0 ? cro_entry_scan_unit (text + bytes + space, rest->words, &unit) : 0;

  if (of_unit == 0 || find_item (rest->model, name) != CRO_NO_SLOT)
    return TRUE;
  return fail (quick, CRO_QUICK_TWO_AMOUNTS, rest->start, rest->start + bytes + space + of_unit);
}

/* "250 g (9 oz) butter": the same once more, as it was written. */
static void
take_other_amount (Rest     *rest,
                   CroQuick *quick)
{
  const char *at = rest->text + rest->start;
  const char *end = *at == '(' && g_ascii_isdigit (at[1]) ? strchr (at, ')') : NULL;
  g_autofree char *inner = NULL;

  if (end == NULL || (gsize) (end - rest->text) >= rest->end)
    return;
  inner = g_strndup (at + 1, (gsize) (end - at - 1));
  add_note (quick, inner);
  rest->start = (gsize) (end + 1 - rest->text);
  rest->start += scan_join (rest->text + rest->start, rest->words);
}

/* "two eggs": only where no number stands in the line, and no name of the book begins so. */
static gsize
take_count (Rest     *rest,
            CroQuick *quick,
            CroEntry *entry)
{
  g_autofree char *text = dup_from (rest, rest->start);

  return strpbrk (text, "0123456789") == NULL && find_item (rest->model, text) == CRO_NO_SLOT
             ? cro_written_scan_count (text, &entry->micro)
             : 0;
}

/* "juice of 2 lemons" is of two lemons. */
static void
take_part (Rest     *rest,
           CroQuick *quick)
{
  const char *at = rest->text + rest->start;
  gsize bytes = cro_written_scan_part (at), join = scan_join (at + bytes, rest->words);
  g_autofree char *part = g_strndup (at, bytes);
  g_autofree char *text = dup_from (rest, MIN (rest->start + bytes + join, rest->end));
  g_auto (CroEntry) number = { 0 };
  gint64 micro;

  if (bytes == 0 || join == cro_expression_space (at + bytes)
      || (cro_entry_scan_number (text, &number) == 0 && cro_written_scan_count (text, &micro) == 0))
    return;
  add_note (quick, part);
  rest->start += bytes + join;
}

static void
take_about (Rest     *rest,
            CroQuick *quick)
{
  gsize bytes = cro_written_scan_about (rest->text + rest->start);
  g_autofree char *about = g_strndup (rest->text + rest->start, bytes);

  if (rest->start + bytes > rest->end)
    return;
  add_note (quick, about);
  rest->start += bytes;
}

static gboolean
take_leading_amount (Rest     *rest,
                     CroQuick *quick)
{
  g_autofree char *text = NULL;
  g_auto (CroEntry) entry = { 0 };
  gsize bytes, space, of_unit, range;
  gboolean is_one;

  take_part (rest, quick);
  take_about (rest, quick);
  text = dup_from (rest, rest->start);
  range = cro_written_scan_range (text, rest->words);
  if (range > 0 && find_item (rest->model, text) == CRO_NO_SLOT)
    return fail (quick, CRO_QUICK_RANGE, rest->start, rest->start + range);
  bytes = cro_entry_scan_number (text, &entry);
  if (bytes == 0 && entry.status == CRO_ENTRY_NOT_A_NUMBER)
    bytes = take_count (rest, quick, &entry);
  /* No number, or a name that begins with one ("00 flour", "7up"). */
  if (bytes == 0 && (entry.status == CRO_ENTRY_NOT_A_NUMBER || entry.status == CRO_ENTRY_EMPTY))
    return TRUE;
  if (g_ascii_isdigit (*text) && find_item (rest->model, text) != CRO_NO_SLOT)
    return TRUE;
  if (bytes == 0)
    {
      quick->status = entry.status;
      return fail (quick, CRO_QUICK_AMOUNT, rest->start + entry.start, rest->start + entry.end);
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
  take_other_amount (rest, quick);
  return of_unit == 0 || check_second_amount (rest, quick);
}

/* --- Amounts behind a name --------------------------------------------------------------------- */

/* Whether what stands before a place led to it: the next cell, dots, a row of blanks. */
static gboolean
is_behind_gap (const Rest *rest,
               gsize       at)
{
  gsize n = 0;

  for (; at - n > rest->start && g_ascii_isspace (rest->text[at - n - 1]); n++)
    if (rest->text[at - n - 1] == CRO_WRITTEN_GAP)
      return TRUE;
  return n > 1;
}

/* The dash that led to an amount is no part of the name before it. */
static void
cut_at (Rest  *rest,
        gsize  at)
{
  rest->end = at;
  trim (rest);
  for (const char *last; rest->end > rest->start; trim (rest))
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
read_amount (const Rest *rest,
             const char *text,
             CroEntry   *entry,
             CroUnit    *unit)
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
read_count (const Rest *rest,
            gsize       at,
            CroEntry   *entry)
{
  g_autofree char *text = dup_from (rest, at);
  gsize times = scan_times (text);
  const char *count = text + times + cro_expression_space (text + times);

  return (times > 0 || is_behind_gap (rest, at)) && *count != '\0'
         && cro_entry_scan_number (count, entry) == strlen (count);
}

/* "butter (250 g)": an amount in brackets at the end. Owned. */
static char *
dup_bracket (const Rest *rest,
             gsize       at)
{
  if (rest->text[at] != '(' || rest->text[rest->end - 1] != ')' || rest->end - at < 3)
    return NULL;
  return g_strndup (rest->text + at + 1, rest->end - at - 2);
}

/* Whether an amount stands from a place to the end; otherwise the fault says what is no amount. */
static gboolean
is_amount_at (Rest     *rest,
              CroQuick *quick,
              gsize     at,
              CroEntry *entry)
{
  gsize dash = cro_written_scan_dash (rest->text + at);
  gsize from = MIN (at + dash + cro_expression_space (rest->text + at + dash), rest->end);
  g_autofree char *inner = dup_bracket (rest, at), *text = inner == NULL ? dup_from (rest, from) : NULL;
  gsize range = text != NULL ? cro_written_scan_range (text, rest->words) : 0, bytes;

  if (range > 0)
    return fail (quick, CRO_QUICK_RANGE, from, from + range);
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
static gboolean
take_trailing_amount (Rest     *rest,
                      CroQuick *quick)
{
  for (gsize at = next_word (rest, rest->start); at < rest->end; at = next_word (rest, at))
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

/* --- The price ------------------------------------------------------------------------------------------ */

static gboolean
set_price (CroQuick      *quick,
           CroPriceEntry *price,
           const char    *currency,
           gsize          at,
           gsize          end)
{
  if (price->is_other)
    return fail (quick, currency != NULL ? CRO_QUICK_CURRENCY : CRO_QUICK_NO_CURRENCY, at, end);
  if (!price->has_unit && !(quick->has_amount && quick->unit == CRO_UNIT_EACH))
    return fail (quick, CRO_QUICK_PRICE_OF, at, end);
  if (price->money.micro < 0)
    {
      quick->status = CRO_ENTRY_OUT_OF_RANGE;
      return fail (quick, CRO_QUICK_PRICE, at, end);
    }
  quick->has_price = TRUE;
  quick->price = price->money.micro;
  quick->price_unit = price->unit;
  if (quick->understood == NULL)
    quick->understood = g_steal_pointer (&price->money.understood);
  return TRUE;
}

static gboolean
take_price (Rest     *rest,
            CroQuick *quick)
{
  for (gsize at = next_word (rest, rest->start); at < rest->end; at = next_word (rest, at))
    {
      g_autofree char *text = dup_from (rest, at);
      g_auto (CroPriceEntry) price = { 0 };

      if (!read_price (rest, text, &price) || !is_price (text, &price, quick))
        continue;
      if (!set_price (quick, &price, rest->model->currency, at, rest->end))
        return FALSE;
      rest->end = at;
      return TRUE;
    }
  return TRUE;
}

/* --- Weighing ------------------------------------------------------------------------------------------ */

/* Whether what is left ends with one of the words, behind a name; *cut is where it begins. */
static gboolean
ends_with (const Rest        *rest,
           const char *const *forms,
           gsize             *cut)
{
  for (; forms != NULL && *forms != NULL; forms++)
    for (gsize at = next_word (rest, rest->start); at < rest->end; at = next_word (rest, at))
      if (cro_expression_starts (rest->text + at, *forms) == rest->end - at)
        {
          *cut = at;
          return TRUE;
        }
  return FALSE;
}

static void
take_weighing (Rest     *rest,
               CroQuick *quick)
{
  g_autofree char *left = NULL;
  gsize cut;

  trim (rest);
  left = dup_from (rest, rest->start);
  if (quick->has_weighing || rest->words == NULL || find_item (rest->model, left) != CRO_NO_SLOT)
    return;
  /* Nobody trims a liquid: "20 cl de cidre brut" is dry cider. */
  if (quick->has_unit && cro_unit_get (quick->unit)->base == CRO_BASE_MILLILITRE)
    return;
  quick->as_bought = ends_with (rest, rest->words->as_bought, &cut);
  quick->has_weighing = quick->as_bought || ends_with (rest, rest->words->trimmed, &cut);
  if (!quick->has_weighing)
    return;
  rest->end = cut;
  trim (rest);
}

/* --- Lines -------------------------------------------------------------------------------------------- */

gboolean
cro_quick_read (CroModel            *model,
                const char          *text,
                const CroEntryWords *words,
                CroQuick            *quick)
{
  g_autofree char *plain = cro_written_dup_plain (text);
  Rest rest = { .model = model, .words = words, .text = plain, .end = strlen (text) };

  *quick = (CroQuick){ .unit = CRO_UNIT_EACH, .item = CRO_NO_SLOT };
  trim (&rest);
  skip_lead (&rest);
  if (rest.start == rest.end)
    return fail (quick, CRO_QUICK_EMPTY, 0, rest.end);
  if (!take_leading_amount (&rest, quick))
    return FALSE;
  take_weighing (&rest, quick);
  if (!take_price (&rest, quick))
    return FALSE;
  take_weighing (&rest, quick);
  if (!quick->has_amount && !take_trailing_amount (&rest, quick))
    return FALSE;
  return take_name (&rest, quick);
}

void
cro_quick_find (CroQuick  *quick,
                CroFinder *finder)
{
  g_autoptr (GArray) found = NULL;

  if (quick->name == NULL || quick->match != CRO_QUICK_UNKNOWN)
    return;
  found = cro_finder_find (finder, quick->name,
                           1u << CRO_KIND_INGREDIENT | 1u << CRO_KIND_OUTPUT, 1);
  if (found->len == 0)
    {
      g_array_unref (found);
      found = cro_finder_find_near (finder, quick->name, 1u << CRO_KIND_INGREDIENT | 1u << CRO_KIND_OUTPUT, 1);
    }
  if (found->len == 0)
    return;
  quick->match = CRO_QUICK_SIMILAR;
  quick->item = g_array_index (found, CroFound, 0).slot;
}

CroBase
cro_quick_base (const CroQuick *quick)
{
  return cro_unit_get (quick->has_price ? quick->price_unit : quick->unit)->base;
}
