/* What a supplier's table says of the tax in its prices: in a heading, in a note, in a column beside them. */
#include "cro-price-list-table.h"

#include "cro-decimal.h"
#include "cro-word-list.h"

#include <string.h>

gboolean
cro_list_table_read_number (CroListTable *self,
                            guint   index,
                            guint   column,
                            gint64 *number)
{
  return cro_brought_money (self->brought, cro_brought_get (self->brought, index, column), column, number, NULL);
}

/* --- Beside a price ---------------------------------------------------------------------------------------- */

/* Whether any other column has the sum of price and tax. */
static gboolean
has_total (CroListTable *self,
           guint             index,
           guint             price_column,
           const CroListRow *row)
{
  gint64 total;

  for (guint i = 0; i < self->brought->n_columns; i++)
    if (i != price_column && (int) i != self->tax_column && cro_list_table_read_number (self, index, i, &total)
        && cro_price_list_adds_tax (row->price, row->tax_beside, total))
      return TRUE;
  return FALSE;
}

/* The most that a price with tax is of one without; common practice, no source. */
#define MOST_WITH_TAX 1.3

/* A column that says nothing of tax may hold the price with it, "Total", which only the rate can tell: what it is more,
 * without a heading. Under another one, "RRP", it may be another price. */
static void
read_sum_beside (CroListTable *self,
                 guint       index,
                 guint       price_column,
                 CroListRow *row)
{
  gint64 sum;

  for (guint i = 0; row->tax_beside == 0 && i < self->brought->n_columns; i++)
    if (i != price_column && self->brought->roles[i] == CRO_ROLE_NONE
        && cro_list_table_read_number (self, index, i, &sum)
        && sum > row->price && (double) sum <= MOST_WITH_TAX * (double) row->price)
      {
        const char *heading = self->brought->headings < 0
                                  ? "" : cro_brought_get (self->brought, (guint) self->brought->headings, i)->text;

        row->tax_beside = sum - row->price;
        row->sum_heading = cro_price_heading_is_total (heading) ? NULL : cro_price_list_keep (self->list, heading);
      }
}

/* What stands beside a price says it as well; what two places say otherwise, or one so that it is not understood, is
 * open. */
static void
take_beside (CroListTable *self,
             CroListRow   *row,
             CroPriceTax   says,
             gint64        pct,
             const char   *heading)
{
  gboolean is_other = (row->says_tax != CRO_PRICE_TAX_UNSAID && row->says_tax != says)
                      || (row->tax_pct > 0 && pct > 0 && row->tax_pct != pct);

  if (says != CRO_PRICE_TAX_UNSAID && !is_other && !row->is_tax_open)
    {
      row->says_tax = says;
      row->tax_pct = MAX (row->tax_pct, pct);
      return;
    }
  row->says_tax = CRO_PRICE_TAX_UNSAID;
  row->is_tax_open = TRUE;
  row->tax_heading = cro_price_list_keep (self->list, heading);
  row->tax_beside = CRO_NOT_SET;
}

/* The rate in the column of tax; FALSE: it is none. */
static gboolean
read_rate (CroListTable *self,
           guint         index,
           gint64       *pct)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, (guint) self->tax_column);
  gboolean is_per_cent = cell->kind == CRO_READ_CELL_PERCENT || strchr (cell->text, '%') != NULL;
  const char *rest = "";

  if (!cro_brought_number (self->brought, cell, (guint) self->tax_column, pct, &rest)
      || !(*rest == '\0' || strcmp (rest, "%") == 0) || *pct < 0 || *pct > CRO_WHOLE_PCT)
    return FALSE;
  /* "0.21" is a part of one. */
  if (*pct < CRO_MICRO && !is_per_cent)
    *pct *= 100;
  /* Under "VAT" alone a number is an amount, but for none. */
  return self->tax_kind == CRO_TAX_COLUMN_RATE
         || (self->tax_kind == CRO_TAX_COLUMN_OPEN && (*pct == 0 || is_per_cent));
}

