#include "cro-price-words.h"

#include <string.h>

#include "cro-currency.h"
#include "cro-expression.h"
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
  { "$", { "dollar", "dollars", NULL } },
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
  return cro_word_list_scan (text, "all|bob|cop|cup|gel|mad|mop|pen|top|try") > 0;
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

static const char tax_names[] = "vat|gst|tax|taxes|tva|taxe";

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

/* "21 %" */
static gsize
scan_rate (const char *text)
{
  gsize space = cro_expression_space (text), digits = strspn (text + space, "0123456789.,");
  gsize more = space + digits + cro_expression_space (text + space + digits);

  return digits > 0 && text[more] == '%' ? more + 1 : 0;
}

/* The name of a tax with one of the words before it, "ex VAT", or behind it, "VAT incl.". At what rate tax comes on top
 * does not matter. */
static gsize
scan_named_tax (const char *text,
                const char *before,
                const char *behind)
{
  gboolean is_without = strstr (before, "plus") != NULL;
  gsize plus = *text == '+' && is_without, word = plus > 0 ? plus : scan_spaced (text, before);
  gsize rate = is_without ? scan_rate (text + word) : 0, name = scan_spaced (text + word + rate, tax_names), end;

  if (word > 0 && name > 0)
    return word + rate + name;
  if (word > 0 || (name = scan_spaced (text, tax_names)) == 0)
    return 0;
  end = name + (is_without ? scan_rate (text + name) : 0);
  word = scan_spaced (text + end, behind);
  return word > 0 ? end + word : 0;
}

gsize
cro_price_scan_tax (const char *text,
                    CroTax     *tax)
{
  gsize without = MAX (scan_spaced (text, "h t|htva"),
                       scan_named_tax (text, "ex|exc|excl|excluding|exclusive of|before|without|net of|plus|hors|sans",
                                       "excl|excluded|exclusive|extra|not incl|not included|non comprise|"
                                       "non incluse|en sus|en plus|a ajouter|on top|to add|to be added")),
        with = MAX (scan_spaced (text, "t t c|tvac|toutes taxes comprises"),
                    scan_named_tax (text, "inc|incl|including|inclusive of|with|avec",
                                    "inc|incl|included|inclusive|comprise|comprises|incluse|incluses"));

  *tax = with > without ? CRO_TAX_WITH : without > 0 ? CRO_TAX_WITHOUT : CRO_TAX_NOT_SAID;
  return MAX (with, without);
}

char *
cro_price_take_tax_out (const char *text,
                        CroTax     *tax)
{
  gboolean is_behind_letter = FALSE;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gboolean is_letter = !ends_word (at), begins = *at == '+' || (is_letter && !is_behind_letter);
      gsize bytes = begins ? cro_price_scan_tax (at, tax) : 0;

      if (bytes > 0)
        return g_strdup_printf ("%.*s %s", (int) (at - text), text, at + bytes);
      is_behind_letter = is_letter;
    }
  *tax = CRO_TAX_NOT_SAID;
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
