/* Each word is a letter of an alphabet, and what is understood is a sentence of a regular language over it:
 *
 *   t  tax, VAT, TVA     x  ex, hors: before it         X  extra, en sus: behind it      y  excl., plus: either
 *   h  HT                i  include, avec: before it    I  included, comprise: behind it j  incl.: either
 *   c  TTC               n  not, ne … pas               e  the "ne" of that
 *   r  21 %, 0  0 %      d  dont                        N  net, gross
 *   E  except, sauf      T  taxed, exempt: of tax, in no sentence             w  will
 *   #  a number          u  any other word              .  the end of a sentence
 *
 * Words that change nothing, "all", "our", "prices", "from Monday", have no letter. */
#include "cro-price-saying.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-model.h"
#include "cro-price-aside.h"
#include "cro-price-day.h"
#include "cro-price-words.h"
#include "cro-word-list.h"

#include <string.h>

/* --- Words, folded ---------------------------------------------------------------------------------------- */

static const struct { char letter; const char *words; } alphabet[] = {
  { 't', cro_price_tax_words },
  { 'h', "|ht|htva|puht|" },
  { 'c', "|ttc|tvac|puttc|" },
  { 'x', "|ex|excluding|exclude|excludes|hors|sans|without|before|avant|excluant|exclut|excluent|" },
  { 'X', "|excluded|extra|free|add|ajouter|sus|exclue|exclues|exclus|" },
  { 'y', "|excl|exc|exclusive|plus|" },
  { 'i', "|include|includes|including|with|avec|comprend|comprennent|comprenant|inclut|incluent|incluant|contain|"
         "contains|" },
  { 'j', "|incl|inc|inclusive|" },
  { 'I', "|included|inclus|incluse|incluses|compris|comprise|comprises|" },
  { 'n', "|not|no|non|pas|never|jamais|aucun|aucune|nor|neither|cannot|don|doesn|isn|aren|won|doesnt|isnt|arent|"
         "nothing|none|rien|" },
  { 'e', "|ne|n|ni|" },
  { 'd', "|dont|" },
  { 'N', "|net|nets|nett|nette|nettes|gross|brut|bruts|brute|brutes|" },
  { 'E', "|except|exception|exceptions|excepting|excepted|but|unless|apart|aside|other|only|save|sauf|hormis|"
         "excepte|mais|seulement|uniquement|some|most|many|few|certains|certaines|quelques|plupart|if|si|"
         "when|where|otherwise|sometimes|parfois|usually|may|might|until|till|jusqu|jusque|" },
  { 'w', "|will|shall|sera|seront|" },
  { 'T', "|exvat|exclvat|incvat|inclvat|plusvat|novat|vatex|vatexcl|vatinc|vatincl|mwst|ust|iva|btw|moms|"
         "taxed|untaxed|taxable|taxables|taxation|vatable|"
         "rated|exempt|exempts|exempted|exonere|exoneres|exoneree|detaxe|detaxes|" },
};

/* What changes nothing of what is said of tax. */
static const char filling[]
    = "|price|prices|priced|pricing|list|lists|pricelist|tariff|tarif|tarifs|prix|liste|cost|costs|cout|rate|rates|"
      "taux|quote|quotes|quoted|quotation|devis|amount|amounts|montant|montants|currency|devise|monnaie|unit|"
      "unitaire|unite|purchase|achat|pu|figures|offer|offers|offre|offres|selling|sale|"
      "all|every|everything|each|any|both|our|my|your|the|these|this|they|it|a|an|is|are|be|been|being|"
      "to|at|as|of|in|on|for|from|by|per|and|we|i|you|us|please|note|nb|ps|s|t|re|do|does|did|has|have|"
      "given|shown|stated|listed|displayed|printed|expressed|understood|charged|payable|valid|effective|always|also|"
      "already|yet|longer|anymore|more|now|currently|today|tomorrow|tonight|new|newest|current|updated|update|latest|"
      "week|wk|weeks|weekly|wc|month|monthly|year|season|spring|summer|autumn|winter|starting|start|"
      "starts|beginning|onwards|onward|hi|hello|dear|chef|team|folks|everyone|sir|madam|morning|good|afternoon|evening|"
      "regards|thanks|cheers|delivered|standard|usual|"
      "total|totals|totaux|dans|sur|here|ici|"
      "tous|toutes|toute|tout|nos|notre|vos|votre|les|le|la|l|des|du|de|d|ces|ce|cette|cet|ci|sont|est|entendent|"
      "entend|exprimes|exprime|indiques|indique|affiches|donnes|donne|au|aux|et|en|pour|par|un|une|y|il|ils|elle|"
      "elles|semaine|sem|jour|mois|annee|saison|valable|valables|valide|valides|compter|partir|etre|"
      "nouveau|nouveaux|nouvelle|nouvelles|actuel|actuels|toujours|deja|encore|maintenant|desormais|demain|"
      "bonjour|bonsoir|merci|cordialement|franco|depart|voici|voila|lot|find|attached|enclosed|trouver|trouverez|"
      "veuillez|joint|jointe|joints|"
      "monday|tuesday|wednesday|thursday|friday|saturday|sunday|mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun|"
      "lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche|st|nd|rd|th|er|";

