#include "cro-price-remark.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-day.h"
#include "cro-price-token.h"
#include "cro-price-words.h"

#include <string.h>

/* --- Words, folded, with | around each ---------------------------------------------------------------------------- */

static const char gone_words[]
    = "|discontinued|delisted|unavailable|temporarily|epuise|epuisee|epuises|arrete|arretee|supprime|supprimee|rupture|"
      "poa|tbc|tba|tbd|estimate|estimated|estimation|ended|ceased|withdrawn|obsolete|suspended|suspendu|stopped|"
      "termine|terminee|void|ignore|error|mp|manque|manquant|indisponible|indispo|replaced|remplace|remplacee|retire|"
      "retiree|cancelled|annule|annulee|inactive|inactif|";
static const char *const gone_phrases[]
    = { " no longer ", " on request ", " on application ", " sur demande ", " nous consulter ", " not available ",
        " sold out ", " out of ", " hors saison ", " plus disponible ", " no stock ", " not sold ",
        " nothing left ", " no more ", " none this ", " do not order ", " coming soon ", " a venir ",
        " crop failed ", " awaiting ", " en attente ", " cours du jour ", " market price ", " aucun cette ",
        " a confirmer ", " see below ", " prix du jour " };
/* The same of a remark, where none is a word of goods: "draft cider", "free range". */
static const char open_words[]
    = "|provisional|provisoire|provisoires|indicative|indicatif|draft|brouillon|expired|superseded|unconfirmed|"
      "confirm|confirmation|confirmer|confirming|gone|nothing|disregard|erreur|failed|finished|fini|incoming|"
      "pair|pairs|paire|paires|dozens|doz|below|dessous|above|dessus|less|ausverkauft|agotado|agotada|esaurito|";
static const char *const open_phrases[]
    = { " subject to change ", " none left ", " none today ", " aucune cette ", " not order ", " halves ",
        " nicht lieferbar ", " to be confirmed ", " on order ", " en commande " };
/* The whole of a remark. */
static const char open_cells[] = "|old|ancien|ask|call|free|gratuit|offert|nc|maybe|peut etre|nul|";
/* What says that goods are not to be had, where the heading asks whether they are. */
static const char no_words[] = "|no|not|n|non|none|nil|zero|false|faux|f|pas|aucun|aucune|jamais|never|fini|finished|"
                               "soon|bientot|later|order|commande|incoming|maybe|peut|nul|gone|";
static const char had_signs[] = "✓✔✅☑";
static const char change_words[]
    = "|less|off|discount|rebate|remise|rabais|ristourne|hausse|baisse|increase|minus|majore|majores|majorer|";
/* What comes on top of each. */
static const char added_words[] = "|surcharge|supplement|majoration|levy|uplift|";
static const char payment_words[] = "|cash|settlement|prompt|payment|paid|comptant|paiement|reglement|escompte|";
/* Numbers behind these, before those, and rates before the third are of goods. */
static const char counted_words[]
    = "|class|classe|cat|category|categorie|grade|size|sizes|taille|calibre|cal|no|n|nr|num|numero|fao|zone|area|type|"
      "level|lot|batch|version|page|ref|code|art|item|since|depuis|vintage|aged|affine|min|mini|minimum|moq|"
      "order|commande|";
static const char age_words[] = "|months|month|mois|ans|an|years|year|old|";
static const char part_words[]
    = "|fat|mg|matiere|matieres|cocoa|cacao|vol|alc|alcohol|alcool|abv|lean|pur|pure|meat|viande|fruit|fruits|solids|"
      "juice|jus|organic|bio|";
static const char remark_price_words[]
    = "|price|prices|priced|prix|tarif|tariff|cost|costs|cout|promo|promotion|offer|offre|deal|discount|discounted|"
      "remise|rebate|rabais|ristourne|surcharge|supplement|plus|minus|moins|clearance|solde|"
      "pounds|quid|dozen|douzaine|gratuit|gratuite|members|corrected|";
/* "Half shell" and "gluten free" are of the goods. */
static const char *const remark_price_phrases[]
    = { " half box ", " half case ", " half pack ", " half bag ", " demi caisse ", " demi colis ", " the pair ",
        " la paire ", " for two ", " pour deux ", " free of charge " };
/* What a day beside them is of. */
static const char dated_words[]
    = "|order|orders|ordered|ordering|commande|commander|commandes|delivery|deliveries|delivered|delivers|deliver|"
      "livre|livraison|livraisons|season|saison|harvest|harvested|recolte|best|peak|caught|landed|peche|packed|baked|"
      "except|arrives|arrivage|boat|boats|bateau|bateaux|van|truck|camion|";
static const char since_words[]
    = "|from|until|till|til|jusqu|jusque|partir|des|starting|starts|effective|valid|valable|before|avant|ends|expires|"
      "only|";

