/* Lists of what a book holds: filtered, sorted, and told of no more than moved. */
#include "cro-decimal.h"
#include "cro-figure-words.h"
#include "cro-last-price.h"
#include "cro-list.h"
#include "cro-row.h"
#include "support/kitchen-book.h"
#include "support/kitchen-edits.h"

#include <math.h>

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  CroList      *list;
  GPtrArray    *shadow;   /* rows as somebody who only follows the signals has them */
  GString      *told;     /* "position-removed+added " of every signal */
} Fixture;

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);
  const char *folder;

  fixture->folder = cro_test_folder_new ();
  folder = fixture->folder.folder;
  /* Costs per gram: crab 0.02, butter 0.01, cream 0.005, dill unknown, eel 0.03 and old. */
  cro_test_write_table (folder, "book", "key,value\ncurrency,EUR\ntarget_pct,30\n");
  cro_test_write_table (folder, "ingredients",
                        "name,unit,trim_yield_pct,density_g_per_ml\nCrab,g,62,\nButter,g,,\nCrème,g,,1\n"
                        "Dill,g,,\nEel,g,,\n");
  cro_test_write_table (folder, "suppliers", "name\nQuay\n");
  cro_test_write_table (folder, "offers",
                        "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,1,kg\n"
                        "Butter,Quay,1,1,kg\nCrème,Quay,1,1,kg\nEel,Quay,1,1,kg\n");
  cro_test_write_table (folder, "prices",
                        "ingredient,supplier,from,price\nCrab,Quay,2026-02-10,20\n"
                        "Butter,Quay,2026-02-01,10\nCrème,Quay,2026-01-17,5\n"
                        "Eel,Quay,2026-01-16,30\nEel,Quay,2026-02-03,\n");
  cro_test_write_table (folder, "preparations", "name,by_products\nGel,\nSpare,\nOil,free\n");
  cro_test_write_table (folder, "outputs",
                        "item,preparation,role,amount,unit\nGel,Gel,main,100,g\n"
                        "Spare,Spare,main,10,g\nOil,Oil,main,10,g\nPomace,Oil,by-product,10,g\n");
  cro_test_write_table (folder, "plates",
                        "name,makes,course,price\nCroustade,10,snacks,5\nTartlet,1,snacks,\n"
                        "Bare,1,,\n");
  cro_test_write_table (folder, "menus", "name,price\nTide,50\n");
  cro_test_write_table (folder, "menu_plates", "menu,plate\nTide,Croustade\n");
  cro_test_write_table (folder, "lines",
                        "into,parent,position,item,amount,unit,weighed\n"
                        "preparation,Gel,1,Crème,200,g,whole\npreparation,Spare,1,Butter,10,g,whole\n"
                        "plate,Croustade,1,Crab,100,g,whole\nplate,Croustade,2,Gel,10,g,whole\n"
                        "plate,Tartlet,1,Dill,1,g,whole\nplate,Tartlet,2,Butter,10,g,whole\n"
                        "preparation,Oil,1,Dill,10,g,whole\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  fixture->told = g_string_new (NULL);
  fixture->shadow = g_ptr_array_new_with_free_func (g_object_unref);
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  g_ptr_array_unref (fixture->shadow);
  g_clear_object (&fixture->list);
  g_assert_finalize_object (fixture->book);
  g_string_free (fixture->told, TRUE);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static void
items_changed_cb (GListModel *model,
                  guint       position,
                  guint       removed,
                  guint       added,
                  Fixture    *fixture)
{
  g_string_append_printf (fixture->told, "%u-%u+%u ", position, removed, added);
  g_ptr_array_remove_range (fixture->shadow, position, removed);
  for (guint i = 0; i < added; i++)
    g_ptr_array_insert (fixture->shadow, (int) (position + i),
                        g_list_model_get_item (model, position + i));
}

static void
show (Fixture *fixture,
      CroKind  kind)
{
  g_clear_object (&fixture->list);
  g_ptr_array_set_size (fixture->shadow, 0);
  fixture->list = cro_list_new (fixture->book, kind);
  g_signal_connect (fixture->list, "items-changed", G_CALLBACK (items_changed_cb), fixture);
  items_changed_cb (G_LIST_MODEL (fixture->list), 0, 0,
                    g_list_model_get_n_items (G_LIST_MODEL (fixture->list)), fixture);
  g_string_truncate (fixture->told, 0);
}

/* Of a heading with how many stand under it: "snacks:2", folded "snacks/2". */
static char *
name_of (CroRow *row)
{
  const CroRowHeading *heading = cro_row_get_heading (row);
  g_autofree char *name = NULL;

  g_object_get (row, "name", &name, NULL);
  return heading == NULL ? g_steal_pointer (&name)
                         : g_strdup_printf ("%s%c%u", name != NULL ? name : "",
                                            heading->is_folded ? '/' : ':', heading->n);
}

static void
must_show (Fixture    *fixture,
           const char *says,
           const char *expected)
{
  g_autoptr (GString) names = g_string_new (NULL);
  GListModel *model = G_LIST_MODEL (fixture->list);

  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    {
      g_autoptr (CroRow) row = g_list_model_get_item (model, i);
      g_autofree char *name = name_of (row);

      g_string_append_printf (names, "%s%s", i > 0 ? " " : "", name);
      if (i >= fixture->shadow->len || fixture->shadow->pdata[i] != row)
        fail_msg ("%s: whoever follows the signals has the same rows", says);
    }
  if (fixture->shadow->len != g_list_model_get_n_items (model))
    fail_msg ("%s: whoever follows the signals has as many rows", says);
  if (strcmp (names->str, expected) != 0)
    fail_msg ("%s: \"%s\" and not \"%s\"", says, names->str, expected);
}

static void
must_tell (Fixture    *fixture,
           const char *says,
           const char *expected)
{
  if (strcmp (fixture->told->str, expected) != 0)
    fail_msg ("%s: \"%s\" and not \"%s\"", says, fixture->told->str, expected);
  g_string_truncate (fixture->told, 0);
}

/* --- What is shown ------------------------------------------------------------------------------ */

static void
test_shown (void **state)
{
  static const struct
  {
    const char   *says;
    CroKind       kind;
    const char   *search;
    CroListFilter filter;
    const char   *names;
  } cases[] = {
    { "by name, accents apart", CRO_KIND_INGREDIENT, NULL, CRO_LIST_ALL, "Butter Crab Crème Dill Eel" },
    { "without a price", CRO_KIND_INGREDIENT, NULL, CRO_LIST_INCOMPLETE, "Dill" },
    { "older than 30 days: 31, not 30", CRO_KIND_INGREDIENT, NULL, CRO_LIST_OLD_PRICE, "Eel" },
    { "in no line", CRO_KIND_INGREDIENT, NULL, CRO_LIST_UNUSED, "Eel" },
    { "what is typed", CRO_KIND_INGREDIENT, "creme", CRO_LIST_ALL, "Crème" },
    { "a name that begins so before one that holds it", CRO_KIND_INGREDIENT, "e", CRO_LIST_ALL, "Eel Butter Crème" },
    { "text without a word is none", CRO_KIND_INGREDIENT, "  ", CRO_LIST_ALL, "Butter Crab Crème Dill Eel" },
    { "preparations of which nothing is taken", CRO_KIND_PREPARATION, NULL, CRO_LIST_UNUSED, "Oil Spare" },
    { "outputs", CRO_KIND_OUTPUT, NULL, CRO_LIST_ALL, "Gel Oil Pomace Spare" },
    { "plates with something missing below them", CRO_KIND_PLATE, NULL, CRO_LIST_INCOMPLETE, "Bare Tartlet" },
    { "plates that no menu carries", CRO_KIND_PLATE, NULL, CRO_LIST_UNUSED, "Bare Tartlet" },
    { "menus", CRO_KIND_MENU, NULL, CRO_LIST_ALL, "Tide" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      show (*state, cases[i].kind);
      cro_list_set_search (((Fixture *) *state)->list, cases[i].search);
      cro_list_set_filter (((Fixture *) *state)->list, cases[i].filter);
      must_show (*state, cases[i].says, cases[i].names);
    }
}

static void
test_row (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *course = NULL;
  double cost, pct, target, trim;
  int from;
  gboolean incomplete, used;

  show (fixture, CRO_KIND_INGREDIENT);
  g_object_get (fixture->shadow->pdata[1], "cost", &cost, "trim-yield-pct", &trim, "price-from",
                &from, "incomplete", &incomplete, "used", &used, NULL);
  if (cost != 0.02 || trim != 62 || from != CRO_TEST_DAY - 6 || incomplete || !used)
    fail_msg ("crab costs 0.02 a gram since six days, 62 %% of it usable, and is taken");

  show (fixture, CRO_KIND_PLATE);
  g_object_get (fixture->shadow->pdata[1], "cost", &cost, "food-cost-pct", &pct, "target-pct",
                &target, "course", &course, "price-from", &from, NULL);
  /* (100 g crab at 0.02 + 10 g gel at 200 x 0.005 / 100) / 10 = 0.21, of 5 */
  if (cost < 0.2099999 || cost > 0.2100001 || pct < 4.1999999 || pct > 4.2000001 || target != 30
      || g_strcmp0 (course, "snacks") != 0 || from != CRO_NO_DATE)
    fail_msg ("a croustade costs 0.21 of its price of 5, which is 4.2 %%");
}

/* What costs less than a cent is not shown as 0, and what costs at least so much is not said to cost less. */
static void
test_uses_that_cost_little (void **state)
{
  static const struct { const char *item; double cost; const char *words; } cases[] = {
    { "Butter", 0.004, "< 0.01" },
    { "Butter", 0.006, "0.01" },
    { "Butter", 0, "0.00" },
    { "Dill", 0.004, "at least 0.00" },
    { "Dill", NAN, "?" },
  };
  CroBook *book = ((Fixture *) *state)->book;
  CroModel *model = cro_book_get_model (book);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroUse use = { .item = cro_edit_find_name (model, CRO_NAMES_ITEMS, cases[i].item).slot, .cost = cases[i].cost };
      g_autofree char *words = cro_words_use_cost (cro_book_get_figures (book), &use);

      assert_string_equal (words, cases[i].words);
    }
}

/* --- What is told ----------------------------------------------------------------------------------- */

static void
preview_price (Fixture    *fixture,
               const char *item,
               gint64      price)
{
  CroModel *model = cro_book_get_model (fixture->book);
  GError *error = NULL;

  for (guint32 i = 0; i < model->offers->len; i++)
    if (strcmp (cro_model_item (model, cro_model_offer (model, i)->item)->name, item) == 0)
      cro_test_must (cro_book_preview_price (fixture->book, i, price * 1000000, &error), error);
}

static void
set_name (Fixture    *fixture,
          gint64      id,
          const char *name)
{
  CroCell cell = CRO_CELL_STR (name);
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, "name", "item", id, "name", &cell, &error), error);
}

