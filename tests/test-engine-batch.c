#include "near.h"

#include "cro-batch.h"
#include "cro-decimal.h"

#include <string.h>

#define M(x) ((int64_t) ((x) * 1e6 + 0.5))
#define MAX_OUTPUTS 5

#define FREE CRO_RULE_FREE
#define WEIGHT CRO_RULE_WEIGHT
#define VALUE CRO_RULE_VALUE
#define CREDIT CRO_RULE_CREDIT

#define LB CRO_UNIT_LB

/* amount or yield (per cent), 0 = not set; value per unit, negative = not set; density and
 * piece, 0 = not set. */
typedef struct
{
  CroUnit unit;
  double  amount;
  double  yield;
  double  value;
  double  density, piece;
} Written;

/* lost: per cent of each; NULL: nothing. */
static void
share_less_lost (CroRule        rule,
                 double         input_grams,
                 const Written *written,
                 const double  *lost,
                 size_t         n,
                 CroOutput     *outputs)
{
  CroMeasure measures[MAX_OUTPUTS];

  for (size_t i = 0; i < n; i++)
    {
      measures[i] = cro_measure_make (cro_unit_get (written[i].unit)->base, written[i].density,
                                      written[i].piece);
      outputs[i] = (CroOutput){ .unit = written[i].unit,
                                .amount = M (written[i].amount),
                                .yield = M (written[i].yield),
                                .has_value = written[i].value >= 0,
                                .value = written[i].value >= 0 ? M (written[i].value) : 7,
                                .lost = lost != NULL ? M (lost[i]) : 0,
                                /* what stood there must not show */
                                .share = 9, .fixed = 9, .is_known = true, .lacks = ~0U };
    }
  cro_batch_share (rule, input_grams, outputs, measures, n);
}

static void
share (CroRule        rule,
       double         input_grams,
       const Written *written,
       size_t         n,
       CroOutput     *outputs)
{
  share_less_lost (rule, input_grams, written, NULL, n, outputs);
}

/* Unit cost per unit in which the output is written, of a batch that costs C. */
static double
cost_of (const CroOutput *output,
         double           C)
{
  return (output->share * C + output->fixed) * cro_unit_factor (output->unit);
}

