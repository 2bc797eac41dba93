/* cro-yield-words.h: what is asked of the tests behind a yield. */
#pragma once

#include "cro-yield-test.h"

G_BEGIN_DECLS

/* Of the first of tests that is doubtful: grams where the others are kilograms weigh nothing in what
 * they come to; more usable than was bought, unless the item may grow. NULL: of none. Owned. */
char *cro_words_yield_question (GArray   *tests,
                                gboolean  may_grow);

G_END_DECLS