static void
test_told (void **state)
{
  Fixture *fixture = *state;

  show (fixture, CRO_KIND_INGREDIENT);
  g_string_truncate (fixture->told, 0);
  preview_price (fixture, "Crab", 21);
  must_tell (fixture, "a figure that moves no row tells nothing of the list", "");
  cro_list_set_filter (fixture->list, CRO_LIST_INCOMPLETE);
  must_tell (fixture, "what leaves before and behind one that stays is told as one range", "0-5+1 ");
  preview_price (fixture, "Dill", 1);
  must_tell (fixture, "an offer that is not there moves nothing", "");
  cro_list_set_filter (fixture->list, CRO_LIST_ALL);
  g_string_truncate (fixture->told, 0);
  set_name (fixture, 4, "Chervil");
  must_show (fixture, "a new name has its place", "Butter Chervil Crab Crème Eel");
  must_tell (fixture, "a row that is renamed moves up alone", "3-1+0 1-0+1 ");
  set_name (fixture, 2, "Anchovy");
  set_name (fixture, 1, "Zander");
  must_show (fixture, "to the front and to the end", "Anchovy Chervil Crème Eel Zander");
}

static void
count_cb (CroRow     *row,
          GParamSpec *pspec,
          guint      *n)
{
  (*n)++;
}

