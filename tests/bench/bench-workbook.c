/* An open book written as the office's workbook.
 *
 * Beside     A bare program that has every cell of that workbook in memory, ready to write, and
 *            writes them with the same library in its constant-memory mode: the same texts,
 *            numbers and formulas with their values, in as many formats. It knows no links,
 *            names, widths, charts or print set-up, and does not bring its file to disk.
 * Counted    From the call until the file is closed, packing included. Memory is the peak of a
 *            child process from the open book on, less what it held then.
 *
 * Goal       1.15 of a book, 1.2 of one with a month of sales.
 *
 * Usage: bench-workbook [--plates] LIST-CELLS DEMO [FOLDER]
 *                                                  (--plates: 10 thousand of them, which takes
 *                                                   minutes; else smaller books; the script that
 *                                                   lists a workbook's cells; the demo's tables; a
 *                                                   folder on the disk to be measured, default: that
 *                                                   for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-office.h"
#include "synthetic-tables.h"

#include "cro-date.h"
#include "cro-load.h"

#include <glib/gstdio.h>
#include <malloc.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>
#include <xlsxwriter.h>

#define SKIPPED 77

/* Whose sheets are written where anything is recorded in it: 2026-11. */
#define MONTH cro_date_from_civil (2026, 11, 1)

#define SEPARATOR '\x1f'
#define MOST_FIELDS 5
#define MOST_KIB 16384

typedef struct
{
  CroBook *book;
  char    *path;         /* of the workbook */
  char    *bare_path;
  char    *cells;        /* as list-cells.py lists them */
  gsize    n_bytes;
  guint    n_styles;
} Bench;

static void
write_ours (void *user_data)
{
  Bench *bench = user_data;
  GError *error = NULL;

  check (cro_office_write_month (bench->book, MONTH, NULL, bench->path, NULL, NULL, NULL, NULL, &error), error);
}

/* --- The bare program ------------------------------------------------------------------------ */

/* Formats that differ, as the library makes one of those that are alike. */
static lxw_format **
make_styles (lxw_workbook *book,
             guint         n)
{
  lxw_format **styles = g_new0 (lxw_format *, n);

  /* The first is the plain one. */
  for (guint i = 1; i < n; i++)
    {
      styles[i] = workbook_add_format (book);
      format_set_num_format_index (styles[i], (guint8) (i % 40));
      format_set_indent (styles[i], (guint8) (1 + i / 40));
    }
  return styles;
}

/* Fields of a record, borrowed from it; their separators become ends. */
static void
split (char  *record,
       char **fields)
{
  for (int i = 0; i < MOST_FIELDS && record != NULL; i++)
    {
      char *end = strchr (record, SEPARATOR);

      fields[i] = record;
      if (end != NULL)
        *end++ = '\0';
      record = end;
    }
}

static void
write_cell (lxw_worksheet *sheet,
            lxw_format   **styles,
            char           kind,
            char          *record)
{
  char *fields[MOST_FIELDS] = { NULL };
  lxw_row_t row;
  lxw_col_t column;
  lxw_format *style;

  split (record, fields);
  row = (lxw_row_t) strtoul (fields[0], NULL, 10);
  column = (lxw_col_t) strtoul (fields[1], NULL, 10);
  style = styles[strtoul (fields[2], NULL, 10)];
  if (kind == 'S')
    worksheet_write_string (sheet, row, column, fields[3], style);
  else if (kind == 'N')
    worksheet_write_number (sheet, row, column, g_ascii_strtod (fields[3], NULL), style);
  else if (kind == 'B')
    worksheet_write_blank (sheet, row, column, style);
  else if (kind == 'F')
    worksheet_write_formula_num (sheet, row, column, fields[3], style,
                                 g_ascii_strtod (fields[4], NULL));
  else
    worksheet_write_formula_str (sheet, row, column, fields[3], style, fields[4]);
}

