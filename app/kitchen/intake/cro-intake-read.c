/* One row of a sheet: its cells as numbers, amounts, days and words. */
#include "cro-intake-private.h"

#include <math.h>
#include <string.h>

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fold.h"
#include "cro-name.h"
#include "cro-quick.h"
#include "cro-stray.h"
#include "cro-total.h"
#include "cro-words.h"

/* What rows come to together is entered as one number. */
#define MOST_OF_ALL (CRO_ENTERED_BELOW - 1)

static const CroReadCell *
cell_of (CroIntakeReading *self,
         guint             row,
         CroIntakeColumn   what)
{
  static const CroReadCell none = { CRO_READ_CELL_EMPTY, "", NULL, FALSE };

  return self->at[what] >= 0 ? cro_brought_get (self->brought, row, (guint) self->at[what]) : &none;
}

static const CroReadCell *
money_cell (CroIntakeReading *self,
            guint             row)
{
  static const CroReadCell none = { CRO_READ_CELL_EMPTY, "", NULL, FALSE };

  return self->money >= 0 ? cro_brought_get (self->brought, row, (guint) self->money) : &none;
}

static gboolean
is_set (CroIntakeReading *self,
        guint             row,
        CroIntakeColumn   what)
{
  return cell_of (self, row, what)->kind != CRO_READ_CELL_EMPTY;
}

static gboolean
refuse (CroIntakeReading *self,
        guint             row,
        CroIntakeFault    fault,
        const char       *text)
{
  cro_intake_refuse (self->intake, self->intake->bad,
                     g_array_index (self->brought->rows, CroBroughtRow, row).number, fault, text);
  return FALSE;
}

/* What is no number, or one that is too large to be entered. */
static gboolean
refuse_number (CroIntakeReading *self,
               guint             row,
               const char       *text)
{
  double number;
  char *end;

  number = g_ascii_strtod (text, &end);
  return refuse (self, row,
                 end != text && *end == '\0' && fabs (number) >= (double) CRO_ENTERED_BELOW / CRO_MICRO
                     ? CRO_INTAKE_TOO_LARGE
                     : CRO_INTAKE_NOT_A_NUMBER,
                 text);
}

/* --- Cells ------------------------------------------------------------------------------------------ */

/* Below 0 may be written "−2", "2-" or "(2)". */
static gboolean
read_number (CroIntakeReading  *self,
             const CroReadCell *cell,
             int                column,
             gint64            *number)
{
  g_autofree char *text = g_strstrip (g_strdup (cell->text));
  gsize length = strlen (text);
  gboolean is_below = TRUE;
  CroReadCell bare = { cell->kind, text, cell->around, FALSE };
  const char *rest = NULL;

  if (g_str_has_prefix (text, "\342\210\222"))
    bare.text = text + 3;
  else if (length > 2 && text[0] == '(' && text[length - 1] == ')')
    {
      text[length - 1] = '\0';
      bare.text = text + 1;
    }
  else if (length > 1 && text[length - 1] == '-')
    text[length - 1] = '\0';
  else
    is_below = FALSE;
  if (!cro_brought_money (self->brought, &bare, (guint) column, number, &rest)
      || (rest != NULL && *rest != '\0') || *number == G_MININT64)
    return FALSE;
  if (is_below)
    *number = -*number;
  return TRUE;
}

/* CRO_NOT_SET of an empty cell. FALSE: refused. */
static gboolean
read_money (CroIntakeReading *self,
            guint             row,
            CroIntakeColumn   what,
            gint64           *money)
{
  const CroReadCell *cell = cell_of (self, row, what);

  *money = CRO_NOT_SET;
  if (cell->kind == CRO_READ_CELL_EMPTY)
    return TRUE;
  return read_number (self, cell, self->at[what], money) || refuse_number (self, row, cell->text);
}

