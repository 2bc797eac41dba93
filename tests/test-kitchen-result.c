/* What stands between price and food in the house's three ways: figures, targets, what is typed,
 * and the sum that a figure opens as. */
#include "cro-edit.h"
#include "cro-figure-words.h"
#include "cro-known.h"
#include "cro-result-words.h"
#include "cro-sum.h"
#include "cro-words.h"
#include "support/kitchen-book.h"
#include "support/locales.h"

#include <math.h>

#define NBSP "\302\240"

enum { FOOD = CRO_SPEAKS_FOOD_COST, PROFIT = CRO_SPEAKS_GROSS_PROFIT, TIMES = CRO_SPEAKS_COEFFICIENT };

static CroFigure
figure_of (double   pct,
           double   target,
           gboolean is_incomplete)
{
  return (CroFigure){ .name = "Bite", .cost = pct / 100, .net_price = 1, .food_cost_pct = pct,
                      .target_pct = target, .is_incomplete = is_incomplete };
}

/* Complements and reciprocals, by hand: 100 − 29.44, 100 ÷ 29.44. */
static const struct
{
  const char *says;
  int         speaks;
  double      pct, target;
  gboolean    is_incomplete;
  const char *result, *target_says;
} shown[] = {
  { "food cost", FOOD, 29.44, 30, FALSE, "29.4" NBSP "%", "30.0" NBSP "%" },
  { "gross profit", PROFIT, 29.44, 30, FALSE, "70.6" NBSP "%", "70.0" NBSP "%" },
  { "coefficient", TIMES, 29.44, 30, FALSE, "3.40", "3.33" },
  { "a cost known in part is at least", FOOD, 29.44, 30, TRUE, "at least 29.4" NBSP "%",
    "30.0" NBSP "%" },
  { "and leaves at most", PROFIT, 29.44, 30, TRUE, "at most 70.6" NBSP "%", "70.0" NBSP "%" },
  { "and is priced at most so many times", TIMES, 29.44, 30, TRUE, "at most 3.40", "3.33" },
  { "over is told from on target", FOOD, 30.04, 30, FALSE, "30.04" NBSP "%", "30.0" NBSP "%" },
  { "and so is below in gross profit", PROFIT, 30.04, 30, FALSE, "69.96" NBSP "%",
    "70.0" NBSP "%" },
  { "and in coefficients", TIMES, 30.04, 30, FALSE, "3.329", "3.333" },
  { "on target is on target", TIMES, 30, 30, FALSE, "3.33", "3.33" },
  { "a target that was typed as 3.4", TIMES, 25, 29.411765, FALSE, "4.00", "3.40" },
  { "of one with halves all is told", PROFIT, 25, 27.25, FALSE, "75.0" NBSP "%", "72.75" NBSP "%" },
  { "no price", PROFIT, NAN, 30, FALSE, "–", "70.0" NBSP "%" },
  { "no target", TIMES, 25, NAN, FALSE, "4.00", "–" },
  { "what costs nothing leaves all", PROFIT, 0, 30, FALSE, "100.0" NBSP "%", "70.0" NBSP "%" },
  { "and no price is so many times 0", TIMES, 0, 30, FALSE, "–", "3.33" },
};

static void
test_shown (void **state)
{
  g_autoptr (CroModel) model = cro_model_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (shown); i++)
    {
      CroFigure figure = figure_of (shown[i].pct, shown[i].target, shown[i].is_incomplete);
      g_autofree char *result = NULL, *target = NULL;

      model->speaks = (CroSpeaks) shown[i].speaks;
      result = cro_words_result (model, &figure);
      target = cro_words_target (model, &figure);
      if (strcmp (result, shown[i].result) != 0 || strcmp (target, shown[i].target_says) != 0)
        fail_msg ("%s: %s, target %s", shown[i].says, result, target);
    }
}

/* The known part of a cost bounds it from below, unless a credit that is missing may lower it. */
static const struct
{
  const char *says;
  CroFigure   figure;
  CroKnown    cost, prime;
} known[] = {
  { "all is known", { .cost = 1, .labour = 1 }, CRO_KNOWN_WHOLE, CRO_KNOWN_WHOLE },
  { "a part is missing", { .cost = 1, .is_incomplete = TRUE }, CRO_KNOWN_AT_LEAST,
    CRO_KNOWN_AT_LEAST },
  { "a credit is missing", { .cost = 1, .is_incomplete = TRUE, .has_credit = TRUE },
    CRO_KNOWN_IN_PART, CRO_KNOWN_IN_PART },
  { "a credit that is known bounds nothing less", { .cost = 1, .has_credit = TRUE },
    CRO_KNOWN_WHOLE, CRO_KNOWN_WHOLE },
  { "all is missing but labour", { .labour = 1, .is_incomplete = TRUE }, CRO_KNOWN_NOTHING,
    CRO_KNOWN_AT_LEAST },
};

