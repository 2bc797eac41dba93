#include "cro-price-heading.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-day.h"
#include "cro-price-saying.h"
#include "cro-price-token.h"
#include "cro-price-words.h"
#include "cro-unit-words.h"
#include "cro-word-list.h"
#include "cro-words.h"

#include <string.h>

/* Folded, with | around each. */
#define TAX_WORDS "|tax|taxes|taxe|vat|tva|gst|"
#define RATE_WORDS "|rate|taux|percent|pct|"
#define AMOUNT_WORDS "|amount|montant|"
#define CODE_WORDS "|code|class|category|type|band|status|statut|categorie|classe|"
#define JOINTS "|de|of|la|"
#define GROSS_WORDS "|gross|brut|"
#define SUM_WORDS "|price|prices|prix|amount|montant|unit|unitaire|total|"
#define TOTAL_WORDS                                                                                \
  "|total|totals|totaux|due|sum|somme|pay|payer|payable|to|a|net|price|prix|incl|inc|ttc|tvac|"    \
  TAX_WORDS AMOUNT_WORDS GROSS_WORDS
#define PAST_WORDS                                                                                 \
  "|last|old|previous|prev|former|ancien|ancienne|dernier|derniere|precedent|precedente|yesterday|"     \
  "hier|"
#define NOW_WORDS                                                                                  \
  "|new|this|today|current|now|next|nouveau|nouvelle|actuel|actuelle|prochain|prochaine|cette|"
#define NET_WORDS "|net|nett|discounted|remise|"
#define LIST_WORDS "|list|catalogue|gross|brut|public|rrp|tarif|base|"
#define PRICE_WORDS "|price|prices|prix|tarif|cost|"
#define PACK_WORDS "|pack|case|box|colis|carton|caisse|crate|"
#define UNIT_WORDS                                                                                 \
  "|kg|kilo|kilogram|g|l|litre|liter|lb|piece|pieces|pc|each|unit|unitaire|unite|pu|ea|u|"

CroPriceTax
cro_price_heading_tax_at (const char *heading,
                          gint64     *pct)
{
  CroPriceSaying saying = cro_price_saying_of (heading, NULL);

  *pct = saying.tax_pct;
  return saying.tax;
}

CroPriceTax
cro_price_heading_tax (const char *heading)
{
  gint64 ignored;

  return cro_price_heading_tax_at (heading, &ignored);
}

gboolean
cro_price_heading_leaves_tax_open (const char *heading)
{
  return cro_price_saying_of (heading, NULL).is_tax_open;
}

/* "pounds" is money behind "in" or a colon alone, else what a price is for. */
static const char *
sign_of_word (const char *text,
              const char *at)
{
  const char *sign = cro_currency_sign_of_word (at);
  gboolean is_behind_in = at - text >= 3 && at[-1] == ' '
                          && (at[-2] == ':' || (g_ascii_tolower (at[-2]) == 'n' && strchr ("ieIE", at[-3]) != NULL));

  return !is_behind_in && cro_word_list_scan (at, "pound|pounds|livre|livres") > 0 ? NULL : sign;
}

/* Three letters that are the code of a currency, "eur" too, and no unit, as "kgs" is. Owned. */
static char *
dup_code (const char *at)
{
  g_autofree char *code = strnlen (at, 3) == 3 ? g_ascii_strup (at, 3) : NULL;
  CroUnitMeaning ignored;
  gboolean is_it;

  if (code == NULL || cro_currency_is_word (at) || cro_unit_words_scan (at, cro_words_entry (), &ignored) >= 3
      || cro_currency_scan (code, NULL, &is_it) != 3 || g_unichar_isalnum (g_utf8_get_char (at + 3)))
    return NULL;
  return g_steal_pointer (&code);
}

