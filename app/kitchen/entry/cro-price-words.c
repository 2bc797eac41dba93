#include "cro-price-words.h"

#include <string.h>

#include "cro-currency.h"
#include "cro-decimal.h"
#include "cro-expression.h"
#include "cro-line.h"
#include "cro-word-list.h"

/* A sign, and all currencies that write it. */
static const struct { const char *sign, *codes; } signs[] = {
  { "€", "EUR" },
  { "£", "GBP EGP FKP GIP LBP SHP SSP SYP SDG" },
  { "$", "USD AUD BBD BMD BND BSD BZD CAD CLP COP FJD GYD HKD JMD KYD LRD MXN NAD NZD SBD SGD SRD "
         "TTD TWD XCD" },
  { "US$", "USD" }, { "A$", "AUD" }, { "C$", "CAD" }, { "NZ$", "NZD" }, { "HK$", "HKD" },
  { "S$", "SGD" },  { "R$", "BRL" }, { "¥", "JPY CNY" }, { "₹", "INR" }, { "₺", "TRY" },
  { "₩", "KRW" },   { "₪", "ILS" },  { "₫", "VND" },   { "₱", "PHP" }, { "฿", "THB" },
  { "₴", "UAH" },   { "₽", "RUB" },  { "kr.", "DKK NOK SEK ISK" }, { "kr", "DKK NOK SEK ISK" },
  { "zł", "PLN" },  { "Kč", "CZK" }, { "Ft", "HUF" },  { "Fr.", "CHF" }, { "SFr.", "CHF" },
};

static gboolean
ends_word (const char *at)
{
  return !g_unichar_isalpha (g_utf8_get_char (at));
}

/* "GBP"; the field's own in small letters too. */
static gsize
scan_code (const char *text,
           const char *currency,
           gboolean   *is_it)
{
  int digits;

  if (strnlen (text, 3) < 3 || !ends_word (text + 3))
    return 0;
  *is_it = currency != NULL && g_ascii_strncasecmp (text, currency, 3) == 0;
  return *is_it || cro_currency_find (text, 3, &digits) ? 3 : 0;
}

gsize
cro_currency_scan (const char *text,
                   const char *currency,
                   gboolean   *is_it)
{
  gsize longest = scan_code (text, currency, is_it);

  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    {
      gsize bytes;

      /* Most texts begin with none of them. */
      if (*signs[i].sign != *text)
        continue;
      bytes = strlen (signs[i].sign);
      if (bytes <= longest || !g_str_has_prefix (text, signs[i].sign)
          || (g_unichar_isalpha (g_utf8_get_char (g_utf8_prev_char (text + bytes)))
              && !ends_word (text + bytes)))
        continue;
      longest = bytes;
      *is_it = currency != NULL && strstr (signs[i].codes, currency) != NULL;
    }
  if (longest == 0 && g_unichar_type (g_utf8_get_char (text)) == G_UNICODE_CURRENCY_SYMBOL)
    {
      *is_it = FALSE;
      return (gsize) (g_utf8_next_char (text) - text);
    }
  return longest;
}

static const struct { const char *sign, *words[5]; } named[] = {
  { "€", { "euro", "euros", NULL } },
  { "£", { "pound", "pounds", "livre", "livres", NULL } },
  { "£", { "sterling", NULL } },
  { "$", { "dollar", "dollars", NULL } },
  { "Fr.", { "francs", "swiss franc", "swiss francs", NULL } },
};

const char *
cro_currency_sign_of_word (const char *text)
{
  for (gsize i = 0; i < G_N_ELEMENTS (named); i++)
    if (cro_price_scan_word (text, named[i].words) > 0)
      return named[i].sign;
  return NULL;
}

gsize
cro_currency_scan_word (const char *text,
                        const char *currency,
                        gboolean   *is_it)
{
  for (gsize i = 0; i < G_N_ELEMENTS (named); i++)
    {
      gsize bytes = cro_price_scan_word (text, named[i].words);
      const char *rest = text + bytes + cro_expression_space (text + bytes);
      gboolean is_weight = bytes > 0 && *named[i].words[0] == 'p'
                           && (cro_price_scan_per (rest) == 0 || cro_word_list_scan (rest, "for|pour") > 0);

      if (bytes > 0 && !is_weight)
        {
          cro_currency_scan (named[i].sign, currency, is_it);
          return bytes;
        }
    }
  return 0;
}

static gboolean
is_end (const char *text)
{
  return text[strspn (text, " )")] == '\0';
}

