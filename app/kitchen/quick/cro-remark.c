#include "cro-remark.h"

#include <string.h>

#include "cro-expression.h"
#include "cro-price-words.h"
#include "cro-remark-words.h"
#include "cro-written.h"

/* --- Words ---------------------------------------------------------------------------------------- */

/* With any number beside them. */
static const char *const losses[] = {
  "yield", "yields", "yielding", "loss", "losses", "lose", "loses", "losing", "lost", "waste", "wasted", "wastage",
  "shrink", "shrinks", "shrinkage", "factor", "recovery", "comes back", "come back", "rendement",
  "rdt", "perte", "pertes", "perd", "perdent", "perdu", "perdue", "perdus", "perdues", "déchet", "déchets", "dechet",
  "dechets", "freinte", "coefficient", "coef", "coeff.", "facteur", NULL
};

/* With any but a plain number: "gives 4 fillets". */
static const char *const gains[] = { "gives", "giving", "rend", "donne", "donnent", NULL };

/* With a share or a fraction; a plain number may count anything: "trimmed, 2 a plate". */
static const char *const trims[] = {
  "trim", "trims", "trimmed", "trimming", "trimmings", "usable", "remains", "cut off", "taken off",
  "parage", "paré", "parée", "parés", "parées", "pare", "utile", "utilisable", "utilisables", "reste", "restent",
  "retiré", "retirée", "ôté", "ôtée", NULL
};

/* With a share of nothing known. */
static const char *const states[] = {
  "peeled", "cleaned", "boned", "skinned", "shelled", "shucked", "picked", "gutted", "filleted", "drained", "cooked",
  "cooking", "off", "net", "épluché", "épluchée", "épluchés", "épluchées", "épluchage", "nettoyé", "nettoyée",
  "désossé", "désossée", "écaillé", "vidé", "vidée", "égoutté", "égouttée", "cuit", "cuite", "cuisson", NULL
};

static const char *const discounts[] = {
  "discount", "rebate", "cheaper", "remise", "rabais", "ristourne", "escompte", "moins cher", "moins chère", "promo",
  "promotion", NULL
};

/* Beside a number: "buy 3 pay 2". */
static const char *const givings[] = { "pay", "offert", "offerts", "offerte", "offertes", "gratuit", "gratuits", NULL };

static const char *const half_prices[] = { "half price", "half-price", "moitié prix", "demi-tarif", NULL };

/* What goods hold. */
static const char *const contents[] = {
  "fat", "butterfat", "lean", "matière", "matières", "matiere", "matieres", "mat.", "mat", "m.g.", "m. g.", "mg",
  "gras", "grasse", "grasses", "gr.", "gr", "maigre", "cocoa", "cacao", "chocolate", "chocolat", "alcohol", "alcool",
  "alc", "alc.", "vol", "vol.", "abv", "sugar", "sugars", "sucre", "sucres", "salt", "sel", "brine", "saumure",
  "acidity", "acidité", "acidite", "acid", "acide", "vinegar", "vinaigre", "protein", "proteins", "protéines",
  "hydration", "hydratation", "moisture", "humidité", "humidite", "solids", "brix", "extract", "extrait sec",
  "extraction", "rye", "seigle", "wholemeal", NULL
};

/* What says nothing of a share. */
static const char *const fillers[] = {
  "of", "de", "du", "d'", "in", "and", "et", "or", "ou", "min", "min.", "max", "max.", "minimum", "maximum", "about",
  "environ", "at least", "au moins", "ms", "es", "dry matter", "extra", "organic", "bio", "wild", "whole", "entier",
  "entière", "uht", "dark", "noir", "white", "blanc", "red", "rouge", "dry", "sec", "sweet", "doux", "unsalted",
  "salted", "salé", "raw", "cru", "fresh", "frais", "fraîche", "liquid", "liquide", "pure", "pur", "cold", "froid",
  "froide", NULL
};

