/* A pasted recipe: rows as people write them down, invented and ugly, and what becomes of each. */
#include "cro-breakdown.h"
#include "cro-paste.h"
#include "cro-words.h"
#include "support/kitchen-book.h"
#include "support/locales.h"

#define M(value) ((gint64) ((value) * 1e6 + 0.5))

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  guint32       plate;
  guint32       preparation;
} Fixture;

static int
setup (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);
  GError *error = NULL;

  setlocale (LC_ALL, "C");
  fixture->folder = cro_test_folder_new ();
  fixture->book = cro_test_book_create (fixture->folder.path);
  cro_test_must (cro_edit_add_plate (fixture->book, "plate", "Crab tartlet", M (1), &fixture->plate,
                                     &error), error);
  cro_test_must (cro_edit_add_preparation (fixture->book, "preparation", "Crab butter", 0, CRO_UNIT_G,
                                           &fixture->preparation, NULL, &error), error);
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

/* --- Single rows ---------------------------------------------------------------------------------- */

static void
test_rows (void **state)
{
  static const struct { const char *text; double amount; CroUnit unit; const char *name, *note; } rows[] = {
    { "butter 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "20 cl de cidre brut", 20, CRO_UNIT_CL, "cidre brut", NULL },
    { "butter: 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter:250g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter, cold .... 250 g", 250, CRO_UNIT_G, "butter", "cold" },
    { "butter, cold..........250 g", 250, CRO_UNIT_G, "butter", "cold" },
    { "butter … 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter ____ 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter · · · 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter . . . . 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter - 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter – 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter = 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter ---- 250 g", 250, CRO_UNIT_G, "butter", NULL },
    { "butter (250 g)", 250, CRO_UNIT_G, "butter", NULL },
    { "butter\t250\tg", 250, CRO_UNIT_G, "butter", NULL },
    { "butter        250   g", 250, CRO_UNIT_G, "butter", NULL },
    { "250\tg\tbutter", 250, CRO_UNIT_G, "butter", NULL },
    { "| butter | 250 g |", 250, CRO_UNIT_G, "butter", NULL },
    { "eggs\t4", 4, CRO_UNIT_EACH, "eggs", NULL },
    { "eggs      4", 4, CRO_UNIT_EACH, "eggs", NULL },
    { "eggs: 4", 4, CRO_UNIT_EACH, "eggs", NULL },
    { "eggs x 4", 4, CRO_UNIT_EACH, "eggs", NULL },
    { "4 x eggs", 4, CRO_UNIT_EACH, "eggs", NULL },
    { "1. 250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "12) 250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "(3) 250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "a) 250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "-250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "•250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "[ ] 250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "- [x] 250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "☐ 250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "* 1. 250 g butter", 250, CRO_UNIT_G, "butter", NULL },
    { "1/2 kg crab shells", 0.5, CRO_UNIT_KG, "crab shells", NULL },
    { "½ kg crab shells", 0.5, CRO_UNIT_KG, "crab shells", NULL },
    { "1 ½ kg crab shells", 1.5, CRO_UNIT_KG, "crab shells", NULL },
    { "crab shells, 1½ kg", 1.5, CRO_UNIT_KG, "crab shells", NULL },
    { "250 g de beurre", 250, CRO_UNIT_G, "beurre", NULL },
    { "250g de beurre demi-sel", 250, CRO_UNIT_G, "beurre demi-sel", NULL },
    { "1 c. à soupe d'huile", 1, CRO_UNIT_TBSP, "huile", NULL },
    { "2 cuillères à café de moutarde", 2, CRO_UNIT_TSP, "moutarde", NULL },
    { "jus de 2 citrons", 2, CRO_UNIT_EACH, "citrons", "jus" },
    { "le jus d'un citron", 1, CRO_UNIT_EACH, "citron", "le jus" },
    { "juice of 2 lemons", 2, CRO_UNIT_EACH, "lemons", "juice" },
    { "1 lemon (juice)", 1, CRO_UNIT_EACH, "lemon", "juice" },
    { "20 ml lemon (juice)", 20, CRO_UNIT_ML, "lemon (juice)", NULL },
    { "zest of 1/2 lemon, grated", 0.5, CRO_UNIT_EACH, "lemon", "zest; grated" },
    { "beurre : 250 g", 250, CRO_UNIT_G, "beurre", NULL },
    { "crème\302\240: 1,5 l", 1.5, CRO_UNIT_L, "crème", NULL },
    { "two eggs", 2, CRO_UNIT_EACH, "eggs", NULL },
    { "half a lemon", 0.5, CRO_UNIT_EACH, "lemon", NULL },
    { "un demi citron", 0.5, CRO_UNIT_EACH, "citron", NULL },
    { "trois œufs", 3, CRO_UNIT_EACH, "œufs", NULL },
    { "about 250 g butter", 250, CRO_UNIT_G, "butter", "about" },
    { "env. 250 g de beurre", 250, CRO_UNIT_G, "beurre", "env." },
    { "~ 250 g butter", 250, CRO_UNIT_G, "butter", "~" },
    { "250 g (9 oz) butter", 250, CRO_UNIT_G, "butter", "9 oz" },
    { "500 g (1 lb 2 oz) butter", 500, CRO_UNIT_G, "butter", "1 lb 2 oz" },
    { "250 g (9 oz) of butter, soft", 250, CRO_UNIT_G, "butter", "9 oz; soft" },
    { "1 kg 500 g crab shells", 1.5, CRO_UNIT_KG, "crab shells", NULL },
    { "250 g butter (very cold)", 250, CRO_UNIT_G, "butter (very cold)", NULL },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (CroQuick) quick = { 0 };

      if (!cro_quick_read (cro_book_get_model (fixture->book), rows[i].text, cro_words_entry (), &quick))
        fail_msg ("\"%s\" has fault %d", rows[i].text, quick.fault);
      if (!quick.has_amount || quick.amount != M (rows[i].amount) || quick.unit != rows[i].unit)
        fail_msg ("\"%s\" is of %" G_GINT64_FORMAT " %s", rows[i].text, quick.amount,
                  cro_unit_get (quick.unit)->code);
      if (strcmp (quick.name, rows[i].name) != 0 || g_strcmp0 (quick.note, rows[i].note) != 0)
        fail_msg ("\"%s\" is named \"%s\", with note \"%s\"", rows[i].text, quick.name,
                  quick.note != NULL ? quick.note : "");
    }
}

