/* Numbers of a line of a message, and what stands around them: currency, tax, what a price is for. */
#include "cro-price-list-line.h"

#include "cro-decimal.h"
#include "cro-expression.h"
#include "cro-unit-words.h"
#include "cro-word-list.h"
#include "cro-words.h"

#include <string.h>

/* ".95" is one, and nothing else that begins with a sign is. */
gboolean
cro_list_begins_number (const char *text)
{
  gsize n = *text == '.' || *text == ',' ? strspn (text + 1, "0123456789") : 0;

  return g_ascii_isdigit (*text) || ((n == 1 || n == 2) && text[n + 1] != '.' && text[n + 1] != ',');
}

/* Digits, signs, and the spaces of French numbers between three digits; a plain space is none, as it may stand
 * between a code and a price. */
static gsize
number_length (const char *text)
{
  gsize n = cro_list_begins_number (text) ? strspn (text, "0123456789.,") : 0;

  for (gsize space; n > 0; n += space + strspn (text + n + space, "0123456789.,"))
    {
      space = g_str_has_prefix (text + n, "\u00a0")   ? strlen ("\u00a0")
              : g_str_has_prefix (text + n, "\u202f") ? strlen ("\u202f")
                                                      : 0;
      if (space == 0 || strspn (text + n + space, "0123456789") != 3)
        break;
    }
  while (n > 0 && !g_ascii_isdigit (text[n - 1]))
    n--;
  return n;
}

/* Of a number that millionths hold. */
#define MOST_DIGITS 12

/* The number that begins text, in millionths, and the bytes of it; 0: none. */
static gsize
scan_number (CroListLine *self,
             const char  *text,
             gint64      *number)
{
  gsize n = number_length (text);
  g_autofree char *word = NULL;
  CroReadCell cell = { CRO_READ_CELL_TEXT, NULL, NULL, FALSE };

  if (n == 0)
    return 0;
  n += cro_price_scan_even (text + n);
  word = g_strdup_printf ("%s%.*s", g_ascii_isdigit (*text) ? "" : "0", (int) n, text);
  cell.text = word;
  if (cro_brought_number (&self->numbers, &cell, 0, number, NULL))
    return n;
  if (cro_brought_is_doubtful (&self->numbers, &cell, 0))
    cro_list_row_say (self->list, &self->row, CRO_LIST_WHICH_SIGN, cro_price_list_keep (self->list, word), NULL);
  else if (strspn (text, "0123456789") > MOST_DIGITS)
    cro_list_row_say (self->list, &self->row, CRO_LIST_TOO_LARGE, NULL, NULL);
  self->is_unclear = TRUE;
  *number = 0;
  return n;
}

/* How much is open in a line. Who reads on and finds that it is not what he looked for steps back to that: the same
 * number is read again as something else, and asked about then. */
typedef struct
{
  gboolean is_unclear;
  guint    n_reasons;
} Doubt;

static Doubt
doubt_of (const CroListLine *self)
{
  return (Doubt){ self->is_unclear, self->row.reasons != NULL ? self->row.reasons->len : 0 };
}

static gsize
step_back (CroListLine *self,
           Doubt        to)
{
  self->is_unclear = to.is_unclear;
  if (to.n_reasons == 0)
    g_clear_pointer (&self->row.reasons, g_array_unref);
  else
    g_array_set_size (self->row.reasons, to.n_reasons);
  return 0;
}

gsize
cro_list_scan_unit (const char *text,
                    CroUnit    *unit)
{
  gsize space = strspn (text, " ");
  CroUnitMeaning meaning;
  gsize n = cro_unit_words_scan (text + space, cro_words_entry (), &meaning);

  if (n == 0 || meaning.kind != CRO_UNIT_WORD_ONE || g_unichar_isalpha (g_utf8_get_char (text + space + n)))
    return 0;
  *unit = meaning.units[0];
  return space + n;
}

/* "eur/kg", "21.00 gbp": a code in small letters before "/", or of the supplier's currency or the book's. FALSE: none
 * begins text. */
static gboolean
read_small_code (CroListLine *self,
                 const char  *text,
                 char         code[4])
{
  gboolean is_it;

  for (guint i = 0; i < 3; i++)
    if (!g_ascii_islower (text[i]))
      return FALSE;
  for (guint i = 0; i < 3; i++)
    code[i] = g_ascii_toupper (text[i]);
  code[3] = '\0';
  return !g_unichar_isalpha (g_utf8_get_char (text + 3)) && !cro_currency_is_word (text)
         && cro_currency_scan (code, NULL, &is_it) == 3
         && (text[3] == '/' || g_strcmp0 (code, self->of->currency) == 0
             || g_strcmp0 (code, self->of->model->currency) == 0);
}

