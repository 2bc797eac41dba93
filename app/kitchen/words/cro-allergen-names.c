/* What allergens are called, and which of them somebody means. */
#include "config.h"

#include "cro-allergen-words.h"

#include <glib/gi18n.h>
#include <string.h>

#include "cro-fold.h"

static const char *const eu_names[] = {
  N_("gluten"), N_("crustaceans"), N_("eggs"),    N_("fish"),   N_("peanuts"),
  N_("soybeans"), N_("milk"),      N_("nuts"),    N_("celery"), N_("mustard"),
  N_("sesame"), N_("sulphites"),   N_("lupin"),   N_("molluscs"),
};

/* Translators: allergens in three letters or so, over narrow columns; no two alike. */
static const char *const eu_short[] = {
  NC_("allergen", "Glu"), NC_("allergen", "Cru"), NC_("allergen", "Egg"), NC_("allergen", "Fis"),
  NC_("allergen", "Pea"), NC_("allergen", "Soy"), NC_("allergen", "Mil"), NC_("allergen", "Nut"),
  NC_("allergen", "Cel"), NC_("allergen", "Mus"), NC_("allergen", "Ses"), NC_("allergen", "Sul"),
  NC_("allergen", "Lup"), NC_("allergen", "Mol"),
};

static const char *const us_names[] = {
  N_("milk"),  N_("eggs"),    N_("fish"),     N_("crustacean shellfish"), N_("tree nuts"),
  N_("wheat"), N_("peanuts"), N_("soybeans"), N_("sesame"),
};

static const char *const us_short[] = {
  NC_("allergen", "Mil"), NC_("allergen", "Egg"), NC_("allergen", "Fis"), NC_("allergen", "Cru"),
  NC_("allergen", "Tre"), NC_("allergen", "Whe"), NC_("allergen", "Pea"), NC_("allergen", "Soy"),
  NC_("allergen", "Ses"),
};

G_STATIC_ASSERT (G_N_ELEMENTS (eu_names) == CRO_N_ALLERGENS);
G_STATIC_ASSERT (G_N_ELEMENTS (eu_short) == CRO_N_ALLERGENS);
G_STATIC_ASSERT (G_N_ELEMENTS (us_names) == G_N_ELEMENTS (us_short));

const char *
cro_words_allergen (CroAllergenListId list,
                    guint             entry)
{
  return _((list == CRO_ALLERGEN_LIST_US ? us_names : eu_names)[entry]);
}

const char *
cro_words_allergen_short (CroAllergenListId list,
                          guint             entry)
{
  return g_dpgettext2 (NULL, "allergen", (list == CRO_ALLERGEN_LIST_US ? us_short : eu_short)[entry]);
}

/* What else the lists themselves call their groups, or name as belonging to them (Regulation (EU) No 1169/2011,
 * Annex II; FALCPA 2004, section 203), and the two groups that are both called shellfish (common practice, no
 * source). Masks of codes of the EU; of the US nine likewise by number. */
typedef struct
{
  const char *name;
  guint32     eu;
  guint32     us;
} OtherName;

#define ONE(entry) (1u << (entry))

/* Those of the Annex, and of the nine, in their order, that have other names. */
enum
{
  EU_GLUTEN = 0,
  EU_CRUSTACEANS = 1,
  EU_SOYBEANS = 5,
  EU_MILK = 6,
  EU_NUTS = 7,
  EU_SULPHITES = 11,
  EU_MOLLUSCS = 13,
};

enum
{
  US_MILK = 0,
  US_CRUSTACEANS = 3,
  US_NUTS = 4,
  US_WHEAT = 5,
  US_SOYBEANS = 7,
};

static const OtherName other_names[] = {
  { NC_("allergen name", "cereals"), ONE (EU_GLUTEN), 0 },
  { NC_("allergen name", "wheat"), ONE (EU_GLUTEN), ONE (US_WHEAT) },
  { NC_("allergen name", "rye"), ONE (EU_GLUTEN), 0 },
  { NC_("allergen name", "barley"), ONE (EU_GLUTEN), 0 },
  { NC_("allergen name", "oats"), ONE (EU_GLUTEN), 0 },
  { NC_("allergen name", "spelt"), ONE (EU_GLUTEN), ONE (US_WHEAT) },
  { NC_("allergen name", "soya"), ONE (EU_SOYBEANS), ONE (US_SOYBEANS) },
  { NC_("allergen name", "lactose"), ONE (EU_MILK), ONE (US_MILK) },
  { NC_("allergen name", "tree nuts"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "almonds"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "hazelnuts"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "walnuts"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "cashews"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "pecans"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "Brazil nuts"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "pistachios"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "macadamia nuts"), ONE (EU_NUTS), ONE (US_NUTS) },
  { NC_("allergen name", "sulphur dioxide"), ONE (EU_SULPHITES), 0 },
  { NC_("allergen name", "sulfites"), ONE (EU_SULPHITES), 0 },
  { NC_("allergen name", "shellfish"), ONE (EU_CRUSTACEANS) | ONE (EU_MOLLUSCS), ONE (US_CRUSTACEANS) },
};

/* Of these a beginning of fewer letters says nothing. */
#define LEAST_BEGINNING 3

/* TRUE: it is the whole of a name, of these groups alone; its beginning, from so many letters on, adds them. */
static gboolean
fits (const char *folded,
      const char *name,
      glong       least,
      guint32     groups,
      guint32    *found)
{
  g_autofree char *whole = cro_fold (name);

  if (strcmp (whole, folded) == 0)
    {
      *found = groups;
      return TRUE;
    }
  if (g_utf8_strlen (folded, -1) >= least && g_str_has_prefix (whole, folded))
    *found |= groups;
  return FALSE;
}

/* In the language of the reader and in English, as labels are; a whole name is one group, or of shellfish two,
 * its beginning may be of several. */
guint32
cro_words_find_allergens (CroAllergenListId list,
                          const char       *typed)
{
  g_autofree char *folded = cro_fold (typed);
  gboolean is_us = list == CRO_ALLERGEN_LIST_US;
  guint32 found = 0;

  if (*folded == '\0')
    return 0;
  for (guint i = 0; i < cro_allergen_list (list)->n; i++)
    if (fits (folded, cro_words_allergen (list, i), 1, 1u << i, &found)
        || fits (folded, cro_words_allergen_short (list, i), 1, 1u << i, &found)
        || fits (folded, (is_us ? us_names : eu_names)[i], 1, 1u << i, &found)
        || fits (folded, (is_us ? us_short : eu_short)[i], 1, 1u << i, &found))
      return found;
  for (gsize i = 0; i < G_N_ELEMENTS (other_names); i++)
    {
      guint32 groups = is_us ? other_names[i].us : other_names[i].eu;

      if (groups != 0
          && (fits (folded, g_dpgettext2 (NULL, "allergen name", other_names[i].name), LEAST_BEGINNING, groups, &found)
              || fits (folded, other_names[i].name, LEAST_BEGINNING, groups, &found)))
        return found;
    }
  return found;
}
