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
      "attendez|available|disponible|disponibles|dispo|finished|";
/* What a line with a number or a time is of, where it is not of prices. */
static const char else_words[]
    = "|paid|card|carte|carriage|order|orders|ordering|ordered|delivery|deliveries|deliver|delivering|delivered|"
      "arrive|arrives|arriving|commande|commandes|commander|commandez|livraison|livraisons|livre|livrons|livrer|"
      "closed|close|closes|closing|shut|open|opens|opening|ferme|fermes|fermeture|ouvert|ouverts|ouverture|holiday|"
      "holidays|conges|vacances|payment|pay|due|payable|paiement|reglement|terms|net|back|arrivage|arrivages|landing|"
      "landed|harvest|collection|collect|invoices|facture|factures|tel|telephone|phone|mobile|mob|ring|text|fax|"
      "portable|appelez|van|vans|truck|lorry|camion|driver|round|boat|boats|bateau|bateaux|min|mini|minimum|moq|"
      "franco|page|pages|stall|marche|stand|hours|heures|horaires|leaves|tasting|visit|meet|meeting|vat|tva|siret|"
      "siren|siege|bp|cedex|registered|company|ref|reference|iban|bic|subject|objet|sent|date|";
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
static const char payment_words[]
    = "|cash|paid|payment|comptant|paiement|settlement|";
static const char adding_words[]
    = "|add|adds|adding|more|extra|less|excluding|off|up|down|ajouter|ajoutez|ajoutons|supplement|moins|";
/* Beside a price that may be of goods: these are of none. */
static const char all_words[]
    = "|all|every|everything|both|each|box|boxes|bag|bags|crate|crates|case|cases|tray|trays|sack|sacks|pack|packs|"
      "punnet|punnets|colis|caisse|caisses|sac|sacs|loose|under|charge|charges|or|add|more|extra|minimum|delivery|"
      "tout|tous|toutes|chaque|ou|for|pour|surcharge|supplement|times|poids|drained|egoutte|weight|nets|mesh|livres|"
      "livre|off|plus|up|minus|moins|fuel|levy|";
static const char price_words[]
    = "|price|prices|prix|tarif|tarifs|tariff|cost|costs|";
