/* How prices moved: what ingredients cost on days past against figures of those days, what moves add to
 * plates against the difference of two sweeps; an index of a small book by hand; when lists are due. */
#include "cro-edit.h"
#include "cro-here.h"
#include "cro-kind.h"
#include "cro-load.h"
#include "cro-market-day.h"
#include "cro-number.h"
#include "cro-office-moves.h"
#include "cro-price-index.h"
#include "cro-price-moves.h"
#include "cro-rate-steps.h"
#include "cro-records.h"
#include "cro-round.h"
#include "cro-spreadsheet.h"
#include "cro-words-price.h"
#include "support/kitchen-book.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "places.h"

/* 2026-11-28, and days before it on which lists, rates and none began. */
#define TODAY 20785
static const CroDate days[] = { TODAY, TODAY - 4, TODAY - 28, TODAY - 29, TODAY - 365, TODAY - 420, TODAY - 700 };

static gboolean
is_close (double a,
          double b)
{
  return (isnan (a) && isnan (b)) || fabs (a - b) <= 1e-12 * fmax (fmax (fabs (a), fabs (b)), 1);
}

static int
open_demo (void **state)
{
  CroTestKitchen *test = g_new0 (CroTestKitchen, 1);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;

  test->folder = cro_test_folder_new ();
  cro_test_must (cro_load (test->folder.path, CRO_SOURCE_DIR "/data/demo", "desk", "demo", FALSE, NULL, NULL, faults,
                           &error),
                 error);
  test->book = cro_test_book_open (test->folder.path, "desk");
  cro_test_must (cro_book_set_date (test->book, TODAY, &error), error);
  *state = test;
  return 0;
}

static void
set_date (CroTestKitchen *test,
          CroDate         day)
{
  GError *error = NULL;

  cro_test_must (cro_book_set_date (test->book, day, &error), error);
}

/* --- Costs of days past ------------------------------------------------------------------------- */

static void
test_days_past_cost_what_figures_say (void **state)
{
  CroTestKitchen *test = *state;
  CroFigures *figures = cro_book_get_figures (test->book);
  g_autoptr (CroPricePast) past = cro_price_past_new (test->book, NULL);
  guint n_known = 0;

  assert_non_null (past);
  for (gsize d = 0; d < G_N_ELEMENTS (days); d++)
    {
      set_date (test, days[d]);
      for (guint32 item = 0; item < figures->model->items->len; item++)
        {
          double cost = cro_price_past_cost (past, item, days[d]), wanted;

          if (cro_kind_name (figures->model, CRO_KIND_INGREDIENT, item) == NULL)
            continue;
          wanted = cro_figures_unit_cost (figures, item);
          n_known += !isnan (wanted);
          if (!is_close (cost, wanted))
            fail_msg ("%s on day %d: %.17g, and %.17g by its figures", cro_model_item (figures->model, item)->name,
                      days[d], cost, wanted);
        }
    }
  /* Some hundred are compared, not a book without prices. */
  assert_true (n_known > 300);
}

/* --- What moves add ------------------------------------------------------------------------------ */

static double
cost_of (CroFigures *figures,
         CroRef      thing)
{
  return thing.kind == CRO_REF_MENU ? cro_figure_of_menu (figures, thing.slot).cost
                                    : cro_figure_of_plate (figures, thing.slot).cost;
}

static void
test_moves_add_what_two_sweeps_differ_by (void **state)
{
  CroTestKitchen *test = *state;
  CroFigures *figures = cro_book_get_figures (test->book);
  g_autoptr (CroPricePast) past = cro_price_past_new (test->book, NULL);
  g_autoptr (CroPriceMoves) moves = cro_price_moves_new (test->book, past, TODAY - 28, NULL);
  g_autofree double *now = NULL;

  assert_non_null (moves);
  assert_true (moves->things->len > 10);
  now = g_new (double, moves->things->len);
  for (guint i = 0; i < moves->things->len; i++)
    now[i] = cost_of (figures, g_array_index (moves->things, CroThingMove, i).thing);
  set_date (test, TODAY - 28);
  for (guint i = 0; i < moves->things->len; i++)
    {
      const CroThingMove *move = &g_array_index (moves->things, CroThingMove, i);

      if (!is_close (move->added, now[i] - cost_of (figures, move->thing)))
        fail_msg ("%s: %.17g", move->now.name, move->added);
    }
}

