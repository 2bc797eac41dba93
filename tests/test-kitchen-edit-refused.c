/* Acts that are refused: nothing is changed then, and what is in the way is named. */
#include "cro-edit.h"
#include "support/kitchen-rows.h"

static gboolean
name_taken (Fixture *f, GError **error)
{
  return cro_edit_add_ingredient (f->book, "act", " samphire ", CRO_BASE_GRAM, NULL, NULL, error);
}

static gboolean
output_taken (Fixture *f, GError **error)
{
  return cro_edit_add_preparation (f->book, "act", "samphire", 0, CRO_UNIT_G, NULL, NULL, error);
}

static gboolean
thing_taken (Fixture *f, GError **error)
{
  return cro_edit_rename (f->book, "act", CRO_REF (CRO_REF_MENU, f->menu), "marsh tartlet", error);
}

static gboolean
remove_used_ingredient (Fixture *f, GError **error)
{
  return cro_edit_remove (f->book, "act", CRO_REF (CRO_REF_ITEM, f->ingredient), error);
}

static gboolean
remove_main_output (Fixture *f, GError **error)
{
  return cro_edit_remove (f->book, "act", CRO_REF (CRO_REF_ITEM, f->output), error);
}

static gboolean
remove_used_preparation (Fixture *f, GError **error)
{
  return cro_edit_remove (f->book, "act", CRO_REF (CRO_REF_RECIPE, f->preparation), error);
}

static gboolean
remove_used_plate (Fixture *f, GError **error)
{
  return cro_edit_remove (f->book, "act", CRO_REF (CRO_REF_RECIPE, f->plate), error);
}

static gboolean
remove_used_supplier (Fixture *f, GError **error)
{
  return cro_edit_remove (f->book, "act", CRO_REF (CRO_REF_SUPPLIER, f->supplier), error);
}

static gboolean
plate_twice (Fixture *f, GError **error)
{
  return cro_edit_add_to_menu (f->book, "act", f->menu, f->plate, M (1), NULL, error);
}

static gboolean
offer_twice (Fixture *f, GError **error)
{
  CroNewOffer offer = { .item = f->ingredient, .supplier = f->supplier, .code = "S1",
                        .pack_count = M (2), .pack_size = M (5), .pack_unit = CRO_UNIT_KG };

  return cro_edit_add_offer (f->book, "act", &offer, NULL, error);
}

static gboolean
copied_offer_twice (Fixture *f, GError **error)
{
  return cro_edit_duplicate (f->book, "act", CRO_REF (CRO_REF_OFFER, f->offer), "S1", NULL, error);
}

static gboolean
scale_too_small (Fixture *f, GError **error)
{
  return cro_edit_scale (f->book, "act", f->plate, 1, error)
         && cro_edit_scale (f->book, "act", f->plate, G_MAXINT64, error);
}

static gboolean
cycle (Fixture *f, GError **error)
{
  CroNewLine line = { .item = f->output, .amount = M (1), .unit = CRO_UNIT_G };

  return cro_test_add_lines (f->book, f->preparation, CRO_NO_SLOT, &line, 1, NULL, error);
}