/* What begins text, behind letters of a word or not. Owned. */
static char *
dup_currency_at (const char *heading,
                 const char *at)
{
  gunichar c = g_utf8_get_char (at);
  gboolean is_letter = g_unichar_isalpha (c), ignored;
  gboolean is_behind_word = at > heading && g_unichar_isalnum (g_utf8_get_char (g_utf8_prev_char (at)));
  gsize n = is_letter || g_unichar_isdigit (c) ? 0 : cro_currency_scan (at, NULL, &ignored);
  const char *word = is_letter && !is_behind_word ? sign_of_word (heading, at) : NULL;

  if (n > 0 || word != NULL)
    return n > 0 ? g_strndup (at, n) : g_strdup (word);
  return is_letter && !is_behind_word ? dup_code (at) : NULL;
}

char *
cro_price_heading_dup_currency (const char *heading)
{
  char *currency = NULL;

  for (const char *at = heading; *at != '\0' && currency == NULL; at = g_utf8_next_char (at))
    currency = dup_currency_at (heading, at);
  return currency;
}

GStrv
cro_price_heading_dup_currencies (const char *text)
{
  GStrvBuilder *all = g_strv_builder_new ();
  GStrv names;

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gboolean begins = at == text || !g_unichar_isalnum (g_utf8_get_char (g_utf8_prev_char (at)));
      const char *word = begins ? cro_currency_sign_of_word (at) : NULL;
      g_autofree char *said = word != NULL ? g_strdup (word) : dup_currency_at (text, at);

      if (said != NULL)
        g_strv_builder_add (all, said);
    }
  names = g_strv_builder_end (all);
  g_strv_builder_unref (all);
  return names;
}

/* --- Columns beside the prices -------------------------------------------------------------------------- */

/* Whether each word is one of those, a number, or the code of a currency. */
static gboolean
has_only (const char *folded,
          const char *words)
{
  g_auto (GStrv) all = g_strsplit (folded, " ", 0);

  for (guint i = 0; all[i] != NULL; i++)
    {
      g_autofree char *code = strlen (all[i]) == 3 ? dup_code (all[i]) : NULL;

      if (!cro_price_has_word (all[i], words) && code == NULL && strspn (all[i], "0123456789") != strlen (all[i]))
        return FALSE;
    }
  return TRUE;
}

CroTaxColumn
cro_price_heading_tax_column (const char *heading)
{
  g_autofree char *folded = cro_fold (heading), *currency = cro_price_heading_dup_currency (heading);
  gboolean has_number = strpbrk (heading, "0123456789") != NULL;

  if (cro_price_has_word (folded, GROSS_WORDS) && has_only (folded, GROSS_WORDS SUM_WORDS))
    return CRO_TAX_COLUMN_GROSS;
  if (cro_price_has_word (folded, "|taxable|"))
    return CRO_TAX_COLUMN_CODE;
  if (strcmp (folded, "taux") == 0)
    return CRO_TAX_COLUMN_RATE;
  if (!cro_price_has_word (folded, TAX_WORDS)
      || !has_only (folded, TAX_WORDS RATE_WORDS AMOUNT_WORDS CODE_WORDS JOINTS))
    return CRO_TAX_COLUMN_NONE;
  if (cro_price_has_word (folded, CODE_WORDS))
    return CRO_TAX_COLUMN_CODE;
  /* At "TVA 21 %" the rate is said, and what stands below is money. */
  if (cro_price_has_word (folded, AMOUNT_WORDS) || currency != NULL || has_number)
    return CRO_TAX_COLUMN_AMOUNT;
  return cro_price_has_word (folded, RATE_WORDS) || strchr (heading, '%') != NULL ? CRO_TAX_COLUMN_RATE
                                                                                 : CRO_TAX_COLUMN_OPEN;
}

gboolean
cro_price_heading_is_sum (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return has_only (folded, "|net|nett|ht|ttc|h|t|c|" GROSS_WORDS SUM_WORDS)
         && (cro_price_heading_tax (heading) != CRO_PRICE_TAX_UNSAID
             || cro_price_has_word (folded, "|net|nett|" GROSS_WORDS));
}

gboolean
cro_price_heading_is_total (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  /* "RRP total", "Total stock" are others. */
  return *folded == '\0' || has_only (folded, TOTAL_WORDS);
}

