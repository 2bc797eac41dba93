/* Where a month's food went: by ingredient, category and course; by what was sold; the mix of that. */
#include "config.h"

#include "cro-office-report.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-figure-words.h"
#include "cro-money.h"
#include "cro-month-matrix.h"
#include "cro-words.h"

#define FIRST CRO_WORKBOOK_REPORT_ROW

static double
or_0 (double value)
{
  return isnan (value) ? 0 : value;
}

static CroKnown
known_thing (const CroMonthThing *thing)
{
  return !thing->is_incomplete ? CRO_KNOWN_WHOLE
         : thing->has_credit   ? CRO_KNOWN_IN_PART
                               : CRO_KNOWN_AT_LEAST;
}

static void
put_money (CroOfficeReport *report,
           CroOfficeSheet  *sheet,
           gint64           minor,
           CroKnown         known)
{
  cro_office_sheet_number (sheet, cro_office_report_money (report, minor), known);
}

static void
put_sum (CroOfficeReport *report,
         CroOfficeSheet  *sheet,
         gint64           minor,
         CroKnown         known)
{
  cro_office_sheet_sum (sheet, FIRST, cro_office_report_money (report, minor), known);
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

static const char *
unit_of (CroBase base)
{
  return cro_words_unit (cro_base_unit (base));
}

/* --- Theoretical against actual, by ingredient ----------------------------------------------
 * A name · B category · C theoretical · D price · E usage · F together · G actual */

static int
compare_variances (gconstpointer a,
                   gconstpointer b)
{
  const CroMonthItem *x = *(CroMonthItem *const *) a, *y = *(CroMonthItem *const *) b;
  double p = fabs (x->price_variance + x->usage_variance), q = fabs (y->price_variance + y->usage_variance);

  if (p != q)
    return p > q ? -1 : 1;
  return strcmp (x->name, y->name);
}

/* What variances tell of, those that moved most money first. Elements CroMonthItem *, borrowed. */
static GPtrArray *
dup_measured (const CroMonth *month)
{
  GPtrArray *items = g_ptr_array_new ();

  for (guint i = 0; i < month->items->len; i++)
    {
      CroMonthItem *item = &g_array_index (month->items, CroMonthItem, i);

      if (!isnan (item->price_variance + item->usage_variance))
        g_ptr_array_add (items, item);
    }
  g_ptr_array_sort (items, compare_variances);
  return items;
}

/* Minor units of the measured, in their order. */
typedef struct
{
  gint64 *theoretical;
  gint64 *variances;    /* price and usage in turn */
} Measured;

static Measured
round_measured (CroOfficeReport *report,
                GPtrArray       *items)
{
  g_autofree double *theoretical = g_new (double, items->len + 1);
  g_autofree double *variances = g_new (double, 2 * items->len + 1);
  double of_theory = 0, of_variances = 0;

  for (guint i = 0; i < items->len; i++)
    {
      const CroMonthItem *item = items->pdata[i];

      of_theory += theoretical[i] = item->theoretical_cost;
      of_variances += variances[2 * i] = item->price_variance;
      of_variances += variances[2 * i + 1] = item->usage_variance;
    }
  return (Measured){
    cro_office_report_parts (report, cro_money_round (of_theory, report->digits), theoretical, items->len),
    cro_office_report_parts (report, cro_money_round (of_variances, report->digits), variances, 2 * items->len)
  };
}

static void
put_variance_columns (CroOfficeSheet *sheet,
                      const char     *first)
{
  cro_office_sheet_column (sheet, first, CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Category"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Theoretical food cost"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("Price"), CRO_WORKBOOK_COLUMN_MONEY);
  /* Translators: how much was used, against how much should have been. */
  cro_office_sheet_column (sheet, _("Usage"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("Price and usage"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("Actual food cost"), CRO_WORKBOOK_COLUMN_MONEY);
}

static void
put_both (CroOfficeReport *report,
          CroOfficeSheet  *sheet,
          gint64           theoretical,
          gint64           price,
          gint64           usage)
{
  g_autofree char *both = g_strdup_printf ("=ROUND(D#+E#,%d)", report->digits);
  g_autofree char *actual = g_strdup_printf ("=ROUND(C#+F#,%d)", report->digits);

  put_money (report, sheet, theoretical, CRO_KNOWN_WHOLE);
  put_money (report, sheet, price, CRO_KNOWN_WHOLE);
  put_money (report, sheet, usage, CRO_KNOWN_WHOLE);
  cro_office_sheet_formula (sheet, both, cro_office_report_money (report, price + usage), CRO_KNOWN_WHOLE);
  cro_office_sheet_formula (sheet, actual, cro_office_report_money (report, theoretical + price + usage),
                            CRO_KNOWN_WHOLE);
}

/* From what was measured to the costs of the statement. */
static void
put_rest (CroOfficeReport *report,
          CroOfficeSheet  *sheet,
          gint64           theoretical,
          gint64           variances)
{
  const CroMonth *month = report->month;
  const CroMonthMinor *minor = &report->minor;
  guint32 total = cro_office_sheet_at (sheet);
  static const char columns[] = { 'C', 'F', 'G' };
  gint64 measured[] = { theoretical, variances, theoretical + variances };
  gint64 all[] = { minor->theoretical, minor->over, minor->actual };
  CroKnown known[] = { month->known_theoretical, month->known_over, month->known_actual };
  gboolean is_there = !isnan (month->over);

  for (guint line = 0; line < 2; line++)
    {
      cro_office_sheet_row (sheet, line == 0 ? CRO_WORKBOOK_ROW_PLAIN : CRO_WORKBOOK_ROW_TOTAL);
      cro_office_sheet_text (sheet, line == 0 ? _("without an ingredient, an amount or a count")
                                              : _("Food cost of the statement"));
      cro_office_sheet_skip (sheet);
      for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
        {
          g_autofree char *formula = g_strdup_printf ("=ROUND(%c%u+%c%u,%d)", columns[i], total, columns[i],
                                                      total + 1, report->digits);

          if (i == 1)
            {
              cro_office_sheet_skip (sheet);
              cro_office_sheet_skip (sheet);
            }
          if (i > 0 && !is_there)
            cro_office_sheet_skip (sheet);
          else if (line == 0)
            put_money (report, sheet, all[i] - measured[i], known[i]);
          else
            cro_office_sheet_formula (sheet, formula, cro_office_report_money (report, all[i]), known[i]);
        }
    }
}

void
cro_office_add_variances (CroOfficeReport *report)
{
  g_autoptr (GPtrArray) items = dup_measured (report->month);
  Measured minor;
  CroOfficeSheet *sheet;
  gint64 theoretical = 0, price = 0, usage = 0;

  if (items->len == 0)
    return;
  minor = round_measured (report, items);
  sheet = cro_office_report_sheet (report, _("Theoretical and actual"), _("Theoretical against actual, by ingredient"),
                                   _("Of what was counted at both ends and bought in amounts."));
  put_variance_columns (sheet, _("Ingredient"));
  for (guint i = 0; i < items->len; i++)
    {
      const CroMonthItem *item = items->pdata[i];

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, item->name);
      cro_office_sheet_text (sheet, item->category);
      put_both (report, sheet, minor.theoretical[i], minor.variances[2 * i], minor.variances[2 * i + 1]);
      theoretical += minor.theoretical[i];
      price += minor.variances[2 * i];
      usage += minor.variances[2 * i + 1];
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, _("Total"));
  cro_office_sheet_skip (sheet);
  put_sum (report, sheet, theoretical, CRO_KNOWN_WHOLE);
  put_sum (report, sheet, price, CRO_KNOWN_WHOLE);
  put_sum (report, sheet, usage, CRO_KNOWN_WHOLE);
  put_sum (report, sheet, price + usage, CRO_KNOWN_WHOLE);
  put_sum (report, sheet, theoretical + price + usage, CRO_KNOWN_WHOLE);
  put_rest (report, sheet, theoretical, price + usage);
  if (!isnan (report->month->over))
    cro_office_report_tie (report, _("Actual less theoretical: by ingredient, and in the statement"), 'F',
                           cro_office_sheet_at (sheet), cro_office_report_money (report, report->minor.over),
                           cro_office_report_money (report, report->minor.actual - report->minor.theoretical));
  sheet->sheet.n_filtered = items->len;
  sheet->sheet.chart = (CroWorkbookChart){
    .kind = CRO_WORKBOOK_CHART_BARS, .title = _("Price and usage by ingredient, what moved most money first"),
    .first = FIRST, .last = FIRST + MIN (items->len, 20) - 1, .categories = 'A', .values = "DE"
  };
  g_free (minor.theoretical);
  g_free (minor.variances);
}

/* --- By category and by course -------------------------------------------------------------- */

typedef struct
{
  const char *name;
  double      money[3];
} Group;

static int
compare_groups (gconstpointer a,
                gconstpointer b)
{
  const Group *x = a, *y = b;

  if (x->money[0] != y->money[0])
    return x->money[0] > y->money[0] ? -1 : 1;
  return g_strcmp0 (x->name, y->name);
}

static Group *
group_of (GArray     *groups,
          GHashTable *index,
          const char *name)
{
  Group group = { .name = name };
  guint at = GPOINTER_TO_UINT (g_hash_table_lookup (index, name));

  if (at == 0)
    {
      g_array_append_val (groups, group);
      at = groups->len;
      g_hash_table_insert (index, (gpointer) name, GUINT_TO_POINTER (at));
    }
  return &g_array_index (groups, Group, at - 1);
}

/* A block: its heading, a row each, their sums. totals: of the three, in minor units. */
static void
put_groups (CroOfficeReport   *report,
            CroOfficeSheet    *sheet,
            const char        *name,
            const char *const *heads,
            GArray            *groups,
            const gint64      *totals,
            CroKnown           known)
{
  gint64 *minor[3];
  guint32 first;

  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_HEAD);
  cro_office_sheet_text (sheet, name);
  for (guint k = 0; k < 3; k++)
    cro_office_sheet_text (sheet, heads[k]);
  g_array_sort (groups, compare_groups);
  for (guint k = 0; k < 3; k++)
    {
      g_autofree double *parts = g_new (double, groups->len + 1);

      for (guint i = 0; i < groups->len; i++)
        parts[i] = g_array_index (groups, Group, i).money[k];
      minor[k] = cro_office_report_parts (report, totals[k], parts, groups->len);
    }
  first = cro_office_sheet_at (sheet) + 1;
  for (guint i = 0; i < groups->len; i++)
    {
      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, g_array_index (groups, Group, i).name);
      for (guint k = 0; k < 3; k++)
        put_money (report, sheet, minor[k][i], CRO_KNOWN_WHOLE);
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, _("Total"));
  for (guint k = 0; k < 3; k++)
    {
      cro_office_sheet_sum (sheet, first, cro_office_report_money (report, sum_up (minor[k], groups->len)), known);
      g_free (minor[k]);
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
}

/* Sums of what stands by ingredient, as it is shown there. */
static void
put_categories (CroOfficeReport *report,
                CroOfficeSheet  *sheet)
{
  const char *heads[] = { _("Theoretical food cost"), _("Price"), _("Usage") };
  g_autoptr (GPtrArray) items = dup_measured (report->month);
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (Group));
  g_autoptr (GHashTable) index = g_hash_table_new (g_str_hash, g_str_equal);
  gint64 totals[3] = { 0 };
  Measured minor;

  if (items->len == 0)
    return;
  minor = round_measured (report, items);
  for (guint i = 0; i < items->len; i++)
    {
      const CroMonthItem *item = items->pdata[i];
      Group *group = group_of (groups, index, item->category != NULL ? item->category : _("no category"));
      gint64 rows[] = { minor.theoretical[i], minor.variances[2 * i], minor.variances[2 * i + 1] };

      for (guint k = 0; k < 3; k++)
        {
          totals[k] += rows[k];
          group->money[k] += cro_office_report_money (report, rows[k]);
        }
    }
  g_free (minor.theoretical);
  g_free (minor.variances);
  put_groups (report, sheet, _("Categories of ingredients"), heads, groups, totals, CRO_KNOWN_WHOLE);
}

