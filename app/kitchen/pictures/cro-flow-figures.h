/* cro-flow-figures.h: money and grams of a flow as they are shown.
 *
 * Units      Book currency and grams; minor units of the currency where money is shown.
 * Ownership  Texts are the caller's. What is shown borrows all that it is made of. */
#pragma once

#include "cro-flow-stream.h"
#include "cro-known.h"

G_BEGIN_DECLS

typedef struct
{
  CroModel       *model;
  const CroFlow  *flow;
  CroFlowMeasure  measure;
  const double   *part;      /* of each node, of what is shown alone; NULL: all */
  const gint64   *minor;     /* money of each node, of those that make up the cost; NULL: none is apportioned */
} CroFlowShown;

static inline const CroFlowNode *
cro_flow_node (const CroFlow *flow,
               guint          i)
{
  return &g_array_index (flow->nodes, CroFlowNode, i);
}

/* Of the whole. */
double    cro_flow_total         (const CroFlow      *flow,
                                  CroFlowMeasure      measure);

gboolean  cro_flow_makes_up_cost (CroFlowKind         kind);

/* What was bought adds up to the cost as it is shown. minor: [nodes], all 0. */
void      cro_flow_apportion     (const CroFlow      *flow,
                                  int                 digits,
                                  gint64             *minor);

/* Of a node, in the measure that is shown. */
double    cro_flow_size          (const CroFlowShown *shown,
                                  guint               node);

char     *cro_flow_amount_text   (const CroFlowShown *shown,
                                  double              amount);

/* As it is shown; what is less than the least that can be shown is not nothing. */
char     *cro_flow_money_text    (const CroFlowShown *shown,
                                  gint64              minor,
                                  double              money);

/* How much of it is known; what that is; and both in short. */
CroKnown  cro_flow_node_known    (const CroFlowShown *shown,
                                  guint               node);
char     *cro_flow_node_plain    (const CroFlowShown *shown,
                                  guint               node);
char     *cro_flow_node_text     (const CroFlowShown *shown,
                                  guint               node);

G_END_DECLS
