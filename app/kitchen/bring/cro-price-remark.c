#include "cro-price-remark.h"

#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-price-day.h"
#include "cro-price-token.h"
#include "cro-price-words.h"

#include <string.h>

/* --- Words, folded, with | around each ---------------------------------------------------------------------------- */

static const char gone_words[]
    = "|discontinued|delisted|unavailable|temporarily|epuise|epuisee|epuises|arrete|arretee|supprime|supprimee|"
      "rupture|poa|tbc|tba|tbd|estimate|estimated|estimation|ended|ceased|withdrawn|obsolete|suspended|suspendu|"
      "stopped|termine|terminee|void|ignore|error|mp|manque|manquant|indisponible|indispo|replaced|remplace|"
      "remplacee|retire|retiree|cancelled|annule|annulee|inactive|inactif|";
static const char *const gone_phrases[]
    = { " no longer ", " on request ", " on application ", " sur demande ", " nous consulter ", " not available ",
        " sold out ", " out of ", " hors saison ", " plus disponible ", " no stock ", " not sold ",
        " nothing left ", " no more ", " none this ", " do not order ", " coming soon ", " a venir ",
        " crop failed ", " awaiting ", " en attente ", " cours du jour ", " market price ", " aucun cette ",
        " a confirmer ", " see below ", " prix du jour " };
/* What a remark may say of goods that is nothing of their price, in English and in French. */
static const char plain_words[]
    = "|fresh|local|organic|avg|average|approx|wild|farmed|cultivated|natural|raw|whole|live|alive|washed|unwashed|"
      "trimmed|untrimmed|peeled|unpeeled|cleaned|gutted|scaled|filleted|boned|loose|bunched|bunch|bunches|topped|"
      "tailed|tops|grown|rope|line|pole|hand|picked|dived|diver|caught|landed|gathered|foraged|home|house|estate|"
      "garden|greenhouse|glasshouse|outdoor|range|grass|fed|reared|aged|matured|mature|young|baby|mini|small|medium|"
      "large|big|jumbo|thick|thin|round|flat|red|white|green|black|yellow|purple|golden|brown|pink|orange|blue|mixed|"
      "assorted|heritage|heirloom|variety|varieties|salted|unsalted|sweet|sour|sharp|mild|strong|soft|hard|smooth|"
      "creamy|dry|dried|smoked|cured|cooked|blanched|frozen|chilled|ambient|pasteurised|unpasteurised|milk|cream|"
      "skimmed|semi|seedless|boneless|skinless|class|classe|cat|category|grade|quality|qualite|choix|first|premium|"
      "standard|top|best|fine|choice|prime|superior|ripe|firm|juicy|crisp|tender|lovely|nice|good|very|great|"
      "excellent|superb|beautiful|new|seasonal|early|main|crop|harvest|size|sizes|calibre|origin|origine|provenance|"
      "produce|product|area|fao|zone|vintage|traditional|handmade|artisan|craft|rare|native|breed|boats|boat|pieces|"
      "piece|shell|shells|sustainable|certified|msc|asc|aop|igp|label|core|active|actif|ok|yes|oui|available|"
      "disponible|dispo|vacuum|packed|pack|packs|box|boxes|boxed|bag|bags|tray|trays|case|cases|crate|punnet|sack|"
      "washing|cutting|slicing|cooking|baking|roasting|salad|use|ideal|perfect|suitable|tins|tin|jar|bottle|english|"
      "british|scottish|irish|welsh|french|dutch|spanish|italian|belgian|german|danish|portuguese|moroccan|kenyan|"
      "greek|norwegian|icelandic|uk|gb|eu|france|spain|italy|holland|netherlands|belgium|germany|ireland|scotland|"
      "england|wales|morocco|kenya|peru|greece|denmark|norway|iceland|portugal|egypt|chile|fr|ie|nl|es|it|be|de|pt|"
      "estuary|bay|sea|river|farm|farms|field|fields|coast|south|north|east|west|valley|hill|moor|island|loch|lake|"
      "shore|water|salt|pasture|meadow|wood|woods|forest|atlantic|channel|cornish|devon|kent|frais|fraiche|fraiches|"
      "locaux|locale|locales|biologique|bio|sauvage|sauvages|lave|lavee|laves|lavees|doux|douce|sel|salee|cru|crus|"
      "crue|vivant|vivants|vivante|vivantes|entier|entiers|entiere|petit|petits|petite|petites|gros|grosse|grosses|"
      "moyen|moyens|moyenne|grand|grands|grande|jeune|jeunes|nouveau|nouveaux|nouvelle|nouvelles|eau|mer|ligne|peche|"
      "peches|eleve|eleves|elevage|ferme|fermier|fermiere|plein|pleine|air|cueilli|cueillis|francais|francaise|"
      "anglais|anglaise|espagnol|italien|breton|bretonne|normand|normande|bretagne|normandie|espagne|italie|irlande|"
      "ecosse|angleterre|hollande|belgique|extra|blanc|blanche|rouge|rouges|vert|verte|verts|jaune|noir|noire|fume|"
      "fumee|seche|seches|cuit|cuite|demi|beurre|lait|creme|estuaire|vallee|cote|cotes|riviere|sable|botte|bottes|"
      "barquette|caisse|sachet|vide|contain|contains|contient|gluten|crunchy|pre|ready|sushi|sashimi|succulent|"
      "fragrant|aromatic|delicate|earthy|nutty|buttery|fluffy|plump|meaty|silky|flaky|rich|light|dark|bright|vibrant|"
      "clean|graded|hothouse|polytunnel|winterised|hardy|overwintered|forced|blood|stalk|stem|stems|leaf|leaves|root|"
      "roots|head|heads|heart|hearts|feuille|feuilles|racine|nuts|fish|molluscs|crustaceans|s|";
