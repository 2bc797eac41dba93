/* What was posted from the sheet of new prices comes back to it, and what waits on it is set aside with its day. */
#include "support/bench-new-prices.h"

#include "cro-decimal.h"
#include "cro-state.h"

#include <glib/gstdio.h>

static void
test_one_row_back (void **state)
{
  CroTestBench *test = *state;

  open_sheet (test, "Quay Shellfish");
  enter (test, "New price of Brown crab", "+5 %");
  enter (test, "New price of Mussels", "4.50/kg");
  do_key (test, "round.post");
  assert_true (price_of (test, "101", today_of (test)) == 69300000);
  take_back (test, "Take back the price of Brown crab");
  assert_true (price_of (test, "101", today_of (test)) == CRO_NOT_SET);
  assert_true (price_of (test, "102", today_of (test)) == 22500000);
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), ", 1 taken back"));
  /* What the mussels did is told still, and the crab would do more. */
  assert_shown (test, "What It Did");
  assert_shown (test, "30.2\u00a0% → 30.6\u00a0%");
  /* What was typed stands in its row again, until the taking back is undone itself. */
  assert_typed (test, "New price of Brown crab", "+5 %");
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_true (price_of (test, "101", today_of (test)) == 69300000);
  assert_typed (test, "New price of Brown crab", "");
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "taken back"));
  take_back (test, "Take back the price of Brown crab");
  /* All that is left comes back too, and what the next posting did with it. */
  enter (test, "New price of Brown crab", "70");
  do_key (test, "round.post");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Posted 2"));
  press (test, "_Undo All");
  assert_shown (test, "Nothing is posted any more.");
  /* Of two that stood in one row the later. */
  assert_typed (test, "New price of Brown crab", "70");
  assert_typed (test, "New price of Mussels", "4.50/kg");
  assert_true (price_of (test, "101", today_of (test)) == CRO_NOT_SET);
  assert_true (price_of (test, "102", today_of (test)) == CRO_NOT_SET);
}

/* What is typed again once all is undone, or one row taken back, leaves the sheet where that is redone: a relative
 * change is never counted on its own result. */
static void
test_redone (void **state)
{
  CroTestBench *test = *state;
  guint32 quay = supplier_of (test, "Quay Shellfish");
  gint64 posted;

  open_sheet (test, "Quay Shellfish");
  enter (test, "New price of Brown crab", "+5 %");
  enter (test, "New price of Mussels", "4.50/kg");
  enter (test, "New pack or ingredient", "turbot 3 kg 24.50/kg");
  do_key (test, "round.post");
  posted = price_of (test, "101", today_of (test));
  assert_true (posted == 69300000);
  press (test, "_Undo All");
  assert_typed (test, "New price of Brown crab", "+5 %");
  for (int i = 0; i < 2; i++)
    {
      assert_true (cro_book_redo (test->book, NULL, NULL));
      cro_test_settle ();
      assert_typed (test, "New price of Brown crab", "");
      assert_typed (test, "New price of Mussels", "");
      assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "7 untouched"));
      assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Posted 3 at"));
      assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Nothing is posted any more."));
      assert_true (cro_book_undo (test->book, NULL, NULL));
      cro_test_settle ();
      assert_shown (test, "Nothing is posted any more.");
      /* As Undo All, which is the same act, has it. */
      assert_typed (test, "New price of Brown crab", "+5 %");
      assert_typed (test, "New price of Mussels", "4.50/kg");
      assert_typed (test, "New price of turbot", "turbot 3 kg 24.50/kg");
    }
  /* One row, its undo and redo. */
  assert_true (cro_book_redo (test->book, NULL, NULL));
  cro_test_settle ();
  take_back (test, "Take back the price of Brown crab");
  assert_typed (test, "New price of Brown crab", "+5 %");
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_typed (test, "New price of Brown crab", "");
  assert_true (cro_book_redo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_typed (test, "New price of Brown crab", "+5 %");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), ", 1 taken back"));
  /* Set aside, the sheet knows it still: undone while it is away, and while it is there. */
  do_key (test, "round.leave");
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_new_prices_open (test->bench, quay);
  cro_test_settle ();
  assert_typed (test, "New price of Brown crab", "");
  assert_true (price_of (test, "101", today_of (test)) == posted);
}

