/* cro-name.h: the one form in which names are kept and compared.
 *
 * A name is trimmed of white space and of characters without width that only say where a line may
 * break (U+200B, U+2060, U+FEFF), and put in Unicode NFC, so that the same word from two keyboards is
 * the same name. What stands inside stays: names are matched exactly.
 *
 * Errors     None; text must be valid UTF-8. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Owned. */
char    *cro_name_dup_tidy     (const char *text);

/* Trims text of length bytes and a NUL in place; returns where the name begins in it. */
char    *cro_name_trim         (char       *text,
                                gsize       length);

/* TRUE if text is in NFC for sure, without looking anything up. */
gboolean cro_name_is_composed  (const char *text);

/* Whether two tidied names are one but for upper and lower case. What is in the book may bear both; who types
 * one of them means the other. */
gboolean cro_name_is_same_word (const char *a,
                                const char *b);

G_END_DECLS
