#include "config.h"

#include "cro-cli-month.h"

#include <glib/gi18n.h>
#include <math.h>
#include <stdlib.h>

#include "cro-cli-grid.h"
#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-currency.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-words.h"

typedef struct
{
  CroModel       *model;
  const CroMonth *month;
  CroMonthMinor   minor;
  int             digits;
  CroGrid        *grid;
} Table;

/* --- The statement -------------------------------------------------------------------------- */

static char *
money (Table    *self,
       CroKnown  known,
       gint64    minor)
{
  return cro_words_take_short (known, cro_money_to_text (minor, self->digits));
}

static char *
pct (Table    *self,
     CroKnown  known,
     double    value,
     double    of)
{
  double part = of > 0 ? 100 * value / of : NAN;

  return isnan (part) ? NULL : cro_words_take_short (known, cro_words_pct_of (part, 1));
}

static CroKnown
known_sales (const CroMonth *month)
{
  return month->lacks_revenue ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE;
}

/* Takes name and text. */
static void
add_row (Table *self,
         guint  indent,
         char  *name,
         char  *text,
         char  *of_sales,
         char  *of_costed)
{
  char *cells[] = { name, text, of_sales, of_costed };

  cro_grid_take_row (self->grid, indent, cells);
}

static void
add_line (Table      *self,
          guint       indent,
          const char *name,
          CroKnown    known,
          gint64      minor)
{
  add_row (self, indent, g_strdup (name), money (self, known, minor), NULL, NULL);
}

static void
add_share (Table      *self,
           const char *name,
           CroKnown    known,
           gint64      minor,
           double      value)
{
  const CroMonth *month = self->month;
  CroKnown of = known_sales (month);

  add_row (self, 0, g_strdup (name), money (self, known, minor),
           pct (self, cro_known_of_sum (known, cro_known_turned (of)), value, month->net_sales),
           pct (self, cro_known_of_sum (known, cro_known_turned (of)), value,
                month->net_sales_costed));
}

/* A total that somebody else has, and how far apart they are; ours has an estimate, or NaN. */
static void
add_tie (Table      *self,
         const char *name,
         double      theirs,
         double      ours,
         double      estimate,
         CroKnown    known)
{
  gint64 apart = cro_money_round (ours, self->digits) - cro_money_round (theirs, self->digits);
  g_autofree char *difference = cro_money_to_text (apart, self->digits);

  if (isnan (theirs))
    return;
  add_row (self, 2, g_strdup (name), cro_words_money (self->model, theirs), NULL, NULL);
  if (known != CRO_KNOWN_WHOLE)
    return;
  if (apart == 0)
    cro_grid_add_note (self->grid, 4, _("agrees"));
  else
    {
      g_autofree char *part = isnan (estimate) ? NULL : cro_words_money (self->model, estimate);
      g_autofree char *note
          /* Translators: %s is money. */
          = part == NULL ? g_strdup_printf (_("%s difference"), difference)
                         /* Translators: both are money: what our total has more than a ledger, and the part
                          * of it that was estimated. */
                         : g_strdup_printf (_("%s difference, of which the estimate %s"), difference, part);

      cro_grid_add_note (self->grid, 4, note);
    }
}

static void
add_sales (Table *self)
{
  const CroMonth *month = self->month;
  CroKnown known = known_sales (month);

  add_row (self, 0, g_strdup (_("Net sales")), money (self, known, self->minor.net_sales), NULL, NULL);
  add_row (self, 2, g_strdup (_("of plates and menus")),
           money (self, known, self->minor.net_sales_costed), NULL, NULL);
  add_tie (self, _("till"), month->till, month->net_sales, NAN, known);
  cro_grid_add_gap (self->grid);
}

/* Stock at the close of a day: what it is worth and how that is known. */
static void
add_stock (Table  *self,
           CroDate day,
           double  stock,
           CroKnown known,
           gint64  minor,
           guint   n_items)
{
  g_autofree char *date = cro_date_to_text (day);

  add_row (self, 0, cro_isolate_printf (_("Stock on %s"), date),
           isnan (stock) ? g_strdup ("–") : money (self, known, minor), NULL, NULL);
  if (isnan (stock))
    cro_grid_add_note (self->grid, 2, _("neither counted nor entered"));
  else if (n_items == 0)
    cro_grid_add_note (self->grid, 2, _("entered as one sum"));
  else
    {
      g_autofree char *note = g_strdup_printf (ngettext ("%u item counted", "%u items counted",
                                                         n_items),
                                               n_items);

      cro_grid_add_note (self->grid, 2, note);
    }
}

static guint
kind_at (const char *code)
{
  guint i = 0;

  while (g_strcmp0 (cro_adjustment_kind_codes[i], code) != 0)
    i++;
  return i;
}