/* "1.5 kg", or a number with a unit in its column. */
static gboolean
read_amount (CroIntakeReading *self,
             guint             index,
             CroIntakeRow     *row)
{
  const CroReadCell *cell = cell_of (self, index, CRO_INTAKE_AMOUNT),
                    *unit = cell_of (self, index, CRO_INTAKE_UNIT);
  const char *rest = NULL;

  row->has_sold = cell->kind != CRO_READ_CELL_EMPTY;
  if (!row->has_sold)
    return TRUE;
  if (!cro_brought_number (self->brought, cell, (guint) self->at[CRO_INTAKE_AMOUNT], &row->sold,
                           &rest)
      || row->sold < 0)
    return refuse_number (self, index, cell->text);
  if (rest == NULL || *rest == '\0')
    rest = unit->text;
  row->has_unit = *rest != '\0';
  return !row->has_unit || cro_brought_unit (rest, &row->unit)
         || refuse (self, index, CRO_INTAKE_NOT_A_UNIT, rest);
}

/* CRO_NO_DAY of an empty cell. */
static gboolean
read_date (CroIntakeReading *self,
           guint             index,
           CroIntakeColumn   what,
           CroDate          *date)
{
  const CroReadCell *cell = cell_of (self, index, what);

  *date = CRO_NO_DAY;
  return cell->kind == CRO_READ_CELL_EMPTY
         || cro_intake_day_read (cell->text, self->is_month_first, date)
         || refuse (self, index, CRO_INTAKE_NOT_A_DAY, cell->text);
}

static gboolean
read_day (CroIntakeReading *self,
          guint             index,
          CroIntakeRow     *row)
{
  CroIntakeColumn what
      = is_set (self, index, CRO_INTAKE_DAY) || self->intake->kind != CRO_INTAKE_DOCUMENTS
            ? CRO_INTAKE_DAY
            : CRO_INTAKE_DATED;

  if (!read_date (self, index, what, &row->day)
      || !read_date (self, index, CRO_INTAKE_DATED, &row->dated))
    return FALSE;
  if (row->day == CRO_NO_DAY)
    row->day = self->intake->last;
  row->is_late = self->months != NULL && row->day < self->intake->first
                 && cro_month_rows_are_late (self->months, row->day);
  return row->is_late || (row->day >= self->intake->first && row->day <= self->intake->last)
         || refuse (self, index, CRO_INTAKE_OTHER_MONTH, cell_of (self, index, what)->text);
}

/* A name with a character that turns the text around it, or that nobody sees, is no name of the
 * book either. */
static gboolean
is_clean (CroIntakeReading *self,
          guint             index,
          const char       *name)
{
  gunichar stray = cro_stray_find (name, NULL);
  char text[16];

  if (stray == 0)
    return TRUE;
  g_snprintf (text, sizeof text, "U+%04X", stray);
  return refuse (self, index, CRO_INTAKE_STRAY, text);
}

static gboolean
read_text (CroIntakeReading *self,
           guint             index,
           CroIntakeRow     *row)
{
  g_autofree char *text = cro_name_dup_tidy (cell_of (self, index, CRO_INTAKE_TEXT)->text);

  if (*text == '\0')
    return TRUE;
  row->text = g_string_chunk_insert_const (self->intake->texts, text);
  return is_clean (self, index, text);
}

/* --- Rows of each kind ------------------------------------------------------------------------------ */

/* FALSE: refused. name can be taken from elsewhere; it is owned. */
typedef gboolean (*ReadRow) (CroIntakeReading *self, guint index, CroIntakeRow *row, char **name);

/* Per cent, or its part of 1, as a spreadsheet keeps "10 %": no tax is below one per cent. */
static gboolean
read_rate (CroIntakeReading *self,
           guint             index,
           gint64           *rate)
{
  const CroReadCell *cell = cell_of (self, index, CRO_INTAKE_RATE);

  *rate = CRO_NOT_SET;
  if (cell->kind == CRO_READ_CELL_EMPTY)
    return TRUE;
  if (!read_number (self, cell, self->at[CRO_INTAKE_RATE], rate) || *rate < 0 || *rate > 100 * CRO_MICRO)
    return refuse (self, index, CRO_INTAKE_NOT_A_NUMBER, cell->text);
  if (*rate < CRO_MICRO)
    *rate *= 100;
  return TRUE;
}

