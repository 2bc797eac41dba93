#include <string.h>

#include "cro-decimal.h"
#include "cro-entry-private.h"
#include "cro-here.h"
#include "cro-line.h"
#include "cro-number.h"
#include "cro-price-words.h"
#include "cro-unit-words.h"

void
cro_entry_clear (CroEntry *entry)
{
  g_clear_pointer (&entry->understood, g_free);
}

gboolean
cro_entry_fail (CroEntry       *entry,
                CroEntryStatus  status,
                gsize           start,
                gsize           end)
{
  entry->status = status;
  entry->start = start;
  entry->end = end;
  return FALSE;
}

/* --- Ranges ------------------------------------------------------------------------------------- */

static const struct { gint64 least, most; } ranges[] = {
  [CRO_RANGE_ANY] = { G_MININT64, G_MAXINT64 },
  [CRO_RANGE_AT_LEAST_0] = { 0, G_MAXINT64 },
  [CRO_RANGE_ABOVE_0] = { 1, G_MAXINT64 },
  [CRO_RANGE_YIELD_PCT] = { 1, 10 * CRO_WHOLE_PCT },
  [CRO_RANGE_PART_PCT] = { 1, CRO_WHOLE_PCT },
  [CRO_RANGE_RECOVERED_PCT] = { 0, CRO_WHOLE_PCT - 1 },
  [CRO_RANGE_PART] = { 0, CRO_MICRO },
};

/* What the text was read as, whatever came of it. */
gboolean
cro_entry_asked_for (CroEntry *entry,
                     CroAsked  asked,
                     CroRange  range,
                     gboolean  is_read)
{
  entry->asked = asked;
  entry->range = range;
  return is_read;
}

gboolean
cro_entry_hold_to (CroEntry   *entry,
                   CroRange    range,
                   const char *text)
{
  if (entry->micro >= ranges[range].least && entry->micro <= ranges[range].most)
    return TRUE;
  return cro_entry_fail (entry, CRO_ENTRY_OUT_OF_RANGE, 0, strlen (text));
}

/* --- Reading --------------------------------------------------------------------------------------- */

/* The numbers and the two signs of a day, its year written out, which begin text; its bytes, 0 where there
 * is none. A sum of the same numbers is typed with space around its signs. */
static gsize
scan_day (const char *text)
{
  gsize starts[3], at = 0, most = 0;

  for (guint i = 0; i < 3; i++)
    {
      starts[i] = at;
      at += strspn (text + at, "0123456789");
      most = MAX (most, at - starts[i]);
      if (at == starts[i] || (i > 0 && text[starts[i] - 1] != text[starts[1] - 1])
          || (i < 2 && text[at] != '-' && text[at] != '/' && text[at] != '.'))
        return 0;
      at += i < 2;
    }
  for (guint i = 0; i < 3; i++)
    if (strspn (text + starts[i], "0123456789") != 4
        && g_ascii_strtoull (text + starts[i], NULL, 10) > 31)
      return 0;
  return most == 4 && text[at] != '.' && text[at] != ',' && !g_ascii_isalnum (text[at]) ? at : 0;
}

/* Reads a sum to its end; what may follow it is the caller's to read. A day is no sum: 2026-10-30 is not
 * 1986. */
gsize
cro_entry_scan (const char          *text,
                gboolean             has_units,
                const CroEntryWords *words,
                GArray              *terms,
                CroEntry            *entry,
                CroReading          *reading)
{
  gsize space = cro_expression_space (text), bytes = scan_day (text + space);

  *entry = (CroEntry){ .status = CRO_ENTRY_OK };
  if (bytes > 0)
    {
      *reading = (CroReading){ .status = CRO_ENTRY_NOT_A_NUMBER };
      cro_entry_fail (entry, CRO_ENTRY_NOT_A_NUMBER, space, space + bytes);
      return 0;
    }
  bytes = cro_expression_scan (text, has_units, words, terms, reading);
  if (reading->status != CRO_ENTRY_OK)
    cro_entry_fail (entry, reading->status, reading->start, reading->end);
  return bytes;
}

