/* A spreadsheet of 100 thousand rows, read row by row.
 *
 * Beside     Of a workbook: libarchive unpacks its sheet and its texts, and an xmlTextReader walks
 *            over their nodes. Of delimited text: libcsv parses the file. Neither keeps anything.
 * Counted    Eight cells a row, as a supplier's list has them: a code, two texts that are shared by
 *            many rows, numbers, a date, a percentage; or two, at the two ends of a row. Ours counts the
 *            characters of the first eight that it is handed.
 *
 * Usage: bench-spreadsheet [FOLDER]   (for the files; default: that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-spreadsheet.h"

#include <archive.h>
#include <archive_entry.h>
#include <csv.h>
#include <glib/gstdio.h>
#include <libxml/xmlreader.h>
#include <stdio.h>
#include <string.h>
#include <xlsxwriter.h>

#define N_ROWS 100000
#define BLOCK 65536

#define N_COLUMNS 8

typedef struct
{
  const char *path;
  gsize       n_cells;
  gsize       n_characters;
} Bench;

/* --- The files -------------------------------------------------------------------------------- */

static void
write_workbook (const char *path)
{
  lxw_workbook *book = workbook_new (path);
  lxw_worksheet *sheet = workbook_add_worksheet (book, NULL);
  lxw_format *day = workbook_add_format (book), *part = workbook_add_format (book);

  format_set_num_format (day, "yyyy-mm-dd");
  format_set_num_format (part, "0.0%");
  for (guint i = 0; i < N_ROWS; i++)
    {
      g_autofree char *code = g_strdup_printf ("Q-%06u", i);
      g_autofree char *name = g_strdup_printf ("Ingredient %u of the estuary", i % 5000);
      g_autofree char *supplier = g_strdup_printf ("Quay %u", i % 40);

      worksheet_write_string (sheet, i, 0, code, NULL);
      worksheet_write_string (sheet, i, 1, name, NULL);
      worksheet_write_string (sheet, i, 2, supplier, NULL);
      worksheet_write_number (sheet, i, 3, 1 + i % 12, NULL);
      worksheet_write_number (sheet, i, 4, 0.25 * (i % 40), NULL);
      worksheet_write_number (sheet, i, 5, 46000 + i % 300, day);
      worksheet_write_number (sheet, i, 6, 3.5 + 0.01 * (i % 9000), NULL);
      worksheet_write_number (sheet, i, 7, 0.005 * (i % 200), part);
    }
  if (workbook_close (book) != LXW_NO_ERROR)
    g_error ("%s: not written", path);
}

/* What is asked of them must not depend on where they stand. */
static void
write_far (const char *path)
{
  lxw_workbook *book = workbook_new (path);
  lxw_worksheet *sheet = workbook_add_worksheet (book, NULL);

  for (guint i = 0; i < N_ROWS; i++)
    {
      worksheet_write_number (sheet, i, 0, i, NULL);
      worksheet_write_number (sheet, i, CRO_SPREADSHEET_MOST_COLUMNS - 1, i, NULL);
    }
  if (workbook_close (book) != LXW_NO_ERROR)
    g_error ("%s: not written", path);
}

static void
write_text (const char *path)
{
  FILE *file = fopen (path, "w");

  if (file == NULL)
    g_error ("%s: cannot be written", path);
  for (guint i = 0; i < N_ROWS; i++)
    fprintf (file, "Q-%06u,Ingredient %u of the estuary,\"Quay, %u\",%u,%.2f,2026-%02u-01,%.2f,%.1f%%\n",
             i, i % 5000, i % 40, 1 + i % 12, 0.25 * (i % 40), 1 + i % 12, 3.5 + 0.01 * (i % 9000),
             0.5 * (i % 200));
  if (fclose (file) != 0)
    g_error ("%s: not written", path);
}

/* --- Ours ------------------------------------------------------------------------------------- */