/* What could be read in two ways is asked about. */
static void
test_asked (void **state)
{
  static const struct { const char *text; CroQuickFault fault; const char *at; } rows[] = {
    { "2–3 lemons", CRO_QUICK_RANGE, "2–3" },
    { "2 - 3 lemons", CRO_QUICK_RANGE, "2 - 3" },
    { "2 to 3 lemons", CRO_QUICK_RANGE, "2 to 3" },
    { "2 à 3 citrons", CRO_QUICK_RANGE, "2 à 3" },
    { "1 kg - 1.2 kg crab", CRO_QUICK_RANGE, "1 kg - 1.2" },
    { "1-1/2 kg flour", CRO_QUICK_RANGE, "1-1/2" },
    { "½–1 lemon", CRO_QUICK_RANGE, "½–1" },
    { "lemons: 2-3", CRO_QUICK_RANGE, "2-3" },
    { "lemons 2–3 pc", CRO_QUICK_RANGE, "2–3" },
    { "a pinch of salt", CRO_QUICK_NO_SIZE, "pinch" },
    { "une demi-gousse d'ail", CRO_QUICK_NO_SIZE, "gousse" },
    { "2 cups flour", CRO_QUICK_WHICH_UNIT, "cups" },
  };
  static const char *const without[] = { "salt", "a few chives", "un peu de sel", "Prawns (16/20)",
                                         "an", "juice of the lemon", "Half and half", "[ ] salt" };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (CroQuick) quick = { 0 };
      g_autofree char *at = NULL;

      cro_quick_read (cro_book_get_model (fixture->book), rows[i].text, cro_words_entry (), &quick);
      at = g_strndup (rows[i].text + quick.start, quick.end - quick.start);
      if (quick.fault != rows[i].fault || strcmp (at, rows[i].at) != 0)
        fail_msg ("\"%s\" has fault %d at \"%s\"", rows[i].text, quick.fault, at);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (without); i++)
    {
      g_auto (CroQuick) quick = { 0 };

      if (cro_quick_read (cro_book_get_model (fixture->book), without[i], cro_words_entry (), &quick)
          && quick.has_amount)
        fail_msg ("\"%s\" has an amount of \"%s\"", without[i], quick.name);
    }
}

/* --- Rows of a recipe ----------------------------------------------------------------------------- */

