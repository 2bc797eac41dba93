/* What was filed as bought becomes made, and back: lines stay, one act, undone as one. */
#include "cro-become-words.h"
#include "cro-edit.h"
#include "cro-words.h"
#include "support/kitchen-book.h"
#include "support/locales.h"

#define M(value) ((gint64) ((value) * 1e6 + 0.5))

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  guint32       item, plate;
} Fixture;

static int
setup (void **state)
{
  Fixture *f = g_new0 (Fixture, 1);
  GError *error = NULL;
  CroNewLine line = { .item = CRO_NO_SLOT, .name = "Samphire oil", .base = CRO_BASE_GRAM,
                      .amount = M (30), .unit = CRO_UNIT_G };

  setlocale (LC_ALL, "C");
  f->folder = cro_test_folder_new ();
  f->book = cro_test_book_create (f->folder.path);
  cro_test_must (cro_edit_add_plate (f->book, "a", "Tartlet", M (24), &f->plate, &error), error);
  cro_test_must (cro_test_add_lines (f->book, f->plate, CRO_NO_SLOT, &line, 1, &f->item, &error), error);
  *state = f;
  return 0;
}

static int
teardown (void **state)
{
  Fixture *f = *state;

  g_object_unref (f->book);
  cro_test_folder_clear (&f->folder);
  g_free (f);
  return 0;
}

static void
set (Fixture    *f,
     const char *column,
     CroCell     cell)
{
  gint64 id = cro_model_item (cro_book_get_model (f->book), f->item)->id;
  GError *error = NULL;

  cro_test_must (cro_book_set (f->book, "a", "ingredient", id, column, &cell, &error), error);
}

static void
test_there_and_back (void **state)
{
  Fixture *f = *state;
  CroModel *model = cro_book_get_model (f->book);
  g_autofree char *bought = NULL, *made = NULL, *undone = NULL, *again = NULL;
  GError *error = NULL;
  guint32 recipe = CRO_NO_SLOT;
  g_autoptr (GArray) lines = NULL;

  set (f, "density_g_per_ml_micro", CRO_CELL_INT (M (0.92)));
  bought = cro_test_dump (f->folder.path);
  cro_test_must (cro_edit_become_preparation (f->book, "b", f->item, NULL, &recipe, &error), error);
  assert_int_equal (model->maker[f->item], recipe);
  assert_true (cro_model_item (model, f->item)->is_main);
  assert_int_equal (cro_model_item (model, f->item)->density, M (0.92));
  assert_string_equal (cro_model_recipe (model, recipe)->name, "Samphire oil");
  lines = cro_edit_list_lines (cro_book_get_figures (f->book), f->plate);
  assert_int_equal (lines->len, 1);
  assert_int_equal (model->lines.item[g_array_index (lines, guint32, 0)], f->item);
  {
    g_autofree char *now = cro_test_figures (f->book);
    g_autofree char *fresh = cro_test_fresh_figures (f->book);

    cro_test_same ("figures after it became a preparation", fresh, now);
  }
  made = cro_test_dump (f->folder.path);
  cro_test_must (cro_book_undo (f->book, NULL, &error), error);
  undone = cro_test_dump (f->folder.path);
  cro_test_same ("undone as one", bought, undone);
  cro_test_must (cro_book_redo (f->book, NULL, &error), error);
  again = cro_test_dump (f->folder.path);
  cro_test_same ("and done again", made, again);
  {
    guint32 slot = (guint32) model->maker[f->item];
    g_autofree char *back = NULL;
    g_autofree char *now = NULL, *fresh = NULL;

    cro_test_must (cro_edit_become_ingredient (f->book, "c", slot, &error), error);
    back = cro_test_dump (f->folder.path);
    now = cro_test_figures (f->book);
    fresh = cro_test_fresh_figures (f->book);
    cro_test_same ("it is bought again, lines and all", bought, back);
    cro_test_same ("with its figures", fresh, now);
  }
}

/* A plate that was none: its lines stay in order, what it makes is what a batch gives, and undo gives
 * all of it back. */
