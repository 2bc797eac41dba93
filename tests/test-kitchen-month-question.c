/* What a month asks: each kind has a code and words of its own; and what closing froze in words that this program does
 * not know is taken for none of its own, and said. */
#include <math.h>

#include "cro-month-edit.h"
#include "cro-month-frozen.h"
#include "cro-month-words.h"
#include "cro-month.h"
#include "support/kitchen-book.h"

static void
test_each_kind_is_told (void **state)
{
  g_autoptr (GHashTable) told = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  CroMonthQuestionKind kind = CRO_QUESTION_UNIT;

  for (guint k = 0; k < CRO_N_QUESTIONS; k++)
    {
      CroMonthQuestion question = { k, "2026-01", CRO_TEST_DAY, "kg", NAN };
      g_autofree char *words = cro_month_question_words (&question, FALSE);
      char *text = cro_month_question_text (&question);

      assert_true (cro_month_question_parse (cro_month_question_code (k), &kind));
      assert_int_equal (kind, k);
      assert_string_not_equal (words, question.about);
      if (*text == '\0' || !g_hash_table_add (told, text))
        fail_msg ("%s is told as “%s”, as another is", cro_month_question_code (k), text);
    }
  assert_false (cro_month_question_parse ("tills", &kind));
  assert_false (cro_month_question_parse (NULL, &kind));
  assert_int_equal (kind, CRO_N_QUESTIONS - 1);
}

#define HEAD "month,kind,name,part_kind,part,number,date,cost,category,row_kind,note\n"
#define ROW "2026-01,statement,"

/* What is frozen, and of it food bought, staff meals, how much is known of the actual cost, questions. */
static const struct { const char *says, *rows, *reads; gboolean is_altered; } frozen[] = {
  { "words of closing",
    ROW "purchases,,,1,,50,,food,\n" ROW "adjustments,,,1,,7,,staff-meal,at-least\n" ROW "actual,,,,,43,,,at-most\n"
    ROW "question,,,1,2026-01-31,,Crab,not-counted,\n" ROW "question,,,2,2026-01-31,,Crab,unit,kg\n",
    "50 7 1 2 not-counted unit", FALSE },
  { "nothing said of what is known", ROW "purchases,,,1,,50,,food,\n" ROW "actual,,,,,43,,,\n", "50 0 0 0", FALSE },
  { "a question", ROW "question,,,1,2026-01-31,,Crab,not-kept,\n" ROW "question,,,2,2026-01-31,,Crab,unit,kg\n",
    "0 0 0 0 unit", TRUE },
  { "a question without a kind", ROW "purchases,,,1,,50,,food,\n" ROW "question,,,1,2026-01-31,,Crab,,\n", "50 0 0 0",
    TRUE },
  { "how much is known", ROW "actual,,,,,43,,,about\n", "0 0 0 3", TRUE },
  { "a kind of purchase", ROW "purchases,,,1,,50,,food,\n" ROW "purchases,,,4,,9,,linen,\n",
    "“linen” is no kind of purchase", TRUE },
  { "a kind of adjustment", ROW "adjustments,,,1,,7,,staff-meal,\n" ROW "adjustments,,,7,,9,,gift,\n",
    "0 7 0 0", TRUE },
  { "how much of an adjustment", ROW "adjustments,,,1,,7,,staff-meal,about\n", "0 7 3 0", TRUE },
};

static char *
read_month (const CroMonth *month)
{
  GString *text = g_string_new (NULL);

  g_string_printf (text, "%g %g %d %d", month->purchases[0], month->adjustments[CRO_ADJUSTMENT_STAFF_MEAL],
                   month->known_adjustments[CRO_ADJUSTMENT_STAFF_MEAL], month->known_actual);
  for (guint i = 0; i < month->questions->len; i++)
    g_string_append_printf (text, " %s", cro_month_question_code (
                                             g_array_index (month->questions, CroMonthQuestion, i).kind));
  return g_string_free (text, FALSE);
}

/* A difference of sums that are rounded is the one that is told, here and in the sentence. */
static const CroMonthQuestion stock = { CRO_QUESTION_STOCK, "stock", CRO_TEST_DAY,
                                        "643.24 entered, 34.82 counted, 608.42 difference", -608.4149 };

static void
test_a_strange_word_is_none_of_ours (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (frozen); i++)
    {
      CroTestFolder folder = cro_test_folder_new ();
      g_autofree char *rows = g_strconcat (HEAD, frozen[i].rows, NULL), *reads = NULL, *late = NULL, *explains = NULL;
      g_autoptr (CroBook) book = NULL;
      g_autoptr (CroMonth) month = NULL;
      g_autoptr (GError) error = NULL;

      cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\n");
      cro_test_write_table (folder.folder, "months", "month,closed_at\n2026-01,2026-02-02T08:00:00Z\n");
      cro_test_write_table (folder.folder, "month_rows", rows);
      book = cro_test_book_load (&folder);
      month = cro_month_new (book, cro_date_from_civil (2026, 1, 1), FALSE, &error);
      reads = month != NULL ? read_month (month) : g_strdup (error->message);
      if (strcmp (reads, frozen[i].reads) != 0
          || (month != NULL && frozen[i].is_altered != (month->altered == month->first)))
        fail_msg ("%s: %s", frozen[i].says, reads);
      /* No purchase is in the book: what was frozen of them is taken back since, unless that itself is not sure. */
      late = month != NULL ? cro_month_late_words (cro_book_get_model (book), month) : NULL;
      if (month != NULL && (late != NULL) != (month->purchases[0] != 0 && !frozen[i].is_altered))
        fail_msg ("%s: %s", frozen[i].says, late);
      explains = cro_month_explains_words (cro_book_get_model (book), &stock);
      assert_string_equal (explains, "may explain −608.42");
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
    }
}

