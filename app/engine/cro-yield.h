/* cro-yield.h: what yield tests and price histories say of a value and of its spread.
 *
 * Source     Ratio estimator and its standard error: W. G. Cochran, Sampling Techniques, 3rd
 *            ed. (1977), section 6.4, finite-population correction left out (from memory). */
#pragma once

#include <stddef.h>

#include "cro-date.h"

typedef struct
{
  double yield;      /* sum of usable over sum of purchased; NaN without tests */
  double error;      /* its standard error; NaN for fewer than two tests */
  size_t n;
} CroPooledYield;

/* Pools n tests: grams as purchased (above 0) and usable. A ratio of sums, not a mean of
 * ratios: a large lot says more than a small one.
 *   error = sqrt (n / (n - 1) sum (u - Y x)^2) / sum x */
CroPooledYield cro_yield_pool     (const double  *purchased,
                                   const double  *usable,
                                   size_t         n);

/* Variance between lots of 1 / yield, the factor that a line's cost is proportional to; NaN
 * for fewer than two tests, or where a lot gave nothing usable. */
double         cro_yield_variance (const double  *purchased,
                                   const double  *usable,
                                   size_t         n);

/* Variance of a price over the days first .. last, each day counted at the price then in
 * force: price i holds from from[i] until the next. from[] rises; days before the first price
 * do not count. NaN if no day counts. */
double         cro_price_variance (const CroDate *from,
                                   const double  *price,
                                   size_t         n,
                                   CroDate        first,
                                   CroDate        last);

/* sum (slope^2 variance): first order, inputs independent. Terms without a variance (NaN)
 * do not count. */
double         cro_range_variance (const double  *slope,
                                   const double  *variance,
                                   size_t         n);
