#include "config.h"

#include "cro-month-lines.h"

#include <glib/gi18n.h>
#include <math.h>

#include "cro-code.h"
#include "cro-isolate.h"
#include "cro-money.h"
#include "cro-month-words.h"
#include "cro-number.h"

typedef struct
{
  const CroMonth *month;
  CroMonthMinor   minor;
  int             digits;
  CroMonthLines  *lines;
} Making;

/* A line of which nothing is entered, or known, yet. */
static CroMonthLine *
name_line (Making           *self,
           CroStatementLine  line,
           const char       *name)
{
  CroMonthLine *one = &self->lines->all[line];

  one->name = g_strdup (name);
  one->money = NAN;
  one->is_said = TRUE;
  return one;
}

static CroMonthLine *
put_line (Making           *self,
          CroStatementLine  line,
          const char       *name,
          CroKnown          known,
          gint64            minor)
{
  CroMonthLine *one = name_line (self, line, name);

  one->has_money = TRUE;
  one->minor = minor;
  one->known = known;
  return one;
}

/* A total that somebody else has, of a till or a ledger. Sales that are not all known are not compared. */
static void
put_tie (Making           *self,
         CroStatementLine  line,
         const char       *name,
         double            theirs,
         CroKnown          known)
{
  CroMonthLine *one = name_line (self, line, name);

  one->indent = 2;
  one->is_said = one->has_money = !isnan (theirs);
  if (!one->has_money)
    return;
  one->minor = cro_money_round (theirs, self->digits);
  if (known == CRO_KNOWN_WHOLE)
    one->note = line == CRO_STATEMENT_TILL ? cro_month_till_words (self->month, self->digits)
                                           : cro_month_ledger_words (self->month, self->digits);
}

/* The total of a till that says it with tax alone. */
static void
put_gross_tie (Making *self)
{
  CroMonthLine *one = put_line (self, CRO_STATEMENT_TILL, _("till, with tax"), CRO_KNOWN_WHOLE,
                                cro_money_round (self->month->till_gross, self->digits));

  one->indent = 2;
  one->note = cro_month_gross_words (self->month, self->digits);
}

static void
put_sales (Making *self)
{
  const CroMonth *month = self->month;
  gboolean is_sold = month->things->len > 0;
  CroKnown known = cro_month_known_sales (month);
  gint64 without = self->minor.net_sales - self->minor.net_sales_costed;

  put_line (self, CRO_STATEMENT_SALES, _("Net sales"), known, self->minor.net_sales)->has_money = is_sold;
  if (!is_sold)
    self->lines->all[CRO_STATEMENT_SALES].note = g_strdup (_("no sales entered"));
  put_line (self, CRO_STATEMENT_COSTED, _("of plates and menus"), known, self->minor.net_sales_costed);
  put_line (self, CRO_STATEMENT_REVENUE, _("without a plate"), CRO_KNOWN_WHOLE, without);
  for (CroStatementLine line = CRO_STATEMENT_COSTED; line <= CRO_STATEMENT_REVENUE; line++)
    {
      self->lines->all[line].indent = 2;
      self->lines->all[line].has_money = is_sold;
      self->lines->all[line].is_said = is_sold && (line == CRO_STATEMENT_COSTED || without != 0);
    }
  if (cro_month_is_tied_with_tax (month))
    put_gross_tie (self);
  else
    put_tie (self, CRO_STATEMENT_TILL, _("till"), month->till, known);
}

/* Stock at the close of a day: what it is worth and how that is known. */
static CroMonthLine *
put_stock (Making           *self,
           CroStatementLine  line,
           CroDate           day,
           double            stock,
           CroKnown          known,
           gint64            minor,
           guint             n_items)
{
  g_autofree char *date = cro_date_to_text (day);
  g_autofree char *name = cro_isolate_printf (_("Stock on %s"), date);
  CroMonthLine *one = put_line (self, line, name, known, minor);

  one->has_money = !isnan (stock);
  if (isnan (stock))
    one->note = g_strdup (_("neither counted nor entered"));
  else if (n_items == 0)
    one->note = g_strdup (_("entered as one sum"));
  else
    one->note = g_strdup_printf (ngettext ("%u item counted", "%u items counted", n_items), n_items);
  return one;
}

/* Whose documents of a kind those are. Owned, or NULL. */
static char *
belongs_note (Making *self,
              guint   kind)
{
  g_autofree char *months = cro_month_late_of_words (self->month, kind);

  /* Translators: late documents; one or more months, "October 2026". */
  return months != NULL ? cro_isolate_printf (_("belongs to %s"), months) : NULL;
}