gsize
cro_list_line_scan_currency (CroListLine *self,
                             const char  *text)
{
  gsize space = strspn (text, " ");
  gboolean is_it;
  gsize n = g_ascii_isdigit (text[space]) ? 0 : cro_currency_scan (text + space, NULL, &is_it);
  const char *rest = text + space + n + strspn (text + space + n, " ");
  char code[4];

  /* "17 ALL SIZES" */
  if (n > 0 && cro_currency_is_word (text + space) && g_unichar_isalpha (g_utf8_get_char (rest))
      && cro_price_scan_per (rest) == 0)
    return 0;
  if (n == 0 && read_small_code (self, text + space, code))
    {
      self->row.currency = cro_price_list_currency (self->list, self->of, code);
      return space + 3;
    }
  if (n == 0)
    n = cro_currency_scan_word (text + space, NULL, &is_it);
  if (n > 0)
    self->row.currency = cro_price_list_currency (self->list, self->of, text + space);
  return n > 0 ? space + n : 0;
}

/* The same behind a unit: that of a number which follows is no part of it, and three letters before other words, or
 * that are a word themselves, "ALL", are a currency only where they are the supplier's. */
gsize
cro_list_line_scan_currency_behind (CroListLine *self,
                                    const char  *text)
{
  gsize space = strspn (text, " ");
  gboolean is_own = FALSE;
  gsize n = cro_currency_scan (text + space, self->of->currency, &is_own);
  const char *rest = text + space + n + strspn (text + space + n, " ");

  if (g_ascii_isdigit (*rest)
      || (n > 0 && g_ascii_isalpha (text[space]) && !is_own
          && (*rest != '\0' || cro_currency_is_word (text + space))))
    return 0;
  return cro_list_line_scan_currency (self, text);
}

/* "ex VAT", "(TTC)"; of both at once nothing can be said. */
gsize
cro_list_line_scan_tax (CroListLine *self,
                        const char  *text)
{
  gsize space = strspn (text, " "), bracket = text[space] == '(';
  CroTax tax;
  gint64 pct;
  gsize n = cro_price_scan_tax (text + space + bracket, &tax, &pct);
  CroPriceTax says = tax == CRO_TAX_WITH ? CRO_PRICE_WITH_TAX : CRO_PRICE_WITHOUT_TAX;

  if (n == 0)
    return 0;
  n += space + bracket;
  self->is_unclear |= self->row.says_tax != CRO_PRICE_TAX_UNSAID && self->row.says_tax != says;
  self->row.says_tax = says;
  self->row.tax_pct = pct;
  return n + (bracket && text[n] == ')');
}

void
cro_list_line_take_price (CroListLine *self,
                          gint64       price)
{
  if (self->row.has_price)
    self->is_unclear = TRUE;
  self->row.has_price = TRUE;
  self->row.price = price;
}

/* "× 250 g" behind a count. */
static gsize
scan_times (CroListLine *self,
            const char  *text,
            gint64       count)
{
  gsize space = strspn (text, " "), times = 0, n, unit;
  gint64 size;
  Doubt before;
  CroUnit of;

  if (g_str_has_prefix (text + space, "×"))
    times = strlen ("×");
  else if ((text[space] == 'x' || text[space] == 'X' || text[space] == '*'))
    times = 1;
  if (times == 0)
    return 0;
  times += space;
  times += strspn (text + times, " ");
  before = doubt_of (self);
  n = scan_number (self, text + times, &size);
  unit = n > 0 ? cro_list_scan_unit (text + times + n, &of) : 0;
  /* "6 x 30" are pieces. */
  if (n == 0 || (unit == 0 && g_unichar_isalpha (g_utf8_get_char (text + times + n + strspn (text + times + n, " ")))))
    return step_back (self, before);
  if (unit == 0)
    of = CRO_UNIT_EACH;
  self->row.pack = (CroPack){ count, size, of };
  return times + n + unit;
}

/* "/kg", "per 5 kg", "/6 × 1 l", "le kilo" behind a price. */
gsize
cro_list_line_scan_per (CroListLine *self,
                        const char  *text)
{
  gsize space = strspn (text, " "), per = cro_price_scan_per (text + space), n, times, unit;
  gint64 size = 0;
  Doubt before = doubt_of (self);
  CroUnit of;

  if (per == 0)
    return 0;
  per += space;
  per += strspn (text + per, " ");
  n = scan_number (self, text + per, &size);
  times = n > 0 ? scan_times (self, text + per + n, size) : 0;
  if (times > 0)
    return per + n + times;
  unit = cro_list_scan_unit (text + per + n, &of);
  if (unit == 0)
    return step_back (self, before);
  if (n > 0)
    {
      self->row.pack = (CroPack){ CRO_MICRO, size, of };
      self->row.is_per_measure = TRUE;
    }
  else
    {
      self->row.has_per = TRUE;
      self->row.per = of;
    }
  return per + n + unit;
}

