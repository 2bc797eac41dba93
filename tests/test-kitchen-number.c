/* Numbers as people type and read them, in three locales; minor units of currencies. */
#include "cro-number.h"
#include "support/locales.h"

#include <stdlib.h>

typedef enum
{
  IN_C,
  IN_FRENCH,
  IN_GERMAN,
  N_LOCALES,
} Locale;

static const char *const locales[N_LOCALES] = { "C", "fr_FR.UTF-8", "de_DE.UTF-8" };

#define NARROW "\xe2\x80\xaf"   /* narrow no-break space */
#define FIXED "\xc2\xa0"        /* no-break space */
#define MINUS "\xe2\x88\x92"
#define NONE G_MININT64

static gboolean
enter (Locale in)
{
  return cro_test_enter_locale (locales[in]);
}

/* --- Reading ------------------------------------------------------------------------------------ */

/* What locales write is from the Unicode CLDR; that both signs are read, and when, is ours. */
static void
test_read (void **state)
{
  static const struct { const char *says, *text; gint64 micro[N_LOCALES]; } cases[] = {
    { "a whole number", "12", { 12000000, 12000000, 12000000 } },
    { "the point of the numeric pad", "1234.5", { 1234500000, 1234500000, 1234500000 } },
    { "the comma", "1234,5", { 1234500000, 1234500000, 1234500000 } },
    { "a point before three digits groups where the locale groups with points", "1.234",
      { 1234000, 1234000, 1234000000 } },
    { "a comma before three digits may be a grouping in the first", "1,234",
      { NONE, 1234000, 1234000 } },
    { "what begins with 0 is no grouping", "0.125", { 125000, 125000, 125000 } },
    { "with a comma either", "0,125", { 125000, 125000, 125000 } },
    { "below 0 too", "-0.125", { -125000, -125000, -125000 } },
    { "four digits before the sign are no grouping", "1234.567",
      { 1234567000, 1234567000, 1234567000 } },
    { "with a comma either", "1234,567", { 1234567000, 1234567000, 1234567000 } },
    { "six decimals", "1.234567", { 1234567, 1234567, 1234567 } },
    { "no digit before the sign", ".5", { 500000, 500000, 500000 } },
    { "none before a comma", ",5", { 500000, 500000, 500000 } },
    { "none behind it", "5.", { 5000000, 5000000, 5000000 } },
    { "none at all", ".", { NONE, NONE, NONE } },
    { "a minus alone", "-", { NONE, NONE, NONE } },
    { "spaces around it", "  7 ", { 7000000, 7000000, 7000000 } },
    { "groups as French writes them", "1" NARROW "234,5", { NONE, 1234500000, 1234500000 } },
    { "groups with a fixed space", "1" FIXED "234,5", { NONE, 1234500000, 1234500000 } },
    { "groups with a plain space", "1 234,5", { NONE, 1234500000, 1234500000 } },
    { "groups as German writes them", "1.234,5", { NONE, 1234500000, 1234500000 } },
    { "groups as English writes them are no number elsewhere", "1,234.5", { NONE, NONE, NONE } },
    { "two groups", "1.234.567", { NONE, 1234567000000, 1234567000000 } },
    { "two signs that group nothing", "1.2.3", { NONE, NONE, NONE } },
    { "an exponent as the locale writes it", "1E3", { 1000000000, 1000000000, 1000000000 } },
    { "a small one", "1e3", { 1000000000, 1000000000, 1000000000 } },
    { "below 0", "12E-1", { 1200000, 1200000, 1200000 } },
    { "behind decimals", "1.25E3", { 1250000000, NONE, NONE } },
    { "behind decimals after a comma", "1,25E3", { NONE, 1250000000, 1250000000 } },
    { "too large by its exponent", "1E30", { NONE, NONE, NONE } },
    { "a minus of the keyboard", "-3", { -3000000, -3000000, -3000000 } },
    { "a minus of the typesetter", MINUS "3", { -3000000, -3000000, -3000000 } },
    { "before decimals too", MINUS "0.5", { -500000, -500000, -500000 } },
    { "digits of another script", "\xd9\xa3", { 3000000, 3000000, 3000000 } },
    { "seven decimals are too many", "1.2345678", { NONE, NONE, NONE } },
    { "smaller than can be kept", "0.0000001", { NONE, NONE, NONE } },
    { "the largest", "9223372036854.775807", { G_MAXINT64, G_MAXINT64, G_MAXINT64 } },
    { "larger", "9223372036854.775808", { NONE, NONE, NONE } },
    { "nothing", "", { NONE, NONE, NONE } },
    { "a word", "abc", { NONE, NONE, NONE } },
    { "a unit behind it", "12 kg", { NONE, NONE, NONE } },
    { "a letter behind decimals", "1.2a", { NONE, NONE, NONE } },
    { "two numbers", "12.3 4", { NONE, NONE, NONE } },
    { "infinity", "\xe2\x88\x9e", { NONE, NONE, NONE } },
    { "no UTF-8", "1\xff", { NONE, NONE, NONE } },
  };

  for (int in = 0; in < N_LOCALES; in++)
    for (gsize i = 0; enter ((Locale) in) && i < G_N_ELEMENTS (cases); i++)
      {
        gint64 micro = NONE;
        gboolean read = cro_number_parse (cases[i].text, &micro);

        if (read != (cases[i].micro[in] != NONE) || (read && micro != cases[i].micro[in]))
          fail_msg ("%s in %s: \"%s\" gives %" G_GINT64_FORMAT, cases[i].says, locales[in],
                    cases[i].text, read ? micro : NONE);
      }
}

