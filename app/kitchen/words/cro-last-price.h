/* cro-last-price.h: words for what is not to be had, and whose last price stays in use. */
#pragma once

#include "cro-book.h"

G_BEGIN_DECLS

/* "last price, not to be had since 2026-11-26"; NULL where a price is in force, or none ever was.
 * Owned. */
char       *cro_words_last_price (CroFigures *figures,
                                  guint32     item);

/* Instead of a price. Borrowed. */
const char *cro_words_not_to_be_had (void);

/* Whether that is what was typed for a price: a dash alone. */
gboolean    cro_text_is_not_to_be_had (const char *text);

G_END_DECLS
