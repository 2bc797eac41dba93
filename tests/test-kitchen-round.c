/* A round of new prices of one supplier: how what is typed is read, what is asked, and what it does to plates before
 * it is posted and after. */
#include "cro-decimal.h"
#include "cro-round-words.h"
#include "support/kitchen-round.h"

#include <math.h>

static void
test_order (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (GError) error = NULL;

  assert_int_equal (cro_round_get_n_rows (round), 3);
  assert_int_equal (row_of (round, "Mussels"), 0);
  assert_int_equal (row_of (round, "Crab"), 1);
  assert_int_equal (row_of (round, "Egg"), 2);
  assert_true (cro_round_move (round, 2, -1, "order", &error));
  assert_int_equal (row_of (round, "Egg"), 1);
  cro_round_renew (round, cro_round_get_from (round), &error);
  assert_no_error (error);
  assert_int_equal (row_of (round, "Egg"), 1);
}

/* Crab, 5 kg for 66.00; hake per kg, 10 kg for 112.00 GBP. 69.50 × 5 / 4 per kg and so on: by hand. */
static void
test_typed (void **state)
{
  static const struct
  {
    const char  *supplier, *name, *text;
    CroRoundKind kind;
    gint64       price;
    double       size;
    gboolean     waits;
  } cases[] = {
    { "Quay", "Crab", "69.50", CRO_ROUND_PRICED, 69500000, 5, FALSE },
    { "Quay", "Crab", "69,5", CRO_ROUND_PRICED, 69500000, 5, FALSE },
    { "Quay", "Crab", "13.90/kg", CRO_ROUND_PRICED, 69500000, 5, FALSE },
    { "Quay", "Crab", "55.60/4 kg", CRO_ROUND_PRICED, 55600000, 4, FALSE },
    { "Quay", "Crab", "1.40/100 g", CRO_ROUND_PRICED, 70000000, 5, FALSE },
    { "Quay", "Crab", "1.40/1 × 100 g", CRO_ROUND_PRICED, 1400000, 100, FALSE },
    { "Quay", "Crab", "55.60/4 kg EUR", CRO_ROUND_PRICED, 55600000, 4, FALSE },
    { "Quay", "Crab", "55.60 per 4 kg €", CRO_ROUND_PRICED, 55600000, 4, FALSE },
    { "Quay", "Crab", "1 kg 14", CRO_ROUND_PRICED, 14000000, 1, FALSE },
    { "Quay", "Crab", "66/4 kg", CRO_ROUND_PRICED, 66000000, 4, TRUE },
    { "Quay", "Crab", "+5 %", CRO_ROUND_PRICED, 69300000, 5, FALSE },
    { "Quay", "Crab", "-0.40", CRO_ROUND_PRICED, 65600000, 5, FALSE },
    { "Quay", "Crab", "=", CRO_ROUND_AS_LAST, 66000000, 5, FALSE },
    { "Quay", "Crab", ".", CRO_ROUND_AS_LAST, 66000000, 5, FALSE },
    { "Quay", "Crab", "as last", CRO_ROUND_AS_LAST, 66000000, 5, FALSE },
    { "Quay", "Crab", "-", CRO_ROUND_NONE, 0, 0, FALSE },
    { "Quay", "Crab", "", CRO_ROUND_EMPTY, 0, 0, FALSE },
    { "Quay", "Crab", "dear", CRO_ROUND_UNREAD, 0, 0, TRUE },
    { "Quay", "Crab", "695", CRO_ROUND_PRICED, 695000000, 5, TRUE },
    { "Quay", "Crab", "60 GBP", CRO_ROUND_PRICED, 60000000, 5, TRUE },
    { "Quay", "Egg", "48", CRO_ROUND_PRICED, 48000000, 30, FALSE },
    { "Far Bank", "Hake", "11.60", CRO_ROUND_PRICED, 116000000, 10, FALSE },
    { "Far Bank", "Hake", "11.60 GBP", CRO_ROUND_PRICED, 116000000, 10, FALSE },
    { "Far Bank", "Hake", "+0.40", CRO_ROUND_PRICED, 116000000, 10, FALSE },
    { "Far Bank", "Hake", "92.80/8 kg", CRO_ROUND_PRICED, 92800000, 8, FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state, cases[i].supplier);
      const CroRoundRow *row = cro_round_get_row (round, row_of (round, cases[i].name));

      type (round, cases[i].name, cases[i].text);
      if (row->kind != cases[i].kind || cro_round_row_waits (row) != cases[i].waits)
        fail_msg ("“%s” for %s is of kind %d%s", cases[i].text, cases[i].name, row->kind,
                  cro_round_row_waits (row) ? " and waits" : "");
      if (cases[i].price > 0 && (row->list.price != cases[i].price
                                 || row->list.pack.size != (gint64) llround (cases[i].size * 1e6)))
        fail_msg ("“%s” for %s is %g for %g", cases[i].text, cases[i].name, (double) row->list.price / 1e6,
                  (double) row->list.pack.size / 1e6);
    }
}

