/* Prices that want a second look, case by case; and the demonstration's own history of prices: none of
 * its changes is asked about, and every slip made in it is. */
#include "cro-load.h"
#include "cro-price-rows.h"
#include "cro-second-look.h"
#include "support/kitchen-book.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "places.h"

static const CroMeasure grams = { .base = CRO_BASE_GRAM, .is_bought = true };

static CroOffer
offer_of (double  price,
          double  count,
          double  size,
          CroUnit unit)
{
  return (CroOffer){ .has_price = true, .price = (int64_t) llround (price * 1e6), .rate = 1,
                     .pack_count = (int64_t) llround (count * 1e6), .pack_size = (int64_t) llround (size * 1e6),
                     .pack_unit = unit };
}

/* What 5 kg cost before, eight weeks that hardly moved and eight that moved by a half. */
static const double calm[] = { 0.0100, 0.0101, 0.0099, 0.0100, 0.0102, 0.0098, 0.0100, 0.0100 };
static const double lively[] = { 0.0100, 0.0130, 0.0080, 0.0150, 0.0070, 0.0120, 0.0090, 0.0100 };

/* The last price is 50.00 for 5 kg, reckoned by hand in each case. */
static void
test_cases (void **state)
{
  static const struct
  {
    const char  *says;
    double       price, count, size;
    CroUnit      unit;
    const double *past;
    gsize        n;
    CroLookKind  kind;
    double       meant;
  } cases[] = {
    { "a tenth more", 55, 1, 5, CRO_UNIT_KG, calm, 8, CRO_LOOK_NOTHING, NAN },
    { "25 % more is not beyond it", 62.5, 1, 5, CRO_UNIT_KG, NULL, 0, CRO_LOOK_NOTHING, NAN },
    { "30 % more, and nothing is known of it", 65, 1, 5, CRO_UNIT_KG, calm, 7, CRO_LOOK_FAR, NAN },
    { "30 % more of what hardly moves", 65, 1, 5, CRO_UNIT_KG, calm, 8, CRO_LOOK_FAR, NAN },
    { "30 % more of what moves by a half", 65, 1, 5, CRO_UNIT_KG, lively, 8, CRO_LOOK_NOTHING, NAN },
    { "30 % less", 35, 1, 5, CRO_UNIT_KG, calm, 8, CRO_LOOK_FAR, NAN },
    { "the decimal sign slipped", 505, 1, 5, CRO_UNIT_KG, lively, 8, CRO_LOOK_SLIP, 50.5 },
    { "the other way", 4.9, 1, 5, CRO_UNIT_KG, lively, 8, CRO_LOOK_SLIP, 49 },
    { "a decimal sign read as one of thousands", 51250, 1, 5, CRO_UNIT_KG, lively, 8, CRO_LOOK_THOUSANDS, 51.25 },
    { "the price of a kilogram", 10.2, 1, 5, CRO_UNIT_KG, calm, 8, CRO_LOOK_PACK, NAN },
    { "the pack's price for a kilogram", 51, 1, 1, CRO_UNIT_KG, calm, 8, CRO_LOOK_SHRANK, NAN },
    { "a kilogram at four times that", 225, 1, 1, CRO_UNIT_KG, calm, 8, CRO_LOOK_FAR, NAN },
    { "more in it, for a tenth of the price", 5, 1, 25, CRO_UNIT_KG, calm, 8, CRO_LOOK_FAR, NAN },
    { "a kilogram at its own price", 10.2, 1, 1, CRO_UNIT_KG, calm, 8, CRO_LOOK_NOTHING, NAN },
    { "a fifth less in it, at the same price", 50, 1, 4, CRO_UNIT_KG, calm, 8, CRO_LOOK_SHRANK, NAN },
    { "a fifth less in it, and a fifth cheaper", 40, 1, 4, CRO_UNIT_KG, calm, 8, CRO_LOOK_NOTHING, NAN },
    { "a fifth more in it, at the same price", 50, 1, 6, CRO_UNIT_KG, calm, 8, CRO_LOOK_PACK, NAN },
    { "twice as much in it, at the same price", 50, 2, 5, CRO_UNIT_KG, calm, 8, CRO_LOOK_PACK, NAN },
    { "it costs nothing", 0, 1, 5, CRO_UNIT_KG, calm, 8, CRO_LOOK_FAR, NAN },
  };
  CroOffer last = offer_of (50, 1, 5, CRO_UNIT_KG);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroOffer then = offer_of (cases[i].price, cases[i].count, cases[i].size, cases[i].unit);
      CroLook look = cro_second_look_at (&last, &then, &grams, FALSE, cases[i].past, cases[i].n);

      if (look.kind != cases[i].kind)
        fail_msg ("%s: is of kind %d", cases[i].says, look.kind);
      if (!isnan (cases[i].meant) && look.meant != (int64_t) llround (cases[i].meant * 1e6))
        fail_msg ("%s: %g is meant", cases[i].says, (double) look.meant / 1e6);
    }
}

