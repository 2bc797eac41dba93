#include "cro-price-talk.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-day.h"
#include "cro-price-remark.h"

#include <string.h>

/* --- Words, folded, with | around each ---------------------------------------------------------------------------- */

/* What takes back or changes what was said, wherever it stands. */
static const char change_words[]
    = "|scrub|doubled|halved|tripled|double|doubles|oops|whoops|woops|correction|corrections|corrected|correct|"
      "corrigendum|erratum|errata|mistake|mistakes|error|errors|typo|typos|wrong|wrongly|meant|forget|scratch|scrap|"
      "ignore|disregard|cancel|cancelled|amended|amendment|revised|instead|edited|misread|rectification|rectificatif|"
      "rectifie|erreur|erreurs|faute|corrige|correctif|voulais|oublie|oubliez|annule|annulez|annulation|trompe|"
      "trompes|ignorez|";
/* The same beside the name of goods that have a price, without a number. */
static const char taking_words[]
    = "|confirm|confirmed|confirmer|changed|changes|tbc|tba|dearer|cheaper|sorry|apologies|pardon|no|not|off|out|"
      "after|should|rather|desole|desolee|excuse|excusez|plutot|finalement|pas|plus|aucun|aucune|lieu|rupture|";
/* Where what they are of stands, if that is not beside it. */
static const char place_words[]
    = "|add|added|ajouter|ajoutez|per|each|chaque|first|second|last|above|below|previous|premier|premiere|dernier|"
      "derniere|dessus|dessous|precedent|all|every|everything|both|tout|tous|toutes|line|lines|ligne|lignes|";
/* Beside a number. */
static const char correction_words[]
    = "|sry|soz|ah|scrub|sorry|apologies|pardon|mean|means|actually|should|not|no|rather|after|update|updated|now|"
      "are|is|desole|desolee|excuse|excusez|plutot|finalement|pas|plus|aucun|aucune|lieu|maintenant|est|sont|up|down|"
      "make|again|";
/* Which way prices go. */
static const char way_words[]
    = "|rounded|arrondi|arrondis|deduct|subtract|knock|up|down|minus|less|off|moins|remise|discount|rabais|dearer|"
      "cheaper|higher|lower|rise|rises|rising|rose|risen|increase|increases|increased|fall|falls|falling|fell|drop|"
      "drops|dropped|hausse|hausses|baisse|baisses|augmente|augmentent|augmentation|baissent|montent|";
/* Beside a price these name no goods. */
static const char talk_words[]
    = "|even|make|made|makes|say|says|said|think|call|read|reads|put|that|thats|this|those|these|it|its|thing|one|"
      "ones|two|three|half|pair|first|second|third|last|previous|above|below|line|lines|row|my|bad|hang|wait|hold|ok|"
      "okay|yes|yeah|well|so|then|just|still|better|best|agreed|confirmed|got|get|done|can|could|would|let|lets|him|"
      "me|i|m|ve|d|ll|both|same|here|there|only|about|around|roughly|each|extra|more|less|back|edit|message|price|"
      "total|je|veux|dire|dis|disons|non|oui|bon|alors|donc|mettre|mettez|mets|lire|lisez|ligne|lignes|premier|"
      "premiere|dernier|derniere|dessus|dessous|ca|cela|c|j|ai|moi|deux|trois|demi|demie|paire|environ|idem|attends|"
      "attendez|";
/* What a line with a number or a time is of, where it is not of prices. */
static const char else_words[]
    = "|cash|paid|comptant|card|carte|order|orders|ordering|ordered|delivery|deliveries|deliver|delivering|delivered|"
      "arrive|arrives|arriving|commande|commandes|commander|commandez|livraison|livraisons|livre|livrons|livrer|"
      "closed|close|closes|closing|shut|open|opens|opening|ferme|fermes|fermeture|ouvert|ouverts|ouverture|holiday|"
      "holidays|conges|vacances|payment|pay|due|payable|paiement|reglement|terms|net|available|back|arrivage|"
      "arrivages|landing|landed|harvest|collection|collect|invoice|invoices|facture|factures|tel|telephone|phone|"
      "mobile|mob|cell|call|ring|text|fax|portable|appelez|van|vans|truck|lorry|camion|driver|round|boat|boats|"
      "bateau|bateaux|boxes|bags|pallets|palettes|punnets|crates|min|mini|minimum|moq|franco|page|pages|unit|stall|"
      "market|marche|stand|hours|heures|horaires|left|leaves|leave|ready|tasting|visit|meet|meeting|see|vat|tva|"
      "siret|siren|siege|bp|cedex|registered|company|no|nr|ref|reference|account|iban|bic|kg|bonne|happy|";
