/* What a service runs and buys: by hand, and against an explosion in exact fractions on generated
 * books, which walks rows by an order that the engine has no part in. */
#include "near.h"
#include "exact.h"
#include "random-book.h"

#include "cro-decimal.h"
#include "cro-plan.h"

#include <stdlib.h>

#define N_BOOKS 3000
#define M(x) ((int64_t) ((x) * 1e6 + 0.5))
#define PCT(x) ((int32_t) ((x) * 1e6 + 0.5))

/* A book with its plan, by node and row of the graph. */
typedef struct
{
  Book          *book;
  double         times[EXACT_ROWS];
  int64_t        smallest[EXACT_ROWS];
  double         used[EXACT_ITEMS];
  double         in_house[EXACT_ITEMS];
  double         need[EXACT_ITEMS], pan[EXACT_ITEMS], of_batch[EXACT_ITEMS];
  CroPan         pans[EXACT_LINES];
  double         runs[EXACT_ROWS], batches[EXACT_ROWS];
} Planned;

static void
run_plan (Planned *self)
{
  const CroGraph *graph = &self->book->graph;
  const CroLines *lines = &self->book->lines;
  CroPlanSource source = { self->times, self->smallest, self->used, self->in_house, self->pans, 0 };
  CroPlan plan = { self->need, self->pan, self->runs, self->batches };

  for (uint32_t node = (uint32_t) graph->n_raws; node < graph->n_items; node++)
    self->used[node] = book_output (self->book, node)->used;
  source.n_pans = cro_plan_find_pans (graph, lines, self->of_batch, self->pans);
  expect ("pans are counted as they are found",
          cro_plan_find_pans (graph, lines, self->of_batch, NULL) == source.n_pans);
  cro_plan_run (graph, &source, &plan);
}

/* --- By hand ------------------------------------------------------------------------------------ */

/* One ingredient (item 2) goes into a preparation (row 0) with a main output (item 0) and a
 * by-product (item 1), both taken by a plate (row 1). All in grams. */
typedef struct
{
  const char *says;
  double      into_batch, yield, recovered;   /* of the ingredient; per cent, 0: not set */
  double      gives, lost, gives_aside;       /* of a batch; per cent */
  double      takes, takes_aside;             /* of a plate */
  double      times, smallest;
  double      have, have_aside, have_raw;
  /* wanted */
  double      runs, batches, need, pan, left, left_aside;
} OneBatch;

static const OneBatch one_batch[] = {
  { "a batch is run as far as it is needed", 1000, 0, 0, 500, 0, 0, 100, 0, 3, 0, 0, 0, 0,
    0.6, 0.6, 600, 0, 0, 0 },
  { "or in its smallest parts", 1000, 0, 0, 500, 0, 0, 100, 0, 3, 0.5, 0, 0, 0,
    0.6, 1, 1000, 0, 200, 0 },
  { "or whole", 1000, 0, 0, 500, 0, 0, 100, 0, 6, 1, 0, 0, 0, 1.2, 2, 2000, 0, 400, 0 },
  /* 30 times a tenth is more than 3 in doubles. */
  { "what is exactly enough takes no more", 1000, 0, 0, 1, 0, 0, 0.1, 0, 30, 1, 0, 0, 0,
    3, 3, 3000, 0, 0, 0 },
  { "a thousandth over takes one more", 1000, 0, 0, 1000, 0, 0, 100.1, 0, 30, 1, 0, 0, 0,
    3.003, 4, 4000, 0, 997, 0 },
  { "the output that is needed most says how many", 1000, 0, 0, 500, 0, 20, 100, 10, 3, 0, 0, 0, 0,
    1.5, 1.5, 1500, 0, 450, 0 },
  { "what is thrown away before it is used must be made too", 1000, 0, 0, 500, 40, 0, 100, 0, 3, 0,
    0, 0, 0, 1, 1, 1000, 0, 0, 0 },
  { "what is in the house is not made", 1000, 0, 0, 500, 0, 0, 100, 0, 3, 0, 50, 0, 0,
    0.5, 0.5, 500, 0, 0, 0 },
  { "and what is left is of what is made", 1000, 0, 0, 500, 0, 20, 100, 10, 3, 1, 250, 10, 0,
    1, 1, 1000, 0, 450, 0 },
  { "with enough of it nothing runs", 1000, 0, 0, 500, 0, 20, 100, 10, 3, 1, 300, 40, 0,
    0, 0, 0, 0, 0, 0 },
  { "what is in the house of an ingredient does not make its need less", 1000, 0, 0, 500, 0, 0, 100,
    0, 3, 0, 0, 0, 400, 0.6, 0.6, 600, 0, 0, 0 },
  /* 1.5 kg of oil to the batch, nine tenths of it back in the can. */
  { "an oil fills the pan as far as the batch is needed", 1500, 0, 90, 500, 0, 0, 100, 0, 3, 1, 0, 0,
    0, 0.6, 1, 150, 900, 200, 0 },
  { "and of no batch none", 1500, 0, 90, 500, 0, 0, 100, 0, 3, 1, 300, 0, 0, 0, 0, 0, 0, 0, 0 },
  { "and of a part its part", 1500, 0, 90, 500, 0, 0, 100, 0, 3, 0, 0, 0, 0,
    0.6, 0.6, 90, 900, 0, 0 },
  { "of several batches there is one in the pan", 1500, 0, 90, 500, 0, 0, 100, 0, 60, 1, 0, 0, 0,
    12, 12, 1800, 1500, 0, 0 },
  { "a pan is filled with what was trimmed", 1500, 75, 90, 500, 0, 0, 100, 0, 3, 1, 0, 0, 0,
    0.6, 1, 200, 1200, 200, 0 },
};

