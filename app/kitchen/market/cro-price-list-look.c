/* What asks for a second look at a line's price: its pack, its tax, what it is stated for. */
#include "cro-price-list-private.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-doubt.h"
#include "cro-money.h"
#include "cro-number.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-price-list-purchase.h"
#include "cro-price-rows.h"
#include "cro-unit-code.h"

#include <math.h>

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
  return n > 1
         && (fabs (ratio * n - 1) <= CRO_LOOK_BEYOND
             || 2 * cro_list_distance_of (ratio * n) < cro_list_distance_of (ratio));
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
  if (!(last.has_price || last.had_price) || !cro_list_convert_currency (self, row, FALSE, &then.price))
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
      && !(is_of_one (ratio, count) && cro_list_distance_of (ratio * count) <= cro_list_distance_of (ratio * pieces)))
    row->look.pack = (CroPack){ CRO_MICRO, CRO_MICRO, CRO_UNIT_EACH };
  else if (is_of_one (ratio, count))
    row->look.pack = (CroPack){ CRO_MICRO, row->pack.size, row->pack.unit };
  else
    return;
  row->look.kind = CRO_LOOK_PACK;
}

/* A line that counts kg says nothing of the pack: where its price is near that of the pack it may be for it. */
static void
look_at_measure (CroListMatching *self,
                 CroListRow      *row)
{
  if (self->list->source == CRO_LIST_INVOICE && row->counted.size > 0 && row->look.kind == CRO_LOOK_SHRANK)
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

/* How far from the last a price may be to be for another measure than it was read for: nearer by 1 % than a slip of its
 * sign would bring it, no further than what is asked about, and near where another pack may be meant. Our own measure,
 * no source. */
static double
most_of_quote (const CroListRow *row)
{
  gboolean has_slipped = row->look.kind == CRO_LOOK_SLIP || row->look.kind == CRO_LOOK_THOUSANDS;
  double slip = has_slipped ? cro_doubt_slip (row->look.ratio) : 1, most = log (1 + CRO_LOOK_BEYOND);

  if (row->look.kind == CRO_LOOK_PACK)
    return log (1.1);
  return has_slipped ? MIN (most, cro_list_distance_of (row->look.ratio / slip) - log (1.01)) : most;
}

/* Who states prices per kg may have written that of the pack, or of the pound that it is packed in: the nearer. */
static void
look_at_quote (CroListMatching *self,
               CroListRow      *row)
{
  CroPack own = cro_pack_of_offer (self->model, row->offer);
  const CroPack packs[] = { own, { CRO_MICRO, CRO_MICRO, own.unit } };
  double most = row->price > 0 ? most_of_quote (row) : 0;
  gint64 one, price;

  if (row->look.kind == CRO_LOOK_NOTHING || row->look.kind == CRO_LOOK_SHRANK || !self->of->quotes_base
      || self->list->source == CRO_LIST_INVOICE || row->is_pack_said || row->is_from_last || row->price <= 0
      || !cro_list_is_pack (&row->pack, &own)
      || !cro_list_price_of_one (&own, row->price, cro_price_list_unit_of_quotes (self->model, row->item), &one))
    return;
  for (guint i = 0; i < G_N_ELEMENTS (packs); i++)
    {
      double far;

      price = one;
      if (!cro_list_price_in_pack (&packs[i], &own, &price))
        continue;
      far = cro_list_distance_of (row->look.ratio * (double) price / (double) row->price);
      if (far >= most)
        continue;
      most = far;
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
  if (row->offer == CRO_NO_SLOT || !cro_list_convert_currency (self, row, FALSE, &then.price))
    return TRUE;
  if (!cro_second_look (self->of->book, row->offer, &then, row->is_pack_said, &row->look, error))
    return FALSE;
  if (row->look.meant != CRO_NOT_SET && then.price != row->price)
    round_meant (self, row);
  look_at_measure (self, row);
  look_at_pieces (self, row);
  look_at_quote (self, row);
  look_at_tax (self, row);
  if (row->look.kind != CRO_LOOK_NOTHING)
    cro_list_row_say (self->list, row, CRO_LIST_LOOK, NULL, NULL);
  return TRUE;
}