static const char plain_joints[]
    = "|of|the|in|on|at|with|and|by|per|from|for|to|a|an|de|la|du|le|les|des|d|l|au|aux|en|et|avec|sous|sur|par|pour|"
      "our|nos|season|saison|spring|summer|autumn|winter|printemps|ete|automne|hiver|all|year|toute|annee|";
/* Whole phrases of it, whose words by themselves may say more. */
static const char *const plain_phrases[] = {
  "skin on", "skin off", "skins off", "bone in", "bones in", "bone out", "bones out", "beards out", "beard off",
  "shell on", "shell off", "head on", "heads on", "head off", "heads off", "tops off", "tops on", "pin boned",
  "line caught", "free range", "gluten free", "half shell", "half fat", "half skimmed", "full fat", "low fat",
  "ask for samples", "may contain", "back in stock", "in stock", "low stock", "en stock", "sold by", "sold in",
  "vendu par", "vendus par", "minimum order", "min order", "minimum", "min", "back tuesday", "immediate",
  "immediately", "sous reserve d arrivage", "high fat", "use by", "new season", "to order", "sans aretes",
  "sans peau", "sans os", "no added", "low salt", "this week", "cette semaine",
};
/* What says that goods are not to be had, where the heading asks whether they are. */
static const char no_words[]
    = "|no|not|n|non|none|nil|zero|false|faux|f|pas|aucun|aucune|jamais|never|";
/* Plain words that are none behind "not": "not available", "pas de livraison". */
static const char turned_words[]
    = "|available|disponible|dispo|active|actif|ok|yes|oui|core|landed|caught|good|nice|de|";
static const char had_signs[] = "✓✔✅☑";
static const char change_words[]
    = "|less|off|discount|rebate|remise|rabais|ristourne|hausse|baisse|increase|minus|majore|majores|majorer|";
/* What comes on top of each. */
static const char added_words[]
    = "|surcharge|supplement|majoration|levy|uplift|";
static const char payment_words[]
    = "|cash|settlement|prompt|payment|paid|comptant|paiement|reglement|escompte|";
/* Numbers behind these, before those, and rates before the third are of goods. */
static const char counted_words[]
    = "|class|classe|cat|category|categorie|grade|size|sizes|taille|calibre|cal|no|n|nr|num|numero|fao|zone|area|"
      "type|level|lot|batch|version|page|ref|code|art|item|since|depuis|vintage|aged|affine|min|mini|minimum|moq|"
      "order|commande|";
static const char age_words[]
    = "|months|month|mois|ans|an|years|year|old|";
static const char part_words[]
    = "|fat|mg|matiere|matieres|cocoa|cacao|vol|alc|alcohol|alcool|abv|lean|pur|pure|meat|viande|fruit|fruits|solids|"
      "juice|jus|organic|bio|";
/* What may stand beside a name and is of its price; "half shell" is of the goods. */
static const char *const name_phrases[]
    = { " half box ", " half case ", " half pack ", " half bag ", " demi caisse ", " demi colis ", " the pair ",
        " la paire ", " for two ", " pour deux ", " free of charge " };
