/* cro-undone-prices.h: what undoing a delivery leaves of its prices. One that came before it and was booked later wrote
 * none, as the later one's stood; once that is undone the price of before both of them stands. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

/* A sentence for each ingredient of which a delivery stays booked, after an act that is undone, at another price than
 * the book's; empty: there is none. Owned; NULL with error. */
char *cro_words_undone_prices (CroBook  *book,
                               gint64    act,
                               GError  **error);

G_END_DECLS
