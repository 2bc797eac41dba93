/* The picture of a plate in a book: set, undone, copied, dumped and loaded, saved of a damaged book. */
#include <gdk-pixbuf/gdk-pixbuf.h>

#include "cro-add.h"
#include "cro-cards.h"
#include "cro-dump.h"
#include "cro-edit.h"
#include "cro-load.h"
#include "cro-photo.h"
#include "cro-plate-picture.h"
#include "cro-salvage.h"
#include "support/kitchen-book.h"
#include "support/kitchen-tables.h"

static void
remove_all (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        remove_all (path);
      g_remove (path);
    }
}

static int
set_up (void **state)
{
  CroTestKitchen *kitchen = g_new0 (CroTestKitchen, 1);

  kitchen->folder = cro_test_folder_new ();
  cro_test_write_tables (kitchen->folder.folder, NULL, NULL);
  kitchen->book = cro_test_book_load (&kitchen->folder);
  *state = kitchen;
  return 0;
}

static int
tear_down (void **state)
{
  CroTestKitchen *kitchen = *state;

  remove_all (kitchen->folder.folder);
  return cro_test_kitchen_tear_down (state);
}

/* Of one colour, 0xRRGGBB; a longer side is made smaller. */
static GBytes *
make (guint32 colour,
      int     width)
{
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, width, width / 2);
  char *data;
  gsize length;

  gdk_pixbuf_fill (pixbuf, colour << 8);
  assert_true (gdk_pixbuf_save_to_buffer (pixbuf, &data, &length, "jpeg", NULL, NULL));
  return g_bytes_new_take (data, length);
}

static CroRef
plate_of (CroBook    *book,
          const char *name)
{
  return cro_edit_find_name (cro_book_get_model (book), CRO_NAMES_THINGS, name);
}

static char *
kept_name (CroBook *book,
           CroRef   ref)
{
  const char *table;
  gint64 id = cro_edit_row (cro_book_get_model (book), ref, &table);

  return cro_plate_picture_dup_name (book, table, id);
}

static void
set_picture (CroBook *book,
             CroRef   ref,
             GBytes  *file)
{
  GError *error = NULL;

  cro_test_must (cro_edit_set_picture (book, "picture", ref, file, &error), error);
}

static void
is_kept (CroBook    *book,
         CroRef      ref,
         const char *name)
{
  g_autofree char *kept = kept_name (book, ref);
  cairo_surface_t *photo;

  if (g_strcmp0 (kept, name) != 0)
    fail_msg ("kept: %s, not %s", kept, name);
  if (name == NULL)
    return;
  photo = cro_plate_picture_open (book, name, NULL);
  assert_non_null (photo);
  cairo_surface_destroy (photo);
}

static void
no_finding (const char *finding,
            gpointer    user_data)
{
  fail_msg ("%s", finding);
}

static void
is_sound (const char *path)
{
  g_autoptr (CroStore) store = cro_store_open (path, NULL, CRO_STORE_INSPECT, NULL);

  assert_non_null (store);
  assert_true (cro_store_verify (store, no_finding, NULL, NULL));
}

/* --- Set and undone ------------------------------------------------------------------------------- */

static void
test_undo_gives_it_back (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroBook *book = kitchen->book;
  CroRef plate = plate_of (book, "Croustade");
  g_autoptr (GBytes) red = make (0xE00000, 400), large = make (0x0000E0, 3000);
  g_autofree char *first = NULL, *second = NULL;

  is_kept (book, plate, NULL);
  set_picture (book, plate, red);
  first = kept_name (book, plate);
  set_picture (book, plate, large);
  second = kept_name (book, plate);
  assert_string_not_equal (first, second);
  set_picture (book, plate, NULL);
  is_kept (book, plate, NULL);
  assert_true (cro_book_undo (book, NULL, NULL));
  is_kept (book, plate, second);
  assert_true (cro_book_undo (book, NULL, NULL));
  is_kept (book, plate, first);
  assert_true (cro_book_undo (book, NULL, NULL));
  is_kept (book, plate, NULL);
  for (int i = 0; i < 2; i++)
    assert_true (cro_book_redo (book, NULL, NULL));
  is_kept (book, plate, second);
  is_sound (kitchen->folder.path);
}

