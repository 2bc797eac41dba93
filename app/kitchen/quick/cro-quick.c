#include "cro-quick.h"

#include <string.h>

#include "cro-expression.h"
#include "cro-name.h"

void
cro_quick_clear (CroQuick *quick)
{
  g_clear_pointer (&quick->name, g_free);
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

/* What begins a row of a list. */
static void
skip_bullet (Rest *rest)
{
  static const char *const bullets[] = { "-", "–", "—", "•", "*", "·" };

  for (gsize i = 0; i < G_N_ELEMENTS (bullets); i++)
    if (g_str_has_prefix (rest->text + rest->start, bullets[i]))
      {
        gsize behind = rest->start + strlen (bullets[i]);
        gsize space = cro_expression_space (rest->text + behind);

        if (space > 0)
          rest->start = behind + space;
        return;
      }
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

/* Signs that stand for one currency alone. */
static const struct { const char *sign, *code; } currencies[] = {
  { "€", "EUR" }, { "£", "GBP" }, { "₹", "INR" }, { "₺", "TRY" }, { "₩", "KRW" }, { "₪", "ILS" },
};

/* Reads the sign or the code of a currency with the space before it; returns its bytes.
 * *is_books is cleared where it is not, or not for sure, the book's. */
static gsize
scan_currency (CroModel   *model,
               const char *text,
               gboolean   *is_books)
{
  gsize space = cro_expression_space (text);
  const char *at = text + space;

  for (gsize i = 0; i < G_N_ELEMENTS (currencies); i++)
    if (g_str_has_prefix (at, currencies[i].sign))
      {
        *is_books &= g_strcmp0 (model->currency, currencies[i].code) == 0;
        return space + strlen (currencies[i].sign);
      }
  if (g_unichar_type (g_utf8_get_char (at)) == G_UNICODE_CURRENCY_SYMBOL)
    {
      *is_books = FALSE;
      return space + (gsize) (g_utf8_next_char (at) - at);
    }
  if (g_ascii_isupper (at[0]) && g_ascii_isupper (at[1]) && g_ascii_isupper (at[2])
      && !g_unichar_isalnum (g_utf8_get_char (at + 3)))
    {
      *is_books &= model->currency != NULL && strncmp (at, model->currency, 3) == 0;
      return space + 3;
    }
  return 0;
}

/* A price from the begin of text to its end. Without a stroke it is one of pieces, and that only
 * where it is written "each" or the line has its amount already. */
static gboolean
read_price (const Rest *rest,
            const char *text,
            gboolean    has_amount,
            CroEntry   *entry,
            CroUnit    *unit,
            gboolean   *is_books)
{
  gsize bytes = scan_currency (rest->model, text, is_books);
  gsize number = cro_entry_scan_number (text + bytes, entry);
  gsize of_unit;
  gboolean has_stroke;

  if (number == 0)
    return FALSE;
  bytes += number;
  bytes += scan_currency (rest->model, text + bytes, is_books);
  bytes += cro_expression_space (text + bytes);
  has_stroke = text[bytes] == '/';
  if (has_stroke)
    bytes++;
  bytes += cro_expression_space (text + bytes);
  of_unit = cro_entry_scan_unit (text + bytes, rest->words, unit);
  if (of_unit == 0 || text[bytes + of_unit] != '\0')
    return FALSE;
  return has_stroke || (*unit == CRO_UNIT_EACH
                        && (has_amount || strcmp (text + bytes, "each") == 0));
}

/* --- Names ------------------------------------------------------------------------------------- */

/* Whether a name folds to what was folded. It is read as cro_fold would have it for as long as
 * it is ASCII, so that hardly any name of a large book is folded. */
static gboolean
folds_to (const char *name,
          const char *folded)
{
  const char *at = folded;
  g_autofree char *whole = NULL;
  gboolean gap = FALSE;

  for (const char *c = name; *c != '\0'; c++)
    if ((guchar) *c >= 0x80)
      {
        whole = cro_fold (name);
        return strcmp (whole, folded) == 0;
      }
    else if (!g_ascii_isalnum (*c))
      gap = at > folded;
    else
      {
        if (gap && *at++ != ' ')
          return FALSE;
        gap = FALSE;
        if (g_ascii_tolower (*c) != *at++)
          return FALSE;
      }
  return *at == '\0';
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
    if (!cro_model_item (model, i)->is_dead && folds_to (cro_model_item (model, i)->name, folded))
      return i;
  return CRO_NO_SLOT;
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
price_end (const Rest *rest,
           gsize       at,
           gboolean    has_amount)
{
  for (gsize end = next_word (rest, at); end < rest->end; end = next_word (rest, end))
    {
      g_autofree char *text = g_strchomp (g_strndup (rest->text + at, end - at));
      g_auto (CroEntry) entry = { 0 };
      gboolean is_books = TRUE;
      CroUnit unit;

      if (read_price (rest, text, has_amount, &entry, &unit, &is_books))
        return end;
    }
  return 0;
}

static gboolean
fail_price (Rest     *rest,
            CroQuick *quick,
            gsize     at)
{
  gsize end = price_end (rest, at, quick->has_amount);

  return end != 0 ? fail (quick, CRO_QUICK_BEHIND_PRICE, end, rest->end)
                  : fail (quick, CRO_QUICK_PRICE, at, rest->end);
}

static gboolean
take_name (Rest     *rest,
           CroQuick *quick)
{
  g_autofree char *left = NULL;
  g_autofree char *name = NULL;

  trim (rest);
  left = dup_from (rest, rest->start);
  name = cro_name_dup_tidy (left);
  quick->item = find_item (rest->model, name);
  quick->match = quick->item != CRO_NO_SLOT ? CRO_QUICK_EXACT : CRO_QUICK_UNKNOWN;
  if (quick->match == CRO_QUICK_UNKNOWN)
    {
      if (!has_letters (name))
        return fail (quick, CRO_QUICK_NO_NAME, rest->start, rest->end);
      if (strchr ("+*/", *name) != NULL)
        return fail (quick, CRO_QUICK_AMOUNT, rest->start, rest->end);
      for (gsize at = rest->start; at < rest->end; at = next_word (rest, at))
        if (looks_like_price (rest->text + at))
          return fail_price (rest, quick, at);
    }
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

static gboolean
take_leading_amount (Rest     *rest,
                     CroQuick *quick)
{
  g_autofree char *text = dup_from (rest, rest->start);
  g_auto (CroEntry) entry = { 0 };
  gsize bytes = cro_entry_scan_number (text, &entry);
  gsize space, of_unit;

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
  if (of_unit == 0 && space == 0 && scan_times (text + bytes) == 0 && text[bytes] != '\0')
    return TRUE;
  if (!set_amount (quick, &entry, rest->start, rest->start + bytes))
    return FALSE;
  bytes += of_unit > 0 ? space + of_unit : scan_times (text + bytes);
  rest->start += bytes + scan_join (text + bytes, rest->words);
  return TRUE;
}

/* "White crab meat 600 g", and the cells of a sheet. */
static gboolean
take_trailing_amount (Rest     *rest,
                      CroQuick *quick)
{
  for (gsize at = next_word (rest, rest->start); at < rest->end; at = next_word (rest, at))
    {
      g_autofree char *text = dup_from (rest, at);
      g_auto (CroEntry) entry = { 0 };
      gsize bytes = cro_entry_scan_number (text, &entry);
      gsize space = cro_expression_space (text + bytes);
      gsize of_unit = bytes > 0 ? cro_entry_scan_unit (text + bytes + space, rest->words,
                                                       &quick->unit) : 0;

      if (of_unit == 0 || text[bytes + space + of_unit] != '\0')
        continue;
      quick->has_unit = TRUE;
      if (!set_amount (quick, &entry, at, rest->end))
        return FALSE;
      rest->end = at;
      return TRUE;
    }
  quick->unit = CRO_UNIT_EACH;
  return TRUE;
}

/* --- The price ------------------------------------------------------------------------------------------ */

static gboolean
take_price (Rest     *rest,
            CroQuick *quick)
{
  for (gsize at = next_word (rest, rest->start); at < rest->end; at = next_word (rest, at))
    {
      g_autofree char *text = dup_from (rest, at);
      g_auto (CroEntry) entry = { 0 };
      gboolean is_books = TRUE;

      if (!read_price (rest, text, quick->has_amount, &entry, &quick->price_unit, &is_books))
        continue;
      if (!is_books)
        return fail (quick, CRO_QUICK_CURRENCY, at, rest->end);
      if (entry.micro < 0)
        {
          quick->status = CRO_ENTRY_OUT_OF_RANGE;
          return fail (quick, CRO_QUICK_PRICE, at, rest->end);
        }
      quick->has_price = TRUE;
      quick->price = entry.micro;
      if (quick->understood == NULL)
        quick->understood = g_steal_pointer (&entry.understood);
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
  Rest rest = { .model = model, .words = words, .text = text, .end = strlen (text) };

  *quick = (CroQuick){ .unit = CRO_UNIT_EACH, .item = CRO_NO_SLOT };
  trim (&rest);
  if (rest.start == rest.end)
    return fail (quick, CRO_QUICK_EMPTY, 0, rest.end);
  skip_bullet (&rest);
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
    return;
  quick->match = CRO_QUICK_SIMILAR;
  quick->item = g_array_index (found, CroFound, 0).slot;
}

CroBase
cro_quick_base (const CroQuick *quick)
{
  return cro_unit_get (quick->has_price ? quick->price_unit : quick->unit)->base;
}