static gboolean
read_sale (CroIntakeReading *self,
           guint             index,
           CroIntakeRow     *row,
           char            **name)
{
  const CroReadCell *sold = cell_of (self, index, CRO_INTAKE_SOLD),
                    *money = money_cell (self, index);

  row->has_sold = sold->kind != CRO_READ_CELL_EMPTY;
  if (row->has_sold && !read_number (self, sold, self->at[CRO_INTAKE_SOLD], &row->sold))
    return refuse_number (self, index, sold->text);
  if (money->kind != CRO_READ_CELL_EMPTY && !read_number (self, money, self->money, &row->revenue))
    return refuse_number (self, index, money->text);
  return read_rate (self, index, &row->rate) && read_day (self, index, row);
}

/* "2 l oil" in one cell. */
static gboolean
read_words (CroIntakeReading *self,
            guint             index,
            CroIntakeRow     *row,
            char            **name)
{
  g_auto (CroQuick) quick = { 0 };

  if (!cro_quick_read (self->model, *name, cro_words_entry (), &quick) || !quick.has_amount
      || quick.has_price || quick.name == NULL)
    return refuse (self, index, CRO_INTAKE_NO_AMOUNT, *name);
  row->has_sold = TRUE;
  row->sold = quick.amount;
  row->has_unit = TRUE;
  row->unit = quick.unit;
  g_free (*name);
  *name = g_steal_pointer (&quick.name);
  return TRUE;
}

static gboolean
read_count (CroIntakeReading *self,
            guint             index,
            CroIntakeRow     *row,
            char            **name)
{
  return (is_set (self, index, CRO_INTAKE_AMOUNT) ? read_amount (self, index, row)
                                                  : read_words (self, index, row, name))
         && read_text (self, index, row) && read_day (self, index, row);
}

static gboolean
add_up (CroIntakeReading *self,
        guint             index,
        gint64            sum,
        gint64            total)
{
  g_autofree char *apart = NULL;

  if (sum == total)
    return TRUE;
  apart = cro_words_decimal (sum - total);
  return refuse (self, index, CRO_INTAKE_NOT_ADDING, apart);
}

/* What a row bills, where the book has it. An amount that is none, as of boxes, leaves the money as it is; one without
 * a unit is of pieces. */
static void
read_item (CroIntakeReading *self,
           guint             index,
           CroIntakeRow     *row)
{
  const CroReadCell *amount = cell_of (self, index, CRO_INTAKE_AMOUNT);
  const char *rest = NULL;

  row->item = cro_intake_item_at (self, cell_of (self, index, CRO_INTAKE_ITEM)->text);
  if (row->item == CRO_NO_SLOT
      || !cro_brought_number (self->brought, amount, (guint) self->at[CRO_INTAKE_AMOUNT], &row->sold, &rest)
      || row->sold <= 0)
    return;
  if (rest == NULL || *rest == '\0')
    rest = cell_of (self, index, CRO_INTAKE_UNIT)->text;
  row->has_unit = cro_brought_unit (rest, &row->unit);
  row->has_sold = row->has_unit
                  || (*rest == '\0' && self->model->measures[row->item].base == CRO_BASE_EACH);
}

/* What a row of a document is that does not say it: what it bills of the book, else food. */
static int
kind_of_item (CroIntakeReading   *self,
              const CroIntakeRow *row)
{
  return row->item != CRO_NO_SLOT && cro_model_item (self->model, row->item)->is_disposable;
}