/* What says nothing of a price, whoever writes it. */
static const char chat_words[]
    = "|chef|chefs|hi|hello|hey|dear|morning|mornings|afternoon|evening|good|day|days|week|weeks|weekend|thanks|"
      "thank|you|your|yours|we|us|our|ours|i|m|am|is|are|s|ll|ve|re|be|been|the|a|an|of|to|for|in|on|at|by|with|and|"
      "as|it|this|here|there|me|my|have|has|had|hope|well|great|nice|lovely|best|kind|wishes|regards|cheers|"
      "sincerely|speak|talk|soon|later|let|know|what|when|if|need|needs|needed|want|would|like|can|could|will|please|"
      "call|ring|text|message|email|mail|phone|from|list|lists|price|prices|pricelist|attached|find|below|following|"
      "today|tomorrow|yesterday|hier|estuary|estuaire|water|tide|tides|weather|sun|sunny|rain|rainy|wind|windy|storm|"
      "stormy|calm|cold|warm|sea|boat|boats|fishing|harvest|harvesting|season|seasonal|fresh|local|quality|supply|"
      "steady|superb|excellent|beautiful|any|anything|question|questions|problem|problems|ask|happy|help|contact|"
      "reply|back|team|office|farm|quay|market|stall|order|orders|ordering|ordered|delivery|deliveries|deliver|"
      "delivering|delivered|usual|van|vans|driver|drop|time|times|hour|hours|noon|before|after|between|until|till|"
      "open|opens|opening|closed|closes|close|closing|shut|holiday|holidays|year|merry|looking|forward|hear|hearing|"
      "arrive|arrives|arriving|landed|landing|lands|starts|start|begins|invoice|invoices|account|accounts|payment|"
      "paid|pay|terms|min|minimum|page|ref|telephone|mobile|mob|fax|website|www|vat|registered|company|room|tasting|"
      "visit|meet|meeting|sent|date|subject|cc|fw|fwd|late|delay|trouble|since|over|next|bonjour|bonsoir|salut|"
      "coucou|cher|chere|chers|monsieur|madame|messieurs|mesdames|merci|beaucoup|cordialement|bien|amicalement|"
      "sinceres|salutations|bonne|bon|belle|journee|jour|jours|soiree|semaine|semaines|fin|bientot|au|aux|de|du|des|"
      "d|la|le|les|l|un|une|en|et|ou|par|pour|avec|sur|chez|dans|nous|vous|je|j|nos|notre|vos|votre|mon|ma|mes|sont|"
      "ai|avons|avez|suis|ici|voici|ci|joint|jointe|dessous|liste|tarif|tarifs|prix|aujourd|hui|demain|cette|ce|cet|"
      "ces|il|te|plait|svp|stp|si|besoin|voulez|souhaitez|pouvez|appelez|appeler|ecrire|ecrivez|tel|portable|temps|"
      "soleil|pluie|vent|tempete|mer|bateau|bateaux|peche|recolte|saison|frais|fraiche|locaux|beau|belles|beaux|"
      "qualite|commande|commandes|commander|commandez|livraison|livraisons|livrons|livre|livrer|avant|apres|entre|"
      "jusqu|jusque|heure|heures|h|midi|ouvert|ouverte|ouverts|ferme|fermee|fermes|conges|vacances|annee|joyeux|"
      "joyeuses|bonnes|arrivage|arrivages|facture|factures|paiement|reglement|mini|jeudi|retard|excusez|envoye|objet|"
      "valable|valables|prochain|prochaine|valid|daily|european|works|transport|fish|shellfish|meat|poultry|game|"
      "vegetables|veg|fruit|fruits|salad|salads|herbs|dairy|cheese|cheeses|bakery|bread|drinks|spirits|wine|wines|"
      "beer|grocery|groceries|poisson|poissons|coquillages|crustaces|viande|viandes|volaille|volailles|legumes|"
      "herbes|cremerie|fromage|fromages|epicerie|boissons|vins|alcools|boucherie|maree|marees|carriage|charge|"
      "charges|otherwise|under|franco|port|partir|depart|within|item|items|product|products|description|code|codes|"
      "unit|units|article|articles|produit|produits|designation|reference|unite|unites|colisage|conditionnement|";
/* What opens or closes a message: beside these names of people are known. */
static const char greeting_words[]
    = "|hi|hello|hey|dear|morning|afternoon|evening|thanks|thank|hope|regards|wishes|best|cheers|sincerely|bonjour|"
      "bonsoir|salut|coucou|cher|chere|merci|cordialement|amicalement|salutations|bientot|tel|telephone|mob|mobile|"
      "from|de|";
