#include "near.h"

#include "cro-decimal.h"
#include "cro-line.h"

#define M(x) ((int64_t) ((x) * 1e6 + 0.5))
#define G CRO_BASE_GRAM
#define ML CRO_BASE_MILLILITRE
#define EACH CRO_BASE_EACH

/* One line, in columns of its own. */
typedef struct
{
  int32_t  row, yield, recovered;
  uint32_t item;
  int64_t  position, amount;
  uint8_t  unit, whole;
  CroLines lines;
} OneLine;

static const CroLines *
one_line (OneLine *line,
          double   amount,
          CroUnit  unit,
          double   yield,
          double   recovered,
          bool     whole)
{
  *line = (OneLine){ .amount = M (amount),
                     .unit = (uint8_t) unit,
                     .yield = (int32_t) M (yield),
                     .recovered = (int32_t) M (recovered),
                     .whole = whole };
  line->lines = (CroLines){ .n = 1,
                            .row = &line->row,
                            .item = &line->item,
                            .position = &line->position,
                            .amount = &line->amount,
                            .yield = &line->yield,
                            .recovered = &line->recovered,
                            .unit = &line->unit,
                            .whole = &line->whole };
  return &line->lines;
}

/* Percentages; 0 = not set. */
static const struct
{
  const char *says;
  double      amount;
  CroUnit     unit;
  double      yield, recovered;
  bool        whole;
  CroBase     base;
  double      trim;
  double      net, charged;
} cases[] = {
  { "what has no yield is charged as it is",
    250, CRO_UNIT_G, 0, 0, false, G, 0, 250, 250 },
  { "half lost to trim is charged twice", 100, CRO_UNIT_G, 0, 0, false, G, 50, 100, 200 },
  { "what is weighed whole is charged as it is", 100, CRO_UNIT_G, 0, 0, true, G, 50, 100, 100 },
  { "an own yield replaces the trim yield", 100, CRO_UNIT_G, 80, 0, false, G, 50, 100, 125 },
  { "pieces are counted as purchased", 10, CRO_UNIT_EACH, 0, 0, false, EACH, 50, 10, 10 },
  { "also by the dozen", 1, CRO_UNIT_DOZEN, 0, 0, false, EACH, 50, 12, 12 },
  { "only an own yield divides pieces", 10, CRO_UNIT_EACH, 80, 0, false, EACH, 50, 10, 12.5 },
  { "volumes are trimmed too", 1, CRO_UNIT_L, 0, 0, false, ML, 80, 1000, 1250 },
  { "soaking gives more than it takes", 100, CRO_UNIT_G, 250, 0, false, G, 0, 100, 40 },
  { "a recovered part is neither charged nor kept",
    2, CRO_UNIT_KG, 0, 90, false, G, 0, 200, 200 },
  { "recovered after trimming", 1, CRO_UNIT_KG, 50, 75, false, G, 0, 250, 500 },
  { "metric spoons", 2, CRO_UNIT_TBSP, 0, 0, false, ML, 0, 30, 30 },
  { "a milligram is a thousandth", 1, CRO_UNIT_MG, 0, 0, false, G, 0, 0.001, 0.001 },
  { "the smallest amount", 0.000001, CRO_UNIT_G, 0, 0, false, G, 0, 1e-6, 1e-6 },
  { "nothing is nothing", 0, CRO_UNIT_KG, 50, 0, false, G, 0, 0, 0 },

  /* Basic Kitchen and Food Service Management (BCcampus 2015), Yield Testing and Example 12. */
  { "Y1: 1 kg of carrots gives 800 g", 800, CRO_UNIT_G, 80, 0, false, G, 0, 800, 1000 },
  { "Y2: 1750 g of tenderloin take 2500 g", 1750, CRO_UNIT_G, 70, 0, false, G, 0, 1750, 2500 },
  /* Culinary Math slides ch. 9-10. */
  { "Y18: 37.5 lb of potatoes take 50 lb",
    37.5, CRO_UNIT_LB, 75, 0, false, G, 0, 37.5 * 453.59237, 50 * 453.59237 },
  /* G. Wall, Trade Calculations, objective 4; Ontario Pork, Costing for Foodservice. */
  { "Y16: 3.75 kg of loin take 5 kg", 3.75, CRO_UNIT_KG, 75, 0, false, G, 0, 3750, 5000 },
};

