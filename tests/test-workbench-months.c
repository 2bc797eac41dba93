/* The page of a month on the demo book: its statement, what it asks, where its cost went; closed, opened
 * again; why it changed, and its matrix. Figures of October are worked by hand from the demo's tables. */
#include "support/bench-hands.h"

#include "cro-focus.h"
#include "cro-here.h"
#include "cro-month-bench.h"
#include "cro-month-close.h"
#include "cro-month-edit.h"
#include "cro-month-entries.h"
#include "cro-decimal.h"
#include "cro-month-paper.h"
#include "cro-month-shelf.h"
#include "cro-month-sheet.h"
#include "cro-month-table-view.h"
#include "cro-months-bench.h"
#include "cro-refusal.h"
#include "cro-whole-file.h"

static CroDate
october (void)
{
  return cro_date_from_civil (2026, 10, 1);
}

static CroRef
page_of (CroDate first)
{
  return CRO_REF (CRO_REF_MONTH, cro_month_to_slot (first));
}

static void
must_close (CroTestBench *test,
            CroDate       first)
{
  GError *error = NULL;
  CroMonth *month = cro_month_close (test->book, first, CRO_NOT_SET, &error);

  cro_test_must (month != NULL, error);
  cro_month_free (month);
}

static int
open_october (void **state)
{
  open_book (state);
  cro_test_bench_show (*state, CRO_TYPE_MONTH_BENCH, page_of (october ()));
  return 0;
}

/* All texts of the page, in their order. Owned. */
static void
add_texts (GtkWidget *widget,
           GString   *texts)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (GTK_IS_LABEL (widget))
    g_string_append_printf (texts, "%s\n", gtk_label_get_label (GTK_LABEL (widget)));
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    add_texts (child, texts);
}

static char *
dup_texts (CroTestBench *test,
           const char   *name)
{
  GString *texts = g_string_new (NULL);

  add_texts (named (test, name), texts);
  return g_string_free (texts, FALSE);
}

/* Some label of the page has it in its text. */
static void
assert_read (CroTestBench *test,
             const char   *text)
{
  g_autoptr (GString) texts = g_string_new (NULL);

  add_texts (GTK_WIDGET (test->bench), texts);
  if (strstr (texts->str, text) == NULL)
    fail_msg ("%s is not read", text);
}

static void
press_row (GtkWidget *label)
{
  GtkWidget *row = gtk_widget_get_ancestor (label, GTK_TYPE_LIST_BOX_ROW);

  gtk_widget_grab_focus (row);
  g_signal_emit_by_name (gtk_widget_get_ancestor (row, GTK_TYPE_LIST_BOX), "row-activated", row);
  cro_test_settle ();
}

#define STATEMENT "Statement; Enter opens what a line is made of"

/* --- The statement ------------------------------------------------------------------------------- */

static void
test_october (void **state)
{
  static const char *const shown[] = {
    "45919.09", "agrees", "2267.11", "13450.38", "−1917.86", "13799.63", "17.11", "−23.30", "−243.75", "13549.69",
    "29.5\u00a0%", "≥ 13182.18", "≤ 367.51", "13.94", "84.75", "13535.13", "1  Net sales", "5  Adjustments",
    "2 questions", "Lamb saddle", "September 2026", "Where at most 367.51 went",
  };
  CroTestBench *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (shown); i++)
    assert_shown (test, shown[i]);
  assert_named (GTK_WIDGET (test->bench), "October");
}

static void
test_a_question_leads_to_its_answer (void **state)
{
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  press (test, "Set Price");
  assert_true (cro_ref_equal (opened, cro_test_find_ref (test, CRO_NAMES_ITEMS, "Sea purslane")));
  press (test, "Choose Day");
  assert_shown (test, "Use These Recipes");
}

