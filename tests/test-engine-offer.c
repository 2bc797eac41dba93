#include "near.h"

#include "cro-decimal.h"
#include "cro-offer.h"

#define M(x) ((int64_t) ((x) * 1e6 + 0.5))
#define G CRO_BASE_GRAM
#define ML CRO_BASE_MILLILITRE
#define EACH CRO_BASE_EACH

static CroOffer
offer_of (double  price,
          double  count,
          double  size,
          CroUnit unit)
{
  return (CroOffer){ .has_price = true,
                     .price = M (price),
                     .pack_count = M (count),
                     .pack_size = M (size),
                     .pack_unit = unit,
                     .rate = 1 };
}

/* Unit costs of one offer. tax and net in per cent, 0 = not set. */
static const struct
{
  const char *says;
  CroBase     base;
  double      density, piece;
  double      price, tax, rate;
  double      count, size;
  CroUnit     unit;
  double      net;
  double      unit_cost;
} costs[] = {
  { "a pack's price over what it holds",
    G, 0, 0, 30, 0, 1, 6, 1, CRO_UNIT_KG, 0, 0.005 },
  { "tax that the price includes is taken off",
    G, 0, 0, 12, 20, 1, 1, 1, CRO_UNIT_KG, 0, 0.01 },
  { "reduced rates have decimals", ML, 0, 0, 10.55, 5.5, 1, 2, 5, CRO_UNIT_L, 0, 0.001 },
  { "a foreign price is converted", G, 0, 0, 1000, 0, 0.0062, 1, 100, CRO_UNIT_G, 0, 0.062 },
  { "a given price is a price", G, 0, 0, 0, 0, 1, 1, 1, CRO_UNIT_KG, 0, 0 },
  { "a dozen is twelve", EACH, 0, 0, 45, 0, 1, 15, 1, CRO_UNIT_DOZEN, 0, 0.25 },
  { "what is costed by volume and bought by weight goes by its density",
    ML, 0.92, 0, 9.2, 0, 1, 1, 1, CRO_UNIT_KG, 0, 0.00846400 },
  { "what is costed by weight and bought by volume likewise",
    G, 0.92, 0, 9.2, 0, 1, 2, 5, CRO_UNIT_L, 0, 0.001 },
  { "what is costed by the piece and bought by weight goes by its piece weight",
    EACH, 0, 50, 8, 0, 1, 1, 2, CRO_UNIT_KG, 0, 0.2 },
  { "between pieces and volume both are needed",
    EACH, 1.1, 22, 5, 0, 1, 1, 1, CRO_UNIT_L, 0, 0.1 },
  /* Y16: loin 5 kg for 25.00. Ontario Pork, Costing for Foodservice. */
  { "Y16: pork loin costs 5.00 a kilogram as purchased",
    G, 0, 0, 25, 0, 1, 1, 5, CRO_UNIT_KG, 0, 0.005 },
  /* Y29: 22 oz glazed, 20 oz deglazed. US Army MD0711 ed. 100, Waterfoods. The net part is
   * 100 - 9.090909 %. */
  { "Y29: glazed food is paid by its net weight",
    G, 0, 0, 20, 0, 1, 1, 22, CRO_UNIT_OZ, 90.909091, 20 / (22 * 28.349523125 * 0.90909091) },
};

static void
test_unit_cost (void **state)
{
  for (size_t i = 0; i < N_CASES (costs); i++)
    {
      CroMeasure item = cro_measure_make (costs[i].base, costs[i].density, costs[i].piece);
      CroOffer offer = offer_of (costs[i].price, costs[i].count, costs[i].size, costs[i].unit);

      offer.tax_included = M (costs[i].tax);
      offer.rate = costs[i].rate;
      offer.net = M (costs[i].net);
      expect (costs[i].says, cro_offer_lacks (&offer, &item, 0) == CRO_OFFER_PRICED);
      expect_near (costs[i].says, cro_offer_unit_cost (&offer, &item), costs[i].unit_cost);
      expect_near (costs[i].says, cro_offer_price_at (&offer, &item, costs[i].unit_cost), costs[i].price);
    }
}