/* What somebody made of a posted price since is not undone, nor taken back with its row, nor told as what the posting
 * did; which price that is, and who did it, is said. */
static void
test_changed_since (void **state)
{
  static const char *const columns[] = { "price_micro", NULL };
  static const CroCell dearer = CRO_CELL_INT (90 * CRO_MICRO);
  CroTestBench *test = *state;
  g_autofree char *posted = NULL;
  CroNewPrices *sheet;

  open_sheet (test, "Quay Shellfish");
  sheet = CRO_NEW_PRICES (sheet_of (test));
  enter (test, "New price of Brown crab", "72.50");
  enter (test, "New price of Mussels", "21.75");
  do_key (test, "round.post");
  assert_shown (test, "26.2\u00a0% → 28.1\u00a0%");
  posted = g_strdup (gtk_label_get_label (GTK_LABEL (sheet->posted_label)));
  assert_true (cro_edit_set (test->book, "a dearer crab", "price",
                             ((CroRoundPosted *) ((CroRoundPost *) sheet->posts->pdata[0])->rows->pdata[0])->put.id,
                             columns, &dearer, NULL));
  cro_test_settle ();
  press (test, "_Undo All");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Undo is not possible: price of "));
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Brown crab"));
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "a dearer crab"));
  assert_string_equal (gtk_label_get_label (GTK_LABEL (sheet->posted_label)), posted);
  assert_shown (test, "26.2\u00a0% → 28.1\u00a0%");
  /* Of two postings the last comes back alone. */
  enter (test, "New price of Cockles", "19.5");
  do_key (test, "round.post");
  press (test, "_Undo All");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "The last posting is undone, the one before is "
                                                                       "not: price of "));
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "a dearer crab"));
  assert_typed (test, "New price of Cockles", "19.5");
  take_back (test, "Take back the price of Brown crab");
  assert_shown (test, "The price of Brown crab was changed since, and stays. Type what is to hold now.");
  assert_true (price_of (test, "101", today_of (test)) == 90 * CRO_MICRO);
  take_back (test, "Take back the price of Mussels");
  assert_true (price_of (test, "102", today_of (test)) == CRO_NOT_SET);
}

static void
test_undone_and_set_aside (void **state)
{
  CroTestBench *test = *state;

  open_sheet (test, "Quay Shellfish");
  enter (test, "New price of Brown crab", "+5 %");
  do_key (test, "round.post");
  press (test, "_Undo All");
  enter (test, "New price of Mussels", "+5 %");
  do_key (test, "round.leave");
  cro_new_prices_open (test->bench, supplier_of (test, "Quay Shellfish"));
  cro_test_settle ();
  assert_typed (test, "New price of Brown crab", "+5 %");
  assert_true (cro_book_redo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_typed (test, "New price of Brown crab", "");
  assert_typed (test, "New price of Mussels", "+5 %");
}

static void
test_new_rows_and_set_aside (void **state)
{
  CroTestBench *test = *state;
  guint32 quay = supplier_of (test, "Quay Shellfish");
  g_autofree char *key = NULL, *aside = NULL;

  open_sheet (test, "Quay Shellfish");
  /* What holds as much is no other pack. */
  enter (test, "New price of Brown crab", "58/5000 g");
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Pack today"));
  enter (test, "New pack or ingredient", "turbot 3 kg 24.50/kg");
  assert_typed (test, "New price of turbot", "turbot 3 kg 24.50/kg");
  assert_typed (test, "New pack or ingredient", "");
  assert_shown (test, "New ingredient. No plate takes it yet.");
  enter (test, "New price of Brown crab", "55.60/4 kg");
  assert_shown (test, "Pack today: 4 kg, before: 5 kg.");
  do_key (test, "round.leave");
  assert_null (sheet_of (test));
  aside = cro_new_prices_dup_aside_words (test->book, quay);
  assert_string_equal (aside, "Set aside: 2 rows");
  cro_new_prices_open (test->bench, quay);
  cro_test_settle ();
  assert_typed (test, "New price of Brown crab", "55.60/4 kg");
  assert_shown (test, "2 to post · 5 untouched");
  do_key (test, "round.post");
  assert_true (cro_edit_find_name (model_of (test), CRO_NAMES_ITEMS, "turbot").kind == CRO_REF_ITEM);
  assert_null (cro_new_prices_dup_aside_words (test->book, quay));
}

/* Out of the field of the day the sheet is left at once: the day is set aside with the price. */
static void
test_a_day_is_set_aside_with_its_sheet (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *day = NULL;

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open (test->bench, supplier_of (test, "Quay Shellfish"));
  cro_test_settle ();
  day = cro_date_to_text (today_of (test) - 2);
  enter (test, "New price of Mussels", "22.5");
  gtk_widget_grab_focus (CRO_NEW_PRICES (sheet_of (test))->from);
  cro_test_type (CRO_NEW_PRICES (sheet_of (test))->from, day);
  do_key (test, "round.leave");
  cro_new_prices_open (test->bench, supplier_of (test, "Quay Shellfish"));
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (CRO_NEW_PRICES (sheet_of (test))->from)), day);
  /* And so is what is no day, from which nothing is posted. */
  cro_test_type (CRO_NEW_PRICES (sheet_of (test))->from, "soon");
  do_key (test, "round.leave");
  cro_new_prices_open (test->bench, supplier_of (test, "Quay Shellfish"));
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (CRO_NEW_PRICES (sheet_of (test))->from)), "soon");
  do_key (test, "round.post");
  assert_int_equal (CRO_NEW_PRICES (sheet_of (test))->posts->len, 0);
  cro_test_type (CRO_NEW_PRICES (sheet_of (test))->from, day);
  do_key (test, "round.leave");
  cro_new_prices_open (test->bench, supplier_of (test, "Quay Shellfish"));
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (CRO_NEW_PRICES (sheet_of (test))->from)), day);
}