/* One letter for each row: line, left, title, heading, note, or nothing. */
static char *
dup_kinds (Fixture    *fixture,
           const char *text,
           CroTitle   *title)
{
  static const char letters[] = { [CRO_PASTE_NOTHING] = '.', [CRO_PASTE_LINE] = 'L',
                                  [CRO_PASTE_LEFT] = '?', [CRO_PASTE_TITLE] = 'T',
                                  [CRO_PASTE_HEADING] = 'H', [CRO_PASTE_NOTE] = 'N' };
  g_auto (CroPaste) paste = { 0 };
  GString *kinds = g_string_new (NULL);

  cro_paste_read (cro_book_get_model (fixture->book), "Crab tartlet", text, cro_words_entry (), &paste);
  for (guint i = 0; i < paste.rows->len; i++)
    g_string_append_c (kinds, letters[cro_paste_get (&paste, i)->kind]);
  *title = paste.title;
  title->name = NULL;
  return g_string_free (kinds, FALSE);
}

static void
test_kinds (void **state)
{
  static const struct { const char *says, *text, *kinds; double makes, gives; } cases[] = {
    { "a yield in the title", "Crab butter (makes 450 g)\n250 g butter", "TL", 0, 450 },
    { "another", "Crab tartlet for 24\n250 g butter", "TL", 24, 0 },
    { "a title and its yield apart", "Crab tartlet\nServes 8\n\n250 g butter", "TTL", 8, 0 },
    { "portions", "4 portions\n250 g butter", "TL", 4, 0 },
    { "in French", "Bisque\n\nPour 6 personnes :\n250 g de beurre", "TTL", 6, 0 },
    { "right over the yield", "Sauce mousseline\nPour 24 bouchées\n250 g de beurre", "TTL", 24, 0 },
    { "right over what it weighs", "Gel de concombre\nPour 760 g\n250 g de beurre", "TTL", 0, 760 },
    { "no title", "salt\n250 g butter\nServes 8", "?LT", 8, 0 },
    { "more briefly", "pour 6\n250 g de beurre", "TL", 6, 0 },
    { "a yield that is not exact", "Gel (makes approx. 450 g)\n250 g butter", "TL", 0, 450 },
    { "covers behind a dash", "Bisque – 8 couverts\n250 g de beurre", "TL", 8, 0 },
    { "pieces of what it is pasted into", "Crab tartlet – 24 pieces\n250 g butter", "TL", 24, 0 },
    { "pieces of anything else", "Eggs – 24 pieces\n250 g butter", "LL", 0, 0 },
    { "the yield over the lines again", "Gel pour 6\nIngrédients (6 personnes) :\n250 g de beurre", "T.L", 6, 0 },
    { "the yield over the lines alone", "Ingrédients (6 personnes) :\n250 g de beurre", "TL", 6, 0 },
    { "lines in one row", "Bisque pour 6\nflour 200 g, 1,5 dl milk; 4 eggs.\nMelt the butter and skim it well.",
      "TLLLN", 6, 0 },
    { "a line and its note", "250 g butter, 2 cm dice, soft\n5 g agar", "LL", 0, 0 },
    { "a sentence with amounts", "5 g agar\nAdd 2 l water, 20 g salt, 3 bay leaves and bring to the boil.", "LN", 0,
      0 },
    { "at the end", "250 g butter\nMakes 24", "LT", 24, 0 },
    { "one yield alone", "Serves 8\n250 g butter\nMakes 24", "TLN", 8, 0 },
    { "portions and an amount in French", "Velouté\nPour 8 personnes, soit environ 2 l\n250 g butter", "TTL", 8, 2 },
    { "portions and an amount", "Broth\nServes 6, makes 1.8 litres\n250 g butter", "TTL", 6, 1.8 },
    { "in two rows", "Broth (serves 6)\nYield: 1.8 litres\n250 g butter", "TTL", 6, 1.8 },
    { "a loss in a sentence", "2 kg moules\nPrévoir 10 % de perte sur les moules.\nServir chaud.", "L??", 0, 0 },
    { "below a method", "2 kg mussels\nMethod\nA third is lost in the shell.\nTrim, reduce by half.", "L.?N", 0, 0 },
    { "and more", "Broth\nMakes 1.8 litres, freezes well\n250 g butter", "TTL", 0, 1.8 },
    { "a yield and a line", "Broth\nServes 6, 250 g butter\n5 g agar", "??L", 0, 0 },
    { "a time is no yield", "250 g butter\nfor 24 hours", "L?", 0, 0 },
    { "a heading", "For the gel:\n5 g agar\nPour le bouillon\n1 kg os", "HLHL", 0, 0 },
    { "with marks", "## Gel\n5 g agar", "HL", 0, 0 },
    { "the word for what goes in", "Ingredients:\n250 g butter", ".L", 0, 0 },
    { "a method", "250 g butter\nMethod\nMelt\nStrain 20 g\n1. Cool", "L.NNN", 0, 0 },
    { "what goes in below a method", "250 g butter\nMethod\nMelt\n150 gr. sugar\n1 bunch parsley\n10 minutes at 180",
      "L.NL?N", 0, 0 },
    { "in French", "250 g de beurre\nPréparation :\nFondre le beurre", "L.N", 0, 0 },
    { "on one row", "250 g butter\nMethod: melt it\nand strain", "LNN", 0, 0 },
    { "a yield behind the title", "Tomates farcies pour 10\n250 g butter", "TL", 10, 0 },
    { "in brackets", "Stuffed tomatoes (for 10)\n250 g butter", "TL", 10, 0 },
    { "after a comma", "Stuffed tomatoes, serves 10\n250 g butter", "TL", 10, 0 },
    { "with a colon", "Stuffed tomatoes for 10:\n250 g butter", "TL", 10, 0 },
    { "sentences without a heading", "250 g butter\nMelt the butter and skim it well.\n"
      "Strain through muslin into a clean jar.", "LNN", 0, 0 },
    { "numbered steps", "250 g butter\n1. Melt the butter with the shells\n2. Strain and cool it down",
      "LNN", 0, 0 },
    { "a sentence that goes on", "250 g butter\nMelt the butter and skim it, then strain it.\nuntil clear",
      "LNN", 0, 0 },
    { "a sentence with an amount at its end", "250 g butter\nMelt all but the last 50 g.", "LN", 0, 0 },
    { "a second part behind a method", "250 g butter\nMethod\nMelt\nFor the gel:\n5 g agar", "L.NHL", 0, 0 },
    { "rules and empty rows", "250 g butter\n-----\n\n* * *\n5 g agar", "L..L", 0, 0 },
    { "no amount", "250 g butter\nsalt", "L?", 0, 0 },
    { "names alone", "butter\nsalt", "??", 0, 0 },
    { "a line with a full stop", "250 g butter, cold and cut into small dice.\n5 g agar", "LL", 0, 0 },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroTitle title;
      g_autofree char *kinds = dup_kinds (fixture, cases[i].text, &title);

      if (strcmp (kinds, cases[i].kinds) != 0 || title.makes != M (cases[i].makes)
          || title.gives != M (cases[i].gives))
        fail_msg ("%s: \"%s\" is %s, makes %" G_GINT64_FORMAT ", gives %" G_GINT64_FORMAT,
                  cases[i].says, cases[i].text, kinds, title.makes, title.gives);
    }
}

