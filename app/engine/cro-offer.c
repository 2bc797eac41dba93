#include "cro-offer.h"

#include "cro-decimal.h"

unsigned
cro_offer_lacks (const CroOffer   *offer,
                 const CroMeasure *ingredient,
                 CroDate           date)
{
  unsigned lacks = (unsigned) cro_measure_lacks (ingredient,
                                                 cro_unit_get (offer->pack_unit)->base,
                                                 (CroBase) ingredient->base);

  if (offer->has_until && date > offer->until)
    lacks |= CRO_OFFER_LEFT;
  if (!offer->has_price)
    lacks |= CRO_OFFER_LACKS_PRICE;
  if (!(offer->rate > 0))
    lacks |= CRO_OFFER_LACKS_RATE;
  return lacks;
}

double
cro_offer_pack (const CroOffer   *offer,
                const CroMeasure *ingredient)
{
  const CroUnitInfo *unit = cro_unit_get (offer->pack_unit);
  double content = cro_decimal_to_double (offer->pack_count)
                   * cro_decimal_to_double (offer->pack_size) * cro_unit_factor (offer->pack_unit);
  int64_t net = offer->net > 0 ? offer->net : CRO_WHOLE_PCT;

  if (unit->base != (CroBase) ingredient->base)
    {
      if (!(ingredient->grams[ingredient->base] > 0))
        return 0;
      content = content * ingredient->grams[unit->base] / ingredient->grams[ingredient->base];
    }
  return content * (double) net / (double) CRO_WHOLE_PCT;
}

double
cro_offer_unit_cost (const CroOffer   *offer,
                     const CroMeasure *ingredient)
{
  double tax = (double) (CRO_WHOLE_PCT + offer->tax_included) / (double) CRO_WHOLE_PCT;

  return cro_decimal_to_double (offer->price) * offer->rate / tax
         / cro_offer_pack (offer, ingredient);
}

double
cro_offer_price_at (const CroOffer   *offer,
                    const CroMeasure *ingredient,
                    double            unit_cost)
{
  double tax = (double) (CRO_WHOLE_PCT + offer->tax_included) / (double) CRO_WHOLE_PCT;

  return unit_cost * cro_offer_pack (offer, ingredient) * tax / offer->rate;
}

/* Whether some offer that could serve has a price of the last stale_after days. */
static bool
has_fresh (const CroOffer   *offers,
           size_t            n,
           const CroMeasure *ingredient,
           CroDate           date,
           double            stale_after)
{
  for (size_t i = 0; i < n; i++)
    if (cro_offer_lacks (&offers[i], ingredient, date) == CRO_OFFER_PRICED
        && (double) (date - offers[i].from) <= stale_after)
      return true;
  return false;
}

/* Preferred ones first, then the cheapest; of equal ones the earlier stays. */
static bool
is_better (const CroOffer *offer,
           double          cost,
           const CroOffer *than,
           double          its_cost)
{
  if (offer->is_preferred != than->is_preferred)
    return offer->is_preferred;
  return cost < its_cost * (1 - 1e-12);
}

ptrdiff_t
cro_offer_choose (const CroOffer   *offers,
                  size_t            n,
                  const CroMeasure *ingredient,
                  CroDate           date,
                  double            stale_after,
                  double           *unit_cost)
{
  bool fresh_only = stale_after >= 0 && has_fresh (offers, n, ingredient, date, stale_after);
  ptrdiff_t best = -1;

  for (size_t i = 0; i < n; i++)
    {
      double cost;

      if (cro_offer_lacks (&offers[i], ingredient, date) != CRO_OFFER_PRICED
          || (fresh_only && (double) (date - offers[i].from) > stale_after))
        continue;

      cost = cro_offer_unit_cost (&offers[i], ingredient);
      if (best < 0 || is_better (&offers[i], cost, &offers[best], *unit_cost))
        {
          best = (ptrdiff_t) i;
          *unit_cost = cost;
        }
    }
  return best;
}

/* Of one that had a price, whatever became of it since. */
static unsigned
cannot_be_costed (const CroOffer   *offer,
                  const CroMeasure *ingredient)
{
  unsigned lacks = cro_offer_lacks (offer, ingredient, offer->last_day);

  if (lacks & CRO_OFFER_LACKS_RATE)
    return CRO_OFFER_LACKS_RATE;
  return lacks & (CRO_OFFER_LACKS_DENSITY | CRO_OFFER_LACKS_PIECE);
}

ptrdiff_t
cro_offer_choose_last (const CroOffer   *offers,
                       size_t            n,
                       const CroMeasure *ingredient,
                       double           *unit_cost,
                       unsigned         *lacks)
{
  ptrdiff_t best = -1;
  unsigned of_first = CRO_OFFER_PRICED;

  for (size_t i = 0; i < n; i++)
    {
      unsigned lack;
      double cost;

      if (!offers[i].had_price)
        continue;
      lack = cannot_be_costed (&offers[i], ingredient);
      if (of_first == CRO_OFFER_PRICED)
        of_first = lack;
      if (lack != CRO_OFFER_PRICED
          || (best >= 0 && offers[i].last_day < offers[best].last_day))
        continue;

      cost = cro_offer_unit_cost (&offers[i], ingredient);
      if (best < 0 || offers[i].last_day > offers[best].last_day
          || is_better (&offers[i], cost, &offers[best], *unit_cost))
        {
          best = (ptrdiff_t) i;
          *unit_cost = cost;
        }
    }
  *lacks = best >= 0                      ? CRO_OFFER_PRICED
           : of_first != CRO_OFFER_PRICED ? of_first
                                          : CRO_OFFER_LACKS_PRICE;
  return best;
}
