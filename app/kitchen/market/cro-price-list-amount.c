/* For how much a line's price is, in which currency, and what it was before. */
#include "cro-price-list-private.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fraction.h"
#include "cro-money.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-number.h"
#include "cro-price-list-purchase.h"
#include "cro-price-rows.h"
#include "cro-unit-code.h"

#include <math.h>
#include <string.h>

static CroUnit
unit_of_base (CroBase base)
{
  switch (base)
    {
    case CRO_BASE_GRAM:
      return CRO_UNIT_KG;
    case CRO_BASE_MILLILITRE:
      return CRO_UNIT_L;
    default:
      return CRO_UNIT_EACH;
    }
}

/* What a supplier who states prices per base unit means by one without a unit. */
CroUnit
cro_price_list_unit_of_quotes (CroModel *model,
                               guint32   item)
{
  return unit_of_base (model->measures[item].base);
}

gboolean
cro_list_price_of_one (const CroPack *pack,
                       gint64         price,
                       CroUnit        unit,
                       gint64        *one)
{
  const CroUnitInfo *of = cro_unit_get (pack->unit), *per = cro_unit_get (unit);
  double size = cro_decimal_to_double (pack->count) * cro_decimal_to_double (pack->size)
                * (double) of->numerator / (double) of->denominator;

  return of->base == per->base && size > 0
         && cro_decimal_from_double (cro_decimal_to_double (price) / size * (double) per->numerator
                                         / (double) per->denominator,
                                     one);
}

gboolean
cro_list_exact_of_one (CroModel         *model,
                       const CroListRow *row,
                       gint64            price,
                       gint64           *one)
{
  CroUnit unit = cro_price_list_unit_of_quotes (model, row->item);
  CroPack pack = row->pack;
  gint64 back;

  if (!cro_list_price_of_one (&pack, price, unit, one))
    return FALSE;
  back = *one;
  return cro_brought_price_of_pack (unit, &pack, &back) && back == price;
}

/* A price × pack ÷ what it is for, rounded once. FALSE: they are of other bases. */
static gboolean
price_of_pack (CroFraction    value,
               const CroPack *from,
               const CroPack *pack,
               gint64        *price)
{
  const CroUnitInfo *of = cro_unit_get (pack->unit), *one = cro_unit_get (from->unit);

  return of->base == one->base && cro_fraction_multiply (&value, cro_fraction_make (pack->count, from->count))
         && cro_fraction_multiply (&value, cro_fraction_make (pack->size, from->size))
         && cro_fraction_multiply (&value, cro_fraction_make (of->numerator, of->denominator))
         && cro_fraction_multiply (&value, cro_fraction_make (one->denominator, one->numerator))
         && cro_fraction_to_micro (value, price) && cro_decimal_may_be_entered (*price);
}

static gboolean
price_of_counted (const CroListRow *row,
                  const CroPack    *pack,
                  gint64           *price)
{
  return row->amount != 0
         && price_of_pack (cro_fraction_make (row->net_value, row->amount), &row->counted, pack, price);
}

static gboolean
is_measure (const CroPack *pack)
{
  return pack->count == CRO_MICRO && pack->size == 100 * CRO_MICRO
         && (pack->unit == CRO_UNIT_G || pack->unit == CRO_UNIT_ML);
}

/* "1.35/550 g" of who sells 12 × 550 g. */
static gboolean
is_one_of (const CroPack *own,
           const CroPack *said)
{
  CroPack one = { CRO_MICRO, own->size, own->unit };
  gint64 part;

  return own->count > CRO_MICRO && said->count == CRO_MICRO
         && price_of_pack (cro_fraction_from_micro (CRO_MICRO), &one, said, &part) && part == CRO_MICRO;
}

/* "6.6 kg" of who sells 12 × 550 g, as a column of weights has it. */
static gboolean
is_whole_of (const CroPack *own,
             const CroPack *said)
{
  gint64 part;

  return own->count > CRO_MICRO && said->count == CRO_MICRO
         && price_of_pack (cro_fraction_from_micro (CRO_MICRO), own, said, &part) && part == CRO_MICRO;
}

