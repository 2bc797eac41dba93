#include "cro-price-letter.h"

#include "cro-fold.h"

#include <string.h>

/* --- Forms ---------------------------------------------------------------------------------------------------- */

/* A line is matched as folded words, which keep a capital that they begin with, with " ; " where a sentence or a part
 * of one ends, and "@" for what is dialled or written to. Numbers stand as they are written. */

/* What forms are made of. */
static const char parts[]
    = "(?<wd>(?:mon|tues|wednes|thurs|fri|satur|sun)days?|mon|tues?|wed|thu|thurs?|fri|sat|sun|lundi|mardi|mercredi|"
      "jeudi|vendredi|samedi|dimanche)"
      "(?<month>jan(?:uary|vier)?|feb(?:ruary)?|fevrier|mar(?:ch|s)?|apr(?:il)?|avril|may|mai|june?|juin|july?|"
      "juillet|aug(?:ust)?|aout|sept?(?:ember|embre)?|oct(?:ober|obre)?|nov(?:ember|embre)?|dec(?:ember|embre)?)"
      "(?<date>\\d{1,2}(?:st|nd|rd|th|er)?(?: of| de)? (?&month)(?: \\d{4})?|\\d{1,2}[./-]\\d{1,2}(?:[./-](?:\\d{4}|"
      "\\d\\d)?)?|(?&month) \\d{1,2}(?:st|nd|rd|th)?(?: \\d{4})?|\\d{4}-\\d\\d-\\d\\d)"
      "(?<day>(?:(?&wd) )?(?&date)|(?&wd)(?: \\d{1,2}(?:st|nd|rd|th|er)?)?)"
      "(?<days>(?:the |le |du )?(?&day)(?:(?: ;)?(?: and| et| or| ou| to| au| a| -)?(?: the| le)? (?&day)){0,5})"
      "(?<week>(?:this |the |cette |la |for )?(?:week|wk|semaine|sem)(?: (?:no |n )?\\d{1,2})?(?: (?:of|du|"
      "commencing|beginning|ending) (?:the )?(?&days))?|w ?[ce] (?&days)|s ?\\d{1,2})"
      "(?<when>(?:on |of |for |du |le |au |des |the |pour |this |ce ){0,5}(?:(?&days)|(?&week)|today|aujourd hui|"
      "week ?end|this (?:morning|afternoon)|ce matin|daily|every day|tous les jours|each day))"
      "(?<clock>@|\\d{1,2}(?:[.:]\\d\\d)?(?: ?(?:[ap]m|[ap] m|h|hrs?|hours?|heures?|o clock|oclock)(?: ?\\d\\d)?)?|"
      "noon|midday|midnight|midi|minuit)"
      "(?<cur>[€£$]|eur|euros?|gbp|pounds?)"
      "(?<money>(?:(?&cur) ?)?\\d+(?:[.,]\\d{1,2})?(?: ?(?&cur))?)"
      "(?<amount>\\d+(?:[.,]\\d+)? ?(?:kg|kgs|kilos?|boxes|cases|bags|crates|items?|lines?|colis|caisses|sacs|l)|"
      "(?&money))"
      "(?<tax>(?: ;)? (?:ex|excl|excluding|plus) vat| ht| hors taxes?)"
      /* What no name is: it may say of prices what these are. */
      "(?<said>(?:not?|none|nothing|never|nope|sold|out|off|gone|finished|over|available|unavailable|disponible|"
      "epuise|rupture|fini|discontinued|withdrawn|ended|expired|cancell?ed|void|change[ds]?|changes|new|old|nouveau|"
      "ancien|up|down|more|less|plus|moins|minus|half|demi|double|from|until|till|for|per|each|all|every|both|only|"
      "if|when|but|except|sauf|price|prices|prix|tarif|cost|costs|list|market|marche|firm|free|special|promo|offer|"
      "sale|reduced|discount|remise|draft|estimate|guess|rough|roughly|around|about|poa|tbc|tba|mp|season|saison|"
      "spring|summer|autumn|winter|christmas|noel|next|last|tomorrow|yesterday|demain|hier|frozen|smoked|cooked|"
      "seconds|class|add|extra|call|ask|order|correction|corrected|sorry|pardon|oops|wrong|updated?|stock|limited|"
      "short|retail|trade|public|shop|rrp|wholesale|competitor|refund|credit|deposit|test|sample|ignore|cancel|void|"
      "two|three|ten|one|non|pas|aucun|aucune|rien|provisional|guide|bogof|indicative|recalled|damaged|reject|"
      "rejected|final|pending|waiting|awaiting|maybe|perhaps|closed|stop|hold|single|kidding|joking|deleted|cheaper|"
      "dearer|higher|lower|rises?|falls?|easter|xmas|bulk|pallet)\\b)"
      "(?<cap>(?!(?&said)|(?&wd)\\b|(?&month)\\b)(?-i:[A-Z])\\w*)"
      "(?<name>(?&cap)(?: (?:and |et |at |of |de |du |the |la |le |chez )?(?&cap)){0,4}(?: x+)?)"
      "(?<who>chefs?|all(?: of you)?|both|everyone|team|folks|there|again|sir|madam|customers?|friends?|a tous|"
      "a toutes|tous|toutes|madame|monsieur|mesdames|messieurs|l equipe|les amis|client|clients|clients?e?s?)"
      "(?<group>(?:fresh |frozen |dry |our |mixed |wild )?(?:european |local )?(?:fish|shellfish|crustaceans|meat|"
      "poultry|game|vegetables?|veg|fruit|fruits|salads?|herbs|dairy|cheeses?|bakery|bread|drinks|spirits|wines?|"
      "beers?|groceries|grocery|dry goods|disposables|poissons?|coquillages|crustaces|viandes?|volailles?|gibier|"
      "legumes|fruits?|salades|herbes|cremerie|fromages?|epicerie|boissons|vins?|alcools|spiritueux|bieres|"
      "boucherie|maree))"
      "(?<list>(?:our |your |the |my |nos |notre |le |la |les |votre |vos )?(?:daily |weekly |new |latest |current |"
      "nouveau |nouveaux |nouvelle )?(?:(?&group) )?(?:price ?lists?|prices?|lists?|tarifs?|prix|mercuriale|listes?|"
      "cours)(?: (?:of|de|du|des) (?:prices|prix|the week|la semaine|semaine))?(?: (?:no|n|num|numero) \\d+)?)";

