/* cro-money.h: rounding, which happens once, at the figure shown.
 *
 * Units      An amount in minor units of its currency (ISO 4217: cents of EUR, 3 digits of
 *            KWD, none of JPY) is an int64.
 * Rounding   Half away from zero. A double that is within 1e-12 of its size of a half, and within
 *            a thousandth of a minor unit, counts as the half: exact arithmetic would have it
 *            there, and 1.005 is not a double.
 * Limits     Up, down and above are decided after 1e-9 of the figure is allowed for (never more
 *            than half a minor unit), so that whoever takes a price that was rounded up, or a
 *            ceiling that was rounded down, keeps the target it was made for.
 * Errors     Amounts are numbers: what is missing (NaN) is not rounded but left out. */
#pragma once

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Minor units nearest to amount, of at most 12 digits; saturates at the ends of int64. */
int64_t cro_money_round     (double         amount,
                             int            digits);

/* ours less theirs, of what each is rounded to; saturates likewise, so that its sign is right. */
int64_t cro_money_apart     (double         ours,
                             double         theirs,
                             int            digits);

/* What two figures may differ by, relative to them, and still count as the same. */
#define CRO_ALLOWED 1e-9

/* Of a price that is to meet a target, and of a ceiling. */
int64_t cro_money_round_up  (double         amount,
                             int            digits);
int64_t cro_money_round_down (double        amount,
                             int            digits);

bool    cro_is_above        (double         figure,
                             double         limit);

/* Decimals, from fewest to 6, with which a rounded figure stands on the same side of limit as the
 * figure itself: 30.04 against 30.0. fewest where both are the same. */
int     cro_decimals_apart  (double         figure,
                             double         limit,
                             int            fewest);

/* Decimals, from fewest to 6, with which a price shows so many significant digits: 0.0123. */
int     cro_digits_of_price (double         price,
                             int            fewest,
                             int            significant);

/* Splits total, which is rounded already, over n parts whose exact amounts are given: each is
 * floored and the units left go to the largest fractions, ties (to a millionth of a minor
 * unit) in order. A total that is not the sum of its parts leaves more or less than a unit for
 * each; that is shared evenly first. minor[] adds up to total, unless total and parts together come
 * to 2^53 minor units, which no double holds to the unit: then each is rounded by itself. order[n] is workspace;
 * n is below 2^32. */
void    cro_money_apportion (int64_t        total,
                             const double  *parts,
                             size_t         n,
                             int            digits,
                             uint64_t      *order,
                             int64_t       *minor);