static void
test_net_and_charged (void **state)
{
  for (size_t i = 0; i < N_CASES (cases); i++)
    {
      CroMeasure item = cro_measure_make (cases[i].base, 0, 0);
      OneLine line;
      const CroLines *lines = one_line (&line, cases[i].amount, cases[i].unit, cases[i].yield,
                                        cases[i].recovered, cases[i].whole);

      item.is_bought = true;
      item.trim_yield = (int32_t) M (cases[i].trim);
      expect_near (cases[i].says, cro_line_net (lines, 0, &item), cases[i].net);
      expect_near (cases[i].says, cro_line_charged (lines, 0, &item), cases[i].charged);
    }
}

/* What a source prints for an amount as purchased: amount / yield, in the unit of the amount. */
static const struct
{
  const char *says;
  double      amount;
  CroUnit     unit;
  double      yield;
  double      printed;
  int         places;
} purchases[] = {
  /* Basic Kitchen, Example 12; the yield printed is 64.516 %. */
  { "Y3: 5000 g of salmon take 7750 g", 5000, CRO_UNIT_G, 64.516129, 7750.00, 2 },
  /* Basic Kitchen, Cooking Loss Test: cost factor per kg 0.2931 / 0.125 = 2.3448. */
  { "Y6: a portion of 125 g at 2.3448 takes 0.2931 kg",
    0.125, CRO_UNIT_KG, 100 / 2.3448, 0.2931, 4 },
  /* Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost Controls, question 5a. */
  { "Y11: 48 portions of 4 oz take 28.235 lb", 12, CRO_UNIT_LB, 42.5, 28.235, 3 },
  /* holt.blue MTH 81 ch. 8 prints 1428.27: a misprint. */
  { "Y19: 200 x 4 oz of asparagus take 1428.571 oz", 800, CRO_UNIT_OZ, 56, 1428.571, 3 },
  /* Washington DFW memo, 19 Nov 2004: 16.2, 19.2, 21.8 % in one month. Computed from them. */
  { "Y31: 1 kg of crab meat took 6.173 kg of crab", 1, CRO_UNIT_KG, 16.2, 6.173, 3 },
  { "Y31: and 4.587 kg in the same month", 1, CRO_UNIT_KG, 21.8, 4.587, 3 },
  /* SeafoodSource handbook, Lobster: 4 to 6 lobsters of 1 to 1.25 lb for 1 lb of meat. */
  { "Y32: 1 lb of meat takes at most 7.5 lb of lobster", 1, CRO_UNIT_LB, 13.333333, 7.5, 4 },
  /* Purdue 4-H Foods, Shellfish. */
  { "Y33: 0.75 lb of cleaned shrimp take 1 lb", 0.75, CRO_UNIT_LB, 75, 1, 4 },
};

static void
test_purchases (void **state)
{
  for (size_t i = 0; i < N_CASES (purchases); i++)
    {
      CroMeasure item = cro_measure_make (G, 0, 0);
      OneLine line;
      const CroLines *lines = one_line (&line, purchases[i].amount, purchases[i].unit,
                                        purchases[i].yield, 0, false);

      expect_printed (purchases[i].says,
                      cro_line_charged (lines, 0, &item) / cro_unit_factor (purchases[i].unit),
                      purchases[i].printed, purchases[i].places);
    }
}

