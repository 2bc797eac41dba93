/* The quick line: what is understood of a line of text, what is not, and how lines are placed. */
#include "cro-breakdown.h"
#include "cro-quick.h"
#include "support/kitchen-book.h"
#include "support/locales.h"

static const CroUnitWord units[] = { { "cs", CRO_UNIT_TBSP }, { "pièces", CRO_UNIT_EACH }, { NULL } };
static const char *const joins[] = { "of", "de", "d'", NULL };
static const char *const trimmed[] = { "trimmed", "cleaned", "paré", NULL };
static const char *const as_bought[] = { "as bought", NULL };
static const CroEntryWords words = { units, NULL, joins, trimmed, as_bought };

#define M(value) ((gint64) ((value) * 1e6 + 0.5))

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  guint32       plate;
} Fixture;

static guint32
add_ingredient (CroBook    *book,
                const char *name,
                CroBase     base)
{
  GError *error = NULL;
  guint32 item = CRO_NO_SLOT;

  cro_test_must (cro_edit_add_ingredient (book, "add", name, base, NULL, &item, &error), error);
  return item;
}

static int
setup (void **state)
{
  static const char *const currency[] = { "currency", NULL };
  Fixture *fixture = g_new0 (Fixture, 1);
  CroCell euro = CRO_CELL_STR ("EUR");
  GError *error = NULL;

  setlocale (LC_ALL, "C");
  fixture->folder = cro_test_folder_new ();
  fixture->book = cro_test_book_create (fixture->folder.path);
  cro_test_must (cro_edit_set (fixture->book, "currency", "book", 1, currency, &euro, &error), error);
  cro_test_must (cro_edit_add_plate (fixture->book, "plate", "Marsh tartlet", M (24),
                                     &fixture->plate, &error), error);
  add_ingredient (fixture->book, "White crab meat", CRO_BASE_GRAM);
  add_ingredient (fixture->book, "Crème fraîche", CRO_BASE_GRAM);
  add_ingredient (fixture->book, "00 flour", CRO_BASE_GRAM);
  *state = fixture;
  return 0;
}

