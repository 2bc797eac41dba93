/* What is entered of a month: acts that are taken back, documents and their lines, what is to be counted,
 * and tills' exports of several kinds, worked by hand beside each case. */
#include "cro-count-list.h"
#include "cro-count-paper.h"
#include "cro-intake.h"
#include "cro-month-edit.h"
#include "cro-month.h"
#include "support/kitchen-book.h"

#include "cro-decimal.h"

#include <math.h>

#define M CRO_MICRO

static const struct { const char *name, *text; } tables[] = {
  { "book", "key,value\ncurrency,EUR\ntax_pct,10\n" },
  { "ingredients", "name,unit,kind,category\nCrab,g,food,shellfish\nOil,ml,food,\nButter,g,food,dairy\n"
                   "Cup,each,disposable,\n" },
  { "suppliers", "name\nQuay\n" },
  { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,1,kg\n" },
  { "prices", "ingredient,supplier,from,price\nCrab,Quay,2026-01-01,20\n" },
  { "plates", "name,makes,price,tax_pct\nCroustade,1,11,\nPurée d’été,1,24,20\n" },
  { "lines", "into,parent,position,item,amount,unit\nplate,Croustade,1,Crab,10,g\n" },
  { "menus", "name,price\nTide,110\n" },
  { "menu_plates", "menu,plate\nTide,Croustade\n" },
  { "counts", "date,item,amount,unit,place\n2026-01-31,Crab,2,kg,cold room\n2026-01-31,Oil,3,l,store\n"
              "2026-01-31,Cup,9,each,store\n2026-02-28,Crab,0,kg,cold room\n" },
  { "purchases", "date,document_date,supplier,document,ingredient,kind,amount,unit,net_value\n"
                 "2026-02-03,2026-02-02,Quay,Q-1,Crab,food,5,kg,60\n2026-02-03,2026-02-02,Quay,Q-1,,other,,,7\n"
                 "2026-02-10,,Quay,Q-2,,food,,,90\n2026-02-11,,,,Butter,food,1,kg,9\n" },
  { "sales", "date,kind,name,sold,net_revenue\n2026-02-01,plate,Croustade,2,20\n" },
  { "months", "month,closed_at\n2025-12,2026-01-02T08:00:00Z\n" },
};

static int
set_up (void **state)
{
  CroTestKitchen *kitchen = g_new0 (CroTestKitchen, 1);

  kitchen->folder = cro_test_folder_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    cro_test_write_table (kitchen->folder.folder, tables[i].name, tables[i].text);
  kitchen->book = cro_test_book_load (&kitchen->folder);
  *state = kitchen;
  return 0;
}

static CroDate
day (const char *text)
{
  CroDate date;

  g_assert_true (cro_date_parse (text, strlen (text), &date));
  return date;
}

static CroRef
thing (CroBook    *book,
       const char *name)
{
  CroRef ref = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, name);

  assert_int_not_equal (ref.kind, CRO_REF_NONE);
  return ref;
}

static guint32
item (CroBook    *book,
      const char *name)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_ITEMS, name).slot;
}

/* Rows of a table as text, in their order: "2026-02-01|1||2000000|20000000". */
static char *
rows_text (CroBook           *book,
           const char        *table,
           const char *const *columns)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), table, columns, &error);
  GString *text = g_string_new (NULL);

  cro_test_must (rows != NULL, error);
  while (cro_rows_next (rows, &error))
    {
      for (int i = 0; columns[i] != NULL; i++)
        {
          const char *value = cro_rows_is_null (rows, i) ? "" : cro_rows_get_text (rows, i);

          g_string_append_printf (text, "%s%s", i > 0 ? "|" : "", value);
        }
      g_string_append (text, "\n");
    }
  assert_null (error);
  return g_string_free (text, FALSE);
}

/* After the last row of before, which stand first. */
static void
assert_added (const char *before,
              const char *after,
              const char *added)
{
  if (!g_str_has_prefix (after, before))
    fail_msg ("rows moved:\n%s\ninto\n%s", before, after);
  assert_string_equal (after + strlen (before), added);
}

static void
undo (CroBook *book)
{
  g_autoptr (GError) error = NULL;

  cro_test_must (cro_book_undo (book, NULL, &error), error);
}

/* --- Acts ------------------------------------------------------------------------------------------- */

static const char *const sale_columns[] = { "date", "other", "sold_micro", "net_revenue_micro", NULL };
static const char *const purchase_columns[] = { "date", "document_date", "document", "category", "kind",
                                                "amount_micro", "net_value_micro", NULL };

static void
test_sales_are_entered_and_taken_back (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  g_autofree char *before = rows_text (book, "sale", sale_columns), *after = NULL, *back = NULL;
  g_autoptr (GError) error = NULL;
  const CroSaleEntry entries[] = {
    { .date = day ("2026-02-05"), .thing = thing (book, "Tide"), .sold = -M, .revenue = CRO_NOT_SET },
    { .date = day ("2026-02-05"), .thing = thing (book, "Croustade"), .sold = 0, .revenue = -5 * M },
    { .date = day ("2026-02-06"), .thing = CRO_REF_NOWHERE, .other = " Wine ", .sold = M, .revenue = 8 * M },
  };

  cro_test_must (cro_month_put_sales (book, "sales", entries, G_N_ELEMENTS (entries), &error), error);
  after = rows_text (book, "sale", sale_columns);
  assert_added (before, after, "2026-02-05||-1000000|\n2026-02-05||0|-5000000\n2026-02-06|Wine|1000000|8000000\n");
  undo (book);
  back = rows_text (book, "sale", sale_columns);
  assert_string_equal (back, before);
}

