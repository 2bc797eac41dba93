/* Remarks beside an ingredient (cro-remark.h): which are notes, which weigh, and which a line cannot hold. */
#include "cro-quick.h"
#include "cro-words.h"
#include "support/kitchen-book.h"

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
} Fixture;

static int
set_up (void **state)
{
  static const char *const currency[] = { "currency", NULL };
  Fixture *fixture = g_new0 (Fixture, 1);
  CroCell euro = CRO_CELL_STR ("EUR");
  GError *error = NULL;

  fixture->folder = cro_test_folder_new ();
  fixture->book = cro_test_book_create (fixture->folder.path);
  cro_test_must (cro_edit_set (fixture->book, "currency", "book", 1, currency, &euro, &error), error);
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  g_object_unref (fixture->book);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static void
test_harmless (void **state)
{
  static const struct { const char *says, *text, *name, *note; } cases[] = {
    { "before a share of it", "500 g cream 4/kg, 35 % fat", "cream", "35 % fat" },
    { "of fat, in short", "500 g butter 9/kg, 82 % mat. gr.", "butter", "82 % mat. gr." },
    { "and words that say no more of it", "500 g cream 4/kg, 35 % fat, cold", "cream", "35 % fat, cold" },
    { "of what is told apart by it", "100 g white wine 4/kg, 12 %", "white wine", "12 %" },
    { "within its name", "100 g chocolate 70 % Equator 18/kg", "chocolate 70 % Equator", NULL },
    { "of all", "100 g ham 20/kg, 100 % organic", "ham", "100 % organic" },
    { "cut in parts", "100 g ham 20/kg, trimmed, cut in half", "ham", "trimmed, cut in half" },
    { "of what it gives", "1 plaice 8 each, gives 4 fillets", "plaice", "gives 4 fillets" },
    { "of its size", "100 g prawns 20/kg, trimmed, 16/20", "prawns", "trimmed, 16/20" },
    { "of a cut", "100 g ham 20/kg, trimmed, 1/2 cm dice", "ham", "trimmed, 1/2 cm dice" },
    { "an age", "100 g ham 20/kg, aged 24 months", "ham", "aged 24 months" },
    { "a time and a temperature", "100 g ham 20/kg, cooked 2 h at 62 °C", "ham", "cooked 2 h at 62 °C" },
    { "below 0", "100 g ham 20/kg, kept at -18 °C", "ham", "kept at -18 °C" },
    { "two lengths", "100 g ham 20/kg, 2 x 2 cm", "ham", "2 x 2 cm" },
    { "into so many", "100 g ham 20/kg, cut in 4", "ham", "cut in 4" },
    { "times pieces", "100 g ham 20/kg, x 4 pieces", "ham", "x 4 pieces" },
    { "pieces alone are no price of one", "100 g ham, 4 pieces", "ham", "4 pieces" },
    { "a size by its name", "100 g oysters 20/kg, no. 3", "oysters", "no. 3" },
    { "in French", "100 g huîtres 20/kg, n° 3, calibre 3/5", "huîtres", "n° 3, calibre 3/5" },
    { "a range", "100 g prawns 20/kg, 21-25", "prawns", "21-25" },
    { "a year", "100 g ham 20/kg, harvest 2026", "ham", "harvest 2026" },
    { "a kind", "100 g flour 2/kg, T55", "flour", "T55" },
    { "a shape", "100 g apples 2/kg, quarters", "apples", "quarters" },
    { "a half of no loss", "100 g cream 2/kg, half-fat", "cream", "half-fat" },
    { "some of the pieces", "2 eggs, 1 beaten", "eggs", "1 beaten" },
    { "an age before what it is of", "100 g ham 20/kg, 28-day aged", "ham", "28-day aged" },
    { "the weight of one", "100 g ham 20/kg, 30 g each", "ham", "30 g each" },
    { "of the piece itself", "1 turbot 22/kg, about 2 kg", "turbot", "about 2 kg" },
    { "without tax behind a comma", "100 g ham 20/kg, ex VAT", "ham", "ex VAT" },
    { "two temperatures and a time", "100 g ham 20/kg, 2 cm dice, at 62 C for 10 min", "ham",
      "2 cm dice, at 62 C for 10 min" },
    { "close to its scale", "100 g ham 20/kg, 180C fan", "ham", "180C fan" },
    { "seconds", "100 g leek 2/kg, blanched 2 x 30 s", "leek", "blanched 2 x 30 s" },
    { "an oven", "100 g ham 20/kg, gas mark 4", "ham", "gas mark 4" },
    { "what is taken beside", "100 g butter 9/kg, plus 20 g for the tin", "butter", "plus 20 g for the tin" },
    { "in French", "100 g beurre 9/kg, 20 g pour le moule", "beurre", "20 g pour le moule" },
    { "in spoons", "500 g flour 1/kg, plus 2 tbsp for dusting", "flour", "plus 2 tbsp for dusting" },
    { "pieces of a weight", "500 g pork 9/kg, 5 pieces of 100 g", "pork", "5 pieces of 100 g" },
    { "twice of no amount", "100 g broad beans 4/kg, double podded, rinsed twice", "broad beans",
      "double podded, rinsed twice" },
    { "a time", "100 g ham 20/kg, salted before boning", "ham", "salted before boning" },
    { "no price of one", "100 g ham 20/kg, 2 slices a plate", "ham", "2 slices a plate" },
    { "no loss", "100 g ham 20/kg, no waste", "ham", "no waste" },
    { "bones that are in it", "100 g ham 20/kg, bones included", "ham", "bones included" },
    { "words around the weighing", "100 g ham 20/kg, skinned and trimmed", "ham", "skinned and trimmed" },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroQuick) quick = { 0 };

      if (!cro_quick_read (cro_book_get_model (fixture->book), cases[i].text, cro_words_entry (), &quick))
        fail_msg ("%s: \"%s\" has fault %d", cases[i].says, cases[i].text, quick.fault);
      if (strcmp (quick.name, cases[i].name) != 0 || g_strcmp0 (quick.note, cases[i].note) != 0)
        fail_msg ("%s: \"%s\" is \"%s\", noted \"%s\"", cases[i].says, cases[i].text, quick.name, quick.note);
    }
}

