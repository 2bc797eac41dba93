/* The statement of a month, what it asks, and its journal. */
#include "config.h"

#include "cro-office-report.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-month-lines.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-words.h"

/* Columns: A what · B money · C of net sales · D of plates and menus · E note · of the month before, if that
 * is closed: F money · G of net sales · H of plates and menus · I note. */
typedef struct
{
  CroOfficeReport *report;
  CroOfficeSheet  *sheet;
  CroMonthLines   *lines;
  CroMonthLines   *before;                         /* NULL: none */
  guint32          rows[CRO_N_STATEMENT_LINES];    /* where each stands; 0: nowhere */
} Statement;

/* Of one month's line. Percentages are of the rows of net sales, in the same column. */
static void
put_share (Statement           *self,
           char                 column,
           const CroMonthLines *lines,
           CroStatementLine     line,
           CroStatementLine     of)
{
  const CroMonthLine *one = &lines->all[line], *whole = &lines->all[of];
  guint32 row = self->rows[of];
  CroKnown of_whole = one->minor < 0 ? whole->known : cro_known_turned (whole->known);
  g_autofree char *formula = g_strdup_printf ("=IF(%c%u>0,%c#/%c%u,\"\")", column, row, column, column, row);

  if (!one->has_money || isnan (one->money))
    cro_office_sheet_skip (self->sheet);
  else
    cro_office_sheet_formula (self->sheet, formula,
                              whole->minor > 0 ? (double) one->minor / (double) whole->minor : NAN,
                              cro_known_of_sum (one->known, of_whole));
}

/* What this month's money is of other rows; NULL: its value alone. Owned. */
static char *
dup_formula (Statement        *self,
             CroStatementLine  line)
{
  const guint32 *rows = self->rows;

  if (!self->lines->adds_up)
    return NULL;
  switch (line)
    {
    case CRO_STATEMENT_USED:
      return g_strdup_printf ("=SUM(B%u:B%u)", rows[CRO_STATEMENT_OPENING], rows[CRO_STATEMENT_CLOSING]);
    case CRO_STATEMENT_ACTUAL:
      return g_strdup_printf ("=SUM(B%u:B%u)", rows[CRO_STATEMENT_USED], rows[CRO_STATEMENT_STAFF]);
    case CRO_STATEMENT_OVER:
      return g_strdup_printf ("=ROUND(B%u-B%u,%d)", rows[CRO_STATEMENT_ACTUAL], rows[CRO_STATEMENT_THEORETICAL],
                              self->report->digits);
    case CRO_STATEMENT_PURCHASES:
      return g_strdup_printf ("=SUM(B%u:B%u)", rows[CRO_STATEMENT_FOOD],
                              MAX (rows[CRO_STATEMENT_EARLIER_OTHER], rows[CRO_STATEMENT_LATER_OTHER]));
    default:
      return NULL;
    }
}

/* Of one month; formula: of its money, NULL: its value alone. */
static void
put_month (Statement           *self,
           char                 column,
           const CroMonthLines *lines,
           CroStatementLine     line,
           const char          *formula)
{
  const CroMonthLine *one = &lines->all[line];
  double money = cro_office_report_money (self->report, one->minor);
  const char *note = line == CRO_STATEMENT_OVER && !lines->adds_up ? lines->notes->pdata[0] : one->note;

  if (!one->has_money)
    cro_office_sheet_skip (self->sheet);
  else if (formula != NULL)
    cro_office_sheet_formula (self->sheet, formula, money, one->known);
  else
    cro_office_sheet_number (self->sheet, money, one->known);
  put_share (self, column, lines, line, CRO_STATEMENT_SALES);
  put_share (self, column, lines, line, CRO_STATEMENT_COSTED);
  cro_office_sheet_take (self->sheet, g_strdup (note));
}

static CroWorkbookRowLook
look_of (const CroMonthLine *one,
         CroStatementLine    line)
{
  if (one->is_sum || line == CRO_STATEMENT_SALES || line == CRO_STATEMENT_USED || line == CRO_STATEMENT_PURCHASES)
    return CRO_WORKBOOK_ROW_TOTAL;
  return one->indent > 0 ? CRO_WORKBOOK_ROW_INDENT : CRO_WORKBOOK_ROW_PLAIN;
}