/* Of a closed month nothing is made, changed, moved there or removed; purchases may come late. */
static void
test_a_closed_month_refuses (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  const CroSaleEntry late = { .date = day ("2025-12-05"), .thing = thing (book, "Tide"), .sold = M,
                              .revenue = CRO_NOT_SET };
  const CroSaleEntry moved = { .id = 1, .date = day ("2025-12-31"), .thing = thing (book, "Tide"), .sold = M,
                               .revenue = CRO_NOT_SET };
  const CroDocumentEntry document = { .supplier = "Mill", .number = "M-1", .delivered = day ("2025-12-30"),
                                      .dated = CRO_NO_DAY, .values = { 5 * M, CRO_NOT_SET, CRO_NOT_SET } };
  g_autoptr (GError) error = NULL;

  assert_false (cro_month_put_sales (book, "s", &late, 1, &error));
  assert_true (g_error_matches (error, CRO_EDIT_ERROR, CRO_EDIT_ERROR_CLOSED));
  assert_string_equal (error->message, "December 2025");
  g_clear_error (&error);
  assert_false (cro_month_put_sales (book, "s", &moved, 1, &error));
  g_clear_error (&error);
  assert_false (cro_month_set (book, "t", day ("2025-12-01"), "till_net_revenue_micro", M, &error));
  g_clear_error (&error);
  cro_test_must (cro_month_put_document (book, "d", 0, &document, &error), error);
}

static void
test_totals_make_their_month (void **state)
{
  static const char *const columns[] = { "month", "till_net_revenue_micro", "ledger_purchases_micro", NULL };
  CroBook *book = ((CroTestKitchen *) *state)->book;
  g_autofree char *before = rows_text (book, "month", columns), *after = NULL;
  g_autoptr (GError) error = NULL;

  cro_test_must (cro_month_set (book, "t", day ("2026-02-01"), "till_net_revenue_micro", 20 * M, &error), error);
  cro_test_must (cro_month_set (book, "t", day ("2026-02-01"), "ledger_purchases_micro", 7 * M, &error), error);
  after = rows_text (book, "month", columns);
  assert_added (before, after, "2026-02|20000000|7000000\n");
}

/* --- Documents --------------------------------------------------------------------------------------- */

static gint64
purchase_of (CroBook    *book,
             const char *document)
{
  static const char *const columns[] = { "id", "document", NULL };
  g_autoptr (CroRows) rows = cro_store_read (cro_book_get_store (book), "purchase", columns, NULL);
  gint64 id = 0;

  while (id == 0 && cro_rows_next (rows, NULL))
    if (g_strcmp0 (cro_rows_get_text (rows, 1), document) == 0)
      id = cro_rows_get_int (rows, 0);
  assert_int_not_equal (id, 0);
  return id;
}

static void
test_a_document_is_its_rows (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  g_autoptr (CroDocument) lines = cro_document_new (book, purchase_of (book, "Q-1"), NULL);
  g_autoptr (CroDocument) whole = cro_document_new (book, purchase_of (book, "Q-2"), NULL);

  assert_string_equal (lines->entry.supplier, "Quay");
  assert_true (lines->entry.dated == day ("2026-02-02"));
  assert_int_equal (lines->ids->len, 2);
  assert_true (lines->entry.values[0] == 60 * M && lines->entry.values[2] == 7 * M);
  assert_true (lines->entry.values[1] == CRO_NOT_SET);
  assert_true (lines->has_lines);
  assert_false (whole->has_lines);
  assert_int_equal (whole->ids->len, 1);
}

/* One sum becomes two kinds; then food goes; then a line is told apart from what is left. */
static void
test_a_document_changes (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  CroDocumentEntry entry = { .supplier = "Quay", .number = "Q-2", .delivered = day ("2026-02-10"),
                             .dated = day ("2026-02-09"), .values = { 80 * M, CRO_NOT_SET, 10 * M } };
  const CroPurchaseEntry line = { .supplier = "Quay", .number = "Q-2", .delivered = day ("2026-02-10"),
                                  .ingredient = item (book, "Crab"), .amount = 2 * M, .unit = CRO_UNIT_KG,
                                  .value = 30 * M };
  const CroPurchaseEntry rest = { .supplier = "Quay", .number = "Q-2", .delivered = day ("2026-02-10"),
                                  .ingredient = item (book, "Butter"), .amount = CRO_NOT_SET, .value = 50 * M };
  g_autoptr (CroDocument) document = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  cro_test_must (cro_month_put_document (book, "d", purchase_of (book, "Q-2"), &entry, &error), error);
  cro_test_must (cro_month_put_purchase (book, "l", &line, &error), error);
  document = cro_document_new (book, purchase_of (book, "Q-2"), NULL);
  assert_int_equal (document->ids->len, 3);
  assert_true (document->entry.values[0] == 80 * M && document->entry.values[2] == 10 * M);
  assert_true (document->entry.dated == day ("2026-02-09"));
  /* What is told apart whole leaves no sum of nothing. */
  cro_test_must (cro_month_put_purchase (book, "l", &rest, &error), error);
  text = rows_text (book, "purchase", purchase_columns);
  assert_non_null (strstr (text, "2026-02-10|2026-02-09|Q-2||food|2000000|30000000\n"));
  assert_non_null (strstr (text, "2026-02-10|2026-02-09|Q-2||food||50000000\n"));
  assert_non_null (strstr (text, "2026-02-10|2026-02-09|Q-2||other||10000000\n"));
  assert_null (strstr (text, "|80000000\n"));
  for (guint i = 0; i < 3; i++)
    undo (book);
  g_clear_pointer (&document, cro_document_free);
  document = cro_document_new (book, purchase_of (book, "Q-2"), NULL);
  assert_true (document->ids->len == 1 && document->entry.values[0] == 90 * M);
}

