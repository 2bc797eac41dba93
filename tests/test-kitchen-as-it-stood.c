/* The book as it stood: its figures are, in every bit, those of the book opened on that day. */
#include "support/kitchen-edits.h"

#include "cro-edit.h"
#include "cro-month.h"
#include "cro-words.h"
#include "support/n-books.h"

#include <time.h>

#define N_BOOKS CRO_TEST_N_BOOKS (4)
#define N_ACTS 160
#define EVERY 16

/* What stood after an act. */
typedef struct
{
  char *day;
  char *figures;
} Stood;

/* An act that was refused left nothing to date; one that has its date here has no day. */
static void
date_new_acts (const char *path,
               const char *day)
{
  sqlite3 *db = cro_test_raw (path);
  char *sql = g_strdup_printf ("UPDATE act SET at = '%sT12:00:00Z', day = NULL"
                               " WHERE day IS NOT NULL", day);

  cro_test_sql (db, sql);
  sqlite3_close (db);
  g_free (sql);
}

static void
undo_or_redo (CroBook *book,
              GRand   *rand)
{
  if (g_rand_boolean (rand))
    cro_book_undo (book, NULL, NULL);
  else
    cro_book_redo (book, NULL, NULL);
}

static void
act_at_random (CroBook *book,
               GRand   *rand)
{
  switch (g_rand_int_range (rand, 0, 5))
    {
    case 0:
      undo_or_redo (book, rand);
      break;
    case 1:
      cro_test_random_removal (book, rand);
      break;
    default:
      cro_test_random_act (book, rand);
    }
}

static void
make_settings (CroBook *book)
{
  static const char *const columns[] = { "id", "currency", NULL };
  const CroCell cells[] = { CRO_CELL_INT (1), CRO_CELL_STR ("EUR") };
  GError *error = NULL;
  CroWriter *writer;

  cro_test_must (cro_book_begin_act (book, "start", &error), error);
  writer = cro_writer_new (cro_book_get_store (book), "book", columns, &error);
  cro_test_must (cro_writer_insert (writer, cells, NULL, &error), error);
  cro_writer_free (writer);
  cro_test_must (cro_book_end_act (book, &error), error);
}

static CroBook *
open_past (const char *path,
           const char *day)
{
  GError *error = NULL;
  CroBook *book;
  CroDate date;

  assert_true (cro_date_parse (day, strlen (day), &date));
  book = cro_book_open_past (path, date, CRO_TEST_DAY, &error);
  cro_test_must (book != NULL, error);
  return book;
}

static void
must_be_as (const char  *path,
            const Stood *stood)
{
  g_autoptr (CroBook) past = open_past (path, stood->day);
  g_autofree char *figures = cro_test_figures (past);

  cro_test_same (stood->day, figures, stood->figures);
}

static void
test_figures_as_they_stood (void **state)
{
  g_setenv ("TZ", "UTC", TRUE);
  tzset ();
  for (guint seed = 1; seed <= N_BOOKS; seed++)
    {
      CroTestFolder folder = cro_test_folder_new ();
      CroBook *book = cro_test_book_create (folder.path);
      GRand *rand = g_rand_new_with_seed (seed);
      Stood stood[N_ACTS / EVERY];

      make_settings (book);
      for (int i = 0; i < 200; i++)
        cro_test_random_act (book, rand);
      date_new_acts (folder.path, "2026-12-31");
      for (guint i = 0; i < N_ACTS; i++)
        {
          g_autofree char *day = g_strdup_printf ("2027-%02u-%02u", 1 + i / 28, 1 + i % 28);

          act_at_random (book, rand);
          date_new_acts (folder.path, day);
          if (i % EVERY == EVERY - 1)
            stood[i / EVERY] = (Stood){ g_strdup (day), cro_test_fresh_figures (book) };
        }
      for (gsize i = 0; i < G_N_ELEMENTS (stood); i++)
        {
          must_be_as (folder.path, &stood[i]);
          g_free (stood[i].day);
          g_free (stood[i].figures);
        }
      g_object_unref (book);
      g_rand_free (rand);
      cro_test_folder_clear (&folder);
    }
}

/* --- What a past book refuses -------------------------------------------------------------------- */