static gboolean
has_phrase (const char        *folded,
            const char *const *phrases,
            guint              n)
{
  g_autofree char *bounded = g_strconcat (" ", folded, " ", NULL);

  for (guint i = 0; i < n; i++)
    if (strstr (bounded, phrases[i]) != NULL)
      return TRUE;
  return FALSE;
}

gboolean
cro_price_remark_is_gone (const char *text)
{
  g_autofree char *folded = cro_fold (text);

  return cro_price_has_word (folded, gone_words) || has_phrase (folded, gone_phrases, G_N_ELEMENTS (gone_phrases));
}

/* "Sugar -10 %": behind a blank, and not "35-40 %". */
static gboolean
has_rate_off (const char *text)
{
  static GRegex *off;

  if (g_once_init_enter (&off))
    g_once_init_leave (&off, g_regex_new ("(?:^|[\\s(])[-−–]\\s?\\d+(?:[.,]\\d+)?\\s?%", G_REGEX_DEFAULT,
                                          G_REGEX_MATCH_DEFAULT, NULL));
  return g_regex_match (off, text, G_REGEX_MATCH_DEFAULT, NULL);
}

/* Whether a number is of the goods, and not of their price. */
static gboolean
is_of_goods (const GArray *tokens,
             guint         i)
{
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
  const guint next = i + 1 + cro_price_token_is (tokens, i + 1, "|of|de|");

  if (token->kind == CRO_PRICE_TOKEN_RATE)
    return cro_price_token_is (tokens, next, part_words);
  /* "1st class" */
  if (cro_price_token_is (tokens, i + 1, age_words)
      || (cro_price_token_is (tokens, i + 1, "|st|nd|rd|er|")
          && cro_price_token_is (tokens, i + 2, "|class|choix|grade|")))
    return TRUE;
  /* "Art 12.40" is one of no goods. */
  return i > 0 && cro_price_token_is (tokens, i - 1, counted_words)
         && (token->kind != CRO_PRICE_TOKEN_NUMBER || token->number % CRO_MICRO == 0
             || cro_price_token_is (tokens, i - 1, "|size|sizes|taille|calibre|cal|"));
}

static gboolean
says_open (const char *text)
{
  g_autofree char *folded = cro_fold (text);

  return cro_price_has_word (folded, open_words) || cro_price_is_among (folded, open_cells)
         || has_phrase (folded, open_phrases, G_N_ELEMENTS (open_phrases));
}

/* "Going up Monday", "December only", "Q1": a time that is of no order or season. */
static gboolean
has_time (const GArray *tokens)
{
  gboolean has_it = FALSE;

  for (guint i = 0; i < tokens->len; i++)
    {
      if (cro_price_token_is (tokens, i, dated_words))
        return FALSE;
      has_it |= cro_price_token_is (tokens, i, "|q1|q2|q3|q4|t1|t2|t3|t4|")
                || (cro_price_is_time_word (tokens, i)
                    && !cro_price_token_is (tokens, i, "|may|mar|mars|march|mai|sep|week|semaine|month|"));
    }
  return has_it;
}

static gboolean
begins_time (const GArray *tokens,
             guint         i)
{
  if (cro_price_token_is (tokens, i, "|tomorrow|demain|"))
    return TRUE;
  if (!cro_price_token_is (tokens, i, since_words))
    return FALSE;
  for (guint next = i + 1; next < tokens->len && next < i + 4; next++)
    if (cro_price_is_time_word (tokens, next))
      return TRUE;
  return FALSE;
}

/* What is taken off who pays soon, "2 % for cash", is in no price; what is taken off all prices is. */
static gboolean
is_of_payment (const char *clause)
{
  g_autofree char *folded = cro_fold (clause);

  return cro_price_has_word (folded, payment_words)
         && !cro_price_has_word (folded, "|all|every|everything|price|prices|tout|tous|toute|toutes|prix|tarif|"
                                         "tarifs|");
}

/* Whether a rate stands in any part of a note that is not of payment: "All less 10 %, payment 30 days". */
static gboolean
has_rate_of_prices (const char *note)
{
  static GRegex *parts;
  g_auto (GStrv) clauses = NULL;
  gboolean has_it = FALSE;

  if (g_once_init_enter (&parts))
    g_once_init_leave (&parts, g_regex_new ("[;()]|[.,](?![0-9])|\\s[-–—]\\s|\\s(?:and|et)\\s",
                                            G_REGEX_CASELESS, G_REGEX_MATCH_DEFAULT, NULL));
  clauses = g_regex_split (parts, note, G_REGEX_MATCH_DEFAULT);
  for (guint i = 0; clauses[i] != NULL; i++)
    has_it |= cro_price_saying_of (clauses[i], NULL).has_rate && !is_of_payment (clauses[i]);
  return has_it;
}

