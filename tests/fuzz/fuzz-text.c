/* Numbers, sums, amounts, prices, percentages and dates as fields read them, in four locales. The
 * first byte says which locale. */
#include "fuzz.h"

#include <glib.h>
#include <locale.h>
#include <string.h>

#include "cro-entry.h"
#include "cro-number.h"
#include "cro-pack.h"
#include "cro-words.h"

const char *const fuzz_seeds[] = {
  "012", "12*1.2", "21/3 kg", "31 1/2", "0½", "11½ l", "2(1+2)*3", "01.000 g", "11,000.5", "31 234,5",
  "02 lb + 3 oz", "02 x 250 g", "12 × 250 g", "0£11.20/kg", "011,20 €/kg", "069.50/4 kg", "0171 GBP",
  "0loss 38 %", "262 %", "02026-02-28", "228/02/2026", "32. Feb. 2026", "02 c. à s.", "13 cups",
  "0-3", "0−0.0000005", "09223372036854.775807", "00.34 each", "011.20 per kilo", "20 × 5 kg",
  NULL,
};

static void
enter_locale (uint8_t which)
{
  static const char *const names[] = { "C", "en_US.UTF-8", "fr_FR.UTF-8", "de_DE.UTF-8" };

  if (setlocale (LC_ALL, names[which % 4]) == NULL)
    setlocale (LC_ALL, "C");
}

static void
check (const char     *text,
       const CroEntry *entry,
       gboolean        done)
{
  g_autofree char *reason = NULL;

  g_assert (done == (entry->status == CRO_ENTRY_OK));
  if (done)
    return;
  g_assert (entry->start <= entry->end && entry->end <= strlen (text));
  reason = cro_words_entry_reason (text, entry);
  g_assert ((reason == NULL) == (entry->status == CRO_ENTRY_EMPTY));
  g_assert (reason == NULL || g_utf8_validate (reason, -1, NULL));
}

/* What is shown for a number is read as that number. */
static void
check_shown (const CroEntry *entry)
{
  g_autofree char *shown = cro_words_decimal (entry->micro);
  gint64 micro = 0;

  if (entry->micro > -1000000000000000 && entry->micro < 1000000000000000)
    g_assert (cro_number_parse (shown, &micro) && micro == entry->micro);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data,
                        size_t         size)
{
  g_autofree char *text = NULL;
  CroPack pack = { 6000000, 250000000, CRO_UNIT_G }, read;

  if (size == 0)
    return 0;
  enter_locale (data[0]);
  text = g_utf8_make_valid ((const char *) data + 1, (gssize) size - 1);
  for (int range = CRO_RANGE_ANY; range <= CRO_RANGE_PART; range++)
    {
      g_auto (CroEntry) number = { 0 }, pct = { 0 };

      check (text, &number, cro_entry_number (text, (CroRange) range, &number));
      if (number.status == CRO_ENTRY_OK)
        check_shown (&number);
      check (text, &pct, cro_entry_pct (text, (CroRange) range, cro_words_entry (), &pct));
    }
  for (int unit = 0; unit < CRO_N_UNITS; unit += 5)
    {
      g_auto (CroEntry) amount = { 0 }, measured = { 0 };

      check (text, &amount, cro_entry_amount (text, (CroUnit) unit, CRO_RANGE_ANY,
                                              cro_words_entry (), &amount));
      check (text, &measured, cro_entry_measured (text, (CroUnit) unit, CRO_RANGE_ANY, NULL,
                                                  &measured));
    }
  {
    const CroPriceOf of = { "EUR", CRO_TAX_WITHOUT, TRUE, pack };
    g_auto (CroEntry) price = { 0 }, money = { 0 }, date = { 0 };

    check (text, &price, cro_entry_price (text, &of, cro_words_entry (), &price));
    check (text, &money, cro_entry_money (text, "GBP", CRO_TAX_WITH, CRO_RANGE_AT_LEAST_0, &money));
    check (text, &date, cro_entry_date (text, &date));
  }
  cro_pack_from_text (text, CRO_UNIT_KG, cro_words_entry (), &read);
  return 0;
}
