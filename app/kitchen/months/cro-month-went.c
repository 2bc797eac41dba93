#include "config.h"

#include "cro-month-went.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-month-rounded.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-words.h"

/* Names and three figures. */
#define N_COLUMNS 4

typedef struct
{
  const CroMonth  *month;
  CroMonthRounded *rounded;
  int              digits;
  const char      *of;      /* the group that is told of alone; NULL: all of them */
  CroMonthTable   *table;
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

static const CroMonthItem *
item_at (const Went *self,
         GArray     *measured,
         guint       i)
{
  return &g_array_index (self->month->items, CroMonthItem, g_array_index (measured, guint, i));
}

/* Of how much of what was bought the variances tell. */
static void
add_basis (Went   *self,
           GArray *measured)
{
  double bought = self->month->purchases[0] + cro_month_late (self->month, 0), of_items = 0;
  g_autofree char *share = NULL;

  for (guint i = 0; i < measured->len; i++)
    of_items += item_at (self, measured, i)->bought;
  if (!(bought > 0))
    return;
  share = cro_words_pct_of (100 * of_items / bought, 1);
  /* Translators: %s is a percentage. */
  g_ptr_array_add (self->table->notes,
                   g_strdup_printf (of_items > bought
                                        /* Translators: %s is a percentage above 100. */
                                        ? _("Price and usage of what was counted and bought in amounts: %s of "
                                            "the food bought, from which credits without an amount are taken off.")
                                        : _("Price and usage of what was counted and bought in amounts: %s of "
                                            "the food bought."),
                                    share));
}

typedef struct
{
  gint64   price, usage, together;  /* together: with what is known of neither alone */
  CroKnown known, known_together;   /* of each, and of both together */
} Variances;

static void
put_variances (Went             *self,
               CroMonthTableRow *row,
               const Variances  *of)
{
  row->cells[1] = money (self, of->known, of->price);
  row->cells[2] = money (self, of->known, of->usage);
  row->cells[3] = money (self, of->known_together, of->together);
}

/* What is not known at all of one leaves the sum without a bound. */
static CroKnown
known_beside (CroKnown sum,
              CroKnown part)
{
  return cro_known_of_sum (sum, part != CRO_KNOWN_NOTHING ? part : CRO_KNOWN_IN_PART);
}

static void
add_to (Variances       *sum,
        const Variances *part)
{
  /* A row that shows neither has no part in their sums. */
  sum->price += part->known != CRO_KNOWN_NOTHING ? part->price : 0;
  sum->usage += part->known != CRO_KNOWN_NOTHING ? part->usage : 0;
  sum->together += part->together;
  sum->known = known_beside (sum->known, part->known);
  sum->known_together = known_beside (sum->known_together, part->known_together);
}

const char *
cro_month_went_apart (void)
{
  return _("food of earlier months and not invoiced yet");
}

/* What of the actual cost was not delivered and invoiced in the month, or is booked in another one. */
static gint64
apart_of (const Went *self)
{
  const CroMonthMinor *minor = &self->rounded->minor;

  return minor->earlier + minor->estimate + minor->later_of_kind[0];
}

static void
add_apart (Went  *self,
           guint  column)
{
  const CroMonthMinor *minor = &self->rounded->minor;

  if (minor->earlier + minor->estimate != 0)
    add_sum (self, cro_month_went_apart ())->cells[column] = whole (self, minor->earlier + minor->estimate);
  if (minor->later_of_kind[0] != 0)
    add_sum (self, cro_month_later_name (0))->cells[column] = whole (self, minor->later_of_kind[0]);
}

/* What is deducted from the theoretical cost for by-products at a value, each by its name: measured of no ingredient,
 * it stands beside them. Returns their sum. sign: 1, of costs; -1, of what they exceed. */
static gint64
add_by_products (Went  *self,
                 guint  column,
                 int    sign)
{
  gint64 sum = 0;

  for (guint i = 0; i < self->month->by_products->len; i++)
    {
      gint64 minor = sign * self->rounded->by_products[i];
      g_autofree char *label = cro_isolate_printf (_("by-product: %s"),
                                                   g_array_index (self->month->by_products, CroMonthByProduct, i).name);

      sum += minor;
      if (minor != 0)
        cro_month_table_add (self->table, -1, label)->cells[column]
            = money (self, cro_month_known_by_products (self->month), minor);
    }
  return sum;
}

const char *
cro_month_went_rest (const CroMonth *month)
{
  return month->by_products->len > 0 ? _("by-products in stock; without an ingredient or count")
                                     : _("without an ingredient, an amount or a count");
}

/* From what was measured to the difference of the statement. */
static void
add_difference (Went   *self,
                gint64  measured)
{
  const CroMonth *month = self->month;
  gint64 by_products;

  if (isnan (month->over))
    return;
  add_apart (self, 3);
  by_products = add_by_products (self, 3, -1);
  add_sum (self, cro_month_went_rest (self->month))->cells[3]
      = money (self, month->known_rest, self->rounded->minor.over - measured - apart_of (self) - by_products);
  add_sum (self, _("Actual less theoretical"))->cells[3] = money (self, month->known_over, self->rounded->minor.over);
}

/* The rows shown, and the others as one. */
static void
add_variances (Went   *self,
               GArray *measured,
               guint   most)
{
  Variances others = { 0 }, sum = { 0 };
  guint n_others = 0;

  for (guint i = 0; i < measured->len; i++)
    {
      guint at = g_array_index (measured, guint, i);
      const CroMonthItem *item = item_at (self, measured, i);
      gint64 price = self->rounded->price[at], usage = self->rounded->usage[at];
      Variances one = { price, usage, price + usage, cro_month_known_variance (item),
                        cro_month_known_together (item) };

      add_to (&sum, &one);
      if (most > 0 && i >= most)
        {
          add_to (&others, &one);
          n_others++;
        }
      else if (is_told (self, category_of (item)))
        put_variances (self, cro_month_table_add (self->table, (int) i, item->name), &one);
    }
  if (n_others > 0)
    put_variances (self, cro_month_table_add (self->table, -1, _("others")), &others);
  if (self->of != NULL)
    return;
  put_variances (self, add_sum (self, _("Total")), &sum);
  add_difference (self, sum.together);
}

static void
tell_ingredients (Went  *self,
                  guint  most)
{
  g_autoptr (GArray) measured = cro_month_list_measured (self->month);

  if (measured->len == 0)
    return;
  add_variances (self, measured, self->of != NULL ? 0 : most);
  if (self->of == NULL)
    add_basis (self, measured);
}

/* --- By course, category and plate ---------------------------------------------------------- */

typedef struct
{
  const char *name;
  const char *group;
  double      sold, cost;
  gint64      minor[2];     /* net sales and theoretical, or theoretical and actual … */
  CroKnown    known[2];     /* … and how much is known of each */
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

/* What was sold, what for, and what that took. */
static void
add_sold (Went   *self,
          GArray *sums)
{
  g_array_sort (sums, compare_sums);
  for (guint i = 0; i < sums->len; i++)
    {
      const Sum *sum = &g_array_index (sums, Sum, i);
      CroMonthTableRow *row;

      if (!is_told (self, sum->group))
        continue;
      row = cro_month_table_add (self->table, (int) i, sum->name);
      row->cells[1] = cro_words_three_digits (sum->sold);
      row->cells[2] = money (self, sum->known[0], sum->minor[0]);
      row->cells[3] = money (self, sum->known[1], sum->minor[1]);
    }
}

static GArray *
sums_of_things (const Went *self,
                gboolean    is_by_course)
{
  const CroMonth *month = self->month;
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
      sum->cost += thing->theoretical;
      sum->minor[0] += self->rounded->revenue[i];
      sum->minor[1] += self->rounded->cost[i];
      sum->known[0] = cro_known_of_sum (sum->known[0], thing->known_revenue);
      sum->known[1] = cro_month_known_add (sum->known[1], cro_month_known_cost_of (thing));
    }
  return sums;
}

static void
tell_things (Went *self)
{
  g_autoptr (GArray) sums = sums_of_things (self, FALSE);

  add_sold (self, sums);
}

/* One course alone tells no more than the month does. */
static void
tell_courses (Went *self)
{
  g_autoptr (GArray) sums = sums_of_things (self, TRUE);

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
add_costs_beyond (Went     *self,
                  gint64    standard,
                  CroKnown  known,
                  gint64    used,
                  CroKnown  known_used)
{
  const CroMonth *month = self->month;
  CroMonthTableRow *row = add_sum (self, _("Total"));
  gint64 by_products;

  row->cells[1] = money (self, known, standard);
  row->cells[2] = money (self, known_used, used);
  add_apart (self, 2);
  by_products = add_by_products (self, 1, 1);
  row = add_sum (self, cro_month_went_rest (self->month));
  row->cells[1] = money (self, month->known_theoretical, self->rounded->minor.theoretical - standard - by_products);
  row->cells[2] = cost_or_none (self, cro_month_known_rest_used (month), month->actual,
                                self->rounded->minor.actual - used - apart_of (self));
  row = add_sum (self, _("Food cost"));
  row->cells[1] = money (self, month->known_theoretical, self->rounded->minor.theoretical);
  row->cells[2] = cost_or_none (self, month->known_actual, month->actual, self->rounded->minor.actual);
}

/* What was not measured of a category is in neither column. */
static void
tell_categories (Went *self)
{
  g_autoptr (GArray) sums = g_array_new (FALSE, FALSE, sizeof (Sum));
  gint64 standard = 0, used = 0;
  CroKnown known[2] = { CRO_KNOWN_WHOLE, CRO_KNOWN_WHOLE };

  for (guint i = 0; i < self->month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (self->month->items, CroMonthItem, i);
      Sum *sum;

      if (isnan (item->actual_cost))
        continue;
      sum = sum_of (sums, category_of (item));
      sum->cost += item->theoretical_cost;
      sum->minor[0] += self->rounded->theoretical[i];
      sum->minor[1] += self->rounded->actual[i];
      sum->known[0] = cro_month_known_add (sum->known[0], item->known_theoretical);
      sum->known[1] = known_beside (sum->known[1], item->known_actual);
      standard += self->rounded->theoretical[i];
      used += self->rounded->actual[i];
    }
  if (sums->len == 0)
    return;
  g_array_sort (sums, compare_sums);
  for (guint i = 0; i < sums->len; i++)
    {
      const Sum *sum = &g_array_index (sums, Sum, i);
      CroMonthTableRow *row = cro_month_table_add (self->table, (int) i, sum->name);

      row->cells[1] = money (self, sum->known[0], sum->minor[0]);
      row->cells[2] = money (self, sum->known[1], sum->minor[1]);
      known[0] = cro_month_known_add (known[0], sum->known[0]);
      known[1] = known_beside (known[1], sum->known[1]);
    }
  add_costs_beyond (self, standard, known[0], used, known[1]);
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

  self.rounded = cro_month_rounded_new (month, self.digits);
  if (by == CRO_WENT_BY_INGREDIENT)
    tell_ingredients (&self, most);
  else if (by == CRO_WENT_BY_THING)
    tell_things (&self);
  else if (by == CRO_WENT_BY_COURSE)
    tell_courses (&self);
  else
    tell_categories (&self);
  cro_month_rounded_free (self.rounded);
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
