/* The lines of an invoice, as lines of a list. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"
#include "cro-gtin.h"
#include "cro-number.h"
#include "cro-row-date.h"
#include "cro-unit-code.h"

#include <string.h>

static gboolean
differ_in_sign (const CroInvoiceLine *line)
{
  return line->exact_net != 0 && line->exact_quantity != 0
         && (line->exact_net < 0) != (line->exact_quantity < 0);
}

static void
say_amounts (CroPriceList         *self,
             CroListRow           *row,
             const CroInvoiceLine *line)
{
  g_autofree char *net = NULL, *recomputed = NULL;

  if (line->recomputes == CRO_RECOMPUTES_NO && !differ_in_sign (line))
    {
      guint digits = (guint) cro_currency_digits (self->currency);

      net = cro_exact_to_text (line->exact_net, digits);
      recomputed = cro_exact_to_text (line->recomputed, digits);
      cro_list_row_say (self, row, CRO_LIST_NOT_RECOMPUTED, net, recomputed);
    }
  if (line->base_unit != NULL && line->unit != NULL && strcmp (line->base_unit, line->unit) != 0)
    cro_list_row_say (self, row, CRO_LIST_OTHER_BASE, line->unit, line->base_unit);
}

/* What is no measure counts the packs that the book knows. */
static void
take_unit (CroPriceList *self,
           CroListRow   *row)
{
  CroUnit unit;
  gint64 size;

  if (row->unit == NULL)
    {
      cro_list_row_say (self, row, CRO_LIST_NO_PACK, NULL, NULL);
      return;
    }
  switch (cro_unit_code_read (row->unit, &unit, &size))
    {
    case CRO_UNIT_CODE_MEASURE:
      row->counted = (CroPack){ CRO_MICRO, size, unit };
      return;
    case CRO_UNIT_CODE_UNKNOWN:
      cro_list_row_say (self, row, CRO_LIST_UNIT_UNKNOWN, row->unit, NULL);
      return;
    default:
      return;
    }
}

/* What is asked of goods alone. */
static gboolean
is_of_goods (const CroListRow *row,
             CroListWhy        why)
{
  return why == CRO_LIST_LIKE || why == CRO_LIST_NO_PACK || why == CRO_LIST_UNIT_UNKNOWN || why == CRO_LIST_PACKAGE
         || (why == CRO_LIST_OTHER_BASE && row->is_no_ingredient);
}

void
cro_list_row_say_goods (CroPriceList *self,
                        CroListRow   *row,
                        CroListGoods  goods)
{
  gboolean was_none = row->is_no_ingredient;

  row->goods = goods;
  row->is_recalled = FALSE;
  row->is_no_ingredient = goods == CRO_LIST_GOODS_DISPOSABLE || goods == CRO_LIST_GOODS_OTHER;
  if (was_none && !row->is_no_ingredient)
    take_unit (self, row);
  else if (row->is_no_ingredient)
    cro_list_row_unsay (row, is_of_goods);
  if (row->is_no_ingredient && row->back == CRO_LIST_BACK_PRICE)
    row->back = CRO_LIST_BACK_UNSAID;
}

void
cro_list_row_turn (CroListRow *row,
                   gboolean    is_turned)
{
  if (is_turned == row->is_turned || (is_turned && row->is_return))
    return;
  row->is_turned = row->is_return = is_turned;
  row->has_price = !is_turned;
  row->back = CRO_LIST_BACK_UNSAID;
  row->amount = -row->amount;
  row->net_value = -row->net_value;
}

void
cro_list_row_give_back (CroListRow  *row,
                        CroListBack  back)
{
  if (row->is_return)
    row->back = back;
}

