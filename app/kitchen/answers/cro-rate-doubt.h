/* cro-rate-doubt.h: an exchange rate against the one before it, asked about by the rule for prices:
 * one slipped decimal moves every pack of its currency.
 *
 * Units  A rate is in the book's currency for one of the other; NaN: there is none. */
#pragma once

#include "cro-doubt.h"

G_BEGIN_DECLS

/* The newest rate on or before a day. */
double   cro_rate_on          (CroBook      *book,
                               const char   *currency,
                               CroDate       date);

/* The rate from before a day: not one of that day itself, whose place a new one takes. */
double   cro_rate_before      (CroBook      *book,
                               const char   *currency,
                               CroDate       date);

/* What was probably meant by a rate, per one of the currency, after one before it: a decimal that slipped, or one
 * divided by it, as rates are quoted both ways. 0: nothing else. */
double   cro_rate_meant       (double        rate,
                               double        before);

/* Whether it is asked about: either that, or far from the one before by the rule for prices
 * (cro-second-look.h). */
gboolean cro_rate_is_asked    (double        rate,
                               double        before);

/* From when the rates hold that are in force on the book's date: currency → date as text. Owned; NULL
 * on failure. */
GHashTable *cro_rates_in_force (CroBook    *book,
                               GError       **error);

/* Of the rate that a currency has on the book's date, or of the one before, which that has set right. FALSE where
 * nothing is asked, or the book cannot be read. */
gboolean cro_doubt_of_rate    (CroBook      *book,
                               const char   *currency,
                               CroDoubt     *doubt);

/* Of all currencies, in their order, and of rates that are to come, day by day, behind what doubts holds. */
gboolean cro_doubts_add_rates (CroBook      *book,
                               GArray       *doubts,
                               GError      **error);

G_END_DECLS
