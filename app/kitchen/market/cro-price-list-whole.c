/* Allowances and charges of a whole document: carriage, a rebate; and what the document comes to in the book. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-money.h"
#include "cro-number.h"

#include <math.h>

const char *const cro_list_whole_codes[CRO_N_WHOLE] = {
  [CRO_WHOLE_UNSAID] = "ask",
  [CRO_WHOLE_SPREAD] = "spread",
  [CRO_WHOLE_BOOKED] = "book",
  [CRO_WHOLE_LEFT_OUT] = "leave",
};

gboolean
cro_price_list_asks_whole (const CroPriceList *self)
{
  if (self->allowances == 0 && self->charges == 0)
    return FALSE;
  return self->whole == CRO_WHOLE_UNSAID || self->no_spread != CRO_SPREAD_DONE;
}

gboolean
cro_price_list_lacks_whole (const CroPriceList *self)
{
  return self->is_all_booked && !self->is_booked_otherwise && self->document != NULL
         && self->whole == CRO_WHOLE_UNSAID && cro_price_list_asks_whole (self);
}

CroNano
cro_price_list_net (const CroPriceList *self)
{
  return self->sum - self->allowances + self->charges;
}

/* --- Parts ------------------------------------------------------------------------------------------------- */

/* Rows that take a part, by how much. */
typedef struct
{
  GPtrArray *rows;   /* CroListRow */
  GArray    *parts;  /* double: exactly */
} Parts;

static Parts
parts_new (void)
{
  return (Parts){ g_ptr_array_new (), g_array_new (FALSE, FALSE, sizeof (double)) };
}

static void
parts_add (Parts      *self,
           CroListRow *row,
           double      part)
{
  g_ptr_array_add (self->rows, row);
  g_array_append_val (self->parts, part);
}

static void
parts_clear (Parts *self)
{
  g_ptr_array_unref (self->rows);
  g_array_unref (self->parts);
}

/* Whether money goes back: what is cut of it falls as what was asked for did, with the other sign. */
static gboolean
parts_go_back (const Parts *self,
               gint64       total)
{
  for (guint i = 0; total == 0 && i < self->parts->len; i++)
    if (g_array_index (self->parts, double, i) != 0)
      return g_array_index (self->parts, double, i) < 0;
  return total < 0;
}

/* The total, in minor units, over the rows: the largest fractions take what is left. Owned. */
static gint64 *
parts_cut (Parts  *self,
           gint64  total,
           int     digits)
{
  guint n = self->rows->len;
  int sign = parts_go_back (self, total) ? -1 : 1;
  g_autofree guint64 *order = g_new (guint64, n + 1);
  g_autofree double *parts = g_new (double, n + 1);
  gint64 *minor = g_new (gint64, n + 1);

  for (guint i = 0; i < n; i++)
    parts[i] = sign * g_array_index (self->parts, double, i);
  cro_money_apportion (sign * total, parts, n, digits, order, minor);
  for (guint i = 0; i < n; i++)
    minor[i] *= sign;
  return minor;
}

/* --- Spread ---------------------------------------------------------------------------------------------- */

/* Of each line what its rows in the book have, and the row that takes the rest: its own, or that of a part alone. */
typedef struct
{
  gint64 *had;
  guint  *open;   /* G_MAXUINT: all of it is in the book */
} Lines;

static void
lines_clear (Lines *self)
{
  g_free (self->had);
  g_free (self->open);
}

/* value: of a row. */
static Lines
lines_of (const CroPriceList *self,
          gint64 (*value) (const CroListRow *row))
{
  Lines lines = { g_new0 (gint64, self->rows->len + 1), g_new (guint, self->rows->len + 1) };

  for (guint i = 0; i < self->rows->len; i++)
    lines.open[i] = G_MAXUINT;
  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (self->rows, CroListRow, i);
      guint line = row->share_of > 0 ? row->share_of - 1 : i;

      if (row->is_in_book)
        lines.had[line] += value (row);
      else
        lines.open[line] = i;
    }
  return lines;
}