static void
test_the_same_again_is_kept_once (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autoptr (GBytes) red = make (0xE00000, 400);
  gint64 n;
  sqlite3 *db;
  sqlite3_stmt *stmt;

  set_picture (kitchen->book, plate_of (kitchen->book, "Croustade"), red);
  set_picture (kitchen->book, plate_of (kitchen->book, "Tartlet"), red);
  set_picture (kitchen->book,
               cro_edit_find_name (cro_book_get_model (kitchen->book), CRO_NAMES_PREPARATIONS, "Gel"), red);
  db = cro_test_raw (kitchen->folder.path);
  assert_int_equal (sqlite3_prepare_v2 (db, "SELECT count (*) FROM picture", -1, &stmt, NULL), SQLITE_OK);
  assert_int_equal (sqlite3_step (stmt), SQLITE_ROW);
  n = sqlite3_column_int64 (stmt, 0);
  sqlite3_finalize (stmt);
  sqlite3_close (db);
  assert_int_equal (n, 1);
}

/* What is no picture changes nothing, nor does one in a trial. */
static void
test_what_is_refused (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroRef plate = plate_of (kitchen->book, "Croustade");
  g_autoptr (GBytes) words = g_bytes_new_static ("samphire", 8), red = make (0xE00000, 40);
  g_autoptr (GError) error = NULL;
  CroBook *trial;

  assert_false (cro_edit_set_picture (kitchen->book, "picture", plate, words, &error));
  assert_true (g_error_matches (error, CRO_PHOTO_ERROR, CRO_PHOTO_ERROR_KIND));
  is_kept (kitchen->book, plate, NULL);
  g_clear_error (&error);
  trial = cro_book_open_trial (kitchen->book, NULL);
  assert_false (cro_edit_set_picture (trial, "picture", plate, red, &error));
  assert_true (g_error_matches (error, CRO_BOOK_ERROR, CRO_BOOK_ERROR_TRIAL));
  g_object_unref (trial);
}

/* A copy of a plate has its picture by the same name, a trial shows it, and so has what a plate becomes. */
static void
test_it_goes_along (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroRef plate = plate_of (kitchen->book, "Tartlet");
  g_autoptr (GBytes) red = make (0xE00000, 40);
  g_autofree char *name = NULL;
  CroBook *trial;
  CroRef copy;
  guint32 recipe;
  GError *error = NULL;

  set_picture (kitchen->book, plate, red);
  name = kept_name (kitchen->book, plate);
  cro_test_must (cro_edit_duplicate (kitchen->book, "copy", plate, "Tartlet, smaller", &copy, &error), error);
  is_kept (kitchen->book, copy, name);
  trial = cro_book_open_trial (kitchen->book, &error);
  cro_test_must (trial != NULL, error);
  is_kept (trial, plate_of (trial, "Tartlet"), name);
  g_object_unref (trial);
  cro_test_must (cro_edit_plate_become_preparation (kitchen->book, "become", plate.slot, NULL, &recipe,
                                                    &error), error);
  is_kept (kitchen->book, CRO_REF (CRO_REF_RECIPE, recipe), name);
}

/* --- Dumped and loaded ---------------------------------------------------------------------------- */

static void
dump (CroTestKitchen *kitchen,
      const char     *path,
      const char     *folder)
{
  g_autoptr (CroStore) store = cro_store_open (path, NULL, CRO_STORE_READ, NULL);
  GError *error = NULL;

  cro_test_must (cro_dump (store, folder, NULL, NULL, &error), error);
}