/* That of a price that has tax in it; of tax at none nothing is. */
static void
read_rate_beside (CroListTable *self,
                  guint       index,
                  CroListRow *row)
{
  gint64 pct;

  if (!read_rate (self, index, &pct))
    return;
  if (pct == 0 && row->tax_pct == 0)
    row->says_tax = CRO_PRICE_WITHOUT_TAX;
  else
    take_beside (self, row, row->says_tax, pct, cro_brought_get (self->brought, (guint) self->brought->headings,
                                                                 (guint) self->tax_column)->text);
}

/* "VAT" over "included", "VAT included" over "yes", "HT/TTC" over "TTC"; "VAT" over "yes" leaves it open. A code says
 * nothing. */
static void
read_words_beside (CroListTable      *self,
                   const CroReadCell *cell,
                   CroListRow        *row)
{
  const char *heading = cro_brought_get (self->brought, (guint) self->brought->headings,
                                         (guint) self->tax_column)->text;
  const gboolean is_yes = cro_word_list_scan (cell->text, "yes|y|oui|o|x|true|vrai") == strlen (cell->text),
                 is_no = cro_word_list_scan (cell->text, "no|n|non|false|faux") == strlen (cell->text);
  g_autofree char *whole = g_strdup_printf ("%s %s", heading, cell->text);
  CroPriceTax says = cro_price_heading_tax (heading), alone;
  gint64 pct;

  alone = cro_price_heading_tax_at (cell->text, &pct);
  if (is_yes || is_no)
    says = says != CRO_PRICE_WITH_TAX ? CRO_PRICE_TAX_UNSAID : is_yes ? CRO_PRICE_WITH_TAX : CRO_PRICE_WITHOUT_TAX;
  else if (alone != CRO_PRICE_TAX_UNSAID)
    says = alone;
  else
    says = says == CRO_PRICE_TAX_UNSAID ? cro_price_heading_tax_at (whole, &pct) : CRO_PRICE_TAX_UNSAID;
  if (says != CRO_PRICE_TAX_UNSAID || ((is_yes || is_no) && self->tax_kind != CRO_TAX_COLUMN_CODE))
    take_beside (self, row, says, pct, heading);
}

/* "+2.4 %" under "Change" is of the goods. */
static gboolean
is_other_kind (CroListTable *self,
               guint         column)
{
  return self->brought->headings >= 0 && self->kinds[column] == CRO_COLUMN_OTHER;
}

/* "incl. VAT" under "Remarks" */
static void
read_remarks (CroListTable *self,
              guint         index,
              CroListRow   *row)
{
  for (guint i = 0; i < self->brought->n_columns; i++)
    {
      const CroRole role = self->brought->roles[i];
      const CroReadCell *cell = cro_brought_get (self->brought, index, i);
      CroPriceSaying saying;

      if ((int) i == self->tax_column || (role != CRO_ROLE_NONE && role != CRO_ROLE_NOTE)
          || cell->kind != CRO_READ_CELL_TEXT
          || !(cro_price_saying_may_be_of_tax (cell->text)
               || (!is_other_kind (self, i)
                   && (strchr (cell->text, '%') != NULL || cro_word_list_scan (cell->text, "excl|incl|exc|inc") > 0))))
        continue;
      saying = cro_price_saying_of (cell->text, NULL);
      if (cro_price_saying_is_of_tax (&saying) && !saying.is_rate)
        take_beside (self, row, saying.tax, saying.tax_pct, cell->text);
    }
}

/* What a column of tax says of the price: any other that has their sum says that it is without. No tax is none. What a
 * rate, a code or words there say of it is asked. */