/* EP cost = AP cost / yield: per unit of what is usable. */
static const struct
{
  const char *says;
  double      price;
  double      yield;
  double      printed;
  int         places;
} ep_costs[] = {
  { "Y2: cost factor 1.42857 (Basic Kitchen prints 1.42)", 1, 70, 1.42857, 5 },
  { "Y3: cost factor 1.55", 1, 64.516129, 1.55, 6 },
  { "Y14: striploin 13.5087 a kg (the rounded yield gives 13.5028)",
    11.95, 100 * 4.6 / 5.2, 13.5087, 4 },
  { "Y16: loin 6.6667 a kg", 5, 75, 6.6667, 4 },
  /* Vancouver Community College Learning Centre, Recipe Costing: 7.465 through the factor
   * rounded to 1.333; one line prints "100/80", a misprint for 100/75. */
  { "Y17: apples 7.4667", 5.60, 75, 7.4667, 4 },
  { "Y18: potatoes 2.48", 1.86, 75, 2.48, 6 },
  { "Y13: lamb rack 282.97 a kg after 5 % and 7 % (printed 282.96): losses multiply",
    250, 0.95 * 93, 282.97, 2 },
};

static void
test_ep_costs (void **state)
{
  for (size_t i = 0; i < N_CASES (ep_costs); i++)
    {
      CroMeasure item = cro_measure_make (G, 0, 0);
      OneLine line;
      const CroLines *lines = one_line (&line, 1000, CRO_UNIT_G, ep_costs[i].yield, 0, false);

      expect_printed (ep_costs[i].says,
                      cro_line_charged (lines, 0, &item) / 1000 * ep_costs[i].price,
                      ep_costs[i].printed, ep_costs[i].places);
    }
}

/* Y5: pork loin 12.14 to 13.00 a kilogram: what was usable at the old price costs 1.07084 times as
 * much, with no new test (Basic Kitchen). The old usable cost is 12.14 / 0.68 by hand, so that a
 * yield that was taken wrongly does not cancel. */
static void
test_price_moves_alone (void **state)
{
  const double old_usable_cost = 17.852941;
  CroMeasure item = cro_measure_make (G, 0, 0);
  OneLine line;
  const CroLines *lines = one_line (&line, 1, CRO_UNIT_KG, 68, 0, false);

  expect_printed ("Y5: at the same yield usable cost moves as the price, by 1.07084",
                  cro_line_charged (lines, 0, &item) * 13.00 / 1000 / old_usable_cost, 1.07084, 5);
}

/* 0 = not set. grams < 0: cannot be weighed. */
static const struct
{
  const char *says;
  double      amount;
  CroUnit     unit;
  CroBase     base;
  double      density, piece;
  double      net, grams;
  unsigned    lacks, weight_lacks;
} conversions[] = {
  { "grams of grams", 3, CRO_UNIT_G, G, 0, 0, 3, 3, 0, 0 },
  { "a litre of what is costed by weight", 1, CRO_UNIT_L, G, 1.05, 0, 1050, 1050, 0, 0 },
  { "grams of what is costed by volume", 21, CRO_UNIT_G, ML, 1.05, 0, 20, 21, 0, 0 },
  { "pieces of what is costed by weight", 3, CRO_UNIT_EACH, G, 0, 40, 120, 120, 0, 0 },
  { "grams of what is costed by the piece", 120, CRO_UNIT_G, EACH, 0, 40, 3, 120, 0, 0 },
  { "spoons of what is costed by the piece", 4, CRO_UNIT_TSP, EACH, 1.2, 24, 1, 24, 0, 0 },
  { "pieces of what is costed by volume", 2, CRO_UNIT_EACH, ML, 0.5, 25, 100, 50, 0, 0 },
  { "no density for brine: 2 tbsp cannot be weighed",
    2, CRO_UNIT_TBSP, G, 0, 5, 0, 0, CRO_LACKS_DENSITY, CRO_LACKS_DENSITY },
  { "but cost what they cost by volume",
    2, CRO_UNIT_TBSP, ML, 0, 5, 30, 0, 0, CRO_LACKS_DENSITY },
  { "no piece weight", 2, CRO_UNIT_EACH, G, 1, 0, 0, 0, CRO_LACKS_PIECE, CRO_LACKS_PIECE },
  { "pieces cost by the piece without one",
    2, CRO_UNIT_EACH, EACH, 1, 0, 2, 0, 0, CRO_LACKS_PIECE },
  { "pieces by volume: both",
    2, CRO_UNIT_EACH, ML, 0, 0, 0, 0, CRO_LACKS_DENSITY | CRO_LACKS_PIECE, CRO_LACKS_PIECE },
  { "pieces by volume: the one that lacks",
    2, CRO_UNIT_EACH, ML, 0, 7, 0, 14, CRO_LACKS_DENSITY, 0 },
  { "volume by pieces: the one that lacks",
    2, CRO_UNIT_ML, EACH, 2, 0, 0, 4, CRO_LACKS_PIECE, 0 },
  /* FAO/INFOODS Density Database v1.0 (2011): water at 20 C 0.998, ice at 0 C 0.916 g/ml. */
  { "U13: a litre of water", 1, CRO_UNIT_L, G, 0.998, 0, 998, 998, 0, 0 },
  { "U13: a kilogram of ice in litres", 0.916, CRO_UNIT_KG, ML, 0.916, 0, 1000, 916, 0, 0 },
  /* math25.net, Kitchen Math: 9 lb 6 oz is 9.375 lb. */
  { "U14: 9.375 lb is 150 oz", 9.375, CRO_UNIT_LB, G, 0, 0, 150 * 28.349523125,
    150 * 28.349523125, 0, 0 },
};