gboolean
cro_price_heading_is_past (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return cro_price_has_word (folded, PAST_WORDS);
}

gboolean
cro_price_heading_is_word (const char *folded)
{
  return cro_price_has_word (folded,
                             PRICE_WORDS PAST_WORDS NOW_WORDS NET_WORDS LIST_WORDS PACK_WORDS UNIT_WORDS TAX_WORDS
                             JOINTS SUM_WORDS "ht|ttc|tvac|htva|puht|puttc|excl|incl|ex|inc|exc|hors|included|"
                             "including|excluding|includes|excludes|include|exclude|does|do|not|non|comprise|"
                             "compris|to|be|per|par|a|au|aux|le|en|in|for|the|"
                             "purchase|achat|d|week|semaine|before|avant|after|apres|discount|remises|sans|");
}

/* Whose prices they are, where and for what, which changes nothing of them. */
static const char plain_words[]
    = "|your|our|you|us|votre|vos|notre|nos|vous|nous|customer|client|clients|trade|pro|professionnel|"
      "professionnels|chr|wholesale|gros|contract|contrat|negotiated|negocie|negocies|agreed|convenu|"
      "standard|usual|normal|delivered|franco|livre|rendu|of|and|et|or|ou|la|les|l|un|une|du|des|"
      "pour|sur|dans|with|without|avec|day|jour|month|mois|sale|sales|sell|selling|vente|uom|uv|uvc|"
      "measure|mesure|item|article|produit|product|line|ligne|prices|tarifs|costs|couts|devis|quote|quoted|"
      "currency|devise|monnaie|hors|exclusive|inclusive|exclu|exclus|exclue|exclues|excluded|inclus|"
      "incluse|incluses|comprises|due|pay|payer|payable|btl|btle|bt|";

/* "Prices per 100 g", "1 kg". */
static gboolean
is_of_unit (const GArray *tokens,
            guint         i)
{
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);

  return i + 1 < tokens->len && (token + 1)->kind == CRO_PRICE_TOKEN_UNIT
         && (token->number == CRO_MICRO || token->number == 100 * CRO_MICRO);
}

static gboolean
is_letter_at (const GArray *tokens,
              guint         i)
{
  return i < tokens->len && g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_WORD
         && strlen (g_array_index (tokens, CroPriceToken, i).word) == 1;
}

/* "H.T.", "l'unité": of the letters of one word, or before one; "Price c" may be in cents. */
static gboolean
is_plain_letter (const GArray *tokens,
                 guint         i)
{
  if (cro_price_token_is (tokens, i, "|d|l|"))
    return i + 1 < tokens->len && g_array_index (tokens, CroPriceToken, i + 1).kind != CRO_PRICE_TOKEN_END;
  return cro_price_token_is (tokens, i, "|h|t|c|p|u|")
         && (is_letter_at (tokens, i + 1) || (i > 0 && is_letter_at (tokens, i - 1)));
}

/* "Price A" is of another. */
static gboolean
is_plain_at (const GArray *tokens,
             guint         i,
             const char   *own)
{
  const char *word = g_array_index (tokens, CroPriceToken, i).word;
  gboolean ignored;

  if (cro_price_is_among (word, "|a|rrp|public|next|prochain|prochaine|"))
    return i + 1 < tokens->len && strcmp (word, "a") == 0;
  if (is_letter_at (tokens, i))
    return is_plain_letter (tokens, i);
  /* "Price delivery" may be that of it. */
  if (strcmp (word, "delivery") == 0)
    return i > 0 && cro_price_token_is (tokens, i - 1, "|incl|inc|including|included|with|free|ex|excl|excluding|");
  return cro_price_heading_is_word (word) || cro_price_is_among (word, plain_words) || cro_price_is_among (word, own)
         || cro_price_scan_pack (word, &ignored) > 0;
}

/* Prices of a week are written from its first day, and read later in it. */
#define WEEK 7

