/* The sheet of new prices over Market's bench: what is typed moves what stands beside it, waits where it is
 * asked about, is posted as one act, comes back, and is set aside. */
#include "support/bench-hands.h"

#include "cro-decimal.h"
#include "cro-here.h"
#include "cro-packs-bench.h"
#include "cro-new-prices-private.h"
#include "cro-price-rows.h"
#include "cro-reveal.h"
#include "cro-state.h"

#include <glib/gstdio.h>

static guint32
supplier_of (CroTestBench *test,
             const char   *name)
{
  return cro_test_find_ref (test, CRO_NAMES_SUPPLIERS, name).slot;
}

static void
open_sheet (CroTestBench *test,
            const char   *supplier)
{
  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open (test->bench, supplier_of (test, supplier));
  cro_test_settle ();
}

static GtkWidget *
sheet_of (CroTestBench *test)
{
  return cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_NEW_PRICES);
}

/* A key of the sheet, by what it does. */
static void
do_key (CroTestBench *test,
        const char   *action)
{
  gtk_widget_activate_action (sheet_of (test), action, NULL);
  cro_test_settle ();
}

static void
assert_typed (CroTestBench *test,
              const char   *name,
              const char   *text)
{
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, name))), text);
}

/* The price of a day, of the only pack of that code; CRO_NOT_SET where it has none. */
static gint64
price_of (CroTestBench *test,
          const char   *code,
          CroDate       from)
{
  CroModel *model = model_of (test);

  for (guint32 i = 0; i < model->offers->len; i++)
    {
      g_autoptr (GArray) rows = NULL;

      if (cro_model_offer (model, i)->is_dead || strcmp (cro_model_offer (model, i)->code, code) != 0)
        continue;
      rows = cro_price_rows_new (model, cro_book_get_store (test->book), i, NULL);
      for (guint n = 0; n < rows->len; n++)
        if (g_array_index (rows, CroPriceRow, n).from == from)
          return g_array_index (rows, CroPriceRow, n).price;
    }
  return CRO_NOT_SET;
}

static CroDate
today_of (CroTestBench *test)
{
  return cro_book_get_figures (test->book)->date;
}

/* Until the page has moved to what is answered. */
static void
let_settle (CroTestBench *test)
{
  for (guint i = 0; i < 4; i++)
    cro_test_see (test->window);
}

/* A field, once the page has moved there. */
static void
wait_seen (CroTestBench *test,
           const char   *name)
{
  let_settle (test);
  cro_test_wait_until (cro_reveal_is_seen (named (test, name)), "%s is out of sight", name);
}

/* It is so many minutes after half past eleven in the evening here. */
static void
set_clock (int minutes)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_utc ();
  int utc = g_date_time_get_hour (now) * 60 + g_date_time_get_minute (now);
  int ahead = (23 * 60 + 30 - utc + 24 * 60) % (24 * 60) - 24 * 60 + minutes;
  g_autofree char *zone = g_strdup_printf ("%c%02d:%02d", ahead < 0 ? '-' : '+', ABS (ahead) / 60, ABS (ahead) % 60);

  g_setenv ("TZ", zone, TRUE);
}

/* Begun at half past eleven in the evening: half an hour after twelve at night is of the day before and
 * of the calendar's, and half past five is of the next. */
static void
test_a_night_is_of_two_days (void **state)
{
  static const struct { int minutes, day; gboolean is_told, is_asked; } cases[] = {
    { 0, 0, FALSE, FALSE },
    { 60, 0, FALSE, FALSE },      /* half past midnight: the day that was begun with */
    { 60, 1, FALSE, FALSE },      /* the same, of the calendar */
    { 6 * 60, 0, TRUE, TRUE },    /* half past five in the morning */
    { 6 * 60, 1, FALSE, FALSE },
    { 60, 2, TRUE, TRUE },        /* tomorrow by the calendar */
  };
  CroTestBench *test = *state;
  g_autofree char *zone = g_strdup (g_getenv ("TZ"));

  set_clock (0);
  assert_true (cro_book_set_date (test->book, cro_here_today (), NULL));
  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *day = NULL;
      const char *said;

      set_clock (0);
      day = cro_date_to_text (cro_here_today () + cases[i].day);
      cro_new_prices_open (test->bench, supplier_of (test, "Quay Shellfish"));
      cro_test_settle ();
      set_clock (cases[i].minutes);
      cro_test_type (CRO_NEW_PRICES (sheet_of (test))->from, day);
      /* Rows are made anew for a day, under a focus that goes into one. */
      gtk_widget_grab_focus (named (test, "New price of Mussels"));
      cro_test_settle ();
      enter (test, "New price of Mussels", "22.5");
      said = gtk_label_get_label (GTK_LABEL (CRO_NEW_PRICES (sheet_of (test))->past));
      if ((*said != '\0') != cases[i].is_told)
        fail_msg ("case %u: %s", (guint) i, said);
      do_key (test, "round.post");
      assert_int_equal (CRO_NEW_PRICES (sheet_of (test))->posts->len, cases[i].is_asked ? 0 : 1);
      if (cases[i].is_asked)
        do_key (test, "round.post");
      assert_int_equal (CRO_NEW_PRICES (sheet_of (test))->posts->len, 1);
      press (test, "_Undo All");
      enter (test, "New price of Mussels", "");
      do_key (test, "round.leave");
    }
  /* Posted out of the field of the day, it is the day that stands there. */
  {
    g_autofree char *before = cro_date_to_text (today_of (test) - 1);

    cro_new_prices_open (test->bench, supplier_of (test, "Quay Shellfish"));
    enter (test, "New price of Mussels", "23");
    cro_test_type (CRO_NEW_PRICES (sheet_of (test))->from, "soon");
    do_key (test, "round.post");
    assert_int_equal (CRO_NEW_PRICES (sheet_of (test))->posts->len, 0);
    /* Nor from the day before it once it is left, by key or button, whatever is shown anew. */
    enter (test, "New price of Mussels", "24");
    cro_new_prices_show_before (CRO_NEW_PRICES (sheet_of (test)));
    do_key (test, "round.post");
    assert_int_equal (CRO_NEW_PRICES (sheet_of (test))->posts->len, 0);
    assert_non_null (strstr (gtk_label_get_label (GTK_LABEL (CRO_NEW_PRICES (sheet_of (test))->message)),
                             "This is not a date."));
    assert_non_null (cro_test_find_containing (GTK_WIDGET (CRO_NEW_PRICES (sheet_of (test))->no_day),
                                               "This is not a date."));
    assert_focus (test, "Prices hold from");
    gtk_widget_grab_focus (named (test, "New price of Mussels"));
    cro_test_settle ();
    g_signal_emit_by_name (CRO_NEW_PRICES (sheet_of (test))->post, "clicked");
    cro_test_settle ();
    assert_int_equal (CRO_NEW_PRICES (sheet_of (test))->posts->len, 0);
    cro_test_type (CRO_NEW_PRICES (sheet_of (test))->from, before);
    do_key (test, "round.post");
    assert_true (price_of (test, "102", today_of (test) - 1) == 24000000);
  }
  if (zone != NULL)
    g_setenv ("TZ", zone, TRUE);
  else
    g_unsetenv ("TZ");
}