static const char price_words[] = "|price|prices|prix|tarif|tarifs|tariff|cost|costs|cout|pu|pricelist|puht|puttc|"
                                  "amount|amounts|montant|montants|quote|quotes|";
static const char from_words[]
    = "|from|starting|starts|effective|valid|for|as|des|partir|compter|valable|valables|au|pour|";
static const char below_words[] = "|below|following|dessous|suivant|suivants|suivante|suivantes|those|ceux|celles|";
/* Of those that speak of tax in no sentence: there is none. */
static const char untaxed_words[] = "|exvat|exclvat|vatex|vatexcl|novat|untaxed|exempt|exempts|exempted|exonere|"
                                    "exoneres|exoneree|detaxe|detaxes|";
/* "Not all prices include VAT": of some of them. */
static const char whole_words[] = "|all|every|everything|each|always|tous|toutes|tout|toute|toujours|both|";

/* --- Letters ------------------------------------------------------------------------------------------------ */

typedef struct
{
  CroPriceSaying *saying;
  const char     *also;
  GString        *letters;
  gint64          pct;      /* of the last rate */
  guint           n_rates;
  gboolean        has_mark;
  gboolean        is_behind_from;
} Reading;

static gboolean
is_of_tax (const char *sentence)
{
  /* "Prices + 21 %" may be of tax, or of what they rose by. */
  return strpbrk (sentence, "thcT") != NULL
         || (strpbrk (sentence, "r0") != NULL && strpbrk (sentence, "xXyiIj") != NULL);
}

static char
letter_of (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (alphabet); i++)
    if (cro_price_is_among (word, alphabet[i].words))
      return alphabet[i].letter;
  return '\0';
}

static gboolean
is_also (const char *also,
         const char *word)
{
  g_autofree char *bounded = g_strconcat (" ", word, " ", NULL);
  g_autofree char *all = g_strconcat (" ", also != NULL ? also : "", " ", NULL);

  return strstr (all, bounded) != NULL;
}

gboolean
cro_price_saying_knows (const char *word,
                        const char *also)
{
  gboolean ignored;

  return letter_of (word) != '\0' || cro_price_is_among (word, filling) || cro_price_is_among (word, below_words)
         || cro_price_scan_pack (word, &ignored) > 0 || is_also (also, word);
}

/* "From January", "as of 1 January", "à partir du 7": a time from which, or in which, something holds. */
static gboolean
begins_time (const GArray *tokens,
             guint         i)
{
  guint next = i + 1;

  if (!cro_price_token_is (tokens, i, from_words) && !cro_price_token_is (tokens, i, "|in|en|a|"))
    return FALSE;
  while (cro_price_token_is (tokens, next, "|of|from|the|de|du|le|au|partir|compter|"))
    next++;
  return cro_price_is_time_at (tokens, next);
}

