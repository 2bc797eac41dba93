/* What a book has entered, row by row: what each table says, in which order, what is found, what
 * adds up, and how little is told when something moves. */
#include "cro-edit.h"
#include "cro-fold.h"
#include "cro-record-keys.h"
#include "support/kitchen-records.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <math.h>

/* A row: its cells between bars. */
static char *
row_text (CroRecord *record,
          guint      n_columns)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < n_columns; i++)
    {
      g_autofree char *cell = cro_record_dup_text (record, i);

      g_string_append_printf (text, "%s%s", i > 0 ? "|" : "", cell);
    }
  return g_string_free (text, FALSE);
}

static char *
all_text (Fixture *fixture)
{
  GString *text = g_string_new (NULL);
  guint n = cro_records_n_columns (cro_records_get_kind (fixture->records));

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (fixture->records)); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (fixture->records), i);
      g_autofree char *row = row_text (record, n);

      g_string_append_printf (text, "%s\n", row);
    }
  return g_string_free (text, FALSE);
}

/* --- What each table says ---------------------------------------------------------------------- */

static const struct { const char *says; CroRecordsKind kind; const char *rows; } contents[] = {
  { "a pack's price is the one in force on the book's date, and its change is from the one before",
    CRO_RECORDS_OFFERS,
    "Crab|Quay|101|5 kg|63.00|12.60/kg|2026-02-02|+5.0\u00a0%|in use\n"
    "Cup|Étal|C9|200 pc|–|–|–|–|no price\n"
    "Salt|Étal||10 × 1 kg|4.00|0.40/kg|2026-01-05|–|in use\n" },
  { "a rate is for one unit where nothing is said", CRO_RECORDS_RATES,
    "GBP|2026-01-01|1.1500|1|in force\nJPY|2026-01-01|0.6200|100|in force\n" },
  { "what was sold brings what was entered, or else its net price", CRO_RECORDS_SALES,
    "2026-01-10|Croustade|12|54.00|plate\n2026-02-10|Tide|3|300.00|menu\n" },
  { "a return has a negative value", CRO_RECORDS_PURCHASES,
    "2026-01-07|Quay|D-1|Crab||food|5 kg|60.00\n2026-02-07|Quay|D-2|Crab||food|10 kg|126.00\n"
    "2026-02-09|Étal||Salt||food|10 kg|−4.00\n" },
  { "a count says where", CRO_RECORDS_COUNTS,
    "2026-01-31|Crab|2 kg|cold room\n2026-01-31|Salt|3 kg|\n2026-01-31|Crab|1.5 kg|kitchen\n" },
  { "an adjustment's kind is a word", CRO_RECORDS_ADJUSTMENTS,
    "2026-01-08|waste|Crab|100 g|1.20|\n2026-02-08|transfer in|Salt|1 kg|0.40|\n"
    "2026-02-09|waste|Crab|200 g|2.40|\n" },
  { "months stand newest first, say which total is greater, and what closing froze",
    CRO_RECORDS_MONTHS,
    "Feb 2026|open|3|300.00|300.00|agrees|122.00|–|–\n"
    "Jan 2026|closed|11|53.50|66.00|−12.50|60.00|60.00|agrees\n" },
};

static void
test_each_table_says_what_was_entered (void **state)
{
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (contents); i++)
    {
      g_autofree char *rows = NULL;

      begin (fixture, contents[i].kind);
      rows = all_text (fixture);
      if (strcmp (rows, contents[i].rows) != 0)
        fail_msg ("%s:\n%s", contents[i].says, rows);
    }
}

