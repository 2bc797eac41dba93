/* Another ingredient in the place of one that ten recipes take, in the whole window: what is told, the
 * act, and its undo. */
#include "cro-edit.h"
#include "cro-finder-entry.h"
#include "cro-focus.h"
#include "support/book-window.h"

static guint32
item_of (CroBook    *book,
         const char *name)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_ITEMS, name).slot;
}

static void
test_replaced_and_undone (void **state)
{
  CroTestWindow *test = *state;
  CroBook *book = cro_window_get_book (test->window);
  guint32 butter = item_of (book, "Butter, unsalted");
  g_autofree char *before = cro_test_figures (book);
  g_autofree char *after = NULL, *undone = NULL;
  GtkWidget *dialog, *finder, *done;
  GError *error = NULL;

  cro_window_open_kind (test->window, CRO_KIND_INGREDIENT, butter);
  cro_test_window_see (test);
  gtk_widget_activate_action (cro_test_window_bench (test), "bench.replace", NULL);
  dialog = cro_test_window_find_other (test);
  assert_non_null (dialog);
  finder = cro_test_find_type (dialog, CRO_TYPE_FINDER_ENTRY);
  done = cro_focus_find (dialog, "suggested-action");
  assert_false (gtk_widget_get_sensitive (done));
  g_signal_emit_by_name (finder, "chosen", (int) CRO_KIND_OUTPUT, item_of (book, "Cultured butter"));
  assert_true (gtk_widget_get_sensitive (done));
  assert_non_null (cro_test_find_shown (dialog, "11.72 → 11.79"));
  /* Until it is pressed nothing is kept. */
  after = cro_test_figures (book);
  cro_test_same ("what is told is not kept", before, after);
  g_signal_emit_by_name (done, "clicked");
  cro_test_settle ();
  cro_test_window_see (test);
  assert_null (cro_test_window_find_other (test));
  assert_false (cro_kind_is_used (cro_book_get_figures (book), CRO_KIND_INGREDIENT, butter));
  cro_test_window_focus (test, "a replacement");
  gtk_widget_activate_action (GTK_WIDGET (test->window), "win.undo", NULL);
  cro_test_settle ();
  cro_test_must (cro_book_refresh (book, NULL, &error), error);
  undone = cro_test_figures (book);
  cro_test_same ("undo of a replacement", before, undone);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup_teardown (test_replaced_and_undone, cro_test_window_open_demo,
                                     cro_test_window_close),
  };

  return cro_test_window_run (tests);
}
