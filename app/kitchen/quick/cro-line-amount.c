#include "cro-line-amount.h"

#include "cro-decimal.h"
#include "cro-fraction.h"
#include "cro-words.h"

/* The small unit that a bite of a large one is weighed in. */
static CroUnit
small_unit (CroUnit unit)
{
  switch (unit)
    {
    case CRO_UNIT_KG:
      return CRO_UNIT_G;
    case CRO_UNIT_LB:
      return CRO_UNIT_OZ;
    case CRO_UNIT_L:
    case CRO_UNIT_DL:
    case CRO_UNIT_CL:
      return CRO_UNIT_ML;
    case CRO_UNIT_DOZEN:
      return CRO_UNIT_EACH;
    default:
      return unit;
    }
}

static CroUnit
unit_of_bite (CroLineAmount line,
              gint64        makes)
{
  return line.amount < makes ? small_unit (line.unit) : line.unit;
}

char *
cro_line_amount_to_text (CroLineAmount line,
                         gint64        makes)
{
  CroUnit unit = makes > 0 ? unit_of_bite (line, makes) : line.unit;
  double bite = makes > 0 ? (double) line.amount / (double) makes * cro_unit_factor (line.unit)
                                / cro_unit_factor (unit)
                          : 0;
  g_autofree char *number = makes > 0 ? cro_words_three_digits (bite)
                                      : cro_words_decimal (line.amount);

  return g_strdup_printf ("%s %s", number, cro_words_unit (unit));
}

static gboolean
fail (CroEntry       *entry,
      CroEntryStatus  status)
{
  entry->status = status;
  return FALSE;
}

/* Of a bite to that of all, in the line's own unit where that can be. */
static gboolean
times (CroEntry *entry,
       CroUnit   unit,
       gint64    makes)
{
  CroFraction all = cro_fraction_from_micro (entry->micro);
  gboolean is_same_base = cro_unit_get (unit)->base == cro_unit_get (entry->unit)->base;

  if (!cro_fraction_multiply (&all, cro_fraction_from_micro (makes))
      || (is_same_base && (!cro_fraction_multiply (&all, cro_fraction_of_unit (entry->unit))
                           || !cro_fraction_divide (&all, cro_fraction_of_unit (unit))))
      || !cro_fraction_to_micro (all, &entry->micro) || !cro_decimal_may_be_entered (entry->micro))
    return fail (entry, CRO_ENTRY_TOO_LARGE);
  if (is_same_base)
    entry->unit = unit;
  if (entry->micro == 0 && all.numerator != 0)
    return fail (entry, CRO_ENTRY_TOO_SMALL);
  return TRUE;
}

gboolean
cro_line_amount_read (const char          *text,
                      CroLineAmount        line,
                      gint64               makes,
                      const CroEntryWords *words,
                      CroEntry            *entry)
{
  CroUnit unit = makes > 0 ? unit_of_bite (line, makes) : line.unit;

  return cro_entry_measured (text, unit, CRO_RANGE_AT_LEAST_0, words, entry)
         && (makes == 0 || times (entry, line.unit, makes));
}
