/* What tax a line's price has in it: what the list says of it, a column beside it, the last price. */
#include "cro-price-list-private.h"

#include "cro-decimal.h"

/* Whether a price less the rate beside it is nearer to the last one, which has none, than it is itself. */
static gboolean
is_nearer_without (CroListMatching  *self,
                   const CroListRow *row)
{
  const CroOfferEntry *offer = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;
  double price = cro_decimal_to_double (row->price), last, without;

  if (row->rate_beside == 0 || offer == NULL || !offer->offer.has_price || offer->offer.tax_included != 0
      || row->has_per
      || row->pack.size > 0 || !(row->price > 0))
    return FALSE;
  last = cro_decimal_to_double (offer->offer.price);
  without = price / (1 + cro_decimal_to_double (row->rate_beside) / 100);
  return fabs (log (without / last)) < fabs (log (price / last));
}

/* A column of tax beside the price tells by its amount whether the price has it, where the last one had; of per cents
 * nothing does. What is more by that rate and no total may be another price. */
static void
settle_tax_beside (CroListMatching *self,
                   CroListRow      *row,
                   gint64           rate_pct)
{
  gboolean may_hold_it = row->tax_heading != NULL
                         && (is_nearer_without (self, row)
                             || (row->tax_beside != CRO_NOT_SET
                                 && cro_price_list_may_hold_tax (row->price, row->tax_beside)));

  /* What is open of all prices is so of goods that had none, and an amount that is a rate of nothing else. */
  if (row->says_tax != CRO_PRICE_TAX_UNSAID || row->is_from_last || row->tax_beside == 0 || !row->has_price
      || (rate_pct == 0 && !row->is_tax_open && !may_hold_it))
    return;
  /* A number that is the rate is probably no amount. */
  if (rate_pct > 0 && row->tax_beside != CRO_NOT_SET && row->tax_beside != rate_pct
      && row->tax_beside != rate_pct / 100)
    row->says_tax = cro_price_list_tax_by_amount (row->price, row->tax_beside, rate_pct);
  if (row->tax_heading == NULL && row->says_tax != CRO_PRICE_WITHOUT_TAX)
    row->says_tax = CRO_PRICE_TAX_UNSAID;
  else if (row->tax_heading == NULL && row->sum_heading != NULL)
    {
      row->says_tax = CRO_PRICE_TAX_UNSAID;
      cro_list_row_say (self->list, row, CRO_LIST_TAX_BESIDE, row->sum_heading, NULL);
    }
  else if (row->says_tax == CRO_PRICE_TAX_UNSAID)
    cro_list_row_say (self->list, row, CRO_LIST_TAX_BESIDE, row->tax_heading, NULL);
}

/* A list obeys what it says of tax; at what rate it may say too, else its last prices tell. */
void
cro_list_settle_tax (CroListMatching *self,
                     CroListRow      *row)
{
  const CroOfferEntry *offer = row->offer != CRO_NO_SLOT ? cro_model_offer (self->model, row->offer) : NULL;

  settle_tax_beside (self, row, offer != NULL ? offer->offer.tax_included : 0);
  /* As last is as the last price was. */
  if (self->list->source == CRO_LIST_INVOICE || (row->says_tax == CRO_PRICE_WITHOUT_TAX && !row->is_from_last))
    return;
  if (offer != NULL)
    row->tax = row->says_tax == CRO_PRICE_WITH_TAX && !row->is_from_last ? cro_list_tax_before (self->of, row->offer)
                                                                         : offer->offer.tax_included;
  if (row->says_tax == CRO_PRICE_WITH_TAX && !row->is_from_last && row->tax_pct > 0)
    row->tax = row->tax_pct;
  if (row->says_tax == CRO_PRICE_WITH_TAX && row->has_price && row->tax == 0)
    cro_list_row_say (self->list, row, CRO_LIST_WHICH_TAX, NULL, NULL);
}
