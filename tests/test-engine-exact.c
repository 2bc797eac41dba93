/* The sweeps against exact rational arithmetic, on thousands of generated books.
 *
 * The model is written a second time here from its description, with GMP's rationals, which
 * round nothing. Beside every exact figure stands the largest term that enters it: figures in
 * doubles must agree to 1e-12 of that. */
#include "near.h"
#include "random-book.h"

#include "cro-decimal.h"
#include "cro-plate.h"

#include <gmp.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define N_BOOKS 3000

static const RandomSize any_size = { 8, 12, 4, 6, false };
static const RandomSize whole_size = { 8, 12, 4, 6, true };

/* Rationals written as expressions: each is a cell of a pool that is emptied between books. */

static mpq_t *pool[1 << 16];
static size_t pool_used;
static size_t pool_made;

static mpq_ptr
number (long numerator,
        unsigned long denominator)
{
  mpq_t *cell;

  assert_true (pool_used < N_CASES (pool));
  if (pool_used == pool_made)
    {
      pool[pool_made] = malloc (sizeof *pool[0]);
      mpq_init (*pool[pool_made++]);
    }
  cell = pool[pool_used++];
  mpq_set_si (*cell, numerator, denominator);
  mpq_canonicalize (*cell);
  return *cell;
}

static mpq_ptr
micro (int64_t decimal)
{
  return number (decimal, 1000000);
}

static mpq_ptr
pct (int64_t decimal)
{
  return number (decimal, 100000000);
}

static mpq_ptr
add (mpq_srcptr a, mpq_srcptr b)
{
  mpq_ptr c = number (0, 1);

  mpq_add (c, a, b);
  return c;
}

static mpq_ptr
sub (mpq_srcptr a, mpq_srcptr b)
{
  mpq_ptr c = number (0, 1);

  mpq_sub (c, a, b);
  return c;
}

static mpq_ptr
mul (mpq_srcptr a, mpq_srcptr b)
{
  mpq_ptr c = number (0, 1);

  mpq_mul (c, a, b);
  return c;
}

static mpq_ptr
quo (mpq_srcptr a, mpq_srcptr b)
{
  mpq_ptr c = number (0, 1);

  mpq_div (c, a, b);
  return c;
}

static double
size_of (mpq_srcptr a)
{
  return fabs (mpq_get_d (a));
}

static bool
is_zero (mpq_srcptr a)
{
  return mpq_sgn (a) == 0;
}

static void
empty_pool (void)
{
  for (; pool_made > 0; pool_made--)
    {
      mpq_clear (*pool[pool_made - 1]);
      free (pool[pool_made - 1]);
    }
  pool_used = 0;
}

/* The second reading of the model. All by slots: the graph's order plays no part. */

#define MAX_LINES 128
#define MAX_ITEMS 64
#define MAX_ROWS 16

typedef struct
{
  const Book     *book;
  const uint32_t *parts_first;
  mpq_ptr         charged[MAX_LINES];
  mpq_ptr         finished[MAX_ITEMS];
  mpq_ptr         share[MAX_ITEMS];
  mpq_ptr         fixed[MAX_ITEMS];
  mpq_ptr         unit_cost[N_LAYERS][MAX_ITEMS];
  mpq_ptr         row_cost[N_LAYERS][MAX_ROWS];
  /* the largest term that enters the figure of the same name */
  double          unit_term[N_LAYERS][MAX_ITEMS];
  double          row_term[N_LAYERS][MAX_ROWS];
} Exact;

/* Grams of one base unit of a kind of the item's; NULL if it cannot be weighed. */
static mpq_ptr
grams_of (const Book *book,
          uint32_t    item,
          CroBase     base)
{
  int64_t grams = base == CRO_BASE_GRAM         ? CRO_MICRO
                  : base == CRO_BASE_MILLILITRE ? book->density[item]
                                                : book->piece[item];

  return grams > 0 ? micro (grams) : NULL;
}

static mpq_ptr
factor_of (CroUnit unit)
{
  const CroUnitInfo *info = cro_unit_get (unit);

  return number ((long) info->numerator, (unsigned long) info->denominator);
}

/* What one unit is in another base of the item; NULL if that is not known. */
static mpq_ptr
convert (const Book *book,
         uint32_t    item,
         CroUnit     unit,
         CroBase     to)
{
  CroBase from = cro_unit_get (unit)->base;
  mpq_ptr from_grams, to_grams;

  if (from == to)
    return factor_of (unit);
  from_grams = grams_of (book, item, from);
  to_grams = grams_of (book, item, to);
  if (from_grams == NULL || to_grams == NULL)
    return NULL;
  return quo (mul (factor_of (unit), from_grams), to_grams);
}