static void
test_known (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (known); i++)
    if (cro_known_of_cost (&known[i].figure) != known[i].cost
        || cro_known_of_prime (&known[i].figure) != known[i].prime)
      fail_msg ("%s: %d, %d", known[i].says, (int) cro_known_of_cost (&known[i].figure),
                (int) cro_known_of_prime (&known[i].figure));
  /* 0.07 of 25 or more is 0.3 % or less; what takes 0.07 off it is -0.3 % or more. */
  assert_int_equal (cro_known_of_share (CRO_KNOWN_WHOLE, 0.07, CRO_KNOWN_AT_LEAST), CRO_KNOWN_AT_MOST);
  assert_int_equal (cro_known_of_share (CRO_KNOWN_WHOLE, -0.07, CRO_KNOWN_AT_LEAST), CRO_KNOWN_AT_LEAST);
  assert_int_equal (cro_known_of_share (CRO_KNOWN_AT_MOST, -0.07, CRO_KNOWN_WHOLE), CRO_KNOWN_AT_MOST);
  assert_int_equal (cro_known_of_share (CRO_KNOWN_AT_LEAST, 0.07, CRO_KNOWN_AT_LEAST), CRO_KNOWN_IN_PART);
  assert_int_equal (cro_known_turned (CRO_KNOWN_AT_LEAST), CRO_KNOWN_AT_MOST);
  assert_int_equal (cro_known_turned (CRO_KNOWN_AT_MOST), CRO_KNOWN_AT_LEAST);
  assert_int_equal (cro_known_turned (CRO_KNOWN_IN_PART), CRO_KNOWN_IN_PART);
}

/* stored: -1: refused. */
static const struct { int speaks; const char *typed; gint64 stored; const char *shown, *reason; } typed[] = {
  { FOOD, "30", 30000000, "30", NULL },
  { FOOD, "28.5 %", 28500000, "28.5", NULL },
  { FOOD, "0", -1, NULL, "Type a food cost above 0 %, up to 100 %." },
  { PROFIT, "70", 30000000, "70", NULL },
  { PROFIT, "72,75 %", 27250000, "72.75", NULL },
  { PROFIT, "0", 100000000, "0", NULL },
  { PROFIT, "100", -1, NULL, "Type a gross profit from 0 % to less than 100 %." },
  { PROFIT, "-5", -1, NULL, "Type a gross profit from 0 % to less than 100 %." },
  { TIMES, "3.4", 29411765, "3.4", NULL },
  { TIMES, "3.333", 30003000, "3.333", NULL },
  { TIMES, "10/3", 30000003, "3.33", NULL },
  { TIMES, "1", 100000000, "1", NULL },
  { TIMES, "0.34", -1, NULL, "Type a coefficient of 1 or more." },
  { TIMES, "3 %", -1, NULL, "“3 %” is not a number. Type digits, or a sum as in 2 × 1.5." },
};

static void
test_typed (void **state)
{
  g_autoptr (CroModel) model = cro_model_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (typed); i++)
    {
      g_auto (CroEntry) entry = { 0 };
      g_autofree char *reason = NULL, *text = NULL;
      gboolean is_kept;

      model->speaks = (CroSpeaks) typed[i].speaks;
      reason = cro_words_target_read (model, typed[i].typed, &entry);
      is_kept = entry.status == CRO_ENTRY_OK;
      text = is_kept ? cro_words_target_text (model, entry.micro) : NULL;
      if ((is_kept ? entry.micro : -1) != typed[i].stored || g_strcmp0 (text, typed[i].shown) != 0
          || g_strcmp0 (reason, typed[i].reason) != 0)
        fail_msg ("\"%s\" in way %d: %" G_GINT64_FORMAT ", %s, %s", typed[i].typed, typed[i].speaks,
                  entry.micro, text, reason);
    }
}

/* A target that is probably not meant is asked about as it was typed. */
static const struct { int speaks; gint64 target; const char *asks; } doubts[] = {
  { FOOD, 300000, "0.3" NBSP "%: is 30" NBSP "% meant?" },
  { FOOD, 99300000, NULL },
  { PROFIT, 99300000, "0.7" NBSP "%: is 70" NBSP "% meant?" },
  { PROFIT, 30000000, NULL },
  { PROFIT, 300000, NULL },
  { TIMES, 2941176, "34: is 3.4 meant?" },
  { TIMES, 30000000, NULL },
};