gboolean
cro_list_is_stated_per (const CroPack *own,
                        const CroPack *said)
{
  return is_measure (said) || is_one_of (own, said);
}

/* "8.20/100 g" is how a price is stated, and no pack that is sold: it is worked out for the one that is. So is one for
 * one of a pack. */
static void
settle_measure (CroListRow    *row,
                const CroPack *own)
{
  gint64 price;

  if (!row->is_per_measure || !row->has_price || !cro_list_is_stated_per (own, &row->pack)
      || !price_of_pack (cro_fraction_from_micro (row->price), &row->pack, own, &price))
    return;
  row->pack = *own;
  row->price = price;
  row->is_per_measure = FALSE;
}

/* Of an invoice that counts a measure: one of it is the line's pack, the price of which is kept; what is
 * counted in grams or millilitres is delivered in kilograms and litres. */
static void
settle_counted (CroListRow *row)
{
  CroUnit unit = row->counted.unit == CRO_UNIT_G    ? CRO_UNIT_KG
                 : row->counted.unit == CRO_UNIT_ML ? CRO_UNIT_L
                                                    : row->counted.unit;
  CroPack pack = unit != row->counted.unit ? (CroPack){ CRO_MICRO, CRO_MICRO, unit } : row->counted;

  row->pack = price_of_counted (row, &pack, &row->price) ? pack : row->counted;
}

/* Of what is not found only what the line says is known. */
void
cro_list_settle_stranger (CroListRow *row)
{
  if (row->is_per_base && !row->has_per && row->pack.size > 0)
    {
      row->has_per = TRUE;
      row->per = unit_of_base (cro_unit_get (row->pack.unit)->base);
      row->is_per_base = FALSE;
    }
  if (row->counted.size > 0)
    row->pack = row->counted;
  else if (row->has_per && row->pack.size == 0)
    {
      row->pack = (CroPack){ CRO_MICRO, CRO_MICRO, row->per };
      row->has_per = FALSE;
    }
  else if (row->has_per && cro_brought_price_of_pack (row->per, &row->pack, &row->price))
    row->has_per = FALSE;
}

/* "12 heads", "180 pc", "6 x 100": what a pack of 12 × 550 g, of 6 × 30 pieces, of 6 × 100 g is called too. */
gboolean
cro_list_counts_pack (const CroPack *pack,
                      const CroPack *said)
{
  double n = cro_decimal_to_double (said->count) * cro_decimal_to_double (said->size);
  double count = cro_decimal_to_double (pack->count);

  if (said->unit != CRO_UNIT_EACH)
    return FALSE;
  if (pack->count == said->count && pack->size == said->size)
    return TRUE;
  return pack->unit == CRO_UNIT_EACH ? count * cro_decimal_to_double (pack->size) == n : count > 1 && count == n;
}

/* "7.20 a tin" of what is weighed fresh: a tin is no pack of it, but by its code, or where its name says so. */
static gboolean
may_be_other_goods (CroListMatching  *self,
                    const CroListRow *row,
                    const CroPack    *own)
{
  return row->code == NULL && row->has_price && cro_unit_get (own->unit)->base == CRO_BASE_GRAM
         && cro_list_is_goods_word (row->priced_as)
         && !cro_list_names_word (cro_model_item (self->model, row->item)->name, row->priced_as);
}

/* What a message calls what its price is for, the pack may be or not: a bottle is one of six in it, or all of it; and
 * "net" is of what remains of its weight, or of the price without tax. */
static void
look_at_word (CroListMatching *self,
              CroListRow      *row)
{
  const CroOfferEntry *entry = cro_model_offer (self->model, row->offer);
  CroPack own = cro_pack_of_offer (self->model, row->offer);
  g_autofree char *pack = cro_pack_to_text (&own);

  if (row->priced_as == NULL)
    return;
  if ((cro_list_is_net (row->priced_as) && (entry->offer.net != 0 || entry->offer.tax_included > 0))
      || (row->pack.size == 0 && !row->has_per
          && (cro_list_is_part_of (row, &own) || may_be_other_goods (self, row, &own))))
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_PRICE, row->priced_as, pack);
}