static void
test_second_look (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  const CroRoundRow *crab = cro_round_get_row (round, row_of (round, "Crab"));
  g_autofree char *slip = NULL, *pounds = NULL;
  g_autoptr (GError) error = NULL;

  type (round, "Crab", "695");
  slip = cro_round_dup_suggestion (round, row_of (round, "Crab"));
  assert_string_equal (slip, "69.50");
  assert_true (cro_round_suggest (round, row_of (round, "Crab"), &error));
  assert_true (cro_round_row_is_ready (crab));
  assert_true (crab->list.price == 69500000);
  type (round, "Crab", "695");
  assert_int_equal (cro_round_count_ready (round), 0);
  assert_true (cro_round_is_right (round, row_of (round, "Crab"), &error));
  assert_true (cro_round_row_is_ready (crab));
  type (round, "Crab", "696");
  assert_true (cro_round_row_waits (crab));
  /* 60 pounds are 72 euros. */
  type (round, "Crab", "60 GBP");
  pounds = cro_round_dup_suggestion (round, row_of (round, "Crab"));
  assert_string_equal (pounds, "72.00");
}

/* A number that is read on as a pack and is none is asked about once; a line of nothing else leaves nothing. */
static void
test_sign_is_asked_once (void **state)
{
  static const char *const lines[] = { "Crab 6 x 1,500 dutch", "Crab 24 per 1,500 dutch" };
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (GError) error = NULL;
  guint index;

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      const GArray *reasons;
      guint n = 0;

      assert_true (cro_round_add (round, lines[i], &index, &error));
      reasons = cro_round_get_row (round, index)->list.reasons;
      for (guint k = 0; reasons != NULL && k < reasons->len; k++)
        n += g_array_index (reasons, CroListReason, k).why == CRO_LIST_WHICH_SIGN;
      assert_int_equal (n, 1);
    }
  assert_true (cro_round_add (round, "6 x 1,500", &index, &error));
  assert_int_equal (index, CRO_NO_SLOT);
}

/* 100 g at 13.20 per kg is 1.32 of 4.60, 28.7 %; at 14.20 it is 1.42, 30.9 %. One a day was sold in four
 * weeks: 0.70 more a week. 30 % of 4.60 is 1.38, 13.80 per kg: by hand. */
static void
test_effect (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Quay");
  g_autoptr (GError) error = NULL;
  g_autoptr (CroRoundView) view = cro_round_view_new (round, &error);
  g_autoptr (CroRoundEffect) effect = NULL, none = NULL, mussels = NULL;
  const CroRoundMoved *moved;

  assert_no_error (error);
  type (round, "Crab", "71");
  effect = cro_round_view_read (view, 6);
  assert_int_equal (effect->moved->len, 1);
  moved = &g_array_index (effect->moved, CroRoundMoved, 0);
  assert_true (moved->moved.goes_over);
  assert_true (fabs (moved->moved.after.cost - 1.42) < 1e-9);
  assert_true (fabs (moved->ceiling - 0.0138) < 1e-9);
  assert_true (fabs (effect->week - 0.7) < 1e-9);
  type (round, "Crab", "");
  none = cro_round_view_read (view, 6);
  assert_int_equal (none->moved->len, 0);
  /* Preferred at 4.41 per kg; those of Far Bank are 3.60 pounds, 4.32 euros. */
  type (round, "Mussels", "22.05");
  mussels = cro_round_view_read (view, 6);
  assert_int_equal (mussels->cheaper->len, 1);
  assert_true (fabs (g_array_index (mussels->cheaper, CroRoundCheaper, 0).unit_cost - 0.00432) < 1e-9);
  cro_round_prefer (round, g_array_index (mussels->cheaper, CroRoundCheaper, 0).offer);
  cro_round_effect_free (g_steal_pointer (&mussels));
  mussels = cro_round_view_read (view, 6);
  assert_int_equal (mussels->cheaper->len, 0);
}

