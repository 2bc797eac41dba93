/* cro-reach.h: what is true of anything that stands below: allergens, what is not known.
 *
 * Every node and row carries a set of bits; a row has its own and those of all its parts, an
 * output those of its row and its own. Reach goes through lines whatever they charge: an oil
 * that comes back whole leaves its allergens, a by-product that carries no cost is still
 * made from what is not known.
 *
 * Ownership  The caller owns every array; walks keep their place in the caller's arrays. */
#pragma once

#include "cro-allergen.h"
#include "cro-graph.h"

typedef enum
{
  /* bits 0 .. 13: allergens; 14: CRO_ALLERGENS_NOT_KNOWN */
  CRO_REACH_INCOMPLETE = 1 << 15,  /* some cause of costing.md's list stands below */
  CRO_REACH_ASSUMED = 1 << 16,     /* a yield of 1 is assumed below */
  CRO_REACH_CREDIT = 1 << 17,      /* of a row's own: an assigned value is credited; of what is
                                      reached: one is, between here and something incomplete */
  CRO_REACH_DOUBT = 1 << 18,       /* a batch below has an output that nothing takes */
  CRO_REACH_LAST_PRICE = 1 << 19,  /* an ingredient below is costed at its last price */
  CRO_REACH_EXCEEDED = 1 << 20,    /* a batch below is credited with more than it costs */
  CRO_REACH_FOOD_OPEN = 1 << 21,   /* the known food below is not all of it: a wage that is missing
                                      leaves it whole, and so does a credit, however large */
} CroReach;

/* Allergens that may be contained, as labels warn of traces: bits 32 .. 45. */
#define CRO_REACH_MAY_CONTAIN_SHIFT 32
#define CRO_REACH_MAY_CONTAIN ((uint64_t) CRO_ALLERGENS_ALL << CRO_REACH_MAY_CONTAIN_SHIFT)

/* node_bits: [n_items] in: each node's own; out for outputs: those of their row added.
 * row_bits: [n_rows] in: each row's own; out: those of its parts added. */
void cro_reach_sweep (const CroGraph *graph,
                      uint64_t       *node_bits,
                      uint64_t       *row_bits);

/* The other way: marks in node_set and row_set (bit sets of [n / 64 + 1] words, cleared here)
 * everything that a row of ends reaches: the ends, what they take, and what gives it. ends is
 * such a set of rows, of plates say. */
void cro_reach_down  (const CroGraph *graph,
                      const uint64_t *ends,
                      uint64_t       *row_set,
                      uint64_t       *node_set);

typedef void (*CroReachVisit) (uint32_t index, void *user_data);

/* Visits every row and node below the rows marked in seen_rows that has one of bits, the
 * marked rows too: each once, a row before its parts and after all rows that use what it
 * makes. seen_rows and seen_nodes are bit sets of [n / 64 + 1] words; on return they mark
 * what was passed, for the caller to clear. */
void cro_reach_walk  (const CroGraph *graph,
                      const uint64_t *node_bits,
                      const uint64_t *row_bits,
                      uint64_t        bits,
                      uint64_t       *seen_rows,
                      uint64_t       *seen_nodes,
                      CroReachVisit   visit_row,
                      CroReachVisit   visit_node,
                      void           *user_data);
