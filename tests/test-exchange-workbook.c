/* Names of sheets and cells, formulas, text that stays text, and a file that is whole or not there.
 *
 * What the workbook computes is held against two spreadsheet programs in workbook/. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cro-defined-name.h"
#include "cro-formula.h"
#include "cro-package-close.h"
#include "cro-package-numbers.h"
#include "cro-package.h"
#include "cro-sheet-name.h"
#include "cro-whole-file.h"
#include "cro-workbook-private.h"
#include "cro-workbook.h"

#include <archive.h>
#include <archive_entry.h>
#include <errno.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* --- Names of sheets ------------------------------------------------------------------------------ */

static const struct
{
  const char *says;
  const char *wanted[3];
  const char *name;      /* of the last */
} sheet_names[] = {
  { "a plain name stays", { "Crab croustade" }, "Crab croustade" },
  { "what no sheet may hold becomes a space", { "a[b]c:d*e?f/g\\h#i" }, "a b c d e f g h i" },
  { "an apostrophe becomes the typographic one", { "Ewe's" }, "Ewe’s" },
  { "spaces at the ends go", { "  Toast  " }, "Toast" },
  { "31 units fit", { "1234567890123456789012345678901" }, "1234567890123456789012345678901" },
  { "the 32nd is cut", { "12345678901234567890123456789012" }, "1234567890123456789012345678901" },
  { "a letter beyond the first plane counts twice", { "123456789012345678901234567890𝔸" },
    "123456789012345678901234567890" },
  { "a mark is not parted from its letter", { "123456789012345678901234567890e\u0301" },
    "123456789012345678901234567890" },
  { "the same name again is numbered", { "Toast", "Toast" }, "Toast (2)" },
  { "case does not tell two names apart", { "toast", "TOAST" }, "TOAST (2)" },
  { "nor does the way an accent is written", { "cre\u0300me", "cr\u00e8me" }, "cr\u00e8me (2)" },
  { "a number at the end keeps to 31",
    { "1234567890123456789012345678901", "1234567890123456789012345678901" },
    "123456789012345678901234567 (2)" },
  { "the third is 3", { "Toast", "Toast", "Toast" }, "Toast (3)" },
  { "nothing is left of a name of forbidden signs", { "[?]" }, "–" },
  { "some programs keep History for themselves", { "History" }, "History (2)" },
  { "other scripts stay", { "牡蠣と胡瓜" }, "牡蠣と胡瓜" },
};

static void
test_sheet_names (void **state)
{
  for (guint i = 0; i < G_N_ELEMENTS (sheet_names); i++)
    {
      g_autoptr (CroSheetNames) names = cro_sheet_names_new ();
      const char *name = NULL;

      for (guint k = 0; k < 3 && sheet_names[i].wanted[k] != NULL; k++)
        name = cro_sheet_names_take (names, sheet_names[i].wanted[k]);
      if (g_strcmp0 (name, sheet_names[i].name) != 0)
        fail_msg ("%s: %s", sheet_names[i].says, name);
    }
}

static void
test_sheet_name_in_a_formula (void **state)
{
  g_autofree char *plain = cro_sheet_name_quote ("Control totals");
  g_autofree char *doubled = cro_sheet_name_quote ("Ewe's");

  assert_string_equal (plain, "'Control totals'!");
  assert_string_equal (doubled, "'Ewe''s'!");
}

/* --- Names of cells ------------------------------------------------------------------------------- */

static const struct
{
  const char *says;
  const char *name;
  const char *made;
} cell_names[] = {
  { "spaces become underscores", "Crab croustade", "bite_Crab_croustade" },
  { "letters of any script stay", "Crème brûlée", "bite_Crème_brûlée" },
  { "where nothing is lost there is no mark", "a", "bite_a" },
};

static void
test_cell_names (void **state)
{
  for (guint i = 0; i < G_N_ELEMENTS (cell_names); i++)
    {
      g_autofree char *made = cro_defined_name_make ("bite", cell_names[i].name);

      if (strcmp (made, cell_names[i].made) != 0)
        fail_msg ("%s: %s", cell_names[i].says, made);
    }
}

/* Published vectors of FNV-1a, 32 bits (Noll; from memory): "" 811c9dc5, "a" e40c292c,
 * "foobar" bf9cf968. */