static void
take_amounts (CroPriceList         *self,
              CroListRow           *row,
              const CroInvoiceLine *line)
{
  gint64 sign = self->is_credit ? -1 : 1;
  g_autofree char *per = NULL;

  if (!line->has_per_unit)
    {
      cro_list_row_say (self, row, CRO_LIST_NO_AMOUNTS, NULL, NULL);
      return;
    }
  per = cro_exact_to_text (line->per_unit, 6);
  row->per_unit = cro_price_list_keep (self, per);
  row->is_return = self->is_credit || line->exact_net < 0 || line->exact_quantity < 0;
  if (!cro_exact_to_micro (line->exact_net, &row->net_value) || !cro_exact_to_micro (line->exact_quantity, &row->amount)
      || !cro_exact_to_micro (line->per_unit, &row->price) || !cro_decimal_may_be_entered (row->net_value)
      || !cro_decimal_may_be_entered (row->amount) || !cro_decimal_may_be_entered (row->price))
    {
      cro_list_row_say (self, row, CRO_LIST_TOO_LARGE, NULL, NULL);
      return;
    }
  /* The amount says which way goods and money went. */
  if (differ_in_sign (line))
    {
      cro_list_row_say (self, row, CRO_LIST_SIGNS, NULL, NULL);
      row->amount = -row->amount;
    }
  row->amount *= sign;
  row->net_value *= sign;
  row->has_price = !row->is_return;
  say_amounts (self, row, line);
}

static void
take_line (CroPriceList         *self,
           const CroInvoiceLine *line,
           const CroListBook    *of)
{
  CroListRow row = { .number = line->number, .recomputes = line->recomputes };

  row.code = cro_price_list_keep (self, line->code);
  row.name = cro_price_list_keep (self, line->name);
  if (line->standard_id != NULL && cro_gtin_is_one (line->standard_id, strlen (line->standard_id)))
    row.gtin = cro_price_list_keep (self, line->standard_id);
  row.quantity = cro_price_list_keep (self, line->quantity);
  row.unit = cro_price_list_keep (self, line->unit);
  row.net = cro_price_list_keep (self, line->net);
  row.currency = self->currency;
  take_amounts (self, &row, line);
  row.is_no_ingredient = cro_list_is_no_goods (row.name, row.is_return)
                         && (row.code == NULL || !g_hash_table_contains (of->codes, row.code));
  if (self->is_credit)
    cro_list_row_say (self, &row, CRO_LIST_CREDIT, NULL, NULL);
  if (!row.is_no_ingredient)
    take_unit (self, &row);
  if (row.counted.size == 0 && !of->quotes_base)
    cro_price_list_read_size (self, 0, &row);
  g_array_append_val (self->rows, row);
}

void
cro_price_list_take_invoice (CroPriceList      *self,
                             const CroInvoice  *invoice,
                             const CroListBook *of)
{
  CroDate delivered = cro_text_to_date (invoice->delivered);

  self->source = CRO_LIST_INVOICE;
  self->syntax = invoice->syntax;
  self->root = cro_price_list_keep (self, invoice->root);
  self->document = cro_price_list_keep (self, invoice->number);
  self->preceding = cro_price_list_keep (self, invoice->preceding);
  self->type = cro_price_list_keep (self, invoice->type);
  self->currency = cro_price_list_keep (self, invoice->currency);
  self->is_credit = invoice->is_credit;
  self->seller = cro_price_list_keep (self, invoice->seller);
  self->has_total = invoice->lines_total != NULL && cro_exact_parse (invoice->lines_total, &self->total);
  self->has_net_total = invoice->net_total != NULL && cro_exact_parse (invoice->net_total, &self->net_total);
  self->allowances = invoice->allowances;
  self->charges = invoice->charges;
  self->no_amount = cro_price_list_keep (self, invoice->no_amount);
  self->no_indicator = invoice->no_indicator != NULL ? g_string_chunk_insert_const (self->texts, invoice->no_indicator)
                                                     : NULL;
  self->strange = cro_price_list_keep (self, invoice->strange);
  self->strange_line = invoice->strange_line;
  self->dated = cro_text_to_date (invoice->date);
  if (delivered == CRO_NO_DAY)
    self->no_date = cro_price_list_keep (self, invoice->delivered);
  if (self->no_date == NULL && self->dated == CRO_NO_DAY)
    self->no_date = cro_price_list_keep (self, invoice->date);
  self->delivered = delivered != CRO_NO_DAY     ? delivered
                    : self->dated != CRO_NO_DAY ? self->dated
                                                : self->from;
  for (guint i = 0; i < invoice->lines->len; i++)
    {
      const CroInvoiceLine *line = &g_array_index (invoice->lines, CroInvoiceLine, i);

      self->sum += line->has_net ? line->exact_net : 0;
      take_line (self, line, of);
    }
  if (of->reading != NULL)
    cro_price_list_take_whole (self, of->reading->whole);
}
