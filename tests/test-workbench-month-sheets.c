/* The sheets of a month's inputs: what is typed is said before it is kept, is kept as one act, and can be
 * changed and removed where it stands. */
#include "support/bench-hands.h"

#include <math.h>

#include "cro-count-adding.h"
#include "cro-count-list.h"
#include "cro-history.h"
#include "cro-month.h"
#include "cro-month-edit.h"
#include "cro-month-sheet.h"
#include "cro-records-view.h"

/* A bench that shows a sheet and nothing else. */
#define TEST_TYPE_HOST (test_host_get_type ())
G_DECLARE_FINAL_TYPE (TestHost, test_host, TEST, HOST, CroBench)

struct _TestHost
{
  CroBench       parent_instance;
  CroMonthSheet *sheet;
  guint          n_done;
};

G_DEFINE_FINAL_TYPE (TestHost, test_host, CRO_TYPE_BENCH)

static CroMonthSheetKind which;
static const char *month;

static void
done_cb (TestHost *self)
{
  self->n_done++;
}

static void
refresh_cb (TestHost *self)
{
  cro_month_sheet_refresh (self->sheet);
}

static void
test_host_show (CroBench *bench)
{
  TestHost *self = TEST_HOST (bench);

  self->sheet = CRO_MONTH_SHEET (cro_month_sheet_new (bench, month, which));
  g_signal_connect_object (self->sheet, "done", G_CALLBACK (done_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cro_bench_get_book (bench), "changed", G_CALLBACK (refresh_cb), self,
                           G_CONNECT_SWAPPED);
  cro_bench_set_cover (bench, GTK_WIDGET (self->sheet));
}

static void
test_host_class_init (TestHostClass *klass)
{
  CRO_BENCH_CLASS (klass)->show = test_host_show;
}

static void
test_host_init (TestHost *self)
{
}

static CroTestBench *
open_sheet (void             **state,
            CroMonthSheetKind  sheet,
            const char        *code)
{
  CroTestBench *test = *state;

  which = sheet;
  month = code;
  cro_test_bench_show (test, TEST_TYPE_HOST, CRO_REF_NOWHERE);
  return test;
}

static CroMonthSheet *
sheet_of (CroTestBench *test)
{
  return TEST_HOST (test->bench)->sheet;
}

static void
type_in (CroTestBench *test,
         const char   *name,
         const char   *text)
{
  cro_test_type (named (test, name), text);
}

static gint64
count_rows (CroTestBench *test,
            const char   *table)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (test->book), table, columns, NULL);
  gint64 n = 0;

  while (cro_rows_next (rows, NULL))
    n++;
  return n;
}

static guint
count_acts (CroTestBench *test)
{
  g_autoptr (GPtrArray) acts = cro_store_list_acts (cro_book_get_store (test->book), 0, 100, NULL);

  return acts->len;
}

/* The id of the newest row. */
static gint64
newest (CroTestBench *test,
        const char   *table)
{
  static const char *const columns[] = { "id", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (test->book), table, columns, NULL);
  gint64 id = 0;

  while (cro_rows_next (rows, NULL))
    id = MAX (id, cro_rows_get_int (rows, 0));
  return id;
}

static void
assert_row (CroTestBench *test,
            const char   *table,
            gint64        id,
            const char   *column,
            const char   *value)
{
  g_autofree char *stored = cro_test_stored (test, table, id, column);

  if (g_strcmp0 (stored, value) != 0)
    fail_msg ("%s.%s is %s and not %s", table, column, stored, value);
}

/* The demo's October: it ties to the till and, in the window's own table, to the ledger. */
static void
test_a_sale_is_said_and_kept (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_SALES, "2026-10");
  gint64 n = count_rows (test, "sale"), id;

  assert_shown (test, "entered: 45919.09 · agrees ✓");
  type_in (test, "Date", "12");
  type_in (test, "Plate or menu", "crab crous");
  type_in (test, "Sold", "-2");
  assert_shown (test, "Crab croustade · 2026-10-12 · −2: a void, not made");
  type_in (test, "Sold", "3");
  assert_shown (test, "Crab croustade · 2026-10-12 · 3 sold, at the net price of that day");
  type_in (test, "Net sales", "24,30");
  assert_shown (test, "Crab croustade · 2026-10-12 · 3 sold for 24.30 net");
  cro_test_enter (named (test, "Net sales"));
  id = newest (test, "sale");
  assert_int_equal (count_rows (test, "sale"), n + 1);
  assert_row (test, "sale", id, "date", "2026-10-12");
  assert_row (test, "sale", id, "sold_micro", "3000000");
  assert_row (test, "sale", id, "net_revenue_micro", "24300000");
  assert_shown (test, "entered: 45943.39 · difference: +24.30");
  /* The day stays, and the next name is asked for. */
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Date"))), "12");
  assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)),
                                       named (test, "Plate or menu")));
  undo (test);
  assert_int_equal (count_rows (test, "sale"), n);
  assert_shown (test, "entered: 45919.09 · agrees ✓");
  /* All of the demo's tax is 10 %. */
  cro_test_type (named (test, "Till total, with tax"), "50500");
  cro_test_enter (named (test, "Till total, with tax"));
  assert_shown (test, "with tax: 50511.00 · difference: +11.00");
}

