/* Documents in a round that are known again: by their numbers and days, beside later prices, and when they were set
 * aside. */
#include "support/kitchen-billed.h"

#include <glib/gstdio.h>

/* 2 boxes of 4 kg of what turns out to be crab, of which the book has packs of 5 kg: they hold 4 kg beside another
 * copy of the book too, and when they are taken up again. */
static void
test_pack_is_said_first (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (kitchen), again = round_of (kitchen);
  g_autofree char *kept = g_build_filename (kitchen->folder.folder, "kept", NULL), *aside = NULL, *second = NULL;
  g_autoptr (CroRoundPost) posted = NULL;
  g_autoptr (GError) error = NULL;
  guint index;

  assert_taken (kitchen, round, "R-8 2026-02-20 -", (const char *const[]){ "- XBX 2 105.60 Brown meat", NULL });
  index = row_of (round, "Brown meat");
  assert_true (cro_round_can_hold (round, index) && cro_round_hold (round, index, "4 kg", &error));
  assert_true (cro_round_can_call (round, index) && cro_round_call (round, index, 0, &error));
  assert_true (cro_round_renew (round, cro_round_get_from (round), &error));
  assert_true (cro_round_keep_invoice (round, kept, &error));
  aside = cro_round_to_text (round);
  assert_non_null (strstr (aside, "holds 1000000 4000000 kg"));
  cro_round_set_kept (again, kept);
  assert_true (cro_round_put_text (again, aside, &error));
  second = cro_round_to_text (again);
  assert_string_equal (second, aside);
  posted = post (again);
  assert_bought (kitchen, "crab food 8 105.6\n");
}

/* A file of state that something else wrote: é that is no text, a stroke that is of nothing. */
static void
test_set_aside_by_another (void **state)
{
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (GError) error = NULL;

  assert_true (cro_round_put_text (round, "new - cr\\350me 1 l 3.20\nnew - hake 2 kg 20\\\n"
                                          "line 1 called \\351\\", &error));
  assert_int_equal (cro_round_get_n_rows (round), 3);
  for (guint i = 0; i < 3; i++)
    assert_true (g_utf8_validate (cro_round_get_row (round, i)->text, -1, NULL));
  assert_string_equal (cro_round_get_row (round, 2)->text, "hake 2 kg 20");
}

