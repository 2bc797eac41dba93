#include <string.h>

#include "cro-decimal.h"
#include "cro-entry-private.h"
#include "cro-price-words.h"

void
cro_price_entry_clear (CroPriceEntry *price)
{
  cro_entry_clear (&price->money);
}

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

  if (bytes == 0 && at > 0)
    bytes = cro_currency_scan_word (text + at + space, currency, &is_it);
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
  gsize bytes = price->tax == CRO_TAX_NOT_SAID ? cro_price_scan_tax (text + at + space, &price->tax, NULL)
                                               : 0;

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
  g_autoptr (GArray) terms = cro_entry_terms_new ();
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
  if (!cro_fraction_to_micro (*per, &price->money.per))
    return at;
  price->has_unit = TRUE;
  price->has_stroke = stroke > 0;
  return end + bytes;
}

/* "31/500 g" reads as a fraction of a price, and is that of 500 g: *whole of *per, otherwise as they stand. */
static void
take_fraction (const char  *text,
               gsize        bytes,
               CroFraction *whole,
               gint64      *per)
{
  g_autofree char *money = g_strndup (text, bytes);
  const char *stroke = strrchr (money, '/');
  g_auto (CroEntry) below = { 0 };
  CroFraction of;

  if (stroke == NULL || !cro_entry_number (stroke + 1, CRO_RANGE_ABOVE_0, &below))
    return;
  of = *whole;
  if (!cro_fraction_multiply (&of, cro_fraction_from_micro (below.micro)))
    return;
  *whole = of;
  *per = below.micro;
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
  g_autoptr (GArray) terms = cro_entry_terms_new ();
  CroFraction per, whole;
  gsize at, bytes, begin;

  *price = (CroPriceEntry){ .unit = CRO_UNIT_EACH };
  at = scan_currency (text, 0, of->currency, price);
  begin = at;
  bytes = cro_entry_scan (text + at, FALSE, NULL, terms, &price->money, reading);
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
  if (!cro_expression_total (terms, value))
    return cro_entry_fail (&price->money, CRO_ENTRY_TOO_LARGE, 0, at);
  whole = *value;
  if (price->has_unit && !price->has_stroke)
    take_fraction (text + begin, bytes, &whole, &price->money.per);
  if (!cro_fraction_to_micro (whole, &price->whole)
      || !cro_fraction_divide (value, per))
    return cro_entry_fail (&price->money, CRO_ENTRY_TOO_LARGE, 0, at);
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

  return bytes > 0 && cro_entry_round_to (&price->money, &reading, text, value) ? bytes : 0;
}

/* A currency or a tax that is not the field's. */
static gboolean
hold_to_said (const CroPriceEntry *price,
              const CroPriceOf    *of,
              gsize                bytes,
              CroEntry            *entry)
{
  if (price->is_other)
    return cro_entry_fail (entry, CRO_ENTRY_OTHER_CURRENCY, 0, bytes);
  if (price->tax == CRO_TAX_NOT_SAID || price->tax == of->tax)
    return TRUE;
  return cro_entry_fail (entry,
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
  if (bytes == 0 || !cro_entry_must_end (text, bytes, CRO_ENTRY_NOT_A_NUMBER, entry))
    return FALSE;
  if (price.has_unit)
    return cro_entry_fail (entry, CRO_ENTRY_NOT_A_NUMBER, 0, bytes);
  return hold_to_said (&price, &of, bytes, entry) && cro_entry_round_to (entry, &reading, text, value)
         && cro_entry_hold_to (entry, range, text);
}

gboolean
cro_entry_money (const char *text,
                 const char *currency,
                 CroTax      tax,
                 CroRange    range,
                 CroEntry   *entry)
{
  return cro_entry_asked_for (entry, CRO_ASKED_MONEY, range, read_money (text, currency, tax, range, NULL, entry));
}

gboolean
cro_entry_selling_price (const char *text,
                         const char *currency,
                         CroRange    range,
                         CroEntry   *entry)
{
  return cro_entry_asked_for (entry, CRO_ASKED_SELLING_PRICE, range,
                              read_money (text, currency, CRO_TAX_WITH, range, NULL, entry));
}

gboolean
cro_entry_wage (const char *text,
                const char *currency,
                CroRange    range,
                CroEntry   *entry)
{
  return cro_entry_asked_for (entry, CRO_ASKED_WAGE, range,
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
  if (!cro_entry_must_end (text, bytes, CRO_ENTRY_NOT_A_UNIT, entry))
    {
      gsize begin = entry->start + cro_price_scan_per (text + entry->start), pack;
      gboolean is_whole;

      begin += cro_expression_space (text + begin);
      pack = cro_price_scan_pack (text + begin, &is_whole);
      return pack > 0 && text[begin + pack] == '\0'
                 ? cro_entry_fail (entry, CRO_ENTRY_SIZELESS_UNIT, begin, begin + pack)
                 : cro_entry_fail_unit (text, begin, words, entry);
    }
  if (!hold_to_said (&price, of, bytes, entry))
    return FALSE;
  if (cro_unit_get (entry->unit)->base != cro_unit_get (of->pack.unit)->base)
    return cro_entry_fail (entry, CRO_ENTRY_OTHER_UNIT, 0, bytes);
  if (price.has_unit && !times_pack (&value, price.unit, &of->pack))
    return cro_entry_fail (entry, CRO_ENTRY_TOO_LARGE, 0, bytes);
  return cro_entry_round_to (entry, &reading, text, value) && cro_entry_hold_to (entry, CRO_RANGE_AT_LEAST_0, text);
}

gboolean
cro_entry_price (const char          *text,
                 const CroPriceOf    *of,
                 const CroEntryWords *words,
                 CroEntry            *entry)
{
  gboolean is_read = read_price (text, of, words, entry);

  entry->wanted = of->pack.unit;
  return cro_entry_asked_for (entry, CRO_ASKED_PRICE, CRO_RANGE_AT_LEAST_0, is_read);
}