static void
test_what_cannot_be_kept_is_said_at_its_field (void **state)
{
  static const struct { const char *name, *text, *day, *sold, *says; } cases[] = {
    { "no name", "", "", "1", "Type part of a plate’s or menu’s name." },
    { "no such thing", "Quokka", "", "1",
      "No plate or menu has this name. What is sold without one is entered as other revenue." },
    { "how many", "Tide", "", "", "Type how many were sold; less than 0 for a void, 0 for a refund." },
    { "given back", "Tide", "", "0", "Type what was given back, as −24." },
    { "another month", "Tide", "2026-09-30", "1",
      "This page is of 2026-10-01 to 2026-10-31. Open the other month to enter it there." },
  };
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_SALES, "2026-10");
  gint64 n = count_rows (test, "sale");
  GtkWidget *form;
  int before, after;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      type_in (test, "Date", cases[i].day);
      type_in (test, "Plate or menu", cases[i].text);
      type_in (test, "Sold", cases[i].sold);
      cro_test_enter (named (test, "Sold"));
      assert_shown (test, cases[i].says);
    }
  assert_int_equal (count_rows (test, "sale"), n);
  /* Escape gives back what stood in the field; then it empties, and what was typed can be put back; then it leads
   * back. */
  form = gtk_widget_get_ancestor (named (test, "Sold"), g_type_from_name ("CroMonthForm"));
  gtk_widget_grab_focus (named (test, "Sold"));
  type_in (test, "Sold", "77");
  cro_test_escape (form);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Sold"))), "1");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Plate or menu"))), "Tide");
  gtk_widget_measure (form, GTK_ORIENTATION_VERTICAL, -1, NULL, &before, NULL, NULL);
  cro_test_escape (form);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Plate or menu"))), "");
  /* The button has its room already: nothing below moves. */
  gtk_widget_measure (form, GTK_ORIENTATION_VERTICAL, -1, NULL, &after, NULL, NULL);
  assert_int_equal (after, before);
  press (test, "Put Back What Was Typed");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Plate or menu"))), "Tide");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Sold"))), "1");
  cro_test_escape (form);
  assert_int_equal (TEST_HOST (test->bench)->n_done, 0);
  press (test, "Done");
  assert_int_equal (TEST_HOST (test->bench)->n_done, 1);
}

static void
test_other_revenue_is_words_and_money (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_REVENUE, "2026-10");

  type_in (test, "What was sold", "wine by the glass");
  type_in (test, "Net sales", "120");
  cro_test_enter (named (test, "Net sales"));
  assert_row (test, "sale", newest (test, "sale"), "other", "wine by the glass");
  assert_row (test, "sale", newest (test, "sale"), "date", "2026-10-31");
  assert_shown (test, "wine by the glass");
}

