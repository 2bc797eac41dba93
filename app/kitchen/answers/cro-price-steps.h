/* cro-price-steps.h: what a plate or a menu leaves at each price that the house would ask.
 *
 *   net = gross / (1 + tax)   food cost % = 100 food / net   left = net - food
 *   coefficient = net / food   prime cost % = 100 (food + labour) / net
 *
 * Prices are those that the house rounds to, around the one in force and up to the one that holds the
 * target, which is rounded up to the minor unit and stands among them; and those at which it was sold
 * lately.
 *
 * Units      Gross prices in millionths of the book's currency; what is sold in millionths; the rest
 *            in book currency and per cent, NaN where there is none. */
#pragma once

#include "cro-book.h"
#include "cro-breakdown.h"
#include "cro-ref.h"

G_BEGIN_DECLS

/* How the house rounds: to 12.00 and 12.50, to 12.95, to 12.00. */
typedef enum
{
  CRO_PRICES_HALF,
  CRO_PRICES_NINETY_FIVE,
  CRO_PRICES_WHOLE,
  CRO_N_PRICE_HABITS,
} CroPriceHabit;

/* That of the book; the first where it does not say. Asks the store. */
CroPriceHabit cro_price_habit_read (CroBook *book);

typedef struct
{
  gint64   price;
  double   net;
  double   food_cost_pct;
  double   left;
  double   coefficient;
  double   prime_cost_pct;
  gboolean is_now;
  gboolean holds;        /* the least that keeps the target */
  gboolean is_over;
  gint64   sold;         /* in 28 days at this price; CRO_NOT_SET: it was never asked then */
} CroPriceStep;

/* What was sold of a plate or a menu by itself in 28 days (cro-sold.h), by the price that was in force: gint64 * →
 * gint64 *. *last is the last of these days: that of the newest sale of anything, else the book's date. Empty where
 * it was never sold. Owned; NULL with error. */
GHashTable *cro_sold_by_price_new (CroBook        *book,
                                   CroRef          thing,
                                   CroDate        *last,
                                   GError        **error);

/* By rising price; empty where there is neither a price nor a target. sold may be NULL. Elements
 * CroPriceStep. */
GArray     *cro_price_steps_new   (CroFigures     *figures,
                                   CroRef          thing,
                                   CroPriceHabit   habit,
                                   GHashTable     *sold);

/* The same where nobody set a target, for one in per cent that is asked about. */
GArray     *cro_price_steps_for   (CroFigures     *figures,
                                   CroRef          thing,
                                   CroPriceHabit   habit,
                                   GHashTable     *sold,
                                   double          target_pct);

G_END_DECLS