/* Money by ingredients is money by what was sold. */
static void
test_both_ways_are_one_sum (void **state)
{
  CroTestKitchen *test = *state;
  g_autoptr (CroPricePast) past = cro_price_past_new (test->book, NULL);
  g_autoptr (CroPriceMoves) moves = cro_price_moves_new (test->book, past, TODAY - 91, NULL);
  double by_items = 0, by_things = 0, shares = 0;

  for (guint i = 0; i < moves->items->len; i++)
    {
      const CroPriceMove *move = &g_array_index (moves->items, CroPriceMove, i);

      by_items += isnan (move->money) ? 0 : move->money;
      shares += move->share_pct;
    }
  for (guint i = 0; i < moves->things->len; i++)
    by_things += g_array_index (moves->things, CroThingMove, i).money;
  assert_true (fabs (by_things) > 10);
  assert_true (fabs (by_items - by_things) < 1e-9 * fabs (by_things));
  assert_true (shares > 90 && shares <= 100 + 1e-9);
}

static void
test_a_course_ends_where_its_price_does (void **state)
{
  CroTestKitchen *test = *state;
  g_autoptr (CroPricePast) past = cro_price_past_new (test->book, NULL);
  g_autoptr (CroPriceMoves) moves = cro_price_moves_new (test->book, past, TODAY - 28, NULL);
  guint n_moved = 0;

  for (guint i = 0; i < moves->items->len; i++)
    {
      const CroPriceMove *move = &g_array_index (moves->items, CroPriceMove, i);

      if (isnan (move->before))
        assert_int_equal (move->course[0], CRO_COURSE_NONE);
      if (!(fabs (move->change_pct) > 1))
        continue;
      n_moved++;
      assert_true ((move->course[CRO_COURSE_POINTS - 1] > move->course[0]) == (move->change_pct > 0));
    }
  assert_true (n_moved > 5);
}

/* Of what is had in one way alone: in which the cost moved as the rate of its currency did, and no further. */
static void
test_what_a_rate_alone_moved_says_so (void **state)
{
  CroTestKitchen *test = *state;
  CroModel *model = cro_book_get_model (test->book);
  CroFigures *figures = cro_book_get_figures (test->book);
  g_autoptr (CroPricePast) past = cro_price_past_new (test->book, NULL);
  g_autoptr (CroRateSteps) rates = cro_rate_steps_new (cro_book_get_store (test->book), NULL);
  guint n_alone = 0, n_listed = 0;

  for (CroDate since = TODAY - 28; since < TODAY; since += 4)
    {
      g_autoptr (CroPriceMoves) moves = cro_price_moves_new (test->book, past, since, NULL);

      for (guint i = 0; i < moves->items->len; i++)
        {
          const CroPriceMove *move = &g_array_index (moves->items, CroPriceMove, i);
          guint32 offer = figures->offer_in_use[move->item];
          const char *currency = offer != CRO_NO_SLOT ? cro_model_offer (model, offer)->currency : NULL;
          double by = currency != NULL ? cro_rate_steps_on (rates, currency, TODAY)
                                             / cro_rate_steps_on (rates, currency, since)
                                       : 1;
          gboolean is_alone = fabs (by - 1) > 1e-9 && fabs (move->now / move->before - by) < 1e-9;

          if (cro_model_item (model, move->item)->n_offers == 1 && move->is_rate_alone != is_alone)
            fail_msg ("%s moved by %g %%, its rate by %g", cro_model_item (model, move->item)->name,
                      move->change_pct, by);
          n_alone += move->is_rate_alone;
          n_listed += !move->is_rate_alone && fabs (move->change_pct) > 1e-9;
        }
    }
  assert_true (n_alone > 0 && n_listed > 0);
}

/* The same bytes whenever it is written. */
static void
test_the_spreadsheet_is_written (void **state)
{
  CroTestKitchen *test = *state;
  char *bytes[2] = { NULL, NULL };
  gsize length[2];

  for (int i = 0; i < 2; i++)
    {
      g_autofree char *path = g_strdup_printf ("%s/moves-%d.xlsx", test->folder.folder, i);
      GError *error = NULL;

      cro_test_must (cro_office_write_moves (test->book, TODAY - 28, path, NULL, &error), error);
      cro_test_must (g_file_get_contents (path, &bytes[i], &length[i], &error), error);
    }
  assert_true (length[0] > 5000 && length[0] == length[1]);
  assert_memory_equal (bytes[0], bytes[1], length[0]);
  g_free (bytes[0]);
  g_free (bytes[1]);
}