/* Whatever file a text names that is set aside: one that is not the round's own stays where it is, booked or not. */
static void
test_set_aside_names_a_file (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  CroTestKitchen *kitchen = *state;
  g_autofree char *invoice = document (kitchen, "N-5 2026-02-14 -", lines);
  g_autofree char *list = g_build_filename (kitchen->folder.folder, "list.csv", NULL);
  g_autofree char *aside = g_build_filename (kitchen->folder.folder, "aside", "kept", NULL);
  const char *files[] = { list, invoice };

  assert_true (g_file_set_contents (list, "Code;Product;Pack;Price\n101;Crab;5 kg;67\n", -1, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (files); i++)
    {
      g_autofree char *said = g_strdup_printf ("invoice %s/aside/../%s\n", kitchen->folder.folder,
                                               strrchr (files[i], '/') + 1);
      g_autoptr (CroRound) round = round_of (kitchen);
      g_autoptr (CroRoundPost) posted = NULL;

      cro_round_set_kept (round, aside);
      assert_true (cro_round_put_text (round, said, NULL));
      assert_false (cro_round_is_invoice_kept (round));
      assert_int_equal (cro_round_count_ready (round), 1);
      posted = post (round);
      assert_true (g_file_test (files[i], G_FILE_TEST_EXISTS));
    }
}

static void
test_set_aside_is_gone (void **state)
{
  g_autoptr (CroRound) round = round_of (*state);
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;
  static const char text[] = "new - hake 2 kg 20\ninvoice /nowhere/kept.xml\nbilled 1 70000000 EUR N-5\n";

  assert_false (cro_round_put_text (round, text, &error));
  assert_int_equal (cro_round_get_n_rows (round), 2);
  words = cro_words_round_lost (text, error);
  assert_string_equal (words, "The invoice that was set aside in /nowhere/kept.xml could not be read again: there is no"
                              " such file or folder. Drop the invoice here once more.");
  g_free (words);
  g_clear_error (&error);
  g_set_error_literal (&error, CRO_INVOICE_ERROR, CRO_INVOICE_ERROR_DAMAGED, "depth");
  words = cro_words_round_lost (text, error);
  assert_string_equal (words, "The invoice that was set aside in /nowhere/kept.xml could not be read again: the"
                              " document is damaged. Drop the invoice here once more.");
  g_free (words);
  g_clear_error (&error);
  g_set_error_literal (&error, CRO_STORE_ERROR, CRO_STORE_ERROR_LOCKED, "locked");
  words = cro_words_round_lost (text, error);
  assert_true (g_str_has_prefix (words, "What was set aside could not be put back: another program"));
}

/* One number that reads like another is asked about, once for all of its lines. */
static void
test_numbers (void **state)
{
  static const char *const lines[] = { CRAB, "- C62 1 4.50 Carriage", NULL };
  static const char *const alike[] = { "n-4", "N\u00a0-4", "N-\u200b4", "\uff2e-4" };
  g_autoptr (CroRound) round = round_of (*state), other = NULL;
  g_autoptr (CroRoundPost) posted = NULL, second = NULL;
  g_autoptr (CroPriceList) refused = NULL;

  assert_taken (*state, round, "N-4 2026-02-14 -", lines);
  posted = post (round);
  for (gsize i = 0; i < G_N_ELEMENTS (alike); i++)
    {
      g_autoptr (CroRound) again = round_of (*state);
      g_autofree char *head = g_strdup_printf ("%s 2026-02-14 -", alike[i]);

      assert_taken (*state, again, head, lines);
      assert_int_equal (cro_round_count_ready (again), 0);
      assert_int_equal (cro_round_count_waiting (again), 2);
    }
  other = round_of (*state);
  refused = take (*state, other, "N-4 2026-02-14 -", lines);
  assert_true (refused->is_all_booked);
  assert_taken (*state, other, "n-4 2026-02-14 -", lines);
  assert_note (other, "Carriage", "Document n-4 is booked already, as N-4. Is this another one?");
  assert_true (cro_round_is_right (other, row_of (other, "Crab"), NULL));
  assert_int_equal (cro_round_count_ready (other), 2);
  second = post (other);
  assert_int_equal (second->rows->len, 2);
  assert_bought (*state, "crab food 2 28\nCarriage other 0 4.5\ncrab food 2 28\nCarriage other 0 4.5\n");
}

/* What waits of one without a number waits on, and nothing of it is booked twice; what was booked by hand that day is
 * not its. */
static void
test_no_number (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroRound) round = round_of (*state), again = NULL;
  g_autoptr (CroRoundPost) posted = NULL, second = NULL;
  g_autoptr (CroPriceList) refused = NULL;
  g_autofree char *why = NULL, *kept = NULL, *aside = NULL, *words = NULL;

  assert_taken (*state, round, "- 2026-02-14 -", mixed);
  posted = post (round);
  assert_non_null (cro_round_get_invoice (round));
  assert_int_equal (cro_round_count_waiting (round), 2);
  kept = g_build_filename (kitchen->folder.folder, "kept", NULL);
  assert_true (cro_round_keep_invoice (round, kept, NULL));
  aside = cro_round_to_text (round);
  words = cro_words_round_aside (aside);
  assert_string_equal (words, "Set aside of an invoice without a number: 2 lines, 43.00 EUR, not booked");
  sort (round, "Bin liners", CRO_LIST_GOODS_DISPOSABLE);
  sort (round, "Linen hire", CRO_LIST_GOODS_OTHER);
  second = post (round);
  assert_bought (*state, "crab food 2 28\nBin liners (HY-20) disposable 0 31\nLinen hire other 0 12\n");
  again = round_of (*state);
  refused = take (*state, again, "- 2026-02-14 -", mixed);
  why = cro_words_list_refused (refused, NULL);
  assert_string_equal (why,
                       "the book has all lines of this invoice; it has no number, and was known by its date");
  assert_taken (*state, again, "- 2026-02-15 -", mixed);
}