static char
letter_at (const Reading *self,
           const GArray  *tokens,
           guint          i)
{
  const char *word = g_array_index (tokens, CroPriceToken, i).word;
  char letter = letter_of (word);

  /* "Zero rated": there is none. */
  if (cro_price_is_among (word, "|zero|") && cro_price_token_is (tokens, i + 1, "|rated|"))
    return 't';
  if (cro_price_is_among (word, "|rated|") && i > 0 && cro_price_token_is (tokens, i - 1, "|zero|"))
    return 'X';
  /* "net of tax" */
  if (letter == 'N' && cro_price_token_is (tokens, i + 1, "|of|de|"))
    return 'x';
  if (letter == 'n' && cro_price_token_is (tokens, i + 1, whole_words))
    return 'E';
  /* "To be added", not "already added"; "on top", not "at top rate". */
  if (cro_price_is_among (word, "|added|ajoutee|"))
    return i > 0 && cro_price_token_is (tokens, i - 1, "|be|etre|") ? 'X' : 'T';
  if (cro_price_is_among (word, "|top|"))
    return i > 0 && cro_price_token_is (tokens, i - 1, "|on|") ? 'X' : 'u';
  /* "VAT on top already" has been added. */
  if (cro_price_is_among (word, "|already|deja|") && strchr (self->letters->str, 'X') != NULL)
    return 'u';
  /* "All-in": of tax too? */
  if (cro_price_is_among (word, "|in|") && i > 0 && cro_price_token_is (tokens, i - 1, "|all|")
      && (i + 1 == tokens->len || g_array_index (tokens, CroPriceToken, i + 1).kind == CRO_PRICE_TOKEN_END
          || cro_price_token_is (tokens, i + 1, price_words)))
    return 'T';
  /* "Tarifs HT au 2 décembre" is a list of that day, which is asked about if it is another. */
  if (cro_price_is_among (word, "|au|") && i + 1 < tokens->len && cro_price_is_day_at (tokens, i + 1)
      && strchr (self->letters->str, 'h') != NULL)
    return '\0';
  if (cro_price_is_among (word, "|port|") && i > 1 && cro_price_token_is (tokens, i - 2, "|franco|"))
    return '\0';
  /* "Include VAT": what does? */
  if (i == 0 && cro_price_is_among (word, "|include|includes|exclude|excludes|comprend|comprennent|inclut|incluent|"
                                          "exclut|excluent|contain|contains|"))
    return 'u';
  /* "Prix plus au kg": no longer. */
  if (cro_price_is_among (word, "|plus|") && cro_price_token_is (tokens, i + 1, "|au|a|par|le|la|"))
    return 'E';
  /* "don’t" */
  if (cro_price_is_among (word, "|don|doesn|isn|aren|won|") && !cro_price_token_is (tokens, i + 1, "|t|"))
    return 'u';
  /* "Next list incl. VAT", "from January incl. VAT", "incl. VAT from January": until then not. */
  if (cro_price_is_among (word, "|next|prochain|prochaine|") && !cro_price_is_time_at (tokens, i + 1)
      && !(i > 0 && cro_price_is_time_at (tokens, i - 1)))
    return 'u';
  /* "Tarifs HT valables du 2 au 8 décembre" are so anyway. */
  if ((begins_time (tokens, i) && (i == 0 || is_of_tax (self->letters->str))
       && !(i > 0 && (cro_price_is_among (word, "|valid|valable|valables|") || cro_price_is_number_at (tokens, i - 1)
                       || cro_price_is_month_at (tokens, i - 1))))
      || (i == 0 && cro_price_is_among (word, "|tomorrow|demain|")))
    return 'u';
  return letter != '\0' || cro_price_saying_knows (word, self->also) ? letter : 'u';
}

/* What stands behind "per" or "/" where it is no unit: a pack, or what nobody knows, "per stone". */
static void
read_per (Reading      *self,
          const GArray *tokens,
          guint         i)
{
  const CroPriceToken *of = i + 1 < tokens->len ? &g_array_index (tokens, CroPriceToken, i + 1) : NULL;
  gboolean is_per = g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_STROKE
                    || cro_price_token_is (tokens, i, "|per|par|"),
           ignored;

  /* "Price/2", "price for 2": of two of what? */
  if ((is_per || (cro_price_token_is (tokens, i, "|for|pour|") && of != NULL && !cro_price_is_day_at (tokens, i + 1)))
      && of != NULL && of->kind == CRO_PRICE_TOKEN_NUMBER && of->number != CRO_MICRO
      && !(i + 2 < tokens->len && g_array_index (tokens, CroPriceToken, i + 2).kind == CRO_PRICE_TOKEN_UNIT))
    self->saying->has_per_word = self->saying->is_per_open = TRUE;
  if (of == NULL || of->kind != CRO_PRICE_TOKEN_WORD)
    return;
  if (cro_price_scan_pack (of->word, &ignored) > 0)
    self->saying->has_per_word = TRUE;
  else if (cro_price_is_among (of->word, "|pound|pounds|livre|livres|")
           || (is_per && !cro_price_saying_knows (of->word, self->also)
               && !cro_price_is_among (of->word, "|item|article|produit|product|line|")))
    self->saying->has_per_word = self->saying->is_per_open = TRUE;
}

