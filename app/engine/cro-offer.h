/* cro-offer.h: what an ingredient costs as purchased, from its suppliers' packs.
 *
 *   u(offer, t) = P r / (1 + v) / (count size f)
 *
 * with the newest price P from a date <= t, the rate r into the book's currency, the tax v
 * that the price includes, the pack in base units of the ingredient and its net part f.
 *
 * Where no offer is both available and priced, the last price serves: that of the offer whose last
 * day, within its until and with a price, is the latest.
 *
 * Units      Decimals in millionths (percentages in millionths of a per cent); the result in
 *            book currency per base unit.
 * Errors     An offer that cannot be priced says what it lacks. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "cro-date.h"
#include "cro-line.h"

typedef enum
{
  CRO_OFFER_PRICED = 0,
  CRO_OFFER_LACKS_DENSITY = CRO_LACKS_DENSITY,
  CRO_OFFER_LACKS_PIECE = CRO_LACKS_PIECE,
  CRO_OFFER_LACKS_RATE = 1 << 2,
  CRO_OFFER_LACKS_PRICE = 1 << 3,
  CRO_OFFER_LEFT = 1 << 4,       /* no longer available */
} CroOfferLack;

/* An offer on a date, with its pack of that date. One that is not to be had, or no longer, has
 * price and pack as on its last day, if it ever had a price. */
typedef struct
{
  bool     has_price;            /* of the date itself; a row without one says "not to be had" */
  bool     had_price;            /* on or before the date, within until */
  bool     is_preferred;
  bool     has_until;
  CroDate  from;                 /* of the price */
  CroDate  until;                /* last day on which it is available */
  CroDate  last_day;             /* where it had a price: the last day on which it had one */
  int64_t  price;                /* per pack, in the offer's currency */
  int64_t  tax_included;         /* per cent; 0 = net */
  int64_t  pack_count;
  int64_t  pack_size;
  CroUnit  pack_unit;
  int64_t  net;                  /* per cent; 0 = not set, all of it */
  double   rate;                 /* book currency for one of the offer's; 0 = not known */
} CroOffer;

/* What lacks on date, CRO_OFFER_PRICED (0) if nothing. A set of CroOfferLack bits. */
unsigned cro_offer_lacks     (const CroOffer   *offer,
                              const CroMeasure *ingredient,
                              CroDate           date);

/* Base units in one pack, less what is drained or glazed; 0 if it cannot be converted. */
double   cro_offer_pack      (const CroOffer   *offer,
                              const CroMeasure *ingredient);

/* u; only of an offer that is priced. */
double   cro_offer_unit_cost (const CroOffer   *offer,
                              const CroMeasure *ingredient);

/* The price of a pack at which u is unit_cost, in the offer's currency with the tax that it includes:
 * u (1 + v) count size f / r. rate > 0. */
double   cro_offer_price_at  (const CroOffer   *offer,
                              const CroMeasure *ingredient,
                              double            unit_cost);

/* Chooses among n offers in the order in which ties are settled (by supplier, then code).
 * stale_after is in days, negative if the book sets none: an older price serves only where
 * no newer one exists. Unit costs within 1e-12 of each other are equal: they differ by
 * rounding only.
 *
 * Returns the index of the offer in use, its cost in *unit_cost; or -1: then the last price may
 * serve. */
ptrdiff_t cro_offer_choose   (const CroOffer   *offers,
                              size_t            n,
                              const CroMeasure *ingredient,
                              CroDate           date,
                              double            stale_after,
                              double           *unit_cost);

/* The same where none is available and priced: the offer whose last day is latest, preferred ones
 * first, then the cheapest. Last prices know no staleness.
 *
 * Returns -1 where there is none, with in *lacks the cause: CRO_OFFER_LACKS_PRICE where no offer
 * ever had a price, else what the first that had one lacks, the rate before all else. */
ptrdiff_t cro_offer_choose_last (const CroOffer   *offers,
                                 size_t            n,
                                 const CroMeasure *ingredient,
                                 double           *unit_cost,
                                 unsigned         *lacks);