gboolean
cro_price_remark_is_change (const char           *text,
                     const CroPriceSaying *saying)
{
  g_autofree char *folded = cro_fold (text);
  const gboolean is_added = cro_price_has_word (folded, added_words);

  if (cro_price_saying_is_of_tax (saying) || (saying->has_rate ? !has_rate_of_prices (text) : is_of_payment (text)))
    return FALSE;
  if (!saying->has_rate)
    return is_added && saying->has_price && (saying->has_pack || saying->per.is_said);
  return is_added || saying->is_of_all || text[0] == '-' || cro_price_has_word (folded, change_words);
}

gboolean
cro_price_remark_is_plain (const char *text)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  g_autofree char *folded = cro_fold (text);

  if (has_phrase (folded, remark_price_phrases, G_N_ELEMENTS (remark_price_phrases)) || strcmp (folded, "gone") == 0)
    return FALSE;
  /* "Temporarily out"; "bones out" is a cut, which is of a name. */
  if (cro_price_remark_is_gone (text) || says_open (text) || has_time (tokens)
      || cro_price_token_is (tokens, tokens->len - 1, "|out|"))
    return FALSE;
  for (guint i = 0; i < tokens->len; i++)
    switch (g_array_index (tokens, CroPriceToken, i).kind)
      {
      case CRO_PRICE_TOKEN_WORD:
        if (cro_price_token_is (tokens, i, remark_price_words) || begins_time (tokens, i))
          return FALSE;
        break;
      case CRO_PRICE_TOKEN_NUMBER:
      case CRO_PRICE_TOKEN_DAY:
      case CRO_PRICE_TOKEN_RATE:
        if (!is_of_goods (tokens, i))
          return FALSE;
        break;
      case CRO_PRICE_TOKEN_PLUS:
      case CRO_PRICE_TOKEN_DOUBT:
        return FALSE;
      default:
        break;
      }
  return TRUE;
}

gboolean
cro_price_remark_says_per (const char *text)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  g_autofree char *folded = cro_fold (text);

  if (cro_price_has_word (folded, "|each|apiece|"))
    return TRUE;
  for (guint i = 0; i < tokens->len; i++)
    {
      const CroPriceToken *of;
      gboolean is_whole;
      guint next = i + 1;

      if (!cro_price_token_is (tokens, i, "|per|by|par|a|an|au|aux|le|la|")
          && g_array_index (tokens, CroPriceToken, i).kind != CRO_PRICE_TOKEN_STROKE)
        continue;
      while (cro_price_token_is (tokens, next, "|the|le|la|a|"))
        next++;
      of = next < tokens->len ? &g_array_index (tokens, CroPriceToken, next) : NULL;
      if (of != NULL
          && (of->kind == CRO_PRICE_TOKEN_UNIT
              || (of->kind == CRO_PRICE_TOKEN_WORD && cro_price_scan_pack (of->word, &is_whole) > 0 && !is_whole)))
        return TRUE;
    }
  return FALSE;
}

gboolean
cro_price_cell_is_no (const char *text)
{
  g_autofree char *folded = cro_fold (text);

  return cro_price_has_word (folded, no_words);
}

gboolean
cro_price_cell_is_had (const char *text)
{
  g_autofree char *folded = cro_fold (text);
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  const char *number = text + strspn (text, "<>≥≤~ ");
  gsize digits = strspn (number, "0123456789.,+ ");

  if (*text != '\0' && strstr (had_signs, text) != NULL)
    return TRUE;
  for (guint i = 0; i < tokens->len; i++)
    if (cro_price_is_time_word (tokens, i))
      return FALSE;
  if (*folded == '\0' || cro_price_cell_is_no (text))
    return FALSE;
  /* "12 cases" */
  if (digits > 0)
    return strcspn (number, "123456789") < digits && strpbrk (number + digits, "0123456789%/+-") == NULL
           && cro_price_remark_is_plain (number + digits);
  return cro_price_remark_is_plain (text);
}

gboolean
cro_price_name_is_plain (const char *text)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  const CroPriceSaying saying = cro_price_saying_of (text, NULL);
  g_autofree char *folded = cro_fold (text);

  /* "Apple (half box)", "apple per 2", "apple TTC", "apple ??", "apple SOLD" */
  if (has_phrase (folded, remark_price_phrases, G_N_ELEMENTS (remark_price_phrases)) || strchr (text, '?') != NULL
      || cro_price_saying_is_of_tax (&saying) || (saying.has_per_word && saying.is_per_open)
      || cro_price_token_is (tokens, tokens->len - 1, "|gone|sold|"))
    return FALSE;
  for (guint i = 0; i < tokens->len; i++)
    if (cro_price_token_is (tokens, i, "|promo|promotion|offer|offre|discount|discounted|remise|clearance|gone|sold|"
                                       "was|confirmer|confirmed|ttc|ht|vat|tva|gst|gbp|eur|usd|")
        || (cro_price_token_is (tokens, i, "|from|until|till|jusqu|partir|valid|valable|") && begins_time (tokens, i)))
      return FALSE;
  return !cro_price_remark_is_gone (text) && !has_rate_off (text) && !cro_price_remark_is_change (text, &saying)
         && strchr (text, '?') == NULL;
}