/* By whose recipes: those of the day of the book as it stood are not today's. */
static void
test_moves_say_whose_recipes (void **state)
{
  CroTestKitchen *test = *state;
  CroDate day = cro_here_today ();
  GError *error = NULL;
  CroBook *past = cro_book_open_past (test->folder.path, day, day, &error);
  g_autofree char *now = cro_words_moved_prices (test->book), *then = NULL, *things = NULL, *of_day = NULL;

  cro_test_must (past != NULL, error);
  of_day = cro_date_to_text (day);
  then = cro_words_moved_prices (past);
  things = cro_words_moved_things (past);
  assert_non_null (strstr (now, "today’s recipes"));
  assert_non_null (strstr (then, of_day));
  assert_non_null (strstr (things, of_day));
  g_object_unref (past);
}

/* --- An index ------------------------------------------------------------------------------------ */

typedef struct { const char *name, *text; } TestTable;

static const TestTable tables[] = {
  { "book", "key,value\ncurrency,EUR\n" },
  { "ingredients", "name,unit,category\nCrab,g,Shellfish\nButter,g,Dairy\nSalt,g,\n" },
  { "suppliers", "name\nQuay\n" },
  { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nCrab,Quay,1,1,kg\nButter,Quay,1,1,kg\n"
              "Salt,Quay,1,1,kg\n" },
  { "prices", "ingredient,supplier,from,price\nCrab,Quay,2026-01-01,10\nCrab,Quay,2026-02-10,12\n"
              "Butter,Quay,2026-01-01,8\nButter,Quay,2026-02-01,9\nSalt,Quay,2026-01-01,1\n" },
  { "purchases", "date,supplier,document,ingredient,amount,unit,net_value\n2026-01-10,Quay,1,Crab,4,kg,40\n"
                 "2026-01-20,Quay,2,Butter,5,kg,40\n2026-02-05,Quay,3,Crab,2,kg,20\n" },
};

static int
open_tables_of (void            **state,
                const TestTable  *of,
                gsize             n)
{
  CroTestKitchen *test = g_new0 (CroTestKitchen, 1);

  test->folder = cro_test_folder_new ();
  for (gsize i = 0; i < n; i++)
    cro_test_write_table (test->folder.folder, of[i].name, of[i].text);
  test->book = cro_test_book_load (&test->folder);
  *state = test;
  return 0;
}

static int
open_small (void **state)
{
  return open_tables_of (state, tables, G_N_ELEMENTS (tables));
}

/* From 15 January to 16 February: a link to 1 February, of which 4 kg of crab are the basket, and one from
 * there, of 4 kg of crab and 5 of butter: (4 × 12 + 5 × 9) / (4 × 10 + 5 × 9) = 93 / 85, by hand. */
static void
test_an_index_is_a_chain (void **state)
{
  static const struct { const char *category; double index; int since; double share_pct; } wanted[] = {
    { NULL, 9300.0 / 85, 20468, 100 }, { "Dairy", 100, 20485, 200.0 / 3 }, { "Shellfish", 120, 20468, 100.0 / 3 },
    { NULL, NAN, 0, 0 },
  };
  CroTestKitchen *test = *state;
  g_autoptr (CroPricePast) past = cro_price_past_new (test->book, NULL);
  g_autoptr (GArray) indices = cro_price_indices_new (test->book, past, 20468, NULL);

  assert_int_equal (indices->len, G_N_ELEMENTS (wanted));
  for (guint i = 0; i < indices->len; i++)
    {
      const CroPriceIndex *index = &g_array_index (indices, CroPriceIndex, i);

      if (g_strcmp0 (index->category, wanted[i].category) != 0 || !is_close (index->index, wanted[i].index)
          || (!isnan (wanted[i].index) && index->since != wanted[i].since)
          || !is_close (index->share_pct, wanted[i].share_pct))
        fail_msg ("row %u: %s %g since %d, %g %%", i, index->category, index->index, index->since, index->share_pct);
    }
  assert_int_equal (g_array_index (indices, CroPriceIndex, 0).n, 3);
}

/* --- What is not known ----------------------------------------------------------------------------- */

/* Of Yuzu, no piece weight: how much is in a plate, and in ten stocks, is not known. Of Brine it is in one
 * plate, and not in the other; Saffron has no price and Kelp fell. */