static int
teardown (void **state)
{
  Fixture *fixture = *state;

  g_object_unref (fixture->book);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

/* --- Reading ----------------------------------------------------------------------------------- */

typedef struct
{
  const char *says, *text;
  gint64      amount;         /* 0: none */
  CroUnit     unit;
  const char *name;
  gint64      price;          /* -1: none */
  CroUnit     price_unit;
} Case;

static void
expect_line (CroModel   *model,
             const Case *line)
{
  g_auto (CroQuick) quick = { 0 };

  cro_quick_read (model, line->text, &words, &quick);
  if (quick.fault != CRO_QUICK_OK)
    fail_msg ("%s: \"%s\" has fault %d", line->says, line->text, quick.fault);
  if (quick.has_amount != (line->amount != 0) || quick.amount != line->amount)
    fail_msg ("%s: \"%s\" is of %" G_GINT64_FORMAT, line->says, line->text, quick.amount);
  if (line->amount != 0 && quick.unit != line->unit)
    fail_msg ("%s: \"%s\" is in %s", line->says, line->text, cro_unit_get (quick.unit)->code);
  if (strcmp (quick.name, line->name) != 0)
    fail_msg ("%s: \"%s\" is named \"%s\"", line->says, line->text, quick.name);
  if (quick.has_price != (line->price >= 0)
      || (quick.has_price && (quick.price != line->price || quick.price_unit != line->price_unit)))
    fail_msg ("%s: \"%s\" costs %" G_GINT64_FORMAT "/%s", line->says, line->text, quick.price,
              cro_unit_get (quick.price_unit)->code);
}

static void
test_read (void **state)
{
  static const Case cases[] = {
    { "amount and name", "25 g crab butter", M (25), CRO_UNIT_G, "crab butter", -1, 0 },
    { "and a price", "25 g butter 9.20/kg", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "at a price", "25 g butter at 9.20/kg", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "by its sign", "25 g butter @ 9.20/kg", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "close to it", "25 g butter @9.20/kg", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "in French", "25 g beurre à 9,20/kg", M (25), CRO_UNIT_G, "beurre", M (9.2), CRO_UNIT_KG },
    { "in brackets", "25 g butter (9.20/kg)", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "behind a dash", "25 g butter - 9.20/kg", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "a sign of equality", "butter = 9.20/kg", 0, 0, "butter", M (9.2), CRO_UNIT_KG },
    { "before a note", "25 g butter 9.20/kg, cold", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "in brackets", "100 g prawns (cut in 4) 20/kg", M (100), CRO_UNIT_G, "prawns (cut in 4)", M (20), CRO_UNIT_KG },
    { "between amount and note", "butter 25 g 9.20/kg, cold", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "behind name and amount", "butter 25 g at 9.20/kg", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "a kilo", "25 g butter at 9.20 a kilo", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "in brackets with its sign", "25 g butter (9.20 €/kg)", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "a price alone", "butter 9.20/kg", 0, 0, "butter", M (9.2), CRO_UNIT_KG },
    { "pieces at a price each", "2 eggs 0.34 each", M (2), CRO_UNIT_EACH, "eggs", M (0.34),
      CRO_UNIT_EACH },
    { "a fraction", "1/3 kg flour", 333333, CRO_UNIT_KG, "flour", -1, 0 },
    { "a product", "2*1.2 kg crab", M (2.4), CRO_UNIT_KG, "crab", -1, 0 },
    { "spoons", "3 tbsp brine", M (3), CRO_UNIT_TBSP, "brine", -1, 0 },
    { "no space before the unit", "600g white crab meat", M (600), CRO_UNIT_G, "white crab meat",
      -1, 0 },
    { "a mixed number", "1 1/2 kg flour", M (1.5), CRO_UNIT_KG, "flour", -1, 0 },
    { "one in a character", "½ l cream", M (0.5), CRO_UNIT_L, "cream", -1, 0 },
    { "a comma", "0,5 l cream", M (0.5), CRO_UNIT_L, "cream", -1, 0 },
    { "a word that joins", "25 g of butter", M (25), CRO_UNIT_G, "butter", -1, 0 },
    { "one that is written to the name", "2 cs d'huile", M (2), CRO_UNIT_TBSP, "huile", -1, 0 },
    { "but no begin of a name", "25 g offal", M (25), CRO_UNIT_G, "offal", -1, 0 },
    { "a letter that begins a name is no unit", "2 lemons", M (2), CRO_UNIT_EACH, "lemons", -1, 0 },
    { "nor one before an apostrophe", "2 l'ail", M (2), CRO_UNIT_EACH, "l'ail", -1, 0 },
    { "a bullet", "- 25 g butter", M (25), CRO_UNIT_G, "butter", -1, 0 },
    { "a round one", "• 25 g butter", M (25), CRO_UNIT_G, "butter", -1, 0 },
    { "times", "2 x eggs", M (2), CRO_UNIT_EACH, "eggs", -1, 0 },
    { "a name before its amount", "White crab meat 600 g", M (600), CRO_UNIT_G, "White crab meat",
      -1, 0 },
    { "cells of a sheet", "White crab meat\t600\tg", M (600), CRO_UNIT_G, "White crab meat", -1, 0 },
    { "and a price behind", "butter 250 g 9.20/kg", M (250), CRO_UNIT_G, "butter", M (9.2),
      CRO_UNIT_KG },
    { "a name that begins with a number and is known", "00 flour", 0, 0, "00 flour", -1, 0 },
    { "the same with an amount", "500 g 00 flour", M (500), CRO_UNIT_G, "00 flour", -1, 0 },
    { "a name that ends with one", "500 g flour 550", M (500), CRO_UNIT_G, "flour 550", -1, 0 },
    { "a name alone", "butter", 0, 0, "butter", -1, 0 },
    { "the book's currency by its sign", "25 g butter 9.20 €/kg", M (25), CRO_UNIT_G, "butter",
      M (9.2), CRO_UNIT_KG },
    { "by its code", "25 g butter EUR 9.20/kg", M (25), CRO_UNIT_G, "butter", M (9.2), CRO_UNIT_KG },
    { "a price of 0 is one", "25 g nettles 0/kg", M (25), CRO_UNIT_G, "nettles", 0, CRO_UNIT_KG },
    { "space at the end", "25 g butter  ", M (25), CRO_UNIT_G, "butter", -1, 0 },
    { "a comma at the end", "25 g butter,", M (25), CRO_UNIT_G, "butter", -1, 0 },
    { "a dozen", "2 dozen oysters 11.50/dozen", M (2), CRO_UNIT_DOZEN, "oysters", M (11.5),
      CRO_UNIT_DOZEN },
    { "an amount in packs", "2 x 250 g butter", M (500), CRO_UNIT_G, "butter", -1, 0 },
    { "with the sign", "2 × 250 g butter", M (500), CRO_UNIT_G, "butter", -1, 0 },
    { "a mixed number in one character", "1½ kg flour", M (1.5), CRO_UNIT_KG, "flour", -1, 0 },
    { "an amount of two parts", "3 lb 4 oz brown crab", M (3.25), CRO_UNIT_LB, "brown crab", -1, 0 },
    { "of metric ones", "1 kg 500 g brown crab", M (1.5), CRO_UNIT_KG, "brown crab", -1, 0 },
    { "with a join", "1 l 2 dl de cream", M (1.2), CRO_UNIT_L, "cream", -1, 0 },
    { "with a price", "2 lb 3 oz crab 9.20/kg", M (2.1875), CRO_UNIT_LB, "crab", M (9.2), CRO_UNIT_KG },
    { "behind the name", "brown crab 3 lb 4 oz", M (3.25), CRO_UNIT_LB, "brown crab", -1, 0 },
    { "grams", "250 gr butter", M (250), CRO_UNIT_G, "butter", -1, 0 },
    { "in full", "250 grams of butter", M (250), CRO_UNIT_G, "butter", -1, 0 },
    { "in French", "250 grammes de beurre", M (250), CRO_UNIT_G, "beurre", -1, 0 },
    { "kilos", "2 kgs turbot", M (2), CRO_UNIT_KG, "turbot", -1, 0 },
    { "a kilo", "1 kilo turbot", M (1), CRO_UNIT_KG, "turbot", -1, 0 },
    { "litres", "2 ltr cream", M (2), CRO_UNIT_L, "cream", -1, 0 },
    { "shorter", "2 lt. cream", M (2), CRO_UNIT_L, "cream", -1, 0 },
    { "in full", "2 litres cream", M (2), CRO_UNIT_L, "cream", -1, 0 },
    { "centilitres", "5 cl cognac", M (5), CRO_UNIT_CL, "cognac", -1, 0 },
    { "pieces", "6 pcs quail", M (6), CRO_UNIT_EACH, "quail", -1, 0 },
    { "each", "6 ea quail", M (6), CRO_UNIT_EACH, "quail", -1, 0 },
    { "in French", "6 pces caille", M (6), CRO_UNIT_EACH, "caille", -1, 0 },
    { "with its accent", "1 pièce citron", M (1), CRO_UNIT_EACH, "citron", -1, 0 },
    { "a dozen in short", "2 doz oysters", M (2), CRO_UNIT_DOZEN, "oysters", -1, 0 },
    { "in French", "2 douzaines d'huîtres", M (2), CRO_UNIT_DOZEN, "huîtres", -1, 0 },
    { "in short in French", "1 douz. d'œufs 3,60 € la douzaine", M (1), CRO_UNIT_DOZEN, "œufs", M (3.6),
      CRO_UNIT_DOZEN },
    { "without tax", "1 kg beurre 9,20 € HT le kilo", M (1), CRO_UNIT_KG, "beurre", M (9.2), CRO_UNIT_KG },
    { "in English, with the article", "25 g butter 9.20 a kilo ex VAT", M (25), CRO_UNIT_G, "butter", M (9.2),
      CRO_UNIT_KG },
    { "a spoon in French", "2 c. à s. huile", M (2), CRO_UNIT_TBSP, "huile", -1, 0 },
    { "without stops", "2 c à c huile", M (2), CRO_UNIT_TSP, "huile", -1, 0 },
    { "in full", "2 cuillères à soupe d'huile", M (2), CRO_UNIT_TBSP, "huile", -1, 0 },
    { "a cup that says which", "1 US cup flour", M (1), CRO_UNIT_US_CUP, "flour", -1, 0 },
    { "as a card shows it in French", "1 tasse métrique farine", M (1), CRO_UNIT_METRIC_CUP, "farine",
      -1, 0 },
    { "a price for four kilos", "2 kg turbot 69.50/4 kg", M (2), CRO_UNIT_KG, "turbot", M (17.375),
      CRO_UNIT_KG },
    { "of the whole piece", "1 halibut 171 EUR", M (1), CRO_UNIT_EACH, "halibut", M (171),
      CRO_UNIT_EACH },
    { "a sign before it", "2 lobsters €11.20", M (2), CRO_UNIT_EACH, "lobsters", M (11.2),
      CRO_UNIT_EACH },
    { "a comma and its sign", "25 g butter 11,20 €/kg", M (25), CRO_UNIT_G, "butter", M (11.2),
      CRO_UNIT_KG },
    { "its currency too", "2 kg turbot 24 euros le kilo", M (2), CRO_UNIT_KG, "turbot", M (24),
      CRO_UNIT_KG },
    { "a weight in words", "turbot 2 pounds", M (2), CRO_UNIT_LB, "turbot", -1, 0 },
    { "a price in words", "2 kg turbot 24 € le kilo", M (2), CRO_UNIT_KG, "turbot", M (24),
      CRO_UNIT_KG },
    { "a note behind a comma", "2 kg mussels, scrubbed", M (2), CRO_UNIT_KG, "mussels", -1, 0 },
    { "and a price behind it", "2 kg mussels, scrubbed and bearded 4.20/kg", M (2), CRO_UNIT_KG,
      "mussels", M (4.2), CRO_UNIT_KG },
    { "a grade of size", "500 g tiger prawns 16/20", M (500), CRO_UNIT_G, "tiger prawns 16/20", -1, 0 },
    { "with a price", "500 g prawns (16/20) 18.50/kg", M (500), CRO_UNIT_G, "prawns (16/20)", M (18.5), CRO_UNIT_KG },
    { "before the name", "500 g 16/20 prawns 18.50/kg", M (500), CRO_UNIT_G, "16/20 prawns", M (18.5), CRO_UNIT_KG },
    { "of grams", "200 g cod 400/600 12/kg", M (200), CRO_UNIT_G, "cod 400/600", M (12), CRO_UNIT_KG },
    { "a sack", "200 g flour 20/25 kg", M (200), CRO_UNIT_G, "flour", M (0.8), CRO_UNIT_KG },
    { "of pieces", "12 langoustines 10/15 3.10 each", M (12), CRO_UNIT_EACH, "langoustines 10/15", M (3.1),
      CRO_UNIT_EACH },
    { "pieces in the user's language", "3 pièces citron", M (3), CRO_UNIT_EACH, "citron", -1, 0 },
  };
  static const char *const locales[] = { "C", "en_US.UTF-8", "fr_FR.UTF-8", "de_DE.UTF-8" };
  Fixture *fixture = *state;

  for (gsize l = 0; l < G_N_ELEMENTS (locales); l++)
    for (gsize i = 0; cro_test_enter_locale (locales[l]) && i < G_N_ELEMENTS (cases); i++)
      expect_line (cro_book_get_model (fixture->book), &cases[i]);
  setlocale (LC_ALL, "C");
}

static void
test_weighing (void **state)
{
  static const struct { const char *says, *text, *name; int as_bought; } cases[] = {
    { "nothing said", "40 g brown crab", "brown crab", -1 },
    { "behind the price", "40 g brown crab 13.20/kg trimmed", "brown crab", FALSE },
    { "without its accent", "300 g fenouil 4,20/kg pare", "fenouil", FALSE },
    { "before it", "40 g brown crab, as bought 13.20/kg", "brown crab", TRUE },
    { "behind a comma", "2 kg artichokes, Trimmed", "artichokes", FALSE },
    { "in the user's language", "2 kg turbot PARÉ 24/kg", "turbot", FALSE },
    { "as bought", "2 kg turbot as bought", "turbot", TRUE },
    { "said twice", "20 g hake cleaned and trimmed", "hake", FALSE },
    { "and well", "20 g hake, well cleaned & trimmed", "hake", FALSE },
    { "in French", "20 g lieu paré et bien paré", "lieu", FALSE },
    { "a name that begins so", "2 kg trimmed turbot", "trimmed turbot", -1 },
    { "a name of the book that ends so", "2 kg leeks trimmed", "Leeks, trimmed", -1 },
    { "the word alone is a name", "2 kg trimmed", "trimmed", -1 },
  };
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);

  add_ingredient (fixture->book, "Leeks, trimmed", CRO_BASE_GRAM);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroQuick) quick = { 0 };
      const char *name;

      if (!cro_quick_read (model, cases[i].text, &words, &quick))
        fail_msg ("%s: \"%s\" has fault %d", cases[i].says, cases[i].text, quick.fault);
      name = quick.item != CRO_NO_SLOT ? cro_model_item (model, quick.item)->name : quick.name;
      if (strcmp (name, cases[i].name) != 0 || quick.has_weighing != (cases[i].as_bought >= 0)
          || (quick.has_weighing && quick.as_bought != cases[i].as_bought))
        fail_msg ("%s: \"%s\" is \"%s\", as bought %d", cases[i].says, cases[i].text, name,
                  quick.as_bought);
    }
}

