/* The sweeps against exact rational arithmetic, on thousands of generated books.
 *
 * support/exact.c is a second reading of the model, which rounds nothing. Beside every exact
 * figure stands the largest term that enters it: figures in doubles must agree to 1e-12 of
 * that. */
#include "n-books.h"
#include "near.h"
#include "exact.h"
#include "random-book.h"

#include "cro-decimal.h"
#include "cro-plate.h"

#include <stdlib.h>
#include <string.h>

#define N_BOOKS CRO_TEST_N_BOOKS (3000)

static const RandomSize any_size = { 8, 12, 4, 6, false };
static const RandomSize whole_size = { 8, 12, 4, 6, true };

static void
expect_exact (const char *says,
              double      got,
              mpq_srcptr  exact,
              double      largest_term)
{
  mpq_ptr difference = q_number (0, 1);

  assert_true (isfinite (got));
  mpq_set_d (difference, got);
  mpq_sub (difference, difference, exact);
  if (q_size (difference) > 1e-12 * largest_term)
    fail_msg ("does not hold: %s (got %.17g, exact %.17g, largest term %g)", says, got,
              mpq_get_d (exact), largest_term);
}

/* Runs one claim on many books, each from a seed of its own. */
static void
on_books (const RandomSize *size,
          size_t            n,
          void            (*claim) (Book           *book,
                                    const uint32_t *parts_first,
                                    uint64_t       *state))
{
  for (uint64_t seed = 1; seed <= n; seed++)
    {
      uint64_t state = seed * UINT64_C (0x9e3779b97f4a7c15);
      uint32_t *parts_first;
      Book *book = random_book_new (&state, size, &parts_first);

      claim (book, parts_first, &state);
      book_free (book);
      free (parts_first);
      q_reuse_all ();
    }
  q_free_all ();
}

static void
claim_figures_agree (Book           *book,
                     const uint32_t *parts_first,
                     uint64_t       *state)
{
  static Exact exact;

  exact_cost (&exact, book, parts_first);
  for (int layer = 0; layer < N_LAYERS; layer++)
    {
      for (uint32_t i = 0; i < book->n_items; i++)
        expect_exact ("an item's unit cost is the exact one", book_unit_cost (book, layer, i),
                      exact.unit_cost[layer][i], exact.unit_term[layer][i]);
      for (int32_t r = 0; r < (int32_t) book->n_rows; r++)
        expect_exact ("a row's cost is the exact one", book_row_cost (book, layer, r),
                      exact.row_cost[layer][r], exact.row_term[layer][r]);
    }
}

static void
test_figures_agree (void **state)
{
  on_books (&any_size, N_BOOKS, claim_figures_agree);
}

/* Exactly, in the second reading; and in doubles to the largest term. */
static void
claim_money_is_conserved (Book           *book,
                          const uint32_t *parts_first,
                          uint64_t       *state)
{
  static Exact exact;

  exact_cost (&exact, book, parts_first);
  for (uint32_t row = 0; row < book->graph.n_rows; row++)
    {
      uint32_t slot = book->graph.slot_of_row[row];

      if (book->graph.made[row] == book->graph.made[row + 1] || !book_row_is_known (book, row))
        continue;
      for (int layer = 0; layer < N_LAYERS; layer++)
        {
          mpq_ptr given = q_number (0, 1);
          double sum = 0, largest = exact.row_term[layer][slot];

          for (uint32_t node = book->graph.made[row]; node < book->graph.made[row + 1]; node++)
            {
              uint32_t item = book->graph.item_of_node[node];
              double term = book_output (book, node)->used * exact.unit_term[layer][item];

              given = q_add (given, q_mul (exact.used[item], exact.unit_cost[layer][item]));
              sum += book_output (book, node)->used * book->unit_cost[layer][node];
              largest = fmax (largest, term);
            }
          expect ("sum (Q (1 - l) u) is the batch's cost, exactly",
                  mpq_equal (given, exact.row_cost[layer][slot]));
          expect_exact ("sum (Q (1 - l) u) is the batch's cost", sum, exact.row_cost[layer][slot],
                        largest);
        }
    }
}

static void
test_money_is_conserved (void **state)
{
  on_books (&any_size, N_BOOKS, claim_money_is_conserved);
}

/* The figure that effects are taken of: the food cost of one row, times a weight. */
static uint32_t
random_row (const Book *book,
            uint64_t   *state)
{
  return (uint32_t) random_below (state, book->graph.n_rows);
}

static void
back_from (const Book *book,
           uint32_t    row,
           double      counts,
           double     *row_effect,
           double     *effect)
{
  double *weight = calloc (book->graph.n_rows, sizeof *weight);

  weight[row] = counts;
  cro_sweep_back (&book->graph, book->share, weight, row_effect, effect);
  free (weight);
}

/* The part of a figure that goes to assigned values: an effect of each output on its fixed
 * part. */
