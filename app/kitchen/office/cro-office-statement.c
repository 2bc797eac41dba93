/* The statement of a month, what it asks, and its journal. */
#include "config.h"

#include "cro-office-report.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-code.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-number.h"

/* Columns: A what · B money · C of net sales · D of plates and menus · E note · of the month before, if that
 * is closed: F money · G of net sales · H of plates and menus. */
typedef struct
{
  CroOfficeReport *report;
  CroOfficeSheet  *sheet;
  CroMonthMinor    before;
  guint32          net_sales, net_sales_costed;   /* their rows */
} Statement;

/* As the sheet's columns have it, which is the same in every locale. */
static char *
dup_month (const CroMonth *month)
{
  char text[CRO_MONTH_CHARS];

  cro_month_format (month->first, text);
  return g_strdup (text);
}

static double
money (Statement *self,
       gint64     minor)
{
  return cro_office_report_money (self->report, minor);
}

/* Of a month's line: what it is in money, and how much of that is known. A line that the month lacks is
 * not known at all. */
typedef struct
{
  gint64   minor;
  CroKnown known;
  gboolean is_there;
} Line;

static Line
line_of (gint64   minor,
         CroKnown known)
{
  return (Line){ minor, known, TRUE };
}

static void
put_share (Statement *self,
           char       column,
           guint32    of_row,
           Line       line,
           gint64     of,
           CroKnown   known_of)
{
  g_autofree char *formula = g_strdup_printf ("=IF(%c%u>0,%c#/%c%u,\"\")", column, of_row, column, column,
                                              of_row);

  cro_office_sheet_formula (self->sheet, formula, of > 0 ? (double) line.minor / (double) of : NAN,
                            cro_known_of_sum (line.known, cro_known_turned (known_of)));
}

static void
put_shares (Statement           *self,
            char                 column,
            Line                 line,
            const CroMonth      *month,
            const CroMonthMinor *minor)
{
  put_share (self, column, self->net_sales, line, minor->net_sales, cro_month_known_sales (month));
  put_share (self, column, self->net_sales_costed, line, minor->net_sales_costed, cro_month_known_sales (month));
}

/* formula: of this month's money, NULL: its value alone. The note is kept by whoever made it. */
static guint32
put_line (Statement          *self,
          CroWorkbookRowLook  look,
          const char         *name,
          Line                line,
          Line                before,
          gboolean            has_shares,
          const char         *formula,
          const char         *note)
{
  CroOfficeReport *report = self->report;
  CroOfficeSheet *sheet = self->sheet;

  cro_office_sheet_row (sheet, look);
  cro_office_sheet_text (sheet, name);
  if (!line.is_there)
    cro_office_sheet_skip (sheet);
  else if (formula != NULL && report->minor.adds_up)
    cro_office_sheet_formula (sheet, formula, money (self, line.minor), line.known);
  else
    cro_office_sheet_number (sheet, money (self, line.minor), line.known);
  if (has_shares && line.is_there)
    put_shares (self, 'B', line, report->month, &report->minor);
  else
    {
      cro_office_sheet_skip (sheet);
      cro_office_sheet_skip (sheet);
    }
  cro_office_sheet_text (sheet, note);
  if (report->before == NULL || !before.is_there)
    return cro_office_sheet_at (sheet);
  cro_office_sheet_number (sheet, money (self, before.minor), before.known);
  if (has_shares)
    put_shares (self, 'F', before, report->before, &self->before);
  return cro_office_sheet_at (sheet);
}

static void
put_gap (Statement *self)
{
  cro_office_sheet_row (self->sheet, CRO_WORKBOOK_ROW_PLAIN);
}

/* --- Sales, and what others have ----------------------------------------------------------- */

