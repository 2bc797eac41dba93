/* cro-plan.h: what a service runs, and takes of what is bought.
 *
 *   need of an item = sum over plates (1 + w) q covers servings n / M
 *                     + sum over preparations that run (batches q)
 *   needed = max (0, need - what is in the house already)
 *   r = max over a preparation's outputs of needed / (Q (1 - l))
 *   batches = ceil (r / s - 1e-9) s, s being its smallest part; without one, exactly r
 *   needed of an ingredient = max (0, max (need, largest single batch's a / y) - in the house)
 *   packs = needed / pack, whole ones;  left = batches Q (1 - l) - needed,  packs pack - needed
 *
 * A batch is a preparation's: the largest single one is 1 where r is more, else r, whatever its
 * smallest part makes of that. A frying oil must fill that pan, though most of it comes back. Lines
 * of a plate are charged, and fill no pan of their own.
 *
 * Source     A net requirement is gross requirement less what is in stock, exploded level by level
 *            from what is served to what is bought, lots rounded up at each level: material
 *            requirements planning as textbooks of operations management have it (from memory).
 *            A purchase is the edible portion over the yield, rounded up to the pack (culinary
 *            mathematics; worked examples in the test).
 * Units      Base units of each item; rows in batches; plates in times their lines are taken.
 * Ownership  Every array is the caller's; nothing is allocated or kept, nothing recurses.
 * Errors     What cannot be known adds nothing and is marked (CroPlanMark): a line that cannot be
 *            converted, an output whose finished amount is not known. */
#pragma once

#include "cro-graph.h"

/* What one whole batch of a preparation fills with an ingredient of which some comes back. */
typedef struct
{
  uint32_t row;
  uint32_t node;
  double   filled;          /* sum of a / y over the batch's lines */
} CroPan;

typedef struct
{
  const double  *times;     /* [n_rows] of plates: (1 + w) covers servings n / M; 0 of preparations */
  const int64_t *smallest;  /* [n_rows] of preparations, millionths of a batch; 0: any part */
  const double  *used;      /* [n_items] by node: Q (1 - l) of outputs; 0: not known */
  const double  *in_house;  /* [n_items] by node */
  const CroPan  *pans;
  size_t         n_pans;
} CroPlanSource;

typedef struct
{
  double *need;             /* [n_items] before what is in the house is taken off */
  double *pan;              /* [n_items] of raws: the largest single batch's a / y; 0 where nothing of
                               it comes back, as need is then as much at least */
  double *runs;             /* [n_rows] r; of plates their times */
  double *batches;          /* [n_rows] likewise */
} CroPlan;

/* The pans of a book, which hang on nothing that is planned. Returns how many; pans has room for
 * them, or is NULL. of_batch: [n_items] workspace of zeros, and again on return. lines are those
 * that were folded into the graph. */
size_t cro_plan_find_pans (const CroGraph      *graph,
                           const CroLines      *lines,
                           double              *of_batch,
                           CroPan              *pans);

void   cro_plan_run     (const CroGraph      *graph,
                         const CroPlanSource *source,
                         CroPlan             *plan);

/* What is known of a need. */
typedef enum
{
  CRO_PLAN_TAKEN = 1 << 0,      /* something that is planned takes it */
  CRO_PLAN_AT_LEAST = 1 << 1,   /* what cannot be known adds to it */
  CRO_PLAN_AT_MOST = 1 << 2,    /* more of it, or of what takes it, may be in the house */
} CroPlanMark;

/* Marks rows and nodes of a plan. node_marks: in, AT_MOST where what is in the house cannot be
 * converted and 0 elsewhere. measures by item slot. */
void   cro_plan_mark    (const CroGraph      *graph,
                         const CroLines      *lines,
                         const CroMeasure    *measures,
                         const CroPlanSource *source,
                         uint8_t             *row_marks,
                         uint8_t             *node_marks);

/* How deep rows stand above what is bought: what is made has a lower number than what takes it,
 * so rising numbers are an order of making. depth: [n_rows]. */
void   cro_plan_depths  (const CroGraph      *graph,
                         uint32_t            *depth);

/* What is lacking of a need. */
static inline double
cro_plan_needed (double need,
                 double in_house)
{
  return need > in_house ? need - in_house : 0;
}

/* Whole packs that hold what is needed, after 1e-9 of a pack, or of less than one, is allowed for;
 * pack > 0. */
double cro_plan_packs   (double               needed,
                         double               pack);

/* What is there and not needed: 0 within 1e-9 of what is there. */
double cro_plan_left    (double               there,
                         double               needed);