/* a (1 - k) in the wanted base; NULL if it cannot be converted. */
static mpq_ptr
net_of_line (const Book *book,
             size_t      i,
             CroBase     to)
{
  const CroLines *lines = &book->lines;
  mpq_ptr per_unit = convert (book, lines->item[i], (CroUnit) lines->unit[i], to);

  if (per_unit == NULL)
    return NULL;
  return mul (mul (micro (lines->amount[i]), per_unit),
              sub (number (1, 1), pct (lines->recovered[i])));
}

static mpq_ptr
yield_of_line (const Book *book,
               size_t      i)
{
  const CroLines *lines = &book->lines;
  const CroMeasure *item = &book->measure[lines->item[i]];
  bool is_piece = cro_unit_get ((CroUnit) lines->unit[i])->base == CRO_BASE_EACH;

  if (lines->yield[i] > 0)
    return pct (lines->yield[i]);
  if (book->maker[lines->item[i]] < 0 && !lines->whole[i] && !is_piece && item->trim_yield > 0)
    return pct (item->trim_yield);
  return number (1, 1);
}

/* NULL if a food line cannot be weighed. */
static mpq_ptr
input_mass (const Book *book,
            int32_t     row)
{
  mpq_ptr grams = number (0, 1);

  for (size_t i = 0; i < book->lines.n; i++)
    if (book->lines.row[i] == row && book->measure[book->lines.item[i]].is_food)
      {
        mpq_ptr net = net_of_line (book, i, CRO_BASE_GRAM);

        if (net == NULL)
          return NULL;
        grams = add (grams, net);
      }
  return grams;
}

static mpq_ptr
finished_amount (const Book *book,
                 uint32_t    item)
{
  const CroOutput *output = &book->output[item];
  mpq_ptr grams;

  if (output->amount > 0)
    return mul (micro (output->amount), factor_of (output->unit));
  grams = output->yield > 0 ? input_mass (book, book->maker[item]) : NULL;
  return grams != NULL ? mul (grams, pct (output->yield)) : number (0, 1);
}

/* Money per base unit; NULL if nobody has set it. */
static mpq_ptr
value_of_base (const Book *book,
               uint32_t    item)
{
  const CroOutput *output = &book->output[item];

  return output->has_value ? quo (micro (output->value), factor_of (output->unit)) : NULL;
}

/* What one base unit of an output counts under weight and value; NULL if it is not known. */
static mpq_ptr
weight_of (const Book *book,
           uint32_t    item,
           CroRule     rule,
           bool        one_measure)
{
  if (rule == CRO_RULE_VALUE)
    return value_of_base (book, item);
  return one_measure ? number (1, 1)
                     : grams_of (book, item, (CroBase) book->measure[item].base);
}

static void
share_in_proportion (Exact   *exact,
                     CroRule  rule,
                     uint32_t first,
                     uint32_t end)
{
  const Book *book = exact->book;
  bool one_measure = book->measure[first].base != CRO_BASE_EACH;
  mpq_ptr total = number (0, 1);

  for (uint32_t i = first; i < end; i++)
    one_measure = one_measure && book->measure[i].base == book->measure[first].base;
  for (uint32_t i = first; i < end; i++)
    {
      mpq_ptr weight = weight_of (book, i, rule, one_measure);

      if (weight == NULL || is_zero (exact->finished[i]))
        return;
      total = add (total, mul (weight, exact->finished[i]));
    }
  if (is_zero (total))
    return;
  for (uint32_t i = first; i < end; i++)
    exact->share[i] = quo (weight_of (book, i, rule, one_measure), total);
}

static void
share_to_main (Exact   *exact,
               CroRule  rule,
               uint32_t first,
               uint32_t end)
{
  mpq_ptr credit = number (0, 1);

  for (uint32_t i = first + 1; i < end && rule == CRO_RULE_CREDIT; i++)
    {
      mpq_ptr value = value_of_base (exact->book, i);

      if (value == NULL)
        continue;
      exact->fixed[i] = value;
      credit = add (credit, mul (value, exact->finished[i]));
    }
  if (is_zero (exact->finished[first]))
    return;
  exact->share[first] = quo (number (1, 1), exact->finished[first]);
  exact->fixed[first] = sub (number (0, 1), quo (credit, exact->finished[first]));
}

static void
share_row (Exact   *exact,
           uint32_t row)
{
  const Book *book = exact->book;
  CroRule rule = book->rule[row];
  uint32_t first = 0, end;

  while (first < book->n_items && book->maker[first] != (int32_t) row)
    first++;
  for (end = first; end < book->n_items && book->maker[end] == (int32_t) row; end++)
    {
      exact->finished[end] = finished_amount (book, end);
      exact->share[end] = exact->fixed[end] = number (0, 1);
    }
  if (first == end)
    return;
  if (rule == CRO_RULE_WEIGHT || rule == CRO_RULE_VALUE)
    share_in_proportion (exact, rule, first, end);
  else
    share_to_main (exact, rule, first, end);
}

