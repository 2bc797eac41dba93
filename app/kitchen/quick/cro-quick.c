#include "cro-quick-private.h"

#include <string.h>

#include "cro-expression.h"
#include "cro-fold.h"
#include "cro-name.h"
#include "cro-remark-words.h"
#include "cro-stray.h"
#include "cro-written.h"

void
cro_quick_clear (CroQuick *quick)
{
  g_clear_pointer (&quick->name, g_free);
  g_clear_pointer (&quick->note, g_free);
  g_clear_pointer (&quick->understood, g_free);
}

static void
skip_lead (CroQuickRest *rest)
{
  rest->start = MIN (rest->start + cro_written_scan_lead (rest->text + rest->start), rest->end);
}

/* --- Prices ------------------------------------------------------------------------------------------ */

/* A price from the begin of text to its end. */
static gboolean
read_price (const CroQuickRest *rest,
            const char         *text,
            CroPriceEntry      *price)
{
  gsize bytes = cro_entry_scan_price (text, rest->model->currency, rest->words, price);

  return bytes > 0 && text[bytes] == '\0' && (price->has_unit || price->has_currency || price->tax != CRO_TAX_NOT_SAID);
}

/* "16/20", "(400/600)", "400/600g": from so many pieces to a pound, or grams of one, to so many, and part of a name
 * ("common practice, no source"). A small number before the stroke makes a fraction of an amount, 3/4. */
static gboolean
is_size_grade (const char *word)
{
  char *end;
  guint64 from, to;

  word += *word == '(';
  if (!g_ascii_isdigit (*word))
    return FALSE;
  from = g_ascii_strtoull (word, &end, 10);
  if (*end != '/' || !g_ascii_isdigit (end[1]))
    return FALSE;
  to = g_ascii_strtoull (end + 1, &end, 10);
  end += *end == 'g';
  end += strspn (end, "),;");
  return from > 3 && from < to && to <= 3 * from && (*end == '\0' || g_unichar_isspace (g_utf8_get_char (end)));
}

/* Whether it is a price and not an amount. Without a stroke it is one of pieces, and that only
 * where it is written "each", or the line has its amount already; so is "69.50/4 kg", a fraction
 * with its unit, but for "400/600 g", which is a size. */
static gboolean
is_price (const char          *text,
          const CroPriceEntry *price,
          const CroQuick      *quick)
{
  if (!price->has_unit || price->has_stroke)
    return TRUE;
  if (price->unit == CRO_UNIT_EACH && g_str_has_suffix (text, "each"))
    return TRUE;
  if (price->unit == CRO_UNIT_G && is_size_grade (text))
    return FALSE;
  return quick->has_amount && (price->unit == CRO_UNIT_EACH || strchr (text, '/') != NULL);
}

/* ", 4 pieces", "x 4 pieces": so many, and no price of one. */
static gboolean
is_count (const CroQuickRest  *rest,
          gsize                at,
          const CroPriceEntry *price)
{
  const char *text = rest->text + at, *end = text + strspn (text, "0123456789");
  g_autofree char *before = g_strchomp (g_strndup (rest->text + rest->start, at - rest->start));

  end += cro_expression_space (end);
  return price->unit == CRO_UNIT_EACH && !price->has_currency && g_unichar_isalpha (g_utf8_get_char (end))
         && !g_str_has_prefix (end, "each")
         && (g_str_has_suffix (before, ",") || g_str_has_suffix (before, " x") || g_str_has_suffix (before, "×"));
}

/* --- Names ----------------------------------------------------------------------------------- */

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

  if (is_size_grade (word))
    return FALSE;
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
price_end (const CroQuickRest *rest,
           gsize               at,
           const CroQuick     *quick)
{
  for (gsize end = cro_quick_rest_next (rest, at); end < rest->end; end = cro_quick_rest_next (rest, end))
    {
      g_autofree char *text = g_strchomp (g_strndup (rest->text + at, end - at));
      g_auto (CroPriceEntry) price = { 0 };

      if (read_price (rest, text, &price) && price.has_unit && is_price (text, &price, quick))
        return end;
    }
  return 0;
}

