/* What was sold and what is: the net sales of months, and plates and menus under their courses. */
#include "cro-edit.h"
#include "support/kitchen-records.h"

#include <glib/gstdio.h>
#include <locale.h>

/* The first column of Months that says so, of a month. */
static void
expect_months (Fixture    *fixture,
               const char *says,
               const char *sales)
{
  g_autofree char *now = NULL;

  begin (fixture, CRO_RECORDS_MONTHS);
  now = first_column (fixture, CRO_RECORDS_MONTHS_NET_SALES);
  if (strcmp (now, sales) != 0)
    fail_msg ("%s: %s", says, now);
}

/* A price holds from its day on: no sale before it is worth another sum, and no month that is over. */
static void
test_a_price_of_today_moves_no_sale_before_it (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  CroRef menu = cro_edit_find_name (model, CRO_NAMES_THINGS, "Tide");
  CroDate on = cro_date_from_civil (2026, 2, 11);
  GError *error = NULL;

  expect_months (fixture, "as loaded", "300.00 53.50 ");
  cro_test_must (cro_edit_set_selling_price (fixture->book, "dearer", menu, on,
                                             INT64_C (220000000), &error), error);
  expect_months (fixture, "dearer from the day after", "300.00 53.50 ");
  cro_test_must (cro_edit_set_selling_price (fixture->book, "dearer", menu, on - 1,
                                             INT64_C (220000000), &error), error);
  expect_months (fixture, "dearer from that day, which is of an open month", "600.00 53.50 ");
  cro_test_must (cro_edit_set_selling_price (fixture->book, "none", menu, on - 1, CRO_NOT_SET,
                                             &error), error);
  expect_months (fixture, "without a price of its own nobody knows", "? 53.50 ");
}

/* A void takes its sale back, a refund its money alone, and what is no plate has the revenue that was
 * entered. Tide: 110 with tax, 100 without. */
