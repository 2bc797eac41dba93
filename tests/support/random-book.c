#include "random-book.h"

#include "cro-decimal.h"

#include <stdlib.h>

/* xorshift64*, which needs no library and is the same everywhere. */
static uint64_t
next (uint64_t *state)
{
  *state ^= *state >> 12;
  *state ^= *state << 25;
  *state ^= *state >> 27;
  return *state * UINT64_C (2685821657736338717);
}

uint64_t
random_below (uint64_t *state,
              uint64_t  n)
{
  return (next (state) >> 11) % n;
}

static bool
one_in (uint64_t *state,
        uint64_t  n)
{
  return random_below (state, n) == 0;
}

static int64_t
between (uint64_t *state,
         int64_t   low,
         int64_t   high)
{
  return low + (int64_t) random_below (state, (uint64_t) (high - low + 1));
}

static uint32_t *
permutation (uint64_t *state,
             size_t    n)
{
  uint32_t *order = malloc ((n + 1) * sizeof *order);

  for (size_t i = 0; i < n; i++)
    {
      size_t k = random_below (state, i + 1);

      order[i] = order[k];
      order[k] = (uint32_t) i;
    }
  return order;
}

static CroUnit
random_unit (uint64_t *state)
{
  return (CroUnit) random_below (state, CRO_N_UNITS);
}

static void
measure_item (Book             *book,
              uint64_t         *state,
              const RandomSize *size,
              uint32_t          item,
              CroBase           base)
{
  bool knows_density = size->knows_all || !one_in (state, 8);
  bool knows_piece = size->knows_all || !one_in (state, 8);

  book_set_measure (book, item, base, knows_density ? between (state, 300000, 2000000) : 0,
                    knows_piece ? between (state, 500000, 900000000) : 0);
}

static void
add_raw (Book             *book,
         uint64_t         *state,
         const RandomSize *size,
         uint32_t          item)
{
  measure_item (book, state, size, item, (CroBase) random_below (state, 3));
  book->measure[item].is_food = !one_in (state, 5);
  if (!one_in (state, 3))
    book->measure[item].trim_yield = (int32_t) between (state, 5000000, 250000000);
  if (!one_in (state, 10))
    book->price[item] = between (state, 1, 2000000);
}

static void
add_output (Book             *book,
            uint64_t         *state,
            const RandomSize *size,
            uint32_t          item,
            int32_t           row)
{
  CroUnit unit = random_unit (state);
  CroOutput *output = &book->output[item];

  measure_item (book, state, size, item, cro_unit_get (unit)->base);
  book_set_output (book, item, row, unit, between (state, 1000, 5000000000));
  if (unit < CRO_UNIT_ML && one_in (state, 2))
    {
      output->amount = 0;
      output->yield = between (state, 1000000, 300000000);
    }
  else if (!size->knows_all && one_in (state, 12))
    output->amount = 0;
  output->has_value = size->knows_all || !one_in (state, 8);
  if (output->has_value)
    output->value = one_in (state, 12) && !size->knows_all ? 0 : between (state, 1, 40000000);
  if (one_in (state, 3))
    output->lost = between (state, 0, CRO_WHOLE_PCT - 1);
}

static void
add_line (Book     *book,
          uint64_t *state,
          int32_t   row,
          uint32_t  item)
{
  size_t i = book_add_line (book, row, item, between (state, 1, 3000000000), random_unit (state));
  CroLines *lines = &book->lines;

  lines->position[i] = between (state, 0, 9) * CRO_MICRO;
  lines->whole[i] = one_in (state, 4);
  if (!lines->whole[i] && one_in (state, 4))
    lines->yield[i] = (int32_t) between (state, 5000000, 400000000);
  if (one_in (state, 5))
    lines->recovered[i] = (int32_t) between (state, 0, CRO_WHOLE_PCT - 1);
}

/* first[r]: where the outputs of row slot r begin; a row without any is a plate. */
static size_t *
count_outputs (uint64_t         *state,
               const RandomSize *size,
               size_t            n_rows)
{
  size_t *first = malloc ((n_rows + 1) * sizeof *first);

  first[0] = 0;
  for (size_t r = 0; r < n_rows; r++)
    first[r + 1] = first[r] + random_below (state, size->max_outputs + 1);
  return first;
}

/* Lines of all rows; a row takes raws and outputs of rows that come before it. The slots of
 * outputs stand first, so that raws are numbered anew. */
static void
add_lines (Book             *book,
           uint64_t         *state,
           const RandomSize *size,
           const uint32_t   *order,
           const size_t     *first)
{
  uint32_t *usable = malloc ((book->n_items + 1) * sizeof *usable);
  size_t n = 0;

  for (size_t i = first[book->n_rows]; i < book->n_items; i++)
    usable[n++] = (uint32_t) i;
  for (size_t k = 0; k < book->n_rows; k++)
    {
      uint32_t row = order[k];

      for (size_t l = 1 + random_below (state, size->max_lines); l > 0; l--)
        {
          /* Half of the lines go to the newest parts: books are deep. */
          size_t from = one_in (state, 2) && n > 4 ? n - 4 : 0;

          add_line (book, state, (int32_t) row, usable[from + random_below (state, n - from)]);
        }
      for (size_t i = first[row]; i < first[row + 1]; i++)
        usable[n++] = (uint32_t) i;
    }
  free (usable);
}

/* Lines of different rows come in any order. */
static void
shuffle_lines (Book     *book,
               uint64_t *state)
{
  CroLines *lines = &book->lines;

#define SWAP(column, i, k) \
  do \
    { \
      int64_t kept = (int64_t) lines->column[i]; \
      lines->column[i] = lines->column[k]; \
      lines->column[k] = (__typeof__ (*lines->column)) kept; \
    } \
  while (0)
  for (size_t i = 1; i < lines->n; i++)
    {
      size_t k = random_below (state, i + 1);

      SWAP (row, i, k);
      SWAP (item, i, k);
      SWAP (position, i, k);
      SWAP (amount, i, k);
      SWAP (yield, i, k);
      SWAP (recovered, i, k);
      SWAP (unit, i, k);
      SWAP (whole, i, k);
    }
#undef SWAP
}

Book *
random_book_new (uint64_t         *state,
                 const RandomSize *size,
                 uint32_t        **parts_first)
{
  size_t n_rows = 1 + random_below (state, size->max_rows);
  size_t n_raws = 1 + random_below (state, size->max_raws);
  size_t *first = count_outputs (state, size, n_rows);
  uint32_t *order = permutation (state, n_rows);
  Book *book = book_new (first[n_rows] + n_raws, n_rows, n_rows * size->max_lines);

  book->wage = between (state, 8000000, 40000000);
  for (size_t r = 0; r < n_rows; r++)
    {
      book->rule[r] = (CroRule) random_below (state, 4);
      book->minutes[r] = one_in (state, 3) ? 0 : between (state, 1, 240000000);
      for (size_t i = first[r]; i < first[r + 1]; i++)
        add_output (book, state, size, (uint32_t) i, (int32_t) r);
    }
  for (size_t i = first[n_rows]; i < book->n_items; i++)
    add_raw (book, state, size, (uint32_t) i);
  add_lines (book, state, size, order, first);
  shuffle_lines (book, state);
  book_order (book, NULL);
  book_settle (book);

  free (first);
  if (parts_first != NULL)
    *parts_first = order;
  else
    free (order);
  return book;
}
