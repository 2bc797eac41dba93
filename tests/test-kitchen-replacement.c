/* One item in the place of another: the book then is the one that would have been typed so, what was
 * told of plates before is what they come to, and undo gives every figure back to the bit. */
#include "cro-decimal.h"
#include "cro-replacement.h"

#include <math.h>

#include "support/kitchen-random.h"
#include "support/n-books.h"

#define N_BOOKS CRO_TEST_N_BOOKS (40)

/* --- Random books ----------------------------------------------------------------------------- */

/* The book as if its lines had been typed with the other item from the start. */
static char *
figures_typed_so (const char           *rows,
                  CroBook              *book,
                  const CroReplacement *replacement)
{
  CroModel *model = cro_book_get_model (book);
  CroTestFolder folder;
  g_autofree char *typed = g_strdup_printf (
      "%s;\nUPDATE recipe_line SET item = %" G_GINT64_FORMAT " WHERE item = %" G_GINT64_FORMAT ";",
      rows, cro_model_item (model, replacement->by)->id,
      cro_model_item (model, replacement->item)->id);
  g_autoptr (CroBook) other = cro_test_book_with (&folder, typed);
  char *figures = cro_test_figures (other);

  g_clear_object (&other);
  cro_test_folder_clear (&folder);
  return figures;
}

static void
check_told (CroBook *book,
            GArray  *told)
{
  CroFigures *figures = cro_book_get_figures (book);

  for (guint i = 0; i < told->len; i++)
    {
      const CroConsequence *one = &g_array_index (told, CroConsequence, i);
      CroFigure now = one->thing.kind == CRO_REF_MENU
                          ? cro_figure_of_menu (figures, one->thing.slot)
                          : cro_figure_of_plate (figures, one->thing.slot);

      assert_true (memcmp (&now.cost, &one->to.cost, sizeof now.cost) == 0);
      assert_int_equal (now.is_incomplete, one->to.is_incomplete);
    }
}

/* Whether a line takes the item at all. */
static gboolean
does_something (CroBook              *book,
                const CroReplacement *replacement)
{
  g_autoptr (GArray) lines = cro_replacement_list_lines (cro_book_get_figures (book), replacement);

  return lines->len > 0;
}

/* Returns whether it could be done: where it would make a cycle nothing has moved. */
static gboolean
replace_in (CroBook              *book,
            const char           *rows,
            const CroReplacement *replacement)
{
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *typed = NULL, *tried = NULL, *after = NULL, *undone = NULL;
  g_autoptr (GError) error = NULL;
  GError *failed = NULL;
  g_autoptr (GArray) told = cro_replacement_try (book, replacement, &error);

  tried = cro_test_figures (book);
  cro_test_same ("a replacement that is tried moves nothing", before, tried);
  if (told == NULL)
    {
      assert_true (g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_CYCLE));
      assert_false (cro_edit_replace (book, "replacement", replacement, NULL));
      after = cro_test_figures (book);
      cro_test_same ("what is refused moves nothing", before, after);
      return FALSE;
    }
  typed = figures_typed_so (rows, book, replacement);
  cro_test_must (cro_edit_replace (book, "replacement", replacement, &failed), failed);
  after = cro_test_figures (book);
  cro_test_same ("what was replaced is as if typed so", typed, after);
  check_told (book, told);
  cro_test_must (cro_book_undo (book, NULL, &failed), failed);
  undone = cro_test_figures (book);
  cro_test_same ("undo of a replacement", before, undone);
  return TRUE;
}