/* --- Whole recipes -------------------------------------------------------------------------------- */

static guint
place (Fixture     *fixture,
       guint32      recipe,
       const char  *text,
       char       **left)
{
  GError *error = NULL;
  guint n = 0;

  cro_test_must (cro_quick_place (fixture->book, "lines", recipe, CRO_NO_SLOT, text, cro_words_entry (),
                                  "Market", CRO_TEST_DAY, CRO_QUICK_MAKE_PRICED | CRO_QUICK_MAKE_ALL, left,
                                  &n, NULL, &error),
                 error);
  return n;
}

/* A column of the row of a recipe, or the notes of its lines with | between. */
static char *
dup_note (Fixture    *fixture,
          guint32     recipe)
{
  static const char *const columns[] = { "note", NULL };
  CroModel *model = cro_book_get_model (fixture->book);
  const CroRecipe *of = cro_model_recipe (model, recipe);
  g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (fixture->book),
                                                 of->is_plate ? "plate" : "preparation", of->id, columns,
                                                 NULL);

  assert_true (cro_rows_next (rows, NULL));
  return g_strdup (cro_rows_get_text (rows, 0));
}

static char *
dup_line_notes (Fixture *fixture,
                guint32  recipe)
{
  static const char *const columns[] = { "note", NULL };
  g_autoptr (GArray) lines = cro_edit_list_lines (cro_book_get_figures (fixture->book), recipe);
  GString *notes = g_string_new (NULL);

  for (guint i = 0; i < lines->len; i++)
    {
      CroModel *model = cro_book_get_model (fixture->book);
      g_autoptr (CroRows) rows = cro_store_read_one (cro_book_get_store (fixture->book), "recipe_line",
                                                     model->line_ids[g_array_index (lines, guint32, i)],
                                                     columns, NULL);

      assert_true (cro_rows_next (rows, NULL));
      g_string_append_printf (notes, "%s%s", i > 0 ? "|" : "",
                              cro_rows_is_null (rows, 0) ? "" : cro_rows_get_text (rows, 0));
    }
  return g_string_free (notes, FALSE);
}