static void
test_number (void **state)
{
  static const struct { const char *text, *name; } cases[] = {
    { "3 egg yolks", "Egg yolk" }, { "2 lemon", "Lemons" }, { "200 g tomato", "Tomatoes" },
    { "90 g berry", "Berries" }, { "2 chou", "Choux" }, { "2 pêches", "Pêche" },
    { "2 peaches", "Peach" }, { "3 cookies", "Cookie" }, { "40 g cress", NULL }, { "40 g radis", NULL },
    { "1 plumes", NULL }, { "5 Plums", "Plums" }, { "1 plum", "Plum" },
    { "1 lemon (juice)", "Lemons" }, { "20 ml lemon juice", "Lemon juice" }, { "1 lime (zest)", "Lime (zest)" },
  };
  static const char *const names[] = { "Egg yolk", "Lemons", "Tomatoes", "Berries", "Choux", "Pêche", "Peach",
                                       "Cookie", "Plum", "Plums", "Cres", "Radi", "Lemon juice", "Lime",
                                       "Lime (zest)" };
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    add_ingredient (fixture->book, names[i], CRO_BASE_GRAM);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroQuick) quick = { 0 };

      cro_quick_read (model, cases[i].text, &words, &quick);
      if (g_strcmp0 (quick.item != CRO_NO_SLOT ? cro_model_item (model, quick.item)->name : NULL,
                     cases[i].name) != 0)
        fail_msg ("\"%s\" takes %s", cases[i].text,
                  quick.item != CRO_NO_SLOT ? cro_model_item (model, quick.item)->name : "nothing");
    }
}