static void
make_one_batch (Planned        *self,
                const OneBatch *is)
{
  Book *book = book_new (3, 2, 3);
  size_t into;

  *self = (Planned){ .book = book };
  book_set_output (book, 0, 0, CRO_UNIT_G, M (is->gives));
  book_set_output (book, 1, 0, CRO_UNIT_G, M (is->gives_aside));
  book->output[0].lost = PCT (is->lost);
  into = book_add_line (book, 0, 2, M (is->into_batch), CRO_UNIT_G);
  book->lines.yield[into] = PCT (is->yield);
  book->lines.recovered[into] = PCT (is->recovered);
  book_add_line (book, 1, 0, M (is->takes), CRO_UNIT_G);
  book_add_line (book, 1, 1, M (is->takes_aside), CRO_UNIT_G);
  assert_int_equal (book_order (book, NULL), 0);
  book_settle (book);
  self->times[book->graph.row_of_slot[1]] = is->times;
  self->smallest[book->graph.row_of_slot[0]] = M (is->smallest);
  self->in_house[book->graph.node_of_item[0]] = is->have;
  self->in_house[book->graph.node_of_item[1]] = is->have_aside;
  self->in_house[book->graph.node_of_item[2]] = is->have_raw;
}

static double
left_of (const Planned *self,
         uint32_t       item)
{
  const CroGraph *graph = &self->book->graph;
  uint32_t node = graph->node_of_item[item];

  return cro_plan_left (self->batches[graph->made_by[node]] * self->used[node],
                        cro_plan_needed (self->need[node], self->in_house[node]));
}

static void
test_one_batch (void **state)
{
  for (size_t i = 0; i < N_CASES (one_batch); i++)
    {
      const OneBatch *is = &one_batch[i];
      Planned self;
      uint32_t row, raw;

      make_one_batch (&self, is);
      run_plan (&self);
      row = self.book->graph.row_of_slot[0];
      raw = self.book->graph.node_of_item[2];
      expect_near (is->says, self.runs[row], is->runs);
      expect_near (is->says, self.batches[row], is->batches);
      expect_near (is->says, self.need[raw], is->need);
      expect_near (is->says, self.pan[raw], is->pan);
      expect_near (is->says, left_of (&self, 0), is->left);
      expect_near (is->says, left_of (&self, 1), is->left_aside);
      book_free (self.book);
    }
}

/* A batch that takes its oil on two lines fills one pan with both; a plate fills none. */
static void
test_pans_add_up_within_a_batch (void **state)
{
  Planned self = { .book = book_new (2, 2, 4) };
  uint32_t oil;

  book_set_output (self.book, 0, 0, CRO_UNIT_G, M (100));
  for (int i = 0; i < 2; i++)
    self.book->lines.recovered[book_add_line (self.book, 0, 1, M (400 + 200 * i), CRO_UNIT_G)]
        = PCT (95);
  book_add_line (self.book, 1, 0, M (100), CRO_UNIT_G);
  self.book->lines.recovered[book_add_line (self.book, 1, 1, M (5000), CRO_UNIT_G)] = PCT (99);
  assert_int_equal (book_order (self.book, NULL), 0);
  book_settle (self.book);
  self.times[self.book->graph.row_of_slot[1]] = 2;
  run_plan (&self);
  oil = self.book->graph.node_of_item[1];
  expect_near ("two lines of one batch fill one pan", self.pan[oil], 1000);
  expect_near ("a plate's line is charged", self.need[oil], 2 * (50 + 50));
  expect_near ("nothing is left in the workspace", self.of_batch[oil], 0);
  book_free (self.book);
}