/* A total that somebody else has, of either month; words: whether it agrees, or by how much not. */
static void
put_tie (Statement  *self,
         const char *name,
         double      theirs,
         const char *words,
         double      theirs_before,
         const char *words_before)
{
  CroOfficeReport *report = self->report;
  Line lines[2] = { { 0 }, { 0 } };
  g_autofree char *month = report->before != NULL ? dup_month (report->before) : NULL;
  g_autofree char *before = NULL;

  if (!isnan (theirs))
    lines[0] = line_of (cro_money_round (theirs, report->digits), CRO_KNOWN_WHOLE);
  if (!isnan (theirs_before))
    {
      lines[1] = line_of (cro_money_round (theirs_before, report->digits), CRO_KNOWN_WHOLE);
      /* Translators: a month, and whether a total agrees in it: "2026-09: agrees". */
      before = cro_isolate_printf (_("%s: %s"), month, words_before);
    }
  if (!lines[0].is_there && !lines[1].is_there)
    return;
  put_line (self, CRO_WORKBOOK_ROW_INDENT, name, lines[0], lines[1], FALSE, NULL,
            cro_office_report_keep (report, words == NULL || before == NULL
                                                ? g_strdup (words != NULL ? words : before)
                                                : g_strconcat (words, _("; "), before, NULL)));
}

/* NaN where sales are not all known: a difference would say nothing. */
static double
till_of (const CroMonth *month)
{
  return month != NULL && !month->lacks_revenue ? month->till : NAN;
}

static void
put_till (Statement *self)
{
  const CroMonth *month = self->report->month, *before = self->report->before;
  double ours = till_of (month), theirs = till_of (before);
  g_autofree char *words = !isnan (ours) ? cro_month_till_words (month, self->report->digits) : NULL;
  g_autofree char *words_before = !isnan (theirs) ? cro_month_till_words (before, self->report->digits) : NULL;

  put_tie (self, _("till"), ours, words, theirs, words_before);
}

static void
put_ledger (Statement *self)
{
  const CroMonth *month = self->report->month, *before = self->report->before;
  double theirs = before != NULL ? before->ledger : NAN;
  g_autofree char *words = !isnan (month->ledger) ? cro_month_ledger_words (month, self->report->digits) : NULL;
  g_autofree char *words_before = !isnan (theirs) ? cro_month_ledger_words (before, self->report->digits) : NULL;

  put_tie (self, _("ledger"), month->ledger, words, theirs, words_before);
}

static void
put_sales (Statement *self)
{
  const CroMonth *month = self->report->month, *before = self->report->before;
  const CroMonthMinor *minor = &self->report->minor;
  Line all = line_of (self->before.net_sales, before != NULL ? cro_month_known_sales (before) : CRO_KNOWN_WHOLE);
  Line costed = line_of (self->before.net_sales_costed, all.known);

  self->net_sales = put_line (self, CRO_WORKBOOK_ROW_TOTAL, _("Net sales"),
                              line_of (minor->net_sales, cro_month_known_sales (month)), all, FALSE, NULL, NULL);
  self->net_sales_costed
      = put_line (self, CRO_WORKBOOK_ROW_INDENT, _("of plates and menus"),
                  line_of (minor->net_sales_costed, cro_month_known_sales (month)), costed, FALSE, NULL, NULL);
  put_line (self, CRO_WORKBOOK_ROW_INDENT, _("without a plate"),
            line_of (minor->net_sales - minor->net_sales_costed, CRO_KNOWN_WHOLE),
            line_of (self->before.net_sales - self->before.net_sales_costed, CRO_KNOWN_WHOLE), FALSE, NULL, NULL);
  put_till (self);
  put_gap (self);
}

/* --- What was used ------------------------------------------------------------------------- */

static const char *
stock_note (CroOfficeReport *report,
            double           stock,
            guint            n_items)
{
  if (isnan (stock))
    return _("neither counted nor entered");
  if (n_items == 0)
    return _("entered as one sum");
  return cro_office_report_keep (report, g_strdup_printf (ngettext ("%u item counted", "%u items counted",
                                                                    n_items),
                                                          n_items));
}

static Line
stock_line (double   stock,
            gint64   minor,
            CroKnown known)
{
  return isnan (stock) ? (Line){ 0 } : line_of (minor, known);
}

static void
put_stock (Statement *self,
           CroDate    day,
           Line       line,
           Line       before,
           double     stock,
           guint      n_items)
{
  g_autofree char *date = cro_date_to_text (day);

  put_line (self, CRO_WORKBOOK_ROW_PLAIN,
            cro_office_report_keep (self->report, cro_isolate_printf (_("Stock on %s"), date)), line, before,
            FALSE, NULL, stock_note (self->report, stock, n_items));
}