/* How far a price is from the last one, whichever is the larger. */
static double
distance_of (double ratio)
{
  return fabs (log (ratio));
}

/* "12", "0.90", "each" may be 0.90 for each of the 12, or for all of them: the last price tells. */
static void
settle_unit_beside (CroListMatching  *self,
                    CroListRow       *row)
{
  CroListRow whole = *row;

  if (!row->may_be_per || row->has_per || !row->has_price || row->offer == CRO_NO_SLOT
      || !cro_brought_price_of_pack (row->per, &whole.pack, &whole.price))
    return;
  if (whole.currency == NULL)
    whole.currency = cro_model_currency_of (self->model, row->offer);
  cro_list_look_back (self, &whole);
  if (whole.last == CRO_NOT_SET || whole.last <= 0 || row->price <= 0)
    return;
  row->has_per = 2 * distance_of ((double) whole.price / (double) whole.last)
                 < distance_of ((double) row->price / (double) whole.last);
}

/* A price for one unit is that of the pack where one is known, else that of a pack of one. */
void
cro_list_settle_pack (CroListMatching *self,
                      CroListRow      *row)
{
  CroPack own = row->offer != CRO_NO_SLOT ? cro_pack_of_offer (self->model, row->offer) : (CroPack){ 0 };

  if (row->counted.size > 0)
    {
      settle_counted (row);
      return;
    }
  if (row->is_per_base && !row->has_per)
    {
      row->has_per = TRUE;
      row->per = cro_price_list_unit_of_quotes (self->model, row->item);
    }
  row->is_per_base = FALSE;
  settle_unit_beside (self, row);
  if (row->offer != CRO_NO_SLOT)
    look_at_word (self, row);
  if (row->pack.size == 0 && !row->has_per && self->of->quotes_base && self->list->source != CRO_LIST_INVOICE
      && !cro_list_is_of_pack (row))
    {
      row->has_per = TRUE;
      row->per = cro_price_list_unit_of_quotes (self->model, row->item);
    }
  if (row->pack.size == 0 && row->offer != CRO_NO_SLOT)
    row->pack = own;
  else if (row->offer != CRO_NO_SLOT && (cro_list_counts_pack (&own, &row->pack) || is_whole_of (&own, &row->pack)))
    row->pack = own;
  else if (row->offer != CRO_NO_SLOT)
    settle_measure (row, &own);
  if (row->has_per
      && (row->pack.size == 0 || !cro_brought_price_of_pack (row->per, &row->pack, &row->price)))
    row->pack = (CroPack){ CRO_MICRO, CRO_MICRO, row->per };
  row->has_per = FALSE;
  if (row->pack.size > 0)
    return;
  if (row->unit != NULL)
    cro_list_row_say (self->list, row, CRO_LIST_PACKAGE, row->unit, NULL);
  else
    cro_list_row_say (self->list, row, CRO_LIST_NO_PACK, NULL, NULL);
}

void
cro_list_say_given_up (CroListMatching *self,
                       CroListRow      *row)
{
  const CroOffer *offer = row->offer != CRO_NO_SLOT ? &cro_model_offer (self->model, row->offer)->offer : NULL;
  gboolean is_invoice = self->list->source == CRO_LIST_INVOICE;
  g_autofree char *day = NULL;

  if (offer == NULL || !offer->has_until || offer->until >= (is_invoice ? self->list->delivered : self->list->from))
    return;
  day = cro_date_to_text (offer->until);
  cro_list_row_say (self->list, row, CRO_LIST_GIVEN_UP, day, NULL);
}

/* As an offer of that day with the new price. */
CroOffer
cro_list_offer_of (CroListMatching  *self,
                   const CroListRow *row)
{
  CroOffer then = { .rate = 1 };

  if (row->offer != CRO_NO_SLOT)
    then = cro_model_offer (self->model, row->offer)->offer;
  then.has_price = true;
  then.price = row->price;
  then.tax_included = row->tax;
  then.pack_count = row->pack.count;
  then.pack_size = row->pack.size;
  then.pack_unit = row->pack.unit;
  return then;
}