/* Why costs are taken from the price of a pack, or are not; what is asked of a rate. */
static void
test_a_status_says_why (void **state)
{
  static const struct { CroRecordsKind kind; guint column; const char *says; } cases[] = {
    { CRO_RECORDS_OFFERS, 8, "in use 7.7\u00a0% dearer until 2026-01-31 "
                             "25.0\u00a0% cheaper same price in use " },
    { CRO_RECORDS_RATES, 4, " in force · is 1.15 meant? in force  " },
  };
  CroTestFolder folder = cro_test_folder_new ();
  Fixture other = { 0 };

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    cro_test_write_table (folder.folder, tables[i].name, tables[i].text);
  cro_test_write_table (folder.folder, "offers",
                        "ingredient,supplier,code,pack_count,pack_size,pack_unit,preferred,until\n"
                        "Crab,Quay,1,1,5,kg,,2026-01-31\nCrab,Quay,2,1,5,kg,,\nCrab,Étal,3,1,5,kg,,\n"
                        "Salt,Quay,4,1,1,kg,,\nSalt,Étal,5,2,1,kg,,\nSalt,Étal,6,1,1,kg,yes,\n");
  cro_test_write_table (folder.folder, "prices",
                        "ingredient,supplier,code,from,price\nCrab,Quay,1,2026-01-05,60\n"
                        "Crab,Quay,2,2026-01-05,70\nCrab,Étal,3,2026-01-05,65\nSalt,Quay,4,2026-01-05,3\n"
                        "Salt,Étal,5,2026-01-05,8\nSalt,Étal,6,2026-01-05,4\n");
  cro_test_write_table (folder.folder, "rates",
                        "currency,from,rate\nGBP,2026-01-01,1.15\nGBP,2026-01-20,115\nUSD,2026-01-01,0.9\n"
                        "USD,2026-12-01,90\n");
  other.book = cro_test_book_load (&folder);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *says = NULL;

      other.records = cro_records_new (other.book, cases[i].kind);
      says = first_column (&other, cases[i].column);
      assert_string_equal (says, cases[i].says);
      g_clear_object (&other.records);
    }
  g_object_unref (other.book);
  cro_test_folder_clear (&folder);
}

/* A price and a rate that jumped up and came back: the slip is asked about, not what set it right. */
static void
test_a_slip_is_asked_about_and_not_its_correction (void **state)
{
  static const struct { CroRecordsKind kind; guint column; const char *says; } cases[] = {
    { CRO_RECORDS_OFFERS, 8, "630.00 from 2026-01-20 is far from the price before. Is 63.00 meant? "
                             "630.00 from 2026-01-20 is far from the price before. Is 63.00 meant? "
                             "Is 63.00 meant? in use " },
    { CRO_RECORDS_OFFERS, 7, "−90.0\u00a0% −89.9\u00a0% +950.0\u00a0% – " },
    { CRO_RECORDS_RATES, 4, "  in force · 115 from 2026-01-20 is far from the rate before. Is 1.15 meant? " },
  };
  CroTestFolder folder = cro_test_folder_new ();
  Fixture other = { 0 };

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    cro_test_write_table (folder.folder, tables[i].name, tables[i].text);
  cro_test_write_table (folder.folder, "offers",
                        "ingredient,supplier,code,pack_count,pack_size,pack_unit\n"
                        "Crab,Quay,1,1,5,kg\nCrab,Quay,2,1,5,kg\nCrab,Étal,3,1,5,kg\nSalt,Quay,4,1,1,kg\n");
  /* The older ones of the second are written last. */
  cro_test_write_table (folder.folder, "prices",
                        "ingredient,supplier,code,from,price\nCrab,Quay,1,2026-01-05,60\nCrab,Quay,1,2026-01-20,630\n"
                        "Crab,Quay,1,2026-01-21,63.50\nCrab,Quay,2,2026-01-21,63\nCrab,Quay,2,2026-01-20,630\n"
                        "Crab,Quay,2,2026-01-05,60\nCrab,Quay,2,2025-12-05,61\nCrab,Étal,3,2026-01-05,60\n"
                        "Crab,Étal,3,2026-01-20,630\nSalt,Quay,4,2026-01-05,3\n");
  cro_test_write_table (folder.folder, "rates",
                        "currency,from,rate\nGBP,2026-01-01,1.15\nGBP,2026-01-20,115\nGBP,2026-01-21,1.16\n");
  other.book = cro_test_book_load (&folder);
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *says = NULL;

      other.records = cro_records_new (other.book, cases[i].kind);
      says = first_column (&other, cases[i].column);
      assert_string_equal (says, cases[i].says);
      g_clear_object (&other.records);
    }
  g_object_unref (other.book);
  cro_test_folder_clear (&folder);
}

