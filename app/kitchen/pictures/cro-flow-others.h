/* cro-flow-others.h: what is said of several ends of a stream that are drawn as one, and of its
 * scale.
 *
 * Units  Widths in the book's currency or in grams; minor units of the currency as they are shown. */
#pragma once

#include "cro-flow-stream.h"
#include "cro-known.h"

G_BEGIN_DECLS

/* An id of a stream's node is a kind above a number: a slot, a line, or of what leaves the number of its node. */
#define CRO_FLOW_KIND_SHIFT 48

static inline guint64
cro_flow_id (guint   kind,
             guint32 number)
{
  return (guint64) (kind + 1) << CRO_FLOW_KIND_SHIFT | number;
}

static inline guint
cro_flow_id_kind (guint64 id)
{
  return (guint) (id >> CRO_FLOW_KIND_SHIFT) - 1;
}

/* What is said to be known of a figure that is not all known: where nothing of it is shown, "at least 0.00" would tell
 * nobody anything. */
CroKnown cro_flow_known_shown (CroKnown known,
                               gboolean is_anything);

typedef struct _CroFlowOthers CroFlowOthers;

/* digits: of the currency. */
CroFlowOthers *cro_flow_others_new  (CroFlowMeasure   measure,
                                     int              digits);
void           cro_flow_others_free (gpointer         self);

/* minor: what is shown of its money; NULL: that is rounded of width. known: of it; of what adds nothing to a
 * sum, as nothing is known of it, CRO_KNOWN_AT_LEAST. */
void           cro_flow_others_note (CroFlowOthers   *self,
                                     guint64          id,
                                     double           width,
                                     const gint64    *minor,
                                     CroKnown         known);

/* As cro_stream_set_words calls these. Texts are owned by the caller. */
void           cro_flow_others_tell (const guint64   *ids,
                                     guint            n,
                                     char           **name,
                                     char           **figure,
                                     gpointer         self);

char          *cro_flow_others_scale (double          least,
                                     double         *width,
                                     gpointer         self);

G_END_DECLS
