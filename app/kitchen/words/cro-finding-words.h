/* cro-finding-words.h: what is wrong in a book's file, as a sentence without its full stop. */
#pragma once

#include "cro-finding.h"

G_BEGIN_DECLS

/* Owned. */
char *cro_words_finding (const CroFinding *finding);

G_END_DECLS