/* Of food; and what was taken off of estimates, each with its money where there are both. Owned, or NULL. */
static char *
earlier_note (Making *self)
{
  g_autofree char *months = cro_month_late_of_words (self->month, 0);
  gint64 reversed = cro_money_round (-self->month->reversed, self->digits);
  g_autofree char *money = cro_money_to_text (self->minor.earlier - reversed, self->digits);
  g_autofree char *off = cro_money_to_text (reversed, self->digits);

  if (reversed == 0)
    return belongs_note (self, 0);
  if (months == NULL)
    return cro_month_reversed_words (self->month, self->digits);
  /* Translators: money of late documents; one or more months, "October 2026"; money, mostly below 0, of what those
   * were closed with as delivered and not invoiced. */
  return cro_isolate_printf (_("%s belongs to %s; estimates reversed %s"), money, months, off);
}

/* What is taken off of a kind, as a later month has booked it. */
static void
put_later (Making           *self,
           CroStatementLine  line,
           guint             kind)
{
  g_autofree char *months = cro_month_later_of_words (self->month, kind);
  CroMonthLine *one = put_line (self, line, cro_month_later_name (kind), CRO_KNOWN_WHOLE,
                                self->minor.later_of_kind[kind]);

  one->is_said = months != NULL;
  /* Translators: documents that are taken off; one or more months, "November 2026". */
  one->note = months != NULL ? cro_isolate_printf (_("booked already in %s"), months) : NULL;
}

static gboolean
has_purchases (const CroMonth *month)
{
  return cro_month_all_purchases (month) != 0;
}

static void
put_bought (Making *self)
{
  const CroMonth *month = self->month;
  CroMonthLine *one = put_line (self, CRO_STATEMENT_BOUGHT, _("Food bought"), CRO_KNOWN_WHOLE, self->minor.bought);

  one->has_money = has_purchases (month);
  one->note = one->has_money ? NULL : g_strdup (_("nothing entered"));
  one = put_line (self, CRO_STATEMENT_EARLIER, cro_month_earlier_name (0), CRO_KNOWN_WHOLE, self->minor.earlier);
  one->is_said = self->minor.earlier != 0 || month->reversed != 0 || month->earlier_of[0]->len > 0;
  one->note = earlier_note (self);
  put_later (self, CRO_STATEMENT_LATER, 0);
  one = put_line (self, CRO_STATEMENT_ESTIMATE, _("Food not invoiced yet"), CRO_KNOWN_WHOLE, self->minor.estimate);
  one->is_said = !isnan (month->estimate);
  one->note = one->is_said ? g_strdup (_("an estimate")) : NULL;
}

static void
put_adjustments (Making *self)
{
  static const struct { CroStatementLine line; CroAdjustmentKind kind; const char *name; } kinds[] = {
    { CRO_STATEMENT_TRANSFER_IN, CRO_ADJUSTMENT_TRANSFER_IN, N_("transferred in") },
    { CRO_STATEMENT_TRANSFER_OUT, CRO_ADJUSTMENT_TRANSFER_OUT, N_("transferred out") },
    { CRO_STATEMENT_PROMOTION, CRO_ADJUSTMENT_PROMOTION, N_("complimentary") },
    { CRO_STATEMENT_OTHER, CRO_ADJUSTMENT_OTHER, N_("other adjustments") },
    { CRO_STATEMENT_STAFF, CRO_ADJUSTMENT_STAFF_MEAL, N_("staff meals") },
  };

  name_line (self, CRO_STATEMENT_ADJUSTMENTS, _("Adjustments"))->is_said = FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      CroAdjustmentKind kind = kinds[i].kind;
      CroKnown known = self->month->known_adjustments[kind];

      put_line (self, kinds[i].line, _(kinds[i].name),
                cro_month_sign_of (kind) < 0 ? cro_known_turned (known) : known, self->minor.adjustments[kind])
          ->is_said
          = self->minor.adjustments[kind] != 0 || known != CRO_KNOWN_WHOLE;
    }
}

/* In the order of Dittmer and Keefe, chapter 8: what was issued, transferred and given away, then what
 * the staff ate. */
static void
put_used (Making *self)
{
  const CroMonth *month = self->month;
  CroMonthLine *used;

  put_stock (self, CRO_STATEMENT_OPENING, month->first - 1, month->opening, month->known_opening,
             self->minor.opening, month->n_opening)
      ->is_apart
      = TRUE;
  put_bought (self);
  put_stock (self, CRO_STATEMENT_CLOSING, cro_month_next (month->first) - 1, month->closing,
             cro_known_turned (month->known_closing), self->minor.closing, month->n_closing);
  used = put_line (self, CRO_STATEMENT_USED, _("Food used"), month->known_used, self->minor.used);
  used->is_said = used->has_money = !isnan (month->actual);
  put_adjustments (self);
}

static CroMonthLine *
put_cost (Making           *self,
          CroStatementLine  line,
          const char       *name,
          CroKnown          known,
          gint64            minor,
          double            money)
{
  CroMonthLine *one = put_line (self, line, name, known, minor);

  one->is_sum = TRUE;
  one->has_money = !isnan (money);
  one->money = money;
  return one;
}