static Line
adjustment_line (const CroMonth      *month,
                 const CroMonthMinor *minor,
                 guint                kind)
{
  CroKnown known = month->known_adjustments[kind];

  return line_of (minor->adjustments[kind], cro_month_sign_of (kind) < 0 ? cro_known_turned (known) : known);
}

static void
put_adjustments (Statement *self)
{
  static const struct { const char *code, *name; } kinds[] = {
    { "transfer-in", N_("transferred in") },   { "transfer-out", N_("transferred out") },
    { "promotion", N_("complimentary") },      { "other", N_("other adjustments") },
    { "staff-meal", N_("staff meals") },
  };
  const CroMonth *before = self->report->before;

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      guint kind = cro_code_find (cro_adjustment_kind_codes, kinds[i].code);

      put_line (self, CRO_WORKBOOK_ROW_PLAIN, _(kinds[i].name),
                adjustment_line (self->report->month, &self->report->minor, kind),
                before != NULL ? adjustment_line (before, &self->before, kind) : (Line){ 0 }, FALSE, NULL,
                NULL);
    }
}

static Line
used_line (const CroMonth      *month,
           const CroMonthMinor *minor)
{
  return isnan (month->actual) ? (Line){ 0 } : line_of (minor->used, cro_month_known_used (month));
}

/* In the order of Dittmer and Keefe, chapter 8. Returns the row of what was used. */
static guint32
put_used (Statement *self)
{
  const CroMonth *month = self->report->month, *before = self->report->before;
  const CroMonthMinor *minor = &self->report->minor, *other = &self->before;
  Line none = { 0 };
  guint32 first = cro_office_sheet_at (self->sheet) + 1;
  g_autofree char *formula = g_strdup_printf ("=SUM(B%u:B%u)", first, first + 4);

  put_stock (self, month->first - 1, stock_line (month->opening, minor->opening, month->known_opening),
             before != NULL ? stock_line (before->opening, other->opening, before->known_opening) : none,
             month->opening, month->n_opening);
  put_line (self, CRO_WORKBOOK_ROW_PLAIN, _("Food bought"), line_of (minor->bought, CRO_KNOWN_WHOLE),
            line_of (other->bought, CRO_KNOWN_WHOLE), FALSE, NULL, NULL);
  put_line (self, CRO_WORKBOOK_ROW_PLAIN, _("Food of earlier months"),
            line_of (minor->earlier, CRO_KNOWN_WHOLE), line_of (other->earlier, CRO_KNOWN_WHOLE), FALSE, NULL,
            cro_office_report_keep (self->report, cro_month_reversed_words (month, self->report->digits)));
  put_line (self, CRO_WORKBOOK_ROW_PLAIN, _("Food not invoiced yet"),
            line_of (minor->estimate, CRO_KNOWN_WHOLE), line_of (other->estimate, CRO_KNOWN_WHOLE), FALSE,
            NULL, isnan (month->estimate) ? NULL : _("an estimate"));
  put_stock (self, cro_month_next (month->first) - 1,
             stock_line (month->closing, minor->closing, cro_known_turned (month->known_closing)),
             before != NULL ? stock_line (before->closing, other->closing,
                                          cro_known_turned (before->known_closing))
                            : none,
             month->closing, month->n_closing);
  return put_line (self, CRO_WORKBOOK_ROW_TOTAL, _("Food used"), used_line (month, minor),
                   before != NULL ? used_line (before, other) : none, FALSE, formula, NULL);
}

/* --- Costs --------------------------------------------------------------------------------- */

static Line
over_line (const CroMonth      *month,
           const CroMonthMinor *minor)
{
  return isnan (month->over) ? (Line){ 0 } : line_of (minor->over, month->known_over);
}

static Line
actual_line (const CroMonth      *month,
             const CroMonthMinor *minor)
{
  return isnan (month->actual) ? (Line){ 0 } : line_of (minor->actual, month->known_actual);
}