void
cro_list_line_add_priced_as (CroListLine *self,
                             const char  *word)
{
  const char *before = self->row.priced_as;
  g_autofree char *all = before != NULL ? g_strdup_printf ("%s %s", before, word) : NULL;

  self->row.priced_as = cro_price_list_keep (self->list, all != NULL ? all : word);
}

/* What a line says its price is for, in words. */
gsize
cro_list_line_take_phrase (CroListLine *self,
                           const char  *text,
                           gsize      (*scan) (const char *text, char **word))
{
  g_autofree char *word = NULL;
  gsize n = scan (text, &word);

  if (n > 0)
    cro_list_line_add_priced_as (self, word);
  return n;
}

/* What may be goods is of the name where the price has its unit, "9.80/kg tête de veau". */
static gsize
take_package (CroListLine *self,
              const char  *text)
{
  g_autofree char *word = NULL;
  gsize n = cro_list_scan_package (text, &word);

  if (n == 0 || (self->row.has_per && cro_list_is_goods_word (word)))
    return 0;
  cro_list_line_add_priced_as (self, word);
  return n;
}

/* "12 heads", and "140s": of how many a box is. */
static gsize
scan_pieces (const char *text)
{
  static const char *const words[] = {
    "heads", "head", "bunches", "bunch", "tetes", "têtes", "tête", "bottes", "botte",
  };
  gsize space = strspn (text, " "), bytes = 0;

  if (*text == 's' && !g_unichar_isalnum (g_utf8_get_char (text + 1)))
    return 1;
  for (gsize i = 0; i < G_N_ELEMENTS (words) && bytes == 0; i++)
    {
      bytes = cro_expression_starts (text + space, words[i]);
      if (g_unichar_isalpha (g_utf8_get_char (text + space + bytes)))
        bytes = 0;
    }
  return bytes > 0 ? space + bytes : 0;
}

/* --- A change of the last price ------------------------------------------------------------------------ */

/* A number and "%", of which sign stands before it, 0 where none does. Which way it went is asked where that is not
 * said, or said twice in two ways; and so is all of a line that says more than one change, or a price with it. */
gsize
cro_list_line_take_pct (CroListLine *self,
                        const char  *text,
                        int          sign)
{
  gint64 number;
  Doubt before = doubt_of (self);
  gsize n = scan_number (self, text, &number), pct = n > 0 ? cro_list_scan_pct (text + n) : 0, more;
  int said, behind;

  if (pct == 0)
    return step_back (self, before);
  n += pct;
  said = cro_list_take_way (self->name);
  more = cro_list_scan_way (text + n, &behind);
  if (sign == 0)
    sign = said;
  if (sign == 0)
    sign = behind;
  self->is_unclear |= self->has_pct || sign == 0 || number == 0 || (said != 0 && said != sign)
                      || (behind != 0 && behind != sign);
  self->has_pct = TRUE;
  self->row.change_pct = sign * number;
  return n + more;
}

/* Whether so many of a unit are pieces of which none is cut, or are none. */
static gboolean
are_whole_pieces (gint64  number,
                  CroUnit unit)
{
  const CroUnitInfo *info = cro_unit_get (unit);

  return info->base != CRO_BASE_EACH || number % CRO_MICRO * info->numerator % (CRO_MICRO * info->denominator) == 0;
}

/* "20.00 pc": nobody counts so. */
static gboolean
has_cents (const char *number,
           gsize       n)
{
  return n > 3 && strchr (".,", number[n - 3]) != NULL && strspn (number + n - 2, "0123456789") >= 2;
}

/* "pounds" behind a number, which is a weight or money. */
static gsize
scan_pounds (const char *text)
{
  gsize space = strspn (text, " "), bytes = cro_word_list_scan (text + space, "pound|pounds|livre|livres");

  return bytes > 0 ? space + bytes : 0;
}

/* "11.50 pounds": nobody weighs so. */
static gsize
scan_pounds_of_money (CroListLine *self,
                      const char  *text,
                      gsize        number)
{
  gsize bytes = has_cents (text, number) ? scan_pounds (text + number) : 0;

  if (bytes > 0)
    self->row.currency = cro_price_list_currency (self->list, self->of, "£");
  return bytes;
}

/* Whether a code of two digits ends before text. */
static gboolean
is_code_behind (CroListLine *self,
                const char  *text)
{
  g_autofree char *code = g_strndup (text - 2, 2);

  return g_hash_table_contains (self->of->codes, code);
}