static char *
load (const char *path,
      const char *folder,
      gboolean    replace)
{
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GError) error = NULL;

  if (cro_load (path, folder, "cook", "load", replace, NULL, NULL, faults, &error))
    return NULL;
  return cro_faults_get_n (faults) > 0 ? cro_test_faults (faults) : g_strdup (error->message);
}

static void
same_file (const char *a,
           const char *b,
           const char *name)
{
  g_autofree char *first = g_build_filename (a, "pictures", name, NULL);
  g_autofree char *second = g_build_filename (b, "pictures", name, NULL);
  g_autofree char *one = NULL, *other = NULL;
  gsize n, m;

  assert_true (g_file_get_contents (first, &one, &n, NULL));
  assert_true (g_file_get_contents (second, &other, &m, NULL));
  assert_int_equal (n, m);
  assert_memory_equal (one, other, n);
}

static void
test_a_dump_loads_as_it_was (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroRef plate = plate_of (kitchen->book, "Croustade");
  g_autofree char *dumped = g_build_filename (kitchen->folder.folder, "dumped", NULL);
  g_autofree char *again = g_build_filename (kitchen->folder.folder, "again", NULL);
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "other.croustade", NULL);
  g_autoptr (GBytes) large = make (0x00C000, 3000);
  g_autofree char *name = NULL, *before = NULL, *after = NULL, *file = NULL;

  set_picture (kitchen->book, plate, large);
  name = kept_name (kitchen->book, plate);
  dump (kitchen, kitchen->folder.path, dumped);
  assert_null (load (path, dumped, FALSE));
  is_sound (path);
  /* Into a folder that is there already, too. */
  dump (kitchen, path, again);
  dump (kitchen, path, again);
  before = cro_test_folder_text (dumped);
  after = cro_test_folder_text (again);
  assert_string_equal (before, after);
  assert_non_null (strstr (before, name));
  same_file (dumped, again, name);
  /* The same tables over the same book change nothing; without the file they are at fault. */
  assert_null (load (path, dumped, TRUE));
  file = g_build_filename (dumped, "pictures", name, NULL);
  assert_int_equal (g_remove (file), 0);
  g_free (after);
  after = load (path, dumped, TRUE);
  assert_non_null (strstr (after, "plates.csv:2:picture no picture ["));
}

static const struct
{
  const char *says;
  const char *named;      /* by the plate */
  const char *file;       /* that is there; NULL: none */
  const char *holds;      /* NULL: a picture */
  const char *fault;      /* NULL: none */
} folders[] = {
  { "a picture", "crab.jpg", "crab.jpg", NULL, NULL },
  { "a name that says nothing of its kind", "crab", "crab", NULL, NULL },
  { "no file", "crab.jpg", NULL, NULL, "no picture [crab.jpg]" },
  { "a file above", "../plates.csv", NULL, NULL, "no picture [../plates.csv]" },
  { "a file anywhere", "/etc/hostname", NULL, NULL, "no picture [/etc/hostname]" },
  { "a hidden one", ".crab.jpg", ".crab.jpg", NULL, "no picture [.crab.jpg]" },
  { "words", "crab.jpg", "crab.jpg", "samphire", "not a picture [crab.jpg]" },
  { "nothing", "crab.jpg", "crab.jpg", "", "not a picture [crab.jpg]" },
  { "a damaged picture", "crab.jpg", "crab.jpg", "\377\330\377\340", "broken picture [crab.jpg]" },
  { "a hostile one", "crab.png", "crab.png",
    "\211PNG\r\n\032\n" "aaaaIHDR\177\177\177\177\177\177\177\177aaaaaaaaa", "large picture [crab.png]" },
};