static void
put_courses (CroOfficeReport *report,
             CroOfficeSheet  *sheet)
{
  const char *heads[] = { _("Net sales"), _("Theoretical food cost"), _("Left after food") };
  const CroMonth *month = report->month;
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (Group));
  g_autoptr (GHashTable) index = g_hash_table_new (g_str_hash, g_str_equal);
  gint64 totals[] = { report->minor.net_sales_costed, report->minor.theoretical,
                      report->minor.net_sales_costed - report->minor.theoretical };

  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (month->things, CroMonthThing, i);
      Group *group;

      if (thing->kind == CRO_MONTH_OTHER)
        continue;
      group = group_of (groups, index, thing->kind == CRO_MONTH_MENU ? _("menus")
                                       : thing->course != NULL       ? thing->course
                                                                     : _("no course"));
      group->money[0] += thing->net_revenue;
      group->money[1] += or_0 (thing->theoretical);
      group->money[2] += thing->net_revenue - or_0 (thing->theoretical);
    }
  if (groups->len > 0)
    put_groups (report, sheet, _("Courses"), heads, groups, totals, month->known_theoretical);
}

void
cro_office_add_groups (CroOfficeReport *report)
{
  CroOfficeSheet *sheet;

  if (report->month->things->len + report->month->items->len == 0)
    return;
  sheet = cro_office_report_sheet (report, _("By category"), _("By category and course"),
                                   _("What the same rows come to, together."));
  cro_office_sheet_column (sheet, "", CRO_WORKBOOK_COLUMN_TEXT);
  for (guint k = 0; k < 3; k++)
    cro_office_sheet_column (sheet, "", CRO_WORKBOOK_COLUMN_MONEY);
  put_categories (report, sheet);
  put_courses (report, sheet);
}

