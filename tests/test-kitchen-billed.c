/* Lines of an invoice in a round: what is no ingredient, what is given back or free, what becomes of charges. */
#include "support/kitchen-billed.h"

/* --- What is no price --------------------------------------------------------------------------------------- */

/* costing.md §11: disposables and others stand beside food, each on its line. The answer is the supplier's code's, by
 * whatever name, until what it was given for is taken back. */
static void
test_not_food (void **state)
{
  static const char *const later[] = { "HY-20 C62 5 16.00 Sacks 100 l", LINEN, NULL };
  g_autoptr (CroRound) round = round_of (*state), second = round_of (*state), third = NULL, fourth = NULL;
  g_autoptr (CroRoundPost) posted = NULL, posted_later = NULL;
  g_autofree char *aside = NULL, *kept = NULL;
  g_autoptr (GError) error = NULL;
  CroTestKitchen *kitchen = *state;

  assert_taken (*state, round, "N-1 2026-02-14 -", mixed);
  assert_int_equal (cro_round_count_waiting (round), 2);
  assert_false (cro_round_can_sort (round, row_of (round, "Crab")));
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  assert_note (round, "Bin liners", "Disposables: 31.00 is booked, no price.");
  sort (round, "Linen hire", CRO_LIST_GOODS_DISPOSABLE);
  sort (round, "Linen hire", CRO_LIST_GOODS_INGREDIENT);
  assert_int_equal (cro_round_count_waiting (round), 1);
  sort (round, "Linen hire", CRO_LIST_GOODS_OTHER);
  /* What was said stays said when it is set aside. */
  kept = g_build_filename (kitchen->folder.folder, "kept", NULL);
  assert_true (cro_round_keep_invoice (round, kept, &error));
  aside = cro_round_to_text (round);
  cro_round_set_kept (second, kept);
  assert_true (cro_round_put_text (second, aside, &error));
  assert_int_equal (cro_round_count_waiting (second), 0);
  posted = post (second);
  assert_int_equal (posted->rows->len, 3);
  /* Undone it stands there again, with what was said of its lines. */
  assert_false (g_file_test (kept, G_FILE_TEST_EXISTS));
  assert_true (cro_round_undo (kitchen->book, NULL, posted, NULL, &error));
  assert_true (cro_round_renew (second, cro_round_get_from (second), &error));
  assert_true (cro_round_retype (second, posted, &error));
  assert_int_equal (cro_round_count_ready (second), 3);
  assert_int_equal (cro_round_count_waiting (second), 0);
  g_clear_pointer (&posted, cro_round_post_free);
  posted = post (second);
  assert_bought (*state, "crab food 2 28\nBin liners (HY-20) disposable 0 31\nLinen hire other 0 12\n");
  assert_int_equal (cro_edit_find_name (cro_book_get_model (kitchen->book), CRO_NAMES_ITEMS, "Bin liners").kind,
                    CRO_REF_NONE);
  third = round_of (*state);
  assert_taken (*state, third, "N-2 2026-02-15 -", later);
  assert_int_equal (cro_round_count_waiting (third), 0);
  assert_note (third, "Sacks 100 l", "Disposables, as last time: 16.00 is booked, no price.");
  assert_note (third, "Linen hire", "No ingredient, as last time: 12.00 is booked as other, no price.");
  posted_later = post (third);
  assert_true (cro_round_undo (kitchen->book, NULL, posted_later, NULL, &error));
  assert_true (cro_round_undo (kitchen->book, NULL, posted, NULL, &error));
  assert_bought (*state, "");
  fourth = round_of (*state);
  assert_taken (*state, fourth, "N-2 2026-02-15 -", later);
  assert_int_equal (cro_round_count_waiting (fourth), 2);
}

