/* The figures of a month in minor units, so that what is shown adds up. */
#include "cro-month-words.h"

#include <math.h>
#include <string.h>

#include "cro-money.h"

#define N_STOCKS 2 /* opening and closing */
#define N_PARTS (N_STOCKS + CRO_N_ADJUSTMENT_KINDS) /* of the actual cost beside food that was bought */

static double
or_0 (double value)
{
  return isnan (value) ? 0 : value;
}

/* Rounding moves each line by less than one minor unit. What is further off was not rounded but changed,
 * and is not to be spread over lines that are right. */
static gboolean
add_up (const double *parts,
        guint         n,
        double        total,
        int           digits)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += parts[i];
  return fabs (sum - total) * pow (10, digits) < n;
}

static gboolean
is_whole (double money,
          int    digits)
{
  double minor = money * pow (10, digits);

  return fabs (minor - round (minor)) < 1e-6;
}

/* Parts that are whole minor units, as documents have them, stay what they are; those that were reckoned share what
 * rounding leaves. */
static void
share_out (gint64        total,
           const double *parts,
           guint         n,
           int           digits,
           gint64       *into)
{
  double reckoned[N_PARTS];
  guint at[N_PARTS], n_reckoned = 0;
  guint64 order[N_PARTS];
  gint64 shared[N_PARTS];

  for (guint i = 0; i < n; i++)
    {
      into[i] = cro_money_round (parts[i], digits);
      if (is_whole (parts[i], digits))
        total -= into[i];
      else
        {
          at[n_reckoned] = i;
          reckoned[n_reckoned++] = parts[i];
        }
    }
  cro_money_apportion (total, reckoned, n_reckoned, digits, order, shared);
  for (guint i = 0; i < n_reckoned; i++)
    into[at[i]] = shared[i];
}

/* All of them, then food and the other kinds, then what is of the month and what came late. */
static void
round_purchases (const CroMonth *month,
                 int             digits,
                 CroMonthMinor  *minor)
{
  double kinds[CRO_N_PURCHASE_KINDS];
  gint64 of_kinds[CRO_N_PURCHASE_KINDS];

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    kinds[k] = month->purchases[k] + month->earlier[k] + (k == 0 ? or_0 (month->estimate) : 0);
  minor->purchases = cro_money_round (cro_month_all_purchases (month), digits);
  share_out (minor->purchases, kinds, CRO_N_PURCHASE_KINDS, digits, of_kinds);
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      const double parts[] = { month->purchases[k], month->earlier[k] + month->later[k],
                               k == 0 ? or_0 (month->estimate) : 0, -month->later[k] };
      gint64 into[G_N_ELEMENTS (parts)];

      share_out (of_kinds[k], parts, G_N_ELEMENTS (parts), digits, into);
      minor->of_kind[k] = into[0];
      minor->earlier_of_kind[k] = into[1];
      minor->later_of_kind[k] = into[3];
      if (k == 0)
        minor->estimate = into[2];
      for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
        minor->is_shifted |= into[i] != cro_money_round (parts[i], digits);
    }
  minor->bought = minor->of_kind[0];
  minor->earlier = minor->earlier_of_kind[0];
}

/* Beside food that was bought. A stock is rounded by itself, for it closes one month and opens the next: what rounding
 * leaves goes into adjustments that were reckoned, and without any into the actual cost. */
static void
round_parts (const CroMonth *month,
             int             digits,
             CroMonthMinor  *minor)
{
  double food = month->purchases[0] + month->earlier[0] + or_0 (month->estimate);
  gint64 of_food = minor->bought + minor->earlier + minor->later_of_kind[0] + minor->estimate;
  gint64 into[N_PARTS], sum = of_food;
  double parts[N_PARTS] = { or_0 (month->opening), -or_0 (month->closing) };
  gboolean is_any_reckoned = FALSE;

  for (guint i = 0; i < CRO_N_ADJUSTMENT_KINDS; i++)
    {
      parts[N_STOCKS + i] = cro_month_sign_of (i) * month->adjustments[i];
      is_any_reckoned |= !is_whole (parts[N_STOCKS + i], digits);
    }
  minor->adds_up &= isnan (month->actual) || add_up (parts, N_PARTS, month->actual - food, digits);
  for (guint i = 0; i < N_PARTS; i++)
    into[i] = cro_money_round (parts[i], digits);
  if (!isnan (month->actual) && minor->adds_up && is_any_reckoned)
    share_out (minor->actual - of_food - into[0] - into[1], parts + N_STOCKS, CRO_N_ADJUSTMENT_KINDS, digits,
               into + N_STOCKS);
  for (guint i = 0; i < N_PARTS; i++)
    {
      minor->is_shifted |= into[i] != cro_money_round (parts[i], digits);
      sum += into[i];
    }
  if (!isnan (month->actual) && minor->adds_up)
    {
      minor->actual = sum;
      minor->over = isnan (month->over) ? minor->over : sum - minor->theoretical;
    }
  minor->is_shifted |= minor->actual != cro_money_round (or_0 (month->actual), digits)
                       || minor->over != cro_money_round (or_0 (month->over), digits);
  minor->opening = into[0];
  minor->closing = into[1];
  minor->used = into[0] + of_food + into[1];
  for (guint i = 0; i < CRO_N_ADJUSTMENT_KINDS; i++)
    {
      minor->adjustments[i] = into[N_STOCKS + i];
      if (cro_month_sign_of (i) == 0)
        minor->waste = cro_money_round (month->adjustments[i], digits);
    }
}

/* What was sold costs the same whether anything was counted or not, and so does what was entered in whole units: the
 * actual cost leads from the theoretical to the difference, and the difference to an actual cost that is whole. */
static void
round_costs (const CroMonth *month,
             int             digits,
             CroMonthMinor  *minor)
{
  minor->theoretical = cro_money_round (month->theoretical, digits);
  minor->actual = cro_money_round (or_0 (month->actual), digits);
  minor->over = cro_money_round (or_0 (month->over), digits);
  if (isnan (month->over))
    return;
  if (!is_whole (month->actual, digits))
    minor->actual = minor->theoretical + minor->over;
  minor->over = minor->actual - minor->theoretical;
}

void
cro_month_round (const CroMonth *month,
                 int             digits,
                 CroMonthMinor  *minor)
{
  double parts[] = { month->actual, -month->theoretical };

  memset (minor, 0, sizeof *minor);
  minor->net_sales = cro_money_round (month->net_sales, digits);
  minor->net_sales_costed = cro_money_round (month->net_sales_costed, digits);
  minor->adds_up = isnan (month->over) || add_up (parts, 2, month->over, digits);
  if (minor->adds_up)
    round_costs (month, digits, minor);
  else
    {
      minor->theoretical = cro_money_round (month->theoretical, digits);
      minor->actual = cro_money_round (month->actual, digits);
      minor->over = cro_money_round (month->over, digits);
    }
  round_purchases (month, digits, minor);
  round_parts (month, digits, minor);
}
