/* cro-sentence.h: what elsewhere follows other words, as a sentence of its own. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* With its capital, and with its full stop where it ends in none of . ? !; NULL of NULL. Owned. */
char *cro_sentence_alone (const char *text);

G_END_DECLS