/* What one document is without tax, by kind: in columns of their own, or in one with its kind. */
static gboolean
read_values (CroIntakeReading *self,
             guint             index,
             CroIntakeRow     *row)
{
  const CroReadCell *kind = cell_of (self, index, CRO_INTAKE_KIND);
  int of = kind->kind != CRO_READ_CELL_EMPTY ? cro_intake_purchase_kind (kind->text)
                                               : kind_of_item (self, row);
  gint64 net, tax, gross, sum = 0;
  gboolean is_split = FALSE;

  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    {
      if (!read_money (self, index, (CroIntakeColumn) (CRO_INTAKE_FOOD + k), &row->values[k]))
        return FALSE;
      is_split |= row->values[k] != CRO_NOT_SET;
      sum += row->values[k] != CRO_NOT_SET ? row->values[k] : 0;
    }
  if (!read_money (self, index, CRO_INTAKE_NET, &net)
      || !read_money (self, index, CRO_INTAKE_TAX, &tax)
      || !read_money (self, index, CRO_INTAKE_GROSS, &gross))
    return FALSE;
  if (net == CRO_NOT_SET && gross != CRO_NOT_SET && tax != CRO_NOT_SET)
    net = gross - tax;
  if (!is_split && net == CRO_NOT_SET)
    return refuse (self, index, CRO_INTAKE_NO_NET, "");
  if (!is_split && of < 0)
    return refuse (self, index, CRO_INTAKE_NOT_A_KIND, kind->text);
  if (!is_split)
    sum = row->values[of] = net;
  row->revenue = sum;
  return (net == CRO_NOT_SET || add_up (self, index, sum, net))
         && (tax == CRO_NOT_SET || gross == CRO_NOT_SET || add_up (self, index, sum + tax, gross));
}

static gboolean
read_document (CroIntakeReading *self,
               guint             index,
               CroIntakeRow     *row,
               char            **name)
{
  read_item (self, index, row);
  return read_values (self, index, row) && read_text (self, index, row)
         && read_day (self, index, row);
}

static gboolean
read_adjustment (CroIntakeReading *self,
                 guint             index,
                 CroIntakeRow     *row,
                 char            **name)
{
  const CroReadCell *kind = cell_of (self, index, CRO_INTAKE_KIND);
  int of = cro_intake_adjustment_kind (kind->text);

  if (!read_amount (self, index, row) || !read_money (self, index, CRO_INTAKE_NET, &row->revenue))
    return FALSE;
  if (row->revenue != CRO_NOT_SET && row->revenue < 0)
    return refuse (self, index, CRO_INTAKE_NOT_A_NUMBER,
                   cell_of (self, index, CRO_INTAKE_NET)->text);
  if (of < 0)
    return refuse (self, index, CRO_INTAKE_NOT_A_KIND, kind->text);
  row->kind = (guint) of;
  return read_text (self, index, row) && read_day (self, index, row);
}

/* A title of a group has no figures; a gap has nothing at all; what has an empty amount was not
 * counted. */
static gboolean
has_figures (CroIntakeReading *self,
             guint             index)
{
  switch (self->intake->kind)
    {
    case CRO_INTAKE_SALES:
      return is_set (self, index, CRO_INTAKE_SOLD)
             || money_cell (self, index)->kind != CRO_READ_CELL_EMPTY;
    case CRO_INTAKE_COUNTS:
      return is_set (self, index, CRO_INTAKE_AMOUNT)
             || (self->headings < 0 && is_set (self, index, CRO_INTAKE_NAME));
    case CRO_INTAKE_DOCUMENTS:
      for (int what = CRO_INTAKE_FOOD; what <= CRO_INTAKE_OTHER_GOODS; what++)
        if (is_set (self, index, (CroIntakeColumn) what))
          return TRUE;
      return is_set (self, index, CRO_INTAKE_NET) || is_set (self, index, CRO_INTAKE_GROSS);
    default:
      return is_set (self, index, CRO_INTAKE_AMOUNT) || is_set (self, index, CRO_INTAKE_NET);
    }
}

/* The sum under the rows has its word where the first of them has its day, and is of no name. */
static gboolean
is_total (CroIntakeReading *self,
          guint             index)
{
  const CroReadCell *cell = cro_brought_get (self->brought, index, 0);
  g_autofree char *folded = NULL;

  for (guint i = 1; cell->kind == CRO_READ_CELL_EMPTY && i < self->brought->n_columns; i++)
    cell = cro_brought_get (self->brought, index, i);
  folded = cro_fold (cell->text);
  return cro_says_total (folded);
}

