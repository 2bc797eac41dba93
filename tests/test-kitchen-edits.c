/* Whatever a book goes through, its figures are those of the book opened anew, in every bit. */
#include "support/kitchen-edits.h"

#include <sqlite3.h>

#define N_BOOKS CRO_TEST_N_BOOKS (8)
#define N_STEPS 200

/* The book opened anew, which takes longer than all else here: its figures stay until somebody writes to the file, as a
 * refused act does not. SQLite tells it to a connection that does not write (https://sqlite.org/pragma.html,
 * data_version). */
static struct
{
  sqlite3      *watch;
  sqlite3_stmt *version;
  gint64        seen;
  CroDate       date;
  char         *figures;
} fresh;

static void
watch (const char *path)
{
  assert_int_equal (sqlite3_open_v2 (path, &fresh.watch, SQLITE_OPEN_READONLY, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_prepare_v2 (fresh.watch, "PRAGMA data_version", -1, &fresh.version, NULL), SQLITE_OK);
}

static void
unwatch (void)
{
  sqlite3_finalize (fresh.version);
  sqlite3_close (fresh.watch);
  g_clear_pointer (&fresh.figures, g_free);
}

static const char *
fresh_figures (CroBook *book)
{
  CroDate date = cro_book_get_figures (book)->date;
  gint64 version;

  assert_int_equal (sqlite3_step (fresh.version), SQLITE_ROW);
  version = sqlite3_column_int64 (fresh.version, 0);
  sqlite3_reset (fresh.version);
  if (fresh.figures == NULL || version != fresh.seen || date != fresh.date)
    {
      g_free (fresh.figures);
      fresh.figures = cro_test_fresh_figures (book);
      fresh.seen = version;
      fresh.date = date;
    }
  return fresh.figures;
}

/* The seed that is printed makes the same run again. */
static void
start (CroTestFolder *folder,
       CroBook      **book,
       GRand        **rand,
       guint32        seed)
{
  GError *error = NULL;
  static const char *const id[] = { "id", NULL };
  CroCell one = CRO_CELL_INT (1);
  CroWriter *writer;

  print_message ("seed %u\n", seed);
  *folder = cro_test_folder_new ();
  *book = cro_test_book_create (folder->path);
  *rand = g_rand_new_with_seed (seed);
  cro_test_must (cro_book_begin_act (*book, "start", &error), error);
  writer = cro_writer_new (cro_book_get_store (*book), "book", id, &error);
  cro_test_must (cro_writer_insert (writer, &one, NULL, &error), error);
  cro_writer_free (writer);
  cro_test_must (cro_book_end_act (*book, &error), error);
  for (int i = 0; i < 300; i++)
    cro_test_random_act (*book, *rand);
  watch (cro_store_get_path (cro_book_get_store (*book)));
}

static void
stop (CroTestFolder *folder,
      CroBook       *book,
      GRand         *rand)
{
  unwatch ();
  g_object_unref (book);
  g_rand_free (rand);
  cro_test_folder_clear (folder);
}

static void
must_be_fresh (const char *says,
               CroBook    *book)
{
  g_autofree char *figures = cro_test_figures (book);

  cro_test_same (says, figures, fresh_figures (book));
}

/* --- Acts, undo and redo ----------------------------------------------------------------------- */

static void
undo_or_redo (CroBook *book,
              GRand   *rand)
{
  g_autoptr (GError) error = NULL;
  CroConflict conflict = { 0 };
  gboolean undo = g_rand_int_range (rand, 0, 3) > 0;

  if (!(undo ? cro_book_undo : cro_book_redo) (book, &conflict, &error)
      && !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_NOTHING)
      && !g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_CHANGED)
      && !g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_CYCLE))
    fail_msg ("%s", error->message);
  cro_conflict_clear (&conflict);
}

static void
must_undo (CroBook  *book,
           gboolean  redo)
{
  GError *error = NULL;

  cro_test_must ((redo ? cro_book_redo : cro_book_undo) (book, NULL, &error), error);
}

/* What is removed comes back, to the bit, in a book too that was opened while it was gone. */
static void
remove_and_undo (CroBook **book,
                 GRand    *rand)
{
  const char *path = cro_store_get_path (cro_book_get_store (*book));
  g_autofree char *before = cro_test_figures (*book);
  g_autofree char *after = NULL;
  g_autofree char *again = NULL;
  gint64 last = cro_store_last_change (cro_book_get_store (*book));
  g_autoptr (CroBook) old = NULL;

  if (!cro_test_random_removal (*book, rand)
      || cro_store_last_change (cro_book_get_store (*book)) == last)
    return;
  must_be_fresh ("a row goes with all that refers to it", *book);
  if (g_rand_boolean (rand))
    {
      old = *book;
      *book = cro_test_book_open (path, "cook");
    }
  must_undo (*book, FALSE);
  after = cro_test_figures (*book);
  cro_test_same ("what was removed comes back, to the bit", before, after);
  must_undo (*book, TRUE);
  must_be_fresh ("and goes again", *book);
  must_undo (*book, FALSE);
  again = cro_test_figures (*book);
  cro_test_same ("and comes back again", before, again);
}