/* Costs are per written unit. */
static const struct
{
  const char *says;
  CroRule     rule;
  double      cost;
  Written     outputs[MAX_OUTPUTS];
  size_t      n;
  double      costs[MAX_OUTPUTS];
} cases[] = {
  { "a single output bears the batch", FREE, 12, { { CRO_UNIT_KG, 3, 0, -1, 0, 0 } }, 1, { 4 } },
  { "whatever the rule", CREDIT, 12, { { CRO_UNIT_KG, 3, 0, -1, 0, 0 } }, 1, { 4 } },
  { "by weight too", WEIGHT, 12, { { CRO_UNIT_L, 3, 0, -1, 0, 0 } }, 1, { 4 } },
  { "by value too", VALUE, 12, { { CRO_UNIT_DOZEN, 3, 0, 5, 0, 0 } }, 1, { 4 } },
  { "free: by-products cost nothing, whatever their value",
    FREE, 12, { { CRO_UNIT_KG, 3, 0, -1, 0, 0 }, { CRO_UNIT_KG, 9, 0, 5, 0, 0 } }, 2, { 4, 0 } },
  { "by weight: every gram costs the same",
    WEIGHT, 12, { { CRO_UNIT_KG, 3, 0, -1, 0, 0 }, { CRO_UNIT_G, 1000, 0, -1, 0, 0 } }, 2,
    { 3, 0.003 } },
  { "by weight in one measure of volume needs no density",
    WEIGHT, 12, { { CRO_UNIT_L, 3, 0, -1, 0, 0 }, { CRO_UNIT_CL, 100, 0, -1, 0, 0 } }, 2,
    { 3, 0.03 } },
  { "by weight across measures goes by grams",
    WEIGHT, 12, { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_L, 2, 0, -1, 0.5, 0 },
                  { CRO_UNIT_EACH, 10, 0, -1, 0, 100 } }, 3,
    { 4, 2, 0.4 } },
  { "by weight pieces always go by their own weight",
    WEIGHT, 12, { { CRO_UNIT_EACH, 10, 0, -1, 0, 30 }, { CRO_UNIT_EACH, 30, 0, -1, 0, 10 } }, 2,
    { 0.6, 0.2 } },
  { "by value: cost over value is the same for all",
    VALUE, 12, { { CRO_UNIT_KG, 1, 0, 20, 0, 0 }, { CRO_UNIT_EACH, 10, 0, 0.4, 0, 0 } }, 2,
    { 10, 0.2 } },
  { "by value what is worth nothing costs nothing",
    VALUE, 12, { { CRO_UNIT_KG, 2, 0, 20, 0, 0 }, { CRO_UNIT_KG, 1, 0, 0, 0, 0 } }, 2, { 6, 0 } },
  { "credit: the main output costs what the by-products leave",
    CREDIT, 12, { { CRO_UNIT_KG, 2, 0, -1, 0, 0 }, { CRO_UNIT_L, 1, 0, 3, 0, 0 },
                  { CRO_UNIT_EACH, 10, 0, 0.1, 0, 0 } }, 3,
    { 4, 3, 0.1 } },
  { "credit above the cost is computed as it is",
    CREDIT, 2, { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_KG, 1, 0, 3, 0, 0 } }, 2, { -1, 3 } },
  { "a batch for nothing is for nothing",
    WEIGHT, 0, { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_KG, 2, 0, -1, 0, 0 } }, 2, { 0, 0 } },

  /* J2: relative sales value. Managerial-accounting solution 9.36 (book not named). */
  { "J2: joint cost of 80,000 by sales value",
    VALUE, 80000, { { CRO_UNIT_EACH, 1, 0, 80000, 0, 0 }, { CRO_UNIT_EACH, 1, 0, 70000, 0, 0 },
                    { CRO_UNIT_EACH, 1, 0, 50000, 0, 0 } }, 3,
    { 32000, 28000, 20000 } },
  /* J6: Horngren, Cost Accounting, 16-30; 20,000 cups of butter are 10,000 lb at 2, 80,000
   * cups of buttermilk 20,000 qt at 1.50. Computed from it. */
  { "J6: milk by physical measure (cups)",
    WEIGHT, 20000, { { CRO_UNIT_US_CUP, 20000, 0, -1, 0, 0 },
                     { CRO_UNIT_US_CUP, 80000, 0, -1, 0, 0 } }, 2,
    { 4000 / 20000.0, 16000 / 80000.0 } },
  { "J6: milk by sales value",
    VALUE, 20000, { { LB, 10000, 0, 2, 0, 0 }, { CRO_UNIT_US_QT, 20000, 0, 1.5, 0, 0 } }, 2,
    { 8000 / 10000.0, 12000 / 20000.0 } },
  /* J8: joint-cost slides (refinery); a barrel of 42 gallons. */
  { "J8: 1,000 barrels by volume",
    WEIGHT, 100000, { { CRO_UNIT_US_GAL, 300 * 42, 0, -1, 0, 0 },
                      { CRO_UNIT_US_GAL, 300 * 42, 0, -1, 0, 0 },
                      { CRO_UNIT_US_GAL, 200 * 42, 0, -1, 0, 0 },
                      { CRO_UNIT_US_GAL, 100 * 42, 0, -1, 0, 0 },
                      { CRO_UNIT_US_GAL, 100 * 42, 0, -1, 0, 0 } }, 5,
    { 30000 / 12600.0, 30000 / 12600.0, 20000 / 8400.0, 10000 / 4200.0, 10000 / 4200.0 } },
  /* J1: an immaterial by-product's net realisable value is deducted from the main product's
   * cost (IAS 2 paragraph 14, read as Ind AS 2). J5: solution 9.38 of J2's source. */
  { "J1, J5: 72,000 less 450 of by-product",
    CREDIT, 72000, { { CRO_UNIT_EACH, 1, 0, -1, 0, 0 }, { CRO_UNIT_EACH, 1, 0, 450, 0, 0 } }, 2,
    { 71550, 450 } },
};

