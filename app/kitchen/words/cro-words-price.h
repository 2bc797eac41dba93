/* cro-words-price.h: what is said of a text that was to be a price.
 *
 * Ownership  Texts returned are the caller's. */
#pragma once

#include "cro-entry.h"

G_BEGIN_DECLS

/* Why it is none, as cro_words_entry_reason says it; of what only a price can be, what is asked for
 * instead, in the field's currency. NULL: nothing is wrong, or nothing was typed. */
char *cro_words_price_reason (const char     *text,
                              const CroEntry *entry,
                              const char     *currency);

G_END_DECLS