static void
test_printed (void **state)
{
  CroMeasure gram = cro_measure_make (G, 0, 0), millilitre = cro_measure_make (ML, 0, 0);
  CroOffer pound = offer_of (5, 1, 1, CRO_UNIT_LB);
  CroOffer juice = offer_of (22.94, 12, 0.75, CRO_UNIT_US_GAL);
  CroOffer tuna = offer_of (1, 1, 750, CRO_UNIT_ML), drained = tuna;
  CroOffer glazed = offer_of (1, 1, 22, CRO_UNIT_OZ);

  /* U11, from the exact pound (NIST SP 811 App. B.8). */
  expect_printed ("U11: 5 a pound is 11.0231131092 a kilogram",
                  1000 * cro_offer_unit_cost (&pound, &gram), 11.0231131092, 10);

  /* Y22: holt.blue MTH 81, ch. 9, prints 0.1195 (0.1194 through the rounded unit cost). */
  expect_printed ("Y22: 6 fl oz of juice cost 0.119479",
                  6 * cro_unit_factor (CRO_UNIT_US_FL_OZ)
                      * cro_offer_unit_cost (&juice, &millilitre),
                  0.119479, 6);
  expect_printed ("Y22: 200 portions 23.8958",
                  1200 * cro_unit_factor (CRO_UNIT_US_FL_OZ)
                      * cro_offer_unit_cost (&juice, &millilitre),
                  23.8958, 4);

  /* Y4: Basic Kitchen and Food Service Management (BCcampus 2015), Example 12, prints 400 mL,
   * 53.33 % and 1.875 for 750 mL less 300 of brine: a misprint for 450 mL and 60 %. */
  drained.net = M (60);
  expect_near ("Y4: 750 ml less 300 of brine are 450", cro_offer_pack (&drained, &millilitre), 450);
  expect_printed ("Y4: drained tuna costs 1.6667 times the can's",
                  cro_offer_unit_cost (&drained, &millilitre)
                      / cro_offer_unit_cost (&tuna, &millilitre),
                  1.6667, 4);

  /* Y35: net weight is exclusive of the glaze (Regulation (EU) 1169/2011 Annex IX point 5).
   * Y29: 9.1 % of the glazed weight. */
  glazed.net = M (100 - 9.1);
  expect_printed ("Y29, Y35: 22 oz with 9.1 % of glaze hold 20 oz",
                  cro_offer_pack (&glazed, &gram) / cro_unit_factor (CRO_UNIT_OZ), 20.00, 2);
}

static const struct
{
  const char *says;
  CroBase     base;
  double      density, piece;
  CroUnit     unit;
  bool        has_price;
  double      rate;
  CroDate     until;     /* 0: for good */
  CroDate     date;
  unsigned    lacks;
} lacks[] = {
  { "an offer with price, rate and conversion is priced",
    G, 0, 0, CRO_UNIT_KG, true, 1, 0, 10, CRO_OFFER_PRICED },
  { "no price", G, 0, 0, CRO_UNIT_KG, false, 1, 0, 10, CRO_OFFER_LACKS_PRICE },
  { "no rate", G, 0, 0, CRO_UNIT_KG, true, 0, 0, 10, CRO_OFFER_LACKS_RATE },
  { "no density", G, 0, 5, CRO_UNIT_L, true, 1, 0, 10, CRO_OFFER_LACKS_DENSITY },
  { "no piece weight", G, 1, 0, CRO_UNIT_DOZEN, true, 1, 0, 10, CRO_OFFER_LACKS_PIECE },
  { "neither", EACH, 0, 0, CRO_UNIT_L, true, 1, 0, 10,
    CRO_OFFER_LACKS_DENSITY | CRO_OFFER_LACKS_PIECE },
  { "its last day counts", G, 0, 0, CRO_UNIT_KG, true, 1, 10, 10, CRO_OFFER_PRICED },
  { "the day after does not", G, 0, 0, CRO_UNIT_KG, true, 1, 10, 11, CRO_OFFER_LEFT },
  { "all at once", G, 0, 0, CRO_UNIT_L, false, 0, 10, 11,
    CRO_OFFER_LACKS_DENSITY | CRO_OFFER_LACKS_RATE | CRO_OFFER_LACKS_PRICE | CRO_OFFER_LEFT },
};

static void
test_lacks (void **state)
{
  for (size_t i = 0; i < N_CASES (lacks); i++)
    {
      CroMeasure item = cro_measure_make (lacks[i].base, lacks[i].density, lacks[i].piece);
      CroOffer offer = offer_of (1, 1, 1, lacks[i].unit);

      offer.has_price = lacks[i].has_price;
      offer.rate = lacks[i].rate;
      offer.has_until = lacks[i].until != 0;
      offer.until = lacks[i].until;
      expect (lacks[i].says, cro_offer_lacks (&offer, &item, lacks[i].date) == lacks[i].lacks);
      expect ("a pack that cannot be converted holds nothing",
              (cro_offer_pack (&offer, &item) == 0)
                  == ((lacks[i].lacks & (CRO_OFFER_LACKS_DENSITY | CRO_OFFER_LACKS_PIECE)) != 0));
    }
}

