/* What fields accept: sums, fractions, units, losses and dates, in four locales. */
#include "cro-decimal.h"
#include "cro-entry-time.h"
#include "cro-entry.h"
#include "cro-fraction.h"
#include "cro-number.h"
#include "support/locales.h"

enum { IN_C, IN_ENGLISH, IN_FRENCH, IN_GERMAN, N_LOCALES };

static const char *const locales[] = { "C", "en_US.UTF-8", "fr_FR.UTF-8", "de_DE.UTF-8" };

static const CroUnitWord units[] = { { "cs", CRO_UNIT_TBSP }, { "pièces", CRO_UNIT_EACH }, { NULL } };
static const char *const losses[] = { "loss", "perte", NULL };
static const CroEntryWords words = { .units = units, .loss = losses };

#define M(value) ((gint64) ((value) * 1e6 + ((value) < 0 ? -0.5 : 0.5)))

static void
expect_entry (const char     *says,
              const char     *text,
              const CroEntry *entry,
              CroEntryStatus  status,
              gint64          micro)
{
  if (entry->status != status)
    fail_msg ("%s: \"%s\" has status %d and not %d (in %s)", says, text, entry->status, status,
              setlocale (LC_ALL, NULL));
  if (status == CRO_ENTRY_OK && entry->micro != micro)
    fail_msg ("%s: \"%s\" is %" G_GINT64_FORMAT " and not %" G_GINT64_FORMAT " (in %s)", says, text,
              entry->micro, micro, setlocale (LC_ALL, NULL));
}

/* --- Numbers ---------------------------------------------------------------------------------- */

static void
test_numbers (void **state)
{
  static const struct { const char *says, *text; CroEntryStatus status; gint64 micro; } cases[] = {
    { "a number is itself", "12", CRO_ENTRY_OK, 12000000 },
    { "space around it does not matter", "  12 ", CRO_ENTRY_OK, 12000000 },
    { "a point decides decimals where nothing else can", "2.5", CRO_ENTRY_OK, 2500000 },
    { "and so does a comma", "2,5", CRO_ENTRY_OK, 2500000 },
    { "a decimal sign may stand last while it is typed", "2.", CRO_ENTRY_OK, 2000000 },
    { "and first", ".5", CRO_ENTRY_OK, 500000 },
    { "a product", "2*1.2", CRO_ENTRY_OK, 2400000 },
    { "a product as packs are written", "6 x 1,5", CRO_ENTRY_OK, 9000000 },
    { "and with its own sign", "6 × 1,5", CRO_ENTRY_OK, 9000000 },
    { "a fraction is rounded once", "1/3", CRO_ENTRY_OK, 333333 },
    { "so that three thirds are one", "1/3*3", CRO_ENTRY_OK, 1000000 },
    { "a mixed number", "1 1/2", CRO_ENTRY_OK, 1500000 },
    { "a mixed number in one character", "1½", CRO_ENTRY_OK, 1500000 },
    { "a half is a number", "½", CRO_ENTRY_OK, 500000 },
    { "a sum", "12,50 + 3", CRO_ENTRY_OK, 15500000 },
    { "products before sums", "1+2*3", CRO_ENTRY_OK, 7000000 },
    { "and parentheses before both", "(1+2)*3", CRO_ENTRY_OK, 9000000 },
    { "a difference from left to right", "10-3-2", CRO_ENTRY_OK, 5000000 },
    { "a quotient too", "12/2/3", CRO_ENTRY_OK, 2000000 },
    { "below 0", "-3", CRO_ENTRY_OK, -3000000 },
    { "half a millionth goes away from 0", "0.0000005", CRO_ENTRY_OK, 1 },
    { "also below it", "-0.0000005", CRO_ENTRY_OK, -1 },
    { "less than that is no number that can be kept", "0.0000004", CRO_ENTRY_TOO_SMALL, 0 },
    { "seven places are rounded", "1.2345678", CRO_ENTRY_OK, 1234568 },
    { "the largest that is entered", "999999999999.999999", CRO_ENTRY_OK, CRO_ENTERED_BELOW - 1 },
    { "one millionth more", "1000000000000", CRO_ENTRY_TOO_LARGE, 0 },
    { "as much below 0", "-999999999999.999999 - 0.000001", CRO_ENTRY_TOO_LARGE, 0 },
    { "a product that is too large", "9000000000*9000000000", CRO_ENTRY_TOO_LARGE, 0 },
    { "which may come back", "9000000000*9000000000/9000000000", CRO_ENTRY_OK,
      G_GINT64_CONSTANT (9000000000000000) },
    { "division by 0", "1/0", CRO_ENTRY_BY_ZERO, 0 },
    { "nothing", "", CRO_ENTRY_EMPTY, 0 },
    { "space is nothing", " \302\240", CRO_ENTRY_EMPTY, 0 },
    { "a word", "butter", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "a sign without what it is for", "2*", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "a parenthesis left open", "(2", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "one that holds nothing", "()", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "one that closes nothing", "2)", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "two numbers", "2 3", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "a unit is no part of a number", "2 kg", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "a day is no subtraction", "2026-10-30", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "nor a division", " 30/10/2026", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "the same numbers as a sum", "2026 - 10 - 30", CRO_ENTRY_OK, M (1986) },
    { "numbers that are no day", "2026-40-30", CRO_ENTRY_OK, M (1956) },
    { "two signs that differ", "2026-10/30", CRO_ENTRY_OK, 2025666667 },
  };

  for (int l = 0; l < N_LOCALES; l++)
    for (gsize i = 0; cro_test_enter_locale (locales[l]) && i < G_N_ELEMENTS (cases); i++)
      {
        g_auto (CroEntry) entry = { 0 };

        cro_entry_number (cases[i].text, CRO_RANGE_ANY, &entry);
        expect_entry (cases[i].says, cases[i].text, &entry, cases[i].status, cases[i].micro);
      }
}

