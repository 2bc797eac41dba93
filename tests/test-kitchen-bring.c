/* Sheets that somebody brings: what is understood of them, what is refused and where, and the figures
 * of the book afterwards, reckoned by hand beside each case. */
#include "cro-bring.h"
#include "cro-bring-words.h"
#include "cro-breakdown.h"
#include "cro-edit.h"
#include "cro-title.h"
#include "support/kitchen-book.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static int
set_up (void **state)
{
  CroTestKitchen *kitchen = g_new0 (CroTestKitchen, 1);

  kitchen->folder = cro_test_folder_new ();
  kitchen->book = cro_test_book_create (kitchen->folder.path);
  *state = kitchen;
  return 0;
}

static CroBrought *
bring_sheet (CroTestKitchen *kitchen,
             const char     *text)
{
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "sheet.csv", NULL);
  GError *error = NULL;
  CroBrought *brought;

  assert_true (g_file_set_contents (path, text, -1, NULL));
  brought = cro_brought_new (path, 0, NULL, NULL, &error);
  cro_test_must (brought != NULL, error);
  g_unlink (path);
  return brought;
}

static const CroBringRow *
get_row (const CroBring *bring,
         guint           number)
{
  for (guint i = 0; i < bring->rows->len; i++)
    if (g_array_index (bring->rows, CroBringRow, i).number == number)
      return &g_array_index (bring->rows, CroBringRow, i);
  fail_msg ("no row %u", number);
  return NULL;
}

/* Into the kitchen's book, whose figures are those of all rows then. */
static void
bring_into (CroTestKitchen *kitchen,
            const CroBring *bring)
{
  GError *error = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroAdded) added = cro_bring_into (bring, kitchen->folder.path, CRO_TEST_DAY, "desk",
                                               "bring a sheet", 0, faults, &error);

  for (guint i = 0; i < cro_faults_get_n (faults); i++)
    print_message ("%s %u %s\n", cro_faults_get (faults, i)->file, cro_faults_get (faults, i)->line,
                   cro_faults_get (faults, i)->column);
  cro_test_must (added != NULL, error);
  cro_test_must (cro_book_refresh (kitchen->book, NULL, &error), error);
}

static guint32
find_item (CroTestKitchen *kitchen,
           const char     *name)
{
  CroModel *model = cro_book_get_model (kitchen->book);

  for (guint32 i = 0; i < model->items->len; i++)
    if (!cro_model_item (model, i)->is_dead && g_str_equal (cro_model_item (model, i)->name, name))
      return i;
  fail_msg ("no %s", name);
  return CRO_NO_SLOT;
}

static void
assert_unit_cost (CroTestKitchen *kitchen,
                  const char     *name,
                  double          expected)
{
  double cost = cro_figures_unit_cost (cro_book_get_figures (kitchen->book), find_item (kitchen, name));

  assert_true (ABS (cost - expected) < 1e-12);
}

static void
assert_fault (const CroBring *bring,
              guint           number,
              CroBringFault   fault)
{
  assert_int_equal (get_row (bring, number)->fault, fault);
  assert_int_equal (get_row (bring, number)->state,
                    fault == CRO_BRING_SOUND ? CRO_BRING_NEW : CRO_BRING_FAULT);
}

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

/* What stands once in the first row of each recipe is of the recipe: how many it makes, what it is sold for. But
 * what trimming may leave stays that. */
static void
test_what_stands_once_is_of_the_recipe (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "Recipe,Yield,Ingredient,Qty,Unit,Price\nGurnard,4,Gurnard,1.2,kg,34\n,,Leek,200,g,\n"
    "Stock,2 l,Bones,1,kg,\n,,Leek,100,g,\nPear tart,10,Pear,900,g,16\n,,Butter,250,g,\n");
  g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_RECIPES, cro_book_get_model (kitchen->book), "Quay");
  const CroBringRecipe *recipe = (const CroBringRecipe *) bring->recipes->data;

  assert_int_equal (bring->recipes->len, 3);
  assert_int_equal (recipe[0].makes, 4000000);
  assert_int_equal (recipe[0].price, 34000000);
  assert_int_equal (recipe[1].gives, 2000000);
  assert_int_equal (recipe[1].gives_unit, CRO_UNIT_L);
  assert_int_equal (recipe[2].makes, 10000000);
}