/* Whether nothing but space is left. */
gboolean
cro_entry_must_end (const char     *text,
                    gsize           at,
                    CroEntryStatus  status,
                    CroEntry       *entry)
{
  at += cro_expression_space (text + at);
  return text[at] == '\0' || cro_entry_fail (entry, status, at, strlen (text));
}

gboolean
cro_entry_round_to (CroEntry         *entry,
                    const CroReading *reading,
                    const char       *text,
                    CroFraction       value)
{
  if (!cro_fraction_to_micro (value, &entry->micro) || !cro_decimal_may_be_entered (entry->micro))
    return cro_entry_fail (entry, CRO_ENTRY_TOO_LARGE, 0, strlen (text));
  if (entry->micro == 0 && value.numerator != 0)
    return cro_entry_fail (entry, CRO_ENTRY_TOO_SMALL, 0, strlen (text));
  if (reading->is_ambiguous)
    entry->understood = cro_number_to_text (cro_decimal_to_double (entry->micro), 6, TRUE);
  return TRUE;
}

GArray *
cro_entry_terms_new (void)
{
  return g_array_new (FALSE, FALSE, sizeof (CroTerm));
}

/* The sum of numbers without units. */
static gboolean
total (const char       *text,
       GArray           *terms,
       const CroReading *reading,
       CroEntry         *entry)
{
  CroFraction value;

  if (!cro_expression_total (terms, &value))
    return cro_entry_fail (entry, CRO_ENTRY_TOO_LARGE, 0, strlen (text));
  return cro_entry_round_to (entry, reading, text, value);
}

gboolean
cro_entry_number (const char *text,
                  CroRange    range,
                  CroEntry   *entry)
{
  g_autoptr (GArray) terms = cro_entry_terms_new ();
  CroReading reading;
  gsize bytes = cro_entry_scan (text, FALSE, NULL, terms, entry, &reading);

  return cro_entry_asked_for (entry, CRO_ASKED_NUMBER, range,
                              bytes > 0 && cro_entry_must_end (text, bytes, CRO_ENTRY_NOT_A_NUMBER, entry)
                                  && total (text, terms, &reading, entry) && cro_entry_hold_to (entry, range, text));
}

gsize
cro_entry_scan_number (const char *text,
                       CroEntry   *entry)
{
  g_autoptr (GArray) terms = cro_entry_terms_new ();
  CroReading reading;
  gsize bytes = cro_entry_scan (text, FALSE, NULL, terms, entry, &reading);

  return bytes > 0 && total (text, terms, &reading, entry) ? bytes : 0;
}

/* --- Units --------------------------------------------------------------------------------------------- */

gsize
cro_entry_scan_unit (const char          *text,
                     const CroEntryWords *words,
                     CroUnit             *unit)
{
  CroUnitMeaning meaning;
  gsize bytes = cro_unit_words_scan (text, words, &meaning);

  if (meaning.kind != CRO_UNIT_WORD_ONE)
    return 0;
  *unit = meaning.units[0];
  return bytes;
}

/* What stands where a unit should is none: what kind of none. */
gboolean
cro_entry_fail_unit (const char          *text,
                     gsize                at,
                     const CroEntryWords *words,
                     CroEntry            *entry)
{
  gsize begin = at + cro_expression_space (text + at);
  CroUnitMeaning meaning;
  gsize bytes = cro_unit_words_scan (text + begin, words, &meaning);

  memcpy (entry->choices, meaning.units, sizeof entry->choices);
  if (meaning.kind == CRO_UNIT_WORD_WHICH)
    return cro_entry_fail (entry, CRO_ENTRY_WHICH_UNIT, begin, begin + bytes);
  if (meaning.kind == CRO_UNIT_WORD_SIZELESS)
    return cro_entry_fail (entry, CRO_ENTRY_SIZELESS_UNIT, begin, begin + bytes);
  return cro_entry_fail (entry, CRO_ENTRY_NOT_A_UNIT, begin, strlen (text));
}