static void
test_acts (void **state)
{
  guint accepted = 0;

  for (guint32 seed = 0; seed < N_BOOKS; seed++)
    {
      CroTestFolder folder;
      CroBook *book;
      GRand *rand;

      start (&folder, &book, &rand, seed);
      for (int step = 0; step < N_STEPS; step++)
        {
          if (g_rand_int_range (rand, 0, 3) == 0)
            remove_and_undo (&book, rand);
          else if (g_rand_int_range (rand, 0, 3) == 0)
            undo_or_redo (book, rand);
          else
            accepted += (guint) cro_test_random_act (book, rand);
          must_be_fresh ("after an act, an undo or a redo, refused or not, the figures are those of"
                         " the book opened anew", book);
        }
      stop (&folder, book, rand);
    }
  if (accepted < N_BOOKS * N_STEPS / 4)
    fail_msg ("enough of the random acts are accepted to mean something: %u", accepted);
}

/* --- Previews ------------------------------------------------------------------------------------- */

/* What cannot be shown before it is written. */
static gboolean
has_preview (const CroTestEdit *edit)
{
  if (strcmp (edit->table, "rate") == 0)
    return FALSE;
  return strcmp (edit->table, "price") != 0
         || (strcmp (edit->column, "offer") != 0 && strcmp (edit->column, "from_date") != 0);
}

static void
preview_then_set (CroBook *book,
                  GRand   *rand)
{
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *shown = NULL;
  g_autofree char *restored = NULL;
  g_autofree char *written = NULL;
  g_autoptr (GError) error = NULL;
  CroTestEdit edit;

  if (!cro_test_draw_edit (book, rand, &edit) || !has_preview (&edit))
    return;
  if (cro_book_preview (book, edit.table, edit.id, edit.column, &edit.cell, &error))
    shown = cro_test_figures (book);
  else if (!g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_CYCLE))
    fail_msg ("%s", error->message);
  g_clear_error (&error);
  cro_test_must (cro_book_restore (book, &error), error);
  restored = cro_test_figures (book);
  cro_test_same ("what a preview showed is taken back to the bit", before, restored);

  if (!cro_book_set (book, "edit", edit.table, edit.id, edit.column, &edit.cell, &error))
    return;
  written = cro_test_figures (book);
  if (shown == NULL)
    fail_msg ("what would make a cycle is refused when it is written, too");
  cro_test_same ("a preview shows the figures of the act that follows, to the bit", shown, written);
}

static void
test_previews (void **state)
{
  for (guint32 seed = 100; seed < 100 + N_BOOKS; seed++)
    {
      CroTestFolder folder;
      CroBook *book;
      GRand *rand;

      start (&folder, &book, &rand, seed);
      for (int step = 0; step < N_STEPS; step++)
        if (g_rand_int_range (rand, 0, 4) == 0)
          cro_test_random_act (book, rand);
        else
          preview_then_set (book, rand);
      must_be_fresh ("after previews and acts the figures are those of the book opened anew", book);
      stop (&folder, book, rand);
    }
}

/* --- Other desks and other days --------------------------------------------------------------------- */

static void
other_step (CroBook *book,
            CroBook *other,
            GRand   *rand)
{
  g_autoptr (GError) error = NULL;
  CroTestEdit edit;
  CroCell wage;
  gboolean changed;

  switch (g_rand_int_range (rand, 0, 6))
    {
    case 0:
      cro_test_must (cro_book_refresh (book, &changed, &error), error);
      if (!changed)
        cro_test_must (cro_book_restore (book, &error), error);
      must_be_fresh ("what another desk did is taken in, and a preview ends with it", book);
      break;
    case 1:
      wage = CRO_CELL_INT (g_rand_int_range (rand, 1, G_MAXINT));
      cro_test_must (cro_book_set (book, "wage", "book", 1, "wage_per_hour_micro", &wage, &error),
                     error);
      must_be_fresh ("an act takes in what others did before it", book);
      break;
    case 2:
      if (cro_test_draw_edit (book, rand, &edit))
        cro_book_preview (book, edit.table, edit.id, edit.column, &edit.cell, NULL);
      break;
    case 3:
      cro_test_must (cro_book_set_date (book, CRO_TEST_DAY - g_rand_int_range (rand, -5, 40),
                                        &error), error);
      must_be_fresh ("on another day prices and rates are those of that day", book);
      break;
    default:
      if (g_rand_boolean (rand))
        undo_or_redo (other, rand);
      else
        cro_test_random_act (other, rand);
      break;
    }
}

static void
test_other_desk (void **state)
{
  for (guint32 seed = 200; seed < 200 + N_BOOKS; seed++)
    {
      CroTestFolder folder;
      CroBook *book, *other;
      GRand *rand;
      g_autoptr (GError) error = NULL;

      start (&folder, &book, &rand, seed);
      other = cro_test_book_open (folder.path, "pass");
      for (int step = 0; step < N_STEPS; step++)
        other_step (book, other, rand);
      cro_test_must (cro_book_refresh (book, NULL, &error), error);
      cro_test_must (cro_book_refresh (other, NULL, &error), error);
      /* The last step may have been a preview. */
      cro_test_must (cro_book_restore (book, &error), error);
      must_be_fresh ("two desks on one book end with the same figures", book);
      must_be_fresh ("two desks on one book end with the same figures, both", other);
      g_object_unref (other);
      stop (&folder, book, rand);
    }
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_acts),
    cmocka_unit_test (test_previews),
    cmocka_unit_test (test_other_desk),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
