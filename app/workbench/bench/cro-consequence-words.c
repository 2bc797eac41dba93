#include "config.h"

#include "cro-consequence-words.h"

#include <glib/gi18n.h>

#include "cro-allergen-words.h"
#include "cro-carrier.h"
#include "cro-isolate.h"
#include "cro-replacement.h"

typedef enum
{
  CONTAINS_ENTERS,
  CONTAINS_LEAVES,
  MAY_ENTERS,
  MAY_LEAVES,
  NOT_KNOWN_ENTERS,
  N_CHANGES,
} Change;

static gboolean
changes (const CroConsequence *one,
         Change                change,
         guint                 group)
{
  guint64 bit = change == NOT_KNOWN_ENTERS                        ? CRO_ALLERGENS_NOT_KNOWN
                : change == MAY_ENTERS || change == MAY_LEAVES ? cro_carried_may (1u << group)
                                                                  : 1u << group;
  gboolean leaves = change == CONTAINS_LEAVES || change == MAY_LEAVES;
  guint64 held = leaves ? one->from_bits : one->to_bits, lacked = leaves ? one->to_bits : one->from_bits;

  return (held & bit) != 0 && (lacked & bit) == 0;
}

/* "Oysters, half-dozen and 5 others"; NULL: nothing changes so. */
static char *
dup_changed (CroModel *model,
             GArray   *all,
             Change    change,
             guint     group)
{
  g_autofree char *first = NULL;
  guint n = 0;

  for (guint i = 0; i < all->len; i++)
    {
      CroConsequence *one = &g_array_index (all, CroConsequence, i);

      if (!changes (one, change, group))
        continue;
      if (n == 0)
        first = cro_isolate (cro_ref_name (model, one->thing));
      n++;
    }
  if (n < 2)
    return g_steal_pointer (&first);
  /* Translators: a plate or a menu, and how many others. */
  return g_strdup_printf (ngettext ("%s and %u other", "%s and %u others", n - 1), first, n - 1);
}

static char *
dup_change (Change      change,
            const char *allergen,
            const char *where)
{
  switch (change)
    {
    case CONTAINS_ENTERS:
      /* Translators: an allergen; plates and menus. */
      return g_strdup_printf (_("%s now in %s; check labels."), allergen, where);
    case CONTAINS_LEAVES:
      return g_strdup_printf (_("%s no longer among those entered for %s; check labels."), allergen, where);
    case MAY_ENTERS:
      return g_strdup_printf (_("%s, by a label, now may be in %s; check labels."), allergen, where);
    case MAY_LEAVES:
      return g_strdup_printf (_("%s, by a label, no longer among those that may be in %s; check labels."),
                              allergen, where);
    case NOT_KNOWN_ENTERS:
    case N_CHANGES:
      return g_strdup_printf (_("Allergens no longer known for %s: nobody has said."), where);
    }
  g_return_val_if_reached (NULL);
}

char *
cro_consequences_allergens (CroModel *model,
                            GArray   *all)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (Change change = 0; change < N_CHANGES; change++)
    for (guint group = 0; group < (change == NOT_KNOWN_ENTERS ? 1 : CRO_N_ALLERGENS); group++)
      {
        g_autofree char *where = dup_changed (model, all, change, group);
        g_autofree char *sentence
            = where != NULL ? dup_change (change, cro_words_allergen (CRO_ALLERGEN_LIST_EU, group), where) : NULL;

        if (sentence != NULL)
          g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", sentence);
      }
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}