/* A price of six places is never further from another than one of these. */
gboolean
cro_list_is_same_price (gint64 a,
                        gint64 b)
{
  return a - b <= 1 && b - a <= 1;
}

double
cro_list_rate_of (CroListMatching *self,
                  const char      *currency)
{
  const double *rate = currency != NULL ? g_hash_table_lookup (self->model->rates, currency) : NULL;

  if (g_strcmp0 (currency, self->model->currency) == 0)
    return 1;
  return rate != NULL ? *rate : NAN;
}

/* A price in the line's currency as one in its pack's, at the day's rate. FALSE: there is none. */
static gboolean
convert_currency (CroListMatching  *self,
                  const CroListRow *row,
                  gboolean          is_back,
                  gint64           *price)
{
  const char *own = cro_model_currency_of (self->model, row->offer);
  double rate;

  if (g_strcmp0 (row->currency, own) == 0)
    return TRUE;
  rate = cro_list_rate_of (self, row->currency) / cro_list_rate_of (self, own);
  return isfinite (rate) && rate > 0
         && cro_decimal_from_double (cro_decimal_to_double (*price) * (is_back ? 1 / rate : rate), price);
}

/* A price that the book has since the delivery came after the invoice's. */
static void
look_for_later (CroListMatching *self,
                CroListRow      *row,
                GArray          *prices)
{
  const CroPriceList *list = self->list;
  CroDate later = CRO_NO_DAY;
  g_autofree char *day = NULL;

  if (self->of->reading == NULL || !self->of->reading->keeps_later)
    return;
  for (guint i = 0; i < prices->len; i++)
    {
      CroDate from = g_array_index (prices, CroPriceRow, i).from;

      if (from > list->delivered && from <= list->from && (later == CRO_NO_DAY || from > later))
        later = from;
    }
  if (later == CRO_NO_DAY)
    return;
  day = cro_date_to_text (later);
  row->is_late = later == list->from;
  cro_list_row_say (self->list, row, CRO_LIST_LATER, day, NULL);
}

/* Those of a list, of a message or entered by hand: what a document billed is no quotation. Of the newest on the day of
 * delivery, as older ones do not serve. NULL with error. */
static GArray *
leave_out_billed (CroListMatching  *self,
                  CroListRow       *row,
                  const GArray     *prices,
                  GError          **error)
{
  g_autoptr (GArray) quoted = g_array_copy ((GArray *) prices);
  gboolean was_billed;

  for (guint i = quoted->len; i > 0; i--)
    {
      const CroPriceRow *price = &g_array_index (quoted, CroPriceRow, i - 1);

      if (price->from > self->list->delivered)
        continue;
      if (!cro_list_was_billed (self, row->item, price->id, &was_billed, error))
        return NULL;
      if (!was_billed)
        break;
      g_array_remove_index (quoted, i - 1);
    }
  return g_steal_pointer (&quoted);
}

/* Of a day's price; the offer is then that of the book's day again. */
gboolean
cro_list_read_quoted (CroListMatching  *self,
                      CroListRow       *row,
                      GError          **error)
{
  CroModel *model = self->model;
  CroOffer of_pack = cro_list_offer_of (self, row), then = of_pack, last;
  g_autoptr (GArray) rows = cro_price_rows_new (model, cro_book_get_store (self->of->book), row->offer, error);
  g_autoptr (GArray) quoted = rows != NULL ? leave_out_billed (self, row, rows, error) : NULL;

  if (quoted == NULL)
    return FALSE;
  look_for_later (self, row, rows);
  if (row->counted.size > 0)
    {
      then.pack_count = row->counted.count;
      then.pack_size = row->counted.size;
      then.pack_unit = row->counted.unit;
    }
  cro_price_rows_serve (quoted, NULL, model, row->offer, self->list->delivered);
  last = cro_model_offer (model, row->offer)->offer;
  cro_price_rows_serve (rows, NULL, model, row->offer, cro_book_get_figures (self->of->book)->date);
  last.rate = then.rate = of_pack.rate = 1;
  if ((last.has_price || last.had_price)
      && !(cro_own_pack_convert (&last, &then, &model->measures[row->item], &row->quoted)
           && cro_own_pack_convert (&last, &of_pack, &model->measures[row->item], &row->quoted_pack)))
    row->quoted = row->quoted_pack = CRO_NOT_SET;
  return TRUE;
}

