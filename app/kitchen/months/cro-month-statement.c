#include "config.h"

#include "cro-month-statement.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-code.h"
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
  gboolean        is_form;
  CroMonthTable  *table;
} Statement;

static CroMonthTableRow *
add_row (Statement        *self,
         CroStatementLine  line,
         guint             indent,
         const char       *name)
{
  CroMonthTableRow *row = cro_month_table_add (self->table, line, name);

  row->indent = indent;
  return row;
}

static CroMonthTableRow *
add_line (Statement        *self,
          CroStatementLine  line,
          guint             indent,
          const char       *name,
          CroKnown          known,
          gint64            minor)
{
  CroMonthTableRow *row = add_row (self, line, indent, name);

  row->cells[CRO_STATEMENT_MONEY] = cro_month_table_money (known, minor, self->digits);
  return row;
}

static char *
pct (CroKnown known,
     double   value,
     double   of)
{
  double part = of > 0 ? 100 * value / of : NAN;

  return isnan (part) ? NULL : cro_words_take_short (known, cro_words_pct_of (part, 1));
}

static void
add_share (Statement        *self,
           CroStatementLine  line,
           const char       *name,
           CroKnown          known,
           gint64            minor,
           double            value)
{
  const CroMonth *month = self->month;
  CroKnown of_sales = cro_known_of_sum (known, cro_known_turned (cro_month_known_sales (month)));
  CroMonthTableRow *row = add_line (self, line, 0, name, known, minor);

  row->is_sum = TRUE;
  row->cells[CRO_STATEMENT_OF_SALES] = pct (of_sales, value, month->net_sales);
  row->cells[CRO_STATEMENT_OF_COSTED] = pct (of_sales, value, month->net_sales_costed);
}

/* --- What others have ----------------------------------------------------------------------- */

/* A total that somebody else has, of a till or a ledger. */
static void
add_tie (Statement        *self,
         CroStatementLine  line,
         const char       *name,
         double            theirs,
         CroKnown          known)
{
  CroMonthTableRow *row;

  if (isnan (theirs) && !self->is_form)
    return;
  row = add_row (self, line, 2, name);
  if (isnan (theirs))
    {
      row->note = g_strdup (_("not entered"));
      return;
    }
  row->cells[CRO_STATEMENT_MONEY] = cro_words_money (self->model, theirs);
  if (known == CRO_KNOWN_WHOLE)
    row->note = line == CRO_STATEMENT_TILL ? cro_month_till_words (self->month, self->digits)
                                           : cro_month_ledger_words (self->month, self->digits);
}

/* --- Lines ---------------------------------------------------------------------------------- */

static gboolean
has_sales (const CroMonth *month)
{
  return month->things->len > 0;
}

static void
add_sales (Statement *self)
{
  const CroMonth *month = self->month;
  CroKnown known = cro_month_known_sales (month);

  if (self->is_form && !has_sales (month))
    add_row (self, CRO_STATEMENT_SALES, 0, _("Net sales"))->note = g_strdup (_("no sales entered"));
  else
    {
      add_line (self, CRO_STATEMENT_SALES, 0, _("Net sales"), known, self->minor.net_sales);
      add_line (self, CRO_STATEMENT_COSTED, 2, _("of plates and menus"), known,
                self->minor.net_sales_costed);
    }
  if (self->is_form && self->minor.net_sales == self->minor.net_sales_costed)
    add_row (self, CRO_STATEMENT_REVENUE, 2, _("without a plate"))->note = g_strdup (_("none"));
  else if (self->is_form)
    add_line (self, CRO_STATEMENT_REVENUE, 2, _("without a plate"), CRO_KNOWN_WHOLE,
              self->minor.net_sales - self->minor.net_sales_costed);
  add_tie (self, CRO_STATEMENT_TILL, _("till"), month->till, known);
}

/* Stock at the close of a day: what it is worth and how that is known. */
static void
add_stock (Statement        *self,
           CroStatementLine  line,
           CroDate           day,
           double            stock,
           CroKnown          known,
           gint64            minor,
           guint             n_items)
{
  g_autofree char *date = cro_date_to_text (day);
  g_autofree char *name = cro_isolate_printf (_("Stock on %s"), date);
  CroMonthTableRow *row = isnan (stock) ? add_row (self, line, 0, name)
                                        : add_line (self, line, 0, name, known, minor);

  if (isnan (stock))
    {
      row->cells[CRO_STATEMENT_MONEY] = g_strdup ("–");
      row->note = g_strdup (_("neither counted nor entered"));
    }
  else if (n_items == 0)
    row->note = g_strdup (_("entered as one sum"));
  else
    row->note = g_strdup_printf (ngettext ("%u item counted", "%u items counted", n_items), n_items);
}

