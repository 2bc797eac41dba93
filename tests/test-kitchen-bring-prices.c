/* Sheets of prices that somebody brings: what is understood of them, what is refused and where, and the figures of the
 * book afterwards, reckoned by hand beside each case. */
#include "cro-bring-words.h"
#include "cro-edit.h"
#include "support/kitchen-bring.h"

#include <math.h>

/* --- Prices ---------------------------------------------------------------------------------------- */

/* As every price that is typed: against the last, per kg whatever the packs, with a question. */
static void
test_prices_stand_beside_the_last (void **state)
{
  static const struct { guint number; gboolean is_doubtful; const char *says; } cases[] = {
    { 2, FALSE, "1 × 5 kg, 69.00, Quay · last 66.00, +4.5\u00a0%" },
    { 3, TRUE, "1 × 1 kg, 174.00, Quay · last 16.20, +974.1\u00a0% · is 17.40 meant?" },
    { 4, FALSE, "1 × 4.5 kg, 21.00, Quay · last 21.00 for another pack, +11.1\u00a0%" },
    { 5, TRUE, "1 × 1 kg, 4.00, Quay · last 1.00, +300.0\u00a0% · is this right?" },
    { 6, FALSE, "1 × 1 kg, 9.00, Quay" },
  };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) first = bring_sheet (kitchen,
    "Ingredient,Supplier,Pack,Price\nCrab,Quay,5 kg,66\nClams,Quay,1 kg,16.20\nMussels,Quay,5 kg,21\n"
    "Salt,Quay,1 kg,1\n");
  g_autoptr (CroBring) past = cro_bring_read (first, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  g_autoptr (CroBrought) brought = NULL;
  g_autoptr (CroBring) bring = NULL;
  g_autofree char *summary = NULL, *unused = NULL;

  bring_into (kitchen, past);
  brought = bring_sheet (kitchen,
    "Ingredient,Supplier,Pack,Price\nCrab,Quay,5 kg,69\nClams,Quay,1 kg,174\nMussels,Quay,4.5 kg,21\n"
    "Salt,Quay,1 kg,4\nDulse,Quay,1 kg,9\nDry goods,,,\n");
  bring = cro_bring_read (brought, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const CroBringRow *row = get_row (bring, cases[i].number);
      g_autofree char *says = cro_words_bring_row (cro_book_get_model (kitchen->book), bring, row);

      assert_string_equal (says, cases[i].says);
      assert_int_equal (row->is_doubtful, cases[i].is_doubtful);
    }
  summary = cro_words_bring (brought, bring);
  assert_string_equal (summary, "1 new ingredient, 5 prices; 2 prices are far from the last");
  unused = cro_words_bring_unused (brought, get_row (bring, 7));
  assert_string_equal (unused, "Dry goods");
}

/* A name that is new beside one that is like it is asked about, of an ingredient and of a supplier. */
static void
test_new_names_are_asked_about (void **state)
{
  static const struct { guint number; const char *says; } cases[] = {
    { 2, "The book has “Rock oyster”. Is this the same ingredient?" },
    { 3, "The book has the supplier “Quay Shellfish”. Is this the same one?" },
    { 4, NULL },
    { 5, NULL },
    /* What is made bears the words of what it is made of by right. */
    { 6, NULL },
  };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) first = bring_sheet (kitchen,
    "Ingredient,Supplier,Pack,Price\nRock oyster,Quay Shellfish,1 kg,16\nWhite wine,Far Bank,1 l,5\n");
  g_autoptr (CroBring) past = cro_bring_read (first, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Far Bank");
  g_autoptr (CroBrought) brought = NULL;
  g_autoptr (CroBring) bring = NULL;
  g_autofree char *summary = NULL;
  guint32 recipe, item;

  assert_true (cro_edit_add_preparation (kitchen->book, "made", "Crab butter", 0, CRO_UNIT_G, &recipe, &item, NULL));
  bring_into (kitchen, past);
  brought = bring_sheet (kitchen,
    "Ingredient,Supplier,Pack,Price\nOysters,Far Bank,1 kg,17\nRock oyster,Quay,1 kg,17\n"
    "White cabbage,Far Bank,1 kg,2\n"
    "Rock oysters,Quay Shellfish,1 kg,17\nCrab,Far Bank,1 kg,30\n");
  bring = cro_bring_read (brought, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Far Bank");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *says = cro_words_bring_like (get_row (bring, cases[i].number));

      if (g_strcmp0 (says, cases[i].says) != 0)
        fail_msg ("row %u: %s", cases[i].number, says != NULL ? says : "nothing");
    }
  summary = cro_words_bring (brought, bring);
  assert_string_equal (summary, "3 new ingredients, 5 prices; 2 new names are like names in the book");
}