static void
write_bare (void *user_data)
{
  Bench *bench = user_data;
  lxw_workbook_options options = { .constant_memory = LXW_TRUE };
  lxw_workbook *book = workbook_new_opt (bench->bare_path, &options);
  lxw_format **styles = make_styles (book, bench->n_styles);
  lxw_worksheet *sheet = NULL;
  GString *record = g_string_new (NULL);

  for (const char *p = bench->cells; p < bench->cells + bench->n_bytes; p += record->len + 1)
    {
      g_string_assign (record, p);
      if (*p == 'W')
        sheet = workbook_add_worksheet (book, p + 1);
      else
        write_cell (sheet, styles, *p, record->str + 1);
    }
  g_string_free (record, TRUE);
  g_free (styles);
  if (workbook_close (book) != LXW_NO_ERROR)
    g_error ("the bare workbook was not written");
}

/* --- What is compared ---------------------------------------------------------------------------- */

static guint
n_styles_of (const Bench *bench)
{
  guint n = 1;

  for (const char *p = bench->cells; p < bench->cells + bench->n_bytes; p += strlen (p) + 1)
    if (*p != 'W')
      {
        const char *style = strchr (strchr (p, SEPARATOR) + 1, SEPARATOR) + 1;

        n = MAX (n, 1 + (guint) strtoul (style, NULL, 10));
      }
  return n;
}

static void
list_cells (Bench      *bench,
            const char *script)
{
  g_autofree char *list = g_strconcat (bench->path, ".cells", NULL);
  const char *argv[] = { script, bench->path, list, NULL };
  GError *error = NULL;
  int status;

  check (g_spawn_sync (NULL, (char **) argv, NULL, 0, NULL, NULL, NULL, NULL, &status, &error),
         error);
  check (g_spawn_check_wait_status (status, &error), error);
  check (g_file_get_contents (list, &bench->cells, &bench->n_bytes, &error), error);
  bench->n_styles = n_styles_of (bench);
  g_unlink (list);
}

static void
print_kinds (const Bench *bench)
{
  guint n[256] = { 0 };
  GStatBuf ours, bare;

  for (const char *p = bench->cells; p < bench->cells + bench->n_bytes; p += strlen (p) + 1)
    n[(guchar) *p]++;
  g_stat (bench->path, &ours);
  g_stat (bench->bare_path, &bare);
  printf ("%u sheets: %u texts, %u numbers, %u empty, %u formulas; %.2f MB, bare %.2f MB\n",
          n['W'], n['S'], n['N'], n['B'], n['F'] + n['T'], (double) ours.st_size / 1e6,
          (double) bare.st_size / 1e6);
}

/* --- Memory --------------------------------------------------------------------------------------- */

/* KiB that Linux tells of this process. */
static long
status_of (const char *key)
{
  g_autofree char *status = NULL;
  const char *found;

  if (!g_file_get_contents ("/proc/self/status", &status, NULL, NULL))
    return -1;
  found = strstr (status, key);
  return found == NULL ? -1 : strtol (found + strlen (key), NULL, 10);
}

/* Lets the peak begin anew (proc(5)). */
static gboolean
forget_peak (void)
{
  FILE *file = fopen ("/proc/self/clear_refs", "w");
  gboolean done = file != NULL && fputs ("5", file) >= 0;

  return file != NULL && fclose (file) == 0 && done;
}

/* What lies free from opening the book is given back first. */
static long
peak_of_writing (Bench *bench)
{
  long before;

  malloc_trim (0);
  if (!forget_peak ())
    return -1;
  before = status_of ("VmHWM:");
  write_ours (bench);
  return status_of ("VmHWM:") - before;
}