static guint
kind_at (const char *code)
{
  guint kind = 0;

  while (g_strcmp0 (cro_adjustment_kind_codes[kind], code) != 0)
    kind++;
  return kind;
}

static void
add_adjustment (Statement        *self,
                CroStatementLine  line,
                const char       *code,
                const char       *name)
{
  guint kind = kind_at (code);
  CroKnown known = self->month->known_adjustments[kind];

  if (self->minor.adjustments[kind] != 0 || known != CRO_KNOWN_WHOLE)
    add_line (self, line, self->is_form ? 2 : 0, name, cro_month_sign_of (kind) < 0 ? cro_known_turned (known) : known,
              self->minor.adjustments[kind]);
}

static gboolean
is_waiting_for_purchases (Statement *self)
{
  return self->is_form && cro_month_all_purchases (self->month) == 0;
}

/* Of an open month whose documents those are; what was taken off of estimates. Owned, or NULL. */
static char *
earlier_note (Statement *self)
{
  char *late = cro_month_belongs_words (self->month, 0);
  char *reversed = cro_month_reversed_words (self->month, self->digits);
  char *both;

  if (late == NULL || reversed == NULL)
    return late != NULL ? late : reversed;
  both = g_strconcat (late, _("; "), reversed, NULL);
  g_free (late);
  g_free (reversed);
  return both;
}

static void
add_bought (Statement *self)
{
  const CroMonth *month = self->month;

  if (is_waiting_for_purchases (self))
    add_row (self, CRO_STATEMENT_BOUGHT, 0, _("Food bought"))->note = g_strdup (_("nothing entered"));
  else
    add_line (self, CRO_STATEMENT_BOUGHT, 0, _("Food bought"), CRO_KNOWN_WHOLE, self->minor.bought);
  if (self->minor.earlier != 0 || month->reversed != 0)
    add_line (self, CRO_STATEMENT_EARLIER, 0, _("Food of earlier months"), CRO_KNOWN_WHOLE,
              self->minor.earlier)
        ->note = earlier_note (self);
  if (!isnan (month->estimate))
    add_line (self, CRO_STATEMENT_ESTIMATE, 0, _("Food not invoiced yet"), CRO_KNOWN_WHOLE,
              self->minor.estimate);
}

/* In the order of Dittmer and Keefe, chapter 8: what was issued, transferred and given away, then what
 * the staff ate. */
static void
add_used (Statement *self)
{
  const CroMonth *month = self->month;
  guint first = self->table->rows->len;

  add_stock (self, CRO_STATEMENT_OPENING, month->first - 1, month->opening,
             month->known_opening, self->minor.opening, month->n_opening);
  g_array_index (self->table->rows, CroMonthTableRow, first).is_apart = TRUE;
  add_bought (self);
  add_stock (self, CRO_STATEMENT_CLOSING, cro_month_next (month->first) - 1, month->closing,
             cro_known_turned (month->known_closing), self->minor.closing, month->n_closing);
  if (!isnan (month->actual))
    add_line (self, CRO_STATEMENT_USED, 0, _("Food used"), cro_month_known_used (month), self->minor.used);
  if (self->is_form)
    add_row (self, CRO_STATEMENT_ADJUSTMENTS, 0, _("Adjustments"));
  first = self->table->rows->len;
  add_adjustment (self, CRO_STATEMENT_TRANSFER_IN, "transfer-in", _("transferred in"));
  add_adjustment (self, CRO_STATEMENT_TRANSFER_OUT, "transfer-out", _("transferred out"));
  add_adjustment (self, CRO_STATEMENT_PROMOTION, "promotion", _("complimentary"));
  add_adjustment (self, CRO_STATEMENT_OTHER, "other", _("other adjustments"));
  add_adjustment (self, CRO_STATEMENT_STAFF, "staff-meal", _("staff meals"));
  if (self->is_form && first == self->table->rows->len)
    g_array_index (self->table->rows, CroMonthTableRow, first - 1).note = g_strdup (_("none"));
}