static void
test_plate (void **state)
{
  static const char *const note[] = { "note", NULL };
  Fixture *f = *state;
  CroModel *model = cro_book_get_model (f->book);
  GError *error = NULL;
  guint32 recipe = CRO_NO_SLOT;
  gint64 id = cro_model_recipe (model, f->plate)->id;
  CroCell seasoning = CRO_CELL_INT (M (3)), minutes = CRO_CELL_INT (M (20));
  CroCell price = CRO_CELL_INT (M (14)), own = CRO_CELL_STR ("served cold");
  g_autofree char *before = NULL, *undone = NULL, *now = NULL, *fresh = NULL, *more = NULL;
  g_autoptr (GArray) lines = NULL;
  g_autoptr (CroRows) rows = NULL;
  const CroItem *output;

  cro_test_must (cro_book_set (f->book, "a", "plate", id, "allowance_pct_micro", &seasoning, &error), error);
  cro_test_must (cro_book_set (f->book, "a", "plate", id, "active_minutes_micro", &minutes, &error), error);
  cro_test_must (cro_book_set (f->book, "a", "plate", id, "price_micro", &price, &error), error);
  cro_test_must (cro_book_set (f->book, "a", "plate", id, "note", &own, &error), error);
  before = cro_test_dump (f->folder.path);
  more = cro_become_note_of_plate (f->book, f->plate);
  cro_test_must (cro_edit_plate_become_preparation (f->book, "b", f->plate, more, &recipe, &error), error);
  assert_true (cro_model_recipe (model, f->plate)->is_dead);
  assert_false (cro_model_recipe (model, recipe)->is_plate);
  assert_int_equal (cro_model_recipe (model, recipe)->active_minutes, M (20));
  output = cro_model_item (model, g_array_index (model->output_order, guint32,
                                                 cro_model_recipe (model, recipe)->first_output));
  assert_string_equal (output->name, "Tartlet");
  lines = cro_edit_list_lines (cro_book_get_figures (f->book), recipe);
  assert_int_equal (lines->len, 1);
  assert_int_equal (model->lines.item[g_array_index (lines, guint32, 0)], f->item);
  rows = cro_store_read_one (cro_book_get_store (f->book), "preparation",
                             cro_model_recipe (model, recipe)->id, note, &error);
  assert_true (cro_rows_next (rows, NULL));
  assert_string_equal (cro_rows_get_text (rows, 0), "served cold; seasoning and handling 3 %; selling price 14.00");
  g_clear_pointer (&rows, cro_rows_free);
  now = cro_test_figures (f->book);
  fresh = cro_test_fresh_figures (f->book);
  cro_test_same ("figures after it became a preparation", fresh, now);
  cro_test_must (cro_book_undo (f->book, NULL, &error), error);
  undone = cro_test_dump (f->folder.path);
  cro_test_same ("undone as one", before, undone);
}

/* What has no place in a preparation is named, and nothing else. */
static void
test_what_is_dropped (void **state)
{
  Fixture *f = *state;
  CroRef ref = CRO_REF (CRO_REF_RECIPE, f->plate);
  gint64 id = cro_model_recipe (cro_book_get_model (f->book), f->plate)->id;
  CroCell course = CRO_CELL_STR ("Amuse"), pct = CRO_CELL_INT (M (30));
  g_autofree char *nothing = cro_become_dropped (f->book, f->plate);
  g_autofree char *note = cro_become_note_of_plate (f->book, f->plate);
  g_autofree char *dropped = NULL;
  GError *error = NULL;

  assert_null (nothing);
  assert_null (note);
  cro_test_must (cro_book_set (f->book, "a", "plate", id, "course", &course, &error), error);
  cro_test_must (cro_book_set (f->book, "a", "plate", id, "target_pct_micro", &pct, &error), error);
  cro_test_must (cro_edit_set_selling_price (f->book, "a", ref, CRO_TEST_DAY, M (12), &error), error);
  cro_test_must (cro_edit_set_selling_price (f->book, "a", ref, CRO_TEST_DAY + 9, M (13), &error), error);
  dropped = cro_become_dropped (f->book, f->plate);
  assert_string_equal (dropped, "course, target, 2 dated selling prices");
}