/* One row a document, its total checked; then another value of it, and away with it. */
static void
test_a_document_is_checked_changed_and_removed (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_PURCHASES, "2026-10");
  gint64 n = count_rows (test, "purchase");
  GtkWidget *form;

  assert_shown (test, "entered: 13535.13 · agrees ✓");
  /* What is not typed is not made up: no day is money, and a purchase is somebody's. */
  type_in (test, "Food", "2026-10-30");
  cro_test_enter (named (test, "Food"));
  assert_int_equal (count_rows (test, "purchase"), n);
  type_in (test, "Food", "100");
  assert_shown (test, "2026-10-31 · no supplier · 100.00 net");
  cro_test_enter (named (test, "Food"));
  assert_shown (test, "Type the supplier’s name.");
  assert_int_equal (count_rows (test, "purchase"), n);
  type_in (test, "Delivered", "31");
  type_in (test, "Supplier", "quay");
  type_in (test, "Food", "2026-10-30");
  cro_test_enter (named (test, "Food"));
  assert_shown (test, "“2026-10-30” is a date. A sum of numbers has spaces around its signs.");
  type_in (test, "Number", "Z-9");
  type_in (test, "Food", "100");
  type_in (test, "Disposables", "20");
  type_in (test, "Tax", "7");
  type_in (test, "Total", "128");
  assert_shown (test, "2026-10-31 · Quay Shellfish · 120.00 net · Net values and tax are 1.00 less than the total.");
  cro_test_enter (named (test, "Total"));
  assert_int_equal (count_rows (test, "purchase"), n);
  type_in (test, "Total", "127");
  assert_shown (test, "2026-10-31 · Quay Shellfish · 120.00 net · the total agrees ✓");
  cro_test_enter (named (test, "Total"));
  assert_int_equal (count_rows (test, "purchase"), n + 2);
  assert_shown (test, "entered: 13655.13 · difference: +120.00");
  /* What was entered is selected, and in sight. */
  press (test, "Change Row");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Number"))), "Z-9");
  form = gtk_widget_get_ancestor (named (test, "Number"), g_type_from_name ("CroMonthForm"));
  cro_test_escape (form);
  /* It is looked for, and what Enter finds is selected. */
  type_in (test, "Search this table", "Z-9");
  cro_test_enter (named (test, "Search this table"));
  press (test, "Change Row");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Food"))), "100");
  type_in (test, "Food", "90");
  type_in (test, "Disposables", "");
  cro_test_enter (named (test, "Food"));
  assert_int_equal (count_rows (test, "purchase"), n + 1);
  assert_shown (test, "entered: 13625.13 · difference: +90.00");
  type_in (test, "Search this table", "Z-9");
  cro_test_enter (named (test, "Search this table"));
  press (test, "Remove Row");
  assert_int_equal (count_rows (test, "purchase"), n);
}

static void
test_lines_stand_on_their_page (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_PURCHASES, "2026-10");

  press (test, "Lines");
  type_in (test, "Delivered", "30");
  type_in (test, "Supplier", "Newcomer");
  type_in (test, "Number", "N-1");
  type_in (test, "Ingredient, or what it is", "hake");
  type_in (test, "Amount", "2 kg");
  type_in (test, "Net value", "18");
  type_in (test, "Supplier", "");
  cro_test_enter (named (test, "Net value"));
  assert_shown (test, "Type the supplier’s name.");
  type_in (test, "Supplier", "Newcomer");
  assert_shown (test, "2026-10-30 · Newcomer (new supplier) · Hake · 2 kg · 18.00 net");
  cro_test_enter (named (test, "Net value"));
  assert_row (test, "purchase", newest (test, "purchase"), "amount_micro", "2000000");
  assert_row (test, "purchase", newest (test, "purchase"), "kind", "food");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Number"))), "N-1");
}

static void
test_an_adjustment_is_an_amount_or_a_value (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_ADJUSTMENTS, "2026-10");
  g_autoptr (CroMonth) of_month = NULL;
  g_autoptr (GHashTable) worths = NULL;
  CroMonthWorth *worth;
  GHashTableIter iter;
  double sum = 0;
  gint64 id;
  char *text;

  type_in (test, "Item", "hake");
  cro_test_enter (named (test, "Item"));
  assert_shown (test, "Type an amount, or what it was worth.");
  type_in (test, "Amount", "1.5 kg");
  assert_shown (test, "staff meal · Hake · 2026-10-31 · 1.5 kg · at the food cost of that day");
  cro_test_enter (named (test, "Amount"));
  assert_row (test, "adjustment", newest (test, "adjustment"), "kind", "staff-meal");
  assert_row (test, "adjustment", newest (test, "adjustment"), "unit", "kg");
  /* Worth what the statement says, amounts at the food cost of their day. */
  of_month = cro_month_new (test->book, cro_date_from_civil (2026, 10, 1), TRUE, NULL);
  worths = cro_month_list_worths (of_month, test->book, NULL);
  id = newest (test, "adjustment");
  worth = g_hash_table_lookup (worths, &id);
  assert_non_null (worth);
  assert_true (worth->money > 10 && worth->known == CRO_KNOWN_WHOLE);
  text = g_strdup_printf ("%.2f", worth->money);
  assert_shown (test, text);
  g_free (text);
  g_hash_table_iter_init (&iter, worths);
  while (g_hash_table_iter_next (&iter, NULL, (gpointer *) &worth))
    sum += worth->money;
  for (guint i = 0; i < CRO_N_ADJUSTMENT_KINDS; i++)
    sum -= of_month->adjustments[i];
  assert_true (fabs (sum) < 1e-6);
}

