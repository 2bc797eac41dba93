/* cro-figures.h: all costs of a book on a date, kept up as its values change.
 *
 * Compiled from the model: the graph, the shares of outputs, the offer in use of every
 * ingredient; then food, disposables and labour rolled up. After a changed value only what
 * depends on it is computed anew, to the same bits.
 *
 * Units      Book currency, per base unit of an item, per batch of a row.
 * Ownership  The model is borrowed and must outlive the figures. */
#pragma once

#include "cro-model.h"
#include "cro-sweep.h"

G_BEGIN_DECLS

#define CRO_NO_DAY G_MININT32

typedef enum
{
  CRO_LAYER_FOOD,
  CRO_LAYER_DISPOSABLES,
  CRO_LAYER_LABOUR,
  CRO_N_LAYERS,
} CroLayerId;

typedef struct
{
  CroModel *model;
  CroDate   date;

  CroGraph  graph;
  double   *share;            /* by node */
  double   *fixed;            /* by node: what credits give and take, in the food layer */
  double   *labour;           /* by row: active minutes times wage */
  CroLayer  layers[CRO_N_LAYERS];

  guint64  *own_row_bits;     /* CroReach, before the sweep */
  guint64  *own_node_bits;
  guint64  *row_bits;
  guint64  *node_bits;
  guint64  *served_rows;      /* bit sets: what reaches a plate */
  guint64  *served_nodes;

  guint32  *offer_in_use;     /* by item slot: offer slot or CRO_NO_SLOT */
  gint32   *last_price;       /* by item slot: since when it is costed at its last price, as none is to
                                 be had; CRO_NO_DAY where it is not */
  guint8   *offer_lacks;      /* by item slot: CroOfferLack of an ingredient without a cost */

  guint64  *dirty[CRO_N_LAYERS];
  gboolean  bits_moved;
  gsize     visited[CRO_N_LAYERS]; /* lines visited by marking since the last settling */

  /* Workspace of traces and walks; zeros between calls. */
  double   *effect;
  double   *row_effect;
  guint64  *credits;          /* bits by row: those that may credit more than they cost */
  guint64  *summed;           /* likewise: those whose food was summed since that was compared */
  guint64  *seen_rows;
  guint64  *seen_nodes;

  gsize     allocated_items, allocated_rows, allocated_lines;
} CroFigures;

CroFigures *cro_figures_new          (CroModel   *model,
                                      CroDate     date);
void        cro_figures_free         (CroFigures *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CroFigures, cro_figures_free)

/* A twin of figures for one more thread: all results are those of the other, which must outlive it
 * and be neither changed nor settled meanwhile; only the workspace is its own. */
CroFigures *cro_figures_new_twin     (const CroFigures *of);
void        cro_figures_free_twin    (CroFigures *self);

/* Computes everything from the model. Returns NULL, or the names of the items on a cycle of
 * preparations, first to last and the first again; figures are undefined then. */
GPtrArray  *cro_figures_compile      (CroFigures *self);

/* Chooses the offers of every ingredient anew (another date, other rates or settings) and
 * sweeps. */
void        cro_figures_reprice      (CroFigures *self,
                                      CroDate     date);

/* Notes that an ingredient's offers, any value of an item, or any of a recipe moved; nothing is summed before
 * cro_figures_settle, which returns the number of lines visited. */
void        cro_figures_touch_price  (CroFigures *self,
                                      guint32     ingredient);
void        cro_figures_touch_item   (CroFigures *self,
                                      guint32     item);
void        cro_figures_touch_recipe (CroFigures *self,
                                      guint32     recipe);
gsize       cro_figures_settle       (CroFigures *self);

static inline guint32
cro_figures_node (const CroFigures *self,
                  guint32           item)
{
  return self->graph.node_of_item[item];
}

static inline guint32
cro_figures_row (const CroFigures *self,
                 guint32           recipe)
{
  return self->graph.row_of_slot[recipe];
}

/* Unit cost of an item in the food layer, of a disposable its own price; NaN where nothing
 * is known. */
double      cro_figures_unit_cost    (const CroFigures *self,
                                      guint32           item);

/* The finished amount and shares of every output of a recipe, main first: what
 * cro_batch_share made of them. Returns how many; *outputs is an array of item slots. */
guint32     cro_figures_outputs      (const CroFigures  *self,
                                      guint32            recipe,
                                      const guint32    **outputs);

/* Whether the by-products of a row are credited with more than its batch costs, which is known. */
gboolean    cro_figures_credit_exceeds (const CroFigures *self,
                                        guint32           row);

/* Whether an item stands in some plate, by whatever way. */
static inline gboolean
cro_figures_is_served (const CroFigures *self,
                       guint32           item)
{
  guint32 node = cro_figures_node (self, item);

  return self->served_nodes[node / 64] >> (node % 64) & 1;
}

/* Clears seen_rows and seen_nodes after a walk. */
void        cro_figures_forget_seen  (CroFigures        *self);

G_END_DECLS
