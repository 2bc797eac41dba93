/* cro-flow-stream.h: what a plate, a preparation or a menu is made of, as a stream that can be drawn,
 * and in words.
 *
 * Money is that of food, as "What moves it" has it; disposables stand apart, and are not food. Figures
 * are rounded so that they add up to the cost as it is shown.
 *
 * Ownership  Streams and texts are the caller's; a stream holds nothing of the book. */
#pragma once

#include "cro-flow.h"
#include "cro-stream.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_FLOW_MONEY,
  CRO_FLOW_WEIGHT,
} CroFlowMeasure;

/* only: ids of what was bought (cro_stream_dup_ids), 0 at the end: nothing but these flow; NULL: all. */
CroStream *cro_flow_stream_new   (CroFigures      *figures,
                                  CroRef           thing,
                                  CroFlowMeasure   measure,
                                  const guint64   *only);

/* What an id stands for, to be opened; CRO_REF_NOWHERE: nothing that could be. */
CroRef     cro_flow_stream_ref   (CroModel        *model,
                                  guint64          id);

/* The id of a line's component, and of a disposable's, which stands beside what is eaten. */
guint64    cro_flow_stream_line  (guint32          line);
guint64    cro_flow_stream_apart (guint32          item);

/* Whether a stream of it would show anything wide. */
gboolean   cro_flow_stream_shows (CroFigures      *figures,
                                  CroRef           thing,
                                  CroFlowMeasure   measure);

/* "Brown crab is 0.46 of at least 0.84; Trout roe 0.19"; NULL where nothing has a cost, or a weight. */
char      *cro_words_made_of     (CroFigures      *figures,
                                  CroRef           thing,
                                  CroFlowMeasure   measure);

/* A round width for a bar beside a stream of so much, and its text. */
char      *cro_flow_stream_scale (CroModel        *model,
                                  CroFlowMeasure   measure,
                                  double           total,
                                  double          *width);

/* What comes back and is used again, in words: "comes back: frying oil 480 g"; NULL: nothing. */
char      *cro_words_comes_back  (CroFigures      *figures,
                                  CroRef           thing);

/* What stands over the two ends. Borrowed. */
const char *cro_flow_stream_near (CroModel        *model,
                                  CroRef           thing);
const char *cro_flow_stream_far  (void);

G_END_DECLS
