/* An invoice on the sheet of new prices: what is asked of its lines is answered beside them, whole charges are
 * booked, and answers move nothing. */
#include "support/bench-new-prices.h"

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

/* Of 5 kg that were 4.20 each 0.10 is given back: goods at 0.10, or a part of their price, which F2 says, and the
 * popover beside it the other. */
static void
test_credit_is_of_goods_or_of_their_price (void **state)
{
  static const char invoice[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>Q-19</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      INVOICE_LINE ("1", "KGM", "-5", "-0.50", "Mussels", "102", "0.10")
      "</Invoice>";
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open_text (test->bench, supplier_of (test, "Quay Shellfish"), invoice);
  gtk_widget_grab_focus (named (test, "New price of Mussels, 1 kg"));
  wait_seen (test, "New price of Mussels, 1 kg");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench),
                                             "do the goods go back, or a part of the price?"));
  assert_shown (test, "F3  The Goods Go Back");
  assert_shown (test, "F2  A Part of the Price");
  do_key (test, "round.suggest");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Price credited: −0.50 is booked"));
  gtk_widget_grab_focus (named (test, "New price of Mussels, 1 kg"));
  cro_test_settle ();
  sort (test, "What Mussels is", "The _Goods Go Back");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "Returned: −0.50 is booked"));
  sort (test, "What Mussels is", "A Part of the _Price");
  /* No price is posted, though mussels stand on plates. */
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "its delivery."));
  do_key (test, "round.post");
  assert_non_null (cro_test_find_containing (GTK_WIDGET (test->bench), "booked −0.50 of −0.50"));
  assert_shown (test, "Nothing moves.");
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "its delivery."));
}

/* Another desk books a line of the same document, whose row goes: what is asked and answered is still of the row that
 * it was, with the popover open over it. */
static void
test_a_line_is_booked_elsewhere (void **state)
{
  static const char invoice[] =
      "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
      " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
      " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
      "<b:ID>Q-21</b:ID><b:IssueDate>2026-02-14</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
      "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
      INVOICE_LINE ("1", "KGM", "5", "21.50", "Mussels", "102", "4.30")
      INVOICE_LINE ("2", "C62", "2", "6.00", "Reed mat", "X1", "3.00")
      INVOICE_LINE ("3", "C62", "1", "9.00", "Gift basket", "X2", "9.00")
      "</Invoice>";
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_PACKS_BENCH, CRO_REF_NOWHERE);
  cro_new_prices_open_text (test->bench, supplier_of (test, "Quay Shellfish"), invoice);
  assert_shown (test, "1 to post · 2 wait for an answer · 6 untouched");
  gtk_widget_grab_focus (named (test, "New price of Reed mat"));
  cro_test_settle ();
  gtk_menu_button_popup (GTK_MENU_BUTTON (named (test, "What Reed mat is")));
  cro_test_settle ();
  post_elsewhere (test, "Quay Shellfish", invoice);
  assert_shown (test, "0 to post · 2 wait for an answer · 6 untouched");
  press (test, "_Disposables");
  cro_test_settle ();
  assert_focus (test, "New price of Reed mat");
  assert_shown (test, "Disposables: 6.00 is booked, no price.");
  assert_shown (test, "1 to post · 1 waits for an answer · 6 untouched");
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

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_invoice_is_answered),
    CASE (test_a_line_is_booked_elsewhere),
    CASE (test_credit_is_of_goods_or_of_their_price),
    CASE (test_invoice_beside_the_last_price),
    CASE (test_what_is_said_moves_nothing),
    CASE (test_rows_are_in_sight_in_large_text),
    CASE (test_answers_by_the_mouse),
    CASE (test_what_is_answered_is_in_sight),
    CASE (test_invoice_as_a_whole),
    CASE (test_invoice_row_back),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