static void
test_refused (void **state)
{
  static const struct { const char *says, *text; CroQuickFault fault; const char *at; } cases[] = {
    { "a loss is no note", "600 g fennel, loss 18 %, 3.20/kg", CRO_QUICK_LOSS, "loss 18 %" },
    { "without a price", "600 g fennel trim 18 %", CRO_QUICK_LOSS, "trim 18 %" },
    { "the number first", "600 g fenouil 18 % déchets", CRO_QUICK_LOSS, "18 % déchets" },
    { "without a comma", "600 g fennel 3.20/kg trim 18 %", CRO_QUICK_LOSS, "trim 18 %" },
    { "behind the price", "600 g fenouil 3,20/kg, 18 % de perte", CRO_QUICK_LOSS, "18 % de perte" },
    { "in any words", "600 g fennel 3.20/kg, peeled 80 %", CRO_QUICK_LOSS, "peeled 80 %" },
    { "of the whole", "800 g turbot 22/kg, parée 55 %", CRO_QUICK_LOSS, "parée 55 %" },
    { "behind a price", "800 g turbot 22/kg 80 % after cooking", CRO_QUICK_LOSS, "80 % after cooking" },
    { "of what goods hold, and more", "100 g ham 20/kg, 30 % fat trimmed off", CRO_QUICK_LOSS, "30 % fat trimmed off" },
    { "in words", "100 g ham 20/kg, 55 percent usable", CRO_QUICK_LOSS, "55 percent usable" },
    { "alone", "100 g ham 20/kg, 55 %", CRO_QUICK_LOSS, "55 %" },
    { "about so much", "100 g ham 20/kg, about 55 %", CRO_QUICK_LOSS, "about 55 %" },
    { "of all, and more", "100 g ham 20/kg, 100 % organic, 55 % usable", CRO_QUICK_LOSS,
      "100 % organic, 55 % usable" },
    { "a share of two that is named", "100 g ham 20/kg, 15 % salt, 55 %", CRO_QUICK_LOSS, "15 % salt, 55 %" },
    { "a fraction", "100 g ham 20/kg, loses 1/3", CRO_QUICK_LOSS, "loses 1/3" },
    { "one in words", "100 g ham 20/kg, half lost", CRO_QUICK_LOSS, "half lost" },
    { "of what is trimmed", "100 g ham 20/kg, trimmed by a third", CRO_QUICK_LOSS, "trimmed by a third" },
    { "in French", "100 g jambon 20/kg, moitié perdue", CRO_QUICK_LOSS, "moitié perdue" },
    { "a decimal", "100 g ham 20/kg, yield .55", CRO_QUICK_LOSS, "yield .55" },
    { "with a comma", "100 g jambon 20/kg, rendement 0,55", CRO_QUICK_LOSS, "rendement 0,55" },
    { "a factor", "100 g ham 20/kg, factor 1.8", CRO_QUICK_LOSS, "factor 1.8" },
    { "a weight of a weight", "100 g ham 20/kg, loses 200 g a kilo", CRO_QUICK_LOSS, "loses 200 g a kilo" },
    { "within the name", "100 g ham k 55 % usable", CRO_QUICK_LOSS, "55 % usable" },
    { "in brackets", "100 g ham j (55 % usable) 20/kg", CRO_QUICK_LOSS, "(55 % usable)" },
    { "of nothing, in brackets", "100 g ham j (55 %)", CRO_QUICK_LOSS, "(55 %)" },
    { "a fraction within the name", "100 g ham loses 1/3", CRO_QUICK_LOSS, "loses 1/3" },
    { "a decimal within the name", "100 g ham yield 0.55", CRO_QUICK_LOSS, "yield 0.55" },
    { "in any words within the name", "100 g ham 55 % after a day", CRO_QUICK_LOSS, "55 % after a day" },
    { "in brackets before the name", "100 g (55 % usable) ham", CRO_QUICK_LOSS, "55 % usable" },
    { "what it weighs whole", "100 g perch 20/kg, gross 180 g", CRO_QUICK_REMARK, "gross 180 g" },
    { "before", "100 g perch 20/kg, 180 g before trimming", CRO_QUICK_REMARK, "180 g before trimming" },
    { "from", "100 g perch 20/kg, from 180 g whole", CRO_QUICK_REMARK, "from 180 g whole" },
    { "to be bought", "100 g perch 20/kg, cleaned weight (buy 180 g)", CRO_QUICK_REMARK, NULL },
    { "an arrow", "100 g perch 20/kg, 1 kg -> 550 g", CRO_QUICK_REMARK, "1 kg -> 550 g" },
    { "a factor without its word", "100 g perch 20/kg, x 1.8 for bones", CRO_QUICK_REMARK, "x 1.8 for bones" },
    { "close to its sign", "100 g perch 20/kg, x1.8", CRO_QUICK_REMARK, "x1.8" },
    { "a half that is kept", "100 g perch 20/kg, keep half", CRO_QUICK_REMARK, "keep half" },
    { "a third of it", "100 g perch 20/kg, a third is bone", CRO_QUICK_REMARK, "a third is bone" },
    { "in French", "100 g perche 20/kg, un tiers d'arêtes", CRO_QUICK_REMARK, "un tiers d'arêtes" },
    { "a fraction in French", "100 g perche 20/kg, les 3/4 servent", CRO_QUICK_REMARK, "les 3/4 servent" },
    { "whole in French", "100 g perche 20/kg, soit 180 g brut", CRO_QUICK_REMARK, NULL },
    { "what is left", "500 g leek, 400 g net", CRO_QUICK_REMARK, "400 g net" },
    { "trimmed", "500 g leek, 400 g trimmed", CRO_QUICK_REMARK, NULL },
    { "a number of nothing", "500 g leek, trim 20", CRO_QUICK_REMARK, "trim 20" },
    { "in brackets at the end", "500 g leek (400 g trimmed)", CRO_QUICK_REMARK, "(400 g trimmed)" },
    { "in French", "500 g poireau (400 g paré)", CRO_QUICK_REMARK, "(400 g paré)" },
    { "of the piece, trimmed", "1 crab 20/kg, 300 g net", CRO_QUICK_REMARK, "300 g net" },
    { "a loss by its sign within the name", "500 g leek -20%", CRO_QUICK_LOSS, "-20%" },
    { "by a word", "500 g leek less 20 %", CRO_QUICK_LOSS, "less 20 %" },
    { "by another", "500 g leek allow 20 %", CRO_QUICK_LOSS, "allow 20 %" },
    { "without its sign", "500 g poireau rdt 80", CRO_QUICK_LOSS, "rdt 80" },
    { "what comes of it", "500 g leek = 400 g net", CRO_QUICK_LOSS, "400 g net" },
    { "and its word first", "500 g leek net 400 g", CRO_QUICK_LOSS, "net 400 g" },
    { "by an arrow", "500 g leek → 400 g", CRO_QUICK_LOSS, "→ 400 g" },
    { "a sentence of a loss", "A third is lost in the shell.", CRO_QUICK_LOSS, NULL },
    { "another amount in brackets", "250 g (180 g) leek", CRO_QUICK_REMARK, "180 g" },
    { "a change of the price", "500 g leek 2.10/kg less 10 %", CRO_QUICK_DISCOUNT, "less 10 %" },
    { "by its sign", "500 g leek 2.10/kg -10 %", CRO_QUICK_DISCOUNT, "-10 %" },
    { "a tax behind a comma", "100 g dorade 20/kg, TTC", CRO_QUICK_TAX_BESIDE, "TTC" },
    { "in English", "100 g dorade 20/kg, tax included", CRO_QUICK_TAX_BESIDE, "tax included" },
    { "with its rate", "100 g dorade 20/kg, incl 10 % VAT", CRO_QUICK_TAX_BESIDE, "incl 10 % VAT" },
    { "a rate alone", "100 g dorade 20/kg, TVA 5,5 %", CRO_QUICK_TAX_BESIDE, "TVA 5,5 %" },
    { "so many for the price of less", "100 g ham 20/kg, buy 3 pay 2", CRO_QUICK_DISCOUNT, "buy 3 pay 2" },
    { "in French", "100 g jambon 20/kg, 2 achetés 1 offert", CRO_QUICK_DISCOUNT, "2 achetés 1 offert" },
    { "a discount", "100 g ham 20/kg, 30 % off", CRO_QUICK_DISCOUNT, "30 % off" },
    { "and more", "100 g ham 20/kg, 30 % off, organic", CRO_QUICK_DISCOUNT, "30 % off, organic" },
    { "without a number", "100 g ham half price 20/kg", CRO_QUICK_DISCOUNT, "half price" },
    { "one in French", "100 g jambon 20/kg, remise bio 10 %", CRO_QUICK_DISCOUNT, "remise bio 10 %" },
    { "within the name", "100 g ham 30 % off 20/kg", CRO_QUICK_DISCOUNT, "30 % off" },
    { "in a word alone", "100 g zander 20/kg, incl.", CRO_QUICK_TAX_BESIDE, "incl." },
    { "of a price", "100 g zander 20/kg, gross price", CRO_QUICK_TAX_BESIDE, "gross price" },
    { "which is no weighing", "100 g sandre 20/kg, prix brut", CRO_QUICK_TAX_BESIDE, "prix brut" },
    { "paid", "100 g zander 20/kg, VAT paid", CRO_QUICK_TAX_BESIDE, "VAT paid" },
    { "after it", "100 g zander 20/kg, after tax", CRO_QUICK_TAX_BESIDE, "after tax" },
    { "inside in French", "100 g sandre 20/kg, dont TVA", CRO_QUICK_TAX_BESIDE, "dont TVA" },
    { "within the name", "100 g zander VAT paid", CRO_QUICK_TAX_BESIDE, "VAT paid" },
    { "more for the price", "100 g zander 20/kg, two for one", CRO_QUICK_DISCOUNT, "two for one" },
    { "in figures", "100 g zander 20/kg, 3 for 2", CRO_QUICK_DISCOUNT, "3 for 2" },
    { "of another measure", "100 g zander 20/kg, per lb", CRO_QUICK_DISCOUNT, "per lb" },
    { "in French", "100 g sandre 20/kg, la livre", CRO_QUICK_DISCOUNT, "la livre" },
    { "of a pack", "100 g zander 20/kg, per case", CRO_QUICK_DISCOUNT, "per case" },
    { "a discount of nobody knows what", "100 g zander 20/kg, less rebate", CRO_QUICK_DISCOUNT, "less rebate" },
    { "a loss in words alone", "100 g zander 20/kg, loses a lot", CRO_QUICK_LOSS, "loses a lot" },
    { "in French", "100 g sandre 20/kg, perd beaucoup", CRO_QUICK_LOSS, "perd beaucoup" },
    { "more of it", "100 g zander 20/kg, double it for bones", CRO_QUICK_REMARK, "double it for bones" },
    { "before what is lost", "100 g zander 20/kg, twice as much before boning", CRO_QUICK_REMARK, NULL },
    { "to be allowed for", "100 g zander 20/kg, allow extra for bones", CRO_QUICK_REMARK, NULL },
    { "another state", "100 g beans 2/kg, cooked weight", CRO_QUICK_REMARK, "cooked weight" },
    { "before what is lost, alone", "100 g zander 20/kg, before boning", CRO_QUICK_REMARK, "before boning" },
    { "in French", "100 g sandre 20/kg, le double avec les arêtes", CRO_QUICK_REMARK, NULL },
    { "a factor before what is harmless", "100 g butter 9/kg, x 1.8, 20 g for the tin", CRO_QUICK_REMARK, NULL },
    { "what is lost of it", "100 g zander 20/kg, pieces of 100 g net", CRO_QUICK_REMARK, NULL },
    { "what is denied", "100 g zander 20/kg, not trimmed", CRO_QUICK_REMARK, "not trimmed" },
    { "within the name", "500 g poireau non paré", CRO_QUICK_REMARK, "non paré" },
    { "a second weight within it", "500 g poireau soit 400 g", CRO_QUICK_REMARK, "400 g" },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroQuick) quick = { 0 };
      g_autofree char *at = NULL;

      cro_quick_read (cro_book_get_model (fixture->book), cases[i].text, cro_words_entry (), &quick);
      if (quick.fault != cases[i].fault)
        fail_msg ("%s: \"%s\" has fault %d and not %d", cases[i].says, cases[i].text, quick.fault, cases[i].fault);
      at = g_strndup (cases[i].text + quick.start, quick.end - quick.start);
      if (cases[i].at != NULL && strcmp (at, cases[i].at) != 0)
        fail_msg ("%s: \"%s\" is at fault at \"%s\"", cases[i].says, cases[i].text, at);
    }
}