/* Not to the name of the book, which the settings begin with. */
static void
test_the_question_of_tax_leads_to_the_tax (void **state)
{
  CroTestBench *test = *state;
  CroSaleEntry sale = { .date = october () + 9, .sold = CRO_MICRO, .revenue = CRO_NOT_SET };
  CroCell no_tax = CRO_CELL_NONE;
  CroRef opened = CRO_REF_NOWHERE;
  g_autoptr (GError) error = NULL;

  sale.thing = cro_test_find_ref (test, CRO_NAMES_THINGS, "Oysters, half-dozen");
  cro_test_must (cro_month_put_sales (test->book, "sale", &sale, 1, &error)
                     && cro_book_set (test->book, "tax", "book", 1, "tax_pct_micro", &no_tax, &error)
                     && cro_month_set_recipes_on (test->book, october (), cro_here_today (), &error),
                 error);
  cro_test_settle ();
  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  press (test, "Enter");
  assert_true (cro_ref_equal (opened, CRO_REF (CRO_REF_HOUSE, CRO_NO_SLOT)));
}

/* 96385074 is a sound GTIN-8. */
static void
test_a_bar_code_among_sales_is_asked_about (void **state)
{
  CroTestBench *test = *state;
  CroSaleEntry sale = { .date = october () + 9, .sold = 96385074 * CRO_MICRO, .revenue = 9 * CRO_MICRO };
  g_autoptr (GError) error = NULL;

  sale.thing = cro_test_find_ref (test, CRO_NAMES_THINGS, "Oysters, half-dozen");
  cro_test_must (cro_month_put_sales (test->book, "sale", &sale, 1, &error), error);
  cro_test_settle ();
  assert_read (test, "sold 96385074. Is that a bar code?");
  press (test, "Open Sales");
  assert_non_null (cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_MONTH_SHEET));
}

static void
test_a_line_opens_and_escape_returns_to_it (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *label = cro_test_find_shown (GTK_WIDGET (test->bench), "3  Food bought");
  GtkWidget *row = gtk_widget_get_ancestor (label, GTK_TYPE_LIST_BOX_ROW), *sheet;

  press_row (label);
  sheet = cro_test_find_type (GTK_WIDGET (test->bench), CRO_TYPE_MONTH_SHEET);
  assert_non_null (sheet);
  g_signal_emit_by_name (sheet, "done");
  cro_test_settle ();
  assert_ptr_equal (gtk_window_get_focus (GTK_WINDOW (test->window)), row);
}

static void
test_where_it_went_opens_to_documents (void **state)
{
  CroTestBench *test = *state;

  press_row (cro_test_find_shown (GTK_WIDGET (test->bench), "Lamb saddle"));
  assert_shown (test, "Lamb saddle, October 2026");
  press (test, "Back");
  choose (test, "Where it went, by", 3);
  press_row (cro_test_find_shown (GTK_WIDGET (test->bench), "Fish"));
  assert_shown (test, "Hake");
}

/* --- Closing -------------------------------------------------------------------------------------- */

/* What the first rows of table prices say, whatever they are of. */
static void
set_prices (CroTestBench *test)
{
  CroCell cell = CRO_CELL_INT (999000000);
  GError *error = NULL;

  for (gint64 id = 1; id <= 20; id++)
    cro_test_must (cro_book_set (test->book, "price", "price", id, "price_micro", &cell, &error), error);
  cro_test_settle ();
}

#define ESTIMATE "Estimate of food delivered whose invoice is still to come"

static void
press_focus (CroTestBench *test)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (test->window));

  assert_true (GTK_IS_BUTTON (focus));
  g_signal_emit_by_name (focus, "clicked");
  cro_test_settle ();
}

static void
test_a_closed_month_does_not_move (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *before = NULL, *after = NULL, *open = NULL;
  GError *error = NULL;

  /* An open month beside it would move. */
  choose (test, "Month to compare with", 0);
  press (test, "Close…");
  assert_shown (test, "Closing freezes the statement and all that it is made of:");
  assert_read (test, "79 counts of the closing stock");
  /* Enter alone leads to the button: nothing that is not taken back is done by it. */
  enter (test, ESTIMATE, "x");
  press_focus (test);
  assert_shown (test, "“x” is not an amount of money. Type a number, as in 12.50.");
  enter (test, ESTIMATE, "");
  assert_false (cro_month_shelf_peek (cro_month_shelf_of (test->book), october ())->is_closed);
  press_focus (test);
  assert_shown (test, "Reopen…");
  before = dup_texts (test, STATEMENT);
  assert_non_null (strstr (before, "13549.69"));
  assert_false (cro_book_undo (test->book, NULL, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CLOSED));
  g_clear_error (&error);
  /* A price would not move it. */
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Set Price"));
  set_prices (test);
  after = dup_texts (test, STATEMENT);
  assert_string_equal (before, after);

  press (test, "Reopen…");
  enter (test, "Reason to reopen the month", " ");
  assert_shown (test, "Type why October 2026 is opened again.");
  enter (test, "Reason to reopen the month", "an invoice was wrong");
  assert_shown (test, "Close…");
  open = dup_texts (test, STATEMENT);
  assert_string_not_equal (open, before);
}