/* A price that waits is of the day that it was typed for, and is posted from it; what the posting did is headed by it
 * once the sheet is of today again. */
static void
test_what_waits_keeps_its_day (void **state)
{
  CroTestBench *test = *state;
  CroDate day = today_of (test) - 2;
  g_autofree char *shown = cro_date_to_text (day), *heading = g_strdup_printf ("What It Did, on %s", shown);
  GtkWidget *from;

  open_sheet (test, "Quay Shellfish");
  from = CRO_NEW_PRICES (sheet_of (test))->from;
  gtk_widget_grab_focus (from);
  cro_test_type (from, shown);
  gtk_widget_grab_focus (named (test, "New price of Brown crab"));
  cro_test_settle ();
  enter (test, "New price of Brown crab", "69.5");
  enter (test, "New price of Mussels", "217.5");
  do_key (test, "round.post");
  assert_true (price_of (test, "101", day) == 69500000);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (from)), shown);
  assert_typed (test, "New price of Mussels", "217.5");
  assert_shown (test, "What It Did");
  gtk_widget_grab_focus (named (test, "New price of Mussels"));
  do_key (test, "round.right");
  do_key (test, "round.post");
  assert_true (price_of (test, "102", day) == 217500000);
  assert_true (price_of (test, "102", today_of (test)) == CRO_NOT_SET);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (from)), "");
  assert_shown (test, heading);
}

/* Where the folder of what is remembered cannot be written: it is a file. */
static void
test_what_cannot_be_set_aside_is_said (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *file = cro_state_dup_path ("state.ini"), *folder = g_path_get_dirname (file);
  g_autofree char *away = g_strconcat (folder, "-away", NULL);

  cro_state_set_text ("test", "of", test->folder.path);
  assert_true (cro_state_write (NULL));
  g_rename (folder, away);
  assert_true (g_file_set_contents (folder, "", 0, NULL));
  open_sheet (test, "Quay Shellfish");
  enter (test, "New price of Brown crab", "69.5");
  do_key (test, "round.leave");
  assert_non_null (strstr (test->said->str, "is lost when the program is closed, as it could not be set aside: "));
  assert_false (cro_state_write (NULL));
  g_unlink (folder);
  g_rename (away, folder);
  assert_true (cro_state_write (NULL));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_one_row_back),
    CASE (test_redone),
    CASE (test_changed_since),
    CASE (test_undone_and_set_aside),
    CASE (test_new_rows_and_set_aside),
    CASE (test_a_day_is_set_aside_with_its_sheet),
    CASE (test_what_waits_keeps_its_day),
    CASE (test_what_cannot_be_set_aside_is_said),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