/* 2 kg of crab that go back, of which the document only says 28.00. */
static void
test_return (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  g_autoptr (CroRound) round = round_of (*state), again = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (CroPriceList) refused = NULL;
  g_autofree char *billed = NULL;

  assert_taken (*state, round, "N-3 2026-02-14 -", lines);
  assert_true (cro_round_can_turn (round, row_of (round, "Crab")));
  assert_true (cro_round_turn (round, row_of (round, "Crab"), TRUE, NULL));
  assert_true (cro_round_turn (round, row_of (round, "Crab"), FALSE, NULL));
  billed = cro_words_round_billed (round);
  assert_string_equal (billed, "Crab, 2 kg: quoted 26.40, billed 28.00, 1.60 to reclaim\n1.60 to reclaim");
  assert_true (cro_round_turn (round, row_of (round, "Crab"), TRUE, NULL));
  assert_note (round, "Crab", "Returned: −28.00 is booked, no price.");
  assert_true (cro_round_get_invoice (round)->reclaim == CRO_NOT_SET);
  assert_true (cro_round_renew (round, CRO_TEST_DAY, NULL));
  assert_note (round, "Crab", "Returned: −28.00 is booked, no price.");
  posted = post (round);
  assert_int_equal (posted->rows->len, 1);
  assert_bought (*state, "crab food -2 -28\n");
  again = round_of (*state);
  refused = take (*state, again, "N-3 2026-02-14 -", lines);
  assert_true (refused->is_all_booked && !refused->is_booked_otherwise);
}

/* Of 2 kg at 13.20 each 0.60 is given back: goods at 0.30, or a part of what they cost, which is said in the round,
 * when it is set aside and when it is read again. By hand. */
static void
test_price_goes_back (void **state)
{
  static const char *const lines[] = { "101 KGM -2 -0.60 Crab", NULL };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen), other = round_of (kitchen), again = NULL, third = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (CroPriceList) refused = NULL;
  g_autofree char *kept = g_build_filename (kitchen->folder.folder, "kept", NULL), *aside = NULL;
  guint index;

  assert_taken (kitchen, other, "C-2 2026-02-14 -", lines);
  assert_true (cro_round_is_right (other, row_of (other, "Crab"), NULL));
  assert_note (other, "Crab", "Returned: −0.60 is booked, no price.");
  assert_taken (kitchen, round, "C-1 2026-02-14 -", lines);
  index = row_of (round, "Crab");
  assert_note (round, "Crab", "The credit is 0.30 for 1 kg, the price was 13.20: do the goods go back, or a part of "
                              "the price?");
  assert_true (cro_round_row_asks_back (cro_round_get_row (round, index)));
  assert_true (cro_round_suggest (round, index, NULL));
  assert_note (round, "Crab", "Price credited: −0.60 is booked, the goods stay.");
  assert_true (cro_round_give_back (round, index, CRO_LIST_BACK_GOODS, NULL));
  assert_note (round, "Crab", "Returned: −0.60 is booked, no price.");
  assert_true (cro_round_give_back (round, index, CRO_LIST_BACK_PRICE, NULL));
  assert_true (cro_round_renew (round, CRO_TEST_DAY, NULL));
  assert_true (cro_round_keep_invoice (round, kept, NULL));
  aside = cro_round_to_text (round);
  again = round_of (kitchen);
  assert_true (cro_round_put_text (again, aside, NULL));
  assert_note (again, "Crab", "Price credited: −0.60 is booked, the goods stay.");
  posted = post (again);
  assert_bought (kitchen, "crab food 0 -0.6\n");
  third = round_of (kitchen);
  refused = take (kitchen, third, "C-1 2026-02-14 -", lines);
  assert_true (refused->is_all_booked && !refused->is_booked_otherwise);
}