static void
put_costs (Statement *self,
           guint32    used)
{
  const CroMonth *month = self->report->month, *before = self->report->before;
  const CroMonthMinor *minor = &self->report->minor, *other = &self->before;
  g_autofree char *actual = g_strdup_printf ("=SUM(B%u:B%u)", used, cro_office_sheet_at (self->sheet));
  g_autofree char *over = NULL;
  Line none = { 0 };
  guint32 row = put_line (self, CRO_WORKBOOK_ROW_TOTAL, _("Actual food cost"), actual_line (month, minor),
                          before != NULL ? actual_line (before, other) : none, TRUE, actual,
                          isnan (month->actual) ? _("not known yet") : NULL);
  guint waste = cro_code_find (cro_adjustment_kind_codes, "waste");

  put_line (self, CRO_WORKBOOK_ROW_TOTAL, _("Theoretical food cost"),
            line_of (minor->theoretical, month->known_theoretical),
            before != NULL ? line_of (other->theoretical, before->known_theoretical) : none, TRUE, NULL, NULL);
  over = g_strdup_printf ("=ROUND(B%u-B%u,%d)", row, row + 1, self->report->digits);
  put_line (self, CRO_WORKBOOK_ROW_TOTAL, _("Actual less theoretical"), over_line (month, minor),
            before != NULL ? over_line (before, other) : none, TRUE, over,
            minor->adds_up ? NULL : _("These lines do not add up: what closing froze was changed."));
  put_line (self, CRO_WORKBOOK_ROW_INDENT, _("known waste explains"),
            line_of (minor->waste, month->known_adjustments[waste]),
            before != NULL ? line_of (other->waste, before->known_adjustments[waste]) : none, FALSE, NULL,
            NULL);
  put_gap (self);
}

static Line
purchases_line (Statement      *self,
                const CroMonth *month,
                guint           kind)
{
  return line_of (cro_money_round (month->purchases[kind] + month->earlier[kind], self->report->digits),
                  CRO_KNOWN_WHOLE);
}

/* Food, disposables and the others, as a ledger has them. */
static void
put_purchases (Statement *self)
{
  const CroMonth *month = self->report->month, *before = self->report->before;
  const CroMonthMinor *minor = &self->report->minor, *other = &self->before;
  int digits = self->report->digits;
  static const char *const names[] = { N_("Food"), N_("Disposables bought"), N_("Other purchases") };
  Line lines[2] = { line_of (minor->bought + minor->earlier + minor->estimate, CRO_KNOWN_WHOLE),
                    line_of (other->bought + other->earlier + other->estimate, CRO_KNOWN_WHOLE) };
  Line all[2] = { line_of (0, CRO_KNOWN_WHOLE), line_of (0, CRO_KNOWN_WHOLE) };
  guint32 first = cro_office_sheet_at (self->sheet) + 1;
  g_autofree char *sum = g_strdup_printf ("=SUM(B%u:B%u)", first, first + 2);

  for (guint kind = 0; kind < CRO_MONTH_N_PURCHASE_KINDS; kind++)
    {
      if (kind > 0)
        {
          lines[0] = purchases_line (self, month, kind);
          lines[1] = before != NULL ? purchases_line (self, before, kind) : (Line){ 0 };
        }
      put_line (self, CRO_WORKBOOK_ROW_PLAIN, _(names[kind]), lines[0], lines[1], FALSE, NULL,
                kind > 0 ? cro_office_report_keep (self->report, cro_month_earlier_words (month, kind, digits)) : NULL);
      all[0].minor += lines[0].minor;
      all[1].minor += lines[1].minor;
    }
  put_line (self, CRO_WORKBOOK_ROW_TOTAL, _("All purchases"), all[0], all[1], FALSE, sum, NULL);
  put_ledger (self);
}

/* The closing stock in another way. */
static void
put_control (Statement *self)
{
  CroOfficeReport *report = self->report;
  double counted, average;
  guint n = cro_month_average_stock (report->month, &counted, &average);

  if (n == 0)
    return;
  put_gap (self);
  put_line (self, CRO_WORKBOOK_ROW_PLAIN, _("Control: stock at the cost of the count"),
            line_of (cro_money_round (counted, report->digits), CRO_KNOWN_WHOLE), (Line){ 0 }, FALSE, NULL,
            cro_office_report_keep (report, g_strdup_printf (ngettext ("%u ingredient", "%u ingredients", n), n)));
  put_line (self, CRO_WORKBOOK_ROW_PLAIN, _("Control: stock at weighted average cost"),
            line_of (cro_money_round (average, report->digits), CRO_KNOWN_WHOLE), (Line){ 0 }, FALSE, NULL, NULL);
}