/* Each of them whole. */
static const char *const forms[] = {
  /* Greetings */
  "(?:good )?(?:morning|afternoon|evening|day)(?: to you)?(?>(?: ;)? (?:(?&who)|(?&name))){0,2}(?: and (?&who))?",
  "(?:hi|hello|hey|dear|bonjour|bonsoir|salut|coucou|chers?|cheres?)(?: (?:hi|hello|dear|morning|good morning|ma|"
  "mes|mon))?(?>(?: ;)? (?:(?&who)|(?&name))){0,2}(?: and (?&who))?",
  "(?:i |we )?hope (?:all(?: is|s)?|you are|you re|you are all|everyone is|this finds you) (?:well|good|ok|"
  "fine)(?: with you)?(?: there| today)?",
  "(?:i |we )?hope you (?:all )?had a (?:good|nice|lovely|great) (?:week|weekend|day|christmas)",
  "take care",
  "sent from my (?:phone|mobile|tablet)",
  "(?:a votre disposition|bonne reception|bon service)",
  "all (?:is )?well here",
  "how are you(?: all)?(?: today)?",
  "comment (?:vas tu|allez vous|ca va)",
  "j espere que (?:tout va bien|vous allez bien|tu vas bien)",
  "(?:a )?(?:lovely|beautiful|cold|warm|wet|windy|stormy|sunny|calm|rough|nice|grey) (?:day|morning|weather|sea|"
  "week)(?: here)?(?: today)?",
  "beau temps(?: aujourd hui)?",
  "(?:il fait )?beau(?: temps)?",
  /* Sorry for what is no price */
  "sorry for the (?:late list|delay|late reply|wait)",
  "desoles? pour le retard",
  "excusez (?:le|nous pour le) retard",
  "no (?:problem|worries)",
  "not a problem",
  "pas de (?:probleme|souci)",
  /* Thanks and ends */
  "(?:many |with |kind |best |warm |kindest |warmest |all the )?(?:thanks|thank you|thx|ta|cheers|regards|rgds|"
  "wishes|best|kr|sincerely)(?: (?:again|chef|all|very much|a lot|for (?:your|the|all your) (?:order|orders|custom|"
  "business|support)|in advance|and (?:best |kind )?(?:regards|wishes))){0,5}(?:(?: ;)? (?&name))?",
  "(?:yours|yours (?:sincerely|faithfully|truly)|sincerely yours|br)(?:(?: ;)? (?&name))?",
  "(?:speak|talk|see you|see you all|catch you) (?:soon|later|tomorrow|(?&when)|then)",
  "see you",
  "(?:have a )?(?:good|great|nice|lovely) (?:day|week|weekend|evening|service)(?: (?&who))?",
  "(?:looking|look) forward(?: to (?:hearing from you|your order|your orders|seeing you))?",
  "(?:as (?:always|usual|ever))",
  "happy (?:christmas|easter|new year)",
  "merry christmas(?: and a happy new year)?",
  "(?:merci|mille mercis)(?: (?:beaucoup|bien|d avance|encore|a tous|pour (?:votre|la) commande|chef|et a bientot|"
  "et bonne journee)){0,5}(?:(?: ;)? (?&name))?",
  "(?:bien )?(?:cordialement|amicalement|a vous|sinceres salutations|salutations|cdlt|bien a vous)(?:(?: ;)?"
  " (?&name))?",
  "(?:a )?(?:tres )?bientot|a (?:demain|(?&wd))",
  "(?:(?:bonne|belle) (?:journee|semaine|soiree|fin de semaine)|bon week ?end)(?: (?:a (?:vous|tous|toutes|toi)|"
  "chef))?",
  "joyeux noel|bonnes fetes|joyeuses fetes|bonne annee",
  /* Who may be asked */
  "(?:if you have |with )?any (?:questions?|problems?)(?: at all)?(?: (?:please )?(?:ask|just ask|call|ring|shout|"
  "let (?:me|us) know|get in touch|give (?:me|us) a (?:ring|call|shout)))?(?: (?:me|us))?(?: on)?(?: @){0,5}",
  "(?:anything else|need anything(?: else)?|need more)",
  "(?:please )?(?:let (?:me|us) know(?: (?:what|if) you (?:need|want|would like)(?: (?:anything|anything else|"
  "more))?)?|(?:ring|call|text|phone|email|mail|contact)(?: (?:me|us|(?&name)|@))(?: (?:on|at|"
  "with (?:your )?orders?|any ?time|to order|with any questions?)){0,5}(?: @){0,5})",
  "(?:please )?let (?:me|us) know if you have (?:any )?(?:questions|problems)",
  "(?:please )?(?:let (?:me|us) know|send|text|email|mail)(?: (?:me|us))? your orders?(?: (?:by|before) (?&clock))?",
  "orders to @",
  "(?:do not|don t|n) hesit(?:ate|ez)(?: pas)?(?: (?:to (?:call|ask|contact us|ring)|a (?:nous )?(?:appeler|"
  "contacter)))?",
  "(?:appelez|appeler|ecrivez)(?: (?:nous|moi))?(?: (?:au|a))?(?: @){0,5}",
  "(?:si )?(?:besoin|question|questions)",
  "(?:(?:tel|telephone|phone|ph|mob|mobile|fax|portable|email|e mail|mail|web|website|www|office|bureau|t|m|"
  "e)(?: (?:no|n|number))?(?: ;)?(?: @){0,5}(?: \\d{3,6}){0,4})+",
  "@(?: @){0,5}",
  "(?&name)(?: ; (?&name)){0,5}(?: ;)? @(?: @){0,5}",
  "(?:from|to|cc|de|a) ; (?:(?&name)|@)(?: @){0,5}",
  "(?:subject|objet|re|fw|fwd) ; (?:(?:re|fw|fwd) ; ){0,5}(?&list)(?: (?&when))?",
  "(?:sent|envoye|date) ; (?:le )?(?&day)(?: ;)?(?: (?:at |a )?(?&clock))?",
  /* Addresses and papers */
  "(?:unit |no )?\\d{1,4}[a-z]?(?: (?&name))? (?:lane|street|st|road|rd|avenue|ave|way|row|close|hill|square|place|"
  "yard|quay|dock|wharf|farm|mill|house|estate|park)(?:(?: ;)? (?&name)){0,5}(?: \\w{2,4} \\d\\w\\w)?",
  "\\d{1,4} ?(?:bis )?(?:rue|quai|chemin|impasse|allee|boulevard|bd|route|avenue|place)(?: (?:de|du|des|la|le|l|"
  "d)){0,5}(?: (?&name))?",
  "\\d{5} (?&name)",
  "(?:the )?(?&name) (?:farm|quay|mill|house|dock|wharf|market|lane)",
  "registered(?: (?:in|office|company|no|n|number|and|@|\\d+|(?&name))){0,5}",
  "(?:company|siret|siren|iban|bic|account|acc)(?: (?:no|n|number)){0,2}(?: ;)?(?: [a-z]{2})?(?: \\d[\\d ]{3,}| @)",
  "(?:vat|tva)(?: (?:no|n|number|reg|registration|intracommunautaire)){1,3}(?: ;)?(?: [a-z]{2})?(?: (?:@|"
  "\\d[\\d ]*))*+",
  "vat [a-z]{2} \\d[\\d ]{3,}",
  "page \\d+(?: ?(?:of|sur|de|/) ?\\d+)?",
  "(?:ref|reference)(?: ;)? [a-z]*-?\\d[\\w/-]*",
  "e (?:and )?oe|errors and omissions excepted|sauf erreur(?: ou omission)?",
  /* Orders and hours */
  "(?:please )?(?:orders?|ordering|commandes?|commander|commandez|cut ?off|order cut off|last orders?)(?: (?:please|"
  "in|time|is|are|svp)){0,5}(?: (?:by|before|until|till|at|avant|jusqu a|jusqu au|"
  "for))?(?: (?&clock))?(?: (?:the day before|la veille))?(?: (?:please|svp))?(?:(?: for| pour)?(?: (?:next day|"
  "same day))?(?: (?:delivery|livraison))?(?: (?:next day|le lendemain|lendemain|the next day|"
  "(?&when)))?)?(?: (?:please|svp))?",
  "(?:please )?(?:order|orders) (?:by|before) (?&when)(?: (?:at )?(?&clock))?",
  "(?:internet |online |phone |text )?orders welcome",
  "(?:order|orders) (?:by|via) (?:phone|text|mail|email)",
  "(?:we (?:are |re )?|nous sommes )?(?:open|opens|ouverts?|ouverte|opening hours?|heures d ouverture|hours|"
  "horaires)(?: ;)?(?: (?&when)){0,5}(?: (?:from|de|excl|except|sauf))?(?: (?&when))?(?: (?&clock)(?: ?(?:to|a|-|"
  "until) ?(?&clock))?)?(?: (?&when))?",
  "(?:is |we (?:are|re|will be) |nous (?:sommes|serons) |(?:our |the )?(?:office|shop|stall|market)"
  " (?:is )?)?(?:closed|shut|fermes?|fermee|ferme)(?: (?:on|le|all|for|toute|la|over)){0,5}(?: (?:tomorrow|demain|"
  "day|journee|christmas|easter|noel|paques|new year|bank holidays|holidays|lunch|(?&when))){0,5}(?: (?:to|au)"
  " (?&when))?",
  "(?:except|excluding|excl|sauf|hors) (?:bank holidays|jours feries)",
  "not open on (?&days)",
  "(?:the )?(?&cap) (?:street|road|lane|quay|bridge|mill)(?: is)? (?:closed|shut)(?: (?:today|(?&when)))?",
  /* Deliveries and boats */
  "(?:(?:next|free|usual|our|incl|prochaine|normal|no|pas de) )?(?:(?&wd) )?(?:next day )?(?:delivery|deliveries|"
  "delivering|we deliver|livraisons?|nous livrons|arrivages?)(?: (?:days?|is|are|as usual|tomorrow|demain|"
  "next (?:day|week)|included|not included|free|la semaine prochaine|comprise|non comprise|gratuite|possibles?|"
  "le lendemain|(?&when))){0,5}(?: only)?",
  "(?:the )?(?:van|vans|truck|lorry|driver|camion)(?: (?:leaves|is|comes|goes|part|passe))?(?: (?:out|at|on|a|"
  "there)){0,5}(?: (?&clock)| (?&when)){0,5}",
  "(?:the |european |les |our ){0,5}(?:boats?|bateaux?)(?: (?:are|is|went))?(?: (?:out|in|in port|fishing|back in|"
  "landing|en mer|au port|land|lands))(?: fishing)?(?: (?:today|tomorrow|(?&when)))?",
  "(?:landing|landed|lands) (?&when)",
  "nothing from the boats(?: today)?",
  "(?:out|gone) fishing",
  "(?:taxi|bus) strike (?&when)",
  "(?:delivered|rendu|franco|ex works|ex stock|depart)",
  "pallets \\d(?:[.,]\\d)? ?m high",
  /* What orders and deliveries cost */
  "(?:the )?(?:(?:min|mini|minimum|moq) (?:de |d )?(?:orders?|commande|order value|spend|drop)(?: (?:is|of|"
  "de))?(?: ;)? (?&amount)|(?:mini|minimum) (?:(?&cur) ?\\d+(?:[.,]\\d\\d)?|\\d+(?:[.,]\\d\\d)?"
  " ?(?&cur)))(?&tax)?(?: ?;? ?(?:otherwise|sinon) (?&money)(?: (?:delivery|livraison))?)?",
  "(?:min |mini |minimum )?(?:delivery|carriage|livraison|delivery charge|frais de port|"
  "frais de livraison)(?: (?:is|charge|charges|of|a|de)){0,5}(?: ;)? (?&money)(?&tax)?(?: (?:under|below|per drop|"
  "sous|en dessous de)(?: (?&money))?)?(?: ?;? ?(?:free|free delivery|gratuite|franco|offerte|offert)(?: (?:over|"
  "above|from|a partir de|des|au dela de))(?: (?&money))?)?",
  "(?:free delivery|delivery free|carriage (?:free|paid)|free|franco(?: de port)?|livraison (?:gratuite|offerte)|"
  "port offert) (?:over|above|from|on orders over|a partir de|des|au dela de|for orders over)"
  " (?&amount)(?&tax)?(?: ?;? ?(?:otherwise|sinon|else) (?&money)(?: (?:delivery|carriage|livraison))?)?",
  "(?:for )?orders (?:under|below) (?&money)(?: ;)? (?&money) (?:delivery|carriage)",
  "(?:prices |prix )?(?:do not include delivery|(?:ex|excl|excluding|hors|sans) (?:delivery|carriage|transport|port|"
  "livraison))",
  "(?:port|transport|livraison|emballage) (?:non |not )?(?:compris|comprise|included)",
  "(?:delivery|carriage|packaging) (?:not )?included",
  /* Terms of payment; statements */
  "(?:payment|terms|payment terms|paiement|reglement)(?: (?:is|due|within|a|strictly|terms|net|par|"
  "by)){0,5}(?: ;)?(?: (?:net )?\\d{1,3} (?:days|jours)(?: (?:net|end of month|fin de mois|from invoice|"
  "date de facture)){0,5}| (?:cash|card|transfer|virement|cheque|on delivery|a la livraison|comptant)){0,5}",
  "(?:net )?\\d{1,3} days(?: net)?",
  "(?:settlement discount )?\\d(?:[.,]\\d+)? ?% (?:off|discount|d escompte|escompte)? ?(?:if paid|for cash|"
  "for payment|pour paiement|settlement|pour reglement|si paiement|for settlement)(?: (?:comptant|within|in|sous|"
  "a)){0,5}(?: \\d{1,3} (?:days|jours))?",
  "escompte \\d(?:[.,]\\d+)? ?%(?: (?:pour|si) (?:paiement|reglement) (?:comptant|a \\d+ jours))?",
  "(?:card|cards|cash|cheques?)(?: or (?:card|cash|cheque))? (?:accepted|welcome)",
  "(?:vat )?(?:statement|invoice|invoices|facture|factures|vat invoice|your invoice|releve)(?: (?:is|will|to|"
  "ci)){0,5}(?: (?:attached|enclosed|follow|follows|jointe?|before (?&when)|on delivery))",
  "(?:\\d+ )?(?:crates?|empties|caisses?)(?: to (?:come back|return)| a rendre)",
  /* The list itself: that it holds on another day is read elsewhere */
  "(?:(?:please )?find|here (?:is|are|s)|here they are|voici|voila|ci joint|veuillez trouver|attached(?: is| are)?|"
  "please find attached)?(?: (?:below|attached|ci joint|ci dessous))? ?(?:(?:this|the)"
  " week ?s )?(?:(?&list))(?:(?: (?:for|of|from|pour|since|valid|valables?|are|starting|as|at|on|to|until|from the|"
  "jusqu|jusqu au|du|des|le|de|a|partir|au|compter|hold|holds|this|next)){0,5}(?: (?:(?&when)|next week|la semaine|"
  "semaine prochaine|(?&month)|\\d{4})){1,5}| hold| holds)?(?:(?: ;| -| to|"
  " au){0,5} (?&days)){0,5}(?: ;)?(?: (?:below|attached|is attached|are below|ci dessous|ci joint|ci jointe|"
  "as follows))?",
  "(?:valid|valables?|valide|effective)(?: (?:from|for|until|to|du|le|au|jusqu|a|partir|compter|"
  "de)){0,4} (?&when)(?:(?: ;| -| to| au| until){0,3} (?&days)){0,3}",
  "(?:prices|price list|list|prix|tarifs?) (?:for|from|of|de|des|pour|du|a partir de|a compter de) (?:tomorrow|"
  "demain)",
  "(?:prices|price list|list) (?:as )?(?:below|attached|follows)",
  "see below(?: for this week ?s (?:prices|list))?",
  "here they are",
  "les voici",
  "(?:from|a partir d[ue]|a compter d[ue]|des)(?: le)? (?&days)",
  "(?:(?&when)|(?&wd) s|(?&week)) ?(?:(?&list))?",
  "(?&week)(?: ;)? (?&days)(?: ;)?(?: (?:and|et|to|au|-)? ?(?&days)){0,5}",
  "\\d{1,2} ?(?:-|to|au) ?(?&date)",
  "(?&list) \\d{1,2} ?(?:-|to|au) ?(?&date)",
  "same (?:list|prices) as (?:last week|(?&when))",
  "(?:this|the) (?:price )?list replaces all previous (?:prices|lists)",
  "next (?:price )?list (?&when)",
  "(?:prices )?subject to change",
  "(?:subject to availability|sous reserve de disponibilite|while stocks last|dans la limite des stocks disponibles|"
  "jusqu a epuisement des stocks)",
  /* Headings of columns and of groups */
  "(?:items?|products?|produits?|articles?|description|designation|code|ref|reference)(?:(?: ;)? (?:items?|"
  "products?|produits?|articles?|description|designation|code|ref|reference|unite?|prix|price|colisage|"
  "conditionnement|pack)){0,5}",
  "(?&group)",
  NULL,
};