static void
test_not_understood (void **state)
{
  static const struct { const char *says, *text; CroQuickFault fault; const char *at; } cases[] = {
    { "nothing", "  ", CRO_QUICK_EMPTY, NULL },
    { "a bullet and nothing", "-", CRO_QUICK_EMPTY, NULL },
    { "with the space behind it", "- ", CRO_QUICK_EMPTY, NULL },
    { "a round one", "• ", CRO_QUICK_EMPTY, NULL },
    { "a star", " * ", CRO_QUICK_EMPTY, NULL },
    { "one from a sheet", "–\t\302\240", CRO_QUICK_EMPTY, NULL },
    { "an amount of nothing", "25 g", CRO_QUICK_NO_NAME, NULL },
    { "an amount with the space before a name", "3 ", CRO_QUICK_NO_NAME, NULL },
    { "an amount of 0", "0 g butter", CRO_QUICK_AMOUNT, "0" },
    { "a range is no difference", "3-4 kg box", CRO_QUICK_RANGE, "3-4" },
    { "division by 0", "1/0 kg flour", CRO_QUICK_AMOUNT, "1/0" },
    { "what goes on with a sign", "2 kg + 200 g crab", CRO_QUICK_AMOUNT, "+ 200 g crab" },
    { "a unit of no kind", "butter 9.20/kgg", CRO_QUICK_PRICE, "9.20/kgg" },
    { "a price for nothing said", "25 g butter 9.20", CRO_QUICK_PRICE_OF, "9.20" },
    { "a price with its sign, for nothing said", "25 g butter 9 €", CRO_QUICK_PRICE_OF, "9 €" },
    { "its code does not say of how much", "2 kg turbot 171 EUR", CRO_QUICK_PRICE_OF, "171 EUR" },
    { "a second price", "100 g dorade 20/kg, now 25/kg", CRO_QUICK_TWO_PRICES, "20/kg" },
    { "without a word between", "100 g dorade 20/kg 25/kg", CRO_QUICK_TWO_PRICES, "20/kg" },
    { "a unit of several sizes", "2 cups flour", CRO_QUICK_WHICH_UNIT, "cups" },
    { "in French", "1 tasse de farine", CRO_QUICK_WHICH_UNIT, "tasse" },
    { "while it is typed", "1 cup", CRO_QUICK_WHICH_UNIT, "cup" },
    { "a unit of no size", "½ bunch parsley", CRO_QUICK_NO_SIZE, "bunch" },
    { "alone", "½ bunch", CRO_QUICK_NO_SIZE, "bunch" },
    { "in French", "2 gousses d'ail", CRO_QUICK_NO_SIZE, "gousses" },
    { "behind the name", "parsley 2 bunches", CRO_QUICK_NO_SIZE, "bunches" },
    { "a name that turns what follows", "25 g \342\200\256rettub", CRO_QUICK_STRAY, NULL },
    { "another currency", "25 g butter £9.20/kg", CRO_QUICK_CURRENCY, "£9.20/kg" },
    { "a price with its tax", "25 g butter 9.20/kg incl. VAT", CRO_QUICK_TAX, "9.20/kg incl. VAT" },
    { "a price of a case of nobody knows what", "25 g butter 71 € per case", CRO_QUICK_PRICE, NULL },
    { "a sign of several currencies", "25 g butter $9.20/kg", CRO_QUICK_CURRENCY, "$9.20/kg" },
    { "an amount behind an amount", "1 kg 3 pc lobster", CRO_QUICK_TWO_AMOUNTS, "3 pc" },
    { "more than one of its unit", "3 lb 20 oz crab", CRO_QUICK_TWO_AMOUNTS, "20 oz" },
    { "twice one part, or both?", "2 x 1 lb 4 oz crab", CRO_QUICK_TWO_AMOUNTS, "4 oz" },
    { "a price alone", "9.20/kg", CRO_QUICK_PRICE, "9.20/kg" },
    { "a size with its unit is no price", "200 g cod 400/600 g", CRO_QUICK_REMARK, "400/600 g" },
    { "words behind a price", "25 g butter 9.20/kg best there is", CRO_QUICK_BEHIND_PRICE,
      "best there is" },
    { "words behind one with its sign", "2 eggs 0.34 € each fresh", CRO_QUICK_BEHIND_PRICE,
      "fresh" },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroQuick) quick = { 0 };
      g_autofree char *at = NULL;

      cro_quick_read (cro_book_get_model (fixture->book), cases[i].text, &words, &quick);
      if (quick.fault != cases[i].fault)
        fail_msg ("%s: \"%s\" has fault %d and not %d", cases[i].says, cases[i].text, quick.fault,
                  cases[i].fault);
      at = g_strndup (cases[i].text + quick.start, quick.end - quick.start);
      if (cases[i].at != NULL && strcmp (at, cases[i].at) != 0)
        fail_msg ("%s: \"%s\" is at fault at \"%s\"", cases[i].says, cases[i].text, at);
    }
}

