/* For how much a line's price is, in which currency, and what it was before. */
#include "cro-price-list-private.h"

#include "cro-brought-pack.h"
#include "cro-decimal.h"
#include "cro-fraction.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-number.h"
#include "cro-price-list-purchase.h"
#include "cro-price-remark.h"
#include "cro-price-rows.h"
#include "cro-said-pack.h"
#include "cro-words.h"

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

/* "6.6 kg" of who sells 12 × 550 g, "1000 g" of who sells 1 kg, as a column of weights has it. */
static gboolean
is_whole_of (const CroPack *own,
             const CroPack *said)
{
  gint64 part;

  return said->count == CRO_MICRO
         && price_of_pack (cro_fraction_from_micro (CRO_MICRO), own, said, &part) && part == CRO_MICRO;
}

gboolean
cro_list_is_stated_per (const CroPack *own,
                        const CroPack *said)
{
  return is_measure (said) || is_one_of (own, said);
}

gboolean
cro_list_price_in_pack (const CroPack *from,
                        const CroPack *pack,
                        gint64        *price)
{
  return price_of_pack (cro_fraction_from_micro (*price), from, pack, price);
}

/* A size that is none of the pack's, behind "/", may be that of another pack: what a person types into the row of a
 * pack is so. One of a unit is no pack. */
static void
ask_size (CroListMatching *self,
          CroListRow      *row,
          const CroPack   *own)
{
  g_autofree char *said = NULL, *pack = NULL;

  if (row->is_known || cro_list_is_pack (own, &row->pack)
      || (row->pack.count == CRO_MICRO && row->pack.size == CRO_MICRO))
    return;
  said = cro_pack_to_short_text (&row->pack);
  pack = cro_pack_to_short_text (own);
  cro_list_row_say (self->list, row, CRO_LIST_WHICH_SIZE, said, pack);
}

/* "8.20/100 g" is how a price is stated, and no pack that is sold: it is worked out for the one that is. So is one for
 * one of a pack. */
