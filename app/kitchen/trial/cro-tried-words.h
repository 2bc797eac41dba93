/* cro-tried-words.h: what was tried, as a sentence. */
#pragma once

#include "cro-tried.h"

G_BEGIN_DECLS

/* "White meat in Crab croustade: 240 g → 200 g". As cro_tried_list has it of the trial. Owned. */
char *cro_tried_words (CroBook        *trial,
                       const CroTried *self);

G_END_DECLS