static void
test_headings (void **state)
{
  static const struct { const char *heading; CroRole role; } cases[] = {
    { "Ingredient", CRO_ROLE_NAME }, { "PRIX HT / kg", CRO_ROLE_PRICE }, { "Unité", CRO_ROLE_UNIT },
    { "Price (EUR)", CRO_ROLE_PRICE },
    { "P.U. HT", CRO_ROLE_PRICE }, { "New price", CRO_ROLE_PRICE }, { "Price last week", CRO_ROLE_NONE },
    { "DESC", CRO_ROLE_NAME }, { "Cond.", CRO_ROLE_PACK }, { "Réf.", CRO_ROLE_CODE }, { "Yield %", CRO_ROLE_TRIM_YIELD }, { "Fournisseur", CRO_ROLE_SUPPLIER },
    { "Désignation", CRO_ROLE_NAME }, { "Qté", CRO_ROLE_AMOUNT }, { "Selling price", CRO_ROLE_SELLING_PRICE },
    { "Prix de vente TTC", CRO_ROLE_SELLING_PRICE }, { "Conditionnement", CRO_ROLE_PACK },
    { "hake", CRO_ROLE_NONE }, { "12.50", CRO_ROLE_NONE }, { "", CRO_ROLE_NONE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_int_equal (cro_role_of_heading (cases[i].heading), cases[i].role);
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

/* "Lemon" of the sheet is the book's "Lemons"; where it has two, neither is guessed. */
static void
test_number_of_names (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) first = bring_sheet (kitchen, "item,unit,price\nLemons,kg,2\nEgg yolk,kg,9\nPlum,kg,3\nPlums,kg,4\n");
  g_autoptr (CroBrought) second = bring_sheet (kitchen, "item,unit,price\nlemon,kg,2\negg yolks,kg,9\nplums,kg,3\nradis,kg,1\ncress,kg,1\n");
  g_autoptr (CroBring) once = NULL, again = NULL;

  once = cro_bring_read (first, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  bring_into (kitchen, once);
  again = cro_bring_read (second, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  assert_string_equal (get_row (again, 2)->name, "Lemons");
  assert_string_equal (get_row (again, 3)->name, "Egg yolk");
  assert_int_equal (get_row (again, 3)->state, CRO_BRING_KNOWN);
  assert_string_equal (get_row (again, 5)->name, "radis");
  assert_int_equal (again->n_new, 2);
}

static void
test_price_units (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "product|price per kg|pack\nHake|12.5|4 kg\nDill|0.031/g|\nRoe|95.00|100 g\n");
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

/* A price for one of a unit, whatever stands between; and what an ingredient contains, of all its rows. Nothing is
 * stated of what is not understood, and a part that is left is told. */
static void
test_units_and_allergens (void **state)
{
  static const struct { guint number; gint32 allergens; const char *left; } cases[] = {
    { 2, 1 << 3, NULL }, { 3, 1 << 6 | 1 << 2, NULL }, { 4, 0, NULL }, { 5, -1, NULL },
    { 6, -1, "“milk, cod liver”: The allergens are not understood, so none is stated." },
    { 7, 1 << 6 | 1 << 2, NULL },
    { 8, 1 << 1 | 1 << 13, "“by feel”: It is not said how much the price is for: a pack, or a unit." },
    { 9, -1, "“may contain nuts”: The allergens are not understood, so none is stated." },
    { 10, 1 << 3 | 1 << 13, NULL }, { 11, 1 << 3 | 1 << 13, NULL },
    { 12, 1 << 0, NULL }, { 13, -1, "“shellfish”: The allergens are not understood, so none is stated." },
  };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "product|supplier|pack|price|allergens|may contain\n"
    "Hake|Quay|per kg|12.5|fish|\nBrioche|Quay|each|2|milk; egg|nuts\nSalt|Quay|/kg|1|none|\n"
    "Dill|Quay|la pièce|3||\nPaste|Quay|kg|4|milk, cod liver|\nCustard|Quay|au litre|5|lait et œufs|\n"
    "Bisque|Quay|by feel|6|crustaceans molluscs|\nCake|Quay|1 kg|6|may contain nuts|\n"
    "Sauce|Quay|1 kg|6|Fish|\nSauce|Weir|1 kg|6|mollusc|\nFlour|Quay|1 kg|1|Gluten (wheat)|\n"
    "Mix|Quay|1 kg|1|shellfish|\n");
  g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_PRICES,
                                               cro_book_get_model (kitchen->book), "Quay");
  g_autoptr (CroBring) again = NULL;
  g_autofree char *summary = cro_words_bring (brought, bring), *kept = NULL;

  assert_string_equal (summary, "11 new ingredients, 11 prices; 4 rows are imported in part; "
                                "column not used: “may contain”");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *left = cro_words_bring_left (brought, get_row (bring, cases[i].number));

      assert_int_equal (get_row (bring, cases[i].number)->allergens, cases[i].allergens);
      assert_true (g_strcmp0 (left, cases[i].left) == 0);
    }
  bring_into (kitchen, bring);
  assert_unit_cost (kitchen, "Hake", 0.0125);
  assert_unit_cost (kitchen, "Brioche", 2);
  assert_unit_cost (kitchen, "Dill", 3);
  assert_unit_cost (kitchen, "Custard", 0.005);
  assert_true (isnan (cro_figures_unit_cost (cro_book_get_figures (kitchen->book), find_item (kitchen, "Bisque"))));
  assert_int_equal (cro_model_item (cro_book_get_model (kitchen->book), find_item (kitchen, "Salt"))->allergens, 0);
  assert_int_equal (cro_model_item (cro_book_get_model (kitchen->book), find_item (kitchen, "Mix"))->allergens, -1);

  /* Once more the book has them: what nobody has said of one there is not said by a sheet in passing. */
  again = cro_bring_read (brought, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  assert_int_equal (get_row (again, 2)->n_left, 0);
  kept = cro_words_bring_left (brought, get_row (again, 10));
  assert_string_equal (kept, "“Fish”: The book has the ingredient already, and its allergens stay as they are.");
}

/* --- Recipes --------------------------------------------------------------------------------------- */

static void
test_titles (void **state)
{
  static const struct { const char *text, *name; gint64 makes, gives; CroUnit unit; } cases[] = {
    { "Crab butter (450 g)", "Crab butter", 0, 450000000, CRO_UNIT_G },
    { "Crab croustade, makes 24", "Crab croustade", 24000000, 0, 0 },
    { "Bouillon pour 12 couverts", "Bouillon", 12000000, 0, 0 },
    { "Cucumber gel: gives 1.2 kg", "Cucumber gel", 0, 1200000, CRO_UNIT_KG },
    { "Oysters (6)", "Oysters", 6000000, 0, 0 },
    { "Hake, for the table", "Hake, for the table", 0, 0, 0 },
    { "Gel:", "Gel", 0, 0, 0 },
    { "Makes 24", "Makes 24", 0, 0, 0 },
    { "Sauce for fish", "Sauce for fish", 0, 0, 0 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroTitle) title = { 0 };

      cro_title_read (cases[i].text, &title);
      assert_string_equal (title.name, cases[i].name);
      assert_int_equal (title.makes, cases[i].makes);
      assert_int_equal (title.gives, cases[i].gives);
      if (title.gives > 0)
        assert_int_equal (title.gives_unit, cases[i].unit);
    }
}

static double
cost_of_plate (CroTestKitchen *kitchen,
               const char     *name)
{
  CroModel *model = cro_book_get_model (kitchen->book);
  CroFigures *figures = cro_book_get_figures (kitchen->book);

  for (guint32 i = 0; i < model->recipes->len; i++)
    if (cro_model_recipe (model, i)->is_plate && g_str_equal (cro_model_recipe (model, i)->name, name))
      return figures->layers[CRO_LAYER_FOOD].row_cost[cro_figures_row (figures, i)];
  fail_msg ("no %s", name);
  return 0;
}

/* The plate's cost lacks something of that item. */
static void
assert_missing (CroTestKitchen *kitchen,
                const char     *name)
{
  CroModel *model = cro_book_get_model (kitchen->book);
  g_autoptr (CroBreakdown) breakdown = NULL;

  for (guint32 i = 0; i < model->recipes->len && breakdown == NULL; i++)
    if (g_str_equal (cro_model_recipe (model, i)->name, "Croustade"))
      breakdown = cro_breakdown_of_plate (cro_book_get_figures (kitchen->book), i);
  for (guint i = 0; i < breakdown->missing->len; i++)
    if (g_str_equal (g_array_index (breakdown->missing, CroCause, i).name, name))
      return;
  fail_msg ("%s is not missing", name);
}

static void
test_recipes (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) prices = bring_sheet (kitchen,
    "item,unit,price\nCrab,kg,13.20\nButter,kg,9.20\nCup,each,0.5\n");
  g_autoptr (CroBrought) recipes = bring_sheet (kitchen,
    "recipe,ingredient,quantity,unit,portions,note\n"
    "Croustade,Crab,240,g,24,picked\n"
    ",Crab butter,50,g,,\n"
    ",cup,24,,,\n"
    ",Butter,1,pat,,\n"
    ",Cup,2,boxes,,\n"
    ",Crab,,g,,\n"
    ",cup,to taste,,,\n"
    ",Total,,,,\n"
    "Crab butter (450 g),butter,0.5,kg,,melted\n"
    ",Crab,100 g,,,\n"
    ",Dill,2,sprigs,,\n"
    ",Thyme,1,g,,\n");
  g_autoptr (CroBring) first = cro_bring_read (prices, CRO_BRING_PRICES,
                                               cro_book_get_model (kitchen->book), "Quay");
  g_autoptr (CroBring) bring = NULL;
  CroBringRecipe *croustade, *butter;

  bring_into (kitchen, first);
  assert_int_equal (cro_bring_guess (recipes), CRO_BRING_RECIPES);
  bring = cro_bring_read (recipes, CRO_BRING_RECIPES, cro_book_get_model (kitchen->book), "Quay");
  assert_int_equal (bring->recipes->len, 2);
  croustade = &g_array_index (bring->recipes, CroBringRecipe, 0);
  butter = &g_array_index (bring->recipes, CroBringRecipe, 1);
  assert_true (croustade->is_plate && croustade->makes == 24000000 && croustade->n_lines == 7);
  assert_true (!butter->is_plate && butter->gives == 450000000 && butter->n_lines == 4);
  /* What has a unit that is none counts pieces whose cost nobody knows: nothing of it is reckoned, and the
   * plate is not complete. */
  assert_int_equal (bring->n_faults, 0);
  assert_int_equal (bring->n_partly, 5);
  assert_string_equal (get_row (bring, 5)->name, "Butter");
  assert_string_equal (get_row (bring, 6)->name, "Cup (boxes)");
  /* What has no amount is not none of it. */
  assert_string_equal (get_row (bring, 7)->name, "Crab");
  assert_string_equal (get_row (bring, 7)->note, "no amount");
  assert_string_equal (get_row (bring, 8)->name, "Cup (to taste)");
  assert_string_equal (get_row (bring, 12)->name, "Dill (sprigs)");
  bring_into (kitchen, bring);
  assert_missing (kitchen, "Butter");
  assert_missing (kitchen, "Cup (boxes)");
  assert_missing (kitchen, "Crab");
  assert_missing (kitchen, "Cup (to taste)");
  /* The batch: 500 × 0.0092 + 100 × 0.0132 = 5.92 for 450 g, and thyme that has no price. The plate:
   * 240 × 0.0132 + 50 × 5.92 / 450 + 24 × 0.5. */
  assert_true (ABS (cost_of_plate (kitchen, "Croustade") - (3.168 + 50 * 5.92 / 450 + 12)) < 1e-9);
}

static void
test_recipes_under_titles (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "ingredient;amount\n"
    "Agar;1 g\n"
    "Gel, makes 10;\n"
    "Cucumber;300 g\n"
    "Base;100 g\n"
    "Base (1 kg);\n"
    "Agar;10 g\n"
    "Gel;5 g\n"
    "Circle;\n"
    "Circle;1 g\n");
  g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_RECIPES,
                                               cro_book_get_model (kitchen->book), "Quay");

  assert_fault (bring, 2, CRO_BRING_NO_RECIPE);
  assert_int_equal (get_row (bring, 3)->state, CRO_BRING_TITLE);
  assert_fault (bring, 8, CRO_BRING_CYCLE);
  assert_fault (bring, 10, CRO_BRING_CYCLE);
  bring_into (kitchen, bring);
  find_item (kitchen, "Agar");

  /* Once more: the book has these recipes. */
  cro_bring_free (g_steal_pointer (&bring));
  bring = cro_bring_read (brought, CRO_BRING_RECIPES, cro_book_get_model (kitchen->book), "Quay");
  assert_fault (bring, 4, CRO_BRING_IN_BOOK);
  assert_fault (bring, 7, CRO_BRING_IN_BOOK);
}