/* A total with tax is not held against one without: each stands on a row of its own. */
static void
put_other_tills (Statement *self)
{
  const CroMonthLine *one = &self->lines->all[CRO_STATEMENT_TILL];
  const CroMonthLine *other = &self->before->all[CRO_STATEMENT_TILL];

  if (one->is_said)
    {
      cro_office_sheet_row (self->sheet, look_of (one, CRO_STATEMENT_TILL));
      cro_office_sheet_take (self->sheet, g_strdup (one->name));
      put_month (self, 'B', self->lines, CRO_STATEMENT_TILL, NULL);
    }
  if (!other->is_said)
    return;
  cro_office_sheet_row (self->sheet, look_of (other, CRO_STATEMENT_TILL));
  cro_office_sheet_take (self->sheet, g_strdup (other->name));
  for (guint i = 0; i < 4; i++)
    cro_office_sheet_skip (self->sheet);
  put_month (self, 'F', self->before, CRO_STATEMENT_TILL, NULL);
}

/* What is there only where a month has it: what others have, and what later months booked of one that was opened
 * again. */
static gboolean
is_seldom (CroStatementLine line)
{
  return line == CRO_STATEMENT_TILL || line == CRO_STATEMENT_LEDGER || line == CRO_STATEMENT_LATER
         || line == CRO_STATEMENT_LATER_DISPOSABLES || line == CRO_STATEMENT_LATER_OTHER;
}

/* Other lines stand in the same order in every month's sheet, whatever the month has of them. */
static void
put_line (Statement        *self,
          CroStatementLine  line)
{
  const CroMonthLine *one = &self->lines->all[line];
  gboolean is_said = one->is_said || (self->before != NULL && self->before->all[line].is_said);
  g_autofree char *formula = dup_formula (self, line);

  if (line == CRO_STATEMENT_ADJUSTMENTS || (is_seldom (line) && !is_said))
    return;
  if (line == CRO_STATEMENT_TILL && self->before != NULL
      && strcmp (one->name, self->before->all[line].name) != 0)
    {
      put_other_tills (self);
      return;
    }
  if (one->is_apart)
    cro_office_sheet_row (self->sheet, CRO_WORKBOOK_ROW_PLAIN);
  cro_office_sheet_row (self->sheet, look_of (one, line));
  self->rows[line] = cro_office_sheet_at (self->sheet);
  cro_office_sheet_take (self->sheet, g_strdup (one->name));
  put_month (self, 'B', self->lines, line, formula);
  if (self->before != NULL)
    put_month (self, 'F', self->before, line, NULL);
}

static void
put_control_of (Statement  *self,
                const char *name,
                double      money,
                CroKnown    known,
                char       *note)
{
  cro_office_sheet_row (self->sheet, CRO_WORKBOOK_ROW_PLAIN);
  cro_office_sheet_text (self->sheet, name);
  cro_office_sheet_number (self->sheet,
                           cro_office_report_money (self->report, cro_money_round (money, self->report->digits)),
                           cro_month_known_worth (known, money));
  cro_office_sheet_skip (self->sheet);
  cro_office_sheet_skip (self->sheet);
  cro_office_sheet_take (self->sheet, note);
}

/* The closing stock in another way. */
static void
put_control (Statement *self)
{
  double counted, average;
  CroKnown known;
  guint n = cro_month_average_stock (self->report->month, &counted, &average, &known);

  if (n == 0)
    return;
  cro_office_sheet_row (self->sheet, CRO_WORKBOOK_ROW_PLAIN);
  put_control_of (self, _("Control: stock at the cost of the count"), counted, known,
                  g_strdup_printf (ngettext ("%u ingredient", "%u ingredients", n), n));
  put_control_of (self, _("Control: stock at weighted average cost"), average, known, NULL);
}

/* --- The sheet ----------------------------------------------------------------------------- */