static void
test_look_up (void **state)
{
  static const struct { const char *says, *text; CroQuickMatch match; const char *name; } cases[] = {
    { "to the letter", "25 g White crab meat", CRO_QUICK_EXACT, "White crab meat" },
    { "whatever the case", "25 g white CRAB meat", CRO_QUICK_EXACT, "White crab meat" },
    { "without accents", "25 g creme fraiche", CRO_QUICK_EXACT, "Crème fraîche" },
    { "by some of its words", "25 g crab", CRO_QUICK_SIMILAR, "White crab meat" },
    { "a letter too many", "25 g white crab meatt", CRO_QUICK_SIMILAR, "White crab meat" },
    { "a space too few", "25 g whitecrab meat", CRO_QUICK_SIMILAR, "White crab meat" },
    { "two letters that changed places", "25 g creme friache", CRO_QUICK_SIMILAR, "Crème fraîche" },
    { "two slips are another name", "25 g whitecrab meatt", CRO_QUICK_UNKNOWN, NULL },
    { "a slip in one of its words", "25 g craab", CRO_QUICK_SIMILAR, "White crab meat" },
    { "several of what is slipped", "25 g craabs", CRO_QUICK_SIMILAR, "White crab meat" },
    { "a slip beside a word that it has not", "25 g craab soup", CRO_QUICK_UNKNOWN, NULL },
    { "not at all", "25 g samphire", CRO_QUICK_UNKNOWN, NULL },
  };
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroQuick) quick = { 0 };

      cro_quick_read (model, cases[i].text, &words, &quick);
      cro_quick_find (&quick, fixture->book, fixture->plate);
      if (quick.match != cases[i].match
          || (cases[i].name != NULL
              && strcmp (cro_model_item (model, quick.item)->name, cases[i].name) != 0))
        fail_msg ("%s: \"%s\" is matched %d", cases[i].says, cases[i].text, quick.match);
    }
}