static const char counted_words[]
    = "|no|nr|n|num|numero|number|page|pages|order|commande|ref|reference|code|lot|batch|version|room|unit|class|"
      "classe|grade|size|taille|calibre|fao|zone|area|tel|fax|mob|phone|list|liste|tarif|pricelist|account|invoice|"
      "facture|";
static const char hour_words[]
    = "|pm|am|h|hr|hrs|hour|hours|heure|heures|oclock|noon|midi|";
static const char term_words[]
    = "|day|days|jour|jours|week|weeks|semaine|semaines|month|months|mois|minutes|min|years|ans|miles|km|people|"
      "covers|couverts|";
static const char street_words[]
    = "|lane|street|st|road|rd|avenue|ave|way|row|close|hill|square|place|yard|quay|dock|wharf|farm|mill|house|"
      "estate|park|rue|quai|chemin|impasse|allee|boulevard|bd|route|";
static const char price_words[]
    = "|price|prices|prix|tarif|tarifs|tariff|cost|costs|";
/* Other goods of a name. */
static const char kind_words[]
    = "|smoked|cooked|boiled|roast|roasted|cured|pickled|salted|dried|frozen|canned|tinned|potted|dressed|peeled|"
      "shelled|picked|filleted|minced|ground|powder|powdered|juice|oil|vinegar|salt|seed|seeds|flour|bread|butter|"
      "cream|sauce|soup|pate|paste|puree|claw|claws|leg|legs|tail|tails|cheek|cheeks|roe|head|heads|bone|bones|shell|"
      "shells|skin|fillet|fillets|steak|steaks|loin|meat|mix|mixed|salad|leaf|leaves|top|tops|flower|flowers|blossom|"
      "root|baby|mini|wild|black|white|red|green|golden|yellow|purple|brown|pink|sea|rock|king|queen|giant|spider|"
      "soft|fume|fumee|fumes|fumees|cuit|cuite|cuits|cuites|sale|salee|seche|sechee|seches|surgele|surgeles|graines|"
      "graine|feuilles|feuille|jus|huile|vinaigre|farine|filet|filets|pinces|pince|pattes|queues|tete|tetes|sauvage|"
      "sauvages|noir|noire|blanc|blanche|rouge|vert|verte|jaune|doux|douce|";

/* --- Numbers ------------------------------------------------------------------------------------------------ */

/* Without telephone numbers and addresses of mail: "07700 900123". Owned. */
static char *
dup_without_numbers_to_call (const char *line)
{
  static GRegex *call;

  if (strpbrk (line, "0123456789@") == NULL)
    return g_strdup (line);
  if (g_once_init_enter (&call))
    g_once_init_leave (&call, g_regex_new ("\\S+@\\S+|\\b(?:https?://|www\\.)\\S+"
                                           "|(?<![\\d.,])(?:\\+|00?)\\d[\\d ().-]{6,}\\d(?![.,]?\\d)"
                                           "|(?<![\\d.,])\\d{2}(?:[ .]\\d{2}){2,}(?![.,]?\\d)"
                                           "|(?<![\\d.,])[01]?\\d[:h][0-5]\\d(?![\\d.,])"
                                           "|(?<![\\d.,])2[0-3][:h][0-5]\\d(?![\\d.,])",
                                           G_REGEX_CASELESS, G_REGEX_MATCH_DEFAULT, NULL));
  return g_regex_replace_literal (call, line, -1, 0, " ", G_REGEX_MATCH_DEFAULT, NULL);
}

static gboolean
has_token (const GArray *tokens,
           const char   *words)
{
  for (guint i = 0; i < tokens->len; i++)
    if (cro_price_token_is (tokens, i, words))
      return TRUE;
  return FALSE;
}

/* "2 Mill Lane" */
static gboolean
is_of_street (const GArray *tokens,
              guint         i)
{
  for (guint k = i + 1; k < tokens->len && k <= i + 4; k++)
    if (cro_price_token_is (tokens, k, street_words))
      return TRUE;
  return FALSE;
}

/* Whether a number is known to be of no price. */
static gboolean
is_explained (const GArray *tokens,
              guint         i,
              gboolean      is_of_else)
{
  const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i), *next = token + 1;
  const gboolean is_whole = token->kind != CRO_PRICE_TOKEN_NUMBER || token->number % CRO_MICRO == 0;

  /* "500 g punnets", "1.2 m" */
  if (i + 1 < tokens->len && next->kind == CRO_PRICE_TOKEN_UNIT)
    return TRUE;
  if (cro_price_token_is (tokens, i + 1, "|m|cm|mm|x|") || cro_price_token_is (tokens, i + 1, hour_words)
      || (is_whole && cro_price_token_is (tokens, i + 1, term_words)))
    return TRUE;
  if (i > 0 && is_whole && (cro_price_token_is (tokens, i - 1, counted_words)
                            || (cro_price_token_is (tokens, i - 1, "|of|sur|de|") && is_of_else)))
    return TRUE;
  return (is_whole && token->number < 100000 * CRO_MICRO && (is_of_else || is_of_street (tokens, i)))
         /* "Vintage 2024" */
         || (token->kind == CRO_PRICE_TOKEN_DAY && (is_of_else || strpbrk (token->word, "./-") == NULL));
}

