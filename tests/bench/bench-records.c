/* The packs of the market, sorted and searched.
 *
 * Counted    What the thread of the window works until the list has its rows, in its own processor
 *            time, so that other work on the machine is not in it: the median of the rounds. Keys
 *            are ready, as they are some tenths of a second after the table came on the screen.
 *            60 thousand packs, a price change each.
 * Goal       A frame of a screen that shows 60 a second.
 *
 * Usage: bench-records [FOLDER]   (for the book; default: that for temporary files) */
#include "bench.h"
#include "cro-records.h"
#include "synthetic-tables.h"

#include "cro-load.h"

#include <stdio.h>
#include <string.h>

#define N_ROUNDS 9
#define N_PACKS 60000
#define FRAME_SECONDS (1 / 60.0)
#define MOST_MS 100.0

static void
say (const char *what,
     double     *seconds)
{
  double median = cro_bench_median (seconds, N_ROUNDS);

  cro_bench_row (what, median, "a frame", FRAME_SECONDS, median / FRAME_SECONDS, 1);
}

static void
sort (CroRecords *records,
      guint       column)
{
  g_autofree char *what = g_strdup_printf ("sorted by %s",
                                           cro_records_title (CRO_RECORDS_OFFERS, column));
  double seconds[N_ROUNDS];

  for (int i = 0; i < N_ROUNDS; i++)
    {
      double start = cro_bench_thread_now ();

      cro_records_set_order (records, column, i % 2 == 0);
      seconds[i] = cro_bench_thread_now () - start;
    }
  say (what, seconds);
}

static void
search (CroRecords *records,
        const char *text)
{
  g_autofree char *what = g_strdup_printf ("searched for “%s”", text);
  double seconds[N_ROUNDS];

  for (int i = 0; i < N_ROUNDS; i++)
    {
      double start;

      cro_records_set_search (records, NULL);
      start = cro_bench_thread_now ();
      cro_records_set_search (records, text);
      seconds[i] = cro_bench_thread_now () - start;
    }
  say (what, seconds);
}

static void
run (CroBook *book)
{
  static const char *const texts[] = { "a", "as", "asi 9", "asi 99", "5" };
  double own = cro_bench_thread_now (), read, start;
  CroRecords *records = cro_records_new (book, CRO_RECORDS_OFFERS);

  read = cro_bench_thread_now () - own;
  cro_bench_head ("The market's packs");
  own = cro_bench_thread_now ();
  start = cro_bench_now ();
  cro_records_set_search (records, "zz");
  printf ("%u rows read in %.1f ms of work; found in them at once: %.1f ms of work, %.1f ms in all"
          " (goal %.0f)\n",
          cro_records_get_n_rows (records), 1e3 * read, 1e3 * (cro_bench_thread_now () - own),
          1e3 * (cro_bench_now () - start), MOST_MS);
  cro_records_set_search (records, NULL);
  for (guint c = 0; c < cro_records_n_columns (CRO_RECORDS_OFFERS); c++)
    sort (records, c);
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    search (records, texts[i]);
  g_object_unref (records);
}

int
main (int    argc,
      char **argv)
{
  CroSyntheticMore more = { N_PACKS, 3 };
  g_autofree char *folder = cro_synthetic_make_larger (argc > 1 ? argv[1] : NULL, 1000, more);
  g_autofree char *path = g_build_filename (folder, "records.croustade", NULL);
  g_autoptr (CroFaults) faults = cro_faults_new ();
  g_autoptr (CroBook) book = NULL;
  GError *error = NULL;
  CroDate date = 0;

  cro_date_parse ("2026-12-01", strlen ("2026-12-01"), &date);
  if (!cro_load (path, folder, "bench", "load", FALSE, NULL, NULL, faults, &error))
    g_error ("%s", error != NULL ? error->message : "faults in the tables");
  book = cro_book_open (path, NULL, CRO_STORE_READ, date, &error);
  if (book == NULL)
    g_error ("%s", error->message);
  run (book);
  cro_synthetic_remove_folder (folder);
  return 0;
}
