/* Packs as people write them. */
#include "support/kitchen-book.h"
#include "support/kitchen-random.h"

#include <math.h>

#include "cro-card.h"
#include "cro-money.h"
#include "cro-pack.h"
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

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_price_of_a_pack),
    cmocka_unit_test (test_read),
    cmocka_unit_test (test_what_is_written_reads_back),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
