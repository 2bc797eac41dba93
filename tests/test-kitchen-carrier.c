/* Who carries an allergen into a plate, and which plates a guest can be told what about: by a second
 * walk over the rows of random books, and in words on a small one. Nothing here is a statement about food
 * that is served. */
#include "cro-allergen-words.h"
#include "cro-edit.h"
#include "support/kitchen-random.h"
#include "support/n-books.h"

#define N_SEEDS CRO_TEST_N_BOOKS (40)
#define MOST 64       /* items of a random book, and preparations */
#define N_INGREDIENTS 12
#define N_PREPARATIONS 10

/* --- A second walk ---------------------------------------------------------------------------------- */

typedef struct
{
  int     n_lines;
  struct { int preparation, plate, item; } lines[512];
  int     made_by[MOST];          /* by item; 0: bought */
  int     contains[MOST];         /* by item; -1: nobody has said */
  int     may[MOST];
} Rows;

/* What stands below: ingredients and empty preparations, by id. */
typedef struct
{
  guint64 ingredients;
  guint64 empty;
} Below;

static void
walk (const Rows *rows,
      int         preparation,
      int         plate,
      Below      *below)
{
  gboolean is_empty = TRUE;

  for (int i = 0; i < rows->n_lines; i++)
    {
      int item = rows->lines[i].item;

      if (rows->lines[i].preparation != preparation || rows->lines[i].plate != plate)
        continue;
      is_empty = FALSE;
      if (rows->made_by[item] == 0)
        below->ingredients |= G_GUINT64_CONSTANT (1) << item;
      else
        walk (rows, rows->made_by[item], 0, below);
    }
  if (is_empty)
    below->empty |= G_GUINT64_CONSTANT (1) << (preparation != 0 ? preparation : 32 + plate);
}

static int
number (sqlite3_stmt *stmt,
        int           column)
{
  return sqlite3_column_type (stmt, column) == SQLITE_NULL ? -1 : sqlite3_column_int (stmt, column);
}

static void
read_rows (const char *path,
           Rows       *rows)
{
  sqlite3 *db = cro_test_raw (path);
  sqlite3_stmt *stmt = NULL;

  memset (rows, 0, sizeof *rows);
  assert_int_equal (sqlite3_prepare_v2 (db, "SELECT preparation, plate, item FROM recipe_line", -1, &stmt,
                                        NULL), SQLITE_OK);
  for (; sqlite3_step (stmt) == SQLITE_ROW; rows->n_lines++)
    {
      rows->lines[rows->n_lines].preparation = MAX (number (stmt, 0), 0);
      rows->lines[rows->n_lines].plate = MAX (number (stmt, 1), 0);
      rows->lines[rows->n_lines].item = number (stmt, 2);
    }
  sqlite3_finalize (stmt);
  assert_int_equal (sqlite3_prepare_v2 (db, "SELECT id, preparation FROM output", -1, &stmt, NULL),
                    SQLITE_OK);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    rows->made_by[number (stmt, 0)] = number (stmt, 1);
  sqlite3_finalize (stmt);
  assert_int_equal (sqlite3_prepare_v2 (db, "SELECT id, allergens, may_contain FROM ingredient", -1, &stmt,
                                        NULL), SQLITE_OK);
  while (sqlite3_step (stmt) == SQLITE_ROW)
    {
      rows->contains[number (stmt, 0)] = number (stmt, 1);
      rows->may[number (stmt, 0)] = MAX (number (stmt, 2), 0);
    }
  sqlite3_finalize (stmt);
  sqlite3_close (db);
}

/* --- Random books ----------------------------------------------------------------------------------- */

/* One in five says nothing, one in three may contain something; some preparations are empty. */
static char *
random_rows (GRand *rand)
{
  g_autofree char *rows = cro_test_random_rows (rand);
  GString *sql = g_string_new (rows);

  for (int item = 1; item <= N_INGREDIENTS; item++)
    {
      int said = g_rand_int_range (rand, 0, 5), warned = g_rand_int_range (rand, 0, 3);

      g_string_append_printf (sql, "UPDATE ingredient SET allergens = ");
      if (said == 0)
        g_string_append (sql, "NULL");
      else
        g_string_append_printf (sql, "%d", said == 1 ? 0 : 1 << g_rand_int_range (rand, 0, 14));
      if (warned == 0)
        g_string_append_printf (sql, ", may_contain = %d", 1 << g_rand_int_range (rand, 0, 14));
      g_string_append_printf (sql, " WHERE id = %d;", item);
    }
  if (g_rand_int_range (rand, 0, 3) == 0)
    g_string_append_printf (sql, "DELETE FROM recipe_line WHERE preparation = %d;",
                            g_rand_int_range (rand, 1, N_PREPARATIONS + 1));
  if (g_rand_int_range (rand, 0, 6) == 0)
    g_string_append (sql, "DELETE FROM recipe_line WHERE plate = 1;");
  return g_string_free (sql, FALSE);
}