static void
test_prices (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "Mercuriale de novembre;;;;;;\n"
    ";;;;;;\n"
    "Désignation;Fournisseur;Réf.;Conditionnement;Prix HT;Rendement;Famille\n"
    "Poissons;;;;;;\n"
    "Colin;Quai Sud;101;5 kg;66,00 €;45 %;Poissons\n"
    "Huîtres;Quai Sud;102;50 pièces;46;;\n"
    "Crème;Laiterie;;6 x 1 l;1 234,50;;\n"
    "Beurre;;;kg;9,20;0,98;\n"
    ";;;;1 355,70;;\n");
  g_autoptr (CroBring) bring = NULL;

  assert_int_equal (brought->headings, 1);
  assert_int_equal (cro_bring_guess (brought), CRO_BRING_PRICES);
  bring = cro_bring_read (brought, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Halles");
  assert_int_equal (bring->n_new, 4);
  assert_int_equal (bring->n_prices, 4);
  assert_int_equal (bring->n_faults, 0);
  assert_int_equal (get_row (bring, 4)->state, CRO_BRING_LEFT_OUT);
  assert_int_equal (get_row (bring, 9)->state, CRO_BRING_LEFT_OUT);
  bring_into (kitchen, bring);
  /* 66.00 / 5,000 g; 46 / 50; 1,234.50 / 6,000 ml; 9.20 / 1,000 g. */
  assert_unit_cost (kitchen, "Colin", 66.0 / 5000);
  assert_unit_cost (kitchen, "Huîtres", 46.0 / 50);
  assert_unit_cost (kitchen, "Crème", 1234.5 / 6000);
  assert_unit_cost (kitchen, "Beurre", 9.2 / 1000);
  assert_int_equal (cro_book_get_model (kitchen->book)->measures[find_item (kitchen, "Colin")].trim_yield,
                    45000000);
  assert_int_equal (cro_book_get_model (kitchen->book)->measures[find_item (kitchen, "Beurre")].trim_yield,
                    98000000);
}

/* A sign that is not the book's is not passed over, nor one where no money stands; and what looks like
 * the code of a currency is a unit there. Around names, what has no width is left away. */