/* --- Order ------------------------------------------------------------------------------------- */

static const struct { const char *says; CroRecordsKind kind; guint column; gboolean falling;
                      guint shown; const char *order; } orders[] = {
  { "texts stand as the language sorts them", CRO_RECORDS_OFFERS, 1, FALSE, 1, "Quay Étal Étal " },
  { "falling is the other way round", CRO_RECORDS_OFFERS, 1, TRUE, 1, "Étal Étal Quay " },
  { "numbers by their size", CRO_RECORDS_PURCHASES, 7, FALSE, 7, "−4.00 60.00 126.00 " },
  { "what is not set stands last", CRO_RECORDS_OFFERS, 4, FALSE, 0, "Salt Crab Cup " },
  { "also when falling", CRO_RECORDS_OFFERS, 4, TRUE, 0, "Crab Salt Cup " },
  { "a text that is not set, too", CRO_RECORDS_OFFERS, 2, FALSE, 0, "Crab Cup Salt " },
  { "equals stay as they are entered", CRO_RECORDS_COUNTS, 0, TRUE, 3, "cold room  kitchen " },
  { "by nothing is as they are entered", CRO_RECORDS_PURCHASES, G_MAXUINT, FALSE, 2, "D-1 D-2  " },
};

static void
test_rows_are_sorted_by_a_column (void **state)
{
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (orders); i++)
    {
      g_autofree char *order = NULL;

      begin (fixture, orders[i].kind);
      cro_records_set_order (fixture->records, 1, TRUE);
      cro_records_set_order (fixture->records, orders[i].column, orders[i].falling);
      order = first_column (fixture, orders[i].shown);
      if (strcmp (order, orders[i].order) != 0)
        fail_msg ("%s: %s", orders[i].says, order);
    }
}

/* As many rows as are sorted by keys that a thread makes. */
#define N_ROWS 5000

static GArray *
rows_new (GStringChunk *texts,
          guint         text,
          guint         number)
{
  GArray *rows = g_array_new (FALSE, TRUE, sizeof (CroRecordRow));
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);

  g_array_set_size (rows, N_ROWS);
  for (guint i = 0; i < N_ROWS; i++)
    {
      static const char *const words[] = { "crab", "Crab", "épice", "eel", "zest", "kelp 9", "kelp 10" };
      CroRecordRow *row = &g_array_index (rows, CroRecordRow, i);
      int draw = g_rand_int_range (rand, 0, 8);

      row->values[text].text = draw < 7 ? g_string_chunk_insert_const (texts, words[draw]) : NULL;
      row->values[number].number = draw == 0 ? NAN
                                   : draw == 1 ? -0.0
                                               : g_rand_int_range (rand, -300, 300) / 8.0;
    }
  return rows;
}

/* Whether a row may stand before the next one, by what both show. */
static gboolean
is_in_order (const CroRecordRow *one,
             const CroRecordRow *next,
             guint               column,
             gboolean            is_text,
             gboolean            falling)
{
  const CroValue *x = &one->values[column], *y = &next->values[column];
  gboolean has_x = is_text ? x->text != NULL : !isnan (x->number);
  gboolean has_y = is_text ? y->text != NULL : !isnan (y->number);
  int order;

  if (!has_x || !has_y)
    return has_x || (!has_y && one < next);
  order = is_text ? g_utf8_collate (x->text, y->text)
                  : (x->number > y->number) - (x->number < y->number);
  return order == 0 ? one < next : (order < 0) != falling;
}