static void
test_every_kind_of_sale_counts (void **state)
{
  Fixture *fixture = *state;

  g_clear_object (&fixture->records);
  g_clear_object (&fixture->book);
  assert_int_equal (g_unlink (fixture->folder.path), 0);
  cro_test_write_table (fixture->folder.folder, "sales",
                        "date,kind,name,sold,net_revenue\n2026-02-10,menu,Tide,3,\n"
                        "2026-02-10,menu,Tide,-1,\n2026-02-11,menu,Tide,0,-25\n"
                        "2026-02-11,other,Wine,4,36.5\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  expect_months (fixture, "(3 − 1) × 100 − 25 + 36.50", "211.50 53.50 ");
}

/* Months add up as they are printed, as in the list of all months. */
static void
test_months_add_up_as_printed (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *total = NULL, *apart = NULL;

  g_clear_object (&fixture->records);
  g_clear_object (&fixture->book);
  assert_int_equal (g_unlink (fixture->folder.path), 0);
  cro_test_write_table (fixture->folder.folder, "sales",
                        "date,kind,name,sold,net_revenue\n2026-02-10,other,Wine,1,100.006\n"
                        "2026-03-10,other,Wine,1,100.006\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  expect_months (fixture, "each rounded", "100.01 100.01 53.50 ");
  total = cro_records_dup_total (fixture->records, CRO_RECORDS_MONTHS_NET_SALES);
  assert_string_equal (total, "253.52");
  apart = cro_records_dup_total (fixture->records, CRO_RECORDS_MONTHS_TO_THE_TILL);
  assert_string_equal (apart, "−212.49");
}

/* Croustade is 5 net and 5.50 with its tax of 10 %: a till that says its total with tax alone is compared with that. */
static void
test_a_till_with_tax_has_a_difference (void **state)
{
  Fixture *fixture = *state;
  g_autoptr (CroRecord) row = NULL;
  g_autofree char *till = NULL, *apart = NULL;

  g_clear_object (&fixture->records);
  g_clear_object (&fixture->book);
  assert_int_equal (g_unlink (fixture->folder.path), 0);
  cro_test_write_table (fixture->folder.folder, "sales",
                        "date,kind,name,sold,net_revenue\n2026-02-10,plate,Croustade,2,\n"
                        "2026-02-11,plate,Croustade,1,10\n");
  cro_test_write_table (fixture->folder.folder, "months", "month,till_gross_revenue\n2026-02,20\n");
  cro_test_write_table (fixture->folder.folder, "month_rows", "month,kind,name\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  begin (fixture, CRO_RECORDS_MONTHS);
  row = g_list_model_get_item (G_LIST_MODEL (fixture->records), 0);
  till = cro_record_dup_text (row, CRO_RECORDS_MONTHS_TILL);
  apart = cro_record_dup_text (row, CRO_RECORDS_MONTHS_TO_THE_TILL);
  assert_string_equal (till, "–");
  assert_string_equal (apart, "+2.00");
  assert_false (cro_records_are_unpaired (fixture->records));
}

/* Croustade is 5 net, Tide has no price from January on. The till said 300. */
static const struct { const char *says, *sales, *shown, *month, *total; } unpriced[] = {
  { "what is known, and more than the till: that differs", "2026-02-10,plate,Croustade,100,\n"
    "2026-02-11,menu,Tide,3,\n", "?", "at least 500.00 at least +200.00", "at least 553.50" },
  { "less than the till: the rest may make up for it", "2026-02-10,plate,Croustade,1,\n"
    "2026-02-11,menu,Tide,3,\n", "?", "at least 5.00 ?", "at least 58.50" },
  { "as much: that does not agree", "2026-02-10,plate,Croustade,60,\n2026-02-11,menu,Tide,3,\n", "?",
    "at least 300.00 ?", "at least 353.50" },
  { "a void takes from it", "2026-02-10,plate,Croustade,1,\n2026-02-11,menu,Tide,-1,\n", "?",
    "at most 5.00 at most −295.00", "at most 58.50" },
  { "both ways", "2026-02-10,menu,Tide,-1,\n2026-02-10,plate,Croustade,1,\n"
    "2026-02-11,menu,Tide,3,\n", "?", "? 5.00 ?", "? 58.50" },
  { "nothing at all is known", "2026-02-11,menu,Tide,3,\n", "?", "? –", "at least 53.50" },
};

static void
test_sales_without_a_price_are_no_sum (void **state)
{
  Fixture *fixture = *state;

  cro_test_write_table (fixture->folder.folder, "selling_prices", "name,from,price\nTide,2026-01-01,\n");
  for (gsize i = 0; i < G_N_ELEMENTS (unpriced); i++)
    {
      g_autofree char *sales = g_strconcat ("date,kind,name,sold,net_revenue\n", unpriced[i].sales, NULL);
      g_autoptr (CroRecord) row = NULL, month = NULL;
      g_autofree char *shown = NULL, *of_month = NULL, *till = NULL, *both = NULL, *total = NULL;
      GListModel *list;

      g_clear_object (&fixture->records);
      g_clear_object (&fixture->book);
      assert_int_equal (g_unlink (fixture->folder.path), 0);
      cro_test_write_table (fixture->folder.folder, "sales", sales);
      fixture->book = cro_test_book_load (&fixture->folder);
      begin (fixture, CRO_RECORDS_SALES);
      list = G_LIST_MODEL (fixture->records);
      row = g_list_model_get_item (list, g_list_model_get_n_items (list) - 1);
      shown = cro_record_dup_text (row, 3);
      begin (fixture, CRO_RECORDS_MONTHS);
      month = g_list_model_get_item (G_LIST_MODEL (fixture->records), 0);
      of_month = cro_record_dup_text (month, CRO_RECORDS_MONTHS_NET_SALES);
      till = cro_record_dup_text (month, CRO_RECORDS_MONTHS_TO_THE_TILL);
      both = g_strdup_printf ("%s %s", of_month, till);
      total = cro_records_dup_total (fixture->records, CRO_RECORDS_MONTHS_NET_SALES);
      if (strcmp (shown, unpriced[i].shown) != 0 || strcmp (both, unpriced[i].month) != 0
          || strcmp (total, unpriced[i].total) != 0)
        fail_msg ("%s: %s; %s; %s", unpriced[i].says, shown, both, total);
    }
}

/* Rows by their first column, headings with how many they have: "Fish/60" is folded. */
static char *
dup_names (CroRecords *records,
           guint       most)
{
  GString *names = g_string_new (NULL);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (records));

  for (guint i = 0; i < MIN (n, most); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (records), i);
      g_autofree char *name = cro_record_dup_text (record, 0), *count = cro_record_dup_text (record, 1);
      gboolean is_folded;

      if (cro_record_is_heading (record, &is_folded))
        g_string_append_printf (names, "%s%c%s ", name, is_folded ? '/' : ':', count);
      else
        g_string_append_printf (names, "%s ", name);
    }
  return g_string_free (names, FALSE);
}

static void
must_have (CroRecords *records,
           const char *says,
           guint       most,
           const char *expected)
{
  g_autofree char *names = dup_names (records, most);

  if (strcmp (names, expected) != 0)
    fail_msg ("%s: \"%s\" and not \"%s\"", says, names, expected);
}

static void
write_plates (const char *folder,
              guint       n)
{
  g_autoptr (GString) plates = g_string_new ("name,course,makes,price\n");
  g_autoptr (GString) lines = g_string_new ("into,parent,position,item,amount,unit\n");

  for (guint i = 0; i < n; i++)
    {
      g_string_append_printf (plates, "P%03u,%s,1,%u\n", i, i % 10 == 0 ? "" : i % 2 ? "Fish" : "Bar",
                              100 + i);
      g_string_append_printf (lines, "plate,P%03u,1,Crab,100,g\n", i);
    }
  cro_test_write_table (folder, "plates", plates->str);
  cro_test_write_table (folder, "lines", lines->str);
}

static void
test_many_plates_stand_under_their_courses (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  CroRecordsFilter filter = CRO_RECORDS_ALL;
  CroBook *book;
  CroRecords *records;

  cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\ntarget_pct,30\n");
  cro_test_write_table (folder.folder, "ingredients", "name,unit\nCrab,g\n");
  cro_test_write_table (folder.folder, "menus", "name,price\nTide,110\n");
  write_plates (folder.folder, 110);
  book = cro_test_book_load (&folder);
  records = cro_records_new (book, CRO_RECORDS_PLATES);
  must_have (records, "folded at first, those without a course and menus last", 9,
             "Bar/44 Fish/55 No course/11 Menus/1 ");
  assert_int_equal (cro_records_get_n_chosen (records), 111);
  {
    g_autoptr (CroRecord) bar = g_list_model_get_item (G_LIST_MODEL (records), 0);
    guint position;

    cro_records_turn (records, bar);
    must_have (records, "a heading unfolds", 3, "Bar:44 P002 P004 ");
    assert_true (cro_records_find (records, bar, &position));
    assert_int_equal (position, 0);
  }
  cro_records_set_search (records, "P001");
  must_have (records, "what is looked for is found through folds", 3, "P001 ");
  cro_records_set_search (records, NULL);
  filter.marks = CRO_RECORD_INCOMPLETE;
  cro_records_set_filter (records, &filter);
  must_have (records, "so is what a filter lets pass", 3, "P000 P001 P002 ");
  cro_records_set_filter (records, &CRO_RECORDS_ALL);
  must_have (records, "and what was unfolded stays so", 2, "Bar:44 P002 ");
  cro_records_set_order (records, 0, TRUE);
  must_have (records, "a column's order is of all", 3, "Tide P109 P108 ");
  g_object_unref (records);
  g_assert_finalize_object (book);
  cro_test_folder_clear (&folder);
}

static void
test_few_plates_have_no_headings (void **state)
{
  Fixture *fixture = *state;

  fixture->records = cro_records_new (fixture->book, CRO_RECORDS_PLATES);
  must_have (fixture->records, "two rows", 3, "Croustade Tide ");
}

/* 1 g of crab at 12 a kg meets 30 % at 0.04 without tax: of a plate that no menu carries. */
static void
test_what_a_menu_carries_has_no_price_for_a_target (void **state)
{
  static const struct { const char *name, *price, *target; } expected[] = {
    { "Alone", "0.04", "^no price$" },
    { "Carried", "–", "^in .*Tide.$|^in Tide$" },
    { "Shared", "–", "^in .*(Tide|Slack water).* and elsewhere$" },
  };
  CroTestFolder folder = cro_test_folder_new ();
  CroBook *book;
  CroRecords *records;

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    if (strcmp (tables[i].name, "sales") != 0 && !g_str_has_prefix (tables[i].name, "month"))
      cro_test_write_table (folder.folder, tables[i].name, tables[i].text);
  cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\ntarget_pct,30\n");
  cro_test_write_table (folder.folder, "prices", "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-01-05,60\n");
  cro_test_write_table (folder.folder, "plates", "name,makes\nAlone,1\nCarried,1\nShared,1\n");
  cro_test_write_table (folder.folder, "menus", "name,price\nTide,22\nSlack water,20\n");
  cro_test_write_table (folder.folder, "menu_plates",
                        "menu,plate\nTide,Carried\nTide,Shared\nSlack water,Shared\n");
  cro_test_write_table (folder.folder, "lines", "into,parent,position,item,amount,unit\n"
                                                "plate,Alone,1,Crab,1,g\nplate,Carried,1,Crab,1,g\n"
                                                "plate,Shared,1,Crab,1,g\n");
  book = cro_test_book_load (&folder);
  records = cro_records_new (book, CRO_RECORDS_PLATES);
  cro_records_set_order (records, 0, FALSE);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (records), i);
      g_autofree char *name = cro_record_dup_text (record, 0), *price = cro_record_dup_text (record, 7);
      g_autofree char *target = cro_record_dup_text (record, 4);

      assert_string_equal (name, expected[i].name);
      assert_string_equal (price, expected[i].price);
      assert_true (g_regex_match_simple (expected[i].target, target, 0, 0));
    }
  g_object_unref (records);
  g_assert_finalize_object (book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_a_price_of_today_moves_no_sale_before_it),
    CASE (test_every_kind_of_sale_counts),
    CASE (test_months_add_up_as_printed),
    CASE (test_a_till_with_tax_has_a_difference),
    CASE (test_sales_without_a_price_are_no_sum),
    cmocka_unit_test (test_many_plates_stand_under_their_courses),
    CASE (test_few_plates_have_no_headings),
    cmocka_unit_test (test_what_a_menu_carries_has_no_price_for_a_target),
  };

  setlocale (LC_ALL, "");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