/* A document with lines keeps their values, and takes another day and number. */
static void
test_heads_of_lines_change_together (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  const CroDocumentEntry entry = { .supplier = "Quay", .number = "Q-9", .delivered = day ("2026-02-04"),
                                   .dated = CRO_NO_DAY, .values = { 1, 1, 1 } };
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  cro_test_must (cro_month_put_document (book, "d", purchase_of (book, "Q-1"), &entry, &error), error);
  text = rows_text (book, "purchase", purchase_columns);
  assert_non_null (strstr (text, "2026-02-04||Q-9||food|5000000|60000000\n2026-02-04||Q-9||other||7000000\n"));
}

/* --- Counting ---------------------------------------------------------------------------------------- */

static char *
count_text (CroBook            *book,
            const CroCountList *list)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < list->lines->len; i++)
    {
      const CroCountLine *line = &g_array_index (list->lines, CroCountLine, i);

      g_string_append_printf (text, "%s|%s|%g|%g\n", line->place != NULL ? line->place : "",
                              cro_model_item (cro_book_get_model (book), line->item)->name,
                              line->last != CRO_NOT_SET ? cro_decimal_to_double (line->last) : -1,
                              line->amount != CRO_NOT_SET ? cro_decimal_to_double (line->amount) : -1);
    }
  return g_string_free (text, FALSE);
}

/* By place, then category, then name. Crab is counted, as 0; oil was there and butter came: they are not. No
 * disposable is asked for. */
static void
test_what_is_to_be_counted (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  g_autoptr (GError) error = NULL;
  g_autoptr (CroCountList) list = cro_count_list_new (book, day ("2026-02-28"), CRO_COUNT_BY_PLACE, &error);
  g_autoptr (CroCountList) worth = cro_count_list_new (book, day ("2026-02-28"), CRO_COUNT_BY_WORTH, &error);
  g_autofree char *text = NULL;
  g_autoptr (CroPaper) paper = NULL;

  cro_test_must (list != NULL && worth != NULL, error);
  text = count_text (book, list);
  assert_string_equal (text, "|Butter|-1|-1\ncold room|Crab|2|0\nstore|Oil|3|-1\n");
  assert_int_equal (list->n_items, 3);
  assert_int_equal (list->n_counted, 1);
  /* 2 kg at 20.00 and 60.00 bought: 100.00, before butter's 9.00. */
  assert_int_equal (g_array_index (worth->lines, CroCountLine, 0).item, item (book, "Crab"));
  assert_true (g_array_index (worth->lines, CroCountLine, 0).worth == 100);
  paper = cro_count_paper_new (book, list, FALSE);
  assert_int_equal (cro_paper_set_out (paper, 500, 700), 1);
  assert_int_equal (cro_paper_count_blocks (paper), 4);
}

/* What is counted is listed, though no food cost waits for it: it adds 0 to the stock, as its food cost is. */
static void
test_disposables_are_counted (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  const CroCountEntry cups[] = { { .date = day ("2026-02-28"), .item = item (book, "Cup"), .amount = 7 * M,
                                   .unit = CRO_UNIT_EACH, .place = "store" },
                                 { .date = day ("2026-03-31"), .item = item (book, "Cup"), .amount = 6 * M,
                                   .unit = CRO_UNIT_EACH, .place = "store" } };
  g_autoptr (CroCountList) list = NULL;
  g_autoptr (CroMonth) february = NULL, march = NULL;
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  cro_test_must (cro_month_put_counts (book, "c", cups, G_N_ELEMENTS (cups), &error), error);
  list = cro_count_list_new (book, day ("2026-02-28"), CRO_COUNT_BY_PLACE, &error);
  cro_test_must (list != NULL, error);
  text = count_text (book, list);
  assert_string_equal (text, "|Butter|-1|-1\ncold room|Crab|2|0\nstore|Cup|9|7\nstore|Oil|3|-1\n");
  assert_true (list->n_items == 4 && list->n_counted == 2);
  february = cro_month_new (book, day ("2026-02-01"), TRUE, &error);
  march = cro_month_new (book, day ("2026-03-01"), TRUE, &error);
  cro_test_must (february != NULL && march != NULL, error);
  assert_true (february->closing == 0 && march->closing == 0);
  assert_int_equal (march->counts->len, 1);
}