static void
test_plate_in_use (void **state)
{
  Fixture *f = *state;
  GError *error = NULL;
  guint32 menu, entry;

  cro_test_must (cro_edit_add_menu (f->book, "m", "Tasting", &menu, &error), error);
  cro_test_must (cro_edit_add_to_menu (f->book, "m", menu, f->plate, M (1), &entry, &error), error);
  assert_false (cro_edit_plate_become_preparation (f->book, "b", f->plate, NULL, NULL, &error));
  assert_true (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_IN_USE));
  g_error_free (error);
}

static void
test_allergens_are_kept (void **state)
{
  static const char *const note[] = { "note", NULL };
  Fixture *f = *state;
  GError *error = NULL;
  guint32 recipe;
  g_autofree char *more = NULL;
  g_autoptr (CroRows) rows = NULL;

  set (f, "allergens", CRO_CELL_INT (1 << 6));
  set (f, "note", CRO_CELL_STR ("from the marsh"));
  set (f, "may_contain", CRO_CELL_INT (1 << 8));
  more = cro_become_note_of_item (f->book, f->item);
  cro_test_must (cro_edit_become_preparation (f->book, "b", f->item, more, &recipe, &error), error);
  rows = cro_store_read_one (cro_book_get_store (f->book), "preparation",
                             cro_model_recipe (cro_book_get_model (f->book), recipe)->id, note,
                             &error);
  assert_true (cro_rows_next (rows, NULL));
  assert_string_equal (cro_rows_get_text (rows, 0), "from the marsh; allergens: milk; may contain: celery");
}

static void
expect_refused (Fixture    *f,
                const char *says,
                gboolean    done,
                GError     *error,
                int         code,
                const char *sentence,
                const char *before)
{
  g_autofree char *text = NULL;
  g_autofree char *after = cro_test_dump (f->folder.path);

  if (done)
    fail_msg ("%s: it was done", says);
  if (!g_error_matches (error, CRO_EDIT_ERROR, code))
    fail_msg ("%s: %s %d %s", says, g_quark_to_string (error->domain), error->code, error->message);
  text = cro_words_error (error);
  assert_string_equal (text, sentence);
  cro_test_same (says, before, after);
  g_error_free (error);
}

static void
test_refused_with_packs (void **state)
{
  Fixture *f = *state;
  CroUnitPrice price = { M (9), CRO_UNIT_KG, "Market", CRO_TEST_DAY, 0 };
  GError *error = NULL;
  g_autofree char *before = NULL;
  gboolean done;

  cro_test_must (cro_edit_price_ingredient (f->book, "a", f->item, &price, NULL, &error), error);
  before = cro_test_dump (f->folder.path);
  done = cro_edit_become_preparation (f->book, "b", f->item, NULL, NULL, &error);
  expect_refused (f, "it has prices", done, error, CRO_EDIT_ERROR_HAS_PACKS,
                  "“Samphire oil” has suppliers’ packs; remove them to make it a preparation",
                  before);
}

static void
test_refused_with_lines (void **state)
{
  Fixture *f = *state;
  CroNewLine line = { .item = CRO_NO_SLOT, .name = "Oil", .amount = M (1), .unit = CRO_UNIT_L,
                      .base = CRO_BASE_MILLILITRE };
  GError *error = NULL;
  guint32 recipe;
  g_autofree char *before = NULL;
  gboolean done;

  cro_test_must (cro_edit_become_preparation (f->book, "b", f->item, NULL, &recipe, &error), error);
  cro_test_must (cro_test_add_lines (f->book, recipe, CRO_NO_SLOT, &line, 1, NULL, &error), error);
  before = cro_test_dump (f->folder.path);
  done = cro_edit_become_ingredient (f->book, "c", recipe, &error);
  expect_refused (f, "it has lines", done, error, CRO_EDIT_ERROR_HAS_LINES,
                  "“Samphire oil” has lines; remove them to make it an ingredient", before);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_there_and_back, setup, teardown),
    cmocka_unit_test_setup_teardown (test_plate, setup, teardown),
    cmocka_unit_test_setup_teardown (test_plate_in_use, setup, teardown),
    cmocka_unit_test_setup_teardown (test_what_is_dropped, setup, teardown),
    cmocka_unit_test_setup_teardown (test_allergens_are_kept, setup, teardown),
    cmocka_unit_test_setup_teardown (test_refused_with_packs, setup, teardown),
    cmocka_unit_test_setup_teardown (test_refused_with_lines, setup, teardown),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