static void
read_word (Reading      *self,
           const GArray *tokens,
           guint         i)
{
  CroPriceSaying *saying = self->saying;
  const char *word = g_array_index (tokens, CroPriceToken, i).word;
  gboolean ignored;
  char letter;

  if (cro_price_is_month_at (tokens, i))
    {
      saying->has_day |= self->is_behind_from;
      return;
    }
  letter = letter_at (self, tokens, i);
  saying->has_pack |= cro_price_scan_pack (word, &ignored) > 0;
  saying->speaks_of_prices |= cro_price_is_among (word, price_words);
  saying->is_net |= letter == 'N';
  saying->may_have_tax |= letter == 'T' && !cro_price_is_among (word, untaxed_words);
  saying->is_gross |= cro_price_is_among (word, "|gross|brut|bruts|brute|brutes|");
  saying->is_negated |= letter == 'n' || letter == 'e';
  saying->has_exception |= letter == 'E';
  saying->is_of_below |= cro_price_is_among (word, below_words);
  saying->has_day |= self->is_behind_from && cro_price_is_among (word, cro_price_day_words);
  saying->has_day |= letter == '\0' && cro_price_is_among (word, "|next|prochain|prochaine|");
  self->is_behind_from |= cro_price_is_among (word, from_words);
  if (cro_price_is_among (word, cro_price_per_words))
    read_per (self, tokens, i);
  if (letter != '\0')
    g_string_append_c (self->letters, letter);
}

static void
read_unit (Reading      *self,
           const GArray *tokens,
           guint         i)
{
  CroPriceSaying *saying = self->saying;
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i), *before = i > 0 ? token - 1 : NULL;
  /* "1-10 kg" is of several amounts. */
  gboolean is_counted = before != NULL
                        && (before->kind == CRO_PRICE_TOKEN_NUMBER || before->kind == CRO_PRICE_TOKEN_DAY);
  gint64 number = !is_counted ? CRO_MICRO : before->kind == CRO_PRICE_TOKEN_DAY ? CRO_NOT_SET : before->number;
  gboolean is_small = token->unit == CRO_UNIT_G || token->unit == CRO_UNIT_ML;
  CroPricePer per = { TRUE, token->unit, CRO_MICRO };
  guint word = is_counted ? i - 1 : i;

  if (word > 0 && (g_array_index (tokens, CroPriceToken, word - 1).kind == CRO_PRICE_TOKEN_STROKE
                   || cro_price_token_is (tokens, word - 1, cro_price_per_words)))
    saying->has_per_word = TRUE;
  saying->has_per_word |= token->unit == CRO_UNIT_EACH && word == i;
  if (is_small && number == 100 * CRO_MICRO)
    per = (CroPricePer){ TRUE, token->unit == CRO_UNIT_G ? CRO_UNIT_KG : CRO_UNIT_L, 10 * CRO_MICRO };
  else if (number != CRO_MICRO)
    saying->is_per_open = TRUE;
  if (saying->per.is_said && (saying->per.unit != per.unit || saying->per.times != per.times))
    saying->is_per_open = TRUE;
  saying->per = per;
}

