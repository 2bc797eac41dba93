/* Which names of a book are offered for a line that was not found: own pairs of names, in English and French. */
#include "cro-doubt.h"
#include "cro-edit.h"
#include "cro-price-list.h"
#include "support/kitchen-book.h"

#include <string.h>

/* Names as suppliers and kitchens write them, and what would be nonsense beside them. */
static const struct
{
  const char *line;
  const char *like; /* the first that is offered; NULL: nothing is */
} pairs[] = {
  /* One word in common, which only tells kinds apart. */
  { "\"Turnip, white\"", NULL },
  { "White turnip", NULL },
  { "Navets blancs", NULL },
  { "Thon rouge", NULL },
  { "Dried apricots", NULL },
  { "Petits oignons", NULL },
  { "Smoked haddock", NULL },
  /* One that many names have. */
  { "Hake fillet", NULL },
  { "Walnut oil", NULL },
  { "Huile de noix", NULL },
  /* The word before the comma names the line. */
  { "\"Vinegar, white wine\"", NULL },
  { "\"Sauce, oyster\"", NULL },
  { "\"Wine, white, 5 l\"", "White wine" },
  { "\"Beans, butter\"", NULL },
  { "\"Turbot, wild, large\"", "Turbot, farmed" },
  /* That of the book too: it has no farmed anything else. */
  { "Salmon farmed", NULL },
  /* Longer, shorter, turned round, of another number. */
  { "Mussels rope grown bouchot", "Mussel" },
  { "Olive oil extra virgin 5 litres", "Extra virgin olive oil" },
  { "Oil rapeseed", "Rapeseed oil" },
  { "Huile de colza 1ère pression", "Huile de colza" },
  { "Crème fraîche épaisse 40 %", "Crème fraîche" },
  { "creme crue", "Crème fraîche" },
  { "Échalotes grises", "Échalote" },
  { "Thé noir fumé", NULL },
  /* All of it is one word of a longer name, in whatever number, or begins one. */
  { "Rocks", "Rock samphire" },
  { "samphires", "Rock samphire" },
  { "Clams", "Palourde clam" },
  { "palourdes", "Palourde clam" },
  { "Butternut", "Butternutsquash purée" },
  { "Fillets", "Bass fillet" },
  /* Not a word that another but begins with by chance of one letter, nor what has more words than that. */
  { "Poivrons jaunes", "Poivron rouge" },
  { "Pour", NULL },
  { "White cabbage", NULL },
  { "Clam chowder", NULL },
  { "Hake butternut", NULL },
  { "Pear", NULL },
};

static int
set_up (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\ncurrency,EUR\n" },
    { "ingredients", "name,unit\nWhite wine,ml\nRed pepper,g\nSmoked eel,g\nDried yeast,g\nPetits pois,g\n"
                     "Cod fillet,g\nBass fillet,g\nPlaice fillet,g\nExtra virgin olive oil,ml\nRapeseed oil,ml\n"
                     "Sunflower oil,ml\nHuile de colza,ml\nHuile de tournesol,ml\nMussel,g\nCrème fraîche,g\n"
                     "Échalote,g\n\"Turbot, farmed\",g\nVin blanc,ml\nPoivron rouge,g\nOyster,each\nButter,g\n"
                     "Thé vert,g\nRock samphire,g\nPalourde clam,g\nButternutsquash purée,g\nPearl barley,g\n" },
    { "suppliers", "name\nQuay\nQuayside Fish\nMarsh Dairy and Eggs\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static const char *
first_like (const CroListRow *row)
{
  for (guint i = 0; row->reasons != NULL && i < row->reasons->len; i++)
    if (g_array_index (row->reasons, CroListReason, i).why == CRO_LIST_LIKE)
      return g_array_index (row->reasons, CroListReason, i).other;
  return NULL;
}

static void
test_pairs (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "list.csv", NULL);
  g_autoptr (GString) text = g_string_new ("Name,Pack,Price\n");
  g_autoptr (CroPriceList) list = NULL;
  g_autoptr (GError) error = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++)
    g_string_append_printf (text, "%s,1 kg,10.00\n", pairs[i].line);
  assert_true (g_file_set_contents (path, text->str, -1, &error));
  assert_true (cro_price_list_read (path, kitchen->book, "Quay", CRO_TEST_DAY, NULL, &list, &error));
  assert_int_equal (list->rows->len, G_N_ELEMENTS (pairs));
  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      const char *like = first_like (&g_array_index (list->rows, CroListRow, i));

      if (g_strcmp0 (like, pairs[i].like) != 0)
        fail_msg ("%s: %s is offered, not %s", pairs[i].line, like != NULL ? like : "nothing",
                  pairs[i].like != NULL ? pairs[i].like : "nothing");
    }
}

/* Suppliers whose names are typed beside them, and what is asked; the ingredient that is renamed bears its own. */
static void
test_new_names (void **state)
{
  static const struct { CroRefKind kind; const char *own, *name, *like; } cases[] = {
    { CRO_REF_SUPPLIER, NULL, "Quay", "Quay" },
    { CRO_REF_SUPPLIER, "Quay", "Quays", "Quayside Fish" },
    { CRO_REF_SUPPLIER, NULL, "Marsh", "Marsh Dairy and Eggs" },
    { CRO_REF_SUPPLIER, NULL, "Marsh Dairy", "Marsh Dairy and Eggs" },
    { CRO_REF_SUPPLIER, NULL, "Upland Fish", NULL },
    { CRO_REF_ITEM, "Mussel", "Clams", "Palourde clam" },
    { CRO_REF_ITEM, "Palourde clam", "Clams", NULL },
    { CRO_REF_ITEM, "Palourde clam", "Palourde clam", NULL },
    { CRO_REF_ITEM, "Mussel", "White cabbage", NULL },
  };
  CroTestKitchen *kitchen = *state;
  CroModel *model = cro_book_get_model (kitchen->book);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroNames names = cases[i].kind == CRO_REF_ITEM ? CRO_NAMES_ITEMS : CRO_NAMES_SUPPLIERS;
      CroRef ref = cases[i].own != NULL ? cro_edit_find_name (model, names, cases[i].own)
                                        : CRO_REF (cases[i].kind, CRO_NO_SLOT);
      g_autoptr (CroLikeNames) likes = cro_doubt_likes (model, ref);
      CroDoubt doubt;
      const char *like = cro_doubt_of_new_name (model, likes, ref, cases[i].name, &doubt)
                             ? cro_ref_name (model, CRO_REF (cases[i].kind, doubt.other)) : NULL;

      if (g_strcmp0 (like, cases[i].like) != 0)
        fail_msg ("%s: %s, not %s", cases[i].name, like != NULL ? like : "nothing",
                  cases[i].like != NULL ? cases[i].like : "nothing");
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_pairs, set_up, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_new_names, set_up, cro_test_kitchen_tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
