/* cro-isolate.h: names inside of sentences, whichever way they run.
 *
 * A name that runs from right to left, or holds a mark that turns what follows it, must not turn
 * the figures beside it; nor a name in Latin letters those of a sentence that runs the other way.
 *
 * Ownership  Texts are the caller's.
 * Source     Unicode Standard Annex 9, 6.3: first strong isolate, pop directional isolate. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The name as it stands in a sentence: isolated where the two directions could meet. */
char *cro_isolate        (const char *name);

/* A sentence as g_strdup_printf () makes it, of at most eight %s and nothing else: each text that is
 * put into it is isolated, and the word before it shortened where the language does so. */
char *cro_isolate_printf (const char *format,
                          ...) G_GNUC_PRINTF (1, 2);

/* The word at the end of text, as it is before a name that begins with a vowel: "price of " is left alone, "prix de "
 * becomes "prix d’". words: each with its short form, "de d’ que qu’"; "none": nothing is shortened. An h is no vowel:
 * whether it is heard nobody knows. */
void  cro_isolate_shorten (GString    *text,
                          const char *name,
                          const char *words);

/* Adds a name to a list of them in a sentence. */
void  cro_isolate_append (GString    *list,
                          const char *name);

G_END_DECLS
