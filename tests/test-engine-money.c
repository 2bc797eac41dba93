#include "near.h"
#include "random-book.h"

#include "cro-money.h"

#include <inttypes.h>
#include <stdlib.h>

#define MAX_PARTS 6

static const struct
{
  const char *says;
  double      amount;
  int         digits;
  int64_t     minor;
} roundings[] = {
  { "below a half goes down", 1.234, 2, 123 },
  { "a half goes up", 0.125, 2, 13 },
  { "away from zero", -0.125, 2, -13 },
  { "1.005 is a half that no double holds", 1.005, 2, 101 },
  { "so is -1.005", -1.005, 2, -101 },
  { "8.475 too", 8.475, 2, 848 },
  { "what is really below stays below", 1.00499999, 2, 100 },
  { "nothing is nothing", 0, 2, 0 },
  { "and has no sign", -0.0, 2, 0 },
  { "less than half a cent is nothing", -0.0049, 2, 0 },
  /* ISO 4217 List One, 2024-06-25: JPY none, EUR 2, KWD 3, CLF 4. */
  { "C6: yen have no minor unit", 1234.5, 0, 1235 },
  { "C6: euros have two digits", 1234.565, 2, 123457 },
  { "C6: dinars three", 1.2345, 3, 1235 },
  { "C6: unidades de fomento four", 1.23455, 4, 12346 },
  /* holt.blue MTH 81, ch. 9 and 11. */
  { "Y22: 200 portions, 23.8958: 23.90", 200 * 22.94 / 192, 2, 2390 },
  { "Y23: 173.89 / 200 at 25 %: 3.48", 173.89 / 200 / 0.25, 2, 348 },
  /* CFWV, Real-Life Math solution: 91.16 from rounded lines, 91.155 exactly. */
  { "Y26: a sum is rounded once",
    14.50 + 9.45 + 3.99 + 1.79 + 29.90 + 27.93 + 2.35 + 0.5 * 2.49, 2, 9116 },
  { "a large whole amount stays as it is", 6e11, 0, INT64_C (600000000000) },
  { "and larger", 8e13, 2, INT64_C (8000000000000000) },
  { "a cent of ten thousand millions is kept", 1e10 + 0.01, 2, INT64_C (1000000000001) },
  { "beyond int64 it saturates", 1e30, 2, INT64_MAX },
  { "at both ends", -1e30, 2, INT64_MIN },
  { "infinity too", INFINITY, 2, INT64_MAX },
};

static void
test_round (void **state)
{
  for (size_t i = 0; i < N_CASES (roundings); i++)
    expect (roundings[i].says,
            cro_money_round (roundings[i].amount, roundings[i].digits) == roundings[i].minor);
}

/* Of sums that no book should hold the difference still says which is more. */
static void
test_apart (void **state)
{
  expect ("each is rounded", cro_money_apart (0.125, 0.115, 2) == 1);
  expect ("less is below 0", cro_money_apart (1, 63286691000269.07, 2) == INT64_C (-6328669100026807));
  expect ("beyond int64 it saturates", cro_money_apart (1e30, -1e30, 2) == INT64_MAX);
  expect ("at both ends", cro_money_apart (-1e30, 1e30, 2) == INT64_MIN);
}

static const struct
{
  const char *says;
  double      amount;
  int64_t     up;
  int64_t     down;
} limits[] = {
  { "what is whole stays", 12.34, 1234, 1234 },
  { "a price that meets a target goes up, a ceiling down", 12.341, 1235, 1234 },
  { "however little is over", 12.34001, 1235, 1234 },
  { "however little is short", 12.34999, 1235, 1234 },
  { "a cent that no double holds is one", 0.1 + 0.2, 30, 30 },
  { "what is over by less than is allowed for is not", 12.34 * (1 + 5e-10), 1234, 1234 },
  { "nor what is short by that", 12.34 * (1 - 5e-10), 1234, 1234 },
  { "below nothing up is towards it", -12.341, -1234, -1235 },
  { "of large figures half a unit is allowed for at most", 2e9 + 0.004, 200000000000,
    200000000000 },
};