/* What a day beside them is of. */
static const char dated_words[]
    = "|order|orders|ordered|ordering|commande|commander|commandes|delivery|deliveries|delivered|delivers|deliver|"
      "livre|livraison|livraisons|season|saison|harvest|harvested|recolte|best|peak|caught|landed|peche|packed|baked|"
      "except|arrives|arrivage|boat|boats|bateau|bateaux|van|truck|camion|";
/* Beside a name they are of its price, or of whether it is to be had; with change_words, added_words, payment_words. */
static const char doubtful_words[]
    = "|out|oos|off|stop|stopped|gone|sold|none|no|not|nil|n|na|never|nothing|finished|fini|finis|last|next|old|prev|"
      "previous|was|now|before|after|until|till|from|dear|dearer|cheap|cheaper|up|down|short|scarce|wait|waiting|"
      "hold|pending|check|ask|call|confirm|confirmer|draft|new|price|prices|prix|tarif|cost|free|gratuit|offert|"
      "offer|offre|special|promo|promotion|deal|sale|reduced|clearance|destock|destockage|half|quarter|"
      "quart|double|twin|pair|paire|two|deux|three|trois|dozen|dozens|doz|each|ea|per|for|pour|by|only|seulement|"
      "minus|moins|ht|ttc|vat|tva|tax|incl|excl|ex|seconds|declasse|declassee|returned|return|retour|sample|"
      "echantillon|limited|limite|max|min|minimum|pas|sans|aucun|aucune|plus|fin|arret|attente|bientot|soon|change|"
      "changed|changement|substitute|sub|instead|swap|wrong|error|erreur|";
static const char since_words[]
    = "|from|until|till|til|jusqu|jusque|partir|des|starting|starts|effective|valid|valable|before|avant|ends|"
      "expires|only|";

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
cro_price_remark_adds_rate (const char *text)
{
  static const char taxes[] = "|tax|taxes|taxe|vat|tva|gst|ht|htva|ttc|tvac|t|excl|incl|excise|duty|accise|droits|";
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);

  for (guint i = 0; i + 1 < tokens->len; i++)
    {
      guint behind = i + 2;
      gboolean has_word;

      if ((g_array_index (tokens, CroPriceToken, i).kind != CRO_PRICE_TOKEN_PLUS
           && !cro_price_token_is (tokens, i, "|plus|"))
          || g_array_index (tokens, CroPriceToken, i + 1).kind != CRO_PRICE_TOKEN_RATE)
        continue;
      behind += cro_price_token_is (tokens, behind, "|of|de|d|for|");
      has_word = behind < tokens->len && g_array_index (tokens, CroPriceToken, behind).kind == CRO_PRICE_TOKEN_WORD;
      if (!cro_price_token_is (tokens, behind, taxes)
          && (has_word || i == 0 || !cro_price_token_is (tokens, i - 1, taxes)))
        return TRUE;
    }
  return FALSE;
}

/* How many tokens the longest of those phrases has that stand there; 0: none. */
static guint
scan_plain_phrase (const GArray *tokens,
                   guint         i)
{
  guint longest = 0;

  for (guint k = 0; k < G_N_ELEMENTS (plain_phrases); k++)
    {
      const char *at = plain_phrases[k];
      guint n = 0;

      while (*at != '\0' && i + n < tokens->len)
        {
          const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i + n);
          const gsize bytes = strcspn (at, " ");

          if (token->kind != CRO_PRICE_TOKEN_WORD || strlen (token->word) != bytes
              || strncmp (token->word, at, bytes) != 0)
            break;
          at += bytes + (at[bytes] == ' ');
          n++;
        }
      if (*at == '\0')
        longest = MAX (longest, n);
    }
  return longest;
}

/* "From spring", "for the autumn", "from Friday", "for the bag", "available from": when goods are to be had, or for how
 * much the price is. */
