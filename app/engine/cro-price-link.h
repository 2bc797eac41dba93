/* cro-price-link.h: how prices of a basket moved from one day to another.
 *
 *   link = sum (p1 q) / sum (p0 q)
 *
 * the price index of Lowe, with the quantities q of one basket at both days' prices: Laspeyres' where the
 * basket is the first day's. Links are multiplied, each with a basket of its own: Consumer Price Index
 * Manual, ILO, IMF, OECD, UNECE, Eurostat and The World Bank, 2004, chapter 15 (basket indices) and its
 * section on chained indices.
 *
 * Units      Prices per base unit at both days, quantities in base units; the result is a ratio. */
#pragma once

#include <stddef.h>

/* What has no price above 0 at either day, or no quantity above 0, is in no basket; NaN: nothing is. */
double cro_price_link (const double *before,
                       const double *after,
                       const double *quantity,
                       size_t        n);