static void
test_unit_costs (void **state)
{
  for (size_t i = 0; i < N_CASES (cases); i++)
    {
      CroOutput outputs[MAX_OUTPUTS];
      double given = 0;

      share (cases[i].rule, NAN, cases[i].outputs, cases[i].n, outputs);
      for (size_t k = 0; k < cases[i].n; k++)
        {
          expect (cases[i].says, outputs[k].is_known && outputs[k].lacks == CRO_OUTPUT_SOUND);
          expect_near (cases[i].says, cost_of (&outputs[k], cases[i].cost), cases[i].costs[k]);
          given += cost_of (&outputs[k], cases[i].cost) * cases[i].outputs[k].amount;
        }
      if (cases[i].cost != 0)
        expect_near ("sum (Q u) is the batch's cost", given, cases[i].cost);
    }
}

/* What is used bears the cost of what is thrown away. */
static const struct
{
  const char *says;
  CroRule     rule;
  double      cost;
  Written     outputs[MAX_OUTPUTS];
  size_t      n;
  double      costs[MAX_OUTPUTS];
  double      lost[MAX_OUTPUTS];   /* per cent */
} lost_parts[] = {
  { "a fifth thrown away makes what is used a quarter dearer",
    FREE, 12, { { CRO_UNIT_KG, 3, 0, -1, 0, 0 } }, 1, { 5 }, { 20 } },
  { "under every rule alike where one output bears all",
    CREDIT, 12, { { CRO_UNIT_KG, 3, 0, -1, 0, 0 } }, 1, { 5 }, { 20 } },
  { "shares are taken on what is finished, before what is lost",
    WEIGHT, 12, { { CRO_UNIT_KG, 3, 0, -1, 0, 0 }, { CRO_UNIT_KG, 1, 0, -1, 0, 0 } }, 2,
    { 6, 3 }, { 50, 0 } },
  { "by value too",
    VALUE, 12, { { CRO_UNIT_KG, 1, 0, 20, 0, 0 }, { CRO_UNIT_EACH, 10, 0, 0.4, 0, 0 } }, 2,
    { 40, 0.2 }, { 75, 0 } },
  { "only what is used of a by-product is credited",
    CREDIT, 12, { { CRO_UNIT_KG, 2, 0, -1, 0, 0 }, { CRO_UNIT_L, 1, 0, 3, 0, 0 } }, 2,
    { 5.25, 3 }, { 0, 50 } },
  { "of the main output as well, and its value stays that of a by-product",
    CREDIT, 12, { { CRO_UNIT_KG, 2, 0, -1, 0, 0 }, { CRO_UNIT_L, 1, 0, 3, 0, 0 } }, 2,
    { 6, 3 }, { 25, 0 } },
  { "a free by-product is free however much of it is lost",
    FREE, 12, { { CRO_UNIT_KG, 3, 0, -1, 0, 0 }, { CRO_UNIT_KG, 1, 0, -1, 0, 0 } }, 2,
    { 4, 0 }, { 0, 90 } },
};

static void
test_lost_parts (void **state)
{
  for (size_t i = 0; i < N_CASES (lost_parts); i++)
    {
      CroOutput outputs[MAX_OUTPUTS];
      double given = 0;

      share_less_lost (lost_parts[i].rule, NAN, lost_parts[i].outputs, lost_parts[i].lost,
                       lost_parts[i].n, outputs);
      for (size_t k = 0; k < lost_parts[i].n; k++)
        {
          double cost = cost_of (&outputs[k], lost_parts[i].cost);

          expect_near (lost_parts[i].says, cost, lost_parts[i].costs[k]);
          given += cost * lost_parts[i].outputs[k].amount * (1 - lost_parts[i].lost[k] / 100);
        }
      expect_near ("sum (Q (1 - l) u) is the batch's cost", given, lost_parts[i].cost);
    }
}

/* Yield tests with credited by-products: the shape of shells credited against meat. The last
 * outputs are losses worth nothing. */