static guint64
bits_of (const Rows  *rows,
         const Below *below)
{
  guint64 bits = below->empty != 0 ? CRO_ALLERGENS_NOT_KNOWN : 0;

  for (int item = 1; item <= N_INGREDIENTS; item++)
    if (below->ingredients >> item & 1)
      bits |= (rows->contains[item] < 0 ? CRO_ALLERGENS_NOT_KNOWN : (guint64) rows->contains[item])
              | (guint64) rows->may[item] << CRO_REACH_MAY_CONTAIN_SHIFT;
  return bits;
}

static guint64
own_bits (const Rows *rows,
          int         item)
{
  Below below = { .ingredients = G_GUINT64_CONSTANT (1) << item };

  return bits_of (rows, &below);
}

/* Names that a walk found, as a set: "ingredient 3", "preparation 2" that is empty. */
static int
id_of (const char *name,
       const char *kind)
{
  gsize n = strlen (kind);

  return g_str_has_prefix (name, kind) ? atoi (name + n) : 0;
}

static void
note (const char *name,
      const Rows *rows,
      Below      *found)
{
  int ingredient = id_of (name, "ingredient "), preparation = id_of (name, "preparation ");
  int plate = id_of (name, "plate "), output = id_of (name, "output ");

  if (ingredient > 0)
    found->ingredients |= G_GUINT64_CONSTANT (1) << ingredient;
  else if (preparation > 0)
    found->empty |= G_GUINT64_CONSTANT (1) << preparation;
  else if (plate > 0)
    found->empty |= G_GUINT64_CONSTANT (1) << (32 + plate);
  else if (output > 0)
    found->empty |= G_GUINT64_CONSTANT (1) << rows->made_by[output];
  else
    fail_msg ("%s is neither", name);
}

static gboolean
takes (const Rows *rows,
       int         preparation,
       int         plate,
       const char *name)
{
  int item = MAX (id_of (name, "ingredient "), id_of (name, "output "));

  for (int i = 0; i < rows->n_lines; i++)
    if (rows->lines[i].preparation == preparation && rows->lines[i].plate == plate
        && rows->lines[i].item == item)
      return TRUE;
  return FALSE;
}

/* Each component is a line of the plate, and its batch takes the carrier. */
static void
check_places (const Rows       *rows,
              int               plate,
              const CroCarrier *carrier)
{
  if (carrier->is_direct && id_of (carrier->name, "plate ") == 0
      && !takes (rows, 0, plate, carrier->name))
    fail_msg ("plate %d does not take %s", plate, carrier->name);
  for (guint i = 0; i < carrier->in->len; i++)
    {
      const char *component = carrier->in->pdata[i];

      if (!takes (rows, 0, plate, component))
        fail_msg ("plate %d does not take %s", plate, component);
      if (!takes (rows, rows->made_by[id_of (component, "output ")], 0, carrier->name))
        fail_msg ("%s does not take %s", component, carrier->name);
    }
}

static void
check_carriers (CroFigures  *figures,
                CroRef       thing,
                const Rows  *rows,
                int          plate,
                const Below *below,
                guint64      bits)
{
  g_autoptr (GPtrArray) carriers = cro_carriers_new (figures, thing, bits);
  Below found = { 0 }, wanted = { 0 };

  for (int item = 1; item <= N_INGREDIENTS; item++)
    if (below->ingredients >> item & 1 && own_bits (rows, item) & bits)
      wanted.ingredients |= G_GUINT64_CONSTANT (1) << item;
  if (bits & CRO_ALLERGENS_NOT_KNOWN)
    wanted.empty = below->empty;
  for (guint i = 0; i < carriers->len; i++)
    {
      const CroCarrier *carrier = carriers->pdata[i];

      check_places (rows, plate, carrier);
      if (carrier->bought->len == 0)
        note (carrier->name, rows, &found);
      for (guint k = 0; k < carrier->bought->len; k++)
        note (carrier->bought->pdata[k], rows, &found);
    }
  assert_int_equal (found.ingredients, wanted.ingredients);
  assert_int_equal (found.empty, wanted.empty);
}

