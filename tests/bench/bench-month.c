/* A month's statement of an open book.
 *
 * Beside     The figures of the same book on each day of the month: one sweep a day.
 * Counted    From the call until the statement stands; recipes as they stood, which are a copy of the book,
 *            are among it. */
#include "bench-check.h"
#include "bench.h"
#include "cro-month.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#include <stdio.h>

#define FIRST cro_date_from_civil (2026, 10, 1)

static void
make_month (void *user_data)
{
  GError *error = NULL;
  CroMonth *month = cro_month_new (user_data, FIRST, FALSE, &error);

  check (month != NULL, error);
  cro_month_free (month);
}

static void
sweep_days (void *user_data)
{
  GError *error = NULL;

  for (CroDate day = FIRST; day < cro_month_next (FIRST); day++)
    check (cro_book_set_date (user_data, day, &error), error);
}

static void
compare (const char *title,
         gsize       n_lines,
         gsize       n_sales,
         gsize       rounds)
{
  g_autofree char *folder = cro_synthetic_make_folder (NULL, n_lines);
  g_autofree char *path = g_build_filename (folder, "month.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  GError *error = NULL;
  CroBenchPair pair;

  cro_synthetic_add_sales (folder, "2026-10", n_sales);
  check (cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error), error);
  book = cro_book_open (path, NULL, CRO_STORE_READ, cro_month_next (FIRST) - 1, &error);
  check (book != NULL, error);
  cro_bench_head (title);
  pair = cro_bench_pair (make_month, sweep_days, book, rounds, 1);
  cro_bench_row_of ("the month's statement", "one sweep a day", &pair, 2.0);
  cro_synthetic_remove_folder (folder);
}

int
main (void)
{
  compare ("10 thousand lines, 10 thousand sales", 10000, 10000, 5);
  compare ("10 thousand plates, 400 thousand lines, 100 thousand sales", 400000, 100000, 3);
  return 0;
}