static void
test_refusals (void **state)
{
  static const struct { const char *says; Act act; int code; } cases[] = {
    { "two ingredients do not share a name", name_taken, CRO_EDIT_ERROR_NAME_TAKEN },
    { "nor an output and an ingredient", output_taken, CRO_EDIT_ERROR_NAME_TAKEN },
    { "nor a plate and a menu", thing_taken, CRO_EDIT_ERROR_NAME_TAKEN },
    { "an ingredient in a recipe stays", remove_used_ingredient, CRO_EDIT_ERROR_IN_USE },
    { "a main output stays with its preparation", remove_main_output, CRO_EDIT_ERROR_IN_USE },
    { "a preparation on a plate stays", remove_used_preparation, CRO_EDIT_ERROR_IN_USE },
    { "a plate on a menu stays", remove_used_plate, CRO_EDIT_ERROR_IN_USE },
    { "a supplier with offers stays", remove_used_supplier, CRO_EDIT_ERROR_IN_USE },
    { "a plate stands in a menu once", plate_twice, CRO_EDIT_ERROR_TWICE },
    { "a code stands for one offer", offer_twice, CRO_EDIT_ERROR_TWICE },
    { "also of a copy", copied_offer_twice, CRO_EDIT_ERROR_TWICE },
    { "nothing is scaled beyond what decimals hold", scale_too_small, CRO_EDIT_ERROR_RANGE },
  };
  Fixture *fixture = *state;
  g_autofree char *before = cro_test_dump (fixture->folder.path);
  g_autofree char *figures = cro_test_figures (fixture->book);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *after = NULL;
      g_autofree char *still = NULL;

      if (cases[i].act (fixture, &error))
        fail_msg ("%s: it was done", cases[i].says);
      if (!g_error_matches (error, CRO_EDIT_ERROR, cases[i].code))
        fail_msg ("%s: %s %d %s", cases[i].says, g_quark_to_string (error->domain), error->code,
                  error->message);
      if (cases[i].act == scale_too_small)
        continue;
      after = cro_test_dump (fixture->folder.path);
      still = cro_test_figures (fixture->book);
      cro_test_same (cases[i].says, before, after);
      cro_test_same (cases[i].says, figures, still);
    }
}

static void
test_cycle (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *before = cro_test_dump (fixture->folder.path);
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;

  assert_false (cycle (fixture, &error));
  assert_true (g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_CYCLE));
  after = cro_test_dump (fixture->folder.path);
  cro_test_same ("a cycle changes nothing", before, after);
}

static void
expect_users (const char   *says,
              Fixture      *fixture,
              CroRef        ref,
              const CroRef *wanted,
              guint         n)
{
  GError *error = NULL;
  g_autoptr (GArray) users = cro_edit_list_users (fixture->book, ref, &error);

  cro_test_must (users != NULL, error);
  if (users->len != n)
    fail_msg ("%s: %u users", says, users->len);
  for (guint i = 0; i < n; i++)
    if (g_array_index (users, CroRef, i).kind != wanted[i].kind
        || g_array_index (users, CroRef, i).slot != wanted[i].slot)
      fail_msg ("%s: user %u is of kind %d", says, i, g_array_index (users, CroRef, i).kind);
}

static void
test_users (void **state)
{
  Fixture *f = *state;
  CroRef of_ingredient[] = {
    CRO_REF (CRO_REF_RECIPE, f->preparation), CRO_REF (CRO_REF_YIELD_TESTS, CRO_NO_SLOT),
    CRO_REF (CRO_REF_COUNTS, CRO_NO_SLOT),    CRO_REF (CRO_REF_PURCHASES, CRO_NO_SLOT),
    CRO_REF (CRO_REF_ADJUSTMENTS, CRO_NO_SLOT),
  };
  CroRef of_preparation[] = { CRO_REF (CRO_REF_RECIPE, f->plate),
                              CRO_REF (CRO_REF_YIELD_TESTS, CRO_NO_SLOT) };
  CroRef of_plate[] = { CRO_REF (CRO_REF_MENU, f->menu), CRO_REF (CRO_REF_SALES, CRO_NO_SLOT) };
  CroRef of_supplier[] = { CRO_REF (CRO_REF_OFFER, f->offer),
                           CRO_REF (CRO_REF_PURCHASES, CRO_NO_SLOT) };

  expect_users ("an ingredient's", f, CRO_REF (CRO_REF_ITEM, f->ingredient), of_ingredient, 5);
  expect_users ("a preparation's", f, CRO_REF (CRO_REF_RECIPE, f->preparation), of_preparation, 2);
  expect_users ("a plate's", f, CRO_REF (CRO_REF_RECIPE, f->plate), of_plate, 2);
  expect_users ("a supplier's", f, CRO_REF (CRO_REF_SUPPLIER, f->supplier), of_supplier, 2);
  expect_users ("a menu's", f, CRO_REF (CRO_REF_MENU, f->menu), NULL, 0);
}

#define TEST(name) cmocka_unit_test_setup_teardown (name, setup, teardown)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    TEST (test_refusals),
    TEST (test_cycle),
    TEST (test_users),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