static void
read_number (Reading      *self,
             const GArray *tokens,
             guint         i)
{
  /* "Du 2 au 8 décembre" */
  const gboolean begins_span = cro_price_token_is (tokens, i + 1, "|to|au|and|et|")
                               && cro_price_is_day_at (tokens, i + 2)
                               && !cro_price_token_is (tokens, i + 2, cro_price_day_words);

  if (cro_price_is_day_at (tokens, i) || begins_span)
    self->saying->has_day |= self->is_behind_from;
  /* What a unit counts is told with it. */
  else if (!(i + 1 < tokens->len && g_array_index (tokens, CroPriceToken, i + 1).kind == CRO_PRICE_TOKEN_UNIT
             && (self->saying->speaks_of_prices
                 || (i > 0 && (g_array_index (tokens, CroPriceToken, i - 1).kind == CRO_PRICE_TOKEN_STROKE
                               || cro_price_token_is (tokens, i - 1, cro_price_per_words))))))
    {
      self->saying->has_number = TRUE;
      g_string_append_c (self->letters, '#');
    }
}

static void
read_rate (Reading             *self,
           const CroPriceToken *token)
{
  self->n_rates++;
  self->pct = token->number != CRO_NOT_SET && token->number <= CRO_WHOLE_PCT ? token->number : CRO_NOT_SET;
  g_string_append_c (self->letters, self->pct == 0 ? '0' : 'r');
}

static void
read_tokens (Reading      *self,
             const GArray *tokens)
{
  for (guint i = 0; i < tokens->len; i++)
    {
      guint paper = cro_price_scan_paper (tokens, i),
            aside = cro_price_scan_aside (tokens, i, self->letters->str);

      if (aside > 0)
        {
          i += aside - 1;
          continue;
        }
      if (paper > 0)
        {
          /* "excl. VAT no. 123" is of tax all the same. */
          if (self->letters->len > 0 && strchr ("xyij", self->letters->str[self->letters->len - 1]) != NULL)
            g_string_append_c (self->letters, 't');
          i += paper - 1;
          continue;
        }
      switch (g_array_index (tokens, CroPriceToken, i).kind)
        {
        case CRO_PRICE_TOKEN_WORD:
          read_word (self, tokens, i);
          break;
        case CRO_PRICE_TOKEN_NUMBER:
        case CRO_PRICE_TOKEN_DAY:
          read_number (self, tokens, i);
          break;
        case CRO_PRICE_TOKEN_RATE:
          read_rate (self, &g_array_index (tokens, CroPriceToken, i));
          break;
        case CRO_PRICE_TOKEN_UNIT:
          read_unit (self, tokens, i);
          break;
        case CRO_PRICE_TOKEN_PLUS:
          g_string_append_c (self->letters, 'x');
          break;
        case CRO_PRICE_TOKEN_DOUBT:
          g_string_append_c (self->letters, 'u');
          break;
        case CRO_PRICE_TOKEN_END:
          g_string_append_c (self->letters, '.');
          break;
        case CRO_PRICE_TOKEN_MARK:
          self->has_mark = TRUE;
          break;
        case CRO_PRICE_TOKEN_MONEY:
          self->saying->has_money = TRUE;
          self->saying->is_pound |= g_array_index (tokens, CroPriceToken, i).is_pound
                                    && !(i > 0 && cro_price_token_is (tokens, i - 1, "|in|en|"));
          break;
        case CRO_PRICE_TOKEN_STROKE:
          read_per (self, tokens, i);
          break;
        }
    }
}

/* --- Sentences ----------------------------------------------------------------------------------------------- */

/* Of one that says nothing else. A negation counts once: "no longer ex VAT" is none of these. */
#define WITHOUT \
  "(?:[xy][r0]?t[r0]?|[r0]?t[r0]?w?[Xy]|h(?:[xy]?t?[r0])?|[nd][ij]t|te?n[ijI]|nt[jI]?|e?[ij]nt|nc|" \
  "[ij]0t|(?:0t|t0)[jI]|c0)"
#define WITH "(?:[ij]r?tr?|r?tr?[jI]|cd?(?:tr?|rt?)?)"

/* Nobody says more in one: what a longer one says is not understood. */
#define MOST_LETTERS 24

typedef enum
{
  GRAMMAR_WITHOUT,
  GRAMMAR_WITH,
  GRAMMAR_TITLE,          /* "Wine, VAT 20 %": of a group */
  GRAMMAR_RATE,
  GRAMMAR_BESIDE_NUMBER,
  N_GRAMMARS,
} Grammar;