static void
test_marks_are_fnv1a (void **state)
{
  g_autofree char *of_a = cro_defined_name_mark ("bite", "a");
  g_autofree char *of_foobar = cro_defined_name_mark ("bite", "foobar");

  assert_string_equal (of_a, "bite_a_e40c292c");
  assert_string_equal (of_foobar, "bite_foobar_bf9cf968");
}

static void
test_names_that_lose_something_differ (void **state)
{
  g_autofree char *dash = cro_defined_name_make ("bite", "a-b");
  g_autofree char *underscore = cro_defined_name_make ("bite", "a_b");
  g_autofree char *space = cro_defined_name_make ("bite", "a b");
  g_autofree char *spaces = cro_defined_name_make ("bite", "a  b");
  g_autofree char *name = g_strnfill (5000, 'x');
  g_autofree char *long_name = cro_defined_name_make ("bite", name);

  assert_string_not_equal (dash, underscore);
  assert_string_not_equal (dash, space);
  assert_string_not_equal (spaces, space);
  /* The library keeps 127 bytes. */
  assert_true (strlen (long_name) <= 127);
}

/* --- Formulas --------------------------------------------------------------------------------------- */

static void
test_formulas (void **state)
{
  CroFormula formula;
  CroPlace places[] = { { "'Units'!", "$C$", 7 }, { NULL, "D", 1048576 } };

  assert_string_equal (cro_formula_set (&formula, "=B#*D#", 12, 0, 0, NULL), "=B12*D12");
  assert_string_equal (cro_formula_set (&formula, "=SUM(L{:L})", 1, 10, 200, NULL),
                       "=SUM(L10:L200)");
  assert_string_equal (cro_formula_set (&formula, "=@/@", 1, 0, 0, places),
                       "='Units'!$C$7/D1048576");
  assert_string_equal (cro_formula_set_place (&formula, &(CroPlace){ "'A b'!", "I", 3 }),
                       "='A b'!$I$3");
}

/* --- Whole files ------------------------------------------------------------------------------------- */

typedef struct
{
  char *folder;
  char *path;
} Place;

static int
make_place (void **state)
{
  Place *place = g_new (Place, 1);

  place->folder = g_dir_make_tmp ("croustade-XXXXXX", NULL);
  place->path = g_build_filename (place->folder, "office.xlsx", NULL);
  *state = place;
  return 0;
}

