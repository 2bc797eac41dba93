#include <string.h>

#include "cro-decimal.h"
#include "cro-entry.h"
#include "cro-expression.h"
#include "cro-fraction.h"
#include "cro-price-words.h"

/* A volume below a stroke, as a number of ml: of a recipe, or in cubes, as labels have it. */
static gsize
scan_volume (const char          *text,
             const CroEntryWords *words,
             CroFraction         *ml)
{
  static const char *const cm[] = { "cm³", "cm3", "cc", NULL }, *const dm[] = { "dm³", "dm3", NULL };
  CroUnit unit;
  gsize bytes = cro_price_scan_word (text, cm);

  *ml = cro_fraction_make (1, 1);
  if (bytes > 0)
    return bytes;
  *ml = cro_fraction_make (1000, 1);
  bytes = cro_price_scan_word (text, dm);
  if (bytes > 0)
    return bytes;
  bytes = cro_entry_scan_unit (text, words, &unit);
  if (bytes == 0 || cro_unit_get (unit)->base != CRO_BASE_MILLILITRE)
    return 0;
  *ml = cro_fraction_of_unit (unit);
  return bytes;
}

/* "kg/l" behind a number; *factor: so many g/ml. Bytes, 0 where there is none. */
static gsize
scan_mass_of_volume (const char          *text,
                     const CroEntryWords *words,
                     CroFraction         *factor)
{
  gsize at = cro_expression_space (text), bytes;
  CroFraction ml;
  CroUnit mass;

  bytes = cro_entry_scan_unit (text + at, words, &mass);
  if (bytes == 0 || cro_unit_get (mass)->base != CRO_BASE_GRAM)
    return 0;
  at += bytes;
  at += cro_expression_space (text + at);
  bytes = cro_price_scan_per (text + at);
  if (bytes == 0)
    return 0;
  at += bytes;
  at += cro_expression_space (text + at);
  bytes = scan_volume (text + at, words, &ml);
  *factor = cro_fraction_of_unit (mass);
  return bytes > 0 && cro_fraction_divide (factor, ml) ? at + bytes : 0;
}

static CroEntryStatus
read_density (const char          *text,
              const CroEntryWords *words,
              CroEntry            *entry)
{
  CroFraction factor = cro_fraction_make (1, 1), value;
  gsize at = cro_entry_scan_number (text, entry), more;

  if (at == 0)
    return entry->status;
  more = scan_mass_of_volume (text + at, words, &factor);
  if (text[at + more + cro_expression_space (text + at + more)] != '\0')
    return CRO_ENTRY_NOT_A_NUMBER;
  value = cro_fraction_from_micro (entry->micro);
  if (more > 0 && (!cro_fraction_multiply (&value, factor) || !cro_fraction_to_micro (value, &entry->micro)))
    return CRO_ENTRY_TOO_LARGE;
  return entry->micro > 0 ? CRO_ENTRY_OK : CRO_ENTRY_OUT_OF_RANGE;
}

gboolean
cro_entry_density (const char          *text,
                   const CroEntryWords *words,
                   CroEntry            *entry)
{
  CroEntryStatus status = read_density (text, words, entry);

  /* What is wrong is the whole of it. */
  if (status != entry->status)
    {
      entry->status = status;
      entry->start = 0;
      entry->end = strlen (text);
    }
  entry->asked = CRO_ASKED_DENSITY;
  entry->range = CRO_RANGE_ABOVE_0;
  return status == CRO_ENTRY_OK;
}