static void
test_rows_notify (void **state)
{
  Fixture *fixture = *state;
  guint n = 0;
  GListModel *model;
  CroRow *row;

  show (fixture, CRO_KIND_INGREDIENT);
  model = G_LIST_MODEL (fixture->list);
  g_signal_connect (fixture->shadow->pdata[1], "notify::cost", G_CALLBACK (count_cb), &n);
  preview_price (fixture, "Crab", 21);
  if (n != 1)
    fail_msg ("a row that is shown tells that its figure moved: %u", n);

  row = g_object_ref (fixture->shadow->pdata[1]);
  g_ptr_array_set_size (fixture->shadow, 0);
  if (g_list_model_get_item (model, 1) != row)
    fail_msg ("a row is the same object for as long as somebody holds it");
  g_object_unref (row);
  g_assert_finalize_object (row);
  preview_price (fixture, "Crab", 22);
  if (n != 1)
    fail_msg ("a row that nobody holds any more is gone");
  assert_null (g_list_model_get_item (model, 5));
}

/* What a list shows of a row, and behind it what else a row has. */
static char *
words_of (CroBook *book,
          CroRow  *row)
{
  CroFigures *figures = cro_book_get_figures (book);
  g_autofree char *name = NULL, *last = NULL, *figure = NULL;
  gboolean incomplete, used;
  double trim;
  int from;

  g_object_get (row, "name", &name, "incomplete", &incomplete, "used", &used, "trim-yield-pct", &trim,
                "price-from", &from, NULL);
  figure = cro_words_list_figure (figures, cro_row_get_kind (row), cro_row_get_slot (row));
  /* No row says whether a menu carries a plate. */
  used = used && cro_row_get_kind (row) != CRO_KIND_PLATE;
  if (cro_row_get_kind (row) == CRO_KIND_INGREDIENT)
    last = cro_words_last_price (figures, cro_row_get_slot (row));
  return g_strdup_printf ("%s: %s%s, %s%s, %g %%, %d", name, figure, incomplete ? ", incomplete" : "",
                          last != NULL ? last : "", used ? ", taken" : ", not taken", trim, from);
}

