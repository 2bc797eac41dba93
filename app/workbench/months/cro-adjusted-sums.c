#include "config.h"

#include "cro-adjusted-sums.h"

#include <glib/gi18n.h>

#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-field.h"
#include "cro-month-shelf.h"
#include "cro-month-table.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-refused-words.h"

/* What came in is not added to what was lost: each kind has a sum of its own. */
static char *
dup_sums (const CroMonth *month)
{
  g_autoptr (GString) sums = g_string_new (NULL);
  int digits = cro_currency_digits (month->currency);
  CroMonthMinor minor;

  cro_month_round (month, digits, &minor);
  for (guint i = 0; i < CRO_N_ADJUSTMENT_KINDS; i++)
    {
      int sign = cro_month_sign_of (i);
      g_autofree char *money = NULL;

      if (month->adjustments[i] == 0 && month->known_adjustments[i] == CRO_KNOWN_WHOLE)
        continue;
      money = cro_month_table_money (month->known_adjustments[i], sign == 0 ? minor.waste : sign * minor.adjustments[i],
                                     digits);
      g_string_append_printf (sums, "%s%s %s", sums->len > 0 ? " · " : "",
                              cro_code_word (cro_adjustment_kind_codes[i]), money);
    }
  /* Translators: %s are kinds of adjustments, each with its money: "waste 23.37 · staff meal 134.00". */
  return sums->len > 0 ? g_strdup_printf (_("In this month, amounts at the food cost of their day: %s"), sums->str)
                       : g_strdup ("");
}

GtkWidget *
cro_adjusted_sums_new (void)
{
  return cro_text_new ("", NULL);
}

void
cro_adjusted_sums_refresh (GtkWidget      *label,
                           CroBench       *bench,
                           CroDate         first,
                           CroRecordsView *view)
{
  CroBook *book = cro_bench_get_book (bench);
  g_autoptr (GError) error = NULL;
  const CroMonth *month = cro_month_shelf_reckon (cro_month_shelf_of (book), first, &error);
  GHashTable *worths = month != NULL ? cro_month_list_worths (month, book, &error) : NULL;
  /* Neither sums nor money of an older state stay: it says why there are none. */
  g_autofree char *sums = worths != NULL ? dup_sums (month) : cro_words_failed (error);

  gtk_label_set_label (GTK_LABEL (label), sums);
  gtk_widget_set_visible (label, *sums != '\0');
  cro_records_view_set_worths (view, worths);
}