/* Faces and hands that wish well, the sun and the sea; what else stands alone may be a no. */
static const char glad_signs[] = "👍🙏👋🙂😀😃😄😁😊☀🌊⚓❤🌞✨🎄🎉";

/* --- Lines ---------------------------------------------------------------------------------------------------- */

/* Who writes more in one line says more. */
#define MOST_BYTES 200

static char *
dup_called (const char *line,
            const char *as)
{
  static GRegex *call;

  if (strpbrk (line, "0123456789@") == NULL && strstr (line, "www.") == NULL)
    return g_strdup (line);
  if (g_once_init_enter (&call))
    g_once_init_leave (&call, g_regex_new ("\\S+@\\S+|\\b(?:https?://|www\\.)\\S+"
                                           "|(?<![\\d.,])(?!\\d\\d?[./-]\\d\\d?[./-]\\d{2,4}\\b)"
                                           "(?:\\+|00?)\\d[\\d ().-]{6,}\\d(?![.,]?\\d)"
                                           "|(?<![\\d.,])\\d{2}(?:[ .]\\d{2}){2,}(?![.,]?\\d)"
                                           "|(?<![\\d.,])[01]?\\d[:h][0-5]\\d(?![\\d.,])"
                                           "|(?<![\\d.,])2[0-3][:h][0-5]\\d(?![\\d.,])",
                                           G_REGEX_CASELESS, G_REGEX_MATCH_DEFAULT, NULL));
  return g_regex_replace_literal (call, line, -1, 0, as, G_REGEX_MATCH_DEFAULT, NULL);
}