/* At 10 a kilogram, by hand: of as many times a pack as it holds, that sack is named, whatever its price moved; of what
 * nobody sells there is none, and the question remains. */
static void
test_a_price_of_a_sack (void **state)
{
  static const struct
  {
    double  price, count, size, sack;
    CroUnit unit;
  } cases[] = {
    { 242.5, 1, 5, 25, CRO_UNIT_KG }, { 92, 1, 3, 9, CRO_UNIT_KG }, { 62.5, 1, 2.5, 0, CRO_UNIT_KG },
    { 4000, 1, 20, 0, CRO_UNIT_KG }, { 4000, 4, 5, 0, CRO_UNIT_KG }, { 500 * 5, 1, 500, 0, CRO_UNIT_G },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroOffer then = offer_of (cases[i].price, cases[i].count, cases[i].size, cases[i].unit), last = then;
      CroLook look;

      last.price = (int64_t) llround (10e6 * cases[i].count * cases[i].size / (cases[i].unit == CRO_UNIT_G ? 1000 : 1));
      look = cro_second_look_at (&last, &then, &grams, FALSE, lively, 8);
      if (look.kind != (cases[i].sack > 0 ? CRO_LOOK_PACK : CRO_LOOK_FAR)
          || look.pack.size != (int64_t) llround (cases[i].sack * 1e6))
        fail_msg ("%g for %g is of kind %d, %g", cases[i].price, cases[i].size, look.kind,
                  (double) look.pack.size / 1e6);
    }
}

/* By hand, of 50 for 5 kg: what is said of the pack answers no more than whether it is another. */
static void
test_a_price_of_a_pack_that_was_said (void **state)
{
  static const struct
  {
    double      price, size;
    CroLookKind unsaid, said;
  } cases[] = {
    { 10.2, 5, CRO_LOOK_PACK, CRO_LOOK_FAR },
    { 50, 6, CRO_LOOK_PACK, CRO_LOOK_NOTHING },
    { 50, 8, CRO_LOOK_PACK, CRO_LOOK_FAR },
    { 5, 5, CRO_LOOK_SLIP, CRO_LOOK_SLIP },
    { 50, 4, CRO_LOOK_SHRANK, CRO_LOOK_SHRANK },
  };
  CroOffer last = offer_of (50, 1, 5, CRO_UNIT_KG);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroOffer then = offer_of (cases[i].price, 1, cases[i].size, CRO_UNIT_KG);

      assert_int_equal (cro_second_look_at (&last, &then, &grams, FALSE, calm, 8).kind, cases[i].unsaid);
      assert_int_equal (cro_second_look_at (&last, &then, &grams, TRUE, calm, 8).kind, cases[i].said);
    }
}

/* Of 12 × 550 g for 15.60 and 12 pieces for 10.20, by hand: one of them is nearer than a slip, or the slip is. */
static void
test_a_price_of_one_is_nearer_than_a_slip (void **state)
{
  static const CroMeasure each = { .base = CRO_BASE_EACH, .is_bought = true };
  static const struct
  {
    double      last, price, count, size;
    CroUnit     unit;
    CroLookKind kind;
  } cases[] = {
    { 15.6, 1.3, 12, 550, CRO_UNIT_G, CRO_LOOK_PACK },     { 15.6, 1.32, 12, 550, CRO_UNIT_G, CRO_LOOK_PACK },
    { 15.6, 1.56, 12, 550, CRO_UNIT_G, CRO_LOOK_SLIP },    { 10.2, 0.9, 1, 12, CRO_UNIT_EACH, CRO_LOOK_PACK },
    { 10.2, 1.02, 1, 12, CRO_UNIT_EACH, CRO_LOOK_SLIP },   { 110, 11, 1, 10, CRO_UNIT_KG, CRO_LOOK_SLIP },
    { 15.6, 180, 12, 550, CRO_UNIT_G, CRO_LOOK_SLIP },     { 15.6, 1.8, 12, 550, CRO_UNIT_G, CRO_LOOK_SLIP },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroOffer last = offer_of (cases[i].last, cases[i].count, cases[i].size, cases[i].unit), then = last;

      then.price = (int64_t) llround (cases[i].price * 1e6);
      assert_int_equal (cro_second_look_at (&last, &then, cases[i].unit == CRO_UNIT_EACH ? &each : &grams, FALSE, calm,
                                            8).kind, cases[i].kind);
    }
}

static void
test_without_a_last_price_nothing_is_asked (void **state)
{
  CroOffer last = offer_of (0, 1, 5, CRO_UNIT_KG), then = offer_of (50, 1, 5, CRO_UNIT_KG);

  assert_int_equal (cro_second_look_at (&last, &then, &grams, FALSE, NULL, 0).kind, CRO_LOOK_NOTHING);
}

