#include "cro-entry.h"

#include <string.h>

#include "cro-decimal.h"
#include "cro-expression.h"
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

void
cro_price_entry_clear (CroPriceEntry *price)
{
  cro_entry_clear (&price->money);
}

static gboolean
fail (CroEntry       *entry,
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
static gboolean
asked_for (CroEntry *entry,
           CroAsked  asked,
           CroRange  range,
           gboolean  is_read)
{
  entry->asked = asked;
  entry->range = range;
  return is_read;
}

static gboolean
hold_to (CroEntry   *entry,
         CroRange    range,
         const char *text)
{
  if (entry->micro >= ranges[range].least && entry->micro <= ranges[range].most)
    return TRUE;
  return fail (entry, CRO_ENTRY_OUT_OF_RANGE, 0, strlen (text));
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
static gsize
scan (const char          *text,
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
      fail (entry, CRO_ENTRY_NOT_A_NUMBER, space, space + bytes);
      return 0;
    }
  bytes = cro_expression_scan (text, has_units, words, terms, reading);
  if (reading->status != CRO_ENTRY_OK)
    fail (entry, reading->status, reading->start, reading->end);
  return bytes;
}

/* Whether nothing but space is left. */
static gboolean
must_end (const char     *text,
          gsize           at,
          CroEntryStatus  status,
          CroEntry       *entry)
{
  at += cro_expression_space (text + at);
  return text[at] == '\0' || fail (entry, status, at, strlen (text));
}

static gboolean
round_to (CroEntry         *entry,
          const CroReading *reading,
          const char       *text,
          CroFraction       value)
{
  if (!cro_fraction_to_micro (value, &entry->micro) || !cro_decimal_may_be_entered (entry->micro))
    return fail (entry, CRO_ENTRY_TOO_LARGE, 0, strlen (text));
  if (entry->micro == 0 && value.numerator != 0)
    return fail (entry, CRO_ENTRY_TOO_SMALL, 0, strlen (text));
  if (reading->is_ambiguous)
    entry->understood = cro_number_to_text (cro_decimal_to_double (entry->micro), 6, TRUE);
  return TRUE;
}

static GArray *
terms_new (void)
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
    return fail (entry, CRO_ENTRY_TOO_LARGE, 0, strlen (text));
  return round_to (entry, reading, text, value);
}

gboolean
cro_entry_number (const char *text,
                  CroRange    range,
                  CroEntry   *entry)
{
  g_autoptr (GArray) terms = terms_new ();
  CroReading reading;
  gsize bytes = scan (text, FALSE, NULL, terms, entry, &reading);

  return asked_for (entry, CRO_ASKED_NUMBER, range,
                    bytes > 0 && must_end (text, bytes, CRO_ENTRY_NOT_A_NUMBER, entry)
                        && total (text, terms, &reading, entry) && hold_to (entry, range, text));
}