/* --- Stock --------------------------------------------------------------------------------------------- */

/* Enter keeps an amount in whatever unit, and leads down; empty is not counted, and said. */
static void
test_stock_is_counted_down_the_page (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_CLOSING, "2026-10");
  GtkWidget *butter = named (test, "Amount of Crab butter");
  gint64 n = count_rows (test, "stock_count");

  assert_shown (test, "All counted: 79 ✓");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (butter)), "0.67 kg");
  cro_test_type (butter, "1 lb");
  cro_test_enter (butter);
  assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)),
                                       named (test, "Amount of Cultured butter")));
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Amount of Crab butter"))), "1 lb");
  assert_int_equal (count_rows (test, "stock_count"), n);
  cro_test_type (named (test, "Amount of Crab butter"), "");
  cro_test_enter (named (test, "Amount of Crab butter"));
  assert_int_equal (count_rows (test, "stock_count"), n - 1);
  assert_shown (test, "1 of 79 not counted");
  cro_test_type (named (test, "Amount of Crab butter"), "three");
  cro_test_enter (named (test, "Amount of Crab butter"));
  assert_int_equal (count_rows (test, "stock_count"), n - 1);
  cro_test_type (named (test, "Amount of Crab butter"), "0");
  cro_test_enter (named (test, "Amount of Crab butter"));
  assert_shown (test, "All counted: 79 ✓");
}

/* Enter keeps a first count once, however often it is pressed, and the focus is on the row below. */
static void
test_a_first_count_is_kept_once (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_CLOSING, "2026-11");
  gint64 n = count_rows (test, "stock_count"), acts = count_acts (test);
  GtkWidget *butter = named (test, "Amount of Crab butter");

  gtk_widget_grab_focus (butter);
  cro_test_type (butter, "1.5");
  cro_test_enter (butter);
  assert_int_equal (count_rows (test, "stock_count"), n + 1);
  assert_int_equal (count_acts (test), acts + 1);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (named (test, "Amount of Crab butter"))), "1.5 kg");
  assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (test->window)),
                                       named (test, "Amount of Cultured butter")));
  /* Enter in what is empty goes on and keeps nothing; what is typed next is of the row that has the focus. */
  cro_test_enter (named (test, "Amount of Cultured butter"));
  cro_test_enter (named (test, "Amount of Crab butter"));
  cro_test_type (named (test, "Amount of Cultured butter"), "3");
  cro_test_enter (named (test, "Amount of Cultured butter"));
  assert_int_equal (count_rows (test, "stock_count"), n + 2);
  assert_int_equal (count_acts (test), acts + 2);
}

/* Something of the book that is not on the sheet of a day. */
static guint32
find_unlisted (CroTestBench *test,
               CroDate       day)
{
  g_autoptr (CroCountList) list = cro_count_list_new (test->book, day, CRO_COUNT_BY_PLACE, NULL);
  g_autoptr (GHashTable) listed = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < list->lines->len; i++)
    g_hash_table_add (listed, GUINT_TO_POINTER (g_array_index (list->lines, CroCountLine, i).item));
  for (guint32 item = 0; item < model_of (test)->items->len; item++)
    if (!cro_model_item (model_of (test), item)->is_dead
        && !g_hash_table_contains (listed, GUINT_TO_POINTER (item)))
      return item;
  fail_msg ("all of the book is listed");
  return CRO_NO_SLOT;
}

/* What is typed of one item stays where another's line goes; of one that goes it is told, and what is typed on is no
 * count of another item. */