static void
cost_row (Exact   *exact,
          int      layer,
          uint32_t row)
{
  const Book *book = exact->book;
  mpq_ptr cost = layer == LABOUR
                     ? mul (micro (book->minutes[row]), quo (micro (book->wage), number (60, 1)))
                     : number (0, 1);
  double term = size_of (cost);

  for (size_t i = 0; i < book->lines.n; i++)
    if (book->lines.row[i] == (int32_t) row)
      {
        uint32_t part = book->lines.item[i];

        cost = add (cost, mul (exact->charged[i], exact->unit_cost[layer][part]));
        term = fmax (term, size_of (exact->charged[i]) * exact->unit_term[layer][part]);
      }
  exact->row_cost[layer][row] = cost;
  exact->row_term[layer][row] = term;
  for (size_t i = 0; i < book->n_items; i++)
    if (book->maker[i] == (int32_t) row)
      {
        mpq_ptr fixed = layer == FOOD ? exact->fixed[i] : number (0, 1);

        exact->unit_cost[layer][i] = add (mul (exact->share[i], cost), fixed);
        exact->unit_term[layer][i] = fmax (size_of (exact->share[i]) * term, size_of (fixed));
      }
}

static void
price_raws (Exact *exact)
{
  const Book *book = exact->book;

  for (size_t i = 0; i < book->n_items; i++)
    if (book->maker[i] < 0)
      for (int layer = 0; layer < N_LAYERS; layer++)
        {
          bool counts = layer == (book->measure[i].is_food ? FOOD : DISPOSABLES);

          exact->unit_cost[layer][i] = counts ? micro (book->price[i]) : number (0, 1);
          exact->unit_term[layer][i] = size_of (exact->unit_cost[layer][i]);
        }
}

static void
cost_all (Exact          *exact,
          const Book     *book,
          const uint32_t *parts_first)
{
  assert_true (book->lines.n <= MAX_LINES && book->n_items <= MAX_ITEMS
               && book->n_rows <= MAX_ROWS);
  *exact = (Exact){ .book = book, .parts_first = parts_first };
  price_raws (exact);
  for (size_t i = 0; i < book->lines.n; i++)
    {
      mpq_ptr net = net_of_line (book, i, (CroBase) book->measure[book->lines.item[i]].base);

      exact->charged[i] = net != NULL ? quo (net, yield_of_line (book, i)) : number (0, 1);
    }
  for (size_t k = 0; k < book->n_rows; k++)
    {
      share_row (exact, parts_first[k]);
      for (int layer = 0; layer < N_LAYERS; layer++)
        cost_row (exact, layer, parts_first[k]);
    }
}

/* What must hold */

static void
expect_exact (const char *says,
              double      got,
              mpq_srcptr  exact,
              double      largest_term)
{
  mpq_ptr difference = number (0, 1);

  assert_true (isfinite (got));
  mpq_set_d (difference, got);
  mpq_sub (difference, difference, exact);
  if (size_of (difference) > 1e-12 * largest_term)
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
      pool_used = 0;
    }
  empty_pool ();
}