/* --- Placing --------------------------------------------------------------------------------------- */

static guint
place (Fixture       *fixture,
       const char    *text,
       CroQuickFlags  flags,
       char         **left,
       guint32       *item)
{
  GError *error = NULL;
  guint n_placed = 0;

  cro_test_must (cro_quick_place (fixture->book, "lines", fixture->plate, CRO_NO_SLOT, text, &words,
                                  "Market", CRO_TEST_DAY, flags, left, &n_placed, item, &error),
                 error);
  return n_placed;
}

/* One step back, and the file is as it was before. */
static void
assert_undone (Fixture    *fixture,
               const char *says,
               const char *before)
{
  g_autofree char *after = NULL;
  GError *error = NULL;

  cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
  after = cro_test_dump (fixture->folder.path);
  cro_test_same (says, before, after);
}

static void
test_first_figure (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *left = NULL;
  guint32 item;
  CroFigures *figures;

  assert_int_equal (place (fixture, "240 g butter 9.20/kg", CRO_QUICK_MAKE_PRICED, &left, &item), 1);
  assert_null (left);
  figures = cro_book_get_figures (fixture->book);
  assert_string_equal (cro_model_item (figures->model, item)->name, "butter");
  /* 240 g at 9.20 a kilo for 24 bites: 0.092. */
  assert_float_equal (cro_figure_of_plate (figures, fixture->plate).bite, 0.092, 1e-12);
}