/* "0.38": a price, but whether of a kilogram or of a piece is asked. */
static gboolean
is_price_alone (const CroQuickRest *rest,
                gsize               at)
{
  g_autofree char *text = g_strchomp (g_strndup (rest->text + at, rest->end - at));
  g_auto (CroPriceEntry) price = { 0 };
  gsize bytes = cro_entry_scan_price (text, rest->model->currency, rest->words, &price);

  return bytes > 0 && text[bytes] == '\0' && !price.has_unit;
}

static gboolean
fail_price (CroQuickRest *rest,
            CroQuick     *quick,
            gsize         at)
{
  gsize end = price_end (rest, at, quick);
  g_autofree char *behind = end != 0 ? cro_quick_rest_dup (rest, end) : NULL;
  g_autofree char *before = g_strndup (rest->text + rest->start, at - rest->start);
  g_autofree char *word = cro_quick_rest_dup (rest, at);
  g_auto (CroPriceEntry) price = { 0 };

  if (behind != NULL
      && !cro_quick_check_remark (quick,
                                  cro_remark_read_behind_price (behind, before, cro_quick_is_of_pieces (quick)), end,
                                  rest->end))
    return FALSE;
  /* "20/kg, now 25/kg": the last was taken. */
  if (quick->has_price && read_price (rest, word, &price))
    return cro_quick_fail (quick, CRO_QUICK_TWO_PRICES, at, rest->end);
  if (end == 0 && is_price_alone (rest, at))
    return cro_quick_fail (quick, CRO_QUICK_PRICE_OF, at, rest->end);
  return end != 0 ? cro_quick_fail (quick, CRO_QUICK_BEHIND_PRICE, end, rest->end)
                  : cro_quick_fail (quick, CRO_QUICK_PRICE, at, rest->end);
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
static gboolean
take_note (CroQuickRest *rest,
           CroQuick     *quick)
{
  g_autofree char *left = cro_quick_rest_dup (rest, rest->start);
  const char *note = find_note (left);
  g_autofree char *before = note != NULL ? g_strndup (left, (gsize) (note - left)) : NULL;

  if (note == NULL || cro_quick_find_item (rest->model, left) != CRO_NO_SLOT)
    return TRUE;
  if (!cro_quick_check_remark (quick, cro_remark_read (note, before, cro_quick_is_of_pieces (quick)),
                               rest->start + (gsize) (note - left) + cro_expression_space (note), rest->end))
    return FALSE;
  cro_quick_add_note (quick, note);
  rest->end = rest->start + (gsize) (note - left);
  cro_quick_rest_trim (rest);
  return TRUE;
}

/* Names match whatever their signs: "lemon (juice)" is "Lemon juice", and only here not the same. */
static gboolean
is_name_with_brackets (CroModel   *model,
                       const char *text)
{
  guint32 item = cro_quick_find_item (model, text);

  return item != CRO_NO_SLOT && strchr (cro_model_item (model, item)->name, '(') != NULL;
}

/* "1 lemon (juice)" is of one lemon: what comes of it is no name of its own where pieces are taken. */
static void
take_bracketed_part (CroQuickRest *rest,
                     CroQuick     *quick)
{
  g_autofree char *left = cro_quick_rest_dup (rest, rest->start);
  const char *bracket = strrchr (left, '(');
  g_autofree char *part = bracket != NULL && g_str_has_suffix (bracket, ")")
                              ? g_strndup (bracket + 1, strlen (bracket) - 2) : NULL;

  if (part == NULL || *part == '\0' || bracket == left || quick->has_unit
      || cro_written_scan_part (part) != strlen (part) || is_name_with_brackets (rest->model, left))
    return;
  cro_quick_add_note (quick, part);
  rest->end = rest->start + (gsize) (bracket - left);
  cro_quick_rest_trim (rest);
}

/* Where the first price begins that has more behind it; the end where none does. */
static gsize
find_price (const CroQuickRest *rest,
            const CroQuick     *quick)
{
  for (gsize at = rest->start; at < rest->end; at = cro_quick_rest_next (rest, at))
    if (looks_like_price (rest->text + at))
      return price_end (rest, at, quick) != 0 ? at : rest->end;
  return rest->end;
}

/* A remark within a name, but for its first word, and before a price. */
static gboolean
check_name (const CroQuickRest *rest,
            CroQuick           *quick)
{
  g_autofree char *whole = cro_quick_rest_dup (rest, rest->start);
  gsize end = find_price (rest, quick), at_price;

  for (gsize at = cro_quick_rest_next (rest, rest->start); at < end; at = cro_quick_rest_next (rest, at))
    {
      g_autofree char *before = g_strndup (rest->text + rest->start, at - rest->start);
      g_autofree char *text = cro_quick_rest_dup (rest, at);

      CroRemark remark = cro_remark_read_in_name (text, before, cro_quick_is_of_pieces (quick));

      /* The shortest that says it; a number alone says less than the word before it. */
      if (remark != CRO_REMARK_NUMBER || quick->fault == CRO_QUICK_OK)
        cro_quick_check_remark (quick, remark, at, rest->end);
    }
  if (quick->fault == CRO_QUICK_OK && end == rest->end)
    {
      CroRemark remark = cro_remark_find_price (whole, &at_price);

      cro_quick_check_remark (quick, remark, rest->start + at_price, rest->end);
    }
  if (quick->fault == CRO_QUICK_OK && end == rest->end && cro_remark_says_loss (whole))
    cro_quick_fail (quick, CRO_QUICK_LOSS, rest->start, rest->end);
  return quick->fault == CRO_QUICK_OK;
}

static gboolean
fail_name (CroQuickRest *rest,
           CroQuick     *quick,
           const char   *name)
{
  if (!has_letters (name))
    return cro_quick_fail (quick, CRO_QUICK_NO_NAME, rest->start, rest->end);
  if (strchr ("+*/", *name) != NULL)
    return cro_quick_fail (quick, CRO_QUICK_AMOUNT, rest->start, rest->end);
  if (!check_name (rest, quick))
    return FALSE;
  for (gsize at = rest->start; at < rest->end; at = cro_quick_rest_next (rest, at))
    if (looks_like_price (rest->text + at))
      return fail_price (rest, quick, at);
  if (cro_stray_find (name, NULL) != 0)
    return cro_quick_fail (quick, CRO_QUICK_STRAY, rest->start, rest->end);
  return TRUE;
}

static gboolean
take_name (CroQuickRest *rest,
           CroQuick     *quick)
{
  g_autofree char *left = NULL;
  g_autofree char *name = NULL;

  take_bracketed_part (rest, quick);
  left = cro_quick_rest_dup (rest, rest->start);
  name = cro_name_dup_tidy (left);
  quick->item = cro_quick_find_item (rest->model, name);
  quick->match = quick->item != CRO_NO_SLOT ? CRO_QUICK_EXACT : CRO_QUICK_UNKNOWN;
  if (quick->match == CRO_QUICK_UNKNOWN && !fail_name (rest, quick, name))
    return FALSE;
  quick->name = g_steal_pointer (&name);
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
    {
      g_strlcpy (quick->currency, currency != NULL ? currency : "", sizeof quick->currency);
      return cro_quick_fail (quick, currency != NULL ? CRO_QUICK_CURRENCY : CRO_QUICK_NO_CURRENCY, at, end);
    }
  if (price->tax == CRO_TAX_WITH)
    return cro_quick_fail (quick, CRO_QUICK_TAX, at, end);
  if (!price->has_unit && !(quick->has_amount && quick->unit == CRO_UNIT_EACH))
    return cro_quick_fail (quick, CRO_QUICK_PRICE_OF, at, end);
  if (price->money.micro < 0)
    {
      quick->status = CRO_ENTRY_OUT_OF_RANGE;
      return cro_quick_fail (quick, CRO_QUICK_PRICE, at, end);
    }
  quick->has_price = TRUE;
  quick->price = price->money.micro;
  quick->price_unit = price->unit;
  quick->pack_size = price->money.per;
  quick->pack_price = price->whole;
  if (quick->understood == NULL)
    quick->understood = g_steal_pointer (&price->money.understood);
  return TRUE;
}

/* What stands from a place to the end, as a price may be written there: "(9.20/kg)", "@9.20/kg". A dash that stands
 * apart leads to a price and is no sign of it: NULL. Owned. */
static char *
dup_price (const CroQuickRest *rest,
           gsize               at)
{
  const char *text = rest->text + at, *end = rest->text + rest->end;
  gsize dash = cro_written_scan_dash (text);

  if (*text == '(' && end[-1] == ')' && end - text > 2)
    return g_strndup (text + 1, (gsize) (end - text - 2));
  if (dash > 0 && cro_expression_space (text + dash) > 0)
    return NULL;
  return cro_quick_rest_dup (rest, *text == '@' || *text == '=' ? at + 1 : at);
}

/* "butter at 9.20/kg", "beurre = 9,20/kg": what leads to a price is no part of the name, but in one of the book. */
static void
cut_price (CroQuickRest *rest,
           gsize         at)
{
  g_autofree char *left = NULL;
  gsize bytes;

  rest->end = at;
  cro_quick_rest_trim (rest);
  left = cro_quick_rest_dup (rest, rest->start);
  bytes = cro_written_find_to_price (left);
  if (bytes == 0 || cro_quick_find_item (rest->model, left) != CRO_NO_SLOT)
    return;
  rest->end -= bytes;
  cro_quick_rest_trim (rest);
}

static gboolean
take_price (CroQuickRest *rest,
            CroQuick     *quick)
{
  for (gsize at = cro_quick_rest_next (rest, rest->start); at < rest->end; at = cro_quick_rest_next (rest, at))
    {
      g_autofree char *text = dup_price (rest, at);
      g_auto (CroPriceEntry) price = { 0 };

      if (text == NULL || !read_price (rest, text, &price) || !is_price (text, &price, quick)
          || is_count (rest, at, &price))
        continue;
      if (!set_price (quick, &price, rest->model->currency, at, rest->end))
        return FALSE;
      cut_price (rest, at);
      return TRUE;
    }
  return TRUE;
}

/* --- Weighing ------------------------------------------------------------------------------------------ */

static gboolean
has_open_bracket (const char *text,
                  gsize       bytes)
{
  const char *open = g_strrstr_len (text, (gssize) bytes, "("), *close = g_strrstr_len (text, (gssize) bytes, ")");

  return open != NULL && (close == NULL || close < open);
}

/* Where the word begins that stands before a place; the start where none does. */
static gsize
word_before (const CroQuickRest *rest,
             gsize               place)
{
  gsize last = rest->start;

  for (gsize at = rest->start; at < place; at = cro_quick_rest_next (rest, at))
    last = at;
  return last;
}

/* "well trimmed", "scrubbed and trimmed": where what belongs to the word begins. */
static gsize
cut_back (const CroQuickRest *rest,
          gsize               cut)
{
  static const char *const words[] = { "well", "fully", "finely", "nicely", "bien", "and", "et", "&", NULL };

  for (gsize at = word_before (rest, cut); at > rest->start; at = word_before (rest, cut))
    {
      if (cro_written_scan_any (rest->text + at, words) == 0)
        break;
      cut = at;
    }
  return cut;
}

/* Whether what is left ends with one of the words, behind a name, with accents or without; *cut is where the longest of
 * them begins. */
static gboolean
ends_with (const CroQuickRest *rest,
           const char *const  *forms,
           gsize              *cut)
{
  *cut = rest->end;
  for (; forms != NULL && *forms != NULL; forms++)
    {
      g_autofree char *folded = cro_fold (*forms);

      for (gsize at = cro_quick_rest_next (rest, rest->start); at < *cut; at = cro_quick_rest_next (rest, at))
        {
          g_autofree char *end = cro_quick_rest_dup (rest, at);

          /* "(400 g trimmed)" is a remark. */
          if (cro_folds_to (end, folded) && !has_open_bracket (rest->text + rest->start, at - rest->start))
            *cut = at;
        }
    }
  /* "not trimmed", "prix brut". */
  return *cut < rest->end && cro_remark_scan_turn (rest->text + word_before (rest, *cut)) == 0;
}

/* "scrubbed and trimmed" is a note as a whole. */
static gboolean
is_within_note (const CroQuickRest *rest,
                gsize               cut)
{
  g_autofree char *before = g_strchomp (g_strndup (rest->text + rest->start, cut - rest->start));
  const char *note = find_note (before), *last = note;

  for (; note != NULL; note = find_note (note))
    last = note;
  return last != NULL && *(last + cro_expression_space (last)) != '\0';
}

static void
take_weighing (CroQuickRest *rest,
               CroQuick     *quick)
{
  g_autofree char *left = NULL;
  gsize cut;

  cro_quick_rest_trim (rest);
  left = cro_quick_rest_dup (rest, rest->start);
  if (quick->has_weighing || rest->words == NULL || cro_quick_find_item (rest->model, left) != CRO_NO_SLOT)
    return;
  /* Nobody trims a liquid: "20 cl de cidre brut" is dry cider. */
  if (quick->has_unit && cro_unit_get (quick->unit)->base == CRO_BASE_MILLILITRE)
    return;
  quick->as_bought = ends_with (rest, rest->words->as_bought, &cut);
  quick->has_weighing = quick->as_bought || ends_with (rest, rest->words->trimmed, &cut);
  if (!quick->has_weighing || is_within_note (rest, cut))
    return;
  /* "cleaned and trimmed", "well washed and trimmed". */
  do
    {
      rest->end = cut_back (rest, cut);
      cro_quick_rest_trim (rest);
    }
  while (ends_with (rest, quick->as_bought ? rest->words->as_bought : rest->words->trimmed, &cut));
}

/* --- Lines -------------------------------------------------------------------------------------------- */

/* The note; and the price and the amount that stand before it: "butter 250 g 9.20/kg, cold". */
static gboolean
take_behind (CroQuickRest *rest,
             CroQuick     *quick)
{
  cro_quick_rest_trim (rest);
  if (!take_note (rest, quick))
    return FALSE;
  if (quick->has_price || quick->note == NULL)
    return TRUE;
  return take_price (rest, quick)
         && (!quick->has_price || quick->has_amount || cro_quick_take_trailing_amount (rest, quick));
}

gboolean
cro_quick_read (CroModel            *model,
                const char          *text,
                const CroEntryWords *words,
                CroQuick            *quick)
{
  g_autofree char *plain = cro_written_dup_plain (text);
  CroQuickRest rest = { .model = model, .words = words, .text = plain, .end = strlen (text) };

  *quick = (CroQuick){ .unit = CRO_UNIT_EACH, .item = CRO_NO_SLOT };
  cro_quick_rest_trim (&rest);
  skip_lead (&rest);
  if (rest.start == rest.end)
    return cro_quick_fail (quick, CRO_QUICK_EMPTY, 0, rest.end);
  if (!cro_quick_take_leading_amount (&rest, quick))
    return FALSE;
  take_weighing (&rest, quick);
  if (!take_price (&rest, quick))
    return FALSE;
  take_weighing (&rest, quick);
  if (!quick->has_amount && !cro_quick_take_trailing_amount (&rest, quick))
    return FALSE;
  return take_behind (&rest, quick) && take_name (&rest, quick);
}

gboolean
cro_quick_prices_made (CroModel       *model,
                       const CroQuick *quick)
{
  return quick->has_price && quick->item != CRO_NO_SLOT && model->maker[quick->item] >= 0;
}

gboolean
cro_quick_read_line (CroModel            *model,
                     const char          *text,
                     const CroEntryWords *words,
                     CroQuick            *quick)
{
  if (!cro_quick_read (model, text, words, quick))
    return FALSE;
  return !cro_quick_prices_made (model, quick) || cro_quick_fail (quick, CRO_QUICK_MADE, 0, strlen (text));
}

CroBase
cro_quick_base (const CroQuick *quick)
{
  return cro_unit_get (quick->has_price ? quick->price_unit : quick->unit)->base;
}