/* Over the lines of recipes "yield" is what the recipe makes: a count, or an amount, which plates do
 * not give. What is not understood there is told. */
static void
test_yields_of_recipes (void **state)
{
  CroTestKitchen *kitchen = *state;
  static const char *const sheets[] = {
    "recipe,ingredient,qty,unit,yield\n"
    "Crab tart,,,,12 pc\n,Crab,1.2,kg,\n,Lemon,1/2,,\n"
    "Shellfish butter,,,,450 g\n,Butter,1 1/2,lb,\n"
    "Gel,,,,plenty\n,Agar,3,g,\n"
    "Bisque,,,,pour 6\n,Agar,3,g,\n",
    "ingredient,qty,unit,yield\n"
    "Crab tart,,,12\nCrab,1.2,kg,\nLemon,½,,\n"
    "Shellfish butter,,,450 g\nButter,1.5,lb,\n"
    "Gel,,,plenty\nAgar,3,g,\n"
    "Bisque,,,For 6 guests\nAgar,3,g,\n",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (sheets); i++)
    {
      g_autoptr (CroBrought) brought = bring_sheet (kitchen, sheets[i]);
      g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_RECIPES,
                                                   cro_book_get_model (kitchen->book), "Quay");
      const CroBringRecipe *recipe = (const CroBringRecipe *) bring->recipes->data;

      g_autofree char *summary = cro_words_bring (brought, bring);

      assert_int_equal (bring->recipes->len, 4);
      assert_int_equal (bring->n_faults, 0);
      assert_true (recipe[0].is_plate && recipe[0].makes == 12000000);
      assert_int_equal (get_row (bring, 4)->amount, 500000);
      assert_true (!recipe[1].is_plate && recipe[1].gives == 450000000);
      assert_int_equal (get_row (bring, 6)->amount, 1500000);
      assert_true (recipe[2].is_plate && recipe[2].makes == CRO_NOT_SET);
      assert_string_equal (recipe[2].unused, "plenty");
      assert_non_null (strstr (summary, "; 1 plate makes 1 and may make more"));
      assert_true (recipe[3].is_plate && recipe[3].makes == 6000000 && recipe[3].unused == NULL);
    }
}