static void
check_book (CroBook    *book,
            const Rows *rows)
{
  CroFigures *figures = cro_book_get_figures (book);

  for (int plate = 1; plate <= CRO_TEST_RANDOM_PLATES; plate++)
    {
      CroRef thing = CRO_REF (CRO_REF_RECIPE, cro_slots_get (&figures->model->plate_slots, plate));
      Below below = { 0 };
      guint64 bits;

      walk (rows, 0, plate, &below);
      bits = bits_of (rows, &below);
      assert_int_equal (cro_carried_bits (figures, thing), bits);
      for (guint64 left = bits; left != 0; left &= left - 1)
        check_carriers (figures, thing, rows, plate, &below, left & -left);
      check_carriers (figures, thing, rows, plate, &below, bits);
    }
}

static void
test_random_books (void **state)
{
  for (guint32 seed = 0; seed < N_SEEDS; seed++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
      g_autofree char *sql = random_rows (rand);
      CroTestFolder folder;
      CroBook *book = cro_test_book_with (&folder, sql);
      Rows rows;

      read_rows (folder.path, &rows);
      check_book (book, &rows);
      g_object_unref (book);
      cro_test_folder_clear (&folder);
    }
}

/* --- In words ----------------------------------------------------------------------------------------- */

/* An invented croustade: milk by butter in a butter of shells, and by cream; an oyster; dulse of which nobody
 * has said; oatcakes whose label warns. */
static int
setup (void **state)
{
  static const CroTestTable tables[] = {
    { "book", "key,value\nname,Saltmarsh Rooms\ncurrency,EUR\n" },
    { "ingredients", "name,unit,allergens,may_contain\nButter,g,milk,\nCrab,g,crustaceans,\n"
                     "Cream,g,milk,\nOyster,g,molluscs,\nDulse,g,,\nOatcake,g,gluten,nuts\n"
                     "Beet,g,none,\n" },
    { "preparations", "name\nCrab butter\nWhite crab\nBrown cream\nEmpty\n" },
    { "outputs", "item,preparation,role,amount,unit\nCrab butter,Crab butter,main,100,g\n"
                 "White crab,White crab,main,100,g\nBrown cream,Brown cream,main,100,g\n"
                 "Foam,Empty,main,100,g\n" },
    { "plates", "name,makes\nCroustade,1\nOyster,1\nBeetroot,1\nRusk,1\nBare,1\n" },
    { "menus", "name,price\nTide,90\nVoid,\n" },
    { "menu_plates", "menu,plate,choice,position\nTide,Croustade,,1\nTide,Oyster,,2\nTide,Beetroot,,3\n" },
    { "lines", "into,parent,position,item,amount,unit\n"
               "preparation,Crab butter,1,Butter,100,g\npreparation,Crab butter,2,Crab,10,g\n"
               "preparation,White crab,1,Crab,90,g\npreparation,White crab,2,Crab butter,10,g\n"
               "preparation,Brown cream,1,Crab butter,10,g\npreparation,Brown cream,2,Cream,40,g\n"
               "plate,Croustade,1,White crab,10,g\nplate,Croustade,2,Brown cream,5,g\n"
               "plate,Croustade,3,Cream,1,g\nplate,Oyster,1,Oyster,40,g\nplate,Beetroot,1,Beet,60,g\n"
               "plate,Beetroot,2,Dulse,1,g\nplate,Rusk,1,Oatcake,20,g\nplate,Rusk,2,Foam,5,g\n" },
    { NULL, NULL },
  };

  return cro_test_book_of_tables (state, tables);
}