/* --- The demonstration ------------------------------------------------------------------------------------ */

typedef enum
{
  AS_IT_IS,
  TEN_TIMES,
  A_TENTH,
  A_FIFTH_LESS,    /* in the pack, at that day's price */
} Slip;

typedef struct
{
  guint n;
  guint n_asked;
  guint n_by_pack;
} Count;

static CroOffer
offer_then (const CroOfferEntry *entry,
            const CroPriceRow   *row)
{
  CroOffer then = entry->offer;

  then.has_price = true;
  then.rate = 1;
  then.price = row->price;
  then.tax_included = row->tax;
  then.pack_count = row->own.count != 0 ? row->own.count : entry->pack_count;
  then.pack_size = row->own.size != 0 ? row->own.size : entry->pack_size;
  then.pack_unit = row->own.unit >= 0 ? (CroUnit) row->own.unit : (CroUnit) entry->pack_unit;
  return then;
}

static CroOffer
slip_of (CroOffer then,
         Slip     slip)
{
  if (slip == TEN_TIMES)
    then.price *= 10;
  else if (slip == A_TENTH)
    then.price /= 10;
  else if (slip == A_FIFTH_LESS)
    then.pack_size = then.pack_size * 4 / 5;
  return then;
}

static void
count_offer (CroBook *book,
             guint32  offer,
             Slip     slip,
             Count   *count)
{
  CroModel *model = cro_book_get_model (book);
  const CroOfferEntry *entry = cro_model_offer (model, offer);
  const CroMeasure *measure = &model->measures[entry->item];
  g_autoptr (GArray) rows = cro_price_rows_new (model, cro_book_get_store (book), offer, NULL);
  g_autoptr (GArray) past = g_array_new (FALSE, FALSE, sizeof (double));
  CroOffer last = { 0 };

  assert_non_null (rows);
  for (guint i = 0; i < rows->len; i++)
    {
      const CroPriceRow *row = &g_array_index (rows, CroPriceRow, i);
      CroOffer then = offer_then (entry, row), tried = slip_of (then, slip);
      double unit_cost = cro_offer_unit_cost (&then, measure);

      if (row->price == CRO_NOT_SET || row->price == 0)
        continue;
      if (last.has_price)
        {
          CroLook look = cro_second_look_at (&last, &tried, measure, FALSE, (const double *) past->data, past->len);

          count->n++;
          count->n_asked += look.kind != CRO_LOOK_NOTHING;
          count->n_by_pack += look.kind == CRO_LOOK_PACK || look.kind == CRO_LOOK_SHRANK;
          if (slip == AS_IT_IS && look.kind != CRO_LOOK_NOTHING)
            print_message ("%s from %d: %d, × %g\n", cro_model_item (model, entry->item)->name, row->from, look.kind,
                           look.ratio);
        }
      g_array_append_val (past, unit_cost);
      last = then;
    }
}

static Count
count_all (CroBook *book,
           Slip     slip)
{
  CroModel *model = cro_book_get_model (book);
  Count count = { 0 };

  for (guint32 i = 0; i < model->offers->len; i++)
    if (!cro_model_offer (model, i)->is_dead)
      count_offer (book, i, slip, &count);
  return count;
}

static void
test_the_demonstration_s_history (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  GError *error = NULL;
  Count as_it_is, ten_times, a_tenth, a_fifth_less;

  cro_test_must (cro_load (folder.path, CRO_SOURCE_DIR "/data/demo", "desk", "demo", FALSE, NULL, NULL, faults, &error),
                 error);
  book = cro_test_book_open (folder.path, "desk");
  as_it_is = count_all (book, AS_IT_IS);
  ten_times = count_all (book, TEN_TIMES);
  a_tenth = count_all (book, A_TENTH);
  a_fifth_less = count_all (book, A_FIFTH_LESS);
  print_message ("of %u changes %u are asked about; of ten times %u, of a tenth %u; of a fifth less %u,"
                 " by the pack %u\n",
                 as_it_is.n, as_it_is.n_asked, ten_times.n_asked, a_tenth.n_asked, a_fifth_less.n_asked,
                 a_fifth_less.n_by_pack);
  assert_true (as_it_is.n > 1500);
  assert_int_equal (as_it_is.n_asked, 0);
  assert_int_equal (ten_times.n_asked, ten_times.n);
  assert_int_equal (a_tenth.n_asked, a_tenth.n);
  assert_true (a_fifth_less.n_by_pack * 10 >= a_fifth_less.n * 9);
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_cases),
    cmocka_unit_test (test_a_price_of_a_sack),
    cmocka_unit_test (test_a_price_of_a_pack_that_was_said),
    cmocka_unit_test (test_a_price_of_one_is_nearer_than_a_slip),
    cmocka_unit_test (test_without_a_last_price_nothing_is_asked),
    cmocka_unit_test (test_the_demonstration_s_history),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
