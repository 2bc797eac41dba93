/* Where a month's food went: by ingredient, category and course; by what was sold; the mix of that. */
#include "config.h"

#include "cro-office-report.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-code-words.h"
#include "cro-code.h"
#include "cro-figure-words.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-month-matrix-words.h"
#include "cro-month-went.h"
#include "cro-month-words.h"
#include "cro-words.h"

#define FIRST CRO_WORKBOOK_REPORT_ROW

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

static const char *
unit_of (CroBase base)
{
  return cro_words_unit (cro_base_unit (base));
}

/* --- Theoretical against actual, by ingredient ----------------------------------------------
 * A name · B category · C theoretical · D price · E usage · F together · G actual */

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

/* What is known of the theoretical cost, of price and usage, of both together, and of the actual cost. */
typedef struct
{
  CroKnown theoretical, variance, together, actual;
} Known;

static Known
known_of (const CroMonthItem *item)
{
  return (Known){ item->known_theoretical, cro_month_known_variance (item), cro_month_known_together (item),
                  item->known_actual };
}

/* What is not known at all of one leaves a sum without a bound. */
static CroKnown
beside (CroKnown sum,
        CroKnown part)
{
  return cro_known_of_sum (sum, part != CRO_KNOWN_NOTHING ? part : CRO_KNOWN_IN_PART);
}

static void
put_both (CroOfficeReport *report,
          CroOfficeSheet  *sheet,
          gint64           theoretical,
          gint64           price,
          gint64           usage,
          Known            known)
{
  g_autofree char *both = g_strdup_printf ("=ROUND(D#+E#,%d)", report->digits);
  g_autofree char *actual = g_strdup_printf ("=ROUND(C#+F#,%d)", report->digits);

  put_money (report, sheet, theoretical, known.theoretical);
  put_money (report, sheet, price, known.variance);
  put_money (report, sheet, usage, known.variance);
  cro_office_sheet_formula (sheet, both, cro_office_report_money (report, price + usage), known.together);
  cro_office_sheet_formula (sheet, actual, cro_office_report_money (report, theoretical + price + usage),
                            known.actual);
}

/* What is deducted from the theoretical cost for by-products at a value, each by its name. Returns their sum. */
static gint64
put_by_products (CroOfficeReport *report,
                 CroOfficeSheet  *sheet)
{
  GArray *by_products = report->month->by_products;
  gint64 sum = 0;

  for (guint i = 0; i < by_products->len; i++)
    {
      gint64 minor = report->rounded->by_products[i];

      sum += minor;
      if (minor == 0)
        continue;
      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_take (
          sheet, cro_isolate_printf (_("by-product: %s"), g_array_index (by_products, CroMonthByProduct, i).name));
      cro_office_sheet_skip (sheet);
      put_money (report, sheet, minor, cro_month_known_by_products (report->month));
      cro_office_sheet_skip (sheet);
      cro_office_sheet_skip (sheet);
      if (!isnan (report->month->over))
        put_money (report, sheet, -minor, cro_month_known_by_products (report->month));
      cro_office_sheet_skip (sheet);
    }
  return sum;
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
  gint64 by_products = put_by_products (report, sheet);
  gint64 measured[] = { theoretical + by_products, variances - by_products, theoretical + variances };
  gint64 all[] = { minor->theoretical, minor->over, minor->actual };
  CroKnown known[] = { month->known_theoretical, month->known_over, month->known_actual };
  CroKnown known_rest[] = { month->known_theoretical, month->known_rest, cro_month_known_rest_used (month) };
  gboolean is_there = !isnan (month->over);
  /* What is beside the month's own food, the rest, and all of it. */
  const char *names[] = { cro_month_went_apart (), cro_month_later_name (0), cro_month_went_rest (month),
                          _("Food cost of the statement") };
  gint64 aside[] = { is_there ? minor->earlier + minor->estimate : 0, is_there ? minor->later_of_kind[0] : 0 };

  for (guint line = 0; line < G_N_ELEMENTS (names); line++)
    {
      gboolean is_aside = line < G_N_ELEMENTS (aside), is_total = line == G_N_ELEMENTS (names) - 1;

      if (is_aside && aside[line] == 0)
        continue;
      cro_office_sheet_row (sheet, is_total ? CRO_WORKBOOK_ROW_TOTAL : CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, names[line]);
      cro_office_sheet_skip (sheet);
      for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
        {
          g_autofree char *formula = g_strdup_printf ("=ROUND(SUM(%c%u:%c%u),%d)", columns[i], total, columns[i],
                                                      cro_office_sheet_at (sheet) - 1, report->digits);

          if (i == 1)
            {
              cro_office_sheet_skip (sheet);
              cro_office_sheet_skip (sheet);
            }
          if (i > 0 ? !is_there : is_aside)
            cro_office_sheet_skip (sheet);
          else if (is_aside)
            put_money (report, sheet, aside[line], CRO_KNOWN_WHOLE);
          else if (!is_total)
            put_money (report, sheet, all[i] - measured[i] - (i > 0 ? aside[0] + aside[1] : 0), known_rest[i]);
          else
            cro_office_sheet_formula (sheet, formula, cro_office_report_money (report, all[i]), known[i]);
        }
    }
}