/* The list by phone of the design: figures are those of the demo, 69.50 and 22.50 by hand. */
static void
test_by_phone (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *before = cro_test_figures (test->book), *after = NULL;

  open_sheet (test, "Quay Shellfish");
  assert_named (GTK_WIDGET (test->bench), "new prices");
  assert_focus (test, "New price of Brown crab");
  enter (test, "New price of Brown crab", "69.5");
  assert_focus (test, "New price of Mussels");
  assert_shown (test, "13.90/kg");
  /* A letter looks for a row, and leaves what was typed alone. */
  enter (test, "New price of Mussels", "22.5");
  enter (test, "New price of Razor clams", "raz");
  assert_focus (test, "New price of Razor clams");
  enter (test, "New price of Razor clams", "174");
  assert_shown (test, "Is 17.40 meant? The decimal sign may have slipped.");
  assert_shown (test, "2 to post · 1 waits for an answer · 3 untouched");
  do_key (test, "round.suggest");
  assert_typed (test, "New price of Razor clams", "17.40");
  enter (test, "New price of Cockles", "rock");
  assert_focus (test, "New price of Rock oyster");
  assert_typed (test, "New price of Cockles", "");
  enter (test, "New price of Rock oyster", "-");
  assert_typed (test, "New price of Rock oyster", "not to be had");
  do_key (test, "round.fill");
  assert_typed (test, "New price of Cockles", "as last");
  assert_shown (test, "6 to post");
  assert_shown (test, "30.2\u00a0% → 30.6\u00a0%");
  assert_shown (test, "Mussels up to 4.00/kg");
  assert_true (price_of (test, "101", today_of (test)) == CRO_NOT_SET);
  gtk_widget_grab_focus (named (test, "New price of Cockles"));
  do_key (test, "round.post");
  assert_true (price_of (test, "101", today_of (test)) == 69500000);
  assert_true (price_of (test, "103", today_of (test)) == 17400000);
  assert_true (price_of (test, "104", today_of (test)) == 19200000);
  assert_shown (test, "0 to post · 6 untouched");
  /* A list by phone is posted in pieces: what is typed next goes where one was. */
  assert_focus (test, "New price of Cockles");
  assert_null (cro_new_prices_dup_aside_words (test->book, supplier_of (test, "Quay Shellfish")));
  /* The same once more moves nothing, and is not posted. */
  enter (test, "New price of Brown crab", "69.5");
  do_key (test, "round.post");
  assert_shown (test, "The book has these prices already; nothing was changed.");
  assert_int_equal (CRO_NEW_PRICES (sheet_of (test))->posts->len, 1);
  assert_shown (test, "0 to post · 6 untouched");
  press (test, "_Undo All");
  after = cro_test_figures (test->book);
  cro_test_same ("all of it is undone", before, after);
}

/* As keys over a selection do: it is emptied, then typed into. */
static void
type_over (CroTestBench *test,
           const char   *name,
           const char   *text)
{
  GtkEditable *entry = GTK_EDITABLE (named (test, name));
  int at = 0;

  gtk_widget_grab_focus (GTK_WIDGET (entry));
  gtk_editable_select_region (entry, 0, -1);
  gtk_editable_delete_selection (entry);
  gtk_editable_insert_text (entry, text, -1, &at);
  cro_test_settle ();
}

/* A search leaves the row as it was; what nobody typed is selected, so that typing takes its place. */
static void
test_search_over_a_row (void **state)
{
  CroTestBench *test = *state;
  int start, end;

  open_sheet (test, "Quay Shellfish");
  enter (test, "New price of Brown crab", "+5 %");
  type_over (test, "New price of Brown crab", "raz");
  g_signal_emit_by_name (named (test, "New price of Brown crab"), "activate");
  cro_test_settle ();
  assert_focus (test, "New price of Razor clams");
  assert_typed (test, "New price of Brown crab", "+5 %");
  assert_shown (test, "1 to post · 5 untouched");
  do_key (test, "round.fill");
  assert_true (gtk_editable_get_selection_bounds (GTK_EDITABLE (named (test, "New price of Razor clams")), &start,
                                                  &end));
  assert_int_equal (end - start, (int) strlen ("as last"));
  do_key (test, "round.post");
  assert_true (gtk_widget_get_mapped (named (test, "Posted rows")));
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_shown (test, "Nothing is posted any more.");
}

/* "n/a" is typed, not looked for; what only begins with such a word is, and leaves the row as it was. */
static void
test_a_word_of_a_row_is_no_search (void **state)
{
  CroTestBench *test = *state;
  int end = strlen ("na");

  open_sheet (test, "Quay Shellfish");
  type_over (test, "New price of Razor clams", "n/a");
  g_signal_emit_by_name (named (test, "New price of Razor clams"), "activate");
  cro_test_settle ();
  assert_shown (test, "1 to post · 5 untouched");
  type_over (test, "New price of Brown crab", "na");
  assert_shown (test, "2 to post · 4 untouched");
  gtk_editable_insert_text (GTK_EDITABLE (named (test, "New price of Brown crab")), "t", -1, &end);
  cro_test_settle ();
  assert_shown (test, "1 to post · 5 untouched");
}