static void
test_faults_of_a_folder (void **state)
{
  CroTestKitchen *kitchen = *state;
  g_autofree char *folder = g_build_filename (kitchen->folder.folder, "tables", NULL);
  g_autofree char *pictures = g_build_filename (folder, "pictures", NULL);
  g_autofree char *path = g_build_filename (kitchen->folder.folder, "other.croustade", NULL);
  g_autoptr (GBytes) red = make (0xE00000, 40);

  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autofree char *plates = g_strdup_printf ("name,makes,price,picture\nCroustade,24,5,%s\nTartlet,10,,\n",
                                                 folders[i].named);
      g_autofree char *faults = NULL;

      g_mkdir_with_parents (pictures, 0777);
      cro_test_write_tables (folder, "plates", plates);
      if (folders[i].file != NULL)
        {
          g_autofree char *file = g_build_filename (pictures, folders[i].file, NULL);
          gsize length;
          const char *data = g_bytes_get_data (red, &length);

          assert_true (folders[i].holds != NULL
                           ? g_file_set_contents (file, folders[i].holds, -1, NULL)
                           : g_file_set_contents (file, data, (gssize) length, NULL));
        }
      faults = load (path, folder, FALSE);
      if ((faults == NULL) != (folders[i].fault == NULL)
          || (faults != NULL && strstr (faults, folders[i].fault) == NULL))
        fail_msg ("%s: %s", folders[i].says, faults);
      if (faults == NULL)
        is_sound (path);
      g_remove (path);
      remove_all (folder);
    }
}

/* Rows that say nothing of it keep it. */
static void
test_added_rows_keep_it (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroRef plate = plate_of (kitchen->book, "Croustade");
  g_autofree char *folder = g_build_filename (kitchen->folder.folder, "added", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (GBytes) red = make (0xE00000, 40);
  g_autofree char *name = NULL;
  g_autoptr (CroAdded) added = NULL;
  GError *error = NULL;

  set_picture (kitchen->book, plate, red);
  name = kept_name (kitchen->book, plate);
  g_mkdir (folder, 0777);
  cro_test_write_table (folder, "plates", "name,makes\nCroustade,30\n");
  added = cro_add (kitchen->folder.path, folder, "cook", "add", 0, NULL, NULL, faults, &error);
  cro_test_must (added != NULL, error);
  cro_test_must (cro_book_refresh (kitchen->book, NULL, &error), error);
  is_kept (kitchen->book, plate, name);
}

/* --- As it stood, and what is left of it ------------------------------------------------------------ */

static void
write_raw (const char *path,
           const char *sql)
{
  sqlite3 *db = cro_test_raw (path);

  cro_test_sql (db, "PRAGMA foreign_keys = OFF; PRAGMA ignore_check_constraints = ON");
  cro_test_sql (db, sql);
  sqlite3_close (db);
}

static void
count_finding (const char *finding,
               gpointer    user_data)
{
  if (strstr (finding, "picture") != NULL)
    ++*(int *) user_data;
}

/* A stranger's book may hold other bytes than the name of a picture says: it is found, not shown and not
 * written to any file; the rest of the book is saved. */
static void
test_a_picture_that_is_another (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroRef plate = plate_of (kitchen->book, "Croustade");
  g_autofree char *dumped = g_build_filename (kitchen->folder.folder, "dumped", NULL);
  g_autofree char *saved = g_build_filename (kitchen->folder.folder, "saved", NULL);
  g_autofree char *name = NULL, *tables = NULL;
  g_autoptr (GBytes) red = make (0xE00000, 40);
  g_autoptr (CroStore) store = NULL;
  g_autoptr (CroSalvage) salvage = NULL;
  g_autoptr (GError) error = NULL;
  int n = 0;

  set_picture (kitchen->book, plate, red);
  name = kept_name (kitchen->book, plate);
  salvage = cro_salvage (kitchen->folder.path, saved, NULL, NULL, NULL);
  assert_int_equal (salvage->left_out->len, 0);
  tables = cro_test_folder_text (saved);
  assert_non_null (strstr (tables, name));
  dump (kitchen, kitchen->folder.path, dumped);
  same_file (saved, dumped, name);
  cro_salvage_free (g_steal_pointer (&salvage));
  remove_all (saved);

  write_raw (kitchen->folder.path, "UPDATE picture SET data = x'ffd8ff00'");
  assert_null (cro_plate_picture_open (kitchen->book, name, &error));
  assert_true (g_error_matches (error, CRO_STORE_ERROR, CRO_STORE_ERROR_DAMAGED));
  store = cro_store_open (kitchen->folder.path, NULL, CRO_STORE_INSPECT, NULL);
  assert_true (cro_store_verify (store, count_finding, &n, NULL));
  assert_int_equal (n, 1);
  assert_false (cro_dump (store, dumped, NULL, NULL, NULL));
  salvage = cro_salvage (kitchen->folder.path, saved, NULL, NULL, NULL);
  assert_int_equal (salvage->left_out->len, 1);
  g_free (tables);
  tables = cro_test_folder_text (saved);
  assert_null (strstr (tables, name));
  assert_non_null (strstr (tables, "Croustade,,24"));
}

/* --- On a card -------------------------------------------------------------------------------------- */

static void
paint (CroPaper *paper,
       double    x,
       double    y,
       guint32  *pixel)
{
  double margin = cro_paper_a4.margin;
  cairo_surface_t *page = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 596, 842);
  cairo_t *cairo = cairo_create (page);

  cro_paper_set_out (paper, cro_paper_a4.width - 2 * margin, cro_paper_a4.height - 2 * margin);
  cairo_set_source_rgb (cairo, 1, 1, 1);
  cairo_paint (cairo);
  cairo_translate (cairo, margin, margin);
  cro_paper_draw (paper, 0, cairo);
  cairo_destroy (cairo);
  cairo_surface_flush (page);
  memcpy (pixel, cairo_image_surface_get_data (page)
                     + (int) (margin + y) * cairo_image_surface_get_stride (page)
                     + 4 * (int) (margin + x), sizeof *pixel);
  cairo_surface_destroy (page);
}

