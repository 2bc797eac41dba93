/* cro-refused-words.h: what went wrong as a sentence of its own, in the window; elsewhere it follows the name of a
 * program or of a file.
 *
 * Ownership  Texts returned are the caller's. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* As cro_words_error has it, with its capital and its full stop. */
char *cro_words_failed        (const GError *error);

/* The same beside the field whose text the book refuses: where nothing was typed, what to do. */
char *cro_words_refused       (const GError *error);

/* The same in a form that makes a thing, whose name was not typed. */
char *cro_words_refused_name  (const GError *error);

G_END_DECLS