static void
test_many_rows_are_sorted (void **state)
{
  const CroRecordsKind kind = CRO_RECORDS_PURCHASES;
  g_autoptr (GStringChunk) texts = g_string_chunk_new (64);
  guint columns[2] = { 0, 0 };
  g_autoptr (GArray) rows = NULL;
  CroRecordKeys *keys;

  for (guint c = 0; c < cro_records_n_columns (kind); c++)
    columns[cro_records_column (kind, c)->kind == CRO_VALUE_TEXT] = c;
  rows = rows_new (texts, columns[1], columns[0]);
  keys = cro_record_keys_new (rows, kind);
  for (int i = 0; i < 4; i++)
    {
      g_autoptr (GArray) order = cro_record_keys_sort (keys, columns[i / 2], i % 2 == 1);

      assert_int_equal (order->len, N_ROWS);
      for (guint k = 1; k < order->len; k++)
        if (!is_in_order (&g_array_index (rows, CroRecordRow, g_array_index (order, guint32, k - 1)),
                          &g_array_index (rows, CroRecordRow, g_array_index (order, guint32, k)),
                          columns[i / 2], i / 2 == 1, i % 2 == 1))
          fail_msg ("column %u, %s: row %u is not after the one before it", columns[i / 2],
                    i % 2 == 1 ? "falling" : "rising", k);
    }
  for (guint i = 0; i < N_ROWS; i++)
    {
      const char *text = g_array_index (rows, CroRecordRow, i).values[columns[1]].text;
      g_autofree char *folded = cro_fold (text != NULL ? text : "");

      assert_string_equal (cro_record_keys_folded (keys, i), folded);
    }
  cro_record_keys_free (keys);
}

/* --- Searching ----------------------------------------------------------------------------------- */

static const struct { const char *says; const char *text; const char *found; } searches[] = {
  { "words in any order, of any column", "quay crab", "D-1 D-2 " },
  { "accents and capitals are no matter", "etal", " " },
  { "what is in no row finds none", "crab lobster", "" },
  { "nothing finds all", "", "D-1 D-2  " },
};

static void
test_rows_are_found_by_words (void **state)
{
  Fixture *fixture = *state;

  begin (fixture, CRO_RECORDS_PURCHASES);
  for (gsize i = 0; i < G_N_ELEMENTS (searches); i++)
    {
      g_autofree char *found = NULL;

      cro_records_set_search (fixture->records, searches[i].text);
      found = first_column (fixture, 2);
      if (strcmp (found, searches[i].found) != 0)
        fail_msg ("%s: %s", searches[i].says, found);
      assert_int_equal (cro_records_get_n_rows (fixture->records), 3);
    }
}

static void
test_a_month_shows_its_rows (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *february = NULL, *found = NULL;

  begin (fixture, CRO_RECORDS_PURCHASES);
  cro_records_set_month (fixture->records, "2026-02");
  february = first_column (fixture, 2);
  assert_string_equal (february, "D-2  ");
  cro_records_set_search (fixture->records, "crab");
  found = first_column (fixture, 2);
  assert_string_equal (found, "D-2 ");
}

/* --- Sums ------------------------------------------------------------------------------------------ */

static const struct { const char *says; CroRecordsKind kind; const char *search, *month; guint column;
                      const char *total; } totals[] = {
  { "money adds up", CRO_RECORDS_PURCHASES, "", NULL, 7, "182.00" },
  { "of what is shown", CRO_RECORDS_PURCHASES, "", "2026-02", 7, "122.00" },
  { "amounts of one thing add up", CRO_RECORDS_COUNTS, "crab", NULL, 2, "3.5 kg" },
  { "amounts of several things do not", CRO_RECORDS_COUNTS, "", NULL, 2, "" },
  { "what came in is not added to what was lost", CRO_RECORDS_ADJUSTMENTS, "", NULL, 4, "" },
  { "what was lost is", CRO_RECORDS_ADJUSTMENTS, "waste", NULL, 4, "3.60" },
  { "prices do not add up", CRO_RECORDS_OFFERS, "", NULL, 4, "" },
  { "what nobody entered is no 0", CRO_RECORDS_OFFERS, "", NULL, 7, "" },
  { "months add up", CRO_RECORDS_MONTHS, "", NULL, 3, "353.50" },
  { "all of them in every column", CRO_RECORDS_MONTHS, "", NULL, 6, "182.00" },
  { "and their differences", CRO_RECORDS_MONTHS, "", NULL, 5, "−12.50" },
  { "of which there may be none", CRO_RECORDS_MONTHS, "", NULL, 8, "agrees" },
  { "nothing is not 0", CRO_RECORDS_PURCHASES, "lobster", NULL, 7, "" },
};