/* --- One row ---------------------------------------------------------------------------------------- */

/* A sum of a name, or of a day and of what several names are, is of some of the rows: it wraps
 * around nowhere where all of them together do not. */
static gboolean
add_to_all (gint64 *all,
            gint64  number)
{
  gint64 sum;

  if (number < -MOST_OF_ALL || number > MOST_OF_ALL
      || __builtin_add_overflow (*all, ABS (number), &sum) || sum > MOST_OF_ALL)
    return FALSE;
  *all = sum;
  return TRUE;
}

/* The parts of a document can be of both signs. */
static gboolean
adds_to_money (CroIntakeReading   *self,
               const CroIntakeRow *row)
{
  for (guint k = 0; k < CRO_N_PURCHASE_KINDS; k++)
    if (row->values[k] != CRO_NOT_SET && !add_to_all (&self->all_money, row->values[k]))
      return FALSE;
  return self->intake->kind == CRO_INTAKE_DOCUMENTS || row->revenue == CRO_NOT_SET
         || add_to_all (&self->all_money, row->revenue);
}

static gboolean
fits (CroIntakeReading   *self,
      guint               index,
      const CroIntakeRow *row)
{
  gboolean is_sale = self->intake->kind == CRO_INTAKE_SALES;
  gint64 sold = self->all_sold;
  g_autofree char *money = NULL;

  if (row->has_sold && !add_to_all (&sold, row->sold))
    return refuse (self, index, CRO_INTAKE_TOO_LARGE,
                   cell_of (self, index, is_sale ? CRO_INTAKE_SOLD : CRO_INTAKE_AMOUNT)->text);
  if (!adds_to_money (self, row))
    {
      money
          = is_sale ? g_strdup (money_cell (self, index)->text) : cro_words_decimal (row->revenue);
      return refuse (self, index, CRO_INTAKE_TOO_LARGE, money);
    }
  self->all_sold = sold;
  return TRUE;
}

static void
add_row (CroIntakeReading *self,
         CroIntakeRow     *row,
         const char       *text)
{
  CroIntakeName *name;

  row->name = *text != '\0' ? cro_intake_name_at (self, text) : CRO_INTAKE_NAMELESS;
  g_array_append_vals (self->intake->rows, row, 1);
  self->intake->n_late += row->is_late;
  self->intake->n_rows++;
  if (row->name == CRO_INTAKE_NAMELESS)
    return;
  name = &g_array_index (self->intake->names, CroIntakeName, row->name);
  name->n_rows++;
  name->sold += self->intake->kind == CRO_INTAKE_SALES ? row->sold : 0;
  if (row->revenue != CRO_NOT_SET)
    name->revenue = (name->revenue != CRO_NOT_SET ? name->revenue : 0) + row->revenue;
}

void
cro_intake_read_row (CroIntakeReading *self,
                     guint             index)
{
  static const ReadRow kinds[] = { read_sale, read_count, read_document, read_adjustment };
  g_autofree char *name = cro_name_dup_tidy (cell_of (self, index, CRO_INTAKE_NAME)->text);
  CroIntakeRow row = { .number = g_array_index (self->brought->rows, CroBroughtRow, index).number,
                       .revenue = CRO_NOT_SET,
                       .dated = CRO_NO_DAY,
                       .item = CRO_NO_SLOT,
                       .values = { CRO_NOT_SET, CRO_NOT_SET, CRO_NOT_SET } };
  /* A value is of nothing that is named; an amount is of something. */
  gboolean is_sound = has_figures (self, index) && (*name != '\0' || !is_total (self, index))
                      && kinds[self->intake->kind](self, index, &row, &name);
  gboolean can_be_nameless = self->intake->kind == CRO_INTAKE_ADJUSTMENTS && !row.has_sold;

  if (is_sound && *name == '\0' && !can_be_nameless)
    is_sound = refuse (self, index, CRO_INTAKE_NO_NAME, "");
  if (is_sound && is_clean (self, index, name) && fits (self, index, &row))
    add_row (self, &row, name);
}