void
cro_office_add_variances (CroOfficeReport *report)
{
  const CroMonthRounded *rounded = report->rounded;
  g_autoptr (GArray) measured = cro_month_list_measured (report->month);
  CroOfficeSheet *sheet;
  gint64 theoretical = 0, price = 0, usage = 0;
  Known known = { 0 };

  if (measured->len == 0)
    return;
  sheet = cro_office_report_sheet (report, _("Theoretical and actual"), _("Theoretical against actual, by ingredient"),
                                   _("Of what was counted at both ends and bought in amounts."));
  put_variance_columns (sheet, _("Ingredient"));
  for (guint i = 0; i < measured->len; i++)
    {
      guint at = g_array_index (measured, guint, i);
      const CroMonthItem *item = &g_array_index (report->month->items, CroMonthItem, at);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, item->name);
      cro_office_sheet_text (sheet, item->category);
      put_both (report, sheet, rounded->theoretical[at], rounded->price[at], rounded->usage[at], known_of (item));
      known = (Known){ cro_month_known_add (known.theoretical, item->known_theoretical),
                       beside (known.variance, cro_month_known_variance (item)),
                       beside (known.together, cro_month_known_together (item)),
                       beside (known.actual, item->known_actual) };
      theoretical += rounded->theoretical[at];
      price += rounded->price[at];
      usage += rounded->usage[at];
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, _("Total"));
  cro_office_sheet_skip (sheet);
  put_sum (report, sheet, theoretical, known.theoretical);
  put_sum (report, sheet, price, known.variance);
  put_sum (report, sheet, usage, known.variance);
  put_sum (report, sheet, price + usage, known.together);
  put_sum (report, sheet, theoretical + price + usage, known.actual);
  put_rest (report, sheet, theoretical, price + usage);
  if (!isnan (report->month->over))
    cro_office_report_tie (report, _("Actual less theoretical: by ingredient, and in the statement"), 'F',
                           cro_office_sheet_at (sheet), cro_office_report_money (report, report->minor.over),
                           cro_office_report_money (report, report->minor.actual - report->minor.theoretical));
  sheet->sheet.n_filtered = measured->len;
  sheet->sheet.chart = (CroWorkbookChart){
    .kind = CRO_WORKBOOK_CHART_BARS, .title = _("Price and usage by ingredient, what moved most money first"),
    .first = FIRST, .last = FIRST + MIN (measured->len, 20) - 1, .categories = 'A', .values = "DE"
  };
}

/* --- By category and by course -------------------------------------------------------------- */

typedef struct
{
  const char *name;
  gint64      minor[3];
  CroKnown    known[3];
} Group;

static int
compare_groups (gconstpointer a,
                gconstpointer b)
{
  const Group *x = a, *y = b;

  if (x->minor[0] != y->minor[0])
    return x->minor[0] > y->minor[0] ? -1 : 1;
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

static void
add_to (Group    *group,
        guint     column,
        gint64    minor,
        CroKnown  known)
{
  group->minor[column] += minor;
  group->known[column] = cro_month_known_add (group->known[column], known);
}

/* A block: its heading, a row each, their sums. */
static void
put_groups (CroOfficeReport   *report,
            CroOfficeSheet    *sheet,
            const char        *name,
            const char *const *heads,
            GArray            *groups)
{
  Group total = { .name = _("Total") };
  guint32 first;

  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_HEAD);
  cro_office_sheet_text (sheet, name);
  for (guint k = 0; k < 3; k++)
    cro_office_sheet_text (sheet, heads[k]);
  g_array_sort (groups, compare_groups);
  first = cro_office_sheet_at (sheet) + 1;
  for (guint i = 0; i < groups->len; i++)
    {
      const Group *group = &g_array_index (groups, Group, i);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, group->name);
      for (guint k = 0; k < 3; k++)
        {
          put_money (report, sheet, group->minor[k], group->known[k]);
          add_to (&total, k, group->minor[k], group->known[k]);
        }
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, total.name);
  for (guint k = 0; k < 3; k++)
    cro_office_sheet_sum (sheet, first, cro_office_report_money (report, total.minor[k]), total.known[k]);
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
}

