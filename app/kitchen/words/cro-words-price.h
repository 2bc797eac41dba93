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

/* An example of a price as it may be typed: "9.20/kg", or "9.20" where it is of no unit. */
char *cro_words_price_example (gboolean        is_per_unit);

/* Of a price that was typed: that it is in another currency than this; that it is said to be with or without tax,
 * where the other is asked for. */
char *cro_words_price_currency (const char     *price,
                                const char     *currency);
char *cro_words_price_tax      (const char     *price,
                                CroTax          said);

/* That a text is no code of a currency. */
char *cro_words_no_currency    (const char     *code);

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

/* So many plates and menus whose figures change by less than what is shown of them. Owned. */
char *cro_words_moved_unseen   (guint         n);

/* How an index of prices is made, and whose formula that is. Borrowed. */
const char *cro_words_price_index (void);

G_END_DECLS