static void
test_random_books (void **state)
{
  guint done = 0, refused = 0, nothing = 0;

  for (guint seed = 1; seed <= N_BOOKS; seed++)
    {
      GRand *rand = g_rand_new_with_seed (seed);
      g_autofree char *rows = cro_test_random_rows (rand);
      CroTestFolder folder;
      g_autoptr (CroBook) book = cro_test_book_with (&folder, rows);
      guint n = cro_book_get_model (book)->items->len;
      CroReplacement replacement = { .item = (guint32) g_rand_int_range (rand, 0, (gint32) n) };

      replacement.by = (replacement.item + (guint32) g_rand_int_range (rand, 1, (gint32) n)) % n;
      if (!does_something (book, &replacement))
        nothing++;
      else if (replace_in (book, rows, &replacement))
        done++;
      else
        refused++;
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
      g_rand_free (rand);
    }
  if (done < N_BOOKS / 3 || refused == 0)
    fail_msg ("%u done, %u refused, %u without a line", done, refused, nothing);
}

/* --- One recipe alone, and merging ------------------------------------------------------------ */

#define HEAD "name,unit,density_g_per_ml,allergens,note,category\n"

static CroBook *
load_book (CroTestFolder *folder)
{
  *folder = cro_test_folder_new ();
  cro_test_write_table (folder->folder, "ingredients",
                        HEAD "Butter,g,,milk,,Dairy\nButter unsalted,g,0.95,,for pastry,\n"
                        "Egg,each,,eggs,,\n");
  cro_test_write_table (folder->folder, "suppliers", "name\nMill Lane\n");
  cro_test_write_table (folder->folder, "offers",
                        "ingredient,supplier,code,pack_count,pack_size,pack_unit\n"
                        "Butter,Mill Lane,12,1,1,kg\nButter unsalted,Mill Lane,12,1,2,kg\n");
  cro_test_write_table (folder->folder, "prices",
                        "ingredient,supplier,code,from,price\n"
                        "Butter,Mill Lane,12,2026-01-01,9.20\n"
                        "Butter unsalted,Mill Lane,12,2026-01-01,16\n"
                        "Butter unsalted,Mill Lane,12,2026-02-01,17\n");
  cro_test_write_table (folder->folder, "plates", "name,makes\nTart,1\nShortbread,1\nWafer,1\n");
  cro_test_write_table (folder->folder, "menus", "name\nTea\nLate tea\n");
  cro_test_write_table (folder->folder, "menu_plates",
                        "menu,plate,servings,choice,share_pct\nTea,Tart,2,,\nLate tea,Tart,1,sweet,25\n"
                        "Late tea,Shortbread,1,sweet,\n");
  cro_test_write_table (folder->folder, "lines",
                        "into,parent,position,item,amount,unit\nplate,Tart,1,Butter,100,g\n"
                        "plate,Shortbread,1,Butter,100,g\nplate,Shortbread,2,Butter unsalted,1,g\n");
  cro_test_write_table (folder->folder, "counts",
                        "date,item,amount,unit\n2026-02-01,Butter,3,kg\n");
  cro_test_write_table (folder->folder, "purchases",
                        "date,ingredient,amount,unit,net_value\n2026-02-01,Butter,3,kg,27.60\n");
  cro_test_write_table (folder->folder, "yield_tests",
                        "test,item,date,purchased_g,usable_g\n1,Butter,2026-02-01,100,99\n");
  cro_test_write_table (folder->folder, "service_stock",
                        "date,service,item,amount,unit\n2026-02-14,dinner,Butter,200,g\n"
                        "2026-02-14,dinner,Butter unsalted,1,kg\n2026-02-15,dinner,Butter,50,g\n");
  return cro_test_book_load (folder);
}

static guint32
item_of (CroBook    *book,
         const char *name)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_ITEMS, name).slot;
}

static double
cost_of (CroBook    *book,
         const char *plate)
{
  guint32 slot = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, plate).slot;

  return cro_figure_of_plate (cro_book_get_figures (book), slot).cost;
}

static void
test_a_recipe_alone (void **state)
{
  CroTestFolder folder;
  g_autoptr (CroBook) book = load_book (&folder);
  guint32 tart = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, "Tart").slot;
  CroReplacement replacement = { item_of (book, "Butter"), item_of (book, "Butter unsalted"), &tart, 1,
                                 FALSE, FALSE, FALSE };
  GError *error = NULL;

  cro_test_must (cro_edit_replace (book, "a", &replacement, &error), error);
  assert_true (fabs (cost_of (book, "Tart") - 100 * 0.0085) < 1e-12);
  assert_true (fabs (cost_of (book, "Shortbread") - (100 * 0.0092 + 0.0085)) < 1e-12);
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

