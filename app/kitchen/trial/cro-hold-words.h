/* cro-hold-words.h: what would hold a target, as a row of a choice. Texts are the caller's. */
#pragma once

#include "cro-hold.h"

G_BEGIN_DECLS

/* "price of Hake: 20.15 per pack, now 20.00"; or why there is none. */
char *cro_hold_words     (CroBook       *book,
                          const CroHold *self);

/* Of the act: "price of Hake for the target". */
char *cro_hold_dup_label (CroBook       *book,
                          const CroHold *self);

G_END_DECLS
