#include "config.h"

#include "cro-words-price.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-isolate.h"
#include "cro-number.h"
#include "cro-rate-doubt.h"
#include "cro-words.h"

char *
cro_words_price_example (gboolean is_per_unit)
{
  g_autofree char *price = cro_number_to_text (9.20, 2, FALSE);

  /* Translators: an example of a price as it may be typed; %s is a number, 9.20. */
  return is_per_unit ? g_strdup_printf (_("%s/kg"), price) : g_steal_pointer (&price);
}

char *
cro_words_price_currency (const char *price,
                          const char *currency)
{
  /* Translators: the first %s is a price that was typed, “£71” say; the second the code of the
   * currency that is asked for. */
  return cro_isolate_printf (_("“%s” is in another currency. Type the price in %s."), price, currency);
}

char *
cro_words_price_tax (const char *price,
                     CroTax      said)
{
  /* Translators: %s is a price that was typed, “24 incl. VAT” say. */
  return said == CRO_TAX_WITH ? cro_isolate_printf (_("“%s” includes tax. Type the price without tax."), price)
                              /* Translators: %s is a price that was typed, “24 ex VAT” say. */
                              : cro_isolate_printf (_("“%s” is without tax. Type the price with tax."), price);
}

char *
cro_words_no_currency (const char *code)
{
  /* Translators: %s is what was typed where a code of three letters is asked for. */
  return cro_isolate_printf (_("“%s” is not a currency code. Use one such as EUR or GBP."), code);
}

char *
cro_words_price_reason (const char     *text,
                        const CroEntry *entry,
                        const char     *currency)
{
  g_autofree char *part = g_strndup (text + entry->start, entry->end - entry->start);
  g_autofree char *whole = g_strstrip (g_strdup (text));
  g_autofree char *example = NULL;
  g_auto (CroEntry) day = { 0 };

  switch (entry->status)
    {
    case CRO_ENTRY_OTHER_CURRENCY:
      if (currency == NULL)
        return cro_words_entry_reason (text, entry);
      return cro_words_price_currency (part, currency);
    case CRO_ENTRY_NOT_A_NUMBER:
    case CRO_ENTRY_NOT_A_UNIT:
      if (entry->asked == CRO_ASKED_MONEY || entry->asked == CRO_ASKED_WAGE || cro_entry_date (part, &day))
        return cro_words_entry_reason (text, entry);
      example = cro_words_price_example (entry->status == CRO_ENTRY_NOT_A_UNIT);
      /* Translators: a part of what was typed; an example of a price, 9.20/kg. */
      return cro_isolate_printf (_("“%s” is not a price such as %s."), whole, example);
    case CRO_ENTRY_OUT_OF_RANGE:
      if (entry->range == CRO_RANGE_AT_LEAST_0 && entry->asked != CRO_ASKED_MONEY && entry->asked != CRO_ASKED_WAGE)
        return g_strdup (_("A price cannot be below 0. Type 0 or more."));
      return cro_words_entry_reason (text, entry);
    default:
      return cro_words_entry_reason (text, entry);
    }
}

char *
cro_words_price_question (const char *currency,
                          gint64      price,
                          double      ratio)
{
  double slip = cro_doubt_slip (ratio);
  g_autofree char *text = NULL;
  gint64 meant;

  if (slip != 0 && cro_decimal_from_double (cro_decimal_to_double (price) / slip, &meant))
    {
      text = cro_words_price_in (currency, meant);
      /* Translators: of a price, or an exchange rate, that was entered; %s is one that was probably
       * meant. */
      return g_strdup_printf (_("is %s meant?"), text);
    }
  /* Translators: of a price, or an exchange rate, that is far from the one before. */
  return cro_doubt_is_jump (ratio) ? g_strdup (_("is this right?")) : NULL;
}

char *
cro_words_rate_question (gint64 rate,
                         gint64 per,
                         double before)
{
  double one = (double) rate / (double) per, meant = cro_rate_meant (one, before);
  g_autofree char *text = NULL;
  gint64 of_per;

  if (meant > 0 && cro_decimal_from_double (meant * cro_decimal_to_double (per), &of_per))
    {
      text = cro_words_decimal (of_per);
      return g_strdup_printf (_("is %s meant?"), text);
    }
  return cro_rate_is_asked (one, before) ? g_strdup (_("is this right?")) : NULL;
}

/* The day of a book as it stood, as it is written; NULL: it is today's. */
static char *
dup_past_day (CroBook *book)
{
  CroDate day;

  return cro_book_is_past (book, &day) ? cro_date_to_text (day) : NULL;
}

char *
cro_words_moved_prices (CroBook *book)
{
  g_autofree char *day = dup_past_day (book);

  if (day == NULL)
    return g_strdup (_("Net prices per base unit, in the book’s currency. Effect: what the change adds to the food "
                       "cost of all that was sold in the last 28 days of sales, at today’s recipes."));
  /* Translators: %s is the day of the book that is shown as it stood. */
  return g_strdup_printf (_("Net prices per base unit, in the book’s currency. Effect: what the change adds to the "
                            "food cost of all that was sold in the last 28 days of sales, at the recipes of %s."),
                          day);
}

char *
cro_words_moved_things (CroBook *book)
{
  g_autofree char *day = dup_past_day (book);

  if (day == NULL)
    return g_strdup (_("Food cost per guest, as made today, at the prices of both days."));
  /* Translators: %s is the day of the book that is shown as it stood. */
  return g_strdup_printf (_("Food cost per guest, as made on %s, at the prices of both days."), day);
}

char *
cro_words_moved_unseen (guint n)
{
  /* Translators: plates and menus whose cost changes by less than what is shown. */
  return g_strdup_printf (ngettext ("%u other changes by less than is shown", "%u others change by less than is shown",
                                    n), n);
}

const char *
cro_words_price_index (void)
{
  return _("100 on the first day. Each month’s link is what was bought in the year before it, at that month’s prices "
           "over those of its first day; links are multiplied (Lowe’s index, chained: Consumer Price Index Manual, "
           "ILO and others, 2004, chapter 15). “?”: some of what was bought has no price on those days, or its "
           "amount is not known, and is left out.");
}