static double
assigned_value (const Book   *book,
                const double *effect,
                double       *largest)
{
  double sum = 0;

  for (size_t node = book->graph.n_raws; node < book->graph.n_items; node++)
    {
      sum += effect[node] * book->fixed[node];
      *largest = fmax (*largest, fabs (effect[node] * book->fixed[node]));
    }
  return sum;
}

static void
claim_attribution_adds_up (Book           *book,
                           const uint32_t *parts_first,
                           uint64_t       *state)
{
  static Exact exact;
  double effect[EXACT_ITEMS], row_effect[EXACT_ROWS];
  uint32_t row = random_row (book, state);
  uint32_t slot = book->graph.slot_of_row[row];
  double sum, largest;

  exact_cost (&exact, book, parts_first);
  back_from (book, row, 1, row_effect, effect);
  largest = exact.row_term[FOOD][slot];
  sum = assigned_value (book, effect, &largest);
  for (size_t node = 0; node < book->graph.n_raws; node++)
    sum += effect[node] * book->unit_cost[FOOD][node];
  expect_exact ("quantities charged at their unit costs and assigned values are the cost", sum,
                exact.row_cost[FOOD][slot], largest);
}

static void
test_attribution_adds_up (void **state)
{
  on_books (&any_size, N_BOOKS, claim_attribution_adds_up);
}

/* Cost is affine in a unit cost: moved by one whole unit of money, the exact cost moves by the
 * quantity that the reverse sweep charges, however large the step. */
static void
claim_effect_is_difference (Book           *book,
                            const uint32_t *parts_first,
                            uint64_t       *state)
{
  static Exact before, after;
  double effect[EXACT_ITEMS], row_effect[EXACT_ROWS];
  uint32_t row = random_row (book, state);
  uint32_t slot = book->graph.slot_of_row[row];
  uint32_t node = (uint32_t) random_below (state, book->graph.n_raws);
  uint32_t item = book->graph.item_of_node[node];

  if (!book->measure[item].is_food)
    return;
  back_from (book, row, 1, row_effect, effect);
  exact_cost (&before, book, parts_first);
  book->price[item] += CRO_MICRO;
  exact_cost (&after, book, parts_first);
  /* All terms of a quantity charged are of one sign: it is its own largest term. */
  expect_exact ("the effect of a unit cost is the exact difference that it makes", effect[node],
                q_sub (after.row_cost[FOOD][slot], before.row_cost[FOOD][slot]), effect[node]);
}

static void
test_effect_is_difference (void **state)
{
  on_books (&any_size, N_BOOKS, claim_effect_is_difference);
}

static void
claim_value_effect_is_difference (Book           *book,
                                  const uint32_t *parts_first,
                                  uint64_t       *state)
{
  static Exact before, after;
  double effect[EXACT_ITEMS], row_effect[EXACT_ROWS];
  uint32_t row = random_row (book, state);
  uint32_t slot = book->graph.slot_of_row[row];

  back_from (book, row, 1, row_effect, effect);
  for (uint32_t batch = 0; batch < book->graph.n_rows; batch++)
    {
      uint32_t main = book->graph.made[batch];
      double per_value, largest;
      CroOutput *output;

      if (book->rule[book->graph.slot_of_row[batch]] != CRO_RULE_CREDIT
          || book->graph.made[batch + 1] < main + 2 || !book_row_is_known (book, batch))
        continue;
      output = book_output (book, main + 1);
      per_value = effect[main + 1]
                  - effect[main] * output->used / book_output (book, main)->used;
      largest = fmax (effect[main + 1], effect[main] * output->used
                                            / book_output (book, main)->used);
      exact_cost (&before, book, parts_first);
      output->value += CRO_MICRO;
      exact_cost (&after, book, parts_first);
      output->value -= CRO_MICRO;
      expect_exact ("an assigned value counts for what is taken less what is credited",
                    per_value / cro_unit_factor (output->unit),
                    q_sub (after.row_cost[FOOD][slot], before.row_cost[FOOD][slot]),
                    largest / cro_unit_factor (output->unit));
    }
}

static void
test_value_effect_is_difference (void **state)
{
  on_books (&whole_size, N_BOOKS / 3, claim_value_effect_is_difference);
}

/* At the ceiling, the plate costs target times net price: computed exactly from the ceiling
 * that the engine names. */