char *
cro_price_letter_dup_uncalled (const char *line)
{
  return dup_called (line, " ");
}

static gboolean
is_glad (gunichar c)
{
  return g_utf8_strchr (glad_signs, -1, c) != NULL || c == 0xfe0f || c == 0xb0 || (c >= 0x1f300 && c <= 0x1f43f)
         || (c >= 0x1f980 && c <= 0x1f9ae);
}

/* A capital tells a name where there are small letters beside it: "HI CHEF, CUCUMBERS UNFIT". */
static gboolean
has_small (const char *line)
{
  for (; *line != '\0'; line = g_utf8_next_char (line))
    if (g_unichar_islower (g_utf8_get_char (line)))
      return TRUE;
  return FALSE;
}

static void
add_word (GString    *said,
          const char *word,
          gsize       n,
          gboolean    has_names)
{
  g_autofree char *of = g_strndup (word, n), *folded = cro_fold (of);

  if (*folded == '\0')
    return;
  /* One word alone may be a name anyway: "THANKS, PIA". */
  if (g_unichar_isupper (g_utf8_get_char (of)) && (has_names || said->len == 0 || g_str_has_suffix (said->str, ";")))
    *folded = g_ascii_toupper (*folded);
  g_string_append_printf (said, "%s%s", said->len > 0 ? " " : "", folded);
}

