#include "config.h"

#include "cro-yield-words.h"

#include <glib/gi18n.h>

#include "cro-decimal.h"
#include "cro-number.h"
#include "cro-words.h"

/* One lot is weighed a good deal larger than another; by so much only where the unit is another.
 * Common practice, no source. */
#define OTHER_UNIT 200

static char *
grams_text (gint64 micro)
{
  return cro_words_amount (CRO_BASE_GRAM, cro_decimal_to_double (micro));
}

static char *
question_of (const CroYieldTest *test,
             gint64              largest,
             gboolean            may_grow)
{
  g_autofree char *date = cro_date_to_text (test->date);
  g_autofree char *bought = grams_text (test->purchased), *usable = grams_text (test->usable);
  g_autofree char *meant = NULL;

  if (test->purchased > 0 && test->purchased < largest / OTHER_UNIT)
    {
      meant = cro_words_amount (CRO_BASE_GRAM, cro_decimal_to_double (test->purchased) * 1000);
      /* Translators: a weight, a date, a weight. */
      return g_strdup_printf (_("%s in the test of %s: is %s meant?"), bought, date, meant);
    }
  if (test->usable > test->purchased && !may_grow)
    /* Translators: a weight, a weight, a date. */
    return g_strdup_printf (_("%s usable of %s in the test of %s: is this right?"), usable, bought, date);
  return NULL;
}

char *
cro_words_yield_question (GArray   *tests,
                          gboolean  may_grow)
{
  gint64 largest = 0;
  char *question = NULL;

  for (guint i = 0; i < tests->len; i++)
    largest = MAX (largest, g_array_index (tests, CroYieldTest, i).purchased);
  for (guint i = 0; i < tests->len && question == NULL; i++)
    question = question_of (&g_array_index (tests, CroYieldTest, i), largest, may_grow);
  return question;
}