static guint
n_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static int
remove_place (void **state)
{
  Place *place = *state;
  g_autoptr (GDir) dir = g_dir_open (place->folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (place->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (place->folder);
  g_free (place->path);
  g_free (place->folder);
  g_free (place);
  return 0;
}

static void
put (const char *path,
     const char *text)
{
  assert_true (g_file_set_contents (path, text, -1, NULL));
}

static void
assert_holds (const char *path,
              const char *text)
{
  g_autofree char *found = NULL;

  assert_true (g_file_get_contents (path, &found, NULL, NULL));
  assert_string_equal (found, text);
}

static void
test_an_unfinished_file_leaves_the_old_one (void **state)
{
  Place *place = *state;
  CroWholeFile *file;

  put (place->path, "old");
  file = cro_whole_file_new (place->path, NULL);
  put (cro_whole_file_get_path (file), "half");
  assert_holds (place->path, "old");
  cro_whole_file_free (file);
  assert_holds (place->path, "old");
  assert_int_equal (n_files (place->folder), 1);
}

static void
test_a_finished_file_takes_its_place_and_mode (void **state)
{
  Place *place = *state;
  g_autoptr (CroWholeFile) file = NULL;
  struct stat there;

  put (place->path, "old");
  assert_int_equal (g_chmod (place->path, 0640), 0);
  file = cro_whole_file_new (place->path, NULL);
  {
    /* As the library does: the file that stands there is opened and written. */
    FILE *stream = g_fopen (cro_whole_file_get_path (file), "wb");

    fputs ("whole", stream);
    fclose (stream);
  }
  assert_true (cro_whole_file_finish (file, NULL));
  assert_holds (place->path, "whole");
  assert_int_equal (stat (place->path, &there), 0);
  assert_int_equal (there.st_mode & 07777, 0640);
  assert_int_equal (n_files (place->folder), 1);
}

static void
test_a_link_is_followed (void **state)
{
  Place *place = *state;
  g_autofree char *link = g_build_filename (place->folder, "link.xlsx", NULL);
  g_autoptr (CroWholeFile) file = NULL;

  put (place->path, "old");
  assert_int_equal (symlink (place->path, link), 0);
  file = cro_whole_file_new (link, NULL);
  put (cro_whole_file_get_path (file), "whole");
  assert_true (cro_whole_file_finish (file, NULL));
  assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  assert_holds (place->path, "whole");
}

static void
test_what_is_no_file_is_refused (void **state)
{
  Place *place = *state;
  g_autofree char *nowhere = g_build_filename (place->folder, "no", "such.xlsx", NULL);
  g_autoptr (GError) error = NULL, gone = NULL;

  assert_null (cro_whole_file_new (place->folder, &error));
  assert_true (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_ISDIR));
  assert_null (cro_whole_file_new (nowhere, &gone));
  assert_true (g_error_matches (gone, G_FILE_ERROR, G_FILE_ERROR_NOENT));
  g_clear_error (&error);
  put (place->path, "\177ELF\002");
  assert_null (cro_whole_file_new (place->path, &error));
  assert_true (g_error_matches (error, CRO_WHOLE_FILE_ERROR, CRO_WHOLE_FILE_ERROR_PROGRAM));
  /* Nor what a database writes beside itself before it is the database's. */
  assert_true (g_file_set_contents (place->path, "SQLite format 3", sizeof "SQLite format 3", NULL));
  for (int i = 0; i < 3; i++)
    {
      g_autofree char *log = g_strconcat (place->path, i == 0 ? "-wal" : i == 1 ? "-shm" : "-journal", NULL);

      g_clear_error (&error);
      assert_null (cro_whole_file_new (log, &error));
      assert_true (g_error_matches (error, CRO_WHOLE_FILE_ERROR, CRO_WHOLE_FILE_ERROR_DATABASE));
    }
}

/* --- A small workbook ---------------------------------------------------------------------------------- */

static const char *longest;   /* a name of more than a cell holds */
static guint       n_asked;

static void
get_ingredient (gpointer               data,
                guint32                index,
                CroWorkbookIngredient *ingredient)
{
  static const char *const names[] = { "=1+1", "00712" };

  *ingredient = (CroWorkbookIngredient){
    .name = index < 2 ? names[index] : longest, .density = NAN, .piece = NAN, .trim = NAN,
    .used = CRO_WORKBOOK_NONE,
  };
}

static char *
say_nothing (gpointer         data,
             CroWorkbookKind  kind,
             guint32          index)
{
  return NULL;
}

static char *
say_none (gpointer         data,
          CroWorkbookKind  kind,
          guint32          index)
{
  return g_strdup ("none");
}

static gboolean
stop_at_once (gpointer data,
              double   done)
{
  n_asked++;
  return FALSE;
}

static const CroWorkbookSource small = {
  .book = { .name = "A & B", .digits = 2, .wage = NAN, .tax = NAN, .target = NAN },
  .n_ingredients = 3,
  .get_ingredient = get_ingredient,
  .dup_missing = say_nothing,
  .dup_allergens = say_none,
};

static gboolean
write_small (const char               *path,
             const CroWorkbookSource  *source,
             GError                  **error)
{
  const char *texts[CRO_N_WORKBOOK_TEXTS];
  g_autofree char *name = g_strnfill (40000, 'y');

  for (int i = 0; i < CRO_N_WORKBOOK_TEXTS; i++)
    texts[i] = i == CRO_WT_INGREDIENTS ? "Ingredients" : "word";
  longest = name;
  return cro_workbook_write (path, source, texts, error);
}

/* The part of a package of that name; owned. */
static char *
dup_part (const char *path,
          const char *wanted)
{
  struct archive *package = archive_read_new ();
  struct archive_entry *part;
  char *text = NULL;

  archive_read_support_format_zip (package);
  assert_int_equal (archive_read_open_filename (package, path, 4096), ARCHIVE_OK);
  while (text == NULL && archive_read_next_header (package, &part) == ARCHIVE_OK)
    if (strcmp (archive_entry_pathname (part), wanted) == 0)
      {
        gsize size = (gsize) archive_entry_size (part);

        text = g_malloc0 (size + 1);
        assert_int_equal (archive_read_data (package, text, size), size);
      }
  archive_read_free (package);
  return text;
}

static void
test_text_stays_text (void **state)
{
  Place *place = *state;
  g_autofree char *sheet = NULL;
  const char *y, *end;

  assert_true (write_small (place->path, &small, NULL));
  /* Summary, Preparations, Ingredients: there are no cards between. */
  sheet = dup_part (place->path, "xl/worksheets/sheet3.xml");
  assert_non_null (sheet);
  assert_non_null (strstr (sheet, "<t>=1+1</t>"));
  assert_null (strstr (sheet, "<f>1+1</f>"));
  assert_non_null (strstr (sheet, "<t>00712</t>"));
  y = strstr (sheet, "<t>yyy");
  assert_non_null (y);
  end = strstr (y, "…</t>");
  /* 32,767 characters with the mark that it was cut (Microsoft, Excel specifications and limits). */
  assert_non_null (end);
  assert_int_equal (end - (y + 3), 32766);
}

static void
test_a_cancelled_workbook_leaves_the_old_one (void **state)
{
  Place *place = *state;
  CroWorkbookSource source = small;
  g_autoptr (GError) error = NULL;

  put (place->path, "old");
  source.go_on = stop_at_once;
  n_asked = 0;
  assert_false (write_small (place->path, &source, &error));
  assert_true (g_error_matches (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_CANCELLED));
  assert_true (n_asked > 0);
  assert_holds (place->path, "old");
  assert_int_equal (n_files (place->folder), 1);
}

static void
test_too_many_rows_are_refused (void **state)
{
  Place *place = *state;
  CroWorkbookSource source = small;
  g_autoptr (GError) error = NULL;

  put (place->path, "old");
  source.n_ingredients = 1048576;
  assert_false (write_small (place->path, &source, &error));
  assert_true (g_error_matches (error, CRO_WORKBOOK_ERROR, CRO_WORKBOOK_ERROR_ROWS));
  assert_string_equal (error->message, "Ingredients");
  assert_holds (place->path, "old");
}

/* --- What came out whole -------------------------------------------------------------------------------- */

static void
pack_part (const char *path,
           const char *name,
           const char *text)
{
  struct archive *package = archive_write_new ();
  struct archive_entry *part = archive_entry_new ();

  archive_write_set_format_zip (package);
  assert_int_equal (archive_write_open_filename (package, path), ARCHIVE_OK);
  archive_entry_set_pathname (part, name);
  archive_entry_set_size (part, (la_int64_t) strlen (text));
  archive_entry_set_filetype (part, AE_IFREG);
  assert_int_equal (archive_write_header (package, part), ARCHIVE_OK);
  assert_int_equal (archive_write_data (package, text, strlen (text)), strlen (text));
  archive_entry_free (part);
  assert_int_equal (archive_write_close (package), ARCHIVE_OK);
  archive_write_free (package);
}

static const struct
{
  const char *says;
  const char *text;
  gboolean    whole;
} parts[] = {
  { "a part that closes its root is whole", "<?xml version=\"1.0\"?>\n<a b=\"c\"><d/></a>\n", TRUE },
  { "one that ends after a row is not", "<?xml version=\"1.0\"?>\n<a><row></row>", FALSE },
  { "one that ends within a tag is not", "<?xml version=\"1.0\"?>\n<a><ro", FALSE },
  { "an empty one is not", "", FALSE },
};

static void
test_packages_cut_short_are_found (void **state)
{
  Place *place = *state;
  const guint64 none = 0;

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      pack_part (place->path, "xl/workbook.xml", parts[i].text);
      if (cro_package_is_whole (place->path, &none, 1) != parts[i].whole)
        fail_msg ("%s", parts[i].says);
    }
}

