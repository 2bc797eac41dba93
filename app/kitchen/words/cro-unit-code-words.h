/* cro-unit-code-words.h: the units of trade documents in words.
 *
 * Source  Names of UN/ECE Recommendations 20 and 21 (cro-unit-code.h). */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* "case", of several "cases"; "kg"; NULL: no code that is known. Borrowed. */
const char *cro_words_unit_code (const char *code,
                                 gulong      n);

G_END_DECLS