static void
add_adjustment (Table      *self,
                const char *code,
                const char *name)
{
  guint kind = kind_at (code);
  gint64 minor = self->minor.adjustments[kind];
  CroKnown known = self->month->known_adjustments[kind];

  if (minor != 0 || known != CRO_KNOWN_WHOLE)
    add_line (self, 0, name, cro_month_sign_of (kind) < 0 ? cro_known_turned (known) : known, minor);
}

/* In the order of Dittmer and Keefe, chapter 8: what was issued, transferred and given away, then what
 * the staff ate. */
static void
add_used (Table *self)
{
  const CroMonth *month = self->month;

  add_stock (self, month->first - 1, month->opening, month->known_opening, self->minor.opening,
             month->n_opening);
  add_line (self, 0, _("Food bought"), CRO_KNOWN_WHOLE, self->minor.bought);
  if (self->minor.earlier != 0)
    add_line (self, 0, _("Food of earlier months"), CRO_KNOWN_WHOLE, self->minor.earlier);
  if (!isnan (month->estimate))
    add_line (self, 0, _("Food not invoiced yet"), CRO_KNOWN_WHOLE, self->minor.estimate);
  add_stock (self, cro_month_next (month->first) - 1, month->closing,
             cro_known_turned (month->known_closing), self->minor.closing, month->n_closing);
  if (!isnan (month->actual))
    add_line (self, 0, _("Food used"), cro_month_known_used (month), self->minor.used);
  add_adjustment (self, "transfer-in", _("transferred in"));
  add_adjustment (self, "transfer-out", _("transferred out"));
  add_adjustment (self, "promotion", _("complimentary"));
  add_adjustment (self, "other", _("other adjustments"));
  add_adjustment (self, "staff-meal", _("staff meals"));
}

static void
add_costs (Table *self)
{
  const CroMonth *month = self->month;

  if (isnan (month->actual))
    add_row (self, 0, g_strdup (_("Actual food cost")), g_strdup (_("not known yet")), NULL, NULL);
  else
    add_share (self, _("Actual food cost"), month->known_actual, self->minor.actual, month->actual);
  add_share (self, _("Theoretical food cost"), month->known_theoretical, self->minor.theoretical,
             month->theoretical);
  if (!isnan (month->over))
    add_share (self, month->over < 0 ? _("Under") : _("Over"),
               month->over < 0 ? cro_known_turned (month->known_over) : month->known_over,
               month->over < 0 ? -self->minor.over : self->minor.over, fabs (month->over));
  if (self->minor.waste != 0)
    add_line (self, 2, _("known waste explains"), month->known_adjustments[kind_at ("waste")],
              self->minor.waste);
  cro_grid_add_gap (self->grid);
}

static void
add_other_purchases (Table *self)
{
  const CroMonth *month = self->month;

  add_line (self, 0, _("Disposables bought"), CRO_KNOWN_WHOLE,
            cro_money_round (month->purchases[1] + month->earlier[1], self->digits));
  add_line (self, 0, _("Other purchases"), CRO_KNOWN_WHOLE,
            cro_money_round (month->purchases[2] + month->earlier[2], self->digits));
  add_line (self, 0, _("All purchases"), CRO_KNOWN_WHOLE,
            cro_money_round (cro_month_all_purchases (month), self->digits));
  add_tie (self, _("ledger"), month->ledger, cro_month_all_purchases (month), month->estimate, CRO_KNOWN_WHOLE);
}

static void
print_statement (Table *self)
{
  const char *titles[] = { NULL, NULL, _("of net sales"), _("of plates and menus") };
  g_autoptr (CroGrid) grid = cro_grid_new (4);
  g_autofree char *control = cro_month_average_words (self->model, self->month);

  self->grid = grid;
  cro_grid_add_head (grid, titles);
  add_sales (self);
  add_used (self);
  add_costs (self);
  add_other_purchases (self);
  cro_grid_print (grid);
  g_print ("\n");
  if (!self->minor.adds_up)
    cro_cli_print_wrapped (_("These lines do not add up: what closing froze was changed. The command check "
                             "says in which months."),
                           0);
  if (control != NULL)
    cro_cli_print_wrapped (control, 0);
  cro_cli_print_wrapped (_("Stock is valued at the food cost of the day of its count, which comes close to "
                           "first in, first out (IAS 2). These are working papers for an accountant."),
                         0);
}

/* --- Questions ------------------------------------------------------------------------------ */

#define MOST_QUESTIONS 30

