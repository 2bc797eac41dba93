/* A book that is long in opening says how far it is, and can be given up. */
#include "cro-book-open.h"
#include "support/kitchen-book.h"

#define N_INGREDIENTS 12000

typedef struct
{
  CroTestFolder folder;
  double        done;     /* as it was told last */
  double        most;     /* where it is given up */
  int           n_asked;
} Waiter;

static int
set_up (void **state)
{
  Waiter *waiter = g_new0 (Waiter, 1);
  g_autoptr (GString) rows = g_string_new ("name,unit\n");
  CroBook *book;

  waiter->folder = cro_test_folder_new ();
  for (int i = 0; i < N_INGREDIENTS; i++)
    g_string_append_printf (rows, "Herb %d,g\n", i);
  cro_test_write_table (waiter->folder.folder, "ingredients", rows->str);
  book = cro_test_book_load (&waiter->folder);
  g_object_unref (book);
  waiter->most = 2;
  *state = waiter;
  return 0;
}

static int
tear_down (void **state)
{
  Waiter *waiter = *state;

  cro_test_folder_clear (&waiter->folder);
  g_free (waiter);
  return 0;
}

static gboolean
go_on (gpointer user_data,
       double   done)
{
  Waiter *waiter = user_data;

  assert_true (done >= waiter->done && done <= 1);
  waiter->done = done;
  waiter->n_asked++;
  return done < waiter->most;
}

static CroBook *
open_watched (Waiter *waiter)
{
  const CroWatch watch = { go_on, waiter };
  g_autoptr (GError) error = NULL;
  CroBook *book = cro_book_open_watched (waiter->folder.path, NULL, CRO_STORE_READ, CRO_TEST_DAY,
                                         &watch, &error);

  assert_true ((book == NULL) == (error != NULL));
  return book;
}

static void
test_it_says_how_far_it_is (void **state)
{
  Waiter *waiter = *state;
  g_autoptr (CroBook) book = open_watched (waiter);
  int n_asked = waiter->n_asked;

  assert_non_null (book);
  assert_int_equal (cro_book_get_model (book)->items->len, N_INGREDIENTS);
  assert_true (n_asked > 2);
  assert_true (waiter->done > 0.7);
  /* Whoever opened it no longer waits. */
  assert_true (cro_book_set_date (book, CRO_TEST_DAY + 1, NULL));
  assert_int_equal (waiter->n_asked, n_asked);
}

static void
test_it_is_given_up (void **state)
{
  Waiter *waiter = *state;
  g_autoptr (CroBook) book = NULL;

  waiter->most = 0.3;
  assert_null (open_watched (waiter));
  assert_true (waiter->done < 0.7);
  /* The file is as it was. */
  waiter->most = 2;
  waiter->done = 0;
  book = open_watched (waiter);
  assert_non_null (book);
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_it_says_how_far_it_is),
    CASE (test_it_is_given_up),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
