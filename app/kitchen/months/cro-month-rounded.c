#include "cro-month-rounded.h"

#include <math.h>
#include <string.h>

#include "cro-money.h"

/* Below half a millionth nothing was used. */
#define NOTHING 5e-7

/* What no plate that was sold takes has no standard to be held against: all of it is usage, at what it cost. */
static double
price_of (const CroMonthItem *item)
{
  return isnan (item->price_variance) ? 0 : item->price_variance;
}

static double
usage_of (const CroMonthItem *item)
{
  return isnan (item->usage_variance) ? item->actual_cost - item->theoretical_cost : item->usage_variance;
}

/* Whether an item has its price and usage; what was neither used nor to be used has none, as far as that is known. */
static gboolean
is_measured (const CroMonthItem *item)
{
  return !isnan (item->price_variance + item->usage_variance)
         || (item->known_theoretical != CRO_KNOWN_WHOLE && !isnan (item->actual_quantity))
         || fabs (item->actual_quantity) > NOTHING || fabs (usage_of (item)) > NOTHING;
}

static int
compare_variances (gconstpointer a,
                   gconstpointer b,
                   gpointer      items)
{
  const CroMonthItem *x = &g_array_index ((GArray *) items, CroMonthItem, *(const guint *) a);
  const CroMonthItem *y = &g_array_index ((GArray *) items, CroMonthItem, *(const guint *) b);
  double p = fabs (price_of (x) + usage_of (x)), q = fabs (price_of (y) + usage_of (y));

  if (p != q)
    return p > q ? -1 : 1;
  return strcmp (x->name, y->name);
}

GArray *
cro_month_list_measured (const CroMonth *month)
{
  GArray *indices = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < month->items->len; i++)
    if (is_measured (&g_array_index (month->items, CroMonthItem, i)))
      g_array_append_val (indices, i);
  g_array_sort_with_data (indices, compare_variances, month->items);
  return indices;
}

/* Rows of one total, and where each goes. */
typedef struct
{
  int     digits;
  GArray *parts;    /* double */
  GArray *into;     /* gint64 * */
} Rows;

static void
rows_begin (Rows *self,
            int   digits)
{
  self->digits = digits;
  self->parts = g_array_new (FALSE, FALSE, sizeof (double));
  self->into = g_array_new (FALSE, FALSE, sizeof (gint64 *));
}

static void
rows_add (Rows   *self,
          double  part,
          gint64 *into)
{
  g_array_append_val (self->parts, part);
  g_array_append_val (self->into, into);
}

static double
rows_sum (const Rows *self)
{
  double sum = 0;

  for (guint i = 0; i < self->parts->len; i++)
    sum += g_array_index (self->parts, double, i);
  return sum;
}

/* A total that is further off than rounding can be is not theirs, and not to be spread over rows that are
 * right. */
static void
rows_end (Rows   *self,
          gint64  total)
{
  guint n = self->parts->len;
  g_autofree guint64 *order = g_new (guint64, n + 1);
  g_autofree gint64 *minor = g_new (gint64, n + 1);
  double sum = rows_sum (self);

  if (!(fabs (sum * pow (10, self->digits) - (double) total) < n + 1))
    total = cro_money_round (sum, self->digits);
  cro_money_apportion (total, (const double *) (gpointer) self->parts->data, n, self->digits, order, minor);
  for (guint i = 0; i < n; i++)
    *g_array_index (self->into, gint64 *, i) = minor[i];
  g_array_unref (self->parts);
  g_array_unref (self->into);
}

static void
round_things (CroMonthRounded *self,
              const CroMonth  *month,
              int              digits)
{
  Rows costed, others, costs;

  rows_begin (&costed, digits);
  rows_begin (&others, digits);
  rows_begin (&costs, digits);
  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (month->things, CroMonthThing, i);

      rows_add (thing->kind == CRO_MONTH_OTHER ? &others : &costed, thing->net_revenue, &self->revenue[i]);
      if (thing->kind != CRO_MONTH_OTHER && !isnan (thing->theoretical))
        rows_add (&costs, thing->theoretical, &self->cost[i]);
    }
  rows_end (&costed, self->minor.net_sales_costed);
  rows_end (&others, self->minor.net_sales - self->minor.net_sales_costed);
  rows_end (&costs, self->minor.theoretical);
}