/* Offers of a kilogram for an ingredient in grams without density, on day 100. A price of -1
 * is none. */
typedef struct
{
  double  price;
  CroDate from;
  bool    is_preferred;
  CroDate until;
  CroUnit unit;
} Offered;

#define KG CRO_UNIT_KG
#define L CRO_UNIT_L

static const struct
{
  const char *says;
  double      stale_after;
  Offered     offers[4];
  size_t      n;
  ptrdiff_t   chosen;
} choices[] = {
  { "no offer", -1, { { 0, 0, 0, 0, KG } }, 0, -1 },
  { "the cheapest", -1, { { 3, 0, 0, 0, KG }, { 2, 0, 0, 0, KG }, { 4, 0, 0, 0, KG } }, 3, 1 },
  { "a preferred one before a cheaper", -1, { { 2, 0, 0, 0, KG }, { 3, 0, 1, 0, KG } }, 2, 1 },
  { "wherever it stands", -1, { { 3, 0, 1, 0, KG }, { 2, 0, 0, 0, KG } }, 2, 0 },
  { "the cheapest of the preferred",
    -1, { { 4, 0, 1, 0, KG }, { 3, 0, 1, 0, KG }, { 2, 0, 0, 0, KG } }, 3, 1 },
  { "another where the preferred has no price",
    -1, { { -1, 0, 1, 0, KG }, { 3, 0, 0, 0, KG } }, 2, 1 },
  { "another where the preferred is gone",
    -1, { { 1, 0, 1, 99, KG }, { 3, 0, 0, 0, KG } }, 2, 1 },
  { "another where the preferred cannot be converted",
    -1, { { 1, 0, 1, 0, L }, { 3, 0, 0, 0, KG } }, 2, 1 },
  { "the first of equals", -1, { { 2, 0, 0, 0, KG }, { 2, 0, 0, 0, KG } }, 2, 0 },
  { "for nothing beats cheap", -1, { { 2, 0, 0, 0, KG }, { 0, 0, 0, 0, KG } }, 2, 1 },
  { "an old price serves where the book sets no limit",
    -1, { { 1, 0, 0, 0, KG }, { 3, 99, 0, 0, KG } }, 2, 0 },
  { "a stale price does not serve beside a newer one",
    30, { { 1, 69, 0, 0, KG }, { 3, 99, 0, 0, KG } }, 2, 1 },
  { "the last day of the limit is not stale",
    30, { { 1, 70, 0, 0, KG }, { 3, 99, 0, 0, KG } }, 2, 0 },
  { "stale and preferred does not serve either",
    30, { { 1, 69, 1, 0, KG }, { 3, 99, 0, 0, KG } }, 2, 1 },
  { "a stale price serves alone", 30, { { 2, 0, 0, 0, KG }, { 1, 1, 0, 0, KG } }, 2, 1 },
  { "a newer one that is gone does not make it stale",
    30, { { 2, 0, 0, 0, KG }, { 3, 99, 0, 99, KG } }, 2, 0 },
  { "with a limit of 0 days only today's price is fresh",
    0, { { 1, 99, 0, 0, KG }, { 3, 100, 0, 0, KG } }, 2, 1 },
  { "none that is priced and available",
    -1, { { 2, 0, 0, 0, L }, { -1, 0, 0, 0, KG }, { 2, 0, 0, 99, KG } }, 3, -1 },
};

static void
test_choose (void **state)
{
  CroMeasure item = cro_measure_make (G, 0, 0);

  for (size_t i = 0; i < N_CASES (choices); i++)
    {
      CroOffer offers[4];
      double unit_cost = -1;
      ptrdiff_t chosen;

      for (size_t k = 0; k < choices[i].n; k++)
        {
          const Offered *o = &choices[i].offers[k];

          offers[k] = offer_of (o->price, 1, 1, o->unit);
          offers[k].has_price = o->price >= 0;
          offers[k].from = o->from;
          offers[k].is_preferred = o->is_preferred;
          offers[k].has_until = o->until != 0;
          offers[k].until = o->until;
        }
      chosen = cro_offer_choose (offers, choices[i].n, &item, 100, choices[i].stale_after,
                                 &unit_cost);
      expect (choices[i].says, chosen == choices[i].chosen);
      if (chosen >= 0)
        expect_near (choices[i].says, unit_cost, choices[i].offers[chosen].price / 1000);
    }
}

