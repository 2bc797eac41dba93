/* cro-words-price.h: what is said of a text that was to be a price, and of prices that moved.
 *
 * Ownership  Texts returned are the caller's. */
#pragma once

#include "cro-book.h"
#include "cro-entry.h"

G_BEGIN_DECLS

/* Why it is none, as cro_words_entry_reason says it; of what only a price can be, what is asked for
 * instead, in the field's currency. NULL: nothing is wrong, or nothing was typed. */
char *cro_words_price_reason (const char     *text,
                              const CroEntry *entry,
                              const char     *currency);

/* What is asked of a price, in millionths of its currency, that is ratio times the one before per
 * base unit: "is 19.20 meant?", where a decimal has probably slipped. NULL: nothing. */
char *cro_words_price_question (const char   *currency,
                                gint64        price,
                                double        ratio);

/* The same of an exchange rate, in millionths for so many, after one before it for one (cro-rate-doubt.h). */
char *cro_words_rate_question  (gint64        rate,
                                gint64        per,
                                double        before);

/* What a list of price movements, and one of what they do to plates and menus, is of: by whose recipes. Owned. */
char *cro_words_moved_prices   (CroBook      *book);
char *cro_words_moved_things   (CroBook      *book);

/* How an index of prices is made, and whose formula that is. Borrowed. */
const char *cro_words_price_index (void);

G_END_DECLS