/* What is bought is the pack that was said: one of 500 g, and one piece where the price is of one. */
static void
test_a_price_has_its_pack (void **state)
{
  static const struct { const char *line; gint64 size; CroUnit unit; gint64 price; } cases[] = {
    { "20 g agar 31/500 g", M (500), CRO_UNIT_G, M (31) },
    { "4 tartlet cases 9.60 per 24 pc", M (24), CRO_UNIT_EACH, M (9.6) },
    { "1 kg flour 10/3 kg", M (3), CRO_UNIT_KG, M (10) },
    { "2 eggs 0.34 each", M (1), CRO_UNIT_EACH, M (0.34) },
  };
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *left = NULL;
      guint32 item;
      const CroOfferEntry *entry;

      assert_int_equal (place (fixture, cases[i].line, CRO_QUICK_MAKE_PRICED, &left, &item), 1);
      entry = cro_model_offer (model, g_array_index (model->offer_order, guint32,
                                                     cro_model_item (model, item)->first_offer));
      assert_int_equal (entry->pack_count, M (1));
      assert_int_equal (entry->pack_size, cases[i].size);
      assert_int_equal (entry->pack_unit, cases[i].unit);
      assert_int_equal (entry->offer.price, cases[i].price);
    }
}

static void
test_paste (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  g_autofree char *left = NULL;
  g_autofree char *before = cro_test_dump (fixture->folder.path);
  g_autoptr (GArray) lines = NULL;
  guint32 item;

  assert_int_equal (place (fixture,
                           "Marsh tartlet, for 24:\n"
                           "- 600 g white crab meat\n"
                           "\n"
                           "- 24 g samphire\n"
                           "- \n"
                           "•\n"
                           "- 120 g butter 9.20/kg\n"
                           "- 60 g BUTTER 9.40/kg\r\n"
                           "- 9.20 nonsense 4.4\n",
                           CRO_QUICK_MAKE_PRICED, &left, &item), 3);
  assert_string_equal (left, "- 24 g samphire\n- 9.20 nonsense 4.4");
  lines = cro_edit_list_lines (cro_book_get_figures (fixture->book), fixture->plate);
  assert_int_equal (lines->len, 3);
  assert_int_equal (model->lines.item[g_array_index (lines, guint32, 1)],
                    model->lines.item[g_array_index (lines, guint32, 2)]);
  assert_int_equal (item, CRO_NO_SLOT);

  assert_undone (fixture, "what was pasted is one act", before);
}

static void
test_flags (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  g_autofree char *left = NULL;
  g_autofree char *none = NULL;
  guint32 item;

  assert_int_equal (place (fixture, "25 g crab", 0, &left, &item), 0);
  assert_string_equal (left, "25 g crab");
  assert_int_equal (place (fixture, "25 g crab", CRO_QUICK_TAKE_SIMILAR, &none, &item), 1);
  assert_string_equal (cro_model_item (model, item)->name, "White crab meat");
  assert_int_equal (place (fixture, "25 g crab claws", CRO_QUICK_MAKE_ALL, &none, &item), 1);
  assert_string_equal (cro_model_item (model, item)->name, "crab claws");
  assert_null (none);
}

static void
test_make_preparation (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  g_autofree char *left = NULL;
  g_autofree char *before = cro_test_dump (fixture->folder.path);
  g_autoptr (GArray) lines = NULL;
  guint32 item;

  assert_int_equal (place (fixture, "120 ml shell oil", CRO_QUICK_MAKE_PREPARATION
                           | CRO_QUICK_MAKE_ALL, &left, &item), 1);
  assert_null (left);
  assert_string_equal (cro_model_item (model, item)->name, "shell oil");
  assert_true (cro_model_item (model, item)->is_main);
  assert_int_equal (model->measures[item].base, CRO_BASE_MILLILITRE);
  lines = cro_edit_list_lines (cro_book_get_figures (fixture->book), fixture->plate);
  assert_int_equal (lines->len, 1);

  assert_undone (fixture, "the preparation and its line are one act", before);
}

static void
test_place_weighing (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  g_autofree char *left = NULL;
  g_autoptr (GArray) lines = NULL;
  guint32 item;

  place (fixture, "1 kg white crab meat as bought\n1 kg white crab meat trimmed", 0, &left, &item);
  lines = cro_edit_list_lines (cro_book_get_figures (fixture->book), fixture->plate);
  assert_true (model->lines.whole[g_array_index (lines, guint32, 0)]);
  assert_false (model->lines.whole[g_array_index (lines, guint32, 1)]);
}

static void
test_no_amount (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *left = NULL;
  guint32 item;

  assert_int_equal (place (fixture, "White crab meat", CRO_QUICK_MAKE_ALL, &left, &item), 0);
  assert_string_equal (left, "White crab meat");
}

static guint32
add_preparation (Fixture    *fixture,
                 const char *name)
{
  GError *error = NULL;
  guint32 recipe;

  cro_test_must (cro_edit_add_preparation (fixture->book, "add", name, M (500), CRO_UNIT_G, &recipe, NULL, &error),
                 error);
  return recipe;
}

