#include "cro-own-pack.h"

#include <math.h>

#include "cro-decimal.h"
#include "cro-fraction.h"

CroPack
cro_pack_of (const CroOffer *offer)
{
  return (CroPack){ offer->pack_count, offer->pack_size, offer->pack_unit };
}

/* last × this pack ÷ its pack × (1 + tax) ÷ (1 + its tax). */
gboolean
cro_own_pack_convert (const CroOffer   *last,
                      const CroOffer   *then,
                      const CroMeasure *measure,
                      gint64           *price)
{
  const CroUnitInfo *from = cro_unit_get (last->pack_unit), *to = cro_unit_get (then->pack_unit);
  CroFraction value = cro_fraction_from_micro (last->price);
  const gint64 whole = 100 * CRO_MICRO;
  double doubled;

  if (from->base == to->base && cro_fraction_multiply (&value, cro_fraction_make (then->pack_count, last->pack_count))
      && cro_fraction_multiply (&value, cro_fraction_make (then->pack_size, last->pack_size))
      && cro_fraction_multiply (&value, cro_fraction_make (to->numerator, to->denominator))
      && cro_fraction_multiply (&value, cro_fraction_make (from->denominator, from->numerator))
      && cro_fraction_multiply (&value, cro_fraction_make (whole + then->tax_included, whole + last->tax_included))
      && cro_fraction_to_micro (value, price))
    return TRUE;
  doubled = cro_offer_unit_cost (last, measure) / cro_offer_unit_cost (then, measure)
            * cro_decimal_to_double (then->price);
  return cro_offer_pack (then, measure) > 0 && isfinite (doubled) && cro_decimal_from_double (doubled, price);
}

CroOffer
cro_own_pack_of (CroModel       *model,
                 guint32         offer,
                 const CroOffer *then)
{
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  CroOffer last = *then, own = *then;

  if (then->pack_count != CRO_MICRO || then->pack_size != CRO_MICRO)
    return *then;
  own.pack_count = entry->pack_count;
  own.pack_size = entry->pack_size;
  own.pack_unit = (CroUnit) entry->pack_unit;
  last.rate = own.rate = 1;
  own.price = CRO_MICRO;
  if (!cro_own_pack_convert (&last, &own, &model->measures[entry->item], &own.price))
    return *then;
  own.rate = then->rate;
  return own;
}

CroOffer
cro_own_pack_in_force (CroModel *model,
                       guint32   offer)
{
  return cro_own_pack_of (model, offer, &cro_model_offer (model, offer)->offer);
}
