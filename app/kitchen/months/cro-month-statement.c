#include "config.h"

#include "cro-month-statement.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-figure-words.h"
#include "cro-month-words.h"
#include "cro-number.h"
#include "cro-words.h"

typedef struct
{
  CroModel       *model;
  const CroMonth *month;
  CroMonthLines  *lines;
  int             digits;
  gboolean        is_form;
  gboolean        is_apart;     /* the next row */
  CroMonthTable  *table;
} Statement;

static CroMonthTableRow *
add_row (Statement        *self,
         CroStatementLine  line,
         const char       *note)
{
  const CroMonthLine *one = &self->lines->all[line];
  CroMonthTableRow *row = cro_month_table_add (self->table, (int) line, one->name);

  row->indent = one->indent;
  row->is_sum = one->is_sum;
  row->is_apart = self->is_apart;
  row->note = g_strdup (note);
  self->is_apart = FALSE;
  return row;
}

static char *
pct (CroKnown known,
     double   value,
     double   of)
{
  double part = of > 0 ? 100 * value / of : NAN;

  return isnan (part) ? NULL : cro_words_known_pct_short (known, part, 1);
}

/* sign: −1 where the line is named for what is below 0. */
static CroMonthTableRow *
add_money (Statement        *self,
           CroStatementLine  line,
           int               sign)
{
  const CroMonth *month = self->month;
  const CroMonthLine *one = &self->lines->all[line];
  CroMonthTableRow *row = add_row (self, line, one->note);
  CroKnown known = sign < 0 ? cro_known_turned (one->known) : one->known;
  /* The more sales there are, the nearer is what is below 0 to it. */
  CroKnown sales = cro_month_known_sales (month);
  CroKnown of_sales = cro_known_of_sum (known, sign * one->minor < 0 ? sales : cro_known_turned (sales));
  double part;

  row->cells[CRO_STATEMENT_MONEY] = cro_month_table_money (known, sign * one->minor, self->digits);
  if (isnan (one->money))
    return row;
  /* Of what is shown as nothing there is no part. */
  part = one->minor != 0 ? sign * one->money : 0;
  row->cells[CRO_STATEMENT_OF_SALES] = pct (of_sales, part, month->net_sales);
  row->cells[CRO_STATEMENT_OF_COSTED] = pct (of_sales, part, month->net_sales_costed);
  return row;
}

/* Whether adjustments of any kind are among its lines. */
static gboolean
is_adjusted (Statement *self)
{
  for (CroStatementLine line = CRO_STATEMENT_TRANSFER_IN; line <= CRO_STATEMENT_STAFF; line++)
    if (self->lines->all[line].is_said)
      return TRUE;
  return FALSE;
}

/* Adds what a form has though nothing is entered for it, and a table in its own way; FALSE: a line as others. */
static gboolean
add_empty (Statement        *self,
           CroStatementLine  line)
{
  const CroMonthLine *one = &self->lines->all[line];

  switch (line)
    {
    case CRO_STATEMENT_REVENUE:
      if (self->is_form && !one->is_said)
        add_row (self, line, C_("revenue", "none"));
      return !one->is_said;
    case CRO_STATEMENT_TILL:
    case CRO_STATEMENT_LEDGER:
      if (self->is_form && !one->is_said)
        add_row (self, line, _("not entered"));
      return !one->is_said;
    case CRO_STATEMENT_ADJUSTMENTS:
      if (self->is_form)
        add_row (self, line, is_adjusted (self) ? NULL : C_("adjustments", "none"));
      return TRUE;
    case CRO_STATEMENT_OPENING:
    case CRO_STATEMENT_CLOSING:
      if (!one->has_money)
        add_row (self, line, one->note)->cells[CRO_STATEMENT_MONEY] = g_strdup ("–");
      return !one->has_money;
    case CRO_STATEMENT_ACTUAL:
      /* A page has room for words beside the name alone. */
      if (!one->has_money)
        add_row (self, line, self->is_form ? one->note : NULL)->cells[CRO_STATEMENT_MONEY]
            = g_strdup (self->is_form ? "–" : one->note);
      return !one->has_money;
    case CRO_STATEMENT_THEORETICAL:
      if (!one->has_money && !self->is_form)
        add_row (self, line, one->note)->cells[CRO_STATEMENT_MONEY] = g_strdup ("–");
      return !one->has_money;
    default:
      if (one->is_said && !one->has_money)
        add_row (self, line, one->note);
      return !one->is_said || !one->has_money;
    }
}

static void
add_line (Statement        *self,
          CroStatementLine  line)
{
  const CroMonthLine *one = &self->lines->all[line];
  gboolean is_under = line == CRO_STATEMENT_OVER && self->month->over < 0;
  CroMonthTableRow *row;

  self->is_apart |= one->is_apart;
  if (add_empty (self, line))
    return;
  row = add_money (self, line, is_under ? -1 : 1);
  if (line == CRO_STATEMENT_OVER)
    {
      g_free (row->cells[CRO_STATEMENT_NAME]);
      row->cells[CRO_STATEMENT_NAME] = g_strdup (is_under ? _("Under") : _("Over"));
    }
  else if (self->is_form && line >= CRO_STATEMENT_TRANSFER_IN && line <= CRO_STATEMENT_STAFF)
    row->indent = 2;
}

static void
add_notes (Statement *self)
{
  char *control = cro_month_average_words (self->model, self->month);
  char *altered = cro_month_altered_words (self->month);

  if (altered != NULL)
    g_ptr_array_add (self->table->notes, altered);
  for (guint i = 0; i < self->lines->notes->len; i++)
    g_ptr_array_add (self->table->notes, g_strdup (self->lines->notes->pdata[i]));
  if (control != NULL)
    g_ptr_array_add (self->table->notes, control);
  if (self->lines->is_shifted)
    g_ptr_array_add (self->table->notes, g_strdup (cro_words_shifted ()));
}

CroMonthTable *
cro_month_statement_new (CroModel       *model,
                         const CroMonth *month,
                         gboolean        is_form)
{
  const char *titles[CRO_N_STATEMENT_COLUMNS] = { NULL, NULL, _("of net sales"), _("of plates and menus") };
  g_autoptr (CroMonthLines) lines = cro_month_lines_new (month);
  Statement self = { .model = model, .month = month, .lines = lines, .is_form = is_form,
                     .digits = cro_currency_digits (month->currency),
                     .table = cro_month_table_new (CRO_N_STATEMENT_COLUMNS, titles) };

  for (CroStatementLine line = 0; line < CRO_N_STATEMENT_LINES; line++)
    add_line (&self, line);
  add_notes (&self);
  return self.table;
}

CroStatementLine
cro_month_first_waiting (const CroMonth *month)
{
  if (month->is_closed)
    return CRO_N_STATEMENT_LINES;
  if (month->things->len == 0 || month->lacks_revenue)
    return CRO_STATEMENT_SALES;
  if (isnan (month->opening))
    return CRO_STATEMENT_OPENING;
  if (cro_month_all_purchases (month) == 0)
    return CRO_STATEMENT_BOUGHT;
  if (isnan (month->closing))
    return CRO_STATEMENT_CLOSING;
  for (guint i = 0; i < month->questions->len; i++)
    {
      const CroMonthQuestion *question = &g_array_index (month->questions, CroMonthQuestion, i);

      if (question->kind == CRO_QUESTION_NOT_COUNTED && question->day >= month->first)
        return CRO_STATEMENT_CLOSING;
    }
  return CRO_N_STATEMENT_LINES;
}
