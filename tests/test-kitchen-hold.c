/* What holds a target: prices, amounts and yields that would do, tried and written as a person would, of plates and
 * menus, made up and random. */
#include <math.h>

#include "cro-hold-words.h"
#include "support/kitchen-random.h"
#include "support/kitchen-trial.h"

#define N_HELD 4

static gboolean
is_over (CroBook *book,
         CroRef   thing)
{
  return thing.kind == CRO_REF_MENU
             ? cro_figure_of_menu (cro_book_get_figures (book), thing.slot).is_over_target
             : cro_figure_of_plate (cro_book_get_figures (book), thing.slot).is_over_target;
}

/* As a person would write it, with so many millionths more. */
static gboolean
is_over_with (CroBook       *book,
              CroRef         thing,
              const CroHold *hold,
              gint64         more)
{
  CroHold written = *hold;
  GError *error = NULL;
  gboolean is;

  written.value += more;
  cro_test_must (cro_hold_apply (&written, book, "hold", &error), error);
  is = is_over (book, thing);
  cro_test_must (cro_book_undo (book, NULL, &error), error);
  return is;
}

/* 22 with 10 % tax are 20 net: 30 % of that are 6.00, for which 200 g of hake may cost 30 a kg, or 375 g
 * be taken at 16. */
static void
test_what_holds_a_target (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  g_autofree char *before = cro_test_figures (tried), *after = NULL;
  g_autoptr (GArray) holds = cro_holds_new (tried, plate_of (tried), 3);
  const CroHold *hold;

  after = cro_test_figures (tried);
  cro_test_same ("what was looked for is given up", before, after);
  assert_int_equal (holds->len, 3);
  hold = &g_array_index (holds, CroHold, 0);
  assert_int_equal (hold->kind, CRO_HOLD_SELLING);
  assert_int_equal (hold->value, 11740000);
  assert_false (is_over_with (tried, plate_of (tried), hold, 0));
  assert_true (is_over_with (tried, plate_of (tried), hold, -10000));
  for (guint i = 1; i < holds->len; i++)
    {
      gboolean is_price;

      hold = &g_array_index (holds, CroHold, i);
      is_price = hold->kind == CRO_HOLD_PRICE;
      assert_int_equal (hold->answer, CRO_HOLD_OK);
      assert_int_equal (hold->value, is_price ? 30000000 : 375000000);
      assert_false (is_over_with (tried, plate_of (tried), hold, 0));
      assert_true (is_over_with (tried, plate_of (tried), hold, is_price ? 10000 : 1000000));
    }
}

/* Without a target there is nothing to hold, and of what is dear besides no gift helps. */
static void
test_why_a_target_is_not_held (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  gint64 plate = cro_model_recipe (cro_book_get_model (tried), plate_of (tried).slot)->id;
  CroCell none = CRO_CELL_NONE;
  g_autoptr (GArray) dear = NULL, aimless = NULL;
  GError *error = NULL;

  add_line (tried, "Turbot", 1000);
  dear = cro_holds_new (tried, plate_of (tried), 3);
  for (guint i = 1; i < dear->len; i++)
    {
      const CroHold *hold = &g_array_index (dear, CroHold, i);

      assert_int_equal (hold->answer,
                        hold->item == item_of (tried, "Turbot") ? CRO_HOLD_OK : CRO_HOLD_NEVER);
    }
  cro_test_must (cro_book_set (tried, "none", "plate", plate, "target_pct_micro", &none, &error), error);
  aimless = cro_holds_new (tried, plate_of (tried), 3);
  for (guint i = 0; i < aimless->len; i++)
    assert_int_equal (g_array_index (aimless, CroHold, i).answer, CRO_HOLD_NO_TARGET);
}

/* How many of a plate's were tried. */
static guint
check_holds (CroBook *tried,
             CroRef   plate)
{
  g_autoptr (GArray) holds = cro_holds_new (tried, plate, 2);
  guint n = 0;

  for (guint i = 0; i < holds->len; i++)
    {
      const CroHold *hold = &g_array_index (holds, CroHold, i);

      if (hold->answer != CRO_HOLD_OK)
        continue;
      assert_false (is_over_with (tried, hold->kind == CRO_HOLD_SELLING ? hold->thing : plate, hold, 0));
      n += hold->kind != CRO_HOLD_SELLING;
    }
  return n;
}