/* No word of it is cut off and left behind. */
static void
test_weighing (void **state)
{
  static const struct { const char *text; gboolean as_bought; const char *name, *note; } cases[] = {
    { "500 g poireau 2/kg, poids brut", TRUE, "poireau", NULL },
    { "500 g poireau poids brut", TRUE, "poireau", NULL },
    { "500 g leek 2/kg, gross weight", TRUE, "leek", NULL },
    { "500 g poireau 2/kg, poids paré", FALSE, "poireau", NULL },
    { "500 g leek, net weight", FALSE, "leek", NULL },
    { "500 g leek well trimmed", FALSE, "leek", NULL },
    { "500 g leek, well trimmed", FALSE, "leek", "well trimmed" },
    { "500 g leek scrubbed and trimmed", FALSE, "leek scrubbed", NULL },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto (CroQuick) quick = { 0 };

      if (!cro_quick_read (cro_book_get_model (fixture->book), cases[i].text, cro_words_entry (), &quick))
        fail_msg ("\"%s\" has fault %d", cases[i].text, quick.fault);
      if (!quick.has_weighing || quick.as_bought != cases[i].as_bought || strcmp (quick.name, cases[i].name) != 0
          || g_strcmp0 (quick.note, cases[i].note) != 0)
        fail_msg ("\"%s\" is \"%s\", noted \"%s\", as bought %d", cases[i].text, quick.name, quick.note,
                  quick.as_bought);
    }
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = { CASE (test_harmless), CASE (test_refused), CASE (test_weighing) };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