/* Of 2 kg for 28.00 neither 20 kg go back nor 56.00, and good will is no carriage, though it is for a late delivery. */
static void
test_more_goes_back (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  static const char *const goods[] = { "101 KGM -20 -280.00 Crab", "- C62 -1 -5.00 Goodwill for late delivery",
                                       "- C62 -1 -4.50 Delivery charge", NULL };
  static const char *const prices[][2] = { { "101 KGM -4 -56.00 Crab" }, { "103 XBX -4 -56.00 Crab" } };
  g_autoptr (CroRound) round = round_of (*state), back = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  guint index;

  assert_taken (*state, round, "N-1 2026-02-14 -", lines);
  posted = post (round);
  back = round_of (*state);
  assert_taken (*state, back, "C-1 2026-02-15 -", goods);
  assert_int_equal (cro_round_count_waiting (back), 2);
  assert_note (back, "Crab", "20 kg goes back, and of what was bought 2 kg has not gone back yet. Is it right?");
  assert_true (cro_round_is_right (back, row_of (back, "Crab"), NULL));
  assert_note (back, "Crab", "Returned: −280.00 is booked, no price.");
  /* What a box holds, which nothing tells, is no matter. */
  for (guint i = 0; i < G_N_ELEMENTS (prices); i++)
    {
      g_autoptr (CroRound) less = round_of (*state);

      assert_taken (*state, less, "C-2 2026-02-15 -", prices[i]);
      index = row_of (less, "Crab");
      assert_true (cro_round_give_back (less, index, CRO_LIST_BACK_PRICE, NULL));
      assert_note (less, "Crab", "56.00 of the price is credited, and of what was billed 28.00 is not credited yet. Is "
                                 "it right?");
      assert_int_equal (cro_round_count_ready (less), 0);
      assert_true (cro_round_is_right (less, index, NULL));
      assert_note (less, "Crab", "Price credited: −56.00 is booked, the goods stay.");
    }
}

/* 1 kg of 10 that goes back by another name: said to be right it stops no price of what is delivered. */
static void
test_return_beside_a_delivery (void **state)
{
  static const char *const lines[] = { "101 KGM 10 150.00 Crab", "101 KGM -1 -15.00 Hake", NULL };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroRoundPost) posted = NULL;

  assert_taken (*state, round, "N-4 2026-02-14 -", lines);
  assert_true (cro_round_can_be_right (round, row_of (round, "Hake")));
  assert_true (cro_round_is_right (round, row_of (round, "Hake"), NULL));
  posted = post (round);
  assert_bought (*state, "crab food 10 150\ncrab food -1 -15\n");
  assert_true (cro_model_offer (cro_book_get_model (kitchen->book), 0)->offer.price == 15 * CRO_MICRO);
  /* Beside another invoice it cannot stand in the round again. */
  assert_true (cro_round_can_retype (round, posted));
  assert_taken (*state, round, "N-6 2026-02-14 -", lines);
  assert_false (cro_round_can_retype (round, posted));
}

/* A crab at 13.20, of a pack of 5 kg at 66.00: 9 kg for that would be a ninth of the price before, which what is said
 * of the pack does not answer; said anew, 1 kg is the price before. */
static void
test_pack_is_said (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen);
  const CroRoundRow *row;
  guint index;

  assert_taken (kitchen, round, "R-7 2026-02-20 -", (const char *const[]){ "101 C62 2 26.40 Crab", NULL });
  index = row_of (round, "Crab");
  row = cro_round_get_row (round, index);
  assert_int_equal (row->list.look.kind, CRO_LOOK_PACK);
  /* That 13.20 is right says neither that it is of the kilogram nor that it is of the book's pack. */
  assert_false (cro_round_can_be_right (round, index));
  assert_true (cro_round_can_hold (round, index) && cro_round_hold (round, index, "9 kg", NULL));
  assert_true (cro_round_row_waits (row) && cro_round_can_be_right (round, index));
  assert_true (cro_round_can_hold (round, index) && cro_round_hold (round, index, "1 kg", NULL));
  assert_true (cro_round_row_is_ready (row));
}

/* 70.00 typed beside 14.00 per kg of 5 kg, of one day: one of both is posted, and listed. */
static void
test_typed_gives_way (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroRoundPost) posted = NULL;
  char day[CRO_DATE_CHARS];
  g_autofree char *head = NULL;

  cro_date_format (CRO_TEST_DAY, day);
  head = g_strdup_printf ("N-5 %s -", day);
  assert_true (cro_round_type (round, 0, "70", NULL));
  assert_taken (*state, round, head, lines);
  assert_int_equal (cro_round_count_ready (round), 2);
  posted = post (round);
  assert_int_equal (posted->rows->len, 1);
  assert_non_null (((CroRoundPosted *) posted->rows->pdata[0])->booked);
  assert_non_null (((CroRoundPosted *) posted->rows->pdata[0])->price);
}