void
cro_list_look_back (CroListMatching *self,
                    CroListRow      *row)
{
  const CroOfferEntry *entry;
  CroOffer then = cro_list_offer_of (self, row), last;
  CroPack own;

  row->last = CRO_NOT_SET;
  if (row->offer == CRO_NO_SLOT)
    return;
  entry = cro_model_offer (self->model, row->offer);
  own = (CroPack){ entry->pack_count, entry->pack_size, (CroUnit) entry->pack_unit };
  row->is_other_pack = own.count != row->pack.count || own.size != row->pack.size || own.unit != row->pack.unit;
  last = entry->offer;
  last.rate = then.rate = 1;
  if ((last.has_price || last.had_price)
      && !cro_own_pack_convert (&last, &then, &self->model->measures[row->item], &row->last))
    row->last = CRO_NOT_SET;
  if (row->last != CRO_NOT_SET && !convert_currency (self, row, TRUE, &row->last))
    row->last = CRO_NOT_SET;
}

/* 22.00 of 20.00 and 24.20 with the tax is as near to both: what binary fractions make of that. */
#define NO_MORE 1e-9

/* After an invoice, which is net, a list goes on as ever: a rise that is nearer to none with the tax that its prices
 * had is asked about; and so is a fall that is nearer to none without the tax that the last price has. */
static void
look_at_tax (CroListMatching *self,
             CroListRow      *row)
{
  gint64 tax = row->tax > 0 ? row->tax : cro_list_tax_before (self->of, row->offer);
  double ratio = row->look.ratio, whole = 1 + (double) tax / CRO_WHOLE_PCT;
  gboolean is_so = row->tax > 0 ? ratio * sqrt (whole) <= 1 + NO_MORE && ratio * whole >= 1 - CRO_LOOK_BEYOND
                                : ratio > sqrt (whole) && ratio / whole <= 1 + CRO_LOOK_BEYOND;

  if (self->list->source == CRO_LIST_INVOICE || row->is_from_last
      || row->says_tax != CRO_PRICE_TAX_UNSAID || isnan (ratio)
      || (row->look.kind != CRO_LOOK_NOTHING && row->look.kind != CRO_LOOK_FAR)
      || tax == 0 || !is_so)
    return;
  row->look.kind = CRO_LOOK_TAX;
  row->look.tax = tax;
}

/* As many as a dozen of a unit of pieces are; 0: it is none of pieces. */
static double
pieces_of (CroUnit unit)
{
  const CroUnitInfo *info = cro_unit_get (unit);

  return info->base == CRO_BASE_EACH ? (double) info->numerator / (double) info->denominator : 0;
}

/* Whether a price that is off by ratio is probably that of one out of n: it is then near the last one, or at most half
 * as far from it. Our own measure, no source. */
static gboolean
is_of_one (double ratio,
           double n)
{
  return n > 1 && (fabs (ratio * n - 1) <= CRO_LOOK_BEYOND || 2 * distance_of (ratio * n) < distance_of (ratio));
}

/* Of an invoice that counts pieces, of which nobody has said what one holds. */
static gboolean
counts_pieces (CroListMatching  *self,
               const CroListRow *row)
{
  CroUnit unit;
  gint64 ignored;

  return self->list->source == CRO_LIST_INVOICE && !row->is_pack_said && row->counted.size == 0 && row->unit != NULL
         && cro_unit_code_read (row->unit, &unit, &ignored) == CRO_UNIT_CODE_PIECE;
}

/* How the price of the line per unit stands to the last one, if it is for such a pack; NaN: nothing to compare with. */
static double
ratio_for (CroListMatching  *self,
           const CroListRow *row,
           const CroPack    *pack)
{
  CroOffer last = cro_own_pack_in_force (self->model, row->offer);
  CroListRow as = *row;
  CroOffer then;

  as.pack = *pack;
  then = cro_list_offer_of (self, &as);
  if (!(last.has_price || last.had_price) || !convert_currency (self, row, FALSE, &then.price))
    return NAN;
  last.rate = then.rate = 1;
  return cro_second_look_at (&last, &then, &self->model->measures[row->item], TRUE, NULL, 0).ratio;
}