/* Goods that are told apart by a share alone: "12 %" of wine. */
static const char *const by_share[] = {
  "chocolate", "chocolates", "chocolat", "couverture", "cocoa", "cacao", "cream", "crème", "creme", "butter", "beurre",
  "milk", "lait", "yoghurt", "yogurt", "yaourt", "skyr", "kefir", "quark", "mascarpone", "fromage blanc", "faisselle",
  "wine", "vin", "champagne", "crémant", "beer", "bière", "biere", "cider", "cidre", "rum", "rhum", "cognac", "brandy",
  "armagnac", "calvados", "vodka", "gin", "whisky", "whiskey", "liqueur", "port", "porto", "sherry", "xérès",
  "madeira", "madère", "marsala", "vermouth", "sake", "saké", "kirsch", "absinthe", "spirit", "eau-de-vie", "alcohol",
  "alcool", "vinegar", "vinaigre", "purée", "puree", "coulis", "syrup", "sirop", "glucose", "brine", "saumure", NULL
};

static gsize
scan_share_sign (const char *text)
{
  static const char *const words[] = { "pct", "percent", "per cent", "pour cent", "p. cent", NULL };
  gsize space = cro_expression_space (text);
  gsize bytes = text[space] == '%' ? 1
                : g_str_has_prefix (text + space, "％") ? strlen ("％")
                                                        : cro_written_scan_any (text + space, words);

  return bytes > 0 ? space + bytes : 0;
}

static gsize
scan_word (const char *text)
{
  const char *end = text;

  while (g_unichar_isalnum (g_utf8_get_char (end)))
    end = g_utf8_next_char (end);
  return (gsize) (end - text);
}

/* --- Numbers -------------------------------------------------------------------------------------- */

typedef enum
{
  NUMBER_PLAIN = 1 << 0,
  NUMBER_DECIMAL = 1 << 1,
  NUMBER_FRACTION = 1 << 2,
  NUMBER_WEIGHT = 1 << 3,
  NUMBER_SHARE = 1 << 4,
} Number;

/* "1/3", "0.55", ".55", "½", but not the "16/20" of a size. */
static gsize
scan_number (const char *text,
             Number     *number)
{
  gsize bytes = strspn (text, "0123456789");
  gboolean is_mark = text[bytes] == '.' || text[bytes] == ',' || (text[bytes] == '/' && bytes > 0);

  *number = NUMBER_PLAIN;
  if (is_mark && g_ascii_isdigit (text[bytes + 1]))
    {
      *number = text[bytes] != '/' ? NUMBER_DECIMAL : bytes == 1 ? NUMBER_FRACTION : NUMBER_PLAIN;
      bytes += 1 + strspn (text + bytes + 1, "0123456789");
    }
  else if (g_unichar_type (g_utf8_get_char (text + bytes)) == G_UNICODE_OTHER_NUMBER)
    {
      *number = NUMBER_FRACTION;
      bytes = (gsize) (g_utf8_next_char (text + bytes) - text);
    }
  return bytes;
}

/* Lengths, times and temperatures. */
static const char *const sizes[] = {
  "mm", "cm", "inch", "inches", "pouce", "pouces", "\"", "h", "hr", "hrs", "hour", "hours", "heure", "heures", "min",
  "mins", "minute", "minutes", "sec", "seconds", "secondes", "day", "days", "jour", "jours", "night", "nights", "nuit",
  "nuits", "s", "week", "weeks", "semaine", "semaines", "month", "months", "mois", "year", "years", "an", "ans", "°",
  "º", "degrees", "degrés", "degres", NULL
};

static const char *const portions[] = { "portion", "portions", "serving", "servings", "bites", "slices", "tranches",
                                        "pieces", "pièces", NULL };

static const char *const weights[] = { "g", "kg", "ml", "cl", "l", "oz", "lb", NULL };