static void
say_cb (CroRow     *row,
        GParamSpec *pspec,
        Fixture    *fixture)
{
  g_object_set_data_full (G_OBJECT (row), "said", words_of (fixture->book, row), g_free);
  g_string_append_c (fixture->told, '.');
}

static void
follow (Fixture *fixture,
        CroKind  kind)
{
  show (fixture, kind);
  for (guint i = 0; i < fixture->shadow->len; i++)
    {
      g_signal_connect (fixture->shadow->pdata[i], "notify::used", G_CALLBACK (say_cb), fixture);
      say_cb (fixture->shadow->pdata[i], NULL, fixture);
    }
}

static void
must_be_told (Fixture           *fixture,
              const CroTestEdit *edit)
{
  for (guint i = 0; i < fixture->shadow->len; i++)
    {
      g_autofree char *words = words_of (fixture->book, fixture->shadow->pdata[i]);
      const char *said = g_object_get_data (fixture->shadow->pdata[i], "said");

      if (strcmp (words, said) != 0)
        fail_msg ("%s of a row of %s is typed: \"%s\" is told as \"%s\"", edit->column, edit->table, words, said);
    }
}

/* Whoever listens to its rows is told of all that a key moves, and hardly of more. */
static void
test_rows_tell_what_moved (void **state)
{
  Fixture *fixture = *state;
  const CroTestEdit seldom[] = {
    { "book", 1, "currency", CRO_CELL_STR ("JPY") },
    { "book", 1, "speaks", CRO_CELL_STR ("gross-profit") },
    { "ingredient", 3, "unit", CRO_CELL_STR ("ml") },
  };
  g_autoptr (GRand) rand = g_rand_new_with_seed (20260101);
  CroTestEdit edit;
  CroCell more = CRO_CELL_INT (3 * CRO_MICRO);

  for (int kind = 0; kind < CRO_N_KINDS; kind++)
    {
      follow (fixture, (CroKind) kind);
      for (guint i = 0; i < 120 + G_N_ELEMENTS (seldom); i++)
        {
          if (i < G_N_ELEMENTS (seldom))
            edit = seldom[i];
          else if (!cro_test_draw_edit (fixture->book, rand, &edit))
            continue;
          cro_book_preview (fixture->book, edit.table, edit.id, edit.column, &edit.cell, NULL);
          must_be_told (fixture, &edit);
          if (g_rand_boolean (rand))
            cro_test_must (cro_book_restore (fixture->book, NULL), NULL);
          must_be_told (fixture, &edit);
        }
    }
  follow (fixture, CRO_KIND_PLATE);
  for (int i = 0; i < 2; i++)
    {
      g_string_truncate (fixture->told, 0);
      cro_test_must (cro_book_preview (fixture->book, "recipe_line", 3, "amount_micro", &more, NULL), NULL);
      more.integer += CRO_MICRO;
    }
  must_tell (fixture, "an amount in one plate of three", ".");
}