/* Whole, as their words by themselves may say more. */
static const char *const chat_phrases[] = {
  "sous reserve de disponibilite", "replaces all previous prices", "same prices as last week",
  "sorry for the late list", "do not include delivery", "subject to availability", "nothing from the boats",
  "pour paiement comptant", "desole pour le retard", "thanks for your order", "closed for christmas",
  "sorry for the delay", "settlement discount", "next day delivery", "subject to change", "discount for cash",
  "while stocks last", "hope all is well", "do not hesitate", "pas de probleme", "happy christmas",
  "merry christmas", "looking forward", "don t hesitate", "more next week", "joyeuses fetes", "hors transport",
  "happy new year", "nouvelle liste", "n hesitez pas", "anything else", "not a problem", "here they are",
  "free delivery", "delivery free", "nouveau tarif", "nouveaux prix", "all the best", "pas de souci",
  "looking good", "at christmas", "happy easter", "bonnes fetes", "same list as", "off for cash", "morning both",
  "look forward", "order before", "morning all", "prices hold", "out tuesday", "out fishing", "joyeux noel",
  "non compris", "off if paid", "excl sunday", "thanks all", "no problem", "no worries", "hello both",
  "new prices", "hello all", "as always", "need more", "boats out", "free over", "all well", "dear all",
  "a toutes", "as usual", "ex works", "escompte", "new year", "order by", "new list", "as ever", "hi both",
  "see you", "cut off", "hi all", "a tous", "est 19", "yours", "e oe", "rgds", "w c",
};
/* Faces and hands that wish well, the sun and the sea; what else stands alone may be a no. */
static const char glad_signs[] = "👍🙏👋🙂😀😃😄😁😊☀🌊⚓❤🌞✨🎄🎉";
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

  if (strpbrk (line, "0123456789@") == NULL && strstr (line, "www.") == NULL)
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

  /* "Min. order 3 kg"; "4 kg bags" are other packs. */
  if (i + 1 < tokens->len && next->kind == CRO_PRICE_TOKEN_UNIT)
    return is_of_else;
  if (cro_price_token_is (tokens, i + 1, "|m|cm|mm|x|") || cro_price_token_is (tokens, i + 1, hour_words)
      || (is_whole && cro_price_token_is (tokens, i + 1, term_words)))
    return TRUE;
  if (i > 0 && is_whole && (cro_price_token_is (tokens, i - 1, counted_words)
                            || (cro_price_token_is (tokens, i - 1, "|of|sur|de|") && is_of_else)))
    return TRUE;
  /* "Min. order 60, delivery 4.50" */
  return (token->kind == CRO_PRICE_TOKEN_NUMBER && is_of_else && token->number < 100000 * CRO_MICRO)
         || (is_whole && token->number < 100000 * CRO_MICRO && is_of_street (tokens, i))
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

/* Without whole phrases that are known. Owned. */
static char *
dup_without_phrases (const char *folded)
{
  g_autoptr (GString) rest = g_string_new (NULL);

  g_string_printf (rest, " %s ", folded);
  for (guint i = 0; i < G_N_ELEMENTS (chat_phrases); i++)
    {
      g_autofree char *phrase = g_strconcat (" ", chat_phrases[i], " ", NULL);

      g_string_replace (rest, phrase, "  ", 0);
    }
  return g_string_free (g_steal_pointer (&rest), FALSE);
}

static gboolean
is_glad (gunichar c)
{
  return g_utf8_strchr (glad_signs, -1, c) != NULL || c == 0xfe0f || c == 0xb0 || (c >= 0x1f300 && c <= 0x1f43f)
         || (c >= 0x1f980 && c <= 0x1f9ae);
}

/* Whether a word is written as a name is: "Pia". */
static gboolean
is_capital (const char *line,
            const char *word)
{
  g_auto (GStrv) all = g_strsplit_set (line, " \t,.;:!?()<>&/-'\"", -1);

  for (guint i = 0; all[i] != NULL; i++)
    {
      g_autofree char *folded = cro_fold (all[i]);

      if (strcmp (folded, word) == 0)
        return g_unichar_isupper (g_utf8_get_char (all[i]));
    }
  return FALSE;
}

gboolean
cro_price_talk_is_name (const char *line)
{
  g_autofree char *plain = dup_without_numbers_to_call (line), *folded = cro_fold (plain);
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);
  guint n = 0;

  if (cro_price_has_word (folded, change_words) || cro_price_has_word (folded, taking_words)
      || strpbrk (plain, "0123456789%") != NULL)
    return FALSE;
  for (guint i = 0; words[i] != NULL; i++)
    {
      n += *words[i] != '\0';
      if (*words[i] != '\0' && !is_capital (line, words[i]) && strspn (words[i], "x") != strlen (words[i])
          && !cro_price_is_among (words[i], "|and|et|the|la|le|at|of|de|chez|du|"))
        return FALSE;
    }
  return n > 0 && n <= 5;
}