/* "Min. order", "Mon. 30 Nov.": behind these a stop ends no sentence. */
static gboolean
ends_short (const char *said)
{
  static const char *const cut[]
      = { "min", "mini", "no", "nr", "tel", "mob", "ph", "ref", "wk", "sem", "excl", "incl", NULL };
  const char *last = strrchr (said, ' ');
  g_autofree char *word = cro_fold (last != NULL ? last + 1 : said);

  return g_strv_contains (cut, word);
}

/* Folded words and what parts them. Owned. */
static char *
dup_said (const char *line)
{
  g_autofree char *called = dup_called (line, " @ ");
  GString *said = g_string_new (NULL);
  const gboolean has_names = has_small (line);

  for (const char *at = called; *at != '\0';)
    {
      const gunichar c = g_utf8_get_char (at);
      const char *end = g_utf8_next_char (at);

      if (g_unichar_isdigit (c))
        {
          /* "2026-12-04", "30/11-6/12" */
          while (g_ascii_isdigit (*end)
                 || (*end != '\0' && strchr (end - at >= 4 ? ".,/:-" : ".,/:", *end) != NULL && g_ascii_isdigit (end[1])
                     && (*end != '-' || strspn (at, "0123456789-") >= 10)))
            end++;
          g_string_append_printf (said, "%s%.*s", said->len > 0 ? " " : "", (int) (end - at), at);
        }
      else if (g_unichar_isalpha (c))
        {
          while (g_unichar_isalpha (g_utf8_get_char (end)) || g_unichar_ismark (g_utf8_get_char (end)))
            end = g_utf8_next_char (end);
          add_word (said, at, (gsize) (end - at), has_names);
        }
      else if (c == '.' && ends_short (said->str))
        ;
      else if (strchr (",;:!?.()[]|", (int) (c < 128 ? c : '#')) != NULL || c == 0x2026)
        g_string_append (said, " ;");
      else if (c == '&')
        g_string_append (said, " and");
      else if (c == '-' || c == 0x2013 || c == 0x2014)
        /* "Pia – Upriver", "16 - 22 February", "cut-off" */
        g_string_append (said, at > called && g_ascii_isspace (at[-1]) && !g_ascii_isdigit (*(end + (*end == ' ')))
                                   ? " ;" : g_ascii_isdigit (*(end + (*end == ' '))) ? " -" : "");
      /* "Pia / Upriver", "w/c" */
      else if (c == '/' && at > called && (at[-1] == ' ' || g_ascii_isalpha (at[-1])))
        g_string_append (said, at[-1] == ' ' ? " ;" : "");
      else if (!g_unichar_isspace (c) && !is_glad (c) && strchr ("'\"*_#>", (int) (c < 128 ? c : 'x')) == NULL
               && c != 0x2019 && c != 0x2018 && c != 0xab && c != 0xbb && c != 0x201c && c != 0x201d)
        g_string_append_printf (said, " %.*s", (int) (end - at), at);
      at = end;
    }
  return g_string_free (said, FALSE);
}