gsize
cro_entry_scan_number (const char *text,
                       CroEntry   *entry)
{
  g_autoptr (GArray) terms = terms_new ();
  CroReading reading;
  gsize bytes = scan (text, FALSE, NULL, terms, entry, &reading);

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
static gboolean
fail_unit (const char          *text,
           gsize                at,
           const CroEntryWords *words,
           CroEntry            *entry)
{
  gsize begin = at + cro_expression_space (text + at);
  CroUnitMeaning meaning;
  gsize bytes = cro_unit_words_scan (text + begin, words, &meaning);

  memcpy (entry->choices, meaning.units, sizeof entry->choices);
  if (meaning.kind == CRO_UNIT_WORD_WHICH)
    return fail (entry, CRO_ENTRY_WHICH_UNIT, begin, begin + bytes);
  if (meaning.kind == CRO_UNIT_WORD_SIZELESS)
    return fail (entry, CRO_ENTRY_SIZELESS_UNIT, begin, begin + bytes);
  return fail (entry, CRO_ENTRY_NOT_A_UNIT, begin, strlen (text));
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
  g_autoptr (GArray) terms = terms_new ();
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
  g_autoptr (GArray) terms = terms_new ();
  CroReading reading;
  gsize bytes = scan (text, TRUE, words, terms, entry, &reading);
  CroEntryStatus status;
  CroFraction sum;
  CroUnit last;

  entry->unit = unit;
  if (bytes == 0)
    return FALSE;
  if (!must_end (text, bytes, CRO_ENTRY_NOT_A_UNIT, entry))
    return fail_unit (text, bytes, words, entry);
  status = spread_units (terms, unit, &last);
  if (status != CRO_ENTRY_OK)
    return fail (entry, status, 0, strlen (text));
  entry->has_unit = g_array_index (terms, CroTerm, terms->len - 1).has_unit;
  if (cro_unit_get (last)->base == cro_unit_get (unit)->base && !own_unit)
    last = unit;
  entry->unit = last;
  if (!total_in (terms, last, &sum))
    return fail (entry, CRO_ENTRY_TOO_LARGE, 0, strlen (text));
  if (!round_to (entry, &reading, text, sum))
    return FALSE;
  if (cro_unit_get (last)->base != cro_unit_get (unit)->base && !own_unit)
    return fail (entry, CRO_ENTRY_OTHER_UNIT, 0, strlen (text));
  return TRUE;
}

gboolean
cro_entry_amount (const char          *text,
                  CroUnit              unit,
                  CroRange             range,
                  const CroEntryWords *words,
                  CroEntry            *entry)
{
  gboolean is_read = read_amount (text, unit, FALSE, words, entry) && hold_to (entry, range, text);

  entry->wanted = unit;
  return asked_for (entry, CRO_ASKED_AMOUNT, range, is_read);
}

gboolean
cro_entry_measured (const char          *text,
                    CroUnit              fallback,
                    CroRange             range,
                    const CroEntryWords *words,
                    CroEntry            *entry)
{
  gboolean is_read = read_amount (text, fallback, TRUE, words, entry) && hold_to (entry, range, text);

  entry->wanted = fallback;
  entry->any_unit = TRUE;
  return asked_for (entry, CRO_ASKED_AMOUNT, range, is_read);
}

/* --- Prices -------------------------------------------------------------------------------------------------- */

/* The sign or the code of a currency behind at, where it may stand. */
static gsize
scan_currency (const char    *text,
               gsize          at,
               const char    *currency,
               CroPriceEntry *price)
{
  gboolean is_it;
  gsize space = cro_expression_space (text + at);
  gsize bytes = cro_currency_scan (text + at + space, currency, &is_it);

  price->is_other |= bytes > 0 && !is_it;
  price->has_currency |= bytes > 0;
  return bytes > 0 ? at + space + bytes : at;
}

/* What is said of tax behind at. */
static gsize
scan_tax (const char    *text,
          gsize          at,
          CroPriceEntry *price)
{
  gsize space = cro_expression_space (text + at);
  gsize bytes = price->tax == CRO_TAX_NOT_SAID ? cro_price_scan_tax (text + at + space, &price->tax) : 0;

  return bytes > 0 ? at + space + bytes : at;
}

/* Both, in any order. */
static gsize
scan_said (const char    *text,
           gsize          at,
           const char    *currency,
           CroPriceEntry *price)
{
  at = scan_currency (text, at, currency, price);
  at = scan_tax (text, at, price);
  return scan_currency (text, at, currency, price);
}

/* "/case", "per pack" behind a price of that pack. */
static gsize
scan_of_pack (const char       *text,
              gsize             at,
              const CroPriceOf *of)
{
  gsize start = at + cro_expression_space (text + at), per = cro_price_scan_per (text + start), bytes;
  gboolean is_whole;

  if (!of->is_of_pack || per == 0)
    return at;
  start += per + cro_expression_space (text + start + per);
  bytes = cro_price_scan_pack (text + start, &is_whole);
  return bytes > 0 && (is_whole || of->pack.count == CRO_MICRO) ? start + bytes : at;
}

/* "/kg", "/4 kg", "per kg", "each" behind a price; returns where it ends, at where there is none. */
static gsize
scan_per (const char          *text,
          gsize                at,
          const CroEntryWords *words,
          CroPriceEntry       *price,
          CroFraction         *per)
{
  g_autoptr (GArray) terms = terms_new ();
  CroReading reading;
  gsize start = at + cro_expression_space (text + at);
  gsize stroke = cro_price_scan_per (text + start);
  gsize number, end, bytes;

  *per = cro_fraction_make (1, 1);
  start += stroke + cro_expression_space (text + start + stroke);
  number = stroke > 0 ? cro_expression_scan (text + start, FALSE, NULL, terms, &reading) : 0;
  if (number > 0 && (!cro_expression_total (terms, per) || per->numerator <= 0))
    return at;
  end = start + number + cro_expression_space (text + start + number);
  bytes = cro_entry_scan_unit (text + end, words, &price->unit);
  if (bytes == 0)
    return at;
  price->has_unit = TRUE;
  price->has_stroke = stroke > 0;
  return end + bytes;
}

/* The longest price that begins text, and its exact value for one unit. */
static gsize
scan_price (const char          *text,
            const CroPriceOf    *of,
            const CroEntryWords *words,
            CroPriceEntry       *price,
            CroReading          *reading,
            CroFraction         *value)
{
  g_autoptr (GArray) terms = terms_new ();
  CroFraction per;
  gsize at, bytes;

  *price = (CroPriceEntry){ .unit = CRO_UNIT_EACH };
  at = scan_currency (text, 0, of->currency, price);
  bytes = scan (text + at, FALSE, NULL, terms, &price->money, reading);
  if (bytes == 0)
    {
      price->money.start += at;
      price->money.end += at;
      return 0;
    }
  at = scan_said (text, at + bytes, of->currency, price);
  at = scan_per (text, at, words, price, &per);
  if (!price->has_unit)
    at = scan_of_pack (text, at, of);
  at = scan_said (text, at, of->currency, price);
  if (!cro_expression_total (terms, value) || !cro_fraction_divide (value, per))
    return fail (&price->money, CRO_ENTRY_TOO_LARGE, 0, at);
  return at;
}

gsize
cro_entry_scan_price (const char          *text,
                      const char          *currency,
                      const CroEntryWords *words,
                      CroPriceEntry       *price)
{
  const CroPriceOf of = { .currency = currency };
  CroReading reading;
  CroFraction value;
  gsize bytes = scan_price (text, &of, words, price, &reading, &value);

  return bytes > 0 && round_to (&price->money, &reading, text, value) ? bytes : 0;
}

/* A currency or a tax that is not the field's. */
static gboolean
hold_to_said (const CroPriceEntry *price,
              const CroPriceOf    *of,
              gsize                bytes,
              CroEntry            *entry)
{
  if (price->is_other)
    return fail (entry, CRO_ENTRY_OTHER_CURRENCY, 0, bytes);
  if (price->tax == CRO_TAX_NOT_SAID || price->tax == of->tax)
    return TRUE;
  return fail (entry,
               of->tax == CRO_TAX_NOT_SAID  ? CRO_ENTRY_NOT_A_NUMBER
               : price->tax == CRO_TAX_WITH ? CRO_ENTRY_WITH_TAX
                                            : CRO_ENTRY_WITHOUT_TAX,
               0, bytes);
}

/* Money, and what may be said behind it that is no unit: scan_more returns its bytes; NULL: nothing. */
static gboolean
read_money (const char *text,
            const char *currency,
            CroTax      tax,
            CroRange    range,
            gsize     (*scan_more) (const char *text),
            CroEntry   *entry)
{
  const CroPriceOf of = { .currency = currency, .tax = tax };
  CroPriceEntry price;
  CroReading reading;
  CroFraction value;
  gsize bytes = scan_price (text, &of, NULL, &price, &reading, &value);

  *entry = price.money;
  if (bytes > 0 && scan_more != NULL)
    bytes += scan_more (text + bytes);
  if (bytes == 0 || !must_end (text, bytes, CRO_ENTRY_NOT_A_NUMBER, entry))
    return FALSE;
  if (price.has_unit)
    return fail (entry, CRO_ENTRY_NOT_A_NUMBER, 0, bytes);
  return hold_to_said (&price, &of, bytes, entry) && round_to (entry, &reading, text, value)
         && hold_to (entry, range, text);
}

gboolean
cro_entry_money (const char *text,
                 const char *currency,
                 CroTax      tax,
                 CroRange    range,
                 CroEntry   *entry)
{
  return asked_for (entry, CRO_ASKED_MONEY, range, read_money (text, currency, tax, range, NULL, entry));
}

gboolean
cro_entry_selling_price (const char *text,
                         const char *currency,
                         CroRange    range,
                         CroEntry   *entry)
{
  return asked_for (entry, CRO_ASKED_SELLING_PRICE, range,
                    read_money (text, currency, CRO_TAX_WITH, range, NULL, entry));
}

gboolean
cro_entry_wage (const char *text,
                const char *currency,
                CroRange    range,
                CroEntry   *entry)
{
  return asked_for (entry, CRO_ASKED_WAGE, range,
                    read_money (text, currency, CRO_TAX_NOT_SAID, range, cro_price_scan_hour, entry));
}

/* A price of one unit becomes that of a pack. */
static gboolean
times_pack (CroFraction   *value,
            CroUnit        unit,
            const CroPack *pack)
{
  return cro_fraction_multiply (value, cro_fraction_from_micro (pack->count))
         && cro_fraction_multiply (value, cro_fraction_from_micro (pack->size))
         && cro_fraction_multiply (value, cro_fraction_of_unit (pack->unit))
         && cro_fraction_divide (value, cro_fraction_of_unit (unit));
}

static gboolean
read_price (const char          *text,
            const CroPriceOf    *of,
            const CroEntryWords *words,
            CroEntry            *entry)
{
  CroPriceEntry price;
  CroReading reading;
  CroFraction value;
  gsize bytes = scan_price (text, of, words, &price, &reading, &value);

  *entry = price.money;
  entry->has_unit = price.has_unit;
  entry->unit = price.has_unit ? price.unit : of->pack.unit;
  if (bytes == 0)
    return FALSE;
  if (!must_end (text, bytes, CRO_ENTRY_NOT_A_UNIT, entry))
    {
      gsize begin = entry->start + cro_price_scan_per (text + entry->start), pack;
      gboolean is_whole;

      begin += cro_expression_space (text + begin);
      pack = cro_price_scan_pack (text + begin, &is_whole);
      return pack > 0 && text[begin + pack] == '\0'
                 ? fail (entry, CRO_ENTRY_SIZELESS_UNIT, begin, begin + pack)
                 : fail_unit (text, begin, words, entry);
    }
  if (!hold_to_said (&price, of, bytes, entry))
    return FALSE;
  if (cro_unit_get (entry->unit)->base != cro_unit_get (of->pack.unit)->base)
    return fail (entry, CRO_ENTRY_OTHER_UNIT, 0, bytes);
  if (price.has_unit && !times_pack (&value, price.unit, &of->pack))
    return fail (entry, CRO_ENTRY_TOO_LARGE, 0, bytes);
  return round_to (entry, &reading, text, value) && hold_to (entry, CRO_RANGE_AT_LEAST_0, text);
}

gboolean
cro_entry_price (const char          *text,
                 const CroPriceOf    *of,
                 const CroEntryWords *words,
                 CroEntry            *entry)
{
  gboolean is_read = read_price (text, of, words, entry);

  entry->wanted = of->pack.unit;
  return asked_for (entry, CRO_ASKED_PRICE, CRO_RANGE_AT_LEAST_0, is_read);
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
  g_autoptr (GArray) terms = terms_new ();
  CroReading reading;
  gsize loss = range == CRO_RANGE_YIELD_PCT ? scan_loss (text, words) : 0;
  gsize bytes = scan (text + loss, FALSE, NULL, terms, entry, &reading);
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
  if (!must_end (text, bytes, CRO_ENTRY_NOT_A_NUMBER, entry))
    return FALSE;
  for (guint i = 0; i < terms->len && loss > 0; i++)
    {
      CroTerm *term = &g_array_index (terms, CroTerm, i);

      term->value = cro_fraction_negate (term->value);
    }
  if (loss > 0)
    g_array_append_val (terms, whole);
  return total (text, terms, &reading, entry) && hold_to (entry, range, text);
}

gboolean
cro_entry_pct (const char          *text,
               CroRange             range,
               const CroEntryWords *words,
               CroEntry            *entry)
{
  return asked_for (entry, range == CRO_RANGE_YIELD_PCT ? CRO_ASKED_YIELD : CRO_ASKED_PCT, range,
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
    return fail (entry, CRO_ENTRY_EMPTY, 0, strlen (text));
  if (cro_date_parse (stripped, strlen (stripped), &entry->date)
      || cro_date_from_text (stripped, cro_here_today (), &entry->date))
    return TRUE;
  return fail (entry, CRO_ENTRY_NOT_A_DATE, 0, strlen (text));
}
