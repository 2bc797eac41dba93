/* cro-refused-words.h: what a field says where the book refuses what was typed: a sentence of its own, which elsewhere
 * follows the name of a program or of a file.
 *
 * Ownership  Texts returned are the caller's. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* As cro_words_error has it, with its capital and its full stop; where nothing was typed, what to do. */
char *cro_words_refused       (const GError *error);

/* The same in a form that makes a thing, whose name was not typed. */
char *cro_words_refused_name  (const GError *error);

G_END_DECLS