/* 60 mm at the end of the line: at the right, or the left from right to left. */
static void
test_it_stands_on_cards (void **state)
{
  CroTestKitchen *kitchen = *state;
  CroRef plate = plate_of (kitchen->book, "Croustade");
  double end = cro_paper_a4.width - 2 * cro_paper_a4.margin - 20;
  g_autoptr (GBytes) red = make (0xE00000, 400);

  set_picture (kitchen->book, plate, red);
  for (int i = 0; i < 4; i++)
    {
      const CroCardWish wish = { .is_kitchen = i % 2 == 1, .is_rtl = i >= 2, .size = &cro_paper_a4 };
      g_autoptr (CroPaper) paper = cro_card_paper (kitchen->book, plate, &wish, NULL);
      guint32 there, elsewhere;

      paint (paper, wish.is_rtl ? 20 : end, 70, &there);
      paint (paper, wish.is_rtl ? end : 20, 115, &elsewhere);
      if ((there >> 16 & 255) < 200 || (there & 255) > 60)
        fail_msg ("card %d: %06x", i, there & 0xFFFFFF);
      if ((elsewhere >> 16 & 255) > 200 && (elsewhere & 255) < 60)
        fail_msg ("card %d: the picture is everywhere", i);
    }
}

int
main (void)
{
#define CASE(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)
  const struct CMUnitTest tests[] = {
    CASE (test_undo_gives_it_back),
    CASE (test_the_same_again_is_kept_once),
    CASE (test_what_is_refused),
    CASE (test_it_goes_along),
    CASE (test_a_dump_loads_as_it_was),
    CASE (test_faults_of_a_folder),
    CASE (test_added_rows_keep_it),
    CASE (test_a_picture_that_is_another),
    CASE (test_it_stands_on_cards),
  };

  return cmocka_run_group_tests_name ("pictures in a book", tests, NULL, NULL);
}