static void
claim_ceiling_meets_target (Book           *book,
                            const uint32_t *parts_first,
                            uint64_t       *state)
{
  static Exact exact;
  double effect[EXACT_ITEMS], row_effect[EXACT_ROWS];
  uint32_t row = random_row (book, state);
  uint32_t slot = book->graph.slot_of_row[row];
  double cost = book->row_cost[FOOD][row];
  double target = 0.3, net_price = fabs (cost) * (double) (1 + random_below (state, 50)) / 10;

  exact_cost (&exact, book, parts_first);
  back_from (book, row, 1, row_effect, effect);
  for (uint32_t node = 0; node < book->graph.n_raws; node++)
    {
      double u = book->unit_cost[FOOD][node];
      double ceiling = cro_ceiling (u, effect[node], cost, net_price, target);
      mpq_ptr moved = q_number (0, 1), quantity = q_number (0, 1), wanted = q_number (0, 1);
      mpq_srcptr exact_u = exact.unit_cost[FOOD][book->graph.item_of_node[node]];

      if (effect[node] == 0)
        {
          expect ("there is no ceiling for what is not taken", isnan (ceiling));
          continue;
        }
      mpq_set_d (moved, ceiling);
      mpq_set_d (quantity, effect[node]);
      mpq_set_d (wanted, target * net_price);
      moved = q_mul (q_sub (moved, exact_u), quantity);
      if (!book->measure[book->graph.item_of_node[node]].is_food)
        continue;
      expect_exact ("at its ceiling an ingredient brings the plate to its target",
                    mpq_get_d (q_add (exact.row_cost[FOOD][slot], moved)), wanted,
                    fmax (fmax (exact.row_term[FOOD][slot], target * net_price),
                          fabs (ceiling * effect[node])));
    }
}

static void
test_ceiling_meets_target (void **state)
{
  on_books (&any_size, N_BOOKS, claim_ceiling_meets_target);
}

/* Amounts and lines of one batch times seven: its outputs cost what they did. Minutes too, as
 * they are a line of the batch like any other. */
static void
claim_scale_changes_nothing (Book           *book,
                             const uint32_t *parts_first,
                             uint64_t       *state)
{
  static Exact before, after;
  int32_t slot = (int32_t) book->graph.slot_of_row[random_row (book, state)];
  CroLines *lines = &book->lines;

  exact_cost (&before, book, parts_first);
  for (size_t i = 0; i < lines->n; i++)
    if (lines->row[i] == slot)
      lines->amount[i] *= 7;
  for (size_t i = 0; i < book->n_items; i++)
    if (book->maker[i] == slot)
      book->output[i].amount *= 7;
  book->minutes[slot] *= 7;
  book_settle (book);
  exact_cost (&after, book, parts_first);

  for (uint32_t i = 0; i < book->n_items; i++)
    for (int layer = 0; layer < N_LAYERS; layer++)
      {
        expect ("a batch written seven times as large costs the same by the gram, exactly",
                mpq_equal (before.unit_cost[layer][i], after.unit_cost[layer][i]));
        expect_exact ("and in doubles", book_unit_cost (book, layer, i),
                      before.unit_cost[layer][i], before.unit_term[layer][i]);
      }
}

static void
test_scale_changes_nothing (void **state)
{
  on_books (&any_size, N_BOOKS, claim_scale_changes_nothing);
}

/* Few rows of a large book are traced by visiting only what stands below them. The terms are
 * the same in the same order: not one bit may differ. */
static void
claim_trace_is_back_sweep (Book           *book,
                           const uint32_t *parts_first,
                           uint64_t       *state)
{
  double effect[EXACT_ITEMS], row_effect[EXACT_ROWS];
  double traced[EXACT_ITEMS] = { 0 }, row_traced[EXACT_ROWS] = { 0 };
  static const double zeros[EXACT_ITEMS];
  double weight[EXACT_ROWS] = { 0 };
  uint64_t touched[1] = { 0 }, nodes[EXACT_ITEMS / 64 + 1] = { 0 };

  for (int i = 0; i < 2; i++)
    {
      uint32_t row = random_row (book, state);

      weight[row] = row_traced[row] = 0.25 * (i + 1);
      cro_dirty_add_row (touched, row);
    }
  cro_sweep_back (&book->graph, book->share, weight, row_effect, effect);
  cro_trace (&book->graph, book->share, row_traced, traced, touched, nodes);
  expect ("a trace finds the effects of the full reverse sweep",
          memcmp (effect, traced, book->n_items * sizeof *effect) == 0
              && memcmp (row_effect, row_traced, book->n_rows * sizeof *row_effect) == 0);
  cro_trace_clear (&book->graph, row_traced, traced, touched, nodes);
  expect ("and leaves nothing behind", memcmp (traced, zeros, sizeof traced) == 0
                                           && memcmp (row_traced, zeros, sizeof row_traced) == 0
                                           && touched[0] == 0 && nodes[0] == 0);
}

static void
test_trace_is_back_sweep (void **state)
{
  on_books (&any_size, N_BOOKS, claim_trace_is_back_sweep);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_figures_agree),
    cmocka_unit_test (test_money_is_conserved),
    cmocka_unit_test (test_attribution_adds_up),
    cmocka_unit_test (test_effect_is_difference),
    cmocka_unit_test (test_value_effect_is_difference),
    cmocka_unit_test (test_ceiling_meets_target),
    cmocka_unit_test (test_scale_changes_nothing),
    cmocka_unit_test (test_trace_is_back_sweep),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
