/* What would be made of itself is refused with the way round, whoever closes the circle, and nothing of it stays. */
#include "support/book-hands.h"

static void
must_be_cycle (const char  *says,
               gboolean     done,
               GError     **error,
               const char  *path)
{
  if (done || !g_error_matches (*error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_CYCLE))
    fail_msg ("%s: is refused as a cycle", says);
  if (strcmp ((*error)->message, path) != 0)
    fail_msg ("%s: the path is %s and not %s", says, (*error)->message, path);
  g_clear_error (error);
}

static void
test_cycle_of_a_line (void **state)
{
  Fixture *fixture = *state;
  CroModel *model = cro_book_get_model (fixture->book);
  gint64 line = line_of (fixture, "Stock");
  CroCell gel = CRO_CELL_INT (id_of (fixture, "item", "Gel"));
  g_autofree char *figures = cro_test_figures (fixture->book);
  g_autofree char *rows = cro_test_dump (fixture->folder.path);
  g_autofree char *after = NULL;
  g_autofree char *rows_after = NULL;
  g_autoptr (GError) error = NULL;
  gboolean done;

  done = cro_book_preview (fixture->book, "recipe_line", line, "item", &gel, &error);
  must_be_cycle ("a gel of itself, previewed", done, &error, "Gel → Gel");
  done = cro_book_set (fixture->book, "gel of gel", "recipe_line", line, "item", &gel, &error);
  must_be_cycle ("a gel of itself, written", done, &error, "Gel → Gel");

  after = cro_test_figures (fixture->book);
  cro_test_same ("figures are as they were", figures, after);
  rows_after = cro_test_dump (fixture->folder.path);
  cro_test_same ("and so is every row", rows, rows_after);
  if (cro_book_get_model (fixture->book) != model)
    fail_msg ("slots stay what they are");
}

static void
insert_line (CroBook *book,
             gint64   preparation,
             gint64   item,
             gint64   position)
{
  static const char *const columns[] = { "preparation", "item", "position_micro", "amount_micro",
                                         "unit", NULL };
  const CroCell cells[] = { CRO_CELL_INT (preparation), CRO_CELL_INT (item),
                            CRO_CELL_INT (position * 1000000), CRO_CELL_INT (1000000),
                            CRO_CELL_STR ("g") };
  GError *error = NULL;
  g_autoptr (CroWriter) writer = NULL;

  cro_test_must (cro_book_begin_act (book, "line", &error), error);
  writer = cro_writer_new (cro_book_get_store (book), "recipe_line", columns, &error);
  cro_test_must (cro_writer_insert (writer, cells, NULL, &error), error);
}

static void
test_cycle_of_a_new_line (void **state)
{
  Fixture *fixture = *state;
  g_autofree char *figures = cro_test_figures (fixture->book);
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;
  CroCell amount = CRO_CELL_INT (50000000);

  insert_line (fixture->book, id_of (fixture, "preparation", "Stock"),
               id_of (fixture, "item", "Gel"), 2);
  must_be_cycle ("stock of the gel that is made of it",
                 cro_book_end_act (fixture->book, &error), &error, "Gel → Stock → Gel");
  after = cro_test_figures (fixture->book);
  cro_test_same ("figures are as they were", figures, after);
  cro_test_must (cro_book_set (fixture->book, "amount", "recipe_line", line_of (fixture, "Gel"),
                               "amount_micro", &amount, &error), error);
  must_be_fresh ("and the book goes on", fixture->book);
}

/* Each of two desks makes half of it: one takes stock out of the gel, and the other, which has seen that, gel
 * into the stock. */
static void
make_halves (Fixture *fixture,
             CroBook *one,
             CroBook *other)
{
  CroCell crab = CRO_CELL_INT (id_of (fixture, "item", "Crab"));
  GError *error = NULL;

  cro_test_must (cro_book_set (one, "gel of crab", "recipe_line", line_of (fixture, "Stock"), "item", &crab, &error),
                 error);
  cro_test_must (cro_book_refresh (other, NULL, &error), error);
  insert_line (other, id_of (fixture, "preparation", "Stock"), id_of (fixture, "item", "Gel"), 2);
  cro_test_must (cro_book_end_act (other, &error), error);
}

static void
test_cycle_of_two_desks (void **state)
{
  Fixture *fixture = *state;
  g_autoptr (CroBook) other = cro_test_book_open (fixture->folder.path, "pass");
  g_autoptr (GError) error = NULL;

  make_halves (fixture, other, fixture->book);
  must_be_cycle ("undoing what another's act has built on",
                 cro_book_undo (other, NULL, &error), &error, "Gel → Stock → Gel");
  must_be_fresh ("the desk whose undo was refused has the other's act", other);
  cro_test_must (cro_book_refresh (fixture->book, NULL, &error), error);
  must_be_fresh ("and the other desk has nothing of the undo", fixture->book);
}

static void
test_cycle_unseen (void **state)
{
  Fixture *fixture = *state;
  g_autoptr (CroBook) other = cro_test_book_open (fixture->folder.path, "pass");
  gint64 line = line_of (fixture, "Stock");
  CroCell stock = CRO_CELL_INT (id_of (fixture, "item", "Stock"));
  g_autoptr (GError) error = NULL;

  make_halves (fixture, fixture->book, other);
  must_be_cycle ("an act that closes a circle with what was not seen yet",
                 cro_book_set (fixture->book, "stock", "recipe_line", line, "item", &stock,
                               &error),
                 &error, "Gel → Stock → Gel");
  must_be_fresh ("what was not seen is taken in although the act is refused", fixture->book);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_cycle_of_a_line, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_cycle_of_a_new_line, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_cycle_of_two_desks, set_up, tear_down),
    cmocka_unit_test_setup_teardown (test_cycle_unseen, set_up, tear_down),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