static void
claim_figures_agree (Book           *book,
                     const uint32_t *parts_first,
                     uint64_t       *state)
{
  static Exact exact;

  cost_all (&exact, book, parts_first);
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

  cost_all (&exact, book, parts_first);
  for (uint32_t row = 0; row < book->graph.n_rows; row++)
    {
      uint32_t slot = book->graph.slot_of_row[row];

      if (book->graph.made[row] == book->graph.made[row + 1] || !book_row_is_known (book, row))
        continue;
      for (int layer = 0; layer < N_LAYERS; layer++)
        {
          mpq_ptr given = number (0, 1);
          double sum = 0, largest = exact.row_term[layer][slot];

          for (uint32_t node = book->graph.made[row]; node < book->graph.made[row + 1]; node++)
            {
              uint32_t item = book->graph.item_of_node[node];
              double term = book_output (book, node)->finished * exact.unit_term[layer][item];

              given = add (given, mul (exact.finished[item], exact.unit_cost[layer][item]));
              sum += book_output (book, node)->finished * book->unit_cost[layer][node];
              largest = fmax (largest, term);
            }
          expect ("sum (Q u) is the batch's cost, exactly",
                  mpq_equal (given, exact.row_cost[layer][slot]));
          expect_exact ("sum (Q u) is the batch's cost", sum, exact.row_cost[layer][slot],
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
  double effect[MAX_ITEMS], row_effect[MAX_ROWS];
  uint32_t row = random_row (book, state);
  uint32_t slot = book->graph.slot_of_row[row];
  double sum, largest;

  cost_all (&exact, book, parts_first);
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
  double effect[MAX_ITEMS], row_effect[MAX_ROWS];
  uint32_t row = random_row (book, state);
  uint32_t slot = book->graph.slot_of_row[row];
  uint32_t node = (uint32_t) random_below (state, book->graph.n_raws);
  uint32_t item = book->graph.item_of_node[node];

  if (!book->measure[item].is_food)
    return;
  back_from (book, row, 1, row_effect, effect);
  cost_all (&before, book, parts_first);
  book->price[item] += CRO_MICRO;
  cost_all (&after, book, parts_first);
  /* All terms of a quantity charged are of one sign: it is its own largest term. */
  expect_exact ("the effect of a unit cost is the exact difference that it makes", effect[node],
                sub (after.row_cost[FOOD][slot], before.row_cost[FOOD][slot]), effect[node]);
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
  double effect[MAX_ITEMS], row_effect[MAX_ROWS];
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
                  - effect[main] * output->finished / book_output (book, main)->finished;
      largest = fmax (effect[main + 1], effect[main] * output->finished
                                            / book_output (book, main)->finished);
      cost_all (&before, book, parts_first);
      output->value += CRO_MICRO;
      cost_all (&after, book, parts_first);
      output->value -= CRO_MICRO;
      expect_exact ("an assigned value counts for what is taken less what is credited",
                    per_value / cro_unit_factor (output->unit),
                    sub (after.row_cost[FOOD][slot], before.row_cost[FOOD][slot]),
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
  double effect[MAX_ITEMS], row_effect[MAX_ROWS];
  uint32_t row = random_row (book, state);
  uint32_t slot = book->graph.slot_of_row[row];
  double cost = book->row_cost[FOOD][row];
  double target = 0.3, net_price = fabs (cost) * (double) (1 + random_below (state, 50)) / 10;

  cost_all (&exact, book, parts_first);
  back_from (book, row, 1, row_effect, effect);
  for (uint32_t node = 0; node < book->graph.n_raws; node++)
    {
      double u = book->unit_cost[FOOD][node];
      double ceiling = cro_ceiling (u, effect[node], cost, net_price, target);
      mpq_ptr moved = number (0, 1), quantity = number (0, 1), wanted = number (0, 1);

      if (effect[node] == 0)
        {
          expect ("there is no ceiling for what is not taken", isnan (ceiling));
          continue;
        }
      mpq_set_d (moved, ceiling);
      mpq_set_d (quantity, effect[node]);
      mpq_set_d (wanted, target * net_price);
      moved = mul (sub (moved, exact.unit_cost[FOOD][book->graph.item_of_node[node]]), quantity);
      if (!book->measure[book->graph.item_of_node[node]].is_food)
        continue;
      expect_exact ("at its ceiling an ingredient brings the plate to its target",
                    mpq_get_d (add (exact.row_cost[FOOD][slot], moved)), wanted,
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

  cost_all (&before, book, parts_first);
  for (size_t i = 0; i < lines->n; i++)
    if (lines->row[i] == slot)
      lines->amount[i] *= 7;
  for (size_t i = 0; i < book->n_items; i++)
    if (book->maker[i] == slot)
      book->output[i].amount *= 7;
  book->minutes[slot] *= 7;
  book_settle (book);
  cost_all (&after, book, parts_first);

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
  double effect[MAX_ITEMS], row_effect[MAX_ROWS];
  double traced[MAX_ITEMS] = { 0 }, row_traced[MAX_ROWS] = { 0 };
  static const double zeros[MAX_ITEMS];
  double weight[MAX_ROWS] = { 0 };
  uint64_t touched[1] = { 0 };

  for (int i = 0; i < 2; i++)
    {
      uint32_t row = random_row (book, state);

      weight[row] = row_traced[row] = 0.25 * (i + 1);
      cro_dirty_add_row (touched, row);
    }
  cro_sweep_back (&book->graph, book->share, weight, row_effect, effect);
  cro_trace (&book->graph, book->share, row_traced, traced, touched);
  expect ("a trace finds the effects of the full reverse sweep",
          memcmp (effect, traced, book->n_items * sizeof *effect) == 0
              && memcmp (row_effect, row_traced, book->n_rows * sizeof *row_effect) == 0);
  cro_trace_clear (&book->graph, row_traced, traced, touched);
  expect ("and leaves nothing behind", memcmp (traced, zeros, sizeof traced) == 0
                                           && memcmp (row_traced, zeros, sizeof row_traced) == 0
                                           && touched[0] == 0);
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