/* Yields within yields and credits: whatever is offered holds. */
static void
test_targets_of_random_books (void **state)
{
  guint n = 0;

  for (guint seed = 1; seed <= N_HELD; seed++)
    {
      GRand *rand = g_rand_new_with_seed (seed);
      g_autofree char *random = cro_test_random_rows (rand);
      g_autofree char *rows = g_strconcat (random, "UPDATE plate SET price_micro = 20000000,"
                                           " target_pct_micro = 30000000;", NULL);
      CroTestFolder folder;
      CroBook *book = cro_test_book_with (&folder, rows);
      CroTrial *trial = cro_trial_new (book, NULL, "trial", NULL);
      CroBook *tried = cro_trial_get_book (trial);

      for (guint32 slot = 0; slot < cro_book_get_model (tried)->recipes->len; slot++)
        if (cro_model_recipe (cro_book_get_model (tried), slot)->is_plate)
          n += check_holds (tried, CRO_REF (CRO_REF_RECIPE, slot));
      cro_trial_free (trial);
      g_object_unref (book);
      cro_test_folder_clear (&folder);
      g_rand_free (rand);
    }
  if (n < N_HELD)
    fail_msg ("%u prices and amounts were tried", n);
}

/* 10 with 10 % tax are 9.09 net, of which 30 % pay 2.73: a guest costs 3.72. The price that does is 3.72 /
 * 0.3 * 1.1 = 13.64; turbot at 6 % of a kg a guest may cost (2.7272… - 1.92) / 0.06 = 13.45. Of an amount
 * it is said in which plate. */
static void
test_what_holds_a_menus_target (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  g_autoptr (GArray) holds = NULL;
  guint n[3] = { 0, 0, 0 };
  GError *error = NULL;

  cro_test_must (cro_edit_set_selling_price (tried, "price", menu_of (tried), CRO_TEST_DAY, 10 * 1000000,
                                             &error), error);
  holds = cro_holds_new (tried, menu_of (tried), 5);
  for (guint i = 0; i < holds->len; i++)
    {
      const CroHold *hold = &g_array_index (holds, CroHold, i);
      g_autofree char *words = cro_hold_words (tried, hold);

      n[hold->kind]++;
      if (hold->answer == CRO_HOLD_OK)
        assert_false (is_over_with (tried, menu_of (tried), hold, 0));
      if (hold->kind == CRO_HOLD_SELLING)
        assert_int_equal (hold->value, 13640000);
      if (hold->kind == CRO_HOLD_PRICE && hold->item == item_of (tried, "Turbot"))
        assert_int_equal (hold->value, 13450000);
      if (hold->kind == CRO_HOLD_AMOUNT && hold->recipe == plate_named (tried, "Turbot roasted"))
        assert_non_null (strstr (words, "Turbot roasted"));
    }
  assert_int_equal (n[CRO_HOLD_SELLING], 1);
  assert_int_equal (n[CRO_HOLD_PRICE], 2);
  assert_int_equal (n[CRO_HOLD_AMOUNT], 3);
}

/* What comes to more than anybody writes is no price, and holds at any. */
static void
test_absurd_figures_hold_nothing (void **state)
{
  Fixture *self = *state;
  CroBook *tried = cro_trial_get_book (self->trial);
  gint64 plate = cro_model_recipe (cro_book_get_model (tried), plate_of (tried).slot)->id;
  CroCell least = CRO_CELL_INT (1), much = CRO_CELL_INT (G_GINT64_CONSTANT (1000000000000000));
  CroCell dear = CRO_CELL_INT (G_GINT64_CONSTANT (9000000000000000000)), third = CRO_CELL_INT (30000000);
  g_autoptr (GArray) never = NULL, always = NULL;
  GError *error = NULL;

  cro_test_must (cro_book_set (tried, "a", "plate", plate, "target_pct_micro", &least, &error), error);
  cro_test_must (cro_book_set (tried, "a", "recipe_line", 1, "amount_micro", &much, &error), error);
  never = cro_holds_new (tried, plate_of (tried), 3);
  assert_int_equal (g_array_index (never, CroHold, 0).answer, CRO_HOLD_NEVER);

  cro_test_must (cro_book_set (tried, "a", "recipe_line", 1, "amount_micro", &least, &error), error);
  cro_test_must (cro_book_set (tried, "a", "plate", plate, "price_micro", &dear, &error), error);
  cro_test_must (cro_book_set (tried, "a", "plate", plate, "target_pct_micro", &third, &error), error);
  always = cro_holds_new (tried, plate_of (tried), 3);
  assert_int_equal (always->len, 3);
  for (guint i = 1; i < always->len; i++)
    assert_int_equal (g_array_index (always, CroHold, i).answer, CRO_HOLD_ALWAYS);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_what_holds_a_target, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_why_a_target_is_not_held, set_up, tear_down),
    cmocka_unit_test (test_targets_of_random_books),
    cmocka_unit_test_setup_teardown (test_what_holds_a_menus_target, set_up_menu, tear_down),
    cmocka_unit_test_setup_teardown (test_absurd_figures_hold_nothing, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