void
cro_list_table_read_tax_beside (CroListTable *self,
                                guint       index,
                                guint       price_column,
                                CroListRow *row)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, (guint) MAX (self->tax_column, 0));
  gboolean has_number = self->tax_column >= 0
                        && cro_list_table_read_number (self, index, (guint) self->tax_column, &row->tax_beside)
                        && row->tax_beside >= 0;

  if (!row->has_price)
    return;
  if (row->says_tax == CRO_PRICE_TAX_UNSAID && self->is_tax_asked_of_all)
    cro_list_said_ask_tax (self->list, row, self->tax_open);
  else if (row->says_tax == CRO_PRICE_TAX_UNSAID && self->tax_open != NULL)
    {
      row->is_tax_open = TRUE;
      row->tax_heading = self->tax_open;
    }
  if (row->says_tax == CRO_PRICE_TAX_UNSAID && !row->is_tax_open && self->tax_column < 0)
    row->tax_heading = self->net_heading;
  if (!has_number)
    row->tax_beside = row->tax_heading != NULL || self->tax_column >= 0 ? CRO_NOT_SET : 0;
  read_remarks (self, index, row);
  if (self->tax_column >= 0 && !has_number && cell->kind != CRO_READ_CELL_EMPTY)
    read_words_beside (self, cell, row);
  if (row->says_tax == CRO_PRICE_WITH_TAX && self->tax_column >= 0)
    read_rate_beside (self, index, row);
  if (row->says_tax != CRO_PRICE_TAX_UNSAID)
    return;
  if (self->tax_column < 0 && row->tax_heading == NULL)
    read_sum_beside (self, index, price_column, row);
  if (self->tax_column < 0 || cell->kind == CRO_READ_CELL_EMPTY)
    return;
  row->tax_heading = cro_price_list_keep (self->list, cro_brought_get (self->brought, (guint) self->brought->headings,
                                                                       (guint) self->tax_column)->text);
  if (!read_rate (self, index, &row->rate_beside))
    row->rate_beside = 0;
  if (!has_number)
    return;
  if (self->tax_kind == CRO_TAX_COLUMN_GROSS)
    row->tax_beside = row->tax_beside > row->price ? row->tax_beside - row->price : CRO_NOT_SET;
  else if (self->tax_kind != CRO_TAX_COLUMN_CODE
           && (row->tax_beside == 0 || has_total (self, index, price_column, row)))
    row->says_tax = CRO_PRICE_WITHOUT_TAX;
  else if (self->tax_kind == CRO_TAX_COLUMN_CODE || self->tax_kind == CRO_TAX_COLUMN_RATE)
    row->tax_beside = CRO_NOT_SET;
}

/* --- Of all prices ----------------------------------------------------------------------------------------- */

/* Whether a column has numbers, and not "yes". */
static gboolean
holds_numbers (const CroBrought *brought,
               guint             column)
{
  gint64 ignored;

  for (guint row = (guint) (brought->headings + 1); row < brought->rows->len; row++)
    if (cro_brought_money (brought, cro_brought_get (brought, row, column), column, &ignored, NULL))
      return TRUE;
  return FALSE;
}

/* The heading of the prices says it best; then a column beside it that has the tax, "TTC", makes this one the
 * other; then a note. */
static CroPriceTax
tax_of_list (CroListTable *self)
{
  const CroBrought *brought = self->brought;
  guint headings = (guint) brought->headings, price;
  const CroRole role = cro_brought_price_role (brought);
  CroPriceTax said = CRO_PRICE_TAX_UNSAID;

  if (brought->headings >= 0)
    said = cro_price_heading_tax_at (cro_brought_get_role (brought, headings, role, &price)->text, &self->tax_pct);
  for (guint i = 0; said == CRO_PRICE_TAX_UNSAID && brought->headings >= 0 && i < brought->n_columns; i++)
    {
      const char *beside = cro_brought_get (brought, headings, i)->text;
      CroPriceTax says = i != price ? cro_price_heading_tax (beside) : CRO_PRICE_TAX_UNSAID;

      if (says != CRO_PRICE_TAX_UNSAID
          && (cro_role_of_heading (beside) == CRO_ROLE_PRICE
              || (says == CRO_PRICE_WITH_TAX && brought->roles[i] == CRO_ROLE_NONE
                  && !cro_price_heading_is_past (beside) && holds_numbers (brought, i))))
        said = CRO_PRICE_WITHOUT_TAX;
    }
  return said;
}