/* In a child of its own, as what this process held before would hide it. */
static void
print_memory (const char *program,
              const char *book,
              const char *workbook)
{
  const char *argv[] = { program, "--memory", book, workbook, NULL };
  g_autofree char *printed = NULL;
  GError *error = NULL;
  long kib;

  check (g_spawn_sync (NULL, (char **) argv, NULL, 0, NULL, NULL, &printed, NULL, NULL, &error),
         error);
  kib = strtol (printed, NULL, 10);
  if (kib < 0)
    printf ("memory above the open book: not told by this system\n");
  else
    printf ("memory above the open book: %.2f MiB; goal %.0f MiB, %s\n", (double) kib / 1024,
            MOST_KIB / 1024.0, kib <= MOST_KIB ? "met" : "missed");
}

static CroBook *
open_book (const char *path)
{
  GError *error = NULL;
  CroBook *book = cro_book_open (path, "bench", CRO_STORE_WRITE,
                                 cro_date_from_civil (2026, 11, 30), &error);

  check (book != NULL, error);
  return book;
}

static int
measure_memory (const char *book,
                const char *workbook)
{
  Bench bench = { .book = open_book (book), .path = (char *) workbook };

  printf ("%ld\n", peak_of_writing (&bench));
  g_object_unref (bench.book);
  return 0;
}

/* --- Sizes ------------------------------------------------------------------------------------------ */

static void
compare (const char *program,
         const char *script,
         const char *tables,
         const char *folder,
         const char *title,
         gsize       rounds)
{
  g_autofree char *path = g_build_filename (folder, "workbook.croustade", NULL);
  Bench bench = { .path = g_build_filename (folder, "ours.xlsx", NULL),
                  .bare_path = g_build_filename (folder, "bare.xlsx", NULL) };
  g_autoptr (CroFaults) faults = cro_faults_new ();
  GError *error = NULL;
  CroBenchPair pair;

  check (cro_load (path, tables, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  print_memory (program, path, bench.path);
  bench.book = open_book (path);
  write_ours (&bench);
  list_cells (&bench, script);
  cro_bench_head (title);
  pair = cro_bench_pair (write_ours, write_bare, &bench, rounds, 1);
  cro_bench_row_of ("workbook", "the same cells, bare", &pair, 1.15);
  print_kinds (&bench);
  g_object_unref (bench.book);
  g_free (bench.path);
  g_free (bench.bare_path);
  g_free (bench.cells);
}

/* n_sales: rows of the month; 0: nothing is recorded in it. */
static void
compare_synthetic (char      **argv,
                   const char *parent,
                   const char *title,
                   gsize       n_lines,
                   gsize       n_sales,
                   gsize       rounds)
{
  g_autofree char *folder = cro_synthetic_make_folder (parent, n_lines);

  if (n_sales > 0)
    cro_synthetic_add_sales (folder, "2026-11", n_sales);
  compare (argv[0], argv[1], folder, folder, title, rounds);
  cro_synthetic_remove_folder (folder);
}

int
main (int    argc,
      char **argv)
{
  gboolean is_of_plates = argc > 1 && strcmp (argv[1], "--plates") == 0;
  const char *parent;
  g_autofree char *empty = NULL;

  if (argc == 4 && strcmp (argv[1], "--memory") == 0)
    return measure_memory (argv[2], argv[3]);
  if (is_of_plates)
    {
      argv[1] = argv[0];
      argc--, argv++;
    }
  if (argc < 3)
    return SKIPPED;
  parent = argc > 3 ? argv[3] : NULL;
  if (is_of_plates)
    {
      compare_synthetic (argv, parent, "10 thousand plates, 400 thousand lines, a month of 100 thousand sales",
                         400000, 100000, 3);
      return 0;
    }
  empty = cro_synthetic_make_folder (parent, 100);
  compare (argv[0], argv[1], argv[2], empty, "the demo", 21);
  cro_synthetic_remove_folder (empty);
  compare_synthetic (argv, parent, "10 thousand lines", 10000, 0, 9);
  compare_synthetic (argv, parent, "10 thousand lines, a month of 10 thousand sales", 10000, 10000, 9);
  compare_synthetic (argv, parent, "100 thousand lines", 100000, 0, 5);
  return 0;
}