static void
test_columns_add_up_where_that_says_something (void **state)
{
  Fixture *fixture = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (totals); i++)
    {
      g_autofree char *total = NULL;

      begin (fixture, totals[i].kind);
      cro_records_set_search (fixture->records, totals[i].search);
      cro_records_set_month (fixture->records, totals[i].month);
      total = cro_records_dup_total (fixture->records, totals[i].column);
      if (strcmp (total, totals[i].total) != 0)
        fail_msg ("%s: %s", totals[i].says, total);
    }
}

/* --- Following the book ------------------------------------------------------------------------------ */

static void
set_salt (Fixture *fixture,
          gint64   price)
{
  CroModel *model = cro_book_get_model (fixture->book);
  guint32 salt = cro_edit_find_name (model, CRO_NAMES_ITEMS, "Salt").slot;
  const CroItem *item = cro_model_item (model, salt);
  guint32 offer = g_array_index (model->offer_order, guint32, item->first_offer);
  GError *error = NULL;

  cro_test_must (cro_edit_set_price (fixture->book, "price of Salt", offer, CRO_TEST_DAY, price,
                                     &error),
                 error);
}

static void
test_only_what_moved_is_told (void **state)
{
  Fixture *fixture = *state;
  g_autoptr (CroRecord) before = NULL, after = NULL;
  g_autofree char *old = NULL, *new = NULL;
  guint position;
  GError *error = NULL;

  begin (fixture, CRO_RECORDS_OFFERS);
  before = g_list_model_get_item (G_LIST_MODEL (fixture->records), 2);
  set_salt (fixture, INT64_C (5000000));
  assert_string_equal (fixture->told->str, "2-1+1 ");
  after = g_list_model_get_item (G_LIST_MODEL (fixture->records), 2);
  old = cro_record_dup_text (before, 4);
  new = cro_record_dup_text (after, 4);
  assert_string_equal (old, "4.00");
  assert_string_equal (new, "5.00");
  /* Dearest first, salt is still second: told again by its row alone. */
  cro_records_set_order (fixture->records, 4, TRUE);
  g_string_truncate (fixture->told, 0);
  set_salt (fixture, INT64_C (70000000));
  assert_string_equal (fixture->told->str, "0-2+2 ");
  assert_true (cro_records_find (fixture->records, before, &position));
  assert_int_equal (position, 0);
  cro_test_must (cro_book_undo (fixture->book, NULL, &error), error);
  assert_true (cro_records_find (fixture->records, before, &position));
  assert_int_equal (position, 1);
}

static void
test_a_table_that_nobody_looks_at_catches_up (void **state)
{
  Fixture *fixture = *state;

  begin (fixture, CRO_RECORDS_OFFERS);
  cro_records_set_follows (fixture->records, FALSE);
  set_salt (fixture, INT64_C (5000000));
  assert_string_equal (fixture->told->str, "");
  cro_records_set_follows (fixture->records, TRUE);
  assert_string_equal (fixture->told->str, "2-1+1 ");
}

static void
test_another_date_has_other_prices (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *prices = NULL;
  GError *error = NULL;

  begin (fixture, CRO_RECORDS_OFFERS);
  cro_test_must (cro_book_set_date (fixture->book, CRO_TEST_DAY + 30, &error), error);
  prices = first_column (fixture, 4);
  assert_string_equal (prices, "99.00 – 4.00 ");
}

static void
test_a_row_leads_to_its_thing_and_its_month (void **state)
{
  Fixture *fixture = *state;
  g_autoptr (CroRecord) record = NULL;
  g_autofree char *month = NULL;
  CroRef crab = cro_edit_find_name (cro_book_get_model (fixture->book), CRO_NAMES_ITEMS, "Crab");

  begin (fixture, CRO_RECORDS_PURCHASES);
  record = g_list_model_get_item (G_LIST_MODEL (fixture->records), 1);
  month = cro_record_dup_month (record);
  assert_true (cro_ref_equal (cro_record_get_ref (record), crab));
  assert_string_equal (month, "2026-02");
  assert_false (cro_record_is_closed (record));
}

