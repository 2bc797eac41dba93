/* Packs as people write them. */
#include "support/kitchen-book.h"
#include "support/kitchen-random.h"

#include <math.h>

#include "cro-card.h"
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-money.h"
#include "cro-own-pack.h"
#include "cro-pack.h"
#include "cro-price-change.h"
#include "cro-records.h"
#include "cro-second-look.h"
#include "cro-words.h"

static const struct { const char *says, *text; gboolean is_pack; gint64 count, size; CroUnit unit; }
cases[] = {
  { "a size alone is one of it", "5 kg", TRUE, 1000000, 5000000, CRO_UNIT_KG },
  { "the count stands before the sign", "20 × 250 g", TRUE, 20000000, 250000000, CRO_UNIT_G },
  { "an x is the sign too", "4x1.25kg", TRUE, 4000000, 1250000, CRO_UNIT_KG },
  { "a star is the sign too", "6 * 1 dozen", TRUE, 6000000, 1000000, CRO_UNIT_DOZEN },
  { "without a unit it is that of the offer", "2.5", TRUE, 1000000, 2500000, CRO_UNIT_L },
  { "what follows the first sign is the size", "2 x 3 x 70 cl", TRUE, 2000000, 210000000,
    CRO_UNIT_CL },
  { "nothing is no pack", "", FALSE, 0, 0, CRO_UNIT_G },
  { "a pack holds something", "0 kg", FALSE, 0, 0, CRO_UNIT_G },
  { "a count is needed before the sign", "x 5 kg", FALSE, 0, 0, CRO_UNIT_G },
  { "a word is no pack", "a boxful", FALSE, 0, 0, CRO_UNIT_G },
};

static void
test_read (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroPack pack = { 0, 0, CRO_UNIT_G };

      if (cro_pack_from_text (cases[i].text, CRO_UNIT_L, cro_words_entry (), &pack)
              != cases[i].is_pack
          || pack.count != cases[i].count || pack.size != cases[i].size
          || pack.unit != cases[i].unit)
        fail_msg ("%s: %s", cases[i].says, cases[i].text);
    }
}

static void
test_what_is_written_reads_back (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroPack pack = { cases[i].count, cases[i].size, cases[i].unit }, back = { 0 };
      g_autofree char *text = cro_pack_to_text (&pack);

      if (cases[i].is_pack
          && (!cro_pack_from_text (text, CRO_UNIT_EACH, cro_words_entry (), &back)
              || back.count != pack.count || back.size != pack.size || back.unit != pack.unit))
        fail_msg ("%s does not read back", text);
    }
}

/* --- Prices of packs --------------------------------------------------------------------------- */

static const struct { const char *says; gint64 offer; double pack; gboolean is_price; gint64 price; }
prices[] = {
  { "cents of the pound, not six digits", 1, 39.316239, TRUE, 39320000 },
  { "the yen has none", 2, 39.316239, TRUE, 39000000 },
  { "the book's where the offer says nothing", 3, 39.316239, TRUE, 39320000 },
  { "the cheap keeps three digits", 1, 0.0092347, TRUE, 9230 },
  { "nothing costs nothing", 1, 0, TRUE, 0 },
  { "beyond any price", 1, 1e13, FALSE, 0 },
  { "no number", 1, NAN, FALSE, 0 },
};

static void
test_price_of_a_pack (void **state)
{
  CroTestFolder folder;
  CroBook *book = cro_test_book_with (
      &folder, "INSERT INTO book (id, currency) VALUES (1, 'EUR');"
               "INSERT INTO item VALUES (1, 'eel'); INSERT INTO ingredient (id, unit) VALUES (1, 'g');"
               "INSERT INTO supplier (id, name) VALUES (1, 'Far Bank');"
               "INSERT INTO offer (id, ingredient, supplier, code, pack_count_micro, pack_size_micro,"
               " pack_unit, currency) VALUES (1, 1, 1, 'a', 1000000, 5000000, 'kg', 'GBP'),"
               " (2, 1, 1, 'b', 1000000, 5000000, 'kg', 'JPY'),"
               " (3, 1, 1, 'c', 1000000, 5000000, 'kg', NULL);");
  CroModel *model = cro_book_get_model (book);

  for (gsize i = 0; i < G_N_ELEMENTS (prices); i++)
    {
      gint64 price = 0;

      if (cro_pack_price_of (model, cro_slots_get (&model->offer_slots, prices[i].offer), prices[i].pack,
                             cro_money_round, &price) != prices[i].is_price
          || price != prices[i].price)
        fail_msg ("%s: %" G_GINT64_FORMAT, prices[i].says, price);
    }
  g_object_unref (book);
  cro_test_folder_clear (&folder);
}

/* --- Prices per unit --------------------------------------------------------------------------- */

/* A pack of 5 kg at 65.00; an invoice then counted kilograms at 14.20. The figures are by hand: 5 × 14.20 = 71.00,
 * 71.00 × 1.05 = 74.55, 70.00 ÷ 5000 g = 0.014. Butter of 4 kg is what is sold since then. */