/* --- What was sold ---------------------------------------------------------------------------
 * A name · B kind · C course · D sold · E net sales · F theoretical · G left · H food-cost % */

void
cro_office_add_plates (CroOfficeReport *report)
{
  GArray *things = report->month->things;
  CroKnown known_sales = report->month->lacks_revenue ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE;
  CroKnown known_cost = report->month->known_theoretical;
  g_autofree double *revenue = g_new (double, things->len + 1), *cost = g_new (double, things->len + 1);
  g_autofree gint64 *net = NULL, *food = NULL;
  g_autofree char *left = g_strdup_printf ("=ROUND(E#-F#,%d)", report->digits);
  CroOfficeSheet *sheet;

  if (things->len == 0)
    return;
  for (guint i = 0; i < things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (things, CroMonthThing, i);

      revenue[i] = thing->net_revenue;
      cost[i] = or_0 (thing->theoretical);
    }
  net = cro_office_report_parts (report, report->minor.net_sales, revenue, things->len);
  food = cro_office_report_parts (report, report->minor.theoretical, cost, things->len);
  sheet = cro_office_report_sheet (report, _("Sold"), _("What was sold"),
                                   _("Plates, menus as one product each, and what was sold without a plate."));
  cro_office_sheet_column (sheet, _("Name"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Kind"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Course"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Sold"), CRO_WORKBOOK_COLUMN_NUMBER);
  cro_office_sheet_column (sheet, _("Net sales"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("Theoretical food cost"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("Left after food"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("Food-cost %"), CRO_WORKBOOK_COLUMN_PCT);
  for (guint i = 0; i < things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (things, CroMonthThing, i);
      CroKnown of_sales = thing->lacks_revenue ? CRO_KNOWN_AT_LEAST : CRO_KNOWN_WHOLE;

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, thing->name);
      cro_office_sheet_text (sheet, cro_code_word (cro_sale_kind_codes[thing->kind]));
      cro_office_sheet_text (sheet, thing->course);
      cro_office_sheet_number (sheet, thing->sold, CRO_KNOWN_WHOLE);
      put_money (report, sheet, net[i], of_sales);
      if (thing->kind == CRO_MONTH_OTHER)
        continue;
      put_money (report, sheet, food[i], known_thing (thing));
      cro_office_sheet_formula (sheet, left, cro_office_report_money (report, net[i] - food[i]),
                                cro_known_of_sum (of_sales, cro_known_turned (known_thing (thing))));
      cro_office_sheet_formula (sheet, "=IF(E#>0,F#/E#,\"\")",
                                net[i] > 0 ? (double) food[i] / (double) net[i] : NAN,
                                cro_known_of_sum (known_thing (thing), cro_known_turned (of_sales)));
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, _("Total"));
  for (guint i = 0; i < 3; i++)
    cro_office_sheet_skip (sheet);
  put_sum (report, sheet, sum_up (net, things->len), known_sales);
  put_sum (report, sheet, sum_up (food, things->len), known_cost);
  sheet->sheet.n_filtered = things->len;
  cro_office_report_tie (report, _("Net sales: what was sold, and in the statement"), 'E',
                         cro_office_sheet_at (sheet), cro_office_report_money (report, sum_up (net, things->len)),
                         cro_office_report_money (report, report->minor.net_sales));
  cro_office_report_tie (report, _("Theoretical food cost: what was sold, and in the statement"), 'F',
                         cro_office_sheet_at (sheet), cro_office_report_money (report, sum_up (food, things->len)),
                         cro_office_report_money (report, report->minor.theoretical));
}

/* --- The mix ---------------------------------------------------------------------------------
 * A name · B sold · C of all · D one leaves · E class, described · F its published name */

static void
put_mix (CroOfficeReport      *report,
         CroOfficeSheet       *sheet,
         const CroMonthMatrix *matrix,
         const char           *name)
{
  g_autofree char *note = NULL, *contribution = NULL;

  if (matrix->rows->len == 0)
    return;
  contribution = cro_words_money (report->model, matrix->limits.contribution);
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_HEAD);
  cro_office_sheet_text (sheet, name);
  for (guint i = 0; i < matrix->rows->len; i++)
    {
      const CroMonthMatrixRow *row = &g_array_index (matrix->rows, CroMonthMatrixRow, i);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, row->thing->name);
      cro_office_sheet_number (sheet, row->thing->sold, CRO_KNOWN_WHOLE);
      cro_office_sheet_number (sheet, row->share_pct / 100, CRO_KNOWN_WHOLE);
      cro_office_sheet_number (sheet, row->contribution, cro_known_turned (known_thing (row->thing)));
      cro_office_sheet_text (sheet, cro_month_matrix_words (row));
      cro_office_sheet_text (sheet, cro_month_matrix_class (row));
    }
  note = cro_words_pct_of (matrix->limit_pct, 2);
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_NOTE);
  /* Translators: a percentage, and money. */
  cro_office_sheet_take (sheet, g_strdup_printf (_("Sells: from %s of all sold, 70 %% of an equal share. Earns: "
                                                   "from %s, the mean."),
                                                 note, contribution));
}

void
cro_office_add_mix (CroOfficeReport *report)
{
  g_autoptr (CroMonthMatrix) plates = cro_month_matrix_new (report->month, CRO_MONTH_PLATE);
  g_autoptr (CroMonthMatrix) menus = cro_month_matrix_new (report->month, CRO_MONTH_MENU);
  const CroMonthMatrix *shown = plates->rows->len > 1 ? plates : menus;
  CroOfficeSheet *sheet;
  guint32 first;

  if (plates->rows->len + menus->rows->len == 0)
    return;
  sheet = cro_office_report_sheet (report, _("Sales mix"), _("Sales mix"),
                                   _("How often plates and menus were sold and what one of them left."));
  cro_office_sheet_column (sheet, _("Name"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Sold"), CRO_WORKBOOK_COLUMN_NUMBER);
  cro_office_sheet_column (sheet, _("Share of all sold"), CRO_WORKBOOK_COLUMN_PCT);
  cro_office_sheet_column (sheet, _("One leaves"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("In words"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Published name"), CRO_WORKBOOK_COLUMN_TEXT);
  put_mix (report, sheet, plates, _("Plates"));
  first = shown == plates ? FIRST + 1 : cro_office_sheet_at (sheet) + 2;
  if (sheet->looks->len == 0)
    first = FIRST + 1;
  put_mix (report, sheet, menus, _("Menus"));
  sheet->sheet.chart = (CroWorkbookChart){
    .kind = CRO_WORKBOOK_CHART_SCATTER, .title = _("How often it sells, and what one of it leaves"),
    .first = first, .last = first + shown->rows->len - 1, .categories = 'C', .values = "D",
    .x = _("Share of all sold"), .y = _("One leaves")
  };
  g_ptr_array_add (report->notes,
                   (gpointer) _("Source: M. L. Kasavana and D. I. Smith, Menu Engineering, 1982, whose names of the "
                                "four classes are star, plowhorse, puzzle and dog."));
}

/* --- Ingredients -------------------------------------------------------------------------------
 * A name · B category · C unit · D theoretical quantity · E its cost · F quantity used · G price variance on
 * what was bought · H counted at the close · I its value · J weighted average · K the count at that */

static void
put_item (CroOfficeReport    *report,
          CroOfficeSheet     *sheet,
          const CroMonthItem *item,
          gint64              theoretical)
{
  int digits = report->digits;
  g_autofree char *at_average = g_strdup_printf ("=ROUND(H#*J#,%d)", digits);
  double scale = pow (10, digits), worth = item->counted_quantity * item->average_cost;

  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
  cro_office_sheet_text (sheet, item->name);
  cro_office_sheet_text (sheet, item->category);
  cro_office_sheet_text (sheet, unit_of (item->base));
  cro_office_sheet_number (sheet, item->theoretical_quantity, CRO_KNOWN_WHOLE);
  put_money (report, sheet, theoretical, CRO_KNOWN_WHOLE);
  cro_office_sheet_number (sheet, item->actual_quantity, CRO_KNOWN_WHOLE);
  cro_office_sheet_number (sheet, isnan (item->bought_variance)
                                      ? NAN
                                      : (double) cro_money_round (item->bought_variance, digits) / scale,
                           CRO_KNOWN_WHOLE);
  cro_office_sheet_number (sheet, item->counted_quantity, CRO_KNOWN_WHOLE);
  cro_office_sheet_number (sheet, isnan (item->counted_value)
                                      ? NAN
                                      : (double) cro_money_round (item->counted_value, digits) / scale,
                           CRO_KNOWN_WHOLE);
  cro_office_sheet_number (sheet, item->average_cost, CRO_KNOWN_WHOLE);
  if (!isnan (worth))
    cro_office_sheet_formula (sheet, at_average, (double) cro_money_round (worth, digits) / scale,
                              CRO_KNOWN_WHOLE);
}

static void
put_item_columns (CroOfficeSheet *sheet)
{
  const struct { const char *head; CroWorkbookColumnKind kind; } columns[] = {
    { _("Ingredient"), CRO_WORKBOOK_COLUMN_TEXT },
    { _("Category"), CRO_WORKBOOK_COLUMN_TEXT },
    { _("Unit"), CRO_WORKBOOK_COLUMN_TEXT },
    { _("Theoretical quantity"), CRO_WORKBOOK_COLUMN_QUANTITY },
    { _("Theoretical food cost"), CRO_WORKBOOK_COLUMN_MONEY },
    { _("Quantity used"), CRO_WORKBOOK_COLUMN_QUANTITY },
    { _("Price variance on what was bought"), CRO_WORKBOOK_COLUMN_MONEY },
    { _("Counted at the close"), CRO_WORKBOOK_COLUMN_QUANTITY },
    { _("Value of the count"), CRO_WORKBOOK_COLUMN_MONEY },
    { _("Weighted average cost per unit"), CRO_WORKBOOK_COLUMN_FINE },
    { _("Count at weighted average"), CRO_WORKBOOK_COLUMN_MONEY },
  };

  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    cro_office_sheet_column (sheet, columns[i].head, columns[i].kind);
}

void
cro_office_add_items (CroOfficeReport *report)
{
  GArray *items = report->month->items, *by_products = report->month->by_products;
  guint n = items->len + by_products->len;
  g_autofree double *parts = g_new (double, n + 1);
  g_autofree gint64 *minor = NULL;
  CroOfficeSheet *sheet;

  if (n == 0)
    return;
  for (guint i = 0; i < items->len; i++)
    parts[i] = g_array_index (items, CroMonthItem, i).theoretical_cost;
  for (guint i = 0; i < by_products->len; i++)
    parts[items->len + i] = g_array_index (by_products, CroMonthByProduct, i).cost;
  minor = cro_office_report_parts (report, report->minor.theoretical, parts, n);
  sheet = cro_office_report_sheet (report, _("Ingredients used"), _("Ingredients used"),
                                   _("What recipes and sales take, what was used, and the closing stock at both of "
                                     "its values. By-products at an assigned value follow."));
  put_item_columns (sheet);
  for (guint i = 0; i < items->len; i++)
    put_item (report, sheet, &g_array_index (items, CroMonthItem, i), minor[i]);
  for (guint i = 0; i < by_products->len; i++)
    {
      const CroMonthByProduct *of = &g_array_index (by_products, CroMonthByProduct, i);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, of->name);
      cro_office_sheet_text (sheet, _("by-product"));
      cro_office_sheet_text (sheet, unit_of (of->base));
      cro_office_sheet_number (sheet, of->quantity, CRO_KNOWN_WHOLE);
      put_money (report, sheet, minor[items->len + i], CRO_KNOWN_WHOLE);
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, _("Total"));
  for (guint i = 0; i < 3; i++)
    cro_office_sheet_skip (sheet);
  put_sum (report, sheet, sum_up (minor, n), report->month->known_theoretical);
  sheet->sheet.n_filtered = n;
  cro_office_report_tie (report, _("Theoretical food cost: by ingredient, and by what was sold"), 'E',
                         cro_office_sheet_at (sheet), cro_office_report_money (report, sum_up (minor, n)),
                         cro_office_report_money (report, report->minor.theoretical));
}