static gboolean
leads_to_terms (const GArray *tokens,
                guint         i)
{
  static const char seasons[]
      = "|spring|summer|autumn|winter|printemps|ete|automne|hiver|season|saison|year|annee|stock|delivery|deliveries|"
        "livraison|livraisons|order|orders|";
  guint next = i + 1;
  gboolean is_whole;

  if (!cro_price_token_is (tokens, i, "|from|for|pour|des|"))
    return FALSE;
  while (cro_price_token_is (tokens, next, "|the|a|an|le|la|l|next|new|"))
    next++;
  /* "Le pour" */
  if (next >= tokens->len)
    return !cro_price_token_is (tokens, i, "|des|");
  return cro_price_token_is (tokens, next, seasons) || cro_price_is_time_word (tokens, next)
         || (!cro_price_token_is (tokens, i, "|from|des|")
             && (g_array_index (tokens, CroPriceToken, next).kind == CRO_PRICE_TOKEN_UNIT
                 || cro_price_token_is (tokens, next, "|piece|pieces|bunch|botte|")
                 || (g_array_index (tokens, CroPriceToken, next).kind == CRO_PRICE_TOKEN_WORD
                     && cro_price_scan_pack (g_array_index (tokens, CroPriceToken, next).word, &is_whole) > 0)));
}

/* Whether a word, or those with it, is known to say nothing of a price. How many tokens; 0: it may say something. */
static guint
scan_plain (const GArray *tokens,
            guint         i,
            const char   *also,
            gboolean      is_dated)
{
  const guint phrase = scan_plain_phrase (tokens, i);
  const char *word = g_array_index (tokens, CroPriceToken, i).word;
  g_autofree char *bounded = g_strconcat (" ", word, " ", NULL), *all = NULL;

  if (phrase > 0)
    return phrase;
  /* "Delivery tomorrow" */
  if (leads_to_terms (tokens, i) || cro_price_is_among (word, "|tomorrow|demain|"))
    return 0;
  if (cro_price_is_among (word, plain_words) || cro_price_is_among (word, plain_joints))
    return 1;
  /* "Not washed"; "not ok", "pas dispo" are none. */
  if (cro_price_is_among (word, "|not|non|pas|un|") && cro_price_token_is (tokens, i + 1, plain_words)
      && !cro_price_token_is (tokens, i + 1, turned_words))
    return 2;
  /* "Class 1", "82 % fat", "24 months", "1st" */
  if ((cro_price_is_among (word, counted_words)
       && (cro_price_is_number_at (tokens, i + 1) || cro_price_token_is (tokens, i + 1, "|i|ii|iii|")))
      || (i > 0 && (cro_price_is_number_at (tokens, i - 1)
                    || g_array_index (tokens, CroPriceToken, i - 1).kind == CRO_PRICE_TOKEN_RATE)
          && (cro_price_is_among (word, part_words) || cro_price_is_among (word, age_words)
              || cro_price_is_among (word, "|st|nd|rd|er|")))
      || (i > 0 && cro_price_is_among (word, "|i|ii|iii|") && cro_price_token_is (tokens, i - 1, counted_words)))
    return 1;
  /* "6 x 1 kg", "1 kg x 6" */
  if (strcmp (word, "x") == 0 && i > 0 && cro_price_is_number_at (tokens, i + 1)
      && (cro_price_is_number_at (tokens, i - 1)
          || g_array_index (tokens, CroPriceToken, i - 1).kind == CRO_PRICE_TOKEN_UNIT))
    return 1;
  /* "Order by Tuesday", "delivered Mondays" */
  if (is_dated && (cro_price_is_among (word, dated_words) || cro_price_is_time_word (tokens, i)
                   || cro_price_is_among (word, "|advance|before|back|mondays|tuesdays|wednesdays|thursdays|"
                                                "fridays|saturdays|noon|midi|avant|each|every|day|days|")))
    return 1;
  all = g_strconcat (" ", also != NULL ? also : "", " ", NULL);
  return strstr (all, bounded) != NULL;
}

/* Words of an order or a season, whose days are none of the price. */
static gboolean
is_dated (const GArray *tokens)
{
  for (guint i = 0; i < tokens->len; i++)
    if (cro_price_token_is (tokens, i, dated_words))
      return TRUE;
  return FALSE;
}

/* Whether all words of a text are known to say nothing of a price. Numbers are the caller's. */
static gboolean
has_plain_words (const GArray *tokens,
                 const char   *also)
{
  const gboolean has_dates = is_dated (tokens);

  for (guint i = 0, n; i < tokens->len; i += n)
    {
      const CroPriceToken *token = &g_array_index (tokens, CroPriceToken, i);

      n = 1;
      switch (token->kind)
        {
        case CRO_PRICE_TOKEN_WORD:
          n = scan_plain (tokens, i, also, has_dates);
          if (n == 0)
            return FALSE;
          break;
        case CRO_PRICE_TOKEN_UNIT:
          /* "Dozen" is what a price is for. */
          if (token->unit == CRO_UNIT_DOZEN && !(i > 0 && cro_price_is_number_at (tokens, i - 1)))
            return FALSE;
          break;
        case CRO_PRICE_TOKEN_DAY:
          if (cro_price_is_among (token->word, "|1/2|1/4|3/4|1/3|2/3|"))
            return FALSE;
          break;
        case CRO_PRICE_TOKEN_MONEY:
        case CRO_PRICE_TOKEN_PLUS:
        case CRO_PRICE_TOKEN_DOUBT:
        case CRO_PRICE_TOKEN_MARK:
          return FALSE;
        default:
          break;
        }
    }
  return TRUE;
}

