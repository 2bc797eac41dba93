/* What a list says once of all its prices, in a heading or in a line without any: their currency, and of tax what a
 * column beside them shows. In English and in French; words are common practice, no source. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-words.h"
#include "cro-unit-words.h"
#include "cro-word-list.h"
#include "cro-words.h"

#include <string.h>

static const char of_prices[] = "price|prices|prix|tarif|tarifs|all|tous|tout";
static const char of_tax[] = "vat|tva|gst|tax|taxe|taxes";
static const char beside_tax[] = "rate|taux|amount|montant|percent|pct|code|de|of|la";

static gboolean
begins_word (const char *text,
             const char *at)
{
  return at == text || !g_unichar_isalnum (g_utf8_get_char (g_utf8_prev_char (at)));
}

/* --- Currency ------------------------------------------------------------------------------------------ */

/* "pounds" is money behind "in" alone, else what a price is for. */
static const char *
sign_of_word (const char *text,
              const char *at)
{
  const char *sign = cro_word_list_scan (at, "sterling") > 0 ? "£" : cro_currency_sign_of_word (at);
  gboolean is_pound = sign != NULL && cro_word_list_scan (at, "pound|pounds") > 0;

  gboolean is_behind_in = at - text >= 3 && at[-1] == ' ' && g_ascii_tolower (at[-2]) == 'n'
                          && strchr ("ieIE", at[-3]) != NULL;

  return is_pound && !is_behind_in ? NULL : sign;
}

/* Three letters that are the code of a currency, "eur" too, and no everyday word and no unit, as "kgs" is. Owned. */
static char *
dup_code (const char *at)
{
  g_autofree char *code = g_ascii_strup (at, 3);
  CroUnitMeaning ignored;
  gboolean is_it;

  if (strlen (code) < 3 || cro_currency_is_word (at) || g_unichar_isalnum (g_utf8_get_char (at + 3))
      || cro_unit_words_scan (at, cro_words_entry (), &ignored) >= 3 || cro_currency_scan (code, NULL, &is_it) != 3)
    return NULL;
  return g_steal_pointer (&code);
}

const char *
cro_price_list_currency_of_all (CroPriceList      *self,
                                const CroListBook *of,
                                const char        *text)
{
  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gboolean is_letter = g_unichar_isalpha (g_utf8_get_char (at)), ignored;
      const char *word = is_letter && begins_word (text, at) ? sign_of_word (text, at) : NULL;
      g_autofree char *code = is_letter && word == NULL && begins_word (text, at) ? dup_code (at) : NULL;
      gsize sign = is_letter || g_ascii_isdigit (*at) ? 0 : cro_currency_scan (at, NULL, &ignored);
      g_autofree char *alone = sign > 0 ? g_strndup (at, sign) : NULL;

      if (word != NULL || code != NULL || alone != NULL)
        return cro_price_list_currency (self, of, word != NULL ? word : code != NULL ? code : alone);
    }
  return NULL;
}

gboolean
cro_price_list_is_of_all (const char *text)
{
  g_autofree char *folded = cro_fold (text);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (cro_word_list_scan (words[i], of_prices) == strlen (words[i]) && *words[i] != '\0')
      return TRUE;
  return FALSE;
}

/* --- Tax ----------------------------------------------------------------------------------------------- */

gboolean
cro_price_list_is_tax_heading (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);
  gboolean has_name = FALSE;

  for (guint i = 0; words[i] != NULL; i++)
    {
      gboolean is_name = cro_word_list_scan (words[i], of_tax) == strlen (words[i]) && *words[i] != '\0';

      if (!is_name && cro_word_list_scan (words[i], beside_tax) != strlen (words[i]))
        return FALSE;
      has_name |= is_name;
    }
  return has_name;
}

static gboolean
is_near (gint64 a,
         gint64 b,
         gint64 within)
{
  return a - b <= within && b - a <= within;
}

/* In per cents of a price, which may be parts of one. */
static gint64
share_of (gint64 price,
          gint64 tax)
{
  double part = cro_decimal_to_double (tax) / (tax < CRO_MICRO ? 1 : 100);
  gint64 share;

  return cro_decimal_from_double (cro_decimal_to_double (price) * part, &share) ? share : CRO_NOT_SET;
}

/* A total beside both tells that the tax comes on top, whether it is given as an amount or as a rate. */
gboolean
cro_price_list_adds_tax (gint64 price,
                         gint64 tax,
                         gint64 total)
{
  gint64 share = share_of (price, tax);

  return total > price
         && (is_near (price + tax, total, CRO_MICRO / 100)
             || (share != CRO_NOT_SET && is_near (price + share, total, CRO_MICRO / 100)));
}

CroPriceTax
cro_price_list_tax_by_amount (gint64 price,
                              gint64 tax,
                              gint64 rate_pct)
{
  double pct = cro_decimal_to_double (rate_pct), of = cro_decimal_to_double (price);
  gint64 on_top, within;

  if (!cro_decimal_from_double (of * pct / 100, &on_top) || !cro_decimal_from_double (of * pct / (100 + pct), &within)
      || is_near (on_top, within, CRO_MICRO / 50))
    return CRO_PRICE_TAX_UNSAID;
  return is_near (tax, on_top, CRO_MICRO / 100)   ? CRO_PRICE_WITHOUT_TAX
         : is_near (tax, within, CRO_MICRO / 100) ? CRO_PRICE_WITH_TAX
                                                  : CRO_PRICE_TAX_UNSAID;
}
