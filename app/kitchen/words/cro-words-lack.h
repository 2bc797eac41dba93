/* cro-words-lack.h: what an amount lacks to be one of an item, where it stands. */
#pragma once

#include "cro-model.h"

G_BEGIN_DECLS

/* "no piece weight for Hake"; NULL: nothing. Owned. */
char *cro_words_lack (CroModel *model,
                      guint32   item,
                      gint64    amount,
                      CroUnit   unit);

G_END_DECLS