/* Tab leads to the answer of a row that is asked about: what is typed there is the next row's. */
static void
test_what_is_typed_on_an_answer_goes_on (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *answer;
  g_autoptr (GListModel) hands = NULL;

  open_sheet (test, "Quay Shellfish");
  type_over (test, "New price of Rock oyster", "47 / 50");
  cro_test_see (test->window);  /* keys go by where things stand */
  tab (test, GTK_DIR_TAB_FORWARD);
  answer = gtk_window_get_focus (GTK_WINDOW (test->window));
  assert_true (GTK_IS_BUTTON (answer));
  tab (test, GTK_DIR_TAB_BACKWARD);
  assert_focus (test, "New price of Rock oyster");
  tab (test, GTK_DIR_TAB_FORWARD);
  tab (test, GTK_DIR_TAB_FORWARD);
  tab (test, GTK_DIR_TAB_FORWARD);
  assert_focus (test, "New price of Prawns, shell-on");
  tab (test, GTK_DIR_TAB_BACKWARD);
  tab (test, GTK_DIR_TAB_FORWARD);
  answer = gtk_window_get_focus (GTK_WINDOW (test->window));
  hands = gtk_widget_observe_controllers (gtk_widget_get_parent (answer));
  for (guint i = 0; i < g_list_model_get_n_items (hands); i++)
    {
      g_autoptr (GtkEventController) keys = g_list_model_get_item (hands, i);
      gboolean done = FALSE;

      if (GTK_IS_EVENT_CONTROLLER_KEY (keys))
        g_signal_emit_by_name (keys, "key-pressed", GDK_KEY_1, 0, 0, &done);
    }
  cro_test_settle ();
  assert_focus (test, "New price of Prawns, shell-on");
  assert_typed (test, "New price of Prawns, shell-on", "1");
  /* In rows that are made lower what is typed next goes on where it was. */
  cro_test_type (named (test, "New price of Prawns, shell-on"), "11");
  gtk_editable_set_position (GTK_EDITABLE (named (test, "New price of Prawns, shell-on")), 1);
  cro_round_rows_set_tight (CRO_NEW_PRICES (sheet_of (test))->rows, TRUE);
  assert_focus (test, "New price of Prawns, shell-on");
  assert_false (gtk_editable_get_selection_bounds (GTK_EDITABLE (named (test, "New price of Prawns, shell-on")), NULL,
                                                   NULL));
  assert_int_equal (gtk_editable_get_position (GTK_EDITABLE (named (test, "New price of Prawns, shell-on"))), 1);
}

/* By its name among what was posted. */
static void
take_back (CroTestBench *test,
           const char   *name)
{
  gtk_menu_button_popup (GTK_MENU_BUTTON (named (test, "Posted rows")));
  cro_test_see (test->window);
  g_signal_emit_by_name (named (test, name), "clicked");
  cro_test_see (test->window);
  gtk_menu_button_popdown (GTK_MENU_BUTTON (named (test, "Posted rows")));
  cro_test_see (test->window);
}

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

/* Stated per kilogram in pounds; what is asked stays out of the book. */
static void
test_per_kilogram (void **state)
{
  CroTestBench *test = *state;

  open_sheet (test, "Far Bank Fish and Meat");
  enter (test, "New price of Hake", "11.60");
  assert_shown (test, "116.00 for 10 kg");
  /* What is asked and what the key answers are one number, as prices are stated. */
  enter (test, "New price of Lamb saddle", "171 GBP");
  assert_shown (test, "Is 17.10/kg meant? The decimal sign may have slipped.");
  assert_named (GTK_WIDGET (test->bench), "F2  Use 17.10");
  enter (test, "New price of Lamb saddle", "");
  enter (test, "New price of Hake", "14 EUR");
  assert_shown (test, "The price is in EUR, the supplier’s prices are in GBP.");
  do_key (test, "round.post");
  assert_true (price_of (test, "M20", today_of (test)) == CRO_NOT_SET);
  do_key (test, "round.suggest");
  do_key (test, "round.post");
  assert_true (price_of (test, "M20", today_of (test)) > 0);
}

/* Butter is in more plates than stand there at once: the others are a button away. */
static void
test_plates_that_move (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *more;

  open_sheet (test, "Upriver Produce and Dairy");
  enter (test, "New price of Butter, unsalted", "47");
  more = cro_test_find_containing (GTK_WIDGET (test->bench), "Show ");
  assert_non_null (more);
  g_signal_emit_by_name (gtk_widget_get_ancestor (more, GTK_TYPE_BUTTON), "clicked");
  cro_test_settle ();
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Show "));
}

static void
test_pasted (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open_text (test->bench, supplier_of (test, "Quay Shellfish"),
                            "brown crab 69.50\n102 22.50\nlobster 1 kg 38.00\nrazor clams 174\n");
  cro_test_settle ();
  assert_typed (test, "New price of Brown crab", "69.50");
  assert_typed (test, "New price of Mussels", "22.50");
  assert_typed (test, "New price of lobster", "lobster 1 kg 38.00");
  assert_shown (test, "2 to post · 2 wait for an answer · 3 untouched");
  assert_focus (test, "New price of Razor clams");
  wait_seen (test, "New price of Razor clams");
  do_key (test, "round.right");
  assert_shown (test, "3 to post · 1 waits for an answer · 3 untouched");
  /* What nobody looks at is not answered: the key leads there. */
  do_key (test, "round.right");
  assert_focus (test, "New price of lobster");
  assert_shown (test, "3 to post · 1 waits for an answer · 3 untouched");
  wait_seen (test, "New price of lobster");
  do_key (test, "round.right");
  assert_shown (test, "4 to post · 3 untouched");
  /* Of a list that asks nothing the first row that it filled. */
  cro_new_prices_take_text (CRO_NEW_PRICES (sheet_of (test)), "cockles 19.30\nprawns, shell-on 69\n");
  assert_focus (test, "New price of Cockles");
}