/* A unit at the end is that of all; otherwise all have one, or none has. *last is the last. */
static CroEntryStatus
spread_units (GArray  *terms,
              CroUnit  fallback,
              CroUnit *last)
{
  CroTerm *all = (CroTerm *) terms->data;
  guint n = terms->len, with = 0;

  for (guint i = 0; i < n; i++)
    with += all[i].has_unit;
  *last = all[n - 1].has_unit ? all[n - 1].unit : fallback;
  if (with != 0 && with != n && !(with == 1 && all[n - 1].has_unit))
    return CRO_ENTRY_MIXED_UNITS;
  for (guint i = 0; i < n; i++)
    {
      if (with != n)
        all[i].unit = *last;
      if (cro_unit_get (all[i].unit)->base != cro_unit_get (*last)->base)
        return CRO_ENTRY_MIXED_UNITS;
    }
  return CRO_ENTRY_OK;
}

/* The sum of terms of one base, in a unit of it. */
static gboolean
total_in (GArray      *terms,
          CroUnit      unit,
          CroFraction *sum)
{
  *sum = cro_fraction_make (0, 1);
  for (guint i = 0; i < terms->len; i++)
    {
      CroTerm term = g_array_index (terms, CroTerm, i);

      if (!cro_fraction_multiply (&term.value, cro_fraction_of_unit (term.unit))
          || !cro_fraction_divide (&term.value, cro_fraction_of_unit (unit))
          || !cro_fraction_add (sum, term.value))
        return FALSE;
    }
  return TRUE;
}

gsize
cro_entry_scan_parts (const char          *text,
                      CroUnit              unit,
                      const CroEntryWords *words,
                      gint64              *micro)
{
  g_autoptr (GArray) terms = cro_entry_terms_new ();
  CroTerm term = { cro_fraction_from_micro (*micro), TRUE, unit };
  CroFraction sum;
  gsize all = 0;

  g_array_append_val (terms, term);
  for (gsize bytes; (bytes = cro_expression_scan_part (text + all, term.unit, words, &term)) > 0;)
    {
      g_array_append_val (terms, term);
      all += bytes;
    }
  return total_in (terms, unit, &sum) && cro_fraction_to_micro (sum, micro) ? all : 0;
}

/* own_unit: into the unit typed, whatever the field's. */
static gboolean
read_amount (const char          *text,
             CroUnit              unit,
             gboolean             own_unit,
             const CroEntryWords *words,
             CroEntry            *entry)
{
  g_autoptr (GArray) terms = cro_entry_terms_new ();
  CroReading reading;
  gsize bytes = cro_entry_scan (text, TRUE, words, terms, entry, &reading);
  CroEntryStatus status;
  CroFraction sum;
  CroUnit last;

  entry->unit = unit;
  if (bytes == 0)
    return FALSE;
  if (!cro_entry_must_end (text, bytes, CRO_ENTRY_NOT_A_UNIT, entry))
    return cro_entry_fail_unit (text, bytes, words, entry);
  status = spread_units (terms, unit, &last);
  if (status != CRO_ENTRY_OK)
    return cro_entry_fail (entry, status, 0, strlen (text));
  entry->has_unit = g_array_index (terms, CroTerm, terms->len - 1).has_unit;
  if (cro_unit_get (last)->base == cro_unit_get (unit)->base && !own_unit)
    last = unit;
  entry->unit = last;
  if (!total_in (terms, last, &sum))
    return cro_entry_fail (entry, CRO_ENTRY_TOO_LARGE, 0, strlen (text));
  if (!cro_entry_round_to (entry, &reading, text, sum))
    return FALSE;
  if (cro_unit_get (last)->base != cro_unit_get (unit)->base && !own_unit)
    return cro_entry_fail (entry, CRO_ENTRY_OTHER_UNIT, 0, strlen (text));
  return TRUE;
}

gboolean
cro_entry_amount (const char          *text,
                  CroUnit              unit,
                  CroRange             range,
                  const CroEntryWords *words,
                  CroEntry            *entry)
{
  gboolean is_read = read_amount (text, unit, FALSE, words, entry) && cro_entry_hold_to (entry, range, text);

  entry->wanted = unit;
  return cro_entry_asked_for (entry, CRO_ASKED_AMOUNT, range, is_read);
}