/* --- Writing -------------------------------------------------------------------------------------- */

static void
must_be (const char *says,
         int         in,
         char       *text,
         const char *expected)
{
  if (strcmp (text, expected) != 0)
    fail_msg ("%s in %s: \"%s\" and not \"%s\"", says, locales[in], text, expected);
  g_free (text);
}

static void
test_write_money (void **state)
{
  static const struct { const char *says; gint64 minor; int digits; const char *text[N_LOCALES]; }
  cases[] = {
    { "cents", 123450, 2, { "1234.50", "1" NARROW "234,50", "1.234,50" } },
    { "nothing", 0, 2, { "0.00", "0,00", "0,00" } },
    { "less than one", 5, 2, { "0.05", "0,05", "0,05" } },
    { "below 0", -5, 2, { "−0.05", "−0,05", "−0,05" } },
    { "no minor unit", 1234, 0, { "1234", "1" NARROW "234", "1.234" } },
    { "three digits", 1234567, 3, { "1234.567", "1" NARROW "234,567", "1.234,567" } },
    { "every digit of the largest", G_MAXINT64, 2,
      { "92233720368547758.07", "92" NARROW "233" NARROW "720" NARROW "368" NARROW "547" NARROW
        "758,07", "92.233.720.368.547.758,07" } },
    { "and of the smallest", G_MININT64, 2,
      { "−92233720368547758.08", "−92" NARROW "233" NARROW "720" NARROW "368" NARROW "547" NARROW
        "758,08", "−92.233.720.368.547.758,08" } },
  };

  for (int in = 0; in < N_LOCALES; in++)
    for (gsize i = 0; enter ((Locale) in) && i < G_N_ELEMENTS (cases); i++)
      must_be (cases[i].says, in, cro_money_to_text (cases[i].minor, cases[i].digits),
               cases[i].text[in]);
}

/* Half away from zero: the values lie in the middle exactly, in binary too. */
static void
test_write_number (void **state)
{
  static const struct { const char *says; double value; int digits; gboolean trim;
                        const char *text[N_LOCALES]; } cases[] = {
    { "a half rounds away from 0", 0.125, 2, FALSE, { "0.13", "0,13", "0,13" } },
    { "below 0 too", -0.125, 2, FALSE, { "−0.13", "−0,13", "−0,13" } },
    { "and not to the even digit", 2.5, 0, FALSE, { "3", "3", "3" } },
    { "nor below 0", -2.5, 0, FALSE, { "−3", "−3", "−3" } },
    { "less than a half does not", 0.1249, 2, FALSE, { "0.12", "0,12", "0,12" } },
    { "zeros stay", 2.5, 2, FALSE, { "2.50", "2,50", "2,50" } },
    { "or go", 2.5, 3, TRUE, { "2.5", "2,5", "2,5" } },
    { "all of them", 2, 3, TRUE, { "2", "2", "2" } },
    { "what rounds to 0 has no minus", -0.001, 2, FALSE, { "0.00", "0,00", "0,00" } },
    { "thousands", 1234567.125, 2, FALSE,
      { "1234567.13", "1" NARROW "234" NARROW "567,13", "1.234.567,13" } },
    { "beyond what money can be, whole", 1e15, 2, FALSE,
      { "1000000000000000", "1" NARROW "000" NARROW "000" NARROW "000" NARROW "000" NARROW "000",
        "1.000.000.000.000.000" } },
  };

  for (int in = 0; in < N_LOCALES; in++)
    for (gsize i = 0; enter ((Locale) in) && i < G_N_ELEMENTS (cases); i++)
      must_be (cases[i].says, in,
               cro_number_to_text (cases[i].value, cases[i].digits, cases[i].trim),
               cases[i].text[in]);
}