static void
test_signs (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) prices = bring_sheet (kitchen,
    "item,pack,price\nHake,5 kg,$60\nCod,1 kg,€9\nSole,1 kg,EUR 9\nLing,1 kg,USD 9\n\u2060Sole\u200B,2 kg,9\n");
  g_autoptr (CroBrought) pounds = bring_sheet (kitchen, "item,pack,price (£)\nHake,5 kg,60\n");
  g_autoptr (CroBrought) recipes = bring_sheet (kitchen,
    "recipe,item,amount,unit,selling price\nPie,Hake,$5,kg,9\nPie,Cod,5 KGS,,\nTart,Cod,1,kg,$8\n");
  g_autoptr (CroBring) bring = NULL, of_recipes = NULL;
  static const char *const columns[] = { "currency", NULL };
  CroCell euro = CRO_CELL_STR ("EUR");
  GError *error = NULL;

  cro_test_must (cro_edit_set (kitchen->book, "currency", "book", 1, columns, &euro, &error), error);
  bring = cro_bring_read (prices, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  assert_fault (bring, 2, CRO_BRING_OTHER_CURRENCY);
  assert_fault (bring, 3, CRO_BRING_SOUND);
  assert_fault (bring, 4, CRO_BRING_SOUND);
  assert_fault (bring, 5, CRO_BRING_OTHER_CURRENCY);
  assert_string_equal (get_row (bring, 6)->name, "Sole");
  g_clear_pointer (&bring, cro_bring_free);
  bring = cro_bring_read (pounds, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  assert_fault (bring, 2, CRO_BRING_OTHER_CURRENCY);

  of_recipes = cro_bring_read (recipes, CRO_BRING_RECIPES, cro_book_get_model (kitchen->book), "");
  assert_int_equal (get_row (of_recipes, 2)->fault, CRO_BRING_NOT_AN_AMOUNT);
  assert_int_equal (get_row (of_recipes, 3)->unit, CRO_UNIT_KG);
  assert_int_equal (get_row (of_recipes, 4)->fault, CRO_BRING_OTHER_CURRENCY);
}

/* The same sheet a month later: the book knows what is in it, and a pack that changed changes from
 * that day on. */
static void
test_again (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) first = bring_sheet (kitchen, "item,pack,price\nHake,5 kg,60\nCod,1 kg,9\n");
  g_autoptr (CroBrought) second = bring_sheet (kitchen, "item,pack,price\nHÂKE,4 kg,56\nCod,1 kg,9.10\n");
  g_autoptr (CroBring) once = NULL, again = NULL;

  once = cro_bring_read (first, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  bring_into (kitchen, once);
  again = cro_bring_read (second, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  assert_int_equal (again->n_known, 2);
  assert_string_equal (get_row (again, 2)->name, "Hake");
  assert_false (get_row (again, 2)->is_new_offer);
  assert_true (get_row (again, 2)->is_other_pack);
  assert_false (get_row (again, 3)->is_other_pack);
  bring_into (kitchen, again);
  assert_unit_cost (kitchen, "Hake", 56.0 / 4000);
  assert_unit_cost (kitchen, "Cod", 9.1 / 1000);
}

static void
test_price_units (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "product|price per kg|pack\nHake|12.5|4 kg\nDill|0.031/g EUR|\nRoe|95.00 per kg (€)|100 g\n");
  g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_PRICES,
                                               cro_book_get_model (kitchen->book), "Quay");

  assert_int_equal (bring->n_prices, 3);
  /* 12.50/kg of 4 kg; 95.00/kg of 100 g. */
  assert_int_equal (get_row (bring, 2)->price, 50000000);
  assert_int_equal (get_row (bring, 4)->price, 9500000);
  bring_into (kitchen, bring);
  assert_unit_cost (kitchen, "Hake", 0.0125);
  assert_unit_cost (kitchen, "Dill", 0.031);
  assert_unit_cost (kitchen, "Roe", 0.095);
}

/* Each cell is read on its own where its sign can be but one thing; "1,234" follows its column, and is
 * asked about where that has both. No sign is dropped but before three digits. */
static void
test_decimal_signs (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "item;pack;price;code\n"
    "Butter;10 x 250 g;21,50;1\n"
    "Cream;6 x 1 l;14.25;2\n"
    "Flour;25 kg;1.022,50;3\n"
    "Salt;25 kg;1,022.50;4\n"
    "Roe;1,500 kg;29,4;5\n"
    "Crab;5 kg;1,234;6\n"
    "Hake;5 kg;1.23.4;7\n"
    "Ling;5 kg;1.2345,50;8\n"
    "Eel;5 kg;1 234,5;9\n"
    "Dab;5 kg;12 50;10\n"
    "Bass;5 kg;0,125;11\n"
    "Mussel;5 kg;1.234.567;12\n");
  static const struct { guint row; CroBringFault fault; gint64 price; } cases[] = {
    { 2, CRO_BRING_SOUND, 21500000 }, { 3, CRO_BRING_SOUND, 14250000 }, { 4, CRO_BRING_SOUND, 1022500000 },
    { 5, CRO_BRING_SOUND, 1022500000 }, { 6, CRO_BRING_WHICH_SIGN, 0 }, { 7, CRO_BRING_WHICH_SIGN, 0 },
    { 8, CRO_BRING_NOT_A_PRICE, 0 }, { 9, CRO_BRING_NOT_A_PRICE, 0 }, { 10, CRO_BRING_SOUND, 1234500000 },
    { 11, CRO_BRING_NOT_A_PRICE, 0 }, { 12, CRO_BRING_SOUND, 125000 }, { 13, CRO_BRING_SOUND, 1234567000000 },
  };
  g_autoptr (CroBring) bring = NULL;

  for (const char *said = ".,\0"; ; said++)
    {
      g_clear_pointer (&bring, cro_bring_free);
      cro_brought_say_decimal (brought, *said);
      bring = cro_bring_read (brought, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
      if (*said == '\0')
        break;
      /* What the person says is asked of the two alone that leave it open. */
      assert_int_equal (get_row (bring, 7)->price, *said == ',' ? 1234000 : 1234000000);
      assert_int_equal (get_row (bring, 6)->pack.size, *said == ',' ? 1500000 : 1500000000);
      assert_int_equal (get_row (bring, 2)->price, 21500000);
      assert_int_equal (bring->n_faults, 3);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      assert_fault (bring, cases[i].row, cases[i].fault);
      if (cases[i].fault == CRO_BRING_SOUND)
        assert_int_equal (get_row (bring, cases[i].row)->price, cases[i].price);
    }
}

