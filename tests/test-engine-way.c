/* Choices of a menu: no source outside the project is known for them; expected figures are worked
 * by hand from the rule in the header. */
#include "near.h"

#include "cro-way.h"

#define M(x) ((int64_t) ((x) * 1e6 + 0.5))
#define MAX 5
#define EMPTY CRO_NO_SHARE
#define ALL CRO_NO_CHOICE

static const struct
{
  const char *says;
  CroWayPlate plates[MAX];
  size_t      n;
  double      parts[MAX];
  size_t      bad;            /* n: none */
} shares[] = {
  { "what stands in no choice every guest has", { { ALL, EMPTY } }, 1, { 1 }, 1 },
  { "a share without a choice counts for nothing", { { ALL, M (20) } }, 1, { 1 }, 1 },
  { "a choice of one is taken by all", { { 0, EMPTY } }, 1, { 1 }, 1 },
  { "without shares alternatives are taken alike", { { 0, EMPTY }, { 0, EMPTY } }, 2, { 0.5, 0.5 }, 2 },
  { "with shares as they say", { { 0, M (30) }, { 0, M (70) } }, 2, { 0.3, 0.7 }, 2 },
  { "what is left is shared by the others",
    { { 0, M (40) }, { 0, EMPTY }, { 0, EMPTY } }, 3, { 0.4, 0.3, 0.3 }, 3 },
  { "where nothing is left they are never taken",
    { { 0, M (100) }, { 0, EMPTY } }, 2, { 1, 0 }, 2 },
  { "choices are settled apart, in whatever order they stand",
    { { 0, M (25) }, { 1, EMPTY }, { ALL, EMPTY }, { 1, EMPTY }, { 0, EMPTY } }, 5,
    { 0.25, 0.5, 1, 0.5, 0.75 }, 5 },
  { "thirds need no whole millionths",
    { { 0, EMPTY }, { 0, EMPTY }, { 0, EMPTY } }, 3, { 1 / 3.0, 1 / 3.0, 1 / 3.0 }, 3 },
  { "99.999999 per cent are not 100", { { ALL, EMPTY }, { 0, M (99.999999) } }, 2,
    { 1, 0.99999999 }, 1 },
  { "nor are 110, and what has none is taken never",
    { { 0, M (60) }, { 0, M (50) }, { 0, EMPTY } }, 3, { 0.6, 0.5, 0 }, 0 },
};

static void
test_parts (void **state)
{
  for (size_t i = 0; i < N_CASES (shares); i++)
    {
      double part[MAX];

      expect (shares[i].says, cro_way_parts (shares[i].plates, shares[i].n, part) == shares[i].bad);
      for (size_t k = 0; k < shares[i].n; k++)
        expect_near (shares[i].says, part[k], shares[i].parts[k]);
    }
}

static const struct
{
  const char *says;
  int32_t     choice[MAX];
  double      cost[MAX];
  size_t      n;
  double      cheapest, dearest;
  bool        has_choice;
} ranges[] = {
  { "without a choice there is one way", { ALL, ALL }, { 2, 3 }, 2, 5, 5, false },
  { "a menu without plates costs nothing", { 0 }, { 0 }, 0, 0, 0, false },
  { "of each choice one is taken", { 0, 0, ALL }, { 2, 3, 10 }, 3, 12, 13, true },
  { "and of two choices any with any", { 0, 1, 0, 1 }, { 2, 30, 3, 20 }, 4, 22, 33, true },
  { "a choice of one is a choice all the same", { 0, ALL }, { 2, 3 }, 2, 5, 5, true },
  { "what is credited may cost below nothing", { 0, 0 }, { -2, 1 }, 2, -2, 1, true },
};

static void
test_range (void **state)
{
  for (size_t i = 0; i < N_CASES (ranges); i++)
    {
      CroWayPlate plates[MAX];
      double cheapest, dearest;

      for (size_t k = 0; k < ranges[i].n; k++)
        plates[k] = (CroWayPlate){ ranges[i].choice[k], CRO_NO_SHARE };
      expect (ranges[i].says, cro_way_range (plates, ranges[i].cost, ranges[i].n, &cheapest,
                                             &dearest) == ranges[i].has_choice);
      expect_near (ranges[i].says, cheapest, ranges[i].cheapest);
      expect_near (ranges[i].says, dearest, ranges[i].dearest);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_parts),
    cmocka_unit_test (test_range),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