static void
add_costs (Statement *self)
{
  const CroMonth *month = self->month;

  if (isnan (month->actual))
    {
      CroMonthTableRow *row = add_row (self, CRO_STATEMENT_ACTUAL, 0, _("Actual food cost"));

      row->is_sum = TRUE;
      /* A page has room for words beside the name alone. */
      row->cells[CRO_STATEMENT_MONEY] = g_strdup (self->is_form ? "–" : _("not known yet"));
      row->note = self->is_form ? g_strdup (_("not known yet")) : NULL;
    }
  else
    add_share (self, CRO_STATEMENT_ACTUAL, _("Actual food cost"), month->known_actual, self->minor.actual,
               month->actual);
  if (!has_sales (month) && !self->is_form)
    {
      CroMonthTableRow *row = add_row (self, CRO_STATEMENT_THEORETICAL, 0, _("Theoretical food cost"));

      row->is_sum = TRUE;
      row->cells[CRO_STATEMENT_MONEY] = g_strdup ("–");
    }
  else if (has_sales (month))
    add_share (self, CRO_STATEMENT_THEORETICAL, _("Theoretical food cost"), month->known_theoretical,
               self->minor.theoretical, month->theoretical);
  if (!isnan (month->over))
    add_share (self, CRO_STATEMENT_OVER, month->over < 0 ? _("Under") : _("Over"),
               month->over < 0 ? cro_known_turned (month->known_over) : month->known_over,
               month->over < 0 ? -self->minor.over : self->minor.over, fabs (month->over));
  if (self->minor.waste != 0)
    add_line (self, CRO_STATEMENT_WASTE, 2, _("known waste explains"),
              month->known_adjustments[kind_at ("waste")], self->minor.waste);
}

/* What was bought of a kind that is no food; what came late of it on the line behind. */
static void
add_purchases (Statement        *self,
               CroStatementLine  line,
               const char       *name,
               const char       *late,
               guint             kind)
{
  const double parts[] = { self->month->purchases[kind], self->month->earlier[kind] };
  guint64 order[2];
  gint64 minor[2];

  cro_money_apportion (cro_money_round (parts[0] + parts[1], self->digits), parts, 2, self->digits, order, minor);
  add_line (self, line, 0, name, CRO_KNOWN_WHOLE, minor[0])->is_apart = line == CRO_STATEMENT_DISPOSABLES;
  if (minor[1] != 0)
    add_line (self, line + 1, 0, late, CRO_KNOWN_WHOLE, minor[1])->note = cro_month_belongs_words (self->month, kind);
}

static void
add_other_purchases (Statement *self)
{
  const CroMonth *month = self->month;
  double all = cro_month_all_purchases (month);

  if (!is_waiting_for_purchases (self))
    {
      add_purchases (self, CRO_STATEMENT_DISPOSABLES, _("Disposables bought"), _("Disposables of earlier months"), 1);
      add_purchases (self, CRO_STATEMENT_OTHER_PURCHASES, _("Other purchases"), _("Other purchases of earlier months"),
                     2);
      add_line (self, CRO_STATEMENT_PURCHASES, 0, _("All purchases"), CRO_KNOWN_WHOLE,
                cro_money_round (all, self->digits));
    }
  add_tie (self, CRO_STATEMENT_LEDGER, _("ledger"), month->ledger, CRO_KNOWN_WHOLE);
}

static void
add_notes (Statement *self)
{
  char *control = cro_month_average_words (self->model, self->month);

  if (!self->minor.adds_up)
    g_ptr_array_add (self->table->notes,
                     g_strdup (_("These lines do not add up: what closing froze was changed. The command "
                                 "check says in which months.")));
  if (control != NULL)
    g_ptr_array_add (self->table->notes, control);
  g_ptr_array_add (self->table->notes,
                   g_strdup (_("Stock is valued at the food cost of the day of its count, which comes "
                               "close to first in, first out (IAS 2). These are working papers for an "
                               "accountant.")));
}

CroMonthTable *
cro_month_statement_new (CroModel       *model,
                         const CroMonth *month,
                         gboolean        is_form)
{
  const char *titles[CRO_N_STATEMENT_COLUMNS] = { NULL, NULL, _("of net sales"), _("of plates and menus") };
  Statement self = { .model = model, .month = month, .is_form = is_form,
                     .digits = cro_currency_digits (month->currency),
                     .table = cro_month_table_new (CRO_N_STATEMENT_COLUMNS, titles) };

  cro_month_round (month, self.digits, &self.minor);
  add_sales (&self);
  add_used (&self);
  add_costs (&self);
  add_other_purchases (&self);
  add_notes (&self);
  return self.table;
}

CroStatementLine
cro_month_first_waiting (const CroMonth *month)
{
  if (month->is_closed)
    return CRO_N_STATEMENT_LINES;
  if (!has_sales (month) || month->lacks_revenue)
    return CRO_STATEMENT_SALES;
  if (isnan (month->opening))
    return CRO_STATEMENT_OPENING;
  if (cro_month_all_purchases (month) == 0)
    return CRO_STATEMENT_BOUGHT;
  if (isnan (month->closing))
    return CRO_STATEMENT_CLOSING;
  for (guint i = 0; i < month->questions->len; i++)
    if (g_array_index (month->questions, CroMonthQuestion, i).kind == CRO_QUESTION_NOT_COUNTED)
      return CRO_STATEMENT_CLOSING;
  return CRO_N_STATEMENT_LINES;
}
