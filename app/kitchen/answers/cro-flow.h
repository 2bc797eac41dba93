/* cro-flow.h: how money and weight flow through a guest's plate or menu, or a batch of a preparation:
 * what it is made of, step by step, down to what was bought.
 *
 * One reverse sweep over what stands below gives what each batch counts (cro-effects.h). A link is what
 * the nearer takes of the farther; what is lost, or goes to others, leaves: it is linked to what it leaves.
 * At every node but the thing itself what comes from the farther is what the nearer take and what leaves,
 * in money and in grams: nothing is counted twice or lost. Food alone flows; disposables stand beside it.
 * Both are those of cost: with the allowance for seasoning and handling, and the share of a batch that its
 * rule charges. So what the batch gives beyond what is taken of it goes to others, and where more is taken
 * of a by-product than that share of the batch gives, the rest comes from elsewhere.
 *
 * Units      Book currency and grams, for a guest of a plate or menu, for a batch of a preparation.
 * Ownership  A flow owns its arrays. */
#pragma once

#include "cro-figures.h"
#include "cro-ref.h"

G_BEGIN_DECLS

typedef enum
{
  CRO_FLOW_THING,       /* the first node */
  CRO_FLOW_PLATE,       /* slot is a recipe: of a menu */
  CRO_FLOW_BATCH,       /* slot is a recipe: one that gives several things */
  CRO_FLOW_MADE,        /* all others are of an item */
  CRO_FLOW_BOUGHT,
  CRO_FLOW_ELSEWHERE,   /* a by-product from batches of others, at its assigned value or for nothing */
  CRO_FLOW_GAIN,        /* weight that a batch takes on: water */
  CRO_FLOW_TRIM,        /* these leave */
  CRO_FLOW_PROCESS,     /* slot is a recipe: evaporated, left in the pan */
  CRO_FLOW_LOST,        /* the lost part of an output */
  CRO_FLOW_TO_OTHERS,   /* a by-product that others take, and what it is credited with */
  CRO_FLOW_SEASONING,   /* slot is a recipe: weight of the allowance */
} CroFlowKind;

typedef struct
{
  CroFlowKind kind;
  guint32     slot;
  double      money;        /* all that comes from farther, or of an end what it gives or takes */
  double      grams;
  gboolean    is_missing;   /* what it costs is not known */
  gboolean    is_weighed;   /* FALSE: grams are only what could be weighed */
} CroFlowNode;

typedef struct
{
  guint       nearer;
  guint       farther;
  guint32     line;         /* CRO_NO_SLOT: of no line, or of several */
  double      money;
  double      grams;        /* that reach the nearer */
} CroFlowLink;

/* Beside what flows. */
typedef struct
{
  guint32     item;
  double      money;        /* of a disposable */
  double      grams;        /* of what comes back and is used again */
} CroFlowAside;

typedef struct
{
  GArray     *nodes;        /* CroFlowNode */
  GArray     *links;        /* CroFlowLink; those of a row in the order of its lines */
  GArray     *disposables;  /* CroFlowAside, dearest first */
  GArray     *recovered;    /* CroFlowAside, of each line that has some */
} CroFlow;

/* thing: a plate, a preparation (CRO_REF_RECIPE) or a menu. */
CroFlow *cro_flow_new     (CroFigures  *figures,
                           CroRef       thing);
void     cro_flow_free    (CroFlow     *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroFlow, cro_flow_free)

/* Whether it falls away from what it is linked to. */
static inline gboolean
cro_flow_leaves (CroFlowKind kind)
{
  return kind >= CRO_FLOW_TRIM;
}

G_END_DECLS