static void
test_deep_parentheses (void **state)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (CroEntry) entry = { 0 };

  setlocale (LC_ALL, "C");
  for (int i = 0; i < 1000000; i++)
    g_string_append_c (text, '(');
  g_string_append_c (text, '1');
  assert_false (cro_entry_number (text->str, CRO_RANGE_ANY, &entry));
  assert_int_equal (entry.status, CRO_ENTRY_TOO_LARGE);
}

/* How each locale groups is from the Unicode CLDR. */
static void
test_ambiguous_signs (void **state)
{
  static const struct { const char *says, *text; gint64 micro[N_LOCALES]; gboolean is_said; }
  cases[] = {
    { "a point before three digits", "1.234", { 1234000, 1234000, 1234000, 1234000000 }, TRUE },
    { "a comma before three digits", "1,234", { 1234000, 1234000000, 1234000, 1234000 }, TRUE },
    { "a 0 before the sign cannot be grouped", "0,125", { 125000, 125000, 125000, 125000 }, FALSE },
    { "nor four digits", "1234.567", { 1234567000, 1234567000, 1234567000, 1234567000 }, FALSE },
    { "two digits behind it are no group", "1.23", { 1230000, 1230000, 1230000, 1230000 }, FALSE },
  };

  for (int l = 0; l < N_LOCALES; l++)
    for (gsize i = 0; cro_test_enter_locale (locales[l]) && i < G_N_ELEMENTS (cases); i++)
      {
        g_auto (CroEntry) entry = { 0 };

        cro_entry_number (cases[i].text, CRO_RANGE_ANY, &entry);
        expect_entry (cases[i].says, cases[i].text, &entry, CRO_ENTRY_OK, cases[i].micro[l]);
        if ((entry.understood != NULL) != cases[i].is_said)
          fail_msg ("%s: what was understood is said if and only if it is open", cases[i].says);
      }
}

static void
test_ranges (void **state)
{
  static const struct { const char *says; CroRange range; const char *text; gboolean is_in; } cases[] = {
    { "an amount may be 0", CRO_RANGE_AT_LEAST_0, "0", TRUE },
    { "but not less", CRO_RANGE_AT_LEAST_0, "-1", FALSE },
    { "a pack holds something", CRO_RANGE_ABOVE_0, "0", FALSE },
    { "a millionth is something", CRO_RANGE_ABOVE_0, "0.000001", TRUE },
    { "a yield may be above 100 %", CRO_RANGE_YIELD_PCT, "250 %", TRUE },
    { "up to ten times", CRO_RANGE_YIELD_PCT, "1000", TRUE },
    { "but not above", CRO_RANGE_YIELD_PCT, "1000.000001", FALSE },
    { "nor 0", CRO_RANGE_YIELD_PCT, "0", FALSE },
    { "a target is at most all", CRO_RANGE_PART_PCT, "100", TRUE },
    { "and not more", CRO_RANGE_PART_PCT, "101", FALSE },
    { "what comes back may be nothing", CRO_RANGE_RECOVERED_PCT, "0", TRUE },
    { "but not all", CRO_RANGE_RECOVERED_PCT, "100", FALSE },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroEntry) entry = { 0 };

      cro_entry_pct (cases[i].text, cases[i].range, NULL, &entry);
      if ((entry.status == CRO_ENTRY_OK) != cases[i].is_in
          || (!cases[i].is_in && entry.status != CRO_ENTRY_OUT_OF_RANGE))
        fail_msg ("%s: \"%s\" (%d)", cases[i].says, cases[i].text, entry.status);
    }
}

/* --- Units ------------------------------------------------------------------------------------------ */