/* Into whatever field: several lines are a list, one is typed; and out of a button both are a list. */
static void
test_pasted_by_key (void **state)
{
  CroTestBench *test = *state;
  GdkClipboard *clipboard;

  open_sheet (test, "Quay Shellfish");
  clipboard = gtk_widget_get_clipboard (test->window);
  gdk_clipboard_set_text (clipboard, "101 69.50\n102 22.50\n");
  do_key (test, "round.paste");
  cro_test_wait_shown (GTK_WIDGET (test->bench), "2 to post · 4 untouched");
  gtk_widget_grab_focus (named (test, "New price of Cockles"));
  gdk_clipboard_set_text (clipboard, "20");
  do_key (test, "round.paste");
  cro_test_wait_shown (GTK_WIDGET (test->bench), "3 to post · 3 untouched");
  assert_typed (test, "New price of Cockles", "20");
  gtk_widget_grab_focus (CRO_NEW_PRICES (sheet_of (test))->post);
  gdk_clipboard_set_text (clipboard, "razor clams 17");
  do_key (test, "round.paste");
  cro_test_wait_shown (GTK_WIDGET (test->bench), "4 to post · 2 untouched");
}

/* By its place among those that can be chosen: nothing, name, code, GTIN, price… */
static void
say_column (CroTestBench *test,
            const char   *heading,
            guint         role)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (named (test, heading)), role);
  cro_test_settle ();
}

/* Two columns could have the price to pay: asked once, known the next time, and changed. */
static void
test_columns_are_remembered (void **state)
{
  static const char list[] = "Code,Price A,Price B\n101,69.50,65.00\n";
  CroTestBench *test = *state;
  guint32 quay = supplier_of (test, "Quay Shellfish");

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open_text (test->bench, quay, list);
  cro_test_settle ();
  assert_shown (test, "What does each column of the list hold?");
  assert_typed (test, "New price of Brown crab", "");
  say_column (test, "Price B", 4);
  press (test, "_Use These Columns");
  assert_typed (test, "New price of Brown crab", "65.00");
  cro_test_type (named (test, "New price of Brown crab"), "");
  do_key (test, "round.leave");
  cro_new_prices_open_text (test->bench, quay, list);
  cro_test_settle ();
  assert_typed (test, "New price of Brown crab", "65.00");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "What does each column of the list hold?"));
  assert_shown (test, "1 changed · columns as last time: supplier’s code, price");
  press (test, "_Match Columns…");
  say_column (test, "Price A", 4);
  press (test, "_Use These Columns");
  assert_typed (test, "New price of Brown crab", "69.50");
}

/* Headings in other words than ours, a day, and what the columns before they were said had brought. */
static void
test_columns_in_other_words (void **state)
{
  CroTestBench *test = *state;
  CroDate day = today_of (test) + 3;
  char date[CRO_DATE_CHARS];
  g_autofree char *list = NULL, *shown = cro_date_to_text (day), *use = NULL;

  cro_date_format (day, date);
  use = g_strdup_printf ("The List Says From %s: Use It", shown);
  list = g_strdup_printf ("Nummer\tWare\tEinheit\tBetrag\tGilt\n101\tKrabbe\t5 kg\t69,50\t%s\n"
                          "102\tMuscheln\t5 kg\t22,50\t%s\n", date, date);
  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open_text (test->bench, supplier_of (test, "Quay Shellfish"), list);
  cro_test_settle ();
  assert_shown (test, "What does each column of the list hold?");
  say_column (test, "A: Nummer", 2);
  say_column (test, "B: Ware", 1);
  say_column (test, "C: Einheit", 6);
  say_column (test, "D: Betrag", 4);
  say_column (test, "E: Gilt", 11);
  press (test, "_Use These Columns");
  assert_typed (test, "New price of Brown crab", "69.50");
  assert_typed (test, "New price of Mussels", "22.50");
  assert_shown (test, "2 to post · 4 untouched");
  press (test, use);
  assert_typed (test, "Prices hold from", shown);
  assert_typed (test, "New price of Mussels", "22.50");
}

/* A list of thousands: read beside the window, a part of it in sight; given up it leaves all as it was. */
static void
test_long_list (void **state)
{
  CroTestBench *test = *state;
  g_autoptr (GString) list = g_string_new ("Code,Name,Pack,Price\n");

  for (guint i = 0; i < 3000; i++)
    g_string_append_printf (list, "L%u,Stranger %u,5 kg,%u.50\n", i, i, 10 + i % 80);
  g_string_append (list, "101,Brown crab,5 kg,69.50\n");
  open_sheet (test, "Quay Shellfish");
  enter (test, "New price of Mussels", "22.5");
  cro_new_prices_take_text (CRO_NEW_PRICES (sheet_of (test)), list->str);
  gtk_widget_activate_action (sheet_of (test), "round.leave", NULL);
  cro_test_wait_shown (GTK_WIDGET (test->bench), "The list was not read; the prices are as they were.");
  assert_shown (test, "1 to post · 5 untouched");
  cro_new_prices_take_text (CRO_NEW_PRICES (sheet_of (test)), list->str);
  assert_shown (test, "Reading the list…");
  cro_test_wait_shown (GTK_WIDGET (test->bench), "2 to post · 3000 wait for an answer · 4 untouched");
  assert_typed (test, "New price of Brown crab", "69.50");
  assert_shown (test, "Rows 1 to 100 of 3006");
  press (test, "_Next");
  assert_shown (test, "Rows 101 to 200 of 3006");
  assert_focus (test, "New price of Stranger 94");
  do_key (test, "round.post");
  assert_true (price_of (test, "101", today_of (test)) == 69500000);
  assert_shown (test, "0 to post · 3000 wait for an answer · 6 untouched");
}

#define INVOICE_LINE(id, unit, quantity, net, name, code, price) \
  "<a:InvoiceLine><b:ID>" id "</b:ID><b:InvoicedQuantity unitCode='" unit "'>" quantity "</b:InvoicedQuantity>" \
  "<b:LineExtensionAmount currencyID='EUR'>" net "</b:LineExtensionAmount><a:Item><b:Name>" name "</b:Name>" \
  "<a:SellersItemIdentification><b:ID>" code "</b:ID></a:SellersItemIdentification></a:Item>" \
  "<a:Price><b:PriceAmount currencyID='EUR'>" price "</b:PriceAmount></a:Price></a:InvoiceLine>"

