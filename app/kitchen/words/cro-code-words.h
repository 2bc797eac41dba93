/* cro-code-words.h: the codes of cro-code.h as people read them, in both programs. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* "by weight" for "weight"; the text itself where it is no code. Borrowed. */
const char  *cro_code_word      (const char        *code);

/* The words of a whole set, in its order; NULL-terminated. The array is the caller's to g_free, its
 * words are not. */
const char **cro_code_dup_words (const char *const *codes);

G_END_DECLS