/* --- Charges on the whole ---------------------------------------------------------------------------------- */

static void
assert_said (char       *said,
             const char *part)
{
  if (strstr (said, part) == NULL)
    fail_msg ("“%s” does not say “%s”", said, part);
  g_free (said);
}

/* Of 28.00 and 31.00 a tenth each. Lines that are booked get their parts when it is said that they have any; liners
 * that are disposables theirs. By hand. */
static void
test_charges_said_later (void **state)
{
  static const char *const lines[] = { CRAB, LINERS, "+ 5.90", NULL };
  g_autoptr (CroRound) round = round_of (*state), again = NULL, third = NULL;
  g_autoptr (CroRoundPost) posted = NULL, second = NULL;
  g_autoptr (CroPriceList) refused = NULL;

  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  posted = post (round);
  assert_bought (*state, "crab food 2 28\nBin liners (HY-20) disposable 0 31\n");
  again = round_of (*state);
  assert_taken (*state, again, "N-9 2026-02-14 -", lines);
  assert_true (cro_round_asks_whole (again));
  assert_true (cro_round_say_whole (again, CRO_WHOLE_SPREAD, NULL));
  assert_int_equal (cro_round_count_ready (again), 2);
  /* Crab was compared when it was posted: that nothing is to be compared is not so. */
  assert_null (cro_words_round_billed (again));
  assert_note (again, "Crab", "Its part of the charges on the whole document: 2.80.");
  assert_false (cro_round_can_sort (again, row_of (again, "Bin liners")));
  assert_said (cro_words_round_invoice (again), "booked 59.00 of 64.90 · posting books 5.90 ·");
  second = post (again);
  assert_bought (*state, "crab food 2 28\nBin liners (HY-20) disposable 0 31\ncrab food 0 2.8\n"
                         "Bin liners (HY-20) disposable 0 3.1\n");
  third = round_of (*state);
  refused = take (*state, third, "N-9 2026-02-14 -", lines);
  assert_true (refused->is_all_booked && !refused->is_booked_otherwise);
}

/* A line that goes back takes its part along, and both come back. */
static void
test_part_goes_with_its_line (void **state)
{
  static const char *const lines[] = { CRAB, LINERS, "+ 5.90", NULL };
  CroTestKitchen *kitchen = *state;
  g_autoptr (GPtrArray) posts = g_ptr_array_new_with_free_func ((GDestroyNotify) cro_round_post_free);
  g_autoptr (CroRound) round = round_of (*state), again = NULL;
  g_autoptr (GError) error = NULL;
  CroRoundPosted *crab;

  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  g_ptr_array_add (posts, post (round));
  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  assert_true (cro_round_say_whole (round, CRO_WHOLE_SPREAD, NULL));
  g_ptr_array_add (posts, post (round));
  crab = ((CroRoundPost *) posts->pdata[0])->rows->pdata[0];
  assert_true (cro_round_take_back (kitchen->book, "back", posts, crab, NULL));
  assert_bought (*state, "Bin liners (HY-20) disposable 0 31\nBin liners (HY-20) disposable 0 3.1\n");
  /* Of what has a part already no other answer is taken, and the line stays. */
  assert_true (cro_round_renew (round, CRO_TEST_DAY, NULL));
  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  assert_false (cro_round_say_whole (round, CRO_WHOLE_LEFT_OUT, &error));
  assert_string_equal (error->message, "the book has purchases of document N-9 with other amounts");
  assert_non_null (cro_round_get_invoice (round));
  assert_int_equal (cro_round_get_invoice (round)->whole, CRO_WHOLE_SPREAD);
  assert_true (row_of (round, "Crab") != CRO_NO_SLOT);
  /* The file is taken again, and books what the book has not. */
  again = round_of (*state);
  assert_taken (*state, again, "N-9 2026-02-14 -", lines);
  assert_int_equal (cro_round_count_ready (again) + cro_round_count_waiting (again), 1);
  for (guint i = 2; i > 0; i--)
    assert_true (cro_round_undo (kitchen->book, posts, posts->pdata[i - 1], NULL, NULL));
  assert_bought (*state, "");
}

