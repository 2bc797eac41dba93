/* Order, renumbering, fold and index of a book's lines.
 *
 * Beside     CXSparse with int32 indices, from triplets to compressed columns: cs_spalloc,
 *            cs_entry for every line (item, row, amount), cs_compress. It converts no unit,
 *            divides by no yield and finds no order; it is the price of merely gathering the
 *            lines by row.
 * Counted    From the lines as the store holds them, both sides fed in the same order.
 *            CXSparse's calls allocate and free what they work in; cro_graph_order and
 *            cro_lines_charged fill the caller's arrays, which a book keeps and orders again
 *            when a line asks for it. The second row is the first time: our side too
 *            allocates and frees everything in every round. */
#include "bench.h"
#include "synthetic.h"

#include <suitesparse/cs.h>

#include <stdlib.h>

typedef struct
{
  CroSynthetic book;
  CroRoll      roll;
} Bench;

static void
order (void *user_data)
{
  Bench *bench = user_data;

  cro_roll_order (&bench->roll, &bench->book);
}

static void
order_anew (void *user_data)
{
  Bench *bench = user_data;
  CroRoll roll;

  cro_roll_alloc (&roll, &bench->book);
  cro_roll_order (&roll, &bench->book);
  cro_roll_clear (&roll);
}

static void
compress (void *user_data)
{
  const CroSynthetic *book = &((Bench *) user_data)->book;
  const CroLines *lines = &book->lines;
  cs_di *triplets = cs_di_spalloc ((int) book->n_items, (int) book->n_rows, (int) lines->n, 1, 1);
  cs_di *matrix;

  for (size_t i = 0; i < lines->n; i++)
    cs_di_entry (triplets, (int) lines->item[i], lines->row[i], (double) lines->amount[i]);
  matrix = cs_di_compress (triplets);
  if (matrix == NULL || matrix->p[matrix->n] != (int) lines->n)
    abort ();
  cs_di_spfree (triplets);
  cs_di_spfree (matrix);
}

static const struct
{
  const char *title;
  size_t      n_lines, rounds, repeats;
} sizes[] = {
  { "10 thousand lines", 10000, 41, 20 },
  { "100 thousand lines", 100000, 41, 2 },
  { "1 million lines", 1000000, 21, 1 },
};

int
main (void)
{
  for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
    {
      size_t rounds = sizes[i].rounds, repeats = sizes[i].repeats;
      Bench bench;
      CroBenchPair pair;

      cro_synthetic_make (&bench.book, sizes[i].n_lines);
      cro_roll_alloc (&bench.roll, &bench.book);
      cro_bench_head (sizes[i].title);
      pair = cro_bench_pair (order, compress, &bench, rounds, repeats);
      cro_bench_row ("order, fold and index", pair.ours, "cs_entry, cs_compress", pair.reference,
                     pair.ratio, 1);
      pair = cro_bench_pair (order_anew, compress, &bench, rounds, repeats);
      cro_bench_row ("the same, the first time", pair.ours, "cs_entry, cs_compress",
                     pair.reference, pair.ratio, 1);
      cro_roll_clear (&bench.roll);
      cro_synthetic_clear (&bench.book);
    }
  return 0;
}