/* Per cent on lines stay what trimming leaves, of what is new. */
static void
test_trim_yields_of_lines (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "recipe,ingredient,qty,unit,yield %\nTart,Crab,1.2,kg,45\n,Dill,2,g,0.8\n");
  g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_RECIPES,
                                               cro_book_get_model (kitchen->book), "Quay");

  bring_into (kitchen, bring);
  assert_int_equal (cro_book_get_model (kitchen->book)->measures[find_item (kitchen, "Crab")].trim_yield,
                    45000000);
  assert_int_equal (cro_book_get_model (kitchen->book)->measures[find_item (kitchen, "Dill")].trim_yield,
                    80000000);
}

/* One line whose amount is still to be filled in makes no recipe of what trimming leaves of all. */
static void
test_yield_is_what_most_rows_say (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "recipe,ingredient,qty,unit,yield\nTart,Crab,1.2,kg,45\n,Dill,2,g,80\n,Lemon,,,90\n");

  assert_true (cro_brought_has_role (brought, CRO_ROLE_TRIM_YIELD));
  assert_false (cro_brought_has_role (brought, CRO_ROLE_MAKES));
}

/* A recipe's own number stands once for it, and on rows that take something too: what it makes, and is sold
 * at. */
static void
test_yield_and_price_of_a_recipe (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "Recipe,Yield,Ingredient,Qty,Unit,Price,Mood\n"
    "Turbot dish,4,Turbot,0.8,kg,34,calm\n,,Stock,0.3,l,,\n,,Glaze,50,ml,,\n"
    "Stock,2 l,Gurnard,1,kg,3,\n,,Fennel,200,g,,\n"
    "Glaze,plenty,Honey,1,kg,,\n"
    "Tart,10,Pear,1.2,kg,11,\nTart,10,Egg,3,pc,11,\n");
  g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_RECIPES,
                                               cro_book_get_model (kitchen->book), "Quay");
  CroModel *model = cro_book_get_model (kitchen->book);
  const CroBringRecipe *recipe = (const CroBringRecipe *) bring->recipes->data;
  g_autofree char *summary = cro_words_bring (brought, bring);
  g_autofree char *turbot = cro_words_bring_recipe (model, &recipe[0]);
  g_autofree char *stock = cro_words_bring_recipe (model, &recipe[1]);
  g_autofree char *glaze = cro_words_bring_recipe (model, &recipe[2]);

  assert_string_equal (summary, "2 plates, 2 preparations, 6 new ingredients; column not used: “Mood”");
  assert_string_equal (turbot, "makes 4, sold at 34.00");
  assert_string_equal (stock, "gives 2 l; only plates are sold, so 3.00 is not used");
  assert_string_equal (glaze, "the sheet does not say how much it gives; “plenty” is not understood, and not used");
  assert_int_equal (recipe[2].gives_unit, CRO_UNIT_ML);
  assert_true (recipe[3].makes == 10000000 && recipe[3].price == 11000000 && recipe[3].unused == NULL);
  bring_into (kitchen, bring);
  assert_int_equal (cro_book_get_model (kitchen->book)->recipes->len, 4);
}