static void
round_theory (CroMonthRounded *self,
              const CroMonth  *month,
              int              digits)
{
  Rows rows;

  rows_begin (&rows, digits);
  for (guint i = 0; i < month->items->len; i++)
    rows_add (&rows, g_array_index (month->items, CroMonthItem, i).theoretical_cost, &self->theoretical[i]);
  for (guint i = 0; i < month->by_products->len; i++)
    rows_add (&rows, g_array_index (month->by_products, CroMonthByProduct, i).cost, &self->by_products[i]);
  rows_end (&rows, self->minor.theoretical);
}

/* What was not used after all has an actual cost that is rounded away. */
static void
round_actual (CroMonthRounded *self,
              const CroMonth  *month,
              int              digits)
{
  Rows rows;
  gint64 total;

  rows_begin (&rows, digits);
  for (guint i = 0; i < month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);

      if (is_measured (item))
        self->actual[i] = self->theoretical[i] + self->price[i] + self->usage[i];
      else if (!isnan (item->actual_cost))
        rows_add (&rows, item->actual_cost, &self->actual[i]);
    }
  total = cro_money_round (rows_sum (&rows), digits);
  rows_end (&rows, total);
}

/* Price and usage of all that was measured, from the statement's difference: what is beside them is rounded by itself,
 * so that it takes nothing of what rounding the stocks leaves. */
static gint64
round_measured (const CroMonthRounded *self,
                const CroMonth        *month,
                double                 measured,
                int                    digits)
{
  const CroMonthMinor *minor = &self->minor;
  double rest = month->over - measured - month->earlier[0] - (isnan (month->estimate) ? 0 : month->estimate);
  gint64 total = minor->over - minor->earlier - minor->later_of_kind[0] - minor->estimate;

  if (isnan (month->over) || !minor->adds_up)
    return cro_money_round (measured, digits);
  for (guint i = 0; i < month->by_products->len; i++)
    {
      rest += g_array_index (month->by_products, CroMonthByProduct, i).cost;
      total += self->by_products[i];
    }
  return total - cro_money_round (rest, digits);
}

static void
round_variances (CroMonthRounded *self,
                 const CroMonth  *month,
                 int              digits)
{
  g_autoptr (GArray) measured = cro_month_list_measured (month);
  Rows prices, usages;
  double both[2];
  guint64 order[2];
  gint64 kinds[2];

  rows_begin (&prices, digits);
  rows_begin (&usages, digits);
  for (guint i = 0; i < measured->len; i++)
    {
      guint at = g_array_index (measured, guint, i);
      const CroMonthItem *item = &g_array_index (month->items, CroMonthItem, at);

      rows_add (&prices, price_of (item), &self->price[at]);
      rows_add (&usages, usage_of (item), &self->usage[at]);
    }
  both[0] = rows_sum (&prices);
  both[1] = rows_sum (&usages);
  cro_money_apportion (round_measured (self, month, both[0] + both[1], digits), both, 2, digits, order, kinds);
  rows_end (&prices, kinds[0]);
  rows_end (&usages, kinds[1]);
}

CroMonthRounded *
cro_month_rounded_new (const CroMonth *month,
                       int             digits)
{
  CroMonthRounded *self = g_new0 (CroMonthRounded, 1);

  cro_month_round (month, digits, &self->minor);
  self->revenue = g_new0 (gint64, month->things->len + 1);
  self->cost = g_new0 (gint64, month->things->len + 1);
  self->theoretical = g_new0 (gint64, month->items->len + 1);
  self->price = g_new0 (gint64, month->items->len + 1);
  self->usage = g_new0 (gint64, month->items->len + 1);
  self->actual = g_new0 (gint64, month->items->len + 1);
  self->by_products = g_new0 (gint64, month->by_products->len + 1);
  round_things (self, month, digits);
  round_theory (self, month, digits);
  round_variances (self, month, digits);
  round_actual (self, month, digits);
  return self;
}

void
cro_month_rounded_free (CroMonthRounded *self)
{
  g_free (self->revenue);
  g_free (self->cost);
  g_free (self->theoretical);
  g_free (self->price);
  g_free (self->usage);
  g_free (self->actual);
  g_free (self->by_products);
  g_free (self);
}