static const char per_unit[] =
    "INSERT INTO book (id, currency) VALUES (1, 'EUR');"
    "INSERT INTO item VALUES (1, 'cream'), (2, 'butter'), (3, 'oil');"
    "INSERT INTO ingredient (id, unit) VALUES (1, 'g'), (2, 'g'), (3, 'g');"
    "INSERT INTO supplier (id, name) VALUES (1, 'Far Bank');"
    "INSERT INTO offer (id, ingredient, supplier, code, pack_count_micro, pack_size_micro, pack_unit)"
    " VALUES (1, 1, 1, 'a', 1000000, 5000000, 'kg'), (2, 2, 1, 'b', 1000000, 5000000, 'kg'),"
    " (3, 3, 1, 'c', 1000000, 5000000, 'l');"
    "INSERT INTO price (offer, from_date, price_micro, pack_count_micro, pack_size_micro, pack_unit)"
    " VALUES (1, '2020-01-01', 65000000, NULL, NULL, NULL), (1, '2020-02-01', 14200000, 1000000, 1000000, 'kg'),"
    " (2, '2020-01-01', 40000000, NULL, 4000000, NULL), (3, '2020-01-01', 9000000, 1000000, 1000000, 'kg');";

static double
cost_of (CroBook *book,
         guint32  offer)
{
  CroModel *model = cro_book_get_model (book);
  const CroOfferEntry *entry = cro_model_offer (model, offer);

  return cro_offer_unit_cost (&entry->offer, &model->measures[entry->item]);
}

static void
assert_pack (CroPack     pack,
             const char *text)
{
  g_autofree char *is = cro_pack_to_short_text (&pack);

  assert_string_equal (is, text);
}

/* What stands in the table of packs side by side. */
static void
assert_side_by_side (CroBook    *book,
                     guint32     offer,
                     const char *size,
                     const char *price)
{
  g_autoptr (CroRecords) records = cro_records_new (book, CRO_RECORDS_OFFERS);
  guint found = 0;

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (records)); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (records), i);
      g_autofree char *of = cro_record_dup_text (record, 3), *at = cro_record_dup_text (record, 4);

      if (cro_record_get_ref (record).slot != offer)
        continue;
      assert_string_equal (of, size);
      assert_string_equal (at, price);
      found++;
    }
  assert_int_equal (found, 1);
}

static void
test_per_unit_is_told_per_pack (void **state)
{
  CroTestFolder folder;
  CroBook *book = cro_test_book_with (&folder, per_unit);
  CroModel *model = cro_book_get_model (book);
  CroDate today = cro_book_get_figures (book)->date, since;
  guint32 cream = cro_slots_get (&model->offer_slots, 1), butter = cro_slots_get (&model->offer_slots, 2);
  guint32 oil = cro_slots_get (&model->offer_slots, 3);
  CroOffer then = cro_own_pack_in_force (model, cream);
  g_autofree char *kept = NULL;
  double pack, next;
  CroLook look;
  gint64 before;

  assert_true (then.price == 71000000);
  assert_pack (cro_pack_of_offer (model, cream), "5 kg");
  assert_pack (cro_pack_in_force (model, cream), "1 kg");
  assert_float_equal (cost_of (book, cream), 0.0142, 1e-12);
  assert_pack (cro_pack_of_offer (model, butter), "4 kg");
  /* Nobody has said what a litre of it weighs. */
  assert_pack (cro_pack_of_offer (model, oil), "1 kg");
  assert_side_by_side (book, cream, "5 kg", "71.00");
  assert_side_by_side (book, butter, "4 kg", "40.00");
  assert_side_by_side (book, oil, "1 kg", "9.00");

  cro_ceiling_in_packs (cro_book_get_figures (book), cro_model_offer (model, cream)->item, 0.01, &pack, &next);
  assert_float_equal (pack, 50, 1e-9);

  /* Less in it for the money. */
  then.pack_size = 4 * CRO_MICRO;
  assert_true (cro_second_look (book, cream, &then, FALSE, &look, NULL));
  assert_int_equal (look.kind, CRO_LOOK_SHRANK);
  assert_pack (look.pack, "5 kg");

  assert_true (cro_price_before (book, cream, today, &before, &since));
  assert_true (before == 71000000);
  for (guint i = 0; i < 2; i++)
    {
      g_auto (CroEntry) entry = { 0 };
      CroPriceChange change;

      assert_int_equal (cro_price_change_read (model, cream, &before, i == 0 ? "+5 %" : "70", &change, &entry),
                        CRO_ENTRY_OK);
      assert_true (change.price == (i == 0 ? 74550000 : 70000000));
      assert_float_equal (change.unit_cost, i == 0 ? 0.01491 : 0.014, 1e-12);
      assert_true (cro_book_preview_own_price (book, cream, change.price, NULL));
      assert_float_equal (cost_of (book, cream), change.unit_cost, 1e-12);
    }
  assert_true (cro_book_restore (book, NULL));
  assert_float_equal (cost_of (book, cream), 0.0142, 1e-12);

  /* Kept, it is the pack's; a pack that shrank goes on. */
  assert_true (cro_edit_set_own_price (book, "price", cream, today, 70000000, NULL));
  assert_pack (cro_pack_in_force (model, cream), "5 kg");
  assert_float_equal (cost_of (book, cream), 0.014, 1e-12);
  assert_true (cro_edit_set_own_price (book, "price", butter, today, 44000000, NULL));
  assert_pack (cro_pack_in_force (model, butter), "4 kg");
  assert_float_equal (cost_of (book, butter), 0.011, 1e-12);
  kept = cro_price_kept_words (cro_book_get_figures (book), cream, since, 71000000);
  assert_non_null (strstr (kept, "70.00 from"));

  g_object_unref (book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_per_unit_is_told_per_pack),
    cmocka_unit_test (test_price_of_a_pack),
    cmocka_unit_test (test_read),
    cmocka_unit_test (test_what_is_written_reads_back),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
