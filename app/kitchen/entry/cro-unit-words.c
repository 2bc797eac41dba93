#include "cro-unit-words.h"

#include <string.h>

#include "cro-expression.h"
#include "cro-word-list.h"

/* --- Words --------------------------------------------------------------------------------------- */

/* Words of one meaning (cro-word-list.h). */
static const struct { const char *words; CroUnit unit; } everyday[] = {
  { "milligram|milligrams|milligramme|milligrammes", CRO_UNIT_MG },
  { "gr|grs|gm|gms|gram|grams|gramme|grammes", CRO_UNIT_G },
  { "kgs|kilo|kilos|kilogram|kilograms|kilogramme|kilogrammes", CRO_UNIT_KG },
  { "ounce|ounces|once|onces", CRO_UNIT_OZ },
  { "lbs|pound|pounds", CRO_UNIT_LB },
  { "mls|millilitre|millilitres|milliliter|milliliters", CRO_UNIT_ML },
  { "cls|centilitre|centilitres|centiliter|centiliters", CRO_UNIT_CL },
  { "decilitre|decilitres|deciliter|deciliters", CRO_UNIT_DL },
  { "lt|lts|ltr|ltrs|litre|litres|liter|liters", CRO_UNIT_L },
  { "tsps|teaspoon|teaspoons|c a c|c a cafe|c a the|cuil a cafe|cuillere a cafe|cuilleres a cafe|"
    "cuilleree a cafe|cuillerees a cafe",
    CRO_UNIT_TSP },
  { "tbs|tbsps|tblsp|tablespoon|tablespoons|cs|c a s|c a soupe|cuil a soupe|cuillere a soupe|"
    "cuilleres a soupe|cuilleree a soupe|cuillerees a soupe",
    CRO_UNIT_TBSP },
  { "metric cup|metric cups|tasse metrique|tasses metriques", CRO_UNIT_METRIC_CUP },
  { "us tsp|us teaspoon|us teaspoons|c a cafe us|c a c us", CRO_UNIT_US_TSP },
  { "us tbsp|us tablespoon|us tablespoons|c a soupe us|c a s us", CRO_UNIT_US_TBSP },
  { "us fl oz|us fluid ounce|us fluid ounces|once liq us|onces liq us", CRO_UNIT_US_FL_OZ },
  { "us cup|us cups|tasse us|tasses us", CRO_UNIT_US_CUP },
  { "us pt|us pint|us pints|pinte us|pintes us", CRO_UNIT_US_PT },
  { "us qt|us quart|us quarts|quart us|quarts us", CRO_UNIT_US_QT },
  { "us gal|us gallon|us gallons|gallon us|gallons us", CRO_UNIT_US_GAL },
  { "imp fl oz|imperial fl oz|uk fl oz|once liq imp|onces liq imp", CRO_UNIT_IMP_FL_OZ },
  { "imp pt|imp pint|imp pints|imperial pint|imperial pints|uk pint|uk pints|pinte imp|pintes imp",
    CRO_UNIT_IMP_PT },
  { "imp qt|imp quart|imp quarts|imperial quart|imperial quarts|uk quart|uk quarts|quart imp|"
    "quarts imp",
    CRO_UNIT_IMP_QT },
  { "imp gal|imp gallon|imp gallons|imperial gallon|imperial gallons|uk gallon|uk gallons|"
    "gallon imp|gallons imp",
    CRO_UNIT_IMP_GAL },
  { "ea|p|pc|pcs|pce|pces|piece|pieces|unit|units|unite|unites", CRO_UNIT_EACH },
  { "doz|dz|dzn|dozens|douz|douzaine|douzaines", CRO_UNIT_DOZEN },
};

static const struct { const char *words; CroUnit either, other; } which[] = {
  { "cup|cups|tasse|tasses", CRO_UNIT_US_CUP, CRO_UNIT_METRIC_CUP },
  { "pint|pints|pt|pts|pinte|pintes", CRO_UNIT_IMP_PT, CRO_UNIT_US_PT },
  { "quart|quarts|qt|qts", CRO_UNIT_IMP_QT, CRO_UNIT_US_QT },
  { "gallon|gallons|gal|gals", CRO_UNIT_IMP_GAL, CRO_UNIT_US_GAL },
  { "fl oz|fluid ounce|fluid ounces|once liq|onces liq", CRO_UNIT_IMP_FL_OZ, CRO_UNIT_US_FL_OZ },
  /* A cubic centimetre, or a "cuillère à café". */
  { "cc", CRO_UNIT_ML, CRO_UNIT_TSP },
  /* On a French market half a kilogram, in a book of recipes often the pound. */
  { "livre|livres", CRO_UNIT_G, CRO_UNIT_LB },
};