/* What is behind a number says what it is of: nothing where it is a size or a count of portions. */
static guint
number_of (const char *behind,
           Number      number)
{
  gsize space = cro_expression_space (behind);

  if (scan_share_sign (behind) > 0)
    return NUMBER_SHARE;
  if (cro_written_scan_any (behind + space, sizes) > 0 || cro_written_scan_any (behind + space, portions) > 0)
    return 0;
  return number | (cro_written_scan_any (behind + space, weights) > 0 ? NUMBER_WEIGHT : 0);
}

static const char *const fractions[] = { "half", "third", "thirds", "quarter", "quarters", "fifth", "tenth", "moitié",
                                         "moitie", "tiers", "quart", "quarts", "cinquième", "dixième", NULL };
static const char *const into[] = { "in", "into", "en", NULL };

/* All numbers of a text. "cut in half", "en quarts" are no fractions of it. */
static guint
find_numbers (const char *text)
{
  gboolean is_cut = FALSE;
  guint found = 0;

  for (gsize bytes; *text != '\0'; text += bytes)
    {
      Number number;

      if ((bytes = scan_number (text, &number)) > 0)
        found |= is_cut && number == NUMBER_FRACTION ? 0 : number_of (text + bytes, number);
      else if ((bytes = cro_written_scan_any (text, fractions)) > 0)
        found |= is_cut ? 0 : NUMBER_FRACTION;
      else if ((bytes = scan_word (text)) == 0)
        {
          bytes = (gsize) (g_utf8_next_char (text) - text);
          continue;
        }
      is_cut = cro_written_scan_any (text, into) > 0;
    }
  return found;
}

/* --- Shares --------------------------------------------------------------------------------------- */

typedef struct
{
  guint    n_shares;
  guint    n_contents; /* said of them */
  gboolean is_all;     /* one of them is 100 % */
  gboolean is_minus;   /* one of them is taken off */
  gboolean is_known;   /* and so are all words beside them */
} Shares;

static gboolean
is_minus_at (const char *text,
             const char *from)
{
  gsize dash = cro_written_scan_dash (text);

  return dash > 0 && g_ascii_isdigit (text[dash]) && (text == from || !g_ascii_isdigit (text[-1]));
}

static Shares
find_shares (const char *text)
{
  const char *from = text;
  Shares shares = { .is_known = TRUE };
  gboolean is_behind_content = FALSE;

  for (gsize bytes; *text != '\0'; text += bytes)
    {
      Number number;
      gsize sign = 0;

      shares.is_minus |= is_minus_at (text, from);
      if ((bytes = scan_number (text, &number)) > 0 && (sign = scan_share_sign (text + bytes)) > 0)
        {
          shares.n_shares++;
          shares.is_all |= bytes == strlen ("100") && g_str_has_prefix (text, "100");
          bytes += sign;
          is_behind_content = FALSE;
        }
      else if (bytes == 0 && (bytes = cro_written_scan_any (text, contents)) > 0)
        {
          shares.n_contents += !is_behind_content;
          is_behind_content = TRUE;
        }
      else if (bytes == 0 && (bytes = scan_share_sign (text)) == 0
               && (bytes = cro_written_scan_any (text, fillers)) == 0)
        {
          bytes = scan_word (text);
          shares.is_known &= bytes == 0;
          bytes = bytes > 0 ? bytes : (gsize) (g_utf8_next_char (text) - text);
        }
    }
  return shares;
}

static gboolean
is_of_yield (const char *text)
{
  return cro_written_has_any (text, losses) || cro_written_has_any (text, trims) || cro_written_has_any (text, states);
}

/* A part of a remark between commas beside a share. */
static gboolean
is_harmless (const char *text,
             const char *goods)
{
  Shares shares = find_shares (text);

  if (shares.n_shares == 0 || (shares.n_shares == 1 && shares.is_all && !shares.is_minus))
    return scan_share_sign (text) == 0 && !is_of_yield (text);
  if (!shares.is_known || shares.is_minus)
    return FALSE;
  return shares.n_contents >= shares.n_shares || (shares.n_shares == 1 && cro_written_has_any (goods, by_share));
}