static void
test_what_cannot_be_converted_is_told (void **state)
{
  CroTestFolder folder;
  g_autoptr (CroBook) book = load_book (&folder);
  CroReplacement replacement = { item_of (book, "Butter"), item_of (book, "Egg"), NULL, 0, FALSE, FALSE, FALSE };
  g_autoptr (GArray) unknown = cro_replacement_list_unknown (cro_book_get_figures (book),
                                                             &replacement);

  assert_int_equal (unknown->len, 2);
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

static void
expect (const char *dump,
        const char *text)
{
  if (strstr (dump, text) == NULL)
    fail_msg ("“%s” is not in:\n%s", text, dump);
}

static void
test_merged_nothing_is_lost (void **state)
{
  CroTestFolder folder;
  g_autoptr (CroBook) book = load_book (&folder);
  CroReplacement merge = { item_of (book, "Butter unsalted"), item_of (book, "Butter"), NULL, 0,
                           TRUE, FALSE, FALSE };
  CroReplacement back = { merge.by, merge.item, NULL, 0, TRUE, FALSE, FALSE };
  g_autofree char *before = cro_test_dump (folder.path), *figures = cro_test_figures (book);
  g_autofree char *after = NULL, *undone = NULL, *again = NULL, *other = NULL, *fresh = NULL;
  g_autofree char *now = NULL;
  GError *error = NULL;

  cro_test_must (cro_edit_replace (book, "merge", &merge, &error), error);
  after = cro_test_dump (folder.path);
  now = cro_test_figures (book);
  fresh = cro_test_fresh_figures (book);
  cro_test_same ("figures after a merge", fresh, now);
  assert_int_equal (item_of (book, "Butter unsalted"), CRO_NO_SLOT);
  expect (after, "12 2");
  /* The cheaper pack of both serves. */
  assert_true (fabs (cost_of (book, "Tart") - 100 * 0.0085) < 1e-12);
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  undone = cro_test_dump (folder.path);
  assert_string_equal (undone, before);
  again = cro_test_figures (book);
  cro_test_same ("undo of a merge", figures, again);
  cro_test_must (cro_edit_replace (book, "merge", &back, &error), error);
  other = cro_test_dump (folder.path);
  expect (other, "for pastry");
  expect (other, "Dairy");
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* Millionths; of a plate that a menu has not: 0. */
static gint64
servings_on (CroBook *book,
             guint32  menu,
             guint32  plate)
{
  CroModel *model = cro_book_get_model (book);

  for (guint i = 0; i < model->menu_plates->len; i++)
    {
      const CroMenuPlate *entry = &g_array_index (model->menu_plates, CroMenuPlate, i);

      if (!entry->is_dead && entry->menu == menu && entry->plate == plate)
        return entry->servings;
    }
  return 0;
}

/* A plate keeps its servings, its choice and its share for the one that comes in its place. */
static void
test_a_plate_on_menus (void **state)
{
  CroTestFolder folder;
  g_autoptr (CroBook) book = load_book (&folder);
  CroModel *model = cro_book_get_model (book);
  guint32 tart = cro_edit_find_name (model, CRO_NAMES_THINGS, "Tart").slot;
  guint32 tea = cro_edit_find_name (model, CRO_NAMES_THINGS, "Tea").slot;
  guint32 late = cro_edit_find_name (model, CRO_NAMES_THINGS, "Late tea").slot;
  CroReplacement replacement = { tart, cro_edit_find_name (model, CRO_NAMES_THINGS, "Wafer").slot, NULL, 0,
                                 FALSE, TRUE, FALSE };
  CroReplacement in_tea = { tart, cro_edit_find_name (model, CRO_NAMES_THINGS, "Shortbread").slot, &tea, 1,
                            FALSE, TRUE, FALSE };
  CroReplacement twice = { in_tea.item, in_tea.by, NULL, 0, FALSE, TRUE, FALSE };
  g_autofree char *before = cro_test_dump (folder.path);
  g_autofree char *undone = NULL;
  g_autoptr (GArray) menus = cro_replacement_list_menus (model, tart);
  g_autoptr (GArray) told = NULL;
  GError *error = NULL;

  assert_int_equal (menus->len, 2);
  told = cro_replacement_try (book, &in_tea, &error);
  cro_test_must (told != NULL, error);
  assert_int_equal (told->len, 1);
  assert_true (fabs (g_array_index (told, CroConsequence, 0).to.cost - 2 * (100 * 0.0092 + 0.0085)) < 1e-12);
  assert_false (cro_edit_replace (book, "twice", &twice, &error));
  assert_true (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_TWICE));
  g_clear_error (&error);
  cro_test_must (cro_edit_replace (book, "plates", &replacement, &error), error);
  assert_int_equal (servings_on (book, tea, replacement.by), 2 * CRO_MICRO);
  assert_int_equal (servings_on (book, late, replacement.by), CRO_MICRO);
  cro_test_must (cro_edit_remove (book, "removal", CRO_REF (CRO_REF_RECIPE, tart), &error), error);
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  undone = cro_test_dump (folder.path);
  assert_string_equal (undone, before);
  cro_test_must (cro_edit_replace (book, "in tea", &in_tea, &error), error);
  assert_int_equal (servings_on (book, tea, in_tea.by), 2 * CRO_MICRO);
  assert_int_equal (servings_on (book, late, tart), CRO_MICRO);
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

/* Taken off its menus, or replaced there, and removed: one act, undone in one. */
static void
test_a_plate_goes (void **state)
{
  CroTestFolder folder;
  g_autoptr (CroBook) book = load_book (&folder);
  CroModel *model = cro_book_get_model (book);
  guint32 tart = cro_edit_find_name (model, CRO_NAMES_THINGS, "Tart").slot;
  guint32 tea = cro_edit_find_name (model, CRO_NAMES_THINGS, "Tea").slot;
  guint32 wafer = cro_edit_find_name (model, CRO_NAMES_THINGS, "Wafer").slot;
  CroReplacement off = { .item = tart, .by = CRO_NO_SLOT, .is_plate = TRUE, .is_removal = TRUE };
  CroReplacement replaced = { .item = tart, .by = wafer, .is_plate = TRUE, .is_removal = TRUE };
  g_autofree char *before = cro_test_dump (folder.path);
  g_autoptr (GArray) told = NULL;
  GError *error = NULL;

  told = cro_replacement_try (book, &off, &error);
  cro_test_must (told != NULL, error);
  for (guint i = 0; i < told->len; i++)
    assert_int_equal (g_array_index (told, CroConsequence, i).thing.kind, CRO_REF_MENU);
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *undone = NULL, *now = NULL, *fresh = NULL;

      cro_test_must (cro_edit_replace (book, "gone", i == 0 ? &off : &replaced, &error), error);
      assert_int_equal (cro_edit_find_name (model, CRO_NAMES_THINGS, "Tart").kind, CRO_REF_NONE);
      assert_int_equal (servings_on (book, tea, tart), 0);
      assert_int_equal (servings_on (book, tea, wafer), i == 0 ? 0 : 2 * CRO_MICRO);
      now = cro_test_figures (book);
      fresh = cro_test_fresh_figures (book);
      cro_test_same ("figures after a plate has gone", fresh, now);
      cro_test_must (cro_book_undo (book, NULL, &error), error);
      undone = cro_test_dump (folder.path);
      assert_string_equal (undone, before);
    }
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_random_books),
    cmocka_unit_test (test_a_recipe_alone),
    cmocka_unit_test (test_what_cannot_be_converted_is_told),
    cmocka_unit_test (test_merged_nothing_is_lost),
    cmocka_unit_test (test_a_plate_on_menus),
    cmocka_unit_test (test_a_plate_goes),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