static const struct
{
  const char       *says;
  CroAllergenListId list;
  const char       *thing;
  const char       *allergen;
  const char       *sentence;
} sentences[] = {
  { "who carries it in, down to what is bought", CRO_ALLERGEN_LIST_EU, "Croustade", "milk",
    "Croustade, milk: contained, by Crab butter (Butter) in White crab and Brown cream; "
    "Cream by itself and in Brown cream." },
  { "a line of the plate", CRO_ALLERGEN_LIST_EU, "Oyster", "molluscs",
    "Oyster, molluscs: contained, by Oyster." },
  { "what was not entered is no absence", CRO_ALLERGEN_LIST_EU, "Oyster", "milk",
    "Oyster, milk: not among those entered. It is no “free from” claim." },
  { "of whom nobody has said", CRO_ALLERGEN_LIST_EU, "Beetroot", "milk",
    "Beetroot, milk: not known. Not stated for Dulse." },
  { "a label and an empty preparation", CRO_ALLERGEN_LIST_EU, "Rusk", "nuts",
    "Rusk, nuts: may be contained, by the label of Oatcake. Rusk, nuts: not known. Not stated for Foam." },
  { "an empty plate", CRO_ALLERGEN_LIST_EU, "Bare", "milk",
    "Bare, milk: not known. Not stated for Bare." },
  { "and an empty menu", CRO_ALLERGEN_LIST_EU, "Void", "milk",
    "Void, milk: not known. Not stated for Void." },
  { "a menu names its plates", CRO_ALLERGEN_LIST_EU, "Tide", "molluscs",
    "Tide, molluscs: contained, by Oyster in Oyster." },
  { "pine nuts are in no group", CRO_ALLERGEN_LIST_US, "Oyster", "tree nuts",
    "Oyster, tree nuts: not known. What was entered does not tell." },
  { "wheat is not gluten", CRO_ALLERGEN_LIST_US, "Rusk", "wheat",
    "Rusk, wheat: not known. Entered is gluten, for Oatcake. Not stated for Foam." },
};

static guint
entry_of (CroAllergenListId list,
          const char       *allergen)
{
  guint32 found = cro_words_find_allergens (list, allergen);

  assert_int_equal (found & (found - 1), 0);
  return (guint) __builtin_ctz (found);
}

static const CroAllergenRow *
row_of (const CroAllergenSheet *sheet,
        const char             *name)
{
  for (guint i = 0; i < sheet->rows->len; i++)
    {
      const CroAllergenRow *row = &g_array_index (sheet->rows, CroAllergenRow, i);

      if (strcmp (cro_ref_name (sheet->figures->model, row->thing), name) == 0)
        return row;
    }
  fail_msg ("%s has no row", name);
  return NULL;
}

static void
test_sentences (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroAllergenSheet) sheet = cro_allergen_sheet_new (cro_book_get_figures (kitchen->book),
                                                              CRO_NO_SLOT);

  for (gsize i = 0; i < G_N_ELEMENTS (sentences); i++)
    {
      g_autofree char *sentence = NULL;

      cro_allergen_sheet_ask (sheet, sentences[i].list, 0);
      sentence = cro_words_carried (sheet, row_of (sheet, sentences[i].thing),
                                    entry_of (sentences[i].list, sentences[i].allergen));
      cro_test_same (sentences[i].says, sentence, sentences[i].sentence);
    }
}

/* "contains: Croustade (Cream) …; not known: …" */
static char *
dup_groups (CroAllergenSheet *sheet)
{
  static const char *const groups[] = { "contain", "may", "not known", "not entered" };
  GString *text = g_string_new (NULL);
  int group = -1;

  for (guint i = 0; i < sheet->rows->len; i++)
    {
      const CroAllergenRow *row = &g_array_index (sheet->rows, CroAllergenRow, i);
      g_autofree char *why = cro_words_avoid_why (sheet, row);

      if ((int) row->group != group)
        g_string_append_printf (text, "%s%s:", text->len > 0 ? "; " : "", groups[row->group]);
      group = (int) row->group;
      g_string_append_printf (text, " %s[%s]", cro_ref_name (sheet->figures->model, row->thing), why);
    }
  return g_string_free (text, FALSE);
}