/* A deposit or carriage is none; disposables are. */
static gboolean
is_goods (const CroListRow *row)
{
  return !row->is_whole && (!row->is_no_ingredient || row->goods == CRO_LIST_GOODS_DISPOSABLE);
}

/* Whether the document gives goods back and asks for none: a credit note, or an invoice of which every amount is
 * negative. */
static gboolean
gives_back (const CroPriceList *self)
{
  if (self->is_credit || self->charges > 0 || self->allowances > 0)
    return self->is_credit;
  for (guint i = 0; i < self->rows->len; i++)
    {
      const CroListRow *row = &g_array_index (self->rows, CroListRow, i);

      if (is_goods (row) && row->net_value > 0)
        return FALSE;
    }
  return TRUE;
}

/* Goods that were delivered, or all that is given back. */
static gboolean
has_share (const CroListRow *line,
           gboolean          is_back)
{
  if (!is_goods (line))
    return FALSE;
  return is_back ? line->net_value < 0 : line->net_value > 0 && !line->is_return;
}

static gint64
spread_of (const CroListRow *row)
{
  return row->spread;
}

static gboolean
has_free_goods (const CroPriceList *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (cro_list_row_is_free (&g_array_index (self->rows, CroListRow, i)))
      return TRUE;
  return FALSE;
}

/* What is to be spread, and over which goods: the rows that take it, or, at once, the lines as if none were booked. */
static CroListNoSpread
find_goods (CroPriceList *self,
            const Lines  *lines,
            gboolean      at_once,
            gint64       *left,
            Parts        *goods)
{
  const gboolean is_back = gives_back (self);
  double sum = 0;

  if (!cro_exact_to_micro (self->charges - self->allowances, left))
    return CRO_SPREAD_NO_GOODS;
  *left = self->is_credit ? -*left : *left;
  if (*left % cro_currency_minor (self->currency) != 0)
    return CRO_SPREAD_PART_OF_MINOR;
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroListRow *line = &g_array_index (self->rows, CroListRow, i);
      guint open = at_once ? i : lines->open[i];

      if (line->share_of > 0)
        continue;
      /* What is booked keeps the part it had. */
      if (!at_once)
        *left -= lines->had[i];
      if (open == G_MAXUINT || !has_share (line, is_back))
        continue;
      parts_add (goods, &g_array_index (self->rows, CroListRow, open), cro_decimal_to_double (line->net_value));
      sum += cro_decimal_to_double (line->net_value);
    }
  if (goods->rows->len == 0 && *left != 0)
    return has_free_goods (self) ? CRO_SPREAD_FREE_GOODS : CRO_SPREAD_NO_GOODS;
  if (goods->rows->len == 0)
    return CRO_SPREAD_DONE;
  if (fabs (cro_decimal_to_double (*left)) > fabs (sum) && (*left < 0) != (sum < 0))
    return CRO_SPREAD_ABOVE_GOODS;
  for (guint i = 0; i < goods->parts->len; i++)
    g_array_index (goods->parts, double, i) *= cro_decimal_to_double (*left) / sum;
  return CRO_SPREAD_DONE;
}

/* Of each line what it takes where all are asked at once. NULL: that cannot be spread. Owned. */
static gint64 *
spread_at_once (CroPriceList *self,
                const Lines  *lines)
{
  const gint64 minor = cro_currency_minor (self->currency);
  const CroListRow *first = (const CroListRow *) self->rows->data;
  Parts goods = parts_new ();
  gint64 *whole = NULL, total = 0;

  if (find_goods (self, lines, TRUE, &total, &goods) == CRO_SPREAD_DONE)
    {
      g_autofree gint64 *parts = parts_cut (&goods, total / minor, cro_currency_digits (self->currency));

      whole = g_new0 (gint64, self->rows->len + 1);
      for (guint i = 0; i < goods.rows->len; i++)
        whole[(const CroListRow *) goods.rows->pdata[i] - first] = parts[i] * minor;
    }
  parts_clear (&goods);
  return whole;
}