/* A plate may take what a preparation gives; the preparation itself, and what that takes, may not. */
static void
test_what_leads_back_is_not_meant (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  guint32 infusion = add_preparation (fixture, "Cucumber-juniper infusion");
  guint32 gel = add_preparation (fixture, "Gel of cucumber"), tomatoes = add_preparation (fixture, "Tomatoes");
  const struct { const char *says, *text; guint32 recipe; const char *name; } cases[] = {
    { "the best of all", "2 kg cucumber", CRO_NO_SLOT, "Cucumber-juniper infusion" },
    { "a plate takes it", "2 kg cucumber", fixture->plate, "Cucumber-juniper infusion" },
    { "not itself, and not what it is in", "2 kg cucumber", infusion, NULL },
    { "nor by a slip", "2 kg Cucumber-juniper infusio", infusion, NULL },
    { "the one that it takes, not itself", "2 kg cucumber", gel, "Cucumber-juniper infusion" },
    { "several are one", "2 kg cucumbers", gel, "Cucumber-juniper infusion" },
    { "and what is bought", "2 kg flours", infusion, "00 flour" },
    { "one of what it makes several of is not itself", "2 kg tomato", tomatoes, NULL },
    { "by its very name it is, which is told", "2 kg tomatoes", tomatoes, "Tomatoes" },
    { "elsewhere it is taken", "2 kg tomato", gel, "Tomatoes" },
  };
  g_autofree char *left = NULL, *made = NULL;
  guint n_placed = 0;
  GError *error = NULL;

  cro_test_must (cro_quick_place (fixture->book, "lines", gel, CRO_NO_SLOT, "100 g Cucumber-juniper infusion", &words,
                                  "Market", CRO_TEST_DAY, 0, &left, &n_placed, NULL, &error), error);
  assert_int_equal (n_placed, 1);
  cro_test_must (cro_quick_place (fixture->book, "lines", tomatoes, CRO_NO_SLOT, "2 kg tomato", &words, "Market",
                                  CRO_TEST_DAY, 0, &made, &n_placed, NULL, &error), error);
  assert_int_equal (n_placed, 0);
  assert_string_equal (made, "2 kg tomato");
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroQuick) quick = { 0 };

      cro_quick_read (model, cases[i].text, &words, &quick);
      cro_quick_find (&quick, fixture->book, cases[i].recipe);
      if ((quick.item != CRO_NO_SLOT) != (cases[i].name != NULL)
          || (cases[i].name != NULL && strcmp (cro_model_item (model, quick.item)->name, cases[i].name) != 0))
        fail_msg ("%s: \"%s\" is matched %d", cases[i].says, cases[i].text, quick.match);
    }
}

/* What is made is costed by what is in it: a price of it is no offer, in a line alone a fault, in a paste let go. */
static void
test_what_is_made_has_no_price (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  g_auto (CroQuick) quick = { 0 };
  g_autofree char *alone = NULL, *left = NULL, *similar = NULL;

  add_preparation (fixture, "Crab butter");
  assert_false (cro_quick_read_line (model, "5 g crab butter 12/kg", &words, &quick));
  assert_int_equal (quick.fault, CRO_QUICK_MADE);
  assert_int_equal (place (fixture, "5 g crab butter 12/kg", CRO_QUICK_MAKE_ALL, &alone, NULL), 0);
  assert_string_equal (alone, "5 g crab butter 12/kg");
  assert_int_equal (place (fixture, "5 g crab butter 12/kg\n20 g 00 flour 1.20/kg", CRO_QUICK_MAKE_ALL, &left, NULL),
                    2);
  assert_int_equal (place (fixture, "5 g butter 12/kg\n20 g 00 flour", CRO_QUICK_MAKE_ALL | CRO_QUICK_TAKE_SIMILAR,
                           &similar, NULL), 2);
  assert_true (left == NULL && similar == NULL);
  assert_int_equal (model->offers->len, 1);
}

#define TEST(name) cmocka_unit_test_setup_teardown (name, setup, teardown)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    TEST (test_number), TEST (test_read),         TEST (test_not_understood), TEST (test_look_up),
    TEST (test_a_price_has_its_pack),
    TEST (test_first_figure), TEST (test_paste),          TEST (test_flags),
    TEST (test_no_amount),    TEST (test_weighing),       TEST (test_make_preparation),
    TEST (test_place_weighing), TEST (test_what_leads_back_is_not_meant), TEST (test_what_is_made_has_no_price),
  };

  return cmocka_run_group_tests (tests, cro_test_find_locales, cro_test_leave_locales);
}