static void
test_round_up_and_down (void **state)
{
  for (size_t i = 0; i < N_CASES (limits); i++)
    {
      expect (limits[i].says, cro_money_round_up (limits[i].amount, 2) == limits[i].up);
      expect (limits[i].says, cro_money_round_down (limits[i].amount, 2) == limits[i].down);
    }
}

static const struct
{
  const char *says;
  double      figure;
  double      limit;
  bool        above;
  int         decimals;
} against[] = {
  { "above, and seen to be", 31, 30, true, 1 },
  { "above by less than a decimal shows", 30.04, 30, true, 2 },
  { "below likewise", 29.996, 30, false, 3 },
  { "the same", 30, 30, false, 1 },
  { "the same but for what is allowed", 30 * (1 + 5e-10), 30, false, 1 },
  { "the same of a limit below nothing", -30 * (1 - 5e-10), -30, false, 1 },
  { "above by more than that is above, though six decimals do not show it", 30 * (1 + 5e-9), 30,
    true, 6 },
};

static void
test_against_a_limit (void **state)
{
  for (size_t i = 0; i < N_CASES (against); i++)
    {
      double figure = against[i].figure, limit = against[i].limit;

      expect (against[i].says, cro_is_above (figure, limit) == against[i].above);
      expect (against[i].says, cro_decimals_apart (figure, limit, 1) == against[i].decimals);
    }
}

static const struct
{
  const char *says;
  int64_t     total;
  double      parts[MAX_PARTS];
  size_t      n;
  int         digits;
  int64_t     minor[MAX_PARTS];
} splits[] = {
  { "whole cents stay", 300, { 1, 2 }, 2, 2, { 100, 200 } },
  { "a cent left goes to the largest fraction",
    100, { 0.333, 0.334, 0.333 }, 3, 2, { 33, 34, 33 } },
  { "ties in order", 100, { 1 / 3.0, 1 / 3.0, 1 / 3.0 }, 3, 2, { 34, 33, 33 } },
  { "rounding noise makes no tie uneven", 201, { 1.005, 1.005 }, 2, 2, { 101, 100 } },
  { "nor a size", 12347, { 123.455, 0.005, 0.005 }, 3, 2, { 12346, 1, 0 } },
  { "a whole number a hair below counts as whole",
    87, { 0.29, 0.29, 0.29 }, 3, 2, { 29, 29, 29 } },
  { "two cents left go to the two largest", 4, { 0.019, 0.012, 0.018 }, 3, 2, { 2, 1, 1 } },
  { "negative parts are floored too", -1, { -0.015, 0.005 }, 2, 2, { -1, 0 } },
  { "parts of both signs", 100, { 1.996, -0.996 }, 2, 2, { 200, -100 } },
  { "yen", 10, { 3.4, 3.3, 3.3 }, 3, 0, { 4, 3, 3 } },
  { "one part takes it all", 101, { 1.005 }, 1, 2, { 101 } },
  { "a total above the parts is shared evenly, then by fraction",
    17, { 0.031, 0.032, 0.03 }, 3, 2, { 6, 6, 5 } },
  { "a total below them likewise", 4, { 0.031, 0.032, 0.03 }, 3, 2, { 1, 2, 1 } },
  { "large sums are not rounded up from nothing",
    INT64_C (1200000000001), { 6e11, 6e11 + 0.75 }, 2, 0,
    { INT64_C (600000000000), INT64_C (600000000001) } },
};

static void
test_apportion (void **state)
{
  for (size_t i = 0; i < N_CASES (splits); i++)
    {
      uint64_t order[MAX_PARTS];
      int64_t minor[MAX_PARTS];

      cro_money_apportion (splits[i].total, splits[i].parts, splits[i].n, splits[i].digits, order,
                           minor);
      for (size_t k = 0; k < splits[i].n; k++)
        if (minor[k] != splits[i].minor[k])
          fail_msg ("does not hold: %s (part %zu is %" PRId64 ")", splits[i].says, k, minor[k]);
    }
}