static const char *
about_month (CroOfficeReport *report)
{
  const CroMonth *month = report->month;
  const char *name = report->model->name != NULL ? report->model->name : _("Book");
  const char *currency = month->currency != NULL ? month->currency : _("no currency");
  g_autofree char *recipes = cro_date_to_text (cro_month_recipes_day (month));
  char text[CRO_MONTH_CHARS];

  cro_month_format (month->first, text);
  if (month->is_closed && month->altered == month->first)
    return cro_office_report_keep (report, cro_isolate_printf (_("%s, %s, closed, altered since, recipes of %s, %s"),
                                                               name, text, recipes, currency));
  return cro_office_report_keep (
      report, month->is_closed
                  ? cro_isolate_printf (_("%s, %s, closed, recipes of %s, %s"), name, text, recipes, currency)
                  : cro_isolate_printf (_("%s, %s, open, recipes of %s, %s"), name, text, recipes, currency));
}

/* Whether one that it rests on is not as closing left it stands under the title too; the notes say more. */
static const char *
about (CroOfficeReport *report)
{
  const CroMonth *month = report->month;
  const char *text = about_month (report);
  char altered[CRO_MONTH_CHARS];

  if (month->altered == CRO_NO_DAY || (month->is_closed && month->altered == month->first))
    return text;
  cro_month_format (month->altered, altered);
  /* Translators: what stands under the title of a statement, and a month, 2026-09. */
  return cro_office_report_keep (report, cro_isolate_printf (_("%s; %s is not as closing left it"), text, altered));
}

/* The month before: of a closed month it stays what it was then, whatever became of it since. */
static char *
dup_before (CroOfficeReport *report)
{
  char of[CRO_MONTH_CHARS], text[CRO_MONTH_CHARS];

  cro_month_format (report->before->first, text);
  if (report->before->altered == report->before->first)
    /* Translators: over a column; a month, 2026-09. */
    return g_strdup_printf (_("%s, altered since"), text);
  if (!report->month->is_closed)
    return g_strdup (text);
  cro_month_format (report->month->first, of);
  /* Translators: over a column; both are months, 2026-09 and 2026-10. */
  return g_strdup_printf (_("%s, as it stood when %s was closed"), text, of);
}

static void
add_columns (Statement *self)
{
  char text[CRO_MONTH_CHARS];

  cro_month_format (self->report->month->first, text);
  cro_office_sheet_column (self->sheet, "", CRO_WORKBOOK_COLUMN_TEXT);
  for (guint i = 0; i < (self->before != NULL ? 2 : 1); i++)
    {
      cro_office_sheet_column (
          self->sheet, cro_office_report_keep (self->report, i == 0 ? g_strdup (text) : dup_before (self->report)),
          CRO_WORKBOOK_COLUMN_MONEY);
      cro_office_sheet_column (self->sheet, _("of net sales"), CRO_WORKBOOK_COLUMN_PCT);
      cro_office_sheet_column (self->sheet, _("of plates and menus"), CRO_WORKBOOK_COLUMN_PCT);
      cro_office_sheet_column (self->sheet, "", CRO_WORKBOOK_COLUMN_TEXT);
    }
}

static void
add_notes (Statement *self)
{
  static const char *const notes[] = {
    N_("Theoretical food cost = what was sold × food cost per guest, each sale at the prices of its own day, by "
       "the recipes of the day that stands under the title."),
    N_("Actual food cost = opening stock + food bought + transferred in − closing stock − staff meals − "
       "complimentary − transferred out − other adjustments. Known waste explains a part of the difference and "
       "is not deducted."),
    N_("The control at weighted average cost takes what was there and what was bought."),
    N_("By ingredient: price = quantity used × (actual − theoretical cost per unit); usage = (quantity used − "
       "theoretical quantity) × theoretical cost per unit. Above 0 is dearer, or more, than it should have been."),
    N_("The sheets of the month are printed; plates, preparations, ingredients and prices are of the book, and have an "
       "empty print area or one of a few words."),
    N_("The sheets of the month are its statement as written; change a price or a recipe in the model’s sheets and "
       "they stay as they are."),
  };
  CroOfficeReport *report = self->report;
  char *altered = cro_month_altered_words (report->month);

  if (altered != NULL)
    g_ptr_array_add (report->notes, (gpointer) cro_office_report_keep (report, altered));
  g_ptr_array_add (report->notes, (gpointer) cro_words_shifted ());
  for (guint i = 0; i < self->lines->notes->len; i++)
    g_ptr_array_add (report->notes,
                     (gpointer) cro_office_report_keep (report, g_strdup (self->lines->notes->pdata[i])));
  for (guint i = 0; i < G_N_ELEMENTS (notes); i++)
    g_ptr_array_add (report->notes, (gpointer) _(notes[i]));
  if (report->month->is_closed)
    g_ptr_array_add (report->notes,
                     (gpointer) _("The month is closed: this file is of the book as it stood when it was closed."));
}