static const TestTable open_tables[] = {
  { "book", "key,value\ncurrency,EUR\n" },
  { "ingredients", "name,unit,category\nYuzu,g,Fruit\nBrine,ml,Fruit\nKelp,g,Fruit\nSaffron,g,Spice\nSalt,g,\n" },
  { "suppliers", "name\nQuay\n" },
  { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nYuzu,Quay,1,1,kg\nBrine,Quay,1,1,l\n"
              "Kelp,Quay,1,1,kg\nSalt,Quay,1,1,kg\n" },
  { "prices", "ingredient,supplier,from,price\nYuzu,Quay,2026-01-01,10\nYuzu,Quay,2026-02-01,20\n"
              "Brine,Quay,2026-01-01,1\nBrine,Quay,2026-02-01,2\nKelp,Quay,2026-01-01,3\n"
              "Kelp,Quay,2026-02-01,2\nSalt,Quay,2026-01-01,1\n" },
  { "preparations", "name\nStock\n" },
  { "outputs", "item,preparation,role,unit\nStock,Stock,main,g\n" },
  { "lines", "into,parent,position,item,amount,unit\npreparation,Stock,1,Kelp,1,kg\nplate,Cut,1,Yuzu,2,each\n"
             "plate,Toast,1,Brine,100,g\nplate,Toast,2,Salt,1,g\nplate,Bowl,1,Brine,100,ml\n"
             "plate,Soup,1,Stock,100,g\nplate,Gold,1,Saffron,1,g\nplate,Plain,1,Salt,10,g\n" },
  { "plates", "name,makes,price\nCut,1,10\nToast,1,10\nBowl,1,10\nSoup,1,10\nGold,1,10\nPlain,1,10\n" },
  { "sales", "date,kind,name,sold\n2026-02-10,plate,Cut,10\n2026-02-10,plate,Toast,10\n"
             "2026-02-10,plate,Bowl,10\n2026-02-10,plate,Soup,10\n2026-02-10,plate,Gold,10\n"
             "2026-02-10,plate,Plain,10\n" },
  { "purchases", "date,supplier,document,ingredient,amount,unit,net_value\n2026-01-10,Quay,1,Kelp,4,kg,12\n"
                 "2026-01-20,Quay,2,Saffron,5,g,40\n" },
};

static int
open_open (void **state)
{
  return open_tables_of (state, open_tables, G_N_ELEMENTS (open_tables));
}

static char *
shown (CroRecords *records,
       const char *name,
       guint       column)
{
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (records)); i++)
    {
      g_autoptr (CroRecord) record = g_list_model_get_item (G_LIST_MODEL (records), i);
      g_autofree char *of = cro_record_dup_text (record, 0);

      if (g_str_equal (of, name))
        return cro_record_dup_text (record, column);
    }
  return g_strdup ("not there");
}

/* By hand: of Brine 10 bowls take 1 l, which rose by 1.00, and what toasts take comes on top. */
static void
test_what_is_charged_unknown_amounts_says_so (void **state)
{
  static const struct { CroRecordsKind kind; const char *name; guint column; const char *text; } wanted[] = {
    { CRO_RECORDS_MOVES, "Yuzu", 8, "?" },
    { CRO_RECORDS_MOVES, "Brine", 8, "at least +1.00" },
    { CRO_RECORDS_MOVES, "Kelp", 8, "?" },
    { CRO_RECORDS_MOVES, "Saffron", 8, "?" },
    { CRO_RECORDS_MOVES, "Salt", 8, "0.00" },
    { CRO_RECORDS_MOVES, NULL, 8, "? +1.00" },
    { CRO_RECORDS_MOVED, "Cut", 4, "?" },
    { CRO_RECORDS_MOVED, "Toast", 8, "?" },
    { CRO_RECORDS_MOVED, "Bowl", 8, "+1.00" },
    { CRO_RECORDS_MOVED, "Soup", 4, "?" },
    { CRO_RECORDS_MOVED, "Gold", 4, "?" },
    { CRO_RECORDS_MOVED, "Plain", 4, "not there" },
    { CRO_RECORDS_MOVED, NULL, 8, "? +1.00" },
    { CRO_RECORDS_INDICES, "All ingredients", 1, "1 of 5" },
    { CRO_RECORDS_INDICES, "All ingredients", 2, "? 66.7" },
    { CRO_RECORDS_INDICES, "Fruit", 1, "1 of 3" },
    { CRO_RECORDS_INDICES, "Fruit", 2, "66.7" },
    { CRO_RECORDS_INDICES, "Spice", 2, "?" },
    { CRO_RECORDS_INDICES, "No category", 2, "–" },
  };
  CroTestKitchen *test = *state;

  for (gsize i = 0; i < G_N_ELEMENTS (wanted); i++)
    {
      g_autoptr (CroRecords) records = cro_records_new (test->book, wanted[i].kind);
      g_autofree char *text = NULL;

      cro_records_set_since (records, CRO_TEST_DAY - 28);
      text = wanted[i].name != NULL ? shown (records, wanted[i].name, wanted[i].column)
                                    : cro_records_dup_total (records, wanted[i].column);
      if (!g_str_equal (text, wanted[i].text))
        fail_msg ("%s of kind %d: \"%s\", not \"%s\"", wanted[i].name, wanted[i].kind, text, wanted[i].text);
    }
}

