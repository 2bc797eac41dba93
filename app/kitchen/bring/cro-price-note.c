#include "cro-price-note.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-model.h"
#include "cro-price-day.h"
#include "cro-price-saying.h"

#include <string.h>

static const char of_prices[]
    = "|price|prices|prix|tarif|tarifs|tariff|list|liste|pricelist|valid|valable|valables|valide|valides|effective|"
      "hold|holds|held|quote|quotes|quotation|devis|offer|offers|offre|offres|cost|costs|rates|vat|tva|tax|ht|ttc|"
      "expire|expires|expired|mercuriale|cours|";
static const char of_else[]
    = "|tasting|visit|meet|meeting|birthday|party|wedding|event|anniversaire|fete|mariage|sent|date|subject|envoye|"
      "objet|printed|founded|registered|page|ref|reference|order|orders|ordering|ordered|delivery|deliveries|deliver|"
      "delivering|arrives|commande|commandes|commander|livraison|livraisons|livre|livrons|closed|close|closing|open|"
      "opening|ferme|fermes|fermeture|ouvert|holiday|holidays|conges|payment|pay|due|payable|paiement|available|back|"
      "arrivage|landing|landed|harvest|collection|invoice|invoices|facture|factures|";
static const char end_words[]
    = "|ending|exp|until|till|til|jusqu|jusque|before|avant|to|through|thru|expire|expires|expired|ends|end|ended|"
      "fin|";
static const char start_words[]
    = "|from|since|starting|starts|start|commencing|effective|as|des|partir|compter|depuis|commence|commences|wc|";
static const char between[]
    = "|the|of|le|la|du|de|d|l|a|au|on|in|en|week|semaine|wc|and|including|";

/* Words between "prices" and what they are for. */
static const char joints[]
    = "|for|of|from|on|to|at|as|starting|effective|valid|des|in|the|your|our|all|any|next|new|first|pour|de|d|la|le|"
      "l|les|du|a|au|aux|nos|vos|partir|compter|prochain|prochaine|prochaines|prochains|nouvelles|";
static const char next_words[]
    = "|next|prochain|prochaine|prochains|prochaines|";

/* "Prices for orders", "tarif des livraisons": what is ordered and delivered is at these prices; "prices ex VAT, order
 * by noon" is of two things. */
static gboolean
is_of_priced (const GArray *tokens,
              guint         i)
{
  guint at = i;

  while (at > 0 && cro_price_token_is (tokens, at - 1, joints))
    at--;
  return at < i && at > 0 && cro_price_token_is (tokens, at - 1, of_prices);
}

/* What the times behind a token are of, by the last word that says it: 1 prices, -1 something else, 0 nothing said.
 * before: that of the times before it. */
static int
matter_behind (const GArray *tokens,
               guint         i,
               int           before)
{
  gboolean is_second = i > 1 && cro_price_token_is (tokens, i - 1, of_prices);

  if (g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_END)
    return 0;
  if (cro_price_token_is (tokens, i, of_else))
    return is_of_priced (tokens, i) ? before : -1;
  if (!cro_price_token_is (tokens, i, of_prices))
    return before;
  /* "Next price list 7 December" */
  return i > 0 && cro_price_token_is (tokens, i - 1 - is_second, "|next|prochain|prochaine|") ? -1 : 1;
}

/* So many words may stand between a time and the word that leads to it. */
#define MOST_BETWEEN 6

/* The word that leads to a time at a token. */
static gboolean
is_behind (const GArray *tokens,
           guint         i,
           const char   *words)
{
  for (guint n = 0; n <= MOST_BETWEEN && i > 0; n++, i--)
    {
      if (cro_price_token_is (tokens, i - 1, words))
        return TRUE;
      if (!cro_price_token_is (tokens, i - 1, between) && !cro_price_is_weekday_at (tokens, i - 1))
        return FALSE;
    }
  return FALSE;
}

/* Prices are posted from the Monday of a week that are written later in it. */
#define WEEK 7

/* Who writes on a Friday may mean the week that begins on the Monday behind it. */
#define MOST_DAYS_BEFORE 6