/* Sums of what stands by ingredient, as it is shown there. */
static void
put_categories (CroOfficeReport *report,
                CroOfficeSheet  *sheet)
{
  const char *heads[] = { _("Theoretical food cost"), _("Price"), _("Usage") };
  const CroMonthRounded *rounded = report->rounded;
  g_autoptr (GArray) measured = cro_month_list_measured (report->month);
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (Group));
  g_autoptr (GHashTable) index = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < measured->len; i++)
    {
      guint at = g_array_index (measured, guint, i);
      const CroMonthItem *item = &g_array_index (report->month->items, CroMonthItem, at);
      Group *group = group_of (groups, index, item->category != NULL ? item->category : _("no category"));

      add_to (group, 0, rounded->theoretical[at], item->known_theoretical);
      add_to (group, 1, rounded->price[at], beside (CRO_KNOWN_WHOLE, cro_month_known_variance (item)));
      add_to (group, 2, rounded->usage[at], beside (CRO_KNOWN_WHOLE, cro_month_known_variance (item)));
    }
  if (groups->len > 0)
    put_groups (report, sheet, _("Categories of ingredients"), heads, groups);
}

/* Of sales less food: what is not known at all of either bounds it all the same. */
static CroKnown
known_left (const CroMonthThing *thing)
{
    CroKnown food = cro_month_known_add (CRO_KNOWN_WHOLE, cro_month_known_cost_of (thing));

  return cro_known_of_sum (thing->known_revenue, cro_known_turned (food));
}

static void
put_courses (CroOfficeReport *report,
             CroOfficeSheet  *sheet)
{
  const char *heads[] = { _("Net sales"), _("Theoretical food cost"), _("Left after food") };
  const CroMonth *month = report->month;
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (Group));
  g_autoptr (GHashTable) index = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < month->things->len; i++)
    {
      const CroMonthThing *thing = &g_array_index (month->things, CroMonthThing, i);
      CroKnown cost;
      Group *group;

      if (thing->kind == CRO_MONTH_OTHER)
        continue;
      group = group_of (groups, index, thing->kind == CRO_MONTH_MENU ? _("menus")
                                       : thing->course != NULL       ? thing->course
                                                                     : _("no course"));
      cost = cro_month_known_cost_of (thing);
      add_to (group, 0, report->rounded->revenue[i], thing->known_revenue);
      add_to (group, 1, report->rounded->cost[i], cost);
      add_to (group, 2, report->rounded->revenue[i] - report->rounded->cost[i],
              known_left (thing));
    }
  if (groups->len > 0)
    put_groups (report, sheet, _("Courses"), heads, groups);
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
  CroKnown known_sales = cro_month_known_sales (report->month);
  CroKnown known_cost = report->month->known_theoretical;
  const gint64 *net = report->rounded->revenue, *food = report->rounded->cost;
  g_autofree char *left = g_strdup_printf ("=ROUND(E#-F#,%d)", report->digits);
  CroOfficeSheet *sheet;

  if (things->len == 0)
    return;
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
      CroKnown of_sales = cro_month_known_sales_of (thing);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, thing->name);
      cro_office_sheet_text (sheet, cro_code_word (cro_sale_kind_codes[thing->kind]));
      cro_office_sheet_text (sheet, thing->course);
      cro_office_sheet_number (sheet, thing->sold, CRO_KNOWN_WHOLE);
      put_money (report, sheet, net[i], of_sales);
      if (thing->kind == CRO_MONTH_OTHER)
        continue;
      put_money (report, sheet, food[i], cro_month_known_cost_of (thing));
      cro_office_sheet_formula (sheet, left, cro_office_report_money (report, net[i] - food[i]),
                                known_left (thing));
      cro_office_sheet_formula (sheet, "=IF(E#>0,F#/E#,\"\")",
                                net[i] > 0 ? (double) food[i] / (double) net[i] : NAN,
                                cro_known_of_sum (cro_month_known_cost_of (thing),
                                                  food[i] < 0 ? of_sales : cro_known_turned (of_sales)));
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, _("Total"));
  for (guint i = 0; i < 3; i++)
    cro_office_sheet_skip (sheet);
  put_sum (report, sheet, cro_office_sum (net, things->len), known_sales);
  put_sum (report, sheet, cro_office_sum (food, things->len), known_cost);
  sheet->sheet.n_filtered = things->len;
  cro_office_report_tie (report, _("Net sales: what was sold, and in the statement"), 'E',
                         cro_office_sheet_at (sheet),
                         cro_office_report_money (report, cro_office_sum (net, things->len)),
                         cro_office_report_money (report, report->minor.net_sales));
  cro_office_report_tie (report, _("Theoretical food cost: what was sold, and in the statement"), 'F',
                         cro_office_sheet_at (sheet),
                         cro_office_report_money (report, cro_office_sum (food, things->len)),
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
  char *left_out;

  if (matrix->rows->len == 0)
    return;
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_HEAD);
  cro_office_sheet_text (sheet, name);
  for (guint i = 0; i < matrix->rows->len; i++)
    {
      const CroMonthMatrixRow *row = &g_array_index (matrix->rows, CroMonthMatrixRow, i);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, row->thing->name);
      cro_office_sheet_number (sheet, row->thing->sold, CRO_KNOWN_WHOLE);
      cro_office_sheet_number (sheet, row->share_pct / 100, CRO_KNOWN_WHOLE);
      cro_office_sheet_number (sheet, row->contribution, row->known);
      cro_office_sheet_take (sheet, cro_month_matrix_marked (row, cro_month_matrix_words (row)));
      cro_office_sheet_take (sheet, cro_month_matrix_marked (row, cro_month_matrix_class (row)));
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_NOTE);
  cro_office_sheet_take (sheet, cro_month_matrix_limits_words (report->model, matrix));
  if (cro_month_matrix_open_words (matrix) != NULL)
    {
      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_NOTE);
      cro_office_sheet_text (sheet, cro_month_matrix_open_words (matrix));
    }
  left_out = cro_month_matrix_left_out_words (matrix);
  if (left_out == NULL)
    return;
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_NOTE);
  cro_office_sheet_take (sheet, left_out);
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