/* Whether what is in the book is what all at once comes to: the rows that are open have the rest of their lines then,
 * as if all had been said at once. */
static gboolean
is_rest_of (const CroPriceList *self,
            const Lines        *lines,
            const gint64       *whole)
{
  for (guint i = 0; whole != NULL && i < self->rows->len; i++)
    if (g_array_index (self->rows, CroListRow, i).share_of == 0 && lines->open[i] == G_MAXUINT
        && lines->had[i] != whole[i])
      return FALSE;
  return whole != NULL;
}

static void
spread_rest (CroPriceList *self,
             const Lines  *lines)
{
  const gint64 minor = cro_currency_minor (self->currency);
  Parts goods = parts_new ();
  gint64 left = 0;

  self->no_spread = find_goods (self, lines, FALSE, &left, &goods);
  if (self->no_spread == CRO_SPREAD_DONE)
    {
      g_autofree gint64 *parts = parts_cut (&goods, left / minor, cro_currency_digits (self->currency));

      for (guint i = 0; i < goods.rows->len; i++)
        ((CroListRow *) goods.rows->pdata[i])->spread = parts[i] * minor;
    }
  parts_clear (&goods);
}

static void
spread (CroPriceList *self)
{
  Lines lines = lines_of (self, spread_of);
  g_autofree gint64 *whole = spread_at_once (self, &lines);
  gboolean is_rest = is_rest_of (self, &lines, whole);

  for (guint i = 0; i < self->rows->len; i++)
    if (!g_array_index (self->rows, CroListRow, i).is_in_book)
      g_array_index (self->rows, CroListRow, i).spread = 0;
  for (guint i = 0; is_rest && i < self->rows->len; i++)
    if (g_array_index (self->rows, CroListRow, i).share_of == 0 && lines.open[i] != G_MAXUINT)
      g_array_index (self->rows, CroListRow, lines.open[i]).spread = whole[i] - lines.had[i];
  if (!is_rest)
    spread_rest (self, &lines);
  lines_clear (&lines);
}

/* --- What the whole comes to -------------------------------------------------------------------------------- */

static gboolean
has_part_of_minor (const CroPriceList *self)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (g_array_index (self->rows, CroListRow, i).net_value % cro_currency_minor (self->currency) != 0)
      return TRUE;
  return FALSE;
}

static void
set_in_book_currency (CroListRow *row,
                      gint64      minor,
                      int         digits)
{
  if (!cro_decimal_from_double ((double) minor / pow (10, digits), &row->in_book_currency))
    row->in_book_currency = CRO_NOT_SET;
}

static gint64
in_book_currency_of (const CroListRow *row)
{
  return row->in_book_currency != CRO_NOT_SET ? row->in_book_currency : 0;
}

/* The document is converted and rounded as one, and what that comes to is broken down over its lines; rows that are
 * open have the rest of theirs, or of the whole where the book has other parts. */
static void
cut (CroPriceList *self,
     CroModel     *model)
{
  int digits = cro_currency_digits (model->currency);
  const gint64 minor = cro_currency_minor (model->currency);
  const double rate = self->is_foreign ? self->rate : 1;
  g_autofree double *values = g_new0 (double, self->rows->len + 1);
  g_autofree gint64 *whole = g_new0 (gint64, self->rows->len + 1), *parts = NULL;
  Lines lines = lines_of (self, in_book_currency_of);
  Parts all = parts_new (), open = parts_new ();
  gint64 booked = 0;
  double sum = 0;
  guint n = 0;

  for (guint i = 0; i < self->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->rows, CroListRow, i);
      double value = cro_decimal_to_double (cro_list_row_value (row)) * rate;

      sum += value;
      values[row->share_of > 0 ? row->share_of - 1 : i] += value;
      if (row->is_in_book && row->in_book_currency != CRO_NOT_SET)
        booked += row->in_book_currency / minor;
      else
        parts_add (&open, row, value);
    }
  for (guint i = 0; i < self->rows->len; i++)
    if (g_array_index (self->rows, CroListRow, i).share_of == 0)
      parts_add (&all, &g_array_index (self->rows, CroListRow, i), values[i]);
  parts = parts_cut (&all, cro_money_round (sum, digits), digits);
  for (guint i = 0; i < self->rows->len; i++)
    if (g_array_index (self->rows, CroListRow, i).share_of == 0)
      whole[i] = parts[n++] * minor;
  if (is_rest_of (self, &lines, whole))
    {
      for (guint i = 0; i < self->rows->len; i++)
        if (g_array_index (self->rows, CroListRow, i).share_of == 0 && lines.open[i] != G_MAXUINT)
          set_in_book_currency (&g_array_index (self->rows, CroListRow, lines.open[i]),
                                (whole[i] - lines.had[i]) / minor, digits);
    }
  else
    {
      g_free (parts);
      parts = parts_cut (&open, cro_money_round (sum, digits) - booked, digits);
      for (guint i = 0; i < open.rows->len; i++)
        set_in_book_currency (open.rows->pdata[i], parts[i], digits);
    }
  parts_clear (&all);
  parts_clear (&open);
  lines_clear (&lines);
}

