#include "cro-brought-allergens.h"

#include "cro-allergen-words.h"
#include "cro-allergen.h"
#include "cro-fold.h"

#include <string.h>

/* In French, and in the other number than that of the Annex; folded. Names are those of Regulation (EU) No
 * 1169/2011 Annex II in its two languages, the rest common practice, no source. In the order of the Annex. */
static const char *const names[CRO_N_ALLERGENS] = {
  "cereales|ble|seigle|orge|avoine|epeautre",
  "crustace|crustaces|crustacean",
  "egg|oeuf|oeufs",
  "poisson|poissons",
  "peanut|arachide|arachides|cacahuete|cacahuetes",
  "soja|soy|soybean",
  "lait|dairy",
  "nut|fruits a coque|fruit a coque|amande|amandes|noisette|noisettes|noix|almond|hazelnut|walnut|pistachio|pistache|"
  "pistaches",
  "celeri",
  "moutarde",
  "sesame|graines de sesame|sesame seeds",
  "sulfite|sulphite|sulfites|anhydride sulfureux",
  "lupins",
  "mollusque|mollusques|mollusc",
};

static const char *const none[] = {
  "none", "no allergens", "no allergen", "none of the 14", "aucun", "aucun allergene", "sans allergene",
  "sans allergenes", "neant", NULL,
};

/* Letters from which the beginning of a name tells it. */
#define LEAST_BEGINNING 4

/* 0: none, or it could be several. */
static guint32
find_group (const char *folded)
{
  guint32 found;

  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    {
      g_auto (GStrv) list = g_strsplit (names[i], "|", 0);

      if (g_strv_contains ((const char *const *) list, folded))
        return 1u << i;
    }
  for (int i = 0; i < CRO_N_ALLERGENS; i++)
    if (strcmp (folded, cro_allergen_code (i)) == 0)
      return 1u << i;
  if (strlen (folded) < LEAST_BEGINNING)
    return 0;
  found = cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, folded);
  return (found & (found - 1)) == 0 ? found : 0;
}

/* The codes of our own tables stand with spaces between them. */
static gboolean
read_codes (const char *folded,
            guint32    *groups)
{
  const char *bad;
  size_t bad_length;

  return *folded != '\0' && cro_allergens_parse (folded, strlen (folded), groups, &bad, &bad_length);
}

/* What stands between two allergens of a cell. Made once: a sheet has thousands of cells. */
static const GRegex *
between (void)
{
  static GRegex *regex = NULL;

  if (g_once_init_enter (&regex))
    g_once_init_leave (&regex, g_regex_new ("[;,/+&|()\\n]|\\s(?:and|et)\\s", G_REGEX_CASELESS, 0, NULL));
  return regex;
}

gboolean
cro_brought_allergens (const char *text,
                       guint32    *groups)
{
  g_autofree char *whole = cro_fold (text);
  g_auto (GStrv) parts = NULL;

  *groups = 0;
  if (g_strv_contains (none, whole) || read_codes (whole, groups))
    return TRUE;
  parts = g_regex_split (between (), text, 0);
  *groups = 0;
  for (guint i = 0; parts[i] != NULL; i++)
    {
      g_autofree char *folded = cro_fold (parts[i]);
      guint32 group = find_group (folded);

      if (*folded != '\0' && group == 0)
        return FALSE;
      *groups |= group;
    }
  return *groups != 0;
}