/* A column that has but one sign tells what "1,234" is. */
static void
test_decimal_sign_of_column (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) comma = bring_sheet (kitchen, "item;pack;price\nEel;1,250 kg;1,234\nCod;1 kg;9,1\n");
  g_autoptr (CroBrought) point = bring_sheet (kitchen, "item;pack;price\nEel;1,250 kg;1,234\nCod;1 kg;9.1\n");
  g_autoptr (CroBring) of_comma = NULL, of_point = NULL;

  of_comma = cro_bring_read (comma, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  of_point = cro_bring_read (point, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  assert_int_equal (get_row (of_comma, 2)->price, 1234000);
  assert_int_equal (get_row (of_comma, 2)->pack.size, 1250000);
  assert_int_equal (get_row (of_point, 2)->price, 1234000000);
  assert_int_equal (get_row (of_point, 2)->pack.size, 1250000000);
}

/* Numbers of articles, days and notes say nothing of prices. */
static void
test_decimal_sign_of_numbers_alone (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) codes = bring_sheet (kitchen, "item,code,pack,price\nEel,1.234.567,1 kg,1.500\n");
  g_autoptr (CroBrought) days = bring_sheet (kitchen, "item,since,pack,price\nEel,28.11.2026,1 kg,1.500\n");
  g_autoptr (CroBring) of_codes = cro_bring_read (codes, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  g_autoptr (CroBring) of_days = cro_bring_read (days, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");

  assert_int_equal (get_row (of_codes, 2)->fault, CRO_BRING_WHICH_SIGN);
  assert_int_equal (get_row (of_days, 2)->fault, CRO_BRING_WHICH_SIGN);
}

/* 50 letters. */
#define LONG "abcdefghijklmnopqrstuvwxyabcdefghijklmnopqrstuvwxy"

static void
test_price_faults (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "code,item,unit,price,yield\n"
    "1,Hake,kg,abc,\n"
    "2,Cod,bunch,4,\n"
    "3,,kg,4,\n"
    "4,Ling,kg,4,0\n"
    "5,Mull\xE2\x80\xAE" "et,kg,4,\n"
    "6,Bass,kg,4,\n"
    "6,bass,kg,5,\n"
    "7,Dab,kg,-4,\n"
    "8,Brill,kg,$4,\n"
    "9,Sole,kg,,50\n"
    "10,Plaice,kg,0.0000001,\n"
    "11," LONG LONG LONG LONG "a,kg,4,\n"
    "12," LONG LONG LONG LONG ",kg,4,\n");
  static const CroBringFault expected[] = {
    CRO_BRING_NOT_A_PRICE, CRO_BRING_SOUND, CRO_BRING_NO_NAME, CRO_BRING_NOT_A_YIELD, CRO_BRING_STRAY,
    CRO_BRING_SOUND, CRO_BRING_TWICE, CRO_BRING_NOT_A_PRICE, CRO_BRING_OTHER_CURRENCY, CRO_BRING_SOUND,
    CRO_BRING_NOT_A_PRICE, CRO_BRING_TOO_LONG, CRO_BRING_SOUND,
  };
  g_autoptr (CroBring) bring = NULL;

  cro_book_get_model (kitchen->book)->currency = g_strdup ("EUR");
  bring = cro_bring_read (brought, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    assert_fault (bring, i + 2, expected[i]);
  assert_int_equal (get_row (bring, 8)->other, 7);
  assert_true (get_row (bring, 3)->n_left == 1 && get_row (bring, 3)->left[0].fault == CRO_BRING_NO_PACK);
  bring_into (kitchen, bring);
  assert_unit_cost (kitchen, "Bass", 0.004);
  assert_true (isnan (cro_figures_unit_cost (cro_book_get_figures (kitchen->book),
                                             find_item (kitchen, "Sole"))));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_prices_stand_beside_the_last),
    CASE (test_prices),
    CASE (test_new_names_are_asked_about),
    CASE (test_signs),
    CASE (test_again),
    CASE (test_price_units),
    CASE (test_decimal_signs),
    CASE (test_decimal_sign_of_column),
    CASE (test_decimal_sign_of_numbers_alone),
    CASE (test_price_faults),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