/* --- Purchases ------------------------------------------------------------------------------------ */

static const struct
{
  const char *says;       /* and its source */
  double      amount;     /* of a portion */
  CroUnit     unit;
  double      yield;
  double      portions;
  CroUnit     pack;       /* one of it */
  double      needed;     /* in packs, as printed */
  int         places;
  double      packs;
} purchases[] = {
  /* holt.blue, MTH 81, ch. 8: prints 1428.27 oz, a misprint of 1428.571. */
  { "Y19: 200 portions of 4 oz of asparagus at 56 % are 89.29 lb, so 90",
    4, CRO_UNIT_OZ, 56, 200, CRO_UNIT_LB, 89.29, 2, 90 },
  /* Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost Controls, question 5a. */
  { "Y11: 48 portions of 4 oz at a factor of 0.425 are 28.235 lb",
    4, CRO_UNIT_OZ, 42.5, 48, CRO_UNIT_LB, 28.235, 3, 29 },
  /* Culinary Math slides, ch. 9-10: 37.5 lb of 50 lb of potatoes. */
  { "Y18: 37.5 lb of potatoes at 75 % are 50 lb", 37.5, CRO_UNIT_LB, 75, 1, CRO_UNIT_LB, 50, 6, 50 },
};

static void
test_purchases (void **state)
{
  for (size_t i = 0; i < N_CASES (purchases); i++)
    {
      Planned self = { .book = book_new (1, 1, 1) };
      size_t line = book_add_line (self.book, 0, 0, M (purchases[i].amount), purchases[i].unit);
      double pack = cro_unit_factor (purchases[i].pack);

      self.book->lines.yield[line] = PCT (purchases[i].yield);
      assert_int_equal (book_order (self.book, NULL), 0);
      book_settle (self.book);
      self.times[0] = purchases[i].portions;
      run_plan (&self);
      expect_printed (purchases[i].says, self.need[0] / pack, purchases[i].needed,
                      purchases[i].places);
      expect_near (purchases[i].says, cro_plan_packs (self.need[0], pack), purchases[i].packs);
      book_free (self.book);
    }
}

static const struct
{
  const char *says;
  double      needed, pack, packs, left;
} packs[] = {
  { "nothing takes no pack", 0, 1000, 0, 0 },
  { "a pack that is just filled is one", 1000, 1000, 1, 0 },
  { "three tenths are three packs of a tenth", 0.1 + 0.2, 0.1, 3, 0 },
  { "what begins another pack takes it", 1000.01, 1000, 2, 999.99 },
  { "a trace of what comes by the kilogram takes a pack", 1e-7, 1000, 1, 1000 - 1e-7 },
  { "many packs count as well", 5e9, 1, 5e9, 0 },
};

static void
test_packs (void **state)
{
  for (size_t i = 0; i < N_CASES (packs); i++)
    {
      double n = cro_plan_packs (packs[i].needed, packs[i].pack);

      expect_near (packs[i].says, n, packs[i].packs);
      expect_near (packs[i].says, cro_plan_left (n * packs[i].pack, packs[i].needed), packs[i].left);
    }
}

/* --- What cannot be known -------------------------------------------------------------------------- */

enum
{
  T = CRO_PLAN_TAKEN,
  LEAST = CRO_PLAN_AT_LEAST,
  MOST = CRO_PLAN_AT_MOST,
};

static const struct
{
  const char *says;
  bool        is_served, knows_density, knows_amount, knows_stock;
  unsigned    row, output, raw;
} marks[] = {
  { "all is known", true, true, true, true, T, T, T },
  { "nothing is asked of what is not served", false, false, false, true, 0, 0, 0 },
  { "a line that cannot be converted takes more", true, false, true, true, T | LEAST, T | LEAST,
    T | LEAST },
  { "a batch of which the amount is not known runs more often", true, true, false, true, T | LEAST,
    T, T | LEAST },
  { "stock that cannot be converted leaves less", true, true, true, false, T | MOST, T | MOST,
    T | MOST },
  { "and both leave no bound", true, true, false, false, T | LEAST | MOST, T | MOST,
    T | LEAST | MOST },
};