/* What of parts is whole. No text holds it up: what takes longer is not known. */
static GRegex *
compile (const char *whole)
{
  g_autofree char *pattern = g_strdup_printf ("(*LIMIT_MATCH=100000)(?(DEFINE)%s)^(?:%s)$", parts, whole);

  return g_regex_new (pattern, G_REGEX_CASELESS | G_REGEX_OPTIMIZE, G_REGEX_MATCH_DEFAULT, NULL);
}

static gboolean
is_form (const char *said)
{
  static GRegex *compiled;

  if (g_once_init_enter (&compiled))
    {
      g_autofree char *any = g_strjoinv ("|", (char **) forms);

      g_once_init_leave (&compiled, compile (any));
    }
  return g_regex_match (compiled, said, G_REGEX_MATCH_DEFAULT, NULL);
}

static gboolean
is_name (const char *said)
{
  static GRegex *compiled;

  if (g_once_init_enter (&compiled))
    g_once_init_leave (&compiled, compile ("(?&name)"));
  return g_regex_match (compiled, said, G_REGEX_MATCH_DEFAULT, NULL);
}

/* Whether all words are among those of also, and there is one. */
static gboolean
is_of_names (const char *part,
             const char *also)
{
  g_autofree char *folded = cro_fold (part), *all = g_strdup_printf (" %s ", also != NULL ? also : "");
  g_auto (GStrv) words = g_strsplit (folded, " ", -1);
  gboolean has_any = FALSE;

  for (guint i = 0; words[i] != NULL; i++)
    {
      g_autofree char *bounded = g_strdup_printf (" %s ", words[i]);

      if (*words[i] != '\0' && strstr (all, bounded) == NULL)
        return FALSE;
      has_any |= *words[i] != '\0';
    }
  return has_any;
}