static gboolean
is_near_last (double ratio)
{
  return isfinite (ratio) && fabs (ratio - 1) <= CRO_LOOK_BEYOND;
}

/* What a document that counts pieces may count of a pack: one out of it, or a piece. */
static gboolean
is_piece_of (const CroPack *pack,
             const CroPack *piece)
{
  return piece->count == CRO_MICRO
         && ((piece->size == CRO_MICRO && cro_unit_get (piece->unit)->base == CRO_BASE_EACH)
             || (pack->count > CRO_MICRO && piece->size == pack->size && piece->unit == pack->unit));
}

/* What one holds was said with an earlier invoice, whose price was for that: "1 pc" of a pack of 12. A line goes on so
 * where its price is near the last one, which it is not as that of the book's pack. A pack that was sold once says
 * nothing of it. */
gboolean
cro_list_settle_pieces (CroListMatching  *self,
                        CroListRow       *row,
                        GError          **error)
{
  const CroOfferEntry *entry = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;
  const CroPack whole = row->pack;
  g_autoptr (GArray) rows = NULL;

  if (entry == NULL || row->price <= 0 || !counts_pieces (self, row) || is_near_last (ratio_for (self, row, &whole)))
    return TRUE;
  rows = cro_price_rows_new (self->model, cro_book_get_store (self->of->book), row->offer, error);
  for (guint i = rows != NULL ? rows->len : 0; i > 0 && cro_list_is_pack (&row->pack, &whole); i--)
    {
      const CroPriceRow *price = &g_array_index (rows, CroPriceRow, i - 1);
      CroPack pack = { price->own.count, price->own.size, (CroUnit) price->own.unit };
      gboolean was_counted;

      if (pack.count == 0 || pack.size == 0 || price->own.unit < 0 || !is_piece_of (&whole, &pack)
          || !is_near_last (ratio_for (self, row, &pack)))
        continue;
      if (!cro_list_was_counted (self, row->item, &pack, price->from, &was_counted, error))
        return FALSE;
      if (was_counted)
        row->pack = pack;
    }
  return rows != NULL;
}

/* A document that counts pieces is probably not of packs where the price is that of a piece, or of one out of a pack;
 * that it moved as well is no reason to take it for a slip. */
static void
look_at_pieces (CroListMatching *self,
                CroListRow      *row)
{
  double count = cro_decimal_to_double (row->pack.count), ratio = row->look.ratio;
  double pieces = count * cro_decimal_to_double (row->pack.size) * pieces_of (row->pack.unit);

  if (!counts_pieces (self, row) || row->look.kind == CRO_LOOK_NOTHING || row->look.kind == CRO_LOOK_PACK
      || row->look.kind == CRO_LOOK_SHRANK)
    return;
  if (is_of_one (ratio, pieces)
      && !(is_of_one (ratio, count) && distance_of (ratio * count) <= distance_of (ratio * pieces)))
    row->look.pack = (CroPack){ CRO_MICRO, CRO_MICRO, CRO_UNIT_EACH };
  else if (is_of_one (ratio, count))
    row->look.pack = (CroPack){ CRO_MICRO, row->pack.size, row->pack.unit };
  else
    return;
  row->look.kind = CRO_LOOK_PACK;
}

/* A price that was converted has the digits of its currency, as money has, stated as the supplier states it; of less
 * than one the places of a cent are what differs. */
static void
round_meant (CroListMatching *self,
             CroListRow      *row)
{
  const char *currency = cro_model_currency_of (self->model, row->offer);
  CroUnit unit = cro_price_list_unit_of_quotes (self->model, row->item);
  gint64 price = row->look.meant;
  gboolean is_one = row->is_stated_per_base && cro_list_price_of_one (&row->pack, row->look.meant, unit, &price);

  if (price < CRO_MICRO)
    return;
  price = cro_money_round (cro_decimal_to_double (price), cro_currency_digits (currency))
          * cro_currency_minor (currency);
  if (!is_one || cro_brought_price_of_pack (unit, &row->pack, &price))
    row->look.meant = price;
}