static void
test_plate (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *left = NULL, *note = NULL, *notes = NULL, *after = NULL;
  g_autofree char *before = cro_test_dump (fixture->folder.path);
  GError *error = NULL;

  assert_int_equal (place (fixture, fixture->plate,
                           "Crab tartlet – makes 24\n"
                           "\n"
                           "Ingredients\n"
                           "[ ] white crab .......... 240 g\n"
                           "salt\n"
                           "For the gel:\n"
                           "\t- jus de 2 citrons\n"
                           "\t- 5 g agar, sifted\n"
                           "To serve:\n"
                           "sea purslane\n"
                           "\n"
                           "Method\n"
                           "1. Set the gel.\n"
                           "2. Fill at the last moment\n",
                           &left),
                    3);
  assert_string_equal (left, "salt\nsea purslane");
  assert_int_equal (cro_model_recipe (cro_book_get_model (fixture->book), fixture->plate)->makes, M (24));
  note = dup_note (fixture, fixture->plate);
  assert_string_equal (note, "To serve: 1. Set the gel. 2. Fill at the last moment");
  notes = dup_line_notes (fixture, fixture->plate);
  assert_string_equal (notes, "|jus; For the gel|sifted; For the gel");

  cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
  after = cro_test_dump (fixture->folder.path);
  cro_test_same ("a pasted recipe is one act", before, after);
}

static void
test_preparation (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  guint32 output = g_array_index (model->output_order, guint32,
                                  cro_model_recipe (model, fixture->preparation)->first_output);
  g_autofree char *left = NULL, *note = NULL;

  assert_int_equal (place (fixture, fixture->preparation,
                           "Crab butter (makes 450 g)\n600 g shells\n500 g butter 9.20/kg\n"
                           "Roast the shells, then melt them into the butter.",
                           &left),
                    2);
  assert_null (left);
  note = dup_note (fixture, fixture->preparation);
  assert_string_equal (note, "Roast the shells, then melt them into the butter.");
  /* The butter alone has a price: 0.5 × 9.20 over 450 g. */
  assert_float_equal (cro_figures_unit_cost (cro_book_get_figures (fixture->book), output), 4.6 / 450, 1e-12);
}

/* What the title says is not taken where there are lines already, and is not lost. */
static void
test_into_lines (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *left = NULL, *note = NULL, *other = NULL;

  place (fixture, fixture->plate, "10 g agar", &left);
  place (fixture, fixture->plate, "Lemon gel, serves 8\n5 g agar\n1 kg juice", &left);
  assert_null (left);
  assert_int_equal (cro_model_recipe (cro_book_get_model (fixture->book), fixture->plate)->makes, M (1));
  note = dup_note (fixture, fixture->plate);
  assert_string_equal (note, "Lemon gel, serves 8");
  /* Of two yields the preparation takes its own, and both stand in its note. */
  place (fixture, fixture->preparation, "Crab butter\nServes 6, makes 450 g\n5 g agar\n1 kg shells", &left);
  assert_null (left);
  other = dup_note (fixture, fixture->preparation);
  assert_string_equal (other, "Serves 6, makes 450 g");
  /* What the plate is called and makes already says nothing new. */
  place (fixture, fixture->plate, "Crab tartlet, makes 1\n5 g agar", &left);
  g_free (note);
  note = dup_note (fixture, fixture->plate);
  assert_string_equal (note, "Lemon gel, serves 8");
}

/* A recipe that is pasted does not move what an ingredient costs; one that has no price yet takes it. */
static void
test_prices_in_use_stay (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  g_autofree char *left = NULL;
  guint32 tomato;
  CroFigures *figures;

  place (fixture, fixture->plate, "1 kg tomatoes 2.90/kg\n10 g agar", &left);
  tomato = cro_edit_find_name (model, CRO_NAMES_ITEMS, "tomatoes").slot;
  place (fixture, fixture->plate, "1 kg tomatoes 1.20/kg\n10 g agar 30/kg", &left);
  figures = cro_book_get_figures (fixture->book);
  assert_float_equal (cro_figures_unit_cost (figures, tomato), 0.0029, 1e-12);
  assert_float_equal (cro_figures_unit_cost (figures, cro_edit_find_name (model, CRO_NAMES_ITEMS, "agar").slot), 0.03,
                      1e-12);
  /* One line alone is typed, and says so. */
  place (fixture, fixture->plate, "1 kg tomatoes 1.20/kg", &left);
  assert_float_equal (cro_figures_unit_cost (cro_book_get_figures (fixture->book), tomato), 0.0012, 1e-12);
}

#define TEST(name) cmocka_unit_test_setup_teardown (name, setup, teardown)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    TEST (test_rows), TEST (test_asked), TEST (test_kinds), TEST (test_plate), TEST (test_preparation),
    TEST (test_into_lines), TEST (test_prices_in_use_stay),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