/* In the book as it stood nothing is entered, late documents neither. */
static void
test_a_closed_month_of_the_past_is_only_read (void **state)
{
  CroTestBench *test = *state;
  CroBook *now = test->book;
  GError *error = NULL;

  must_close (test, october ());
  cro_test_settle ();
  assert_read (test, "read only but for late documents");
  test->book = cro_book_open_past (test->folder.path, cro_here_today (), cro_here_today (), &error);
  cro_test_must (test->book != NULL, error);
  cro_bench_set_book (test->bench, test->book);
  cro_bench_put (test->bench, cro_month_to_slot (october ()));
  cro_test_settle ();
  assert_read (test, "closed · recipes of ");
  assert_read (test, "the book as it stood, read only");
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "read only but for late documents"));
  cro_bench_set_book (test->bench, now);
  cro_bench_put (test->bench, cro_month_to_slot (october ()));
  cro_test_settle ();
  g_object_unref (test->book);
  test->book = now;
}

/* What is told of it is that it is to be reopened, and that is what the head offers. */
static void
test_a_month_without_its_time_of_closing_is_reopened (void **state)
{
  CroTestBench *test = *state;
  g_autoptr (GPtrArray) rows = NULL;
  GError *error = NULL;

  must_close (test, october ());
  rows = cro_month_rows_read (test->book, &error);
  cro_test_must (rows != NULL, error);
  cro_test_must (cro_book_set (test->book, "a slip", "month", cro_month_rows_find (rows, october ())->id, "closed_at",
                               &CRO_CELL_NONE, &error), error);
  cro_test_settle ();
  assert_read (test, "reopen the month and close it again");
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Close…"));
  press (test, "Reopen…");
  enter (test, "Reason to reopen the month", "altered in the file");
  assert_shown (test, "Close…");
}

/* The words of a PDF; NULL: nothing here reads one. */
static char *
dup_words (const char *path)
{
  const char *argv[] = { "pdftotext", "-layout", path, "-", NULL };
  char *words = NULL;

  g_spawn_sync (NULL, (char **) argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &words, NULL, NULL, NULL);
  return words;
}

static void
test_a_statement_is_printed (void **state)
{
  static const char *const said[] = { "Statement, October 2026", "45919.09", "13549.69", "Questions", "Lamb saddle" };
  CroTestBench *test = *state;
  g_autoptr (CroMonth) month = cro_month_new (test->book, october (), TRUE, NULL);
  g_autoptr (CroPaper) paper = cro_month_paper_new (test->book, month, NULL, FALSE);
  g_autofree char *path = g_strconcat (test->folder.path, ".pdf", NULL), *words = NULL;
  GError *error = NULL;

  assert_true (cro_paper_set_out (paper, 500, 740) >= 2);
  /* A book is not drawn over, and stands as it stood. */
  assert_false (cro_month_paper_write (test->book, paper, test->folder.path, &error));
  assert_true (g_error_matches (error, CRO_WHOLE_FILE_ERROR, CRO_WHOLE_FILE_ERROR_DATABASE));
  g_clear_error (&error);
  cro_test_must (cro_month_paper_write (test->book, paper, path, &error), error);
  words = dup_words (path);
  g_remove (path);
  for (gsize i = 0; words != NULL && i < G_N_ELEMENTS (said); i++)
    if (strstr (words, said[i]) == NULL)
      fail_msg ("no %s:\n%s", said[i], words);
}

