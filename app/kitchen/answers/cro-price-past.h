/* cro-price-past.h: what every ingredient cost on any day, by today's packs and measures and that day's
 * prices and rates: the cost that "Prices of" that day shows (costing.md, "What an ingredient costs").
 *
 * Units      Book currency per base unit.
 * Ownership  The book is borrowed; once its rows moved it is of no use. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

typedef struct _CroPricePast CroPricePast;

/* Reads all prices and rates; NULL with error. */
CroPricePast *cro_price_past_new   (CroBook       *book,
                                    GError       **error);
void          cro_price_past_free  (CroPricePast  *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroPricePast, cro_price_past_free)

/* Of an ingredient, by slot; NaN: nothing was known. */
double        cro_price_past_cost  (CroPricePast  *self,
                                    guint32        item,
                                    CroDate        date);

/* The same with the exchange rates of another day. */
double        cro_price_past_cost_at (CroPricePast *self,
                                      guint32       item,
                                      CroDate       date,
                                      CroDate       rates);

/* Ids of the prices that came with invoices, up to a date: keys of gint64. NULL with error. */
GHashTable   *cro_price_past_billed (CroBook      *book,
                                     CroDate       date,
                                     GError      **error);

/* The days of up to most of a supplier's newest lists, newest first, none after date; how many. A list is a
 * day on which prices of theirs began that came with no invoice (billed; NULL: none did): at least a quarter
 * as many as in their usual list, that in which the middle one of their newest prices stands, and more than
 * one where they have more than three packs, as a single price is a correction. Their first day says nothing
 * of what is usual: then all was entered. */
guint         cro_price_past_lists (CroPricePast  *self,
                                    GHashTable    *billed,
                                    guint32        supplier,
                                    CroDate        date,
                                    CroDate       *days,
                                    guint          most);

G_END_DECLS