static const struct
{
  const char *says;
  double      cost;
  Written     outputs[MAX_OUTPUTS];
  size_t      n;
  double      usable_cost;    /* of all of the main output */
  int         usable_places;
  double      per_lb;
  int         places;
} yield_tests[] = {
  /* Dittmer & Keefe, Principles of Food, Beverage, and Labor Cost Controls, ch. 6: rib of beef
   * 38 lb 12 oz at 3.19 (prints 123.61 for 123.6125); computed from its inputs. */
  { "Y7: rib of beef costs 113.435, 5.15614 a lb, less fat, bones, short ribs and chopped meat",
    38.75 * 3.19, { { LB, 22, 0, -1, 0, 0 }, { LB, 6.5, 0, 0, 0, 0 }, { LB, 4.25, 0, 0.32, 0, 0 },
                    { LB, 3.25, 0, 1.49, 0, 0 }, { LB, 2.5, 0, 1.59, 0, 0 } }, 5,
    113.435, 6, 5.15614, 5 },
  /* The same, Exercise 6.3. */
  { "Y9: lamb loin costs 66.80, 11.13 a lb, less kidneys and flanks",
    12 * 6.65, { { LB, 6, 0, -1, 0, 0 }, { LB, 3, 0, 0, 0, 0 }, { LB, 1, 0, 6.10, 0, 0 },
                 { LB, 1.5, 0, 4.60, 0, 0 } }, 4,
    66.80, 2, 11.13, 2 },
  /* The Butcher's Yield Test, thekitchenbadass blog: prints 22.40, a misprint for 28.40. */
  { "Y12: 28 lb at 1.30 leave 16 lb at 28.40, 1.775 a lb",
    28 * 1.30, { { LB, 16, 0, -1, 0, 0 }, { LB, 3, 0, 0.10, 0, 0 }, { LB, 4, 0, 0.30, 0, 0 },
                 { LB, 5, 0, 1.30, 0, 0 } }, 4,
    28.40, 2, 1.775, 6 },
};

static void
test_yield_tests (void **state)
{
  for (size_t i = 0; i < N_CASES (yield_tests); i++)
    {
      CroOutput outputs[MAX_OUTPUTS];
      double per_lb;

      share (CREDIT, NAN, yield_tests[i].outputs, yield_tests[i].n, outputs);
      per_lb = cost_of (&outputs[0], yield_tests[i].cost);
      expect_printed (yield_tests[i].says, per_lb * yield_tests[i].outputs[0].amount,
                      yield_tests[i].usable_cost, yield_tests[i].usable_places);
      expect_printed (yield_tests[i].says, per_lb, yield_tests[i].per_lb, yield_tests[i].places);
    }
}

static void
test_factors (void **state)
{
  CroOutput outputs[MAX_OUTPUTS];
  double per_lb;

  share (CREDIT, NAN, yield_tests[0].outputs, yield_tests[0].n, outputs);
  per_lb = cost_of (&outputs[0], yield_tests[0].cost);
  expect_printed ("Y7: factor 1.61634", per_lb / 3.19, 1.61634, 5);
  share (CREDIT, NAN, yield_tests[1].outputs, yield_tests[1].n, outputs);
  per_lb = cost_of (&outputs[0], yield_tests[1].cost);
  expect_printed ("Y9: factor 1.67 a lb", per_lb / 6.65, 1.67, 2);
  expect_printed ("Y9: a portion of 5 oz 3.48", per_lb * 5 / 16, 3.48, 2);
  expect_printed ("Y9: factor 0.52 a portion", per_lb * 5 / 16 / 6.65, 0.52, 2);
}