static void
test_amounts (void **state)
{
  static const struct { const char *says, *text; CroUnit field; CroEntryStatus status;
                        gint64 micro; } cases[] = {
    { "a bare number is in the field's unit", "600", CRO_UNIT_G, CRO_ENTRY_OK, M (600) },
    { "a larger unit is converted", "0.6 kg", CRO_UNIT_G, CRO_ENTRY_OK, M (600) },
    { "a smaller one too", "600g", CRO_UNIT_KG, CRO_ENTRY_OK, M (0.6) },
    { "a third of a kilo is rounded once", "1/3 kg", CRO_UNIT_G, CRO_ENTRY_OK, 333333333 },
    { "a unit at the end is that of the whole sum", "2 + 3 kg", CRO_UNIT_G, CRO_ENTRY_OK, M (5000) },
    { "or every summand has its own", "1 kg + 200 g", CRO_UNIT_G, CRO_ENTRY_OK, M (1200) },
    /* NIST Handbook 44 App. C: the avoirdupois pound is 453.59237 g, the ounce a sixteenth. */
    { "two pounds three ounces", "2 lb + 3 oz", CRO_UNIT_G, CRO_ENTRY_OK, 992233309 },
    { "without the sign", "2 lb 3 oz", CRO_UNIT_G, CRO_ENTRY_OK, 992233309 },
    { "and with less space", "2lb 3oz", CRO_UNIT_G, CRO_ENTRY_OK, 992233309 },
    { "less that", "2 kg - 1 lb 4 oz", CRO_UNIT_G, CRO_ENTRY_OK, 1433009538 },
    { "three parts", "1 l 2 dl 5 ml", CRO_UNIT_ML, CRO_ENTRY_OK, 1205000000 },
    { "more than one of the first is no part", "1 lb 20 oz", CRO_UNIT_G, CRO_ENTRY_NOT_A_UNIT, 0 },
    { "nor is a larger unit", "3 oz 1 lb", CRO_UNIT_G, CRO_ENTRY_NOT_A_UNIT, 0 },
    { "nor another base", "1 lb 20 ml", CRO_UNIT_G, CRO_ENTRY_NOT_A_UNIT, 0 },
    { "twice one part, or both?", "2 x 1 lb 4 oz", CRO_UNIT_G, CRO_ENTRY_NOT_A_UNIT, 0 },
    /* NIST SP 811 App. B.8: the gallon is 231 cubic inches, 3.785411784 l. */
    { "a US gallon", "1 us-gal", CRO_UNIT_ML, CRO_ENTRY_OK, 3785411784 },
    { "not all summands with a unit", "1 kg + 2 + 3 g", CRO_UNIT_G, CRO_ENTRY_MIXED_UNITS, 0 },
    { "a weight and a volume", "1 kg + 2 l", CRO_UNIT_G, CRO_ENTRY_MIXED_UNITS, 0 },
    { "a volume into a weight", "2 tbsp", CRO_UNIT_G, CRO_ENTRY_OTHER_UNIT, 0 },
    { "a unit of no kind", "2 kgg", CRO_UNIT_G, CRO_ENTRY_NOT_A_UNIT, 0 },
    { "the case of a unit does not matter", "2 KG", CRO_UNIT_KG, CRO_ENTRY_OK, M (2) },
    { "a point behind a short unit", "2 tbsp.", CRO_UNIT_ML, CRO_ENTRY_OK, M (30) },
    { "a word of the user's language", "2 cs", CRO_UNIT_ML, CRO_ENTRY_OK, M (30) },
    { "with accents", "3 PIÈCES", CRO_UNIT_EACH, CRO_ENTRY_OK, M (3) },
    { "a product of packs", "6 x 1 kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (6) },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroEntry) entry = { 0 };

      cro_entry_amount (cases[i].text, cases[i].field, CRO_RANGE_AT_LEAST_0, &words, &entry);
      expect_entry (cases[i].says, cases[i].text, &entry, cases[i].status, cases[i].micro);
    }
}

static void
test_other_unit (void **state)
{
  g_auto (CroEntry) entry = { 0 };

  assert_false (cro_entry_amount ("2 tbsp", CRO_UNIT_G, CRO_RANGE_ABOVE_0, NULL, &entry));
  assert_int_equal (entry.unit, CRO_UNIT_TBSP);
  assert_int_equal (entry.micro, M (2));
  assert_true (cro_entry_measured ("0.6 kg", CRO_UNIT_G, CRO_RANGE_ABOVE_0, NULL, &entry));
  assert_int_equal (entry.unit, CRO_UNIT_KG);
  assert_int_equal (entry.micro, M (0.6));
}

static void
test_prices (void **state)
{
  static const struct { const char *says, *text; CroUnit field; CroEntryStatus status;
                        gint64 micro; } cases[] = {
    { "a bare price is for the field's unit", "9.20", CRO_UNIT_KG, CRO_ENTRY_OK, M (9.20) },
    { "a price for a kilo", "9.20/kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (9.20) },
    { "in a field for a gram", "9.20 / kg", CRO_UNIT_G, CRO_ENTRY_OK, 9200 },
    { "for 5 kilos", "12.60/5 kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (2.52) },
    { "for one piece", "0.34 each", CRO_UNIT_EACH, CRO_ENTRY_OK, M (0.34) },
    { "for a dozen", "4.08/dozen", CRO_UNIT_EACH, CRO_ENTRY_OK, M (0.34) },
    /* 5 for a pound, exactly: 5 / 0.45359237. */
    { "for a pound", "5/lb", CRO_UNIT_KG, CRO_ENTRY_OK, 11023113 },
    { "for a litre, of what is weighed", "9.20/l", CRO_UNIT_KG, CRO_ENTRY_OTHER_UNIT, 0 },
    { "for nothing that is known", "9.20/box", CRO_UNIT_KG, CRO_ENTRY_SIZELESS_UNIT, 0 },
    { "for a cup", "9.20/cup", CRO_UNIT_L, CRO_ENTRY_WHICH_UNIT, 0 },
    { "for what is no word of a unit", "9.20/kgg", CRO_UNIT_KG, CRO_ENTRY_NOT_A_UNIT, 0 },
    { "below 0", "-1", CRO_UNIT_KG, CRO_ENTRY_OUT_OF_RANGE, 0 },
    { "with the code behind it", "171 GBP", CRO_UNIT_KG, CRO_ENTRY_OK, M (171) },
    { "in small letters", "171 gbp", CRO_UNIT_KG, CRO_ENTRY_OK, M (171) },
    { "before it", "GBP 171", CRO_UNIT_KG, CRO_ENTRY_OK, M (171) },
    { "with the sign", "£11.20", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "and a unit", "£11.20/kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "the sign behind, and a comma", "11,20 £/kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "for four kilos", "£69.50/4 kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (17.375) },
    { "the sign before the stroke", "69.50 £/4 kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (17.375) },
    { "in words", "11.20 per kilo", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "in French", "11,20 le kilo", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "with the article", "11,20 a kilo", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "with a French one", "0,34 l’unité", CRO_UNIT_EACH, CRO_ENTRY_OK, M (0.34) },
    { "without tax before the unit", "11,20 £ HT/kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "behind it", "11.20 per kg ex. VAT", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "with tax", "11.20/kg TTC", CRO_UNIT_KG, CRO_ENTRY_WITH_TAX, 0 },
    { "of a pack, of which the field is not", "71 per pack", CRO_UNIT_KG, CRO_ENTRY_SIZELESS_UNIT, 0 },
    { "in French", "71 le colis", CRO_UNIT_KG, CRO_ENTRY_SIZELESS_UNIT, 0 },
    { "of a piece", "0.34 pc", CRO_UNIT_EACH, CRO_ENTRY_OK, M (0.34) },
    { "another currency", "11.20 €/kg", CRO_UNIT_KG, CRO_ENTRY_OTHER_CURRENCY, 0 },
    { "by its code", "171 USD", CRO_UNIT_KG, CRO_ENTRY_OTHER_CURRENCY, 0 },
    { "a sign of many", "$171", CRO_UNIT_KG, CRO_ENTRY_OTHER_CURRENCY, 0 },
    { "in words", "11.20 pounds a kilo", CRO_UNIT_KG, CRO_ENTRY_OK, M (11.2) },
    { "of one", "1 Pound/kg", CRO_UNIT_KG, CRO_ENTRY_OK, M (1) },
    { "a pound that is a weight", "5 pounds", CRO_UNIT_KG, CRO_ENTRY_OK, 11023113 },
    { "words of another", "11,20 euros le kilo", CRO_UNIT_KG, CRO_ENTRY_OTHER_CURRENCY, 0 },
    { "a word that goes on", "11,20 eurosac", CRO_UNIT_KG, CRO_ENTRY_NOT_A_UNIT, 0 },
    { "letters that are no code", "171 ABC", CRO_UNIT_KG, CRO_ENTRY_NOT_A_UNIT, 0 },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroEntry) entry = { 0 };

      const CroPriceOf of = { "GBP", CRO_TAX_WITHOUT, FALSE, { M (1), M (1), cases[i].field } };

      cro_entry_price (cases[i].text, &of, &words, &entry);
      expect_entry (cases[i].says, cases[i].text, &entry, cases[i].status, cases[i].micro);
    }
}

/* What a supplier says per kilo is reckoned for the pack, to the last digit. */
static void
test_prices_of_packs (void **state)
{
  static const struct { const char *says, *text; CroPack pack; CroEntryStatus status;
                        gint64 micro; } cases[] = {
    { "alone it is that of the pack", "56", { M (1), M (5), CRO_UNIT_KG }, CRO_ENTRY_OK, M (56) },
    { "per kilo", "11.20/kg", { M (1), M (5), CRO_UNIT_KG }, CRO_ENTRY_OK, M (56) },
    { "in a pack in grams", "11.20/kg", { M (20), M (250), CRO_UNIT_G }, CRO_ENTRY_OK, M (56) },
    { "for four of five", "€69.50/4 kg", { M (1), M (5), CRO_UNIT_KG }, CRO_ENTRY_OK, M (86.875) },
    { "a third", "10/3 kg", { M (1), M (3), CRO_UNIT_KG }, CRO_ENTRY_OK, M (10) },
    { "per piece of a tray", "0.34 each", { M (1), M (30), CRO_UNIT_EACH }, CRO_ENTRY_OK, M (10.2) },
    { "of the pack, said so", "71 per case", { M (6), M (5), CRO_UNIT_KG }, CRO_ENTRY_OK, M (71) },
    { "in French, without tax", "71 € HT le colis", { M (6), M (5), CRO_UNIT_KG }, CRO_ENTRY_OK, M (71) },
    { "in words", "71 euros HT le colis", { M (6), M (5), CRO_UNIT_KG }, CRO_ENTRY_OK, M (71) },
    { "dollars", "71 dollars", { M (6), M (5), CRO_UNIT_KG }, CRO_ENTRY_OTHER_CURRENCY, 0 },
    { "of the one tin in it", "4/tin", { M (1), M (800), CRO_UNIT_G }, CRO_ENTRY_OK, M (4) },
    { "of which of six tins", "4/tin", { M (6), M (800), CRO_UNIT_G }, CRO_ENTRY_SIZELESS_UNIT, 0 },
    { "per piece of a sack", "0.34 each", { M (1), M (5), CRO_UNIT_KG }, CRO_ENTRY_OTHER_UNIT, 0 },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const CroPriceOf of = { "EUR", CRO_TAX_WITHOUT, TRUE, cases[i].pack };
      g_auto (CroEntry) entry = { 0 };

      cro_entry_price (cases[i].text, &of, &words, &entry);
      expect_entry (cases[i].says, cases[i].text, &entry, cases[i].status, cases[i].micro);
    }
}

static void
test_money (void **state)
{
  static const struct { const char *says, *text; CroTax tax; CroEntryStatus status; gint64 micro; } cases[] = {
    { "a number", "48", CRO_TAX_NOT_SAID, CRO_ENTRY_OK, M (48) },
    { "with its sign", "48 €", CRO_TAX_WITH, CRO_ENTRY_OK, M (48) },
    { "before it", "€48", CRO_TAX_WITHOUT, CRO_ENTRY_OK, M (48) },
    { "its code", "EUR 48,50", CRO_TAX_NOT_SAID, CRO_ENTRY_OK, M (48.5) },
    { "its word", "48 euros", CRO_TAX_NOT_SAID, CRO_ENTRY_OK, M (48) },
    { "another", "£48", CRO_TAX_NOT_SAID, CRO_ENTRY_OTHER_CURRENCY, 0 },
    { "of nothing that is weighed", "48/kg", CRO_TAX_NOT_SAID, CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "nothing", " ", CRO_TAX_NOT_SAID, CRO_ENTRY_EMPTY, 0 },
    { "a sign alone", "€", CRO_TAX_NOT_SAID, CRO_ENTRY_EMPTY, 0 },
    { "with tax, said so", "34,00 € TTC", CRO_TAX_WITH, CRO_ENTRY_OK, M (34) },
    { "in English", "34 incl. VAT", CRO_TAX_WITH, CRO_ENTRY_OK, M (34) },
    { "the other way round", "34 VAT inc.", CRO_TAX_WITH, CRO_ENTRY_OK, M (34) },
    { "without", "24€ HT", CRO_TAX_WITHOUT, CRO_ENTRY_OK, M (24) },
    { "the code behind it", "24 H.T. EUR", CRO_TAX_WITHOUT, CRO_ENTRY_OK, M (24) },
    { "a sum with tax on top", "12 + 12 + VAT", CRO_TAX_WITHOUT, CRO_ENTRY_OK, M (24) },
    { "in words", "24 hors taxes", CRO_TAX_WITHOUT, CRO_ENTRY_OK, M (24) },
    { "with, where it is without", "24 € TTC", CRO_TAX_WITHOUT, CRO_ENTRY_WITH_TAX, 0 },
    { "without, where it is with", "24 ex VAT", CRO_TAX_WITH, CRO_ENTRY_WITHOUT_TAX, 0 },
    { "of which nothing can be said", "24 ex VAT", CRO_TAX_NOT_SAID, CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "no word for a tax", "24 ex", CRO_TAX_WITHOUT, CRO_ENTRY_NOT_A_NUMBER, 0 },
    { "the same of a Belgian", "24 HTVA", CRO_TAX_WITHOUT, CRO_ENTRY_OK, M (24) },
    { "a word that begins so", "24 hte", CRO_TAX_WITHOUT, CRO_ENTRY_NOT_A_NUMBER, 0 },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroEntry) entry = { 0 };

      cro_entry_money (cases[i].text, "EUR", cases[i].tax, CRO_RANGE_AT_LEAST_0, &entry);
      expect_entry (cases[i].says, cases[i].text, &entry, cases[i].status, cases[i].micro);
    }
}

/* "1.000" is a thousand to a German and one to everybody else; what it was read as is said. */
static void
test_said_how_it_was_read (void **state)
{
  static const struct { int locale; const char *text; gint64 micro; const char *understood; } cases[] = {
    { IN_C, "1.000 g", M (1), "1" },
    { IN_ENGLISH, "1.000 g", M (1), "1" },
    { IN_GERMAN, "1.000 g", M (1000), "1.000" },
    { IN_FRENCH, "1.000 g", M (1), "1" },
    { IN_ENGLISH, "1,000 g", M (1000), "1,000" },
    { IN_FRENCH, "1,000 g", M (1), "1" },
    { IN_ENGLISH, "1000 g", M (1000), NULL },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroEntry) entry = { 0 };

      if (!cro_test_enter_locale (locales[cases[i].locale]))
        continue;
      cro_entry_measured (cases[i].text, CRO_UNIT_G, CRO_RANGE_ABOVE_0, NULL, &entry);
      expect_entry ("a sign before three digits", cases[i].text, &entry, CRO_ENTRY_OK,
                    cases[i].micro);
      if (g_strcmp0 (entry.understood, cases[i].understood) != 0)
        fail_msg ("\"%s\" in %s is said as %s", cases[i].text, locales[cases[i].locale],
                  entry.understood);
    }
  setlocale (LC_ALL, "C");
}

/* Every unit as the program shows it in either language, whatever runs. */
static void
test_shown_units_are_understood (void **state)
{
  static const struct { const char *word; CroUnit unit; } shown[] = {
    { "tsp", CRO_UNIT_TSP }, { "c. à c.", CRO_UNIT_TSP }, { "tbsp", CRO_UNIT_TBSP },
    { "c. à s.", CRO_UNIT_TBSP }, { "metric cup", CRO_UNIT_METRIC_CUP },
    { "tasse métrique", CRO_UNIT_METRIC_CUP }, { "US tsp", CRO_UNIT_US_TSP },
    { "c. à café US", CRO_UNIT_US_TSP }, { "US tbsp", CRO_UNIT_US_TBSP },
    { "c. à soupe US", CRO_UNIT_US_TBSP }, { "US fl oz", CRO_UNIT_US_FL_OZ },
    { "once liq. US", CRO_UNIT_US_FL_OZ }, { "US cup", CRO_UNIT_US_CUP },
    { "tasse US", CRO_UNIT_US_CUP }, { "US pint", CRO_UNIT_US_PT }, { "pinte US", CRO_UNIT_US_PT },
    { "US quart", CRO_UNIT_US_QT }, { "quart US", CRO_UNIT_US_QT },
    { "US gallon", CRO_UNIT_US_GAL }, { "gallon US", CRO_UNIT_US_GAL },
    { "imp. fl oz", CRO_UNIT_IMP_FL_OZ }, { "once liq. imp.", CRO_UNIT_IMP_FL_OZ },
    { "imp. pint", CRO_UNIT_IMP_PT }, { "pinte imp.", CRO_UNIT_IMP_PT },
    { "imp. quart", CRO_UNIT_IMP_QT }, { "quart imp.", CRO_UNIT_IMP_QT },
    { "imp. gallon", CRO_UNIT_IMP_GAL }, { "gallon imp.", CRO_UNIT_IMP_GAL },
    { "each", CRO_UNIT_EACH }, { "pc", CRO_UNIT_EACH }, { "pce", CRO_UNIT_EACH },
    { "p.", CRO_UNIT_EACH }, { "dozen", CRO_UNIT_DOZEN }, { "douzaine", CRO_UNIT_DOZEN },
    { "CÀC", CRO_UNIT_TSP }, { "pie\314\200ces", CRO_UNIT_EACH },
    { "c.\302\240à\302\240s.", CRO_UNIT_TBSP },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (shown); i++)
    {
      g_autofree char *text = g_strdup_printf ("2 %s", shown[i].word);
      g_auto (CroEntry) entry = { 0 };

      if (!cro_entry_measured (text, CRO_UNIT_G, CRO_RANGE_ABOVE_0, NULL, &entry)
          || entry.unit != shown[i].unit)
        fail_msg ("\"%s\" is %s, status %d", text, cro_unit_get (entry.unit)->code, entry.status);
    }
}

/* --- Per cent and dates -------------------------------------------------------------------------------- */

static void
test_losses (void **state)
{
  static const struct { const char *says, *text; CroEntryStatus status; gint64 micro; } cases[] = {
    { "a yield", "62", CRO_ENTRY_OK, M (62) },
    { "with its sign", "62 %", CRO_ENTRY_OK, M (62) },
    { "a loss is what is missing to 100 %", "loss 38 %", CRO_ENTRY_OK, M (62) },
    { "its word may stand behind", "38 % loss", CRO_ENTRY_OK, M (62) },
    { "or be of another language", "Perte 38", CRO_ENTRY_OK, M (62) },
    { "and be a sum", "loss 30+8", CRO_ENTRY_OK, M (62) },
    { "a loss of all leaves no yield", "loss 100", CRO_ENTRY_OUT_OF_RANGE, 0 },
    { "a loss of nothing said", "loss", CRO_ENTRY_EMPTY, 0 },
    { "another word", "gain 38", CRO_ENTRY_NOT_A_NUMBER, 0 },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroEntry) entry = { 0 };

      cro_entry_pct (cases[i].text, CRO_RANGE_YIELD_PCT, &words, &entry);
      expect_entry (cases[i].says, cases[i].text, &entry, cases[i].status, cases[i].micro);
    }
}

/* What fields of a kind of their own take, as people write it, and what they leave. Densities are exact: a kg/l is a
 * g/ml, as the litre is a cubic decimetre (SI Brochure, 9th edition, table 8). */
static void
test_kinds (void **state)
{
  static const struct { CroAsked asked; const char *text; CroEntryStatus status; gint64 micro; } cases[] = {
    { CRO_ASKED_MINUTES, "70", CRO_ENTRY_OK, M (70) },
    { CRO_ASKED_MINUTES, "45 + 25", CRO_ENTRY_OK, M (70) },
    { CRO_ASKED_MINUTES, "70 min", CRO_ENTRY_OK, M (70) },
    { CRO_ASKED_MINUTES, "70 mn.", CRO_ENTRY_OK, M (70) },
    { CRO_ASKED_MINUTES, "1h10", CRO_ENTRY_OK, M (70) },
    { CRO_ASKED_MINUTES, "1 h 10", CRO_ENTRY_OK, M (70) },
    { CRO_ASKED_MINUTES, "1 hour 10 minutes", CRO_ENTRY_OK, M (70) },
    { CRO_ASKED_MINUTES, "1:10", CRO_ENTRY_OK, M (70) },
    { CRO_ASKED_MINUTES, "1\302\274 h", CRO_ENTRY_OK, M (75) },
    { CRO_ASKED_MINUTES, "1,5 h", CRO_ENTRY_OK, M (90) },
    { CRO_ASKED_MINUTES, "2 heures", CRO_ENTRY_OK, M (120) },
    { CRO_ASKED_MINUTES, "1:70", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_MINUTES, "1 h 90", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_MINUTES, "1 h soon", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_MINUTES, "70 g", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_MINUTES, "-5", CRO_ENTRY_OUT_OF_RANGE, 0 },
    { CRO_ASKED_MINUTES, "9000000000000 h", CRO_ENTRY_TOO_LARGE, 0 },
    { CRO_ASKED_MINUTES, " ", CRO_ENTRY_EMPTY, 0 },
    { CRO_ASKED_DAYS, "28", CRO_ENTRY_OK, M (28) },
    { CRO_ASKED_DAYS, "4 weeks", CRO_ENTRY_OK, M (28) },
    { CRO_ASKED_DAYS, "4 sem.", CRO_ENTRY_OK, M (28) },
    { CRO_ASKED_DAYS, "28 jours", CRO_ENTRY_OK, M (28) },
    { CRO_ASKED_DAYS, "1 month", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_DENSITY, "0.92", CRO_ENTRY_OK, M (0.92) },
    { CRO_ASKED_DENSITY, "0,85 kg/l", CRO_ENTRY_OK, M (0.85) },
    { CRO_ASKED_DENSITY, "0.85 g/ml", CRO_ENTRY_OK, M (0.85) },
    { CRO_ASKED_DENSITY, "850 g per litre", CRO_ENTRY_OK, M (0.85) },
    { CRO_ASKED_DENSITY, "0.85 g/cm\302\263", CRO_ENTRY_OK, M (0.85) },
    { CRO_ASKED_DENSITY, "88 pct", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_NUMBER, "26 covers", CRO_ENTRY_OK, M (26) },
    { CRO_ASKED_NUMBER, " 22 Couverts ", CRO_ENTRY_OK, M (22) },
    { CRO_ASKED_NUMBER, "2 x 13 pers.", CRO_ENTRY_OK, M (26) },
    { CRO_ASKED_NUMBER, "26", CRO_ENTRY_OK, M (26) },
    { CRO_ASKED_NUMBER, "26 coverings", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_NUMBER, "26 covers 3", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_NUMBER, "-3 covers", CRO_ENTRY_OUT_OF_RANGE, M (-3) },
    { CRO_ASKED_NUMBER, "24 1/2", CRO_ENTRY_NOT_WHOLE, M (24.5) },
    { CRO_ASKED_NUMBER, "24.5 covers", CRO_ENTRY_NOT_WHOLE, M (24.5) },
    { CRO_ASKED_NUMBER, "covers", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_NUMBER, "", CRO_ENTRY_EMPTY, 0 },
    { CRO_ASKED_DENSITY, "0.85 l/kg", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_DENSITY, "0.85 kg", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_DENSITY, "0", CRO_ENTRY_OUT_OF_RANGE, 0 },
    { CRO_ASKED_WAGE, "21", CRO_ENTRY_OK, M (21) },
    { CRO_ASKED_WAGE, "€21/h", CRO_ENTRY_OK, M (21) },
    { CRO_ASKED_WAGE, "21,50 € de l’heure", CRO_ENTRY_OK, M (21.5) },
    { CRO_ASKED_WAGE, "21 an hour", CRO_ENTRY_OK, M (21) },
    { CRO_ASKED_WAGE, "£21/h", CRO_ENTRY_OTHER_CURRENCY, 0 },
    { CRO_ASKED_WAGE, "21/kg", CRO_ENTRY_NOT_A_NUMBER, 0 },
    { CRO_ASKED_SELLING_PRICE, "34,00 € TTC", CRO_ENTRY_OK, M (34) },
    { CRO_ASKED_SELLING_PRICE, "34 incl. tax", CRO_ENTRY_OK, M (34) },
    { CRO_ASKED_SELLING_PRICE, "34 HT", CRO_ENTRY_WITHOUT_TAX, 0 },
    { CRO_ASKED_PCT, "30 percent", CRO_ENTRY_OK, M (30) },
    { CRO_ASKED_PCT, "30 pour cent", CRO_ENTRY_OK, M (30) },
    { CRO_ASKED_PCT, "30 euros", CRO_ENTRY_NOT_A_NUMBER, 0 },
  };

  setlocale (LC_ALL, "C");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const char *text = cases[i].text;
      g_auto (CroEntry) entry = { 0 };

      switch (cases[i].asked)
        {
        case CRO_ASKED_MINUTES:
          cro_entry_minutes (text, &entry);
          break;
        case CRO_ASKED_DAYS:
          cro_entry_days (text, &entry);
          break;
        case CRO_ASKED_NUMBER:
          cro_entry_covers (text, CRO_RANGE_AT_LEAST_0, &entry);
          break;
        case CRO_ASKED_DENSITY:
          cro_entry_density (text, &words, &entry);
          break;
        case CRO_ASKED_WAGE:
          cro_entry_wage (text, "EUR", CRO_RANGE_AT_LEAST_0, &entry);
          break;
        case CRO_ASKED_SELLING_PRICE:
          cro_entry_selling_price (text, "EUR", CRO_RANGE_AT_LEAST_0, &entry);
          break;
        default:
          cro_entry_pct (text, CRO_RANGE_PART_PCT, &words, &entry);
        }
      expect_entry ("a field of its kind", text, &entry, cases[i].status, cases[i].micro);
      assert_int_equal (entry.asked, cases[i].asked);
    }
}

static void
test_dates (void **state)
{
  static const struct { const char *says, *text; gboolean is_date[N_LOCALES]; } cases[] = {
    { "ISO 8601 in every locale", "2026-11-25", { TRUE, TRUE, TRUE, TRUE } },
    { "month first", "11/25/2026", { FALSE, TRUE, FALSE, FALSE } },
    { "month first, in short", "11/25/26", { FALSE, TRUE, FALSE, FALSE } },
    { "day first", "25/11/2026", { FALSE, FALSE, TRUE, TRUE } },
    { "day first, in short", "25/11/26", { FALSE, FALSE, TRUE, TRUE } },
    { "with points", "25.11.2026", { FALSE, FALSE, TRUE, TRUE } },
    { "with points, in short", "25.11.26", { FALSE, FALSE, TRUE, TRUE } },
    { "in words", "Nov 25, 2026", { FALSE, TRUE, FALSE, FALSE } },
    { "in French words", "25 nov. 2026", { FALSE, FALSE, TRUE, FALSE } },
    { "no day of the calendar", "2026-02-30", { FALSE } },
    { "more than a date", "2026-11-25 x", { FALSE } },
  };

  for (int l = 0; l < N_LOCALES; l++)
    for (gsize i = 0; cro_test_enter_locale (locales[l]) && i < G_N_ELEMENTS (cases); i++)
      {
        g_auto (CroEntry) entry = { 0 };
        gboolean is_date = cro_entry_date (cases[i].text, &entry);

        if (is_date != cases[i].is_date[l]
            || (is_date && entry.date != cro_date_from_civil (2026, 11, 25)))
          fail_msg ("%s: \"%s\" in %s (%d, %d)", cases[i].says, cases[i].text, locales[l], is_date,
                    entry.date);
      }
}

/* What a quick hand leaves out: zeros, points, the year. On 28 November 2026. */
static void
test_short_dates (void **state)
{
  static const struct { const char *text; int date[N_LOCALES]; } cases[] = {
    { "1.12.2026", { 0, 20260112, 20261201, 20261201 } },
    { "1.12.", { 0, 20270112, 20261201, 20261201 } },
    { "1/12", { 0, 20270112, 20261201, 20261201 } },
    { "20.11.", { 0, 0, 20261120, 20261120 } },
    { "5-1", { 0, 20270501, 20270105, 20270105 } },
    { "29.2.", { 0, 0, 0, 0 } },
    { "29.2.24", { 0, 0, 20240229, 20240229 } },
    { "2026-1-5", { 20260105, 20260105, 20260105, 20260105 } },
    { "1", { 0 } },
    { "1.2.3.4", { 0 } },
    { "1.12.2026 x", { 0 } },
    { "0.12.", { 0 } },
    { "1er déc. 2026", { 0, 0, 20261201, 0 } },
    { "1er/12", { 0, 20270112, 20261201, 20261201 } },
    { "21er/12", { 0 } },
  };

  for (int l = 0; l < N_LOCALES; l++)
    for (gsize i = 0; cro_test_enter_locale (locales[l]) && i < G_N_ELEMENTS (cases); i++)
      {
        CroDate date;
        int year = 0, month = 0, day = 0;

        if (cro_date_from_text (cases[i].text, cro_date_from_civil (2026, 11, 28), &date))
          cro_date_to_civil (date, &year, &month, &day);
        if (year * 10000 + month * 100 + day != cases[i].date[l])
          fail_msg ("\"%s\" in %s is %d-%d-%d", cases[i].text, locales[l], year, month, day);
      }
}

/* --- Fractions -------------------------------------------------------------------------------------------- */

static void
test_fractions (void **state)
{
  CroFraction a = cro_fraction_make (1, 3);
  CroFraction b = cro_fraction_make (-1, -6);
  gint64 micro;

  assert_true (cro_fraction_add (&a, b));
  assert_true (a.numerator == 1 && a.denominator == 2);
  assert_true (cro_fraction_divide (&a, cro_fraction_make (-1, 4)));
  assert_true (a.numerator == -2 && a.denominator == 1);
  assert_false (cro_fraction_divide (&a, cro_fraction_make (0, 1)));
  assert_true (a.numerator == -2);
  assert_true (cro_fraction_to_micro (cro_fraction_make (-5, 10000000), &micro));
  assert_int_equal (micro, -1);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_numbers),    cmocka_unit_test (test_deep_parentheses),
    cmocka_unit_test (test_ambiguous_signs), cmocka_unit_test (test_ranges),
    cmocka_unit_test (test_amounts),    cmocka_unit_test (test_other_unit),
    cmocka_unit_test (test_prices),
    cmocka_unit_test (test_prices_of_packs),
    cmocka_unit_test (test_money),
    cmocka_unit_test (test_said_how_it_was_read),
    cmocka_unit_test (test_shown_units_are_understood),
    cmocka_unit_test (test_losses),
    cmocka_unit_test (test_kinds),
    cmocka_unit_test (test_dates),      cmocka_unit_test (test_short_dates),
        cmocka_unit_test (test_fractions),
  };

  return cmocka_run_group_tests (tests, cro_test_find_locales, cro_test_leave_locales);
}
