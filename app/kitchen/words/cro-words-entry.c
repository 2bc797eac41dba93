#include "config.h"

#include "cro-words.h"

#include <glib/gi18n.h>

#include "cro-here.h"
#include "cro-isolate.h"
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
    both (C_("typed", "trimmed|cleaned"),
          "trimmed|cleaned|trimmed weight|cleaned weight|net weight|paré|parée|parés|parées|poids paré|poids net"),
    /* Translators: the same of what is weighed as it was bought. */
    both (C_("typed", "as bought|untrimmed"), "as bought|untrimmed|gross weight|brut|brute|bruts|brutes|poids brut"),
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

/* --- Refusals ------------------------------------------------------------------------------------- */

/* So much of what was typed is said again. */
#define MOST_SAID 40

static char *
dup_said (const char *text)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));
  g_autofree char *begin = NULL;

  if (g_utf8_strlen (stripped, -1) <= MOST_SAID)
    return g_steal_pointer (&stripped);
  begin = g_utf8_substring (stripped, 0, MOST_SAID);
  return g_strconcat (begin, "…", NULL);
}

/* Of each kind of field: what a text is not, and what may be typed. */
static const char *
not_of_kind (CroAsked asked)
{
  switch (asked)
    {
    case CRO_ASKED_AMOUNT:
      return _("“%s” is not an amount. Type a number and a unit, as in 1.5 kg.");
    case CRO_ASKED_MONEY:
      return _("“%s” is not an amount of money. Type a number, as in 12.50.");
    case CRO_ASKED_PRICE:
      return _("“%s” is not a price. Type one, as in 12.50, or per unit, as in 12.50/kg.");
    case CRO_ASKED_SELLING_PRICE:
      return _("“%s” is not a price with tax. Type a number, as in 12.50.");
    case CRO_ASKED_WAGE:
      return _("“%s” is not the cost of an hour. Type a number, as in 21.50.");
    case CRO_ASKED_PCT:
      return _("“%s” is not a percentage. Type a number, as in 30.");
    case CRO_ASKED_YIELD:
      return _("“%s” is not a yield. Type what stays, as in 62 %%, or what is lost, as in loss 38 %%.");
    case CRO_ASKED_DENSITY:
      return _("“%s” is not a density. Type g per ml, as in 0.92, or a number with its unit, as in 920 g/l.");
    case CRO_ASKED_MINUTES:
      return _("“%s” is not a time. Type minutes, as in 70, or hours and minutes, as in 1 h 10.");
    case CRO_ASKED_DAYS:
      return _("“%s” is not a number of days. Type days, as in 28, or weeks, as in 4 weeks.");
    default:
      return _("“%s” is not a number. Type digits, or a sum as in 2 × 1.5.");
    }
}

static const char *
not_in_range (CroRange range)
{
  switch (range)
    {
    case CRO_RANGE_ABOVE_0:
      return _("“%s” is out of range. Type more than 0.");
    case CRO_RANGE_YIELD_PCT:
      return _("“%s” is out of range. Type more than 0 %%, up to 1000 %%.");
    case CRO_RANGE_PART_PCT:
      return _("“%s” is out of range. Type more than 0 %%, up to 100 %%.");
    case CRO_RANGE_RECOVERED_PCT:
      return _("“%s” is out of range. Type 0 %% or more, less than 100 %%.");
    case CRO_RANGE_PART:
      return _("“%s” is out of range. Type 0 to 1.");
    default:
      return _("“%s” is out of range. Type 0 or more.");
    }
}

/* The units that are typed most of those that a field takes; all of them would fill the page. */
static char *
dup_common_units (const CroEntry *entry)
{
  static const CroUnit common[] = { CRO_UNIT_G, CRO_UNIT_KG, CRO_UNIT_OZ, CRO_UNIT_LB, CRO_UNIT_ML, CRO_UNIT_CL,
                                    CRO_UNIT_L, CRO_UNIT_EACH, CRO_UNIT_DOZEN };
  g_autoptr (GString) units = g_string_new (NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (common); i++)
    if (entry->any_unit || cro_unit_get (common[i])->base == cro_unit_get (entry->wanted)->base)
      g_string_append_printf (units, "%s%s", units->len > 0 ? ", " : "", cro_words_unit (common[i]));
  return g_strdup (units->str);
}

static char *
unit_reason (const char     *part,
             const CroEntry *entry)
{
  g_autofree char *units = dup_common_units (entry);

  /* Translators: what was typed as a unit; some units, as examples. */
  return cro_isolate_printf (_("“%s” is not a unit. Type one such as %s."), part, units);
}

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"

static char *
say (const char *sentence,
     const char *said)
{
  return cro_isolate_printf (sentence, said);
}

#pragma GCC diagnostic pop

char *
cro_words_entry_reason (const char     *text,
                        const CroEntry *entry)
{
  g_autofree char *part = g_strndup (text + entry->start, entry->end - entry->start);
  g_autofree char *said = dup_said (text);
  g_autofree char *today = NULL;
  g_auto (CroEntry) day = { 0 };

  switch (entry->status)
    {
    case CRO_ENTRY_OK:
    case CRO_ENTRY_EMPTY:
      return NULL;
    case CRO_ENTRY_BY_ZERO:
      return say (_("“%s” divides by 0. Type another number."), said);
    case CRO_ENTRY_TOO_LARGE:
      return say (_("“%s” is too large. Type a smaller number."), said);
    case CRO_ENTRY_TOO_SMALL:
      return say (_("“%s” is too small: six decimals are kept. Type a larger number, or 0."), said);
    case CRO_ENTRY_NOT_WHOLE:
      /* Translators: what was typed as a number of guests. */
      return say (_("“%s” is not a whole number of covers."), said);
    case CRO_ENTRY_OUT_OF_RANGE:
      return say (not_in_range (entry->range), said);
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
      /* Translators: an amount that was typed; the unit of its field, twice. */
      return cro_isolate_printf (_("“%s” cannot be converted to %s here. Type it in %s."), said,
                                 cro_words_unit (entry->wanted), cro_words_unit (entry->wanted));
    case CRO_ENTRY_NOT_A_UNIT:
      return unit_reason (part, entry);
    case CRO_ENTRY_MIXED_UNITS:
      return say (_("“%s” cannot be added up. Give each number a unit of one kind, or all of them one at the end."),
                  said);
    case CRO_ENTRY_NOT_A_NUMBER:
      if (cro_entry_date (part, &day))
        /* Translators: %s is a day, typed where a number is asked for; signs are those of a subtraction or a
         * division. */
        return g_strdup_printf (_("“%s” is a date. A sum of numbers has spaces around its signs."), part);
      return say (not_of_kind (entry->asked), said);
    }
  g_return_val_if_reached (NULL);
}
