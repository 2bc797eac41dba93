/* cro-money.h: rounding, which happens once, at the figure shown.
 *
 * Units      An amount in minor units of its currency (ISO 4217: cents of EUR, 3 digits of
 *            KWD, none of JPY) is an int64.
 * Rounding   Half away from zero. A double within 1e-12 of a half counts as the half: exact
 *            arithmetic would have it there, and 1.005 is not a double. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Minor units nearest to amount; saturates at the ends of int64. */
int64_t cro_money_round     (double         amount,
                             int            digits);

/* Splits total, which is rounded already, over n parts whose exact amounts are given: each is
 * floored and the units left go to the largest fractions, ties in order. minor[] adds up to
 * total whenever |total - sum| is less than n units; what is beyond is shared evenly. */
void    cro_money_apportion (int64_t        total,
                             const double  *parts,
                             size_t         n,
                             int            digits,
                             int64_t       *minor);