static gboolean
matches (Grammar     grammar,
         const char *letters)
{
  static const char *const patterns[N_GRAMMARS] = {
    [GRAMMAR_WITHOUT] = "^(?:N?" WITHOUT ")+N?$",
    [GRAMMAR_WITH] = "^(?:N?" WITH ")+N?$",
    [GRAMMAR_TITLE] = "^u+[u#]*(?:tr|rt)$|^(?:tr|rt)u+$",
    [GRAMMAR_RATE] = "^[tr0]*$",
    [GRAMMAR_BESIDE_NUMBER] = "#N?(?:" WITHOUT "|" WITH ")(?:$|[.u])|(?:" WITHOUT "|" WITH ")#",
  };
  static GRegex *compiled[N_GRAMMARS];

  if (strlen (letters) > MOST_LETTERS)
    return FALSE;
  if (g_once_init_enter (&compiled[grammar]))
    g_once_init_leave (&compiled[grammar], g_regex_new (patterns[grammar], G_REGEX_DEFAULT, G_REGEX_MATCH_DEFAULT,
                                                        NULL));
  return g_regex_match (compiled[grammar], letters, G_REGEX_MATCH_DEFAULT, NULL);
}

/* A sentence alone that is understood. */
static CroPriceTax
tax_of_sentence (const char *sentence)
{
  if (matches (GRAMMAR_WITH, sentence))
    return CRO_PRICE_WITH_TAX;
  return matches (GRAMMAR_WITHOUT, sentence) ? CRO_PRICE_WITHOUT_TAX : CRO_PRICE_TAX_UNSAID;
}

/* "VAT included on spirits", "no longer ex VAT": with tax, and of what nobody knows. "Not included" is without. */
static gboolean
may_be_with (const char *letters)
{
  const gboolean is_negated = strpbrk (letters, "ne") != NULL, is_in = strpbrk (letters, "iIj") != NULL;

  return strchr (letters, 'c') != NULL || (is_in && !is_negated)
         || (!is_in && is_negated && strpbrk (letters, "xXyh") != NULL);
}

/* All that is said in its sentences; one of them that says something of tax otherwise leaves it open, and so does one
 * beside that which may take something out. */
static void
read_sentences (Reading *self)
{
  CroPriceSaying *saying = self->saying;
  g_auto (GStrv) sentences = g_strsplit (self->letters->str, ".", 0);
  gboolean is_open = FALSE, qualifies = FALSE;

  for (guint i = 0; sentences[i] != NULL; i++)
    {
      CroPriceTax says = tax_of_sentence (sentences[i]);

      saying->may_have_tax |= says != CRO_PRICE_WITHOUT_TAX && may_be_with (sentences[i]);
      if (says != CRO_PRICE_TAX_UNSAID)
        {
          is_open |= saying->tax != CRO_PRICE_TAX_UNSAID && saying->tax != says;
          saying->tax = says;
        }
      else if (is_of_tax (sentences[i]))
        is_open |= !matches (GRAMMAR_TITLE, sentences[i]);
      else
        qualifies |= strpbrk (sentences[i], "xXyiIjnedE") != NULL;
    }
  is_open |= self->has_mark && !saying->speaks_of_prices && saying->tax != CRO_PRICE_TAX_UNSAID;
  if (is_open || (qualifies && saying->tax != CRO_PRICE_TAX_UNSAID))
    saying->is_tax_open = TRUE;
  if (saying->tax == CRO_PRICE_WITH_TAX && self->n_rates > 0)
    {
      saying->is_tax_open |= self->n_rates > 1 || self->pct == CRO_NOT_SET;
      saying->tax_pct = MAX (self->pct, 0);
    }
  if (!saying->is_tax_open)
    return;
  saying->tax = CRO_PRICE_TAX_UNSAID;
  saying->tax_pct = 0;
}

/* "Price/pack (EUR) excl.", "all excl.": what ends it leaves the tax out of its words. */
static void
read_short_end (Reading      *self,
                const GArray *tokens)
{
  CroPriceSaying *saying = self->saying;
  guint last = tokens->len - 1;
  gboolean is_excl = cro_price_token_is (tokens, last, "|excl|exc|"),
           is_incl = cro_price_token_is (tokens, last, "|incl|inc|"), is_alone = self->letters->len == 1;

  if (tokens->len == 0 || is_of_tax (self->letters->str)
      || !(saying->is_of_all || (is_alone && (is_excl || is_incl))))
    return;
  if ((is_excl || is_incl) && is_alone && saying->is_of_all)
    saying->tax = is_excl ? CRO_PRICE_WITHOUT_TAX : CRO_PRICE_WITH_TAX;
  else if (is_excl || is_incl || cro_price_token_is (tokens, last, "|ex|inclusive|exclusive|")
           || (is_alone && strchr ("xy", *self->letters->str) != NULL))
    saying->is_tax_open = TRUE;
}