static void
test_a_sheet_smaller_than_its_rows_is_found (void **state)
{
  Place *place = *state;
  g_autofree char *rows = g_strnfill (400000, ' ');
  g_autofree char *sheet = g_strconcat ("<worksheet>", rows, "</worksheet>", NULL);
  const guint64 fewer = 390000, as_many = 400000;

  pack_part (place->path, "xl/worksheets/sheet1.xml", sheet);
  assert_true (cro_package_is_whole (place->path, &fewer, 1));
  assert_false (cro_package_is_whole (place->path, &as_many, 1));
}

#define IN_A_PLACE(test) cmocka_unit_test_setup_teardown (test, make_place, remove_place)

/* With what every sheet has around its rows. */
static lxw_worksheet *
add_sheet (lxw_workbook *book)
{
  lxw_worksheet *sheet = cro_package_add_sheet (book, "Tides", "Tides!");

  worksheet_set_paper (sheet, 9);
  worksheet_set_margins (sheet, 0.5, 0.5, 0.6, 0.7);
  worksheet_freeze_panes (sheet, 1, 0);
  worksheet_set_footer (sheet, "&LTides&R&P / &N");
  return sheet;
}

/* What is said on standard error while nothing can be written to path. */
static char *
close_package (const char  *path,
               GError     **error)
{
  lxw_workbook_options options = { .constant_memory = LXW_TRUE };
  lxw_workbook *book = workbook_new_opt (path, &options);
  g_autofree char *said = g_build_filename (g_get_tmp_dir (), "said-XXXXXX", NULL);
  int file = g_mkstemp (said), before = dup (STDERR_FILENO);
  char *text;

  worksheet_write_number (add_sheet (book), 0, 0, 7, NULL);
  dup2 (file, STDERR_FILENO);
  assert_false (cro_package_close (book, path, error));
  fflush (stderr);
  dup2 (before, STDERR_FILENO);
  close (before);
  close (file);
  assert_true (g_file_get_contents (said, &text, NULL, NULL));
  g_unlink (said);
  return text;
}

