/* What a list says once of all its prices: their currency, in a heading or in a line without a number, and of tax what
 * a column beside them shows. */
#include "cro-price-list-private.h"

#include "cro-currency.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-words.h"
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

#define WEEKS "week|wk|semaine|sem"
#define WEEKDAYS \
  "monday|tuesday|wednesday|thursday|friday|saturday|sunday|lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche"

static const char months[]
    = "january|february|march|april|may|june|july|august|september|october|november|december|jan|feb|mar|apr|jun|jul|"
      "aug|sep|sept|oct|nov|dec|janvier|fevrier|mars|avril|mai|juin|juillet|aout|septembre|octobre|novembre|decembre|"
      "janv|fevr|avr|juil";

/* As they stand around what is said once: of prices, of tax, of days, and what joins them. */
static const char words_of_all[]
    = "price|prices|prix|tarif|tarifs|list|liste|currency|devise|monnaie|amount|amounts|montant|montants|"
      "euro|euros|pound|pounds|sterling|dollar|dollars|livre|livres|"
      "vat|gst|tax|taxes|tva|taxe|ht|ttc|h|t|c|hors|toutes|ex|exc|excl|excluding|exclude|excludes|excluded|exclusive|"
      "without|before|net|plus|extra|not|non|inc|incl|including|include|includes|included|inclusive|with|avec|compris|"
      "comprise|comprises|incluse|incluses|sus|added|top|rate|taux|"
      "all|tous|tout|our|nos|the|le|la|les|l|are|is|sont|s|in|en|of|de|du|des|d|from|on|as|at|a|au|to|be|for|pour|and|"
      "et|new|nouveau|nouveaux|this|today|" WEEKS "|" WEEKDAYS;

/* A rate of tax, "21%", "21 %"; else a number of a day or a week: "30/11", "3rd", "30 Nov", "2026", "week 49". */
static gboolean
is_rate_or_day (const char *word,
                const char *before,
                const char *behind)
{
  gsize digits = strspn (word, "0123456789");
  const char *rest = word + digits;

  return strchr (word, '%') != NULL || (behind != NULL && *behind == '%')
         || ((*rest == '/' || *rest == '-') && g_ascii_isdigit (rest[1])) || is_among (rest, "st|nd|rd|th|er")
         || (*rest == '.' && strchr (rest + 1, '.') != NULL)
         || (*rest == '\0' && (digits == strlen ("2026") || (before != NULL && is_among (before, WEEKS))
                               || (before != NULL && is_among (before, months))
                               || (behind != NULL && is_among (behind, months))));
}

/* A word of those, of the supplier's name, or for a currency. */
static gboolean
is_of_prices (const char *word,
              const char *supplier)
{
  g_autofree char *folded = cro_fold (word), *code = g_ascii_strup (folded, -1);
  int ignored;

  return *folded == '\0' || is_among (folded, words_of_all) || is_among (folded, months)
         || cro_list_find_words (supplier, folded) != NULL || cro_currency_find (code, strlen (code), &ignored);
}

/* "ex-VAT" as two words; of "30-11" nothing changes, and "5,5 %" is one number. Owned. */
static char *
dup_parted (const char *text)
{
  char *parted = g_strdup (text);

  for (char *at = parted; *at != '\0'; at++)
    if (*at == '-' && at > parted && g_ascii_isalpha (at[-1]) && g_ascii_isalpha (at[1]))
      *at = ' ';
    else if (*at == ',' && at > parted && g_ascii_isdigit (at[-1]) && g_ascii_isdigit (at[1]))
      *at = '.';
  return parted;
}

/* "06 12 34 56 78", "+33 6 12": no price begins so. */
static gboolean
begins_phone (const char *word)
{
  return (word[0] == '0' && g_ascii_isdigit (word[1])) || (word[0] == '+' && g_ascii_isdigit (word[1]));
}

CroListNote
cro_price_list_note_of (const CroPriceList *self,
                        const char         *text)
{
  g_autofree char *supplier = cro_fold (self->supplier_name != NULL ? self->supplier_name : "");
  g_autofree char *parted = dup_parted (text);
  g_auto (GStrv) words = g_strsplit_set (parted, " \t,;:()'", -1);
  gboolean has_number = FALSE, has_other = FALSE, is_phone = FALSE;

  for (guint i = 0; words[i] != NULL; i++)
    if (strpbrk (words[i], "0123456789") == NULL)
      has_other |= !is_of_prices (words[i], supplier);
    else if ((is_phone = begins_phone (words[i]) || (is_phone && words[i][strspn (words[i], "0123456789")] == '\0')))
      has_number = has_other = TRUE;
    else if (is_rate_or_day (words[i], i > 0 ? words[i - 1] : NULL, words[i + 1]))
      has_number = TRUE;
    else
      return CRO_LIST_NOTE_NONE;
  return has_number && has_other ? CRO_LIST_NOTE_OPEN : CRO_LIST_NOTE_OF_ALL;
}

gboolean
cro_price_list_says_from (const char *text)
{
  g_autofree char *folded = cro_fold (text);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);
  gboolean is_behind_from = FALSE;

  for (guint i = 0; words[i] != NULL; i++)
    {
      if (is_behind_from && (is_among (words[i], "tomorrow|demain|next|" WEEKDAYS) || is_among (words[i], months)
                             || g_ascii_isdigit (*words[i])))
        return TRUE;
      is_behind_from |= is_among (words[i], "from|starting|effective|valid|des|partir|compter|valable|valables");
    }
  return FALSE;
}

/* --- Tax ----------------------------------------------------------------------------------------------- */

static gboolean
is_near (gint64 a,
         gint64 b,
         gint64 within)
{
  return a - b <= within && b - a <= within;
}

CroPriceTax
cro_price_list_tax_of_all (const char *text,
                           gint64     *pct)
{
  CroTax said;
  g_autofree char *rest = cro_price_take_tax_out (text, &said, pct);

  return said == CRO_TAX_NOT_SAID && !cro_price_list_is_of_all (text) ? CRO_PRICE_TAX_UNSAID
                                                                     : cro_price_heading_tax_at (text, pct);
}

gboolean
cro_price_list_leaves_tax_open (const char *text)
{
  g_autofree char *folded = cro_fold (text);

  return cro_price_heading_leaves_tax_open (text) || cro_list_find_words (folded, "net prices") != NULL
         || cro_list_find_words (folded, "prices net") != NULL || cro_list_find_words (folded, "prix nets") != NULL;
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