/* From a word to before another. Owned. */
static char *
dup_words (char **words,
           guint  first,
           guint  end)
{
  GString *joined = g_string_new (words[first]);

  for (guint i = first + 1; i < end; i++)
    g_string_append_printf (joined, " %s", words[i]);
  return g_string_free (joined, FALSE);
}

/* What parts two forms; a form may hold some of it. */
static gboolean
is_joint (const char *word)
{
  static const char *const joints[] = { ";", "and", "et", "@", "-", NULL };

  return g_strv_contains (joints, word);
}

static gboolean
is_made_of (const char *word,
            const char *signs)
{
  return word[strspn (word, signs)] == '\0';
}

/* No form holds more of what parts it. */
#define MOST_JOINTS 12

/* Forms, one behind another, and a name behind the last. Each begins where one ends: that is found once for each place,
 * as a pattern of all of them would try each way to part a line that at last does not fit. */
static gboolean
is_of_forms (const char *said)
{
  g_autofree char *tidy = g_strstrip (g_strdup (said));
  g_auto (GStrv) words = g_strsplit (tidy, " ", -1);
  const guint n = g_strv_length (words);
  g_autofree gboolean *begins = g_new0 (gboolean, n + 1);
  guint first = 0, end = n;

  while (first < n && is_made_of (words[first], ";-"))
    first++;
  while (end > first && is_made_of (words[end - 1], ";@-"))
    end--;
  begins[first] = TRUE;
  for (guint i = first; i < n; i++)
    {
      g_autoptr (GString) part = g_string_new (NULL);
      guint n_joints = 0;

      for (guint j = i; begins[i] && j < n && n_joints <= MOST_JOINTS; j++)
        {
          guint next = j + 1;

          g_string_append_printf (part, "%s%s", j > i ? " " : "", words[j]);
          if (next < n && !is_joint (words[next]))
            continue;
          n_joints++;
          if (!is_form (part->str))
            continue;
          if (next >= end)
            return TRUE;
          for (; next < n && is_joint (words[next]); next++)
            begins[next + 1] = TRUE;
          next = j + 1;
          while (next < end && strcmp (words[next], ";") == 0)
            next++;
          if (next > j + 1)
            {
              g_autofree char *last = dup_words (words, next, end);

              if (is_name (last))
                return TRUE;
            }
        }
    }
  return FALSE;
}