/* "W/c 23 November", "week of the 23rd" */
static gboolean
is_week_behind (const GArray *tokens,
                guint         i)
{
  while (i > 0 && (cro_price_is_weekday_at (tokens, i - 1)
                   || cro_price_token_is (tokens, i - 1, "|the|of|le|la|du|de|")))
    i--;
  if (i > 0 && cro_price_token_is (tokens, i - 1, "|c|"))
    return (i > 1 && cro_price_token_is (tokens, i - 2, "|w|")) || (i > 2 && cro_price_token_is (tokens, i - 3, "|w|"));
  return i > 0 && cro_price_token_is (tokens, i - 1, "|wc|commencing|beginning|week|wk|semaine|sem|");
}

static gboolean
is_other (const GArray       *tokens,
          guint               i,
          guint               n,
          const CroPriceTime *time,
          CroDate             day)
{
  gboolean is_weekday = n == 1 && cro_price_is_weekday_at (tokens, i);

  /* "As of Friday", not "same as Friday"; "until Friday", "à mardi" */
  if (is_weekday
      && ((i > 0 && cro_price_token_is (tokens, i - 1, "|as|than|comme|que|")) || is_behind (tokens, i, end_words)
          || (i > 0 && cro_price_token_is (tokens, i - 1, "|a|"))))
    return FALSE;
  if (is_behind (tokens, i, end_words))
    return time->last < day;
  if (time->is_day && is_week_behind (tokens, i))
    return time->first > day || time->last + WEEK <= day;
  if (is_behind (tokens, i, start_words) || cro_price_token_is (tokens, i + n, "|onwards|onward|on|"))
    return time->first > day;
  return time->first > day || (time->is_day ? day - time->last > MOST_DAYS_BEFORE : time->last < day);
}

static gboolean
is_unit_behind (const GArray *tokens,
                guint         i)
{
  const CroPriceToken *next = i + 1 < tokens->len ? &g_array_index (tokens, CroPriceToken, i + 1) : NULL;

  return next != NULL && (next->kind == CRO_PRICE_TOKEN_UNIT || next->kind == CRO_PRICE_TOKEN_MONEY);
}

/* "From Michaelmas": what prices hold from, and no word that is known. */
static gboolean
is_led_unknown (const GArray *tokens,
                guint         i,
                const char   *also)
{
  static const char leads[]
    = "|from|starting|effective|commencing|until|till|partir|compter|jusqu|jusque|";
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
  guint at = i;

  while (at > 0 && cro_price_token_is (tokens, at - 1, "|of|the|our|your|de|du|d|l|le|la|nos|vos|a|au|"))
    at--;
  return token->kind == CRO_PRICE_TOKEN_WORD && at > 0 && cro_price_token_is (tokens, at - 1, leads)
         && !cro_price_token_is (tokens, i, of_else) && !cro_price_token_is (tokens, i, joints)
         && !cro_price_saying_knows (token->word, also) && !cro_price_is_time_word (tokens, i);
}

/* "From 31/11", "from 20270105", "29 Feb", "week 99", "in a fortnight", "of next delivery": what may be a time, and no
 * calendar tells which. */