/* The paper of a book as it stood says so: of the statement, why it changed and the matrix in one place. */
static void
test_a_past_month_is_printed (void **state)
{
  CroTestBench *test = *state;
  CroDate today = cro_here_today ();
  g_autofree char *path = g_strconcat (test->folder.path, ".pdf", NULL), *words = NULL;
  g_autofree char *date = cro_date_to_text (today), *then = g_strconcat ("the book of ", date, NULL);
  GError *error = NULL;
  g_autoptr (CroBook) past = cro_book_open_past (test->folder.path, today, today, &error);
  g_autoptr (CroMonth) month = NULL;
  g_autoptr (CroPaper) paper = NULL;

  cro_test_must (past != NULL, error);
  month = cro_month_new (past, october (), TRUE, &error);
  cro_test_must (month != NULL, error);
  paper = cro_month_matrix_paper_new (past, month, FALSE);
  cro_test_must (cro_month_paper_write (past, paper, path, &error), error);
  words = dup_words (path);
  g_remove (path);
  if (words != NULL && strstr (words, then) == NULL)
    fail_msg ("not %s:\n%s", then, words);
}

/* Long words beside a figure leave the names theirs. */
static void
test_names_keep_their_room_on_paper (void **state)
{
  static const char *const whole[] = { "Theoretical food cost", "transferred out", "Food not invoiced yet" };
  CroTestBench *test = *state;
  g_autoptr (CroMonth) month = cro_month_new (test->book, october (), TRUE, NULL);
  g_autoptr (CroMonth) other = cro_month_new (test->book, cro_month_first_of (october () - 1), TRUE, NULL);
  g_autoptr (CroPaper) paper = NULL;
  g_autofree char *path = g_strconcat (test->folder.path, ".pdf", NULL), *words = NULL;
  GError *error = NULL;

  cro_month_estimate (month, 200 * CRO_MICRO);
  paper = cro_month_paper_new (test->book, month, other, FALSE);
  cro_test_must (cro_month_paper_write (test->book, paper, path, &error), error);
  words = dup_words (path);
  g_remove (path);
  for (gsize i = 0; words != NULL && i < G_N_ELEMENTS (whole); i++)
    if (strstr (words, whole[i]) == NULL)
      fail_msg ("“%s” is broken:\n%s", whole[i], words);
}

/* --- Why it changed, and the matrix --------------------------------------------------------------- */

static void
test_why_it_changed (void **state)
{
  CroTestBench *test = *state;
  CroMonthShelf *shelf = cro_month_shelf_of (test->book);
  CroCell cell = CRO_CELL_INT (999000000);
  GError *error = NULL;

  gtk_widget_activate_action (GTK_WIDGET (test->bench), "bench.picture", "i", 1);
  cro_test_settle ();
  assert_shown (test, "Only closed months are compared, as others still move. October 2026 and September 2026 are "
                      "open.");
  assert_shown (test, "Close October 2026…");
  assert_shown (test, "Open September 2026");
  assert_true (gtk_widget_grab_focus (named (test, "Close October 2026…")));
  must_close (test, cro_date_from_civil (2026, 9, 1));
  must_close (test, october ());
  cro_test_settle ();
  assert_shown (test, "What moved it most");
  /* What had the focus went: it is where that came from. */
  assert_true (gtk_widget_get_focus_child (named (test, "Effects; Enter shows what each moved")) != NULL);
  press_row (cro_test_find_shown (named (test, "Effects; Enter shows what each moved"), "price"));
  assert_shown (test, "What moved it most, by price");
  /* Whoever asks for a month of a book that moved has the shelf let go of the one that is told of here. */
  cro_test_must (cro_book_set (test->book, "price", "price", 1, "price_micro", &cell, &error), error);
  cro_test_must (cro_month_shelf_reckon (shelf, cro_date_from_civil (2026, 9, 1), &error) != NULL, error);
  cro_test_must (cro_month_shelf_reckon (shelf, october (), &error) != NULL, error);
  press_row (cro_test_find_shown (named (test, "Effects; Enter shows what each moved"), "volume"));
  assert_shown (test, "What moved it most, by volume");
  /* Of a month before those that are closed. */
  cro_bench_put (test->bench, page_of (cro_date_from_civil (2026, 8, 1)).slot);
  cro_test_settle ();
  press (test, "Close…");
  assert_shown (test, "An estimate counts as food bought in this month, on a line of its own; November 2026 books its "
                      "invoices and takes the estimate off again.");
}