static gboolean
are_harmless (const char *text,
              const char *goods)
{
  for (gsize bytes = cro_written_scan_clause (text);; text += bytes + 1, bytes = cro_written_scan_clause (text))
    {
      g_autofree char *part = g_strndup (text, bytes);

      if (!is_harmless (part, goods))
        return FALSE;
      if (text[bytes] == '\0')
        return TRUE;
    }
}

/* "30 % off". */
static gboolean
is_off (const char *text)
{
  static const char *const off[] = { "off", NULL };
  gsize space = cro_expression_space (text);
  Number number;
  gsize bytes = scan_number (text + space, &number), sign = scan_share_sign (text + space + bytes);
  const char *behind = text + space + bytes + sign;

  return bytes > 0 && sign > 0 && cro_written_scan_any (behind + cro_expression_space (behind), off) > 0
         && find_shares (text).n_shares == 1 && !cro_written_has_any (text, contents)
         && !cro_written_has_any (text, losses) && !cro_written_has_any (text, trims);
}

/* --- Numbers of no yield -------------------------------------------------------------------------- */

/* Before a number that names a kind: "size 3/5", "no. 2". */
static const char *const kinds[] = {
  "no", "nr", "n°", "nº", "size", "sizes", "taille", "calibre", "cal", "type", "grade", "class", "classe", "category",
  "catégorie", "cat", "batch", "lot", "label", "ref", "réf", "code", "zone", "fao", "page", "p", "step", "étape",
  "brix", "ph", "mark", "thermostat", "th", "th.", "gn", "day", "jour", "week", "semaine", NULL
};

/* Behind a number of pieces, or the "each" of it. */
static const char *const counts[] = {
  "pc", "pcs", "pce", "pces", "piece", "pièce", "each", "apiece", "per", "par", "a plate", "bite", "bouchée",
  "bouchées", "slice", "tranche", "fillet", "fillets", "filet", "filets", "cube", "cubes", "dice", "dés", "strips",
  "wedges", "quartiers", "leaves", "feuilles", "sprigs", "brins", "branches", "plate", "plates", "assiettes", "cover",
  "covers", "couverts", "people", "guests", "personnes", "pers", "tails", "queues", "ways", "times", "fois", "heads",
  "rounds", "rings", "batons", "sticks", "balls", "boules", "bloom", "baumé", NULL
};

/* Behind the weight of one. */
static const char *const ones[] = {
  "each", "apiece", "a piece", "per piece", "a portion", "per portion", "portion", "portions", "piece", "pieces",
  "pièce", "pièces", "la pièce", "par pièce", "slice", "slices", "tranche", "tranches", "balls", "boules", "pack",
  "packs", "tin", "tins", "can", "cans", "bag", "bags", "block", "blocks", "tub", "jar", "box", "boîte", "boîtes",
  "sachet", "sachets", "pot", "pots", NULL
};

/* Beside a weight: before or after what is lost. */
static const char *const weighed[] = { "gross", "brut", "brute", "net", "nette", "nets", "nettes", "before", "after",
                                       "avant", "après", "apres", "from", "clean", "raw weight", NULL };

static const char *const grams[] = { "gr", "gr.", "gram", "grams", "gramme", "grammes", "kilo", "kilos", "litre",
                                     "litres", "liter", "liters", "dl", "pound", "pounds", "ounce", "ounces", NULL };

/* Behind an amount of what is taken beside the line: "plus 20 g for the tin". */
static const char *const asides[] = {
  "for the tin", "for the tins", "for the mould", "for the moulds", "for the dish", "for the pan", "for the tray",
  "for the table", "for the board", "for the bench", "for greasing", "for dusting", "for rolling", "for brushing",
  "for lining", "to grease", "to dust", "to roll", "to brush", "to line", "pour le moule", "pour les moules",
  "pour le plat", "pour la plaque", "pour le plan", "pour la table", "pour beurrer", "pour fariner", "pour graisser",
  "pour chemiser", "pour dorer", "pour abaisser", NULL
};