gsize
cro_currency_scan_last (const char *text)
{
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gboolean is_it, begins = at > text && (!g_unichar_isalpha (g_utf8_get_char (at))
                                             || ends_word (g_utf8_prev_char (at)));
      gsize bytes = begins ? cro_currency_scan (at, NULL, &is_it) : 0;

      if (bytes == 0 && begins)
        bytes = cro_currency_scan_word (at, NULL, &is_it);
      if (bytes > 0 && is_end (at + bytes))
        return (gsize) (at - text);
    }
  return strlen (text);
}

gboolean
cro_currency_is_word (const char *text)
{
  static const char *const words[] = { "all", "bob", "cop", "cup", "gel", "mad", "mop", "pen", "top", "try" };

  for (gsize i = 0; i < G_N_ELEMENTS (words); i++)
    /* "All-in" */
    if (g_ascii_strncasecmp (text, words[i], 3) == 0 && !g_unichar_isalnum (g_utf8_get_char (text + 3)))
      return TRUE;
  return FALSE;
}

/* The one currency of what begins text, of so many bytes. */
static gboolean
only_currency (const char *text,
               gsize       bytes,
               char        code[4])
{
  int digits;

  for (gsize i = 0; i < G_N_ELEMENTS (signs); i++)
    if (strlen (signs[i].sign) == bytes && g_str_has_prefix (text, signs[i].sign))
      {
        g_strlcpy (code, signs[i].codes, 4);
        return strlen (signs[i].codes) == 3;
      }
  if (bytes != 3 || !cro_currency_find (text, bytes, &digits))
    return FALSE;
  g_strlcpy (code, text, 4);
  return TRUE;
}

const char *
cro_currency_find_sign (const char *text)
{
  while (*text != '\0' && g_unichar_type (g_utf8_get_char (text)) != G_UNICODE_CURRENCY_SYMBOL)
    text = g_utf8_next_char (text);
  return *text != '\0' ? text : NULL;
}

gboolean
cro_currency_of_sign (const char *sign,
                      char        code[4])
{
  return only_currency (sign, strlen (sign), code);
}

gboolean
cro_currency_of_text (const char *text,
                      char        code[4])
{
  gboolean is_behind_number = FALSE;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gboolean is_it, begins_word = at == text || !g_unichar_isalpha (g_utf8_get_char (g_utf8_prev_char (at)));
      gsize bytes = begins_word && !g_ascii_isdigit (*at) ? cro_currency_scan (at, NULL, &is_it) : 0;

      if (bytes > 0 && (is_behind_number || g_ascii_isdigit (at[bytes + cro_expression_space (at + bytes)])))
        return only_currency (at, bytes, code);
      if (!g_unichar_isspace (g_utf8_get_char (at)))
        is_behind_number = g_ascii_isdigit (*at);
    }
  return FALSE;
}

/* "10.-12" is no price without cents. */
gsize
cro_price_scan_even (const char *text)
{
  static const char *const dashes[] = { "-", "–", "—", "−" };
  const char *at = text + 1;

  if (*text != ',' && *text != '.')
    return 0;
  for (gsize i = 0; i < G_N_ELEMENTS (dashes); i++)
    while (g_str_has_prefix (at, dashes[i]))
      at += strlen (dashes[i]);
  return at > text + 1 && !g_ascii_isdigit (*at) ? (gsize) (at - text) : 0;
}

gsize
cro_price_scan_word (const char        *text,
                     const char *const *words)
{
  gsize longest = 0;

  for (; *words != NULL; words++)
    {
      gsize bytes = cro_expression_starts (text, *words);

      if (bytes > longest && ends_word (text + bytes))
        longest = bytes;
    }
  return longest;
}

gsize
cro_price_scan_hour (const char *text)
{
  static const char *const before[] = { "de l'", "de l’", NULL };
  static const char *const hours[] = { "h", "hr", "hour", "heure", NULL };
  gsize space = cro_expression_space (text), per = cro_price_scan_per (text + space), bytes;

  /* "l'" ends in no word. */
  for (gsize i = 0; per == 0 && before[i] != NULL; i++)
    per = cro_expression_starts (text + space, before[i]);
  if (per == 0)
    return 0;
  space += per;
  space += cro_expression_space (text + space);
  bytes = cro_price_scan_word (text + space, hours);
  return bytes > 0 ? space + bytes : 0;
}

gsize
cro_price_scan_per (const char *text)
{
  static const char *const words[] = { "per", "a", "an", "the", "for", "par", "le", "la", "à la", "les", "au", "aux",
                                       "du", "pour", NULL };

  if (*text == '/')
    return 1;
  if (g_str_has_prefix (text, "l'"))
    return strlen ("l'");
  if (g_str_has_prefix (text, "l’"))
    return strlen ("l’");
  return cro_price_scan_word (text, words);
}

