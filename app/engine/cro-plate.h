/* cro-plate.h: from a plate's batch to what a guest pays for.
 *
 *   bite = (1 + w) sum (q u) / M     guest = n bite     net price = gross / (1 + tax)
 *   food-cost % = guest / net price     price for a target = guest / target (1 + tax)
 *
 * Units      Money in book currency; tax, target, allowance as fractions; percentages where a
 *            name says pct. A figure that does not exist is NaN: no price, no target. */
#pragma once

#include <stdbool.h>
#include <stdint.h>

/* What one unit of a row's cost counts in the cost of a guest: n / M, with the allowance for
 * food and disposables, without it for labour. Decimals in millionths. */
double cro_plate_share      (int64_t  makes,
                             int64_t  per_guest,
                             int64_t  allowance_pct);

/* Gross and tax in millionths (of a per cent); NaN if has_price is false. */
double cro_net_price        (bool     has_price,
                             int64_t  gross,
                             int64_t  tax_pct);

/* 100 cost / net; NaN without a net price above 0. */
double cro_food_cost_pct    (double   cost,
                             double   net_price);

/* Gross price at which cost is target of the net price; NaN without a target. */
double cro_price_for_target (double   cost,
                             double   target,
                             double   tax);

/* Whether cost passes target of the net price by more than is allowed for (cro-money.h): a
 * plate at the very price for its target is within it. Sold for 0, whatever costs something is over its
 * target, though it has no percentage: nothing of the price is left for it. Everything that says "over"
 * asks here. False without a price or a target. */
bool   cro_is_over_target   (double   cost,
                             double   net_price,
                             double   target);

/* quantity u / cost; NaN if the cost is 0, or so small that there is no such number. */
double cro_elasticity       (double   quantity,
                             double   unit_cost,
                             double   cost);

/* The unit cost at which the target is met exactly, all else equal:
 * u + (target net - cost) / quantity. Negative where the plate is over its target even with
 * the ingredient for nothing. NaN without target, net price or quantity, or where that is so
 * small that there is no such number. */
double cro_ceiling          (double   unit_cost,
                             double   quantity,
                             double   cost,
                             double   net_price,
                             double   target);