#define OF(month, name, number, cost, kind) \
  "2026-" month ",statement," name ",,," number ",2026-01-01," cost ",," kind ",\n"
#define OWN ROW "purchases,,,1,,50,,food,\n" ROW "booked,,,1,,50,,food,\n"
#define IN_FEBRUARY OF ("02", "earlier-of", "1", "20", "food") OF ("02", "earlier-of", "2", "3", "disposable") \
  "2026-02,statement,booked,,,1,,20,,food,\n"

/* Documents of a closed January, what closing noted of them, and what is said: each stands in one month (common
 * practice of accruals, no source). */
static const struct { const char *purchases, *rows, *says; } since[] = {
  { "2026-01-03,Q-1,food,50\n2026-01-04,Q-2,food,20\n2026-01-05,Q-3,disposable,3\n2026-01-06,Q-4,food,-5\n"
    "2026-01-07,Q-5,food,7\n",
    OWN IN_FEBRUARY OF ("03", "earlier-of", "1", "-5", "food") "2026-03,statement,booked,,,1,,-5,,food,\n",
    "documents since it was closed, booked in February 2026: food\302\24020.00, disposable\302\2403.00 · "
    "documents since it was closed, booked in March 2026: food\302\240−5.00 · documents since it was closed: "
    "food\302\2407.00. They count in the first open month; reopen this one to count them here" },
  { "2026-01-03,Q-1,food,50\n2026-01-04,Q-2,food,20\n2026-01-05,Q-3,other,-20\n", OWN,
    "documents since it was closed: food\302\24020.00, other\302\240−20.00. They count in the first open month; reopen "
    "this one to count them here" },
  /* It was closed anew with what February had booked of it, and says so on a line of its own. */
  { "2026-01-03,Q-1,food,50\n2026-01-04,Q-2,food,20\n2026-01-05,Q-3,disposable,3\n",
    ROW "purchases,,,1,,70,,food,\n" ROW "purchases,,,2,,3,,disposable,\n" ROW "booked,,,1,,50,,food,\n"
    "2026-01,statement,later-of,,,1,2026-02-01,20,,food,\n2026-01,statement,later-of,,,2,2026-02-01,3,,disposable,\n"
    IN_FEBRUARY, NULL },
  { "2026-01-03,Q-1,food,50\n", OWN, NULL },
};

static void
test_what_came_since_is_told_by_the_month_that_has_it (void **state)
{
  for (gsize i = 0; i < G_N_ELEMENTS (since); i++)
    {
      CroTestFolder folder = cro_test_folder_new ();
      g_autofree char *rows = g_strconcat (HEAD, since[i].rows, NULL), *says = NULL;
      g_autofree char *purchases = g_strconcat ("date,document,kind,net_value\n", since[i].purchases, NULL);
      g_autoptr (CroBook) book = NULL;
      g_autoptr (CroMonth) month = NULL;
      g_autoptr (GError) error = NULL;

      cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\n");
      cro_test_write_table (folder.folder, "purchases", purchases);
      cro_test_write_table (folder.folder, "months", "month,closed_at\n2026-01,2026-02-02T08:00:00Z\n"
                                                     "2026-02,2026-03-02T08:00:00Z\n2026-03,2026-04-02T08:00:00Z\n");
      cro_test_write_table (folder.folder, "month_rows", rows);
      book = cro_test_book_load (&folder);
      month = cro_month_new (book, cro_date_from_civil (2026, 1, 1), FALSE, &error);
      cro_test_must (month != NULL, error);
      says = cro_month_late_words (cro_book_get_model (book), month);
      if (g_strcmp0 (says, since[i].says) != 0)
        fail_msg ("%s: %s", since[i].purchases, says);
      assert_true (cro_month_came_since (month) == (since[i].says != NULL));
      g_clear_object (&book);
      cro_test_folder_clear (&folder);
    }
}

/* Saved again, it would be food. */
static void
test_a_strange_kind_is_no_food (void **state)
{
  CroTestFolder folder = cro_test_folder_new ();
  g_autoptr (CroBook) book = NULL;
  g_autoptr (GError) error = NULL;
  CroDocument *document;
  sqlite3 *db;

  cro_test_write_table (folder.folder, "book", "key,value\ncurrency,EUR\n");
  cro_test_write_table (folder.folder, "purchases", "date,document,kind,net_value\n2026-01-03,Q-1,other,7\n");
  book = cro_test_book_load (&folder);
  document = cro_document_new (book, 1, &error);
  assert_null (error);
  cro_document_free (document);
  db = cro_test_raw (folder.path);
  cro_test_sql (db, "PRAGMA ignore_check_constraints = ON");
  cro_test_begin_raw_act (db);
  cro_test_sql (db, "UPDATE purchase SET kind = 'linen'");
  cro_test_end_raw_act (db);
  sqlite3_close (db);
  assert_null (cro_document_new (book, 1, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED));
  g_clear_object (&book);
  cro_test_folder_clear (&folder);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_each_kind_is_told),
    cmocka_unit_test (test_a_strange_word_is_none_of_ours),
    cmocka_unit_test (test_what_came_since_is_told_by_the_month_that_has_it),
    cmocka_unit_test (test_a_strange_kind_is_no_food),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