/* Behind the name of a supplier with which a part begins, of two words or more; else all of it. */
static const char *
skip_name (const char *part,
           const char *also)
{
  g_autofree char *all = g_strdup_printf (" %s ", also != NULL ? also : "");
  const char *behind = part;
  guint n = 0;

  for (const char *at = strchr (part + strspn (part, " "), ' '); at != NULL; at = strchr (at + 1, ' '))
    {
      g_autofree char *first = g_strndup (part, (gsize) (at - part)), *folded = cro_fold (first);
      g_autofree char *bounded = g_strdup_printf (" %s ", folded);

      if (strstr (all, bounded) == NULL)
        break;
      if (++n > 1)
        behind = at;
    }
  return behind;
}

gboolean
cro_price_letter_has_line (const char *line,
                           const char *also)
{
  g_autofree char *said = NULL;
  g_autoptr (GString) rest = NULL, named = NULL;
  g_auto (GStrv) all = NULL;
  gboolean has_names = FALSE;

  if (strlen (line) > MOST_BYTES)
    return FALSE;
  said = dup_said (line);
  if (is_of_forms (said))
    return TRUE;
  /* "The quay: prices of 2 March", "From: the quay" */
  all = g_strsplit (said, " ;", -1);
  rest = g_string_new (NULL);
  named = g_string_new (NULL);
  for (guint i = 0; all[i] != NULL; i++)
    {
      const gboolean is_name = is_of_names (all[i], also);

      const char *part = is_name ? all[i] : skip_name (all[i], also);

      has_names |= is_name || part != all[i];
      g_string_append_printf (named, "%s ;", is_name ? " Who" : part);
      if (!is_name)
        g_string_append_printf (rest, "%s ;", part);
    }
  return has_names && (strspn (rest->str, " ;") == rest->len || is_of_forms (rest->str) || is_of_forms (named->str));
}

char *
cro_price_letter_dup_rest (const char *line)
{
  g_autofree char *said = dup_said (line);
  g_auto (GStrv) all = g_strsplit (said, " ;", -1);
  GString *rest = g_string_new (NULL);

  for (guint i = 0; all[i] != NULL; i++)
    if (strlen (all[i]) > MOST_BYTES || !is_of_forms (g_strstrip (all[i])))
      g_string_append_printf (rest, "%s ", all[i]);
  return g_string_free (rest, FALSE);
}

gboolean
cro_price_letter_is_name (const char *line)
{
  static GRegex *names;
  g_autofree char *said = strlen (line) > MOST_BYTES ? g_strdup ("") : dup_said (line);

  if (g_once_init_enter (&names))
    g_once_init_leave (&names, compile ("(?&name)(?: ; (?&name))?(?: ;| @)*"));
  return g_regex_match (names, said, G_REGEX_MATCH_DEFAULT, NULL);
}