static void
settle_measure (CroListMatching *self,
                CroListRow      *row,
                const CroPack   *own)
{
  if (!row->is_per_measure || !row->has_price)
    return;
  if (!cro_list_is_stated_per (own, &row->pack))
    ask_size (self, row, own);
  else if (cro_list_price_in_pack (&row->pack, own, &row->price))
    {
      row->pack = *own;
      row->is_per_measure = FALSE;
    }
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

/* The price for one of a pack of several, "each" of 12 × 550 g. */
static gboolean
is_of_one_in (CroUnit        per,
              const CroPack *pack)
{
  return cro_unit_get (per)->base == CRO_BASE_EACH && cro_unit_get (pack->unit)->base != CRO_BASE_EACH
         && pack->count > CRO_MICRO;
}

/* "Sugar /kg", "Sugar per kg", and "Sugar lb" of a pack in kilograms. */
static gboolean
is_named_per (CroListMatching  *self,
              const CroListRow *row,
              const CroPack    *pack)
{
  CroUnit unit;

  return row->name != NULL && cro_said_pack_ends_unit (row->name, &unit)
         && !cro_list_book_has_name (self->of, row->name)
         && (unit != pack->unit || cro_price_remark_says_per (row->name));
}

/* "12", "0.90", "each" may be 0.90 for each of the 12, or for all of them, and "10", "kg", "1.58" an order of 10 kg in
 * the supplier's packs: the last price tells. */
static void
settle_unit_beside (CroListMatching  *self,
                    CroListRow       *row)
{
  CroListRow whole = *row;
  gint64 price = row->price;
  gboolean is_in, is_nearer;

  if (!row->may_be_per || row->has_per || !row->has_price)
    return;
  if ((row->may_be_order || row->pack.size == 0) && row->offer != CRO_NO_SLOT)
    whole.pack = cro_pack_of_offer (self->model, row->offer);
  if (whole.pack.size == 0)
    return;
  is_in = is_of_one_in (row->per, &whole.pack);
  if (is_in ? !cro_decimal_multiply (row->price, whole.pack.count, &whole.price)
            : !cro_brought_price_of_pack (row->per, &whole.pack, &whole.price))
    return;
  if (row->pack.size > 0 && !cro_list_price_in_pack (&row->pack, &whole.pack, &price))
    return;
  if (whole.currency == NULL && row->offer != CRO_NO_SLOT)
    whole.currency = cro_model_currency_of (self->model, row->offer);
  if (row->offer != CRO_NO_SLOT)
    cro_list_look_back (self, &whole);
  if (price <= 0 || whole.price == price)
    return;
  is_nearer = row->offer != CRO_NO_SLOT && whole.last != CRO_NOT_SET && whole.last > 0
              && 2 * cro_list_distance_of ((double) whole.price / (double) whole.last)
                     < cro_list_distance_of ((double) price / (double) whole.last);
  if (row->offer == CRO_NO_SLOT || whole.last == CRO_NOT_SET || whole.last <= 0 || (is_in && is_nearer)
      || (!is_nearer && is_named_per (self, row, &whole.pack)))
    {
      row->said_open = cro_price_list_keep (self->list, cro_words_unit (row->per));
      return;
    }
  row->has_per = is_nearer && !is_in;
  if (row->has_per && row->may_be_order)
    row->pack = (CroPack){ 0 };
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
    settle_measure (self, row, &own);
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

gboolean
cro_list_convert_currency (CroListMatching  *self,
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

/* What a price is of. */
static CroPack
pack_of_price (CroListMatching   *self,
               const CroListRow  *row,
               const CroPriceRow *price)
{
  if (price->own.count > 0 && price->own.size > 0 && price->own.unit >= 0)
    return (CroPack){ price->own.count, price->own.size, (CroUnit) price->own.unit };
  return cro_pack_of_offer (self->model, row->offer);
}

/* What the document posted itself, or another one at the same price, is not later than it. */
static gboolean
is_own_price (CroListMatching   *self,
              const CroListRow  *row,
              const CroPriceRow *price)
{
  CroPack pack = pack_of_price (self, row, price);
  gint64 own = row->price;

  return price->tax == 0 && price->price != CRO_NOT_SET && cro_list_price_in_pack (&row->pack, &pack, &own)
         && cro_list_is_same_price (price->price, own);
}

/* The last day on which goods came at a price that a document posted; CRO_NO_DAY: none did. What came after the list's
 * delivery is told of a price too that took its place since. */
static gboolean
find_delivery (CroListMatching   *self,
               const CroListRow  *row,
               const CroPriceRow *price,
               CroDate           *day,
               GError           **error)
{
  CroListRow as = *row;
  CroDate other, before;
  gboolean was_billed;

  as.pack = pack_of_price (self, row, price);
  as.price = price->price;
  as.net_value = 0;
  if (!cro_list_was_billed (self, row->item, price->id, &was_billed, day, &before, error))
    return FALSE;
  if (*day == CRO_NO_DAY)
    {
      *day = before > self->list->delivered ? before : CRO_NO_DAY;
      return TRUE;
    }
  if (!cro_list_last_billed (self, &as, &other, error))
    return FALSE;
  if (other != CRO_NO_DAY && other > *day)
    *day = other;
  return TRUE;
}

/* A price that the book has since the delivery came after the invoice's, unless a document posted it whose goods had
 * come by then; so did one of goods that came later, from whichever day it holds. */
static gboolean
look_for_later (CroListMatching  *self,
                CroListRow       *row,
                GArray           *prices,
                GError          **error)
{
  const CroPriceList *list = self->list;
  CroDate later = CRO_NO_DAY;
  gboolean stays = FALSE;
  g_autofree char *day = NULL;

  if (self->of->reading == NULL || !self->of->reading->keeps_later)
    return TRUE;
  for (guint i = 0; i < prices->len; i++)
    {
      const CroPriceRow *price = &g_array_index (prices, CroPriceRow, i);
      CroDate from = price->from, delivered;
      gboolean is_last = i + 1 == prices->len || g_array_index (prices, CroPriceRow, i + 1).from > list->from;

      /* Of those that began by the day of delivery the one that is in force alone, which may be of a later one. */
      if (from > list->from || (from <= list->delivered && !is_last) || (later != CRO_NO_DAY && from <= later)
          || is_own_price (self, row, price))
        continue;
      if (!find_delivery (self, row, price, &delivered, error))
        return FALSE;
      if (delivered == CRO_NO_DAY ? from <= list->delivered : delivered <= list->delivered)
        continue;
      later = from;
      stays = from == list->from || (is_last && delivered != CRO_NO_DAY);
    }
  if (later == CRO_NO_DAY)
    return TRUE;
  day = cro_date_to_text (later);
  row->is_late = stays;
  cro_list_row_say (self->list, row, CRO_LIST_LATER, day, NULL);
  return TRUE;
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
      if (!cro_list_was_billed (self, row->item, price->id, &was_billed, NULL, NULL, error))
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

  if (quoted == NULL || !look_for_later (self, row, rows, error))
    return FALSE;
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
  if (row->last != CRO_NOT_SET && !cro_list_convert_currency (self, row, TRUE, &row->last))
    row->last = CRO_NOT_SET;
}

/* What goes back or is free posts no price that would be in a currency: its money is the document's. */
static gboolean
posts_no_price (CroListMatching  *self,
                const CroListRow *row)
{
  return self->list->source == CRO_LIST_INVOICE && (row->is_return || cro_list_row_is_free (row));
}

void
cro_list_check_currency (CroListMatching *self,
                         CroListRow      *row)
{
  const char *own = row->offer != CRO_NO_SLOT ? cro_model_currency_of (self->model, row->offer) : self->of->currency;
  const char *said = row->currency != NULL ? row->currency : own;

  row->currency = said;
  if (posts_no_price (self, row))
    return;
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
  return row->offer != CRO_NO_SLOT && cro_list_convert_currency (&matching, row, FALSE, price);
}