static void
print_questions (Table *self)
{
  const CroMonth *month = self->month;

  if (month->questions->len == 0)
    return;
  g_print ("\n");
  cro_cli_print_wrapped (_("Questions"), 0);
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);
      g_autofree char *words = cro_month_question_words (question);
      g_autofree char *explains = cro_month_explains_words (self->model, question);
      g_autofree char *line = explains != NULL ? g_strdup_printf ("%s (%s)", words, explains)
                                               : g_strdup (words);

      if (i == MOST_QUESTIONS)
        {
          guint others = month->questions->len - i;
          g_autofree char *more = g_strdup_printf (ngettext ("and %u other", "and %u others", others),
                                                   others);

          cro_cli_print_wrapped (more, 2);
          break;
        }
      cro_cli_print_wrapped (line, 2);
    }
}

/* --- Where it went -------------------------------------------------------------------------- */

#define MOST_ROWS 12

/* Of how much of what was bought the variances tell. */
static void
print_basis (Table  *self,
             GArray *items)
{
  double bought = self->month->purchases[0], of_items = 0;
  g_autofree char *share = NULL, *text = NULL;

  for (guint i = 0; i < items->len; i++)
    of_items += g_array_index (items, CroMonthItem, i).bought;
  if (!(bought > 0))
    return;
  share = cro_words_pct_of (100 * of_items / bought, 1);
  /* Translators: %s is a percentage. */
  text = g_strdup_printf (_("Price and usage of what was counted and bought in amounts: %s of the food "
                            "bought."),
                          share);
  cro_cli_print_wrapped (text, 0);
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

/* The rows shown, and the others as one: columns add up to what is rounded first. */
static void
add_variances (Table  *self,
               GArray *items)
{
  guint n = MIN (items->len, MOST_ROWS), rows = n + (items->len > n);
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
      add_row (self, 0,
               i < n ? g_strdup (g_array_index (items, CroMonthItem, i).name) : g_strdup (_("others")),
               cro_money_to_text (minor[2 * i], self->digits),
               cro_money_to_text (minor[2 * i + 1], self->digits),
               cro_money_to_text (minor[2 * i] + minor[2 * i + 1], self->digits));
      price += minor[2 * i];
      usage += minor[2 * i + 1];
    }
  add_row (self, 0, g_strdup (_("Total")), cro_money_to_text (price, self->digits),
           cro_money_to_text (usage, self->digits), cro_money_to_text (price + usage, self->digits));
  if (isnan (self->month->over))
    return;
  add_row (self, 0, g_strdup (_("without an ingredient, an amount or a count")), NULL, NULL,
           money (self, self->month->known_over, self->minor.over - price - usage));
  add_row (self, 0, g_strdup (_("Actual less theoretical")), NULL, NULL,
           money (self, self->month->known_over, self->minor.over));
}

static void
print_variances (Table *self)
{
  const char *titles[] = { _("Where it went"), _("price"), _("usage"), _("together") };
  g_autoptr (GArray) items = dup_measured (self->month);
  g_autoptr (CroGrid) grid = cro_grid_new (4);

  if (items->len == 0)
    return;
  self->grid = grid;
  cro_grid_add_head (grid, titles);
  add_variances (self, items);
  g_print ("\n");
  cro_grid_print (grid);
  print_basis (self, items);
}

/* --- By course, category and plate ---------------------------------------------------------- */

