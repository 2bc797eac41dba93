#include "config.h"

#include "cro-months-table.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-month-words.h"
#include "cro-number.h"

enum
{
  MONTH,
  STATE,
  NET_SALES,
  THEORETICAL,
  ACTUAL,
  OVER,
  OVER_PCT,
  QUESTIONS,
  N_COLUMNS,
};

static gboolean
has_late (const CroMonth *month)
{
  for (guint i = 0; i < CRO_MONTH_N_PURCHASE_KINDS; i++)
    if (cro_month_late (month, i) != 0)
      return TRUE;
  return FALSE;
}

const char *
cro_month_state_words (const CroMonth *month)
{
  if (month->is_closed)
    return month->late != 0 ? _("closed, documents came since")
           : has_late (month) ? _("closed, with late documents")
                              : _("closed");
  if (has_late (month))
    return _("open, with late documents");
  if (month->things->len == 0 && cro_month_all_purchases (month) == 0)
    return _("count only");
  return _("open");
}

char *
cro_month_asks_words (const CroMonth *month)
{
  guint n = month->questions->len;

  return n > 0 ? g_strdup_printf (ngettext ("%u question", "%u questions", n), n) : NULL;
}

/* What is not there yet is no 0. */
static void
put_costs (CroMonthTableRow *row,
           const CroMonth   *month)
{
  int digits = cro_currency_digits (month->currency);
  CroMonthMinor minor;
  CroKnown over = month->over < 0 ? cro_known_turned (month->known_over) : month->known_over;
  CroKnown of_sales = cro_known_of_sum (over, cro_known_turned (cro_month_known_sales (month)));
  g_autofree char *money = NULL;

  cro_month_round (month, digits, &minor);
  if (month->things->len > 0)
    {
      row->cells[NET_SALES] = cro_month_table_money (cro_month_known_sales (month), minor.net_sales, digits);
      row->cells[THEORETICAL] = cro_month_table_money (month->known_theoretical, minor.theoretical, digits);
    }
  if (!isnan (month->actual))
    row->cells[ACTUAL] = cro_month_table_money (month->known_actual, minor.actual, digits);
  if (isnan (month->over))
    return;
  /* As the statement says it. */
  if (month->over < 0)
    {
      money = cro_month_table_money (over, -minor.over, digits);
      /* Translators: money that an actual food cost is below the theoretical one. */
      row->cells[OVER] = g_strdup_printf (_("under %s"), money);
    }
  else
    row->cells[OVER] = cro_month_table_money (over, minor.over, digits);
  if (month->net_sales > 0)
    row->cells[OVER_PCT]
        = cro_words_take_short (of_sales, cro_words_pct_of (100 * fabs (month->over) / month->net_sales, 1));
}

CroMonthTable *
cro_months_table_new (GArray    *firsts,
                      GPtrArray *months)
{
  const char *titles[N_COLUMNS] = { _("Month"), _("State"), _("Net sales"), _("Theoretical"), _("Actual"),
                                    _("Over"), _("of net sales"), _("Questions") };
  CroMonthTable *table = cro_month_table_new (N_COLUMNS, titles);

  table->words |= 1 << STATE;
  for (guint i = 0; i < firsts->len; i++)
    {
      const CroMonth *month = months->pdata[i];
      g_autofree char *name = cro_month_to_text (g_array_index (firsts, CroDate, i));
      CroMonthTableRow *row = cro_month_table_add (table, (int) i, name);

      if (month == NULL)
        continue;
      row->cells[STATE] = g_strdup (cro_month_state_words (month));
      put_costs (row, month);
      if (month->questions->len > 0)
        row->cells[QUESTIONS] = cro_number_to_text (month->questions->len, 0, TRUE);
    }
  return table;
}