static const struct
{
  const char       *says;
  CroAllergenListId list;
  const char       *avoids;
  const char       *menu;
  const char       *groups;
} asked[] = {
  { "a guest's molluscs", CRO_ALLERGEN_LIST_EU, "molluscs", NULL,
    "contain: Oyster[Oyster] Tide[Oyster]; not known: Bare[not stated: Bare] Beetroot[not stated: Dulse] "
    "Rusk[not stated: Foam] Void[not stated: Void]; not entered: Croustade[]" },
  { "on one menu, in its order", CRO_ALLERGEN_LIST_EU, "molluscs", "Tide",
    "contain: Oyster[Oyster]; not known: Beetroot[not stated: Dulse]; not entered: Croustade[]" },
  { "the worst of several", CRO_ALLERGEN_LIST_EU, "molluscs crustaceans", "Tide",
    "contain: Croustade[Crab] Oyster[Oyster]; not known: Beetroot[not stated: Dulse]" },
  { "a label's warning is a group of its own", CRO_ALLERGEN_LIST_EU, "nuts", NULL,
    "may: Rusk[label of Oatcake; not stated: Foam]; not known: Bare[not stated: Bare] "
    "Beetroot[not stated: Dulse] Tide[not stated: Dulse] Void[not stated: Void]; "
    "not entered: Croustade[] Oyster[]" },
  { "gluten does not tell of wheat", CRO_ALLERGEN_LIST_US, "wheat", NULL,
    "not known: Bare[not stated: Bare] Beetroot[not stated: Dulse] "
    "Rusk[not told apart: Oatcake; not stated: Foam] Tide[not stated: Dulse] Void[not stated: Void]; "
    "not entered: Croustade[] Oyster[]" },
};

static guint32
entries_of (CroAllergenListId  list,
            const char        *names)
{
  g_auto (GStrv) words = g_strsplit (names, " ", -1);
  guint32 entries = 0;

  for (char **word = words; *word != NULL; word++)
    entries |= 1u << entry_of (list, *word);
  return entries;
}

static void
test_avoided (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroFigures *figures = cro_book_get_figures (kitchen->book);

  for (gsize i = 0; i < G_N_ELEMENTS (asked); i++)
    {
      guint32 menu = asked[i].menu != NULL
                         ? cro_edit_find_name (figures->model, CRO_NAMES_THINGS, asked[i].menu).slot
                         : CRO_NO_SLOT;
      g_autoptr (CroAllergenSheet) sheet = cro_allergen_sheet_new (figures, menu);
      g_autofree char *groups = NULL;

      cro_allergen_sheet_ask (sheet, asked[i].list, entries_of (asked[i].list, asked[i].avoids));
      groups = dup_groups (sheet);
      cro_test_same (asked[i].says, groups, asked[i].groups);
    }
}

/* A beginning that fits more than one is no answer; a short name is. */
static void
test_finding (void **state)
{
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, "mol"), 1 << 13);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, "M"), 1 << 6 | 1 << 9 | 1 << 13);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, "Molluscs"), 1 << 13);
  /* Annex II counts wheat among the cereals with gluten; on the other list gluten is no name of wheat. */
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, "wheat"), 1 << 0);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, "w"), 0);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_US, "wheat"), 1 << 5);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_US, "gluten"), 0);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, "soya"), 1 << 5);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_US, "Soya"), 1 << 7);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, "haz"), 1 << 7);
  /* Who says shellfish is asked which: both groups are called so. */
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, "shellfish"), 1 << 1 | 1 << 13);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_EU, " "), 0);
  assert_int_equal (cro_words_find_allergens (CRO_ALLERGEN_LIST_US, "mol"), 0);
}

/* What goes on paper has its cautions, and its rows of commas no column more than its heads. */
static void
test_table (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroAllergenSheet) sheet = cro_allergen_sheet_new (cro_book_get_figures (kitchen->book),
                                                              CRO_NO_SLOT);
  g_autoptr (CroTextTable) table = NULL;
  g_autofree char *csv = NULL, *notes = NULL;

  cro_allergen_sheet_ask (sheet, CRO_ALLERGEN_LIST_EU, 1u << 13);
  table = cro_words_allergen_table (sheet, TRUE);
  g_ptr_array_add (table->notes, NULL);
  notes = g_strjoinv (" ", (char **) table->notes->pdata);
  assert_non_null (strstr (notes, "Not stated for 1 of 7 ingredients."));
  assert_non_null (strstr (notes, "1169/2011"));
  assert_non_null (strstr (notes, "cross-contact is not known"));
  assert_non_null (strstr (notes, "a responsible person"));
  csv = cro_text_table_to_csv (table, "group");
  assert_true (g_str_has_prefix (csv, "group,Plate,gluten,crustaceans,"));
  assert_non_null (strstr (csv, "\r\nContain: molluscs,Oyster,not among those entered,"));
  assert_non_null (strstr (csv, "contains,Oyster\r\n"));
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_random_books),
    cmocka_unit_test_setup_teardown (test_sentences, setup, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_avoided, setup, cro_test_kitchen_tear_down),
    cmocka_unit_test (test_finding),
    cmocka_unit_test_setup_teardown (test_table, setup, cro_test_kitchen_tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
