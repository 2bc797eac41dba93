/* A new price of a pack, typed as such or as what changed, and what it does to plates and menus. */
#include "cro-decimal.h"
#include "cro-edit.h"
#include "cro-moved-plates.h"
#include "cro-price-change.h"
#include "cro-round.h"
#include "support/kitchen-book.h"

#include <math.h>

typedef struct
{
  const char    *says;
  const char    *text;
  CroEntryStatus status;
  gint64         price;
} Case;

/* The pack of 5 kg cost 66.00. 66 × 1.05 = 69.30 and 66 × 0.873 = 57.618, to the cent 57.62: by
 * hand. */
static const Case cases[] = {
  { "a price is a price", "69.5", CRO_ENTRY_OK, 69500000 },
  { "a sum is one too", "2 * 34", CRO_ENTRY_OK, 68000000 },
  { "per cent of the last price", "+5 %", CRO_ENTRY_OK, 69300000 },
  { "without a space", "+5%", CRO_ENTRY_OK, 69300000 },
  { "with one that does not break", "+5\u202f%", CRO_ENTRY_OK, 69300000 },
  { "less per cent, rounded to the cent", "-12.7 %", CRO_ENTRY_OK, 57620000 },
  { "money more", "+0.40", CRO_ENTRY_OK, 66400000 },
  { "money less", "-0.40", CRO_ENTRY_OK, 65600000 },
  { "the sign of print", " −0.40", CRO_ENTRY_OK, 65600000 },
  { "all of it", "-66", CRO_ENTRY_OK, 0 },
  { "no price is below 0", "-66.01", CRO_ENTRY_OUT_OF_RANGE, 0 },
  { "a dash alone: it is not to be had", "-", CRO_ENTRY_OK, CRO_NOT_SET },
  { "whichever dash", " – ", CRO_ENTRY_OK, CRO_NOT_SET },
  { "a sign alone is nothing", "+", CRO_ENTRY_EMPTY, 0 },
  { "words are no price", "dear", CRO_ENTRY_NOT_A_NUMBER, 0 },
  { "nothing is nothing", "", CRO_ENTRY_EMPTY, 0 },
  { "a price per kilo is reckoned for the pack", "13.20/kg", CRO_ENTRY_OK, 66000000 },
  { "with its currency", "€71", CRO_ENTRY_OK, 71000000 },
  { "another currency is none", "£71", CRO_ENTRY_OTHER_CURRENCY, 0 },
};

/* The offer of an ingredient. */
static guint32
offer_of (CroTestKitchen *kitchen,
          const char     *name)
{
  CroModel *model = cro_book_get_model (kitchen->book);
  const CroItem *item = cro_model_item (model, cro_edit_find_name (model, CRO_NAMES_ITEMS, name).slot);

  return g_array_index (model->offer_order, guint32, item->first_offer);
}

static int
set_up (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\n" },
    { "ingredients", "name,unit\nCrab,g\nCup,each\n" },
    { "suppliers", "name\nQuay\n" },
    { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,5,kg\n"
                "Cup,Quay,1,200,each\n" },
    { "prices", "ingredient,supplier,from,price\nCrab,Quay,2026-02-10,66\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static void
test_what_is_typed_becomes_a_price (void **state)
{
  CroTestKitchen *kitchen = *state;
  guint32 crab = offer_of (kitchen, "Crab");
  CroModel *model = cro_book_get_model (kitchen->book);
  gint64 before;
  CroDate since;

  assert_true (cro_price_before (kitchen->book, crab, CRO_TEST_DAY, &before, &since));
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroEntry) entry = { 0 };
      CroPriceChange change;
      CroEntryStatus status = cro_price_change_read (model, crab, &before, cases[i].text, &change,
                                                     &entry);

      if (status != cases[i].status
          || (status == CRO_ENTRY_OK && change.price != cases[i].price))
        fail_msg ("%s: status %d, %" G_GINT64_FORMAT, cases[i].says, status, change.price);
    }
}

