/* What is entered of a month: acts that are taken back, documents and their lines, and what is to be counted. */
#include "cro-count-list.h"
#include "cro-count-paper.h"
#include "cro-month-close.h"
#include "cro-month-edit.h"
#include "cro-month.h"
#include "support/kitchen-month.h"

#include "cro-decimal.h"

#include <math.h>

#define M CRO_MICRO

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

/* --- Acts ------------------------------------------------------------------------------------------- */

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
  CroCell disposable = CRO_CELL_STR ("disposable");
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

  /* What was food then is worth what it was, whatever it is today. */
  cro_test_must (cro_book_set (book, "kind", "ingredient",
                               cro_model_item (cro_book_get_model (book), item (book, "Crab"))->id, "kind", &disposable,
                               &error), error);
  g_clear_pointer (&worths, g_hash_table_unref);
  worths = cro_month_list_worths (february, book, &error);
  assert_true (worths != NULL && g_hash_table_size (worths) == 1);
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

/* Toast has neither a price nor one of its butter: of what was sold and taken back on one day nothing is missing, of
 * what was taken back alone both are. */
static void
test_what_is_taken_back_alone_is_not_known (void **state)
{
  static const struct { const char *sales; gboolean lacks; } cases[] = {
    { "2026-02-10,plate,Toast,1\n2026-02-10,plate,Toast,-1\n", FALSE },
    { "2026-02-10,plate,Toast,-1\n", TRUE },
    { "2026-02-10,plate,Toast,1\n2026-02-11,plate,Toast,-1\n", TRUE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CroTestFolder folder = cro_test_folder_new ();
      g_autofree char *sales = g_strconcat ("date,kind,name,sold\n", cases[i].sales, NULL);
      g_autoptr (CroMonth) month = NULL;
      CroBook *book;
      GError *error = NULL;

      cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\n");
      cro_test_write_table (folder.folder, "ingredients", "name,unit\nButter,g\n");
      cro_test_write_table (folder.folder, "plates", "name,makes\nToast,1\n");
      cro_test_write_table (folder.folder, "lines",
                            "into,parent,position,item,amount,unit\nplate,Toast,1,Butter,10,g\n");
      cro_test_write_table (folder.folder, "sales", sales);
      book = cro_test_book_load (&folder);
      month = cro_month_new (book, day ("2026-02-01"), TRUE, &error);
      cro_test_must (month != NULL, error);
      assert_int_equal (month->lacks_revenue, cases[i].lacks);
      assert_int_equal (month->known_theoretical != CRO_KNOWN_WHOLE, cases[i].lacks);
      g_clear_pointer (&month, cro_month_free);
      g_assert_finalize_object (book);
      cro_test_folder_clear (&folder);
    }
}

/* The office's workbook lists the rows of a month: what each plate took, it does not ask. */
static void
test_rows_come_without_parts (void **state)
{
  CroBook *book = ((CroTestKitchen *) *state)->book;
  const CroSaleEntry sold = { .date = day ("2026-02-05"), .thing = thing (book, "Tide"), .sold = M,
                              .revenue = CRO_NOT_SET };
  g_autoptr (CroMonth) rows = NULL, parts = NULL;
  GError *error = NULL;

  cro_test_must (cro_month_put_sales (book, "s", &sold, 1, &error), error);
  rows = cro_month_new_with_rows (book, day ("2026-02-01"), &error);
  parts = cro_month_new (book, day ("2026-02-01"), TRUE, &error);
  cro_test_must (rows != NULL && parts != NULL, error);
  assert_non_null (rows->entries);
  assert_int_equal (rows->counts->len, parts->counts->len);
  assert_true (rows->theoretical == parts->theoretical);
  assert_null (g_array_index (rows->things, CroMonthThing, 0).parts);
  assert_true (g_array_index (parts->things, CroMonthThing, 0).parts->len > 0);
}

/* Closed months are compared by them: one that lost its frozen rows has those that it is reckoned with. */
static void
test_closed_months_have_parts (void **state)
{
  CroTestKitchen *kitchen = *state;
  const CroSaleEntry sold = { .date = day ("2026-02-05"), .thing = thing (kitchen->book, "Tide"), .sold = M,
                              .revenue = CRO_NOT_SET };
  g_autoptr (CroMonth) closed = NULL, frozen = NULL, bare = NULL;
  GError *error = NULL;
  sqlite3 *db;

  cro_test_must (cro_month_put_sales (kitchen->book, "s", &sold, 1, &error), error);
  closed = cro_month_close (kitchen->book, day ("2026-02-01"), CRO_NOT_SET, &error);
  frozen = cro_month_new_with_rows (kitchen->book, day ("2026-02-01"), &error);
  cro_test_must (closed != NULL && frozen != NULL, error);
  assert_true (g_array_index (frozen->things, CroMonthThing, 0).parts->len > 0);
  db = cro_test_raw (kitchen->folder.path);
  cro_test_begin_raw_act (db);
  cro_test_sql (db, "DELETE FROM month_row");
  cro_test_end_raw_act (db);
  sqlite3_close (db);
  bare = cro_month_new_with_rows (kitchen->book, day ("2026-02-01"), &error);
  cro_test_must (bare != NULL, error);
  assert_int_equal (g_array_index (bare->things, CroMonthThing, 0).parts->len,
                    g_array_index (frozen->things, CroMonthThing, 0).parts->len);
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
    CASE (test_rows_come_without_parts),
    CASE (test_closed_months_have_parts),
    CASE (test_an_unknown_unit_is_no_gram),
    cmocka_unit_test (test_what_is_taken_back_alone_is_not_known),
#undef CASE
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
