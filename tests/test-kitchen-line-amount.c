/* The amount of a line as text: for the batch and for a bite, read and written. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cro-decimal.h"
#include "cro-line-amount.h"
#include "cro-words.h"

/* Factors: NIST SP 811 App. B.8 (1 lb = 453.59237 g, so an ounce is 28.349523125 g). */
static const struct
{
  const char *says;
  gint64      amount;
  CroUnit     unit;
  gint64      makes;       /* 0: for the batch */
  const char *typed;
  CroEntryStatus status;
  gint64      becomes;
  CroUnit     in;
} readings[] = {
  { "a number alone keeps the unit", 240000000, CRO_UNIT_G, 0, "300", CRO_ENTRY_OK, 300000000,
    CRO_UNIT_G },
  { "a unit typed takes its place", 240000000, CRO_UNIT_G, 0, "0.3 kg", CRO_ENTRY_OK, 300000,
    CRO_UNIT_KG },
  { "a sum has one unit", 240000000, CRO_UNIT_G, 0, "2*120 g", CRO_ENTRY_OK, 240000000, CRO_UNIT_G },
  { "a fraction is rounded once", 240000000, CRO_UNIT_G, 0, "1/3 kg", CRO_ENTRY_OK, 333333,
    CRO_UNIT_KG },
  { "units of another base are taken", 240000000, CRO_UNIT_G, 0, "3 each", CRO_ENTRY_OK, 3000000,
    CRO_UNIT_EACH },
  { "nothing is an amount too", 240000000, CRO_UNIT_G, 0, "0", CRO_ENTRY_OK, 0, CRO_UNIT_G },
  { "less than nothing is none", 240000000, CRO_UNIT_G, 0, "-1", CRO_ENTRY_OUT_OF_RANGE, 0, 0 },
  { "what is no unit is said", 240000000, CRO_UNIT_G, 0, "3 pinches", CRO_ENTRY_SIZELESS_UNIT, 0, 0 },
  { "an amount must be there", 240000000, CRO_UNIT_G, 0, " ", CRO_ENTRY_EMPTY, 0, 0 },
  { "a bite times the bites is the batch's", 240000000, CRO_UNIT_G, 24000000, "12.5", CRO_ENTRY_OK,
    300000000, CRO_UNIT_G },
  { "a bite of kilograms is typed in grams", 300000, CRO_UNIT_KG, 24000000, "15", CRO_ENTRY_OK,
    360000, CRO_UNIT_KG },
  { "a bite in another unit leaves the line's", 240000000, CRO_UNIT_G, 24000000, "0.01 kg",
    CRO_ENTRY_OK, 240000000, CRO_UNIT_G },
  { "a bite that the line's unit cannot hold changes it", 240000000, CRO_UNIT_G, 24000000, "2 each",
    CRO_ENTRY_OK, 48000000, CRO_UNIT_EACH },
  { "a bite of pounds is typed in ounces", 1000000, CRO_UNIT_LB, 16000000, "2", CRO_ENTRY_OK,
    2000000, CRO_UNIT_LB },
  { "bites may be many", INT64_C (9000000000000000000), CRO_UNIT_G, 24000000, "9000000000000",
    CRO_ENTRY_TOO_LARGE, 0, 0 },
  { "half a bite is none too few", 240000000, CRO_UNIT_G, 500000, "10", CRO_ENTRY_OK, 5000000,
    CRO_UNIT_G },
};

static void
test_reading (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (readings); i++)
    {
      CroLineAmount line = { readings[i].amount, readings[i].unit };
      g_auto (CroEntry) entry = { 0 };
      gboolean is_ok = cro_line_amount_read (readings[i].typed, line, readings[i].makes,
                                             cro_words_entry (), &entry);

      if (is_ok != (readings[i].status == CRO_ENTRY_OK) || entry.status != readings[i].status
          || (is_ok && (entry.micro != readings[i].becomes || entry.unit != readings[i].in)))
        fail_msg ("%s: status %d, %" G_GINT64_FORMAT " %s", readings[i].says, entry.status,
                  entry.micro, cro_unit_get (entry.unit)->code);
    }
}

static const struct
{
  const char *says;
  gint64      amount;
  CroUnit     unit;
  gint64      makes;
  const char *text;
} texts[] = {
  { "a batch is written to the last decimal", 240125000, CRO_UNIT_G, 0, "240.125 g" },
  { "what is counted bears its word", 24000000, CRO_UNIT_EACH, 0, "24 pc" },
  { "a bite is its part", 240000000, CRO_UNIT_G, 24000000, "10 g" },
  { "a bite is written to three digits", 100000000, CRO_UNIT_G, 24000000, "4.17 g" },
  { "a bite of kilograms is grams", 300000, CRO_UNIT_KG, 24000000, "12.5 g" },
  { "a bite of a kilogram or more stays", 48000000, CRO_UNIT_KG, 24000000, "2 kg" },
  { "a bite of just a kilogram too", 24000000, CRO_UNIT_KG, 24000000, "1 kg" },
  { "a bite of a dozen is pieces", 2000000, CRO_UNIT_DOZEN, 24000000, "1 pc" },
};

static void
test_writing (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *text = cro_line_amount_to_text ((CroLineAmount){ texts[i].amount,
                                                                        texts[i].unit },
                                                       texts[i].makes);

      if (strcmp (text, texts[i].text) != 0)
        fail_msg ("%s: %s", texts[i].says, text);
    }
}

/* Whoever types what the field shows changes nothing. */
static void
test_every_unit_is_read_as_it_is_written (void **state)
{
  for (int unit = 0; unit < CRO_N_UNITS; unit++)
    {
      CroLineAmount line = { 2 * CRO_MICRO, (CroUnit) unit };
      g_autofree char *text = cro_line_amount_to_text (line, 0);
      g_auto (CroEntry) entry = { 0 };

      if (!cro_line_amount_read (text, (CroLineAmount){ CRO_MICRO, CRO_UNIT_G }, 0,
                                 cro_words_entry (), &entry)
          || entry.micro != line.amount || entry.unit != line.unit)
        fail_msg ("“%s” is read as %" G_GINT64_FORMAT " %s", text, entry.micro,
                  cro_unit_get (entry.unit)->code);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_reading),
    cmocka_unit_test (test_writing),
    cmocka_unit_test (test_every_unit_is_read_as_it_is_written),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