static void
test_conversions (void **state)
{
  for (size_t i = 0; i < N_CASES (conversions); i++)
    {
      CroMeasure item = cro_measure_make (conversions[i].base, conversions[i].density,
                                          conversions[i].piece);
      CroLack lack;
      OneLine line;
      const CroLines *lines = one_line (&line, conversions[i].amount, conversions[i].unit, 0, 0,
                                        false);

      expect_near (conversions[i].says, cro_line_net (lines, 0, &item), conversions[i].net);
      expect_near (conversions[i].says, cro_line_charged (lines, 0, &item), conversions[i].net);
      expect (conversions[i].says, cro_line_lacks (lines, 0, &item) == conversions[i].lacks);
      expect_near (conversions[i].says, cro_line_grams (lines, 0, &item, &lack),
                   conversions[i].grams);
      expect (conversions[i].says, lack == conversions[i].weight_lacks);
    }
}

static const struct
{
  const char *says;
  CroUnit     unit;
  double      yield, trim;
  bool        whole, is_bought;
  bool        is_assumed;
} assumptions[] = {
  { "weighed trimmed of what has no trim yield", CRO_UNIT_G, 0, 0, false, true, true },
  { "by volume too", CRO_UNIT_TSP, 0, 0, false, true, true },
  { "not where the yield is known", CRO_UNIT_G, 0, 80, false, true, false },
  { "not where the line has its own", CRO_UNIT_G, 80, 0, false, true, false },
  { "not what is weighed whole", CRO_UNIT_G, 0, 0, true, true, false },
  { "not what is counted", CRO_UNIT_EACH, 0, 0, false, true, false },
  { "not what a batch gives", CRO_UNIT_G, 0, 0, false, false, false },
};

static void
test_assumed (void **state)
{
  for (size_t i = 0; i < N_CASES (assumptions); i++)
    {
      CroMeasure item = cro_measure_make (G, 1, 1);
      OneLine line;
      const CroLines *lines = one_line (&line, 1, assumptions[i].unit, assumptions[i].yield, 0,
                                        assumptions[i].whole);

      item.is_bought = assumptions[i].is_bought;
      item.trim_yield = (int32_t) M (assumptions[i].trim);
      expect (assumptions[i].says,
              cro_line_is_assumed (lines, 0, &item) == assumptions[i].is_assumed);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_net_and_charged), cmocka_unit_test (test_purchases),
    cmocka_unit_test (test_ep_costs),        cmocka_unit_test (test_price_moves_alone),
    cmocka_unit_test (test_conversions),     cmocka_unit_test (test_assumed),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