/* Of all that a row says and is told by each of these moves one thing. */
static void
test_rows_tell_what_moves_alone (void **state)
{
  static const struct
  {
    CroKind     kind;
    guint       at;
    CroTestEdit edit;
    const char *words;
  } cases[] = {
    { CRO_KIND_INGREDIENT, 1, { "offer", 1, "until", CRO_CELL_STR ("2026-02-15") },
      "Crab: 20.00/kg, last price, not to be had since 2026-02-16, taken" },
    { CRO_KIND_INGREDIENT, 4, { "price", 5, "from_date", CRO_CELL_STR ("2026-02-04") },
      "Eel: 30.00/kg, last price, not to be had since 2026-02-04, not taken" },
    { CRO_KIND_INGREDIENT, 2, { "ingredient", 3, "unit", CRO_CELL_STR ("ml") }, "Crème: 5.00/l, , taken" },
    { CRO_KIND_INGREDIENT, 4, { "recipe_line", 6, "item", CRO_CELL_INT (5) },
      "Eel: 30.00/kg, last price, not to be had since 2026-02-03, taken" },
    { CRO_KIND_OUTPUT, 2, { "preparation", 3, "by_products", CRO_CELL_STR ("weight") }, "Pomace: ?, incomplete, " },
    { CRO_KIND_OUTPUT, 2, { "recipe_line", 7, "item", CRO_CELL_INT (2) }, "Pomace: costs nothing, , " },
    { CRO_KIND_INGREDIENT, 1, { "ingredient", 1, "trim_yield_pct_micro", CRO_CELL_INT (50 * CRO_MICRO) },
      "Crab: 20.00/kg, , taken, 50 %" },
    { CRO_KIND_INGREDIENT, 0, { "price", 2, "from_date", CRO_CELL_STR ("2026-02-02") },
      "Butter: 10.00/kg, , taken, nan %, 20486" },
  };
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      const CroTestEdit *edit = &cases[i].edit;
      GError *error = NULL;

      follow (fixture, cases[i].kind);
      cro_test_must (cro_book_preview (fixture->book, edit->table, edit->id, edit->column, &edit->cell, &error),
                     error);
      must_be_told (fixture, edit);
      if (!g_str_has_prefix (g_object_get_data (fixture->shadow->pdata[cases[i].at], "said"), cases[i].words))
        fail_msg ("%s: \"%s\"", cases[i].words,
                  (char *) g_object_get_data (fixture->shadow->pdata[cases[i].at], "said"));
    }
}

/* --- Groups ------------------------------------------------------------------------------------- */

static guint32
slot_at (Fixture *fixture,
         guint    position)
{
  g_autoptr (CroRow) row = g_list_model_get_item (G_LIST_MODEL (fixture->list), position);

  return cro_row_get_slot (row);
}