static void
sort (CroTestBench *test,
      const char   *row,
      const char   *what)
{
  gtk_menu_button_popup (GTK_MENU_BUTTON (named (test, row)));
  cro_test_settle ();
  press (test, what);
  cro_test_settle ();
}

/* Lines of an invoice by keys and by the mouse: one that does not add up is right, one is called as one of the
 * book's, one is said to be an ingredient and what its box holds, one is new. */
static void
test_invoice_is_answered (void **state)
{
  static const char invoice[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>Q-18</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      INVOICE_LINE ("1", "KGM", "5", "22.00", "Mussels", "102", "4.30")
      INVOICE_LINE ("2", "KGM", "2", "26.00", "Crab from here", "B7", "13.00")
      INVOICE_LINE ("3", "XBX", "2", "60.00", "Apple shells", "S9", "30.00")
      INVOICE_LINE ("4", "KGM", "2", "18.00", "Periwinkle", "P1", "9.00")
      "</Invoice>";
  CroTestBench *test = *state;
  g_autofree char *aside = NULL;
  GtkWidget *finder;
  CroDate delivered;

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open_text (test->bench, supplier_of (test, "Quay Shellfish"), invoice);
  assert_shown (test, "0 to post · 4 wait for an answer · 6 untouched");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "126.00 EUR net"));
  /* Left, it is set aside, and taken up again. */
  do_key (test, "round.leave");
  aside = cro_new_prices_dup_aside_words (test->book, supplier_of (test, "Quay Shellfish"));
  assert_string_equal (aside, "Set aside of invoice Q-18: 4 lines, 126.00 EUR, not booked");
  cro_new_prices_open (test->bench, supplier_of (test, "Quay Shellfish"));
  assert_shown (test, "0 to post · 4 wait for an answer · 6 untouched");
  gtk_widget_grab_focus (named (test, "New price of Mussels, 1 kg"));
  wait_seen (test, "New price of Mussels, 1 kg");
  do_key (test, "round.right");
  assert_shown (test, "1 to post · 3 wait for an answer · 6 untouched");
  gtk_widget_grab_focus (named (test, "New price of Crab from here"));
  wait_seen (test, "New price of Crab from here");
  do_key (test, "round.suggest");
  assert_shown (test, "2 to post · 2 wait for an answer · 6 untouched");
  gtk_widget_grab_focus (named (test, "New price of Apple shells"));
  cro_test_settle ();
  /* A comma in a name does not end it. */
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "F2  Use Apple, sharp"));
  gtk_menu_button_popup (GTK_MENU_BUTTON (named (test, "What Apple shells is")));
  cro_test_settle ();
  finder = named (test, "Which ingredient it is");
  cro_test_type (finder, "razor");
  cro_test_type (named (test, "What one of it holds"), "12");
  cro_test_enter (named (test, "What one of it holds"));
  assert_shown (test, "What is in one? For instance 6 x 1 kg.");
  cro_test_type (named (test, "What one of it holds"), "2 x 1 kg");
  cro_test_enter (named (test, "What one of it holds"));
  assert_shown (test, "3 to post · 1 waits for an answer · 6 untouched");
  gtk_widget_grab_focus (named (test, "New price of Periwinkle"));
  cro_test_settle ();
  sort (test, "What Periwinkle is", "_Disposables");
  assert_shown (test, "Disposables: 18.00 is booked, no price.");
  assert_shown (test, "4 to post · 6 untouched");
  sort (test, "What Periwinkle is", "An _Ingredient");
  do_key (test, "round.next");
  assert_focus (test, "New price of Periwinkle");
  wait_seen (test, "New price of Periwinkle");
  do_key (test, "round.right");
  assert_shown (test, "4 to post · 6 untouched");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "posting books 126.00"));
  do_key (test, "round.post");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "booked 126.00 of 126.00"));
  /* From the day of delivery, which is the document's where it says none. */
  assert_true (cro_date_parse ("2026-02-14", 10, &delivered));
  assert_true (price_of (test, "S9", delivered) == 30000000);
  assert_true (price_of (test, "P1", delivered) == 9000000);
}

/* Where the fields stand among the rows, and the buttons of the foot in the window; the last one may grow. */
static void
read_places (CroTestBench    *test,
             graphene_rect_t *places)
{
  static const char *const rows[] = { "Brown crab", "Mussels", "Razor clams", "Cockles", "Rock oyster",
                                      "Prawns, shell-on" };
  static const char *const buttons[] = { "Next That Waits", "The Rest as Last", "Set _Aside", "_Post" };

  cro_test_see (test->window);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *name = g_strdup_printf ("New price of %s", rows[i]);

      assert_true (gtk_widget_compute_bounds (named (test, name),
                                              cro_test_find_type (test->window, CRO_TYPE_ROUND_ROWS), places++));
    }
  for (guint i = 0; i < G_N_ELEMENTS (buttons); i++)
    {
      GtkWidget *label = i < 3 ? cro_test_find_shown (GTK_WIDGET (test->bench), buttons[i])
                               : cro_test_find_containing (GTK_WIDGET (test->bench), buttons[i]);

      assert_non_null (label);
      assert_true (gtk_widget_compute_bounds (gtk_widget_get_ancestor (label, GTK_TYPE_BUTTON), test->window,
                                              places++));
    }
  places[-1].size.width = 0;
}

#define N_PLACES 10

/* As they stand once two frames agree: rows are laid out some time after they are there. */
static void
find_places (CroTestBench    *test,
             graphene_rect_t *places)
{
  graphene_rect_t last[N_PLACES];

  read_places (test, places);
  for (guint n = 0; n < 20 && (n == 0 || memcmp (last, places, sizeof last) != 0); n++)
    {
      memcpy (last, places, sizeof last);
      read_places (test, places);
    }
}