/* What is said of the charges, of what is given back and of the document's total is what is booked. */
static void
test_charges_in_words (void **state)
{
  static const char *const lines[] = { CRAB, LINERS, "+ 5.90", NULL };
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroRoundPost) posted = NULL;

  assert_taken (*state, round, "N-10 2026-02-14 -", lines);
  assert_true (cro_round_say_whole (round, CRO_WHOLE_SPREAD, NULL));
  assert_said (cro_words_round_invoice (round), "spread over its goods: 5.90, of it 3.10 on lines that wait");
  assert_true (cro_round_say_whole (round, CRO_WHOLE_LEFT_OUT, NULL));
  assert_said (cro_words_round_invoice (round), "charges of 5.90 on the whole document are left out");
  assert_true (cro_round_say_whole (round, CRO_WHOLE_BOOKED, NULL));
  sort (round, "", CRO_LIST_GOODS_DISPOSABLE);
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  assert_true (cro_round_turn (round, row_of (round, "Crab"), TRUE, NULL));
  assert_said (cro_words_round_invoice (round), "booked as disposables: 5.90");
  posted = post (round);
  assert_bought (*state, "crab food -2 -28\nBin liners (HY-20) disposable 0 31\n disposable 0 5.9\n");
}

/* What is given free is booked and says no price, whatever is accepted of its document; a corrected invoice may have
 * what is booked already. 2 kg at 14.00, one free, and a pack of 5 kg at the same price per kg. */
static void
test_free_goods (void **state)
{
  static const char *const lines[] = { "= 384", CRAB, "101 KGM 1 0.00 Crab", "101 EA 1 70.00 Crab", NULL };
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (CroRoundPost) posted = NULL;
  g_autofree char *note = NULL;
  guint first;

  assert_taken (*state, round, "N-9 2026-02-14 -", lines);
  assert_int_equal (cro_round_count_waiting (round), 3);
  first = cro_round_get_n_rows (round) - 3;
  note = cro_words_round_note (round, first);
  assert_string_equal (note, "The document is a corrected invoice (type 384). Is it to be booked as an invoice?");
  assert_true (cro_round_is_right (round, first + 1, NULL));
  assert_int_equal (cro_round_count_waiting (round), 0);
  posted = post (round);
  assert_bought (*state, "crab food 2 28\ncrab food 1 0\ncrab food 5 70\n");
  assert_int_equal (cro_round_get_row (round, 0)->last, 5 * 14000000);
}

static void
test_closed_month (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *said = cro_words_prices_closed (kitchen->book, CRO_TEST_DAY - 20);

  assert_string_equal (said, "months closed up to 2026-01-31 do not change");
  assert_null (cro_words_prices_closed (kitchen->book, CRO_TEST_DAY));
}

/* A reason that is not told would be read as another. */
static void
test_each_reason_is_told (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (GHashTable) told = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  CroPriceList list = { .currency = "EUR" };
  CroListRow row = { .code = "101", .offer = CRO_NO_SLOT,
                     .look = { .kind = CRO_LOOK_FAR, .ratio = 2, .meant = CRO_NOT_SET } };

  for (guint why = 0; why <= CRO_LIST_TOO_LARGE; why++)
    {
      CroListReason reason = { why, "text", "other" };
      char *words = cro_words_list_reason (cro_book_get_model (kitchen->book), &list, &row, &reason);

      if (words == NULL || *words == '\0' || !g_hash_table_add (told, words))
        fail_msg ("reason %u: %s", why, words);
    }
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_not_food), CASE (test_return), CASE (test_price_goes_back), CASE (test_more_goes_back),
    CASE (test_return_beside_a_delivery), CASE (test_pack_is_said), CASE (test_typed_gives_way),
    CASE (test_charges_said_later), CASE (test_part_goes_with_its_line), CASE (test_charges_in_words),
    CASE (test_free_goods), CASE (test_closed_month), CASE (test_each_reason_is_told),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