static gboolean
take_row (guint              row,
          const CroReadCell *cells,
          guint              n_cells,
          gpointer           user_data)
{
  for (guint i = 0; i < n_cells; i++)
    g_string_append_printf (user_data, "%s%s", i > 0 ? "|" : "", cells[i].text);
  g_string_append_c (user_data, '\n');
  return row > 0;
}

/* As the tables of the window have it: no number and "?" where nothing is known. */
static void
test_the_spreadsheet_knows_no_more (void **state)
{
  static const CroSpreadsheetTaker taker = { .row = take_row };
  static const struct { guint sheet; const char *line; } wanted[] = {
    { 0, "\nYuzu|kg|10|20|100|0|0||2026-02-01||?\n" },
    { 0, "\nBrine|l|1|2|100|0|0|1|2026-02-01||at least\n" },
    { 0, "\nSaffron|kg||||40|100||||?\n" },
    { 1, "\nBowl|0.1|0.2|0.1|10|1|Brine||1|2\n" },
    { 1, "\nToast|0|0||10|||at least|0|0|||?\n" },
    { 1, "\nGold||||10|||?|||||?\n" },
  };
  CroTestKitchen *test = *state;
  g_autofree char *path = g_strdup_printf ("%s/moves.xlsx", test->folder.folder);
  GError *error = NULL;

  cro_test_must (cro_office_write_moves (test->book, CRO_TEST_DAY - 28, path, NULL, &error), error);
  for (gsize i = 0; i < G_N_ELEMENTS (wanted); i++)
    {
      g_autoptr (GString) rows = g_string_new (NULL);

      cro_test_must (cro_spreadsheet_read (path, wanted[i].sheet, &taker, rows, &error), error);
      if (strstr (rows->str, wanted[i].line) == NULL)
        fail_msg ("no%s in:\n%s", wanted[i].line, rows->str);
    }
}

/* --- Lists that are due --------------------------------------------------------------------------- */