/* A new row, and what is posted, leaves the columns where they stand. */
static void
check_rows_come_in_place (CroTestBench *test)
{
  graphene_rect_t before[N_PLACES], after[N_PLACES];

  find_places (test, before);
  for (guint step = 0; step < 2; step++)
    {
      if (step == 0)
        enter (test, "New pack or ingredient", "turbot 3 x 300 g 24.50/kg");
      else
        do_key (test, "round.post");
      find_places (test, after);
      for (guint at = 0; at < N_PLACES; at++)
        if (before[at].origin.x != after[at].origin.x)
          fail_msg ("%s moves what stands at %u by %g", step == 0 ? "a new row" : "posting", at,
                    after[at].origin.x - before[at].origin.x);
    }
}

/* What is said of a price while it is typed, and what is asked, has its room: no row moves, nor a button under the
 * pointer, in a small window, a wide one, and with text of twice the size. */
static void
test_what_is_said_moves_nothing (void **state)
{
  static const struct { const char *row, *text, *said; } said[] = {
    { "New price of Brown crab", "\u00a370", "The price is in GBP" },
    { "New price of Razor clams", "174", "Razor clams: Is 17.40 meant? The decimal sign may have slipped." },
    { "New price of Razor clams", "hundreds 1 of", "Razor clams: " },
    { "New price of Mussels", "-", "serves" },
    { "New price of Brown crab", "58/4kg", "Pack today" },
    { "New price of Prawns, shell-on", "695", "Is 69.50 meant?" },
  };
  CroTestBench *test = *state;
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi;

  open_sheet (test, "Quay Shellfish");
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  for (guint size = 0; size < 4; size++)
    {
      graphene_rect_t before[N_PLACES], after[N_PLACES];

      g_object_set (settings, "gtk-xft-dpi", size % 2 == 0 ? dpi : 2 * 96 * 1024, NULL);
      gtk_window_set_default_size (GTK_WINDOW (test->window), size < 2 ? 740 : 1340, 700);
      cro_test_see (test->window);
      find_places (test, before);
      for (guint i = 0; i < G_N_ELEMENTS (said); i++)
        {
          gtk_widget_grab_focus (named (test, said[i].row));
          cro_test_type (named (test, said[i].row), said[i].text);
          if (cro_test_find_containing (GTK_WIDGET (test->bench), said[i].said) == NULL)
            fail_msg ("%s says nothing of %s", said[i].row, said[i].said);
          find_places (test, after);
          for (guint at = 0; at < N_PLACES; at++)
            if (!graphene_rect_equal (&before[at], &after[at]))
              fail_msg ("size %u: %s moves what stands at %u by %g and %g", size, said[i].text, at,
                        after[at].origin.x - before[at].origin.x, after[at].origin.y - before[at].origin.y);
        }
      for (guint i = 0; i < G_N_ELEMENTS (said); i++)
        cro_test_type (named (test, said[i].row), "");
    }
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  check_rows_come_in_place (test);
}

/* As in a window of 1366 × 768 with its bars, and text of twice the size: six rows in sight, none of them cut. */
static void
test_rows_are_in_sight_in_large_text (void **state)
{
  CroTestBench *test = *state;
  GtkSettings *settings = gtk_settings_get_default ();
  GtkWidget *scroller;
  graphene_rect_t sixth, seen;
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  open_sheet (test, "Quay Shellfish");
  gtk_window_set_default_size (GTK_WINDOW (test->window), 1197, 656);
  let_settle (test);
  enter (test, "New price of Brown crab", "72.50");
  do_key (test, "round.post");
  let_settle (test);
  scroller = gtk_widget_get_ancestor (named (test, "New price of Mussels"), GTK_TYPE_SCROLLED_WINDOW);
  assert_true (gtk_widget_compute_bounds (named (test, "New price of Prawns, shell-on"), scroller, &sixth));
  assert_true (gtk_widget_compute_bounds (scroller, scroller, &seen));
  if (!graphene_rect_contains_rect (&seen, &sixth))
    fail_msg ("the sixth row ends at %g, %g of %g, %g", sixth.origin.x + sixth.size.width,
              sixth.origin.y + sixth.size.height, seen.size.width, seen.size.height);
  /* What has no line of its own is said of the row at hand. */
  gtk_widget_grab_focus (named (test, "New price of Cockles"));
  cro_test_settle ();
  assert_shown (test, "Cockles: 6.40/kg · last price since 2026-11-24");
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

static void
find_answer (CroTestBench    *test,
             const char      *text,
             graphene_rect_t *place)
{
  cro_test_see (test->window);
  assert_true (gtk_widget_compute_bounds (cro_test_find_shown (GTK_WIDGET (test->bench), text), test->window, place));
}

/* Answers stay where they are, whatever is said beside them. A question of a row elsewhere leads there first:
 * whoever presses its answer twice has answered but one. */
static void
test_answers_by_the_mouse (void **state)
{
  CroTestBench *test = *state;
  graphene_rect_t before, after;

  open_sheet (test, "Quay Shellfish");
  enter (test, "New price of Razor clams", "174");
  enter (test, "New price of Cockles", "204");
  assert_shown (test, "0 to post · 2 wait for an answer · 4 untouched");
  assert_focus (test, "New price of Rock oyster");
  find_answer (test, "F2  Use 20.40", &before);
  do_key (test, "round.fill");
  assert_shown (test, "4 rows as last. Press Alt+R again to undo.");
  find_answer (test, "F2  Use 20.40", &after);
  assert_true (graphene_rect_equal (&before, &after));
  do_key (test, "round.fill");
  press (test, "F2  Use 20.40");
  assert_typed (test, "New price of Cockles", "20.40");
  press (test, "F2  Use 17.40");
  assert_typed (test, "New price of Razor clams", "174");
  assert_focus (test, "New price of Razor clams");
  press (test, "F3  174 Is Right");
  assert_shown (test, "2 to post · 4 untouched");
}

/* The price beside a billed one is of as much: of 50 oysters for the pack, of one once the line counts single ones. */
static void
test_invoice_beside_the_last_price (void **state)
{
  static const char invoice[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>Q-19</b:ID><b:IssueDate>2026-11-25</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      INVOICE_LINE ("1", "EA", "200", "192.00", "Rock oyster", "105", "0.96")
      "</Invoice>";
  CroTestBench *test = *state;

  open_sheet (test, "Quay Shellfish");
  cro_new_prices_take_text (CRO_NEW_PRICES (sheet_of (test)), invoice);
  cro_test_settle ();
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "0.92"));
  do_key (test, "round.next");
  let_settle (test);
  do_key (test, "round.suggest");
  assert_shown (test, "0.92");
}