static gboolean
is_aside (const char *text)
{
  g_autofree char *clause = g_strndup (text, cro_written_scan_clause (text));

  return cro_written_has_any (clause, asides);
}

/* Not of goods, although of a half. */
static const char *const half_kinds[] = { "half-fat", "half fat", "half-salt", "half salt", "half-salted",
                                          "half salted", "half-skimmed", "half skimmed", "half shell", "half-shell",
                                          "half moons", "half-moons", "half and half", "half-and-half", NULL };

/* "2-3", "2 x 2", "16/20": bytes of a number with what it goes on with. */
static gsize
scan_numbers (const char *text,
              Number     *number)
{
  static const char *const joins[] = { "x", "×", "*", "-", "–", "/", "to", "à", "by", NULL };
  gsize bytes = scan_number (text, number);

  for (gsize i = 0; bytes > 0 && joins[i] != NULL;)
    {
      gsize space = bytes + cro_expression_space (text + bytes);
      gsize join = cro_expression_starts (text + space, joins[i]);
      gsize next = space + join + cro_expression_space (text + space + join), more;
      Number other;

      more = join > 0 ? scan_number (text + next, &other) : 0;
      i = more > 0 ? 0 : i + 1;
      *number |= more > 0 ? other : 0;
      bytes = more > 0 ? next + more : bytes;
    }
  return bytes;
}

/* The "16/20" of a size, or a year. */
static gboolean
is_size_or_year (const char *text,
                 gsize       bytes)
{
  gsize first = strspn (text, "0123456789"), sign = first + cro_written_scan_dash (text + first);

  sign += text[sign] == '/';
  if (first == bytes)
    return bytes == strlen ("2026") && (g_str_has_prefix (text, "19") || g_str_has_prefix (text, "20"));
  return first > 1 && sign > first && strspn (text + sign, "0123456789") > 1
         && sign + strspn (text + sign, "0123456789") == bytes;
}

/* "2nd", "1er". */
static gboolean
is_ordinal (const char *behind)
{
  static const char *const endings[] = { "st", "nd", "rd", "th", "er", "re", "e", "ère", "ème", NULL };

  return cro_written_scan_any (behind, endings) > 0;
}

/* "62 C", "180F"; "2 c" are spoons. */
static gboolean
is_temperature (const char *text,
                gsize       bytes)
{
  static const char *const scales[] = { "c", "f", "celsius", "fahrenheit", NULL };

  return bytes > 1 && cro_written_scan_any (text + bytes + cro_expression_space (text + bytes), scales) > 0;
}

static gboolean
is_number_known (const char *remark,
                 const char *text,
                 gsize       bytes,
                 Number      number,
                 gboolean    is_led,
                 gboolean    is_of_pieces)
{
  const char *behind = text + bytes + (text[bytes] == '-'), *next;
  gsize weight;

  behind += cro_expression_space (behind);
  if (is_aside (behind))
    return !is_of_yield (remark) && !cro_written_has_any (remark, weighed);
  weight = MAX (cro_written_scan_any (behind, weights), cro_written_scan_any (behind, grams));
  if (weight > 0)
    {
      next = behind + weight + cro_expression_space (behind + weight);
      return !is_of_yield (remark) && !cro_written_has_any (remark, weighed)
             && (is_of_pieces || cro_written_scan_any (next, ones) > 0);
    }
  next = behind + scan_word (behind);
  next += cro_expression_space (next);
  if (scan_share_sign (behind) > 0 || cro_written_scan_any (behind, sizes) > 0 || is_size_or_year (text, bytes)
      || is_temperature (text, bytes))
    return TRUE;
  if (is_led || is_ordinal (text + bytes) || cro_written_scan_any (behind, contents) > 0)
    return TRUE;
  /* "4 pieces", "4 nice pieces", "2 eggs, 1 beaten"; a fraction of them is lost, or kept. */
  return number == NUMBER_PLAIN
         && (is_of_pieces || cro_written_scan_any (behind, portions) > 0 || cro_written_scan_any (behind, counts) > 0
             || cro_written_scan_any (next, portions) > 0 || cro_written_scan_any (next, counts) > 0);
}