static gboolean
has_unexplained (const GArray *tokens,
                 gboolean      is_of_else)
{
  for (guint i = 0, n; i < tokens->len; i += MAX (n, 1))
    {
      const CroPriceTokenKind kind = g_array_index (tokens, CroPriceToken, i).kind;
      CroPriceTime ignored;

      n = cro_price_read_time (tokens, i, 0, &ignored);
      /* "x2" */
      if (kind == CRO_PRICE_TOKEN_WORD && *g_array_index (tokens, CroPriceToken, i).word == 'x'
          && g_ascii_isdigit (g_array_index (tokens, CroPriceToken, i).word[1]))
        return TRUE;
      if (n == 0 && (kind == CRO_PRICE_TOKEN_NUMBER || kind == CRO_PRICE_TOKEN_DAY)
          && !is_explained (tokens, i, is_of_else))
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_time (const GArray *tokens)
{
  for (guint i = 0; i < tokens->len; i++)
    if (cro_price_is_time_word (tokens, i))
      return TRUE;
  return FALSE;
}

/* --- Lines ---------------------------------------------------------------------------------------------------- */

gboolean
cro_price_talk_may_be_of_prices (const char *line,
                                 gboolean    has_price)
{
  g_autofree char *plain = dup_without_numbers_to_call (line), *folded = cro_fold (plain);
  const gboolean has_number = strpbrk (plain, "0123456789") != NULL;
  g_autoptr (GArray) tokens = NULL;
  gboolean is_of_else;

  if (!has_number && !cro_price_has_word (folded, change_words) && !cro_price_has_word (folded, way_words)
      && !cro_price_has_word (folded, "|half|moitie|demi|"))
    return FALSE;
  tokens = cro_price_tokens_of (plain);
  is_of_else = !has_token (tokens, price_words) && has_token (tokens, else_words);
  if (has_token (tokens, change_words))
    return !is_of_else;
  /* "Everything is half price" */
  if (has_token (tokens, "|half|moitie|demi|") && has_token (tokens, price_words))
    return TRUE;
  /* "Going up on Monday", "both up 5 %"; "prices up again" is of these. */
  if (has_token (tokens, way_words) && (has_number || has_time (tokens)) && !is_of_else)
    return TRUE;
  /* "Prices x 1.2" is of no goods. */
  return has_number && (!has_price || has_token (tokens, price_words)) && has_unexplained (tokens, is_of_else);
}

gboolean
cro_price_talk_names_nothing (const char *words,
                              const char *also)
{
  g_autofree char *folded = cro_fold (words);
  g_auto (GStrv) all = g_strsplit (folded, " ", 0);

  for (guint i = 0; all[i] != NULL; i++)
    if (*all[i] != '\0' && !cro_price_is_among (all[i], talk_words) && !cro_price_is_among (all[i], change_words)
        && !cro_price_is_among (all[i], correction_words) && !cro_price_is_among (all[i], way_words)
        && !cro_price_saying_knows (all[i], also))
      return FALSE;
  return TRUE;
}

gboolean
cro_price_talk_is_bare_price (const char *line,
                              const char *name,
                              const char *also)
{
  g_autofree char *folded = cro_fold (line);

  return strpbrk (line, "0123456789") != NULL && strchr (line, '%') == NULL
         && !cro_price_has_word (folded, place_words) && !cro_price_has_word (folded, "|percent|pct|cent|")
         && cro_price_talk_names_nothing (name, also)
         && !cro_price_saying_may_be_of_tax (line) && cro_price_talk_may_be_of_prices (line, FALSE);
}

gboolean
cro_price_talk_takes_back (const char *line)
{
  g_autofree char *folded = cro_fold (line);

  return cro_price_has_word (folded, change_words) || cro_price_has_word (folded, taking_words)
         || cro_price_has_word (folded, way_words) || cro_price_has_word (folded, price_words)
         || cro_price_remark_is_gone (line);
}

gboolean
cro_price_talk_is_of_other_kind (const char *words)
{
  g_autofree char *folded = cro_fold (words);
  g_auto (GStrv) all = g_strsplit (folded, " ", 0);
  gboolean is_it = FALSE;

  for (guint i = 0; all[i] != NULL; i++)
    {
      const gboolean is_kind = cro_price_is_among (all[i], kind_words);

      if (*all[i] != '\0' && !is_kind && !cro_price_is_among (all[i], "|of|de|d|and|et|"))
        return FALSE;
      is_it |= is_kind;
    }
  return is_it;
}