/* Memory checks say what a sum out of range does. */
static void
test_apportion_too_much (void **state)
{
  static const double parts[] = { 1e300, -1e17, 0.125 };
  uint64_t order[3];
  int64_t minor[3];

  cro_money_apportion (INT64_MAX, parts, 3, 2, order, minor);
  assert_int_equal (minor[0], INT64_MAX);
  assert_int_equal (minor[1], INT64_MIN);
  assert_int_equal (minor[2], 13);
}

static void
test_apportion_nothing (void **state)
{
  int64_t minor = 7;

  cro_money_apportion (100, NULL, 0, 2, NULL, &minor);
  expect ("no part takes nothing", minor == 7);
}

/* The rule in whole numbers: parts in hundredths of a minor unit, units handed out one by one. */
static void
apportion_slowly (int64_t        total,
                  const int64_t *parts,
                  size_t         n,
                  int64_t       *minor)
{
  bool *has_got = calloc (n, sizeof *has_got);

  for (size_t i = 0; i < n; i++)
    {
      minor[i] = parts[i] / 100 - (parts[i] % 100 < 0);
      total -= minor[i];
    }
  for (; total > 0; total--)
    {
      size_t best = n;
      int64_t largest = -1;

      for (size_t i = 0; i < n; i++)
        {
          int64_t fraction = (parts[i] % 100 + 100) % 100;

          if (!has_got[i] && fraction > largest)
            {
              largest = fraction;
              best = i;
            }
        }
      has_got[best] = true;
      minor[best]++;
    }
  free (has_got);
}

/* Parts of a few cents to a few millions, of both signs, with a half as often as not. */
static void
test_apportion_exactly (void **state)
{
  enum { MOST = 40 };
  uint64_t random = 20261125;

  for (int round = 0; round < 5000; round++)
    {
      size_t n = 1 + random_below (&random, MOST);
      int64_t exact[MOST], wanted[MOST], minor[MOST], sum = 0, total;
      double parts[MOST];
      uint64_t order[MOST];

      for (size_t i = 0; i < n; i++)
        {
          exact[i] = (int64_t) random_below (&random, round % 2 ? 2000 : 40000000000) - 500;
          if (random_below (&random, 2) == 0)
            exact[i] -= exact[i] % 50;
          sum += exact[i];
          parts[i] = (double) exact[i] / 1e4;
        }
      total = (sum + (sum < 0 ? -50 : 50)) / 100;
      apportion_slowly (total, exact, n, wanted);
      cro_money_apportion (total, parts, n, 2, order, minor);
      for (size_t i = 0; i < n; i++)
        {
          expect ("units go where exact arithmetic sends them", minor[i] == wanted[i]);
          total -= minor[i];
        }
      expect ("parts add up to the total", total == 0);
    }
}

/* Far more parts than a quadratic way would ever finish. */
static void
test_apportion_many (void **state)
{
  enum { N = 1000000 };
  double *parts = malloc (N * sizeof *parts);
  uint64_t *order = malloc (N * sizeof *order);
  int64_t *minor = malloc (N * sizeof *minor);
  int64_t sum = 0;

  for (size_t i = 0; i < N; i++)
    parts[i] = 0.005;
  cro_money_apportion (N / 2, parts, N, 2, order, minor);
  for (size_t i = 0; i < N; i++)
    {
      sum += minor[i];
      expect ("a million halves: the first of them get the cents", minor[i] == (i < N / 2));
    }
  expect ("and all is handed out", sum == N / 2);
  free (parts);
  free (order);
  free (minor);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_apart),
    cmocka_unit_test (test_round),           cmocka_unit_test (test_round_up_and_down),
    cmocka_unit_test (test_against_a_limit), cmocka_unit_test (test_apportion),
    cmocka_unit_test (test_apportion_too_much),
    cmocka_unit_test (test_apportion_nothing), cmocka_unit_test (test_apportion_exactly),
    cmocka_unit_test (test_apportion_many),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