void
cro_price_list_share (CroPriceList *self,
                      CroModel     *model)
{
  if (self->source != CRO_LIST_INVOICE)
    return;
  self->no_spread = CRO_SPREAD_DONE;
  if (self->whole == CRO_WHOLE_SPREAD && (self->allowances != 0 || self->charges != 0))
    spread (self);
  self->is_cut = self->is_foreign ? !isnan (self->rate) : has_part_of_minor (self);
  if (self->is_cut)
    cut (self, model);
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->rows, CroListRow, i);

      if (row->share_of > 0)
        row->is_booked = row->is_in_book || (self->is_cut ? row->in_book_currency != 0 : row->spread != 0);
    }
}

/* --- Parts of lines that are booked -------------------------------------------------------------------------- */

/* A purchase of no amount, so that all of the line is booked at what it comes to with it. */
void
cro_price_list_add_share (CroPriceList *self,
                          CroModel     *model,
                          guint         line,
                          guint32       item)
{
  const CroListRow *of = &g_array_index (self->rows, CroListRow, line);
  CroListRow row = { .number = of->number, .code = of->code, .name = of->name, .currency = of->currency,
                     .share_of = line + 1, .goods = of->goods, .item = item, .offer = CRO_NO_SLOT,
                     .last = CRO_NOT_SET, .quoted = CRO_NOT_SET, .quoted_pack = CRO_NOT_SET,
                     .reclaim = CRO_NOT_SET, .in_book_currency = CRO_NOT_SET, .is_booked = TRUE,
                     .state = CRO_LIST_UNCHANGED, .recomputes = CRO_RECOMPUTES_UNKNOWN };

  if (!has_share (of, gives_back (self)))
    return;
  row.look = (CroLook){ .ratio = NAN, .meant = CRO_NOT_SET };
  if (item != CRO_NO_SLOT)
    row.counted = (CroPack){ CRO_MICRO, CRO_MICRO, cro_price_list_unit_of_quotes (model, item) };
  cro_list_row_say (self, &row, CRO_LIST_SHARE, NULL, NULL);
  g_array_append_val (self->rows, row);
}

/* --- Booked ---------------------------------------------------------------------------------------------- */

static void
book (CroPriceList *self,
      gint64        whole)
{
  CroListRow row = { .number = self->rows->len + 1, .is_whole = TRUE, .is_no_ingredient = TRUE,
                     .amount = CRO_MICRO, .net_value = whole, .currency = self->currency,
                     .recomputes = CRO_RECOMPUTES_UNKNOWN };

  g_array_append_val (self->rows, row);
}

void
cro_price_list_take_whole (CroPriceList *self,
                           CroListWhole  whole)
{
  gint64 value;

  if ((self->allowances == 0 && self->charges == 0) || !cro_exact_to_micro (self->charges - self->allowances, &value))
    return;
  if (whole == CRO_WHOLE_BOOKED)
    book (self, self->is_credit ? -value : value);
  self->whole = whole;
}