static gboolean
is_unread_time (const GArray *tokens,
                guint         i,
                const char   *also)
{
  static const char leads[]
    = "|from|starting|starts|effective|commencing|partir|compter|des|dates|valid|";
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
  const gboolean is_led = i > 0 && cro_price_token_is (tokens, i - 1, leads),
                 is_counted = is_unit_behind (tokens, i) || cro_price_token_is (tokens, i + 1, "|weeks|jours|days|"),
                 is_of_time = i > 0 && (cro_price_is_month_word (tokens, i - 1)
                                        || cro_price_token_is (tokens, i - 1, cro_price_week_words));

  if (token->kind == CRO_PRICE_TOKEN_DAY)
    return (strchr (token->word, '/') != NULL || is_led || is_of_time) && !is_counted;
  if (token->kind == CRO_PRICE_TOKEN_NUMBER)
    return (is_led || is_of_time || cro_price_is_month_word (tokens, i + 1)) && !is_counted;
  return cro_price_token_is (tokens, i, "|christmas|xmas|noel|easter|paques|fortnight|quinzaine|q1|q2|q3|q4|weekend|"
                                        "veille|lendemain|surlendemain|")
         || (cro_price_token_is (tokens, i, "|weeks|semaines|days|jours|months|mois|")
             && is_behind (tokens, i > 0 ? i - 1 : i, "|in|dans|"))
         || (cro_price_token_is (tokens, i, "|year|an|annee|") && i > 0
             && (cro_price_token_is (tokens, i - 1, "|new|nouvel|nouvelle|")
                 || (i > 1 && cro_price_token_is (tokens, i - 2, "|fin|end|"))))
         || (cro_price_token_is (tokens, i, of_else) && is_of_priced (tokens, i)
             && (cro_price_token_is (tokens, i - 1, next_words) || cro_price_token_is (tokens, i + 1, next_words)))
         || is_led_unknown (tokens, i, also);
}

/* What says of a list that it is not to be bought by. */
static const char *const unfit[] = {
  "old list", "old price list", "old prices", "old tariff", "previous list", "previous prices", "last weeks prices",
  "last week s prices", "last weeks list", "last week s list", "last months prices", "last month s prices",
  "out of date", "draft", "estimate", "estimates", "estimated", "indicative", "provisional", "guide price",
  "guide prices", "guide only", "to be confirmed", "subject to confirmation", "tbc", "unconfirmed", "not confirmed",
  "not final", "superseded", "expired", "no longer valid", "not valid", "not yet valid", "specimen", "sample list",
  "example prices", "do not use", "for information only", "ancien tarif", "anciens tarifs", "ancienne liste",
  "anciens prix", "prix de la semaine derniere", "tarif de la semaine derniere", "brouillon", "estimation",
  "estimations", "estimatif", "estimatifs", "indicatif", "indicatifs", "provisoire", "provisoires",
  "a confirmer", "sous reserve de confirmation", "non definitif", "perime", "perimes", "plus valable",
  "plus valables", "pas encore valable", "pour information",
};

/* Whether folded words stand in others, whole. */
static gboolean
has_words (const char *folded,
           const char *words)
{
  g_autofree char *all = g_strconcat (" ", folded, " ", NULL), *bounded = g_strconcat (" ", words, " ", NULL);

  return strstr (all, bounded) != NULL;
}

/* "Last week:", "earlier", "last week you had": it heads what was. */
static gboolean
heads_past (const char *folded)
{
  static const char *const past[] = {
    "last week", "last month", "last time", "yesterday", "previously", "earlier", "old", "before", "semaine derniere",
    "mois dernier", "hier", "auparavant", "precedemment", "ancien", "anciens", "avant",
  };
  static const char fill[]
    = "|s|the|la|le|l|you|we|they|it|had|paid|was|were|vous|nous|aviez|avions|etait|etaient|on|il|";
  g_autofree char *all = g_strconcat (" ", folded, " ", NULL);
  g_auto (GStrv) words = NULL;
  gboolean is_it = FALSE;

  for (guint i = 0; !is_it && i < G_N_ELEMENTS (past); i++)
    {
      g_autofree char *bounded = g_strconcat (" ", past[i], " ", NULL);
      char *at = strstr (all, bounded);

      is_it = at != NULL;
      if (is_it)
        memset (at, ' ', strlen (bounded));
    }
  words = g_strsplit (all, " ", -1);
  for (guint i = 0; is_it && words[i] != NULL; i++)
    is_it = *words[i] == '\0' || cro_price_is_among (words[i], fill);
  return is_it;
}

static gboolean
says_unfit (const char *note)
{
  g_autofree char *folded = cro_fold (note);
  static const char *const instead[] = { "replaces", "supersedes", "cancels", "remplace", "annule" };
  gboolean is_it = heads_past (folded);

  for (guint i = 0; i < G_N_ELEMENTS (unfit); i++)
    is_it |= has_words (folded, unfit[i]);
  /* "This list replaces all previous prices" */
  for (guint i = 0; i < G_N_ELEMENTS (instead); i++)
    is_it &= !has_words (folded, instead[i]);
  return is_it;
}

