/* exact.h: the costing model in exact rational arithmetic, written a second time from its
 * description.
 *
 * All figures go by slots of items and rows: the engine's order plays no part. */
#pragma once

#include "book.h"
#include "rational.h"

#define EXACT_LINES 128
#define EXACT_ITEMS 64
#define EXACT_ROWS 16

typedef struct
{
  const Book     *book;
  mpq_ptr         charged[EXACT_LINES];
  mpq_ptr         finished[EXACT_ITEMS];
  mpq_ptr         used[EXACT_ITEMS];
  mpq_ptr         share[EXACT_ITEMS];
  mpq_ptr         fixed[EXACT_ITEMS];
  mpq_ptr         unit_cost[N_LAYERS][EXACT_ITEMS];
  mpq_ptr         row_cost[N_LAYERS][EXACT_ROWS];
  /* the largest term that enters the figure of the same name */
  double          unit_term[N_LAYERS][EXACT_ITEMS];
  double          row_term[N_LAYERS][EXACT_ROWS];
} Exact;

/* Costs a book with at most that many lines, items and rows. parts_first is an order of row
 * slots in which parts come before what uses them. Figures live in the pool of rationals. */
void exact_cost (Exact          *exact,
                 const Book     *book,
                 const uint32_t *parts_first);
