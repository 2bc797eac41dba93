#include "config.h"

#include "cro-month-went.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-words.h"

/* Names and three figures. */
#define N_COLUMNS 4

typedef struct
{
  const CroMonth *month;
  CroMonthMinor   minor;
  int             digits;
  const char     *of;       /* the group that is told of alone; NULL: all of them */
  CroMonthTable  *table;
} Went;

static gboolean
is_told (const Went *self,
         const char *group)
{
  return self->of == NULL || g_strcmp0 (self->of, group) == 0;
}

static const char *
category_of (const CroMonthItem *item)
{
  return item->category != NULL ? item->category : _("no category");
}

static const char *
course_of (const CroMonthThing *thing)
{
  if (thing->kind == CRO_MONTH_MENU)
    return _("menus");
  return thing->course != NULL ? thing->course : _("no course");
}

static char *
money (Went     *self,
       CroKnown  known,
       gint64    minor)
{
  return cro_month_table_money (known, minor, self->digits);
}

static char *
whole (Went   *self,
       gint64  minor)
{
  return money (self, CRO_KNOWN_WHOLE, minor);
}

static CroMonthTableRow *
add_sum (Went       *self,
         const char *name)
{
  CroMonthTableRow *row = cro_month_table_add (self->table, -1, name);

  row->is_sum = TRUE;
  return row;
}

/* --- By ingredient -------------------------------------------------------------------------- */

/* Of how much of what was bought the variances tell. */
static void
add_basis (Went   *self,
           GArray *items)
{
  double bought = self->month->purchases[0], of_items = 0;
  g_autofree char *share = NULL;

  for (guint i = 0; i < items->len; i++)
    of_items += g_array_index (items, CroMonthItem, i).bought;
  if (!(bought > 0))
    return;
  share = cro_words_pct_of (100 * of_items / bought, 1);
  /* Translators: %s is a percentage. */
  g_ptr_array_add (self->table->notes,
                   g_strdup_printf (_("Price and usage of what was counted and bought in amounts: %s of "
                                      "the food bought."),
                                    share));
}

static int
compare_variances (gconstpointer a,
                   gconstpointer b)
{
  const CroMonthItem *x = a, *y = b;
  double p = fabs (x->price_variance + x->usage_variance);
  double q = fabs (y->price_variance + y->usage_variance);

  if (p != q)
    return p > q ? -1 : 1;
  return g_strcmp0 (x->name, y->name);
}

static GArray *
dup_measured (const CroMonth *month)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (CroMonthItem));

  for (guint i = 0; i < month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);

      if (!isnan (item->price_variance + item->usage_variance))
        g_array_append_val (items, *item);
    }
  g_array_sort (items, compare_variances);
  return items;
}

static void
put_variances (Went             *self,
               CroMonthTableRow *row,
               gint64            price,
               gint64            usage)
{
  row->cells[1] = whole (self, price);
  row->cells[2] = whole (self, usage);
  row->cells[3] = whole (self, price + usage);
}

/* From what was measured to the difference of the statement. */
static void
add_difference (Went   *self,
                gint64  measured)
{
  const CroMonth *month = self->month;

  if (isnan (month->over))
    return;
  add_sum (self, _("without an ingredient, an amount or a count"))->cells[3]
      = money (self, month->known_over, self->minor.over - measured);
  add_sum (self, _("Actual less theoretical"))->cells[3] = money (self, month->known_over, self->minor.over);
}

/* The rows shown, and the others as one. */
static void
add_variances (Went   *self,
               GArray *items,
               guint   most)
{
  guint n = most > 0 ? MIN (items->len, most) : items->len, rows = n + (items->len > n);
  g_autofree double *parts = g_new0 (double, 2 * rows);
  g_autofree guint64 *order = g_new (guint64, 2 * rows);
  g_autofree gint64 *minor = g_new (gint64, 2 * rows);
  gint64 price = 0, usage = 0;
  double total = 0;

  for (guint i = 0; i < items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (items, CroMonthItem, i);
      guint row = MIN (i, rows - 1);

      parts[2 * row] += item->price_variance;
      parts[2 * row + 1] += item->usage_variance;
      total += item->price_variance + item->usage_variance;
    }
  cro_money_apportion (cro_money_round (total, self->digits), parts, 2 * rows, self->digits, order,
                       minor);
  for (guint i = 0; i < rows; i++)
    {
      if (i < n && !is_told (self, category_of (&g_array_index (items, CroMonthItem, i))))
        continue;
      put_variances (self,
                     i < n ? cro_month_table_add (self->table, (int) i,
                                                  g_array_index (items, CroMonthItem, i).name)
                           : cro_month_table_add (self->table, -1, _("others")),
                     minor[2 * i], minor[2 * i + 1]);
      price += minor[2 * i];
      usage += minor[2 * i + 1];
    }
  if (self->of != NULL)
    return;
  put_variances (self, add_sum (self, _("Total")), price, usage);
  add_difference (self, price + usage);
}