static GtkWidget *
find_class (GtkWidget  *widget,
            const char *name)
{
  GtkWidget *found = gtk_widget_has_css_class (widget, name) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); found == NULL && child != NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_class (child, name);
  return found;
}

/* Whether words of a row stand in it, behind its name, and not under it. */
static gboolean
stands_in_its_row (const char *words)
{
  const char *titles[] = { "Plates", "sold", NULL };
  g_autoptr (CroMonthTable) table = cro_month_table_new (G_N_ELEMENTS (titles), titles);
  GtkWidget *view = g_object_ref_sink (cro_month_table_view_new ("Plates", NULL)), *below;
  gboolean is_below;

  table->words |= 1 << 2;
  cro_month_table_add (table, 0, "Mussel bite")->cells[2] = g_strdup (words);
  cro_month_table_view_set (CRO_MONTH_TABLE_VIEW (view), table);
  below = find_class (view, "month-below");
  is_below = strcmp (gtk_label_get_label (GTK_LABEL (below)), words) == 0;
  assert_int_equal (gtk_widget_get_visible (below), is_below);
  g_object_unref (view);
  return !is_below;
}

static void
test_matrix (void **state)
{
  CroTestBench *test = *state;

  assert_true (stands_in_its_row ("? sells little, earns little"));
  assert_false (stands_in_its_row ("what is said of it at more length"));
  gtk_widget_activate_action (GTK_WIDGET (test->bench), "bench.picture", "i", 2);
  cro_test_settle ();
  assert_shown (test, "sells and earns");
  /* The mean rests on what one leaves, of which some food has no price. */
  assert_read (test, "Earns: from ≤ ");
  press_row (cro_test_find_shown (GTK_WIDGET (test->bench), "3  Hake, potatoes and mussels"));
  assert_shown (test, "Hake, potatoes and mussels, October 2026");
}

/* --- The shelf -------------------------------------------------------------------------------------- */

typedef struct
{
  CroMonthShelf *shelf;
  guint          n_told;
} Hearing;

/* Asks for another month while it hears of one. */
static void
heard_cb (Hearing *self)
{
  self->n_told++;
  cro_month_shelf_peek (self->shelf, cro_date_from_civil (2026, 9, 1));
}

static void
test_a_shelf_tells_each_month_once (void **state)
{
  CroTestBench *test = *state;
  Hearing hearing = { cro_month_shelf_of (test->book), 0 };
  gulong heard = g_signal_connect_swapped (hearing.shelf, "changed", G_CALLBACK (heard_cb), &hearing);

  assert_null (cro_month_shelf_peek (hearing.shelf, october ()));
  for (guint i = 0; i < 100 || hearing.n_told < 2; i++)
    g_main_context_iteration (NULL, hearing.n_told < 2);
  assert_int_equal (hearing.n_told, 2);
  /* What is open is not compared: what it took of each part is not in memory. */
  assert_null (g_array_index (cro_month_shelf_peek (hearing.shelf, october ())->things, CroMonthThing, 0).parts);
  assert_non_null (cro_month_shelf_peek (hearing.shelf, cro_date_from_civil (2026, 9, 1)));
  g_signal_handler_disconnect (hearing.shelf, heard);
}

/* --- All months ------------------------------------------------------------------------------------ */

static void
test_all_months (void **state)
{
  CroTestBench *test = *state;
  CroRef opened = CRO_REF_NOWHERE;

  cro_test_bench_show (test, CRO_TYPE_MONTHS_BENCH, CRO_REF_NOWHERE);
  assert_shown (test, "≤ 367.51");
  assert_shown (test, "count only");
  g_signal_connect (test->bench, "open-ref", G_CALLBACK (opened_cb), &opened);
  press_row (cro_test_find_shown (GTK_WIDGET (test->bench), "October 2026"));
  assert_true (cro_ref_equal (opened, page_of (october ())));
}