static void
put_costs (Making *self)
{
  const CroMonth *month = self->month;
  CroMonthLine *one = put_cost (self, CRO_STATEMENT_ACTUAL, _("Actual food cost"), month->known_actual,
                                self->minor.actual, month->actual);

  one->note = one->has_money ? NULL : g_strdup (_("not known yet"));
  put_cost (self, CRO_STATEMENT_THEORETICAL, _("Theoretical food cost"), month->known_theoretical,
            self->minor.theoretical, month->things->len > 0 ? month->theoretical : NAN);
  one = put_cost (self, CRO_STATEMENT_OVER, _("Actual less theoretical"), month->known_over, self->minor.over,
                  month->over);
  one->is_said = one->has_money;
  one = put_line (self, CRO_STATEMENT_WASTE, _("known waste explains"), month->known_adjustments[CRO_ADJUSTMENT_WASTE],
                  self->minor.waste);
  one->indent = 2;
  one->is_said = self->minor.waste != 0 || month->known_adjustments[CRO_ADJUSTMENT_WASTE] != CRO_KNOWN_WHOLE;
}

/* What was bought of a kind that is no food; what came late of it on the line behind, then what is taken off. */
static void
put_kind (Making           *self,
          CroStatementLine  line,
          const char       *name,
          guint             kind)
{
  put_line (self, line, name, CRO_KNOWN_WHOLE, self->minor.of_kind[kind]);
  put_line (self, line + 1, cro_month_earlier_name (kind), CRO_KNOWN_WHOLE, self->minor.earlier_of_kind[kind])->note
      = belongs_note (self, kind);
  put_later (self, line + 2, kind);
}

/* Food, disposables and the others, as a ledger has them: what is shown adds up. */
static void
put_purchases (Making *self)
{
  CroMonthLine *all = self->lines->all;

  put_line (self, CRO_STATEMENT_FOOD, _("Food"), CRO_KNOWN_WHOLE,
            self->minor.bought + self->minor.earlier + self->minor.later_of_kind[0] + self->minor.estimate)
      ->is_apart
      = TRUE;
  put_kind (self, CRO_STATEMENT_DISPOSABLES, _("Disposables bought"), 1);
  put_kind (self, CRO_STATEMENT_OTHER_PURCHASES, _("Other purchases"), 2);
  put_line (self, CRO_STATEMENT_PURCHASES, _("All purchases"), CRO_KNOWN_WHOLE, self->minor.purchases);
  all[CRO_STATEMENT_EARLIER_DISPOSABLES].is_said = all[CRO_STATEMENT_EARLIER_DISPOSABLES].minor != 0;
  all[CRO_STATEMENT_EARLIER_OTHER].is_said = all[CRO_STATEMENT_EARLIER_OTHER].minor != 0;
  for (CroStatementLine line = CRO_STATEMENT_FOOD; line <= CRO_STATEMENT_PURCHASES; line++)
    {
      all[line].has_money = has_purchases (self->month);
      all[line].is_said &= all[line].has_money;
    }
  /* Once more the line above of the same food, where that is all of it. */
  all[CRO_STATEMENT_FOOD].is_said &= all[CRO_STATEMENT_EARLIER].is_said || all[CRO_STATEMENT_LATER].is_said
                                     || all[CRO_STATEMENT_ESTIMATE].is_said;
  put_tie (self, CRO_STATEMENT_LEDGER, _("ledger"), self->month->ledger, CRO_KNOWN_WHOLE);
}

static void
put_notes (Making *self)
{
  GPtrArray *notes = self->lines->notes;

  if (!self->minor.adds_up)
    g_ptr_array_add (notes, g_strdup (_("These lines do not add up: what closing froze was changed. The command "
                                        "check says in which months.")));
  g_ptr_array_add (notes, g_strdup (_("Stock is valued at the food cost of the day of its count, which comes "
                                      "close to first in, first out (IAS 2). These are working papers for an "
                                      "accountant.")));
}

CroMonthLines *
cro_month_lines_new (const CroMonth *month)
{
  Making self = { .month = month, .digits = cro_currency_digits (month->currency), .lines = g_new0 (CroMonthLines, 1) };

  self.lines->notes = g_ptr_array_new_with_free_func (g_free);
  cro_month_round (month, self.digits, &self.minor);
  self.lines->adds_up = self.minor.adds_up;
  self.lines->is_shifted = self.minor.is_shifted;
  put_sales (&self);
  put_used (&self);
  put_costs (&self);
  put_purchases (&self);
  put_notes (&self);
  return self.lines;
}

void
cro_month_lines_free (CroMonthLines *self)
{
  if (self == NULL)
    return;
  for (guint line = 0; line < CRO_N_STATEMENT_LINES; line++)
    {
      g_free (self->all[line].name);
      g_free (self->all[line].note);
    }
  g_ptr_array_unref (self->notes);
  g_free (self);
}