/* Crab is worth 20.00 a kg; a cup adds nothing to a food cost, which is no worth of 0. */
static void
test_an_adjusted_disposable_has_no_worth (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  const CroAdjustmentEntry crab = { .date = day ("2026-02-05"), .kind = CRO_ADJUSTMENT_WASTE,
                                    .item = item (book, "Crab"), .amount = M, .unit = CRO_UNIT_KG,
                                    .value = CRO_NOT_SET };
  const CroAdjustmentEntry cups = { .date = day ("2026-02-06"), .kind = CRO_ADJUSTMENT_WASTE,
                                    .item = item (book, "Cup"), .amount = 5 * M, .unit = CRO_UNIT_EACH,
                                    .value = CRO_NOT_SET };
  g_autoptr (CroMonth) february = NULL;
  g_autoptr (GHashTable) worths = NULL;
  GHashTableIter iter;
  gpointer worth;
  g_autoptr (GError) error = NULL;

  cro_test_must (cro_month_put_adjustment (book, "a", &crab, &error), error);
  cro_test_must (cro_month_put_adjustment (book, "a", &cups, &error), error);
  february = cro_month_new (book, day ("2026-02-01"), TRUE, &error);
  cro_test_must (february != NULL, error);
  worths = cro_month_list_worths (february, book, &error);
  assert_true (worths != NULL && g_hash_table_size (worths) == 1);
  g_hash_table_iter_init (&iter, worths);
  assert_true (g_hash_table_iter_next (&iter, NULL, &worth));
  assert_true (((CroMonthWorth *) worth)->money == 20);
}

/* 2 at 20.00 net with 10 % are 22.00; 3 menus at 110.00; a purée at 24.00. */
static void
test_sales_with_tax (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  const CroSaleEntry entries[] = {
    { .date = day ("2026-02-05"), .thing = thing (book, "Tide"), .sold = 3 * M, .revenue = CRO_NOT_SET },
    { .date = day ("2026-02-28"), .thing = thing (book, "Purée d’été"), .sold = M, .revenue = 20 * M },
    { .date = day ("2026-03-01"), .thing = thing (book, "Tide"), .sold = M, .revenue = CRO_NOT_SET },
  };
  g_autoptr (GError) error = NULL;
  gboolean is_whole;
  double gross;

  cro_test_must (cro_month_put_sales (book, "s", entries, G_N_ELEMENTS (entries), &error), error);
  cro_test_must (cro_month_gross_sales (book, day ("2026-02-01"), &gross, &is_whole, &error), error);
  assert_true (is_whole);
  assert_true (gross > 22 + 330 + 24 - 1e-9 && gross < 22 + 330 + 24 + 1e-9);
}

/* --- Tills --------------------------------------------------------------------------------------------- */

static CroIntake *
read_intake (CroTestKitchen *kitchen,
             CroIntakeKind   kind,
             const char     *text,
             gboolean        with_tax)
{
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "till.csv", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (CroBrought) brought = NULL;
  gboolean is_count = kind == CRO_INTAKE_COUNTS;
  g_autoptr (CroIntakeReading) reading = NULL;
  CroIntakeColumns columns;
  CroIntake *intake;

  cro_test_must (g_file_set_contents (path, text, -1, &error), error);
  brought = cro_brought_new (path, 0, NULL, NULL, &error);
  cro_test_must (brought != NULL, error);
  cro_intake_columns_find (brought, kind, &columns);
  reading = cro_intake_reading_new (kitchen->book, brought, &columns, day (is_count ? "2026-02-28" : "2026-02-01"),
                                    day ("2026-02-28"), with_tax, &error);
  cro_test_must (reading != NULL, error);
  while (cro_intake_reading_go_on (reading, 2))
    ;
  intake = cro_intake_reading_end (reading, &error);
  cro_test_must (intake != NULL, error);
  return intake;
}

static CroIntake *
read_till (CroTestKitchen *kitchen,
           const char     *text,
           gboolean        with_tax)
{
  return read_intake (kitchen, CRO_INTAKE_SALES, text, with_tax);
}

/* Each settled as revenue, but one that begins with a dash, which is left out. */
static void
settle_rest (CroIntake *till)
{
  for (guint i = 0; i < till->names->len; i++)
    {
      const CroIntakeName *name = &g_array_index (till->names, CroIntakeName, i);

      if (name->state == CRO_INTAKE_UNSETTLED)
        cro_intake_settle (till, i, *name->name == '-' ? CRO_INTAKE_LEFT_OUT : CRO_INTAKE_OTHER, CRO_REF_NOWHERE);
    }
  assert_int_equal (cro_intake_count_unsettled (till), 0);
}

static char *
bad_text (GArray *rows)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < rows->len; i++)
    {
      const CroIntakeBad *bad = &g_array_index (rows, CroIntakeBad, i);

      g_string_append_printf (text, "bad %u %d %s\n", bad->number, bad->fault, bad->text);
    }
  return g_string_free (text, FALSE);
}