/* Whether a number may be a price: no day, hour, term or telephone number. */
static gboolean
may_be_price (const GArray *tokens,
              guint         i)
{
  const CroPriceToken *token = i < tokens->len ? &g_array_index (tokens, CroPriceToken, i) : NULL;
  guint first = i, last = i;

  if (token == NULL || token->kind != CRO_PRICE_TOKEN_NUMBER || token->number == CRO_NOT_SET
      || token->number >= 100000 * CRO_MICRO || cro_price_is_day_at (tokens, i)
      || cro_price_token_is (tokens, i + 1, "|pm|am|h|hr|hrs|hour|hours|heure|heures|oclock|o|day|days|jour|jours|week|"
                                            "weeks|month|months|mois|minutes|")
      || (i > 0 && cro_price_token_is (tokens, i - 1, "|by|before|avant|after|apres|tel|phone|ring|call|text|fax|no|nr|"
                                                      "n|num|numero|page|list|liste|until|jusqu|rate|taux|")))
    return FALSE;
  /* Three beside one another are dialled. */
  while (i - first < 2 && first > 0 && g_array_index (tokens, CroPriceToken, first - 1).kind == CRO_PRICE_TOKEN_NUMBER)
    first--;
  while (last - i < 2 && last + 1 < tokens->len
         && g_array_index (tokens, CroPriceToken, last + 1).kind == CRO_PRICE_TOKEN_NUMBER)
    last++;
  return last - first < 2;
}

/* Whether money or a unit at a token stands beside such a number. */
static gboolean
is_beside_price (const GArray *tokens,
                 guint         i)
{
  for (int step = -1; step <= 1; step += 2)
    {
      guint at = i + (guint) step;

      while (at < tokens->len
             && (g_array_index (tokens, CroPriceToken, at).kind == CRO_PRICE_TOKEN_MONEY
                 || g_array_index (tokens, CroPriceToken, at).kind == CRO_PRICE_TOKEN_UNIT
                 || g_array_index (tokens, CroPriceToken, at).kind == CRO_PRICE_TOKEN_STROKE
                 || cro_price_token_is (tokens, at, cro_price_per_words)))
        at += (guint) step;
      if (may_be_price (tokens, at))
        return TRUE;
    }
  return FALSE;
}

/* "GBP, 30 days", "orders by 5 pm (per lb)": of no goods, though a number stands there. Beside one that may be a price
 * only "in GBP" is. */
static void
read_strays (CroPriceSaying *saying,
             const GArray   *tokens)
{
  for (guint i = 0; i < tokens->len; i++)
    saying->has_price |= may_be_price (tokens, i);
  for (guint i = 0; i < tokens->len; i++)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
      gboolean is_unit = token->kind == CRO_PRICE_TOKEN_UNIT && token->unit != CRO_UNIT_EACH
                         && !(i > 0 && (token - 1)->kind == CRO_PRICE_TOKEN_NUMBER);

      if ((token->kind != CRO_PRICE_TOKEN_MONEY && !is_unit) || is_beside_price (tokens, i)
          || (saying->has_price && !(i > 0 && cro_price_token_is (tokens, i - 1, "|in|en|"))))
        continue;
      saying->has_stray_unit |= is_unit;
      saying->has_stray_money |= !is_unit;
    }
}

/* Words behind which a sentence goes on. */
static gboolean
ends_unfinished (const GArray *tokens)
{
  return tokens->len > 0
         && cro_price_token_is (tokens, tokens->len - 1,
                                "|that|which|que|qui|and|et|or|ou|the|les|la|le|not|pas|of|de|des|du|our|nos|in|en|for|"
                                "pour|to|a|au|aux|per|par|longer|prices|prix|all|tous|from|but|mais|except|sauf|will|"
                                "is|are|sont|est|do|does|ne|only|unless|if|si|when|we|nous|these|ces|this|with|avec|"
                                "without|sans|bill|no|jamais|never|always|toujours|");
}