/* Whether all words of a line, and all its signs, are known to say nothing of prices. Numbers are the caller's. */
static gboolean
is_known_talk (const char *line,
               const char *folded,
               const char *also)
{
  g_autofree char *rest = dup_without_phrases (folded);
  g_auto (GStrv) words = g_strsplit (rest, " ", -1);
  const gboolean takes_names = cro_price_has_word (folded, greeting_words) || cro_price_has_word (folded, else_words)
                               || cro_price_has_word (folded, street_words),
                 has_number = strpbrk (line, "0123456789") != NULL,
                 is_of_payment = cro_price_has_word (folded, payment_words);

  for (const char *at = line; *at != '\0'; at = g_utf8_next_char (at))
    if ((g_unichar_type (g_utf8_get_char (at)) == G_UNICODE_OTHER_SYMBOL || *at == '~'
         || (*at == '%' && !is_of_payment))
        && !is_glad (g_utf8_get_char (at)))
      return FALSE;
  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *bounded = g_strconcat (" ", words[i], " ", NULL), *others = NULL;
      g_autoptr (GArray) token = NULL;

      if (*words[i] == '\0' || strpbrk (words[i], "0123456789") != NULL || cro_price_is_among (words[i], chat_words)
          || cro_price_is_among (words[i], else_words)
          || (has_number && (cro_price_is_among (words[i], street_words) || cro_price_is_among (words[i], counted_words)
                             || cro_price_is_among (words[i], hour_words)
                             || cro_price_is_among (words[i], term_words))))
        continue;
      others = g_strconcat (" ", also != NULL ? also : "", " ", NULL);
      if (strstr (others, bounded) != NULL
          || (takes_names && !cro_price_is_among (words[i], all_words) && !cro_price_is_among (words[i], way_words)
              && !cro_price_is_among (words[i], change_words) && is_capital (line, words[i])))
        continue;
      token = cro_price_tokens_of (words[i]);
      if (token->len != 1 || !(cro_price_is_time_word (token, 0)
                               || (g_array_index (token, CroPriceToken, 0).kind == CRO_PRICE_TOKEN_UNIT
                                   && has_number)))
        return FALSE;
    }
  return TRUE;
}

gboolean
cro_price_talk_may_be_of_prices (const char *line,
                                 gboolean    has_price,
                                 const char *also)
{
  g_autofree char *plain = dup_without_numbers_to_call (line), *folded = cro_fold (plain);
  const gboolean has_number = strpbrk (plain, "0123456789") != NULL;
  g_autoptr (GArray) tokens = NULL;
  gboolean is_of_else;

  /* "2 % off if paid within 8 days" is of who pays so. */
  if (((!has_price && !has_number) || cro_price_has_word (folded, payment_words))
      && is_known_talk (plain, folded, also))
    return FALSE;
  tokens = cro_price_tokens_of (plain);
  is_of_else = !has_token (tokens, price_words) && has_token (tokens, else_words);
  if (has_token (tokens, change_words))
    return TRUE;
  /* "Everything is half price" */
  if (has_token (tokens, "|half|moitie|demi|") && has_token (tokens, price_words))
    return TRUE;
  /* "Going up on Monday", "both up 5 %"; "prices up again" is of these. */
  if ((has_token (tokens, way_words) && (has_number || has_time (tokens)))
      || (has_number && strchr (plain, '+') != NULL))
    return TRUE;
  /* "Prices x 1.2", "call it 10" are of no goods. */
  if (has_number && (!has_price || has_token (tokens, price_words) || is_known_talk (plain, folded, also))
      && has_unexplained (tokens, is_of_else))
    return TRUE;
  /* A price of goods that the book does not know is of those. */
  return (!has_price || has_token (tokens, all_words)) && !is_known_talk (plain, folded, also);
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
cro_price_talk_is_known (const char *words,
                         const char *also)
{
  g_autofree char *folded = cro_fold (words);

  return is_known_talk (words, folded, also);
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

  /* "The box is 10 kg now" is of all. */
  for (guint i = 1; i < tokens->len; i++)
    if (g_array_index (tokens, CroPriceToken, i).kind == CRO_PRICE_TOKEN_UNIT && cro_price_is_number_at (tokens, i - 1))
      return FALSE;
  return strpbrk (line, "0123456789") != NULL && strchr (line, '%') == NULL
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