static void
test_impossible_dates (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  static const struct { const char *head, *says; } cases[] = {
    { "N-5 2026-02-14 2026-02-31", "“2026-02-31” is not a date; the invoice is booked on 2026-02-14" },
    { "N-6 2026-13-14 -", "“2026-13-14” is not a date; the invoice is booked on 2026-02-16" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroRound) round = round_of (*state);
      g_autofree char *said = NULL;

      assert_taken (*state, round, cases[i].head, lines);
      said = cro_words_round_invoice (round);
      assert_non_null (strstr (said, cases[i].says));
    }
}

/* 14.00 per kg delivered on 14 Feb, which was quoted 13.20; on the 15th 75.00 for 5 kg, or none, was posted. By
 * hand. */
static void
test_older_than_the_list (void **state)
{
  static const char *const lines[] = { CRAB, NULL };
  static const char *const since[] = { "75", "-" };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (since); i++)
    {
      g_autoptr (CroRound) first = round_of (kitchen), round = NULL;
      g_autoptr (CroRoundPost) typed = NULL, posted = NULL;
      g_autofree char *change = NULL;
      CroModel *model;
      guint32 crab;
      double before;

      assert_true (cro_round_renew (first, CRO_TEST_DAY - 1, NULL));
      assert_true (cro_round_type (first, 0, since[i], NULL));
      typed = post (first);
      round = round_of (kitchen);
      assert_taken (kitchen, round, "N-7 2026-02-14 -", lines);
      change = cro_words_round_change (cro_round_get_row (round, row_of (round, "Crab")));
      assert_true (g_str_has_prefix (change, "+6.1"));
      model = cro_book_get_model (cro_round_get_draft (round));
      crab = cro_edit_find_name (model, CRO_NAMES_ITEMS, "Crab").slot;
      before = cro_figures_unit_cost (cro_book_get_figures (cro_round_get_draft (round)), crab);
      posted = post (round);
      assert_true (before == (i == 0 ? 0.015 : 0.014));
      assert_true (cro_figures_unit_cost (cro_book_get_figures (kitchen->book), crab) == before);
      assert_true (cro_round_undo (kitchen->book, NULL, posted, NULL, NULL));
      assert_true (cro_round_undo (kitchen->book, NULL, typed, NULL, NULL));
    }
}

/* Posted is posted, whether what waits can be read again or not; the rows are those of the book, by the list's pack
 * of 5 kg. */
static void
test_file_is_gone (void **state)
{
  g_autoptr (CroRound) round = round_of (*state);
  g_autofree char *path = document (*state, "N-8 2026-02-14 -", mixed);
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroRoundPost) posted = NULL;

  assert_true (cro_round_take (round, path, NULL, &taken, NULL));
  assert_int_equal (g_remove (path), 0);
  posted = cro_round_post (round, "posted", faults, NULL);
  assert_non_null (posted);
  assert_non_null (posted->failed);
  assert_bought (*state, "crab food 2 28\n");
  assert_null (cro_round_get_invoice (round));
  assert_false (cro_round_is_behind (round));
  assert_int_equal (cro_round_get_row (round, 0)->last, 5 * 14000000);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_pack_is_said_first), CASE (test_set_aside_by_another), CASE (test_set_aside_names_a_file),
    CASE (test_set_aside_is_gone), CASE (test_numbers), CASE (test_no_number), CASE (test_impossible_dates),
    CASE (test_older_than_the_list), CASE (test_file_is_gone),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
