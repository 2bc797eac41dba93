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
          expect_near (batches[i].says,
                       1 + cro_mass_trim_loss (&book->lines, k, &book->measure[k]),
                       1 + takes->trim_loss);
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

static const struct
{
  const char *says;
  double      input;
  struct { double finished; CroBase base; double density, piece; } outputs[2];
  size_t      n;
  double      loss;
} losses[] = {
  { "what goes in and does not come out is lost",
    1000, { { 600, CRO_BASE_GRAM, 0, 0 }, { 150, CRO_BASE_GRAM, 0, 0 } }, 2, 250 },
  { "soaked pulses gain", 1000, { { 2200, CRO_BASE_GRAM, 0, 0 } }, 1, -1200 },
  { "volumes and pieces weigh too",
    1000, { { 500, CRO_BASE_MILLILITRE, 0.9, 0 }, { 10, CRO_BASE_EACH, 0, 50 } }, 2, 50 },
  { "a batch that gives nothing loses all of it",
    1000, { { 0, CRO_BASE_GRAM, 0, 0 } }, 0, 1000 },
  { "none of what cannot be weighed", -1, { { 600, CRO_BASE_GRAM, 0, 0 } }, 1, NAN },
  { "none without a finished amount", 1000, { { 0, CRO_BASE_GRAM, 0, 0 } }, 1, NAN },
  { "none without a density", 1000, { { 600, CRO_BASE_MILLILITRE, 0, 0 } }, 1, NAN },
  { "none without a piece weight", 1000, { { 6, CRO_BASE_EACH, 1, 0 } }, 1, NAN },
  /* B. Lowe, Experimental Cookery: veal roasts of 107 lb 2 oz cook to 76 lb 1 oz. */
  { "Y28: veal roasts lose 31 lb 1 oz in the oven", 107.125 * 453.59237,
    { { 76.0625 * 453.59237, CRO_BASE_GRAM, 0, 0 } }, 1, 31.0625 * 453.59237 },
};

static void
test_process_loss (void **state)
{
  for (size_t i = 0; i < N_CASES (losses); i++)
    {
      CroOutput outputs[2];
      CroMeasure measures[2];

      for (size_t k = 0; k < losses[i].n; k++)
        {
          outputs[k] = (CroOutput){ .finished = losses[i].outputs[k].finished };
          measures[k] = cro_measure_make (losses[i].outputs[k].base, losses[i].outputs[k].density,
                                          losses[i].outputs[k].piece);
        }
      expect_near (losses[i].says,
                   cro_mass_process_loss (losses[i].input, outputs, measures, losses[i].n),
                   losses[i].loss);
    }
}

static void
test_lost (void **state)
{
  static const struct
  {
    const char *says;
    double      amount;
    CroUnit     unit;
    double      density, lost, grams;
  } lost[] = {
    { "a tenth of 500 g left in the bag", 500, G, 0, 10, 50 },
    { "volumes weigh their density", 2, L, 0.9, 25, 450 },
    { "nothing is lost of what has no lost part", 500, G, 0, 0, 0 },
    { "what cannot be weighed loses nothing that can", 2, L, 0, 25, NAN },
    { "nor does what has no finished amount", 0, G, 0, 25, NAN },
  };

  for (size_t i = 0; i < N_CASES (lost); i++)
    {
      CroOutput output = { .unit = lost[i].unit, .amount = M (lost[i].amount),
                           .lost = M (lost[i].lost) };
      CroMeasure measure
          = cro_measure_make (cro_unit_get (lost[i].unit)->base, lost[i].density, 0);

      cro_batch_share (CRO_RULE_FREE, -1, &output, &measure, 1);
      expect_near (lost[i].says, cro_mass_lost (&output, &measure), lost[i].grams);
    }
}

/* Where every line and output can be weighed, what is charged is trim loss, process loss and
 * what the batch gives. */
static void
test_mass_is_conserved (void **state)
{
  static const RandomSize size = { 8, 12, 4, 6, true };
  size_t n_weighed = 0;

  for (uint64_t seed = 1; seed <= 300; seed++)
    {
      uint64_t random = seed * UINT64_C (0x2545f4914f6cdd1d);
      Book *book = random_book_new (&random, &size, NULL);
      const CroGraph *graph = &book->graph;

      for (uint32_t row = 0; row < graph->n_rows; row++)
        {
          uint32_t first = graph->made[row];
          size_t n = graph->made[row + 1] - first;
          double input = cro_mass_input (graph, row, &book->lines, book->measure, NULL, NULL);
          double charged = 0, lost, given = 0;

          if (n == 0)
            continue;
          lost = cro_mass_process_loss (input, book_output (book, first),
                                        &book->measure[graph->item_of_node[first]], n);
          if (isnan (lost))
            continue;
          for (uint32_t l = graph->first[row]; l < graph->first[row + 1]; l++)
            {
              uint32_t line = graph->line_slot[l];
              const CroMeasure *item = &book->measure[book->lines.item[line]];

              if (!item->is_food)
                continue;
              charged += graph->quantity[l] * item->grams[item->base];
              lost += cro_mass_trim_loss (&book->lines, line, item);
            }
          for (uint32_t node = first; node < first + n; node++)
            given += book_output (book, node)->finished
                     * book->measure[graph->item_of_node[node]]
                           .grams[book->measure[graph->item_of_node[node]].base];
          /* Gains are negative losses: compared with all that is weighed. */
          expect ("mass is conserved: charged = lost + given",
                  fabs (charged - (lost + given)) <= 1e-12 * (charged + input + given));
          n_weighed++;
        }
      book_free (book);
    }
  expect ("the books had batches that can be weighed", n_weighed > 500);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_input),
    cmocka_unit_test (test_lost),
    cmocka_unit_test (test_process_loss),
    cmocka_unit_test (test_mass_is_conserved),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