static void
test_it_is_said_what_that_comes_to (void **state)
{
  CroTestKitchen *kitchen = *state;
  guint32 crab = offer_of (kitchen, "Crab");
  CroModel *model = cro_book_get_model (kitchen->book);
  g_autofree char *words = NULL;
  g_auto (CroEntry) entry = { 0 };
  CroPriceChange change;
  gint64 before = INT64_C (66000000);

  assert_int_equal (cro_price_change_read (model, crab, &before, "70", &change, &entry), CRO_ENTRY_OK);
  words = cro_price_change_words (model, crab, &change);
  assert_string_equal (words, "14.00/kg, +6.1\u00a0%");
  g_free (words);
  assert_int_equal (cro_price_change_read (model, crab, &before, "7000", &change, &entry), CRO_ENTRY_OK);
  words = cro_price_change_words (model, crab, &change);
  assert_string_equal (words, "1400.00/kg, +10506.1\u00a0% · is 70.00 meant?");
  g_free (words);
  assert_int_equal (cro_price_change_read (model, crab, &before, "2100", &change, &entry), CRO_ENTRY_OK);
  words = cro_price_change_words (model, crab, &change);
  assert_string_equal (words, "420.00/kg, +3081.8\u00a0% · is this right?");
  g_free (words);
  assert_int_equal (cro_price_change_read (model, crab, &before, "-", &change, &entry), CRO_ENTRY_OK);
  words = cro_price_change_words (model, crab, &change);
  assert_string_equal (words, "not to be had");
}

/* Which text, and what may be typed instead. */
static void
test_it_is_said_why_it_is_no_price (void **state)
{
  static const struct { const char *text, *reason; } said[] = {
    { "£71", "“£71” is in another currency. Type the price in EUR." },
    { "71 USD", "“71 USD” is in another currency. Type the price in EUR." },
    { "-66.01", "A price cannot be below 0. Type 0 or more." },
    { "dear", "This is not a price. Type one, or a change: +5 %, −0.40." },
    { "1/0", "“1/0” divides by 0. Type another number." },
    { "", NULL },
    { "71", NULL },
  };
  CroTestKitchen *kitchen = *state;
  guint32 crab = offer_of (kitchen, "Crab");
  CroModel *model = cro_book_get_model (kitchen->book);
  gint64 before = INT64_C (66000000);

  for (gsize i = 0; i < G_N_ELEMENTS (said); i++)
    {
      g_auto (CroEntry) entry = { 0 };
      g_autofree char *reason = NULL;
      CroPriceChange change;

      cro_price_change_read (model, crab, &before, said[i].text, &change, &entry);
      reason = cro_price_change_reason (model, crab, said[i].text, &entry);
      if (g_strcmp0 (reason, said[i].reason) != 0)
        fail_msg ("“%s” is told as: %s", said[i].text, reason);
    }
}

static void
test_a_first_price_is_no_change (void **state)
{
  CroTestKitchen *kitchen = *state;
  guint32 cup = offer_of (kitchen, "Cup");
  CroModel *model = cro_book_get_model (kitchen->book);
  g_auto (CroEntry) entry = { 0 };
  CroPriceChange change;
  gint64 before;
  CroDate since;

  assert_false (cro_price_before (kitchen->book, cup, CRO_TEST_DAY, &before, &since));
  assert_int_equal (cro_price_change_read (model, cup, NULL, "+5 %", &change, &entry),
                    CRO_ENTRY_NOT_A_NUMBER);
  assert_int_equal (cro_price_change_read (model, cup, NULL, "23", &change, &entry), CRO_ENTRY_OK);
  assert_true (change.price == INT64_C (23000000));
  assert_true (isnan (change.change_pct));
}

/* While something is typed the model shows that, and not what it is a change of. */
static void
test_the_price_before_is_the_one_kept (void **state)
{
  CroTestKitchen *kitchen = *state;
  guint32 crab = offer_of (kitchen, "Crab");
  gint64 before;
  CroDate since;
  GError *error = NULL;

  cro_test_must (cro_book_preview_price (kitchen->book, crab, INT64_C (70000000), &error), error);
  assert_true (cro_price_before (kitchen->book, crab, CRO_TEST_DAY, &before, &since));
  assert_true (before == INT64_C (66000000));
  assert_false (cro_price_before (kitchen->book, crab, CRO_TEST_DAY - 30, &before, &since));
}