static void
test_tills_are_read (void **state)
{
  /* Tax is 10 %, of the purée 20. Rows of sales: day, words, sold, net. */
  static const struct { const char *says, *text; gboolean with_tax; const char *bad, *rows; } cases[] = {
    { "semicolons, Windows-1252, decimal commas, tax included by its heading",
      "Journal;;;\r\nDate;Libell\xe9;Qt\xe9;CA TTC\r\n05/02/2026;PUR\xc9" "E D\x92\xc9T\xc9;2;48,00\r\n"
      "05/02/2026;Tide;1;1 100,00\r\n;Total;;1 148,00\r\n", FALSE, "",
      "2026-02-05||2000000|40000000\n2026-02-05||1000000|1000000000\n" },
    { "the month stands first where the days tell, with a time behind",
      "Item,Sold,Net sales,Day\ncroustade,3,30,2/13/26 19:30\ncroustade,1,10,2/13/26 21:05\n"
      "Tide,-1,-100,2/5/26 20:00\nCroustade,0,-10,2/6/26\n", FALSE, "",
      "2026-02-13||4000000|40000000\n2026-02-05||-1000000|-100000000\n2026-02-06||0|-10000000\n" },
    { "a sum that stands under the days",
      "Day,Name,Sold,Net sales\n2026-02-05,Tide,1,100\nTotal,,1,100\n,Purée d’été,2,40\nSomething,,1,1\n", FALSE,
      "bad 5 2 Something\n",
      "2026-02-05||1000000|100000000\n2026-02-28||2000000|40000000\n" },
    { "no headings, no day: the last of the month; revenue as the house has it",
      "Croustade\t4\t44.00\nWine\t2\t11.00\n", TRUE, "",
      "2026-02-28||4000000|40000000\n2026-02-28|Wine|2000000|10000000\n" },
    { "what cannot be read, and what is of another month",
      "name,qty,net,date\nCroustade,x,3,2026-02-03\nCroustade,1,3,soon\nCroustade,1,3,2026-03-03\n,1,3,2026-02-03\n"
      "Croustade,(2),(20),2026-02-03\nCroustade,2-,\xe2\x88\x92" "20,2026-02-03\n", FALSE,
      "bad 2 1 x\nbad 3 2 soon\nbad 4 3 2026-03-03\nbad 5 0 \n", "2026-02-03||-4000000|-40000000\n" },
    { "no revenue: the price of its day; a group's title and a voucher are none",
      "Plate;Count\nStarters;\nCROUSTADE;5\n- voucher;3\n", FALSE, "", "2026-02-28||5000000|\n" },
    { "a bar code for how many; sums of several rows that the book does not hold, and of either sign",
      "name,qty,net,date\nCroustade,1,600000000000,2026-02-03\nCROUSTADE,1,600000000000,2026-02-03\n"
      "Croustade,-1,-600000000000,2026-02-03\nCroustade,800000000000,1,2026-02-04\n"
      "Tide,800000000000,1,2026-02-04\nTide,1,200000000000,2026-02-04\nTide,2900640004179,9,2026-02-04\n", FALSE,
      "bad 3 4 600000000000\nbad 4 4 -600000000000\nbad 6 4 800000000000\nbad 8 4 2900640004179\n",
      "2026-02-03||1000000|600000000000000000\n2026-02-04||800000000000000000|1000000\n"
      "2026-02-04||1000000|200000000000000000\n" },
    { "no headings, and the bar code of each before how many",
      "Croustade\t2900640004179\t4\t40.00\nWine\t2900640004186\t2\t10.00\n", FALSE, "",
      "2026-02-28||4000000|40000000\n2026-02-28|Wine|2000000|10000000\n" },
    { "a rate beside each: none, per cent, a part of 1; where none stands that of the plate",
      "Article;Qty;Gross;Tax rate\nService charge;1;85,50;0\nCroustade;1;24;20 %\nTide;1;105,50;0,055\n"
      "Puree d'ete;1;24,00;\nTide;1;10;x\nTide;1;10;-1\n", FALSE, "bad 6 1 x\nbad 7 1 -1\n",
      "2026-02-28|Service charge|1000000|85500000\n2026-02-28||1000000|20000000\n2026-02-28||1000000|100000000\n"
      "2026-02-28||1000000|20000000\n" },
    { "names with a character that turns what follows, or that nobody sees",
      "name,qty,net\n\xe2\x80\xae" "abc,1,3\nCroustade,1,10\n- a\x1b[31m,1,3\n", FALSE,
      "bad 2 5 U+202E\nbad 4 5 U+001B\n", "2026-02-28||1000000|10000000\n" },
  };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroIntake) till = read_till (kitchen, cases[i].text, cases[i].with_tax);
      g_autofree char *before = rows_text (kitchen->book, "sale", sale_columns), *after = NULL;
      g_autofree char *bad = bad_text (till->bad);
      g_autoptr (GError) error = NULL;
      guint n;

      settle_rest (till);
      if (strcmp (bad, cases[i].bad) != 0)
        fail_msg ("%s: %s", cases[i].says, bad);
      cro_test_must (cro_intake_enter (till, kitchen->book, "till", FALSE, &n, &error), error);
      after = rows_text (kitchen->book, "sale", sale_columns);
      if (!g_str_has_prefix (after, before) || strcmp (after + strlen (before), cases[i].rows) != 0)
        fail_msg ("%s:\n%s", cases[i].says, after + strlen (before));
      undo (kitchen->book);
    }
}