/* No figure is out of sight at the side: where the page is narrow, what stands in the list of months is left out. */
static void
test_all_months_fit_a_narrow_page (void **state)
{
  CroTestBench *test = *state;
  GtkAdjustment *across;
  GtkWidget *figure;

  cro_test_bench_show (test, CRO_TYPE_MONTHS_BENCH, CRO_REF_NOWHERE);
  assert_shown (test, "count only");
  assert_null (cro_test_find_containing (GTK_WIDGET (test->bench), "No room for"));
  gtk_window_set_default_size (GTK_WINDOW (test->window), 500, 700);
  assert_shown (test, "No room for: State, Questions");
  cro_test_see (test->window);
  figure = cro_test_find_shown (GTK_WIDGET (test->bench), "≤ 367.51");
  assert_non_null (figure);
  across = gtk_scrolled_window_get_hadjustment (
      GTK_SCROLLED_WINDOW (gtk_widget_get_ancestor (figure, GTK_TYPE_SCROLLED_WINDOW)));
  assert_true (gtk_adjustment_get_upper (across) <= gtk_adjustment_get_page_size (across));
}

/* July has a count and nothing else: what is not known is a dash, and said whole beside it. */
static void
test_what_is_not_known_is_said_whole (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *label;

  cro_test_bench_show (test, CRO_TYPE_MONTH_BENCH, page_of (cro_date_from_civil (2026, 7, 1)));
  cro_test_settle ();
  label = cro_test_find_shown (GTK_WIDGET (test->bench), "not known yet");
  assert_true (label != NULL && !pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))));
}

/* November waits for its closing stock. */
static void
test_a_page_begins_where_it_waits (void **state)
{
  CroTestBench *test = *state;
  GtkWidget *label, *focus;

  cro_test_bench_show (test, CRO_TYPE_MONTH_BENCH, page_of (cro_date_from_civil (2026, 11, 1)));
  cro_test_settle ();
  assert_true (cro_focus_first (cro_focus_find (GTK_WIDGET (test->bench), "lines-part")));
  label = cro_test_find_shown (GTK_WIDGET (test->bench), "4  Stock on 2026-11-30");
  focus = gtk_window_get_focus (GTK_WINDOW (test->window));
  assert_true (label != NULL && focus == gtk_widget_get_ancestor (label, GTK_TYPE_LIST_BOX_ROW));
}

static void
test_a_month_without_records (void **state)
{
  CroTestBench *test = *state;

  cro_test_bench_show (test, CRO_TYPE_MONTH_BENCH, page_of (cro_date_from_civil (2020, 1, 1)));
  assert_shown (test, "no sales entered");
  assert_shown (test, "not known yet");
  if (cro_test_find_shown (GTK_WIDGET (test->bench), "0.00") != NULL)
    fail_msg ("what nobody entered shows a 0");
}

#define OCTOBER_TEST(test) cmocka_unit_test_setup_teardown (test, open_october, close_book)

int
main (void)
{
  const struct CMUnitTest tests[] = {
    OCTOBER_TEST (test_october),
    OCTOBER_TEST (test_a_question_leads_to_its_answer),
    OCTOBER_TEST (test_the_question_of_tax_leads_to_the_tax),
    OCTOBER_TEST (test_a_bar_code_among_sales_is_asked_about),
    OCTOBER_TEST (test_a_line_opens_and_escape_returns_to_it),
    OCTOBER_TEST (test_where_it_went_opens_to_documents),
    OCTOBER_TEST (test_a_closed_month_does_not_move),
    OCTOBER_TEST (test_a_closed_month_of_the_past_is_only_read),
    OCTOBER_TEST (test_a_month_without_its_time_of_closing_is_reopened),
    OCTOBER_TEST (test_a_statement_is_printed),
    OCTOBER_TEST (test_a_past_month_is_printed),
    OCTOBER_TEST (test_names_keep_their_room_on_paper),
    OCTOBER_TEST (test_why_it_changed),
    OCTOBER_TEST (test_matrix),
    cmocka_unit_test_setup_teardown (test_a_shelf_tells_each_month_once, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_all_months, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_all_months_fit_a_narrow_page, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_what_is_not_known_is_said_whole, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_a_page_begins_where_it_waits, open_book, close_book),
    cmocka_unit_test_setup_teardown (test_a_month_without_records, open_book, close_book),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