typedef struct
{
  const char *name;
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

/* cells: of the sums, in the order of what one() gives; NULL: none. */
typedef double (*SumCell) (const Sum *sum);

static double
cell_sold (const Sum *sum)
{
  return sum->sold;
}

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
dup_column (Table   *self,
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

static char *
cost_or_none (Table   *self,
              CroKnown known,
              double   value,
              gint64   minor)
{
  return isnan (value) ? NULL : money (self, known, minor);
}

/* From what was measured to the costs of the statement. */
static void
add_costs_beyond (Table        *self,
                  const gint64 *theoretical,
                  const gint64 *actual,
                  guint         n)
{
  const CroMonth *month = self->month;
  gint64 standard = sum_up (theoretical, n), used = sum_up (actual, n);

  add_row (self, 0, g_strdup (_("Total")), cro_money_to_text (standard, self->digits),
           cro_money_to_text (used, self->digits), NULL);
  add_row (self, 0, g_strdup (_("without an ingredient, an amount or a count")),
           money (self, month->known_theoretical, self->minor.theoretical - standard),
           cost_or_none (self, month->known_actual, month->actual, self->minor.actual - used), NULL);
  add_row (self, 0, g_strdup (_("Food cost")),
           money (self, month->known_theoretical, self->minor.theoretical),
           cost_or_none (self, month->known_actual, month->actual, self->minor.actual), NULL);
}

static void
print_sums (Table             *self,
            GArray            *sums,
            const char *const *titles,
            SumCell            first,
            SumCell            second,
            SumCell            third,
            gboolean           leads_to_costs)
{
  g_autofree gint64 *two = NULL, *three = NULL;
  g_autofree gint64 *one = NULL;
  g_autoptr (CroGrid) grid = cro_grid_new (4);

  if (sums->len == 0)
    return;
  g_array_sort (sums, compare_sums);
  one = first != cell_sold ? dup_column (self, sums, first) : NULL;
  two = dup_column (self, sums, second);
  three = third != NULL ? dup_column (self, sums, third) : NULL;
  self->grid = grid;
  cro_grid_add_head (grid, titles);
  for (guint i = 0; i < sums->len; i++)
    {
      const Sum *sum = &g_array_index (sums, Sum, i);

      add_row (self, 0, g_strdup (sum->name),
               one != NULL ? cro_money_to_text (one[i], self->digits)
                           : cro_words_three_digits (sum->sold),
               cro_money_to_text (two[i], self->digits),
               three != NULL ? cro_money_to_text (three[i], self->digits) : NULL);
    }
  if (leads_to_costs)
    add_costs_beyond (self, one, two, sums->len);
  g_print ("\n");
  cro_grid_print (grid);
}

static void
print_things (Table *self)
{
  const char *plates[] = { _("Plates and menus"), _("sold"), _("net sales"), _("theoretical") };
  const char *courses[] = { _("Courses"), _("sold"), _("net sales"), _("theoretical") };
  g_autoptr (GArray) things = g_array_new (FALSE, FALSE, sizeof (Sum));
  g_autoptr (GArray) by_course = g_array_new (FALSE, FALSE, sizeof (Sum));

  for (guint i = 0; i < self->month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (self->month->things, CroMonthThing, i);
      Sum sum = { thing->name, thing->sold, thing->net_revenue, thing->theoretical, 0 };
      Sum *course;

      if (thing->kind == CRO_MONTH_OTHER)
        continue;
      g_array_append_val (things, sum);
      course = sum_of (by_course, thing->kind == CRO_MONTH_MENU ? _("menus")
                                  : thing->course != NULL       ? thing->course
                                                                : _("no course"));
      course->sold += sum.sold;
      course->revenue += sum.revenue;
      course->cost += sum.cost;
    }
  print_sums (self, things, plates, cell_sold, cell_revenue, cell_cost, FALSE);
  if (by_course->len > 1)
    print_sums (self, by_course, courses, cell_sold, cell_revenue, cell_cost, FALSE);
}

/* What was not measured of a category is in neither column. */
static void
print_categories (Table *self)
{
  const char *titles[] = { _("Categories, of what was counted and bought in amounts"), _("theoretical"),
                           _("actual"), NULL };
  g_autoptr (GArray) sums = g_array_new (FALSE, FALSE, sizeof (Sum));

  for (guint i = 0; i < self->month->items->len; i++)
    {
      const CroMonthItem *item = &g_array_index (self->month->items, CroMonthItem, i);
      Sum *sum;

      if (isnan (item->actual_cost))
        continue;
      sum = sum_of (sums, item->category != NULL ? item->category : _("no category"));
      sum->cost += item->theoretical_cost;
      sum->actual += item->actual_cost;
    }
  print_sums (self, sums, titles, cell_cost, cell_actual, NULL, TRUE);
}

/* --- All of it ------------------------------------------------------------------------------ */

static void
print_title (Table   *self,
             CroBook *book)
{
  const CroMonth *month = self->month;
  const char *name = self->model->name != NULL ? self->model->name : _("Book");
  const char *currency = month->currency != NULL ? month->currency : _("no currency");
  g_autofree char *text = cro_month_to_text (month->first);
  g_autofree char *recipes = cro_date_to_text (month->recipes_on);
  g_autofree char *title
      /* Translators: a book, a month and its year, a date, a currency. */
      = month->is_closed ? cro_isolate_printf (_("%s, %s, closed, recipes of %s, %s"), name, text,
                                               recipes, currency)
                         : cro_isolate_printf (_("%s, %s, open, recipes of %s, %s"), name, text, recipes,
                                               currency);

  cro_cli_print_wrapped (title, 0);
  g_print ("\n");
}

void
cro_cli_print_month_table (CroBook        *book,
                           const CroMonth *month)
{
  Table self = { .model = cro_book_get_model (book), .month = month,
                 .digits = cro_currency_digits (month->currency) };

  cro_month_round (month, self.digits, &self.minor);
  print_title (&self, book);
  print_statement (&self);
  print_questions (&self);
  print_variances (&self);
  print_things (&self);
  print_categories (&self);
}