/* "Week 49", "2 March", "02/03/2026", "2026": how many tokens; 0: none begins there. "Monday", "next week" say less. */
static guint
scan_time (const GArray *tokens,
           guint         i,
           CroDate       day,
           gboolean     *is_other)
{
  const guint last = tokens->len - 1;
  CroPriceTime time;
  guint n;
  gboolean has_number = FALSE;

  if (cro_price_is_among (g_array_index (tokens, CroPriceToken, i).word != NULL
                              ? g_array_index (tokens, CroPriceToken, i).word : "", "|1/2|1/4|3/4|1/3|2/3|"))
    return 0;
  n = cro_price_read_time (tokens, i, day, &time);
  for (guint k = i; k < i + n; k++)
    has_number |= cro_price_is_number_at (tokens, k) || cro_price_is_month_at (tokens, k);
  /* "12/1 kg" */
  if (!has_number || (i + n <= last && g_array_index (tokens, CroPriceToken, i + n).kind == CRO_PRICE_TOKEN_UNIT))
    return 0;
  *is_other |= time.first > day || day - time.last >= WEEK || (!time.is_day && time.last < day);
  return n;
}

gboolean
cro_price_heading_is_whole (const char *heading,
                            const char *also,
                            CroDate     day,
                            gboolean   *is_of_other_time)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (heading);
  g_autofree char *folded = cro_fold (also), *own = g_strdelimit (g_strdup_printf ("|%s|", folded), " ", '|');

  *is_of_other_time = FALSE;
  for (guint i = 0, n; i < tokens->len; i += n)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);

      n = scan_time (tokens, i, day, is_of_other_time);
      if (n > 0)
        continue;
      n = 1;
      switch (token->kind)
        {
        case CRO_PRICE_TOKEN_WORD:
          if (!is_plain_at (tokens, i, own))
            return FALSE;
          break;
        case CRO_PRICE_TOKEN_NUMBER:
          if (!is_of_unit (tokens, i))
            return FALSE;
          break;
        case CRO_PRICE_TOKEN_RATE:
          if (cro_price_heading_tax (heading) == CRO_PRICE_TAX_UNSAID)
            return FALSE;
          break;
        case CRO_PRICE_TOKEN_DAY:
        case CRO_PRICE_TOKEN_DOUBT:
          return FALSE;
        default:
          break;
        }
    }
  return TRUE;
}

/* "Prix avant remise" is not after it. */
static gboolean
is_after_discount (const char *folded)
{
  return cro_price_has_word (folded, NET_WORDS)
         && !(cro_price_has_word (folded, "|remise|discounted|")
              && cro_price_has_word (folded, "|avant|hors|sans|before|not|non|without|"));
}

gboolean
cro_price_heading_is_net (const char *heading)
{
  g_autofree char *folded = cro_fold (heading);

  return is_after_discount (folded);
}

/* "Current price" beside "New price" is the one that no longer holds. */
static int
now_of (const char *folded)
{
  return !cro_price_has_word (folded, NOW_WORDS) ? 0 : cro_price_has_word (folded, "|current|actuel|actuelle|") ? 1 : 2;
}

static int
net_of (const char *folded)
{
  if (is_after_discount (folded))
    return 1;
  return cro_price_has_word (folded, NET_WORDS LIST_WORDS) ? -1 : 0;
}

static int
tax_of (const char *folded)
{
  CroPriceTax tax = cro_price_heading_tax (folded);

  return tax == CRO_PRICE_WITHOUT_TAX ? 1 : tax == CRO_PRICE_WITH_TAX ? -1 : 0;
}

static int
pack_of (const char *folded)
{
  return cro_price_has_word (folded, PACK_WORDS) ? 1 : cro_price_has_word (folded, UNIT_WORDS) ? -1 : 0;
}

int
cro_price_heading_compare (const char *one, const char *other)
{
  static int (*const said[]) (const char *folded) = { now_of, net_of, tax_of, pack_of };
  g_autofree char *first = cro_fold (one), *second = cro_fold (other);

  for (guint i = 0; i < G_N_ELEMENTS (said); i++)
    if (said[i](first) != said[i](second))
      return said[i](first) - said[i](second);
  return 0;
}
