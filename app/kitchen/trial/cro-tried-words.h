/* cro-tried-words.h: what was tried, as a sentence. */
#pragma once

#include "cro-tried.h"

G_BEGIN_DECLS

/* What something is about that cannot be tried now, as a row of it is gone from the book: "White meat in
 * Crab croustade". Owned. */
char *cro_tried_left_words (CroBook        *book,
                            const CroTried *self);

/* Of many of them, behind each other. Owned. */
char *cro_tried_all_words (CroBook   *trial,
                           GPtrArray *tried);
char *cro_tried_all_left_words (CroBook   *book,
                                GPtrArray *tried);

/* What a column of a row holds in the book that it is a trial of, in words; NULL: the same, or no such row.
 * Of the price and the tax of a plate or a menu what is in force. Owned. */
char *cro_tried_dup_old (CroBook        *trial,
                         const char     *table,
                         gint64          id,
                         const char     *column);

G_END_DECLS