/* Lines of an invoice come back with what was booked of them, one that posts no price too, and wait in the sheet
 * again; what the rest did, and what is to reclaim of it, is told on. Two postings are told together. */
static void
test_invoice_row_back (void **state)
{
  static const char invoice[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>Q-31</b:ID><b:IssueDate>2026-11-25</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      INVOICE_LINE ("1", "KGM", "10", "139.00", "Brown crab", "101", "13.90")
      INVOICE_LINE ("2", "KGM", "5", "22.50", "Mussels", "102", "4.50")
      INVOICE_LINE ("3", "C62", "1", "4.50", "Carriage", "", "4.50")
      "</Invoice>";
  CroTestBench *test = *state;
  g_autofree char *before = cro_test_figures (test->book), *after = NULL;
  CroDate delivered;

  assert_true (cro_date_parse ("2026-11-25", 10, &delivered));
  open_sheet (test, "Quay Shellfish");
  enter (test, "New price of Razor clams", "17.40");
  do_key (test, "round.post");
  assert_shown (test, "What It Did");
  cro_new_prices_take_text (CRO_NEW_PRICES (sheet_of (test)), invoice);
  cro_test_settle ();
  assert_shown (test, "3 to post · 6 untouched");
  do_key (test, "round.post");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Posted 4 at"));
  /* Of the clams and of the crab. */
  assert_shown (test, "Razor clams, leek and cider");
  assert_shown (test, "Brown crab on toast");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "8.50 to reclaim"));
  take_back (test, "Take back Brown crab: 13.90/1 kg · 139.00 booked");
  assert_shown (test, "Brown crab: its price is taken back, and 139.00 is no longer booked. The line can be posted "
                      "again.");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench),
                                             "booked 27.00 of 166.00 · posting books 139.00"));
  assert_true (price_of (test, "101", delivered) == CRO_NOT_SET);
  assert_shown (test, "1 to post · 6 untouched");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "\n1.50 to reclaim"));
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "\n7.00 to reclaim"));
  take_back (test, "Take back Carriage: 4.50 booked");
  assert_shown (test, "Carriage: 4.50 is no longer booked. The line can be posted again.");
  /* What is no longer booked does not say that it is; what is posted again counts once. */
  gtk_menu_button_popup (GTK_MENU_BUTTON (named (test, "Posted rows")));
  cro_test_see (test->window);
  assert_false (gtk_widget_get_sensitive (named (test, "Take back Carriage: 4.50")));
  gtk_menu_button_popdown (GTK_MENU_BUTTON (named (test, "Posted rows")));
  cro_test_see (test->window);
  assert_shown (test, "2 to post · 6 untouched");
  do_key (test, "round.post");
  assert_true (price_of (test, "101", delivered) == 13900000);
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "\n8.50 to reclaim"));
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Posted 4 at"));
  press (test, "_Undo All");
  assert_shown (test, "Nothing is posted any more.");
  assert_typed (test, "New price of Razor clams", "17.40");
  assert_shown (test, "4 to post · 5 untouched");
  after = cro_test_figures (test->book);
  cro_test_same ("all of it is undone", before, after);
}

/* An invoice of another supplier of the book is taken for that one, or for this one once that is said; posting waits
 * for what becomes of charges on the whole. */
static void
test_invoice_as_a_whole (void **state)
{
  static const char invoice[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>Q-20</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      "<a:AccountingSupplierParty><a:Party><a:PartyName><b:Name>Upriver Produce and Dairy</b:Name></a:PartyName>"
      "</a:Party></a:AccountingSupplierParty>"
      "<a:AllowanceCharge><b:ChargeIndicator>true</b:ChargeIndicator><b:Amount>9.00</b:Amount></a:AllowanceCharge>"
      INVOICE_LINE ("1", "KGM", "5", "21.50", "Mussels", "102", "4.30")
      "</Invoice>";
  CroTestBench *test = *state;
  GtkWidget *whole;

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open_text (test->bench, supplier_of (test, "Quay Shellfish"), invoice);
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "another supplier of this book"));
  assert_shown (test, "0 to post · 6 untouched");
  assert_shown (test, "Take It for Upriver Produce and Dairy");
  press (test, "Take It for Quay Shellfish");
  assert_shown (test, "1 to post · 6 untouched");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "30.50 EUR net · posting books 21.50"));
  do_key (test, "round.post");
  whole = named (test, "Charges on the whole document");
  assert_true (gtk_widget_is_ancestor (gtk_root_get_focus (gtk_widget_get_root (whole)), whole)
               || gtk_root_get_focus (gtk_widget_get_root (whole)) == whole);
  assert_shown (test, "1 to post · 6 untouched");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (whole), CRO_WHOLE_SPREAD);
  cro_test_settle ();
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "30.50 is booked, with 9.00 of the charges"));
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Choose what becomes of the charges"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (whole), CRO_WHOLE_BOOKED);
  cro_test_settle ();
  assert_shown (test, "2 to post · 6 untouched");
  do_key (test, "round.post");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "booked 30.50 of 30.50"));
  /* Another answer than that by which a part is in the book is refused, and stays told. */
  take_back (test, "Take back Mussels: 4.30/1 kg · 21.50 booked");
  gtk_drop_down_set_selected (GTK_DROP_DOWN (named (test, "Charges on the whole document")), CRO_WHOLE_LEFT_OUT);
  cro_test_settle ();
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "document Q-20 with other amounts"));
  assert_shown (test, "1 to post · 6 untouched");
}

/* Of the field with the focus, as it hears it first. */
static void
press_sign (GtkWidget *entry,
            guint      keyval)
{
  g_autoptr (GListModel) hands = gtk_widget_observe_controllers (entry);

  for (guint i = 0; i < g_list_model_get_n_items (hands); i++)
    {
      g_autoptr (GtkEventController) keys = g_list_model_get_item (hands, i);
      gboolean done = FALSE;

      if (GTK_IS_EVENT_CONTROLLER_KEY (keys)
          && gtk_event_controller_get_propagation_phase (keys) == GTK_PHASE_CAPTURE)
        g_signal_emit_by_name (keys, "key-pressed", keyval, 0, 0, &done);
    }
}