/* What a number is shows in what stands around it. */
gsize
cro_list_line_take_number (CroListLine *self,
                           const char  *text,
                           gboolean     is_money)
{
  gint64 number, cents;
  gboolean is_behind_money;
  gsize n = scan_number (self, text, &number), more;
  CroUnit unit;

  if (n == 0)
    return 0;
  if (!is_money && (more = scan_times (self, text + n, number)) > 0)
    return n + more;
  is_behind_money = is_money;
  more = cro_list_line_scan_currency (self, text + n);
  if (more == 0)
    more = scan_pounds_of_money (self, text, n);
  is_money |= more > 0;
  n += more;
  if (more > 0 && !is_behind_money && (more = cro_list_scan_cents (text, n - more, n, &cents)) > 0
      && !is_code_behind (self, text + more))
    {
      number += cents;
      n = more;
    }
  n += cro_price_scan_even (text + n);
  /* Only money is with or without tax. */
  more = cro_list_line_scan_tax (self, text + n);
  is_money |= more > 0;
  n += more;
  n += more > 0 ? cro_list_line_scan_currency_behind (self, text + n) : 0;
  more = cro_list_line_take_phrase (self, text + n, cro_list_scan_net);
  is_money |= more > 0;
  n += more;
  more = cro_list_line_scan_per (self, text + n);
  if (more == 0 && is_money && (more = cro_list_scan_unit (text + n, &unit)) > 0)
    {
      /* "9.20 € kilo" */
      self->row.has_per = TRUE;
      self->row.per = unit;
    }
  if (more > 0 || is_money)
    {
      cro_list_line_take_price (self, number);
      n += more;
      n += more > 0 && !is_money ? cro_list_line_scan_currency_behind (self, text + n) : 0;
      return n + take_package (self, text + n);
    }
  if ((more = cro_list_scan_unit (text + n, &unit)) > 0
      && (!are_whole_pieces (number, unit) || (unit == CRO_UNIT_EACH && has_cents (text, n))))
    {
      /* "0.90 each", "11.40 doz": of no part of a piece there is a pack. */
      cro_list_line_take_price (self, number);
      self->row.has_per = TRUE;
      self->row.per = unit;
      n += more;
      return n + cro_list_line_scan_currency_behind (self, text + n);
    }
  if (more > 0)
    {
      /* "11 pounds 50" may be of 11 pounds, or 11.50. */
      self->is_unclear |= scan_pounds (text + n) == more && cro_list_scan_cents (text, n, n + more, &cents) > 0;
      self->row.pack = (CroPack){ CRO_MICRO, number, unit };
      self->is_each = cro_word_list_scan (text + n + strspn (text + n, " "), "each|ea|apiece") > 0;
      n += more;
      return n + take_package (self, text + n);
    }
  if (number % CRO_MICRO == 0 && (more = scan_pieces (text + n)) > 0)
    {
      self->row.pack = (CroPack){ CRO_MICRO, number, CRO_UNIT_EACH };
      return n + more;
    }
  if ((more = take_package (self, text + n)) > 0)
    {
      is_money = number % CRO_MICRO != 0 || cro_price_scan_per (text + n + strspn (text + n, " (")) > 0;
      n += more;
      /* "7 per case" is a price, "1 bag" counts what one is for, "37 case" may be either. */
      if (is_money)
        cro_list_line_take_price (self, number);
      if (is_money || number == CRO_MICRO)
        return n;
    }
  if (self->n_plain < G_N_ELEMENTS (self->plain))
    self->plain[self->n_plain++] = number;
  else
    self->is_unclear = TRUE;
  return n;
}

/* A sign or a code that stands in a line; NULL: "ron" is none, "pounds" is read beside its number, and "RON" may be of
 * a name of the book. */
static const char *
read_named_currency (CroListLine *self,
                     const char  *line,
                     const char  *named)
{
  if (strstr (line, named) == NULL
      || (g_ascii_isalpha (*named) && strstr (self->name->str, named) != NULL
          && cro_list_book_has_name (self->of, self->name->str)))
    return NULL;
  return cro_price_list_currency (self->list, self->of, named);
}

void
cro_list_line_settle_currency (CroListLine *self,
                               const char  *line)
{
  g_auto (GStrv) named = self->row.has_price ? cro_price_heading_dup_currencies (line) : NULL;

  for (guint i = 0; named != NULL && named[i] != NULL; i++)
    {
      const char *other = read_named_currency (self, line, named[i]);

      if (self->row.currency == NULL)
        self->row.currency = other;
      if (other == NULL || strcmp (other, self->row.currency) == 0)
        continue;
      self->is_unclear = TRUE;
      cro_list_row_say (self->list, &self->row, CRO_LIST_UNSURE, named[i], NULL);
      return;
    }
}
