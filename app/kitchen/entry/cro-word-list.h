/* cro-word-list.h: whether a text begins with one of a list of words, however it is written.
 *
 * Case, accents, full stops and the space between words do not matter: "C. à S.", "c à s" and
 * "cas" are one. A list has its words in small letters without accents, with | between them. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Bytes of the longest of the words that text begins with; 0 where it begins with none. */
gsize    cro_word_list_scan (const char *text,
                             const char *words);

/* The letter with which a text begins, as one bit, and those with which the words of a list do: who looks for many
 * lists in one text passes over those that have none of it. */
guint32  cro_word_initial       (const char *text);
guint32  cro_word_list_initials (const char *words);

/* Whether a word of a unit can end before this: the "l" of "l'ail" is none. */
gboolean cro_word_ends      (const char *at);

G_END_DECLS