static int
set_up (void **state)
{
  CroTestFolder *folder = g_new (CroTestFolder, 1);

  *folder = cro_test_folder_new ();
  g_setenv ("TZ", "UTC", TRUE);
  tzset ();
  cro_test_write_table (folder->folder, "ingredients", "name,unit\nCrab,g\n");
  cro_test_write_table (folder->folder, "suppliers", "name\nThe quay\n");
  cro_test_write_table (folder->folder, "offers",
                        "ingredient,supplier,pack_count,pack_size,pack_unit\n"
                        "Crab,The quay,1,1,kg\n");
  cro_test_write_table (folder->folder, "prices",
                        "ingredient,supplier,from,price\nCrab,The quay,2026-01-01,40\n");
  cro_test_write_table (folder->folder, "plates", "name,makes\nCrab croustade,10\n");
  cro_test_write_table (folder->folder, "lines",
                        "into,parent,position,item,amount,unit\n"
                        "plate,Crab croustade,1,Crab,100,g\n");
  g_object_unref (cro_test_book_load (folder));
  date_new_acts (folder->path, "2026-02-01");
  *state = folder;
  return 0;
}

static int
tear_down (void **state)
{
  cro_test_folder_clear (*state);
  g_free (*state);
  return 0;
}

static void
must_be_past (const char *what,
              gboolean    done,
              GError     *error)
{
  g_autofree char *sentence = NULL;

  if (done || !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_PAST))
    fail_msg ("%s: a book as it stood is only read", what);
  sentence = cro_words_error (error);
  assert_string_equal (sentence, "this is the book as it stood; it can only be read");
  g_clear_error (&error);
}

static void
test_every_edit_is_refused (void **state)
{
  CroTestFolder *folder = *state;
  g_autoptr (CroBook) book = open_past (folder->path, "2026-02-01");
  CroCell cell = CRO_CELL_INT (200000000);
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *after = NULL;
  GError *error = NULL;
  gboolean done;
  CroDate day;

  assert_true (cro_book_is_past (book, &day));
  assert_int_equal (day, cro_date_from_civil (2026, 2, 1));
  done = cro_book_preview (book, "recipe_line", 1, "amount_micro", &cell, &error);
  must_be_past ("preview", done, g_steal_pointer (&error));
  done = cro_book_preview_price (book, 0, 1000000, &error);
  must_be_past ("preview of a price", done, g_steal_pointer (&error));
  done = cro_book_set (book, "amount", "recipe_line", 1, "amount_micro", &cell, &error);
  must_be_past ("set", done, g_steal_pointer (&error));
  done = cro_edit_rename (book, "name", (CroRef){ CRO_REF_RECIPE, 0 }, "Other", &error);
  must_be_past ("rename", done, g_steal_pointer (&error));
  if (cro_book_undo (book, NULL, &error))
    fail_msg ("nothing is undone in a book as it stood");
  g_clear_error (&error);
  after = cro_test_figures (book);
  cro_test_same ("what is refused moves nothing", after, before);
}

/* The recipes of a month are those of the day of the book, not of the month's end. */
static void
test_a_month_has_the_recipes_of_that_day (void **state)
{
  CroTestFolder *folder = *state;
  g_autoptr (CroBook) book = open_past (folder->path, "2026-02-01");
  g_autoptr (CroMonth) month = NULL;
  GError *error = NULL;

  month = cro_month_new (book, cro_date_from_civil (2026, 2, 1), TRUE, &error);
  cro_test_must (month != NULL, error);
  assert_int_equal (cro_month_recipes_day (month), cro_date_from_civil (2026, 2, 1));
}

static void
test_its_file_may_move_on (void **state)
{
  CroTestFolder *folder = *state;
  g_autoptr (CroBook) book = open_past (folder->path, "2026-02-01");
  gboolean changed = TRUE;
  GError *error = NULL;

  g_remove (folder->path);
  cro_test_must (cro_book_refresh (book, &changed, &error), error);
  assert_false (changed);
  cro_test_must (cro_book_set_date (book, CRO_TEST_DAY + 1, &error), error);
}

static void
test_the_first_day_is_said (void **state)
{
  CroTestFolder *folder = *state;
  g_autoptr (GError) error = NULL;
  g_autofree char *sentence = NULL;

  assert_null (cro_book_open_past (folder->path, cro_date_from_civil (2026, 1, 31), CRO_TEST_DAY,
                                   &error));
  sentence = cro_words_error (error);
  assert_string_equal (sentence,
                       "the book begins on 2026-02-01; choose that day or a later one");
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_figures_as_they_stood),
    cmocka_unit_test_setup_teardown (test_every_edit_is_refused, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_a_month_has_the_recipes_of_that_day, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_its_file_may_move_on, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_the_first_day_is_said, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