static void
set_course (Fixture    *fixture,
            guint32     slot,
            const char *course)
{
  CroModel *model = cro_book_get_model (fixture->book);
  CroCell cell = CRO_CELL_STR (course);
  GError *error = NULL;

  cro_test_must (cro_book_set (fixture->book, "course", "plate", cro_model_recipe (model, slot)->id,
                               "course", &cell, &error),
                 error);
}

static void
test_groups (void **state)
{
  Fixture *fixture = *state;
  guint at;

  show (fixture, CRO_KIND_PLATE);
  cro_list_set_groups (fixture->list, CRO_LIST_GROUPED);
  must_show (fixture, "plates stand under their courses, those without one last",
             "snacks:2 Croustade Tartlet :1 Bare");
  g_string_truncate (fixture->told, 0);
  cro_list_fold (fixture->list, slot_at (fixture, 0), TRUE);
  must_show (fixture, "a heading folds", "snacks/2 :1 Bare");
  must_tell (fixture, "and its rows alone leave", "1-2+0 ");
  cro_list_set_search (fixture->list, "tart");
  must_show (fixture, "what is looked for is found through the fold", "Tartlet");
  cro_list_set_search (fixture->list, NULL);
  cro_list_set_filter (fixture->list, CRO_LIST_OVER_TARGET);
  must_show (fixture, "what is over its target is listed alone", "");
  preview_price (fixture, "Crab", 500);
  must_show (fixture, "and joins with the key that makes it so", "Croustade");
  cro_list_set_filter (fixture->list, CRO_LIST_ALL);
  must_show (fixture, "and it is folded still", "snacks/2 :1 Bare");
  cro_list_reveal (fixture->list, slot_at (fixture, 2));
  must_show (fixture, "what stands open needs no unfolding", "snacks/2 :1 Bare");
  cro_list_fold (fixture->list, slot_at (fixture, 0), FALSE);
  assert_true (cro_list_find_heading (fixture->list, slot_at (fixture, 4), &at));
  assert_int_equal (at, 3);
  set_course (fixture, slot_at (fixture, 1), "fish");
  must_show (fixture, "another course has its heading", "fish:1 Croustade snacks:1 Tartlet :1 Bare");
  cro_list_set_groups (fixture->list, CRO_LIST_PLAIN);
  must_show (fixture, "few plates have none", "Bare Croustade Tartlet");
}

static void
test_groups_folded (void **state)
{
  Fixture *fixture = *state;
  guint32 bare;

  show (fixture, CRO_KIND_PLATE);
  bare = slot_at (fixture, 0);
  cro_list_set_groups (fixture->list, CRO_LIST_FOLDED);
  must_show (fixture, "many plates are folded at first", "snacks/2 /1");
  cro_list_reveal (fixture->list, bare);
  must_show (fixture, "a plate that is opened is in sight", "snacks/2 :1 Bare");

  show (fixture, CRO_KIND_MENU);
  cro_list_set_groups (fixture->list, CRO_LIST_FOLDED);
  must_show (fixture, "menus stand under one heading", "/1");
  show (fixture, CRO_KIND_INGREDIENT);
  must_show (fixture, "ingredients under none", "Butter Crab Crème Dill Eel");
}

/* Another process fills an empty book: the model is another then. */
static void
test_filled_elsewhere (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *path = g_strconcat (fixture->folder.path, "2", NULL);
  g_autoptr (GError) error = NULL;
  CroTestFolder folder = { fixture->folder.folder, path };
  CroBook *filled;

  g_object_unref (fixture->book);
  fixture->book = cro_test_book_create (path);
  show (fixture, CRO_KIND_INGREDIENT);
  must_show (fixture, "an empty book has an empty list", "");
  filled = cro_test_book_load (&folder);
  cro_test_must (cro_book_refresh (fixture->book, NULL, &error), error);
  must_show (fixture, "filled by another, it has what is there", "Butter Crab Crème Dill Eel");
  must_tell (fixture, "told in one", "0-0+5 ");
  g_object_unref (filled);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_shown, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_row, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_uses_that_cost_little, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_told, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_rows_notify, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_rows_tell_what_moved, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_rows_tell_what_moves_alone, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_groups, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_groups_folded, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_filled_elsewhere, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