/* Whether each number, and each fraction that is a word, is known to say nothing of a yield or of a price. */
static gboolean
are_numbers_known (const char *remark,
                   gboolean    is_of_pieces)
{
  static const char *const numbers[] = { "two", "three", "deux", "trois", "a", "one", "un", "une", NULL };
  static const char *const shapes[] = { "quarters", "quarts", NULL };
  static const char *const of[] = { "of", "de", "d'", "à", NULL };
  gboolean is_led = FALSE, is_counted = FALSE, is_one = FALSE, is_of_one = FALSE;

  for (const char *text = remark; *text != '\0';)
    {
      Number number;
      gsize bytes = scan_numbers (text, &number), half = bytes > 0 ? 0 : cro_written_scan_any (text, half_kinds);

      /* "pieces of 30 g" */
      if (bytes > 0 && !is_number_known (remark, text, bytes, number, is_led, is_of_pieces || is_of_one))
        return FALSE;
      bytes += half;
      if (bytes == 0 && cro_written_scan_any (text, fractions) > 0 && !is_led
          && (is_counted || cro_written_scan_any (text, shapes) == 0))
        return FALSE;
      if (bytes == 0)
        /* "x1.8" is no word. */
        bytes = g_ascii_tolower (*text) == 'x' && g_ascii_isdigit (text[1]) ? 1 : scan_word (text);
      if (bytes > 0)
        {
          is_led = cro_written_scan_any (text, into) > 0 || cro_written_scan_any (text, kinds) > 0;
          is_counted = cro_written_scan_any (text, numbers) > 0;
          is_of_one = is_one && cro_written_scan_any (text, of) > 0;
          is_one = cro_written_scan_any (text, ones) > 0;
        }
      else
        bytes = (gsize) (g_utf8_next_char (text) - text);
      text += bytes;
    }
  return TRUE;
}

/* --- Remarks -------------------------------------------------------------------------------------- */

static gboolean
is_of_discount (const char *text,
                guint       numbers)
{
  return cro_written_has_any (text, half_prices) || is_off (text)
         || (numbers != 0 && (cro_written_has_any (text, discounts) || cro_written_has_any (text, givings)));
}

CroRemark
cro_remark_read (const char *text,
                 const char *goods,
                 gboolean    is_of_pieces)
{
  CroTax tax;
  gint64 pct;
  g_autofree char *left = cro_price_take_tax_out (text, &tax, &pct);
  guint numbers = find_numbers (left);
  CroRemark said = tax == CRO_TAX_WITH ? CRO_REMARK_TAX : cro_remark_read_words (left, tax == CRO_TAX_WITHOUT);

  if (said != CRO_REMARK_PLAIN)
    return said;
  if (is_of_discount (left, numbers))
    return CRO_REMARK_DISCOUNT;
  if ((numbers != 0 && cro_written_has_any (left, losses))
      || ((numbers & ~NUMBER_PLAIN) != 0 && cro_written_has_any (left, gains))
      || ((numbers & NUMBER_FRACTION) != 0 && cro_written_has_any (left, trims)))
    return CRO_REMARK_LOSS;
  if ((numbers & NUMBER_SHARE) != 0 && !are_harmless (left, goods))
    return CRO_REMARK_LOSS;
  return are_numbers_known (left, is_of_pieces) ? CRO_REMARK_PLAIN : CRO_REMARK_NUMBER;
}

static const char *const masses[] = { "g", "kg", NULL };