/* "Delivery included" is none of tax. */
static gboolean
has_carriage (const GArray *tokens)
{
  for (guint i = 0; i < tokens->len; i++)
    if (cro_price_token_is (tokens, i, "|delivery|carriage|transport|freight|shipping|postage|packaging|packing|"
                                       "deposit|deposits|livraison|port|emballage|emballages|consigne|consignes|"
                                       "service|"))
      return TRUE;
  return FALSE;
}

CroPriceSaying
cro_price_saying_of (const char *text,
                     const char *also)
{
  CroPriceSaying saying = { .per = { .times = CRO_MICRO } };
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  g_autoptr (GString) said = g_string_new (NULL);
  Reading self = { .saying = &saying, .also = also, .letters = said, .pct = CRO_NOT_SET };

  read_tokens (&self, tokens);
  saying.is_all_known = strpbrk (said->str, "u#TE") == NULL;
  saying.is_beside_number = matches (GRAMMAR_BESIDE_NUMBER, said->str);
  saying.is_of_all = saying.speaks_of_prices
                     || cro_price_token_is (tokens, 0, "|all|everything|tous|toutes|tout|in|en|per|par|");
  read_sentences (&self);
  read_short_end (&self, tokens);
  read_strays (&saying, tokens);
  /* "Not per kg"; what is said of tax has its own. */
  saying.is_per_open |= saying.per.is_said && saying.tax == CRO_PRICE_TAX_UNSAID
                        && (saying.is_negated || saying.has_exception);
  saying.has_rate = self.n_rates > 0;
  saying.is_rate = matches (GRAMMAR_RATE, said->str) && self.n_rates == 1;
  saying.is_beside = strpbrk (said->str, "yjXI") != NULL && !has_carriage (tokens);
  saying.is_unfinished = ends_unfinished (tokens)
                         || (saying.tax == CRO_PRICE_TAX_UNSAID && said->len > 0
                             && strchr ("tixyjned", said->str[said->len - 1]) != NULL);
  return saying;
}

gboolean
cro_price_saying_may_be_of_tax (const char *text)
{
  static const char *const begins[] = { " tax", " vat", " tva", " ht", " ttc", " gst", " untaxed", " rated", " exempt",
                                        " exonere", " detaxe", " exvat", " exclvat", " incvat", " inclvat", " plusvat",
                                        " novat", " mwst", " ust ", " iva ", " btw ", " moms ",
                                        " h t ", " t t c ", " t v a ", " v a t ", " puht", " puttc" };
  g_autofree char *folded = cro_fold (text), *bounded = g_strconcat (" ", folded, " ", NULL);

  for (guint i = 0; i < G_N_ELEMENTS (begins); i++)
    if (strstr (bounded, begins[i]) != NULL)
      return TRUE;
  return FALSE;
}

gboolean
cro_price_saying_is_of_tax (const CroPriceSaying *self)
{
  return self->tax != CRO_PRICE_TAX_UNSAID || self->is_tax_open;
}

/* Of what is no size of the goods. */
static const char other_sizes[] = "stock|stocks|available|availability|disponible|dispo|min|minimum|moq|order|ordered|"
                                  "commande|commandes|sold|vendu|sales|last|previous";

gboolean
cro_price_saying_is_size (const char *heading,
                          CroUnit    *unit)
{
  CroPriceSaying saying = cro_price_saying_of (heading, NULL);
  g_autofree char *folded = cro_fold (heading), *currency = cro_price_heading_dup_currency (heading);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);

  *unit = saying.per.unit;
  for (guint i = 0; words[i] != NULL; i++)
    if (cro_word_list_scan (words[i], other_sizes) > 0)
      return FALSE;
  return saying.per.is_said && saying.per.times == CRO_MICRO && !saying.is_per_open && !saying.has_per_word
         && !saying.speaks_of_prices && currency == NULL;
}

gboolean
cro_price_saying_qualifies (const char *text)
{
  g_autofree char *folded = cro_fold (text);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);

  for (guint i = 0; words[i] != NULL; i++)
    if (letter_of (words[i]) != '\0')
      return TRUE;
  return FALSE;
}