/* What is asked about, and the line that is typed next, is in sight; out of sight a key answers nothing, but leads
 * there. A list that a small window shows but a part of. */
static void
test_what_is_answered_is_in_sight (void **state)
{
  static const char row[] = "New price of Ewe's cheese, hard", line[] = "New pack or ingredient";
  CroTestBench *test = *state;
  GtkWidget *scroller;
  int start, end;

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  resize (test, 900, 560);
  cro_new_prices_open_text (test->bench, supplier_of (test, "Upriver Produce and Dairy"),
                            "ewe's cheese, hard 357\n");
  assert_focus (test, row);
  wait_seen (test, row);
  /* What is led to is followed for some frames, while the page settles. */
  for (guint i = 0; i < 10; i++)
    cro_test_see (test->window);
  scroller = gtk_widget_get_ancestor (named (test, row), GTK_TYPE_SCROLLED_WINDOW);
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller)), 0);
  cro_test_see (test->window);
  assert_false (cro_reveal_is_seen (named (test, row)));
  do_key (test, "round.suggest");
  assert_typed (test, row, "357.00");
  wait_seen (test, row);
  do_key (test, "round.suggest");
  assert_typed (test, row, "35.70");

  gtk_widget_grab_focus (named (test, line));
  for (guint i = 1; i < 3; i++)
    {
      enter (test, line, i == 1 ? "turbot 3 kg 24.50/kg" : "brill 2 kg 15/kg");
      assert_focus (test, line);
      wait_seen (test, line);
    }

  do_key (test, "round.fill");
  gtk_widget_grab_focus (named (test, "New price of Cucumber"));
  gtk_editable_set_position (GTK_EDITABLE (named (test, "New price of Cucumber")), 0);
  press_sign (named (test, "New price of Cucumber"), GDK_KEY_b);
  assert_true (gtk_editable_get_selection_bounds (GTK_EDITABLE (named (test, "New price of Cucumber")), &start, &end));
  assert_int_equal (end - start, (int) strlen ("as last"));
}

static void
test_keys_ask_nothing (void **state)
{
  CroTestBench *test = *state;
  guint before;

  open_sheet (test, "Quay Shellfish");
  cro_test_type (named (test, "New price of Brown crab"), "6");
  before = cro_test_statements ();
  for (guint i = 66; i < 76; i++)
    {
      g_autofree char *text = g_strdup_printf ("%u.50", i);

      cro_test_type (named (test, "New price of Brown crab"), text);
    }
  assert_int_equal (cro_test_statements (), before);
}

/* A supplier without a list has the new line alone; nothing of it stands on a plate. */
static void
test_new_supplier (void **state)
{
  CroTestBench *test = *state;
  guint32 slot;

  assert_true (cro_edit_add_supplier (test->book, "supplier", "Marsh Boats", &slot, NULL));
  open_sheet (test, "Marsh Boats");
  assert_focus (test, "New pack or ingredient");
  enter (test, "New pack or ingredient", "monkfish 5 kg 19.00/kg");
  assert_shown (test, "No plate takes these.");
  do_key (test, "round.post");
  enter (test, "New price of monkfish", "100");
  assert_shown (test, "1 to post");
}

/* The supplier of an open sheet goes: the sheet does too, with what was typed kept; both are there again. */
static void
test_its_supplier_goes (void **state)
{
  CroTestBench *test = *state;
  guint32 slot;
  g_autofree char *aside = NULL;

  assert_true (cro_edit_add_supplier (test->book, "supplier", "Creek Greens", &slot, NULL));
  open_sheet (test, "Creek Greens");
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_null (sheet_of (test));
  assert_string_equal (test->said->str, "Creek Greens is no longer in the book.\n");
  assert_true (cro_book_redo (test->book, NULL, NULL));
  cro_new_prices_open (test->bench, slot);
  cro_test_settle ();
  enter (test, "New pack or ingredient", "monkfish 5 kg 19.00/kg");
  g_string_truncate (test->said, 0);
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_test_settle ();
  assert_null (sheet_of (test));
  assert_string_equal (test->said->str, "Creek Greens is no longer in the book. Set aside: 1 row; it is there "
                                        "again when the supplier is back.\n");
  /* Whoever asks for the sheet meanwhile is told so. */
  cro_new_prices_open (test->bench, slot);
  assert_null (sheet_of (test));
  assert_true (cro_book_redo (test->book, NULL, NULL));
  cro_new_prices_open (test->bench, slot);
  cro_test_settle ();
  assert_typed (test, "New price of monkfish", "monkfish 5 kg 19.00/kg");
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
    CASE (test_its_supplier_goes),
    CASE (test_by_phone), CASE (test_one_row_back), CASE (test_redone), CASE (test_changed_since),
    CASE (test_undone_and_set_aside),
    CASE (test_new_rows_and_set_aside), CASE (test_per_kilogram),
    CASE (test_plates_that_move), CASE (test_a_night_is_of_two_days), CASE (test_a_day_is_set_aside_with_its_sheet),
    CASE (test_what_waits_keeps_its_day), CASE (test_what_cannot_be_set_aside_is_said),
    CASE (test_pasted_by_key), CASE (test_pasted),   CASE (test_columns_are_remembered), CASE (test_keys_ask_nothing),
    CASE (test_columns_in_other_words), CASE (test_long_list),
    CASE (test_invoice_is_answered), CASE (test_invoice_beside_the_last_price),
    CASE (test_what_is_said_moves_nothing), CASE (test_rows_are_in_sight_in_large_text),
    CASE (test_answers_by_the_mouse), CASE (test_what_is_answered_is_in_sight),
    CASE (test_invoice_as_a_whole), CASE (test_invoice_row_back),
    CASE (test_new_supplier), CASE (test_search_over_a_row),
    CASE (test_a_word_of_a_row_is_no_search), CASE (test_what_is_typed_on_an_answer_goes_on),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