/* How far from the last a price is that may be for another measure than it was read for. */
#define NEAR_QUOTE 0.1

/* Who states prices per kg may have written that of the pack, or of the pound that it is packed in. */
static void
look_at_quote (CroListMatching *self,
               CroListRow      *row)
{
  CroPack own = cro_pack_of_offer (self->model, row->offer);
  const CroPack packs[] = { own, { CRO_MICRO, CRO_MICRO, own.unit } };
  gint64 one, price;

  if ((row->look.kind != CRO_LOOK_FAR && row->look.kind != CRO_LOOK_PACK) || !self->of->quotes_base
      || self->list->source == CRO_LIST_INVOICE || row->is_pack_said || row->is_from_last || row->price <= 0
      || !cro_list_is_pack (&row->pack, &own)
      || !cro_list_price_of_one (&own, row->price, cro_price_list_unit_of_quotes (self->model, row->item), &one))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (packs) && row->look.meant == CRO_NOT_SET; i++)
    if (price_of_pack (cro_fraction_from_micro (one), &packs[i], &own, &price)
        && fabs (row->look.ratio * (double) price / (double) row->price - 1) <= NEAR_QUOTE)
      {
        row->look.kind = CRO_LOOK_PACK;
        row->look.pack = packs[i];
        row->look.meant = price;
      }
}

gboolean
cro_list_look_twice (CroListMatching  *self,
                     CroListRow       *row,
                     GError          **error)
{
  CroOffer then = cro_list_offer_of (self, row);

  if (row->offer == CRO_NO_SLOT)
    cro_list_look_beside (self, row);
  if (row->offer == CRO_NO_SLOT || !convert_currency (self, row, FALSE, &then.price))
    return TRUE;
  if (!cro_second_look (self->of->book, row->offer, &then, row->is_pack_said, &row->look, error))
    return FALSE;
  if (row->look.meant != CRO_NOT_SET && then.price != row->price)
    round_meant (self, row);
  look_at_pieces (self, row);
  look_at_quote (self, row);
  look_at_tax (self, row);
  if (row->look.kind != CRO_LOOK_NOTHING)
    cro_list_row_say (self->list, row, CRO_LIST_LOOK, NULL, NULL);
  return TRUE;
}

static gboolean
is_look (const CroListRow *row,
         CroListWhy        why)
{
  return why == CRO_LIST_LOOK;
}

gboolean
cro_list_look_at_return (CroListMatching  *self,
                         CroListRow       *row,
                         GError          **error)
{
  if (row->counted.size > 0 || row->offer == CRO_NO_SLOT || row->price <= 0)
    return TRUE;
  if (!cro_list_look_twice (self, row, error))
    return FALSE;
  if (row->look.kind == CRO_LOOK_PACK)
    return TRUE;
  cro_list_row_unsay (row, is_look);
  row->look = (CroLook){ .ratio = NAN, .meant = CRO_NOT_SET };
  return TRUE;
}

void
cro_list_check_currency (CroListMatching *self,
                         CroListRow      *row)
{
  const char *own = row->offer != CRO_NO_SLOT ? cro_model_currency_of (self->model, row->offer) : self->of->currency;
  const char *said = row->currency != NULL ? row->currency : own;

  row->currency = said;
  if (said != NULL && own != NULL && strcmp (said, own) != 0)
    cro_list_row_say (self->list, row, CRO_LIST_CURRENCY, said, own);
  else if (said != NULL && g_strcmp0 (said, self->model->currency) != 0
           && !g_hash_table_contains (self->model->rates, said))
    cro_list_row_say (self->list, row, CRO_LIST_NO_RATE, said, NULL);
}

gboolean
cro_price_list_convert (CroListBook      *of,
                        const CroListRow *row,
                        gint64           *price)
{
  CroListMatching matching = { .of = of, .model = of->model };

  *price = row->price;
  return row->offer != CRO_NO_SLOT && convert_currency (&matching, row, FALSE, price);
}