/* What was settled once is not asked again, also of another month; the same file enters nothing twice. */
static void
test_names_are_remembered (void **state)
{
  static const char text[] = "name,sold,net\nTIDE MENU,2,200\nHouse wine,3,9\n";
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroIntake) first = read_till (kitchen, text, FALSE), again = NULL, renamed = NULL;
  g_autoptr (GArray) entries = NULL;
  g_autoptr (GError) error = NULL;
  CroRef tide = thing (kitchen->book, "Tide");
  guint n, n_known;

  assert_int_equal (cro_intake_count_unsettled (first), 2);
  cro_intake_settle (first, 0, CRO_INTAKE_THING, tide);
  settle_rest (first);
  cro_test_must (cro_intake_enter (first, kitchen->book, "till", FALSE, &n, &error), error);
  assert_int_equal (n, 2);
  again = read_till (kitchen, text, FALSE);
  assert_int_equal (cro_intake_count_unsettled (again), 0);
  assert_int_equal (again->n_known_days, 1);
  entries = cro_intake_entries (again, kitchen->book, &n_known, &error);
  assert_int_equal (entries->len, 0);
  assert_int_equal (n_known, 2);
  /* In place of what the day has: as many rows, none twice. */
  cro_test_must (cro_intake_enter (again, kitchen->book, "till", TRUE, &n, &error), error);
  assert_int_equal (n, 2);
  cro_test_must (cro_edit_rename (kitchen->book, "r", tide, "High tide", &error), error);
  /* It follows what it is. */
  renamed = read_till (kitchen, text, FALSE);
  assert_int_equal (cro_intake_count_unsettled (renamed), 0);
}

/* In place of what the book has of its days, and of no other: a total that is left out has none. */
static void
test_other_days_stay (void **state)
{
  CroTestKitchen *kitchen = *state;
  const CroSaleEntry last = { .date = day ("2026-02-28"), .thing = thing (kitchen->book, "Tide"), .sold = M,
                              .revenue = CRO_NOT_SET };
  g_autoptr (CroIntake) till = read_till (kitchen, "name,sold,net,date\nTide,3,300,2026-02-01\nTotal,3,300,\n",
                                          FALSE);
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  guint n;

  assert_int_equal (till->n_days, 1);
  cro_test_must (cro_month_put_sales (kitchen->book, "s", &last, 1, &error), error);
  cro_test_must (cro_intake_enter (till, kitchen->book, "till", TRUE, &n, &error), error);
  text = rows_text (kitchen->book, "sale", sale_columns);
  assert_string_equal (text, "2026-02-28||1000000|\n2026-02-01||3000000|300000000\n");
}

/* A till that says for how much and not how many sells no plates. */
static void
test_how_many_is_not_guessed (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroIntake) till = read_till (kitchen, "name,sales\nCroustade,44\n", FALSE);
  g_autoptr (GArray) entries = NULL;
  guint n_known;

  assert_int_equal (cro_intake_count_unmeasured (till, kitchen->book), 1);
  entries = cro_intake_entries (till, kitchen->book, &n_known, NULL);
  assert_int_equal (entries->len, 0);
}

/* The name of other revenue may be made of the very figures that say which plate. */
static void
test_other_revenue_is_no_plate (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroRef plate = thing (kitchen->book, "Croustade");
  g_autofree char *text = g_strdup_printf ("name,sold,net\nCroustade,2,20\n%u %u,1,5\n", plate.kind, plate.slot);
  g_autoptr (CroIntake) till = read_till (kitchen, text, FALSE);
  g_autoptr (GArray) entries = NULL;
  guint n_known;

  settle_rest (till);
  entries = cro_intake_entries (till, kitchen->book, &n_known, NULL);
  assert_int_equal (entries->len, 2);
}

/* --- Counts, documents, adjustments ---------------------------------------------------------------------- */

