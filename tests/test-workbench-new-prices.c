/* The sheet of new prices over Market's bench: what is typed moves what stands beside it, waits where it is
 * asked about, and is posted as one act. */
#include "support/bench-new-prices.h"

#include "cro-here.h"

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
  GtkWidget *more, *sheet;

  open_sheet (test, "Upriver Produce and Dairy");
  enter (test, "New price of Butter, unsalted", "47");
  /* Beside the rows or below them, it ends where the sheet does, however wide what it says is. */
  sheet = sheet_of (test);
  gtk_widget_set_size_request (CRO_NEW_PRICES (sheet)->parts[PANEL], 380, -1);
  for (int width = 700; width < 1200; width += 20)
    {
      graphene_rect_t at;

      gtk_widget_size_allocate (sheet, &(GtkAllocation){ 0, 0, width, 700 }, -1);
      assert_true (gtk_widget_compute_bounds (CRO_NEW_PRICES (sheet)->parts[PANEL], sheet, &at));
      if (at.size.width < 380 || at.origin.x + at.size.width > (float) width)
        fail_msg ("%d wide, it is at %g, %g wide", width, (double) at.origin.x, (double) at.size.width);
    }
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
  /* An answer leads to the question that is shown next. */
  assert_focus (test, "New price of lobster");
  wait_seen (test, "New price of lobster");
  do_key (test, "round.right");
  assert_shown (test, "4 to post · 3 untouched");
  /* Of a list that asks nothing the first row that it filled. */
  cro_new_prices_take_text (CRO_NEW_PRICES (sheet_of (test)), "cockles 19.30\nprawns, shell-on 69\n");
  assert_focus (test, "New price of Cockles");
  /* A message has no columns, however many commas its greeting has. */
  cro_new_prices_take_text (CRO_NEW_PRICES (sheet_of (test)), "Hello both, good day, here they are,\ncockles 19.30\n");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "_Match Columns…"));
  /* Nor is a row that was left, once another's question is shown, though no key answers that one. */
  cro_new_prices_take_text (CRO_NEW_PRICES (sheet_of (test)), "mussels 215\nunicorn 12\n");
  assert_focus (test, "New price of Mussels");
  wait_seen (test, "New price of Mussels");
  do_key (test, "round.next");
  assert_focus (test, "New price of unicorn");
  wait_seen (test, "New price of unicorn");
  do_key (test, "round.right");
  do_key (test, "round.suggest");
  assert_focus (test, "New price of unicorn");
  assert_typed (test, "New price of Mussels", "215.00");
  assert_shown (test, "5 to post · 2 wait for an answer · 1 untouched");
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

/* As the next key does: over what is selected, else where the caret stands. */
static void
type_on (CroTestBench *test,
         const char   *text)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (test->window));
  GtkEditable *entry = GTK_EDITABLE (gtk_widget_get_parent (focus));
  int at;

  gtk_editable_delete_selection (entry);
  at = gtk_editable_get_position (entry);
  gtk_editable_insert_text (entry, text, -1, &at);
  gtk_editable_set_position (entry, at);
  cro_test_settle ();
}

/* What is half typed, a price, a search or a new line, goes on where it was. */
static void
test_another_desk_posts_meanwhile (void **state)
{
  CroTestBench *test = *state;

  open_sheet (test, "Quay Shellfish");
  gtk_widget_grab_focus (named (test, "New price of Mussels"));
  cro_test_settle ();
  type_on (test, "2");
  post_elsewhere (test, "Quay Shellfish", "brown crab 68\n");
  assert_focus (test, "New price of Mussels");
  type_on (test, "2.5");
  assert_typed (test, "New price of Mussels", "22.5");
  assert_shown (test, "1 to post · 5 untouched");
  gtk_widget_grab_focus (named (test, "New price of Cockles"));
  cro_test_settle ();
  type_on (test, "ro");
  post_elsewhere (test, "Quay Shellfish", "brown crab 68.50\n");
  assert_focus (test, "New price of Cockles");
  type_on (test, "ck");
  assert_typed (test, "New price of Cockles", "rock");
  g_signal_emit_by_name (named (test, "New price of Cockles"), "activate");
  cro_test_settle ();
  assert_focus (test, "New price of Rock oyster");
  assert_typed (test, "New price of Cockles", "");
  gtk_widget_grab_focus (named (test, "New pack or ingredient"));
  cro_test_settle ();
  type_on (test, "turbot 3 kg ");
  post_elsewhere (test, "Quay Shellfish", "brown crab 69\n");
  assert_focus (test, "New pack or ingredient");
  type_on (test, "24.50/kg");
  assert_typed (test, "New pack or ingredient", "turbot 3 kg 24.50/kg");
  assert_shown (test, "1 to post · 5 untouched");
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

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_its_supplier_goes),
    CASE (test_by_phone),
    CASE (test_per_kilogram),
    CASE (test_plates_that_move),
    CASE (test_a_night_is_of_two_days),
    CASE (test_pasted_by_key),
    CASE (test_pasted),
    CASE (test_columns_are_remembered),
    CASE (test_keys_ask_nothing),
    CASE (test_columns_in_other_words),
    CASE (test_long_list),
    CASE (test_new_supplier),
    CASE (test_search_over_a_row),
    CASE (test_another_desk_posts_meanwhile),
    CASE (test_a_word_of_a_row_is_no_search),
    CASE (test_what_is_typed_on_an_answer_goes_on),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
