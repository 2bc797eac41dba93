/* Allowances and charges of a whole document: carriage, a rebate. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-fraction.h"
#include "cro-number.h"

const char *const cro_list_whole_codes[CRO_N_WHOLE] = {
  [CRO_WHOLE_UNSAID] = "ask",
  [CRO_WHOLE_SPREAD] = "spread",
  [CRO_WHOLE_BOOKED] = "book",
  [CRO_WHOLE_LEFT_OUT] = "leave",
};

gboolean
cro_price_list_asks_whole (const CroPriceList *self)
{
  return self->whole == CRO_WHOLE_UNSAID && (self->allowances != 0 || self->charges != 0);
}

CroNano
cro_price_list_net (const CroPriceList *self)
{
  return self->sum - self->allowances + self->charges;
}

/* --- Spread ---------------------------------------------------------------------------------------------- */

static gboolean
takes_part (const CroListRow *row)
{
  return !row->is_no_ingredient && row->net_value != 0;
}

static gint64
sum_of_goods (const CroPriceList *self)
{
  gint64 sum = 0;

  for (guint i = 0; i < self->rows->len; i++)
    if (takes_part (&g_array_index (self->rows, CroListRow, i)))
      sum += g_array_index (self->rows, CroListRow, i).net_value;
  return sum;
}

static void
take_part (CroListRow *row,
           gint64      part)
{
  CroFraction price;

  row->spread = part;
  row->net_value += part;
  if (row->amount == 0 || !row->has_price)
    return;
  price = cro_fraction_make (row->net_value, row->amount);
  cro_fraction_to_micro (price, &row->price);
}

/* Parts are cut in whole minor units, so that they add up to the whole. */
static gboolean
spread (CroPriceList *self,
        gint64        whole)
{
  const gint64 minor = cro_currency_minor (self->currency);
  gint64 of = sum_of_goods (self), before = 0, left = whole / minor;

  if (of == 0 || whole % minor != 0)
    return FALSE;
  for (guint i = 0; i < self->rows->len; i++)
    {
      CroListRow *row = &g_array_index (self->rows, CroListRow, i);
      gint64 upto;

      if (!takes_part (row))
        continue;
      before += row->net_value;
      upto = (gint64) (((__int128) (whole / minor) * before) / of);
      take_part (row, (upto - (whole / minor - left)) * minor);
      left = whole / minor - upto;
    }
  return TRUE;
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
  value = self->is_credit ? -value : value;
  if (whole == CRO_WHOLE_SPREAD && !spread (self, value))
    return;
  if (whole == CRO_WHOLE_BOOKED)
    book (self, value);
  self->whole = whole;
}