/* What each line's item costs is not what the recipe is sold at. */
static void
test_prices_of_lines_are_told (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "recipe,ingredient,qty,unit,price\nTart,Crab,1.2,kg,45\n,Dill,2,g,1\n");
  g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_RECIPES,
                                               cro_book_get_model (kitchen->book), "Quay");
  g_autofree char *summary = cro_words_bring (brought, bring);

  assert_string_equal (summary, "1 plate, 2 new ingredients; column not used: “price”");
}

/* The same said again is nothing new; another value is told, not lost. */
static void
test_a_second_value_is_told (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) brought = bring_sheet (kitchen,
    "recipe,ingredient,qty,unit,gives,portions,selling price,course\n"
    "Tart,Crab,1.2,kg,,24,14.00,Starter\n,Dill,2,g,,30,14.00,Starter\n"
    "Butter,Roe,1,kg,450 g,,,\n,Thyme,1,g,0.45 kg,,,\n"
    "Oil,Bay,1,g,450 g,,,\n,Rosemary,1,g,500 g,,,\n"
    "Gel,Agar,1,g,,8,9.00,\n,Lime,1,g,,8,9.50,\n"
    "Foam,Milk,1,l,,8,,Amuse\n,Kelp,1,g,,8,,Starter\n");
  g_autoptr (CroBring) bring = cro_bring_read (brought, CRO_BRING_RECIPES,
                                               cro_book_get_model (kitchen->book), "Quay");
  const CroBringRecipe *recipe = (const CroBringRecipe *) bring->recipes->data;

  assert_int_equal (bring->recipes->len, 5);
  assert_int_equal (recipe[0].makes, 24000000);
  assert_string_equal (recipe[0].unused, "30");
  assert_int_equal (recipe[1].gives, 450000000);
  assert_null (recipe[1].unused);
  assert_string_equal (recipe[2].unused, "500 g");
  assert_int_equal (recipe[3].price, 9000000);
  assert_string_equal (recipe[3].unused, "9.50");
  assert_string_equal (recipe[4].unused, "Starter");
}

#define TEST(name) cmocka_unit_test_setup_teardown (test_##name, set_up, cro_test_kitchen_tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    TEST (headings), TEST (prices_stand_beside_the_last),
    TEST (what_stands_once_is_of_the_recipe), TEST (prices), TEST (signs), TEST (again),
    TEST (price_units), TEST (price_faults), TEST (units_and_allergens),
    TEST (titles), TEST (recipes), TEST (recipes_under_titles), TEST (number_of_names),
    TEST (decimal_signs), TEST (decimal_sign_of_column), TEST (decimal_sign_of_numbers_alone), TEST (yields_of_recipes),
    TEST (trim_yields_of_lines), TEST (yield_is_what_most_rows_say), TEST (a_second_value_is_told),
    TEST (yield_and_price_of_a_recipe), TEST (prices_of_lines_are_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