static void
test_asked (void **state)
{
  g_autoptr (CroModel) model = cro_model_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (doubts); i++)
    {
      g_autofree char *asks = NULL;
      CroDoubt doubt;

      model->speaks = (CroSpeaks) doubts[i].speaks;
      if (cro_doubt_of_percent (model, "menu", "target_pct_micro", doubts[i].target, &doubt))
        asks = cro_words_doubt (model, &doubt);
      if (g_strcmp0 (asks, doubts[i].asks) != 0)
        fail_msg ("%" G_GINT64_FORMAT " in way %d: %s", doubts[i].target, doubts[i].speaks, asks);
    }
}

/* One bite of 1.50 food for 5.50 with 10 % tax, which is 5.00 without. */
static const struct { const char *speaks, *list, *sum; } books[] = {
  { "speaks,food-cost\n", "30.0" NBSP "%", "30.0" NBSP "% = 1.50 ÷ 5.00" },
  { "speaks,gross-profit\n", "70.0" NBSP "%", "70.0" NBSP "% = (5.00 − 1.50) ÷ 5.00" },
  { "speaks,coefficient\n", "3.33", "3.33 = 5.00 ÷ 1.50" },
  { "", "30.0" NBSP "%", "30.0" NBSP "% = 1.50 ÷ 5.00" },
};

static CroBook *
book_of (const CroTestFolder *folder,
         const char          *speaks)
{
  g_autofree char *rows = g_strconcat ("key,value\ncurrency,EUR\ntax_pct,10\n", speaks, NULL);
  const struct { const char *name, *text; } tables[] = {
    { "book", rows },
    { "ingredients", "name,unit\nLeek,g\n" },
    { "suppliers", "name\nMarket\n" },
    { "offers", "ingredient,supplier,pack_count,pack_size,pack_unit\nLeek,Market,1,1,kg\n" },
    { "prices", "ingredient,supplier,from,price\nLeek,Market,2025-11-01,1.50\n" },
    { "plates", "name,makes,price\nBite,1,5.50\n" },
    { "lines", "into,parent,position,item,amount,unit\nplate,Bite,1,Leek,1,kg\n" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (tables); i++)
    cro_test_write_table (folder->folder, tables[i].name, tables[i].text);
  return cro_test_book_load (folder);
}

static void
test_book (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (books); i++)
    {
      CroTestFolder folder = cro_test_folder_new ();
      CroBook *book = book_of (&folder, books[i].speaks);
      CroRef bite = cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, "Bite");
      g_autofree char *list
          = cro_words_list_figure (cro_book_get_figures (book), CRO_KIND_PLATE, bite.slot);
      g_autoptr (GPtrArray) sum = cro_sum_of_pct (cro_book_get_figures (book), bite, NULL);
      g_autofree char *text = cro_sum_to_text (sum);

      if (strcmp (list, books[i].list) != 0 || strcmp (text, books[i].sum) != 0)
        fail_msg ("\"%s\": %s; %s", books[i].speaks, list, text);
      g_object_unref (book);
      cro_test_folder_clear (&folder);
    }
}

static void
expect_pct (CroKnown    how,
            double      pct,
            const char *expected)
{
  g_autofree char *text = cro_words_known_pct_short (how, pct, 1);

  assert_string_equal (text, expected);
}

/* What costs something is no 0.0 % of a cost, and a bound stays on its side; 0 is 0. */
static void
test_tiny (void **state)
{
  expect_pct (CRO_KNOWN_WHOLE, 0.02, "< 0.1\302\240%");
  expect_pct (CRO_KNOWN_WHOLE, -0.02, "> \342\210\2220.1\302\240%");
  expect_pct (CRO_KNOWN_AT_MOST, 0.02, "< 0.1\302\240%");
  expect_pct (CRO_KNOWN_AT_LEAST, 0.02, "> 0\302\240%");
  expect_pct (CRO_KNOWN_AT_MOST, -0.02, "< 0\302\240%");
  expect_pct (CRO_KNOWN_IN_PART, 0.02, "? < 0.1\302\240%");
  expect_pct (CRO_KNOWN_WHOLE, 0, "0.0\302\240%");
  expect_pct (CRO_KNOWN_AT_LEAST, 0.05, "\342\211\245 0.1\302\240%");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_shown),
    cmocka_unit_test (test_known),
    cmocka_unit_test (test_tiny),
    cmocka_unit_test (test_typed),
    cmocka_unit_test (test_asked),
    cmocka_unit_test (test_book),
  };

  setlocale (LC_ALL, "C");
  return cmocka_run_group_tests (tests, NULL, NULL);
}