/* What enters of one sheet, those that wait left out. The same sheet again enters nothing. */
static void
test_other_rows_are_read (void **state)
{
  static const char *const count_columns[] = { "amount_micro", "unit", "place", NULL };
  static const char *const line_columns[] = { "document", "ingredient", "kind", "amount_micro", "unit",
                                              "net_value_micro", NULL };
  static const char *const document_columns[] = { "date", "document_date", "document", "kind", "net_value_micro",
                                                  NULL };
  static const char *const adjustment_columns[] = { "date", "kind", "amount_micro", "unit", "net_value_micro", "note",
                                                    NULL };
  static const struct
  {
    const char *says, *table;
    const char *const *columns;
    CroIntakeKind kind;
    const char *text, *bad, *clashing, *rows;
    guint n_waiting, n_unmeasured;
  } cases[] = {
    { "counts in columns, French: a place, a unit beside or behind, another number of the name; an empty amount was "
      "not counted", "stock_count", count_columns, CRO_INTAKE_COUNTS,
      "Inventaire;;;\nDésignation;Quantité;Unité;Emplacement\ncrabs;1,5;kg;chambre froide\nOIL;2 l;;\nButter;;kg;\n"
      "Cup;12;;\nquokka;3;kg;\nButter;3;;\nCrab;2;bushel;\n",
      "bad 9 7 bushel\n", "", "1500000|kg|chambre froide\n2000000|l|\n12000000|each|\n", 1, 1 },
    { "counts in words, a text a row", "stock_count", count_columns, CRO_INTAKE_COUNTS,
      "BUTTER\t1.5\tkg\n2 l oil\t\t\nquokka 3 kg\t\t\ncrab\t\t\n", "bad 4 6 crab\n", "",
      "1500000|kg|\n2000000|l|\n", 1, 0 },
    { "documents: several rows of one, tax that leads to the total and one that does not, a credit note; what the "
      "book has, and what it has with other values", "purchase", document_columns, CRO_INTAKE_DOCUMENTS,
      "Supplier,Invoice,Date,Delivered,Food,Packaging,VAT,Total\nQUAY,Q-7,2026-02-04,2026-02-05,100,20,12,132\n"
      "Quay,Q-7,2026-02-04,2026-02-05,5,,,\nQuay,Q-7,2026-02-04,2026-02-05,5,,,\nQuay,Q-8,2026-02-06,,50,,5,56\n"
      "Quay,Q-2,,2026-02-10,90,,,\nQuay,Q-1,2026-02-02,2026-02-03,61,,,\nMill,M-1,2026-02-27,,,,-1,-11\n"
      "Quay,Q-9,2026-02-06,2026-03-01,50,,,\nTotal,,,,315,20,,\n",
      "bad 5 10 −1\nbad 9 3 2026-03-01\n", "bad 4 11 3\nbad 7 12 Q-1\n",
      "2026-02-05|2026-02-04|Q-7|food|105000000\n2026-02-05|2026-02-04|Q-7|disposable|20000000\n", 1, 0 },
    { "documents by accounts: a kind a row, in French", "purchase", document_columns, CRO_INTAKE_DOCUMENTS,
      "Fournisseur\tPièce\tDate facture\tNature\tMontant HT\nQuay\t9\t07/02/2026\tDenrées\t1 200,50\n"
      "Quay\t9\t07/02/2026\tConsommables\t30\nQuay\t9\t07/02/2026\tLoyer\t1\nQuay\t8\t13/02/2026\t\tx\n",
      "bad 4 8 Loyer\nbad 5 1 x\n", "",
      "2026-02-07|2026-02-07|9|food|1200500000\n2026-02-07|2026-02-07|9|disposable|30000000\n", 0, 0 },
    { "documents line by line: an amount beside its unit is no money", "purchase", document_columns,
      CRO_INTAKE_DOCUMENTS,
      "Date\tSupplier\tDocument\tIngredient\tAmount\tUnit\tNet\n2026-02-07\tQuay\tA-1\tButter\t5\tkg\t310.00\n"
      "2026-02-07\tQuay\tA-1\tOil\t500 ml\t\t25.20\n", "", "", "2026-02-07|2026-02-07|A-1|food|310000000\n"
      "2026-02-07|2026-02-07|A-1|food|25200000\n", 0, 0 },
    { "documents line by line: what the book has is a line of its kind, with its amount; the rest one sum", "purchase",
      line_columns, CRO_INTAKE_DOCUMENTS,
      "Delivered\tSupplier\tDocument\tIngredient\tAmount\tUnit\tNet\n2026-02-07\tQuay\tA-5\tcrabs\t0.5\tkg\t31\n"
      "2026-02-07\tQuay\tA-5\tcup\t500\t\t9.50\n2026-02-07\tQuay\tA-5\tOil\t3\tboxes\t31\n"
      "2026-02-07\tQuay\tA-5\tQuokka\t1\tkg\t4\n2026-02-07\tQuay\tA-5\tCrab\t-1\tkg\t-60\n\t\t\tTotal\t\t\t15.50\n",
      "", "", "A-5||food|||4000000\nA-5|1|food|500000|kg|31000000\nA-5|4|disposable|500000000|each|9500000\n"
      "A-5|2|food|||31000000\nA-5|1|food|||-60000000\n", 0, 0 },
    { "documents: an amount beside a quantity is money", "purchase", document_columns, CRO_INTAKE_DOCUMENTS,
      "Date,Supplier,Document,Qty,Unit,Amount\n2026-02-07,Quay,A-2,5,kg,31\n", "", "",
      "2026-02-07|2026-02-07|A-2|food|31000000\n", 0, 0 },
    { "documents of a closed month come late; those of an open one belong there", "purchase", document_columns,
      CRO_INTAKE_DOCUMENTS, "Supplier,Invoice,Delivered,Food\nQuay,L-1,2025-12-30,40\nQuay,L-2,2026-01-30,50\n",
      "bad 3 3 2026-01-30\n", "", "2025-12-30||L-1|food|40000000\n", 0, 0 },
    { "adjustments: an amount of an item, a value of none, kinds in words", "adjustment", adjustment_columns,
      CRO_INTAKE_ADJUSTMENTS,
      "Date,Kind,Item,Quantity,Unit,Value,Note\n2026-02-03,Staff meals,Butter,200,g,,Sunday\n"
      "2026-02-04,pertes,,,,12.5,fridge\n2026-02-05,thrown away,oil,1 l,,,\n2026-02-05,lent,oil,1 l,,,\n"
      "2026-02-06,promotion,,2,kg,,\n2026-02-06,promotion,Crab,,,-1,\n", "bad 5 8 lent\nbad 6 0 \nbad 7 1 -1\n", "",
      "2026-02-03|staff-meal|200000000|g||Sunday\n2026-02-04|waste|||12500000|fridge\n"
      "2026-02-05|waste|1000000|l||\n", 0, 0 },
  };
  CroTestKitchen *kitchen = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (CroIntake) intake = read_intake (kitchen, cases[i].kind, cases[i].text, FALSE), again = NULL;
      g_autofree char *before = rows_text (kitchen->book, cases[i].table, cases[i].columns), *after = NULL;
      g_autofree char *bad = bad_text (intake->bad), *clashing = NULL;
      g_autoptr (GArray) entries = NULL;
      g_autoptr (GError) error = NULL;
      guint n, n_known;

      if (strcmp (bad, cases[i].bad) != 0 || cro_intake_count_unsettled (intake) != cases[i].n_waiting
          || cro_intake_count_unmeasured (intake, kitchen->book) != cases[i].n_unmeasured)
        fail_msg ("%s: %s%u, %u", cases[i].says, bad, cro_intake_count_unsettled (intake),
                  cro_intake_count_unmeasured (intake, kitchen->book));
      cro_test_must (cro_intake_enter (intake, kitchen->book, "i", FALSE, &n, &error), error);
      clashing = bad_text (intake->clashing);
      after = rows_text (kitchen->book, cases[i].table, cases[i].columns);
      if (strcmp (clashing, cases[i].clashing) != 0 || !g_str_has_prefix (after, before)
          || strcmp (after + strlen (before), cases[i].rows) != 0)
        fail_msg ("%s: %s\n%s", cases[i].says, clashing, after + strlen (before));
      again = read_intake (kitchen, cases[i].kind, cases[i].text, FALSE);
      entries = cro_intake_entries (again, kitchen->book, &n_known, &error);
      assert_int_equal (entries->len, 0);
      assert_true (n_known >= n);
      undo (kitchen->book);
    }
}

