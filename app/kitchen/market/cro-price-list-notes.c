/* What a list says once of all its prices: their currency, in a heading or in a line without a number, and of tax what
 * a column beside them shows. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-word-list.h"

#include <string.h>

/* "All in euros" is short. */
#define MOST_WORDS_OF_ALL 4

static gboolean
is_among (const char *word,
          const char *words)
{
  return *word != '\0' && cro_word_list_scan (word, words) == strlen (word);
}

/* --- Currency ------------------------------------------------------------------------------------------ */

const char *
cro_price_list_currency_of_all (CroPriceList      *self,
                                const CroListBook *of,
                                const char        *text)
{
  g_autofree char *said = cro_price_heading_dup_currency (text);

  return said != NULL ? cro_price_list_currency (self, of, said) : NULL;
}

gboolean
cro_price_list_is_of_all (const char *text)
{
  g_autofree char *folded = cro_fold (text);
  g_auto (GStrv) words = g_strsplit_set (folded, " :;,()", -1);
  guint n = g_strv_length (words);

  for (guint i = 0; words[i] != NULL; i++)
    if (is_among (words[i], "price|prices|prix|tarif|tarifs|currency|devise|monnaie|amounts|montants"))
      return TRUE;
  /* "In GBP", "GBP" */
  return n == 1 || (n == 2 && is_among (words[0], "in|en"))
         || (n > 0 && n <= MOST_WORDS_OF_ALL && is_among (words[0], "all|tous|tout"));
}

/* --- Tax ----------------------------------------------------------------------------------------------- */

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

gboolean
cro_price_list_is_rate (const char *heading,
                        gint64      tax,
                        gint64      rate_pct)
{
  g_autofree char *folded = cro_fold (heading != NULL ? heading : "");
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (is_among (words[i], "rate|taux"))
      return TRUE;
  return (heading != NULL && strchr (heading, '%') != NULL) || tax == rate_pct || tax == rate_pct / 100;
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
