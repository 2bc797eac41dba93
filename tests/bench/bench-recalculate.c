/* A book's costs computed anew beside the same in the office's workbook.
 *
 * Beside     A spreadsheet program without a screen that computes every formula of the workbook
 *            anew, as after a change that everything depends on (recalculate.py says how it is
 *            timed). It computes more: what is printed and what must tie, too.
 * Counted    Ours: another day's prices taken, and all three layers rolled up; the median of the
 *            rounds. Theirs: what it takes longer than to open the workbook without that.
 *
 * Usage: bench-recalculate RECALCULATE [FOLDER]   (the script; a folder for the book, default:
 *                                                  that for temporary files) */
#include "bench-check.h"
#include "bench.h"
#include "cro-office.h"
#include "synthetic-tables.h"

#include "cro-date.h"
#include "cro-load.h"

#include <stdio.h>
#include <sys/wait.h>

#define SKIPPED 77
#define N_LINES 100000
#define N_ROUNDS 21

static double
roll_up (CroBook *book)
{
  double seconds[N_ROUNDS];
  CroDate day = cro_date_from_civil (2026, 11, 1);
  GError *error = NULL;

  for (int i = 0; i < N_ROUNDS; i++)
    {
      double start = cro_bench_now ();

      check (cro_book_set_date (book, day + i, &error), error);
      seconds[i] = cro_bench_now () - start;
    }
  return cro_bench_median (seconds, N_ROUNDS);
}

/* Of computing anew; opening takes what opened says beside it. Negative: nothing is there to do
 * it. */
static double
recalculate (const char *script,
             const char *workbook,
             double     *opened)
{
  const char *argv[] = { script, workbook, NULL };
  g_autofree char *printed = NULL;
  GError *error = NULL;
  char *end;
  double seconds;
  int status;

  check (g_spawn_sync (NULL, (char **) argv, NULL, 0, NULL, NULL, &printed, NULL, &status, &error),
         error);
  if (WIFEXITED (status) && WEXITSTATUS (status) == SKIPPED)
    return -1;
  check (g_spawn_check_wait_status (status, &error), error);
  seconds = g_ascii_strtod (printed, &end);
  *opened = g_ascii_strtod (end, NULL);
  return seconds;
}

static int
compare (const char *script,
         const char *folder)
{
  g_autofree char *path = g_build_filename (folder, "recalculate.croustade", NULL);
  g_autofree char *workbook = g_build_filename (folder, "recalculate.xlsx", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  const CroDate month = cro_date_from_civil (2026, 11, 1);
  GError *error = NULL;
  double ours, theirs, opened;

  check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  book = cro_book_open (path, "bench", CRO_STORE_WRITE, month, &error);
  check (book != NULL, error);
  check (cro_office_write_month (book, month, NULL, workbook, NULL, NULL, NULL, NULL, &error), error);
  theirs = recalculate (script, workbook, &opened);
  if (theirs < 0)
    return SKIPPED;
  ours = roll_up (book);
  cro_bench_head ("100 thousand lines");
  cro_bench_row ("all costs anew", ours, "all formulas anew", theirs, ours / theirs, 0);
  printf ("theirs takes %.0f times as long, and %.1f s to open the workbook\n", theirs / ours,
          opened);
  return 0;
}

int
main (int    argc,
      char **argv)
{
  g_autofree char *folder = NULL;
  int status;

  if (argc < 2)
    return SKIPPED;
  folder = cro_synthetic_make_folder (argc > 2 ? argv[2] : NULL, N_LINES);
  status = compare (argv[1], folder);
  cro_synthetic_remove_folder (folder);
  return status;
}
