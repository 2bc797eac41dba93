#include "cro-price-talk.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-aside.h"
#include "cro-price-day.h"
#include "cro-price-letter.h"
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
      "attendez|stock|stocks|available|disponible|disponibles|dispo|finished|";
static const char adding_words[]
    = "|add|adds|adding|more|extra|less|excluding|off|up|down|ajouter|ajoutez|ajoutons|supplement|moins|";
/* Beside a price that may be of goods the book does not know: it is of all, or of what comes on top of them. */
static const char all_words[]
    = "|all|every|everything|both|tout|tous|toutes|chaque|or|ou|under|minimum|charge|charges|extra|surcharge|"
      "supplement|times|fuel|levy|uplift|rebate|disc|handling|majoration|ristourne|frais|delivery|carriage|livraison|"
      "deliveries|delivered|livraisons|order|orders|commande|commandes|energy|transport|freight|packaging|"
      "emballage|enlever|enlevez|retirer|rajouter|rajoutez|eff|";
/* Of sentences, and in no name of goods. */
static const char sentence_words[]
    = "|if|only|you|we|i|he|they|it|do|does|take|takes|have|has|can|will|would|could|might|may|than|then|also|that|"
      "this|those|these|my|your|our|us|me|them|happy|want|need|pay|cost|costs|est|are|is|was|be|si|nous|vous|je|on|"
      "prenez|prendre|seulement|cela|ca|affaire|short|now|again|soon|later|still|";
/* Of no goods either: how much, in what, which of them, and what a price is called. */
static const char size_words[]
    = "|each|box|boxes|bag|bags|crate|crates|case|cases|tray|trays|sack|sacks|pack|packs|punnet|punnets|colis|caisse|"
      "caisses|sac|sacs|net|nets|filet|filets|mesh|loose|weight|poids|drained|egoutte|avg|average|approx|livre|livres|"
      "kilos|choix|class|classe|grade|list|liste|jour|day|fait|port|quid|euro|euros|cash|card|"
      "account|";
static const char joint_words[]
    = "|for|pour|the|les|des|";
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

/* Shorter words are no goods. */
#define LEAST_NAME 3

static gboolean
has_token (const GArray *tokens,
           const char   *words)
{
  for (guint i = 0; i < tokens->len; i++)
    if (cro_price_token_is (tokens, i, words))
      return TRUE;
  return FALSE;
}

/* --- Lines ---------------------------------------------------------------------------------------------------- */

/* Whether any word may be the name of goods. */
static gboolean
may_name_goods (const GArray *tokens,
                const char   *also)
{
  static const char *const known[] = {
    change_words, taking_words, place_words, correction_words, way_words, talk_words, all_words, size_words,
    price_words, adding_words, sentence_words, joint_words,
  };

  for (guint i = 0; i < tokens->len; i++)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);
      gboolean is_known = token->kind != CRO_PRICE_TOKEN_WORD || g_utf8_strlen (token->word, -1) < LEAST_NAME
                          || cro_price_is_time_word (tokens, i) || cro_price_saying_knows (token->word, also);

      for (guint k = 0; k < G_N_ELEMENTS (known) && !is_known; k++)
        is_known = cro_price_is_among (token->word, known[k]);
      if (!is_known)
        return TRUE;
    }
  return FALSE;
}

/* With a small letter words that may change prices are no names: "Hi Chef, Amendment Follows". Owned. */
static char *
dup_unnamed (const char *line)
{
  static const char *const none[] = { change_words, way_words, all_words, price_words, adding_words,
                                      cro_price_tax_words };
  GString *unnamed = g_string_new (NULL);

  for (const char *at = line; *at != '\0';)
    {
      const char *end = at;
      g_autofree char *word = NULL, *folded = NULL, *small = NULL;
      gboolean is_none = FALSE;

      while (g_unichar_isalpha (g_utf8_get_char (end)))
        end = g_utf8_next_char (end);
      if (end == at)
        end = g_utf8_next_char (at);
      word = g_strndup (at, (gsize) (end - at));
      folded = cro_fold (word);
      for (guint i = 0; i < G_N_ELEMENTS (none) && *folded != '\0'; i++)
        is_none |= cro_price_is_among (folded, none[i]);
      small = is_none ? g_utf8_strdown (word, -1) : NULL;
      g_string_append (unnamed, is_none ? small : word);
      at = end;
    }
  return g_string_free (unnamed, FALSE);
}

gboolean
cro_price_talk_may_be_of_prices (const char *line,
                                 gboolean    has_price,
                                 const char *also)
{
  static const char *const asked[] = { change_words, taking_words, way_words, all_words, price_words, adding_words,
                                        sentence_words };
  g_autofree char *unnamed = dup_unnamed (line);
  g_autoptr (GArray) tokens = NULL;

  if (cro_price_letter_has_line (unnamed, also))
    return FALSE;
  tokens = cro_price_tokens_of (line);
  /* A price of goods that the book does not know is of those. */
  if (!has_price || strchr (line, '+') != NULL || !may_name_goods (tokens, also))
    return TRUE;
  for (guint k = 0; k < G_N_ELEMENTS (asked); k++)
    if (has_token (tokens, asked[k]))
      return TRUE;
  return FALSE;
}

gboolean
cro_price_talk_adds (const char *note)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (note);

  for (guint i = 0; i < tokens->len; i++)
    if (cro_price_token_is (tokens, i, adding_words)
        || (g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_MONEY && i > 0
            && cro_price_token_is (tokens, i - 1, "|a|an|one|two|un|une|deux|")))
      return TRUE;
  return FALSE;
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
  g_autoptr (GArray) tokens = cro_price_tokens_of (line);

  guint n_numbers = 0;

  /* "The box is 10 kg now" is of all. */
  for (guint i = 1; i < tokens->len; i++)
    if (g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_UNIT && cro_price_is_number_at (tokens, i - 1))
      return FALSE;
  for (guint i = 0; i < tokens->len; i++)
    n_numbers += g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_NUMBER;
  /* "2 off", "3 for 60", "24 not 22" may be of any. */
  return n_numbers == 1 && strchr (line, '%') == NULL && !has_token (tokens, way_words)
         && !has_token (tokens, all_words) && !has_token (tokens, adding_words) && !has_token (tokens, size_words)
         && !has_token (tokens, "|plus|")
         && !cro_price_has_word (folded, place_words) && !cro_price_has_word (folded, "|percent|pct|cent|")
         && cro_price_talk_names_nothing (name, also)
         && !cro_price_saying_may_be_of_tax (line) && cro_price_talk_may_be_of_prices (line, FALSE, also);
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
cro_price_talk_is_name (const char *line)
{
  g_autoptr (GArray) tokens = NULL;

  if (!cro_price_letter_is_name (line) || cro_price_talk_takes_back (line) || cro_price_talk_is_of_other_kind (line)
      || cro_price_words_are_doubtful (line))
    return FALSE;
  tokens = cro_price_tokens_of (line);
  return !has_token (tokens, all_words) && !has_token (tokens, size_words) && !has_token (tokens, adding_words);
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