/* --- The sheet ----------------------------------------------------------------------------- */

static const char *
about (CroOfficeReport *report)
{
  const CroMonth *month = report->month;
  const char *name = report->model->name != NULL ? report->model->name : _("Book");
  const char *currency = month->currency != NULL ? month->currency : _("no currency");
  g_autofree char *recipes = cro_date_to_text (cro_month_recipes_day (month));
  char text[CRO_MONTH_CHARS];

  cro_month_format (month->first, text);
  return cro_office_report_keep (
      report, month->is_closed
                  ? cro_isolate_printf (_("%s, %s, closed, recipes of %s, %s"), name, text, recipes, currency)
                  : cro_isolate_printf (_("%s, %s, open, recipes of %s, %s"), name, text, recipes, currency));
}

/* The month before: of a closed month it stays what it was then, whatever became of it since. */
static char *
dup_before (CroOfficeReport *report)
{
  char of[CRO_MONTH_CHARS], text[CRO_MONTH_CHARS];

  cro_month_format (report->before->first, text);
  if (!report->month->is_closed)
    return g_strdup (text);
  cro_month_format (report->month->first, of);
  /* Translators: over a column; both are months, 2026-09 and 2026-10. */
  return g_strdup_printf (_("%s, as it stood when %s was closed"), text, of);
}