static gboolean
take_row (guint              row,
          const CroReadCell *cells,
          guint              n_cells,
          gpointer           user_data)
{
  Bench *bench = user_data;

  for (guint i = 0; i < MIN (n_cells, N_COLUMNS); i++)
    bench->n_characters += strlen (cells[i].text);
  bench->n_cells += MIN (n_cells, N_COLUMNS);
  return TRUE;
}

static void
read_ours (void *user_data)
{
  static const CroSpreadsheetTaker taker = { .row = take_row };
  Bench *bench = user_data;
  GError *error = NULL;

  bench->n_cells = 0;
  check (cro_spreadsheet_read (bench->path, 0, &taker, bench, &error), error);
  if (bench->n_cells != N_COLUMNS * N_ROWS)
    g_error ("%s: %" G_GSIZE_FORMAT " cells", bench->path, bench->n_cells);
}

/* --- Beside it -------------------------------------------------------------------------------- */

static int
read_part (void *package,
           char *bytes,
           int   n)
{
  return (int) archive_read_data (package, bytes, (size_t) n);
}

static void
walk_part (struct archive *package)
{
  xmlTextReader *reader = xmlReaderForIO (read_part, NULL, package, NULL, NULL, XML_PARSE_HUGE);
  int status;

  while ((status = xmlTextReaderRead (reader)) == 1)
    ;
  if (status != 0)
    g_error ("a part of the workbook is no XML");
  xmlFreeTextReader (reader);
}

static void
walk_workbook (void *user_data)
{
  Bench *bench = user_data;
  struct archive *package = archive_read_new ();
  struct archive_entry *part;

  archive_read_support_format_zip_seekable (package);
  if (archive_read_open_filename (package, bench->path, BLOCK) != ARCHIVE_OK)
    g_error ("%s: %s", bench->path, archive_error_string (package));
  while (archive_read_next_header (package, &part) == ARCHIVE_OK)
    if (g_str_has_prefix (archive_entry_pathname (part), "xl/worksheets/sheet")
        || g_str_equal (archive_entry_pathname (part), "xl/sharedStrings.xml"))
      walk_part (package);
  archive_read_free (package);
}

static void
pass_field (void  *text,
            size_t length,
            void  *user_data)
{
  ((Bench *) user_data)->n_characters += length;
}

static void
pass_row (int   end,
          void *user_data)
{
}

static void
parse_text (void *user_data)
{
  Bench *bench = user_data;
  FILE *file = fopen (bench->path, "r");
  struct csv_parser parser;
  static char bytes[BLOCK];
  gsize n;

  if (file == NULL || csv_init (&parser, 0) != 0)
    g_error ("%s: cannot be read", bench->path);
  while ((n = fread (bytes, 1, sizeof bytes, file)) > 0)
    csv_parse (&parser, bytes, n, pass_field, pass_row, bench);
  csv_fini (&parser, pass_field, pass_row, bench);
  csv_free (&parser);
  fclose (file);
}

/* ---------------------------------------------------------------------------------------------- */

static void
compare (const char  *folder,
         const char  *name,
         void       (*write) (const char *path),
         CroBenchRun  beside,
         const char  *what)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  Bench bench = { .path = path };
  CroBenchPair pair;

  write (path);
  pair = cro_bench_pair (read_ours, beside, &bench, 7, 1);
  cro_bench_row_of (name, what, &pair, 1.5);
  g_unlink (path);
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = g_build_filename (argc > 1 ? argv[1] : g_get_tmp_dir (),
                                              "spreadsheet-XXXXXX", NULL);

  if (g_mkdtemp (folder) == NULL)
    g_error ("%s: cannot be made", folder);
  cro_bench_head ("100 thousand rows");
  compare (folder, "list.xlsx", write_workbook, walk_workbook, "archive and xmlTextReader");
  compare (folder, "far.xlsx", write_far, walk_workbook, "archive and xmlTextReader");
  compare (folder, "list.csv", write_text, parse_text, "libcsv");
  g_rmdir (folder);
  return 0;
}