/* What no name begins with: "-20%", "less 20 %", "rdt 80", "→ 400 g", "400 g net", "net 400 g". */
static gboolean
begins_loss (const char *text)
{
  static const char *const signs[] = { "->", "→", "=", "=>", "⇒", NULL };
  static const char *const less[] = { "less", "minus", "moins", "allow", "prévoir", "compter", "-", "–", "−", NULL };
  gsize sign = cro_written_scan_any (text, signs), minus = cro_written_scan_any (text, less),
        loss = cro_written_scan_any (text, losses), state = cro_written_scan_any (text, weighed);
  const char *behind = text + MAX (MAX (sign, minus), MAX (loss, state)), *next;
  Number number;
  gsize bytes;

  behind += cro_expression_space (behind);
  bytes = scan_number (behind, &number);
  next = behind + bytes + cro_expression_space (behind + bytes);
  if (bytes == 0)
    return FALSE;
  if (minus > 0 && scan_share_sign (behind + bytes) > 0)
    return find_shares (text).n_contents == 0;
  if (sign > 0 || loss > 0)
    return TRUE;
  return cro_written_has_any (text, weighed)
         && cro_written_scan_any (next, masses) > 0;
}

/* A second weight, "400 g", but that of a tin. */
static gboolean
begins_weight (const char *text)
{
  Number number;
  gsize bytes = scan_number (text, &number), space = bytes + cro_expression_space (text + bytes),
        mass = bytes > 0 ? cro_written_scan_any (text + space, masses) : 0;
  const char *behind = text + space + mass;

  return mass > 0 && cro_written_scan_any (behind + cro_expression_space (behind), ones) == 0;
}

CroRemark
cro_remark_read_behind_price (const char *text,
                              const char *goods,
                              gboolean    is_of_pieces)
{
  static const char *const words[] = { "less", "minus", "moins", "plus", "+", "-", "–", "−", NULL };
  gsize sign = cro_written_scan_any (text, words), space = cro_expression_space (text + sign);
  Number number;
  gsize bytes = scan_number (text + sign + space, &number),
        share = scan_share_sign (text + sign + space + bytes);

  return sign > 0 && bytes > 0 && share > 0 && text[sign + space + bytes + share] == '\0'
             ? CRO_REMARK_DISCOUNT
             : cro_remark_read (text, goods, is_of_pieces);
}

CroRemark
cro_remark_read_in_name (const char *text,
                         const char *goods,
                         gboolean    is_of_pieces)
{
  guint numbers = find_numbers (text);
  gboolean is_share = (numbers & NUMBER_SHARE) != 0;
  Shares shares = find_shares (text);
  Number number;

  if (*text == '(')
    return cro_remark_read (text, goods, is_of_pieces);
  if (begins_loss (text))
    return CRO_REMARK_LOSS;
  if (cro_remark_denies_trim (text) || (!is_of_pieces && begins_weight (text)))
    return CRO_REMARK_NUMBER;
  if (cro_written_has_any (text, half_prices) || (is_share && cro_written_has_any (text, discounts)) || is_off (text))
    return CRO_REMARK_DISCOUNT;
  if (((numbers & ~NUMBER_PLAIN) != 0 && (cro_written_has_any (text, losses) || cro_written_has_any (text, gains)))
      || ((numbers & (NUMBER_SHARE | NUMBER_FRACTION)) != 0 && cro_written_has_any (text, trims)))
    return CRO_REMARK_LOSS;
  if (!is_share || shares.n_contents > 0)
    return CRO_REMARK_PLAIN;
  if (cro_written_has_any (text, states))
    return CRO_REMARK_LOSS;
  /* "ham 55 % after a day", but not "chocolate 70 % Equator". */
  return scan_number (text, &number) > 0 && !shares.is_known && !shares.is_all && !cro_written_has_any (goods, by_share)
             ? CRO_REMARK_LOSS
             : CRO_REMARK_PLAIN;
}

gboolean
cro_remark_says_loss (const char *text)
{
  guint numbers = find_numbers (text);

  /* "Trim, and reduce by a third." */
  return ((numbers & (NUMBER_SHARE | NUMBER_FRACTION)) != 0 && cro_written_has_any (text, losses))
         || ((numbers & NUMBER_SHARE) != 0 && cro_written_has_any (text, trims));
}
