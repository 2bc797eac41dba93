/* cro-market-day.h: what a purchasing manager has before them on the day of the figures: whose list is
 * due, what has no price or an old one.
 *
 * A list is what cro_price_past_lists says: no invoice, and no correction of a single price. A supplier's
 * rhythm is the median of the days between their last lists: nine at most, and three at least. The next is
 * due that many days after the last.
 *
 * Ownership  Arrays are the day's own. */
#pragma once

#include "cro-price-past.h"

G_BEGIN_DECLS

/* Lists that a rhythm is taken from. */
#define CRO_RHYTHM_MOST 9
#define CRO_RHYTHM_LEAST 3

typedef struct
{
  guint32  supplier;
  guint    n_packs;
  CroDate  last;        /* the day from which the prices of their newest list hold; CRO_NO_DAY: there are none */
  guint    rhythm;      /* days; 0: there is none */
  CroDate  due;         /* CRO_NO_DAY without a rhythm */
  gboolean is_due;      /* on the day of the figures, or before */
} CroSupplierDay;

typedef struct
{
  GArray *suppliers;    /* CroSupplierDay: what is due first before the others, then by name */
  GArray *no_price;     /* guint32: ingredients that are used and have no price in force, by slot */
  GArray *last_price;   /* guint32: those that are not to be had, whose last price serves on */
  guint   n_old;        /* ingredients that are used, whose price is old (cro_kind_is_price_old) */
} CroMarketDay;

CroMarketDay *cro_market_day_new  (CroBook       *book,
                                   CroPricePast  *past);
void          cro_market_day_free (CroMarketDay  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroMarketDay, cro_market_day_free)

/* Days between lists by their days, newest first; 0: too few of them. */
guint         cro_market_rhythm   (const CroDate *lists,
                                   guint          n);

G_END_DECLS