/* --- Tax -------------------------------------------------------------------------------------------- */

/* What says something of tax is never longer. */
#define MOST_OF_TAX 128

static const char tax_names[] = "vat|gst|tax|taxes|tva|taxe";

/* What says the same of the tax: by itself, before its name and behind it. */
typedef struct
{
  const char *alone, *before, *behind;
} TaxWords;

/* A negation stands here with what it negates: "include" alone says the opposite. */
static const TaxWords without_tax = {
  "h t|htva|not t t c|non t t c|pas t t c",
  "ex|exc|excl|excluding|exclude|excludes|exclusive of|before|without|net of|plus|hors|sans|avant|not inc|not incl|"
  "not include|not including|not inclusive of|not with|do not include|does not include|don t include|doesn t include|"
  "dont include|doesnt include|no longer include|no longer includes|no longer including|never include|"
  "never includes|ne comprend pas|ne comprennent pas|ne comprenant pas|n inclut pas|n incluent pas|n incluant pas",
  "excl|excluded|exclusive|extra|free|not inc|not incl|not in|not included|not inclusive|isn t included|"
  "aren t included|isnt included|arent included|no longer included|non compris|non comprise|non comprises|non inclus|"
  "non incluse|non incluses|pas comprise|pas comprises|pas incluse|pas incluses|n est pas comprise|n est pas incluse|"
  "ne sont pas comprises|ne sont pas incluses|en sus|en plus|a ajouter|on top|to add|to be added|will be added|"
  "is added",
};

static const TaxWords with_tax = {
  "t t c|tvac|toutes taxes comprises",
  "inc|incl|include|includes|including|inclusive of|with|avec|y compris|comprend|comprennent|comprenant|inclut|"
  "incluent|incluant",
  "inc|incl|included|inclusive|compris|comprise|comprises|inclus|incluse|incluses",
};

static gsize
scan_spaced (const char *text,
             const char *words)
{
  gsize space = cro_expression_space (text), bytes = cro_word_list_scan (text + space, words);

  /* "excl." */
  if (bytes > 0 && text[space + bytes] == '.')
    bytes++;
  return bytes > 0 ? space + bytes : 0;
}

/* "21 %"; *pct in millionths where it is one of a tax. */
static gsize
scan_rate (const char *text,
           gint64     *pct)
{
  gsize space = cro_expression_space (text), digits = strspn (text + space, "0123456789.,");
  gsize more = space + digits + cro_expression_space (text + space + digits);
  g_autofree char *number = g_strdelimit (g_strndup (text + space, digits), ",", '.');
  gint64 read;

  if (digits == 0 || text[more] != '%')
    return 0;
  if (cro_decimal_parse (number, digits, &read) == CRO_DECIMAL_OK && read <= CRO_WHOLE_PCT)
    *pct = read;
  return more + 1;
}

/* The same behind what says that tax is in a price: "TTC 10 %", "incl. VAT at 10 %", "TTC (10 %)". */
static gsize
scan_rate_behind (const char *text,
                  gint64     *pct)
{
  gsize at = scan_spaced (text, "at|a"), rate;
  gboolean has_bracket;

  at += cro_expression_space (text + at);
  has_bracket = text[at] == '(';
  at += has_bracket;
  rate = scan_rate (text + at, pct);
  at += rate;
  return rate == 0 ? 0 : has_bracket && text[at] == ')' ? at + 1 : at;
}

/* The name of a tax with one of the words before it, "ex VAT", or behind it, "VAT is included"; with the rate of it
 * between them. */
static gsize
scan_named_tax (const char     *text,
                const TaxWords *words,
                gboolean        takes_plus,
                gint64         *pct)
{
  gsize plus = *text == '+' && takes_plus, word = plus > 0 ? plus : scan_spaced (text, words->before), end, is;

  if (word > 0)
    {
      end = word + scan_spaced (text + word, "the|la|any|all");
      end += scan_rate (text + end, pct);
      word = scan_spaced (text + end, tax_names);
      return word > 0 ? end + word : 0;
    }
  end = scan_rate (text, pct);
  word = scan_spaced (text + end, tax_names);
  if (word == 0)
    return 0;
  end += word;
  end += scan_rate (text + end, pct);
  is = scan_spaced (text + end, "is|are|est|sont");
  word = MAX (scan_spaced (text + end, words->behind),
              is > 0 ? is + scan_spaced (text + end + is, words->behind) : 0);
  return word > is ? end + word : 0;
}

