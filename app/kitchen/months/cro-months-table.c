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
  for (guint i = 0; i < CRO_N_PURCHASE_KINDS; i++)
    if (cro_month_late (month, i) != 0)
      return TRUE;
  return FALSE;
}

gboolean
cro_month_is_count_only (const CroMonth *month)
{
  return !month->is_closed && !has_late (month) && month->things->len == 0 && cro_month_all_purchases (month) == 0;
}

const char *
cro_months_count_only (void)
{
  /* Translators: of a month. */
  return _("count only");
}

const char *
cro_month_state_words (const CroMonth *month)
{
  if (month->is_closed && month->altered == month->first)
    return _("closed, altered since");
  if (month->is_closed)
    return cro_month_came_since (month) ? _("closed, documents came since")
           : has_late (month) ? _("closed, with late documents")
                              : _("closed");
  if (month->altered == month->first)
    return _("open, altered since");
  if (!cro_month_has_begun (month))
    /* Translators: of a month. */
    return _("not begun");
  if (has_late (month))
    return _("open, with late documents");
  if (cro_month_is_count_only (month))
    return cro_months_count_only ();
  return _("open");
}

char *
cro_month_asks_words (const CroMonth *month)
{
  guint n = month->questions->len;

  return n > 0 ? g_strdup_printf (ngettext ("%u question", "%u questions", n), n) : NULL;
}

/* What a month came to, or several together. */
typedef struct
{
  gboolean has_sales, has_actual, has_over;   /* what is not there yet is no 0 */
  gint64   net_sales, theoretical, actual, over;
  CroKnown known_sales, known_theoretical, known_actual, known_over;
  double   sales, apart;                      /* unrounded: net sales, over */
} Costs;

static Costs
costs_of (const CroMonth *month)
{
  CroMonthMinor minor;

  cro_month_round (month, cro_currency_digits (month->currency), &minor);
  return (Costs){ month->things->len > 0, !isnan (month->actual), !isnan (month->over),
                  minor.net_sales, minor.theoretical, minor.actual, minor.over,
                  month->known_revenue, month->known_theoretical, month->known_actual, month->known_over,
                  month->net_sales, month->over };
}

static void
add_costs (Costs       *sum,
           const Costs *part)
{
  sum->has_sales |= part->has_sales;
  sum->has_actual &= part->has_actual;
  sum->has_over &= part->has_over;
  sum->net_sales += part->net_sales;
  sum->theoretical += part->theoretical;
  sum->actual += part->actual;
  sum->over += part->over;
  sum->known_sales = cro_month_known_add (sum->known_sales, part->known_sales);
  sum->known_theoretical = cro_month_known_add (sum->known_theoretical, part->known_theoretical);
  sum->known_actual = cro_month_known_add (sum->known_actual, part->known_actual);
  sum->known_over = cro_month_known_add (sum->known_over, part->known_over);
  sum->sales += part->sales;
  sum->apart += part->apart;
}

static void
put_costs (CroMonthTableRow *row,
           const Costs      *costs,
           int               digits)
{
  gboolean is_under = costs->over < 0;
  CroKnown over = is_under ? cro_known_turned (costs->known_over) : costs->known_over;
  CroKnown of_sales = cro_known_of_sum (over, cro_known_turned (costs->known_sales));
  g_autofree char *money = NULL;

  if (costs->has_sales)
    {
      row->cells[NET_SALES] = cro_month_table_money (costs->known_sales, costs->net_sales, digits);
      row->cells[THEORETICAL] = cro_month_table_money (costs->known_theoretical, costs->theoretical, digits);
    }
  if (costs->has_actual)
    row->cells[ACTUAL] = cro_month_table_money (costs->known_actual, costs->actual, digits);
  if (!costs->has_over)
    return;
  /* As the statement says it. */
  money = cro_month_table_money (over, is_under ? -costs->over : costs->over, digits);
  /* Translators: money that an actual food cost is below the theoretical one. */
  row->cells[OVER] = is_under ? g_strdup_printf (_("under %s"), money) : g_steal_pointer (&money);
  if (costs->sales > 0)
    row->cells[OVER_PCT]
        = cro_words_known_pct_short (of_sales, costs->over != 0 ? 100 * fabs (costs->apart) / costs->sales : 0, 1);
}