static void
test_a_full_disk_is_told_by_nobody_else (void **state)
{
  GError *error = NULL;
  g_autofree char *said = close_package ("/dev/full", &error);

  assert_string_equal (said, "");
  assert_true (g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOSPC));
  g_error_free (error);
}

/* --- Numbers ------------------------------------------------------------------------------------------------ */

static const struct
{
  const char *says;
  const char *written, *meant;
} numbers[] = {
  { "what 16 digits cannot say is written in those that can", "<c r=\"A1\" s=\"5\"><v>720.8099999999999</v></c>",
    "<c r=\"A1\" s=\"5\"><v>720.81</v></c>" },
  { "of a formula and below 0 too", "<c r=\"A1\"><f>SUM(A2)</f><v>-8.300000000000001</v></c>",
    "<c r=\"A1\"><f>SUM(A2)</f><v>-8.3</v></c>" },
  { "two beside each other", "<c r=\"A1\"><v>0.6899999999999999</v></c><c r=\"B1\"><v>7</v></c>"
                             "<c r=\"C1\"><v>8302.049999999999</v></c></row>",
    "<c r=\"A1\"><v>0.69</v></c><c r=\"B1\"><v>7</v></c><c r=\"C1\"><v>8302.05</v></c></row>" },
  { "a third stays one", "<c r=\"A1\"><v>0.3333333333333333</v></c>", "<c r=\"A1\"><v>0.3333333333333333</v></c>" },
  { "a text is no number", "<c r=\"A1\" t=\"str\"><f>A2</f><v>720.8099999999999</v></c>",
    "<c r=\"A1\" t=\"str\"><f>A2</f><v>720.8099999999999</v></c>" },
  { "nothing stays nothing", "", "" },
};

static void
test_numbers_are_as_they_were_meant (void **state)
{
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      FILE *rows = tmpfile ();
      char text[256] = "";

      fputs (numbers[i].written, rows);
      assert_int_equal (fflush (rows), 0);
      assert_true (cro_package_mend_numbers (&rows));
      assert_int_equal (ftello (rows), strlen (numbers[i].meant));
      rewind (rows);
      assert_int_equal (fread (text, 1, sizeof text - 1, rows), strlen (numbers[i].meant));
      if (strcmp (text, numbers[i].meant) != 0)
        fail_msg ("%s: %s", numbers[i].says, text);
      fclose (rows);
    }
}

/* Rows of more than a megabyte, read in pieces whose edges fall anywhere: into numbers, and into the longest text that
 * a cell takes. */
static void
test_numbers_are_found_wherever_they_stand (void **state)
{
  g_autoptr (GString) written = g_string_new (NULL), meant = g_string_new (NULL), quotes = g_string_new (NULL);
  g_autofree char *text = NULL;
  FILE *rows = tmpfile ();

  for (guint i = 0; i < 32767; i++)
    g_string_append (quotes, "&quot;");
  for (guint i = 0; i < 20000; i++)
    {
      g_autofree char *before = g_strdup_printf ("<c r=\"A%u\"><v>", i + 1);

      g_string_append_printf (written, "%s720.8099999999999</v></c>", before);
      g_string_append_printf (meant, "%s720.81</v></c>", before);
      if (i % 7000 == 0)
        {
          g_string_append_printf (written, "<c t=\"inlineStr\"><is><t>%s</t></is></c>", quotes->str);
          g_string_append_printf (meant, "<c t=\"inlineStr\"><is><t>%s</t></is></c>", quotes->str);
        }
    }
  assert_int_equal (fwrite (written->str, 1, written->len, rows), written->len);
  assert_int_equal (fflush (rows), 0);
  assert_true (cro_package_mend_numbers (&rows));
  assert_int_equal (ftello (rows), meant->len);
  text = g_malloc (meant->len);
  rewind (rows);
  assert_int_equal (fread (text, 1, meant->len, rows), meant->len);
  assert_memory_equal (text, meant->str, meant->len);
  fclose (rows);
}