/* Of a quantity beside money of which so much is known: a price that is missing may be all of it, an amount as well. */
static CroKnown
known_quantity (CroKnown known,
                double   quantity)
{
  return cro_month_known_worth (known != CRO_KNOWN_NOTHING ? known : CRO_KNOWN_AT_LEAST, quantity);
}

static void
put_item (CroOfficeReport    *report,
          CroOfficeSheet     *sheet,
          const CroMonthItem *item,
          gint64              theoretical)
{
  int digits = report->digits;
  g_autofree char *at_average = g_strdup_printf ("=ROUND(H#*J#,%d)", digits);
  double scale = pow (10, digits), worth = item->counted_quantity * item->average_cost;
  CroKnown variance = cro_month_known_variance (item);

  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
  cro_office_sheet_text (sheet, item->name);
  cro_office_sheet_text (sheet, item->category);
  cro_office_sheet_text (sheet, unit_of (item->base));
  cro_office_sheet_number (sheet, item->theoretical_quantity,
                           known_quantity (item->known_theoretical, item->theoretical_quantity));
  put_money (report, sheet, theoretical, item->known_theoretical);
  cro_office_sheet_number (sheet, item->actual_quantity, CRO_KNOWN_WHOLE);
  cro_office_sheet_number (sheet, isnan (item->bought_variance)
                                      ? NAN
                                      : (double) cro_money_round (item->bought_variance, digits) / scale,
                           variance);
  cro_office_sheet_number (sheet, item->counted_quantity, CRO_KNOWN_WHOLE);
  cro_office_sheet_number (sheet, isnan (item->counted_value)
                                      ? NAN
                                      : (double) cro_money_round (item->counted_value, digits) / scale,
                           cro_month_known_worth (item->known_stock, item->counted_value));
  cro_office_sheet_number (sheet, item->average_cost, item->known_stock);
  if (!isnan (worth))
    cro_office_sheet_formula (sheet, at_average, (double) cro_money_round (worth, digits) / scale,
                              item->known_stock);
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
  const CroMonthRounded *rounded = report->rounded;
  gint64 sum = cro_office_sum (rounded->theoretical, items->len)
               + cro_office_sum (rounded->by_products, by_products->len);
  CroKnown credited = cro_month_known_by_products (report->month);
  CroOfficeSheet *sheet;

  if (n == 0)
    return;
  sheet = cro_office_report_sheet (report, _("Ingredients used"), _("Ingredients used"),
                                   _("What recipes and sales take, what was used, and the closing stock at both of "
                                     "its values. By-products at an assigned value follow."));
  put_item_columns (sheet);
  for (guint i = 0; i < items->len; i++)
    put_item (report, sheet, &g_array_index (items, CroMonthItem, i), rounded->theoretical[i]);
  for (guint i = 0; i < by_products->len; i++)
    {
      const CroMonthByProduct *of = &g_array_index (by_products, CroMonthByProduct, i);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_text (sheet, of->name);
      cro_office_sheet_text (sheet, _("by-product"));
      cro_office_sheet_text (sheet, unit_of (of->base));
      cro_office_sheet_number (sheet, of->quantity, credited);
      put_money (report, sheet, rounded->by_products[i], credited);
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, _("Total"));
  for (guint i = 0; i < 3; i++)
    cro_office_sheet_skip (sheet);
  put_sum (report, sheet, sum, report->month->known_theoretical);
  sheet->sheet.n_filtered = n;
  cro_office_report_tie (report, _("Theoretical food cost: by ingredient, and by what was sold"), 'E',
                         cro_office_sheet_at (sheet), cro_office_report_money (report, sum),
                         cro_office_report_money (report, report->minor.theoretical));
}