/* "↑", "22.50 †": up, down, or of a note that nobody sees. */
static gboolean
has_arrow (const char *text)
{
  for (; *text != '\0'; text = g_utf8_next_char (text))
    if ((*text & 0x80) != 0 && g_utf8_strchr ("←↑→↓↗↘⇧⇩⬆⬇▲▼△▽†‡", -1, g_utf8_get_char (text)) != NULL)
      return TRUE;
  return FALSE;
}

gboolean
cro_price_remark_is_plain (const char *text,
                           const char *also)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  g_autofree char *folded = cro_fold (text);
  guint n_words = 0;

  if (has_arrow (text) || has_phrase (folded, name_phrases, G_N_ELEMENTS (name_phrases)))
    return FALSE;
  for (guint i = 0; i < tokens->len; i++)
    {
      const CroPriceTokenKind kind = g_array_index (tokens, CroPriceToken, i).kind;

      if ((kind == CRO_PRICE_TOKEN_NUMBER || kind == CRO_PRICE_TOKEN_DAY || kind == CRO_PRICE_TOKEN_RATE)
          && !is_of_goods (tokens, i))
        return FALSE;
      n_words += kind != CRO_PRICE_TOKEN_END;
    }
  /* "!!" */
  return (n_words > 0 || tokens->len == 0) && has_plain_words (tokens, also);
}

gboolean
cro_price_words_are_plain (const char *text,
                           const char *also)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);

  return strstr (text, "!!") == NULL && has_plain_words (tokens, also);
}

gboolean
cro_price_words_are_doubtful (const char *text)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);

  if (strpbrk (text, "!?*=~") != NULL || cro_price_remark_is_gone (text))
    return TRUE;
  for (guint i = 0; i < tokens->len; i++)
    switch (g_array_index (tokens, CroPriceToken, i).kind)
      {
      case CRO_PRICE_TOKEN_WORD:
        if (cro_price_token_is (tokens, i, doubtful_words) || cro_price_token_is (tokens, i, change_words)
            || cro_price_token_is (tokens, i, added_words) || cro_price_token_is (tokens, i, payment_words)
            || cro_price_is_time_word (tokens, i)
            || !g_unichar_isalnum (g_utf8_get_char (g_array_index (tokens, CroPriceToken, i).word)))
          return TRUE;
        break;
      case CRO_PRICE_TOKEN_NUMBER:
      case CRO_PRICE_TOKEN_RATE:
      case CRO_PRICE_TOKEN_UNIT:
      case CRO_PRICE_TOKEN_END:
        break;
      default:
        return TRUE;
      }
  return FALSE;
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
cro_price_cell_is_answer (const char *text)
{
  g_autofree char *folded = cro_fold (text);

  return cro_price_is_among (folded, no_words)
         || cro_price_is_among (folded, "|y|yes|o|oui|true|vrai|x|up|down|stable|hausse|baisse|");
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
  /* "On order" */
  if (*folded == '\0' || is_dated (tokens))
    return FALSE;
  /* "12 cases" */
  if (digits > 0)
    return strcspn (number, "123456789") < digits && strpbrk (number + digits, "0123456789%/+-") == NULL
           && cro_price_remark_is_plain (number + digits, NULL);
  return cro_price_is_among (folded, "|y|o|true|vrai|") || cro_price_remark_is_plain (text, NULL);
}

gboolean
cro_price_name_is_plain (const char *text)
{
  g_autoptr (GArray) tokens = cro_price_tokens_of (text);
  const CroPriceSaying saying = cro_price_saying_of (text, NULL);
  g_autofree char *folded = cro_fold (text);

  /* "Apple (half box)", "apple per 2", "apple TTC", "apple ??", "apple SOLD" */
  if (has_phrase (folded, name_phrases, G_N_ELEMENTS (name_phrases)) || strchr (text, '?') != NULL
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