/* Finished amounts in base units; input in grams, negative: it cannot be formed. */
static const struct
{
  const char *says;
  double      input;
  Written     output;
  double      finished;
} finished[] = {
  { "measured", 5000, { CRO_UNIT_KG, 2, 0, -1, 0, 0 }, 2000 },
  { "by yield of what goes in", 5000, { CRO_UNIT_G, 0, 40, -1, 0, 0 }, 2000 },
  { "by yield in whatever unit of weight", 5000, { CRO_UNIT_LB, 0, 40, -1, 0, 0 }, 2000 },
  { "more than what goes in: soaked pulses", 1000, { CRO_UNIT_KG, 0, 220, -1, 0, 0 }, 2200 },
  { "measured before yield", 5000, { CRO_UNIT_G, 2, 40, -1, 0, 0 }, 2 },
  { "neither", 5000, { CRO_UNIT_KG, 0, 0, -1, 0, 0 }, 0 },
  { "no yield of what cannot be weighed", -1, { CRO_UNIT_KG, 0, 40, -1, 0, 0 }, 0 },
  { "no yield of nothing", 0, { CRO_UNIT_KG, 0, 40, -1, 0, 0 }, 0 },
  { "no yield in what is no weight", 5000, { CRO_UNIT_L, 0, 40, -1, 1, 0 }, 0 },
  /* Class slides, As Purchased and Edible Portion; prints 3.52. */
  { "Y13: 93 % of 95 % of 4 kg are 3.534 kg", 3800, { CRO_UNIT_KG, 0, 93, -1, 0, 0 }, 3534 },
};

static void
test_finished (void **state)
{
  for (size_t i = 0; i < N_CASES (finished); i++)
    {
      CroOutput output;

      share (FREE, finished[i].input, &finished[i].output, 1, &output);
      expect_near (finished[i].says, output.finished, finished[i].finished);
      expect (finished[i].says, output.is_known == (finished[i].finished > 0));
      expect (finished[i].says, output.lacks == (finished[i].finished > 0
                                                     ? CRO_OUTPUT_SOUND
                                                     : CRO_OUTPUT_LACKS_AMOUNT));
      expect ("without an amount there is neither share nor cost",
              finished[i].finished > 0 || (output.share == 0 && output.fixed == 0));
    }
}

#define AMOUNT CRO_OUTPUT_LACKS_AMOUNT
#define NO_VALUE CRO_OUTPUT_LACKS_VALUE
#define DENSITY CRO_OUTPUT_LACKS_DENSITY
#define PIECE CRO_OUTPUT_LACKS_PIECE

/* Two outputs: what each lacks, and whether its cost is known. */
static const struct
{
  const char *says;
  CroRule     rule;
  Written     outputs[2];
  unsigned    lacks[2];
  bool        is_known[2];
} lacks[] = {
  { "free: a by-product needs no amount", FREE,
    { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_KG, 0, 0, -1, 0, 0 } }, { 0, 0 }, { 1, 1 } },
  { "free: the main output does", FREE,
    { { CRO_UNIT_KG, 0, 0, -1, 0, 0 }, { CRO_UNIT_KG, 1, 0, -1, 0, 0 } }, { AMOUNT, 0 }, { 0, 1 } },
  { "by weight all need one", WEIGHT,
    { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_KG, 0, 0, -1, 0, 0 } }, { 0, AMOUNT }, { 0, 0 } },
  { "by weight across measures: density", WEIGHT,
    { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_L, 1, 0, -1, 0, 0 } }, { 0, DENSITY }, { 0, 0 } },
  { "by weight a count needs its piece weight", WEIGHT,
    { { CRO_UNIT_EACH, 1, 0, -1, 0, 9 }, { CRO_UNIT_EACH, 1, 0, -1, 0, 0 } },
    { 0, PIECE }, { 0, 0 } },
  { "each lacks its own", WEIGHT,
    { { CRO_UNIT_L, 1, 0, -1, 0, 0 }, { CRO_UNIT_EACH, 0, 0, -1, 0, 0 } },
    { DENSITY, PIECE | AMOUNT }, { 0, 0 } },
  { "by value all need one", VALUE,
    { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_KG, 1, 0, 3, 0, 0 } },
    { NO_VALUE, 0 }, { 0, 0 } },
  { "by value of which all are nothing", VALUE,
    { { CRO_UNIT_KG, 1, 0, 0, 0, 0 }, { CRO_UNIT_KG, 1, 0, 0, 0, 0 } }, { NO_VALUE, 0 }, { 0, 0 } },
  { "by value without an amount", VALUE,
    { { CRO_UNIT_KG, 1, 0, 1, 0, 0 }, { CRO_UNIT_KG, 0, 0, 1, 0, 0 } }, { 0, AMOUNT }, { 0, 0 } },
  { "credit: by-products need a value; what is known is computed", CREDIT,
    { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_KG, 1, 0, -1, 0, 0 } },
    { 0, NO_VALUE }, { 1, 0 } },
  { "credit: the main output needs none", CREDIT,
    { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_KG, 1, 0, 0, 0, 0 } }, { 0, 0 }, { 1, 1 } },
  { "credit: a by-product needs its amount, yet its cost is its value", CREDIT,
    { { CRO_UNIT_KG, 1, 0, -1, 0, 0 }, { CRO_UNIT_KG, 0, 0, 2, 0, 0 } }, { 0, AMOUNT }, { 1, 1 } },
  { "credit: so does the main output", CREDIT,
    { { CRO_UNIT_KG, 0, 0, -1, 0, 0 }, { CRO_UNIT_KG, 1, 0, 2, 0, 0 } }, { AMOUNT, 0 }, { 0, 1 } },
};