/* A plate takes 2 ml of an output in grams, which is made of a raw. */
static void
test_marks (void **state)
{
  for (size_t i = 0; i < N_CASES (marks); i++)
    {
      Planned self = { .book = book_new (2, 2, 2) };
      Book *book = self.book;
      const CroPlanSource source = { self.times, self.smallest, self.used, self.in_house, NULL, 0 };
      uint8_t of_rows[2] = { 0 }, of_nodes[2] = { 0 };

      book_set_output (book, 0, 0, CRO_UNIT_G, marks[i].knows_amount ? M (100) : 0);
      book_set_measure (book, 0, CRO_BASE_GRAM, marks[i].knows_density ? M (1.1) : 0, 0);
      book_add_line (book, 0, 1, M (100), CRO_UNIT_G);
      book_add_line (book, 1, 0, M (2), CRO_UNIT_ML);
      assert_int_equal (book_order (book, NULL), 0);
      book_settle (book);
      self.times[book->graph.row_of_slot[1]] = marks[i].is_served;
      run_plan (&self);
      of_nodes[book->graph.node_of_item[0]] = marks[i].knows_stock ? 0 : MOST;
      cro_plan_mark (&book->graph, &book->lines, book->measure, &source, of_rows, of_nodes);
      expect (marks[i].says, of_rows[book->graph.row_of_slot[0]] == marks[i].row);
      expect (marks[i].says, of_nodes[book->graph.node_of_item[0]] == marks[i].output);
      expect (marks[i].says, of_nodes[book->graph.node_of_item[1]] == marks[i].raw);
      book_free (book);
    }
}

/* --- Against exact fractions ----------------------------------------------------------------------- */

typedef struct
{
  mpq_ptr need[EXACT_ITEMS], pan[EXACT_ITEMS], in_house[EXACT_ITEMS];   /* by item slot */
  mpq_ptr runs[EXACT_ROWS], batches[EXACT_ROWS], times[EXACT_ROWS];     /* by row slot */
  int64_t smallest[EXACT_ROWS];
  double  term[EXACT_ITEMS], row_term[EXACT_ROWS];                      /* largest that enters */
} Explosion;

static mpq_ptr
larger (mpq_ptr a,
        mpq_ptr b)
{
  return mpq_cmp (a, b) > 0 ? a : b;
}

/* ceil (r / s - 1e-9) s. */
static mpq_ptr
rounded_up (mpq_ptr runs,
            int64_t smallest)
{
  mpq_ptr parts = q_number (0, 1);

  if (smallest == 0)
    return runs;
  mpq_set (parts, q_sub (q_quo (runs, q_micro (smallest)), q_number (1, 1000000000)));
  mpz_cdiv_q (mpq_numref (parts), mpq_numref (parts), mpq_denref (parts));
  mpz_set_ui (mpq_denref (parts), 1);
  return larger (q_number (0, 1), q_mul (parts, q_micro (smallest)));
}

static void
explode_row (Explosion   *self,
             const Exact *exact,
             uint32_t     row)
{
  const Book *book = exact->book;
  bool is_made = false;

  self->runs[row] = self->times[row];
  self->row_term[row] = q_size (self->times[row]);
  for (uint32_t i = 0; i < book->n_items; i++)
    if (book->maker[i] == (int32_t) row)
      {
        is_made = true;
        if (q_is_zero (exact->used[i]))
          continue;
        self->runs[row] = larger (self->runs[row], q_quo (q_sub (self->need[i], self->in_house[i]),
                                                          exact->used[i]));
        self->row_term[row] = fmax (self->row_term[row], self->term[i] / q_size (exact->used[i]));
      }
  self->batches[row] = is_made ? rounded_up (self->runs[row], self->smallest[row]) : self->runs[row];
  self->row_term[row] = fmax (self->row_term[row], q_size (self->batches[row]));
  for (uint32_t i = 0; i < book->n_items; i++)
    {
      mpq_ptr filled = q_number (0, 1);

      for (size_t l = 0; l < book->lines.n; l++)
        if (book->lines.row[l] == (int32_t) row && book->lines.item[l] == i)
          {
            self->need[i] = q_add (self->need[i], q_mul (self->batches[row], exact->charged[l]));
            self->term[i] += self->row_term[row] * q_size (exact->charged[l]);
            filled = q_add (filled, q_quo (exact->charged[l],
                                           q_sub (q_number (1, 1),
                                                  q_pct (book->lines.recovered[l]))));
          }
      if (is_made && book->maker[i] < 0 && mpq_sgn (self->batches[row]) > 0)
        self->pan[i] = larger (self->pan[i],
                               q_mul (filled, mpq_cmp_ui (self->runs[row], 1, 1) < 0
                                                  ? self->runs[row] : q_number (1, 1)));
    }
}

