/* random-book.h: generated books, always the same for the same seed.
 *
 * Every unit, every by-product rule, several outputs, yields, recovered parts, finished
 * amounts measured and by yield, disposables, minutes; and in some books what is not known:
 * densities, piece weights, amounts, values. */
#pragma once

#include "book.h"

typedef struct
{
  size_t max_raws;
  size_t max_rows;
  size_t max_outputs;  /* of one row */
  size_t max_lines;    /* of one row */
  bool   knows_all;    /* nothing is missing */
} RandomSize;

/* A number below n; *state moves on. */
uint64_t random_below    (uint64_t         *state,
                          uint64_t          n);

/* Ordered and settled. *parts_first, if wanted, is an order of row slots in which parts come
 * before what uses them, known without the engine; free() it. */
Book    *random_book_new (uint64_t         *state,
                          const RandomSize *size,
                          uint32_t        **parts_first);