/* Once it is to be had again, its price has changed from the last one. */
static void
test_the_price_before_is_the_last_one (void **state)
{
  CroTestKitchen *kitchen = *state;
  guint32 crab = offer_of (kitchen, "Crab");
  gint64 before;
  CroDate since;
  GError *error = NULL;

  cro_test_must (cro_edit_set_price (kitchen->book, "gone", crab, CRO_TEST_DAY, CRO_NOT_SET, &error),
                 error);
  assert_true (cro_price_before (kitchen->book, crab, CRO_TEST_DAY, &before, &since));
  assert_true (before == INT64_C (66000000));
}

/* On another day than the book's: what is in force then, and what now. */
static void
test_what_was_kept_is_said (void **state)
{
  static const struct { int days; gint64 price; const char *said; } acts[] = {
    { 3, INT64_C (69000000), "69.00 kept from 2026-02-13; until then 66.00 from 2026-02-10 is in force" },
    { 7, CRO_NOT_SET, "not to be had from 2026-02-17 on" },
    { -5, INT64_C (64500000), "64.50 kept from 2026-02-05; 66.00 from 2026-02-10 is in force" },
    { 0, INT64_C (65000000), "65.00 kept from 2026-02-10" },
  };
  CroTestKitchen *kitchen = *state;
  CroDate day = cro_date_from_civil (2026, 2, 10), since;
  guint32 crab = offer_of (kitchen, "Crab");
  gint64 before;
  GError *error = NULL;

  cro_test_must (cro_book_set_date (kitchen->book, day, &error), error);
  for (gsize i = 0; i < G_N_ELEMENTS (acts); i++)
    {
      g_autofree char *said = NULL;

      cro_test_must (cro_edit_set_price (kitchen->book, "price", crab, day + acts[i].days, acts[i].price,
                                         &error),
                     error);
      said = cro_price_kept_words (cro_book_get_figures (kitchen->book), crab, day + acts[i].days,
                                   acts[i].price);
      assert_string_equal (said, acts[i].said);
    }
  assert_true (cro_price_before (kitchen->book, crab, day - 1, &before, &since));
  assert_true (before == INT64_C (64500000));
  assert_int_equal (since, day - 5);
}

/* --- What it moves ------------------------------------------------------------------------------ */