static void
test_a_rhythm_is_a_median (void **state)
{
  static const struct { const char *says; CroDate lists[CRO_RHYTHM_MOST]; guint n, rhythm; } cases[] = {
    { "two lists are no rhythm", { 107, 100 }, 2, 0 },
    { "every week", { 121, 114, 107, 100 }, 4, 7 },
    { "one holiday is none", { 142, 135, 114, 107, 100 }, 5, 7 },
    { "of two in the middle the longer", { 121, 114, 100 }, 3, 14 },
    { "one correction the day after is none", { 130, 123, 116, 109, 108, 101 }, 6, 7 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    if (cro_market_rhythm (cases[i].lists, cases[i].n) != cases[i].rhythm)
      fail_msg ("%s", cases[i].says);
}

/* Three lines of what Mill Lane Dry Goods sold, delivered before the day. */
#define LINE(n, code, quantity, net, price) \
  "<a:InvoiceLine><b:ID>" n "</b:ID><b:InvoicedQuantity unitCode='XCS'>" quantity "</b:InvoicedQuantity>" \
  "<b:LineExtensionAmount currencyID='EUR'>" net "</b:LineExtensionAmount><a:Item><b:Name>Goods</b:Name>" \
  "<a:SellersItemIdentification><b:ID>" code "</b:ID></a:SellersItemIdentification></a:Item>" \
  "<a:Price><b:PriceAmount currencyID='EUR'>" price "</b:PriceAmount></a:Price></a:InvoiceLine>"
static const char invoice[] =
    "<Invoice xmlns='urn:oasis:names:specification:ubl:schema:xsd:Invoice-2'"
    " xmlns:a='urn:oasis:names:specification:ubl:schema:xsd:CommonAggregateComponents-2'"
    " xmlns:b='urn:oasis:names:specification:ubl:schema:xsd:CommonBasicComponents-2'>"
    "<b:ID>ML-7741</b:ID><b:IssueDate>2026-11-27</b:IssueDate><b:InvoiceTypeCode>380</b:InvoiceTypeCode>"
    "<b:DocumentCurrencyCode>EUR</b:DocumentCurrencyCode>"
    LINE ("1", "D06", "2", "27.00", "13.50") LINE ("2", "D16", "1", "31.00", "31.00")
    LINE ("3", "V02", "1", "47.00", "47.00") "</Invoice>";

static void
take_and_post (CroTestKitchen *test,
               const char     *supplier,
               const char     *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CroFaults) faults = cro_faults_new ();
  guint32 slot = cro_edit_find_name (cro_book_get_model (test->book), CRO_NAMES_SUPPLIERS, supplier).slot;
  g_autoptr (CroRound) round = cro_round_new (test->book, slot, TODAY, &error);
  g_autoptr (CroPriceList) taken = NULL;
  g_autoptr (CroRoundPost) posted = NULL;

  assert_true (cro_round_take_text (round, text, NULL, &taken, &error));
  assert_true (cro_round_count_ready (round) > 0);
  posted = cro_round_post (round, "prices", faults, &error);
  assert_non_null (posted);
}

/* As the notes of the demo's suppliers have it; an invoice and the correction of one price are no lists. */
static void
test_the_demo_knows_whose_list_is_due (void **state)
{
  static const struct { const char *supplier; CroDate last; guint rhythm; gboolean is_due; } wanted[] = {
    { "Mill Lane Dry Goods", TODAY - 12, 7, TRUE },
    { "Far Bank Fish and Meat", TODAY - 9, 7, TRUE },
    { "Upriver Produce and Dairy", TODAY - 5, 7, FALSE },
    { "Quay Shellfish", TODAY - 4, 7, FALSE },
    { "Own picking and tap", TODAY - 423, 0, FALSE },
  };
  CroTestKitchen *test = *state;
  CroModel *model = cro_book_get_model (test->book);
  g_autoptr (CroPricePast) past = NULL;
  g_autoptr (CroMarketDay) day = NULL;

  take_and_post (test, "Mill Lane Dry Goods", invoice);
  take_and_post (test, "Upriver Produce and Dairy", "carrots 12.10");
  past = cro_price_past_new (test->book, NULL);
  day = cro_market_day_new (test->book, past);
  assert_int_equal (day->suppliers->len, G_N_ELEMENTS (wanted));
  for (guint i = 0; i < day->suppliers->len; i++)
    {
      const CroSupplierDay *of = &g_array_index (day->suppliers, CroSupplierDay, i);

      assert_string_equal (g_array_index (model->suppliers, CroSupplier, of->supplier).name, wanted[i].supplier);
      assert_int_equal (of->last, wanted[i].last);
      assert_int_equal (of->rhythm, wanted[i].rhythm);
      assert_int_equal (of->is_due, wanted[i].is_due);
    }
  /* Sea purslane. */
  assert_int_equal (day->no_price->len, 1);
  assert_string_equal (cro_model_item (model, g_array_index (day->no_price, guint32, 0))->name, "Sea purslane");
}

int
main (void)
{
#define DEMO(test) cmocka_unit_test_setup_teardown (test, open_demo, cro_test_kitchen_tear_down)
  const struct CMUnitTest tests[] = {
    DEMO (test_days_past_cost_what_figures_say),
    DEMO (test_moves_add_what_two_sweeps_differ_by),
    DEMO (test_both_ways_are_one_sum),
    DEMO (test_a_course_ends_where_its_price_does),
    DEMO (test_what_a_rate_alone_moved_says_so),
    DEMO (test_the_spreadsheet_is_written),
    DEMO (test_moves_say_whose_recipes),
    cmocka_unit_test_setup_teardown (test_an_index_is_a_chain, open_small, cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_what_is_charged_unknown_amounts_says_so, open_open,
                                     cro_test_kitchen_tear_down),
    cmocka_unit_test_setup_teardown (test_the_spreadsheet_knows_no_more, open_open, cro_test_kitchen_tear_down),
    cmocka_unit_test (test_a_rhythm_is_a_median),
    DEMO (test_the_demo_knows_whose_list_is_due),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