static CroMonthTableRow *
add_total (CroMonthTable *table,
           const char    *name,
           const Costs   *costs,
           int            digits)
{
  CroMonthTableRow *row = cro_month_table_add (table, -1, name);

  row->is_sum = TRUE;
  put_costs (row, costs, digits);
  return row;
}

CroMonthTable *
cro_months_table_new (GArray    *firsts,
                      GPtrArray *months)
{
  const char *titles[N_COLUMNS] = { _("Month"), _("State"), _("Net sales"), _("Theoretical"), _("Actual"),
                                    _("Over"), _("of net sales"), _("Questions") };
  CroMonthTable *table = cro_month_table_new (N_COLUMNS, titles);

  table->words |= 1 << STATE;
  /* They stand in the list of months, too. */
  table->spared |= 1u << STATE | 1u << QUESTIONS;
  for (guint i = 0; i < firsts->len; i++)
    {
      const CroMonth *month = months->pdata[i];
      Costs costs;
      g_autofree char *name = cro_month_to_text (g_array_index (firsts, CroDate, i));
      CroMonthTableRow *row = cro_month_table_add (table, (int) i, name);

      if (month == NULL)
        continue;
      row->cells[STATE] = g_strdup (cro_month_state_words (month));
      costs = costs_of (month);
      put_costs (row, &costs, cro_currency_digits (month->currency));
      if (month->questions->len > 0)
        row->cells[QUESTIONS] = cro_number_to_text (month->questions->len, 0, TRUE);
    }
  return table;
}

/* Of n months from the one at first; name: of the sum. */
static void
add_total_of (CroMonthTable *self,
              GPtrArray     *months,
              guint          first,
              guint          n,
              const char    *name)
{
  Costs all = { .has_actual = TRUE, .has_over = TRUE }, counted = all;
  const char *currency = NULL;
  guint n_all = 0, n_counted = 0;

  for (guint i = first; i < first + n; i++)
    {
      const CroMonth *month = months->pdata[i];
      Costs costs = costs_of (month);

      if (i > first && g_strcmp0 (month->currency, currency) != 0)
        return;
      currency = month->currency;
      /* A month in which nothing but the stock of the next was counted came to nothing, and one that has not begun to
       * nothing yet. */
      if ((!costs.has_sales && !costs.has_actual && !has_late (month) && cro_month_all_purchases (month) == 0)
          || !cro_month_has_begun (month))
        continue;
      n_all++;
      add_costs (&all, &costs);
      if (!costs.has_over)
        continue;
      n_counted++;
      add_costs (&counted, &costs);
    }
  if (n_all == 0)
    return;
  add_total (self, name, &all, cro_currency_digits (currency))->is_apart = TRUE;
  if (n_counted > 0 && n_counted < n_all)
    add_total (self, _("of months with an actual cost"), &counted, cro_currency_digits (currency));
}

void
cro_months_table_add_total (CroMonthTable *self,
                            GPtrArray     *months)
{
  add_total_of (self, months, 0, months->len, _("Total"));
}

static int
year_of (CroDate date)
{
  int year, month, day;

  cro_date_to_civil (date, &year, &month, &day);
  return year;
}

/* How many months from the one at first are of its year. */
static guint
count_year (GArray *firsts,
            guint   first)
{
  int year = year_of (g_array_index (firsts, CroDate, first));
  guint n = 1;

  while (first + n < firsts->len && year_of (g_array_index (firsts, CroDate, first + n)) == year)
    n++;
  return n;
}

void
cro_months_table_add_years (CroMonthTable *self,
                            GArray        *firsts,
                            GPtrArray     *months)
{
  for (guint first = 0, n; first < firsts->len; first += n)
    {
      g_autofree char *name = NULL;
      gboolean is_reckoned = TRUE;

      n = count_year (firsts, first);
      for (guint i = first; i < first + n; i++)
        is_reckoned &= months->pdata[i] != NULL;
      if (n < 2 || !is_reckoned)
        continue;
      /* Translators: a year: what its months came to together. */
      name = g_strdup_printf (_("Total of %d"), year_of (g_array_index (firsts, CroDate, first)));
      add_total_of (self, months, first, n, name);
    }
}