/* What is gross is then before that. */
static gboolean
has_discount (const CroBrought *brought)
{
  for (guint i = 0; brought->headings >= 0 && i < brought->n_columns; i++)
    if (cro_price_column_of_heading (cro_brought_get (brought, (guint) brought->headings, i)->text)
        == CRO_COLUMN_CHANGE)
      return TRUE;
  return FALSE;
}

/* What leaves open whether prices have tax: their heading, a note, or two of those that contradict each other; NULL. A
 * rate alone says nothing of prices that are without tax. */
static const char *
find_open (CroListTable         *self,
           const char           *heading,
           const CroPriceSaying *saying)
{
  const CroListSaid *notes = &self->said;
  const CroPriceTax says = self->says_tax;

  if (says == CRO_PRICE_TAX_UNSAID && (saying->is_tax_open || (saying->is_gross && !has_discount (self->brought))))
    return cro_price_list_keep (self->list, heading);
  if (notes->tax_open != NULL && !(says == CRO_PRICE_WITHOUT_TAX && notes->tax_open == notes->rate_note))
    return notes->tax_open;
  if (notes->exception != NULL && (notes->tax != CRO_PRICE_TAX_UNSAID || says != CRO_PRICE_TAX_UNSAID))
    return notes->exception;
  return says != CRO_PRICE_TAX_UNSAID && notes->tax != CRO_PRICE_TAX_UNSAID && notes->tax != says
             ? cro_price_list_keep (self->list, heading) : NULL;
}

static void
settle_tax (CroListTable *self)
{
  const CroBrought *brought = self->brought;
  const char *heading = brought->headings < 0
                            ? "" : cro_brought_get_role (brought, (guint) brought->headings,
                                                         cro_brought_price_role (brought), NULL)->text;
  CroPriceSaying saying = cro_price_saying_of (heading, NULL);

  self->tax_open = find_open (self, heading, &saying);
  if (self->says_tax == CRO_PRICE_TAX_UNSAID && saying.is_net && !has_discount (brought))
    self->net_heading = cro_price_list_keep (self->list, heading);
  if (self->tax_open != NULL)
    self->says_tax = CRO_PRICE_TAX_UNSAID;
  else if (self->says_tax == CRO_PRICE_TAX_UNSAID)
    self->says_tax = self->said.tax;
  if (self->tax_pct == 0)
    self->tax_pct = self->said.tax_pct;
}

/* A column of words that says whether the prices have tax, "VAT included", is asked about as a code is. */
static CroTaxColumn
kind_of (const CroBrought *brought,
         guint             column)
{
  const char *heading = cro_brought_get (brought, (guint) brought->headings, column)->text;
  CroTaxColumn kind = cro_price_heading_tax_column (heading);

  if (brought->roles[column] != CRO_ROLE_NONE || (kind == CRO_TAX_COLUMN_GROSS && has_discount (brought)))
    return CRO_TAX_COLUMN_NONE;
  return kind == CRO_TAX_COLUMN_NONE
                 && (cro_price_heading_tax (heading) == CRO_PRICE_WITH_TAX
                     || cro_price_heading_leaves_tax_open (heading))
             ? CRO_TAX_COLUMN_CODE : kind;
}

static void
find_tax_column (CroListTable *self)
{
  self->tax_column = -1;
  for (guint i = 0; self->brought->headings >= 0 && i < self->brought->n_columns; i++)
    {
      CroTaxColumn kind = kind_of (self->brought, i);

      if (kind <= self->tax_kind)
        continue;
      self->tax_kind = kind;
      self->tax_column = (int) i;
    }
}

void
cro_list_table_find_tax (CroListTable *self)
{
  CroPriceTax heading = self->says_tax = tax_of_list (self);

  settle_tax (self);
  find_tax_column (self);
  self->is_tax_asked_of_all = self->tax_open != NULL && heading != CRO_PRICE_WITH_TAX && self->tax_column < 0
                              && (self->tax_open == self->said.tax_open || self->tax_open == self->said.exception)
                              && !self->said.may_have_tax;
}
