/* What a book has entered, row by row: what each table says, in which order, what is found, what
 * adds up, and how little is told when something moves. */
#include "cro-edit.h"
#include "cro-fold.h"
#include "cro-record-keys.h"
#include "cro-records.h"
#include "support/kitchen-book.h"

#include <glib/gstdio.h>
#include <locale.h>
#include <math.h>

typedef struct
{
  CroTestFolder folder;
  CroBook      *book;
  CroRecords   *records;
  GString      *told;     /* "position-removed+added " of every signal */
} Fixture;

/* Net prices at 10 %: croustade 5, menu 100. 12 sold for 54.00 entered, 3 menus at 100. */
static const struct { const char *name, *text; } tables[] = {
  { "book", "key,value\ncurrency,EUR\ntax_pct,10\n" },
  { "ingredients", "name,unit\nCrab,g\nSalt,g\nCup,each\n" },
  { "suppliers", "name,contact\nQuay,at the quay\nÉtal,\n" },
  { "offers", "ingredient,supplier,code,pack_count,pack_size,pack_unit\nCrab,Quay,101,1,5,kg\n"
              "Salt,Étal,,10,1,kg\nCup,Étal,C9,1,200,each\n" },
  { "prices", "ingredient,supplier,code,from,price\nCrab,Quay,101,2026-01-05,60\n"
              "Crab,Quay,101,2026-02-02,63\nCrab,Quay,101,2026-03-02,99\nSalt,Étal,,2026-01-05,4\n" },
  { "rates", "currency,from,rate,per\nGBP,2026-01-01,1.15,\nJPY,2026-01-01,0.62,100\n" },
  { "plates", "name,makes,price\nCroustade,24,5.5\n" },
  { "menus", "name,price\nTide,110\n" },
  { "menu_plates", "menu,plate\nTide,Croustade\n" },
  { "lines", "into,parent,position,item,amount,unit\nplate,Croustade,1,Crab,600,g\n" },
  { "sales", "date,kind,name,sold,net_revenue\n2026-01-10,plate,Croustade,12,54\n"
             "2026-02-10,menu,Tide,3,\n" },
  { "purchases", "date,supplier,document,ingredient,amount,unit,net_value\n"
                 "2026-01-07,Quay,D-1,Crab,5,kg,60\n2026-02-07,Quay,D-2,Crab,10,kg,126\n"
                 "2026-02-09,Étal,,Salt,10,kg,-4\n" },
  { "counts", "date,item,amount,unit,place\n2026-01-31,Crab,2,kg,cold room\n"
              "2026-01-31,Salt,3,kg,\n2026-01-31,Crab,1.5,kg,kitchen\n" },
  { "adjustments", "date,kind,item,amount,unit,net_value\n2026-01-08,waste,Crab,100,g,1.2\n"
                   "2026-02-08,transfer-in,Salt,1,kg,0.4\n2026-02-09,waste,Crab,200,g,2.4\n" },
  { "months", "month,till_net_revenue,ledger_purchases,closed_at\n"
              "2026-01,66,60,2026-02-02T08:00:00Z\n2026-02,300,,\n" },
  { "month_rows", "month,kind,name,part_kind,part,sold,net_revenue,cost\n"
                  "2026-01,plate,Croustade,,,11,53.5,\n2026-01,plate,Croustade,food,Crab,,,9\n" },
};

static int
set_up (void **state)
{
  Fixture *fixture = g_new0 (Fixture, 1);

  fixture->folder = cro_test_folder_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    cro_test_write_table (fixture->folder.folder, tables[i].name, tables[i].text);
  fixture->book = cro_test_book_load (&fixture->folder);
  fixture->told = g_string_new (NULL);
  *state = fixture;
  return 0;
}

static int
tear_down (void **state)
{
  Fixture *fixture = *state;

  g_clear_object (&fixture->records);
  g_assert_finalize_object (fixture->book);
  g_string_free (fixture->told, TRUE);
  cro_test_folder_clear (&fixture->folder);
  g_free (fixture);
  return 0;
}

static void
items_changed_cb (GListModel *model,
                  guint       position,
                  guint       removed,
                  guint       added,
                  Fixture    *fixture)
{
  g_string_append_printf (fixture->told, "%u-%u+%u ", position, removed, added);
}

static void
begin (Fixture        *fixture,
       CroRecordsKind  kind)
{
  g_clear_object (&fixture->records);
  fixture->records = cro_records_new (fixture->book, kind);
  g_signal_connect (fixture->records, "items-changed", G_CALLBACK (items_changed_cb), fixture);
}

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

/* The first column alone, in the order of the list. */
static char *
first_column (Fixture *fixture,
              guint    column)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (fixture->records)); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (fixture->records), i);
      g_autofree char *cell = cro_record_dup_text (record, column);

      g_string_append_printf (text, "%s ", cell);
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
                             "is 63.00 meant? in use " },
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

/* --- What is sold --------------------------------------------------------------------------------- */

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
    CASE (test_a_price_of_today_moves_no_sale_before_it),
    CASE (test_every_kind_of_sale_counts),
    CASE (test_months_add_up_as_printed),
    CASE (test_a_month_of_a_count_alone_says_so),
    CASE (test_sales_without_a_price_are_no_sum),
    cmocka_unit_test (test_many_plates_stand_under_their_courses),
    CASE (test_few_plates_have_no_headings),
    cmocka_unit_test (test_what_a_menu_carries_has_no_price_for_a_target),
  };

  setlocale (LC_ALL, "");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