static gboolean
is_unfit_word (const char *word)
{
  gboolean is_it = FALSE;

  for (guint i = 0; i < G_N_ELEMENTS (unfit); i++)
    is_it |= has_words (unfit[i], word);
  return is_it;
}

/* "Wef 7 December": a day with its month, whatever leads to it; "taxi strike on Friday" has none. */
static gboolean
has_day_of_year (const GArray *tokens,
                 CroDate       day)
{
  for (guint i = 0; i < tokens->len; i++)
    {
      CroPriceTime time;
      guint n = cro_price_read_time (tokens, i, day, &time);

      if (n > 0 && time.is_day && cro_price_is_number_at (tokens, i)
          && (n > 1 || (g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_DAY
                        && strlen (g_array_index (tokens, CroPriceToken, i).word) >= strlen ("1/1/26"))))
        return TRUE;
    }
  return FALSE;
}

gboolean
cro_price_note_is_of_other_day (const char *note,
                                const char *also,
                                CroDate     day)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (note);
  g_autofree char *folded = cro_fold (note);
  gboolean is_unfit = says_unfit (note), is_of_prices = FALSE, is_of_else = FALSE, is_all_known = TRUE, is_it = FALSE;
  int matter = 0;

  for (guint i = 0; i < tokens->len; i++)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);

      is_of_prices |= cro_price_token_is (tokens, i, of_prices);
      is_of_else |= cro_price_token_is (tokens, i, of_else);
      is_all_known &= token->kind != CRO_PRICE_TOKEN_WORD || cro_price_saying_knows (token->word, also)
                      || cro_price_token_is (tokens, i, start_words) || cro_price_is_time_word (tokens, i)
                      || cro_price_is_number_at (tokens, i)
                      || (is_unfit && is_unfit_word (token->word));
    }
  /* "Draft cider" is none. */
  if (is_unfit && (is_of_prices || is_all_known || heads_past (folded)))
    return TRUE;
  if (!is_of_prices && (is_of_else || (!is_all_known && !has_day_of_year (tokens, day))))
    return FALSE;
  for (guint i = 0, end = G_MAXUINT, n; i < tokens->len; i += MAX (n, 1))
    {
      CroPriceTime time;

      n = cro_price_read_time (tokens, i, day, &time);
      if (n == 0)
        {
          is_it |= is_of_prices && matter >= 0 && is_unread_time (tokens, i, also);
          matter = matter_behind (tokens, i, matter);
          continue;
        }
      /* "30 November – 6 December" */
      if (matter > 0 || (matter == 0 && (is_of_prices || !is_of_else)))
        is_it |= i == end ? time.last < day : is_other (tokens, i, n, &time, day);
      /* "Week 49, 30 November to 6 December" */
      end = time.is_day ? i + n + cro_price_token_is (tokens, i + n, "|to|au|and|et|until|till|jusqu|") : G_MAXUINT;
    }
  return is_it;
}

gboolean
cro_price_stamp_is_of_other_day (const char *stamp,
                                 CroDate     day)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (stamp);
  gboolean is_read = FALSE, is_it = FALSE;

  for (guint i = 0, n; i < tokens->len; i += MAX (n, 1))
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
      CroPriceTime time;

      n = cro_price_read_time (tokens, i, day, &time);
      /* "Sent: Monday" is of the one gone by. */
      if (n == 1 && cro_price_is_weekday_at (tokens, i))
        continue;
      if (n > 0)
        {
          is_read = TRUE;
          is_it |= is_other (tokens, i, n, &time, day) && is_other (tokens, i, n, &time, day + WEEK);
        }
      /* No calendar has it; an hour is no more than a number. */
      else if (token->kind == CRO_PRICE_TOKEN_DAY
               || (token->kind == CRO_PRICE_TOKEN_NUMBER && token->number != CRO_NOT_SET
                   && token->number >= 10000 * CRO_MICRO && !is_read))
        is_it = TRUE;
    }
  return is_it;
}