static void
add_columns (Statement *self)
{
  const CroMonth *before = self->report->before;
  char text[CRO_MONTH_CHARS];

  cro_month_format (self->report->month->first, text);
  cro_office_sheet_column (self->sheet, "", CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (self->sheet, cro_office_report_keep (self->report, g_strdup (text)),
                           CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (self->sheet, _("of net sales"), CRO_WORKBOOK_COLUMN_PCT);
  cro_office_sheet_column (self->sheet, _("of plates and menus"), CRO_WORKBOOK_COLUMN_PCT);
  cro_office_sheet_column (self->sheet, "", CRO_WORKBOOK_COLUMN_TEXT);
  if (before == NULL)
    return;
  cro_office_sheet_column (self->sheet, cro_office_report_keep (self->report, dup_before (self->report)),
                           CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (self->sheet, _("of net sales"), CRO_WORKBOOK_COLUMN_PCT);
  cro_office_sheet_column (self->sheet, _("of plates and menus"), CRO_WORKBOOK_COLUMN_PCT);
}

static void
add_notes (CroOfficeReport *report)
{
  static const char *const notes[] = {
    N_("Theoretical food cost = what was sold × food cost per guest, each sale at the prices of its own day, by "
       "the recipes of the day that stands under the title."),
    N_("Actual food cost = opening stock + food bought + transferred in − closing stock − staff meals − "
       "complimentary − transferred out − other adjustments. Known waste explains a part of the difference and "
       "is not deducted."),
    N_("Stock is valued at the food cost of the day of its count, which comes close to first in, first out "
       "(IAS 2). The control at weighted average cost takes what was there and what was bought."),
    N_("By ingredient: price = quantity used × (actual − theoretical cost per unit); usage = (quantity used − "
       "theoretical quantity) × theoretical cost per unit. Above 0 is dearer, or more, than it should have been."),
    N_("Amounts of money are rounded once; parts add up to the totals that are shown, so that a part may be one "
       "smallest unit of the currency away from its own rounding."),
    N_("The sheets of the month are printed; plates, preparations, ingredients and prices are of the book, and have an "
       "empty print area or one of a few words."),
    N_("The sheets of the month are its statement as written; change a price or a recipe in the model’s sheets and "
       "they stay as they are."),
  };

  for (guint i = 0; i < G_N_ELEMENTS (notes); i++)
    g_ptr_array_add (report->notes, (gpointer) _(notes[i]));
  if (report->month->is_closed)
    g_ptr_array_add (report->notes,
                     (gpointer) _("The month is closed: this file is of the book as it stood when it was closed."));
}

void
cro_office_add_statement (CroOfficeReport *report)
{
  Statement self = { .report = report };
  guint32 used;

  if (report->before != NULL)
    cro_month_round (report->before, report->digits, &self.before);
  self.sheet = cro_office_report_sheet (report, _("Statement"), _("Statement of the month"), about (report));
  add_columns (&self);
  put_sales (&self);
  used = put_used (&self);
  put_adjustments (&self);
  put_costs (&self, used);
  put_purchases (&self);
  put_control (&self);
  add_notes (report);
}

/* --- Questions ----------------------------------------------------------------------------- */

void
cro_office_add_questions (CroOfficeReport *report)
{
  GArray *questions = report->month->questions;
  CroOfficeSheet *sheet;

  if (questions->len == 0)
    return;
  sheet = cro_office_report_sheet (report, _("Questions"), _("Questions"),
                                   _("What is open, and how much of the difference an answer may explain."));
  cro_office_sheet_column (sheet, _("Question"), CRO_WORKBOOK_COLUMN_SENTENCE);
  cro_office_sheet_column (sheet, _("May explain"), CRO_WORKBOOK_COLUMN_MONEY);
  for (guint i = 0; i < questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (questions, CroMonthQuestion, i);

      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_take (sheet, cro_month_question_words (question, FALSE));
      if (!isnan (question->explains) && question->explains != 0)
        cro_office_sheet_number (sheet,
                                 cro_office_report_money (report,
                                                          cro_money_round (question->explains, report->digits)),
                                 CRO_KNOWN_WHOLE);
    }
}

/* --- The journal --------------------------------------------------------------------------- */

static void
put_side (CroOfficeReport       *report,
          CroOfficeSheet        *sheet,
          const CroJournalEntry *entry,
          GHashTable            *accounts,
          gboolean               is_credit)
{
  gboolean of_credit = is_credit != entry->is_turned;
  double amount = cro_office_report_money (report, entry->minor);

  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
  cro_office_sheet_number (sheet, cro_month_next (report->month->first) - 1, CRO_KNOWN_WHOLE);
  cro_office_sheet_text (sheet, cro_journal_account (accounts, entry->kind, of_credit));
  cro_office_sheet_text (sheet, cro_journal_words (entry->kind));
  cro_office_sheet_text (sheet, cro_journal_side_words (entry->kind, of_credit));
  cro_office_sheet_number (sheet, is_credit ? NAN : amount, entry->known);
  cro_office_sheet_number (sheet, is_credit ? amount : NAN, entry->known);
}

void
cro_office_add_journal (CroOfficeReport *report,
                        GHashTable      *accounts)
{
  g_autoptr (GArray) journal = cro_journal_new (report->month, report->digits);
  CroOfficeSheet *sheet;
  gint64 sum = 0;
  guint32 row;

  if (journal->len == 0)
    return;
  sheet = cro_office_report_sheet (report, _("Journal"), _("Journal of the month’s end"),
                                   _("Fill in the accounts. Sales and invoices are booked from their own documents."));
  cro_office_sheet_column (sheet, _("Date"), CRO_WORKBOOK_COLUMN_DATE);
  cro_office_sheet_column (sheet, _("Account"), CRO_WORKBOOK_COLUMN_ENTRY);
  cro_office_sheet_column (sheet, _("Entry"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("What the account is for"), CRO_WORKBOOK_COLUMN_TEXT);
  cro_office_sheet_column (sheet, _("Debit"), CRO_WORKBOOK_COLUMN_MONEY);
  cro_office_sheet_column (sheet, _("Credit"), CRO_WORKBOOK_COLUMN_MONEY);
  for (guint i = 0; i < journal->len; i++)
    {
      const CroJournalEntry *entry = &g_array_index (journal, CroJournalEntry, i);

      put_side (report, sheet, entry, accounts, FALSE);
      put_side (report, sheet, entry, accounts, TRUE);
      sum += entry->minor;
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, NULL);
  cro_office_sheet_skip (sheet);
  cro_office_sheet_text (sheet, _("Total"));
  cro_office_sheet_skip (sheet);
  cro_office_sheet_sum (sheet, CRO_WORKBOOK_REPORT_ROW, cro_office_report_money (report, sum), CRO_KNOWN_WHOLE);
  cro_office_sheet_sum (sheet, CRO_WORKBOOK_REPORT_ROW, cro_office_report_money (report, sum), CRO_KNOWN_WHOLE);
  row = cro_office_sheet_at (sheet);
  cro_office_report_tie (report, _("Journal: debit and credit"), 'E', row, cro_office_report_money (report, sum),
                         cro_office_report_money (report, sum));
}