static void
test_a_closed_month_is_known (void **state)
{
  Fixture *fixture = *state;

  begin (fixture, CRO_RECORDS_MONTHS);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (fixture->records), i);

      assert_int_equal (cro_record_is_closed (record), i == 1);
    }
}

/* The tables of a book that is to be loaded anew, with a document of January, 25, that came late. */
static void
write_late (Fixture *fixture)
{
  g_clear_object (&fixture->records);
  g_clear_object (&fixture->book);
  assert_int_equal (g_unlink (fixture->folder.path), 0);
  cro_test_write_table (fixture->folder.folder, "purchases",
                        "date,supplier,document,kind,net_value\n2026-01-07,Quay,D-1,food,60\n"
                        "2026-01-30,Quay,D-9,food,25\n2026-02-07,Quay,D-2,food,122\n");
}

/* A document of January that came when it was closed, 25, and 4 that it had estimated: February has both. */
static void
test_what_comes_late_is_of_the_first_open_month (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *bought = NULL;

  write_late (fixture);
  cro_test_write_table (fixture->folder.folder, "month_rows",
                        "month,kind,name,number,row_kind,cost\n2026-01,statement,booked,1,food,64\n"
                        "2026-01,statement,booked,2,disposable,0\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  begin (fixture, CRO_RECORDS_MONTHS);
  bought = first_column (fixture, CRO_RECORDS_MONTHS_PURCHASES);
  assert_string_equal (bought, "143.00 64.00 ");
}

/* A document of January that came when it was closed, 25, and that February was closed with before January was opened
 * again: it counts once. */
static void
test_what_a_later_month_booked_is_not_of_one_that_is_open_again (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *bought = NULL;

  write_late (fixture);
  cro_test_write_table (fixture->folder.folder, "months",
                        "month,closed_at,reason\n2026-01,,late\n2026-02,2026-03-02T08:00:00Z,\n");
  cro_test_write_table (fixture->folder.folder, "month_rows",
                        "month,kind,name,number,row_kind,cost\n2026-02,statement,purchases,1,food,122\n"
                        "2026-02,statement,booked,1,food,147\n2026-02,statement,reversed,,,0\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  begin (fixture, CRO_RECORDS_MONTHS);
  bought = first_column (fixture, CRO_RECORDS_MONTHS_PURCHASES);
  assert_string_equal (bought, "147.00 60.00 ");
}

/* As the list of months says it; none of its counts stands among the money. */
static void
test_a_month_of_a_count_alone_says_so (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *rows = NULL;

  g_clear_object (&fixture->records);
  g_clear_object (&fixture->book);
  assert_int_equal (g_unlink (fixture->folder.path), 0);
  cro_test_write_table (fixture->folder.folder, "counts", "date,item,amount,unit\n2025-12-31,Salt,1,kg\n");
  fixture->book = cro_test_book_load (&fixture->folder);
  begin (fixture, CRO_RECORDS_MONTHS);
  rows = all_text (fixture);
  assert_non_null (strstr (rows, "\nDec 2025|count only|–|–|–|–|–|–|–\n"));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_each_table_says_what_was_entered),
    cmocka_unit_test (test_a_status_says_why),
    cmocka_unit_test (test_a_slip_is_asked_about_and_not_its_correction),
    CASE (test_rows_are_sorted_by_a_column),
    cmocka_unit_test (test_many_rows_are_sorted),
    CASE (test_rows_are_found_by_words),
    CASE (test_a_month_shows_its_rows),
    CASE (test_columns_add_up_where_that_says_something),
    CASE (test_only_what_moved_is_told),
    CASE (test_a_table_that_nobody_looks_at_catches_up),
    CASE (test_another_date_has_other_prices),
    CASE (test_a_row_leads_to_its_thing_and_its_month),
    CASE (test_a_closed_month_is_known),
    CASE (test_what_comes_late_is_of_the_first_open_month),
    CASE (test_what_a_later_month_booked_is_not_of_one_that_is_open_again),
    CASE (test_a_month_of_a_count_alone_says_so),
  };

  setlocale (LC_ALL, "");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