/* As much of a text as may say it, in which hyphens and apostrophes are blanks: "ex-VAT", "don’t include VAT". Owned;
 * its bytes are where those of the text are. */
static char *
dup_plain (const char *text)
{
  gsize n = strnlen (text, MOST_OF_TAX);
  char *plain;

  while ((text[n] & 0xc0) == 0x80)
    n--;
  plain = g_strdelimit (g_strndup (text, n), "-'", ' ');
  for (char *at = plain; (at = strstr (at, "\u2019")) != NULL;)
    memset (at, ' ', strlen ("\u2019"));
  return plain;
}

/* The rate once more behind what says whether the tax is in a price, with the name of the tax: "HT + TVA 10 %", "TTC
 * dont 10 % de TVA", "TTC (TVA 5,5 %)"; or "incl. VAT of 10 %", "incl. VAT @ 10 %". */
static gsize
scan_rate_once_more (const char *text,
                     gint64     *pct)
{
  static const char of_words[] = "of|at|de|a|au taux de";
  gsize at = cro_expression_space (text), of, name, rate;
  gboolean has_bracket = text[at] == '(', is_at = text[at] == '@';

  at += text[at] != '\0' && strchr ("+,;(@", text[at]) != NULL;
  at += scan_spaced (text + at, "plus|dont|of which|including|soit");
  name = scan_spaced (text + at, tax_names);
  at += name;
  of = scan_spaced (text + at, of_words);
  at += of;
  rate = scan_rate (text + at, pct);
  at += rate;
  if (rate == 0)
    return 0;
  if (name == 0)
    {
      gsize behind = scan_spaced (text + at, "de|of");

      name = scan_spaced (text + at + behind, tax_names);
      at += name > 0 ? behind + name : 0;
    }
  if (name == 0 && of == 0 && !is_at)
    return 0;
  return at + (has_bracket && text[at] == ')');
}

gsize
cro_price_scan_tax (const char *text,
                    CroTax     *tax,
                    gint64     *pct)
{
  gint64 said = -1, once_more = -1, ignored;
  g_autofree char *plain = dup_plain (text);
  gsize without = MAX (scan_spaced (plain, without_tax.alone), scan_named_tax (plain, &without_tax, TRUE, &ignored)),
        with = MAX (scan_spaced (plain, with_tax.alone), scan_named_tax (plain, &with_tax, FALSE, &said)), more;
  gboolean is_with = with > without;

  if (is_with && pct != NULL)
    with += scan_rate_behind (plain + with, &said);
  more = pct != NULL && MAX (with, without) > 0 ? scan_rate_once_more (plain + MAX (with, without), &once_more) : 0;
  if (is_with && said < 0)
    said = once_more;
  /* Of two rates none is passed over. */
  if (is_with && once_more != said)
    more = 0;
  if (pct != NULL)
    *pct = is_with ? MAX (said, 0) : 0;
  else if (is_with && said >= 0)
    with = without = 0;
  /* "incl. 0 % VAT" has none. */
  *tax = MAX (with, without) == 0 ? CRO_TAX_NOT_SAID : is_with && said != 0 ? CRO_TAX_WITH : CRO_TAX_WITHOUT;
  return MAX (with, without) + more;
}

char *
cro_price_take_tax_out (const char *text,
                        CroTax     *tax,
                        gint64     *pct)
{
  gboolean is_behind_letter = FALSE;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gboolean is_letter = !ends_word (at), begins = *at == '+' || (is_letter && !is_behind_letter);
      gsize bytes = begins ? cro_price_scan_tax (at, tax, pct) : 0;

      if (bytes > 0)
        return g_strdup_printf ("%.*s %s", (int) (at - text), text, at + bytes);
      is_behind_letter = is_letter;
    }
  *tax = CRO_TAX_NOT_SAID;
  if (pct != NULL)
    *pct = 0;
  return g_strdup (text);
}

/* --- Packs ------------------------------------------------------------------------------------------- */

gsize
cro_price_scan_pack (const char *text,
                     gboolean   *is_whole)
{
  gsize whole = cro_word_list_scan (text, "pack|case|box|crate|colis|caisse|carton|cagette|cageot|bourriche"),
        part = cro_word_list_scan (text, "bag|bottle|bucket|bunch|can|head|jar|packet|punnet|sack|sachet|tin|tray|tub|"
                                         "barquette|bocal|boite|botte|bouquet|bouteille|paquet|plateau|poche|pot|sac|"
                                         "seau|tete");

  *is_whole = whole > part;
  return MAX (whole, part);
}