/* A double nearest to a number of cents reads back as itself, in the last row as in those before. */
static void
test_cents_are_whole_in_a_file (void **state)
{
  Place *place = *state;
  lxw_workbook_options options = { .constant_memory = LXW_TRUE };
  lxw_workbook *book = workbook_new_opt (place->path, &options);
  lxw_worksheet *sheet = add_sheet (book);
  g_autofree char *part = NULL;
  GError *error = NULL;

  assert_true (g_file_set_contents (place->path, "", 0, NULL));
  worksheet_write_number (sheet, 0, 0, 720.81, NULL);
  worksheet_write_number (sheet, 1, 0, 667.68, NULL);
  if (!cro_package_close (book, place->path, &error))
    fail_msg ("%s", error->message);
  part = dup_part (place->path, "xl/worksheets/sheet1.xml");
  assert_non_null (strstr (part, "<v>720.81</v>"));
  assert_non_null (strstr (part, "<v>667.68</v>"));
}

/* Of a sum of which parts are bounds: of two that point apart nothing is known but that something is missing. */
static void
test_what_is_known_of_a_sum (void **state)
{
  static const struct { CroWorkbookKnown sum, part, both; } cases[] = {
    { CRO_WORKBOOK_WHOLE, CRO_WORKBOOK_WHOLE, CRO_WORKBOOK_WHOLE },
    { CRO_WORKBOOK_WHOLE, CRO_WORKBOOK_AT_MOST, CRO_WORKBOOK_AT_MOST },
    { CRO_WORKBOOK_WHOLE, CRO_WORKBOOK_UNKNOWN, CRO_WORKBOOK_AT_LEAST },
    { CRO_WORKBOOK_AT_LEAST, CRO_WORKBOOK_WHOLE, CRO_WORKBOOK_AT_LEAST },
    { CRO_WORKBOOK_AT_LEAST, CRO_WORKBOOK_UNKNOWN, CRO_WORKBOOK_AT_LEAST },
    { CRO_WORKBOOK_AT_LEAST, CRO_WORKBOOK_AT_MOST, CRO_WORKBOOK_INCOMPLETE },
    { CRO_WORKBOOK_AT_MOST, CRO_WORKBOOK_UNKNOWN, CRO_WORKBOOK_INCOMPLETE },
    { CRO_WORKBOOK_INCOMPLETE, CRO_WORKBOOK_WHOLE, CRO_WORKBOOK_INCOMPLETE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    assert_int_equal (cro_workbook_known_of_sum (cases[i].sum, cases[i].part), cases[i].both);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_sheet_names),
    cmocka_unit_test (test_sheet_name_in_a_formula),
    cmocka_unit_test (test_cell_names),
    cmocka_unit_test (test_marks_are_fnv1a),
    cmocka_unit_test (test_names_that_lose_something_differ),
    cmocka_unit_test (test_formulas),
    IN_A_PLACE (test_an_unfinished_file_leaves_the_old_one),
    IN_A_PLACE (test_a_finished_file_takes_its_place_and_mode),
    IN_A_PLACE (test_a_link_is_followed),
    IN_A_PLACE (test_what_is_no_file_is_refused),
    IN_A_PLACE (test_text_stays_text),
    IN_A_PLACE (test_a_cancelled_workbook_leaves_the_old_one),
    IN_A_PLACE (test_too_many_rows_are_refused),
    IN_A_PLACE (test_packages_cut_short_are_found),
    IN_A_PLACE (test_a_sheet_smaller_than_its_rows_is_found),
    cmocka_unit_test (test_a_full_disk_is_told_by_nobody_else),
    cmocka_unit_test (test_numbers_are_as_they_were_meant),
    cmocka_unit_test (test_numbers_are_found_wherever_they_stand),
    IN_A_PLACE (test_cents_are_whole_in_a_file),
    cmocka_unit_test (test_what_is_known_of_a_sum),
  };

  return cmocka_run_group_tests (tests, NULL, NULL);
}