static void
expect_within (const char *says,
               double      got,
               mpq_srcptr  exact,
               double      term)
{
  mpq_ptr difference = q_number (0, 1);

  assert_true (isfinite (got));
  mpq_set_d (difference, got);
  if (q_size (q_sub (difference, exact)) > 1e-12 * term)
    fail_msg ("does not hold: %s (got %.17g, exact %.17g, largest term %g)", says, got,
              mpq_get_d (exact), term);
}

static double
tenths (uint64_t *state,
        mpq_ptr  *exact)
{
  long n = random_below (state, 3) == 0 ? (long) random_below (state, 4000) : 0;

  *exact = q_number (n, 8);
  return (double) n / 8;
}

static void
draw (Planned   *self,
      Explosion *exact,
      uint64_t  *state)
{
  static const int64_t parts[] = { 0, 0, CRO_MICRO, CRO_MICRO / 2, 333333 };
  const CroGraph *graph = &self->book->graph;

  for (uint32_t i = 0; i < self->book->n_items; i++)
    {
      exact->need[i] = exact->pan[i] = q_number (0, 1);
      exact->term[i] = 0;
      self->in_house[graph->node_of_item[i]] = tenths (state, &exact->in_house[i]);
    }
  for (uint32_t slot = 0; slot < self->book->n_rows; slot++)
    {
      uint32_t row = graph->row_of_slot[slot];

      exact->times[slot] = q_number (0, 1);
      if (graph->made[row] == graph->made[row + 1])
        self->times[row] = tenths (state, &exact->times[slot]);
      self->smallest[row] = exact->smallest[slot] = parts[random_below (state, N_CASES (parts))];
    }
}

static void
expect_explosion (const Planned   *self,
                  const Explosion *exact)
{
  const CroGraph *graph = &self->book->graph;

  for (uint32_t slot = 0; slot < self->book->n_rows; slot++)
    {
      uint32_t row = graph->row_of_slot[slot];

      expect_within ("a row runs as often as exactly", self->runs[row], exact->runs[slot],
                     exact->row_term[slot]);
      expect_within ("in as many batches", self->batches[row], exact->batches[slot],
                     exact->row_term[slot]);
    }
  for (uint32_t i = 0; i < self->book->n_items; i++)
    {
      uint32_t node = graph->node_of_item[i];
      mpq_ptr cover = larger (exact->need[i], exact->pan[i]);

      expect_within ("as much is needed", self->need[node], exact->need[i], exact->term[i]);
      expect_within ("and the pan is as large", fmax (self->need[node], self->pan[node]), cover,
                     fmax (exact->term[i], q_size (cover)));
    }
}

static void
test_exact (void **state)
{
  static const RandomSize size = { 8, 12, 4, 6, false };

  for (uint64_t seed = 1; seed <= N_BOOKS; seed++)
    {
      static Exact exact;
      uint64_t number = seed * UINT64_C (0x9e3779b97f4a7c15);
      uint32_t *parts_first;
      Planned self = { .book = random_book_new (&number, &size, &parts_first) };
      Explosion explosion = { 0 };

      exact_cost (&exact, self.book, parts_first);
      draw (&self, &explosion, &number);
      for (size_t k = self.book->n_rows; k-- > 0;)
        explode_row (&explosion, &exact, parts_first[k]);
      run_plan (&self);
      expect_explosion (&self, &explosion);
      book_free (self.book);
      free (parts_first);
      q_reuse_all ();
    }
  q_free_all ();
}

/* What is made stands before what takes it. */
static void
test_order_of_making (void **state)
{
  static const RandomSize size = { 8, 12, 4, 6, false };

  for (uint64_t seed = 1; seed <= 300; seed++)
    {
      uint64_t number = seed;
      Book *book = random_book_new (&number, &size, NULL);
      uint32_t depth[EXACT_ROWS];

      cro_plan_depths (&book->graph, depth);
      for (size_t l = 0; l < book->lines.n; l++)
        if (book->maker[book->lines.item[l]] >= 0)
          expect ("what is made stands before what takes it",
                  depth[book->graph.row_of_slot[book->maker[book->lines.item[l]]]]
                      < depth[book->graph.row_of_slot[book->lines.row[l]]]);
      book_free (book);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_one_batch),
    cmocka_unit_test (test_pans_add_up_within_a_batch),
    cmocka_unit_test (test_purchases),
    cmocka_unit_test (test_packs),
    cmocka_unit_test (test_marks),
    cmocka_unit_test (test_exact),
    cmocka_unit_test (test_order_of_making),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
