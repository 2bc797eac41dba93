/* The picture of a plate in the window: by its path as a drop hands it on, from the clipboard, refused,
 * removed and undone. */
#include "support/bench-hands.h"

#include "cro-plate-bench.h"
#include "cro-preparation-bench.h"

/* Of one colour; owned. */
static GdkPixbuf *
make (guint32 rgba)
{
  GdkPixbuf *pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 400, 300);

  gdk_pixbuf_fill (pixbuf, rgba);
  return pixbuf;
}

/* Owned. */
static char *
write_picture (CroTestBench *test,
               const char   *file,
               guint32       rgba)
{
  char *path = g_build_filename (test->folder.folder, file, NULL);
  g_autoptr (GdkPixbuf) pixbuf = make (rgba);

  assert_true (gdk_pixbuf_save (pixbuf, path, "jpeg", NULL, NULL));
  return path;
}

static char *
stored (CroTestBench *test,
        const char   *table)
{
  CroRef ref = cro_bench_get_ref (test->bench);

  return cro_test_stored (test, table, cro_model_recipe (model_of (test), ref.slot)->id, "picture");
}

static gboolean
is_stored (CroTestBench *test,
           const char   *table,
           gboolean      is_set,
           const char   *other)
{
  g_autofree char *name = stored (test, table);

  return (name != NULL) == is_set && (other == NULL || g_strcmp0 (name, other) != 0);
}

/* Work in a thread ends when it ends. other: what it must not be any more. */
static void
wait_stored (CroTestBench *test,
             const char   *table,
             gboolean      is_set,
             const char   *other)
{
  cro_test_wait_until (is_stored (test, table, is_set, other), "the picture of the %s is not %s", table,
                       is_set ? "set" : "gone");
  cro_test_settle ();
}

static void
drop (CroTestBench *test,
      const char   *path)
{
  assert_true (gtk_widget_activate_action (GTK_WIDGET (test->bench), "picture.take", "s", path));
}

static void
wait_said (CroTestBench *test,
           const char   *text)
{
  cro_test_wait_until (strstr (test->said->str, text) != NULL, "said: %s", test->said->str);
}

static void
show_croustade (CroTestBench *test)
{
  cro_test_bench_show (test, CRO_TYPE_PLATE_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_THINGS, "Crab croustade"));
}

static void
test_dropped_replaced_removed_undone (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *red = write_picture (test, "red.jpg", 0xE00000FF);
  g_autofree char *green = write_picture (test, "green.JPEG", 0x00C000FF);
  g_autofree char *first = NULL, *second = NULL, *last = NULL;

  show_croustade (test);
  drop (test, red);
  wait_stored (test, "plate", TRUE, NULL);
  first = stored (test, "plate");
  assert_true (gtk_widget_get_mapped (named (test, "Picture of Crab croustade")));
  assert_true (gtk_widget_get_mapped (named (test, "Replace Picture…")));
  drop (test, green);
  wait_stored (test, "plate", TRUE, first);
  second = stored (test, "plate");
  press (test, "Remove Picture");
  wait_stored (test, "plate", FALSE, NULL);
  assert_true (cro_book_undo (test->book, NULL, NULL));
  cro_test_settle ();
  last = stored (test, "plate");
  assert_string_equal (last, second);
  assert_true (gtk_widget_get_mapped (named (test, "Picture of Crab croustade")));
}

static void
test_pasted (void **state)
{
  CroTestBench *test = *state;
  GdkClipboard *clipboard;
  g_autoptr (GdkPixbuf) pixbuf = make (0x0000E0FF);
  g_autoptr (GdkTexture) texture = gdk_texture_new_for_pixbuf (pixbuf);

  cro_test_bench_show (test, CRO_TYPE_PREPARATION_BENCH,
                       cro_test_find_ref (test, CRO_NAMES_PREPARATIONS, "Crab butter"));
  clipboard = gtk_widget_get_clipboard (GTK_WIDGET (test->bench));
  gdk_clipboard_set_text (clipboard, "samphire");
  press (test, "Paste Picture");
  wait_said (test, "There is no picture to paste.");
  gdk_clipboard_set_texture (clipboard, texture);
  press (test, "Paste Picture");
  wait_stored (test, "preparation", TRUE, NULL);
  assert_true (gtk_widget_get_mapped (named (test, "Picture of Crab butter")));
}

static void
test_refused (void **state)
{
  CroTestBench *test = *state;
  g_autofree char *words = g_build_filename (test->folder.folder, "soup.jpg", NULL);
  g_autofree char *none = g_build_filename (test->folder.folder, "none.jpg", NULL);

  show_croustade (test);
  assert_true (g_file_set_contents (words, "samphire", -1, NULL));
  drop (test, words);
  wait_said (test, "The picture was not taken: “soup.jpg” is neither a JPEG nor a PNG picture.");
  drop (test, none);
  wait_said (test, "here is no such file or folder");
  wait_stored (test, "plate", FALSE, NULL);
}

/* Under "More", where there is none yet. */
static void
test_a_button_in_sight (void **state)
{
  CroTestBench *test = *state;

  show_croustade (test);
  assert_null (cro_test_find_shown (GTK_WIDGET (test->bench), "Choose Picture…"));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (named (test, "More")), TRUE);
  cro_test_settle ();
  assert_true (gtk_widget_get_mapped (named (test, "Choose Picture…")));
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, open_book, close_book)
  const struct CMUnitTest tests[] = {
    CASE (test_dropped_replaced_removed_undone),
    CASE (test_pasted),
    CASE (test_refused),
    CASE (test_a_button_in_sight),
  };

  cro_test_bench_init ();
  return cmocka_run_group_tests_name ("pictures in the window", tests, NULL, NULL);
}
