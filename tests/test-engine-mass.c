#include "near.h"
#include "random-book.h"

#include "cro-decimal.h"
#include "cro-mass.h"

#include <stdlib.h>

#define M(x) ((int64_t) ((x) * 1e6 + 0.5))
#define G CRO_UNIT_G
#define KG CRO_UNIT_KG
#define L CRO_UNIT_L
#define EACH CRO_UNIT_EACH
#define MAX_LINES 3

/* Each line takes an item of its own, costed in what its unit measures. */
typedef struct
{
  double  amount;
  CroUnit unit;
  double  yield, recovered;   /* per cent */
  double  density, piece;
  bool    is_disposable;
  double  trim_loss;          /* wanted, in grams */
} Takes;

static const struct
{
  const char *says;
  Takes       lines[MAX_LINES];
  size_t      n;
  double      input;          /* wanted, in grams; negative: there is none */
  size_t      n_lacking;
} batches[] = {
  { "a batch without lines weighs nothing", { { 0, G, 0, 0, 0, 0, false, 0 } }, 0, 0, 0 },
  { "what is trimmed is bought and never reaches the pot",
    { { 300, G, 75, 0, 0, 0, false, 100 } }, 1, 300, 0 },
  { "what is recovered leaves the pot again",
    { { 2, KG, 0, 90, 0, 0, false, 0 } }, 1, 200, 0 },
  { "volumes weigh their density, pieces their weight",
    { { 2, L, 0, 0, 0.9, 0, false, 0 }, { 10, EACH, 0, 0, 0, 60, false, 0 } }, 2, 2400, 0 },
  { "pieces are trimmed by an own yield",
    { { 10, EACH, 80, 0, 0, 60, false, 150 } }, 1, 600, 0 },
  { "disposables are no food",
    { { 1, KG, 0, 0, 0, 0, false, 0 }, { 9, EACH, 0, 0, 0, 0, true, NAN } }, 2, 1000, 0 },
  { "without a density there is no input",
    { { 1, KG, 0, 0, 0, 0, false, 0 }, { 1, L, 0, 0, 0, 0, false, NAN } }, 2, -1, 1 },
  { "every line that lacks something is told",
    { { 1, L, 0, 0, 0, 0, false, NAN }, { 1, KG, 0, 0, 0, 0, false, 0 },
      { 1, EACH, 0, 0, 0, 0, false, NAN } }, 3, -1, 2 },
  /* Basic Kitchen and Food Service Management (BCcampus 2015), Example 12. */
  { "Y2: 1750 g of tenderloin lose 750 g", { { 1750, G, 70, 0, 0, 0, false, 750 } }, 1, 1750, 0 },
};

static void
count_lacking (uint32_t line_slot,
               CroLack  lack,
               void    *count)
{
  expect ("a line that is told lacks something", lack != CRO_LACKS_NOTHING);
  (*(size_t *) count)++;
}

/* What is bought of a line, in grams, and does not reach the pot; NaN where it cannot be weighed. */
static double
trim_loss (const Book *book,
           size_t      line)
{
  const CroMeasure *item = &book->measure[book->lines.item[line]];
  CroLack lack;
  double brought = cro_line_grams (&book->lines, line, item, &lack);

  return lack == CRO_LACKS_NOTHING
             ? cro_line_charged (&book->lines, line, item) * item->grams[item->base] - brought
             : NAN;
}

static void
test_input (void **state)
{
  for (size_t i = 0; i < N_CASES (batches); i++)
    {
      Book *book = book_new (MAX_LINES, 1, MAX_LINES);
      size_t n_lacking = 0;
      double input;

      for (uint32_t k = 0; k < batches[i].n; k++)
        {
          const Takes *takes = &batches[i].lines[k];

          book_set_measure (book, k, cro_unit_get (takes->unit)->base, M (takes->density),
                            M (takes->piece));
          book->measure[k].is_food = !takes->is_disposable;
          book_add_line (book, 0, k, M (takes->amount), takes->unit);
          book->lines.yield[k] = (int32_t) M (takes->yield);
          book->lines.recovered[k] = (int32_t) M (takes->recovered);
          expect_near (batches[i].says, 1 + trim_loss (book, k), 1 + takes->trim_loss);
        }
      book_order (book, NULL);
      input = cro_mass_input (&book->graph, 0, &book->lines, book->measure, count_lacking,
                              &n_lacking);
      if (batches[i].input < 0)
        expect (batches[i].says, input < 0);
      else
        expect_near (batches[i].says, input, batches[i].input);
      expect (batches[i].says, n_lacking == batches[i].n_lacking);
      expect_near ("nobody need ask what is lacking",
                   cro_mass_input (&book->graph, 0, &book->lines, book->measure, NULL, NULL),
                   input);
      book_free (book);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_input),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