static void
tell_ingredients (Went  *self,
                  guint  most)
{
  g_autoptr (GArray) items = dup_measured (self->month);

  if (items->len == 0)
    return;
  add_variances (self, items, self->of != NULL ? 0 : most);
  if (self->of == NULL)
    add_basis (self, items);
}

/* --- By course, category and plate ---------------------------------------------------------- */

typedef struct
{
  const char *name;
  const char *group;
  double      sold, revenue, cost, actual;
} Sum;

static Sum *
sum_of (GArray     *sums,
        const char *name)
{
  Sum sum = { .name = name };

  for (guint i = 0; i < sums->len; i++)
    if (g_strcmp0 (g_array_index (sums, Sum, i).name, name) == 0)
      return &g_array_index (sums, Sum, i);
  g_array_append_val (sums, sum);
  return &g_array_index (sums, Sum, sums->len - 1);
}

static int
compare_sums (gconstpointer a,
              gconstpointer b)
{
  const Sum *x = a, *y = b;

  if (x->cost != y->cost)
    return x->cost > y->cost ? -1 : 1;
  return g_strcmp0 (x->name, y->name);
}

typedef double (*SumCell) (const Sum *sum);

static double
cell_revenue (const Sum *sum)
{
  return sum->revenue;
}

static double
cell_cost (const Sum *sum)
{
  return sum->cost;
}

static double
cell_actual (const Sum *sum)
{
  return sum->actual;
}

/* Money of a column, so that it adds up to its rounded total. */
static gint64 *
dup_column (Went    *self,
            GArray  *sums,
            SumCell  cell)
{
  g_autofree double *parts = g_new (double, sums->len + 1);
  g_autofree guint64 *order = g_new (guint64, sums->len + 1);
  gint64 *minor = g_new0 (gint64, sums->len + 1);
  double total = 0;

  for (guint i = 0; i < sums->len; i++)
    total += parts[i] = cell (&g_array_index (sums, Sum, i));
  cro_money_apportion (cro_money_round (total, self->digits), parts, sums->len, self->digits, order,
                       minor);
  return minor;
}

static gint64
sum_up (const gint64 *minor,
        guint         n)
{
  gint64 sum = 0;

  for (guint i = 0; i < n; i++)
    sum += minor[i];
  return sum;
}

/* What was sold, what for, and what that took. */
static void
add_sold (Went   *self,
          GArray *sums)
{
  g_autofree gint64 *revenue = NULL, *cost = NULL;

  g_array_sort (sums, compare_sums);
  revenue = dup_column (self, sums, cell_revenue);
  cost = dup_column (self, sums, cell_cost);
  for (guint i = 0; i < sums->len; i++)
    {
      const Sum *sum = &g_array_index (sums, Sum, i);
      CroMonthTableRow *row;

      if (!is_told (self, sum->group))
        continue;
      row = cro_month_table_add (self->table, (int) i, sum->name);
      row->cells[1] = cro_words_three_digits (sum->sold);
      row->cells[2] = whole (self, revenue[i]);
      row->cells[3] = whole (self, cost[i]);
    }
}

static GArray *
sums_of_things (const CroMonth *month,
                gboolean        is_by_course)
{
  GArray *sums = g_array_new (FALSE, FALSE, sizeof (Sum));

  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (month->things, CroMonthThing, i);
      Sum one = { .name = thing->name, .group = course_of (thing) }, *sum;

      if (thing->kind == CRO_MONTH_OTHER)
        continue;
      if (!is_by_course)
        {
          g_array_append_val (sums, one);
          sum = &g_array_index (sums, Sum, sums->len - 1);
        }
      else
        sum = sum_of (sums, course_of (thing));
      sum->sold += thing->sold;
      sum->revenue += thing->net_revenue;
      sum->cost += thing->theoretical;
    }
  return sums;
}