void
cro_office_add_statement (CroOfficeReport *report)
{
  g_autoptr (CroMonthLines) lines = cro_month_lines_new (report->month);
  g_autoptr (CroMonthLines) before = report->before != NULL ? cro_month_lines_new (report->before) : NULL;
  Statement self = { .report = report, .lines = lines, .before = before };

  self.sheet = cro_office_report_sheet (report, _("Statement"), _("Statement of the month"), about (report));
  add_columns (&self);
  self.sheet->sheet.group = before != NULL ? 'F' : 0;
  for (CroStatementLine line = 0; line < CRO_N_STATEMENT_LINES; line++)
    put_line (&self, line);
  put_control (&self);
  add_notes (&self);
}

/* --- Questions ----------------------------------------------------------------------------- */

void
cro_office_add_questions (CroOfficeReport *report)
{
  GArray *questions = report->month->questions;
  char *altered = cro_month_altered_words (report->month);
  CroOfficeSheet *sheet;

  if (questions->len == 0 && altered == NULL)
    return;
  sheet = cro_office_report_sheet (report, _("Questions"), _("Questions"),
                                   _("What is open, and how much of the difference an answer may explain."));
  cro_office_sheet_column (sheet, _("Question"), CRO_WORKBOOK_COLUMN_SENTENCE);
  cro_office_sheet_column (sheet, _("May explain"), CRO_WORKBOOK_COLUMN_MONEY);
  if (altered != NULL)
    {
      cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_PLAIN);
      cro_office_sheet_take (sheet, altered);
    }
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
  cro_office_sheet_take (sheet, cro_journal_words (entry));
  cro_office_sheet_text (sheet, cro_journal_side_words (entry->kind, of_credit));
  cro_office_sheet_number (sheet, is_credit ? NAN : amount, is_credit ? CRO_KNOWN_WHOLE : entry->known);
  cro_office_sheet_number (sheet, is_credit ? amount : NAN, is_credit ? entry->known : CRO_KNOWN_WHOLE);
}

void
cro_office_add_journal (CroOfficeReport *report,
                        GHashTable      *accounts)
{
  g_autoptr (GArray) journal = cro_journal_new (report->month, report->digits);
  CroOfficeSheet *sheet;
  CroKnown known = CRO_KNOWN_WHOLE;
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
      known = cro_known_of_sum (known, entry->known == CRO_KNOWN_NOTHING ? CRO_KNOWN_AT_LEAST : entry->known);
    }
  cro_office_sheet_row (sheet, CRO_WORKBOOK_ROW_TOTAL);
  cro_office_sheet_text (sheet, NULL);
  cro_office_sheet_skip (sheet);
  cro_office_sheet_text (sheet, _("Total"));
  cro_office_sheet_skip (sheet);
  cro_office_sheet_sum (sheet, CRO_WORKBOOK_REPORT_ROW, cro_office_report_money (report, sum), known);
  cro_office_sheet_sum (sheet, CRO_WORKBOOK_REPORT_ROW, cro_office_report_money (report, sum), known);
  row = cro_office_sheet_at (sheet);
  cro_office_report_tie (report, _("Journal: debit and credit"), 'E', row, cro_office_report_money (report, sum),
                         cro_office_report_money (report, sum));
}