/* Offers that had a price until a last day (0: never one), none of them to be had on day 100. */
static const struct
{
  const char *says;
  struct { double price; CroDate last_day; bool is_preferred; CroUnit unit; double rate; } offers[3];
  size_t      n;
  ptrdiff_t   chosen;
  unsigned    lacks;
} lasts[] = {
  { "no offer, no price", { { 0, 0, 0, KG, 1 } }, 0, -1, CRO_OFFER_LACKS_PRICE },
  { "none that ever had a price: a price", { { 1, 0, 0, KG, 1 }, { 1, 0, 0, L, 0 } }, 2, -1,
    CRO_OFFER_LACKS_PRICE },
  { "the latest, dear as it may be", { { 1, 40, 1, KG, 1 }, { 9, 41, 0, KG, 1 } }, 2, 1, 0 },
  { "of one day the preferred", { { 1, 41, 0, KG, 1 }, { 9, 41, 1, KG, 1 } }, 2, 1, 0 },
  { "of one day the cheapest", { { 3, 41, 0, KG, 1 }, { 2, 41, 0, KG, 1 }, { 2, 41, 0, KG, 1 } }, 3,
    1, 0 },
  { "an older one where the latest cannot be converted",
    { { 1, 40, 0, KG, 1 }, { 9, 41, 0, L, 1 } }, 2, 0, 0 },
  { "or has no rate", { { 1, 100, 0, KG, 0 }, { 9, 41, 0, KG, 1 } }, 2, 1, 0 },
  { "what the first that had a price lacks",
    { { 1, 0, 0, KG, 0 }, { 1, 40, 0, L, 1 }, { 1, 41, 0, KG, 0 } }, 3, -1, CRO_OFFER_LACKS_DENSITY },
  { "a rate before all else", { { 1, 40, 0, L, 0 } }, 1, -1, CRO_OFFER_LACKS_RATE },
};

static void
test_choose_last (void **state)
{
  CroMeasure item = cro_measure_make (G, 0, 0);

  for (size_t i = 0; i < N_CASES (lasts); i++)
    {
      CroOffer offers[3];
      double unit_cost = -1;
      unsigned lacking = ~0U;
      ptrdiff_t chosen;

      for (size_t k = 0; k < lasts[i].n; k++)
        {
          offers[k] = offer_of (lasts[i].offers[k].price, 1, 1, lasts[i].offers[k].unit);
          offers[k].has_price = false;
          offers[k].had_price = lasts[i].offers[k].last_day > 0;
          offers[k].last_day = lasts[i].offers[k].last_day;
          offers[k].is_preferred = lasts[i].offers[k].is_preferred;
          offers[k].rate = lasts[i].offers[k].rate;
        }
      chosen = cro_offer_choose_last (offers, lasts[i].n, &item, &unit_cost, &lacking);
      expect (lasts[i].says, chosen == lasts[i].chosen && lacking == lasts[i].lacks);
      if (chosen >= 0)
        expect_near (lasts[i].says, unit_cost, lasts[i].offers[chosen].price / 1000);
    }
}

/* 3 x 0.1 kg for 3 and 0.3 kg for 3 differ in the last bit only. */
static void
test_equal_but_for_rounding (void **state)
{
  CroMeasure item = cro_measure_make (G, 0, 0);
  CroOffer offers[2] = { offer_of (3, 1, 0.3, CRO_UNIT_KG), offer_of (3, 3, 0.1, CRO_UNIT_KG) };
  double first = cro_offer_unit_cost (&offers[0], &item);
  double second = cro_offer_unit_cost (&offers[1], &item);
  double unit_cost;

  expect ("the example has two roundings of one price", first != second);
  if (first < second)
    offers[0] = offer_of (3, 3, 0.1, CRO_UNIT_KG), offers[1] = offer_of (3, 1, 0.3, CRO_UNIT_KG);
  expect ("offers that differ by rounding only are equal: the first",
          cro_offer_choose (offers, 2, &item, 0, -1, &unit_cost) == 0);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_unit_cost), cmocka_unit_test (test_printed),
    cmocka_unit_test (test_lacks),     cmocka_unit_test (test_choose),
    cmocka_unit_test (test_equal_but_for_rounding), cmocka_unit_test (test_choose_last),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
