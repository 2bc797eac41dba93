/* cro-flow-words.h: what a plate, a preparation or a menu is made of, in words.
 *
 * Ownership  Texts are the caller's, if nothing else is said. */
#pragma once

#include "cro-flow-stream.h"

G_BEGIN_DECLS

/* Whether a stream of it would show anything wide. */
gboolean   cro_flow_stream_shows (CroFigures      *figures,
                                  CroRef           thing,
                                  CroFlowMeasure   measure);

/* "Brown crab is 0.46 of at least 0.84; Trout roe 0.19"; NULL where nothing has a cost, or a weight. */
char      *cro_words_made_of     (CroFigures      *figures,
                                  CroRef           thing,
                                  CroFlowMeasure   measure);

/* What comes back and is used again, in words: "comes back: frying oil 480 g"; NULL: nothing. */
char      *cro_words_comes_back  (CroFigures      *figures,
                                  CroRef           thing);

/* What stands over the two ends. Borrowed. */
const char *cro_flow_stream_near (CroModel        *model,
                                  CroRef           thing);
const char *cro_flow_stream_far  (void);

G_END_DECLS