static void
tell_things (Went *self)
{
  g_autoptr (GArray) sums = sums_of_things (self->month, FALSE);

  add_sold (self, sums);
}

/* One course alone tells no more than the month does. */
static void
tell_courses (Went *self)
{
  g_autoptr (GArray) sums = sums_of_things (self->month, TRUE);

  if (sums->len > 1)
    add_sold (self, sums);
}

static char *
cost_or_none (Went     *self,
              CroKnown  known,
              double    value,
              gint64    minor)
{
  return isnan (value) ? NULL : money (self, known, minor);
}

/* From what was measured to the costs of the statement. */
static void
add_costs_beyond (Went         *self,
                  const gint64 *theoretical,
                  const gint64 *actual,
                  guint         n)
{
  const CroMonth *month = self->month;
  gint64 standard = sum_up (theoretical, n), used = sum_up (actual, n);
  CroMonthTableRow *row = add_sum (self, _("Total"));

  row->cells[1] = whole (self, standard);
  row->cells[2] = whole (self, used);
  row = add_sum (self, _("without an ingredient, an amount or a count"));
  row->cells[1] = money (self, month->known_theoretical, self->minor.theoretical - standard);
  row->cells[2] = cost_or_none (self, month->known_actual, month->actual, self->minor.actual - used);
  row = add_sum (self, _("Food cost"));
  row->cells[1] = money (self, month->known_theoretical, self->minor.theoretical);
  row->cells[2] = cost_or_none (self, month->known_actual, month->actual, self->minor.actual);
}

/* What was not measured of a category is in neither column. */
static void
tell_categories (Went *self)
{
  g_autoptr (GArray) sums = g_array_new (FALSE, FALSE, sizeof (Sum));
  g_autofree gint64 *cost = NULL, *actual = NULL;

  for (guint i = 0; i < self->month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (self->month->items, CroMonthItem, i);
      Sum *sum;

      if (isnan (item->actual_cost))
        continue;
      sum = sum_of (sums, category_of (item));
      sum->cost += item->theoretical_cost;
      sum->actual += item->actual_cost;
    }
  if (sums->len == 0)
    return;
  g_array_sort (sums, compare_sums);
  cost = dup_column (self, sums, cell_cost);
  actual = dup_column (self, sums, cell_actual);
  for (guint i = 0; i < sums->len; i++)
    {
      CroMonthTableRow *row
          = cro_month_table_add (self->table, (int) i, g_array_index (sums, Sum, i).name);

      row->cells[1] = whole (self, cost[i]);
      row->cells[2] = whole (self, actual[i]);
    }
  add_costs_beyond (self, cost, actual, sums->len);
}

/* --- All of them ---------------------------------------------------------------------------- */

static CroMonthTable *
table_of (CroWentBy by)
{
  const char *ingredients[] = { _("Where it went"), _("price"), _("usage"), _("together") };
  const char *things[] = { _("Plates and menus"), _("sold"), _("net sales"), _("theoretical") };
  const char *courses[] = { _("Courses"), _("sold"), _("net sales"), _("theoretical") };
  const char *categories[] = { _("Categories, of what was counted and bought in amounts"), _("theoretical"),
                               _("actual"), NULL };

  return cro_month_table_new (N_COLUMNS, by == CRO_WENT_BY_INGREDIENT ? ingredients
                                         : by == CRO_WENT_BY_THING    ? things
                                         : by == CRO_WENT_BY_COURSE   ? courses
                                                                      : categories);
}

CroMonthTable *
cro_month_went_new (const CroMonth *month,
                    CroWentBy       by,
                    const char     *of,
                    guint           most)
{
  Went self = { .month = month, .of = of, .digits = cro_currency_digits (month->currency),
                .table = table_of (by) };

  cro_month_round (month, self.digits, &self.minor);
  if (by == CRO_WENT_BY_INGREDIENT)
    tell_ingredients (&self, most);
  else if (by == CRO_WENT_BY_THING)
    tell_things (&self);
  else if (by == CRO_WENT_BY_COURSE)
    tell_courses (&self);
  else
    tell_categories (&self);
  if (self.table->rows->len == 0)
    g_clear_pointer (&self.table, cro_month_table_free);
  return self.table;
}

const char *
cro_month_went_title (CroWentBy by)
{
  const char *titles[] = { _("Ingredients"), _("Plates and menus"), _("Courses"), _("Categories") };

  return titles[by];
}