/* Plates and menus of crab alone, of one plate each. */
static CroBook *
book_of (CroTestFolder *folder,
         const char    *price,
         const char    *plates,
         const char    *lines,
         const char    *menus,
         const char    *carried)
{
  const struct { const char *table, *columns, *rows; } tables[] = {
    { "book", "key,value", "currency,EUR" },
    { "ingredients", "name,unit", "Crab,g" },
    { "suppliers", "name", "Quay" },
    { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit", "Crab,Quay,1,1,kg" },
    { "prices", "ingredient,supplier,from,price", price },
    { "plates", "name,makes", plates },
    { "lines", "into,parent,position,item,amount,unit,weighed", lines },
    { "menus", "name", menus },
    { "menu_plates", "menu,plate", carried },
  };

  *folder = cro_test_folder_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    {
      g_autofree char *text = g_strdup_printf ("%s\n%s\n", tables[i].columns, tables[i].rows);

      cro_test_write_table (folder->folder, tables[i].table, text);
    }
  return cro_test_book_load (folder);
}

/* All moved by a fifth: how they stand among each other is a matter of the last bit. */
static int
compare_texts (gconstpointer a,
               gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* A plate and a menu have gone and others come: all that are in both stand at other slots, and at theirs another
 * one. A kilogram of crab at 10 and at 12: 10, 20, 30 g of it cost 0.10, 0.20, 0.30, and 0.12, 0.36, 0.48 those of
 * 10, 30, 40. */
static void
test_plates_are_met_by_name (void **state)
{
  CroTestFolder folders[2];
  CroBook *before = book_of (&folders[0], "Crab,Quay,2026-02-10,10", "Bisque,1\nTartlet,1\nPuff,1",
                             "plate,Bisque,1,Crab,10,g,whole\nplate,Tartlet,1,Crab,20,g,whole\n"
                             "plate,Puff,1,Crab,30,g,whole",
                             "Noon\nTide", "Noon,Bisque\nTide,Puff");
  CroBook *after = book_of (&folders[1], "Crab,Quay,2026-02-10,12", "Bisque,1\nPuff,1\nBlini,1",
                            "plate,Bisque,1,Crab,10,g,whole\nplate,Puff,1,Crab,30,g,whole\n"
                            "plate,Blini,1,Crab,40,g,whole",
                            "Tide\nNight", "Tide,Puff\nNight,Blini");
  g_autoptr (GArray) moved = cro_moved_plates_new (cro_book_get_figures (before), cro_book_get_figures (after));
  g_autoptr (GPtrArray) told = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *text = NULL;

  for (guint i = 0; i < moved->len; i++)
    {
      const CroMovedPlate *plate = &g_array_index (moved, CroMovedPlate, i);

      g_ptr_array_add (told, g_strdup_printf ("%s %s %.2f %.2f", plate->is_menu ? "menu" : "plate",
                                              plate->before.name, plate->before.cost, plate->after.cost));
    }
  g_ptr_array_sort (told, compare_texts);
  g_ptr_array_add (told, NULL);
  text = g_strjoinv (", ", (char **) told->pdata);
  assert_string_equal (text, "menu Tide 0.30 0.36, plate Bisque 0.10 0.12, plate Puff 0.30 0.36");
  g_assert_finalize_object (before);
  g_assert_finalize_object (after);
  cro_test_folder_clear (&folders[0]);
  cro_test_folder_clear (&folders[1]);
}

/* --- Set aside ---------------------------------------------------------------------------------- */

static CroRound *
put_aside (CroTestKitchen *kitchen,
           const char     *text)
{
  g_autoptr (GError) error = NULL;
  CroRound *round = cro_round_new (kitchen->book, 0, cro_book_get_figures (kitchen->book)->date, &error);

  cro_test_must (round != NULL && cro_round_put_text (round, text, &error), error);
  return round;
}

/* Four times more than 66.00 was said to be right, and set aside: beside 70.00 it is asked about once more. */
static void
test_what_was_right_beside_another_price_is_asked (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) typed = put_aside (kitchen, ""), stays = NULL, moved = NULL;
  g_autofree char *text = NULL;
  GError *error = NULL;

  cro_test_must (cro_round_type (typed, 0, "+400 %", &error), error);
  assert_true (cro_round_row_waits (cro_round_get_row (typed, 0)));
  cro_test_must (cro_round_is_right (typed, 0, &error), error);
  text = cro_round_to_text (typed);
  stays = put_aside (kitchen, text);
  assert_true (cro_round_row_is_ready (cro_round_get_row (stays, 0)));
  cro_test_must (cro_edit_set_price (kitchen->book, "price", offer_of (kitchen, "Crab"),
                                     cro_book_get_figures (kitchen->book)->date, INT64_C (70000000), &error), error);
  moved = put_aside (kitchen, text);
  assert_true (cro_round_row_waits (cro_round_get_row (moved, 0)));
  /* Once both were answered it stays so: that the last price moved, and how far it is from that. */
  while (cro_round_row_waits (cro_round_get_row (moved, 0)))
    cro_test_must (cro_round_is_right (moved, 0, &error), error);
  g_free (text);
  text = cro_round_to_text (moved);
  g_clear_pointer (&stays, cro_round_free);
  stays = put_aside (kitchen, text);
  assert_true (cro_round_row_is_ready (cro_round_get_row (stays, 0)));
}

/* Another day has another last price, which is what whoever says that day looks at: 5 % more than 70.00 are 73.50. */
static void
test_a_change_on_another_day_asks_nothing (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = put_aside (kitchen, "");
  CroDate day = cro_book_get_figures (kitchen->book)->date;
  GError *error = NULL;

  cro_test_must (cro_edit_set_price (kitchen->book, "price", offer_of (kitchen, "Crab"), day + 2,
                                     INT64_C (70000000), &error), error);
  cro_test_must (cro_round_type (round, 0, "+5 %", &error), error);
  assert_true (cro_round_get_row (round, 0)->list.price == INT64_C (69300000));
  cro_test_must (cro_round_renew (round, day + 5, &error), error);
  assert_true (cro_round_row_is_ready (cro_round_get_row (round, 0)));
  assert_true (cro_round_get_row (round, 0)->list.price == INT64_C (73500000));
}

/* "Prices for Tuesday", read on a Monday (2026-02-16), waits on every day but on a Tuesday, there and back. */
static void
test_a_day_that_is_put_right_is_asked_no_more (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = put_aside (kitchen, "");
  g_autoptr (CroPriceList) taken = NULL;
  CroDate day = cro_book_get_figures (kitchen->book)->date;
  GError *error = NULL;
  guint n_right = 0;

  cro_test_must (cro_round_take_text (round, "prices for Tuesday:\nCrab 67\n", NULL, &taken, &error),
                 error);
  assert_int_equal (cro_round_count_waiting (round), 1);
  for (CroDate to = day + 8; to > day; to--)
    {
      cro_test_must (cro_round_renew (round, to, &error), error);
      n_right += cro_round_count_waiting (round) == 0;
      assert_int_equal (cro_round_count_waiting (round) + cro_round_count_ready (round), 1);
    }
  /* The 17th and the 24th. */
  assert_int_equal (n_right, 2);
}

/* --- In a message ------------------------------------------------------------------------------- */

/* Hake at 36.00 for 10 kg with tax, oil at 40.00 for 5 l, of who states prices per kg. A change is of what is stated:
 * 3.60 × 1.01 is 3.64 to the cent, 36.40 for 10 kg, by hand; a litre of what is weighed is no kg, and 40.00 × 1.01 is
 * 40.40. As last is with the tax of the last price. Who says two things is asked. */
static void
test_a_change_is_of_what_is_stated (void **state)
{
  static const struct { const char *lines; gint64 price, tax; double size; } messages[] = {
    { "Hake up 1 %\n", 36400000, 5500000, 10 },
    { "Oil up 1 %\n", 40400000, 0, 5 },
    { "Hake same as last ex VAT\n", 36000000, 5500000, 10 },
    { "Hake up -1 %\n", 0, 0, 0 },
    { "Hake same as last 1 %\n", 0, 0, 0 },
    { "Hake 3.70 ex VAT\nHake 3.70 incl. VAT\n", 0, 0, 0 },
  };
  CroTestFolder folder = cro_test_folder_new ();
  CroBook *book;

  cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\n");
  cro_test_write_table (folder.folder, "ingredients", "name,unit,density_g_per_ml\nHake,g,\nOil,g,0.92\n");
  cro_test_write_table (folder.folder, "suppliers", "name,quotes\nFar Bank,base unit\n");
  cro_test_write_table (folder.folder, "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\n"
                                                 "Hake,Far Bank,1,10,kg\nOil,Far Bank,1,5,l\n");
  cro_test_write_table (folder.folder, "prices", "ingredient,supplier,from,price,tax_included_pct\n"
                                                 "Hake,Far Bank,2026-02-01,36,5.5\nOil,Far Bank,2026-02-01,40,\n");
  book = cro_test_book_load (&folder);
  for (gsize i = 0; i < G_N_ELEMENTS (messages); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CroRound) round = cro_round_new (book, 0, cro_book_get_figures (book)->date, &error);
      g_autoptr (CroPriceList) taken = NULL;
      guint n = 0;

      cro_test_must (cro_round_take_text (round, messages[i].lines, NULL, &taken, &error), error);
      for (guint k = 0; k < cro_round_get_n_rows (round); k++)
        {
          const CroRoundRow *row = cro_round_get_row (round, k);

          if (!cro_round_row_is_ready (row))
            continue;
          n++;
          if (row->list.price != messages[i].price || row->list.tax != messages[i].tax
              || row->list.pack.size != (gint64) (messages[i].size * CRO_MICRO))
            fail_msg ("“%s”: %g with %g, of %g", messages[i].lines, (double) row->list.price / CRO_MICRO,
                      (double) row->list.tax / CRO_MICRO, (double) row->list.pack.size / CRO_MICRO);
        }
      if (n != (messages[i].price != 0))
        fail_msg ("“%s”: %u", messages[i].lines, n);
    }
  g_assert_finalize_object (book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_what_is_typed_becomes_a_price),
    CASE (test_it_is_said_what_that_comes_to),
    CASE (test_it_is_said_why_it_is_no_price),
    CASE (test_a_first_price_is_no_change),
    CASE (test_the_price_before_is_the_one_kept),
    CASE (test_the_price_before_is_the_last_one),
    CASE (test_what_was_kept_is_said),
    CASE (test_what_was_right_beside_another_price_is_asked),
    CASE (test_a_change_on_another_day_asks_nothing),
    CASE (test_a_day_that_is_put_right_is_asked_no_more),
    cmocka_unit_test (test_plates_are_met_by_name),
    cmocka_unit_test (test_a_change_is_of_what_is_stated),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