static void
test_lacks (void **state)
{
  for (size_t i = 0; i < N_CASES (lacks); i++)
    {
      CroOutput outputs[2];

      share (lacks[i].rule, 1000, lacks[i].outputs, 2, outputs);
      for (size_t k = 0; k < 2; k++)
        {
          expect (lacks[i].says, outputs[k].lacks == lacks[i].lacks[k]
                                     && outputs[k].is_known == lacks[i].is_known[k]);
          expect ("what is not known adds nothing",
                  outputs[k].is_known || (outputs[k].share == 0 && outputs[k].fixed == 0));
          expect ("no figure is infinite or none",
                  isfinite (outputs[k].share) && isfinite (outputs[k].fixed));
        }
    }
}

/* What has no lost part must keep the bits it had before there was one. */
static void
test_nothing_lost (void **state)
{
  static const Written written[] = { { CRO_UNIT_KG, 1.7, 0, 3.1, 0, 0 },
                                     { CRO_UNIT_G, 612, 0, 0.0113, 0, 0 } };
  CroOutput outputs[2];

  share (VALUE, 1000, written, 2, outputs);
  for (size_t k = 0; k < 2; k++)
    {
      double total = outputs[0].value_of_base * outputs[0].finished
                     + outputs[1].value_of_base * outputs[1].finished;

      expect ("nothing lost: all is used", outputs[k].used == outputs[k].finished);
      expect ("to the bit", outputs[k].share == outputs[k].value_of_base / total);
    }
}

/* Disposables and labour take the shares alone. */
static void
test_other_layers (void **state)
{
  static const Written written[] = { { CRO_UNIT_KG, 2, 0, 3, 0, 0 },
                                     { CRO_UNIT_KG, 6, 0, 1, 0, 0 } };
  static const struct { const char *says; CroRule rule; double shares[2]; } rules[] = {
    { "under free the main output bears them", FREE, { 1, 0 } },
    { "under credit too", CREDIT, { 1, 0 } },
    { "by weight they go with the weight", WEIGHT, { 0.25, 0.75 } },
    { "by value with the value", VALUE, { 0.5, 0.5 } },
  };

  for (size_t i = 0; i < N_CASES (rules); i++)
    {
      CroOutput outputs[2];

      share (rules[i].rule, 1000, written, 2, outputs);
      for (size_t k = 0; k < 2; k++)
        expect_near (rules[i].says, outputs[k].share * outputs[k].finished, rules[i].shares[k]);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_unit_costs), cmocka_unit_test (test_yield_tests),
    cmocka_unit_test (test_factors),    cmocka_unit_test (test_finished),
    cmocka_unit_test (test_lacks),      cmocka_unit_test (test_other_layers),
    cmocka_unit_test (test_nothing_lost), cmocka_unit_test (test_lost_parts),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
