#include "cro-office-report.h"

#include <math.h>

#include "cro-number.h"
#include "cro-money.h"

CroOfficeSheet *
cro_office_report_sheet (CroOfficeReport *self,
                         const char      *name,
                         const char      *title,
                         const char      *about)
{
  CroOfficeSheet *sheet = &self->sheets[self->n_sheets++];

  g_assert (self->n_sheets <= CRO_OFFICE_MOST_SHEETS);
  cro_office_sheet_init (sheet, name, title, about);
  return sheet;
}

const char *
cro_office_report_keep (CroOfficeReport *self,
                        char            *text)
{
  g_ptr_array_add (self->texts, text);
  return text;
}

void
cro_office_report_tie (CroOfficeReport *self,
                       const char      *what,
                       char             column,
                       guint32          row,
                       double           value,
                       double           other)
{
  CroWorkbookTie tie = { what, self->n_sheets - 1, column, row, value, other };

  g_array_append_val (self->ties, tie);
}

double
cro_office_report_money (const CroOfficeReport *self,
                         gint64                 minor)
{
  return (double) minor / pow (10, self->digits);
}

gint64
cro_office_sum (const gint64 *minor,
                guint         n)
{
  gint64 sum = 0;

  for (guint i = 0; i < n; i++)
    sum += minor[i];
  return sum;
}

gint64 *
cro_office_report_parts (const CroOfficeReport *self,
                         gint64                 total,
                         const double          *parts,
                         guint                  n)
{
  g_autofree guint64 *order = g_new (guint64, n + 1);
  gint64 *minor = g_new0 (gint64, n + 1);

  if (n > 0)
    cro_money_apportion (total, parts, n, self->digits, order, minor);
  return minor;
}

void
cro_office_report_init (CroOfficeReport *self,
                        CroOffice       *office,
                        const CroMonth  *month,
                        const CroMonth  *before,
                        GHashTable      *accounts)
{
  *self = (CroOfficeReport){
    .month = month, .before = before, .model = office->model,
    .digits = cro_currency_digits (month->currency),
    .ties = g_array_new (FALSE, FALSE, sizeof (CroWorkbookTie)),
    .texts = g_ptr_array_new_with_free_func (g_free), .notes = g_ptr_array_new ()
  };
  self->rounded = cro_month_rounded_new (month, self->digits);
  self->minor = self->rounded->minor;
  cro_office_add_statement (self);
  cro_office_add_questions (self);
  cro_office_add_variances (self);
  cro_office_add_groups (self);
  cro_office_add_plates (self);
  cro_office_add_mix (self);
  cro_office_add_items (self);
  cro_office_add_purchases (self);
  cro_office_add_counts (self);
  cro_office_add_adjusted (self);
  cro_office_add_movements (self, office);
  cro_office_add_journal (self, accounts);
  self->all = g_new (CroWorkbookSheet, self->n_sheets);
  for (guint i = 0; i < self->n_sheets; i++)
    self->all[i] = *cro_office_sheet_end (&self->sheets[i]);
  self->report = (CroWorkbookReport){
    .sheets = self->all, .n_sheets = self->n_sheets,
    .ties = (const CroWorkbookTie *) (gpointer) self->ties->data, .n_ties = self->ties->len,
    .notes = (const char *const *) self->notes->pdata, .n_notes = self->notes->len
  };
}

void
cro_office_report_clear (CroOfficeReport *self)
{
  for (guint i = 0; i < self->n_sheets; i++)
    cro_office_sheet_clear (&self->sheets[i]);
  g_array_unref (self->ties);
  g_ptr_array_unref (self->texts);
  g_ptr_array_unref (self->notes);
  g_free (self->all);
  cro_month_rounded_free (self->rounded);
}