/* An amount of an ingredient alone is no money, and of two that say the same neither is guessed. */
static void
test_what_a_document_is_worth_is_asked (void **state)
{
  static const char *const texts[] = { "Date,Supplier,Document,Ingredient,Amount\n2026-02-07,Quay,A-3,Oil,5\n",
                                       "Date,Supplier,Document,Net,Net total\n2026-02-07,Quay,A-4,5,25\n" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (CroIntake) intake = read_intake (*state, CRO_INTAKE_DOCUMENTS, texts[i], FALSE);

      assert_int_equal (intake->n_rows, 0);
    }
}

/* Two documents of a supplier whom the book does not know make one; counts of the day give way to others. */
static void
test_what_is_new_is_made_once (void **state)
{
  static const char *const names[] = { "name", NULL }, *const amounts[] = { "date", "amount_micro", NULL };
  CroTestKitchen *kitchen = *state;
  g_autoptr (CroIntake) mill = read_intake (kitchen, CRO_INTAKE_DOCUMENTS,
                                            "supplier,no,food,delivered\nMill,1,5,2026-02-02\nMill,2,6,2026-02-02\n",
                                            FALSE);
  g_autoptr (CroIntake) counts = read_intake (kitchen, CRO_INTAKE_COUNTS, "item,amount\nCrab,1 kg\n", FALSE);
  g_autofree char *suppliers = NULL, *stock = NULL;
  g_autoptr (GError) error = NULL;
  guint n;

  cro_intake_settle (mill, 0, CRO_INTAKE_OTHER, CRO_REF_NOWHERE);
  cro_test_must (cro_intake_enter (mill, kitchen->book, "i", FALSE, &n, &error), error);
  assert_int_equal (n, 2);
  suppliers = rows_text (kitchen->book, "supplier", names);
  assert_string_equal (suppliers, "Quay\nMill\n");
  assert_int_equal (counts->n_known_days, 1);
  cro_test_must (cro_intake_enter (counts, kitchen->book, "i", TRUE, &n, &error), error);
  stock = rows_text (kitchen->book, "stock_count", amounts);
  assert_string_equal (stock, "2026-01-31|2000000\n2026-01-31|3000000\n2026-01-31|9000000\n2026-02-28|1000000\n");
}

/* A book that lost its units: what is counted in them is not taken for grams. */
static void
test_an_unknown_unit_is_no_gram (void **state)
{
  CroTestKitchen *kitchen = *state;
  sqlite3 *db = cro_test_raw (kitchen->folder.path);
  GError *error = NULL;

  cro_test_sql (db, "PRAGMA foreign_keys = OFF");
  cro_test_begin_raw_act (db);
  cro_test_sql (db, "UPDATE stock_count SET unit = 'stone' WHERE date = '2026-01-31'");
  cro_test_end_raw_act (db);
  sqlite3_close (db);
  assert_null (cro_count_list_new (kitchen->book, day ("2026-02-28"), CRO_COUNT_BY_PLACE, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED));
  g_clear_error (&error);
  assert_null (cro_month_new (kitchen->book, day ("2026-02-01"), TRUE, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED));
  g_clear_error (&error);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, cro_test_kitchen_tear_down)
    CASE (test_sales_are_entered_and_taken_back),
    CASE (test_a_closed_month_refuses),
    CASE (test_totals_make_their_month),
    CASE (test_a_document_is_its_rows),
    CASE (test_a_document_changes),
    CASE (test_heads_of_lines_change_together),
    CASE (test_what_is_to_be_counted),
    CASE (test_disposables_are_counted),
    CASE (test_an_adjusted_disposable_has_no_worth),
    CASE (test_sales_with_tax),
    CASE (test_other_rows_are_read),
    CASE (test_what_a_document_is_worth_is_asked),
    CASE (test_what_is_new_is_made_once),
    CASE (test_tills_are_read),
    CASE (test_names_are_remembered),
    CASE (test_other_days_stay),
    CASE (test_how_many_is_not_guessed),
    CASE (test_other_revenue_is_no_plate),
    CASE (test_an_unknown_unit_is_no_gram),
#undef CASE
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