static void
test_a_count_is_typed_while_lines_go (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_CLOSING, "2026-10");
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  guint32 item = find_unlisted (test, cro_date_from_civil (2026, 10, 31));
  CroCountEntry entry = { .date = cro_date_from_civil (2026, 10, 31), .item = item, .amount = INT64_C (1000000),
                          .unit = CRO_UNIT_EACH, .place = "" };
  const char *name = cro_model_item (model_of (test), item)->name;
  g_autofree char *field = g_strdup_printf ("Amount of %s", name);
  g_autofree char *told = g_strdup_printf ("“9” was not entered for “%s”: this row is no longer shown.\n", name);
  GtkWidget *butter = named (test, "Amount of Crab butter");
  GError *error = NULL;
  gint64 id;

  gtk_widget_grab_focus (butter);
  cro_test_type (butter, "2.5");
  cro_test_must (cro_count_put (test->book, &entry, &error), error);
  id = newest (test, "stock_count");
  cro_book_tell (test->book);
  cro_test_settle ();
  assert_true (named (test, "Amount of Crab butter") == butter);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (butter)), "2.5");
  assert_focus (test, "Amount of Crab butter");
  gtk_widget_grab_focus (named (test, field));
  cro_test_settle ();
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (butter)), "2.5 kg");
  cro_test_type (named (test, field), "9");
  g_array_append_val (ids, id);
  cro_test_must (cro_month_remove (test->book, "removal", "stock_count", ids, &error), error);
  cro_book_tell (test->book);
  cro_test_settle ();
  assert_string_equal (test->said->str, told);
  assert_focus (test, "What is not listed");
}

static void
test_stock_is_one_sum_of_money (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_OPENING, "2026-12");
  GtkWidget *value = named (test, "Value of the stock, where nobody counted");

  cro_test_type (value, "twelve");
  cro_test_enter (value);
  cro_test_type (value, "1500");
  cro_test_enter (value);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (value)), "1500.00");
  assert_row (test, "month", newest (test, "month"), "closing_stock_value_micro", "1500000000");
  undo (test);
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (value)), "");
}

/* --- A till --------------------------------------------------------------------------------------------- */

/* A name that the book knows, one that is proposed, one that is revenue; then all at once. */
static void
test_a_till_is_settled_and_entered (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_SALES, "2026-12");
  gint64 n = count_rows (test, "sale");

  cro_month_sheet_paste (sheet_of (test), "Name\tQty\tNet sales\nslack WATER\t4\t160\nTIDE EVENING\t2\t170\n"
                                          "White wine\t5\t30\nTotal\t\t360\n");
  assert_shown (test, "Pasted rows · 4 rows read · 1 day · 1 row to enter · 2 names to settle");
  press (test, "It Is Tide");
  press (test, "Other Revenue");
  assert_shown (test, "White wine → other revenue");
  press (test, "Enter 3 Rows");
  assert_int_equal (count_rows (test, "sale"), n + 3);
  assert_string_equal (test->said->str, "3 rows of sales were entered\n");
  assert_int_equal (count_rows (test, "till_name"), 2);
  assert_shown (test, "entered: 360.00 (30.00 without a plate)");
  /* Back to the fields; the same rows again are none. */
  named (test, "Plate or menu");
  cro_month_sheet_paste (sheet_of (test), "Name\tQty\tNet sales\nTIDE EVENING\t2\t170\n");
  assert_shown (test, "Pasted rows · 1 row read · 1 day · 0 rows to enter · 1 is in the book already · "
                    "1 of these days has sales already");
  press (test, "Cancel");
  undo (test);
  assert_int_equal (count_rows (test, "sale"), n);
}

/* The first file cannot be read, the second one can; what is read when its window goes is nobody's any more. */
static void
test_a_file_gives_way_to_the_next (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_SALES, "2026-12");
  g_autofree char *path = g_build_filename (test->folder.folder, "till.csv", NULL);
  g_autofree char *missing = g_build_filename (test->folder.folder, "missing.csv", NULL);

  cro_test_write_table (test->folder.folder, "till", "Name,Qty,Net sales\nTIDE EVENING,2,170\n");
  cro_month_sheet_open_file (sheet_of (test), missing);
  cro_month_sheet_open_file (sheet_of (test), path);
  assert_shown (test, "till.csv · 1 row read · 1 day · 0 rows to enter · 1 name to settle");
  cro_test_settle ();
  assert_string_equal (test->said->str, "");
  named (test, "Leave Out: TIDE EVENING");
  cro_month_sheet_open_file (sheet_of (test), missing);
}

/* As Ctrl+V does, wherever the focus is in the sheet. */
static void
paste_by_key (CroTestBench *test,
              const char   *text)
{
  GtkWidget *sheet = GTK_WIDGET (sheet_of (test));
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (sheet);
  gboolean done = FALSE;

  gdk_clipboard_set_text (gtk_widget_get_clipboard (sheet), text);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller) && !done)
        g_signal_emit_by_name (controller, "key-pressed", GDK_KEY_v, 0, GDK_CONTROL_MASK, &done);
    }
  assert_true (done);
}

