/* cro-money.h: rounding, which happens once, at the figure shown.
 *
 * Units      An amount in minor units of its currency (ISO 4217: cents of EUR, 3 digits of
 *            KWD, none of JPY) is an int64.
 * Rounding   Half away from zero. A double that is within 1e-12 of its size of a half, and within
 *            a thousandth of a minor unit, counts as the half: exact arithmetic would have it
 *            there, and 1.005 is not a double.
 * Errors     Amounts are numbers: what is missing (NaN) is not rounded but left out. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Minor units nearest to amount; saturates at the ends of int64. */
int64_t cro_money_round     (double         amount,
                             int            digits);

/* Splits total, which is rounded already, over n parts whose exact amounts are given: each is
 * floored and the units left go to the largest fractions, ties (to a millionth of a minor
 * unit) in order. A total that is not the sum of its parts leaves more or less than a unit for
 * each; that is shared evenly first. minor[] always adds up to total. order[n] is workspace;
 * n is below 2^32. */
void    cro_money_apportion (int64_t        total,
                             const double  *parts,
                             size_t         n,
                             int            digits,
                             uint64_t      *order,
                             int64_t       *minor);
