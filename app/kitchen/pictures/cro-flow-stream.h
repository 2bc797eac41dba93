/* cro-flow-stream.h: what a plate, a preparation or a menu is made of, as a stream that can be drawn.
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

G_END_DECLS