/* One word goes into the field, after what stands there; rows come in as rows. */
static void
test_rows_are_pasted_by_key (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_SALES, "2026-12");
  GtkWidget *plate = named (test, "Plate or menu");
  gboolean is_late = FALSE;
  guint patience = cro_test_lose_patience (&is_late);

  gtk_widget_grab_focus (plate);
  paste_by_key (test, "crab\n");
  while (!is_late && strcmp (gtk_editable_get_text (GTK_EDITABLE (plate)), "crab") != 0)
    g_main_context_iteration (NULL, TRUE);
  assert_false (is_late);
  g_source_remove (patience);
  paste_by_key (test, "Name\tQty\tNet sales\nTide\t2\t170\nSlack water\t1\t40\n");
  assert_shown (test, "Pasted rows · 2 rows read · 1 day · 2 rows to enter");
  assert_string_equal (gtk_editable_get_text (GTK_EDITABLE (plate)), "crab");
  press (test, "Enter 2 Rows");
  assert_shown (test, "entered: 210.00");
}

/* --- Rows that stand elsewhere --------------------------------------------------------------------------- */

/* Counts in lines, of which one is settled by what is proposed; a supplier who is new. */
static void
test_pasted_rows_are_settled_and_entered (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_CLOSING, "2026-11");
  gint64 n = count_rows (test, "stock_count"), bought;

  cro_month_sheet_paste (sheet_of (test), "2 kg whipping cream\n1,5 kg cultured butter\n1 kg crab\nlots of salt\n");
  assert_shown (test, "Pasted rows · 3 rows read · 2 rows to enter · 1 name to settle");
  assert_shown (test, "Row 4: “lots of salt” has no amount");
  press (test, "It Is Crab butter");
  press (test, "Enter 3 Rows");
  assert_int_equal (count_rows (test, "stock_count"), n + 3);
  assert_string_equal (test->said->str, "3 counts were entered\n");
  assert_shown (test, "76 of 79 not counted");
  close_book (state);
  open_book (state);
  test = open_sheet (state, CRO_MONTH_SHEET_PURCHASES, "2026-11");
  bought = count_rows (test, "purchase");
  cro_month_sheet_paste (sheet_of (test), "Supplier\tNo\tDelivered\tFood\tVAT\tTotal\n"
                                          "Samphire pickers\t7\t2026-11-12\t100\t10\t110\n");
  assert_shown (test, "Pasted rows · 1 row read · 1 day · 0 documents to enter · 1 name to settle");
  press (test, "New Supplier");
  press (test, "Enter 1 Document");
  assert_int_equal (count_rows (test, "purchase"), bought + 1);
  undo (test);
  assert_int_equal (count_rows (test, "purchase"), bought);
}

/* Without an opening stock: the closing one instead, or the count of the month before, in one act. */
static void
test_a_month_begins (void **state)
{
  CroTestBench *test = open_sheet (state, CRO_MONTH_SHEET_OPENING, "2026-12");
  gint64 n = count_rows (test, "stock_count");

  assert_shown (test, "Begin With the Closing Stock of December 2026");
  press (test, "Take the Count of 2026-10-31");
  assert_int_equal (count_rows (test, "stock_count"), n + 79);
  assert_shown (test, "All counted: 79 ✓");
  undo (test);
  assert_int_equal (count_rows (test, "stock_count"), n);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_a_sale_is_said_and_kept),
    CASE (test_what_cannot_be_kept_is_said_at_its_field),
    CASE (test_other_revenue_is_words_and_money),
    CASE (test_a_document_is_checked_changed_and_removed),
    CASE (test_lines_stand_on_their_page),
    CASE (test_an_adjustment_is_an_amount_or_a_value),
    CASE (test_stock_is_counted_down_the_page),
    CASE (test_a_count_is_typed_while_lines_go),
    CASE (test_a_first_count_is_kept_once),
    CASE (test_stock_is_one_sum_of_money),
    CASE (test_a_till_is_settled_and_entered),
    CASE (test_a_file_gives_way_to_the_next),
    CASE (test_rows_are_pasted_by_key),
    CASE (test_pasted_rows_are_settled_and_entered),
    CASE (test_a_month_begins),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