static const char sizeless[] =
    "bunch|bunches|pinch|pinches|sprig|sprigs|clove|cloves|leaf|leaves|stalk|stalks|slice|slices|"
    "handful|handfuls|knob|knobs|can|cans|tin|tins|jar|jars|bottle|bottles|packet|packets|pack|"
    "packs|tray|trays|punnet|punnets|box|boxes|case|cases|crate|crates|head|heads|dash|dashes|drop|"
    "drops|stick|sticks|sheet|sheets|bag|bags|sachet|sachets|tub|tubs|portion|portions|rasher|"
    "rashers|spoon|spoons|spoonful|spoonfuls|botte|bottes|bouquet|bouquets|pincee|pincees|brin|"
    "brins|gousse|gousses|feuille|feuilles|branche|branches|tranche|tranches|poignee|poignees|"
    "boite|boites|bocal|bocaux|bouteille|bouteilles|paquet|paquets|barquette|barquettes|caisse|"
    "caisses|carton|cartons|tete|tetes|trait|traits|goutte|gouttes|verre|verres|cuillere|"
    "cuilleres|cuilleree|cuillerees";

/* --- Matching --------------------------------------------------------------------------------------- */

/* As the user's language, or a table, writes it. */
static gsize
match_shown (const char *text,
             const char *word)
{
  gsize bytes = cro_expression_starts (text, word);

  return bytes > 0 && cro_word_ends (text + bytes) ? bytes : 0;
}

static void
take (gsize           *longest,
      CroUnitMeaning  *meaning,
      gsize            bytes,
      CroUnitWordKind  kind,
      CroUnit          either,
      CroUnit          other)
{
  if (bytes <= *longest)
    return;
  *longest = bytes;
  *meaning = (CroUnitMeaning){ kind, { either, other } };
}

/* With which letters the words of each list begin. */
typedef struct
{
  guint32 everyday[G_N_ELEMENTS (everyday)];
  guint32 which[G_N_ELEMENTS (which)];
  guint32 sizeless;
} Initials;

static const Initials *
get_initials (void)
{
  static Initials all;
  static gsize is_made;

  if (g_once_init_enter (&is_made))
    {
      for (gsize i = 0; i < G_N_ELEMENTS (everyday); i++)
        all.everyday[i] = cro_word_list_initials (everyday[i].words);
      for (gsize i = 0; i < G_N_ELEMENTS (which); i++)
        all.which[i] = cro_word_list_initials (which[i].words);
      all.sizeless = cro_word_list_initials (sizeless);
      g_once_init_leave (&is_made, 1);
    }
  return &all;
}

gsize
cro_unit_words_scan (const char          *text,
                     const CroEntryWords *words,
                     CroUnitMeaning      *meaning)
{
  const Initials *initials = get_initials ();
  const guint32 initial = cro_word_initial (text);
  gsize longest = 0;

  *meaning = (CroUnitMeaning){ CRO_UNIT_WORD_NONE, { CRO_UNIT_EACH, CRO_UNIT_EACH } };
  if (!g_unichar_isalpha (g_utf8_get_char (text)))
    return 0;
  for (int i = 0; i < CRO_N_UNITS; i++)
    take (&longest, meaning, match_shown (text, cro_unit_get ((CroUnit) i)->code),
          CRO_UNIT_WORD_ONE, (CroUnit) i, CRO_UNIT_EACH);
  for (const CroUnitWord *word = words != NULL ? words->units : NULL;
       word != NULL && word->word != NULL; word++)
    take (&longest, meaning, match_shown (text, word->word), CRO_UNIT_WORD_ONE, word->unit,
          CRO_UNIT_EACH);
  for (gsize i = 0; i < G_N_ELEMENTS (everyday); i++)
    if ((initials->everyday[i] & initial) != 0)
      take (&longest, meaning, cro_word_list_scan (text, everyday[i].words), CRO_UNIT_WORD_ONE, everyday[i].unit,
            CRO_UNIT_EACH);
  for (gsize i = 0; i < G_N_ELEMENTS (which); i++)
    if ((initials->which[i] & initial) != 0)
      take (&longest, meaning, cro_word_list_scan (text, which[i].words), CRO_UNIT_WORD_WHICH, which[i].either,
            which[i].other);
  if ((initials->sizeless & initial) != 0)
    take (&longest, meaning, cro_word_list_scan (text, sizeless), CRO_UNIT_WORD_SIZELESS, CRO_UNIT_EACH, CRO_UNIT_EACH);
  /* "tsp." */
  if (longest > 0 && text[longest] == '.' && cro_word_ends (text + longest + 1))
    longest++;
  return longest;
}
