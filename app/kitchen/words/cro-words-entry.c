#include "config.h"

#include "cro-words.h"

#include <glib/gi18n.h>

#include "cro-here.h"
#include "cro-number.h"
#include "cro-words-price.h"

/* Words in the user's language, and in both of those that cooks use beside it. */
static const char *const *
both (const char *own,
      const char *others)
{
  g_autofree char *all = g_strconcat (own, "|", others, NULL);

  return (const char *const *) g_strsplit (all, "|", -1);
}

const CroEntryWords *
cro_words_entry (void)
{
  static CroUnitWord units[CRO_N_UNITS + 6];
  static CroEntryWords words;

  if (words.units != NULL)
    return &words;
  /* Translators: how people write a teaspoon (5 ml) in a recipe, in short. */
  units[0] = (CroUnitWord){ _("tsp"), CRO_UNIT_TSP };
  /* Translators: how people write a tablespoon (15 ml) in a recipe, in short. */
  units[1] = (CroUnitWord){ _("tbsp"), CRO_UNIT_TBSP };
  /* Translators: several things that are counted, as in "3 pieces". */
  units[2] = (CroUnitWord){ _("pieces"), CRO_UNIT_EACH };
  units[3] = (CroUnitWord){ _("piece"), CRO_UNIT_EACH };
  units[4] = (CroUnitWord){ _("litre"), CRO_UNIT_L };
  /* What is shown can be typed. */
  for (int unit = 0; unit < CRO_N_UNITS; unit++)
    units[5 + unit] = (CroUnitWord){ cro_words_unit ((CroUnit) unit), (CroUnit) unit };
  words = (CroEntryWords){
    units,
    /* Translators: what is lost of a weight, as typed in "loss 38 %". */
    both (_("loss"), "loss|perte|pertes"),
    /* Translators: a word between a unit and a name, as in "25 g of butter". */
    both (_("of"), "of|de la|de l'|de l’|du|des|d'|d’|de"),
    /* Translators: behind the name of what is weighed trimmed, as typed in a recipe: "40 g crab,
     * trimmed". All the forms it has in your language, with | between them. */
    both (C_("typed", "trimmed|cleaned"), "trimmed|cleaned|paré|parée|parés|parées"),
    /* Translators: the same of what is weighed as it was bought. */
    both (C_("typed", "as bought|untrimmed"), "as bought|untrimmed|brut|brute|bruts|brutes"),
  };
  return &words;
}

/* --- Questions ------------------------------------------------------------------------------------ */

char *
cro_words_which_unit (const char    *word,
                      const CroUnit  choices[2])
{
  /* Translators: the first %s is a word that was typed, as “cup”; the others are units. */
  return g_strdup_printf (_("“%s” has several sizes: type %s or %s."), word,
                          cro_words_unit (choices[0]), cro_words_unit (choices[1]));
}

char *
cro_words_no_size (const char *word)
{
  /* Translators: the first %s is a word that was typed, as “bunch”; the second is the unit of what
   * is counted. */
  return g_strdup_printf (_("“%s” has no fixed size: type a weight or a volume, or %s."), word,
                          cro_words_unit (CRO_UNIT_EACH));
}

char *
cro_words_entry_reason (const char     *text,
                        const CroEntry *entry)
{
  g_autofree char *part = g_strndup (text + entry->start, entry->end - entry->start);
  g_autofree char *units = NULL, *today = NULL;
  g_auto (CroEntry) day = { 0 };

  switch (entry->status)
    {
    case CRO_ENTRY_OK:
    case CRO_ENTRY_EMPTY:
      return NULL;
    case CRO_ENTRY_BY_ZERO:
      return g_strdup (_("This divides by zero."));
    case CRO_ENTRY_TOO_LARGE:
      return g_strdup (_("This is too large."));
    case CRO_ENTRY_TOO_SMALL:
      return g_strdup (_("This is too small: six decimals are kept."));
    case CRO_ENTRY_OUT_OF_RANGE:
      return g_strdup (_("This is out of range."));
    case CRO_ENTRY_NOT_A_DATE:
      today = cro_date_to_text (cro_here_today ());
      /* Translators: %s is the day of today, as an example of a date that can be typed. */
      return g_strdup_printf (_("This is not a date. Type it as in %s."), today);
    case CRO_ENTRY_WHICH_UNIT:
      return cro_words_which_unit (part, entry->choices);
    case CRO_ENTRY_SIZELESS_UNIT:
      return cro_words_no_size (part);
    case CRO_ENTRY_OTHER_CURRENCY:
      return g_strdup_printf (_("“%s” is not in the currency of the book settings."), part);
    case CRO_ENTRY_WITH_TAX:
      return cro_words_price_tax (part, CRO_TAX_WITH);
    case CRO_ENTRY_WITHOUT_TAX:
      return cro_words_price_tax (part, CRO_TAX_WITHOUT);
    case CRO_ENTRY_OTHER_UNIT:
      /* Translators: %s is a unit that was typed where it cannot be. */
      return g_strdup_printf (_("This cannot be converted from %s here."),
                              cro_words_unit (entry->unit));
    case CRO_ENTRY_NOT_A_UNIT:
      units = cro_words_units ();
      /* Translators: %s lists all units. */
      return g_strdup_printf (_("This unit is not known. Use %s."), units);
    case CRO_ENTRY_MIXED_UNITS:
      return g_strdup (_("Some numbers have a unit and some have none, or they cannot be added."));
    case CRO_ENTRY_NOT_A_NUMBER:
      if (cro_entry_date (part, &day))
        /* Translators: %s is a day, typed where a number is asked for; signs are those of a subtraction or a
         * division. */
        return g_strdup_printf (_("“%s” is a date. A sum of numbers has spaces around its signs."), part);
      return g_strdup (_("This is not a number."));
    }
  g_return_val_if_reached (NULL);
}