gboolean
cro_entry_measured (const char          *text,
                    CroUnit              fallback,
                    CroRange             range,
                    const CroEntryWords *words,
                    CroEntry            *entry)
{
  gboolean is_read = read_amount (text, fallback, TRUE, words, entry) && cro_entry_hold_to (entry, range, text);

  entry->wanted = fallback;
  entry->any_unit = TRUE;
  return cro_entry_asked_for (entry, CRO_ASKED_AMOUNT, range, is_read);
}

/* --- Per cent --------------------------------------------------------------------------------------------------- */

/* A word for loss, with the space before it; its bytes or 0. */
static gsize
scan_loss (const char          *text,
           const CroEntryWords *words)
{
  gsize space = cro_expression_space (text);

  for (gsize i = 0; words != NULL && words->loss != NULL && words->loss[i] != NULL; i++)
    {
      gsize bytes = cro_expression_starts (text + space, words->loss[i]);

      if (bytes > 0 && !g_unichar_isalnum (g_utf8_get_char (text + space + bytes)))
        return space + bytes;
    }
  return 0;
}

/* The words are common practice, no source. */
static gsize
scan_pct_sign (const char *text)
{
  static const char *const signs[] = { "%", "٪", "percent", "per cent", "pct", "pour cent", NULL };
  gsize space = cro_expression_space (text), bytes = cro_price_scan_word (text + space, signs);

  return bytes > 0 ? space + bytes : 0;
}

static gboolean
read_pct (const char          *text,
          CroRange             range,
          const CroEntryWords *words,
          CroEntry            *entry)
{
  g_autoptr (GArray) terms = cro_entry_terms_new ();
  CroReading reading;
  gsize loss = range == CRO_RANGE_YIELD_PCT ? scan_loss (text, words) : 0;
  gsize bytes = cro_entry_scan (text + loss, FALSE, NULL, terms, entry, &reading);
  CroTerm whole = { .value = cro_fraction_make (100, 1) };

  if (bytes == 0)
    {
      entry->start += loss;
      entry->end += loss;
      return FALSE;
    }
  bytes += loss;
  bytes += scan_pct_sign (text + bytes);
  if (loss == 0 && range == CRO_RANGE_YIELD_PCT)
    bytes += loss = scan_loss (text + bytes, words);
  if (!cro_entry_must_end (text, bytes, CRO_ENTRY_NOT_A_NUMBER, entry))
    return FALSE;
  for (guint i = 0; i < terms->len && loss > 0; i++)
    {
      CroTerm *term = &g_array_index (terms, CroTerm, i);

      term->value = cro_fraction_negate (term->value);
    }
  if (loss > 0)
    g_array_append_val (terms, whole);
  return total (text, terms, &reading, entry) && cro_entry_hold_to (entry, range, text);
}

gboolean
cro_entry_pct (const char          *text,
               CroRange             range,
               const CroEntryWords *words,
               CroEntry            *entry)
{
  return cro_entry_asked_for (entry, range == CRO_RANGE_YIELD_PCT ? CRO_ASKED_YIELD : CRO_ASKED_PCT, range,
                              read_pct (text, range, words, entry));
}

/* --- Dates ------------------------------------------------------------------------------------------------- */

gboolean
cro_entry_date (const char *text,
                CroEntry   *entry)
{
  g_autofree char *stripped = g_strstrip (g_strdup (text));

  *entry = (CroEntry){ .status = CRO_ENTRY_OK, .asked = CRO_ASKED_DATE };
  if (*stripped == '\0')
    return cro_entry_fail (entry, CRO_ENTRY_EMPTY, 0, strlen (text));
  if (cro_date_parse (stripped, strlen (stripped), &entry->date)
      || cro_date_from_text (stripped, cro_here_today (), &entry->date))
    return TRUE;
  return cro_entry_fail (entry, CRO_ENTRY_NOT_A_DATE, 0, strlen (text));
}
