/* Sheets that somebody brings: what is understood of them, what is refused and where, and the figures
 * of the book afterwards, reckoned by hand beside each case. */
#include "cro-bring-words.h"
#include "cro-breakdown.h"
#include "cro-edit.h"
#include "cro-title.h"
#include "support/kitchen-bring.h"

#include <math.h>
#include <string.h>

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
    { "DESC", CRO_ROLE_NAME }, { "Cond.", CRO_ROLE_PACK }, { "Réf.", CRO_ROLE_CODE },
    { "Yield %", CRO_ROLE_TRIM_YIELD }, { "Fournisseur", CRO_ROLE_SUPPLIER },
    { "Désignation", CRO_ROLE_NAME }, { "Qté", CRO_ROLE_AMOUNT }, { "Selling price", CRO_ROLE_SELLING_PRICE },
    { "Prix de vente TTC", CRO_ROLE_SELLING_PRICE }, { "Conditionnement", CRO_ROLE_PACK },
    { "hake", CRO_ROLE_NONE }, { "12.50", CRO_ROLE_NONE }, { "", CRO_ROLE_NONE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_int_equal (cro_role_of_heading (cases[i].heading), cases[i].role);
}

/* "Lemon" of the sheet is the book's "Lemons"; where it has two, neither is guessed. */
static void
test_number_of_names (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) first = bring_sheet (kitchen, "item,unit,price\nLemons,kg,2\nEgg yolk,kg,9\nPlum,kg,3\n"
                                                       "Plums,kg,4\nBay leaf,kg,31\n");
  g_autoptr (CroBrought) second = bring_sheet (kitchen, "item,unit,price\nlemon,kg,2\negg yolks,kg,9\nplums,kg,3\n"
                                                        "radis,kg,1\ncress,kg,1\nbay leaves,kg,31\n");
  g_autoptr (CroBring) once = NULL, again = NULL;

  once = cro_bring_read (first, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  bring_into (kitchen, once);
  again = cro_bring_read (second, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  assert_string_equal (get_row (again, 2)->name, "Lemons");
  assert_string_equal (get_row (again, 3)->name, "Egg yolk");
  assert_int_equal (get_row (again, 3)->state, CRO_BRING_KNOWN);
  assert_string_equal (get_row (again, 5)->name, "radis");
  assert_string_equal (get_row (again, 7)->name, "Bay leaf");
  assert_int_equal (again->n_new, 2);
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
  assert_string_equal (get_row (bring, 8)->name, "Cup");
  assert_string_equal (get_row (bring, 8)->note, "to taste");
  assert_string_equal (get_row (bring, 12)->name, "Dill (sprigs)");
  bring_into (kitchen, bring);
  assert_missing (kitchen, "Butter");
  assert_missing (kitchen, "Cup (boxes)");
  assert_missing (kitchen, "Crab");
  assert_missing (kitchen, "Cup");
  /* The batch: 500 × 0.0092 + 100 × 0.0132 = 5.92 for 450 g, and thyme that has no price. The plate:
   * 240 × 0.0132 + 50 × 5.92 / 450 + 24 × 0.5. */
  assert_true (ABS (cost_of_plate (kitchen, "Croustade") - (3.168 + 50 * 5.92 / 450 + 12)) < 1e-9);
}

/* A row that names its plate and says no amount is a line all the same: its cost is not known, whatever the
 * ingredient is costed in and can be turned into, and its allergens are. */
static void
test_lines_without_an_amount (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroBrought) prices = bring_sheet (kitchen,
    "item,unit,price,allergens\nButter,kg,9.20,milk\nEgg,each,0.35,egg\nSoy sauce,l,8,soya\n");
  g_autoptr (CroBrought) recipes = bring_sheet (kitchen,
    "recipe,ingredient,quantity,unit,portions\n"
    "Croustade,Butter,100,g,4\n"
    "Croustade,Butter,,,4\n"
    "Croustade,Egg,,,4\n"
    "Croustade,Soy sauce,to taste,,4\n"
    "Croustade,Salt,,g,4\n"
    "Croustade,Total,,,4\n"
    "Croustade,Roll,,,4\n"
    "Croustade,Roll,2,pc,4\n"
    "Croustade,,,,4\n");
  static const char *const missing[] = { "Butter", "Egg", "Soy sauce (x)", "Salt", "Roll" };
  g_autoptr (CroBring) first = cro_bring_read (prices, CRO_BRING_PRICES, cro_book_get_model (kitchen->book), "Quay");
  g_autoptr (CroBring) bring = NULL;
  CroModel *model;

  bring_into (kitchen, first);
  model = cro_book_get_model (kitchen->book);
  /* It can be turned into every unit. */
  model->measures[find_item (kitchen, "Soy sauce")] = cro_measure_make (CRO_BASE_MILLILITRE, 1.2, 5);
  bring = cro_bring_read (recipes, CRO_BRING_RECIPES, model, "Quay");
  assert_int_equal (bring->n_partly, 5);
  assert_int_equal (g_array_index (bring->recipes, CroBringRecipe, 0).n_lines, 7);
  assert_int_equal (get_row (bring, 3)->unit, CRO_UNIT_EACH);
  assert_int_equal (get_row (bring, 4)->unit, CRO_UNIT_G);
  assert_string_equal (get_row (bring, 5)->name, "Soy sauce (x)");
  assert_string_equal (get_row (bring, 5)->note, "to taste");
  assert_int_equal (get_row (bring, 5)->allergens, 
                    cro_model_item (model, find_item (kitchen, "Soy sauce"))->allergens);
  /* Costed by the piece, as the row that says how much of it has it. */
  assert_int_equal (get_row (bring, 8)->base, CRO_BASE_EACH);
  assert_int_equal (get_row (bring, 8)->unit, CRO_UNIT_G);
  bring_into (kitchen, bring);
  for (gsize i = 0; i < G_N_ELEMENTS (missing); i++)
    assert_missing (kitchen, missing[i]);
  assert_true (ABS (cost_of_plate (kitchen, "Croustade") - 0.92) < 1e-9);
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
    TEST (headings),
    TEST (what_stands_once_is_of_the_recipe), TEST (units_and_allergens),
    TEST (titles), TEST (recipes), TEST (lines_without_an_amount), TEST (recipes_under_titles),
    TEST (number_of_names), TEST (yields_of_recipes),
    TEST (trim_yields_of_lines), TEST (yield_is_what_most_rows_say), TEST (a_second_value_is_told),
    TEST (yield_and_price_of_a_recipe), TEST (prices_of_lines_are_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
