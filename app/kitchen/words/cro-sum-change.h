/* cro-sum-change.h: how a price changed, as its sum in words. */
#pragma once

#include "cro-price-history.h"

G_BEGIN_DECLS

/* By how many per cent the price in use differs from the one before it, of a base unit: (new − before)
 * ÷ before, each with the day since which it holds. NULL where there is none. Elements CroSumToken. */
GPtrArray *cro_sum_of_change (CroFigures *figures,
                              GArray     *history,
                              guint32     ingredient);

G_END_DECLS