/* What was posted did it, whatever somebody makes of the price since: 1.42 at 71, by hand as above. */
static void
test_effect_of_what_was_posted (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen, "Quay");
  g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
  g_autoptr (CroRoundView) view = NULL;
  g_autoptr (CroRoundEffect) effect = NULL;
  g_autoptr (GError) error = NULL;
  const CroRoundPosted *row;
  guint32 slot;

  type (round, "Crab", "71");
  g_ptr_array_add (posts, post (round));
  row = ((CroRoundPost *) posts->pdata[0])->rows->pdata[0];
  slot = cro_slots_get (&cro_book_get_model (kitchen->book)->offer_slots, row->offer);
  assert_true (cro_edit_set_price (kitchen->book, "72", slot, row->from, 72 * CRO_MICRO, &error));
  view = cro_round_view_of_posts (round, posts, &error);
  assert_no_error (error);
  effect = cro_round_view_read (view, 6);
  assert_int_equal (effect->moved->len, 1);
  assert_true (fabs (g_array_index (effect->moved, CroRoundMoved, 0).moved.before.cost - 1.32) < 1e-9);
  assert_true (fabs (g_array_index (effect->moved, CroRoundMoved, 0).moved.after.cost - 1.42) < 1e-9);
}

/* A pack that is to be preferred moves figures from another day as well. What would hold a plate is in the
 * sheet's money: 20 × 30 % / 500 g is 12.00 euros per kg, 10.00 pounds. */
static void
test_preferred_and_held (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Far Bank");
  g_autoptr (GError) error = NULL;
  g_autoptr (CroRoundView) view = NULL;
  g_autoptr (CroRoundEffect) effect = NULL, held = NULL;
  g_autofree char *hold = NULL, *week = NULL, *preferred = NULL;
  g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);

  cro_round_prefer (round, cro_round_get_row (round, row_of (round, "Mussels"))->list.offer);
  assert_true (cro_round_renew (round, cro_round_get_from (round) - 1, &error));
  view = cro_round_view_new (round, &error);
  assert_no_error (error);
  effect = cro_round_view_read (view, 6);
  assert_int_equal (effect->moved->len, 1);
  type (round, "Mussels", "15");
  assert_true (cro_round_is_right (round, row_of (round, "Mussels"), &error));
  held = cro_round_view_read (view, 6);
  hold = cro_words_round_hold (round, held, &g_array_index (held->moved, CroRoundMoved, 0));
  assert_string_equal (hold, "Mussels up to 10.00/kg GBP");
  held->is_short_after = TRUE;
  week = cro_words_round_week (round, held);
  assert_true (g_str_has_prefix (week, "at least "));
  g_ptr_array_add (posts, post (round));
  preferred = cro_words_round_now_preferred (round, posts);
  assert_string_equal (preferred, "Now preferred: Mussels, Far Bank");
}

/* 1.75 per lb are 38.580896 per 10 kg: no price per kg of six places leads back to that. */
static void
test_prices_stay_exact (void **state)
{
  g_autoptr (CroRound) round = round_of (*state, "Far Bank");
  g_autoptr (GError) error = NULL;
  guint hake;

  assert_true (cro_round_add (round, "Hake 10 kg 1.75/lb", &hake, &error));
  assert_int_equal (hake, row_of (round, "Hake"));
  assert_true (cro_round_get_row (round, hake)->list.price == 38580896);
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  assert_true (cro_round_get_row (round, hake)->list.price == 38580896);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_order), CASE (test_typed), CASE (test_second_look), CASE (test_sign_is_asked_once),
    CASE (test_effect), CASE (test_effect_of_what_was_posted), CASE (test_preferred_and_held),
    CASE (test_prices_stay_exact),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