static void
test_write_others (void **state)
{
  static const char *const pct[] = { "29.5" FIXED "%", "29,5" FIXED "%", "29,5" FIXED "%" };
  static const char *const day[] = { "2026-02-16", "16 févr. 2026", "16.02.2026" };
  static const char *const first[] = { "2026-02-01", "1er févr. 2026", "01.02.2026" };

  for (int in = 0; in < N_LOCALES; in++)
    if (enter ((Locale) in))
      {
        char *currency = cro_locale_dup_currency ();

        must_be ("a percentage has a space before its sign", in, cro_pct_to_text (29.5, 1), pct[in]);
        must_be ("a day", in, cro_date_to_text (20500), day[in]);
        for (CroDate of_year = 20500; of_year < 20500 + 366; of_year++)
          {
            g_autofree char *text = cro_date_to_text (of_year);

            if (g_utf8_strlen (text, -1) >= cro_date_chars ())
              fail_msg ("%s is wider than a field of %d characters", text, cro_date_chars ());
          }
        must_be ("the first of a month", in, cro_date_to_text (20485), first[in]);
        must_be ("a year has four digits", in, cro_date_in_words (-719162, "MMMM y"), "January 0001");
        must_be ("names are of the sentences' language", in, cro_date_in_words (20500, "EEEE d MMMM y"),
                 "Monday 16 February 2026");
        if (g_strcmp0 (currency, in == IN_C ? NULL : "EUR") != 0)
          fail_msg ("the currency of %s: %s", locales[in], currency);
        g_free (currency);
      }
}

/* What is written is read back. */
static void
test_there_and_back (void **state)
{
  static const gint64 micros[] = { 0, 1, -1, 500000, 1234567, 1234000000, 999999999999, -12345600 };

  for (int in = 0; in < N_LOCALES; in++)
    for (gsize i = 0; enter ((Locale) in) && i < G_N_ELEMENTS (micros); i++)
      {
        g_autofree char *text = cro_money_to_text (micros[i], 6);
        gint64 micro;

        if (!cro_number_parse (text, &micro) || micro != micros[i])
          fail_msg ("\"%s\" in %s is read as it was written", text, locales[in]);
      }
}

/* --- Currencies ------------------------------------------------------------------------------------ */

static void
test_no_currency (void **state)
{
  static const char *const none[] = { NULL, "", "EU", "EURO", "éu" };

  for (gsize i = 0; i < G_N_ELEMENTS (none); i++)
    if (cro_currency_digits (none[i]) != 2)
      fail_msg ("what is no currency has two digits: %s", none[i]);
  if (cro_currency_digits ("JPY") != 0 || cro_currency_digits ("TND") != 3
      || cro_currency_digits ("IQD") != 3 || cro_currency_digits ("CHF") != 2)
    fail_msg ("ISO 4217: yen none, dinars three, francs two");
  if (cro_currency_minor ("JPY") != 1000000 || cro_currency_minor ("TND") != 1000
      || cro_currency_minor ("EUR") != 10000 || cro_currency_minor (NULL) != 10000)
    fail_msg ("a yen, a thousandth, a cent, and a cent of what is no currency");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_read),         cmocka_unit_test (test_write_money),
    cmocka_unit_test (test_write_number), cmocka_unit_test (test_write_others),
    cmocka_unit_test (test_there_and_back), cmocka_unit_test (test_no_currency),
  };

  return cmocka_run_group_tests (tests, cro_test_find_locales, cro_test_leave_locales);
}
